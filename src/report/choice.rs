//! How the routes of a dish were chosen: in a line, as a table, and as JSON.

use serde::Serialize;

use super::document::{Document, Table};
use super::json::to_digits;
use super::shown::Range;
use crate::advisor::{BEAM_WIDTH, Choice, Combination, Verdict};
use crate::knowledge::Knowledge;
use crate::quantity::{Time, cook_time, range_text, significant};

/// So many other combinations are shown.
const SHOWN: usize = 5;
/// Significant digits in JSON.
const DIGITS: usize = 4;

/// Says in a line how the routes were chosen; nothing where there was no choice.
pub fn how(choice: &Choice) -> Option<String> {
    let Choice { combinations, tried, .. } = choice;
    match (choice.exact, choice.combinations) {
        (_, 0 | 1) => None,
        (true, _) => {
            Some(format!("chosen for the whole dish from all {combinations} combinations"))
        }
        (false, _) => Some(format!(
            "chosen for the whole dish by a bounded search: {tried} of {combinations} combinations \
             carried to the end"
        )),
    }
}

/// Says what the supplies that a dish uses up cost, in the money of the price list.
pub fn used_up(choice: &Choice) -> String {
    let cost = &choice.best.mark.cost;
    let ends = [cost.money.low(), cost.money.high()].map(|money| significant(money, 2));
    let mut text = format!("{} in the money of the price list", range_text(&ends[0], &ends[1]));
    if !cost.unpriced.is_empty() {
        text.push_str(&format!("; no price is known for {}", cost.unpriced.join(", ")));
    }
    text
}

/// Shows how the dish decided.
pub fn section(document: &mut Document, choice: &Choice, knowledge: &Knowledge) {
    document.section("How the dish decided");
    let order: Vec<&str> = match choice.prefer {
        crate::advisor::Prefer::Flavour => vec!["losses", "time", "hands-on time", "money"],
        crate::advisor::Prefer::Time => vec!["time", "losses", "hands-on time", "money"],
        crate::advisor::Prefer::Effort => vec!["hands-on time", "losses", "time", "money"],
        crate::advisor::Prefer::Cost => vec!["money", "losses", "time", "hands-on time"],
    };
    let search = if choice.exact {
        format!("All {} combinations of routes were compared", choice.combinations)
    } else {
        format!(
            "Of {} combinations of routes {} were carried to the end; at each step the best {} ways \
             went on, the one chosen step by step among them",
            choice.combinations, choice.tried, BEAM_WIDTH
        )
    };
    document.paragraph(format!(
        "{search}, on {} samples, at the amounts that their yields ask for. First come goals that \
         are reached, then the time asked for, then what is made before what is bought, then the \
         verdict; then, one after the other: {}. Losses count from the worst step down, in halves of \
         a noticed step; times within a tenth are alike.",
        choice.samples,
        order.join(", ")
    ));
    let mut table = Table::new()
        .caption("The combination chosen, and those that come next")
        .words("Routes")
        .words("Verdict")
        .words("Worst losses")
        .numbers("Time")
        .numbers("Hands-on")
        .numbers("Used up");
    let next = choice.others.iter().take(SHOWN);
    for one in std::iter::once(&choice.best).chain(next) {
        table.push(row(one, knowledge));
    }
    document.table(table);
}

fn row(one: &Combination, knowledge: &Knowledge) -> [String; 6] {
    let routes = one
        .routes
        .iter()
        .flatten()
        .map(|id| knowledge.routes.get(id).map_or(id.as_str(), |route| route.name.as_str()));
    let losses = one.mark.steps.iter().map(|step| format!("{} {:.1}", step.product, step.worst));
    let time = |seconds| cook_time(Time::from_seconds(seconds));
    [
        routes.collect::<Vec<&str>>().join(" + "),
        one.mark.verdict().words().to_owned(),
        losses.collect::<Vec<String>>().join("; "),
        time(one.mark.time),
        time(one.mark.effort),
        significant(one.mark.cost.money.typical(), 2),
    ]
}

/// How the routes were chosen.
#[derive(Debug, Serialize)]
pub struct ChoiceJson {
    /// `exact` when every combination was compared, `bounded` for a beam search.
    pub search: &'static str,
    /// Combinations of open routes.
    pub combinations: usize,
    /// Combinations carried through the whole recipe.
    pub tried: usize,
    /// Ways that a bounded search carries on from step to step.
    pub beam_width: Option<usize>,
    /// Samples on which they were compared.
    pub samples: usize,
    /// What decided among those of the same verdict.
    pub prefer: &'static str,
    /// The combination that was chosen.
    pub best: CombinationJson,
    /// Those that come next.
    pub next: Vec<CombinationJson>,
}

/// One combination.
#[derive(Debug, Serialize)]
pub struct CombinationJson {
    /// Id of the route by step; null for plain work and where none works.
    pub routes: Vec<Option<String>>,
    /// The verdict on the dish.
    pub verdict: Verdict,
    /// The worst loss by professional step, in noticed steps.
    pub worst_loss_steps: Vec<f64>,
    /// Time from start to end at the median.
    pub time_s: f64,
    /// Attended time at the median.
    pub hands_on_s: f64,
    /// What the supplies that are used up cost, in the money of the price list.
    pub used_up_money: Range,
    /// Supplies that are used up and have no price.
    pub unpriced: Vec<String>,
}

/// Makes the JSON of a choice.
pub fn json(choice: &Choice) -> ChoiceJson {
    ChoiceJson {
        search: if choice.exact { "exact" } else { "bounded" },
        combinations: choice.combinations,
        tried: choice.tried,
        beam_width: (!choice.exact).then_some(BEAM_WIDTH),
        samples: choice.samples,
        prefer: choice.prefer.word(),
        best: combination(&choice.best),
        next: choice.others.iter().take(SHOWN).map(combination).collect(),
    }
}

fn combination(one: &Combination) -> CombinationJson {
    let digits = |value| to_digits(value, DIGITS);
    CombinationJson {
        routes: one.routes.clone(),
        verdict: one.mark.verdict(),
        worst_loss_steps: one.mark.steps.iter().map(|step| digits(step.worst)).collect(),
        time_s: digits(one.mark.time),
        hands_on_s: digits(one.mark.effort),
        used_up_money: Range::si(&one.mark.cost.money),
        unpriced: one.mark.cost.unpriced.clone(),
    }
}
