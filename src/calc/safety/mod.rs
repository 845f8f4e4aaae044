//! Questions about keeping food safe, cooking and what heat destroys.

mod holds;
mod kinetics;
mod parasites;
mod pressure;
mod profile;

use super::Question;

/// The questions of this file.
pub const QUESTIONS: &[Question] = &[
    holds::HOLD_SAFELY,
    holds::LETHALITY,
    holds::GROWTH_LIMITS,
    holds::COOLING_CHECK,
    parasites::FREEZE_PARASITES,
    holds::THROUGH_HEAT,
    kinetics::COOK_VALUE,
    kinetics::RETENTION,
    kinetics::VITAMIN_C,
    kinetics::SOFTEN,
    kinetics::Z_AND_ENERGY,
    kinetics::EGG_YOLK,
    pressure::PRESSURE_COOK,
];

/// What every answer about safety says.
const LOCAL_CODES: &str = "a published figure, not a promise of safety: follow your local food code, \
                           and measure the coldest place of the food";
