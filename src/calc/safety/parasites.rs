//! Freezing against parasites.

use super::LOCAL_CODES;
use crate::calc::{Answer, CalcError, Family, Input, Kind, Need, Output, Question};
use crate::finding::suggestion;
use crate::physics::pathogens::{FREEZING_RULES, freezing_rule};
use crate::quantity::Dimension;

/// How long to freeze.
pub(super) const FREEZE_PARASITES: Question = Question {
    name: "freeze-parasites",
    other_names: &["parasites"],
    family: Family::SafetyAndCooking,
    summary: "How long the authorities ask to freeze fish or pork against parasites",
    example: "freeze-parasites --food raw-fish --temperature -20C",
    inputs: &[
        Input {
            name: "food",
            kind: Kind::Text,
            need: Need::Required,
            help: "raw-fish, or pork-core by the temperature of its core",
        },
        Input::required("temperature", Dimension::Temperature, "highest temperature in the food"),
    ],
    outputs: &[Output { key: "freezing_time_s", label: "time at or below it", unit: "s" }],
    answer: |given| {
        let word = given.word("food");
        let names: Vec<&str> = FREEZING_RULES.iter().map(|rule| rule.name).collect();
        let rule = freezing_rule(word).ok_or_else(|| CalcError::UnknownWord {
            name: "food",
            word: word.to_owned(),
            help: suggestion(word, &names),
        })?;
        let time = rule.time_at(given.temperature("temperature"))?;
        Ok(Answer::new()
            .with("freezing_time_s", time.seconds())
            .remark(format!("{}: {}", rule.food, rule.source))
            .remark("a household freezer at -18 °C is too warm for raw fish")
            .remark(LOCAL_CODES))
    },
};
