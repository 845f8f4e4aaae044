//! What is lost at home and what to expect, in plain words with ranges.

use super::document::{Block, Document, Item, Table, Text};
use super::notes::{Writing, kitchens};
use super::{Figure, quality, shown};
use crate::advisor::Method;
use crate::estimate::Estimate;
use crate::knowledge::Attribute;
use crate::notes::{Group, Notes, StepNote, TaskNote, expect};
use crate::quantity::{range_text, significant};

/// Significant digits of a rounded result.
const DIGITS: u32 = 4;
/// Of a range whose lower end is less than this share of the upper, only the upper end says anything.
const FAINT: f64 = 0.02;

/// The attribute of time.
const TIME_TAKEN: &str = "time-taken";
/// Attributes that are counted as minutes at 100 °C.
const AT_THE_BOIL: [&str; 2] = ["cooked-flavour", "browning"];

/// Writes what is lost in each professional step.
pub(super) fn expect(notes: &Notes<'_>, writing: &Writing<'_>) -> Vec<Block> {
    let mut document = Document::default();
    let several = notes.steps.iter().filter(|step| is_professional(step)).count() > 1;
    for step in &notes.steps {
        let TaskNote::Professional(groups) = &step.task else { continue };
        if several {
            document.push(writing.heading(1, step.product));
        }
        for group in groups {
            in_words(&mut document, group, notes, writing);
        }
        document.blocks.extend(side_by_side(groups, notes, writing));
    }
    document.blocks
}

fn is_professional(step: &StepNote<'_>) -> bool {
    matches!(step.task, TaskNote::Professional(_))
}

/// The losses that a person notices, and what is stated rather than computed.
fn in_words(document: &mut Document, group: &Group<'_>, notes: &Notes<'_>, writing: &Writing<'_>) {
    let Some(method) = group.method() else { return };
    let places = kitchens(notes, group.kitchens.iter().map(|(index, _)| *index));
    let mut losses = expect::losses_of(group, notes.material.knowledge);
    // How long it takes stands with the method.
    losses.retain(|loss| loss.attribute.id != TIME_TAKEN);
    let lead = match losses.is_empty() {
        true => format!("In {places}: no loss that a person notices was computed."),
        false => format!("In {places}, computed:"),
    };
    document.paragraph(lead);
    let said = losses.iter().map(|loss| Item::new(writing.say(sentence(loss, group, notes))));
    document.bullets(said);
    let mut stated: Vec<Item> = Vec::new();
    if expect::loses_something(method) {
        stated.push(Item::new(format!("Stated, not computed: {}.", method.loses.join("; "))));
    }
    if method.bought {
        stated.push(Item::new("Bought ready-made: its quality is stated, not computed."));
    }
    if !method.fails.is_empty() {
        stated.push(Item::new(format!("Does not suit: {}.", method.fails.join("; "))));
    }
    let said = |item: Item| Item::new(writing.say(item.text.words()));
    document.bullets(stated.into_iter().map(said).collect::<Vec<Item>>());
}

/// "cooked flavour, noticed by anybody: long-cooked, towards caramel; 40 (24–54) min at home, 0 min in
/// the laboratory", with the results of each kitchen that takes the route.
fn sentence(loss: &expect::Loss<'_>, group: &Group<'_>, notes: &Notes<'_>) -> String {
    let attribute = loss.attribute;
    let homes: Vec<(usize, &Estimate)> = group
        .kitchens
        .iter()
        .map(|(kitchen, advice)| {
            let best = advice.routes.first();
            let all = best.map_or(&[][..], |best| best.score.comparisons.as_slice());
            let own = all.iter().find(|one| one.attribute == attribute.id);
            (*kitchen, &own.unwrap_or(loss.comparison).home)
        })
        .collect();
    let means = |home: &Estimate| attribute.meaning(home.typical());
    let shared = homes.first().and_then(|(_, home)| means(home));
    let shared = shared.filter(|one| homes.iter().all(|(_, home)| means(home) == Some(one)));
    let mut told: Vec<(String, Vec<usize>)> = Vec::new();
    for (kitchen, home) in homes {
        let own = means(home).filter(|_| shared.is_none());
        let own = own.map_or(String::new(), |means| format!("{means}; "));
        let text = format!("{own}{}", result(home, attribute));
        match told.iter_mut().find(|(known, _)| *known == text) {
            Some((_, kitchens)) => kitchens.push(kitchen),
            None => told.push((text, vec![kitchen])),
        }
    }
    let shared = shared.map_or(String::new(), |means| format!("{means}; "));
    let at_home = match told.as_slice() {
        [(text, _)] => format!("{shared}{text} at home"),
        told => {
            let part = |(text, indices): &(String, Vec<usize>)| {
                format!("{text} in {}", kitchens(notes, indices.iter().copied()))
            };
            shared + &told.iter().map(part).collect::<Vec<String>>().join("; ")
        }
    };
    let laboratory = typical(&loss.comparison.laboratory, attribute);
    let (noticed, counts) = match loss.counts {
        true => (format!(", {}", loss.plainness.words()), ""),
        false => (String::new(), " The dish does not count on it."),
    };
    format!("{}{noticed}: {at_home}, {laboratory} in the laboratory.{counts}", attribute.name)
}

/// Laboratory and the kitchens side by side.
fn side_by_side(groups: &[Group<'_>], notes: &Notes<'_>, writing: &Writing<'_>) -> Vec<Block> {
    let methods: Vec<(String, &Method)> = groups
        .iter()
        .flat_map(|group| &group.kitchens)
        .filter_map(|(index, advice)| {
            let name = notes.material.adapted[*index].kitchen.name.clone();
            Some((name, advice.routes.first()?))
        })
        .collect();
    let Some((_, first)) = methods.first() else { return Vec::new() };
    let mut table = Table::new()
        .caption("Laboratory and home side by side (computed; range in brackets)")
        .words("What")
        .numbers("Laboratory");
    for (name, _) in &methods {
        table = table.numbers(name.as_str());
    }
    for comparison in &first.score.comparisons {
        let known = notes.material.knowledge.attributes.get(&comparison.attribute);
        let Some(attribute) = known else { continue };
        let home = |(_, method): &(String, &Method)| {
            let all = &method.score.comparisons;
            let own = all.iter().find(|one| one.attribute == comparison.attribute);
            own.map_or_else(|| "–".to_owned(), |own| result(&own.home, attribute))
        };
        let start = [attribute.name.clone(), typical(&comparison.laboratory, attribute)];
        let cells = start.into_iter().chain(methods.iter().map(home));
        table.push(cells.map(|cell| Text::from(writing.say(cell))));
    }
    let mut document = Document::default();
    document.table(table);
    if first.score.comparisons.iter().any(|one| AT_THE_BOIL.contains(&one.attribute.as_str())) {
        document.note(writing.say(
            "Minutes of cooked flavour and of browning are those at 100 °C that would do as much.",
        ));
    }
    if writing.charts {
        let mut chart = quality::bars(first, notes.material.knowledge);
        chart.finding = writing.say(&chart.finding);
        if let Figure::Bars(bars) = &mut chart.figure {
            bars.groups.iter_mut().for_each(|group| group.name = writing.say(&group.name));
        }
        document.push(Block::Chart(chart));
    }
    document.blocks
}

/// Writes a result no finer than a person can tell it: "40 (24–54) min", "under 1 %".
pub(super) fn result(estimate: &Estimate, attribute: &Attribute) -> String {
    let Some([low, typical, high]) = expect::rounded(estimate, attribute) else {
        if estimate.low() < FAINT * estimate.high() && estimate.high() > 0.0 {
            let most = significant(attribute.unit.from_si(estimate.high()), 1);
            return format!("up to {most} {}", attribute.unit.symbol).trim_end().to_owned();
        }
        return shown::range(estimate, attribute);
    };
    let number = |value| significant(value, DIGITS);
    let symbol = attribute.unit.symbol;
    let text = match (number(low), number(typical), number(high)) {
        (low, middle, high) if low == middle && middle == high => {
            match is_trace(estimate, typical, attribute) {
                true => format!("under {}", number(expect::grain(attribute).unwrap_or(typical))),
                false => middle,
            }
        }
        (low, middle, high) => format!("{middle} ({})", range_text(&low, &high)),
    };
    format!("{text} {symbol}").trim_end().to_owned()
}

/// Writes the median of a result no finer than a person can tell it.
pub(super) fn typical(estimate: &Estimate, attribute: &Attribute) -> String {
    match expect::rounded(estimate, attribute) {
        Some([_, typical, _]) if is_trace(estimate, typical, attribute) => {
            let least = significant(expect::grain(attribute).unwrap_or(typical), DIGITS);
            format!("under {least} {}", attribute.unit.symbol).trim_end().to_owned()
        }
        Some([_, typical, _]) => {
            let number = significant(typical, DIGITS);
            format!("{number} {}", attribute.unit.symbol).trim_end().to_owned()
        }
        None => shown::value(estimate.typical(), &attribute.unit),
    }
}

/// Whether a result that rounds to nothing is more than nothing; a temperature of zero is not nothing.
fn is_trace(estimate: &Estimate, rounded: f64, attribute: &Attribute) -> bool {
    let is_zero = |value: f64| value.abs() < f64::MIN_POSITIVE;
    is_zero(attribute.unit.offset) && is_zero(rounded) && !is_zero(estimate.high())
}
