//! Professional techniques that a sentence names, for a person to look at.

use std::collections::BTreeSet;

use crate::knowledge::{Found, Knowledge};

/// Endings that are taken off a word, so that "centrifuged" meets "centrifuging".
const ENDINGS: [&str; 9] = ["ation", "ator", "ing", "ed", "er", "or", "es", "e", "s"];
/// No word gets shorter than this.
const SHORTEST_STEM: usize = 3;

/// Names of techniques and of the laboratory's gear, in stems.
pub(super) struct Trade<'a> {
    names: Vec<(Vec<String>, &'a str, BTreeSet<&'a str>)>,
}

impl<'a> Trade<'a> {
    pub(super) fn new(knowledge: &'a Knowledge) -> Self {
        let mut names = Vec::new();
        let mut add = |name: &'a str, techniques: BTreeSet<&'a str>| {
            let stems = stems(name);
            if !stems.is_empty() && !techniques.is_empty() {
                names.push((stems, name, techniques));
            }
        };
        for technique in knowledge.techniques.values() {
            let all = technique.synonyms.iter().chain([&technique.name]);
            all.for_each(|name| add(name, BTreeSet::from([technique.id.as_str()])));
        }
        for appliance in knowledge.appliances.values() {
            if appliance.found != Found::Laboratory {
                continue;
            }
            let serves = |role: &String| appliance.serves_as(role);
            let uses = knowledge.techniques.values().filter(|technique| {
                technique.moves.iter().any(|one| one.uses.iter().flatten().any(serves))
            });
            let techniques: BTreeSet<&str> = uses.map(|technique| technique.id.as_str()).collect();
            let all = appliance.synonyms.iter().chain([&appliance.name]);
            all.for_each(|name| add(name, techniques.clone()));
        }
        Self { names }
    }

    /// Returns each name that a text holds with the ids of the techniques that it points to; of
    /// names for the same techniques the longest.
    pub(super) fn named_in(&self, text: &str) -> Vec<(&'a str, Vec<&'a str>)> {
        let words = stems(text);
        let mut found: Vec<&(Vec<String>, &str, BTreeSet<&str>)> = self
            .names
            .iter()
            .filter(|(stems, ..)| words.windows(stems.len()).any(|part| part == stems.as_slice()))
            .collect();
        found.sort_by_key(|(stems, name, _)| (std::cmp::Reverse(stems.len()), *name));
        let mut told: BTreeSet<&str> = BTreeSet::new();
        let mut named = Vec::new();
        for (_, name, techniques) in found {
            if techniques.iter().any(|id| !told.contains(id)) {
                told.extend(techniques);
                named.push((*name, techniques.iter().copied().collect()));
            }
        }
        named
    }
}

/// Returns the words of a text without their endings.
pub(super) fn stems(text: &str) -> Vec<String> {
    let words = text.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    words.map(stem).collect()
}

fn stem(word: &str) -> String {
    let mut word = word.to_lowercase();
    while let Some(shorter) = ENDINGS
        .iter()
        .filter_map(|ending| word.strip_suffix(ending))
        .find(|shorter| shorter.chars().count() >= SHORTEST_STEM)
    {
        word = shorter.to_owned();
    }
    match word.strip_suffix('i') {
        Some(start) if start.chars().count() >= 2 => format!("{start}y"),
        _ => word,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn forms_of_a_word_have_one_stem() {
        for (one, other) in [
            ("centrifuged", "centrifuging"),
            ("evaporator", "evaporation"),
            ("filtering", "filter"),
            ("dried", "dryer"),
            ("pears", "pear"),
        ] {
            assert_eq!(stem(one), stem(other), "{one}, {other}");
        }
    }

    #[test]
    fn gear_and_trade_names_point_to_techniques() {
        let knowledge = Knowledge::embedded().unwrap();
        let trade = Trade::new(&knowledge);
        let named = trade.named_in("Concentrate in the rotary evaporator at 60 mbar.");
        assert!(named.iter().any(|(_, ids)| ids.contains(&"vacuum-concentration")), "{named:?}");
        let named = trade.named_in("Clarify by centrifugation.");
        assert!(
            named.iter().any(|(_, ids)| ids.contains(&"centrifuge-clarification")),
            "{named:?}"
        );
        assert!(trade.named_in("Stir and serve.").is_empty());
    }
}
