//! Water activity of table-salt brine by the ion-interaction equation.
//!
//! Symbols: m molality [mol/kg water], phi osmotic coefficient, aphi Debye-Hückel slope, b0 b1 c
//! interaction parameters, t temperature \[K\].

use crate::physics::constants::WATER_MOLAR_MASS;
use crate::physics::{PhysicsError, Validity};
use crate::quantity::Temperature;

/// Reference temperature of the parameters \[K\]: Silvester & Pitzer 1977.
const REFERENCE_KELVIN: f64 = 298.15;
/// Parameter beta-0 of sodium chloride: value, 1/T, ln T, T and T² terms; Silvester & Pitzer 1977.
const BETA_0: [f64; 5] = [0.0765, -777.03, -4.4706, 0.008_946, -3.315_8e-6];
/// Parameter beta-1, same order of terms and source.
const BETA_1: [f64; 5] = [0.2664, 0.0, 0.0, 6.160_8e-5, 1.071_5e-6];
/// Parameter C-phi, same order of terms and source.
const C_PHI: [f64; 5] = [0.001_27, 33.317, 0.094_21, -4.655e-5, 0.0];
/// Ionic size parameter b [kg^½/mol^½]: Pitzer & Mayorga 1973.
const SIZE: f64 = 1.2;
/// Range of the short-range term, alpha [kg^½/mol^½]: Pitzer & Mayorga 1973.
const ALPHA: f64 = 2.0;
/// Debye-Hückel slope of water as a cubic in °C: least squares from 0 to 150 °C through the function
/// of N. Møller, Geochim. Cosmochim. Acta 52 (1988) 821 (from memory; 0.3915 at 25 °C as published),
/// largest residual 0.0002.
const DEBYE_SLOPE: [f64; 4] = [0.376_58, 5.252_1e-4, 2.842_6e-6, 2.991_9e-9];
/// Ions from one formula unit.
const IONS: f64 = 2.0;

/// Saturation at 100 °C lies below this molality [mol/kg].
pub const MAX_MOLALITY_MOL_PER_KG: f64 = 6.7;

const MOLALITY_RANGE: Validity = Validity {
    law: "the ion-interaction equation of sodium chloride",
    quantity: "molality",
    low: 0.0,
    high: MAX_MOLALITY_MOL_PER_KG,
    unit: "mol/kg",
};
const TEMPERATURE_RANGE: Validity = Validity {
    law: "the ion-interaction equation of sodium chloride",
    quantity: "temperature",
    low: -22.0,
    high: 150.0,
    unit: "°C",
};

/// Returns the osmotic coefficient of a sodium chloride solution.
///
/// `phi = 1 - aphi √m / (1 + 1.2 √m) + m (b0 + b1 exp(-2 √m)) + m² c`
///
/// # Units
/// m [mol/kg water], phi [-].
///
/// # Validity
/// 0 to 6.7 mol/kg; published for 0 to 300 °C. Below 0 °C it is an extrapolation which puts the
/// freezing point of a 20 % brine 0.3 K too low; [`super::freezing_point`] does not use it.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside 0 to 6.7 mol/kg or -22 to 150 °C.
///
/// # Source
/// L. F. Silvester & K. S. Pitzer, Thermodynamics of electrolytes 8, J. Phys. Chem. 81 (1977) 1822;
/// parameters as restated in the documentation of a public thermodynamics library.
pub fn osmotic_coefficient(
    molality_mol_per_kg: f64,
    temperature: Temperature,
) -> Result<f64, PhysicsError> {
    let m = MOLALITY_RANGE.check(molality_mol_per_kg)?;
    TEMPERATURE_RANGE.check(temperature.celsius())?;
    Ok(osmotic(m, temperature))
}

fn osmotic(m: f64, temperature: Temperature) -> f64 {
    let t = temperature.kelvin();
    let shift = [
        1.0,
        1.0 / t - 1.0 / REFERENCE_KELVIN,
        (t / REFERENCE_KELVIN).ln(),
        t - REFERENCE_KELVIN,
        t * t - REFERENCE_KELVIN * REFERENCE_KELVIN,
    ];
    let at = |terms: &[f64; 5]| terms.iter().zip(shift).map(|(q, s)| q * s).sum::<f64>();
    let celsius = temperature.celsius();
    let aphi = DEBYE_SLOPE.iter().rev().fold(0.0, |sum, q| sum * celsius + q);
    let root = m.sqrt();
    let short = at(&BETA_0) + at(&BETA_1) * (-ALPHA * root).exp();
    1.0 - aphi * root / (1.0 + SIZE * root) + m * short + m * m * at(&C_PHI)
}

/// Returns the natural logarithm of the water activity, without checks, for inner loops.
///
/// `ln aw = -2 m M_w phi`. The caller keeps the molality at or below [`MAX_MOLALITY_MOL_PER_KG`].
pub fn log_water_activity(molality_mol_per_kg: f64, temperature: Temperature) -> f64 {
    if molality_mol_per_kg <= 0.0 {
        return 0.0;
    }
    let phi = osmotic(molality_mol_per_kg, temperature);
    -IONS * molality_mol_per_kg * WATER_MOLAR_MASS * phi
}

/// Returns the water activity of a sodium chloride solution.
///
/// `aw = exp(-2 m M_w phi)`
///
/// # Units
/// m [mol/kg water], aw [-].
///
/// # Validity
/// As [`osmotic_coefficient`].
///
/// # Errors
/// As [`osmotic_coefficient`].
///
/// # Source
/// As [`osmotic_coefficient`].
pub fn water_activity(
    molality_mol_per_kg: f64,
    temperature: Temperature,
) -> Result<f64, PhysicsError> {
    osmotic_coefficient(molality_mol_per_kg, temperature)?;
    Ok(log_water_activity(molality_mol_per_kg, temperature).exp())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_molality_or_temperature_outside_the_range_is_refused() {
        let warm = Temperature::from_celsius(25.0);
        assert!(osmotic_coefficient(7.0, warm).is_err());
        assert!(osmotic_coefficient(-0.1, warm).is_err());
        assert!(water_activity(1.0, Temperature::from_celsius(200.0)).is_err());
    }

    #[test]
    fn water_activity_falls_with_salt_everywhere() {
        for celsius in [-20.0, 0.0, 25.0, 60.0, 100.0, 150.0] {
            let mut before = 1.0;
            for step in 1..=67 {
                let m = 0.1 * f64::from(step);
                let aw = water_activity(m, Temperature::from_celsius(celsius)).unwrap();
                assert!(aw < before, "{m} mol/kg at {celsius} °C");
                before = aw;
            }
        }
    }

    #[test]
    fn pure_water_has_activity_one() {
        let aw = water_activity(0.0, Temperature::from_celsius(50.0)).unwrap();
        assert!((aw - 1.0).abs() < 1e-12);
    }
}
