//! The named styles of the manuscript, and the numbering of its lists.
//!
//! An editor restyles a manuscript by its styles, so that every paragraph has one, under the names
//! that word processors know where there is one.

use super::xml::Xml;

/// The name space of a word-processing part.
pub const NAMESPACE: (&str, &str) =
    ("xmlns:w", "http://schemas.openxmlformats.org/wordprocessingml/2006/main");
/// The numbering of bullets.
pub const BULLETS: usize = 1;
/// The numbering of the first numbered list; the following ones count on from it.
pub const FIRST_NUMBERED: usize = 2;

/// A style of paragraphs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Style {
    /// The title of the manuscript.
    Title,
    /// A heading, from 1 to 5.
    Heading(u8),
    /// Running text.
    BodyText,
    /// An entry of a list without order.
    ListBullet,
    /// An entry of a list in order.
    ListNumber,
    /// What is said under an entry.
    ListContinue,
    /// An ingredient.
    Ingredient,
    /// A query to the author.
    Query,
    /// The first line of a caution.
    CautionHeading,
    /// A caution.
    Caution,
    /// A remark.
    Note,
    /// A name with its value.
    Fact,
    /// The title of a table.
    Caption,
    /// The text of a table.
    TableText,
    /// The line at the foot of a page.
    Footer,
}

impl Style {
    /// Every style, in the order in which it is listed.
    pub const ALL: [Self; 19] = [
        Self::Title,
        Self::Heading(1),
        Self::Heading(2),
        Self::Heading(3),
        Self::Heading(4),
        Self::Heading(5),
        Self::BodyText,
        Self::ListBullet,
        Self::ListNumber,
        Self::ListContinue,
        Self::Ingredient,
        Self::Query,
        Self::CautionHeading,
        Self::Caution,
        Self::Note,
        Self::Fact,
        Self::Caption,
        Self::TableText,
        Self::Footer,
    ];

    /// Returns the name under which an editor finds it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Title => "Title",
            Self::Heading(1) => "heading 1",
            Self::Heading(2) => "heading 2",
            Self::Heading(3) => "heading 3",
            Self::Heading(4) => "heading 4",
            Self::Heading(_) => "heading 5",
            Self::BodyText => "Body Text",
            Self::ListBullet => "List Bullet",
            Self::ListNumber => "List Number",
            Self::ListContinue => "List Continue",
            Self::Ingredient => "Ingredient",
            Self::Query => "Query",
            Self::CautionHeading => "Caution Heading",
            Self::Caution => "Caution",
            Self::Note => "Note",
            Self::Fact => "Fact",
            Self::Caption => "caption",
            Self::TableText => "Table Text",
            Self::Footer => "footer",
        }
    }

    /// Returns the id by which paragraphs name it.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Title => "Title",
            Self::Heading(1) => "Heading1",
            Self::Heading(2) => "Heading2",
            Self::Heading(3) => "Heading3",
            Self::Heading(4) => "Heading4",
            Self::Heading(_) => "Heading5",
            Self::BodyText => "BodyText",
            Self::ListBullet => "ListBullet",
            Self::ListNumber => "ListNumber",
            Self::ListContinue => "ListContinue",
            Self::Ingredient => "Ingredient",
            Self::Query => "Query",
            Self::CautionHeading => "CautionHeading",
            Self::Caution => "Caution",
            Self::Note => "Note",
            Self::Fact => "Fact",
            Self::Caption => "Caption",
            Self::TableText => "TableText",
            Self::Footer => "Footer",
        }
    }

    /// Returns whether word processors do not know it of themselves.
    const fn is_own(self) -> bool {
        matches!(
            self,
            Self::Ingredient
                | Self::Query
                | Self::CautionHeading
                | Self::Caution
                | Self::Note
                | Self::Fact
                | Self::TableText
        )
    }

    /// Returns its look.
    const fn look(self) -> Look {
        match self {
            Self::Title => Look { size: 40, bold: true, after: 200, keep: true, ..PLAIN },
            Self::Heading(1) => Look { size: 30, bold: true, before: 360, keep: true, ..PLAIN },
            Self::Heading(2) => Look { size: 26, bold: true, before: 280, keep: true, ..PLAIN },
            Self::Heading(3) => Look { bold: true, before: 200, keep: true, ..PLAIN },
            Self::Heading(_) => Look { italic: true, before: 160, keep: true, ..PLAIN },
            Self::BodyText => PLAIN,
            Self::ListBullet | Self::ListNumber | Self::Ingredient => {
                Look { left: 425, hanging: 425, after: 60, ..PLAIN }
            }
            Self::Query => Look { left: 425, hanging: 425, after: 80, shade: true, ..PLAIN },
            Self::ListContinue => Look { left: 425, after: 60, ..PLAIN },
            Self::CautionHeading => Look {
                bold: true,
                before: 200,
                after: 40,
                left: 200,
                bar: true,
                keep: true,
                ..PLAIN
            },
            Self::Caution => Look { after: 120, left: 200, bar: true, ..PLAIN },
            Self::Note => Look { italic: true, left: 200, ..PLAIN },
            Self::Fact => Look { after: 20, ..PLAIN },
            Self::Caption => Look { bold: true, before: 200, after: 80, keep: true, ..PLAIN },
            Self::TableText => Look { size: 20, after: 20, ..PLAIN },
            Self::Footer => Look { size: 18, ..PLAIN },
        }
    }

    /// The numbering that belongs to the style.
    const fn numbering(self) -> Option<usize> {
        match self {
            Self::ListBullet | Self::Ingredient => Some(BULLETS),
            Self::ListNumber => Some(FIRST_NUMBERED),
            _ => None,
        }
    }
}

/// How a style looks: sizes in half points, lengths in twentieths of a point.
#[derive(Debug, Clone, Copy)]
struct Look {
    size: u16,
    bold: bool,
    italic: bool,
    before: u16,
    after: u16,
    left: u16,
    hanging: u16,
    /// A bar at the left, as of a caution.
    bar: bool,
    /// Grey behind the text.
    shade: bool,
    /// Stays with what follows.
    keep: bool,
}

const PLAIN: Look = Look {
    size: 23,
    bold: false,
    italic: false,
    before: 0,
    after: 120,
    left: 0,
    hanging: 0,
    bar: false,
    shade: false,
    keep: false,
};

/// Writes the part with the styles; the language is that of the spelling checker.
pub fn styles(language: &str) -> String {
    let mut xml = Xml::root("w:styles", &[NAMESPACE]);
    xml.start("w:docDefaults", &[]).start("w:rPrDefault", &[]).start("w:rPr", &[]);
    let font = "Times New Roman";
    xml.empty("w:rFonts", &[("w:ascii", font), ("w:hAnsi", font), ("w:cs", font)]);
    xml.empty("w:sz", &[("w:val", "23")]).empty("w:lang", &[("w:val", language)]);
    xml.end().end();
    xml.start("w:pPrDefault", &[]).start("w:pPr", &[]);
    xml.empty("w:spacing", &[("w:line", "300"), ("w:lineRule", "auto")]);
    xml.end().end().end().line();
    xml.start("w:style", &[("w:type", "paragraph"), ("w:default", "1"), ("w:styleId", "Normal")]);
    xml.empty("w:name", &[("w:val", "Normal")]).empty("w:qFormat", &[]).end().line();
    Style::ALL.iter().for_each(|style| paragraph_style(&mut xml, *style));
    table_style(&mut xml);
    xml.finish()
}

fn paragraph_style(xml: &mut Xml, style: Style) {
    let look = style.look();
    let mut attributes = vec![("w:type", "paragraph"), ("w:styleId", style.id())];
    if style.is_own() {
        attributes.push(("w:customStyle", "1"));
    }
    xml.start("w:style", &attributes).empty("w:name", &[("w:val", style.name())]);
    xml.empty("w:basedOn", &[("w:val", "Normal")]);
    xml.empty("w:next", &[("w:val", next(style).id())]).empty("w:qFormat", &[]);
    xml.start("w:pPr", &[]);
    if look.keep {
        xml.empty("w:keepNext", &[]);
    }
    if let Some(numbering) = style.numbering() {
        xml.start("w:numPr", &[]);
        xml.empty("w:numId", &[("w:val", &numbering.to_string())]).end();
    }
    if look.bar {
        xml.start("w:pBdr", &[]);
        let bar = [("w:val", "single"), ("w:sz", "24"), ("w:space", "8"), ("w:color", "B34700")];
        xml.empty("w:left", &bar).end();
    }
    if look.shade {
        let shade = [("w:val", "clear"), ("w:color", "auto"), ("w:fill", "EEF1F4")];
        xml.empty("w:shd", &shade);
    }
    let (before, after) = (look.before.to_string(), look.after.to_string());
    xml.empty("w:spacing", &[("w:before", &before), ("w:after", &after)]);
    if look.left > 0 {
        let (left, hanging) = (look.left.to_string(), look.hanging.to_string());
        xml.empty("w:ind", &[("w:left", &left), ("w:hanging", &hanging)]);
    }
    if let Style::Heading(level) = style {
        xml.empty("w:outlineLvl", &[("w:val", &(level - 1).to_string())]);
    }
    xml.end().start("w:rPr", &[]);
    if look.bold {
        xml.empty("w:b", &[]);
    }
    if look.italic {
        xml.empty("w:i", &[]);
    }
    xml.empty("w:sz", &[("w:val", &look.size.to_string())]).end().end().line();
}

/// The style of the paragraph that follows when an editor types on.
const fn next(style: Style) -> Style {
    match style {
        Style::Title | Style::Heading(_) | Style::Caption | Style::Note => Style::BodyText,
        Style::CautionHeading => Style::Caution,
        other => other,
    }
}

fn table_style(xml: &mut Xml) {
    xml.start(
        "w:style",
        &[("w:type", "table"), ("w:styleId", "NotesTable"), ("w:customStyle", "1")],
    );
    xml.empty("w:name", &[("w:val", "Notes Table")]).start("w:tblPr", &[]);
    xml.start("w:tblBorders", &[]);
    let line = [("w:val", "single"), ("w:sz", "4"), ("w:space", "0"), ("w:color", "8A9099")];
    xml.empty("w:top", &line).empty("w:bottom", &line).empty("w:insideH", &line).end();
    xml.start("w:tblCellMar", &[]);
    let margin = [("w:w", "80"), ("w:type", "dxa")];
    xml.empty("w:left", &margin).empty("w:right", &margin).end().end().end().line();
}

/// Writes the part with the numbering: bullets, and so many numbered lists that each begin at 1.
pub fn numbering(lists: usize) -> String {
    let mut xml = Xml::root("w:numbering", &[NAMESPACE]);
    for (id, format, text) in [("0", "bullet", "•"), ("1", "decimal", "%1.")] {
        xml.start("w:abstractNum", &[("w:abstractNumId", id)]);
        xml.empty("w:multiLevelType", &[("w:val", "singleLevel")]);
        xml.start("w:lvl", &[("w:ilvl", "0")]).empty("w:start", &[("w:val", "1")]);
        xml.empty("w:numFmt", &[("w:val", format)]).empty("w:lvlText", &[("w:val", text)]);
        xml.empty("w:lvlJc", &[("w:val", "left")]).start("w:pPr", &[]);
        xml.empty("w:ind", &[("w:left", "425"), ("w:hanging", "425")]).end().end().end().line();
    }
    number(&mut xml, BULLETS, "0", false);
    for list in 0..lists.max(1) {
        number(&mut xml, FIRST_NUMBERED + list, "1", true);
    }
    xml.finish()
}

fn number(xml: &mut Xml, id: usize, kind: &str, restart: bool) {
    xml.start("w:num", &[("w:numId", &id.to_string())]);
    xml.empty("w:abstractNumId", &[("w:val", kind)]);
    if restart {
        xml.start("w:lvlOverride", &[("w:ilvl", "0")]);
        xml.empty("w:startOverride", &[("w:val", "1")]).end();
    }
    xml.end().line();
}
