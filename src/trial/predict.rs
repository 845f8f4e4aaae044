//! What a trial should have measured: its recipe with its amounts, in its kitchen, by its routes.

use super::calibrate::{Corrections, Observation, TIME, YIELD};
use super::{MeasuredStep, Trial};
use crate::advisor::{AdaptError, Adaptation, Advice, Bench, Method, Pin, foresee};
use crate::estimate::Estimate;
use crate::process::attribute::measure;
use crate::quantity::Mass;
use crate::recipe::{Recipe, Task, at_brix};

/// Per cent of a whole.
const PER_CENT: f64 = 100.0;

/// The measurements of a trial beside their predictions, and what could not be compared.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Compared {
    /// Measurements with their predictions.
    pub observations: Vec<Observation>,
    /// What was left out, and why.
    pub left_out: Vec<String>,
}

/// Compares a trial with what the simulation says of the same amounts, kitchen and routes.
///
/// A step that was done otherwise than written says nothing of its route and is left out.
///
/// # Errors
/// [`AdaptError`] when the recipe cannot be simulated.
pub fn compare(trial: &Trial, recipe: &Recipe, bench: &Bench<'_>) -> Result<Compared, AdaptError> {
    let mut compared = Compared::default();
    if trial.steps.iter().all(|step| step.route.is_none()) {
        return Ok(compared);
    }
    let mut cooked = with_amounts(recipe, trial);
    compared.left_out.extend(put_readings(&mut cooked, trial));
    let foreseen = by_its_routes(&cooked, trial, bench)?;
    for step in &trial.steps {
        let Some(route) = &step.route else { continue };
        match method(&foreseen, step, route) {
            Ok(_) if step.deviates => {
                let why = format!("{} deviated from the recipe", step.makes);
                compared.left_out.push(why);
            }
            Ok(method) => compared.observations.extend(observe(trial, step, method)),
            Err(why) => compared.left_out.push(why),
        }
    }
    Ok(compared)
}

/// Returns the recipe with the amounts that a trial used; ingredients that the trial does not name
/// follow those that it does.
fn with_amounts(recipe: &Recipe, trial: &Trial) -> Recipe {
    let mut scaled = recipe.clone();
    let used = |id: &str| {
        let actual = trial.ingredients.iter().find(|actual| actual.id == id)?;
        actual.mass.si().filter(|kg| *kg > 0.0)
    };
    let named = recipe.ingredients.iter().filter_map(|one| Some((one.bought, used(&one.id)?)));
    let (planned, actual) = named
        .fold((0.0, 0.0), |(planned, actual), (bought, kg)| (planned + bought.si(), actual + kg));
    let rest = if planned > 0.0 { actual / planned } else { 1.0 };
    for one in &mut scaled.ingredients {
        let factor = used(&one.id).map_or(rest, |kg| Mass::from_kilograms(kg) / one.bought);
        one.bought = one.bought * factor;
        one.mass = one.mass * factor;
    }
    scaled
}

/// Puts the readings that a trial took of its ingredients in the place of what their foods usually
/// have; returns what cannot be.
fn put_readings(recipe: &mut Recipe, trial: &Trial) -> Vec<String> {
    let mut impossible = Vec::new();
    for one in &mut recipe.ingredients {
        let Some(actual) = trial.ingredients.iter().find(|actual| actual.id == one.id) else {
            continue;
        };
        if let Some(brix) = actual.brix.si() {
            match at_brix(&one.shares, brix) {
                Some(shares) => one.shares = shares,
                None => impossible.push(format!(
                    "{:.1} °Brix cannot be a reading of {}: its other parts leave no room",
                    PER_CENT * brix,
                    one.id
                )),
            }
        }
        one.ph = actual.ph.si().or(one.ph);
    }
    impossible
}

/// Simulates a recipe by the routes that a trial took; a route that cannot be taken in this kitchen is
/// left to the choice of the simulation.
fn by_its_routes(
    recipe: &Recipe,
    trial: &Trial,
    bench: &Bench<'_>,
) -> Result<Adaptation, AdaptError> {
    let pin = |step: &MeasuredStep| {
        let index = recipe.steps.iter().position(|one| one.product == step.makes)?;
        let is_professional = matches!(recipe.steps[index].task, Task::Professional(_));
        let route = step.route.clone().filter(|_| is_professional)?;
        Some(Pin { step: index, route })
    };
    let mut pins: Vec<Pin> = trial.steps.iter().filter_map(pin).collect();
    loop {
        match foresee(recipe, bench, &pins) {
            Err(AdaptError::Pin { step, route, because }) => {
                let before = pins.len();
                pins.retain(|pin| recipe.steps[pin.step].product != step || pin.route != route);
                if pins.len() == before {
                    return Err(AdaptError::Pin { step, route, because });
                }
            }
            done => return done,
        }
    }
}

/// Finds the simulated route of a measured step; the error says why there is none.
fn method<'a>(
    foreseen: &'a Adaptation,
    step: &MeasuredStep,
    route: &str,
) -> Result<&'a Method, String> {
    let makes = &step.makes;
    let found = foreseen.steps.iter().find(|one| one.product == *makes);
    let found = found.ok_or_else(|| format!("the recipe has no step that makes {makes}"))?;
    let Advice::Professional(advice) = &found.advice else {
        return Err(format!("{makes} is plain work, which has no route"));
    };
    let open = advice.routes.iter().find(|method| method.id == route);
    open.ok_or_else(|| format!("the route {route} to {makes} cannot be simulated in this kitchen"))
}

fn observe(trial: &Trial, step: &MeasuredStep, method: &Method) -> Vec<Observation> {
    let mut measured: Vec<(&str, f64)> = Vec::new();
    measured.extend(step.time.si().map(|seconds| (TIME, seconds)));
    for (name, reading) in &step.measured {
        measured.extend(reading.si().map(|value| (name.as_str(), value)));
    }
    if !step.measured.contains_key(YIELD)
        && let (Some(before), Some(after)) = (step.mass_in.si(), step.mass_out.si())
        && before > 0.0
    {
        measured.push((YIELD, after / before));
    }
    let each = measured.into_iter().filter_map(|(quantity, value)| {
        Some(Observation {
            trial: trial.id.clone(),
            tester: trial.tester.clone(),
            kitchen: trial.kitchen.clone(),
            route: method.id.clone(),
            quantity: quantity.to_owned(),
            predicted: predicted(method, quantity)?,
            measured: value,
        })
    });
    each.collect()
}

/// Returns what a method is predicted to give; `None` for what the simulation does not tell.
pub fn predicted(method: &Method, quantity: &str) -> Option<Estimate> {
    match quantity {
        TIME => method.simulated.time(),
        attribute => method.simulated.range(|feed, product| measure(attribute, feed, product)),
    }
}

/// One number of an adaptation, raw and corrected.
#[derive(Debug, Clone, PartialEq)]
pub struct Applied {
    /// What the step makes.
    pub makes: String,
    /// The route.
    pub route: String,
    /// [`TIME`] or the id of an attribute.
    pub quantity: String,
    /// How many trials the correction rests on.
    pub trials: usize,
    /// As computed, in SI.
    pub raw: Estimate,
    /// As corrected, in SI.
    pub corrected: Estimate,
}

/// Corrects the times and yields of an adaptation's best routes by trials, and returns each number
/// beside what was computed.
///
/// Times of moves and of the whole and the masses that steps make follow; numbers inside the wording
/// of a move stay as computed.
pub fn correct(adaptation: &mut Adaptation, corrections: &Corrections) -> Vec<Applied> {
    let mut applied = Vec::new();
    // Home yield so far, corrected over computed.
    let mut yields = 1.0;
    for step in &mut adaptation.steps {
        if let Advice::Professional(advice) = &mut step.advice
            && let Some(best) = advice.routes.first_mut()
        {
            for quantity in quantities(best) {
                let known = corrections.find(&best.id, &quantity);
                let (Some(known), Some(raw)) = (known, predicted(best, &quantity)) else {
                    continue;
                };
                let corrected = known.correct(&raw, &quantity);
                let ratio = ratio(&raw, &corrected);
                match quantity.as_str() {
                    TIME => {
                        for one in &mut best.moves {
                            one.time = one.time.as_ref().and_then(|time| scaled(time, ratio));
                        }
                        let more = corrected.typical() - raw.typical();
                        adaptation.time =
                            adaptation.time.as_ref().and_then(|time| moved(time, more));
                    }
                    YIELD => yields *= ratio,
                    _ => {}
                }
                applied.push(Applied {
                    makes: step.product.clone(),
                    route: best.id.clone(),
                    trials: known.trials,
                    quantity,
                    raw,
                    corrected,
                });
            }
        }
        step.makes = step.makes.as_ref().and_then(|mass| scaled(mass, yields));
    }
    adaptation.makes = adaptation.makes.as_ref().and_then(|mass| scaled(mass, yields));
    applied
}

/// The quantities of a method that trials can correct.
fn quantities(method: &Method) -> Vec<String> {
    let compared = method.score.comparisons.iter().map(|one| one.attribute.clone());
    let mut all: Vec<String> =
        [TIME.to_owned(), YIELD.to_owned()].into_iter().chain(compared).collect();
    let mut seen = std::collections::BTreeSet::new();
    all.retain(|quantity| seen.insert(quantity.clone()));
    all
}

fn ratio(raw: &Estimate, corrected: &Estimate) -> f64 {
    if raw.typical() > 0.0 { corrected.typical() / raw.typical() } else { 1.0 }
}

fn scaled(estimate: &Estimate, factor: f64) -> Option<Estimate> {
    estimate.map(|value| value * factor).ok()
}

/// Moves a time; no end falls below zero.
fn moved(estimate: &Estimate, by: f64) -> Option<Estimate> {
    estimate.map(|value| (value + by).max(0.0)).ok()
}
