//! Every process model closes its mass and its energy over random batches and settings.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a test stops at the first fault, and the counts are its result"
)]

use std::collections::BTreeMap;

use rand_core::{Rng as _, SeedableRng as _};
use rand_pcg::Pcg64;
use standin::kitchen::{Kitchen, Place};
use standin::knowledge::{Knowledge, NoteClass};
use standin::physics::settling::SizeDistribution;
use standin::process::{
    Batch, Component, Contents, MODELS, Marker, ProcessError, Pulp, Run, Settings, model,
};
use standin::quantity::{Length, Mass, Temperature};

struct Draws(Pcg64);

impl Draws {
    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.0.next_u64() >> 11) as f64 / 9_007_199_254_740_992.0
    }
}

fn liquid(draws: &mut Draws) -> Batch {
    let mut contents = Contents::NONE;
    let mass = draws.between(0.2, 5.0);
    let mut rest = 1.0;
    for (component, most) in [
        (Component::Sugars, 0.25),
        (Component::Starch, 0.03),
        (Component::Fibre, 0.02),
        (Component::Protein, 0.04),
        (Component::Fat, 0.05),
        (Component::Acid, 0.02),
        (Component::Salt, 0.02),
        (Component::Other, 0.02),
        (Component::Ethanol, 0.03),
    ] {
        let share = draws.between(0.0, most);
        contents[component] = share * mass;
        rest -= share;
    }
    contents[Component::Water] = rest * mass;
    let mut batch = Batch::raw(contents, Temperature::from_celsius(draws.between(2.0, 25.0)));
    batch.monosaccharides = draws.between(0.0, 1.0);
    let dry = contents[Component::Fibre] * draws.between(0.1, 1.0);
    batch.pulp = Some(Pulp {
        dry: Mass::from_kilograms(dry),
        sizes: SizeDistribution::new(
            Length::from_micrometres(draws.between(1.0, 200.0)),
            draws.between(1.2, 3.5),
        )
        .unwrap(),
        density_difference: draws.between(5.0, 300.0),
        water_holding: draws.between(3.0, 30.0),
    });
    batch.aroma.push(Marker {
        class: NoteClass::Top,
        partition: draws.between(1e-4, 1e-1),
        slope_kelvin: draws.between(4000.0, 7000.0),
        log_p: draws.between(-1.0, 4.0),
        left: 1.0,
    });
    batch
}

/// Settings of a process: its defaults, drawn anew, and what no default gives.
fn settings(
    process: &str,
    extra: &[(&str, f64, f64)],
    draws: &mut Draws,
    knowledge: &Knowledge,
) -> (Vec<String>, Vec<f64>) {
    let mut all = BTreeMap::new();
    for (name, parameter) in &knowledge.processes[process].parameters {
        if let Some(default) = &parameter.default {
            let u = draws.between(0.0, 1.0);
            all.insert(name.clone(), default.estimate.quantile(u));
        }
    }
    for (name, low, high) in extra {
        all.insert((*name).to_owned(), draws.between(*low, *high));
    }
    all.into_iter().unzip()
}

fn check(process: &str, feed: &Batch, run: &Run) {
    let into = feed.contents + run.added;
    let gap = into.difference(&run.all_out());
    assert!(gap < 1e-9, "{process}: mass gap {gap} kg");
    assert!(run.energy.gap().abs() < 1e-6, "{process}: energy gap {}", run.energy.gap());
    for stream in &run.streams {
        assert!(stream.batch.contents.is_sound(), "{process}: {:?}", stream.batch.contents);
        assert!(stream.batch.heat.cooked.si().is_finite());
        assert!(stream.batch.aroma.iter().all(|m| (0.0..=1.0).contains(&m.left)));
    }
    assert!(run.time.si().is_finite() && run.time.si() >= 0.0, "{process}: {:?}", run.time);
}

type Case =
    (&'static str, &'static [(&'static str, &'static str)], &'static [(&'static str, f64, f64)]);

/// Process, words, and the settings that no default gives, with their ranges in SI.
const CASES: &[Case] = &[
    (
        "evaporate",
        &[("heat", "hob")],
        &[
            ("power", 800.0, 3500.0),
            ("transfer_efficiency", 0.3, 0.9),
            ("diameter", 0.16, 0.34),
            ("volume", 2e-3, 8e-3),
            ("target_soluble_solids", 0.2, 0.7),
        ],
    ),
    (
        "evaporate",
        &[("heat", "bath")],
        &[
            ("pressure", 4e3, 12e3),
            ("bath_temperature", 330.0, 345.0),
            ("heated_area", 0.02, 0.1),
            ("condenser_temperature", 272.0, 283.0),
            ("condenser_area", 0.1, 0.4),
            ("target_soluble_solids", 0.2, 0.7),
        ],
    ),
    (
        "evaporate",
        &[("heat", "jacket")],
        &[
            ("bath_temperature", 390.0, 420.0),
            ("heated_area", 0.05, 0.4),
            ("target_soluble_solids", 0.2, 0.7),
        ],
    ),
    (
        "evaporate",
        &[("heat", "air")],
        &[
            ("air_temperature", 308.0, 335.0),
            ("tray_area", 0.2, 1.0),
            ("air_speed", 0.5, 3.0),
            ("target_soluble_solids", 0.2, 0.5),
        ],
    ),
    (
        "freeze-concentrate",
        &[("freezing", "block")],
        &[
            ("freezer_temperature", 245.0, 262.0),
            ("passes", 1.0, 3.0),
            ("target_soluble_solids", 0.2, 0.6),
        ],
    ),
    ("freeze-concentrate", &[("freezing", "stirred")], &[("freezer_temperature", 245.0, 262.0)]),
    (
        "spin",
        &[],
        &[
            ("rotation", 10.0, 120.0),
            ("outer_radius", 0.1, 0.2),
            ("liquid_depth", 0.03, 0.08),
            ("volume", 1e-4, 4e-3),
            ("time", 60.0, 3600.0),
        ],
    ),
    ("settle", &[], &[("liquid_depth", 0.05, 0.25), ("time", 3600.0, 172_800.0)]),
    (
        "filter",
        &[("medium", "cloth")],
        &[("opening", 1e-5, 3e-4), ("pressure_difference", 500.0, 9e4), ("filter_area", 0.01, 0.1)],
    ),
    (
        "set-and-thaw",
        &[("way", "freeze-thaw")],
        &[
            ("gel_dose", 0.002, 0.008),
            ("drip_yield", 0.5, 0.85),
            ("dissolving_temperature", 330.0, 371.0),
            ("setting_time", 3600.0, 1e5),
            ("dripping_time", 3600.0, 1e5),
        ],
    ),
];

/// Runs of each case; `STANDIN_RUNS` asks for more.
fn runs() -> usize {
    let asked = std::env::var("STANDIN_RUNS").ok();
    asked.and_then(|text| text.parse().ok()).unwrap_or(2000)
}

#[test]
fn mass_and_energy_close_in_random_runs() {
    let knowledge = Knowledge::embedded().unwrap();
    let kitchen = Kitchen::read("name = \"bare\"", "test", &knowledge).unwrap();
    let place: &Place = &kitchen.place;
    let mut draws = Draws(Pcg64::seed_from_u64(7));
    for (process, words, extra) in CASES {
        let modes: BTreeMap<String, String> =
            words.iter().map(|(k, v)| ((*k).to_owned(), (*v).to_owned())).collect();
        let (name, run_model) = model(process).unwrap();
        let mut worked = 0;
        for _ in 0..runs() {
            let feed = liquid(&mut draws);
            let (names, values) = settings(process, extra, &mut draws, &knowledge);
            let trace = worked == 0;
            let settings = Settings {
                process: name,
                names: &names,
                values: &values,
                modes: &modes,
                place,
                trace,
            };
            match run_model(&feed, &settings) {
                Ok(run) => {
                    check(process, &feed, &run);
                    worked += 1;
                }
                Err(ProcessError::CannotWork { .. } | ProcessError::Physics(_)) => {}
                Err(other) => panic!("{process}: {other}"),
            }
        }
        println!("random runs: {process} {words:?}: {} runs, {worked} gave a result", runs());
        assert!(2 * worked > runs(), "{process} {words:?} worked in {worked} runs only");
    }
}

#[test]
fn every_model_is_run_at_random_somewhere() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests");
    let tests: String = ["process_balance.rs", "process_heat.rs", "process_mix.rs"]
        .iter()
        .map(|name| std::fs::read_to_string(folder.join(name)).unwrap())
        .collect();
    for (name, _) in MODELS {
        assert!(tests.contains(&format!("\"{name}\"")), "`{name}` is not run at random");
    }
}
