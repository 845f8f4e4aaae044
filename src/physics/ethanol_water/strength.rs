//! Alcoholic strength by volume, share by mass, and density.
//!
//! Symbols: w mass fraction of ethanol, q strength by volume at 20 °C as a share, rho density, t
//! temperature counted from 20 °C.

use super::MASS_FRACTION;
use crate::physics::{PhysicsError, Validity, solve};
use crate::quantity::{Density, Temperature};

const DENSITY_TEMPERATURE: Validity = Validity {
    law: "density of ethanol in water (OIML R 22)",
    quantity: "temperature",
    low: -20.0,
    high: 40.0,
    unit: "°C",
};
const STRENGTH: Validity = Validity {
    law: "alcoholic strength",
    quantity: "strength",
    low: 0.0,
    high: 1.0,
    unit: "by volume",
};

/// Temperature at which alcoholic strength is counted [°C]: OIML R 22 (1975).
const REFERENCE_CELSIUS: f64 = 20.0;
/// Density of ethanol at 20 °C [kg/m³]: OIML R 22 (1975), with its erratum.
const ETHANOL_DENSITY_20: f64 = 789.24;

/// Coefficients A1 to A12: OIML R 22 (1975), page 13.
const A: [f64; 12] = [
    9.982_012_30e2,
    -1.929_769_495e2,
    3.891_238_958e2,
    -1.668_103_923e3,
    1.352_215_441e4,
    -8.829_278_388e4,
    3.062_874_042e5,
    -6.138_381_234e5,
    7.470_172_998e5,
    -5.478_461_354e5,
    2.234_460_334e5,
    -3.903_285_426e4,
];
/// Coefficients B1 to B6: OIML R 22 (1975), page 13.
const B: [f64; 6] = [
    -2.061_851_3e-1,
    -5.268_254_2e-3,
    3.613_001_3e-5,
    -3.895_770_2e-7,
    7.169_354_0e-9,
    -9.973_923_1e-11,
];
/// Coefficients C1,1 to C1,11: OIML R 22 (1975), page 13.
const C1: [f64; 11] = [
    1.693_443_461_530_087e-1,
    -1.046_914_743_455_169e1,
    7.196_353_469_546_523e1,
    -7.047_478_054_272_792e2,
    3.924_090_430_035_045e3,
    -1.210_164_659_068_747e4,
    2.248_646_550_400_788e4,
    -2.605_562_982_188_164e4,
    1.852_373_922_069_467e4,
    -7.420_201_433_430_137e3,
    1.285_617_841_998_974e3,
];
/// Coefficients C2,1 to C2,10: OIML R 22 (1975), page 13.
const C2: [f64; 10] = [
    -1.193_013_005_057_01e-2,
    2.517_399_633_803_461e-1,
    -2.170_575_700_536_993,
    1.353_034_988_843_029e1,
    -5.029_988_758_547_014e1,
    1.096_355_666_577_57e2,
    -1.422_753_946_421_155e2,
    1.080_435_942_856_23e2,
    -4.414_153_236_817_392e1,
    7.442_971_530_188_783,
];
/// Coefficients C3,1 to C3,9: OIML R 22 (1975), page 13.
const C3: [f64; 9] = [
    -6.802_995_733_503_803e-4,
    1.876_837_790_289_664e-2,
    -2.002_561_813_734_156e-1,
    1.022_992_966_719_22,
    -2.895_696_483_903_638,
    4.810_060_584_300_675,
    -4.672_147_440_794_683,
    2.458_043_105_903_461,
    -5.411_227_621_436_812e-1,
];
/// Coefficients C4,1 to C4,4: OIML R 22 (1975), page 13.
const C4: [f64; 4] = [
    4.075_376_675_622_027e-6,
    -8.763_058_573_471_11e-6,
    6.515_031_360_099_368e-6,
    -1.515_784_836_987_21e-6,
];
/// Coefficients C5,1 and C5,2: OIML R 22 (1975), page 13.
const C5: [f64; 2] = [-2.788_074_354_782_409e-8, 1.345_612_883_493_354e-8];

/// The polynomial with the given coefficients, lowest power first.
fn polynomial(coefficients: &[f64], x: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, c| sum * x + c)
}

/// Returns the density of ethanol in water.
///
/// `ρ = A1 + Σ Ak w^(k-1) + Σ Bk t^k + Σ Σ Ci,k w^k t^i`, t from 20 °C.
///
/// # Units
/// w as a share, t \[K\], ρ [kg/m³].
///
/// # Validity
/// -20 °C to 40 °C, liquid.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside that range or for a share outside 0 to 1.
///
/// # Source
/// OIML R 22 (1975), International alcoholometric tables, general formula, pages 5 and 13.
pub fn density(mass_fraction: f64, temperature: Temperature) -> Result<Density, PhysicsError> {
    let w = MASS_FRACTION.check(mass_fraction)?;
    let t = DENSITY_TEMPERATURE.check(temperature.celsius())? - REFERENCE_CELSIUS;
    let at_reference = polynomial(&A, w);
    let water = t * polynomial(&B, t);
    let by_share = [&C1[..], &C2, &C3, &C4, &C5].map(|c| w * polynomial(c, w));
    Ok(Density::from_kilograms_per_cubic_metre(at_reference + water + t * polynomial(&by_share, t)))
}

/// Returns the density at 20 °C and its slope with the mass fraction.
fn reference_density(w: f64) -> (f64, f64) {
    let fold = |(value, slope): (f64, f64), c: &f64| (value * w + c, slope * w + value);
    A.iter().rev().fold((0.0, 0.0), fold)
}

/// Returns the alcoholic strength by volume, as a share, of a mass fraction.
///
/// `q = w ρ(w, 20 °C) / 789.24 kg/m³`.
///
/// # Units
/// Shares.
///
/// # Validity
/// w from 0 to 1.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for a share outside 0 to 1.
///
/// # Source
/// OIML R 22 (1975), pages 5 and 10.
pub fn alcoholic_strength(mass_fraction: f64) -> Result<f64, PhysicsError> {
    let w = MASS_FRACTION.check(mass_fraction)?;
    Ok(w * reference_density(w).0 / ETHANOL_DENSITY_20)
}

/// Returns the mass fraction of ethanol for an alcoholic strength by volume.
///
/// The inverse of [`alcoholic_strength`] by Newton's method, from w = 0.8 q.
///
/// # Units
/// Shares.
///
/// # Validity
/// q from 0 to 1.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for a share outside 0 to 1; [`PhysicsError::NoConvergence`]
/// after 30 steps.
///
/// # Source
/// OIML R 22 (1975), pages 5 and 10, solved for the mass fraction.
pub fn mass_fraction_of_strength(strength: f64) -> Result<f64, PhysicsError> {
    const STEPS: u32 = 30;
    const TOLERANCE: f64 = 1e-13;
    let q = STRENGTH.check(strength)?;
    let mut w = 0.8 * q;
    for _ in 0..STEPS {
        let (rho, slope) = reference_density(w);
        let step = (w * rho - q * ETHANOL_DENSITY_20) / (rho + w * slope);
        w -= step;
        if step.abs() < TOLERANCE {
            return Ok(w.clamp(0.0, 1.0));
        }
    }
    Err(PhysicsError::NoConvergence { what: "mass fraction of a strength", steps: STEPS, last: w })
}

/// Returns the mass fraction of ethanol for a density at a temperature.
///
/// The inverse of [`density`].
///
/// # Units
/// ρ [kg/m³], t \[K\], result as a share.
///
/// # Validity
/// -20 °C to 40 °C; densities between those of ethanol and of water. Sugar and other solids in the
/// liquid spoil the reading.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside that range; [`PhysicsError::Impossible`] for a density
/// that no mixture has.
///
/// # Source
/// OIML R 22 (1975), general formula, solved for the mass fraction.
pub fn mass_fraction_of_density(
    density: Density,
    temperature: Temperature,
) -> Result<f64, PhysicsError> {
    const TOLERANCE: f64 = 1e-13;
    self::density(0.0, temperature)?;
    let sought = density.kilograms_per_cubic_metre();
    let at = |w: f64| {
        self::density(w, temperature).map_or(f64::NAN, Density::kilograms_per_cubic_metre) - sought
    };
    solve::root("mass fraction of a density", 0.0, 1.0, TOLERANCE, at)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn celsius(value: f64) -> Temperature {
        Temperature::from_celsius(value)
    }

    #[test]
    fn strength_and_mass_fraction_are_inverse() {
        for step in 0..=1000 {
            let w = f64::from(step) / 1000.0;
            let back = mass_fraction_of_strength(alcoholic_strength(w).unwrap().min(1.0)).unwrap();
            assert!((back - w).abs() < 1e-6 * (1.0 - w).max(1e-3), "{w}: {back}");
        }
    }

    #[test]
    fn density_and_mass_fraction_are_inverse_and_density_falls() {
        for t in [10.0, 20.0, 40.0] {
            let mut before = f64::INFINITY;
            for step in 0..=100 {
                let w = f64::from(step) / 100.0;
                let rho = density(w, celsius(t)).unwrap();
                assert!(rho.si() < before, "{t} °C, {w}");
                before = rho.si();
                let back = mass_fraction_of_density(rho, celsius(t)).unwrap();
                assert!((back - w).abs() < 1e-9, "{t} °C, {w}: {back}");
            }
        }
    }

    #[test]
    fn values_out_of_range_are_refused() {
        assert!(density(1.1, celsius(20.0)).is_err());
        assert!(density(0.5, celsius(60.0)).is_err());
        assert!(alcoholic_strength(-0.1).is_err());
        assert!(mass_fraction_of_strength(1.2).is_err());
        let heavy = Density::from_kilograms_per_cubic_metre(1100.0);
        assert!(mass_fraction_of_density(heavy, celsius(20.0)).is_err());
        assert!(mass_fraction_of_density(heavy, celsius(90.0)).is_err());
    }
}
