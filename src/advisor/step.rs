//! One professional step at home: its routes, and how each compares with the laboratory.

use std::collections::BTreeMap;
use std::sync::Arc;

use rayon::prelude::*;

use super::advice::{Method, RuledOut, StepAdvice, StepError};
use super::caution::{Caution, Matter, can_refuse, cautions, concerning, refusal};
use super::cost::supply_cost;
use super::facts::{facts, some_facts};
use super::gear::{gear_hazards, labels};
use super::loads;
use super::matching::{Fit, Missing, brought_in, fit};
use super::money::Cost;
use super::rank::{Mark, StepMark};
use super::reference::{Context, Intended, Reference, WORKS_IN};
use super::score::Score;
use super::simulate::{Simulated, simulate};
use super::unknown::unknown;
use super::{Bench, Plan};
use crate::kitchen::Owned;
use crate::knowledge::Route;
use crate::process::Batch;

/// A professional step made ready: what the laboratory makes of it, and the routes for which the
/// kitchen has the gear.
pub(super) struct Station<'a> {
    reference: Arc<Reference<'a>>,
    bench: Bench<'a>,
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
    /// Looks in a kitchen for the gear of each route.
    pub(super) fn beside(reference: Arc<Reference<'a>>, bench: Bench<'a>) -> Self {
        let knowledge = bench.knowledge;
        let (mut open, mut closed) = (Vec::new(), Vec::new());
        let Context { technique, food, .. } = &reference.context;
        for route in knowledge.routes_for(&technique.id) {
            let Fit { appliances, missing } = fit(route, food.names, bench.kitchen, knowledge);
            if missing.is_empty() {
                let bought = route.moves.iter().any(|one| one.process == crate::process::buy::NAME);
                open.push(Open { route, appliances, bought });
            } else {
                closed.push(ruled_out(route, missing, None));
            }
        }
        Self { reference, bench, open, closed }
    }

    /// Returns whether its product can be bought ready-made.
    pub(super) fn sells(&self) -> bool {
        self.open.iter().any(|open| open.bought)
    }

    /// Returns what the laboratory does.
    pub(super) fn laboratory(&self) -> &Method {
        &self.reference.method
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
        let (bench, context, route) = (self.bench, &self.reference.context, open.route);
        let appliances = loads::roomy(route, open.appliances.clone(), bench.kitchen, feeds);
        let targets = context.targets(feeds);
        let mut plans = Vec::new();
        for (index, (one, owned)) in route.moves.iter().zip(&appliances).enumerate() {
            let intended = Intended {
                method: &named(&route.id, index),
                one,
                appliances: owned,
                targets: &targets,
                kitchen: Some(bench.kitchen),
            };
            plans.push(context.plan(&intended, bench.sampler)?);
        }
        let place = &bench.kitchen.place;
        let mut simulated = simulate(&plans, feeds, place, bench.sampler, whole);
        if simulated.working_share() < WORKS_IN {
            let because = simulated.faulty.map(|faulty| faulty.because.to_string());
            return Ok(Err(ruled_out(route, Vec::new(), because)));
        }
        simulated.add_attended(&self.hands_on(route));
        let score = context.score(&self.laboratory().simulated, &simulated);
        let supplies = brought_in(route, bench.kitchen, bench.knowledge);
        let matter = Matter { supplies: &supplies, ..Matter::of(&context.food.all) };
        let hazards = gear_hazards(route, &appliances, bench.knowledge).into_iter();
        let hazards: Vec<&String> = route.hazards.iter().chain(hazards).collect();
        let cautions = if whole {
            let known = facts(&simulated, &plans, place, bench.knowledge);
            cautions(hazards.into_iter(), matter, &known, bench.knowledge)
        } else {
            let concerned = concerning(hazards.into_iter(), matter, bench.knowledge);
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

    /// Puts what was run into words.
    pub(super) fn method(&self, open: &Open<'a>, tried: Tried<'a>) -> Method {
        let Tried { plans, gear, simulated, score, cost, cautions } = tried;
        let (context, route) = (&self.reference.context, open.route);
        Method {
            id: route.id.clone(),
            name: route.name.clone(),
            summary: route.summary.clone(),
            moves: context.move_advice(&plans, &simulated, gear, Some(self.bench.kitchen)),
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

    fn hands_on(&self, route: &Route) -> Vec<f64> {
        let column = self.bench.sampler.column(&format!("method/{}/hands_on", route.id));
        let hands_on = self.bench.knowledge.hands_on(route);
        let time = |draw: &f64| hands_on.map_or(0.0, |time| time.estimate.quantile(*draw));
        column.iter().map(time).collect()
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
        let technique = self.reference.context.technique;
        (&technique.id, &technique.name)
    }

    /// Puts the advice together.
    pub(super) fn advice(
        self,
        routes: Vec<Method>,
        reasons: BTreeMap<String, String>,
        ruled_out: Vec<RuledOut>,
    ) -> StepAdvice {
        let technique = self.technique().0.to_owned();
        let laboratory = match Arc::try_unwrap(self.reference) {
            Ok(reference) => reference.method,
            Err(shared) => shared.method.clone(),
        };
        StepAdvice { technique, laboratory, routes, reasons, ruled_out }
    }
}

fn gear_labels(appliances: &[Vec<&Owned>]) -> Vec<Vec<String>> {
    appliances.iter().map(|owned| labels(owned.iter().copied())).collect()
}

fn ruled_out(route: &Route, missing: Vec<Missing>, because: Option<String>) -> RuledOut {
    RuledOut { id: route.id.clone(), name: route.name.clone(), missing, because }
}

/// Two moves of one route that set the same thing are two unknowns.
fn named(route: &str, index: usize) -> String {
    if index == 0 { route.to_owned() } else { format!("{route}/{}", index + 1) }
}
