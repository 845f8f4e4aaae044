//! The terminal while questions are asked: lines that fit it, and Ctrl-C that leaves it in order.

use std::io::{self, Write as _};
use std::thread;
use std::time::Duration;

use super::{DEFAULT_WIDTH, terminal_width};
use crate::report::TextStyle;
use crate::report::words::wrap;

/// Shows the cursor again: ECMA-48 private mode 25, as terminals have it.
const SHOW_CURSOR: &str = "\u{1b}[?25h";
/// Exit code after Ctrl-C: common practice of shells, 128 and the number of the signal.
const STOPPED: u8 = 130;
/// How long an open question has to say that it was left.
const GRACE: Duration = Duration::from_millis(300);
/// Columns of a line of a list that are taken by its mark, and one to keep it from wrapping.
const MARK: usize = 3;

/// Lets Ctrl-C at a question end the program with the cursor shown and a word about it.
///
/// The question itself fails then, and the program says so; the handler, which has no hand on the
/// terminal, ends it where no question was open. Questions come before anything is written, so that
/// there is nothing to take back.
pub(super) fn leave_a_question_cleanly() {
    // Where no handler can be set, the system ends the program as it does without one.
    let _ = ctrlc::set_handler(|| {
        thread::sleep(GRACE);
        std::process::exit(i32::from(STOPPED));
    });
}

/// Says that the program was stopped; returns the exit code for it.
pub(super) fn say_so() -> u8 {
    // Nothing is left to be done when standard error cannot be written to.
    let _ = writeln!(io::stderr(), "{SHOW_CURSOR}\nstopped; nothing was written");
    STOPPED
}

/// Returns whether a question was left by Ctrl-C.
pub(super) fn is_stop(error: &anyhow::Error) -> bool {
    let asked = error.chain().find_map(|cause| cause.downcast_ref::<dialoguer::Error>());
    asked.is_some_and(|dialoguer::Error::IO(cause)| cause.kind() == io::ErrorKind::Interrupted)
}

/// Cuts a line of a list to the width of the terminal: a longer one wraps and is not cleared.
pub(super) fn fitting(line: &str) -> String {
    let width = terminal_width(&io::stderr()).unwrap_or(DEFAULT_WIDTH);
    cut(line, usize::from(width).saturating_sub(MARK))
}

/// Cuts at a word; the list counts bytes when it clears its lines, so that these must fit too.
fn cut(line: &str, width: usize) -> String {
    let cut_at = |width: usize| match wrap(&line.into(), width, &TextStyle::default()).as_slice() {
        [first, _, ..] => format!("{first} ..."),
        [only] => only.clone(),
        [] => String::new(),
    };
    let narrower = (1..=width).rev().map(cut_at).find(|cut| cut.len() <= width);
    narrower.unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_is_cut_at_a_word() {
        assert_eq!(cut("[x] slow press juicer: a slow screw", 30), "[x] slow press juicer: a ...");
        assert_eq!(cut("[ ] oven", 30), "[ ] oven");
        assert_eq!(cut("", 30), "");
        let accents = "é".repeat(14);
        assert!(cut(&format!("{accents} à la crème"), 30).len() <= 30);
    }
}
