//! Questions about salt brines and ice-salt baths.

use super::super::{Answer, CalcError, Family, Given, Input, Output, Question};
use super::with_result;
use crate::physics::brine::{self, Bath, Salt};
use crate::physics::solutions::{Solute, Solution};
use crate::quantity::{Dimension, Temperature};

const PER_CENT: f64 = 100.0;
const SALTS: &[&str] = &["table-salt", "calcium-chloride", "NaCl", "CaCl2"];

fn salt_of(given: &Given) -> Salt {
    match given.word("salt") {
        "calcium-chloride" | "CaCl2" => Salt::CalciumChloride,
        _ => Salt::SodiumChloride,
    }
}

/// What a brine is like.
pub(super) const BRINE: Question = Question {
    name: "brine",
    other_names: &["salt-water", "pickle-brine", "sodium-chloride"],
    family: Family::Solutions,
    summary: "When salt water freezes and boils, how dry it makes food, and what water can hold",
    example: "brine --salt table-salt --share \"10 %\"",
    inputs: &[
        Input::choice("salt", SALTS, "Which salt, without its crystal water"),
        Input::optional("share", Dimension::Fraction, "Salt by mass of the brine"),
        Input::optional("molality", Dimension::Molality, "Instead: mol salt per kg water"),
        Input::with_default("temperature", Dimension::Temperature, "25 °C", "Its temperature"),
        Input::with_default(
            "pressure",
            Dimension::Pressure,
            "101.325 kPa",
            "Pressure under which it boils",
        ),
    ],
    outputs: &[
        Output { key: "freezing_point_c", label: "first ice", unit: "°C" },
        Output { key: "water_activity", label: "water activity", unit: "" },
        Output { key: "boiling_point_c", label: "boils", unit: "°C" },
        Output { key: "boiling_point_rise_k", label: "above water", unit: "K" },
        Output { key: "salt_share_fraction", label: "salt by mass", unit: "" },
        Output { key: "molality_mol_kg", label: "salt per water", unit: "mol/kg" },
        Output { key: "eutectic_mass_fraction", label: "strongest useful brine", unit: "" },
        Output { key: "eutectic_temperature_c", label: "coldest liquid", unit: "°C" },
        Output { key: "solubility_mass_percent", label: "saturated brine", unit: "%" },
        Output { key: "water_activity_saturated", label: "activity when saturated", unit: "" },
    ],
    answer: brine_question,
};

fn brine_question(given: &Given) -> Result<Answer, CalcError> {
    let (salt, temperature) = (salt_of(given), given.temperature("temperature"));
    let share = match (given.optional_number("share"), given.optional_number("molality")) {
        (Some(_), Some(_)) => {
            return Err(CalcError::combination("give `share` or `molality`, not both"));
        }
        (Some(share), None) => Some(share),
        (None, Some(molality)) => Some(brine::share_from_molality(salt, molality)?),
        (None, None) => None,
    };
    let mut answer = Answer::new();
    if let Some(share) = share {
        let freezing = brine::freezing_point(salt, share).map(Temperature::celsius);
        answer = with_result(answer, "freezing_point_c", freezing)
            .with("salt_share_fraction", share)
            .with("molality_mol_kg", brine::molality(salt, share)?);
    }
    answer = answer
        .with("eutectic_mass_fraction", brine::eutectic_share(salt))
        .with("eutectic_temperature_c", brine::eutectic_temperature(salt).celsius());
    if salt == Salt::CalciumChloride {
        return Ok(answer.remark(
            "sources put the lowest point of calcium chloride brine between -49.8 and -55 °C; \
             it is caustic to hands and not for contact with food",
        ));
    }
    table_salt(answer, given, share, temperature)
}

fn table_salt(
    mut answer: Answer,
    given: &Given,
    share: Option<f64>,
    temperature: Temperature,
) -> Result<Answer, CalcError> {
    if let Some(share) = share {
        let molality = brine::molality(Salt::SodiumChloride, share)?;
        let solution = Solution::from_shares(&[(Solute::Salt, share)])?;
        let pressure = given.pressure("pressure");
        let boiling = solution.boiling_point(pressure).map(Temperature::celsius);
        let rise = solution.boiling_point_rise(pressure).map(|d| d.kelvin());
        let activity = brine::water_activity(molality, temperature);
        answer = with_result(answer, "water_activity", activity);
        answer = with_result(answer, "boiling_point_c", boiling);
        answer = with_result(answer, "boiling_point_rise_k", rise);
    }
    let saturated = brine::solubility_share(temperature);
    let dry = saturated.clone().and_then(|share| {
        brine::water_activity(brine::molality(Salt::SodiumChloride, share)?, temperature)
    });
    let percent = saturated.map(|share| PER_CENT * share);
    answer = with_result(answer, "solubility_mass_percent", percent);
    Ok(with_result(answer, "water_activity_saturated", dry))
}

/// How much salt keeps a brine liquid.
pub(super) const BRINE_FOR: Question = Question {
    name: "brine-for",
    other_names: &["salt-for", "antifreeze-brine"],
    family: Family::Solutions,
    summary: "How much salt keeps a brine liquid at a temperature",
    example: "brine-for --temperature \"-12 °C\" --water \"2 kg\"",
    inputs: &[
        Input::choice("salt", SALTS, "Which salt, without its crystal water"),
        Input::required("temperature", Dimension::Temperature, "Where it should begin to freeze"),
        Input::with_default("water", Dimension::Mass, "1 kg", "Water to be salted"),
    ],
    outputs: &[
        Output { key: "salt_share_fraction", label: "salt by mass of the brine", unit: "" },
        Output { key: "salt_kg", label: "salt", unit: "kg" },
    ],
    answer: brine_for,
};

fn brine_for(given: &Given) -> Result<Answer, CalcError> {
    let share = brine::share_at_freezing_point(salt_of(given), given.temperature("temperature"))?;
    let salt = given.mass("water").kilograms() * share / (1.0 - share);
    Ok(Answer::new().with("salt_share_fraction", share).with("salt_kg", salt))
}

/// How cold a bath of ice and salt gets, and how long it lasts.
pub(super) const COLD_BATH: Question = Question {
    name: "cold-bath",
    other_names: &["ice-salt", "ice-bath", "freezing-mixture"],
    family: Family::Solutions,
    summary: "How cold ice and salt get, and how much heat they take up before they warm",
    example: "cold-bath --ice \"2 kg\" --salt \"500 g\" --water \"300 g\" --limit \"-15 °C\"",
    inputs: &[
        Input::required("ice", Dimension::Mass, "Crushed ice"),
        Input::required("salt", Dimension::Mass, "Table salt"),
        Input::with_default("water", Dimension::Mass, "0 kg", "Water poured in"),
        Input::with_default("ice-temperature", Dimension::Temperature, "-2 °C", "Of the ice"),
        Input::with_default(
            "water-temperature",
            Dimension::Temperature,
            "15 °C",
            "Of the water and the salt",
        ),
        Input::optional("limit", Dimension::Temperature, "Warmest the bath may get"),
    ],
    outputs: &[
        Output { key: "bath_temperature_c", label: "bath after stirring", unit: "°C" },
        Output { key: "ice_left_kg", label: "ice left", unit: "kg" },
        Output { key: "brine_share_fraction", label: "salt in the brine", unit: "" },
        Output { key: "salt_undissolved_kg", label: "salt left dry", unit: "kg" },
        Output { key: "heat_until_limit_j", label: "heat taken up to the limit", unit: "J" },
    ],
    answer: cold_bath,
};

fn cold_bath(given: &Given) -> Result<Answer, CalcError> {
    /// Skin freezes in minutes against metal or brine below this [°C]: common practice.
    const GLOVES_BELOW: f64 = -10.0;
    let bath = Bath {
        ice: given.mass("ice"),
        salt: given.mass("salt"),
        water: given.mass("water"),
        ice_temperature: given.temperature("ice-temperature"),
        water_temperature: given.temperature("water-temperature"),
    };
    let cold = bath.mixed()?;
    let heat = given.optional_temperature("limit").map(|limit| cold.heat_until(limit));
    let answer = Answer::new()
        .with("bath_temperature_c", cold.temperature.celsius())
        .with("ice_left_kg", cold.ice.kilograms())
        .with("brine_share_fraction", cold.brine_share)
        .with("salt_undissolved_kg", cold.undissolved.kilograms())
        .with_optional("heat_until_limit_j", heat.transpose()?.map(|q| q.joules()));
    Ok(if cold.temperature.celsius() < GLOVES_BELOW {
        answer.remark("wear dry gloves: brine this cold freezes skin")
    } else {
        answer
    })
}
