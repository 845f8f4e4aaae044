//! `standin export`: an adapted recipe in the open vocabulary.

use std::path::PathBuf;

use super::adapt::Sampling;
use super::context::Context;
use super::failure::{Failure, FailureKind};
use super::output::OutputArgs;
use super::{Outcome, files};
use crate::advisor::{Bench, Verdict, adapt};
use crate::report::{json, recipe_json_ld};

/// Write an adapted recipe as schema.org Recipe in JSON-LD, for a web page
///
/// Cautions come before the steps that they are about. Times are the computed medians; prepTime is
/// the attended time. Exits with 1 when a step cannot be reached in this kitchen.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct ExportArgs {
    /// Recipe file
    #[arg(value_name = "RECIPE")]
    recipe: PathBuf,

    /// Kitchen file
    #[arg(long, value_name = "FILE")]
    kitchen: PathBuf,

    #[command(flatten)]
    output: OutputArgs,

    #[command(flatten)]
    sampling: Sampling,
}

const EXAMPLES: &str = "\
Examples:
  standin export examples/pear-treacle.toml --kitchen examples/tiny-flat.toml
  standin export examples/pear-treacle.toml --kitchen examples/tiny-flat.toml \\
    --output treacle.json";

/// Runs the command.
pub(crate) fn run(args: &ExportArgs, context: &mut Context<'_>) -> anyhow::Result<Outcome> {
    args.output.check()?;
    let knowledge = context.knowledge()?;
    let kitchen = files::kitchen(&args.kitchen, &knowledge, context)?;
    let recipe = files::recipe(&args.recipe, &knowledge, kitchen.measures, context)?;
    let sampler = args.sampling.sampler();
    let bench = Bench { knowledge: &knowledge, kitchen: &kitchen, sampler: &sampler };
    let done = adapt(&recipe, &bench)
        .map_err(|error| Failure::new(FailureKind::NoAnswer, error.to_string()))?;
    let text = json::pretty(&recipe_json_ld::recipe(&done, &recipe, &kitchen, &knowledge))?;
    args.output.write(text.as_bytes(), context)?;
    Ok(if done.verdict == Verdict::No { Outcome::SaysNo } else { Outcome::Done })
}
