//! Questions on the terminal, for what the options leave open.

use std::io::{self, IsTerminal};

use dialoguer::{Confirm, Input, Select};

/// Someone who can be asked.
pub(super) trait Ask {
    /// Asks for a line; an empty one is allowed.
    fn line(&mut self, question: &str) -> anyhow::Result<String>;
    /// Asks for one of several.
    fn choice(&mut self, question: &str, choices: &[&str]) -> anyhow::Result<usize>;
    /// Asks for yes or no.
    fn yes(&mut self, question: &str) -> anyhow::Result<bool>;
}

/// The terminal.
pub(super) struct Terminal;

impl Terminal {
    /// Returns the terminal, when someone sits at it.
    pub fn here() -> Option<Self> {
        (io::stdin().is_terminal() && io::stderr().is_terminal()).then_some(Self)
    }
}

impl Ask for Terminal {
    fn line(&mut self, question: &str) -> anyhow::Result<String> {
        Ok(Input::<String>::new().with_prompt(question).allow_empty(true).interact_text()?)
    }

    fn choice(&mut self, question: &str, choices: &[&str]) -> anyhow::Result<usize> {
        Ok(Select::new().with_prompt(question).items(choices).default(0).interact()?)
    }

    fn yes(&mut self, question: &str) -> anyhow::Result<bool> {
        Ok(Confirm::new().with_prompt(question).default(false).interact()?)
    }
}
