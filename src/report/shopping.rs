//! What to buy for an adapted recipe, how much it makes, and where it goes.

use super::adapt::Setting;
use super::document::{Document, Table};
use super::shown;
use crate::advisor::{Adaptation, AdaptedStep, Advice, Method, supplies_used};
use crate::quantity::{cook_mass, significant};

/// A home amount that differs from the recipe's by less than this share is the recipe's.
const SAME_AMOUNT: f64 = 0.02;
/// Significant digits of how much more or less is bought.
const FACTOR_DIGITS: u32 = 3;
/// A dish is as large as in the recipe within this share.
const SAME_SIZE: f64 = 0.001;

/// Lists what to buy, and where the mass of it goes.
pub fn section(document: &mut Document, adaptation: &Adaptation, setting: &Setting<'_>) {
    document.section("Buy");
    let mut table =
        Table::new().words("Ingredient").numbers("At home").numbers("In the recipe").words("Note");
    let ingredients = adaptation.ingredients.iter().zip(&setting.recipe.ingredients);
    for (bought, stated) in ingredients.filter(|(bought, _)| bought.is_needed()) {
        let mut notes = Vec::new();
        let factor = bought.factor / adaptation.sizing.scale;
        if (factor - 1.0).abs() > SAME_AMOUNT {
            let which = if factor > 1.0 { "lower" } else { "higher" };
            notes.push(format!("× {} for the {which} yield", significant(factor, FACTOR_DIGITS)));
        }
        if bought.trimmed < bought.bought {
            notes.push(format!("{} after trimming", cook_mass(bought.trimmed)));
        }
        if !stated.note.is_empty() {
            notes.push(stated.note.clone());
        }
        if !bought.allergens.is_empty() {
            notes.push(format!("contains {}", bought.allergens.join(", ")));
        }
        let food = setting.knowledge.foods.get(&stated.food);
        if let Some(avoided) = food.and_then(|food| setting.kitchen.avoids(food)) {
            notes.push(format!("this kitchen avoids {avoided}"));
        }
        let row = [
            bought.name.clone(),
            cook_mass(bought.bought),
            bought.written.clone(),
            notes.join("; "),
        ];
        table.push(row);
    }
    for (step, best) in ready_made(adaptation) {
        let mass = step.makes.as_ref().map(shown::mass).unwrap_or_default();
        let note = format!("bought for the {}", step.product);
        table.push([best.name.clone(), mass, "–".to_owned(), note]);
    }
    document.table(table);
    let left_out = adaptation.ingredients.iter().filter(|one| !one.is_needed());
    let left_out: Vec<&str> = left_out.map(|one| one.name.as_str()).collect();
    if !left_out.is_empty() {
        let names = left_out.join(", ");
        document.paragraph(format!("Not bought, since a later product is: {names}."));
    }
    let used_up = used_up(adaptation);
    if !used_up.is_empty() {
        document.paragraph(format!("Used up on the way: {}.", used_up.join(", ")));
    }
    brought_in(document, adaptation, setting);
    if let Some(ledger) = &adaptation.ledger {
        super::ledger::line(document, ledger);
        if setting.why {
            super::ledger::table(document, ledger);
        }
    }
}

/// Says which allergens the supplies of the chosen routes bring in.
fn brought_in(document: &mut Document, adaptation: &Adaptation, setting: &Setting<'_>) {
    let used = supplies_used(adaptation, setting.knowledge).into_iter();
    let bringing = used.filter(|supply| !supply.allergens.is_empty());
    let each = bringing.map(|one| format!("{} contains {}", one.name, one.allergens.join(", ")));
    let each: Vec<String> = each.collect();
    if !each.is_empty() {
        document.paragraph(format!("Read the label: {}.", each.join("; ")));
    }
}

/// The chosen routes of the steps that are needed.
pub(super) fn chosen(adaptation: &Adaptation) -> impl Iterator<Item = (&AdaptedStep, &Method)> {
    let needed = adaptation.steps.iter().filter(|step| step.is_needed);
    needed.filter_map(|step| match &step.advice {
        Advice::Professional(advice) => Some((step, advice.routes.first()?)),
        Advice::Plain(_) => None,
    })
}

/// The products that are bought ready-made.
pub(super) fn ready_made(adaptation: &Adaptation) -> impl Iterator<Item = (&AdaptedStep, &Method)> {
    chosen(adaptation).filter(|(_, method)| method.bought)
}

/// Lists the supplies that the chosen routes use up, with their amounts.
fn used_up(adaptation: &Adaptation) -> Vec<String> {
    let moves = chosen(adaptation).flat_map(|(_, method)| &method.moves);
    let supplies = moves.flat_map(|one| &one.supplies);
    supplies.filter_map(|(name, amount)| Some(format!("{} of {name}", amount.as_ref()?))).collect()
}

/// Says how much is made where it is not what the recipe makes.
pub fn size(adaptation: &Adaptation, setting: &Setting<'_>) -> Option<String> {
    let scale = adaptation.sizing.scale;
    if (scale - 1.0).abs() < SAME_SIZE && adaptation.sizing.scarcest.is_none() {
        return None;
    }
    let mut text = format!("× {} of the recipe", significant(scale, 2));
    if let Some(serves) = setting.recipe.serves {
        text.push_str(&format!(", for {}", significant(serves * scale, 2)));
    }
    if let Some(scarcest) = adaptation.sizing.scarcest {
        let name = &adaptation.ingredients.get(scarcest)?.name;
        text.push_str(&format!("; the {name} decides how much can be made"));
    }
    Some(text)
}
