//! The timeline of an adapted recipe: what is done when, by one pair of hands in one kitchen.
//!
//! The moves of the chosen routes and the plain work become jobs. Durations are medians; how much
//! longer the whole may take comes from placing the same jobs, in the same order, in every sample.

mod clock;
mod jobs;
mod safety;
mod schedule;

pub use clock::{Anchor, DAY, QUIET_FROM, QUIET_UNTIL};
pub use safety::{Safety, Wait, Warning};
pub use schedule::{Held, Span};

use super::{Adaptation, Bench};
use crate::estimate::Estimate;
use crate::recipe::Recipe;
use jobs::Piece;
use schedule::{Job, Placed, Rules, SAME_TIME, end_of, place_all, schedule};

/// Delays shorter than this go without saying \[s\].
const LEAST_DELAY: f64 = 300.0;
/// The start is tried so much earlier each time \[s\], at most so often, until the dish is ready in
/// time: two weeks in quarters of an hour.
const EARLIER: f64 = 900.0;
const MOST_TRIES: usize = 1344;

/// A plan of the work.
#[derive(Debug, Clone, PartialEq)]
pub struct Timeline {
    /// The jobs, by their start.
    pub tasks: Vec<TimedTask>,
    /// When the last job ends, at the median \[s\].
    pub total: f64,
    /// The same over the samples \[s\].
    pub range: Option<Estimate>,
    /// Time of day of the start \[s after midnight of the first day\], when one was asked for.
    pub starts: Option<f64>,
    /// When the dish is wanted \[s after midnight of the first day\].
    pub wanted: Option<f64>,
    /// Tasks, by place in `tasks`, whose lengths add up to the total.
    pub critical: Vec<usize>,
    /// Hands-on time in the quiet hours \[s\].
    pub at_night: f64,
    /// What waits come to.
    pub safety: Safety,
}

/// A job with its times.
#[derive(Debug, Clone, PartialEq)]
pub struct TimedTask {
    /// Index of the step in the recipe.
    pub step: usize,
    /// What the step makes.
    pub product: String,
    /// What to do.
    pub text: String,
    /// When it has its turn \[s after the start of the plan\].
    pub at: f64,
    /// Its parts \[s after the start of the plan\]; none when it takes no time or is missing.
    pub spans: Vec<Span>,
    /// Labels of the gear that it occupies.
    pub gear: Vec<String>,
    /// What held it up, and by how much \[s\].
    pub delay: Option<Delay>,
    /// Whether this kitchen has no route for it: its time is not in the plan.
    pub missing: bool,
}

impl TimedTask {
    /// When it ends \[s\].
    pub fn end(&self) -> f64 {
        self.spans.last().map_or(self.at, |span| span.to)
    }
}

/// Why a job begins later than its forerunners allow.
#[derive(Debug, Clone, PartialEq)]
pub struct Delay {
    /// How much later \[s\].
    pub by: f64,
    /// What it waits for.
    pub for_what: WaitsFor,
}

/// What a job waits for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum WaitsFor {
    /// The cook, who is at work on this product.
    Cook(String),
    /// An appliance, by its label, in which there is this product.
    Appliance(String, String),
    /// The morning.
    Morning,
}

impl Timeline {
    /// Returns the time of the cook that the plan asks for \[s\].
    pub fn hands_on(&self) -> f64 {
        let spans = self.tasks.iter().flat_map(|task| &task.spans);
        spans.filter(|span| span.hands).map(|span| span.to - span.from).sum()
    }
}

/// Plans the work of an adapted recipe.
pub fn timeline(
    done: &Adaptation,
    recipe: &Recipe,
    bench: &Bench<'_>,
    anchor: Option<Anchor>,
) -> Timeline {
    let pieces = jobs::pieces(done, recipe, bench);
    let (labels, rules) = jobs::gear(&pieces, bench);
    let jobs: Vec<Job> = pieces.iter().map(|piece| piece.job(piece.usual, &labels)).collect();
    let plan = Plan::anchored(&jobs, rules, anchor);
    let range = plan.range(&pieces, &labels, bench.sampler.count());
    let safety = safety::judge(done, (&pieces, &plan.placed), bench);
    plan.told(pieces, &labels, range, safety)
}

/// Jobs in their places.
struct Plan {
    rules: Rules,
    order: Vec<usize>,
    placed: Vec<Placed>,
    wanted: Option<f64>,
}

impl Plan {
    /// Schedules jobs so that the first begins, or the last ends, when it should.
    fn anchored(jobs: &[Job], mut rules: Rules, anchor: Option<Anchor>) -> Self {
        let ready_at = match anchor {
            None => None,
            Some(Anchor::StartAt(of_day)) => {
                rules.time_of_day = Some(of_day);
                None
            }
            Some(Anchor::ReadyAt(of_day)) => Some(of_day),
        };
        let (order, placed) = schedule(jobs, &rules);
        let Some(mut wanted) = ready_at else {
            return Self { rules, order, placed, wanted: None };
        };
        // From the latest start that could do, back until the nights are slept through.
        let mut start = wanted - end_of(&placed);
        let mut plan = Self { rules, order, placed, wanted: None };
        for _ in 0..MOST_TRIES {
            plan.rules.time_of_day = Some(start);
            (plan.order, plan.placed) = schedule(jobs, &plan.rules);
            if start + end_of(&plan.placed) <= wanted + SAME_TIME {
                break;
            }
            start -= EARLIER;
        }
        let first = plan.placed.iter().filter(|one| !one.spans.is_empty()).map(Placed::start);
        let first = first.fold(f64::INFINITY, f64::min);
        let begins = if first.is_finite() { start + first } else { start };
        let days = (begins / DAY).floor() * DAY;
        plan.rules.time_of_day = Some(start - days);
        wanted -= days;
        plan.wanted = Some(wanted);
        plan
    }

    /// The end over the samples, in the order of the plan.
    fn range(&self, pieces: &[Piece], labels: &[String], samples: usize) -> Option<Estimate> {
        let ends: Vec<f64> = (0..samples)
            .map(|sample| {
                let times = |piece: &Piece| piece.times.get(sample).copied().unwrap_or(piece.usual);
                let jobs: Vec<Job> =
                    pieces.iter().map(|piece| piece.job(times(piece), labels)).collect();
                end_of(&place_all(&jobs, &self.order, &self.rules))
            })
            .collect();
        Estimate::of_results(&ends)
    }

    /// Puts the plan into words, its first job at zero.
    fn told(
        self,
        pieces: Vec<Piece>,
        labels: &[String],
        range: Option<Estimate>,
        safety: Safety,
    ) -> Timeline {
        let begins = self.placed.iter().filter(|one| !one.spans.is_empty()).map(Placed::start);
        let zero = Some(begins.fold(f64::INFINITY, f64::min)).filter(|zero| zero.is_finite());
        let zero = zero.unwrap_or(0.0);
        let names: Vec<String> = pieces.iter().map(|piece| piece.product.clone()).collect();
        let waits_for = |held: Held| match held {
            Held::Hands(job) => WaitsFor::Cook(names[job].clone()),
            Held::Gear(gear, job) => WaitsFor::Appliance(labels[gear].clone(), names[job].clone()),
            Held::Night => WaitsFor::Morning,
        };
        let critical = critical(&self.placed, &pieces);
        let mut tasks: Vec<(usize, TimedTask)> = Vec::new();
        for (index, (piece, placed)) in pieces.into_iter().zip(&self.placed).enumerate() {
            let by = placed.start() - placed.ready;
            let delay = placed.held.filter(|_| by >= LEAST_DELAY && placed.start() > zero);
            let spans = placed.spans.iter();
            let spans = spans.map(|s| Span { from: s.from - zero, to: s.to - zero, ..*s });
            let task = TimedTask {
                step: piece.step,
                product: piece.product,
                text: piece.text,
                at: (placed.start() - zero).max(0.0),
                spans: spans.collect(),
                gear: piece.gear,
                delay: delay.map(|held| Delay { by, for_what: waits_for(held) }),
                missing: piece.missing,
            };
            tasks.push((index, task));
        }
        tasks.sort_by(|(a, one), (b, other)| one.at.total_cmp(&other.at).then(a.cmp(b)));
        let place = |job: &usize| tasks.iter().position(|(index, _)| index == job);
        let critical = critical.iter().filter_map(place).collect();
        let starts = self.rules.time_of_day.map(|of_day| of_day + zero);
        let tasks: Vec<TimedTask> = tasks.into_iter().map(|(_, task)| task).collect();
        let nights = starts.map_or(0.0, |starts| {
            let hands = tasks.iter().flat_map(|task| &task.spans).filter(|span| span.hands);
            hands.map(|span| clock::in_the_night(starts + span.from, starts + span.to)).sum()
        });
        Timeline {
            tasks,
            total: end_of(&self.placed) - zero,
            range: range.and_then(|range| range.map(|end| end - zero).ok()),
            starts,
            wanted: self.wanted,
            critical,
            at_night: nights,
            safety,
        }
    }
}

/// The jobs that settle the end, in order: each is followed by what it held up.
fn critical(placed: &[Placed], pieces: &[Piece]) -> Vec<usize> {
    let last = (0..placed.len()).reduce(|best, job| {
        if placed[job].end() > placed[best].end() + SAME_TIME { job } else { best }
    });
    let mut path = Vec::new();
    let mut here = last;
    while let Some(job) = here.filter(|job| !path.contains(job)) {
        path.push(job);
        let start = placed[job].start();
        let forerunners = pieces[job].after.iter().copied();
        here = match placed[job].held.filter(|_| start > placed[job].ready + SAME_TIME) {
            Some(Held::Hands(other) | Held::Gear(_, other)) => Some(other),
            _ => forerunners.reduce(|a, b| if placed[b].end() > placed[a].end() { b } else { a }),
        };
    }
    path.reverse();
    path
}
