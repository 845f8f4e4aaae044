//! The plan of the work: as it is printed and drawn, and when it lets food stand warm.

#![allow(clippy::unwrap_used, reason = "a test stops at the first fault")]

use std::path::{Path, PathBuf};
use std::process::Command;

use insta::{Settings, assert_snapshot};
use serde_json::Value;

/// Two recipes with a plan worth looking at: kitchen, recipe, and what fixes the clock.
const PLANS: [(&str, &str, [&str; 2]); 2] = [
    ("family-kitchen", "pear-treacle", ["--ready-at", "19:00"]),
    ("keen-cook", "set-mussel-broth", ["--start-at", "09:00"]),
];

/// Carrots held hot, then dressed by hand.
const RECIPE: &str = r#"
title = "Dressed carrots"
[[ingredient]]
id = "carrot"
food = "carrot"
amount = "1 kg"
temperature = "20 °C"
[[step]]
technique = "water-bath-cooking"
uses = ["carrot"]
makes = "held carrots"
[step.laboratory]
hold_temperature = "85 °C"
[[step]]
work = "Slice and dress them."
uses = ["held carrots"]
makes = "dressed carrots"
hands_on = "30 min"
time = "30 min"
"#;

const KITCHEN: &str = r#"
name = "bench"
supplies = ["zip-top-bags"]
[appliances.electric-hob]
[appliances.stockpot]
[appliances.thermometer-probe]
"#;

const REFRIGERATOR: &str = "[appliances.refrigerator]\ntemperature = \"3 °C\"\n";

fn standin(arguments: &[&str]) -> String {
    let done = Command::new(env!("CARGO_BIN_EXE_standin"))
        .args(arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .env_remove("COLUMNS")
        .env("NO_COLOR", "1")
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&done.stderr);
    assert!(matches!(done.status.code(), Some(0 | 1)), "{arguments:?}: {said}");
    String::from_utf8(done.stdout).unwrap()
}

/// Adapts a recipe of the example book to one of its kitchens.
fn planned(kitchen: &str, recipe: &str, clock: [&str; 2], format: &str) -> String {
    let recipe = format!("examples/book/recipes/{recipe}.toml");
    let kitchen = format!("examples/book/kitchens/{kitchen}.toml");
    let all = ["adapt", &recipe, "--kitchen", &kitchen, "--samples", "100", "--format", format];
    standin(&[&all[..], &clock].concat())
}

fn in_folder() -> impl Drop {
    let mut settings = Settings::clone_current();
    settings.set_snapshot_path("snapshots/timeline");
    settings.set_prepend_module_to_snapshot(false);
    settings.set_omit_expression(true);
    settings.bind_to_scope()
}

#[test]
fn a_plan_is_printed_for_a_terminal() {
    let _folder = in_folder();
    for (kitchen, recipe, clock) in PLANS {
        let printed = planned(kitchen, recipe, clock, "table");
        let (_, rest) = printed.split_once("When to do what\n").unwrap();
        let (plan, _) = rest.split_once("\nHow sure these numbers are").unwrap();
        assert_snapshot!(format!("{recipe} in a terminal"), plan);
    }
}

#[test]
fn a_plan_is_drawn_for_a_page() {
    let _folder = in_folder();
    for (kitchen, recipe, clock) in PLANS {
        let page = planned(kitchen, recipe, clock, "html");
        let drawing = page.split("<svg").find(|part| part.contains(">The plan</title>")).unwrap();
        let (drawing, _) = drawing.split_once("</svg>").unwrap();
        assert_snapshot!(format!("{recipe} drawn"), drawing.replace("><", ">\n<"));
    }
}

/// Writes the recipe and a kitchen into a folder of this test.
fn written(name: &str, kitchen: &str) -> (PathBuf, PathBuf) {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    std::fs::create_dir_all(&folder).unwrap();
    let (recipe, home) = (folder.join("carrots.toml"), folder.join("bench.toml"));
    std::fs::write(&recipe, RECIPE).unwrap();
    std::fs::write(&home, kitchen).unwrap();
    (recipe, home)
}

/// The plan of the carrots in a kitchen, ready at a time of day.
fn carrots(name: &str, kitchen: &str, ready_at: &str) -> Value {
    let (recipe, home) = written(name, kitchen);
    let all = ["adapt", recipe.to_str().unwrap(), "--kitchen", home.to_str().unwrap()];
    let rest = ["--samples", "100", "--ready-at", ready_at, "--format", "json"];
    let printed = standin(&[&all[..], &rest].concat());
    serde_json::from_str::<Value>(&printed).unwrap()["timeline"].clone()
}

#[test]
fn hot_food_that_waits_overnight_is_warned_of() {
    let kitchen = format!("{KITCHEN}{REFRIGERATOR}");
    let plan = carrots("overnight", &kitchen, "07:35");
    let wait = &plan["waits"][0];
    assert_eq!(wait["product"], "held carrots", "{plan:#}");
    let (time, warm) = (wait["time_s"].as_f64().unwrap(), wait["warm_s"].as_f64().unwrap());
    assert!(time > 8.0 * 3600.0, "the night lies between");
    // A layer 5 cm deep is out of 54.4 °C and not yet at 5 °C for more than four hours of it.
    assert!(warm > 4.0 * 3600.0 && warm < time, "{warm} of {time}");
    assert_eq!(plan["warnings"][0]["refuses"], true, "{plan:#}");
}

#[test]
fn without_a_refrigerator_the_whole_night_is_warm() {
    let plan = carrots("no-cold-place", KITCHEN, "07:35");
    assert_eq!(plan["waits"][0]["time_s"], plan["waits"][0]["warm_s"], "{plan:#}");
    assert_eq!(plan["warnings"][0]["refuses"], true);
}

#[test]
fn the_same_dish_for_the_evening_does_not_wait() {
    let kitchen = format!("{KITCHEN}{REFRIGERATOR}");
    let plan = carrots("evening", &kitchen, "19:00");
    assert!(plan["waits"].as_array().unwrap().is_empty(), "{plan:#}");
    assert!(plan["warnings"].as_array().unwrap().is_empty(), "{plan:#}");
}
