//! Charts as SVG: real text, a title and a description, colours that survive colour blindness and
//! print, and a dash and a marker beside each colour.

use maud::{Markup, PreEscaped, html};

use super::chart::{Chart, Figure};

mod bars;
mod grid;
mod lines;
mod panels;
mod ranges;
mod timeline;

/// Width of a drawing in its own units; at 360 px on a phone its text is still 13 px high.
const WIDTH: f64 = 440.0;
/// Height of a line of text.
const LINE: f64 = 20.0;
/// The foot of the letters above the end of their line.
const BASELINE: f64 = 4.0;
/// Usual width of a character of 16 px: common practice, half the size and a little; on the wide side,
/// so that the fonts of most systems fit.
const CHARACTER: f64 = 9.0;

/// Style of the drawings. The colours are blue, vermilion, bluish green, reddish purple and orange
/// of Okabe and Ito, Color Universal Design (2008), told apart in the common forms of colour
/// blindness, and the ink of the page; each curve also has its dash and its marker, hollow from the
/// seventh curve on.
pub const STYLE: &str = "\
.chart text{font:16px system-ui,sans-serif;fill:currentColor}\
.chart .strong{font-weight:700}\
.chart .axis{stroke:currentColor;fill:none}\
.chart .rule{stroke:currentColor;stroke-opacity:.25;fill:none}\
.chart .curve{fill:none;stroke-width:2.5}\
.chart .band{stroke:none;fill-opacity:.2}\
.chart .track{fill:currentColor;fill-opacity:.08}\
.chart .alone{fill-opacity:.25;stroke-width:1.5;stroke-dasharray:4 3}\
.chart .whisker{stroke:currentColor;stroke-width:2;fill:none}\
.chart .inside{fill:#fff}\
.chart .hollow{fill:var(--paper,#fff);stroke-width:2;stroke-dasharray:none}\
.chart .level{stroke:currentColor;stroke-width:1.5;stroke-dasharray:6 4;fill:none}\
.chart .range{fill-opacity:.45}\
.chart .ring{fill:none;stroke:currentColor;stroke-opacity:.6}\
.chart .halo{paint-order:stroke;stroke:var(--paper,#fff);stroke-width:4px;stroke-linejoin:round}\
.chart .cell{fill:#0072b2;stroke:currentColor;stroke-opacity:.3}\
.chart .s0{stroke:#0072b2}.chart .f0{fill:#0072b2}\
.chart .s1{stroke:#d55e00;stroke-dasharray:8 4}.chart .f1{fill:#d55e00}\
.chart .s2{stroke:#009e73;stroke-dasharray:2 4}.chart .f2{fill:#009e73}\
.chart .s3{stroke:#cc79a7;stroke-dasharray:10 3 2 3}.chart .f3{fill:#cc79a7}\
.chart .s4{stroke:#e69f00;stroke-dasharray:5 5}.chart .f4{fill:#e69f00}\
.chart .s5{stroke:currentColor;stroke-dasharray:14 4}.chart .f5{fill:currentColor}";

/// How many curves have a colour, dash and marker of their own.
const STYLES: usize = 6;

/// A drawing without its frame.
struct Drawing {
    width: f64,
    height: f64,
    body: Markup,
}

/// Draws a chart within a page; `id` must be unique in it.
pub fn inline(chart: &Chart, id: &str) -> Markup {
    let drawing = draw(chart);
    frame(chart, id, &drawing, &html! {})
}

/// Draws a chart as an SVG file of its own.
pub fn standalone(chart: &Chart) -> String {
    let drawing = draw(chart);
    let extra = html! {
        style { (PreEscaped(STYLE)) "svg{color:#111;background:#fff}" }
    };
    let markup = frame(chart, "chart", &drawing, &extra);
    format!("{}\n", markup.into_string())
}

fn draw(chart: &Chart) -> Drawing {
    match &chart.figure {
        Figure::Lines(figure) => lines::draw(figure),
        Figure::Bars(figure) => bars::draw(figure),
        Figure::Ranges(figure) => ranges::draw(figure),
        Figure::Timeline(figure) => timeline::draw(figure),
        Figure::Grid(figure) => grid::draw(figure),
    }
}

fn frame(chart: &Chart, id: &str, drawing: &Drawing, extra: &Markup) -> Markup {
    let (title, description) = (format!("{id}-title"), format!("{id}-text"));
    let view = format!("0 0 {} {}", place(drawing.width), place(drawing.height));
    html! {
        svg xmlns="http://www.w3.org/2000/svg" class="chart" role="img" viewBox=(view)
            width=(place(drawing.width)) height=(place(drawing.height))
            aria-labelledby={ (title) " " (description) } {
            title id=(title) { (chart.title) }
            desc id=(description) { (chart.finding) }
            (extra)
            (drawing.body)
        }
    }
}

/// Writes a coordinate to a tenth of a unit.
fn place(value: f64) -> String {
    format!("{:.1}", value + 0.0).trim_end_matches(".0").to_owned()
}

/// Returns the width that a text usually takes.
#[allow(clippy::cast_precision_loss, reason = "the length of a label is small")]
fn text_width(text: &str) -> f64 {
    CHARACTER * super::words::cells(text) as f64
}

/// Cuts a label into lines of about the given width, at spaces; a word that is wider is cut.
fn lines_of(text: &str, width: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split_whitespace().flat_map(|word| pieces(word, width)) {
        match lines.last_mut() {
            Some(line) if text_width(line) + CHARACTER + text_width(&word) <= width => {
                line.push(' ');
                line.push_str(&word);
            }
            _ => lines.push(word),
        }
    }
    lines
}

/// Cuts a word into pieces of about the given width.
fn pieces(word: &str, width: f64) -> Vec<String> {
    let mut pieces = vec![String::new()];
    for sign in word.chars() {
        match pieces.last_mut() {
            Some(piece) if piece.is_empty() || text_width(piece) + CHARACTER <= width => {
                piece.push(sign);
            }
            _ => pieces.push(sign.to_string()),
        }
    }
    pieces
}

/// Writes lines of text below each other, the first on the line that begins at a height.
fn paragraph(lines: &[String], x: f64, y: f64, class: &str) -> Markup {
    html! {
        @for (index, line) in lines.iter().enumerate() {
            text class=[(!class.is_empty()).then_some(class)] x=(place(x))
                y=(place(y + LINE * count(index + 1) - BASELINE)) { (line) }
        }
    }
}

/// Keeps a text that is centred at a place within the drawing.
fn beside(x: f64, text: &str) -> f64 {
    let half = text_width(text) / 2.0;
    x.clamp(half.min(WIDTH / 2.0), (WIDTH - half).max(WIDTH / 2.0))
}

/// Returns the classes for the line and for the area of the curve at an index.
fn classes(index: usize) -> (String, String) {
    (format!("s{}", index % STYLES), format!("f{}", index % STYLES))
}

/// Counts as a length, for laying out rows.
#[allow(clippy::cast_precision_loss, reason = "the number of rows of a chart is small")]
const fn count(rows: usize) -> f64 {
    rows as f64
}
