//! Questions about alcohol and distilling.

use super::Question;

/// The questions of this file.
pub const QUESTIONS: &[Question] = &[];
