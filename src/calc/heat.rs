//! Questions about heating, chilling and freezing food.

use super::Question;

/// The questions of this file.
pub const QUESTIONS: &[Question] = &[];
