//! Questions about cooking under pressure.

use super::LOCAL_CODES;
use crate::calc::{Answer, CalcError, Family, Given, Input, Kind, Need, Output, Question};
use crate::finding::suggestion;
use crate::physics::atmosphere::{atmospheric_pressure, boiling_point_at_altitude};
use crate::physics::heat_kinetics::{COOK_VALUE, EquivalentTime, SOFTENING, softening};
use crate::physics::positive;
use crate::physics::water::saturation_temperature;
use crate::quantity::{Dimension, TemperatureDifference};

/// How times change under pressure.
pub(super) const PRESSURE_COOK: Question = Question {
    name: "pressure-cook",
    other_names: &["pressure-cooker"],
    family: Family::SafetyAndCooking,
    summary: "How hot a pressure cooker gets here, and what becomes of a boiling time",
    example: "pressure-cook --gauge \"100 kPa\" --altitude 1600m --boiling-time 60min --food beans",
    inputs: &[
        Input::required(
            "gauge",
            Dimension::Pressure,
            "pressure over the air outside, such as 80 kPa",
        ),
        Input::with_default("altitude", Dimension::Length, "0 m", "altitude of the kitchen"),
        Input::with_default(
            "air-left",
            Dimension::Fraction,
            "0",
            "share of air left in the steam when it was not vented",
        ),
        Input::with_default(
            "boiling-time",
            Dimension::Time,
            "60 min",
            "time that the dish boils at sea level",
        ),
        Input {
            name: "food",
            kind: Kind::Text,
            need: Need::Optional,
            help: "beans, black-beans, white-beans, dried-peas, green-peas, carrot, ...; without it z 33 K of the cook value",
        },
        Input::optional("z", Dimension::TemperatureDifference, "instead: z value of the dish"),
    ],
    outputs: &[
        Output { key: "steam_temperature_c", label: "temperature of the steam", unit: "°C" },
        Output { key: "absolute_pressure_pa", label: "absolute pressure", unit: "Pa" },
        Output { key: "boiling_point_c", label: "boiling point in an open pot here", unit: "°C" },
        Output {
            key: "time_factor",
            label: "time under pressure by boiling time at sea level",
            unit: "",
        },
        Output { key: "pressure_time_s", label: "time under pressure", unit: "s" },
        Output { key: "open_pot_time_s", label: "time in an open pot here", unit: "s" },
    ],
    answer: answer_pressure,
};

fn basis(given: &Given) -> Result<EquivalentTime, CalcError> {
    if let Some(z) = given.optional_difference("z") {
        return Ok(EquivalentTime { z, ..COOK_VALUE });
    }
    let word = given.word("food");
    if word.is_empty() {
        return Ok(COOK_VALUE);
    }
    let names: Vec<&str> = SOFTENING.iter().map(|record| record.name).collect();
    let found = softening(word).ok_or_else(|| {
        let help = suggestion(word, &names);
        CalcError::UnknownWord { name: "food", word: word.to_owned(), help }
    })?;
    Ok(found.basis())
}

fn answer_pressure(given: &Given) -> Result<Answer, CalcError> {
    let basis = basis(given)?;
    let z: TemperatureDifference = basis.z;
    let altitude = given.length("altitude");
    let absolute = atmospheric_pressure(altitude)? + given.pressure("gauge");
    let steam = saturation_temperature(absolute * (1.0 - given.number("air-left")))?;
    let open = boiling_point_at_altitude(altitude)?;
    let boiling_time = given.time("boiling-time");
    positive("boiling time", boiling_time.seconds(), "s")?;
    let there = basis.convert(boiling_time, basis.reference, steam)?;
    let here = basis.convert(boiling_time, basis.reference, open)?;
    Ok(Answer::new()
        .with("steam_temperature_c", steam.celsius())
        .with("absolute_pressure_pa", absolute.pascals())
        .with("boiling_point_c", open.celsius())
        .with("time_factor", there / boiling_time)
        .with("pressure_time_s", there.seconds())
        .with("open_pot_time_s", here.seconds())
        .remark(format!("z {:.1} K; heating up and the release of pressure cook too", z.kelvin()))
        .remark("for canning use only tested procedures, never a converted time")
        .remark(LOCAL_CODES))
}
