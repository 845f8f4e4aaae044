//! Curves with their bands, their signs at the ends, and a key below.

use std::fmt::Write as _;

use maud::{Markup, html};

use super::{
    Drawing, LINE, STYLES, WIDTH, classes, count, lines_of, panels, paragraph, place, text_width,
};
use crate::quantity::significant;
use crate::report::chart::{Lines, Series};
use crate::report::scale::Scale;

/// Height of the plot.
const PLOT: f64 = 260.0;
/// Room at the right for half of the last number; more where signs stand at the ends.
const RIGHT: f64 = 24.0;
/// Short words of broad letters are this much wider than usual.
const BROAD: f64 = 1.25;
/// Gap between a number and its axis.
const GAP: f64 = 8.0;
/// Half the size of a marker.
const MARKER: f64 = 4.0;
/// About this many markers stand on a curve.
const MARKERS: usize = 8;
/// Significant digits of the numbers at the ticks.
const TICK_DIGITS: u32 = 4;
/// Length of a curve in the key.
const SAMPLE: f64 = 34.0;
/// So far is a sign shifted each time when its place is taken, at most so often.
const SHIFT: f64 = 9.0;
const MOST_SHIFTS: u16 = 24;
/// A sign shifted by more than this is joined to its curve.
const FAR: f64 = 10.0;

/// The plot: its scales and its edges.
pub(super) struct Plot {
    pub x: Scale,
    pub y: Scale,
    pub top: f64,
    pub bottom: f64,
    pub left: f64,
    pub right: f64,
    /// How far words may reach beyond the right edge.
    pub room: f64,
}

impl Plot {
    pub fn across(&self, value: f64) -> f64 {
        self.left + self.x.share(value) * (self.right - self.left)
    }

    pub fn up(&self, value: f64) -> f64 {
        self.bottom - self.y.share(value) * (self.bottom - self.top)
    }
}

/// Returns the room that the numbers up the side take.
pub(super) fn margin(y: &Scale) -> f64 {
    y.ticks.iter().map(|tick| text_width(&number(*tick))).fold(0.0, f64::max) + 2.0 * GAP
}

pub(super) fn draw(figure: &Lines) -> Drawing {
    if figure.series.len() > 1 && figure.clocks_differ() {
        return panels::draw(figure);
    }
    let (x, y, series) = (figure.x_scale(), figure.y_scale(), figure.drawn());
    let signs_take = series.iter().map(|one| text_width(&one.sign)).fold(0.0, f64::max);
    let right = WIDTH - RIGHT.max(BROAD * signs_take + 2.0 * MARKER);
    let upright = lines_of(&figure.y.caption(), WIDTH);
    let top = LINE * count(upright.len()) + LINE / 2.0;
    let plot = Plot { left: margin(&y), x, y, top, bottom: top + PLOT, right, room: WIDTH - right };
    let caption = lines_of(&figure.x_caption(), WIDTH);
    let below = plot.bottom + LINE + GAP;
    let key_top = below + LINE * count(caption.len()) + GAP;
    let (key, height) = key(&series, key_top);
    let body = html! {
        (paragraph(&upright, 0.0, 0.0, ""))
        (axes(&plot, figure))
        (levels(&plot, figure))
        @for (index, one) in series.iter().enumerate() { (curve(&plot, one, index)) }
        @if series.len() > 1 { (signs(&plot, &series, figure)) }
        @for (index, line) in caption.iter().enumerate() {
            text x=(place(WIDTH)) y=(place(below + LINE * count(index + 1) - 4.0))
                text-anchor="end" { (line) }
        }
        @if series.len() > 1 { (key) }
    };
    let height = if series.len() > 1 { height } else { key_top };
    Drawing { width: WIDTH, height, body }
}

fn number(value: f64) -> String {
    significant(value, TICK_DIGITS)
}

/// Draws both axes with their ticks.
pub(super) fn axes(plot: &Plot, figure: &Lines) -> Markup {
    let (left, right, bottom) = (place(plot.left), place(plot.right), plot.bottom);
    html! {
        @for tick in &plot.y.ticks {
            path class="rule" d={ "M" (left) " " (place(plot.up(*tick))) "H" (right) } {}
            text x=(place(plot.left - GAP)) y=(place(plot.up(*tick) + 5.0)) text-anchor="end" {
                (number(*tick))
            }
        }
        @for tick in &plot.x.ticks {
            @let words = figure.x_words(*tick, TICK_DIGITS);
            path class="axis" d={ "M" (place(plot.across(*tick))) " " (place(bottom)) "v6" } {}
            @let most = plot.right + plot.room - text_width(&words) / 2.0;
            text x=(place(plot.across(*tick).min(most))) y=(place(bottom + LINE + 2.0))
                text-anchor="middle" { (words) }
        }
        path class="axis" d={ "M" (left) " " (place(plot.top)) "V" (place(bottom)) "H" (right) } {}
    }
}

/// Draws the values that are aimed at, each with its words above its line.
pub(super) fn levels(plot: &Plot, figure: &Lines) -> Markup {
    let (left, right) = (place(plot.left), place(plot.right));
    html! {
        @for (level, words) in &figure.levels {
            path class="level" d={ "M" (left) " " (place(plot.up(*level))) "H" (right) } {}
            text class="halo" x=(place(plot.left + GAP)) y=(place(plot.up(*level) - 5.0)) {
                (words)
            }
        }
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

/// Draws a curve with its band and its markers.
pub(super) fn curve(plot: &Plot, series: &Series, index: usize) -> Markup {
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
            @for (x, _, y, _) in run.iter().rev().step_by(every) {
                (marker(index, plot.across(*x), plot.up(*y)))
            }
        }
    }
}

/// Draws a marker: disc, triangle, square, diamond, bow tie, standing triangle; hollow from the
/// seventh on.
fn marker(index: usize, x: f64, y: f64) -> Markup {
    let (line, area) = classes(index);
    let class = if index < STYLES { area } else { format!("hollow {line}") };
    html! { path class=(class) d=(outline(index, x, y)) {} }
}

fn outline(index: usize, x: f64, y: f64) -> String {
    let r = MARKER;
    let (left, right, up, down) = (place(x - r), place(x + r), place(y - r), place(y + r));
    let (x, y) = (place(x), place(y));
    match index % STYLES {
        0 => format!("M{left} {y}a{r} {r} 0 1 0 8 0a{r} {r} 0 1 0-8 0Z"),
        1 => format!("M{left} {down}L{x} {up}L{right} {down}Z"),
        2 => format!("M{left} {up}H{right}V{down}H{left}Z"),
        3 => format!("M{left} {y}L{x} {up}L{right} {y}L{x} {down}Z"),
        4 => format!("M{left} {up}L{right} {down}V{up}L{left} {down}Z"),
        _ => format!("M{left} {up}L{x} {down}L{right} {up}Z"),
    }
}

/// A sign with the end of its curve and the place that it found.
struct Sign<'a> {
    text: &'a str,
    end: (f64, f64),
    at: (f64, f64),
}

impl Sign<'_> {
    /// Whether it would run into other words that begin at a place.
    fn meets(&self, at: (f64, f64), words: &str) -> bool {
        let apart =
            self.at.0 >= at.0 + text_width(words) || at.0 >= self.at.0 + text_width(self.text);
        !apart && (self.at.1 - at.1).abs() < LINE
    }
}

/// Writes each sign beside the end of its curve, where no other stands.
fn signs(plot: &Plot, series: &[Series], figure: &Lines) -> Markup {
    let levels = figure
        .levels
        .iter()
        .map(|(level, words)| ((plot.left + GAP, plot.up(*level) - LINE / 2.0), words.as_str()));
    let mut placed: Vec<Sign<'_>> = Vec::new();
    for one in series.iter().filter(|one| !one.sign.is_empty()) {
        let last = one.points.iter().rev().find(|(_, y)| y.typical.is_finite());
        let Some((x, y)) = last.map(|(x, y)| (plot.across(*x), plot.up(y.typical))) else {
            continue;
        };
        let left = (x + MARKER + 2.0).min(WIDTH - BROAD * text_width(&one.sign));
        let mut sign = Sign { text: &one.sign, end: (x, y), at: (left, y) };
        for shift in 0..MOST_SHIFTS {
            let way = if shift % 2 == 0 { -1.0 } else { 1.0 };
            let at = y + way * SHIFT * f64::from(shift.div_ceil(2));
            sign.at.1 = at.clamp(plot.top + LINE / 2.0, plot.bottom - LINE / 2.0);
            let mut words = placed.iter().map(|other| (other.at, other.text)).chain(levels.clone());
            if !words.any(|(at, text)| sign.meets(at, text)) {
                break;
            }
        }
        placed.push(sign);
    }
    html! {
        @for Sign { text, end, at } in &placed {
            @if (end.1 - at.1).abs() > FAR {
                path class="rule" d=(path([*end, *at].into_iter())) {}
            }
            text class="halo" x=(place(at.0)) y=(place(at.1 + 5.0)) { (text) }
        }
    }
}

/// Draws the key from a height on, and returns where it ends.
fn key(series: &[Series], top: f64) -> (Markup, f64) {
    let mut y = top;
    let mut parts = Vec::new();
    for (index, one) in series.iter().enumerate() {
        let name = lines_of(&one.key(), WIDTH - SAMPLE - GAP);
        let middle = y + LINE / 2.0;
        parts.push(html! {
            path class={ "curve " (classes(index).0) }
                d={ "M0 " (place(middle)) "H" (place(SAMPLE)) } {}
            (marker(index, SAMPLE / 2.0, middle))
            (paragraph(&name, SAMPLE + GAP, y, ""))
        });
        y += LINE * count(name.len().max(1));
    }
    (html! { @for part in &parts { (part) } }, y + GAP)
}
