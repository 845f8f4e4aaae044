//! Published hold times.

use super::Checked;
use crate::physics::PhysicsError;
use crate::quantity::{Temperature, Time};

/// One line of a table of hold times.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HoldPoint {
    /// Lowest temperature throughout the food.
    pub temperature: Temperature,
    /// Time to hold it; zero when the table says "instantly".
    pub time: Time,
    /// Whether the line was read in a copy.
    pub checked: Checked,
}

/// A published table of hold times for one kind of food.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HoldRule {
    /// Name in kebab case.
    pub name: &'static str,
    /// The food and the aim, in plain words.
    pub food: &'static str,
    /// Decimal reductions that the table aims at, where it says so.
    pub reductions: Option<f64>,
    /// The lines, coldest first.
    pub points: &'static [HoldPoint],
    /// The body that published it.
    pub source: &'static str,
}

const READ: Checked = Checked::Read;
const MEMORY: Checked = Checked::Memory;

const fn at(celsius: f64, seconds: f64, checked: Checked) -> HoldPoint {
    let temperature = Temperature::from_celsius(celsius);
    HoldPoint { temperature, time: Time::from_seconds(seconds), checked }
}

/// The tables of hold times; temperatures in °C as printed, times in seconds.
///
/// Where a copy rounds a line differently from its Fahrenheit column (137 °F and 139 °F), the lower
/// Celsius figure stands.
pub const HOLD_RULES: &[HoldRule] = &[
    HoldRule {
        name: "beef",
        food: "whole cuts of beef, lamb, pork: 6.5 log Salmonella",
        reductions: Some(6.5),
        points: &[
            at(54.4, 6720.0, READ),
            at(55.0, 5340.0, READ),
            at(55.6, 4260.0, READ),
            at(56.1, 3360.0, READ),
            at(56.7, 2700.0, READ),
            at(57.2, 2160.0, READ),
            at(57.8, 1680.0, READ),
            at(58.3, 1380.0, READ),
            at(58.9, 1080.0, READ),
            at(59.4, 900.0, READ),
            at(60.0, 720.0, READ),
            at(60.6, 540.0, READ),
            at(61.1, 480.0, READ),
            at(61.7, 360.0, READ),
            at(62.2, 300.0, READ),
            at(62.8, 240.0, READ),
            at(63.3, 169.0, READ),
            at(63.9, 134.0, READ),
            at(64.4, 107.0, READ),
            at(65.0, 85.0, READ),
            at(65.6, 67.0, READ),
            at(66.1, 54.0, READ),
            at(66.7, 43.0, READ),
            at(67.2, 34.0, READ),
            at(67.8, 27.0, READ),
            at(68.3, 22.0, READ),
            at(68.9, 17.0, READ),
            at(69.4, 14.0, READ),
            at(70.0, 0.0, READ),
        ],
        source: "USDA FSIS, Appendix A, Compliance guidelines for lethality, 1999; US FDA Food Code 3-401.11(B)",
    },
    HoldRule {
        name: "beef-7-log",
        food: "whole cuts of beef: 7 log Salmonella",
        reductions: Some(7.0),
        points: &[
            at(54.4, 7260.0, READ),
            at(55.0, 5820.0, READ),
            at(55.6, 4620.0, READ),
            at(56.1, 3720.0, READ),
            at(56.7, 2820.0, READ),
            at(57.2, 2220.0, READ),
            at(57.8, 1920.0, READ),
            at(58.3, 1440.0, READ),
            at(58.9, 1140.0, READ),
            at(59.4, 900.0, READ),
            at(60.0, 720.0, READ),
            at(60.6, 600.0, READ),
            at(61.1, 480.0, READ),
            at(61.7, 360.0, READ),
            at(62.2, 300.0, READ),
            at(62.8, 240.0, READ),
            at(63.3, 182.0, READ),
            at(63.9, 144.0, READ),
            at(64.4, 115.0, READ),
            at(65.0, 91.0, READ),
            at(65.6, 72.0, READ),
            at(66.1, 58.0, READ),
            at(66.7, 46.0, READ),
            at(67.2, 37.0, READ),
            at(67.8, 29.0, READ),
            at(68.3, 23.0, READ),
            at(68.9, 19.0, READ),
            at(69.4, 15.0, READ),
            at(70.0, 0.0, READ),
        ],
        source: "USDA FSIS, Appendix A, Compliance guidelines for lethality, 1999",
    },
    HoldRule {
        name: "poultry",
        food: "chicken of up to 12 % fat: 7 log Salmonella",
        reductions: Some(7.0),
        points: &[
            at(57.8, 4884.0, READ),
            at(58.3, 3930.0, READ),
            at(58.9, 3174.0, READ),
            at(59.4, 2580.0, READ),
            at(60.0, 2100.0, READ),
            at(60.6, 1722.0, READ),
            at(61.1, 1422.0, READ),
            at(61.7, 1188.0, READ),
            at(62.2, 996.0, READ),
            at(62.8, 780.0, MEMORY),
            at(65.6, 252.0, MEMORY),
            at(68.3, 54.4, MEMORY),
            at(71.1, 16.9, MEMORY),
            at(73.9, 10.0, MEMORY),
        ],
        source: "USDA FSIS, Time-temperature tables for cooking ready-to-eat poultry products, 2005",
    },
    HoldRule {
        name: "poultry-lean",
        food: "lean white meat of chicken: 7 log Salmonella",
        reductions: Some(7.0),
        points: &[
            at(62.8, 588.0, READ),
            at(63.3, 474.0, READ),
            at(63.9, 378.0, READ),
            at(64.4, 300.0, READ),
            at(65.0, 234.0, READ),
            at(65.6, 180.0, READ),
            at(66.1, 132.0, READ),
            at(66.7, 102.0, READ),
            at(67.2, 78.0, READ),
            at(67.8, 60.0, READ),
            at(68.3, 49.5, READ),
            at(68.9, 39.2, READ),
            at(69.4, 31.0, READ),
            at(70.0, 24.5, READ),
            at(70.6, 19.4, READ),
            at(71.1, 15.3, READ),
            at(71.7, 12.1, READ),
            at(72.2, 9.6, READ),
        ],
        source: "USDA FSIS, Time-temperature tables for cooking ready-to-eat poultry products, 2005, \
                 as restated for lean white meat",
    },
    HoldRule {
        name: "ground-meat",
        food: "ground or injected meat and fish, eggs held hot: 5 log",
        reductions: Some(5.0),
        points: &[at(62.8, 180.0, READ), at(68.3, 17.0, READ), at(70.0, 1.0, READ)],
        source: "US FDA Food Code 2017, 3-401.11(A)(2)",
    },
    HoldRule {
        name: "fish-and-steaks",
        food: "whole fish, intact meat, eggs for immediate service",
        reductions: None,
        points: &[at(62.8, 15.0, READ)],
        source: "US FDA Food Code 2017, 3-401.11(A)(1)",
    },
    HoldRule {
        name: "stuffed-or-wild",
        food: "poultry, stuffed food, wild game: 7 log",
        reductions: Some(7.0),
        points: &[at(73.9, 15.0, READ)],
        source: "US FDA Food Code 2005-2013, 3-401.11(A)(3); under 1 s from 2017 on",
    },
    HoldRule {
        name: "any-core",
        food: "any cooked food at its core: 6 log Listeria",
        reductions: Some(6.0),
        points: &[
            at(60.0, 2700.0, READ),
            at(65.0, 600.0, MEMORY),
            at(70.0, 120.0, READ),
            at(75.0, 30.0, MEMORY),
            at(80.0, 6.0, READ),
        ],
        source: "UK Food Standards Agency and ACMSF, cooking equivalents of 70 °C for 2 min",
    },
    HoldRule {
        name: "burger-core",
        food: "burgers and food likely to carry E. coli: 6 log",
        reductions: Some(6.0),
        points: &[at(60.0, 5580.0, READ), at(70.0, 120.0, READ)],
        source: "UK ACMSF, ad hoc group on safe cooking of burgers",
    },
    HoldRule {
        name: "chilled-bag",
        food: "chilled vacuum-packed food: 6 log spores of non-proteolytic C. botulinum",
        reductions: Some(6.0),
        points: &[
            at(80.0, 7740.0, READ),
            at(82.0, 4620.0, READ),
            at(83.0, 3600.0, READ),
            at(85.0, 2160.0, READ),
            at(86.0, 1680.0, READ),
            at(88.0, 1020.0, READ),
            at(89.0, 780.0, READ),
            at(90.0, 600.0, MEMORY),
            at(91.0, 474.0, READ),
            at(92.0, 378.0, READ),
            at(94.0, 240.0, READ),
            at(95.0, 192.0, READ),
            at(97.0, 120.0, READ),
            at(98.0, 96.0, READ),
            at(100.0, 60.0, READ),
        ],
        source: "UK Food Standards Agency and Chilled Food Association, table of equivalent times",
    },
    HoldRule {
        name: "egg-white",
        food: "liquid egg white without chemicals",
        reductions: None,
        points: &[at(55.6, 372.0, READ), at(56.7, 210.0, READ)],
        source: "US 9 CFR 590.570, table I, before the 2020 amendment",
    },
    HoldRule {
        name: "whole-egg",
        food: "liquid whole egg",
        reductions: None,
        points: &[at(60.0, 210.0, READ)],
        source: "US 9 CFR 590.570, table I, before the 2020 amendment",
    },
    HoldRule {
        name: "whole-egg-sugared",
        food: "liquid whole egg with 2 to 12 % sugar",
        reductions: None,
        points: &[at(60.0, 372.0, READ), at(61.1, 210.0, READ)],
        source: "US 9 CFR 590.570, table I, before the 2020 amendment",
    },
    HoldRule {
        name: "whole-egg-salted",
        food: "liquid whole egg with 2 % salt or more",
        reductions: None,
        points: &[at(62.2, 372.0, READ), at(63.3, 210.0, READ)],
        source: "US 9 CFR 590.570, table I, before the 2020 amendment",
    },
    HoldRule {
        name: "egg-yolk",
        food: "liquid egg yolk",
        reductions: None,
        points: &[at(60.0, 372.0, READ), at(61.1, 210.0, READ)],
        source: "US 9 CFR 590.570, table I, before the 2020 amendment",
    },
    HoldRule {
        name: "egg-yolk-sugared-or-salted",
        food: "liquid egg yolk with sugar or salt, 2 % or more",
        reductions: None,
        points: &[at(62.2, 372.0, READ), at(63.3, 210.0, READ)],
        source: "US 9 CFR 590.570, table I, before the 2020 amendment",
    },
    HoldRule {
        name: "milk",
        food: "milk",
        reductions: None,
        points: &[
            at(63.0, 1800.0, READ),
            at(72.0, 15.0, READ),
            at(89.0, 1.0, MEMORY),
            at(90.0, 0.5, READ),
            at(94.0, 0.1, MEMORY),
            at(96.0, 0.05, READ),
            at(100.0, 0.01, READ),
        ],
        source: "US 21 CFR 1240.61 and FDA Grade A Pasteurized Milk Ordinance",
    },
    HoldRule {
        name: "cream",
        food: "cream of 10 % fat or more, sweetened milk",
        reductions: None,
        points: &[
            at(66.0, 1800.0, READ),
            at(75.0, 15.0, READ),
            at(93.0, 0.5, READ),
            at(99.0, 0.05, READ),
            at(103.0, 0.01, READ),
        ],
        source: "US 21 CFR 1240.61 and FDA Grade A Pasteurized Milk Ordinance",
    },
    HoldRule {
        name: "frozen-dessert",
        food: "mix for ice cream, custard with egg",
        reductions: None,
        points: &[at(69.0, 1800.0, READ), at(80.0, 25.0, READ), at(83.0, 15.0, READ)],
        source: "US 21 CFR 1240.61 and FDA Grade A Pasteurized Milk Ordinance",
    },
    HoldRule {
        name: "apple-juice",
        food: "apple juice of pH 4.0 or less: 5 log",
        reductions: Some(5.0),
        points: &[
            at(71.1, 6.0, MEMORY),
            at(73.9, 2.8, MEMORY),
            at(76.7, 1.3, MEMORY),
            at(79.4, 0.6, MEMORY),
            at(82.2, 0.3, MEMORY),
        ],
        source: "US FDA, Juice HACCP Hazards and Controls Guidance, 2004",
    },
    HoldRule {
        name: "pork-trichinella",
        food: "pork: Trichinella",
        reductions: None,
        points: &[
            at(48.9, 75600.0, READ),
            at(51.1, 16200.0, READ),
            at(53.3, 3600.0, READ),
            at(55.6, 900.0, READ),
            at(56.7, 360.0, READ),
            at(60.0, 60.0, READ),
        ],
        source: "US 9 CFR 318.10",
    },
];

/// Finds a table of hold times.
///
/// # Source
/// [`HOLD_RULES`].
pub fn hold_rule(name: &str) -> Option<&'static HoldRule> {
    HOLD_RULES.iter().find(|rule| rule.name == name)
}

/// Printed temperatures are rounded to a tenth: a reading this little below a line counts as on it
/// \[K\].
const ROUNDING_KELVIN: f64 = 0.05;

impl HoldRule {
    /// Returns the line that applies: the hottest that the food has reached throughout.
    ///
    /// Between two lines the time of the colder one counts, as the authorities ask.
    ///
    /// # Units
    /// T \[K\], t \[s\].
    ///
    /// # Validity
    /// From the coldest line upwards; above the hottest line its time still counts.
    ///
    /// # Errors
    /// [`PhysicsError::OutsideValidity`] below the coldest line.
    ///
    /// # Source
    /// [`HOLD_RULES`].
    pub fn line(&self, temperature: Temperature) -> Result<&'static HoldPoint, PhysicsError> {
        let reached =
            |point: &&HoldPoint| (temperature - point.temperature).kelvin() >= -ROUNDING_KELVIN;
        self.points.iter().rev().find(reached).ok_or_else(|| {
            let end =
                |point: Option<&HoldPoint>| point.map_or(f64::NAN, |p| p.temperature.celsius());
            PhysicsError::OutsideValidity {
                law: "published table of hold times",
                quantity: "temperature",
                value: temperature.celsius(),
                low: end(self.points.first()),
                high: end(self.points.last()),
                unit: "°C",
            }
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_table_runs_from_cold_and_long_to_hot_and_short() {
        for rule in HOLD_RULES {
            assert_eq!(hold_rule(rule.name), Some(rule));
            let falls = |pair: &[HoldPoint]| {
                pair[0].temperature < pair[1].temperature && pair[0].time >= pair[1].time
            };
            assert!(rule.points.windows(2).all(falls), "{}", rule.name);
            assert!(!rule.points.is_empty() && !rule.source.is_empty());
        }
    }

    #[test]
    fn between_two_lines_the_colder_one_counts_and_below_the_table_none() {
        let beef = hold_rule("beef").unwrap();
        let seconds = |c| beef.line(Temperature::from_celsius(c)).map(|line| line.time.seconds());
        assert!((seconds(60.3).unwrap() - 720.0).abs() < 1e-9);
        assert!((seconds(95.0).unwrap() - 0.0).abs() < 1e-9);
        assert!(seconds(54.0).is_err());
        let boundary = Temperature::from_fahrenheit(140.0);
        assert!((beef.line(boundary).unwrap().time.minutes() - 12.0).abs() < 1e-9);
    }
}
