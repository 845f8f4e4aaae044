//! How much of an aroma compound leaves with the water, with air, or stays in the fat.
//!
//! Everything follows from the air-water partition coefficient of the compound at high dilution.
//! Chemical change, binding to protein or starch and crust formation are left out.
//! Symbols: k_aw concentration in air over concentration in water, hs Henry solubility, s its slope
//! d ln hs / d(1/T), alpha volatility relative to water, f share of the water evaporated,
//! phi volume share of oil, k_ow concentration in oil over concentration in water.

mod oil;
mod transfer;

pub use oil::{HydrogenBonding, OilInWater, oil_water_partition};
pub use transfer::{gas_film, overall_transfer, volatility_from_still_liquid};

use super::constants::{GAS_CONSTANT, WATER_MOLAR_MASS};
use super::{PhysicsError, Validity, positive};
use crate::quantity::{Density, Pressure, Temperature, TemperatureDifference};

/// The temperature at which partition coefficients are listed \[K\]: Sander 2015, section 2.
pub const LISTING_TEMPERATURE: Temperature = Temperature::from_kelvin(298.15);

/// Constants are listed at 25 °C with a slope from measurements mostly between 0 and 60 °C; the
/// slope is carried to the boil and no further.
const VAN_T_HOFF: Validity = Validity {
    law: "the van 't Hoff slope of an air-water partition",
    quantity: "temperature",
    low: 0.0,
    high: 130.0,
    unit: "°C",
};
/// Above this the slope is carried beyond the measurements behind it [°C]; Sander 2015
/// warns of use far from 25 °C; 60 °C is the upper end of most of the measurements cited there.
///
/// A constant slope leaves out the heat capacity of dissolving: at the boil it gives ethanol a
/// volatility of 21 over water, where the vapour-liquid data of Carey & Lewis 1932 lead to about 13.
pub const MEASURED_TO_CELSIUS: f64 = 60.0;

const SHARE: Validity =
    Validity { law: "a share", quantity: "share", low: 0.0, high: 1.0, unit: "" };

/// An alpha of this or more makes a top note: half is gone before 0.7 % of the water has left.
pub const TOP_NOTE_VOLATILITY: f64 = 100.0;
/// An alpha below this makes a base note: half is left when 13 % of the water has left.
pub const BASE_NOTE_VOLATILITY: f64 = 5.0;

/// An air-water partition at 25 °C and how it changes with temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AirWaterPartition {
    /// Concentration in air over concentration in water at 25 °C.
    pub at_25_c: f64,
    /// d ln hs / d(1/T); positive when the compound is less soluble in warm water.
    pub slope: TemperatureDifference,
}

impl AirWaterPartition {
    /// Returns the partition coefficient at another temperature.
    ///
    /// `k_aw(T) = k_aw(T0) exp(-s (1/T - 1/T0)) T0/T`
    ///
    /// # Units
    /// T \[K\], s \[K\], k_aw \[1\].
    ///
    /// # Validity
    /// 0 °C to 130 °C; beyond [`MEASURED_TO_CELSIUS`] the slope is carried past most measurements.
    ///
    /// # Errors
    /// [`PhysicsError::NotPositive`] for a coefficient of zero or less;
    /// [`PhysicsError::OutsideValidity`] for a temperature outside the range.
    ///
    /// # Source
    /// Sander 2015, section 2 (temperature dependence), with `hs = 1/(k_aw R T)`.
    pub fn at(&self, temperature: Temperature) -> Result<f64, PhysicsError> {
        positive("air-water partition", self.at_25_c, "")?;
        VAN_T_HOFF.check(temperature.celsius())?;
        let (t, t0) = (temperature.kelvin(), LISTING_TEMPERATURE.kelvin());
        Ok(self.at_25_c * (-self.slope.kelvin() * (1.0 / t - 1.0 / t0)).exp() * t0 / t)
    }
}

/// Returns the air-water partition that belongs to a Henry solubility [mol/(m³ Pa)], or the
/// reverse.
///
/// `k_aw = 1 / (hs R T)`, and `hs = 1 / (k_aw R T)`: the relation is its own inverse.
///
/// # Units
/// hs [mol/(m³ Pa)], T \[K\], k_aw \[1\].
///
/// # Validity
/// High dilution, ideal gas.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a value of zero or less.
///
/// # Source
/// Sander 2015, section 2.
pub fn partition_of_henry_solubility(
    value: f64,
    temperature: Temperature,
) -> Result<f64, PhysicsError> {
    positive("Henry solubility or partition", value, "")?;
    positive("temperature", temperature.kelvin(), "K")?;
    Ok(1.0 / (value * GAS_CONSTANT * temperature.kelvin()))
}

/// Returns the volatility relative to water, mole for mole.
///
/// `alpha = (y/x) / (y_w/x_w) = k_aw R T c_w / p_w`, with `c_w = rho_w / M_w`
///
/// # Units
/// T \[K\], rho_w [kg/m³], p_w \[Pa\], alpha \[1\].
///
/// # Validity
/// High dilution in water; p_w is the vapour pressure of the liquid itself.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a partition, pressure or density of zero or less.
///
/// # Source
/// Definition of relative volatility with Henry's law for the compound and Raoult's for water.
pub fn relative_volatility(
    partition: f64,
    temperature: Temperature,
    vapour_pressure: Pressure,
    water_density: Density,
) -> Result<f64, PhysicsError> {
    positive("air-water partition", partition, "")?;
    positive("vapour pressure", vapour_pressure.pascals(), "Pa")?;
    positive("density", water_density.si(), "kg/m³")?;
    let water = water_density.si() / WATER_MOLAR_MASS;
    Ok(partition * GAS_CONSTANT * temperature.kelvin() * water / vapour_pressure.pascals())
}

/// Returns the share of a compound that is left when a share of the water has evaporated.
///
/// `kept = (1 - f)^alpha`
///
/// # Units
/// f \[1\], alpha \[1\].
///
/// # Validity
/// A well-mixed liquid at high dilution and constant alpha.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for a share outside 0 to 1;
/// [`PhysicsError::NotPositive`] for an alpha of zero or less.
///
/// # Source
/// Rayleigh 1902, On the distillation of binary mixtures, Philosophical Magazine 4.
pub fn kept_after_evaporation(evaporated: f64, alpha: f64) -> Result<f64, PhysicsError> {
    positive("relative volatility", alpha, "")?;
    Ok((1.0 - SHARE.check(evaporated)?).max(0.0).powf(alpha))
}

/// Returns the share of the water that may evaporate until a given share of the compound is left.
///
/// `f = 1 - kept^(1/alpha)`, the inverse of [`kept_after_evaporation`].
///
/// # Units
/// kept \[1\], alpha \[1\], f \[1\].
///
/// # Validity
/// As for [`kept_after_evaporation`].
///
/// # Errors
/// As for [`kept_after_evaporation`].
///
/// # Source
/// As for [`kept_after_evaporation`].
pub fn evaporated_until_kept(kept: f64, alpha: f64) -> Result<f64, PhysicsError> {
    positive("relative volatility", alpha, "")?;
    Ok(-(SHARE.check(kept)?.ln() / alpha).exp_m1())
}

#[cfg(test)]
mod tests {
    use super::*;

    const ROOM: Temperature = LISTING_TEMPERATURE;

    fn limonene() -> AirWaterPartition {
        AirWaterPartition { at_25_c: 1.15, slope: TemperatureDifference::from_kelvin(4500.0) }
    }

    #[test]
    fn partition_rises_with_temperature_and_meets_its_listing() {
        assert!((limonene().at(ROOM).unwrap() - 1.15).abs() < 1e-12);
        let warm = limonene().at(Temperature::from_celsius(60.0)).unwrap();
        assert!(warm > 3.0);
        assert!(limonene().at(Temperature::from_celsius(180.0)).is_err());
        let none = AirWaterPartition { at_25_c: 0.0, ..limonene() };
        assert!(matches!(none.at(ROOM), Err(PhysicsError::NotPositive { .. })));
    }

    #[test]
    fn henry_and_partition_are_inverse() {
        let partition = partition_of_henry_solubility(3.5e-4, ROOM).unwrap();
        let back = partition_of_henry_solubility(partition, ROOM).unwrap();
        assert!((back / 3.5e-4 - 1.0).abs() < 1e-12);
        assert!(partition_of_henry_solubility(0.0, ROOM).is_err());
    }

    #[test]
    fn evaporation_loss_round_trips() {
        for alpha in [0.1, 1.0, 9.2, 5e4] {
            let kept = 0.3;
            let evaporated = evaporated_until_kept(kept, alpha).unwrap();
            let back = kept_after_evaporation(evaporated, alpha).unwrap();
            assert!((back - kept).abs() < 1e-9, "{alpha}");
        }
        assert!(kept_after_evaporation(1.2, 1.0).is_err());
        assert!(kept_after_evaporation(0.2, 0.0).is_err());
        assert!(evaporated_until_kept(-0.1, 1.0).is_err());
    }

    #[test]
    fn steps_multiply_to_the_whole() {
        let first = kept_after_evaporation(0.2, 3.0).unwrap();
        let second = kept_after_evaporation(0.5, 3.0).unwrap();
        let whole = kept_after_evaporation(0.6, 3.0).unwrap();
        assert!((first * second - whole).abs() < 1e-12);
    }

    #[test]
    fn volatility_needs_a_vapour_pressure() {
        let density = Density::from_si(997.0);
        let at = |p| relative_volatility(2.12e-4, ROOM, Pressure::from_pascals(p), density);
        assert!((at(3169.9).unwrap() - 9.19).abs() < 0.05);
        assert!(at(0.0).is_err());
        assert!(relative_volatility(0.0, ROOM, Pressure::from_si(1.0), density).is_err());
    }
}
