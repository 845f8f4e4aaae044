//! Ingredients: a food, how much of it, and where it differs from the food as listed.

use crate::knowledge::{Kind, Shares};
use crate::quantity::{Dimension, Mass, Temperature};
use crate::reader::{Bounds, PH, Reader};

use super::written::WrittenIngredient;
use super::{amount, composition};

/// Temperatures at which food is stored or brought to a recipe, from deep frozen to hot oil.
const TEMPERATURE: Bounds = Bounds::new(
    Dimension::Temperature,
    193.15,
    473.15,
    "an ingredient lies between −80 °C and 200 °C",
);
/// The most that can be trimmed away.
const TRIM: Bounds =
    Bounds::new(Dimension::Fraction, 0.0, 0.95, "at least a twentieth must be left after trimming");

/// An ingredient, linked.
#[derive(Debug, Clone, PartialEq)]
pub struct Ingredient {
    /// The name by which steps use it.
    pub id: String,
    /// Id of the food.
    pub food: String,
    /// The amount as the author wrote it.
    pub written: String,
    /// Mass as bought.
    pub bought: Mass,
    /// Share that is trimmed away.
    pub trim: f64,
    /// Mass after trimming.
    pub mass: Mass,
    /// Composition of the trimmed food, with what the recipe states.
    pub shares: Shares,
    /// The pH that the recipe states.
    pub ph: Option<f64>,
    /// The temperature that the recipe states.
    pub temperature: Option<Temperature>,
    /// Whether what no step uses is served or kept on purpose.
    pub keep: bool,
    /// What else is to be known; empty when not stated.
    pub note: String,
}

impl Ingredient {
    /// Links one ingredient; `None` after a finding about its food, amount or composition.
    pub(super) fn link(written: &WrittenIngredient, reader: &mut Reader<'_>) -> Option<Self> {
        let ph = written.ph.as_ref().and_then(|text| reader.within("`ph`", text, &PH));
        let temperature = written
            .temperature
            .as_ref()
            .and_then(|text| reader.within("`temperature`", text, &TEMPERATURE));
        let trim = match &written.trim {
            Some(text) => reader.within("`trim`", text, &TRIM).map(|amount| amount.middle()),
            None => Some(0.0),
        };
        let food = reader.named(Kind::Food, &written.food)?;
        let food = &reader.knowledge().foods[&food];
        let shares = composition::stated(written, food, reader)?;
        let bought = amount::mass(&written.amount, food, &shares, reader)?;
        let trim = trim?;
        Some(Self {
            id: written.id.get_ref().clone(),
            food: food.id.clone(),
            written: written.amount.get_ref().clone(),
            bought,
            trim,
            mass: bought * (1.0 - trim),
            shares,
            ph: ph.map(|amount| amount.middle()),
            temperature: temperature.map(|amount| Temperature::from_si(amount.middle())),
            keep: written.keep,
            note: written.note.clone().unwrap_or_default(),
        })
    }
}
