//! A recipe file as written, field by field, with places for messages.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::Deserialize;

use crate::knowledge::written::Text;

/// A professional recipe.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenRecipe {
    /// Its title.
    pub title: Text,
    /// Who wrote it.
    pub author: Option<String>,
    /// How many people it serves, such as "12".
    pub serves: Option<Text>,
    /// How much it makes, such as "600 g" or "1.4 L".
    pub makes: Option<Text>,
    /// What else is to be known, in plain words.
    pub note: Option<String>,
    /// What goes in.
    #[serde(default)]
    pub ingredient: Vec<WrittenIngredient>,
    /// What is done, in order; the last step makes the dish.
    #[serde(default)]
    pub step: Vec<WrittenStep>,
}

/// One ingredient.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenIngredient {
    /// The name by which steps use it.
    pub id: Text,
    /// The food, by id, name or synonym.
    pub food: Text,
    /// How much as bought: a mass, a volume or a count, such as "3 kg", "2 cups", "3 pieces".
    pub amount: Text,
    /// Share that is trimmed away, such as "10 %"; none when left out.
    pub trim: Option<Text>,
    /// Dissolved solids, when they differ from the food's: "12 °Brix".
    pub brix: Option<Text>,
    /// Fat, when it differs from the food's: "35 %".
    pub fat: Option<Text>,
    /// Strength by volume, when it differs from the food's: "6 % ABV".
    pub strength: Option<Text>,
    /// The pH, when it differs from the food's: "3.6".
    pub ph: Option<Text>,
    /// Temperature at the start, such as "4 °C"; the room's when left out.
    pub temperature: Option<Text>,
    /// Parts of the composition that differ from the food's, by mass: `sugars = "10 %"`.
    #[serde(default)]
    pub composition: BTreeMap<Text, Text>,
    /// Whether what no step uses is served or kept on purpose.
    #[serde(default)]
    pub keep: bool,
    /// What else is to be known, in plain words.
    pub note: Option<String>,
}

/// One step: a technique of the professional kitchen, or plain work.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenStep {
    /// A name for the step; its product goes by it when `makes` is left out.
    pub id: Option<Text>,
    /// The technique, by id, trade name or synonym; not together with `work`.
    pub technique: Option<Text>,
    /// Plain kitchen work, in a sentence; not together with `technique`.
    pub work: Option<Text>,
    /// What goes in: ingredients and earlier products, whole or in part: "juice", "juice: 500 g",
    /// "juice: half", "juice: 30 %", "juice: rest".
    pub uses: Vec<Text>,
    /// What the product is called.
    pub makes: Option<Text>,
    /// How much the professional gets, such as "600 g".
    pub yields: Option<Text>,
    /// Whether what no later step uses is served or kept on purpose.
    #[serde(default)]
    pub keep: bool,
    /// What else is to be known, in plain words.
    pub note: Option<String>,
    /// Attributes that matter most, the most important first.
    #[serde(default)]
    pub priorities: Vec<Text>,
    /// What ends the step: amounts by attribute, such as `soluble-solids = "60 °Brix"`.
    #[serde(default)]
    pub targets: BTreeMap<Text, Text>,
    /// Settings of the professional method by parameter name, such as `pressure = "75 mbar"`.
    #[serde(default)]
    pub laboratory: BTreeMap<Text, Text>,
    /// Attended time of plain work, such as "5 min".
    pub hands_on: Option<Text>,
    /// Time of plain work from start to end, such as "30 min".
    pub time: Option<Text>,
    /// Share of the mass that plain work loses, such as "1 %".
    pub loss: Option<Text>,
}
