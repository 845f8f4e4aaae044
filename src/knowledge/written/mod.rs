//! The knowledge base as written: one plain struct per TOML kind, with places for messages.
//!
//! A file may hold entries of any kind; the folders below `knowledge/` only help people to find
//! them. Nothing here is checked beyond its shape: see `super::link`.

mod methods;
mod spanned;
mod things;

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::Deserialize;

pub use methods::*;
pub use spanned::Spanned;
pub use things::*;

/// A text with its place in the file.
pub type Text = Spanned<String>;
/// Values by name, each with its place.
pub type Values = BTreeMap<Text, Spanned<WrittenValue>>;

/// Everything that one knowledge file may hold.
#[derive(Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct WrittenFile {
    /// Publications.
    pub source: Vec<WrittenSource>,
    /// What can be measured on a batch, and what a person notices.
    pub attribute: Vec<WrittenAttribute>,
    /// Physical effects wanted, with a target.
    pub goal: Vec<WrittenGoal>,
    /// Process models and their parameters.
    pub process: Vec<WrittenProcess>,
    /// Aroma compounds.
    pub aroma: Vec<WrittenAroma>,
    /// Professional steps.
    pub technique: Vec<WrittenTechnique>,
    /// Ways to reach a goal at home.
    pub route: Vec<WrittenRoute>,
    /// Kinds of gear.
    pub appliance: Vec<WrittenAppliance>,
    /// Consumables.
    pub supply: Vec<WrittenSupply>,
    /// What many foods, or many aroma compounds, have in common.
    pub class: Vec<WrittenClass>,
    /// Foods.
    pub food: Vec<WrittenFood>,
    /// What can hurt someone.
    pub hazard: Vec<WrittenHazard>,
    /// Names of values that entries may state, beside the parameters of processes.
    pub quantity: BTreeMap<Text, Spanned<WrittenParameter>>,
}

/// A number with its range, unit and source.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenValue {
    /// The 10th percentile; `typical` when left out.
    pub low: Option<f64>,
    /// The median.
    pub typical: f64,
    /// The 90th percentile; `typical` when left out.
    pub high: Option<f64>,
    /// The unit of all three; a plain number when left out.
    #[serde(default)]
    pub unit: String,
    /// A source id, `common practice`, `from memory: …`, `estimate: …`; the entry's when left out.
    pub source: Option<Text>,
    /// Page, table or figure in the source.
    pub locator: Option<String>,
    /// `high`, `medium` or `low`.
    #[schemars(extend("enum" = ["high", "medium", "low"]))]
    pub confidence: Option<Text>,
    /// What a reader should know about the number.
    pub note: Option<String>,
}

/// A publication.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenSource {
    /// Id, in kebab case.
    pub id: Text,
    /// Author or issuing body; left out where what was read does not name one.
    #[serde(default)]
    pub author: String,
    /// Title.
    pub title: String,
    /// Whether the title is a description, because what was read does not show the title.
    #[serde(default)]
    pub described: bool,
    /// Year of publication, or of consulting where it is undated.
    pub year: u16,
    /// Whether what was read shows no year of publication.
    #[serde(default)]
    pub undated: bool,
    /// Journal and volume, publisher or body.
    #[serde(default)]
    pub publisher: String,
    /// Kind of publication: article, book, standard, report, dataset, web, law or library.
    #[schemars(extend("enum" = ["article", "book", "standard", "report", "dataset", "web", "law", "library"]))]
    pub kind: Text,
    /// How it was consulted, when not in full.
    pub note: Option<String>,
}

/// What can be measured on a batch.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenAttribute {
    /// Id, in kebab case.
    pub id: Text,
    /// Name as printed.
    pub name: String,
    /// Unit as printed.
    pub unit: Text,
    /// `more`, `less` or `nearer`: which way is better, or nearer to the laboratory's.
    #[schemars(extend("enum" = ["more", "less", "nearer"]))]
    pub better: Text,
    /// Group under which results are listed.
    pub group: String,
    /// The difference that a person notices, in the attribute's unit or as a ratio.
    pub notice: WrittenNotice,
    /// What a result means to the person who eats it, by rising value.
    #[serde(default)]
    pub level: Vec<WrittenLevel>,
    /// How a cook measures it at home, if at all.
    pub measure: Option<String>,
}

/// The difference in an attribute that a person notices.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenNotice {
    /// An absolute difference in the attribute's unit.
    pub difference: Option<Spanned<WrittenValue>>,
    /// A ratio of the larger to the smaller.
    pub ratio: Option<Spanned<WrittenValue>>,
}

/// What results up to a bound mean.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenLevel {
    /// The upper bound in the attribute's unit; none for the last level.
    pub up_to: Option<f64>,
    /// What it means on the tongue or in the pan.
    pub means: String,
    /// Where the bound comes from.
    pub source: Option<Text>,
}

/// A physical effect wanted.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenGoal {
    /// Id, in kebab case.
    pub id: Text,
    /// Name as printed.
    pub name: String,
    /// Other names.
    #[serde(default)]
    pub synonyms: Vec<Text>,
    /// Plain words.
    pub summary: String,
    /// The attribute that measures it.
    pub attribute: Text,
    /// The target, in the attribute's dimension.
    pub target: Spanned<WrittenValue>,
    /// `at least` or `at most`.
    #[schemars(extend("enum" = ["at least", "at most"]))]
    pub reach: Text,
}

/// A process model and its parameters.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenProcess {
    /// Id, in kebab case: the name of its module.
    pub id: Text,
    /// What it does, in plain words.
    pub summary: String,
    /// What becomes of food that does not fit the vessel at once: `in the model`, `in turn`,
    /// `side by side` or `any size`.
    pub loads: Text,
    /// Whether it can stand longer than it needs without harm, until the cook comes back.
    #[serde(default)]
    pub stands: bool,
    /// Its parameters by name.
    #[serde(default)]
    pub parameters: BTreeMap<Text, Spanned<WrittenParameter>>,
    /// The streams that it gives, the main one first.
    #[serde(default)]
    pub streams: Vec<String>,
}

/// A parameter of a process model: its meaning, and its default range when it has one.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenParameter {
    /// What it is.
    pub meaning: String,
    /// Its unit.
    pub unit: Text,
    /// The 10th percentile of the default.
    pub low: Option<f64>,
    /// The median of the default; none when an appliance or a move must give it.
    pub typical: Option<f64>,
    /// The 90th percentile of the default.
    pub high: Option<f64>,
    /// A source id, `common practice`, `from memory: …` or `estimate: …`.
    pub source: Option<Text>,
    /// Page, table or figure in the source.
    pub locator: Option<String>,
    /// `high`, `medium` or `low`.
    #[schemars(extend("enum" = ["high", "medium", "low"]))]
    pub confidence: Option<Text>,
    /// What a reader should know about the default.
    pub note: Option<String>,
    /// What a cook can do to know it better.
    pub measure: Option<String>,
    /// Whether an appliance states the most that it gives, and can be turned down.
    #[serde(default)]
    pub turns_down: bool,
}

/// An aroma compound.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenAroma {
    /// Id, in kebab case.
    pub id: Text,
    /// Name as printed.
    pub name: String,
    /// Other names.
    #[serde(default)]
    pub synonyms: Vec<Text>,
    /// Registry number.
    pub cas: String,
    /// Formula.
    #[serde(default)]
    pub formula: String,
    /// `top`, `middle` or `base`.
    #[schemars(extend("enum" = ["top", "middle", "base"]))]
    pub note: Text,
    /// What it smells of.
    pub smell: String,
    /// Foods in which it matters, in plain words.
    #[serde(default)]
    pub found_in: Vec<String>,
    /// Classes whose values it takes over where it states none itself.
    #[serde(default)]
    pub classes: Vec<Text>,
    /// Its physical values.
    pub values: Values,
}

/// What can hurt someone.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenHazard {
    /// Id, in kebab case.
    pub id: Text,
    /// Name as printed.
    pub name: String,
    /// Other names.
    #[serde(default)]
    pub synonyms: Vec<Text>,
    /// `danger`, `warning` or `caution`.
    #[schemars(extend("enum" = ["danger", "warning", "caution"]))]
    pub signal: Text,
    /// The usual caution: hazard, consequence, action, when to stop.
    pub caution: String,
    /// Whom to ask: local code, tested procedure, licence.
    pub defer: Option<String>,
    /// Whether its rules are computed for every method, not only where it is named.
    #[serde(default)]
    pub everywhere: bool,
    /// Foods of the step for which it holds, by id, group or allergen; every food when empty.
    #[serde(default)]
    pub foods: Vec<Text>,
    /// Rules that are computed; without any the caution is printed wherever the hazard is named.
    #[serde(default)]
    pub rule: Vec<WrittenRule>,
    /// Improvisations that are refused by name.
    #[serde(default)]
    pub refuses: Vec<String>,
    /// Where the caution comes from.
    pub source: Option<Text>,
    /// Page, table or section in it.
    pub locator: Option<String>,
}

/// A computed rule: fires when all of its conditions hold.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenRule {
    /// `warn` or `refuse`.
    #[schemars(extend("enum" = ["warn", "refuse"]))]
    pub verdict: Text,
    /// What to say, with places for computed numbers.
    pub says: String,
    /// Its conditions.
    pub when: Vec<WrittenCondition>,
}

/// A fact that lies above or below a limit.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenCondition {
    /// The fact, by name.
    pub fact: Text,
    /// The limit above which the condition holds.
    pub above: Option<Spanned<WrittenValue>>,
    /// The limit below which the condition holds.
    pub below: Option<Spanned<WrittenValue>>,
}
