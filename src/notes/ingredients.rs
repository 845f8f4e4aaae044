//! Ingredients in the order in which they are used.

use super::Material;
use super::measure::home_measure;
use crate::advisor::AdaptedIngredient;
use crate::quantity::Mass;
use crate::recipe::{Recipe, Source};

/// A home amount that differs from the recipe's by less than this share is the recipe's.
const SAME_AMOUNT: f64 = 0.02;

/// An ingredient in every kitchen.
#[derive(Debug)]
pub struct Ingredient<'a> {
    /// Name of the food.
    pub name: &'a str,
    /// The amount as the author wrote it.
    pub written: &'a str,
    /// The author's note; empty when there is none.
    pub note: &'a str,
    /// In which steps it is used, from 0.
    pub used_in: Vec<usize>,
    /// What to buy, by kitchen.
    pub amounts: Vec<Amount>,
    /// Allergens that it holds.
    pub allergens: &'a [String],
    /// Which kitchens avoid it, and by which word.
    pub avoided: Vec<(usize, &'a str)>,
}

/// How much of an ingredient a kitchen buys.
#[derive(Debug, Clone, PartialEq)]
pub struct Amount {
    /// What to buy.
    pub mass: Mass,
    /// What is left after trimming, where something is trimmed away.
    pub trimmed: Option<Mass>,
    /// Home amount over the amount in the recipe.
    pub factor: f64,
    /// Whether it is the amount in the recipe.
    pub as_written: bool,
    /// Cups, spoons or pieces beside the weight.
    pub home_measure: Option<String>,
}

/// A supply that a home route uses up and that goes on the shopping list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Supply<'a> {
    /// Its name.
    pub name: &'a str,
    /// How much of it, as the route says.
    pub dose: &'a str,
    /// For which step.
    pub product: &'a str,
    /// In which kitchen.
    pub kitchen: usize,
}

/// Lists the ingredients by first use; what no step uses comes last.
pub(super) fn ingredients<'a>(material: &Material<'a>) -> Vec<Ingredient<'a>> {
    let recipe = material.recipe;
    let mut order: Vec<usize> = (0..recipe.ingredients.len()).collect();
    let used: Vec<Vec<usize>> = order.iter().map(|index| used_in(recipe, *index)).collect();
    order.sort_by_key(|index| (used[*index].first().copied().unwrap_or(usize::MAX), *index));
    let each = order.into_iter().filter_map(|index| one(material, index, used[index].clone()));
    each.collect()
}

fn used_in(recipe: &Recipe, ingredient: usize) -> Vec<usize> {
    let uses = |step: &crate::recipe::Step| {
        step.uses.iter().any(|used| used.source == Source::Ingredient(ingredient))
    };
    let steps = recipe.steps.iter().enumerate();
    steps.filter(|(_, step)| uses(step)).map(|(index, _)| index).collect()
}

fn one<'a>(material: &Material<'a>, index: usize, used_in: Vec<usize>) -> Option<Ingredient<'a>> {
    let stated = material.recipe.ingredients.get(index)?;
    let food = material.knowledge.foods.get(&stated.food)?;
    let bought = |adapted: &super::Adapted<'a>| adapted.adaptation.ingredients.get(index);
    let amount = |adapted: &super::Adapted<'a>| {
        bought(adapted).map(|one| Amount {
            mass: one.bought,
            trimmed: (one.trimmed < one.bought).then_some(one.trimmed),
            factor: one.factor,
            as_written: (one.factor - 1.0).abs() <= SAME_AMOUNT,
            home_measure: home_measure(one.bought, food, &stated.shares, adapted.kitchen.measures),
        })
    };
    let avoided = material.adapted.iter().enumerate();
    Some(Ingredient {
        name: &food.name,
        written: &stated.written,
        note: &stated.note,
        used_in,
        amounts: material.adapted.iter().filter_map(amount).collect(),
        allergens: material.adapted.first().and_then(bought).map_or(&[], allergens),
        avoided: avoided
            .filter_map(|(kitchen, adapted)| Some((kitchen, adapted.kitchen.avoids(food)?)))
            .collect(),
    })
}

fn allergens(one: &AdaptedIngredient) -> &[String] {
    &one.allergens
}

/// Lists the supplies that the chosen routes use up, by kitchen and step.
pub fn supplies<'a>(material: &Material<'a>) -> Vec<Supply<'a>> {
    let mut all = Vec::new();
    for (kitchen, adapted) in material.adapted.iter().enumerate() {
        for (product, advice) in super::professional(adapted) {
            let Some(best) = advice.routes.first() else { continue };
            let doses = best.moves.iter().flat_map(|one| &one.supplies);
            all.extend(doses.filter_map(|(name, dose)| {
                Some(Supply { name, dose: dose.as_deref()?, product, kitchen })
            }));
        }
    }
    all
}
