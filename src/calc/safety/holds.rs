//! Questions about holding, killing, growing and cooling.

use super::LOCAL_CODES;
use super::profile::{PROFILE, TEMPERATURE, TIME, given_profile, required_profile};
use crate::calc::{Answer, CalcError, Family, Given, Input, Kind, Need, Output, Question};
use crate::finding::suggestion;
use crate::physics::PhysicsError;
use crate::physics::conduction::Shape;
use crate::physics::conduction::stepping::SteppedSolid;
use crate::physics::heat_kinetics::{COOK_VALUE, DecimalReduction, EquivalentTime, Segment};
use crate::physics::pathogens::{
    Checked, GROWTH_LIMITS as LIMITS, HOLD_RULES, ORGANISMS, Organism, growth_limits, hold_rule,
    organism,
};
use crate::quantity::{Dimension, Temperature, TemperatureDifference, Time};

/// A yes as a number in the output.
fn bool_number(yes: bool) -> f64 {
    f64::from(u8::from(yes))
}

fn unknown(name: &'static str, word: &str, names: &[&str]) -> CalcError {
    CalcError::UnknownWord { name, word: word.to_owned(), help: suggestion(word, names) }
}

/// How long to hold.
pub(super) const HOLD_SAFELY: Question = Question {
    name: "hold-safely",
    other_names: &["hold-time", "pasteurise"],
    family: Family::SafetyAndCooking,
    summary: "How long the authorities ask to hold a food at a core temperature",
    example: "hold-safely --food beef --temperature 60C",
    inputs: &[
        Input {
            name: "food",
            kind: Kind::Text,
            need: Need::Required,
            help: "beef, beef-7-log, poultry, poultry-lean, ground-meat, fish-and-steaks, any-core, burger-core, chilled-bag, \
                   egg-white, whole-egg, egg-yolk, milk, cream, frozen-dessert, apple-juice, pork-trichinella, ...",
        },
        Input::required(
            "temperature",
            Dimension::Temperature,
            "lowest temperature throughout the food",
        ),
        Input::optional("time", Dimension::Time, "also say whether this time is enough"),
    ],
    outputs: &[
        Output { key: "hold_time_s", label: "time to hold", unit: "s" },
        Output { key: "table_temperature_c", label: "line of the table that counts", unit: "°C" },
        Output { key: "log10_reduction", label: "decimal reductions the table aims at", unit: "" },
        Output { key: "enough_bool", label: "the time given is enough", unit: "" },
    ],
    answer: |given| {
        let word = given.word("food");
        let names: Vec<&str> = HOLD_RULES.iter().map(|rule| rule.name).collect();
        let rule = hold_rule(word).ok_or_else(|| unknown("food", word, &names))?;
        let line = rule.line(given.temperature("temperature"))?;
        let enough = given.optional_time("time").map(|time| bool_number(time >= line.time));
        let answer = Answer::new()
            .with("hold_time_s", line.time.seconds())
            .with("table_temperature_c", line.temperature.celsius())
            .with_optional("log10_reduction", rule.reductions)
            .with_optional("enough_bool", enough)
            .remark(format!("{}: {}", rule.food, rule.source))
            .remark(LOCAL_CODES);
        Ok(match line.checked {
            Checked::Read => answer,
            Checked::Memory => answer.remark("this line is unverified: from memory of the table"),
        })
    },
};

const ORGANISM: Input = Input {
    name: "organism",
    kind: Kind::Text,
    need: Need::Optional,
    help: "salmonella-beef, salmonella-yolk, listeria, e-coli-beef, botulinum-chilled, botulinum-canned, ...; \
           or give d, reference and z",
};

/// The organism named, or the figures given.
fn resistance(given: &Given) -> Result<(DecimalReduction, Option<&'static Organism>), CalcError> {
    let word = given.word("organism");
    if word.is_empty() {
        let missing = || CalcError::combination("give `organism`, or `d`, `reference` and `z`");
        let d_reference = given.optional_time("d").ok_or_else(missing)?;
        let reference = given.optional_temperature("reference").ok_or_else(missing)?;
        let z = given.optional_difference("z").ok_or_else(missing)?;
        return Ok((
            DecimalReduction { d_reference, basis: EquivalentTime { reference, z } },
            None,
        ));
    }
    let names: Vec<&str> = ORGANISMS.iter().map(|organism| organism.name).collect();
    let found = organism(word).ok_or_else(|| unknown("organism", word, &names))?;
    Ok((found.reduction, Some(found)))
}

fn reductions(
    (figures, named): (DecimalReduction, Option<&'static Organism>),
    profile: &[Segment],
) -> Result<f64, PhysicsError> {
    match named {
        Some(organism) => organism.reductions(profile),
        None => figures.of_profile(profile),
    }
}

fn with_source(answer: Answer, named: Option<&'static Organism>) -> Answer {
    let Some(organism) = named else { return answer };
    let answer = answer.remark(format!("{}: {}", organism.description, organism.source));
    match organism.checked {
        Checked::Read => answer,
        Checked::Memory => {
            answer.remark("this figure is unverified: from memory of the publication")
        }
    }
}

/// How many decimal reductions.
pub(super) const LETHALITY: Question = Question {
    name: "lethality",
    other_names: &["log-reduction", "d-value"],
    family: Family::SafetyAndCooking,
    summary: "How many decimal reductions of an organism a hold or a profile gives",
    example: "lethality --organism listeria --profile \"ramp 20-70 C in 10 min, hold 70 C 2 min\"",
    inputs: &[
        ORGANISM,
        Input::optional("d", Dimension::Time, "decimal reduction time at the reference"),
        Input::optional("reference", Dimension::Temperature, "reference temperature"),
        Input::optional("z", Dimension::TemperatureDifference, "kelvin for a tenfold rate"),
        TEMPERATURE,
        TIME,
        PROFILE,
        Input::optional(
            "reductions",
            Dimension::Fraction,
            "also give the time at `temperature` for so many",
        ),
    ],
    outputs: &[
        Output { key: "d_value_s", label: "decimal reduction time at the temperature", unit: "s" },
        Output { key: "log10_reduction", label: "decimal reductions", unit: "" },
        Output { key: "survivors_fraction", label: "share that survives", unit: "" },
        Output { key: "equivalent_time_s", label: "equivalent time at the reference", unit: "s" },
        Output { key: "hold_time_s", label: "time for the reductions asked for", unit: "s" },
    ],
    answer: answer_lethality,
};

fn answer_lethality(given: &Given) -> Result<Answer, CalcError> {
    let (figures, named) = resistance(given)?;
    let mut answer = Answer::new();
    if let Some(temperature) = given.optional_temperature("temperature") {
        let here = named.map_or(figures, |organism| organism.reduction_at(temperature));
        answer = answer.with("d_value_s", here.at(temperature)?.seconds());
        if let Some(wanted) = given.optional_number("reductions") {
            answer = answer.with("hold_time_s", here.time_for(wanted, temperature)?.seconds());
        }
    }
    if let Some(profile) = given_profile(given)? {
        let logs = reductions((figures, named), &profile)?;
        answer = answer
            .with("log10_reduction", logs)
            .with("survivors_fraction", 10f64.powf(-logs))
            .with("equivalent_time_s", logs * figures.d_reference.seconds());
    }
    if answer.values.is_empty() {
        return Err(CalcError::combination(
            "give `temperature`, with or without `time`, or a `profile`",
        ));
    }
    Ok(with_source(answer, named).remark(LOCAL_CODES))
}

/// Where organisms grow.
pub(super) const GROWTH_LIMITS: Question = Question {
    name: "growth-limits",
    other_names: &["growth"],
    family: Family::SafetyAndCooking,
    summary: "Where an organism stops growing: water activity, pH, salt, temperature",
    example: "growth-limits --organism botulinum-proteolytic --ph 4.8 --water-activity 0.96",
    inputs: &[
        Input {
            name: "organism",
            kind: Kind::Text,
            need: Need::Required,
            help: "bacillus-cereus, botulinum-proteolytic, botulinum-nonproteolytic, perfringens, e-coli, \
                   listeria, salmonella, staphylococcus, staphylococcus-toxin",
        },
        Input::optional("water-activity", Dimension::Fraction, "of the food"),
        Input::optional("ph", Dimension::Fraction, "of the food"),
        Input::optional("salt", Dimension::Fraction, "salt in the water phase, such as 3.5 %"),
        Input::optional("temperature", Dimension::Temperature, "storage temperature"),
    ],
    outputs: &[
        Output { key: "minimum_water_activity", label: "lowest water activity", unit: "" },
        Output { key: "minimum_ph", label: "lowest pH", unit: "" },
        Output { key: "maximum_ph", label: "highest pH", unit: "" },
        Output {
            key: "maximum_water_phase_salt_percent",
            label: "highest salt in the water",
            unit: "%",
        },
        Output { key: "minimum_growth_temperature_c", label: "lowest temperature", unit: "°C" },
        Output { key: "maximum_growth_temperature_c", label: "highest temperature", unit: "°C" },
        Output { key: "may_grow_bool", label: "may grow as described", unit: "" },
    ],
    answer: |given| {
        let word = given.word("organism");
        let names: Vec<&str> = LIMITS.iter().map(|row| row.name).collect();
        let limits = growth_limits(word).ok_or_else(|| unknown("organism", word, &names))?;
        let celsius = given.optional_temperature("temperature").map(Temperature::celsius);
        let number = |name| given.optional_number(name);
        let grows =
            limits.may_grow(number("water-activity"), number("ph"), number("salt"), celsius);
        Ok(Answer::new()
            .with("minimum_water_activity", limits.water_activity)
            .with("minimum_ph", limits.ph.0)
            .with("maximum_ph", limits.ph.1)
            .with("maximum_water_phase_salt_percent", 100.0 * limits.salt)
            .with("minimum_growth_temperature_c", limits.celsius.0)
            .with("maximum_growth_temperature_c", limits.celsius.1)
            .with("may_grow_bool", bool_number(grows))
            .remark("FDA table of 2011 from memory, checked against the ARS growth factors; other organisms may grow where this one does not")
            .remark(LOCAL_CODES))
    },
};

/// Stages of cooling: US FDA Food Code 3-501.14: 57 °C to 21 °C within 2 h, to 5 °C within 6 h in all.
const FIRST_STAGE: Time = Time::from_hours(2.0);
/// As [`FIRST_STAGE`].
const WHOLE_COOLING: Time = Time::from_hours(6.0);

/// Whether cooked food cools fast enough.
pub(super) const COOLING_CHECK: Question = Question {
    name: "cooling-check",
    other_names: &["cool-safely"],
    family: Family::SafetyAndCooking,
    summary: "Whether cooked food cools through the danger zone fast enough",
    example: "cooling-check --time-to-21 100min --time-to-5 5h",
    inputs: &[
        Input::required("time-to-21", Dimension::Time, "time from 57 °C to 21 °C"),
        Input::required("time-to-5", Dimension::Time, "time from 57 °C to 5 °C"),
    ],
    outputs: &[
        Output { key: "fast_enough_bool", label: "within both limits", unit: "" },
        Output { key: "first_stage_limit_s", label: "limit from 57 °C to 21 °C", unit: "s" },
        Output { key: "whole_limit_s", label: "limit from 57 °C to 5 °C", unit: "s" },
    ],
    answer: |given| {
        let within =
            given.time("time-to-21") <= FIRST_STAGE && given.time("time-to-5") <= WHOLE_COOLING;
        Ok(Answer::new()
            .with("fast_enough_bool", bool_number(within))
            .with("first_stage_limit_s", FIRST_STAGE.seconds())
            .with("whole_limit_s", WHOLE_COOLING.seconds())
            .remark("US FDA Food Code 3-501.14; other codes are stricter")
            .remark(LOCAL_CODES))
    },
};

/// The core of a piece through a whole treatment.
pub(super) const THROUGH_HEAT: Question = Question {
    name: "core-history",
    other_names: &["cook-through"],
    family: Family::SafetyAndCooking,
    summary: "What the core of a piece goes through while its surroundings change",
    example: "core-history --shape slab --thickness 30mm --start 5C --profile \"hold 60 C 90 min, hold 1 C 60 min\" --organism listeria",
    inputs: &[
        Input::choice("shape", &["slab", "cylinder", "sphere"], "form of the piece"),
        Input::required("thickness", Dimension::Length, "thickness or diameter"),
        Input::required("start", Dimension::Temperature, "temperature of the food at the start"),
        Input {
            need: Need::Required,
            help: "temperature of the surroundings: \"hold 60 C 90 min, hold 1 C 60 min\"",
            ..PROFILE
        },
        Input::with_default(
            "heat-transfer",
            Dimension::HeatTransfer,
            "200 W/(m² K)",
            "at the surface",
        ),
        Input::with_default(
            "diffusivity",
            Dimension::Diffusivity,
            "1.4e-7 m²/s",
            "thermal diffusivity",
        ),
        Input::with_default(
            "conductivity",
            Dimension::Conductivity,
            "0.5 W/(m K)",
            "thermal conductivity",
        ),
        ORGANISM,
        Input::optional("d", Dimension::Time, "decimal reduction time at the reference"),
        Input::optional("reference", Dimension::Temperature, "reference temperature"),
        Input::optional("z", Dimension::TemperatureDifference, "kelvin for a tenfold rate"),
    ],
    outputs: &[
        Output { key: "end_core_temperature_c", label: "core at the end", unit: "°C" },
        Output { key: "peak_core_temperature_c", label: "hottest core", unit: "°C" },
        Output { key: "peak_time_s", label: "when the core is hottest", unit: "s" },
        Output { key: "lowest_core_temperature_c", label: "coldest core", unit: "°C" },
        Output { key: "core_cook_value_c100_s", label: "cook value of the core", unit: "s" },
        Output { key: "surface_cook_value_c100_s", label: "cook value of the surface", unit: "s" },
        Output { key: "log10_reduction", label: "decimal reductions at the core", unit: "" },
    ],
    answer: answer_history,
};

/// Readings taken along each part of a profile.
const READINGS_PER_PART: u32 = 200;

fn answer_history(given: &Given) -> Result<Answer, CalcError> {
    let solid = SteppedSolid {
        shape: match given.word("shape") {
            "cylinder" => Shape::Cylinder,
            "sphere" => Shape::Sphere,
            _ => Shape::Slab,
        },
        length: given.length("thickness") * 0.5,
        diffusivity: given.diffusivity("diffusivity"),
        conductivity: given.conductivity("conductivity"),
        heat_transfer: given.heat_transfer("heat-transfer"),
    };
    let (core, surface) = follow(&solid, given.temperature("start"), &required_profile(given)?)?;
    let mut peak = (Time::ZERO, given.temperature("start"));
    let mut lowest = peak.1;
    let mut clock = Time::ZERO;
    for piece in &core {
        clock += piece.time;
        lowest = lowest.min(piece.to);
        if piece.to > peak.1 {
            peak = (clock, piece.to);
        }
    }
    let end = core.last().map_or(peak.1, |piece| piece.to);
    let answer = Answer::new()
        .with("end_core_temperature_c", end.celsius())
        .with("peak_core_temperature_c", peak.1.celsius())
        .with("peak_time_s", peak.0.seconds())
        .with("lowest_core_temperature_c", lowest.celsius())
        .with("core_cook_value_c100_s", COOK_VALUE.of_profile(&core)?.seconds())
        .with("surface_cook_value_c100_s", COOK_VALUE.of_profile(&surface)?.seconds());
    if given.word("organism").is_empty() && !given.has("d") {
        return Ok(answer.remark("nothing freezes, thaws or boils on the way"));
    }
    let (figures, named) = resistance(given)?;
    let logs = reductions((figures, named), &core)?;
    Ok(with_source(answer.with("log10_reduction", logs), named).remark(LOCAL_CODES))
}

/// The histories of core and surface as pieces.
fn follow(
    solid: &SteppedSolid,
    start: Temperature,
    profile: &[Segment],
) -> Result<(Vec<Segment>, Vec<Segment>), PhysicsError> {
    let mut layers = solid.start(start)?;
    let (mut core, mut surface) = (Vec::new(), Vec::new());
    let count = f64::from(READINGS_PER_PART);
    for part in profile {
        let rise: TemperatureDifference = part.to - part.from;
        let time = part.time / count;
        for reading in 0..READINGS_PER_PART {
            let at = |share: f64| part.from + rise * (share / count);
            let before = (layers.core(), layers.surface());
            layers.advance((at(f64::from(reading)), at(f64::from(reading + 1))), time);
            core.push(Segment { from: before.0, to: layers.core(), time });
            surface.push(Segment { from: before.1, to: layers.surface(), time });
        }
    }
    Ok((core, surface))
}
