//! `standin trial`: what testers did and measured.

mod add;
mod amend;
mod ask;
mod check;
pub(super) mod fit;
mod interview;
mod list;

use std::path::{Path, PathBuf};

use super::Outcome;
use super::context::Context;
use super::failure::{Failure, FailureKind};
use crate::book::{Book, Shelf};
use crate::cli::mislaid::{id_hint, must_exist};
use crate::finding::{Finding, Severity};
use crate::reader::load_text;
use crate::trial::StoreError;

/// Record trials, list them, and learn from them
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct TrialArgs {
    #[command(subcommand)]
    command: TrialCommand,
}

const EXAMPLES: &str = "\
Examples:
  standin trial add pear-treacle --kitchen tiny-flat --book examples/book
  standin trial list examples/book
  standin trial fit examples/book";

#[derive(Debug, clap::Subcommand)]
enum TrialCommand {
    Add(Box<add::AddArgs>),
    Amend(amend::AmendArgs),
    List(list::ListArgs),
    Fit(fit::FitArgs),
}

/// Runs the command.
pub(crate) fn run(args: &TrialArgs, context: &mut Context<'_>) -> anyhow::Result<Outcome> {
    match &args.command {
        TrialCommand::Add(args) => add::run(args, context),
        TrialCommand::Amend(args) => amend::run(args, context),
        TrialCommand::List(args) => list::run(args, context),
        TrialCommand::Fit(args) => fit::run(args, context),
    }
}

/// Opens a book.
pub(super) fn open(folder: &Path, context: &mut Context<'_>) -> anyhow::Result<Book> {
    must_exist(folder)?;
    Book::open(folder).map_err(|findings| {
        let text = load_text(&folder.join(crate::book::BOOK_FILE)).unwrap_or_default();
        let shown: Vec<String> = findings.iter().map(|finding| finding.render(&text)).collect();
        let failure = Failure::new(
            FailureKind::File,
            format!("{} cannot be opened as a book", folder.display()),
        );
        match context.remark(&shown.join("\n\n")) {
            Ok(()) => failure.into(),
            Err(error) => error,
        }
    })
}

/// Writes findings, each with an excerpt of its file, and returns whether one is an error.
fn tell(findings: &[(Finding, String)], context: &mut Context<'_>) -> anyhow::Result<bool> {
    if !findings.is_empty() {
        let shown: Vec<String> = findings.iter().map(|(one, text)| one.render(text)).collect();
        context.remark(&shown.join("\n\n"))?;
    }
    Ok(findings.iter().any(|(finding, _)| finding.severity == Severity::Error))
}

/// Returns id and path of a file of the book, given by id or by path.
fn named(book: &Book, shelf: Shelf, word: &str) -> anyhow::Result<(String, PathBuf)> {
    let given = Path::new(word);
    let is_path = given.components().count() > 1 || given.extension().is_some();
    if !is_path {
        let path = book.find(shelf, word).map_err(|fault| {
            let hint = id_hint(book, shelf, word)
                .unwrap_or_else(|| format!("the book lies in {}", book.root().display()));
            Failure::new(FailureKind::File, fault.to_string()).hint(hint)
        })?;
        return Ok((word.to_owned(), path));
    }
    must_exist(given)?;
    let path = given.canonicalize().map_err(|error| {
        Failure::new(FailureKind::File, format!("{word} cannot be read: {error}"))
    })?;
    let stem = path.file_stem().and_then(|stem| stem.to_str()).map(str::to_owned);
    match stem.filter(|_| path.parent() == Some(&book.folder(shelf))) {
        Some(id) => Ok((id, path)),
        None => {
            let message = format!("{word} does not lie in the {} of the book", shelf.folder());
            let hint = "copy it there, so that the trial can be understood later";
            Err(Failure::wrong_use(message).hint(hint).into())
        }
    }
}

/// Turns a fault of the store into a failure, its findings among the remarks.
fn refused(error: StoreError, context: &mut Context<'_>) -> anyhow::Error {
    let message = error.to_string();
    if let StoreError::Refused { findings, text } = error {
        let findings: Vec<(Finding, String)> =
            findings.into_iter().map(|one| (one, text.clone())).collect();
        if let Err(error) = tell(&findings, context) {
            return error;
        }
    }
    Failure::new(FailureKind::File, message).into()
}

/// Splits `key=value`.
fn pair(text: &str) -> Result<(String, String), String> {
    match text.split_once('=') {
        Some((key, value)) if !key.trim().is_empty() => {
            Ok((key.trim().to_owned(), value.trim().to_owned()))
        }
        _ => Err("write it as \"name=value\"".to_owned()),
    }
}
