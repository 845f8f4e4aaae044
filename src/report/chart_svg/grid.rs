//! A matrix of cells: with their words where there is room, else with discs that fill up.

use maud::{Markup, html};

use super::{CHARACTER, Drawing, LINE, WIDTH, count, lines_of, paragraph, place, text_width};
use crate::report::chart::{Grid, GridCell};

/// Width of the names of the rows.
const NAMES: f64 = 140.0;
/// The narrowest column in which words are written.
const NARROWEST: f64 = 70.0;
/// The narrowest column of discs.
const NARROWEST_DISC: f64 = 22.0;
/// Radius of a disc.
const RADIUS: f64 = 7.0;
/// The longest name of a column of discs, which is written upwards.
const LONGEST: f64 = 170.0;
/// Room around a word.
const PAD: f64 = 5.0;
/// Opacity of a cell at level 1: light enough for the word on it to be read.
const FULL_SHADE: f64 = 0.45;
/// A level this near to one is full.
const FULL: f64 = 0.999;

/// Where the columns stand, and what is in their cells.
struct Layout {
    column: f64,
    /// Whether words are written in the cells.
    words: bool,
}

impl Layout {
    fn of(figure: &Grid) -> Self {
        let column = (WIDTH - NAMES) / count(figure.columns.len().max(1));
        let cells = figure.rows.iter().flat_map(|(_, cells)| cells.iter().map(|cell| &cell.word));
        let words = figure.columns.iter().chain(cells).flat_map(|text| text.split_whitespace());
        let longest = words.map(text_width).fold(0.0, f64::max);
        match column >= (longest + 2.0 * PAD).max(NARROWEST) {
            true => Self { column, words: true },
            false => Self { column: column.max(NARROWEST_DISC), words: false },
        }
    }

    fn left(&self, column: usize) -> f64 {
        NAMES + self.column * count(column)
    }

    fn cell_words(&self, cell: &GridCell) -> Vec<String> {
        if self.words { lines_of(&cell.word, self.column - 2.0 * PAD) } else { Vec::new() }
    }
}

pub(super) fn draw(figure: &Grid) -> Drawing {
    let layout = Layout::of(figure);
    let (mut y, headings) = headings(figure, &layout);
    let mut parts = vec![headings];
    for (name, cells) in &figure.rows {
        let lines = lines_of(name, NAMES - PAD);
        let words: Vec<_> = cells.iter().map(|cell| layout.cell_words(cell)).collect();
        let tallest = words.iter().map(Vec::len).max().unwrap_or(0).max(lines.len()).max(1);
        let height = LINE * count(tallest) + PAD;
        parts.push(paragraph(&lines, 0.0, y, ""));
        for (index, (cell, words)) in cells.iter().zip(&words).enumerate() {
            let x = layout.left(index);
            parts.push(html! {
                (shade(cell, x, y, layout.column, height))
                (paragraph(words, x + PAD, y, ""))
                @if !layout.words {
                    (sign(cell, x + layout.column / 2.0, y + height / 2.0))
                }
            });
        }
        y += height;
    }
    if !layout.words {
        let (key, end) = key(figure, y + PAD);
        parts.push(key);
        y = end;
    }
    let body = html! { @for part in &parts { (part) } };
    let width = (layout.left(figure.columns.len()) + 1.0).max(WIDTH);
    Drawing { width, height: y + 1.0, body }
}

/// Writes what the rows are and the names of the columns; returns where the rows begin.
fn headings(figure: &Grid, layout: &Layout) -> (f64, Markup) {
    let rows_are = lines_of(&figure.rows_are, NAMES - PAD);
    if layout.words {
        let text = layout.column - 2.0 * PAD;
        let names: Vec<_> = figure.columns.iter().map(|name| lines_of(name, text)).collect();
        let tallest = names.iter().map(Vec::len).max().unwrap_or(0).max(rows_are.len()).max(1);
        let drawn = html! {
            (paragraph(&rows_are, 0.0, 0.0, "strong"))
            @for (index, name) in names.iter().enumerate() {
                (paragraph(name, layout.left(index) + PAD, 0.0, "strong"))
            }
        };
        return (LINE * count(tallest) + PAD, drawn);
    }
    let names: Vec<String> = figure.columns.iter().map(|name| shortened(name)).collect();
    let height = names.iter().map(|name| text_width(name)).fold(LINE, f64::max) + PAD;
    let drawn = html! {
        (paragraph(&rows_are, 0.0, height - PAD - LINE * count(rows_are.len()), "strong"))
        @for (index, name) in names.iter().enumerate() {
            @let x = place(layout.left(index) + layout.column / 2.0 + 5.0);
            @let y = place(height - PAD);
            text x=(x) y=(y) transform={ "rotate(-90 " (x) " " (y) ")" } { (name) }
        }
    };
    (height, drawn)
}

/// Cuts a name that is longer than a heading may be.
fn shortened(name: &str) -> String {
    if text_width(name) <= LONGEST {
        return name.to_owned();
    }
    let mut short = String::new();
    for sign in name.chars() {
        if text_width(&short) + 2.0 * CHARACTER > LONGEST {
            break;
        }
        short.push(sign);
    }
    format!("{}…", short.trim_end())
}

fn shade(cell: &GridCell, x: f64, y: f64, width: f64, height: f64) -> Markup {
    let opacity = format!("{:.2}", FULL_SHADE * level(cell).unwrap_or(0.0));
    html! {
        rect class="cell" x=(place(x)) y=(place(y)) width=(place(width)) height=(place(height))
            fill-opacity=(opacity) { title { (cell.word) } }
    }
}

fn level(cell: &GridCell) -> Option<f64> {
    cell.level.filter(|level| level.is_finite()).map(|level| level.clamp(0.0, 1.0))
}

/// Draws a disc that is filled up to the level; a question mark without one.
fn sign(cell: &GridCell, x: f64, y: f64) -> Markup {
    let Some(level) = level(cell) else {
        return html! { text x=(place(x)) y=(place(y + 5.0)) text-anchor="middle" { "?" } };
    };
    let turn = std::f64::consts::TAU * level;
    let (end_x, end_y) = (x + RADIUS * turn.sin(), y - RADIUS * turn.cos());
    let far = i32::from(level > 0.5);
    html! {
        circle class="ring" cx=(place(x)) cy=(place(y)) r=(place(RADIUS)) {}
        @if level >= FULL {
            circle class="f5" cx=(place(x)) cy=(place(y)) r=(place(RADIUS)) {}
        } @else if level > 0.0 {
            path class="f5" d={
                "M" (place(x)) " " (place(y)) "V" (place(y - RADIUS))
                "A" (place(RADIUS)) " " (place(RADIUS)) " 0 " (far) " 1 "
                (place(end_x)) " " (place(end_y)) "Z"
            } {}
        }
    }
}

/// Explains the discs, the best first; returns where it ends.
fn key(figure: &Grid, top: f64) -> (Markup, f64) {
    let mut kinds: Vec<&GridCell> = Vec::new();
    for cell in figure.rows.iter().flat_map(|(_, cells)| cells) {
        if !kinds.iter().any(|known| known.word == cell.word) {
            kinds.push(cell);
        }
    }
    let rank = |cell: &GridCell| level(cell).unwrap_or(-1.0);
    kinds.sort_by(|a, b| rank(b).total_cmp(&rank(a)));
    let left = 2.0 * RADIUS + PAD;
    let mut y = top;
    let mut parts = Vec::new();
    for cell in kinds {
        let words = lines_of(&cell.word, WIDTH - left - PAD);
        parts.push(html! {
            (sign(cell, RADIUS + 1.0, y + LINE / 2.0))
            (paragraph(&words, left + PAD, y, ""))
        });
        y += LINE * count(words.len().max(1));
    }
    (html! { @for part in &parts { (part) } }, y)
}
