//! Files that are not there: which name was meant.

use std::ffi::OsStr;
use std::path::{Component, Path, PathBuf};

use super::failure::{Failure, FailureKind};
use crate::book::{Book, Shelf};
use crate::finding::nearest;

/// Refuses a path where nothing lies, and offers the nearest that exists.
///
/// # Errors
/// A [`Failure`] that names the path.
pub(super) fn must_exist(path: &Path) -> Result<(), Failure> {
    // A link that leads nowhere is reported when it is read.
    if path.as_os_str().is_empty() || path.symlink_metadata().is_ok() {
        return Ok(());
    }
    let failure = Failure::new(FailureKind::File, format!("there is no {}", path.display()));
    Err(match nearest_path(path) {
        Some(near) => failure.hint(format!("did you mean `{}`?", near.display())),
        None => failure.hint("check the path and the folder that you are in"),
    })
}

/// Offers the nearest id of a shelf.
pub(super) fn id_hint(book: &Book, shelf: Shelf, id: &str) -> Option<String> {
    let entries = book.list(shelf).ok()?;
    let near = nearest(id, entries.iter().map(|entry| entry.id.as_str()))?;
    Some(format!("did you mean `{near}`?"))
}

/// Returns the existing path whose names are nearest to those of a path, folder by folder.
fn nearest_path(path: &Path) -> Option<PathBuf> {
    let mut found = PathBuf::new();
    for part in path.components() {
        let Component::Normal(name) = part else {
            found.push(part);
            continue;
        };
        let next = found.join(name);
        found = if next.exists() { next } else { found.join(nearest_entry(&found, name)?) };
    }
    found.exists().then_some(found)
}

/// Returns the entry of a folder whose name, with or without its ending, is nearest to a word.
fn nearest_entry(folder: &Path, word: &OsStr) -> Option<String> {
    let word = word.to_str()?;
    let folder = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
    let mut names: Vec<String> = std::fs::read_dir(folder)
        .ok()?
        .filter_map(|entry| entry.ok()?.file_name().into_string().ok())
        .filter(|name| !name.starts_with('.'))
        .collect();
    names.sort();
    let stem = |name: &str| Path::new(name).file_stem().and_then(OsStr::to_str).map(str::to_owned);
    let whole = nearest(word, names.iter().map(String::as_str)).map(str::to_owned);
    let stems: Vec<String> = names.iter().filter_map(|name| stem(name)).collect();
    let meant = |asked: &str| {
        let near = nearest(asked, stems.iter().map(String::as_str))?;
        names.iter().find(|name| stem(name).is_some_and(|stem| stem == near)).cloned()
    };
    whole.or_else(|| meant(word)).or_else(|| meant(&stem(word)?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_in_a_folder_or_a_file_is_found() {
        let folder = tempfile::tempdir().unwrap();
        let root = folder.path();
        std::fs::create_dir_all(root.join("examples/book")).unwrap();
        for name in ["examples/pear-treacle.toml", "examples/tiny-flat.toml"] {
            std::fs::write(root.join(name), "").unwrap();
        }
        for (wrong, right) in [
            ("examples/pear-treackle.toml", "examples/pear-treacle.toml"),
            ("exampels/tiny-flat.toml", "examples/tiny-flat.toml"),
            ("example/tinyflat.tml", "examples/tiny-flat.toml"),
            ("examples/tiny-flat", "examples/tiny-flat.toml"),
            ("examples/tiny-flat.json", "examples/tiny-flat.toml"),
            ("examples/boook", "examples/book"),
        ] {
            assert_eq!(nearest_path(&root.join(wrong)), Some(root.join(right)), "{wrong}");
            assert!(must_exist(&root.join(wrong)).is_err());
        }
        assert_eq!(nearest_path(&root.join("examples/quince-cheese.toml")), None);
        assert!(must_exist(&root.join("examples/tiny-flat.toml")).is_ok());
    }
}
