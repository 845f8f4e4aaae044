//! Ethanol in water: strength, boiling, freezing and burning.
//!
//! Answers how strength by volume, share by mass and density belong together, at what temperature
//! wine or spirit boils under a pressure and what its vapour holds, when it freezes and when its
//! vapour burns. Running a still is left to [`super::distillation`].
//!
//! Parts: `strength` (volume, mass, density), `equilibrium` (liquid and vapour), `pure` (ethanol
//! alone, and heat capacity), `limits` (freezing point, flash point), `cooking` (what a dish keeps).

mod cooking;
mod equilibrium;
mod limits;
mod pure;
mod strength;

pub use cooking::{AlcoholCooking, alcohol_retained};
pub use equilibrium::{
    ActivityCoefficients, Azeotrope, Bubble, activity_coefficients, azeotrope, bubble_point,
    bubble_pressure,
};
pub use limits::{
    LOWER_FLAMMABLE_LIMIT, flash_point, freezing_point, temperature_at_lower_flammable_limit,
};
pub use pure::{ethanol_latent_heat, ethanol_saturation_pressure, heat_capacity};
pub use strength::{
    alcoholic_strength, density, mass_fraction_of_density, mass_fraction_of_strength,
};

use super::Validity;
use super::constants::{ETHANOL_MOLAR_MASS, WATER_MOLAR_MASS};

const MASS_FRACTION: Validity = Validity {
    law: "ethanol in water",
    quantity: "share of ethanol",
    low: 0.0,
    high: 1.0,
    unit: "by mass",
};
const MOLE_FRACTION: Validity = Validity {
    law: "ethanol in water",
    quantity: "share of ethanol",
    low: 0.0,
    high: 1.0,
    unit: "by moles",
};

/// Returns the mole fraction of ethanol for a mass fraction.
///
/// `x = (w / Me) / (w / Me + (1 - w) / Mw)`.
///
/// # Units
/// Shares; molar masses [kg/mol].
///
/// # Validity
/// w from 0 to 1.
///
/// # Source
/// Definition; molar masses from IUPAC 2021 and IAPWS R6-95.
pub fn mole_fraction(mass_fraction: f64) -> f64 {
    let ethanol = mass_fraction / ETHANOL_MOLAR_MASS;
    ethanol / (ethanol + (1.0 - mass_fraction) / WATER_MOLAR_MASS)
}

/// Returns the mass fraction of ethanol for a mole fraction.
///
/// `w = x Me / (x Me + (1 - x) Mw)`.
///
/// # Units
/// Shares; molar masses [kg/mol].
///
/// # Validity
/// x from 0 to 1.
///
/// # Source
/// Definition; molar masses from IUPAC 2021 and IAPWS R6-95.
pub fn mass_fraction(mole_fraction: f64) -> f64 {
    let ethanol = mole_fraction * ETHANOL_MOLAR_MASS;
    ethanol / (ethanol + (1.0 - mole_fraction) * WATER_MOLAR_MASS)
}
