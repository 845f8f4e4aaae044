//! From an adapted recipe to jobs: each move and each plain work, with its hands and its gear.

use super::schedule::{Job, Phase, Rules};
use crate::advisor::plan::OvenUse;
use crate::advisor::{Adaptation, Advice, Bench, Method};
use crate::estimate::Estimate;
use crate::kitchen::Owned;
use crate::knowledge::{Loads, Move, Value};
use crate::recipe::{Recipe, Source, Task, Work};

/// The share of the hands-on work of a move that comes first, to fill and start it; the rest comes
/// last, to check and empty it: common practice.
const HANDS_FIRST: f64 = 0.5;
/// A cook who could be away for less than this stays [s]: ten minutes, common practice.
const LEAST_ABSENCE: f64 = 600.0;
/// Values of an appliance by which it serves several jobs at once.
const AT_ONCE: [&str; 3] = [Loads::PIECES, "rings", SHELVES];
/// The value of an appliance with shelves in one space: all of it has one temperature.
const SHELVES: &str = "shelves";
/// A setting-up that takes less than this is none \[s\].
const LEAST_SPAN: f64 = 1.0;

/// One job with what it is, and how long it takes in every sample.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Piece {
    /// Index of the step.
    pub step: usize,
    /// What the step makes.
    pub product: String,
    /// What to do.
    pub text: String,
    /// Labels of the gear that it occupies.
    pub gear: Vec<String>,
    /// How it takes up an oven.
    pub oven: OvenUse,
    /// Jobs that it waits for.
    pub after: Vec<usize>,
    /// Loads after each other.
    pub loads: f64,
    /// Whether it can stand.
    pub stands: bool,
    /// Time and hands-on time by sample \[s\].
    pub times: Vec<(f64, f64)>,
    /// The same at the median \[s\].
    pub usual: (f64, f64),
    /// Temperature of the food at its end \[K\], where a model tells it.
    pub ends_at: Option<f64>,
    /// Whether the recipe goes on with something that this kitchen cannot make.
    pub missing: bool,
}

impl Piece {
    /// Its parts for a time and a hands-on time.
    pub fn phases(&self, (time, hands): (f64, f64)) -> Vec<Phase> {
        let loads = self.loads.max(1.0);
        let hands = hands.min(time) / loads;
        let alone = time / loads - hands;
        let part = |length, hands| Phase { length, hands };
        if alone < LEAST_ABSENCE {
            return vec![part(time, true)].into_iter().filter(|p| p.length >= LEAST_SPAN).collect();
        }
        let mut phases: Vec<Phase> = Vec::new();
        let mut load = 0.0;
        while load < loads {
            phases.push(part(hands * HANDS_FIRST, true));
            phases.push(part(alone, false));
            phases.push(part(hands * (1.0 - HANDS_FIRST), true));
            load += 1.0;
        }
        phases.retain(|phase| phase.length >= LEAST_SPAN);
        phases.dedup_by(|next, before| {
            let same = next.hands && before.hands;
            if same {
                before.length += next.length;
            }
            same
        });
        phases
    }

    /// The job, for a time and a hands-on time.
    pub fn job(&self, times: (f64, f64), gear: &[String]) -> Job {
        let place = |label: &String| gear.iter().position(|known| known == label);
        Job {
            phases: self.phases(times),
            stands: self.stands,
            after: self.after.clone(),
            gear: self.gear.iter().filter_map(place).collect(),
            oven: self.oven,
        }
    }
}

/// Lists the jobs of an adaptation, forerunners first.
pub(super) fn pieces(done: &Adaptation, recipe: &Recipe, bench: &Bench<'_>) -> Vec<Piece> {
    let mut pieces: Vec<Piece> = Vec::new();
    // The job that ends each step.
    let mut ends: Vec<Option<usize>> = Vec::new();
    for (index, (adapted, step)) in done.steps.iter().zip(&recipe.steps).enumerate() {
        if !adapted.is_needed {
            ends.push(None);
            continue;
        }
        let mut after: Vec<usize> = step
            .uses
            .iter()
            .filter_map(|used| match used.source {
                Source::Product(step) => ends.get(step).copied().flatten(),
                Source::Ingredient(_) => None,
            })
            .collect();
        after.sort_unstable();
        after.dedup();
        let of_step = match (&adapted.advice, &step.task) {
            (Advice::Professional(advice), _) => match advice.routes.first() {
                Some(best) => of_method(best, bench),
                None => vec![Piece { missing: true, ..piece(advice.laboratory.name.clone()) }],
            },
            (Advice::Plain(_), Task::Plain(work)) => vec![plain(work, &adapted.product, bench)],
            (Advice::Plain(text), Task::Professional(_)) => vec![piece(text.clone())],
        };
        for one in of_step {
            let here = pieces.len();
            let after = std::mem::replace(&mut after, vec![here]);
            pieces.push(Piece { step: index, product: adapted.product.clone(), after, ..one });
        }
        ends.push(pieces.len().checked_sub(1));
    }
    pieces
}

/// How many jobs each appliance serves at once and whether at one temperature, by its label.
pub(super) fn gear(pieces: &[Piece], bench: &Bench<'_>) -> (Vec<String>, Rules) {
    let mut labels: Vec<String> = pieces.iter().flat_map(|one| one.gear.clone()).collect();
    labels.sort_unstable();
    labels.dedup();
    let owned = |label: &String| bench.kitchen.appliances.iter().find(|one| one.label == *label);
    let rules = Rules {
        gear: labels.iter().map(|label| owned(label).map_or(1, at_once)).collect(),
        one_space: labels.iter().map(|label| owned(label).is_some_and(is_one_space)).collect(),
        time_of_day: None,
    };
    (labels, rules)
}

#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a number of rings or shelves is small, and at least one"
)]
fn at_once(owned: &Owned) -> usize {
    let stated = AT_ONCE.iter().filter_map(|name| owned.values.get(*name)).map(Value::typical);
    stated.product::<f64>().round().max(1.0) as usize
}

fn is_one_space(owned: &Owned) -> bool {
    owned.values.contains_key(SHELVES)
}

fn piece(text: String) -> Piece {
    Piece {
        step: 0,
        product: String::new(),
        text,
        gear: Vec::new(),
        oven: OvenUse::default(),
        after: Vec::new(),
        loads: 1.0,
        stands: false,
        times: Vec::new(),
        usual: (0.0, 0.0),
        ends_at: None,
        missing: false,
    }
}

fn plain(work: &Work, product: &str, bench: &Bench<'_>) -> Piece {
    let sampler = bench.sampler;
    let draws = |what: &str, value: &Option<Value>| -> Vec<f64> {
        let column = sampler.column(&format!("work/{product}/{what}"));
        let quantile = |u: &f64| value.as_ref().map_or(0.0, |value| value.estimate.quantile(*u));
        column.iter().map(quantile).collect()
    };
    let usual = |value: &Option<Value>| value.as_ref().map_or(0.0, Value::typical);
    let (time, hands) = (draws("time", &work.time), draws("hands_on", &work.hands_on));
    let whole = |(time, hands): (f64, f64)| (time.max(hands), hands);
    Piece {
        times: time.into_iter().zip(hands).map(whole).collect(),
        usual: whole((usual(&work.time), usual(&work.hands_on))),
        ..piece(work.text.clone())
    }
}

/// The moves of a method; what the route asks for beside its moves is done before the first.
fn of_method(method: &Method, bench: &Bench<'_>) -> Vec<Piece> {
    let route = bench.knowledge.routes.get(&method.id);
    let moves: &[Move] = route.map_or(&[], |route| &route.moves);
    let set_up = route.and_then(|route| {
        let estimate = &bench.knowledge.hands_on(route)?.estimate;
        let column = bench.sampler.column(&format!("method/{}/hands_on", route.id));
        let each = column.iter().map(|draw| estimate.quantile(*draw)).collect();
        Some((each, estimate.typical()))
    });
    let (set_up, usual_set_up): (Vec<f64>, f64) = set_up.unwrap_or_default();
    let mut pieces = Vec::new();
    for (index, advice) in method.moves.iter().enumerate() {
        let record = method.simulated.moves.get(index);
        let process = moves.get(index).and_then(|one| bench.knowledge.processes.get(&one.process));
        let typical = |range: &Option<Estimate>| range.as_ref().map_or(0.0, Estimate::typical);
        let (time, hands) = (typical(&advice.time), typical(&advice.attended));
        // Trials may have moved the times since the samples were drawn.
        let drawn = record.and_then(|record| Estimate::of_results(&record.time));
        let moved = drawn.filter(|d| d.typical() > 0.0).map_or(1.0, |d| time / d.typical());
        let mut times: Vec<(f64, f64)> = record.map_or_else(Vec::new, |record| {
            let pairs = record.time.iter().zip(&record.attended);
            pairs.map(|(time, hands)| (time * moved, hands.min(time * moved))).collect()
        });
        times = all_samples(&times, &method.simulated.samples, bench.sampler.count());
        let mut usual = (time, hands.min(time));
        if index == 0 {
            usual = (usual.0 + usual_set_up, usual.1 + usual_set_up);
            for (pair, more) in times.iter_mut().zip(&set_up) {
                *pair = (pair.0 + more, pair.1 + more);
            }
        }
        let in_turn = process.is_none_or(|process| process.loads != Loads::SideBySide);
        pieces.push(Piece {
            gear: advice.appliances.iter().filter(|one| occupied(one, bench)).cloned().collect(),
            loads: advice.loads.filter(|_| in_turn).map_or(1.0, |loads| loads.count),
            oven: advice.oven,
            stands: process.is_some_and(|process| process.stands),
            ends_at: record
                .and_then(|record| Estimate::of_results(&record.temperature))
                .map(|range| range.typical()),
            times,
            usual,
            ..piece(advice.instruction.clone())
        });
    }
    pieces
}

/// Whether an appliance is busy while nobody holds it.
fn occupied(label: &str, bench: &Bench<'_>) -> bool {
    let owned = bench.kitchen.appliances.iter().find(|one| one.label == label);
    let known = owned.and_then(|owned| bench.knowledge.appliances.get(&owned.id));
    known.is_some_and(|appliance| !appliance.in_hand)
}

/// The times of every sample; where the method failed, those of the sample before it.
fn all_samples(times: &[(f64, f64)], worked: &[usize], count: usize) -> Vec<(f64, f64)> {
    let Some(last) = times.len().checked_sub(1) else { return Vec::new() };
    let place = |sample: usize| worked.partition_point(|one| *one <= sample).saturating_sub(1);
    (0..count).map(|sample| times[place(sample).min(last)]).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    const MINUTE: f64 = 60.0;

    fn lengths(one: &Piece, minutes: (f64, f64)) -> Vec<(f64, bool)> {
        let phases = one.phases((minutes.0 * MINUTE, minutes.1 * MINUTE));
        phases.iter().map(|phase| (phase.length / MINUTE, phase.hands)).collect()
    }

    #[test]
    fn hands_come_first_and_last() {
        let one = piece("freeze".to_owned());
        assert_eq!(lengths(&one, (70.0, 10.0)), [(5.0, true), (60.0, false), (5.0, true)]);
    }

    #[test]
    fn a_cook_stays_where_leaving_is_not_worth_it() {
        assert_eq!(lengths(&piece("boil".to_owned()), (12.0, 4.0)), [(12.0, true)]);
    }

    #[test]
    fn loads_are_changed_between_the_waits() {
        let one = Piece { loads: 2.0, ..piece("press".to_owned()) };
        let found = lengths(&one, (140.0, 20.0));
        let wanted = [(5.0, true), (60.0, false), (10.0, true), (60.0, false), (5.0, true)];
        assert_eq!(found, wanted);
    }

    #[test]
    fn samples_that_failed_take_the_times_before_them() {
        let times = [(1.0, 0.0), (2.0, 0.0)];
        let found = all_samples(&times, &[1, 3], 5);
        assert_eq!(found.iter().map(|t| t.0).collect::<Vec<f64>>(), [1.0, 1.0, 1.0, 2.0, 2.0]);
    }
}
