//! Charts for a terminal, drawn with block characters or with ASCII.

use super::chart::{Bars, Chart, Figure, Lane, Lines, RangeRow, Ranges, Spread, Stretch, Timeline};
use super::document::Text;
use super::scale::Scale;
use super::table::{TextStyle, table_lines};
use super::words::{bold, cells, hanging, pad, wrap};
use crate::quantity::{range_text, significant};

/// The narrowest line in which a chart is drawn; below it the numbers are listed.
const LEAST_DRAWN_WIDTH: usize = 40;
/// The widest plot, so that a curve keeps its shape on a wide terminal.
const WIDEST_PLOT: usize = 72;
/// Rows between two ticks of a curve.
const ROWS_PER_TICK: usize = 3;
/// The longest bar.
const LONGEST_BAR: usize = 32;
/// Significant digits at the ticks.
const TICK_DIGITS: u32 = 4;
/// The marks of the curves, drawn and in ASCII.
const MARKS: [(char, char); 7] =
    [('●', 'o'), ('▲', '+'), ('■', 'x'), ('◆', '*'), ('○', '@'), ('▽', '%'), ('□', '=')];

/// Draws a chart: title, figure, finding.
pub(super) fn lines(chart: &Chart, style: &TextStyle) -> Vec<String> {
    if chart.page_only {
        return wrap(&chart.in_words(), style.width, style);
    }
    let listed = style.linear || style.width < LEAST_DRAWN_WIDTH;
    let mut lines = Vec::new();
    match &chart.figure {
        Figure::Lines(figure) if !listed => {
            lines.extend(titled(chart, style));
            lines.extend(draw_lines(figure, style));
        }
        Figure::Bars(figure) if !listed => {
            lines.extend(titled(chart, style));
            lines.extend(draw_bars(figure, style));
        }
        Figure::Ranges(figure) if !listed => {
            lines.extend(titled(chart, style));
            lines.extend(draw_ranges(figure, style));
        }
        Figure::Timeline(figure) if !listed => {
            lines.extend(titled(chart, style));
            lines.extend(draw_timeline(figure, style));
        }
        _ => lines.extend(table_lines(&chart.data(), style)),
    }
    lines.extend(wrap(&chart.finding.as_str().into(), style.width, style));
    lines
}

fn titled(chart: &Chart, style: &TextStyle) -> Vec<String> {
    let plain = TextStyle { colour: false, ..*style };
    let lines = wrap(&chart.title.as_str().into(), style.width, &plain);
    lines.iter().map(|line| bold(line, style)).collect()
}

/// Turns a share of a length into a count of cells.
#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_precision_loss,
    reason = "the share is clamped to 0-1 and the length is a count of cells on a screen"
)]
fn part(share: f64, length: usize) -> usize {
    (share.clamp(0.0, 1.0) * length as f64).round() as usize
}

/// Returns the share of the way of one cell among several.
#[allow(clippy::cast_precision_loss, reason = "a count of cells on a screen is small")]
fn along(cell: usize, length: usize) -> f64 {
    cell as f64 / length.saturating_sub(1).max(1) as f64
}

fn draw_lines(figure: &Lines, style: &TextStyle) -> Vec<String> {
    let (x_scale, y_scale, drawn) = (figure.x_scale(), figure.y_scale(), figure.drawn());
    let height = ROWS_PER_TICK * (y_scale.ticks.len() - 1) + 1;
    let labels: Vec<String> =
        y_scale.ticks.iter().map(|tick| style.signs(&significant(*tick, TICK_DIGITS))).collect();
    let margin = labels.iter().map(|label| cells(label)).max().unwrap_or(0);
    let width = (style.width - margin - 2).min(WIDEST_PLOT);
    let mut grid = vec![vec![' '; width]; height];
    let row = |value: f64| height - 1 - part(y_scale.share(value), height - 1);
    for column in 0..width {
        let x = x_scale.value(along(column, width));
        for (index, series) in drawn.iter().enumerate() {
            let Some(value) = series.at(x) else { continue };
            if value.is_range() {
                for line in grid.iter_mut().take(row(value.low) + 1).skip(row(value.high)) {
                    if line[column] == ' ' {
                        line[column] = if style.ascii { '.' } else { '░' };
                    }
                }
            }
            grid[row(value.typical)][column] = mark(index, style);
        }
    }
    let mut lines = wrap(&figure.y.caption().into(), style.width, style);
    for (index, cells_of_row) in grid.iter().enumerate() {
        let from_below = height - 1 - index;
        let label = match from_below % ROWS_PER_TICK {
            0 => labels[from_below / ROWS_PER_TICK].as_str(),
            _ => "",
        };
        let axis = style.either("│", "|");
        let drawn: String = cells_of_row.iter().collect();
        lines.push(format!("{}{label} {axis}{drawn}", " ".repeat(margin - cells(label))));
    }
    let ends = [x_scale.low(), x_scale.high()].map(|end| figure.x_words(end, TICK_DIGITS));
    lines.extend(below(ends, &figure.x_caption(), (margin + 2, width), style));
    lines.extend(legend(figure, style));
    lines
}

fn mark(index: usize, style: &TextStyle) -> char {
    let (drawn, ascii) = MARKS[index % MARKS.len()];
    if style.ascii { ascii } else { drawn }
}

/// Draws the axis below a plot of the given margin and width: a rule, the two ends, the caption.
fn below(
    ends: [String; 2],
    caption: &str,
    (margin, width): (usize, usize),
    style: &TextStyle,
) -> Vec<String> {
    let indent = " ".repeat(margin);
    let rule = style.either("─", "-").repeat(width);
    let [low, high] = ends.map(|end| style.signs(&end));
    let caption = style.signs(caption);
    let room = width.saturating_sub(cells(&low) + cells(&high) + 2);
    if cells(&caption) > room {
        let gap = " ".repeat(width.saturating_sub(cells(&low) + cells(&high)));
        let mut lines = vec![format!("{indent}{rule}"), format!("{indent}{low}{gap}{high}")];
        lines.extend(hanging(&caption.into(), &indent, style.width, style));
        return lines;
    }
    let left = 1 + (room - cells(&caption)) / 2;
    let right = 2 + room - cells(&caption) - left;
    let (left, right) = (" ".repeat(left), " ".repeat(right));
    vec![format!("{indent}{rule}"), format!("{indent}{low}{left}{caption}{right}{high}")]
}

fn legend(figure: &Lines, style: &TextStyle) -> Vec<String> {
    let mut entries: Vec<String> = Vec::new();
    for (index, series) in figure.series.iter().enumerate() {
        entries.push(format!("{}\u{a0}{}", mark(index, style), series.key()));
    }
    if figure.series.iter().any(|series| series.points.iter().any(|(_, y)| y.is_range())) {
        entries.push(format!("{}\u{a0}range", style.either("░", ".")));
    }
    wrap(&entries.join("; ").into(), style.width, style)
}

fn draw_bars(figure: &Bars, style: &TextStyle) -> Vec<String> {
    let names = figure.groups.iter().flat_map(|group| group.bars.iter().map(|(name, _)| name));
    let longest = names.map(|name| cells(&style.signs(name))).max().unwrap_or(0);
    let column = longest.min(style.width / 4);
    let length = (style.width / 2).saturating_sub(column).clamp(8, LONGEST_BAR);
    let full = figure.full();
    let mut lines = Vec::new();
    for group in &figure.groups {
        lines.extend(wrap(&group.name.as_str().into(), style.width, style));
        for (name, spread) in &group.bars {
            let bar = bar(spread, full, length, style);
            let mut shown = spread.shown();
            if !figure.axis.unit.is_empty() {
                shown = format!("{shown} {}", figure.axis.unit);
            }
            let mark = format!("  {} {bar} ", pad(&style.signs(name), column));
            lines.extend(hanging(&shown.into(), &mark, style.width, style));
        }
    }
    lines
}

/// Draws a bar: solid to the lower end, half to the typical value, light to the upper end.
fn bar(spread: &Spread, full: f64, length: usize, style: &TextStyle) -> String {
    let cells_to = |value: f64| match full > 0.0 && value.is_finite() {
        true => part(value / full, length),
        false => 0,
    };
    let (low, typical, high) =
        (cells_to(spread.low), cells_to(spread.typical), cells_to(spread.high));
    let stretches = [
        (style.either("█", "#"), low),
        (style.either("▓", "="), typical.saturating_sub(low)),
        (style.either("░", "-"), high.saturating_sub(typical.max(low))),
    ];
    let drawn: String = stretches.iter().map(|(sign, count)| sign.repeat(*count)).collect();
    pad(&drawn, length)
}

/// Draws each range on the one axis with what was found, and both as numbers.
fn draw_ranges(figure: &Ranges, style: &TextStyle) -> Vec<String> {
    let scale = figure.scale();
    let names = figure.groups.iter().flat_map(|group| group.rows.iter().map(|row| &row.name));
    let longest = names.map(|name| cells(&style.signs(name))).max().unwrap_or(0);
    let column = longest.min(style.width / 4);
    let length = (style.width / 2).saturating_sub(column).clamp(8, LONGEST_BAR);
    let mut lines = Vec::new();
    for group in &figure.groups {
        if !group.name.is_empty() {
            lines.extend(wrap(&group.name.as_str().into(), style.width, style));
        }
        for row in &group.rows {
            let track = range_track(row, figure, (&scale, length), style);
            let mark = format!("  {} {track} ", pad(&style.signs(&row.name), column));
            let found = row.found();
            let parts = [row.range.shown(), found].into_iter().filter(|part| !part.is_empty());
            let text = format!("{} {}", parts.collect::<Vec<_>>().join("; "), figure.axis.unit);
            lines.extend(hanging(&text.trim_end().into(), &mark, style.width, style));
        }
    }
    let mut key = vec![format!("{}\u{a0}{}", style.either("▒", "="), figure.range_is)];
    if !figure.mark_is.is_empty() {
        key.push(format!("{}\u{a0}{}", style.either("◆", "*"), figure.mark_is));
    }
    key.extend(figure.level.as_ref().map(|(_, words)| format!("│\u{a0}{words}")));
    lines.extend(wrap(&key.join("; ").into(), style.width, style));
    lines
}

/// Draws one range, the value that is compared with, the value to expect and what was found.
fn range_track(
    row: &RangeRow,
    figure: &Ranges,
    (scale, length): (&Scale, usize),
    style: &TextStyle,
) -> String {
    let cell = |value: f64| part(scale.share(value), length - 1);
    let mut track = vec![style.either("·", "."); length];
    track[cell(row.range.low)..=cell(row.range.high)].fill(style.either("▒", "="));
    if let Some((level, _)) = &figure.level {
        track[cell(*level)] = style.either("│", "|");
    }
    track[cell(row.range.typical)] = style.either("█", "#");
    if let Some(found) = row.mark {
        track[cell(found)] = style.either("◆", "*");
    }
    track.concat()
}

fn draw_timeline(figure: &Timeline, style: &TextStyle) -> Vec<String> {
    let scale = figure.scale();
    let longest = figure.lanes.iter().map(|lane| cells(&style.signs(&lane.name))).max();
    let column = longest.unwrap_or(0).min(style.width / 3);
    let width = (style.width - column - 1).min(WIDEST_PLOT);
    let mut drawn = Vec::new();
    for lane in &figure.lanes {
        let track = track(lane, &scale, width, style);
        let name = wrap(&lane.name.as_str().into(), column, style);
        for (index, part) in name.iter().enumerate() {
            let track = if index == 0 { track.as_str() } else { "" };
            drawn.push(format!("{} {track}", pad(part, column)));
        }
    }
    match figure.marks.as_slice() {
        [] => {
            let ends = [scale.low(), scale.high()].map(|end| significant(end, TICK_DIGITS));
            drawn.extend(below(ends, &figure.axis.caption(), (column + 1, width), style));
        }
        marks => drawn.extend(marked(marks, &scale, (column + 1, width), style)),
    }
    let (active, alone) = (style.either("█", "#"), style.either("░", "."));
    drawn.push(format!("{active} needs a hand   {alone} runs by itself"));
    match &figure.listing {
        Some(listing) => drawn.extend(table_lines(listing, style)),
        None => drawn.extend(figure.lanes.iter().flat_map(|lane| listed(lane, figure, style))),
    }
    drawn
}

/// Draws what one lane does.
fn track(lane: &Lane, scale: &Scale, width: usize, style: &TextStyle) -> String {
    let mut track = vec![' '; width];
    // Short work comes last, so that the wait beside it does not cover it.
    let (active, alone): (Vec<&Stretch>, Vec<&Stretch>) =
        lane.stretches.iter().partition(|stretch| stretch.active);
    for stretch in alone.into_iter().chain(active) {
        let from = part(scale.share(stretch.from), width).min(width - 1);
        let to = part(scale.share(stretch.to), width).max(from + 1);
        let (block, ascii) = if stretch.active { ('█', '#') } else { ('░', '.') };
        track[from..to].fill(if style.ascii { ascii } else { block });
    }
    track.into_iter().collect()
}

/// Draws the axis below a plot with marks of its own.
fn marked(
    marks: &[(f64, String)],
    scale: &Scale,
    (margin, width): (usize, usize),
    style: &TextStyle,
) -> Vec<String> {
    let (mut rule, mut words) = (vec![style.either("─", "-"); width], String::new());
    for (at, text) in marks {
        let place = part(scale.share(*at), width).min(width - 1);
        let text = style.signs(text);
        rule[place] = style.either("┴", "+");
        // A mark whose words would run into the last one's, or over the edge, stays without.
        let begin = place.saturating_sub(cells(&text) / 2);
        if begin + cells(&text) <= width && (words.is_empty() || begin > cells(&words)) {
            words = format!("{}{text}", pad(&words, begin));
        }
    }
    let indent = " ".repeat(margin);
    vec![format!("{indent}{}", rule.concat()), format!("{indent}{words}")]
}

/// Lists what one lane does.
fn listed(lane: &Lane, figure: &Timeline, style: &TextStyle) -> Vec<String> {
    let mut work = Text::new().plain(format!("{}: ", lane.name));
    for (index, stretch) in lane.stretches.iter().enumerate() {
        let number = |value| significant(value, TICK_DIGITS);
        let times = range_text(&number(stretch.from), &number(stretch.to));
        let joint = if index > 0 { "; " } else { "" };
        work = work.plain(format!("{joint}{times} {} {}", figure.axis.unit, stretch.label));
    }
    hanging(&work, "", style.width, style)
}
