//! Questions about settling, spinning and filtering.

use super::Question;

/// The questions of this file.
pub const QUESTIONS: &[Question] = &[];
