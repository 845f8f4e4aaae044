//! Doubts about a record before it is written.

use std::path::Path;

use super::tell;
use crate::advisor::{Bench, Sampler};
use crate::cli::context::Context;
use crate::cli::failure::{Failure, FailureKind};
use crate::finding::{Code, Finding};
use crate::kitchen::Kitchen;
use crate::knowledge::Knowledge;
use crate::recipe::Recipe;
use crate::trial::written::WrittenTrial;
use crate::trial::{Trial, calibrate, predict};

/// Samples for a first comparison: enough for a tenth percentile.
const SAMPLES: usize = 200;
/// The seed of the comparison.
const SEED: u64 = 1;
/// How a record is called that has no file yet.
const NEW: &str = "new trial";

/// The files that a record names.
pub(super) struct Files<'a> {
    /// The recipe.
    pub recipe: &'a Path,
    /// The kitchen.
    pub kitchen: &'a Path,
}

/// Tells what is hard to believe about a record; returns whether anything is.
pub(super) fn doubts(
    record: &WrittenTrial,
    files: &Files<'_>,
    knowledge: &Knowledge,
    context: &mut Context<'_>,
) -> anyhow::Result<bool> {
    let text = toml::to_string(record)?;
    let told = |findings: Vec<Finding>| -> Vec<(Finding, String)> {
        findings.into_iter().map(|one| (one, text.clone())).collect()
    };
    let read = match Trial::read(&text, NEW, knowledge) {
        Ok(read) => read,
        Err(findings) => {
            tell(&told(findings), context)?;
            return Err(Failure::new(FailureKind::WrongUse, "the record cannot be read").into());
        }
    };
    let mut questions = read.questions;
    questions.extend(ahead_of_the_clock(&read.trial));
    questions.extend(outliers(&read.trial, files, knowledge));
    tell(&told(questions.clone()), context)?;
    Ok(!questions.is_empty())
}

/// Asks about a trial that has not begun yet; a start without an offset is not compared.
fn ahead_of_the_clock(trial: &Trial) -> Option<Finding> {
    let start: jiff::Timestamp = trial.start.to_string().parse().ok()?;
    (start > jiff::Timestamp::now()).then(|| {
        let message = format!("the trial begins in the future, at {}", trial.start);
        Finding::warning(Code::Questionable, NEW, message).help("check date, time and offset")
    })
}

/// Asks about measurements far from what is predicted; a recipe that cannot be simulated has none.
fn outliers(trial: &Trial, files: &Files<'_>, knowledge: &Knowledge) -> Vec<Finding> {
    let Ok(kitchen) = Kitchen::load(files.kitchen, knowledge) else { return Vec::new() };
    let Ok(recipe) = Recipe::load(files.recipe, knowledge, kitchen.measures) else {
        return Vec::new();
    };
    let sampler = Sampler::new(SAMPLES, SEED);
    let bench = Bench { knowledge, kitchen: &kitchen, sampler: &sampler };
    let Ok(compared) = predict::compare(trial, &recipe, &bench) else { return Vec::new() };
    let Ok(learned) = calibrate::calibrate(&compared.observations) else { return Vec::new() };
    let strange = learned.iter().filter(|one| !one.outliers.is_empty());
    let question = |one: &crate::trial::Calibration| {
        let message =
            format!("the {} of {} is far from what is predicted", one.quantity, one.route);
        Finding::warning(Code::Questionable, NEW, message)
            .help("check the reading, the unit and the amounts; a true surprise is worth keeping")
    };
    strange.map(question).collect()
}
