//! Simple batch distillation of ethanol and water.
//!
//! Answers what is left in the pot and what has gone over when part of a wine or spirit is boiled
//! off, at any pressure, and how much heat that takes: one boiling pot, all vapour condensed, no
//! reflux (Rayleigh 1902). Aroma that goes over with it is left to [`super::aroma`]. Symbols: w mass
//! fraction of ethanol in the pot, v in the vapour, m mass in the pot, z = ln w, s = ln(m / m0).

use super::ethanol_water::{
    bubble_point, ethanol_latent_heat, heat_capacity, mass_fraction, mole_fraction,
};
use super::water::latent_heat_vaporisation;
use super::{PhysicsError, Validity, positive, solve};
use crate::quantity::{Pressure, SpecificEnergy, SpecificHeat, Temperature};

const START_SHARE: Validity = Validity {
    law: "simple distillation of ethanol and water, below the azeotrope",
    quantity: "share of ethanol at the start",
    low: 0.0,
    high: 0.92,
    unit: "by mass",
};
const EVAPORATED_SHARE: Validity = Validity {
    law: "simple distillation",
    quantity: "share evaporated",
    low: 0.0,
    high: 0.99,
    unit: "by mass",
};

/// The two ends of a batch distillation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Distilled {
    /// Share of the mass that went over.
    pub evaporated: f64,
    /// Mass fraction of ethanol left in the pot.
    pub pot: f64,
    /// Mass fraction of ethanol in all that went over; of the first drop when nothing has yet.
    pub distillate: f64,
    /// Share of the ethanol that went over.
    pub recovered: f64,
    /// Boiling point at the start.
    pub first_boiling: Temperature,
    /// Boiling point at the end.
    pub last_boiling: Temperature,
    /// Heat for boiling, per mass of the start; heating up to the first boiling point comes on top.
    pub heat: SpecificEnergy,
}

/// The enrichment of the vapour, `v / w`, over a boiling pot.
fn enrichment(w: f64, pressure: Pressure) -> Result<f64, PhysicsError> {
    let bubble = bubble_point(mole_fraction(w), pressure)?;
    Ok(mass_fraction(bubble.vapour_mole_fraction) / w)
}

/// Returns `ln(m / m0)` over which the logarithm of the pot's share goes from `z0` to `z`.
fn logarithm_of_mass(z0: f64, z: f64, pressure: Pressure) -> f64 {
    /// Length of a panel of the quadrature in z; eight nodes then leave an error below 1e-11.
    const PANEL: f64 = 0.7;
    let mut panels = 1;
    while f64::from(panels) * PANEL < (z - z0).abs() {
        panels += 1;
    }
    solve::integral(z0, z, panels, |z| {
        enrichment(z.exp(), pressure).map_or(f64::NAN, |k| 1.0 / (k - 1.0))
    })
}

/// Returns what distilling off a share of the mass leaves and gives.
///
/// Rayleigh's equation, `dw / d ln m = v - w`, written `ln(m / m0) = ∫ dz / (v/w - 1)` and solved for
/// z by Newton's method. The integrand rises with z, so that the steps settle from one side.
///
/// # Units
/// Shares; pressure \[Pa\]; heat [J/kg].
///
/// # Validity
/// 2 kPa to 120 kPa, at most 0.92 of ethanol by mass (below the azeotrope), at most 0.99 evaporated.
///
/// # Errors
/// [`PhysicsError::NotPositive`] without ethanol; [`PhysicsError::OutsideValidity`] outside these
/// ranges; [`PhysicsError::NoConvergence`] after 50 steps.
///
/// # Source
/// Rayleigh, Phil. Mag. 4:521 (1902); vapour from [`bubble_point`].
pub fn distil(start: f64, evaporated: f64, pressure: Pressure) -> Result<Distilled, PhysicsError> {
    const STEPS: u32 = 50;
    const TOLERANCE: f64 = 1e-13;
    let start = positive("share of ethanol", START_SHARE.check(start)?, "by mass")?;
    let evaporated = EVAPORATED_SHARE.check(evaporated)?.max(0.0);
    let z0 = start.ln();
    let target = (-evaporated).ln_1p();
    let mut z = z0 + target * (enrichment(start, pressure)? - 1.0);
    let mut reached = logarithm_of_mass(z0, z, pressure);
    for _ in 0..STEPS {
        let step = (target - reached) * (enrichment(z.exp(), pressure)? - 1.0);
        if step.abs() <= TOLERANCE * (1.0 + z.abs()) {
            return ends(start, z.exp(), evaporated, pressure);
        }
        let next = (z + step).min(z0);
        reached += logarithm_of_mass(z, next, pressure);
        z = next;
    }
    Err(PhysicsError::NoConvergence { what: "distillation", steps: STEPS, last: z.exp() })
}

/// Returns what distilling until the pot has fallen to a share of ethanol takes and gives.
///
/// Rayleigh's equation, `ln(m / m0) = ∫ dz / (v/w - 1)` from the start to the target.
///
/// # Units
/// Shares; pressure \[Pa\]; heat [J/kg].
///
/// # Validity
/// As [`distil`].
///
/// # Errors
/// As [`distil`]; [`PhysicsError::Impossible`] for a target that is not weaker than the start.
///
/// # Source
/// As [`distil`].
pub fn distil_to(start: f64, pot: f64, pressure: Pressure) -> Result<Distilled, PhysicsError> {
    let start = positive("share of ethanol", START_SHARE.check(start)?, "by mass")?;
    let pot = positive("share of ethanol to reach", pot, "by mass")?;
    if pot > start {
        let because = format!("the start holds {start:.4} by mass, the target {pot:.4}");
        return Err(PhysicsError::Impossible { what: "distilling the pot stronger", because });
    }
    enrichment(start, pressure)?;
    let logarithm = logarithm_of_mass(start.ln(), pot.ln(), pressure);
    let evaporated = EVAPORATED_SHARE.check(-logarithm.exp_m1())?;
    ends(start, pot, evaporated.max(0.0), pressure)
}

/// Closes the balances of ethanol and heat between the two ends.
///
/// Heat: each component at its heat of vaporisation at the mean boiling point, and the pot warmed
/// from the first to the last boiling point at its mean mass; within 1 % of the integral.
fn ends(
    start: f64,
    pot: f64,
    evaporated: f64,
    pressure: Pressure,
) -> Result<Distilled, PhysicsError> {
    /// Below this share the distillate is the first drop, not a difference of two equal masses.
    const NOTHING: f64 = 1e-9;
    let first = bubble_point(mole_fraction(start), pressure)?;
    let last = bubble_point(mole_fraction(pot), pressure)?;
    let ethanol = start - pot * (1.0 - evaporated);
    let distillate = if evaporated > NOTHING {
        ethanol / evaporated
    } else {
        mass_fraction(first.vapour_mole_fraction)
    };
    let warming = last.temperature - first.temperature;
    let middle = first.temperature + 0.5 * warming;
    let capacity: SpecificHeat = heat_capacity(0.5 * (start + pot), middle)?;
    let heat = ethanol * ethanol_latent_heat(middle)?
        + (evaporated - ethanol) * latent_heat_vaporisation(middle)?
        + (1.0 - 0.5 * evaporated) * (capacity * warming);
    Ok(Distilled {
        evaporated,
        pot,
        distillate,
        recovered: ethanol / start,
        first_boiling: first.temperature,
        last_boiling: last.temperature,
        heat,
    })
}

/// Returns the heat that brings a liquid from a temperature to its boiling point.
///
/// `cp (t_boil - t)`, cp the mean of both ends; nothing for a liquid that is already as hot.
///
/// # Units
/// Share; temperatures \[K\]; result [J/kg].
///
/// # Validity
/// 0 °C to 110 °C.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside that range.
///
/// # Source
/// [`heat_capacity`].
pub fn heat_to_boiling(
    start: f64,
    from: Temperature,
    boiling: Temperature,
) -> Result<SpecificEnergy, PhysicsError> {
    let rise = boiling - from;
    let capacity = 0.5 * (heat_capacity(start, from)? + heat_capacity(start, boiling)?);
    Ok((capacity * rise).max(SpecificEnergy::ZERO))
}

#[cfg(test)]
mod tests {
    use super::*;

    const STARTS: [f64; 6] = [0.001, 0.04, 0.1, 0.33, 0.6, 0.9];

    fn kilopascals() -> [Pressure; 3] {
        [2.0, 5.0, 101.325].map(Pressure::from_kilopascals)
    }

    #[test]
    fn both_ways_to_stop_agree() {
        for pressure in kilopascals() {
            for start in STARTS {
                for share in [0.01, 0.1, 0.3, 0.7, 0.9] {
                    let run = distil(start, share, pressure).unwrap();
                    let back = distil_to(start, run.pot, pressure).unwrap();
                    assert!(
                        (back.evaporated - share).abs() < 1e-9,
                        "{start}, {share}: {}",
                        back.evaporated
                    );
                }
            }
        }
    }

    #[test]
    fn ethanol_is_neither_made_nor_lost() {
        for pressure in kilopascals() {
            for start in STARTS {
                let run = distil(start, 0.4, pressure).unwrap();
                let sum = run.distillate * 0.4 + run.pot * 0.6;
                assert!((sum / start - 1.0).abs() < 1e-12);
                assert!(run.pot < start && start < run.distillate);
                assert!((0.4..=1.0 + 1e-12).contains(&run.recovered));
                assert!(run.heat.si() > 0.0 && run.last_boiling >= run.first_boiling);
            }
        }
    }

    #[test]
    fn the_steps_solve_the_differential_equation() {
        let pressure = Pressure::from_kilopascals(101.325);
        let (start, steps) = (0.2, 20_000);
        let (mut w, mut m) = (start, 1.0);
        for _ in 0..steps {
            let (dm, half) = (0.5 / f64::from(steps), 0.25 / f64::from(steps));
            let v = w * enrichment(w, pressure).unwrap();
            let middle = w - half * (v - w) / m;
            let v = middle * enrichment(middle, pressure).unwrap();
            w -= dm * (v - middle) / (m - half);
            m -= dm;
        }
        let run = distil(start, 0.5, pressure).unwrap();
        assert!((run.pot / w - 1.0).abs() < 1e-6, "{} is not {w}", run.pot);
    }

    #[test]
    fn nothing_evaporated_gives_the_first_drop() {
        let pressure = Pressure::from_kilopascals(101.325);
        let none = distil(0.1, 0.0, pressure).unwrap();
        let little = distil(0.1, 1e-6, pressure).unwrap();
        assert!((none.distillate - little.distillate).abs() < 1e-4);
        assert!((none.pot - 0.1).abs() < 1e-12);
    }

    #[test]
    fn conditions_out_of_range_are_refused() {
        let pressure = Pressure::from_kilopascals(50.0);
        assert!(matches!(distil(0.0, 0.1, pressure), Err(PhysicsError::NotPositive { .. })));
        assert!(distil(0.95, 0.1, pressure).is_err());
        assert!(distil(0.1, 1.0, pressure).is_err());
        assert!(distil(0.1, 0.1, Pressure::from_kilopascals(1.0)).is_err());
        let stronger = distil_to(0.1, 0.2, pressure);
        assert!(matches!(stronger, Err(PhysicsError::Impossible { .. })));
        assert!(distil_to(0.1, 0.0, pressure).is_err());
        assert!(distil_to(0.1, 0.05, Pressure::from_kilopascals(1.0)).is_err());
        let hot = Temperature::from_celsius(200.0);
        assert!(heat_to_boiling(0.1, Temperature::from_celsius(20.0), hot).is_err());
    }
}
