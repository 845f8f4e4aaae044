//! The home on its way through a recipe: what it holds, what it waits for, and where the mass goes.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::advice::Method;
use super::ledger::{Account, Ledger, Line};
use super::replaced::Replaced;
use super::simulate::Simulated;
use crate::estimate::Estimate;
use crate::kitchen::Kitchen;
use crate::process::{Batch, mixed};
use crate::quantity::Time;
use crate::recipe::{Needs, Recipe, Source, Step};

/// One batch a sample.
pub(super) type Batches = Arc<[Batch]>;

/// Appliances of which a home has several, which hold the work of several steps at once, or which a
/// cook takes to hand for a moment. Common practice: a hob has several rings, a freezer and a
/// refrigerator several shelves, and nobody queues for a spoon.
const SHARED: [&str; 25] = [
    "bowl",
    "cold-room",
    "cool-box",
    "electric-hob",
    "fine-scale",
    "freezer",
    "funnel",
    "gas-hob",
    "hydrometer",
    "ice-maker",
    "induction-hob",
    "infrared-thermometer",
    "measuring-jug",
    "metal-tray",
    "micrometer",
    "moisture-balance",
    "ph-meter",
    "refractometer",
    "refrigerator",
    "ruler",
    "scale",
    "sink",
    "spoon-measures",
    "sugar-thermometer",
    "thermometer-probe",
];

/// Batches by source.
#[derive(Debug, Clone, Default)]
pub(super) struct Stock {
    pub(super) ingredients: Vec<Batches>,
    pub(super) products: Vec<Batches>,
}

impl Stock {
    pub(super) fn of(&self, source: Source) -> &[Batch] {
        match source {
            Source::Ingredient(index) => &self.ingredients[index],
            Source::Product(index) => &self.products[index],
        }
    }

    /// Mixes what goes into a step, sample by sample.
    pub(super) fn feed(&self, index: usize, step: &Step, needs: &Needs) -> Vec<Batch> {
        let mut parts = step.uses.iter().map(|used| {
            let share = needs.share(index, used);
            self.of(used.source).iter().map(|batch| batch.part(share)).collect::<Vec<Batch>>()
        });
        let first = parts.next().unwrap_or_default();
        parts.fold(first, |sum, more| sum.iter().zip(&more).map(|(a, b)| mixed(a, b)).collect())
    }

    /// The dish: what the last step makes.
    pub(super) fn dish(&self) -> &[Batch] {
        self.products.last().map_or(&[], |batches| batches)
    }
}

/// A route that was run: what it did, and with what.
pub(super) struct Served<'a> {
    /// Its results by sample.
    pub(super) simulated: &'a Simulated,
    /// Labels of the appliances by move.
    pub(super) gear: Vec<&'a [String]>,
    /// Whether it is bought ready-made.
    pub(super) bought: bool,
}

impl<'a> Served<'a> {
    /// What a method did.
    pub(super) fn of(method: &'a Method) -> Self {
        let gear = method.moves.iter().map(|one| one.appliances.as_slice()).collect();
        Self { simulated: &method.simulated, gear, bought: method.bought }
    }
}

/// What a step waits for.
#[derive(Debug, Clone, PartialEq)]
pub struct Wait {
    /// The appliance that is in use elsewhere.
    pub appliance: String,
    /// For how long \[s\].
    pub time: Estimate,
}

/// The home on its way through the recipe.
#[derive(Clone)]
pub(super) struct Home {
    /// The amounts that it works with, over those of the recipe.
    pub(super) needs: Arc<Needs>,
    /// What it has and has made.
    pub(super) stock: Stock,
    /// Home yield over laboratory yield, by step.
    pub(super) ratios: Vec<f64>,
    /// What each step waited for.
    pub(super) waits: Vec<Option<Wait>>,
    /// Whether each step is bought ready-made.
    bought: Vec<bool>,
    /// Where the mass went in each step so far, by sample.
    accounts: Vec<Arc<[Account]>>,
    /// The account of the step that is at work, by sample.
    open: Vec<Account>,
    /// Whether that step is bought ready-made.
    buying: bool,
    /// When each appliance is free again, by sample \[s\].
    free_at: BTreeMap<String, Arc<[f64]>>,
}

impl Home {
    /// Lays out ingredients in the amounts that are needed.
    pub(super) fn lay_out(needs: Needs, ingredients: Vec<Batches>) -> Self {
        let samples = ingredients.first().map_or(0, |batches| batches.len());
        Self {
            needs: Arc::new(needs),
            stock: Stock { ingredients, products: Vec::new() },
            ratios: Vec::new(),
            waits: Vec::new(),
            bought: Vec::new(),
            accounts: Vec::new(),
            open: vec![Account::default(); samples],
            buying: false,
            free_at: BTreeMap::new(),
        }
    }

    /// Enters a mass of every sample.
    pub(super) fn enter(&mut self, line: Line, masses: impl Iterator<Item = f64>) {
        self.open.iter_mut().zip(masses).for_each(|(account, mass)| account.enter(line, mass));
    }

    /// Enters what a route did with its feed.
    pub(super) fn enter_route(&mut self, served: &Served<'_>, feed: &[Batch], made: &[Batch]) {
        let simulated = served.simulated;
        let places = of_samples(simulated, feed.len());
        let each = self.open.iter_mut().zip(places).zip(feed.iter().zip(made));
        self.buying = served.bought;
        for ((account, place), (feed, made)) in each {
            let share = feed.mass() / simulated.feeds[place].mass();
            let balance = &simulated.balance[place];
            if served.bought {
                account.enter_bought(made, share * balance.added.total().si());
            } else {
                account.enter_route(balance, share);
            }
        }
    }

    /// Finds what the products that are bought ready-made make superfluous.
    pub(super) fn replaced(&self, recipe: &Recipe) -> Replaced {
        Replaced::of(recipe, &self.needs, &self.bought)
    }

    /// Draws the ledger: the dish is eaten, and what no step takes is kept. What is superfluous is
    /// neither bought nor worked on.
    pub(super) fn ledger(&self, recipe: &Recipe) -> Option<Ledger> {
        let last = recipe.steps.len().checked_sub(1)?;
        let replaced = self.replaced(recipe);
        let mut accounts = vec![Account::default(); self.open.len()];
        for (_, step) in self.accounts.iter().enumerate().filter(|(step, _)| replaced.needs(*step))
        {
            accounts.iter_mut().zip(step.iter()).for_each(|(account, step)| account.add(step));
        }
        for (index, one) in recipe.ingredients.iter().enumerate() {
            let factor = self.needs.ingredients[index] * replaced.ingredients[index];
            for account in &mut accounts {
                account.enter(Line::Bought, one.bought.si() * factor);
                account.enter(Line::Trimmed, (one.bought - one.mass).si() * factor);
            }
        }
        let mut enter = |line, batches: &[Batch], share: f64| {
            let each = accounts.iter_mut().zip(batches);
            each.for_each(|(account, batch)| account.enter(line, share * batch.mass().si()));
        };
        let ingredients = (0..recipe.ingredients.len()).map(Source::Ingredient);
        let products = (0..last).filter(|step| replaced.needs(*step)).map(Source::Product);
        for source in ingredients.chain(products) {
            let taken = |bought| self.taken(source, recipe, &replaced, bought);
            let superfluous = taken(true);
            enter(Line::Kept, self.stock.of(source), 1.0 - taken(false) - superfluous);
            if matches!(source, Source::Product(_)) {
                enter(Line::Replaced, self.stock.of(source), superfluous);
            }
        }
        enter(Line::Eaten, self.stock.dish(), 1.0);
        Ledger::of(&accounts)
    }

    /// Returns what goes into a step, in the order of the recipe: source and mass \[kg\].
    pub(super) fn takes(&self, index: usize, step: &Step) -> Vec<(Source, Estimate)> {
        let each = step.uses.iter().filter_map(|used| {
            let share = self.needs.share(index, used);
            let masses = self.stock.of(used.source).iter().map(|batch| share * batch.mass().si());
            Some((used.source, Estimate::of_results(&masses.collect::<Vec<f64>>())?))
        });
        each.collect()
    }

    /// The share of a source that steps take: those that need it, or those that need it no longer.
    fn taken(&self, source: Source, recipe: &Recipe, replaced: &Replaced, idle: bool) -> f64 {
        let steps = recipe.steps.iter().enumerate();
        let uses = steps.flat_map(|(index, step)| step.uses.iter().map(move |one| (index, one)));
        uses.filter(|(index, one)| one.source == source && replaced.is_idle(*index) == idle)
            .map(|(index, one)| self.needs.share(index, one))
            .sum()
    }

    /// Puts down what a step made.
    pub(super) fn put(&mut self, made: Batches, ratio: f64, wait: Option<Wait>) {
        let samples = self.open.len();
        let done = std::mem::replace(&mut self.open, vec![Account::default(); samples]);
        self.accounts.push(done.into());
        self.bought.push(std::mem::take(&mut self.buying));
        self.stock.products.push(made);
        self.ratios.push(ratio);
        self.waits.push(wait);
    }

    /// Lets the moves of a route wait until their appliances are free, and takes the appliances.
    pub(super) fn queue(
        &mut self,
        served: &Served<'_>,
        kitchen: &Kitchen,
        feed: &[Batch],
        made: &mut [Batch],
    ) -> Option<Wait> {
        let simulated = served.simulated;
        let is_shared = |label: &&String| {
            let owned = kitchen.appliances.iter().find(|owned| owned.label == **label);
            owned.is_none_or(|owned| SHARED.contains(&owned.id.as_str()))
        };
        let mut waited = vec![0.0; feed.len()];
        let mut longest: Option<(f64, String)> = None;
        let mut clock: Vec<f64> = feed.iter().map(|batch| batch.elapsed.si()).collect();
        for (record, appliances) in simulated.moves.iter().zip(&served.gear) {
            let labels: Vec<&String> =
                appliances.iter().filter(|label| !is_shared(label)).collect();
            for label in &labels {
                let Some(free_at) = self.free_at.get(label.as_str()) else { continue };
                let mut sum = 0.0;
                for (sample, free_at) in free_at.iter().enumerate() {
                    let more = (free_at - clock[sample]).max(0.0);
                    waited[sample] += more;
                    clock[sample] += more;
                    sum += more;
                }
                if sum > 0.0 && longest.as_ref().is_none_or(|(before, _)| sum > *before) {
                    longest = Some((sum, (*label).to_owned()));
                }
            }
            let times = of_samples(simulated, feed.len()).map(|place| record.time[place]);
            clock.iter_mut().zip(times).for_each(|(clock, time)| *clock += time);
            for label in labels {
                self.free_at.insert(label.clone(), clock.as_slice().into());
            }
        }
        for (batch, wait) in made.iter_mut().zip(&waited) {
            batch.wait(Time::from_seconds(*wait), Time::ZERO);
        }
        let (_, appliance) = longest?;
        Some(Wait { appliance, time: Estimate::of_results(&waited)? })
    }
}

/// The place of each sample among those that worked; where the method failed, that of the sample
/// before it.
pub(super) fn of_samples(simulated: &Simulated, count: usize) -> impl Iterator<Item = usize> {
    let mut next = 0;
    (0..count).map(move |sample| {
        if simulated.samples.get(next + 1).is_some_and(|following| *following <= sample) {
            next += 1;
        }
        next.min(simulated.products.len().saturating_sub(1))
    })
}

/// The product of every sample, in proportion to its feed where another sample stands in for it.
pub(super) fn all_samples(simulated: &Simulated, feeds: &[Batch]) -> Batches {
    let places = of_samples(simulated, feeds.len()).zip(feeds);
    let each = places.map(|(place, feed)| {
        let share = feed.mass() / simulated.feeds[place].mass();
        simulated.products[place].part(share)
    });
    each.collect()
}

/// The median of some results; zero when there is none.
pub(super) fn middle(results: impl Iterator<Item = f64>) -> f64 {
    Estimate::of_results(&results.collect::<Vec<f64>>()).map_or(0.0, |range| range.typical())
}
