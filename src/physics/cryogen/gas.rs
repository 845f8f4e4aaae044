//! The volume of the gases that cryogens and cartridges become.
//!
//! Symbols: t temperature \[K\], p pressure, v volume, m molar mass, b second virial coefficient.

use crate::physics::constants::GAS_CONSTANT;
use crate::physics::{PhysicsError, Validity};
use crate::quantity::{Pressure, Temperature};

/// A gas of the kitchen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Gas {
    /// Nitrogen.
    Nitrogen,
    /// Oxygen.
    Oxygen,
    /// Argon.
    Argon,
    /// Carbon dioxide.
    CarbonDioxide,
    /// Nitrous oxide.
    NitrousOxide,
}

/// Second virial coefficient [cm³/mol] by powers of 300 K / t: least squares through the reference
/// equations of state by CoolProp 8.0.0, 220 to 330 K; largest residual 0.5 cm³/mol.
const VIRIAL: [[f64; 3]; 5] = [
    [42.857_37, -37.414_09, -9.999_14],
    [35.823_97, -39.943_75, -11.349_58],
    [34.187_36, -38.569_07, -10.799_88],
    [-33.585_97, 102.359_44, -189.892_97],
    [11.144_53, -3.401_83, -139.170_68],
];
/// Molar masses in the same order [kg/mol]: as above.
const MOLAR_MASS: [f64; 5] = [0.028_013_48, 0.031_998_8, 0.039_948, 0.044_009_8, 0.044_012_8];

const TEMPERATURE_RANGE: Validity = Validity {
    law: "the volume of a gas by its second virial coefficient",
    quantity: "temperature",
    low: 220.0,
    high: 330.0,
    unit: "K",
};
const PRESSURE_RANGE: Validity = Validity {
    law: "the volume of a gas by its second virial coefficient",
    quantity: "pressure",
    low: 0.1,
    high: 2_000.0,
    unit: "kPa",
};

impl Gas {
    /// Returns the molar mass [kg/mol].
    pub const fn molar_mass_kg_per_mol(self) -> f64 {
        MOLAR_MASS[self as usize]
    }
}

/// Returns the volume of a kilogram of gas [m³/kg].
///
/// `v = (r t / p + b) / m`
///
/// # Units
/// t \[K\], p \[Pa\], b [m³/mol], v [m³/kg].
///
/// # Validity
/// 220 to 330 K, to 2 MPa while it is a gas; within 0.1 % at 100 kPa, 1 % at 2 MPa and 20 °C.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside those ranges.
///
/// # Source
/// Virial equation; coefficients as at [`Gas`], CoolProp 8.0.0.
pub fn specific_volume(
    gas: Gas,
    temperature: Temperature,
    pressure: Pressure,
) -> Result<f64, PhysicsError> {
    /// Cubic metres in a cubic centimetre.
    const CUBIC_CENTIMETRE: f64 = 1e-6;
    let t = TEMPERATURE_RANGE.check(temperature.kelvin())?;
    PRESSURE_RANGE.check(pressure.kilopascals())?;
    let [b0, b1, b2] = VIRIAL[gas as usize];
    let u = 300.0 / t;
    let b = CUBIC_CENTIMETRE * (b0 + b1 * u + b2 * u * u);
    Ok((GAS_CONSTANT * t / pressure.pascals() + b) / gas.molar_mass_kg_per_mol())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn values_outside_are_refused() {
        let (warm, one) = (Temperature::from_celsius(20.0), Pressure::from_bars(1.0));
        assert!(specific_volume(Gas::Argon, Temperature::from_kelvin(100.0), one).is_err());
        assert!(specific_volume(Gas::Argon, warm, Pressure::from_bars(30.0)).is_err());
    }

    #[test]
    fn heavier_gases_take_less_room() {
        let (warm, one) = (Temperature::from_celsius(20.0), Pressure::from_bars(1.0));
        let volume = |gas| specific_volume(gas, warm, one).unwrap();
        assert!(volume(Gas::Nitrogen) > volume(Gas::Oxygen));
        assert!(volume(Gas::Oxygen) > volume(Gas::Argon));
        assert!(volume(Gas::Argon) > volume(Gas::CarbonDioxide));
    }
}
