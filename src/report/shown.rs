//! Numbers of results as text: rounded to what their range supports.

use serde::Serialize;

use super::json::to_digits;
use crate::estimate::Estimate;
use crate::knowledge::{Attribute, Food};
use crate::quantity::{Mass, Time, Unit, cook_mass, cook_time, range_text, significant};

/// Significant digits of a result that is known to a few per cent at best.
const DIGITS: u32 = 2;
/// Significant digits of results in JSON: finer than any range, coarse enough to be the same on every
/// machine.
const JSON_DIGITS: usize = 4;
/// A share that is printed in per cent below this counts as nothing.
const NOTHING_PERCENT: f64 = 0.0005;

/// A range in JSON.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Range {
    /// The 10th percentile.
    pub low: f64,
    /// The median.
    pub typical: f64,
    /// The 90th percentile.
    pub high: f64,
}

impl Range {
    /// Makes the range of an estimate in SI.
    pub fn si(estimate: &Estimate) -> Self {
        let digits = |value| to_digits(value, JSON_DIGITS);
        Self {
            low: digits(estimate.low()),
            typical: digits(estimate.typical()),
            high: digits(estimate.high()),
        }
    }
}

/// Writes a value of an attribute with its unit.
pub fn value(si: f64, unit: &Unit) -> String {
    let reading = unit.from_si(si);
    let number = number(reading);
    match unit.symbol {
        "" => number,
        symbol => format!("{number} {symbol}"),
    }
}

/// Writes the range of an attribute: the median, and the ends in brackets when they print otherwise.
pub fn range(estimate: &Estimate, attribute: &Attribute) -> String {
    let show = |si| number(attribute.unit.from_si(si));
    let (low, typical, high) =
        (show(estimate.low()), show(estimate.typical()), show(estimate.high()));
    if low == typical && typical == high {
        return value(estimate.typical(), &attribute.unit);
    }
    let symbol = attribute.unit.symbol;
    format!("{typical} ({}) {symbol}", range_text(&low, &high)).trim_end().to_owned()
}

/// Writes a number with two digits, but whole per cents and degrees from ten up.
pub fn number(reading: f64) -> String {
    match reading.abs() {
        size if size < NOTHING_PERCENT => "0".to_owned(),
        size if (10.0..1000.0).contains(&size) => significant(reading.round(), 3),
        _ => significant(reading, DIGITS),
    }
}

/// Writes the range of a mass \[kg\].
pub fn mass(estimate: &Estimate) -> String {
    let show = |kg| cook_mass(Mass::from_kilograms(kg));
    range_text(&show(estimate.low()), &show(estimate.high()))
}

/// Writes the range of a time \[s\].
pub fn time(estimate: &Estimate) -> String {
    let show = |seconds| cook_time(Time::from_seconds(seconds));
    range_text(&show(estimate.low()), &show(estimate.high()))
}

/// Lists foods with the word by which a kitchen avoids them.
pub fn avoided(held: &[(&Food, &str)]) -> String {
    held.iter().map(|(food, word)| format!("{} ({word})", food.name)).collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Dimension, Measures, find_unit};

    #[test]
    fn results_are_rounded_to_what_they_support() {
        let percent = find_unit("%", Dimension::Fraction, Measures::Metric).unwrap();
        assert_eq!(value(0.4567, &percent), "46 %");
        assert_eq!(value(0.0312, &percent), "3.1 %");
        assert_eq!(value(0.000_001, &percent), "0 %");
    }
}
