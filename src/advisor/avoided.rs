//! What a recipe holds that the eaters of a kitchen avoid.

use crate::kitchen::Kitchen;
use crate::knowledge::{Food, Knowledge};
use crate::recipe::Recipe;

/// Returns each ingredient that the kitchen avoids, with the word by which it does.
///
/// Nothing found does not mean that the dish is free from it: supplies and labels are not known.
pub fn avoided<'a>(
    recipe: &'a Recipe,
    kitchen: &'a Kitchen,
    knowledge: &'a Knowledge,
) -> Vec<(&'a Food, &'a str)> {
    let foods = recipe.ingredients.iter().filter_map(|one| knowledge.foods.get(&one.food));
    foods.filter_map(|food| Some((food, kitchen.avoids(food)?))).collect()
}
