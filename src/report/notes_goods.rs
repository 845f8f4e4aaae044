//! What a recipe is made of and with: ingredients in order of use, supplies, equipment.

use super::document::{Block, Document, Item, Role, Text};
use super::notes::{Writing, kitchens, only_in};
use crate::notes::ingredients::{Amount, Ingredient, supplies};
use crate::notes::{Notes, measure};
use crate::quantity::cook_mass;

/// Writes the ingredients in order of use, and what the home routes use up.
pub(super) fn ingredients(notes: &Notes<'_>, writing: &Writing<'_>) -> Vec<Block> {
    let mut document = Document::default();
    let items = notes.ingredients.iter().map(|one| ingredient(one, notes, writing));
    document.entries(Role::Ingredient, items.collect::<Vec<Item>>());
    document.entries(Role::Ingredient, used_up(notes, writing));
    document.note(writing.say(format!("{} {}", measure::RULES, cups(notes))));
    document.blocks
}

/// Says how large a cup and a tablespoon are, kitchen by kitchen where they differ.
fn cups(notes: &Notes<'_>) -> String {
    let mut told: Vec<(String, Vec<usize>)> = Vec::new();
    for (index, adapted) in notes.material.adapted.iter().enumerate() {
        let sizes = measure::sizes(adapted.kitchen.measures);
        match told.iter_mut().find(|(known, _)| *known == sizes) {
            Some((_, kitchens)) => kitchens.push(index),
            None => told.push((sizes, vec![index])),
        }
    }
    let part =
        |(sizes, indices): &(String, Vec<usize>)| format!("{sizes}{}.", only_in(notes, indices));
    told.iter().map(part).collect::<Vec<_>>().join(" ")
}

fn ingredient(one: &Ingredient<'_>, notes: &Notes<'_>, writing: &Writing<'_>) -> Item {
    let amount = |amount: &Amount| {
        let weight = match amount.as_written {
            true => writing.house.authored(one.written),
            false => writing.say(cook_mass(amount.mass)),
        };
        writing.house.amount(&weight, amount.home_measure.as_deref())
    };
    let trimmed = |amount: &Amount| match amount.trimmed {
        Some(left) => format!(", trimmed to {}", writing.say(cook_mass(left))),
        None => String::new(),
    };
    let first = one.amounts.first().map(amount).unwrap_or_default();
    let left = one.amounts.first().map(trimmed).unwrap_or_default();
    let name = writing.house.authored(one.name);
    let note = if one.note.is_empty() { String::new() } else { format!(", {}", one.note) };
    let mut item =
        Item::new(Text::new().strong(first.clone()).plain(format!(" {name}{left}{note}")));
    for (index, other) in one.amounts.iter().enumerate().skip(1) {
        let other = amount(other);
        if other != first {
            let left = one.amounts.get(index).map(trimmed).unwrap_or_default();
            item = item.under(format!("In {}: {other}{left}.", kitchens(notes, [index])));
        }
    }
    if one.amounts.iter().any(|amount| !amount.as_written) {
        let written = writing.house.authored(one.written);
        item = item.under(format!("The recipe has {written}; the home yield is not the same."));
    }
    if one.used_in.len() > 1 {
        let steps: Vec<String> = one.used_in.iter().map(|step| (step + 1).to_string()).collect();
        item = item.under(format!("Divided: steps {}.", steps.join(" and ")));
    }
    for (kitchen, word) in &one.avoided {
        item = item.under(format!("{} avoids {word}.", kitchens(notes, [*kitchen])));
    }
    item
}

/// Supplies that a home route uses up, each once with the kitchens that use it.
fn used_up(notes: &Notes<'_>, writing: &Writing<'_>) -> Vec<Item> {
    let mut lines: Vec<((String, String), Vec<usize>)> = Vec::new();
    for supply in supplies(&notes.material) {
        let line = (
            writing.say(supply.dose),
            format!(" {}, for the {}", writing.house.authored(supply.name), supply.product),
        );
        match lines.iter_mut().find(|(known, _)| *known == line) {
            Some((_, kitchens)) => kitchens.push(supply.kitchen),
            None => lines.push((line, vec![supply.kitchen])),
        }
    }
    let each = lines.into_iter().map(|((dose, rest), kitchens)| {
        Item::new(Text::new().strong(dose).plain(rest).plain(only_in(notes, &kitchens)))
    });
    each.collect()
}

/// Writes the gear, with the kitchens that use it.
pub(super) fn equipment(notes: &Notes<'_>, writing: &Writing<'_>) -> Vec<Block> {
    let mut document = Document::default();
    let lines = notes.equipment.iter().map(|gear| {
        let indices: Vec<usize> = gear.kitchens.iter().map(|(index, _)| *index).collect();
        let name = writing.house.authored(&gear.name);
        let stated: Vec<String> = gear
            .kitchens
            .iter()
            .filter(|(_, stated)| !stated.is_empty())
            .map(|(index, stated)| match notes.material.adapted.len() {
                1 => writing.say(stated),
                _ => format!("{} in {}", writing.say(stated), kitchens(notes, [*index])),
            })
            .collect();
        let stated =
            if stated.is_empty() { String::new() } else { format!(": {}", stated.join("; ")) };
        Item::new(format!("{name}{}{stated}", only_in(notes, &indices)))
    });
    document.bullets(lines.collect::<Vec<Item>>());
    document.blocks
}
