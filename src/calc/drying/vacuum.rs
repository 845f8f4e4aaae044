//! Questions about evaporating under vacuum.

use super::{ACTIVITY, PER_CENT};
use crate::calc::{Answer, CalcError, Family, Given, Input, Output, Question};
use crate::physics::evaporation::{
    VacuumEvaporator, flash_drop, flash_share, pump_down_time, vapour_volume,
};
use crate::physics::water;
use crate::quantity::{Dimension, Temperature};

/// A rotary evaporator or a flask on a pump.
pub(super) const VACUUM: Question = Question {
    name: "vacuum-evaporate",
    other_names: &["rotary-evaporator", "vacuum-concentrate"],
    family: Family::Drying,
    summary: "How fast and how cold a liquid boils down under vacuum, by bath and condenser",
    example: "vacuum-evaporate --pressure \"50 mbar\" --bath-temperature \"50 °C\" --condenser-temperature \"5 °C\"",
    inputs: &[
        Input::required("pressure", Dimension::Pressure, "That the pump holds"),
        Input::required("bath-temperature", Dimension::Temperature, "Of the water bath"),
        Input::with_default(
            "heat-transfer",
            Dimension::HeatTransfer,
            "300 W/(m2 K)",
            "From bath to liquid: turning flask 300, still flask 150",
        ),
        Input::with_default("heated-area", Dimension::Area, "0.04 m2", "Flask wall in the bath"),
        Input::optional("condenser-temperature", Dimension::Temperature, "Of the coolant"),
        Input::with_default(
            "condenser-heat-transfer",
            Dimension::HeatTransfer,
            "200 W/(m2 K)",
            "From vapour to coolant",
        ),
        Input::with_default("condenser-area", Dimension::Area, "0.12 m2", "Of the cold coil"),
        ACTIVITY,
        Input::optional("evaporate", Dimension::Mass, "Water to take off, for the time it needs"),
    ],
    outputs: &[
        Output { key: "liquid_temperature_c", label: "boils at", unit: "°C" },
        Output { key: "pressure_pa", label: "pressure it settles at", unit: "Pa" },
        Output { key: "evaporation_rate_kg_s", label: "water leaving", unit: "kg/s" },
        Output { key: "evaporation_rate_g_min", label: "water leaving", unit: "g/min" },
        Output {
            key: "condenser_limited_yes_no",
            label: "condenser sets the pace (1 yes, 0 no)",
            unit: "",
        },
        Output { key: "heat_w", label: "heat needed", unit: "W" },
        Output { key: "time_to_evaporate_s", label: "takes", unit: "s" },
    ],
    answer: vacuum,
};

fn vacuum(given: &Given) -> Result<Answer, CalcError> {
    let product = |coefficient: &str, area: &str| {
        given.heat_transfer(coefficient).si() * given.area(area).si()
    };
    let evaporator = VacuumEvaporator {
        pressure: given.pressure("pressure"),
        bath: given.temperature("bath-temperature"),
        heating_w_per_k: product("heat-transfer", "heated-area"),
        condenser: given
            .optional_temperature("condenser-temperature")
            .map(|coolant| (coolant, product("condenser-heat-transfer", "condenser-area"))),
        activity: given.number("water-activity"),
    };
    let state = evaporator.steady()?;
    let boiling = water::saturation_temperature(state.pressure)?;
    let heat = state.rate * water::latent_heat_vaporisation(boiling)?;
    let takes = given.optional_mass("evaporate").map(|mass| (mass / state.rate).seconds());
    Ok(Answer::new()
        .with("liquid_temperature_c", state.liquid.celsius())
        .with("pressure_pa", state.pressure.pascals())
        .with("evaporation_rate_kg_s", state.rate.kilograms_per_second())
        .with("evaporation_rate_g_min", state.rate.grams_per_minute())
        .with("condenser_limited_yes_no", f64::from(u8::from(state.condenser_limited)))
        .with("heat_w", heat.watts())
        .with_optional("time_to_evaporate_s", takes))
}

/// Cooling by boiling under vacuum.
pub(super) const FLASH: Question = Question {
    name: "flash-cool",
    other_names: &["vacuum-cool", "flash"],
    family: Family::Drying,
    summary: "How much water boils off when vacuum cools a food, or how far it cools",
    example: "flash-cool --start-temperature \"50 °C\" --end-temperature \"20 °C\" --mass \"500 g\"",
    inputs: &[
        Input::required("start-temperature", Dimension::Temperature, "Of the food"),
        Input::optional("end-temperature", Dimension::Temperature, "To which it cools"),
        Input::optional("pressure", Dimension::Pressure, "Instead of the end: of the vacuum"),
        Input::optional("share-evaporated", Dimension::Fraction, "Instead of the end: boiled off"),
        Input::with_default("heat-capacity", Dimension::SpecificHeat, "4180 J/(kg K)", "Of food"),
        Input::optional("mass", Dimension::Mass, "Of the food, for the volume of vapour"),
        Input::optional("vessel", Dimension::Volume, "Of the chamber, emptied from one atmosphere"),
        Input::with_default("pumping-time", Dimension::Time, "1 min", "Of one chamber volume"),
    ],
    outputs: &[
        Output { key: "evaporated_fraction", label: "boiled off", unit: "" },
        Output { key: "evaporated_percent", label: "boiled off", unit: "%" },
        Output { key: "end_temperature_c", label: "cools to", unit: "°C" },
        Output { key: "pressure_pa", label: "vacuum needed", unit: "Pa" },
        Output { key: "evaporated_kg", label: "water lost", unit: "kg" },
        Output { key: "vapour_volume_m3", label: "vapour to pump", unit: "m³" },
        Output { key: "pump_down_time_s", label: "pumping until it boils", unit: "s" },
    ],
    answer: flash,
};

fn flash(given: &Given) -> Result<Answer, CalcError> {
    let start = given.temperature("start-temperature");
    let capacity = given.specific_heat("heat-capacity");
    let end = flash_end(given, start)?;
    let share = match given.optional_number("share-evaporated") {
        Some(share) => share,
        None => flash_share(start, end, capacity)?,
    };
    let lost = given.optional_mass("mass").map(|mass| mass * share);
    let vapour = lost.map(|lost| vapour_volume(lost, end)).transpose()?;
    let (boil, normal) = (water::saturation_pressure(start)?, super::air_pressure_standard());
    let pumping = given.optional_volume("vessel").map(|vessel| {
        let speed = vessel.si() / given.time("pumping-time").si();
        pump_down_time(vessel, speed, normal, boil)
    });
    Ok(Answer::new()
        .with("evaporated_fraction", share)
        .with("evaporated_percent", PER_CENT * share)
        .with("end_temperature_c", end.celsius())
        .with("pressure_pa", water::saturation_pressure(end)?.pascals())
        .with_optional("evaporated_kg", lost.map(|lost| lost.kilograms()))
        .with_optional("vapour_volume_m3", vapour.map(|volume| volume.cubic_metres()))
        .with_optional("pump_down_time_s", pumping.transpose()?.map(|time| time.seconds())))
}

fn flash_end(given: &Given, start: Temperature) -> Result<Temperature, CalcError> {
    let end = given.optional_temperature("end-temperature");
    let pressure = given.optional_pressure("pressure");
    match (end, pressure, given.optional_number("share-evaporated")) {
        (Some(end), None, None) => Ok(end),
        (None, Some(pressure), None) => Ok(water::saturation_temperature(pressure)?),
        (None, None, Some(share)) => {
            Ok(start - flash_drop(start, share, given.specific_heat("heat-capacity"))?)
        }
        _ => Err(CalcError::combination(
            "give one of `end-temperature`, `pressure` and `share-evaporated`",
        )),
    }
}
