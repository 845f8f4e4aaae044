//! Plank's freezing time and its shape factors.

use crate::physics::{PhysicsError, Validity, positive};
use crate::quantity::{
    Conductivity, Density, HeatTransfer, Length, SpecificEnergy, Temperature, Time,
};

/// Ratios of the longer edges of a brick to its shortest.
const EDGE_RATIO_RANGE: Validity = Validity {
    law: "Plank's factors of a brick",
    quantity: "ratio of an edge to the shortest edge",
    low: 1.0,
    high: 1e4,
    unit: "",
};
/// From this root on the closed form of R is used; below it, its limit for a cube.
const CUBE_ROOT: f64 = 1e-6;

/// Plank's shape factors P and R.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlankFactors {
    /// Factor of the surface resistance.
    pub p: f64,
    /// Factor of the resistance of the frozen layer.
    pub r: f64,
}

impl PlankFactors {
    /// Wide slab, by its thickness: Plank 1913.
    pub const SLAB: Self = Self { p: 1.0 / 2.0, r: 1.0 / 8.0 };
    /// Long cylinder, by its diameter: Plank 1913.
    pub const CYLINDER: Self = Self { p: 1.0 / 4.0, r: 1.0 / 16.0 };
    /// Sphere, by its diameter: Plank 1913.
    pub const SPHERE: Self = Self { p: 1.0 / 6.0, r: 1.0 / 24.0 };
}

/// Returns Plank's shape factors of a brick from the ratios of its longer edges to the shortest.
///
/// `P = b1 b2 / (2 (b1 b2 + b1 + b2))`,
/// `R = Q/2 [(m-1)(b1-m)(b2-m) ln(m/(m-1)) - (n-1)(b1-n)(b2-n) ln(n/(n-1))] + (2 b1 + 2 b2 - 1)/72`,
/// with `w = sqrt((b1-b2)(b1-1) + (b2-1)²)`, `Q = 1/(4 w)`, `m = (b1+b2+1+w)/3`, `n = (b1+b2+1-w)/3`.
///
/// # Units
/// Plain numbers; the characteristic size is the shortest edge.
///
/// # Validity
/// Ratios from 1.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for a ratio below one.
///
/// # Source
/// Plank 1941 as given by Ede 1949; Earle, Unit Operations in Food Processing, 2nd ed. 1983, ch. 6.
pub fn plank_factors(b1: f64, b2: f64) -> Result<PlankFactors, PhysicsError> {
    EDGE_RATIO_RANGE.check(b1)?;
    EDGE_RATIO_RANGE.check(b2)?;
    let p = b1 * b2 / (2.0 * (b1 * b2 + b1 + b2));
    let w = ((b1 - b2) * (b1 - 1.0) + (b2 - 1.0).powi(2)).max(0.0).sqrt();
    if w < CUBE_ROOT {
        return Ok(PlankFactors { p, r: PlankFactors::SPHERE.r });
    }
    let part = |x: f64| {
        let over = x - 1.0;
        if over <= 0.0 { 0.0 } else { over * (b1 - x) * (b2 - x) * (x / over).ln() }
    };
    let sum = b1 + b2 + 1.0;
    let difference = part((sum + w) / 3.0) - part((sum - w) / 3.0);
    let r = difference / (8.0 * w) + (2.0 * b1 + 2.0 * b2 - 1.0) / 72.0;
    Ok(PlankFactors { p, r })
}

/// What freezes, for Plank's equation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FrontSolid {
    /// Thickness, diameter or shortest edge.
    pub thickness: Length,
    /// Shape factors.
    pub factors: PlankFactors,
    /// Density.
    pub density: Density,
    /// Latent heat of the food.
    pub latent_heat: SpecificEnergy,
    /// Conductivity of the frozen food.
    pub frozen_conductivity: Conductivity,
    /// Heat transfer at the surface.
    pub heat_transfer: HeatTransfer,
    /// Initial freezing point.
    pub freezing_point: Temperature,
}

/// Returns the time to freeze a food that starts at its freezing point, by Plank.
///
/// `t = rho L / (Tf - Ta) (P a / h + R a² / k)`
///
/// # Units
/// t \[s\], rho \[kg/m³\], L \[J/kg\], T \[K\], a \[m\], h \[W/(m² K)\], k \[W/(m K)\].
///
/// # Validity
/// All heat leaves at the freezing point; pre-cooling and further cooling are left out, so that real
/// times are longer by a quarter to a half.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a size or property of zero or less, or surroundings that are
/// not colder than the freezing point.
///
/// # Source
/// Plank 1913; ASHRAE Handbook of Refrigeration 2006, chapter 10, equation 29.
pub fn freezing_time_plank(
    solid: &FrontSolid,
    surroundings: Temperature,
) -> Result<Time, PhysicsError> {
    let a = positive("thickness or diameter", solid.thickness.metres(), "m")?;
    let h = positive("heat transfer at the surface", solid.heat_transfer.si(), "W/(m² K)")?;
    let k = positive("conductivity of the frozen food", solid.frozen_conductivity.si(), "W/(m K)")?;
    let heat = positive("density", solid.density.si(), "kg/m³")?
        * positive("latent heat", solid.latent_heat.si(), "J/kg")?;
    let below = (solid.freezing_point - surroundings).kelvin();
    let below = positive("freezing point over the surroundings", below, "K")?;
    let PlankFactors { p, r } = solid.factors;
    Ok(Time::from_seconds(heat / below * (p * a / h + r * a * a / k)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ball() -> FrontSolid {
        FrontSolid {
            thickness: Length::from_millimetres(70.0),
            factors: PlankFactors::SPHERE,
            density: Density::from_si(1000.0),
            latent_heat: SpecificEnergy::from_si(250e3),
            frozen_conductivity: Conductivity::from_si(1.2),
            heat_transfer: HeatTransfer::from_si(50.0),
            freezing_point: Temperature::from_celsius(-1.25),
        }
    }

    #[test]
    fn a_brick_grows_into_a_slab_and_a_cube_is_a_sphere() {
        let wide = plank_factors(1e4, 1e4).unwrap();
        assert!((wide.p - 0.5).abs() < 1e-3 && (wide.r - 0.125).abs() < 1e-3, "{wide:?}");
        let cube = plank_factors(1.0, 1.0).unwrap();
        assert!((cube.p - 1.0 / 6.0).abs() < 1e-12 && (cube.r - 1.0 / 24.0).abs() < 1e-12);
        let rod = plank_factors(1.0, 1e4).unwrap();
        assert!((rod.p - 0.25).abs() < 1e-3 && (rod.r - 0.0625).abs() < 5e-3, "{rod:?}");
        assert!(plank_factors(0.9, 2.0).is_err());
        assert!(plank_factors(2.0, 0.9).is_err());
    }

    #[test]
    fn surroundings_warmer_than_the_freezing_point_are_refused() {
        assert!(freezing_time_plank(&ball(), Temperature::from_celsius(0.0)).is_err());
        let cold = Temperature::from_celsius(-40.0);
        assert!(
            freezing_time_plank(&FrontSolid { thickness: Length::ZERO, ..ball() }, cold).is_err()
        );
        assert!(freezing_time_plank(&ball(), cold).unwrap().seconds() > 0.0);
    }
}
