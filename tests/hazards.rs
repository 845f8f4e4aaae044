//! Computed hazards fire exactly where their limit says.

#![allow(clippy::unwrap_used, reason = "a test stops at the first fault")]

use standin::advisor::{Facts, Matter, cautions, fires};
use standin::knowledge::{Condition, Knowledge, Rule};

/// How far to either side of a limit the rule is tried, as a share of the limit.
const STEP: f64 = 1e-6;

/// A fact well inside a condition, and just outside and just inside each of its limits.
fn inside(condition: &Condition) -> f64 {
    let limit = |value: &Option<standin::knowledge::Value>| value.as_ref().map(|v| v.typical());
    match (limit(&condition.above), limit(&condition.below)) {
        (Some(above), Some(below)) => f64::midpoint(above, below),
        (Some(above), None) => above * (1.0 + STEP) + STEP,
        (None, Some(below)) => below * (1.0 - STEP) - STEP,
        (None, None) => unreachable!("a condition has a limit"),
    }
}

fn all_inside(rule: &Rule) -> Facts {
    rule.when.iter().map(|condition| (condition.fact.clone(), inside(condition))).collect()
}

#[test]
fn each_rule_fires_exactly_where_its_limit_says() {
    let knowledge = Knowledge::embedded().unwrap();
    let mut rules = 0;
    for hazard in knowledge.hazards.values() {
        for rule in &hazard.rules {
            rules += 1;
            let facts = all_inside(rule);
            assert!(fires(rule, &facts), "{}: {facts:?}", hazard.id);
            for condition in &rule.when {
                for (limit, outwards) in [(&condition.above, -1.0), (&condition.below, 1.0)] {
                    let Some(limit) = limit else { continue };
                    let mut at = facts.clone();
                    at.insert(condition.fact.clone(), limit.typical());
                    assert!(!fires(rule, &at), "{} fires at its limit", hazard.id);
                    let beyond = limit.typical() + outwards * STEP * limit.typical().abs();
                    at.insert(condition.fact.clone(), beyond);
                    assert!(!fires(rule, &at), "{} fires before its limit", hazard.id);
                }
                let mut unknown = facts.clone();
                unknown.remove(&condition.fact);
                assert!(!fires(rule, &unknown), "{} fires on an unknown fact", hazard.id);
            }
        }
    }
    assert!(rules >= 10, "{rules} computed rules");
}

#[test]
fn every_fact_of_a_rule_names_its_published_limit() {
    let knowledge = Knowledge::embedded().unwrap();
    for hazard in knowledge.hazards.values() {
        for condition in hazard.rules.iter().flat_map(|rule| &rule.when) {
            let limits = [&condition.above, &condition.below];
            for limit in limits.into_iter().flatten() {
                let origin = limit.provenance.to_string();
                assert!(!origin.is_empty(), "{}: {}", hazard.id, condition.fact);
            }
        }
    }
}

#[test]
fn a_hazard_of_some_foods_names_foods_that_exist() {
    let knowledge = Knowledge::embedded().unwrap();
    for hazard in knowledge.hazards.values() {
        for word in &hazard.foods {
            let known = knowledge.foods.values().any(|food| {
                *word == food.id || *word == food.group || food.allergens.contains(word)
            });
            assert!(known, "{}: no food goes by `{word}`", hazard.id);
        }
    }
}

#[test]
fn raw_egg_is_warned_of_where_there_is_egg_and_nowhere_else() {
    let knowledge = Knowledge::embedded().unwrap();
    let warned = |food: &str, kelvin: f64, reductions: f64| {
        let facts = Facts::from([
            ("hottest_temperature".to_owned(), kelvin),
            ("salmonella_reduction".to_owned(), reductions),
        ]);
        let found =
            cautions(std::iter::empty(), Matter::of(&[&knowledge.foods[food]]), &facts, &knowledge);
        found.iter().any(|caution| caution.hazard == "raw-egg")
    };
    assert!(warned("egg", 277.0, 0.0));
    assert!(!warned("buttermilk", 277.0, 0.0));
    // Pasteurised in the shell at 57 °C: five decimal reductions are enough below 71 °C.
    assert!(warned("egg", 330.0, 4.9));
    assert!(!warned("egg", 330.0, 5.1));
}
