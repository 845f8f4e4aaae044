//! A book of any size: the examples with their numbers moved by seeded draws.

#![allow(dead_code, reason = "each user takes what it needs")]

use std::path::Path;

use rand_core::{Rng as _, SeedableRng as _};
use rand_pcg::Pcg64;
use standin::advisor::survey::Page;
use standin::kitchen::Kitchen;
use standin::knowledge::Knowledge;
use standin::quantity::Measures;
use standin::recipe::Recipe;
use toml::{Table, Value};

const RECIPES: [&str; 13] = [
    "book/recipes/buttermilk-snow",
    "book/recipes/clear-tomato-water",
    "book/recipes/fennel-frond-water",
    "book/recipes/glassy-celery",
    "book/recipes/hazelnut-cream",
    "book/recipes/mint-verjus",
    "book/recipes/pear-treacle",
    "book/recipes/plum-and-beetroot-shards",
    "book/recipes/pressed-barley",
    "book/recipes/rhubarb-at-61",
    "book/recipes/set-mussel-broth",
    "book/recipes/unstrong-cider",
    "two-tomato-glass",
];
const KITCHENS: [&str; 4] = ["family-kitchen", "high-rural", "keen-cook", "tiny-flat"];
/// Foods that stand in for those of the examples, which come first.
const FOODS: [&[&str]; 2] = [
    &["tomato", "apple", "strawberry", "plum", "sour-cherry", "raspberry", "peach", "grape"],
    &["pear-juice", "apple-juice", "rhubarb-juice", "carrot-juice", "quince-juice", "melon-juice"],
];
/// Appliances and supplies are left out with this chance.
const LEFT_OUT: f64 = 0.12;
/// By how much each value is moved: factors for amounts, additions for temperatures.
const MOVES: [(&str, Move); 13] = [
    ("brix", Move::Times(0.8, 1.25)),
    ("soluble-solids", Move::Times(0.5, 1.1)),
    ("pressure", Move::Times(0.6, 1.0)),
    ("bath_temperature", Move::Plus(-2.0, 8.0)),
    ("rotation", Move::Times(0.5, 1.5)),
    ("time", Move::Times(0.5, 2.0)),
    ("loss", Move::Times(0.5, 2.0)),
    ("trim", Move::Times(0.5, 3.0)),
    ("power", Move::Times(0.6, 1.4)),
    ("diameter", Move::Times(0.8, 1.2)),
    ("altitude", Move::Times(0.2, 2.5)),
    ("room_temperature", Move::Plus(-3.0, 6.0)),
    ("room_humidity", Move::Times(0.6, 1.6)),
];
/// The whole recipe is made larger or smaller by a factor between these.
const SIZES: (f64, f64) = (0.2, 3.0);

#[derive(Clone, Copy)]
enum Move {
    Times(f64, f64),
    Plus(f64, f64),
}

/// Makes recipes, each read once in metric measures and once in those of the United States.
pub fn pages(count: usize, seed: u64, knowledge: &Knowledge) -> Vec<Page> {
    let mut draws = Draws(Pcg64::seed_from_u64(seed));
    (0..count)
        .map(|number| {
            let mut recipe = example(RECIPES[number % RECIPES.len()]);
            let title = format!("{} {number}", recipe["title"].as_str().unwrap());
            recipe.insert("title".into(), Value::String(title));
            let size = draws.between(SIZES.0, SIZES.1);
            vary(&mut recipe, size, &mut draws);
            let text = recipe.to_string();
            let read = |measures| {
                let read = Recipe::read(&text, "varied", knowledge, measures);
                (measures, read.unwrap_or_else(|faults| panic!("{faults:?}\n{text}")))
            };
            Page { readings: vec![read(Measures::Metric), read(Measures::Us)] }
        })
        .collect()
}

/// Makes kitchens, each with some of its gear left out.
pub fn kitchens(count: usize, seed: u64, knowledge: &Knowledge) -> Vec<Kitchen> {
    let mut draws = Draws(Pcg64::seed_from_u64(seed));
    (0..count)
        .map(|number| {
            let mut kitchen = example(KITCHENS[number % KITCHENS.len()]);
            let name = format!("{} {number}", kitchen["name"].as_str().unwrap());
            kitchen.insert("name".into(), Value::String(name));
            vary(&mut kitchen, 1.0, &mut draws);
            if let Some(Value::Table(owned)) = kitchen.get_mut("appliances") {
                owned.retain(|_, _| draws.between(0.0, 1.0) > LEFT_OUT);
            }
            if let Some(Value::Array(supplies)) = kitchen.get_mut("supplies") {
                supplies.retain(|_| draws.between(0.0, 1.0) > LEFT_OUT);
            }
            let text = kitchen.to_string();
            let read = Kitchen::read(&text, "varied", knowledge);
            read.unwrap_or_else(|faults| panic!("{faults:?}\n{text}"))
        })
        .collect()
}

fn example(name: &str) -> Table {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    std::fs::read_to_string(folder.join(format!("{name}.toml"))).unwrap().parse().unwrap()
}

fn vary(table: &mut Table, size: f64, draws: &mut Draws) {
    for (key, value) in table.iter_mut() {
        match value {
            Value::Table(inner) => vary(inner, size, draws),
            Value::Array(list) => {
                for inner in list.iter_mut().filter_map(Value::as_table_mut) {
                    vary(inner, size, draws);
                }
            }
            Value::String(text) => {
                if let Some(other) = other_food(text, draws).filter(|_| key == "food") {
                    *text = other;
                }
                let how = MOVES.iter().find(|(name, _)| name == key).map(|(_, how)| *how);
                let sized = ["amount", "yields", "makes"].contains(&key.as_str());
                let how = how.or(sized.then_some(Move::Times(size, size)));
                if let Some(moved) = how.and_then(|how| moved(text, how, draws)) {
                    *text = moved;
                }
            }
            _ => {}
        }
    }
}

fn other_food(food: &str, draws: &mut Draws) -> Option<String> {
    let foods = FOODS.iter().find(|foods| foods[0] == food)?;
    let place = draws.between(0.0, foods.len() as f64) as usize;
    Some(foods[place.min(foods.len() - 1)].to_owned())
}

/// Moves "2.5 kg"; leaves text that is no number with a unit, such as "1-3 %", as it is.
fn moved(text: &str, how: Move, draws: &mut Draws) -> Option<String> {
    let (number, unit) = text.split_once(' ')?;
    let number: f64 = number.parse().ok()?;
    let moved = match how {
        Move::Times(low, high) => number * draws.between(low, high),
        Move::Plus(low, high) => number + draws.between(low, high),
    };
    Some(format!("{moved:.4} {unit}"))
}

struct Draws(Pcg64);

impl Draws {
    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.0.next_u32() as f64 / f64::from(u32::MAX))
    }
}
