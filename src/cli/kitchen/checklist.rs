//! The questions of `kitchen new` on a terminal.

use std::io;

use dialoguer::{FuzzySelect, Input, Select};
use terminal_size::terminal_size_of;

use super::new::{Draft, NewArgs, Owning};
use crate::cli::stop;
use crate::knowledge::{Appliance, Found, Knowledge};
use crate::quantity::{Dimension, Measures, parse_amount};

/// What most homes own, ticked from the start. Common practice.
const HOUSEHOLD: [&str; 16] = [
    "electric-hob",
    "oven",
    "refrigerator",
    "freezer",
    "kettle",
    "saucepan",
    "stockpot",
    "wide-pan",
    "baking-tray",
    "bowl",
    "sieve",
    "colander",
    "hand-whisk",
    "scale",
    "measuring-jug",
    "spoon-measures",
];
/// Nations whose cups and spoons are known.
const MEASURES: [&str; 4] = ["metric", "us", "uk", "australian"];

/// Something that can be ticked.
struct Tick<'a> {
    id: &'a str,
    name: &'a str,
    summary: &'a str,
    ticked: bool,
}

/// Asks for what the options left open.
///
/// # Errors
/// When the terminal cannot be read or the cook stops.
pub(super) fn ask(args: &NewArgs, draft: &mut Draft, knowledge: &Knowledge) -> anyhow::Result<()> {
    stop::leave_a_question_cleanly();
    if args.name.is_none() {
        let name: String = Input::new().with_prompt("Name of the kitchen").interact_text()?;
        draft.facts.insert(0, ("name", name));
    }
    if args.altitude.is_none() {
        let question = Input::new().with_prompt("Altitude").default("0 m".to_owned());
        let question = question.validate_with(|answer: &String| length(answer));
        draft.facts.push(("altitude", question.interact_text()?));
    }
    if args.measures.is_none() {
        let question = Select::new().with_prompt("Cups and spoons").items(MEASURES).default(0);
        draft.facts.push(("measures", MEASURES[question.interact()?].to_owned()));
    }
    if args.own.is_empty() {
        let owned = tick("Appliances", appliances(knowledge))?;
        draft.owned = owned.into_iter().map(|name| Owning { name, ..Owning::default() }).collect();
    }
    if args.supply.is_empty() {
        draft.supplies = tick("Supplies", supplies(knowledge))?;
    }
    Ok(())
}

/// Says why an answer is no length.
fn length(answer: &str) -> Result<(), String> {
    let read = parse_amount(answer, Dimension::Length, Measures::default());
    read.map(drop).map_err(|error| format!("{error}; {}", error.help()))
}

fn appliances(knowledge: &Knowledge) -> Vec<Tick<'_>> {
    let at_home = |one: &&Appliance| one.found != Found::Laboratory;
    let all = knowledge.appliances.values().filter(at_home).map(|one| Tick {
        id: &one.id,
        name: &one.name,
        summary: &one.summary,
        ticked: HOUSEHOLD.contains(&one.id.as_str()),
    });
    sorted(all)
}

/// The supplies that not every kitchen has.
fn supplies(knowledge: &Knowledge) -> Vec<Tick<'_>> {
    let all = knowledge.supplies.values().filter(|one| !one.everyday).map(|one| Tick {
        id: &one.id,
        name: &one.name,
        summary: &one.summary,
        ticked: false,
    });
    sorted(all)
}

/// What is ticked comes first, then by name.
fn sorted<'a>(ticks: impl Iterator<Item = Tick<'a>>) -> Vec<Tick<'a>> {
    let mut ticks: Vec<Tick<'_>> = ticks.collect();
    ticks.sort_by(|a, b| b.ticked.cmp(&a.ticked).then_with(|| a.name.cmp(b.name)));
    ticks
}

/// Lets the cook tick a list; typing narrows it, Enter ticks or unticks, the first line ends it.
fn tick(what: &str, mut ticks: Vec<Tick<'_>>) -> anyhow::Result<Vec<String>> {
    let mut place = 0;
    // What was ticked far down is out of sight when the list is drawn again from its top.
    let shown = terminal_size_of(io::stderr()).map_or(LINES, |(_, rows)| {
        usize::from(rows.0).saturating_sub(MARGIN).clamp(FEWEST_LINES, LINES)
    });
    loop {
        let count = ticks.iter().filter(|tick| tick.ticked).count();
        let mut lines = vec![format!("done, with {count} ticked")];
        lines.extend(ticks.iter().map(|tick| {
            let sign = if tick.ticked { 'x' } else { ' ' };
            stop::fitting(&format!("[{sign}] {}: {}", tick.name, tick.summary))
        }));
        let question = FuzzySelect::new()
            .with_prompt(stop::fitting(&format!("{what} (type, Enter ticks)")))
            .items(&lines)
            .default(if place < shown { place } else { 0 })
            .max_length(shown)
            .report(false);
        place = question.interact()?;
        match place.checked_sub(1).and_then(|index| ticks.get_mut(index)) {
            Some(tick) => tick.ticked = !tick.ticked,
            None => break,
        }
    }
    let mut ids: Vec<String> =
        ticks.iter().filter(|tick| tick.ticked).map(|tick| tick.id.to_owned()).collect();
    ids.sort();
    Ok(ids)
}

/// Lines of the list shown at once: a small terminal has 24.
const LINES: usize = 16;
/// Lines of the terminal that are left to the question and what was asked before.
const MARGIN: usize = 4;
/// The fewest lines of the list.
const FEWEST_LINES: usize = 3;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_most_homes_own_is_known_and_comes_first() {
        let knowledge = Knowledge::embedded().unwrap();
        let ticks = appliances(&knowledge);
        assert_eq!(ticks.iter().filter(|tick| tick.ticked).count(), HOUSEHOLD.len());
        assert!(ticks.iter().take(HOUSEHOLD.len()).all(|tick| tick.ticked));
    }
}
