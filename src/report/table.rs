//! A document as text for a terminal or a plain file.

use comfy_table::{
    Cell, CellAlignment, ColumnConstraint, ContentArrangement, LineStyle, TableStyle, Width,
};

use super::chart_text;
use super::document::{Align, Block, Caution, Document, Fact, Item, Table, Text};
use super::spoken::to_spoken;
use super::words::{bold, cells, hanging, pad, to_ascii, wrap};

/// The width of a terminal that does not say how wide it is: common practice.
pub const DEFAULT_WIDTH: usize = 80;
/// The least width that is laid out; narrower terminals wrap by themselves.
pub const LEAST_WIDTH: usize = 20;
/// The widest column that a single word may force.
const WIDEST_FORCED_WORD: usize = 24;
/// Spaces between two columns.
const COLUMN_GAP: usize = 2;
/// Names of facts are set in a column of at most this share of the width: 2/5.
const FACT_NAME_SHARE: (usize, usize) = (2, 5);

/// How text is laid out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TextStyle {
    /// Cells in a line.
    pub width: usize,
    /// Whether bold and italics are wanted.
    pub colour: bool,
    /// Whether only ASCII signs may be used.
    pub ascii: bool,
    /// Whether the text is for a screen reader: no rules, no drawing, tables as named values, signs
    /// in words.
    pub linear: bool,
}

impl Default for TextStyle {
    fn default() -> Self {
        Self { width: DEFAULT_WIDTH, colour: false, ascii: false, linear: false }
    }
}

impl TextStyle {
    /// Returns a text in the signs that may be used.
    pub fn signs(&self, text: &str) -> String {
        let text = if self.linear { to_spoken(text) } else { text.to_owned() };
        if self.ascii { to_ascii(&text) } else { text }
    }

    /// Returns one of two signs: the drawn one or its ASCII form.
    pub fn either<'a>(&self, drawn: &'a str, ascii: &'a str) -> &'a str {
        if self.ascii { ascii } else { drawn }
    }
}

/// Renders a document as text; every line ends with a line break.
pub fn render(document: &Document, style: &TextStyle) -> String {
    let style = TextStyle { width: style.width.max(LEAST_WIDTH), ..*style };
    let mut out = Vec::new();
    if !document.title.is_empty() {
        out.extend(heading(&document.title.as_str().into(), 1, &style));
    }
    let mut after_heading = true;
    for block in &document.blocks {
        if !(out.is_empty() || after_heading) || matches!(block, Block::Heading { .. }) {
            out.push(String::new());
        }
        out.extend(lines_of(block, &style));
        after_heading = matches!(block, Block::Heading { .. });
    }
    let mut text = String::new();
    for line in out.iter().skip_while(|line| line.is_empty()) {
        text.push_str(line.trim_end());
        text.push('\n');
    }
    text
}

fn lines_of(block: &Block, style: &TextStyle) -> Vec<String> {
    match block {
        Block::Heading { level, text } => heading(text, *level, style),
        Block::Paragraph(text) => wrap(text, style.width, style),
        Block::Bullets(items) | Block::Entries(_, items) => {
            list(items, |_| style.either("• ", "* ").to_owned(), style)
        }
        Block::Numbered(items) => {
            let digits = items.len().to_string().len();
            list(items, |index| format!("{:>digits$}. ", index + 1), style)
        }
        Block::Facts(facts) => fact_lines(facts, style),
        Block::Table(table) => table_lines(table, style),
        Block::Caution(caution) => caution_lines(caution, style),
        Block::Note(text) => hanging(text, "Note: ", style.width, style),
        Block::Chart(chart) => chart_text::lines(chart, style),
    }
}

fn heading(text: &Text, level: u8, style: &TextStyle) -> Vec<String> {
    let plain = TextStyle { colour: false, ..*style };
    let mut lines = wrap(text, style.width, &plain);
    let widest = lines.iter().map(|line| cells(line)).max().unwrap_or(0);
    for line in &mut lines {
        *line = bold(line, style);
    }
    let rule = match level {
        _ if style.linear => return lines,
        1 => style.either("═", "="),
        2 => style.either("─", "-"),
        _ => return lines,
    };
    lines.push(rule.repeat(widest));
    lines
}

fn list(items: &[Item], mark: impl Fn(usize) -> String, style: &TextStyle) -> Vec<String> {
    let mut lines = Vec::new();
    for (index, item) in items.iter().enumerate() {
        let mark = mark(index);
        lines.extend(hanging(&item.text, &mark, style.width, style));
        let indent = " ".repeat(cells(&mark));
        for text in &item.under {
            lines.extend(hanging(text, &indent, style.width, style));
        }
    }
    lines
}

fn fact_lines(facts: &[Fact], style: &TextStyle) -> Vec<String> {
    let names: Vec<String> = facts.iter().map(|fact| style.signs(&fact.name) + ":").collect();
    let limit = style.width * FACT_NAME_SHARE.0 / FACT_NAME_SHARE.1;
    let column = names.iter().map(|name| cells(name)).filter(|n| *n <= limit).max().unwrap_or(0);
    let mut lines = Vec::new();
    for (name, fact) in names.iter().zip(facts) {
        if style.linear && cells(name) <= limit {
            lines.extend(hanging(&fact.value, &format!("{name} "), style.width, style));
        } else if cells(name) > column {
            lines.extend(wrap(&name.as_str().into(), style.width, style));
            lines.extend(hanging(&fact.value, "  ", style.width, style));
        } else {
            let mark = pad(name, column + 1);
            lines.extend(hanging(&fact.value, &mark, style.width, style));
        }
    }
    lines
}

fn caution_lines(caution: &Caution, style: &TextStyle) -> Vec<String> {
    let bar = if style.linear { "" } else { style.either("┃ ", "! ") };
    let width = style.width - cells(bar);
    let title = Text::new().strong(format!("{}: {}", caution.signal.word(), caution.hazard));
    let paragraphs = std::iter::once(&title).chain(&caution.lines);
    let lines = paragraphs.flat_map(|text| wrap(text, width, style));
    lines.map(|line| format!("{bar}{line}")).collect()
}

/// Lays out a table, or its rows one below the other where the columns do not fit.
pub(super) fn table_lines(table: &Table, style: &TextStyle) -> Vec<String> {
    let mut lines = match &table.caption {
        Some(caption) => hanging(&caption.as_str().into(), "", style.width, style),
        None => Vec::new(),
    };
    if table.rows.is_empty() {
        lines.push("(none)".to_owned());
    } else if style.linear || least_width(table, style) > style.width {
        lines.extend(stacked(table, style));
    } else {
        lines.extend(columns(table, style));
    }
    lines
}

/// Returns the text of one column: its heading, then its cells.
fn column_texts(table: &Table, index: usize, style: &TextStyle) -> Vec<String> {
    let heading = table.columns.get(index).map_or("", |column| column.heading.as_str());
    let cells = table.rows.iter().map(|row| table.cell(row, index).words());
    std::iter::once(heading.to_owned()).chain(cells).map(|text| style.signs(&text)).collect()
}

/// Returns the cells that a column needs so that no ordinary word is cut.
fn least_column(table: &Table, index: usize, style: &TextStyle) -> usize {
    let texts = column_texts(table, index, style);
    let words = texts.iter().flat_map(|text| text.split(' ')).map(cells);
    words.max().unwrap_or(0).clamp(1, WIDEST_FORCED_WORD)
}

fn least_width(table: &Table, style: &TextStyle) -> usize {
    let count = table.columns.len();
    let least: usize = (0..count).map(|index| least_column(table, index, style)).sum();
    least + COLUMN_GAP * count.saturating_sub(1)
}

/// Shares the width among the columns: each gets its least, then those that lack little are filled
/// up, and the wordy ones share what is left.
fn column_widths(table: &Table, style: &TextStyle) -> Vec<usize> {
    let indices = 0..table.columns.len();
    let wanted: Vec<usize> = indices
        .clone()
        .map(|index| column_texts(table, index, style).iter().map(|text| cells(text)).max())
        .map(|widest| widest.unwrap_or(0).max(1))
        .collect();
    let mut widths: Vec<usize> = indices.map(|index| least_column(table, index, style)).collect();
    let mut spare = style.width.saturating_sub(least_width(table, style));
    let mut by_need: Vec<(usize, usize)> = (0..widths.len())
        .map(|index| (wanted[index].saturating_sub(widths[index]), index))
        .collect();
    by_need.sort_unstable();
    for (done, (need, index)) in by_need.iter().enumerate() {
        let share = spare / (by_need.len() - done);
        let given = share.min(*need);
        widths[*index] += given;
        spare -= given;
    }
    widths
}

fn columns(table: &Table, style: &TextStyle) -> Vec<String> {
    let rule = if style.ascii { '-' } else { '─' };
    let line = LineStyle::none().fill(rule);
    let mut drawn = comfy_table::Table::new();
    drawn
        .load_style(TableStyle::new().header_separator(line))
        .set_content_arrangement(ContentArrangement::Dynamic)
        .set_width(u16::try_from(style.width).unwrap_or(u16::MAX))
        .set_header(table.columns.iter().map(|column| style.signs(&column.heading)));
    for row in &table.rows {
        drawn.add_row(table.columns.iter().enumerate().map(|(index, column)| {
            let cell = Cell::new(style.signs(&table.cell(row, index).words()));
            cell.set_alignment(side(column.align))
        }));
    }
    let last = table.columns.len().saturating_sub(1);
    let widths = column_widths(table, style);
    for (index, (column, width)) in table.columns.iter().zip(widths).enumerate() {
        let padding = (u16::from(index > 0), u16::from(index < last));
        let width = u16::try_from(width).unwrap_or(u16::MAX) + padding.0 + padding.1;
        if let Some(drawn) = drawn.column_mut(index) {
            drawn.set_padding(padding).set_cell_alignment(side(column.align));
            drawn.set_constraint(ColumnConstraint::Absolute(Width::Fixed(width)));
        }
    }
    let mut above_rule = true;
    let styled = drawn.lines().map(|line| {
        let line = line.trim_end();
        above_rule &= !line.chars().all(|sign| sign == rule);
        if above_rule { bold(line, style) } else { line.to_owned() }
    });
    styled.collect()
}

fn side(align: Align) -> CellAlignment {
    match align {
        Align::Left => CellAlignment::Left,
        Align::Right => CellAlignment::Right,
    }
}

/// Writes each row as its name and then one "heading: value" line for each further column.
fn stacked(table: &Table, style: &TextStyle) -> Vec<String> {
    let mut lines = Vec::new();
    for row in &table.rows {
        for (index, column) in table.columns.iter().enumerate() {
            let value = table.cell(row, index);
            if value.is_empty() {
                continue;
            }
            let indent = if index == 0 { "" } else { "  " };
            let mut text = Text::new().plain(format!("{}: ", column.heading));
            text.0.extend(value.0.iter().cloned());
            lines.extend(hanging(&text, indent, style.width, style));
        }
    }
    lines
}
