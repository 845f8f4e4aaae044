//! Recipes from elsewhere: schema.org/Recipe as JSON-LD, into a recipe file.
//!
//! What is understood becomes keys of the file. What is not is kept beside them as text, with a
//! comment that asks for a look, and is listed; nothing is dropped. Sentences stay plain work: that a
//! sentence names a technique of the laboratory is remarked on, and the author decides.

mod draft;
mod household;
mod line;
mod outside;
mod page;
mod technique;

use serde_json::Value;

use crate::finding::{Code, Finding};
use crate::knowledge::Knowledge;
use crate::quantity::Measures;
use outside::MOST;

/// What an import gives.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Imported {
    /// The text of the recipe file.
    pub text: String,
    /// What wants a look, in the order of the file.
    pub remarks: Vec<String>,
}

/// Reads a recipe out of JSON-LD, or out of a web page that holds some.
///
/// # Errors
/// A finding with its place when the text is no JSON, holds no recipe, or one that is no recipe for
/// its sheer length.
pub fn import(text: &str, file: &str, knowledge: &Knowledge) -> Result<Imported, Box<Finding>> {
    import_by(text, file, knowledge, None)
}

/// Does what [`import`] does, with the cups and spoons of a nation where they are known.
///
/// # Errors
/// As for [`import`].
pub fn import_by(
    text: &str,
    file: &str,
    knowledge: &Knowledge,
    measures: Option<Measures>,
) -> Result<Imported, Box<Finding>> {
    let mut fault = None;
    for block in page::blocks(text) {
        match serde_json::from_str::<Value>(&text[block.clone()]) {
            Ok(document) => {
                if let Some(found) = outside::find(&document) {
                    let long = found.ingredients.len().max(found.steps.len());
                    if long > MOST {
                        let message = format!("the recipe has more than {MOST} lines or steps");
                        let help = "import one recipe at a time".to_owned();
                        return Err(Box::new(
                            Finding::error(Code::Syntax, file, message).help(help),
                        ));
                    }
                    let (text, remarks) = draft::write(&found, file, knowledge, measures);
                    return Ok(Imported { text, remarks });
                }
            }
            Err(error) => {
                let place = block.start + offset(&text[block], error.line(), error.column());
                let finding = Finding::error(Code::Syntax, file, plain_message(&error));
                let help = "the file must be JSON-LD, or a page with a script of that type";
                fault.get_or_insert(finding.at(place..place, "").help(help));
            }
        }
    }
    Err(Box::new(fault.unwrap_or_else(|| {
        Finding::error(Code::MissingKey, file, "no schema.org Recipe in the file")
            .help("a thing with \"@type\": \"Recipe\" is looked for, in JSON-LD or in a web page")
    })))
}

/// The fault without its place, which the finding shows.
fn plain_message(error: &serde_json::Error) -> String {
    let message = error.to_string();
    let end = message.find(" at line ").unwrap_or(message.len());
    format!("not well-formed JSON: {}", &message[..end])
}

/// Returns the place of a line and a column, counted from 1, in bytes from the start.
fn offset(text: &str, line: usize, column: usize) -> usize {
    let starts = text.match_indices('\n').map(|(at, _)| at + 1);
    let start = [0].into_iter().chain(starts).nth(line.saturating_sub(1)).unwrap_or(text.len());
    let mut place = (start + column.saturating_sub(1)).min(text.len());
    while !text.is_char_boundary(place) {
        place -= 1;
    }
    place
}
