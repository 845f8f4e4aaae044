//! Curves with their bands.

use std::fmt::Write as _;

use maud::{Markup, html};

use super::{Drawing, LINE, STYLES, WIDTH, classes, count, place, text_width};
use crate::quantity::significant;
use crate::report::chart::{Lines, Series};
use crate::report::scale::Scale;

/// Height of the plot itself.
const PLOT: f64 = 260.0;
/// Room above the plot, for the name of the upright axis.
const TOP: f64 = 34.0;
/// Room at the right, for half of the last number.
const RIGHT: f64 = 24.0;
/// Gap between a number and its axis.
const GAP: f64 = 8.0;
/// Half the size of a marker.
const MARKER: f64 = 4.0;
/// About this many markers stand on a curve.
const MARKERS: usize = 12;
/// Significant digits of the numbers at the ticks.
const TICK_DIGITS: u32 = 4;

/// The plot: its scales and its left edge.
struct Plot {
    x: Scale,
    y: Scale,
    left: f64,
}

impl Plot {
    fn across(&self, value: f64) -> f64 {
        self.left + self.x.share(value) * (WIDTH - RIGHT - self.left)
    }

    fn up(&self, value: f64) -> f64 {
        TOP + (1.0 - self.y.share(value)) * PLOT
    }
}

pub(super) fn draw(figure: &Lines) -> Drawing {
    let points = || figure.series.iter().flat_map(|series| &series.points);
    let x = Scale::covering(points().map(|(x, _)| *x));
    let y = Scale::covering(points().flat_map(|(_, y)| [y.low, y.high]));
    let widest = y.ticks.iter().map(|tick| text_width(&number(*tick))).fold(0.0, f64::max);
    let plot = Plot { x, y, left: widest + 2.0 * GAP };
    let body = html! {
        text x="0" y=(place(LINE - 4.0)) { (figure.y.caption()) }
        (axes(&plot, &figure.x.caption()))
        @for (index, series) in figure.series.iter().enumerate() {
            (curve(&plot, series, index))
        }
        @if figure.series.len() > 1 { (labels(&plot, &figure.series)) }
    };
    Drawing { width: WIDTH, height: TOP + PLOT + 2.0 * LINE + GAP, body }
}

fn number(value: f64) -> String {
    significant(value, TICK_DIGITS)
}

fn axes(plot: &Plot, caption: &str) -> Markup {
    let (left, right, bottom) = (place(plot.left), place(WIDTH - RIGHT), TOP + PLOT);
    html! {
        @for tick in &plot.y.ticks {
            path class="rule" d={ "M" (left) " " (place(plot.up(*tick))) "H" (right) } {}
            text x=(place(plot.left - GAP)) y=(place(plot.up(*tick) + 5.0)) text-anchor="end" {
                (number(*tick))
            }
        }
        @for tick in &plot.x.ticks {
            path class="axis" d={ "M" (place(plot.across(*tick))) " " (place(bottom)) "v6" } {}
            text x=(place(plot.across(*tick))) y=(place(bottom + LINE + 2.0)) text-anchor="middle" {
                (number(*tick))
            }
        }
        path class="axis" d={ "M" (left) " " (place(TOP)) "V" (place(bottom)) "H" (right) } {}
        text x=(right) y=(place(bottom + 2.0 * LINE + 4.0)) text-anchor="end" { (caption) }
    }
}

/// Cuts a curve where it has no value.
fn runs(series: &Series) -> Vec<Vec<(f64, f64, f64, f64)>> {
    let finite = |series: &Series| {
        let runs = series.points.split(|(_, y)| !y.typical.is_finite());
        runs.map(<[_]>::to_vec).filter(|run| !run.is_empty()).collect::<Vec<_>>()
    };
    let flat = |run: Vec<(f64, crate::report::Spread)>| {
        run.into_iter().map(|(x, y)| (x, y.low, y.typical, y.high)).collect()
    };
    finite(series).into_iter().map(flat).collect()
}

fn path(points: impl Iterator<Item = (f64, f64)>) -> String {
    let mut out = String::new();
    for (index, (x, y)) in points.enumerate() {
        let _ = write!(out, "{}{} {}", if index == 0 { 'M' } else { 'L' }, place(x), place(y));
    }
    out
}

fn curve(plot: &Plot, series: &Series, index: usize) -> Markup {
    let (line, area) = classes(index);
    let every = series.points.len().div_ceil(MARKERS).max(1);
    html! {
        @for run in runs(series) {
            @let upper = run.iter().map(|(x, _, _, high)| (plot.across(*x), plot.up(*high)));
            @let lower = run.iter().rev().map(|(x, low, _, _)| (plot.across(*x), plot.up(*low)));
            @if run.iter().any(|(_, low, _, high)| high > low) {
                path class={ "band " (area) } d={ (path(upper.chain(lower))) "Z" } {}
            }
            @let middle = run.iter().map(|(x, _, y, _)| (plot.across(*x), plot.up(*y)));
            path class={ "curve " (line) } d=(path(middle)) {}
            @for (x, _, y, _) in run.iter().step_by(every) {
                path class=(area) d=(marker(index, plot.across(*x), plot.up(*y))) {}
            }
        }
    }
}

/// Returns the outline of a marker: disc, triangle, square, diamond, bow tie.
fn marker(index: usize, x: f64, y: f64) -> String {
    let r = MARKER;
    let (left, right, up, down) = (place(x - r), place(x + r), place(y - r), place(y + r));
    let (x, y) = (place(x), place(y));
    match index % STYLES {
        0 => format!("M{left} {y}a{r} {r} 0 1 0 8 0a{r} {r} 0 1 0-8 0Z"),
        1 => format!("M{left} {down}L{x} {up}L{right} {down}Z"),
        2 => format!("M{left} {up}H{right}V{down}H{left}Z"),
        3 => format!("M{left} {y}L{x} {up}L{right} {y}L{x} {down}Z"),
        _ => format!("M{left} {up}L{right} {down}V{up}L{left} {down}Z"),
    }
}

/// Writes each name at the end of its curve, one below the other where they would meet.
fn labels(plot: &Plot, series: &[Series]) -> Markup {
    let last =
        |series: &Series| series.points.iter().rev().find(|(_, y)| y.typical.is_finite()).copied();
    let mut ends: Vec<(f64, f64, usize)> = Vec::new();
    for (index, series) in series.iter().enumerate() {
        if let Some((x, y)) = last(series) {
            ends.push((plot.up(y.typical) - GAP, plot.across(x), index));
        }
    }
    ends.sort_by(|one, other| one.0.total_cmp(&other.0));
    let mut highest = TOP + LINE / 2.0;
    let lowest = TOP + PLOT - LINE * count(ends.len());
    for (rank, (y, _, _)) in ends.iter_mut().enumerate() {
        *y = y.max(highest).min(lowest + LINE * count(rank + 1));
        highest = *y + LINE;
    }
    html! {
        @for (y, x, index) in &ends {
            @let name = &series[*index].name;
            @let from = (x - text_width(name) - 2.0 * GAP).max(plot.left + GAP);
            path class={ "halo " (classes(*index).1) } d=(marker(*index, from, y - 5.0)) {}
            text class="halo" x=(place(from + GAP)) y=(place(*y)) { (name) }
        }
    }
}
