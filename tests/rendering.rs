//! One document in every format: widths, empty tables, wide characters, escaping.

use insta::assert_snapshot;
use standin::report::{
    Axis, BarGroup, Bars, Chart, Document, Fact, Figure, Grid, GridCell, Item, Lane, Lines, Series,
    Signal, Spread, Stretch, Table, Text, TextStyle, Timeline, chart_svg, html, markdown, table,
};

fn style(width: usize) -> TextStyle {
    TextStyle { width, ..TextStyle::default() }
}

fn routes() -> Table {
    Table::new()
        .caption("Routes to a cold concentrate")
        .words("Route")
        .numbers("Time (min)")
        .numbers("Loss (%)")
        .words("Why")
        .row(["wide pan", "46", "38", "the juice boils at 100 °C and loses its fresh smell"])
        .row(["freeze and drip", "1440", "9", "stays cold; some sugar stays in the ice"])
}

fn text(document: &Document, width: usize) -> String {
    table::render(document, &style(width))
}

#[test]
fn a_table_fits_eighty_columns() {
    let mut document = Document::new("Pear treacle");
    document.table(routes());
    assert_snapshot!(text(&document, 80), @"
    Pear treacle
    ════════════
    Routes to a cold concentrate
    Route            Time (min)  Loss (%)  Why
    ────────────────────────────────────────────────────────────────────────────────
    wide pan                 46        38  the juice boils at 100 °C and loses its
                                           fresh smell
    freeze and drip        1440         9  stays cold; some sugar stays in the ice
    ");
}

#[test]
fn a_narrow_terminal_gets_one_value_a_line() {
    let mut document = Document::new("");
    document.table(routes());
    assert_snapshot!(text(&document, 20), @"
    Routes to a cold
    concentrate
    Route: wide pan
      Time (min): 46
      Loss (%): 38
      Why: the juice
      boils at 100 °C
      and loses its
      fresh smell
    Route: freeze and
    drip
      Time (min): 1440
      Loss (%): 9
      Why: stays cold;
      some sugar stays
      in the ice
    ");
}

#[test]
fn a_wide_terminal_keeps_each_row_on_one_line() {
    let mut document = Document::new("");
    document.table(routes());
    assert_snapshot!(text(&document, 200), @"
    Routes to a cold concentrate
    Route            Time (min)  Loss (%)  Why
    ──────────────────────────────────────────────────────────────────────────────────────────
    wide pan                 46        38  the juice boils at 100 °C and loses its fresh smell
    freeze and drip        1440         9  stays cold; some sugar stays in the ice
    ");
}

#[test]
fn no_line_is_wider_than_the_terminal() {
    let mut document = every_block();
    document.table(routes());
    for width in 20..=200 {
        for linear in [false, true] {
            for ascii in [false, true] {
                let style = TextStyle { width, linear, ascii, colour: false };
                for line in table::render(&document, &style).lines() {
                    let cells = standin::report::words::cells(line);
                    assert!(cells <= width, "{cells} cells at width {width}: {line}");
                    assert!(!ascii || line.is_ascii(), "{line}");
                }
            }
        }
    }
}

#[test]
fn an_empty_table_says_so() {
    let mut document = Document::new("");
    document.table(Table::new().caption("Routes").words("Route"));
    assert_snapshot!(text(&document, 80), @"
    Routes
    (none)
    ");
    assert_snapshot!(markdown::render(&document), @"
    **Routes**

    (none)
    ");
}

#[test]
fn wide_characters_keep_the_columns_straight() {
    let mut document = Document::new("");
    document
        .table(Table::new().words("Name").numbers("g").row(["葛粉", "12"]).row(["arrowroot", "9"]));
    assert_snapshot!(text(&document, 80), @"
    Name        g
    ─────────────
    葛粉       12
    arrowroot   9
    ");
}

fn every_block() -> Document {
    let mut document = Document::new("Pear treacle");
    document
        .facts([Fact::new("Yield", "100 g"), Fact::new("Time", "about 45 min")])
        .section("Method")
        .numbered([
            Item::new(Text::new().plain("Boil to ").strong("105 g").plain(".")).under("Weigh hot."),
            Item::new("Cool, and weigh again."),
        ])
        .caution(Signal::Caution, "hot syrup", vec!["It burns. Pour with a dry cloth.".into()])
        .subsection("What is lost")
        .bullets(["the fresh smell", "a little colour"])
        .note(Text::new().plain("The laboratory works at ").emphasis("7.5 kPa").plain("."))
        .chart(bars())
        .chart(curve())
        .chart(timeline());
    document
}

fn bars() -> Chart {
    let spread = |low, typical, high| Spread { low, typical, high };
    let group = |name: &str, lab, home| BarGroup {
        name: name.into(),
        bars: vec![("laboratory".into(), lab), ("home".into(), home)],
    };
    Chart::new(
        "What is kept",
        "The home version keeps the colour and loses a third of the smell.",
        Figure::Bars(Bars {
            axis: Axis::new("kept", "%"),
            full: Some(100.0),
            groups: vec![
                group("fresh smell", spread(90.0, 94.0, 97.0), spread(50.0, 62.0, 75.0)),
                group("colour", Spread::exact(99.0), spread(80.0, 88.0, 95.0)),
            ],
        }),
    )
}

fn curve() -> Chart {
    let points = (0..=10).map(|step| {
        let minutes = f64::from(step) * 5.0;
        let mass = 500.0 - 8.0 * minutes;
        (minutes, Spread { low: mass - minutes, typical: mass, high: mass + minutes })
    });
    Chart::new(
        "Mass in the pan",
        "The mass falls evenly to 100 g in 50 minutes.",
        Figure::Lines(Lines {
            x: Axis::new("time", "min"),
            y: Axis::new("mass", "g"),
            series: vec![Series::new("home", points.collect())],
            ..Lines::default()
        }),
    )
}

fn timeline() -> Chart {
    let stretch = |from, to, label: &str, active| Stretch { from, to, label: label.into(), active };
    let lane = |name: &str, stretches| Lane { name: name.into(), stretches };
    Chart::new(
        "Who is busy when",
        "The cook is needed for 15 of 60 minutes.",
        Figure::Timeline(Timeline {
            axis: Axis::new("time", "min"),
            lanes: vec![
                lane(
                    "cook",
                    vec![stretch(0.0, 10.0, "weigh", true), stretch(55.0, 60.0, "pour", true)],
                ),
                lane("pan", vec![stretch(10.0, 55.0, "boil", false)]),
            ],
            marks: Vec::new(),
            listing: None,
        }),
    )
}

#[test]
fn every_block_has_a_plain_form() {
    let mut document = every_block();
    document.blocks.truncate(8);
    assert_snapshot!(text(&document, 60), @"
    Pear treacle
    ════════════
    Yield: 100 g
    Time:  about 45 min

    Method
    ──────
    1. Boil to 105 g.
       Weigh hot.
    2. Cool, and weigh again.

    ┃ CAUTION: hot syrup
    ┃ It burns. Pour with a dry cloth.

    What is lost
    • the fresh smell
    • a little colour

    Note: The laboratory works at 7.5 kPa.

    What is kept
    fresh smell
      laboratory ██████████████████▓  94 (90–97) %
      home       ██████████▓▓░░░      62 (50–75) %
    colour
      laboratory ████████████████████ 99 %
      home       ████████████████▓▓░  88 (80–95) %
    The home version keeps the colour and loses a third of the
    smell.
    ");
}

#[test]
fn bars_show_the_range_by_shade_and_in_figures() {
    let mut document = Document::new("");
    document.chart(bars());
    assert_snapshot!(text(&document, 70), @"
    What is kept
    fresh smell
      laboratory ███████████████████████▓  94 (90–97) %
      home       █████████████▓▓▓░░░       62 (50–75) %
    colour
      laboratory █████████████████████████ 99 %
      home       ████████████████████▓▓░░  88 (80–95) %
    The home version keeps the colour and loses a third of the smell.
    ");
}

#[test]
fn a_curve_has_a_band_and_both_axes() {
    let mut document = Document::new("");
    document.chart(curve());
    assert_snapshot!(text(&document, 60), @"
    Mass in the pan
    mass (g)
    600 │
        │●
        │ ●●●●●●●░
    400 │       ░●●●●●●●░░░
        │              ░●●●●●●●●░░░
        │                     ░░●●●●●●●░░░░░
    200 │                           ░░░●●●●●●●●░░░░░
        │                                  ░░░░●●●●●●●●
        │                                         ░░░░░
      0 │
         ───────────────────────────────────────────────────────
         0                     time (min)                     60
    ● home; ░ range
    The mass falls evenly to 100 g in 50 minutes.
    ");
}

#[test]
fn a_timeline_lists_what_its_lanes_do() {
    let mut document = Document::new("");
    document.chart(timeline());
    let style = TextStyle { width: 60, ascii: true, ..TextStyle::default() };
    assert_snapshot!(table::render(&document, &style), @"
    Who is busy when
    cook #########                                         #####
    pan           .........................................
         -------------------------------------------------------
         0                     time (min)                     60
    # needs a hand   . runs by itself
    cook: 0-10 min weigh; 55-60 min pour
    pan: 10-55 min boil
    The cook is needed for 15 of 60 minutes.
    ");
}

#[test]
fn a_screen_reader_gets_names_and_values_without_drawing() {
    let mut document = Document::new("Pear treacle");
    document.table(routes()).chart(timeline());
    let style = TextStyle { linear: true, ..TextStyle::default() };
    assert_snapshot!(table::render(&document, &style), @"
    Pear treacle
    Routes to a cold concentrate
    Route: wide pan
      Time (min): 46
      Loss (%): 38
      Why: the juice boils at 100 degrees C and loses its fresh smell
    Route: freeze and drip
      Time (min): 1440
      Loss (%): 9
      Why: stays cold; some sugar stays in the ice

    Who is busy when
    Who: cook
      From (min): 0
      To (min): 10
      What: weigh
      Attention: active
    Who: cook
      From (min): 55
      To (min): 60
      What: pour
      Attention: active
    Who: pan
      From (min): 10
      To (min): 55
      What: boil
      Attention: by itself
    The cook is needed for 15 of 60 minutes.
    ");
}

#[test]
fn bold_is_written_only_when_asked() {
    let mut document = Document::new("Title");
    document.paragraph(Text::new().strong("now"));
    assert!(!text(&document, 80).contains('\u{1b}'));
    let styled = table::render(&document, &TextStyle { colour: true, ..TextStyle::default() });
    assert_eq!(styled, "\u{1b}[1mTitle\u{1b}[22m\n═════\n\u{1b}[1mnow\u{1b}[22m\n");
}

#[test]
fn every_block_has_a_markdown_form() {
    let mut document = every_block();
    document.blocks.truncate(9);
    assert_snapshot!(markdown::render(&document), @"
    # Pear treacle

    - **Yield:** 100 g
    - **Time:** about 45 min

    ## Method

    1. Boil to **105 g**.

       Weigh hot.
    2. Cool, and weigh again.

    > **CAUTION: hot syrup**
    >
    > It burns. Pour with a dry cloth.

    ### What is lost

    - the fresh smell
    - a little colour

    *Note:* The laboratory works at *7.5 kPa*.

    **What is kept**

    | What | Which | kept (%) |
    | --- | --- | ---: |
    | fresh smell | laboratory | 94 (90–97) |
    | fresh smell | home | 62 (50–75) |
    | colour | laboratory | 99 |
    | colour | home | 88 (80–95) |

    The home version keeps the colour and loses a third of the smell.

    **Mass in the pan**

    | time (min) | home (g) |
    | ---: | ---: |
    | 0 | 500 |
    | 5 | 460 (455–465) |
    | 10 | 420 (410–430) |
    | 15 | 380 (365–395) |
    | 20 | 340 (320–360) |
    | 25 | 300 (275–325) |
    | 30 | 260 (230–290) |
    | 35 | 220 (185–255) |
    | 40 | 180 (140–220) |
    | 45 | 140 (95–185) |
    | 50 | 100 (50–150) |

    The mass falls evenly to 100 g in 50 minutes.
    ");
}

#[test]
fn markdown_escapes_what_it_would_read_as_markup() {
    let mut document = Document::new("a # b");
    document.paragraph("1. not a list, <script>alert(1)</script> & 2*3_4");
    document.paragraph("- not a list either");
    document.table(Table::new().words("a|b").row(["x|y\nz"]));
    assert_snapshot!(markdown::render(&document), @r"
    # a \# b

    1\. not a list, \<script\>alert(1)\</script\> \& 2\*3\_4

    \- not a list either

    | a\|b |
    | --- |
    | x\|y z |
    ");
}

const HOSTILE: &str = "<script>alert('1')</script> & \"2\" | 3";

/// A document with a hostile text in every place that takes one.
fn hostile_document() -> Document {
    let mut document = Document::new(HOSTILE);
    let axis = || Axis::new(HOSTILE, HOSTILE);
    let point = Spread::exact(1.0);
    let series = |name: &str| Series::new(name, vec![(0.0, point), (1.0, point)]);
    let group = BarGroup { name: HOSTILE.into(), bars: vec![(HOSTILE.into(), point)] };
    let stretch = Stretch { from: 0.0, to: 1.0, label: HOSTILE.into(), active: true };
    let lane = Lane { name: HOSTILE.into(), stretches: vec![stretch] };
    let cell = GridCell { word: HOSTILE.into(), level: Some(0.5) };
    document
        .section(HOSTILE)
        .facts([Fact::new(HOSTILE, HOSTILE)])
        .bullets([Item::new(HOSTILE).under(HOSTILE)])
        .caution(Signal::Danger, HOSTILE, vec![Text::new().strong(HOSTILE)])
        .note(Text::new().emphasis(HOSTILE))
        .table(Table::new().caption(HOSTILE).words(HOSTILE).row([HOSTILE]));
    for figure in [
        Figure::Lines(Lines {
            x: axis(),
            y: axis(),
            series: vec![series(HOSTILE), series("b")],
            ..Lines::default()
        }),
        Figure::Bars(Bars { axis: axis(), full: None, groups: vec![group] }),
        Figure::Timeline(Timeline {
            axis: axis(),
            lanes: vec![lane],
            marks: Vec::new(),
            listing: None,
        }),
        Figure::Grid(Grid {
            rows_are: HOSTILE.into(),
            columns: vec![HOSTILE.into()],
            rows: vec![(HOSTILE.into(), vec![cell])],
        }),
    ] {
        document.chart(Chart::new(HOSTILE, HOSTILE, figure));
    }
    document
}

#[test]
fn a_page_escapes_every_text() {
    let page = html::render(&hostile_document());
    assert!(!page.contains("<script"), "{page}");
    assert!(page.contains("&lt;script&gt;") && !page.contains("& "));
    for tag in ["html", "body", "main", "table", "svg", "figure", "details", "text", "desc"] {
        let opened =
            page.matches(&format!("<{tag}>")).count() + page.matches(&format!("<{tag} ")).count();
        assert_eq!(opened, page.matches(&format!("</{tag}>")).count(), "{tag}");
    }
}

#[test]
fn markdown_escapes_every_text() {
    let text = markdown::render(&hostile_document());
    for line in text.lines() {
        assert!(!line.replace("\\<", "").contains('<'), "{line}");
    }
    assert!(text.contains(r"\<script\>"));
}

#[test]
fn a_page_has_one_title_headings_in_order_and_charts_that_are_read_out() {
    let page = html::render(&every_block());
    assert_eq!(page.matches("<h1>").count(), 1);
    let levels: Vec<&str> =
        page.match_indices("<h").filter_map(|(at, _)| page.get(at + 2..at + 3)).collect();
    let levels: Vec<u32> = levels.iter().filter_map(|level| level.parse().ok()).collect();
    assert_eq!(levels, [1, 2, 3]);
    for number in 1..=3 {
        let labels = format!("aria-labelledby=\"chart-{number}-title chart-{number}-text\"");
        assert_eq!(page.matches(&labels).count(), 1, "{number}");
    }
    assert!(page.contains("<desc id=\"chart-1-text\">The home version keeps the colour"));
    for part in ["prefers-color-scheme", "prefers-reduced-motion", "@media print", "scope=\"col\""]
    {
        assert!(page.contains(part), "{part}");
    }
}

#[test]
fn a_gap_in_a_curve_breaks_the_line() {
    let value = |x: f64| if (3.0..5.0).contains(&x) { f64::NAN } else { x };
    let points = (0..8).map(f64::from).map(|x| (x, Spread::exact(value(x)))).collect();
    let series = vec![Series::new("only", points)];
    let figure = Lines { x: Axis::new("x", ""), y: Axis::new("y", ""), series, ..Lines::default() };
    let drawing = chart_svg::standalone(&Chart::new("t", "f", Figure::Lines(figure)));
    assert_eq!(drawing.matches("class=\"curve s0\"").count(), 2);
    assert!(!drawing.contains("NaN"));
}

#[test]
fn a_matrix_writes_its_words_beside_its_shades() {
    let cell = |word: &str, level| GridCell { word: word.into(), level };
    let grid = Grid {
        rows_are: "Recipe".into(),
        columns: vec!["flat".into(), "family".into()],
        rows: vec![("Treacle".into(), vec![cell("62 %", Some(0.62)), cell("no route", None)])],
    };
    let chart = Chart::new("Kitchens", "One kitchen of two can make it.", Figure::Grid(grid));
    let drawing = chart_svg::standalone(&chart);
    assert!(drawing.contains(">62 %</text>") && drawing.contains(">no route</text>"));
    let mut document = Document::new("");
    document.chart(chart);
    assert_snapshot!(text(&document, 60), @"
    Kitchens
    Recipe   flat  family
    ───────────────────────
    Treacle  62 %  no route
    One kitchen of two can make it.
    ");
}
