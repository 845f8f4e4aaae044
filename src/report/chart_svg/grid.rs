//! A matrix of cells, each with its word.

use maud::{Markup, html};

use super::{Drawing, LINE, WIDTH, count, lines_of, place};
use crate::report::chart::{Grid, GridCell};

/// Width of the names of the rows.
const NAMES: f64 = 150.0;
/// The narrowest column.
const NARROWEST: f64 = 84.0;
/// Room around a word.
const PAD: f64 = 6.0;
/// Opacity of a cell at level 1: light enough for the word on it to be read.
const FULL_SHADE: f64 = 0.45;

pub(super) fn draw(figure: &Grid) -> Drawing {
    let columns = count(figure.columns.len().max(1));
    let column = ((WIDTH - NAMES) / columns).max(NARROWEST);
    let text = column - 2.0 * PAD;
    let tall = |words: &[Vec<String>]| count(words.iter().map(Vec::len).max().unwrap_or(1).max(1));
    let headings: Vec<_> = figure.columns.iter().map(|name| lines_of(name, text)).collect();
    let mut y = LINE * tall(&headings) + PAD;
    let mut parts = vec![html! {
        (label(&lines_of(&figure.rows_are, NAMES - PAD), 0.0, 0.0, "strong"))
        @for (index, heading) in headings.iter().enumerate() {
            (label(heading, NAMES + column * count(index) + PAD, 0.0, "strong"))
        }
    }];
    for (name, cells) in &figure.rows {
        let name = lines_of(name, NAMES - PAD);
        let words: Vec<_> = cells.iter().map(|cell| lines_of(&cell.word, text)).collect();
        let height = LINE * tall(&words).max(count(name.len())) + PAD;
        parts.push(label(&name, 0.0, y, ""));
        for (index, (cell, words)) in cells.iter().zip(&words).enumerate() {
            let x = NAMES + column * count(index);
            parts.push(html! {
                (shade(cell, x, y, column, height))
                (label(words, x + PAD, y, ""))
            });
        }
        y += height;
    }
    let body = html! { @for part in &parts { (part) } };
    Drawing { width: NAMES + column * columns + 1.0, height: y + 1.0, body }
}

fn shade(cell: &GridCell, x: f64, y: f64, width: f64, height: f64) -> Markup {
    let level = cell.level.filter(|level| level.is_finite()).unwrap_or(0.0).clamp(0.0, 1.0);
    let opacity = format!("{:.2}", FULL_SHADE * level);
    html! {
        rect class="cell" x=(place(x)) y=(place(y)) width=(place(width)) height=(place(height))
            fill-opacity=(opacity) {}
    }
}

fn label(lines: &[String], x: f64, y: f64, class: &str) -> Markup {
    html! {
        @for (index, line) in lines.iter().enumerate() {
            text class=(class) x=(place(x)) y=(place(y + LINE * count(index + 1) - 2.0)) { (line) }
        }
    }
}
