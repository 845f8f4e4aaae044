//! The inputs of a question as read, and its answer.

use std::collections::BTreeMap;

use super::{Input, Kind, Need, Question};
use crate::finding::suggestion;
use crate::physics::PhysicsError;
use crate::quantity::{
    Acceleration, AmountError, Area, Conductivity, Density, Diffusivity, Dimension, HeatTransfer,
    Length, Mass, MassFlow, Measures, MolarEnergy, MolarMass, Power, Pressure, Rate, RotationSpeed,
    SpecificEnergy, SpecificHeat, SpecificPower, Speed, SurfaceTension, Temperature,
    TemperatureDifference, Time, Viscosity, Volume, parse_amount,
};

/// The one length that may lie below zero: places below the sea.
const ALTITUDE: &str = "altitude";

/// Why a question was not answered.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum CalcError {
    /// The question has no input of that name.
    #[error("`{question}` has no input `{name}`")]
    UnknownInput {
        /// The question.
        question: &'static str,
        /// The name as written.
        name: String,
        /// What to write instead.
        help: String,
    },
    /// An input that must be given is not.
    #[error("`{question}` needs `{name}`: {help}")]
    MissingInput {
        /// The question.
        question: &'static str,
        /// The input.
        name: &'static str,
        /// What it is.
        help: &'static str,
    },
    /// An amount could not be read.
    #[error("`{name}`: {error}")]
    Amount {
        /// The input.
        name: &'static str,
        /// What is wrong with it.
        error: AmountError,
    },
    /// A word is not one of those accepted.
    #[error("`{name}` cannot be `{word}`")]
    UnknownWord {
        /// The input.
        name: &'static str,
        /// The word as written.
        word: String,
        /// What to write instead.
        help: String,
    },
    /// The inputs together make no question.
    #[error("{message}")]
    Combination {
        /// What is wrong, naming the inputs.
        message: String,
    },
    /// The physics gave no number.
    #[error(transparent)]
    Physics(#[from] PhysicsError),
}

impl CalcError {
    /// Returns what to do about it, if there is more to say.
    pub fn help(&self) -> Option<String> {
        match self {
            Self::UnknownInput { help, .. } | Self::UnknownWord { help, .. } => Some(help.clone()),
            Self::Amount { error, .. } => Some(error.help()),
            Self::MissingInput { .. } | Self::Combination { .. } | Self::Physics(_) => None,
        }
    }

    /// Makes the error for inputs that do not go together.
    pub fn combination(message: impl Into<String>) -> Self {
        Self::Combination { message: message.into() }
    }
}

/// The inputs of one question, read and in SI.
#[derive(Debug, Clone, Default)]
pub struct Given {
    amounts: BTreeMap<&'static str, f64>,
    words: BTreeMap<&'static str, String>,
}

macro_rules! typed {
    ($($(#[$doc:meta])* $required:ident $optional:ident $type:ident;)+) => {$(
        $(#[$doc])*
        ///
        /// Call it only for an input that is required or has a default.
        pub fn $required(&self, name: &str) -> $type {
            $type::from_si(self.number(name))
        }
        /// As the required form, or `None` when the input was left out.
        pub fn $optional(&self, name: &str) -> Option<$type> {
            self.optional_number(name).map($type::from_si)
        }
    )+};
}

impl Given {
    /// Reads the inputs of a question as a user writes them, and fills in the defaults.
    ///
    /// # Errors
    /// [`CalcError`] for an unknown or missing input or an amount that cannot be read.
    pub fn read(question: &Question, written: &[(&str, &str)]) -> Result<Self, CalcError> {
        let mut given = Self::default();
        for (name, text) in written {
            let input = question.inputs.iter().find(|input| input.name == *name);
            given.take(input.ok_or_else(|| unknown_input(question, name))?, text)?;
        }
        for input in question.inputs {
            match input.need {
                _ if given.has(input.name) => {}
                Need::Default(text) => given.take(input, text)?,
                Need::Optional => {}
                Need::Required => {
                    let (name, help) = (input.name, input.help);
                    return Err(CalcError::MissingInput { question: question.name, name, help });
                }
            }
        }
        Ok(given)
    }

    fn take(&mut self, input: &Input, text: &str) -> Result<(), CalcError> {
        let name = input.name;
        match input.kind {
            Kind::Amount(dimension) => {
                let amount = parse_amount(text, dimension, Measures::default())
                    .map_err(|error| CalcError::Amount { name, error })?;
                self.amounts.insert(name, possible(input, dimension, amount.middle())?);
            }
            Kind::Choice(words) if !words.contains(&text) => {
                let help = suggestion(text, words);
                return Err(CalcError::UnknownWord { name, word: text.to_owned(), help });
            }
            Kind::Choice(_) | Kind::Text => {
                self.words.insert(name, text.to_owned());
            }
        }
        Ok(())
    }

    /// Returns whether an input was given or has a default.
    pub fn has(&self, name: &str) -> bool {
        self.amounts.contains_key(name) || self.words.contains_key(name)
    }

    /// Returns an input as a plain number in SI.
    ///
    /// Call it only for an input that is required or has a default; a name that the question does
    /// not declare gives NaN, which the physics refuses.
    pub fn number(&self, name: &str) -> f64 {
        self.optional_number(name).unwrap_or(f64::NAN)
    }

    /// Returns an input as a plain number in SI, or `None` when it was left out.
    pub fn optional_number(&self, name: &str) -> Option<f64> {
        self.amounts.get(name).copied()
    }

    /// Returns a word or text input; empty when it was left out.
    pub fn word(&self, name: &str) -> &str {
        self.words.get(name).map_or("", String::as_str)
    }

    typed! {
        /// Returns a mass.
        mass optional_mass Mass;
        /// Returns a volume.
        volume optional_volume Volume;
        /// Returns a length.
        length optional_length Length;
        /// Returns an area or a permeability.
        area optional_area Area;
        /// Returns a time.
        time optional_time Time;
        /// Returns a temperature.
        temperature optional_temperature Temperature;
        /// Returns a temperature difference.
        difference optional_difference TemperatureDifference;
        /// Returns a pressure.
        pressure optional_pressure Pressure;
        /// Returns a power.
        power optional_power Power;
        /// Returns an energy per mass.
        specific_energy optional_specific_energy SpecificEnergy;
        /// Returns a heat capacity per mass.
        specific_heat optional_specific_heat SpecificHeat;
        /// Returns a power per mass.
        specific_power optional_specific_power SpecificPower;
        /// Returns a density.
        density optional_density Density;
        /// Returns a dynamic viscosity.
        viscosity optional_viscosity Viscosity;
        /// Returns a thermal conductivity.
        conductivity optional_conductivity Conductivity;
        /// Returns a diffusivity.
        diffusivity optional_diffusivity Diffusivity;
        /// Returns a heat-transfer coefficient.
        heat_transfer optional_heat_transfer HeatTransfer;
        /// Returns a speed.
        speed optional_speed Speed;
        /// Returns an acceleration.
        acceleration optional_acceleration Acceleration;
        /// Returns a speed of rotation.
        rotation optional_rotation RotationSpeed;
        /// Returns a rate.
        rate optional_rate Rate;
        /// Returns a mass flow.
        mass_flow optional_mass_flow MassFlow;
        /// Returns a surface tension.
        surface_tension optional_surface_tension SurfaceTension;
        /// Returns an activation energy.
        molar_energy optional_molar_energy MolarEnergy;
        /// Returns a molar mass.
        molar_mass optional_molar_mass MolarMass;
    }
}

/// Passes an amount that can exist: no mass or time below zero, no temperature below absolute zero.
fn possible(input: &Input, dimension: Dimension, value: f64) -> Result<f64, CalcError> {
    let fault = match dimension {
        Dimension::Temperature if value <= 0.0 => "must lie above absolute zero",
        Dimension::Length if input.name == ALTITUDE => return Ok(value),
        Dimension::Fraction
        | Dimension::Temperature
        | Dimension::TemperatureDifference
        | Dimension::Pressure
        | Dimension::Angle => return Ok(value),
        _ if value < 0.0 => "cannot be below zero",
        _ => return Ok(value),
    };
    Err(CalcError::combination(format!("`{}` {fault}", input.name)))
}

fn unknown_input(question: &Question, name: &str) -> CalcError {
    let names: Vec<&str> = question.inputs.iter().map(|input| input.name).collect();
    CalcError::UnknownInput {
        question: question.name,
        name: name.to_owned(),
        help: suggestion(name, &names),
    }
}

/// The answer to one question: numbers by output key, and remarks.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Answer {
    /// Each output that was computed, in the order in which it was given.
    pub values: Vec<(&'static str, f64)>,
    /// What the reader should know beside the numbers.
    pub remarks: Vec<String>,
}

impl Answer {
    /// An answer without numbers yet.
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds a number under an output key.
    #[must_use]
    pub fn with(mut self, key: &'static str, value: f64) -> Self {
        self.values.push((key, value));
        self
    }

    /// Adds a number when there is one.
    #[must_use]
    pub fn with_optional(self, key: &'static str, value: Option<f64>) -> Self {
        match value {
            Some(value) => self.with(key, value),
            None => self,
        }
    }

    /// Adds a remark.
    #[must_use]
    pub fn remark(mut self, text: impl Into<String>) -> Self {
        self.remarks.push(text.into());
        self
    }

    /// Returns the number under a key.
    pub fn get(&self, key: &str) -> Option<f64> {
        self.values.iter().find(|(name, _)| *name == key).map(|(_, value)| *value)
    }
}
