//! A kitchen file as written, field by field, with places for messages.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::Deserialize;

use crate::knowledge::written::Text;

/// A kitchen: what a cook owns, and the place in which it stands.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenKitchen {
    /// What its owner calls it.
    pub name: Text,
    /// Altitude, such as "15 m" or "6900 ft"; sea level when neither it nor `pressure` is given.
    pub altitude: Option<Text>,
    /// Air pressure as a barometer shows it at the place, instead of the altitude: "98 kPa".
    pub pressure: Option<Text>,
    /// Usual temperature of the room, such as "21 °C".
    pub room_temperature: Option<Text>,
    /// Usual relative humidity of the room, such as "50 %".
    pub room_humidity: Option<Text>,
    /// Volume of air in the room, such as "30 m³".
    pub room_volume: Option<Text>,
    /// How often the air of the room is changed, such as "0.5 /h".
    pub air_changes: Option<Text>,
    /// Temperature of the cold tap water, such as "12 °C".
    pub tap_water: Option<Text>,
    /// Whose cups and spoons: `metric`, `us`, `uk` or `australian`; metric when left out.
    #[schemars(extend("enum" = ["metric", "us", "uk", "australian"]))]
    pub measures: Option<Text>,
    /// Supplies on hand, by id, name or synonym, beside those that every kitchen has.
    #[serde(default)]
    pub supplies: Vec<Text>,
    /// Who eats, in plain words: "2 adults, 1 child of 4".
    pub eaters: Option<String>,
    /// Allergens, foods or groups of foods that the eaters avoid.
    #[serde(default)]
    pub avoid: Vec<Text>,
    /// What else is to be known, in plain words.
    pub note: Option<String>,
    /// Appliances by id, name or synonym, each with the values that are known of it.
    ///
    /// A second one of its kind goes by a name of its own and says `kind = "wide-pan"`.
    #[serde(default)]
    pub appliances: BTreeMap<Text, WrittenOwned>,
}

/// What is known of an owned appliance: values by parameter name as text, `kind` and words it sets.
pub type WrittenOwned = BTreeMap<Text, Text>;
