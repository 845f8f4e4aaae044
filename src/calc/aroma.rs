//! Questions about smell.

use super::Question;

/// The questions of this file.
pub const QUESTIONS: &[Question] = &[];
