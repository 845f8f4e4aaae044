//! `standin survey`: every recipe of a book in every kitchen.

use std::io::IsTerminal as _;
use std::path::{Path, PathBuf};

use indicatif::{ProgressBar, ProgressStyle};

use super::adapt::Sampling;
use super::context::Context;
use super::failure::{Failure, FailureKind};
use super::{Outcome, files};
use crate::advisor::purchase::{Budget, Wanted};
use crate::advisor::survey::{Inquiry, Page, survey};
use crate::book::{Book, Shelf};
use crate::kitchen::Kitchen;
use crate::knowledge::Knowledge;
use crate::quantity::Measures;
use crate::report;
use crate::report::survey::Surveyed;

/// Survey a book: every recipe in every kitchen, and what to buy
///
/// Shows which recipe comes to which verdict in which kitchen, which goals no kitchen reaches, and
/// for each kitchen the single purchase and the set of purchases that open most recipes. The set is
/// the best there is within the budget, not a guess.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct SurveyArgs {
    /// Folder of the book, with `book.toml`
    #[arg(value_name = "BOOK")]
    book: PathBuf,

    /// How many things each kitchen may buy
    #[arg(long, value_name = "COUNT", default_value_t = 3, conflicts_with = "budget")]
    #[arg(value_parser = clap::value_parser!(u32).range(0..=10))]
    items: u32,

    /// How much money each kitchen may spend, in the money of the price list
    #[arg(long, value_name = "AMOUNT", value_parser = money)]
    budget: Option<f64>,

    /// What the purchases are to bring
    #[arg(long = "for", value_name = "AIM", value_enum, default_value = "recipes")]
    aim: AimWord,

    /// Write the matrix as CSV to a file, or to standard output in place of the report for `-`
    #[arg(long, value_name = "FILE")]
    csv: Option<PathBuf>,

    /// Let --csv replace an existing file
    #[arg(long, requires = "csv")]
    force: bool,

    #[command(flatten)]
    sampling: Sampling,
}

/// What the purchases are to bring.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
enum AimWord {
    /// As many recipes as can be that were not possible
    Recipes,
    /// As good verdicts as can be
    Quality,
}

const EXAMPLES: &str = "\
Examples:
  standin survey examples/book
  standin survey examples/book --budget 200 --for quality
  standin survey examples/book --csv - > matrix.csv";

/// What stands for standard output in place of a file.
const STANDARD_OUTPUT: &str = "-";

fn money(text: &str) -> Result<f64, String> {
    let amount: f64 = text.parse().map_err(|_| "write a number, such as 200".to_owned())?;
    let sensible = amount.is_finite() && amount >= 0.0;
    if sensible { Ok(amount) } else { Err("an amount of money is not negative".to_owned()) }
}

/// Runs the command.
pub(crate) fn run(args: &SurveyArgs, context: &mut Context<'_>) -> anyhow::Result<Outcome> {
    let csv = args.csv.as_deref().filter(|path| path.as_os_str() != STANDARD_OUTPUT);
    csv.map_or(Ok(()), |path| files::check_output(path, args.force))?;
    let knowledge = context.knowledge()?;
    let book = super::trial::open(&args.book, context)?;
    let paths = files_of(&book, &args.book, Shelf::Kitchens, context)?;
    let kitchens = read_kitchens(&paths, &knowledge, context)?;
    let paths = files_of(&book, &args.book, Shelf::Recipes, context)?;
    let pages = read_pages(&paths, &kitchens, &knowledge, context)?;
    let inquiry = Inquiry {
        pages: &pages,
        kitchens: &kitchens,
        knowledge: &knowledge,
        samples: args.sampling.samples(),
        seed: args.sampling.seed(),
        wanted: match args.aim {
            AimWord::Recipes => Wanted::Recipes,
            AimWord::Quality => Wanted::Quality,
        },
        budget: args.budget.map_or(Budget::Pieces(args.items), Budget::Money),
    };
    let bar = progress(pages.len());
    let survey = survey(&inquiry, &|| bar.inc(1));
    bar.finish_and_clear();
    let surveyed = Surveyed { survey: &survey, inquiry: &inquiry };
    for remark in report::survey::remarks(&surveyed) {
        context.remark(&remark)?;
    }
    if args.csv.is_some() {
        let mut text = Vec::new();
        report::survey::csv(&surveyed, &mut text)?;
        match csv {
            Some(path) => files::write_whole(path, &text, args.force)?,
            None => {
                context.out.write_all(&text)?;
                return Ok(Outcome::Done);
            }
        }
    }
    context.report(&report::survey::document(&surveyed), &report::survey_json::json(&surveyed))?;
    Ok(Outcome::Done)
}

/// Returns the files of a shelf, in alphabetical order, as the user would name them.
fn files_of(
    book: &Book,
    folder: &Path,
    shelf: Shelf,
    context: &mut Context<'_>,
) -> anyhow::Result<Vec<PathBuf>> {
    let entries = match book.list(shelf) {
        Ok(entries) => entries,
        Err(findings) => {
            let shown: Vec<String> = findings.iter().map(|finding| finding.render("")).collect();
            context.remark(&shown.join("\n\n"))?;
            let message = format!("the {} of the book cannot be listed", shelf.folder());
            return Err(Failure::new(FailureKind::File, message).into());
        }
    };
    if entries.is_empty() {
        let message = format!("the book {} has no {}", folder.display(), shelf.folder());
        let hint = format!("put a .toml file into {}", folder.join(shelf.folder()).display());
        return Err(Failure::new(FailureKind::File, message).hint(hint).into());
    }
    Ok(entries.iter().map(|entry| folder.join(shelf.file(&entry.id))).collect())
}

fn read_kitchens(
    paths: &[PathBuf],
    knowledge: &Knowledge,
    context: &mut Context<'_>,
) -> anyhow::Result<Vec<Kitchen>> {
    let read: Vec<_> = paths.iter().map(|path| files::kitchen(path, knowledge, context)).collect();
    read.into_iter().collect()
}

/// Reads every recipe once for each set of measures among the kitchens.
fn read_pages(
    paths: &[PathBuf],
    kitchens: &[Kitchen],
    knowledge: &Knowledge,
    context: &mut Context<'_>,
) -> anyhow::Result<Vec<Page>> {
    let mut measures: Vec<Measures> = Vec::new();
    for kitchen in kitchens {
        if !measures.contains(&kitchen.measures) {
            measures.push(kitchen.measures);
        }
    }
    let mut read = Vec::new();
    for path in paths {
        let each = measures.iter();
        let page: anyhow::Result<Vec<_>> =
            each.map(|one| Ok((*one, files::recipe(path, knowledge, *one, context)?))).collect();
        read.push(page.map(|readings| Page { readings }));
    }
    read.into_iter().collect()
}

/// A bar on standard error when that is a terminal.
fn progress(recipes: usize) -> ProgressBar {
    if !std::io::stderr().is_terminal() {
        return ProgressBar::hidden();
    }
    let bar = ProgressBar::new(u64::try_from(recipes).unwrap_or(u64::MAX));
    let style = ProgressStyle::with_template("[{bar:30}] {pos} of {len} recipes, {eta} left");
    match style {
        Ok(style) => bar.with_style(style.progress_chars("=> ")),
        Err(_) => bar,
    }
}
