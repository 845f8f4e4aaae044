//! What chilling and freezing share: the media, their temperatures, and when the food freezes.

use super::{Batch, Component, ProcessError, Settings};
use crate::physics::PhysicsError;
use crate::physics::cryogen::{Cryogen, boiling_point, sublimation_temperature};
use crate::physics::food_thermal;
use crate::quantity::{HeatTransfer, Temperature};

/// Above this share of dissolved solids the freezing point follows from them, below it from the value
/// that the food states. Estimate: raw fruit and vegetables lie below.
const STRONG: f64 = 0.17;
/// Depression of the freezing point by minerals, for each kilogram of them in a kilogram of water \[K\].
/// Milk salts depress it by 2.37 K times milk solids over water (A. Leighton, J. Dairy Sci. 10, 1927,
/// from memory of Goff & Hartel, Ice Cream, 2013), and 8 % of those solids are minerals.
const MINERAL_DEPRESSION: f64 = 2.37 / 0.08;
/// The most minerals of a food, over its water: what lies above counts as other carbohydrate.
/// Estimate: 1.4 % in ice-cream mix, less than 2 % in fruit, vegetables and meat.
const MOST_MINERALS: f64 = 0.02;
/// The freezing curve of solutions is known down to here [°C].
const CURVE_END: f64 = -34.9;
/// Freezing points that [`food_thermal::ice_fraction`] accepts [°C].
const FREEZING_POINTS: (f64, f64) = (-24.9, -0.05);

/// Returns the temperature of a cold medium.
pub(super) fn medium_temperature(
    medium: &str,
    settings: &Settings<'_>,
) -> Result<Temperature, ProcessError> {
    if let Some(stated) = settings.optional("medium_temperature") {
        return Ok(Temperature::from_si(stated));
    }
    let pressure = settings.place.pressure;
    match medium {
        "nitrogen" => Ok(boiling_point(Cryogen::Nitrogen, pressure)?),
        "dry-ice" => Ok(sublimation_temperature(pressure)?),
        "ice-bath" => settings.temperature("ice_bath_temperature"),
        _ => match settings.optional("freezer_temperature") {
            Some(freezer) => Ok(Temperature::from_si(freezer)),
            None => settings.temperature("medium_temperature"),
        },
    }
}

/// Returns the heat transfer between a medium and the surface of the food.
pub(super) fn heat_transfer(
    medium: &str,
    settings: &Settings<'_>,
) -> Result<HeatTransfer, ProcessError> {
    if let Some(stated) = settings.optional("heat_transfer") {
        return Ok(HeatTransfer::from_si(stated));
    }
    let stirred = settings.modes.get("form").is_some_and(|form| form == "stirred-vessel");
    settings.heat_transfer(match medium {
        "ice-bath" if stirred => "pot_wall_transfer",
        "ice-bath" => "ice_bath_transfer",
        "moving-air" => "moving_air_transfer",
        "blast" => "blast_transfer",
        "brine" | "spirit" => "brine_transfer",
        "plate" => "plate_transfer",
        "dry-ice" => "dry_ice_transfer",
        "nitrogen" => "nitrogen_transfer",
        _ => "still_air_transfer",
    })
}

/// Returns the temperature at which the first ice forms.
///
/// The value that the food states stands for it as raw; a syrup or concentrate follows its own
/// dissolved solids.
pub(super) fn freezing_point(
    batch: &Batch,
    settings: &Settings<'_>,
) -> Result<Temperature, ProcessError> {
    let stated = settings.optional("initial_freezing_point").map(Temperature::from_si);
    let strong = batch.contents.soluble_solids() > STRONG;
    let point = match stated.filter(|_| !strong) {
        Some(point) => point,
        None => {
            let point = batch.solution()?.freezing_point()?;
            Temperature::from_kelvin(point.kelvin() - mineral_depression(batch))
        }
    };
    let (low, high) = FREEZING_POINTS;
    if point.celsius() < low {
        let because = format!("it freezes only at {:.1} °C", point.celsius());
        return Err(ProcessError::CannotWork { process: settings.process, because });
    }
    Ok(point.min(Temperature::from_celsius(high)))
}

/// Depression of the freezing point by minerals \[K\].
fn mineral_depression(batch: &Batch) -> f64 {
    let water = batch.contents[Component::Water];
    let minerals = batch.contents[Component::Other];
    let ratio = if water > 0.0 { (minerals / water).min(MOST_MINERALS) } else { 0.0 };
    MINERAL_DEPRESSION * ratio
}

/// Returns the share of the water that is ice at a temperature.
pub(super) fn frozen_share(
    batch: &Batch,
    freezing: Temperature,
    at: Temperature,
) -> Result<f64, PhysicsError> {
    if at >= freezing {
        return Ok(0.0);
    }
    if batch.contents.soluble_solids() > STRONG {
        // Depressions grow alike as the rest is concentrated: sugar's part of the whole.
        let without = batch.solution()?.freezing_point()?.celsius();
        let part = without / (without - mineral_depression(batch));
        let sugar = Temperature::from_celsius((at.celsius() * part).max(CURVE_END));
        return batch.solution()?.ice_share(sugar);
    }
    let food = batch.thermal_composition();
    let ice = food_thermal::ice_fraction(food, freezing, at)?;
    Ok(if food.water > 0.0 { (ice / food.water).clamp(0.0, 1.0) } else { 0.0 })
}
