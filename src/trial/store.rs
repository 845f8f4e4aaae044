//! The trials folder of a book: writes that are whole or not there, and names that never collide.
//!
//! A writer holds a lock on `trials/.lock`. The new text goes into a hidden file in the same folder,
//! is brought to the disk, and takes its name in one step: as a new link, which fails when the name
//! is taken, or by renaming when a record gets an amendment. A writer that is killed leaves at most
//! a hidden file, which the next one removes.

use std::ffi::OsStr;
use std::fs::{self, File, OpenOptions};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};

use crate::knowledge::written::Spanned;
use sha2::{Digest, Sha256};

use super::amend;
use super::record::{ReadTrial, Trial};
use super::written::{WrittenAmendment, WrittenTrial};
use crate::book::{Book, PathFault, Shelf};
use crate::finding::{Code, Finding};
use crate::knowledge::Knowledge;
use crate::knowledge::text::control_character;
use crate::reader::load_text;

/// The file that writers lock; it stays empty.
const LOCK: &str = ".lock";
/// The ending of unfinished writes.
const UNFINISHED: &str = ".tmp";
/// What every record's file name begins with.
const PREFIX: &str = "t-";

/// Why a record could not be written.
#[derive(Debug, thiserror::Error)]
pub enum StoreError {
    /// The folder or the record lies outside the book, or is not there.
    #[error(transparent)]
    Path(#[from] PathFault),
    /// The disk refused.
    #[error("{path}: cannot be written: {source}")]
    Disk {
        /// Where.
        path: String,
        /// Why.
        source: io::Error,
    },
    /// The record is no TOML.
    #[error("the record cannot be written as TOML: {0}")]
    Text(#[from] toml::ser::Error),
    /// The record with the amendment would not be readable.
    #[error("the amendment is refused: {} faults", findings.len())]
    Refused {
        /// What is wrong.
        findings: Vec<Finding>,
        /// The text that was refused.
        text: String,
    },
}

/// Every trial of a book that could be read, and what is to be said about the files.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Loaded {
    /// The trials by id.
    pub trials: Vec<Trial>,
    /// Faults that keep a file from being read, and questions as warnings; each with the text of its
    /// file.
    pub findings: Vec<(Finding, String)>,
}

/// The trials folder of a book.
#[derive(Debug, Clone, Copy)]
pub struct Store<'a> {
    book: &'a Book,
}

/// Returns the SHA-256 of a text in hexadecimal, as `sha256sum` prints it.
pub fn fingerprint(text: &str) -> String {
    Sha256::digest(text.as_bytes()).iter().map(|byte| format!("{byte:02x}")).collect()
}

impl<'a> Store<'a> {
    /// Makes the store of a book.
    pub const fn new(book: &'a Book) -> Self {
        Self { book }
    }

    /// Writes a new record under the next free name, which it is given, and returns where.
    ///
    /// # Errors
    /// [`StoreError`]; nothing is left behind then but, at worst, a hidden file.
    pub fn add(&self, mut record: WrittenTrial) -> Result<(String, PathBuf), StoreError> {
        let folder = self.folder()?;
        let _lock = lock(&folder)?;
        let disk = |source| disk(&folder, source);
        let mut number = tidy(&folder).map_err(disk)? + 1;
        loop {
            let stem = format!("{PREFIX}{number:02}");
            record.id = Spanned::new(0..0, stem.to_uppercase());
            let text = toml::to_string(&record)?;
            if let Some(finding) = control_character(&text, &stem) {
                return Err(StoreError::Refused { findings: vec![finding], text });
            }
            let path = folder.join(format!("{stem}.toml"));
            match write_new(&path, text.as_bytes()) {
                Ok(()) => return Ok((record.id.into_inner(), path)),
                Err(error) if error.kind() == ErrorKind::AlreadyExists => number += 1,
                Err(error) => return Err(self::disk(&path, error)),
            }
        }
    }

    /// Appends an amendment to a record and returns where.
    ///
    /// # Errors
    /// [`StoreError`]; the record is then as it was.
    pub fn amend(
        &self,
        id: &str,
        amendment: &WrittenAmendment,
        knowledge: &Knowledge,
    ) -> Result<(PathBuf, ReadTrial), StoreError> {
        let path = self.book.find(Shelf::Trials, &id.to_lowercase())?;
        let folder = self.folder()?;
        let _lock = lock(&folder)?;
        let before = fs::read_to_string(&path).map_err(|error| disk(&path, error))?;
        let text = amend::append(&before, amendment)?;
        let read = Trial::read(&text, &path.display().to_string(), knowledge);
        let read = match read {
            Ok(read) => read,
            Err(findings) => return Err(StoreError::Refused { findings, text }),
        };
        replace(&path, text.as_bytes()).map_err(|error| disk(&path, error))?;
        Ok((path, read))
    }

    /// Reads every trial; a file that cannot be read becomes a finding and the others go on.
    pub fn load(&self, knowledge: &Knowledge) -> Loaded {
        let mut loaded = Loaded::default();
        let entries = match self.book.list(Shelf::Trials) {
            Ok(entries) => entries,
            Err(findings) => {
                loaded.findings = findings.into_iter().map(|one| (one, String::new())).collect();
                return loaded;
            }
        };
        for entry in entries {
            let file = entry.path.display().to_string();
            let text = match load_text(&entry.path) {
                Ok(text) => text,
                Err(fault) => {
                    loaded.findings.push((*fault, String::new()));
                    continue;
                }
            };
            let findings = match Trial::read(&text, &file, knowledge) {
                Ok(read) => {
                    let mut findings = read.questions;
                    findings.extend(self.doubts(&read.trial, &entry.id, &file));
                    loaded.trials.push(read.trial);
                    findings
                }
                Err(findings) => findings,
            };
            loaded.findings.extend(findings.into_iter().map(|one| (one, text.clone())));
        }
        loaded
    }

    /// Returns what the rest of the book says against a trial.
    fn doubts(&self, trial: &Trial, stem: &str, file: &str) -> Vec<Finding> {
        let mut doubts = Vec::new();
        let mut warn = |code, message: String, help: &str| {
            doubts.push(Finding::warning(code, file, message).help(help));
        };
        if trial.id.to_lowercase() != stem {
            let message = format!("the trial calls itself {}", trial.id);
            warn(Code::DuplicateName, message, "its id in small letters is its file name");
        }
        match self.book.find(Shelf::Recipes, &trial.recipe).map(fs::read_to_string) {
            Ok(Ok(text)) => {
                let now = fingerprint(&text);
                if trial.recipe_sha256.as_ref().is_some_and(|then| *then != now) {
                    let message = format!("{} has changed since this trial", trial.recipe);
                    let help = "the trial is kept; a repeat counts for the text it was made from";
                    warn(Code::StaleRecord, message, help);
                }
            }
            Ok(Err(error)) => warn(Code::UnreadableFile, error.to_string(), "check the recipe"),
            Err(fault) => warn(Code::MissingFile, fault.to_string(), "add the recipe to the book"),
        }
        if let Err(fault) = self.book.find(Shelf::Kitchens, &trial.kitchen) {
            warn(Code::MissingFile, fault.to_string(), "add the kitchen to the book");
        }
        let team = &self.book.team;
        if !team.is_empty() && !team.iter().any(|member| member.code == trial.tester) {
            let message = format!("nobody of the team goes by `{}`", trial.tester);
            warn(Code::UnknownName, message, "add the code to [[team]] in book.toml");
        }
        doubts
    }

    /// Returns the trials folder, made if it was missing, with every link resolved.
    fn folder(&self) -> Result<PathBuf, StoreError> {
        let wanted = self.book.folder(Shelf::Trials);
        match fs::create_dir(&wanted) {
            Err(error) if error.kind() != ErrorKind::AlreadyExists => Err(disk(&wanted, error)),
            _ => Ok(self.book.inside(Path::new(Shelf::Trials.folder()))?),
        }
    }
}

fn disk(path: &Path, source: io::Error) -> StoreError {
    StoreError::Disk { path: path.display().to_string(), source }
}

/// Waits until no other writer is at work in a folder; the lock ends when the file is closed.
fn lock(folder: &Path) -> Result<File, StoreError> {
    let path = folder.join(LOCK);
    if path.is_symlink() {
        return Err(PathFault::Escapes { path: path.display().to_string() }.into());
    }
    let open = OpenOptions::new().create(true).truncate(false).write(true).open(&path);
    let file = open.map_err(|error| disk(&path, error))?;
    file.lock().map_err(|error| disk(&path, error))?;
    Ok(file)
}

/// Removes what killed writers left and returns the highest number that is taken.
///
/// Only for the holder of the lock: no unfinished write is then at work.
fn tidy(folder: &Path) -> io::Result<u64> {
    let mut highest = 0;
    for entry in fs::read_dir(folder)? {
        let name = entry?.file_name();
        let Some(name) = name.to_str() else { continue };
        if name.starts_with('.') && name.contains(PREFIX) && name.ends_with(UNFINISHED) {
            fs::remove_file(folder.join(name))?;
        } else if let Some(stem) = name.strip_suffix(".toml")
            && let Some(number) = stem.strip_prefix(PREFIX)
        {
            highest = number.parse().map_or(highest, |number: u64| highest.max(number));
        }
    }
    Ok(highest)
}

/// Writes the bytes to a hidden file beside a path and brings them to the disk.
fn write_beside(path: &Path, bytes: &[u8]) -> io::Result<PathBuf> {
    let name = path.file_name().map_or_else(Default::default, OsStr::to_string_lossy);
    let hidden = path.with_file_name(format!(".{name}.{}{UNFINISHED}", std::process::id()));
    let mut file = OpenOptions::new().create_new(true).write(true).open(&hidden)?;
    file.write_all(bytes)?;
    file.sync_all()?;
    Ok(hidden)
}

/// Gives a new file its name, unless the name is taken.
fn write_new(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let hidden = write_beside(path, bytes)?;
    let named = match fs::hard_link(&hidden, path) {
        Ok(()) => fs::remove_file(&hidden),
        Err(error) if error.kind() == ErrorKind::AlreadyExists => Err(error),
        // A file system without links: the lock alone keeps other writers away.
        Err(_) if !path.exists() => fs::rename(&hidden, path),
        Err(error) => Err(error),
    };
    if named.is_err() {
        // The fault itself is reported; the next writer removes the hidden file.
        let _ = fs::remove_file(&hidden);
    }
    named?;
    sync_folder(path)
}

/// Puts new bytes in the place of a file in one step; its permissions stay.
fn replace(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let permissions = fs::metadata(path)?.permissions();
    let hidden = write_beside(path, bytes)?;
    let moved = fs::set_permissions(&hidden, permissions).and_then(|()| fs::rename(&hidden, path));
    if moved.is_err() {
        // As in `write_new`.
        let _ = fs::remove_file(&hidden);
    }
    moved?;
    sync_folder(path)
}

/// Brings the name of a file to the disk.
fn sync_folder(path: &Path) -> io::Result<()> {
    // Elsewhere a folder cannot be opened, and renaming is brought to the disk by itself.
    #[cfg(unix)]
    if let Some(folder) = path.parent() {
        File::open(folder)?.sync_all()?;
    }
    #[cfg(not(unix))]
    let _ = path;
    Ok(())
}
