//! Liquid water: density, heat capacity and enthalpy.
//!
//! Symbols: pi and tau reduced pressure and inverse temperature, g the reduced Gibbs energy and its
//! derivatives, r the gas constant of water.

use super::saturation_pressure;
use crate::physics::{PhysicsError, Validity};
use crate::quantity::{Density, Pressure, SpecificEnergy, SpecificHeat, Temperature};

const LIQUID_TEMPERATURE: Validity = Validity {
    law: "liquid water (IAPWS R7-97, region 1)",
    quantity: "temperature",
    low: 273.15,
    high: 623.15,
    unit: "K",
};
const LIQUID_PRESSURE: Validity = Validity {
    law: "liquid water (IAPWS R7-97, region 1)",
    quantity: "pressure",
    low: 611.212_677,
    high: 100e6,
    unit: "Pa",
};
/// Water may be held liquid down to this share of its boiling pressure; the equation stays
/// reasonable for slightly superheated liquid (IAPWS R7-97(2012), section 5.1).
const SUPERHEAT_SHARE: f64 = 0.9;
/// Specific gas constant of water [J/(kg K)]: IAPWS R7-97(2012), equation 1.
const WATER_GAS_CONSTANT: f64 = 461.526;
/// Reducing pressure \[Pa\]: IAPWS R7-97(2012), equation 7.
const REDUCING_PRESSURE: f64 = 16.53e6;
/// Reducing temperature \[K\]: IAPWS R7-97(2012), equation 7.
const REDUCING_TEMPERATURE: f64 = 1386.0;

/// Exponents I and J and coefficient n of region 1: IAPWS R7-97(2012), table 2.
const REGION_1: [(i32, i32, f64); 34] = [
    (0, -2, 0.14632971213167),
    (0, -1, -0.84548187169114),
    (0, 0, -3.756360367204),
    (0, 1, 3.3855169168385),
    (0, 2, -0.95791963387872),
    (0, 3, 0.15772038513228),
    (0, 4, -0.016616417199501),
    (0, 5, 0.00081214629983568),
    (1, -9, 0.00028319080123804),
    (1, -7, -0.00060706301565874),
    (1, -1, -0.018990068218419),
    (1, 0, -0.032529748770505),
    (1, 1, -0.021841717175414),
    (1, 3, -5.283835796993e-05),
    (2, -3, -0.00047184321073267),
    (2, 0, -0.00030001780793026),
    (2, 1, 4.7661393906987e-05),
    (2, 3, -4.4141845330846e-06),
    (2, 17, -7.2694996297594e-16),
    (3, -4, -3.1679644845054e-05),
    (3, 0, -2.8270797985312e-06),
    (3, 6, -8.5205128120103e-10),
    (4, -5, -2.2425281908e-06),
    (4, -2, -6.5171222895601e-07),
    (4, 10, -1.4341729937924e-13),
    (5, -8, -4.0516996860117e-07),
    (8, -11, -1.2734301741641e-09),
    (8, -6, -1.7424871230634e-10),
    (21, -29, -6.8762131295531e-19),
    (23, -31, 1.4478307828521e-20),
    (29, -38, 2.6335781662795e-23),
    (30, -39, -1.1947622640071e-23),
    (31, -40, 1.8228094581404e-24),
    (32, -41, -9.3537087292458e-26),
];

/// Liquid water at one temperature and pressure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LiquidWater {
    /// Density.
    pub density: Density,
    /// Heat capacity at constant pressure.
    pub heat_capacity: SpecificHeat,
    /// Enthalpy, zero for the liquid at the triple point.
    pub enthalpy: SpecificEnergy,
}

/// Returns density, heat capacity and enthalpy of liquid water.
///
/// With g(π, τ) = Σ n (7.1 - π)^I (τ - 1.222)^J: `ρ = p / (r t π g_π)`, `h = r t τ g_τ`,
/// `cp = -r τ² g_ττ`.
///
/// # Units
/// t \[K\], p \[Pa\], ρ [kg/m³], h [J/kg], cp [J/(kg K)].
///
/// # Validity
/// 273.15 K to 623.15 K, up to 100 MPa, at or above the boiling pressure (10 % of superheat passes).
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside these ranges; [`PhysicsError::Impossible`] where water
/// is steam.
///
/// # Source
/// IAPWS R7-97(2012), Industrial Formulation 1997, region 1, equation 7 and tables 2 to 4.
pub fn liquid(temperature: Temperature, pressure: Pressure) -> Result<LiquidWater, PhysicsError> {
    let t = LIQUID_TEMPERATURE.check(temperature.kelvin())?;
    let p = LIQUID_PRESSURE.check(pressure.pascals())?;
    let boiling = saturation_pressure(temperature)?.pascals();
    if p < SUPERHEAT_SHARE * boiling {
        let celsius = temperature.celsius();
        let because = format!("at {celsius:.1} °C water boils away below {boiling:.0} Pa");
        return Err(PhysicsError::Impossible { what: "liquid water", because });
    }
    let (pi, tau) = (p / REDUCING_PRESSURE, REDUCING_TEMPERATURE / t);
    let (x, y) = (7.1 - pi, tau - 1.222);
    let (mut by_pi, mut by_tau, mut by_tau_twice) = (0.0, 0.0, 0.0);
    for (i, j, n) in REGION_1 {
        let term = n * x.powi(i) * y.powi(j);
        by_pi -= term * f64::from(i);
        by_tau += term * f64::from(j);
        by_tau_twice += term * f64::from(j * (j - 1));
    }
    let (by_pi, by_tau, by_tau_twice) = (by_pi / x, by_tau / y, by_tau_twice / (y * y));
    let rt = WATER_GAS_CONSTANT * t;
    Ok(LiquidWater {
        density: Density::from_kilograms_per_cubic_metre(p / (rt * pi * by_pi)),
        heat_capacity: SpecificHeat::from_joules_per_kilogram_kelvin(
            -WATER_GAS_CONSTANT * tau * tau * by_tau_twice,
        ),
        enthalpy: SpecificEnergy::from_joules_per_kilogram(rt * tau * by_tau),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_check_values_of_the_release_are_met() {
        // IAPWS R7-97(2012), table 5: 300 K and 500 K at 3 MPa, 300 K at 80 MPa.
        for (kelvin, megapascal, volume, enthalpy, heat_capacity) in [
            (300.0, 3.0, 0.100_215_168e-2, 115_331.273, 4_173.012_18),
            (300.0, 80.0, 0.971_180_894e-3, 184_142.828, 4_010.089_87),
            (500.0, 3.0, 0.120_241_800e-2, 975_542.239, 4_655.806_82),
        ] {
            let pressure = Pressure::from_kilopascals(1e3 * megapascal);
            let found = liquid(Temperature::from_kelvin(kelvin), pressure).unwrap();
            assert!((found.density.si() * volume - 1.0).abs() < 1e-8);
            assert!((found.enthalpy.si() / enthalpy - 1.0).abs() < 1e-8);
            assert!((found.heat_capacity.si() / heat_capacity - 1.0).abs() < 1e-8);
        }
    }

    #[test]
    fn nothing_is_nan_and_enthalpy_rises() {
        let mut before = f64::NEG_INFINITY;
        for step in 0..=175 {
            let t = Temperature::from_celsius(2.0 * f64::from(step));
            let found = liquid(t, Pressure::from_bars(200.0)).unwrap();
            assert!(found.density.si() > 500.0 && found.heat_capacity.si() > 4000.0);
            assert!(found.enthalpy.si() > before);
            before = found.enthalpy.si();
        }
    }

    #[test]
    fn steam_and_conditions_out_of_range_are_refused() {
        let atmosphere = Pressure::from_bars(1.0);
        let steam = liquid(Temperature::from_celsius(120.0), atmosphere);
        assert!(matches!(steam, Err(PhysicsError::Impossible { .. })));
        assert!(liquid(Temperature::from_celsius(-1.0), atmosphere).is_err());
        assert!(liquid(Temperature::from_celsius(20.0), Pressure::from_bars(2000.0)).is_err());
    }
}
