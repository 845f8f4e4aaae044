//! Physics against published and independent values, row by row.
//!
//! Each file in `tests/reference/` holds the rows of one field, the file of the same name in
//! `tests/reference/sources/` the sources that it cites.
//! Run with `-- --nocapture` to see the verification table.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first fault")]

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use serde::Deserialize;
use standin::calc;

/// One row: a question, its inputs, one output and the value that the outside gives.
#[derive(Debug, Deserialize)]
struct Row {
    /// Name of the question.
    question: String,
    /// Inputs as a user writes them: `name = amount; name = amount`.
    given: String,
    /// Key of the output.
    output: String,
    /// The value of the source; 1 and 0 for yes and no.
    expected: f64,
    /// The source's own uncertainty.
    tolerance: f64,
    /// `rel`, `abs` or `factor`.
    tolerance_kind: String,
    /// `measured`, `official`, `library` or `formula` (a recalled formula evaluated).
    basis: String,
    /// Id in `sources/<field>.csv`.
    source: String,
    /// Table, figure or call within the source.
    locator: String,
}

#[derive(Debug, Deserialize)]
struct Source {
    id: String,
    citation: String,
}

/// The outcome of one row: how far off, as a share of what is allowed.
struct Checked {
    source: String,
    basis: String,
    deviation: f64,
    fault: Option<String>,
}

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference")
}

/// The sources of all fields by id; an id that two fields share must name the same publication.
fn sources() -> BTreeMap<String, String> {
    let mut all = BTreeMap::new();
    for path in tables(&folder().join("sources")) {
        for Source { id, citation } in read::<Source>(&path) {
            let before = all.insert(id.clone(), citation.clone());
            assert!(before.is_none_or(|b| b == citation), "source `{id}` has two citations");
        }
    }
    all
}

/// The CSV files of a folder, by name.
fn tables(folder: &Path) -> Vec<PathBuf> {
    let mut paths: Vec<PathBuf> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|e| e == "csv"))
        .collect();
    paths.sort();
    paths
}

fn read<T: for<'a> Deserialize<'a>>(path: &Path) -> Vec<T> {
    let mut reader = csv::Reader::from_path(path).unwrap_or_else(|e| panic!("{path:?}: {e}"));
    let rows: Result<Vec<T>, _> = reader.deserialize().collect();
    rows.unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

fn fields() -> Vec<(String, Vec<Row>)> {
    let name = |path: &Path| path.file_stem().unwrap().to_string_lossy().into_owned();
    tables(&folder()).iter().map(|path| (name(path), read(path))).collect()
}

fn evaluate(row: &Row) -> Result<f64, String> {
    let question =
        calc::find(&row.question).ok_or_else(|| format!("no question `{}`", row.question))?;
    let inputs: Vec<(&str, &str)> = row
        .given
        .split(';')
        .filter(|part| !part.trim().is_empty())
        .map(|part| part.split_once('=').map(|(name, text)| (name.trim(), text.trim())))
        .collect::<Option<_>>()
        .ok_or_else(|| format!("`{}` is not `name = amount; ...`", row.given))?;
    let answer = question.ask(&inputs).map_err(|error| error.to_string())?;
    answer.get(&row.output).ok_or_else(|| format!("no output `{}`", row.output))
}

/// Returns the deviation in the row's own terms, and whether it passes.
fn compare(row: &Row, found: f64) -> (f64, bool) {
    let difference = (found - row.expected).abs();
    match row.tolerance_kind.as_str() {
        "rel" => {
            let deviation = difference / row.expected.abs();
            (deviation, difference <= row.tolerance * row.expected.abs())
        }
        "abs" => {
            let scale = row.expected.abs().max(row.tolerance);
            (difference / scale, difference <= row.tolerance)
        }
        "factor" => {
            let ratio = (found / row.expected).max(row.expected / found);
            (ratio - 1.0, ratio <= row.tolerance)
        }
        other => panic!("tolerance kind `{other}`"),
    }
}

fn check(row: &Row) -> Checked {
    let (deviation, fault) = match evaluate(row) {
        Err(error) => (f64::INFINITY, Some(error)),
        Ok(found) => {
            let (deviation, passes) = compare(row, found);
            let fault = format!("{found} instead of {} ± {}", row.expected, row.tolerance);
            (deviation, (!passes).then_some(fault))
        }
    };
    let place = |fault| {
        format!(
            "{} ({}) {}: {fault} [{}, {}]",
            row.question, row.given, row.output, row.source, row.locator
        )
    };
    Checked {
        source: row.source.clone(),
        basis: row.basis.clone(),
        deviation,
        fault: fault.map(place),
    }
}

fn median(values: &mut [f64]) -> f64 {
    values.sort_by(f64::total_cmp);
    values.get(values.len() / 2).copied().unwrap_or(0.0)
}

#[test]
fn every_row_agrees_with_its_source() {
    let sources = sources();
    let (mut rows, mut used, mut faults) = (0, BTreeSet::new(), Vec::new());
    println!(
        "| field | rows | measured or official | library | formula | sources | largest deviation | median |"
    );
    println!("|---|---:|---:|---:|---:|---:|---:|---:|");
    for (field, list) in fields() {
        let checked: Vec<Checked> = list.iter().map(check).collect();
        let count =
            |bases: &[&str]| checked.iter().filter(|c| bases.contains(&c.basis.as_str())).count();
        let outside = count(&["measured", "official"]);
        let names: BTreeSet<&str> = checked.iter().map(|c| c.source.as_str()).collect();
        let mut deviations: Vec<f64> = checked.iter().map(|c| c.deviation).collect();
        let largest = deviations.iter().copied().fold(0.0, f64::max);
        println!(
            "| {field} | {} | {outside} | {} | {} | {} | {:.2} % | {:.3} % |",
            checked.len(),
            count(&["library"]),
            count(&["formula"]),
            names.len(),
            100.0 * largest,
            100.0 * median(&mut deviations),
        );
        rows += checked.len();
        for row in &checked {
            let known =
                ["measured", "official", "library", "formula"].contains(&row.basis.as_str());
            assert!(known, "{field}: basis `{}`", row.basis);
            assert!(
                sources.contains_key(&row.source),
                "{field}: source `{}` is not listed",
                row.source
            );
            used.insert(row.source.clone());
        }
        assert!(outside > 0, "{field} has no row from measured or official data");
        faults.extend(checked.into_iter().filter_map(|c| c.fault).map(|f| format!("{field}: {f}")));
    }
    for fault in &faults {
        println!("outside tolerance: {fault}");
    }
    println!("reference: {rows} rows, {} sources, {} outside tolerance", used.len(), faults.len());
    assert!(faults.is_empty(), "{} rows outside tolerance:\n{}", faults.len(), faults.join("\n"));
}
