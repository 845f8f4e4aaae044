//! The scale of an axis: round ends and round ticks, and clocks that differ a hundredfold.

use crate::quantity::significant;

/// About this many ticks stand on an axis.
const WANTED_TICKS: f64 = 4.0;
/// The steps between ticks that read easily, within a power of ten.
const ROUND_STEPS: [f64; 4] = [1.0, 2.0, 5.0, 10.0];
/// A tick lies on an end when it is within this share of a step of it.
const STEP_SLACK: f64 = 1e-9;
/// Times that read easily [h]: minutes, hours, days.
const TIMES: [f64; 20] = [
    1.0 / 60.0,
    2.0 / 60.0,
    5.0 / 60.0,
    10.0 / 60.0,
    20.0 / 60.0,
    0.5,
    1.0,
    2.0,
    4.0,
    8.0,
    12.0,
    24.0,
    48.0,
    96.0,
    168.0,
    336.0,
    720.0,
    1440.0,
    2880.0,
    8760.0,
];
/// Above this ratio of the longest clock to the shortest, later time is drawn closer together.
const CLOCKS_APART: f64 = 6.0;
/// The shortest clock takes up to this many units in which time still passes evenly.
const EVEN_UNITS: f64 = 4.0;
/// Ticks of a clock stand no closer than this share of the axis.
const CLOSEST_TICKS: f64 = 0.18;
/// Hours of a day and of half an hour, minutes of an hour.
const DAY: f64 = 24.0;
const HALF_HOUR: f64 = 0.5;
const MINUTES: f64 = 60.0;

/// An axis from one end to the other.
#[derive(Debug, Clone, PartialEq)]
pub struct Scale {
    /// The ticks in rising order.
    pub ticks: Vec<f64>,
    ends: (f64, f64),
    /// Values well above this are drawn ever closer together.
    bend: Option<f64>,
}

impl Scale {
    /// Makes a scale that covers the finite values among those given; its ends are ticks.
    pub fn covering(values: impl IntoIterator<Item = f64>) -> Self {
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        for value in values.into_iter().filter(|value| value.is_finite()) {
            low = low.min(value);
            high = high.max(value);
        }
        if low > high {
            (low, high) = (0.0, 1.0);
        }
        if high - low <= f64::EPSILON * high.abs().max(low.abs()) {
            let room = if low.abs() > 0.0 { low.abs() / 2.0 } else { 1.0 };
            (low, high) = (low - room, high + room);
        }
        let step = round_step((high - low) / WANTED_TICKS);
        let first = (low / step + STEP_SLACK).floor();
        let last = (high / step - STEP_SLACK).ceil();
        let (mut ticks, mut count) = (Vec::new(), first);
        while count <= last {
            ticks.push(count * step + 0.0);
            count += 1.0;
        }
        Self { ticks, ends: (first * step + 0.0, last * step + 0.0), bend: None }
    }

    /// Makes a scale with a tick at each end.
    pub fn between(low: f64, high: f64) -> Self {
        let high = if high > low { high } else { low + 1.0 };
        Self { ticks: vec![low, high], ends: (low, high), bend: None }
    }

    /// Makes a scale of time \[h\] from nought to the longest of some clocks. Where they differ much,
    /// `t` lies at `ln(1 + t / b)`, b a quarter of the shortest clock, so that each can be read.
    pub fn clock(clocks: impl IntoIterator<Item = f64>) -> Self {
        let (mut shortest, mut longest) = (f64::INFINITY, 0.0_f64);
        for clock in clocks.into_iter().filter(|clock| clock.is_finite() && *clock > 0.0) {
            (shortest, longest) = (shortest.min(clock), longest.max(clock));
        }
        if longest <= 0.0 {
            (shortest, longest) = (1.0, 1.0);
        }
        let bend = (longest > CLOCKS_APART * shortest).then_some(shortest / EVEN_UNITS);
        let mut scale = Self { ticks: Vec::new(), ends: (0.0, longest), bend };
        scale.ticks = scale.times();
        scale
    }

    fn times(&self) -> Vec<f64> {
        let longest = self.ends.1;
        let mut ticks = vec![0.0];
        if self.bend.is_some() {
            for time in TIMES.into_iter().filter(|time| *time <= longest) {
                let last = ticks.last().map_or(0.0, |tick| self.share(*tick));
                if self.share(time) - last >= CLOSEST_TICKS {
                    ticks.push(time);
                }
            }
            return ticks;
        }
        // Thirds of an hour are not read easily beyond the first.
        let finest = CLOSEST_TICKS * longest;
        let finest = if longest > 1.0 { finest.max(HALF_HOUR) } else { finest };
        let step = TIMES.iter().find(|step| **step >= finest);
        let step = step.copied().unwrap_or(longest);
        let mut count = 1.0;
        while count * step <= longest * (1.0 + STEP_SLACK) {
            ticks.push(count * step);
            count += 1.0;
        }
        ticks
    }

    /// Returns whether later values are drawn closer together.
    pub const fn is_bent(&self) -> bool {
        self.bend.is_some()
    }

    /// Returns the lower end.
    pub const fn low(&self) -> f64 {
        self.ends.0
    }

    /// Returns the upper end.
    pub const fn high(&self) -> f64 {
        self.ends.1
    }

    /// Returns where a value lies between the ends: 0 at the lower, 1 at the upper.
    pub fn share(&self, value: f64) -> f64 {
        let (low, high) = self.ends;
        match self.bend {
            Some(bend) => ((value - low) / bend).ln_1p() / ((high - low) / bend).ln_1p(),
            None => (value - low) / (high - low),
        }
    }

    /// Returns the value at a share of the way between the ends.
    pub fn value(&self, share: f64) -> f64 {
        let (low, high) = self.ends;
        match self.bend {
            Some(bend) => low + bend * (share * ((high - low) / bend).ln_1p()).exp_m1(),
            None => low + share * (high - low),
        }
    }
}

/// Writes a time on a clock \[h\]: minutes, hours, or whole days.
pub fn clock_words(hours: f64) -> String {
    let days = hours / DAY;
    if hours <= 0.0 {
        "0".to_owned()
    } else if hours < 1.0 {
        format!("{} min", significant(hours * MINUTES, 2))
    } else if hours < DAY || (days - days.round()).abs() > STEP_SLACK {
        format!("{} h", significant(hours, 2))
    } else {
        let unit = if days < 2.0 { "day" } else { "days" };
        format!("{} {unit}", significant(days, 3))
    }
}

/// Returns the next round step at or above a size.
fn round_step(size: f64) -> f64 {
    let power = 10f64.powf(size.log10().floor());
    let step = ROUND_STEPS.iter().find(|step| **step * power >= size * (1.0 - STEP_SLACK));
    step.copied().unwrap_or(10.0) * power
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ticks(low: f64, high: f64) -> Vec<f64> {
        Scale::covering([low, high]).ticks
    }

    #[test]
    fn ends_are_round_and_cover_the_values() {
        assert_eq!(ticks(3.0, 97.0), [0.0, 50.0, 100.0]);
        assert_eq!(ticks(20.0, 80.0), [20.0, 40.0, 60.0, 80.0]);
        assert_eq!(ticks(-18.0, 4.0), [-20.0, -10.0, 0.0, 10.0]);
    }

    #[test]
    fn a_single_value_stands_in_the_middle() {
        let scale = Scale::covering([7.0]);
        assert!(scale.low() < 7.0 && scale.high() > 7.0);
    }

    #[test]
    fn no_values_give_an_axis_all_the_same() {
        assert!(Scale::covering([f64::NAN]).ticks.len() > 1);
        assert!(Scale::clock([]).high() > 0.0);
    }

    #[test]
    fn clocks_alike_share_an_even_axis_in_round_times() {
        let scale = Scale::clock([0.7, 1.0]);
        assert!(!scale.is_bent());
        let words: Vec<String> = scale.ticks.iter().map(|tick| clock_words(*tick)).collect();
        assert_eq!(words, ["0", "20 min", "40 min", "1 h"]);
    }

    #[test]
    fn twenty_minutes_can_be_read_beside_four_days() {
        let scale = Scale::clock([1.0 / 3.0, 96.0]);
        assert!(scale.is_bent());
        assert!(scale.share(1.0 / 3.0) > 0.2, "{}", scale.share(1.0 / 3.0));
        for share in [0.0, 0.3, 1.0] {
            assert!((scale.share(scale.value(share)) - share).abs() < 1e-12);
        }
        assert!(scale.ticks.len() >= 4 && scale.ticks.len() <= 6, "{:?}", scale.ticks);
    }

    #[test]
    fn times_are_written_in_the_unit_that_reads_best() {
        let written = [0.0, 0.25, 2.5, 36.0, 24.0, 96.0].map(clock_words);
        assert_eq!(written, ["0", "15 min", "2.5 h", "36 h", "1 day", "4 days"]);
    }
}
