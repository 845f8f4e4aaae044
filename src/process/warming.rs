//! Heat that warms or cools a batch, common to the models that hold a food at a temperature.

use super::heat::expose;
use super::{Batch, EnergyBalance, ProcessError};
use crate::quantity::{Energy, SpecificHeat, Temperature, TemperatureDifference, Time};

/// Returns the heat that brings a batch to a temperature; negative when it is cooled.
pub(super) fn heat_to(batch: &Batch, to: Temperature) -> Result<Energy, ProcessError> {
    Ok(batch.mass() * (batch.heat_capacity()? * (to - batch.temperature)))
}

/// Returns by how much a heat warms a batch.
pub(super) fn rise(batch: &Batch, heat: Energy) -> Result<TemperatureDifference, ProcessError> {
    let capacity: SpecificHeat = batch.heat_capacity()?;
    let kilograms = batch.mass().kilograms();
    let kelvin = if kilograms > 0.0 { heat.joules() / (kilograms * capacity.si()) } else { 0.0 };
    Ok(TemperatureDifference::from_kelvin(kelvin))
}

/// Brings a batch to a temperature, holds it there, and returns the heat that took.
pub(super) fn hold(
    batch: &mut Batch,
    at: Temperature,
    time: Time,
) -> Result<EnergyBalance, ProcessError> {
    let heat = heat_to(batch, at)?;
    batch.temperature = at;
    let dissolved = batch.contents.soluble_solids();
    expose(&mut batch.heat, at, time, dissolved);
    Ok(EnergyBalance { supplied: heat, into_food: heat, ..EnergyBalance::default() })
}
