//! Process models: a batch of food goes in with settings, and comes out changed.
//!
//! The laboratory's instrument and the home route are two settings of the same model. Every model
//! closes its mass and its energy, states its limits as errors, and can give its course over time.

pub mod attribute;
mod batch;
mod binding;
mod body;
pub mod chill;
pub mod churn;
mod cold;
mod contents;
mod course;
pub mod dry;
mod error;
pub mod evaporate;
pub mod filter;
pub mod freeze;
pub mod freeze_concentrate;
pub mod freeze_dry;
pub mod heat;
pub mod hold;
mod part;
pub mod pressure_cook;
mod properties;
mod run;
pub mod set_and_thaw;
mod settings;
mod soften;
pub mod spin;
pub mod store;

pub use batch::{Batch, HeatHistory, Ice, MAX_MARKERS, Marker, Markers, Pulp};
pub use contents::{Component, Contents};
pub use error::ProcessError;
pub use properties::mixed;
pub use run::{EnergyBalance, Point, Run, Stream, Trace};
pub use settings::Settings;

/// A process model.
pub type Model = fn(&Batch, &Settings<'_>) -> Result<Run, ProcessError>;

/// Every process model by the id of its entry in the knowledge base, in alphabetical order.
pub const MODELS: &[(&str, Model)] = &[
    (chill::NAME, chill::run),
    (churn::NAME, churn::run),
    (dry::NAME, dry::run),
    (evaporate::NAME, evaporate::run),
    (filter::NAME, filter::run),
    (freeze::NAME, freeze::run),
    (freeze_concentrate::NAME, freeze_concentrate::run),
    (freeze_dry::NAME, freeze_dry::run),
    (hold::NAME, hold::run),
    (pressure_cook::NAME, pressure_cook::run),
    (set_and_thaw::NAME, set_and_thaw::run),
    (spin::SETTLE, spin::settle),
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
