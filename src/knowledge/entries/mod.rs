//! The linked entries: what the written ones become once every name and unit is resolved.

mod methods;
mod things;

use std::collections::BTreeMap;

use super::{Provenance, Value};
use crate::quantity::{Dimension, Unit};

pub use methods::*;
pub use things::*;

/// Values by name.
pub type ValueMap = BTreeMap<String, Value>;

/// A publication.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Source {
    /// Id.
    pub id: String,
    /// Author or issuing body; empty where it is not known.
    pub author: String,
    /// Title.
    pub title: String,
    /// Whether the title is a description.
    pub described: bool,
    /// Year of publication, or of consulting where it is undated.
    pub year: u16,
    /// Whether its year of publication is not known.
    pub undated: bool,
    /// Journal and volume, publisher or body.
    pub publisher: String,
    /// Kind of publication.
    pub kind: String,
    /// How it was consulted, when not in full.
    pub note: Option<String>,
}

impl Source {
    /// Returns the full citation in one line, as a bibliography has it: a title that is a description
    /// stands in square brackets.
    pub fn citation(&self) -> String {
        let Self { author, year, publisher, .. } = self;
        let title = if self.described { format!("[{}]", self.title) } else { self.title.clone() };
        let stop = if title.ends_with(['.', '?', '!']) { "" } else { "." };
        let year = match self.undated {
            true => format!("undated, consulted {year}"),
            false => year.to_string(),
        };
        let cited = match author.as_str() {
            "" => format!("{title} ({year})."),
            author => format!("{author} ({year}): {title}{stop}"),
        };
        match publisher.as_str() {
            "" => cited,
            publisher => format!("{cited} {publisher}."),
        }
    }
}

/// Which way an attribute is better.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Better {
    /// A higher result is better.
    More,
    /// A lower result is better.
    Less,
    /// The nearer to the laboratory's result, the better.
    Nearer,
}

/// The difference in an attribute that a person notices.
#[derive(Debug, Clone, PartialEq)]
pub enum Notice {
    /// An absolute difference.
    Difference(Value),
    /// A ratio of the larger to the smaller.
    Ratio(Value),
}

/// What results up to a bound mean.
#[derive(Debug, Clone, PartialEq)]
pub struct Level {
    /// The upper bound in SI; infinite for the last.
    pub up_to: f64,
    /// What it means to the person who eats it.
    pub means: String,
    /// Where the bound comes from.
    pub provenance: Provenance,
}

/// What can be measured on a batch.
#[derive(Debug, Clone, PartialEq)]
pub struct Attribute {
    /// Id.
    pub id: String,
    /// Name as printed.
    pub name: String,
    /// Unit as printed.
    pub unit: Unit,
    /// Which way is better.
    pub better: Better,
    /// Group under which results are listed.
    pub group: String,
    /// The difference that a person notices.
    pub notice: Notice,
    /// What a result means, by rising bound.
    pub levels: Vec<Level>,
    /// How a cook measures it at home.
    pub measure: Option<String>,
}

impl Attribute {
    /// Returns what a result in SI means to the person who eats it.
    pub fn meaning(&self, result: f64) -> Option<&str> {
        self.levels.iter().find(|level| result <= level.up_to).map(|level| level.means.as_str())
    }
}

/// A physical effect wanted.
#[derive(Debug, Clone, PartialEq)]
pub struct Goal {
    /// Id.
    pub id: String,
    /// Name as printed.
    pub name: String,
    /// Other names.
    pub synonyms: Vec<String>,
    /// Plain words.
    pub summary: String,
    /// The attribute that measures it.
    pub attribute: String,
    /// The target.
    pub target: Value,
    /// Whether the target is a lower bound rather than an upper one.
    pub at_least: bool,
}

/// A parameter of a process model.
#[derive(Debug, Clone, PartialEq)]
pub struct Parameter {
    /// What it is.
    pub meaning: String,
    /// Its unit as printed.
    pub unit: Unit,
    /// Its default range, when it has one.
    pub default: Option<Value>,
    /// What a cook can do to know it better.
    pub measure: Option<String>,
    /// Whether an appliance states the most that it gives, and can be turned down.
    pub turns_down: bool,
}

impl Parameter {
    /// Returns what it measures.
    pub fn dimension(&self) -> Dimension {
        self.unit.dimension
    }
}

/// What becomes of food that does not fit the vessel at once.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Loads {
    /// The model fills the gear again and again by itself, and tells how often.
    InTheModel,
    /// One vessel is filled again and again: all times are multiplied.
    InTurn,
    /// Several vessels stand side by side: only the work is multiplied.
    SideBySide,
    /// No vessel limits it.
    AnySize,
}

impl Loads {
    /// The four with their words.
    pub const WORDS: [(&str, Self); 4] = [
        ("in the model", Self::InTheModel),
        ("in turn", Self::InTurn),
        ("side by side", Self::SideBySide),
        ("any size", Self::AnySize),
    ];
    /// The parameter that says what a vessel holds.
    pub const VESSEL: &str = "volume";
    /// The parameter that says how far a vessel may be filled.
    pub const FILL: &str = "fill_share";
    /// The value of an appliance that says how many of it a kitchen owns.
    pub const PIECES: &str = "pieces";

    /// Returns whether vessels are counted outside the model.
    pub const fn counted(self) -> bool {
        matches!(self, Self::InTurn | Self::SideBySide)
    }
}

/// A process model and its parameters.
#[derive(Debug, Clone, PartialEq)]
pub struct ProcessEntry {
    /// Id: the name of its module.
    pub id: String,
    /// What it does.
    pub summary: String,
    /// What becomes of food that does not fit the vessel at once.
    pub loads: Loads,
    /// Whether it can stand longer than it needs without harm, until the cook comes back.
    pub stands: bool,
    /// Its parameters.
    pub parameters: BTreeMap<String, Parameter>,
    /// The streams that it gives, the main one first.
    pub streams: Vec<String>,
}

/// How quickly an aroma compound leaves a watery food.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum NoteClass {
    /// Gone within the first few per cent of vapour.
    Top,
    /// Leaves together with the water.
    Middle,
    /// Stays behind.
    Base,
}

impl NoteClass {
    /// The three classes, the most volatile first.
    pub const ALL: [Self; 3] = [Self::Top, Self::Middle, Self::Base];

    /// Returns the word for the class.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Top => "top",
            Self::Middle => "middle",
            Self::Base => "base",
        }
    }
}

/// An aroma compound.
#[derive(Debug, Clone, PartialEq)]
pub struct AromaCompound {
    /// Id.
    pub id: String,
    /// Name as printed.
    pub name: String,
    /// Other names.
    pub synonyms: Vec<String>,
    /// Registry number.
    pub cas: String,
    /// How quickly it leaves.
    pub note: NoteClass,
    /// What it smells of.
    pub smell: String,
    /// Foods in which it matters.
    pub found_in: Vec<String>,
    /// Classes whose values it takes over, the first before the later ones.
    pub classes: Vec<String>,
    /// Its physical values: its own and those of its classes.
    pub values: ValueMap,
    /// The values among these that it does not state itself.
    pub derived: BTreeMap<String, Derived>,
}

impl AromaCompound {
    /// Returns the values that it states itself.
    pub fn stated_values(&self) -> impl Iterator<Item = &Value> {
        things::stated(&self.values, &self.derived)
    }
}

/// What a rule says of a plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// Go on with care.
    Warn,
    /// Do not do it.
    Refuse,
}

/// A computed rule.
#[derive(Debug, Clone, PartialEq)]
pub struct Rule {
    /// What it says of the plan.
    pub verdict: Verdict,
    /// What to say.
    pub says: String,
    /// Its conditions, all of which must hold.
    pub when: Vec<Condition>,
}

/// A fact against its limits.
#[derive(Debug, Clone, PartialEq)]
pub struct Condition {
    /// The fact.
    pub fact: String,
    /// The limit above which the condition holds.
    pub above: Option<Value>,
    /// The limit below which the condition holds.
    pub below: Option<Value>,
}

/// What can hurt someone.
#[derive(Debug, Clone, PartialEq)]
pub struct Hazard {
    /// Id.
    pub id: String,
    /// Name as printed.
    pub name: String,
    /// Other names.
    pub synonyms: Vec<String>,
    /// The signal word.
    pub signal: String,
    /// The usual caution.
    pub caution: String,
    /// Whom to ask.
    pub defer: Option<String>,
    /// Whether its rules are computed for every method.
    pub everywhere: bool,
    /// Foods for which it holds, by id, group or allergen; every food when empty.
    pub foods: Vec<String>,
    /// Computed rules.
    pub rules: Vec<Rule>,
    /// Improvisations that are refused by name.
    pub refuses: Vec<String>,
    /// Where the caution comes from.
    pub provenance: Provenance,
}
