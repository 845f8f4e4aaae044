//! Recipes of the open vocabulary: in, out, and round.

use std::path::Path;

use serde_json::{Value, json};
use standin::knowledge::Knowledge;
use standin::quantity::{Measures, parse_iso_duration};
use standin::recipe::import::{Imported, import, import_by};
use standin::recipe::{Recipe, Task};

use super::standin;

const RECIPE: &str = "examples/book/recipes/pear-treacle.toml";
const KITCHEN: &str = "examples/book/kitchens/tiny-flat.toml";

fn knowledge() -> Knowledge {
    Knowledge::embedded().unwrap()
}

#[test]
fn a_recipe_that_is_understood_loads() {
    let knowledge = knowledge();
    let document = json!({ "@graph": [{ "@type": ["Recipe"], "name": "Pear syrup",
        "author": [{ "@type": "Person", "name": "A. Cook" }], "recipeYield": ["4 servings", "1 jar"],
        "recipeIngredient": ["1 kg pear juice", "2 tsp citric acid (4 g)"], "totalTime": "PT2H",
        "recipeInstructions": [{ "@type": "HowToSection", "name": "Syrup", "itemListElement": [
            { "@type": "HowToStep", "text": "Boil the pear juice down in the rotary evaporator." },
            { "@type": "HowToStep", "itemListElement": [{ "@type": "HowToDirection",
              "text": "Stir in the acid." }] }] }] }] });
    let done = import(&document.to_string(), "x.json", &knowledge).unwrap();
    let recipe = Recipe::read(&done.text, "x.toml", &knowledge, Measures::Metric);
    let recipe = recipe.unwrap_or_else(|findings| panic!("{findings:?}\n{}", done.text));
    assert_eq!((recipe.title.as_str(), recipe.author.as_str()), ("Pear syrup", "A. Cook"));
    assert_eq!(recipe.serves, Some(4.0));
    let foods: Vec<&str> = recipe.ingredients.iter().map(|one| one.food.as_str()).collect();
    assert_eq!(foods, ["pear-juice", "citric-acid"]);
    assert!((recipe.ingredients[1].mass.grams() - 4.0).abs() < 1e-9);
    assert_eq!(
        (recipe.steps.len(), recipe.steps[0].uses.len(), recipe.steps[1].uses.len()),
        (2, 1, 2)
    );
    assert!(done.remarks.iter().any(|remark| remark.contains("vacuum-concentration")));
    assert!(
        done.text.contains("# review: ") && done.text.contains("# also: 1 jar"),
        "{}",
        done.text
    );
    assert!(recipe.note.contains("Total time: 2 h"), "{}", recipe.note);
}

#[test]
fn what_is_not_understood_is_kept_and_listed() {
    let knowledge = knowledge();
    let document = json!({ "@type": "Recipe", "name": "Stew", "recipeYield": "a big pot",
        "keywords": "warm, slow", "nutrition": { "calories": "300" },
        "recipeIngredient": ["3 sprigs of moonwort", "salt, to taste"],
        "recipeInstructions": "Stew everything." });
    let done = import(&document.to_string(), "x.json", &knowledge).unwrap();
    for kept in [
        "a big pot",
        "warm, slow",
        "300",
        "3 sprigs of moonwort",
        "salt, to taste",
        "Stew everything.",
    ] {
        assert!(done.text.contains(kept), "{kept}: {}", done.text);
    }
    for listed in ["a big pot", "keywords", "moonwort", "no amount"] {
        assert!(done.remarks.iter().any(|remark| remark.contains(listed)), "{listed}");
    }
    let read = Recipe::read(&done.text, "x.toml", &knowledge, Measures::Metric);
    let faults = read.err().unwrap_or_default();
    assert!(faults.iter().all(|finding| finding.line_and_column(&done.text).is_some()));
}

#[test]
fn what_cannot_be_weighed_is_left_out_aloud_and_the_rest_is_a_recipe() {
    let knowledge = knowledge();
    let document = json!({ "@type": "Recipe", "name": "Fool", "recipeYield": "4",
        "recipeIngredient": ["500 g rhubarb", "100 g sugar", "3 sprigs of moonwort",
            "1 pinch of salt", "salt to taste", "2 cloves garlic", "50 g butter"],
        "recipeInstructions": "Stew the rhubarb with the sugar, salt, garlic, moonwort and butter." });
    let done = import(&document.to_string(), "x.json", &knowledge).unwrap();
    let recipe = Recipe::read(&done.text, "x.toml", &knowledge, Measures::Metric);
    let recipe = recipe.unwrap_or_else(|findings| panic!("{findings:?}\n{}", done.text));
    let foods: Vec<&str> = recipe.ingredients.iter().map(|one| one.food.as_str()).collect();
    assert_eq!(foods, ["rhubarb", "caster-sugar", "butter"]);
    for listed in [
        "\"100 g sugar\": `sugar` is taken as",
        "moonwort\": left out: no food goes by",
        "\"1 pinch of salt\": left out: it has no amount",
        "\"2 cloves garlic\": left out: it has no amount",
        "salt to taste\": left out",
    ] {
        assert!(done.remarks.iter().any(|remark| remark.contains(listed)), "{listed}: {done:?}");
    }
    let left_out = done.text.lines().filter(|line| line.starts_with("# [[ingredient]]"));
    assert_eq!(left_out.count(), 4, "{}", done.text);
}

#[test]
fn whose_cups_are_meant_is_said_and_can_be_chosen() {
    let knowledge = knowledge();
    let page = |language: Option<&str>| {
        let mut document = json!({ "@type": "Recipe", "name": "Milk", "recipeYield": "2",
            "recipeIngredient": ["2 cups milk"], "recipeInstructions": "Warm the milk." });
        if let Some(language) = language {
            document["inLanguage"] = json!(language);
        }
        document.to_string()
    };
    let said = |done: &Imported, word: &str| done.remarks.iter().any(|one| one.contains(word));
    let plain = import(&page(None), "x.json", &knowledge).unwrap();
    assert!(plain.text.contains("amount = \"2 cups\"") && said(&plain, "cup 250 mL"), "{plain:?}");
    let american = import(&page(Some("en-US")), "x.json", &knowledge).unwrap();
    // Two cups of 236.588 mL: NIST Handbook 44, appendix C.
    assert!(american.text.contains("amount = \"473 ml\""), "{american:?}");
    assert!(said(&american, "US"), "{american:?}");
    let chosen = import_by(&page(Some("en-US")), "x.json", &knowledge, Some(Measures::Metric));
    assert!(chosen.unwrap().text.contains("amount = \"500 ml\""));
}

/// Words that any recipe may have, each with the food that they mean as a rule.
const COMMON: [(&str, &str); 24] = [
    ("100 g sugar", "caster-sugar"),
    ("5 g sea salt", "salt"),
    ("50 g unsalted butter", "butter"),
    ("200 g flour", "plain-flour"),
    ("200 g plain flour", "plain-flour"),
    ("2 large eggs", "egg"),
    ("3 egg yolks", "egg-yolk"),
    ("2 egg whites", "egg-white"),
    ("100 ml cold water", "water"),
    ("100 g cream", "whipping-cream"),
    ("100 g heavy cream", "whipping-cream"),
    ("100 ml whole milk", "whole-milk"),
    ("1 tbsp oil", "sunflower-oil"),
    ("1 tbsp extra virgin olive oil", "olive-oil"),
    ("10 g vinegar", "wine-vinegar"),
    ("2 red onions", "onion"),
    ("10 g garlic", "garlic"),
    ("1 tbsp lemon juice", "lemon-juice"),
    ("1 l chicken stock", "chicken-stock"),
    ("1 l stock", "vegetable-stock"),
    ("200 g rice", "long-grain-rice"),
    ("100 g chocolate", "dark-chocolate"),
    ("1 carrot", "carrot"),
    ("20 g fresh ginger", "ginger"),
];

#[test]
fn the_words_of_any_kitchen_are_known() {
    let knowledge = knowledge();
    for (line, wanted) in COMMON {
        let document = json!({ "@type": "Recipe", "name": "One", "recipeYield": "2",
            "recipeIngredient": [line], "recipeInstructions": "Weigh it." });
        let done = import(&document.to_string(), "x.json", &knowledge).unwrap();
        let recipe = Recipe::read(&done.text, "x.toml", &knowledge, Measures::Metric);
        let recipe = recipe.unwrap_or_else(|findings| panic!("{line}: {findings:?}"));
        assert_eq!(recipe.ingredients[0].food, wanted, "{line}");
    }
}

#[test]
fn faults_are_shown_with_their_place() {
    let knowledge = knowledge();
    let place = |text: &str| {
        let finding = import(text, "x.json", &knowledge).unwrap_err();
        finding.line_and_column(text)
    };
    assert_eq!(place("{\n  \"@type\": }"), Some((2, 12)));
    assert_eq!(place("{}"), None);
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("x.json");
    std::fs::write(&file, "{\n  x: 1 }").unwrap();
    let run = standin(&["import", file.to_str().unwrap()]);
    let said = String::from_utf8(run.stderr).unwrap();
    assert_eq!(run.status.code(), Some(2));
    assert!(said.contains("x.json:2:"), "{said}");
}

/// The types with their properties, as a package of the npm registry has them; its head says which.
const VOCABULARY: &str = include_str!("schema_org.csv");

/// A property of a type with the types that the vocabulary expects of it.
#[derive(serde::Deserialize)]
struct Property {
    #[serde(rename = "type")]
    of: String,
    property: String,
    expected: String,
    inheriting: String,
}

impl Property {
    fn takes(&self, kind: &str) -> bool {
        self.expected.split(' ').chain(self.inheriting.split(' ')).any(|known| known == kind)
    }
}

fn vocabulary() -> Vec<Property> {
    let mut reader = csv::ReaderBuilder::new();
    let mut reader = reader.comment(Some(b'#')).from_reader(VOCABULARY.as_bytes());
    reader.deserialize().map(Result::unwrap).collect()
}

fn follows_the_vocabulary(thing: &Value, vocabulary: &[Property]) {
    let kind = thing["@type"].as_str().unwrap();
    for (key, value) in thing.as_object().unwrap() {
        if key.starts_with('@') {
            continue;
        }
        let row = vocabulary.iter().find(|one| one.of == kind && one.property == *key);
        let row = row.unwrap_or_else(|| panic!("{kind} has no {key}"));
        for one in value.as_array().map_or(std::slice::from_ref(value), Vec::as_slice) {
            match one {
                Value::String(text) if row.takes("Duration") => {
                    assert!(parse_iso_duration(text).is_some(), "{key}: {text}");
                }
                Value::String(text) => {
                    assert!(row.takes("Text") && !text.trim().is_empty(), "{key}: {text}");
                }
                Value::Number(_) => assert!(row.takes("Integer"), "{key}"),
                Value::Object(inner) => {
                    let inner_kind = inner["@type"].as_str().unwrap();
                    assert!(row.takes(inner_kind), "{key}: {inner_kind}");
                    follows_the_vocabulary(one, vocabulary);
                }
                other => panic!("{key}: {other}"),
            }
        }
    }
}

#[test]
fn every_export_of_the_example_book_follows_the_vocabulary() {
    let vocabulary = vocabulary();
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/book");
    let files = |shelf: &str| -> Vec<String> {
        let entries = std::fs::read_dir(folder.join(shelf)).unwrap();
        entries.map(|entry| entry.unwrap().path().to_str().unwrap().to_owned()).collect()
    };
    let (recipes, kitchens) = (files("recipes"), files("kitchens"));
    assert!(recipes.len() >= 12 && kitchens.len() >= 4);
    for recipe in &recipes {
        for kitchen in &kitchens {
            let run = standin(&["export", recipe, "--kitchen", kitchen, "--samples", "20"]);
            assert!(run.status.code().is_some_and(|code| code < 2), "{recipe} in {kitchen}");
            let document: Value = serde_json::from_slice(&run.stdout).unwrap();
            follows_the_vocabulary(&document, &vocabulary);
            for tool in document["tool"].as_array().unwrap() {
                let name = tool["name"].as_str().unwrap();
                assert!(!name.contains("-hob") && name != "wide-pan", "an id, not a name: {name}");
            }
        }
    }
}

#[test]
fn an_export_follows_the_vocabulary_and_comes_back() {
    let run = standin(&["export", RECIPE, "--kitchen", KITCHEN, "--samples", "50"]);
    assert_eq!(run.status.code(), Some(0), "{}", String::from_utf8_lossy(&run.stderr));
    let text = String::from_utf8(run.stdout).unwrap();
    let document: Value = serde_json::from_str(&text).unwrap();
    assert_eq!(
        (&document["@context"], &document["@type"]),
        (&json!("https://schema.org"), &json!("Recipe"))
    );
    follows_the_vocabulary(&document, &vocabulary());
    assert!(text.contains("CAUTION: "), "{text}");
    let knowledge = knowledge();
    let done = import(&text, "x.json", &knowledge).unwrap();
    let back = Recipe::read(&done.text, "x.toml", &knowledge, Measures::Metric);
    let back = back.unwrap_or_else(|findings| panic!("{findings:?}\n{}", done.text));
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(RECIPE);
    let first = Recipe::load(&path, &knowledge, Measures::Metric).unwrap();
    assert_eq!((&back.title, &back.author), (&first.title, &first.author));
    let foods = |recipe: &Recipe| -> Vec<String> {
        recipe.ingredients.iter().map(|one| one.food.clone()).collect()
    };
    assert_eq!(foods(&back), foods(&first));
    let written = document["recipeInstructions"].as_array().unwrap();
    let works = back.steps.iter().map(|step| match &step.task {
        Task::Plain(work) => work.text.clone(),
        Task::Professional(_) => String::new(),
    });
    let works: Vec<String> = works.collect();
    for step in written {
        let text = step["text"].as_str().unwrap();
        assert!(works.iter().any(|work| work.contains(text)), "{text}");
    }
}

#[test]
fn an_import_writes_only_where_it_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let (page, out) = (folder.path().join("p.html"), folder.path().join("r.toml"));
    let aside = folder.path().join("aside.toml");
    let html = "<script type=\"application/ld+json\">{\"@type\":\"Recipe\",\"name\":\"../../x\",\
                \"recipeIngredient\":[\"100 g pear juice\"],\"recipeInstructions\":\"Warm the pear juice.\"}</script>";
    std::fs::write(&page, html).unwrap();
    let arguments = ["import", page.to_str().unwrap(), "--output", out.to_str().unwrap()];
    assert_eq!(standin(&arguments).status.code(), Some(0));
    let first = std::fs::read_to_string(&out).unwrap();
    assert!(first.contains("title = \"../../x\""));
    // A second time the file is there, and is kept.
    assert_eq!(standin(&arguments).status.code(), Some(2));
    #[cfg(unix)]
    {
        // A link in the place of the output is replaced, and what it points to is left alone.
        std::fs::write(&aside, "keep").unwrap();
        std::fs::remove_file(&out).unwrap();
        std::os::unix::fs::symlink(&aside, &out).unwrap();
        assert_eq!(standin(&[&arguments[..], &["--force"]].concat()).status.code(), Some(0));
        assert_eq!(std::fs::read_to_string(&aside).unwrap(), "keep");
        assert_eq!(std::fs::read_to_string(&out).unwrap(), first);
    }
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 3);
}

/// Parts of ingredient lines, sensible and not; a line is a handful of them.
const PARTS: [&str; 26] = [
    "2",
    "1/2",
    "a",
    "100 g",
    "300 ml",
    "1 cup",
    "2-3 tbsp",
    "-5 g",
    "pinch",
    "cloves",
    "of",
    "sugar",
    "salt",
    "garlic",
    "moonwort",
    "stock",
    "(about 300 g)",
    ", peeled",
    "#",
    "\"",
    "'''",
    "\n[[step]]",
    "\u{1b}[31m",
    "\u{202e}",
    "\u{0}",
    "½",
];

/// Read once for all cases.
static KNOWLEDGE: std::sync::OnceLock<Knowledge> = std::sync::OnceLock::new();

proptest::proptest! {
    #![proptest_config(proptest::prelude::ProptestConfig::with_cases(300))]

    #[test]
    fn any_lines_give_a_file_whose_faults_have_a_place(
        lines in proptest::collection::vec(
            proptest::collection::vec(proptest::sample::select(&PARTS[..]), 1..6),
            1..5,
        ),
    ) {
        let knowledge = KNOWLEDGE.get_or_init(knowledge);
        let lines: Vec<String> = lines.iter().map(|parts| parts.join(" ")).collect();
        let document = json!({ "@type": "Recipe", "name": "Any", "recipeYield": "2",
            "recipeIngredient": lines, "recipeInstructions": "Stir it all." });
        let done = import(&document.to_string(), "x.json", knowledge).unwrap();
        let obeyed = |c: char| (c.is_control() && c != '\n') || c == '\u{202e}';
        proptest::prop_assert!(!done.text.contains(obeyed), "{}", done.text);
        toml::from_str::<toml::Table>(&done.text).unwrap();
        let read = Recipe::read(&done.text, "x.toml", knowledge, Measures::Metric);
        for finding in read.err().unwrap_or_default() {
            let place = finding.line_and_column(&done.text);
            proptest::prop_assert!(place.is_some(), "{finding:?}\n{}", done.text);
        }
    }
}
