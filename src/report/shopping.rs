//! What to buy for an adapted recipe, how much it makes, and where it goes.

use super::adapt::Setting;
use super::document::{Document, Table};
use crate::advisor::{Adaptation, Advice};
use crate::quantity::{cook_mass, significant};

/// A home amount that differs from the recipe's by less than this share is the recipe's.
const SAME_AMOUNT: f64 = 0.02;
/// A dish is as large as in the recipe within this share.
const SAME_SIZE: f64 = 0.001;

/// Lists what to buy, and where the mass of it goes.
pub fn section(document: &mut Document, adaptation: &Adaptation, setting: &Setting<'_>) {
    document.section("Buy");
    let mut table =
        Table::new().words("Ingredient").numbers("At home").numbers("In the recipe").words("Note");
    for (bought, stated) in adaptation.ingredients.iter().zip(&setting.recipe.ingredients) {
        let mut notes = Vec::new();
        let factor = bought.factor / adaptation.sizing.scale;
        if (factor - 1.0).abs() > SAME_AMOUNT {
            let which = if factor > 1.0 { "lower" } else { "higher" };
            notes.push(format!("× {} for the {which} yield", significant(factor, 2)));
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
    document.table(table);
    let used_up = used_up(adaptation);
    if !used_up.is_empty() {
        document.paragraph(format!("Used up on the way: {}.", used_up.join(", ")));
    }
    if let Some(ledger) = &adaptation.ledger {
        super::ledger::line(document, ledger);
        if setting.why {
            super::ledger::table(document, ledger);
        }
    }
}

/// Lists the supplies that the chosen routes use up, with their amounts.
fn used_up(adaptation: &Adaptation) -> Vec<String> {
    let best = adaptation.steps.iter().filter_map(|step| match &step.advice {
        Advice::Professional(advice) => advice.routes.first(),
        Advice::Plain(_) => None,
    });
    let supplies = best.flat_map(|method| &method.moves).flat_map(|one| &one.supplies);
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
