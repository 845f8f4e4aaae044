//! Lanes of work along a time axis.

use maud::{Markup, html};

use super::{
    CHARACTER, Drawing, LINE, WIDTH, beside, count, lines_of, paragraph, place, text_width,
};
use crate::quantity::significant;
use crate::report::chart::{Lane, Stretch, Timeline};
use crate::report::scale::Scale;

/// Height of a track.
const TRACK: f64 = 24.0;
/// Gap below a track.
const GAP: f64 = 10.0;
/// The axis is drawn this far from both edges, so that its numbers fit.
const MARGIN: f64 = 16.0;
/// The narrowest stretch that is drawn.
const NARROWEST: f64 = 2.0;
/// Significant digits of the numbers at the ticks.
const TICK_DIGITS: u32 = 4;

pub(super) fn draw(figure: &Timeline) -> Drawing {
    let scale = figure.scale();
    let ticks = ticks(figure, &scale);
    let mut parts = Vec::new();
    let mut y = 0.0;
    for lane in &figure.lanes {
        let name = lines_of(&lane.name, WIDTH);
        parts.push(paragraph(&name, 0.0, y, "strong"));
        y += LINE * count(name.len().max(1));
        parts.push(draw_lane(lane, &scale, y));
        y += TRACK + GAP;
    }
    let words = spaced(&ticks, &scale);
    let caption = lines_of(&figure.axis.caption(), WIDTH);
    let below = y + LINE * count(1 + caption.len());
    let body = html! {
        @for (tick, _) in &ticks {
            path class="rule" d={ "M" (place(across(&scale, *tick))) " 0V" (place(y + 4.0)) } {}
        }
        @for (x, text) in &words {
            text x=(place(*x)) y=(place(y + LINE)) text-anchor="middle" { (text) }
        }
        @for part in &parts { (part) }
        @for (index, line) in caption.iter().enumerate() {
            text x=(place(WIDTH)) y=(place(y + LINE * count(index + 2))) text-anchor="end" { (line) }
        }
        (key(below + LINE))
    };
    Drawing { width: WIDTH, height: below + LINE + GAP, body }
}

/// Places the words of the marks, but for those that would run into the ones before.
fn spaced<'a>(ticks: &'a [(f64, String)], scale: &Scale) -> Vec<(f64, &'a str)> {
    let mut placed: Vec<(f64, &str)> = Vec::new();
    for (tick, text) in ticks {
        let x = beside(across(scale, *tick), text);
        let free = |(at, last): &(f64, &str)| {
            x - at >= (text_width(text) + text_width(last)) / 2.0 + CHARACTER / 2.0
        };
        if placed.last().is_none_or(free) {
            placed.push((x, text));
        }
    }
    placed
}

/// The marks of the figure, or round numbers.
fn ticks(figure: &Timeline, scale: &Scale) -> Vec<(f64, String)> {
    if figure.marks.is_empty() {
        return scale.ticks.iter().map(|tick| (*tick, significant(*tick, TICK_DIGITS))).collect();
    }
    figure.marks.clone()
}

fn across(scale: &Scale, value: f64) -> f64 {
    MARGIN + scale.share(value) * (WIDTH - 2.0 * MARGIN)
}

fn draw_lane(lane: &Lane, scale: &Scale, y: f64) -> Markup {
    html! {
        rect class="track" x=(place(MARGIN)) y=(place(y)) width=(place(WIDTH - 2.0 * MARGIN))
            height=(place(TRACK)) {}
        @for stretch in &lane.stretches { (draw_stretch(stretch, scale, y)) }
    }
}

fn draw_stretch(stretch: &Stretch, scale: &Scale, y: f64) -> Markup {
    let from = across(scale, stretch.from);
    let width = (across(scale, stretch.to) - from).max(NARROWEST);
    let fits = text_width(&stretch.label) + CHARACTER <= width;
    let class = if stretch.active { "f0" } else { "f1 s1 alone" };
    let ink = if stretch.active { "inside" } else { "" };
    html! {
        rect class=(class) x=(place(from)) y=(place(y)) width=(place(width)) height=(place(TRACK)) {
            title { (stretch.label) }
        }
        @if fits {
            text class=(ink) x=(place(from + CHARACTER / 2.0)) y=(place(y + TRACK - 7.0)) {
                (stretch.label)
            }
        }
    }
}

/// Explains the two shades.
fn key(y: f64) -> Markup {
    html! {
        rect class="f0" x="0" y=(place(y - 12.0)) width="14" height="14" {}
        text x="20" y=(place(y)) { "needs a hand" }
        rect class="f1 s1 alone" x="140" y=(place(y - 12.0)) width="14" height="14" {}
        text x="160" y=(place(y)) { "runs by itself" }
    }
}
