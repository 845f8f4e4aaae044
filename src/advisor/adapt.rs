//! Adapting a whole recipe: routes chosen for the dish, yields carried back into the shopping list.

use super::Bench;
use super::adaptation::{AdaptError, Adaptation};
use super::advice::{Method, RuledOut};
use super::choose::{Barred, Choice, Combination, Pin, SETTLED, Search, Wishes};
use super::home::{Home, Served, middle};
use super::rank::Mark;
use super::step::{Open, Station};
use super::walk::{Prepared, Ready};
use crate::estimate::Estimate;
use crate::process::Batch;
use crate::quantity::{Mass, Volume};
use crate::recipe::{Needs, Recipe};

/// The shopping list settles in two rounds unless a yield changes with the size of the batch.
pub(super) const MOST_ROUNDS: usize = 4;
/// So often the routes are chosen again when some fail on the full samples. Each time one more way is
/// barred; a choice that fails this often is shown as it is.
pub(super) const MOST_CHOICES: usize = 6;
/// The size of a dish follows the yields of its routes in two or three rounds.
const MOST_SIZES: usize = 4;
/// A size counts as found within this share on few samples: the amounts are brought to it afterwards.
const CLOSE: f64 = 0.02;
/// Where the amounts had to be brought to the size asked for by more than this share, everything is run
/// again at that size.
const REFITTED: f64 = 0.1;
/// Amounts this near to the size asked for are left as they are.
const FITTED: f64 = 0.001;

/// Adapts a recipe to a kitchen.
///
/// Laboratory and home are each carried through the whole recipe; what a home route yields less than
/// the laboratory is bought more.
///
/// # Errors
/// [`AdaptError`] for an ingredient or a step that cannot be simulated.
pub fn adapt(recipe: &Recipe, bench: &Bench<'_>) -> Result<Adaptation, AdaptError> {
    adapt_to(recipe, bench, &Wishes::default())
}

/// Adapts a recipe to a kitchen and to what the cook asks for.
///
/// # Errors
/// As [`adapt`]; [`AdaptError::Pin`] for a chosen route that cannot be taken.
pub fn adapt_to(
    recipe: &Recipe,
    bench: &Bench<'_>,
    wishes: &Wishes,
) -> Result<Adaptation, AdaptError> {
    let mut scale = wishes.size.guess(recipe);
    for _ in 0..MOST_SIZES {
        if !wishes.size.follows_yields() {
            break;
        }
        let sized = recipe.scaled(scale);
        let adapter = Adapter { recipe: &sized, bench, wishes, settle: true, scale };
        let correction = wishes.size.correction_of(&sized, &adapter.sketch()?);
        scale *= correction;
        if (correction - 1.0).abs() <= CLOSE {
            break;
        }
    }
    let run = |scale: f64| {
        let sized = recipe.scaled(scale);
        Adapter { recipe: &sized, bench, wishes, settle: true, scale }.adapt()
    };
    let mut done = run(scale)?;
    for _ in 1..MOST_SIZES {
        let fitted = done.sizing.fitted;
        if (fitted - 1.0).abs() <= REFITTED {
            break;
        }
        // Other routes were chosen than on the few samples: the laboratory follows to their size.
        scale *= fitted;
        done = run(scale)?;
    }
    Ok(done)
}

/// Simulates a recipe in a kitchen with its amounts as written and by the routes that were taken: no
/// yield is carried back into the shopping list, so that the result can be compared with a trial of
/// those amounts.
///
/// # Errors
/// As [`adapt_to`].
pub fn foresee(
    recipe: &Recipe,
    bench: &Bench<'_>,
    taken: &[Pin],
) -> Result<Adaptation, AdaptError> {
    let wishes = Wishes { pins: taken.to_vec(), ..Wishes::default() };
    Adapter { recipe, bench, wishes: &wishes, settle: false, scale: 1.0 }.adapt()
}

pub(super) struct Adapter<'a> {
    pub(super) recipe: &'a Recipe,
    pub(super) bench: &'a Bench<'a>,
    pub(super) wishes: &'a Wishes,
    settle: bool,
    /// Size of the dish over the recipe's.
    pub(super) scale: f64,
}

/// The home carried through the recipe on all samples by the chosen routes.
pub(super) struct Carried {
    pub(super) choice: Choice,
    /// Routes that work and routes that do not, by step; none for plain work.
    pub(super) tried: Vec<(Vec<Method>, Vec<RuledOut>)>,
    pub(super) home: Home,
    /// By how much the amounts were brought to the size asked for.
    pub(super) fitted: f64,
}

impl Carried {
    /// The time within which nine in ten are done \[s\].
    pub(super) fn longest(&self) -> f64 {
        let times = self.home.stock.dish().iter().map(|batch| batch.elapsed.si());
        Estimate::of_results(&times.collect::<Vec<f64>>()).map_or(0.0, |time| time.high())
    }
}

impl<'a> Adapter<'a> {
    /// Chooses routes on few samples, and returns what the dish comes to with them.
    fn sketch(&self) -> Result<Combination, AdaptError> {
        let typical = self.bench.sampler.fewer(1);
        let outline = Prepared::brief(self.recipe, Bench { sampler: &typical, ..*self.bench })?;
        let few = self.search(&outline, &[]).sampler(self.bench.sampler);
        let sketch = Prepared::brief(self.recipe, Bench { sampler: &few, ..*self.bench })?;
        Ok(self.search(&sketch, &[]).choose()?.best)
    }

    fn adapt(&self) -> Result<Adaptation, AdaptError> {
        let prepared = Prepared::set_up(self.recipe, *self.bench)?;
        self.check_pins(&prepared)?;
        let few = self.search(&prepared, &[]).sampler(self.bench.sampler);
        let sketch = Prepared::brief(self.recipe, Bench { sampler: &few, ..*self.bench })?;
        let mut hopeless = self.hopeless();
        let mut barred = Vec::new();
        let mut slower: Option<Carried> = None;
        loop {
            let choice = self.search(&sketch, &barred).choose_without(&hopeless)?;
            let last = barred.len() + 1 >= MOST_CHOICES;
            let carried = match self.carry(&prepared, choice, last)? {
                Ok(carried) => carried,
                Err(route) => {
                    barred.push(route);
                    hopeless.clear();
                    continue;
                }
            };
            let in_time = self.wishes.within.is_none_or(|limit| carried.longest() <= limit.si());
            let promised = carried.choice.best.mark.over <= 0.0;
            if in_time || !promised || last {
                // Where nothing is done in time, the fastest that was carried through is shown.
                let faster = slower.filter(|one| !in_time && one.longest() < carried.longest());
                return Ok(self.finish(prepared, faster.unwrap_or(carried)));
            }
            barred.push(Barred::Whole(carried.choice.best.routes.clone()));
            slower = match slower {
                Some(one) if one.longest() <= carried.longest() => Some(one),
                _ => Some(carried),
            };
        }
    }

    /// The routes that are clearly worse at typical values; none where those do not work.
    fn hopeless(&self) -> Vec<Barred> {
        let typical = self.bench.sampler.fewer(1);
        let outline = Prepared::brief(self.recipe, Bench { sampler: &typical, ..*self.bench });
        let hopeless = outline.and_then(|outline| self.search(&outline, &[]).hopeless());
        hopeless.unwrap_or_default()
    }

    fn search<'p>(&'p self, prepared: &'p Prepared<'a>, barred: &'p [Barred]) -> Search<'p, 'a> {
        Search { prepared, wishes: self.wishes, barred, settle: self.settle }
    }

    /// Refuses a chosen route for which the kitchen lacks something.
    fn check_pins(&self, prepared: &Prepared<'_>) -> Result<(), AdaptError> {
        for pin in &self.wishes.pins {
            let Some(Ready::Professional(station)) = prepared.steps.get(pin.step) else { continue };
            if station.open.iter().any(|open| open.route.id == pin.route) {
                continue;
            }
            let closed = station.closed.iter().find(|closed| closed.id == pin.route);
            let because = closed.map_or_else(
                || format!("it does not stand in for {}", station.technique().1),
                RuledOut::reasons,
            );
            return Err(self.pin_error(pin.step, &pin.route, because));
        }
        Ok(())
    }

    fn pin_error(&self, step: usize, route: &str, because: String) -> AdaptError {
        let step = self.recipe.steps[step].product.clone();
        AdaptError::Pin { step, route: route.to_owned(), because }
    }

    /// Carries the home through the recipe on all samples, first by every route at the amounts that the
    /// search came to, then at those that the yields of the chosen routes ask for. A chosen route that fails is
    /// handed back, unless this is the last time.
    fn carry(
        &self,
        prepared: &Prepared<'a>,
        choice: Choice,
        last: bool,
    ) -> Result<Result<Carried, Barred>, AdaptError> {
        let mut home = prepared.start(choice.best.needs.clone());
        let mut tried = Vec::new();
        for (index, ready) in prepared.steps.iter().enumerate() {
            match ready {
                Ready::Plain(chore) => {
                    prepared.plain(index, chore, &mut home);
                    tried.push((Vec::new(), Vec::new()));
                }
                Ready::Professional(station) => {
                    let wanted = choice.best.routes[index].as_deref();
                    let feed = prepared.feed(index, &home);
                    let done = self.all_routes(index, station, &feed)?;
                    let ordered = self.ordered(index, done, wanted)?;
                    let best = ordered.0.first().map(|best| best.id.as_str());
                    if let (Some(wanted), false) = (wanted, last)
                        && best != Some(wanted)
                    {
                        return Ok(Err(Barred::Route(index, wanted.to_owned())));
                    }
                    match ordered.0.first() {
                        Some(one) => prepared.serve(index, &Served::of(one), &feed, &mut home),
                        None => prepared.hand_over(index, &feed, &mut home),
                    }
                    tried.push(ordered);
                }
            }
        }
        let mut carried = Carried { choice, tried, home, fitted: 1.0 };
        for _ in 1..MOST_ROUNDS {
            if !self.settle {
                break;
            }
            let next = prepared.needs(&carried.home)?;
            if next.moved(&carried.home.needs) <= SETTLED {
                break;
            }
            if let Some(route) = self.again(prepared, next, &mut carried)?
                && !last
            {
                return Ok(Err(route));
            }
        }
        self.fit_size(prepared, &mut carried)?;
        Ok(Ok(carried))
    }

    /// Brings the dish to the size that was asked for, now that the yields are known on all samples.
    fn fit_size(&self, prepared: &Prepared<'a>, carried: &mut Carried) -> Result<(), AdaptError> {
        let dish = carried.home.stock.dish();
        let mass = middle(dish.iter().map(|batch| batch.mass().si()));
        let volume = |batch: &Batch| batch.volume().map_or(f64::NAN, |volume| volume.si());
        let made = (Mass::from_si(mass), Volume::from_si(middle(dish.iter().map(volume))));
        let needs = &carried.home.needs;
        let correction = self.wishes.size.correction(self.recipe, &needs.ingredients, made);
        if (correction - 1.0).abs() > FITTED {
            let needs = needs.times(correction);
            self.again(prepared, needs, carried)?;
            carried.fitted = correction;
        }
        Ok(())
    }

    fn all_routes(
        &self,
        index: usize,
        station: &Station<'_>,
        feed: &[Batch],
    ) -> Result<(Vec<Method>, Vec<RuledOut>), AdaptError> {
        let product = &self.recipe.steps[index].product;
        station.methods(feed).map_err(|error| AdaptError::Step { step: product.clone(), error })
    }

    /// Puts the chosen route first, the others behind it by what they are worth in the step alone.
    fn ordered(
        &self,
        index: usize,
        (mut routes, ruled_out): (Vec<Method>, Vec<RuledOut>),
        wanted: Option<&str>,
    ) -> Result<(Vec<Method>, Vec<RuledOut>), AdaptError> {
        let pin = self.wishes.pins.iter().find(|pin| pin.step == index);
        if let Some(pin) = pin
            && !routes.iter().any(|method| method.id == pin.route)
        {
            let closed = ruled_out.iter().find(|closed| closed.id == pin.route);
            let because = closed.map_or_else(String::new, RuledOut::reasons);
            return Err(self.pin_error(index, &pin.route, because));
        }
        let wanted = pin.map(|pin| pin.route.as_str()).or(wanted);
        let mark = |method: &Method| Mark::of_method("", method);
        let behind = |method: &Method| wanted != Some(method.id.as_str());
        routes.sort_by(|a, b| {
            let alone = mark(a).compare(&mark(b), self.wishes.prefer).0;
            behind(a).cmp(&behind(b)).then(alone).then_with(|| a.id.cmp(&b.id))
        });
        Ok((routes, ruled_out))
    }

    /// Runs the chosen routes again on other amounts; returns one that fails on them.
    fn again(
        &self,
        prepared: &Prepared<'a>,
        needs: Needs,
        carried: &mut Carried,
    ) -> Result<Option<Barred>, AdaptError> {
        let mut home = prepared.start(needs);
        let mut failed = None;
        for (index, ready) in prepared.steps.iter().enumerate() {
            let Ready::Professional(station) = ready else {
                if let Ready::Plain(chore) = ready {
                    prepared.plain(index, chore, &mut home);
                }
                continue;
            };
            let step = &self.recipe.steps[index];
            let feed = prepared.feed(index, &home);
            let best = carried.tried[index].0.first_mut();
            let Some((open, best)) = best.and_then(|best| Some((open(station, best)?, best)))
            else {
                prepared.hand_over(index, &feed, &mut home);
                continue;
            };
            let error = |error| AdaptError::Step { step: step.product.clone(), error };
            match station.run(open, &feed, true).map_err(error)? {
                Ok(tried) => *best = station.method(open, tried),
                Err(route) => failed = failed.or(Some(Barred::Route(index, route.id))),
            }
            prepared.serve(index, &Served::of(best), &feed, &mut home);
        }
        carried.home = home;
        Ok(failed)
    }
}

fn open<'s, 'a>(station: &'s Station<'a>, method: &Method) -> Option<&'s Open<'a>> {
    station.open.iter().find(|open| open.route.id == method.id)
}
