//! The document model: what a report says, with no format in it.
//!
//! A result is turned into a [`Document`] once; each format then renders the same tree, so that the
//! terminal, the manuscript and the page for the kitchen never disagree.

use super::chart::Chart;

/// How a stretch of text is meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    /// Ordinary text.
    Plain,
    /// Important: a target, a limit, an amount to act on.
    Strong,
    /// Stressed, or the title of a work.
    Emphasis,
}

/// A stretch of text in one tone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Span {
    /// How it is meant.
    pub tone: Tone,
    /// What it says; line breaks count as spaces.
    pub text: String,
}

/// A line of text made of spans.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Text(pub Vec<Span>);

impl Text {
    /// Makes an empty line, to which spans are added.
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds ordinary text.
    #[must_use]
    pub fn plain(self, text: impl Into<String>) -> Self {
        self.with(Tone::Plain, text)
    }

    /// Adds important text.
    #[must_use]
    pub fn strong(self, text: impl Into<String>) -> Self {
        self.with(Tone::Strong, text)
    }

    /// Adds stressed text.
    #[must_use]
    pub fn emphasis(self, text: impl Into<String>) -> Self {
        self.with(Tone::Emphasis, text)
    }

    fn with(mut self, tone: Tone, text: impl Into<String>) -> Self {
        self.0.push(Span { tone, text: text.into() });
        self
    }

    /// Returns what it says, without the tones.
    pub fn words(&self) -> String {
        self.0.iter().map(|span| span.text.as_str()).collect()
    }

    /// Returns whether it says nothing.
    pub fn is_empty(&self) -> bool {
        self.0.iter().all(|span| span.text.is_empty())
    }
}

impl From<&str> for Text {
    fn from(text: &str) -> Self {
        Self::new().plain(text)
    }
}

impl From<String> for Text {
    fn from(text: String) -> Self {
        Self::new().plain(text)
    }
}

/// One entry of a list, with lines that belong under it.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Item {
    /// The entry itself.
    pub text: Text,
    /// What is said under it, one line each.
    pub under: Vec<Text>,
}

impl Item {
    /// Makes an entry with nothing under it.
    pub fn new(text: impl Into<Text>) -> Self {
        Self { text: text.into(), under: Vec::new() }
    }

    /// Adds a line under the entry.
    #[must_use]
    pub fn under(mut self, text: impl Into<Text>) -> Self {
        self.under.push(text.into());
        self
    }
}

impl<T: Into<Text>> From<T> for Item {
    fn from(text: T) -> Self {
        Self::new(text)
    }
}

/// A name and its value: "Yield" and "600 g".
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fact {
    /// What it is.
    pub name: String,
    /// Its value.
    pub value: Text,
}

impl Fact {
    /// Makes a fact.
    pub fn new(name: impl Into<String>, value: impl Into<Text>) -> Self {
        Self { name: name.into(), value: value.into() }
    }
}

/// On which side of its column a cell stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Align {
    /// Words.
    Left,
    /// Numbers.
    Right,
}

/// A column of a table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Column {
    /// Its heading, with the unit when all cells share one.
    pub heading: String,
    /// On which side its cells stand.
    pub align: Align,
}

/// A table: the cells of the first column name their rows.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Table {
    /// What the table shows, in one line.
    pub caption: Option<String>,
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows; a short row is filled up with empty cells.
    pub rows: Vec<Vec<Text>>,
}

impl Table {
    /// Makes a table without columns or rows.
    pub fn new() -> Self {
        Self::default()
    }

    /// Sets the caption.
    #[must_use]
    pub fn caption(mut self, caption: impl Into<String>) -> Self {
        self.caption = Some(caption.into());
        self
    }

    /// Adds a column of words.
    #[must_use]
    pub fn words(mut self, heading: impl Into<String>) -> Self {
        self.columns.push(Column { heading: heading.into(), align: Align::Left });
        self
    }

    /// Adds a column of numbers.
    #[must_use]
    pub fn numbers(mut self, heading: impl Into<String>) -> Self {
        self.columns.push(Column { heading: heading.into(), align: Align::Right });
        self
    }

    /// Adds a row.
    #[must_use]
    pub fn row<T: Into<Text>>(mut self, cells: impl IntoIterator<Item = T>) -> Self {
        self.push(cells);
        self
    }

    /// Adds a row in place.
    pub fn push<T: Into<Text>>(&mut self, cells: impl IntoIterator<Item = T>) {
        self.rows.push(cells.into_iter().map(Into::into).collect());
    }

    /// Returns the cell of a row in a column; empty when the row is short.
    pub fn cell<'a>(&self, row: &'a [Text], column: usize) -> &'a Text {
        const EMPTY: &Text = &Text(Vec::new());
        row.get(column).unwrap_or(EMPTY)
    }
}

/// The word that opens a caution, by how much harm is at stake.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Signal {
    /// Minor injury, or spoilt food.
    Caution,
    /// Death or serious injury is possible.
    Warning,
    /// Death or serious injury is certain if it is not heeded.
    Danger,
}

impl Signal {
    /// Returns the word as printed.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Caution => "CAUTION",
            Self::Warning => "WARNING",
            Self::Danger => "DANGER",
        }
    }
}

/// A box that a reader must not miss.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Caution {
    /// How much harm is at stake.
    pub signal: Signal,
    /// The hazard, in a few words.
    pub hazard: String,
    /// What may happen, what to do, when to stop; one paragraph each.
    pub lines: Vec<Text>,
}

/// What the entries of a list are, for formats that give them a style of their own.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// What goes into a dish.
    Ingredient,
    /// What is asked of an author.
    Query,
}

/// One part of a document.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// A heading below the title; level 2 is the highest.
    Heading {
        /// From 2 to 6.
        level: u8,
        /// What it says.
        text: Text,
    },
    /// A paragraph.
    Paragraph(Text),
    /// A list without order.
    Bullets(Vec<Item>),
    /// A list in order.
    Numbered(Vec<Item>),
    /// A list without order whose entries play a part.
    Entries(Role, Vec<Item>),
    /// Names with their values.
    Facts(Vec<Fact>),
    /// A table.
    Table(Table),
    /// A caution box.
    Caution(Caution),
    /// A remark beside the matter.
    Note(Text),
    /// A chart with its finding in words.
    Chart(Chart),
}

/// A document: a title and its parts in order.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Document {
    /// The title, the only heading of level 1.
    pub title: String,
    /// The parts.
    pub blocks: Vec<Block>,
}

impl Document {
    /// Makes a document with nothing below its title.
    pub fn new(title: impl Into<String>) -> Self {
        Self { title: title.into(), blocks: Vec::new() }
    }

    /// Adds a part.
    pub fn push(&mut self, block: Block) -> &mut Self {
        self.blocks.push(block);
        self
    }

    /// Adds a heading of level 2.
    pub fn section(&mut self, text: impl Into<Text>) -> &mut Self {
        self.push(Block::Heading { level: 2, text: text.into() })
    }

    /// Adds a heading of level 3.
    pub fn subsection(&mut self, text: impl Into<Text>) -> &mut Self {
        self.push(Block::Heading { level: 3, text: text.into() })
    }

    /// Adds a paragraph.
    pub fn paragraph(&mut self, text: impl Into<Text>) -> &mut Self {
        self.push(Block::Paragraph(text.into()))
    }

    /// Adds a list without order; an empty list adds nothing.
    pub fn bullets<T: Into<Item>>(&mut self, items: impl IntoIterator<Item = T>) -> &mut Self {
        self.list(Block::Bullets, items)
    }

    /// Adds a list in order; an empty list adds nothing.
    pub fn numbered<T: Into<Item>>(&mut self, items: impl IntoIterator<Item = T>) -> &mut Self {
        self.list(Block::Numbered, items)
    }

    /// Adds a list whose entries play a part; an empty list adds nothing.
    pub fn entries<T: Into<Item>>(
        &mut self,
        role: Role,
        items: impl IntoIterator<Item = T>,
    ) -> &mut Self {
        let items: Vec<Item> = items.into_iter().map(Into::into).collect();
        if items.is_empty() { self } else { self.push(Block::Entries(role, items)) }
    }

    fn list<T: Into<Item>>(
        &mut self,
        kind: fn(Vec<Item>) -> Block,
        items: impl IntoIterator<Item = T>,
    ) -> &mut Self {
        let items: Vec<Item> = items.into_iter().map(Into::into).collect();
        if items.is_empty() { self } else { self.push(kind(items)) }
    }

    /// Adds names with their values; an empty list adds nothing.
    pub fn facts(&mut self, facts: impl IntoIterator<Item = Fact>) -> &mut Self {
        let facts: Vec<Fact> = facts.into_iter().collect();
        if facts.is_empty() { self } else { self.push(Block::Facts(facts)) }
    }

    /// Adds a table.
    pub fn table(&mut self, table: Table) -> &mut Self {
        self.push(Block::Table(table))
    }

    /// Adds a caution box.
    pub fn caution(
        &mut self,
        signal: Signal,
        hazard: impl Into<String>,
        lines: Vec<Text>,
    ) -> &mut Self {
        self.push(Block::Caution(Caution { signal, hazard: hazard.into(), lines }))
    }

    /// Adds a remark.
    pub fn note(&mut self, text: impl Into<Text>) -> &mut Self {
        self.push(Block::Note(text.into()))
    }

    /// Adds a chart.
    pub fn chart(&mut self, chart: Chart) -> &mut Self {
        self.push(Block::Chart(chart))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn empty_lists_leave_no_trace() {
        let mut document = Document::new("Title");
        document.bullets(Vec::<&str>::new()).numbered(Vec::<&str>::new()).facts([]);
        assert!(document.blocks.is_empty());
    }

    #[test]
    fn a_short_row_reads_as_empty_cells() {
        let table = Table::new().words("a").numbers("b").row(["x"]);
        assert!(table.cell(&table.rows[0], 1).is_empty());
    }

    #[test]
    fn words_join_the_spans() {
        let text = Text::new().plain("hold at ").strong("61 °C").emphasis(" exactly");
        assert_eq!(text.words(), "hold at 61 °C exactly");
    }
}
