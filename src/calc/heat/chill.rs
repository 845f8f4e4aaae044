//! How long chilling takes in usual surroundings, and whether it is fast enough.

use super::core::{BREADTH, CONDUCTIVITY, DIFFUSIVITY, HALF, LENGTH, SHAPE, THICKNESS, solid};
use crate::calc::{Answer, CalcError, Family, Given, Input, Output, Question};
use crate::physics::PhysicsError;
use crate::physics::conduction::{Exposure, usual_transfer};
use crate::quantity::{Dimension, HeatTransfer, Temperature, Time};

const METHODS: &[&str] = &[
    "ice-slurry",
    "stirred-bath",
    "salt-ice",
    "fan",
    "blast",
    "still-air",
    "metal-tray",
    "plate",
    "dry-ice",
];
/// Stages of cooling cooked food: US FDA Food Code 3-501.14: from 57 °C to 21 °C within 2 h, to 5 °C
/// within 6 h in all.
const STAGES: [(Temperature, Time); 2] = [
    (Temperature::from_celsius(21.0), Time::from_hours(2.0)),
    (Temperature::from_celsius(5.0), Time::from_hours(6.0)),
];
/// Where the stages start: US FDA Food Code 3-501.14.
const STAGES_START: Temperature = Temperature::from_celsius(57.0);

/// How long chilling takes.
pub(super) const CHILL: Question = Question {
    name: "chill",
    other_names: &["warm-through"],
    family: Family::HeatAndCold,
    summary: "How long a piece takes to chill in a slurry, a bath, a fridge or a blast",
    example: "chill --by ice-slurry --shape slab --thickness 30mm --start 60C --surroundings 0.5C --target 3C",
    inputs: &[
        Input::choice("by", METHODS, "what carries the heat away"),
        SHAPE,
        THICKNESS,
        HALF,
        BREADTH,
        LENGTH,
        DIFFUSIVITY,
        CONDUCTIVITY,
        Input::required("start", Dimension::Temperature, "temperature of the food at the start"),
        Input::required(
            "surroundings",
            Dimension::Temperature,
            "temperature of the bath or the air",
        ),
        Input::required("target", Dimension::Temperature, "temperature that the core must reach"),
    ],
    outputs: &[
        Output { key: "time_low_s", label: "time, good contact", unit: "s" },
        Output { key: "time_s", label: "time, typical contact", unit: "s" },
        Output { key: "time_high_s", label: "time, poor contact", unit: "s" },
        Output {
            key: "time_57_to_21_c_s",
            label: "core from 57 °C to 21 °C, poor contact",
            unit: "s",
        },
        Output {
            key: "time_57_to_5_c_s",
            label: "core from 57 °C to 5 °C, poor contact",
            unit: "s",
        },
        Output { key: "fast_enough_bool", label: "within 2 h and 6 h, poor contact", unit: "" },
    ],
    answer,
};

fn answer(given: &Given) -> Result<Answer, CalcError> {
    let word = given.word("by");
    let Some(transfer) = usual_transfer(word) else {
        return Err(CalcError::combination(format!("no heat transfer is known for `{word}`")));
    };
    let exposure = |h: HeatTransfer| -> Result<Exposure, CalcError> {
        Ok(Exposure {
            solid: solid(given)?,
            diffusivity: given.diffusivity("diffusivity"),
            conductivity: given.conductivity("conductivity"),
            heat_transfer: Some(h),
            start: given.temperature("start"),
            surroundings: given.temperature("surroundings"),
        })
    };
    let target = given.temperature("target");
    let [poor, typical, good] = transfer.range;
    let time = |h| -> Result<f64, CalcError> { Ok(exposure(h)?.time_to_core(target)?.seconds()) };
    let answer = Answer::new()
        .with("time_low_s", time(good)?)
        .with("time_s", time(typical)?)
        .with("time_high_s", time(poor)?)
        .remark("nothing freezes on the way; bags lie flat and apart");
    Ok(with_stages(answer, &exposure(poor)?)?)
}

/// Adds the stages of the food code for food that starts above them.
fn with_stages(answer: Answer, exposure: &Exposure) -> Result<Answer, PhysicsError> {
    let [(mild, _), (cold, _)] = STAGES;
    if exposure.start <= STAGES_START {
        return Ok(answer);
    }
    let remark = "US FDA Food Code 3-501.14; follow your local food code, and measure the core";
    if exposure.surroundings >= cold {
        return Ok(answer
            .with("fast_enough_bool", 0.0)
            .remark("these surroundings never bring the core to 5 °C")
            .remark(remark));
    }
    let begin = exposure.time_to_core(STAGES_START)?;
    let stage = |to| exposure.time_to_core(to).map(|time| time - begin);
    let times = [stage(mild)?, stage(cold)?];
    let within = times.iter().zip(STAGES).all(|(time, (_, limit))| *time <= limit);
    Ok(answer
        .with("time_57_to_21_c_s", times[0].seconds())
        .with("time_57_to_5_c_s", times[1].seconds())
        .with("fast_enough_bool", f64::from(u8::from(within)))
        .remark(remark))
}
