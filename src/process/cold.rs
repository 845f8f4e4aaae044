//! What chilling and freezing share: the media, their temperatures, and when the food freezes.

use super::{Batch, ProcessError, Settings};
use crate::physics::PhysicsError;
use crate::physics::cryogen::{Cryogen, boiling_point, sublimation_temperature};
use crate::physics::food_thermal;
use crate::quantity::{HeatTransfer, Temperature};

/// Above this share of dissolved solids the freezing point follows from them, below it from the value
/// that the food states. Estimate: raw fruit and vegetables lie below.
const STRONG: f64 = 0.17;
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
    settings.heat_transfer(match medium {
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
        None => batch.solution()?.freezing_point()?,
    };
    let (low, high) = FREEZING_POINTS;
    if point.celsius() < low {
        let because = format!("it freezes only at {:.1} °C", point.celsius());
        return Err(ProcessError::CannotWork { process: settings.process, because });
    }
    Ok(point.min(Temperature::from_celsius(high)))
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
        return batch.solution()?.ice_share(at.max(Temperature::from_celsius(CURVE_END)));
    }
    let food = batch.thermal_composition();
    let ice = food_thermal::ice_fraction(food, freezing, at)?;
    Ok(if food.water > 0.0 { (ice / food.water).clamp(0.0, 1.0) } else { 0.0 })
}
