//! A trial, linked: every reading in SI, every doubt a question.

use std::collections::BTreeMap;
use std::path::Path;

use toml::value::Datetime;

use super::reading::{Reading, Readings};
use super::written::{Purpose, Verdict, WrittenConditions, WrittenMeasuredStep, WrittenTrial};
use super::{amend, question};
use crate::finding::{Code, Finding, Severity, nearest};
use crate::knowledge::Knowledge;
use crate::knowledge::written::Text;
use crate::quantity::Dimension;
use crate::reader::{Bounds, load_text, parse_toml};

/// Altitudes of kitchens: from the shore of the Dead Sea to the highest towns, with room to spare
/// (common knowledge).
const ALTITUDE: Bounds = Bounds::new(
    Dimension::Length,
    -450.0,
    6000.0,
    "people cook between 450 m below the sea and 6000 m above it",
);

/// A trial with its corrections applied.
#[derive(Debug, Clone, PartialEq)]
pub struct Trial {
    /// Its name.
    pub id: String,
    /// The recipe, by the name of its file.
    pub recipe: String,
    /// The version of the recipe; empty when not stated.
    pub recipe_version: String,
    /// The SHA-256 of the recipe file, when stated.
    pub recipe_sha256: Option<String>,
    /// The kitchen, by the name of its file.
    pub kitchen: String,
    /// When it began.
    pub start: Datetime,
    /// Code of the tester.
    pub tester: String,
    /// Why it was made.
    pub purpose: Purpose,
    /// What came of it.
    pub verdict: Verdict,
    /// The number of the cause of what went wrong.
    pub cause: Option<i64>,
    /// What should be changed; empty when nothing.
    pub change: String,
    /// What else is to be known; empty when nothing.
    pub note: String,
    /// The room and the air.
    pub conditions: Conditions,
    /// What went in.
    pub ingredients: Vec<Actual>,
    /// What was measured in each step.
    pub steps: Vec<MeasuredStep>,
    /// How many corrections were appended.
    pub amendments: usize,
}

/// The room and the air, in SI.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Conditions {
    /// Altitude \[m\].
    pub altitude: Reading,
    /// Air pressure \[Pa\].
    pub pressure: Reading,
    /// Temperature of the room \[K\].
    pub room_temperature: Reading,
    /// Relative humidity of the room.
    pub room_humidity: Reading,
    /// What a thermometer read in boiling water \[K\].
    pub water_boils_at: Reading,
}

/// An ingredient as it was used.
#[derive(Debug, Clone, PartialEq)]
pub struct Actual {
    /// The id of the ingredient in the recipe.
    pub id: String,
    /// Mass as bought \[kg\].
    pub mass: Reading,
    /// Dissolved solids as measured.
    pub brix: Reading,
    /// The pH as measured.
    pub ph: Reading,
}

/// What was measured in one step.
#[derive(Debug, Clone, PartialEq)]
pub struct MeasuredStep {
    /// What it makes.
    pub makes: String,
    /// The route taken.
    pub route: Option<String>,
    /// Time from start to end \[s\].
    pub time: Reading,
    /// Attended time \[s\].
    pub hands_on: Reading,
    /// Mass that went in \[kg\].
    pub mass_in: Reading,
    /// Mass that came out \[kg\].
    pub mass_out: Reading,
    /// Results by attribute in SI.
    pub measured: BTreeMap<String, Reading>,
    /// Whether something was done otherwise than written.
    pub deviates: bool,
}

/// A trial that could be read, with what is to be asked about it.
#[derive(Debug, Clone, PartialEq)]
pub struct ReadTrial {
    /// The trial.
    pub trial: Trial,
    /// Questions: values that are hard to believe, names that nothing goes by. Nothing was dropped.
    pub questions: Vec<Finding>,
}

impl Trial {
    /// Reads a trial file's text; its corrections are applied in order.
    ///
    /// # Errors
    /// Every finding that keeps the file from being read, in the order of the file.
    pub fn read(text: &str, file: &str, knowledge: &Knowledge) -> Result<ReadTrial, Vec<Finding>> {
        let written: WrittenTrial = parse_toml(text, file).map_err(|fault| vec![*fault])?;
        let mut readings = Readings { file, findings: Vec::new() };
        let amended = amend::apply(&written, &mut readings);
        let trial = link(&amended, knowledge, &mut readings);
        question::ask(&amended, &trial, &mut readings);
        let mut findings = readings.findings;
        findings.sort_by_key(|finding| finding.label.as_ref().map(|label| label.span.start));
        if findings.iter().any(|finding| finding.severity == Severity::Error) {
            return Err(findings);
        }
        Ok(ReadTrial { trial, questions: findings })
    }

    /// Reads a trial from a file.
    ///
    /// # Errors
    /// As [`Trial::read`], or one finding when the file cannot be read.
    pub fn load(path: &Path, knowledge: &Knowledge) -> Result<ReadTrial, Vec<Finding>> {
        let text = load_text(path).map_err(|fault| vec![*fault])?;
        Self::read(&text, &path.display().to_string(), knowledge)
    }
}

fn link(written: &WrittenTrial, knowledge: &Knowledge, readings: &mut Readings<'_>) -> Trial {
    for (what, text) in [
        ("id", &written.id),
        ("recipe", &written.recipe),
        ("kitchen", &written.kitchen),
        ("tester", &written.tester),
    ] {
        if text.get_ref().trim().is_empty() {
            let finding = Finding::error(Code::MissingKey, readings.file, format!("no {what}"));
            readings.findings.push(finding.at(text.span(), "").help("write it between the quotes"));
        }
    }
    let optional = |text: &Option<Text>| text.as_ref().map(|text| text.get_ref().clone());
    Trial {
        id: written.id.get_ref().clone(),
        recipe: written.recipe.get_ref().clone(),
        recipe_version: optional(&written.recipe_version).unwrap_or_default(),
        recipe_sha256: optional(&written.recipe_sha256),
        kitchen: written.kitchen.get_ref().clone(),
        start: *written.start.get_ref(),
        tester: written.tester.get_ref().clone(),
        purpose: written.purpose,
        verdict: written.verdict,
        cause: written.cause.as_ref().map(|cause| *cause.get_ref()),
        change: written.change.clone().unwrap_or_default(),
        note: written.note.clone().unwrap_or_default(),
        conditions: conditions(&written.conditions, readings),
        ingredients: written.ingredient.iter().map(|one| actual(one, readings)).collect(),
        steps: written.step.iter().map(|one| step(one, knowledge, readings)).collect(),
        amendments: written.amendment.len(),
    }
}

fn conditions(written: &WrittenConditions, readings: &mut Readings<'_>) -> Conditions {
    let altitude = readings.within("altitude", written.altitude.as_ref(), &ALTITUDE);
    let mut read = |what: &str, text: &Option<Text>, of| readings.read(what, text.as_ref(), of);
    Conditions {
        altitude,
        pressure: read("air pressure", &written.pressure, Dimension::Pressure),
        room_temperature: read(
            "room temperature",
            &written.room_temperature,
            Dimension::Temperature,
        ),
        room_humidity: read("room humidity", &written.room_humidity, Dimension::Fraction),
        water_boils_at: read("boiling point", &written.water_boils_at, Dimension::Temperature),
    }
}

fn actual(written: &super::written::WrittenActual, readings: &mut Readings<'_>) -> Actual {
    let name = written.id.get_ref();
    Actual {
        ph: readings.read(&format!("pH of {name}"), written.ph.as_ref(), Dimension::Fraction),
        id: name.clone(),
        mass: readings.read(name, Some(&written.actual), Dimension::Mass),
        brix: readings.read(
            &format!("solids of {name}"),
            written.brix.as_ref(),
            Dimension::Fraction,
        ),
    }
}

fn step(
    written: &WrittenMeasuredStep,
    knowledge: &Knowledge,
    readings: &mut Readings<'_>,
) -> MeasuredStep {
    let makes = written.makes.get_ref().clone();
    let route = written.route.as_ref().map(|route| {
        let id = route.get_ref();
        if !knowledge.routes.contains_key(id) {
            unknown("route", route, knowledge.routes.keys(), readings);
        }
        id.clone()
    });
    let mut read = |what: &str, text: &Option<Text>, dimension| {
        readings.read(&format!("{what} of {makes}"), text.as_ref(), dimension)
    };
    let time = read("time", &written.time, Dimension::Time);
    let hands_on = read("hands-on time", &written.hands_on, Dimension::Time);
    let mass_in = read("mass in", &written.mass_in, Dimension::Mass);
    let mass_out = read("mass out", &written.mass_out, Dimension::Mass);
    let mut measured = BTreeMap::new();
    for (name, value) in &written.measured {
        let id = name.get_ref();
        let reading = if let Some(attribute) = knowledge.attributes.get(id) {
            readings.read(&attribute.name, Some(value), attribute.unit.dimension)
        } else {
            unknown("attribute", name, knowledge.attributes.keys(), readings);
            readings.read_any(id, value)
        };
        measured.insert(id.clone(), reading);
    }
    for reading in &written.reading {
        let _ = readings.read("`at`", reading.at.as_ref(), Dimension::Time);
        let _ = readings.read_any(&reading.what, &reading.value);
    }
    let deviates = written.deviation.is_some();
    MeasuredStep { makes, route, time, hands_on, mass_in, mass_out, measured, deviates }
}

/// Asks about a name that nothing goes by: the record may be older than the knowledge.
fn unknown<'k>(
    kind: &str,
    name: &Text,
    known: impl Iterator<Item = &'k String>,
    readings: &mut Readings<'_>,
) {
    let help = match nearest(name.get_ref(), known.map(String::as_str)) {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!("`standin show {kind}` lists what is known; the reading is kept"),
    };
    let message = format!("no {kind} goes by `{}`", name.get_ref());
    let finding = Finding::warning(Code::UnknownName, readings.file, message);
    readings.findings.push(finding.at(name.span(), "").help(help));
}
