//! What the eaters of a kitchen avoid.
//!
//! A slip here could hurt someone: a word that nothing goes by is refused, and a word that covers
//! several allergens stands for all of them.

use crate::finding::{Code, nearest};
use crate::knowledge::written::Text;
use crate::knowledge::{Food, Kind};
use crate::reader::Reader;

/// The word for ethanol in [`super::Kitchen::avoid`].
pub const ALCOHOL: &str = "alcohol";

/// Words that people write, with the allergens that they stand for.
///
/// The allergens that must be declared by Regulation (EU) No 1169/2011, annex II, and in the United
/// States (FALCPA 2004, FASTER Act 2021); wider words take in all that they may mean.
const WORDS: [(&str, &[&str]); 36] = [
    ("alcohol", &[ALCOHOL]),
    ("ethanol", &[ALCOHOL]),
    ("barley", &["barley"]),
    ("celery", &["celery"]),
    ("cereals", &["wheat", "rye", "barley", "oats"]),
    ("crustacean", &["crustaceans"]),
    ("crustaceans", &["crustaceans"]),
    ("dairy", &["milk"]),
    ("egg", &["eggs"]),
    ("eggs", &["eggs"]),
    ("fish", &["fish"]),
    ("gluten", &["wheat", "rye", "barley", "oats"]),
    ("lactose", &["milk"]),
    ("lupin", &["lupin"]),
    ("milk", &["milk"]),
    ("mollusc", &["molluscs"]),
    ("molluscs", &["molluscs"]),
    ("mollusks", &["molluscs"]),
    ("mustard", &["mustard"]),
    ("nuts", &["tree nuts", "peanuts"]),
    ("oats", &["oats"]),
    ("peanut", &["peanuts"]),
    ("peanuts", &["peanuts"]),
    ("rye", &["rye"]),
    ("sesame", &["sesame"]),
    ("shellfish", &["crustaceans", "molluscs"]),
    ("soy", &["soya"]),
    ("soya", &["soya"]),
    ("soybean", &["soya"]),
    ("soybeans", &["soya"]),
    ("sulfites", &["sulphites"]),
    ("sulphites", &["sulphites"]),
    ("sulphur dioxide", &["sulphites"]),
    ("tree nut", &["tree nuts"]),
    ("tree nuts", &["tree nuts"]),
    ("wheat", &["wheat"]),
];

/// Resolves the words of a list, each once.
pub(super) fn link(words: &[Text], reader: &mut Reader<'_>) -> Vec<String> {
    let mut avoided: Vec<String> = words.iter().flat_map(|word| one(word, reader)).collect();
    avoided.sort();
    avoided.dedup();
    avoided
}

/// Resolves an allergen, a group of foods, or a food with the allergens that it brings; a finding
/// when nothing goes by the word.
fn one(word: &Text, reader: &mut Reader<'_>) -> Vec<String> {
    let lower = word.get_ref().trim().to_lowercase();
    let knowledge = reader.knowledge();
    let mut meant: Vec<String> = Vec::new();
    if let Some((_, allergens)) = WORDS.iter().find(|(known, _)| *known == lower) {
        meant.extend(allergens.iter().map(|allergen| (*allergen).to_owned()));
    }
    let listed = |food: &Food| food.group == lower || food.allergens.contains(&lower);
    if knowledge.foods.values().any(listed) {
        meant.push(lower.clone());
    }
    let foods = knowledge.find(word.get_ref()).into_iter().filter(|entry| entry.kind == Kind::Food);
    meant.extend(foods.map(|food| food.id.to_owned()));
    if !meant.is_empty() {
        return meant;
    }
    let mut known: Vec<&str> = WORDS.iter().map(|(known, _)| *known).collect();
    known.extend(knowledge.foods.values().flat_map(|food| [food.id.as_str(), &food.group]));
    let message = format!("no allergen, food or group of foods goes by `{}`", word.get_ref());
    let help = match nearest(&lower, known) {
        Some(near) => format!("did you mean `{near}`?"),
        None => "write an allergen such as \"celery\", or the id of a food".to_owned(),
    };
    reader.error(Code::UnknownName, word.span(), message, help);
    Vec::new()
}
