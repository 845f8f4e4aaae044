//! How long a survey takes: `cargo bench --bench survey -- 2000 12` for 2 000 recipes in 12 kitchens.
//!
//! The recipes and kitchens are the examples with their numbers moved by seeded draws. Prints the
//! time, the cells by number of samples, and on Linux the most memory that was in use.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a benchmark stops at the first fault and prints its result"
)]

#[path = "../tests/varied_book/mod.rs"]
mod varied_book;

use std::collections::BTreeMap;
use std::time::Instant;

use standin::advisor::purchase::{Budget, Wanted};
use standin::advisor::survey::{Inquiry, survey};
use standin::knowledge::Knowledge;

const SEED: u64 = 7;
const SAMPLES: usize = 1000;
/// A book that takes seconds.
const USUAL: (usize, usize) = (60, 12);

fn main() {
    let numbers: Vec<usize> = std::env::args().filter_map(|word| word.parse().ok()).collect();
    let (recipes, kitchens) = match numbers[..] {
        [recipes, kitchens] => (recipes, kitchens),
        _ => USUAL,
    };
    let knowledge = Knowledge::embedded().unwrap();
    let pages = varied_book::pages(recipes, SEED, &knowledge);
    let kitchens = varied_book::kitchens(kitchens, SEED, &knowledge);
    let (wanted, budget) = (Wanted::Recipes, Budget::Pieces(3));
    let inquiry = Inquiry {
        pages: &pages,
        kitchens: &kitchens,
        knowledge: &knowledge,
        samples: SAMPLES,
        seed: SEED,
        wanted,
        budget,
    };
    let start = Instant::now();
    let survey = survey(&inquiry, &|| ());
    let seconds = start.elapsed().as_secs_f64();
    let mut counts = BTreeMap::<Option<usize>, usize>::new();
    for cell in survey.cells.iter().flatten() {
        *counts.entry(cell.as_ref().ok().map(|cell| cell.samples)).or_default() += 1;
    }
    println!("{} recipes in {} kitchens: {seconds:.1} s", pages.len(), kitchens.len());
    for (samples, count) in counts {
        match samples {
            Some(samples) => println!("  {count} cells with {samples} samples"),
            None => println!("  {count} cells not computed"),
        }
    }
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    if let Some(line) = status.lines().find(|line| line.starts_with("VmHWM")) {
        println!("  {}", line.trim());
    }
}
