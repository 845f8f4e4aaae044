//! A number that is not known exactly: low, typical, high.

use serde::Serialize;

/// A range of values in SI: `low` and `high` are the 10th and 90th percentile, `typical` the median.
///
/// Nine times in ten the truth lies above `low`, nine times in ten below `high`. The spread between
/// the two is read as two half-normal distributions joined at `typical`; on a logarithmic scale when
/// all three are positive and the range spans more than `LOG_SPAN`.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Estimate {
    low: f64,
    typical: f64,
    high: f64,
}

/// A range whose high end exceeds its low end by this factor is spread on a logarithmic scale.
const LOG_SPAN: f64 = 1.5;

/// The standard normal quantile of 0.9 (Abramowitz & Stegun 1964, table 26.5).
const NORMAL_90: f64 = 1.281_551_565_544_6;

/// Draws stop at this many half-widths, so that a fat tail never leaves the physical range.
const TAIL_LIMIT: f64 = 2.0;

/// Why three numbers do not make an estimate.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[error("low {low}, typical {typical}, high {high} are not in rising order or not finite")]
pub struct EstimateError {
    /// The low end as given.
    pub low: f64,
    /// The typical value as given.
    pub typical: f64,
    /// The high end as given.
    pub high: f64,
}

impl Estimate {
    /// Makes an estimate from its three numbers.
    ///
    /// # Errors
    /// [`EstimateError`] unless `low ≤ typical ≤ high` and all three are finite.
    pub fn new(low: f64, typical: f64, high: f64) -> Result<Self, EstimateError> {
        let finite = low.is_finite() && typical.is_finite() && high.is_finite();
        if finite && low <= typical && typical <= high {
            Ok(Self { low, typical, high })
        } else {
            Err(EstimateError { low, typical, high })
        }
    }

    /// Makes an estimate that is known exactly.
    pub const fn exact(value: f64) -> Self {
        Self { low: value, typical: value, high: value }
    }

    /// Makes an estimate for a constant; `None` unless the numbers rise.
    pub const fn exact_range(low: f64, typical: f64, high: f64) -> Option<Self> {
        if low <= typical && typical <= high { Some(Self { low, typical, high }) } else { None }
    }

    /// Returns the 10th percentile.
    pub const fn low(&self) -> f64 {
        self.low
    }

    /// Returns the median.
    pub const fn typical(&self) -> f64 {
        self.typical
    }

    /// Returns the 90th percentile.
    pub const fn high(&self) -> f64 {
        self.high
    }

    /// Returns whether the value is known exactly.
    pub fn is_exact(&self) -> bool {
        self.low >= self.high
    }

    /// Returns the value at a cumulative probability `u` between 0 and 1.
    ///
    /// `quantile(0.1)`, `quantile(0.5)` and `quantile(0.9)` are `low`, `typical` and `high`. Draws
    /// beyond twice the half-width are held there.
    pub fn quantile(&self, u: f64) -> f64 {
        if self.is_exact() {
            return self.typical;
        }
        let steps = (normal_quantile(u) / NORMAL_90).clamp(-TAIL_LIMIT, TAIL_LIMIT);
        let end = if steps < 0.0 { self.low } else { self.high };
        if self.low > 0.0 && self.high > LOG_SPAN * self.low {
            self.typical * (end / self.typical).powf(steps.abs())
        } else {
            self.typical + (end - self.typical) * steps.abs()
        }
    }

    /// Returns the estimate with each of its numbers changed by a rising function.
    ///
    /// # Errors
    /// [`EstimateError`] when the function does not keep the order or leaves the finite numbers.
    pub fn map(&self, rising: impl Fn(f64) -> f64) -> Result<Self, EstimateError> {
        Self::new(rising(self.low), rising(self.typical), rising(self.high))
    }

    /// Returns the 10th, 50th and 90th percentile of a set of results, by linear interpolation.
    ///
    /// Returns `None` for an empty set or one with a value that is not finite.
    pub fn of_results(results: &[f64]) -> Option<Self> {
        let mut rest = results.to_vec();
        let last = rest.len().checked_sub(1)?;
        let mut at = [0.0; 3];
        // The highest share first, so that only what lies below its place is looked at again.
        for (value, share) in at.iter_mut().zip([0.1, 0.5, 0.9]).rev() {
            let (index, weight) = rank(share, last);
            let above = (index + 1).min(rest.len() - 1);
            rest.select_nth_unstable_by(above, f64::total_cmp);
            rest.truncate(above + 1);
            let below = rest[..above].iter().copied().max_by(f64::total_cmp);
            let below = below.filter(|_| above > index).unwrap_or(rest[above]);
            *value = below + (rest[above] - below) * weight;
        }
        Self::new(at[0], at[1], at[2]).ok()
    }
}

/// Returns the rank below a share of a sorted list, and the way from it to the next.
fn rank(share: f64, last: usize) -> (usize, f64) {
    let place = share * last as f64;
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a share of a small count"
    )]
    let index = place.floor() as usize;
    (index.min(last), place - place.floor())
}

/// Returns the quantile of the standard normal distribution.
///
/// The rational approximation of Acklam (2003), relative error below 1.15e-9; the argument is held
/// within 1e-12 of 0 and 1.
pub fn normal_quantile(u: f64) -> f64 {
    const A: [f64; 6] = [
        -3.969_683_028_665_376e1,
        2.209_460_984_245_205e2,
        -2.759_285_104_469_687e2,
        1.383_577_518_672_69e2,
        -3.066_479_806_614_716e1,
        2.506_628_277_459_239,
    ];
    const B: [f64; 5] = [
        -5.447_609_879_822_406e1,
        1.615_858_368_580_409e2,
        -1.556_989_798_598_866e2,
        6.680_131_188_771_972e1,
        -1.328_068_155_288_572e1,
    ];
    const C: [f64; 6] = [
        -7.784_894_002_430_293e-3,
        -3.223_964_580_411_365e-1,
        -2.400_758_277_161_838,
        -2.549_732_539_343_734,
        4.374_664_141_464_968,
        2.938_163_982_698_783,
    ];
    const D: [f64; 4] = [
        7.784_695_709_041_462e-3,
        3.224_671_290_700_398e-1,
        2.445_134_137_142_996,
        3.754_408_661_907_416,
    ];
    const CENTRE: f64 = 0.024_25;
    let u = u.clamp(1e-12, 1.0 - 1e-12);
    let polynomial =
        |coefficients: &[f64], x: f64| coefficients.iter().fold(0.0, |sum, c| sum * x + c);
    let tail = |q: f64| polynomial(&C, q) / (polynomial(&D, q) * q + 1.0);
    if u < CENTRE {
        tail((-2.0 * u.ln()).sqrt())
    } else if u > 1.0 - CENTRE {
        -tail((-2.0 * (1.0 - u).ln()).sqrt())
    } else {
        let q = u - 0.5;
        let r = q * q;
        polynomial(&A, r) * q / (polynomial(&B, r) * r + 1.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quantiles_meet_the_three_numbers() {
        for (low, typical, high) in [(1.0, 2.0, 10.0), (-5.0, 0.0, 1.0), (0.9, 1.0, 1.1)] {
            let estimate = Estimate::new(low, typical, high).unwrap();
            assert!((estimate.quantile(0.1) - low).abs() < 1e-6);
            assert!((estimate.quantile(0.5) - typical).abs() < 1e-6);
            assert!((estimate.quantile(0.9) - high).abs() < 1e-6);
        }
    }

    #[test]
    fn numbers_out_of_order_are_refused() {
        assert!(Estimate::new(2.0, 1.0, 3.0).is_err());
        assert!(Estimate::new(1.0, f64::NAN, 3.0).is_err());
    }

    #[test]
    fn normal_quantiles_agree_with_the_published_table() {
        // Abramowitz & Stegun 1964, table 26.5.
        for (u, x) in [(0.975, 1.959_963_985), (0.5, 0.0), (0.001, -3.090_232_306)] {
            assert!((normal_quantile(u) - x).abs() < 1e-8, "{u}");
        }
    }

    #[test]
    fn percentiles_of_results_interpolate() {
        let results: Vec<f64> = (0..=100).map(f64::from).collect();
        let estimate = Estimate::of_results(&results).unwrap();
        assert!((estimate.low() - 10.0).abs() < 1e-9 && (estimate.high() - 90.0).abs() < 1e-9);
        let of = |results: &[f64]| Estimate::of_results(results).unwrap();
        assert_eq!(of(&[4.0]), Estimate::exact(4.0));
        let two = of(&[2.0, 1.0]);
        assert!((two.low() - 1.1).abs() < 1e-12 && (two.high() - 1.9).abs() < 1e-12);
        assert!(Estimate::of_results(&[]).is_none());
        assert!(Estimate::of_results(&[1.0, f64::NAN, 2.0]).is_none());
    }

    #[test]
    fn percentiles_do_not_ask_for_an_order() {
        let mut shuffled: Vec<f64> = (0..1000).map(|i| f64::from((i * 577) % 1000)).collect();
        let estimate = Estimate::of_results(&shuffled).unwrap();
        shuffled.sort_by(f64::total_cmp);
        assert_eq!(Some(estimate), Estimate::of_results(&shuffled));
        assert!((estimate.low() - 99.9).abs() < 1e-9 && (estimate.typical() - 499.5).abs() < 1e-9);
    }
}
