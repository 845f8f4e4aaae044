//! Adaptation notes as a document: the manuscript that goes to an editor.

use super::adapt::caution_box;
use super::document::{Block, Document, Item, Text};
use super::{expectation, notes_back as back, notes_goods, notes_head, notes_method, shown};
use crate::notes::{House, Notes, keeping};

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
        Section::Keeping => keeping(notes, writing),
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
        told.hazard.push_str(&only_in(notes, kitchens));
        let styled = |line: &Text| Text::from(writing.house.authored(&line.words()));
        told.lines = told.lines.iter().map(styled).collect();
        document.push(Block::Caution(told));
    }
    let mut allergens: Vec<&str> =
        notes.ingredients.iter().flat_map(|one| one.allergens).map(String::as_str).collect();
    allergens.sort_unstable();
    allergens.dedup();
    let listed = match allergens.as_slice() {
        [] => "No allergen is listed for its ingredients in the knowledge base; read every label."
            .to_owned(),
        some => format!(
            "Contains {}. Other allergens were not assessed; read every label.",
            some.join(", ")
        ),
    };
    document.paragraph(listed);
    document.paragraph(DEFERS);
    document.blocks
}

fn keeping(notes: &Notes<'_>, writing: &Writing<'_>) -> Vec<Block> {
    let mut document = Document::default();
    let mut told: Vec<(String, Vec<usize>)> = Vec::new();
    for wait in keeping::waits(&notes.material) {
        let line = writing.say(format!(
            "Begin the {} ahead: it takes {}, of which {} hands-on.",
            wait.product,
            shown::time(&wait.time),
            shown::time(&wait.attended)
        ));
        told.push((line, vec![wait.kitchen]));
    }
    if let Some(keeping) = &notes.keeping {
        for kept in &keeping.kept {
            let line = writing.say(format!("The {}: {}", keeping.product, kept.kind.advice()));
            match told.iter_mut().find(|(known, _)| *known == line) {
                Some((_, kitchens)) => kitchens.push(kept.kitchen),
                None => told.push((line, vec![kept.kitchen])),
            }
        }
    }
    let several = notes.material.adapted.len() > 1;
    document.bullets(told.into_iter().map(|(line, indices)| {
        let all = indices.len() == notes.material.adapted.len();
        match several && !all {
            true => Item::new(format!("In {}: {line}", kitchens(notes, indices))),
            false => Item::new(line),
        }
    }));
    document.blocks
}
