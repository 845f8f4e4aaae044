//! Writing a result to a file: whole or not at all.

use std::fs;
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use super::failure::{Failure, FailureKind};

/// Where a result goes, and whether it may replace what is there.
#[derive(Debug, Clone, clap::Args)]
pub(crate) struct OutputArgs {
    /// Write the result to this file; an existing file is kept unless --force is given
    #[arg(long, short, value_name = "FILE")]
    pub output: Option<PathBuf>,

    /// Let --output replace an existing file
    #[arg(long, requires = "output")]
    pub force: bool,
}

impl OutputArgs {
    /// Checks, before any work is done, that the file may be written.
    ///
    /// # Errors
    /// A [`Failure`] for a file that is there, or a folder that is not.
    pub fn check(&self) -> anyhow::Result<()> {
        let Some(path) = &self.output else { return Ok(()) };
        let shown = path.display();
        if path.is_dir() {
            return Err(Failure::wrong_use(format!("{shown} is a folder")).into());
        }
        if path.exists() && !self.force {
            let failure = Failure::wrong_use(format!("{shown} is there already"));
            return Err(failure.hint("choose another name, or add --force to replace it").into());
        }
        let folder = folder_of(path);
        if !folder.is_dir() {
            let failure = Failure::wrong_use(format!("there is no folder {}", folder.display()));
            return Err(failure.hint("make it first; only the file itself is written").into());
        }
        Ok(())
    }

    /// Writes the bytes to the file: whole under its name, or not at all.
    ///
    /// # Errors
    /// A [`Failure`] when the file cannot be written or has appeared meanwhile.
    pub fn write(&self, path: &Path, bytes: &[u8]) -> anyhow::Result<()> {
        self.persist(path, bytes).map_err(|error| {
            let message = format!("{} cannot be written: {error}", path.display());
            Failure::new(FailureKind::File, message).into()
        })
    }

    fn persist(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        // The file that a link stands for is replaced, not the link.
        let target = match fs::canonicalize(path) {
            Ok(real) if self.force => real,
            _ => path.to_path_buf(),
        };
        let mut file = tempfile::NamedTempFile::new_in(folder_of(&target))?;
        file.write_all(bytes)?;
        file.as_file().sync_all()?;
        set_permissions(file.as_file(), &target)?;
        match self.force {
            true => file.persist(&target).map(drop),
            false => file.persist_noclobber(&target).map(drop),
        }
        .map_err(|error| error.error)
    }
}

fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        _ => Path::new("."),
    }
}

/// Gives a new file the permissions of the one that it replaces, or those of any new document.
#[cfg(unix)]
fn set_permissions(file: &fs::File, target: &Path) -> io::Result<()> {
    use std::os::unix::fs::PermissionsExt as _;
    /// Read by all, written by the owner.
    const DOCUMENT: u32 = 0o644;
    let permissions = match fs::metadata(target) {
        Ok(metadata) => metadata.permissions(),
        Err(_) => fs::Permissions::from_mode(DOCUMENT),
    };
    file.set_permissions(permissions)
}

#[cfg(not(unix))]
fn set_permissions(_: &fs::File, _: &Path) -> io::Result<()> {
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn output(path: &Path, force: bool) -> OutputArgs {
        OutputArgs { output: Some(path.to_path_buf()), force }
    }

    #[test]
    fn an_existing_file_is_kept_unless_forced() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("notes.md");
        let careful = output(&path, false);
        careful.check().unwrap();
        careful.write(&path, b"one").unwrap();
        assert!(careful.check().is_err());
        assert!(careful.write(&path, b"two").is_err());
        assert_eq!(fs::read(&path).unwrap(), b"one");
        let forced = output(&path, true);
        forced.check().unwrap();
        forced.write(&path, b"two").unwrap();
        assert_eq!(fs::read(&path).unwrap(), b"two");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    }

    #[test]
    fn a_missing_folder_is_not_made() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("new/notes.md");
        assert!(output(&path, false).check().is_err());
        assert!(output(folder.path(), true).check().is_err());
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0);
    }

    #[test]
    #[cfg(unix)]
    fn forcing_a_link_replaces_what_it_stands_for() {
        let folder = tempfile::tempdir().unwrap();
        let (real, link) = (folder.path().join("real.md"), folder.path().join("link.md"));
        fs::write(&real, "old").unwrap();
        std::os::unix::fs::symlink(&real, &link).unwrap();
        output(&link, true).write(&link, b"new").unwrap();
        assert_eq!(fs::read(&real).unwrap(), b"new");
        assert!(link.is_symlink());
    }
}
