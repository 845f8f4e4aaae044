//! A document as a manuscript for a word processor: an Office Open XML package.
//!
//! Plain named styles, numbered lists that begin at 1, tables whose head is repeated on every page,
//! a title and a language for readers who listen. The same document gives the same bytes.

mod body;
mod styles;
mod xml;

use std::io::{Cursor, Write as _};

use zip::result::ZipResult;
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipWriter};

use super::document::Document;
use xml::Xml;

/// The paper and the language of a manuscript; lengths in twentieths of a point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Page {
    /// The language of the spelling checker: "en-GB".
    pub language: &'static str,
    /// Width of the paper.
    pub width: usize,
    /// Height of the paper.
    pub height: usize,
    /// Margin on every side.
    pub margin: usize,
}

impl Page {
    /// British text on A4: 210 mm by 297 mm, ISO 216.
    pub const BRITISH: Self =
        Self { language: "en-GB", width: 11_906, height: 16_838, margin: 1440 };
    /// American text on letter paper: 8.5 in by 11 in, ANSI/ASME Y14.1.
    pub const AMERICAN: Self =
        Self { language: "en-US", width: 12_240, height: 15_840, margin: 1440 };

    const fn text_width(&self) -> usize {
        self.width - 2 * self.margin
    }
}

/// Renders a document as a DOCX package.
///
/// # Errors
/// When the package cannot be built; nothing in a document makes it fail.
pub fn render(document: &Document, page: &Page) -> ZipResult<Vec<u8>> {
    let mut package = ZipWriter::new(Cursor::new(Vec::new()));
    // One fixed time for every part, the earliest that the format knows.
    let options = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Deflated)
        .last_modified_time(DateTime::default())
        .unix_permissions(0o644);
    for (name, text) in parts(document, page) {
        package.start_file(name, options)?;
        package.write_all(text.as_bytes())?;
    }
    Ok(package.finish()?.into_inner())
}

/// The parts of the package by name, in their order.
pub fn parts(document: &Document, page: &Page) -> Vec<(&'static str, String)> {
    let (body, lists) = body::body(document, page);
    vec![
        ("[Content_Types].xml", content_types()),
        ("_rels/.rels", relations(&PACKAGE_RELATIONS)),
        ("docProps/core.xml", core(document, page)),
        ("word/_rels/document.xml.rels", relations(&DOCUMENT_RELATIONS)),
        ("word/document.xml", body),
        ("word/footer.xml", footer()),
        ("word/numbering.xml", styles::numbering(lists)),
        ("word/settings.xml", settings()),
        ("word/styles.xml", styles::styles(page.language)),
    ]
}

const WORD: &str = "application/vnd.openxmlformats-officedocument.wordprocessingml";
const OFFICE: &str = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE: &str = "http://schemas.openxmlformats.org/package/2006";

/// A reference: id, type, target.
type Relation = (&'static str, &'static str, &'static str);

const PACKAGE_RELATIONS: [Relation; 2] = [
    ("document", "officeDocument", "word/document.xml"),
    ("core", "metadata/core-properties", "docProps/core.xml"),
];
const DOCUMENT_RELATIONS: [Relation; 4] = [
    ("footer", "footer", "footer.xml"),
    ("numbering", "numbering", "numbering.xml"),
    ("settings", "settings", "settings.xml"),
    ("styles", "styles", "styles.xml"),
];

fn content_types() -> String {
    let mut xml = Xml::root("Types", &[("xmlns", &format!("{PACKAGE}/content-types"))]);
    let relations = "application/vnd.openxmlformats-package.relationships+xml";
    xml.empty("Default", &[("Extension", "rels"), ("ContentType", relations)]);
    xml.empty("Default", &[("Extension", "xml"), ("ContentType", "application/xml")]);
    let core = "application/vnd.openxmlformats-package.core-properties+xml";
    xml.empty("Override", &[("PartName", "/docProps/core.xml"), ("ContentType", core)]);
    for (part, kind) in [
        ("document", "document.main"),
        ("footer", "footer"),
        ("numbering", "numbering"),
        ("settings", "settings"),
        ("styles", "styles"),
    ] {
        let (name, kind) = (format!("/word/{part}.xml"), format!("{WORD}.{kind}+xml"));
        xml.empty("Override", &[("PartName", &name), ("ContentType", &kind)]);
    }
    xml.finish()
}

fn relations(relations: &[Relation]) -> String {
    let mut xml = Xml::root("Relationships", &[("xmlns", &format!("{PACKAGE}/relationships"))]);
    for (id, kind, target) in relations {
        // The properties of the package belong to the package, not to the office document.
        let kind = match kind.contains('/') {
            true => format!("{PACKAGE}/relationships/{kind}"),
            false => format!("{OFFICE}/{kind}"),
        };
        xml.empty("Relationship", &[("Id", id), ("Type", &kind), ("Target", target)]);
    }
    xml.finish()
}

fn core(document: &Document, page: &Page) -> String {
    let properties = format!("{PACKAGE}/metadata/core-properties");
    let names =
        [("xmlns:cp", properties.as_str()), ("xmlns:dc", "http://purl.org/dc/elements/1.1/")];
    let mut xml = Xml::root("cp:coreProperties", &names);
    xml.element("dc:title", &[], &document.title);
    xml.element("dc:language", &[], page.language);
    xml.finish()
}

fn settings() -> String {
    let mut xml = Xml::root("w:settings", &[styles::NAMESPACE]);
    xml.start("w:compat", &[]);
    xml.empty(
        "w:compatSetting",
        &[
            ("w:name", "compatibilityMode"),
            ("w:uri", "http://schemas.microsoft.com/office/word"),
            ("w:val", "15"),
        ],
    );
    xml.finish()
}

/// "Page 2 of 7".
fn footer() -> String {
    let mut xml = Xml::root("w:ftr", &[styles::NAMESPACE]);
    xml.start("w:p", &[]).start("w:pPr", &[]);
    xml.empty("w:pStyle", &[("w:val", styles::Style::Footer.id())]);
    xml.empty("w:jc", &[("w:val", "right")]).end();
    for (text, field) in [("Page ", " PAGE "), (" of ", " NUMPAGES ")] {
        xml.start("w:r", &[]).element("w:t", &[("xml:space", "preserve")], text).end();
        xml.start("w:fldSimple", &[("w:instr", field)]).start("w:r", &[]);
        xml.element("w:t", &[], "1").end().end();
    }
    xml.finish()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::{Item, Signal, Table, Text};

    fn sample() -> Document {
        let mut document = Document::new("A <title> & \u{1}more");
        document.section("Ingredients").numbered(["one", "two"]).numbered(["first again"]);
        document.bullets([Item::new(Text::new().strong("3 g").plain(" salt")).under("weighed")]);
        document.caution(Signal::Warning, "steam", vec!["Mind your face.".into()]);
        document.table(Table::new().caption("Kept").words("What").numbers("%").row(["smell", "3"]));
        document
    }

    #[test]
    fn the_same_document_gives_the_same_bytes() {
        let bytes = render(&sample(), &Page::BRITISH).unwrap();
        assert_eq!(bytes, render(&sample(), &Page::BRITISH).unwrap());
        assert_ne!(bytes, render(&sample(), &Page::AMERICAN).unwrap());
    }

    #[test]
    fn the_package_can_be_read_back() {
        let bytes = render(&sample(), &Page::BRITISH).unwrap();
        let mut package = zip::ZipArchive::new(Cursor::new(bytes)).unwrap();
        for (name, text) in parts(&sample(), &Page::BRITISH) {
            let mut part = package.by_name(name).unwrap();
            let mut read = String::new();
            std::io::Read::read_to_string(&mut part, &mut read).unwrap();
            assert_eq!(read, text);
            assert_eq!(part.last_modified(), Some(DateTime::default()));
        }
        assert_eq!(package.len(), 9);
    }

    #[test]
    fn every_list_in_order_begins_at_one() {
        let parts = parts(&sample(), &Page::BRITISH);
        let text = |name: &str| parts.iter().find(|(part, _)| *part == name).unwrap().1.clone();
        assert!(text("word/document.xml").contains("<w:numId w:val=\"3\"/>"));
        assert_eq!(text("word/numbering.xml").matches("startOverride").count(), 2);
        assert!(text("docProps/core.xml").contains("A &lt;title&gt; &amp;  more"));
        assert!(text("word/document.xml").contains("<w:tblHeader/>"));
    }

    #[test]
    fn every_style_that_is_used_is_there() {
        let parts = parts(&sample(), &Page::BRITISH);
        let text = |name: &str| parts.iter().find(|(part, _)| *part == name).unwrap().1.clone();
        let (body, styles) = (text("word/document.xml"), text("word/styles.xml"));
        for used in body.split("w:pStyle w:val=\"").skip(1) {
            let id = used.split('"').next().unwrap();
            assert!(styles.contains(&format!("w:styleId=\"{id}\"")), "{id}");
        }
    }
}
