//! Reading the files that the user names, with every finding shown.

use std::io::Write as _;
use std::path::{Path, PathBuf};

use super::context::Context;
use super::failure::{Failure, FailureKind};
use super::mislaid::must_exist;
use crate::book::keeps_to_its_book;
use crate::finding::Finding;
use crate::kitchen::Kitchen;
use crate::knowledge::Knowledge;
use crate::quantity::Measures;
use crate::reader::load_text;
use crate::recipe::Recipe;

/// Reads a kitchen file.
///
/// # Errors
/// A [`Failure`] after the findings were written among the remarks.
pub fn kitchen(
    path: &Path,
    knowledge: &Knowledge,
    context: &mut Context<'_>,
) -> anyhow::Result<Kitchen> {
    must_exist(path)?;
    let read = in_its_book(path).and_then(|()| Kitchen::load(path, knowledge));
    read.or_else(|findings| refuse(path, &findings, context))
}

/// Reads a recipe file, with cups and spoons of the kitchen's nation.
///
/// # Errors
/// A [`Failure`] after the findings were written among the remarks.
pub fn recipe(
    path: &Path,
    knowledge: &Knowledge,
    measures: Measures,
    context: &mut Context<'_>,
) -> anyhow::Result<Recipe> {
    must_exist(path)?;
    let read = in_its_book(path).and_then(|()| Recipe::load(path, knowledge, measures));
    read.or_else(|findings| refuse(path, &findings, context))
}

/// Refuses a file that is named within a book and lies outside.
pub fn in_its_book(path: &Path) -> Result<(), Vec<Finding>> {
    keeps_to_its_book(path).map_err(|fault| vec![fault.finding(&path.display().to_string())])
}

/// Returns the files named, and for each folder named the TOML files in it, in alphabetical order.
///
/// # Errors
/// A [`Failure`] when a folder cannot be read or holds no such file.
pub fn toml_files(paths: &[PathBuf]) -> anyhow::Result<Vec<PathBuf>> {
    let mut files = Vec::new();
    for path in paths {
        if path.is_dir() {
            files.extend(toml_files_in(path)?);
        } else {
            files.push(path.clone());
        }
    }
    Ok(files)
}

fn toml_files_in(folder: &Path) -> anyhow::Result<Vec<PathBuf>> {
    let failure = |message: String| Failure::new(FailureKind::File, message);
    let shown = folder.display();
    let entries = std::fs::read_dir(folder)
        .map_err(|error| failure(format!("{shown} cannot be read: {error}")))?;
    let mut files = Vec::new();
    for entry in entries {
        let path = entry.map_err(|error| failure(format!("{shown}: {error}")))?.path();
        let hidden = path.file_name().is_some_and(|name| name.to_string_lossy().starts_with('.'));
        if hidden || path.extension().is_none_or(|ending| ending != "toml") {
            continue;
        }
        if !path.is_file() {
            return Err(failure(format!("{} is no ordinary file", path.display())).into());
        }
        files.push(path);
    }
    if files.is_empty() {
        return Err(failure(format!("{shown} holds no .toml file")).into());
    }
    files.sort();
    Ok(files)
}

fn refuse<T>(path: &Path, findings: &[Finding], context: &mut Context<'_>) -> anyhow::Result<T> {
    let text = load_text(path).unwrap_or_default();
    let shown: Vec<String> = findings.iter().map(|finding| finding.render(&text)).collect();
    context.remark(&shown.join("\n\n"))?;
    let faults = if findings.len() == 1 { "fault" } else { "faults" };
    let message = format!("{} has {} {faults}", path.display(), findings.len());
    Err(Failure::new(FailureKind::File, message).into())
}

/// Returns the failure for a file that is there already.
fn exists(path: &Path) -> anyhow::Error {
    let message = format!("{} exists already", path.display());
    Failure::new(FailureKind::File, message)
        .hint("choose another name, or add --force to replace it")
        .into()
}

/// Checks, before any work is done, that a file may be written.
///
/// # Errors
/// A [`Failure`] for a folder, for what is there and may not be replaced, and for a folder that is
/// missing.
pub fn check_output(path: &Path, force: bool) -> anyhow::Result<()> {
    if path.is_dir() {
        let failure = Failure::wrong_use(format!("{} is a folder", path.display()));
        return Err(failure.hint("name the file to write").into());
    }
    // A link that leads nowhere is there as well.
    if !force && path.symlink_metadata().is_ok() {
        return Err(exists(path));
    }
    let folder = folder_of(path);
    if !folder.is_dir() {
        let failure = Failure::wrong_use(format!("there is no folder {}", folder.display()));
        return Err(failure.hint("make it first; only the file itself is written").into());
    }
    Ok(())
}

fn folder_of(path: &Path) -> &Path {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty());
    folder.unwrap_or(Path::new("."))
}

/// Writes a file whole or not at all: beside its place first, then into it.
///
/// A link in its place is replaced, never followed: who wrote the link may not be who names it.
///
/// # Errors
/// A [`Failure`] when the file exists and may not be overwritten, or cannot be written.
pub fn write_whole(path: &Path, bytes: &[u8], force: bool) -> anyhow::Result<()> {
    let failure = |error: std::io::Error| {
        Failure::new(FailureKind::File, format!("{} cannot be written: {error}", path.display()))
    };
    let mut file = beside(path).map_err(failure)?;
    file.write_all(bytes).map_err(failure)?;
    file.as_file().sync_all().map_err(failure)?;
    if force {
        file.persist(path).map_err(|error| failure(error.error))?;
        return Ok(());
    }
    match file.persist_noclobber(path) {
        Ok(_) => Ok(()),
        Err(error) if error.error.kind() == std::io::ErrorKind::AlreadyExists => Err(exists(path)),
        Err(error) => Err(failure(error.error).into()),
    }
}

/// Makes a file beside a path, with the permissions of the file that lies there, if one does.
fn beside(path: &Path) -> std::io::Result<tempfile::NamedTempFile> {
    let mut builder = tempfile::Builder::new();
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        // As for any new file: the owner's umask takes off what it takes off.
        builder.permissions(std::fs::Permissions::from_mode(0o666));
    }
    let file = builder.tempfile_in(folder_of(path))?;
    #[cfg(unix)]
    if let Ok(there) = path.symlink_metadata()
        && there.is_file()
    {
        file.as_file().set_permissions(there.permissions())?;
    }
    Ok(file)
}
