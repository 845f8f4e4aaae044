//! What a recipe holds that the eaters of a kitchen avoid.

use std::collections::BTreeSet;

use super::adaptation::{Adaptation, Advice};
use crate::kitchen::Kitchen;
use crate::knowledge::{Food, Knowledge, Supply};
use crate::recipe::Recipe;

/// Returns each ingredient that the kitchen avoids, with the word by which it does.
///
/// Nothing found does not mean that the dish is free from it: labels are not known.
pub fn avoided<'a>(
    recipe: &'a Recipe,
    kitchen: &'a Kitchen,
    knowledge: &'a Knowledge,
) -> Vec<(&'a Food, &'a str)> {
    let foods = recipe.ingredients.iter().filter_map(|one| knowledge.foods.get(&one.food));
    foods.filter_map(|food| Some((food, kitchen.avoids(food)?))).collect()
}

/// Returns the supplies of the chosen routes, each once.
pub fn supplies_used<'k>(done: &Adaptation, knowledge: &'k Knowledge) -> Vec<&'k Supply> {
    let needed = done.steps.iter().filter(|step| step.is_needed);
    let best = needed.filter_map(|step| match &step.advice {
        Advice::Professional(advice) => advice.routes.first(),
        Advice::Plain(_) => None,
    });
    let mut used: Vec<&Supply> = Vec::new();
    for (name, _) in best.flat_map(|method| &method.moves).flat_map(|one| &one.supplies) {
        let known = knowledge.supplies.values().find(|supply| supply.name == *name);
        used.extend(known.filter(|known| used.iter().all(|supply| supply.id != known.id)));
    }
    used
}

/// Returns the supplies of the chosen routes that the kitchen avoids, with the word by which it does.
pub fn avoided_supplies<'a>(
    done: &Adaptation,
    kitchen: &'a Kitchen,
    knowledge: &'a Knowledge,
) -> Vec<(&'a Supply, &'a str)> {
    let used = supplies_used(done, knowledge).into_iter();
    used.filter_map(|supply| Some((supply, kitchen.avoids_supply(supply)?))).collect()
}

/// Returns the allergens of what an adapted recipe is made of, supplies of its routes included.
///
/// Nothing found does not mean that the dish is free from them: labels are not known.
pub fn allergens<'a>(done: &'a Adaptation, knowledge: &'a Knowledge) -> BTreeSet<&'a str> {
    let needed = done.ingredients.iter().filter(|one| one.is_needed());
    let supplies = supplies_used(done, knowledge).into_iter();
    let all = needed.flat_map(|one| &one.allergens);
    all.chain(supplies.flat_map(|supply| &supply.allergens)).map(String::as_str).collect()
}
