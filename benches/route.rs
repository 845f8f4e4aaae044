//! One route with 1,000 samples, and a whole recipe.

#![allow(missing_docs, clippy::unwrap_used, reason = "a benchmark stops at the first fault")]

use standin::advisor::{Bench, Plan, Sampler, Sources, adapt, feeds, fit, simulate};
use standin::kitchen::Kitchen;
use standin::knowledge::{Knowledge, ValueMap};
use standin::quantity::Measures;
use standin::recipe::Recipe;

fn main() {
    divan::main();
}

const RECIPE: &str = include_str!("../examples/pear-treacle.toml");
const KITCHEN: &str = include_str!("../examples/tiny-flat.toml");

/// Plans one route and runs it on 1,000 samples of its food.
#[divan::bench(args = ["wide-pan-boil", "freeze-and-drip"])]
fn route_of_1000_samples(bencher: divan::Bencher<'_, '_>, route: &str) {
    let knowledge = Knowledge::embedded().unwrap();
    let kitchen = Kitchen::read(KITCHEN, "kitchen", &knowledge).unwrap();
    let recipe = Recipe::read(RECIPE, "recipe", &knowledge, Measures::Metric).unwrap();
    let sampler = Sampler::new(1000, 1);
    let batches = feeds(&recipe.ingredients[0], &knowledge, &sampler).unwrap();
    let route = &knowledge.routes[route];
    let fitted = fit(route, None, &kitchen, &knowledge);
    let none = ValueMap::new();
    let words = Default::default();
    let targets = {
        let value = knowledge.goals["water-taken-off"].target.clone();
        ValueMap::from([("target_water_removed".to_owned(), value)])
    };
    let plans: Vec<Plan<'_>> = route
        .moves
        .iter()
        .zip(&fitted.appliances)
        .map(|(one, appliances)| {
            let sources = Sources {
                method: &route.id,
                appliances,
                supplies: &[],
                food: &knowledge.foods["pear-juice"].values,
                targets: &targets,
                laboratory: &none,
                words: &words,
            };
            Plan::settle(one, &knowledge, &sources, &sampler).unwrap()
        })
        .collect();
    bencher.bench(|| simulate(&plans, &batches, &kitchen.place, &sampler, false));
}

/// Adapts the example recipe, knowledge already loaded.
#[divan::bench(sample_count = 20)]
fn recipe_of_1000_samples(bencher: divan::Bencher<'_, '_>) {
    let knowledge = Knowledge::embedded().unwrap();
    let kitchen = Kitchen::read(KITCHEN, "kitchen", &knowledge).unwrap();
    let recipe = Recipe::read(RECIPE, "recipe", &knowledge, Measures::Metric).unwrap();
    bencher.bench(|| {
        let sampler = Sampler::new(1000, 1);
        let bench = Bench { knowledge: &knowledge, kitchen: &kitchen, sampler: &sampler };
        adapt(&recipe, &bench).unwrap()
    });
}

/// Loads and links the built-in knowledge.
#[divan::bench(sample_count = 20)]
fn load_knowledge() -> Knowledge {
    Knowledge::embedded().unwrap()
}
