//! How long a food takes to dry in air, and how much is left of it.
//!
//! The moisture ratio is the water still to lose over the water to lose at the start, both above
//! the moisture in equilibrium with the air. Crust formation and heat damage are left out.
//! Symbols: MR moisture ratio, x moisture on dry basis, D effective diffusivity, L half thickness,
//! fo = D t / L² the dimensionless time.

mod air_dried;
mod diffusion;

pub use air_dried::{AirDrying, DryingSlab};
pub use diffusion::{
    DIFFUSIVITIES, DryingShape, MoistureDiffusivity, diffusivity_at, diffusivity_of,
    moisture_ratio_by_diffusion, time_to_ratio_by_diffusion,
};

use super::{PhysicsError, Validity, positive};
use crate::quantity::Time;

/// A moisture ratio above zero, as the inverse laws need it.
const RATIO: Validity =
    Validity { law: "a drying law", quantity: "moisture ratio", low: 1e-9, high: 1.0, unit: "" };
/// A share of water for which the ratio of fresh to dried mass is finite.
const WATER: Validity = Validity {
    law: "the yield of drying",
    quantity: "share of water",
    low: 0.0,
    high: 0.999,
    unit: "",
};

/// Volume taken by 1 kg of dry carbohydrate over that by 1 kg of water: Choi & Okos 1986, Effects
/// of temperature and composition on the thermal properties of foods, 20 °C.
const DRY_MATTER_VOLUME: f64 = 998.2 / 1599.0;

/// The empirical law of thin-layer drying, `MR = exp(-k t^n)` with t in minutes.
///
/// `n = 1` makes it the law of Lewis (of Newton).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PageLaw {
    /// Constant k [1/min^n].
    pub k_per_minute: f64,
    /// Exponent n.
    pub n: f64,
}

/// Fitted exponents lie between 0.3 and 2; far from there the law gives no usable time.
const EXPONENT: Validity = Validity {
    law: "the drying law of Page",
    quantity: "exponent n",
    low: 0.1,
    high: 10.0,
    unit: "",
};

impl PageLaw {
    /// Makes the law of Lewis, `MR = exp(-k t)`.
    pub const fn lewis(k_per_minute: f64) -> Self {
        Self { k_per_minute, n: 1.0 }
    }

    fn checked(&self) -> Result<(), PhysicsError> {
        positive("drying constant k", self.k_per_minute, "1/min^n")?;
        EXPONENT.check(self.n)?;
        Ok(())
    }

    /// Returns the moisture ratio after a time.
    ///
    /// `MR = exp(-k t^n)`
    ///
    /// # Units
    /// t \[min\], k [1/min^n], MR \[1\].
    ///
    /// # Validity
    /// The food, cut, air and load for which k and n were fitted.
    ///
    /// # Errors
    /// [`PhysicsError::NotPositive`] for a constant of zero or less or a negative time.
    ///
    /// # Source
    /// Page 1949, Factors influencing the maximum rates of air drying shelled corn in thin layers,
    /// thesis, Purdue University; Lewis 1921, Ind. Eng. Chem. 13 for n = 1.
    pub fn moisture_ratio(&self, time: Time) -> Result<f64, PhysicsError> {
        self.checked()?;
        if time.minutes() < 0.0 {
            let (quantity, value, unit) = ("time", time.minutes(), "min");
            return Err(PhysicsError::NotPositive { quantity, value, unit });
        }
        Ok((-self.k_per_minute * time.minutes().powf(self.n)).exp())
    }

    /// Returns the time to a moisture ratio, the inverse of [`PageLaw::moisture_ratio`].
    ///
    /// `t = (-ln MR / k)^(1/n)`
    ///
    /// # Units
    /// t \[min\], MR \[1\].
    ///
    /// # Validity
    /// As for [`PageLaw::moisture_ratio`].
    ///
    /// # Errors
    /// [`PhysicsError::NotPositive`] for a constant of zero or less;
    /// [`PhysicsError::OutsideValidity`] for a ratio outside 1e-9 to 1.
    ///
    /// # Source
    /// As for [`PageLaw::moisture_ratio`].
    pub fn time_to_ratio(&self, ratio: f64) -> Result<Time, PhysicsError> {
        self.checked()?;
        let decay = -RATIO.check(ratio)?.min(1.0).ln() / self.k_per_minute;
        Ok(Time::from_minutes(decay.powf(1.0 / self.n)))
    }

    /// Returns the law that passes through two weighings.
    ///
    /// `n = ln(ln MR2 / ln MR1) / ln(t2/t1)`, `k = -ln MR1 / t1^n`
    ///
    /// # Units
    /// t \[min\], MR \[1\].
    ///
    /// # Validity
    /// Two times after the start, the later one drier.
    ///
    /// # Errors
    /// [`PhysicsError::Impossible`] when the later weighing is not drier or not later;
    /// [`PhysicsError::OutsideValidity`] for a ratio outside 1e-9 to 1.
    ///
    /// # Source
    /// As for [`PageLaw::moisture_ratio`].
    pub fn through(first: (Time, f64), second: (Time, f64)) -> Result<Self, PhysicsError> {
        let decay = |ratio: f64| RATIO.check(ratio).map(|ratio| -ratio.ln());
        let (early, late) = (decay(first.1)?, decay(second.1)?);
        if !(first.0.minutes() > 0.0 && second.0 > first.0 && late > early && early > 0.0) {
            let because = "the second weighing must be later and drier than the first".to_owned();
            return Err(PhysicsError::Impossible { what: "a drying law", because });
        }
        let n = (late / early).ln() / (second.0 / first.0).ln();
        Ok(Self { k_per_minute: early / first.0.minutes().powf(n), n })
    }
}

/// Returns the mass left per mass of fresh food after drying from one share of water to another.
///
/// `m/m0 = (1 - w0) / (1 - w)`
///
/// # Units
/// w share of water in the whole food \[1\].
///
/// # Validity
/// Nothing but water leaves.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for a share outside 0 to 0.999;
/// [`PhysicsError::Impossible`] when the dried food would be wetter than the fresh.
///
/// # Source
/// Mass balance on dry matter.
pub fn mass_left(water_before: f64, water_after: f64) -> Result<f64, PhysicsError> {
    let (before, after) = (WATER.check(water_before)?, WATER.check(water_after)?);
    if after > before {
        let because = format!("the dried food has more water ({after}) than the fresh ({before})");
        return Err(PhysicsError::Impossible { what: "a yield of drying", because });
    }
    Ok((1.0 - before) / (1.0 - after))
}

/// Returns the volume left per volume of fresh food when it shrinks by the water that it loses.
///
/// `V/V0 = (x + v) / (x0 + v) / (1 - porosity)`, v the volume of dry matter over that of water
///
/// # Units
/// x [kg water/kg dry], porosity of the dried food \[1\].
///
/// # Validity
/// Slow air drying, in which the tissue collapses as water leaves; a share of pores can be given.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a negative moisture;
/// [`PhysicsError::OutsideValidity`] for a porosity outside 0 to 0.95.
///
/// # Source
/// From memory: Suzuki, Kubota, Hasegawa & Hosaka 1976, Shrinkage in dehydration of root
/// vegetables, Journal of Food Science 41.
pub fn volume_left(
    moisture_before: f64,
    moisture_after: f64,
    porosity: f64,
) -> Result<f64, PhysicsError> {
    const POROSITY: Validity = Validity {
        law: "shrinkage in drying",
        quantity: "porosity",
        low: 0.0,
        high: 0.95,
        unit: "",
    };
    let volume = |moisture: f64| {
        let (quantity, unit) = ("moisture", "kg/kg");
        if moisture >= 0.0 {
            Ok(moisture + DRY_MATTER_VOLUME)
        } else {
            Err(PhysicsError::NotPositive { quantity, value: moisture, unit })
        }
    };
    let pores = POROSITY.check(porosity)?;
    Ok(volume(moisture_after)? / volume(moisture_before)? / (1.0 - pores))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn page_round_trips() {
        let law = PageLaw { k_per_minute: 0.0504, n: 0.761 };
        for ratio in [0.99, 0.5, 0.1, 0.01] {
            let time = law.time_to_ratio(ratio).unwrap();
            assert!((law.moisture_ratio(time).unwrap() - ratio).abs() < 1e-9);
        }
        assert!((law.moisture_ratio(Time::ZERO).unwrap() - 1.0).abs() < 1e-12);
    }

    #[test]
    fn page_refuses_what_has_no_answer() {
        let law = PageLaw { k_per_minute: 0.05, n: 1.0 };
        assert!(law.time_to_ratio(0.0).is_err() && law.time_to_ratio(1.2).is_err());
        assert!(law.moisture_ratio(Time::from_minutes(-1.0)).is_err());
        assert!(PageLaw::lewis(0.0).moisture_ratio(Time::ZERO).is_err());
        assert!(PageLaw { n: 0.0, ..law }.time_to_ratio(0.5).is_err());
    }

    #[test]
    fn two_weighings_give_the_law_back() {
        let law = PageLaw { k_per_minute: 0.02, n: 1.2 };
        let at = |minutes| {
            let time = Time::from_minutes(minutes);
            (time, law.moisture_ratio(time).unwrap())
        };
        let fitted = PageLaw::through(at(15.0), at(60.0)).unwrap();
        assert!((fitted.n - 1.2).abs() < 1e-9 && (fitted.k_per_minute - 0.02).abs() < 1e-9);
        assert!(PageLaw::through(at(60.0), at(15.0)).is_err());
        assert!(PageLaw::through((Time::from_minutes(1.0), 0.0), at(15.0)).is_err());
    }

    #[test]
    fn the_yield_balances_dry_matter() {
        assert!((mass_left(0.8, 0.2).unwrap() - 0.25).abs() < 1e-12);
        assert!(matches!(mass_left(0.2, 0.8), Err(PhysicsError::Impossible { .. })));
        assert!(mass_left(1.0, 0.2).is_err());
    }

    #[test]
    fn shrinkage_is_one_without_drying() {
        assert!((volume_left(5.0, 5.0, 0.0).unwrap() - 1.0).abs() < 1e-12);
        assert!(volume_left(5.0, 0.1, 0.0).unwrap() < 0.2);
        assert!(volume_left(-1.0, 0.1, 0.0).is_err() && volume_left(5.0, 0.1, 1.0).is_err());
    }
}
