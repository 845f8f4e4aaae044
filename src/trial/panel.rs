//! Panels of tasters: exact answers for triangle and paired-comparison tests.
//!
//! A taster who cannot tell the samples apart guesses right with a fixed chance p₀; of the others a
//! share d, the discriminators, is always right (Abbott's formula): `p = p₀ + (1 - p₀) d`. The count
//! of right answers is then binomial, and every figure here is a sum of exact binomial terms, not a
//! normal approximation.
//!
//! Not finding a difference is not finding similarity: the two are separate questions with separate
//! risks, α of claiming a difference that is not there and β of missing one that is.
//!
//! # Source
//! ISO 4120:2021, Sensory analysis, triangle test; ISO 5495:2005, paired comparison test (the methods;
//! the tables of the standards were not at hand, so that every number is computed).

use serde::Serialize;

use super::student::ln_gamma;
use crate::physics::PhysicsError;
use crate::physics::solve::root;

/// The largest panel that is answered: beyond it no kitchen and no survey goes.
pub const MOST_TASTERS: u32 = 10_000;
/// The largest panel that is planned: a question that needs more is put wrongly.
pub const MOST_PLANNED: u32 = 2_000;
/// The share of discriminators is found to within this.
const SHARE_TOLERANCE: f64 = 1e-10;

/// How the samples are put before the tasters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Design {
    /// Three samples, two alike: which is the odd one?
    Triangle,
    /// Two samples, one named attribute: which has more of it? The direction was expected before.
    PairedOneSided,
    /// Two samples, one named attribute, and either may have more of it.
    PairedTwoSided,
}

/// Why a panel has no answer.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum PanelError {
    /// No tasters, or more than are answered.
    #[error("{tasters} tasters: from 1 to {limit} are answered")]
    Tasters {
        /// How many.
        tasters: u32,
        /// The most that are answered.
        limit: u32,
    },
    /// More right answers than tasters.
    #[error("{correct} right answers of {tasters} tasters")]
    Correct {
        /// Right answers.
        correct: u32,
        /// Tasters.
        tasters: u32,
    },
    /// A risk that is no chance between 0 and one half.
    #[error("a risk of {0} does not lie between 0 and 0.5")]
    Risk(f64),
    /// A share of discriminators that is not above 0 and at most 1.
    #[error("a share of {0} does not lie above 0 and up to 1")]
    Share(f64),
}

impl Design {
    /// Returns the chance of being right by guessing.
    pub const fn guess(self) -> f64 {
        match self {
            Self::Triangle => 1.0 / 3.0,
            Self::PairedOneSided | Self::PairedTwoSided => 0.5,
        }
    }

    /// Returns the chance of a right answer when a share of the tasters can tell: `p₀ + (1 - p₀) d`.
    fn right(self, share: f64) -> f64 {
        self.guess() + (1.0 - self.guess()) * share
    }

    /// Returns the share of tasters who can tell behind a chance of a right answer.
    fn share(self, right: f64) -> f64 {
        ((right - self.guess()) / (1.0 - self.guess())).clamp(0.0, 1.0)
    }
}

/// A panel: how many taste, and how they are asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Panel {
    design: Design,
    tasters: u32,
}

/// How large a panel must be.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Needed {
    /// How many tasters.
    pub tasters: u32,
    /// From how many right answers on a difference is found.
    pub correct: u32,
}

impl Panel {
    /// Makes a panel.
    ///
    /// # Errors
    /// [`PanelError::Tasters`] for none, or more than [`MOST_TASTERS`].
    pub fn new(design: Design, tasters: u32) -> Result<Self, PanelError> {
        if (1..=MOST_TASTERS).contains(&tasters) {
            Ok(Self { design, tasters })
        } else {
            Err(PanelError::Tasters { tasters, limit: MOST_TASTERS })
        }
    }

    /// Returns how many taste.
    pub const fn tasters(&self) -> u32 {
        self.tasters
    }

    /// Returns the count that is judged: right answers, or the larger side when either may be chosen.
    ///
    /// # Errors
    /// [`PanelError::Correct`] for more right answers than tasters.
    pub fn judged(&self, correct: u32) -> Result<u32, PanelError> {
        let others = self
            .tasters
            .checked_sub(correct)
            .ok_or(PanelError::Correct { correct, tasters: self.tasters })?;
        Ok(if self.design == Design::PairedTwoSided { correct.max(others) } else { correct })
    }

    /// Returns the chance that guessing alone gives this count or a more extreme one.
    ///
    /// `p = P(X ≥ c)`; for the two-sided test the chance that either side reaches c.
    ///
    /// # Errors
    /// [`PanelError::Correct`] for more right answers than tasters.
    pub fn p_value(&self, correct: u32) -> Result<f64, PanelError> {
        Ok(self.reaches(self.judged(correct)?, self.design.guess()))
    }

    /// Returns the least count that finds a difference at the risk α, if any count does.
    ///
    /// # Errors
    /// [`PanelError::Risk`].
    pub fn least_for_difference(&self, alpha: f64) -> Result<Option<u32>, PanelError> {
        let alpha = risk(alpha)?;
        let guess = self.design.guess();
        Ok(self.first(|count| self.reaches(count, guess) <= alpha))
    }

    /// Returns the greatest count that still shows that fewer than a share can tell, at the risk β:
    /// the largest x with `P(X ≤ x | d) ≤ β`; none when x would lie below what guessing gives.
    ///
    /// # Errors
    /// [`PanelError::Risk`] or [`PanelError::Share`].
    pub fn most_for_similarity(&self, share: f64, beta: f64) -> Result<Option<u32>, PanelError> {
        let (share, beta) = (self::share(share)?, risk(beta)?);
        let right = self.design.right(share);
        let above = self.first(|count| 1.0 - self.reaches(count + 1, right) > beta);
        let most = above.unwrap_or(self.tasters).checked_sub(1);
        let chance = self.design.guess() * f64::from(self.tasters);
        Ok(most.filter(|most| f64::from(*most) >= chance))
    }

    /// Returns the chance that the test at the risk α finds a difference that a share can tell.
    ///
    /// # Errors
    /// [`PanelError::Risk`] or [`PanelError::Share`].
    pub fn power(&self, alpha: f64, share: f64) -> Result<f64, PanelError> {
        let right = self.design.right(self::share(share)?);
        let least = self.least_for_difference(alpha)?;
        Ok(least.map_or(0.0, |least| self.reaches(least, right)))
    }

    /// Returns the largest share of tasters who can tell that this count leaves open at the risk β:
    /// the d with `P(X ≤ c | d) = β`, the exact upper confidence limit.
    ///
    /// # Errors
    /// [`PanelError::Correct`] or [`PanelError::Risk`].
    ///
    /// # Source
    /// C. J. Clopper and E. S. Pearson, The use of confidence or fiducial limits illustrated in the
    /// case of the binomial, Biometrika 26, 1934 (from memory).
    pub fn could_miss(&self, correct: u32, beta: f64) -> Result<f64, PanelError> {
        let (count, beta) = (self.judged(correct)?, risk(beta)?);
        let open = |right: f64| 1.0 - self.reaches(count + 1, right) - beta;
        let guess = self.design.guess();
        if count == self.tasters {
            return Ok(1.0);
        }
        if open(guess) <= 0.0 {
            return Ok(0.0);
        }
        let found: Result<f64, PhysicsError> =
            root("share of tasters", guess, 1.0, SHARE_TOLERANCE, open);
        // The chance falls from above β to zero over the bracket, so that a root is always found.
        Ok(found.map_or(1.0, |right| self.design.share(right)))
    }

    /// Returns the chance that the judged count reaches `count` when an answer is right with a chance.
    fn reaches(&self, count: u32, right: f64) -> f64 {
        match self.design {
            Design::Triangle | Design::PairedOneSided => self.at_least(count, right),
            // Both sides cannot reach more than half at once.
            Design::PairedTwoSided if 2 * count > self.tasters => {
                self.at_least(count, right) + self.at_least(count, 1.0 - right)
            }
            Design::PairedTwoSided => 1.0,
        }
    }

    /// Returns `P(X ≥ count)` for a binomial X, by summing its terms.
    ///
    /// `P(X = k) = n! / (k! (n - k)!) p^k (1 - p)^(n - k)`.
    fn at_least(&self, count: u32, right: f64) -> f64 {
        if count == 0 {
            return 1.0;
        }
        let n = f64::from(self.tasters);
        if right <= 0.0 || count > self.tasters {
            return 0.0;
        }
        if right >= 1.0 {
            return 1.0;
        }
        let term = |k: u32| {
            let k = f64::from(k);
            let ways = ln_gamma(n + 1.0) - ln_gamma(k + 1.0) - ln_gamma(n - k + 1.0);
            (ways + k * right.ln() + (n - k) * (-right).ln_1p()).exp()
        };
        // The shorter tail is summed, so that a chance near one loses no digits near zero.
        if f64::from(count) > n * right {
            (count..=self.tasters).map(term).sum::<f64>().min(1.0)
        } else {
            (1.0 - (0..count).map(term).sum::<f64>()).max(0.0)
        }
    }

    /// Returns the first count from 0 to all for which something holds that stays true from there.
    fn first(&self, holds: impl Fn(u32) -> bool) -> Option<u32> {
        let (mut low, mut high) = (0, self.tasters + 1);
        while low < high {
            let middle = u32::midpoint(low, high);
            if holds(middle) { high = middle } else { low = middle + 1 }
        }
        (low <= self.tasters).then_some(low)
    }
}

/// Returns the smallest panel that keeps both risks: α of claiming a difference that is not there,
/// β of missing one that a share can tell.
///
/// # Errors
/// [`PanelError::Risk`] or [`PanelError::Share`]; [`PanelError::Tasters`] when [`MOST_PLANNED`] are
/// not enough.
pub fn tasters_needed(
    design: Design,
    alpha: f64,
    beta: f64,
    share: f64,
) -> Result<Needed, PanelError> {
    let (alpha, beta, share) = (risk(alpha)?, risk(beta)?, self::share(share)?);
    for tasters in 1..=MOST_PLANNED {
        let panel = Panel { design, tasters };
        if let Some(correct) = panel.least_for_difference(alpha)?
            && 1.0 - panel.reaches(correct, design.right(share)) <= beta
        {
            return Ok(Needed { tasters, correct });
        }
    }
    Err(PanelError::Tasters { tasters: MOST_PLANNED + 1, limit: MOST_PLANNED })
}

fn risk(value: f64) -> Result<f64, PanelError> {
    if value > 0.0 && value <= 0.5 { Ok(value) } else { Err(PanelError::Risk(value)) }
}

fn share(value: f64) -> Result<f64, PanelError> {
    if value > 0.0 && value <= 1.0 { Ok(value) } else { Err(PanelError::Share(value)) }
}
