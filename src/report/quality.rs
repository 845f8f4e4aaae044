//! Laboratory and home side by side: a table, and what is kept as bars.

use super::adapt::attribute_name;
use super::document::{Block, Document, Table};
use super::{Axis, BarGroup, Bars, Chart, Figure, Spread, shown};
use crate::advisor::{Comparison, Method};
use crate::knowledge::{Better, Knowledge};

/// Laboratory and home side by side.
pub(super) fn quality(document: &mut Document, best: &Method, knowledge: &Knowledge) {
    let mut table = Table::new()
        .caption("Laboratory and home side by side (computed; range in brackets)")
        .words("What")
        .numbers("Laboratory")
        .numbers("Home")
        .words("At the table");
    for comparison in &best.score.comparisons {
        let Some(attribute) = knowledge.attributes.get(&comparison.attribute) else {
            continue;
        };
        let meaning = attribute.meaning(comparison.home.typical()).unwrap_or_default();
        table.push([
            attribute.name.clone(),
            shown::value(comparison.laboratory.typical(), &attribute.unit),
            shown::range(&comparison.home, attribute),
            meaning.to_owned(),
        ]);
    }
    document.table(table);
    let bars = bars(best, knowledge);
    match &bars.figure {
        Figure::Bars(none) if none.groups.is_empty() => {
            document.paragraph(bars.finding);
        }
        _ => {
            document.push(Block::Chart(bars));
        }
    }
}

/// Shares side by side, for those attributes that are shares of what the raw food held.
pub(super) fn bars(best: &Method, knowledge: &Knowledge) -> Chart {
    let shares = |comparison: &&Comparison| {
        let known = knowledge.attributes.get(&comparison.attribute);
        known.is_some_and(|a| a.better == Better::More && a.unit.symbol == "%")
    };
    // Whole per cents: a bar shows no more.
    let percent = |share: f64| (100.0 * share).round();
    let spread = |e: &crate::estimate::Estimate| Spread {
        low: percent(e.low()),
        typical: percent(e.typical()),
        high: percent(e.high()),
    };
    let groups: Vec<BarGroup> = best
        .score
        .comparisons
        .iter()
        .filter(shares)
        .filter_map(|comparison| {
            let attribute = knowledge.attributes.get(&comparison.attribute)?;
            let bars = vec![
                ("laboratory".to_owned(), spread(&comparison.laboratory)),
                ("home".to_owned(), spread(&comparison.home)),
            ];
            Some(BarGroup { name: attribute.name.clone(), bars })
        })
        .collect();
    let drawn = best.score.comparisons.iter().filter(|one| groups.is_empty() || shares(one));
    let worst = drawn.max_by(|a, b| a.steps.total_cmp(&b.steps));
    let finding = match worst.filter(|comparison| comparison.steps > 0.0) {
        Some(worst) => format!(
            "The largest difference from the laboratory is in {}.",
            attribute_name(&worst.attribute, knowledge)
        ),
        None if !groups.is_empty() => {
            "Of these the home keeps as much as the laboratory.".to_owned()
        }
        None => "No difference from the laboratory can be noticed.".to_owned(),
    };
    let axis = Axis::new("kept", "%");
    let figure = Figure::Bars(Bars { axis, full: Some(100.0), groups });
    Chart::new("What is kept", finding, figure)
}
