//! Ranges below each other on one axis, each with what was found.

use maud::{Markup, html};

use super::{
    BASELINE, Drawing, LINE, WIDTH, beside, count, lines_of, paragraph, place, text_width,
};
use crate::quantity::significant;
use crate::report::chart::{RangeRow, Ranges};
use crate::report::scale::Scale;

/// Share of the width that the names take at most.
const NAMES: f64 = 0.45;
/// Room at both ends of the axis, for half of a number.
const MARGIN: f64 = 20.0;
/// Height of a range.
const BAND: f64 = 14.0;
/// Half the size of a mark.
const MARK: f64 = 7.0;
/// Gap between rows, and between groups.
const GAP: f64 = 6.0;
/// Half the width of the stroke at the value to expect.
const STROKE: f64 = 1.5;
/// Significant digits of the numbers at the ticks.
const TICK_DIGITS: u32 = 4;

/// The axis: its scale and its left edge.
struct Axis {
    scale: Scale,
    left: f64,
}

impl Axis {
    fn across(&self, value: f64) -> f64 {
        self.left + self.scale.share(value) * (WIDTH - MARGIN - self.left)
    }
}

pub(super) fn draw(figure: &Ranges) -> Drawing {
    let rows = || figure.groups.iter().flat_map(|group| &group.rows);
    let widest = rows().map(|row| text_width(&row.name)).fold(0.0, f64::max);
    let names = widest.min(NAMES * WIDTH);
    let axis = Axis { scale: figure.scale(), left: names + MARGIN };
    let top = if figure.level.is_some() { LINE + GAP } else { 0.0 };
    let mut y = top;
    let mut parts = Vec::new();
    for group in &figure.groups {
        let heading = lines_of(&group.name, WIDTH);
        parts.push(paragraph(&heading, 0.0, y, "strong"));
        y += LINE * count(heading.len());
        for row in &group.rows {
            let name = lines_of(&row.name, names);
            parts.push(paragraph(&name, 0.0, y, ""));
            parts.push(draw_row(row, &axis, y + LINE / 2.0));
            y += LINE * count(name.len().max(1)) + GAP;
        }
        y += GAP;
    }
    let key_top = y + LINE + GAP;
    let (key, height) = key(figure, key_top);
    let body = html! {
        (ticks(&axis, top, y))
        @for part in &parts { (part) }
        @if let Some((level, words)) = &figure.level {
            path class="level" d={ "M" (place(axis.across(*level))) " " (place(top)) "V" (place(y)) } {}
            text x=(place(beside(axis.across(*level), words))) y=(place(LINE - BASELINE))
                text-anchor="middle" { (words) }
        }
        (key)
    };
    Drawing { width: WIDTH, height, body }
}

fn ticks(axis: &Axis, top: f64, bottom: f64) -> Markup {
    html! {
        @for tick in &axis.scale.ticks {
            @let words = significant(*tick, TICK_DIGITS);
            path class="rule"
                d={ "M" (place(axis.across(*tick))) " " (place(top)) "V" (place(bottom)) } {}
            text x=(place(beside(axis.across(*tick), &words))) y=(place(bottom + LINE - BASELINE))
                text-anchor="middle" { (words) }
        }
    }
}

fn draw_row(row: &RangeRow, axis: &Axis, middle: f64) -> Markup {
    let (low, high) = (axis.across(row.range.low), axis.across(row.range.high));
    let typical = axis.across(row.range.typical);
    html! {
        (band(low, high - low, middle))
        (stroke(typical, middle))
        @if let Some(found) = row.mark { (mark(axis.across(found), middle)) }
    }
}

fn band(x: f64, width: f64, middle: f64) -> Markup {
    html! {
        rect class="range f0" x=(place(x)) y=(place(middle - BAND / 2.0)) width=(place(width))
            height=(place(BAND)) {}
    }
}

fn stroke(x: f64, middle: f64) -> Markup {
    html! {
        rect class="f0" x=(place(x - STROKE)) y=(place(middle - BAND / 2.0))
            width=(place(2.0 * STROKE)) height=(place(BAND)) {}
    }
}

/// Draws a diamond.
fn mark(x: f64, y: f64) -> Markup {
    let (left, right, up, down) =
        (place(x - MARK), place(x + MARK), place(y - MARK), place(y + MARK));
    let (x, y) = (place(x), place(y));
    html! { path class="f1" d={ "M" (left) " " (y) "L" (x) " " (up) "L" (right) " " (y) "L" (x) " " (down) "Z" } {} }
}

/// Draws the key and the caption of the axis from a height on, and returns where it ends.
fn key(figure: &Ranges, top: f64) -> (Markup, f64) {
    let caption = lines_of(&figure.axis.caption(), WIDTH);
    let signs = 3.0 * MARK;
    let mut y = top + LINE * count(caption.len());
    let range = lines_of(&figure.range_is, WIDTH - signs - GAP);
    let found = lines_of(&figure.mark_is, WIDTH - signs - GAP);
    let range_at = y;
    y += LINE * count(range.len());
    let found_at = y;
    y += LINE * count(found.len());
    let drawn = html! {
        @for (index, line) in caption.iter().enumerate() {
            text x=(place(WIDTH)) y=(place(top + LINE * count(index + 1) - BASELINE))
                text-anchor="end" { (line) }
        }
        @if !range.is_empty() {
            (band(0.0, signs, range_at + LINE / 2.0))
            (stroke(signs / 2.0, range_at + LINE / 2.0))
        }
        (paragraph(&range, signs + GAP, range_at, ""))
        @if !found.is_empty() { (mark(signs / 2.0, found_at + LINE / 2.0)) }
        (paragraph(&found, signs + GAP, found_at, ""))
    };
    (drawn, y + GAP)
}
