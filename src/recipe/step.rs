//! Steps: a technique with the laboratory's settings, or plain kitchen work.

use std::collections::BTreeMap;

use crate::finding::{Code, nearest};
use crate::knowledge::written::{Spanned, Text};
use crate::knowledge::{Kind, Technique, Value, ValueMap};
use crate::quantity::{Dimension, Mass};
use crate::reader::Reader;

use super::written::WrittenStep;

/// Where an input of a step comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Source {
    /// The ingredient of that index.
    Ingredient(usize),
    /// The product of the step of that index.
    Product(usize),
}

/// An input of a step: a share of an ingredient or of an earlier product.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Use {
    /// Where it comes from.
    pub source: Source,
    /// How much of it goes in, above 0 and at most 1.
    pub share: f64,
}

/// A step, linked.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// Its own name; empty when not stated.
    pub id: String,
    /// What its product is called.
    pub product: String,
    /// What goes in, in the order of the file.
    pub uses: Vec<Use>,
    /// How much the professional gets, when stated.
    pub yields: Option<Mass>,
    /// Whether what no later step uses is served or kept on purpose.
    pub keep: bool,
    /// What else is to be known; empty when not stated.
    pub note: String,
    /// What is done.
    pub task: Task,
}

/// What a step does.
#[derive(Debug, Clone, PartialEq)]
pub enum Task {
    /// A technique of the professional kitchen.
    Professional(Professional),
    /// Plain kitchen work.
    Plain(Box<Work>),
}

/// A technique with the laboratory's settings and the targets that end it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Professional {
    /// Id of the technique.
    pub technique: String,
    /// Targets by id of the attribute.
    pub targets: ValueMap,
    /// The laboratory's settings by parameter name.
    pub laboratory: ValueMap,
    /// The laboratory's settings that are words.
    pub modes: BTreeMap<String, String>,
    /// Ids of the attributes that matter most, the most important first.
    pub priorities: Vec<String>,
}

/// Plain kitchen work.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Work {
    /// What the cook does.
    pub text: String,
    /// Attended time \[s\], when stated.
    pub hands_on: Option<Value>,
    /// Time from start to end \[s\], when stated.
    pub time: Option<Value>,
    /// Share of the mass that is lost, when stated.
    pub loss: Option<Value>,
}

impl Step {
    /// Links a step but for its inputs, which [`super::graph`] joins.
    pub(super) fn link(index: usize, written: &WrittenStep, reader: &mut Reader<'_>) -> Self {
        let yields = written
            .yields
            .as_ref()
            .and_then(|text| reader.amount("`yields`", text, Dimension::Mass));
        Self {
            id: written.id.as_ref().map_or_else(String::new, |id| id.get_ref().clone()),
            product: product_name(index, written),
            uses: Vec::new(),
            yields: yields.map(|amount| Mass::from_si(amount.middle())),
            keep: written.keep,
            note: written.note.clone().unwrap_or_default(),
            task: task(index, written, reader),
        }
    }
}

/// Returns the name of a step's product: `makes`, else `id`, else its number.
pub(super) fn product_name(index: usize, written: &WrittenStep) -> String {
    let name = written.makes.as_ref().or(written.id.as_ref());
    name.map_or_else(|| format!("step {}", index + 1), |name| name.get_ref().clone())
}

/// Returns where in the file a step can be pointed at.
pub(super) fn place(written: &WrittenStep) -> std::ops::Range<usize> {
    let named = [&written.makes, &written.id, &written.technique, &written.work];
    let first = named.into_iter().flatten().next().or(written.uses.first());
    first.map_or(0..0, Spanned::span)
}

fn task(index: usize, written: &WrittenStep, reader: &mut Reader<'_>) -> Task {
    match (&written.technique, &written.work) {
        (Some(technique), None) => {
            let keys =
                [("hands_on", &written.hands_on), ("time", &written.time), ("loss", &written.loss)];
            for (key, text) in keys.iter().filter_map(|(key, t)| Some((key, t.as_ref()?))) {
                misplaced(key, "plain work: the process model computes it", text, reader);
            }
            Task::Professional(professional(technique, written, reader))
        }
        (None, Some(work)) => {
            for name in written.targets.keys() {
                misplaced("targets", "a technique", name, reader);
            }
            for name in written.laboratory.keys() {
                misplaced("laboratory", "a technique", name, reader);
            }
            for name in &written.priorities {
                misplaced("priorities", "a technique", name, reader);
            }
            Task::Plain(Box::new(plain(work, written, reader)))
        }
        (given, _) => {
            let said =
                if given.is_some() { "both `technique` and" } else { "no `technique` and no" };
            let message = format!("step {} has {said} `work`", index + 1);
            let help = "give one of the two".to_owned();
            reader.error(Code::MissingKey, place(written), message, help);
            Task::Plain(Box::default())
        }
    }
}

fn misplaced(key: &str, owner: &str, at: &Text, reader: &mut Reader<'_>) {
    let message = format!("`{key}` belongs to {owner}");
    reader.error(Code::UnknownKey, at.span(), message, "remove it".to_owned());
}

fn plain(work: &Text, written: &WrittenStep, reader: &mut Reader<'_>) -> Work {
    let mut value = |key: &str, text: &Option<Text>, dimension| {
        text.as_ref().and_then(|text| reader.value(&format!("`{key}`"), text, dimension))
    };
    let hands_on = value("hands_on", &written.hands_on, Dimension::Time);
    let time = value("time", &written.time, Dimension::Time);
    let loss = value("loss", &written.loss, Dimension::Fraction);
    if let (Some(text), Some(loss)) = (&written.loss, &loss)
        && !(0.0..1.0).contains(&loss.estimate.high())
    {
        let message = format!("`loss` of {} leaves nothing", text.get_ref());
        let help = "write the share of the mass that is lost, such as \"1 %\"".to_owned();
        reader.error(Code::ImpossibleValue, text.span(), message, help);
    }
    Work { text: work.get_ref().clone(), hands_on, time, loss }
}

fn professional(technique: &Text, written: &WrittenStep, reader: &mut Reader<'_>) -> Professional {
    let targets = targets(&written.targets, reader);
    let priorities =
        written.priorities.iter().filter_map(|word| reader.named(Kind::Attribute, word)).collect();
    let Some(id) = reader.named(Kind::Technique, technique) else {
        return Professional::default();
    };
    let technique = &reader.knowledge().techniques[&id];
    let mut linked = Professional { technique: id, targets, priorities, ..Professional::default() };
    for (name, text) in &written.laboratory {
        linked.set(technique, name, text, reader);
    }
    linked
}

/// Reads targets in the dimension of their attribute.
fn targets(written: &BTreeMap<Text, Text>, reader: &mut Reader<'_>) -> ValueMap {
    let mut linked = ValueMap::new();
    for (name, text) in written {
        let Some(id) = reader.named(Kind::Attribute, name) else { continue };
        let dimension = reader.knowledge().attributes[&id].unit.dimension;
        if let Some(value) = reader.value(&format!("target of `{id}`"), text, dimension) {
            linked.insert(id, value);
        }
    }
    linked
}

impl Professional {
    /// Takes one setting of the laboratory: an amount, or a word where a move has such a mode.
    fn set(&mut self, technique: &Technique, name: &Text, text: &Text, reader: &mut Reader<'_>) {
        let key = name.get_ref();
        if technique.moves.iter().any(|one| one.modes.contains_key(key)) {
            self.modes.insert(key.clone(), text.get_ref().clone());
            return;
        }
        let knowledge = reader.knowledge();
        let processes =
            technique.moves.iter().filter_map(|one| knowledge.processes.get(&one.process));
        let parameters: Vec<_> = processes.flat_map(|process| &process.parameters).collect();
        if let Some((_, parameter)) = parameters.iter().find(|(known, _)| *known == key) {
            let what = format!("`{key}` of the laboratory");
            if let Some(value) = reader.value(&what, text, parameter.dimension()) {
                self.laboratory.insert(key.clone(), value);
            }
            return;
        }
        let mut known: Vec<&str> = parameters.iter().map(|(name, _)| name.as_str()).collect();
        known.sort_unstable();
        known.dedup();
        let message = format!("`{}` has no setting `{key}`", technique.id);
        let near = nearest(key, known.iter().copied())
            .map_or_else(String::new, |near| format!("did you mean `{near}`? "));
        let help = format!("{near}accepted: {}", known.join(", "));
        reader.error(Code::UnknownName, name.span(), message, help);
    }
}
