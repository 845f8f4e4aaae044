//! The example book, as every command prints it: twelve recipes, four kitchens, twelve trials.
//!
//! What people read is kept as text; the other formats of the same outputs are kept as digests, so
//! that a change shows without a million lines of snapshots. `cargo insta review` accepts a change.

#![allow(clippy::unwrap_used, reason = "a test stops at the first fault")]

use std::fmt::Write as _;
use std::path::Path;
use std::process::Command;

use insta::{Settings, assert_snapshot};
use rayon::prelude::*;
use sha2::{Digest, Sha256};

const BOOK: &str = "examples/book";
const RECIPES: [&str; 12] = [
    "buttermilk-snow",
    "clear-tomato-water",
    "fennel-frond-water",
    "glassy-celery",
    "hazelnut-cream",
    "mint-verjus",
    "pear-treacle",
    "plum-and-beetroot-shards",
    "pressed-barley",
    "rhubarb-at-61",
    "set-mussel-broth",
    "unstrong-cider",
];
const KITCHENS: [&str; 4] = ["family-kitchen", "high-rural", "keen-cook", "tiny-flat"];
/// Samples of a snapshot: enough for the words to settle, few enough to wait for.
const SAMPLES: &str = "200";
/// Digits of a digest that are kept.
const DIGEST_DIGITS: usize = 16;

/// Runs the program in the project's folder and returns what it printed.
fn standin(arguments: &[&str]) -> Vec<u8> {
    let done = Command::new(env!("CARGO_BIN_EXE_standin"))
        .args(arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .env_remove("COLUMNS")
        .env("NO_COLOR", "1")
        .output()
        .unwrap();
    let code = done.status.code();
    let said = String::from_utf8_lossy(&done.stderr);
    assert!(matches!(code, Some(0 | 1)), "{arguments:?} ended with {code:?}: {said}");
    assert!(!done.stdout.is_empty(), "{arguments:?} printed nothing: {said}");
    done.stdout
}

fn text(arguments: &[&str]) -> String {
    String::from_utf8(standin(arguments)).unwrap()
}

fn recipe(id: &str) -> String {
    format!("{BOOK}/recipes/{id}.toml")
}

fn kitchen(id: &str) -> String {
    format!("{BOOK}/kitchens/{id}.toml")
}

/// Keeps the snapshots of one command in a folder of their own.
fn in_folder(name: &str) -> impl Drop {
    let mut settings = Settings::clone_current();
    settings.set_snapshot_path(format!("snapshots/example_book/{name}"));
    settings.set_prepend_module_to_snapshot(false);
    settings.set_omit_expression(true);
    settings.bind_to_scope()
}

fn pairs() -> Vec<(&'static str, &'static str)> {
    RECIPES.iter().flat_map(|one| KITCHENS.iter().map(move |other| (*one, *other))).collect()
}

/// One line per output with the head of its digest.
fn digests(outputs: Vec<(String, Vec<u8>)>) -> String {
    outputs.into_iter().fold(String::new(), |mut lines, (name, bytes)| {
        let digest: String = Sha256::digest(&bytes).iter().map(|b| format!("{b:02x}")).collect();
        writeln!(lines, "{} {name}", &digest[..DIGEST_DIGITS]).unwrap();
        lines
    })
}

#[test]
fn the_lists_above_are_what_the_book_holds() {
    for (folder, listed) in [("recipes", RECIPES.as_slice()), ("kitchens", KITCHENS.as_slice())] {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(BOOK).join(folder);
        let entries = std::fs::read_dir(folder).unwrap();
        let mut ids: Vec<String> = entries
            .map(|entry| entry.unwrap().path().file_stem().unwrap().to_str().unwrap().to_owned())
            .collect();
        ids.sort();
        assert_eq!(ids, listed);
    }
}

#[test]
fn adapt_prints_every_recipe_for_every_kitchen() {
    let printed: Vec<(String, String)> = pairs()
        .into_par_iter()
        .map(|(of, home)| {
            let (of_file, home_file) = (recipe(of), kitchen(home));
            let all = ["adapt", &of_file, "--kitchen", &home_file, "--samples", SAMPLES];
            (format!("{of} in {home}"), text(&all))
        })
        .collect();
    let _folder = in_folder("adapt");
    for (name, printed) in printed {
        assert_snapshot!(name, printed);
    }
}

#[test]
fn adapt_keeps_its_other_formats() {
    let outputs = pairs()
        .into_par_iter()
        .flat_map_iter(|(of, home)| {
            ["json", "markdown", "html"].into_iter().map(move |format| {
                let (of_file, home_file) = (recipe(of), kitchen(home));
                let all = [
                    "adapt",
                    &of_file,
                    "--kitchen",
                    &home_file,
                    "--samples",
                    SAMPLES,
                    "--format",
                    format,
                ];
                (format!("{of} in {home} {format}"), standin(&all))
            })
        })
        .collect();
    let _folder = in_folder("digests");
    assert_snapshot!("adapt", digests(outputs));
}

#[test]
fn check_prints_what_each_kitchen_can_make() {
    let recipes: Vec<String> = RECIPES.iter().map(|id| recipe(id)).collect();
    let printed: Vec<(&str, String)> = KITCHENS
        .into_par_iter()
        .map(|home| {
            let file = kitchen(home);
            let mut all = vec!["check"];
            all.extend(recipes.iter().map(String::as_str));
            all.extend(["--kitchen", &file]);
            (home, text(&all))
        })
        .collect();
    let _folder = in_folder("check");
    for (name, printed) in printed {
        assert_snapshot!(name, printed);
    }
}

#[test]
fn the_book_is_surveyed_and_its_trials_fitted() {
    let commands: [&[&str]; 4] = [
        &["survey", BOOK],
        &["trial", "list", BOOK],
        &["trial", "fit", BOOK, "--samples", SAMPLES],
        &["lint", BOOK],
    ];
    let printed: Vec<String> = commands.par_iter().map(|all| text(all)).collect();
    let formats = ["json", "markdown", "html"];
    let outputs = commands
        .par_iter()
        .flat_map_iter(|all| {
            formats.iter().map(move |format| {
                let with: Vec<&str> = all.iter().copied().chain(["--format", format]).collect();
                (with.join(" "), standin(&with))
            })
        })
        .collect();
    let _folder = in_folder("book");
    for (name, printed) in ["survey", "trial list", "trial fit", "lint"].iter().zip(printed) {
        assert_snapshot!(*name, printed);
    }
    assert_snapshot!("digests", digests(outputs));
}

/// The kitchens for which the book's notes are written: one that the reader has, one that few have.
const READERS: [&str; 2] = ["family-kitchen", "keen-cook"];

#[test]
fn notes_are_written_for_every_recipe_in_every_format() {
    let readers = READERS.map(kitchen);
    let command = |id: &str, format: &str| {
        let of = recipe(id);
        let mut all = vec!["notes", of.as_str()];
        for reader in &readers {
            all.extend(["--kitchen", reader]);
        }
        all.extend(["--with-trials", "--samples", SAMPLES, "--format", format]);
        standin(&all)
    };
    let printed: Vec<String> = RECIPES
        .into_par_iter()
        .map(|id| String::from_utf8(command(id, "markdown")).unwrap())
        .collect();
    let outputs = RECIPES
        .into_par_iter()
        .flat_map_iter(|id| {
            ["table", "html", "docx", "json"]
                .into_iter()
                .map(move |format| (format!("{id} {format}"), command(id, format)))
        })
        .collect();
    let _folder = in_folder("notes");
    for (id, printed) in RECIPES.iter().zip(printed) {
        assert_snapshot!(*id, printed);
    }
    assert_snapshot!("digests", digests(outputs));
}

#[test]
fn export_writes_every_recipe_as_linked_data() {
    let printed: Vec<String> = RECIPES
        .into_par_iter()
        .map(|id| {
            let (of, home) = (recipe(id), kitchen(READERS[0]));
            text(&["export", &of, "--kitchen", &home, "--samples", SAMPLES])
        })
        .collect();
    let _folder = in_folder("export");
    for (id, printed) in RECIPES.iter().zip(printed) {
        assert_snapshot!(*id, printed);
    }
}

#[test]
fn adapt_check_and_survey_agree_on_every_recipe_in_every_kitchen() {
    let json = |all: &[&str]| -> serde_json::Value {
        let with: Vec<&str> = all.iter().copied().chain(["--format", "json"]).collect();
        serde_json::from_slice(&standin(&with)).unwrap()
    };
    let surveyed = json(&["survey", BOOK]);
    let cells = surveyed["cells"].as_array().unwrap();
    assert_eq!(cells.len(), RECIPES.len() * KITCHENS.len());
    pairs().into_par_iter().for_each(|(of, home)| {
        let (of_file, home_file) = (recipe(of), kitchen(home));
        let adapted = json(&["adapt", &of_file, "--kitchen", &home_file]);
        let checked = json(&["check", &of_file, "--kitchen", &home_file]);
        let row = &checked["recipes"][0];
        assert_eq!(adapted["verdict"], row["verdict"], "{of} in {home}: adapt and check");
        let cell = cells
            .iter()
            .find(|cell| cell["recipe"] == row["recipe"] && cell["kitchen"] == checked["kitchen"])
            .unwrap();
        assert_eq!(adapted["verdict"], cell["verdict"], "{of} in {home}: adapt and survey");
    });
}
