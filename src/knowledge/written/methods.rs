//! Techniques, routes and their moves, as written.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::Deserialize;

use super::{Spanned, Text, Values, WrittenValue};

/// One move: a process run with appliances and settings, and what the cook does.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenMove {
    /// The process model.
    pub process: Text,
    /// Appliances, each an id or a role, alternatives with `|`.
    #[serde(default)]
    pub uses: Vec<Text>,
    /// Supplies with their dose.
    #[serde(default)]
    pub supplies: Vec<WrittenDose>,
    /// Settings of the process, by parameter name.
    #[serde(default)]
    pub settings: Values,
    /// Settings that are words: the shape, the medium, the mode.
    #[serde(default)]
    pub modes: BTreeMap<Text, Text>,
    /// The stream that goes on to the next move; the main one when left out.
    pub keep: Option<Text>,
    /// What the cook does, with places such as `{time}` for computed numbers.
    #[serde(rename = "do")]
    pub instruction: Text,
    /// When to stop: the first whose gear the kitchen owns is printed.
    #[serde(default)]
    pub until: Vec<WrittenEndpoint>,
}

/// A supply with its dose.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenDose {
    /// The supply, or alternatives with `|`.
    pub id: Text,
    /// Mass of supply per mass of food; none for things that are not used up.
    pub dose: Option<Spanned<WrittenValue>>,
    /// Whether it goes into the food.
    #[serde(default)]
    pub stays_in: bool,
}

/// An endpoint that a cook can check.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenEndpoint {
    /// The gear that it needs; none for a look or a feel.
    pub needs: Option<Text>,
    /// What to look for, with places for computed numbers.
    pub says: Text,
}

/// A professional step.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenTechnique {
    /// Id, in kebab case.
    pub id: Text,
    /// Trade name.
    pub name: String,
    /// Other names.
    #[serde(default)]
    pub synonyms: Vec<Text>,
    /// What it does, in plain words.
    pub summary: String,
    /// What it physically achieves.
    pub achieves: String,
    /// Its goals, the most important first.
    pub goals: Vec<Text>,
    /// Attributes on which the results are compared, the most important first.
    pub compare: Vec<Text>,
    /// A food on which the method is shown when none is named.
    pub demo_food: Text,
    /// Hazards of the laboratory method.
    #[serde(default)]
    pub hazards: Vec<Text>,
    /// The laboratory method.
    #[serde(rename = "move")]
    pub moves: Vec<WrittenMove>,
    /// What to buy instead.
    pub buy: Option<String>,
    /// The source of the laboratory settings, where a value names none.
    pub source: Option<Text>,
    /// Page, table or figure in it.
    pub locator: Option<String>,
}

/// A way to reach a goal at home.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenRoute {
    /// Id, in kebab case.
    pub id: Text,
    /// Name as printed.
    pub name: String,
    /// Other names.
    #[serde(default)]
    pub synonyms: Vec<Text>,
    /// What it is, in plain words.
    pub summary: String,
    /// Techniques that it stands in for.
    pub serves: Vec<Text>,
    /// Groups or ids of foods that it suits; empty for any.
    #[serde(default)]
    pub foods: Vec<Text>,
    /// Its moves, in order.
    #[serde(rename = "move")]
    pub moves: Vec<WrittenMove>,
    /// What is lost that no model computes; printed as stated.
    #[serde(default)]
    pub loses: Vec<String>,
    /// When it fails.
    #[serde(default)]
    pub fails: Vec<String>,
    /// Hazards.
    #[serde(default)]
    pub hazards: Vec<Text>,
    /// Attended time beside what the models count; the usual one when left out.
    pub hands_on: Option<Spanned<WrittenValue>>,
    /// Cost beside the supplies.
    pub cost: Option<Spanned<WrittenValue>>,
    /// The source of the route's values, where a value names none.
    pub source: Option<Text>,
    /// Page, table or figure in it.
    pub locator: Option<String>,
}
