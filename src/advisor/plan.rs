//! Settling which number each setting of a move takes, and which unknown it is.

use std::collections::BTreeMap;

use super::sample::{Column, Sampler};
use crate::kitchen::Owned;
use crate::knowledge::{Knowledge, Loads, Move, Provenance, Supply, Value, ValueMap};
use crate::process::{Model, ProcessError, model};
use crate::quantity::Temperature;

/// Settings that say how much of a supply goes in, per mass of food.
const DOSES: [&str; 3] = ["addition", "gel_dose", "enzyme_dose"];

/// Why a move cannot be planned.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PlanError {
    /// The move names a process without a model.
    #[error(transparent)]
    Process(#[from] ProcessError),
    /// The knowledge base has no entry for the process.
    #[error("the knowledge base does not describe the process `{name}`")]
    NoEntry {
        /// The process.
        name: String,
    },
}

/// One setting: its range, where it comes from, and the unknown that it is.
#[derive(Debug, Clone, PartialEq)]
pub struct Slot {
    /// The value with its provenance.
    pub value: Value,
    /// The name of the unknown; the same name is the same draw.
    pub unknown: String,
}

/// A move with every setting settled.
#[derive(Debug)]
pub struct Plan<'a> {
    /// The move.
    pub one: &'a Move,
    /// The process.
    pub process: &'static str,
    /// Its model.
    pub model: Model,
    /// Names of the settings.
    pub names: Vec<String>,
    /// The settings, in the order of the names.
    pub slots: Vec<Slot>,
    /// Settings that are words.
    pub modes: BTreeMap<String, String>,
    /// What becomes of food that does not fit the vessel at once.
    pub loads: Loads,
    columns: Vec<Option<Column>>,
}

/// Settings that say to what a cook sets an oven, bath or dryer.
const SET_BY: [&str; 3] = ["hold_temperature", "oven_temperature", "air_temperature"];
/// Colder than this nobody sets it: a cold place has the temperature that it has. Estimate: above
/// any room.
const LEAST_SET: Temperature = Temperature::from_celsius(40.0);

/// A move with this setting spreads its food over all the trays.
const SPREAD_OVER: &str = "tray_area";
/// Settings of an oven closer than this are the same \[K\]: a dial is read no finer. Common practice.
const SAME_SETTING: f64 = 5.0;

/// How a move takes up gear with shelves in one space, such as an oven.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct OvenUse {
    /// The temperature to which the cook sets it \[K\], where it is hot.
    pub set_to: Option<f64>,
    /// Whether it needs every shelf.
    pub every_shelf: bool,
}

impl OvenUse {
    /// Returns whether another move can be in it at the same time.
    pub fn goes_with(&self, other: &Self) -> bool {
        let differ =
            self.set_to.zip(other.set_to).is_some_and(|(a, b)| (a - b).abs() > SAME_SETTING);
        !(differ || self.every_shelf || other.every_shelf)
    }
}

/// Where a move takes its settings from, beside the process and itself.
#[derive(Debug, Clone, Copy)]
pub struct Sources<'a> {
    /// The name of the route or technique, for the names of unknowns.
    pub method: &'a str,
    /// The appliances that it uses.
    pub appliances: &'a [&'a Owned],
    /// The supplies that it uses up.
    pub supplies: &'a [&'a Supply],
    /// Values of the food.
    pub food: &'a ValueMap,
    /// Targets of the recipe, by setting name.
    pub targets: &'a ValueMap,
    /// The recipe's own settings of the laboratory; empty at home.
    pub laboratory: &'a ValueMap,
    /// The recipe's own words for the laboratory; empty at home.
    pub words: &'a BTreeMap<String, String>,
}

impl<'a> Plan<'a> {
    /// Settles the settings of a move. A later source overrides an earlier one: the default of the
    /// process, the food, the appliance as usually built, the supply, the targets of the recipe, the
    /// move and the dose that it gives, the appliance as the kitchen states it, the recipe's
    /// laboratory. Where the kitchen states a range that takes in what the move asks for, or the most
    /// of what can be turned down to it, the appliance is set to that; what a supply states is never
    /// asked of an appliance.
    ///
    /// # Errors
    /// [`PlanError`] for a process without a model or an entry.
    pub fn settle(
        one: &'a Move,
        knowledge: &Knowledge,
        sources: &Sources<'_>,
        sampler: &Sampler,
    ) -> Result<Self, PlanError> {
        let (process, model) = model(&one.process)?;
        let entry = knowledge
            .processes
            .get(process)
            .ok_or_else(|| PlanError::NoEntry { name: process.to_owned() })?;
        let mut slots: BTreeMap<&str, Slot> = BTreeMap::new();
        for name in entry.parameters.keys() {
            if let Some(slot) = settled(name, one, entry, sources) {
                slots.insert(name, slot);
            }
        }
        if entry.loads.counted()
            && let Some(pieces) = pieces(sources)
        {
            slots.insert(Loads::PIECES, pieces);
        }
        let names = slots.keys().map(|name| (*name).to_owned()).collect();
        let slots: Vec<Slot> = slots.into_values().collect();
        let column = |slot: &Slot| {
            let unknown = !slot.value.estimate.is_exact();
            unknown.then(|| sampler.column(&slot.unknown))
        };
        let columns = slots.iter().map(column).collect();
        let mut modes = BTreeMap::new();
        for owned in sources.appliances {
            modes.extend(owned.modes.clone());
        }
        modes.extend(one.modes.clone());
        modes.extend(sources.words.clone());
        Ok(Self { one, process, model, names, slots, modes, loads: entry.loads, columns })
    }

    /// Writes the settings of one sample in SI, in the order of the names.
    pub fn draw(&self, sample: usize, values: &mut Vec<f64>) {
        values.clear();
        for (slot, column) in self.slots.iter().zip(&self.columns) {
            values.push(match column {
                Some(column) => slot.value.estimate.quantile(column[sample]),
                None => slot.value.typical(),
            });
        }
    }

    /// Returns how it takes up an oven.
    pub fn oven_use(&self) -> OvenUse {
        let slot = SET_BY.iter().find_map(|name| self.setting(name));
        let set_to = slot.map(|slot| slot.value.typical());
        OvenUse {
            set_to: set_to.filter(|set| *set > LEAST_SET.kelvin()),
            every_shelf: self.setting(SPREAD_OVER).is_some(),
        }
    }

    /// Returns the range of a setting.
    pub fn setting(&self, name: &str) -> Option<&Slot> {
        let place = self.names.iter().position(|known| known == name)?;
        self.slots.get(place)
    }
}

fn settled(
    name: &str,
    one: &Move,
    entry: &crate::knowledge::ProcessEntry,
    sources: &Sources<'_>,
) -> Option<Slot> {
    if let Some(value) = sources.laboratory.get(name) {
        return Some(slot(value, format!("laboratory/{}/{name}", sources.method)));
    }
    let supplied = sources.supplies.iter().find_map(|held| Some((held, held.values.get(name)?)));
    let gear = if supplied.is_none() { sources.appliances } else { &[] };
    let owned = of_gear(name, gear);
    let of_owned =
        |(owned, value): (&Owned, &Value)| slot(value, format!("appliance/{}/{name}", owned.label));
    if let Some((owned, value)) = owned
        && value.provenance == Provenance::Given
        && !one.settings.get(name).is_some_and(|set| {
            let turns_down = entry.parameters.get(name).is_some_and(|known| known.turns_down);
            can_be_set(value, set) || turns_down && set.estimate.high() <= value.typical()
        })
    {
        return Some(of_owned((owned, value)));
    }
    if let Some(value) = one.settings.get(name).or_else(|| dosed(name, one)) {
        return Some(slot(value, format!("method/{}/{name}", sources.method)));
    }
    if let Some(value) = sources.targets.get(name) {
        return Some(slot(value, format!("target/{name}")));
    }
    if let Some((held, value)) = supplied {
        return Some(slot(value, format!("supply/{}/{name}", held.id)));
    }
    if let Some(found) = owned {
        return Some(of_owned(found));
    }
    if let Some(value) = sources.food.get(name) {
        return Some(slot(value, format!("food/{name}")));
    }
    let default = entry.parameters.get(name)?.default.as_ref()?;
    Some(slot(default, format!("process/{}/{name}", entry.id)))
}

/// Returns the dose of the first supply that has one, for a setting which says how much is added.
fn dosed<'a>(name: &str, one: &'a Move) -> Option<&'a Value> {
    let doses = || one.supplies.iter().filter_map(|supply| supply.dose.as_ref());
    DOSES.contains(&name).then(doses)?.next()
}

/// Finds a value among the appliances of a move; how far to fill is asked of the vessel alone.
fn of_gear<'o>(name: &str, appliances: &[&'o Owned]) -> Option<(&'o Owned, &'o Value)> {
    let vessel = appliances.iter().find(|one| one.values.contains_key(Loads::VESSEL));
    if let Some(vessel) = vessel.filter(|_| name == Loads::FILL) {
        return vessel.values.get(name).map(|value| (*vessel, value));
    }
    appliances.iter().find_map(|owned| Some((*owned, owned.values.get(name)?)))
}

/// How many there are of the vessel that the food goes into.
fn pieces(sources: &Sources<'_>) -> Option<Slot> {
    let vessel = sources.appliances.iter().find(|one| one.values.contains_key(Loads::VESSEL))?;
    let pieces = vessel.values.get(Loads::PIECES)?;
    Some(slot(pieces, format!("appliance/{}/{}", vessel.label, Loads::PIECES)))
}

/// Returns whether an appliance with a stated range can be set to what a move asks for.
fn can_be_set(range: &Value, set: &Value) -> bool {
    let (range, wanted) = (&range.estimate, set.typical());
    !range.is_exact() && range.low() <= wanted && wanted <= range.high()
}

fn slot(value: &Value, unknown: String) -> Slot {
    Slot { value: value.clone(), unknown }
}
