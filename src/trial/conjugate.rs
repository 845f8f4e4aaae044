//! Learning a factor from few trials: normal measurements with a conjugate prior.
//!
//! The logarithm x of measured over predicted is taken as normal with mean mu and variance sigma²,
//! so that the factor itself is log-normal. Symbols: n trials, x̄ their mean; mu₀, kappa₀, alpha₀,
//! beta₀ the prior; the same with n the posterior.
//!
//! # Source
//! A. Gelman and others, Bayesian Data Analysis, 3rd edition, 2013, sections 2.5 (known variance) and
//! 3.3 (normal-inverse-chi-squared, the same family); K. P. Murphy, Conjugate Bayesian analysis of
//! the Gaussian distribution, 2007, sections 2 and 3 (from memory).

use crate::estimate::Estimate;
use crate::physics::PhysicsError;

use super::student;

/// The prior counts as much as this many trials: what a model gets wrong in general is taken to be
/// as large as what differs from one trial to the next. Estimate: no body of trials exists yet.
pub const PRIOR_TRIALS: f64 = 1.0;
/// Half the degrees of freedom of the prior's spread: four, so that two or three trials can narrow
/// or widen it. Estimate, as [`PRIOR_TRIALS`].
pub const PRIOR_SHAPE: f64 = 2.0;
/// The least half-width of a prior [natural logarithm]: 5 %, what a kitchen's clocks and scales leave
/// open even for a route that is computed exactly. Estimate.
const LEAST_HALF_WIDTH: f64 = 0.05;
/// The share of results below the upper end of a range.
const UPPER: f64 = 0.9;

/// A prior or posterior for mean and variance together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NormalInverseGamma {
    /// The expected mean, mu₀.
    pub mean: f64,
    /// How many measurements it counts as, kappa₀.
    pub strength: f64,
    /// Shape of the variance's distribution, alpha₀.
    pub shape: f64,
    /// Scale of the variance's distribution, beta₀.
    pub scale: f64,
}

/// A Student's t distribution moved and stretched.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Student {
    /// Its middle.
    pub location: f64,
    /// Its stretch.
    pub scale: f64,
    /// Degrees of freedom.
    pub degrees: f64,
}

impl Student {
    /// Returns the value below which a result lies with a probability.
    ///
    /// # Errors
    /// As [`student::quantile`].
    pub fn quantile(&self, probability: f64) -> Result<f64, PhysicsError> {
        Ok(self.location + self.scale * student::quantile(probability, self.degrees)?)
    }
}

impl NormalInverseGamma {
    /// Makes the prior whose prediction has the 10th and 90th percentile of a range, its middle at
    /// no correction.
    ///
    /// `h = ln(high / low) / 2`, `beta₀ = (h / t)² alpha₀ kappa₀ / (kappa₀ + 1)` with t the 0.9
    /// quantile of Student's t with `2 alpha₀` degrees of freedom. The range is thus taken as even on
    /// the logarithmic scale.
    ///
    /// # Errors
    /// As [`student::quantile`].
    pub fn from_half_width(half_width: f64) -> Result<Self, PhysicsError> {
        let half_width = half_width.max(LEAST_HALF_WIDTH);
        let spread = half_width / student::quantile(UPPER, 2.0 * PRIOR_SHAPE)?;
        let scale = spread * spread * PRIOR_SHAPE * PRIOR_TRIALS / (PRIOR_TRIALS + 1.0);
        Ok(Self { mean: 0.0, strength: PRIOR_TRIALS, shape: PRIOR_SHAPE, scale })
    }

    /// Returns what is known after measurements; with none, what was known before.
    ///
    /// ```text
    /// kappa_n = kappa₀ + n
    /// mu_n    = (kappa₀ mu₀ + n x̄) / kappa_n
    /// alpha_n = alpha₀ + n / 2
    /// beta_n  = beta₀ + Σ(x - x̄)² / 2 + kappa₀ n (x̄ - mu₀)² / (2 kappa_n)
    /// ```
    #[must_use]
    pub fn update(&self, measured: &[f64]) -> Self {
        if measured.is_empty() {
            return *self;
        }
        let n = measured.len() as f64;
        let mean = measured.iter().sum::<f64>() / n;
        let squares: f64 = measured.iter().map(|x| (x - mean) * (x - mean)).sum();
        let strength = self.strength + n;
        let away = mean - self.mean;
        Self {
            mean: (self.strength * self.mean + n * mean) / strength,
            strength,
            shape: self.shape + 0.5 * n,
            scale: self.scale + 0.5 * squares + self.strength * n * away * away / (2.0 * strength),
        }
    }

    /// Returns the distribution of the next measurement.
    ///
    /// Student's t with `2 alpha_n` degrees of freedom, location `mu_n` and
    /// `scale² = beta_n (kappa_n + 1) / (alpha_n kappa_n)`.
    pub fn predictive(&self) -> Student {
        let variance = self.scale * (self.strength + 1.0) / (self.shape * self.strength);
        Student { location: self.mean, scale: variance.sqrt(), degrees: 2.0 * self.shape }
    }

    /// Returns the range of the factor of the next measurement: the exponentials of the 10th, 50th
    /// and 90th percentile.
    ///
    /// # Errors
    /// As [`student::quantile`]; [`PhysicsError::Impossible`] when the range is not finite.
    pub fn factor(&self) -> Result<Estimate, PhysicsError> {
        let next = self.predictive();
        let (low, high) = (next.quantile(1.0 - UPPER)?, next.quantile(UPPER)?);
        Estimate::new(low.exp(), next.location.exp(), high.exp()).map_err(|error| {
            PhysicsError::Impossible { what: "correction factor", because: error.to_string() }
        })
    }
}

/// A prior or posterior for the mean when the variance of one measurement is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KnownVariance {
    /// The expected mean.
    pub mean: f64,
    /// The variance of the mean, tau².
    pub variance: f64,
    /// The variance of one measurement, sigma².
    pub noise: f64,
}

impl KnownVariance {
    /// Returns what is known after measurements.
    ///
    /// `1/tau_n² = 1/tau₀² + n/sigma²`, `mu_n = tau_n² (mu₀/tau₀² + n x̄/sigma²)`.
    #[must_use]
    pub fn update(&self, measured: &[f64]) -> Self {
        let n = measured.len() as f64;
        let sum: f64 = measured.iter().sum();
        let variance = 1.0 / (1.0 / self.variance + n / self.noise);
        let mean = variance * (self.mean / self.variance + sum / self.noise);
        Self { mean, variance, noise: self.noise }
    }

    /// Returns the variance of the next measurement about [`Self::mean`]: `tau_n² + sigma²`.
    pub fn predictive_variance(&self) -> f64 {
        self.variance + self.noise
    }
}
