//! `standin trial amend`: append a correction.

use std::collections::BTreeMap;
use std::path::PathBuf;

use crate::knowledge::written::Spanned;

use super::add::clock;
use super::{open, pair, refused, tell};
use crate::cli::Outcome;
use crate::cli::context::Context;
use crate::cli::failure::Failure;
use crate::trial::Store;
use crate::trial::written::WrittenAmendment;

/// Append a correction to a record; what was written before stays
///
/// Give only what is to hold from now on. Each correction says who made it, when and why.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES, override_usage = USAGE)]
pub(super) struct AmendArgs {
    /// The trial, such as T-01
    #[arg(value_name = "TRIAL")]
    id: String,

    /// Folder of the book
    #[arg(long, value_name = "DIR", default_value = ".")]
    book: PathBuf,

    /// Code of who corrects
    #[arg(long, value_name = "CODE")]
    by: String,

    /// Why
    #[arg(long, value_name = "TEXT")]
    reason: String,

    /// What holds from now on: verdict, cause, change, note, step.<makes>.<what>,
    /// ingredient.<id>.actual
    #[arg(long, value_name = "KEY=VALUE", required = true, value_parser = pair)]
    set: Vec<(String, String)>,

    /// When, with the offset from universal time [default: now]
    #[arg(long, value_name = "DATE-TIME")]
    at: Option<String>,
}

/// As clap would write it, in two lines.
const USAGE: &str = "\
standin trial amend [OPTIONS] --by <CODE> --reason <TEXT>
                           --set <KEY=VALUE> <TRIAL>";

const EXAMPLES: &str = "\
Examples:
  standin trial amend T-01 --book examples/book --by LD \\
    --reason \"read the clock wrongly\" --set \"step.treacle.time=48 min\"";

/// Runs the command.
pub(super) fn run(args: &AmendArgs, context: &mut Context<'_>) -> anyhow::Result<Outcome> {
    for (what, text) in [("--by", &args.by), ("--reason", &args.reason)] {
        if text.trim().is_empty() {
            return Err(Failure::wrong_use(format!("{what} is empty")).into());
        }
    }
    let knowledge = context.knowledge()?;
    let book = open(&args.book, context)?;
    let text = |words: &String| Spanned::new(0..0, words.clone());
    let set: BTreeMap<_, _> =
        args.set.iter().map(|(key, value)| (text(key), text(value))).collect();
    let amendment = WrittenAmendment {
        at: Spanned::new(0..0, clock(args.at.as_deref())?),
        by: text(&args.by),
        reason: text(&args.reason),
        set,
    };
    let (path, read) = Store::new(&book)
        .amend(&args.id, &amendment, &knowledge)
        .map_err(|error| refused(error, context))?;
    let whole = std::fs::read_to_string(&path)?;
    let questions: Vec<_> = read.questions.into_iter().map(|one| (one, whole.clone())).collect();
    tell(&questions, context)?;
    context.remark(&format!("amended {}", path.display()))?;
    Ok(Outcome::Done)
}
