//! Paths that stay inside a folder.

use std::path::{Component, Path, PathBuf};

use super::BOOK_FILE;
use crate::finding::{Code, Finding};

/// The longest name of a file without its ending: what common file systems take is 255 bytes.
const LONGEST_NAME: usize = 200;

/// Why a path is refused.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PathFault {
    /// It is absolute, has a `..`, or runs through a link that leads out.
    #[error("`{path}` leads out of the book")]
    Escapes {
        /// The path as written.
        path: String,
    },
    /// A name that is more or less than a plain word.
    #[error("`{name}` is not a plain file name")]
    NotPlain {
        /// The name as written.
        name: String,
    },
    /// A pipe, a device or a folder where a file is wanted.
    #[error("`{path}` is no ordinary file")]
    NotOrdinary {
        /// The path as written.
        path: String,
    },
    /// There is nothing there.
    #[error("there is no `{path}` in the book")]
    Missing {
        /// The path as written.
        path: String,
    },
    /// It cannot be looked up.
    #[error("`{path}` cannot be looked up: {because}")]
    Unreadable {
        /// The path as written.
        path: String,
        /// Why.
        because: String,
    },
}

impl PathFault {
    /// Returns the finding that reports it.
    pub fn finding(&self, file: &str) -> Finding {
        let (code, help) = match self {
            Self::Escapes { .. } => {
                (Code::PathEscape, "keep every file of a book inside its folder")
            }
            Self::NotPlain { .. } => (
                Code::PathEscape,
                "use letters, digits, hyphens and underscores, as in pear-treacle",
            ),
            Self::NotOrdinary { .. } => (Code::UnreadableFile, "take it out of the book"),
            Self::Missing { .. } => (Code::MissingFile, "add the file, or correct the name"),
            Self::Unreadable { .. } => (Code::UnreadableFile, "check who may read the folder"),
        };
        Finding::error(code, file, self.to_string()).help(help)
    }
}

/// Names that Windows keeps for devices, whatever ending follows. Source: Microsoft Learn, "Naming
/// Files, Paths, and Namespaces", from memory.
const DEVICES: [&str; 4] = ["con", "prn", "aux", "nul"];
/// Names that Windows keeps for devices when a digit follows. Source: as above.
const NUMBERED_DEVICES: [&str; 2] = ["com", "lpt"];

fn is_device(name: &str) -> bool {
    let stem = name.split('.').next().unwrap_or(name).to_lowercase();
    let numbered = |device: &str| {
        let number = stem.strip_prefix(device);
        number.is_some_and(|n| n.chars().count() == 1 && n.chars().all(char::is_numeric))
    };
    DEVICES.contains(&stem.as_str()) || NUMBERED_DEVICES.iter().any(|device| numbered(device))
}

/// Returns whether an id is a plain file name: letters, digits, hyphens, underscores and dots
/// inside, and no name that a system keeps for itself.
///
/// # Errors
/// [`PathFault::NotPlain`] when it is not.
pub(super) fn plain_name(name: &str) -> Result<(), PathFault> {
    let allowed = |c: char| c.is_alphanumeric() || matches!(c, '-' | '_' | '.');
    let plain = !name.is_empty()
        && name.len() <= LONGEST_NAME
        && name.chars().all(allowed)
        && !name.starts_with('.')
        && !name.ends_with('.')
        && !is_device(name);
    if plain { Ok(()) } else { Err(PathFault::NotPlain { name: name.to_owned() }) }
}

/// Resolves a path relative to a canonical folder, every link followed, and checks that it ends
/// inside.
///
/// # Errors
/// [`PathFault`] when it leads out or to nothing.
pub(super) fn resolve(root: &Path, relative: &Path) -> Result<PathBuf, PathFault> {
    let path = relative.display().to_string();
    let steps_down = |part| matches!(part, Component::Normal(_) | Component::CurDir);
    if relative.as_os_str().is_empty() || !relative.components().all(steps_down) {
        return Err(PathFault::Escapes { path });
    }
    let resolved = root.join(relative).canonicalize().map_err(|error| match error.kind() {
        std::io::ErrorKind::NotFound => PathFault::Missing { path: path.clone() },
        _ => PathFault::Unreadable { path: path.clone(), because: error.to_string() },
    })?;
    if resolved.starts_with(root) { Ok(resolved) } else { Err(PathFault::Escapes { path }) }
}

/// Resolves a path as [`resolve`] does, and checks that an ordinary file lies there.
///
/// # Errors
/// [`PathFault`] when it leads out, to nothing, or to anything but a file.
pub(super) fn resolve_file(root: &Path, relative: &Path) -> Result<PathBuf, PathFault> {
    let resolved = resolve(root, relative)?;
    if resolved.is_file() {
        Ok(resolved)
    } else {
        Err(PathFault::NotOrdinary { path: relative.display().to_string() })
    }
}

/// Checks that a file named by path does not lead out of the book in whose folder it is named.
///
/// A file that lies in no book may lie anywhere.
///
/// # Errors
/// [`PathFault`] when a link on the way leads out, or a pipe or a device lies there.
pub fn keeps_to_its_book(path: &Path) -> Result<(), PathFault> {
    let (Some(named), Ok(real)) = (plainly(path), path.canonicalize()) else { return Ok(()) };
    let book = named.ancestors().skip(1).find(|folder| folder.join(BOOK_FILE).exists());
    let root = book.and_then(|folder| folder.canonicalize().ok());
    match root {
        Some(root) if !real.starts_with(&root) => {
            Err(PathFault::Escapes { path: path.display().to_string() })
        }
        Some(_) if !real.is_file() && !real.is_dir() => {
            Err(PathFault::NotOrdinary { path: path.display().to_string() })
        }
        _ => Ok(()),
    }
}

/// Returns the absolute path with every `..` taken at its word and no link followed.
fn plainly(path: &Path) -> Option<PathBuf> {
    let mut plain = PathBuf::new();
    for part in std::path::absolute(path).ok()?.components() {
        match part {
            Component::ParentDir => drop(plain.pop()),
            other => plain.push(other),
        }
    }
    Some(plain)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_with_a_way_out_are_refused() {
        for name in [
            "",
            "..",
            ".hidden",
            "a/b",
            "a\\b",
            "/etc/passwd",
            "a\0b",
            "c:",
            "x.",
            "con",
            "Nul.x",
            "lpt1",
        ] {
            assert!(plain_name(name).is_err(), "{name}");
        }
        for name in ["pear-treacle", "poire-à-l_eau.2", "consommé", "comté", "com10"] {
            assert!(plain_name(name).is_ok(), "{name}");
        }
    }

    #[test]
    fn paths_that_climb_are_refused() {
        let root = std::env::temp_dir();
        for path in ["../x", "a/../../x", "/etc/passwd", ""] {
            let fault = resolve(&root, Path::new(path)).unwrap_err();
            assert!(matches!(fault, PathFault::Escapes { .. }), "{path}: {fault:?}");
        }
    }
}
