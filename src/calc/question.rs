//! What a question is: its name, its inputs and its outputs.

use super::{Answer, CalcError, Given};
use crate::quantity::Dimension;

/// The groups under which questions are listed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Family {
    /// Boiling, steam, ice and air pressure.
    WaterAndAir,
    /// Alcohol and distilling.
    Alcohol,
    /// Syrups, brines and cold baths.
    Solutions,
    /// Heating, chilling and freezing food.
    HeatAndCold,
    /// Keeping food safe, cooking and what heat destroys.
    SafetyAndCooking,
    /// Evaporating and drying.
    Drying,
    /// Smell.
    Aroma,
    /// Settling, spinning and filtering.
    Parting,
    /// Droplets, shear and grinding.
    Shearing,
    /// Gases and cryogens.
    Gases,
}

impl Family {
    /// Every family, in the order in which they are listed.
    pub const ALL: [Self; 10] = [
        Self::WaterAndAir,
        Self::Alcohol,
        Self::Solutions,
        Self::HeatAndCold,
        Self::SafetyAndCooking,
        Self::Drying,
        Self::Aroma,
        Self::Parting,
        Self::Shearing,
        Self::Gases,
    ];

    /// Returns the heading of the family.
    pub const fn heading(self) -> &'static str {
        match self {
            Self::WaterAndAir => "Boiling, steam, ice and air",
            Self::Alcohol => "Alcohol and distilling",
            Self::Solutions => "Syrups, brines and cold baths",
            Self::HeatAndCold => "Heating, chilling and freezing food",
            Self::SafetyAndCooking => "Keeping safe, cooking, what heat destroys",
            Self::Drying => "Evaporating and drying",
            Self::Aroma => "Smell",
            Self::Parting => "Settling, spinning and filtering",
            Self::Shearing => "Droplets, shear and grinding",
            Self::Gases => "Gases and cryogens",
        }
    }
}

/// What kind of value an input takes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Kind {
    /// An amount of a dimension.
    Amount(Dimension),
    /// One of a few words.
    Choice(&'static [&'static str]),
    /// Free text, such as the name of a compound.
    Text,
}

/// Whether an input must be given.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Need {
    /// It must be given.
    Required,
    /// It may be left out; the question then goes without it.
    Optional,
    /// It may be left out; this value, as a user would write it, is then taken.
    Default(&'static str),
}

/// One input of a question.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Input {
    /// Its name in kebab case, as on the command line without the dashes.
    pub name: &'static str,
    /// What it takes.
    pub kind: Kind,
    /// Whether it must be given.
    pub need: Need,
    /// One line of help, without a full stop.
    pub help: &'static str,
}

impl Input {
    /// An amount that must be given.
    pub const fn required(name: &'static str, dimension: Dimension, help: &'static str) -> Self {
        Self { name, kind: Kind::Amount(dimension), need: Need::Required, help }
    }

    /// An amount that may be left out.
    pub const fn optional(name: &'static str, dimension: Dimension, help: &'static str) -> Self {
        Self { name, kind: Kind::Amount(dimension), need: Need::Optional, help }
    }

    /// An amount with a default, written as a user would.
    pub const fn with_default(
        name: &'static str,
        dimension: Dimension,
        default: &'static str,
        help: &'static str,
    ) -> Self {
        Self { name, kind: Kind::Amount(dimension), need: Need::Default(default), help }
    }

    /// A choice among words; the first is the default.
    pub const fn choice(
        name: &'static str,
        words: &'static [&'static str],
        help: &'static str,
    ) -> Self {
        Self { name, kind: Kind::Choice(words), need: Need::Default(words[0]), help }
    }

    /// A text that must be given.
    pub const fn text(name: &'static str, help: &'static str) -> Self {
        Self { name, kind: Kind::Text, need: Need::Required, help }
    }
}

/// One output of a question.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Output {
    /// Its key in JSON; ends in its unit: `pressure_pa`, `boiling_point_c`, `yield_fraction`.
    pub key: &'static str,
    /// What it is, in plain words.
    pub label: &'static str,
    /// Its unit as printed; the number in JSON is in this unit. Empty for a plain number.
    pub unit: &'static str,
}

/// A question that a cook or an engineer asks of the physics.
#[derive(Debug, Clone, Copy)]
pub struct Question {
    /// Its name in kebab case, a word of the trade.
    pub name: &'static str,
    /// Other names under which it is found.
    pub other_names: &'static [&'static str],
    /// The group under which it is listed.
    pub family: Family,
    /// One line, as a cook would ask, without a full stop.
    pub summary: &'static str,
    /// A complete example call after `standin calc`.
    pub example: &'static str,
    /// Its inputs.
    pub inputs: &'static [Input],
    /// Every output that it can give.
    pub outputs: &'static [Output],
    /// How it is answered.
    pub answer: fn(&Given) -> Result<Answer, CalcError>,
}

impl Question {
    /// Answers the question for inputs as a user writes them, in any order.
    ///
    /// # Errors
    /// [`CalcError`] for an unknown or missing input, an amount that cannot be read, or conditions
    /// outside the range of the law.
    pub fn ask(&self, written: &[(&str, &str)]) -> Result<Answer, CalcError> {
        (self.answer)(&Given::read(self, written)?)
    }

    /// Finds one of the outputs by key.
    pub fn output(&self, key: &str) -> Option<&'static Output> {
        self.outputs.iter().find(|output| output.key == key)
    }
}
