//! Questions about the water that a food holds in humid air.

use super::PER_CENT;
use crate::calc::{Answer, CalcError, Family, Given, Input, Kind, Need, Output, Question};
use crate::physics::sorption::{
    GLASS_FORMERS, Gab, ISOTHERMS, Isotherm, MONOLAYERS, SorptionLaw, WATER_GLASS_TRANSITION,
    glass_former, glass_transition, isotherm_of, moisture_at_glass_transition, moisture_of_share,
    monolayer_of, roos_constant, water_share,
};
use crate::quantity::{Dimension, Temperature};

const MODELS: &[&str] = &["gab", "bet", "modified-henderson", "chung-pfost"];
const FOOD: Input = Input {
    name: "food",
    kind: Kind::Text,
    need: Need::Optional,
    help: "A food whose isotherm is published; else give the constants",
};
const MODEL: Input = Input::choice("model", MODELS, "Law, when constants are given");
const TEMPERATURE: Input =
    Input::optional("temperature", Dimension::Temperature, "Of food and air; 25 °C unless given");
const CONSTANTS: [Input; 6] = [
    Input::optional(
        "monolayer",
        Dimension::Fraction,
        "GAB and BET: monolayer moisture m0, kg per kg dry",
    ),
    Input::optional("c", Dimension::Fraction, "Constant C of the law"),
    Input::optional("k", Dimension::Fraction, "GAB: constant K"),
    Input::optional("a", Dimension::Fraction, "Modified Henderson, Chung-Pfost: constant A"),
    Input::optional("b", Dimension::Fraction, "Chung-Pfost: constant B"),
    Input::optional("n", Dimension::Fraction, "Modified Henderson: constant N"),
];

/// Moisture from water activity.
pub(super) const MOISTURE: Question = Question {
    name: "moisture",
    other_names: &["sorption", "isotherm", "equilibrium-moisture", "gab", "bet"],
    family: Family::Drying,
    summary: "How much water a food holds in air of a given humidity (water activity)",
    example: "moisture --food maize --water-activity 0.6 --temperature \"25 °C\"",
    inputs: &[
        Input::required("water-activity", Dimension::Fraction, "Or relative humidity of the air"),
        FOOD,
        MODEL,
        TEMPERATURE,
        CONSTANTS[0],
        CONSTANTS[1],
        CONSTANTS[2],
        CONSTANTS[3],
        CONSTANTS[4],
        CONSTANTS[5],
    ],
    outputs: &[
        Output { key: "moisture_kg_kg_dry", label: "water per dry matter", unit: "kg/kg" },
        Output { key: "moisture_percent_dry", label: "water per dry matter", unit: "%" },
        Output { key: "water_share_percent", label: "water in the food", unit: "%" },
        Output { key: "monolayer_kg_kg_dry", label: "monolayer", unit: "kg/kg" },
    ],
    answer: moisture,
};

/// Water activity from moisture.
pub(super) const ACTIVITY: Question = Question {
    name: "water-activity",
    other_names: &["aw", "activity", "inverse-isotherm"],
    family: Family::Drying,
    summary: "The water activity of a dried food from the water that it holds",
    example: "water-activity --food potato --moisture 0.1 --temperature \"40 °C\"",
    inputs: &[
        Input::optional("moisture", Dimension::Fraction, "Water per dry matter, kg per kg dry"),
        Input::optional("water-share", Dimension::Fraction, "Instead: water per whole food"),
        FOOD,
        MODEL,
        TEMPERATURE,
        CONSTANTS[0],
        CONSTANTS[1],
        CONSTANTS[2],
        CONSTANTS[3],
        CONSTANTS[4],
        CONSTANTS[5],
    ],
    outputs: &[
        Output { key: "water_activity", label: "water activity", unit: "" },
        Output { key: "moisture_kg_kg_dry", label: "water per dry matter", unit: "kg/kg" },
        Output { key: "water_share_percent", label: "water in the food", unit: "%" },
    ],
    answer: activity,
};

/// A law, the temperature to ask it at and where its constants come from.
struct Asked {
    law: SorptionLaw,
    temperature: Temperature,
    source: Option<&'static str>,
}

fn asked(given: &Given) -> Result<Asked, CalcError> {
    const ROOM: Temperature = Temperature::from_celsius(25.0);
    let temperature = given.optional_temperature("temperature").unwrap_or(ROOM);
    if !given.has("food") {
        return Ok(Asked { law: law(given)?, temperature, source: None });
    }
    let name = given.word("food");
    let by_model = match given.word("model") {
        "chung-pfost" => isotherm_of(&format!("{name} by Chung-Pfost")),
        _ => isotherm_of(name),
    };
    let isotherm = by_model.or_else(|| isotherm_of(name)).ok_or_else(|| {
        let known: Vec<&str> = ISOTHERMS.iter().map(|isotherm| isotherm.food).collect();
        let known = known.join(", ");
        CalcError::combination(format!("no isotherm of `{name}` is known; known: {known}"))
    })?;
    agrees(isotherm, given.word("model"))?;
    isotherm.check(temperature)?;
    Ok(Asked { law: isotherm.law, temperature, source: Some(isotherm.source) })
}

/// Refuses another law than the one by which the food was measured; the first model is the default.
fn agrees(isotherm: &Isotherm, model: &str) -> Result<(), CalcError> {
    let known = match isotherm.law {
        SorptionLaw::Gab(_) | SorptionLaw::GabOverTemperature(_) => "gab",
        SorptionLaw::Bet { .. } => "bet",
        SorptionLaw::ModifiedHenderson { .. } => "modified-henderson",
        SorptionLaw::ChungPfost { .. } => "chung-pfost",
    };
    if model == MODELS[0] || model == known {
        return Ok(());
    }
    let food = isotherm.food;
    Err(CalcError::combination(format!("{food} is known by the {known} law; leave out `model`")))
}

fn law(given: &Given) -> Result<SorptionLaw, CalcError> {
    let model = given.word("model");
    let constant = |name: &str| {
        given.optional_number(name).ok_or_else(|| {
            CalcError::combination(format!("the {model} law needs `{name}`, or give `food`"))
        })
    };
    Ok(match model {
        "bet" => SorptionLaw::Bet { monolayer: constant("monolayer")?, c: constant("c")? },
        "modified-henderson" => SorptionLaw::ModifiedHenderson {
            a: constant("a")?,
            n: constant("n")?,
            c: constant("c")?,
        },
        "chung-pfost" => {
            SorptionLaw::ChungPfost { a: constant("a")?, b: constant("b")?, c: constant("c")? }
        }
        _ => SorptionLaw::Gab(Gab {
            monolayer: constant("monolayer")?,
            c: constant("c")?,
            k: constant("k")?,
        }),
    })
}

fn monolayer(asked: &Asked) -> Option<f64> {
    match asked.law {
        SorptionLaw::Gab(gab) => Some(gab.monolayer),
        SorptionLaw::Bet { monolayer, .. } => Some(monolayer),
        SorptionLaw::GabOverTemperature(gab) => Some(gab.at(asked.temperature).monolayer),
        SorptionLaw::ModifiedHenderson { .. } | SorptionLaw::ChungPfost { .. } => None,
    }
}

fn with_source(answer: Answer, asked: &Asked) -> Answer {
    match asked.source {
        Some(source) => answer.remark(format!("isotherm: {source}")),
        None => answer,
    }
}

fn moisture(given: &Given) -> Result<Answer, CalcError> {
    let asked = asked(given)?;
    let x = asked.law.moisture(given.number("water-activity"), asked.temperature)?;
    let answer = Answer::new()
        .with("moisture_kg_kg_dry", x)
        .with("moisture_percent_dry", PER_CENT * x)
        .with("water_share_percent", PER_CENT * water_share(x)?)
        .with_optional("monolayer_kg_kg_dry", monolayer(&asked));
    Ok(with_source(answer, &asked))
}

fn activity(given: &Given) -> Result<Answer, CalcError> {
    let asked = asked(given)?;
    let x = match (given.optional_number("moisture"), given.optional_number("water-share")) {
        (Some(x), None) => x,
        (None, Some(share)) => moisture_of_share(share)?,
        _ => return Err(CalcError::combination("give one of `moisture` and `water-share`")),
    };
    let answer = Answer::new()
        .with("water_activity", asked.law.activity(x, asked.temperature)?)
        .with("moisture_kg_kg_dry", x)
        .with("water_share_percent", PER_CENT * water_share(x)?);
    Ok(with_source(answer, &asked))
}

/// The monolayer of a food.
pub(super) const MONOLAYER: Question = Question {
    name: "monolayer",
    other_names: &["gab-monolayer", "driest-stable"],
    family: Family::Drying,
    summary: "The monolayer moisture at which a dried food keeps longest, over the temperatures measured",
    example: "monolayer --food banana",
    inputs: &[Input::text("food", "A food whose monolayer is published")],
    outputs: &[
        Output { key: "gab_monolayer_min_kg_kg_dry", label: "smallest", unit: "kg/kg" },
        Output { key: "gab_monolayer_max_kg_kg_dry", label: "largest", unit: "kg/kg" },
    ],
    answer: monolayer_question,
};

fn monolayer_question(given: &Given) -> Result<Answer, CalcError> {
    let name = given.word("food");
    let ((low, high), source) = monolayer_of(name).ok_or_else(|| {
        let listed = MONOLAYERS.iter().map(|entry| entry.food);
        let fitted = ISOTHERMS.iter().map(|isotherm| isotherm.food);
        let known: Vec<&str> =
            listed.chain(fitted.filter(|food| monolayer_of(food).is_some())).collect();
        let known = known.join(", ");
        CalcError::combination(format!("no monolayer of `{name}` is known; known: {known}"))
    })?;
    Ok(Answer::new()
        .with("gab_monolayer_min_kg_kg_dry", low)
        .with("gab_monolayer_max_kg_kg_dry", high)
        .remark(source))
}

/// Whether dry matter is a glass.
pub(super) const GLASS: Question = Question {
    name: "glass",
    other_names: &["glass-transition", "gordon-taylor", "stickiness"],
    family: Family::Drying,
    summary: "When a dried food turns sticky: its glass transition, and the water it may hold",
    example: "glass --substance lactose --storage-temperature \"24 °C\"",
    inputs: &[
        Input {
            name: "substance",
            kind: Kind::Text,
            need: Need::Optional,
            help: "Main dry matter: sucrose, glucose, fructose, lactose, maltodextrin DE 10, ...",
        },
        Input::optional(
            "dry-glass-transition",
            Dimension::Temperature,
            "Instead of the substance: of the dry matter",
        ),
        Input::optional(
            "gordon-taylor",
            Dimension::Fraction,
            "Gordon-Taylor constant against water; from Roos' rule for sugars unless given",
        ),
        Input::optional("water-share", Dimension::Fraction, "Water in the food"),
        Input::optional("storage-temperature", Dimension::Temperature, "Of the store"),
    ],
    outputs: &[
        Output { key: "glass_transition_c", label: "glass transition", unit: "°C" },
        Output { key: "dry_glass_transition_c", label: "of the dry matter", unit: "°C" },
        Output { key: "critical_water_g_100g", label: "sticky above this water", unit: "g/100 g" },
        Output {
            key: "critical_moisture_kg_kg_dry",
            label: "the same, per dry matter",
            unit: "kg/kg",
        },
        Output { key: "gordon_taylor_constant", label: "Gordon-Taylor constant", unit: "" },
    ],
    answer: glass,
};

fn glass(given: &Given) -> Result<Answer, CalcError> {
    let (dry, constant) = dry_matter(given)?;
    let at = match given.optional_number("water-share") {
        Some(water) => Some(glass_transition(dry, constant, water)?.celsius()),
        None => None,
    };
    let critical = match given.optional_temperature("storage-temperature") {
        Some(store) => Some(moisture_at_glass_transition(dry, constant, store)?),
        None => None,
    };
    Ok(Answer::new()
        .with_optional("glass_transition_c", at)
        .with("dry_glass_transition_c", dry.celsius())
        .with_optional("critical_water_g_100g", critical.map(|share| PER_CENT * share))
        .with_optional("critical_moisture_kg_kg_dry", critical.map(|share| share / (1.0 - share)))
        .with("gordon_taylor_constant", constant)
        .remark(format!(
            "water itself is taken as a glass below {:.0} °C",
            WATER_GLASS_TRANSITION.celsius()
        )))
}

fn dry_matter(given: &Given) -> Result<(Temperature, f64), CalcError> {
    let constant = given.optional_number("gordon-taylor");
    if let Some(dry) = given.optional_temperature("dry-glass-transition") {
        let constant = match constant {
            Some(constant) => constant,
            None => roos_constant(dry)?,
        };
        return Ok((dry, constant));
    }
    let name = given.word("substance");
    let former = glass_former(name).ok_or_else(|| {
        let known: Vec<&str> = GLASS_FORMERS.iter().map(|former| former.name).collect();
        let known = known.join(", ");
        CalcError::combination(format!(
            "give `dry-glass-transition` or one of these as `substance`: {known}"
        ))
    })?;
    Ok((former.dry, constant.unwrap_or(former.constant)))
}
