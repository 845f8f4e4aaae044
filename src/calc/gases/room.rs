//! Questions about gas in a room.

use super::super::{Answer, CalcError, Family, Given, Input, Output, Question};
use super::{GASES, gas_named};
use crate::physics::cryogen::{self, Gas};
use crate::physics::room_air::{self, Course, Release, Room};
use crate::quantity::{Dimension, Time};

const PPM: f64 = 1e6;
const PER_CENT: f64 = 100.0;

/// What volume a kilogram of gas fills.
pub(super) const GAS_VOLUME: Question = Question {
    name: "gas-volume",
    other_names: &["gas-density", "expanded-gas"],
    family: Family::Gases,
    summary: "What volume a kilogram of gas fills",
    example: "gas-volume --gas nitrogen --temperature \"20 °C\"",
    inputs: &[
        Input::choice("gas", GASES, "Which gas"),
        Input::with_default("temperature", Dimension::Temperature, "20 °C", "Of the gas"),
        Input::with_default("pressure", Dimension::Pressure, "101.325 kPa", "Absolute"),
    ],
    outputs: &[
        Output { key: "gas_volume_m3_kg", label: "volume per mass", unit: "m³/kg" },
        Output { key: "gas_density_kg_m3", label: "density", unit: "kg/m³" },
    ],
    answer: gas_volume,
};

fn gas_volume(given: &Given) -> Result<Answer, CalcError> {
    let volume = cryogen::specific_volume(
        gas_named(given.word("gas")),
        given.temperature("temperature"),
        given.pressure("pressure"),
    )?;
    Ok(Answer::new().with("gas_volume_m3_kg", volume).with("gas_density_kg_m3", 1.0 / volume))
}

/// What gas set free does to a room.
pub(super) const ROOM_GAS: Question = Question {
    name: "room-gas",
    other_names: &["room-air", "oxygen-left", "ventilation", "asphyxiation"],
    family: Family::Gases,
    summary: "How much gas is in the air of a room, how much oxygen is left, how long to air it",
    example: "room-gas --gas carbon-dioxide --mass \"1 kg\" --room \"30 m³\" --air-changes \"1 /h\"",
    inputs: &[
        Input::choice("gas", GASES, "Which gas is set free"),
        Input::required("mass", Dimension::Mass, "How much of it, as liquid, ice or gas"),
        Input::required("room", Dimension::Volume, "Volume of the room"),
        Input::with_default(
            "air-changes",
            Dimension::Rate,
            "0 /h",
            "Air changes; closed room 0.2 to 0.5, open window 2 to 10",
        ),
        Input::with_default("duration", Dimension::Time, "0 s", "Over which time; 0 at once"),
        Input::optional("time", Dimension::Time, "Also tell the air after this time"),
        Input::optional("limit", Dimension::Fraction, "Share to fall under; else the published"),
        Input::with_default("temperature", Dimension::Temperature, "20 °C", "Of the air"),
        Input::with_default("pressure", Dimension::Pressure, "101.325 kPa", "Of the air"),
    ],
    outputs: &[
        Output { key: "peak_ppm", label: "gas in the air at most", unit: "ppm" },
        Output { key: "peak_percent", label: "the same", unit: "%" },
        Output { key: "oxygen_at_peak_percent", label: "oxygen then", unit: "%" },
        Output { key: "average_8h_ppm", label: "mean of 8 h", unit: "ppm" },
        Output { key: "concentration_at_time_ppm", label: "gas at the time", unit: "ppm" },
        Output { key: "oxygen_at_time_percent", label: "oxygen at the time", unit: "%" },
        Output { key: "limit_ppm", label: "limit", unit: "ppm" },
        Output { key: "time_until_below_limit_s", label: "airing until below it", unit: "s" },
        Output { key: "gas_volume_m3", label: "gas set free", unit: "m³" },
        Output { key: "limit_exceeded_bool", label: "over a published limit", unit: "" },
        Output { key: "danger_bool", label: "immediately dangerous", unit: "" },
    ],
    answer: room_gas,
};

/// What is outdoors already.
fn background(gas: Gas) -> f64 {
    if gas == Gas::CarbonDioxide { room_air::CARBON_DIOXIDE_OUTDOORS } else { 0.0 }
}

/// The share of gas that people may breathe all day.
fn published_limit(gas: Gas) -> f64 {
    let displaced = 1.0 - room_air::OXYGEN_MINIMUM / room_air::OXYGEN_SHARE_OF_AIR;
    let enriched = (room_air::OXYGEN_MAXIMUM - room_air::OXYGEN_SHARE_OF_AIR)
        / (1.0 - room_air::OXYGEN_SHARE_OF_AIR);
    match gas {
        Gas::CarbonDioxide => room_air::CARBON_DIOXIDE_DAY_LIMIT,
        Gas::NitrousOxide => room_air::NITROUS_OXIDE_LIMIT,
        Gas::Nitrogen | Gas::Argon => displaced,
        Gas::Oxygen => enriched,
    }
}

fn room_gas(given: &Given) -> Result<Answer, CalcError> {
    const WORKING_DAY: Time = Time::from_hours(8.0);
    let gas = gas_named(given.word("gas"));
    let (temperature, pressure) = (given.temperature("temperature"), given.pressure("pressure"));
    let (volume, air_changes) = (given.volume("room"), given.rate("air-changes"));
    let room = Room { volume, air_changes, temperature, pressure };
    let release = Release { gas, mass: given.mass("mass"), duration: given.time("duration") };
    let course = room_air::course(&room, &release)?;
    let outdoors = background(gas);
    let limit = given.optional_number("limit").unwrap_or(published_limit(gas));
    let airing = course.time_until_below(limit - outdoors);
    let released = release.mass.kilograms() * cryogen::specific_volume(gas, temperature, pressure)?;
    let at = given.optional_time("time").map(|time| course.share_at(time));
    let answer = Answer::new()
        .with("peak_ppm", PPM * (course.peak + outdoors))
        .with("peak_percent", PER_CENT * (course.peak + outdoors))
        .with("oxygen_at_peak_percent", PER_CENT * course.oxygen_at(course.peak))
        .with("average_8h_ppm", PPM * (course.mean_over(WORKING_DAY) + outdoors))
        .with_optional("concentration_at_time_ppm", at.map(|share| PPM * (share + outdoors)))
        .with_optional("oxygen_at_time_percent", at.map(|c| PER_CENT * course.oxygen_at(c)))
        .with("limit_ppm", PPM * limit)
        .with_optional("time_until_below_limit_s", airing.map(Time::seconds))
        .with("gas_volume_m3", released);
    Ok(verdict(answer, gas, &course))
}

/// Compares the course with the published limits, in remarks and as yes or no.
fn verdict(mut answer: Answer, gas: Gas, course: &Course) -> Answer {
    let peak = course.peak + background(gas);
    let oxygen = course.oxygen_at(course.peak);
    let mut exceeded = peak > published_limit(gas);
    let mut danger = oxygen < room_air::OXYGEN_MINIMUM;
    if danger {
        exceeded = true;
        answer = answer.remark("oxygen falls under 19.5 % (OSHA 29 CFR 1910.134): leave the room");
    }
    if gas == Gas::CarbonDioxide {
        let remark = if peak > room_air::CARBON_DIOXIDE_DANGER {
            danger = true;
            Some("over 40 000 ppm, immediately dangerous (NIOSH IDLH 1994): do not do this")
        } else if peak > room_air::CARBON_DIOXIDE_SHORT_LIMIT {
            Some("over 30 000 ppm, the limit for 15 minutes (NIOSH): air the room, stay out")
        } else if peak > room_air::CARBON_DIOXIDE_DAY_LIMIT {
            Some("over 5000 ppm, the limit for a day's mean (OSHA, NIOSH): air the room")
        } else {
            None
        };
        answer = remark.into_iter().fold(answer, Answer::remark);
    }
    if gas == Gas::NitrousOxide && exceeded {
        answer = answer.remark("over 25 ppm, the mean over the time of use (NIOSH): air the room");
    }
    if gas == Gas::Oxygen && exceeded {
        danger = true;
        answer = answer.remark("oxygen over 23.5 % (from memory of OSHA 29 CFR 1910.146, unverified): clothes burn fiercely");
    }
    answer
        .with("limit_exceeded_bool", f64::from(u8::from(exceeded)))
        .with("danger_bool", f64::from(u8::from(danger)))
        .remark("well-mixed air: cold gas lies at the floor, several times stronger")
}
