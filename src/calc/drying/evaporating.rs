//! Questions about water leaving a boiling or an open surface.

use super::{
    ACTIVITY, AIR_SPEED, AIR_TEMPERATURE, ALTITUDE, HUMIDITY, PER_CENT, PRESSURE, air_pressure,
    surroundings,
};
use crate::calc::{Answer, CalcError, Family, Given, Input, Output, Question};
use crate::physics::evaporation::{
    HeatedPan, OpenSurface, PanState, boil_off, carrier_flux, chilton_colburn_flux, pan_at_rest,
    still_tank_flux, time_to_boil,
};
use crate::physics::water;
use crate::quantity::{Area, Dimension};

const EFFICIENCY: Input = Input::with_default(
    "efficiency",
    Dimension::Fraction,
    "0.65",
    "Share of the power that does the work: induction 0.65, gas 0.3, plate 0.5",
);
const DIAMETER: Input =
    Input::with_default("diameter", Dimension::Length, "28 cm", "Of the liquid surface");
const TO_EVAPORATE: Input =
    Input::optional("evaporate", Dimension::Mass, "Water to take off, for the time it needs");
const TIME_TO_EVAPORATE: Output = Output { key: "time_to_evaporate_s", label: "takes", unit: "s" };
const RATE: Output = Output { key: "evaporation_rate_kg_s", label: "water leaving", unit: "kg/s" };
const RATE_GRAMS: Output =
    Output { key: "evaporation_rate_g_min", label: "water leaving", unit: "g/min" };

/// How fast a rolling boil reduces.
pub(super) const BOIL_OFF: Question = Question {
    name: "boil-off",
    other_names: &["boil-evaporation", "reduce", "time-to-boil"],
    family: Family::Drying,
    summary: "How fast a rolling boil takes water off, and how long a pot takes to come to the boil",
    example: "boil-off --power \"1800 W\" --efficiency 0.65 --mass \"1 kg\" --start-temperature \"20 °C\"",
    inputs: &[
        Input::required("power", Dimension::Power, "Of the burner"),
        EFFICIENCY,
        PRESSURE,
        ALTITUDE,
        Input::optional("mass", Dimension::Mass, "Water in the pot, for the time to the boil"),
        Input::with_default(
            "start-temperature",
            Dimension::Temperature,
            "20 °C",
            "Of the water when the burner is lit",
        ),
        TO_EVAPORATE,
    ],
    outputs: &[
        RATE,
        RATE_GRAMS,
        Output { key: "boiling_point_c", label: "boils at", unit: "°C" },
        Output { key: "time_to_boil_s", label: "comes to the boil in", unit: "s" },
        TIME_TO_EVAPORATE,
    ],
    answer: boil_off_question,
};

fn boil_off_question(given: &Given) -> Result<Answer, CalcError> {
    let (power, efficiency) = (given.power("power"), given.number("efficiency"));
    let pressure = air_pressure(given)?;
    let rate = boil_off(power, efficiency, pressure)?;
    let start = given.temperature("start-temperature");
    let to_boil = given
        .optional_mass("mass")
        .map(|mass| time_to_boil(mass, start, pressure, power, efficiency))
        .transpose()?;
    let takes = given.optional_mass("evaporate").map(|mass| (mass / rate).seconds());
    Ok(Answer::new()
        .with("evaporation_rate_kg_s", rate.kilograms_per_second())
        .with("evaporation_rate_g_min", rate.grams_per_minute())
        .with("boiling_point_c", water::saturation_temperature(pressure)?.celsius())
        .with_optional("time_to_boil_s", to_boil.map(|time| time.seconds()))
        .with_optional("time_to_evaporate_s", takes))
}

/// How fast water of a known temperature leaves an open surface.
pub(super) const EVAPORATE: Question = Question {
    name: "evaporate",
    other_names: &["open-pan-evaporation", "open-surface", "evaporation"],
    family: Family::Drying,
    summary: "How fast water of a known temperature evaporates from an open surface",
    example: "evaporate --water-temperature \"60 °C\" --air-temperature \"20 °C\" --air-speed \"0.2 m/s\"",
    inputs: &[
        Input::required("water-temperature", Dimension::Temperature, "Of the surface"),
        AIR_TEMPERATURE,
        HUMIDITY,
        AIR_SPEED,
        PRESSURE,
        ALTITUDE,
        DIAMETER,
        ACTIVITY,
        Input::optional(
            "heat-transfer",
            Dimension::HeatTransfer,
            "Between surface and air, for the analogy of Chilton and Colburn",
        ),
    ],
    outputs: &[
        Output {
            key: "open_pan_evaporation_kg_m2s",
            label: "by the formula for pools",
            unit: "kg/(m² s)",
        },
        Output {
            key: "carrier_formula_evaporation_kg_m2s",
            label: "the same, Carrier's formula",
            unit: "kg/(m² s)",
        },
        Output {
            key: "chilton_colburn_evaporation_kg_m2s",
            label: "from heat transfer (Chilton-Colburn)",
            unit: "kg/(m² s)",
        },
        Output {
            key: "air_film_evaporation_kg_m2s",
            label: "from wind and lightness of the air",
            unit: "kg/(m² s)",
        },
        Output {
            key: "tank_rule_evaporation_kg_m2s",
            label: "by the rule for tanks",
            unit: "kg/(m² s)",
        },
        Output {
            key: "heat_transfer_w_m2k",
            label: "heat transfer, surface to air",
            unit: "W/(m² K)",
        },
        RATE,
        RATE_GRAMS,
    ],
    answer: evaporate,
};

fn evaporate(given: &Given) -> Result<Answer, CalcError> {
    let (water, air) = (given.temperature("water-temperature"), surroundings(given)?);
    let diameter = given.length("diameter");
    let activity = given.number("water-activity");
    let carrier = carrier_flux(water, &air)?;
    let analogy = match given.optional_heat_transfer("heat-transfer") {
        Some(heat) => Some(chilton_colburn_flux(water, &air, heat)?.si()),
        None => None,
    };
    let film = OpenSurface { length: diameter, activity }.flux(water, &air);
    let tank = still_tank_flux(water, &air);
    let area = std::f64::consts::PI * diameter.metres().powi(2) / 4.0;
    let mut answer = Answer::new()
        .with("open_pan_evaporation_kg_m2s", carrier.si())
        .with("carrier_formula_evaporation_kg_m2s", carrier.si())
        .with_optional("chilton_colburn_evaporation_kg_m2s", analogy);
    answer = match film {
        Ok((flux, heat)) => {
            let rate = flux * Area::from_square_metres(area);
            answer
                .with("air_film_evaporation_kg_m2s", flux.si())
                .with("heat_transfer_w_m2k", heat.si())
                .with("evaporation_rate_kg_s", rate.kilograms_per_second())
                .with("evaporation_rate_g_min", rate.grams_per_minute())
        }
        Err(error) => answer.remark(format!("no value from wind and lightness: {error}")),
    };
    answer = match tank {
        Ok(flux) => answer.with("tank_rule_evaporation_kg_m2s", flux.si()),
        Err(error) => answer.remark(format!("no value by the rule for tanks: {error}")),
    };
    Ok(answer.remark("published formulas differ by 25 to 30 %, more above 60 °C"))
}

const PAN_OUTPUTS: &[Output] = &[
    Output { key: "liquid_temperature_c", label: "settles at", unit: "°C" },
    RATE,
    RATE_GRAMS,
    Output { key: "evaporation_kg_m2h", label: "per surface and hour", unit: "kg/(m² h)" },
    Output { key: "boiling_yes_no", label: "boils (1 yes, 0 no)", unit: "" },
    Output { key: "heat_to_vapour_percent", label: "heat that makes vapour", unit: "%" },
    TIME_TO_EVAPORATE,
];

/// Where a pan on a burner settles.
pub(super) const PAN: Question = Question {
    name: "pan",
    other_names: &["open-pan", "simmer", "pan-balance"],
    family: Family::Drying,
    summary: "How hot an open pan gets on a burner, and how fast it reduces",
    example: "pan --power \"600 W\" --diameter \"28 cm\" --air-speed \"0.5 m/s\"",
    inputs: &[
        Input::required("power", Dimension::Power, "Of the burner"),
        Input::with_default(
            "efficiency",
            Dimension::Fraction,
            "0.75",
            "Share of the power that enters the liquid: induction 0.75, gas 0.4, plate 0.6",
        ),
        DIAMETER,
        Input::with_default("depth", Dimension::Length, "5 cm", "Of the liquid"),
        AIR_TEMPERATURE,
        HUMIDITY,
        AIR_SPEED,
        PRESSURE,
        ALTITUDE,
        ACTIVITY,
        Input::with_default(
            "wall-heat-transfer",
            Dimension::HeatTransfer,
            "10 W/(m2 K)",
            "From the wall of the pan to the room",
        ),
        TO_EVAPORATE,
    ],
    outputs: PAN_OUTPUTS,
    answer: pan,
};

fn pan(given: &Given) -> Result<Answer, CalcError> {
    let pan = HeatedPan {
        diameter: given.length("diameter"),
        power: given.power("power"),
        efficiency: given.number("efficiency"),
        wall: given.heat_transfer("wall-heat-transfer"),
        depth: given.length("depth"),
        activity: given.number("water-activity"),
    };
    Ok(settled(given, pan.steady(&surroundings(given)?)?))
}

fn settled(given: &Given, state: PanState) -> Answer {
    let takes = given.optional_mass("evaporate").map(|mass| (mass / state.rate).seconds());
    Answer::new()
        .with("liquid_temperature_c", state.temperature.celsius())
        .with("evaporation_rate_kg_s", state.rate.kilograms_per_second())
        .with("evaporation_rate_g_min", state.rate.grams_per_minute())
        .with("evaporation_kg_m2h", state.flux.si() * 3600.0)
        .with("boiling_yes_no", f64::from(u8::from(state.boiling)))
        .with("heat_to_vapour_percent", PER_CENT * state.share_as_vapour)
        .with_optional("time_to_evaporate_s", takes.filter(|seconds| *seconds > 0.0))
}

/// A tray without heat.
pub(super) const COLD: Question = Question {
    name: "evaporate-cold",
    other_names: &["tray", "cold-evaporation", "dehydrator-tray"],
    family: Family::Drying,
    summary: "How fast an unheated tray of liquid reduces in moving air, and how cold it stays",
    example: "evaporate-cold --air-temperature \"50 °C\" --relative-humidity \"10 %\" --air-speed \"1.5 m/s\"",
    inputs: &[
        DIAMETER,
        AIR_TEMPERATURE,
        HUMIDITY,
        AIR_SPEED,
        PRESSURE,
        ALTITUDE,
        ACTIVITY,
        TO_EVAPORATE,
    ],
    outputs: PAN_OUTPUTS,
    answer: cold,
};

fn cold(given: &Given) -> Result<Answer, CalcError> {
    let activity = given.number("water-activity");
    let state = pan_at_rest(given.length("diameter"), activity, &surroundings(given)?)?;
    Ok(settled(given, state))
}
