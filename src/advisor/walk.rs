//! Carrying a recipe through laboratory and home, step by step.
//!
//! The laboratory is walked once; the home as often as routes or amounts are tried.

use std::sync::Arc;

use super::advice::StepError;
use super::feed::feeds;
use super::home::{Batches, Home, Served, Stock, all_samples, middle};
use super::ledger::Line;
use super::step::{Foods, Station};
use super::{AdaptError, Bench};
use crate::knowledge::{Value, ValueMap};
use crate::process::Batch;
use crate::quantity::Time;
use crate::recipe::{BalanceError, Needs, Professional, Recipe, Source, Step, Task, Work};

/// What a food is that the knowledge base has no values of.
static NO_VALUES: ValueMap = ValueMap::new();

/// Id of the food that is water.
const WATER: &str = "water";

/// Plain work with its draws, one a sample.
pub(super) struct Chore {
    loss: Vec<f64>,
    attended: Vec<f64>,
    time: Vec<f64>,
}

impl Chore {
    fn of(product: &str, work: &Work, bench: &Bench<'_>) -> Self {
        let draws = |what: &str, value: &Option<Value>| -> Vec<f64> {
            let column = bench.sampler.column(&format!("work/{product}/{what}"));
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
    fn done(&self, batches: &[Batch]) -> Batches {
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

/// A step made ready.
pub(super) enum Ready<'a> {
    /// Plain work.
    Plain(Chore),
    /// A professional step.
    Professional(Box<Station<'a>>),
}

/// A recipe made ready: what the laboratory makes of it, and the stations of its steps.
pub(super) struct Prepared<'a> {
    /// The recipe.
    pub(super) recipe: &'a Recipe,
    /// What is known.
    pub(super) bench: Bench<'a>,
    /// Its steps.
    pub(super) steps: Vec<Ready<'a>>,
    /// What the laboratory has and makes.
    pub(super) laboratory: Stock,
    /// What goes into each step in the laboratory, by sample \[kg\].
    feeds: Vec<Vec<f64>>,
}

impl<'a> Prepared<'a> {
    /// Walks the laboratory through the recipe.
    ///
    /// # Errors
    /// [`AdaptError`] for an ingredient or a step that cannot be simulated.
    pub(super) fn set_up(recipe: &'a Recipe, bench: Bench<'a>) -> Result<Self, AdaptError> {
        Self::walked(recipe, bench, true)
    }

    /// Walks the laboratory through the recipe without a record of what its moves do: for those who ask
    /// for results alone.
    ///
    /// # Errors
    /// As [`Prepared::set_up`].
    pub(super) fn brief(recipe: &'a Recipe, bench: Bench<'a>) -> Result<Self, AdaptError> {
        Self::walked(recipe, bench, false)
    }

    fn walked(recipe: &'a Recipe, bench: Bench<'a>, whole: bool) -> Result<Self, AdaptError> {
        let mut prepared = Self {
            recipe,
            bench,
            steps: Vec::new(),
            laboratory: Stock { ingredients: Vec::new(), products: Vec::new() },
            feeds: Vec::new(),
        };
        let written = Needs::as_written(recipe);
        prepared.laboratory.ingredients = prepared.ingredients(&written.ingredients)?;
        for (index, step) in recipe.steps.iter().enumerate() {
            let feed = prepared.laboratory.feed(index, step, &written);
            let (ready, made) = match &step.task {
                Task::Plain(work) => {
                    let chore = Chore::of(&step.product, work, &bench);
                    let made = chore.done(&feed);
                    (Ready::Plain(chore), made)
                }
                Task::Professional(task) => {
                    let station = prepared.station(step, task, &feed, whole)?;
                    let made = all_samples(&station.laboratory.simulated, &feed);
                    (Ready::Professional(Box::new(station)), made)
                }
            };
            prepared.feeds.push(feed.iter().map(|batch| batch.mass().si()).collect());
            prepared.steps.push(ready);
            prepared.laboratory.products.push(made);
        }
        Ok(prepared)
    }

    fn station(
        &self,
        step: &Step,
        task: &'a Professional,
        feed: &[Batch],
        whole: bool,
    ) -> Result<Station<'a>, AdaptError> {
        let failed = |error: StepError| AdaptError::Step { step: step.product.clone(), error };
        let foods = &self.bench.knowledge.foods;
        let food = self.main_food(step).and_then(|id| foods.get(id));
        let food = Foods {
            names: food.map(|food| (food.id.as_str(), food.group.as_str())),
            values: food.map_or(&NO_VALUES, |food| &food.values),
            all: self.recipe.foods_in(step).filter_map(|id| foods.get(id)).collect(),
        };
        Station::set_up(task, food, feed, self.bench, whole).map_err(failed)
    }

    /// The food that makes up most of a step in the laboratory, through the steps before it; the water
    /// that something is steeped or cooked in counts only where there is nothing else.
    fn main_food(&self, step: &Step) -> Option<&'a str> {
        let is_water = |source: Source| match source {
            Source::Ingredient(index) => self.recipe.ingredients[index].food == WATER,
            Source::Product(_) => false,
        };
        let mass = |source: Source| {
            let mass = self.laboratory.of(source).first().map_or(0.0, |batch| batch.mass().si());
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

    fn ingredients(&self, factors: &[f64]) -> Result<Vec<Batches>, AdaptError> {
        let each = self.recipe.ingredients.iter().zip(factors);
        each.map(|(ingredient, factor)| {
            feeds(ingredient, *factor, self.bench.knowledge, self.bench.sampler)
                .map(Arc::from)
                .map_err(|error| AdaptError::Feed { ingredient: ingredient.id.clone(), error })
        })
        .collect()
    }

    /// Lays out the ingredients at home in the amounts that are needed.
    ///
    /// # Errors
    /// [`AdaptError`] for an ingredient that makes no batch.
    pub(super) fn start(&self, needs: Needs) -> Result<Home, AdaptError> {
        let ingredients = self.ingredients(&needs.ingredients)?;
        Ok(Home::lay_out(needs, ingredients, self.recipe))
    }

    /// Mixes what goes into a step at home, sample by sample.
    pub(super) fn feed(&self, index: usize, home: &Home) -> Vec<Batch> {
        home.stock.feed(index, &self.recipe.steps[index], &home.needs)
    }

    /// Does plain work at home.
    pub(super) fn plain(&self, index: usize, chore: &Chore, home: &mut Home) {
        let feed = self.feed(index, home);
        let made = chore.done(&feed);
        home.enter(Line::Stated, lost(&feed, &made));
        home.put(made, 1.0, None);
    }

    /// Does a professional step at home by a route that was run on `feed`.
    pub(super) fn serve(&self, index: usize, served: &Served<'_>, feed: &[Batch], home: &mut Home) {
        let mut made = all_samples(served.simulated, feed).to_vec();
        home.enter_route(served, feed, &made);
        let wait = home.queue(served, self.bench.kitchen, feed, &mut made);
        let share = middle(feed.iter().zip(&made).map(|(feed, made)| made.mass() / feed.mass()));
        let laboratory = self.yielded(index);
        let ratio = if share > 0.0 && laboratory > 0.0 { share / laboratory } else { 1.0 };
        home.put(made.into(), ratio, wait);
    }

    /// Goes on with the laboratory's product where no route does a step.
    pub(super) fn hand_over(&self, index: usize, feed: &[Batch], home: &mut Home) {
        let made = self.laboratory.products[index].iter().zip(&self.feeds[index]).zip(feed);
        let made: Batches =
            made.map(|((made, lab), feed)| made.part(feed.mass().si() / lab)).collect();
        home.enter(Line::HandedOver, feed.iter().map(|batch| batch.mass().si()));
        home.enter(Line::Received, made.iter().map(|batch| batch.mass().si()));
        home.put(made, 1.0, None);
    }

    /// Yield of a step in the laboratory at the median.
    fn yielded(&self, index: usize) -> f64 {
        let made = self.laboratory.products[index].iter().zip(&self.feeds[index]);
        middle(made.map(|(made, feed)| made.mass().si() / feed))
    }

    /// Returns the amounts that keep the dish the same size, by the yields of a walk.
    ///
    /// # Errors
    /// [`BalanceError`] when a step yields nothing.
    pub(super) fn needs(&self, home: &Home) -> Result<Needs, BalanceError> {
        self.recipe.needs(&home.ratios)
    }
}

/// What is less after than before, by sample \[kg\].
fn lost<'b>(before: &'b [Batch], after: &'b [Batch]) -> impl Iterator<Item = f64> {
    before.iter().zip(after).map(|(before, after)| (before.mass() - after.mass()).si())
}
