//! A serialised result as JSON with the same bytes on every machine.

use serde::Serialize;
use serde_json::{Number, Value};

/// Significant digits of the numbers in JSON: enough to check physics against a reference, few
/// enough that the last bits of a platform's mathematics library do not show.
pub const DIGITS: usize = 12;

/// Writes a value as indented JSON, its decimal numbers rounded to [`DIGITS`] significant digits,
/// with a line break at the end.
///
/// # Errors
/// [`serde_json::Error`] when the value cannot be written as JSON, such as a map whose keys are not
/// text.
pub fn pretty(value: &impl Serialize) -> Result<String, serde_json::Error> {
    let rounded = round(serde_json::to_value(value)?, DIGITS);
    let mut text = serde_json::to_string_pretty(&rounded)?;
    text.push('\n');
    Ok(text)
}

/// Rounds every decimal number within a value; integers stay as they are.
pub fn round(value: Value, digits: usize) -> Value {
    match value {
        Value::Number(number) => Value::Number(round_number(number, digits)),
        Value::Array(list) => list.into_iter().map(|value| round(value, digits)).collect(),
        Value::Object(map) => {
            Value::Object(map.into_iter().map(|(key, value)| (key, round(value, digits))).collect())
        }
        other => other,
    }
}

fn round_number(number: Number, digits: usize) -> Number {
    let decimal = number.as_f64().filter(|_| number.is_f64());
    let rounded = decimal.map(|value| to_digits(value, digits));
    rounded.and_then(Number::from_f64).unwrap_or(number)
}

/// Rounds a number to a count of significant digits, and minus zero to zero.
pub fn to_digits(value: f64, digits: usize) -> f64 {
    let text = format!("{value:.*e}", digits.saturating_sub(1));
    text.parse::<f64>().map_or(value, |rounded| rounded + 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn decimals_are_rounded_and_integers_are_not() {
        let value = serde_json::json!({"a": 1.0 / 3.0, "b": [1234567890123456_i64, -0.0, null]});
        let shown = serde_json::to_string(&round(value, 4)).unwrap();
        assert_eq!(shown, r#"{"a":0.3333,"b":[1234567890123456,0.0,null]}"#);
    }

    #[test]
    fn a_difference_in_the_last_bits_does_not_show() {
        let (one, other) = (0.1 + 0.2, 0.3);
        assert_eq!(pretty(&one).unwrap(), pretty(&other).unwrap());
    }

    #[test]
    fn very_large_and_very_small_numbers_survive() {
        assert!((to_digits(6.022_140_76e23, 4) - 6.022e23).abs() < 1e10);
        assert!((to_digits(1.234_56e-300, 3) - 1.23e-300).abs() < 1e-310);
    }
}
