//! An outlook from as few samples as its verdict allows.
//!
//! The typical values alone tell when a step lacks gear. Otherwise a small sample is drawn, and a
//! larger one only while the medians could still move across a bound between two verdicts.

use super::Outlook;
use super::bounds::{Bounds, bounds};
use crate::advisor::{AdaptError, Adaptation, Advice, Bench, Sampler, StepAdvice, Verdict, adapt};
use crate::kitchen::Kitchen;
use crate::knowledge::Knowledge;
use crate::recipe::Recipe;

/// Samples drawn before the full number, in rising order.
const FEWER: [usize; 3] = [8, 32, 256];
/// A verdict counts as decided when no median that lies within this many standard deviations of rank
/// would change it.
const DEVIATIONS: f64 = 1.0;

/// The samplers of a recipe, from typical values to the full number of samples.
#[derive(Debug)]
pub struct Draws {
    typical: Sampler,
    rising: Vec<Sampler>,
}

impl Draws {
    /// Makes samplers up to a full number of samples.
    pub fn up_to(full: usize, seed: u64) -> Self {
        let fewer = FEWER.into_iter().filter(|count| *count < full);
        let rising = fewer.chain([full]).map(|count| Sampler::new(count, seed)).collect();
        Self { typical: Sampler::new(1, seed), rising }
    }

    /// Makes a sampler that always draws the full number.
    pub fn always(full: usize, seed: u64) -> Self {
        Self { typical: Sampler::new(1, seed), rising: vec![Sampler::new(full, seed)] }
    }

    /// Makes a sampler with every unknown at its median.
    pub fn typical() -> Self {
        Self { typical: Sampler::new(1, 0), rising: Vec::new() }
    }
}

/// What a recipe comes to in a kitchen, and the number of samples that it took.
///
/// # Errors
/// [`AdaptError`] for an ingredient or a step that cannot be simulated.
pub fn outlook(
    recipe: &Recipe,
    kitchen: &Kitchen,
    knowledge: &Knowledge,
    draws: &Draws,
) -> Result<(Outlook, usize), AdaptError> {
    let run = |sampler| adapt(recipe, &Bench { knowledge, kitchen, sampler });
    let typical = run(&draws.typical)?;
    let failing = failing(&typical);
    if lacks_gear(&typical) {
        return Ok((Outlook::of(&typical), 1));
    }
    let mut last = (typical, 1);
    for sampler in &draws.rising {
        let count = sampler.count();
        last = (run(sampler)?, count);
        if self::failing(&last.0) == failing && is_decided(&last.0, knowledge) {
            break;
        }
    }
    Ok((Outlook::of(&last.0), last.1))
}

fn professional(adaptation: &Adaptation) -> impl Iterator<Item = &StepAdvice> {
    adaptation.steps.iter().filter_map(|step| match &step.advice {
        Advice::Professional(advice) => Some(advice.as_ref()),
        Advice::Plain(_) => None,
    })
}

/// Returns whether some step has no route for which the gear is there: no sample changes that.
fn lacks_gear(adaptation: &Adaptation) -> bool {
    let lacks = |advice: &StepAdvice| {
        advice.routes.is_empty() && advice.ruled_out.iter().all(|route| !route.missing.is_empty())
    };
    professional(adaptation).any(lacks)
}

/// The routes for which the gear is there, but which do not work.
fn failing(adaptation: &Adaptation) -> Vec<String> {
    let closed = professional(adaptation).flat_map(|advice| &advice.ruled_out);
    closed.filter(|route| route.missing.is_empty()).map(|route| route.id.clone()).collect()
}

/// Returns whether more samples would leave the verdict as it is.
fn is_decided(adaptation: &Adaptation, knowledge: &Knowledge) -> bool {
    let each = professional(adaptation).map(|advice| step_bounds(advice, knowledge));
    let whole = each.fold((Verdict::AsWritten, Verdict::AsWritten), |(best, worst), bounds| {
        (best.max(bounds.best), worst.max(bounds.worst))
    });
    whole.0 == whole.1
}

/// The bounds of a step: another route may turn out better than the best one.
fn step_bounds(advice: &StepAdvice, knowledge: &Knowledge) -> Bounds {
    let mut each = advice.routes.iter().map(|route| bounds(route, DEVIATIONS, knowledge));
    let Some(first) = each.next() else {
        return Bounds { best: Verdict::No, worst: Verdict::No };
    };
    Bounds { best: each.map(|other| other.best).fold(first.best, Verdict::min), ..first }
}
