//! The verdict on a recipe in a kitchen, from as few samples as it allows.
//!
//! The verdict is the one that [`adapt`](crate::advisor::adapt) comes to with all samples. The routes
//! are chosen by the same search. Then only the chosen ones are carried through the recipe, on a few
//! samples, and on more of them only while the medians of all that the adaptation draws could still
//! lie on the other side of a bound between two verdicts.

use super::bounds::{Bounds, Known, bounds, rank_deviation};
use super::carry::{Course, Taken, Walk, Way};
use super::{Outlook, RouteOutlook, StepOutlook, Study};
use crate::advisor::adapt::MOST_CHOICES;
use crate::advisor::choose::{Barred, Search, Wishes};
use crate::advisor::reference::WORKS_IN;
use crate::advisor::step::Station;
use crate::advisor::walk::{Prepared, Ready};
use crate::advisor::{AdaptError, Sampler, Verdict};
use crate::kitchen::Kitchen;

/// A verdict counts as decided when no median that lies within this many standard deviations of rank
/// would change it. Of the few medians that lie at the bound itself, one in fifteen is then misjudged.
const DEVIATIONS: f64 = 1.5;

/// What a recipe comes to in a kitchen, and the number of samples that it took.
///
/// # Errors
/// [`AdaptError`] for an ingredient or a step that cannot be simulated.
pub fn outlook(study: &Study<'_>, kitchen: &Kitchen) -> Result<(Outlook, usize), AdaptError> {
    let draws = study.draws;
    // Where typical values are no case of the laboratory's, samples may be.
    let typical = study.prepared(kitchen, &draws.typical);
    let Some(full) = &draws.full else {
        let typical = typical?;
        return Ok((outlook_of(&typical, &chosen(&typical, &typical, Vec::new(), None)?), 1));
    };
    let Ok(typical) = typical else { return unscreened(study, kitchen, full) };
    if lacks_gear(&typical) {
        // Without gear for a step the verdict is no, whatever the samples.
        return Ok((outlook_of(&typical, &chosen(&typical, &typical, Vec::new(), None)?), 1));
    }
    let wishes = Wishes::default();
    let search = Search { prepared: &typical, wishes: &wishes, barred: &[], settle: true };
    let (few, hopeless) = (search.sampler(full), search.hopeless()?);
    let sketch = study.prepared(kitchen, &few)?;
    let mut course = choose(&sketch, &[], &hopeless)?;
    for sampler in &draws.fewer {
        // What fails on few samples may work on more.
        let Ok(prepared) = study.prepared(kitchen, sampler) else { continue };
        let walk = Walk { prepared: &prepared, course: &course, last: false };
        let Ok(way) = walk.carry()? else { continue };
        if is_decided(&prepared, &way, full.count()) {
            return Ok((outlook_of(&prepared, &way), sampler.count()));
        }
        course.needs = way.needs;
    }
    let prepared = study.prepared(kitchen, full)?;
    let way = chosen(&sketch, &prepared, hopeless, Some(course))?;
    Ok((outlook_of(&prepared, &way), full.count()))
}

/// The verdict on all samples, without a look at typical values.
fn unscreened(
    study: &Study<'_>,
    kitchen: &Kitchen,
    full: &Sampler,
) -> Result<(Outlook, usize), AdaptError> {
    let prepared = study.prepared(kitchen, full)?;
    let wishes = Wishes::default();
    let search = Search { prepared: &prepared, wishes: &wishes, barred: &[], settle: true };
    let few = search.sampler(full);
    let way = chosen(&study.prepared(kitchen, &few)?, &prepared, Vec::new(), None)?;
    Ok((outlook_of(&prepared, &way), full.count()))
}

/// What every route comes to, at typical values, each step carried on by the best of its routes.
///
/// # Errors
/// As [`outlook`].
pub(super) fn prospects(study: &Study<'_>, kitchen: &Kitchen) -> Result<Outlook, AdaptError> {
    let prepared = study.prepared(kitchen, &study.draws.typical)?;
    let course = Course::open(prepared.recipe);
    let tried = Walk { prepared: &prepared, course: &course, last: true }.every_route()?;
    let steps = professional(&prepared).map(|(index, product, station)| {
        let routes = tried[index].iter().map(|taken| route_outlook(station, taken)).collect();
        step_outlook(product, station, routes)
    });
    Ok(Outlook::of(steps.collect()))
}

/// Chooses the routes as the adaptation does, and simulates no more than that takes: nothing where
/// there is but one route for each step, and no hopeless route unless it comes to that.
fn choose(
    sketch: &Prepared<'_>,
    barred: &[Barred],
    hopeless: &[Barred],
) -> Result<Course, AdaptError> {
    let wishes = Wishes::default();
    let without: Vec<Barred> = barred.iter().chain(hopeless).cloned().collect();
    let promising = Search { prepared: sketch, wishes: &wishes, barred: &without, settle: true };
    if let Some(routes) = promising.only() {
        return Ok(Course { routes, ..Course::open(sketch.recipe) });
    }
    let best = promising.choose()?.best;
    if hopeless.is_empty() || best.mark.unserved.is_empty() {
        return Ok(Course::of(best));
    }
    let search = Search { barred, ..promising };
    Ok(Course::of(search.choose_without(hopeless)?.best))
}

/// Carries the chosen routes, those of `course` first where it is known; chooses on a sketch again
/// where one of them fails.
fn chosen<'p>(
    sketch: &Prepared<'_>,
    prepared: &Prepared<'p>,
    mut hopeless: Vec<Barred>,
    mut course: Option<Course>,
) -> Result<Way<'p>, AdaptError> {
    let mut barred = Vec::new();
    loop {
        let course = match course.take() {
            Some(course) => course,
            None => choose(sketch, &barred, &hopeless)?,
        };
        let last = barred.len() + 1 >= MOST_CHOICES;
        match (Walk { prepared, course: &course, last }).carry()? {
            Ok(way) => return Ok(way),
            Err(failed) => {
                barred.push(failed);
                hopeless.clear();
            }
        }
    }
}

/// Returns whether some step has no route for which the gear is there, and no later product could be
/// bought so that it would not matter.
fn lacks_gear(prepared: &Prepared<'_>) -> bool {
    let can_buy = |from: usize| {
        professional(prepared).any(|(index, _, station)| index > from && station.sells())
    };
    professional(prepared).any(|(index, _, station)| station.open.is_empty() && !can_buy(index))
}

/// The professional steps: index, product and station.
fn professional<'p, 'a>(
    prepared: &'p Prepared<'a>,
) -> impl Iterator<Item = (usize, &'p str, &'p Station<'a>)> {
    let steps = prepared.steps.iter().zip(&prepared.recipe.steps).enumerate();
    steps.filter_map(|(index, (ready, step))| match ready {
        Ready::Plain(_) => None,
        Ready::Professional(station) => Some((index, step.product.as_str(), station.as_ref())),
    })
}

/// Returns whether all samples would leave the verdict as it is.
fn is_decided(prepared: &Prepared<'_>, way: &Way<'_>, all: usize) -> bool {
    let mut whole = Bounds { best: Verdict::AsWritten, worst: Verdict::AsWritten };
    let needed = professional(prepared).filter(|(index, _, _)| way.replaced.needs(*index));
    for (index, _, station) in needed {
        let Some(taken) = &way.taken[index] else { return false };
        let home = &taken.tried.simulated;
        let known = Known {
            laboratory: &station.laboratory().simulated,
            home,
            score: &taken.tried.score,
            all,
        };
        let one = bounds(&known, DEVIATIONS, prepared.bench.knowledge);
        whole = Bounds { best: whole.best.max(one.best), worst: whole.worst.max(one.worst) };
        let samples = prepared.bench.sampler.count();
        let doubt = DEVIATIONS * rank_deviation(samples, all) / samples as f64;
        if home.working_share() - WORKS_IN < doubt && home.faulty.is_some() {
            return false;
        }
    }
    whole.best == whole.worst
}

fn outlook_of(prepared: &Prepared<'_>, way: &Way<'_>) -> Outlook {
    let steps = professional(prepared).map(|(index, product, station)| {
        let taken = way.taken[index].iter().map(|taken| route_outlook(station, taken)).collect();
        let is_needed = way.replaced.needs(index);
        StepOutlook { is_needed, ..step_outlook(product, station, taken) }
    });
    Outlook::of(steps.collect())
}

fn step_outlook(product: &str, station: &Station<'_>, routes: Vec<RouteOutlook>) -> StepOutlook {
    let goal = station.laboratory().score.goals.first();
    StepOutlook {
        product: product.to_owned(),
        technique: station.technique().0.to_owned(),
        goal: goal.map_or_else(String::new, |term| term.goal.clone()),
        routes,
        closed: station.closed.clone(),
        is_needed: true,
    }
}

fn route_outlook(station: &Station<'_>, taken: &Taken<'_>) -> RouteOutlook {
    let score = &taken.tried.score;
    RouteOutlook {
        route: station.open[taken.place].route.id.clone(),
        verdict: score.verdict,
        worst: score.worst,
        short: score.goals.first().map_or(0.0, |term| term.short),
    }
}
