//! Log-normal distributions of particle and droplet sizes.
//!
//! Symbols: d diameter, m = ln of the median, s = ln of the geometric standard deviation, shares by
//! mass (equal to shares by volume when all particles have one density).

use crate::estimate::normal_quantile;
use crate::physics::{PhysicsError, positive};
use crate::quantity::Length;

/// A log-normal distribution of mass over diameter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SizeDistribution {
    median: Length,
    spread: f64,
}

/// Half of a distribution's width beyond which practically no mass is left, in standard deviations.
pub(super) const TAIL_STEPS: f64 = 6.0;

impl SizeDistribution {
    /// Makes a distribution from its median diameter by mass and its geometric standard deviation.
    ///
    /// A geometric standard deviation of 1 means that all particles have one size.
    ///
    /// # Errors
    /// [`PhysicsError::NotPositive`] for a median of zero or less; [`PhysicsError::Impossible`] for
    /// a geometric standard deviation below 1.
    pub fn new(median: Length, geometric_deviation: f64) -> Result<Self, PhysicsError> {
        positive("median diameter", median.metres(), "m")?;
        if geometric_deviation >= 1.0 {
            Ok(Self { median, spread: geometric_deviation.ln() })
        } else {
            let because =
                format!("its geometric standard deviation {geometric_deviation} is below 1");
            Err(PhysicsError::Impossible { what: "a size distribution", because })
        }
    }

    /// Makes a distribution from the two diameters below which half and nine tenths of the mass lie.
    ///
    /// # Errors
    /// [`PhysicsError::NotPositive`] for a diameter of zero or less; [`PhysicsError::Impossible`]
    /// when the second is below the first.
    pub fn from_median_and_d90(median: Length, d90: Length) -> Result<Self, PhysicsError> {
        positive("median diameter", median.metres(), "m")?;
        positive("diameter below which nine tenths lie", d90.metres(), "m")?;
        Self::new(median, (d90 / median).powf(1.0 / normal_quantile(0.9)))
    }

    /// Returns the diameter below which half of the mass lies.
    pub const fn median(&self) -> Length {
        self.median
    }

    /// Returns the geometric standard deviation.
    pub fn geometric_deviation(&self) -> f64 {
        self.spread.exp()
    }

    /// Returns the natural logarithm of the geometric standard deviation.
    pub const fn log_spread(&self) -> f64 {
        self.spread
    }

    /// Returns the share of the mass in particles below a diameter.
    pub fn share_below(&self, diameter: Length) -> f64 {
        if diameter <= Length::ZERO { 0.0 } else { normal_share(self.steps(diameter)) }
    }

    /// Returns the diameter below which a share of the mass lies; the share is held within 0 and 1.
    pub fn diameter_at(&self, share: f64) -> Length {
        let mut x = normal_quantile(share);
        // One Newton step brings the published approximation of 1e-9 to rounding error.
        let density = (-0.5 * x * x).exp() / (2.0 * std::f64::consts::PI).sqrt();
        if share > 1e-6 && share < 1.0 - 1e-6 {
            x -= (normal_share(x) - share) / density;
        }
        self.at_steps(x)
    }

    /// Returns the diameter below which nine tenths of the mass lie.
    pub fn d90(&self) -> Length {
        self.diameter_at(0.9)
    }

    /// Returns the Sauter mean diameter d₃₂ = 6 volume / surface, `d₅₀ exp(-s²/2)`.
    ///
    /// # Source
    /// T. Hatch & S. P. Choate, J. Franklin Inst. 207:369-387, 1929.
    pub fn sauter_mean(&self) -> Length {
        self.median * (-0.5 * self.spread * self.spread).exp()
    }

    /// Returns the mass-weighted mean diameter d₄₃, `d₅₀ exp(s²/2)`.
    ///
    /// # Source
    /// As [`SizeDistribution::sauter_mean`].
    pub fn mass_mean(&self) -> Length {
        self.median * (0.5 * self.spread * self.spread).exp()
    }

    /// Returns the share of mass below a diameter and the distribution of that part.
    ///
    /// The part cut off is no longer log-normal; it is described by the log-normal distribution with
    /// the same mean and variance of ln d. `None` when practically nothing lies below.
    pub fn part_below(&self, limit: Length) -> Option<(f64, Self)> {
        let b = if limit <= Length::ZERO { -TAIL_STEPS } else { self.steps(limit) };
        if b <= -TAIL_STEPS {
            return None;
        }
        if b >= TAIL_STEPS {
            return Some((1.0, *self));
        }
        let share = normal_share(b);
        let hazard = (-0.5 * b * b).exp() / (2.0 * std::f64::consts::PI).sqrt() / share;
        let median = self.at_steps(-hazard);
        let variance = (1.0 - b * hazard - hazard * hazard).max(0.0);
        Some((share, Self { median, spread: self.spread * variance.sqrt() }))
    }

    /// Returns the distribution with every diameter multiplied by a factor above zero.
    #[must_use]
    pub fn scaled(&self, factor: f64) -> Self {
        Self { median: self.median * factor, spread: self.spread }
    }

    /// Makes a distribution from the mean and the standard deviation of ln(d / 1 m).
    pub(super) fn from_log_moments(mean: f64, deviation: f64) -> Self {
        Self { median: Length::from_metres(mean.exp()), spread: deviation.max(0.0) }
    }

    /// Returns the diameter that lies a number of standard deviations above the median.
    pub(super) fn at_steps(&self, steps: f64) -> Length {
        self.median * (self.spread * steps).exp()
    }

    fn steps(&self, diameter: Length) -> f64 {
        let ratio = (diameter / self.median).ln();
        if self.spread > 0.0 {
            ratio / self.spread
        } else if ratio >= 0.0 {
            f64::INFINITY
        } else {
            f64::NEG_INFINITY
        }
    }
}

/// Returns the share of a standard normal distribution below x.
///
/// Rational approximation with a continued fraction in the tail, accurate to 1e-15.
///
/// # Source
/// J. F. Hart et al., Computer Approximations, 1968, as arranged by G. West, Better approximations
/// to cumulative normal functions, Wilmott Magazine, 2005.
pub fn normal_share(x: f64) -> f64 {
    const TOP: [f64; 7] = [
        3.526_249_659_989_11e-2,
        0.700_383_064_443_688,
        6.373_962_203_531_65,
        33.912_866_078_383,
        112.079_291_497_871,
        221.213_596_169_931,
        220.206_867_912_376,
    ];
    const BOTTOM: [f64; 8] = [
        8.838_834_764_831_84e-2,
        1.755_667_163_182_64,
        16.064_177_579_207,
        86.780_732_202_946_1,
        296.564_248_779_674,
        637.333_633_378_831,
        793.826_512_519_948,
        440.413_735_824_752,
    ];
    const TAIL: f64 = 7.071_067_811_865_47;
    const ROOT_TWO_PI: f64 = 2.506_628_274_631;
    let distance = x.abs();
    let bell = (-0.5 * distance * distance).exp();
    let polynomial = |terms: &[f64]| terms.iter().fold(0.0, |sum, c| sum * distance + c);
    let beyond = if distance.is_infinite() {
        0.0
    } else if distance < TAIL {
        bell * polynomial(&TOP) / polynomial(&BOTTOM)
    } else {
        let fraction = (1..=4).rev().fold(distance + 0.65, |b, k| distance + f64::from(k) / b);
        bell / fraction / ROOT_TWO_PI
    };
    if x > 0.0 { 1.0 - beyond } else { beyond }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn micrometres(value: f64) -> Length {
        Length::from_micrometres(value)
    }

    #[test]
    fn the_normal_share_agrees_with_the_published_table() {
        // Abramowitz & Stegun 1964, table 26.1.
        for (x, share) in [(0.0, 0.5), (1.0, 0.841_344_746_068_543), (2.0, 0.977_249_868_051_821)] {
            assert!((normal_share(x) - share).abs() < 1e-14, "{x}");
            assert!((normal_share(-x) - (1.0 - share)).abs() < 1e-14, "{x}");
        }
        assert!(normal_share(f64::INFINITY) >= 1.0 && normal_share(-9.0) < 1e-18);
    }

    #[test]
    fn share_and_diameter_are_inverses() {
        let sizes = SizeDistribution::new(micrometres(20.0), 2.5).unwrap();
        for share in [0.001, 0.1, 0.5, 0.9, 0.999] {
            assert!((sizes.share_below(sizes.diameter_at(share)) - share).abs() < 1e-9);
        }
        let again = SizeDistribution::from_median_and_d90(sizes.median(), sizes.d90()).unwrap();
        assert!((again.geometric_deviation() - 2.5).abs() < 1e-6);
    }

    #[test]
    fn means_lie_in_their_order() {
        let sizes = SizeDistribution::new(micrometres(20.0), 2.0).unwrap();
        assert!(sizes.sauter_mean() < sizes.median() && sizes.median() < sizes.mass_mean());
        let single = SizeDistribution::new(micrometres(20.0), 1.0).unwrap();
        assert_eq!(single.sauter_mean(), single.median());
        assert!(single.share_below(micrometres(19.9)) <= 0.0);
        assert!(single.share_below(micrometres(20.0)) >= 1.0);
    }

    #[test]
    fn a_cut_leaves_a_finer_and_narrower_part() {
        let sizes = SizeDistribution::new(micrometres(20.0), 3.0).unwrap();
        let (share, part) = sizes.part_below(micrometres(10.0)).unwrap();
        assert!((share - sizes.share_below(micrometres(10.0))).abs() < 1e-12);
        assert!(part.median() < micrometres(10.0));
        assert!(part.geometric_deviation() < 3.0);
        let (all, same) = sizes.part_below(Length::from_metres(1.0)).unwrap();
        assert!(all >= 1.0 && same == sizes);
        assert!(sizes.part_below(Length::ZERO).is_none());
    }

    #[test]
    fn impossible_distributions_are_refused() {
        assert!(SizeDistribution::new(Length::ZERO, 2.0).is_err());
        assert!(SizeDistribution::new(micrometres(1.0), 0.9).is_err());
        assert!(SizeDistribution::from_median_and_d90(micrometres(2.0), micrometres(1.0)).is_err());
    }
}
