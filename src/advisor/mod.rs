//! The adviser: which home route stands in for a laboratory step, and what is lost.
//!
//! Match what a route needs with what the kitchen owns, run laboratory and routes through the same
//! process models on the same sampled food, score the difference in steps that a person notices,
//! rank, and put the whole recipe together.

mod adapt;
mod adaptation;
mod advice;
mod advise;
mod avoided;
mod caution;
pub mod check;
mod choose;
mod cost;
mod facts;
mod feed;
mod finish;
mod gear;
mod home;
mod laboratory;
mod ledger;
mod loads;
mod matching;
mod money;
mod plan;
pub mod purchase;
mod rank;
mod reference;
mod replaced;
mod sample;
mod score;
mod simulate;
mod size;
mod step;
pub mod survey;
pub mod timeline;
mod unknown;
mod walk;
mod wording;

pub use adapt::{adapt, adapt_to, foresee};
pub use adaptation::{AdaptError, Adaptation, AdaptedIngredient, AdaptedStep, Advice, Within};
pub use advice::{Method, MoveAdvice, RuledOut, StepAdvice, StepError, Unknown};
pub use advise::{FoodOf, advise, advise_by};
pub use avoided::{allergens, avoided, avoided_supplies, supplies_used};
pub use caution::{Caution, Matter, cautions, fires};
pub use choose::{BEAM_WIDTH, Choice, Combination, MOST_EXACT, Pin, Wishes};
pub use cost::{SupplyCost, supply_cost};
pub use facts::{FACTS, Facts, facts};
pub use feed::{FeedError, feeds};
pub use home::Wait;
pub use ledger::{Ledger, Line};
pub use loads::LoadsAdvice;
pub use matching::{Fit, Missing, Need, fit, supplied};
pub use money::Cost;
pub use plan::{Plan, PlanError, Slot, Sources};
pub use rank::{Criterion, Mark, Prefer, StepMark};
pub use sample::{Column, Sampler};
pub use score::{Aim, Comparison, Goals, Score, Term, Verdict, score};
pub use simulate::{Balance, Faulty, MoveRecord, Simulated, simulate};
pub use size::{Have, Size, Sizing};
pub use wording::instruction;

/// Everything that a run of the adviser needs to know.
#[derive(Debug, Clone, Copy)]
pub struct Bench<'a> {
    /// The knowledge base.
    pub knowledge: &'a crate::knowledge::Knowledge,
    /// The kitchen at home.
    pub kitchen: &'a crate::kitchen::Kitchen,
    /// The draws.
    pub sampler: &'a Sampler,
}
