//! Carrying a recipe through a kitchen by chosen routes alone.
//!
//! The same walk as that of [`adapt`](crate::advisor::adapt), which also runs the other routes beside
//! the chosen ones and puts all of them into words.

use std::cmp::Ordering;

use crate::advisor::AdaptError;
use crate::advisor::adapt::MOST_ROUNDS;
use crate::advisor::choose::{Barred, Combination, SETTLED};
use crate::advisor::home::{Home, Served};
use crate::advisor::rank::Prefer;
use crate::advisor::replaced::Replaced;
use crate::advisor::step::{Station, Tried};
use crate::advisor::walk::{Prepared, Ready};
use crate::process::Batch;
use crate::recipe::{Needs, Recipe};

/// A route that was taken for a step.
pub(super) struct Taken<'a> {
    /// Its place among the open routes.
    pub(super) place: usize,
    /// What it came to.
    pub(super) tried: Tried<'a>,
}

/// A recipe that was carried through.
pub(super) struct Way<'a> {
    /// What was taken for each step: nothing for plain work and where no route works.
    pub(super) taken: Vec<Option<Taken<'a>>>,
    /// The amounts that its yields ask for.
    pub(super) needs: Needs,
    /// What is superfluous because a later product is bought.
    pub(super) replaced: Replaced,
}

/// Chosen routes, and the amounts that they ask for as far as is known.
pub(super) struct Course {
    /// Id of the route by step; none for plain work and where no route works.
    pub(super) routes: Vec<Option<String>>,
    /// The amounts to begin with.
    pub(super) needs: Needs,
}

impl Course {
    /// No routes, at the amounts of the recipe.
    pub(super) fn open(recipe: &Recipe) -> Self {
        Self { routes: Vec::new(), needs: Needs::as_written(recipe) }
    }

    /// Takes a combination that a search came to.
    pub(super) fn of(best: Combination) -> Self {
        Self { routes: best.routes, needs: best.needs }
    }
}

/// Chosen routes on their way through a recipe.
pub(super) struct Walk<'p, 'a> {
    /// The recipe in its kitchen.
    pub(super) prepared: &'p Prepared<'a>,
    /// The routes.
    pub(super) course: &'p Course,
    /// Whether a chosen route that fails is replaced by the best that works, rather than handed back.
    pub(super) last: bool,
}

impl<'a> Walk<'_, 'a> {
    /// Carries the routes through the recipe, first at the given amounts, then at those that the yields
    /// ask for. A chosen route that fails is handed back, unless this is the last time.
    ///
    /// # Errors
    /// [`AdaptError`] for a step that cannot be simulated.
    pub(super) fn carry(&self) -> Result<Result<Way<'a>, Barred>, AdaptError> {
        let mut home = self.prepared.start(self.course.needs.clone());
        let mut way = Vec::with_capacity(self.prepared.steps.len());
        for index in 0..self.prepared.steps.len() {
            match self.first(index, &mut home)? {
                Ok(taken) => way.push(taken),
                Err(barred) => return Ok(Err(barred)),
            }
        }
        for _ in 1..MOST_ROUNDS {
            let needs = self.prepared.needs(&home)?;
            if needs.moved(&home.needs) <= SETTLED {
                break;
            }
            home = self.prepared.start(needs);
            let mut failed = None;
            for (index, taken) in way.iter_mut().enumerate() {
                failed = failed.or(self.again(index, taken.as_mut(), &mut home)?);
            }
            if let (Some(barred), false) = (failed, self.last) {
                return Ok(Err(barred));
            }
        }
        let replaced = home.replaced(self.prepared.recipe);
        Ok(Ok(Way { taken: way, needs: Needs::clone(&home.needs), replaced }))
    }

    /// Does a step for the first time.
    fn first(
        &self,
        index: usize,
        home: &mut Home,
    ) -> Result<Result<Option<Taken<'a>>, Barred>, AdaptError> {
        let station = match &self.prepared.steps[index] {
            Ready::Professional(station) => station,
            Ready::Plain(chore) => {
                self.prepared.plain(index, chore, home);
                return Ok(Ok(None));
            }
        };
        let feed = self.prepared.feed(index, home);
        let wanted = self.course.routes[index].as_deref();
        let place = station.open.iter().position(|open| wanted == Some(open.route.id.as_str()));
        let tried = match place {
            Some(place) => self.run(index, place, &feed)?,
            None => None,
        };
        let taken = match (tried, wanted) {
            (None, Some(id)) if !self.last => {
                return Ok(Err(Barred::Route(index, id.to_owned())));
            }
            (None, _) => self.best_alone(index, station, &feed)?,
            (taken, _) => taken,
        };
        self.go_on(index, taken.as_ref(), &feed, home);
        Ok(Ok(taken))
    }

    /// Does a step again on other amounts; returns its route when it fails on them.
    fn again(
        &self,
        index: usize,
        taken: Option<&mut Taken<'a>>,
        home: &mut Home,
    ) -> Result<Option<Barred>, AdaptError> {
        let station = match &self.prepared.steps[index] {
            Ready::Professional(station) => station,
            Ready::Plain(chore) => {
                self.prepared.plain(index, chore, home);
                return Ok(None);
            }
        };
        let feed = self.prepared.feed(index, home);
        let Some(taken) = taken else {
            self.go_on(index, None, &feed, home);
            return Ok(None);
        };
        let failed = match self.run(index, taken.place, &feed)? {
            Some(again) => {
                *taken = again;
                None
            }
            None => Some(Barred::Route(index, station.open[taken.place].route.id.clone())),
        };
        self.go_on(index, Some(taken), &feed, home);
        Ok(failed)
    }

    /// Runs a route; nothing when it does not work.
    fn run(
        &self,
        index: usize,
        place: usize,
        feed: &[Batch],
    ) -> Result<Option<Taken<'a>>, AdaptError> {
        let Ready::Professional(station) = &self.prepared.steps[index] else { return Ok(None) };
        let failed = |error| AdaptError::Step {
            step: self.prepared.recipe.steps[index].product.clone(),
            error,
        };
        let tried = station.run(&station.open[place], feed, false).map_err(failed)?;
        Ok(tried.ok().map(|tried| Taken { place, tried }))
    }

    /// Runs every open route and returns the best of the step alone.
    fn best_alone(
        &self,
        index: usize,
        station: &Station<'a>,
        feed: &[Batch],
    ) -> Result<Option<Taken<'a>>, AdaptError> {
        let mut best: Option<Taken<'a>> = None;
        for place in 0..station.open.len() {
            let Some(taken) = self.run(index, place, feed)? else { continue };
            if best.as_ref().is_none_or(|best| order(station, &taken, best).is_lt()) {
                best = Some(taken);
            }
        }
        Ok(best)
    }

    /// Runs every open route of each step and goes on with the best.
    ///
    /// # Errors
    /// As [`Walk::carry`].
    pub(super) fn every_route(&self) -> Result<Vec<Vec<Taken<'a>>>, AdaptError> {
        let mut home = self.prepared.start(self.course.needs.clone());
        let mut all = Vec::with_capacity(self.prepared.steps.len());
        for (index, ready) in self.prepared.steps.iter().enumerate() {
            let mut tried = Vec::new();
            match ready {
                Ready::Plain(chore) => self.prepared.plain(index, chore, &mut home),
                Ready::Professional(station) => {
                    let feed = self.prepared.feed(index, &home);
                    for place in 0..station.open.len() {
                        tried.extend(self.run(index, place, &feed)?);
                    }
                    tried.sort_by(|a, b| order(station, a, b));
                    self.go_on(index, tried.first(), &feed, &mut home);
                }
            }
            all.push(tried);
        }
        Ok(all)
    }

    fn go_on(&self, index: usize, taken: Option<&Taken<'a>>, feed: &[Batch], home: &mut Home) {
        match (&self.prepared.steps[index], taken) {
            (Ready::Professional(station), Some(taken)) => {
                let tried = &taken.tried;
                let gear = tried.gear.iter().map(Vec::as_slice).collect();
                let bought = station.open[taken.place].bought;
                let served = Served { simulated: &tried.simulated, gear, bought };
                self.prepared.serve(index, &served, feed, home);
            }
            _ => self.prepared.hand_over(index, feed, home),
        }
    }
}

/// Orders two routes by what they make of their step alone, the better first; ids decide ties.
fn order(station: &Station<'_>, one: &Taken<'_>, other: &Taken<'_>) -> Ordering {
    let alone = |taken: &Taken<'_>| station.open[taken.place].alone("", &taken.tried);
    let id = |taken: &Taken<'_>| station.open[taken.place].route.id.as_str();
    let by_mark = alone(one).compare(&alone(other), Prefer::default()).0;
    by_mark.then_with(|| id(one).cmp(id(other)))
}
