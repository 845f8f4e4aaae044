//! A document as one self-contained page: readable on a phone in a kitchen, and in print.

use maud::{DOCTYPE, Markup, PreEscaped, html};

use super::chart::{Chart, Figure};
use super::chart_svg;
use super::document::{Align, Block, Caution, Document, Item, Role, Table, Text, Tone};

/// The style of the page: one column, system fonts of 18 px and more, light or dark as the reader
/// has it, and black on white on paper.
const STYLE: &str = "\
:root{color-scheme:light dark;--ink:#16191d;--paper:#fff;--soft:#f1f3f5;--line:#8a9099;--alarm:#b34700}\
@media (prefers-color-scheme:dark){:root{--ink:#eceff3;--paper:#14171a;--soft:#22272c;--line:#8d959e;--alarm:#ff9d4d}}\
*{box-sizing:border-box}\
body{margin:0 auto;max-width:42rem;padding:1rem 1.1rem 3rem;font:1.125rem/1.55 system-ui,sans-serif;color:var(--ink);background:var(--paper);overflow-wrap:break-word}\
h1{font-size:1.9rem;line-height:1.2}h2{font-size:1.45rem;line-height:1.25;margin-top:2.2rem}h3{font-size:1.2rem;margin-top:1.6rem}\
li{margin:.4rem 0}\
dl{display:grid;grid-template-columns:minmax(6rem,auto) 1fr;gap:.35rem 1rem}dt{font-weight:600}dd{margin:0}\
.wide{overflow-x:auto}\
table{border-collapse:collapse;width:100%;margin:1rem 0}\
caption{text-align:left;font-weight:600;padding-bottom:.4rem}\
th,td{text-align:left;vertical-align:top;padding:.45rem .7rem .45rem 0;border-bottom:1px solid var(--line)}\
tbody th{font-weight:400;position:sticky;left:0;max-width:45vw;background:var(--paper)}.number{text-align:right;font-variant-numeric:tabular-nums}\
aside{background:var(--soft);padding:.7rem 1rem;margin:1.2rem 0;border-radius:.3rem}aside p{margin:.4rem 0}\
.caution{border:3px solid var(--alarm);background:none}\
figure{margin:1.6rem 0}figure svg{width:100%;height:auto;max-width:34rem}figcaption{margin-top:.5rem;max-width:34rem}\
summary{cursor:pointer;padding:.6rem 0;min-height:2.75rem}\
@media (prefers-reduced-motion:no-preference){html{scroll-behavior:smooth}}\
@media (max-width:30rem){table{font-size:.95rem}th,td{padding-right:.4rem}.cards,.cards tbody,.cards tr,.cards th,.cards td{display:block}\
.cards thead{display:none}.cards tr{border-bottom:1px solid var(--line);padding:.5rem 0}.cards th,.cards td{border:0;padding:.15rem 0;max-width:none;text-align:left}\
.cards tbody th{font-weight:600}.cards td:empty{display:none}.cards caption{display:block}.cards td::before{content:attr(data-label) \": \";font-weight:600}}\
@media (max-width:26rem){dl{grid-template-columns:1fr}dd{margin-bottom:.5rem}}\
@media print{:root{--ink:#000;--paper:#fff;--soft:#fff;--alarm:#000}body{max-width:none;padding:0;font-size:12pt}\
aside{border:1px solid #000}.caution{border-width:3px}table,figure,aside,li{break-inside:avoid}tr{break-inside:avoid}figure svg{max-height:88vh;max-width:25rem}figcaption{max-width:none}tbody th{position:static;max-width:none}h2,h3{break-after:avoid}summary{display:none}}";

/// Tables of this many columns with more than a few words in a cell become cards on a phone.
const MOST_ON_PHONE: usize = 4;
/// A few words, in characters.
const FEW_WORDS: usize = 40;

/// The language of the tool's own words.
const BRITISH: &str = "en-GB";

/// Renders a document as an HTML page that needs nothing else.
pub fn render(document: &Document) -> String {
    render_in(document, BRITISH)
}

/// Renders a document as a page in a language, such as "en-US".
pub fn render_in(document: &Document, language: &str) -> String {
    let heading = match document.title.as_str() {
        "" => String::new(),
        title => html! { h1 { (title) } }.into_string(),
    };
    page(&document.title, &(heading + &blocks(&document.blocks, &mut 0)), language)
}

/// Puts the frame and the style of a page round what is written already.
pub fn page(title: &str, inside: &str, language: &str) -> String {
    let page = html! {
        (DOCTYPE)
        html lang=(language) {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (title) }
                style { (PreEscaped(STYLE)) (PreEscaped(chart_svg::STYLE)) }
            }
            body { main { (PreEscaped(inside)) } }
        }
    };
    format!("{}\n", page.into_string())
}

/// Renders parts of a document, counting the charts on from those before.
pub fn blocks(blocks: &[Block], charts: &mut usize) -> String {
    blocks.iter().map(|block| render_block(block, charts).into_string()).collect()
}

fn render_block(block: &Block, charts: &mut usize) -> Markup {
    match block {
        Block::Heading { level, text } => heading(*level, text),
        Block::Paragraph(text) => html! { p { (inline(text)) } },
        Block::Bullets(items) => html! { ul { (entries(items)) } },
        Block::Numbered(items) => html! { ol { (entries(items)) } },
        Block::Entries(role, items) => html! { ul class=(class_of(*role)) { (entries(items)) } },
        Block::Facts(facts) => html! {
            dl { @for fact in facts { dt { (fact.name) } dd { (inline(&fact.value)) } } }
        },
        Block::Table(table) => render_table(table),
        Block::Caution(caution) => render_caution(caution),
        Block::Note(text) => html! { aside role="note" { p { (inline(text)) } } },
        Block::Chart(chart) => {
            *charts += 1;
            figure(chart, *charts)
        }
    }
}

const fn class_of(role: Role) -> &'static str {
    match role {
        Role::Ingredient => "ingredients",
        Role::Query => "queries",
    }
}

fn heading(level: u8, text: &Text) -> Markup {
    let text = inline(text);
    match level {
        0..=2 => html! { h2 { (text) } },
        3 => html! { h3 { (text) } },
        4 => html! { h4 { (text) } },
        5 => html! { h5 { (text) } },
        _ => html! { h6 { (text) } },
    }
}

fn inline(text: &Text) -> Markup {
    html! {
        @for span in &text.0 {
            @match span.tone {
                Tone::Plain => (span.text),
                Tone::Strong => strong { (span.text) },
                Tone::Emphasis => em { (span.text) },
            }
        }
    }
}

fn entries(items: &[Item]) -> Markup {
    html! {
        @for item in items {
            li {
                (inline(&item.text))
                @for text in &item.under { p { (inline(text)) } }
            }
        }
    }
}

fn render_table(table: &Table) -> Markup {
    let class = |align| if align == Align::Right { Some("number") } else { None };
    let name = table.caption.as_deref().unwrap_or("Table");
    let cards = table.columns.len() >= MOST_ON_PHONE && is_wordy(table);
    html! {
        div class="wide" tabindex="0" role="region" aria-label=(name) {
            table class=[cards.then_some("cards")] {
                @if let Some(caption) = &table.caption { caption { (caption) } }
                thead {
                    tr {
                        @for column in &table.columns {
                            th scope="col" class=[class(column.align)] { (column.heading) }
                        }
                    }
                }
                tbody {
                    @if table.rows.is_empty() {
                        tr { td colspan=(table.columns.len().max(1)) { "(none)" } }
                    }
                    @for row in &table.rows { tr { (cells(table, row, cards)) } }
                }
            }
        }
    }
}

/// Returns whether a cell of the table holds more than a few words.
fn is_wordy(table: &Table) -> bool {
    table.rows.iter().flatten().any(|cell| cell.words().chars().count() > FEW_WORDS)
}

fn cells(table: &Table, row: &[Text], cards: bool) -> Markup {
    html! {
        @for (index, column) in table.columns.iter().enumerate() {
            @let text = inline(table.cell(row, index));
            @let class = (column.align == Align::Right).then_some("number");
            @if index == 0 {
                th scope="row" class=[class] { (text) }
            } @else {
                td class=[class] data-label=[cards.then_some(&column.heading)] { (text) }
            }
        }
    }
}

fn render_caution(caution: &Caution) -> Markup {
    html! {
        aside class="caution" role="note" {
            p { strong { (caution.signal.word()) ": " (caution.hazard) } }
            @for text in &caution.lines { p { (inline(text)) } }
        }
    }
}

/// Draws a chart with its finding below it and its numbers behind a fold.
fn figure(chart: &Chart, number: usize) -> Markup {
    html! {
        figure {
            p { strong { (chart.title) } }
            (chart_svg::inline(chart, &format!("chart-{number}")))
            figcaption { (chart.finding) }
            details open[matches!(chart.figure, Figure::Timeline(_))] {
                summary { "The numbers" }
                (render_table(&chart.data()))
            }
        }
    }
}
