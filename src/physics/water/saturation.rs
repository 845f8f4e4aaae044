//! The line between liquid water and its vapour.
//!
//! Symbols: p pressure, t temperature, theta transformed temperature, beta fourth root of the
//! pressure in megapascal, tau distance from the critical temperature, l latent heat.

use super::{CRITICAL_DENSITY, CRITICAL_TEMPERATURE};
use crate::physics::{PhysicsError, Validity};
use crate::quantity::{Density, Pressure, SpecificEnergy, Temperature};

const SATURATION_TEMPERATURE: Validity = Validity {
    law: "the saturation line of water (IAPWS R7-97)",
    quantity: "temperature",
    low: 273.15,
    high: CRITICAL_TEMPERATURE,
    unit: "K",
};
const SATURATION_PRESSURE: Validity = Validity {
    law: "the saturation line of water (IAPWS R7-97)",
    quantity: "pressure",
    low: 611.212_677,
    high: 22.064e6,
    unit: "Pa",
};
const SATURATION_DENSITY: Validity = Validity {
    law: "the densities along the saturation line of water (IAPWS SR1-86)",
    quantity: "temperature",
    low: 273.15,
    high: 647.0,
    unit: "K",
};

/// The coefficients n1 to n10 of the saturation line: IAPWS R7-97(2012), table 34.
const N: [f64; 10] = [
    0.116_705_214_527_67e4,
    -0.724_213_167_032_06e6,
    -0.170_738_469_400_92e2,
    0.120_208_247_024_70e5,
    -0.323_255_503_223_33e7,
    0.149_151_086_135_30e2,
    -0.482_326_573_615_91e4,
    0.405_113_405_420_57e6,
    -0.238_555_575_678_49,
    0.650_175_348_447_98e3,
];
/// The pressure unit of the saturation line \[Pa\].
const MEGAPASCAL: f64 = 1e6;

/// Returns the pressure at which water boils at a temperature.
///
/// `p = (2 c / (-b + √(b² - 4 a c)))⁴` in MPa, with a = ϑ² + n1 ϑ + n2, b = n3 ϑ² + n4 ϑ + n5,
/// c = n6 ϑ² + n7 ϑ + n8 and ϑ = t + n9 / (t - n10).
///
/// # Units
/// t \[K\], p \[Pa\].
///
/// # Validity
/// 273.15 K to the critical point, 647.096 K.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside that range.
///
/// # Source
/// IAPWS R7-97(2012), Industrial Formulation 1997, region 4, equation 30.
pub fn saturation_pressure(temperature: Temperature) -> Result<Pressure, PhysicsError> {
    let t = SATURATION_TEMPERATURE.check(temperature.kelvin())?;
    let theta = t + N[8] / (t - N[9]);
    let a = theta * theta + N[0] * theta + N[1];
    let b = N[2] * theta * theta + N[3] * theta + N[4];
    let c = N[5] * theta * theta + N[6] * theta + N[7];
    let root = 2.0 * c / (-b + (b * b - 4.0 * a * c).sqrt());
    let squared = root * root;
    Ok(Pressure::from_pascals(MEGAPASCAL * squared * squared))
}

/// Returns the temperature at which water boils under a pressure.
///
/// `t = (n10 + d - √((n10 + d)² - 4 (n9 + n10 d))) / 2`, with d = 2 g / (-f - √(f² - 4 e g)),
/// e = β² + n3 β + n6, f = n1 β² + n4 β + n7, g = n2 β² + n5 β + n8 and β = (p / 1 MPa)^(1/4).
///
/// # Units
/// p \[Pa\], t \[K\].
///
/// # Validity
/// 611.213 Pa (0 °C) to the critical point, 22.064 MPa. Below it water freezes before it boils; see
/// [`crate::physics::ice::equilibrium_temperature`].
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside that range.
///
/// # Source
/// IAPWS R7-97(2012), Industrial Formulation 1997, region 4, equation 31.
pub fn saturation_temperature(pressure: Pressure) -> Result<Temperature, PhysicsError> {
    let p = SATURATION_PRESSURE.check(pressure.pascals())?;
    let beta_squared = (p / MEGAPASCAL).sqrt();
    let beta = beta_squared.sqrt();
    let e = beta_squared + N[2] * beta + N[5];
    let f = N[0] * beta_squared + N[3] * beta + N[6];
    let g = N[1] * beta_squared + N[4] * beta + N[7];
    let d = 2.0 * g / (-f - (f * f - 4.0 * e * g).sqrt());
    let sum = N[9] + d;
    Ok(Temperature::from_kelvin(0.5 * (sum - (sum * sum - 4.0 * (N[8] + N[9] * d)).sqrt())))
}

/// Returns how fast the boiling pressure of water rises with temperature [Pa/K].
///
/// The derivative of [`saturation_pressure`]: with f = β² a + β b + c = 0, so that
/// `dβ/dϑ = -(∂f/∂ϑ) / (∂f/∂β)`, `dp/dt = 4 β³ dβ/dϑ dϑ/dt`.
///
/// # Units
/// t \[K\], result [Pa/K].
///
/// # Validity
/// As [`saturation_pressure`].
///
/// # Errors
/// As [`saturation_pressure`].
///
/// # Source
/// IAPWS R7-97(2012), region 4, equation 29, differentiated.
pub fn saturation_pressure_slope(temperature: Temperature) -> Result<f64, PhysicsError> {
    let beta = (saturation_pressure(temperature)?.pascals() / MEGAPASCAL).sqrt().sqrt();
    let t = temperature.kelvin();
    let theta = t + N[8] / (t - N[9]);
    let a = theta * theta + N[0] * theta + N[1];
    let b = N[2] * theta * theta + N[3] * theta + N[4];
    let by_theta = (2.0 * theta + N[0]) * beta * beta
        + (2.0 * N[2] * theta + N[3]) * beta
        + 2.0 * N[5] * theta
        + N[6];
    let by_beta = 2.0 * a * beta + b;
    let theta_by_t = 1.0 - N[8] / ((t - N[9]) * (t - N[9]));
    Ok(-4.0 * MEGAPASCAL * beta.powi(3) * by_theta / by_beta * theta_by_t)
}

/// Returns the density of liquid water that is about to boil.
///
/// `ρ'/ρc = 1 + b1 τ^(1/3) + b2 τ^(2/3) + b3 τ^(5/3) + b4 τ^(16/3) + b5 τ^(43/3) + b6 τ^(110/3)`,
/// τ = 1 - t/tc. At kitchen pressures the liquid is denser than this by less than 0.01 %.
///
/// # Units
/// t \[K\], ρ' [kg/m³].
///
/// # Validity
/// 273.15 K to 647 K.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside that range.
///
/// # Source
/// IAPWS SR1-86(1992), supplementary release on saturation properties, equation 2.
pub fn saturated_liquid_density(temperature: Temperature) -> Result<Density, PhysicsError> {
    const B: [f64; 6] =
        [1.992_740_64, 1.099_653_42, -0.510_839_303, -1.754_934_79, -45.517_035_2, -6.746_944_50e5];
    let tau = 1.0 - SATURATION_DENSITY.check(temperature.kelvin())? / CRITICAL_TEMPERATURE;
    let third = tau.cbrt();
    let (tau2, tau4) = (tau * tau, tau.powi(4));
    let tau12 = tau4 * tau4 * tau4;
    let ratio = 1.0
        + third * (B[0] + B[3] * tau4 * tau)
        + third * third * (B[1] + B[2] * tau)
        + B[4] * tau12 * tau2 * third
        + B[5] * tau12 * tau12 * tau12 * third * third;
    Ok(Density::from_kilograms_per_cubic_metre(CRITICAL_DENSITY * ratio))
}

/// Returns the density of the vapour over boiling water.
///
/// `ln(ρ''/ρc) = c1 τ^(2/6) + c2 τ^(4/6) + c3 τ^(8/6) + c4 τ^(18/6) + c5 τ^(37/6) + c6 τ^(71/6)`,
/// τ = 1 - t/tc.
///
/// # Units
/// t \[K\], ρ'' [kg/m³].
///
/// # Validity
/// 273.15 K to 647 K.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside that range.
///
/// # Source
/// IAPWS SR1-86(1992), supplementary release on saturation properties, equation 3.
pub fn saturated_vapour_density(temperature: Temperature) -> Result<Density, PhysicsError> {
    const C: [f64; 6] =
        [-2.031_502_40, -2.683_029_40, -5.386_264_92, -17.299_160_5, -44.758_658_1, -63.920_106_3];
    let tau = 1.0 - SATURATION_DENSITY.check(temperature.kelvin())? / CRITICAL_TEMPERATURE;
    let third = tau.cbrt();
    let sixth = third.sqrt();
    let tau3 = tau.powi(3);
    let tau6 = tau3 * tau3;
    let logarithm = third * (C[0] + C[1] * third + C[2] * tau)
        + C[3] * tau3
        + C[4] * tau6 * sixth
        + C[5] * tau6 * tau6 / sixth;
    Ok(Density::from_kilograms_per_cubic_metre(CRITICAL_DENSITY * logarithm.exp()))
}

/// Returns the heat that turns boiling water into vapour.
///
/// Clapeyron's equation, `l = t (1/ρ'' - 1/ρ') dp/dt`.
///
/// # Units
/// t \[K\], ρ [kg/m³], p \[Pa\], l [J/kg].
///
/// # Validity
/// 273.15 K to 647 K.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside that range.
///
/// # Source
/// Exact thermodynamics on [`saturation_pressure`], [`saturated_vapour_density`] and
/// [`saturated_liquid_density`].
pub fn latent_heat_vaporisation(temperature: Temperature) -> Result<SpecificEnergy, PhysicsError> {
    let slope = saturation_pressure_slope(temperature)?;
    let vapour = saturated_vapour_density(temperature)?.kilograms_per_cubic_metre();
    let liquid = saturated_liquid_density(temperature)?.kilograms_per_cubic_metre();
    let heat = temperature.kelvin() * (1.0 / vapour - 1.0 / liquid) * slope;
    Ok(SpecificEnergy::from_joules_per_kilogram(heat))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pressure_and_temperature_are_inverse() {
        for step in 0..=370 {
            let t = Temperature::from_celsius(f64::from(step));
            let back = saturation_temperature(saturation_pressure(t).unwrap()).unwrap();
            assert!((back.kelvin() / t.kelvin() - 1.0).abs() < 1e-9, "{step} °C: {back:?}");
        }
    }

    #[test]
    fn the_slope_is_the_derivative_of_the_pressure() {
        for step in 1..370 {
            let at = |kelvin: f64| {
                saturation_pressure(Temperature::from_kelvin(kelvin)).unwrap().pascals()
            };
            let kelvin = 273.15 + f64::from(step);
            let difference = (at(kelvin + 0.01) - at(kelvin - 0.01)) / 0.02;
            let slope = saturation_pressure_slope(Temperature::from_kelvin(kelvin)).unwrap();
            assert!((slope / difference - 1.0).abs() < 1e-6, "{kelvin} K");
        }
    }

    #[test]
    fn densities_meet_the_check_values_of_the_release() {
        // IAPWS SR1-86(1992), table 1, at 273.16 K and 373.1243 K.
        for (kelvin, liquid, vapour) in
            [(273.16, 999.789, 0.004_854_26), (373.1243, 958.365, 0.597_586)]
        {
            let t = Temperature::from_kelvin(kelvin);
            let found = saturated_liquid_density(t).unwrap().kilograms_per_cubic_metre();
            assert!((found - liquid).abs() < 6e-4, "{found}");
            let found = saturated_vapour_density(t).unwrap().kilograms_per_cubic_metre();
            assert!((found / vapour - 1.0).abs() < 2e-6, "{found}");
        }
    }

    #[test]
    fn pressure_rises_and_latent_heat_falls_with_temperature() {
        let mut before = (0.0, f64::INFINITY);
        for step in 0..=373 {
            let t = Temperature::from_celsius(f64::from(step));
            let pressure = saturation_pressure(t).unwrap().pascals();
            let heat = latent_heat_vaporisation(t).unwrap().joules_per_kilogram();
            assert!(pressure > before.0 && heat < before.1 && heat > 0.0, "{step} °C");
            before = (pressure, heat);
        }
    }

    #[test]
    fn conditions_off_the_line_are_refused() {
        let cold = Temperature::from_celsius(-1.0);
        assert!(saturation_pressure(cold).is_err());
        assert!(saturated_liquid_density(cold).is_err());
        assert!(saturated_vapour_density(cold).is_err());
        assert!(latent_heat_vaporisation(cold).is_err());
        assert!(saturation_pressure_slope(Temperature::from_celsius(400.0)).is_err());
        assert!(saturation_temperature(Pressure::from_pascals(600.0)).is_err());
        assert!(saturation_temperature(Pressure::from_bars(230.0)).is_err());
        assert!(saturation_temperature(Pressure::from_pascals(f64::NAN)).is_err());
    }
}
