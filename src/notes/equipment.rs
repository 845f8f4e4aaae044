//! The gear that the chosen methods use, kitchen by kitchen.

use super::ingredients::is_eaten;
use super::{Adapted, Material, professional};
use crate::advisor::Method;
use crate::kitchen::{Kitchen, Owned};
use crate::knowledge::{Knowledge, Provenance};
use crate::quantity::significant;

/// Significant digits of what a kitchen states of its gear.
const STATED_DIGITS: u32 = 3;

/// A piece of gear, or a supply that is not used up.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Gear {
    /// Its name.
    pub name: String,
    /// Which kitchens use it, each with what it states of its own.
    pub kitchens: Vec<(usize, String)>,
}

/// Lists the gear of the chosen methods, in the order in which it is used.
pub(super) fn equipment(material: &Material<'_>) -> Vec<Gear> {
    let mut all: Vec<Gear> = Vec::new();
    for (index, adapted) in material.adapted.iter().enumerate() {
        for (name, stated) in used(adapted, material.knowledge) {
            let at = all.iter().position(|gear| gear.name == name).unwrap_or_else(|| {
                all.push(Gear { name, kitchens: Vec::new() });
                all.len() - 1
            });
            if !all[at].kitchens.iter().any(|(kitchen, _)| *kitchen == index) {
                all[at].kitchens.push((index, stated));
            }
        }
    }
    all
}

/// Names what one kitchen uses, with what it states of it.
fn used(adapted: &Adapted<'_>, knowledge: &Knowledge) -> Vec<(String, String)> {
    let kitchen = adapted.kitchen;
    let named = |owned: &Owned| {
        let known = knowledge.appliances.get(&owned.id);
        let name = known.map_or_else(|| owned.label.clone(), |appliance| appliance.name.clone());
        (name, stated(owned))
    };
    let mut used = Vec::new();
    for (_, advice) in professional(adapted) {
        let Some(best) = advice.routes.first() else { continue };
        for one in &best.moves {
            let owned = one
                .appliances
                .iter()
                .filter_map(|label| kitchen.appliances.iter().find(|owned| owned.label == *label));
            used.extend(owned.map(named));
            let eaten = |name: &str| {
                let known = knowledge.supplies.values().find(|supply| supply.name == name);
                known.is_some_and(is_eaten)
            };
            let kept = one.supplies.iter().filter(|(name, dose)| dose.is_none() && !eaten(name));
            used.extend(kept.map(|(name, _)| (name.clone(), String::new())));
        }
        used.extend(checked_with(best, kitchen, knowledge).map(named));
    }
    used
}

/// The gear with which the endpoints are checked.
fn checked_with<'a>(
    method: &Method,
    kitchen: &'a Kitchen,
    knowledge: &'a Knowledge,
) -> impl Iterator<Item = &'a Owned> {
    let route = knowledge.routes.get(&method.id);
    let moves = route.into_iter().flat_map(|route| &route.moves);
    let serving =
        |needs: &'a Vec<String>| needs.iter().find_map(|need| kitchen.serving(need).next());
    moves.filter_map(move |one| {
        let first =
            one.until.iter().find(|end| end.needs.is_empty() || serving(&end.needs).is_some())?;
        serving(&first.needs)
    })
}

/// What a kitchen states of an appliance, as numbers with their units: "24 cm, 3 L".
fn stated(owned: &Owned) -> String {
    let given = owned.values.values().filter(|value| value.provenance == Provenance::Given);
    let shown = given.map(|value| {
        let number = significant(value.unit.from_si(value.typical()), STATED_DIGITS);
        format!("{number} {}", value.unit.symbol).trim_end().to_owned()
    });
    shown.collect::<Vec<_>>().join(", ")
}
