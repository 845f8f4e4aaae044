//! Aroma that leaves a drying piece with the water.
//!
//! Inside a piece an aroma compound reaches the surface by diffusion, ever slower as the surface
//! dries, so that far less leaves than from a liquid (selective diffusion: Thijssen & Rulkens 1968,
//! De Ingenieur 80, from memory). What is left follows `m / m0 = (W / W0)^(n a / (1 + a))`, a the
//! volatility relative to water and n an exponent that the process entry states.

use crate::physics::aroma::{AirWaterPartition, relative_volatility};
use crate::physics::water::saturation_pressure;
use crate::process::{Batch, ProcessError, Settings};
use crate::quantity::{Density, Temperature, TemperatureDifference};

/// Density of the water in the piece, to the accuracy of the exponent.
const WATER_DENSITY: Density = Density::from_kilograms_per_cubic_metre(980.0);

/// Takes from every marker what leaves while the water falls to a share of itself.
pub(in crate::process) fn leave(
    batch: &mut Batch,
    ratio: f64,
    at: Temperature,
    settings: &Settings<'_>,
) -> Result<(), ProcessError> {
    let exponent = settings.number("aroma_exponent")?;
    let pressure = saturation_pressure(at)?;
    for marker in batch.aroma.iter_mut() {
        let law = AirWaterPartition {
            at_25_c: marker.partition,
            slope: TemperatureDifference::from_kelvin(marker.slope_kelvin),
        };
        let volatility = relative_volatility(law.at(at)?, at, pressure, WATER_DENSITY)?;
        marker.left *= ratio.clamp(0.0, 1.0).powf(exponent * volatility / (1.0 + volatility));
    }
    Ok(())
}
