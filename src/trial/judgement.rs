//! What a panel of tasters showed, with both questions answered: difference and similarity.

use serde::Serialize;

use super::panel::{Design, Needed, Panel, PanelError, tasters_needed};

/// What is asked of a panel before it tastes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Question {
    /// How the samples are put.
    pub design: Design,
    /// The risk α of claiming a difference that is not there.
    pub alpha: f64,
    /// The risk β of missing a difference.
    pub beta: f64,
    /// The share of tasters who notice a difference that matters.
    pub share: f64,
}

/// What came of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Conclusion {
    /// The samples were told apart.
    Different,
    /// They were told apart, but by fewer than the share that matters.
    DifferentForFew,
    /// Fewer than the share that matters notice a difference.
    Similar,
    /// Neither was shown.
    Inconclusive,
}

/// The answer of a panel that has tasted.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Judgement {
    /// What came of it.
    pub conclusion: Conclusion,
    /// Right answers, or the larger side.
    pub judged: u32,
    /// The chance that guessing gives as much.
    pub p_value: f64,
    /// The largest share of people who notice a difference that the result leaves open.
    pub could_miss_fraction: f64,
}

/// What a panel can show.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Reach {
    /// Tasters.
    pub tasters: u32,
    /// From how many right answers on there is a difference; none if all are too few.
    pub least_for_difference: Option<u32>,
    /// Up to how many right answers there is similarity; none if no count shows it.
    pub most_for_similarity: Option<u32>,
    /// The chance to find a difference that the share notices.
    pub power_fraction: f64,
}

impl Question {
    /// Returns what a panel of a size can show.
    ///
    /// # Errors
    /// [`PanelError`] for a size, a risk or a share that cannot be.
    pub fn reach(&self, tasters: u32) -> Result<Reach, PanelError> {
        let panel = Panel::new(self.design, tasters)?;
        Ok(Reach {
            tasters,
            least_for_difference: panel.least_for_difference(self.alpha)?,
            most_for_similarity: panel.most_for_similarity(self.share, self.beta)?,
            power_fraction: panel.power(self.alpha, self.share)?,
        })
    }

    /// Returns the smallest panel that keeps both risks; none up to the largest that is planned.
    ///
    /// # Errors
    /// [`PanelError::Risk`] or [`PanelError::Share`].
    pub fn needed(&self) -> Result<Option<Needed>, PanelError> {
        match tasters_needed(self.design, self.alpha, self.beta, self.share) {
            Ok(needed) => Ok(Some(needed)),
            Err(PanelError::Tasters { .. }) => Ok(None),
            Err(error) => Err(error),
        }
    }

    /// Judges a panel by its count of right answers.
    ///
    /// # Errors
    /// [`PanelError`] for a count, a size, a risk or a share that cannot be.
    pub fn judge(&self, tasters: u32, correct: u32) -> Result<Judgement, PanelError> {
        let panel = Panel::new(self.design, tasters)?;
        let judged = panel.judged(correct)?;
        let reach = self.reach(tasters)?;
        let different = reach.least_for_difference.is_some_and(|least| judged >= least);
        let similar = reach.most_for_similarity.is_some_and(|most| judged <= most);
        Ok(Judgement {
            conclusion: match (different, similar) {
                (true, true) => Conclusion::DifferentForFew,
                (true, false) => Conclusion::Different,
                (false, true) => Conclusion::Similar,
                (false, false) => Conclusion::Inconclusive,
            },
            judged,
            p_value: panel.p_value(correct)?,
            could_miss_fraction: panel.could_miss(correct, self.beta)?,
        })
    }
}

/// Returns the success rate that a run of trials without a failure supports at 95 %: `0.05^(1/n)`.
///
/// # Source
/// The exact lower confidence limit of a binomial share when all succeed: C. J. Clopper and
/// E. S. Pearson, Biometrika 26, 1934 (from memory).
pub fn success_at_least(clean: u32) -> f64 {
    const RISK: f64 = 0.05;
    if clean == 0 { 0.0 } else { RISK.powf(1.0 / f64::from(clean)) }
}

#[cfg(test)]
mod tests {
    use super::*;

    const QUESTION: Question =
        Question { design: Design::Triangle, alpha: 0.05, beta: 0.05, share: 0.3 };

    #[test]
    fn fourteen_of_thirty_show_neither_difference_nor_similarity() {
        let judged = QUESTION.judge(30, 14).unwrap();
        assert_eq!(judged.conclusion, Conclusion::Inconclusive);
        assert!((judged.p_value - 0.0898).abs() < 5e-5);
    }

    #[test]
    fn each_conclusion_is_reached() {
        let conclusion = |tasters, correct| QUESTION.judge(tasters, correct).unwrap().conclusion;
        assert_eq!(conclusion(30, 15), Conclusion::Different);
        assert_eq!(conclusion(30, 11), Conclusion::Similar);
        assert_eq!(conclusion(1000, 365), Conclusion::DifferentForFew);
    }

    #[test]
    fn clean_runs_prove_little() {
        // 0.05^(1/3) and 0.05^(1/14), by hand.
        assert!((success_at_least(3) - 0.3684).abs() < 1e-4);
        assert!((success_at_least(14) - 0.8074).abs() < 1e-4);
        assert!(success_at_least(0) <= 0.0);
    }
}
