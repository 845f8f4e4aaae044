//! Ingredients in the order in which they are used.

use super::measure::home_measure;
use super::{Material, professional};
use crate::estimate::Estimate;
use crate::knowledge::Supply as Known;
use crate::quantity::{Mass, cook_mass, range_text};
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
    /// What to buy, by kitchen; none where a product that is bought ready-made takes its place.
    pub amounts: Vec<Option<Amount>>,
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

/// A supply that goes into the dish, or a product that is bought ready-made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Supply<'a> {
    /// Its name.
    pub name: &'a str,
    /// How much of it, as the route says; none where only the method says it.
    pub dose: Option<String>,
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
        bought(adapted).filter(|one| one.is_needed()).map(|one| Amount {
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
        amounts: material.adapted.iter().map(amount).collect(),
        allergens: &food.allergens,
        avoided: avoided
            .filter_map(|(kitchen, adapted)| Some((kitchen, adapted.kitchen.avoids(food)?)))
            .collect(),
    })
}

/// Returns whether a supply is eaten: its name is that of a food, or it has a usual dose.
pub(super) fn is_eaten(supply: &Known) -> bool {
    supply.values.contains_key("usual_dose") || !supply.allergens.is_empty()
}

/// Lists what the chosen routes put into the dish beside the ingredients, and what is bought
/// ready-made, by kitchen and step.
pub fn supplies<'a>(material: &Material<'a>) -> Vec<Supply<'a>> {
    let eaten = |name: &str| {
        let known = material.knowledge.supplies.values().find(|supply| supply.name == name);
        known.is_some_and(is_eaten)
    };
    let mut all = Vec::new();
    for (kitchen, adapted) in material.adapted.iter().enumerate() {
        for (step, advice) in professional(adapted) {
            let Some(best) = advice.routes.first() else { continue };
            let product = step.product.as_str();
            if best.bought {
                let dose = step.makes.as_ref().map(cook_range);
                all.push(Supply { name: &best.name, dose, product, kitchen });
            }
            let used = best.moves.iter().flat_map(|one| &one.supplies);
            let used = used.filter(|(name, dose)| dose.is_some() || eaten(name));
            all.extend(used.map(|(name, dose)| Supply {
                name,
                dose: dose.clone(),
                product,
                kitchen,
            }));
        }
    }
    all
}

/// Writes the range of a mass \[kg\].
fn cook_range(mass: &Estimate) -> String {
    let show = |kg| cook_mass(Mass::from_kilograms(kg));
    range_text(&show(mass.low()), &show(mass.high()))
}
