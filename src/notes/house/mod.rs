//! How a book writes numbers and words: its house style, carried out.
//!
//! Text is written in the tool's own way first (British, decimal point, dashes, Celsius) and then
//! brought into the style of the book, so that what a computed sentence says and what a table says
//! never differ. What a person wrote as a name, a title or a citation is left alone.

mod numbers;
mod spelling;

pub use numbers::NumberStyle;
pub use spelling::{Words, words_findings};

use crate::book::style::{HouseStyle, Rounding, UnitOrder};
use crate::quantity::{Mass, cook_mass};

/// A house style ready to write with.
#[derive(Debug)]
pub struct House {
    style: HouseStyle,
    numbers: NumberStyle,
    words: Words,
}

impl House {
    /// Makes a house style ready.
    pub fn new(style: &HouseStyle) -> Self {
        Self {
            numbers: NumberStyle::of(style),
            words: Words::of(style.spelling),
            style: style.clone(),
        }
    }

    /// Returns the style.
    pub const fn style(&self) -> &HouseStyle {
        &self.style
    }

    /// Writes a computed text in the style of the book, its weights rounded as the book rounds.
    pub fn say(&self, text: &str) -> String {
        let rounded = match self.style.rounding {
            Rounding::Cook => text.to_owned(),
            Rounding::Coarse => numbers::round_weights(text),
        };
        self.authored(&rounded)
    }

    /// Writes a text of the author in the style of the book; its amounts stay as they are.
    pub fn authored(&self, text: &str) -> String {
        self.numbers.write(&self.words.write(text))
    }

    /// Writes a weight.
    pub fn mass(&self, mass: Mass) -> String {
        self.say(&cook_mass(mass))
    }

    /// Writes an amount: the weight and the home measure, in the order of the book.
    pub fn amount(&self, weight: &str, home_measure: Option<&str>) -> String {
        match (home_measure, self.style.units) {
            (None, _) => weight.to_owned(),
            (Some(measure), UnitOrder::WeightFirst) => {
                format!("{weight} ({})", self.authored(measure))
            }
            (Some(measure), UnitOrder::VolumeFirst) => {
                format!("{} ({weight})", self.authored(measure))
            }
        }
    }
}
