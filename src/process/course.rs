//! The temperature of a body over time, and what it does to the food.

use super::heat::expose;
use super::{Batch, CorePoint, HeatHistory, Point, Trace};
use crate::quantity::{Temperature, Time};

/// Pieces into which a course is cut for the record; doubling them moves lethality by under 2 %.
const PIECES: u32 = 12;
/// After this many decay times a body has the temperature of its surroundings, to 1 %.
const SETTLED: f64 = 4.6;
/// How much faster the later terms of the series decay than the first: (3 pi/2)² over (pi/2)² is 9,
/// less at small Biot numbers. A round middle.
const LATER_TERMS: f64 = 4.0;
/// The range in which food-borne germs grow [°C]: above 5 °C (FDA Food Code 2022, 3-501.16) and up to
/// 54.4 °C (USDA FSIS Appendix B, 1999).
const WARM: (f64, f64) = (5.0, 54.4);
/// Points of a drawn course.
const POINTS: u32 = 24;

/// The way of a body from its start to the temperature of its surroundings.
#[derive(Debug, Clone, Copy)]
pub(super) struct Course {
    /// Temperature at the start.
    pub start: Temperature,
    /// Temperature of the surroundings.
    pub surroundings: Temperature,
    /// Decay of the difference [1/s].
    pub rate: f64,
    /// Coefficient at the core, one or more.
    pub core: f64,
    /// Coefficient of the mean, one or less.
    pub mean: f64,
}

impl Course {
    /// Returns the temperature of the core: kept at first, then on its way.
    pub fn core(&self, time: Time) -> Temperature {
        let theta = (self.core * (-self.rate * time.seconds()).exp()).min(1.0);
        self.surroundings + (self.start - self.surroundings) * theta
    }

    /// Returns the average temperature.
    pub fn mean(&self, time: Time) -> Temperature {
        let decay = (-self.rate * time.seconds()).exp();
        let later = (1.0 - self.mean) * decay.powf(LATER_TERMS - 1.0);
        self.surroundings + (self.start - self.surroundings) * (decay * (self.mean + later))
    }

    /// Returns when the core reaches a temperature; `None` when it never does.
    pub fn core_reaches(&self, target: Temperature) -> Option<Time> {
        let whole = (self.start - self.surroundings).kelvin();
        let rest = (target - self.surroundings).kelvin();
        let theta = rest / whole;
        if theta >= 1.0 {
            return Some(Time::ZERO);
        }
        let reached = theta > 0.0;
        reached.then(|| Time::from_seconds((self.core / theta).ln().max(0.0) / self.rate))
    }

    /// Returns how long the core lies between two temperatures, up to a time.
    pub fn core_between(&self, low: Temperature, high: Temperature, until: Time) -> Time {
        let falls = self.start > self.surroundings;
        let (enter, leave) = if falls { (high, low) } else { (low, high) };
        let outside = if falls { self.start <= low } else { self.start >= high };
        if outside {
            return Time::ZERO;
        }
        let enter = self.core_reaches(enter).unwrap_or(until).min(until);
        let leave = self.core_reaches(leave).unwrap_or(until).min(until);
        (leave - enter).max(Time::ZERO)
    }

    /// Returns how long the core takes from one temperature to another, once it is there.
    pub fn core_takes(&self, from: Temperature, to: Temperature) -> Option<Time> {
        Some(self.core_reaches(to)? - self.core_reaches(from)?)
    }

    /// Puts the course on the record: quality by the average, lethality and warm time by the core.
    /// Returns the core as it was put down.
    pub fn record(&self, heat: &mut HeatHistory, until: Time, dissolved: f64) -> Vec<CorePoint> {
        let (mut core, before) = (*heat, heat.warm);
        let mut points = vec![CorePoint::of(Time::ZERO, self.start, heat)];
        let moving = until.min(Time::from_seconds(SETTLED / self.rate.max(f64::MIN_POSITIVE)));
        let step = moving / f64::from(PIECES);
        for piece in 0..PIECES {
            let middle = step * (f64::from(piece) + 0.5);
            expose(heat, self.mean(middle), step, dissolved);
            expose(&mut core, self.core(middle), step, dissolved);
            let end = step * f64::from(piece + 1);
            points.push(CorePoint::of(end, self.core(end), &core));
        }
        let rest = until - moving;
        if rest > Time::ZERO {
            expose(heat, self.surroundings, rest, dissolved);
            expose(&mut core, self.surroundings, rest, dissolved);
            points.push(CorePoint::of(until, self.core(until), &core));
        }
        let (low, high) = (Temperature::from_celsius(WARM.0), Temperature::from_celsius(WARM.1));
        heat.warm = before + self.core_between(low, high, until);
        heat.pasteurised = core.pasteurised;
        heat.sterilised = core.sterilised;
        heat.kills = core.kills;
        points
    }

    /// Draws the course.
    pub fn trace(&self, batch: &Batch, until: Time) -> Trace {
        let point = |index: u32| {
            let time = until * (f64::from(index) / f64::from(POINTS));
            Point {
                time,
                mass: batch.mass(),
                temperature: self.mean(time),
                measure: self.core(time).kelvin(),
                aroma: batch.aroma.left(crate::knowledge::NoteClass::Middle).unwrap_or(1.0),
            }
        };
        Trace::of("core temperature (K)", (0..=POINTS).map(point).collect())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn course() -> Course {
        let celsius = Temperature::from_celsius;
        Course {
            start: celsius(60.0),
            surroundings: celsius(0.0),
            rate: 1e-3,
            core: 1.27,
            mean: 0.81,
        }
    }

    #[test]
    fn the_core_lags_and_then_falls() {
        let course = course();
        assert!((course.core(Time::ZERO) - course.start).kelvin().abs() < 1e-9);
        assert!((course.mean(Time::ZERO) - course.start).kelvin().abs() < 1e-9);
        let half = course.core_reaches(Temperature::from_celsius(30.0)).unwrap();
        assert!((course.core(half).celsius() - 30.0).abs() < 1e-9);
        assert!(course.mean(half) < course.core(half));
        assert!(course.core_reaches(Temperature::from_celsius(-1.0)).is_none());
    }

    #[test]
    fn warm_time_is_exact() {
        let mut heat = HeatHistory::raw(course().start);
        let until = Time::from_hours(10.0);
        let points = course().record(&mut heat, until, 0.1);
        assert_eq!(points.last().map(|point| (point.time, point.kills)), Some((until, heat.kills)));
        // (ln(1.27 × 60 / 5) - ln(1.27 × 60 / 54.4)) / 0.001 s.
        let expected = (54.4f64 / 5.0).ln() / 1e-3;
        assert!((heat.warm.seconds() - expected).abs() < 1e-6, "{}", heat.warm.seconds());
    }
}
