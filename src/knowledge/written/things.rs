//! Appliances, supplies and foods, as written.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::Deserialize;

use super::{Spanned, Text, Values};

/// A kind of gear.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenAppliance {
    /// Id, in kebab case.
    pub id: Text,
    /// Name as printed.
    pub name: String,
    /// Other names.
    #[serde(default)]
    pub synonyms: Vec<Text>,
    /// What it is.
    pub summary: String,
    /// `home`, `laboratory` or `both`.
    #[schemars(extend("enum" = ["home", "laboratory", "both"]))]
    pub found: Text,
    /// Roles that it fills beside its own id: `hob`, `freezer`, `blender`.
    #[serde(default)]
    pub fills: Vec<Text>,
    /// Whether it is busy only while somebody holds it: a scale, a whisk, a thermometer.
    #[serde(default)]
    pub in_hand: bool,
    /// Its capabilities, by parameter name.
    #[serde(default)]
    pub values: Values,
    /// Words that it sets: the heat source, the cooling medium.
    #[serde(default)]
    pub modes: BTreeMap<Text, Text>,
    /// Hazards.
    #[serde(default)]
    pub hazards: Vec<Text>,
    /// The source of its values, where a value names none.
    pub source: Option<Text>,
    /// Page, table or figure in it.
    pub locator: Option<String>,
}

/// A consumable.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenSupply {
    /// Id, in kebab case.
    pub id: Text,
    /// Name as printed.
    pub name: String,
    /// Other names.
    #[serde(default)]
    pub synonyms: Vec<Text>,
    /// What it is and what to look for when buying.
    pub summary: String,
    /// Roles that it fills beside its own id.
    #[serde(default)]
    pub fills: Vec<Text>,
    /// Whether every kitchen has it.
    #[serde(default)]
    pub everyday: bool,
    /// Values by parameter name: price, opening, density.
    #[serde(default)]
    pub values: Values,
    /// Allergens that it brings.
    #[serde(default)]
    pub allergens: Vec<String>,
    /// Hazards.
    #[serde(default)]
    pub hazards: Vec<Text>,
    /// The source of its values, where a value names none.
    pub source: Option<Text>,
    /// Page, table or figure in it.
    pub locator: Option<String>,
}

/// What many foods, or many aroma compounds, have in common, such as the sizes of blended flesh.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenClass {
    /// Id, in kebab case.
    pub id: Text,
    /// Name as printed.
    pub name: String,
    /// What belongs to it.
    pub summary: String,
    /// The values that its members take over where they state none themselves.
    pub values: Values,
    /// The source of its values, where a value names none.
    pub source: Option<Text>,
    /// Page, table or figure in it.
    pub locator: Option<String>,
}

/// A food.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenFood {
    /// Id, in kebab case.
    pub id: Text,
    /// Name as printed.
    pub name: String,
    /// Other names.
    #[serde(default)]
    pub synonyms: Vec<Text>,
    /// Everyday words that mean it as a rule and may mean another food, such as "sugar"; an import
    /// takes it for them, and asks for a look.
    #[serde(default)]
    pub aliases: Vec<Text>,
    /// The group: juice, fruit, vegetable, dairy, meat, …
    pub group: Text,
    /// Classes whose values it takes over where it states none itself.
    #[serde(default)]
    pub classes: Vec<Text>,
    /// Mass shares in g per 100 g of edible portion, unless it is made of another food.
    pub composition: Option<Spanned<WrittenComposition>>,
    /// The food whose composition it takes, less what `kept_fibre` and the like say stays behind.
    pub made_of: Option<Text>,
    /// Whether it is the meat of a bird, in which germs stand more heat.
    #[serde(default)]
    pub poultry: bool,
    /// Other values by name: pH, freezing point, particle sizes, refuse.
    #[serde(default)]
    pub values: Values,
    /// Aroma compounds that carry its smell.
    #[serde(default)]
    pub aromas: Vec<Text>,
    /// Allergens by the lists of the EU and the US.
    #[serde(default)]
    pub allergens: Vec<String>,
    /// Where the composition comes from.
    pub source: Option<Text>,
    /// Record, page or table in it.
    pub locator: Option<String>,
}

/// Mass shares in g per 100 g; carbohydrate is the sum of sugars, starch and fibre and the rest.
#[derive(Debug, Clone, Copy, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct WrittenComposition {
    /// Water.
    pub water: f64,
    /// Protein.
    pub protein: f64,
    /// Fat.
    pub fat: f64,
    /// Carbohydrate by difference, fibre included.
    pub carbohydrate: f64,
    /// Sugars, part of carbohydrate.
    pub sugars: f64,
    /// Starch, part of carbohydrate.
    pub starch: f64,
    /// Fibre, part of carbohydrate.
    pub fibre: f64,
    /// Organic acids, part of carbohydrate.
    pub acid: f64,
    /// Ash, salt included.
    pub ash: f64,
    /// Salt, part of ash.
    pub salt: f64,
    /// Ethanol.
    pub ethanol: f64,
}
