//! Gas released into a room: concentration and oxygen left.
//!
//! Answers how high carbon dioxide, nitrogen or nitrous oxide rises in a well-mixed room, and how
//! long airing takes. Cold and heavy gas lies lower than the mean says.
//!
//! Symbols: c gas share, v room volume, n air changes per time, g gas flow, t time.

use super::cryogen::{Gas, specific_volume};
use super::{PhysicsError, Validity, positive};
use crate::quantity::{Mass, Pressure, Rate, Temperature, Time, Volume};

/// Oxygen in air: NOAA/ISO 2533, 20.95 % by volume.
pub const OXYGEN_SHARE_OF_AIR: f64 = 0.209_5;
/// Carbon dioxide in outdoor air: NOAA Global Monitoring Laboratory, 2020s mean 420 ppm.
pub const CARBON_DIOXIDE_OUTDOORS: f64 = 420e-6;
/// Carbon dioxide, mean of a working day: OSHA 29 CFR 1910.1000 table Z-1 and NIOSH Pocket Guide,
/// 5000 ppm.
pub const CARBON_DIOXIDE_DAY_LIMIT: f64 = 5_000e-6;
/// Carbon dioxide, mean of 15 minutes: NIOSH Pocket Guide and ACGIH, 30 000 ppm.
pub const CARBON_DIOXIDE_SHORT_LIMIT: f64 = 30_000e-6;
/// Carbon dioxide, immediately dangerous: NIOSH IDLH documentation 1994, 40 000 ppm.
pub const CARBON_DIOXIDE_DANGER: f64 = 40_000e-6;
/// Nitrous oxide, mean over the time of use: NIOSH Pocket Guide, 25 ppm, restated by OSHA Chemical
/// Sampling Information.
pub const NITROUS_OXIDE_LIMIT: f64 = 25e-6;
/// Oxygen, least share: OSHA 29 CFR 1910.134 and 1910.146, 19.5 %.
pub const OXYGEN_MINIMUM: f64 = 0.195;
/// Oxygen, share above which things burn more fiercely: OSHA 29 CFR 1910.146, 23.5 %, from memory, unverified.
pub const OXYGEN_MAXIMUM: f64 = 0.235;

/// A room with its airing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Room {
    /// Air volume.
    pub volume: Volume,
    /// Air changes per time; zero for a closed room.
    pub air_changes: Rate,
    /// Air temperature.
    pub temperature: Temperature,
    /// Air pressure.
    pub pressure: Pressure,
}

/// Gas let into a room from time zero on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Release {
    /// Which gas.
    pub gas: Gas,
    /// How much in all.
    pub mass: Mass,
    /// Over which time; zero when all at once.
    pub duration: Time,
}

/// The course of a release in one room, solved in closed form.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Course {
    /// Released gas at its highest, as a share of the air, without what is outdoors.
    pub peak: f64,
    gas: Gas,
    volume_ratio: f64,
    /// Air changes [1/s].
    n: f64,
    /// Duration of the release \[s\].
    duration: f64,
}

const RELEASE_RANGE: Validity = Validity {
    law: "a release of gas in a room",
    quantity: "volume of gas over that of the room",
    low: 0.0,
    high: 1.0,
    unit: "",
};

/// Returns the course of the gas share in a room.
///
/// While gas flows in, `dc/dt = g/v (1 - c) - n c`; afterwards `c = c_peak exp(-n t)`. All at once,
/// `c_peak = v_gas / v`: the gas is taken to push out air alone, the worst case.
///
/// # Units
/// c [-], v \[m³\], n [1/s], t \[s\].
///
/// # Validity
/// Well-mixed air; released gas no more than the room. Near the floor cold gas and carbon dioxide
/// reach two to five times the mean (estimate).
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a room or a release of nothing;
/// [`PhysicsError::OutsideValidity`] for more gas than room, or temperatures and pressures beyond
/// [`specific_volume`].
///
/// # Source
/// Mass balance; at once as in EIGA Doc 44 and BCGA CP 30, oxygen depletion (from memory).
pub fn course(room: &Room, release: &Release) -> Result<Course, PhysicsError> {
    let volume = positive("room volume", room.volume.cubic_metres(), "m³")?;
    let mass = positive("gas", release.mass.kilograms(), "kg")?;
    let gas_volume = mass * specific_volume(release.gas, room.temperature, room.pressure)?;
    let volume_ratio = RELEASE_RANGE.check(gas_volume / volume)?;
    let n = room.air_changes.per_second().max(0.0);
    let duration = release.duration.seconds().max(0.0);
    let mut course = Course { peak: 0.0, gas: release.gas, volume_ratio, n, duration };
    course.peak = if duration > 0.0 { course.rising(duration) } else { volume_ratio };
    Ok(course)
}

impl Course {
    /// The share at a time while gas flows in.
    fn rising(&self, t: f64) -> f64 {
        let inflow = self.volume_ratio / self.duration;
        let rate = inflow + self.n;
        inflow / rate * -(-rate * t).exp_m1()
    }

    /// Returns the share of released gas at a time after the start.
    pub fn share_at(&self, time: Time) -> f64 {
        let t = time.seconds().max(0.0);
        if t < self.duration {
            self.rising(t)
        } else {
            self.peak * (-self.n * (t - self.duration)).exp()
        }
    }

    /// Returns the mean share of released gas from the start over a time.
    ///
    /// `mean = 1/t ∫ c dt`
    pub fn mean_over(&self, time: Time) -> f64 {
        let t = time.seconds();
        if t <= 0.0 {
            return self.share_at(Time::ZERO);
        }
        let rise = t.min(self.duration);
        let rising = if rise > 0.0 {
            let inflow = self.volume_ratio / self.duration;
            let rate = inflow + self.n;
            inflow / rate * (rise + (-rate * rise).exp_m1() / rate)
        } else {
            0.0
        };
        let fall = t - rise;
        let falling = if self.n > 0.0 {
            self.peak * -(-self.n * fall).exp_m1() / self.n
        } else {
            self.peak * fall
        };
        (rising + falling) / t
    }

    /// Returns the oxygen share of the air when a share of it is released gas.
    ///
    /// `o = 0.2095 (1 - c)`, plus c for a release of oxygen.
    pub fn oxygen_at(&self, share: f64) -> f64 {
        let own = if self.gas == Gas::Oxygen { share } else { 0.0 };
        OXYGEN_SHARE_OF_AIR * (1.0 - share) + own
    }

    /// Returns how long after the start the gas stays at or above a share; `None` for ever.
    ///
    /// `t = duration + ln(c_peak / c) / n`
    pub fn time_until_below(&self, share: f64) -> Option<Time> {
        if self.peak < share {
            Some(Time::ZERO)
        } else if self.n > 0.0 && share > 0.0 {
            Some(Time::from_seconds(self.duration + (self.peak / share).ln() / self.n))
        } else {
            None
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn room(changes_per_hour: f64) -> Room {
        Room {
            volume: Volume::from_cubic_metres(30.0),
            air_changes: Rate::from_per_hour(changes_per_hour),
            temperature: Temperature::from_celsius(20.0),
            pressure: Pressure::from_pascals(101_325.0),
        }
    }

    fn release(kilograms: f64, hours: f64) -> Release {
        Release {
            gas: Gas::CarbonDioxide,
            mass: Mass::from_kilograms(kilograms),
            duration: Time::from_hours(hours),
        }
    }

    #[test]
    fn nothing_and_too_much_are_refused() {
        assert!(course(&room(1.0), &release(0.0, 0.0)).is_err());
        assert!(course(&room(1.0), &release(100.0, 0.0)).is_err());
        let none = Room { volume: Volume::ZERO, ..room(1.0) };
        assert!(course(&none, &release(1.0, 0.0)).is_err());
        let frozen = Room { temperature: Temperature::from_kelvin(100.0), ..room(1.0) };
        assert!(course(&frozen, &release(1.0, 0.0)).is_err());
    }

    #[test]
    fn airing_and_slowness_lower_the_peak() {
        let peak = |n, hours| course(&room(n), &release(1.0, hours)).unwrap().peak;
        assert!(peak(0.0, 0.0) > peak(0.0, 1.0));
        assert!(peak(0.0, 1.0) > peak(1.0, 1.0));
        assert!(peak(1.0, 1.0) > peak(4.0, 1.0));
    }

    #[test]
    fn the_mean_is_the_integral_of_the_course() {
        for (n, hours) in [(0.0, 0.0), (2.0, 0.0), (0.0, 1.0), (2.0, 1.0)] {
            let course = course(&room(n), &release(1.0, hours)).unwrap();
            let share = |t: f64| course.share_at(Time::from_seconds(t));
            let split = 3600.0 * hours;
            let sum = crate::physics::solve::integral(0.0, split, 8, share)
                + crate::physics::solve::integral(split, 14_400.0, 8, share);
            let mean = course.mean_over(Time::from_hours(4.0));
            assert!((mean - sum / 14_400.0).abs() < 1e-9, "{n} {hours}");
        }
    }

    #[test]
    fn the_share_is_at_the_limit_when_it_falls_below() {
        let course = course(&room(2.0), &release(1.0, 0.5)).unwrap();
        let limit = CARBON_DIOXIDE_DAY_LIMIT;
        let time = course.time_until_below(limit).unwrap();
        assert!((course.share_at(time) - limit).abs() < 1e-12);
        assert_eq!(course.time_until_below(0.5), Some(Time::ZERO));
        let closed = super::course(&room(0.0), &release(1.0, 0.5)).unwrap();
        assert_eq!(closed.time_until_below(limit), None);
    }

    #[test]
    fn oxygen_falls_with_nitrogen_and_rises_with_oxygen() {
        let of = |gas| course(&room(0.0), &Release { gas, ..release(1.0, 0.0) }).unwrap();
        let nitrogen = of(Gas::Nitrogen);
        assert!(nitrogen.oxygen_at(nitrogen.peak) < OXYGEN_SHARE_OF_AIR);
        let oxygen = of(Gas::Oxygen);
        assert!(oxygen.oxygen_at(oxygen.peak) > OXYGEN_SHARE_OF_AIR);
    }
}
