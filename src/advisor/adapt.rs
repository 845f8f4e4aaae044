//! Adapting a whole recipe: step by step, with yields carried back into the shopping list.

use super::advice::{Method, StepAdvice, StepError};
use super::feed::{FeedError, feeds};
use super::step::{FoodOf, advise, advise_again};
use super::{Bench, Verdict};
use crate::estimate::Estimate;
use crate::knowledge::{Food, Knowledge, ValueMap};
use crate::process::{Batch, mixed};
use crate::quantity::{Mass, Time};
use crate::recipe::{BalanceError, Professional, Recipe, Source, Step, Task, Work};

/// A recipe for one kitchen.
#[derive(Debug, Clone, PartialEq)]
pub struct Adaptation {
    /// What to buy.
    pub ingredients: Vec<AdaptedIngredient>,
    /// The steps.
    pub steps: Vec<AdaptedStep>,
    /// The verdict on the whole: the worst of the steps.
    pub verdict: Verdict,
    /// What the recipe makes at home \[kg\].
    pub makes: Option<Estimate>,
    /// What it makes in the laboratory \[kg\].
    pub makes_in_laboratory: Option<Estimate>,
    /// Time from start to end \[s\].
    pub time: Option<Estimate>,
    /// Attended time \[s\].
    pub attended: Option<Estimate>,
}

/// An ingredient with the amount that the home routes need.
#[derive(Debug, Clone, PartialEq)]
pub struct AdaptedIngredient {
    /// Name of the food.
    pub name: String,
    /// The amount as the author wrote it.
    pub written: String,
    /// What to buy.
    pub bought: Mass,
    /// What is left after trimming.
    pub trimmed: Mass,
    /// Home amount over the amount in the recipe.
    pub factor: f64,
    /// Allergens.
    pub allergens: Vec<String>,
}

/// A step as it is done at home.
#[derive(Debug, Clone, PartialEq)]
pub struct AdaptedStep {
    /// What it makes.
    pub product: String,
    /// What is done.
    pub advice: Advice,
    /// Mass of the product \[kg\].
    pub makes: Option<Estimate>,
}

/// What is done in a step.
#[derive(Debug, Clone, PartialEq)]
pub enum Advice {
    /// A professional step with its home routes.
    Professional(Box<StepAdvice>),
    /// Plain kitchen work.
    Plain(String),
}

/// Why a recipe cannot be adapted.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum AdaptError {
    /// An ingredient makes no batch.
    #[error("ingredient `{ingredient}`: {error}")]
    Feed {
        /// The ingredient.
        ingredient: String,
        /// Why.
        error: FeedError,
    },
    /// A step cannot be simulated.
    #[error("step `{step}`: {error}")]
    Step {
        /// What the step makes.
        step: String,
        /// Why.
        error: StepError,
    },
    /// The yields do not add up.
    #[error(transparent)]
    Balance(#[from] BalanceError),
}

/// The shopping list follows the yields until no factor moves by more than this share.
const SETTLED: f64 = 0.01;
/// Id of the food that is water.
const WATER: &str = "water";
/// It settles in two rounds unless a yield changes with the size of the batch.
const MOST_ROUNDS: usize = 4;

/// Adapts a recipe to a kitchen.
///
/// Laboratory and home are each carried through the whole recipe; what a home route yields less than
/// the laboratory is bought more.
///
/// # Errors
/// [`AdaptError`] for an ingredient or a step that cannot be simulated.
pub fn adapt(recipe: &Recipe, bench: &Bench<'_>) -> Result<Adaptation, AdaptError> {
    let walk = Walk { recipe, bench };
    let mut factors = vec![1.0; recipe.ingredients.len()];
    let laboratory = walk.ingredients(&factors)?;
    let mut last = walk.through(&laboratory, laboratory.clone(), None)?;
    for _ in 1..MOST_ROUNDS {
        let next = recipe.shopping_factors(&last.ratios)?;
        let moved = next.iter().zip(&factors).map(|(a, b)| (a / b - 1.0).abs());
        if moved.fold(0.0, f64::max) <= SETTLED {
            break;
        }
        factors = next;
        last = walk.through(&laboratory, walk.ingredients(&factors)?, Some(last.steps))?;
    }
    Ok(walk.finish(last, &factors))
}

/// Simulates a recipe in a kitchen with its amounts as written: no yield is carried back into the
/// shopping list, so that the result can be compared with a trial of those amounts.
///
/// # Errors
/// As [`adapt`].
pub fn foresee(recipe: &Recipe, bench: &Bench<'_>) -> Result<Adaptation, AdaptError> {
    let walk = Walk { recipe, bench };
    let factors = vec![1.0; recipe.ingredients.len()];
    let ingredients = walk.ingredients(&factors)?;
    let walked = walk.through(&ingredients, ingredients.clone(), None)?;
    Ok(walk.finish(walked, &factors))
}

/// Batches by source, in the laboratory or at home.
struct Stock {
    ingredients: Vec<Vec<Batch>>,
    products: Vec<Vec<Batch>>,
}

/// One walk through the recipe.
struct Walked {
    steps: Vec<AdaptedStep>,
    /// Home yield over laboratory yield, by step.
    ratios: Vec<f64>,
    laboratory: Stock,
    home: Stock,
}

struct Walk<'a> {
    recipe: &'a Recipe,
    bench: &'a Bench<'a>,
}

impl Walk<'_> {
    fn ingredients(&self, factors: &[f64]) -> Result<Vec<Vec<Batch>>, AdaptError> {
        let each = self.recipe.ingredients.iter().zip(factors);
        each.map(|(ingredient, factor)| {
            feeds(ingredient, *factor, self.bench.knowledge, self.bench.sampler)
                .map_err(|error| AdaptError::Feed { ingredient: ingredient.id.clone(), error })
        })
        .collect()
    }

    /// Carries laboratory and home through the recipe.
    ///
    /// With the steps of an earlier walk, only the route chosen there is run again, on the new
    /// amounts; the other routes keep their results for the amounts of the recipe.
    fn through(
        &self,
        laboratory: &[Vec<Batch>],
        home: Vec<Vec<Batch>>,
        mut chosen: Option<Vec<AdaptedStep>>,
    ) -> Result<Walked, AdaptError> {
        let mut walked = Walked {
            steps: Vec::new(),
            ratios: Vec::new(),
            laboratory: Stock { ingredients: laboratory.to_vec(), products: Vec::new() },
            home: Stock { ingredients: home, products: Vec::new() },
        };
        for (index, step) in self.recipe.steps.iter().enumerate() {
            let before = chosen.as_mut().map(|steps| {
                std::mem::replace(&mut steps[index].advice, Advice::Plain(String::new()))
            });
            let (lab, own) = (walked.laboratory.feed(step), walked.home.feed(step));
            match &step.task {
                Task::Plain(work) => self.plain(step, work, (lab, own), &mut walked),
                Task::Professional(task) => {
                    self.professional(step, task, (lab, own), before, &mut walked)?;
                }
            }
        }
        Ok(walked)
    }

    /// Plain work changes neither side but by its stated loss and time.
    fn plain(
        &self,
        step: &Step,
        work: &Work,
        (laboratory, home): (Vec<Batch>, Vec<Batch>),
        walked: &mut Walked,
    ) {
        let name = &step.product;
        let draws = |what: &str, value: &Option<crate::knowledge::Value>| -> Vec<f64> {
            let column = self.bench.sampler.column(&format!("work/{name}/{what}"));
            let each = column.iter();
            each.map(|u| value.as_ref().map_or(0.0, |v| v.estimate.quantile(*u))).collect()
        };
        let loss = draws("loss", &work.loss);
        let attended = draws("hands_on", &work.hands_on);
        let time = draws("time", &work.time);
        let done = |batches: Vec<Batch>| -> Vec<Batch> {
            let each = batches.into_iter().enumerate();
            each.map(|(sample, batch)| {
                let mut left = batch.part(1.0 - loss[sample].clamp(0.0, 1.0));
                let whole = Time::from_seconds(time[sample].max(attended[sample]));
                left.wait(whole, Time::from_seconds(attended[sample]));
                left
            })
            .collect()
        };
        let home = done(home);
        walked.steps.push(AdaptedStep {
            product: name.clone(),
            advice: Advice::Plain(work.text.clone()),
            makes: mass_range(&home),
        });
        walked.ratios.push(1.0);
        walked.laboratory.products.push(done(laboratory));
        walked.home.products.push(home);
    }

    fn professional(
        &self,
        step: &Step,
        task: &Professional,
        (laboratory, home): (Vec<Batch>, Vec<Batch>),
        before: Option<Advice>,
        walked: &mut Walked,
    ) -> Result<(), AdaptError> {
        let knowledge = self.bench.knowledge;
        let none = ValueMap::new();
        let food = self.main_food(step, &walked.home).and_then(|id| knowledge.foods.get(id));
        let all: Vec<&Food> =
            self.recipe.foods_in(step).filter_map(|id| knowledge.foods.get(id)).collect();
        let food = FoodOf {
            names: food.map(|food| (food.id.as_str(), food.group.as_str())),
            values: food.map_or(&none, |food| &food.values),
            all: &all,
        };
        let failed = |error| AdaptError::Step { step: step.product.clone(), error };
        let feeds = (laboratory.as_slice(), home.as_slice());
        let advice = match before {
            Some(Advice::Professional(before)) => {
                advise_again(task, &food, feeds, self.bench, *before).map_err(failed)?
            }
            _ => advise(task, &food, feeds, self.bench).map_err(failed)?,
        };
        let made_in_laboratory = all_samples(&advice.laboratory, &laboratory);
        let made = match advice.routes.first() {
            Some(best) => all_samples(best, &home),
            // Nothing at home does it: the dish goes on with the laboratory's product.
            None => made_in_laboratory.clone(),
        };
        let ratio = yield_ratio((&home, &made), (&laboratory, &made_in_laboratory));
        walked.steps.push(AdaptedStep {
            product: step.product.clone(),
            makes: mass_range(&made),
            advice: Advice::Professional(Box::new(advice)),
        });
        walked.ratios.push(ratio);
        walked.laboratory.products.push(made_in_laboratory);
        walked.home.products.push(made);
        Ok(())
    }

    /// The food that makes up most of a step, through the steps before it; the water that something
    /// is steeped or cooked in counts only where there is nothing else.
    fn main_food(&self, step: &Step, stock: &Stock) -> Option<&str> {
        let is_water = |source: Source| match source {
            Source::Ingredient(index) => self.recipe.ingredients[index].food == WATER,
            Source::Product(_) => false,
        };
        let mass = |source: Source| {
            let mass = stock.of(source).first().map_or(0.0, |batch| batch.mass().si());
            if is_water(source) { 0.0 } else { mass }
        };
        let main = step
            .uses
            .iter()
            .max_by(|a, b| (mass(a.source) * a.share).total_cmp(&(mass(b.source) * b.share)))?;
        match main.source {
            Source::Ingredient(index) => Some(self.recipe.ingredients[index].food.as_str()),
            Source::Product(index) => self.main_food(&self.recipe.steps[index], stock),
        }
    }

    fn finish(&self, walked: Walked, factors: &[f64]) -> Adaptation {
        let knowledge = self.bench.knowledge;
        let last = |stock: &Stock| stock.products.last().cloned().unwrap_or_default();
        let (home, laboratory) = (last(&walked.home), last(&walked.laboratory));
        let seconds = |of: fn(&Batch) -> Time| {
            Estimate::of_results(&home.iter().map(|batch| of(batch).si()).collect::<Vec<f64>>())
        };
        let verdict = walked.steps.iter().map(|step| verdict(&step.advice)).max();
        let ingredients = self.recipe.ingredients.iter().zip(factors);
        Adaptation {
            ingredients: ingredients
                .map(|(one, factor)| shopping(one, *factor, knowledge))
                .collect(),
            verdict: verdict.unwrap_or(Verdict::AsWritten),
            makes: mass_range(&home),
            makes_in_laboratory: mass_range(&laboratory),
            time: seconds(|batch| batch.elapsed),
            attended: seconds(|batch| batch.attended),
            steps: walked.steps,
        }
    }
}

impl Stock {
    fn of(&self, source: Source) -> &[Batch] {
        match source {
            Source::Ingredient(index) => &self.ingredients[index],
            Source::Product(index) => &self.products[index],
        }
    }

    /// Mixes what goes into a step, sample by sample.
    fn feed(&self, step: &Step) -> Vec<Batch> {
        let mut parts = step.uses.iter().map(|used| {
            self.of(used.source).iter().map(|batch| batch.part(used.share)).collect::<Vec<Batch>>()
        });
        let first = parts.next().unwrap_or_default();
        parts.fold(first, |sum, more| sum.iter().zip(&more).map(|(a, b)| mixed(a, b)).collect())
    }
}

/// The product of every sample; where the method failed, that of the sample before it.
fn all_samples(method: &Method, feeds: &[Batch]) -> Vec<Batch> {
    let simulated = &method.simulated;
    let mut products = Vec::with_capacity(feeds.len());
    let mut next = 0;
    for sample in 0..feeds.len() {
        if simulated.samples.get(next + 1).is_some_and(|following| *following <= sample) {
            next += 1;
        }
        products.push(simulated.products[next.min(simulated.products.len() - 1)]);
    }
    products
}

/// Home yield over laboratory yield at the median.
fn yield_ratio(home: (&[Batch], &[Batch]), laboratory: (&[Batch], &[Batch])) -> f64 {
    let share = |(feed, made): (&[Batch], &[Batch])| {
        let shares: Vec<f64> = feed.iter().zip(made).map(|(f, m)| m.mass() / f.mass()).collect();
        Estimate::of_results(&shares).map_or(1.0, |range| range.typical())
    };
    let (home, laboratory) = (share(home), share(laboratory));
    if home > 0.0 && laboratory > 0.0 { home / laboratory } else { 1.0 }
}

fn mass_range(batches: &[Batch]) -> Option<Estimate> {
    Estimate::of_results(&batches.iter().map(|batch| batch.mass().si()).collect::<Vec<f64>>())
}

fn verdict(advice: &Advice) -> Verdict {
    match advice {
        Advice::Plain(_) => Verdict::AsWritten,
        Advice::Professional(step) => {
            step.routes.first().map_or(Verdict::No, |best| best.score.verdict)
        }
    }
}

fn shopping(
    ingredient: &crate::recipe::Ingredient,
    factor: f64,
    knowledge: &Knowledge,
) -> AdaptedIngredient {
    let food = knowledge.foods.get(&ingredient.food);
    AdaptedIngredient {
        name: food.map_or_else(|| ingredient.food.clone(), |food| food.name.clone()),
        written: ingredient.written.clone(),
        bought: ingredient.bought * factor,
        trimmed: ingredient.mass * factor,
        factor,
        allergens: food.map(|food| food.allergens.clone()).unwrap_or_default(),
    }
}
