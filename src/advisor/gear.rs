//! The gear of a method: instruments of the laboratory, labels, and the hazards that gear brings.

use super::advice::StepError;
use crate::kitchen::{Owned, Place};
use crate::knowledge::{Knowledge, Route, Technique};

/// The names under which a kitchen lists its appliances.
pub(super) fn labels<'o>(appliances: impl Iterator<Item = &'o Owned>) -> Vec<String> {
    appliances.map(|owned| owned.label.clone()).collect()
}

/// The laboratory's instruments for each move of a technique.
pub(super) fn instruments(
    technique: &Technique,
    knowledge: &Knowledge,
) -> Result<Vec<Vec<Owned>>, StepError> {
    let serving = |any_of: &Vec<String>| {
        any_of
            .iter()
            .find_map(|role| knowledge.appliances_serving(role).next())
            .map(Owned::of)
            .ok_or_else(|| StepError::NoInstrument(any_of.join(" or ")))
    };
    technique.moves.iter().map(|one| one.uses.iter().map(serving).collect()).collect()
}

/// The laboratory stands in a room of its own, at sea level, whatever the home: what the professional
/// makes does not depend on who cooks it later.
pub(super) fn laboratory_place() -> Place {
    Place::default()
}

/// Hazards of the gear and the supplies that a route uses.
pub(super) fn gear_hazards<'k>(
    route: &'k Route,
    appliances: &[Vec<&Owned>],
    knowledge: &'k Knowledge,
) -> Vec<&'k String> {
    let owned = appliances.iter().flatten();
    let gear = owned.filter_map(|owned| knowledge.appliances.get(&owned.id));
    let mut hazards: Vec<&String> = gear.flat_map(|appliance| &appliance.hazards).collect();
    let doses = route.moves.iter().flat_map(|one| &one.supplies);
    for role in doses.flat_map(|dose| &dose.any_of) {
        hazards.extend(knowledge.supplies_serving(role).flat_map(|supply| &supply.hazards));
    }
    hazards
}
