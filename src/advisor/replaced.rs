//! What a product that is bought ready-made makes superfluous: the steps before it, and what would
//! have gone into them.

use crate::recipe::{Needs, Recipe, Source};

/// A source of which steps take more than this share is used up.
const USED_UP: f64 = 1.0 - 1e-9;

/// What is superfluous.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Replaced {
    /// Whether each step is bought ready-made.
    bought: Vec<bool>,
    /// Whether each step has nothing to do.
    steps: Vec<bool>,
    /// The share of each ingredient that is still needed.
    pub(super) ingredients: Vec<f64>,
}

impl Replaced {
    /// Finds what is superfluous, from the last step back. A step of whose product something is kept
    /// aside is not.
    pub(super) fn of(recipe: &Recipe, needs: &Needs, bought: &[bool]) -> Self {
        let count = recipe.steps.len();
        let bought: Vec<bool> =
            (0..count).map(|step| bought.get(step).copied().unwrap_or(false)).collect();
        let ingredients = vec![1.0; recipe.ingredients.len()];
        let mut found = Self { bought, steps: vec![false; count], ingredients };
        if !found.bought.contains(&true) {
            return found;
        }
        for step in (0..count.saturating_sub(1)).rev() {
            found.steps[step] = found.idle_share(Source::Product(step), recipe, needs) > USED_UP;
        }
        for index in 0..found.ingredients.len() {
            let idle = found.idle_share(Source::Ingredient(index), recipe, needs);
            found.ingredients[index] = if idle > USED_UP { 0.0 } else { 1.0 - idle };
        }
        found
    }

    /// The share of a source that goes to steps which do not need it.
    fn idle_share(&self, source: Source, recipe: &Recipe, needs: &Needs) -> f64 {
        let steps = recipe.steps.iter().enumerate().filter(|(index, _)| self.is_idle(*index));
        let uses = steps.flat_map(|(index, step)| step.uses.iter().map(move |one| (index, one)));
        uses.filter(|(_, one)| one.source == source)
            .map(|(index, one)| needs.share(index, one))
            .sum()
    }

    /// Returns whether a step needs nothing of what the recipe puts in: it is bought, or superfluous.
    pub(super) fn is_idle(&self, step: usize) -> bool {
        self.bought[step] || self.steps[step]
    }

    /// Returns whether a step is still needed.
    pub(super) fn needs(&self, step: usize) -> bool {
        !self.steps[step]
    }
}
