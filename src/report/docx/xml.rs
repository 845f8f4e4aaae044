//! XML text that every reader accepts: escaped, and free of the signs that XML 1.0 forbids.

use std::fmt::Write as _;

/// The declaration that every part begins with.
pub const DECLARATION: &str = "<?xml version=\"1.0\" encoding=\"UTF-8\" standalone=\"yes\"?>\n";

/// An XML text under construction.
#[derive(Debug)]
pub struct Xml {
    out: String,
    open: Vec<&'static str>,
}

impl Xml {
    /// Begins a part with its root element.
    pub fn root(name: &'static str, attributes: &[(&str, &str)]) -> Self {
        let mut xml = Self { out: DECLARATION.to_owned(), open: Vec::new() };
        xml.start(name, attributes);
        xml
    }

    /// Opens an element.
    pub fn start(&mut self, name: &'static str, attributes: &[(&str, &str)]) -> &mut Self {
        self.tag(name, attributes, ">");
        self.open.push(name);
        self
    }

    /// Writes an element without content.
    pub fn empty(&mut self, name: &'static str, attributes: &[(&str, &str)]) -> &mut Self {
        self.tag(name, attributes, "/>");
        self
    }

    /// Closes the element that was opened last.
    pub fn end(&mut self) -> &mut Self {
        if let Some(name) = self.open.pop() {
            let _ = write!(self.out, "</{name}>");
        }
        self
    }

    /// Writes text.
    pub fn text(&mut self, text: &str) -> &mut Self {
        self.out.push_str(&escape(text));
        self
    }

    /// Writes an element that holds text only.
    pub fn element(
        &mut self,
        name: &'static str,
        attributes: &[(&str, &str)],
        text: &str,
    ) -> &mut Self {
        self.start(name, attributes).text(text).end()
    }

    /// Breaks the line, so that parts can be compared line by line.
    pub fn line(&mut self) -> &mut Self {
        self.out.push('\n');
        self
    }

    /// Closes what is open and returns the text.
    pub fn finish(mut self) -> String {
        while !self.open.is_empty() {
            self.end();
        }
        self.out.push('\n');
        self.out
    }

    fn tag(&mut self, name: &str, attributes: &[(&str, &str)], end: &str) {
        let _ = write!(self.out, "<{name}");
        for (key, value) in attributes {
            let _ = write!(self.out, " {key}=\"{}\"", escape(value));
        }
        self.out.push_str(end);
    }
}

/// Escapes markup; a sign that XML forbids becomes a space.
pub fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for sign in text.chars() {
        match sign {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\u{fffe}' | '\u{ffff}' => out.push(' '),
            sign if sign.is_control() => out.push(' '),
            sign => out.push(sign),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn markup_and_forbidden_signs_do_not_get_through() {
        assert_eq!(escape("<b> & \"c\""), "&lt;b&gt; &amp; &quot;c&quot;");
        assert_eq!(escape("a\u{0}b\u{b}c\u{1f}d\u{ffff}e\u{7f}"), "a b c d e ");
        assert_eq!(escape("½ °C – μm 漢"), "½ °C – μm 漢");
    }

    #[test]
    fn what_is_open_is_closed() {
        let mut xml = Xml::root("a", &[("k", "\"")]);
        xml.start("b", &[]).text("<");
        assert_eq!(xml.finish(), format!("{DECLARATION}<a k=\"&quot;\"><b>&lt;</b></a>\n"));
    }
}
