//! Curves on clocks too different for one plot: a small plot for each, all with the same height.

use maud::{Markup, html};

use super::lines::{Plot, axes, curve, levels, margin};
use super::{Drawing, LINE, WIDTH, count, lines_of, paragraph};
use crate::report::chart::{Lines, Series};
use crate::report::scale::Scale;

/// Plots beside each other.
const COLUMNS: usize = 2;
/// Gap between plots.
const GAP: f64 = 16.0;
/// Height of a plot.
const PLOT: f64 = 110.0;
/// Room at the right of a plot, for half of the last number.
const RIGHT: f64 = 12.0;

pub(super) fn draw(figure: &Lines) -> Drawing {
    let series = figure.drawn();
    let upright = lines_of(&figure.y.caption(), WIDTH);
    let mut y = LINE * count(upright.len()) + GAP / 2.0;
    let mut parts = vec![paragraph(&upright, 0.0, 0.0, "")];
    let width = (WIDTH - GAP) / count(COLUMNS);
    for (row, panels) in series.chunks(COLUMNS).enumerate() {
        let names: Vec<_> = panels.iter().map(|one| lines_of(&one.key(), width)).collect();
        let head = LINE * count(names.iter().map(Vec::len).max().unwrap_or(1));
        for (column, (one, name)) in panels.iter().zip(&names).enumerate() {
            let left = (width + GAP) * count(column);
            parts.push(paragraph(name, left, y, ""));
            let top = y + head + LINE / 2.0;
            parts.push(panel(figure, one, row * COLUMNS + column, (left, width, top)));
        }
        y += head + LINE / 2.0 + PLOT + LINE + GAP;
    }
    let caption = format!("{}; each plot has a clock of its own", figure.x.caption());
    let caption = lines_of(&caption, WIDTH);
    parts.push(paragraph(&caption, 0.0, y, ""));
    let height = y + LINE * count(caption.len()) + GAP / 2.0;
    let body = html! { @for part in &parts { (part) } };
    Drawing { width: WIDTH, height, body }
}

/// Draws one curve with axes of its own.
fn panel(
    figure: &Lines,
    one: &Series,
    index: usize,
    (left, width, top): (f64, f64, f64),
) -> Markup {
    let y = figure.y_scale();
    let plot = Plot {
        left: left + margin(&y),
        x: Scale::between(0.0, one.end()),
        y,
        top,
        bottom: top + PLOT,
        right: left + width - RIGHT,
        room: RIGHT,
    };
    html! {
        (axes(&plot, figure))
        (levels(&plot, figure))
        (curve(&plot, one, index))
    }
}
