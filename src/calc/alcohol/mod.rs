//! Questions about alcohol and distilling.

mod still;
mod strength;
mod vapour;

use super::{Answer, CalcError, Family, Given, Input, Output, Question};
use crate::physics::atmosphere::atmospheric_pressure;
use crate::physics::constants::STANDARD_ATMOSPHERE;
use crate::physics::ethanol_water::{
    flash_point, mass_fraction, mass_fraction_of_strength, mole_fraction,
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

/// Adds the warning that belongs to every hot pot of alcohol whose vapour can burn.
fn warn_of_fire(answer: Answer, mass_fraction: f64) -> Answer {
    match flash_point(mass_fraction) {
        Ok(flash) => answer.remark(format!(
            "the vapour can catch fire from {:.0} °C: no open flame, open a window",
            flash.celsius().floor()
        )),
        Err(_) => answer,
    }
}
