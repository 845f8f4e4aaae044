//! Ranking: what reaches the goal first, then the least loss, then the least time.
//!
//! One order serves a single step and a whole dish: a [`Mark`] holds what a way of doing it comes to,
//! and two marks are compared criterion by criterion. Nothing is added up with weights.

use std::cmp::Ordering;

use super::{Cost, Method, Score, Verdict};

/// Losses are compared in steps of this size, rounded, and the next criterion decides between like
/// ones [noticed steps]. What nobody notices, one step, lies in the middle of such a step.
const ALIKE_STEPS: f64 = 0.5;
/// A loss at typical values that is greater by this much stays greater on samples [noticed steps].
/// Estimate: medians lie within a noticed step of the result at typical values.
const CLEAR_STEPS: f64 = 1.5;
/// Of large losses, so large a share of them.
const CLEAR_SHARE: f64 = 0.25;
/// Times within this ratio count as alike: the spread of any computed time is wider.
const ALIKE_TIMES: f64 = 1.1;
/// Times below this are alike \[s\]: nobody plans by less than a minute.
const LEAST_TIME: f64 = 60.0;

/// What a cook wants most, once everything reaches its goal.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Prefer {
    /// The least loss.
    #[default]
    Flavour,
    /// The least time from start to end.
    Time,
    /// The least attended time.
    Effort,
    /// The least money for what is used up.
    Cost,
}

/// One criterion of the order.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Criterion {
    /// Every step has a route that works on what it gets.
    Served,
    /// The first goal of every step is reached.
    Reached,
    /// The whole is done within the time asked for; beyond it, the faster comes first.
    Within,
    /// What is made comes before what is bought ready-made, whose quality is stated, not computed.
    Made,
    /// Short of a goal that is not reached by as little as possible.
    Short,
    /// The verdict on the worst step.
    Verdict,
    /// The worst loss of a step, then the next worst, in halves of a noticed step.
    Loss,
    /// Time from start to end, within a tenth.
    Time,
    /// Attended time, within a tenth.
    Effort,
    /// Money for what is used up.
    Cost,
}

impl Prefer {
    /// Returns the criteria in the order in which they decide.
    pub const fn order(self) -> [Criterion; 10] {
        use Criterion::{Cost, Effort, Loss, Made, Reached, Served, Short, Time, Verdict, Within};
        match self {
            Self::Flavour => {
                [Served, Reached, Within, Made, Short, Verdict, Loss, Time, Effort, Cost]
            }
            Self::Time => [Served, Reached, Within, Made, Short, Verdict, Time, Loss, Effort, Cost],
            Self::Effort => {
                [Served, Reached, Within, Made, Short, Verdict, Effort, Loss, Time, Cost]
            }
            Self::Cost => [Served, Reached, Within, Made, Short, Verdict, Cost, Loss, Time, Effort],
        }
    }

    /// Returns the word for it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Flavour => "flavour",
            Self::Time => "time",
            Self::Effort => "effort",
            Self::Cost => "cost",
        }
    }
}

/// What a route makes of one professional step.
#[derive(Debug, Clone, PartialEq)]
pub struct StepMark {
    /// What the step makes.
    pub product: String,
    /// The verdict.
    pub verdict: Verdict,
    /// Whether it is bought rather than made.
    pub bought: bool,
    /// Short of the first goal, when that is not reached [noticed steps].
    pub short: f64,
    /// The worst loss among what counts [noticed steps].
    pub worst: f64,
    /// The attribute of the worst loss.
    pub attribute: Option<String>,
}

impl StepMark {
    /// Takes the mark out of a score.
    pub fn of(product: &str, score: &Score, bought: bool) -> Self {
        let counting = score.comparisons.iter().filter(|comparison| comparison.counts);
        let worst = counting.max_by(|a, b| a.steps.total_cmp(&b.steps));
        let essential = score.goals.first().map_or(0.0, |term| term.short);
        Self {
            product: product.to_owned(),
            verdict: score.verdict,
            bought,
            short: if score.verdict == Verdict::No { essential } else { 0.0 },
            worst: score.worst,
            attribute: worst.map(|comparison| comparison.attribute.clone()),
        }
    }
}

/// What a way of doing one step, or a whole dish, comes to.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Mark {
    /// The professional steps that a route does.
    pub steps: Vec<StepMark>,
    /// What the steps make for which no route works.
    pub unserved: Vec<String>,
    /// Time from start to end at the median \[s\].
    pub time: f64,
    /// Time beyond the limit asked for \[s\]; zero when there is none.
    pub over: f64,
    /// Attended time at the median \[s\].
    pub effort: f64,
    /// What is used up.
    pub cost: Cost,
}

impl Mark {
    /// Makes the mark of a method alone.
    pub fn of_method(product: &str, method: &Method) -> Self {
        Self {
            steps: vec![StepMark::of(product, &method.score, method.bought)],
            unserved: Vec::new(),
            time: method.score.time,
            over: 0.0,
            effort: method.simulated.attended().map_or(0.0, |time| time.typical()),
            cost: method.cost.clone(),
        }
    }

    /// Returns the verdict: the worst of the steps.
    pub fn verdict(&self) -> Verdict {
        let worst = self.steps.iter().map(|step| step.verdict).max();
        if self.unserved.is_empty() { worst.unwrap_or(Verdict::AsWritten) } else { Verdict::No }
    }

    /// Returns the losses of the steps, the worst first, in halves of a noticed step.
    fn losses(&self) -> Vec<f64> {
        let mut losses: Vec<f64> = self.steps.iter().map(|step| halves(step.worst)).collect();
        losses.sort_by(|a, b| b.total_cmp(a));
        losses
    }

    /// Returns the sum over the steps of what is not reached.
    fn count(&self, of: impl Fn(&StepMark) -> bool) -> usize {
        self.steps.iter().filter(|step| of(step)).count()
    }

    fn most(&self, of: impl Fn(&StepMark) -> f64) -> f64 {
        self.steps.iter().map(of).fold(0.0, f64::max)
    }

    /// Compares two marks by one criterion, the better first.
    pub fn by(&self, other: &Self, criterion: Criterion) -> Ordering {
        let count = |of: fn(&StepMark) -> bool| self.count(of).cmp(&other.count(of));
        match criterion {
            Criterion::Served => self.unserved.len().cmp(&other.unserved.len()),
            Criterion::Reached => count(|step| step.verdict == Verdict::No),
            Criterion::Within => self.over.total_cmp(&other.over),
            Criterion::Made => count(|step| step.bought),
            Criterion::Short => {
                let short = |mark: &Self| mark.most(|step| halves(step.short));
                short(self).total_cmp(&short(other))
            }
            Criterion::Verdict => self.verdict().cmp(&other.verdict()),
            Criterion::Loss => {
                let (own, others) = (self.losses(), other.losses());
                let each = own.iter().zip(&others).map(|(a, b)| a.total_cmp(b));
                each.fold(Ordering::Equal, Ordering::then)
            }
            Criterion::Time => tenths(self.time).total_cmp(&tenths(other.time)),
            Criterion::Effort => tenths(self.effort).total_cmp(&tenths(other.effort)),
            Criterion::Cost => self.cost.money.typical().total_cmp(&other.cost.money.typical()),
        }
    }

    /// Compares two marks in the order of what is preferred; the criterion is the one that decided.
    pub fn compare(&self, other: &Self, prefer: Prefer) -> (Ordering, Option<Criterion>) {
        for criterion in prefer.order() {
            let ordering = self.by(other, criterion);
            if ordering.is_ne() {
                return (ordering, Some(criterion));
            }
        }
        (Ordering::Equal, None)
    }

    /// Returns whether a mark at typical values is worse than a better one by more than samples can
    /// make up for, in the order of quality.
    pub(super) fn is_clearly_worse(&self, best: &Self) -> bool {
        let unreached = |mark: &Self| mark.count(|step| step.verdict == Verdict::No);
        let short = |mark: &Self| mark.most(|step| step.short);
        let bought = |mark: &Self| mark.count(|step| step.bought);
        let worst = |mark: &Self| mark.most(|step| step.worst);
        let clearly = |one: f64, other: f64| one - other > CLEAR_STEPS.max(CLEAR_SHARE * other);
        if self.unserved.len() != best.unserved.len() {
            return self.unserved.len() > best.unserved.len();
        }
        if unreached(self) != unreached(best) {
            return unreached(self) > unreached(best) && clearly(short(self), 1.0);
        }
        if bought(self) != bought(best) {
            return bought(self) > bought(best);
        }
        clearly(short(self), short(best))
            || (halves(short(self)) >= halves(short(best)) && clearly(worst(self), worst(best)))
    }

    /// Returns the step whose loss is the worst.
    pub fn worst_step(&self) -> Option<&StepMark> {
        self.steps.iter().max_by(|a, b| a.worst.total_cmp(&b.worst))
    }
}

fn halves(steps: f64) -> f64 {
    (steps / ALIKE_STEPS).round()
}

fn tenths(seconds: f64) -> f64 {
    (seconds.max(LEAST_TIME).ln() / ALIKE_TIMES.ln()).round()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn step(verdict: Verdict, worst: f64) -> StepMark {
        let product = "syrup".to_owned();
        StepMark { product, verdict, bought: false, short: 0.0, worst, attribute: None }
    }

    fn mark(steps: &[(Verdict, f64)], hours: f64) -> Mark {
        let steps = steps.iter().map(|(verdict, worst)| step(*verdict, *worst)).collect();
        Mark { steps, time: hours * 3600.0, ..Mark::default() }
    }

    #[test]
    fn the_next_worst_loss_decides_between_equal_worst_ones() {
        let (a, b) = (
            mark(&[(Verdict::RealLoss, 9.0), (Verdict::SmallLoss, 1.2)], 5.0),
            mark(&[(Verdict::RealLoss, 9.0), (Verdict::SmallLoss, 2.4)], 1.0),
        );
        assert_eq!(a.compare(&b, Prefer::Flavour), (Ordering::Less, Some(Criterion::Loss)));
        assert_eq!(a.compare(&b, Prefer::Time), (Ordering::Greater, Some(Criterion::Time)));
    }

    #[test]
    fn no_preference_gives_up_a_verdict_or_a_goal() {
        let (slow, fast) =
            (mark(&[(Verdict::SmallLoss, 2.0)], 30.0), mark(&[(Verdict::RealLoss, 4.0)], 1.0));
        for prefer in [Prefer::Flavour, Prefer::Time, Prefer::Effort, Prefer::Cost] {
            let (ordering, by) = slow.compare(&fast, prefer);
            assert_eq!((ordering, by), (Ordering::Less, Some(Criterion::Verdict)), "{prefer:?}");
        }
    }

    #[test]
    fn beyond_the_limit_the_faster_comes_first() {
        let over =
            |hours: f64, over: f64| Mark { over, ..mark(&[(Verdict::AsWritten, 0.0)], hours) };
        let (slow, fast) = (over(9.0, 3600.0), over(8.0, 60.0));
        assert_eq!(fast.compare(&slow, Prefer::Flavour), (Ordering::Less, Some(Criterion::Within)));
    }
}
