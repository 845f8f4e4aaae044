//! Questions about droplets, shear and grinding.

mod breakup;
mod emulsion;
mod grinding;
mod mixer;

use super::Question;

/// The questions of this file.
pub const QUESTIONS: &[Question] = &[
    mixer::TIP_SPEED,
    mixer::ENERGY_DENSITY,
    mixer::MIX_TIME,
    mixer::SHEAR_HEAT,
    breakup::DROPLETS,
    breakup::EDDIES,
    breakup::SHEAR,
    breakup::LAPLACE,
    emulsion::EMULSIFY,
    emulsion::HOMOGENISE,
    emulsion::EMULSIFIER,
    emulsion::CREAM_RING,
    grinding::GRIND,
    grinding::GRIND_TIME,
    grinding::MOUTHFEEL,
];
