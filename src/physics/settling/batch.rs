//! What settles out of a jar or a spinning tube in a given time.
//!
//! The liquid is still and its particles are spread evenly at the start; whatever reaches the bottom
//! (or, when light, the top) stays there. Symbols: t time, h depth, r radius (1 inner, 2 outer),
//! k growth rate of ln r, E share removed, the rest as in the parent module.

use super::rotor::{drift_rate, free_drift_rate};
use super::sizes::TAIL_STEPS;
use super::{SizeDistribution, Suspension, drag_correction, hindered_ratio, terminal_speed};
use crate::physics::{PhysicsError, positive, solve};
use crate::quantity::{Acceleration, Length, RotationSpeed, Time};

/// Where the particles move, and how far they have to go.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Vessel {
    /// A depth of liquid under one acceleration: a standing jar, or a short tube in a wide rotor.
    Jar {
        /// From the surface to the bottom.
        depth: Length,
        /// Standard gravity for a jar on the table.
        acceleration: Acceleration,
    },
    /// A tube that swings out in a rotor.
    Rotor {
        /// The speed of the rotor.
        rotation: RotationSpeed,
        /// From the axis to the surface of the liquid.
        inner: Length,
        /// From the axis to the bottom of the tube.
        outer: Length,
    },
}

/// What stays in the liquid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Left {
    /// The share of the particles' mass that is still suspended.
    pub share: f64,
    /// Their sizes; `None` when practically nothing is left.
    pub sizes: Option<SizeDistribution>,
}

/// Panels of the quadrature over sizes; with eight nodes each it is good to about 1e-6.
const SIZE_PANELS: u32 = 4;
/// Less than this share left counts as nothing.
const NOTHING_LEFT: f64 = 1e-9;
/// The diameter behind a speed is found to this relative accuracy.
const DIAMETER_TOLERANCE: f64 = 1e-12;

/// Returns the share of the particles of one size that has left the liquid after a time.
///
/// Jar: `E = v t / h`. Rotor, sinking: `E = r2 (1 - e^(-k t)) / (r2 - r1)`; rising:
/// `E = r1 (e^(k t) - 1) / (r2 - r1)`; at most 1.
///
/// # Units
/// v [m/s], t \[s\], h and r \[m\], k [1/s], E none.
///
/// # Validity
/// Still liquid, separate particles, vessel of even section. In a rotor Stokes' regime; a particle
/// too fast for it is out within seconds anyway. Crowding acts with the exponent 4.65 of slow
/// particles.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a size of zero or less or a time below zero; those of
/// [`terminal_speed`] and [`hindered_ratio`].
///
/// # Source
/// Batch settling of independent particles, e.g. L. Svarovsky, Solid-Liquid Separation, 4th ed.,
/// 2000, chapters 5 and 7 (from memory), integrated over the start positions.
pub fn removed_share(
    diameter: Length,
    suspension: &Suspension,
    vessel: Vessel,
    time: Time,
) -> Result<f64, PhysicsError> {
    let crowded = hindered_ratio(suspension.crowding, 0.0)?;
    removed_crowded(diameter, suspension, vessel, not_negative(time)?, crowded)
}

/// The share removed, with the slowing by crowding at hand.
fn removed_crowded(
    diameter: Length,
    suspension: &Suspension,
    vessel: Vessel,
    t: f64,
    crowded: f64,
) -> Result<f64, PhysicsError> {
    let removed = match vessel {
        Vessel::Jar { depth, acceleration } => {
            let h = positive("depth", depth.metres(), "m")?;
            let speed = terminal_speed(diameter, suspension, acceleration)?.si().abs();
            speed * crowded * t / h
        }
        Vessel::Rotor { rotation, inner, outer } => {
            let (r1, r2) = radii(inner, outer)?;
            let growth = free_drift_rate(diameter, suspension, rotation)? * crowded * t;
            let gained =
                if growth >= 0.0 { -r2 * (-growth).exp_m1() } else { r1 * (-growth).exp_m1() };
            gained / (r2 - r1)
        }
    };
    Ok(removed.min(1.0))
}

/// Returns the diameter of which a given share has left the liquid after a time.
///
/// Half gives the usual cut size; the whole gives the smallest diameter that is gone altogether.
/// Inverse of [`removed_share`].
///
/// # Units
/// As [`removed_share`].
///
/// # Validity
/// As [`removed_share`].
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a share, time or vessel of zero or less;
/// [`PhysicsError::Impossible`] for a share above 1 or particles as dense as the liquid.
///
/// # Source
/// As [`removed_share`].
pub fn cut_diameter(
    share: f64,
    suspension: &Suspension,
    vessel: Vessel,
    time: Time,
) -> Result<Length, PhysicsError> {
    let share = positive("share removed", share, "")?;
    let t = positive("time", time.seconds(), "s")?;
    let difference = suspension.density_difference().si();
    let apart = difference.abs() > 0.0;
    if share > 1.0 || !apart {
        let because = if apart {
            format!("the share removed, {share}, is above 1")
        } else {
            "the particles are as dense as the liquid".to_owned()
        };
        return Err(PhysicsError::Impossible { what: "cut size", because });
    }
    match vessel {
        Vessel::Jar { depth, acceleration } => {
            let h = positive("depth", depth.metres(), "m")?;
            let crowded = hindered_ratio(suspension.crowding, 0.0)?;
            diameter_of_speed(share * h / (t * crowded), suspension, acceleration)
        }
        Vessel::Rotor { rotation, inner, outer } => {
            let (r1, r2) = radii(inner, outer)?;
            let gap = share * (r2 - r1);
            let growth = if difference > 0.0 { -(-gap / r2).ln_1p() } else { (gap / r1).ln_1p() };
            let one_micrometre = Length::from_micrometres(1.0);
            let rate = drift_rate(one_micrometre, suspension, rotation)?.abs();
            Ok(one_micrometre * (growth / (t * rate)).sqrt())
        }
    }
}

/// Returns the share of a size distribution that stays in the liquid after a time, and its sizes.
///
/// `share = integral of (1 - E(d)) over the mass`; the sizes left are described by the log-normal
/// distribution with the same mean and variance of ln d.
///
/// # Units
/// None.
///
/// # Validity
/// As [`removed_share`].
///
/// # Errors
/// As [`removed_share`].
///
/// # Source
/// As [`removed_share`].
pub fn left_after(
    sizes: &SizeDistribution,
    suspension: &Suspension,
    vessel: Vessel,
    time: Time,
) -> Result<Left, PhysicsError> {
    let untouched = Left { share: 1.0, sizes: Some(*sizes) };
    let still = suspension.density_difference().si().abs() <= 0.0;
    if not_negative(time)? <= 0.0 || still {
        return Ok(untouched);
    }
    if sizes.log_spread() <= 0.0 {
        let share = 1.0 - removed_share(sizes.median(), suspension, vessel, time)?;
        return Ok(Left { share, sizes: (share > NOTHING_LEFT).then_some(*sizes) });
    }
    let gone = cut_diameter(1.0, suspension, vessel, time)?;
    let highest = ((gone / sizes.median()).ln() / sizes.log_spread()).min(TAIL_STEPS);
    if highest <= -TAIL_STEPS {
        return Ok(Left { share: 0.0, sizes: None });
    }
    // The largest size met is one of the sizes integrated over, so its speed stands for all checks.
    let crowded = hindered_ratio(suspension.crowding, 0.0)?;
    let removed =
        |z: f64| removed_crowded(sizes.at_steps(z), suspension, vessel, time.seconds(), crowded);
    removed(highest)?;
    let stays = |z: f64| {
        let removed = removed(z).unwrap_or(1.0);
        (-0.5 * z * z).exp() / std::f64::consts::TAU.sqrt() * (1.0 - removed)
    };
    let [share, first, second] = solve::integrals(-TAIL_STEPS, highest, SIZE_PANELS, |z| {
        let stays = stays(z);
        [stays, z * stays, z * z * stays]
    });
    if share <= NOTHING_LEFT {
        return Ok(Left { share: share.max(0.0), sizes: None });
    }
    let mean = first / share;
    let deviation = (second / share - mean * mean).max(0.0).sqrt();
    let log_mean = sizes.at_steps(mean).metres().ln();
    let left = SizeDistribution::from_log_moments(log_mean, deviation * sizes.log_spread());
    Ok(Left { share: share.min(1.0), sizes: Some(left) })
}

/// Returns the diameter whose terminal speed is `v`, by the drag balance `d² = d_s² f(re)`.
fn diameter_of_speed(
    v: f64,
    suspension: &Suspension,
    acceleration: Acceleration,
) -> Result<Length, PhysicsError> {
    let one_micrometre = Length::from_micrometres(1.0);
    let unit = super::stokes_speed_extrapolated(one_micrometre, suspension, acceleration)?;
    let stokes = one_micrometre.metres() * (v / unit.speed.si().abs()).sqrt();
    let liquid = &suspension.liquid;
    let reynolds = |d: f64| liquid.density.si() * v * d / liquid.viscosity.si();
    let highest = stokes * 2.0 * drag_correction(reynolds(stokes));
    let balance = |d: f64| d * d - stokes * stokes * drag_correction(reynolds(d));
    let tolerance = DIAMETER_TOLERANCE * stokes;
    let d = solve::root("diameter of a speed", stokes, highest, tolerance, balance)?;
    super::DRAG_REYNOLDS.check(reynolds(d))?;
    Ok(Length::from_metres(d))
}

fn not_negative(time: Time) -> Result<f64, PhysicsError> {
    if time.seconds() >= 0.0 {
        Ok(time.seconds())
    } else {
        Err(PhysicsError::NotPositive { quantity: "time", value: time.seconds(), unit: "s" })
    }
}

fn radii(inner: Length, outer: Length) -> Result<(f64, f64), PhysicsError> {
    let r1 = positive("inner radius", inner.metres(), "m")?;
    let r2 = positive("outer radius", outer.metres(), "m")?;
    if r2 > r1 {
        Ok((r1, r2))
    } else {
        let because = format!("{r2} m does not exceed the inner radius {r1} m");
        Err(PhysicsError::Impossible { what: "outer radius", because })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::settling::{Liquid, pelleting_time, sediment_time};
    use crate::quantity::{Density, Viscosity};

    const GRAVITY: Acceleration = Acceleration::from_standard_gravities(1.0);

    fn suspension(density: f64) -> Suspension {
        let liquid =
            Liquid { density: Density::from_si(1040.0), viscosity: Viscosity::from_si(1.5e-3) };
        Suspension::dilute(Density::from_si(density), liquid)
    }

    fn jar() -> Vessel {
        Vessel::Jar { depth: Length::from_centimetres(10.0), acceleration: GRAVITY }
    }

    fn rotor() -> Vessel {
        Vessel::Rotor {
            rotation: RotationSpeed::from_rpm(4000.0),
            inner: Length::from_centimetres(5.0),
            outer: Length::from_centimetres(10.0),
        }
    }

    #[test]
    fn half_and_all_of_the_cut_size_have_left() {
        let time = Time::from_minutes(10.0);
        for vessel in [jar(), rotor()] {
            for density in [1090.0, 930.0] {
                for share in [0.1, 0.5, 0.9] {
                    let food = suspension(density);
                    let d = cut_diameter(share, &food, vessel, time).unwrap();
                    let removed = removed_share(d, &food, vessel, time).unwrap();
                    assert!((removed - share).abs() < 1e-9, "{vessel:?} {density} {share}");
                }
            }
        }
    }

    #[test]
    fn the_last_particle_arrives_at_the_pelleting_time() {
        let d = Length::from_micrometres(5.0);
        for density in [1090.0, 930.0] {
            let food = suspension(density);
            let Vessel::Rotor { rotation, inner, outer } = rotor() else { unreachable!() };
            let time = pelleting_time(d, &food, rotation, inner, outer).unwrap();
            assert!(removed_share(d, &food, rotor(), time).unwrap() > 1.0 - 1e-9);
            assert!(removed_share(d, &food, rotor(), 0.99 * time).unwrap() < 1.0);
            let wait = sediment_time(d, &food, GRAVITY, Length::from_centimetres(10.0)).unwrap();
            assert!(removed_share(d, &food, jar(), wait).unwrap() > 1.0 - 1e-9);
        }
    }

    #[test]
    fn a_jar_of_log_normal_pulp_agrees_with_the_closed_form() {
        // In Stokes' regime E = (d/d₁)² below d₁, whose partial moment is known exactly.
        let food = suspension(1090.0);
        let sizes = SizeDistribution::new(Length::from_micrometres(5.0), 2.0).unwrap();
        let time = Time::from_hours(5.0);
        let gone = cut_diameter(1.0, &food, jar(), time).unwrap();
        let s = sizes.log_spread();
        let b = (gone / sizes.median()).ln() / s;
        let square = (sizes.median() / gone).powi(2) * (2.0 * s * s).exp();
        let removed =
            1.0 - super::super::normal_share(b) + square * super::super::normal_share(b - 2.0 * s);
        let left = left_after(&sizes, &food, jar(), time).unwrap();
        assert!((left.share - (1.0 - removed)).abs() < 1e-4, "{} {removed}", left.share);
        assert!(left.sizes.unwrap().median() < sizes.median());
    }

    #[test]
    fn less_is_left_with_time_and_nothing_at_last() {
        let sizes = SizeDistribution::new(Length::from_micrometres(10.0), 2.5).unwrap();
        for vessel in [jar(), rotor()] {
            let mut before = 1.0;
            for minutes in [0.0, 1.0, 10.0, 100.0, 1000.0] {
                let time = Time::from_minutes(minutes);
                let left = left_after(&sizes, &suspension(930.0), vessel, time).unwrap();
                assert!(left.share <= before && left.share >= 0.0);
                before = left.share;
            }
            let ages = Time::from_days(1e9);
            let left = left_after(&sizes, &suspension(930.0), vessel, ages).unwrap();
            assert!(left.share < 1e-6);
        }
    }

    #[test]
    fn particles_of_one_size_and_of_the_liquids_density_are_handled() {
        let single = SizeDistribution::new(Length::from_micrometres(10.0), 1.0).unwrap();
        let time = Time::from_minutes(5.0);
        let left = left_after(&single, &suspension(1090.0), jar(), time).unwrap();
        let removed = removed_share(single.median(), &suspension(1090.0), jar(), time).unwrap();
        assert!((left.share + removed - 1.0).abs() < 1e-12);
        let still = left_after(&single, &suspension(1040.0), jar(), time).unwrap();
        assert!(still.share >= 1.0);
    }

    #[test]
    fn contradictions_are_refused() {
        let food = suspension(1090.0);
        let d = Length::from_micrometres(10.0);
        let time = Time::from_minutes(5.0);
        assert!(removed_share(d, &food, jar(), Time::from_seconds(-1.0)).is_err());
        let flat = Vessel::Jar { depth: Length::ZERO, acceleration: GRAVITY };
        assert!(removed_share(d, &food, flat, time).is_err());
        assert!(cut_diameter(1.5, &food, jar(), time).is_err());
        assert!(cut_diameter(0.5, &suspension(1040.0), jar(), time).is_err());
        assert!(cut_diameter(0.5, &food, jar(), Time::ZERO).is_err());
        let inside_out = Vessel::Rotor {
            rotation: RotationSpeed::from_rpm(4000.0),
            inner: Length::from_centimetres(10.0),
            outer: Length::from_centimetres(5.0),
        };
        assert!(removed_share(d, &food, inside_out, time).is_err());
        let sizes = SizeDistribution::new(d, 2.0).unwrap();
        assert!(left_after(&sizes, &food, inside_out, time).is_err());
    }
}
