//! Reading the files that the user names, with every finding shown.

use std::io::Write as _;
use std::path::{Path, PathBuf};

use super::context::Context;
use super::failure::{Failure, FailureKind};
use crate::finding::Finding;
use crate::kitchen::Kitchen;
use crate::knowledge::Knowledge;
use crate::quantity::Measures;
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
    Kitchen::load(path, knowledge).or_else(|findings| refuse(path, &findings, context))
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
    Recipe::load(path, knowledge, measures).or_else(|findings| refuse(path, &findings, context))
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
        if !hidden && path.extension().is_some_and(|ending| ending == "toml") {
            files.push(path);
        }
    }
    if files.is_empty() {
        return Err(failure(format!("{shown} holds no .toml file")).into());
    }
    files.sort();
    Ok(files)
}

fn refuse<T>(path: &Path, findings: &[Finding], context: &mut Context<'_>) -> anyhow::Result<T> {
    let text = std::fs::read_to_string(path).unwrap_or_default();
    let shown: Vec<String> = findings.iter().map(|finding| finding.render(&text)).collect();
    context.remark(&shown.join("\n\n"))?;
    let faults = if findings.len() == 1 { "fault" } else { "faults" };
    let message = format!("{} has {} {faults}", path.display(), findings.len());
    Err(Failure::new(FailureKind::File, message).into())
}

/// Returns the failure for a file that is there already.
pub fn exists(path: &Path) -> anyhow::Error {
    let message = format!("{} exists already", path.display());
    Failure::new(FailureKind::File, message).hint("pass --force to overwrite it").into()
}

/// Writes a file whole or not at all: beside its place first, then into it.
///
/// A link in its place is replaced, never followed.
///
/// # Errors
/// A [`Failure`] when the file exists and may not be overwritten, or cannot be written.
pub fn write_whole(path: &Path, bytes: &[u8], force: bool) -> anyhow::Result<()> {
    let failure = |error: std::io::Error| {
        Failure::new(FailureKind::File, format!("{} cannot be written: {error}", path.display()))
    };
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty());
    let folder = folder.unwrap_or(Path::new("."));
    let mut builder = tempfile::Builder::new();
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        // As for any new file: the owner's umask takes off what it takes off.
        builder.permissions(std::fs::Permissions::from_mode(0o666));
    }
    let mut file = builder.tempfile_in(folder).map_err(failure)?;
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
