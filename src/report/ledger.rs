//! Where the mass of a recipe goes: in a line, as a table, and as JSON.

use serde::Serialize;

use super::document::{Document, Table};
use super::json::to_digits;
use super::shown::{self, Range};
use crate::advisor::{Ledger, Line};
use crate::quantity::{Mass, cook_mass};

/// Less than this is not worth a word \[kg\].
const LEAST: f64 = 0.0005;
/// Significant digits of the largest gap in JSON.
const GAP_DIGITS: usize = 2;

/// Says where the mass goes, by the medians.
pub fn line(document: &mut Document, ledger: &Ledger) {
    let side = |comes_in: bool| {
        let lines = ledger
            .lines
            .iter()
            .filter(|(line, mass)| line.comes_in() == comes_in && mass.typical() >= LEAST);
        let each = lines.map(|(line, mass)| {
            format!("{} {}", cook_mass(Mass::from_kilograms(mass.typical())), line.words())
        });
        each.collect::<Vec<String>>().join(", ")
    };
    document.paragraph(format!("Where it goes: of {} are {}.", side(true), side(false)));
}

/// Shows every line with its range.
pub fn table(document: &mut Document, ledger: &Ledger) {
    let gap = shown::number(ledger.gap * 1000.0);
    let mut table = Table::new()
        .caption(format!(
            "Where the mass goes; in every sample the two sides differ by {gap} g at most"
        ))
        .words("Mass")
        .numbers("In")
        .numbers("Out");
    for (line, mass) in ledger.lines.iter().filter(|(_, mass)| mass.high() >= LEAST) {
        let text = shown::mass(mass);
        let (comes, goes) =
            if line.comes_in() { (text, String::new()) } else { (String::new(), text) };
        table.push([line.words().to_owned(), comes, goes]);
    }
    document.table(table);
}

/// Where the mass goes.
#[derive(Debug, Serialize)]
pub struct LedgerJson {
    bought_kg: Range,
    added_kg: Range,
    ready_made_kg: Range,
    received_kg: Range,
    eaten_kg: Range,
    kept_kg: Range,
    trimmed_kg: Range,
    evaporated_kg: Range,
    left_on_gear_kg: Range,
    poured_away_kg: Range,
    stated_losses_kg: Range,
    replaced_kg: Range,
    handed_over_kg: Range,
    /// The largest difference of any sample between what comes in and what goes out.
    largest_gap_kg: f64,
}

/// Makes the JSON of a ledger; none when a line is missing.
pub fn json(ledger: &Ledger) -> Option<LedgerJson> {
    let of = |line| ledger.line(line).map(Range::si);
    Some(LedgerJson {
        bought_kg: of(Line::Bought)?,
        added_kg: of(Line::Added)?,
        ready_made_kg: of(Line::ReadyMade)?,
        received_kg: of(Line::Received)?,
        eaten_kg: of(Line::Eaten)?,
        kept_kg: of(Line::Kept)?,
        trimmed_kg: of(Line::Trimmed)?,
        evaporated_kg: of(Line::Evaporated)?,
        left_on_gear_kg: of(Line::LeftOnGear)?,
        poured_away_kg: of(Line::PouredAway)?,
        stated_losses_kg: of(Line::Stated)?,
        replaced_kg: of(Line::Replaced)?,
        handed_over_kg: of(Line::HandedOver)?,
        largest_gap_kg: to_digits(ledger.gap, GAP_DIGITS),
    })
}
