//! Adaptation notes as a document: the manuscript that goes to an editor.

use super::adapt::caution_box;
use super::document::{Block, Document, Text};
use super::{expectation, notes_ahead, notes_back as back, notes_goods, notes_head, notes_method};
use crate::advisor::{allergens, avoided_supplies};
use crate::notes::{House, Notes};

/// The sections of the notes on a recipe, in the order in which they are printed.
pub const SECTIONS: [Section; 10] = [
    Section::Headnote,
    Section::Cautions,
    Section::Ingredients,
    Section::Equipment,
    Section::Method,
    Section::Expect,
    Section::Keeping,
    Section::Record,
    Section::Queries,
    Section::Sources,
];

/// A section of the notes on a recipe.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Section {
    /// What the professional version does, and what changes.
    Headnote,
    /// What can hurt someone.
    Cautions,
    /// What goes in, in order of use.
    Ingredients,
    /// What it is made with.
    Equipment,
    /// What to do.
    Method,
    /// What is lost.
    Expect,
    /// What can be done ahead, and how it keeps.
    Keeping,
    /// What trials found.
    Record,
    /// What is asked of the author.
    Queries,
    /// Where the numbers come from.
    Sources,
}

impl Section {
    /// Returns the name by which a template calls it.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Headnote => "headnote",
            Self::Cautions => "cautions",
            Self::Ingredients => "ingredients",
            Self::Equipment => "equipment",
            Self::Method => "method",
            Self::Expect => "expect",
            Self::Keeping => "keeping",
            Self::Record => "record",
            Self::Queries => "queries",
            Self::Sources => "sources",
        }
    }

    /// Returns its heading; the headnote has none.
    pub const fn heading(self) -> &'static str {
        match self {
            Self::Headnote => "",
            Self::Cautions => "Cautions",
            Self::Ingredients => "Ingredients, in order of use",
            Self::Equipment => "Equipment",
            Self::Method => "Method",
            Self::Expect => "What you lose, and what to expect",
            Self::Keeping => "Ahead of time, and storage",
            Self::Record => "Testing record",
            Self::Queries => "Queries to the author",
            Self::Sources => "Sources",
        }
    }
}

/// How the notes are written.
#[derive(Debug, Clone, Copy)]
pub struct Writing<'a> {
    /// The style of the book.
    pub house: &'a House,
    /// Whether charts are wanted.
    pub charts: bool,
    /// The level of the headings of sections.
    pub level: u8,
}

impl Writing<'_> {
    /// Writes a computed text in the style of the book.
    pub(super) fn say(&self, text: impl AsRef<str>) -> String {
        self.house.say(text.as_ref())
    }

    /// Makes a heading so many levels below that of a section.
    pub(super) fn heading(&self, below: u8, text: impl Into<Text>) -> Block {
        Block::Heading { level: self.level + below, text: text.into() }
    }
}

/// Writes the notes on one or more recipes.
pub fn document(all: &[Notes<'_>], house: &House, charts: bool) -> Document {
    match all {
        [one] => {
            let writing = Writing { house, charts, level: 2 };
            let mut document = Document::new(one.material.recipe.title.as_str());
            document.blocks = recipe(one, &writing);
            document
        }
        several => {
            let writing = Writing { house, charts, level: 3 };
            let mut document = Document::new("Adaptation notes");
            for one in several {
                document.section(one.material.recipe.title.as_str());
                document.blocks.extend(recipe(one, &writing));
            }
            document
        }
    }
}

fn recipe(notes: &Notes<'_>, writing: &Writing<'_>) -> Vec<Block> {
    let mut blocks = Vec::new();
    for section in SECTIONS {
        let inside = self::section(section, notes, writing);
        if !inside.is_empty() {
            if !section.heading().is_empty() {
                blocks.push(writing.heading(0, section.heading()));
            }
            blocks.extend(inside);
        }
    }
    blocks
}

/// Writes what is inside a section; empty when there is nothing to say.
pub fn section(section: Section, notes: &Notes<'_>, writing: &Writing<'_>) -> Vec<Block> {
    match section {
        Section::Headnote => notes_head::headnote(notes, writing),
        Section::Cautions => cautions(notes, writing),
        Section::Ingredients => notes_goods::ingredients(notes, writing),
        Section::Equipment => notes_goods::equipment(notes, writing),
        Section::Method => notes_method::method(notes, writing),
        Section::Expect => expectation::expect(notes, writing),
        Section::Keeping => notes_ahead::keeping(notes, writing),
        Section::Record => back::record(notes, writing),
        Section::Queries => back::queries(notes, writing),
        Section::Sources => back::sources(notes),
    }
}

/// Names kitchens in quotation marks: "Tiny flat" and "Rural, high".
pub(super) fn kitchens(notes: &Notes<'_>, indices: impl IntoIterator<Item = usize>) -> String {
    let name = |index: usize| format!("\"{}\"", notes.material.adapted[index].kitchen.name);
    let names: Vec<String> = indices.into_iter().map(name).collect();
    match names.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, others)) => format!("{} and {last}", others.join(", ")),
        None => String::new(),
    }
}

/// Names the kitchens that something is for; nothing when it is for all.
pub(super) fn only_in(notes: &Notes<'_>, indices: &[usize]) -> String {
    match indices.len() == notes.material.adapted.len() {
        true => String::new(),
        false => format!(" (in {})", kitchens(notes, indices.iter().copied())),
    }
}

/// What every set of notes defers to.
const DEFERS: &str = "These notes are editorial. Local food and fire codes, tested canning \
                      procedures, the maker's manual and licensed practice come before anything in \
                      them.";

fn cautions(notes: &Notes<'_>, writing: &Writing<'_>) -> Vec<Block> {
    let mut document = Document::default();
    for (caution, kitchens) in &notes.cautions {
        let mut told = caution_box(caution);
        told.hazard = writing.house.authored(&told.hazard) + &only_in(notes, kitchens);
        let styled = |line: &Text| Text::from(writing.house.authored(&line.words()));
        told.lines = told.lines.iter().map(styled).collect();
        document.push(Block::Caution(told));
    }
    document.paragraph(writing.house.authored(&contains(notes)));
    for (index, adapted) in notes.material.adapted.iter().enumerate() {
        let held = avoided_supplies(adapted.adaptation, adapted.kitchen, notes.material.knowledge);
        for (supply, word) in held {
            let told = format!("{} avoids {word}: {}.", kitchens(notes, [index]), supply.name);
            document.paragraph(Text::new().strong(writing.house.authored(&told)));
        }
    }
    document.paragraph(DEFERS);
    document.blocks
}

/// The allergens of the dish, those that only some kitchens bring in beside them.
fn contains(notes: &Notes<'_>) -> String {
    let knowledge = notes.material.knowledge;
    let each = notes.material.adapted.iter().map(|one| allergens(one.adaptation, knowledge));
    let each: Vec<_> = each.collect();
    let everywhere = |word: &str| each.iter().all(|one| one.contains(word));
    let all: Vec<&str> =
        each.iter().take(1).flatten().copied().filter(|word| everywhere(word)).collect();
    let mut parts = Vec::new();
    if !all.is_empty() {
        parts.push(format!("Contains {}.", all.join(", ")));
    }
    for (index, one) in each.iter().enumerate() {
        let own: Vec<&str> = one.iter().copied().filter(|word| !everywhere(word)).collect();
        if !own.is_empty() {
            let also = if all.is_empty() { "" } else { "also " };
            parts.push(format!("In {} {also}{}.", kitchens(notes, [index]), own.join(", ")));
        }
    }
    match parts.is_empty() {
        true => {
            "No allergen is listed for its ingredients in the knowledge base; read every label."
                .to_owned()
        }
        false => {
            format!("{} Other allergens were not assessed; read every label.", parts.join(" "))
        }
    }
}
