//! Adaptation notes as JSON: stable keys that carry their unit.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use super::notes::{SECTIONS, Writing, section};
use super::shown::Range;
use super::timeline::Planned;
use super::timeline_json::{TimelineJson, timeline};
use super::trial_fit::{CorrectedJson, corrected_json};
use super::{json as numbers, markdown};
use crate::advisor::Verdict;
use crate::notes::query::Kind;
use crate::notes::record::Record;
use crate::notes::{Adapted, Notes, TaskNote, expect, ingredients, query};
use crate::trial::written::Verdict as TrialVerdict;

/// Digits of numbers in JSON.
const DIGITS: usize = 4;

/// The notes on one recipe.
#[derive(Debug, Serialize)]
pub struct NotesJson<'a> {
    /// Title of the recipe.
    pub recipe: &'a str,
    /// Its author.
    pub author: &'a str,
    /// The recipe in each kitchen.
    pub kitchens: Vec<KitchenJson<'a>>,
    /// Ingredients in order of use.
    pub ingredients: Vec<IngredientJson<'a>>,
    /// Gear by name, with the kitchens that use it.
    pub equipment: BTreeMap<&'a str, Vec<&'a str>>,
    /// The steps.
    pub steps: Vec<StepJson<'a>>,
    /// Ids of the hazards.
    pub cautions: Vec<&'a str>,
    /// The testing record, when a book was given.
    pub record: Option<RecordJson<'a>>,
    /// What is asked of the author.
    pub queries: Vec<QueryJson<'a>>,
    /// Where the numbers come from.
    pub sources: SourcesJson<'a>,
    /// The sections as Markdown, by key.
    pub sections_markdown: BTreeMap<&'static str, String>,
}

/// The recipe in one kitchen.
#[derive(Debug, Serialize)]
pub struct KitchenJson<'a> {
    /// Its name.
    pub name: &'a str,
    /// The verdict on the whole.
    pub verdict: Verdict,
    /// What it makes.
    pub makes_kg: Option<Range>,
    /// Time from start to end.
    pub time_s: Option<Range>,
    /// Attended time.
    pub hands_on_s: Option<Range>,
    /// The plan of the work.
    pub timeline: TimelineJson,
    /// What trials correct, when that was asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub corrected_by_trials: Option<Vec<CorrectedJson<'a>>>,
}

/// An ingredient.
#[derive(Debug, Serialize)]
pub struct IngredientJson<'a> {
    /// Name of the food.
    pub name: &'a str,
    /// The amount as the author wrote it.
    pub written: &'a str,
    /// Numbers of the steps that use it, from 1.
    pub used_in_steps: Vec<usize>,
    /// Amounts in the order of the kitchens; none where a product that is bought ready-made takes its
    /// place.
    pub amounts: Vec<Option<AmountJson<'a>>>,
    /// Allergens.
    pub allergens: &'a [String],
}

/// How much of an ingredient a kitchen buys.
#[derive(Debug, Serialize)]
pub struct AmountJson<'a> {
    /// What to buy.
    pub bought_kg: f64,
    /// What is left after trimming, where something is trimmed away.
    pub trimmed_kg: Option<f64>,
    /// Home amount over the amount in the recipe.
    pub factor: f64,
    /// Cups, spoons or pieces.
    pub home_measure: Option<&'a str>,
}

/// A step.
#[derive(Debug, Serialize)]
pub struct StepJson<'a> {
    /// What it makes.
    pub product: &'a str,
    /// What to do, for plain work.
    pub work: Option<&'a str>,
    /// The routes taken, for a professional step.
    pub routes: Vec<RouteJson<'a>>,
}

/// A route with the kitchens that take it.
#[derive(Debug, Serialize)]
pub struct RouteJson<'a> {
    /// The kitchens.
    pub kitchens: Vec<&'a str>,
    /// Id of the route; none where no route is open.
    pub id: Option<&'a str>,
    /// Its name.
    pub name: Option<&'a str>,
    /// Whether the goal is reached.
    pub reached: bool,
    /// Attributes whose loss a person notices, in steps of what is noticed; of the first kitchen.
    pub losses_steps: BTreeMap<&'a str, f64>,
    /// Losses that are stated, not computed.
    pub stated_losses: &'a [String],
}

/// The testing record.
#[derive(Debug, Serialize)]
pub struct RecordJson<'a> {
    /// How many trials.
    pub trials: usize,
    /// How many came to which verdict.
    pub verdicts: Vec<(TrialVerdict, usize)>,
    /// The last trials without a fault, of one text.
    pub clean_run: u32,
    /// The success rate that the run supports at 95 %.
    pub success_at_least_fraction: f64,
    /// What was measured.
    pub measured: Vec<MeasuredJson<'a>>,
}

/// One quantity as measured.
#[derive(Debug, Serialize)]
pub struct MeasuredJson<'a> {
    /// What the step makes.
    pub product: &'a str,
    /// The route taken.
    pub route: Option<&'a str>,
    /// `time` or the id of an attribute.
    pub quantity: &'a str,
    /// Measurements by trial.
    pub measured_si: BTreeMap<&'a str, f64>,
}

/// A query.
#[derive(Debug, Serialize)]
pub struct QueryJson<'a> {
    /// Its number, from 1.
    pub number: usize,
    /// What it is about.
    pub kind: Kind,
    /// The step or the food.
    pub about: &'a str,
    /// What is asked.
    pub text: &'a str,
}

/// Where the numbers come from.
#[derive(Debug, Serialize)]
pub struct SourcesJson<'a> {
    /// Full citations, each with the places used.
    pub published: &'a BTreeMap<String, BTreeSet<String>>,
    /// Publications recalled.
    pub recalled: &'a BTreeSet<String>,
    /// Estimates with their reasoning.
    pub estimates: &'a BTreeSet<String>,
    /// How many numbers are common practice.
    pub common_practice: usize,
}

/// Makes the JSON of the notes on one recipe.
pub fn json<'a>(notes: &'a Notes<'_>, writing: &Writing<'_>) -> NotesJson<'a> {
    let sections = SECTIONS
        .into_iter()
        .map(|one| (one.key(), markdown::blocks(&section(one, notes, writing))));
    NotesJson {
        recipe: &notes.material.recipe.title,
        author: &notes.material.recipe.author,
        kitchens: notes.material.adapted.iter().map(kitchen).collect(),
        ingredients: notes.ingredients.iter().map(ingredient).collect(),
        equipment: equipment(notes),
        steps: steps(notes),
        cautions: notes.cautions.iter().map(|(caution, _)| caution.hazard.as_str()).collect(),
        record: notes.record.as_ref().map(record),
        queries: notes.queries.iter().enumerate().map(query).collect(),
        sources: SourcesJson {
            published: &notes.sources.published,
            recalled: &notes.sources.recalled,
            estimates: &notes.sources.estimates,
            common_practice: notes.sources.common_practice,
        },
        sections_markdown: sections.collect(),
    }
}

fn kitchen<'a>(one: &'a Adapted<'_>) -> KitchenJson<'a> {
    let range = |estimate: &Option<crate::estimate::Estimate>| estimate.as_ref().map(Range::si);
    KitchenJson {
        name: &one.kitchen.name,
        verdict: one.adaptation.verdict,
        makes_kg: range(&one.adaptation.makes),
        time_s: range(&one.adaptation.time),
        hands_on_s: range(&one.adaptation.attended),
        timeline: timeline(&Planned { timeline: one.timeline, first_day: None }),
        corrected_by_trials: one.corrected.map(corrected_json),
    }
}

fn ingredient<'a>(one: &'a ingredients::Ingredient<'_>) -> IngredientJson<'a> {
    let amount = |amount: &'a ingredients::Amount| AmountJson {
        bought_kg: numbers::to_digits(amount.mass.kilograms(), DIGITS),
        trimmed_kg: amount.trimmed.map(|left| numbers::to_digits(left.kilograms(), DIGITS)),
        factor: numbers::to_digits(amount.factor, DIGITS),
        home_measure: amount.home_measure.as_deref(),
    };
    let amounts = one.amounts.iter().map(|one| one.as_ref().map(amount));
    IngredientJson {
        name: one.name,
        written: one.written,
        used_in_steps: one.used_in.iter().map(|step| step + 1).collect(),
        amounts: amounts.collect(),
        allergens: one.allergens,
    }
}

fn equipment<'a>(notes: &'a Notes<'_>) -> BTreeMap<&'a str, Vec<&'a str>> {
    let each = notes.equipment.iter().map(|gear| {
        let kitchens = gear.kitchens.iter().map(|(index, _)| name(notes, *index));
        (gear.name.as_str(), kitchens.collect())
    });
    each.collect()
}

fn name<'a>(notes: &'a Notes<'_>, kitchen: usize) -> &'a str {
    &notes.material.adapted[kitchen].kitchen.name
}

fn steps<'a>(notes: &'a Notes<'_>) -> Vec<StepJson<'a>> {
    let each = notes.steps.iter().map(|step| {
        let (work, groups) = match &step.task {
            TaskNote::Plain(text) => (Some(*text), [].as_slice()),
            TaskNote::Professional(groups) => (None, groups.as_slice()),
        };
        let routes = groups.iter().map(|group| {
            let method = group.method();
            let losses = method
                .into_iter()
                .flat_map(|method| expect::losses(method, notes.material.knowledge));
            let kitchens = group.kitchens.iter().map(|(index, _)| name(notes, *index));
            RouteJson {
                kitchens: kitchens.collect(),
                id: method.map(|method| method.id.as_str()),
                name: method.map(|method| method.name.as_str()),
                reached: group.is_reached(),
                losses_steps: losses
                    .map(|loss| {
                        let steps = numbers::to_digits(loss.comparison.steps, DIGITS);
                        (loss.attribute.id.as_str(), steps)
                    })
                    .collect(),
                stated_losses: method.map_or(&[], |method| method.loses.as_slice()),
            }
        });
        StepJson { product: step.product, work, routes: routes.collect() }
    });
    each.collect()
}

fn record<'a>(record: &'a Record<'_>) -> RecordJson<'a> {
    let measured = record.measured.iter().map(|one| MeasuredJson {
        product: one.product,
        route: one.route,
        quantity: one.quantity,
        measured_si: one
            .points
            .iter()
            .map(|(trial, value)| (*trial, numbers::to_digits(*value, DIGITS)))
            .collect(),
    });
    RecordJson {
        trials: record.trials.len(),
        verdicts: record.verdicts.clone(),
        clean_run: record.clean_run,
        success_at_least_fraction: numbers::to_digits(record.success_at_least, DIGITS),
        measured: measured.collect(),
    }
}

fn query((index, one): (usize, &query::Query)) -> QueryJson<'_> {
    QueryJson { number: index + 1, kind: one.kind, about: &one.about, text: &one.text }
}
