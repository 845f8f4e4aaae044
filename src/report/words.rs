//! Words on a terminal: display width, wrapping, and plain ASCII.

use unicode_width::{UnicodeWidthChar, UnicodeWidthStr};

use super::document::{Text, Tone};
use super::table::TextStyle;

/// Turns bold on and off: ECMA-48, select graphic rendition 1 and 22.
const BOLD: (&str, &str) = ("\u{1b}[1m", "\u{1b}[22m");
/// Turns italics on and off: ECMA-48, select graphic rendition 3 and 23.
const ITALIC: (&str, &str) = ("\u{1b}[3m", "\u{1b}[23m");

/// What stands for a character where only ASCII is wanted.
const ASCII: &[(char, &str)] = &[
    ('–', "-"),
    ('—', "-"),
    ('−', "-"),
    ('‑', "-"),
    ('×', "x"),
    ('·', "."),
    ('•', "*"),
    ('…', "..."),
    ('→', "->"),
    ('≤', "<="),
    ('≥', ">="),
    ('≈', "about "),
    ('±', "+/-"),
    ('µ', "u"),
    ('μ', "u"),
    ('²', "2"),
    ('³', "3"),
    ('¼', " 1/4"),
    ('½', " 1/2"),
    ('¾', " 3/4"),
    ('⅓', " 1/3"),
    ('⅔', " 2/3"),
    ('⅛', " 1/8"),
    ('₂', "2"),
    ('‘', "'"),
    ('’', "'"),
    ('“', "\""),
    ('”', "\""),
    ('\u{a0}', " "),
    ('à', "a"),
    ('â', "a"),
    ('ä', "a"),
    ('ç', "c"),
    ('è', "e"),
    ('é', "e"),
    ('ê', "e"),
    ('î', "i"),
    ('ñ', "n"),
    ('ö', "o"),
    ('ü', "u"),
];

/// Returns the number of terminal cells that a text takes.
pub fn cells(text: &str) -> usize {
    text.width()
}

/// Writes a text in ASCII: "61 °C" as "61 deg C", "½" as "1/2", an unknown sign as "?".
pub fn to_ascii(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut signs = text.chars().peekable();
    while let Some(sign) = signs.next() {
        if sign.is_ascii() {
            out.push(sign);
        } else if sign == '°' {
            out.push_str(if out.ends_with([' ', '(']) || out.is_empty() { "deg" } else { " deg" });
            out.push_str(if signs.peek().is_some_and(|c| c.is_alphabetic()) { " " } else { "" });
        } else {
            let stand_in = ASCII.iter().find(|(from, _)| *from == sign).map_or("?", |(_, to)| to);
            let after_space = out.is_empty() || out.ends_with(' ');
            out.push_str(if after_space { stand_in.trim_start() } else { stand_in });
        }
    }
    out
}

/// A word: pieces without a space between them, each in its tone.
type Word = Vec<(Tone, String)>;

/// Cuts a text into words; a non-breaking space does not cut.
fn split_words(text: &Text, style: &TextStyle) -> Vec<Word> {
    let mut words: Vec<Word> = Vec::new();
    let mut open = false;
    for span in &text.0 {
        let shown = style.signs(&span.text);
        for (index, piece) in shown.split([' ', '\n', '\t', '\r']).enumerate() {
            open &= index == 0;
            if piece.is_empty() {
                continue;
            }
            match words.last_mut().filter(|_| open) {
                Some(word) => word.push((span.tone, piece.to_owned())),
                None => words.push(vec![(span.tone, piece.to_owned())]),
            }
            open = true;
        }
    }
    words
}

/// Cuts a word that is wider than a line into pieces that fit.
fn cut(word: Word, width: usize) -> Vec<Word> {
    if word.iter().map(|(_, piece)| cells(piece)).sum::<usize>() <= width {
        return vec![word];
    }
    let (mut parts, mut used): (Vec<Word>, usize) = (vec![Vec::new()], 0);
    for (tone, sign) in word.iter().flat_map(|(tone, p)| p.chars().map(move |c| (*tone, c))) {
        let wide = sign.width().unwrap_or(0);
        if used + wide > width && used > 0 {
            parts.push(Vec::new());
            used = 0;
        }
        used += wide;
        if let Some(part) = parts.last_mut() {
            match part.last_mut().filter(|(last, _)| *last == tone) {
                Some((_, piece)) => piece.push(sign),
                None => part.push((tone, sign.to_string())),
            }
        }
    }
    parts
}

fn styled(word: &Word, style: &TextStyle) -> String {
    let mut out = String::new();
    for (tone, piece) in word {
        let (on, off) = match tone {
            Tone::Strong if style.colour => BOLD,
            Tone::Emphasis if style.colour => ITALIC,
            _ => ("", ""),
        };
        out.push_str(on);
        out.push_str(piece);
        out.push_str(off);
    }
    out
}

/// Wraps a text to lines of at most the given number of cells.
pub fn wrap(text: &Text, width: usize, style: &TextStyle) -> Vec<String> {
    let width = width.max(1);
    let (mut lines, mut line, mut used) = (Vec::new(), String::new(), 0);
    for word in split_words(text, style).into_iter().flat_map(|word| cut(word, width)) {
        let wide: usize = word.iter().map(|(_, piece)| cells(piece)).sum();
        if used > 0 && used + 1 + wide > width {
            lines.push(std::mem::take(&mut line));
            used = 0;
        }
        if used > 0 {
            line.push(' ');
            used += 1;
        }
        line.push_str(&styled(&word, style));
        used += wide;
    }
    if used > 0 {
        lines.push(line);
    }
    lines
}

/// Wraps a text behind a mark, with the further lines set in under the first.
pub fn hanging(text: &Text, mark: &str, width: usize, style: &TextStyle) -> Vec<String> {
    let indent = cells(mark);
    let lines = wrap(text, width.saturating_sub(indent), style);
    let pad = " ".repeat(indent);
    let first = |index: usize| if index == 0 { mark } else { pad.as_str() };
    if lines.is_empty() {
        return vec![mark.trim_end().to_owned()];
    }
    lines.iter().enumerate().map(|(index, line)| format!("{}{line}", first(index))).collect()
}

/// Fills a text with spaces up to a number of cells.
pub fn pad(text: &str, width: usize) -> String {
    format!("{text}{}", " ".repeat(width.saturating_sub(cells(text))))
}

/// Writes a text in bold when styling is wanted.
pub fn bold(text: &str, style: &TextStyle) -> String {
    match style.colour && !text.is_empty() {
        true => format!("{}{text}{}", BOLD.0, BOLD.1),
        false => text.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ascii_keeps_the_sense() {
        assert_eq!(to_ascii("61 °C ± 0.5"), "61 deg C +/- 0.5");
        assert_eq!(to_ascii("°Brix"), "deg Brix");
        assert_eq!(to_ascii("1½ cups, ½ tsp"), "1 1/2 cups, 1/2 tsp");
        assert_eq!(to_ascii("5–10 µm, 漢"), "5-10 um, ?");
    }

    #[test]
    fn a_word_wider_than_the_line_is_cut() {
        let style = TextStyle::default();
        assert_eq!(wrap(&"abcdefgh ij".into(), 5, &style), ["abcde", "fgh", "ij"]);
    }

    #[test]
    fn spans_without_a_space_stay_one_word() {
        let style = TextStyle { colour: true, ..TextStyle::default() };
        let text = Text::new().plain("at ").strong("61").plain(",5 °C");
        assert_eq!(wrap(&text, 80, &style), ["at \u{1b}[1m61\u{1b}[22m,5 °C"]);
    }
}
