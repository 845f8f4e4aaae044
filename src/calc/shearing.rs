//! Questions about droplets, shear and grinding.

use super::Question;

/// The questions of this file.
pub const QUESTIONS: &[Question] = &[];
