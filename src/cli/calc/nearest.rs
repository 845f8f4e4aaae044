//! The questions that a wrong name may have meant.

use clap::error::{ContextKind, ContextValue, ErrorKind};

use crate::calc::{Question, questions};
use crate::finding::nearest;

/// The most questions that are offered.
const MOST_OFFERED: usize = 6;
/// A word shorter than this occurs in too many lines to be looked up.
const SHORTEST_WORD: usize = 3;

/// Adds the questions that a wrong name may have meant to an error about one.
pub(crate) fn with_nearest(mut error: clap::Error) -> clap::Error {
    let is_wrong_name = error.kind() == ErrorKind::InvalidSubcommand;
    let usage = error.get(ContextKind::Usage).map(ToString::to_string).unwrap_or_default();
    if let Some(ContextValue::String(word)) = error.get(ContextKind::InvalidSubcommand)
        && is_wrong_name
        && usage.contains("<QUESTION>")
    {
        let offered = meant_by(word);
        if !offered.is_empty() {
            let names = offered.into_iter().map(str::to_owned).collect();
            error.insert(ContextKind::SuggestedSubcommand, ContextValue::Strings(names));
        }
    }
    error
}

/// Returns the questions whose name is near, then those that speak of the word.
fn meant_by(word: &str) -> Vec<&'static str> {
    let all = questions();
    let names = |question: &&'static Question| {
        question.other_names.iter().copied().chain([question.name]).collect::<Vec<_>>()
    };
    let near = nearest(word, all.iter().flat_map(names));
    let near = near.and_then(|name| all.iter().find(|question| names(question).contains(&name)));
    let stem = word.to_lowercase();
    let speaks = |question: &&&'static Question| {
        let said = names(question).join(" ") + " " + question.summary;
        stem.chars().count() >= SHORTEST_WORD && said.to_lowercase().contains(&stem)
    };
    let mut offered: Vec<&'static str> = Vec::new();
    for question in near.into_iter().chain(all.iter().filter(speaks)) {
        if !offered.contains(&question.name) {
            offered.push(question.name);
        }
    }
    offered.truncate(MOST_OFFERED);
    offered
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_of_the_finger_and_a_word_of_the_summary_are_both_found() {
        assert_eq!(meant_by("brine-fro").first(), Some(&"brine-for"));
        assert!(meant_by("crystal").contains(&"crystal-size"));
        assert!(meant_by("zzzzzz").is_empty());
        assert!(meant_by("a").len() <= MOST_OFFERED);
    }
}
