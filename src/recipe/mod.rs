//! Recipes: ingredients, steps, and the batches that join them.
//!
//! A recipe file is read as written ([`written`]), then linked: foods, techniques and attributes
//! resolved, amounts to SI within physical bounds, and the steps joined into a graph in which
//! nothing is used twice and nothing is left lying about. Every fault is collected.

mod amount;
mod balance;
mod composition;
mod graph;
pub mod import;
mod ingredient;
mod step;
pub mod written;

use std::path::Path;

pub use amount::{is_poured, known_density};
pub use balance::{BalanceError, Needs};
pub use composition::at_brix;
pub use ingredient::Ingredient;
pub use step::{Professional, Source, Step, Task, Use, Work};

use crate::finding::{Code, Finding};
use crate::knowledge::Knowledge;
use crate::knowledge::written::{Spanned, Text};
use crate::quantity::{Dimension, Mass, Measures, Volume, parse_amount};
use crate::reader::{ABOVE_ZERO, Bounds, Reader, load_text, parse_toml};
use written::WrittenRecipe;

/// How many people one recipe serves at most.
const SERVES: Bounds =
    Bounds::new(Dimension::Fraction, ABOVE_ZERO, 1e5, "write how many it serves as \"12\"");

/// How much a recipe makes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Makes {
    /// A mass.
    Mass(Mass),
    /// A volume.
    Volume(Volume),
}

/// A professional recipe, linked.
#[derive(Debug, Clone, PartialEq)]
pub struct Recipe {
    /// Its title.
    pub title: String,
    /// Who wrote it; empty when not stated.
    pub author: String,
    /// How many people it serves.
    pub serves: Option<f64>,
    /// How much it makes.
    pub makes: Option<Makes>,
    /// What else is to be known; empty when not stated.
    pub note: String,
    /// What goes in.
    pub ingredients: Vec<Ingredient>,
    /// What is done, in order; the last step makes the dish.
    pub steps: Vec<Step>,
}

impl Recipe {
    /// Reads a recipe file's text, with unqualified cups and spoons of the given nation.
    ///
    /// # Errors
    /// Every finding about the text, in the order of the file.
    pub fn read(
        text: &str,
        file: &str,
        knowledge: &Knowledge,
        measures: Measures,
    ) -> Result<Self, Vec<Finding>> {
        let written: WrittenRecipe = parse_toml(text, file).map_err(|fault| vec![*fault])?;
        let mut reader = Reader::new(file, knowledge, measures);
        let recipe = link(&written, &mut reader);
        let mut findings = reader.into_findings();
        findings.sort_by_key(|finding| finding.label.as_ref().map(|label| label.span.start));
        if findings.is_empty() { Ok(recipe) } else { Err(findings) }
    }

    /// Returns the ids of the foods that go into a step, through the steps before it.
    pub fn foods_in<'a>(&'a self, step: &'a Step) -> impl Iterator<Item = &'a str> {
        let mut open: Vec<Source> = step.uses.iter().map(|used| used.source).collect();
        std::iter::from_fn(move || {
            loop {
                match open.pop()? {
                    Source::Ingredient(index) => {
                        return Some(self.ingredients[index].food.as_str());
                    }
                    Source::Product(index) => {
                        open.extend(self.steps[index].uses.iter().map(|used| used.source));
                    }
                }
            }
        })
    }

    /// Reads a recipe from a file.
    ///
    /// # Errors
    /// As [`Recipe::read`], or one finding when the file cannot be read.
    pub fn load(
        path: &Path,
        knowledge: &Knowledge,
        measures: Measures,
    ) -> Result<Self, Vec<Finding>> {
        let text = load_text(path).map_err(|fault| vec![*fault])?;
        Self::read(&text, &path.display().to_string(), knowledge, measures)
    }
}

fn link(written: &WrittenRecipe, reader: &mut Reader<'_>) -> Recipe {
    let title = written.title.get_ref();
    for (key, missing) in
        [("ingredient", written.ingredient.is_empty()), ("step", written.step.is_empty())]
    {
        if missing {
            let message = format!("`{title}` has no {key}");
            let help = format!("add an [[{key}]]");
            reader.error(Code::MissingKey, written.title.span(), message, help);
        }
    }
    let ingredients: Vec<Option<Ingredient>> =
        written.ingredient.iter().map(|one| Ingredient::link(one, reader)).collect();
    let mut steps: Vec<Step> =
        written.step.iter().enumerate().map(|(i, one)| Step::link(i, one, reader)).collect();
    graph::join(written, &ingredients, &mut steps, reader);
    Recipe {
        title: title.clone(),
        author: written.author.clone().unwrap_or_default(),
        serves: written.serves.as_ref().and_then(|text| serves(text, reader)),
        makes: written.makes.as_ref().and_then(|text| makes(text, reader)),
        note: written.note.clone().unwrap_or_default(),
        ingredients: ingredients.into_iter().flatten().collect(),
        steps,
    }
}

/// Reads "12" or "12 people".
fn serves(text: &Text, reader: &mut Reader<'_>) -> Option<f64> {
    let number = text.get_ref().trim_end_matches(|c: char| c.is_alphabetic() || c == ' ');
    let number = Spanned::new(text.span(), number.to_owned());
    reader.within("`serves`", &number, &SERVES).map(|amount| amount.middle())
}

/// Reads a mass, or else a volume.
fn makes(text: &Text, reader: &mut Reader<'_>) -> Option<Makes> {
    let is_volume = parse_amount(text.get_ref(), Dimension::Volume, reader.measures()).is_ok();
    let dimension = if is_volume { Dimension::Volume } else { Dimension::Mass };
    let si = reader.amount("`makes`", text, dimension)?.middle();
    Some(if is_volume {
        Makes::Volume(Volume::from_si(si))
    } else {
        Makes::Mass(Mass::from_si(si))
    })
}
