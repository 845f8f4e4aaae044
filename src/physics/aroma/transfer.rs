//! How fast a compound crosses the films of liquid and air at a surface.

use crate::physics::constants::WATER_MOLAR_MASS;
use crate::physics::{PhysicsError, positive};
use crate::quantity::{Density, MassFlux, MolarMass, Speed};

/// Exponent of molar mass in the ratio of gas-film coefficients: D ~ M^-1/2 and k ~ D^0.67
/// (from memory: Schwarzenbach, Gschwend & Imboden, Environmental Organic Chemistry, chapter 20).
const GAS_FILM_MASS_EXPONENT: f64 = 0.335;

/// Returns the volatility that a still liquid shows when the compound cannot reach the surface as
/// fast as equilibrium would take it away.
///
/// `1/alpha_shown = 1/alpha + j_w / (k_l rho_w)`: the liquid film and the evaporating water in
/// series, from `d ln m / d ln W = rho_w K / j_w`.
///
/// # Units
/// j_w evaporation flux [kg/(m² s)], k_l liquid-film coefficient [m/s], rho_w [kg/m³].
///
/// # Validity
/// A free surface below the boil, without bubbles.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for an alpha, coefficient or density of zero or less, or a
/// negative flux.
///
/// # Source
/// Two-film theory: Lewis & Whitman 1924, Principles of gas absorption, Ind. Eng. Chem. 16.
pub fn volatility_from_still_liquid(
    alpha: f64,
    evaporation: MassFlux,
    liquid_film: Speed,
    water_density: Density,
) -> Result<f64, PhysicsError> {
    positive("relative volatility", alpha, "")?;
    positive("liquid-film coefficient", liquid_film.si(), "m/s")?;
    positive("density", water_density.si(), "kg/m³")?;
    if evaporation.si() < 0.0 {
        let (quantity, unit) = ("evaporation flux", "kg/(m² s)");
        return Err(PhysicsError::NotPositive { quantity, value: evaporation.si(), unit });
    }
    Ok(1.0 / (1.0 / alpha + evaporation.si() / (liquid_film.si() * water_density.si())))
}

/// Returns the gas-film coefficient of a compound from that of water vapour over the same surface.
///
/// `k_g = k_g,w (M_w / M)^0.335`
///
/// # Units
/// k_g [m/s], M [kg/mol].
///
/// # Validity
/// Air moving over a free surface.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a coefficient or molar mass of zero or less.
///
/// # Source
/// From memory: Schwarzenbach, Gschwend & Imboden, Environmental Organic Chemistry, chapter 20.
pub fn gas_film(of_water: Speed, molar_mass: MolarMass) -> Result<Speed, PhysicsError> {
    positive("gas-film coefficient", of_water.si(), "m/s")?;
    positive("molar mass", molar_mass.si(), "kg/mol")?;
    Ok(of_water * (WATER_MOLAR_MASS / molar_mass.si()).powf(GAS_FILM_MASS_EXPONENT))
}

/// Returns the overall coefficient with which a compound leaves a free surface into clean air.
///
/// `1/K = 1/k_l + 1/(k_g k_aw)`, on the concentration in the liquid.
///
/// # Units
/// K, k_l, k_g [m/s].
///
/// # Validity
/// A free surface without bubbles, high dilution.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a coefficient or partition of zero or less.
///
/// # Source
/// Two-film theory: Liss & Slater 1974, Flux of gases across the air-sea interface, Nature 247.
pub fn overall_transfer(
    liquid_film: Speed,
    gas_film: Speed,
    partition: f64,
) -> Result<Speed, PhysicsError> {
    positive("liquid-film coefficient", liquid_film.si(), "m/s")?;
    positive("gas-film coefficient", gas_film.si(), "m/s")?;
    positive("air-water partition", partition, "")?;
    let resistance = 1.0 / liquid_film.si() + 1.0 / (gas_film.si() * partition);
    Ok(Speed::from_si(1.0 / resistance))
}

#[cfg(test)]
mod tests {
    use super::*;

    const FILM: Speed = Speed::from_si(3e-5);

    #[test]
    fn a_still_liquid_caps_the_most_volatile() {
        let (flux, density) = (MassFlux::from_si(1e-4), Density::from_si(990.0));
        let shown = |alpha| volatility_from_still_liquid(alpha, flux, FILM, density).unwrap();
        assert!((shown(1.0) - 1.0).abs() < 0.01);
        assert!(shown(5e4) < 3e-5 * 990.0 / 1e-4);
        let still = volatility_from_still_liquid(5e4, MassFlux::ZERO, FILM, density).unwrap();
        assert!((still - 5e4).abs() < 1e-6);
        assert!(volatility_from_still_liquid(1.0, -flux, FILM, density).is_err());
        assert!(volatility_from_still_liquid(0.0, flux, FILM, density).is_err());
        assert!(volatility_from_still_liquid(1.0, flux, Speed::ZERO, density).is_err());
        assert!(volatility_from_still_liquid(1.0, flux, FILM, Density::ZERO).is_err());
    }

    #[test]
    fn films_in_series_stay_below_either() {
        let gas = gas_film(Speed::from_si(5e-3), MolarMass::from_grams_per_mole(136.0)).unwrap();
        assert!(gas < Speed::from_si(5e-3));
        assert!(overall_transfer(FILM, gas, 1.0).unwrap() < FILM);
        let slow = overall_transfer(FILM, gas, 1e-6).unwrap();
        assert!((slow.si() / (gas.si() * 1e-6) - 1.0).abs() < 1e-3);
        assert!(overall_transfer(FILM, Speed::ZERO, 1.0).is_err());
        assert!(gas_film(Speed::ZERO, MolarMass::from_grams_per_mole(1.0)).is_err());
    }
}
