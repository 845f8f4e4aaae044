//! Reading what users write: amounts within physical bounds, and names of the knowledge base.
//!
//! A [`Reader`] collects every finding of one file, so that a faulty file is reported whole. It
//! knows nothing of kitchens or recipes.

use std::ops::Range;

use serde::de::DeserializeOwned;

use crate::estimate::Estimate;
use crate::finding::{Code, Finding, suggestion};
use crate::knowledge::text::control_character;
pub use crate::knowledge::text::read_text as load_text;
use crate::knowledge::written::Text;
use crate::knowledge::{Kind, Knowledge, Value};
use crate::quantity::{Amount, Dimension, Measures, parse_amount, significant};

/// How many near names a message offers.
const OFFERED: usize = 3;
/// Digits with which a bound is printed: enough for 101.3 kPa and 273.2 °C.
const BOUND_DIGITS: u32 = 4;

/// The physical bounds of an amount; both ends are allowed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds {
    /// What the amount measures.
    pub dimension: Dimension,
    /// The lower end in SI; [`ABOVE_ZERO`] when zero itself is not allowed.
    pub low: f64,
    /// The upper end in SI.
    pub high: f64,
    /// Why nothing lies beyond, as a help line.
    pub why: &'static str,
}

/// A lower bound that leaves out zero.
pub const ABOVE_ZERO: f64 = f64::MIN_POSITIVE;

impl Bounds {
    /// Makes bounds from their parts.
    pub const fn new(dimension: Dimension, low: f64, high: f64, why: &'static str) -> Self {
        Self { dimension, low, high, why }
    }

    /// Returns the bounds that hold for anything of a dimension in or near a kitchen.
    ///
    /// They catch slips of the pen, not bold plans: each lies far outside common gear.
    pub const fn of(dimension: Dimension) -> Self {
        const SIZE: &str = "a size is above zero and fits a building";
        let (low, high, why) = match dimension {
            Dimension::Temperature => {
                (0.0, 1500.0, "a temperature lies between absolute zero and the heat of a forge")
            }
            Dimension::Mass => (ABOVE_ZERO, 1e4, "a mass is above zero and below 10 t"),
            Dimension::Volume => (ABOVE_ZERO, 1e5, SIZE),
            Dimension::Length => (ABOVE_ZERO, 1e3, SIZE),
            Dimension::Area => (ABOVE_ZERO, 1e4, SIZE),
            Dimension::Time => (0.0, 3.2e7, "a time is not negative and below a year"),
            Dimension::Power => (ABOVE_ZERO, 1e6, "a power is above zero and below 1 MW"),
            Dimension::Pressure => {
                (ABOVE_ZERO, 1e9, "a pressure is above zero: no pump makes a perfect vacuum")
            }
            Dimension::RotationSpeed => (0.0, 1e4, "a speed is not negative and below 600 000 rpm"),
            Dimension::Fraction
            | Dimension::TemperatureDifference
            | Dimension::Angle
            | Dimension::MolarEnergy => (f64::NEG_INFINITY, f64::INFINITY, ""),
            _ => (0.0, f64::INFINITY, "the amount is not negative"),
        };
        Self { dimension, low, high, why }
    }

    fn holds(&self, amount: &Amount) -> bool {
        amount.low >= self.low && amount.high <= self.high
    }

    /// Writes the bounds in the unit in which an amount was written.
    fn text(&self, amount: &Amount) -> String {
        let unit = &amount.unit;
        let shown = |si: f64| significant(unit.from_si(si), BOUND_DIGITS);
        let high = shown(self.high);
        let range = if self.low > 0.0 && self.low <= ABOVE_ZERO {
            format!("above 0 to {high} {}", unit.symbol)
        } else if self.high.is_finite() {
            format!("{} to {high} {}", shown(self.low), unit.symbol)
        } else {
            format!("{} {} and up", shown(self.low), unit.symbol)
        };
        range.trim_end().to_owned()
    }
}

/// The bounds of a share of a whole.
pub const SHARE: Bounds =
    Bounds::new(Dimension::Fraction, 0.0, 1.0, "a share lies between 0 and 100 %");

/// Strengths of syrups: published tables of refractive index end here (ICUMSA SPS-3, from memory).
pub const BRIX: Bounds =
    Bounds::new(Dimension::Fraction, 0.0, 0.85, "write dissolved solids as \"12 °Brix\", up to 85");
/// Strengths of drinks: neutral spirit is sold at 96 % by volume (from memory: Regulation (EU)
/// 2019/787, article 5).
pub const STRENGTH: Bounds =
    Bounds::new(Dimension::Fraction, 0.0, 0.96, "write the strength as \"6 % ABV\", up to 96");
/// The pH scale.
pub const PH: Bounds = Bounds::new(Dimension::Fraction, 0.0, 14.0, "a pH lies between 0 and 14");

/// Returns the bounds of a share by the unit in which it was written.
fn share_bounds(written: &str) -> Option<Bounds> {
    let lower = written.to_lowercase();
    let any = |parts: &[&str]| parts.iter().any(|part| lower.contains(part));
    if any(&["brix", "°bx"]) || lower.ends_with("bx") {
        Some(BRIX)
    } else if any(&["abv", "vol"]) {
        Some(STRENGTH)
    } else if any(&["%", "per cent", "percent"]) {
        Some(SHARE)
    } else {
        None
    }
}

/// Turns TOML into a struct as written.
///
/// # Errors
/// The finding for the first fault of syntax, key or type, or for a control character.
pub fn parse_toml<T: DeserializeOwned>(text: &str, file: &str) -> Result<T, Box<Finding>> {
    if let Some(finding) = control_character(text, file) {
        return Err(Box::new(finding));
    }
    toml::from_str(text).map_err(|error| {
        let mut finding = Finding::of_toml(file, &error);
        if finding.help.is_none() && error.message().contains("expected a string") {
            finding.help = Some("write it in quotes; an amount with its unit: \"1.5 kW\"".into());
        }
        Box::new(finding)
    })
}

/// Reads amounts and names of one file and keeps every finding.
#[derive(Debug)]
pub struct Reader<'a> {
    file: &'a str,
    knowledge: &'a Knowledge,
    measures: Measures,
    findings: Vec<Finding>,
}

impl<'a> Reader<'a> {
    /// Makes a reader for a file, with the household measures of its author.
    pub fn new(file: &'a str, knowledge: &'a Knowledge, measures: Measures) -> Self {
        Self { file, knowledge, measures, findings: Vec::new() }
    }

    /// Returns the knowledge base that names are resolved against.
    pub fn knowledge(&self) -> &'a Knowledge {
        self.knowledge
    }

    /// Returns the household measures in which amounts are read.
    pub fn measures(&self) -> Measures {
        self.measures
    }

    /// Sets the household measures in which the amounts that follow are read.
    pub fn set_measures(&mut self, measures: Measures) {
        self.measures = measures;
    }

    /// Returns the findings, in the order in which they were made.
    pub fn into_findings(self) -> Vec<Finding> {
        self.findings
    }

    /// Keeps an error at a place, with what to do about it.
    pub fn error(&mut self, code: Code, place: Range<usize>, message: String, help: String) {
        let finding = Finding::error(code, self.file, message).at(place, "");
        self.findings.push(if help.is_empty() { finding } else { finding.help(help) });
    }

    /// Reads an amount within the bounds of its dimension; `None` after a finding.
    pub fn amount(&mut self, what: &str, text: &Text, dimension: Dimension) -> Option<Amount> {
        self.within(what, text, &Bounds::of(dimension))
    }

    /// Reads an amount within bounds; `None` after a finding.
    pub fn within(&mut self, what: &str, text: &Text, bounds: &Bounds) -> Option<Amount> {
        let written = text.get_ref();
        let amount = match parse_amount(written, bounds.dimension, self.measures) {
            Ok(amount) => amount,
            Err(error) => {
                let message = format!("{what}: {error}");
                self.error(Code::Amount, text.span(), message, error.help());
                return None;
            }
        };
        if !bounds.holds(&amount) {
            let message = format!("{what} of {written} lies outside {}", bounds.text(&amount));
            self.error(Code::ImpossibleValue, text.span(), message, bounds.why.to_owned());
            return None;
        }
        Some(amount)
    }

    /// Reads a value by its declared unit, one number or a range; `None` after a finding.
    ///
    /// A share written with a per cent sign lies between 0 and 100 %, one in degrees Brix or as a
    /// strength by volume in the range of [`BRIX`] or [`STRENGTH`].
    pub fn value(&mut self, what: &str, text: &Text, dimension: Dimension) -> Option<Value> {
        let by_unit = share_bounds(text.get_ref()).filter(|_| dimension == Dimension::Fraction);
        let bounds = by_unit.unwrap_or(Bounds::of(dimension));
        let amount = self.within(what, text, &bounds)?;
        Some(Value::given(estimate(&amount), amount.unit))
    }

    /// Resolves a word to the id of an entry by id, name or synonym; `None` after a finding.
    pub fn named(&mut self, kind: Kind, word: &Text) -> Option<String> {
        let written = word.get_ref().as_str();
        if let Some(id) = self.knowledge.id(kind, written) {
            return Some(id.to_owned());
        }
        let found = self.knowledge.find(written);
        let of_kind: Vec<&str> =
            found.iter().filter(|entry| entry.kind == kind).map(|entry| entry.id).collect();
        match of_kind.as_slice() {
            [one] => return Some((*one).to_owned()),
            [] => {}
            several => {
                let message = format!("several entries go by `{written}`");
                let help = format!("write one of the ids: {}", several.join(", "));
                self.error(Code::UnknownName, word.span(), message, help);
                return None;
            }
        }
        let message = format!("no {} goes by `{written}`", kind.word());
        let help = match found.first() {
            Some(other) => format!("`{}` is of the kind {}", other.id, other.kind.word()),
            None => self.near(kind, written),
        };
        self.error(Code::UnknownName, word.span(), message, help);
        None
    }

    /// Returns the help line that offers entries of a kind near to a word.
    fn near(&self, kind: Kind, word: &str) -> String {
        let near = self.knowledge.near(word, usize::MAX);
        let ids: Vec<String> = near
            .iter()
            .filter(|entry| entry.kind == kind)
            .take(OFFERED)
            .map(|entry| format!("`{}`", entry.id))
            .collect();
        match ids.as_slice() {
            [] => format!("`standin show {}` lists what is known", kind.word()),
            ids => format!("did you mean {}?", ids.join(" or ")),
        }
    }

    /// Reports a word that is not one of those accepted.
    pub fn unknown_word(&mut self, what: &str, word: &Text, accepted: &[&str]) {
        let message = format!("`{}` is not a {what}", word.get_ref());
        let help = suggestion(word.get_ref(), accepted);
        self.error(Code::UnknownName, word.span(), message, help);
    }
}

/// Returns an amount as an estimate: the ends of a written range, its middle as typical.
pub fn estimate(amount: &Amount) -> Estimate {
    // `parse_amount` hands out finite numbers in rising order only.
    Estimate::new(amount.low, amount.middle(), amount.high)
        .unwrap_or_else(|_| Estimate::exact(amount.middle()))
}
