//! Density, viscosity, heat capacity and solubility of sucrose in water.
//!
//! Symbols: w sugar share, x mole fraction of sugar, t temperature [°C], mu viscosity.

use crate::physics::constants::{SUCROSE_MOLAR_MASS, WATER_MOLAR_MASS};
use crate::physics::solve::root;
use crate::physics::{PhysicsError, Validity};
use crate::quantity::{Density, SpecificHeat, Temperature, Viscosity};

/// Density of the sugar beyond that of water [kg/m³]: rows by powers of (t - 20)/100, columns by
/// powers of w from one. ICUMSA SPS-4 (1998), table by H. Bettin, F. Emmerich, F. Spieweck & H.
/// Toth, Zuckerindustrie 123 (1998) 341, as restated in two public programs.
const DENSITY: [[f64; 6]; 5] = [
    [385.176_1, 135.370_5, 40.929_9, -3.964_3, 13.485_3, -17.289_0],
    [-46.272_0, -7.172_0, 1.159_7, 5.112_6, 17.525_4, 0.0],
    [59.771_2, 7.249_1, 12.363_0, -35.479_1, 0.0, 0.0],
    [-47.220_7, -21.697_7, 27.630_1, 0.0, 0.0, 0.0],
    [18.318_4, 12.308_1, 0.0, 0.0, 0.0, 0.0],
];
/// Density of air-free water [kg/m³], numerator by powers of t: G. S. Kell, J. Chem. Eng. Data 20
/// (1975) 97, as used by SPS-4.
const WATER_DENSITY: [f64; 6] =
    [999.839_52, 16.952_577, -7.990_512_7e-3, -46.241_757e-6, 105.846_01e-9, -281.030_06e-12];
/// Denominator slope of the water density [1/K]: as above.
const WATER_DENSITY_DENOMINATOR: f64 = 16.887_236e-3;
/// Largest sugar share for which the polynomial is used [kg/kg]; the standard covers 0 to 1.
const DENSITY_MAX_BRIX: f64 = 0.95;

const DENSITY_BRIX: Validity = Validity {
    law: "the density of a syrup",
    quantity: "sugar share",
    low: 0.0,
    high: DENSITY_MAX_BRIX,
    unit: "kg/kg",
};
const DENSITY_TEMPERATURE: Validity = Validity {
    law: "the density of a syrup",
    quantity: "temperature",
    low: 0.0,
    high: 100.0,
    unit: "°C",
};

/// Returns the density of a sucrose solution.
///
/// `rho = rho_water(t) + Σ_i Σ_j b_ij w^j ((t - 20)/100)^i`
///
/// # Units
/// w [kg/kg], t [°C], rho [kg/m³].
///
/// # Validity
/// 0 to 95 °Brix, 0 to 100 °C; the standard states 0.05 kg/m³ to 75 °Brix and 80 °C.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside those ranges.
///
/// # Source
/// ICUMSA Specification and Standard SPS-4, densimetry and tables; at 20 °C also OIML G 14.
pub fn density(brix: f64, temperature: Temperature) -> Result<Density, PhysicsError> {
    let w = DENSITY_BRIX.check(brix)?;
    let t = DENSITY_TEMPERATURE.check(temperature.celsius())?;
    Ok(Density::from_kilograms_per_cubic_metre(density_at(w, t)))
}

fn density_at(w: f64, t: f64) -> f64 {
    let numerator = WATER_DENSITY.iter().rev().fold(0.0, |sum, a| sum * t + a);
    let water = numerator / (1.0 + WATER_DENSITY_DENOMINATOR * t);
    let warm = (t - 20.0) / 100.0;
    let sugar = |row: &[f64; 6]| w * row.iter().rev().fold(0.0, |sum, b| sum * w + b);
    water + DENSITY.iter().rev().fold(0.0, |sum, row| sum * warm + sugar(row))
}

/// Returns the sugar share of a solution from its density, as a hydrometer gives it.
///
/// The inverse of [`density`].
///
/// # Units
/// rho [kg/m³], t [°C], w [kg/kg].
///
/// # Validity
/// As [`density`].
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for a temperature out of range; [`PhysicsError::Impossible`]
/// for a density of no syrup.
///
/// # Source
/// As [`density`].
pub fn brix_from_density(density: Density, temperature: Temperature) -> Result<f64, PhysicsError> {
    const TOLERANCE: f64 = 1e-13;
    let t = DENSITY_TEMPERATURE.check(temperature.celsius())?;
    root("a sugar share with that density", 0.0, DENSITY_MAX_BRIX, TOLERANCE, |w| {
        density_at(w, t) - density.kilograms_per_cubic_metre()
    })
}

/// Returns the mole fraction of sucrose in a solution.
///
/// `x = (w / M_s) / (w / M_s + (1 - w) / M_w)`
///
/// # Units
/// w [kg/kg], x [-].
///
/// # Source
/// Definition.
pub fn mole_fraction(brix: f64) -> f64 {
    let sugar = brix / SUCROSE_MOLAR_MASS;
    sugar / (sugar + (1.0 - brix) / WATER_MOLAR_MASS)
}

const VISCOSITY_BRIX: Validity = Validity {
    law: "the viscosity of a syrup",
    quantity: "sugar share",
    low: 0.0,
    high: 0.85,
    unit: "kg/kg",
};
const VISCOSITY_TEMPERATURE: Validity = Validity {
    law: "the viscosity of a syrup",
    quantity: "temperature",
    low: 0.0,
    high: 100.0,
    unit: "°C",
};

/// Returns the viscosity of a sucrose solution.
///
/// `log10(mu / mPa s) = 22.46 x - 0.114 + (30 - t)/(91 + t) (1.1 + 43.1 x^1.25)`
///
/// # Units
/// x [-], t [°C], mu [Pa s].
///
/// # Validity
/// 0 to 85 °Brix, 0 to 100 °C; within 4 % of NBS Circular 440 to 70 °Brix, 12 % above 60 °Brix away
/// from its temperatures; without sugar 7 % above water at 95 °C.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside those ranges.
///
/// # Source
/// J. Génotelle, Industries alimentaires et agricoles 95 (1978) 747, in M. Mathlouthi & P. Reiser,
/// Sucrose: properties and applications, 1995 (from memory).
pub fn viscosity(brix: f64, temperature: Temperature) -> Result<Viscosity, PhysicsError> {
    let x = mole_fraction(VISCOSITY_BRIX.check(brix)?);
    let t = VISCOSITY_TEMPERATURE.check(temperature.celsius())?;
    let phi = (30.0 - t) / (91.0 + t);
    let log = 22.46 * x - 0.114 + phi * (1.1 + 43.1 * x.powf(1.25));
    Ok(Viscosity::from_millipascal_seconds(10f64.powf(log)))
}

const HEAT_RANGE: Validity = Validity {
    law: "the heat capacity of a syrup",
    quantity: "temperature",
    low: 0.0,
    high: 130.0,
    unit: "°C",
};

/// Returns the heat capacity of a pure sucrose solution.
///
/// `c = 4186.8 - 2970 w + 4.6 w · 100 + 7.5 w t`, the purity term taken at 100 %
///
/// # Units
/// w [kg/kg], t [°C], c [J/(kg K)].
///
/// # Validity
/// 0 to 95 °Brix, 0 to 130 °C, within about 2 %.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside those ranges.
///
/// # Source
/// Z. Bubník, P. Kadlec, D. Urban & M. Bruhns, Sugar Technologists Manual, 8th ed., 1995 (from
/// memory; the terms agree with a public program).
pub fn specific_heat(brix: f64, temperature: Temperature) -> Result<SpecificHeat, PhysicsError> {
    let w = DENSITY_BRIX.check(brix)?;
    let t = HEAT_RANGE.check(temperature.celsius())?;
    let heat = 4_186.8 - 2_970.0 * w + 460.0 * w + 7.5 * w * t;
    Ok(SpecificHeat::from_joules_per_kilogram_kelvin(heat))
}

/// Solubility of sucrose [% by mass] by powers of t: Vavrinecz 1962.
const SOLUBILITY: [f64; 5] = [64.447, 8.222e-2, 1.616_9e-3, -1.558e-6, -4.63e-8];
const SOLUBILITY_RANGE: Validity = Validity {
    law: "the solubility of sucrose",
    quantity: "temperature",
    low: -13.0,
    high: 100.0,
    unit: "°C",
};

/// Returns the sugar share of a saturated sucrose solution.
///
/// `w = (64.447 + 0.08222 t + 0.0016169 t² - 1.558e-6 t³ - 4.63e-8 t⁴) / 100`
///
/// # Units
/// t [°C], w [kg/kg].
///
/// # Validity
/// -13 to 100 °C, within 1 percentage point of other tables.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside that range.
///
/// # Source
/// G. Vavrinecz, Z. Zuckerind. 12 (1962) 481 (from memory).
pub fn sucrose_solubility(temperature: Temperature) -> Result<f64, PhysicsError> {
    const PER_CENT: f64 = 0.01;
    let t = SOLUBILITY_RANGE.check(temperature.celsius())?;
    Ok(PER_CENT * SOLUBILITY.iter().rev().fold(0.0, |sum, s| sum * t + s))
}

#[cfg(test)]
mod tests {
    use super::*;

    const ROOM: Temperature = Temperature::from_celsius(20.0);

    #[test]
    fn values_outside_the_ranges_are_refused() {
        let hot = Temperature::from_celsius(150.0);
        assert!(density(0.97, ROOM).is_err());
        assert!(density(0.5, hot).is_err());
        assert!(brix_from_density(Density::from_kilograms_per_cubic_metre(900.0), ROOM).is_err());
        assert!(brix_from_density(Density::from_kilograms_per_cubic_metre(1200.0), hot).is_err());
        assert!(viscosity(0.9, ROOM).is_err());
        assert!(viscosity(0.5, hot).is_err());
        assert!(specific_heat(0.5, hot).is_err());
        assert!(sucrose_solubility(Temperature::from_celsius(-20.0)).is_err());
    }

    #[test]
    fn density_rises_with_sugar_and_runs_backwards() {
        for celsius in [0.0, 20.0, 60.0, 100.0] {
            let temperature = Temperature::from_celsius(celsius);
            let mut before = 0.0;
            for percent in 0..=90 {
                let w = 0.01 * f64::from(percent);
                let rho = density(w, temperature).unwrap();
                assert!(rho.si() > before);
                before = rho.si();
                assert!((brix_from_density(rho, temperature).unwrap() - w).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn syrup_thins_when_warmed_and_thickens_with_sugar() {
        for percent in 1..=85 {
            let w = 0.01 * f64::from(percent);
            let at = |w: f64, t: f64| viscosity(w, Temperature::from_celsius(t)).unwrap().si();
            assert!(at(w, 40.0) < at(w, 20.0));
            assert!(at(w, 20.0) > at(w - 0.01, 20.0));
        }
    }

    #[test]
    fn more_sugar_dissolves_when_warm() {
        let mut before = 0.0;
        for degrees in 0..=100 {
            let share = sucrose_solubility(Temperature::from_celsius(f64::from(degrees))).unwrap();
            assert!(share > before);
            before = share;
        }
    }
}
