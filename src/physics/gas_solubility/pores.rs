//! What vacuum does to the air in fruit.
//!
//! Symbols: e pore share, r compression ratio, p1 vacuum, p2 pressure restored, x share filled.

use crate::physics::{PhysicsError, Validity, positive, water};
use crate::quantity::{Density, Pressure, Temperature};

/// What becomes of the pores.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PoreFilling {
    /// Pressure down to which the air expands: the vacuum, or the vapour pressure of the liquid.
    pub lowest_pressure: Pressure,
    /// Volume of liquid taken up, or of pores closed, per volume of food.
    pub volume_share: f64,
    /// Mass of liquid taken up per mass of food, when it lies in liquid.
    pub mass_gain_share: f64,
    /// Density when the pores fill with liquid.
    pub infused_density: Density,
    /// Density when the pores close in a bag without liquid.
    pub compressed_density: Density,
}

const PORES: Validity =
    Validity { law: "the filling of pores", quantity: "pore share", low: 0.0, high: 0.8, unit: "" };

/// Returns what the pores of a food take up, or how far they close, when vacuum is released.
///
/// `x = e (1 - 1/r)`, `r = p2 / max(p1, p_vapour(t))`: the air left in the pores is pressed together
/// and liquid, or the softened wall, takes its place.
///
/// # Units
/// e and x [m³/m³ of food], p \[Pa\], density [kg/m³].
///
/// # Validity
/// Open pores, held until the bubbles stop, then under liquid at the restored pressure. Closed or
/// clogged pores, swelling of the tissue and capillary suction are left out: the upper end.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for a pore share outside 0 to 0.8;
/// [`PhysicsError::NotPositive`] for pressures or a density of zero;
/// [`PhysicsError::Impossible`] when the pressure restored is not above the vacuum.
///
/// # Source
/// P. Fito, Modelling of vacuum osmotic dehydration of food, J. Food Eng. 22 (1994) 313.
pub fn pores_filled(
    pore_share: f64,
    (vacuum, restored): (Pressure, Pressure),
    temperature: Temperature,
    (food, liquid): (Density, Density),
) -> Result<PoreFilling, PhysicsError> {
    let e = PORES.check(pore_share)?;
    positive("vacuum", vacuum.pascals(), "Pa")?;
    let food_density = positive("density of the food", food.si(), "kg/m³")?;
    let lowest = vacuum.max(water::saturation_pressure(temperature)?);
    if restored <= lowest {
        let because = "the pressure restored must be above the vacuum and the vapour pressure";
        return Err(PhysicsError::Impossible { what: "filling pores", because: because.into() });
    }
    let x = e * (1.0 - lowest / restored);
    let gain = x * liquid.si();
    Ok(PoreFilling {
        lowest_pressure: lowest,
        volume_share: x,
        mass_gain_share: gain / food_density,
        infused_density: Density::from_kilograms_per_cubic_metre(food_density + gain),
        compressed_density: Density::from_kilograms_per_cubic_metre(food_density / (1.0 - x)),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const COLD: Temperature = Temperature::from_celsius(5.0);
    const DENSITIES: (Density, Density) = (Density::from_si(850.0), Density::from_si(1050.0));

    fn at(kilopascals: f64, pores: f64) -> Result<PoreFilling, PhysicsError> {
        let pressures =
            (Pressure::from_kilopascals(kilopascals), Pressure::from_kilopascals(101.325));
        pores_filled(pores, pressures, COLD, DENSITIES)
    }

    #[test]
    fn deeper_vacuum_fills_more_until_the_liquid_boils() {
        let hand = at(20.0, 0.2).unwrap();
        let pump = at(5.0, 0.2).unwrap();
        let deep = at(0.1, 0.2).unwrap();
        assert!(pump.volume_share > hand.volume_share);
        assert!(deep.volume_share < 0.2);
        assert!(deep.lowest_pressure > Pressure::from_pascals(800.0));
        assert!(deep.compressed_density.si() > 850.0);
    }

    #[test]
    fn what_cannot_be_is_refused() {
        assert!(at(20.0, 0.9).is_err());
        assert!(at(0.0, 0.2).is_err());
        assert!(at(150.0, 0.2).is_err());
        let pressures = (Pressure::from_bars(0.1), Pressure::from_bars(1.0));
        assert!(pores_filled(0.2, pressures, COLD, (Density::ZERO, DENSITIES.1)).is_err());
    }
}
