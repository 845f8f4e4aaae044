//! What can go wrong in a physics function.

use crate::quantity::{Temperature, significant};

/// Significant digits of the numbers in messages: hides the rounding of unit conversion.
const SHOWN_DIGITS: u32 = 9;

/// Writes a reading with its unit; a temperature in degrees Celsius, as cooks read it.
fn reading(quantity: &str, value: f64, unit: &str) -> String {
    let difference = ["difference", "rise", "drop", "depression", "elevation"];
    let is_scale =
        quantity.contains("temperature") && !difference.iter().any(|w| quantity.contains(w));
    match unit {
        "K" if is_scale => {
            let celsius = Temperature::from_si(value).celsius();
            format!("{} °C", significant(celsius, SHOWN_DIGITS))
        }
        "" => significant(value, SHOWN_DIGITS),
        unit => format!("{} {unit}", significant(value, SHOWN_DIGITS)),
    }
}

/// Why a law gave no number.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PhysicsError {
    /// A quantity that must be above zero is not.
    #[error("{quantity} must be above zero, got {}", reading(quantity, *value, unit))]
    NotPositive {
        /// The quantity, in the field's words.
        quantity: &'static str,
        /// The value handed in.
        value: f64,
        /// Its unit.
        unit: &'static str,
    },
    /// A quantity lies outside the range in which the law was published.
    #[error(
        "{law} holds for {quantity} from {} to {}, got {}",
        reading(quantity, *low, unit), reading(quantity, *high, unit), reading(quantity, *value, unit)
    )]
    OutsideValidity {
        /// The law or correlation.
        law: &'static str,
        /// The quantity that is out of range.
        quantity: &'static str,
        /// The value handed in.
        value: f64,
        /// The lower end of the range.
        low: f64,
        /// The upper end of the range.
        high: f64,
        /// The unit of all three.
        unit: &'static str,
    },
    /// The conditions contradict each other, so that no state meets them.
    #[error("{what}: {because}")]
    Impossible {
        /// What was asked for.
        what: &'static str,
        /// Why it cannot be.
        because: String,
    },
    /// An iteration did not settle within its stated number of steps.
    #[error("{what} did not settle in {steps} steps, last value {last}")]
    NoConvergence {
        /// What was sought.
        what: &'static str,
        /// The number of steps taken.
        steps: u32,
        /// The last value.
        last: f64,
    },
}

/// A range of validity of one law, checked before the law is used.
#[derive(Debug, Clone, Copy)]
pub struct Validity {
    /// The law or correlation.
    pub law: &'static str,
    /// The quantity that is bounded.
    pub quantity: &'static str,
    /// The lower end.
    pub low: f64,
    /// The upper end.
    pub high: f64,
    /// The unit of both.
    pub unit: &'static str,
}

/// A value passes when it exceeds an end of a range by no more than this share of it.
const ROUNDING_SLACK: f64 = 1e-9;

impl Validity {
    /// Passes a value that lies within the range.
    ///
    /// # Errors
    /// [`PhysicsError::OutsideValidity`] when it does not, or is not a number.
    pub fn check(&self, value: f64) -> Result<f64, PhysicsError> {
        let slack = ROUNDING_SLACK * (self.high - self.low).abs();
        if value >= self.low - slack && value <= self.high + slack {
            Ok(value)
        } else {
            Err(PhysicsError::OutsideValidity {
                law: self.law,
                quantity: self.quantity,
                value,
                low: self.low,
                high: self.high,
                unit: self.unit,
            })
        }
    }
}

/// Passes a value above zero.
///
/// # Errors
/// [`PhysicsError::NotPositive`] when it is zero, negative or not a number.
pub fn positive(
    quantity: &'static str,
    value: f64,
    unit: &'static str,
) -> Result<f64, PhysicsError> {
    if value > 0.0 { Ok(value) } else { Err(PhysicsError::NotPositive { quantity, value, unit }) }
}

#[cfg(test)]
mod tests {
    use super::*;

    const RANGE: Validity =
        Validity { law: "a law", quantity: "temperature", low: 0.0, high: 100.0, unit: "°C" };

    #[test]
    fn a_value_outside_the_range_is_refused_with_both_ends() {
        let message = RANGE.check(120.0).unwrap_err().to_string();
        assert_eq!(message, "a law holds for temperature from 0 °C to 100 °C, got 120 °C");
        assert!(RANGE.check(f64::NAN).is_err());
        assert!(RANGE.check(100.0).is_ok());
    }

    #[test]
    fn a_temperature_in_kelvin_is_written_in_celsius_and_a_difference_is_not() {
        let boiling = Validity { low: 273.15, high: 373.15, unit: "K", ..RANGE };
        let message = boiling.check(255.149_999_999_999_98).unwrap_err().to_string();
        assert_eq!(message, "a law holds for temperature from 0 °C to 100 °C, got −18 °C");
        let rise = Validity { quantity: "temperature rise", unit: "K", ..RANGE };
        let message = rise.check(120.0).unwrap_err().to_string();
        assert_eq!(message, "a law holds for temperature rise from 0 K to 100 K, got 120 K");
    }

    #[test]
    fn zero_is_not_positive() {
        assert!(positive("mass", 0.0, "kg").is_err());
        assert!(positive("mass", f64::NAN, "kg").is_err());
    }
}
