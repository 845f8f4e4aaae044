//! What a sieve, cloth, paper or pad holds back of a size distribution.
//!
//! The medium is described by its grade curve, a cumulative log-normal: x₅₀ the size of which half is
//! held back, s_g the logarithm of its geometric standard deviation. Symbols of the particles: m and
//! s, mean and standard deviation of ln d by mass.

use crate::physics::settling::{SizeDistribution, normal_share};
use crate::physics::{PhysicsError, positive};
use crate::quantity::Length;

/// Geometric standard deviation of the openings of a woven test sieve. Estimate: the standard
/// deviation that ISO 3310-1 allows for single openings is about a twentieth.
pub const WOVEN_MESH_DEVIATION: f64 = 1.05;
/// Geometric standard deviation of a paper's or fleece's grade curve. Estimate: laboratory papers
/// rated by the size of which 98 % stays pass some of twice finer sizes.
pub const PAPER_DEVIATION: f64 = 1.6;
/// Geometric standard deviation of a depth pad's or loose cloth's grade curve. Estimate: makers' ratings of
/// pads span a factor of five from half to full retention.
pub const CLOTH_DEVIATION: f64 = 2.0;

/// A filter medium by its grade curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Medium {
    half_size: Length,
    log_deviation: f64,
}

/// What passes a medium.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Passed {
    /// Share of the particles' mass that passes.
    pub share: f64,
    /// Its sizes; `None` when practically nothing passes.
    pub sizes: Option<SizeDistribution>,
}

/// Less than this share counts as nothing.
const NOTHING: f64 = 1e-12;

impl Medium {
    /// Makes a medium from the size of which half is held back, and the spread of its grade curve.
    ///
    /// # Errors
    /// [`PhysicsError::NotPositive`] for a size of zero or less; [`PhysicsError::Impossible`] for a
    /// geometric standard deviation below 1.
    pub fn new(half_size: Length, geometric_deviation: f64) -> Result<Self, PhysicsError> {
        let curve = SizeDistribution::new(half_size, geometric_deviation)?;
        Ok(Self { half_size, log_deviation: curve.log_spread() })
    }

    /// Makes a medium from a maker's rating: the size of which a stated share is held back.
    ///
    /// # Errors
    /// As [`Medium::new`]; [`PhysicsError::Impossible`] for a share outside 0 to 1.
    pub fn rated(
        size: Length,
        held_back: f64,
        geometric_deviation: f64,
    ) -> Result<Self, PhysicsError> {
        if !(held_back > 0.0 && held_back < 1.0) {
            let because = format!("a share of {held_back} held back is not between 0 and 1");
            return Err(PhysicsError::Impossible { what: "a filter's rating", because });
        }
        let curve = SizeDistribution::new(size, geometric_deviation)?;
        Self::new(curve.diameter_at(1.0 - held_back), geometric_deviation)
    }

    /// Returns the size of which half is held back.
    pub const fn half_size(&self) -> Length {
        self.half_size
    }

    /// Returns the share of particles of one size that is held back.
    ///
    /// `G = Phi(ln(d / x₅₀) / s_g)`.
    ///
    /// # Units
    /// d \[m\], G none.
    ///
    /// # Validity
    /// Before a cake forms; a cake holds back finer particles than the medium.
    ///
    /// # Errors
    /// [`PhysicsError::NotPositive`] for a diameter of zero or less.
    ///
    /// # Source
    /// L. Svarovsky, Solid-Liquid Separation, 4th ed., 2000, chapter 3 (from memory).
    pub fn held_back(&self, diameter: Length) -> Result<f64, PhysicsError> {
        positive("particle diameter", diameter.metres(), "m")?;
        let ratio = (diameter / self.half_size).ln();
        Ok(if self.log_deviation > 0.0 {
            normal_share(ratio / self.log_deviation)
        } else if ratio >= 0.0 {
            1.0
        } else {
            0.0
        })
    }

    /// Returns what passes of a size distribution.
    ///
    /// With `S² = s² + s_g²`, `b = (ln x₅₀ - m) / S` and `q = phi(b) / Phi(b)` the share is `Phi(b)`,
    /// the mean of ln d falls by `s² q / S` and its variance by `s⁴ q (b + q) / S²`. The sizes passed
    /// are described by the log-normal distribution with that mean and variance.
    ///
    /// # Units
    /// None.
    ///
    /// # Validity
    /// As [`Medium::held_back`].
    ///
    /// # Errors
    /// None.
    ///
    /// # Source
    /// Moments of a normal distribution weighted by a normal grade curve: A. Azzalini, Scand. J.
    /// Statist. 12:171-178, 1985 (the extended skew-normal distribution).
    pub fn pass(&self, sizes: &SizeDistribution) -> Passed {
        let s = sizes.log_spread();
        let whole = s.hypot(self.log_deviation);
        let offset = (self.half_size / sizes.median()).ln();
        if whole <= 0.0 {
            let passes = offset > 0.0;
            let share = if passes { 1.0 } else { 0.0 };
            return Passed { share, sizes: passes.then_some(*sizes) };
        }
        let b = offset / whole;
        let share = normal_share(b);
        if share < NOTHING {
            return Passed { share, sizes: None };
        }
        let q = (-0.5 * b * b).exp() / std::f64::consts::TAU.sqrt() / share;
        let factor = (-s * s * q / whole).exp();
        let variance = s * s * (1.0 - (s / whole).powi(2) * q * (b + q));
        let passed = SizeDistribution::new(sizes.median() * factor, variance.max(0.0).sqrt().exp());
        Passed { share, sizes: passed.ok() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::solve::integral;

    fn micrometres(value: f64) -> Length {
        Length::from_micrometres(value)
    }

    #[test]
    fn a_sharp_sieve_cuts_like_the_distribution_itself() {
        let sizes = SizeDistribution::new(micrometres(100.0), 2.0).unwrap();
        let sieve = Medium::new(micrometres(75.0), 1.0).unwrap();
        let (share, part) = sizes.part_below(micrometres(75.0)).unwrap();
        let passed = sieve.pass(&sizes);
        assert!((passed.share - share).abs() < 1e-12);
        let through = passed.sizes.unwrap();
        assert!((through.median() / part.median() - 1.0).abs() < 1e-9);
        assert!((through.log_spread() / part.log_spread() - 1.0).abs() < 1e-9);
    }

    #[test]
    fn the_closed_form_agrees_with_integration_over_sizes() {
        let sizes = SizeDistribution::new(micrometres(30.0), 2.5).unwrap();
        let paper = Medium::new(micrometres(20.0), PAPER_DEVIATION).unwrap();
        let weight = |z: f64| {
            let d = sizes.median() * (sizes.log_spread() * z).exp();
            (-0.5 * z * z).exp() / std::f64::consts::TAU.sqrt()
                * (1.0 - paper.held_back(d).unwrap())
        };
        let moment = |power: i32| integral(-8.0, 8.0, 40, |z| z.powi(power) * weight(z));
        let passed = paper.pass(&sizes);
        assert!((passed.share - moment(0)).abs() < 1e-9);
        let mean = moment(1) / moment(0);
        let deviation = (moment(2) / moment(0) - mean * mean).sqrt();
        let through = passed.sizes.unwrap();
        let expected = sizes.median() * (sizes.log_spread() * mean).exp();
        assert!((through.median() / expected - 1.0).abs() < 1e-8);
        assert!((through.log_spread() - deviation * sizes.log_spread()).abs() < 1e-8);
    }

    #[test]
    fn a_rating_is_met() {
        let paper = Medium::rated(micrometres(11.0), 0.98, PAPER_DEVIATION).unwrap();
        assert!((paper.held_back(micrometres(11.0)).unwrap() - 0.98).abs() < 1e-9);
        assert!(paper.half_size() < micrometres(11.0));
    }

    #[test]
    fn extremes_pass_all_or_nothing() {
        let single = SizeDistribution::new(micrometres(10.0), 1.0).unwrap();
        let sieve = |um| Medium::new(micrometres(um), 1.0).unwrap();
        assert!(sieve(20.0).pass(&single).share >= 1.0);
        assert!(sieve(5.0).pass(&single).sizes.is_none());
        assert!(sieve(5.0).held_back(micrometres(4.0)).unwrap() <= 0.0);
        let wide = SizeDistribution::new(micrometres(1000.0), 1.5).unwrap();
        let paper = Medium::new(micrometres(1.0), 1.6).unwrap();
        assert!(paper.pass(&wide).sizes.is_none());
    }

    #[test]
    fn impossible_media_are_refused() {
        assert!(Medium::new(Length::ZERO, 1.5).is_err());
        assert!(Medium::new(micrometres(10.0), 0.5).is_err());
        assert!(Medium::rated(micrometres(10.0), 1.0, 1.5).is_err());
        assert!(Medium::new(micrometres(10.0), 1.5).unwrap().held_back(Length::ZERO).is_err());
    }
}
