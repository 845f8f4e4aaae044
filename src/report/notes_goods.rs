//! What a recipe is made of and with: ingredients in order of use, supplies, equipment.

use super::document::{Block, Document, Item, Role, Text};
use super::notes::{Writing, kitchens, only_in};
use super::notes_method::alike;
use crate::notes::equipment::Gear;
use crate::notes::ingredients::{Amount, Ingredient, supplies};
use crate::notes::{Notes, measure};
use crate::quantity::cook_mass;

/// Writes the ingredients in order of use, and what the home routes use up.
pub(super) fn ingredients(notes: &Notes<'_>, writing: &Writing<'_>) -> Vec<Block> {
    let mut document = Document::default();
    let items = notes.ingredients.iter().filter_map(|one| ingredient(one, notes, writing));
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

/// One ingredient: the amount of the first kitchen that buys it, and under it what differs. Nothing
/// where no kitchen buys it.
fn ingredient(one: &Ingredient<'_>, notes: &Notes<'_>, writing: &Writing<'_>) -> Option<Item> {
    let mut told: Vec<(String, Vec<usize>)> = Vec::new();
    for (kitchen, amount) in one.amounts.iter().enumerate() {
        let text = amount.as_ref().map_or(String::new(), |amount| bought(amount, one, writing));
        match told.iter_mut().find(|(known, _)| alike(known, &text)) {
            Some((_, kitchens)) => kitchens.push(kitchen),
            None => told.push((text, vec![kitchen])),
        }
    }
    let lead = told.iter().position(|(text, _)| !text.is_empty())?;
    let (first, _) = told.remove(lead);
    let (weight, left) = first.split_once(LEFT).unwrap_or((&first, ""));
    let name = writing.house.authored(one.name);
    let note = match one.note {
        "" => String::new(),
        note => format!(", {}", writing.house.authored(note)),
    };
    let mut item = Item::new(Text::new().strong(weight).plain(format!(" {name}{left}{note}")));
    for (text, indices) in told {
        let places = kitchens(notes, indices);
        item = item.under(match text.replace(LEFT, "") {
            text if text.is_empty() => {
                format!("In {places}: none; a later product is bought ready-made.")
            }
            text => format!("In {places}: {text}."),
        });
    }
    item = recipe_has(one, notes, writing).into_iter().fold(item, Item::under);
    if one.used_in.len() > 1 {
        let steps: Vec<String> = one.used_in.iter().map(|step| (step + 1).to_string()).collect();
        item = item.under(format!("Divided: steps {}.", steps.join(" and ")));
    }
    let avoided = one.avoided.iter().map(|(kitchen, word)| {
        let word = writing.house.authored(word);
        Text::from(format!("{} avoids {word}.", kitchens(notes, [*kitchen])))
    });
    Some(avoided.fold(item, Item::under))
}

/// Stands between the amount to buy and what is left of it after trimming.
const LEFT: char = '\u{1f}';

/// How much is bought, and after [`LEFT`] what is left after trimming.
fn bought(amount: &Amount, one: &Ingredient<'_>, writing: &Writing<'_>) -> String {
    let weight = match amount.as_written {
        true => writing.house.authored(one.written),
        false => writing.say(cook_mass(amount.mass)),
    };
    let weight = writing.house.amount(&weight, amount.home_measure.as_deref());
    match amount.trimmed {
        Some(left) => format!("{weight}{LEFT}, trimmed to {}", writing.say(cook_mass(left))),
        None => weight,
    }
}

/// What the recipe has, where a home route yields more or less so that another amount is bought.
fn recipe_has(one: &Ingredient<'_>, notes: &Notes<'_>, writing: &Writing<'_>) -> Vec<String> {
    let written = writing.house.authored(one.written);
    let mut lines = Vec::new();
    for (word, is_so) in [("less", 1.0..f64::INFINITY), ("more", 0.0..1.0)] {
        let moved = |amount: &Option<Amount>| {
            amount.as_ref().is_some_and(|amount| {
                let shown = writing.say(cook_mass(amount.mass));
                !amount.as_written && is_so.contains(&amount.factor) && shown != written
            })
        };
        let amounts = one.amounts.iter().enumerate();
        let indices: Vec<usize> =
            amounts.filter(|(_, amount)| moved(amount)).map(|(index, _)| index).collect();
        if !indices.is_empty() {
            let places = only_in(notes, &indices);
            lines.push(format!("The recipe has {written}; the home route yields {word}{places}."));
        }
    }
    lines
}

/// Supplies that go into the dish and products that are bought ready-made, each once with the
/// kitchens that use it.
fn used_up(notes: &Notes<'_>, writing: &Writing<'_>) -> Vec<Item> {
    let mut lines: Vec<((String, String), Vec<usize>)> = Vec::new();
    for supply in supplies(&notes.material) {
        let line = (
            supply.dose.as_ref().map(|dose| writing.say(dose)).unwrap_or_default(),
            format!("{}, for the {}", writing.house.authored(supply.name), supply.product),
        );
        match lines.iter_mut().find(|(known, _)| *known == line) {
            Some((_, kitchens)) => kitchens.push(supply.kitchen),
            None => lines.push((line, vec![supply.kitchen])),
        }
    }
    let each = lines.into_iter().map(|((dose, rest), kitchens)| {
        let text = match dose.is_empty() {
            true => Text::new(),
            false => Text::new().strong(dose).plain(" "),
        };
        Item::new(text.plain(rest).plain(only_in(notes, &kitchens)))
    });
    each.collect()
}

/// Writes the gear, with the kitchens that use it.
pub(super) fn equipment(notes: &Notes<'_>, writing: &Writing<'_>) -> Vec<Block> {
    let mut document = Document::default();
    let lines = notes.equipment.iter().map(|gear| Item::new(piece(gear, notes, writing)));
    document.bullets(lines.collect::<Vec<Item>>());
    document.blocks
}

/// "induction hob, 3.2 kW (in "Keen cook")", or with the numbers of each kitchen.
fn piece(gear: &Gear, notes: &Notes<'_>, writing: &Writing<'_>) -> String {
    let indices: Vec<usize> = gear.kitchens.iter().map(|(index, _)| *index).collect();
    let name = writing.house.authored(&gear.name);
    let mut told: Vec<(String, Vec<usize>)> = Vec::new();
    for (index, stated) in gear.kitchens.iter().filter(|(_, stated)| !stated.is_empty()) {
        let stated = writing.say(stated);
        match told.iter_mut().find(|(known, _)| *known == stated) {
            Some((_, kitchens)) => kitchens.push(*index),
            None => told.push((stated, vec![*index])),
        }
    }
    let places = only_in(notes, &indices);
    match told.as_slice() {
        [] => format!("{name}{places}"),
        [(stated, kitchens)] if *kitchens == indices => format!("{name}, {stated}{places}"),
        told => {
            let part = |(stated, indices): &(String, Vec<usize>)| {
                format!("{stated} in {}", kitchens(notes, indices.iter().copied()))
            };
            let stated: Vec<String> = told.iter().map(part).collect();
            format!("{name}{places}: {}", stated.join("; "))
        }
    }
}
