//! Questions about the vapour over alcohol: boiling, azeotrope, fire.

use super::{
    ABV, ALTITUDE, Answer, CalcError, Family, Given, Input, MASS_FRACTION, MOLE_FRACTION, Output,
    PRESSURE, Question, mass_fraction_given, mole_fraction_given, out, pressure_given,
    warn_of_fire,
};
use crate::physics::constants::STANDARD_ATMOSPHERE;
use crate::physics::ethanol_water::{
    LOWER_FLAMMABLE_LIMIT, activity_coefficients, alcoholic_strength, azeotrope, bubble_point,
    bubble_pressure, ethanol_latent_heat, ethanol_saturation_pressure, flash_point, mass_fraction,
    mole_fraction, temperature_at_lower_flammable_limit,
};
use crate::quantity::{Dimension, Temperature};

pub(super) const BOIL_ALCOHOL: Question = Question {
    name: "boil-alcohol",
    other_names: &["vapour-of-alcohol", "boiling-point-alcohol"],
    family: Family::Alcohol,
    summary: "At what temperature does a drink of this strength boil, and what does its vapour hold",
    example: "boil-alcohol --abv \"12 %\" --pressure \"60 mbar\"",
    inputs: &[
        ABV,
        MASS_FRACTION,
        MOLE_FRACTION,
        PRESSURE,
        ALTITUDE,
        Input::optional(
            "temperature",
            Dimension::Temperature,
            "temperature, to find the pressure at which it boils",
        ),
    ],
    outputs: BOIL_OUTPUTS,
    answer: boil_alcohol,
};

const BOIL_OUTPUTS: &[Output] = &[
    out("boiling_point_c", "boiling point", "°C"),
    out("pressure_pa", "pressure at which it boils", "Pa"),
    out("vapour_mole_fraction", "ethanol in the vapour, by moles", "mol/mol"),
    out("vapour_mass_fraction", "ethanol in the vapour, by mass", "kg/kg"),
    out("vapour_condensate_abv_percent", "strength of the condensed vapour", "%"),
    out("ethanol_partial_pressure_pa", "pressure of the ethanol in the vapour", "Pa"),
    out("water_partial_pressure_pa", "pressure of the water in the vapour", "Pa"),
    out("ethanol_activity_coefficient", "activity coefficient of ethanol", ""),
    out("water_activity_coefficient", "activity coefficient of water", ""),
    out("relative_volatility", "how much more volatile ethanol is than water", ""),
];

fn boil_alcohol(given: &Given) -> Result<Answer, CalcError> {
    let x = mole_fraction_given(given)?;
    let temperature = given.optional_temperature("temperature");
    let bubble = match temperature {
        Some(temperature) => bubble_pressure(x, temperature)?,
        None => bubble_point(x, pressure_given(given)?)?,
    };
    let gamma = activity_coefficients(x, bubble.temperature)?;
    let (y, p) = (bubble.vapour_mole_fraction, bubble.pressure.pascals());
    let ethanol = gamma.ethanol * ethanol_saturation_pressure(bubble.temperature)?.pascals();
    let water = crate::physics::water::saturation_pressure(bubble.temperature)?.pascals();
    let answer = Answer::new()
        .with("boiling_point_c", bubble.temperature.celsius())
        .with("pressure_pa", p)
        .with("vapour_mole_fraction", y)
        .with("vapour_mass_fraction", mass_fraction(y))
        .with("vapour_condensate_abv_percent", 100.0 * alcoholic_strength(mass_fraction(y))?)
        .with("ethanol_partial_pressure_pa", y * p)
        .with("water_partial_pressure_pa", (1.0 - y) * p)
        .with("ethanol_activity_coefficient", gamma.ethanol)
        .with("water_activity_coefficient", gamma.water)
        .with("relative_volatility", ethanol / (gamma.water * water));
    let answer = if temperature.is_some() && (given.has("pressure") || given.has("altitude")) {
        answer.remark("the temperature was used; the pressure follows from it")
    } else {
        answer
    };
    Ok(warn_of_fire(answer, mass_fraction(x)))
}

pub(super) const AZEOTROPE: Question = Question {
    name: "azeotrope",
    other_names: &["strongest-spirit"],
    family: Family::Alcohol,
    summary: "How strong can distilling make a spirit at this pressure",
    example: "azeotrope --pressure \"1 atm\"",
    inputs: &[PRESSURE, ALTITUDE],
    outputs: &[
        out("azeotrope_exists_bool", "whether vapour and liquid become alike", ""),
        out("azeotrope_mole_fraction", "ethanol there, by moles", "mol/mol"),
        out("azeotrope_abv_percent", "strength there", "%"),
        out("azeotrope_temperature_c", "boiling point there", "°C"),
    ],
    answer: strongest,
};

fn strongest(given: &Given) -> Result<Answer, CalcError> {
    let answer = Answer::new();
    match azeotrope(pressure_given(given)?)? {
        None => Ok(answer.with("azeotrope_exists_bool", 0.0)),
        Some(found) => Ok(answer
            .with("azeotrope_exists_bool", 1.0)
            .with("azeotrope_mole_fraction", found.mole_fraction)
            .with(
                "azeotrope_abv_percent",
                100.0 * alcoholic_strength(mass_fraction(found.mole_fraction))?,
            )
            .with("azeotrope_temperature_c", found.temperature.celsius())),
    }
}

pub(super) const ETHANOL: Question = Question {
    name: "ethanol",
    other_names: &["pure-alcohol"],
    family: Family::Alcohol,
    summary: "What vapour pressure and heat of vaporisation has pure ethanol",
    example: "ethanol --temperature \"40 °C\"",
    inputs: &[Input::required("temperature", Dimension::Temperature, "temperature")],
    outputs: &[
        out("ethanol_saturation_pressure_pa", "pressure of its vapour", "Pa"),
        out("ethanol_latent_heat_vaporisation_j_kg", "heat to boil off", "J/kg"),
        out(
            "ethanol_activity_coefficient_infinite_dilution",
            "activity coefficient of a trace in water",
            "",
        ),
    ],
    answer: ethanol,
};

fn ethanol(given: &Given) -> Result<Answer, CalcError> {
    let temperature = given.temperature("temperature");
    let trace = activity_coefficients(0.0, temperature).ok().map(|gamma| gamma.ethanol);
    Ok(Answer::new()
        .with("ethanol_saturation_pressure_pa", ethanol_saturation_pressure(temperature)?.pascals())
        .with("ethanol_latent_heat_vaporisation_j_kg", ethanol_latent_heat(temperature)?.si())
        .with_optional("ethanol_activity_coefficient_infinite_dilution", trace))
}

pub(super) const FLAMMABLE: Question = Question {
    name: "flammable",
    other_names: &["flash-point", "burn", "fire"],
    family: Family::Alcohol,
    summary: "From what temperature can the vapour of a spirit catch fire",
    example: "flammable --abv \"40 %\"",
    inputs: &[
        ABV,
        MASS_FRACTION,
        MOLE_FRACTION,
        Input::optional("temperature", Dimension::Temperature, "temperature of the liquid"),
    ],
    outputs: &[
        out("flash_point_c", "flash point, closed cup", "°C"),
        out(
            "temperature_at_lower_flammable_limit_c",
            "temperature at which its vapour first burns in still air",
            "°C",
        ),
        out("lower_flammable_limit_percent", "ethanol in air from which it burns", "%"),
        out("ethanol_in_air_percent", "ethanol in the air over the liquid, by volume", "%"),
        out("vapour_burns_bool", "whether that air can burn", ""),
    ],
    answer: flammable,
};

fn flammable(given: &Given) -> Result<Answer, CalcError> {
    let share = mass_fraction_given(given)?;
    let celsius = |t: Temperature| t.celsius();
    let in_air = match given.optional_temperature("temperature") {
        Some(temperature) => {
            let bubble = bubble_pressure(mole_fraction(share), temperature)?;
            let ethanol = bubble.vapour_mole_fraction * bubble.pressure.pascals();
            Some((ethanol / STANDARD_ATMOSPHERE).min(1.0))
        }
        None => None,
    };
    Ok(Answer::new()
        .with("flash_point_c", flash_point(share).map(celsius)?)
        .with(
            "temperature_at_lower_flammable_limit_c",
            temperature_at_lower_flammable_limit(share).map(celsius)?,
        )
        .with("lower_flammable_limit_percent", 100.0 * LOWER_FLAMMABLE_LIMIT)
        .with_optional("ethanol_in_air_percent", in_air.map(|part| 100.0 * part))
        .with_optional(
            "vapour_burns_bool",
            in_air.map(|part| f64::from(u8::from(part >= LOWER_FLAMMABLE_LIMIT))),
        )
        .remark("flash points scatter by 4 °C: keep flames and sparks away well below them"))
}
