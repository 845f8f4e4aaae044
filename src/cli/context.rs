//! What every command is given: where to write, in which format, laid out how.

use std::ffi::OsStr;
use std::io::Write;
use std::path::PathBuf;

use clap::ValueEnum;
use serde::Serialize;

use super::failure::{Failure, FailureKind};
use super::mislaid::must_exist;
use crate::finding::{Finding, visible};
use crate::knowledge::{Knowledge, Layer, load};
use crate::report::{Document, TextStyle, html, json, markdown, table};

/// The widest text on a terminal when no width is asked for: longer lines are hard to read.
const WIDEST_DEFAULT: usize = 100;
/// The widest text that can be asked for.
const WIDEST: u16 = 1000;

/// How a result is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// Text for a terminal
    Table,
    /// JSON with stable keys, for other programs
    Json,
    /// CommonMark with tables, for a manuscript
    Markdown,
    /// One self-contained page, for a phone or for print
    Html,
    /// A manuscript for a word processor; `notes` only
    Docx,
}

/// When bold text is used.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Colour {
    /// On a terminal that shows it, unless NO_COLOR is set
    Auto,
    /// Always
    Always,
    /// Never
    Never,
}

/// Options of the whole program.
#[derive(Debug, Clone, clap::Args)]
pub struct SharedArgs {
    /// Lay the knowledge files of this folder over the built-in ones
    #[arg(long, global = true, value_name = "DIR", help_heading = "Knowledge")]
    pub knowledge: Option<PathBuf>,

    /// Write the result as table, json, markdown or html; notes also as docx
    #[arg(long, global = true, value_enum, default_value = "table", help_heading = "Output")]
    #[arg(hide_possible_values = true)]
    pub format: Format,

    /// Wrap text at this many columns [default: the terminal up to 100, or 80]
    #[arg(long, global = true, value_name = "COUNT", help_heading = "Output")]
    #[arg(value_parser = clap::value_parser!(u16).range(i64::from(LEAST)..=i64::from(WIDEST)))]
    columns: Option<u16>,

    /// Use bold text: auto, always or never
    #[arg(long, global = true, value_name = "WHEN", value_enum, help_heading = "Output")]
    #[arg(default_value = "auto", hide_possible_values = true)]
    colour: Colour,

    /// Write ASCII signs only, such as "deg C" for "°C"
    #[arg(long, global = true, help_heading = "Output")]
    ascii: bool,

    /// Write for a screen reader: no rules, no drawing, tables as named values
    #[arg(long, global = true, help_heading = "Output")]
    linear: bool,
}

/// The least width that can be asked for.
#[allow(clippy::cast_possible_truncation, reason = "the least width is 20")]
const LEAST: u16 = table::LEAST_WIDTH as u16;

/// What is known about standard output and the environment.
#[derive(Debug, Clone, Copy)]
pub struct Surroundings<'a> {
    /// Columns of the terminal; `None` when standard output is not one.
    pub terminal_width: Option<u16>,
    /// The variable `NO_COLOR`.
    pub no_colour: Option<&'a OsStr>,
    /// The variable `TERM`.
    pub terminal_name: Option<&'a OsStr>,
}

impl SharedArgs {
    /// Returns how text is laid out; an explicit option wins over the environment.
    pub fn text_style(&self, around: Surroundings<'_>) -> TextStyle {
        let terminal = around.terminal_width.map(|width| usize::from(width).min(WIDEST_DEFAULT));
        let width = self.columns.map(usize::from).or(terminal).unwrap_or(table::DEFAULT_WIDTH);
        let refused = around.no_colour.is_some_and(|value| !value.is_empty())
            || around.terminal_name.is_some_and(|name| name == "dumb");
        let colour = match self.colour {
            Colour::Always => true,
            Colour::Never => false,
            Colour::Auto => around.terminal_width.is_some() && !refused,
        };
        TextStyle { width, colour, ascii: self.ascii, linear: self.linear }
    }
}

/// What a command writes to, and how.
pub struct Context<'a> {
    /// How results are written.
    pub format: Format,
    /// How text is laid out.
    pub style: TextStyle,
    /// Standard output, for results.
    pub out: &'a mut dyn Write,
    /// Standard error, for remarks.
    pub remarks: &'a mut dyn Write,
    /// The folder of knowledge files that the user lays over the built-in ones.
    pub knowledge_folder: Option<PathBuf>,
}

impl Context<'_> {
    /// Writes a result in the format asked for: the document, or the result itself as JSON.
    ///
    /// # Errors
    /// When the result cannot be written.
    pub fn report(&mut self, document: &Document, result: &impl Serialize) -> anyhow::Result<()> {
        let text = match self.format {
            Format::Table => table::render(document, &self.style),
            Format::Markdown => markdown::render(document),
            Format::Html => html::render(document),
            Format::Docx => return Err(Failure::docx_elsewhere().into()),
            Format::Json => json::pretty(result)?,
        };
        Ok(self.out.write_all(text.as_bytes())?)
    }

    /// Reads the knowledge files: the built-in layer, and the user's folder over it.
    ///
    /// # Errors
    /// A [`Failure`] when a file of the folder cannot be read.
    pub fn layers(&self) -> anyhow::Result<Vec<Layer>> {
        let mut layers = vec![load::built_in()];
        if let Some(folder) = &self.knowledge_folder {
            must_exist(folder)?;
            let layer = load::folder(folder).map_err(|finding| {
                let message = format!("{}: {}", finding.file, finding.message);
                Failure::new(FailureKind::File, message)
            })?;
            layers.push(layer);
        }
        Ok(layers)
    }

    /// Loads the knowledge base.
    ///
    /// # Errors
    /// A [`Failure`] when a file cannot be read or the knowledge base has a fault; the findings are
    /// then among the remarks.
    pub fn knowledge(&mut self) -> anyhow::Result<Knowledge> {
        let layers = self.layers()?;
        match Knowledge::from_layers(&layers) {
            Ok(knowledge) => Ok(knowledge),
            Err(error) => {
                self.remark(&findings_text(&error.findings, &layers))?;
                Err(Failure::new(FailureKind::File, error.to_string()).into())
            }
        }
    }

    /// Writes a remark, which is no part of the result.
    ///
    /// # Errors
    /// When standard error cannot be written to.
    pub fn remark(&mut self, text: &str) -> anyhow::Result<()> {
        Ok(writeln!(self.remarks, "{}", self.style.signs(&visible(text)))?)
    }
}

/// Writes findings one below the other, each with an excerpt of its file.
pub fn findings_text(findings: &[Finding], layers: &[Layer]) -> String {
    let text = |name: &str| {
        let files = layers.iter().rev().flat_map(|layer| &layer.files);
        files.clone().find(|file| file.path == name).map_or("", |file| file.text.as_str())
    };
    let shown = findings.iter().map(|finding| finding.render(text(&finding.file)));
    shown.collect::<Vec<_>>().join("\n\n")
}

#[cfg(test)]
mod tests {
    use super::*;

    const SHARED: SharedArgs = SharedArgs {
        knowledge: None,
        format: Format::Table,
        columns: None,
        colour: Colour::Auto,
        ascii: false,
        linear: false,
    };
    const TERMINAL: Surroundings<'_> =
        Surroundings { terminal_width: Some(140), no_colour: None, terminal_name: None };

    #[test]
    fn a_terminal_gets_bold_text_up_to_a_readable_width() {
        let style = SHARED.text_style(TERMINAL);
        assert!(style.colour);
        assert_eq!(style.width, 100);
    }

    #[test]
    fn a_pipe_gets_plain_text_eighty_wide() {
        let style = SHARED.text_style(Surroundings { terminal_width: None, ..TERMINAL });
        assert!(!style.colour);
        assert_eq!(style.width, 80);
    }

    #[test]
    fn no_color_counts_only_when_it_is_not_empty() {
        let with = |value| Surroundings { no_colour: Some(OsStr::new(value)), ..TERMINAL };
        assert!(SHARED.text_style(with("")).colour);
        assert!(!SHARED.text_style(with("1")).colour);
    }

    #[test]
    fn an_explicit_option_wins() {
        let dumb = Surroundings { terminal_name: Some(OsStr::new("dumb")), ..TERMINAL };
        assert!(!SHARED.text_style(dumb).colour);
        let always = SharedArgs { colour: Colour::Always, ..SHARED };
        assert!(always.text_style(dumb).colour);
    }

    #[test]
    fn a_faulty_knowledge_folder_is_shown_with_the_place_of_the_fault() {
        let folder = std::env::temp_dir().join(format!("standin-context-{}", std::process::id()));
        std::fs::create_dir_all(&folder).unwrap();
        std::fs::write(folder.join("wrong.toml"), "[[sources]]\nid = 3\n").unwrap();
        let (mut out, mut remarks) = (Vec::new(), Vec::new());
        let mut context = Context {
            format: Format::Table,
            style: TextStyle::default(),
            out: &mut out,
            remarks: &mut remarks,
            knowledge_folder: Some(folder.clone()),
        };
        let loaded = context.knowledge();
        std::fs::remove_dir_all(&folder).unwrap();
        assert!(loaded.is_err());
        let shown = String::from_utf8(remarks).unwrap();
        assert!(shown.contains("wrong.toml:"), "{shown}");
    }

    #[test]
    fn a_missing_knowledge_folder_is_named() {
        let (mut out, mut remarks) = (Vec::new(), Vec::new());
        let context = Context {
            format: Format::Table,
            style: TextStyle::default(),
            out: &mut out,
            remarks: &mut remarks,
            knowledge_folder: Some("nowhere/at-all".into()),
        };
        let message = context.layers().unwrap_err().to_string();
        assert!(message.contains("there is no nowhere/at-all"), "{message}");
    }
}
