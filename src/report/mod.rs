//! Reports: one document model, several formats.
//!
//! A result is written once as a [`Document`]; [`table`], [`markdown`] and [`html`] render it, and
//! [`json`] prints the serialised result itself.

pub mod adapt;
pub mod adapt_json;
pub mod calc;
pub mod chart;
pub mod chart_svg;
pub mod chart_text;
pub mod check;
pub mod choice;
mod courses;
pub mod document;
pub mod docx;
mod expectation;
mod heat_course;
pub mod html;
pub mod json;
pub mod kitchen;
pub mod ledger;
pub mod markdown;
pub mod notes;
mod notes_ahead;
mod notes_back;
mod notes_goods;
mod notes_head;
pub mod notes_json;
mod notes_method;
pub mod notes_template;
pub mod quality;
pub mod recipe_json_ld;
pub mod routes;
pub mod scale;
pub mod shopping;
pub mod show;
pub mod shown;
pub mod spoken;
pub mod survey;
pub mod survey_json;
pub mod table;
pub mod template;
pub mod timeline;
pub mod timeline_json;
mod trial_charts;
pub mod trial_fit;
pub mod trial_list;
pub mod trial_panel;
pub mod words;

pub use chart::{
    Axis, BarGroup, Bars, Chart, Figure, Grid, GridCell, Lane, Lines, RangeGroup, RangeRow, Ranges,
    Series, Spread, Stretch, Timeline,
};
pub use document::{
    Align, Block, Caution, Column, Document, Fact, Item, Role, Signal, Span, Table, Text, Tone,
};
pub use table::TextStyle;
