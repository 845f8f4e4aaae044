//! Findings: what is wrong with a file, where, and what to do.

use std::fmt::Write as _;
use std::ops::Range;

use annotate_snippets::{AnnotationKind, Level, Renderer, Snippet};
use serde::Serialize;

/// How much a finding matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Severity {
    /// The file is used; the reader should know.
    Warning,
    /// The file cannot be used.
    Error,
}

macro_rules! codes {
    ($($(#[$doc:meta])* $name:ident = $code:literal,)+) => {
        /// The stable names of all findings.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[non_exhaustive]
        pub enum Code {
            $($(#[$doc])* $name,)+
        }

        impl Code {
            /// Every code, in the order of this list.
            pub const ALL: &'static [Self] = &[$(Self::$name,)+];

            /// Returns the code as printed, in kebab case.
            pub const fn text(self) -> &'static str {
                match self {
                    $(Self::$name => $code,)+
                }
            }
        }
    };
}

codes! {
    /// The file cannot be read.
    UnreadableFile = "unreadable-file",
    /// The file is not well-formed TOML, or a value has the wrong type.
    Syntax = "syntax",
    /// A key that the file's kind does not have.
    UnknownKey = "unknown-key",
    /// A key that must be there is not.
    MissingKey = "missing-key",
    /// An amount that cannot be read, or in a unit of another dimension.
    Amount = "amount",
    /// An amount that is physically impossible or outside what the tool handles.
    ImpossibleValue = "impossible-value",
    /// A word that nothing in the knowledge base or the file goes by.
    UnknownName = "unknown-name",
    /// Two entries go by the same name.
    DuplicateName = "duplicate-name",
    /// `low`, `typical` and `high` are not in rising order.
    EstimateOrder = "estimate-order",
    /// A value or an entry without a source.
    MissingSource = "missing-source",
    /// A source that nothing cites.
    UnusedSource = "unused-source",
    /// A composition that does not close to 98-102 g per 100 g.
    Composition = "composition",
    /// A goal that no attribute of a batch measures.
    UnmeasuredGoal = "unmeasured-goal",
    /// A route that no listed appliance can serve.
    UnservedRoute = "unserved-route",
    /// An appliance or a supply that no route uses.
    UnusedEntry = "unused-entry",
    /// A name that looks like a brand.
    BrandName = "brand-name",
    /// The batches of a recipe do not join up.
    RecipeGraph = "recipe-graph",
    /// A path that leads out of the book.
    PathEscape = "path-escape",
    /// A file that another one names is not there.
    MissingFile = "missing-file",
    /// A measurement that is hard to believe; it is kept, and asked about.
    Questionable = "questionable",
    /// A record whose recipe has changed since.
    StaleRecord = "stale-record",
}

/// A place in a file, with what is to be said about it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Label {
    /// Bytes from the start of the file.
    pub span: Range<usize>,
    /// What is wrong there; may be empty.
    pub message: String,
}

/// One thing that is wrong with a file.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// Its stable name.
    pub code: Code,
    /// How much it matters.
    pub severity: Severity,
    /// What is wrong, in one line without a full stop.
    pub message: String,
    /// The file, as the user named it.
    pub file: String,
    /// The place; `None` when the whole file is meant.
    pub label: Option<Label>,
    /// What to do about it.
    pub help: Option<String>,
}

impl Finding {
    /// Makes an error about a whole file.
    pub fn error(code: Code, file: &str, message: impl Into<String>) -> Self {
        Self {
            code,
            severity: Severity::Error,
            message: message.into(),
            file: file.to_owned(),
            label: None,
            help: None,
        }
    }

    /// Makes a warning about a whole file.
    pub fn warning(code: Code, file: &str, message: impl Into<String>) -> Self {
        Self { severity: Severity::Warning, ..Self::error(code, file, message) }
    }

    /// Makes the finding for a TOML fault, with the nearest known key when one is unknown.
    pub fn of_toml(file: &str, error: &toml::de::Error) -> Self {
        let message = error.message();
        let (code, help) = if message.starts_with("unknown field") {
            let words: Vec<&str> = message.split('`').skip(1).step_by(2).collect();
            let known = words.get(1..).unwrap_or_default();
            let written = words.first().copied().unwrap_or_default();
            let help = match nearest(written, known.iter().copied()) {
                Some(near) => format!("did you mean `{near}`?"),
                None => "remove the key, or see the list of accepted ones above".to_owned(),
            };
            (Code::UnknownKey, Some(help))
        } else if message.starts_with("missing field") {
            (Code::MissingKey, Some("add the key".to_owned()))
        } else {
            (Code::Syntax, None)
        };
        let mut finding = Self::error(code, file, message);
        if let Some(span) = error.span() {
            finding = finding.at(span, "");
        }
        finding.help = help;
        finding
    }

    /// Points at a place in the file.
    #[must_use]
    pub fn at(mut self, span: Range<usize>, message: impl Into<String>) -> Self {
        self.label = Some(Label { span, message: message.into() });
        self
    }

    /// Says what to do.
    #[must_use]
    pub fn help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into());
        self
    }

    /// Returns the line and column of the place, both counted from 1, columns in characters.
    pub fn line_and_column(&self, text: &str) -> Option<(usize, usize)> {
        let start = self.label.as_ref()?.span.start.min(text.len());
        let before = text.get(..start)?;
        let line = before.matches('\n').count() + 1;
        let column = before.rsplit('\n').next().map_or(0, |last| last.chars().count()) + 1;
        Some((line, column))
    }

    /// Returns the finding as text, with an excerpt of the file it is about.
    pub fn render(&self, text: &str) -> String {
        let level = match self.severity {
            Severity::Warning => Level::WARNING,
            Severity::Error => Level::ERROR,
        };
        let title = level.primary_title(self.message.as_str()).id(self.code.text());
        let mut group = title.elements(std::iter::empty::<annotate_snippets::Element<'_>>());
        match &self.label {
            Some(label) => {
                let end = label.span.end.min(text.len());
                let span = label.span.start.min(end)..end;
                let annotation = AnnotationKind::Primary.span(span).label(label.message.as_str());
                let snippet = Snippet::source(text).path(self.file.as_str()).annotation(annotation);
                group = group.element(snippet);
            }
            None => group = group.element(annotate_snippets::Origin::path(self.file.as_str())),
        }
        if let Some(help) = &self.help {
            group = group.element(Level::HELP.message(help.as_str()));
        }
        visible(&Renderer::plain().render(&[group]))
    }
}

/// Returns a text with a sign in the place of each character that a terminal would obey.
pub fn visible(text: &str) -> String {
    text.replace(|sign: char| sign.is_control() && !matches!(sign, '\n' | '\t'), "\u{fffd}")
}

/// Appends the nearest known word to a help line, if one is near enough to be meant.
pub fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let lower = word.to_lowercase();
    let limit = (lower.chars().count() / 3).max(1);
    // Words whose lengths differ by more than the limit differ by more than the limit.
    let length = lower.chars().count();
    known
        .into_iter()
        .filter(|candidate| candidate.chars().count().abs_diff(length) <= limit)
        .map(|candidate| {
            (strsim::damerau_levenshtein(&lower, &candidate.to_lowercase()), candidate)
        })
        .filter(|(distance, _)| *distance <= limit)
        .min_by_key(|(distance, candidate)| (*distance, *candidate))
        .map(|(_, candidate)| candidate)
}

/// Writes "did you mean" with the nearest word, or the list of what is accepted.
pub fn suggestion(word: &str, known: &[&str]) -> String {
    let mut help = String::new();
    if let Some(near) = nearest(word, known.iter().copied()) {
        let _ = write!(help, "did you mean `{near}`? ");
    }
    let _ = write!(help, "accepted: {}", known.join(", "));
    help
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_are_unique_and_in_kebab_case() {
        let mut texts: Vec<&str> = Code::ALL.iter().map(|code| code.text()).collect();
        texts.sort_unstable();
        let count = texts.len();
        texts.dedup();
        assert_eq!(texts.len(), count);
        assert!(texts.iter().all(|text| text.chars().all(|c| c.is_ascii_lowercase() || c == '-')));
    }

    #[test]
    fn a_finding_shows_file_line_column_and_help() {
        let text = "a = 1\nlow = 3\n";
        let finding = Finding::error(Code::EstimateOrder, "x.toml", "`low` lies above `typical`")
            .at(12..13, "must lie below 2")
            .help("correct the value");
        assert_eq!(finding.line_and_column(text), Some((2, 7)));
        let shown = finding.render(text);
        assert!(shown.contains("error[estimate-order]: `low` lies above `typical`"), "{shown}");
        assert!(shown.contains("x.toml:2:7") && shown.contains("correct the value"), "{shown}");
    }

    #[test]
    fn near_words_are_offered_and_far_ones_not() {
        assert_eq!(nearest("blnder", ["blender", "oven"]), Some("blender"));
        assert_eq!(nearest("zzz", ["blender", "oven"]), None);
    }
}
