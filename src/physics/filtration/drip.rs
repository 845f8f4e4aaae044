//! Dripping through a cloth or paper under the liquid's own head.
//!
//! A straight-sided funnel whose liquid sinks as it passes. Symbols: h₀ head at the start, v filtrate
//! per area, K = alpha c resistance gained per filtrate, R_m medium resistance, g standard gravity.

use crate::physics::constants::STANDARD_GRAVITY;
use crate::physics::{PhysicsError, positive, solve};
use crate::quantity::{Density, Length, Time, Viscosity};

/// A cloth-lined funnel, filled once.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drip {
    /// Height of the liquid over the cloth at the start.
    pub head: Length,
    /// Density of the liquid.
    pub density: Density,
    /// Viscosity of the filtrate.
    pub viscosity: Viscosity,
    /// Resistance of the cloth [1/m].
    pub medium_resistance_per_m: f64,
    /// Specific cake resistance times solids per filtrate [1/m²]; zero for a clear liquid.
    pub cake_gain_per_m2: f64,
}

/// The volume that passes is found to this share of the charge.
const SHARE_TOLERANCE: f64 = 1e-12;

impl Drip {
    /// Returns the time until a share of the charge has dripped through.
    ///
    /// `t = mu / (rho g) [(K h₀ + R_m) ln(h₀ / (h₀ - v)) - K v]`, `v = share h₀`.
    ///
    /// # Units
    /// mu [Pa·s], rho [kg/m³], K [1/m²], h₀ and v \[m\], R_m [1/m], t \[s\].
    ///
    /// # Validity
    /// Laminar flow, rigid cake, no capillary hold-up, solids that stay suspended; share below 1,
    /// since the last drop takes forever.
    ///
    /// # Errors
    /// [`PhysicsError::NotPositive`] for a head, density, viscosity or total resistance of zero or
    /// less; [`PhysicsError::Impossible`] for a share outside 0 to 1 (1 excluded) or a negative
    /// resistance.
    ///
    /// # Source
    /// Darcy's law with resistances in series and a falling head, integrated.
    pub fn time(&self, share: f64) -> Result<Time, PhysicsError> {
        let scale = self.scale()?;
        if (0.0..1.0).contains(&share) {
            Ok(Time::from_seconds(scale * self.path(share)))
        } else {
            let because = format!("the share {share} is not below 1");
            Err(PhysicsError::Impossible { what: "dripping time", because })
        }
    }

    /// Returns the share of the charge that has dripped through after a time; inverse of
    /// [`Drip::time`].
    ///
    /// # Units
    /// As [`Drip::time`].
    ///
    /// # Validity
    /// As [`Drip::time`].
    ///
    /// # Errors
    /// As [`Drip::time`], and [`PhysicsError::NotPositive`] for a time of zero or less.
    ///
    /// # Source
    /// As [`Drip::time`].
    pub fn share(&self, time: Time) -> Result<f64, PhysicsError> {
        let target = positive("time", time.seconds(), "s")? / self.scale()?;
        // The medium alone bounds the share from above, the medium with the whole cake from below.
        let (k, r) = (self.cake_gain_per_m2 * self.head.metres(), self.medium_resistance_per_m);
        if k <= 0.0 {
            return Ok(-(-target / r).exp_m1());
        }
        let low = -(-target / (k + r)).exp_m1();
        let balance = |share: f64| self.path(share) - target;
        let highest = 1.0 - f64::EPSILON;
        if balance(highest) <= 0.0 {
            return Ok(1.0);
        }
        solve::root("share dripped through", low.min(highest), highest, SHARE_TOLERANCE, balance)
    }

    /// Returns the time in units of mu / (rho g) [1/m].
    fn path(&self, share: f64) -> f64 {
        let k = self.cake_gain_per_m2 * self.head.metres();
        -(k + self.medium_resistance_per_m) * (-share).ln_1p() - k * share
    }

    /// Returns mu / (rho g) after checking every input [s·m].
    fn scale(&self) -> Result<f64, PhysicsError> {
        positive("head", self.head.metres(), "m")?;
        let rho = positive("liquid density", self.density.si(), "kg/m³")?;
        let mu = positive("viscosity", self.viscosity.si(), "Pa·s")?;
        let medium = super::not_negative("medium resistance", self.medium_resistance_per_m)?;
        let cake = super::not_negative("cake resistance", self.cake_gain_per_m2)?;
        positive("resistance of cake and medium", medium + cake, "1/m")?;
        Ok(mu / (rho * STANDARD_GRAVITY))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn funnel() -> Drip {
        Drip {
            head: Length::from_centimetres(10.0),
            density: Density::from_si(1000.0),
            viscosity: Viscosity::from_millipascal_seconds(1.0),
            medium_resistance_per_m: 1e9,
            cake_gain_per_m2: 1e12,
        }
    }

    #[test]
    fn time_and_share_are_inverses() {
        for cake_gain_per_m2 in [0.0, 1e10, 1e13] {
            for medium_resistance_per_m in [1e8, 1e10] {
                let drip = Drip { cake_gain_per_m2, medium_resistance_per_m, ..funnel() };
                for share in [0.01, 0.5, 0.95] {
                    let back = drip.share(drip.time(share).unwrap()).unwrap();
                    assert!((back - share).abs() < 1e-9, "{drip:?} {share} {back}");
                }
            }
        }
    }

    #[test]
    fn the_first_drops_follow_the_constant_head_law() {
        let drip = funnel();
        let share = 1e-4;
        let v = share * drip.head.metres();
        let head_pressure = 1000.0 * STANDARD_GRAVITY * drip.head.metres();
        let constant = 1e-3 / head_pressure * (0.5e12 * v * v + 1e9 * v);
        assert!((drip.time(share).unwrap().seconds() / constant - 1.0).abs() < 1e-3);
    }

    #[test]
    fn everything_passes_at_last_and_never_more() {
        assert!(funnel().share(Time::from_days(1e6)).unwrap() <= 1.0);
        assert!(funnel().share(Time::from_days(1e6)).unwrap() > 0.999_999);
    }

    #[test]
    fn impossible_funnels_are_refused() {
        assert!(funnel().time(1.0).is_err() && funnel().time(-0.1).is_err());
        assert!(funnel().share(Time::ZERO).is_err());
        let open = Drip { medium_resistance_per_m: 0.0, cake_gain_per_m2: 0.0, ..funnel() };
        assert!(open.time(0.5).is_err());
        assert!(Drip { head: Length::ZERO, ..funnel() }.time(0.5).is_err());
        assert!(Drip { cake_gain_per_m2: -1.0, ..funnel() }.time(0.5).is_err());
        assert!(Drip { density: Density::ZERO, ..funnel() }.time(0.5).is_err());
    }
}
