//! Reading amounts as people write them: "1.5 L", "2 ½ cups", "60 mbar", "20-25 min".

use super::{Dimension, Measures, Unit, find_unit, units_of};

/// An amount as written: one number or a range, with its unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Amount {
    /// The lower end in SI; equal to `high` when a single number was written.
    pub low: f64,
    /// The upper end in SI.
    pub high: f64,
    /// The unit that was written.
    pub unit: Unit,
}

impl Amount {
    /// Returns the middle of the range in SI, or the single number.
    pub fn middle(&self) -> f64 {
        f64::midpoint(self.low, self.high)
    }
}

/// Why an amount could not be read.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum AmountError {
    /// There is no number at the start.
    #[error("no number in `{text}`")]
    NoNumber {
        /// The text as written.
        text: String,
    },
    /// The number is not followed by a unit, and the dimension needs one.
    #[error("`{text}` has no unit")]
    NoUnit {
        /// The text as written.
        text: String,
        /// Units that would do, for the help line.
        accepted: String,
    },
    /// The unit is not one of the dimension.
    #[error("`{unit}` is not a unit of {}", dimension.word())]
    WrongUnit {
        /// The unit as written.
        unit: String,
        /// What was expected.
        dimension: Dimension,
        /// Units that would do.
        accepted: String,
        /// The nearest unit of the dimension, if one is near.
        nearest: Option<&'static str>,
    },
    /// The upper end of a range lies below its lower end.
    #[error("the range `{text}` runs downwards")]
    Reversed {
        /// The text as written.
        text: String,
    },
    /// The number is not finite.
    #[error("`{text}` is not a finite number")]
    NotFinite {
        /// The text as written.
        text: String,
    },
}

impl AmountError {
    /// Returns what to write instead.
    pub fn help(&self) -> String {
        match self {
            Self::NoNumber { .. } => "write a number and a unit, such as \"1.5 L\"".into(),
            Self::NoUnit { accepted, .. } => format!("add a unit: {accepted}"),
            Self::WrongUnit { accepted, nearest: Some(near), .. } => {
                format!("did you mean `{near}`? Accepted: {accepted}")
            }
            Self::WrongUnit { accepted, nearest: None, .. } => format!("accepted: {accepted}"),
            Self::Reversed { .. } => "write the smaller number first".into(),
            Self::NotFinite { .. } => "write an ordinary decimal number".into(),
        }
    }
}

/// Reads an amount of a known dimension, with unqualified cups and spoons of the given nation.
///
/// A single number, a fraction ("1/2", "1 ½"), a decimal point or comma, or a range with a hyphen,
/// a dash or "to" is accepted; for time, mass and volume also two units, the smaller behind the larger
/// ("1 h 30 min", "2 lb 3 oz"). A bare number is accepted for [`Dimension::Fraction`] only.
///
/// # Errors
/// [`AmountError`] when the number, the unit or the order of the range is wrong.
pub fn parse_amount(
    text: &str,
    dimension: Dimension,
    measures: Measures,
) -> Result<Amount, AmountError> {
    let of_two_units = || match dimension {
        Dimension::Time | Dimension::Mass | Dimension::Volume => {
            in_two_units(text, dimension, measures)
        }
        _ => None,
    };
    let read = in_one_unit(text, dimension, measures);
    let amount = match read {
        Err(AmountError::WrongUnit { .. }) => of_two_units().map_or(read, Ok)?,
        read => read?,
    };
    if !amount.low.is_finite() || !amount.high.is_finite() {
        return Err(AmountError::NotFinite { text: text.to_owned() });
    }
    if amount.high < amount.low {
        return Err(AmountError::Reversed { text: text.to_owned() });
    }
    Ok(amount)
}

/// Reads a number or a range with one unit.
fn in_one_unit(
    text: &str,
    dimension: Dimension,
    measures: Measures,
) -> Result<Amount, AmountError> {
    let trimmed = text.trim();
    let no_number = || AmountError::NoNumber { text: text.to_owned() };
    let (first, rest) = leading_number(trimmed).ok_or_else(no_number)?;
    let (second, rest) = match range_mark(rest).and_then(leading_number) {
        Some((second, rest)) => (Some(second), rest),
        None => match unit_then_range(rest) {
            Some((second, rest)) => (Some(second), rest),
            None => (None, rest),
        },
    };
    let unit = read_unit(text, rest.trim(), dimension, measures)?;
    let (low, high) = (unit.to_si(first), unit.to_si(second.unwrap_or(first)));
    Ok(Amount { low, high, unit })
}

/// Reads "1 h 30 min", or a range of which either end may be written so: "45 min to 1 h 15 min".
fn in_two_units(text: &str, dimension: Dimension, measures: Measures) -> Option<Amount> {
    let end = |text: &str| {
        let (number, rest) = leading_number(text.trim())?;
        let Some(next) = rest.find(|c: char| c.is_ascii_digit()) else {
            let unit = find_unit(rest.trim(), dimension, measures)?;
            return Some((unit.to_si(number), unit));
        };
        let (first, second) = rest.split_at(next);
        let larger = find_unit(first.trim(), dimension, measures)?;
        let (part, rest) = leading_number(second)?;
        let smaller = find_unit(rest.trim(), dimension, measures)?;
        let fits = number >= 0.0 && smaller.to_si(part) < larger.to_si(1.0);
        fits.then(|| (larger.to_si(number) + smaller.to_si(part), larger))
    };
    if let Some((value, unit)) = end(text) {
        return Some(Amount { low: value, high: value, unit });
    }
    [" to ", "–", "—", "-"].iter().find_map(|mark| {
        let (low, high) = text.split_once(mark)?;
        let ((low, _), (high, unit)) = (end(low)?, end(high)?);
        Some(Amount { low, high, unit })
    })
}

/// Reads an amount of a known dimension as one SI number, the middle of a range.
///
/// # Errors
/// As [`parse_amount`].
pub fn parse_in(text: &str, dimension: Dimension) -> Result<f64, AmountError> {
    parse_amount(text, dimension, Measures::default()).map(|amount| amount.middle())
}

fn read_unit(
    text: &str,
    written: &str,
    dimension: Dimension,
    measures: Measures,
) -> Result<Unit, AmountError> {
    if let Some(unit) = find_unit(written, dimension, measures) {
        return Ok(unit);
    }
    let accepted = accepted_units(dimension, measures);
    if written.is_empty() {
        return Err(AmountError::NoUnit { text: text.to_owned(), accepted });
    }
    let nearest = units_of(dimension, measures)
        .map(|unit| unit.symbol)
        .filter(|symbol| !symbol.is_empty())
        .map(|symbol| (strsim::damerau_levenshtein(symbol, written), symbol))
        .min_by_key(|(distance, _)| *distance)
        .filter(|(distance, symbol)| *distance <= 2 && *distance < symbol.chars().count())
        .map(|(_, symbol)| symbol);
    Err(AmountError::WrongUnit { unit: written.to_owned(), dimension, accepted, nearest })
}

fn accepted_units(dimension: Dimension, measures: Measures) -> String {
    let symbols: Vec<&str> = units_of(dimension, measures)
        .map(|unit| if unit.symbol.is_empty() { "a bare number" } else { unit.symbol })
        .collect();
    symbols.join(", ")
}

/// Skips the mark between the two numbers of a range; `None` when there is none.
fn range_mark(text: &str) -> Option<&str> {
    let text = text.trim_start();
    ["-", "–", "—", "to ", "…"].iter().find_map(|mark| text.strip_prefix(mark)).map(str::trim_start)
}

/// Reads the second half of a range whose first number carries the same unit: "2 kg to 3 kg".
fn unit_then_range(text: &str) -> Option<(f64, &str)> {
    [" to ", "–", "—", "-"].iter().find_map(|mark| {
        let (unit, after) = text.split_once(mark)?;
        let (number, rest) = leading_number(after.trim_start())?;
        (rest.trim() == unit.trim()).then_some((number, rest))
    })
}

/// Takes the number at the start of a text: decimal, exponent, vulgar fraction or mixed number.
fn leading_number(text: &str) -> Option<(f64, &str)> {
    let (sign, unsigned) = match text.strip_prefix(['-', '−']) {
        Some(rest) => (-1.0, rest.trim_start()),
        None => (1.0, text),
    };
    if let Some((value, rest)) = vulgar_fraction(unsigned) {
        return Some((sign * value, rest));
    }
    let (whole, rest) = decimal(unsigned)?;
    if let Some((denominator, after)) = rest.strip_prefix('/').and_then(decimal)
        && denominator > 0.0
    {
        return Some((sign * whole / denominator, after));
    }
    let after = rest.trim_start();
    if let Some((part, after)) = vulgar_fraction(after) {
        return Some((sign * (whole + part), after));
    }
    if let Some((numerator, tail)) = decimal(after)
        && let Some((denominator, tail)) = tail.strip_prefix('/').and_then(decimal)
        && rest.starts_with(' ')
        && denominator > 0.0
    {
        return Some((sign * (whole + numerator / denominator), tail));
    }
    Some((sign * whole, rest))
}

/// The fractions that have a character of their own.
const VULGAR: [(char, f64); 9] = [
    ('¼', 0.25),
    ('½', 0.5),
    ('¾', 0.75),
    ('⅓', 1.0 / 3.0),
    ('⅔', 2.0 / 3.0),
    ('⅛', 0.125),
    ('⅜', 0.375),
    ('⅝', 0.625),
    ('⅞', 0.875),
];

fn vulgar_fraction(text: &str) -> Option<(f64, &str)> {
    let first = text.chars().next()?;
    let (sign, value) = VULGAR.iter().find(|(sign, _)| *sign == first)?;
    Some((*value, &text[sign.len_utf8()..]))
}

/// Takes an unsigned decimal number, with point or comma and an optional exponent.
fn decimal(text: &str) -> Option<(f64, &str)> {
    let bytes = text.as_bytes();
    let digits = |from: usize| bytes[from..].iter().take_while(|b| b.is_ascii_digit()).count();
    let mut end = digits(0);
    if end < bytes.len() && matches!(bytes[end], b'.' | b',') && digits(end + 1) > 0 {
        end += 1 + digits(end + 1);
    }
    if end == 0 {
        return None;
    }
    let mut number = text[..end].replace(',', ".");
    if let Some(b'e' | b'E') = bytes.get(end) {
        let signed = usize::from(matches!(bytes.get(end + 1), Some(b'+' | b'-')));
        let count = bytes.get(end + 1 + signed..).map_or(0, |_| digits(end + 1 + signed));
        if count > 0 {
            number.push_str(&text[end..end + 1 + signed + count]);
            end += 1 + signed + count;
        }
    }
    number.parse().ok().map(|value| (value, &text[end..]))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str, dimension: Dimension) -> (f64, f64) {
        let amount = parse_amount(text, dimension, Measures::Us).unwrap();
        (amount.low, amount.high)
    }

    fn close(text: &str, dimension: Dimension, low: f64, high: f64) {
        let (a, b) = read(text, dimension);
        assert!((a - low).abs() <= 1e-9 * low.abs().max(1.0), "{text}: {a} is not {low}");
        assert!((b - high).abs() <= 1e-9 * high.abs().max(1.0), "{text}: {b} is not {high}");
    }

    #[test]
    fn two_units_add_up() {
        close("1 h 30 min", Dimension::Time, 5400.0, 5400.0);
        close("45 min to 1 h 15 min", Dimension::Time, 2700.0, 4500.0);
        close("1 h 15 min–2 h", Dimension::Time, 4500.0, 7200.0);
        // The international pound of 1959: 0.45359237 kg, 16 ounces.
        let pound = 0.453_592_37;
        close("2 lb 3 oz", Dimension::Mass, pound * 35.0 / 16.0, pound * 35.0 / 16.0);
        for wrong in ["30 min 1 h", "1 h 90 min", "1 h 5 °C", "1 h 2 h", "-1 h 5 min", "1 h 5"] {
            assert!(parse_amount(wrong, Dimension::Time, Measures::Metric).is_err(), "{wrong}");
        }
        assert!(parse_amount("2 h to 1 h 5 min", Dimension::Time, Measures::Metric).is_err());
        assert!(parse_amount("20 °C 5 °C", Dimension::Temperature, Measures::Metric).is_err());
    }

    #[test]
    fn amounts_are_read_as_people_write_them() {
        close("1.5 L", Dimension::Volume, 1.5e-3, 1.5e-3);
        close("850g", Dimension::Mass, 0.85, 0.85);
        close("2 cups", Dimension::Volume, 2.0 * 236.588_236_5e-6, 2.0 * 236.588_236_5e-6);
        close("60 mbar", Dimension::Pressure, 6000.0, 6000.0);
        close("104 °F", Dimension::Temperature, 313.15, 313.15);
        close("20-25 min", Dimension::Time, 1200.0, 1500.0);
        close("-18 °C", Dimension::Temperature, 255.15, 255.15);
        close("-20 to -18 °C", Dimension::Temperature, 253.15, 255.15);
        close("2 kg to 3 kg", Dimension::Mass, 2.0, 3.0);
        close("1 1/2 cups", Dimension::Volume, 354.882_354_75e-6, 354.882_354_75e-6);
        close("2½ tsp", Dimension::Volume, 2.5 * 4.928_921_593_75e-6, 2.5 * 4.928_921_593_75e-6);
        close("3,5 kW", Dimension::Power, 3500.0, 3500.0);
        close("1e-3 Pa·s", Dimension::Viscosity, 1e-3, 1e-3);
        close("65 °Brix", Dimension::Fraction, 0.65, 0.65);
        close("4000 g", Dimension::Acceleration, 39_226.6, 39_226.6);
    }

    #[test]
    fn a_bare_number_is_refused_where_a_unit_is_due() {
        let error = parse_amount("60", Dimension::Pressure, Measures::Metric).unwrap_err();
        assert!(matches!(error, AmountError::NoUnit { .. }), "{error}");
        close("0.5", Dimension::Fraction, 0.5, 0.5);
    }

    #[test]
    fn a_wrong_unit_names_the_nearest() {
        let error = parse_amount("60 mbra", Dimension::Pressure, Measures::Metric).unwrap_err();
        assert!(error.help().contains("did you mean `mbar`"), "{}", error.help());
    }

    #[test]
    fn a_range_that_runs_downwards_is_refused() {
        let error = parse_amount("25-20 min", Dimension::Time, Measures::Metric).unwrap_err();
        assert!(matches!(error, AmountError::Reversed { .. }), "{error}");
    }

    #[test]
    fn text_without_a_number_is_refused() {
        let error = parse_amount("some", Dimension::Mass, Measures::Metric).unwrap_err();
        assert!(matches!(error, AmountError::NoNumber { .. }), "{error}");
    }

    #[test]
    fn a_number_too_large_is_refused() {
        let error = parse_amount("1e999 kg", Dimension::Mass, Measures::Metric).unwrap_err();
        assert!(matches!(error, AmountError::NotFinite { .. }), "{error}");
    }
}
