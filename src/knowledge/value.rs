//! A number of the knowledge base: range, dimension and where it comes from.

use std::fmt;

use crate::estimate::Estimate;
use crate::quantity::{Dimension, Unit};

/// Where a number comes from.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Provenance {
    /// A publication of the list of sources, with the place in it.
    Published {
        /// The id of the source.
        source: String,
        /// Page, table, figure or record; may be empty.
        locator: String,
    },
    /// What the trade does, without a source.
    CommonPractice,
    /// Recalled from a publication, not read again.
    FromMemory(String),
    /// The engineers' own estimate, with its reasoning.
    Estimate(String),
    /// Given by the user in a recipe or a kitchen.
    Given,
    /// Invented for a demonstration.
    Invented,
}

/// The prefix of a source that was recalled.
const FROM_MEMORY: &str = "from memory:";
/// The prefix of an estimate.
const ESTIMATE: &str = "estimate:";

impl Provenance {
    /// Reads a source as written; a bare word is the id of a publication.
    ///
    /// Returns `None` for an empty text or a prefix with nothing behind it.
    pub fn read(source: &str, locator: &str) -> Option<Self> {
        let source = source.trim();
        let rest = |prefix| source.strip_prefix(prefix).map(str::trim).map(str::to_owned);
        if let Some(text) = rest(FROM_MEMORY) {
            (!text.is_empty()).then_some(Self::FromMemory(text))
        } else if let Some(text) = rest(ESTIMATE) {
            (!text.is_empty()).then_some(Self::Estimate(text))
        } else if source == "common practice" {
            Some(Self::CommonPractice)
        } else if source == "invented" {
            Some(Self::Invented)
        } else {
            let (source, locator) = (source.to_owned(), locator.trim().to_owned());
            (!source.is_empty()).then_some(Self::Published { source, locator })
        }
    }

    /// Returns the word for the kind of provenance.
    pub fn word(&self) -> &'static str {
        match self {
            Self::Published { .. } => "published",
            Self::CommonPractice => "common practice",
            Self::FromMemory(_) => "from memory",
            Self::Estimate(_) => "estimate",
            Self::Given => "given",
            Self::Invented => "invented",
        }
    }
}

impl fmt::Display for Provenance {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Published { source, locator } if locator.is_empty() => f.write_str(source),
            Self::Published { source, locator } => write!(f, "{source}, {locator}"),
            Self::FromMemory(text) => write!(f, "from memory: {text}"),
            Self::Estimate(text) => write!(f, "estimate: {text}"),
            other => f.write_str(other.word()),
        }
    }
}

/// How far a number is to be trusted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Confidence {
    /// Wide of the mark is possible.
    Low,
    /// Right in size.
    Medium,
    /// Read in its source.
    High,
}

impl Confidence {
    /// Reads the word for a confidence.
    pub fn read(word: &str) -> Option<Self> {
        match word {
            "low" => Some(Self::Low),
            "medium" => Some(Self::Medium),
            "high" => Some(Self::High),
            _ => None,
        }
    }

    /// Returns the word for the confidence.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Low => "low",
            Self::Medium => "medium",
            Self::High => "high",
        }
    }

    /// Returns the confidence of a value that states none: published high, recalled or common
    /// practice medium, estimated low.
    pub const fn of(provenance: &Provenance) -> Self {
        match provenance {
            Provenance::Published { .. } | Provenance::Given => Self::High,
            Provenance::CommonPractice | Provenance::FromMemory(_) => Self::Medium,
            Provenance::Estimate(_) | Provenance::Invented => Self::Low,
        }
    }
}

/// A linked value: an estimate in SI with its dimension, unit and provenance.
#[derive(Debug, Clone, PartialEq)]
pub struct Value {
    /// The range in SI.
    pub estimate: Estimate,
    /// What it measures.
    pub dimension: Dimension,
    /// The unit in which it was written and is shown.
    pub unit: Unit,
    /// Where it comes from.
    pub provenance: Provenance,
    /// How far it is to be trusted.
    pub confidence: Confidence,
    /// What a reader should know about it.
    pub note: Option<String>,
}

impl Value {
    /// Makes a value that the user gave.
    pub fn given(estimate: Estimate, unit: Unit) -> Self {
        Self {
            estimate,
            dimension: unit.dimension,
            unit,
            provenance: Provenance::Given,
            confidence: Confidence::High,
            note: None,
        }
    }

    /// Returns the median in SI.
    pub fn typical(&self) -> f64 {
        self.estimate.typical()
    }
}
