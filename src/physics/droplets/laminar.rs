//! Droplet break-up in slow, thick flow.
//!
//! Symbols: Ca capillary number, lambda viscosity of the droplet over that of the liquid around it,
//! G shear rate.

use crate::physics::{PhysicsError, Validity, positive};
use crate::quantity::{Length, Rate, SurfaceTension, Viscosity};

/// Viscosity ratios of Grace's experiments, 1e-6 to 1000, by their decimal logarithm.
pub const VISCOSITY_RATIO: Validity = Validity {
    law: "the break-up curves of Grace",
    quantity: "decimal logarithm of the viscosity ratio",
    low: -6.0,
    high: 3.0,
    unit: "",
};

/// The viscosity ratio above which simple shear only spins a droplet (de Bruijn 1989).
pub const SHEAR_LIMIT_RATIO: f64 = 4.08;

/// How the liquid flows around the droplet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Flow {
    /// Layers slide over each other: gaps, spatulas, whisks in thick food.
    SimpleShear,
    /// The liquid is stretched: narrowing gaps, holes, nozzles.
    PlaneElongation,
}

/// Returns the capillary number at which a droplet breaks; infinite where it never does.
///
/// Shear: `lg Ca = -0.506 - 0.0995 L + 0.124 L² - 0.115 / (L - lg 4.08)`, `L = lg lambda`.
/// Elongation: `Ca = (0.2⁴ + (0.148 lambda^(-1/6))⁴)^(1/4)`.
///
/// # Units
/// None; `Ca = mu_c G d / (2 sigma)`.
///
/// # Validity
/// [`VISCOSITY_RATIO`]; slow change of flow. The shear fit is within about 15 % of Grace's curve
/// above 1e-3; elongation is an estimate within about 35 %.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a ratio of zero or less; [`PhysicsError::OutsideValidity`] for
/// one outside the range.
///
/// # Source
/// Shear: R. A. de Bruijn, thesis, Eindhoven 1989, fitted to H. P. Grace, Chem. Eng. Commun.
/// 14:225-277, 1982 (coefficients from memory). Elongation: limit for thin droplets of E. J. Hinch &
/// A. Acrivos 1979 and Grace's plateau near 0.2 (from memory), joined smoothly (estimate).
pub fn critical_capillary_number(ratio: f64, flow: Flow) -> Result<f64, PhysicsError> {
    let l = VISCOSITY_RATIO.check(positive("viscosity ratio", ratio, "")?.log10())?;
    match flow {
        Flow::SimpleShear if ratio >= SHEAR_LIMIT_RATIO => Ok(f64::INFINITY),
        Flow::SimpleShear => {
            let exponent =
                -0.506 - 0.0995 * l + 0.124 * l * l - 0.115 / (l - SHEAR_LIMIT_RATIO.log10());
            Ok(10f64.powf(exponent))
        }
        Flow::PlaneElongation => {
            let thin = 0.148 * ratio.powf(-1.0 / 6.0);
            Ok((0.2f64.powi(4) + thin.powi(4)).powf(0.25))
        }
    }
}

/// Returns the largest droplet that a slow flow leaves whole; infinite where none breaks.
///
/// `d = 2 Ca sigma / (mu_c G)`.
///
/// # Units
/// sigma [N/m], mu [Pa·s], G [1/s], d \[m\].
///
/// # Validity
/// As [`critical_capillary_number`].
///
/// # Errors
/// As [`critical_capillary_number`]; [`PhysicsError::NotPositive`] for a tension, viscosity or shear
/// rate of zero or less.
///
/// # Source
/// As [`critical_capillary_number`].
pub fn largest_droplet(
    tension: SurfaceTension,
    continuous_viscosity: Viscosity,
    shear: Rate,
    ratio: f64,
    flow: Flow,
) -> Result<Length, PhysicsError> {
    let sigma = positive("interfacial tension", tension.si(), "N/m")?;
    let mu = positive("viscosity of the liquid", continuous_viscosity.si(), "Pa·s")?;
    let g = positive("shear rate", shear.per_second(), "1/s")?;
    let critical = critical_capillary_number(ratio, flow)?;
    Ok(Length::from_metres(2.0 * critical * sigma / (mu * g)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shear_breaks_best_near_equal_viscosities() {
        let at = |ratio| critical_capillary_number(ratio, Flow::SimpleShear).unwrap();
        assert!(at(0.5) < at(0.01) && at(0.5) < at(3.5));
        assert!(at(5.0).is_infinite() && at(4.08).is_infinite());
    }

    #[test]
    fn stretching_breaks_what_shear_cannot() {
        let stretched = critical_capillary_number(100.0, Flow::PlaneElongation).unwrap();
        assert!(stretched < 0.3);
        let mut before = f64::INFINITY;
        for step in 0..=90 {
            let ratio = 10f64.powf(-6.0 + 0.1 * f64::from(step));
            let now = critical_capillary_number(ratio, Flow::PlaneElongation).unwrap();
            assert!(now < before);
            before = now;
        }
    }

    #[test]
    fn inputs_out_of_range_are_refused() {
        assert!(critical_capillary_number(1e-8, Flow::SimpleShear).is_err());
        assert!(critical_capillary_number(0.0, Flow::PlaneElongation).is_err());
        let (sigma, mu) = (SurfaceTension::from_si(5e-3), Viscosity::from_si(1.0));
        assert!(largest_droplet(sigma, mu, Rate::ZERO, 0.1, Flow::SimpleShear).is_err());
        let shear = Rate::from_per_second(1e4);
        assert!(largest_droplet(sigma, Viscosity::ZERO, shear, 0.1, Flow::SimpleShear).is_err());
    }
}
