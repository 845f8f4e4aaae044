//! The head of the notes on a recipe: what the professional does, and what changes at home.

use super::adapt::achieved;
use super::document::{Block, Document, Fact, Table, Text};
use super::notes::{Writing, kitchens};
use super::shown;
use crate::advisor::{Method, Verdict};
use crate::notes::{
    Adapted, Group, Notes, StepNote, TaskNote, expect, professional as professional_steps,
};

/// Writes who made the recipe, what the professional version does, and what changes.
pub(super) fn headnote(notes: &Notes<'_>, writing: &Writing<'_>) -> Vec<Block> {
    let recipe = notes.material.recipe;
    let mut document = Document::default();
    if !recipe.author.is_empty() {
        document.paragraph(Text::new().emphasis(format!("Recipe: {}", recipe.author)));
    }
    if !recipe.note.trim().is_empty() {
        document.paragraph(writing.house.authored(recipe.note.trim()));
    }
    for step in &notes.steps {
        if let TaskNote::Professional(groups) = &step.task {
            professional(&mut document, step, groups, notes, writing);
        }
    }
    summary(&mut document, notes, writing);
    document.blocks
}

/// What the professional does in a step, and what becomes of it at home.
fn professional(
    document: &mut Document,
    step: &StepNote<'_>,
    groups: &[Group<'_>],
    notes: &Notes<'_>,
    writing: &Writing<'_>,
) {
    // A step that every kitchen can leave out has no group.
    let Some(first) = groups.first() else { return };
    let advice = first.advice();
    let known = notes.material.knowledge.techniques.get(&advice.technique);
    let achieves = known.map_or("", |technique| technique.achieves.as_str());
    document.paragraph(writing.say(format!(
        "In the professional kitchen the {} is made by {}. {achieves} {}",
        step.product,
        advice.laboratory.name,
        achieved(&advice.laboratory)
    )));
    for group in groups {
        document.paragraph(writing.say(changes(group, notes)));
    }
}

/// What changes at home, in a sentence or two.
fn changes(group: &Group<'_>, notes: &Notes<'_>) -> String {
    let places = kitchens(notes, group.kitchens.iter().map(|(index, _)| *index));
    let Some(best) = group.method().filter(|_| group.is_reached()) else {
        let closest = group.method().map_or(String::new(), |method| {
            format!(" The closest, {}, is described instead.", method.name)
        });
        return format!("At home, in {places}: no.{closest}");
    };
    let losses = expect::losses_of(group, notes.material.knowledge);
    let plainest = losses.first().filter(|loss| loss.counts).map_or(String::new(), |loss| {
        let meaning = loss.attribute.meaning(loss.comparison.home.typical());
        let meaning = meaning.map_or(String::new(), |means| format!(": {means}"));
        format!(" The plainest difference is in {}{meaning}.", loss.attribute.name)
    });
    // A second goal that is missed may be nothing that those who eat can tell.
    let told = losses.iter().any(|loss| loss.counts);
    let tells = match told || best.score.verdict == Verdict::AsWritten {
        true => verdict(best.score.verdict).to_owned(),
        false => missed(best, notes),
    };
    format!("At home, in {places}: {}. {tells}{plainest}", best.name)
}

/// Which second goals are missed.
fn missed(best: &Method, notes: &Notes<'_>) -> String {
    let goals = best.score.goals.iter().skip(1).filter(|term| !term.is_reached());
    let known = goals.filter_map(|term| notes.material.knowledge.goals.get(&term.goal));
    let names: Vec<&str> = known.map(|goal| goal.name.as_str()).collect();
    match names.is_empty() {
        true => verdict(best.score.verdict).to_owned(),
        false => {
            format!("It misses what the professional version also does: {}.", names.join("; "))
        }
    }
}

/// What a verdict means to those who eat, in a sentence.
const fn verdict(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::AsWritten => "By the computed numbers nobody would notice the difference.",
        Verdict::SmallLoss => "Side by side one can tell it from the professional version.",
        Verdict::RealLoss => "Anybody can tell it from the professional version.",
        Verdict::No => "It does not reach what the professional version does.",
    }
}

/// How much and how long: facts for one kitchen, a table for several.
fn summary(document: &mut Document, notes: &Notes<'_>, writing: &Writing<'_>) {
    let recipe = notes.material.recipe;
    if let Some(serves) = recipe.serves {
        document.facts([Fact::new("Serves", crate::quantity::significant(serves, 3))]);
    }
    let rows: Vec<[String; 5]> =
        notes.material.adapted.iter().map(|one| summary_row(one, writing)).collect();
    if let [[_, verdict, makes, time, hands_on]] = rows.as_slice() {
        let facts =
            [("At home", verdict), ("Makes", makes), ("Time", time), ("Hands-on", hands_on)];
        let told = facts.into_iter().filter(|(_, value)| !value.is_empty());
        document.facts(told.map(|(name, value)| Fact::new(name, value.as_str())));
        return;
    }
    let mut table = Table::new()
        .words("Kitchen")
        .words("At home")
        .numbers("Makes")
        .numbers("Time")
        .numbers("Hands-on");
    rows.into_iter().for_each(|row| table.push(row));
    document.table(table);
}

/// Kitchen, verdict, what it makes, time and attended time, in words.
pub(super) fn summary_row(one: &Adapted<'_>, writing: &Writing<'_>) -> [String; 5] {
    let adaptation = one.adaptation;
    let say = |text: Option<String>| text.map_or(String::new(), |text| writing.say(text));
    let makes = adaptation.makes.as_ref().map(|home| {
        let laboratory = adaptation.makes_in_laboratory.as_ref().map(shown::mass);
        let beside = laboratory.map_or(String::new(), |mass| format!(" (laboratory: {mass})"));
        format!("{}{beside}", shown::mass(home))
    });
    // Without a route to each step, nothing is made here.
    let is_open = professional_steps(one).all(|(_, advice)| !advice.routes.is_empty());
    let made = |text: Option<String>| if is_open { say(text) } else { "–".to_owned() };
    [
        one.kitchen.name.clone(),
        adaptation.verdict.words().to_owned(),
        made(makes),
        made(adaptation.time.as_ref().map(shown::time)),
        made(adaptation.attended.as_ref().map(shown::time)),
    ]
}
