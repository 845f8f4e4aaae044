//! Linking of single values: unit, order, source, confidence.

use super::Linker;
use crate::estimate::Estimate;
use crate::finding::{Code, Finding, suggestion};
use crate::knowledge::written::{Spanned, Text, Values, WrittenParameter, WrittenValue};
use crate::knowledge::{Confidence, Parameter, Provenance, Value, ValueMap};
use crate::quantity::{Dimension, Measures, Unit, find_unit, units_of};

/// The source that an entry states for all of its values.
#[derive(Clone, Copy, Default)]
pub(super) struct EntrySource<'a> {
    pub source: Option<&'a Text>,
    pub locator: Option<&'a String>,
}

impl Linker<'_> {
    /// Links one value of a known dimension; `None` after a finding.
    pub(super) fn value(
        &mut self,
        written: &Spanned<WrittenValue>,
        dimension: Dimension,
        entry: EntrySource<'_>,
    ) -> Option<Value> {
        let value = written.get_ref();
        let span = written.span();
        let unit = self.unit(&value.unit, span.clone(), dimension)?;
        let ends = (value.low.unwrap_or(value.typical), value.high.unwrap_or(value.typical));
        let estimate =
            Estimate::new(unit.to_si(ends.0), unit.to_si(value.typical), unit.to_si(ends.1));
        let Ok(estimate) = estimate else {
            let message = format!(
                "`typical` {} does not lie between `low` {} and `high` {}",
                value.typical, ends.0, ends.1
            );
            self.report(
                Finding::error(Code::EstimateOrder, self.file, message)
                    .at(span, "low, typical and high must rise")
                    .help("correct the value, or widen the range and cite the source for it"),
            );
            return None;
        };
        let source = value.source.as_ref().or(entry.source);
        let locator = value.locator.as_ref().or(entry.locator);
        let provenance = self.provenance(source, locator, span)?;
        let confidence = self.confidence(value.confidence.as_ref(), &provenance);
        let note = value.note.clone();
        Some(Value { estimate, dimension, unit, provenance, confidence, note })
    }

    /// Links values by name; the names must be declared.
    pub(super) fn values(&mut self, written: &Values, entry: EntrySource<'_>) -> ValueMap {
        let mut linked = ValueMap::new();
        for (name, value) in written {
            let Some(unit) = self.declared(name) else { continue };
            if let Some(value) = self.value(value, unit.dimension, entry) {
                linked.insert(name.get_ref().clone(), value);
            }
        }
        linked
    }

    /// Returns the unit under which a value name is declared; a finding when it is not.
    fn declared(&mut self, name: &Text) -> Option<Unit> {
        if let Some(parameter) = self.index.quantities.get(name.get_ref()) {
            return Some(*parameter);
        }
        let known: Vec<&str> = self.index.quantities.keys().map(String::as_str).collect();
        let help = match crate::finding::nearest(name.get_ref(), known.iter().copied()) {
            Some(near) => format!("did you mean `{near}`?"),
            None => "declare it as a parameter of a process, or under [quantity]".to_owned(),
        };
        self.report(
            Finding::error(
                Code::UnknownName,
                self.file,
                format!("no value goes by the name `{}`", name.get_ref()),
            )
            .at(name.span(), "not declared")
            .help(help),
        );
        None
    }

    /// Links a parameter: its unit, and its default when it states one.
    pub(super) fn parameter(
        &mut self,
        name: &Text,
        written: &Spanned<WrittenParameter>,
    ) -> Option<Parameter> {
        let parameter = written.get_ref();
        let unit = *self.index.quantities.get(name.get_ref())?;
        let default = match parameter.typical {
            None => None,
            Some(typical) => {
                let value = WrittenValue {
                    low: parameter.low,
                    typical,
                    high: parameter.high,
                    // The dimension that may stand before the unit is settled already.
                    unit: parameter.unit.get_ref().rsplit(": ").next().unwrap_or_default().into(),
                    source: parameter.source.clone(),
                    locator: parameter.locator.clone(),
                    confidence: parameter.confidence.clone(),
                    note: parameter.note.clone(),
                };
                let spanned = Spanned::new(written.span(), value);
                Some(self.value(&spanned, unit.dimension, EntrySource::default())?)
            }
        };
        let (meaning, measure) = (parameter.meaning.clone(), parameter.measure.clone());
        let turns_down = parameter.turns_down;
        Some(Parameter { meaning, unit, default, measure, turns_down })
    }

    /// Finds a unit of a dimension; a finding when the dimension has none of that name.
    pub(super) fn unit(
        &mut self,
        text: &str,
        span: std::ops::Range<usize>,
        dimension: Dimension,
    ) -> Option<Unit> {
        let found = find_unit(text, dimension, Measures::Metric);
        if found.is_none() {
            let known: Vec<&str> =
                units_of(dimension, Measures::Metric).map(|unit| unit.symbol).collect();
            let message = format!("`{text}` is not a unit of {}", dimension.word());
            self.report(
                Finding::error(Code::Amount, self.file, message)
                    .at(span, "")
                    .help(suggestion(text, &known)),
            );
        }
        found
    }

    /// Reads a source; a finding when there is none, or when it is not listed.
    pub(super) fn provenance(
        &mut self,
        source: Option<&Text>,
        locator: Option<&String>,
        place: std::ops::Range<usize>,
    ) -> Option<Provenance> {
        let locator = locator.map_or("", String::as_str);
        let Some(written) = source else {
            self.report(
                Finding::error(Code::MissingSource, self.file, "a value without a source")
                    .at(place, "")
                    .help("name a source id, `common practice`, `from memory: …` or `estimate: …`"),
            );
            return None;
        };
        let Some(provenance) = Provenance::read(written.get_ref(), locator) else {
            self.report(
                Finding::error(Code::MissingSource, self.file, "a source that names nothing")
                    .at(written.span(), "")
                    .help("say what it is from memory of, or how it was estimated"),
            );
            return None;
        };
        if let Provenance::Published { source, .. } = &provenance {
            self.index.cite(source);
            if !self.index.sources.contains_key(source) {
                let known: Vec<&str> = self.index.sources.keys().map(String::as_str).collect();
                let near = crate::finding::nearest(source, known);
                let help = near.map_or_else(
                    || "list it as a [[source]]".to_owned(),
                    |near| format!("did you mean `{near}`?"),
                );
                let message = format!("no source goes by `{source}`");
                self.report(
                    Finding::error(Code::UnknownName, self.file, message)
                        .at(written.span(), "not listed")
                        .help(help),
                );
            }
        }
        Some(provenance)
    }

    fn confidence(&mut self, written: Option<&Text>, provenance: &Provenance) -> Confidence {
        let Some(word) = written else { return Confidence::of(provenance) };
        Confidence::read(word.get_ref()).unwrap_or_else(|| {
            self.unknown_word(word, "confidence", &["high", "medium", "low"]);
            Confidence::Low
        })
    }

    /// Reports a word that is not one of those accepted.
    pub(super) fn unknown_word(&mut self, word: &Text, what: &str, accepted: &[&str]) {
        let message = format!("`{}` is not a {what}", word.get_ref());
        self.report(
            Finding::error(Code::UnknownName, self.file, message)
                .at(word.span(), "")
                .help(suggestion(word.get_ref(), accepted)),
        );
    }
}
