//! Cautions: the usual ones of what is used, and those that a computed limit sets off.

use super::facts::Facts;
use crate::knowledge::{Condition, Food, Hazard, Knowledge, Rule, Supply, Verdict as RuleVerdict};

/// A caution that belongs to a method.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Caution {
    /// Id of the hazard.
    pub hazard: String,
    /// Its name.
    pub name: String,
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

impl Caution {
    /// Returns why a method is refused, with what the limit says.
    pub fn refusal(&self) -> String {
        let says = self.computed.as_ref().unwrap_or(&self.text);
        format!("refused, {}: {says}", self.name)
    }
}

/// What a method works on.
#[derive(Debug, Clone, Copy)]
pub struct Matter<'a> {
    /// Foods of the step.
    pub foods: &'a [&'a Food],
    /// Supplies that the method brings in.
    pub supplies: &'a [&'a Supply],
}

impl<'a> Matter<'a> {
    /// What a method works on that brings nothing in.
    pub const fn of(foods: &'a [&'a Food]) -> Self {
        Self { foods, supplies: &[] }
    }
}

/// Returns the cautions of a method: those of the hazards that it names, and those that its facts set
/// off anywhere; each once, in the order of severity, then of naming.
pub fn cautions<'a>(
    named: impl Iterator<Item = &'a String>,
    matter: Matter<'_>,
    facts: &Facts,
    knowledge: &Knowledge,
) -> Vec<Caution> {
    let mut found: Vec<Caution> = Vec::new();
    for hazard in concerning(named, matter, knowledge) {
        if !found.iter().any(|caution| caution.hazard == hazard.id) {
            found.extend(caution(hazard, facts));
        }
    }
    found.sort_by_key(|caution| std::cmp::Reverse((caution.refuses, caution.computed.is_some())));
    found
}

/// Returns the hazards that may concern a method on some foods: those that it names, and those
/// everywhere.
pub(super) fn concerning<'a, 'k>(
    named: impl Iterator<Item = &'a String>,
    matter: Matter<'_>,
    knowledge: &'k Knowledge,
) -> Vec<&'k Hazard> {
    let named = named.filter_map(|id| knowledge.hazards.get(id));
    let everywhere = knowledge.hazards.values().filter(|hazard| hazard.everywhere);
    named.chain(everywhere).filter(|hazard| concerns(hazard, matter)).collect()
}

/// Returns the caution by which hazards refuse a method, when its facts make one of them do so.
pub(super) fn refusal(hazards: &[&Hazard], facts: &Facts) -> Option<Caution> {
    let refuses = |hazard: &&&Hazard| {
        hazard.rules.iter().any(|rule| rule.verdict == RuleVerdict::Refuse && fires(rule, facts))
    };
    caution(hazards.iter().find(refuses)?, facts)
}

/// Returns whether one of some hazards may refuse by a fact.
pub(super) fn can_refuse(hazards: &[&Hazard], fact: &str) -> bool {
    let rules = hazards.iter().flat_map(|hazard| &hazard.rules);
    let mut refusing = rules.filter(|rule| rule.verdict == RuleVerdict::Refuse);
    refusing.any(|rule| rule.when.iter().any(|condition| condition.fact.as_str() == fact))
}

/// Returns whether a hazard concerns any food of a step, by id, group or allergen, or a supply by what
/// it brings in.
fn concerns(hazard: &Hazard, matter: Matter<'_>) -> bool {
    let food = |word: &String| {
        let goes_by =
            |food: &&Food| *word == food.id || *word == food.group || food.allergens.contains(word);
        matter.foods.iter().any(goes_by)
    };
    let supply = |word: &String| matter.supplies.iter().any(|one| one.allergens.contains(word));
    hazard.foods.is_empty() || hazard.foods.iter().any(|word| food(word) || supply(word))
}

/// The caution of one hazard; none when it has rules and none of them fires.
fn caution(hazard: &Hazard, facts: &Facts) -> Option<Caution> {
    let fired = hazard.rules.iter().filter(|rule| fires(rule, facts)).max_by_key(|r| r.verdict);
    if !hazard.rules.is_empty() && fired.is_none() {
        return None;
    }
    Some(Caution {
        hazard: hazard.id.clone(),
        name: hazard.name.clone(),
        signal: hazard.signal.clone(),
        text: hazard.caution.clone(),
        defer: hazard.defer.clone(),
        refuses: fired.is_some_and(|rule| rule.verdict == RuleVerdict::Refuse),
        computed: fired.map(|rule| rule.says.clone()),
    })
}

/// Returns whether a rule fires: all of its conditions hold, and there is at least one.
pub fn fires(rule: &Rule, facts: &Facts) -> bool {
    !rule.when.is_empty() && rule.when.iter().all(|condition| holds(condition, facts))
}

/// Returns whether a condition holds; one on an unknown fact does not.
fn holds(condition: &Condition, facts: &Facts) -> bool {
    facts.get(condition.fact.as_str()).is_some_and(|fact| {
        let above = condition.above.as_ref().is_none_or(|limit| *fact > limit.typical());
        let below = condition.below.as_ref().is_none_or(|limit| *fact < limit.typical());
        above && below
    })
}
