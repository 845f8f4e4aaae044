//! Scoring: the difference between laboratory and home in steps that a person notices.

use serde::Serialize;

use super::Simulated;
use crate::estimate::Estimate;
use crate::knowledge::{Attribute, Better, Goal, Knowledge, Notice, Technique, Value, ValueMap};
use crate::process::attribute::measure;
use crate::recipe::Professional;

/// What a route makes of a step, in the words of the survey.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// No compared attribute is noticeably worse.
    #[default]
    AsWritten,
    /// Side by side one can tell.
    SmallLoss,
    /// Anybody can tell.
    RealLoss,
    /// The first goal is not reached.
    No,
}

impl Verdict {
    /// Returns the verdict in words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::AsWritten => "as written",
            Self::SmallLoss => "with a small loss",
            Self::RealLoss => "with a real loss",
            Self::No => "not reached",
        }
    }
}

/// Up to here a difference counts as none [noticed steps]: one just noticeable difference.
const UNNOTICED_STEPS: f64 = 1.0;
/// Up to here a difference counts as small [noticed steps]. Estimate: told apart side by side, not in
/// a dish eaten alone.
const SMALL_STEPS: f64 = 3.0;
/// A goal counts as reached within this many noticed steps of its target.
const GOAL_SLACK_STEPS: f64 = 1.0;
/// Ratios are taken of values no smaller than this, in SI; below lies nothing that matters.
const RATIO_FLOOR: f64 = 1e-9;
/// Shares are compared down to a hundredth: half of one per cent left or none is the same loss.
const SHARE_FLOOR: f64 = 0.01;

/// One attribute beside the laboratory's.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// Id of the attribute.
    pub attribute: String,
    /// The laboratory's result in SI.
    pub laboratory: Estimate,
    /// The route's result in SI.
    pub home: Estimate,
    /// Worse by this many noticed steps; zero when it is as good or better.
    pub steps: f64,
    /// Whether the recipe or the technique counts on it.
    pub counts: bool,
}

/// A goal and what became of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Term {
    /// Name of the goal.
    pub goal: String,
    /// Id of the attribute that measures it.
    pub attribute: String,
    /// The target in SI.
    pub target: f64,
    /// Whether the target is a lower bound.
    pub at_least: bool,
    /// The route's result in SI, at the median.
    pub result: f64,
    /// The laboratory's result in SI, at the median.
    pub laboratory: f64,
    /// Short of the target, or of the laboratory where that falls short itself, in noticed steps.
    pub short: f64,
}

impl Term {
    /// Returns whether the goal is reached.
    pub fn is_reached(&self) -> bool {
        self.short <= GOAL_SLACK_STEPS
    }

    /// Returns by how many noticed steps another result of the route would fall short.
    pub(super) fn short_with(&self, attribute: &Attribute, result: f64) -> f64 {
        let (target, reference) = (self.target, self.laboratory);
        // Where the laboratory itself falls short, nobody asks more of the home.
        let asked = if self.at_least { target.min(reference) } else { target.max(reference) };
        let missed = if self.at_least { result < asked } else { result > asked };
        if missed { steps(attribute, asked, result) } else { 0.0 }
    }
}

/// What a route makes of a step.
#[derive(Debug, Clone, PartialEq)]
pub struct Score {
    /// Goals, the essential one first.
    pub goals: Vec<Term>,
    /// Attributes beside the laboratory's.
    pub comparisons: Vec<Comparison>,
    /// The verdict.
    pub verdict: Verdict,
    /// The worst loss among the attributes that count, in noticed steps.
    pub worst: f64,
    /// Time from start to end at the median \[s\].
    pub time: f64,
}

/// A target of the step.
#[derive(Debug, Clone, PartialEq)]
pub struct Aim {
    name: String,
    attribute: String,
    target: Value,
    at_least: bool,
}

/// The targets of a step: the recipe's own, and the technique's goals that the recipe leaves open.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Goals(Vec<Aim>);

impl Goals {
    /// Collects the targets of a step.
    ///
    /// A target of the recipe stands in for a goal of the technique that measures the same, or the
    /// same group of attributes.
    pub fn of(technique: &Technique, targets: &ValueMap, knowledge: &Knowledge) -> Self {
        let group = |attribute: &str| knowledge.attributes.get(attribute).map(|a| a.group.clone());
        let mut aims = Vec::new();
        for (attribute, value) in targets {
            let known = knowledge.attributes.get(attribute);
            let name = known.map_or_else(|| attribute.clone(), |known| known.name.clone());
            let at_least = known.is_none_or(|known| known.better != Better::Less);
            aims.push(Aim { name, attribute: attribute.clone(), target: value.clone(), at_least });
        }
        let goals = technique.goals.iter().filter_map(|id| knowledge.goals.get(id));
        for (index, goal) in goals.enumerate() {
            let taken = targets
                .keys()
                .any(|id| *id == goal.attribute || group(id) == group(&goal.attribute));
            if !taken {
                let place = if index == 0 { 0 } else { aims.len() };
                aims.insert(place, Aim::from(goal));
            }
        }
        Self(aims)
    }

    /// Returns the targets as settings of processes: `target_` and the attribute, with underscores.
    pub fn settings(&self) -> ValueMap {
        let setting = |aim: &Aim| (target_setting(&aim.attribute), aim.target.clone());
        self.0.iter().map(setting).collect()
    }
}

/// Settings by which a recipe says how long the laboratory takes.
const TIMES: [&str; 2] = ["time", "hold_time"];

/// Drops the usual targets of a technique where the recipe says how long the laboratory takes, so that
/// they end the step neither earlier nor later; targets that the recipe states stay.
pub(super) fn leave_to_stated_time(targets: &mut ValueMap, task: &Professional) {
    if task.laboratory.keys().any(|name| TIMES.contains(&name.as_str())) {
        let stated = |name: &str| task.targets.keys().any(|of| name == target_setting(of));
        targets.retain(|name, _| stated(name));
    }
}

/// Returns the name of the setting that is the target of an attribute.
fn target_setting(attribute: &str) -> String {
    format!("target_{}", attribute.replace('-', "_"))
}

impl From<&Goal> for Aim {
    fn from(goal: &Goal) -> Self {
        Self {
            name: goal.name.clone(),
            attribute: goal.attribute.clone(),
            target: goal.target.clone(),
            at_least: goal.at_least,
        }
    }
}

/// Scores a route against the laboratory.
///
/// `priorities` are the attributes that count; the technique's own list when empty.
pub fn score(
    laboratory: &Simulated,
    home: &Simulated,
    goals: &Goals,
    technique: &Technique,
    priorities: &[String],
    knowledge: &Knowledge,
) -> Score {
    let counts = |id: &String| {
        if priorities.is_empty() { technique.compare.contains(id) } else { priorities.contains(id) }
    };
    let mut ids: Vec<&String> = technique.compare.iter().collect();
    ids.extend(priorities.iter().filter(|id| !technique.compare.contains(id)));
    let comparisons: Vec<Comparison> = ids
        .into_iter()
        .filter_map(|id| {
            let attribute = knowledge.attributes.get(id)?;
            compare(attribute, laboratory, home, counts(id))
        })
        .collect();
    let goals: Vec<Term> =
        goals.0.iter().filter_map(|aim| term(aim, laboratory, home, knowledge)).collect();
    let worst = comparisons.iter().filter(|c| c.counts).map(|c| c.steps).fold(0.0, f64::max);
    let shorts: Vec<f64> = goals.iter().map(|term| term.short).collect();
    let verdict = verdict(&shorts, worst);
    let time = home.time().map_or(f64::INFINITY, |time| time.typical());
    Score { goals, comparisons, verdict, worst, time }
}

/// Returns the verdict on a method that misses its goals, the essential one first, by so many noticed
/// steps, and is worse by so many at worst.
pub(super) fn verdict(shorts: &[f64], worst: f64) -> Verdict {
    let short = shorts.iter().skip(1).any(|short| *short > GOAL_SLACK_STEPS);
    match shorts.first() {
        Some(first) if *first > GOAL_SLACK_STEPS => Verdict::No,
        _ if short || worst > SMALL_STEPS => Verdict::RealLoss,
        _ if worst > UNNOTICED_STEPS => Verdict::SmallLoss,
        _ => Verdict::AsWritten,
    }
}

fn compare(
    attribute: &Attribute,
    laboratory: &Simulated,
    home: &Simulated,
    counts: bool,
) -> Option<Comparison> {
    let result = |simulated: &Simulated| {
        simulated.range(|feed, product| measure(&attribute.id, feed, product))
    };
    let (laboratory, home) = (result(laboratory)?, result(home)?);
    let steps = worse_by(attribute, laboratory.typical(), home.typical());
    Some(Comparison { attribute: attribute.id.clone(), laboratory, home, steps, counts })
}

/// Returns by how many noticed steps a result is worse than a reference; zero when it is not.
///
/// Two results that mean the same to the eater are at most one step apart.
pub(super) fn worse_by(attribute: &Attribute, reference: f64, result: f64) -> f64 {
    let worse = match attribute.better {
        Better::More => reference - result,
        Better::Less => result - reference,
        Better::Nearer => (result - reference).abs(),
    };
    if worse <= 0.0 {
        return 0.0;
    }
    let steps = steps(attribute, reference, result);
    let same_words =
        !attribute.levels.is_empty() && attribute.meaning(reference) == attribute.meaning(result);
    if same_words { steps.min(UNNOTICED_STEPS) } else { steps }
}

/// Returns the distance of two results in noticed steps.
fn steps(attribute: &Attribute, a: f64, b: f64) -> f64 {
    match &attribute.notice {
        Notice::Difference(value) => (a - b).abs() / value.typical(),
        Notice::Ratio(value) => {
            let is_share = attribute.better == Better::More;
            let floor = if is_share { SHARE_FLOOR } else { RATIO_FLOOR };
            (a.max(floor) / b.max(floor)).ln().abs() / value.typical().ln()
        }
    }
}

fn term(
    aim: &Aim,
    laboratory: &Simulated,
    home: &Simulated,
    knowledge: &Knowledge,
) -> Option<Term> {
    let attribute = knowledge.attributes.get(&aim.attribute)?;
    let median = |simulated: &Simulated| {
        let range = simulated.range(|feed, product| measure(&aim.attribute, feed, product));
        range.map(|range| range.typical())
    };
    let (result, reference) = (median(home)?, median(laboratory)?);
    let mut term = Term {
        goal: aim.name.clone(),
        attribute: aim.attribute.clone(),
        target: aim.target.typical(),
        at_least: aim.at_least,
        result,
        laboratory: reference,
        short: 0.0,
    };
    term.short = term.short_with(attribute, result);
    Some(term)
}
