//! The scale of an axis: round ends and round ticks.

/// About this many ticks stand on an axis.
const WANTED_TICKS: f64 = 4.0;
/// The steps between ticks that read easily, within a power of ten.
const ROUND_STEPS: [f64; 4] = [1.0, 2.0, 5.0, 10.0];
/// A tick lies on an end when it is within this share of a step of it.
const STEP_SLACK: f64 = 1e-9;

/// An axis from one round number to another.
#[derive(Debug, Clone, PartialEq)]
pub struct Scale {
    /// The ticks in rising order; the first and the last are the ends.
    pub ticks: Vec<f64>,
}

impl Scale {
    /// Makes a scale that covers the finite values among those given.
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
        Self { ticks }
    }

    /// Returns the lower end.
    pub fn low(&self) -> f64 {
        self.ticks.first().copied().unwrap_or(0.0)
    }

    /// Returns the upper end.
    pub fn high(&self) -> f64 {
        self.ticks.last().copied().unwrap_or(1.0)
    }

    /// Returns where a value lies between the ends: 0 at the lower, 1 at the upper.
    pub fn share(&self, value: f64) -> f64 {
        (value - self.low()) / (self.high() - self.low())
    }

    /// Returns the value at a share of the way between the ends.
    pub fn value(&self, share: f64) -> f64 {
        self.low() + share * (self.high() - self.low())
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
    }
}
