//! `standin completions`: what a shell needs to complete a command line.

use clap_complete::Shell;

use super::Outcome;
use super::context::Context;

/// Write the completions of a shell
///
/// Send them where your shell looks for completions, and open a new shell.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct CompletionsArgs {
    /// The shell
    #[arg(value_name = "SHELL", value_enum)]
    shell: Shell,
}

const EXAMPLES: &str = "\
Examples:
  standin completions bash > ~/.local/share/bash-completion/completions/standin
  standin completions zsh > ~/.zfunc/_standin";

/// Runs the command.
pub(crate) fn run(args: &CompletionsArgs, context: &mut Context<'_>) -> anyhow::Result<Outcome> {
    let mut text = Vec::new();
    let mut program = super::command().disable_help_subcommand(true);
    clap_complete::generate(args.shell, &mut program, super::NAME, &mut text);
    context.out.write_all(&text)?;
    Ok(Outcome::Done)
}
