//! Putting the answer together: what to buy, what each step does, and why.

use std::collections::BTreeMap;

use super::Verdict;
use super::adapt::{Adapter, Carried};
use super::adaptation::{Adaptation, AdaptedIngredient, AdaptedStep, Advice, Within};
use super::advice::Method;
use super::choose::{Choice, why_alone, why_not};
use super::home::Home;
use super::rank::Mark;
use super::replaced::Replaced;
use super::size::Sizing;
use super::walk::{Prepared, Ready};
use crate::estimate::Estimate;
use crate::knowledge::Knowledge;
use crate::process::Batch;
use crate::quantity::Time;
use crate::recipe::Source;

impl Adapter<'_> {
    /// Puts the answer together.
    pub(super) fn finish(&self, prepared: Prepared<'_>, carried: Carried) -> Adaptation {
        let fits = |limit: Time| carried.longest() <= limit.si();
        let within = self.wishes.within.map(|limit| Within { limit, fits: fits(limit) });
        let dish = carried.home.stock.dish();
        let (makes, time) = (mass_range(dish), range(dish, |batch| batch.elapsed.si()));
        let attended = range(dish, |batch| batch.attended.si());
        let replaced = carried.home.replaced(self.recipe);
        let ingredients = self.bought(&carried.home, &replaced);
        let needed = &carried.home.needs.ingredients;
        let scarcest = self.wishes.size.limit(self.recipe, needed).1;
        let sizing =
            Sizing { scale: self.scale * carried.fitted, fitted: carried.fitted, scarcest };
        let ledger = carried.home.ledger(self.recipe);
        // The laboratory worked at the size that was guessed; the home was brought to the one asked for.
        let makes_in_laboratory = mass_range(prepared.laboratory.stock.dish())
            .and_then(|mass| mass.map(|kg| kg * carried.fitted).ok());
        let mut steps = Vec::new();
        let each = prepared.steps.into_iter().zip(carried.tried).enumerate();
        for (index, (ready, (routes, ruled_out))) in each {
            let step = &self.recipe.steps[index];
            let advice = match (ready, &step.task) {
                (Ready::Professional(station), _) => {
                    let reasons = self.reasons(&carried.choice, index, &routes);
                    Advice::Professional(Box::new(station.advice(routes, reasons, ruled_out)))
                }
                (Ready::Plain(_), crate::recipe::Task::Plain(work)) => {
                    Advice::Plain(work.text.clone())
                }
                (Ready::Plain(_), crate::recipe::Task::Professional(_)) => {
                    Advice::Plain(String::new())
                }
            };
            steps.push(AdaptedStep {
                product: step.product.clone(),
                advice,
                makes: mass_range(&carried.home.stock.products[index]),
                takes: match replaced.is_idle(index) {
                    true => Vec::new(),
                    false => self.takes(&carried.home, index),
                },
                wait: carried.home.waits[index].clone(),
                is_needed: replaced.needs(index),
            });
        }
        let needed = steps.iter().filter(|step| step.is_needed);
        let verdict = needed.map(|step| verdict(&step.advice)).max();
        Adaptation {
            ingredients,
            verdict: verdict.unwrap_or(Verdict::AsWritten),
            makes,
            makes_in_laboratory,
            time,
            attended,
            steps,
            choice: carried.choice,
            sizing,
            ledger,
            within,
        }
    }

    /// Lists what to buy.
    fn bought(&self, home: &Home, replaced: &Replaced) -> Vec<AdaptedIngredient> {
        let knowledge = self.bench.knowledge;
        let factors = home.needs.ingredients.iter().zip(&replaced.ingredients);
        let each = self.recipe.ingredients.iter().zip(factors);
        each.map(|(one, (factor, share))| shopping(one, (factor * share, self.scale), knowledge))
            .collect()
    }

    /// Names what goes into a step.
    fn takes(&self, home: &Home, index: usize) -> Vec<(String, Estimate)> {
        let foods = &self.bench.knowledge.foods;
        let named = |source: Source| match source {
            Source::Ingredient(index) => {
                let food = &self.recipe.ingredients[index].food;
                foods.get(food).map_or_else(|| food.clone(), |food| food.name.clone())
            }
            Source::Product(index) => self.recipe.steps[index].product.clone(),
        };
        let takes = home.takes(index, &self.recipe.steps[index]).into_iter();
        takes.map(|(source, mass)| (named(source), mass)).collect()
    }

    /// Says of each route but the chosen one why it came later.
    fn reasons(
        &self,
        choice: &Choice,
        index: usize,
        routes: &[Method],
    ) -> BTreeMap<String, String> {
        let (prefer, knowledge) = (self.wishes.prefer, self.bench.knowledge);
        let Some((best, others)) = routes.split_first() else { return BTreeMap::new() };
        let is_pinned = self.wishes.pins.iter().any(|pin| pin.step == index);
        let mark = |method: &Method| Mark::of_method("", method);
        let each = others.iter().map(|other| {
            let alone = mark(best).compare(&mark(other), prefer).0;
            let why = match (alone.is_gt(), is_pinned) {
                (false, _) => why_alone(best, other, prefer, knowledge),
                (true, true) => "better in this step, but another route is pinned".to_owned(),
                (true, false) => why_not(choice, index, &other.id, knowledge),
            };
            (other.id.clone(), why)
        });
        each.collect()
    }
}

fn range(batches: &[Batch], of: impl Fn(&Batch) -> f64) -> Option<Estimate> {
    Estimate::of_results(&batches.iter().map(of).collect::<Vec<f64>>())
}

fn mass_range(batches: &[Batch]) -> Option<Estimate> {
    range(batches, |batch| batch.mass().si())
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
    (factor, scale): (f64, f64),
    knowledge: &Knowledge,
) -> AdaptedIngredient {
    let food = knowledge.foods.get(&ingredient.food);
    AdaptedIngredient {
        name: food.map_or_else(|| ingredient.food.clone(), |food| food.name.clone()),
        written: ingredient.written.clone(),
        bought: ingredient.bought * factor,
        trimmed: ingredient.mass * factor,
        factor: factor * scale,
        allergens: food.map(|food| food.allergens.clone()).unwrap_or_default(),
    }
}
