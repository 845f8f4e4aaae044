//! Freezing rate, its published classes, and the size of ice crystals.

use crate::physics::{PhysicsError, Validity, positive};
use crate::quantity::{Length, Speed, Time};

/// Returns the freezing rate: how fast the front travels from the surface to the centre.
///
/// `w = r / t`
///
/// # Units
/// w \[m/s\], r \[m\] the shortest way from surface to centre, t \[s\] until the centre is frozen.
///
/// # Validity
/// An average over the way; the front is slowest near the centre of a slab.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a length or time of zero or less.
///
/// # Source
/// International Institute of Refrigeration, Recommendations for the Processing and Handling of
/// Frozen Foods, 3rd ed. 1986.
pub fn freezing_rate(half_thickness: Length, time: Time) -> Result<Speed, PhysicsError> {
    let r = positive("half thickness or radius", half_thickness.metres(), "m")?;
    let t = positive("freezing time", time.seconds(), "s")?;
    Ok(Speed::from_metres_per_second(r / t))
}

/// How a freezing rate is called in the trade.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum FreezingClass {
    /// Below 0.5 cm/h: bulk in a cold room (0.2 cm/h), a household freezer.
    Slow,
    /// 0.5 to 5 cm/h: blast and plate freezers (0.5 to 3 cm/h).
    Quick,
    /// 5 to 10 cm/h: small pieces singly in a blast.
    Rapid,
    /// Over 10 cm/h: sprayed with or dipped in liquefied gas (10 to 100 cm/h).
    UltraRapid,
}

impl FreezingClass {
    /// Returns the name of the class.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Slow => "slow",
            Self::Quick => "quick",
            Self::Rapid => "rapid",
            Self::UltraRapid => "ultra-rapid",
        }
    }
}

/// Lower ends of the classes [cm/h]: International Institute of Refrigeration, Recommendations for
/// the Processing and Handling of Frozen Foods (from memory).
const CLASS_ENDS_CM_PER_H: [f64; 3] = [0.5, 5.0, 10.0];

/// Centimetres per hour for one metre per second, exact.
const CM_PER_H: f64 = 360_000.0;

/// Returns the class of a freezing rate.
///
/// # Units
/// w \[m/s\]; the ends of the classes in cm/h.
///
/// # Validity
/// Any rate.
///
/// # Source
/// International Institute of Refrigeration, Recommendations for the Processing and Handling of
/// Frozen Foods (from memory).
pub fn freezing_class(rate: Speed) -> FreezingClass {
    let [slow, quick, rapid] = CLASS_ENDS_CM_PER_H;
    match rate.metres_per_second() * CM_PER_H {
        w if w < slow => FreezingClass::Slow,
        w if w < quick => FreezingClass::Quick,
        w if w < rapid => FreezingClass::Rapid,
        _ => FreezingClass::UltraRapid,
    }
}

/// Rates over which the power law is used [cm/h].
const RATE_RANGE: Validity = Validity {
    law: "size of ice crystals from the freezing rate",
    quantity: "freezing rate",
    low: 0.05,
    high: 100.0,
    unit: "cm/h",
};
/// Crystal size at 1 cm/h \[µm\], low, typical, high. Estimate: dendrite spacing in food tissue lies
/// near 100 µm at 0.5 cm/h (50 to 200 µm in meat frozen slowly: from memory of Sun, Handbook of
/// Frozen Food) and near 10 to 30 µm at 10 to 100 cm/h.
const SIZE_AT_1_CM_PER_H_UM: [f64; 3] = [60.0, 90.0, 140.0];
/// Exponent of the rate. Estimate: spacing of dendrites goes with the inverse square root of the
/// front speed at constant gradient (Kurz & Fisher, Fundamentals of Solidification, 1984).
const RATE_EXPONENT: f64 = -0.5;

/// Returns the size of the ice crystals in food frozen without stirring: low, typical and high.
///
/// `d = d1 w^-0.5`, w in cm/h
///
/// # Units
/// d \[m\], w \[m/s\].
///
/// # Validity
/// 0.05 cm/h to 100 cm/h; a factor of 1.5 either way, more in tissue whose cells set the size.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for another rate.
///
/// # Source
/// Estimate: see the constants in the source of this function.
pub fn crystal_size_from_rate(rate: Speed) -> Result<[Length; 3], PhysicsError> {
    let w = RATE_RANGE.check(rate.metres_per_second() * CM_PER_H)?;
    Ok(SIZE_AT_1_CM_PER_H_UM.map(|d1| Length::from_micrometres(d1 * w.powf(RATE_EXPONENT))))
}

/// Exponent of time in the growth of ice crystals: Donhowe & Hartel, Recrystallization of ice during
/// bulk storage of ice cream, Int. Dairy J. 6, 1996.
const GROWTH_EXPONENT: f64 = 0.33;

/// How fast ice crystals grow: the size gained in the first day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CrystalGrowth {
    /// Growth over the first day.
    pub in_first_day: Length,
}

impl CrystalGrowth {
    /// Growth in the first day [µm] by storage temperature [°C], low, typical, high. Estimate; the law
    /// and its rise with temperature are those of Donhowe & Hartel 1996, the scale is not published
    /// there in a form that was read. A swing of 1 K adds 20 to 50 %; stabiliser divides by 1.2 to 3.
    const TABLE: [(f64, [f64; 3]); 5] = [
        (-25.0, [0.5, 1.0, 2.0]),
        (-20.0, [1.0, 2.0, 4.0]),
        (-15.0, [2.0, 4.0, 7.0]),
        (-10.0, [6.0, 10.0, 16.0]),
        (-5.0, [15.0, 25.0, 40.0]),
    ];
    const RANGE: Validity = Validity {
        law: "growth of ice crystals in storage",
        quantity: "storage temperature",
        low: -25.0,
        high: -5.0,
        unit: "°C",
    };

    /// Returns low, typical and high growth at a storage temperature, by interpolation of logarithms.
    ///
    /// # Units
    /// T \[°C\].
    ///
    /// # Validity
    /// -25 °C to -5 °C.
    ///
    /// # Errors
    /// [`PhysicsError::OutsideValidity`] outside.
    ///
    /// # Source
    /// Estimate, anchored on Donhowe & Hartel 1996: see the table in the source.
    pub fn at(celsius: f64) -> Result<[Self; 3], PhysicsError> {
        let t = Self::RANGE.check(celsius)?;
        let pair = Self::TABLE.windows(2).find(|pair| t <= pair[1].0).unwrap_or(&Self::TABLE[3..]);
        let share = (t - pair[0].0) / (pair[1].0 - pair[0].0);
        let mut growth = [Self { in_first_day: Length::ZERO }; 3];
        for (slot, (cold, warm)) in growth.iter_mut().zip(pair[0].1.iter().zip(pair[1].1)) {
            let um = (cold.ln() + share * (warm.ln() - cold.ln())).exp();
            slot.in_first_day = Length::from_micrometres(um);
        }
        Ok(growth)
    }
}

/// Returns the size of ice crystals after a time in storage.
///
/// `d = d0 + k t^0.33`, t in days
///
/// # Units
/// d \[m\], k \[m in the first day\], t \[s\].
///
/// # Validity
/// Ice cream and sorbet in bulk at a steady or gently swinging temperature.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a size of zero or less.
///
/// # Source
/// Donhowe & Hartel, Int. Dairy J. 6, 1996.
pub fn crystal_size_after_storage(
    size: Length,
    growth: CrystalGrowth,
    time: Time,
) -> Result<Length, PhysicsError> {
    positive("size of the ice crystals", size.metres(), "m")?;
    Ok(size + growth.in_first_day * time.days().max(0.0).powf(GROWTH_EXPONENT))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn faster_freezing_gives_finer_crystals_and_a_higher_class() {
        let rate = |cm_per_h: f64| Speed::from_metres_per_second(cm_per_h / CM_PER_H);
        let [low, typical, high] = crystal_size_from_rate(rate(4.0)).unwrap();
        assert!(low < typical && typical < high);
        assert!((typical.micrometres() - 45.0).abs() < 1e-9);
        assert_eq!(freezing_class(rate(0.2)).name(), "slow");
        assert_eq!(freezing_class(rate(1.0)).name(), "quick");
        assert_eq!(freezing_class(rate(7.0)).name(), "rapid");
        assert_eq!(freezing_class(rate(50.0)).name(), "ultra-rapid");
        assert!(crystal_size_from_rate(rate(0.01)).is_err());
    }

    #[test]
    fn storage_coarsens_and_warm_storage_more() {
        let size = Length::from_micrometres(40.0);
        let after = |celsius, days| {
            let [_, typical, _] = CrystalGrowth::at(celsius).unwrap();
            crystal_size_after_storage(size, typical, Time::from_days(days)).unwrap().micrometres()
        };
        assert!((after(-15.0, 1.0) - 44.0).abs() < 1e-9);
        assert!(after(-15.0, 30.0) > after(-18.0, 30.0));
        assert!((after(-5.0, 1.0) - 65.0).abs() < 1e-9);
        assert!(CrystalGrowth::at(0.0).is_err());
        assert!(
            crystal_size_after_storage(
                Length::ZERO,
                CrystalGrowth::at(-9.0).unwrap()[0],
                Time::ZERO
            )
            .is_err()
        );
    }

    #[test]
    fn a_rate_needs_a_way_and_a_time() {
        let cm = Length::from_centimetres(1.0);
        let rate = freezing_rate(cm, Time::from_hours(1.0)).unwrap();
        assert!((rate.metres_per_second() * CM_PER_H - 1.0).abs() < 1e-12);
        assert!(freezing_rate(cm, Time::ZERO).is_err());
        assert!(freezing_rate(Length::ZERO, Time::from_hours(1.0)).is_err());
    }
}
