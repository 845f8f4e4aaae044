//! Adaptation notes: what an editor of a cookbook manuscript needs to know of an adapted recipe.
//!
//! A recipe adapted for one or more kitchens is gathered into [`Notes`]: ingredients in order of use
//! with home measures, what differs from kitchen to kitchen, what is lost, how it keeps, what the
//! trials found, what is asked of the author, and where the numbers come from. How a book writes
//! numbers and words lies in [`house`]. No format is chosen here.

pub mod ahead;
pub mod equipment;
pub mod expect;
pub mod house;
pub mod ingredients;
pub mod keeping;
pub mod measure;
pub mod query;
pub mod record;
pub mod source;

use crate::advisor::timeline::Timeline;
use crate::advisor::{Adaptation, AdaptedStep, Advice, Caution, Method, StepAdvice, Verdict};
use crate::kitchen::Kitchen;
use crate::knowledge::Knowledge;
use crate::recipe::Recipe;
use crate::trial::Trial;
use crate::trial::predict::Applied;

pub use house::House;

/// A recipe adapted for one kitchen.
#[derive(Debug, Clone, Copy)]
pub struct Adapted<'a> {
    /// The kitchen.
    pub kitchen: &'a Kitchen,
    /// The recipe for it.
    pub adaptation: &'a Adaptation,
    /// The plan of the work.
    pub timeline: &'a Timeline,
    /// What trials correct, when that was asked for.
    pub corrected: Option<&'a [Applied]>,
}

/// What notes are made from.
#[derive(Debug, Clone, Copy)]
pub struct Material<'a> {
    /// The recipe.
    pub recipe: &'a Recipe,
    /// The kitchens, in the order in which they were named; at least one.
    pub adapted: &'a [Adapted<'a>],
    /// Trials of this recipe; `None` without a book.
    pub trials: Option<&'a [Trial]>,
    /// The knowledge base.
    pub knowledge: &'a Knowledge,
}

/// The notes on one recipe.
#[derive(Debug)]
pub struct Notes<'a> {
    /// What they are made from.
    pub material: Material<'a>,
    /// Ingredients in the order in which they are first used.
    pub ingredients: Vec<ingredients::Ingredient<'a>>,
    /// The steps in order.
    pub steps: Vec<StepNote<'a>>,
    /// Cautions of the methods chosen, the gravest first, each with the kitchens that it is for.
    pub cautions: Vec<(&'a Caution, Vec<usize>)>,
    /// Gear of the methods chosen, each with the kitchens that use it.
    pub equipment: Vec<equipment::Gear>,
    /// What to do ahead, by kitchen.
    pub ahead: Vec<ahead::Ahead<'a>>,
    /// How the dish keeps.
    pub keeping: Option<keeping::Keeping>,
    /// What the trials found.
    pub record: Option<record::Record<'a>>,
    /// What is asked of the author.
    pub queries: Vec<query::Query>,
    /// Where the numbers come from.
    pub sources: source::Sources,
}

/// One step in every kitchen.
#[derive(Debug)]
pub struct StepNote<'a> {
    /// What it makes.
    pub product: &'a str,
    /// What its author notes; empty when there is nothing.
    pub note: &'a str,
    /// What is done.
    pub task: TaskNote<'a>,
    /// The kitchens that can leave it out, since a later product is bought ready-made.
    pub left_out: Vec<usize>,
}

/// What is done in a step.
#[derive(Debug)]
pub enum TaskNote<'a> {
    /// Plain kitchen work, the same everywhere.
    Plain(&'a str),
    /// A professional step.
    Professional(Vec<Group<'a>>),
}

/// Kitchens that take the same route.
#[derive(Debug)]
pub struct Group<'a> {
    /// The kitchens, by index, each with the advice for it.
    pub kitchens: Vec<(usize, &'a StepAdvice)>,
}

impl<'a> Group<'a> {
    /// Returns the advice for the first kitchen of the group.
    pub fn advice(&self) -> &'a StepAdvice {
        self.kitchens[0].1
    }

    /// Returns the method of the first kitchen; `None` where no route is open.
    pub fn method(&self) -> Option<&'a Method> {
        self.advice().routes.first()
    }

    /// Returns whether a home route reaches the goal.
    pub fn is_reached(&self) -> bool {
        self.method().is_some_and(|method| method.score.verdict != Verdict::No)
    }
}

/// Gathers the notes on a recipe.
pub fn notes<'a>(material: Material<'a>) -> Notes<'a> {
    let steps = steps(&material);
    let equipment = equipment::equipment(&material);
    let record = material.trials.map(record::record);
    Notes {
        ingredients: ingredients::ingredients(&material),
        cautions: cautions(&material),
        ahead: material.adapted.iter().map(ahead::ahead).collect(),
        keeping: keeping::keeping(&material),
        queries: query::queries(&material, &steps),
        sources: source::sources(&material),
        material,
        steps,
        equipment,
        record,
    }
}

/// Returns the professional steps of a kitchen that are needed, each with its advice.
pub(crate) fn professional<'a>(
    adapted: &Adapted<'a>,
) -> impl Iterator<Item = (&'a AdaptedStep, &'a StepAdvice)> {
    let needed = adapted.adaptation.steps.iter().filter(|step| step.is_needed);
    needed.filter_map(|step| match &step.advice {
        Advice::Professional(advice) => Some((step, advice.as_ref())),
        Advice::Plain(_) => None,
    })
}

fn steps<'a>(material: &Material<'a>) -> Vec<StepNote<'a>> {
    let Some(first) = material.adapted.first() else { return Vec::new() };
    let each = first.adaptation.steps.iter().enumerate().map(|(index, step)| {
        let task = match &step.advice {
            Advice::Plain(text) => TaskNote::Plain(text),
            Advice::Professional(_) => TaskNote::Professional(groups(material, index)),
        };
        let adapted = material.adapted.iter().enumerate();
        let left_out = adapted.filter(|(_, adapted)| {
            adapted.adaptation.steps.get(index).is_some_and(|step| !step.is_needed)
        });
        StepNote {
            product: &step.product,
            note: material.recipe.steps.get(index).map_or("", |step| step.note.trim()),
            task,
            left_out: left_out.map(|(kitchen, _)| kitchen).collect(),
        }
    });
    each.collect()
}

/// Groups the kitchens by the route that they take in a step, in the order of the kitchens.
fn groups<'a>(material: &Material<'a>, step: usize) -> Vec<Group<'a>> {
    let route = |advice: &'a StepAdvice| advice.routes.first().map(|best| best.id.as_str());
    let mut groups: Vec<Group<'a>> = Vec::new();
    for (kitchen, adapted) in material.adapted.iter().enumerate() {
        let step = adapted.adaptation.steps.get(step).filter(|step| step.is_needed);
        let Some(Advice::Professional(advice)) = step.map(|step| &step.advice) else {
            continue;
        };
        let reached = |advice: &StepAdvice| {
            advice.routes.first().is_some_and(|best| best.score.verdict != Verdict::No)
        };
        let same = groups.iter_mut().find(|group| {
            let other = group.kitchens[0].1;
            route(other) == route(advice) && reached(other) == reached(advice)
        });
        match same {
            Some(group) => group.kitchens.push((kitchen, advice)),
            None => groups.push(Group { kitchens: vec![(kitchen, advice)] }),
        }
    }
    groups
}

/// How grave a signal word is, for sorting: the gravest first.
fn gravity(signal: &str) -> usize {
    ["danger", "warning"].iter().position(|word| *word == signal).unwrap_or(2)
}

fn cautions<'a>(material: &Material<'a>) -> Vec<(&'a Caution, Vec<usize>)> {
    let mut told: Vec<(&Caution, Vec<usize>)> = Vec::new();
    for (kitchen, adapted) in material.adapted.iter().enumerate() {
        let chosen = professional(adapted).filter_map(|(_, advice)| advice.routes.first());
        for caution in chosen.flat_map(|method| &method.cautions) {
            let known = told.iter_mut().find(|(other, _)| {
                other.hazard == caution.hazard && other.computed == caution.computed
            });
            match known {
                Some((_, kitchens)) if kitchens.contains(&kitchen) => {}
                Some((_, kitchens)) => kitchens.push(kitchen),
                None => told.push((caution, vec![kitchen])),
            }
        }
    }
    told.sort_by_key(|(caution, _)| gravity(&caution.signal));
    told
}
