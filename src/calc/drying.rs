//! Questions about evaporating and drying.

use super::Question;

/// The questions of this file.
pub const QUESTIONS: &[Question] = &[];
