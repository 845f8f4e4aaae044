//! Paths that stay inside a folder.

use std::path::{Component, Path, PathBuf};

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
            Self::NotPlain { .. } => {
                (Code::PathEscape, "use letters, digits, hyphens and underscores")
            }
            Self::Missing { .. } => (Code::MissingFile, "add the file, or correct the name"),
            Self::Unreadable { .. } => (Code::UnreadableFile, "check who may read the folder"),
        };
        Finding::error(code, file, self.to_string()).help(help)
    }
}

/// Returns whether an id is a plain file name: letters, digits, hyphens, underscores and dots
/// inside.
///
/// # Errors
/// [`PathFault::NotPlain`] when it is not.
pub(super) fn plain_name(name: &str) -> Result<(), PathFault> {
    let allowed = |c: char| c.is_alphanumeric() || matches!(c, '-' | '_' | '.');
    let plain = !name.is_empty()
        && name.len() <= LONGEST_NAME
        && name.chars().all(allowed)
        && !name.starts_with('.')
        && !name.ends_with('.');
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_with_a_way_out_are_refused() {
        for name in ["", "..", ".hidden", "a/b", "a\\b", "/etc/passwd", "a\0b", "c:", "x."] {
            assert!(plain_name(name).is_err(), "{name}");
        }
        assert!(plain_name("pear-treacle").is_ok());
        assert!(plain_name("poire-à-l_eau.2").is_ok());
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
