//! Recipe files: what is read of them, what is said of faulty ones, and the mass balance.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first fault")]

mod small_knowledge;

use proptest::prelude::*;
use standin::finding::{Code, Finding};
use standin::knowledge::Knowledge;
use standin::quantity::Measures;
use standin::recipe::{BalanceError, Makes, Recipe, Source, Task};

const TREACLE: &str = r#"title = "Pear treacle"
author = "invented"
serves = "12 people"
makes = "600 g"
note = "A note."
[[ingredient]]
id = "juice"
food = "juice of pears"
amount = "3 kg"
brix = "12 °Brix"
temperature = "4 °C"
ph = "3.8"
[[ingredient]]
id = "acid"
food = "citric-acid"
amount = "3 g"
[[step]]
id = "concentrate"
technique = "Rotary evaporation"
uses = ["juice"]
makes = "treacle"
yields = "600 g"
priorities = ["aroma-top"]
[step.targets]
soluble-solids = "60 °Brix"
time = "2-3 h"
[step.laboratory]
pressure = "75 mbar"
bath_temperature = "45 °C"
[[step]]
work = "Stir in the acid."
uses = ["treacle", "acid"]
makes = "finished treacle"
hands_on = "5 min"
time = "5 min"
loss = "1 %"
"#;

fn read(text: &str) -> Result<Recipe, Vec<Finding>> {
    Recipe::read(text, "r.toml", &small_knowledge::knowledge(), Measures::Us)
}

/// Reads a recipe that must fail, and returns code, line, column and text of each finding.
fn faults(text: &str) -> Vec<(Code, usize, usize, String)> {
    let findings = read(text).unwrap_err();
    let described = findings.iter().map(|finding| {
        let (line, column) = finding.line_and_column(text).unwrap();
        let help = finding.help.as_deref().unwrap_or_default();
        (finding.code, line, column, format!("{}\n{help}", finding.message))
    });
    described.collect()
}

/// Asserts that replacing a part of the sound recipe gives one fault, placed at `at`.
fn one_fault(old: &str, new: &str, code: Code, at: &str, parts: &[&str]) {
    assert!(TREACLE.contains(old), "{old}");
    let text = TREACLE.replacen(old, new, 1);
    let found = faults(&text);
    assert_eq!(found.len(), 1, "{new}: {found:#?}");
    let (found_code, line, column, message) = &found[0];
    assert_eq!(*found_code, code, "{message}");
    let shown = text.lines().nth(line - 1).unwrap();
    let rest: String = shown.chars().skip(column - 1).collect();
    assert!(rest.starts_with(at), "{message}: points at {rest:?}, not {at:?}");
    for part in parts {
        assert!(message.contains(part), "{message:?} lacks {part:?}");
    }
}

/// A recipe of plain work: ingredients with their grams, and steps with inputs and product.
fn plain(ingredients: &[(&str, u32)], steps: &[(&str, &str)]) -> String {
    let mut text = "title = \"T\"\n".to_owned();
    for (id, grams) in ingredients {
        text +=
            &format!("[[ingredient]]\nid = \"{id}\"\nfood = \"pear\"\namount = \"{grams} g\"\n");
    }
    for (uses, makes) in steps {
        text += &format!("[[step]]\nwork = \"Mix.\"\nuses = [{uses}]\n{makes}\n");
    }
    text
}

fn near(a: f64, b: f64) {
    assert!((a - b).abs() < 1e-9 * b.abs().max(1.0), "{a} is not {b}");
}

#[test]
fn a_recipe_is_read_with_its_ingredients() {
    let recipe = read(TREACLE).unwrap();
    assert_eq!((recipe.title.as_str(), recipe.author.as_str()), ("Pear treacle", "invented"));
    assert_eq!(recipe.serves, Some(12.0));
    assert!(matches!(recipe.makes, Some(Makes::Mass(mass)) if (mass.grams() - 600.0).abs() < 1e-9));
    let juice = &recipe.ingredients[0];
    assert_eq!((juice.id.as_str(), juice.food.as_str()), ("juice", "pear-juice"));
    near(juice.mass.kilograms(), 3.0);
    near(juice.temperature.unwrap().celsius(), 4.0);
    near(juice.ph.unwrap(), 3.8);
    let s = juice.shares;
    let dissolved = s.sugars + s.acid + s.salt + s.other;
    near(dissolved / (dissolved + s.water + s.ethanol), 0.12);
}

#[test]
fn a_recipe_is_read_with_its_steps() {
    let recipe = read(TREACLE).unwrap();
    let Task::Professional(lab) = &recipe.steps[0].task else { panic!("not a technique") };
    assert_eq!(lab.technique, "vacuum-concentration");
    assert_eq!(lab.priorities, ["aroma-top"]);
    near(lab.targets["soluble-solids"].typical(), 0.60);
    near(lab.targets["time"].estimate.low(), 7200.0);
    near(lab.laboratory["pressure"].typical(), 7500.0);
    near(lab.laboratory["bath_temperature"].typical(), 318.15);
    let Task::Plain(work) = &recipe.steps[1].task else { panic!("not plain work") };
    near(work.hands_on.as_ref().unwrap().typical(), 300.0);
    near(work.loss.as_ref().unwrap().typical(), 0.01);
    let sources: Vec<Source> = recipe.steps[1].uses.iter().map(|used| used.source).collect();
    assert_eq!(sources, [Source::Product(0), Source::Ingredient(1)]);
    near(recipe.steps[0].yields.unwrap().grams(), 600.0);
}

#[test]
fn amounts_may_be_volumes_and_counts_and_are_trimmed() {
    let text = TREACLE.replace("\"3 kg\"", "\"3 L\"");
    // 1 048 kg/m³ is the density that the small knowledge base states.
    near(read(&text).unwrap().ingredients[0].mass.kilograms(), 3.0 * 1.048);
    let text = TREACLE.replace("\"3 kg\"", "\"2 cups\"").replace("yields = \"600 g\"\n", "");
    near(read(&text).unwrap().ingredients[0].mass.grams(), 2.0 * 236.588_236_5 * 1.048);
    let text = plain(&[("a", 1)], &[("\"a\"", "")]);
    let text = text.replace("\"1 g\"", "\"3 pieces\"\ntrim = \"10 %\"");
    let recipe = read(&text).unwrap();
    near(recipe.ingredients[0].bought.grams(), 3.0 * 178.0);
    near(recipe.ingredients[0].mass.grams(), 3.0 * 178.0 * 0.9);
}

#[test]
fn faults_of_syntax_and_keys_are_placed() {
    one_fault("author", "autor", Code::UnknownKey, "autor", &["did you mean `author`?"]);
    one_fault("amount = \"3 g\"", "amount = 3", Code::Syntax, "3", &["write it in quotes"]);
    one_fault("amount = \"3 g\"\n", "", Code::MissingKey, "[[ingredient]]", &["missing field"]);
    one_fault("title = \"Pear treacle\"", "title = \"Pear", Code::Syntax, "", &[]);
    assert_eq!(faults("author = \"x\"\n")[0].0, Code::MissingKey);
    let found = faults("title = \"x\"\n");
    assert_eq!((found.len(), found[0].0), (2, Code::MissingKey));
}

#[test]
fn unknown_names_offer_the_nearest() {
    let unknown = Code::UnknownName;
    let at = |text: &str| format!("\"{text}\"");
    let (old, new) = ("\"juice of pears\"", at("pear-juce"));
    one_fault(old, &new, unknown, &new, &["did you mean `pear-juice`?"]);
    let (old, new) = ("\"Rotary evaporation\"", at("rotary evaporaton"));
    one_fault(old, &new, unknown, &new, &["did you mean `vacuum-concentration`?"]);
    let (old, new) = ("\"Rotary evaporation\"", at("wide-pan-simmer"));
    one_fault(old, &new, unknown, &new, &["is of the kind route"]);
    let (old, new) = ("\"aroma-top\"", at("aroma-topp"));
    one_fault(old, &new, unknown, &new, &["did you mean `aroma-top`?"]);
    let target = "did you mean `soluble-solids`?";
    one_fault("soluble-solids", "soluble-solid", unknown, "soluble-solid", &[target]);
    let setting = "`vacuum-concentration` has no setting `presure`";
    one_fault("pressure", "presure", unknown, "presure", &[setting, "did you mean `pressure`?"]);
}

#[test]
fn faulty_amounts_are_placed() {
    let amount = Code::Amount;
    let acid = "amount = \"3 g\"";
    one_fault(acid, "amount = \"3 bananas\"", amount, "\"3 b", &["mass, a volume or a count"]);
    one_fault(acid, "amount = \"3 m\"", amount, "\"3 m", &["\"3 kg\""]);
    one_fault(acid, "amount = \"3 tsp\"", amount, "\"3 tsp", &["give the mass instead"]);
    one_fault(acid, "amount = \"3\"", amount, "\"3\"", &["the mass of one citric acid"]);
    one_fault("\"60 °Brix\"", "\"60 min\"", amount, "\"60 min", &["`min` is not a unit"]);
    one_fault("\"75 mbar\"", "\"75\"", amount, "\"75\"", &["has no unit", "mbar"]);
    one_fault("\"5 min\"", "\"soon\"", amount, "\"soon\"", &["no number"]);
    one_fault("\"600 g\"", "\"600\"", amount, "\"600\"", &["has no unit"]);
}

#[test]
fn impossible_values_are_refused_with_their_bounds() {
    let impossible = Code::ImpossibleValue;
    one_fault("\"12 °Brix\"", "\"90 °Brix\"", impossible, "\"90 °B", &["0 to 85 °Brix"]);
    one_fault("\"60 °Brix\"", "\"95 °Brix\"", impossible, "\"95 °B", &["0 to 85 °Brix"]);
    one_fault("ph = \"3.8\"", "ph = \"38\"", impossible, "\"38\"", &["0 to 14"]);
    let strong = "strength = \"99 % ABV\"";
    one_fault("ph = \"3.8\"", strong, impossible, "\"99", &["0 to 96 %"]);
    one_fault("\"3 kg\"", "\"-3 kg\"", impossible, "\"-3", &["above 0"]);
    one_fault("\"3 kg\"", "\"0 kg\"", impossible, "\"0 kg", &["above 0"]);
    one_fault("\"75 mbar\"", "\"0 mbar\"", impossible, "\"0 mbar", &["above 0"]);
    one_fault("\"45 °C\"", "\"-300 °C\"", impossible, "\"-300", &["absolute zero"]);
    one_fault("\"4 °C\"", "\"400 °C\"", impossible, "\"400", &["−80 to 200 °C"]);
    one_fault("\"1 %\"", "\"100 %\"", impossible, "\"100 %", &["leaves nothing"]);
    one_fault("\"1 %\"", "\"130 %\"", impossible, "\"130 %", &["0 to 100 %"]);
    one_fault("serves = \"12", "serves = \"-2", impossible, "\"-2", &["above 0"]);
    let heavy = "outweighs the 3000 g that go in";
    one_fault("yields = \"600 g\"", "yields = \"4 kg\"", impossible, "\"4 kg", &[heavy]);
    let trimmed = "amount = \"3 kg\"\ntrim = \"99 %\"";
    one_fault("amount = \"3 kg\"", trimmed, impossible, "\"99 %", &["0 to 95 %"]);
}

#[test]
fn compositions_that_cannot_be_are_refused() {
    let both = "composition = { water = \"80 %\" }";
    one_fault("ph = \"3.8\"", both, Code::Composition, "\"juice\"", &["both stated"]);
    let sum = "fat = \"60 %\"\ncomposition = { sugars = \"50 %\" }";
    one_fault("ph = \"3.8\"", sum, Code::Composition, "\"juice\"", &["add to 110"]);
    let part = "composition = { sugar = \"5 %\" }";
    one_fault("ph = \"3.8\"", part, Code::UnknownKey, "sugar", &["did you mean `sugars`?"]);
}

#[test]
fn steps_are_a_technique_or_work_and_keys_stay_in_their_place() {
    let both = "work = \"x\"\ntechnique = \"vacuum-concentration\"";
    let work = "work = \"Stir in the acid.\"";
    one_fault(work, both, Code::MissingKey, "\"finished treacle\"", &["both `technique` and"]);
    one_fault(work, "", Code::MissingKey, "\"finished treacle\"", &["no `technique` and no"]);
    let late = "priorities = [\"aroma-top\"]\nloss = \"1 %\"";
    one_fault("priorities = [\"aroma-top\"]", late, Code::UnknownKey, "\"1 %\"", &["plain work"]);
    let target = "loss = \"1 %\"\ntargets = { time = \"3 h\" }";
    one_fault("loss = \"1 %\"", target, Code::UnknownKey, "time", &["belongs to a technique"]);
}

#[test]
fn batches_that_do_not_join_up_are_refused() {
    let graph = Code::RecipeGraph;
    let both = "[\"treacle\", \"acid\"]";
    let near = ["no ingredient or product goes by `treacel`", "did you mean `treacle`?"];
    let found = faults(&TREACLE.replace(both, "[\"treacel\", \"acid\"]"));
    assert_eq!(found.len(), 2, "{found:#?}");
    assert!(
        near.iter().all(|part| found[1].3.contains(part)) && found[0].3.contains("no step uses")
    );
    one_fault(both, "[\"treacle\"]", graph, "\"acid\"", &["no step uses `acid`", "keep = true"]);
    let itself = "[\"treacle\", \"acid\", \"finished treacle\"]";
    one_fault(both, itself, graph, "\"finished treacle\"]", &["which it makes itself"]);
    let later = "uses = [\"juice\", \"finished treacle\"]";
    let parts = ["is made later, in step 2"];
    one_fault("uses = [\"juice\"]", later, graph, "\"finished treacle\"]", &parts);
    let twice = "[\"treacle\", \"acid\", \"acid\"]";
    one_fault(both, twice, graph, "\"acid\"]", &["`acid` is used again"]);
    let over = "[\"treacle\", \"acid: 2 g\", \"acid: 2 g\"]";
    one_fault(both, over, graph, "\"acid: 2 g\"]", &["133 % of `acid` is used"]);
    one_fault(both, "[\"treacle\", \"acid: half\"]", graph, "\"acid\"", &["only 50 % of `acid`"]);
    let rest = "[\"treacle\", \"acid\", \"acid: rest\"]";
    one_fault(both, rest, graph, "\"acid: rest", &["nothing is left of `acid`"]);
    let part = "[\"treacle\", \"acid: some\"]";
    one_fault(both, part, Code::Amount, "\"acid: some", &["`some` is not a part"]);
}

#[test]
fn names_are_unique_and_usable() {
    let twice = "makes = \"juice\"";
    let found = faults(&TREACLE.replace("makes = \"finished treacle\"", twice));
    assert!(found.iter().any(|f| f.0 == Code::DuplicateName && f.3.contains("go by `juice`")));
    let found = faults(&TREACLE.replace("makes = \"finished treacle\"", "makes = \"a:b\""));
    assert_eq!((found.len(), found[0].0), (1, Code::RecipeGraph));
}

#[test]
fn a_part_by_mass_of_a_product_needs_its_yield() {
    let steps = [("\"a\"", "makes = \"m\""), ("\"m: 5 g\", \"m: rest\"", "")];
    let found = faults(&plain(&[("a", 10)], &steps));
    assert!(found[0].3.contains("how much `m` there is is not known"), "{found:#?}");
    let steps = [("\"a\"", "makes = \"m\"\nyields = \"8 g\""), ("\"m: 2 g\", \"m: rest\"", "")];
    let recipe = read(&plain(&[("a", 10)], &steps)).unwrap();
    near(recipe.steps[1].uses[0].share, 0.25);
    near(recipe.steps[1].uses[1].share, 0.75);
}

#[test]
fn what_is_kept_need_not_be_used() {
    let text = TREACLE.replace("[\"treacle\", \"acid\"]", "[\"treacle\"]");
    let text = text.replace("amount = \"3 g\"", "amount = \"3 g\"\nkeep = true");
    near(read(&text).unwrap().shopping_factors(&[0.5, 1.0]).unwrap()[1], 1.0);
}

#[test]
fn all_faults_of_a_file_are_reported_in_its_order() {
    let text = TREACLE
        .replace("\"12 people\"", "\"many\"")
        .replace("juice of pears", "nothing of the kind")
        .replace("\"3 g\"", "\"3 bananas\"")
        .replace("\"75 mbar\"", "\"75 g\"")
        .replace("\"1 %\"", "\"200 %\"");
    let lines: Vec<usize> = faults(&text).iter().map(|fault| fault.1).collect();
    assert_eq!(lines, [3, 8, 16, 28, 36]);
}

#[test]
fn a_missing_file_is_named() {
    let path = std::path::Path::new("no/such/recipe.toml");
    let findings = Recipe::load(path, &small_knowledge::knowledge(), Measures::Metric).unwrap_err();
    assert_eq!(findings[0].code, Code::UnreadableFile);
}

/// A purée is blended; half of it is cleared, the rest is folded back into the cleared water with
/// salt, and a pinch of salt goes into the blender.
fn diamond() -> Recipe {
    let steps = [
        ("\"tomato\", \"salt: 4 g\"", "makes = \"puree\""),
        ("\"puree: half\"", "makes = \"clear\""),
        ("\"clear\", \"puree: rest\", \"salt: rest\"", "makes = \"dish\""),
    ];
    read(&plain(&[("tomato", 1000), ("salt", 10)], &steps)).unwrap()
}

#[test]
fn shopping_grows_where_a_route_gives_less() {
    let recipe = diamond();
    // By hand: the dish needs 1. Step 3 gives 0.8 of the laboratory's, so its inputs grow by 1.25.
    // Step 2 must give 1.25 and gives 0.5, so its inputs grow by 2.5. The purée is needed at
    // 0.5 * 2.5 + 0.5 * 1.25 = 1.875; step 1 gives 0.9, so tomato grows by 1.875 / 0.9 = 2.08333.
    // Salt: 0.4 * 2.08333 + 0.6 * 1.25 = 1.58333.
    let needs = recipe.needs(&[0.9, 0.5, 0.8]).unwrap();
    near(needs.inputs[2], 1.25);
    near(needs.inputs[1], 2.5);
    near(needs.products[0], 1.875);
    let shopping = recipe.shopping_factors(&[0.9, 0.5, 0.8]).unwrap();
    near(shopping[0], 25.0 / 12.0);
    near(shopping[1], 19.0 / 12.0);
    near(recipe.shopping_factors(&[1.0, 1.0, 1.0]).unwrap()[0], 1.0);
}

#[test]
fn masses_run_forwards() {
    // By hand: 1004 g blended at 0.95 is 953.8 g; half of it cleared at 0.6 is 286.14 g; with the
    // other 476.9 g and 6 g of salt 769.04 g.
    let made = diamond().masses(&[0.95, 0.6, 1.0]).unwrap();
    near(made[0].grams(), 953.8);
    near(made[1].grams(), 286.14);
    near(made[2].grams(), 769.04);
}

#[test]
fn a_balance_without_a_yield_is_refused() {
    let recipe = diamond();
    assert_eq!(recipe.needs(&[1.0]), Err(BalanceError::Count { given: 1, steps: 3 }));
    let none = BalanceError::NoYield { step: 2, ratio: 0.0 };
    assert_eq!(recipe.shopping_factors(&[1.0, 0.0, 1.0]), Err(none));
    assert!(recipe.masses(&[1.0, 1.0, f64::NAN]).is_err());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn mutated_text_never_panics(cut in 0usize..TREACLE.len(), len in 0usize..40, new in ".{0,8}") {
        let start = (0..=cut).rev().find(|at| TREACLE.is_char_boundary(*at)).unwrap_or(0);
        let wanted = (start + len).min(TREACLE.len());
        let end = (wanted..=TREACLE.len()).find(|at| TREACLE.is_char_boundary(*at)).unwrap();
        let text = format!("{}{new}{}", &TREACLE[..start], &TREACLE[end..]);
        match read(&text) {
            Ok(recipe) => {
                let ratios = vec![0.7; recipe.steps.len()];
                prop_assert!(recipe.shopping_factors(&ratios).unwrap().iter().all(|f| *f >= 1.0));
            }
            Err(findings) => {
                prop_assert!(!findings.is_empty());
                for finding in findings {
                    finding.render(&text);
                }
            }
        }
    }

    #[test]
    fn growing_the_shopping_keeps_the_dish(
        lab in proptest::array::uniform3(0.1f64..1.0),
        ratio in proptest::array::uniform3(0.2f64..2.0),
    ) {
        let mut recipe = diamond();
        let dish = recipe.masses(&lab).unwrap()[2];
        let needs = recipe.needs(&ratio).unwrap();
        // At home each source is shared out in proportion to what each step then needs.
        for (ingredient, factor) in recipe.ingredients.iter_mut().zip(&needs.ingredients) {
            ingredient.mass = ingredient.mass * *factor;
        }
        for (step, input) in recipe.steps.iter_mut().zip(&needs.inputs) {
            for used in &mut step.uses {
                let grown = match used.source {
                    Source::Ingredient(index) => needs.ingredients[index],
                    Source::Product(index) => needs.products[index],
                };
                used.share *= input / grown;
            }
        }
        let home: Vec<f64> = lab.iter().zip(ratio).map(|(lab, ratio)| lab * ratio).collect();
        let made = recipe.masses(&home).unwrap()[2];
        prop_assert!((made / dish - 1.0).abs() < 1e-9);
    }
}

/// Returns the files of `examples/` that hold a text, with their contents.
fn examples(holding: &str) -> Vec<(String, String)> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/examples");
    let mut found: Vec<(String, String)> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|extension| extension == "toml"))
        .map(|path| (path.display().to_string(), std::fs::read_to_string(path).unwrap()))
        .filter(|(_, text)| text.contains(holding))
        .collect();
    found.sort();
    found
}

#[test]
fn every_example_recipe_reads_against_the_shipped_knowledge() {
    let knowledge = Knowledge::embedded().unwrap();
    let recipes = examples("[[step]]");
    assert!(recipes.len() >= 3);
    for (file, text) in recipes {
        let read = Recipe::read(&text, &file, &knowledge, Measures::Metric);
        let shown = |findings: &[Finding]| {
            findings.iter().map(|finding| finding.render(&text)).collect::<Vec<_>>().join("\n")
        };
        let recipe = read.unwrap_or_else(|findings| panic!("{}", shown(&findings)));
        let factors = recipe.shopping_factors(&vec![1.0; recipe.steps.len()]).unwrap();
        assert!(factors.iter().all(|factor| (factor - 1.0).abs() < 1e-9), "{file}");
        assert!(text.contains("invented"), "{file}");
    }
}
