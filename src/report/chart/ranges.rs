//! Ranges below each other on one axis, each with what was found.

use super::{Axis, Spread};
use crate::quantity::significant;
use crate::report::document::Table;
use crate::report::scale::Scale;

/// Significant digits of what was found.
const FOUND_DIGITS: u32 = 3;

/// Ranges below each other on one axis.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Ranges {
    /// The axis along the bottom.
    pub axis: Axis,
    /// What a range is, for the key.
    pub range_is: String,
    /// What a mark is, for the key; empty where there is none.
    pub mark_is: String,
    /// A value to compare with, and what is written there.
    pub level: Option<(f64, String)>,
    /// The groups from the top.
    pub groups: Vec<RangeGroup>,
}

/// Ranges under one heading.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct RangeGroup {
    /// The heading; may be empty.
    pub name: String,
    /// The rows from the top.
    pub rows: Vec<RangeRow>,
}

/// One range with its mark.
#[derive(Debug, Clone, PartialEq)]
pub struct RangeRow {
    /// What it is about.
    pub name: String,
    /// The range.
    pub range: Spread,
    /// What was found.
    pub mark: Option<f64>,
}

impl RangeRow {
    /// Returns what was found as text.
    pub fn found(&self) -> String {
        self.mark.map_or_else(String::new, |mark| significant(mark, FOUND_DIGITS))
    }
}

impl Ranges {
    /// Returns the scale of the axis.
    pub fn scale(&self) -> Scale {
        let rows = self.groups.iter().flat_map(|group| &group.rows);
        let values =
            rows.flat_map(|row| [Some(row.range.low), Some(row.range.high), row.mark]).flatten();
        Scale::covering(values.chain(self.level.iter().map(|(level, _)| *level)))
    }

    pub(super) fn data(&self) -> Table {
        let headed = self.groups.iter().any(|group| !group.name.is_empty());
        let with_unit = |what: &str| match self.axis.unit.as_str() {
            "" => what.to_owned(),
            unit => format!("{what} ({unit})"),
        };
        let mut table = if headed { Table::new().words("What") } else { Table::new() };
        table = table.words("Which").numbers(with_unit(&self.range_is));
        if !self.mark_is.is_empty() {
            table = table.numbers(with_unit(&self.mark_is));
        }
        for group in &self.groups {
            for row in &group.rows {
                let mut cells = if headed { vec![group.name.clone()] } else { Vec::new() };
                cells.extend([row.name.clone(), row.range.shown()]);
                if !self.mark_is.is_empty() {
                    cells.push(row.found());
                }
                table.push(cells);
            }
        }
        table
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_has_a_column_for_what_was_found_only_where_something_was() {
        let row = |mark| RangeRow { name: "T-01".into(), range: Spread::exact(2.0), mark };
        let group = |mark| RangeGroup { name: String::new(), rows: vec![row(mark)] };
        let found = Ranges {
            mark_is: "measured".into(),
            groups: vec![group(Some(3.0))],
            ..Ranges::default()
        };
        assert_eq!(found.data().columns.len(), 3);
        assert_eq!(found.data().rows[0][2].words(), "3");
        let none = Ranges { groups: vec![group(None)], ..Ranges::default() };
        assert_eq!(none.data().columns.len(), 2);
        assert!(found.scale().high() >= 3.0);
    }
}
