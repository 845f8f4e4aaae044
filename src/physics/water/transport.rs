//! Viscosity, thermal conductivity and surface tension of water.
//!
//! Symbols: t reduced temperature, rho reduced density.

use super::{CRITICAL_DENSITY, CRITICAL_TEMPERATURE};
use crate::physics::{PhysicsError, Validity};
use crate::quantity::{Conductivity, Density, SurfaceTension, Temperature, Viscosity};

const TRANSPORT_TEMPERATURE: Validity = Validity {
    law: "viscosity and conductivity of water (IAPWS R12-08, R15-11)",
    quantity: "temperature",
    low: 273.15,
    high: 1173.15,
    unit: "K",
};
const TRANSPORT_DENSITY: Validity = Validity {
    law: "viscosity and conductivity of water (IAPWS R12-08, R15-11)",
    quantity: "density",
    low: 0.0,
    high: 1200.0,
    unit: "kg/m³",
};
const TENSION_TEMPERATURE: Validity = Validity {
    law: "surface tension of water (IAPWS R1-76)",
    quantity: "temperature",
    low: 248.15,
    high: CRITICAL_TEMPERATURE,
    unit: "K",
};

/// Coefficients of the dilute gas: IAPWS R12-08, table 1.
const VISCOSITY_DILUTE: [f64; 4] = [1.677_52, 2.204_62, 0.636_656_4, -0.241_605];
/// Coefficients of the dense fluid, a row per power of 1/t - 1: IAPWS R12-08, table 2.
const VISCOSITY_DENSE: [[f64; 7]; 6] = [
    [0.520_094, 0.222_531, -0.281_378, 0.161_913, -0.032_537_2, 0.0, 0.0],
    [0.085_089_5, 0.999_115, -0.906_851, 0.257_399, 0.0, 0.0, 0.0],
    [-1.083_74, 1.887_97, -0.772_479, 0.0, 0.0, 0.0, 0.0],
    [-0.289_555, 1.266_13, -0.489_837, 0.0, 0.069_845_2, 0.0, -0.004_356_73],
    [0.0, 0.0, -0.257_040, 0.0, 0.0, 0.008_721_02, 0.0],
    [0.0, 0.120_573, 0.0, 0.0, 0.0, 0.0, -0.000_593_264],
];
/// Coefficients of the dilute gas: IAPWS R15-11, table 1.
const CONDUCTIVITY_DILUTE: [f64; 5] =
    [2.443_221e-3, 1.323_095e-2, 6.770_357e-3, -3.454_586e-3, 4.096_266e-4];
/// Coefficients of the dense fluid, a row per power of 1/t - 1: IAPWS R15-11, table 2.
const CONDUCTIVITY_DENSE: [[f64; 6]; 5] = [
    [
        1.603_973_57,
        -0.646_013_523,
        0.111_443_906,
        0.102_997_357,
        -0.050_412_363_4,
        0.006_098_592_58,
    ],
    [2.337_718_42, -2.788_437_78, 1.536_161_67, -0.463_045_512, 0.083_282_701_9, -0.007_192_012_45],
    [2.196_505_29, -4.545_807_85, 3.557_772_44, -1.409_449_78, 0.275_418_278, -0.020_593_881_6],
    [-1.210_513_78, 1.608_129_89, -0.621_178_141, 0.071_637_322_4, 0.0, 0.0],
    [-2.720_337_0, 4.575_863_31, -3.183_692_45, 1.116_834_8, -0.192_683_05, 0.012_913_842],
];

/// Returns the dynamic viscosity of water, liquid or vapour, at a density.
///
/// `µ = 100 µPa·s √t / Σ Hi t⁻ⁱ · exp(ρ Σi (1/t - 1)ⁱ Σj Hij (ρ - 1)ʲ)`, without the enhancement
/// near the critical point.
///
/// # Units
/// t reduced by 647.096 K, ρ reduced by 322 kg/m³, µ [Pa·s].
///
/// # Validity
/// 273.15 K to 1173.15 K, up to 1200 kg/m³; within 2 % of the critical point it is a few per cent low.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside these ranges.
///
/// # Source
/// IAPWS R12-08, equations 10 to 12, tables 1 and 2.
pub fn viscosity(temperature: Temperature, density: Density) -> Result<Viscosity, PhysicsError> {
    let (t, rho) = reduced(temperature, density)?;
    let dilute = 100.0 * t.sqrt() / polynomial(&VISCOSITY_DILUTE, 1.0 / t);
    let dense = (rho * surface(&VISCOSITY_DENSE, 1.0 / t - 1.0, rho - 1.0)).exp();
    Ok(Viscosity::from_pascal_seconds(1e-6 * dilute * dense))
}

/// Returns the thermal conductivity of water, liquid or vapour, at a density.
///
/// `λ = 1 mW/(m K) √t / Σ Lk t⁻ᵏ · exp(ρ Σi (1/t - 1)ⁱ Σj Lij (ρ - 1)ʲ)`, without the enhancement
/// near the critical point, which adds up to 0.5 % to the liquid below 100 °C.
///
/// # Units
/// t reduced by 647.096 K, ρ reduced by 322 kg/m³, λ [W/(m K)].
///
/// # Validity
/// 273.15 K to 1173.15 K, up to 1200 kg/m³.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside these ranges.
///
/// # Source
/// IAPWS R15-11, equations 15 to 17, tables 1 and 2.
pub fn thermal_conductivity(
    temperature: Temperature,
    density: Density,
) -> Result<Conductivity, PhysicsError> {
    let (t, rho) = reduced(temperature, density)?;
    let dilute = t.sqrt() / polynomial(&CONDUCTIVITY_DILUTE, 1.0 / t);
    let dense = (rho * surface(&CONDUCTIVITY_DENSE, 1.0 / t - 1.0, rho - 1.0)).exp();
    Ok(Conductivity::from_watts_per_metre_kelvin(1e-3 * dilute * dense))
}

/// Returns the surface tension of water against its vapour.
///
/// `σ = 235.8 mN/m τ^1.256 (1 - 0.625 τ)`, τ = 1 - t/tc.
///
/// # Units
/// t \[K\], σ [N/m].
///
/// # Validity
/// 248.15 K (supercooled) to the critical point.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside that range.
///
/// # Source
/// IAPWS R1-76(2014), equation 1.
pub fn surface_tension(temperature: Temperature) -> Result<SurfaceTension, PhysicsError> {
    let tau = 1.0 - TENSION_TEMPERATURE.check(temperature.kelvin())? / CRITICAL_TEMPERATURE;
    let tau = tau.max(0.0);
    Ok(SurfaceTension::from_newtons_per_metre(235.8e-3 * tau.powf(1.256) * (1.0 - 0.625 * tau)))
}

fn reduced(temperature: Temperature, density: Density) -> Result<(f64, f64), PhysicsError> {
    let t = TRANSPORT_TEMPERATURE.check(temperature.kelvin())?;
    let rho = TRANSPORT_DENSITY.check(density.kilograms_per_cubic_metre())?;
    Ok((t / CRITICAL_TEMPERATURE, rho / CRITICAL_DENSITY))
}

/// The polynomial with the given coefficients, lowest power first.
fn polynomial(coefficients: &[f64], x: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, c| sum * x + c)
}

/// The polynomial in two variables, a row per power of the first.
fn surface<const N: usize>(rows: &[[f64; N]], x: f64, y: f64) -> f64 {
    rows.iter().rev().fold(0.0, |sum, row| sum * x + polynomial(row, y))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn state(kelvin: f64, density: f64) -> (Temperature, Density) {
        (Temperature::from_kelvin(kelvin), Density::from_kilograms_per_cubic_metre(density))
    }

    #[test]
    fn viscosity_meets_the_check_values_of_the_release() {
        // IAPWS R12-08, table 4 [µPa·s].
        for (kelvin, density, expected) in [
            (298.15, 998.0, 889.735_100),
            (298.15, 1200.0, 1_437.649_467),
            (373.15, 1000.0, 307.883_622),
            (433.15, 1.0, 14.538_324),
            (873.15, 600.0, 77.430_195),
        ] {
            let (t, rho) = state(kelvin, density);
            let found = 1e6 * viscosity(t, rho).unwrap().pascal_seconds();
            assert!((found - expected).abs() < 1e-6, "{found} is not {expected}");
        }
    }

    #[test]
    fn conductivity_meets_the_check_values_of_the_release() {
        // IAPWS R15-11, table 4 [mW/(m K)], without critical enhancement.
        for (kelvin, density, expected) in [
            (298.15, 0.0, 18.434_188_3),
            (298.15, 998.0, 607.712_868),
            (298.15, 1200.0, 799.038_144),
        ] {
            let (t, rho) = state(kelvin, density);
            let found = 1e3 * thermal_conductivity(t, rho).unwrap().si();
            assert!((found - expected).abs() < 1e-6, "{found} is not {expected}");
        }
    }

    #[test]
    fn tension_falls_to_nothing_at_the_critical_point() {
        let at = |celsius| surface_tension(Temperature::from_celsius(celsius)).unwrap().si();
        assert!(at(0.01) > at(50.0) && at(50.0) > at(300.0));
        assert!(
            surface_tension(Temperature::from_kelvin(CRITICAL_TEMPERATURE)).unwrap().si() < 1e-9
        );
    }

    #[test]
    fn conditions_out_of_range_are_refused() {
        let (cold, rho) = state(250.0, 1000.0);
        assert!(viscosity(cold, rho).is_err());
        assert!(thermal_conductivity(cold, rho).is_err());
        let (warm, heavy) = state(300.0, 1300.0);
        assert!(viscosity(warm, heavy).is_err());
        assert!(thermal_conductivity(warm, heavy).is_err());
        assert!(surface_tension(Temperature::from_celsius(-30.0)).is_err());
    }
}
