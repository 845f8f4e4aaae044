//! Choosing the routes of a whole recipe together.
//!
//! A route that dilutes makes a later step longer, and a route that leaves nothing for the next step
//! to work on is no route. So every combination of the open routes is carried through the recipe at
//! the amounts that its yields ask for, and judged as one dish. With more combinations than
//! [`MOST_EXACT`] a beam search keeps the best [`BEAM_WIDTH`] ways at each step.

mod search;
mod why;

pub(super) use search::{Barred, SETTLED, Search};
pub(super) use why::{why_alone, why_not};

use super::rank::{Mark, Prefer};
use super::size::Size;
use crate::quantity::{Mass, Time, Volume};
use crate::recipe::Needs;

/// Up to so many combinations each one is tried.
pub const MOST_EXACT: usize = 128;
/// Ways that a bounded search carries on from one step to the next.
pub const BEAM_WIDTH: usize = 8;

/// What the cook asks for.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Wishes {
    /// What decides between routes that reach their goals.
    pub prefer: Prefer,
    /// The longest time from start to end.
    pub within: Option<Time>,
    /// Routes that the cook has chosen.
    pub pins: Vec<Pin>,
    /// How much is made.
    pub size: Size,
}

/// A route that the cook has chosen for a step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pin {
    /// Index of the step in the recipe.
    pub step: usize,
    /// Id of the route.
    pub route: String,
}

/// How the routes of a dish were chosen.
#[derive(Debug, Clone, PartialEq)]
pub struct Choice {
    /// Whether every combination was tried; else the search was bounded.
    pub exact: bool,
    /// How many combinations there are.
    pub combinations: usize,
    /// How many were carried through the whole recipe.
    pub tried: usize,
    /// Samples on which they were compared.
    pub samples: usize,
    /// What decided among those that reach their goals.
    pub prefer: Prefer,
    /// The combination that was chosen.
    pub best: Combination,
    /// The others that were carried through, the best first.
    pub others: Vec<Combination>,
}

/// One route for every professional step, and what the dish comes to.
#[derive(Debug, Clone, PartialEq)]
pub struct Combination {
    /// Id of the route by step of the recipe; none for plain work and where no route works.
    pub routes: Vec<Option<String>>,
    /// What the dish comes to.
    pub mark: Mark,
    /// The amounts over those of the recipe.
    pub needs: Needs,
    /// Mass of the dish at the median.
    pub mass: Mass,
    /// Volume of the dish at the median; not a number where a density is not known.
    pub volume: Volume,
}

impl Combination {
    /// Compares two combinations, the better first; ids decide ties.
    pub fn compare(&self, other: &Self, prefer: Prefer) -> std::cmp::Ordering {
        let by_mark = self.mark.compare(&other.mark, prefer).0;
        by_mark.then_with(|| self.routes.cmp(&other.routes))
    }
}
