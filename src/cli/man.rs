//! `standin man`: the manual pages.

use std::fs;
use std::path::{Path, PathBuf};

use clap::Command;
use clap_mangen::Man;

use super::context::Context;
use super::failure::{Failure, FailureKind};
use super::{Outcome, files};

/// Write the manual, one page for each command
///
/// Without --output the page of the program, or of the command named, goes to standard output.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct ManArgs {
    /// The command whose page is wanted, such as "trial add"
    #[arg(value_name = "COMMAND", num_args = 0.., conflicts_with = "output")]
    command: Vec<String>,

    /// Write every page into this folder, which is made if it is missing
    #[arg(long, value_name = "DIR")]
    output: Option<PathBuf>,
}

const EXAMPLES: &str = "\
Examples:
  standin man adapt
  standin man calc boil
  standin man --output ~/.local/share/man/man1";

/// Program and version, at the foot of each page.
const VERSION: &str = concat!("standin ", env!("CARGO_PKG_VERSION"));
/// What the generator writes for the date between section and source when there is none.
const NO_DATE: &str = " 1  \"";
/// A date that is left unsaid, as readers of manual pages expect it.
const DATE_UNSAID: &str = " 1 \"\" \"";
/// How the generator begins what stands at the end of a help text.
const EXTRA: &str = ".SH EXTRA\nExamples:\n";
/// How manual pages call it.
const EXAMPLES_HEADING: &str = ".SH EXAMPLES\n";

/// Runs the command.
pub(crate) fn run(args: &ManArgs, context: &mut Context<'_>) -> anyhow::Result<Outcome> {
    let mut program = super::command().disable_help_subcommand(true);
    program.build();
    match &args.output {
        Some(folder) => {
            let count = write_all(&program, folder)?;
            context.remark(&format!("wrote {count} pages into {}", folder.display()))?;
        }
        None => {
            let (_, text) = page(named(&program, &args.command)?)?;
            context.out.write_all(&text)?;
        }
    }
    Ok(Outcome::Done)
}

/// Returns the command that words name, one below the other.
fn named<'a>(program: &'a Command, words: &[String]) -> Result<&'a Command, Failure> {
    words.iter().try_fold(program, |command, word| {
        command.find_subcommand(word).ok_or_else(|| {
            let below: Vec<&str> = command.get_subcommands().map(Command::get_name).collect();
            Failure::wrong_use(format!("`{}` has no command `{word}`", command.get_name()))
                .hint(crate::finding::suggestion(word, &below))
        })
    })
}

/// Returns the name of the file of a command's page, and the page.
fn page(command: &Command) -> std::io::Result<(String, Vec<u8>)> {
    let man = Man::new(command.clone()).manual("User Commands").source(VERSION);
    let mut text = Vec::new();
    man.render(&mut text)?;
    let text = String::from_utf8_lossy(&text);
    // A page without a date says so by an empty word; the examples have a heading of their own.
    let text = text.replacen(NO_DATE, DATE_UNSAID, 1).replacen(EXTRA, EXAMPLES_HEADING, 1);
    Ok((man.get_filename(), text.into_bytes()))
}

/// Writes the pages of a command and of all below it; returns how many.
fn write_all(command: &Command, folder: &Path) -> anyhow::Result<usize> {
    fs::create_dir_all(folder).map_err(|error| {
        Failure::new(FailureKind::File, format!("{}: {error}", folder.display()))
    })?;
    let (name, text) = page(command)?;
    files::write_whole(&folder.join(name), &text, true)?;
    command.get_subcommands().try_fold(1, |count, below| Ok(count + write_all(below, folder)?))
}
