//! The method of an adapted recipe, with what differs from kitchen to kitchen.

use super::adapt::{instead, sentence, shortfall};
use super::courses::Drawn;
use super::document::{Block, Document, Item, Text};
use super::notes::{Writing, kitchens, only_in};
use super::{heat_course, shown};
use crate::advisor::{Method, MoveAdvice};
use crate::estimate::Estimate;
use crate::notes::{Group, Notes, StepNote, TaskNote, professional};

/// Numbers of two kitchens that differ by less than this share are one: nobody cooks more exactly.
const SAME_NUMBER: f64 = 0.02;

/// Writes every step with its moves.
pub(super) fn method(notes: &Notes<'_>, writing: &Writing<'_>) -> Vec<Block> {
    let mut document = Document::default();
    for (index, step) in notes.steps.iter().enumerate() {
        document.push(writing.heading(1, format!("{}. {}", index + 1, step.product)));
        if let Some(makes) = makes(index, notes, writing) {
            document.paragraph(makes);
        }
        if !step.note.is_empty() {
            let note = format!("The author notes: {}", step.note);
            document.paragraph(Text::new().emphasis(writing.house.authored(&note)));
        }
        if !step.left_out.is_empty() {
            let places = only_in(notes, &step.left_out);
            document.paragraph(format!("Left out{places}: a later product is bought ready-made."));
            if step.left_out.len() == notes.material.adapted.len() {
                continue;
            }
        }
        match &step.task {
            TaskNote::Plain(text) => {
                document.numbered([writing.house.authored(text)]);
            }
            TaskNote::Professional(groups) => {
                for group in groups {
                    one_group(&mut document, step, group, notes, writing);
                }
                if writing.charts {
                    courses(&mut document, groups, notes, writing);
                }
            }
        }
    }
    document.blocks
}

/// How much a step makes: once where the kitchens agree, else kitchen by kitchen.
fn makes(step: usize, notes: &Notes<'_>, writing: &Writing<'_>) -> Option<String> {
    let made = notes.material.adapted.iter().map(|adapted| {
        let is_open = professional(adapted).all(|(_, advice)| !advice.routes.is_empty());
        let step = adapted.adaptation.steps.get(step).filter(|step| step.is_needed && is_open);
        step.and_then(|step| step.makes.as_ref()).map(shown::mass)
    });
    by_kitchen("Makes", &made.collect::<Vec<_>>(), notes, writing)
}

/// Writes a value once where it is the same in all kitchens, else with the kitchens named.
fn by_kitchen(
    what: &str,
    values: &[Option<String>],
    notes: &Notes<'_>,
    writing: &Writing<'_>,
) -> Option<String> {
    let mut told: Vec<(&str, Vec<usize>)> = Vec::new();
    for (index, value) in values.iter().enumerate() {
        let Some(value) = value else { continue };
        match told.iter_mut().find(|(known, _)| alike(known, value)) {
            Some((_, kitchens)) => kitchens.push(index),
            None => told.push((value, vec![index])),
        }
    }
    let parts: Vec<String> =
        told.iter().map(|(value, indices)| format!("{value}{}", only_in(notes, indices))).collect();
    (!parts.is_empty()).then(|| writing.say(format!("{what} {}.", parts.join("; "))))
}

fn one_group(
    document: &mut Document,
    step: &StepNote<'_>,
    group: &Group<'_>,
    notes: &Notes<'_>,
    writing: &Writing<'_>,
) {
    let indices: Vec<usize> = group.kitchens.iter().map(|(index, _)| *index).collect();
    let places = match indices.len() == notes.material.adapted.len() {
        true => "At home: ".to_owned(),
        false => format!("In {}: ", kitchens(notes, indices.iter().copied())),
    };
    let Some(method) = group.method() else {
        refused(document, &places, step, group, notes, writing);
        return;
    };
    if group.is_reached() {
        let name = writing.say(&method.name);
        document.push(writing.heading(2, format!("{places}{name}")));
    } else {
        refused(document, &places, step, group, notes, writing);
        document.paragraph(writing.say(format!("The closest, {}:", method.name)));
    }
    let moves = method.moves.iter().enumerate();
    let items = moves.map(|(at, one)| move_item(one, &others(at, group), notes, writing));
    document.numbered(items.collect::<Vec<Item>>());
    if let Some(takes) = takes(group, notes, writing) {
        document.paragraph(takes);
    }
}

/// Draws how the core is heated, where it is: the laboratory, then the method of every group.
fn courses(
    document: &mut Document,
    groups: &[Group<'_>],
    notes: &Notes<'_>,
    writing: &Writing<'_>,
) {
    let Some(first) = groups.first() else { return };
    let mut drawn = vec![Drawn::new("lab", &first.advice().laboratory)];
    for group in groups {
        let Some(method) = group.method() else { continue };
        let indices = group.kitchens.iter().map(|(index, _)| *index);
        let mut one = Drawn::new("home", method);
        if groups.len() > 1 {
            one.name = format!("{}, {}", one.name, kitchens(notes, indices));
        }
        drawn.push(one);
    }
    for mut chart in heat_course::charts(&drawn, notes.material.knowledge) {
        chart.finding = writing.say(&chart.finding);
        document.push(Block::Chart(chart));
    }
}

/// A plain "no", with the number that shows why and what to do instead.
fn refused(
    document: &mut Document,
    places: &str,
    step: &StepNote<'_>,
    group: &Group<'_>,
    notes: &Notes<'_>,
    writing: &Writing<'_>,
) {
    document.push(writing.heading(2, format!("{places}no")));
    let why = match group.method() {
        Some(method) => shortfall(method, notes.material.knowledge),
        None => Some(format!("No home route to the {} is open to this kitchen.", step.product)),
    };
    if let Some(why) = why {
        document.paragraph(Text::new().strong(writing.say(why)));
    }
    if let Some(instead) = instead(group.advice(), notes.material.knowledge) {
        document.paragraph(writing.say(instead));
    }
}

/// The same move in the other kitchens of the group.
fn others<'a>(at: usize, group: &Group<'a>) -> Vec<(usize, &'a MoveAdvice)> {
    let others = group.kitchens.iter().skip(1);
    let moves = others.filter_map(|(index, advice)| {
        let method: &'a Method = advice.routes.first()?;
        Some((*index, method.moves.get(at)?))
    });
    moves.collect()
}

/// One move: what to do, when to stop, what it uses up, and what is different elsewhere.
fn move_item(
    one: &MoveAdvice,
    others: &[(usize, &MoveAdvice)],
    notes: &Notes<'_>,
    writing: &Writing<'_>,
) -> Item {
    let mut item = Item::new(writing.say(&one.instruction));
    if let Some(until) = &one.until {
        item = item.under(writing.say(sentence(until)));
    }
    for (index, other) in others {
        let until = |one: &MoveAdvice| one.until.as_deref().map(sentence).unwrap_or_default();
        let told: Vec<String> = [
            difference(&one.instruction, &other.instruction),
            difference(&until(one), &until(other)),
        ]
        .into_iter()
        .flatten()
        .collect();
        if !told.is_empty() {
            let told = writing.say(told.join(". ").replace(".. ", ". "));
            let stop = if told.ends_with('.') { "" } else { "." };
            item = item.under(format!("In {}: {told}{stop}", kitchens(notes, [*index])));
        }
    }
    item
}

/// Whether two texts have the same words and nearly the same numbers.
pub(super) fn alike(first: &str, second: &str) -> bool {
    let is_digit = |sign: char| sign.is_ascii_digit() || sign == '.';
    let words = |text: &str| text.replace(is_digit, "");
    let numbers = |text: &str| -> Vec<f64> {
        let each = text.split(|sign: char| !is_digit(sign));
        each.filter_map(|number| number.trim_end_matches('.').parse().ok()).collect()
    };
    let near = |(a, b): (&f64, &f64)| (a - b).abs() <= SAME_NUMBER * a.max(*b);
    let (a, b) = (numbers(first), numbers(second));
    words(first) == words(second) && a.len() == b.len() && a.iter().zip(&b).all(near)
}

/// What the second text has that the first has not: the numbers that differ, each with its unit, when
/// the words are the same, else the whole text; nothing when they are alike.
fn difference(first: &str, second: &str) -> Option<String> {
    if alike(first, second) {
        return None;
    }
    let (a, b): (Vec<&str>, Vec<&str>) =
        (first.split_whitespace().collect(), second.split_whitespace().collect());
    let is_number = |word: &str| word.contains(|sign: char| sign.is_ascii_digit());
    let pairs = || a.iter().zip(&b).enumerate();
    let same_words =
        a.len() == b.len() && pairs().all(|(_, (a, b))| a == b || (is_number(a) && is_number(b)));
    if !same_words {
        return Some(second.to_owned());
    }
    let with_unit = |words: &[&str], at: usize| {
        let unit = words.get(at + 1).copied().unwrap_or_default();
        let text = format!("{} {unit}", words[at]);
        text.trim_end_matches(|sign: char| sign.is_whitespace() || ",.;:".contains(sign)).to_owned()
    };
    let mut told: Vec<String> = pairs()
        .filter(|(_, (a, b))| !alike(a, b))
        .map(|(at, _)| format!("{} (not {})", with_unit(&b, at), with_unit(&a, at)))
        .collect();
    told.dedup();
    Some(told.join(", "))
}

/// How long a group takes for the step, kitchen by kitchen.
fn takes(group: &Group<'_>, notes: &Notes<'_>, writing: &Writing<'_>) -> Option<String> {
    let mut told: Vec<(String, Vec<usize>)> = Vec::new();
    for (index, advice) in &group.kitchens {
        let Some(method) = advice.routes.first() else { continue };
        let attended = method.simulated.attended();
        let Some(text) = time_text(method.simulated.time(), attended) else { continue };
        match told.iter_mut().find(|(known, _)| alike(known, &text)) {
            Some((_, kitchens)) => kitchens.push(*index),
            None => told.push((text, vec![*index])),
        }
    }
    let several = told.len() > 1;
    let part = |(text, indices): &(String, Vec<usize>)| match several {
        true => format!("in {} {text}", kitchens(notes, indices.iter().copied())),
        false => text.clone(),
    };
    let parts: Vec<String> = told.iter().map(part).collect();
    (!parts.is_empty()).then(|| writing.say(format!("Takes {}.", parts.join("; "))))
}

fn time_text(time: Option<Estimate>, attended: Option<Estimate>) -> Option<String> {
    let time = shown::time(&time?);
    Some(match attended {
        Some(attended) => format!("{time}, of which hands-on {}", shown::time(&attended)),
        None => time,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_numbers_that_differ_are_named() {
        let told = difference(
            "Freeze 5.98 kg for 12–24 h at −10 °C.",
            "Freeze 4.94 kg for 12–24 h at −24 °C.",
        );
        assert_eq!(told.as_deref(), Some("4.94 kg (not 5.98 kg), −24 °C (not −10 °C)"));
        let nearly = difference("Freeze 5.98 kg at −10 °C.", "Freeze 5.94 kg at −10 °C.");
        assert_eq!(nearly, None);
    }

    #[test]
    fn other_words_are_given_in_full() {
        let told = difference("Stop after 1 h.", "Stop after 1 h 30 min.");
        assert_eq!(told.as_deref(), Some("Stop after 1 h 30 min."));
        assert_eq!(difference("Boil.", "Boil."), None);
    }
}
