//! Alcohol that is left in a dish after cooking.

use crate::physics::{PhysicsError, Validity};
use crate::quantity::Time;

const STIRRED_TIME: Validity = Validity {
    law: "alcohol retained in simmered or baked dishes (USDA 2007)",
    quantity: "time",
    low: 15.0,
    high: 150.0,
    unit: "min",
};

/// Time \[min\] and share left of alcohol stirred into a dish that is baked or simmered: USDA Table of
/// Nutrient Retention Factors, Release 6, 2007, alcohol entries; 30 min and 120 min from memory.
const STIRRED: [(f64, f64); 6] =
    [(15.0, 0.40), (30.0, 0.35), (60.0, 0.25), (90.0, 0.20), (120.0, 0.10), (150.0, 0.05)];

/// How alcohol is cooked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum AlcoholCooking {
    /// Added to a boiling liquid that is then taken off the heat.
    OffTheHeat,
    /// Flamed.
    Flamed,
    /// Left overnight without heat.
    Overnight,
    /// Baked for 25 min, not stirred in.
    BakedUnstirred,
    /// Stirred in and baked or simmered for a time.
    Simmered(Time),
}

/// Returns the share of the alcohol that a dish keeps.
///
/// A table by method; for a simmered dish straight lines in time between its entries.
///
/// # Units
/// Time \[s\], result as a share.
///
/// # Validity
/// Simmered or baked 15 min to 150 min. Open wide pots lose more, covered narrow ones less: the dishes
/// behind the table kept 4 % to 85 %.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for other times.
///
/// # Source
/// USDA Table of Nutrient Retention Factors, Release 6, Agricultural Research Service 2007, after
/// Augustin et al., J. Am. Diet. Assoc. 92:486 (1992); overnight and unstirred from memory.
pub fn alcohol_retained(cooking: AlcoholCooking) -> Result<f64, PhysicsError> {
    match cooking {
        AlcoholCooking::OffTheHeat => Ok(0.85),
        AlcoholCooking::Flamed => Ok(0.75),
        AlcoholCooking::Overnight => Ok(0.70),
        AlcoholCooking::BakedUnstirred => Ok(0.45),
        AlcoholCooking::Simmered(time) => {
            let minutes = STIRRED_TIME.check(time.minutes())?;
            let line = |pair: &[(f64, f64)]| {
                let ((t0, s0), (t1, s1)) = (pair[0], pair[1]);
                (minutes <= t1 + 1e-6).then(|| s0 + (s1 - s0) * (minutes - t0) / (t1 - t0))
            };
            Ok(STIRRED.windows(2).find_map(line).unwrap_or(STIRRED[STIRRED.len() - 1].1))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn longer_simmering_keeps_less() {
        let mut before = 0.41;
        for minutes in 15..=150 {
            let time = Time::from_minutes(f64::from(minutes));
            let share = alcohol_retained(AlcoholCooking::Simmered(time)).unwrap();
            assert!(share < before, "{minutes} min: {share}");
            before = share;
        }
        assert!((before - 0.05).abs() < 1e-12);
    }

    #[test]
    fn times_outside_the_table_are_refused() {
        assert!(alcohol_retained(AlcoholCooking::Simmered(Time::from_minutes(5.0))).is_err());
        assert!(alcohol_retained(AlcoholCooking::Simmered(Time::from_hours(5.0))).is_err());
    }
}
