//! Kitchens: what a cook owns, and the place in which it stands.
//!
//! A kitchen file is read as written ([`written`]), then linked: appliances and supplies resolved
//! against the knowledge base, amounts to SI within physical bounds, every fault collected. What a
//! kitchen does not state of an appliance comes from the appliance's own entry.

mod avoided;
mod owned;
mod place;
pub mod written;

use std::path::Path;

pub use avoided::ALCOHOL;
pub use owned::Owned;
pub use place::Place;

use crate::finding::Finding;
use crate::knowledge::written::Text;
use crate::knowledge::{Food, Kind, Knowledge, Supply};
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
    /// What its eaters avoid: allergens in the words of the knowledge base, ids and groups of foods,
    /// and [`ALCOHOL`].
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

    /// Returns which of the things avoided a food is or holds, if any.
    ///
    /// Nothing found does not mean that the food is free from them.
    pub fn avoids<'a>(&'a self, food: &Food) -> Option<&'a str> {
        let is = |word: &str| {
            word == food.id
                || word == food.group
                || food.allergens.iter().any(|allergen| allergen == word)
                || (word == ALCOHOL && food.shares.ethanol > 0.0)
        };
        self.avoid.iter().map(String::as_str).find(|word| is(word))
    }

    /// Returns which of the things avoided a supply is or brings, if any.
    pub fn avoids_supply<'a>(&'a self, supply: &Supply) -> Option<&'a str> {
        let brings = |allergen: &String, word: &str| {
            // "soya (unless from sunflower)" is soya until the label says otherwise.
            allergen
                .strip_prefix(word)
                .is_some_and(|rest| rest.is_empty() || rest.starts_with(" ("))
        };
        let is = |word: &str| {
            word == supply.id || supply.allergens.iter().any(|allergen| brings(allergen, word))
        };
        self.avoid.iter().map(String::as_str).find(|word| is(word))
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
        avoid: avoided::link(&written.avoid, reader),
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
