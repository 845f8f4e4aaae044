//! How much emulsifier droplets need, and how soon they cream.
//!
//! Symbols: m emulsifier, V_d volume of the droplets, s coverage (mass per surface), d₃₂ Sauter mean
//! droplet, v creaming speed, phi volume share of droplets.

use crate::physics::{PhysicsError, Validity, positive};
use crate::quantity::{Length, Mass, Speed, Time, Volume};

/// Coverage of a full layer [kg/m²]: low, typical, high.
///
/// From memory: P. Walstra, Principles of emulsion formation, Chem. Eng. Sci. 48:333, 1993.
pub const LECITHIN_COVER: [f64; 3] = [1.5e-6, 2.5e-6, 3.5e-6];
/// As [`LECITHIN_COVER`], milk protein.
pub const MILK_PROTEIN_COVER: [f64; 3] = [1.5e-6, 2.5e-6, 4e-6];
/// As [`LECITHIN_COVER`], solids of egg yolk.
pub const EGG_YOLK_COVER: [f64; 3] = [3e-6, 5e-6, 8e-6];

/// Volume share of droplets in a cream layer. Estimate: random close packing 0.64, somewhat looser.
pub const CREAM_PACKING: f64 = 0.6;

/// Volume shares of an emulsion that can still cream.
pub const CREAMING_SHARE: Validity = Validity {
    law: "the growth of a cream ring",
    quantity: "volume share of droplets",
    low: 0.0,
    high: CREAM_PACKING,
    unit: "",
};

/// Returns the emulsifier that covers all droplets.
///
/// `m = 6 V_d s / d₃₂`.
///
/// # Units
/// V \[m³\], s [kg/m²], d \[m\], m \[kg\].
///
/// # Validity
/// A full layer, all of the emulsifier at the surface; what stays in the water comes on top.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for any input of zero or less.
///
/// # Source
/// Geometry: the surface of droplets per volume is 6 / d₃₂.
pub fn emulsifier_mass(
    droplets: Volume,
    sauter_mean: Length,
    cover_kg_per_m2: f64,
) -> Result<Mass, PhysicsError> {
    let v = positive("volume of the droplets", droplets.cubic_metres(), "m³")?;
    let d = positive("droplet diameter", sauter_mean.metres(), "m")?;
    let s = positive("coverage", cover_kg_per_m2, "kg/m²")?;
    Ok(Mass::from_kilograms(6.0 * v * s / d))
}

/// Returns the finest droplets that an amount of emulsifier covers; inverse of [`emulsifier_mass`].
///
/// `d₃₂ = 6 V_d s / m`.
///
/// # Units
/// As [`emulsifier_mass`].
///
/// # Validity
/// As [`emulsifier_mass`]; a mixer may not reach it.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for any input of zero or less.
///
/// # Source
/// As [`emulsifier_mass`].
pub fn finest_covered(
    droplets: Volume,
    emulsifier: Mass,
    cover_kg_per_m2: f64,
) -> Result<Length, PhysicsError> {
    let v = positive("volume of the droplets", droplets.cubic_metres(), "m³")?;
    let m = positive("emulsifier", emulsifier.kilograms(), "kg")?;
    let s = positive("coverage", cover_kg_per_m2, "kg/m²")?;
    Ok(Length::from_metres(6.0 * v * s / m))
}

/// Returns the time until a cream ring of a given height stands on an emulsion.
///
/// `t = h (phi_c - phi) / (v phi)`: the ring holds what rose into it, and the emulsion below keeps
/// its strength.
///
/// # Units
/// h \[m\], v [m/s], t \[s\].
///
/// # Validity
/// Droplets of one size that do not join or cluster; phi in [`CREAMING_SHARE`].
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a ring, share or speed of zero or less;
/// [`PhysicsError::OutsideValidity`] for a share at which the emulsion is packed already.
///
/// # Source
/// Volume balance of a rising crowd (G. J. Kynch, Trans. Faraday Soc. 48:166, 1952).
pub fn cream_ring_time(
    ring: Length,
    droplet_share: f64,
    speed: Speed,
) -> Result<Time, PhysicsError> {
    let h = positive("height of the cream ring", ring.metres(), "m")?;
    let phi = positive("volume share of droplets", CREAMING_SHARE.check(droplet_share)?, "")?;
    let v = positive("creaming speed", speed.metres_per_second().abs(), "m/s")?;
    Ok(Time::from_seconds(h * (CREAM_PACKING - phi).max(0.0) / (v * phi)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn emulsifier_and_size_are_inverses() {
        let (oil, size) = (Volume::from_millilitres(300.0), Length::from_micrometres(2.0));
        let mass = emulsifier_mass(oil, size, LECITHIN_COVER[1]).unwrap();
        let back = finest_covered(oil, mass, LECITHIN_COVER[1]).unwrap();
        assert!((back / size - 1.0).abs() < 1e-12);
        assert!(emulsifier_mass(oil, Length::ZERO, 1e-6).is_err());
        assert!(emulsifier_mass(Volume::ZERO, size, 1e-6).is_err());
        assert!(finest_covered(oil, Mass::ZERO, 1e-6).is_err());
        assert!(finest_covered(oil, mass, 0.0).is_err());
    }

    #[test]
    fn a_thin_emulsion_shows_its_ring_late() {
        let (ring, speed) = (Length::from_millimetres(2.0), Speed::from_si(-1e-8));
        let at = |phi| cream_ring_time(ring, phi, speed);
        assert!(at(0.01).unwrap() > at(0.3).unwrap());
        assert!(at(0.7).is_err() && at(0.0).is_err());
        assert!(cream_ring_time(Length::ZERO, 0.1, speed).is_err());
        assert!(cream_ring_time(ring, 0.1, Speed::ZERO).is_err());
    }
}
