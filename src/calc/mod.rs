//! The bench: questions about physics in trade words, each answered by the functions of
//! [`crate::physics`].
//!
//! A question names its inputs (with dimension and default) and its outputs (with the unit in the
//! key). The command line, the tables over a range and the reference tests all ask through
//! [`Question::ask`], so that what is tested is what is printed.

mod alcohol;
mod aroma;
mod drying;
mod gases;
mod given;
mod heat;
mod parting;
mod question;
mod range;
mod safety;
mod shearing;
mod solutions;
mod water;

pub use given::{Answer, CalcError, Given};
pub use question::{Family, Input, Kind, Need, Output, Question};
pub use range::{Range, Sweep};

/// Returns every question, by family in the order of [`Family::ALL`], then as listed in its file.
pub fn questions() -> Vec<&'static Question> {
    let files = [
        water::QUESTIONS,
        alcohol::QUESTIONS,
        solutions::QUESTIONS,
        heat::QUESTIONS,
        safety::QUESTIONS,
        drying::QUESTIONS,
        aroma::QUESTIONS,
        parting::QUESTIONS,
        shearing::QUESTIONS,
        gases::QUESTIONS,
    ];
    let mut all: Vec<&'static Question> = files.into_iter().flatten().collect();
    all.sort_by_key(|question| question.family);
    all
}

/// Finds a question by its name or one of its other names.
pub fn find(name: &str) -> Option<&'static Question> {
    questions()
        .into_iter()
        .find(|question| question.name == name || question.other_names.contains(&name))
}
