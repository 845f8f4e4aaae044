//! What a refractometer shows of a syrup.
//!
//! Symbols: w sugar share, n refractive index at 589 nm and 20 °C, d = t - 20 temperature
//! difference \[K\].

use crate::physics::solve::root;
use crate::physics::{PhysicsError, Validity};
use crate::quantity::Temperature;

/// Refractive index by powers of w: least squares through the ICUMSA table (SPS-3, 1974) at every
/// 5 °Brix from 0 to 85 (from memory; the rows from 10 to 14.5 °Brix agree with OIV OENO 21/2004
/// within 0.00001); largest residual 0.000003.
const INDEX: [f64; 6] =
    [1.332_988_75, 0.142_670_77, 0.055_400_28, 0.010_034_27, 0.015_945_36, -0.010_800_32];
/// The largest share of the table; the fits of this file are repeated by
/// `tests/reference/scripts/solutions_fit.py`.
const MAX_BRIX: f64 = 0.85;

const BRIX_RANGE: Validity = Validity {
    law: "the refractive index of a syrup",
    quantity: "sugar share",
    low: 0.0,
    high: MAX_BRIX,
    unit: "kg/kg",
};

/// Returns the refractive index of a sucrose solution at 20 °C in yellow sodium light.
///
/// `n = Σ n_i w^i`
///
/// # Units
/// w [kg/kg], n [-].
///
/// # Validity
/// 0 to 85 °Brix, within 0.00002.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside 0 to 0.85.
///
/// # Source
/// ICUMSA Specification and Standard SPS-3, refractometry and tables.
pub fn refractive_index(brix: f64) -> Result<f64, PhysicsError> {
    Ok(index_at(BRIX_RANGE.check(brix)?))
}

fn index_at(w: f64) -> f64 {
    INDEX.iter().rev().fold(0.0, |sum, n| sum * w + n)
}

/// Returns the sugar share of a solution from its refractive index at 20 °C.
///
/// The inverse of [`refractive_index`].
///
/// # Units
/// n [-], w [kg/kg].
///
/// # Validity
/// Indices of 0 to 85 °Brix.
///
/// # Errors
/// [`PhysicsError::Impossible`] for an index outside that range.
///
/// # Source
/// As [`refractive_index`].
pub fn brix_from_refractive_index(index: f64) -> Result<f64, PhysicsError> {
    const TOLERANCE: f64 = 1e-13;
    root("a sugar share with that refractive index", 0.0, MAX_BRIX, TOLERANCE, |w| {
        index_at(w) - index
    })
}

/// Temperature correction of the reading by d, d w, d w², d² and d² w: least squares through OIV
/// method MA-AS2-02, table I, from 5 to 17 °C; largest residual 0.015 °Brix.
const CORRECTION: [f64; 5] =
    [6.233_174_96e-4, 5.865_963_18e-4, -5.421_491_47e-4, 9.359_025_7e-6, -1.101_057_32e-5];
/// Temperature to which the scale refers [°C]: ICUMSA.
const REFERENCE_CELSIUS: f64 = 20.0;
const CORRECTION_TEMPERATURE: Validity = Validity {
    law: "the temperature correction of a refractometer",
    quantity: "temperature",
    low: 5.0,
    high: 30.0,
    unit: "°C",
};
const CORRECTION_BRIX: Validity = Validity {
    law: "the temperature correction of a refractometer",
    quantity: "reading",
    low: 0.0,
    high: 0.80,
    unit: "kg/kg",
};

/// Returns what to add to the reading of a refractometer without temperature compensation.
///
/// `Δw = d (c1 + c2 w + c3 w²) + d² (c4 + c5 w)`
///
/// # Units
/// w and Δw [kg/kg], d \[K\].
///
/// # Validity
/// 5 to 30 °C, to 80 °Brix. Fitted from 5 to 17 °C within 0.015 °Brix; at 30 °C it is 0.03 °Brix
/// from the international table as remembered.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside those ranges.
///
/// # Source
/// OIV, Compendium of methods of analysis, OIV-MA-AS2-02, table I.
pub fn brix_temperature_correction(
    reading: f64,
    temperature: Temperature,
) -> Result<f64, PhysicsError> {
    let w = CORRECTION_BRIX.check(reading)?;
    let d = CORRECTION_TEMPERATURE.check(temperature.celsius())? - REFERENCE_CELSIUS;
    let [c1, c2, c3, c4, c5] = CORRECTION;
    Ok(d * (c1 + c2 * w + c3 * w * w) + d * d * (c4 + c5 * w))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn values_outside_the_tables_are_refused() {
        assert!(refractive_index(0.9).is_err());
        assert!(brix_from_refractive_index(1.6).is_err());
        assert!(brix_temperature_correction(0.1, Temperature::from_celsius(45.0)).is_err());
        assert!(brix_temperature_correction(0.9, Temperature::from_celsius(20.0)).is_err());
    }

    #[test]
    fn the_index_rises_and_runs_backwards() {
        let mut before = 1.33;
        for percent in 0..=85 {
            let w = 0.01 * f64::from(percent);
            let n = refractive_index(w).unwrap();
            assert!(n > before);
            before = n;
            assert!((brix_from_refractive_index(n).unwrap() - w).abs() < 1e-9);
        }
    }

    #[test]
    fn nothing_is_corrected_at_twenty_degrees() {
        let none = brix_temperature_correction(0.4, Temperature::from_celsius(20.0)).unwrap();
        assert!(none.abs() < 1e-12);
    }
}
