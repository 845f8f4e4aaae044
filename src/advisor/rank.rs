//! Ranking: what reaches the goal first, then the least loss, then the least time.

use std::cmp::Ordering;

use super::{Score, Verdict};

/// Losses that differ by less than this count as alike, and time decides [noticed steps].
const ALIKE_STEPS: f64 = 0.5;

/// A thing to rank: its id and its score.
#[derive(Debug, Clone, Copy)]
pub struct Ranked<'a> {
    /// The id, which decides ties.
    pub id: &'a str,
    /// The score.
    pub score: &'a Score,
    /// Whether it is bought rather than made.
    pub bought: bool,
}

/// Orders two routes, the better first.
///
/// A route that reaches the first goal comes before one that does not; among those that do not, the
/// one that falls less short. What is made comes before what is bought ready-made, whose quality is
/// stated and not computed. Then the worst loss among what counts, in halves of a noticed step;
/// then the time; then the id.
pub fn rank(a: &Ranked<'_>, b: &Ranked<'_>) -> Ordering {
    let no = |ranked: &Ranked<'_>| ranked.score.verdict == Verdict::No;
    let short = |ranked: &Ranked<'_>| {
        let essential = ranked.score.goals.first().map_or(0.0, |term| term.short);
        if no(ranked) { essential } else { 0.0 }
    };
    let bucket = |steps: f64| (steps / ALIKE_STEPS).floor();
    no(a)
        .cmp(&no(b))
        .then_with(|| a.bought.cmp(&b.bought))
        .then_with(|| bucket(short(a)).total_cmp(&bucket(short(b))))
        .then_with(|| bucket(a.score.worst).total_cmp(&bucket(b.score.worst)))
        .then_with(|| a.score.time.total_cmp(&b.score.time))
        .then_with(|| a.id.cmp(b.id))
}

/// Says in one line why a route came after the best.
pub fn why_second(
    best: &Ranked<'_>,
    other: &Ranked<'_>,
    name_of: impl Fn(&str) -> String,
) -> String {
    if other.bought && !best.bought {
        return "is bought ready-made; its quality is stated, not computed".to_owned();
    }
    let (best, other) = (best.score, other.score);
    if other.verdict == Verdict::No && best.verdict != Verdict::No {
        let goal = other.goals.first().map_or("the goal", |term| term.goal.as_str());
        return format!("does not reach: {goal}");
    }
    let bucket = |steps: f64| (steps / ALIKE_STEPS).floor();
    if bucket(other.worst) > bucket(best.worst) {
        let counting = other.comparisons.iter().filter(|comparison| comparison.counts);
        let worst = counting.max_by(|a, b| a.steps.total_cmp(&b.steps));
        let what = worst.map_or_else(String::new, |c| name_of(&c.attribute));
        return format!("loses more: {what}");
    }
    if other.time > best.time {
        return "takes longer for the same result".to_owned();
    }
    "as good; the first by name is shown".to_owned()
}
