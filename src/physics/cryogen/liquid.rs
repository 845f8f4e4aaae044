//! Liquid nitrogen, oxygen and argon boiling in the open.
//!
//! Symbols: t temperature \[K\], t0 normal boiling point, h sensible heat of the vapour, p pressure.

use crate::physics::constants::STANDARD_ATMOSPHERE;
use crate::physics::{PhysicsError, Validity};
use crate::quantity::{Density, Pressure, SpecificEnergy, Temperature};

/// A gas liquefied by cold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cryogen {
    /// Nitrogen.
    Nitrogen,
    /// Oxygen; feeds any fire.
    Oxygen,
    /// Argon.
    Argon,
}

/// The data of one liquid at 101.325 kPa; the fits are repeated by
/// `tests/reference/scripts/cryogen_fit.py`.
struct Data {
    /// Normal boiling point \[K\].
    boiling_point: f64,
    /// Latent heat [J/kg].
    latent_heat: f64,
    /// Liquid density [kg/m³].
    density: f64,
    /// Sensible heat of the vapour [J/kg] by (t - t0), (t - t0)², 1 - t0/t and 1 - (t0/t)³.
    sensible: [f64; 4],
    /// Reciprocal boiling point [1/K] by powers of ln(p / 101.325 kPa).
    pressure: [f64; 3],
}

/// Span et al., J. Phys. Chem. Ref. Data 29 (2000) 1361, by CoolProp 8.0.0; the sensible heat is
/// fitted to 0.06 % up to 330 K, the boiling point to 0.1 mK from 55 to 110 kPa.
const NITROGEN: Data = Data {
    boiling_point: 77.354_994,
    latent_heat: 199_176.05,
    density: 806.084_5,
    sensible: [1_045.490_6, -0.011_573_817, -323.459_28, 2_110.482_1],
    pressure: [1.292_741_51e-2, -1.417_811_46e-3, -1.274_972_06e-5],
};
/// Schmidt & Wagner, Fluid Phase Equilib. 19 (1985) 175, by CoolProp 8.0.0; sensible heat fitted to
/// 0.24 % from 8 K above boiling.
const OXYGEN: Data = Data {
    boiling_point: 90.187_808,
    latent_heat: 213_055.94,
    density: 1_141.172_1,
    sensible: [895.514_65, 0.042_240_569, 4_555.036_5, 97.190_076],
    pressure: [1.108_797_42e-2, -1.175_873_12e-3, -9.631_957_36e-6],
};
/// Tegeler, Span & Wagner, J. Phys. Chem. Ref. Data 28 (1999) 779, by CoolProp 8.0.0; sensible heat
/// fitted to 0.06 %.
const ARGON: Data = Data {
    boiling_point: 87.302_136,
    latent_heat: 161_138.28,
    density: 1_395.395_3,
    sensible: [525.009_23, -0.008_979_446_7, -344.124_54, 1_292.795_8],
    pressure: [1.145_447_48e-2, -1.242_428_56e-3, -9.884_156_32e-6],
};

impl Cryogen {
    const fn data(self) -> &'static Data {
        match self {
            Self::Nitrogen => &NITROGEN,
            Self::Oxygen => &OXYGEN,
            Self::Argon => &ARGON,
        }
    }
}

const PRESSURE_RANGE: Validity = Validity {
    law: "the boiling point of an open cryogen",
    quantity: "pressure",
    low: 55.0,
    high: 110.0,
    unit: "kPa",
};

/// Returns the boiling point of a liquefied gas in the open.
///
/// `1/t = c0 + c1 ln(p/p0) + c2 ln(p/p0)²`
///
/// # Units
/// p \[Pa\], t \[K\].
///
/// # Validity
/// 55 to 110 kPa: sea level to 4500 m.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside that range.
///
/// # Source
/// Reference equations of state as named at the data, by CoolProp 8.0.0.
pub fn boiling_point(liquid: Cryogen, pressure: Pressure) -> Result<Temperature, PhysicsError> {
    PRESSURE_RANGE.check(pressure.kilopascals())?;
    let ratio = (pressure.pascals() / STANDARD_ATMOSPHERE).ln();
    let [c0, c1, c2] = liquid.data().pressure;
    Ok(Temperature::from_kelvin(1.0 / (c0 + c1 * ratio + c2 * ratio * ratio)))
}

/// Returns the heat taken up when a kilogram boils at 101.325 kPa.
///
/// # Units
/// [J/kg].
///
/// # Validity
/// At 101.325 kPa; 2 to 3 % more at 60 kPa.
///
/// # Source
/// As [`boiling_point`].
pub const fn latent_heat(liquid: Cryogen) -> SpecificEnergy {
    SpecificEnergy::from_joules_per_kilogram(liquid.data().latent_heat)
}

/// Returns the density of the liquid boiling at 101.325 kPa.
///
/// # Units
/// [kg/m³].
///
/// # Source
/// As [`boiling_point`].
pub const fn liquid_density(liquid: Cryogen) -> Density {
    Density::from_kilograms_per_cubic_metre(liquid.data().density)
}

/// Returns the heat that the cold vapour takes up in warming to the temperature at which it leaves.
///
/// `h = s1 (t - t0) + s2 (t - t0)² + s3 (1 - t0/t) + s4 (1 - (t0/t)³)`
///
/// # Units
/// t \[K\], h [J/kg].
///
/// # Validity
/// From boiling to 330 K at 101.325 kPa, within 0.1 %; oxygen within 0.3 % from 8 K above boiling.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] below the boiling point or above 330 K.
///
/// # Source
/// As [`boiling_point`].
pub fn vapour_sensible_heat(
    liquid: Cryogen,
    leaving: Temperature,
) -> Result<SpecificEnergy, PhysicsError> {
    /// Upper end of the fits \[K\].
    const WARMEST: f64 = 330.0;
    let data = liquid.data();
    let range = Validity {
        law: "the heat of the vapour of a cryogen",
        quantity: "leaving temperature",
        low: data.boiling_point,
        high: WARMEST,
        unit: "K",
    };
    let t = range.check(leaving.kelvin())?;
    let (rise, ratio) = (t - data.boiling_point, data.boiling_point / t);
    let [s1, s2, s3, s4] = data.sensible;
    let h = s1 * rise + s2 * rise * rise + s3 * (1.0 - ratio) + s4 * (1.0 - ratio.powi(3));
    Ok(SpecificEnergy::from_joules_per_kilogram(h))
}

/// Returns all the heat that a kilogram takes up between boiling liquid and leaving vapour.
///
/// `q = l + h(t)`
///
/// # Units
/// t \[K\], q [J/kg].
///
/// # Validity
/// As [`vapour_sensible_heat`].
///
/// # Errors
/// As [`vapour_sensible_heat`].
///
/// # Source
/// As [`boiling_point`].
pub fn cooling_capacity(
    liquid: Cryogen,
    leaving: Temperature,
) -> Result<SpecificEnergy, PhysicsError> {
    Ok(latent_heat(liquid) + vapour_sensible_heat(liquid, leaving)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    const ALL: [Cryogen; 3] = [Cryogen::Nitrogen, Cryogen::Oxygen, Cryogen::Argon];

    #[test]
    fn pressures_and_temperatures_outside_are_refused() {
        for liquid in ALL {
            assert!(boiling_point(liquid, Pressure::from_kilopascals(20.0)).is_err());
            assert!(vapour_sensible_heat(liquid, Temperature::from_kelvin(60.0)).is_err());
            assert!(cooling_capacity(liquid, Temperature::from_kelvin(400.0)).is_err());
        }
    }

    #[test]
    fn warmer_vapour_has_taken_up_more() {
        for liquid in ALL {
            let mut before = -1.0;
            for step in 0..=230 {
                let t = liquid.data().boiling_point + f64::from(step);
                let h = vapour_sensible_heat(liquid, Temperature::from_kelvin(t)).unwrap().si();
                assert!(h > before);
                before = h;
            }
        }
    }

    #[test]
    fn the_two_boiling_points_agree() {
        for liquid in ALL {
            let t = boiling_point(liquid, Pressure::from_pascals(STANDARD_ATMOSPHERE)).unwrap();
            assert!((t.kelvin() - liquid.data().boiling_point).abs() < 1e-3);
        }
    }
}
