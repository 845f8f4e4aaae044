//! Every drawing in every page of the example book: read out, in the palette, no words over words.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first fault")]

use std::path::Path;
use std::process::Command;

use rayon::prelude::*;
use standin::report::{
    Axis, Chart, Document, Figure, Grid, GridCell, Lane, Lines, Series, Spread, Stretch, Timeline,
    chart_svg, html,
};

const BOOK: &str = "examples/book";
/// Techniques whose methods run on clocks from minutes to days.
const TECHNIQUES: [&str; 6] = [
    "vacuum-concentration",
    "water-bath-cooking",
    "egg-pasteurising",
    "pressure-braising",
    "blast-chilling",
    "centrifuge-clarification",
];
/// The colours of Okabe and Ito (2008) that are used, and the white inside dark bars.
const PALETTE: [&str; 6] = ["#0072b2", "#d55e00", "#009e73", "#cc79a7", "#e69f00", "#fff"];
/// Size of the letters, and the usual share of it that one is wide, rises and falls.
const FONT: f64 = 16.0;
const BROAD: f64 = 0.5;
const RISES: f64 = 0.72;
const FALLS: f64 = 0.2;
/// Boxes that share no more than this do not overlap.
const SLACK: f64 = 0.5;

/// The files of one folder of the book, in alphabetical order.
fn files(folder: &str) -> Vec<String> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(BOOK).join(folder);
    let entries = std::fs::read_dir(path).unwrap();
    let name = |entry: std::io::Result<std::fs::DirEntry>| {
        format!("{BOOK}/{folder}/{}", entry.unwrap().file_name().to_str().unwrap())
    };
    let mut files: Vec<String> = entries.map(name).collect();
    files.sort();
    files
}

/// Runs the program in the project's folder and returns the page that it printed.
fn page(arguments: &[&str]) -> String {
    let done = Command::new(env!("CARGO_BIN_EXE_standin"))
        .args(arguments)
        .args(["--format", "html"])
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&done.stderr);
    assert!(matches!(done.status.code(), Some(0 | 1)), "{arguments:?}: {said}");
    String::from_utf8(done.stdout).unwrap()
}

/// An element of a drawing: its name, its attributes as written, and the text right after its tag.
struct Element<'a> {
    name: &'a str,
    attributes: &'a str,
    text: &'a str,
}

impl<'a> Element<'a> {
    fn get(&self, name: &str) -> Option<&'a str> {
        let from = self.attributes.find(&format!(" {name}=\""))? + name.len() + 3;
        self.attributes[from..].split('"').next()
    }

    fn number(&self, name: &str) -> f64 {
        self.get(name).unwrap_or("0").parse().unwrap()
    }
}

/// The drawings of a page.
fn drawings(page: &str) -> Vec<&str> {
    let svg = page.split("<svg").skip(1);
    svg.map(|rest| rest.split("</svg>").next().unwrap()).collect()
}

/// The elements of a drawing, itself first.
fn elements(drawing: &str) -> Vec<Element<'_>> {
    let tags = drawing.split('<').filter(|tag| !tag.starts_with('/') && !tag.is_empty());
    tags.map(|tag| {
        let (inside, text) = tag.split_once('>').unwrap();
        let name = if inside.starts_with(' ') { "svg" } else { inside.split(' ').next().unwrap() };
        let attributes = inside.strip_prefix(name).unwrap_or(inside);
        Element { name, attributes, text }
    })
    .collect()
}

/// The characters of a text, one for each escaped sign.
fn letters(text: &str) -> f64 {
    let mut count = 0.0;
    let mut escaped = false;
    for sign in text.chars() {
        match sign {
            '&' => escaped = true,
            ';' if escaped => (escaped, count) = (false, count + 1.0),
            _ if escaped => {}
            _ => count += 1.0,
        }
    }
    count
}

/// The box of a text: left, top, right, bottom.
fn text_box(text: &Element<'_>) -> [f64; 4] {
    let (x, y, width) = (text.number("x"), text.number("y"), letters(text.text) * FONT * BROAD);
    if text.get("transform").is_some_and(|turn| turn.starts_with("rotate(-90 ")) {
        return [x - RISES * FONT, y - width, x + FALLS * FONT, y];
    }
    let left = match text.get("text-anchor") {
        Some("middle") => x - width / 2.0,
        Some("end") => x - width,
        _ => x,
    };
    [left, y - RISES * FONT, left + width, y + FALLS * FONT]
}

fn overlap(one: &[f64; 4], other: &[f64; 4]) -> bool {
    let shared = |low: usize| one[low + 2].min(other[low + 2]) - one[low].max(other[low]);
    shared(0) > SLACK && shared(1) > SLACK
}

/// Checks one drawing, and says where it comes from when it fails.
fn check(drawing: &str, whence: &str) {
    let all = elements(drawing);
    let read = |name: &str| all.iter().find(|one| one.name == name).map(|one| one.text.trim());
    assert!(read("title").is_some_and(|title| !title.is_empty()), "{whence}: no title");
    assert!(read("desc").is_some_and(|desc| desc.len() > 10), "{whence}: no description");
    assert_eq!(all[0].get("role"), Some("img"), "{whence}");
    let labelled = all[0].get("aria-labelledby").unwrap_or_default();
    for id in labelled.split(' ') {
        assert!(all.iter().any(|one| one.get("id") == Some(id)), "{whence}: {id}");
    }
    for one in &all {
        for painted in ["fill", "stroke", "style"] {
            assert!(one.get(painted).is_none(), "{whence}: {} has its own {painted}", one.name);
        }
        for class in one.get("class").unwrap_or_default().split_whitespace() {
            let styled = chart_svg::STYLE.contains(&format!(".{class}{{"));
            assert!(styled || class == "chart", "{whence}: nothing styles {class}");
        }
    }
    let view: Vec<f64> =
        all[0].get("viewBox").unwrap().split(' ').map(|one| one.parse().unwrap()).collect();
    let texts: Vec<(&str, [f64; 4])> =
        all.iter().filter(|one| one.name == "text").map(|t| (t.text, text_box(t))).collect();
    for (index, (text, here)) in texts.iter().enumerate() {
        let inside = here[0] >= -SLACK
            && here[1] >= -SLACK
            && here[2] <= view[2] + SLACK
            && here[3] <= view[3] + SLACK;
        assert!(inside, "{whence}: \"{text}\" leaves the drawing: {here:?} in {view:?}");
        for (other, there) in &texts[..index] {
            assert!(
                !overlap(here, there),
                "{whence}: \"{text}\" {here:?} over \"{other}\" {there:?}"
            );
        }
    }
}

/// Checks every drawing of a page and returns how many there are.
fn check_page(arguments: &[&str]) -> usize {
    let page = page(arguments);
    let drawings = drawings(&page);
    for (index, drawing) in drawings.iter().enumerate() {
        check(drawing, &format!("{arguments:?}, drawing {}", index + 1));
    }
    drawings.len()
}

#[test]
fn the_style_has_no_colour_but_the_palette() {
    let colours = chart_svg::STYLE.split('#').skip(1);
    for colour in colours {
        let digits = colour.chars().take_while(char::is_ascii_hexdigit).count();
        let colour = format!("#{}", &colour[..digits]);
        assert!(PALETTE.contains(&colour.as_str()), "{colour}");
    }
}

#[test]
fn every_drawing_of_adapted_recipes_can_be_read() {
    let (recipes, kitchens) = (files("recipes"), files("kitchens"));
    let drawn: usize = recipes
        .par_iter()
        .flat_map(|of| kitchens.par_iter().map(move |home| (of, home)))
        .map(|(of, home)| {
            let ready = ["--samples", "40", "--ready-at", "19:00"];
            check_page(&[&["adapt", of, "--kitchen", home][..], &ready].concat())
        })
        .sum();
    assert!(drawn > 96, "only {drawn} drawings");
}

#[test]
fn every_drawing_of_notes_can_be_read() {
    let kitchens = files("kitchens");
    let drawn: usize = files("recipes")
        .par_iter()
        .map(|of| {
            let mut all = vec!["notes", of, "--samples", "40"];
            all.extend(kitchens.iter().flat_map(|kitchen| ["--kitchen", kitchen]));
            check_page(&all)
        })
        .sum();
    assert!(drawn > 12, "only {drawn} drawings");
}

#[test]
fn every_drawing_of_routes_surveys_trials_and_sums_can_be_read() {
    let kitchen = format!("{BOOK}/kitchens/keen-cook.toml");
    let drawn: usize = TECHNIQUES
        .par_iter()
        .map(|id| check_page(&["routes", id, "--kitchen", &kitchen, "--samples", "40"]))
        .sum();
    assert!(drawn >= 2 * TECHNIQUES.len(), "only {drawn} drawings");
    assert_eq!(check_page(&["survey", BOOK, "--samples", "40"]), 1);
    assert!(check_page(&["trial", "fit", BOOK, "--samples", "40"]) > 7);
    let sweep = ["calc", "boiling-point", "--altitude", "0..3000 step 500 m"];
    assert_eq!(check_page(&sweep), 1);
}

#[test]
fn twelve_kitchens_and_forty_recipes_fit_a_phone() {
    let words = ["as written", "with a small loss", "with a real loss", "no"];
    let cell = |place: usize| GridCell {
        word: words[place % 4].to_owned(),
        level: Some([1.0, 2.0 / 3.0, 1.0 / 3.0, 0.0][place % 4]),
    };
    let grid = Grid {
        rows_are: "Recipe".to_owned(),
        columns: (1..=12).map(|n| format!("Kitchen of the long name {n}")).collect(),
        rows: (0..40)
            .map(|row| {
                let name = format!("Rhubarb and sorrel held at {row} °C with its own syrup");
                (name, (0..12).map(|column| cell(row + column)).collect())
            })
            .collect(),
    };
    let mut document = Document::new("A large book");
    document.chart(Chart::new("Matrix", "Most can be made somewhere.", Figure::Grid(grid)));
    let page = html::render(&document);
    let drawing = drawings(&page)[0];
    check(drawing, "large book");
    let all = elements(drawing);
    let view: Vec<f64> =
        all[0].get("viewBox").unwrap().split(' ').map(|one| one.parse().unwrap()).collect();
    // On a phone 360 px wide its letters are still 12 px high.
    assert!(FONT * 360.0 / view[2] >= 12.0, "{view:?}");
    assert_eq!(all.iter().filter(|one| one.get("class") == Some("cell")).count(), 480);
    for word in words {
        assert!(
            all.iter().any(|one| one.name == "text" && one.text == word),
            "{word} is in no key"
        );
    }
    assert!(page.contains("<th scope=\"col\">Kitchen of the long name 12</th>"));
}

#[test]
fn ten_curves_differ_in_more_than_their_colour() {
    let series = (0..10_u32)
        .map(|n| {
            let points = (0..=4).map(f64::from).map(|x| (x, Spread::exact(x * f64::from(n))));
            Series { sign: n.to_string(), ..Series::new(format!("method {n}"), points.collect()) }
        })
        .collect();
    let lines =
        Lines { x: Axis::new("time", "h"), y: Axis::new("mass", "g"), series, ..Lines::default() };
    let drawing =
        chart_svg::standalone(&Chart::new("Ten", "Ten methods, apart.", Figure::Lines(lines)));
    let body = drawings(&drawing)[0];
    let all = elements(body);
    // The marker in the key: its outline from the first move on, and whether it is hollow.
    let keys: Vec<String> = all
        .iter()
        .filter(|one| one.name == "path" && one.get("d").unwrap_or_default().ends_with('Z'))
        .filter(|one| one.get("d").unwrap().starts_with("M13 "))
        .map(|one| {
            let shape: String =
                one.get("d").unwrap().chars().filter(|c| c.is_alphabetic()).collect();
            let hollow = one.get("class").unwrap_or_default().contains("hollow");
            format!("{shape} {hollow} {}", one.get("class").unwrap_or_default())
        })
        .collect();
    assert_eq!(keys.len(), 10, "{keys:?}");
    let mut different = keys.clone();
    different.sort();
    different.dedup();
    assert_eq!(different.len(), 10, "{keys:?}");
}

#[test]
fn long_names_of_days_do_not_run_into_each_other() {
    let stretch = Stretch { from: 0.0, to: 60.0, label: "1".to_owned(), active: false };
    let marks = (0..6).map(|n| (f64::from(n) * 12.0, "Wed 12 Mar".to_owned())).collect();
    let figure = Timeline {
        axis: Axis::new("time of day", ""),
        lanes: vec![Lane { name: "the cook ".repeat(12), stretches: vec![stretch] }],
        marks,
        listing: None,
    };
    let chart = Chart::new("The plan", "One cook is needed.", Figure::Timeline(figure));
    check(drawings(&chart_svg::standalone(&chart))[0], "marks");
}
