//! How much water a food holds in air of a given humidity, and when its solids are a glass.
//!
//! Moisture is on dry basis (water per dry matter) unless a name says otherwise. Hysteresis
//! between drying and wetting is left out: each law is of the branch that its source measured.
//! Symbols: a water activity, x moisture on dry basis, m0 monolayer, c and k GAB constants.

mod foods;
mod glass;

pub use foods::{ISOTHERMS, Isotherm, MONOLAYERS, Monolayer, isotherm_of, monolayer_of};
pub use glass::{
    GLASS_FORMERS, GlassFormer, WATER_GLASS_TRANSITION, glass_former, glass_transition,
    moisture_at_glass_transition, roos_constant,
};

use super::constants::GAS_CONSTANT;
use super::{PhysicsError, Validity, positive};
use crate::quantity::{MolarEnergy, Temperature};

const ACTIVITY: Validity = Validity {
    law: "a sorption isotherm",
    quantity: "water activity",
    low: 0.0,
    high: 1.0,
    unit: "",
};
/// The BET law bends away from data above this (from memory: Labuza 1968, Sorption phenomena in
/// foods, Food Technology 22).
const BET_ACTIVITY: Validity = Validity {
    law: "the BET isotherm",
    quantity: "water activity",
    low: 0.0,
    high: 0.55,
    unit: "",
};
/// The two grain equations have no finite moisture at saturation and are fitted between these
/// (from memory: ASAE D245.5).
const GRAIN_ACTIVITY: Validity = Validity {
    law: "a grain isotherm",
    quantity: "water activity",
    low: 0.0,
    high: 0.98,
    unit: "",
};

/// The constants of one GAB isotherm at one temperature; `k = 1` makes it the BET isotherm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gab {
    /// Water that covers each sorption site once [kg/kg dry].
    pub monolayer: f64,
    /// Binding of the first layer against the rest.
    pub c: f64,
    /// Binding of the further layers against pure water.
    pub k: f64,
}

impl Gab {
    fn checked(&self) -> Result<(), PhysicsError> {
        positive("monolayer", self.monolayer, "kg/kg")?;
        positive("GAB constant C", self.c, "")?;
        positive("GAB constant K", self.k, "")?;
        Ok(())
    }

    /// Returns the moisture in equilibrium with a water activity.
    ///
    /// `x = m0 c k a / ((1 - k a)(1 - k a + c k a))`
    ///
    /// # Units
    /// x [kg water/kg dry], a \[1\].
    ///
    /// # Validity
    /// a from 0 to 1 and below 1/k.
    ///
    /// # Errors
    /// [`PhysicsError::OutsideValidity`] for an activity outside 0 to 1 or at 1/k and above;
    /// [`PhysicsError::NotPositive`] for a constant of zero or less.
    ///
    /// # Source
    /// Van den Berg & Bruin 1981, Water activity and its estimation in food systems, in Rockland &
    /// Stewart, Water Activity: Influences on Food Quality.
    pub fn moisture(&self, activity: f64) -> Result<f64, PhysicsError> {
        self.checked()?;
        let ka = self.k * ACTIVITY.check(activity)?;
        if ka >= 1.0 {
            return Err(PhysicsError::OutsideValidity {
                law: "the GAB isotherm",
                quantity: "water activity",
                value: activity,
                low: 0.0,
                high: 1.0 / self.k,
                unit: "",
            });
        }
        Ok(self.monolayer * self.c * ka / ((1.0 - ka) * (1.0 - ka + self.c * ka)))
    }

    /// Returns the water activity that belongs to a moisture, the inverse of [`Gab::moisture`].
    ///
    /// The positive root of `x (c-1) u² + (m0 c - x (c-2)) u - x = 0` with `u = k a`.
    ///
    /// # Units
    /// x [kg water/kg dry], a \[1\].
    ///
    /// # Validity
    /// Moisture whose activity does not exceed 1.
    ///
    /// # Errors
    /// [`PhysicsError::NotPositive`] for a constant of zero or less or a negative moisture;
    /// [`PhysicsError::OutsideValidity`] when the food holds more water than at activity 1.
    ///
    /// # Source
    /// As for [`Gab::moisture`].
    pub fn activity(&self, moisture: f64) -> Result<f64, PhysicsError> {
        self.checked()?;
        let x = not_negative("moisture", moisture)?;
        let linear = self.monolayer * self.c - x * (self.c - 2.0);
        let root = (linear * linear + 4.0 * x * x * (self.c - 1.0)).max(0.0).sqrt();
        let u = if linear > 0.0 || self.c <= 1.0 {
            2.0 * x / (linear + root)
        } else {
            (root - linear) / (2.0 * x * (self.c - 1.0))
        };
        ACTIVITY.check(u / self.k)
    }
}

/// The constants of one GAB isotherm with `m0`, `c` and `k` each of the form `p exp(q / (R T))`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GabOverTemperature {
    /// Factor [kg/kg dry] and heat of the monolayer.
    pub monolayer: (f64, MolarEnergy),
    /// Factor and heat of c.
    pub c: (f64, MolarEnergy),
    /// Factor and heat of k.
    pub k: (f64, MolarEnergy),
}

impl GabOverTemperature {
    /// Returns the constants at a temperature.
    pub fn at(&self, temperature: Temperature) -> Gab {
        let value = |(factor, heat): (f64, MolarEnergy)| {
            factor * (heat.si() / (GAS_CONSTANT * temperature.kelvin())).exp()
        };
        Gab { monolayer: value(self.monolayer), c: value(self.c), k: value(self.k) }
    }
}

/// A sorption law with its constants.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SorptionLaw {
    /// The GAB isotherm at one temperature.
    Gab(Gab),
    /// The BET isotherm: GAB with `k = 1`, at low activity.
    Bet {
        /// Monolayer [kg/kg dry].
        monolayer: f64,
        /// Binding of the first layer.
        c: f64,
    },
    /// The GAB isotherm with constants that depend on temperature.
    GabOverTemperature(GabOverTemperature),
    /// `1 - a = exp(-A (t + C) (100 x)^N)`, t in °C.
    ModifiedHenderson {
        /// Constant A.
        a: f64,
        /// Constant N.
        n: f64,
        /// Constant C [°C].
        c: f64,
    },
    /// `ln a = -A/(t + C) exp(-B x)`, t in °C.
    ChungPfost {
        /// Constant A [°C].
        a: f64,
        /// Constant B.
        b: f64,
        /// Constant C [°C].
        c: f64,
    },
}

impl SorptionLaw {
    /// Returns the moisture in equilibrium with a water activity.
    ///
    /// GAB as [`Gab::moisture`]; modified Henderson `x = ((-ln(1-a)) / (A (t+C)))^(1/N) / 100`;
    /// Chung-Pfost `x = -ln(-(t+C) ln a / A) / B`.
    ///
    /// # Units
    /// x [kg water/kg dry], a \[1\], t [°C].
    ///
    /// # Validity
    /// GAB to activity 1 (and below 1/k), BET to 0.55, the grain laws to 0.98.
    ///
    /// # Errors
    /// [`PhysicsError::OutsideValidity`] for an activity outside these ranges;
    /// [`PhysicsError::NotPositive`] for a constant of zero or less or where Chung-Pfost gives no
    /// positive moisture.
    ///
    /// # Source
    /// ASAE D245.5, Moisture relationships of plant-based agricultural products, for the grain laws.
    pub fn moisture(&self, activity: f64, temperature: Temperature) -> Result<f64, PhysicsError> {
        let t = temperature.celsius();
        match *self {
            Self::Gab(gab) => gab.moisture(activity),
            Self::Bet { monolayer, c } => {
                BET_ACTIVITY.check(activity)?;
                Gab { monolayer, c, k: 1.0 }.moisture(activity)
            }
            Self::GabOverTemperature(gab) => gab.at(temperature).moisture(activity),
            Self::ModifiedHenderson { a, n, c } => {
                grain_constants(a, n, t + c)?;
                let dryness = -(-GRAIN_ACTIVITY.check(activity)?).ln_1p();
                Ok((dryness / (a * (t + c))).powf(1.0 / n) / 100.0)
            }
            Self::ChungPfost { a, b, c } => {
                grain_constants(a, b, t + c)?;
                let activity = positive("water activity", GRAIN_ACTIVITY.check(activity)?, "")?;
                positive("moisture", -(-(t + c) * activity.ln() / a).ln() / b, "kg/kg")
            }
        }
    }

    /// Returns the water activity that belongs to a moisture, the inverse of
    /// [`SorptionLaw::moisture`].
    ///
    /// # Units
    /// x [kg water/kg dry], a \[1\].
    ///
    /// # Validity
    /// As for [`SorptionLaw::moisture`].
    ///
    /// # Errors
    /// As for [`SorptionLaw::moisture`], and [`PhysicsError::NotPositive`] for a negative moisture.
    ///
    /// # Source
    /// As for [`SorptionLaw::moisture`].
    pub fn activity(&self, moisture: f64, temperature: Temperature) -> Result<f64, PhysicsError> {
        let t = temperature.celsius();
        let x = not_negative("moisture", moisture)?;
        match *self {
            Self::Gab(gab) => gab.activity(x),
            Self::Bet { monolayer, c } => {
                BET_ACTIVITY.check(Gab { monolayer, c, k: 1.0 }.activity(x)?)
            }
            Self::GabOverTemperature(gab) => gab.at(temperature).activity(x),
            Self::ModifiedHenderson { a, n, c } => {
                grain_constants(a, n, t + c)?;
                GRAIN_ACTIVITY.check(-(-a * (t + c) * (100.0 * x).powf(n)).exp_m1())
            }
            Self::ChungPfost { a, b, c } => {
                grain_constants(a, b, t + c)?;
                GRAIN_ACTIVITY.check((-a / (t + c) * (-b * x).exp()).exp())
            }
        }
    }
}

fn grain_constants(a: f64, exponent: f64, warmth: f64) -> Result<(), PhysicsError> {
    positive("constant A", a, "")?;
    positive("constant B or N", exponent, "")?;
    positive("temperature plus constant C", warmth, "°C")?;
    Ok(())
}

fn not_negative(quantity: &'static str, value: f64) -> Result<f64, PhysicsError> {
    if value >= 0.0 {
        Ok(value)
    } else {
        Err(PhysicsError::NotPositive { quantity, value, unit: "kg/kg" })
    }
}

/// Returns the share of water in the whole food from its moisture on dry basis: `w = x / (1 + x)`.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a negative moisture.
pub fn water_share(moisture: f64) -> Result<f64, PhysicsError> {
    let x = not_negative("moisture", moisture)?;
    Ok(x / (1.0 + x))
}

/// Returns the moisture on dry basis from the share of water in the whole food:
/// `x = w / (1 - w)`.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for a share outside 0 to 0.999.
pub fn moisture_of_share(share: f64) -> Result<f64, PhysicsError> {
    const SHARE: Validity = Validity {
        law: "moisture on dry basis",
        quantity: "share of water",
        low: 0.0,
        high: 0.999,
        unit: "",
    };
    let share = SHARE.check(share)?;
    Ok(share / (1.0 - share))
}

#[cfg(test)]
mod tests {
    use super::*;

    const POTATO: Gab = Gab { monolayer: 0.209, c: 4.416, k: 0.976 };

    #[test]
    fn gab_round_trips_and_rises() {
        for c in [0.5, 1.0, 1.5, 2.0, 4.4, 47.0] {
            let gab = Gab { monolayer: 0.1, c, k: 0.9 };
            let mut before = 0.0;
            for step in 1..=99 {
                let a = f64::from(step) / 100.0;
                let x = gab.moisture(a).unwrap();
                assert!(x > before && x.is_finite());
                assert!((gab.activity(x).unwrap() - a).abs() < 1e-9, "c {c} a {a}");
                before = x;
            }
        }
    }

    #[test]
    fn gab_refuses_activity_beyond_its_pole() {
        let gab = Gab { monolayer: 0.2, c: 11.84, k: 1.143 };
        assert!(matches!(gab.moisture(0.9), Err(PhysicsError::OutsideValidity { .. })));
        assert!(POTATO.moisture(1.1).is_err());
        assert!(POTATO.activity(100.0).is_err());
        assert!(POTATO.activity(-0.1).is_err());
        assert!(Gab { monolayer: 0.0, ..POTATO }.moisture(0.5).is_err());
    }

    #[test]
    fn bet_is_refused_above_its_range() {
        let law = SorptionLaw::Bet { monolayer: 0.232, c: 9.627 };
        let room = Temperature::from_celsius(25.0);
        assert!(law.moisture(0.4, room).is_ok());
        assert!(law.moisture(0.7, room).is_err());
    }

    #[test]
    fn every_listed_food_round_trips_and_dries_when_warmed() {
        for isotherm in ISOTHERMS {
            let t = Temperature::from_celsius(isotherm.low_celsius);
            for activity in [0.2, 0.4, 0.6, 0.8] {
                let x = isotherm.law.moisture(activity, t).unwrap();
                let back = isotherm.law.activity(x, t).unwrap();
                assert!((back - activity).abs() < 1e-9, "{}", isotherm.food);
                let warm = Temperature::from_celsius(isotherm.high_celsius);
                assert!(isotherm.law.moisture(activity, warm).unwrap() <= x + 1e-12);
            }
        }
    }

    #[test]
    fn monolayers_are_ordered_and_known_for_gab_foods_only() {
        for food in ["banana", "potato", "pasta"] {
            let ((low, high), _) = monolayer_of(food).unwrap();
            assert!(0.0 < low && low < high, "{food}");
        }
        assert!(monolayer_of("maize").is_none() && monolayer_of("nothing").is_none());
    }

    #[test]
    fn grain_laws_refuse_what_they_cannot_give() {
        let law = SorptionLaw::ChungPfost { a: 312.4, b: 16.958, c: 30.205 };
        let t = Temperature::from_celsius(25.0);
        assert!(law.moisture(0.99, t).is_err());
        assert!(law.moisture(0.001, t).is_err());
        assert!(law.moisture(0.5, Temperature::from_celsius(-40.0)).is_err());
    }

    #[test]
    fn wet_and_dry_basis_are_inverse() {
        assert!((water_share(moisture_of_share(0.85).unwrap()).unwrap() - 0.85).abs() < 1e-12);
        assert!(moisture_of_share(1.0).is_err());
        assert!(water_share(-1.0).is_err());
    }
}
