//! Settling, creaming and centrifuging of particles.
//!
//! Answers how fast a particle sinks or rises ([`terminal_speed`]), how crowding slows it
//! ([`hindered_ratio`]), what a standing jar or a spinning rotor takes out of a liquid in a given
//! time ([`batch`]), how tightly the sediment packs and how much clear liquid is left ([`packing`]),
//! how cold milk creams ([`cream`]) and how clear the rest looks ([`clarity`]). Flocculation by
//! finings and gels that hold particles up are left to the process models.
//! Symbols: d diameter, rho density (p particle, l liquid), mu dynamic viscosity, a acceleration,
//! v speed, re particle Reynolds number, phi volume share of particles.

pub mod batch;
pub mod clarity;
pub mod cream;
pub mod packing;
mod rotor;
mod sizes;

pub use rotor::{
    equivalent_time, k_factor, pelleting_time, relative_force, rotation_for_force, sediment_time,
};
pub use sizes::{SizeDistribution, normal_share};

use crate::physics::{PhysicsError, Validity, positive, solve};
use crate::quantity::{Acceleration, Density, Length, Speed, Viscosity};

/// Below this particle Reynolds number Stokes' law is off by less than about 6 %
/// (Clift, Grace & Weber, Bubbles, Drops and Particles, 1978, chapter 5).
pub const STOKES_MAX_REYNOLDS: f64 = 0.3;

/// Reynolds numbers for which the drag correlation of Clift and Gauvin is used. It was published to
/// 300 000 (Clift, Grace & Weber 1978, table 5.1); above 100 000 measured drag falls off from it.
pub const DRAG_REYNOLDS: Validity = Validity {
    law: "the drag correlation of Clift and Gauvin",
    quantity: "particle Reynolds number",
    low: 0.0,
    high: 1e5,
    unit: "",
};

/// Crowding in which Richardson and Zaki's law is used; looser than a packed bed of spheres, 0.6.
pub const HINDERED_SHARE: Validity = Validity {
    law: "the hindered settling law of Richardson and Zaki",
    quantity: "volume share of particles",
    low: 0.0,
    high: 0.6,
    unit: "",
};

/// Reynolds numbers of Richardson and Zaki's experiments (Richardson & Zaki 1954).
pub const HINDERED_REYNOLDS: Validity = Validity {
    law: "the hindered settling law of Richardson and Zaki",
    quantity: "particle Reynolds number",
    low: 0.0,
    high: 7000.0,
    unit: "",
};

const STOKES_REYNOLDS: Validity = Validity {
    law: "Stokes' law",
    quantity: "particle Reynolds number",
    low: -STOKES_MAX_REYNOLDS,
    high: STOKES_MAX_REYNOLDS,
    unit: "",
};

/// The root of the drag balance is found to this relative accuracy.
const DRAG_TOLERANCE: f64 = 1e-12;
/// Below this Reynolds number a few substitutions, each 200 times closer, solve the drag balance.
const NEARLY_STOKES: f64 = 1e-2;
/// Substitutions that bring the drag balance to [`DRAG_TOLERANCE`] there.
const SUBSTITUTIONS: u32 = 4;
/// A substitution that moves the Reynolds number by no more than this share is the last: the next
/// would move it by less than a thousandth of that.
const SETTLED: f64 = 1e-10;

/// A liquid that carries particles.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Liquid {
    /// Its density.
    pub density: Density,
    /// Its dynamic viscosity.
    pub viscosity: Viscosity,
}

/// Particles of one density in a liquid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Suspension {
    /// The density of a particle with the liquid that it holds.
    pub particle_density: Density,
    /// The liquid around it.
    pub liquid: Liquid,
    /// The share of the volume that particles take up, which slows them by crowding.
    pub crowding: f64,
}

impl Suspension {
    /// Makes a suspension so thin that its particles do not slow each other.
    pub const fn dilute(particle_density: Density, liquid: Liquid) -> Self {
        Self { particle_density, liquid, crowding: 0.0 }
    }

    /// Returns by how much a particle is denser than the liquid; negative for one that floats.
    pub fn density_difference(&self) -> Density {
        self.particle_density - self.liquid.density
    }
}

/// A speed by Stokes' law, whether or not the law holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StokesSpeed {
    /// The speed, positive downwards (outwards in a rotor).
    pub speed: Speed,
    /// The Reynolds number of the particle at that speed, without sign.
    pub reynolds: f64,
    /// Whether the Reynolds number is below [`STOKES_MAX_REYNOLDS`], where the law holds.
    pub holds: bool,
}

/// Returns Stokes' speed together with whether the law holds there; may be an extrapolation.
///
/// `v = (rho_p - rho_l) a d² / (18 mu)`, `re = rho_l |v| d / mu`; the speed is positive downwards.
///
/// # Units
/// d \[m\], rho [kg/m³], mu [Pa·s], a [m/s²], v [m/s].
///
/// # Validity
/// None is imposed: the answer says whether it holds. Use [`terminal_speed_stokes`] for the law
/// within its range and [`terminal_speed`] beyond it.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a diameter, density, viscosity or acceleration of zero or less.
///
/// # Source
/// G. G. Stokes, Trans. Cambridge Philos. Soc. 9, 1851; as given in Perry's Chemical Engineers'
/// Handbook, section 6.
pub fn stokes_speed_extrapolated(
    diameter: Length,
    suspension: &Suspension,
    acceleration: Acceleration,
) -> Result<StokesSpeed, PhysicsError> {
    let d = positive("particle diameter", diameter.metres(), "m")?;
    positive("particle density", suspension.particle_density.si(), "kg/m³")?;
    let rho = positive("liquid density", suspension.liquid.density.si(), "kg/m³")?;
    let mu = positive("liquid viscosity", suspension.liquid.viscosity.si(), "Pa·s")?;
    let a = positive("acceleration", acceleration.si(), "m/s²")?;
    let speed = suspension.density_difference().si() * a * d * d / (18.0 * mu);
    let reynolds = rho * speed.abs() * d / mu;
    Ok(StokesSpeed {
        speed: Speed::from_si(speed),
        reynolds,
        holds: reynolds < STOKES_MAX_REYNOLDS,
    })
}

/// Returns the terminal speed of a rigid sphere in a still liquid by Stokes' law.
///
/// `v = (rho_p - rho_l) a d² / (18 mu)`, positive downwards.
///
/// # Units
/// d \[m\], rho [kg/m³], mu [Pa·s], a [m/s²], v [m/s].
///
/// # Validity
/// Reynolds number at most [`STOKES_MAX_REYNOLDS`]; one smooth sphere, far from walls.
///
/// # Errors
/// As [`stokes_speed_extrapolated`], and [`PhysicsError::OutsideValidity`] above the limit.
///
/// # Source
/// As [`stokes_speed_extrapolated`]; limit from Clift, Grace & Weber 1978, chapter 5.
pub fn terminal_speed_stokes(
    diameter: Length,
    suspension: &Suspension,
    acceleration: Acceleration,
) -> Result<Speed, PhysicsError> {
    let stokes = stokes_speed_extrapolated(diameter, suspension, acceleration)?;
    STOKES_REYNOLDS.check(stokes.reynolds)?;
    Ok(stokes.speed)
}

/// Returns the drag coefficient of a smooth sphere.
///
/// `C_D = 24/re (1 + 0.15 re^0.687) + 0.42 / (1 + 42500 re^-1.16)`.
///
/// # Units
/// re and C_D have none.
///
/// # Validity
/// [`DRAG_REYNOLDS`]; within about 6 % of the standard drag curve.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a Reynolds number of zero or less,
/// [`PhysicsError::OutsideValidity`] above 100 000.
///
/// # Source
/// R. Clift & W. H. Gauvin 1970, in Clift, Grace & Weber, Bubbles, Drops and Particles, 1978,
/// table 5.1; the first term is that of L. Schiller & A. Naumann, VDI-Zeitschrift 77, 1933.
pub fn drag_coefficient_sphere(reynolds: f64) -> Result<f64, PhysicsError> {
    let re = positive("particle Reynolds number", DRAG_REYNOLDS.check(reynolds)?, "")?;
    Ok(24.0 / re * drag_correction(re))
}

/// Returns the factor by which drag exceeds Stokes' drag, `C_D re / 24`; it rises with re.
fn drag_correction(re: f64) -> f64 {
    let log = re.ln();
    1.0 + 0.15 * (0.687 * log).exp() + 0.42 / 24.0 * re / (1.0 + 4.25e4 * (-1.16 * log).exp())
}

/// Returns the terminal speed of a rigid sphere at any Reynolds number, by the drag balance.
///
/// `re C_D(re) re = 4/3 Ar` with `Ar = d³ rho_l |rho_p - rho_l| a / mu²`; positive downwards.
///
/// # Units
/// d \[m\], rho [kg/m³], mu [Pa·s], a [m/s²], v [m/s].
///
/// # Validity
/// [`DRAG_REYNOLDS`]; one smooth rigid sphere, far from walls. Crowding is not applied.
///
/// # Errors
/// As [`stokes_speed_extrapolated`], and [`PhysicsError::OutsideValidity`] when the resulting
/// Reynolds number is above 100 000.
///
/// # Source
/// As [`drag_coefficient_sphere`].
pub fn terminal_speed(
    diameter: Length,
    suspension: &Suspension,
    acceleration: Acceleration,
) -> Result<Speed, PhysicsError> {
    let stokes = stokes_speed_extrapolated(diameter, suspension, acceleration)?;
    if stokes.reynolds <= 0.0 {
        return Ok(Speed::ZERO);
    }
    let reynolds = DRAG_REYNOLDS.check(terminal_reynolds(stokes.reynolds)?)?;
    Ok(stokes.speed * (reynolds / stokes.reynolds))
}

/// Solves `re f(re) = re_stokes`, where f is the drag correction.
///
/// Since f rises, re lies between `re_stokes / f(re_stokes)` and `re_stokes`.
fn terminal_reynolds(stokes: f64) -> Result<f64, PhysicsError> {
    if stokes < NEARLY_STOKES {
        let mut re = stokes;
        for _ in 0..SUBSTITUTIONS {
            let next = stokes / drag_correction(re);
            let settled = (next / re - 1.0).abs() <= SETTLED;
            re = next;
            if settled {
                break;
            }
        }
        return Ok(re);
    }
    let low = stokes / drag_correction(stokes);
    let balance = |re: f64| re * drag_correction(re) - stokes;
    solve::root("terminal Reynolds number", low, stokes, DRAG_TOLERANCE * low, balance)
}

/// Returns the exponent of hindered settling.
///
/// `n = 4.65` to re 0.2, `4.35 re^-0.03` to 1, `4.45 re^-0.1` to 500, `2.39` above; vessel much
/// wider than the particle.
///
/// # Units
/// None.
///
/// # Validity
/// [`HINDERED_REYNOLDS`], re at the terminal speed of one particle.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for a Reynolds number outside it.
///
/// # Source
/// J. F. Richardson & W. N. Zaki, Trans. Inst. Chem. Eng. 32:35-53, 1954 (coefficients from memory).
pub fn hindered_exponent(reynolds: f64) -> Result<f64, PhysicsError> {
    let re = HINDERED_REYNOLDS.check(reynolds)?;
    Ok(if re <= 0.2 {
        4.65
    } else if re < 1.0 {
        4.35 * re.powf(-0.03)
    } else if re < 500.0 {
        4.45 * re.powf(-0.1)
    } else {
        2.39
    })
}

/// Returns the speed of a crowd of particles over that of one alone.
///
/// `v/v₀ = (1 - phi)^n`, n from [`hindered_exponent`].
///
/// # Units
/// None.
///
/// # Validity
/// [`HINDERED_SHARE`]; separate rigid particles. A puree above about 0.4 is a network that does not
/// settle at all.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for a share or a Reynolds number outside the range.
///
/// # Source
/// As [`hindered_exponent`].
pub fn hindered_ratio(crowding: f64, reynolds: f64) -> Result<f64, PhysicsError> {
    let phi = HINDERED_SHARE.check(crowding)?;
    Ok((1.0 - phi).powf(hindered_exponent(reynolds)?))
}

#[cfg(test)]
mod tests {
    use super::*;

    const GRAVITY: Acceleration = Acceleration::from_standard_gravities(1.0);

    fn in_water(density: f64) -> Suspension {
        let water =
            Liquid { density: Density::from_si(1000.0), viscosity: Viscosity::from_si(1e-3) };
        Suspension::dilute(Density::from_si(density), water)
    }

    #[test]
    fn speed_is_negative_for_a_light_particle() {
        let speed = terminal_speed(Length::from_micrometres(4.0), &in_water(920.0), GRAVITY);
        assert!(speed.unwrap() < Speed::ZERO);
        assert_eq!(
            terminal_speed(Length::from_micrometres(4.0), &in_water(1000.0), GRAVITY),
            Ok(Speed::ZERO)
        );
    }

    #[test]
    fn drag_joins_stokes_for_small_particles_and_slows_large_ones() {
        let mut before = Speed::ZERO;
        for step in 0..60 {
            let d = Length::from_metres(1e-7 * 10f64.powf(f64::from(step) / 12.0));
            let full = terminal_speed(d, &in_water(1500.0), GRAVITY).unwrap();
            let stokes = stokes_speed_extrapolated(d, &in_water(1500.0), GRAVITY).unwrap();
            assert!(full > before && full <= stokes.speed);
            if stokes.reynolds < 1e-5 {
                assert!((full / stokes.speed - 1.0).abs() < 1e-4);
            }
            before = full;
        }
    }

    #[test]
    fn the_quick_and_the_full_solution_of_the_drag_balance_meet() {
        for stokes in [1e-6, 1e-4, 0.999 * NEARLY_STOKES, 1.001 * NEARLY_STOKES, 10.0, 1e4] {
            let re = terminal_reynolds(stokes).unwrap();
            assert!((re * drag_correction(re) / stokes - 1.0).abs() < 1e-10, "{stokes}");
        }
    }

    #[test]
    fn stokes_refuses_a_fast_particle() {
        let speed =
            terminal_speed_stokes(Length::from_millimetres(1.0), &in_water(1500.0), GRAVITY);
        assert!(matches!(speed, Err(PhysicsError::OutsideValidity { .. })));
        assert!(
            terminal_speed_stokes(Length::from_micrometres(5.0), &in_water(1500.0), GRAVITY)
                .is_ok()
        );
    }

    #[test]
    fn impossible_inputs_are_refused() {
        let small = Length::from_micrometres(1.0);
        let mut thick = in_water(1500.0);
        thick.liquid.viscosity = Viscosity::ZERO;
        assert!(terminal_speed(small, &thick, GRAVITY).is_err());
        assert!(terminal_speed(Length::ZERO, &in_water(1500.0), GRAVITY).is_err());
        assert!(terminal_speed(small, &in_water(0.0), GRAVITY).is_err());
        assert!(terminal_speed(small, &in_water(1500.0), Acceleration::ZERO).is_err());
        assert!(terminal_speed(Length::from_metres(1.0), &in_water(8000.0), GRAVITY).is_err());
        assert!(drag_coefficient_sphere(0.0).is_err() && drag_coefficient_sphere(2e5).is_err());
    }

    #[test]
    fn crowding_slows_and_is_bounded() {
        assert!((hindered_ratio(0.0, 0.1).unwrap() - 1.0).abs() < 1e-12);
        assert!(hindered_ratio(0.3, 0.1).unwrap() < hindered_ratio(0.1, 0.1).unwrap());
        assert!(hindered_ratio(0.7, 0.1).is_err() && hindered_ratio(-0.1, 0.1).is_err());
        assert!(hindered_exponent(8000.0).is_err());
    }
}
