//! Reading knowledge files: the built-in set, and a user's folder over it.

use std::path::Path;

use include_dir::{Dir, include_dir};

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
/// # Errors
/// A finding that names the first path that cannot be read.
pub fn folder(path: &Path) -> Result<Layer, Box<Finding>> {
    let mut files = Vec::new();
    read_into(path, &mut files)?;
    files.sort_by(|a, b| a.path.cmp(&b.path));
    Ok(Layer { name: path.display().to_string(), files })
}

fn read_into(path: &Path, files: &mut Vec<File>) -> Result<(), Box<Finding>> {
    let shown = path.display().to_string();
    let unreadable = |error: std::io::Error| {
        Box::new(Finding::error(Code::UnreadableFile, &shown, format!("cannot be read: {error}")))
    };
    if path.is_dir() {
        for entry in std::fs::read_dir(path).map_err(unreadable)? {
            let inner = entry.map_err(unreadable)?.path();
            if inner.is_dir() || is_toml(&inner) {
                read_into(&inner, files)?;
            }
        }
    } else {
        let text = std::fs::read_to_string(path).map_err(unreadable)?;
        files.push(File { path: shown.clone(), text });
    }
    Ok(())
}
