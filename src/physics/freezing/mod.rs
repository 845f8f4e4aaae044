//! Freezing and thawing: how long they take, how fast the front moves, what crystals result.
//!
//! Answers the freezing time by Plank and by Pham, the thawing time by Cleland and others, the
//! freezing rate with its class, the size of ice crystals and their growth in storage. The heat that
//! the food gives up belongs to [`crate::physics::food_thermal`]. Symbols: t time, a thickness or
//! diameter, r half of it, h heat transfer, k conductivity, rho density, L latent heat of the food,
//! c heat capacity, Ti start, Tf freezing point, Tc final centre, Ta surroundings; u unfrozen, f frozen.

mod crystals;
mod pham;
mod plank;
mod thawing;

pub use crystals::{
    CrystalGrowth, FreezingClass, crystal_size_after_storage, crystal_size_from_rate,
    freezing_class, freezing_rate,
};
pub use pham::{FreezingSolid, PHAM_PUBLISHED, freezing_time_pham, heat_flow_dimensions};
pub use plank::{FrontSolid, PlankFactors, freezing_time_plank, plank_factors};
pub use thawing::{ThawingSolid, thawing_time};
