//! Dry ice: solid carbon dioxide that turns to gas.
//!
//! Symbols: t temperature \[K\], tt and pt triple point, p pressure, q heat.

use crate::physics::solve::root;
use crate::physics::{PhysicsError, Validity};
use crate::quantity::{Pressure, SpecificEnergy, Temperature};

/// Triple point of carbon dioxide \[K\], \[Pa\]: Span & Wagner 1996.
const TRIPLE_KELVIN: f64 = 216.592;
/// See [`TRIPLE_KELVIN`].
const TRIPLE_PASCALS: f64 = 517_950.0;
/// Sublimation curve, coefficients and exponents: Span & Wagner 1996, equation 3.12 (from memory;
/// it gives 101.33 kPa at the fixed point 194.686 K of ITS-90).
const SUBLIMATION: [(f64, f64); 3] = [(-14.740_846, 1.0), (2.432_701_5, 1.9), (-5.306_177_8, 2.9)];
/// Heat of sublimation at 194.7 K [J/kg]: W. F. Giauque & C. J. Egan, J. Chem. Phys. 5 (1937) 45,
/// 25.23 kJ/mol; handbooks give 571 to 574 kJ/kg.
const SUBLIMATION_HEAT: f64 = 573_000.0;
/// Sublimation temperature under one atmosphere \[K\]: ITS-90 secondary fixed point.
const NORMAL_KELVIN: f64 = 194.686;
/// Heat capacity of the gas at 101.325 kPa [J/(kg K)] by powers of t - 194.686 K: least squares
/// through Span & Wagner 1996 by CoolProp 8.0.0, 217 to 330 K, largest residual 0.05 %.
const GAS_HEAT: [f64; 4] = [765.200_16, 0.501_875_68, 4.979_663_35e-3, -1.761_679_1e-5];

const TEMPERATURE_RANGE: Validity = Validity {
    law: "the sublimation curve of carbon dioxide",
    quantity: "temperature",
    low: 154.0,
    high: TRIPLE_KELVIN,
    unit: "K",
};
const PRESSURE_RANGE: Validity = Validity {
    law: "the sublimation curve of carbon dioxide",
    quantity: "pressure of carbon dioxide",
    low: 2.0,
    high: 0.001 * TRIPLE_PASCALS,
    unit: "kPa",
};
const LEAVING_RANGE: Validity = Validity {
    law: "the cold of dry ice",
    quantity: "leaving temperature",
    low: NORMAL_KELVIN,
    high: 330.0,
    unit: "K",
};

/// Returns the pressure of carbon dioxide over dry ice.
///
/// `ln(p/pt) = (tt/t) Σ a_i (1 - t/tt)^n_i`
///
/// # Units
/// t \[K\], p \[Pa\].
///
/// # Validity
/// 154 to 216.592 K.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside that range.
///
/// # Source
/// R. Span & W. Wagner, J. Phys. Chem. Ref. Data 25 (1996) 1509.
pub fn sublimation_pressure(temperature: Temperature) -> Result<Pressure, PhysicsError> {
    let t = TEMPERATURE_RANGE.check(temperature.kelvin())?;
    Ok(Pressure::from_pascals(curve(t)))
}

fn curve(t: f64) -> f64 {
    let below = (1.0 - t / TRIPLE_KELVIN).max(0.0);
    let sum: f64 = SUBLIMATION.iter().map(|(a, n)| a * below.powf(*n)).sum();
    TRIPLE_PASCALS * (TRIPLE_KELVIN / t * sum).exp()
}

/// Returns the temperature of dry ice under a pressure of its own gas.
///
/// The inverse of [`sublimation_pressure`]. In moving air the gas is thinned and the ice gets
/// colder: give its partial pressure.
///
/// # Units
/// p \[Pa\], t \[K\].
///
/// # Validity
/// 2 to 517.95 kPa.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside that range.
///
/// # Source
/// As [`sublimation_pressure`].
pub fn sublimation_temperature(pressure: Pressure) -> Result<Temperature, PhysicsError> {
    const TOLERANCE: f64 = 1e-13;
    PRESSURE_RANGE.check(pressure.kilopascals())?;
    let target = pressure.pascals().min(TRIPLE_PASCALS);
    let t =
        root("a sublimation temperature", TEMPERATURE_RANGE.low, TRIPLE_KELVIN, TOLERANCE, |t| {
            (curve(t) / target).ln()
        })?;
    Ok(Temperature::from_kelvin(t))
}

/// Returns the heat that a kilogram of dry ice takes up in turning to gas at -78.5 °C.
///
/// # Units
/// [J/kg].
///
/// # Source
/// W. F. Giauque & C. J. Egan, J. Chem. Phys. 5 (1937) 45 (from memory).
pub const fn sublimation_heat() -> SpecificEnergy {
    SpecificEnergy::from_joules_per_kilogram(SUBLIMATION_HEAT)
}

/// Returns all the heat that a kilogram of dry ice takes up before its gas leaves.
///
/// `q = l + ∫ c(t) dt` from -78.5 °C
///
/// # Units
/// t \[K\], q [J/kg].
///
/// # Validity
/// -78.46 °C to 330 K at atmospheric pressure, within 1 %.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside that range.
///
/// # Source
/// As [`sublimation_heat`] and [`sublimation_pressure`].
pub fn dry_ice_cooling_capacity(leaving: Temperature) -> Result<SpecificEnergy, PhysicsError> {
    let rise = LEAVING_RANGE.check(leaving.kelvin())? - NORMAL_KELVIN;
    let [c0, c1, c2, c3] = GAS_HEAT;
    let warming = rise * (c0 + rise * (c1 / 2.0 + rise * (c2 / 3.0 + rise * c3 / 4.0)));
    Ok(sublimation_heat() + SpecificEnergy::from_joules_per_kilogram(warming))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn values_off_the_curve_are_refused() {
        assert!(sublimation_pressure(Temperature::from_kelvin(230.0)).is_err());
        assert!(sublimation_temperature(Pressure::from_kilopascals(600.0)).is_err());
        assert!(sublimation_temperature(Pressure::from_kilopascals(1.0)).is_err());
        assert!(dry_ice_cooling_capacity(Temperature::from_celsius(-90.0)).is_err());
    }

    #[test]
    fn the_curve_rises_and_runs_backwards() {
        let mut before = 0.0;
        for kelvin in 157..=216 {
            let t = Temperature::from_kelvin(f64::from(kelvin));
            let p = sublimation_pressure(t).unwrap();
            assert!(p.si() > before);
            before = p.si();
            let back = sublimation_temperature(p).unwrap();
            assert!((back - t).kelvin().abs() < 1e-9 * t.kelvin());
        }
    }

    #[test]
    fn warm_gas_has_taken_up_more() {
        let cold = dry_ice_cooling_capacity(Temperature::from_celsius(-40.0)).unwrap();
        let warm = dry_ice_cooling_capacity(Temperature::from_celsius(0.0)).unwrap();
        assert!(warm > cold && cold > sublimation_heat());
    }
}
