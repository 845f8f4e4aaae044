//! Questions about drying frozen food.

use super::{ALTITUDE, PRESSURE};
use crate::calc::{Answer, CalcError, Family, Given, Input, Kind, Need, Output, Question};
use crate::physics::sublimation::{
    COLLAPSE_TEMPERATURES, CakeResistance, FreezeDrying, FreezerSlab, HeatPath, ICE_CONDUCTIVITY,
    time_limited_by_heat,
};
use crate::quantity::{Conductivity, Density, Dimension, Temperature};

const WATER_SHARE: Input = Input::with_default(
    "water-share",
    Dimension::Fraction,
    "85 %",
    "Share of water in the food, all of it taken as ice",
);
const DENSITY: Input =
    Input::with_default("density", Dimension::Density, "950 kg/m3", "Of the frozen food");

/// A slab in a freeze dryer.
pub(super) const FREEZE_DRY: Question = Question {
    name: "freeze-dry",
    other_names: &["lyophilise", "sublimation-time"],
    family: Family::Drying,
    summary: "How long a frozen slab takes to freeze-dry, and how cold its ice stays",
    example: "freeze-dry --thickness \"10 mm\" --chamber-pressure \"30 Pa\" --shelf-temperature \"20 °C\"",
    inputs: &[
        Input::required("thickness", Dimension::Length, "That dries: half when both faces do"),
        Input::required("chamber-pressure", Dimension::Pressure, "In the chamber"),
        Input::required("shelf-temperature", Dimension::Temperature, "Of shelf, plate or lamp"),
        Input::choice(
            "heat",
            &["through-frozen", "through-dried"],
            "Way of the heat: from a shelf below, or from plates over the dried face",
        ),
        Input::with_default(
            "heat-transfer",
            Dimension::HeatTransfer,
            "20 W/(m2 K)",
            "From shelf to food: tray 20, lamp or warm plate at a distance 8",
        ),
        WATER_SHARE,
        DENSITY,
        Input::with_default(
            "layer-conductivity",
            Dimension::Conductivity,
            "0.035 W/(m K)",
            "Of the dried layer: 0.02 to 0.06",
        ),
        Input::with_default(
            "cake-resistance",
            Dimension::Speed,
            "6.72e4 m/s",
            "Of the dried layer to vapour when it starts (Pa m² s/kg)",
        ),
        Input::with_default(
            "cake-resistance-growth",
            Dimension::Rate,
            "7.68e7 1/s",
            "How it grows per metre of depth",
        ),
        Input::with_default(
            "secondary-share",
            Dimension::Fraction,
            "0.4",
            "Share of the whole time for the last bound water",
        ),
        Input {
            name: "food",
            kind: Kind::Text,
            need: Need::Optional,
            help: "A food whose collapse temperature is published: apple juice, coffee, beef, ...",
        },
    ],
    outputs: &[
        Output { key: "primary_time_s", label: "ice gone after", unit: "s" },
        Output { key: "time_s", label: "with the last bound water", unit: "s" },
        Output { key: "warmest_ice_c", label: "warmest ice", unit: "°C" },
        Output { key: "first_flux_kg_m2s", label: "vapour at first", unit: "kg/(m² s)" },
        Output { key: "last_flux_kg_m2s", label: "vapour at last", unit: "kg/(m² s)" },
        Output {
            key: "heat_limited_time_s",
            label: "if only heat through the dried layer counted",
            unit: "s",
        },
        Output { key: "collapse_temperature_c", label: "collapses above", unit: "°C" },
        Output { key: "margin_to_collapse_k", label: "margin to collapse", unit: "K" },
    ],
    answer: freeze_dry,
};

fn freeze_dry(given: &Given) -> Result<Answer, CalcError> {
    let layer: Conductivity = given.conductivity("layer-conductivity");
    let path = match given.word("heat") {
        "through-dried" => HeatPath::ThroughDried(layer),
        _ => HeatPath::ThroughFrozen(ICE_CONDUCTIVITY),
    };
    let drying = FreezeDrying {
        shelf: given.temperature("shelf-temperature"),
        chamber: given.pressure("chamber-pressure"),
        contact: given.heat_transfer("heat-transfer"),
        path,
        thickness: given.length("thickness"),
        ice: ice_content(given),
        cake: CakeResistance {
            at_surface_m_per_s: given.speed("cake-resistance").si(),
            per_depth_per_s: given.rate("cake-resistance-growth").si(),
        },
    };
    let dried = drying.dry()?;
    let secondary = given.number("secondary-share");
    if !(0.0..=0.9).contains(&secondary) {
        return Err(CalcError::combination("`secondary-share` must be a share from 0 to 0.9"));
    }
    let front = dried.warmest_front;
    let limit = time_limited_by_heat(drying.thickness, drying.ice, layer, drying.shelf, front)?;
    let collapse = collapse_of(given)?;
    Ok(Answer::new()
        .with("primary_time_s", dried.primary.seconds())
        .with("time_s", dried.primary.seconds() / (1.0 - secondary))
        .with("warmest_ice_c", front.celsius())
        .with("first_flux_kg_m2s", dried.flux.0.si())
        .with("last_flux_kg_m2s", dried.flux.1.si())
        .with("heat_limited_time_s", limit.seconds())
        .with_optional("collapse_temperature_c", collapse.map(Temperature::celsius))
        .with_optional("margin_to_collapse_k", collapse.map(|limit| (limit - front).kelvin())))
}

fn ice_content(given: &Given) -> Density {
    given.density("density") * given.number("water-share")
}

/// The lower published collapse temperature of a named food.
fn collapse_of(given: &Given) -> Result<Option<Temperature>, CalcError> {
    if !given.has("food") {
        return Ok(None);
    }
    let name = given.word("food");
    let found = COLLAPSE_TEMPERATURES.iter().find(|(food, _, _)| *food == name);
    let (_, low, _) = found.ok_or_else(|| {
        let known: Vec<&str> = COLLAPSE_TEMPERATURES.iter().map(|(food, _, _)| *food).collect();
        let known = known.join(", ");
        CalcError::combination(format!("no collapse temperature of `{name}`; known: {known}"))
    })?;
    Ok(Some(Temperature::from_celsius(*low)))
}

/// A slab left in the freezer.
pub(super) const FREEZER_DRY: Question = Question {
    name: "freezer-dry",
    other_names: &["freezer-burn", "freezer-sublimation", "atmospheric-freeze-dry"],
    family: Family::Drying,
    summary: "How fast uncovered food dries in a freezer, as a desired slow drying or as freezer burn",
    example: "freezer-dry --thickness \"5 mm\" --freezer-temperature \"-18 °C\" --relative-humidity \"50 %\"",
    inputs: &[
        Input::required("thickness", Dimension::Length, "Of the slice, drying on both faces"),
        Input::with_default(
            "freezer-temperature",
            Dimension::Temperature,
            "-18 °C",
            "Of the air in it",
        ),
        Input::with_default(
            "relative-humidity",
            Dimension::Fraction,
            "70 %",
            "Over ice: frost-free about 70 %, with drying gel near 5 %",
        ),
        Input::with_default("air-speed", Dimension::Speed, "0.3 m/s", "Still 0.05, fan 0.5"),
        PRESSURE,
        ALTITUDE,
        Input::with_default("piece-length", Dimension::Length, "5 cm", "Along the air"),
        WATER_SHARE,
        DENSITY,
        Input::with_default(
            "layer-diffusivity",
            Dimension::Diffusivity,
            "8e-6 m2/s",
            "Of vapour in the dried layer: a third to a half of that in air, 1.9e-5",
        ),
    ],
    outputs: &[
        Output { key: "time_s", label: "dry after", unit: "s" },
        Output { key: "bare_ice_flux_kg_m2s", label: "vapour at first", unit: "kg/(m² s)" },
        Output { key: "bare_ice_loss_g_m2h", label: "the same", unit: "g/(m² h)" },
        Output { key: "ice_temperature_c", label: "ice at", unit: "°C" },
    ],
    answer: freezer_dry,
};

fn freezer_dry(given: &Given) -> Result<Answer, CalcError> {
    let air = crate::physics::evaporation::Surroundings {
        air: given.temperature("freezer-temperature"),
        relative_humidity: given.number("relative-humidity"),
        pressure: super::air_pressure(given)?,
        speed: given.speed("air-speed"),
    };
    let slab = FreezerSlab {
        depth: given.length("thickness") / 2.0,
        length: given.length("piece-length"),
        ice: ice_content(given),
        dried_layer: given.diffusivity("layer-diffusivity"),
    };
    let (flux, ice) = slab.bare_flux(&air)?;
    Ok(Answer::new()
        .with("time_s", slab.time(&air)?.seconds())
        .with("bare_ice_flux_kg_m2s", flux.si())
        .with("bare_ice_loss_g_m2h", flux.si() * 3.6e6)
        .with("ice_temperature_c", ice.celsius()))
}
