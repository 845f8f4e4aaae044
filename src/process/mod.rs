//! Process models: a batch of food goes in with settings, and comes out changed.
//!
//! The laboratory's instrument and the home route are two settings of the same model. Every model
//! closes its mass and its energy, states its limits as errors, and can give its course over time.

pub mod attribute;
mod batch;
mod binding;
mod body;
pub mod buy;
pub mod carbonate;
pub mod chill;
pub mod churn;
mod cold;
mod contents;
mod course;
pub mod dealcoholise;
pub mod degas;
pub mod distil;
pub mod dry;
pub mod emulsify;
pub mod enzyme;
mod error;
pub mod evaporate;
pub mod filter;
pub mod foam;
pub mod freeze;
pub mod freeze_concentrate;
pub mod freeze_dry;
mod germs;
mod grinding;
pub mod heat;
pub mod hold;
pub mod infuse;
pub mod membrane;
pub mod mill;
pub mod mix;
mod part;
pub mod part_cold;
pub mod press;
pub mod pressure_cook;
mod properties;
mod run;
pub mod set_and_thaw;
mod settings;
pub mod shear;
pub mod smoke;
mod soften;
pub mod spin;
pub mod store;
mod stripping;
#[cfg(test)]
mod testing;
mod warming;

pub use batch::{Batch, HeatHistory, Ice, MAX_MARKERS, Marker, Markers, Pulp};
pub use contents::{Component, Contents};
pub use error::ProcessError;
pub use germs::{Carrier, Germ, Kills};
pub use properties::mixed;
pub use run::{CorePoint, EnergyBalance, Point, Run, Stream, Trace};
pub use settings::Settings;

/// A process model.
pub type Model = fn(&Batch, &Settings<'_>) -> Result<Run, ProcessError>;

/// Every process model by the id of its entry in the knowledge base, in alphabetical order.
pub const MODELS: &[(&str, Model)] = &[
    (buy::NAME, buy::run),
    (carbonate::NAME, carbonate::run),
    (chill::NAME, chill::run),
    (churn::NAME, churn::run),
    (dealcoholise::NAME, dealcoholise::run),
    (degas::NAME, degas::run),
    (distil::NAME, distil::run),
    (dry::NAME, dry::run),
    (emulsify::NAME, emulsify::run),
    (enzyme::NAME, enzyme::run),
    (evaporate::NAME, evaporate::run),
    (filter::NAME, filter::run),
    (foam::NAME, foam::run),
    (freeze::NAME, freeze::run),
    (freeze_concentrate::NAME, freeze_concentrate::run),
    (freeze_dry::NAME, freeze_dry::run),
    (hold::NAME, hold::run),
    (infuse::NAME, infuse::run),
    (mill::NAME, mill::run),
    (mix::NAME, mix::run),
    (part_cold::NAME, part_cold::run),
    (press::NAME, press::run),
    (membrane::NAME, membrane::run),
    (pressure_cook::NAME, pressure_cook::run),
    (set_and_thaw::NAME, set_and_thaw::run),
    (spin::SETTLE, spin::settle),
    (shear::NAME, shear::run),
    (smoke::NAME, smoke::run),
    (spin::NAME, spin::run),
    (store::NAME, store::run),
];

/// Finds a process model by the id of its entry.
///
/// # Errors
/// [`ProcessError::UnknownProcess`] when there is none.
pub fn model(name: &str) -> Result<(&'static str, Model), ProcessError> {
    MODELS
        .iter()
        .find(|(known, _)| *known == name)
        .copied()
        .ok_or_else(|| ProcessError::UnknownProcess { name: name.to_owned() })
}
