//! The house style of a book: `book.toml` as written, and linked.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::inside;
use super::templates::{NAMES, file_name};
use crate::finding::{Code, Finding, suggestion};
use crate::knowledge::written::Text;

/// A `book.toml` as written.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenBook {
    /// The title of the book.
    pub title: Text,
    /// What is to be known about the book, in plain words.
    pub note: Option<String>,
    /// Who works on it, by code.
    #[serde(default)]
    pub team: Vec<WrittenMember>,
    /// How the book is written; every key has a default.
    #[serde(default)]
    pub style: WrittenStyle,
    /// Files of the folder `templates` that replace a built-in layout, `notes` or `notes-html`: `notes = "templates/notes.md"`.
    #[serde(default)]
    pub templates: BTreeMap<Text, Text>,
}

/// Someone who works on a book, known by a code and not by name, as written.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WrittenMember {
    /// Initials or another code: "JD", "H2".
    pub code: Text,
    /// What they do, in plain words.
    #[serde(default)]
    pub role: String,
}

/// Someone who works on a book.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Member {
    /// Initials or another code.
    pub code: String,
    /// What they do; empty when not stated.
    pub role: String,
}

/// The `[style]` table as written.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct WrittenStyle {
    /// `weight-first` (the default) or `volume-first`.
    pub units: UnitOrder,
    /// `uk` (the default) or `us`.
    pub spelling: Spelling,
    /// `point` (the default) or `comma`.
    pub decimal_mark: DecimalMark,
    /// `dash` (the default, 25–30 min) or `to` (25 to 30 min).
    pub ranges: RangeStyle,
    /// `celsius` (the default), `fahrenheit`, `celsius-first` or `fahrenheit-first`.
    pub temperature: TemperatureScale,
    /// `cook` (the default) or `coarse`.
    pub rounding: Rounding,
}

/// Which of two measures of one amount comes first.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum UnitOrder {
    /// Grams, with cups and spoons in brackets.
    #[default]
    WeightFirst,
    /// Cups and spoons, with grams in brackets.
    VolumeFirst,
}

/// Whose words the book is written in.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Spelling {
    /// British.
    #[default]
    Uk,
    /// American.
    Us,
}

impl Spelling {
    /// Returns the language that it writes, as pages and manuscripts state it.
    pub const fn language(self) -> &'static str {
        match self {
            Self::Uk => "en-GB",
            Self::Us => "en-US",
        }
    }
}

/// The mark between whole numbers and decimals.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum DecimalMark {
    /// 1.5
    #[default]
    Point,
    /// 1,5
    Comma,
}

/// How the two ends of a range are joined.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum RangeStyle {
    /// 25–30 min
    #[default]
    Dash,
    /// 25 to 30 min
    To,
}

/// The scale in which temperatures are printed.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum TemperatureScale {
    /// 180 °C
    #[default]
    Celsius,
    /// 350 °F
    Fahrenheit,
    /// 180 °C (350 °F)
    CelsiusFirst,
    /// 350 °F (180 °C)
    FahrenheitFirst,
}

/// How finely computed weights are printed; what an author wrote stays as it is.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Rounding {
    /// For a digital scale: 1 g from 20 g, 5 g from 100 g, 10 g from 1 kg.
    #[default]
    Cook,
    /// For a spring scale: 5 g from 20 g, 10 g from 100 g, 50 g from 1 kg.
    Coarse,
}

/// How a book is written.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct HouseStyle {
    /// Which measure comes first.
    pub units: UnitOrder,
    /// Whose words.
    pub spelling: Spelling,
    /// The decimal mark.
    pub decimal_mark: DecimalMark,
    /// How ranges are joined.
    pub ranges: RangeStyle,
    /// The temperature scale.
    pub temperature: TemperatureScale,
    /// How finely weights are printed.
    pub rounding: Rounding,
    /// Layouts that replace built-in ones, by name; each lies inside the book.
    pub templates: BTreeMap<String, PathBuf>,
}

/// Links the team of a book; a code that comes twice is a finding.
pub(super) fn team(
    written: &[WrittenMember],
    file: &str,
    findings: &mut Vec<Finding>,
) -> Vec<Member> {
    let mut team: Vec<Member> = Vec::new();
    for member in written {
        let code = member.code.get_ref();
        if team.iter().any(|other| other.code == *code) {
            let message = format!("two members of the team go by `{code}`");
            let finding = Finding::error(Code::DuplicateName, file, message);
            let help = "give each a code of their own";
            findings.push(finding.at(member.code.span(), "").help(help));
        }
        team.push(Member { code: code.clone(), role: member.role.clone() });
    }
    team
}

/// Links the style of a book and reports what is wrong with it.
pub(super) fn link(
    written: &WrittenBook,
    root: &Path,
    file: &str,
    findings: &mut Vec<Finding>,
) -> HouseStyle {
    if written.title.get_ref().trim().is_empty() {
        let finding = Finding::error(Code::MissingKey, file, "the book has no title");
        findings.push(finding.at(written.title.span(), "").help("write its working title"));
    }
    let mut templates = BTreeMap::new();
    for (name, path) in &written.templates {
        if !NAMES.contains(&name.get_ref().as_str()) {
            let message = format!("no layout goes by `{}`", name.get_ref());
            let finding = Finding::error(Code::UnknownName, file, message);
            findings.push(finding.at(name.span(), "").help(suggestion(name.get_ref(), &NAMES)));
        }
        let resolved = inside::resolve(root, Path::new(path.get_ref()));
        let within = resolved.and_then(|path| file_name(root, &path).map(|_| path));
        match within {
            Ok(resolved) => {
                templates.insert(name.get_ref().clone(), resolved);
            }
            Err(fault) => findings.push(fault.finding(file).at(path.span(), "")),
        }
    }
    let style = &written.style;
    HouseStyle {
        units: style.units,
        spelling: style.spelling,
        decimal_mark: style.decimal_mark,
        ranges: style.ranges,
        temperature: style.temperature,
        rounding: style.rounding,
        templates,
    }
}
