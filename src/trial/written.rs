//! A trial file as written, field by field, with places for messages.
//!
//! A measurement is text with its unit. `"not measured"`, `"not applicable"` and `"0 g"` are three
//! different answers; a key that is left out reads as not measured.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use toml::value::Datetime;

use crate::knowledge::written::{Spanned, Text};

/// A trial: what a tester did and measured.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenTrial {
    /// The name of the trial; in small letters it is the name of the file.
    pub id: Text,
    /// The recipe, by the name of its file.
    pub recipe: Text,
    /// The version of its text, as the team counts: "0.2".
    #[serde(skip_serializing_if = "Option::is_none")]
    pub recipe_version: Option<Text>,
    /// The SHA-256 of the recipe file as it was cooked from.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub recipe_sha256: Option<Text>,
    /// The kitchen, by the name of its file.
    pub kitchen: Text,
    /// When it began: a date, or better date and time with the offset from universal time.
    #[schemars(with = "String", extend("anyOf" = moments()))]
    pub start: Spanned<Datetime>,
    /// Code of the tester; not a name.
    pub tester: Text,
    /// Why it was made.
    pub purpose: Purpose,
    /// What came of it.
    pub verdict: Verdict,
    /// The cause of what went wrong, by its number in the list of causes.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cause: Option<Spanned<i64>>,
    /// What should be changed in the recipe.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub change: Option<String>,
    /// What else is to be known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    /// The room and the air.
    #[serde(default, skip_serializing_if = "WrittenConditions::is_empty")]
    pub conditions: WrittenConditions,
    /// What was measured with, in plain words: `scale = "5 kg in steps of 1 g"`.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub instruments: BTreeMap<String, String>,
    /// What went in.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub ingredient: Vec<WrittenActual>,
    /// What was measured in each step.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub step: Vec<WrittenMeasuredStep>,
    /// What tasters said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sensory: Option<WrittenSensory>,
    /// Corrections, in the order in which they were appended.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub amendment: Vec<WrittenAmendment>,
}

/// Why a trial is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Purpose {
    /// To find out; failure is expected.
    Explore,
    /// To repeat the frozen text.
    Repeat,
    /// To repeat it in another kitchen by another hand.
    Cross,
    /// To see whether a reader at home manages from the page alone.
    Home,
    /// To have it tasted.
    Sensory,
}

/// What came of a trial.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// Every target was met.
    Pass,
    /// The targets were met, and something is to be said.
    PassWithNote,
    /// Not made as written, or not decided: to be made again.
    Retest,
    /// A target was missed.
    Fail,
    /// Thrown away for safety, and not tasted.
    Discarded,
}

impl Verdict {
    /// Returns the verdict in words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Pass => "pass",
            Self::PassWithNote => "pass with note",
            Self::Retest => "retest",
            Self::Fail => "fail",
            Self::Discarded => "discarded for safety",
        }
    }
}

/// The room and the air.
#[derive(Debug, Clone, Default, PartialEq, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct WrittenConditions {
    /// Altitude of the place.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub altitude: Option<Text>,
    /// Air pressure as read.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pressure: Option<Text>,
    /// Temperature of the room.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub room_temperature: Option<Text>,
    /// Relative humidity of the room.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub room_humidity: Option<Text>,
    /// What a thermometer read in boiling water.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub water_boils_at: Option<Text>,
}

impl WrittenConditions {
    fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// An ingredient as it was used.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenActual {
    /// The id of the ingredient in the recipe.
    pub id: Text,
    /// How much was used, as bought.
    pub actual: Text,
    /// Lot or variety.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lot: Option<String>,
    /// What was used instead, and why.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub instead: Option<String>,
    /// Dissolved solids as measured: "11.8 °Brix".
    #[serde(skip_serializing_if = "Option::is_none")]
    pub brix: Option<Text>,
    /// The pH as measured.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ph: Option<Text>,
}

/// What was measured in one step.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenMeasuredStep {
    /// What the step makes, as the recipe calls it.
    pub makes: Text,
    /// The route taken at home, by id; left out for plain work.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub route: Option<Text>,
    /// Time from start to end.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub time: Option<Text>,
    /// Attended time.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hands_on: Option<Text>,
    /// Mass that went in.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub mass_in: Option<Text>,
    /// Mass that came out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub mass_out: Option<Text>,
    /// How the end was judged.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub endpoint: Option<Endpoint>,
    /// What was done otherwise than written.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub deviation: Option<String>,
    /// Results by attribute: `soluble-solids = "58.4 °Brix"`.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub measured: BTreeMap<Text, Text>,
    /// Readings on the way.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub reading: Vec<WrittenReading>,
}

/// How the end of a step was judged.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Endpoint {
    /// Measured: a weight, a temperature, a strength.
    Measured,
    /// Seen.
    Seen,
    /// Felt.
    Felt,
    /// It was not reached.
    NotReached,
}

/// One reading on the way.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenReading {
    /// When, from the start of the step.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at: Option<Text>,
    /// What was read, in plain words: "core temperature".
    pub what: String,
    /// The reading with its unit.
    pub value: Text,
}

/// What tasters said.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenSensory {
    /// Whether it was tasted at all.
    pub tasted: bool,
    /// What they said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    /// Scores on the nine-point scale of liking, 1 dislike extremely to 9 like extremely, by what
    /// was scored.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub scores: BTreeMap<Text, Spanned<i64>>,
}

/// A correction, appended to the record that it corrects.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenAmendment {
    /// When it was made.
    #[schemars(with = "String", extend("anyOf" = moments()))]
    pub at: Spanned<Datetime>,
    /// Code of who made it.
    pub by: Text,
    /// Why.
    pub reason: Text,
    /// What holds from now on, by key: `verdict = "fail"`, `"step.treacle.time" = "48 min"`.
    pub set: BTreeMap<Text, Text>,
}

/// The forms in which a date with or without its time is described to an editor.
fn moments() -> [BTreeMap<&'static str, &'static str>; 2] {
    ["date-time", "date"].map(|format| BTreeMap::from([("format", format)]))
}
