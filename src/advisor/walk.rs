//! Carrying a recipe through a home, step by step, beside the laboratory.
//!
//! The laboratory is walked once; the home as often as routes or amounts are tried.

use std::sync::Arc;

use super::home::{Home, Served, all_samples, middle};
use super::laboratory::{Chore, Done, Laboratory};
use super::ledger::Line;
use super::step::Station;
use super::{AdaptError, Bench};
use crate::process::Batch;
use crate::recipe::{BalanceError, Needs, Recipe};

/// A step made ready.
pub(super) enum Ready<'a> {
    /// Plain work.
    Plain(Arc<Chore>),
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
    /// The laboratory.
    pub(super) laboratory: Arc<Laboratory<'a>>,
}

impl<'a> Prepared<'a> {
    /// Walks the laboratory through the recipe.
    ///
    /// # Errors
    /// [`AdaptError`] for an ingredient or a step that cannot be simulated.
    pub(super) fn set_up(recipe: &'a Recipe, bench: Bench<'a>) -> Result<Self, AdaptError> {
        let laboratory = Laboratory::walk(recipe, bench.knowledge, bench.sampler, true)?;
        Ok(Self::beside(Arc::new(laboratory), recipe, bench))
    }

    /// Walks the laboratory through the recipe without a record of what its moves do: for those who ask
    /// for results alone.
    ///
    /// # Errors
    /// As [`Prepared::set_up`].
    pub(super) fn brief(recipe: &'a Recipe, bench: Bench<'a>) -> Result<Self, AdaptError> {
        let laboratory = Laboratory::walk(recipe, bench.knowledge, bench.sampler, false)?;
        Ok(Self::beside(Arc::new(laboratory), recipe, bench))
    }

    /// Makes a home ready beside a laboratory that has drawn the same samples.
    pub(super) fn beside(
        laboratory: Arc<Laboratory<'a>>,
        recipe: &'a Recipe,
        bench: Bench<'a>,
    ) -> Self {
        let ready = |done: &Done<'a>| match done {
            Done::Plain(chore) => Ready::Plain(Arc::clone(chore)),
            Done::Professional(reference) => {
                Ready::Professional(Box::new(Station::beside(Arc::clone(reference), bench)))
            }
        };
        let steps = laboratory.steps.iter().map(ready).collect();
        Self { recipe, bench, steps, laboratory }
    }

    /// Lays out the ingredients at home in the amounts that are needed.
    pub(super) fn start(&self, needs: Needs) -> Home {
        let written = self.laboratory.stock.ingredients.iter();
        let ingredients = written.zip(&needs.ingredients).map(|(batches, factor)| {
            if (*factor - 1.0).abs() < f64::EPSILON {
                return Arc::clone(batches);
            }
            batches.iter().map(|batch| batch.part(*factor)).collect()
        });
        let ingredients = ingredients.collect();
        Home::lay_out(needs, ingredients)
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
        if served.bought {
            // What is bought waits for nothing that would have gone into it.
            made.iter_mut().zip(feed).for_each(|(made, feed)| made.restart_clock(feed));
        }
        home.enter_route(served, feed, &made);
        let wait = home.queue(served, self.bench.kitchen, feed, &mut made);
        let share = middle(feed.iter().zip(&made).map(|(feed, made)| made.mass() / feed.mass()));
        let laboratory = self.laboratory.yielded(index);
        let ratio = if share > 0.0 && laboratory > 0.0 { share / laboratory } else { 1.0 };
        home.put(made.into(), ratio, wait);
    }

    /// Goes on with the laboratory's product where no route does a step.
    pub(super) fn hand_over(&self, index: usize, feed: &[Batch], home: &mut Home) {
        let made = self.laboratory.made_of(index, feed);
        home.enter(Line::HandedOver, feed.iter().map(|batch| batch.mass().si()));
        home.enter(Line::Received, made.iter().map(|batch| batch.mass().si()));
        home.put(made, 1.0, None);
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
