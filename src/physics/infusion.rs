//! Diffusion of a flavour into or out of thin pieces.
//!
//! Symbols: D diffusivity, l half of the thickness, t time, f share of the way to equilibrium.

use crate::physics::{PhysicsError, positive};
use crate::quantity::{Diffusivity, Length, Temperature, Time};

use std::f64::consts::PI;

/// Terms of the series; ten leave less than 1e-12 from the switch-over on.
const TERMS: u32 = 10;
/// Below this Fourier number the law of early times is used, which is exact to 1e-4 there.
const EARLY: f64 = 0.1;

/// Returns how far a sheet in well-stirred liquid has come to equilibrium.
///
/// `f = 1 - Σ 8 / ((2n+1)² π²) exp(-(2n+1)² π² D t / (4 l²))`; at first `f = 2 sqrt(D t / (π l²))`.
///
/// # Units
/// D [m²/s], l \[m\], t \[s\], f as a share.
///
/// # Validity
/// A sheet wetted on both sides, much liquid, constant D, nothing that hinders passage at the surface.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a diffusivity or thickness of zero or less, or a time below zero.
///
/// # Source
/// J. Crank, The Mathematics of Diffusion, 2nd ed., 1975, equations 4.18 and 4.20.
pub fn share_of_equilibrium(
    diffusivity: Diffusivity,
    half_thickness: Length,
    time: Time,
) -> Result<f64, PhysicsError> {
    let d = positive("diffusivity", diffusivity.si(), "m²/s")?;
    let l = positive("half of the thickness", half_thickness.metres(), "m")?;
    let t = time.seconds();
    if t.is_nan() || t < 0.0 {
        return Err(PhysicsError::NotPositive { quantity: "time", value: t, unit: "s" });
    }
    let fourier = d * t / (l * l);
    if fourier < EARLY {
        return Ok(2.0 * (fourier / PI).sqrt());
    }
    let term = |n: u32| {
        let odd = f64::from(2 * n + 1) * PI;
        8.0 / (odd * odd) * (-odd * odd * fourier / 4.0).exp()
    };
    Ok(1.0 - (0..TERMS).map(term).sum::<f64>())
}

/// Returns a diffusivity in water at another temperature.
///
/// `D = D0 T/T0 µ(T0)/µ(T)`, the viscosity of water as `µ = 2.414e-5 Pa·s 10^(247.8 / (T - 140))`.
///
/// # Units
/// D [m²/s], T \[K\], µ [Pa·s].
///
/// # Validity
/// 0 °C to 100 °C; a tissue that heat softens lets flavour through faster than that.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for temperatures beyond that.
///
/// # Source
/// Stokes-Einstein relation; viscosity within 2.5 %: T. Al-Shemmeri, Engineering Fluid Mechanics,
/// 2012, p. 17 (from memory).
pub fn diffusivity_at(
    known: Diffusivity,
    known_at: Temperature,
    wanted_at: Temperature,
) -> Result<Diffusivity, PhysicsError> {
    const LIQUID: crate::physics::Validity = crate::physics::Validity {
        law: "diffusion in water",
        quantity: "temperature",
        low: -0.01,
        high: 105.0,
        unit: "°C",
    };
    const VISCOSITY: (f64, f64, f64) = (2.414e-5, 247.8, 140.0);
    LIQUID.check(known_at.celsius())?;
    LIQUID.check(wanted_at.celsius())?;
    let viscosity = |t: f64| VISCOSITY.0 * 10.0_f64.powf(VISCOSITY.1 / (t - VISCOSITY.2));
    let (t0, t) = (known_at.kelvin(), wanted_at.kelvin());
    Ok(known * (t / t0 * viscosity(t0) / viscosity(t)))
}

#[cfg(test)]
mod tests {
    use super::*;

    const D: Diffusivity = Diffusivity::from_square_metres_per_second(4e-10);
    const HALF: Length = Length::from_millimetres(1.0);

    fn share(fourier: f64) -> f64 {
        let time = Time::from_seconds(fourier * 1e-6 / 4e-10);
        share_of_equilibrium(D, HALF, time).unwrap()
    }

    #[test]
    fn the_published_half_time_is_met() {
        // Crank 1975, equation 4.23: (D t / (2 l)²) at half of the way is 0.04919, so D t / l² 0.1968.
        assert!((share(4.0 * 0.049_19) - 0.5).abs() < 1e-3);
    }

    #[test]
    fn the_two_forms_meet() {
        assert!((share(0.0999) - share(0.1001)).abs() < 2e-3);
        assert!(share(0.0) < 1e-12 && share(5.0) > 0.999);
    }

    #[test]
    fn warmth_speeds_it_up_as_water_thins() {
        let (cold, hot) = (Temperature::from_celsius(20.0), Temperature::from_celsius(80.0));
        let ratio = diffusivity_at(D, cold, hot).unwrap() / D;
        // Water: 1.002 mPa·s at 20 °C and 0.354 mPa·s at 80 °C (IAPWS 2008), times 353/293.
        assert!((ratio / 3.41 - 1.0).abs() < 0.03, "{ratio}");
    }

    #[test]
    fn what_cannot_be_is_refused() {
        assert!(share_of_equilibrium(Diffusivity::ZERO, HALF, Time::ZERO).is_err());
        assert!(share_of_equilibrium(D, Length::ZERO, Time::ZERO).is_err());
        assert!(share_of_equilibrium(D, HALF, Time::from_seconds(-1.0)).is_err());
        let (cold, steam) = (Temperature::from_celsius(20.0), Temperature::from_celsius(140.0));
        assert!(diffusivity_at(D, cold, steam).is_err());
        assert!(diffusivity_at(D, steam, cold).is_err());
    }
}
