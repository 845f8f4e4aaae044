//! `standin trial list`: the trials of a book.

use std::path::PathBuf;

use super::{open, tell};
use crate::cli::Outcome;
use crate::cli::context::Context;
use crate::report::trial_list;
use crate::trial::Store;

/// List the trials of a book, with what its files leave open
///
/// Exits with 1 when a file cannot be read; the others are listed all the same.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct ListArgs {
    /// Folder of the book
    #[arg(value_name = "BOOK", default_value = ".")]
    book: PathBuf,

    /// Only trials of this recipe, by id
    #[arg(long, value_name = "ID")]
    recipe: Option<String>,
}

const EXAMPLES: &str = "\
Examples:
  standin trial list examples/book
  standin trial list examples/book --recipe pear-treacle --format json";

/// Runs the command.
pub(super) fn run(args: &ListArgs, context: &mut Context<'_>) -> anyhow::Result<Outcome> {
    let knowledge = context.knowledge()?;
    let book = open(&args.book, context)?;
    let mut loaded = Store::new(&book).load(&knowledge);
    if let Some(recipe) = &args.recipe {
        loaded.trials.retain(|trial| trial.recipe == *recipe);
    }
    let faulty = tell(&loaded.findings, context)?;
    let document = trial_list::document(&book.title, &loaded.trials);
    context.report(&document, &trial_list::json(&book.title, &loaded.trials))?;
    Ok(if faulty { Outcome::SaysNo } else { Outcome::Done })
}
