//! The courses of methods over time, each on its own clock: what is left, the aroma, the warmth.

use super::{Axis, Chart, Figure, Lines, Series, Spread, shown};
use crate::advisor::Method;
use crate::process::{CorePoint, Point};
use crate::quantity::Time;

/// So many methods at most are drawn into one chart.
pub(super) const MOST_DRAWN: usize = 6;
/// The axis along the bottom.
const CLOCK: &str = "time from the start";

/// A method that is drawn.
#[derive(Debug, Clone)]
pub(super) struct Drawn<'a> {
    /// A letter or a short word.
    pub sign: String,
    /// Its name in the key.
    pub name: String,
    /// The method.
    pub method: &'a Method,
}

impl<'a> Drawn<'a> {
    /// Draws a method under a sign.
    pub fn new(sign: impl Into<String>, method: &'a Method) -> Self {
        let loads = method.moves.iter().filter_map(|one| one.loads).map(|loads| loads.count);
        let loads = loads.fold(1.0, f64::max);
        let name = match loads > 1.0 {
            true => format!("{}, one of {loads:.0} loads", method.name),
            false => method.name.clone(),
        };
        Self { sign: sign.into(), name, method }
    }

    /// Makes a curve of points.
    pub fn series(&self, points: Vec<(f64, f64)>) -> Series {
        let points = points.into_iter().map(|(x, y)| (x, Spread::exact(y))).collect();
        Series { sign: self.sign.clone(), ..Series::new(self.name.as_str(), points) }
    }

    /// Returns a reading of its moves, one after the other [h].
    fn readings(&self, of: fn(&Point) -> f64) -> Vec<(f64, f64)> {
        self.along(|trace| trace.points.iter().map(|point| (point.time, of(point))).collect())
    }

    /// Returns the record of the coldest place, move after move, with the time [h].
    pub fn core(&self) -> Vec<(f64, CorePoint)> {
        self.along(|trace| trace.core.iter().map(|point| (point.time, *point)).collect())
    }

    fn along<T>(&self, read: impl Fn(&crate::process::Trace) -> Vec<(Time, T)>) -> Vec<(f64, T)> {
        let mut start = 0.0;
        let mut points: Vec<(f64, T)> = Vec::new();
        for one in &self.method.moves {
            let read = one.trace.as_ref().map(&read).unwrap_or_default();
            points.extend(read.into_iter().map(|(time, value)| (start + time.hours(), value)));
            let lasts = one.time.map_or(0.0, |time| Time::from_seconds(time.typical()).hours());
            start = points.last().map_or(0.0, |(last, _)| *last).max(start + lasts);
        }
        points
    }
}

/// Returns a chart of curves over time; `None` without a curve.
pub(super) fn over_time(
    title: &str,
    finding: String,
    y: Axis,
    series: Vec<Series>,
) -> Option<Chart> {
    if series.is_empty() {
        return None;
    }
    let x = Axis::new(CLOCK, "");
    let lines = Lines { x, y, series, clock: true, ..Lines::default() };
    Some(Chart::new(title, finding, Figure::Lines(lines)))
}

/// One reading of the courses of all methods.
struct Reading {
    title: &'static str,
    axis: (&'static str, &'static str),
    of: fn(&Point) -> f64,
    /// The chart is worth its place when a course moves by more than this.
    least: f64,
}

/// What is drawn of the courses: the reduction, the aroma, the warmth.
const READINGS: [Reading; 3] = [
    Reading {
        title: "How each method goes",
        axis: ("mass of the food or of what is collected", "kg"),
        of: |point| point.mass.kilograms(),
        least: 0.0,
    },
    Reading {
        title: "Aroma left on the way",
        axis: ("middle notes left", "%"),
        of: |point| 100.0 * point.aroma,
        least: 5.0,
    },
    Reading {
        title: "How warm the food is on the way",
        axis: ("temperature of the food", "°C"),
        of: |point| point.temperature.celsius(),
        least: 5.0,
    },
];

/// The course of every method, each on its own clock; none of what hardly moves.
/// The warmth comes last; it is left out where the core is drawn.
pub(super) fn charts(methods: &[Drawn<'_>], first: &str, with_core: bool) -> Vec<Chart> {
    let count = if with_core { READINGS.len() - 1 } else { READINGS.len() };
    READINGS.iter().take(count).filter_map(|reading| drawn(methods, reading, first)).collect()
}

fn drawn(methods: &[Drawn<'_>], reading: &Reading, first: &str) -> Option<Chart> {
    let series: Vec<Series> = methods
        .iter()
        .map(|one| one.series(one.readings(reading.of)))
        .filter(|series| series.points.len() > 1)
        .collect();
    let moved = |series: &Series| {
        let values = || series.points.iter().map(|(_, spread)| spread.typical);
        values().fold(f64::MIN, f64::max) - values().fold(f64::MAX, f64::min)
    };
    if !series.iter().any(|one| moved(one) > reading.least) {
        return None;
    }
    let finding = if reading.least > 0.0 { ends(&series, reading) } else { first.to_owned() };
    let y = Axis::new(reading.axis.0, reading.axis.1);
    over_time(reading.title, finding, y, series)
}

/// Says where the laboratory and the best route end.
fn ends(series: &[Series], reading: &Reading) -> String {
    let end = |one: &Series| {
        let last = one.points.last().map_or(0.0, |(_, spread)| spread.typical);
        format!("{} {} ({})", shown::number(last), reading.axis.1, one.name)
    };
    let named: Vec<String> = series.iter().take(2).map(end).collect();
    format!("At the end: {}.", named.join(", "))
}
