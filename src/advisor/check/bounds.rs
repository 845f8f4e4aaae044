//! How far a verdict can move because not all samples were run.

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

/// What a method came to on a few samples.
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

/// By how much less the ranks of medians of Latin hypercube samples scatter than those of random ones
/// (M. D. McKay, R. J. Beckman & W. J. Conover, Technometrics 21(2):239, 1979: never more for results
/// that rise or fall with every unknown). Measured: 0.44 to 0.65 with 8 to 64 samples, over 1,600
/// results of the example book varied.
const STRATIFIED: f64 = 0.6;

/// A median of a few samples, and the two samples between which that of all should lie.
#[derive(Clone, Copy)]
struct Middle {
    low: f64,
    typical: f64,
    high: f64,
}

/// Returns the bounds of the verdict on a method.
///
/// The median of all samples should lie between those of the few whose ranks are `deviations` standard
/// deviations below and above the middle, whatever the distribution. Of `n` random samples beside `N`
/// others a deviation is `√n / 2 · √(1 + n / N)` ranks: the binomial count of samples below a median,
/// W. J. Conover, Practical Nonparametric Statistics (1999), section 3.2. Strata make it less, see
/// [`STRATIFIED`]. The laboratory's median and the method's are moved in turn.
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

/// The standard deviation, in ranks, of a median of `count` random samples beside that of `all` others.
pub(super) fn rank_deviation(count: usize, all: usize) -> f64 {
    let (count, all) = (count as f64, all as f64);
    count.sqrt() / 2.0 * (1.0 + count / all).sqrt()
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
    Middle::of(&results, STRATIFIED * reach)
}

impl Middle {
    /// The median of sorted results, and the results so many ranks below and above the middle.
    fn of(results: &[f64], reach: f64) -> Option<Self> {
        let count = results.len();
        #[allow(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "not negative, and a rank of a short list"
        )]
        let below = (count as f64 / 2.0 - reach).floor().max(0.0) as usize;
        let above = count.checked_sub(below + 1)?;
        let half = count / 2;
        let typical = f64::midpoint(*results.get(count.checked_sub(half + 1)?)?, results[half]);
        Some(Self {
            low: *results.get(below.min(above))?,
            typical,
            high: results[below.max(above)],
        })
    }
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
