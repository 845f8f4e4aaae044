//! A recipe under study: what the laboratory makes of it is kept from kitchen to kitchen.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::sync::Arc;

use super::Draws;
use crate::advisor::laboratory::Laboratory;
use crate::advisor::walk::Prepared;
use crate::advisor::{AdaptError, Bench, Sampler};
use crate::kitchen::Kitchen;
use crate::knowledge::Knowledge;
use crate::recipe::Recipe;

/// A recipe whose verdict is asked for in one kitchen after the other.
///
/// The laboratory does not depend on the kitchen, so it is simulated once for each number of samples.
pub struct Study<'a> {
    recipe: &'a Recipe,
    knowledge: &'a Knowledge,
    /// The samples that a verdict may draw.
    pub(super) draws: &'a Draws,
    /// By the number of samples, which with the seed of the draws settles what is drawn.
    laboratories: RefCell<BTreeMap<usize, Walked<'a>>>,
}

/// The laboratory, or why it cannot be simulated on these samples.
type Walked<'a> = Result<Arc<Laboratory<'a>>, AdaptError>;

impl<'a> Study<'a> {
    /// Takes a recipe up.
    pub fn new(recipe: &'a Recipe, knowledge: &'a Knowledge, draws: &'a Draws) -> Self {
        Self { recipe, knowledge, draws, laboratories: RefCell::default() }
    }

    /// Makes the recipe ready in a kitchen.
    ///
    /// # Errors
    /// [`AdaptError`] for an ingredient or a step that cannot be simulated in the laboratory.
    pub(super) fn prepared<'s>(
        &'s self,
        kitchen: &'s Kitchen,
        sampler: &'s Sampler,
    ) -> Result<Prepared<'s>, AdaptError> {
        let Self { recipe, knowledge, .. } = *self;
        let mut laboratories = self.laboratories.borrow_mut();
        let walked = laboratories
            .entry(sampler.count())
            .or_insert_with(|| Laboratory::walk(recipe, knowledge, sampler, false).map(Arc::new));
        let laboratory = walked.clone()?;
        Ok(Prepared::beside(laboratory, recipe, Bench { knowledge, kitchen, sampler }))
    }
}
