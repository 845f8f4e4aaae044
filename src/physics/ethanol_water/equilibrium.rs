//! Ethanol and water between liquid and vapour.
//!
//! The liquid is not ideal: in weak solutions ethanol presses out of the water three to six times
//! as hard as its share. Constants fitted at one atmosphere alone overstate that under a vacuum, so
//! the model here is fitted to measurements from 25 °C to 100 °C. The vapour is an ideal gas.
//! Symbols: x mole fraction of ethanol in the liquid, y in the vapour, gamma activity coefficient,
//! t temperature, p pressure.

use super::MOLE_FRACTION;
use super::pure::ethanol_saturation_pressure;
use crate::physics::water::{saturation_pressure, saturation_temperature};
use crate::physics::{PhysicsError, Validity, solve};
use crate::quantity::{Pressure, Temperature};

const ACTIVITY_TEMPERATURE: Validity = Validity {
    law: "activity of ethanol in water",
    quantity: "temperature",
    low: 273.15,
    high: 380.0,
    unit: "K",
};
const BOILING_PRESSURE: Validity = Validity {
    law: "boiling of ethanol in water",
    quantity: "pressure",
    low: 2000.0,
    high: 120_000.0,
    unit: "Pa",
};

/// Centre of the fit \[K\].
const CENTRE: f64 = 323.15;
/// Coefficients a, b, c of each term of the excess Gibbs energy: least squares in
/// `tests/reference/scripts/ethanol_water_fit.py` over 88 measured points of Pemberton & Mash 1978
/// (30 °C), Yang et al. 1979 (25 °C), Kirschbaum & Gerstner 1939 (33.3 kPa and 98.7 kPa) and Carey &
/// Lewis 1932 (101.3 kPa), the azeotrope, Henry's constant at 25 °C and excess enthalpies at 25 °C.
const EXCESS: [[f64; 3]; 5] = [
    [1.220_404, -0.002_022, -7.635_728],
    [-0.330_237, 0.432_350, 0.0],
    [0.079_050, -1.142_428, 0.0],
    [0.045_538, 0.0, 0.0],
    [-0.078_952, 0.0, 0.0],
];

/// Activity coefficients in the liquid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ActivityCoefficients {
    /// Of ethanol.
    pub ethanol: f64,
    /// Of water.
    pub water: f64,
}

/// A liquid that is about to boil, with its first vapour.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bubble {
    /// Temperature.
    pub temperature: Temperature,
    /// Pressure.
    pub pressure: Pressure,
    /// Mole fraction of ethanol in the vapour.
    pub vapour_mole_fraction: f64,
}

/// A liquid whose vapour has its own composition, so that no distilling parts it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Azeotrope {
    /// Mole fraction of ethanol.
    pub mole_fraction: f64,
    /// Temperature at which it boils.
    pub temperature: Temperature,
}

/// The logarithms of both activity coefficients.
fn log_activity(x: f64, t: f64) -> (f64, f64) {
    let u = CENTRE / t - 1.0;
    let v = u - (CENTRE / t).ln();
    let d = 2.0 * x - 1.0;
    let (mut g, mut slope) = (0.0, 0.0);
    for [a, b, c] in EXCESS.iter().rev() {
        slope = slope * d + g;
        g = g * d + a + b * u + c * v;
    }
    let gibbs = x * (1.0 - x) * g;
    let by_x = (1.0 - 2.0 * x) * g + 2.0 * x * (1.0 - x) * slope;
    (gibbs + (1.0 - x) * by_x, gibbs - x * by_x)
}

/// Returns the activity coefficients of ethanol and water in the liquid.
///
/// Redlich-Kister: `gE / (R t) = x (1 - x) Σ ki (2 x - 1)ⁱ`, `ki = ai + bi u + ci v`,
/// u = 323.15 K / t - 1, v = ln(t / 323.15 K) + u; `ln γe = gE/(R t) + (1 - x) d(gE/(R t))/dx`,
/// `ln γw = gE/(R t) - x d(gE/(R t))/dx`.
///
/// # Units
/// x as a share, t \[K\].
///
/// # Validity
/// 0 °C to 107 °C; measurements behind it lie between 25 °C and 98 °C.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside that range or for a share outside 0 to 1.
///
/// # Source
/// Form: Redlich & Kister, Ind. Eng. Chem. 40:345 (1948). Coefficients: own fit, see the constant.
pub fn activity_coefficients(
    mole_fraction: f64,
    temperature: Temperature,
) -> Result<ActivityCoefficients, PhysicsError> {
    let x = MOLE_FRACTION.check(mole_fraction)?;
    let t = ACTIVITY_TEMPERATURE.check(temperature.kelvin())?;
    let (ethanol, water) = log_activity(x, t);
    Ok(ActivityCoefficients { ethanol: ethanol.exp(), water: water.exp() })
}

/// Returns the pressure at which a liquid boils at a temperature, and its first vapour.
///
/// `p = x γe pe(t) + (1 - x) γw pw(t)`, `y = x γe pe / p`.
///
/// # Units
/// x and y as shares, t \[K\], p \[Pa\].
///
/// # Validity
/// As [`activity_coefficients`].
///
/// # Errors
/// As [`activity_coefficients`].
///
/// # Source
/// Raoult's law with activity coefficients; pe from [`ethanol_saturation_pressure`], pw from
/// [`saturation_pressure`].
pub fn bubble_pressure(
    mole_fraction: f64,
    temperature: Temperature,
) -> Result<Bubble, PhysicsError> {
    let x = MOLE_FRACTION.check(mole_fraction)?;
    let gamma = activity_coefficients(x, temperature)?;
    let ethanol = x * gamma.ethanol * ethanol_saturation_pressure(temperature)?.pascals();
    let water = (1.0 - x) * gamma.water * saturation_pressure(temperature)?.pascals();
    let total = ethanol + water;
    Ok(Bubble {
        temperature,
        pressure: Pressure::from_pascals(total),
        vapour_mole_fraction: ethanol / total,
    })
}

/// Returns the temperature at which a liquid boils under a pressure, and its first vapour.
///
/// [`bubble_pressure`] solved for the temperature by secants on ln p over 1/t, nearly a straight
/// line.
///
/// # Units
/// x as a share, p \[Pa\], t \[K\].
///
/// # Validity
/// 2 kPa to 120 kPa.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside that range or for a share outside 0 to 1;
/// [`PhysicsError::NoConvergence`] after 30 steps.
///
/// # Source
/// As [`bubble_pressure`].
pub fn bubble_point(mole_fraction: f64, pressure: Pressure) -> Result<Bubble, PhysicsError> {
    const STEPS: u32 = 30;
    const TOLERANCE: f64 = 1e-12;
    /// Slope of ln p over 1/t to begin with \[K\]: heat of vaporisation over gas constant, 41 kJ/mol.
    const FIRST_SLOPE: f64 = -4930.0;
    /// Coolest start \[K\], inside the range of every law used.
    const COOLEST: f64 = 274.0;
    /// Span of boiling points between water and ethanol at one pressure \[K\], to begin with.
    const SPAN: f64 = 20.0;
    let x = MOLE_FRACTION.check(mole_fraction)?;
    let target = BOILING_PRESSURE.check(pressure.pascals())?.ln();
    let water = saturation_temperature(pressure)?.kelvin();
    let warmest = 1.0 / COOLEST;
    let mut inverse = (1.0 / (water - SPAN * x.sqrt())).min(warmest);
    let mut slope = FIRST_SLOPE;
    let mut before: Option<(f64, f64)> = None;
    for _ in 0..STEPS {
        let found = bubble_pressure(x, Temperature::from_kelvin(1.0 / inverse))?;
        let miss = found.pressure.pascals().ln() - target;
        if miss.abs() < TOLERANCE {
            return Ok(Bubble { pressure, ..found });
        }
        if let Some((last_inverse, last_miss)) = before
            && (inverse - last_inverse).abs() > 0.0
        {
            slope = (miss - last_miss) / (inverse - last_inverse);
        }
        before = Some((inverse, miss));
        inverse -= miss / slope;
    }
    let last = 1.0 / inverse;
    Err(PhysicsError::NoConvergence {
        what: "boiling point of ethanol in water",
        steps: STEPS,
        last,
    })
}

/// Returns the azeotrope of ethanol and water under a pressure, or `None` where there is none.
///
/// The x at which `γe pe = γw pw` along the boiling curve.
///
/// # Units
/// p \[Pa\].
///
/// # Validity
/// 2 kPa to 120 kPa. An azeotrope beyond x = 0.99 is not told from none: there the two curves lie
/// closer than any measurement.
///
/// # Errors
/// As [`bubble_point`].
///
/// # Source
/// As [`bubble_point`].
pub fn azeotrope(pressure: Pressure) -> Result<Option<Azeotrope>, PhysicsError> {
    const LOW: f64 = 0.6;
    const HIGH: f64 = 0.99;
    const TOLERANCE: f64 = 1e-13;
    let enrichment = |x: f64| -> Result<f64, PhysicsError> {
        Ok(bubble_point(x, pressure)?.vapour_mole_fraction - x)
    };
    if enrichment(HIGH)? > 0.0 {
        return Ok(None);
    }
    let x = solve::root("azeotrope of ethanol and water", LOW, HIGH, TOLERANCE, |x| {
        enrichment(x).unwrap_or(f64::NAN)
    })?;
    Ok(Some(Azeotrope { mole_fraction: x, temperature: bubble_point(x, pressure)?.temperature }))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn boiling_point_and_pressure_are_inverse() {
        for pascal in [2e3, 5e3, 1e4, 3e4, 101_325.0, 120_000.0] {
            for step in 0..=100 {
                let x = f64::from(step) / 100.0;
                let bubble = bubble_point(x, Pressure::from_pascals(pascal)).unwrap();
                let back = bubble_pressure(x, bubble.temperature).unwrap();
                assert!((back.pressure.pascals() / pascal - 1.0).abs() < 1e-9, "{pascal} Pa, {x}");
                assert!((0.0..=1.0).contains(&bubble.vapour_mole_fraction));
            }
        }
    }

    #[test]
    fn the_ends_are_the_pure_liquids() {
        let p = Pressure::from_pascals(101_325.0);
        let water = bubble_point(0.0, p).unwrap();
        assert!((water.temperature - saturation_temperature(p).unwrap()).abs().kelvin() < 1e-6);
        assert!(water.vapour_mole_fraction.abs() < 1e-12);
        let ethanol = bubble_point(1.0, p).unwrap();
        assert!((ethanol.temperature.kelvin() - 351.57).abs() < 0.1);
    }

    #[test]
    fn activity_coefficients_obey_gibbs_and_duhem() {
        const H: f64 = 1e-5;
        for celsius in [5.0, 30.0, 60.0, 95.0] {
            let t = Temperature::from_celsius(celsius);
            for step in 1..20 {
                let x = f64::from(step) / 20.0;
                let slope = |pick: fn(ActivityCoefficients) -> f64| {
                    let at = |x| pick(activity_coefficients(x, t).unwrap()).ln();
                    (at(x + H) - at(x - H)) / (2.0 * H)
                };
                let sum = x * slope(|g| g.ethanol) + (1.0 - x) * slope(|g| g.water);
                assert!(sum.abs() < 1e-6, "{celsius} °C, {x}: {sum}");
            }
        }
    }

    #[test]
    fn the_vapour_grows_richer_with_the_liquid() {
        for pascal in [2e3, 5e3, 2e4, 101_325.0] {
            let mut before = -1.0;
            for step in 0..=50 {
                let x = f64::from(step) / 50.0;
                let y =
                    bubble_point(x, Pressure::from_pascals(pascal)).unwrap().vapour_mole_fraction;
                assert!(y > before, "{pascal} Pa, {x}: {y}");
                before = y;
            }
        }
    }

    #[test]
    fn the_azeotrope_goes_under_vacuum() {
        assert!(azeotrope(Pressure::from_pascals(101_325.0)).unwrap().is_some());
        assert!(azeotrope(Pressure::from_pascals(5000.0)).unwrap().is_none());
    }

    #[test]
    fn conditions_out_of_range_are_refused() {
        assert!(bubble_point(0.5, Pressure::from_pascals(500.0)).is_err());
        assert!(bubble_point(1.5, Pressure::from_bars(1.0)).is_err());
        assert!(azeotrope(Pressure::from_bars(5.0)).is_err());
        assert!(activity_coefficients(0.5, Temperature::from_celsius(-10.0)).is_err());
        assert!(bubble_pressure(-0.5, Temperature::from_celsius(50.0)).is_err());
    }
}
