//! How far a verdict can move because only some samples were drawn.

use crate::advisor::score::{verdict, worse_by};
use crate::advisor::{Method, Term, Verdict};
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

/// Returns the bounds of the verdict on a method.
///
/// A median lies between the samples whose ranks are `deviations` standard deviations of the binomial
/// distribution, √n / 2 each, below and above the middle, whatever the distribution: W. J. Conover,
/// Practical Nonparametric Statistics (1999), section 3.2. The strata of a Latin hypercube only
/// narrow it.
pub(super) fn bounds(method: &Method, deviations: f64, knowledge: &Knowledge) -> Bounds {
    let mut shorts: Vec<(f64, f64)> = Vec::new();
    for term in &method.score.goals {
        shorts.push(short(term, method, deviations, knowledge));
    }
    let (mut low, mut high) = (0.0_f64, 0.0_f64);
    for one in method.score.comparisons.iter().filter(|comparison| comparison.counts) {
        let Some(attribute) = knowledge.attributes.get(&one.attribute) else { continue };
        let steps = |home| worse_by(attribute, one.laboratory.typical(), home);
        let (least, most) = match median(method, &one.attribute, deviations) {
            Some(median) => around(one.home.typical(), median, steps),
            None => (one.steps, one.steps),
        };
        low = low.max(least);
        high = high.max(most);
    }
    let (least, most): (Vec<f64>, Vec<f64>) = shorts.into_iter().unzip();
    Bounds { best: verdict(&least, low), worst: verdict(&most, high) }
}

fn short(term: &Term, method: &Method, deviations: f64, knowledge: &Knowledge) -> (f64, f64) {
    let median = median(method, &term.attribute, deviations);
    match (knowledge.attributes.get(&term.attribute), median) {
        (Some(attribute), Some(median)) => {
            around(term.result, median, |result| term.short_with(attribute, result))
        }
        _ => (term.short, term.short),
    }
}

/// Returns the samples between which the median of an attribute lies.
fn median(method: &Method, attribute: &str, deviations: f64) -> Option<(f64, f64)> {
    let pairs = method.simulated.feeds.iter().zip(&method.simulated.products);
    let results = pairs.map(|(feed, product)| measure(attribute, feed, product));
    let mut results = results.collect::<Option<Vec<f64>>>()?;
    results.sort_by(f64::total_cmp);
    let count = results.len() as f64;
    let reach = deviations * count.sqrt() / 2.0;
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "not negative, and a rank of a short list"
    )]
    let below = (count / 2.0 - reach).floor().max(0.0) as usize;
    let low = results.get(below)?;
    let high = results.get(results.len().checked_sub(below + 1)?)?;
    Some((*low, *high))
}

/// Returns the least and the most of a function at a place and at both ends of a range around it.
fn around(place: f64, (low, high): (f64, f64), of: impl Fn(f64) -> f64) -> (f64, f64) {
    let all = [of(low), of(place), of(high)];
    let least = all.iter().copied().fold(f64::INFINITY, f64::min);
    (least, all.into_iter().fold(f64::NEG_INFINITY, f64::max))
}
