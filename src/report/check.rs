//! What can be made in a kitchen, as a document and as JSON.

use std::collections::BTreeMap;

use serde::Serialize;

use super::adapt::closed;
use super::document::{Document, Fact, Item, Table, Text};
use super::json::to_digits;
use super::shown;
use crate::advisor::check::{Buyer, Checked, Remedy, StepOutlook};
use crate::advisor::{Verdict, avoided};
use crate::recipe::Recipe;

/// Significant digits of a loss in noticed steps.
const STEP_DIGITS: usize = 3;
/// How many of the closest routes are told of a step that cannot be made.
const CLOSEST: usize = 2;

/// One recipe.
#[derive(Debug)]
pub struct Row<'a> {
    /// The recipe.
    pub recipe: &'a Recipe,
    /// Its file.
    pub file: String,
    /// What becomes of it, or why it cannot be simulated.
    pub checked: Result<Checked, String>,
    /// What to get for it.
    pub remedy: Option<Remedy>,
}

impl Row<'_> {
    /// Returns the verdict; `None` when the recipe cannot be simulated.
    pub fn verdict(&self) -> Option<Verdict> {
        self.checked.as_ref().ok().map(|checked| checked.now.verdict)
    }
}

/// What was checked.
#[derive(Debug)]
pub struct Checking<'a> {
    /// The recipes.
    pub rows: &'a [Row<'a>],
    /// The kitchen and what it could buy.
    pub buyer: &'a Buyer<'a>,
    /// Whether to group by what to get.
    pub missing: bool,
}

/// Writes what can be made.
pub fn document(checking: &Checking<'_>) -> Document {
    let kitchen = &checking.buyer.kitchen.name;
    let mut document = Document::new(format!("What can be made in the kitchen \"{kitchen}\""));
    document.facts(tally(checking.rows.iter().map(Row::verdict)));
    let mut table = Table::new().words("Recipe").words("Verdict").words("Get").words("Then");
    for row in checking.rows {
        let (get, then) = match &row.remedy {
            Some(remedy) => (names(remedy, checking.buyer), remedy.after.words()),
            None => (String::new(), ""),
        };
        table.push([row.recipe.title.clone(), word(row.verdict()).to_owned(), get, then.into()]);
    }
    document.table(table);
    for row in checking.rows {
        avoided_in(&mut document, row, checking.buyer);
    }
    if checking.missing {
        groups(&mut document, checking);
    }
    for row in checking.rows {
        reasons(&mut document, row, checking);
    }
    document
}

/// Says where a recipe holds what the eaters of the kitchen avoid.
fn avoided_in(document: &mut Document, row: &Row<'_>, buyer: &Buyer<'_>) {
    let held = avoided(row.recipe, buyer.kitchen, buyer.knowledge);
    if !held.is_empty() {
        let (title, named) = (&row.recipe.title, shown::avoided(&held));
        document
            .paragraph(format!("Not for all: this kitchen avoids what is in {title}: {named}."));
    }
}

/// The verdict in words, also for what cannot be simulated.
pub(super) fn word(verdict: Option<Verdict>) -> &'static str {
    match verdict {
        Some(Verdict::No) => "no",
        Some(verdict) => verdict.words(),
        None => "not computed",
    }
}

/// How many recipes come to each verdict.
pub(super) fn tally(verdicts: impl Iterator<Item = Option<Verdict>>) -> Vec<Fact> {
    let mut counts = BTreeMap::<Option<Verdict>, usize>::new();
    for verdict in verdicts {
        *counts.entry(verdict).or_default() += 1;
    }
    let some = [Verdict::AsWritten, Verdict::SmallLoss, Verdict::RealLoss, Verdict::No].map(Some);
    let all = some.into_iter().chain([None]);
    let counted = all.filter_map(|verdict| Some((verdict, *counts.get(&verdict)?)));
    counted
        .map(|(verdict, count)| {
            let mut name = word(verdict).to_owned();
            name[..1].make_ascii_uppercase();
            Fact::new(name, count.to_string())
        })
        .collect()
}

fn names(remedy: &Remedy, buyer: &Buyer<'_>) -> String {
    let things = remedy.things.iter().filter_map(|thing| buyer.shop.things.get(*thing));
    things.map(|thing| thing.name.as_str()).collect::<Vec<_>>().join(" and ")
}

/// The recipes by what to get for them, what opens most first.
fn grouped<'a>(checking: &'a Checking<'_>) -> Vec<(&'a [usize], Vec<&'a Row<'a>>)> {
    let mut groups = BTreeMap::<&[usize], Vec<&Row<'_>>>::new();
    for row in checking.rows {
        if let Some(remedy) = &row.remedy {
            groups.entry(&remedy.things).or_default().push(row);
        }
    }
    let mut groups: Vec<_> = groups.into_iter().collect();
    groups.sort_by_key(|(things, rows)| (std::cmp::Reverse(rows.len()), things.len()));
    groups
}

fn groups(document: &mut Document, checking: &Checking<'_>) {
    document.section("What to get");
    let mut table = Table::new().words("Get").words("Makes possible").words("Makes better");
    for (_, rows) in grouped(checking) {
        let titles = |possible: bool| {
            let rows = rows.iter().filter(|row| (row.verdict() == Some(Verdict::No)) == possible);
            rows.map(|row| row.recipe.title.as_str()).collect::<Vec<_>>().join("; ")
        };
        let get = rows.first().and_then(|row| row.remedy.as_ref());
        let get = get.map_or_else(String::new, |remedy| names(remedy, checking.buyer));
        table.push([get, titles(true), titles(false)]);
    }
    if table.rows.is_empty() {
        document.paragraph("Nothing on offer would make more of these recipes.");
        return;
    }
    document.table(table);
    document.paragraph(
        "Each recipe stands beside the fewest things that make it possible, or better when it is \
         possible already.",
    );
}

/// Why a recipe cannot be made: for each step that fails, the closest routes.
fn reasons(document: &mut Document, row: &Row<'_>, checking: &Checking<'_>) {
    let checked = match &row.checked {
        Ok(checked) if checked.now.verdict == Verdict::No => checked,
        Ok(_) => return,
        Err(fault) => {
            document.section(format!("Why {} is not computed", row.recipe.title));
            document.paragraph(fault.clone());
            return;
        }
    };
    document.section(format!("Why not: {}", row.recipe.title));
    for step in checked.now.steps.iter().filter(|step| step.verdict() == Verdict::No) {
        document.paragraph(fails(step, checking));
        document.bullets(closest(step).into_iter().map(|route| Item::new(closed(route))));
    }
}

fn fails(step: &StepOutlook, checking: &Checking<'_>) -> Text {
    let knowledge = checking.buyer.knowledge;
    let technique = knowledge.techniques.get(&step.technique);
    let name = technique.map_or(step.technique.as_str(), |technique| technique.name.as_str());
    let why = match step.best() {
        Some(best) => {
            let route = knowledge.routes.get(&best.route);
            let route = route.map_or(best.route.as_str(), |route| route.name.as_str());
            let short = super::shown::number(best.short);
            format!("no open route reaches the goal; {route} falls {short} noticed steps short")
        }
        None => "no route is open".to_owned(),
    };
    let buy = technique.and_then(|technique| technique.buy.as_ref());
    let buy = buy.map_or_else(String::new, |buy| format!(" Instead: {buy}."));
    Text::new().strong(step.product.clone()).plain(format!(" ({name}): {why}.{buy}"))
}

/// The closed routes that lack least.
fn closest(step: &StepOutlook) -> Vec<&crate::advisor::RuledOut> {
    let mut lacking: Vec<_> =
        step.closed.iter().filter(|route| !route.missing.is_empty()).collect();
    lacking.sort_by_key(|route| route.missing.len());
    lacking.truncate(CLOSEST);
    lacking
}

/// What was checked, in JSON.
#[derive(Debug, Serialize)]
pub struct CheckingJson<'a> {
    kitchen: &'a str,
    recipes: Vec<RowJson<'a>>,
    get: Vec<GroupJson<'a>>,
}

/// One recipe.
#[derive(Debug, Serialize)]
struct RowJson<'a> {
    recipe: &'a str,
    file: &'a str,
    verdict: Option<Verdict>,
    fault: Option<&'a str>,
    worst_loss_noticed_steps: Option<f64>,
    samples: Option<usize>,
    avoided: Vec<&'a str>,
    steps: Vec<StepJson<'a>>,
    get: Option<RemedyJson<'a>>,
}

/// One professional step.
#[derive(Debug, Serialize)]
struct StepJson<'a> {
    product: &'a str,
    technique: &'a str,
    goal: &'a str,
    route: Option<&'a str>,
    verdict: Verdict,
}

/// What to get for a recipe.
#[derive(Debug, Serialize)]
struct RemedyJson<'a> {
    things: Vec<&'a str>,
    then: Verdict,
}

/// What to get, and which recipes gain.
#[derive(Debug, Serialize)]
struct GroupJson<'a> {
    things: Vec<&'a str>,
    makes_possible: Vec<&'a str>,
    makes_better: Vec<&'a str>,
}

/// Writes what was checked.
pub fn json<'a>(checking: &'a Checking<'_>) -> CheckingJson<'a> {
    let group = |(things, rows): (&'a [usize], Vec<&'a Row<'a>>)| {
        let (possible, better): (Vec<_>, Vec<_>) =
            rows.into_iter().partition(|row| row.verdict() == Some(Verdict::No));
        let titles = |rows: Vec<&'a Row<'a>>| {
            rows.into_iter().map(|row| row.recipe.title.as_str()).collect::<Vec<&str>>()
        };
        GroupJson {
            things: ids(things, checking.buyer),
            makes_possible: titles(possible),
            makes_better: titles(better),
        }
    };
    CheckingJson {
        kitchen: &checking.buyer.kitchen.name,
        recipes: checking.rows.iter().map(|row| row_json(row, checking.buyer)).collect(),
        get: grouped(checking).into_iter().map(group).collect(),
    }
}

fn row_json<'a>(row: &'a Row<'_>, buyer: &'a Buyer<'_>) -> RowJson<'a> {
    let checked = row.checked.as_ref().ok();
    let steps = checked.into_iter().flat_map(|checked| &checked.now.steps);
    let worst = checked.and_then(|checked| checked.now.worst());
    RowJson {
        recipe: &row.recipe.title,
        file: &row.file,
        verdict: row.verdict(),
        fault: row.checked.as_ref().err().map(String::as_str),
        worst_loss_noticed_steps: worst.map(|worst| to_digits(worst, STEP_DIGITS)),
        samples: checked.map(|checked| checked.samples),
        avoided: avoided(row.recipe, buyer.kitchen, buyer.knowledge)
            .into_iter()
            .map(|(_, word)| word)
            .collect(),
        steps: steps.map(step_json).collect(),
        get: row
            .remedy
            .as_ref()
            .map(|remedy| RemedyJson { things: ids(&remedy.things, buyer), then: remedy.after }),
    }
}

fn step_json(step: &StepOutlook) -> StepJson<'_> {
    StepJson {
        product: &step.product,
        technique: &step.technique,
        goal: &step.goal,
        route: step.best().map(|best| best.route.as_str()),
        verdict: step.verdict(),
    }
}

fn ids<'a>(things: &[usize], buyer: &'a Buyer<'_>) -> Vec<&'a str> {
    let known = things.iter().filter_map(|thing| buyer.shop.things.get(*thing));
    known.map(|thing| thing.id.as_str()).collect()
}
