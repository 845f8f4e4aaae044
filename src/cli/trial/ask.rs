//! Questions on the terminal, for what the options leave open.

use std::io::{self, IsTerminal};

use dialoguer::{Confirm, Input, Select};

use crate::cli::stop;

/// Says why an answer cannot be taken.
pub(super) type Check<'a> = &'a dyn Fn(&str) -> Result<(), String>;

/// Someone who can be asked.
pub(super) trait Ask {
    /// Asks for a line until the check takes it.
    fn line(&mut self, question: &str, check: Check<'_>) -> anyhow::Result<String>;
    /// Asks for one of several.
    fn choice(&mut self, question: &str, choices: &[String]) -> anyhow::Result<usize>;
    /// Asks for yes or no.
    fn yes(&mut self, question: &str) -> anyhow::Result<bool>;
}

/// The terminal.
pub(super) struct Terminal;

impl Terminal {
    /// Returns the terminal, when someone sits at it.
    pub fn here() -> Option<Self> {
        let here = io::stdin().is_terminal() && io::stderr().is_terminal();
        here.then(|| {
            stop::leave_a_question_cleanly();
            Self
        })
    }
}

impl Ask for Terminal {
    fn line(&mut self, question: &str, check: Check<'_>) -> anyhow::Result<String> {
        let input = Input::<String>::new().with_prompt(question).allow_empty(true);
        Ok(input.validate_with(|answer: &String| check(answer)).interact_text()?)
    }

    fn choice(&mut self, question: &str, choices: &[String]) -> anyhow::Result<usize> {
        let fitting: Vec<String> = choices.iter().map(|choice| stop::fitting(choice)).collect();
        Ok(Select::new().with_prompt(question).items(&fitting).default(0).interact()?)
    }

    fn yes(&mut self, question: &str) -> anyhow::Result<bool> {
        Ok(Confirm::new().with_prompt(question).default(false).interact()?)
    }
}
