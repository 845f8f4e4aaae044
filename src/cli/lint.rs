//! `standin lint`: what is wrong with files.

use std::path::{Path, PathBuf};

use serde::Serialize;

use super::Outcome;
use super::context::Context;
use super::files::in_its_book;
use super::mislaid::must_exist;
use crate::book::Book;
use crate::finding::{Finding, Severity};
use crate::kitchen::Kitchen;
use crate::knowledge::{Knowledge, Layer, load};
use crate::quantity::Measures;
use crate::recipe::Recipe;
use crate::report::{Document, Table};
use crate::trial::Trial;

/// Find faults in knowledge, recipe and kitchen files
///
/// Without a path the built-in knowledge is checked. A folder named `knowledge`, or one that holds
/// knowledge entries, is checked as knowledge; other files are told apart by what they hold. Exits
/// with 1 when there is an error.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct LintArgs {
    /// Files or folders
    #[arg(value_name = "PATH")]
    paths: Vec<PathBuf>,

    /// Count warnings as faults
    #[arg(long)]
    strict: bool,
}

const EXAMPLES: &str = "\
Examples:
  standin lint
  standin lint knowledge examples
  standin lint examples/pear-treacle.toml --strict --format json";

/// A finding in JSON.
#[derive(Debug, Serialize)]
struct FindingJson {
    code: &'static str,
    severity: Severity,
    message: String,
    file: String,
    line: Option<usize>,
    column: Option<usize>,
    help: Option<String>,
}

/// The file that makes a folder a book.
const BOOK_FILE: &str = "book.toml";
/// The folder of a book that holds its trials.
const TRIALS_FOLDER: &str = "trials";

/// What a file is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    Knowledge,
    Recipe,
    Kitchen,
    Trial,
    Book,
}

/// Runs the command.
pub(crate) fn run(args: &LintArgs, context: &mut Context<'_>) -> anyhow::Result<Outcome> {
    let mut found: Vec<(Finding, String)> = Vec::new();
    let mut own: Vec<Layer> = Vec::new();
    let mut others: Vec<load::File> = Vec::new();
    for path in &args.paths {
        must_exist(path)?;
        let read = in_its_book(path).and_then(|()| load::folder(path).map_err(|one| vec![*one]));
        match read {
            Ok(layer) => sort_out(layer, &mut own, &mut others),
            Err(faults) => found.extend(faults.into_iter().map(|one| (one, String::new()))),
        }
    }
    let files = own.iter().map(|layer| layer.files.len()).sum::<usize>() + others.len();
    if args.paths.is_empty() || !own.is_empty() {
        found.extend(knowledge_findings(own, context)?);
    }
    if !others.is_empty() {
        let knowledge = context.knowledge()?;
        for file in others {
            let findings = check(&file, &knowledge);
            found.extend(findings.into_iter().map(|finding| (finding, file.text.clone())));
        }
    }
    let checked = match args.paths.as_slice() {
        [] => "built-in knowledge".to_owned(),
        _ => files.to_string(),
    };
    show(&found, checked, args.strict, context)
}

/// Tells knowledge files from recipes and kitchens.
fn sort_out(layer: Layer, own: &mut Vec<Layer>, others: &mut Vec<load::File>) {
    let (knowledge, rest): (Vec<_>, Vec<_>) =
        layer.files.into_iter().partition(|file| kind(file) == Kind::Knowledge);
    if !knowledge.is_empty() {
        own.push(Layer { name: layer.name, files: knowledge });
    }
    others.extend(rest);
}

fn kind(file: &load::File) -> Kind {
    let starts = |words: &[&str]| {
        file.text.lines().any(|line| words.iter().any(|word| line.trim_start().starts_with(word)))
    };
    let in_knowledge =
        Path::new(&file.path).components().any(|part| part.as_os_str() == "knowledge");
    let path = Path::new(&file.path);
    let folder = path.parent().and_then(Path::file_name);
    if in_knowledge {
        Kind::Knowledge
    } else if path.file_name().is_some_and(|name| name == BOOK_FILE) {
        Kind::Book
    } else if folder.is_some_and(|name| name == TRIALS_FOLDER) {
        Kind::Trial
    } else if starts(&["[[step]]", "[[ingredient]]", "title"]) {
        Kind::Recipe
    } else if starts(&["[appliances", "altitude", "supplies", "room_"]) {
        Kind::Kitchen
    } else {
        Kind::Knowledge
    }
}

/// Checks knowledge files: the project's own folder by itself, any other over the built-in one.
fn knowledge_findings(
    own: Vec<Layer>,
    context: &Context<'_>,
) -> anyhow::Result<Vec<(Finding, String)>> {
    let is_whole = |layer: &Layer| layer.files.iter().any(|file| file.path.ends_with(ROOT_FILE));
    let layers = if own.iter().any(is_whole) {
        own
    } else {
        let mut layers = context.layers()?;
        layers.extend(own);
        layers
    };
    let text = |path: &str| {
        let files = layers.iter().flat_map(|layer| &layer.files);
        files.clone().find(|file| file.path == path).map_or(String::new(), |f| f.text.clone())
    };
    let findings = Knowledge::check(&layers);
    let with_text = |finding: Finding| {
        let text = text(&finding.file);
        (finding, text)
    };
    Ok(findings.into_iter().map(with_text).collect())
}

/// A folder with this file is a whole knowledge base, not an overlay.
const ROOT_FILE: &str = "processes.toml";

fn check(file: &load::File, knowledge: &Knowledge) -> Vec<Finding> {
    let result = match kind(file) {
        Kind::Recipe => {
            Recipe::read(&file.text, &file.path, knowledge, Measures::default()).map(|_| ())
        }
        Kind::Trial => Trial::read(&file.text, &file.path, knowledge).map(|_| ()),
        Kind::Book => {
            let folder = Path::new(&file.path).parent().unwrap_or(Path::new("."));
            Book::open(folder).map(|_| ())
        }
        Kind::Kitchen | Kind::Knowledge => {
            Kitchen::read(&file.text, &file.path, knowledge).map(|_| ())
        }
    };
    result.err().unwrap_or_default()
}

fn show(
    found: &[(Finding, String)],
    checked: String,
    strict: bool,
    context: &mut Context<'_>,
) -> anyhow::Result<Outcome> {
    for (finding, text) in found {
        context.remark(&finding.render(text))?;
    }
    let errors = found.iter().filter(|(f, _)| f.severity == Severity::Error).count();
    let mut document = Document::new("Lint");
    let mut table = Table::new().words("Files").words("Errors").words("Warnings");
    table.push([checked, errors.to_string(), (found.len() - errors).to_string()]);
    document.table(table);
    let json: Vec<FindingJson> = found.iter().map(|(f, text)| finding_json(f, text)).collect();
    context.report(&document, &json)?;
    let faulty = errors > 0 || (strict && !found.is_empty());
    Ok(if faulty { Outcome::SaysNo } else { Outcome::Done })
}

fn finding_json(finding: &Finding, text: &str) -> FindingJson {
    let place = finding.line_and_column(text);
    FindingJson {
        code: finding.code.text(),
        severity: finding.severity,
        message: finding.message.clone(),
        file: finding.file.clone(),
        line: place.map(|(line, _)| line),
        column: place.map(|(_, column)| column),
        help: finding.help.clone(),
    }
}
