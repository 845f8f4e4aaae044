//! Questions about keeping food safe, cooking and what heat destroys.

use super::Question;

/// The questions of this file.
pub const QUESTIONS: &[Question] = &[];
