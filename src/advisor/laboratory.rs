//! The laboratory's way through a recipe, which is the same for every home.

use std::sync::Arc;

use super::advice::StepError;
use super::feed::feeds;
use super::home::{Batches, Stock, all_samples, middle};
use super::reference::{Foods, Reference};
use super::{AdaptError, Sampler};
use crate::knowledge::{Knowledge, Value, ValueMap};
use crate::process::Batch;
use crate::quantity::Time;
use crate::recipe::{Needs, Professional, Recipe, Source, Step, Task, Work};

/// What a food is that the knowledge base has no values of.
static NO_VALUES: ValueMap = ValueMap::new();

/// Id of the food that is water.
const WATER: &str = "water";

/// What the laboratory makes of a recipe.
pub(super) struct Laboratory<'a> {
    /// The recipe.
    recipe: &'a Recipe,
    knowledge: &'a Knowledge,
    /// Its steps.
    pub(super) steps: Vec<Done<'a>>,
    /// What it has and makes.
    pub(super) stock: Stock,
    /// What goes into each step, by sample \[kg\].
    feeds: Vec<Vec<f64>>,
}

/// A step that the laboratory has done.
pub(super) enum Done<'a> {
    /// Plain work.
    Plain(Arc<Chore>),
    /// A professional step.
    Professional(Arc<Reference<'a>>),
}

/// Plain work with its draws, one a sample.
pub(super) struct Chore {
    loss: Vec<f64>,
    attended: Vec<f64>,
    time: Vec<f64>,
}

impl Chore {
    fn of(product: &str, work: &Work, sampler: &Sampler) -> Self {
        let draws = |what: &str, value: &Option<Value>| -> Vec<f64> {
            let column = sampler.column(&format!("work/{product}/{what}"));
            let each = column.iter();
            each.map(|u| value.as_ref().map_or(0.0, |v| v.estimate.quantile(*u))).collect()
        };
        Self {
            loss: draws("loss", &work.loss),
            attended: draws("hands_on", &work.hands_on),
            time: draws("time", &work.time),
        }
    }

    /// Plain work changes neither side but by its stated loss and time.
    pub(super) fn done(&self, batches: &[Batch]) -> Batches {
        let each = batches.iter().enumerate();
        each.map(|(sample, batch)| {
            let mut left = batch.part(1.0 - self.loss[sample].clamp(0.0, 1.0));
            let attended = self.attended[sample];
            left.wait(
                Time::from_seconds(self.time[sample].max(attended)),
                Time::from_seconds(attended),
            );
            left
        })
        .collect()
    }
}

impl<'a> Laboratory<'a> {
    /// Walks the laboratory through a recipe. What its moves do goes on record only when the whole is
    /// asked for.
    ///
    /// # Errors
    /// [`AdaptError`] for an ingredient or a step that cannot be simulated.
    pub(super) fn walk(
        recipe: &'a Recipe,
        knowledge: &'a Knowledge,
        sampler: &Sampler,
        whole: bool,
    ) -> Result<Self, AdaptError> {
        let ingredients = recipe.ingredients.iter().map(|ingredient| {
            feeds(ingredient, knowledge, sampler)
                .map(Arc::from)
                .map_err(|error| AdaptError::Feed { ingredient: ingredient.id.clone(), error })
        });
        let stock =
            Stock { ingredients: ingredients.collect::<Result<_, _>>()?, products: Vec::new() };
        let mut laboratory =
            Self { recipe, knowledge, steps: Vec::new(), stock, feeds: Vec::new() };
        let written = Needs::as_written(recipe);
        for (index, step) in recipe.steps.iter().enumerate() {
            let feed = laboratory.stock.feed(index, step, &written);
            let (done, made) = match &step.task {
                Task::Plain(work) => {
                    let chore = Chore::of(&step.product, work, sampler);
                    let made = chore.done(&feed);
                    (Done::Plain(Arc::new(chore)), made)
                }
                Task::Professional(task) => {
                    let reference = laboratory.reference(step, task, &feed, (sampler, whole))?;
                    let made = all_samples(&reference.method.simulated, &feed);
                    (Done::Professional(Arc::new(reference)), made)
                }
            };
            laboratory.feeds.push(feed.iter().map(|batch| batch.mass().si()).collect());
            laboratory.steps.push(done);
            laboratory.stock.products.push(made);
        }
        Ok(laboratory)
    }

    fn reference(
        &self,
        step: &Step,
        task: &'a Professional,
        feed: &[Batch],
        (sampler, whole): (&Sampler, bool),
    ) -> Result<Reference<'a>, AdaptError> {
        let failed = |error: StepError| AdaptError::Step { step: step.product.clone(), error };
        let foods = &self.knowledge.foods;
        let food = self.main_food(step).and_then(|id| foods.get(id));
        let food = Foods {
            names: food.map(|food| (food.id.as_str(), food.group.as_str())),
            values: food.map_or(&NO_VALUES, |food| &food.values),
            all: self.recipe.foods_in(step).filter_map(|id| foods.get(id)).collect(),
        };
        let means = (self.knowledge, sampler);
        Reference::simulate(task, food, feed, means, whole).map_err(failed)
    }

    /// The food that makes up most of a step in the laboratory, through the steps before it; the water
    /// that something is steeped or cooked in counts only where there is nothing else.
    fn main_food(&self, step: &Step) -> Option<&'a str> {
        let is_water = |source: Source| match source {
            Source::Ingredient(index) => self.recipe.ingredients[index].food == WATER,
            Source::Product(_) => false,
        };
        let mass = |source: Source| {
            let mass = self.stock.of(source).first().map_or(0.0, |batch| batch.mass().si());
            if is_water(source) { 0.0 } else { mass }
        };
        let main = step
            .uses
            .iter()
            .max_by(|a, b| (mass(a.source) * a.share).total_cmp(&(mass(b.source) * b.share)))?;
        match main.source {
            Source::Ingredient(index) => Some(self.recipe.ingredients[index].food.as_str()),
            Source::Product(index) => self.main_food(&self.recipe.steps[index]),
        }
    }

    /// Yield of a step at the median.
    pub(super) fn yielded(&self, index: usize) -> f64 {
        let made = self.stock.products[index].iter().zip(&self.feeds[index]);
        middle(made.map(|(made, feed)| made.mass().si() / feed))
    }

    /// Returns what the laboratory makes in a step of what the home has for it.
    pub(super) fn made_of(&self, index: usize, feed: &[Batch]) -> Batches {
        let made = self.stock.products[index].iter().zip(&self.feeds[index]).zip(feed);
        made.map(|((made, own), feed)| made.part(feed.mass().si() / own)).collect()
    }
}
