//! Books, trials, calibration and panels, through the library.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first fault")]

#[path = "trials/book.rs"]
mod book;
#[path = "trials/calibration.rs"]
mod calibration;
#[path = "trials/commands.rs"]
mod commands;
#[path = "trials/panels.rs"]
mod panels;
#[path = "trials/predictions.rs"]
mod predictions;
#[path = "trials/records.rs"]
mod records;

use std::path::{Path, PathBuf};
use std::sync::OnceLock;
use std::sync::atomic::{AtomicU32, Ordering};

use standin::knowledge::Knowledge;

/// The rows of a table of reference values.
fn rows<T: for<'a> serde::Deserialize<'a>>(name: &str) -> Vec<T> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/trials").join(name);
    let mut reader = csv::Reader::from_path(path).unwrap();
    let rows: Vec<T> = reader.deserialize().map(Result::unwrap).collect();
    assert!(!rows.is_empty());
    rows
}

fn knowledge() -> &'static Knowledge {
    static SHIPPED: OnceLock<Knowledge> = OnceLock::new();
    SHIPPED.get_or_init(|| Knowledge::embedded().unwrap())
}

fn example_book() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/book")
}

/// A folder that is removed when the test is over.
struct Scratch(PathBuf);

impl Scratch {
    fn new() -> Self {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let count = COUNT.fetch_add(1, Ordering::Relaxed);
        let name = format!("standin-trials-{}-{count}", std::process::id());
        let folder = std::env::temp_dir().join(name);
        std::fs::create_dir_all(&folder).unwrap();
        Self(folder.canonicalize().unwrap())
    }

    /// A book with a title and nothing else.
    fn book() -> Self {
        let scratch = Self::new();
        scratch.write("book.toml", "title = \"Scratch\"\n");
        scratch
    }

    fn write(&self, path: &str, text: &str) -> PathBuf {
        let path = self.0.join(path);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(&path, text).unwrap();
        path
    }
}

impl Drop for Scratch {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}
