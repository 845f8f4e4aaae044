//! How clear a liquid looks that still holds some particles.
//!
//! Symbols: c beam attenuation, phi volume share of particles, d₃₂ Sauter mean diameter, Q extinction
//! efficiency, lambda wavelength in the liquid.

use std::f64::consts::PI;

use crate::physics::{PhysicsError, Validity, positive};
use crate::quantity::Length;

/// Wavelength of green light in water: 550 nm, where the eye is most sensitive (CIE 1924), over the
/// refractive index of water 1.333.
const GREEN_LIGHT_IN_WATER: Length = Length::from_micrometres(0.55 / 1.333);
/// The distance at which a black target vanishes, times the beam attenuation. From memory:
/// R. J. Davies-Colley & D. G. Smith, J. Am. Water Resources Assoc. 37:1085, 2001: 4.8.
const BLACK_TARGET: f64 = 4.8;
/// Beam attenuation per unit of turbidity [1/m]. Estimate within a factor of two: rivers whose black
/// target range is about 3.7 m over their turbidity.
const ATTENUATION_PER_NTU: f64 = 1.3;

/// Refractive indices, relative to water, for which the extinction law was derived.
pub const RELATIVE_INDEX: Validity = Validity {
    law: "the extinction law of van de Hulst",
    quantity: "refractive index relative to the liquid",
    low: 1.0,
    high: 2.0,
    unit: "",
};

/// How a cloudy liquid looks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Clarity {
    /// Beam attenuation [1/m].
    pub attenuation_per_m: f64,
    /// Estimated turbidity \[NTU\].
    pub turbidity_ntu: f64,
    /// Estimated depth through which a dark target is still seen.
    pub sight: Length,
}

/// Returns the extinction efficiency of a sphere by anomalous diffraction.
///
/// `Q = 2 - 4/p sin p + 4/p² (1 - cos p)`, `p = 2 pi d (m - 1) / lambda`.
///
/// # Units
/// d \[m\], lambda \[m\], m and Q none.
///
/// # Validity
/// [`RELATIVE_INDEX`]; best near 1, d well above lambda; it falls off too fast below 0.2 µm.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a diameter of zero or less; [`PhysicsError::OutsideValidity`]
/// for an index outside the range.
///
/// # Source
/// H. C. van de Hulst, Light Scattering by Small Particles, 1957, section 11.22.
pub fn extinction_efficiency(diameter: Length, relative_index: f64) -> Result<f64, PhysicsError> {
    /// Below this phase shift the series p²/2 is used; the closed form loses digits there.
    const SMALL_SHIFT: f64 = 1e-3;
    let d = positive("particle diameter", diameter.metres(), "m")?;
    let m = RELATIVE_INDEX.check(relative_index)?;
    let p = 2.0 * PI * d * (m - 1.0) / GREEN_LIGHT_IN_WATER.metres();
    Ok(if p < SMALL_SHIFT {
        0.5 * p * p
    } else {
        2.0 - 4.0 / p * p.sin() + 4.0 / (p * p) * (1.0 - p.cos())
    })
}

/// Returns how clear a liquid with a small share of particles looks.
///
/// `c = 3/2 Q phi / d₃₂`; sight `4.8 / c`; turbidity `c / 1.3`.
///
/// # Units
/// c [1/m], d₃₂ \[m\], sight \[m\], turbidity \[NTU\].
///
/// # Validity
/// Thin suspensions without colour; turbidity is an estimate within a factor of two.
///
/// # Errors
/// As [`extinction_efficiency`]; [`PhysicsError::Impossible`] for a share outside 0 to 1.
///
/// # Source
/// Extinction: van de Hulst 1957; sight: Davies-Colley & Smith 2001 (from memory); turbidity:
/// estimate.
pub fn clarity(
    solids_share: f64,
    sauter_mean: Length,
    relative_index: f64,
) -> Result<Clarity, PhysicsError> {
    if !(0.0..=1.0).contains(&solids_share) {
        let because = format!("the volume share of particles is {solids_share}");
        return Err(PhysicsError::Impossible { what: "clarity", because });
    }
    let q = extinction_efficiency(sauter_mean, relative_index)?;
    let attenuation_per_m = 1.5 * q * solids_share / sauter_mean.metres();
    Ok(Clarity {
        attenuation_per_m,
        turbidity_ntu: attenuation_per_m / ATTENUATION_PER_NTU,
        sight: Length::from_metres(BLACK_TARGET / attenuation_per_m),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn large_particles_take_out_twice_their_shadow() {
        let q = extinction_efficiency(Length::from_millimetres(1.0), 1.05).unwrap();
        assert!((q - 2.0).abs() < 0.02);
        let tiny = extinction_efficiency(Length::from_micrometres(0.001), 1.05).unwrap();
        assert!(tiny > 0.0 && tiny < 1e-5);
    }

    #[test]
    fn the_series_meets_the_closed_form() {
        let at =
            |nm: f64| extinction_efficiency(Length::from_micrometres(1e-3 * nm), 1.05).unwrap();
        // The phase shift is 1e-3 at 1.313 nm.
        assert!((at(1.3136) / at(1.3126) - (1.3136f64 / 1.3126).powi(2)).abs() < 1e-3);
    }

    #[test]
    fn finer_and_more_cloud_is_less_clear() {
        let sight =
            |share, um| clarity(share, Length::from_micrometres(um), 1.05).unwrap().sight.metres();
        assert!(sight(1e-3, 20.0) > sight(1e-2, 20.0));
        assert!(sight(1e-3, 100.0) > sight(1e-3, 20.0));
        assert!(sight(0.0, 20.0).is_infinite());
    }

    #[test]
    fn impossible_inputs_are_refused() {
        let d = Length::from_micrometres(1.0);
        assert!(clarity(1.5, d, 1.05).is_err());
        assert!(extinction_efficiency(Length::ZERO, 1.05).is_err());
        assert!(extinction_efficiency(d, 0.9).is_err());
    }
}
