//! A survey of a book as a document and as CSV.

use std::collections::BTreeMap;
use std::io::Write;

use serde::Serialize;

use super::check::{tally, word};
use super::document::{Document, Table};
use super::json::to_digits;
use super::{Chart, Figure, Grid, GridCell};
use crate::advisor::Verdict;
use crate::advisor::purchase::{Budget, MOST_THINGS};
use crate::advisor::survey::{Cell, Inquiry, Purchase, Purchases, Survey};
use crate::quantity::significant;

/// Significant digits of a loss in noticed steps.
const STEP_DIGITS: usize = 3;
/// So many recipes at most stand in one matrix: with their names on two lines they fill a page.
const MOST_ROWS: usize = 24;
/// How many recipes are named in one cell of a table.
const NAMED: usize = 4;

/// A survey with what was asked.
#[derive(Debug, Clone, Copy)]
pub struct Surveyed<'a> {
    /// The survey.
    pub survey: &'a Survey,
    /// What was asked.
    pub inquiry: &'a Inquiry<'a>,
}

/// A goal that is asked for and reached in no kitchen.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Unreached {
    /// Id of the technique.
    pub technique: String,
    /// Name of the goal.
    pub goal: String,
    /// Titles of the recipes that ask for it.
    pub recipes: Vec<String>,
}

impl<'a> Surveyed<'a> {
    pub(super) fn title(&self, recipe: usize) -> &'a str {
        let page = self.inquiry.pages.get(recipe).and_then(|page| page.readings.first());
        page.map_or("", |(_, recipe)| recipe.title.as_str())
    }

    fn column(&self, kitchen: usize) -> impl Iterator<Item = Option<&'a Cell>> {
        self.survey.cells.iter().map(move |row| row.get(kitchen).and_then(|one| one.as_ref().ok()))
    }

    /// Returns the goals that recipes ask for and that no kitchen reaches in any of them.
    pub fn unreached(&self) -> Vec<Unreached> {
        let mut asked = BTreeMap::<(&str, &str), (bool, Vec<usize>)>::new();
        for (recipe, row) in self.survey.cells.iter().enumerate() {
            for step in row.iter().flatten().flat_map(|cell| &cell.steps) {
                let (reached, recipes) = asked.entry((&step.technique, &step.goal)).or_default();
                *reached |= step.verdict != Verdict::No;
                if recipes.last() != Some(&recipe) {
                    recipes.push(recipe);
                }
            }
        }
        let none = asked.into_iter().filter(|(_, (reached, _))| !reached);
        none.map(|((technique, goal), (_, recipes))| Unreached {
            technique: technique.to_owned(),
            goal: goal.to_owned(),
            recipes: recipes.into_iter().map(|recipe| self.title(recipe).to_owned()).collect(),
        })
        .collect()
    }
}

/// Remarks on what was left out.
pub fn remarks(surveyed: &Surveyed<'_>) -> Vec<String> {
    let mut remarks = Vec::new();
    let each = || surveyed.inquiry.kitchens.iter().zip(&surveyed.survey.purchases);
    for (kitchen, purchases) in each() {
        if purchases.shop.left_out > 0 {
            remarks.push(format!(
                "{}: {} things on offer were left out of the choice, which takes {MOST_THINGS}",
                kitchen.name, purchases.shop.left_out
            ));
        }
    }
    if matches!(surveyed.inquiry.budget, Budget::Money(_)) {
        let things = each().flat_map(|(_, purchases)| &purchases.shop.things);
        let mut unpriced: Vec<&str> =
            things.filter(|thing| thing.price.is_none()).map(|thing| thing.id.as_str()).collect();
        unpriced.sort_unstable();
        unpriced.dedup();
        if !unpriced.is_empty() {
            let names = unpriced.join(", ");
            remarks.push(format!("no price is known for {names}: left out; try --items instead"));
        }
    }
    remarks
}

/// Writes a survey.
pub fn document(surveyed: &Surveyed<'_>) -> Document {
    let (recipes, kitchens) = (surveyed.inquiry.pages.len(), surveyed.inquiry.kitchens.len());
    let mut document = Document::new(format!("{recipes} recipes in {kitchens} kitchens"));
    document
        .facts(tally((0..kitchens).flat_map(|kitchen| {
            surveyed.column(kitchen).map(|cell| cell.map(|cell| cell.verdict))
        })));
    for chart in matrices(surveyed) {
        document.chart(chart);
    }
    goals(&mut document, surveyed);
    purchases(&mut document, surveyed);
    faults(&mut document, surveyed);
    document
}

/// Recipes by kitchens, so many at once that they fit a page.
fn matrices(surveyed: &Surveyed<'_>) -> Vec<Chart> {
    let row = |(recipe, row): (usize, &Vec<_>)| {
        let cells = row.iter().map(|cell: &Result<Cell, _>| {
            let verdict = cell.as_ref().ok().map(|cell| cell.verdict);
            GridCell { word: word(verdict).to_owned(), level: verdict.map(level) }
        });
        (surveyed.title(recipe).to_owned(), cells.collect())
    };
    let rows: Vec<(String, Vec<GridCell>)> =
        surveyed.survey.cells.iter().enumerate().map(row).collect();
    let parts = rows.len().div_ceil(MOST_ROWS).max(1);
    let title = "What becomes of each recipe in each kitchen";
    let chart = |(index, rows): (usize, &[(String, Vec<GridCell>)])| {
        let figure = Figure::Grid(Grid {
            rows_are: "Recipe".to_owned(),
            columns: surveyed.inquiry.kitchens.iter().map(|kitchen| kitchen.name.clone()).collect(),
            rows: rows.to_vec(),
        });
        match parts {
            1 => Chart::new(title, finding(surveyed), figure),
            _ => Chart::new(
                format!("{title}, part {} of {parts}", index + 1),
                finding(surveyed),
                figure,
            ),
        }
    };
    rows.chunks(rows.len().div_ceil(parts).max(1)).enumerate().map(chart).collect()
}

/// How well a verdict does, from 0 to 1: the four in equal steps.
const fn level(verdict: Verdict) -> f64 {
    match verdict {
        Verdict::AsWritten => 1.0,
        Verdict::SmallLoss => 2.0 / 3.0,
        Verdict::RealLoss => 1.0 / 3.0,
        Verdict::No => 0.0,
    }
}

fn finding(surveyed: &Surveyed<'_>) -> String {
    let all = surveyed.inquiry.pages.len();
    let possible = |kitchen: usize| {
        surveyed.column(kitchen).flatten().filter(|cell| cell.verdict != Verdict::No).count()
    };
    let counts: Vec<usize> = (0..surveyed.inquiry.kitchens.len()).map(possible).collect();
    let Some(most) = counts.iter().max() else { return "No kitchen was asked about.".to_owned() };
    let names = surveyed.inquiry.kitchens.iter().zip(&counts).filter(|(_, count)| *count == most);
    let names: Vec<&str> = names.map(|(kitchen, _)| kitchen.name.as_str()).collect();
    format!("Most can be made in {}: {most} of {all}.", names.join(" and "))
}

fn goals(document: &mut Document, surveyed: &Surveyed<'_>) {
    document.section("Goals that no kitchen reaches");
    let unreached = surveyed.unreached();
    if unreached.is_empty() {
        document.paragraph("Every goal that the recipes ask for is reached in some kitchen.");
        return;
    }
    let mut table = Table::new().words("Technique").words("Goal").words("Asked for by");
    for one in &unreached {
        let technique = surveyed.inquiry.knowledge.techniques.get(&one.technique);
        let name = technique.map_or(one.technique.clone(), |technique| technique.name.clone());
        let titles: Vec<&str> = one.recipes.iter().map(String::as_str).collect();
        table.push([name, one.goal.clone(), some_of(&titles)]);
    }
    document.table(table);
}

/// Names the first few, and how many more there are.
fn some_of(titles: &[&str]) -> String {
    let shown = titles.iter().take(NAMED).copied().collect::<Vec<&str>>().join("; ");
    match titles.len().checked_sub(NAMED) {
        Some(more) if more > 0 => format!("{shown}; and {more} more"),
        _ => shown,
    }
}

fn purchases(document: &mut Document, surveyed: &Surveyed<'_>) {
    document.section("What to buy");
    let limit = match surveyed.inquiry.budget {
        Budget::Pieces(1) => "one thing".to_owned(),
        Budget::Pieces(count) => format!("{count} things"),
        Budget::Money(money) => significant(money, 4),
    };
    let mut table = Table::new().words("Kitchen").words("Buy").numbers("Cost");
    table = table.numbers("Recipes").words("Which");
    for (kitchen, purchases) in surveyed.inquiry.kitchens.iter().zip(&surveyed.survey.purchases) {
        let mut rows = vec![&purchases.single];
        if purchases.set.choice.things.len() > 1 {
            rows.push(&purchases.set);
        }
        for purchase in rows {
            table.push([
                kitchen.name.clone(),
                or_nothing(names(purchase, purchases)),
                cost(purchase, purchases),
                purchase.gains.len().to_string(),
                which(purchase, surveyed),
            ]);
        }
    }
    let caption = format!("The best single purchase, and the best set within {limit}");
    document.table(table.caption(caption));
    document.paragraph(
        "The set is the best of all sets by what each route comes to at typical values; the recipes \
         counted were then run again in the kitchen with the things bought.",
    );
}

fn or_nothing(names: Vec<&str>) -> String {
    if names.is_empty() { "nothing helps".to_owned() } else { names.join(" and ") }
}

/// The names of what is bought.
fn names<'a>(purchase: &Purchase, purchases: &'a Purchases) -> Vec<&'a str> {
    let things = purchase.choice.things.iter();
    things.filter_map(|t| purchases.shop.things.get(*t)).map(|t| t.name.as_str()).collect()
}

/// The prices of the things added up; empty when one is not known.
fn cost(purchase: &Purchase, purchases: &Purchases) -> String {
    let things = purchase.choice.things.iter().filter_map(|t| purchases.shop.things.get(*t));
    let prices: Option<Vec<f64>> = things.map(|thing| thing.price).collect();
    match prices {
        Some(prices) if !prices.is_empty() => significant(prices.iter().sum(), 2),
        _ => String::new(),
    }
}

fn which(purchase: &Purchase, surveyed: &Surveyed<'_>) -> String {
    let titles: Vec<String> = purchase
        .gains
        .iter()
        .map(|gain| format!("{}, {}", surveyed.title(gain.recipe), gain.after.words()))
        .collect();
    some_of(&titles.iter().map(String::as_str).collect::<Vec<&str>>())
}

/// Recipes that cannot be simulated, each fault once.
fn faults(document: &mut Document, surveyed: &Surveyed<'_>) {
    let mut faults: Vec<String> = Vec::new();
    for (recipe, row) in surveyed.survey.cells.iter().enumerate() {
        let mut of_row: Vec<String> =
            row.iter().filter_map(|cell| cell.as_ref().err()).map(ToString::to_string).collect();
        of_row.dedup();
        faults.extend(of_row.iter().map(|one| format!("{}: {one}", surveyed.title(recipe))));
    }
    if !faults.is_empty() {
        document.section("Not computed");
        document.bullets(faults.iter().map(String::as_str));
    }
}

/// One cell as a row of CSV.
#[derive(Debug, Serialize)]
struct CsvRow<'a> {
    recipe: &'a str,
    kitchen: &'a str,
    verdict: &'a str,
    worst_loss_noticed_steps: Option<f64>,
    samples: Option<usize>,
    routes: String,
}

/// Writes the matrix as CSV, one line a recipe and kitchen.
///
/// # Errors
/// When it cannot be written.
pub fn csv(surveyed: &Surveyed<'_>, out: &mut dyn Write) -> Result<(), csv::Error> {
    let mut writer = csv::Writer::from_writer(out);
    for (recipe, row) in surveyed.survey.cells.iter().enumerate() {
        for (kitchen, cell) in surveyed.inquiry.kitchens.iter().zip(row) {
            let cell = cell.as_ref().ok();
            let steps = cell.into_iter().flat_map(|cell| &cell.steps);
            let routes: Vec<&str> = steps.map(|s| s.route.as_deref().unwrap_or("none")).collect();
            writer.serialize(CsvRow {
                recipe: surveyed.title(recipe),
                kitchen: &kitchen.name,
                verdict: word(cell.map(|cell| cell.verdict)),
                worst_loss_noticed_steps: cell.and_then(worst),
                samples: cell.map(|cell| cell.samples),
                routes: routes.join(" "),
            })?;
        }
    }
    Ok(writer.flush()?)
}

/// The worst loss of a cell, rounded for output.
pub(super) fn worst(cell: &Cell) -> Option<f64> {
    cell.worst.map(|worst| to_digits(worst, STEP_DIGITS))
}
