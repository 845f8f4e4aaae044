//! The knowledge base as shipped, and what the lint says of broken files.

use std::path::Path;

use std::sync::atomic::{AtomicU32, Ordering};

use standin::advisor::FACTS;
use standin::book::Book;
use standin::finding::{Code, Finding};
use standin::kitchen::Kitchen;
use standin::knowledge::load::{File, built_in, folder};
use standin::knowledge::{Knowledge, Layer};
use standin::process::attribute::ATTRIBUTES;
use standin::quantity::Measures;
use standin::recipe::Recipe;
use standin::trial::Store;

/// Findings for one small file laid over the shipped knowledge.
fn findings_of(text: &str) -> Vec<Finding> {
    let file = File { path: "team.toml".to_owned(), text: text.to_owned() };
    let team = Layer { name: "team".to_owned(), files: vec![file] };
    Knowledge::check(&[built_in(), team])
}

fn has(findings: &[Finding], code: Code, part: &str) -> bool {
    let found = findings.iter().any(|f| f.code == code && f.message.contains(part));
    assert!(found, "no {} finding about `{part}` in {findings:#?}", code.text());
    found
}

/// Findings of the shipped knowledge, those of a code or all others.
fn shipped(of_code: Option<Code>) -> String {
    let layer = built_in();
    let findings = Knowledge::check(std::slice::from_ref(&layer));
    let text = |path: &str| layer.files.iter().find(|f| f.path == path).map_or("", |f| &f.text);
    let wanted = findings.iter().filter(|f| match of_code {
        Some(code) => f.code == code,
        None => f.code != Code::UnusedEntry,
    });
    wanted.map(|f| f.render(text(&f.file))).collect::<Vec<_>>().join("\n")
}

#[test]
fn the_shipped_knowledge_has_no_finding() {
    let shown = shipped(None);
    assert!(shown.is_empty(), "{shown}");
}

#[test]
fn every_shipped_appliance_and_supply_is_used() {
    let shown = shipped(Some(Code::UnusedEntry));
    assert!(shown.is_empty(), "{shown}");
}

#[test]
fn a_misspelt_key_names_the_nearest() {
    let findings = findings_of("[[supply]]\nid = \"agar\"\nname = \"agar\"\nsumary = \"x\"\n");
    assert!(has(&findings, Code::UnknownKey, "sumary"));
    assert!(findings[0].help.as_deref().is_some_and(|h| h.contains("`summary`")));
}

#[test]
fn a_value_out_of_order_is_refused() {
    let findings = findings_of(
        "[[supply]]\nid = \"x-supply\"\nname = \"x\"\nsummary = \"x\"\n[supply.values]\n\
         price = { low = 3, typical = 1, high = 2, unit = \"money\", source = \"common practice\" }\n",
    );
    assert!(has(&findings, Code::EstimateOrder, "does not lie between"));
}

#[test]
fn a_value_without_a_source_is_refused() {
    let findings = findings_of(
        "[[supply]]\nid = \"x-supply\"\nname = \"x\"\nsummary = \"x\"\n[supply.values]\n\
         price = { typical = 1, unit = \"money\" }\n",
    );
    assert!(has(&findings, Code::MissingSource, "without a source"));
}

#[test]
fn a_unit_of_another_dimension_is_refused() {
    let findings = findings_of(
        "[[supply]]\nid = \"x-supply\"\nname = \"x\"\nsummary = \"x\"\n[supply.values]\n\
         price = { typical = 1, unit = \"kg\", source = \"common practice\" }\n",
    );
    assert!(has(&findings, Code::Amount, "`kg` is not a unit of cost"));
}

#[test]
fn a_dangling_id_is_refused() {
    let findings = findings_of(
        "[[goal]]\nid = \"g\"\nname = \"g\"\nsummary = \"g\"\nattribute = \"no-such-thing\"\n\
         reach = \"at least\"\ntarget = { typical = 1, unit = \"1\", source = \"common practice\" }\n",
    );
    assert!(has(&findings, Code::UnknownName, "no attribute goes by `no-such-thing`"));
}

#[test]
fn a_composition_that_does_not_close_is_refused() {
    let findings = findings_of(
        "[[food]]\nid = \"f\"\nname = \"f\"\ngroup = \"juice\"\nsource = \"common practice\"\n\
         composition = { water = 50.0, carbohydrate = 20.0 }\n",
    );
    assert!(has(&findings, Code::Composition, "adds to 70.0 g"));
}

#[test]
fn two_entries_of_one_id_are_refused() {
    let entry = "[[supply]]\nid = \"twice\"\nname = \"x\"\nsummary = \"x\"\n";
    assert!(has(&findings_of(&entry.repeat(2)), Code::DuplicateName, "twice"));
}

#[test]
fn the_shipped_foods_are_many_and_their_shares_add_to_one() {
    let knowledge = Knowledge::embedded().expect("the shipped knowledge links");
    assert!(knowledge.foods.len() >= 250, "only {} foods", knowledge.foods.len());
    for food in knowledge.foods.values() {
        let s = &food.shares;
        let macros = s.water + s.protein + s.fat + s.sugars + s.starch + s.fibre;
        let sum = macros + s.acid + s.salt + s.ethanol + s.other;
        assert!((sum - 1.0).abs() < 1e-9, "the shares of {} add to {sum}", food.id);
    }
}

/// Reads a kitchen against the shipped knowledge and returns its findings.
fn kitchen_findings(text: &str) -> Vec<Finding> {
    let knowledge = Knowledge::embedded().expect("the shipped knowledge links");
    Kitchen::read(text, "kitchen.toml", &knowledge).err().unwrap_or_default()
}

/// Reads a recipe against the shipped knowledge and returns its findings.
fn recipe_findings(text: &str) -> Vec<Finding> {
    let knowledge = Knowledge::embedded().expect("the shipped knowledge links");
    Recipe::read(text, "recipe.toml", &knowledge, Measures::Metric).err().unwrap_or_default()
}

/// Findings about a folder that is not there.
fn folder_findings(path: &str) -> Vec<Finding> {
    folder(Path::new(path)).err().map(|finding| vec![*finding]).unwrap_or_default()
}

type Check = fn(&str) -> Vec<Finding>;

/// One broken text for every code: what must be said of it.
const BROKEN: &[(Code, Check, &str)] = &[
    (Code::UnreadableFile, folder_findings, "no/such/folder"),
    (Code::Syntax, findings_of, "[[supply]\nid = 3"),
    (
        Code::UnknownKey,
        findings_of,
        "[[supply]]\nid = \"x\"\nname = \"x\"\nsummary = \"x\"\ncolour = \"red\"\n",
    ),
    (Code::MissingKey, findings_of, "[[supply]]\nid = \"x\"\nname = \"x\"\n"),
    (
        Code::Amount,
        findings_of,
        "[[supply]]\nid = \"x\"\nname = \"x\"\nsummary = \"x\"\n[supply.values]\n\
         price = { typical = 1, unit = \"kg\", source = \"common practice\" }\n",
    ),
    (Code::ImpossibleValue, kitchen_findings, "name = \"x\"\npressure = \"3 bar\"\n"),
    (
        Code::UnknownName,
        findings_of,
        "[[supply]]\nid = \"x\"\nname = \"x\"\nsummary = \"x\"\nhazards = [\"no-such-hazard\"]\n",
    ),
    (
        Code::DuplicateName,
        findings_of,
        "[[supply]]\nid = \"x\"\nname = \"muslin\"\nsummary = \"x\"\n",
    ),
    (
        Code::EstimateOrder,
        findings_of,
        "[[supply]]\nid = \"x\"\nname = \"x\"\nsummary = \"x\"\n[supply.values]\n\
         price = { low = 3, typical = 1, high = 4, unit = \"money\", source = \"common practice\" }\n",
    ),
    (
        Code::MissingSource,
        findings_of,
        "[[supply]]\nid = \"x\"\nname = \"x\"\nsummary = \"x\"\n[supply.values]\n\
         price = { typical = 1, unit = \"money\", source = \"estimate:\" }\n",
    ),
    (
        Code::UnusedSource,
        findings_of,
        "[[source]]\nid = \"nobody-1900\"\nauthor = \"x\"\ntitle = \"x\"\nyear = 1900\nkind = \"book\"\n",
    ),
    (
        Code::Composition,
        findings_of,
        "[[food]]\nid = \"f\"\nname = \"f\"\ngroup = \"juice\"\nsource = \"common practice\"\n\
         composition = { water = 90.0, carbohydrate = 10.0, sugars = 20.0 }\n",
    ),
    (
        Code::UnmeasuredGoal,
        findings_of,
        "[[goal]]\nid = \"g\"\nname = \"g\"\nsummary = \"g\"\nattribute = \"hottest\"\n\
         reach = \"at most\"\ntarget = { typical = 1, unit = \"kg\", source = \"common practice\" }\n",
    ),
    (
        Code::UnservedRoute,
        findings_of,
        "[[route]]\nid = \"r\"\nname = \"r\"\nsummary = \"r\"\nserves = [\"vacuum-concentration\"]\n\
         hands_on = { typical = 1, unit = \"min\", source = \"common practice\" }\n\
         [[route.move]]\nprocess = \"evaporate\"\nuses = [\"vacuum-evaporator\"]\ndo = \"x\"\n",
    ),
    (
        Code::UnusedEntry,
        findings_of,
        "[[appliance]]\nid = \"x-gear\"\nname = \"x\"\nsummary = \"x\"\nfound = \"home\"\n",
    ),
    (
        Code::BrandName,
        findings_of,
        "[[supply]]\nid = \"x\"\nname = \"x\"\nsummary = \"Gums such as Mixwell.\"\n",
    ),
    (
        Code::RecipeGraph,
        recipe_findings,
        "title = \"x\"\nmakes = \"1 kg\"\n\
         [[ingredient]]\nid = \"juice\"\nfood = \"pear-juice\"\namount = \"1 kg\"\n\
         [[step]]\nwork = \"Stir.\"\nuses = [\"nothing\"]\nmakes = \"x\"\n",
    ),
    (Code::PathEscape, book_findings, "title = \"x\"\n[templates]\nnotes = \"../x.md\"\n"),
    (Code::MissingFile, book_findings, "title = \"x\"\n[templates]\nnotes = \"x.md\"\n"),
    (
        Code::Questionable,
        trial_findings,
        "id = \"T-01\"\nrecipe = \"r\"\nkitchen = \"k\"\nstart = 2026-03-04\ntester = \"JD\"\n\
         purpose = \"explore\"\nverdict = \"fail\"\n",
    ),
    (
        Code::StaleRecord,
        trial_findings,
        "id = \"T-01\"\nrecipe = \"r\"\nrecipe_sha256 = \"0\"\nkitchen = \"k\"\nstart = 2026-03-04\n\
         tester = \"JD\"\npurpose = \"explore\"\nverdict = \"pass\"\n",
    ),
];

/// Findings of a book that holds one recipe, and of one trial in it.
fn findings_in_book(book: &str, trial: &str) -> Vec<Finding> {
    static COUNT: AtomicU32 = AtomicU32::new(0);
    let number = COUNT.fetch_add(1, Ordering::Relaxed);
    let name = format!("standin-findings-{}-{number}", std::process::id());
    let folder = std::env::temp_dir().join(name);
    let write = |path: &str, text: &str| {
        let path = folder.join(path);
        let made = path.parent().map(std::fs::create_dir_all);
        assert!(made.is_some_and(|made| made.is_ok()), "{}", path.display());
        assert!(std::fs::write(&path, text).is_ok(), "{}", path.display());
    };
    write("book.toml", book);
    write("recipes/r.toml", "title = \"r\"\n");
    write("trials/t-01.toml", trial);
    let findings = match Book::open(&folder) {
        Err(findings) => findings,
        Ok(book) => {
            let loaded = Store::new(&book).load(&Knowledge::default());
            loaded.findings.into_iter().map(|(finding, _)| finding).collect()
        }
    };
    assert!(std::fs::remove_dir_all(&folder).is_ok());
    findings
}

fn book_findings(text: &str) -> Vec<Finding> {
    findings_in_book(text, "")
}

fn trial_findings(text: &str) -> Vec<Finding> {
    findings_in_book("title = \"x\"\n", text)
}

#[test]
fn each_broken_text_is_found_out() {
    for (code, check, text) in BROKEN {
        let findings = check(text);
        let found = findings.iter().any(|finding| finding.code == *code);
        assert!(found, "no {} finding for {text:?} in {findings:#?}", code.text());
    }
}

#[test]
fn every_code_has_a_broken_text() {
    for code in Code::ALL {
        let covered = BROKEN.iter().any(|(broken, _, _)| broken == code);
        assert!(covered, "no broken text for {}", code.text());
    }
}

#[test]
fn every_attribute_is_computed_and_every_computed_attribute_described() {
    let knowledge = Knowledge::embedded().expect("the shipped knowledge links");
    let computed: Vec<&str> = ATTRIBUTES.iter().map(|(id, _)| *id).collect();
    let described: Vec<&str> = knowledge.attributes.keys().map(String::as_str).collect();
    assert_eq!(computed, described, "both in alphabetical order");
}

#[test]
fn cautions_are_short_and_speak_of_known_facts() {
    const MOST_WORDS: usize = 60;
    let knowledge = Knowledge::embedded().expect("the shipped knowledge links");
    for hazard in knowledge.hazards.values() {
        let words = hazard.caution.split_whitespace().count();
        assert!(words <= MOST_WORDS, "{}: {words} words", hazard.id);
        for condition in hazard.rules.iter().flat_map(|rule| &rule.when) {
            assert!(FACTS.contains(&condition.fact.as_str()), "{}: {}", hazard.id, condition.fact);
        }
    }
}

#[test]
fn the_shipped_knowledge_is_broad() {
    let counts = Knowledge::embedded().expect("the shipped knowledge links").counts();
    assert!(counts.appliances >= 90, "{counts:?}");
    assert!(counts.supplies >= 80, "{counts:?}");
    assert!(counts.hazards >= 60, "{counts:?}");
    assert!(counts.goals >= 35, "{counts:?}");
}

/// The bar that the knowledge base keeps to; `standin show --counts` prints where it stands.
#[test]
fn six_in_ten_numbers_are_published() {
    let counts = Knowledge::embedded().expect("the shipped knowledge links").counts();
    assert!(counts.published * 10 >= counts.values * 6, "{counts:?}");
}
