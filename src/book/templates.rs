//! The templates of a book: text files in its folder `templates`, and nowhere else.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use super::{Book, PathFault};
use crate::finding::{Code, Finding};
use crate::knowledge::text::hidden;

/// The folder of a book that holds templates.
pub const TEMPLATES: &str = "templates";
/// The name of the template for the notes as Markdown.
pub const NOTES: &str = "notes";
/// The name of the template for the notes as a page.
pub const NOTES_HTML: &str = "notes-html";
/// Every name that a book can give a template.
pub const NAMES: [&str; 2] = [NOTES, NOTES_HTML];
/// The largest template: more is no layout of a page.
const LARGEST_BYTES: u64 = 256 * 1024;
/// The most files that are read.
const MOST_FILES: usize = 64;

/// The templates of a book, read.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Templates {
    /// Which file begins a layout, by the name of the layout.
    pub main: BTreeMap<String, String>,
    /// The text of every file of the folder, by its name.
    pub files: BTreeMap<String, String>,
}

/// Returns the name of a template's file when it lies directly in the templates folder.
///
/// # Errors
/// [`PathFault::Escapes`] when it lies elsewhere.
pub(super) fn file_name(root: &Path, resolved: &Path) -> Result<String, PathFault> {
    let escapes = || PathFault::Escapes { path: resolved.display().to_string() };
    let folder = root.join(TEMPLATES);
    let name = resolved.strip_prefix(&folder).map_err(|_| escapes())?;
    match (name.components().count(), name.to_str()) {
        (1, Some(name)) => Ok(name.to_owned()),
        _ => Err(escapes()),
    }
}

impl Book {
    /// Reads the templates that the book names, and the files that they can include.
    ///
    /// # Errors
    /// A finding for each file that leads out of the book, is too large, or is no text.
    pub fn templates(&self) -> Result<Templates, Vec<Finding>> {
        let mut templates = Templates::default();
        if self.style.templates.is_empty() {
            return Ok(templates);
        }
        let mut findings = Vec::new();
        for (name, path) in &self.style.templates {
            match file_name(self.root(), path) {
                Ok(file) => drop(templates.main.insert(name.clone(), file)),
                Err(fault) => findings.push(fault.finding(name)),
            }
        }
        for path in self.template_files()? {
            match read(&path) {
                Ok((name, text)) => drop(templates.files.insert(name, text)),
                Err(finding) => findings.push(*finding),
            }
        }
        if findings.is_empty() { Ok(templates) } else { Err(findings) }
    }

    /// Lists the files of the templates folder, every link resolved; hidden files are left out.
    fn template_files(&self) -> Result<Vec<PathBuf>, Vec<Finding>> {
        let shown = self.root().join(TEMPLATES).display().to_string();
        let unreadable = |error: std::io::Error| {
            let message = format!("cannot be listed: {error}");
            vec![Finding::error(Code::UnreadableFile, &shown, message)]
        };
        let mut paths = Vec::new();
        let mut findings = Vec::new();
        for entry in std::fs::read_dir(&shown).map_err(unreadable)? {
            let name = entry.map_err(unreadable)?.file_name();
            if name.to_string_lossy().starts_with('.') {
                continue;
            }
            let found = self.inside(&Path::new(TEMPLATES).join(&name)).and_then(|path| {
                let is_file = path.is_file();
                file_name(self.root(), &path).map(|_| is_file)
            });
            match found {
                Ok(true) => paths.push(self.root().join(TEMPLATES).join(&name)),
                Ok(false) => {}
                Err(fault) => findings.push(fault.finding(&shown)),
            }
        }
        if paths.len() > MOST_FILES {
            let message = format!("{} files, at most {MOST_FILES} are read", paths.len());
            let finding = Finding::error(Code::ImpossibleValue, &shown, message);
            findings.push(finding.help("keep only the files of the layouts here"));
        }
        paths.sort();
        if findings.is_empty() { Ok(paths) } else { Err(findings) }
    }
}

/// Reads one file whole, unless it is too large or no text.
fn read(path: &Path) -> Result<(String, String), Box<Finding>> {
    let file = path.display().to_string();
    let refuse = |code, message: String| Box::new(Finding::error(code, &file, message));
    let unreadable =
        |error: std::io::Error| refuse(Code::UnreadableFile, format!("cannot be read: {error}"));
    let size = std::fs::metadata(path).map_err(unreadable)?.len();
    if size > LARGEST_BYTES {
        let message = format!("{size} bytes, at most {LARGEST_BYTES} are read");
        return Err(refuse(Code::ImpossibleValue, message));
    }
    let text = std::fs::read_to_string(path).map_err(unreadable)?;
    if let Some(sign) = hidden(&text) {
        let message = format!("holds the control character U+{:04X}", u32::from(sign));
        return Err(refuse(Code::Syntax, message));
    }
    let name = path.file_name().map(|name| name.to_string_lossy().into_owned());
    Ok((name.unwrap_or_default(), text))
}
