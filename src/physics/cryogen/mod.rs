//! Liquid nitrogen and dry ice: cold, boil-off and gas.
//!
//! Answers how much cold a kilogram holds, how much is needed to cool or freeze a food, how fast it
//! boils or sublimes away, and what gas it becomes. What the gas does to a room is left to
//! `room_air`.

mod demand;
mod dry_ice;
mod gas;
mod liquid;

pub use demand::{FoodCooling, cryogen_needed, loss_through_walls, mass_after_losses};
pub use dry_ice::{
    dry_ice_cooling_capacity, sublimation_heat, sublimation_pressure, sublimation_temperature,
};
pub use gas::{Gas, specific_volume};
pub use liquid::{
    Cryogen, boiling_point, cooling_capacity, latent_heat, liquid_density, vapour_sensible_heat,
};
