//! How far a verdict can move because only some samples were drawn.

use crate::advisor::score::{verdict, worse_by};
use crate::advisor::{Method, Term, Verdict};
use crate::estimate::Estimate;
use crate::knowledge::Knowledge;
use crate::process::attribute::measure;

/// The best and the worst verdict that a method may come to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Bounds {
    /// With every median moved to its better side.
    pub(super) best: Verdict,
    /// With every median moved to its worse side.
    pub(super) worst: Verdict,
}

/// The distance from the 10th to the 90th percentile of a normal distribution in standard
/// deviations: 2 × 1.2816.
const DEVIATIONS_IN_RANGE: f64 = 2.5631;
/// The standard error of a median in those of a mean, normal distribution: √(π/2).
const MEDIAN_OVER_MEAN: f64 = 1.2533;
/// The bounds lie this many standard errors from the medians.
const STANDARD_ERRORS: f64 = 3.0;

/// Returns the bounds of the verdict on a method that was run on so many samples.
pub(super) fn bounds(method: &Method, samples: usize, knowledge: &Knowledge) -> Bounds {
    let error = |range: &Estimate| {
        let deviation = (range.high() - range.low()) / DEVIATIONS_IN_RANGE;
        STANDARD_ERRORS * MEDIAN_OVER_MEAN * deviation / (samples as f64).sqrt()
    };
    let mut shorts: Vec<(f64, f64)> = Vec::new();
    for term in &method.score.goals {
        shorts.push(short(term, method, knowledge, error));
    }
    let (mut low, mut high) = (0.0_f64, 0.0_f64);
    for one in method.score.comparisons.iter().filter(|comparison| comparison.counts) {
        let Some(attribute) = knowledge.attributes.get(&one.attribute) else { continue };
        let steps = |home| worse_by(attribute, one.laboratory.typical(), home);
        let (least, most) = around(one.home.typical(), error(&one.home), steps);
        low = low.max(least);
        high = high.max(most);
    }
    let (least, most): (Vec<f64>, Vec<f64>) = shorts.into_iter().unzip();
    Bounds { best: verdict(&least, low), worst: verdict(&most, high) }
}

fn short(
    term: &Term,
    method: &Method,
    knowledge: &Knowledge,
    error: impl Fn(&Estimate) -> f64,
) -> (f64, f64) {
    let range = method.simulated.range(|feed, product| measure(&term.attribute, feed, product));
    match (knowledge.attributes.get(&term.attribute), range) {
        (Some(attribute), Some(range)) => {
            around(term.result, error(&range), |result| term.short_with(attribute, result))
        }
        _ => (term.short, term.short),
    }
}

/// Returns the least and the most of a function at a place and an error to both sides of it.
fn around(place: f64, error: f64, of: impl Fn(f64) -> f64) -> (f64, f64) {
    let all = [of(place - error), of(place), of(place + error)];
    let least = all.iter().copied().fold(f64::INFINITY, f64::min);
    (least, all.into_iter().fold(f64::NEG_INFINITY, f64::max))
}
