//! One professional step: the laboratory, the routes, and how each compares with it.

use std::collections::BTreeMap;

use rayon::prelude::*;

use super::advice::{Method, MoveAdvice, RuledOut, StepAdvice, StepError};
use super::caution::{Caution, can_refuse, cautions, concerning, refusal};
use super::cost::supply_cost;
use super::facts::{facts, some_facts};
use super::gear::{gear_hazards, instruments, labels, laboratory_place};
use super::loads::{self, LoadsAdvice};
use super::matching::{Fit, Missing, fit, supplied, supply_for};
use super::money::Cost;
use super::plan::Sources;
use super::rank::{Mark, StepMark};
use super::score::{Goals, Score, leave_to_stated_time, score};
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
pub(super) const WORKS_IN: f64 = 0.5;

/// The foods of a step, as a station keeps them.
pub(super) struct Foods<'a> {
    /// Id and group of the main ingredient, when it is known.
    pub(super) names: Option<(&'a str, &'a str)>,
    /// Values of the main ingredient.
    pub(super) values: &'a ValueMap,
    /// Every food that has gone into the step or into what it uses.
    pub(super) all: Vec<&'a Food>,
}

/// A professional step made ready: what the laboratory makes of it, and the routes for which the
/// kitchen has the gear.
pub(super) struct Station<'a> {
    context: Context<'a>,
    /// The laboratory.
    pub(super) laboratory: Method,
    /// Routes for which the gear is there.
    pub(super) open: Vec<Open<'a>>,
    /// Routes that lack something.
    pub(super) closed: Vec<RuledOut>,
}

/// A route with the appliances that its moves use.
pub(super) struct Open<'a> {
    /// The route.
    pub(super) route: &'a Route,
    /// Appliances by move.
    appliances: Vec<Vec<&'a Owned>>,
    /// Whether it is bought ready-made rather than made.
    pub(super) bought: bool,
}

/// A route that was run and works.
pub(super) struct Tried<'a> {
    plans: Vec<Plan<'a>>,
    /// Labels of the appliances by move.
    pub(super) gear: Vec<Vec<String>>,
    /// Its results by sample.
    pub(super) simulated: Simulated,
    /// Its score beside the laboratory.
    pub(super) score: Score,
    /// What it uses up.
    pub(super) cost: Cost,
    cautions: Vec<Caution>,
}

impl Open<'_> {
    /// Returns what the route makes of its step alone.
    pub(super) fn alone(&self, product: &str, tried: &Tried<'_>) -> Mark {
        Mark {
            steps: vec![StepMark::of(product, &tried.score, self.bought)],
            time: tried.score.time,
            effort: tried.simulated.attended().map_or(0.0, |time| time.typical()),
            cost: tried.cost.clone(),
            ..Mark::default()
        }
    }
}

impl<'a> Station<'a> {
    /// Simulates the laboratory and looks for the gear of each route. What the laboratory does is put
    /// into words only when the whole is asked for.
    ///
    /// # Errors
    /// [`StepError`] when the laboratory's own method cannot be run.
    pub(super) fn set_up(
        task: &'a Professional,
        food: Foods<'a>,
        feeds: &[Batch],
        bench: Bench<'a>,
        whole: bool,
    ) -> Result<Self, StepError> {
        let knowledge = bench.knowledge;
        let technique = knowledge
            .techniques
            .get(&task.technique)
            .ok_or_else(|| StepError::UnknownTechnique(task.technique.clone()))?;
        let goals = Goals::of(technique, &task.targets, knowledge);
        let (mut open, mut closed) = (Vec::new(), Vec::new());
        for route in knowledge.routes_for(&technique.id) {
            let Fit { appliances, missing } = fit(route, food.names, bench.kitchen, knowledge);
            if missing.is_empty() {
                let bought = route.moves.iter().any(|one| one.process == crate::process::buy::NAME);
                open.push(Open { route, appliances, bought });
            } else {
                closed.push(ruled_out(route, missing, None));
            }
        }
        let context = Context { task, technique, food, goals, bench };
        let laboratory = context.laboratory(feeds, whole)?;
        Ok(Self { context, laboratory, open, closed })
    }

    /// Runs a route on what the home has. Only when the whole is asked for can it be put into words.
    ///
    /// # Errors
    /// [`StepError`] when its moves cannot be planned.
    pub(super) fn run(
        &self,
        open: &Open<'a>,
        feeds: &[Batch],
        whole: bool,
    ) -> Result<Result<Tried<'a>, RuledOut>, StepError> {
        self.context.route(open, feeds, &self.laboratory, whole)
    }

    /// Puts what was run into words.
    pub(super) fn method(&self, open: &Open<'a>, tried: Tried<'a>) -> Method {
        self.context.method(open, tried)
    }

    /// Runs every open route.
    ///
    /// # Errors
    /// As [`Station::run`].
    pub(super) fn methods(
        &self,
        feeds: &[Batch],
    ) -> Result<(Vec<Method>, Vec<RuledOut>), StepError> {
        let each = |open: &Open<'a>| {
            Ok(self.run(open, feeds, true)?.map(|tried| self.method(open, tried)))
        };
        let run: Vec<Result<Result<Method, RuledOut>, StepError>> =
            self.open.par_iter().map(each).collect();
        let (mut routes, mut closed) = (Vec::new(), self.closed.clone());
        for one in run {
            match one? {
                Ok(method) => routes.push(method),
                Err(route) => closed.push(route),
            }
        }
        closed.sort_by(|a, b| a.id.cmp(&b.id));
        Ok((routes, closed))
    }

    /// Returns id and name of the technique.
    pub(super) fn technique(&self) -> (&'a str, &'a str) {
        (&self.context.technique.id, &self.context.technique.name)
    }

    /// Puts the advice together.
    pub(super) fn advice(
        self,
        routes: Vec<Method>,
        reasons: BTreeMap<String, String>,
        ruled_out: Vec<RuledOut>,
    ) -> StepAdvice {
        let technique = self.context.technique.id.clone();
        StepAdvice { technique, laboratory: self.laboratory, routes, reasons, ruled_out }
    }
}

fn gear_labels(appliances: &[Vec<&Owned>]) -> Vec<Vec<String>> {
    appliances.iter().map(|owned| labels(owned.iter().copied())).collect()
}

fn ruled_out(route: &Route, missing: Vec<Missing>, because: Option<String>) -> RuledOut {
    RuledOut { id: route.id.clone(), name: route.name.clone(), missing, because }
}

/// What all methods of one step share.
struct Context<'a> {
    task: &'a Professional,
    technique: &'a Technique,
    food: Foods<'a>,
    goals: Goals,
    bench: Bench<'a>,
}

impl<'a> Context<'a> {
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

    fn score(&self, laboratory: &Simulated, home: &Simulated) -> Score {
        let priorities = &self.task.priorities;
        score(laboratory, home, &self.goals, self.technique, priorities, self.bench.knowledge)
    }

    fn laboratory(&self, feeds: &[Batch], whole: bool) -> Result<Method, StepError> {
        let knowledge = self.bench.knowledge;
        let owned = instruments(self.technique, knowledge)?;
        let mut targets = self.targets(feeds);
        leave_to_stated_time(&mut targets, self.task);
        let mut plans = Vec::new();
        for (one, appliances) in self.technique.moves.iter().zip(&owned) {
            let appliances: Vec<&Owned> = appliances.iter().collect();
            plans.push(self.plan(&self.technique.id, one, &appliances, &targets, true)?);
        }
        let place = laboratory_place(&self.bench.kitchen.place);
        let simulated = simulate(&plans, feeds, &place, self.bench.sampler, whole);
        if simulated.working_share() < WORKS_IN {
            let faulty = simulated.faulty.as_ref();
            let because = faulty.map_or_else(String::new, |faulty| faulty.because.to_string());
            return Err(StepError::Laboratory { because });
        }
        let own = self.score(&simulated, &simulated);
        if !whole {
            return Ok(Method::judged(&self.technique.id, simulated, own));
        }
        let labels = owned.iter().map(|appliances| labels(appliances.iter())).collect();
        let hazards = self.technique.hazards.iter();
        let known = facts(&simulated, &plans, &place, knowledge);
        Ok(Method {
            id: self.technique.id.clone(),
            name: self.technique.name.clone(),
            summary: self.technique.achieves.clone(),
            moves: self.move_advice(&plans, &simulated, labels, None),
            cautions: cautions(hazards, &self.food.all, &known, knowledge),
            simulated,
            score: own,
            bought: false,
            cost: Cost::default(),
            loses: Vec::new(),
            fails: Vec::new(),
            unknown: None,
        })
    }

    fn route(
        &self,
        open: &Open<'a>,
        feeds: &[Batch],
        laboratory: &Method,
        whole: bool,
    ) -> Result<Result<Tried<'a>, RuledOut>, StepError> {
        let (bench, route) = (self.bench, open.route);
        let appliances = loads::roomy(route, open.appliances.clone(), bench.kitchen, feeds);
        let targets = self.targets(feeds);
        let mut plans = Vec::new();
        for (index, (one, owned)) in route.moves.iter().zip(&appliances).enumerate() {
            plans.push(self.plan(&named(&route.id, index), one, owned, &targets, false)?);
        }
        let place = &bench.kitchen.place;
        let mut simulated = simulate(&plans, feeds, place, bench.sampler, whole);
        if simulated.working_share() < WORKS_IN {
            let because = simulated.faulty.map(|faulty| faulty.because.to_string());
            return Ok(Err(ruled_out(route, Vec::new(), because)));
        }
        simulated.add_attended(&self.hands_on(route));
        let score = self.score(&laboratory.simulated, &simulated);
        let hazards = gear_hazards(route, &appliances, bench.knowledge).into_iter();
        let hazards: Vec<&String> = route.hazards.iter().chain(hazards).collect();
        let cautions = if whole {
            let known = facts(&simulated, &plans, place, bench.knowledge);
            cautions(hazards.into_iter(), &self.food.all, &known, bench.knowledge)
        } else {
            let concerned = concerning(hazards.into_iter(), &self.food.all, bench.knowledge);
            let asked = |name: &str| can_refuse(&concerned, name);
            refusal(&concerned, &some_facts(&simulated, &plans, place, &asked))
                .into_iter()
                .collect()
        };
        if let Some(refused) = cautions.iter().find(|caution| caution.refuses) {
            return Ok(Err(ruled_out(route, Vec::new(), Some(refused.refusal()))));
        }
        let gear = gear_labels(&appliances);
        let kitchen = Some(bench.kitchen);
        let used = supply_cost(&plans, &simulated, kitchen, bench.knowledge, bench.sampler);
        let cost = Cost::of_route(route, used);
        Ok(Ok(Tried { plans, gear, simulated, score, cost, cautions }))
    }

    fn method(&self, open: &Open<'a>, tried: Tried<'a>) -> Method {
        let Tried { plans, gear, simulated, score, cost, cautions } = tried;
        let route = open.route;
        Method {
            id: route.id.clone(),
            name: route.name.clone(),
            summary: route.summary.clone(),
            moves: self.move_advice(&plans, &simulated, gear, Some(self.bench.kitchen)),
            cautions,
            bought: open.bought,
            cost,
            unknown: unknown(&plans, &simulated, &self.bench),
            simulated,
            score,
            loses: route.loses.clone(),
            fails: route.fails.clone(),
        }
    }

    fn plan<'m>(
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
            let supplies = plan.one.supplies.iter().map(|dose| {
                let owned = supply_for(dose, kitchen, knowledge);
                let name = owned.map_or_else(|| dose.any_of.join(" or "), |s| s.name.clone());
                (name, dose_of(dose, mass_in))
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
