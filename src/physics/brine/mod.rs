//! Salt brines and ice-salt cold baths.
//!
//! Answers when a brine freezes, how much salt water takes up, how dry and how hot-boiling table
//! salt makes it, and how cold and how lasting a bath of ice and salt is. Spirit baths are left to
//! `ethanol_water`, the colligative law of mixed foods to `solutions`.

mod bath;
mod freezing;
mod sodium_chloride;

pub use bath::{Bath, ColdBath};
pub use freezing::{
    Salt, eutectic_share, eutectic_temperature, freezing_point, molality, share_at_freezing_point,
    share_from_molality, solubility_share,
};
pub use sodium_chloride::{
    MAX_MOLALITY_MOL_PER_KG, log_water_activity, osmotic_coefficient, water_activity,
};
