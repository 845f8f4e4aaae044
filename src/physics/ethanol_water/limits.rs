//! When ethanol in water freezes, and when its vapour burns.
//!
//! Symbols: w mass fraction of ethanol, x mole fraction, t temperature.

use super::pure::ethanol_saturation_pressure;
use super::{MASS_FRACTION, bubble_pressure, mole_fraction};
use crate::physics::constants::STANDARD_ATMOSPHERE;
use crate::physics::{PhysicsError, Validity, solve};
use crate::quantity::Temperature;

/// Share by volume of ethanol vapour in air below which it does not burn: NFPA 325 (1994) and NIOSH
/// Pocket Guide to Chemical Hazards, ethyl alcohol (both from memory).
pub const LOWER_FLAMMABLE_LIMIT: f64 = 0.033;

/// Flash point of ethanol, closed cup [°C]: from memory, safety data sheets of suppliers; handbooks
/// give 12 °C to 17 °C.
const ETHANOL_FLASH_POINT: f64 = 14.0;

const FREEZING_SHARE: Validity = Validity {
    law: "the freezing point of ethanol in water",
    quantity: "share of ethanol",
    low: 0.0,
    high: 0.857,
    unit: "by mass",
};
/// Mass fraction at which the polynomial is centred: Melinder 2010.
const FREEZING_CENTRE: f64 = 0.292_361;
/// Coefficients of the polynomial [°C]: Melinder, Properties of Secondary Working Fluids for Indirect
/// Systems, 2nd edition, IIR 2010, ethyl alcohol, up to 60 % by mass.
const FREEZING: [f64; 6] = [-19.41, -95.40, -26.48, 385.1, -28.58, -1670.0];
/// Below this mass fraction the freezing point falls in proportion, as in every weak solution.
const WEAK: f64 = 0.02;
/// Mass fraction and freezing point [°C] above the polynomial's range: Engineering ToolBox, Ethanol
/// Freeze Protected Water Solutions, 80 % and 90 % by volume, printed to whole degrees.
const STRONG: [(f64, f64); 2] = [(0.7348, -59.0), (0.8567, -73.0)];
/// Upper end of the polynomial: Melinder 2010.
const POLYNOMIAL_END: f64 = 0.6;

/// Returns the temperature at which ice begins to form in ethanol and water.
///
/// `t = Σ ck (w - 0.292361)ᵏ` up to 60 % by mass, a straight line to 0 °C below 2 %, straight lines
/// through printed values above 60 %.
///
/// # Units
/// w as a share, t [°C].
///
/// # Validity
/// Up to 85.7 % by mass (90 % by volume). Above 60 % by mass it is good to 3 K only. Sugar lowers the
/// freezing point further.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] above that.
///
/// # Source
/// Melinder 2010; above 60 % by mass Engineering ToolBox, Ethanol Freeze Protected Water Solutions.
pub fn freezing_point(mass_fraction: f64) -> Result<Temperature, PhysicsError> {
    let w = FREEZING_SHARE.check(mass_fraction)?;
    let line = |(w0, t0): (f64, f64), (w1, t1): (f64, f64)| t0 + (t1 - t0) * (w - w0) / (w1 - w0);
    let celsius = if w < WEAK {
        line((0.0, 0.0), (WEAK, freezing_polynomial(WEAK)))
    } else if w <= POLYNOMIAL_END {
        freezing_polynomial(w)
    } else if w <= STRONG[0].0 {
        line((POLYNOMIAL_END, freezing_polynomial(POLYNOMIAL_END)), STRONG[0])
    } else {
        line(STRONG[0], STRONG[1])
    };
    Ok(Temperature::from_celsius(celsius))
}

fn freezing_polynomial(w: f64) -> f64 {
    FREEZING.iter().rev().fold(0.0, |sum, c| sum * (w - FREEZING_CENTRE) + c)
}

/// Returns the temperature at which the vapour over a liquid reaches a partial pressure of ethanol.
fn temperature_of_partial_pressure(
    mass_fraction: f64,
    partial_pressure: f64,
) -> Result<Temperature, PhysicsError> {
    const TOLERANCE: f64 = 1e-13;
    const COLDEST: f64 = 273.15;
    const HOTTEST: f64 = 373.15;
    let x = mole_fraction(MASS_FRACTION.check(mass_fraction)?);
    let hottest = bubble_pressure(x, Temperature::from_kelvin(HOTTEST))?;
    if hottest.vapour_mole_fraction * hottest.pressure.pascals() < partial_pressure {
        let because = "a liquid this weak gives too little ethanol, even at 100 °C".to_owned();
        return Err(PhysicsError::Impossible { what: "a vapour that burns", because });
    }
    let kelvin =
        solve::root("temperature at which the vapour burns", COLDEST, HOTTEST, TOLERANCE, |t| {
            bubble_pressure(x, Temperature::from_kelvin(t)).map_or(f64::NAN, |bubble| {
                bubble.vapour_mole_fraction * bubble.pressure.pascals() - partial_pressure
            })
        })?;
    Ok(Temperature::from_kelvin(kelvin))
}

/// Returns the temperature at which the vapour over a liquid first makes a burning mixture with air.
///
/// The t at which `x γe pe(t) = 0.033 · 101 325 Pa`.
///
/// # Units
/// w as a share, t \[K\].
///
/// # Validity
/// Still, saturated air at one atmosphere; liquids that burn between 0 °C and 100 °C.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for a share outside 0 to 1; [`PhysicsError::Impossible`] for a
/// liquid too weak to burn.
///
/// # Source
/// Limit: [`LOWER_FLAMMABLE_LIMIT`]; vapour: [`bubble_pressure`].
pub fn temperature_at_lower_flammable_limit(
    mass_fraction: f64,
) -> Result<Temperature, PhysicsError> {
    temperature_of_partial_pressure(mass_fraction, LOWER_FLAMMABLE_LIMIT * STANDARD_ATMOSPHERE)
}

/// Returns the flash point of ethanol in water, closed cup.
///
/// The t at which the vapour over the mixture holds as much ethanol as over pure ethanol at its
/// flash point: `x γe pe(t) = pe(14 °C)`.
///
/// # Units
/// w as a share, t \[K\].
///
/// # Validity
/// Within 4 K of printed values from 5 % to 100 % by mass; one atmosphere.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for a share outside 0 to 1; [`PhysicsError::Impossible`] for a
/// liquid too weak to flash.
///
/// # Source
/// Method: Liaw & Chiu, J. Hazard. Mater. 101:83 (2003), one burning component (from memory).
pub fn flash_point(mass_fraction: f64) -> Result<Temperature, PhysicsError> {
    let pure = ethanol_saturation_pressure(Temperature::from_celsius(ETHANOL_FLASH_POINT))?;
    temperature_of_partial_pressure(mass_fraction, pure.pascals())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_freezing_point_falls_without_a_jump() {
        let mut before = 1e-9;
        for step in 0..=857 {
            let t = freezing_point(f64::from(step) / 1000.0).unwrap().celsius();
            assert!(t < before && before - t < 0.3, "{step}: {t} after {before}");
            before = t;
        }
    }

    #[test]
    fn stronger_spirit_flashes_colder() {
        let mut before = f64::INFINITY;
        for step in 1..=20 {
            let w = f64::from(step) / 20.0;
            let flash = flash_point(w).unwrap().celsius();
            let limit = temperature_at_lower_flammable_limit(w).unwrap().celsius();
            assert!(flash < before && limit < flash, "{w}: {flash}, {limit}");
            before = flash;
        }
    }

    #[test]
    fn pure_ethanol_flashes_at_its_flash_point() {
        let pure = flash_point(1.0).unwrap().celsius();
        assert!((pure - ETHANOL_FLASH_POINT).abs() < 1e-6, "{pure}");
    }

    #[test]
    fn shares_out_of_range_are_refused() {
        assert!(freezing_point(0.95).is_err());
        assert!(flash_point(1.5).is_err());
        assert!(matches!(flash_point(0.0), Err(PhysicsError::Impossible { .. })));
        let weak = temperature_at_lower_flammable_limit(0.0005);
        assert!(matches!(weak, Err(PhysicsError::Impossible { .. })));
    }
}
