//! An adapted recipe: what the adviser answers.

use super::Verdict;
use super::advice::{StepAdvice, StepError};
use super::choose::Choice;
use super::feed::FeedError;
use super::home::Wait;
use super::ledger::Ledger;
use super::size::Sizing;
use crate::estimate::Estimate;
use crate::quantity::{Mass, Time};
use crate::recipe::BalanceError;

/// A recipe for one kitchen.
#[derive(Debug, Clone, PartialEq)]
pub struct Adaptation {
    /// What to buy.
    pub ingredients: Vec<AdaptedIngredient>,
    /// The steps.
    pub steps: Vec<AdaptedStep>,
    /// The verdict on the whole: the worst of the steps.
    pub verdict: Verdict,
    /// What the recipe makes at home \[kg\].
    pub makes: Option<Estimate>,
    /// What it makes in the laboratory \[kg\].
    pub makes_in_laboratory: Option<Estimate>,
    /// Time from start to end \[s\].
    pub time: Option<Estimate>,
    /// Attended time \[s\].
    pub attended: Option<Estimate>,
    /// How the routes were chosen.
    pub choice: Choice,
    /// How much is made.
    pub sizing: Sizing,
    /// Where the mass goes; none when no sample worked.
    pub ledger: Option<Ledger>,
    /// The time asked for, and whether the recipe is done within it nine times in ten.
    pub within: Option<Within>,
}

/// The longest time that the cook has.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Within {
    /// The time asked for.
    pub limit: Time,
    /// Whether the recipe is done within it nine times in ten.
    pub fits: bool,
}

impl Adaptation {
    /// Returns whether the answer is no: a goal that is not reached, or a time that is not kept.
    pub fn says_no(&self) -> bool {
        self.verdict == Verdict::No || self.within.is_some_and(|within| !within.fits)
    }
}

/// An ingredient with the amount that the home routes need.
#[derive(Debug, Clone, PartialEq)]
pub struct AdaptedIngredient {
    /// Name of the food.
    pub name: String,
    /// The amount as the author wrote it.
    pub written: String,
    /// What to buy.
    pub bought: Mass,
    /// What is left after trimming.
    pub trimmed: Mass,
    /// Home amount over the amount in the recipe.
    pub factor: f64,
    /// Allergens.
    pub allergens: Vec<String>,
}

impl AdaptedIngredient {
    /// Returns whether it is needed: a product that is bought ready-made can make it superfluous.
    pub fn is_needed(&self) -> bool {
        self.factor > 0.0
    }
}

/// A step as it is done at home.
#[derive(Debug, Clone, PartialEq)]
pub struct AdaptedStep {
    /// What it makes.
    pub product: String,
    /// What is done.
    pub advice: Advice,
    /// Mass of the product \[kg\].
    pub makes: Option<Estimate>,
    /// What goes into it: names and masses \[kg\].
    pub takes: Vec<(String, Estimate)>,
    /// What it waits for, when another branch of the recipe has an appliance in use.
    pub wait: Option<Wait>,
    /// Whether it is needed: a later product that is bought ready-made makes it superfluous.
    pub is_needed: bool,
}

/// What is done in a step.
#[derive(Debug, Clone, PartialEq)]
pub enum Advice {
    /// A professional step with its home routes.
    Professional(Box<StepAdvice>),
    /// Plain kitchen work.
    Plain(String),
}

/// Why a recipe cannot be adapted.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum AdaptError {
    /// An ingredient makes no batch.
    #[error("ingredient `{ingredient}`: {error}")]
    Feed {
        /// The ingredient.
        ingredient: String,
        /// Why.
        error: FeedError,
    },
    /// A step cannot be simulated.
    #[error("step `{step}`: {error}")]
    Step {
        /// What the step makes.
        step: String,
        /// Why.
        error: StepError,
    },
    /// The yields do not add up.
    #[error(transparent)]
    Balance(#[from] BalanceError),
    /// A route that the cook has chosen cannot be taken.
    #[error("the route `{route}` cannot be taken for `{step}`: {because}")]
    Pin {
        /// What the step makes.
        step: String,
        /// The route.
        route: String,
        /// What it lacks, or why it does not work.
        because: String,
    },
}
