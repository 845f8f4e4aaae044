//! `standin show`: anything in the knowledge base, by any name.

use serde::Serialize;

use super::Outcome;
use super::context::Context;
use super::failure::Failure;
use crate::knowledge::{Entry, Knowledge};
use crate::report;

/// Show what the knowledge base holds under a word
///
/// Finds techniques, goals, routes, appliances, supplies, foods, aroma compounds, hazards, sources,
/// attributes and processes by id, name or everyday synonym.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct ShowArgs {
    /// Id, name or synonym
    #[arg(value_name = "WORD", required_unless_present = "counts", num_args = 0..)]
    word: Vec<String>,

    /// Count entries, and values by where they come from
    #[arg(long)]
    counts: bool,
}

const EXAMPLES: &str = "\
Examples:
  standin show rotary evaporation
  standin show skillet
  standin show --counts --format json";

/// How many near matches are offered.
const OFFERED: usize = 8;

/// An entry that a word found, in JSON.
#[derive(Debug, Serialize)]
struct FoundJson<'a> {
    kind: &'static str,
    id: &'a str,
    name: &'a str,
}

/// Runs the command.
pub(crate) fn run(args: &ShowArgs, context: &mut Context<'_>) -> anyhow::Result<Outcome> {
    let knowledge = context.knowledge()?;
    if args.counts {
        let counts = knowledge.counts();
        context.report(&report::show::counts(&counts, &knowledge), &counts)?;
        return Ok(Outcome::Done);
    }
    let word = args.word.join(" ");
    let found = knowledge.find(&word);
    if found.is_empty() {
        return Err(nothing(&word, &knowledge).into());
    }
    for overridden in &knowledge.overridden {
        context.remark(&format!("{} comes from {}", overridden.entry, overridden.layer))?;
    }
    let json: Vec<FoundJson<'_>> = found.iter().map(json_of).collect();
    context.report(&report::show::entries(&word, &found, &knowledge), &json)?;
    Ok(Outcome::Done)
}

fn json_of<'a>(entry: &Entry<'a>) -> FoundJson<'a> {
    FoundJson { kind: entry.kind.word(), id: entry.id, name: entry.name }
}

fn nothing(word: &str, knowledge: &Knowledge) -> Failure {
    let near: Vec<String> = knowledge
        .near(word, OFFERED)
        .into_iter()
        .map(|entry| format!("{} ({})", entry.name, entry.kind.word()))
        .collect();
    let failure = Failure::wrong_use(format!("nothing goes by `{word}`"));
    if near.is_empty() { failure } else { failure.hint(format!("near: {}", near.join(", "))) }
}
