//! Does the kitchen own what a route needs?

use crate::kitchen::{Kitchen, Owned};
use crate::knowledge::{Dose, Knowledge, Move, Route, Supply};

/// What a kitchen lacks for a route.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Missing {
    /// Any one of these appliances.
    Appliance(Need),
    /// Any one of these supplies.
    Supply(Need),
    /// The route does not suit the food.
    Food(String),
}

/// One need: the ids or roles that would do, and their names in plain words.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Need {
    /// Ids or roles.
    pub any_of: Vec<String>,
    /// Names of what would do, the first two.
    pub names: String,
}

/// Which of the kitchen's appliances each move uses, or what is missing.
#[derive(Debug, Clone, PartialEq)]
pub struct Fit<'a> {
    /// Appliances by move.
    pub appliances: Vec<Vec<&'a Owned>>,
    /// What is missing, without repeats.
    pub missing: Vec<Missing>,
}

/// Matches a route with a kitchen.
pub fn fit<'a>(
    route: &Route,
    food: Option<(&str, &str)>,
    kitchen: &'a Kitchen,
    knowledge: &Knowledge,
) -> Fit<'a> {
    let mut missing = Vec::new();
    if let Some((id, group)) = food {
        let suits = route.foods.iter().any(|word| word == id || word == group);
        if !route.foods.is_empty() && !suits {
            missing.push(Missing::Food(route.foods.join(", ")));
        }
    }
    let appliances =
        route.moves.iter().map(|one| gear(one, kitchen, knowledge, &mut missing)).collect();
    for dose in route.moves.iter().flat_map(|one| &one.supplies) {
        if !dose.any_of.iter().any(|role| kitchen.has_supply(role, knowledge)) {
            missing.push(Missing::Supply(supply_need(dose, knowledge)));
        }
    }
    missing.sort();
    missing.dedup();
    Fit { appliances, missing }
}

fn gear<'a>(
    one: &Move,
    kitchen: &'a Kitchen,
    knowledge: &Knowledge,
    missing: &mut Vec<Missing>,
) -> Vec<&'a Owned> {
    let mut found = Vec::new();
    for any_of in &one.uses {
        let serving = || kitchen.appliances.iter();
        // An appliance that is the thing itself comes before one that only fills the role.
        let exact = any_of.iter().find_map(|role| serving().find(|owned| owned.id == *role));
        // Of what fills a role, the plainest: a saucepan before a pressure cooker.
        let dangers = |owned: &&Owned| {
            knowledge.appliances.get(&owned.id).map_or(0, |appliance| appliance.hazards.len())
        };
        let filling = || {
            any_of.iter().find_map(|role| {
                serving().filter(|owned| owned.serves_as(role)).min_by_key(dangers)
            })
        };
        match exact.or_else(filling) {
            Some(owned) => found.push(owned),
            None => missing.push(Missing::Appliance(appliance_need(any_of, knowledge))),
        }
    }
    found
}

/// The supply that a kitchen holds for a dose; the first that would do when no kitchen is given.
pub(super) fn supply_for<'k>(
    dose: &'k Dose,
    kitchen: Option<&Kitchen>,
    knowledge: &'k Knowledge,
) -> Option<&'k Supply> {
    let held = |id: &str| kitchen.is_none_or(|kitchen| kitchen.supplies.iter().any(|s| s == id));
    let roles = dose.any_of.iter().flat_map(|role| knowledge.supplies_serving(role));
    let held: Vec<&Supply> = roles.filter(|supply| held(&supply.id)).collect();
    let avoided = |supply: &Supply| kitchen.is_some_and(|k| k.avoids_supply(supply).is_some());
    held.iter().find(|supply| !avoided(supply)).or(held.first()).copied()
}

/// Returns the supplies that a move uses up, of those that a kitchen holds.
pub fn supplied<'k>(
    one: &'k Move,
    kitchen: Option<&Kitchen>,
    knowledge: &'k Knowledge,
) -> Vec<&'k Supply> {
    one.supplies.iter().filter_map(|dose| supply_for(dose, kitchen, knowledge)).collect()
}

/// Returns the supplies that a route brings in, of those that a kitchen holds.
pub(super) fn brought_in<'k>(
    route: &'k Route,
    kitchen: &Kitchen,
    knowledge: &'k Knowledge,
) -> Vec<&'k Supply> {
    route.moves.iter().flat_map(|one| supplied(one, Some(kitchen), knowledge)).collect()
}

fn appliance_need(any_of: &[String], knowledge: &Knowledge) -> Need {
    let serving = any_of.iter().flat_map(|role| knowledge.appliances_serving(role));
    let names: Vec<&str> = serving
        .filter(|appliance| appliance.found != crate::knowledge::Found::Laboratory)
        .map(|appliance| appliance.name.as_str())
        .collect();
    Need { any_of: any_of.to_vec(), names: either(&names, any_of) }
}

fn supply_need(dose: &Dose, knowledge: &Knowledge) -> Need {
    let serving = dose.any_of.iter().flat_map(|role| knowledge.supplies_serving(role));
    let names: Vec<&str> = serving.map(|supply| supply.name.as_str()).collect();
    Need { any_of: dose.any_of.clone(), names: either(&names, &dose.any_of) }
}

/// Names the first two of what would do; what fills several roles is named once.
fn either(names: &[&str], roles: &[String]) -> String {
    let Some(first) = names.first() else { return roles.join(" or ") };
    match names.iter().find(|name| *name != first) {
        Some(other) => format!("{first} or {other}"),
        None => (*first).to_owned(),
    }
}
