//! A book: a folder of recipes, kitchens and trials, with the house style of its team.
//!
//! ```text
//! my-book/
//!   book.toml      title, team and house style
//!   recipes/       one file per recipe
//!   kitchens/      one file per kitchen
//!   trials/        one file per trial
//! ```
//!
//! Everything that a book names lies inside its folder: a path with `..`, an absolute path, or a
//! link that leads out of the folder is refused before it is opened.

mod inside;
pub mod style;
pub mod templates;

use std::path::{Path, PathBuf};

pub use inside::{PathFault, keeps_to_its_book};
pub use style::{HouseStyle, Member};

use crate::finding::{Code, Finding};
use crate::reader::{load_text, parse_toml};
use style::WrittenBook;

/// The file that makes a folder a book.
pub const BOOK_FILE: &str = "book.toml";
/// The ending of every file of a book.
const ENDING: &str = "toml";

/// The three folders of a book.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shelf {
    /// Recipes.
    Recipes,
    /// Kitchens.
    Kitchens,
    /// Trials.
    Trials,
}

impl Shelf {
    /// Returns the name of the folder.
    pub const fn folder(self) -> &'static str {
        match self {
            Self::Recipes => "recipes",
            Self::Kitchens => "kitchens",
            Self::Trials => "trials",
        }
    }

    /// Returns the path of the file of an id, relative to the book.
    pub fn file(self, id: &str) -> PathBuf {
        Path::new(self.folder()).join(format!("{id}.{ENDING}"))
    }
}

/// A book, opened.
#[derive(Debug, Clone, PartialEq)]
pub struct Book {
    root: PathBuf,
    /// Its title.
    pub title: String,
    /// Who works on it.
    pub team: Vec<Member>,
    /// How it is written.
    pub style: HouseStyle,
}

/// One file of a book.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Entry {
    /// The name without its ending.
    pub id: String,
    /// Where it lies, with every link resolved.
    pub path: PathBuf,
}

impl Book {
    /// Opens the book in a folder.
    ///
    /// # Errors
    /// Every finding about `book.toml`, with its place; one finding when the folder or the file
    /// cannot be read.
    pub fn open(folder: &Path) -> Result<Self, Vec<Finding>> {
        let shown = folder.display().to_string();
        let root = folder.canonicalize().map_err(|error| {
            let message = format!("cannot be opened: {error}");
            let help = format!("name the folder that holds {BOOK_FILE}");
            vec![Finding::error(Code::UnreadableFile, &shown, message).help(help)]
        })?;
        let path = folder.join(BOOK_FILE);
        let named = path.display().to_string();
        inside::resolve(&root, Path::new(BOOK_FILE))
            .map_err(|fault| vec![fault.finding(&named)])?;
        let text = load_text(&path).map_err(|fault| vec![*fault])?;
        let written: WrittenBook = parse_toml(&text, &named).map_err(|fault| vec![*fault])?;
        let mut findings = Vec::new();
        let style = style::link(&written, &root, &named, &mut findings);
        let team = style::team(&written.team, &named, &mut findings);
        if !findings.is_empty() {
            return Err(findings);
        }
        Ok(Self { root, title: written.title.into_inner(), team, style })
    }

    /// Returns the folder, with every link resolved.
    pub fn root(&self) -> &Path {
        &self.root
    }

    /// Returns a folder of the book.
    pub fn folder(&self, shelf: Shelf) -> PathBuf {
        self.root.join(shelf.folder())
    }

    /// Returns the path of something inside the book, which must exist.
    ///
    /// # Errors
    /// [`PathFault`] when the path leads out of the book or to nothing.
    pub fn inside(&self, relative: &Path) -> Result<PathBuf, PathFault> {
        inside::resolve(&self.root, relative)
    }

    /// Returns the path of the file of an id in a folder of the book, which must exist.
    ///
    /// # Errors
    /// [`PathFault`] when the id is no plain name, or the file leads out of the book or is missing.
    pub fn find(&self, shelf: Shelf, id: &str) -> Result<PathBuf, PathFault> {
        inside::plain_name(id)?;
        inside::resolve_file(&self.root, &shelf.file(id))
    }

    /// Lists the files of a folder by id; a folder that is missing is empty.
    ///
    /// Hidden files are left out: they are unfinished writes or belong to other programs.
    ///
    /// # Errors
    /// A finding for each file that leads out of the book, or one when the folder cannot be read.
    pub fn list(&self, shelf: Shelf) -> Result<Vec<Entry>, Vec<Finding>> {
        let relative = Path::new(shelf.folder());
        let folder = match self.inside(relative) {
            Ok(folder) => folder,
            Err(PathFault::Missing { .. }) => return Ok(Vec::new()),
            Err(fault) => return Err(vec![fault.finding(&relative.display().to_string())]),
        };
        let unreadable = |error: std::io::Error| {
            let message = format!("cannot be listed: {error}");
            vec![Finding::error(Code::UnreadableFile, &folder.display().to_string(), message)]
        };
        let mut entries = Vec::new();
        let mut findings = Vec::new();
        for entry in std::fs::read_dir(&folder).map_err(unreadable)? {
            let name = entry.map_err(unreadable)?.file_name();
            let Some(id) = listed_id(&name) else { continue };
            match inside::resolve_file(&self.root, &relative.join(&name)) {
                Ok(path) => entries.push(Entry { id, path }),
                // Taken away since the folder was listed.
                Err(PathFault::Missing { .. }) => {}
                Err(fault) => {
                    findings.push(fault.finding(&relative.join(&name).display().to_string()));
                }
            }
        }
        entries.sort();
        if findings.is_empty() { Ok(entries) } else { Err(findings) }
    }
}

/// Returns the id of a file that counts: not hidden, and with the ending of a book's files.
fn listed_id(name: &std::ffi::OsStr) -> Option<String> {
    let path = Path::new(name);
    let stem = path.file_stem()?.to_str()?;
    let counts = path.extension()? == ENDING && !stem.starts_with('.');
    counts.then(|| stem.to_owned())
}
