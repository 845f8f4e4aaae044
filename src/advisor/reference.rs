//! A professional step as the laboratory does it: what every home route is measured by.

use std::collections::BTreeMap;

use super::advice::{Method, MoveAdvice, StepError};
use super::caution::{Matter, cautions};
use super::facts::facts;
use super::gear::{instruments, labels, laboratory_place};
use super::loads::LoadsAdvice;
use super::matching::{supplied, supply_for};
use super::money::Cost;
use super::plan::Sources;
use super::score::{Goals, Score, leave_to_stated_time, score};
use super::simulate::{Simulated, simulate};
use super::wording::{dose_of, endpoint, whole_instruction};
use super::{Plan, Sampler};
use crate::estimate::Estimate;
use crate::kitchen::{Kitchen, Owned};
use crate::knowledge::{Food, Knowledge, Move, Technique, Value, ValueMap};
use crate::process::{Batch, Component};
use crate::recipe::Professional;

/// The setting by which a process is told how much water to take off.
const TARGET_WATER: &str = "target_water_removed";
/// The setting by which a process is told how strong the liquid is to be.
const TARGET_STRENGTH: &str = "target_soluble_solids";
/// A method works when it works in at least this share of the samples.
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

/// What the laboratory makes of a step. It is the same for every home.
pub(super) struct Reference<'a> {
    /// What its methods share.
    pub(super) context: Context<'a>,
    /// The laboratory's own method.
    pub(super) method: Method,
}

/// What all methods of one step share, whatever the kitchen.
pub(super) struct Context<'a> {
    task: &'a Professional,
    /// The technique.
    pub(super) technique: &'a Technique,
    /// Its foods.
    pub(super) food: Foods<'a>,
    goals: Goals,
    knowledge: &'a Knowledge,
}

/// A move about to be planned.
#[derive(Clone, Copy)]
pub(super) struct Intended<'m, 's> {
    /// The name of the method, for the names of unknowns.
    pub(super) method: &'s str,
    /// The move.
    pub(super) one: &'m Move,
    /// The appliances that it uses.
    pub(super) appliances: &'s [&'s Owned],
    /// What the step is to reach, as settings.
    pub(super) targets: &'s ValueMap,
    /// The home in which it is done; none in the laboratory.
    pub(super) kitchen: Option<&'s Kitchen>,
}

impl<'a> Reference<'a> {
    /// Simulates the laboratory on what goes into a step. What it does is put into words only when the
    /// whole is asked for.
    ///
    /// # Errors
    /// [`StepError`] when the laboratory's own method cannot be run.
    pub(super) fn simulate(
        task: &'a Professional,
        food: Foods<'a>,
        feeds: &[Batch],
        (knowledge, sampler): (&'a Knowledge, &Sampler),
        whole: bool,
    ) -> Result<Self, StepError> {
        let technique = knowledge
            .techniques
            .get(&task.technique)
            .ok_or_else(|| StepError::UnknownTechnique(task.technique.clone()))?;
        let goals = Goals::of(technique, &task.targets, knowledge);
        let context = Context { task, technique, food, goals, knowledge };
        let method = context.laboratory(feeds, sampler, whole)?;
        Ok(Self { context, method })
    }
}

impl Context<'_> {
    /// The targets as settings of processes.
    ///
    /// Water to take off is counted from what goes into the step, not into its second move; it is
    /// handed on as the strength that it leads to.
    pub(super) fn targets(&self, feeds: &[Batch]) -> ValueMap {
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

    /// Scores a route beside the laboratory.
    pub(super) fn score(&self, laboratory: &Simulated, home: &Simulated) -> Score {
        let priorities = &self.task.priorities;
        score(laboratory, home, &self.goals, self.technique, priorities, self.knowledge)
    }

    fn laboratory(
        &self,
        feeds: &[Batch],
        sampler: &Sampler,
        whole: bool,
    ) -> Result<Method, StepError> {
        let knowledge = self.knowledge;
        let owned = instruments(self.technique, knowledge)?;
        let mut targets = self.targets(feeds);
        leave_to_stated_time(&mut targets, self.task);
        let mut plans = Vec::new();
        for (one, appliances) in self.technique.moves.iter().zip(&owned) {
            let appliances: Vec<&Owned> = appliances.iter().collect();
            let intended = Intended {
                method: &self.technique.id,
                one,
                appliances: &appliances,
                targets: &targets,
                kitchen: None,
            };
            plans.push(self.plan(&intended, sampler)?);
        }
        let place = laboratory_place();
        let simulated = simulate(&plans, feeds, &place, sampler, whole);
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
            cautions: cautions(hazards, Matter::of(&self.food.all), &known, knowledge),
            simulated,
            score: own,
            bought: false,
            cost: Cost::default(),
            loses: Vec::new(),
            fails: Vec::new(),
            unknown: None,
        })
    }

    /// Settles the settings of a move.
    ///
    /// # Errors
    /// [`StepError`] for a move without a model or an entry of its process.
    pub(super) fn plan<'m>(
        &self,
        intended: &Intended<'m, '_>,
        sampler: &Sampler,
    ) -> Result<Plan<'m>, StepError> {
        let (none, no_words) = (ValueMap::new(), BTreeMap::new());
        let laboratory = intended.kitchen.is_none();
        let sources = Sources {
            method: intended.method,
            appliances: intended.appliances,
            supplies: &supplied(intended.one, intended.kitchen, self.knowledge),
            food: self.food.values,
            targets: intended.targets,
            laboratory: if laboratory { &self.task.laboratory } else { &none },
            words: if laboratory { &self.task.modes } else { &no_words },
        };
        Ok(Plan::settle(intended.one, self.knowledge, &sources, sampler)?)
    }

    /// Puts the moves of a method into words.
    pub(super) fn move_advice(
        &self,
        plans: &[Plan<'_>],
        simulated: &Simulated,
        labels: Vec<Vec<String>>,
        kitchen: Option<&Kitchen>,
    ) -> Vec<MoveAdvice> {
        let knowledge = self.knowledge;
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
                oven: plan.oven_use(),
                supplies: supplies.collect(),
                trace: record.trace.clone(),
            }
        })
        .collect()
    }
}
