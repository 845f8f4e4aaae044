//! Choosing routes for the whole dish: exact search against brute force, bounded search, wishes, and a
//! dish for which choosing step by step is wrong.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first fault")]

use standin::advisor::{
    AdaptError, Adaptation, Advice, Bench, Combination, MOST_EXACT, Pin, Prefer, Sampler, Wishes,
    adapt_to,
};
use standin::kitchen::Kitchen;
use standin::knowledge::load::{File, built_in};
use standin::knowledge::{Knowledge, Layer};
use standin::quantity::{Measures, Time};
use standin::recipe::{Recipe, Task};

const KITCHEN: &str = include_str!("../examples/keen-cook.toml");

fn kitchen(text: &str, knowledge: &Knowledge) -> Kitchen {
    Kitchen::read(text, "kitchen", knowledge).unwrap()
}

fn recipe(text: &str, knowledge: &Knowledge) -> Recipe {
    Recipe::read(text, "recipe", knowledge, Measures::Metric).unwrap()
}

/// Two professional steps in a row, the second on a share of what the first makes.
fn two_steps(food: &str, amount: &str, brix: &str, share: &str) -> String {
    format!(
        r#"
title = "generated"
[[ingredient]]
id = "juice"
food = "{food}"
amount = "{amount}"
[[step]]
technique = "centrifuge-clarification"
uses = ["juice"]
makes = "clear"
keep = true
[[step]]
technique = "vacuum-concentration"
uses = ["clear: {share}"]
makes = "syrup"
[step.targets]
soluble-solids = "{brix}"
"#
    )
}

/// The routes that the dish takes, by step.
fn taken(done: &Adaptation) -> Vec<Option<String>> {
    let of = |advice: &Advice| match advice {
        Advice::Professional(advice) => advice.routes.first().map(|route| route.id.clone()),
        Advice::Plain(_) => None,
    };
    done.steps.iter().map(|step| of(&step.advice)).collect()
}

/// Every combination of routes that can be pinned, each carried through on its own.
fn brute_force(recipe: &Recipe, bench: &Bench<'_>, prefer: Prefer) -> Vec<Combination> {
    let mut pinned: Vec<Vec<Pin>> = vec![Vec::new()];
    for (step, one) in recipe.steps.iter().enumerate() {
        let Task::Professional(task) = &one.task else { continue };
        let routes: Vec<_> = bench.knowledge.routes_for(&task.technique).collect();
        pinned = pinned
            .into_iter()
            .flat_map(|before| {
                routes.iter().map(move |route| {
                    let mut pins = before.clone();
                    pins.push(Pin { step, route: route.id.clone() });
                    pins
                })
            })
            .collect();
    }
    let mut found = Vec::new();
    for pins in pinned {
        match adapt_to(recipe, bench, &Wishes { prefer, pins, ..Wishes::default() }) {
            Ok(done) => found.push(done.choice.best),
            Err(AdaptError::Pin { .. }) => {}
            Err(error) => panic!("{error}"),
        }
    }
    found
}

#[test]
fn the_exact_search_finds_what_brute_force_finds() {
    let knowledge = Knowledge::embedded().unwrap();
    let kitchen = kitchen(KITCHEN, &knowledge);
    let sampler = Sampler::new(8, 3);
    let bench = Bench { knowledge: &knowledge, kitchen: &kitchen, sampler: &sampler };
    let cases = [
        ("pear-juice", "2 kg", "55 °Brix", "half", Prefer::Flavour),
        ("tomato-juice", "900 g", "30 °Brix", "all", Prefer::Time),
        ("apple-juice", "3 kg", "40 °Brix", "a third", Prefer::Effort),
        ("orange-juice", "1.2 kg", "35 °Brix", "80 %", Prefer::Cost),
    ];
    for (food, amount, brix, share, prefer) in cases {
        let recipe = recipe(&two_steps(food, amount, brix, share), &knowledge);
        let done = adapt_to(&recipe, &bench, &Wishes { prefer, ..Wishes::default() }).unwrap();
        assert!(done.choice.exact && done.choice.combinations <= MOST_EXACT);
        let all = brute_force(&recipe, &bench, prefer);
        assert!(all.len() > 4, "{food}: only {} combinations", all.len());
        let best = all.iter().min_by(|a, b| a.compare(b, prefer)).unwrap();
        assert_eq!(done.choice.best, *best, "{food}");
        assert_eq!(taken(&done), best.routes, "{food}: the dish takes the route that was chosen");
    }
}

const THREE_STEPS: &str = r#"
title = "three steps"
[[ingredient]]
id = "juice"
food = "orange-juice"
amount = "2 kg"
[[step]]
technique = "centrifuge-clarification"
uses = ["juice"]
makes = "clear"
[[step]]
technique = "vacuum-concentration"
uses = ["clear: half"]
makes = "syrup"
[step.targets]
soluble-solids = "40 °Brix"
[[step]]
technique = "vacuum-concentration"
uses = ["clear: rest"]
makes = "thin syrup"
[step.targets]
soluble-solids = "25 °Brix"
[[step]]
work = "Stir them together."
uses = ["syrup", "thin syrup"]
makes = "dish"
"#;

#[test]
fn the_bounded_search_is_deterministic_and_says_that_it_is_bounded() {
    let knowledge = Knowledge::embedded().unwrap();
    let kitchen = kitchen(KITCHEN, &knowledge);
    let recipe = recipe(THREE_STEPS, &knowledge);
    let run = || {
        let sampler = Sampler::new(16, 1);
        let bench = Bench { knowledge: &knowledge, kitchen: &kitchen, sampler: &sampler };
        adapt_to(&recipe, &bench, &Wishes::default()).unwrap()
    };
    let (first, second) = (run(), run());
    assert!(!first.choice.exact && first.choice.combinations > MOST_EXACT);
    assert!(first.choice.tried < first.choice.combinations);
    assert_eq!(format!("{first:?}"), format!("{second:?}"));
}

#[test]
fn two_branches_wait_for_the_one_pan() {
    let knowledge = Knowledge::embedded().unwrap();
    let text = "name = \"bare\"\nsupplies = [\"cotton-cloth\"]\n[appliances.gas-hob]\n\
                [appliances.wide-pan]\n[appliances.scale]\n[appliances.sieve]\n\
                [appliances.bowl]\n[appliances.refrigerator]\n";
    let kitchen = kitchen(text, &knowledge);
    let recipe = recipe(THREE_STEPS, &knowledge);
    let sampler = Sampler::new(32, 1);
    let bench = Bench { knowledge: &knowledge, kitchen: &kitchen, sampler: &sampler };
    let pins = [1, 2].map(|step| Pin { step, route: "wide-pan-boil".to_owned() }).to_vec();
    let done = adapt_to(&recipe, &bench, &Wishes { pins, ..Wishes::default() }).unwrap();
    assert!(done.steps[1].wait.is_none());
    let wait = done.steps[2].wait.as_ref().unwrap();
    assert_eq!(wait.appliance, "wide-pan");
    assert!(wait.time.typical() > 60.0, "{wait:?}");
}

/// An invented technique whose tempting routes spoil the next step: one waters the juice, one sugars
/// it beyond the strength that the next step is to reach.
const TEMPTING: &str = r#"
[[technique]]
id = "test-finishing"
name = "test finishing"
summary = "Stirs."
achieves = "Nothing is added and nothing lost."
goals = ["test-fresh"]
compare = ["aroma-middle"]
demo_food = "pear-juice"
[[technique.move]]
process = "mix"
uses = ["magnetic-stirrer"]
modes = { way = "dilute" }
do = "Stir."
[technique.move.settings]
addition = { typical = 0, unit = "%", source = "estimate: invented" }
[[route]]
id = "test-shop"
name = "test shop"
summary = "Buys."
serves = ["test-finishing"]
hands_on = { typical = 5, unit = "min", source = "estimate: invented" }
source = "estimate: invented"
[[route.move]]
process = "buy"
do = "Buy it."
until = [{ says = "stop when it is paid" }]
[route.move.settings]
target_soluble_solids = { typical = 20, unit = "°Brix", source = "estimate: invented" }

[[goal]]
id = "test-fresh"
name = "fresh smell"
summary = "It smells of the fruit."
attribute = "aroma-middle"
target = { typical = 20, unit = "%", source = "estimate: invented" }
reach = "at least"

[[technique]]
id = "test-stirring"
name = "test stirring"
summary = "Stirs."
achieves = "Nothing is added and nothing lost."
goals = ["test-fresh"]
compare = ["aroma-middle"]
demo_food = "pear-juice"
[[technique.move]]
process = "mix"
uses = ["magnetic-stirrer"]
modes = { way = "dilute" }
do = "Stir."
[technique.move.settings]
addition = { typical = 0, unit = "%", source = "estimate: invented" }
aroma_lost = { typical = 0, unit = "1", source = "estimate: invented" }
"#;

fn tempting_route(id: &str, addition: &str, sugar: &str, lost: &str) -> String {
    format!(
        r#"
[[route]]
id = "{id}"
name = "{id}"
summary = "Stirs."
serves = ["test-stirring"]
hands_on = {{ typical = 5, unit = "min", source = "estimate: invented" }}
source = "estimate: invented"
[[route.move]]
process = "mix"
uses = ["bowl"]
modes = {{ way = "dilute" }}
do = "Stir."
until = [{{ says = "stop when it is even" }}]
[route.move.settings]
addition = {{ typical = {addition}, unit = "%", source = "estimate: invented" }}
added_sugars = {{ typical = {sugar}, unit = "%", source = "estimate: invented" }}
aroma_lost = {{ typical = {lost}, unit = "1", source = "estimate: invented" }}
"#
    )
}

/// Stirs as invented, then makes a syrup by another technique.
fn tempted(technique: &str, brix: &str) -> String {
    format!(
        r#"
title = "tempted"
[[ingredient]]
id = "juice"
food = "pear-juice"
amount = "1 kg"
[[step]]
technique = "test-stirring"
uses = ["juice"]
makes = "stirred"
[[step]]
technique = "{technique}"
uses = ["stirred"]
makes = "syrup"
[step.targets]
soluble-solids = "{brix}"
"#
    )
}

/// Adapts with an honest route that loses some aroma, and a tempting one that loses none.
fn with_temptation(id: &str, addition: &str, sugar: &str, gear: &str, recipe: &str) -> Adaptation {
    let mut text = TEMPTING.to_owned();
    text.push_str(&tempting_route("test-honest", "0", "0", "0.35"));
    text.push_str(&tempting_route(id, addition, sugar, "0"));
    let own = File { path: "tempting.toml".to_owned(), text };
    let layer = Layer { name: "tempting".to_owned(), files: vec![own] };
    let knowledge = Knowledge::from_layers(&[built_in(), layer])
        .unwrap_or_else(|error| panic!("{:#?}", error.findings));
    let kitchen = kitchen(&format!("name = \"bare\"\n{gear}"), &knowledge);
    let recipe = self::recipe(recipe, &knowledge);
    let sampler = Sampler::new(100, 1);
    let bench = Bench { knowledge: &knowledge, kitchen: &kitchen, sampler: &sampler };
    adapt_to(&recipe, &bench, &Wishes::default()).unwrap()
}

/// Asserts that the honest route is taken though it loses more alone; returns why the other is not.
fn honest_though_worse_alone(done: &Adaptation, tempting: &str) -> String {
    let Advice::Professional(stirring) = &done.steps[0].advice else { panic!("no advice") };
    assert_eq!(stirring.routes[0].id, "test-honest");
    let worst = |id: &str| stirring.routes.iter().find(|r| r.id == id).unwrap().score.worst;
    assert!(worst(tempting) < worst("test-honest"), "alone, {tempting} loses less");
    let reason = stirring.reasons[tempting].clone();
    assert!(reason.starts_with("better in this step alone, but with it"), "{reason}");
    reason
}

#[test]
fn a_route_that_dilutes_is_left_out_for_the_step_after_it() {
    let gear = "[appliances.gas-hob]\n[appliances.wide-pan]\n[appliances.bowl]\n";
    let recipe = tempted("vacuum-concentration", "50 °Brix");
    let done = with_temptation("test-watered", "200", "0", gear, &recipe);
    let reason = honest_though_worse_alone(&done, "test-watered");
    assert!(reason.contains("syrup loses more: cooked flavour"), "{reason}");
}

#[test]
fn a_product_that_the_next_step_cannot_use_is_not_made() {
    // What is sold at 20 °Brix does not stand in for a syrup of 80 °Brix.
    let recipe = tempted("test-finishing", "10 °Brix");
    let gear = "[appliances.bowl]\n";
    let done = with_temptation("test-sugared", "400", "100", gear, &recipe);
    let reason = honest_though_worse_alone(&done, "test-sugared");
    assert!(reason.contains("no route works for syrup"), "{reason}");
}

#[test]
fn a_pin_is_taken_or_refused_with_what_is_missing() {
    let knowledge = Knowledge::embedded().unwrap();
    let kitchen = kitchen(KITCHEN, &knowledge);
    let recipe = recipe(&two_steps("pear-juice", "2 kg", "55 °Brix", "all"), &knowledge);
    let sampler = Sampler::new(16, 1);
    let bench = Bench { knowledge: &knowledge, kitchen: &kitchen, sampler: &sampler };
    let pinned = |route: &str| {
        let pins = vec![Pin { step: 1, route: route.to_owned() }];
        adapt_to(&recipe, &bench, &Wishes { pins, ..Wishes::default() })
    };
    assert_eq!(taken(&pinned("wide-pan-boil").unwrap())[1].as_deref(), Some("wide-pan-boil"));
    let refused = pinned("warm-pan-fan").unwrap_err().to_string();
    assert!(refused.contains("fan"), "{refused}");
    let wrong = pinned("overnight-drip").unwrap_err().to_string();
    assert!(wrong.contains("does not stand in for vacuum concentration"), "{wrong}");
}

#[test]
fn a_limit_of_time_is_kept_or_refused() {
    let knowledge = Knowledge::embedded().unwrap();
    let kitchen = kitchen(KITCHEN, &knowledge);
    // No shop sells quince concentrate, which would be the fastest and leave nothing to limit.
    let recipe = recipe(&two_steps("quince-juice", "2 kg", "55 °Brix", "all"), &knowledge);
    let sampler = Sampler::new(200, 1);
    let bench = Bench { knowledge: &knowledge, kitchen: &kitchen, sampler: &sampler };
    let within = |hours: f64| {
        let within = Some(Time::from_hours(hours));
        adapt_to(&recipe, &bench, &Wishes { within, ..Wishes::default() }).unwrap()
    };
    let longest = |done: &Adaptation| done.time.unwrap().high() / 3600.0;
    let free = adapt_to(&recipe, &bench, &Wishes::default()).unwrap();
    let half = within(longest(&free) / 2.0);
    assert!(half.within.unwrap().fits && longest(&half) <= longest(&free) / 2.0);
    let none = within(0.01);
    assert!(!none.within.unwrap().fits && none.says_no());
    assert!(longest(&none) <= longest(&half), "the fastest is shown");
}

#[test]
fn preferences_move_the_choice_their_way() {
    let knowledge = Knowledge::embedded().unwrap();
    let kitchen = kitchen(KITCHEN, &knowledge);
    let recipe = recipe(&two_steps("pear-juice", "2 kg", "55 °Brix", "all"), &knowledge);
    let sampler = Sampler::new(64, 1);
    let bench = Bench { knowledge: &knowledge, kitchen: &kitchen, sampler: &sampler };
    let mark = |prefer| {
        let wishes = Wishes { prefer, ..Wishes::default() };
        adapt_to(&recipe, &bench, &wishes).unwrap().choice.best.mark
    };
    let flavour = mark(Prefer::Flavour);
    let (time, effort, cost) = (mark(Prefer::Time), mark(Prefer::Effort), mark(Prefer::Cost));
    assert!(time.time <= flavour.time);
    assert!(effort.effort <= flavour.effort);
    assert!(cost.cost.money.typical() <= flavour.cost.money.typical());
    for other in [&time, &effort, &cost] {
        assert_eq!(other.verdict(), flavour.verdict(), "no preference gives up a verdict");
    }
}
