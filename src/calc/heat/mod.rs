//! Questions about heating, chilling and freezing food.

mod chill;
mod cold;
mod core;
mod food;
mod insulated;

use super::Question;

/// The questions of this file.
pub const QUESTIONS: &[Question] = &[
    food::THERMAL,
    food::COMPONENT,
    food::FREEZING_POINT,
    food::FROZEN_SHARE,
    food::HEAT_TO_CHANGE,
    core::CORE_TEMPERATURE,
    core::CORE_TIME,
    chill::CHILL,
    core::CONDUCTION,
    core::SEAR_DEPTH,
    insulated::INSULATED_BOX,
    cold::FREEZE_TIME,
    cold::PLANK_FACTORS,
    cold::THAW,
    cold::CRYSTAL_SIZE,
];
