//! Every technique and every route runs through its models on foods that it claims to suit.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first fault")]

use std::collections::BTreeMap;

use standin::advisor::{Goals, Plan, Sampler, Simulated, Sources, feeds, fit, simulate, supplied};
use standin::kitchen::{Kitchen, Owned, Place};
use standin::knowledge::{Food, Found, Knowledge, Move, Route, Technique, ValueMap};
use standin::process::{Batch, Component};
use standin::quantity::{Mass, Measures};
use standin::recipe::Ingredient;

/// Samples by method and food.
const SAMPLES: usize = 20;
/// A method works when it works in at least this share of the samples.
const WORKS_IN: f64 = 0.5;
/// Masses in and out agree to this, in kilograms of one kilogram.
const BALANCE: f64 = 1e-9;
/// Nothing in a kitchen takes longer.
const LONGEST_DAYS: f64 = 120.0;

/// One home batch of a food.
fn ingredient(food: &Food) -> Ingredient {
    Ingredient {
        id: food.id.clone(),
        food: food.id.clone(),
        written: "1 kg".to_owned(),
        bought: Mass::from_kilograms(1.0),
        trim: 0.0,
        mass: Mass::from_kilograms(1.0),
        shares: food.shares,
        ph: None,
        temperature: None,
        keep: false,
        note: String::new(),
    }
}

/// A kitchen that owns every appliance of a home and every supply.
fn kitchen(knowledge: &Knowledge) -> Kitchen {
    let at_home = knowledge.appliances.values().filter(|one| one.found != Found::Laboratory);
    Kitchen {
        name: "everything".to_owned(),
        place: Place::default(),
        measures: Measures::Metric,
        appliances: at_home.map(Owned::of).collect(),
        supplies: knowledge.supplies.keys().cloned().collect(),
        avoid: Vec::new(),
        eaters: String::new(),
        note: String::new(),
    }
}

/// The bench on which methods are tried.
struct Bench<'a> {
    knowledge: &'a Knowledge,
    kitchen: &'a Kitchen,
    sampler: Sampler,
    faults: Vec<String>,
    /// Whether the method at hand splits molecules.
    splits: bool,
}

impl<'a> Bench<'a> {
    /// Foods on which a route is tried: those that it names, or the technique's and two of its group.
    fn foods(&self, route: Option<&Route>, technique: &Technique) -> Vec<&'a Food> {
        let demo = &self.knowledge.foods[&technique.demo_food];
        let named = route.map_or(&[][..], |route| &route.foods);
        let suits = |food: &&'a Food| match named {
            [] => food.group == demo.group,
            named => named.iter().any(|word| *word == food.id || *word == food.group),
        };
        let mut foods: Vec<&'a Food> = Vec::new();
        if suits(&demo) {
            foods.push(demo);
        }
        let others: Vec<&'a Food> = self.knowledge.foods.values().filter(suits).collect();
        // Spread over the group rather than its first letters.
        let step = (others.len() / 3).max(1);
        foods.extend(others.into_iter().step_by(step).filter(|food| food.id != demo.id));
        foods.truncate(3);
        foods
    }

    fn batches(&self, food: &Food) -> Vec<Batch> {
        feeds(&ingredient(food), self.knowledge, &self.sampler).unwrap()
    }

    fn run(
        &mut self,
        method: &str,
        moves: &[Move],
        gear: &[Vec<&Owned>],
        of: (&Technique, &Food),
    ) -> Option<Simulated> {
        let targets = Goals::of(of.0, &ValueMap::new(), self.knowledge).settings();
        let (none, words) = (ValueMap::new(), BTreeMap::new());
        let mut plans = Vec::new();
        for (index, one) in moves.iter().enumerate() {
            let name = format!("{method}/{index}");
            let sources = Sources {
                method: &name,
                appliances: &gear[index],
                supplies: &supplied(one, None, self.knowledge),
                food: &of.1.values,
                targets: &targets,
                laboratory: &none,
                words: &words,
            };
            match Plan::settle(one, self.knowledge, &sources, &self.sampler) {
                Ok(plan) => plans.push(plan),
                Err(error) => {
                    self.faults.push(format!("{method}: {error}"));
                    return None;
                }
            }
        }
        self.splits = moves.iter().any(|one| one.process == "enzyme");
        let feeds = self.batches(of.1);
        Some(simulate(&plans, &feeds, &self.kitchen.place, &self.sampler, false))
    }

    /// Notes what is wrong with a result.
    fn check(&mut self, method: &str, food: &Food, must_work: bool, done: &Simulated) {
        let splits = self.splits;
        let at = format!("{method} on {}", food.id);
        if done.working_share() < WORKS_IN {
            if must_work {
                let because = done.faulty.as_ref().map(|faulty| faulty.because.to_string());
                self.faults.push(format!("{at}: {}", because.unwrap_or_default()));
            }
            return;
        }
        for ((feed, product), balance) in done.feeds.iter().zip(&done.products).zip(&done.balance) {
            let gone_in = feed.contents + balance.added;
            let come_out = product.contents + balance.vapour + balance.left_behind + balance.other;
            // An enzyme turns one component into another; the whole stays what it was.
            let gap = match splits {
                true => (gone_in.total() - come_out.total()).kilograms().abs(),
                false => gone_in.difference(&come_out),
            };
            let sound = Component::ALL.iter().all(|one| product.contents[*one] >= -BALANCE);
            let time = product.elapsed - feed.elapsed;
            // A food that is as cold or as strong as it should be takes no time at all.
            let idle = product.temperature == feed.temperature
                && product.contents.difference(&feed.contents) <= BALANCE;
            let fault = if gap.is_nan() || gap > BALANCE {
                format!("masses differ by {gap:.3e} kg")
            } else if !sound || !product.temperature.kelvin().is_finite() {
                "a mass below zero, or no temperature".to_owned()
            } else if (time.seconds() <= 0.0 && !idle)
                || time.seconds().is_nan()
                || time.hours() >= 24.0 * LONGEST_DAYS
            {
                format!("it takes {:.3} h", time.hours())
            } else {
                continue;
            };
            self.faults.push(format!("{at}: {fault}"));
            return;
        }
    }
}

fn owned_of<'a>(all: &'a [Owned], moves: &[Move]) -> Vec<Vec<&'a Owned>> {
    let serving = |any_of: &Vec<String>| {
        let exact = any_of.iter().find_map(|role| all.iter().find(|owned| owned.id == *role));
        exact.or_else(|| {
            any_of.iter().find_map(|role| all.iter().find(|owned| owned.serves_as(role)))
        })
    };
    moves.iter().map(|one| one.uses.iter().filter_map(serving).collect()).collect()
}

#[test]
fn every_laboratory_method_runs_on_its_demonstration_food() {
    let knowledge = Knowledge::embedded().unwrap();
    let kitchen = kitchen(&knowledge);
    let everything: Vec<Owned> = knowledge.appliances.values().map(Owned::of).collect();
    let sampler = Sampler::new(SAMPLES, 1);
    let mut bench = Bench {
        knowledge: &knowledge,
        kitchen: &kitchen,
        sampler,
        faults: Vec::new(),
        splits: false,
    };
    for technique in knowledge.techniques.values() {
        let food = &knowledge.foods[&technique.demo_food];
        let gear = owned_of(&everything, &technique.moves);
        if let Some(done) = bench.run(&technique.id, &technique.moves, &gear, (technique, food)) {
            bench.check(&technique.id, food, true, &done);
        }
    }
    assert!(bench.faults.is_empty(), "{}", bench.faults.join("\n"));
}

#[test]
fn every_route_runs_on_foods_that_it_suits() {
    let knowledge = Knowledge::embedded().unwrap();
    let kitchen = kitchen(&knowledge);
    let sampler = Sampler::new(SAMPLES, 1);
    let mut bench = Bench {
        knowledge: &knowledge,
        kitchen: &kitchen,
        sampler,
        faults: Vec::new(),
        splits: false,
    };
    for route in knowledge.routes.values() {
        let fitted = fit(route, None, &kitchen, &knowledge);
        if !fitted.missing.is_empty() {
            bench.faults.push(format!("{}: {:?}", route.id, fitted.missing));
            continue;
        }
        for technique in route.serves.iter().map(|id| &knowledge.techniques[id]) {
            for (index, food) in bench.foods(Some(route), technique).into_iter().enumerate() {
                let of = (technique, food);
                let method = format!("{} for {}", route.id, technique.id);
                let Some(done) = bench.run(&method, &route.moves, &fitted.appliances, of) else {
                    break;
                };
                bench.check(&method, food, index == 0, &done);
            }
        }
    }
    assert!(bench.faults.is_empty(), "{}", bench.faults.join("\n"));
}

#[test]
fn every_technique_has_routes_and_every_route_says_when_to_stop() {
    let knowledge = Knowledge::embedded().unwrap();
    for technique in knowledge.techniques.values() {
        assert!(knowledge.routes_for(&technique.id).next().is_some(), "{}", technique.id);
    }
    for route in knowledge.routes.values() {
        let last = route.moves.last().unwrap();
        let by_sight = last.until.iter().any(|endpoint| endpoint.needs.is_empty());
        assert!(by_sight, "{} ends on nothing that a cook can see", route.id);
    }
}
