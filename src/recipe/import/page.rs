//! Text out of web pages: the blocks of JSON-LD, and plain words out of marked-up ones.

use std::ops::Range;

use crate::knowledge::text::turns_text;

/// What marks a script of a page as JSON-LD.
const MEDIA_TYPE: &str = "application/ld+json";
/// Named characters that recipes use, by their names in HTML.
const NAMED: [(&str, &str); 14] = [
    ("amp", "&"),
    ("lt", "<"),
    ("gt", ">"),
    ("quot", "\""),
    ("apos", "'"),
    ("nbsp", " "),
    ("deg", "°"),
    ("frac12", "½"),
    ("frac14", "¼"),
    ("frac34", "¾"),
    ("ndash", "–"),
    ("mdash", "—"),
    ("rsquo", "’"),
    ("eacute", "é"),
];
/// The longest name or number of a character between `&` and `;`.
const LONGEST_NAME: usize = 8;
/// Elements after which a new line begins.
const BREAKS: [&str; 8] = ["br", "p", "li", "div", "ol", "ul", "tr", "h"];

/// Returns where the JSON-LD of a file stands: the whole of it, or the scripts of a page.
pub(super) fn blocks(text: &str) -> Vec<Range<usize>> {
    let start = text.len() - text.trim_start_matches(['\u{feff}', ' ', '\t', '\r', '\n']).len();
    if !text[start..].starts_with('<') {
        return std::iter::once(start..text.len()).collect();
    }
    // ASCII letters alone change, so that every place stays the same.
    let lower = text.to_ascii_lowercase();
    let mut blocks = Vec::new();
    let mut at = 0;
    while let Some(found) = lower[at..].find("<script") {
        let tag = at + found;
        let Some(inside) = lower[tag..].find('>').map(|length| tag + length + 1) else { break };
        let end = lower[inside..].find("</script").map_or(lower.len(), |length| inside + length);
        if lower[tag..inside].contains(MEDIA_TYPE) {
            blocks.push(inside..end);
        }
        at = end;
    }
    blocks
}

/// Returns text without markup and with its characters in the open; lines stay apart.
pub(super) fn plain(marked_up: &str) -> String {
    let text = with_characters(&without_tags(marked_up)).replace('⁄', "/");
    let lines = text.lines().map(|line| line.split_whitespace().collect::<Vec<_>>().join(" "));
    let kept: Vec<String> = lines
        .map(|line| line.chars().filter(|sign| !sign.is_control() && !turns_text(*sign)).collect())
        .filter(|line: &String| !line.is_empty())
        .collect();
    kept.join("\n")
}

/// Returns text as one line.
pub(super) fn one_line(text: &str) -> String {
    plain(text).replace('\n', " ")
}

fn without_tags(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(open) = rest.find('<') {
        let (before, tag) = rest.split_at(open);
        out.push_str(before);
        let name = tag[1..].trim_start_matches('/');
        let is_tag = name.starts_with(|c: char| c.is_ascii_alphabetic() || c == '!');
        match tag.find('>').filter(|_| is_tag) {
            Some(close) => {
                let name = name.to_ascii_lowercase();
                out.push_str(if BREAKS.iter().any(|tag| is_named(&name, tag)) { "\n" } else { "" });
                rest = &tag[close + 1..];
            }
            None => {
                out.push('<');
                rest = &tag[1..];
            }
        }
    }
    out + rest
}

/// Returns whether the inside of a tag begins with a name; `h` stands for h1 to h6.
fn is_named(inside: &str, name: &str) -> bool {
    let ends = |rest: &str| {
        let rest =
            if name == "h" { rest.trim_start_matches(|c: char| c.is_ascii_digit()) } else { rest };
        !rest.starts_with(|c: char| c.is_ascii_alphanumeric())
    };
    inside.strip_prefix(name).is_some_and(ends)
}

fn with_characters(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find('&') {
        out.push_str(&rest[..at]);
        let after = &rest[at + 1..];
        let end = after.bytes().take(LONGEST_NAME + 1).position(|byte| byte == b';');
        match end.and_then(|end| Some((character(&after[..end])?, end))) {
            Some((sign, end)) => {
                out.push_str(&sign);
                rest = &after[end + 1..];
            }
            None => {
                out.push('&');
                rest = after;
            }
        }
    }
    out + rest
}

fn character(name: &str) -> Option<String> {
    if let Some(number) = name.strip_prefix('#') {
        let code = match number.strip_prefix(['x', 'X']) {
            Some(digits) => u32::from_str_radix(digits, 16),
            None => number.parse(),
        };
        return code.ok().and_then(char::from_u32).map(String::from);
    }
    NAMED.iter().find(|(known, _)| *known == name).map(|(_, sign)| (*sign).to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn scripts_of_a_page_are_found() {
        let page = "<html><script>x</script><SCRIPT type='application/ld+json'>{}</script>";
        let found: Vec<&str> = blocks(page).into_iter().map(|range| &page[range]).collect();
        assert_eq!(found, ["{}"]);
        assert_eq!(blocks("\u{feff} {}").first(), Some(&(4..6)));
        assert!(blocks("<p>no recipe</p>").is_empty());
        assert_eq!(blocks("<script type=\"application/ld+json\">{").len(), 1);
    }

    #[test]
    fn markup_becomes_plain_words() {
        assert_eq!(plain("<p>Boil &amp; cool.</p><p>Eat</p>"), "Boil & cool.\nEat");
        assert_eq!(plain("&frac12;&nbsp;cup &#8211; 1&#x2044;2"), "½ cup – 1/2");
        assert_eq!(plain("a < b & c &nosuch; <3"), "a < b & c &nosuch; <3");
        assert_eq!(plain("x<br/>y<h2>z</h2>"), "x\ny\nz");
    }
}
