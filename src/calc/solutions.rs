//! Questions about syrups, brines and cold baths.

use super::Question;

/// The questions of this file.
pub const QUESTIONS: &[Question] = &[];
