//! Ice: the vapour over it, its heats and its density.
//!
//! Answers at what temperature ice stands under a vacuum, how much heat it takes to turn it into
//! vapour or into water, and how heavy it is. Freezing of food is left to [`super::freezing`].
//! Symbols: t temperature, p pressure, theta and pi both reduced by the triple point, g Gibbs energy
//! and its derivatives.

use super::constants::{STANDARD_ATMOSPHERE, WATER_MOLAR_MASS};
use super::{PhysicsError, Validity, positive};
use crate::quantity::{Density, Pressure, SpecificEnergy, SpecificHeat, Temperature};

/// Triple point of water \[K\], exact in ITS-90: IAPWS R14-08(2011).
const TRIPLE_TEMPERATURE: f64 = 273.16;
/// Triple point of water \[Pa\]: IAPWS R14-08(2011).
const TRIPLE_PRESSURE: f64 = 611.657;

const SUBLIMATION_TEMPERATURE: Validity = Validity {
    law: "the sublimation line of ice (IAPWS R14-08)",
    quantity: "temperature",
    low: 50.0,
    high: TRIPLE_TEMPERATURE,
    unit: "K",
};
const SUBLIMATION_PRESSURE: Validity = Validity {
    law: "the sublimation line of ice (IAPWS R14-08), from 130 K",
    quantity: "pressure",
    low: 1.1e-9,
    high: TRIPLE_PRESSURE,
    unit: "Pa",
};
const SUBLIMATION_HEAT: Validity = Validity {
    law: "the heat of sublimation of ice (Murphy & Koop 2005)",
    quantity: "temperature",
    low: 30.0,
    high: TRIPLE_TEMPERATURE,
    unit: "K",
};
const FUSION_HEAT: Validity = Validity {
    law: "the heat of fusion of ice (Murphy & Koop 2005)",
    quantity: "temperature",
    low: 236.0,
    high: TRIPLE_TEMPERATURE,
    unit: "K",
};
const ICE_TEMPERATURE: Validity = Validity {
    law: "the equation of state of ice (IAPWS R10-06)",
    quantity: "temperature",
    low: 1.0,
    high: TRIPLE_TEMPERATURE,
    unit: "K",
};
const ICE_PRESSURE: Validity = Validity {
    law: "the equation of state of ice (IAPWS R10-06)",
    quantity: "pressure",
    low: 0.0,
    high: 208.566e6,
    unit: "Pa",
};

/// Coefficients of the sublimation line: IAPWS R14-08(2011), table 4.
const A: [f64; 3] = [-0.212_144_006e2, 0.273_203_819e2, -0.610_598_130e1];
/// Exponents of the sublimation line: IAPWS R14-08(2011), table 4.
const B: [f64; 3] = [0.333_333_333e-2, 0.120_666_667e1, 0.170_333_333e1];

/// Returns the pressure of water vapour over ice.
///
/// `ln(p / 611.657 Pa) = (a1 θ^b1 + a2 θ^b2 + a3 θ^b3) / θ`, θ = t / 273.16 K.
///
/// # Units
/// t \[K\], p \[Pa\].
///
/// # Validity
/// 50 K to 273.16 K.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside that range.
///
/// # Source
/// IAPWS R14-08(2011), equation 6.
pub fn sublimation_pressure(temperature: Temperature) -> Result<Pressure, PhysicsError> {
    let theta = SUBLIMATION_TEMPERATURE.check(temperature.kelvin())? / TRIPLE_TEMPERATURE;
    Ok(Pressure::from_pascals(TRIPLE_PRESSURE * log_pressure(theta).0.exp()))
}

/// The logarithm of the reduced pressure and its derivative by θ.
fn log_pressure(theta: f64) -> (f64, f64) {
    let logarithm = theta.ln();
    let mut sum = (0.0, 0.0);
    for (a, b) in A.into_iter().zip(B) {
        let term = a * ((b - 1.0) * logarithm).exp();
        sum = (sum.0 + term, sum.1 + (b - 1.0) * term / theta);
    }
    sum
}

/// Returns the temperature that ice takes when it sublimes under a pressure of water vapour.
///
/// The inverse of [`sublimation_pressure`], by Newton steps on ln p over 1/θ, which is nearly a
/// straight line.
///
/// # Units
/// p \[Pa\], t \[K\].
///
/// # Validity
/// 1.1e-9 Pa (130 K) to the triple point, 611.657 Pa.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a pressure of zero or less; [`PhysicsError::OutsideValidity`]
/// outside that range; [`PhysicsError::NoConvergence`] after 20
/// steps.
///
/// # Source
/// IAPWS R14-08(2011), equation 6, solved for the temperature.
pub fn equilibrium_temperature(pressure: Pressure) -> Result<Temperature, PhysicsError> {
    const STEPS: u32 = 20;
    /// Slope of ln p over 1/θ at the triple point, from equation 6.
    const SLOPE: f64 = -22.51;
    let p = positive("pressure of water vapour", pressure.pascals(), "Pa")?;
    // The range is checked with a slack that is wide beside its lower end.
    let p = SUBLIMATION_PRESSURE.check(p)?.max(SUBLIMATION_PRESSURE.low);
    let target = (p / TRIPLE_PRESSURE).ln();
    let mut inverse = 1.0 + target / SLOPE;
    for _ in 0..STEPS {
        let theta = 1.0 / inverse;
        let (value, by_theta) = log_pressure(theta);
        let step = (value - target) / (-by_theta * theta * theta);
        inverse -= step;
        if step.abs() < 1e-14 * inverse {
            return Ok(Temperature::from_kelvin(TRIPLE_TEMPERATURE / inverse));
        }
    }
    let last = TRIPLE_TEMPERATURE / inverse;
    Err(PhysicsError::NoConvergence { what: "temperature of subliming ice", steps: STEPS, last })
}

/// Returns the heat that turns ice into vapour.
///
/// `l = 46782.5 + 35.8925 t - 0.07414 t² + 541.5 exp(-(t / 123.75)²)` in J/mol.
///
/// # Units
/// t \[K\], l [J/kg].
///
/// # Validity
/// 30 K to 273.16 K.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside that range.
///
/// # Source
/// Murphy & Koop, Q. J. R. Meteorol. Soc. 131:1539-1565 (2005), equation 5.
pub fn latent_heat_sublimation(temperature: Temperature) -> Result<SpecificEnergy, PhysicsError> {
    let t = SUBLIMATION_HEAT.check(temperature.kelvin())?;
    let bend = t / 123.75;
    let molar = 46_782.5 + 35.8925 * t - 0.074_14 * t * t + 541.5 * (-bend * bend).exp();
    Ok(SpecificEnergy::from_joules_per_kilogram(molar / WATER_MOLAR_MASS))
}

/// Returns the heat that turns ice into water, also at temperatures at which the water is
/// supercooled.
///
/// The heat of sublimation less the heat of vaporisation of supercooled water,
/// `56579 - 42.212 t + exp(0.1149 (281.6 - t))` in J/mol.
///
/// # Units
/// t \[K\], result [J/kg].
///
/// # Validity
/// 236 K to 273.16 K.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside that range.
///
/// # Source
/// Murphy & Koop, Q. J. R. Meteorol. Soc. 131:1539-1565 (2005), equations 5 and 9.
pub fn latent_heat_fusion(temperature: Temperature) -> Result<SpecificEnergy, PhysicsError> {
    let t = FUSION_HEAT.check(temperature.kelvin())?;
    let molar = 56_579.0 - 42.212 * t + (0.1149 * (281.6 - t)).exp();
    let vaporisation = SpecificEnergy::from_joules_per_kilogram(molar / WATER_MOLAR_MASS);
    Ok(latent_heat_sublimation(temperature)? - vaporisation)
}

/// A complex number with the few operations that the equation of state of ice needs.
#[derive(Clone, Copy)]
struct Complex {
    re: f64,
    im: f64,
}

impl Complex {
    fn plus(self, real: f64) -> Self {
        Self { re: self.re + real, im: self.im }
    }
    fn logarithm(self) -> Self {
        Self { re: self.re.hypot(self.im).ln(), im: self.im.atan2(self.re) }
    }
    fn inverse(self) -> Self {
        let square = self.re * self.re + self.im * self.im;
        Self { re: self.re / square, im: -self.im / square }
    }
    fn times(self, other: Self) -> Self {
        Self {
            re: self.re * other.re - self.im * other.im,
            im: self.re * other.im + self.im * other.re,
        }
    }
}

/// Coefficients t1 and t2: IAPWS R10-06(2009), table 2.
const T: [Complex; 2] = [
    Complex { re: 0.368_017_112_855_051e-1, im: 0.510_878_114_959_572e-1 },
    Complex { re: 0.337_315_741_065_416, im: 0.335_449_415_919_309 },
];
/// Coefficient r1 [J/(kg K)]: IAPWS R10-06(2009), table 2.
const R1: Complex = Complex { re: 0.447_050_716_285_388e2, im: 0.656_876_847_463_481e2 };
/// Coefficients r20 to r22 [J/(kg K)]: IAPWS R10-06(2009), table 2.
const R2: [Complex; 3] = [
    Complex { re: -0.725_974_574_329_220e2, im: -0.781_008_427_112_870e2 },
    Complex { re: -0.557_107_698_030_123e-4, im: 0.464_578_634_580_806e-4 },
    Complex { re: 0.234_801_409_215_913e-10, im: -0.285_651_142_904_972e-10 },
];
/// Coefficients g01 to g04 [J/kg]: IAPWS R10-06(2009), table 2.
const G0: [f64; 4] = [
    0.655_022_213_658_955,
    -0.189_369_929_326_131e-7,
    0.339_746_123_271_053e-14,
    -0.556_464_869_058_991e-21,
];

/// Reduces a state of ice: θ, and π less the reduced standard atmosphere.
fn reduced(temperature: Temperature, pressure: Pressure) -> Result<(f64, f64), PhysicsError> {
    let theta = ICE_TEMPERATURE.check(temperature.kelvin())? / TRIPLE_TEMPERATURE;
    let pressure = ICE_PRESSURE.check(pressure.pascals())?;
    Ok((theta, (pressure - STANDARD_ATMOSPHERE) / TRIPLE_PRESSURE))
}

/// Returns the density of ice.
///
/// `1/ρ = Σ g0k k π^(k-1) / pt + tt Re(∂r2/∂p ((t2 - θ) ln(t2 - θ) + (t2 + θ) ln(t2 + θ)
/// - 2 t2 ln t2 - θ²/t2))`, π counted from the standard atmosphere.
///
/// # Units
/// t \[K\], p \[Pa\], ρ [kg/m³].
///
/// # Validity
/// Up to 273.16 K and 208.566 MPa.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside these ranges.
///
/// # Source
/// IAPWS R10-06(2009), tables 2 to 4.
pub fn ice_density(temperature: Temperature, pressure: Pressure) -> Result<Density, PhysicsError> {
    let (theta, pi) = reduced(temperature, pressure)?;
    let by_pi = G0[0] + pi * (2.0 * G0[1] + pi * (3.0 * G0[2] + pi * 4.0 * G0[3]));
    let t2 = T[1];
    let minus = Complex { re: t2.re - theta, im: t2.im };
    let terms = [
        minus.times(minus.logarithm()),
        t2.plus(theta).times(t2.plus(theta).logarithm()),
        Complex { re: -2.0, im: 0.0 }.times(t2.times(t2.logarithm())),
        Complex { re: -theta * theta, im: 0.0 }.times(t2.inverse()),
    ];
    let sum = terms.iter().fold(Complex { re: 0.0, im: 0.0 }, |sum, term| Complex {
        re: sum.re + term.re,
        im: sum.im + term.im,
    });
    let r2_by_pi =
        Complex { re: R2[1].re + 2.0 * pi * R2[2].re, im: R2[1].im + 2.0 * pi * R2[2].im };
    let volume = (by_pi + TRIPLE_TEMPERATURE * r2_by_pi.times(sum).re) / TRIPLE_PRESSURE;
    Ok(Density::from_kilograms_per_cubic_metre(1.0 / volume))
}

/// Returns the heat capacity of ice.
///
/// `cp = -θ Re Σk rk (1/(tk - θ) + 1/(tk + θ) - 2/tk)`.
///
/// # Units
/// t \[K\], p \[Pa\], cp [J/(kg K)].
///
/// # Validity
/// Up to 273.16 K and 208.566 MPa.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside these ranges.
///
/// # Source
/// IAPWS R10-06(2009), tables 2 to 4.
pub fn ice_heat_capacity(
    temperature: Temperature,
    pressure: Pressure,
) -> Result<SpecificHeat, PhysicsError> {
    let (theta, pi) = reduced(temperature, pressure)?;
    let r2 = Complex {
        re: R2[0].re + pi * (R2[1].re + pi * R2[2].re),
        im: R2[0].im + pi * (R2[1].im + pi * R2[2].im),
    };
    let curvature = |r: Complex, t: Complex| {
        let minus = Complex { re: t.re - theta, im: t.im }.inverse();
        let plus = t.plus(theta).inverse();
        let middle = t.inverse();
        r.times(Complex {
            re: minus.re + plus.re - 2.0 * middle.re,
            im: minus.im + plus.im - 2.0 * middle.im,
        })
        .re
    };
    let heat = -theta * (curvature(R1, T[0]) + curvature(r2, T[1]));
    Ok(SpecificHeat::from_joules_per_kilogram_kelvin(heat))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn kelvin(value: f64) -> Temperature {
        Temperature::from_kelvin(value)
    }

    #[test]
    fn the_check_values_of_the_releases_are_met() {
        // IAPWS R14-08(2011), table 5; IAPWS R10-06(2009), table 6.
        let pressure = sublimation_pressure(kelvin(230.0)).unwrap().pascals();
        assert!((pressure - 8.947_35).abs() < 5e-6, "{pressure}");
        for (t, p, density, heat) in [
            (273.16, 611.657, 916.709_492_200, 2_096.784_316_22),
            (273.152_519, 101_325.0, 916.721_463_419, 2_096.713_910_24),
            (100.0, 100e6, 941.678_203_297, 866.333_195_517),
        ] {
            let p = Pressure::from_pascals(p);
            let found = ice_density(kelvin(t), p).unwrap().si();
            assert!((found - density).abs() < 1e-6, "{found} is not {density}");
            let found = ice_heat_capacity(kelvin(t), p).unwrap().si();
            assert!((found - heat).abs() < 1e-6, "{found} is not {heat}");
        }
    }

    #[test]
    fn pressure_and_temperature_are_inverse() {
        for step in 0..=143 {
            let t = kelvin(130.0 + f64::from(step));
            let back = equilibrium_temperature(sublimation_pressure(t).unwrap()).unwrap();
            assert!((back.kelvin() / t.kelvin() - 1.0).abs() < 1e-9, "{t:?}: {back:?}");
        }
    }

    #[test]
    fn ice_meets_water_at_the_triple_point() {
        let t = kelvin(TRIPLE_TEMPERATURE);
        let ice = sublimation_pressure(t).unwrap().pascals();
        let water = crate::physics::water::saturation_pressure(t).unwrap().pascals();
        assert!((ice / water - 1.0).abs() < 1e-4);
        let sum = latent_heat_fusion(t).unwrap()
            + crate::physics::water::latent_heat_vaporisation(t).unwrap();
        assert!((sum / latent_heat_sublimation(t).unwrap() - 1.0).abs() < 1e-3);
    }

    #[test]
    fn conditions_out_of_range_are_refused() {
        let (warm, air) = (kelvin(280.0), Pressure::from_bars(1.0));
        assert!(sublimation_pressure(warm).is_err());
        assert!(latent_heat_sublimation(warm).is_err());
        assert!(latent_heat_fusion(kelvin(200.0)).is_err());
        assert!(ice_density(warm, air).is_err());
        assert!(ice_heat_capacity(kelvin(250.0), Pressure::from_bars(3000.0)).is_err());
        assert!(equilibrium_temperature(Pressure::from_pascals(700.0)).is_err());
        assert!(equilibrium_temperature(Pressure::from_pascals(0.0)).is_err());
    }
}
