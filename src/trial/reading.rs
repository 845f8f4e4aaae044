//! One reading: a number with its unit, or the reason why there is none.

use serde::Serialize;

use crate::finding::{Code, Finding};
use crate::knowledge::written::Text;
use crate::quantity::{Amount, AmountError, Dimension, Measures, parse_amount, significant};
use crate::reader::Bounds;

/// What stands where nothing was measured.
pub(super) const NOT_MEASURED: &str = "not measured";
/// What stands where there is nothing to measure.
pub(super) const NOT_APPLICABLE: &str = "not applicable";
/// Digits with which a bound is printed.
const BOUND_DIGITS: u32 = 4;

/// A reading, with the three ways of having no number or none to speak of kept apart.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub enum Reading {
    /// Nobody measured it.
    #[default]
    NotMeasured,
    /// There was nothing to measure.
    NotApplicable,
    /// A number, zero among them.
    Of(Amount),
}

impl Reading {
    /// Returns the number in SI, the middle of a range.
    pub fn si(&self) -> Option<f64> {
        match self {
            Self::Of(amount) => Some(amount.middle()),
            _ => None,
        }
    }
}

impl Serialize for Reading {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::NotMeasured => serializer.serialize_str(NOT_MEASURED),
            Self::NotApplicable => serializer.serialize_str(NOT_APPLICABLE),
            Self::Of(amount) => serializer.serialize_f64(amount.middle()),
        }
    }
}

/// Dimensions in which a reading of an unknown kind is tried, in this order.
const TRIED: [Dimension; 9] = [
    Dimension::Temperature,
    Dimension::Mass,
    Dimension::Time,
    Dimension::Volume,
    Dimension::Length,
    Dimension::Pressure,
    Dimension::Power,
    Dimension::RotationSpeed,
    Dimension::Fraction,
];

/// Reads the readings of one file, keeping every finding.
#[derive(Debug)]
pub(super) struct Readings<'a> {
    /// The file as the user named it.
    pub file: &'a str,
    /// The findings so far: errors, and questions as warnings.
    pub findings: Vec<Finding>,
}

impl Readings<'_> {
    /// Reads a measurement; a value out of bounds is kept and asked about.
    pub fn read(&mut self, what: &str, text: Option<&Text>, dimension: Dimension) -> Reading {
        self.within(what, text, &Bounds::of(dimension))
    }

    /// Reads a measurement with bounds of its own; a value outside is kept and asked about.
    pub fn within(&mut self, what: &str, text: Option<&Text>, bounds: &Bounds) -> Reading {
        let Some(text) = text else { return Reading::NotMeasured };
        if let Some(without) = without_number(text.get_ref()) {
            return without;
        }
        match parse_amount(text.get_ref(), bounds.dimension, Measures::default()) {
            Ok(amount) => {
                self.doubt_bounds(what, text, &amount, bounds);
                Reading::Of(amount)
            }
            Err(error) => self.unread(what, text, &error),
        }
    }

    /// Reads a measurement of which it is not known what it measures.
    pub fn read_any(&mut self, what: &str, text: &Text) -> Reading {
        if let Some(without) = without_number(text.get_ref()) {
            return without;
        }
        let mut last = None;
        for dimension in TRIED {
            match parse_amount(text.get_ref(), dimension, Measures::default()) {
                Ok(amount) => {
                    self.doubt_bounds(what, text, &amount, &Bounds::of(dimension));
                    return Reading::Of(amount);
                }
                Err(error) => last = Some(error),
            }
        }
        last.map_or(Reading::NotMeasured, |error| self.unread(what, text, &error))
    }

    fn unread(&mut self, what: &str, text: &Text, error: &AmountError) -> Reading {
        let help = format!("{}; or \"{NOT_MEASURED}\", \"{NOT_APPLICABLE}\"", error.help());
        let finding = Finding::error(Code::Amount, self.file, format!("{what}: {error}"));
        self.findings.push(finding.at(text.span(), "").help(help));
        Reading::NotMeasured
    }

    /// Asks about a value that cannot be; zero counts as a measurement.
    fn doubt_bounds(&mut self, what: &str, text: &Text, amount: &Amount, bounds: &Bounds) {
        let low =
            if bounds.low > 0.0 && bounds.low <= f64::MIN_POSITIVE { 0.0 } else { bounds.low };
        if amount.low >= low && amount.high <= bounds.high {
            return;
        }
        let shown = |si: f64| significant(amount.unit.from_si(si), BOUND_DIGITS);
        let message = format!(
            "{what} of {} lies outside {} to {} {}",
            text.get_ref(),
            shown(low),
            shown(bounds.high),
            amount.unit.symbol
        );
        self.question(text.span(), message, bounds.why);
    }

    /// Keeps a question about a place.
    pub fn question(&mut self, place: std::ops::Range<usize>, message: String, help: &str) {
        let finding = Finding::warning(Code::Questionable, self.file, message);
        self.findings.push(finding.at(place, "").help(help));
    }
}

fn without_number(text: &str) -> Option<Reading> {
    match text.trim().to_lowercase().as_str() {
        NOT_MEASURED => Some(Reading::NotMeasured),
        NOT_APPLICABLE => Some(Reading::NotApplicable),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::knowledge::written::Spanned;

    fn read(text: &str) -> (Reading, Vec<Finding>) {
        let mut readings = Readings { file: "x.toml", findings: Vec::new() };
        let text = Spanned::new(0..0, text.to_owned());
        let reading = readings.read("mass", Some(&text), Dimension::Mass);
        (reading, readings.findings)
    }

    #[test]
    fn no_measurement_no_case_and_zero_are_three_things() {
        assert_eq!(read("not measured").0, Reading::NotMeasured);
        assert_eq!(read("Not applicable").0, Reading::NotApplicable);
        let (zero, findings) = read("0 g");
        assert_eq!(zero.si(), Some(0.0));
        assert!(findings.is_empty());
    }

    #[test]
    fn an_impossible_value_is_kept_and_asked_about() {
        let (reading, findings) = read("50 t g");
        assert_eq!((reading, findings.len()), (Reading::NotMeasured, 1));
        let (reading, findings) = read("50000 kg");
        assert_eq!(reading.si(), Some(50_000.0));
        assert_eq!(findings[0].code, Code::Questionable);
    }

    #[test]
    fn a_negative_mass_is_asked_about() {
        let (reading, findings) = read("-5 g");
        assert!(reading.si().is_some_and(|kg| kg < 0.0));
        assert_eq!(findings.len(), 1);
    }
}
