//! British and American words.

use std::collections::BTreeMap;

use serde::Deserialize;

use crate::book::style::Spelling;

/// The word pairs that come with the tool.
const PAIRS: &str = include_str!("words.toml");

/// The word pairs as written: British to American.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    spelling: BTreeMap<String, String>,
    word: BTreeMap<String, String>,
}

/// What is written for what.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Words {
    /// Words in small letters with what is written for them, the longest first.
    pairs: Vec<(Vec<char>, String)>,
}

/// Reads the word pairs, or says why they cannot be read.
fn written() -> Result<Written, toml::de::Error> {
    toml::from_str(PAIRS)
}

/// Returns what is wrong with the word pairs that come with the tool; nothing, unless one was
/// edited wrongly.
pub fn words_findings() -> Vec<String> {
    let pairs = match written() {
        Ok(pairs) => pairs,
        Err(error) => return vec![error.to_string()],
    };
    let mut findings = Vec::new();
    for (british, american) in pairs.spelling.iter().chain(&pairs.word) {
        if british == american || british.to_lowercase() != *british {
            findings.push(format!("{british} = {american}"));
        }
    }
    findings.extend(pairs.word.keys().filter(|word| pairs.spelling.contains_key(*word)).cloned());
    findings
}

impl Words {
    /// Returns the words of a spelling.
    ///
    /// # Panics
    /// Never: the pairs are part of the program, and a test reads them.
    pub fn of(spelling: Spelling) -> Self {
        let written = written().expect("the pairs are part of the program, and a test reads them");
        let pairs: Vec<(String, String)> = match spelling {
            Spelling::Us => written.spelling.into_iter().chain(written.word).collect(),
            Spelling::Uk => written.spelling.into_iter().map(|(uk, us)| (us, uk)).collect(),
        };
        let mut pairs: Vec<(Vec<char>, String)> =
            pairs.into_iter().map(|(from, to)| (from.chars().collect(), to)).collect();
        pairs.sort_by_key(|(from, _)| std::cmp::Reverse(from.len()));
        Self { pairs }
    }

    /// Writes a text with these words; capitals at the start of a word stay.
    pub fn write(&self, text: &str) -> String {
        let signs: Vec<char> = text.chars().collect();
        let mut out = String::with_capacity(text.len());
        let mut at = 0;
        while at < signs.len() {
            let starts = signs[at].is_alphabetic() && (at == 0 || !is_word(signs[at - 1]));
            match self.pairs.iter().find(|(from, _)| starts && stands_at(&signs, at, from)) {
                Some((from, to)) => {
                    out.push_str(&as_written(to, signs[at]));
                    at += from.len();
                }
                None => {
                    out.push(signs[at]);
                    at += 1;
                }
            }
        }
        out
    }
}

fn is_word(sign: char) -> bool {
    sign.is_alphanumeric() || sign == '_'
}

/// Whether a whole word or phrase stands at a place, whatever its capitals.
fn stands_at(signs: &[char], at: usize, word: &[char]) -> bool {
    let Some(here) = signs.get(at..at + word.len()) else { return false };
    let same = |(a, b): (&char, &char)| a.to_lowercase().eq(b.to_lowercase());
    let ends = signs.get(at + word.len()).is_none_or(|sign| !is_word(*sign));
    ends && here.iter().zip(word).all(same)
}

fn as_written(to: &str, first: char) -> String {
    if !first.is_uppercase() {
        return to.to_owned();
    }
    let mut letters = to.chars();
    let capital: String = letters.next().map(|c| c.to_uppercase().collect()).unwrap_or_default();
    capital + letters.as_str()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_word_pairs_can_be_read() {
        assert_eq!(words_findings(), Vec::<String>::new());
    }

    #[test]
    fn american_books_get_american_words() {
        let us = Words::of(Spelling::Us);
        assert_eq!(
            us.write("Flavour the beetroot with icing sugar."),
            "Flavor the beet with confectioners' sugar."
        );
        assert_eq!(us.write("multicoloured; colours"), "multicoloured; colors");
    }

    #[test]
    fn british_books_get_british_spelling_but_keep_their_words() {
        let uk = Words::of(Spelling::Uk);
        assert_eq!(uk.write("Color of the beet; gelatin"), "Colour of the beet; gelatine");
        assert_eq!(uk.write("a zucchini"), "a zucchini");
        assert_eq!(uk.write("summer savory by a pH meter"), "summer savory by a pH meter");
    }
}
