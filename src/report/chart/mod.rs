//! Charts as data: what is drawn, and the finding in words for those who cannot see it.

mod lines;
mod ranges;

pub use lines::{Lines, Series};
pub use ranges::{RangeGroup, RangeRow, Ranges};

use super::document::{Table, Text};
use super::scale::Scale;
use crate::quantity::{range_text, significant};

/// Significant digits of the numbers beside a chart.
const SHOWN_DIGITS: u32 = 3;

/// A chart: a title, the finding in words, and what is drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Chart {
    /// What the chart shows.
    pub title: String,
    /// What a reader should take from it, in a sentence; the text alternative.
    pub finding: String,
    /// What is drawn.
    pub figure: Figure,
    /// Whether it is drawn on pages alone; elsewhere the finding stands for it.
    pub page_only: bool,
}

impl Chart {
    /// Makes a chart.
    pub fn new(title: impl Into<String>, finding: impl Into<String>, figure: Figure) -> Self {
        Self { title: title.into(), finding: finding.into(), figure, page_only: false }
    }

    /// Says what it shows where it is not drawn.
    pub fn in_words(&self) -> Text {
        Text::new().strong(format!("{}: ", self.title)).plain(self.finding.as_str())
    }

    /// Has it drawn on pages alone.
    #[must_use]
    pub fn on_pages(self) -> Self {
        Self { page_only: true, ..self }
    }
}

/// The kinds of chart.
#[derive(Debug, Clone, PartialEq)]
pub enum Figure {
    /// Curves over an axis, each with its band.
    Lines(Lines),
    /// Horizontal bars, side by side for comparison.
    Bars(Bars),
    /// Ranges below each other, each with what was found.
    Ranges(Ranges),
    /// Who or what is busy when.
    Timeline(Timeline),
    /// A matrix of cells shaded by how well they do.
    Grid(Grid),
}

/// What an axis measures.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Axis {
    /// The quantity.
    pub label: String,
    /// Its unit; empty for a plain number.
    pub unit: String,
}

impl Axis {
    /// Makes an axis.
    pub fn new(label: impl Into<String>, unit: impl Into<String>) -> Self {
        Self { label: label.into(), unit: unit.into() }
    }

    /// Returns the label with the unit in brackets.
    pub fn caption(&self) -> String {
        match self.unit.as_str() {
            "" => self.label.clone(),
            unit => format!("{} ({unit})", self.label),
        }
    }
}

/// A value with its range; all three are equal when there is none.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread {
    /// The lower end.
    pub low: f64,
    /// The value to expect.
    pub typical: f64,
    /// The upper end.
    pub high: f64,
}

impl Spread {
    /// A value without a range.
    pub const fn exact(value: f64) -> Self {
        Self { low: value, typical: value, high: value }
    }

    /// Returns whether there is a range to draw.
    pub fn is_range(&self) -> bool {
        self.high > self.low
    }

    /// Returns the value as text, with its range in brackets when it has one.
    pub fn shown(&self) -> String {
        let number = |value| significant(value, SHOWN_DIGITS);
        if !self.typical.is_finite() {
            return "–".to_owned();
        }
        match self.is_range() {
            true => {
                let range = range_text(&number(self.low), &number(self.high));
                format!("{} ({range})", number(self.typical))
            }
            false => number(self.typical),
        }
    }
}

/// Horizontal bars in groups.
#[derive(Debug, Clone, PartialEq)]
pub struct Bars {
    /// What the length of a bar measures.
    pub axis: Axis,
    /// The value of a full bar; `None` takes the largest.
    pub full: Option<f64>,
    /// The groups from the top.
    pub groups: Vec<BarGroup>,
}

/// Bars that are compared with each other, such as the laboratory and the home.
#[derive(Debug, Clone, PartialEq)]
pub struct BarGroup {
    /// What is compared.
    pub name: String,
    /// Each bar's name and value.
    pub bars: Vec<(String, Spread)>,
}

/// Lanes of work along a time axis.
#[derive(Debug, Clone, PartialEq)]
pub struct Timeline {
    /// The time axis.
    pub axis: Axis,
    /// The lanes from the top: the cook first, then the gear.
    pub lanes: Vec<Lane>,
    /// Places along the axis with what is written there, such as the time of day; where there is
    /// none, round numbers are.
    pub marks: Vec<(f64, String)>,
    /// What is written for those who cannot see it; without it, every stretch with its times.
    pub listing: Option<Table>,
}

/// What one cook or one appliance does.
#[derive(Debug, Clone, PartialEq)]
pub struct Lane {
    /// Who or what.
    pub name: String,
    /// The stretches of work in order.
    pub stretches: Vec<Stretch>,
}

/// One stretch of work.
#[derive(Debug, Clone, PartialEq)]
pub struct Stretch {
    /// When it begins.
    pub from: f64,
    /// When it ends.
    pub to: f64,
    /// What is done.
    pub label: String,
    /// Whether someone must attend to it; otherwise it runs by itself.
    pub active: bool,
}

/// A matrix of cells.
#[derive(Debug, Clone, PartialEq)]
pub struct Grid {
    /// What the rows are.
    pub rows_are: String,
    /// The names of the columns.
    pub columns: Vec<String>,
    /// Each row's name and cells.
    pub rows: Vec<(String, Vec<GridCell>)>,
}

/// One cell of a matrix; the word is always written, so that shade is never the only sign.
#[derive(Debug, Clone, PartialEq)]
pub struct GridCell {
    /// What is written in it.
    pub word: String,
    /// How well it does, from 0 to 1; `None` leaves it unshaded.
    pub level: Option<f64>,
}

impl Chart {
    /// Returns the numbers of the chart as a table, for formats that cannot draw and for readers
    /// who cannot see.
    pub fn data(&self) -> Table {
        let table = match &self.figure {
            Figure::Lines(lines) => lines.data(),
            Figure::Bars(bars) => bars.data(),
            Figure::Ranges(ranges) => ranges.data(),
            Figure::Timeline(timeline) => timeline.data(),
            Figure::Grid(grid) => grid.data(),
        };
        table.caption(self.title.as_str())
    }
}

impl Bars {
    fn data(&self) -> Table {
        let mut table = Table::new().words("What").words("Which").numbers(self.axis.caption());
        for group in &self.groups {
            for (name, spread) in &group.bars {
                table.push([group.name.clone(), name.clone(), spread.shown()]);
            }
        }
        table
    }

    /// Returns the value of a full bar.
    pub fn full(&self) -> f64 {
        let highs = self.groups.iter().flat_map(|group| group.bars.iter().map(|(_, s)| s.high));
        let largest = highs.filter(|high| high.is_finite()).fold(0.0, f64::max);
        self.full.unwrap_or(largest)
    }
}

impl Timeline {
    fn data(&self) -> Table {
        if let Some(listing) = &self.listing {
            return listing.clone();
        }
        let unit = &self.axis.unit;
        let mut table = Table::new()
            .words("Who")
            .numbers(format!("From ({unit})"))
            .numbers(format!("To ({unit})"))
            .words("What")
            .words("Attention");
        for lane in &self.lanes {
            for stretch in &lane.stretches {
                let number = |value| significant(value, SHOWN_DIGITS);
                let attention = if stretch.active { "active" } else { "by itself" };
                table.push([
                    lane.name.clone(),
                    number(stretch.from),
                    number(stretch.to),
                    stretch.label.clone(),
                    attention.to_owned(),
                ]);
            }
        }
        table
    }

    /// Returns the scale of the axis: round numbers, or the work alone where there are marks.
    pub(super) fn scale(&self) -> Scale {
        match self.marks.is_empty() {
            true => Scale::covering([0.0, self.end()]),
            false => Scale::between(0.0, self.end()),
        }
    }

    /// Returns when the last stretch ends.
    pub fn end(&self) -> f64 {
        let ends = self.lanes.iter().flat_map(|lane| lane.stretches.iter().map(|s| s.to));
        ends.filter(|end| end.is_finite()).fold(0.0, f64::max)
    }
}

impl Grid {
    fn data(&self) -> Table {
        let mut table = Table::new().words(self.rows_are.as_str());
        for column in &self.columns {
            table = table.words(column.as_str());
        }
        for (name, cells) in &self.rows {
            let words = cells.iter().map(|cell| Text::from(cell.word.as_str()));
            table.push(std::iter::once(Text::from(name.as_str())).chain(words));
        }
        table
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_range_is_written_in_brackets() {
        let spread = Spread { low: 0.5, typical: 0.75, high: 1.0 };
        assert_eq!(spread.shown(), "0.75 (0.5–1)");
        assert_eq!(Spread::exact(2.0).shown(), "2");
        assert_eq!(Spread::exact(f64::NAN).shown(), "–");
    }
}
