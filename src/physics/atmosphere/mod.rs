//! Air: its pressure at an altitude, and the water that it carries.
//!
//! Answers how thin the air is on a mountain and how humid air dries and cools. Evaporation into
//! air is left to [`super::evaporation`]. Symbols: p pressure, t temperature, h altitude.

mod humid_air;

pub use humid_air::HumidAir;

use super::constants::{STANDARD_ATMOSPHERE, STANDARD_GRAVITY};
use super::{PhysicsError, Validity, water};
use crate::quantity::{Length, Pressure, Temperature};

/// Temperature at sea level \[K\]: ISO 2533:1975, table 1.
const SEA_LEVEL_TEMPERATURE: f64 = 288.15;
/// Fall of temperature with altitude [K/m]: ISO 2533:1975, table 4.
const LAPSE_RATE: f64 = 0.0065;
/// Specific gas constant of dry air [J/(kg K)]: ISO 2533:1975, table 1.
const AIR_GAS_CONSTANT: f64 = 287.052_87;
const ALTITUDE: Validity = Validity {
    law: "the standard atmosphere (ISO 2533)",
    quantity: "geopotential altitude",
    low: -2000.0,
    high: 11_000.0,
    unit: "m",
};
const ATMOSPHERIC_PRESSURE: Validity = Validity {
    law: "the standard atmosphere (ISO 2533)",
    quantity: "pressure",
    low: 22_632.0,
    high: 127_774.0,
    unit: "Pa",
};
/// Returns the pressure of the standard atmosphere at an altitude.
///
/// `p = p0 (1 - L h / t0)^(g / (R L))`.
///
/// # Units
/// h geopotential \[m\], p \[Pa\], t0 \[K\], L [K/m], g [m/s²], R [J/(kg K)].
///
/// # Validity
/// -2000 m to 11 000 m. Weather moves the pressure by a few per cent.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside that range.
///
/// # Source
/// ISO 2533:1975, Standard Atmosphere, equation 12.
pub fn atmospheric_pressure(altitude: Length) -> Result<Pressure, PhysicsError> {
    let h = ALTITUDE.check(altitude.metres())?;
    let base = 1.0 - LAPSE_RATE * h / SEA_LEVEL_TEMPERATURE;
    let exponent = STANDARD_GRAVITY / (AIR_GAS_CONSTANT * LAPSE_RATE);
    Ok(Pressure::from_pascals(STANDARD_ATMOSPHERE * base.powf(exponent)))
}

/// Returns the altitude at which the standard atmosphere has a pressure.
///
/// `h = t0 / L (1 - (p / p0)^(R L / g))`.
///
/// # Units
/// As [`atmospheric_pressure`].
///
/// # Validity
/// 22 632 Pa (11 000 m) to 127 774 Pa (-2000 m).
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside that range.
///
/// # Source
/// ISO 2533:1975, equation 12, solved for the altitude.
pub fn altitude_of_pressure(pressure: Pressure) -> Result<Length, PhysicsError> {
    let ratio = ATMOSPHERIC_PRESSURE.check(pressure.pascals())? / STANDARD_ATMOSPHERE;
    let exponent = AIR_GAS_CONSTANT * LAPSE_RATE / STANDARD_GRAVITY;
    Ok(Length::from_metres(SEA_LEVEL_TEMPERATURE / LAPSE_RATE * (1.0 - ratio.powf(exponent))))
}

/// Returns the temperature at which water boils at an altitude in the standard atmosphere.
///
/// [`water::saturation_temperature`] of [`atmospheric_pressure`].
///
/// # Units
/// Altitude \[m\], result \[K\].
///
/// # Validity
/// -2000 m to 11 000 m.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside that range.
///
/// # Source
/// ISO 2533:1975 and IAPWS R7-97(2012).
pub fn boiling_point_at_altitude(altitude: Length) -> Result<Temperature, PhysicsError> {
    water::saturation_temperature(atmospheric_pressure(altitude)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn altitude_and_pressure_are_inverse() {
        for step in -20..=110 {
            let altitude = Length::from_metres(100.0 * f64::from(step));
            let back = altitude_of_pressure(atmospheric_pressure(altitude).unwrap()).unwrap();
            assert!((back - altitude).abs().metres() < 1e-6);
        }
    }

    #[test]
    fn altitudes_and_pressures_out_of_range_are_refused() {
        assert!(atmospheric_pressure(Length::from_metres(12_000.0)).is_err());
        assert!(boiling_point_at_altitude(Length::from_metres(-3000.0)).is_err());
        assert!(altitude_of_pressure(Pressure::from_bars(0.1)).is_err());
    }
}
