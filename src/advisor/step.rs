//! Advice on one professional step: the laboratory, the routes, and how they compare.

use std::collections::BTreeMap;

use super::advice::{Method, MoveAdvice, RuledOut, StepAdvice, StepError};
use super::caution::cautions;
use super::facts::facts;
use super::gear::{gear_hazards, instruments, labels, laboratory_place};
use super::loads::{self, LoadsAdvice};
use super::matching::{Fit, fit, supplied, supply_for};
use super::plan::Sources;
use super::rank::{Ranked, rank, why_second};
use super::score::{Goals, score};
use super::simulate::{Simulated, simulate};
use super::unknown::unknown;
use super::wording::{dose_of, endpoint, whole_instruction};
use super::{Bench, Plan};
use crate::estimate::Estimate;
use crate::kitchen::{Kitchen, Owned};
use crate::knowledge::{Food, Move, Route, Technique, Value, ValueMap};
use crate::process::{Batch, Component};
use crate::recipe::Professional;

/// The setting by which a process is told how much water to take off.
const TARGET_WATER: &str = "target_water_removed";
/// The setting by which a process is told how strong the liquid is to be.
const TARGET_STRENGTH: &str = "target_soluble_solids";
/// A route works when it works in at least this share of the samples.
const WORKS_IN: f64 = 0.5;

/// The food of a step: its main ingredient.
#[derive(Debug, Clone, Copy)]
pub struct FoodOf<'a> {
    /// Id and group of the main ingredient, when it is known.
    pub names: Option<(&'a str, &'a str)>,
    /// Values of the main ingredient.
    pub values: &'a ValueMap,
    /// Every food that has gone into the step or into what it uses.
    pub all: &'a [&'a Food],
}

/// Advises on a step: simulates the laboratory and every open route, and ranks the routes.
///
/// # Errors
/// [`StepError`] when the laboratory's own method cannot be run.
pub fn advise(
    task: &Professional,
    food: &FoodOf<'_>,
    feeds: (&[Batch], &[Batch]),
    bench: &Bench<'_>,
) -> Result<StepAdvice, StepError> {
    let technique = bench
        .knowledge
        .techniques
        .get(&task.technique)
        .ok_or_else(|| StepError::UnknownTechnique(task.technique.clone()))?;
    let goals = Goals::of(technique, &task.targets, bench.knowledge);
    let context = Context { task, technique, food, goals, bench };
    let laboratory = context.laboratory(feeds.0)?;
    let mut routes = Vec::new();
    let mut ruled_out = Vec::new();
    for route in bench.knowledge.routes_for(&technique.id) {
        match context.route(route, feeds.1, &laboratory)? {
            Ok(method) => routes.push(method),
            Err(closed) => ruled_out.push(closed),
        }
    }
    routes.sort_by(|a, b| rank(&ranked(a), &ranked(b)));
    let name_of = |id: &str| {
        let known = bench.knowledge.attributes.get(id);
        known.map_or_else(|| id.to_owned(), |attribute| attribute.name.clone())
    };
    let mut reasons = BTreeMap::new();
    if let Some((best, others)) = routes.split_first() {
        for other in others {
            reasons.insert(other.id.clone(), why_second(&ranked(best), &ranked(other), name_of));
        }
    }
    Ok(StepAdvice { technique: technique.id.clone(), laboratory, routes, reasons, ruled_out })
}

/// Runs the best route of earlier advice again on other amounts, and leaves the rest as it is.
///
/// # Errors
/// As [`advise`].
pub(super) fn advise_again(
    task: &Professional,
    food: &FoodOf<'_>,
    feeds: (&[Batch], &[Batch]),
    bench: &Bench<'_>,
    mut before: StepAdvice,
) -> Result<StepAdvice, StepError> {
    let Some(best) = before.routes.first() else { return Ok(before) };
    let technique = bench.knowledge.techniques.get(&task.technique);
    let (Some(technique), Some(route)) = (technique, bench.knowledge.routes.get(&best.id)) else {
        return Ok(before);
    };
    let goals = Goals::of(technique, &task.targets, bench.knowledge);
    let context = Context { task, technique, food, goals, bench };
    if let Ok(again) = context.route(route, feeds.1, &before.laboratory)? {
        before.routes[0] = again;
    }
    Ok(before)
}

fn ranked(method: &Method) -> Ranked<'_> {
    Ranked { id: &method.id, score: &method.score, bought: method.bought }
}

/// What all methods of one step share.
struct Context<'a> {
    task: &'a Professional,
    technique: &'a Technique,
    food: &'a FoodOf<'a>,
    goals: Goals,
    bench: &'a Bench<'a>,
}

impl Context<'_> {
    /// The targets as settings of processes.
    ///
    /// Water to take off is counted from what goes into the step, not into its second move; it is
    /// handed on as the strength that it leads to.
    fn targets(&self, feeds: &[Batch]) -> ValueMap {
        let mut targets = self.goals.settings();
        let (Some(water), Some(feed)) = (targets.get(TARGET_WATER), feeds.first()) else {
            return targets;
        };
        let contents = &feed.contents;
        let liquid = contents.solutes() + contents.mass(Component::Water)
            - contents.total() * water.typical();
        if liquid > contents.solutes() && !targets.contains_key(TARGET_STRENGTH) {
            let share = contents.solutes() / liquid;
            let strength = Value { estimate: Estimate::exact(share), ..water.clone() };
            targets.insert(TARGET_STRENGTH.to_owned(), strength);
        }
        targets
    }

    fn laboratory(&self, feeds: &[Batch]) -> Result<Method, StepError> {
        let knowledge = self.bench.knowledge;
        let owned = instruments(self.technique, knowledge)?;
        let targets = self.targets(feeds);
        let mut plans = Vec::new();
        for (one, appliances) in self.technique.moves.iter().zip(&owned) {
            let appliances: Vec<&Owned> = appliances.iter().collect();
            plans.push(self.plan(one, &appliances, &targets, true)?);
        }
        let place = laboratory_place(&self.bench.kitchen.place);
        let simulated = simulate(&plans, feeds, &place, self.bench.sampler, true);
        if simulated.working_share() < WORKS_IN {
            let faulty = simulated.faulty.as_ref();
            let because = faulty.map_or_else(String::new, |faulty| faulty.because.to_string());
            return Err(StepError::Laboratory { because });
        }
        let own = score(
            &simulated,
            &simulated,
            &self.goals,
            self.technique,
            &self.task.priorities,
            knowledge,
        );
        let labels = owned.iter().map(|appliances| labels(appliances.iter())).collect();
        let hazards = self.technique.hazards.iter();
        Ok(Method {
            id: self.technique.id.clone(),
            name: self.technique.name.clone(),
            summary: self.technique.achieves.clone(),
            moves: self.move_advice(&plans, &simulated, labels, None),
            cautions: cautions(
                hazards,
                self.food.all,
                &facts(&simulated, &plans, &place, knowledge),
                knowledge,
            ),
            simulated,
            score: own,
            bought: false,
            loses: Vec::new(),
            fails: Vec::new(),
            unknown: None,
        })
    }

    fn route(
        &self,
        route: &Route,
        feeds: &[Batch],
        laboratory: &Method,
    ) -> Result<Result<Method, RuledOut>, StepError> {
        let bench = self.bench;
        let Fit { appliances, missing } =
            fit(route, self.food.names, bench.kitchen, bench.knowledge);
        let closed = |missing, because| RuledOut {
            id: route.id.clone(),
            name: route.name.clone(),
            missing,
            because,
        };
        if !missing.is_empty() {
            return Ok(Err(closed(missing, None)));
        }
        let appliances = loads::roomy(route, appliances, bench.kitchen, feeds);
        let targets = self.targets(feeds);
        let mut plans = Vec::new();
        for (index, one) in route.moves.iter().enumerate() {
            let of_move = named(&route.id, index);
            plans.push(self.plan_named(&of_move, one, &appliances[index], &targets, false)?);
        }
        let place = &bench.kitchen.place;
        let mut simulated = simulate(&plans, feeds, place, bench.sampler, true);
        if simulated.working_share() < WORKS_IN {
            return Ok(Err(closed(Vec::new(), simulated.faulty.map(|f| f.because.to_string()))));
        }
        simulated.add_attended(&self.hands_on(route));
        let score = score(
            &laboratory.simulated,
            &simulated,
            &self.goals,
            self.technique,
            &self.task.priorities,
            bench.knowledge,
        );
        let labels = appliances.iter().map(|owned| labels(owned.iter().copied())).collect();
        let hazards = route.hazards.iter().chain(gear_hazards(route, &appliances, bench.knowledge));
        let known = facts(&simulated, &plans, place, bench.knowledge);
        let cautions = cautions(hazards, self.food.all, &known, bench.knowledge);
        if let Some(refused) = cautions.iter().find(|caution| caution.refuses) {
            return Ok(Err(closed(Vec::new(), Some(refused.refusal()))));
        }
        Ok(Ok(Method {
            id: route.id.clone(),
            name: route.name.clone(),
            summary: route.summary.clone(),
            moves: self.move_advice(&plans, &simulated, labels, Some(bench.kitchen)),
            cautions,
            bought: route.moves.iter().any(|one| one.process == crate::process::buy::NAME),
            unknown: unknown(&plans, &simulated, bench),
            simulated,
            score,
            loses: route.loses.clone(),
            fails: route.fails.clone(),
        }))
    }

    fn plan<'m>(
        &self,
        one: &'m Move,
        appliances: &[&Owned],
        targets: &ValueMap,
        laboratory: bool,
    ) -> Result<Plan<'m>, StepError> {
        self.plan_named(&self.technique.id, one, appliances, targets, laboratory)
    }

    fn plan_named<'m>(
        &self,
        method: &str,
        one: &'m Move,
        appliances: &[&Owned],
        targets: &ValueMap,
        laboratory: bool,
    ) -> Result<Plan<'m>, StepError> {
        let (none, no_words) = (ValueMap::new(), BTreeMap::new());
        let kitchen = (!laboratory).then_some(self.bench.kitchen);
        let sources = Sources {
            method,
            appliances,
            supplies: &supplied(one, kitchen, self.bench.knowledge),
            food: self.food.values,
            targets,
            laboratory: if laboratory { &self.task.laboratory } else { &none },
            words: if laboratory { &self.task.modes } else { &no_words },
        };
        Ok(Plan::settle(one, self.bench.knowledge, &sources, self.bench.sampler)?)
    }

    fn hands_on(&self, route: &Route) -> Vec<f64> {
        let column = self.bench.sampler.column(&format!("method/{}/hands_on", route.id));
        let hands_on = self.bench.knowledge.hands_on(route);
        let time = |draw: &f64| hands_on.map_or(0.0, |time| time.estimate.quantile(*draw));
        column.iter().map(time).collect()
    }

    fn move_advice(
        &self,
        plans: &[Plan<'_>],
        simulated: &Simulated,
        labels: Vec<Vec<String>>,
        kitchen: Option<&Kitchen>,
    ) -> Vec<MoveAdvice> {
        let knowledge = self.bench.knowledge;
        let each = plans.iter().zip(&simulated.moves).zip(labels);
        each.map(|((plan, record), appliances)| {
            let mass_in = Estimate::of_results(&record.mass_in).map_or(0.0, |m| m.typical());
            let supplies = plan.one.supplies.iter().map(|supply| {
                let held = supply_for(supply, kitchen, knowledge).map(|held| held.name.clone());
                let name = held.unwrap_or_else(|| supply.any_of.join(" or "));
                (name, dose_of(supply, mass_in))
            });
            MoveAdvice {
                instruction: whole_instruction(plan, record),
                until: endpoint(&plan.one.until, kitchen, plan, record),
                time: Estimate::of_results(&record.time),
                attended: Estimate::of_results(&record.attended),
                loads: LoadsAdvice::of(record),
                appliances,
                supplies: supplies.collect(),
                trace: record.trace.clone(),
            }
        })
        .collect()
    }
}

/// Two moves of one route that set the same thing are two unknowns.
fn named(route: &str, index: usize) -> String {
    if index == 0 { route.to_owned() } else { format!("{route}/{}", index + 1) }
}
