//! Sizes and masses of whole recipes: scaling each way, the mass in each bowl, and a ledger that closes.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first fault")]

use std::path::{Path, PathBuf};

use standin::advisor::{
    Adaptation, Bench, Have, Line, Pin, Prefer, Sampler, Size, Wishes, adapt, adapt_to,
};
use standin::kitchen::Kitchen;
use standin::knowledge::Knowledge;
use standin::quantity::{Mass, Measures, Volume};
use standin::recipe::{Makes, Recipe};

/// A ledger closes within a gram.
const A_GRAM: f64 = 0.001;

fn toml_files(folder: &str) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(Path::new("examples").join(folder)).unwrap();
    let mut paths: Vec<PathBuf> = entries.map(|entry| entry.unwrap().path()).collect();
    paths.retain(|path| path.extension().is_some_and(|ending| ending == "toml"));
    paths.sort();
    paths
}

fn read_recipe(path: &str, knowledge: &Knowledge) -> Recipe {
    Recipe::load(Path::new(path), knowledge, Measures::Metric).unwrap()
}

fn sized(path: &str, size: Size) -> (Recipe, Adaptation) {
    let knowledge = Knowledge::embedded().unwrap();
    let kitchen = Kitchen::load(Path::new("examples/keen-cook.toml"), &knowledge).unwrap();
    let recipe = read_recipe(path, &knowledge);
    let sampler = Sampler::new(100, 1);
    let bench = Bench { knowledge: &knowledge, kitchen: &kitchen, sampler: &sampler };
    let done = adapt_to(&recipe, &bench, &Wishes { size, ..Wishes::default() }).unwrap();
    (recipe, done)
}

const TREACLE: &str = "examples/pear-treacle.toml";
const GLASS: &str = "examples/two-tomato-glass.toml";

#[test]
fn the_ledger_of_every_example_closes_within_a_gram() {
    let knowledge = Knowledge::embedded().unwrap();
    let recipes = [toml_files(""), toml_files("book/recipes")].concat();
    let kitchens = [toml_files(""), toml_files("book/kitchens")].concat();
    let sampler = Sampler::new(24, 1);
    let mut drawn = 0;
    for path in &kitchens {
        let Ok(kitchen) = Kitchen::load(path, &knowledge) else { continue };
        let bench = Bench { knowledge: &knowledge, kitchen: &kitchen, sampler: &sampler };
        for path in &recipes {
            let Ok(recipe) = Recipe::load(path, &knowledge, kitchen.measures) else { continue };
            let done = adapt(&recipe, &bench).unwrap();
            let ledger = done.ledger.unwrap();
            let (name, file) = (&kitchen.name, path.display());
            assert!(ledger.gap < A_GRAM, "{file} in {name}: {} kg", ledger.gap);
            let mass = |line| ledger.line(line).unwrap().typical();
            assert!(
                ledger.lines.iter().all(|(_, mass)| mass.low() > -A_GRAM),
                "{file}: {ledger:?}"
            );
            let bought: f64 = done.ingredients.iter().map(|one| one.bought.si()).sum();
            assert!((mass(Line::Bought) - bought).abs() < A_GRAM, "{file} in {name}");
            drawn += 1;
        }
    }
    assert!(drawn >= 60, "only {drawn} ledgers");
}

#[test]
fn every_bowl_holds_what_the_steps_before_it_gave() {
    let (_, done) = sized(GLASS, Size::AsWritten);
    let taken = |step: usize, name: &str| {
        done.steps[step].takes.iter().find(|(known, _)| known == name).unwrap().1.typical()
    };
    let made = |step: usize| done.steps[step].makes.unwrap().typical();
    assert!((taken(1, "tomato purée") - made(0)).abs() < A_GRAM);
    let shared = taken(2, "tomato water") + taken(3, "tomato water");
    assert!((shared - made(1)).abs() < 0.01 * made(1), "{shared} of {}", made(1));
    assert!((taken(3, "tomato syrup") - made(2)).abs() < A_GRAM);
    let (home, laboratory) = (done.makes.unwrap(), done.makes_in_laboratory.unwrap());
    let ratio = home.typical() / laboratory.typical();
    assert!((ratio - 1.0).abs() < 0.05, "the dish stays as large as the laboratory's: {ratio}");
}

#[test]
fn a_number_of_eaters_scales_every_amount() {
    let (recipe, once) = sized(GLASS, Size::AsWritten);
    let (_, thrice) = sized(GLASS, Size::Times(3.0));
    assert!((recipe.scaled(3.0).serves.unwrap() - 24.0).abs() < 1e-9);
    assert!((thrice.sizing.scale - 3.0).abs() < 1e-12);
    let ratio = thrice.makes.unwrap().typical() / once.makes.unwrap().typical();
    assert!((ratio - 3.0).abs() < 0.1, "{ratio}");
    let laboratory =
        thrice.makes_in_laboratory.unwrap().typical() / once.makes_in_laboratory.unwrap().typical();
    assert!((laboratory - 3.0).abs() < 0.1, "{laboratory}");
}

#[test]
fn a_bigger_batch_boils_for_longer() {
    let knowledge = Knowledge::embedded().unwrap();
    let kitchen = Kitchen::load(Path::new("examples/tiny-flat.toml"), &knowledge).unwrap();
    let recipe = read_recipe(TREACLE, &knowledge);
    let sampler = Sampler::new(100, 1);
    let bench = Bench { knowledge: &knowledge, kitchen: &kitchen, sampler: &sampler };
    let boiled = |size: Size| {
        let pins = vec![Pin { step: 0, route: "wide-pan-boil".to_owned() }];
        let done = adapt_to(&recipe, &bench, &Wishes { size, pins, ..Wishes::default() }).unwrap();
        done.time.unwrap().typical()
    };
    assert!(boiled(Size::Times(2.0)) > 1.6 * boiled(Size::AsWritten));
}

#[test]
fn a_mass_or_volume_of_the_dish_is_met() {
    let wanted = Mass::from_grams(800.0);
    let (_, done) = sized(TREACLE, Size::Makes(Makes::Mass(wanted)));
    let made = done.makes.unwrap().typical();
    assert!((made / wanted.si() - 1.0).abs() < 0.01, "{made}");
    let litre = Volume::from_litres(1.0);
    let (_, done) = sized(GLASS, Size::Makes(Makes::Volume(litre)));
    // Tomato water is a little heavier than water.
    let made = done.makes.unwrap().typical();
    assert!((1.0..1.06).contains(&made), "{made}");
}

#[test]
fn the_scarcest_ingredient_decides() {
    let (recipe, _) = sized(GLASS, Size::AsWritten);
    let (tomatoes, salt) = (recipe.ingredients[0].bought, recipe.ingredients[1].bought);
    let have = |kilograms: f64, grams: f64| {
        let all = [Mass::from_kilograms(kilograms), Mass::from_grams(grams)];
        let each = all.into_iter().enumerate();
        sized(GLASS, Size::Have(each.map(|(ingredient, mass)| Have { ingredient, mass }).collect()))
            .1
    };
    let few_tomatoes = have(1.0, 500.0);
    assert_eq!(few_tomatoes.sizing.scarcest, Some(0));
    assert!((few_tomatoes.ingredients[0].bought.si() - 1.0).abs() < 0.005);
    let ratio = few_tomatoes.ingredients[1].bought / few_tomatoes.ingredients[0].bought;
    assert!((ratio / (salt / tomatoes) - 1.0).abs() < 0.01, "the others keep their proportion");
    let little_salt = have(50.0, 8.0);
    assert_eq!(little_salt.sizing.scarcest, Some(1));
    assert!((little_salt.ingredients[1].bought.grams() - 8.0).abs() < 0.05);
}

/// The dish is as large as asked for within this share.
const AS_ASKED: f64 = 0.03;
/// The dish of the home is as large as the laboratory's within this share: the medians of few samples,
/// whose yields vary by more.
const AS_THE_LABORATORY: f64 = 0.1;

#[test]
fn every_example_kitchen_makes_the_size_that_is_asked_for() {
    let knowledge = Knowledge::embedded().unwrap();
    let sampler = Sampler::new(40, 1);
    let kitchens = toml_files("book/kitchens");
    let recipes = [toml_files("book/recipes"), vec![PathBuf::from(GLASS)]].concat();
    for home in &kitchens {
        let kitchen = Kitchen::load(home, &knowledge).unwrap();
        let bench = Bench { knowledge: &knowledge, kitchen: &kitchen, sampler: &sampler };
        for path in &recipes {
            let recipe = Recipe::load(path, &knowledge, kitchen.measures).unwrap();
            let told = format!("{} in {}", path.display(), home.display());
            let run = |size: Size, prefer: Prefer| {
                adapt_to(&recipe, &bench, &Wishes { size, prefer, ..Wishes::default() }).unwrap()
            };
            let wanted = Mass::from_grams(700.0);
            let done = run(Size::Makes(Makes::Mass(wanted)), Prefer::Flavour);
            let made = done.makes.unwrap().typical() / wanted.si();
            assert!((made - 1.0).abs() < AS_ASKED, "{told}: {made} of 700 g");
            let mass = Mass::from_kilograms(1.2);
            let done = run(Size::Have(vec![Have { ingredient: 0, mass }]), Prefer::Time);
            let first = &done.ingredients[0];
            let used = first.bought / mass;
            assert!(
                !first.is_needed() || (used - 1.0).abs() < AS_ASKED,
                "{told}: {used} of 1.2 kg"
            );
            let (home, laboratory) = (done.makes.unwrap(), done.makes_in_laboratory.unwrap());
            let ratio = home.typical() / laboratory.typical();
            assert!((ratio - 1.0).abs() < AS_THE_LABORATORY, "{told}: {ratio} of the laboratory's");
            let Some(serves) = recipe.serves else { continue };
            let done = run(Size::Times(7.0 / serves), Prefer::Flavour);
            let written =
                done.makes.unwrap().typical() / done.makes_in_laboratory.unwrap().typical();
            assert!((done.sizing.scale * serves / 7.0 - 1.0).abs() < 1e-9, "{told}");
            assert!((written - 1.0).abs() < AS_THE_LABORATORY, "{told}: {written} for seven");
        }
    }
}
