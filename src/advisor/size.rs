//! How much is made: as written, for a number of eaters, an amount of the dish, or from what there is.

use super::choose::Combination;
use crate::quantity::{Mass, Volume};
use crate::recipe::{Makes, Recipe};

/// How much the cook wants.
#[derive(Debug, Clone, PartialEq, Default)]
pub enum Size {
    /// As much as the recipe makes.
    #[default]
    AsWritten,
    /// As many times the recipe, whatever the routes yield.
    Times(f64),
    /// So much of the dish.
    Makes(Makes),
    /// As much as can be made of what there is.
    Have(Vec<Have>),
}

/// What there is of an ingredient.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Have {
    /// Index of the ingredient in the recipe.
    pub ingredient: usize,
    /// Mass as bought.
    pub mass: Mass,
}

/// How an adapted recipe was sized.
#[derive(Debug, Clone, PartialEq)]
pub struct Sizing {
    /// Size of the dish over the recipe's.
    pub scale: f64,
    /// By how much the amounts were brought to that size once the yields were known on all samples.
    pub fitted: f64,
    /// Index of the ingredient that was the scarcest of those that the cook has.
    pub scarcest: Option<usize>,
}

impl Size {
    /// Returns the size of the dish over the recipe's, as far as it is known before any route is run.
    pub(super) fn guess(&self, recipe: &Recipe) -> f64 {
        match (self, recipe.makes) {
            (Self::Times(factor), _) => *factor,
            (Self::Makes(Makes::Mass(wanted)), Some(Makes::Mass(written))) => *wanted / written,
            (Self::Makes(Makes::Volume(wanted)), Some(Makes::Volume(written))) => *wanted / written,
            (Self::Have(_), _) => self.limit(recipe, &vec![1.0; recipe.ingredients.len()]).0,
            (Self::AsWritten | Self::Makes(_), _) => 1.0,
        }
    }

    /// Returns whether the size depends on what the routes yield.
    pub(super) const fn follows_yields(&self) -> bool {
        matches!(self, Self::Makes(_) | Self::Have(_))
    }

    /// Returns by which factor everything must still grow, for a dish that takes so much of each
    /// ingredient of a recipe and makes so much.
    pub(super) fn correction(&self, recipe: &Recipe, factors: &[f64], made: (Mass, Volume)) -> f64 {
        let share = match self {
            Self::AsWritten | Self::Times(_) => 1.0,
            Self::Makes(Makes::Mass(wanted)) => *wanted / made.0,
            Self::Makes(Makes::Volume(wanted)) => *wanted / made.1,
            Self::Have(_) => self.limit(recipe, factors).0,
        };
        if share.is_finite() && share > 0.0 { share } else { 1.0 }
    }

    /// As [`Size::correction`], of a combination of routes.
    pub(super) fn correction_of(&self, recipe: &Recipe, done: &Combination) -> f64 {
        self.correction(recipe, &done.needs.ingredients, (done.mass, done.volume))
    }

    /// Returns how many times what is needed there is of the scarcest ingredient, and which one it is.
    pub(super) fn limit(&self, recipe: &Recipe, factors: &[f64]) -> (f64, Option<usize>) {
        let Self::Have(have) = self else { return (1.0, None) };
        let shares = have.iter().map(|have| {
            let needed = recipe.ingredients[have.ingredient].bought * factors[have.ingredient];
            (have.mass / needed, have.ingredient)
        });
        let least = shares.min_by(|a, b| a.0.total_cmp(&b.0));
        least.map_or((1.0, None), |(share, ingredient)| (share, Some(ingredient)))
    }
}
