//! The trials of a book as a document.

use std::collections::BTreeMap;

use serde::Serialize;

use super::document::{Document, Table};
use crate::quantity::significant;
use crate::trial::judgement::success_at_least;
use crate::trial::written::{Purpose, Verdict};
use crate::trial::{Trial, cause};

/// A list of trials in JSON.
#[derive(Debug, Serialize)]
pub struct ListJson<'a> {
    /// Title of the book.
    pub book: &'a str,
    /// The trials by id.
    pub trials: Vec<TrialJson<'a>>,
    /// The recipes by id.
    pub recipes: Vec<RecipeJson>,
}

/// One trial in JSON.
#[derive(Debug, Serialize)]
pub struct TrialJson<'a> {
    /// Its name.
    pub id: &'a str,
    /// When it began, in the form of ISO 8601.
    pub start: String,
    /// The recipe.
    pub recipe: &'a str,
    /// The version of the recipe.
    pub recipe_version: &'a str,
    /// The kitchen.
    pub kitchen: &'a str,
    /// Code of the tester.
    pub tester: &'a str,
    /// Why it was made.
    pub purpose: Purpose,
    /// What came of it.
    pub verdict: Verdict,
    /// Number of the cause.
    pub cause: Option<i64>,
    /// What should be changed.
    pub change: &'a str,
    /// What else is to be known.
    pub note: &'a str,
    /// How many corrections were appended.
    pub amendments: usize,
}

/// How far a recipe has been proved, in JSON.
#[derive(Debug, Serialize)]
pub struct RecipeJson {
    /// The recipe.
    pub id: String,
    /// How many trials.
    pub trials: u32,
    /// The last trials without a fault, of one version.
    pub clean_run: u32,
    /// The success rate that the run supports at 95 %.
    pub success_at_least_fraction: f64,
}

/// Makes the JSON of a list of trials.
pub fn json<'a>(book: &'a str, trials: &'a [Trial]) -> ListJson<'a> {
    let one = |trial: &'a Trial| TrialJson {
        id: &trial.id,
        start: trial.start.to_string(),
        recipe: &trial.recipe,
        recipe_version: &trial.recipe_version,
        kitchen: &trial.kitchen,
        tester: &trial.tester,
        purpose: trial.purpose,
        verdict: trial.verdict,
        cause: trial.cause,
        change: &trial.change,
        note: &trial.note,
        amendments: trial.amendments,
    };
    ListJson { book, trials: trials.iter().map(one).collect(), recipes: recipes(trials) }
}

/// Counts, for each recipe, the clean run at the end of its trials.
fn recipes(trials: &[Trial]) -> Vec<RecipeJson> {
    let mut by_recipe: BTreeMap<&str, Vec<&Trial>> = BTreeMap::new();
    for trial in trials {
        by_recipe.entry(&trial.recipe).or_default().push(trial);
    }
    let each = by_recipe.into_iter().map(|(id, mut trials)| {
        // Dates as ISO 8601 sort by time within one offset, which is what a team has.
        trials.sort_by_key(|trial| (trial.start.to_string(), trial.id.clone()));
        let version = trials.last().map(|last| (&last.recipe_version, &last.recipe_sha256));
        let clean = trials.iter().rev().take_while(|trial| {
            matches!(trial.verdict, Verdict::Pass | Verdict::PassWithNote)
                && Some((&trial.recipe_version, &trial.recipe_sha256)) == version
        });
        let clean_run = u32::try_from(clean.count()).unwrap_or(u32::MAX);
        RecipeJson {
            id: id.to_owned(),
            trials: u32::try_from(trials.len()).unwrap_or(u32::MAX),
            clean_run,
            success_at_least_fraction: success_at_least(clean_run),
        }
    });
    each.collect()
}

/// Writes a list of trials.
pub fn document(book: &str, trials: &[Trial]) -> Document {
    let mut document = Document::new(format!("Trials of \"{book}\""));
    if trials.is_empty() {
        document.paragraph("There is no trial yet. `standin trial add` records one.");
        return document;
    }
    let mut table = Table::new()
        .words("Trial")
        .words("Start")
        .words("Recipe")
        .words("Kitchen")
        .words("Tester")
        .words("Verdict")
        .words("Cause or change");
    for trial in trials {
        table.push(row(trial));
    }
    document.table(table);
    document.section("How far the recipes are proved");
    let mut proved = Table::new()
        .words("Recipe")
        .numbers("Trials")
        .numbers("Clean run")
        .numbers("Success rate at least");
    for recipe in recipes(trials) {
        let rate = format!("{} %", significant(100.0 * recipe.success_at_least_fraction, 2));
        proved.push([recipe.id, recipe.trials.to_string(), recipe.clean_run.to_string(), rate]);
    }
    document.table(proved);
    document.note(
        "The clean run counts the last trials of one text that passed. The rate is what such a run \
         supports at 95 %: three clean repeats show little.",
    );
    document
}

fn row(trial: &Trial) -> [String; 7] {
    let version = match trial.recipe_version.as_str() {
        "" => String::new(),
        version => format!(" {version}"),
    };
    let cause = trial.cause.and_then(cause::words).unwrap_or_default();
    let parts: Vec<&str> =
        [cause, trial.change.as_str()].into_iter().filter(|part| !part.is_empty()).collect();
    let amended = match trial.amendments {
        0 => String::new(),
        count => format!(" (amended {count} ×)"),
    };
    [
        format!("{}{amended}", trial.id),
        trial.start.to_string(),
        format!("{}{version}", trial.recipe),
        trial.kitchen.clone(),
        trial.tester.clone(),
        trial.verdict.words().to_owned(),
        parts.join("; "),
    ]
}
