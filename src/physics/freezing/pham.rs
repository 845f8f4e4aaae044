//! Pham's freezing time, with pre-cooling and cooling after freezing.

use crate::physics::{PhysicsError, Validity, positive};
use crate::quantity::{
    Conductivity, Density, HeatTransfer, Length, SpecificEnergy, SpecificHeat, Temperature, Time,
};

/// Surroundings within which Pham compared his formula with measurements.
pub const PHAM_PUBLISHED: Validity = Validity {
    law: "Pham's freezing time",
    quantity: "temperature of the surroundings",
    low: -45.0,
    high: -15.0,
    unit: "°C",
};
/// Surroundings for which it is evaluated: a colder bath changes only the driving difference.
const SURROUNDINGS_RANGE: Validity = Validity { low: -80.0, high: -5.0, ..PHAM_PUBLISHED };
/// Ratios of edges in the geometric factor.
const RATIO_RANGE: Validity = Validity {
    law: "directions of heat flow in freezing",
    quantity: "ratio of an edge to the shortest edge",
    low: 1.0,
    high: 1e4,
    unit: "",
};

/// What freezes, for Pham's equation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FreezingSolid {
    /// Half thickness or radius: the shortest way from the centre to the surface.
    pub half_thickness: Length,
    /// Equivalent directions of heat flow: 1 slab, 2 cylinder, 3 sphere, see [`heat_flow_dimensions`].
    pub dimensions: f64,
    /// Density.
    pub density: Density,
    /// Latent heat of the food.
    pub latent_heat: SpecificEnergy,
    /// Heat capacity before freezing.
    pub unfrozen_heat_capacity: SpecificHeat,
    /// Heat capacity after freezing.
    pub frozen_heat_capacity: SpecificHeat,
    /// Conductivity of the frozen food.
    pub frozen_conductivity: Conductivity,
    /// Heat transfer at the surface.
    pub heat_transfer: HeatTransfer,
}

/// Returns the time to freeze a food from a start to a final temperature of its centre, by Pham.
///
/// `t = r / (E h) (dH1 / dT1 + dH2 / dT2) (1 + Bi / 2)`, `Bi = h r / k`, with
/// `Tm = 1.8 + 0.263 Tc + 0.105 Ta`, `dH1 = rho cu (Ti - Tm)`, `dT1 = (Ti + Tm) / 2 - Ta`,
/// `dH2 = rho (L + cf (Tm - Tc))`, `dT2 = Tm - Ta`.
///
/// # Units
/// t \[s\], r \[m\], h \[W/(m² K)\], k \[W/(m K)\], dH \[J/m³\], L \[J/kg\], c \[J/(kg K)\], T \[°C\].
///
/// # Validity
/// Watery foods (over 55 % water); surroundings -80 °C to -5 °C, compared with measurements within
/// [`PHAM_PUBLISHED`], where the error is about 10 %; surroundings colder than the final centre.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a size or property of zero or less, a start below the mean
/// freezing temperature, a final centre above it, or surroundings that are not colder than the final centre;
/// [`PhysicsError::OutsideValidity`] for other surroundings.
///
/// # Source
/// Pham, Simplified equation for predicting the freezing time of foodstuffs, J. Food Technology 21,
/// 1986; ASHRAE Handbook of Refrigeration 2006, chapter 10, equations 41 to 45.
pub fn freezing_time_pham(
    solid: &FreezingSolid,
    (start, centre): (Temperature, Temperature),
    surroundings: Temperature,
) -> Result<Time, PhysicsError> {
    let r = positive("half thickness or radius", solid.half_thickness.metres(), "m")?;
    let h = positive("heat transfer at the surface", solid.heat_transfer.si(), "W/(m² K)")?;
    let k = positive("conductivity of the frozen food", solid.frozen_conductivity.si(), "W/(m K)")?;
    let rho = positive("density", solid.density.si(), "kg/m³")?;
    let latent = positive("latent heat", solid.latent_heat.si(), "J/kg")?;
    let e = positive("directions of heat flow", solid.dimensions, "")?;
    let ta = SURROUNDINGS_RANGE.check(surroundings.celsius())?;
    let (ti, tc) = (start.celsius(), centre.celsius());
    positive("final centre over the surroundings", tc - ta, "K")?;
    let tm = 1.8 + 0.263 * tc + 0.105 * ta;
    let above = positive("start over the mean freezing temperature", ti - tm, "K")?;
    let cooling = rho * solid.unfrozen_heat_capacity.si() * above / ((ti + tm) / 2.0 - ta);
    positive("mean freezing temperature over the final centre", tm - tc, "K")?;
    let frozen = rho * (latent + solid.frozen_heat_capacity.si() * (tm - tc));
    let freezing =
        frozen / positive("mean freezing temperature over the surroundings", tm - ta, "K")?;
    let biot = h * r / k;
    Ok(Time::from_seconds(r / (e * h) * (cooling + freezing) * (1.0 + biot / 2.0)))
}

/// Returns the equivalent directions of heat flow of a brick, or of a can with equal edges.
///
/// `E = 1 + E1 + E2`, `E1 = X1 / b1 + (1 - X1) 0.73 / b1^2.50`,
/// `E2 = X2 / b2 + (1 - X2) 0.50 / b2^3.69`, `Xi = xi / (Bi^1.34 + xi)`, `xi = 2.32 / bi^1.77`.
///
/// # Units
/// Plain numbers; Bi = h r / k with half the shortest edge.
///
/// # Validity
/// Edge ratios from 1; b1 is the smaller.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for a ratio below one; [`PhysicsError::NotPositive`] for a Biot
/// number of zero or less.
///
/// # Source
/// Cleland, Cleland & Earle 1987 as in ASHRAE Handbook of Refrigeration 2006, chapter 10, equations
/// 47 to 50 (from memory).
pub fn heat_flow_dimensions(biot: f64, b1: f64, b2: f64) -> Result<f64, PhysicsError> {
    let bi = positive("Biot number", biot, "")?;
    let (b1, b2) = (RATIO_RANGE.check(b1)?, RATIO_RANGE.check(b2)?);
    let (b1, b2) = (b1.min(b2), b1.max(b2));
    let weight = |b: f64| {
        let x = 2.32 / b.powf(1.77);
        x / (bi.powf(1.34) + x)
    };
    let (x1, x2) = (weight(b1), weight(b2));
    let e1 = x1 / b1 + (1.0 - x1) * 0.73 / b1.powf(2.50);
    let e2 = x2 / b2 + (1.0 - x2) * 0.50 / b2.powf(3.69);
    Ok(1.0 + e1 + e2)
}

#[cfg(test)]
mod tests {
    use super::*;

    const SLAB: FreezingSolid = FreezingSolid {
        half_thickness: Length::from_millimetres(10.0),
        dimensions: 1.0,
        density: Density::from_si(1000.0),
        latent_heat: SpecificEnergy::from_si(250e3),
        unfrozen_heat_capacity: SpecificHeat::from_si(3600.0),
        frozen_heat_capacity: SpecificHeat::from_si(1900.0),
        frozen_conductivity: Conductivity::from_si(1.5),
        heat_transfer: HeatTransfer::from_si(10.0),
    };

    fn time(
        solid: &FreezingSolid,
        start: f64,
        centre: f64,
        air: f64,
    ) -> Result<Time, PhysicsError> {
        let [start, centre, air] = [start, centre, air].map(Temperature::from_celsius);
        freezing_time_pham(solid, (start, centre), air)
    }

    #[test]
    fn a_warmer_start_and_a_colder_centre_take_longer() {
        let base = time(&SLAB, 5.0, -10.0, -18.0).unwrap();
        assert!(time(&SLAB, 20.0, -10.0, -18.0).unwrap() > base);
        assert!(time(&SLAB, 5.0, -15.0, -18.0).unwrap() > base);
        assert!(time(&SLAB, 5.0, -10.0, -30.0).unwrap() < base);
    }

    #[test]
    fn conditions_that_cannot_freeze_are_refused() {
        assert!(time(&SLAB, 20.0, -10.0, -4.0).is_err());
        assert!(time(&SLAB, 20.0, -20.0, -18.0).is_err());
        assert!(time(&SLAB, -10.0, -12.0, -18.0).is_err());
        let thin = FreezingSolid { half_thickness: Length::ZERO, ..SLAB };
        assert!(time(&thin, 20.0, -10.0, -18.0).is_err());
    }

    #[test]
    fn a_cube_without_inner_resistance_has_three_directions_and_a_plate_one() {
        assert!((heat_flow_dimensions(1e-6, 1.0, 1.0).unwrap() - 3.0).abs() < 1e-3);
        assert!((heat_flow_dimensions(1.0, 1e3, 1e4).unwrap() - 1.0).abs() < 1e-3);
        assert!(heat_flow_dimensions(1.0, 0.5, 1.0).is_err());
        assert!(heat_flow_dimensions(0.0, 1.0, 1.0).is_err());
    }
}
