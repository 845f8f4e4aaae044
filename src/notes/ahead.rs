//! What to begin when: how long before the meal, what stands overnight, and what is left for the day.
//!
//! Read off the plan of the work, whose durations are medians; the careful end of the whole is that
//! of nine samples in ten.

use super::Adapted;
use crate::advisor::Advice;
use crate::advisor::timeline::{TimedTask, Timeline};

/// What stands unattended for so long can stand overnight \[s\]: eight hours, common practice.
const OVERNIGHT: f64 = 8.0 * 3600.0;
/// A shorter wait is not worth a line \[s\].
const WORTH_WAITING: f64 = 3600.0;

/// What to do ahead in one kitchen.
#[derive(Debug, Clone, PartialEq)]
pub struct Ahead<'a> {
    /// From the first move to the dish at the median \[s\].
    pub usual: f64,
    /// The same, nine times in ten at most \[s\].
    pub careful: f64,
    /// Time of the cook \[s\].
    pub hands_on: f64,
    /// What stands by itself for an hour or more, in the order of time.
    pub stands: Vec<Stand<'a>>,
    /// What is left to do after the last night, when there is one; none otherwise.
    pub last: Option<Last<'a>>,
    /// The last professional product, when only plain work follows it.
    pub finished: Option<Last<'a>>,
    /// Products that this kitchen has no route for: their time is in no plan.
    pub missing: Vec<&'a str>,
}

/// Something that stands by itself.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stand<'a> {
    /// What the step makes.
    pub product: &'a str,
    /// What was done to it before it was left.
    pub instruction: &'a str,
    /// How long it stands \[s\].
    pub length: f64,
}

impl Stand<'_> {
    /// Returns whether it is long enough for a night.
    pub fn is_overnight(&self) -> bool {
        self.length >= OVERNIGHT
    }
}

/// The work that is left once a product stands ready.
#[derive(Debug, Clone, PartialEq)]
pub struct Last<'a> {
    /// The product.
    pub product: &'a str,
    /// What is made of it.
    pub makes: Vec<&'a str>,
    /// How long that takes \[s\].
    pub length: f64,
}

/// Reads off a plan what to do ahead.
pub(super) fn ahead<'a>(adapted: &Adapted<'a>) -> Ahead<'a> {
    let timeline = adapted.timeline;
    let stands = stands(timeline);
    let night = stands.iter().rev().find(|(_, stand)| stand.is_overnight());
    let last = night.map(|(at, stand)| left_after(timeline, stand.product, *at));
    let missing = timeline.tasks.iter().filter(|task| task.missing);
    Ahead {
        usual: timeline.total,
        careful: timeline.range.as_ref().map_or(timeline.total, |range| range.high()),
        hands_on: timeline.hands_on(),
        last,
        finished: finished(adapted),
        missing: missing.map(|task| task.product.as_str()).collect(),
        stands: stands.into_iter().map(|(_, stand)| stand).collect(),
    }
}

/// What stands by itself, with the moment at which it is taken up again.
fn stands(timeline: &Timeline) -> Vec<(f64, Stand<'_>)> {
    let mut stands: Vec<(f64, Stand<'_>)> = Vec::new();
    for task in &timeline.tasks {
        for span in task.spans.iter().filter(|span| !span.hands) {
            let length = span.to - span.from;
            if length >= WORTH_WAITING {
                let (product, instruction) = (task.product.as_str(), task.text.as_str());
                stands.push((span.to, Stand { product, instruction, length }));
            }
        }
    }
    stands.sort_by(|a, b| a.0.total_cmp(&b.0));
    stands
}

/// What is left to do from a moment on.
fn left_after<'a>(timeline: &'a Timeline, product: &'a str, at: f64) -> Last<'a> {
    let left = |task: &&TimedTask| task.end() > at && !task.spans.is_empty();
    let mut makes: Vec<&str> =
        timeline.tasks.iter().filter(left).map(|task| task.product.as_str()).collect();
    makes.dedup();
    Last { product, makes, length: timeline.total - at }
}

/// The last professional product with the plain work that follows it; none when a step is missing.
fn finished<'a>(adapted: &Adapted<'a>) -> Option<Last<'a>> {
    let timeline = adapted.timeline;
    let is_professional = |task: &TimedTask| {
        let step = adapted.adaptation.steps.get(task.step);
        step.is_some_and(|step| matches!(step.advice, Advice::Professional(_)))
    };
    if timeline.tasks.iter().any(|task| task.missing) {
        return None;
    }
    let last = timeline.tasks.iter().filter(|task| is_professional(task));
    let last = last.max_by(|a, b| a.end().total_cmp(&b.end()))?;
    Some(left_after(timeline, &last.product, last.end()))
}
