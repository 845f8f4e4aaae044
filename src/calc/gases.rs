//! Questions about gases and cryogens.

use super::Question;

/// The questions of this file.
pub const QUESTIONS: &[Question] = &[];
