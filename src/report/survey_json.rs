//! A survey of a book as JSON.

use serde::Serialize;

use super::survey::{Surveyed, Unreached, worst};
use crate::advisor::Verdict;
use crate::advisor::survey::{Cell, Purchase, Purchases};

/// A survey in JSON.
#[derive(Debug, Serialize)]
pub struct SurveyJson<'a> {
    cells: Vec<CellJson<'a>>,
    unreached_goals: Vec<Unreached>,
    purchases: Vec<PurchasesJson<'a>>,
}

/// What becomes of a recipe in a kitchen.
#[derive(Debug, Serialize)]
struct CellJson<'a> {
    recipe: &'a str,
    kitchen: &'a str,
    verdict: Option<Verdict>,
    fault: Option<String>,
    worst_loss_noticed_steps: Option<f64>,
    samples: Option<usize>,
    steps: Vec<StepJson<'a>>,
}

/// What becomes of a professional step.
#[derive(Debug, Serialize)]
struct StepJson<'a> {
    technique: &'a str,
    route: Option<&'a str>,
    verdict: Verdict,
}

/// What a kitchen had best buy.
#[derive(Debug, Serialize)]
struct PurchasesJson<'a> {
    kitchen: &'a str,
    single: PurchaseJson<'a>,
    set: PurchaseJson<'a>,
    alone: Vec<AloneJson<'a>>,
}

/// Things to buy and what they bring.
#[derive(Debug, Serialize)]
struct PurchaseJson<'a> {
    things: Vec<&'a str>,
    foreseen_gain: u32,
    gains: Vec<GainJson<'a>>,
}

/// A recipe that gains.
#[derive(Debug, Serialize)]
struct GainJson<'a> {
    recipe: &'a str,
    before: Verdict,
    after: Verdict,
}

/// A thing and what it gains alone.
#[derive(Debug, Serialize)]
struct AloneJson<'a> {
    thing: &'a str,
    price: Option<f64>,
    foreseen_gain: u32,
}

/// Writes a survey in JSON.
pub fn json<'a>(surveyed: &Surveyed<'a>) -> SurveyJson<'a> {
    let rows = surveyed.survey.cells.iter().enumerate();
    let cells = rows.flat_map(|(recipe, row)| {
        let each = surveyed.inquiry.kitchens.iter().zip(row);
        each.map(move |(kitchen, cell)| cell_json(surveyed.title(recipe), &kitchen.name, cell))
    });
    let purchases = surveyed.inquiry.kitchens.iter().zip(&surveyed.survey.purchases);
    SurveyJson {
        cells: cells.collect(),
        unreached_goals: surveyed.unreached(),
        purchases: purchases
            .map(|(kitchen, one)| PurchasesJson {
                kitchen: &kitchen.name,
                single: purchase_json(&one.single, one, surveyed),
                set: purchase_json(&one.set, one, surveyed),
                alone: alone_json(one),
            })
            .collect(),
    }
}

fn cell_json<'a>(
    recipe: &'a str,
    kitchen: &'a str,
    cell: &'a Result<Cell, crate::advisor::AdaptError>,
) -> CellJson<'a> {
    let known = cell.as_ref().ok();
    let steps = known.into_iter().flat_map(|cell| &cell.steps).map(|step| StepJson {
        technique: &step.technique,
        route: step.route.as_deref(),
        verdict: step.verdict,
    });
    CellJson {
        recipe,
        kitchen,
        verdict: known.map(|cell| cell.verdict),
        fault: cell.as_ref().err().map(ToString::to_string),
        worst_loss_noticed_steps: known.and_then(worst),
        samples: known.map(|cell| cell.samples),
        steps: steps.collect(),
    }
}

fn purchase_json<'a>(
    purchase: &Purchase,
    purchases: &'a Purchases,
    surveyed: &Surveyed<'a>,
) -> PurchaseJson<'a> {
    let things = purchase.choice.things.iter();
    let gains = purchase.gains.iter().map(|gain| GainJson {
        recipe: surveyed.title(gain.recipe),
        before: gain.before,
        after: gain.after,
    });
    PurchaseJson {
        things: things.filter_map(|t| purchases.shop.things.get(*t)).map(|t| &*t.id).collect(),
        foreseen_gain: purchase.choice.gain,
        gains: gains.collect(),
    }
}

/// The things that gain something alone, what gains most first.
fn alone_json(purchases: &Purchases) -> Vec<AloneJson<'_>> {
    let things = purchases.shop.things.iter().zip(&purchases.alone);
    let mut alone: Vec<AloneJson<'_>> = things
        .filter(|(_, gain)| **gain > 0)
        .map(|(thing, gain)| AloneJson {
            thing: &thing.id,
            price: thing.price,
            foreseen_gain: *gain,
        })
        .collect();
    alone.sort_by_key(|one| std::cmp::Reverse(one.foreseen_gain));
    alone
}
