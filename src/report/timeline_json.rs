//! The timeline of an adapted recipe as JSON: stable keys that carry their unit.

use serde::Serialize;

use super::json::to_digits;
use super::shown::Range;
use super::timeline::Planned;
use crate::advisor::timeline::{Delay, TimedTask, WaitsFor};

/// Digits of a time in seconds.
const DIGITS: usize = 6;

/// A plan.
#[derive(Debug, Serialize)]
pub struct TimelineJson {
    /// When the last task ends, at the median.
    pub total_s: f64,
    /// The same over the samples.
    pub total_range_s: Option<Range>,
    /// Time of the cook.
    pub hands_on_s: f64,
    /// Time of day at the start, after the midnight of the first day.
    pub starts_s_after_midnight: Option<f64>,
    /// When the dish is wanted, after the same midnight.
    pub wanted_s_after_midnight: Option<f64>,
    /// The date of the first day.
    pub first_day: Option<String>,
    /// The tasks by their start.
    pub tasks: Vec<TaskJson>,
    /// Places in `tasks` of those that settle the end.
    pub critical_path: Vec<usize>,
    /// Hands-on time between 22:00 and 07:00.
    pub hands_on_at_night_s: f64,
    /// Whether waits are taken to be in a refrigerator.
    pub waits_refrigerated: bool,
    /// Waits of food that the plan brings in.
    pub waits: Vec<WaitJson>,
    /// Food-safety rules that the waits set off.
    pub warnings: Vec<WarningJson>,
}

/// A task.
#[derive(Debug, Serialize)]
pub struct TaskJson {
    /// What its step makes.
    pub product: String,
    /// What to do.
    pub instruction: String,
    /// Its parts.
    pub spans: Vec<SpanJson>,
    /// The appliances that it occupies.
    pub appliances: Vec<String>,
    /// What held it up.
    pub delay: Option<DelayJson>,
    /// Whether this kitchen has no route for it, so that its time is not counted.
    pub missing: bool,
}

/// A part of a task.
#[derive(Debug, Serialize)]
pub struct SpanJson {
    /// When it begins.
    pub from_s: f64,
    /// When it ends.
    pub to_s: f64,
    /// Whether it needs the cook.
    pub hands_on: bool,
}

/// What held a task up.
#[derive(Debug, Serialize)]
pub struct DelayJson {
    /// How long.
    pub by_s: f64,
    /// `cook`, `appliance` or `morning`.
    pub waits_for: &'static str,
    /// The appliance.
    pub appliance: Option<String>,
    /// The product that keeps cook or appliance busy.
    pub busy_with: Option<String>,
}

/// A wait of food.
#[derive(Debug, Serialize)]
pub struct WaitJson {
    /// What waits.
    pub product: String,
    /// How long.
    pub time_s: f64,
    /// How much of it counts as warm.
    pub warm_s: f64,
}

/// A rule that waits set off.
#[derive(Debug, Serialize)]
pub struct WarningJson {
    /// What the step makes.
    pub product: String,
    /// Warm time with the waits, at its careful end.
    pub warm_s: f64,
    /// Of which in waits.
    pub waiting_s: f64,
    /// Whether the rule refuses it.
    pub refuses: bool,
    /// What the rule says.
    pub says: String,
}

/// Makes the JSON of a plan.
pub fn timeline(planned: &Planned<'_>) -> TimelineJson {
    let plan = planned.timeline;
    let waits = plan.safety.waits.iter().map(|wait| WaitJson {
        product: wait.product.clone(),
        time_s: digits(wait.length),
        warm_s: digits(wait.warm),
    });
    let warnings = plan.safety.warnings.iter().map(|warning| WarningJson {
        product: warning.product.clone(),
        warm_s: digits(warning.warm),
        waiting_s: digits(warning.waiting),
        refuses: warning.refuses,
        says: warning.says.clone(),
    });
    TimelineJson {
        total_s: digits(plan.total),
        total_range_s: plan.range.as_ref().map(Range::si),
        hands_on_s: digits(plan.hands_on()),
        starts_s_after_midnight: plan.starts.map(digits),
        wanted_s_after_midnight: plan.wanted.map(digits),
        first_day: planned.first_day.map(|day| day.to_string()),
        tasks: plan.tasks.iter().map(task).collect(),
        critical_path: plan.critical.clone(),
        hands_on_at_night_s: digits(plan.at_night),
        waits_refrigerated: plan.safety.cold,
        waits: waits.collect(),
        warnings: warnings.collect(),
    }
}

fn task(task: &TimedTask) -> TaskJson {
    let spans = task.spans.iter().map(|span| SpanJson {
        from_s: digits(span.from),
        to_s: digits(span.to),
        hands_on: span.hands,
    });
    TaskJson {
        product: task.product.clone(),
        instruction: task.text.clone(),
        spans: spans.collect(),
        appliances: task.gear.clone(),
        delay: task.delay.as_ref().map(delay),
        missing: task.missing,
    }
}

fn delay(delay: &Delay) -> DelayJson {
    let (waits_for, appliance, busy_with) = match &delay.for_what {
        WaitsFor::Cook(product) => ("cook", None, Some(product.clone())),
        WaitsFor::Appliance(label, product) => {
            ("appliance", Some(label.clone()), Some(product.clone()))
        }
        WaitsFor::Morning => ("morning", None, None),
    };
    DelayJson { by_s: digits(delay.by), waits_for, appliance, busy_with }
}

fn digits(value: f64) -> f64 {
    to_digits(value, DIGITS)
}
