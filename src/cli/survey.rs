//! `standin survey`: every recipe of a book in every kitchen.

use std::fs::File;
use std::io::{IsTerminal as _, Write};
use std::path::{Path, PathBuf};

use indicatif::{ProgressBar, ProgressStyle};

use super::adapt::Sampling;
use super::context::Context;
use super::failure::{Failure, FailureKind};
use super::{Outcome, files};
use crate::advisor::purchase::{Budget, Wanted};
use crate::advisor::survey::{Inquiry, Page, survey};
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
    /// Folder with `recipes` and `kitchens`
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
  standin survey my-book
  standin survey my-book --budget 200 --for quality
  standin survey my-book --csv - > matrix.csv";

/// Where a book keeps its recipes.
const RECIPES: &str = "recipes";
/// Where a book keeps its kitchens.
const KITCHENS: &str = "kitchens";

fn money(text: &str) -> Result<f64, String> {
    let amount: f64 = text.parse().map_err(|_| "write a number, such as 200".to_owned())?;
    let sensible = amount.is_finite() && amount >= 0.0;
    if sensible { Ok(amount) } else { Err("an amount of money is not negative".to_owned()) }
}

/// Runs the command.
pub(crate) fn run(args: &SurveyArgs, context: &mut Context<'_>) -> anyhow::Result<Outcome> {
    let knowledge = context.knowledge()?;
    let kitchens = read_kitchens(&args.book.join(KITCHENS), &knowledge, context)?;
    let pages = read_pages(&args.book.join(RECIPES), &kitchens, &knowledge, context)?;
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
    match &args.csv {
        Some(path) if path.as_os_str() == "-" => report::survey::csv(&surveyed, context.out)?,
        Some(path) => {
            write_csv(&surveyed, path)?;
            context.report(
                &report::survey::document(&surveyed),
                &report::survey_json::json(&surveyed),
            )?;
        }
        None => {
            context.report(
                &report::survey::document(&surveyed),
                &report::survey_json::json(&surveyed),
            )?;
        }
    }
    Ok(Outcome::Done)
}

fn read_kitchens(
    folder: &Path,
    knowledge: &Knowledge,
    context: &mut Context<'_>,
) -> anyhow::Result<Vec<Kitchen>> {
    let paths = files::toml_files(&[folder_of_book(folder)?])?;
    let mut read = Vec::new();
    for path in &paths {
        read.push(files::kitchen(path, knowledge, context));
    }
    read.into_iter().collect()
}

/// Reads every recipe once for each set of measures among the kitchens.
fn read_pages(
    folder: &Path,
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
    for path in &files::toml_files(&[folder_of_book(folder)?])? {
        let each = measures.iter();
        let page: anyhow::Result<Vec<_>> =
            each.map(|one| Ok((*one, files::recipe(path, knowledge, *one, context)?))).collect();
        read.push(page.map(|readings| Page { readings }));
    }
    read.into_iter().collect()
}

fn folder_of_book(folder: &Path) -> anyhow::Result<PathBuf> {
    if folder.is_dir() {
        return Ok(folder.to_owned());
    }
    let message = format!("there is no folder {}", folder.display());
    let hint = format!("a book has the folders {RECIPES} and {KITCHENS}");
    Err(Failure::new(FailureKind::File, message).hint(hint).into())
}

/// A bar on standard error when that is a terminal.
fn progress(recipes: usize) -> ProgressBar {
    if !std::io::stderr().is_terminal() {
        return ProgressBar::hidden();
    }
    let bar = ProgressBar::new(u64::try_from(recipes).unwrap_or(u64::MAX));
    let style = ProgressStyle::with_template("{pos} of {len} recipes, {eta} left");
    match style {
        Ok(style) => bar.with_style(style),
        Err(_) => bar,
    }
}

fn write_csv(surveyed: &Surveyed<'_>, path: &Path) -> anyhow::Result<()> {
    let failure = |error: std::io::Error| {
        Failure::new(FailureKind::File, format!("{} cannot be written: {error}", path.display()))
    };
    let mut file = File::create(path).map_err(failure)?;
    report::survey::csv(surveyed, &mut file)?;
    file.flush().map_err(failure)?;
    Ok(())
}
