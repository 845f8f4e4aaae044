//! Pure, sourced functions of food physics, one file per field.
//!
//! Each function states its equation, units, range of validity, errors and source, and returns an
//! error outside its range, never a silent extrapolation. Nothing here knows recipes, appliances
//! or formats.

pub mod aroma;
pub mod atmosphere;
pub mod brine;
pub mod conduction;
pub mod constants;
pub mod cryogen;
pub mod distillation;
pub mod droplets;
pub mod drying;
pub mod enzymes;
mod error;
pub mod ethanol_water;
pub mod evaporation;
pub mod filtration;
pub mod food_thermal;
pub mod freezing;
pub mod gas_solubility;
pub mod grinding;
pub mod heat_kinetics;
pub mod ice;
pub mod infusion;
pub mod pathogens;
pub mod room_air;
pub mod settling;
pub mod solutions;
pub mod solve;
pub mod sorption;
pub mod sublimation;
pub mod water;

pub use error::{PhysicsError, Validity, positive};
