//! What becomes of a recipe, and the fewest things to get that make more of it.

use super::judge::{outlook, prospects};
use super::{Outlook, Study};
use crate::advisor::purchase::{Budget, Dish, Shop, Things, Wanted, choose};
use crate::advisor::{AdaptError, Verdict};
use crate::kitchen::Kitchen;
use crate::knowledge::Knowledge;

/// A kitchen with what it could buy.
#[derive(Debug, Clone, Copy)]
pub struct Buyer<'a> {
    /// The kitchen as it is.
    pub kitchen: &'a Kitchen,
    /// What it lacks for the techniques asked about.
    pub shop: &'a Shop,
    /// The kitchen with all of it bought.
    pub equipped: &'a Kitchen,
    /// The knowledge base.
    pub knowledge: &'a Knowledge,
}

/// A recipe checked in a kitchen.
#[derive(Debug, Clone, PartialEq)]
pub struct Checked {
    /// What becomes of it.
    pub now: Outlook,
    /// The number of samples that the verdict took.
    pub samples: usize,
    /// What becomes of it at typical values with everything on offer bought.
    pub equipped: Outlook,
}

/// What to get, and what becomes of the recipe then.
#[derive(Debug, Clone, PartialEq)]
pub struct Remedy {
    /// Numbers of things in the shop.
    pub things: Vec<usize>,
    /// The verdict with them.
    pub after: Verdict,
}

/// The most things that one recipe is worth: more is another kitchen. Estimate.
const MOST_FOR_ONE: u32 = 6;

impl Buyer<'_> {
    /// Checks a recipe, as the kitchen is and with everything on offer.
    ///
    /// # Errors
    /// [`AdaptError`] for an ingredient or a step that cannot be simulated.
    pub fn check(&self, study: &Study<'_>) -> Result<Checked, AdaptError> {
        let (now, samples) = outlook(study, self.kitchen)?;
        // Where typical values are no case of the laboratory's, nothing is foreseen.
        let equipped = prospects(study, self.equipped).unwrap_or_default();
        Ok(Checked { now, samples, equipped })
    }

    /// Puts a checked recipe as a buyer sees it.
    pub fn dish(&self, checked: &Checked, wanted: Wanted) -> Dish {
        self.shop.dish(&checked.now, &checked.equipped, wanted, self.knowledge)
    }

    /// Finds the fewest things that make a recipe possible, or better when it is possible already.
    ///
    /// # Errors
    /// As [`Buyer::check`].
    pub fn remedy(
        &self,
        study: &Study<'_>,
        checked: &Checked,
    ) -> Result<Option<Remedy>, AdaptError> {
        let possible = checked.now.verdict != Verdict::No;
        let wanted = if possible { Wanted::Quality } else { Wanted::Recipes };
        let dish = self.dish(checked, wanted);
        let (costs, budget) = self.shop.costs(Budget::Pieces(MOST_FOR_ONE));
        let choice = choose(&[dish], &costs, budget);
        if choice.gain == 0 {
            return Ok(None);
        }
        let after = self.after(study, &choice.things)?;
        let better = after < checked.now.verdict;
        Ok(better.then_some(Remedy { things: choice.things, after }))
    }

    /// Runs a recipe in the kitchen with some things bought.
    ///
    /// # Errors
    /// As [`Buyer::check`].
    pub fn after(&self, study: &Study<'_>, things: &[usize]) -> Result<Verdict, AdaptError> {
        let bought = self.shop.bought(self.kitchen, things, self.knowledge);
        Ok(outlook(study, &bought)?.0.verdict)
    }

    /// Returns whether a recipe gains by some things, as far as the choice foresees.
    pub fn gains(dish: &Dish, things: &[usize]) -> bool {
        dish.level(things.iter().copied().collect()) > dish.level(Things::NONE)
    }
}
