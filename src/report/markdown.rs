//! A document as CommonMark with pipe tables.

use std::fmt::Write as _;

use super::chart::Chart;
use super::document::{Align, Block, Caution, Document, Fact, Item, Table, Text, Tone};

/// Signs that Markdown or HTML would read as markup anywhere in a line.
const MARKUP: [char; 13] = ['\\', '`', '*', '_', '[', ']', '<', '>', '#', '|', '~', '&', '$'];

/// Renders a document as Markdown; every line ends with a line break.
pub fn render(document: &Document) -> String {
    let mut blocks = Vec::new();
    if !document.title.is_empty() {
        blocks.push(format!("# {}\n", line(&document.title.as_str().into())));
    }
    blocks.extend(document.blocks.iter().map(block));
    blocks.join("\n")
}

/// Renders parts of a document without a title.
pub fn blocks(blocks: &[Block]) -> String {
    blocks.iter().map(block).collect::<Vec<_>>().join("\n")
}

fn block(block: &Block) -> String {
    match block {
        Block::Heading { level, text } => {
            format!("{} {}\n", "#".repeat(usize::from(*level).clamp(2, 6)), line(text))
        }
        Block::Paragraph(text) => format!("{}\n", start(&line(text))),
        Block::Bullets(items) | Block::Entries(_, items) => list(items, |_| "- ".to_owned()),
        Block::Numbered(items) => list(items, |index| format!("{}. ", index + 1)),
        Block::Facts(facts) => fact_list(facts),
        Block::Table(table) => pipe_table(table),
        Block::Caution(caution) => quote(caution),
        Block::Note(text) => format!("*Note:* {}\n", line(text)),
        Block::Chart(chart) if chart.page_only => format!("{}\n", start(&line(&chart.in_words()))),
        Block::Chart(chart) => figure(chart),
    }
}

/// Escapes what Markdown would read as markup, and turns line breaks into spaces.
pub fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for sign in text.chars() {
        if MARKUP.contains(&sign) {
            out.push('\\');
        }
        out.push(if sign.is_control() { ' ' } else { sign });
    }
    out
}

/// Escapes what Markdown would read as a list or a rule at the start of a line.
fn start(text: &str) -> String {
    let digits = text.bytes().take_while(u8::is_ascii_digit).count();
    let after = &text[digits..];
    if digits > 0 && after.starts_with(['.', ')']) {
        return format!("{}\\{after}", &text[..digits]);
    }
    if text.starts_with(['-', '+', '=']) { format!("\\{text}") } else { text.to_owned() }
}

/// Writes a line of text; marks of tone stand tight against the words, spaces outside them.
fn line(text: &Text) -> String {
    let mut out = String::new();
    for span in &text.0 {
        let mark = match span.tone {
            Tone::Plain => "",
            Tone::Strong => "**",
            Tone::Emphasis => "*",
        };
        let inner = span.text.trim();
        if mark.is_empty() || inner.is_empty() {
            out.push_str(&escape(&span.text));
            continue;
        }
        let before = &span.text[..span.text.len() - span.text.trim_start().len()];
        let after = &span.text[span.text.trim_end().len()..];
        let _ = write!(out, "{before}{mark}{}{mark}{after}", escape(inner));
    }
    out.trim().to_owned()
}

fn list(items: &[Item], mark: impl Fn(usize) -> String) -> String {
    let mut out = String::new();
    for (index, item) in items.iter().enumerate() {
        let mark = mark(index);
        let _ = writeln!(out, "{mark}{}", start(&line(&item.text)));
        for text in &item.under {
            let _ = writeln!(out, "\n{}{}", " ".repeat(mark.len()), start(&line(text)));
        }
    }
    out
}

fn fact_list(facts: &[Fact]) -> String {
    let lines = facts.iter().map(|fact| {
        let name = escape(&fact.name);
        format!("- **{name}:** {}\n", line(&fact.value))
    });
    lines.collect()
}

fn pipe_table(table: &Table) -> String {
    let mut out = String::new();
    if let Some(caption) = &table.caption {
        let _ = writeln!(out, "**{}**\n", escape(caption));
    }
    if table.rows.is_empty() {
        return out + "(none)\n";
    }
    let row = |cells: Vec<String>| format!("| {} |\n", cells.join(" | "));
    out.push_str(&row(table.columns.iter().map(|column| escape(&column.heading)).collect()));
    let sides = table.columns.iter().map(|column| match column.align {
        Align::Left => "---".to_owned(),
        Align::Right => "---:".to_owned(),
    });
    out.push_str(&row(sides.collect()));
    for cells in &table.rows {
        let count = table.columns.len();
        out.push_str(&row((0..count).map(|index| line(table.cell(cells, index))).collect()));
    }
    out
}

fn quote(caution: &Caution) -> String {
    let mut out = format!("> **{}: {}**\n", caution.signal.word(), escape(&caution.hazard));
    for text in &caution.lines {
        let _ = write!(out, ">\n> {}\n", start(&line(text)));
    }
    out
}

/// Writes the finding and the numbers: Markdown does not draw.
fn figure(chart: &Chart) -> String {
    let finding = start(&line(&chart.finding.as_str().into()));
    format!("{}\n{finding}\n", pipe_table(&chart.data()))
}
