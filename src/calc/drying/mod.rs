//! Questions about evaporating and drying.

mod dried;
mod evaporating;
mod frozen;
mod moisture;
mod vacuum;

use super::{CalcError, Given, Input, Question};
use crate::physics::atmosphere::atmospheric_pressure;
use crate::physics::evaporation::Surroundings;
use crate::quantity::{Dimension, Pressure};

/// The questions of this file.
pub const QUESTIONS: &[Question] = &[
    evaporating::BOIL_OFF,
    evaporating::EVAPORATE,
    evaporating::PAN,
    evaporating::COLD,
    vacuum::VACUUM,
    vacuum::FLASH,
    moisture::MOISTURE,
    moisture::ACTIVITY,
    moisture::MONOLAYER,
    moisture::GLASS,
    dried::PAGE,
    dried::SLAB,
    dried::DRY,
    dried::YIELD,
    frozen::FREEZE_DRY,
    frozen::FREEZER_DRY,
];

const PER_CENT: f64 = 100.0;

const AIR_TEMPERATURE: Input =
    Input::with_default("air-temperature", Dimension::Temperature, "22 °C", "Of the air");
const HUMIDITY: Input =
    Input::with_default("relative-humidity", Dimension::Fraction, "50 %", "Of the air");
const AIR_SPEED: Input = Input::with_default(
    "air-speed",
    Dimension::Speed,
    "0 m/s",
    "Of the air along the surface: room 0.1, fan 1 to 3 m/s",
);
const PRESSURE: Input =
    Input::optional("pressure", Dimension::Pressure, "Of the air; 101.325 kPa unless given");
const ALTITUDE: Input =
    Input::optional("altitude", Dimension::Length, "Instead of the pressure: height above the sea");
const ACTIVITY: Input = Input::with_default(
    "water-activity",
    Dimension::Fraction,
    "1",
    "Of the liquid: water 1, 60 °Brix syrup about 0.9",
);

/// Returns the pressure of the air from pressure or altitude.
fn air_pressure(given: &Given) -> Result<Pressure, CalcError> {
    match (given.optional_pressure("pressure"), given.optional_length("altitude")) {
        (Some(_), Some(_)) => {
            Err(CalcError::combination("give `pressure` or `altitude`, not both"))
        }
        (Some(pressure), None) => Ok(pressure),
        (None, Some(altitude)) => Ok(atmospheric_pressure(altitude)?),
        (None, None) => Ok(air_pressure_standard()),
    }
}

/// The standard atmosphere.
const fn air_pressure_standard() -> Pressure {
    Pressure::from_pascals(crate::physics::constants::STANDARD_ATMOSPHERE)
}

/// Reads the air over a surface.
fn surroundings(given: &Given) -> Result<Surroundings, CalcError> {
    Ok(Surroundings {
        air: given.temperature("air-temperature"),
        relative_humidity: given.number("relative-humidity"),
        pressure: air_pressure(given)?,
        speed: given.speed("air-speed"),
    })
}
