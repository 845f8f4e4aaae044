//! Appliances, supplies and foods.

use std::collections::BTreeMap;

use super::super::{Provenance, Value};
use super::ValueMap;

/// Where an appliance is found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Found {
    /// In homes.
    Home,
    /// In a laboratory or a professional kitchen.
    Laboratory,
    /// In both.
    Both,
}

/// A kind of gear.
#[derive(Debug, Clone, PartialEq)]
pub struct Appliance {
    /// Id.
    pub id: String,
    /// Name as printed.
    pub name: String,
    /// Other names.
    pub synonyms: Vec<String>,
    /// What it is.
    pub summary: String,
    /// Where it is found.
    pub found: Found,
    /// Roles that it fills beside its own id.
    pub fills: Vec<String>,
    /// Whether it is busy only while somebody holds it.
    pub in_hand: bool,
    /// Its capabilities.
    pub values: ValueMap,
    /// Words that it sets.
    pub modes: BTreeMap<String, String>,
    /// Hazards.
    pub hazards: Vec<String>,
}

impl Appliance {
    /// Returns whether it goes by an id or fills a role.
    pub fn serves_as(&self, role: &str) -> bool {
        self.id == role || self.fills.iter().any(|filled| filled == role)
    }
}

/// A consumable.
#[derive(Debug, Clone, PartialEq)]
pub struct Supply {
    /// Id.
    pub id: String,
    /// Name as printed.
    pub name: String,
    /// Other names.
    pub synonyms: Vec<String>,
    /// What it is.
    pub summary: String,
    /// Roles that it fills beside its own id.
    pub fills: Vec<String>,
    /// Whether every kitchen has it.
    pub everyday: bool,
    /// Values by parameter name.
    pub values: ValueMap,
    /// Allergens that it brings.
    pub allergens: Vec<String>,
    /// Hazards.
    pub hazards: Vec<String>,
}

impl Supply {
    /// Returns whether it goes by an id or fills a role.
    pub fn serves_as(&self, role: &str) -> bool {
        self.id == role || self.fills.iter().any(|filled| filled == role)
    }
}

/// Mass shares of the edible portion; they add to one.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Shares {
    /// Water.
    pub water: f64,
    /// Sugars.
    pub sugars: f64,
    /// Starch.
    pub starch: f64,
    /// Fibre.
    pub fibre: f64,
    /// Protein.
    pub protein: f64,
    /// Fat.
    pub fat: f64,
    /// Organic acids.
    pub acid: f64,
    /// Salt.
    pub salt: f64,
    /// Ethanol.
    pub ethanol: f64,
    /// What is left: other carbohydrate and minerals.
    pub other: f64,
}

/// What many foods, or many aroma compounds, have in common.
#[derive(Debug, Clone, PartialEq)]
pub struct Class {
    /// Id.
    pub id: String,
    /// Name as printed.
    pub name: String,
    /// What belongs to it.
    pub summary: String,
    /// The values that its members take over where they state none themselves.
    pub values: ValueMap,
}

/// A food.
#[derive(Debug, Clone, PartialEq)]
pub struct Food {
    /// Id.
    pub id: String,
    /// Name as printed.
    pub name: String,
    /// Other names.
    pub synonyms: Vec<String>,
    /// Everyday words that mean it as a rule.
    pub aliases: Vec<String>,
    /// The group.
    pub group: String,
    /// Classes whose values it takes over, the first before the later ones.
    pub classes: Vec<String>,
    /// The food whose composition it takes, less what is strained off.
    pub made_of: Option<String>,
    /// Whether it is the meat of a bird.
    pub poultry: bool,
    /// Composition of the edible portion.
    pub shares: Shares,
    /// Where the composition comes from.
    pub provenance: Provenance,
    /// How many numbers the composition states.
    pub stated: usize,
    /// Other values: its own, those of its classes, and those computed from its composition.
    pub values: ValueMap,
    /// The values among these that it does not state itself.
    pub derived: BTreeMap<String, Derived>,
    /// Aroma compounds that carry its smell.
    pub aromas: Vec<String>,
    /// Allergens.
    pub allergens: Vec<String>,
}

impl Food {
    /// Returns the values that it states itself.
    pub fn stated_values(&self) -> impl Iterator<Item = &Value> {
        stated(&self.values, &self.derived)
    }
}

/// Returns the values that are not derived.
pub(in crate::knowledge) fn stated<'a>(
    values: &'a ValueMap,
    derived: &'a BTreeMap<String, Derived>,
) -> impl Iterator<Item = &'a Value> {
    let own = |(name, _): &(&String, &Value)| !derived.contains_key(*name);
    values.iter().filter(own).map(|(_, value)| value)
}

/// Where a value comes from that an entry does not state itself.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Derived {
    /// The class that states it.
    Class(String),
    /// The food of which this one is made.
    Food(String),
    /// The composition, by [`Shares::insoluble_solids`].
    Composition,
}
