//! Adaptation notes: the whole manuscript through the library and through the binary.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first fault")]

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use standin::advisor::timeline::{Timeline, timeline};
use standin::advisor::{Adaptation, Bench, Line, Sampler, adapt};
use standin::book::style::{DecimalMark, RangeStyle, Spelling, TemperatureScale, UnitOrder};
use standin::book::{Book, HouseStyle};
use standin::kitchen::Kitchen;
use standin::knowledge::Knowledge;
use standin::notes::{Adapted, House, Material, Notes, notes};
use standin::quantity::Measures;
use standin::recipe::Recipe;
use standin::report::notes::{Writing, document};
use standin::report::{Document, docx, html, json, markdown, notes_json};

/// Few samples: what is said matters here, not the third digit.
const SAMPLES: usize = 60;

fn example(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/book").join(name)
}

/// A recipe of the example book in some of its kitchens.
struct Page {
    knowledge: Knowledge,
    recipe: Recipe,
    kitchens: Vec<Kitchen>,
    adaptations: Vec<(Adaptation, Timeline)>,
}

impl Page {
    fn read(recipe: &str, kitchens: &[&str]) -> Self {
        let knowledge = Knowledge::embedded().unwrap();
        let path = example(&format!("recipes/{recipe}.toml"));
        let recipe = Recipe::load(&path, &knowledge, Measures::Metric).unwrap();
        Self::of(knowledge, recipe, kitchens)
    }

    fn of(knowledge: Knowledge, recipe: Recipe, kitchens: &[&str]) -> Self {
        let load = |name: &&str| {
            Kitchen::load(&example(&format!("kitchens/{name}.toml")), &knowledge).unwrap()
        };
        let kitchens: Vec<Kitchen> = kitchens.iter().map(load).collect();
        let sampler = Sampler::new(SAMPLES, 1);
        let one = |kitchen: &Kitchen| {
            let bench = Bench { knowledge: &knowledge, kitchen, sampler: &sampler };
            let done = adapt(&recipe, &bench).unwrap();
            let plan = timeline(&done, &recipe, &bench, None);
            (done, plan)
        };
        let adaptations = kitchens.iter().map(one).collect();
        Self { knowledge, recipe, kitchens, adaptations }
    }

    fn adapted(&self) -> Vec<Adapted<'_>> {
        let both = self.kitchens.iter().zip(&self.adaptations);
        let each = both.map(|(kitchen, (adaptation, timeline))| Adapted {
            kitchen,
            adaptation,
            timeline,
            corrected: None,
        });
        each.collect()
    }

    fn with<T>(&self, style: &HouseStyle, then: impl FnOnce(&Notes<'_>, &House) -> T) -> T {
        let adapted = self.adapted();
        let material = Material {
            recipe: &self.recipe,
            adapted: &adapted,
            trials: None,
            knowledge: &self.knowledge,
        };
        then(&notes(material), &House::new(style))
    }

    fn document(&self, style: &HouseStyle) -> Document {
        self.with(style, |notes, house| document(std::slice::from_ref(notes), house, true))
    }

    /// The notes without charts, as manuscripts have them.
    fn manuscript(&self, style: &HouseStyle) -> String {
        self.with(style, |notes, house| {
            markdown::render(&document(std::slice::from_ref(notes), house, false))
        })
    }

    fn markdown(&self, style: &HouseStyle) -> String {
        markdown::render(&self.document(style))
    }
}

/// The text between two headings of level 2.
fn section<'a>(text: &'a str, heading: &str) -> &'a str {
    let from =
        text.find(&format!("## {heading}\n")).unwrap_or_else(|| panic!("no {heading}: {text}"));
    let rest = &text[from + 3..];
    rest.split("\n## ").next().unwrap()
}

const KITCHENS: [&str; 4] = ["tiny-flat", "family-kitchen", "keen-cook", "high-rural"];

#[test]
fn ingredients_stand_in_order_of_use_with_weights_first() {
    let page = Page::read("buttermilk-snow", &["family-kitchen"]);
    let text = page.markdown(&HouseStyle::default());
    let list = section(&text, "Ingredients, in order of use");
    let at = |word: &str| list.find(word).unwrap_or_else(|| panic!("no {word}: {list}"));
    assert!(at("buttermilk") < at("sugar") && at("sugar") < at("rye bread"));
    assert!(list.contains("**100 g (about ½ cup)** white sugar"), "{list}");
    assert!(list.contains("A cup is 250 mL, a tablespoon 15 mL"), "{list}");
}

#[test]
fn several_kitchens_name_the_differences_only() {
    let page = Page::read("pear-treacle", &["tiny-flat", "high-rural"]);
    let text = page.markdown(&HouseStyle::default());
    let method = section(&text, "Method");
    assert_eq!(method.matches("strongest burner").count(), 1, "{method}");
    assert!(method.contains("In \"Rural, high\":"), "{method}");
    assert!(method.contains("−24 °C (not −10 °C)"), "{method}");
}

#[test]
fn a_step_without_a_home_route_is_a_plain_no_with_its_number() {
    let page = Page::read("clear-tomato-water", &["tiny-flat"]);
    let text = page.markdown(&HouseStyle::default());
    let method = section(&text, "Method");
    assert!(method.contains("At home: no"), "{method}");
    assert!(method.contains("at most 0.004 %"), "{method}");
    assert!(method.contains("Instead: clear pressed juice, bought ready-made"), "{method}");
    assert!(section(&text, "Queries to the author").contains("is not reached at home"));
}

#[test]
fn losses_are_told_in_words_with_ranges_and_stated_ones_as_stated() {
    let page = Page::read("pear-treacle", &["tiny-flat"]);
    let text = page.markdown(&HouseStyle::default());
    let expect = section(&text, "What you lose, and what to expect");
    assert!(expect.contains("cooked flavour, noticed by anybody: "), "{expect}");
    assert!(expect.contains("Stated, not computed: "), "{expect}");
    assert!(expect.contains("at home, 0 min in the laboratory"), "{expect}");
}

#[test]
fn sources_are_cited_in_full() {
    let page = Page::read("clear-tomato-water", &["keen-cook"]);
    let text = page.markdown(&HouseStyle::default());
    let sources = section(&text, "Sources");
    assert!(
        sources.contains("US Food and Drug Administration (2013): Food Code 2013."),
        "{sources}"
    );
    assert!(sources.contains("Recalled, to be checked against the publication"), "{sources}");
}

/// Phrases that a reader could take as a promise that food is safe. The names of cautions and of the
/// bodies that set rules may say "safety".
const PROMISES: [&str; 22] = [
    "safe",
    "safely",
    "safer",
    "unsafe",
    "harmless",
    "guarantee",
    "guarantees",
    "guaranteed",
    "risk-free",
    "no risk",
    "without risk",
    "free from",
    "sterile",
    "never spoils",
    "cannot spoil",
    "keeps forever",
    "keeps for ever",
    "will not hurt",
    "cannot hurt",
    "nothing can happen",
    "germ-free",
    "no danger",
];

/// The recipes of the example book, by name.
fn recipe_names() -> Vec<String> {
    let recipes = std::fs::read_dir(example("recipes")).unwrap();
    let mut names: Vec<String> = recipes
        .map(|entry| entry.unwrap().path().file_stem().unwrap().to_string_lossy().into_owned())
        .collect();
    names.sort();
    assert!(names.len() >= 12);
    names
}

#[test]
fn nothing_in_any_notes_promises_safety() {
    for name in recipe_names() {
        let page = Page::read(&name, &KITCHENS);
        let text = page.markdown(&HouseStyle::default()).to_lowercase();
        // Titles of publications are not ours to change.
        let own = text.split("\n## sources\n").next().unwrap();
        for promise in PROMISES {
            for (at, _) in own.match_indices(promise) {
                let is_letter = |sign: Option<char>| sign.is_some_and(char::is_alphanumeric);
                let before = own[..at].chars().next_back();
                let after = own[at + promise.len()..].chars().next();
                assert!(
                    is_letter(before) || is_letter(after),
                    "{name} says \"{promise}\": {}",
                    own[..at].lines().last().unwrap_or_default()
                );
            }
        }
    }
}

#[test]
fn the_headings_of_the_notes_stand_in_their_order() {
    let page = Page::read("rhubarb-at-61", &["keen-cook"]);
    let text = page.markdown(&HouseStyle::default());
    let headings: Vec<&str> = text.lines().filter(|line| line.starts_with("## ")).collect();
    assert_eq!(
        headings,
        [
            "## Cautions",
            "## Ingredients, in order of use",
            "## Equipment",
            "## Method",
            "## What you lose, and what to expect",
            "## Ahead of time, and storage",
            "## Testing record",
            "## Queries to the author",
            "## Sources",
        ]
    );
}

#[test]
fn json_has_stable_keys_and_every_section() {
    let page = Page::read("pear-treacle", &["tiny-flat"]);
    let text = page.with(&HouseStyle::default(), |notes, house| {
        let writing = Writing { house, charts: false, level: 2 };
        json::pretty(&notes_json::json(notes, &writing)).unwrap()
    });
    let value: serde_json::Value = serde_json::from_str(&text).unwrap();
    let keys: Vec<&String> = value.as_object().unwrap().keys().collect();
    assert_eq!(
        keys,
        [
            "recipe",
            "author",
            "kitchens",
            "ingredients",
            "equipment",
            "steps",
            "cautions",
            "record",
            "queries",
            "sources",
            "sections_markdown"
        ]
    );
    assert_eq!(value["steps"][0]["routes"][0]["kitchens"][0], "Tiny flat");
    assert_eq!(value["sections_markdown"].as_object().unwrap().len(), 10);
    assert_eq!(value["ingredients"][0]["written"], "3 kg");
}

#[test]
fn what_users_type_is_escaped() {
    let knowledge = Knowledge::embedded().unwrap();
    let nasty = r#"<script>alert(1)</script> & "both" 'kinds' | *stars* "#;
    let path = example("recipes/pear-treacle.toml");
    let mut recipe = Recipe::load(&path, &knowledge, Measures::Metric).unwrap();
    recipe.title = format!("{nasty}\u{1}\u{b}title");
    recipe.note = nasty.to_owned();
    recipe.ingredients[0].note = nasty.to_owned();
    let page = Page::of(knowledge, recipe, &["tiny-flat"]);
    let document = page.document(&HouseStyle::default());
    let page = html::render(&document);
    assert!(!page.contains("<script>alert"), "{page}");
    assert!(page.contains("&lt;script&gt;alert(1)&lt;/script&gt; &amp; &quot;both&quot;"));
    let text = markdown::render(&document);
    assert!(text.contains(r"\<script\>alert(1)\</script\> \&"), "{text}");
}

#[test]
fn a_manuscript_has_named_styles_and_well_formed_parts() {
    let knowledge = Knowledge::embedded().unwrap();
    let path = example("recipes/clear-tomato-water.toml");
    let mut recipe = Recipe::load(&path, &knowledge, Measures::Metric).unwrap();
    recipe.title = "<script>alert(1)</script> & \"both\" \u{1}\u{b}".to_owned();
    let page = Page::of(knowledge, recipe, &KITCHENS);
    let document = page.with(&HouseStyle::default(), |notes, house| {
        document(std::slice::from_ref(notes), house, false)
    });
    let parts = docx::parts(&document, &docx::Page::BRITISH);
    let body = &parts.iter().find(|(name, _)| *name == "word/document.xml").unwrap().1;
    for style in
        ["Title", "Heading1", "BodyText", "ListNumber", "Ingredient", "Query", "Caution", "Fact"]
    {
        assert!(body.contains(&format!("<w:pStyle w:val=\"{style}\"/>")), "{style}");
    }
    assert!(body.contains("&lt;script&gt;alert(1)&lt;/script&gt; &amp; &quot;both&quot;"));
    let forbidden = |sign: char| sign.is_control() && !matches!(sign, '\n' | '\t' | '\r');
    assert!(parts.iter().all(|(_, text)| !text.contains(forbidden)));
}

#[test]
fn only_notes_write_docx_and_the_name_must_agree() {
    let kitchen = ["--kitchen", "examples/tiny-flat.toml"];
    let adapt = [&["adapt", "examples/pear-treacle.toml", "--format", "docx"], &kitchen[..]];
    let run = standin(&adapt.concat());
    assert_eq!(run.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&run.stderr).contains("only `standin notes` writes docx"));
    let notes = [&["notes", "examples/pear-treacle.toml", "--output", "x.docx"], &kitchen[..]];
    let run = standin(&notes.concat());
    assert_eq!(run.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&run.stderr).contains("add --format docx"));
}

/// A book with one recipe, one kitchen and the given templates.
fn book_with(templates: &[(&str, &str)], table: &str) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name);
    for shelf in ["recipes", "kitchens", "templates"] {
        std::fs::create_dir(at(shelf)).unwrap();
    }
    for name in ["recipes/pear-treacle.toml", "kitchens/tiny-flat.toml"] {
        std::fs::copy(example(name), at(name)).unwrap();
    }
    std::fs::write(at("book.toml"), format!("title = \"x\"\n{table}")).unwrap();
    for (name, text) in templates {
        std::fs::write(at("templates").join(name), text).unwrap();
    }
    folder
}

fn notes_of(book: &Path, format: &str) -> Output {
    let book = book.to_str().unwrap();
    let place = ["--book", book, "--kitchen", "tiny-flat", "--format", format];
    standin(&[&["notes", "pear-treacle"], &place[..]].concat())
}

const TEMPLATE: &str = "[templates]\nnotes = \"templates/notes.md\"\n";

#[test]
fn a_book_orders_and_words_the_sections_by_its_template() {
    let files = [
        ("notes.md", "{% for r in recipes %}{% include 'one.md' %}{% endfor %}"),
        (
            "one.md",
            "# How {{ r.title }} is made\n\n{{ r.method }}\nAsk: {{ r.queries | length }}\n",
        ),
    ];
    let book = book_with(&files, TEMPLATE);
    let run = notes_of(book.path(), "markdown");
    let text = String::from_utf8_lossy(&run.stdout);
    assert_eq!(run.status.code(), Some(0), "{}", String::from_utf8_lossy(&run.stderr));
    assert!(text.starts_with("# How Pear treacle is made\n\n#### 1. treacle\n"), "{text}");
    assert!(text.contains("\nAsk: ") && !text.contains("Sources"), "{text}");
}

#[test]
fn hostile_templates_end_in_a_finding() {
    for (text, says) in [
        ("{% include '../book.toml' %}", "not in the templates folder"),
        ("{% include '/etc/passwd' %}", "not in the templates folder"),
        ("{{ 'a' * 1000000000 }}", "cannot be used in a template"),
        ("{% for a in recipes %}{% include 'notes.md' %}{% endfor %}", "notes.md"),
        ("{{ nothing }}", "line 1"),
    ] {
        let book = book_with(&[("notes.md", text)], TEMPLATE);
        let run = notes_of(book.path(), "markdown");
        let errors = String::from_utf8_lossy(&run.stderr);
        assert_eq!(run.status.code(), Some(2), "{text}: {errors}");
        assert!(errors.contains(says), "{text}: {errors}");
        assert!(run.stdout.is_empty() && !errors.contains("panicked"), "{errors}");
    }
}

#[test]
fn templates_lie_in_their_folder_and_have_a_known_name() {
    for (table, says) in [
        ("[templates]\nnotes = \"../x.md\"\n", "leads out of the book"),
        ("[templates]\nnotes = \"recipes/pear-treacle.toml\"\n", "leads out of the book"),
        ("[templates]\nnote = \"templates/notes.md\"\n", "did you mean `notes`"),
    ] {
        let book = book_with(&[("notes.md", "")], table);
        let run = notes_of(book.path(), "markdown");
        let errors = String::from_utf8_lossy(&run.stderr);
        assert_eq!(run.status.code(), Some(2), "{table}: {errors}");
        assert!(errors.contains(says), "{table}: {errors}");
    }
}

#[test]
#[cfg(unix)]
fn links_that_leave_the_book_are_refused() {
    let book = book_with(&[("notes.md", "{% include 'link.md' %}")], TEMPLATE);
    let link = book.path().join("templates/link.md");
    std::os::unix::fs::symlink("/etc/passwd", link).unwrap();
    let run = notes_of(book.path(), "markdown");
    let errors = String::from_utf8_lossy(&run.stderr);
    assert_eq!(run.status.code(), Some(2), "{errors}");
    assert!(errors.contains("leads out of the book") && !errors.contains("root:"), "{errors}");
}

/// A book for American readers, whose ranges are words and whose temperatures are Fahrenheit only.
fn american() -> HouseStyle {
    HouseStyle {
        units: UnitOrder::VolumeFirst,
        spelling: Spelling::Us,
        ranges: RangeStyle::To,
        temperature: TemperatureScale::Fahrenheit,
        ..HouseStyle::default()
    }
}

/// The words that British books write otherwise, as the tool knows them.
fn british_words() -> Vec<String> {
    let table: toml::Table = include_str!("../src/notes/house/words.toml").parse().unwrap();
    table.values().flat_map(|part| part.as_table().unwrap().keys().cloned()).collect()
}

/// What the house style is about: all but the title, which its author wrote, and the sources.
fn in_house_style(text: &str) -> &str {
    let text = text.split_once('\n').unwrap().1;
    text.split("\n## Sources\n").next().unwrap()
}

#[test]
fn an_american_book_has_no_british_word_no_celsius_and_no_dash_in_a_range() {
    let is_letter = |sign: Option<char>| sign.is_some_and(char::is_alphanumeric);
    for name in recipe_names() {
        let page = Page::read(&name, &KITCHENS);
        let text = page.manuscript(&american());
        let told = in_house_style(&text);
        assert!(!told.contains("°C"), "{name}: {}", line_with(told, "°C"));
        let lower = told.to_lowercase();
        for word in british_words() {
            for (at, _) in lower.match_indices(&word) {
                let whole = !is_letter(lower[..at].chars().next_back())
                    && !is_letter(lower[at + word.len()..].chars().next());
                assert!(!whole, "{name} says \"{word}\": {}", line_with(&lower[at..], &word));
            }
        }
        let signs: Vec<char> = told.chars().collect();
        let dashed = signs
            .windows(3)
            .find(|three| three[1] == '–' && three[0].is_numeric() && three[2].is_numeric());
        assert_eq!(dashed, None, "{name}");
    }
}

fn line_with<'a>(text: &'a str, part: &str) -> &'a str {
    text.lines().find(|line| line.contains(part)).unwrap_or_default()
}

#[test]
fn a_book_with_decimal_commas_has_no_decimal_point() {
    let style = HouseStyle { decimal_mark: DecimalMark::Comma, ..HouseStyle::default() };
    for name in recipe_names() {
        let text = Page::read(&name, &["tiny-flat", "keen-cook"]).manuscript(&style);
        let signs: Vec<char> = in_house_style(&text).chars().collect();
        let point = signs
            .windows(3)
            .find(|three| three[1] == '.' && three[0].is_numeric() && three[2].is_numeric());
        assert_eq!(point, None, "{name}");
    }
}

#[test]
fn a_page_says_in_which_language_it_is() {
    let book = book_with(&[], "[style]\nspelling = \"us\"\n");
    let page = String::from_utf8(notes_of(book.path(), "html").stdout).unwrap();
    assert!(page.contains("<html lang=\"en-US\">"), "{}", &page[..200]);
    let book = book_with(&[], "");
    let page = String::from_utf8(notes_of(book.path(), "html").stdout).unwrap();
    assert!(page.contains("<html lang=\"en-GB\">"), "{}", &page[..200]);
}

#[test]
fn a_bibliography_has_no_remarks_to_ourselves() {
    for name in recipe_names() {
        let text = Page::read(&name, &KITCHENS).markdown(&HouseStyle::default());
        let sources = section(&text, "Sources").to_lowercase();
        for remark in ["not shown", "excerpt", "abstract:", "led by", "as described", "used:"] {
            assert!(!sources.contains(remark), "{name}: {}", line_with(&sources, remark));
        }
    }
}

#[test]
fn the_plan_says_when_to_begin_and_what_stands_overnight() {
    let page = Page::read("pear-treacle", &["tiny-flat"]);
    let text = page.markdown(&HouseStyle::default());
    let ahead = section(&text, "Ahead of time, and storage");
    assert!(ahead.contains("Begin ") && ahead.contains("before it is wanted"), "{ahead}");
    assert!(ahead.contains("What stands by itself: the treacle for "), "{ahead}");
    assert!(ahead.contains("After the last night "), "{ahead}");
    let drawn = html::render(&page.document(&HouseStyle::default()));
    assert!(drawn.contains("The plan") && drawn.contains("From start (h:min)"), "no plan drawn");
}

#[test]
fn what_is_bought_ready_made_takes_the_place_of_its_ingredients() {
    let page = Page::read("plum-and-beetroot-shards", &["tiny-flat"]);
    let text = page.markdown(&HouseStyle::default());
    let list = section(&text, "Ingredients, in order of use");
    assert!(list.contains("ready-made powder, for the dried sheet"), "{list}");
    assert!(!list.contains("plum purée") && !list.contains("beetroot purée"), "{list}");
    assert!(section(&text, "Method").contains("Left out: a later product is bought"), "{text}");
    let (done, plan) = &page.adaptations[0];
    assert!(done.ingredients.iter().all(|one| !one.is_needed()));
    assert!(plan.tasks.iter().all(|task| task.product != "shard base"));
    let ledger = done.ledger.as_ref().unwrap();
    let mass = |line| ledger.line(line).unwrap().typical();
    assert!(mass(Line::Bought) < 1e-12 && mass(Line::Replaced) < 1e-12, "{ledger:?}");
    assert!(mass(Line::ReadyMade) > 0.1 && ledger.gap < 1e-9, "{ledger:?}");
}

#[test]
fn storage_is_never_laxer_than_the_cautions() {
    let page = Page::read("rhubarb-at-61", &["keen-cook"]);
    let text = page.markdown(&HouseStyle::default());
    assert!(section(&text, "Cautions").contains("Keep packs at 3 °C or colder"), "{text}");
    let storage = section(&text, "Ahead of time, and storage");
    assert!(storage.contains("at 3 °C or colder") && !storage.contains("5 °C"), "{storage}");
    let knowledge = Knowledge::embedded().unwrap();
    for hazard in ["botulism-pack", "oil-infusion", "cold-infusion"] {
        assert!(knowledge.hazards.contains_key(hazard), "{hazard}");
    }
}

#[test]
fn allergens_of_supplies_are_declared() {
    let page = Page::read("hazelnut-cream", &["keen-cook"]);
    let text = page.markdown(&HouseStyle::default());
    let cautions = section(&text, "Cautions");
    assert!(cautions.contains("Contains eggs, mustard, soya"), "{cautions}");
    assert!(cautions.contains("Raw eggs can carry Salmonella"), "{cautions}");
    assert!(section(&text, "Ingredients, in order of use").contains("egg yolk, for the hazelnut"));
    assert!(!section(&text, "Equipment").contains("egg yolk"));
}

#[test]
fn a_kitchen_that_avoids_eggs_gets_the_other_emulsifier_or_a_word_of_it() {
    let knowledge = Knowledge::embedded().unwrap();
    let path = example("kitchens/keen-cook.toml");
    let avoiding = |also: &str| {
        let text = std::fs::read_to_string(&path).unwrap();
        let text = text.replace("avoid = [\"alcohol\"]", &format!("avoid = [{also}]"));
        Kitchen::read(&text, "k.toml", &knowledge).unwrap()
    };
    let egg = &knowledge.supplies["egg-yolk"];
    assert_eq!(avoiding("\"egg\"").avoids_supply(egg), Some("eggs"));
    assert_eq!(avoiding("\"celery\"").avoids_supply(egg), None);
    let lecithin = &knowledge.supplies["lecithin"];
    assert_eq!(avoiding("\"soya\"").avoids_supply(lecithin), Some("soya"));
}

fn standin(arguments: &[&str]) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_standin"));
    command.args(arguments).args(["--samples", "60"]).env("TERM", "dumb");
    command.current_dir(env!("CARGO_MANIFEST_DIR")).output().unwrap()
}

#[test]
fn the_command_finds_the_book_of_a_recipe_and_its_trials() {
    let run = standin(&[
        "notes",
        "examples/pear-treacle.toml",
        "--kitchen",
        "examples/tiny-flat.toml",
        "--format",
        "markdown",
    ]);
    assert_eq!(run.status.code(), Some(0), "{}", String::from_utf8_lossy(&run.stderr));
    let text = String::from_utf8(run.stdout).unwrap();
    let record = section(&text, "Testing record");
    assert!(record.contains("pass with note"), "{record}");
    assert!(record.contains("T-01 46 min"), "{record}");
    assert!(section(&text, "Queries to the author").contains("Stop at 105 g"));
}

#[test]
fn ids_do_with_a_book_and_a_recipe_that_no_kitchen_reaches_exits_with_one() {
    let run = standin(&[
        "notes",
        "clear-tomato-water",
        "--book",
        "examples/book",
        "--kitchen",
        "tiny-flat",
        "--with-trials",
    ]);
    assert_eq!(run.status.code(), Some(1), "{}", String::from_utf8_lossy(&run.stderr));
    let text = String::from_utf8(run.stdout).unwrap();
    assert!(text.contains("Corrected by trials: \"Tiny flat\""), "{text}");
    assert!(text.contains("corrected by"), "{text}");
}

#[test]
fn the_output_file_is_written_whole_and_not_over_another() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("notes.md");
    let arguments = [
        "notes",
        "examples/pear-treacle.toml",
        "--kitchen",
        "examples/tiny-flat.toml",
        "--format",
        "markdown",
        "--output",
        path.to_str().unwrap(),
    ];
    let run = standin(&arguments);
    assert_eq!(run.status.code(), Some(0));
    assert!(run.stdout.is_empty());
    let written = std::fs::read_to_string(&path).unwrap();
    assert!(written.starts_with("# Pear treacle\n"));
    let again = standin(&arguments);
    assert_eq!(again.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&again.stderr).contains("add --force"));
    assert_eq!(standin(&[&arguments[..], &["--force"]].concat()).status.code(), Some(0));
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1);
}

#[test]
fn trials_without_a_book_are_refused_with_a_way_out() {
    let folder = tempfile::tempdir().unwrap();
    let recipe = folder.path().join("mine.toml");
    std::fs::copy(example("recipes/pear-treacle.toml"), &recipe).unwrap();
    let run = standin(&[
        "notes",
        recipe.to_str().unwrap(),
        "--kitchen",
        "examples/tiny-flat.toml",
        "--with-trials",
    ]);
    assert_eq!(run.status.code(), Some(2));
    let errors = String::from_utf8_lossy(&run.stderr);
    assert!(errors.contains("mine lies in no book") && errors.contains("--book"), "{errors}");
}

#[test]
fn the_example_book_opens_with_its_style() {
    let book = Book::open(&example("")).unwrap();
    assert_eq!(book.style, HouseStyle::default());
}
