//! What advice on one professional step says.

use std::collections::BTreeMap;

use super::caution::Caution;
use super::loads::LoadsAdvice;
use super::matching::Missing;
use super::money::Cost;
use super::plan::{OvenUse, PlanError};
use super::score::Score;
use super::simulate::Simulated;
use crate::estimate::Estimate;
use crate::process::Trace;

/// A method as it is carried out: one move.
#[derive(Debug, Clone, PartialEq)]
pub struct MoveAdvice {
    /// What to do.
    pub instruction: String,
    /// When to stop.
    pub until: Option<String>,
    /// Time from start to end \[s\].
    pub time: Option<Estimate>,
    /// Attended time \[s\].
    pub attended: Option<Estimate>,
    /// The loads, when not everything fits at once.
    pub loads: Option<LoadsAdvice>,
    /// Labels of the appliances used.
    pub appliances: Vec<String>,
    /// How it takes up an oven.
    pub oven: OvenUse,
    /// Supplies with their amount, when they are used up.
    pub supplies: Vec<(String, Option<String>)>,
    /// The course over time.
    pub trace: Option<Trace>,
}

/// The unknown that matters most to a method.
#[derive(Debug, Clone, PartialEq)]
pub struct Unknown {
    /// What it is.
    pub meaning: String,
    /// Share of the spread in time that goes with it.
    pub weight: f64,
    /// What the cook can do to know it better.
    pub measure: Option<String>,
}

/// A method with its results.
#[derive(Debug, Clone, PartialEq)]
pub struct Method {
    /// Id of the route or technique.
    pub id: String,
    /// Its name.
    pub name: String,
    /// What it is.
    pub summary: String,
    /// Its moves.
    pub moves: Vec<MoveAdvice>,
    /// Its results by sample.
    pub simulated: Simulated,
    /// Its score beside the laboratory; the laboratory's own has no loss.
    pub score: Score,
    /// Cautions.
    pub cautions: Vec<Caution>,
    /// Losses that no model computes, as stated.
    pub loses: Vec<String>,
    /// When it fails.
    pub fails: Vec<String>,
    /// Whether it is bought ready-made rather than made.
    pub bought: bool,
    /// What it uses up.
    pub cost: Cost,
    /// The unknown that matters most.
    pub unknown: Option<Unknown>,
}

impl Method {
    /// Makes a method of which only results and score are asked.
    pub(super) fn judged(id: &str, simulated: Simulated, score: Score) -> Self {
        Self {
            id: id.to_owned(),
            name: String::new(),
            summary: String::new(),
            moves: Vec::new(),
            simulated,
            score,
            cautions: Vec::new(),
            loses: Vec::new(),
            fails: Vec::new(),
            bought: false,
            cost: Cost::default(),
            unknown: None,
        }
    }
}

/// A route that is not open to this kitchen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RuledOut {
    /// Id of the route.
    pub id: String,
    /// Its name.
    pub name: String,
    /// What is missing.
    pub missing: Vec<Missing>,
    /// Why it does not work with what is there, when nothing is missing.
    pub because: Option<String>,
}

impl RuledOut {
    /// Says what the route lacks, or why it does not work.
    pub fn reasons(&self) -> String {
        let missing = self.missing.iter().map(|missing| match missing {
            Missing::Appliance(need) | Missing::Supply(need) => format!("needs {}", need.names),
            Missing::Food(suits) => format!("suits {suits}"),
        });
        missing.chain(self.because.clone()).collect::<Vec<String>>().join("; ")
    }
}

/// Advice on one professional step.
#[derive(Debug, Clone, PartialEq)]
pub struct StepAdvice {
    /// Id of the technique.
    pub technique: String,
    /// The laboratory.
    pub laboratory: Method,
    /// The routes that are open, the best first.
    pub routes: Vec<Method>,
    /// For each route but the best, why it came later.
    pub reasons: BTreeMap<String, String>,
    /// Routes that are not open.
    pub ruled_out: Vec<RuledOut>,
}

/// Why a step cannot be advised upon.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum StepError {
    /// A move cannot be planned.
    #[error(transparent)]
    Plan(#[from] PlanError),
    /// The laboratory's own method does not work with the settings of the recipe.
    #[error("the laboratory method does not work as set: {because}")]
    Laboratory {
        /// Why.
        because: String,
    },
    /// The technique is not in the knowledge base.
    #[error("no technique goes by `{0}`")]
    UnknownTechnique(String),
    /// The laboratory lacks an appliance of the technique.
    #[error("no appliance of the laboratory serves as `{0}`")]
    NoInstrument(String),
}
