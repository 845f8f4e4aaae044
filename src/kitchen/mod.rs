//! Kitchens: what a cook owns, and the place in which it stands.
//!
//! A kitchen file is read as written ([`written`]), then linked: appliances and supplies resolved
//! against the knowledge base, amounts to SI within physical bounds, every fault collected. What a
//! kitchen does not state of an appliance comes from the appliance's own entry.

mod owned;
mod place;
pub mod written;

use std::path::Path;

pub use owned::Owned;
pub use place::Place;

use crate::finding::{Code, Finding};
use crate::knowledge::written::Text;
use crate::knowledge::{Kind, Knowledge};
use crate::quantity::Measures;
use crate::reader::{Reader, load_text, parse_toml};
use written::WrittenKitchen;

/// Words for the household measures of a nation.
const MEASURES: [(&str, Measures); 4] = [
    ("metric", Measures::Metric),
    ("us", Measures::Us),
    ("uk", Measures::Uk),
    ("australian", Measures::Australian),
];

/// Allergens that must be declared: Regulation (EU) No 1169/2011, annex II, and the nine of the
/// United States (FALCPA 2004 and FASTER Act 2021), in singular and plural as labels write them.
const ALLERGENS: [&str; 31] = [
    "celery",
    "cereals",
    "crustacean",
    "crustaceans",
    "egg",
    "eggs",
    "fish",
    "gluten",
    "lupin",
    "milk",
    "mollusc",
    "molluscs",
    "mustard",
    "nuts",
    "peanut",
    "peanuts",
    "sesame",
    "shellfish",
    "soya",
    "soy",
    "soybean",
    "soybeans",
    "sulphite",
    "sulphites",
    "sulfites",
    "tree nut",
    "tree nuts",
    "wheat",
    "rye",
    "barley",
    "oats",
];
/// What people avoid beside allergens, by the words that recipes use.
const ALCOHOL: [&str; 2] = ["alcohol", "ethanol"];

/// A kitchen, linked.
#[derive(Debug, Clone, PartialEq)]
pub struct Kitchen {
    /// What its owner calls it.
    pub name: String,
    /// The air, the water and the room.
    pub place: Place,
    /// Whose cups and spoons it measures with.
    pub measures: Measures,
    /// Appliances, by the key under which they were written.
    pub appliances: Vec<Owned>,
    /// Ids of supplies on hand, those that every kitchen has among them, in alphabetical order.
    pub supplies: Vec<String>,
    /// Allergens and foods that its eaters avoid, in lower case.
    pub avoid: Vec<String>,
    /// Who eats, in the owner's words; empty when not stated.
    pub eaters: String,
    /// What else is to be known, in the owner's words; empty when not stated.
    pub note: String,
}

impl Kitchen {
    /// Reads a kitchen file's text.
    ///
    /// # Errors
    /// Every finding about the text, in the order of the file.
    pub fn read(text: &str, file: &str, knowledge: &Knowledge) -> Result<Self, Vec<Finding>> {
        let written: WrittenKitchen = parse_toml(text, file).map_err(|fault| vec![*fault])?;
        let mut reader = Reader::new(file, knowledge, Measures::Metric);
        let kitchen = link(&written, &mut reader);
        let mut findings = reader.into_findings();
        findings.sort_by_key(|finding| finding.label.as_ref().map(|label| label.span.start));
        if findings.is_empty() { Ok(kitchen) } else { Err(findings) }
    }

    /// Reads a kitchen from a file.
    ///
    /// # Errors
    /// As [`Kitchen::read`], or one finding when the file cannot be read.
    pub fn load(path: &Path, knowledge: &Knowledge) -> Result<Self, Vec<Finding>> {
        let text = load_text(path).map_err(|fault| vec![*fault])?;
        Self::read(&text, &path.display().to_string(), knowledge)
    }

    /// Returns the owned appliances that go by an id or fill a role.
    pub fn serving<'a>(&'a self, role: &'a str) -> impl Iterator<Item = &'a Owned> {
        self.appliances.iter().filter(move |owned| owned.serves_as(role))
    }

    /// Returns whether a supply that goes by an id or fills a role is on hand.
    pub fn has_supply(&self, role: &str, knowledge: &Knowledge) -> bool {
        knowledge.supplies_serving(role).any(|supply| self.supplies.contains(&supply.id))
    }
}

fn link(written: &WrittenKitchen, reader: &mut Reader<'_>) -> Kitchen {
    let measures = measures(written.measures.as_ref(), reader);
    reader.set_measures(measures);
    let place = Place::link(written, reader);
    let appliances = written
        .appliances
        .iter()
        .filter_map(|(key, stated)| Owned::link(key, stated, reader))
        .collect();
    Kitchen {
        name: written.name.get_ref().clone(),
        place,
        measures,
        appliances,
        supplies: supplies(&written.supplies, reader),
        avoid: written.avoid.iter().filter_map(|word| avoided(word, reader)).collect(),
        eaters: written.eaters.clone().unwrap_or_default(),
        note: written.note.clone().unwrap_or_default(),
    }
}

fn measures(word: Option<&Text>, reader: &mut Reader<'_>) -> Measures {
    let Some(word) = word else { return Measures::default() };
    let lower = word.get_ref().to_lowercase();
    if let Some((_, measures)) = MEASURES.iter().find(|(name, _)| *name == lower) {
        return *measures;
    }
    reader.unknown_word("set of household measures", word, &MEASURES.map(|(name, _)| name));
    Measures::default()
}

/// Resolves the supplies and adds those that every kitchen has.
fn supplies(written: &[Text], reader: &mut Reader<'_>) -> Vec<String> {
    let everyday = reader.knowledge().supplies.values().filter(|supply| supply.everyday);
    let mut ids: Vec<String> = everyday.map(|supply| supply.id.clone()).collect();
    ids.extend(written.iter().filter_map(|word| reader.named(Kind::Supply, word)));
    ids.sort();
    ids.dedup();
    ids
}

/// Accepts an allergen, alcohol, or a food or group of foods; a slip here could hurt someone, so
/// that a word which nothing goes by is refused.
fn avoided(word: &Text, reader: &mut Reader<'_>) -> Option<String> {
    let lower = word.get_ref().to_lowercase();
    let knowledge = reader.knowledge();
    let mut known: Vec<&str> = ALLERGENS.iter().chain(&ALCOHOL).copied().collect();
    for food in knowledge.foods.values() {
        known.push(&food.group);
        known.extend(food.allergens.iter().map(String::as_str));
    }
    known.extend(knowledge.supplies.values().flat_map(|s| &s.allergens).map(String::as_str));
    if known.iter().any(|name| name.to_lowercase() == lower) {
        return Some(lower);
    }
    if let Some(food) = knowledge.find(word.get_ref()).iter().find(|e| e.kind == Kind::Food) {
        return Some(food.id.to_owned());
    }
    known.sort_unstable();
    known.dedup();
    let message = format!("no allergen, food or group of foods goes by `{}`", word.get_ref());
    let help = match crate::finding::nearest(&lower, known) {
        Some(near) => format!("did you mean `{near}`?"),
        None => "write an allergen such as \"celery\", or the id of a food".to_owned(),
    };
    reader.error(Code::UnknownName, word.span(), message, help);
    None
}
