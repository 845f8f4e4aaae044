//! Reading knowledge files: the built-in set, and a user's folder over it.

use std::path::Path;

use include_dir::{Dir, include_dir};

use super::text::read_text;
use crate::finding::{Code, Finding};

/// The knowledge base as shipped, compiled in.
static BUILT_IN: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/knowledge");

/// One knowledge file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct File {
    /// Its path as shown in messages.
    pub path: String,
    /// Its text.
    pub text: String,
}

/// A set of files that replaces entries of the sets before it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Layer {
    /// What to call it in messages.
    pub name: String,
    /// Its files, by path.
    pub files: Vec<File>,
}

/// Returns the built-in layer.
pub fn built_in() -> Layer {
    let mut files = Vec::new();
    collect(&BUILT_IN, &mut files);
    files.sort_by(|a, b| a.path.cmp(&b.path));
    Layer { name: "built in".to_owned(), files }
}

fn collect(folder: &Dir<'static>, files: &mut Vec<File>) {
    for file in folder.files().filter(|file| is_toml(file.path())) {
        let path = format!("knowledge/{}", file.path().display());
        files.push(File { path, text: file.contents_utf8().unwrap_or_default().to_owned() });
    }
    for inner in folder.dirs() {
        collect(inner, files);
    }
}

fn is_toml(path: &Path) -> bool {
    path.extension().is_some_and(|extension| extension == "toml")
}

/// Reads every TOML file of a folder and the folders in it, or one file.
///
/// A link in the folder that leads out of it is refused; one to a folder within is left out, since
/// that folder is read in its own place.
///
/// # Errors
/// A finding that names the first path that cannot be read.
pub fn folder(path: &Path) -> Result<Layer, Box<Finding>> {
    let mut files = Vec::new();
    if path.is_dir() {
        let root = path.canonicalize().map_err(|error| unreadable(path, &error))?;
        read_into(path, &root, &mut files)?;
    } else {
        files.push(file(path)?);
    }
    files.sort_by(|a, b| a.path.cmp(&b.path));
    Ok(Layer { name: path.display().to_string(), files })
}

fn file(path: &Path) -> Result<File, Box<Finding>> {
    Ok(File { path: path.display().to_string(), text: read_text(path)? })
}

fn unreadable(path: &Path, error: &std::io::Error) -> Box<Finding> {
    let message = format!("cannot be read: {error}");
    Box::new(Finding::error(Code::UnreadableFile, &path.display().to_string(), message))
}

fn read_into(folder: &Path, root: &Path, files: &mut Vec<File>) -> Result<(), Box<Finding>> {
    for entry in std::fs::read_dir(folder).map_err(|error| unreadable(folder, &error))? {
        let entry = entry.map_err(|error| unreadable(folder, &error))?;
        let path = entry.path();
        let kind = entry.file_type().map_err(|error| unreadable(&path, &error))?;
        if kind.is_dir() {
            read_into(&path, root, files)?;
        } else if is_toml(&path) {
            let real = path.canonicalize().map_err(|error| unreadable(&path, &error))?;
            let refuse = |code, message: &str, help: &str| {
                let finding = Finding::error(code, &path.display().to_string(), message);
                Err(Box::new(finding.help(help)))
            };
            if !real.starts_with(root) {
                let help = "put the file itself into the folder";
                return refuse(Code::PathEscape, "leads out of the folder that was named", help);
            }
            if !real.is_file() {
                return refuse(Code::UnreadableFile, "is no ordinary file", "take it away");
            }
            files.push(file(&path)?);
        }
    }
    Ok(())
}
