//! Questions about distilling and taking alcohol out.

use super::{
    ABV, ALTITUDE, Answer, CalcError, Family, Given, Input, MASS_FRACTION, MOLE_FRACTION, Output,
    PRESSURE, Question, mass_fraction_given, out, pressure_given, warn_of_fire,
};
use crate::physics::distillation::{Distilled, distil, distil_to, heat_to_boiling};
use crate::physics::ethanol_water::{alcoholic_strength, density, mass_fraction_of_strength};
use crate::quantity::{Dimension, Mass, Temperature};

/// Temperature at which volumes are counted.
const REFERENCE: Temperature = Temperature::from_celsius(20.0);
const LICENCE: &str = "distilling spirit needs a licence in most countries";

const MASS: Input = Input::optional("mass", Dimension::Mass, "mass at the start; otherwise 1 kg");
const VOLUME: Input = Input::optional("volume", Dimension::Volume, "volume at the start, at 20 °C");
const FROM: Input =
    Input::with_default("start-temperature", Dimension::Temperature, "20 °C", "at the start");
const POWER: Input =
    Input::optional("power", Dimension::Power, "power that reaches the liquid, for the time");

pub(super) const DISTIL: Question = Question {
    name: "distil",
    other_names: &["distill", "distillation", "rayleigh", "still"],
    family: Family::Alcohol,
    summary: "What is left and what goes over when part of a drink is boiled off",
    example: "distil --abv \"12 %\" --evaporated \"20 %\" --pressure \"50 mbar\"",
    inputs: &[
        ABV,
        MASS_FRACTION,
        MOLE_FRACTION,
        Input::required("evaporated", Dimension::Fraction, "share of the mass that is boiled off"),
        PRESSURE,
        ALTITUDE,
        MASS,
        VOLUME,
        FROM,
        POWER,
    ],
    outputs: OUTPUTS,
    answer: |given| {
        let (start, pressure) = (mass_fraction_given(given)?, pressure_given(given)?);
        let run = distil(start, given.number("evaporated"), pressure)?;
        Ok(report(given, start, &run)?.remark(LICENCE))
    },
};

pub(super) const DEALCOHOLISE: Question = Question {
    name: "dealcoholise",
    other_names: &["dealcoholize", "strip-alcohol", "alcohol-free"],
    family: Family::Alcohol,
    summary: "How much must be boiled off until a drink has fallen to this strength",
    example: "dealcoholise --abv \"12 %\" --target-abv \"0.5 %\" --pressure \"50 mbar\"",
    inputs: &[
        ABV,
        MASS_FRACTION,
        MOLE_FRACTION,
        Input::required("target-abv", Dimension::Fraction, "strength to be left in the pot"),
        PRESSURE,
        ALTITUDE,
        MASS,
        VOLUME,
        FROM,
        POWER,
    ],
    outputs: OUTPUTS,
    answer: |given| {
        let (start, pressure) = (mass_fraction_given(given)?, pressure_given(given)?);
        let target = mass_fraction_of_strength(given.number("target-abv"))?;
        let run = distil_to(start, target, pressure)?;
        let remark = format!("what is caught is spirit: {LICENCE}");
        Ok(report(given, start, &run)?.remark(remark))
    },
};

const OUTPUTS: &[Output] = &[
    out("evaporated_mass_fraction", "share of the mass boiled off", "kg/kg"),
    out("pot_abv_percent", "strength left in the pot", "%"),
    out("distillate_abv_percent", "strength of all that went over", "%"),
    out("ethanol_recovered_fraction", "share of the ethanol that went over", "kg/kg"),
    out("pot_mass_fraction_ethanol", "ethanol left in the pot, by mass", "kg/kg"),
    out("distillate_mass_fraction_ethanol", "ethanol in what went over, by mass", "kg/kg"),
    out("pot_mass_kg", "mass left in the pot", "kg"),
    out("distillate_mass_kg", "mass that went over", "kg"),
    out("pot_volume_m3", "volume left in the pot at 20 °C", "m³"),
    out("distillate_volume_m3", "volume that went over at 20 °C", "m³"),
    out("water_to_restore_kg", "water that brings the pot back to its first mass", "kg"),
    out("boiling_point_start_c", "boiling point at the start", "°C"),
    out("boiling_point_end_c", "boiling point at the end", "°C"),
    out("heat_j", "heat for warming up and boiling", "J"),
    out("time_s", "time at the power given", "s"),
];

fn report(given: &Given, start: f64, run: &Distilled) -> Result<Answer, CalcError> {
    let mass = match (given.optional_mass("mass"), given.optional_volume("volume")) {
        (Some(_), Some(_)) => {
            return Err(CalcError::combination("give either `mass` or `volume`, not both"));
        }
        (Some(mass), None) => mass,
        (None, Some(volume)) => density(start, REFERENCE)? * volume,
        (None, None) => Mass::from_kilograms(1.0),
    };
    let (pot, over) = ((1.0 - run.evaporated) * mass, run.evaporated * mass);
    let warming =
        heat_to_boiling(start, given.temperature("start-temperature"), run.first_boiling)?;
    let heat = mass * (warming + run.heat);
    let strength = |share: f64| alcoholic_strength(share).map(|strength| 100.0 * strength);
    let answer = Answer::new()
        .with("evaporated_mass_fraction", run.evaporated)
        .with("pot_abv_percent", strength(run.pot)?)
        .with("distillate_abv_percent", strength(run.distillate)?)
        .with("ethanol_recovered_fraction", run.recovered)
        .with("pot_mass_fraction_ethanol", run.pot)
        .with("distillate_mass_fraction_ethanol", run.distillate)
        .with("pot_mass_kg", pot.kilograms())
        .with("distillate_mass_kg", over.kilograms())
        .with("pot_volume_m3", (pot / density(run.pot, REFERENCE)?).si())
        .with("distillate_volume_m3", (over / density(run.distillate, REFERENCE)?).si())
        .with("water_to_restore_kg", over.kilograms())
        .with("boiling_point_start_c", run.first_boiling.celsius())
        .with("boiling_point_end_c", run.last_boiling.celsius())
        .with("heat_j", heat.joules())
        .with_optional(
            "time_s",
            given.optional_power("power").map(|power| (heat / power).seconds()),
        );
    Ok(warn_of_fire(answer, run.distillate))
}
