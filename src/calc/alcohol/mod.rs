//! Questions about alcohol and distilling.

mod still;
mod strength;
mod vapour;

use super::{Answer, CalcError, Family, Given, Input, Output, Question};
use crate::physics::atmosphere::atmospheric_pressure;
use crate::physics::constants::STANDARD_ATMOSPHERE;
use crate::physics::ethanol_water::{
    alcoholic_strength, flash_point, mass_fraction, mass_fraction_of_strength, mole_fraction,
};
use crate::quantity::{Dimension, Pressure};

/// The questions of this file.
pub const QUESTIONS: &[Question] = &[
    strength::STRENGTH,
    vapour::BOIL_ALCOHOL,
    vapour::AZEOTROPE,
    vapour::ETHANOL,
    strength::FREEZE_ALCOHOL,
    vapour::FLAMMABLE,
    still::DISTIL,
    still::DEALCOHOLISE,
    strength::COOK_OFF,
];

const ABV: Input = Input::optional("abv", Dimension::Fraction, "strength by volume at 20 °C");
const MASS_FRACTION: Input =
    Input::optional("mass-fraction", Dimension::Fraction, "ethanol by mass, instead of `abv`");
const MOLE_FRACTION: Input =
    Input::optional("mole-fraction", Dimension::Fraction, "ethanol by moles, instead of `abv`");
const PRESSURE: Input =
    Input::optional("pressure", Dimension::Pressure, "absolute pressure; otherwise 1 atm");
const ALTITUDE: Input =
    Input::optional("altitude", Dimension::Length, "height above the sea, for the pressure");

const fn out(key: &'static str, label: &'static str, unit: &'static str) -> Output {
    Output { key, label, unit }
}

/// Reads the mass fraction of ethanol, given in one of three ways.
fn mass_fraction_given(given: &Given) -> Result<f64, CalcError> {
    let ways = (
        given.optional_number("abv"),
        given.optional_number("mass-fraction"),
        given.optional_number("mole-fraction"),
    );
    match ways {
        (Some(strength), None, None) => Ok(mass_fraction_of_strength(strength)?),
        (None, Some(share), None) => Ok(share),
        (None, None, Some(share)) => Ok(mass_fraction(share)),
        _ => Err(CalcError::combination("give one of `abv`, `mass-fraction` and `mole-fraction`")),
    }
}

/// Reads the mole fraction of ethanol, given in one of three ways.
fn mole_fraction_given(given: &Given) -> Result<f64, CalcError> {
    match (given.optional_number("mole-fraction"), given.has("abv"), given.has("mass-fraction")) {
        (Some(share), false, false) => Ok(share),
        _ => Ok(mole_fraction(mass_fraction_given(given)?)),
    }
}

/// The pressure over a pot: as given, or that of the altitude, or of sea level.
fn pressure_given(given: &Given) -> Result<Pressure, CalcError> {
    match (given.optional_pressure("pressure"), given.optional_length("altitude")) {
        (Some(_), Some(_)) => {
            Err(CalcError::combination("give either `pressure` or `altitude`, not both"))
        }
        (Some(pressure), None) => Ok(pressure),
        (None, Some(altitude)) => Ok(atmospheric_pressure(altitude)?),
        (None, None) => Ok(Pressure::from_pascals(STANDARD_ATMOSPHERE)),
    }
}

/// Adds the warning that belongs to every liquid whose vapour can burn.
fn warn_of_fire(answer: Answer, mass_fraction: f64) -> Answer {
    match flash_point(mass_fraction) {
        Ok(flash) => answer.remark(format!(
            "vapour over {:.0} % spirit can catch fire from {:.0} °C: no open flame, open a window",
            100.0 * alcoholic_strength(mass_fraction).unwrap_or(f64::NAN),
            flash.celsius().floor()
        )),
        Err(_) => answer,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn question(name: &str) -> &'static Question {
        QUESTIONS.iter().find(|question| question.name == name).unwrap()
    }

    #[test]
    fn every_output_is_declared_finite_and_given_once() {
        for (name, written) in [
            ("strength", vec![("abv", "40 %")]),
            ("boil-alcohol", vec![("abv", "12 %"), ("pressure", "60 mbar")]),
            ("azeotrope", vec![]),
            ("ethanol", vec![("temperature", "40 °C")]),
            ("freeze-alcohol", vec![("mass-fraction", "0.2")]),
            ("flammable", vec![("abv", "40 %"), ("temperature", "20 °C")]),
            ("distil", vec![("abv", "12 %"), ("evaporated", "20 %"), ("power", "1 kW")]),
            ("dealcoholise", vec![("abv", "12 %"), ("target-abv", "0.5 %"), ("power", "1 kW")]),
            ("cook-off", vec![("method", "flamed")]),
        ] {
            let found = question(name).ask(&written).unwrap();
            let given: Vec<&str> = found.values.iter().map(|(key, _)| *key).collect();
            let declared: Vec<&str> =
                question(name).outputs.iter().map(|output| output.key).collect();
            assert_eq!(given, declared, "{name}");
            assert!(found.values.iter().all(|(_, value)| value.is_finite()), "{name}");
        }
    }

    #[test]
    fn masses_balance_and_the_clock_follows_the_heat() {
        let written =
            [("abv", "12 %"), ("evaporated", "20 %"), ("mass", "3 kg"), ("power", "1 kW")];
        let found = question("distil").ask(&written).unwrap();
        let get = |key| found.get(key).unwrap();
        assert!((get("pot_mass_kg") + get("distillate_mass_kg") - 3.0).abs() < 1e-9);
        assert!((get("heat_j") / 1000.0 - get("time_s")).abs() < 1e-6);
    }

    #[test]
    fn contradicting_inputs_are_refused() {
        for (name, written) in [
            ("strength", vec![("abv", "40 %"), ("mass-fraction", "0.3")]),
            ("strength", vec![("abv", "40 %"), ("density", "950 kg/m3")]),
            ("strength", vec![]),
            ("azeotrope", vec![("pressure", "1 bar"), ("altitude", "100 m")]),
            (
                "distil",
                vec![("abv", "12 %"), ("evaporated", "20 %"), ("mass", "1 kg"), ("volume", "1 L")],
            ),
            ("cook-off", vec![("method", "simmered")]),
        ] {
            let found = question(name).ask(&written);
            assert!(matches!(found, Err(CalcError::Combination { .. })), "{name}");
        }
    }

    #[test]
    fn a_still_warns_of_fire_and_names_the_licence() {
        let found = question("distil").ask(&[("abv", "12 %"), ("evaporated", "10 %")]).unwrap();
        assert!(found.remarks.iter().any(|remark| remark.contains("no open flame")));
        assert!(found.remarks.iter().any(|remark| remark.contains("licence")));
    }
}
