//! How far a verdict can move because only the first of all samples were run.

use crate::advisor::score::{verdict, worse_by};
use crate::advisor::{Score, Simulated, Term, Verdict};
use crate::knowledge::{Attribute, Knowledge};
use crate::process::attribute::measure;

/// The best and the worst verdict that a method may come to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Bounds {
    /// With every median moved to its better side.
    pub(super) best: Verdict,
    /// With every median moved to its worse side.
    pub(super) worst: Verdict,
}

/// What a method came to on the first samples.
#[derive(Clone, Copy)]
pub(super) struct Known<'a> {
    /// The laboratory.
    pub(super) laboratory: &'a Simulated,
    /// The method.
    pub(super) home: &'a Simulated,
    /// Its score on these samples.
    pub(super) score: &'a Score,
    /// The number of all samples.
    pub(super) all: usize,
}

/// A median of the first samples, and the two samples between which that of all should lie.
#[derive(Clone, Copy)]
struct Middle {
    low: f64,
    typical: f64,
    high: f64,
}

/// Returns the bounds of the verdict on a method.
///
/// The median of all `N` samples lies between those of the first `n` whose ranks are `deviations`
/// standard deviations below and above the middle, `√n / 2 · √((N - n) / (N - 1))` each, whatever the
/// distribution: the hypergeometric count of samples below the median, W. G. Cochran, Sampling
/// Techniques (1977), section 3.2, on the ranks of W. J. Conover, Practical Nonparametric Statistics
/// (1999), section 3.2. The laboratory's median and the method's are moved in turn.
pub(super) fn bounds(known: &Known<'_>, deviations: f64, knowledge: &Knowledge) -> Bounds {
    let mut shorts: Vec<(f64, f64)> = Vec::new();
    for term in &known.score.goals {
        let attribute = knowledge.attributes.get(&term.attribute);
        let middles = known.middles(&term.attribute, deviations);
        shorts.push(match (attribute, middles) {
            (Some(attribute), Some((laboratory, home))) => {
                around(laboratory, home, |laboratory, home| {
                    Term { laboratory, ..term.clone() }.short_with(attribute, home)
                })
            }
            _ => (term.short, term.short),
        });
    }
    let (mut low, mut high) = (0.0_f64, 0.0_f64);
    for one in known.score.comparisons.iter().filter(|comparison| comparison.counts) {
        let steps = |attribute: &Attribute| {
            let (laboratory, home) = known.middles(&one.attribute, deviations)?;
            Some(around(laboratory, home, |laboratory, home| worse_by(attribute, laboratory, home)))
        };
        let attribute = knowledge.attributes.get(&one.attribute);
        let (least, most) = attribute.and_then(steps).unwrap_or((one.steps, one.steps));
        low = low.max(least);
        high = high.max(most);
    }
    let (least, most): (Vec<f64>, Vec<f64>) = shorts.into_iter().unzip();
    Bounds { best: verdict(&least, low), worst: verdict(&most, high) }
}

/// The standard deviation, in ranks, of a median of `count` samples out of `all`.
pub(super) fn rank_deviation(count: usize, all: usize) -> f64 {
    let (count, all) = (count as f64, all as f64);
    let left = ((all - count) / (all - 1.0).max(1.0)).max(0.0);
    count.sqrt() / 2.0 * left.sqrt()
}

impl Known<'_> {
    /// The medians of an attribute in the laboratory and at home.
    fn middles(&self, attribute: &str, deviations: f64) -> Option<(Middle, Middle)> {
        let laboratory = middle(self.laboratory, attribute, deviations, self.all)?;
        Some((laboratory, middle(self.home, attribute, deviations, self.all)?))
    }
}

fn middle(simulated: &Simulated, attribute: &str, deviations: f64, all: usize) -> Option<Middle> {
    let pairs = simulated.feeds.iter().zip(&simulated.products);
    let results = pairs.map(|(feed, product)| measure(attribute, feed, product));
    let mut results = results.collect::<Option<Vec<f64>>>()?;
    results.sort_unstable_by(f64::total_cmp);
    let reach = deviations * rank_deviation(results.len(), all);
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "not negative, and a rank of a short list"
    )]
    let below = (results.len() as f64 / 2.0 - reach).floor().max(0.0) as usize;
    let above = results.len().checked_sub(below + 1)?;
    let half = results.len() / 2;
    let typical = f64::midpoint(*results.get(results.len().checked_sub(half + 1)?)?, results[half]);
    Some(Middle { low: *results.get(below.min(above))?, typical, high: results[below.max(above)] })
}

/// Returns the least and the most of a function with either median moved to either side.
fn around(laboratory: Middle, home: Middle, of: impl Fn(f64, f64) -> f64) -> (f64, f64) {
    let all = [
        of(laboratory.typical, home.typical),
        of(laboratory.typical, home.low),
        of(laboratory.typical, home.high),
        of(laboratory.low, home.typical),
        of(laboratory.high, home.typical),
    ];
    let least = all.iter().copied().fold(f64::INFINITY, f64::min);
    (least, all.into_iter().fold(f64::NEG_INFINITY, f64::max))
}
