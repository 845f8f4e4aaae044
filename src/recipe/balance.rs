//! The mass balance of a recipe, forwards and backwards.
//!
//! Forwards: what each step gets and gives. Backwards: when a home route gives less than the
//! laboratory, how much more must go in so that the dish stays the same size.
//! Symbols: r ratio of the home yield to the laboratory's, s share of a source that a step takes,
//! f factor by which the inputs of a step grow, n factor by which a product grows.

use super::{Makes, Recipe, Source, Step, Use};
use crate::quantity::Mass;

/// Why a balance cannot be drawn.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum BalanceError {
    /// The number of yields is not that of the steps.
    #[error("{given} yields for {steps} steps")]
    Count {
        /// The number of yields.
        given: usize,
        /// The number of steps.
        steps: usize,
    },
    /// A step gives nothing, or not a number, so that no shopping list reaches the dish.
    #[error("step {step} has a yield of {ratio}: it must be above zero")]
    NoYield {
        /// The number of the step, from 1.
        step: usize,
        /// The yield or ratio of yields.
        ratio: f64,
    },
}

/// How much more each ingredient and each step needs than in the laboratory.
#[derive(Debug, Clone, PartialEq)]
pub struct Needs {
    /// Factor on each ingredient.
    pub ingredients: Vec<f64>,
    /// Factor on what goes into each step.
    pub inputs: Vec<f64>,
    /// Factor on what each step makes; 1 for the dish.
    pub products: Vec<f64>,
}

impl Needs {
    /// The amounts of the recipe.
    pub fn as_written(recipe: &Recipe) -> Self {
        Self {
            ingredients: vec![1.0; recipe.ingredients.len()],
            inputs: vec![1.0; recipe.steps.len()],
            products: vec![1.0; recipe.steps.len()],
        }
    }

    /// Returns the share of a source that a step takes: `s f / n`, as what the other steps take of it
    /// grows otherwise.
    pub fn share(&self, step: usize, used: &Use) -> f64 {
        let grown = match used.source {
            Source::Ingredient(index) => self.ingredients[index],
            Source::Product(index) => self.products[index],
        };
        used.share * self.inputs[step] / grown
    }

    /// Returns the needs of a dish that is larger by a factor.
    #[must_use]
    pub fn times(&self, factor: f64) -> Self {
        let each = |list: &[f64]| list.iter().map(|one| one * factor).collect();
        Self {
            ingredients: each(&self.ingredients),
            inputs: each(&self.inputs),
            products: each(&self.products),
        }
    }

    /// Returns the largest change of an ingredient against other needs, as a share.
    pub fn moved(&self, from: &Self) -> f64 {
        let each = self.ingredients.iter().zip(&from.ingredients);
        each.map(|(own, before)| (own / before - 1.0).abs()).fold(0.0, f64::max)
    }
}

impl Recipe {
    /// Returns the recipe for another number of eaters: every amount times a factor. Times of plain work
    /// stay as they are stated.
    #[must_use]
    pub fn scaled(&self, factor: f64) -> Self {
        let mut scaled = self.clone();
        for one in &mut scaled.ingredients {
            one.bought = one.bought * factor;
            one.mass = one.mass * factor;
        }
        for step in &mut scaled.steps {
            step.yields = step.yields.map(|mass| mass * factor);
        }
        scaled.serves = self.serves.map(|serves| serves * factor);
        scaled.makes = self.makes.map(|makes| match makes {
            Makes::Mass(mass) => Makes::Mass(mass * factor),
            Makes::Volume(volume) => Makes::Volume(volume * factor),
        });
        scaled
    }

    /// Returns the factor on each ingredient that keeps the dish the same size.
    ///
    /// As [`Recipe::needs`].
    ///
    /// # Errors
    /// As [`Recipe::needs`].
    pub fn shopping_factors(&self, ratios: &[f64]) -> Result<Vec<f64>, BalanceError> {
        Ok(self.needs(ratios)?.ingredients)
    }

    /// Returns the factors that keep the dish the same size, when each step yields `ratios` times
    /// what it yields in the laboratory.
    ///
    /// The inputs of a step grow by `f = n / r`; a source that steps take shares `s` of, and of
    /// which the rest is kept, grows by `n = sum(s f) + (1 - sum(s))`.
    ///
    /// # Errors
    /// [`BalanceError::Count`] unless there is one ratio a step; [`BalanceError::NoYield`] for a
    /// ratio that is not above zero.
    pub fn needs(&self, ratios: &[f64]) -> Result<Needs, BalanceError> {
        self.check(ratios)?;
        let mut inputs = vec![1.0; self.steps.len()];
        let mut products = vec![1.0; self.steps.len()];
        for (index, ratio) in ratios.iter().enumerate().rev() {
            products[index] = self.need(Source::Product(index), &inputs);
            inputs[index] = products[index] / ratio;
        }
        let ingredient = |index| self.need(Source::Ingredient(index), &inputs);
        let ingredients = (0..self.ingredients.len()).map(ingredient).collect();
        Ok(Needs { ingredients, inputs, products })
    }

    /// Returns what each step makes, when it gives `yields` times the mass that goes in.
    ///
    /// # Errors
    /// As [`Recipe::needs`], for yields in place of ratios.
    pub fn masses(&self, yields: &[f64]) -> Result<Vec<Mass>, BalanceError> {
        self.check(yields)?;
        let mut made: Vec<Mass> = Vec::with_capacity(self.steps.len());
        for (step, ratio) in self.steps.iter().zip(yields) {
            made.push(self.input_mass(step, &made) * *ratio);
        }
        Ok(made)
    }

    /// Returns the mass that goes into a step, from what the steps before it made.
    pub fn input_mass(&self, step: &Step, made: &[Mass]) -> Mass {
        let of = |source| match source {
            Source::Ingredient(index) => self.ingredients[index].mass,
            Source::Product(index) => made[index],
        };
        step.uses.iter().map(|used| of(used.source) * used.share).sum()
    }

    /// Returns the factor on a source, from the factors on the inputs of the steps that use it.
    fn need(&self, source: Source, inputs: &[f64]) -> f64 {
        let mut need = 0.0;
        let mut kept = 1.0;
        for (step, input) in self.steps.iter().zip(inputs) {
            for used in step.uses.iter().filter(|used| used.source == source) {
                need += used.share * input;
                kept -= used.share;
            }
        }
        need + kept.max(0.0)
    }

    fn check(&self, ratios: &[f64]) -> Result<(), BalanceError> {
        let (given, steps) = (ratios.len(), self.steps.len());
        if given != steps {
            return Err(BalanceError::Count { given, steps });
        }
        match ratios.iter().position(|ratio| !(ratio.is_finite() && *ratio > 0.0)) {
            Some(index) => Err(BalanceError::NoYield { step: index + 1, ratio: ratios[index] }),
            None => Ok(()),
        }
    }
}
