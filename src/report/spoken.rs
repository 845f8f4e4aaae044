//! Signs written out as a screen reader should say them.

/// What is said for a sign.
const SAID: &[(&str, &str)] = &[
    ("±", "plus or minus "),
    ("≤", "at most "),
    ("≥", "at least "),
    ("≈", "about "),
    ("→", " to "),
    ("×", " times "),
    ("−", "minus "),
    ("²", " squared"),
    ("³", " cubed"),
    ("µm", "micrometres"),
    ("°", " degrees "),
];

/// The fractions that have a sign of their own.
const FRACTIONS: &[(char, &str)] = &[
    ('½', "one half"),
    ('¼', "one quarter"),
    ('¾', "three quarters"),
    ('⅓', "one third"),
    ('⅔', "two thirds"),
    ('⅛', "one eighth"),
];

/// Writes out signs and ranges: "62–64 °C" as "62 to 64 degrees C".
pub fn to_spoken(text: &str) -> String {
    let mut said = ranges(text);
    for (sign, words) in SAID {
        if said.contains(sign) {
            said = said.replace(sign, words);
        }
    }
    if said == text { said } else { single_spaces(&said) }
}

/// Writes "to" for the dash of a range and words for a fraction; a dash between words stays.
fn ranges(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut signs = text.chars().peekable();
    while let Some(sign) = signs.next() {
        let after_number = out.ends_with(|sign: char| sign.is_ascii_digit());
        let before_number = signs.peek().is_some_and(|sign| sign.is_ascii_digit() || *sign == '−');
        match sign {
            '–' if after_number && before_number => out.push_str(" to "),
            other => match FRACTIONS.iter().find(|(fraction, _)| *fraction == other) {
                Some((_, words)) if after_number => {
                    out.push_str(" and ");
                    out.push_str(words);
                }
                Some((_, words)) => out.push_str(words),
                None => out.push(other),
            },
        }
    }
    out
}

/// Puts one space where there are several, and none before a mark; keeps one at either end.
fn single_spaces(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for sign in text.chars() {
        if sign == ' ' && out.ends_with(' ') {
            continue;
        }
        if matches!(sign, ',' | '.' | ';' | ')') && out.ends_with(' ') {
            out.pop();
        }
        out.push(sign);
    }
    match text.starts_with(' ') {
        true => out,
        false => out.trim_start().to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn signs_are_said_in_words() {
        assert_eq!(to_spoken("62–64 °C"), "62 to 64 degrees C");
        assert_eq!(to_spoken("−18 °C to −12 °C"), "minus 18 degrees C to minus 12 degrees C");
        assert_eq!(to_spoken("1½ cups, turned 90°."), "1 and one half cups, turned 90 degrees.");
        assert_eq!(to_spoken("½ tsp"), "one half tsp");
        assert_eq!(to_spoken("cold – and wet"), "cold – and wet");
        assert_eq!(to_spoken("W/(m² K)"), "W/(m squared K)");
    }

    #[test]
    fn text_without_signs_is_kept() {
        assert_eq!(to_spoken("  two  spaces "), "  two  spaces ");
    }
}
