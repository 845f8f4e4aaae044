//! Serial list scheduling: one pair of hands, gear that serves so many jobs at once.
//!
//! Each job has stretches with and without hands. Jobs are placed one by one, each as early as its
//! forerunners, the hands and the gear allow; the order follows the length of what still hangs on a
//! job, and of three such orders the one that ends first is kept.

use super::clock::{DAY, awake};
use crate::advisor::plan::OvenUse;

/// Two times closer than this are the same [s].
pub(super) const SAME_TIME: f64 = 1e-6;
/// The night is heeded for so long after everything else would let a job begin [s]; a job that cannot
/// avoid it goes ahead.
const LONGEST_HEED: f64 = 2.0 * DAY;

/// A part of a job.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Phase {
    /// How long \[s\].
    pub length: f64,
    /// Whether it needs the cook.
    pub hands: bool,
}

/// What is to be placed.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Job {
    /// Its parts in order.
    pub phases: Vec<Phase>,
    /// Whether a part without hands can last longer.
    pub stands: bool,
    /// Jobs that must have ended.
    pub after: Vec<usize>,
    /// Gear that it occupies from start to end.
    pub gear: Vec<usize>,
    /// How it takes up gear that is one space.
    pub oven: OvenUse,
}

impl Job {
    fn length(&self) -> f64 {
        self.phases.iter().map(|phase| phase.length).sum()
    }

    fn hands(&self) -> f64 {
        self.phases.iter().filter(|phase| phase.hands).map(|phase| phase.length).sum()
    }
}

/// A part of a job with its times \[s\].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span {
    /// When it begins.
    pub from: f64,
    /// When it ends.
    pub to: f64,
    /// Whether it needs the cook.
    pub hands: bool,
}

/// What held a job up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Held {
    /// The cook was at another job.
    Hands(usize),
    /// A piece of gear, by index, was taken by another job.
    Gear(usize, usize),
    /// It would have needed hands at night.
    Night,
}

/// The rules of a kitchen.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Rules {
    /// How many jobs each gear serves at once.
    pub gear: Vec<usize>,
    /// Gear, by index, that is all of one temperature, such as an oven.
    pub one_space: Vec<bool>,
    /// Time of day at the start of the plan \[s after midnight\], when nights are to be avoided.
    pub time_of_day: Option<f64>,
}

/// Where a job came to lie.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Placed {
    /// Its parts.
    pub spans: Vec<Span>,
    /// When its forerunners had ended.
    pub ready: f64,
    /// What held it up last.
    pub held: Option<Held>,
}

impl Placed {
    pub fn start(&self) -> f64 {
        self.spans.first().map_or(self.ready, |span| span.from)
    }

    pub fn end(&self) -> f64 {
        self.spans.last().map_or(self.ready, |span| span.to)
    }
}

/// Returns when the last job ends.
pub(super) fn end_of(placed: &[Placed]) -> f64 {
    placed.iter().map(Placed::end).fold(0.0, f64::max)
}

/// Places all jobs, by the best of three orders; the first of equals wins.
pub(super) fn schedule(jobs: &[Job], rules: &Rules) -> (Vec<usize>, Vec<Placed>) {
    let tails = tails(jobs);
    let ranks: [&dyn Fn(usize) -> f64; 3] =
        [&|job| tails[job], &|job| -jobs[job].hands(), &|_| 0.0];
    let mut best: Option<(Vec<usize>, Vec<Placed>)> = None;
    for rank in ranks {
        let order = order_by(jobs, rank);
        let placed = place_all(jobs, &order, rules);
        let ends_sooner =
            |(_, known): &(_, Vec<Placed>)| end_of(&placed) < end_of(known) - SAME_TIME;
        if best.as_ref().is_none_or(ends_sooner) {
            best = Some((order, placed));
        }
    }
    best.unwrap_or_default()
}

/// The longest way from the start of each job to the end of the plan, if nothing were in the way.
fn tails(jobs: &[Job]) -> Vec<f64> {
    let mut tails = vec![0.0; jobs.len()];
    // A job comes after its forerunners in the list, so the last is settled first.
    for (index, job) in jobs.iter().enumerate().rev() {
        tails[index] += job.length();
        for before in &job.after {
            tails[*before] = f64::max(tails[*before], tails[index]);
        }
    }
    tails
}

/// Orders jobs by falling rank among those whose forerunners are in; ties go by index.
fn order_by(jobs: &[Job], rank: &dyn Fn(usize) -> f64) -> Vec<usize> {
    let mut order: Vec<usize> = Vec::with_capacity(jobs.len());
    while order.len() < jobs.len() {
        let open = (0..jobs.len())
            .filter(|job| !order.contains(job))
            .filter(|job| jobs[*job].after.iter().all(|before| order.contains(before)));
        let next = open.reduce(|best, job| if rank(job) > rank(best) { job } else { best });
        // Forerunners stand earlier in the list, so that some job is always open.
        let Some(next) = next else { break };
        order.push(next);
    }
    order
}

/// Places jobs in a given order.
pub(super) fn place_all(jobs: &[Job], order: &[usize], rules: &Rules) -> Vec<Placed> {
    let mut board = Board {
        rules,
        hands: Vec::new(),
        gear: vec![Vec::new(); rules.gear.len()],
        placed: vec![Placed::default(); jobs.len()],
    };
    for index in order {
        board.place(*index, &jobs[*index]);
    }
    board.placed
}

/// A stretch taken by a job.
#[derive(Debug, Clone, Copy)]
struct Taken {
    from: f64,
    to: f64,
    job: usize,
    oven: OvenUse,
}

/// A time at which a job cannot begin: the next to try, and why.
type Later = (f64, Held);

struct Board<'a> {
    rules: &'a Rules,
    hands: Vec<Taken>,
    gear: Vec<Vec<Taken>>,
    placed: Vec<Placed>,
}

impl Board<'_> {
    fn place(&mut self, index: usize, job: &Job) {
        let ends = job.after.iter().map(|before| self.placed[*before].end());
        let ready = ends.fold(0.0, f64::max);
        let taken = self.hands.iter().chain(self.gear.iter().flatten());
        let heed_until = taken.map(|taken| taken.to).fold(ready, f64::max) + LONGEST_HEED;
        let (mut start, mut held) = (ready, None);
        let spans = loop {
            match self.fitted(job, start, start < heed_until) {
                Ok(spans) => break spans,
                Err((later, why)) => (start, held) = (later.max(start + SAME_TIME), Some(why)),
            }
        };
        for span in spans.iter().filter(|span| span.hands) {
            let (from, to, oven) = (span.from, span.to, job.oven);
            self.hands.push(Taken { from, to, job: index, oven });
        }
        if let (Some(first), Some(last)) = (spans.first(), spans.last()) {
            for gear in &job.gear {
                let (from, to, oven) = (first.from, last.to, job.oven);
                self.gear[*gear].push(Taken { from, to, job: index, oven });
            }
        }
        self.placed[index] = Placed { spans, ready, held };
    }

    /// The spans of a job that begins at a time, or the next time to try.
    fn fitted(&self, job: &Job, start: f64, heed_night: bool) -> Result<Vec<Span>, Later> {
        let mut spans: Vec<Span> = Vec::with_capacity(job.phases.len());
        let mut at = start;
        for phase in &job.phases {
            if phase.hands {
                while let Err((later, why)) = self.hands_free(at, phase.length, heed_night) {
                    match spans.last_mut().filter(|last| job.stands && !last.hands) {
                        // It stands until the cook comes.
                        Some(last) => (last.to, at) = (later, later),
                        None => return Err((start + later - at, why)),
                    }
                }
            }
            spans.push(Span { from: at, to: at + phase.length, hands: phase.hands });
            at += phase.length;
        }
        for gear in &job.gear {
            self.gear_free(*gear, (start, at), job.oven)?;
        }
        Ok(spans)
    }

    fn hands_free(&self, at: f64, length: f64, heed_night: bool) -> Result<(), Later> {
        let clash =
            |taken: &&Taken| taken.from < at + length - SAME_TIME && taken.to > at + SAME_TIME;
        if let Some(taken) = self.hands.iter().find(clash) {
            return Err((taken.to, Held::Hands(taken.job)));
        }
        if let Some(of_day) = self.rules.time_of_day.filter(|_| heed_night) {
            let later = awake(of_day + at, length) - of_day;
            if later > at + SAME_TIME {
                return Err((later, Held::Night));
            }
        }
        Ok(())
    }

    /// Gear is free while fewer jobs are at it at any moment than it serves, and none that asks for
    /// all of it or for another temperature.
    fn gear_free(&self, gear: usize, (from, to): (f64, f64), oven: OvenUse) -> Result<(), Later> {
        let within = |taken: &&Taken| taken.from < to - SAME_TIME && taken.to > from + SAME_TIME;
        let meeting: Vec<&Taken> = self.gear[gear].iter().filter(within).collect();
        let one_space = self.rules.one_space.get(gear).copied().unwrap_or(false);
        let in_the_way = |taken: &&&Taken| one_space && !taken.oven.goes_with(&oven);
        if let Some(other) = meeting.iter().find(in_the_way) {
            return Err((other.to, Held::Gear(gear, other.job)));
        }
        let at_once = |moment: f64| {
            let there =
                |taken: &&&Taken| taken.from <= moment + SAME_TIME && taken.to > moment + SAME_TIME;
            meeting.iter().filter(there).count()
        };
        let moments = meeting.iter().map(|taken| taken.from.max(from));
        let busiest = moments.map(at_once).max().unwrap_or(0);
        let first = meeting.iter().min_by(|a, b| a.to.total_cmp(&b.to));
        match first.filter(|_| busiest >= self.rules.gear[gear]) {
            Some(first) => Err((first.to, Held::Gear(gear, first.job))),
            None => Ok(()),
        }
    }
}

#[cfg(test)]
#[path = "schedule_tests.rs"]
mod tests;
