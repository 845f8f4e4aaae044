//! Errors as the user sees them: a kind, the chain of causes, and hints.

use std::fmt;
use std::io::{self, Write};

use crate::calc::CalcError;
use crate::finding::visible;
use crate::report::TextStyle;
use crate::report::words::hanging;

/// What sort of fault it is, which tells the user where to look.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FailureKind {
    /// The command line asks for something that cannot be.
    WrongUse,
    /// The laws have no number for these conditions.
    NoAnswer,
    /// A file cannot be read or written.
    File,
}

impl FailureKind {
    const fn word(self) -> &'static str {
        match self {
            Self::WrongUse => "wrong-use",
            Self::NoAnswer => "no-answer",
            Self::File => "file",
        }
    }
}

/// An error with its kind and what to do about it.
#[derive(Debug)]
pub struct Failure {
    kind: FailureKind,
    message: String,
    hints: Vec<String>,
}

impl fmt::Display for Failure {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(&self.message)
    }
}

impl std::error::Error for Failure {}

impl Failure {
    /// Makes a failure.
    pub fn new(kind: FailureKind, message: impl Into<String>) -> Self {
        Self { kind, message: message.into(), hints: Vec::new() }
    }

    /// Makes a failure of wrong use.
    pub fn wrong_use(message: impl Into<String>) -> Self {
        Self::new(FailureKind::WrongUse, message)
    }

    /// Makes the failure of a command that has no manuscript to write.
    pub fn docx_elsewhere() -> Self {
        Self::wrong_use("only `standin notes` writes docx").hint("choose html, markdown or json")
    }

    /// Says what to do about it.
    #[must_use]
    pub fn hint(mut self, hint: impl Into<String>) -> Self {
        self.hints.push(hint.into());
        self
    }
}

impl From<CalcError> for Failure {
    fn from(error: CalcError) -> Self {
        let kind = match error {
            CalcError::Physics(_) => FailureKind::NoAnswer,
            _ => FailureKind::WrongUse,
        };
        let failure = Self::new(kind, error.to_string());
        match error.help() {
            Some(help) => failure.hint(help),
            None => failure,
        }
    }
}

/// Returns whether the reader of a pipe has gone, as in `standin ... | head`.
pub fn is_broken_pipe(error: &anyhow::Error) -> bool {
    error
        .chain()
        .filter_map(|cause| cause.downcast_ref::<io::Error>())
        .any(|cause| cause.kind() == io::ErrorKind::BrokenPipe)
}

/// Writes an error with its causes and hints, wrapped where a terminal shows it.
///
/// # Errors
/// When it cannot be written.
pub fn write_failure(
    error: &anyhow::Error,
    width: Option<usize>,
    out: &mut dyn Write,
) -> io::Result<()> {
    let failure = error.chain().find_map(|cause| cause.downcast_ref::<Failure>());
    let kind = failure.map_or(FailureKind::File, |failure| failure.kind);
    let mut parts = vec![(format!("error[{}]: ", kind.word()), error.to_string())];
    let because = error.chain().skip(1).map(|cause| ("  because: ".to_owned(), cause.to_string()));
    parts.extend(because);
    let hints = failure.iter().flat_map(|failure| &failure.hints);
    parts.extend(hints.map(|hint| ("  = help: ".to_owned(), hint.clone())));
    for (mark, text) in parts {
        let text = visible(&text);
        match width {
            Some(width) => {
                for line in hanging(&text.into(), &mark, width, &TextStyle::default()) {
                    writeln!(out, "{line}")?;
                }
            }
            None => writeln!(out, "{mark}{text}")?,
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use anyhow::Context as _;

    #[test]
    fn causes_and_hints_follow_the_message() {
        let failure = Failure::wrong_use("no such kitchen").hint("`show` lists them");
        let error = anyhow::Error::from(failure).context("cannot adapt the recipe");
        let mut out = Vec::new();
        write_failure(&error, None, &mut out).unwrap();
        let expected = "error[wrong-use]: cannot adapt the recipe\n  because: no such kitchen\n  = help: `show` lists them\n";
        assert_eq!(String::from_utf8(out).unwrap(), expected);
    }

    #[test]
    fn a_narrow_terminal_gets_no_long_lines() {
        let error = Failure::wrong_use("no kitchen of the book goes by that name at all");
        let error = anyhow::Error::from(error.hint("choose tiny-flat or high-rural, or both"));
        let mut out = Vec::new();
        write_failure(&error, Some(40), &mut out).unwrap();
        let shown = String::from_utf8(out).unwrap();
        assert!(shown.lines().count() >= 4, "{shown}");
        assert!(shown.lines().all(|line| line.chars().count() <= 40), "{shown}");
    }

    #[test]
    fn a_broken_pipe_is_found_below_its_context() {
        let broken: io::Result<()> = Err(io::ErrorKind::BrokenPipe.into());
        assert!(is_broken_pipe(&broken.context("cannot write").unwrap_err()));
    }
}
