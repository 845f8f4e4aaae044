//! `standin trial fit`: learn from the trials of a book.

use std::path::PathBuf;

use super::{open, tell};
use crate::advisor::{Bench, Sampler};
use crate::book::{Book, Shelf};
use crate::cli::Outcome;
use crate::cli::adapt::Sampling;
use crate::cli::context::Context;
use crate::cli::failure::{Failure, FailureKind};
use crate::finding::Finding;
use crate::kitchen::Kitchen;
use crate::knowledge::Knowledge;
use crate::recipe::Recipe;
use crate::report::trial_fit::{self, Fitted, LeftOut};
use crate::trial::{Store, Trial, calibrate, predict};

/// Compare what was measured with what is predicted, and learn a factor for each route
///
/// Each trial is simulated again with its amounts, its kitchen and its routes. Trials without a
/// recipe or kitchen in the book, and steps that deviated, are left out by name.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct FitArgs {
    /// Folder of the book
    #[arg(value_name = "BOOK", default_value = ".")]
    book: PathBuf,

    #[command(flatten)]
    sampling: Sampling,
}

const EXAMPLES: &str = "\
Examples:
  standin trial fit examples/book
  standin trial fit examples/book --format markdown > factors.md";

/// Runs the command.
pub(super) fn run(args: &FitArgs, context: &mut Context<'_>) -> anyhow::Result<Outcome> {
    let knowledge = context.knowledge()?;
    let book = open(&args.book, context)?;
    let (fitted, faulty) = fit(&book, &knowledge, &args.sampling.sampler(), context)?;
    context.report(&trial_fit::document(&fitted, &knowledge), &trial_fit::json(&fitted))?;
    Ok(if faulty { Outcome::SaysNo } else { Outcome::Done })
}

/// Learns from the trials of a book; the flag says whether a file could not be read.
pub(in crate::cli) fn fit(
    book: &Book,
    knowledge: &Knowledge,
    sampler: &Sampler,
    context: &mut Context<'_>,
) -> anyhow::Result<(Fitted, bool)> {
    let loaded = Store::new(book).load(knowledge);
    let faulty = tell(&loaded.findings, context)?;
    let mut observations = Vec::new();
    let mut left_out = Vec::new();
    for trial in &loaded.trials {
        let because = match compared(trial, book, knowledge, sampler) {
            Ok(compared) => {
                observations.extend(compared.observations);
                compared.left_out
            }
            Err(why) => vec![why],
        };
        let named = |because| LeftOut { trial: trial.id.clone(), because };
        left_out.extend(because.into_iter().map(named));
    }
    let calibrations = calibrate::calibrate(&observations)
        .map_err(|error| Failure::new(FailureKind::NoAnswer, error.to_string()))?;
    let fitted =
        Fitted { book: book.title.clone(), trials: loaded.trials.len(), calibrations, left_out };
    Ok((fitted, faulty))
}

/// Compares one trial; the error says why it cannot be compared.
fn compared(
    trial: &Trial,
    book: &Book,
    knowledge: &Knowledge,
    sampler: &Sampler,
) -> Result<predict::Compared, String> {
    let find = |shelf, id: &str| book.find(shelf, id).map_err(|fault| fault.to_string());
    let faults = |findings: Vec<Finding>| {
        let first = findings.first().map_or("", |finding| finding.message.as_str());
        format!("{} has {} faults: {first}", trial.recipe, findings.len())
    };
    let kitchen = find(Shelf::Kitchens, &trial.kitchen)?;
    let recipe = find(Shelf::Recipes, &trial.recipe)?;
    let kitchen = Kitchen::load(&kitchen, knowledge).map_err(faults)?;
    let recipe = Recipe::load(&recipe, knowledge, kitchen.measures).map_err(faults)?;
    let bench = Bench { knowledge, kitchen: &kitchen, sampler };
    predict::compare(trial, &recipe, &bench).map_err(|error| error.to_string())
}
