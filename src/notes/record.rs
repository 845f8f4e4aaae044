//! The testing record: what trials of a recipe found, with the spread of what they measured.

use std::collections::BTreeMap;

use crate::trial::calibrate::{TIME, YIELD};
use crate::trial::judgement::success_at_least;
use crate::trial::written::Verdict;
use crate::trial::{MeasuredStep, Trial};

/// What the trials of a recipe found.
#[derive(Debug)]
pub struct Record<'a> {
    /// The trials in the order of their start.
    pub trials: Vec<&'a Trial>,
    /// How many came to which verdict.
    pub verdicts: Vec<(Verdict, usize)>,
    /// The last trials without a fault, of one text.
    pub clean_run: u32,
    /// The success rate that the run supports at 95 %.
    pub success_at_least: f64,
    /// What was measured, by step, route and quantity.
    pub measured: Vec<Measured<'a>>,
}

/// One quantity as measured.
#[derive(Debug)]
pub struct Measured<'a> {
    /// What the step makes.
    pub product: &'a str,
    /// The route taken; `None` for plain work.
    pub route: Option<&'a str>,
    /// [`TIME`] or the id of an attribute.
    pub quantity: &'a str,
    /// Each trial with its measurement in SI, in the order of the trials.
    pub points: Vec<(&'a str, f64)>,
}

impl Measured<'_> {
    /// Returns the least, the mean and the greatest measurement.
    pub fn spread(&self) -> (f64, f64, f64) {
        let values = || self.points.iter().map(|(_, value)| *value);
        let low = values().fold(f64::INFINITY, f64::min);
        let high = values().fold(f64::NEG_INFINITY, f64::max);
        (low, values().sum::<f64>() / self.points.len().max(1) as f64, high)
    }
}

/// Gathers the testing record of a recipe.
pub(super) fn record(trials: &[Trial]) -> Record<'_> {
    let mut sorted: Vec<&Trial> = trials.iter().collect();
    // Dates as ISO 8601 sort by time within one offset, which is what a team has.
    sorted.sort_by_key(|trial| (trial.start.to_string(), trial.id.clone()));
    let clean_run = clean_run(&sorted);
    Record {
        verdicts: verdicts(&sorted),
        clean_run,
        success_at_least: success_at_least(clean_run),
        measured: measured(&sorted),
        trials: sorted,
    }
}

/// Counts the last trials of one text that passed.
fn clean_run(trials: &[&Trial]) -> u32 {
    let version = trials.last().map(|last| (&last.recipe_version, &last.recipe_sha256));
    let clean = trials.iter().rev().take_while(|trial| {
        matches!(trial.verdict, Verdict::Pass | Verdict::PassWithNote)
            && Some((&trial.recipe_version, &trial.recipe_sha256)) == version
    });
    u32::try_from(clean.count()).unwrap_or(u32::MAX)
}

fn verdicts(trials: &[&Trial]) -> Vec<(Verdict, usize)> {
    let all =
        [Verdict::Pass, Verdict::PassWithNote, Verdict::Retest, Verdict::Fail, Verdict::Discarded];
    let count = |verdict| trials.iter().filter(|trial| trial.verdict == verdict).count();
    all.map(|verdict| (verdict, count(verdict))).into_iter().filter(|(_, n)| *n > 0).collect()
}

type Key<'a> = (&'a str, Option<&'a str>, &'a str);

/// Collects what was measured; a trial that was thrown away says nothing of the dish.
fn measured<'a>(trials: &[&'a Trial]) -> Vec<Measured<'a>> {
    let mut by_key: BTreeMap<Key<'a>, Vec<(&'a str, f64)>> = BTreeMap::new();
    for trial in trials.iter().filter(|trial| trial.verdict != Verdict::Discarded) {
        for step in &trial.steps {
            for (quantity, value) in readings(step) {
                let key = (step.makes.as_str(), step.route.as_deref(), quantity);
                by_key.entry(key).or_default().push((&trial.id, value));
            }
        }
    }
    let each = by_key.into_iter().map(|((product, route, quantity), points)| Measured {
        product,
        route,
        quantity,
        points,
    });
    each.collect()
}

/// What was measured in a step, in SI; the yield follows from the weights unless it was stated.
fn readings(step: &MeasuredStep) -> Vec<(&str, f64)> {
    let mut readings: Vec<(&str, f64)> = Vec::new();
    readings.extend(step.time.si().map(|seconds| (TIME, seconds)));
    let stated = step.measured.iter();
    readings.extend(stated.filter_map(|(name, reading)| Some((name.as_str(), reading.si()?))));
    if !step.measured.contains_key(YIELD)
        && let (Some(before), Some(after)) = (step.mass_in.si(), step.mass_out.si())
        && before > 0.0
    {
        readings.push((YIELD, after / before));
    }
    readings
}
