//! Questions about boiling, steam, ice and air pressure.

use super::Question;

/// The questions of this file.
pub const QUESTIONS: &[Question] = &[];
