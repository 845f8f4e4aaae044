//! The settings of one run: numbers in SI by name, and words.

use std::collections::BTreeMap;

use super::ProcessError;
use crate::kitchen::Place;
use crate::quantity::{
    Area, Density, Diffusivity, HeatTransfer, Length, Mass, Power, Pressure, Rate, RotationSpeed,
    SpecificPower, Speed, Temperature, TemperatureDifference, Time, Volume,
};

/// The settings of one run of a process model.
#[derive(Debug, Clone, Copy)]
pub struct Settings<'a> {
    /// The process, for messages.
    pub process: &'static str,
    /// Names of the numbers.
    pub names: &'a [String],
    /// The numbers in SI, in the order of the names.
    pub values: &'a [f64],
    /// Words by name: heat source, medium, shape.
    pub modes: &'a BTreeMap<String, String>,
    /// The room.
    pub place: &'a Place,
    /// Whether the course over time is wanted.
    pub trace: bool,
}

macro_rules! typed {
    ($($(#[$doc:meta])* $get:ident $type:ident;)+) => {$(
        $(#[$doc])*
        ///
        /// # Errors
        /// [`ProcessError::MissingSetting`] when nothing gives it.
        pub fn $get(&self, name: &'static str) -> Result<$type, ProcessError> {
            self.number(name).map($type::from_si)
        }
    )+};
}

impl Settings<'_> {
    /// Returns a setting as a number in SI, or `None`.
    pub fn optional(&self, name: &str) -> Option<f64> {
        let place = self.names.iter().position(|known| known == name)?;
        self.values.get(place).copied()
    }

    /// Returns a setting as a number in SI.
    ///
    /// # Errors
    /// [`ProcessError::MissingSetting`] when nothing gives it.
    pub fn number(&self, name: &'static str) -> Result<f64, ProcessError> {
        self.optional(name)
            .ok_or(ProcessError::MissingSetting { process: self.process, setting: name })
    }

    /// Returns a setting as a share, held between 0 and 1.
    ///
    /// # Errors
    /// [`ProcessError::MissingSetting`] when nothing gives it.
    pub fn share(&self, name: &'static str) -> Result<f64, ProcessError> {
        self.number(name).map(|share| share.clamp(0.0, 1.0))
    }

    /// Returns a word, one of those that the model knows; the first when nothing gives it.
    ///
    /// # Errors
    /// [`ProcessError::UnknownMode`] for another word.
    pub fn mode(
        &self,
        mode: &'static str,
        known: &'static [&'static str],
    ) -> Result<&'static str, ProcessError> {
        let Some(word) = self.modes.get(mode) else { return Ok(known[0]) };
        known.iter().find(|accepted| *accepted == word).copied().ok_or_else(|| {
            ProcessError::UnknownMode { process: self.process, mode, word: word.clone(), known }
        })
    }

    typed! {
        /// Returns a mass.
        mass Mass;
        /// Returns a volume.
        volume Volume;
        /// Returns a length.
        length Length;
        /// Returns an area.
        area Area;
        /// Returns a time.
        time Time;
        /// Returns a temperature.
        temperature Temperature;
        /// Returns a temperature difference.
        difference TemperatureDifference;
        /// Returns a pressure.
        pressure Pressure;
        /// Returns a power.
        power Power;
        /// Returns a power per mass.
        specific_power SpecificPower;
        /// Returns a density.
        density Density;
        /// Returns a diffusivity.
        diffusivity Diffusivity;
        /// Returns a heat-transfer coefficient.
        heat_transfer HeatTransfer;
        /// Returns a speed.
        speed Speed;
        /// Returns a speed of rotation.
        rotation RotationSpeed;
        /// Returns a rate.
        rate Rate;
    }
}
