//! Student's t distribution, for predictions from few measurements.
//!
//! Symbols: t the variate, nu degrees of freedom, I the regularised incomplete beta function.

use crate::physics::PhysicsError;
use crate::physics::solve::root;

/// The continued fraction settles long before this many terms for the arguments that occur.
const MOST_TERMS: u32 = 10_000;
/// Two successive fractions agree when they differ by less than this share.
const SETTLED: f64 = 1e-15;
/// Stands for zero in a denominator (Lentz's method).
const TINY: f64 = 1e-300;
/// A quantile is found to this share of the bracket.
const TOLERANCE: f64 = 1e-12;
/// Coefficients of Lanczos's approximation with g = 7 and nine terms (P. Godfrey, A note on the
/// computation of the convergent Lanczos complex gamma approximation, 2001; from memory).
const LANCZOS: [f64; 9] = [
    0.999_999_999_999_809_9,
    676.520_368_121_885_1,
    -1_259.139_216_722_402_8,
    771.323_428_777_653_1,
    -176.615_029_162_140_6,
    12.507_343_278_686_905,
    -0.138_571_095_265_720_12,
    9.984_369_578_019_572e-6,
    1.505_632_735_149_311_6e-7,
];
/// The g of [`LANCZOS`].
const LANCZOS_G: f64 = 7.0;

/// Returns the natural logarithm of the gamma function of a positive argument.
pub fn ln_gamma(x: f64) -> f64 {
    let x = x - 1.0;
    let base = x + LANCZOS_G + 0.5;
    let terms = (1u32..).zip(&LANCZOS[1..]).map(|(i, c)| c / (x + f64::from(i)));
    let sum = LANCZOS[0] + terms.sum::<f64>();
    0.5 * (2.0 * std::f64::consts::PI).ln() + (x + 0.5) * base.ln() - base + sum.ln()
}

/// Returns the regularised incomplete beta function `I_x(a, b)` for positive a and b.
///
/// # Errors
/// [`PhysicsError::NoConvergence`] when the continued fraction does not settle.
///
/// # Source
/// NIST Digital Library of Mathematical Functions, 8.17.22 (continued fraction) and 8.17.4
/// (symmetry), evaluated by Lentz's method.
pub fn incomplete_beta(x: f64, a: f64, b: f64) -> Result<f64, PhysicsError> {
    if x <= 0.0 {
        return Ok(0.0);
    }
    if x >= 1.0 {
        return Ok(1.0);
    }
    let ln_front = a * x.ln() + b * (-x).ln_1p() + ln_gamma(a + b) - ln_gamma(a) - ln_gamma(b);
    if x < (a + 1.0) / (a + b + 2.0) {
        Ok(ln_front.exp() * beta_fraction(x, a, b)? / a)
    } else {
        Ok(1.0 - ln_front.exp() * beta_fraction(1.0 - x, b, a)? / b)
    }
}

fn beta_fraction(x: f64, a: f64, b: f64) -> Result<f64, PhysicsError> {
    let guard = |value: f64| if value.abs() < TINY { TINY } else { value };
    let mut c = 1.0;
    let mut d = 1.0 / guard(1.0 - (a + b) * x / (a + 1.0));
    let mut fraction = d;
    for term in 1..=MOST_TERMS {
        let m = f64::from(term);
        let even = m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m));
        let odd = -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0));
        let before = fraction;
        for step in [even, odd] {
            d = 1.0 / guard(1.0 + step * d);
            c = guard(1.0 + step / c);
            fraction *= c * d;
        }
        if (fraction / before - 1.0).abs() < SETTLED {
            return Ok(fraction);
        }
    }
    Err(PhysicsError::NoConvergence {
        what: "incomplete beta function",
        steps: MOST_TERMS,
        last: fraction,
    })
}

/// Returns the probability that Student's t lies below a value.
///
/// `P = 1 - I_x(nu/2, 1/2) / 2` for t ≥ 0, with `x = nu / (nu + t²)`.
///
/// # Errors
/// As [`incomplete_beta`].
///
/// # Source
/// M. Abramowitz and I. A. Stegun, Handbook of Mathematical Functions, 1964, 26.7.1 and 26.5.27.
pub fn probability(t: f64, degrees: f64) -> Result<f64, PhysicsError> {
    let tail = 0.5 * incomplete_beta(degrees / (degrees + t * t), 0.5 * degrees, 0.5)?;
    Ok(if t > 0.0 { 1.0 - tail } else { tail })
}

/// Returns the value below which Student's t lies with a probability between 0.001 and 0.999.
///
/// # Errors
/// [`PhysicsError::Impossible`] for a probability or degrees of freedom outside what the search
/// covers; as [`incomplete_beta`] otherwise.
pub fn quantile(probability: f64, degrees: f64) -> Result<f64, PhysicsError> {
    // With one degree of freedom, the heaviest tail in use, t(0.999) is 318.
    const FARTHEST: f64 = 400.0;
    let below = |t: f64| self::probability(t, degrees).map_or(f64::NAN, |p| p - probability);
    root("quantile of Student's t", -FARTHEST, FARTHEST, TOLERANCE, below)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tabulated_quantiles_are_found() {
        // Abramowitz & Stegun 1964, table 26.10: two-sided 0.05 and 0.20.
        let table =
            [(0.975, 1.0, 12.706), (0.975, 5.0, 2.571), (0.9, 4.0, 1.533), (0.9, 30.0, 1.310)];
        for (p, degrees, expected) in table {
            let found = quantile(p, degrees).unwrap();
            assert!((found - expected).abs() < 6e-4, "{p} {degrees}: {found}");
        }
    }

    #[test]
    fn the_distribution_is_symmetric() {
        assert!((quantile(0.1, 7.0).unwrap() + quantile(0.9, 7.0).unwrap()).abs() < 1e-9);
        assert!((probability(0.0, 3.0).unwrap() - 0.5).abs() < 1e-14);
    }

    #[test]
    fn a_probability_outside_the_search_is_refused() {
        assert!(quantile(1.5, 4.0).is_err());
    }
}
