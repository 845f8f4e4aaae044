//! `standin kitchen`: make a kitchen file, or show what one holds.

mod checklist;
mod new;
mod show;

use super::Outcome;
use super::context::Context;

/// Make a kitchen file, or show what one holds
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct KitchenArgs {
    #[command(subcommand)]
    command: KitchenCommand,
}

const EXAMPLES: &str = "\
Examples:
  standin kitchen new mine.toml
  standin kitchen show examples/tiny-flat.toml";

#[derive(Debug, clap::Subcommand)]
enum KitchenCommand {
    New(Box<new::NewArgs>),
    Show(show::ShowKitchenArgs),
}

/// Runs the command.
pub(crate) fn run(args: &KitchenArgs, context: &mut Context<'_>) -> anyhow::Result<Outcome> {
    match &args.command {
        KitchenCommand::New(args) => new::run(args, context),
        KitchenCommand::Show(args) => show::run(args, context),
    }
}
