//! Force and time in a centrifuge rotor.
//!
//! Symbols: omega angular speed, r radius (1 inner, 2 outer), g standard gravity, the rest as in
//! the parent module.

use std::f64::consts::TAU;

use super::Suspension;
use crate::physics::constants::STANDARD_GRAVITY;
use crate::physics::{PhysicsError, positive};
use crate::quantity::{Acceleration, Length, RotationSpeed, Time};

/// Returns the acceleration at a radius of a rotor.
///
/// `a = (2 pi n)² r`; divided by g it is the relative centrifugal force.
///
/// # Units
/// n [1/s], r \[m\], a [m/s²].
///
/// # Validity
/// Exact.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a speed or radius of zero or less.
///
/// # Source
/// Definition; `1.118e-5 r_cm rpm²` in laboratory handbooks is the same with rounded constants.
pub fn relative_force(
    rotation: RotationSpeed,
    radius: Length,
) -> Result<Acceleration, PhysicsError> {
    let n = positive("rotor speed", rotation.turns_per_second(), "1/s")?;
    let r = positive("rotor radius", radius.metres(), "m")?;
    Ok(Acceleration::from_si((TAU * n).powi(2) * r))
}

/// Returns the rotor speed that gives an acceleration at a radius.
///
/// `n = sqrt(a / r) / (2 pi)`.
///
/// # Units
/// a [m/s²], r \[m\], n [1/s].
///
/// # Validity
/// Exact.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for an acceleration or radius of zero or less.
///
/// # Source
/// Inverse of [`relative_force`].
pub fn rotation_for_force(
    acceleration: Acceleration,
    radius: Length,
) -> Result<RotationSpeed, PhysicsError> {
    let a = positive("acceleration", acceleration.si(), "m/s²")?;
    let r = positive("rotor radius", radius.metres(), "m")?;
    Ok(RotationSpeed::from_turns_per_second((a / r).sqrt() / TAU))
}

/// Returns how long a particle takes from one radius of a rotor to the other.
///
/// `t = 18 mu ln(r2/r1) / (|rho_p - rho_l| d² omega²)`, outwards or inwards alike, divided by the
/// hindered ratio of a thick suspension.
///
/// # Units
/// mu [Pa·s], r \[m\], rho [kg/m³], d \[m\], omega [rad/s], t \[s\].
///
/// # Validity
/// Stokes' regime, which food particles below 0.1 mm keep at laboratory speeds.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a size of zero or less; [`PhysicsError::Impossible`] when the
/// outer radius does not exceed the inner one or the particle is as dense as the liquid.
///
/// # Source
/// T. Svedberg & K. O. Pedersen, The Ultracentrifuge, 1940 (from memory); Stokes' law integrated
/// over the radius.
pub fn pelleting_time(
    diameter: Length,
    suspension: &Suspension,
    rotation: RotationSpeed,
    inner: Length,
    outer: Length,
) -> Result<Time, PhysicsError> {
    let path = log_radius_ratio(inner, outer)?;
    let rate = drift_rate(diameter, suspension, rotation)?;
    finite_time(path / rate.abs())
}

/// Returns how long a particle takes through a still depth of liquid.
///
/// `t = h / |v|`, v by the full drag law and slowed by crowding.
///
/// # Units
/// h \[m\], v [m/s], t \[s\].
///
/// # Validity
/// As [`super::terminal_speed`] and [`super::hindered_ratio`].
///
/// # Errors
/// As those, and [`PhysicsError::Impossible`] for a particle as dense as the liquid.
///
/// # Source
/// As those.
pub fn sediment_time(
    diameter: Length,
    suspension: &Suspension,
    acceleration: Acceleration,
    depth: Length,
) -> Result<Time, PhysicsError> {
    let h = positive("depth", depth.metres(), "m")?;
    let speed = super::terminal_speed(diameter, suspension, acceleration)?.si().abs();
    let liquid = &suspension.liquid;
    let reynolds = speed * diameter.metres() * liquid.density.si() / liquid.viscosity.si();
    let crowded = super::hindered_ratio(suspension.crowding, reynolds)?;
    finite_time(h / (speed * crowded))
}

/// Returns the time at one standard gravity that moves particles as far as a spin does.
///
/// `t₁ = t a / g`, over the same depth and without Brownian motion.
///
/// # Units
/// t \[s\], a [m/s²].
///
/// # Validity
/// Stokes' regime.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a force or time of zero or less.
///
/// # Source
/// Stokes' law, speed proportional to acceleration.
pub fn equivalent_time(force: Acceleration, time: Time) -> Result<Time, PhysicsError> {
    let a = positive("acceleration", force.si(), "m/s²")?;
    let t = positive("time", time.seconds(), "s")?;
    Ok(Time::from_seconds(t * a / STANDARD_GRAVITY))
}

/// Returns the clearing factor of a rotor; hours to pellet = k / Svedberg units.
///
/// `k = ln(r2/r1) / omega² · 10¹³ / 3600`.
///
/// # Units
/// r \[m\], omega [rad/s], k [h·S].
///
/// # Validity
/// Exact; particles in water at 20 °C when read with tabulated sedimentation coefficients.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a speed or radius of zero or less; [`PhysicsError::Impossible`]
/// when the outer radius does not exceed the inner one.
///
/// # Source
/// Definition in rotor manuals, `k = 2.53e11 ln(r_max/r_min) / rpm²`.
pub fn k_factor(
    rotation: RotationSpeed,
    inner: Length,
    outer: Length,
) -> Result<f64, PhysicsError> {
    const SVEDBERGS_PER_SECOND: f64 = 1e13;
    const SECONDS_PER_HOUR: f64 = 3600.0;
    let path = log_radius_ratio(inner, outer)?;
    let n = positive("rotor speed", rotation.turns_per_second(), "1/s")?;
    Ok(path / (TAU * n).powi(2) * SVEDBERGS_PER_SECOND / SECONDS_PER_HOUR)
}

/// Returns the rate at which ln r of a particle grows, slowed by crowding; negative for a light one.
pub(super) fn drift_rate(
    diameter: Length,
    suspension: &Suspension,
    rotation: RotationSpeed,
) -> Result<f64, PhysicsError> {
    // In Stokes' regime crowding acts with the exponent of the lowest Reynolds numbers.
    let crowded = super::hindered_ratio(suspension.crowding, 0.0)?;
    Ok(free_drift_rate(diameter, suspension, rotation)? * crowded)
}

/// The drift rate without crowding [1/s].
pub(super) fn free_drift_rate(
    diameter: Length,
    suspension: &Suspension,
    rotation: RotationSpeed,
) -> Result<f64, PhysicsError> {
    let at_one_metre = relative_force(rotation, Length::from_metres(1.0))?;
    let stokes = super::stokes_speed_extrapolated(diameter, suspension, at_one_metre)?;
    Ok(stokes.speed.si())
}

fn log_radius_ratio(inner: Length, outer: Length) -> Result<f64, PhysicsError> {
    positive("inner radius", inner.metres(), "m")?;
    positive("outer radius", outer.metres(), "m")?;
    if outer > inner {
        Ok((outer / inner).ln())
    } else {
        let because = format!("{} m does not exceed {} m", outer.metres(), inner.metres());
        Err(PhysicsError::Impossible { what: "outer radius", because })
    }
}

fn finite_time(seconds: f64) -> Result<Time, PhysicsError> {
    if seconds.is_finite() {
        Ok(Time::from_seconds(seconds))
    } else {
        let because = "the particle is as dense as the liquid and stays where it is".to_owned();
        Err(PhysicsError::Impossible { what: "settling time", because })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::settling::Liquid;
    use crate::quantity::{Density, Viscosity};

    fn yeast() -> Suspension {
        let liquid =
            Liquid { density: Density::from_si(1010.0), viscosity: Viscosity::from_si(1.3e-3) };
        Suspension::dilute(Density::from_si(1080.0), liquid)
    }

    fn metres(value: f64) -> Length {
        Length::from_metres(value)
    }

    #[test]
    fn force_and_speed_are_inverses() {
        let rotation = RotationSpeed::from_rpm(3000.0);
        let force = relative_force(rotation, metres(0.1)).unwrap();
        let back = rotation_for_force(force, metres(0.1)).unwrap();
        assert!((back / rotation - 1.0).abs() < 1e-12);
        assert!(relative_force(RotationSpeed::ZERO, metres(0.1)).is_err());
        assert!(rotation_for_force(force, Length::ZERO).is_err());
    }

    #[test]
    fn k_factor_over_svedbergs_is_the_pelleting_time() {
        let d = Length::from_micrometres(0.1);
        let rotation = RotationSpeed::from_rpm(20_000.0);
        let (inner, outer) = (metres(0.04), metres(0.09));
        let hours = pelleting_time(d, &yeast(), rotation, inner, outer).unwrap().hours();
        let svedbergs = drift_rate(d, &yeast(), rotation).unwrap()
            / (TAU * rotation.turns_per_second()).powi(2)
            * 1e13;
        let k = k_factor(rotation, inner, outer).unwrap();
        assert!((k / svedbergs / hours - 1.0).abs() < 1e-9);
    }

    #[test]
    fn contradictions_are_refused() {
        let d = Length::from_micrometres(5.0);
        let rotation = RotationSpeed::from_rpm(3000.0);
        assert!(pelleting_time(d, &yeast(), rotation, metres(0.1), metres(0.05)).is_err());
        assert!(k_factor(rotation, Length::ZERO, metres(0.05)).is_err());
        let mut even = yeast();
        even.particle_density = even.liquid.density;
        assert!(pelleting_time(d, &even, rotation, metres(0.05), metres(0.1)).is_err());
        let gravity = Acceleration::from_standard_gravities(1.0);
        assert!(sediment_time(d, &even, gravity, metres(0.1)).is_err());
        assert!(sediment_time(d, &yeast(), gravity, Length::ZERO).is_err());
        assert!(equivalent_time(Acceleration::ZERO, Time::from_minutes(1.0)).is_err());
        assert!(equivalent_time(gravity, Time::ZERO).is_err());
    }

    #[test]
    fn crowding_lengthens_the_wait() {
        let d = Length::from_micrometres(5.0);
        let gravity = Acceleration::from_standard_gravities(1.0);
        let alone = sediment_time(d, &yeast(), gravity, metres(0.1)).unwrap();
        let crowd = Suspension { crowding: 0.2, ..yeast() };
        assert!(sediment_time(d, &crowd, gravity, metres(0.1)).unwrap() > alone);
    }
}
