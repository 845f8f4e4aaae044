//! `standin notes`: the adaptation notes for the editor of a manuscript.

use std::io::{self, IsTerminal as _};
use std::path::{Path, PathBuf};

use rayon::prelude::*;

use super::adapt::Sampling;
use super::context::{Context, Format};
use super::failure::{Failure, FailureKind};
use super::mislaid::id_hint;
use super::output::OutputArgs;
use super::{Outcome, files, trial};
use crate::advisor::timeline::{Timeline, timeline};
use crate::advisor::{Adaptation, Bench, Sampler, Verdict, adapt};
use crate::book::style::Spelling;
use crate::book::{BOOK_FILE, Book, HouseStyle, Shelf};
use crate::kitchen::Kitchen;
use crate::knowledge::Knowledge;
use crate::notes::{Adapted, House, Material, Notes, notes};
use crate::recipe::Recipe;
use crate::report::notes::{Writing, document};
use crate::report::notes_template::{self, Kind};
use crate::report::{docx, html, json, markdown, notes_json, table};
use crate::trial::predict::{self, Applied};
use crate::trial::{Corrections, Store, Trial};

/// Write the adaptation notes that go to the editor of a cookbook
///
/// For each recipe: what the professional version does and what changes, ingredients in order of use,
/// equipment, the method with endpoints, what is lost, storage, cautions, the testing record, queries
/// to the author and sources. With several kitchens, the differences are named. A recipe inside a
/// book is written in the style of the book. Exits with 1 when a recipe can be made in none of the
/// kitchens.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct NotesArgs {
    /// Recipe files; with --book also their ids
    #[arg(value_name = "RECIPE", required = true, num_args = 1..)]
    recipes: Vec<PathBuf>,

    /// Kitchen files; with --book also their ids
    #[arg(long = "kitchen", value_name = "FILE", required = true, num_args = 1..)]
    kitchens: Vec<PathBuf>,

    /// Folder of the book: its style, its trials [default: the book that the recipe lies in]
    #[arg(long, value_name = "BOOK")]
    book: Option<PathBuf>,

    /// Set the numbers corrected by the trials of the book beside those computed
    #[arg(long)]
    with_trials: bool,

    #[command(flatten)]
    output: OutputArgs,

    #[command(flatten)]
    sampling: Sampling,
}

const EXAMPLES: &str = "\
Examples:
  standin notes examples/pear-treacle.toml --kitchen examples/tiny-flat.toml
  standin notes pear-treacle --book examples/book --with-trials \\
    --kitchen tiny-flat high-rural --format markdown > notes.md
  standin notes pear-treacle --book examples/book --kitchen tiny-flat \\
    --format docx --output notes.docx";

/// A recipe with the book that it lies in.
struct Page {
    recipe: Recipe,
    /// Its id in the book: the name of its file.
    id: String,
    /// One reading for each kitchen, since cups differ from nation to nation.
    readings: Vec<Recipe>,
    trials: Option<Vec<Trial>>,
    book: Option<Book>,
}

/// Runs the command.
pub(crate) fn run(args: &NotesArgs, context: &mut Context<'_>) -> anyhow::Result<Outcome> {
    args.output.check()?;
    check_format(args, context.format, io::stdout().is_terminal())?;
    let knowledge = context.knowledge()?;
    let book = args.book.as_ref().map(|folder| trial::open(folder, context)).transpose()?;
    let kitchens = kitchens(args, book.as_ref(), &knowledge, context)?;
    let pages = pages(args, book.as_ref(), &kitchens, &knowledge, context)?;
    let sampler = args.sampling.sampler();
    let adaptations = adaptations(&pages, &kitchens, &knowledge, &sampler)?;
    let corrected = corrections(args, &pages, &adaptations, (&knowledge, &sampler), context)?;
    let adapted: Vec<Vec<Adapted<'_>>> = adaptations
        .iter()
        .zip(&corrected)
        .map(|(planned, corrected)| join(&kitchens, planned, corrected))
        .collect();
    let all: Vec<Notes<'_>> = pages
        .iter()
        .zip(&adapted)
        .map(|(page, adapted)| {
            let trials = page.trials.as_deref();
            notes(Material { recipe: &page.recipe, adapted, trials, knowledge: &knowledge })
        })
        .collect();
    let plain = HouseStyle::default();
    let own = book.as_ref().or(pages[0].book.as_ref());
    let house = House::new(own.map_or(&plain, |book| &book.style));
    let bytes = match by_template(&all, &house, own, context)? {
        Some(text) => text.into_bytes(),
        None => render(&all, &house, context)?,
    };
    args.output.write(&bytes, context)?;
    let no = |planned: &Vec<Planned>| planned.iter().all(|(done, _)| done.verdict == Verdict::No);
    Ok(if adaptations.iter().any(no) { Outcome::SaysNo } else { Outcome::Done })
}

/// Refuses a manuscript on a terminal, and a file whose name says another format.
fn check_format(args: &NotesArgs, format: Format, terminal: bool) -> anyhow::Result<()> {
    let is_docx = format == Format::Docx;
    match &args.output.output {
        None if is_docx && terminal => {
            let failure = Failure::wrong_use("a docx file cannot be shown on a terminal");
            Err(failure.hint("add --output notes.docx").into())
        }
        Some(path) if !is_docx && path.extension().is_some_and(|ending| ending == "docx") => {
            let message = format!("{} is named as a docx file", path.display());
            Err(Failure::wrong_use(message).hint("add --format docx").into())
        }
        _ => Ok(()),
    }
}

/// The paper and the language of a manuscript.
const fn page(style: &HouseStyle) -> docx::Page {
    match style.spelling {
        Spelling::Uk => docx::Page::BRITISH,
        Spelling::Us => docx::Page::AMERICAN,
    }
}

/// Writes the notes by the template of the book, when it has one for the format.
fn by_template(
    all: &[Notes<'_>],
    house: &House,
    book: Option<&Book>,
    context: &mut Context<'_>,
) -> anyhow::Result<Option<String>> {
    let kind = match context.format {
        Format::Markdown => Kind::Markdown,
        Format::Html => Kind::Html,
        _ => return Ok(None),
    };
    let Some(book) = book else { return Ok(None) };
    let written = book.templates().and_then(|templates| {
        notes_template::render(all, house, &templates, kind).map_err(|fault| vec![fault.finding()])
    });
    written.or_else(|findings| {
        let shown: Vec<String> = findings.iter().map(|finding| finding.render("")).collect();
        context.remark(&shown.join("\n\n"))?;
        let message = format!("the templates of \"{}\" cannot be used", book.title);
        Err(Failure::new(FailureKind::File, message).into())
    })
}

/// Writes the notes in the format asked for.
fn render(all: &[Notes<'_>], house: &House, context: &Context<'_>) -> anyhow::Result<Vec<u8>> {
    let document = |charts| document(all, house, charts);
    let text = match context.format {
        Format::Table => table::render(&document(false), &context.style),
        Format::Markdown => markdown::render(&document(false)),
        Format::Html => html::render_in(&document(true), house.style().spelling.language()),
        Format::Docx => return Ok(docx::render(&document(false), &page(house.style()))?),
        Format::Json => {
            let writing = Writing { house, charts: false, level: 2 };
            let each: Vec<_> = all.iter().map(|one| notes_json::json(one, &writing)).collect();
            json::pretty(&each)?
        }
    };
    Ok(text.into_bytes())
}

/// Returns the path of a file named by path, or by id when there is a book.
fn find(named: &Path, shelf: Shelf, book: Option<&Book>) -> anyhow::Result<PathBuf> {
    let (Some(book), false, Some(id)) = (book, named.exists(), named.to_str()) else {
        return Ok(named.to_path_buf());
    };
    let is_path = named.components().count() > 1 || named.extension().is_some();
    book.find(shelf, id).or_else(|fault| {
        if is_path {
            return Ok(named.to_path_buf());
        }
        let failure = Failure::new(FailureKind::File, fault.to_string());
        match id_hint(book, shelf, id) {
            Some(hint) => Err(failure.hint(hint).into()),
            None => Err(failure.into()),
        }
    })
}

fn kitchens(
    args: &NotesArgs,
    book: Option<&Book>,
    knowledge: &Knowledge,
    context: &mut Context<'_>,
) -> anyhow::Result<Vec<Kitchen>> {
    let mut read = Vec::new();
    for named in &args.kitchens {
        let path = find(named, Shelf::Kitchens, book)?;
        read.push(files::kitchen(&path, knowledge, context));
    }
    read.into_iter().collect()
}

fn pages(
    args: &NotesArgs,
    book: Option<&Book>,
    kitchens: &[Kitchen],
    knowledge: &Knowledge,
    context: &mut Context<'_>,
) -> anyhow::Result<Vec<Page>> {
    let mut pages = Vec::new();
    for named in &args.recipes {
        let path = find(named, Shelf::Recipes, book)?;
        let mut readings = Vec::new();
        for kitchen in kitchens {
            readings.push(files::recipe(&path, knowledge, kitchen.measures, context)?);
        }
        let (id, folder) = place(&path);
        let own = match (book, folder) {
            (Some(book), _) => Some(book.clone()),
            (None, Some(folder)) => Some(trial::open(&folder, context)?),
            (None, None) => None,
        };
        let trials = own.as_ref().map(|book| trials(book, &id, knowledge));
        pages.push(Page { recipe: readings[0].clone(), id, readings, trials, book: own });
    }
    Ok(pages)
}

/// Returns the id of a recipe, and the folder of the book when it lies among its recipes.
fn place(path: &Path) -> (String, Option<PathBuf>) {
    let real = path.canonicalize().unwrap_or_else(|_| path.to_path_buf());
    let id = real.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
    let shelf = real.parent().filter(|folder| folder.ends_with(Shelf::Recipes.folder()));
    let book = shelf.and_then(Path::parent).filter(|folder| folder.join(BOOK_FILE).is_file());
    (id, book.map(Path::to_path_buf))
}

/// Returns the trials of a recipe; what is wrong with the files is for `trial list` to tell.
fn trials(book: &Book, id: &str, knowledge: &Knowledge) -> Vec<Trial> {
    let mut trials = Store::new(book).load(knowledge).trials;
    trials.retain(|trial| trial.recipe == id);
    trials
}

/// An adapted recipe with the plan of its work.
type Planned = (Adaptation, Timeline);

/// Adapts every recipe to every kitchen, in the order in which they were named, and plans the work.
fn adaptations(
    pages: &[Page],
    kitchens: &[Kitchen],
    knowledge: &Knowledge,
    sampler: &Sampler,
) -> anyhow::Result<Vec<Vec<Planned>>> {
    let one = |page: &Page, (index, kitchen): (usize, &Kitchen)| {
        let bench = Bench { knowledge, kitchen, sampler };
        let recipe = &page.readings[index];
        let done = adapt(recipe, &bench).map_err(|error| {
            let message = format!("{} in \"{}\": {error}", page.recipe.title, kitchen.name);
            Failure::new(FailureKind::NoAnswer, message)
        })?;
        let plan = timeline(&done, recipe, &bench, None);
        Ok((done, plan))
    };
    pages
        .par_iter()
        .map(|page| kitchens.par_iter().enumerate().map(|kitchen| one(page, kitchen)).collect())
        .collect()
}

/// What trials correct, by recipe and kitchen; nothing unless it was asked for.
fn corrections(
    args: &NotesArgs,
    pages: &[Page],
    adaptations: &[Vec<Planned>],
    (knowledge, sampler): (&Knowledge, &Sampler),
    context: &mut Context<'_>,
) -> anyhow::Result<Vec<Vec<Option<Vec<Applied>>>>> {
    let mut all = Vec::new();
    for (page, adaptations) in pages.iter().zip(adaptations) {
        let corrections = match (args.with_trials, &page.book) {
            (false, _) => None,
            (true, Some(book)) => {
                let (fitted, _) = trial::fit::fit(book, knowledge, sampler, context)?;
                Some(Corrections::of(&fitted.calibrations))
            }
            (true, None) => {
                let message = format!("{} lies in no book, so that there are no trials", page.id);
                let hint = "name the book with --book, or leave out --with-trials";
                return Err(Failure::wrong_use(message).hint(hint).into());
            }
        };
        let one = |(adaptation, _): &Planned| {
            let corrections = corrections.as_ref()?;
            Some(predict::correct(&mut adaptation.clone(), corrections))
        };
        all.push(adaptations.iter().map(one).collect());
    }
    Ok(all)
}

fn join<'a>(
    kitchens: &'a [Kitchen],
    planned: &'a [Planned],
    corrected: &'a [Option<Vec<Applied>>],
) -> Vec<Adapted<'a>> {
    let both = planned.iter().zip(corrected);
    let each = kitchens.iter().zip(both).map(|(kitchen, (planned, corrected))| {
        let (adaptation, timeline) = planned;
        Adapted { kitchen, adaptation, timeline, corrected: corrected.as_deref() }
    });
    each.collect()
}
