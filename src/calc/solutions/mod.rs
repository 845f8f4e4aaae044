//! Questions about syrups, brines and cold baths.

mod brine;
mod mixed;
mod syrup;

use super::{Answer, Question};
use crate::physics::PhysicsError;

/// The questions of this file.
pub const QUESTIONS: &[Question] = &[
    syrup::SYRUP,
    syrup::REFRACTOMETER,
    syrup::SUGAR_SOLUBILITY,
    syrup::FREEZE_SYRUP,
    syrup::BOIL_SYRUP,
    mixed::MIXED_SOLUTION,
    brine::BRINE,
    brine::BRINE_FOR,
    brine::COLD_BATH,
];

/// Adds an output, or a remark why it is missing when only this one is outside its range.
fn with_result(answer: Answer, key: &'static str, result: Result<f64, PhysicsError>) -> Answer {
    match result {
        Ok(value) => answer.with(key, value),
        Err(error) => answer.remark(format!("no {key}: {error}")),
    }
}
