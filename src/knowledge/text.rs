//! The text of a file, before anything is made of it: not too long, and nothing in it that a
//! terminal would obey.

use std::fs::File;
use std::io::Read as _;
use std::ops::Range;
use std::path::Path;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use crate::finding::{Code, Finding};

/// The largest file that is read, in bytes: a recipe takes a few thousand, a web page a million.
const LARGEST: u64 = 16 * 1024 * 1024;
/// One MiB in bytes.
const MIB: u64 = 1024 * 1024;

/// Reads the text of a file.
///
/// # Errors
/// A finding that names the path when it cannot be read, is no text, or is too large.
pub fn read_text(path: &Path) -> Result<String, Box<Finding>> {
    let shown = path.display().to_string();
    let refuse = |message: String, help: &str| {
        Box::new(Finding::error(Code::UnreadableFile, &shown, message).help(help))
    };
    let unreadable = |error: std::io::Error| {
        let help = "check the path, and that the file is UTF-8 text";
        refuse(format!("cannot be read: {error}"), help)
    };
    let mut text = String::new();
    let file = File::open(path).map_err(unreadable)?;
    file.take(LARGEST + 1).read_to_string(&mut text).map_err(unreadable)?;
    if text.len() as u64 > LARGEST {
        let message = format!("is larger than {} MiB", LARGEST / MIB);
        return Err(refuse(message, "name a recipe, a kitchen or a web page"));
    }
    Ok(text)
}

/// Finds the first character in the keys and texts of a TOML file that is not for reading.
///
/// Such a character moves the cursor of a terminal, hides text, or turns its direction round: what
/// is read is then not what is written.
pub fn control_character(text: &str, file: &str) -> Option<Finding> {
    // Only an escape, or the character itself, can bring one in.
    if !text.contains('\\') && hidden(text).is_none() {
        return None;
    }
    // What is no TOML is reported where it is parsed.
    let table = DeTable::parse(text).ok()?;
    let (sign, place) = in_table(table.get_ref())?;
    let message = format!("holds the control character U+{:04X}", u32::from(sign));
    let finding = Finding::error(Code::Syntax, file, message).at(place, "");
    Some(finding.help("write plain text; a line break within it is the only sign of this kind"))
}

/// Returns the first character of a text that is not for reading.
pub fn hidden(text: &str) -> Option<char> {
    let mut signs = text.chars().peekable();
    while let Some(sign) = signs.next() {
        let breaks = matches!(sign, '\n' | '\t') || (sign == '\r' && signs.peek() == Some(&'\n'));
        if turns_text(sign) || (sign.is_control() && !breaks) {
            return Some(sign);
        }
    }
    None
}

/// Returns whether a sign turns the direction of the text after it.
///
/// # Source
/// Unicode Standard Annex 9, table of directional formatting characters.
pub const fn turns_text(sign: char) -> bool {
    matches!(sign, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

fn in_table(table: &DeTable<'_>) -> Option<(char, Range<usize>)> {
    table.iter().find_map(|(key, value)| {
        let in_key = hidden(key.get_ref()).map(|sign| (sign, key.span()));
        in_key.or_else(|| in_value(value))
    })
}

fn in_value(value: &Spanned<DeValue<'_>>) -> Option<(char, Range<usize>)> {
    match value.get_ref() {
        DeValue::String(text) => hidden(text).map(|sign| (sign, value.span())),
        DeValue::Array(values) => values.iter().find_map(in_value),
        DeValue::Table(table) => in_table(table),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_terminal_would_obey_is_found_wherever_it_stands() {
        for text in [
            "a = \"\\u001B[31m\"",
            "a = ['x', \"\\u0000\"]",
            "[[a]]\nb = { \"\\u0007\" = 1 }",
            "a = \"\u{9b}1m\"",
            "a = \"\u{202e}\"",
            "a = \"one\\rtwo\"",
        ] {
            let finding = control_character(text, "x.toml").unwrap();
            assert!(finding.label.is_some() && finding.message.contains("U+"), "{text}");
        }
        for text in ["a = \"\"\"\none\r\ntwo\"\"\"\r\n", "a = \"tab\\tand\\nline\"", "a = 'à ½ 冷'"]
        {
            assert_eq!(control_character(text, "x.toml"), None, "{text}");
        }
    }

    #[test]
    fn a_file_that_is_not_there_is_named() {
        let fault = read_text(Path::new("no/such.toml")).unwrap_err();
        assert!(fault.file == "no/such.toml" && fault.message.contains("cannot be read"));
    }
}
