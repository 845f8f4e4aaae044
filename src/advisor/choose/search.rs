//! The search over combinations of routes.

use rayon::prelude::*;

use super::{BEAM_WIDTH, Choice, Combination, MOST_EXACT, Wishes};
use crate::advisor::home::{Home, Served, middle};
use crate::advisor::rank::{Mark, Prefer};
use crate::advisor::step::{Open, Station};
use crate::advisor::walk::{Prepared, Ready};
use crate::advisor::{AdaptError, Sampler};
use crate::estimate::Estimate;
use crate::process::Batch;
use crate::quantity::{Mass, Volume};
use crate::recipe::Needs;

/// Runs of a route on a sample that a search may take, all told: a few hundredths of a second.
const RUNS: usize = 1000;
/// A search compares on at least so many samples, and at most so many.
const FEWEST_SAMPLES: usize = 8;
const MOST_SAMPLES: usize = 256;
/// The factors on the ingredients count as settled within this share.
pub(in crate::advisor) const SETTLED: f64 = 0.01;

/// Rounds a number of samples to a power of two, so that searches of one recipe share their laboratory.
const fn rounded(samples: usize) -> usize {
    let up = samples.next_power_of_two();
    // Up from two thirds of it.
    if 3 * samples >= 2 * up { up } else { up / 2 }
}

/// What the search must not choose, because it failed on more samples or larger amounts.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::advisor) enum Barred {
    /// A route of a step.
    Route(usize, String),
    /// A combination.
    Whole(Vec<Option<String>>),
}

/// A search through a recipe made ready.
pub(in crate::advisor) struct Search<'p, 'a> {
    /// The recipe.
    pub(in crate::advisor) prepared: &'p Prepared<'a>,
    /// What the cook asks for.
    pub(in crate::advisor) wishes: &'p Wishes,
    /// What must not be chosen.
    pub(in crate::advisor) barred: &'p [Barred],
    /// Whether the amounts follow the yields.
    pub(in crate::advisor) settle: bool,
}

/// A way through the steps so far.
#[derive(Clone)]
struct Way {
    home: Home,
    routes: Vec<Option<usize>>,
    mark: Mark,
    /// Whether each of its routes is the best of its step alone.
    step_by_step: bool,
}

impl<'a> Search<'_, 'a> {
    /// Returns how many combinations of routes there are.
    pub(in crate::advisor) fn combinations(&self) -> usize {
        let counts = self.counts();
        counts.iter().fold(1, |product: usize, count| product.saturating_mul(*count))
    }

    /// The number of routes to try, by professional step.
    fn counts(&self) -> Vec<usize> {
        let steps = self.prepared.steps.iter().enumerate();
        let each = steps.filter_map(|(index, ready)| match ready {
            Ready::Plain(_) => None,
            Ready::Professional(station) => Some(self.candidates(index, station).count().max(1)),
        });
        each.collect()
    }

    /// Returns a sampler with as many samples as the search can afford, at most as many as `full`.
    pub(in crate::advisor) fn sampler(&self, full: &Sampler) -> Sampler {
        let counts = self.counts();
        let exact = self.combinations() <= MOST_EXACT;
        let mut ways: usize = 1;
        let mut runs: usize = 0;
        for count in &counts {
            ways = ways.saturating_mul(*count);
            runs += ways;
            ways = if exact { ways } else { ways.min(BEAM_WIDTH) };
        }
        runs += ways * counts.len();
        let affordable = (RUNS / runs.max(1)).clamp(FEWEST_SAMPLES, MOST_SAMPLES);
        full.fewer(rounded(affordable))
    }

    fn candidates<'s>(
        &'s self,
        index: usize,
        station: &'s Station<'a>,
    ) -> impl Iterator<Item = (usize, &'s Open<'a>)> {
        let pin = self.wishes.pins.iter().find(|pin| pin.step == index);
        let wanted = move |id: &String| pin.is_none_or(|pin| pin.route == *id);
        let barred = move |id: &String| {
            self.barred
                .iter()
                .any(|barred| matches!(barred, Barred::Route(s, r) if *s == index && r == id))
        };
        let open = station.open.iter().enumerate();
        open.filter(move |(_, open)| wanted(&open.route.id) && !barred(&open.route.id))
    }

    /// Returns the only combination there is, which needs no search.
    pub(in crate::advisor) fn only(&self) -> Option<Vec<Option<String>>> {
        let steps = self.prepared.steps.iter().enumerate();
        let each = steps.map(|(index, ready)| {
            let Ready::Professional(station) = ready else { return Some(None) };
            let mut candidates = self.candidates(index, station);
            let first = candidates.next().map(|(_, open)| open.route.id.clone());
            candidates.next().is_none().then_some(first)
        });
        each.collect()
    }

    /// Chooses the routes of all steps.
    ///
    /// # Errors
    /// [`AdaptError`] for a move that cannot be planned.
    pub(in crate::advisor) fn choose(&self) -> Result<Choice, AdaptError> {
        self.choose_without(&[])
    }

    /// Chooses the routes of all steps, none of them hopeless unless there is nothing else.
    ///
    /// An exact search comes to the same choice when it is barred from the hopeless routes: each
    /// combination is carried through on its own.
    ///
    /// # Errors
    /// As [`Search::choose`].
    pub(in crate::advisor) fn choose_without(
        &self,
        hopeless: &[Barred],
    ) -> Result<Choice, AdaptError> {
        let combinations = self.combinations();
        let exact = combinations <= MOST_EXACT;
        let start = Way {
            home: self.prepared.start(Needs::as_written(self.prepared.recipe)),
            routes: Vec::new(),
            mark: Mark::default(),
            step_by_step: true,
        };
        let mut ways = vec![start];
        for index in 0..self.prepared.steps.len() {
            let next: Vec<Vec<Way>> = ways
                .par_iter()
                .map(|way| self.onward(way, index))
                .collect::<Result<_, AdaptError>>()?;
            ways = next.into_iter().flatten().collect();
            if !exact {
                self.keep_the_best(&mut ways);
            }
        }
        let done: Vec<Way> =
            ways.par_iter().map(|way| self.settled(way)).collect::<Result<_, AdaptError>>()?;
        let mut all: Vec<Combination> = done.iter().map(|way| self.combination(way)).collect();
        all.sort_by(|a, b| a.compare(b, self.wishes.prefer));
        let allowed = |one: &Combination| {
            let whole = |barred: &Barred| matches!(barred, Barred::Whole(w) if *w == one.routes);
            let has = |barred: &Barred| matches!(barred, Barred::Route(step, id) if one.routes[*step].as_ref() == Some(id));
            !self.barred.iter().any(whole) && !hopeless.iter().any(has)
        };
        let tried = all.len();
        let best = all.iter().position(allowed).unwrap_or(0);
        Ok(Choice {
            exact,
            combinations,
            tried,
            samples: self.prepared.bench.sampler.count(),
            prefer: self.wishes.prefer,
            best: all.remove(best),
            others: all,
        })
    }

    /// Returns the routes that need not be searched on samples: at typical values, every dish with them
    /// is clearly worse than the best. To be asked of a recipe made ready at typical values.
    ///
    /// Where time or effort or money decides, and where the search is bounded, nothing is hopeless.
    ///
    /// # Errors
    /// As [`Search::choose`].
    pub(in crate::advisor) fn hopeless(&self) -> Result<Vec<Barred>, AdaptError> {
        let quality = self.wishes.prefer == Prefer::Flavour && self.wishes.within.is_none();
        let combinations = self.combinations();
        if !quality || combinations <= 1 || combinations > MOST_EXACT {
            return Ok(Vec::new());
        }
        let Choice { best, others, .. } = self.choose()?;
        let mut hopeless = Vec::new();
        for (index, ready) in self.prepared.steps.iter().enumerate() {
            let Ready::Professional(station) = ready else { continue };
            if best.routes[index].is_none() {
                continue;
            }
            for (_, open) in self.candidates(index, station) {
                let id = &open.route.id;
                let mut with = others.iter().filter(|one| one.routes[index].as_ref() == Some(id));
                let taken = best.routes[index].as_ref() == Some(id);
                if !taken && with.all(|one| one.mark.is_clearly_worse(&best.mark)) {
                    hopeless.push(Barred::Route(index, id.clone()));
                }
            }
        }
        Ok(hopeless)
    }

    /// Carries a way through one more step: by every route that works, or by none.
    fn onward(&self, way: &Way, index: usize) -> Result<Vec<Way>, AdaptError> {
        match &self.prepared.steps[index] {
            Ready::Plain(chore) => {
                let mut next = way.clone();
                self.prepared.plain(index, chore, &mut next.home);
                next.routes.push(None);
                Ok(vec![next])
            }
            Ready::Professional(station) => {
                let feed = self.prepared.feed(index, &way.home);
                let mut ways: Vec<(Way, Mark)> = Vec::new();
                for (place, open) in self.candidates(index, station) {
                    ways.extend(self.by(way, index, (place, open), &feed)?);
                }
                if ways.is_empty() {
                    return Ok(vec![self.by_none(way, index, &feed)]);
                }
                let prefer = self.wishes.prefer;
                let best = (0..ways.len()).reduce(|a, b| {
                    if ways[b].1.compare(&ways[a].1, prefer).0.is_lt() { b } else { a }
                });
                let each = ways.into_iter().enumerate();
                Ok(each
                    .map(|(place, (next, _))| Way {
                        step_by_step: way.step_by_step && Some(place) == best,
                        ..next
                    })
                    .collect())
            }
        }
    }

    /// Carries a way through a step by one route; beside it stands the mark of the step alone.
    fn by(
        &self,
        way: &Way,
        index: usize,
        (place, open): (usize, &Open<'a>),
        feed: &[Batch],
    ) -> Result<Option<(Way, Mark)>, AdaptError> {
        let Ready::Professional(station) = &self.prepared.steps[index] else { return Ok(None) };
        let product = &self.prepared.recipe.steps[index].product;
        let failed = |error| AdaptError::Step { step: product.clone(), error };
        let Ok(tried) = station.run(open, feed, false).map_err(failed)? else { return Ok(None) };
        let alone = open.alone(product, &tried);
        let mut next = way.clone();
        let gear = tried.gear.iter().map(Vec::as_slice).collect();
        let served = Served { simulated: &tried.simulated, gear, bought: open.bought };
        self.prepared.serve(index, &served, feed, &mut next.home);
        next.routes.push(Some(place));
        next.mark.steps.extend(alone.steps.iter().cloned());
        next.mark.cost.include(&tried.cost);
        Ok(Some((next, alone)))
    }

    fn by_none(&self, way: &Way, index: usize, feed: &[Batch]) -> Way {
        let mut next = way.clone();
        self.prepared.hand_over(index, feed, &mut next.home);
        next.routes.push(None);
        next.mark.unserved.push(self.prepared.recipe.steps[index].product.clone());
        next
    }

    /// Keeps the best ways so far, the one that is chosen step by step among them.
    fn keep_the_best(&self, ways: &mut Vec<Way>) {
        let mut marked: Vec<(Combination, Way)> =
            ways.drain(..).map(|way| (self.combination(&way), way)).collect();
        marked.sort_by(|a, b| a.0.compare(&b.0, self.wishes.prefer));
        let best = marked.into_iter().enumerate();
        let kept = best.filter(|(place, (_, way))| *place < BEAM_WIDTH || way.step_by_step);
        ways.extend(kept.map(|(_, (_, way))| way));
    }

    /// Carries the routes of a way through the recipe again, at the amounts that its yields ask for.
    fn settled(&self, way: &Way) -> Result<Way, AdaptError> {
        if !self.settle {
            return Ok(way.clone());
        }
        let needs = self.prepared.needs(&way.home)?;
        if needs.moved(&way.home.needs) <= SETTLED {
            return Ok(way.clone());
        }
        let mut again = Way {
            home: self.prepared.start(needs),
            routes: Vec::new(),
            mark: Mark::default(),
            step_by_step: way.step_by_step,
        };
        for (index, chosen) in way.routes.iter().enumerate() {
            let feed = self.prepared.feed(index, &again.home);
            let next = match (&self.prepared.steps[index], chosen) {
                (Ready::Plain(chore), _) => {
                    self.prepared.plain(index, chore, &mut again.home);
                    again.routes.push(None);
                    continue;
                }
                (Ready::Professional(station), Some(place)) => {
                    self.by(&again, index, (*place, &station.open[*place]), &feed)?
                }
                (Ready::Professional(_), None) => None,
            };
            let next = next.map(|(next, _)| next);
            again = next.unwrap_or_else(|| self.by_none(&again, index, &feed));
        }
        // A route that fails on the larger amounts is still named, so that the way can be told apart.
        again.routes.clone_from(&way.routes);
        Ok(again)
    }

    /// Names what a way makes that a later product, bought ready-made, makes superfluous.
    fn superfluous(&self, way: &Way) -> Vec<&str> {
        let recipe = self.prepared.recipe;
        let replaced = way.home.replaced(recipe);
        let each = recipe.steps.iter().enumerate().filter(|(index, _)| !replaced.needs(*index));
        each.map(|(_, step)| step.product.as_str()).collect()
    }

    /// Names the routes of a way and marks the dish so far.
    fn combination(&self, way: &Way) -> Combination {
        let routes = way.routes.iter().zip(&self.prepared.steps).map(|(chosen, ready)| {
            let Ready::Professional(station) = ready else { return None };
            chosen.map(|place| station.open[place].route.id.clone())
        });
        let dish = way.home.stock.dish();
        let times: Vec<f64> = dish.iter().map(|batch| batch.elapsed.si()).collect();
        let longest = Estimate::of_results(&times).map_or(0.0, |time| time.high());
        let limit = self.wishes.within.map_or(f64::INFINITY, |limit| limit.si());
        let superfluous = self.superfluous(way);
        let is_needed = |product: &String| !superfluous.contains(&product.as_str());
        let (mut steps, mut unserved) = (way.mark.steps.clone(), way.mark.unserved.clone());
        steps.retain(|step| is_needed(&step.product));
        unserved.retain(is_needed);
        let mark = Mark {
            steps,
            unserved,
            time: middle(times.into_iter()),
            over: (longest - limit).max(0.0),
            effort: middle(dish.iter().map(|batch| batch.attended.si())),
            cost: way.mark.cost.clone(),
        };
        let volume = |batch: &Batch| batch.volume().map_or(f64::NAN, |volume| volume.si());
        Combination {
            routes: routes.collect(),
            mark,
            needs: Needs::clone(&way.home.needs),
            mass: Mass::from_si(middle(dish.iter().map(|batch| batch.mass().si()))),
            volume: Volume::from_si(middle(dish.iter().map(volume))),
        }
    }
}
