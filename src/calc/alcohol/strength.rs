//! Questions about strength, freezing and what a dish keeps.

use super::{
    ABV, Answer, CalcError, Family, Given, Input, MASS_FRACTION, MOLE_FRACTION, Output, Question,
    mass_fraction_given, out,
};
use crate::physics::ethanol_water::{
    AlcoholCooking, alcohol_retained, alcoholic_strength, density, freezing_point,
    mass_fraction_of_density, mole_fraction,
};
use crate::quantity::{Dimension, Temperature};

/// Temperature at which strength is counted: OIML R 22 (1975).
const REFERENCE: Temperature = Temperature::from_celsius(20.0);

pub(super) const STRENGTH: Question = Question {
    name: "strength",
    other_names: &["abv", "alcohol", "proof", "alcoholmeter"],
    family: Family::Alcohol,
    summary: "How do strength by volume, share by mass and density of a spirit belong together",
    example: "strength --abv \"40 %\"",
    inputs: &[
        ABV,
        MASS_FRACTION,
        MOLE_FRACTION,
        Input::optional("density", Dimension::Density, "density measured, instead of `abv`"),
        Input::with_default(
            "temperature",
            Dimension::Temperature,
            "20 °C",
            "temperature at which the density is measured or wanted",
        ),
    ],
    outputs: STRENGTH_OUTPUTS,
    answer: strength,
};

const STRENGTH_OUTPUTS: &[Output] = &[
    out("abv_percent", "strength by volume at 20 °C", "%"),
    out("mass_fraction_ethanol", "ethanol by mass", "kg/kg"),
    out("mole_fraction_ethanol", "ethanol by moles", "mol/mol"),
    out("density_20c_kg_m3", "density at 20 °C", "kg/m³"),
    out("density_kg_m3", "density at the temperature", "kg/m³"),
    out("ethanol_kg_m3", "ethanol per volume at 20 °C", "kg/m³"),
];

fn strength(given: &Given) -> Result<Answer, CalcError> {
    let temperature = given.temperature("temperature");
    let composed = ["abv", "mass-fraction", "mole-fraction"].iter().any(|name| given.has(name));
    let share = match given.optional_density("density") {
        Some(measured) if !composed => mass_fraction_of_density(measured, temperature)?,
        Some(_) => {
            return Err(CalcError::combination("give either `density` or a share, not both"));
        }
        None => mass_fraction_given(given)?,
    };
    let reference = density(share, REFERENCE)?.si();
    Ok(Answer::new()
        .with("abv_percent", 100.0 * alcoholic_strength(share)?)
        .with("mass_fraction_ethanol", share)
        .with("mole_fraction_ethanol", mole_fraction(share))
        .with("density_20c_kg_m3", reference)
        .with("density_kg_m3", density(share, temperature)?.si())
        .with("ethanol_kg_m3", share * reference)
        .remark("for ethanol and water only: sugar and other solids shift the density"))
}

pub(super) const FREEZE_ALCOHOL: Question = Question {
    name: "freeze-alcohol",
    other_names: &["freezing-point-alcohol", "freeze-spirit"],
    family: Family::Alcohol,
    summary: "At what temperature does a drink of this strength begin to freeze",
    example: "freeze-alcohol --abv \"20 %\"",
    inputs: &[ABV, MASS_FRACTION, MOLE_FRACTION],
    outputs: &[
        out("freezing_point_c", "temperature at which ice forms", "°C"),
        out("mass_fraction_ethanol", "ethanol by mass", "kg/kg"),
    ],
    answer: freeze_alcohol,
};

fn freeze_alcohol(given: &Given) -> Result<Answer, CalcError> {
    let share = mass_fraction_given(given)?;
    Ok(Answer::new()
        .with("freezing_point_c", freezing_point(share)?.celsius())
        .with("mass_fraction_ethanol", share)
        .remark("sugar lowers the freezing point further"))
}

pub(super) const COOK_OFF: Question = Question {
    name: "cook-off",
    other_names: &["alcohol-left", "flambe", "burn-off"],
    family: Family::Alcohol,
    summary: "How much of the alcohol does a dish keep when it is cooked or flamed",
    example: "cook-off --method simmered --time \"45 min\"",
    inputs: &[
        Input::choice(
            "method",
            &["simmered", "flamed", "off-the-heat", "overnight", "baked-unstirred"],
            "how the dish is cooked",
        ),
        Input::optional("time", Dimension::Time, "time of simmering or baking, 15 min to 150 min"),
    ],
    outputs: &[out("alcohol_retained_percent", "alcohol left, of that added", "%")],
    answer: cook_off,
};

fn cook_off(given: &Given) -> Result<Answer, CalcError> {
    let cooking = match (given.word("method"), given.optional_time("time")) {
        ("flamed", _) => AlcoholCooking::Flamed,
        ("off-the-heat", _) => AlcoholCooking::OffTheHeat,
        ("overnight", _) => AlcoholCooking::Overnight,
        ("baked-unstirred", _) => AlcoholCooking::BakedUnstirred,
        (_, Some(time)) => AlcoholCooking::Simmered(time),
        (_, None) => return Err(CalcError::combination("`simmered` needs a `time`")),
    };
    Ok(Answer::new()
        .with("alcohol_retained_percent", 100.0 * alcohol_retained(cooking)?)
        .remark("no cooked dish is free of alcohol; wide open pots lose more, covered ones less"))
}
