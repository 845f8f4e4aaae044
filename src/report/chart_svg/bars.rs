//! Bars side by side, such as the laboratory and the home.

use maud::{Markup, html};

use super::{Drawing, LINE, WIDTH, classes, count, lines_of, paragraph, place, text_width};
use crate::report::chart::{Bars, Spread};

/// Height of a bar.
const BAR: f64 = 14.0;
/// Height of a bar with the line of text above it.
const ROW: f64 = LINE + BAR + 6.0;
/// Gap between groups.
const GAP: f64 = 14.0;
/// Half the height of the caps at the ends of a range.
const CAP: f64 = 4.0;

pub(super) fn draw(figure: &Bars) -> Drawing {
    let full = figure.full();
    let mut body = Vec::new();
    let mut y = 0.0;
    for group in &figure.groups {
        let heading = lines_of(&group.name, WIDTH);
        body.push(paragraph(&heading, 0.0, y, "strong"));
        y += LINE * count(heading.len());
        for (index, (name, spread)) in group.bars.iter().enumerate() {
            let value = match figure.axis.unit.as_str() {
                "" => spread.shown(),
                unit => format!("{} {unit}", spread.shown()),
            };
            let name = lines_of(name, WIDTH - text_width(&value) - LINE);
            body.push(paragraph(&name, 0.0, y, ""));
            y += LINE * count(name.len().saturating_sub(1));
            body.push(html! {
                text x=(place(WIDTH)) y=(place(y + LINE - 4.0)) text-anchor="end" { (value) }
                (bar(spread, full, y + LINE, index))
            });
            y += ROW;
        }
        y += GAP;
    }
    let body = html! { @for part in &body { (part) } };
    Drawing { width: WIDTH, height: y, body }
}

fn bar(spread: &Spread, full: f64, y: f64, index: usize) -> Markup {
    let length = |value: f64| match full > 0.0 && value.is_finite() {
        true => (value / full).clamp(0.0, 1.0) * (WIDTH - 2.0),
        false => 0.0,
    };
    let (low, high, middle) = (length(spread.low), length(spread.high), y + BAR / 2.0);
    let cap = |x: f64| format!("M{} {}v{}", place(x), place(middle - CAP), place(2.0 * CAP));
    html! {
        rect class="track" x="0" y=(place(y)) width=(place(WIDTH)) height=(place(BAR)) {}
        rect class=(classes(index).1) x="0" y=(place(y)) width=(place(length(spread.typical)))
            height=(place(BAR)) {}
        @if spread.is_range() {
            path class="whisker"
                d={ (cap(low)) (cap(high)) "M" (place(low)) " " (place(middle)) "H" (place(high)) } {}
        }
    }
}
