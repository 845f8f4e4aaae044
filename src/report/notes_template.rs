//! Adaptation notes laid out by a template of the book.

use std::collections::BTreeMap;

use minijinja::value::Value;

use super::document::Block;
use super::notes::{SECTIONS, Section, Writing, section};
use super::notes_head::summary_row;
use super::template::{self, TemplateFault};
use super::{html, markdown};
use crate::book::templates::{NOTES, NOTES_HTML, Templates};
use crate::notes::{House, Notes};

/// Into what a template writes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A manuscript in Markdown.
    Markdown,
    /// A page.
    Html,
}

impl Kind {
    /// Returns the name under which a book gives the template.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Markdown => NOTES,
            Self::Html => NOTES_HTML,
        }
    }

    /// Returns a text as the template may write it; a page escapes by itself.
    fn text(self, text: &str) -> Value {
        match self {
            Self::Markdown => Value::from(markdown::escape(text)),
            Self::Html => Value::from(text),
        }
    }
}

/// Writes notes by the book's template; `None` when the book has none for the format.
///
/// # Errors
/// [`TemplateFault`] for a template that cannot be used.
pub fn render(
    all: &[Notes<'_>],
    house: &House,
    templates: &Templates,
    kind: Kind,
) -> Result<Option<String>, TemplateFault> {
    let Some(main) = templates.main.get(kind.name()) else { return Ok(None) };
    let mut charts = 0;
    let recipes: Vec<Value> =
        all.iter().map(|notes| recipe(notes, house, kind, &mut charts)).collect();
    let given = minijinja::context! { recipes => recipes };
    let written = template::render(&templates.files, main, given, kind == Kind::Html)?;
    Ok(Some(match kind {
        Kind::Markdown => written,
        Kind::Html => {
            let title = all.first().map_or("", |notes| notes.material.recipe.title.as_str());
            html::page(title, &written, house.style().spelling.language())
        }
    }))
}

/// What a template is given of one recipe.
fn recipe(notes: &Notes<'_>, house: &House, kind: Kind, charts: &mut usize) -> Value {
    let writing = Writing { house, charts: kind == Kind::Html, level: 3 };
    let mut given: BTreeMap<&'static str, Value> = BTreeMap::new();
    given.insert("title", kind.text(&notes.material.recipe.title));
    given.insert("author", kind.text(&notes.material.recipe.author));
    let kitchens = notes.material.adapted.iter().map(|adapted| {
        let [name, verdict, makes, time, hands_on] =
            summary_row(adapted, &writing).map(|text| kind.text(&text));
        minijinja::context! { name, verdict, makes, time, hands_on }
    });
    given.insert("kitchens", kitchens.collect::<Vec<Value>>().into());
    let queries = notes.queries.iter().enumerate().map(|(index, query)| {
        let text = kind.text(&writing.say(&query.text));
        minijinja::context! { number => index + 1, about => kind.text(&query.about), text }
    });
    given.insert("queries", queries.collect::<Vec<Value>>().into());
    let headings: BTreeMap<&'static str, Value> =
        SECTIONS.into_iter().map(|one| (one.key(), Value::from(one.heading()))).collect();
    given.insert("headings", Value::from_object(headings));
    for one in SECTIONS {
        // The list of queries has the name of their section.
        let key = if one == Section::Queries { "queries_section" } else { one.key() };
        given.insert(key, rendered(&section(one, notes, &writing), kind, charts));
    }
    Value::from_object(given)
}

fn rendered(blocks: &[Block], kind: Kind, charts: &mut usize) -> Value {
    match kind {
        Kind::Markdown => Value::from(markdown::blocks(blocks)),
        Kind::Html => Value::from_safe_string(html::blocks(blocks, charts)),
    }
}
