//! `standin kitchen show`: what a kitchen has, what is assumed of it, and what it can stand in for.

use std::path::PathBuf;

use crate::cli::context::Context;
use crate::cli::{Outcome, files};
use crate::report::kitchen::{document, json};

/// Show what a kitchen has, what is assumed of it, and which techniques it serves
///
/// A technique is served when the kitchen owns all that one of its routes needs; whether the route
/// reaches the goal of a recipe is told by `check`.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct ShowKitchenArgs {
    /// Kitchen file
    #[arg(value_name = "FILE")]
    file: PathBuf,
}

const EXAMPLES: &str = "\
Examples:
  standin kitchen show examples/tiny-flat.toml
  standin kitchen show examples/keen-cook.toml --format json";

/// Runs the command.
pub(crate) fn run(args: &ShowKitchenArgs, context: &mut Context<'_>) -> anyhow::Result<Outcome> {
    let knowledge = context.knowledge()?;
    let kitchen = files::kitchen(&args.file, &knowledge, context)?;
    context.report(&document(&kitchen, &knowledge), &json(&kitchen, &knowledge))?;
    Ok(Outcome::Done)
}
