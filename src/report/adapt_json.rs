//! An adapted recipe as JSON: stable keys that carry their unit.

use std::collections::BTreeMap;

use serde::Serialize;

use super::adapt::Setting;
use super::choice::ChoiceJson;
use super::ledger::LedgerJson;
use super::shown::Range;
use crate::advisor::{Adaptation, Advice, Method, Missing, StepAdvice, Verdict};
use crate::estimate::Estimate;
use crate::process::{CorePoint, Germ, Trace};

/// An adapted recipe.
#[derive(Debug, Serialize)]
pub struct AdaptationJson {
    /// Title of the recipe.
    pub recipe: String,
    /// Name of the kitchen.
    pub kitchen: String,
    /// The verdict on the whole.
    pub verdict: Verdict,
    /// What it makes at home.
    pub makes_kg: Option<Range>,
    /// What it makes in the laboratory.
    pub makes_laboratory_kg: Option<Range>,
    /// Time from start to end.
    pub time_s: Option<Range>,
    /// Attended time.
    pub hands_on_s: Option<Range>,
    /// What to buy.
    pub ingredients: Vec<IngredientJson>,
    /// The steps.
    pub steps: Vec<StepJson>,
    /// What the cook asked for, in words.
    pub asked: Vec<String>,
    /// Whether the longest time asked for is kept nine times in ten; none when none was asked for.
    pub fits_within: Option<bool>,
    /// How the routes were chosen.
    pub choice: ChoiceJson,
    /// Size of the dish over the recipe's.
    pub scale: f64,
    /// The ingredient that decides how much can be made, when the cook says what there is.
    pub scarcest: Option<String>,
    /// Where the mass goes.
    pub ledger: Option<LedgerJson>,
}

/// What to buy.
#[derive(Debug, Serialize)]
pub struct IngredientJson {
    /// Name of the food.
    pub name: String,
    /// Amount to buy.
    pub bought_kg: f64,
    /// What is left of it after trimming.
    pub trimmed_kg: f64,
    /// The amount as the author wrote it.
    pub written: String,
    /// Home amount over the amount in the recipe.
    pub factor: f64,
    /// Allergens.
    pub allergens: Vec<String>,
}

/// One step.
#[derive(Debug, Serialize)]
pub struct StepJson {
    /// What it makes.
    pub product: String,
    /// Whether it is needed: a later product that is bought ready-made makes it superfluous.
    pub needed: bool,
    /// Mass of the product.
    pub makes_kg: Option<Range>,
    /// What to do, for plain work.
    pub work: Option<String>,
    /// Advice, for a professional step.
    pub technique: Option<TechniqueJson>,
    /// Mass of what goes in, by name.
    pub takes_kg: BTreeMap<String, Range>,
    /// What it waits for.
    pub waits_for: Option<String>,
    /// How long it waits.
    pub wait_s: Option<Range>,
}

/// Advice on a professional step.
#[derive(Debug, Serialize)]
pub struct TechniqueJson {
    /// Id of the technique.
    pub id: String,
    /// The laboratory.
    pub laboratory: MethodJson,
    /// Routes open to the kitchen, the best first.
    pub routes: Vec<MethodJson>,
    /// Routes that are not open, with what is missing.
    pub ruled_out: BTreeMap<String, Vec<String>>,
}

/// A method with its results.
#[derive(Debug, Serialize)]
pub struct MethodJson {
    /// Id of the route or technique.
    pub id: String,
    /// Its name.
    pub name: String,
    /// The verdict.
    pub verdict: Verdict,
    /// The worst loss that counts, in noticed steps.
    pub worst_loss_steps: f64,
    /// Why it came after the best.
    pub why_later: Option<String>,
    /// Time from start to end.
    pub time_s: Option<Range>,
    /// Attended time.
    pub hands_on_s: Option<Range>,
    /// What the supplies that it uses up cost, in the money of the price list.
    pub used_up_money: Range,
    /// Results by attribute in SI.
    pub attributes_si: BTreeMap<String, Range>,
    /// Losses in noticed steps by attribute.
    pub loss_steps: BTreeMap<String, f64>,
    /// Its moves.
    pub moves: Vec<MoveJson>,
    /// Ids of its cautions.
    pub cautions: Vec<String>,
    /// Share of the samples in which it works.
    pub works_fraction: f64,
}

/// One move.
#[derive(Debug, Serialize)]
pub struct MoveJson {
    /// What to do.
    pub instruction: String,
    /// When to stop.
    pub until: Option<String>,
    /// Time.
    pub time_s: Option<Range>,
    /// Attended time.
    pub hands_on_s: Option<Range>,
    /// How many loads it is done in, when not everything fits at once.
    pub loads: Option<f64>,
    /// What goes into each load.
    pub load_kg: Option<f64>,
    /// The course over time.
    pub trace: Option<TraceJson>,
}

/// The course of a move over time, by point.
#[derive(Debug, Serialize)]
pub struct TraceJson {
    /// What `measure` is.
    pub measure_is: &'static str,
    /// Time since its start.
    pub time_s: Vec<f64>,
    /// Mass of the food.
    pub mass_kg: Vec<f64>,
    /// Temperature of the food.
    pub temperature_k: Vec<f64>,
    /// What the move is about.
    pub measure: Vec<f64>,
    /// Middle notes left.
    pub aroma_fraction: Vec<f64>,
    /// The coldest place, where the model follows one.
    pub core: Option<CoreJson>,
}

/// What heat did to the coldest place, by point; what earlier moves did is counted.
#[derive(Debug, Serialize)]
pub struct CoreJson {
    /// Time since the start of the move.
    pub time_s: Vec<f64>,
    /// Temperature of the core.
    pub temperature_k: Vec<f64>,
    /// Equivalent time at 70 °C so far.
    pub pasteurised_s: Vec<f64>,
    /// Equivalent time at 121.1 °C so far.
    pub sterilised_s: Vec<f64>,
    /// Decimal reductions so far, by germ.
    pub decimal_reductions: BTreeMap<&'static str, Vec<f64>>,
}

/// Digits of the points of a course.
const TRACE_DIGITS: usize = 4;

/// Makes the JSON of an adapted recipe.
pub fn adaptation(done: &Adaptation, setting: &Setting<'_>) -> AdaptationJson {
    let ingredients = done.ingredients.iter().map(|one| IngredientJson {
        name: one.name.clone(),
        bought_kg: digits(one.bought.kilograms()),
        trimmed_kg: digits(one.trimmed.kilograms()),
        written: one.written.clone(),
        factor: digits(one.factor),
        allergens: one.allergens.clone(),
    });
    let steps = done.steps.iter().map(|step| {
        let (work, technique) = match &step.advice {
            Advice::Plain(text) => (Some(text.clone()), None),
            Advice::Professional(advice) => (None, Some(self::technique(advice))),
        };
        StepJson {
            product: step.product.clone(),
            needed: step.is_needed,
            makes_kg: range(step.makes.as_ref()),
            work,
            technique,
            takes_kg: step.takes.iter().map(|(name, kg)| (name.clone(), Range::si(kg))).collect(),
            waits_for: step.wait.as_ref().map(|wait| wait.appliance.clone()),
            wait_s: range(step.wait.as_ref().map(|wait| &wait.time)),
        }
    });
    AdaptationJson {
        recipe: setting.recipe.title.clone(),
        kitchen: setting.kitchen.name.clone(),
        verdict: done.verdict,
        makes_kg: range(done.makes.as_ref()),
        makes_laboratory_kg: range(done.makes_in_laboratory.as_ref()),
        time_s: range(done.time.as_ref()),
        hands_on_s: range(done.attended.as_ref()),
        ingredients: ingredients.collect(),
        steps: steps.collect(),
        asked: setting.asked.to_vec(),
        fits_within: done.within.map(|within| within.fits),
        choice: super::choice::json(&done.choice),
        scale: digits(done.sizing.scale),
        scarcest: done.sizing.scarcest.map(|index| done.ingredients[index].name.clone()),
        ledger: done.ledger.as_ref().and_then(super::ledger::json),
    }
}

/// Makes the JSON of the advice on one step.
pub fn technique(advice: &StepAdvice) -> TechniqueJson {
    let missing = |missing: &Missing| match missing {
        Missing::Appliance(need) | Missing::Supply(need) => need.any_of.join(" | "),
        Missing::Food(suits) => format!("suits {suits}"),
    };
    let ruled_out = advice.ruled_out.iter().map(|route| {
        let reasons = route.missing.iter().map(missing).chain(route.because.clone());
        (route.id.clone(), reasons.collect())
    });
    let routes = advice.routes.iter().map(|one| method(one, advice.reasons.get(&one.id)));
    TechniqueJson {
        id: advice.technique.clone(),
        laboratory: method(&advice.laboratory, None),
        routes: routes.collect(),
        ruled_out: ruled_out.collect(),
    }
}

fn method(one: &Method, why_later: Option<&String>) -> MethodJson {
    let score = &one.score;
    let attributes = score.comparisons.iter().map(|c| (c.attribute.clone(), Range::si(&c.home)));
    let losses = score.comparisons.iter().map(|c| (c.attribute.clone(), digits(c.steps)));
    let moves = one.moves.iter().map(|one| MoveJson {
        instruction: one.instruction.clone(),
        until: one.until.clone(),
        time_s: range(one.time.as_ref()),
        hands_on_s: range(one.attended.as_ref()),
        loads: one.loads.map(|loads| loads.count),
        load_kg: one.loads.map(|loads| digits(loads.each)),
        trace: one.trace.as_ref().map(trace),
    });
    MethodJson {
        id: one.id.clone(),
        name: one.name.clone(),
        verdict: score.verdict,
        worst_loss_steps: digits(score.worst),
        why_later: why_later.cloned(),
        time_s: range(one.simulated.time().as_ref()),
        hands_on_s: range(one.simulated.attended().as_ref()),
        used_up_money: Range::si(&one.cost.money),
        attributes_si: attributes.collect(),
        loss_steps: losses.collect(),
        moves: moves.collect(),
        cautions: one.cautions.iter().map(|caution| caution.hazard.clone()).collect(),
        works_fraction: digits(one.simulated.working_share()),
    }
}

fn trace(trace: &Trace) -> TraceJson {
    let each = |of: fn(&crate::process::Point) -> f64| {
        trace.points.iter().map(|point| digits(of(point))).collect()
    };
    TraceJson {
        measure_is: trace.measure,
        time_s: each(|point| point.time.si()),
        mass_kg: each(|point| point.mass.si()),
        temperature_k: each(|point| point.temperature.kelvin()),
        measure: each(|point| point.measure),
        aroma_fraction: each(|point| point.aroma),
        core: (!trace.core.is_empty()).then(|| core(&trace.core)),
    }
}

fn core(points: &[CorePoint]) -> CoreJson {
    let each = |of: &dyn Fn(&CorePoint) -> f64| points.iter().map(|p| digits(of(p))).collect();
    let germs = Germ::WORDS.iter().zip(Germ::ALL);
    CoreJson {
        time_s: each(&|point| point.time.si()),
        temperature_k: each(&|point| point.temperature.kelvin()),
        pasteurised_s: each(&|point| point.pasteurised.si()),
        sterilised_s: each(&|point| point.sterilised.si()),
        decimal_reductions: germs.map(|(word, germ)| (*word, each(&|p| p.kills[germ]))).collect(),
    }
}

fn range(estimate: Option<&Estimate>) -> Option<Range> {
    estimate.map(Range::si)
}

fn digits(value: f64) -> f64 {
    super::json::to_digits(value, TRACE_DIGITS)
}
