//! Sugar syrups and other solutions: density, freezing, boiling, viscosity, water activity.
//!
//! `syrup` holds the properties of sucrose in water, `solute` the substances that a food dissolves,
//! `activity` the water activity of their mixture, `phases` the freezing and boiling points that
//! follow from it and their inverses. Volatile solutes such as spirit are left to `ethanol_water`.

mod activity;
mod phases;
mod refraction;
mod solute;
mod syrup;

pub use activity::Solution;
pub use phases::{brix_at_freezing_point, ice_water_activity};
pub use refraction::{brix_from_refractive_index, brix_temperature_correction, refractive_index};
pub use solute::Solute;
pub use syrup::{
    brix_from_density, density, mole_fraction, specific_heat, sucrose_solubility, viscosity,
};
