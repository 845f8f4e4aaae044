//! Cautions: the usual ones of what is used, and those that a computed limit sets off.

use std::collections::BTreeMap;

use super::Simulated;
use crate::knowledge::{Condition, Hazard, Knowledge, Verdict as RuleVerdict};
use crate::process::Batch;

/// A caution that belongs to a method.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Caution {
    /// Id of the hazard.
    pub hazard: String,
    /// The signal word.
    pub signal: String,
    /// What to do and not to do.
    pub text: String,
    /// Whom to ask.
    pub defer: Option<String>,
    /// Whether a computed limit refuses the method.
    pub refuses: bool,
    /// What a computed limit says, when one was passed.
    pub computed: Option<String>,
}

/// Facts about a method, at the careful end of their range, in SI by name.
pub type Facts = BTreeMap<&'static str, f64>;

/// The share of samples that a fact must cover: the 90th percentile, or the 10th where low is worse.
const CAREFUL: [f64; 2] = [0.9, 0.1];

/// Returns the facts that the rules of hazards speak of.
pub fn facts(simulated: &Simulated) -> Facts {
    let mut facts = Facts::new();
    let mut worst = |name: &'static str, end: usize, of: &dyn Fn(&Batch, &Batch) -> f64| {
        if let Some(range) = simulated.range(|feed, product| Some(of(feed, product))) {
            facts.insert(name, range.quantile(CAREFUL[end]));
        }
    };
    worst("warm_hours", 0, &|feed, product| (product.heat.warm - feed.heat.warm).si());
    worst("hottest_temperature", 0, &|_, product| product.heat.hottest.kelvin());
    worst("food_ph", 0, &|_, product| product.ph);
    worst("alcohol_strength", 0, &|_, product| product.alcohol_by_volume());
    facts
}

/// Returns the cautions of a list of hazards, each once, with what their rules say of the facts.
pub fn cautions<'a>(
    hazards: impl Iterator<Item = &'a String>,
    facts: &Facts,
    knowledge: &Knowledge,
) -> Vec<Caution> {
    let mut found: Vec<Caution> = Vec::new();
    for id in hazards {
        let Some(hazard) = knowledge.hazards.get(id) else { continue };
        if found.iter().any(|caution| caution.hazard == *id) {
            continue;
        }
        found.extend(caution(hazard, facts));
    }
    found
}

/// The caution of one hazard; none when it has rules and none of them fires.
fn caution(hazard: &Hazard, facts: &Facts) -> Option<Caution> {
    let fired = hazard
        .rules
        .iter()
        .filter(|rule| rule.when.iter().all(|condition| holds(condition, facts)))
        .max_by_key(|rule| rule.verdict);
    if !hazard.rules.is_empty() && fired.is_none() {
        return None;
    }
    Some(Caution {
        hazard: hazard.id.clone(),
        signal: hazard.signal.clone(),
        text: hazard.caution.clone(),
        defer: hazard.defer.clone(),
        refuses: fired.is_some_and(|rule| rule.verdict == RuleVerdict::Refuse),
        computed: fired.map(|rule| rule.says.clone()),
    })
}

/// Returns whether a condition holds; one on an unknown fact does not.
fn holds(condition: &Condition, facts: &Facts) -> bool {
    facts.get(condition.fact.as_str()).is_some_and(|fact| {
        let above = condition.above.as_ref().is_none_or(|limit| *fact > limit.typical());
        let below = condition.below.as_ref().is_none_or(|limit| *fact < limit.typical());
        above && below
    })
}
