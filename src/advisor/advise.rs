//! Advice on one professional step alone: its routes beside the laboratory, ranked.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::Bench;
use super::advice::{Method, StepAdvice, StepError};
use super::choose::why_alone;
use super::rank::{Mark, Prefer};
use super::reference::{Foods, Reference};
use super::step::Station;
use crate::knowledge::{Food, ValueMap};
use crate::process::Batch;
use crate::recipe::Professional;

/// The food of a step: its main ingredient.
#[derive(Debug, Clone, Copy)]
pub struct FoodOf<'a> {
    /// Id and group of the main ingredient, when it is known.
    pub names: Option<(&'a str, &'a str)>,
    /// Values of the main ingredient.
    pub values: &'a ValueMap,
    /// Every food that has gone into the step or into what it uses.
    pub all: &'a [&'a Food],
}

/// Advises on a step: simulates the laboratory and every open route, and ranks the routes.
///
/// # Errors
/// [`StepError`] when the laboratory's own method cannot be run.
pub fn advise(
    task: &Professional,
    food: &FoodOf<'_>,
    feeds: (&[Batch], &[Batch]),
    bench: &Bench<'_>,
) -> Result<StepAdvice, StepError> {
    advise_by(Prefer::default(), task, food, feeds, bench)
}

/// Advises on a step as [`advise`], and ranks the routes by what is preferred.
///
/// # Errors
/// As [`advise`].
pub fn advise_by(
    prefer: Prefer,
    task: &Professional,
    food: &FoodOf<'_>,
    feeds: (&[Batch], &[Batch]),
    bench: &Bench<'_>,
) -> Result<StepAdvice, StepError> {
    let foods = Foods { names: food.names, values: food.values, all: food.all.to_vec() };
    let means = (bench.knowledge, bench.sampler);
    let reference = Reference::simulate(task, foods, feeds.0, means, true)?;
    let station = Station::beside(Arc::new(reference), *bench);
    let (mut routes, ruled_out) = station.methods(feeds.1)?;
    let mark = |method: &Method| Mark::of_method(&task.technique, method);
    routes.sort_by(|a, b| mark(a).compare(&mark(b), prefer).0.then_with(|| a.id.cmp(&b.id)));
    let mut reasons = BTreeMap::new();
    if let Some((best, others)) = routes.split_first() {
        for other in others {
            let why = why_alone(best, other, prefer, bench.knowledge);
            reasons.insert(other.id.clone(), why);
        }
    }
    Ok(station.advice(routes, reasons, ruled_out))
}
