//! Curves over one axis.

use super::{Axis, SHOWN_DIGITS, Spread};
use crate::quantity::significant;
use crate::report::document::Table;
use crate::report::scale::{Scale, clock_words};

/// With more places than this the curves are told in quarters of their way instead.
const MOST_PLACES: usize = 16;
/// The shares of its way at which a curve is told, and their names.
const QUARTERS: [(f64, &str); 5] = [
    (0.0, "at the start"),
    (0.25, "after a quarter"),
    (0.5, "after half"),
    (0.75, "after three quarters"),
    (1.0, "at the end"),
];

/// Curves over one axis.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Lines {
    /// The axis along the bottom.
    pub x: Axis,
    /// The axis up the side.
    pub y: Axis,
    /// The curves.
    pub series: Vec<Series>,
    /// Whether x is time from the start in hours, to be written as a clock.
    pub clock: bool,
    /// Values that are aimed at, with what is written there.
    pub levels: Vec<(f64, String)>,
    /// The highest value that is drawn; a rising curve ends there.
    pub most: Option<f64>,
}

/// One curve: points in rising order of x; a point whose value is not finite breaks the line.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Series {
    /// Its name in the key.
    pub name: String,
    /// A letter or a short word, written at its end; may be empty.
    pub sign: String,
    /// Places along x with the value and range there.
    pub points: Vec<(f64, Spread)>,
}

impl Series {
    /// Makes a curve without a sign.
    pub fn new(name: impl Into<String>, points: Vec<(f64, Spread)>) -> Self {
        Self { name: name.into(), sign: String::new(), points }
    }

    /// Returns its name in a key, after its sign.
    pub fn key(&self) -> String {
        match self.sign.as_str() {
            "" => self.name.clone(),
            sign => format!("{sign}: {}", self.name),
        }
    }

    /// Returns where it ends.
    pub fn end(&self) -> f64 {
        self.points.last().map_or(0.0, |(x, _)| *x)
    }

    /// Returns the value between points; `None` outside them or in a gap.
    pub fn at(&self, x: f64) -> Option<Spread> {
        let after = self.points.iter().position(|(place, _)| *place >= x)?;
        let (right, above) = self.points[after];
        let (left, below) = self.points[after.saturating_sub(1)];
        let share = if right > left { (x - left) / (right - left) } else { 1.0 };
        if after == 0 && right > x {
            return None;
        }
        let blend =
            |low: f64, high: f64| if share < 1.0 { low + share * (high - low) } else { high };
        let value = Spread {
            low: blend(below.low, above.low),
            typical: blend(below.typical, above.typical),
            high: blend(below.high, above.high),
        };
        value.typical.is_finite().then_some(value)
    }

    /// Returns the curve up to where it first rises above a value.
    fn cut(&self, most: f64) -> Self {
        let Some(over) = self.points.iter().position(|(_, y)| y.typical > most) else {
            return self.clone();
        };
        let mut points = self.points[..over].to_vec();
        let (right, above) = self.points[over];
        let reached = match points.last() {
            Some((left, below)) => {
                left + (right - left) * (most - below.typical) / (above.typical - below.typical)
            }
            None => right,
        };
        points.push((reached, Spread::exact(most)));
        Self { points, ..self.clone() }
    }
}

impl Lines {
    /// Returns the curves as they are drawn.
    pub fn drawn(&self) -> Vec<Series> {
        let cut = |series: &Series| self.most.map_or_else(|| series.clone(), |m| series.cut(m));
        self.series.iter().map(cut).collect()
    }

    /// Returns the scale along the bottom.
    pub fn x_scale(&self) -> Scale {
        match self.clock {
            true => Scale::clock(self.series.iter().map(Series::end)),
            false => Scale::covering(self.places()),
        }
    }

    /// Returns the scale up the side.
    pub fn y_scale(&self) -> Scale {
        let drawn = self.drawn();
        let points = drawn.iter().flat_map(|series| &series.points);
        let values = points.flat_map(|(_, y)| [y.low, y.high]);
        Scale::covering(values.chain(self.levels.iter().map(|(level, _)| *level)))
    }

    /// Writes a place along the bottom.
    pub fn x_words(&self, x: f64, digits: u32) -> String {
        if self.clock { clock_words(x) } else { significant(x, digits) }
    }

    /// Returns whether the curves run on clocks too different for one plot.
    pub fn clocks_differ(&self) -> bool {
        self.clock && self.x_scale().is_bent()
    }

    /// Returns what is written below the axis along the bottom.
    pub fn x_caption(&self) -> String {
        let how = if self.clocks_differ() { "; later hours are drawn closer together" } else { "" };
        format!("{}{how}", self.x.caption())
    }

    /// Returns every x at which some curve has a point, in rising order.
    fn places(&self) -> Vec<f64> {
        let mut places: Vec<f64> =
            self.series.iter().flat_map(|series| series.points.iter().map(|(x, _)| *x)).collect();
        places.sort_by(f64::total_cmp);
        places.dedup();
        places
    }

    pub(super) fn data(&self) -> Table {
        let places = self.places();
        if places.len() > MOST_PLACES && self.series.len() > 1 {
            return self.quarters();
        }
        let mut table = Table::new().numbers(self.x.caption());
        for series in &self.series {
            table = table.numbers(match self.y.unit.as_str() {
                "" => series.name.clone(),
                unit => format!("{} ({unit})", series.name),
            });
        }
        for x in places {
            let value = |series: &Series| {
                let point = series.points.iter().find(|(at, _)| at.total_cmp(&x).is_eq());
                point.map_or_else(String::new, |(_, spread)| spread.shown())
            };
            let first = self.x_words(x, SHOWN_DIGITS + 1);
            table.push(std::iter::once(first).chain(self.series.iter().map(value)));
        }
        table
    }

    /// Tells each curve at the quarters of its own way.
    fn quarters(&self) -> Table {
        let mut table = Table::new().words("Which").numbers(match self.clock {
            true => "lasts".to_owned(),
            false => format!("up to ({})", self.x.caption()),
        });
        for (_, name) in QUARTERS {
            table = table.numbers(match self.y.unit.as_str() {
                "" => name.to_owned(),
                unit => format!("{name} ({unit})"),
            });
        }
        for series in &self.series {
            let start = series.points.first().map_or(0.0, |(x, _)| *x);
            let at = |(share, _): (f64, &str)| {
                let x = start + share * (series.end() - start);
                series.at(x).map_or_else(|| "–".to_owned(), |value| value.shown())
            };
            let ends = self.x_words(series.end(), SHOWN_DIGITS);
            table.push([series.key(), ends].into_iter().chain(QUARTERS.map(at)));
        }
        table
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rising(name: &str, at: &[f64]) -> Series {
        Series::new(name, at.iter().map(|x| (*x, Spread::exact(2.0 * x))).collect())
    }

    #[test]
    fn curves_with_different_places_share_one_table() {
        let lines = Lines {
            x: Axis::new("Time", "min"),
            y: Axis::new("Mass", "g"),
            series: vec![rising("lab", &[1.0, 2.0]), rising("home", &[2.0, 3.0])],
            ..Lines::default()
        };
        let table = lines.data();
        assert_eq!(table.rows.len(), 3);
        assert_eq!(table.rows[1][1].words(), "4");
        assert_eq!(table.rows[2][1].words(), "");
    }

    #[test]
    fn long_curves_are_told_in_quarters_of_their_own_way() {
        let hours = |count: u32| (0..=count).map(f64::from).collect::<Vec<f64>>();
        let series = vec![rising("lab", &hours(8)), rising("home", &hours(48))];
        let lines = Lines { series, clock: true, ..Lines::default() };
        let table = lines.data();
        let row = |index: usize| -> Vec<String> {
            table.rows[index].iter().map(crate::report::Text::words).collect()
        };
        assert_eq!(row(0), ["lab", "8 h", "0", "4", "8", "12", "16"]);
        assert_eq!(row(1)[1], "2 days");
    }

    #[test]
    fn a_curve_is_cut_where_it_rises_above_what_is_drawn() {
        let series = vec![rising("home", &[0.0, 1.0, 5.0])];
        let lines = Lines { series, most: Some(4.0), ..Lines::default() };
        let drawn = lines.drawn();
        assert_eq!(drawn[0].points.last(), Some(&(2.0, Spread::exact(4.0))));
        assert!(lines.y_scale().high() < 5.0);
    }
}
