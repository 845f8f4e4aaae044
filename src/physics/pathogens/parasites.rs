//! Freezing that kills parasites.

use crate::physics::PhysicsError;
use crate::quantity::{Temperature, Time};

/// Published freezing treatments of one kind of food, mildest first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FreezingRule {
    /// Name in kebab case.
    pub name: &'static str,
    /// Food and treatment, in plain words.
    pub food: &'static str,
    /// Highest temperature and time at it.
    pub lines: &'static [(Temperature, Time)],
    /// The body that published it.
    pub source: &'static str,
}

const fn at(celsius: f64, hours: f64) -> (Temperature, Time) {
    (Temperature::from_celsius(celsius), Time::from_hours(hours))
}

/// Freezing treatments: temperature \[°C\] and time \[h\].
///
/// # Source
/// As each row names; both were read, the pork table in a restatement.
pub const FREEZING_RULES: &[FreezingRule] = &[
    FreezingRule {
        name: "raw-fish",
        food: "fish to be eaten raw, frozen until solid and stored so",
        lines: &[at(-20.0, 168.0), at(-35.0, 15.0)],
        source: "US FDA Food Code 3-402.11, as in Washington Administrative Code 246-215-03425",
    },
    FreezingRule {
        name: "pork-core",
        food: "pork, Trichinella, by the temperature of the core",
        lines: &[
            at(-17.8, 106.0),
            at(-23.3, 63.0),
            at(-26.1, 48.0),
            at(-31.7, 22.0),
            at(-34.4, 8.0),
            at(-37.2, 0.5),
        ],
        source: "US 9 CFR 318.10, Trichinella in pork, freezing table by internal temperature",
    },
];

/// Finds a freezing treatment.
///
/// # Source
/// [`FREEZING_RULES`].
pub fn freezing_rule(name: &str) -> Option<&'static FreezingRule> {
    FREEZING_RULES.iter().find(|rule| rule.name == name)
}

impl FreezingRule {
    /// Returns the time to stay at or below a temperature: that of the next warmer line.
    ///
    /// # Units
    /// T \[K\], t \[s\].
    ///
    /// # Validity
    /// From the warmest line downwards.
    ///
    /// # Errors
    /// [`PhysicsError::OutsideValidity`] for a warmer temperature.
    ///
    /// # Source
    /// [`FREEZING_RULES`].
    pub fn time_at(&self, temperature: Temperature) -> Result<Time, PhysicsError> {
        let reached = |line: &&(Temperature, Time)| temperature <= line.0;
        let line = self.lines.iter().rev().find(reached);
        line.map(|line| line.1).ok_or_else(|| {
            let end = |line: Option<&(Temperature, Time)>| line.map_or(f64::NAN, |l| l.0.celsius());
            PhysicsError::OutsideValidity {
                law: "freezing against parasites",
                quantity: "temperature",
                value: temperature.celsius(),
                low: end(self.lines.last()),
                high: end(self.lines.first()),
                unit: "°C",
            }
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn colder_lines_are_shorter_and_a_mild_freezer_is_refused() {
        for rule in FREEZING_RULES {
            assert_eq!(freezing_rule(rule.name), Some(rule));
            assert!(
                rule.lines.windows(2).all(|pair| pair[0].0 > pair[1].0 && pair[0].1 > pair[1].1)
            );
        }
        let fish = freezing_rule("raw-fish").unwrap();
        assert!(fish.time_at(Temperature::from_celsius(-18.0)).is_err());
        let days = |c| fish.time_at(Temperature::from_celsius(c)).unwrap().days();
        assert!((days(-25.0) - 7.0).abs() < 1e-9 && days(-40.0) < 1.0);
    }
}
