//! What was learned from trials as a document: predicted beside measured, and the factors.

use serde::Serialize;

use super::document::{Document, Fact, Item, Table};
use super::shown::Range;
use super::trial_charts::{side_by_side, spread, spread_chart};
use super::{json as numbers, shown};
use crate::estimate::Estimate;
use crate::knowledge::Knowledge;
use crate::quantity::{Time, cook_time};
use crate::trial::calibrate::{Calibration, TIME};
use crate::trial::predict::Applied;

/// The share of measurements that a range from the 10th to the 90th percentile should hold.
const EXPECTED_HELD: f64 = 0.8;
/// Digits of numbers in JSON.
const DIGITS: usize = 4;

/// What was learned from the trials of a book.
#[derive(Debug, Clone, PartialEq)]
pub struct Fitted {
    /// Title of the book.
    pub book: String,
    /// How many trials it has.
    pub trials: usize,
    /// What was learned, by route and quantity.
    pub calibrations: Vec<Calibration>,
    /// What could not be compared.
    pub left_out: Vec<LeftOut>,
}

/// A trial, or a step of one, that could not be compared.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct LeftOut {
    /// The trial.
    pub trial: String,
    /// Why.
    pub because: String,
}

/// What was learned, in JSON.
#[derive(Debug, Serialize)]
pub struct FitJson<'a> {
    /// Title of the book.
    pub book: &'a str,
    /// How many trials it has.
    pub trials: usize,
    /// How many measurements lay within their predicted range.
    pub held: usize,
    /// How many were compared.
    pub compared: usize,
    /// The share that should lie within.
    pub expected_held_fraction: f64,
    /// By route and quantity.
    pub learned: Vec<LearnedJson<'a>>,
    /// What could not be compared.
    pub left_out: &'a [LeftOut],
}

/// One quantity of one route, in JSON.
#[derive(Debug, Serialize)]
pub struct LearnedJson<'a> {
    /// The route.
    pub route: &'a str,
    /// `time` or the id of an attribute.
    pub quantity: &'a str,
    /// How many measurements the factor rests on.
    pub trials: usize,
    /// How many lay within their predicted range.
    pub held: usize,
    /// Measured over predicted, as expected of the next trial.
    pub factor: Range,
    /// Trials whose measurement is hard to believe.
    pub outliers: &'a [String],
    /// The measurements.
    pub measurements: Vec<MeasurementJson<'a>>,
}

/// One measurement, in JSON.
#[derive(Debug, Serialize)]
pub struct MeasurementJson<'a> {
    /// The trial.
    pub trial: &'a str,
    /// Code of the tester.
    pub tester: &'a str,
    /// The kitchen.
    pub kitchen: &'a str,
    /// What was predicted.
    pub predicted_si: Range,
    /// What was measured.
    pub measured_si: f64,
    /// Whether the predicted range held it.
    pub held: bool,
}

/// Makes the JSON of what was learned.
pub fn json(fitted: &Fitted) -> FitJson<'_> {
    let learned = fitted.calibrations.iter().map(|one| LearnedJson {
        route: &one.route,
        quantity: &one.quantity,
        trials: one.counted(),
        held: one.held,
        factor: Range::si(&one.factor),
        outliers: &one.outliers,
        measurements: one
            .observations
            .iter()
            .map(|observation| MeasurementJson {
                trial: &observation.trial,
                tester: &observation.tester,
                kitchen: &observation.kitchen,
                predicted_si: Range::si(&observation.predicted),
                measured_si: numbers::to_digits(observation.measured, DIGITS),
                held: observation.held(),
            })
            .collect(),
    });
    let (held, compared) = coverage(fitted);
    FitJson {
        book: &fitted.book,
        trials: fitted.trials,
        held,
        compared,
        expected_held_fraction: EXPECTED_HELD,
        learned: learned.collect(),
        left_out: &fitted.left_out,
    }
}

/// How many measurements lay within their range, and how many there are.
fn coverage(fitted: &Fitted) -> (usize, usize) {
    let held = fitted.calibrations.iter().map(|one| one.held).sum();
    (held, fitted.calibrations.iter().map(|one| one.observations.len()).sum())
}

/// Writes what was learned.
pub fn document(fitted: &Fitted, knowledge: &Knowledge) -> Document {
    let mut document = Document::new(format!("Predicted and measured in \"{}\"", fitted.book));
    let (held, compared) = coverage(fitted);
    document.facts([
        Fact::new("Trials", fitted.trials.to_string()),
        Fact::new(
            "Within the predicted range",
            format!("{held} of {compared} measurements (8 in 10 are expected)"),
        ),
    ]);
    if compared == 0 {
        document.paragraph("No measurement could be compared with a prediction.");
    } else {
        factors(&mut document, fitted, knowledge);
        for one in &fitted.calibrations {
            learned(&mut document, one, knowledge);
        }
        document.note(
            "Factors are learned on a logarithmic scale by a normal-inverse-gamma update (Gelman \
             and others, Bayesian Data Analysis, 2013, section 3.3); the model itself counts as one \
             trial, so that few trials move a prediction little.",
        );
    }
    if !fitted.left_out.is_empty() {
        document.section("Left out");
        let line = |one: &LeftOut| Item::new(format!("{}: {}", one.trial, one.because));
        document.bullets(fitted.left_out.iter().map(line));
    }
    document
}

fn factors(document: &mut Document, fitted: &Fitted, knowledge: &Knowledge) {
    let mut table = Table::new()
        .caption("Factor on the prediction, as expected of the next trial")
        .words("Route")
        .words("What")
        .numbers("Trials")
        .numbers("Within range")
        .numbers("Factor (range)");
    for one in &fitted.calibrations {
        table.push([
            route_name(&one.route, knowledge),
            quantity_name(&one.quantity, knowledge),
            one.counted().to_string(),
            format!("{} of {}", one.held, one.observations.len()),
            spread(&one.factor).shown(),
        ]);
    }
    document.section("What was learned");
    document.table(table);
}

fn learned(document: &mut Document, one: &Calibration, knowledge: &Knowledge) {
    let what = quantity_name(&one.quantity, knowledge);
    document.section(format!("{}: {what}", route_name(&one.route, knowledge)));
    let mut table = Table::new()
        .words("Trial")
        .words("Tester")
        .words("Kitchen")
        .numbers("Predicted")
        .numbers("Measured")
        .words("Within range");
    for observation in &one.observations {
        table.push([
            observation.trial.clone(),
            observation.tester.clone(),
            observation.kitchen.clone(),
            range(&one.quantity, &observation.predicted, knowledge),
            value(&one.quantity, observation.measured, knowledge),
            if observation.held() { "yes" } else { "no" }.to_owned(),
        ]);
    }
    document.table(table);
    if !one.outliers.is_empty() {
        document.note(format!(
            "Hard to believe, and counted all the same: {}. Check the reading.",
            one.outliers.join(", ")
        ));
    }
    document.chart(side_by_side(one, &what, knowledge));
    // One tester in one kitchen has no spread.
    if one.testers.len() > 1 || one.kitchens.len() > 1 {
        document.chart(spread_chart(one, &what));
    }
}

pub(super) fn route_name(id: &str, knowledge: &Knowledge) -> String {
    knowledge.routes.get(id).map_or_else(|| id.to_owned(), |route| route.name.clone())
}

pub(super) fn quantity_name(id: &str, knowledge: &Knowledge) -> String {
    match knowledge.attributes.get(id) {
        Some(attribute) => attribute.name.clone(),
        None => id.to_owned(),
    }
}

fn range(quantity: &str, estimate: &Estimate, knowledge: &Knowledge) -> String {
    match knowledge.attributes.get(quantity) {
        Some(attribute) if quantity != TIME => shown::range(estimate, attribute),
        _ => shown::time(estimate),
    }
}

pub(super) fn value(quantity: &str, si: f64, knowledge: &Knowledge) -> String {
    match knowledge.attributes.get(quantity) {
        Some(attribute) if quantity != TIME => shown::value(si, &attribute.unit),
        _ => cook_time(Time::from_seconds(si)),
    }
}

/// A corrected number in JSON.
#[derive(Debug, Serialize)]
pub struct CorrectedJson<'a> {
    /// What the step makes.
    pub makes: &'a str,
    /// The route.
    pub route: &'a str,
    /// `time` or the id of an attribute.
    pub quantity: &'a str,
    /// How many trials the correction rests on.
    pub trials: usize,
    /// As computed.
    pub computed_si: Range,
    /// As corrected.
    pub corrected_si: Range,
}

/// Makes the JSON of corrected numbers.
pub fn corrected_json(applied: &[Applied]) -> Vec<CorrectedJson<'_>> {
    let one =
        |one: &'_ Applied| -> (Range, Range) { (Range::si(&one.raw), Range::si(&one.corrected)) };
    applied
        .iter()
        .map(|applied| {
            let (computed_si, corrected_si) = one(applied);
            CorrectedJson {
                makes: &applied.makes,
                route: &applied.route,
                quantity: &applied.quantity,
                trials: applied.trials,
                computed_si,
                corrected_si,
            }
        })
        .collect()
}

/// Adds the corrected numbers to an adapted recipe, each beside what was computed.
pub fn corrected(document: &mut Document, applied: &[Applied], knowledge: &Knowledge) {
    document.section("Corrected by trials");
    if applied.is_empty() {
        document
            .paragraph("No trial of the book went by these routes; every number is as computed.");
        return;
    }
    document.table(corrected_table(applied, knowledge));
    document.note(
        "Times and amounts at the head of the page are corrected; numbers inside the steps' wording \
         are as computed.",
    );
}

/// The corrected numbers, each beside what was computed.
pub(super) fn corrected_table(applied: &[Applied], knowledge: &Knowledge) -> Table {
    let mut table = Table::new()
        .words("Step")
        .words("What")
        .numbers("Computed")
        .numbers("Corrected")
        .words("Basis");
    for one in applied {
        let trials = if one.trials == 1 { "trial" } else { "trials" };
        table.push([
            one.makes.clone(),
            quantity_name(&one.quantity, knowledge),
            range(&one.quantity, &one.raw, knowledge),
            range(&one.quantity, &one.corrected, knowledge),
            format!("corrected by {} {trials}", one.trials),
        ]);
    }
    table
}
