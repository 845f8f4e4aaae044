//! Organisms that matter in a kitchen: how heat kills them, how long to hold, where they grow.
//!
//! Answers decimal reductions of a named organism, the published hold times of the authorities, and
//! the limits of growth. These are published figures, not a promise of safety: local codes decide,
//! and a thermometer in the coldest place is needed in any case.

mod growth;
mod hold_times;
mod organisms;
mod parasites;

pub use growth::{GROWTH_LIMITS, GrowthLimits, growth_limits};
pub use hold_times::{HOLD_RULES, HoldPoint, HoldRule, hold_rule};
pub use organisms::{ORGANISMS, Organism, organism};
pub use parasites::{FREEZING_RULES, FreezingRule, freezing_rule};

/// How a published figure came into this program.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Checked {
    /// Read in the publication, its abstract, or a copy of the table.
    Read,
    /// Restated from memory of the publication; not checked against it.
    Memory,
}
