//! Water and steam on the saturation line, and liquid water at kitchen pressures.
//!
//! Answers at what temperature water boils under a pressure, how much heat its vapour carries, and
//! how heavy, thick and conducting the liquid is. Superheated steam is left out; ice is in
//! [`super::ice`], air with water vapour in [`super::atmosphere`].
//!
//! Parts: `saturation` (the line between liquid and vapour), `liquid` (density, heat capacity and
//! enthalpy), `transport` (viscosity, conductivity, surface tension).

mod liquid;
mod saturation;
mod transport;

pub use liquid::{LiquidWater, liquid};
pub use saturation::{
    latent_heat_vaporisation, saturated_liquid_density, saturated_vapour_density,
    saturation_pressure, saturation_pressure_slope, saturation_temperature,
};
pub use transport::{surface_tension, thermal_conductivity, viscosity};

/// Temperature of the critical point \[K\]: IAPWS R2-83(1992).
const CRITICAL_TEMPERATURE: f64 = 647.096;
/// Density at the critical point [kg/m³]: IAPWS R2-83(1992).
const CRITICAL_DENSITY: f64 = 322.0;
