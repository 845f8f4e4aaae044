//! The text of the manuscript: blocks of a document as styled paragraphs and tables.

use super::super::document::{Align, Block, Caution, Fact, Item, Role, Table, Text, Tone};
use super::styles::{BULLETS, FIRST_NUMBERED, NAMESPACE, Style};
use super::xml::Xml;
use super::{Document, Page};

/// The name space of references from one part to another.
const REFERENCES: (&str, &str) =
    ("xmlns:r", "http://schemas.openxmlformats.org/officeDocument/2006/relationships");
/// Width of a bold sign of a table's text, in twentieths of a point: a little over half its size.
const SIGN: usize = 125;
/// Space left and right of the text of a cell, with a little to spare.
const CELL_MARGINS: usize = 180;
/// The longest text that makes a column wider, in signs.
const WIDEST_COLUMN: usize = 40;

/// The main part under construction.
struct Body {
    xml: Xml,
    lists: usize,
}

/// Writes the main part, and returns it with the number of numbered lists.
pub fn body(document: &Document, page: &Page) -> (String, usize) {
    let mut xml = Xml::root("w:document", &[NAMESPACE, REFERENCES]);
    xml.start("w:body", &[]).line();
    let mut body = Body { xml, lists: 0 };
    if !document.title.is_empty() {
        body.paragraph(Style::Title, &document.title.as_str().into());
    }
    document.blocks.iter().for_each(|block| body.block(block, page));
    let xml = &mut body.xml;
    xml.start("w:sectPr", &[]);
    xml.empty("w:footerReference", &[("w:type", "default"), ("r:id", "footer")]);
    let (width, height) = (page.width.to_string(), page.height.to_string());
    xml.empty("w:pgSz", &[("w:w", &width), ("w:h", &height)]);
    let margin = page.margin.to_string();
    xml.empty(
        "w:pgMar",
        &[
            ("w:top", &margin),
            ("w:right", &margin),
            ("w:bottom", &margin),
            ("w:left", &margin),
            ("w:header", "708"),
            ("w:footer", "708"),
            ("w:gutter", "0"),
        ],
    );
    xml.end();
    (body.xml.finish(), body.lists)
}

impl Body {
    fn block(&mut self, block: &Block, page: &Page) {
        match block {
            // The title is the only heading of level 1 of a document.
            Block::Heading { level, text } => {
                self.paragraph(Style::Heading(level.saturating_sub(1).clamp(1, 5)), text);
            }
            Block::Paragraph(text) => self.paragraph(Style::BodyText, text),
            Block::Bullets(items) => self.list(Style::ListBullet, items),
            Block::Numbered(items) => {
                self.lists += 1;
                self.list(Style::ListNumber, items);
            }
            Block::Entries(Role::Ingredient, items) => self.list(Style::Ingredient, items),
            Block::Entries(Role::Query, items) => self.list(Style::Query, items),
            Block::Facts(facts) => facts.iter().for_each(|fact| self.fact(fact)),
            Block::Table(table) => self.table(table, page),
            Block::Caution(caution) => self.caution(caution),
            Block::Note(text) => self.paragraph(Style::Note, text),
            Block::Chart(chart) if chart.page_only => {
                self.paragraph(Style::BodyText, &chart.in_words());
            }
            Block::Chart(chart) => {
                self.table(&chart.data(), page);
                self.paragraph(Style::Note, &chart.finding.as_str().into());
            }
        }
    }

    fn paragraph(&mut self, style: Style, text: &Text) {
        self.open(style, &[]);
        self.runs(text);
        self.xml.end().line();
    }

    /// Opens a paragraph; the numbering of a list is written where its style does not give it.
    fn open(&mut self, style: Style, alignment: &[(&str, &str)]) {
        self.xml.start("w:p", &[]).start("w:pPr", &[]);
        self.xml.empty("w:pStyle", &[("w:val", style.id())]);
        let numbering = match style {
            Style::ListBullet | Style::Ingredient => Some(BULLETS),
            Style::ListNumber => Some(FIRST_NUMBERED + self.lists.saturating_sub(1)),
            _ => None,
        };
        if let Some(numbering) = numbering {
            self.xml.start("w:numPr", &[]).empty("w:ilvl", &[("w:val", "0")]);
            self.xml.empty("w:numId", &[("w:val", &numbering.to_string())]).end();
        }
        if !alignment.is_empty() {
            self.xml.empty("w:jc", alignment);
        }
        self.xml.end();
    }

    fn runs(&mut self, text: &Text) {
        for span in text.0.iter().filter(|span| !span.text.is_empty()) {
            self.xml.start("w:r", &[]);
            match span.tone {
                Tone::Plain => {}
                Tone::Strong => {
                    self.xml.start("w:rPr", &[]).empty("w:b", &[]).end();
                }
                Tone::Emphasis => {
                    self.xml.start("w:rPr", &[]).empty("w:i", &[]).end();
                }
            }
            self.xml.element("w:t", &[("xml:space", "preserve")], &span.text).end();
        }
    }

    fn list(&mut self, style: Style, items: &[Item]) {
        for item in items {
            self.paragraph(style, &item.text);
            item.under.iter().for_each(|text| self.paragraph(Style::ListContinue, text));
        }
    }

    fn fact(&mut self, fact: &Fact) {
        let mut line = Text::new().strong(format!("{}: ", fact.name));
        line.0.extend(fact.value.0.iter().cloned());
        self.paragraph(Style::Fact, &line);
    }

    fn caution(&mut self, caution: &Caution) {
        let heading = format!("{}: {}", caution.signal.word(), caution.hazard);
        self.paragraph(Style::CautionHeading, &heading.into());
        caution.lines.iter().for_each(|line| self.paragraph(Style::Caution, line));
    }

    fn table(&mut self, table: &Table, page: &Page) {
        if let Some(caption) = &table.caption {
            self.paragraph(Style::Caption, &caption.as_str().into());
        }
        let widths = widths(table, page.text_width());
        self.xml.start("w:tbl", &[]).start("w:tblPr", &[]);
        self.xml.empty("w:tblStyle", &[("w:val", "NotesTable")]);
        let whole = page.text_width().to_string();
        self.xml.empty("w:tblW", &[("w:w", &whole), ("w:type", "dxa")]);
        self.xml.empty("w:tblLayout", &[("w:type", "fixed")]).end();
        self.xml.start("w:tblGrid", &[]);
        for width in &widths {
            self.xml.empty("w:gridCol", &[("w:w", &width.to_string())]);
        }
        self.xml.end().line();
        let heads: Vec<Text> = table
            .columns
            .iter()
            .map(|column| Text::new().strong(column.heading.as_str()))
            .collect();
        self.row(table, &heads, &widths, true);
        table.rows.iter().for_each(|cells| self.row(table, cells, &widths, false));
        self.xml.end().line();
        // Two tables without a paragraph between them would become one.
        self.paragraph(Style::TableText, &Text::new());
    }

    fn row(&mut self, table: &Table, cells: &[Text], widths: &[usize], is_head: bool) {
        self.xml.start("w:tr", &[]).start("w:trPr", &[]).empty("w:cantSplit", &[]);
        if is_head {
            self.xml.empty("w:tblHeader", &[]);
        }
        self.xml.end();
        for (index, column) in table.columns.iter().enumerate() {
            let width = widths[index].to_string();
            self.xml.start("w:tc", &[]).start("w:tcPr", &[]);
            self.xml.empty("w:tcW", &[("w:w", &width), ("w:type", "dxa")]).end();
            match column.align {
                Align::Left => self.open(Style::TableText, &[]),
                Align::Right => self.open(Style::TableText, &[("w:val", "right")]),
            }
            self.runs(table.cell(cells, index));
            self.xml.end().end();
        }
        self.xml.end().line();
    }
}

/// Shares the width of the text out: to each column its longest word; then columns that lack little
/// are filled up, so that they need no second line, and the wordy ones share what is left.
fn widths(table: &Table, whole: usize) -> Vec<usize> {
    let texts = |index: usize| {
        let cells = table.rows.iter().map(move |row| table.cell(row, index).words());
        cells.chain([table.columns[index].heading.clone()])
    };
    let length = |text: &str| text.chars().count();
    let word = |text: String| text.split([' ', '–']).map(length).max().unwrap_or(0);
    let room = |signs: Option<usize>| CELL_MARGINS + SIGN * signs.unwrap_or(0);
    let columns = 0..table.columns.len();
    let mut widths: Vec<usize> =
        columns.clone().map(|index| room(texts(index).map(word).max())).collect();
    let taken = widths.iter().sum::<usize>();
    if taken >= whole {
        return widths.into_iter().map(|width| whole * width / taken).collect();
    }
    let mut rest = whole - taken;
    let wished = |index| room(texts(index).map(|text| length(&text).min(WIDEST_COLUMN)).max());
    let mut lacking: Vec<(usize, usize)> =
        columns.map(|index| (wished(index).saturating_sub(widths[index]), index)).collect();
    lacking.sort_unstable();
    for (done, (lacks, index)) in lacking.iter().enumerate() {
        let given = (*lacks).min(rest / (lacking.len() - done));
        widths[*index] += given;
        rest -= given;
    }
    // What nobody needs goes to the widest, so that the others stay close together.
    if let Some((_, index)) = lacking.last() {
        widths[*index] += rest;
    }
    widths
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn short_columns_stay_on_one_line_and_long_ones_share_the_rest() {
        let long = "a long remark that needs more than one line of the table in any case";
        let table = Table::new().words("Trial").words("Verdict").words("Remark");
        let table = table.row(["T-01, text 0.2", "pass with note", long]);
        let widths = widths(&table, 9000);
        assert_eq!(widths.iter().sum::<usize>(), 9000);
        for (index, text) in ["T-01, text 0.2", "pass with note"].iter().enumerate() {
            assert!(widths[index] >= CELL_MARGINS + SIGN * text.len(), "{widths:?}");
        }
        assert!(widths[2] > widths[0] + widths[1]);
    }
}
