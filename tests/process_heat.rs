//! The process models of heat and cold: balances over random foods and settings, and laws that a
//! cook would notice to be broken.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a test stops at the first fault, and the counts are its result"
)]

use std::collections::BTreeMap;
use std::sync::LazyLock;

use rand_core::{Rng as _, SeedableRng as _};
use rand_pcg::Pcg64;
use standin::kitchen::Place;
use standin::knowledge::{Knowledge, NoteClass};
use standin::process::{
    Batch, Carrier, Component, Contents, Germ, Ice, Marker, ProcessError, Run, Settings, model,
};
use standin::quantity::{Length, Mass, Pressure, Temperature};

/// Runs for each model; `STANDIN_RUNS` asks for more.
const RUNS: u32 = 3000;

/// A range of a setting in SI for one model, and words by mode.
struct Ranges {
    process: &'static str,
    given: &'static [(&'static str, f64, f64)],
    modes: &'static [(&'static str, &'static [&'static str])],
    /// Share of the runs that must give a result.
    works: f64,
}

const CELSIUS: f64 = 273.15;

const RANGES: &[Ranges] = &[
    Ranges {
        process: "dry",
        given: &[
            ("air_temperature", CELSIUS + 30.0, CELSIUS + 80.0),
            ("power_per_mass", 200.0, 3000.0),
        ],
        modes: &[
            ("medium", &["air", "oven", "sun", "desiccant", "microwave"]),
            ("form", &["slab", "cylinder", "sphere"]),
            ("faces", &["both", "one"]),
        ],
        works: 0.6,
    },
    Ranges {
        process: "freeze-dry",
        given: &[
            ("shelf_temperature", CELSIUS - 20.0, CELSIUS + 40.0),
            ("freezer_temperature", CELSIUS - 30.0, CELSIUS - 10.0),
        ],
        modes: &[("place", &["chamber", "freezer"]), ("heat", &["shelf", "radiant"])],
        works: 0.4,
    },
    Ranges {
        process: "chill",
        given: &[
            ("medium_temperature", CELSIUS - 25.0, CELSIUS + 4.5),
            ("vessel_diameter", 0.1, 0.4),
        ],
        modes: &[
            ("medium", &["ice-bath", "still-air", "moving-air", "blast", "brine", "plate"]),
            ("form", &["slab", "cylinder", "sphere", "vessel", "stirred-vessel"]),
        ],
        works: 0.6,
    },
    Ranges {
        process: "freeze",
        given: &[
            ("medium_temperature", CELSIUS - 196.0, CELSIUS - 12.0),
            ("vessel_diameter", 0.1, 0.4),
        ],
        modes: &[
            (
                "medium",
                &[
                    "still-air",
                    "moving-air",
                    "blast",
                    "plate",
                    "brine",
                    "spirit",
                    "dry-ice",
                    "nitrogen",
                ],
            ),
            ("form", &["slab", "cylinder", "sphere", "vessel"]),
        ],
        works: 0.5,
    },
    Ranges {
        process: "churn",
        given: &[("freezer_temperature", CELSIUS - 30.0, CELSIUS - 10.0), ("volume", 5e-4, 3e-3)],
        modes: &[("way", &["machine", "bowl", "bucket", "hand", "fork", "nitrogen"])],
        works: 0.4,
    },
    Ranges {
        process: "store",
        given: &[("freezer_temperature", CELSIUS - 35.0, CELSIUS - 4.0)],
        modes: &[],
        works: 0.5,
    },
    Ranges {
        process: "hold",
        given: &[
            ("hold_temperature", CELSIUS + 50.0, CELSIUS + 95.0),
            ("hold_time", 60.0, 20_000.0),
            ("vessel_diameter", 0.1, 0.4),
        ],
        modes: &[
            ("medium", &["bath", "pot", "box", "oven"]),
            ("form", &["slab", "cylinder", "sphere", "vessel", "stirred-vessel"]),
        ],
        works: 0.9,
    },
    Ranges {
        process: "pressure-cook",
        given: &[
            ("gauge_pressure", 0.0, 210e3),
            ("hold_time", 60.0, 10_000.0),
            ("added_water", 0.0, 2.0),
            ("vessel_diameter", 0.1, 0.4),
        ],
        modes: &[
            ("release", &["natural", "quick"]),
            ("alkali", &["none", "soda"]),
            ("form", &["slab", "cylinder", "sphere", "vessel", "stirred-vessel"]),
        ],
        works: 0.8,
    },
];

/// Draws of a seeded generator.
struct Draws(Pcg64);

impl Draws {
    fn unit(&mut self) -> f64 {
        (self.0.next_u64() >> 11) as f64 / 9_007_199_254_740_992.0
    }
    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }
    fn word(&mut self, words: &[&'static str]) -> &'static str {
        let mut left = self.unit() * words.len() as f64;
        for word in words {
            left -= 1.0;
            if left < 0.0 {
                return word;
            }
        }
        words[0]
    }

    /// A food between water-ice and stew, now and then with alcohol or nearly dry.
    fn batch(&mut self) -> Batch {
        let mass = 10f64.powf(self.between(-1.5, 1.0));
        let mut contents = Contents::NONE;
        let mut share = |component, most: f64| {
            let low = self.unit();
            contents[component] = mass * most * low * low;
        };
        share(Component::Sugars, 0.25);
        share(Component::Starch, 0.2);
        share(Component::Fibre, 0.06);
        share(Component::Protein, 0.2);
        share(Component::Fat, 0.2);
        share(Component::Acid, 0.03);
        share(Component::Salt, 0.02);
        share(Component::Ethanol, 0.05);
        share(Component::Other, 0.02);
        let rest = mass - contents.total().kilograms();
        contents[Component::Water] = rest.max(0.02 * mass);
        let start = Temperature::from_celsius(self.between(2.0, 90.0));
        let mut batch = Batch::raw(contents, start);
        batch.monosaccharides = self.unit();
        batch.pores = self.between(0.0, 0.25);
        batch.aroma.push(Marker {
            class: NoteClass::Middle,
            partition: 10f64.powf(self.between(-5.0, -1.0)),
            slope_kelvin: 5500.0,
            log_p: 2.0,
            left: 1.0,
        });
        batch
    }

    fn place(&mut self) -> Place {
        Place {
            pressure: Pressure::from_kilopascals(self.between(62.0, 103.0)),
            room_temperature: Temperature::from_celsius(self.between(15.0, 30.0)),
            room_humidity: self.between(0.2, 0.8),
            ..Place::default()
        }
    }
}

fn runs() -> u32 {
    let asked = std::env::var("STANDIN_RUNS").ok();
    asked.and_then(|text| text.parse().ok()).unwrap_or(RUNS)
}

fn knowledge() -> &'static Knowledge {
    static SHIPPED: LazyLock<Knowledge> = LazyLock::new(|| Knowledge::embedded().unwrap());
    &SHIPPED
}

/// Numbers by name for a process: the given ones over the defaults at a draw.
fn numbers(
    knowledge: &Knowledge,
    process: &str,
    given: &[(&str, f64)],
    mut draw: impl FnMut() -> f64,
) -> (Vec<String>, Vec<f64>) {
    let mut all = BTreeMap::new();
    for (name, parameter) in &knowledge.processes.get(process).unwrap().parameters {
        if let Some(default) = &parameter.default {
            all.insert(name.clone(), default.estimate.quantile(draw()));
        }
    }
    for (name, value) in given {
        all.insert((*name).to_owned(), *value);
    }
    all.into_iter().unzip()
}

fn run(
    process: &str,
    feed: &Batch,
    (names, values): &(Vec<String>, Vec<f64>),
    modes: &[(&str, &str)],
    place: &Place,
) -> Result<Run, ProcessError> {
    let (process, model) = model(process).unwrap();
    let modes: BTreeMap<String, String> =
        modes.iter().map(|(mode, word)| ((*mode).to_owned(), (*word).to_owned())).collect();
    model(feed, &Settings { process, names, values, modes: &modes, place, trace: true })
}

fn check(feed: &Batch, run: &Run, what: &str) {
    let fed = feed.contents + run.added;
    let gap = fed.difference(&run.all_out()) / fed.total().kilograms();
    assert!(gap < 1e-9, "{what}: mass is out by {gap:e}");
    assert!(run.energy.gap().abs() < 1e-6, "{what}: energy is out by {:e}", run.energy.gap());
    assert!(run.energy.supplied.joules().is_finite(), "{what}: {:?}", run.energy);
    assert!(run.vapour.is_sound() && run.left_behind.is_sound(), "{what}: {:?}", run.vapour);
    assert!(run.time.seconds() >= 0.0 && run.time.seconds().is_finite(), "{what}: {:?}", run.time);
    assert!(run.attended.seconds() >= 0.0 && run.attended.seconds().is_finite(), "{what}");
    for (name, value) in &run.told {
        assert!(value.is_finite(), "{what}: {name} is {value}");
    }
    for stream in &run.streams {
        let batch = &stream.batch;
        assert!(batch.contents.is_sound(), "{what}: {:?}", batch.contents);
        let heat = &batch.heat;
        for value in [
            batch.temperature.kelvin(),
            batch.volume_left,
            batch.air,
            heat.cooked.seconds(),
            heat.pasteurised.seconds(),
            heat.sterilised.seconds(),
            heat.browning.seconds(),
            heat.warm.seconds(),
            heat.kills[Germ::Salmonella],
            heat.kills[Germ::Botulinum],
        ] {
            assert!(value.is_finite() && value >= 0.0, "{what}: {batch:?}");
        }
        for share in [heat.vitamin_c, heat.colour, heat.firmness, batch.volume_left] {
            assert!((0.0..=1.0).contains(&share), "{what}: {batch:?}");
        }
        assert!(batch.aroma.iter().all(|marker| (0.0..=1.0).contains(&marker.left)), "{what}");
        if let Some(ice) = batch.ice {
            assert!((0.0..=1.0).contains(&ice.frozen) && ice.crystal.metres() > 0.0, "{what}");
        }
    }
    let trace = run.trace.as_ref().unwrap();
    assert!(trace.points.len() > 4, "{what}: a course of {} points", trace.points.len());
    for point in &trace.points {
        assert!(point.measure.is_finite() && point.mass.kilograms() >= 0.0, "{what}: {point:?}");
    }
}

#[test]
fn every_model_closes_its_balances_over_random_foods() {
    let knowledge = knowledge();
    for ranges in RANGES {
        let mut draws = Draws(Pcg64::seed_from_u64(11));
        let mut worked = 0u32;
        let mut why: BTreeMap<String, u32> = BTreeMap::new();
        for index in 0..runs() {
            let mut feed = draws.batch();
            let place = draws.place();
            if ranges.process == "store" {
                feed.temperature = Temperature::from_celsius(-15.0);
                feed.ice = Some(Ice { frozen: 0.7, crystal: Length::from_micrometres(30.0) });
            }
            let given: Vec<(&str, f64)> = ranges
                .given
                .iter()
                .map(|(name, low, high)| (*name, draws.between(*low, *high)))
                .collect();
            let modes: Vec<(&str, &str)> =
                ranges.modes.iter().map(|(mode, words)| (*mode, draws.word(words))).collect();
            let numbers = numbers(knowledge, ranges.process, &given, || draws.unit());
            match run(ranges.process, &feed, &numbers, &modes, &place) {
                Ok(result) => {
                    worked += 1;
                    check(&feed, &result, &format!("{} run {index} {modes:?}", ranges.process));
                }
                Err(
                    error
                    @ (ProcessError::MissingSetting { .. } | ProcessError::UnknownMode { .. }),
                ) => {
                    panic!("{} run {index}: {error}", ranges.process)
                }
                Err(error) => {
                    let words: Vec<String> = error
                        .to_string()
                        .split_whitespace()
                        .filter(|word| !word.contains(|c: char| c.is_ascii_digit()))
                        .map(str::to_owned)
                        .collect();
                    *why.entry(words.join(" ")).or_default() += 1;
                }
            }
        }
        let share = f64::from(worked) / f64::from(runs());
        println!("random runs: {}: {} runs, {worked} gave a result", ranges.process, runs());
        assert!(share >= ranges.works, "{}: {share:.2} worked; {why:#?}", ranges.process);
    }
}

/// A watery food of 1 kg, like apple.
fn apple() -> Batch {
    let mut contents = Contents::NONE;
    contents[Component::Water] = 0.856;
    contents[Component::Sugars] = 0.104;
    contents[Component::Fibre] = 0.024;
    contents[Component::Acid] = 0.005;
    contents[Component::Protein] = 0.011;
    Batch::raw(contents, Temperature::from_celsius(20.0))
}

/// A mix for ice cream, 1 kg.
fn mix() -> Batch {
    let mut contents = Contents::NONE;
    contents[Component::Water] = 0.61;
    contents[Component::Sugars] = 0.20;
    contents[Component::Fat] = 0.14;
    contents[Component::Protein] = 0.04;
    contents[Component::Other] = 0.01;
    Batch::raw(contents, Temperature::from_celsius(5.0))
}

/// Runs a model at the typical value of every default.
fn typical(
    process: &str,
    feed: &Batch,
    given: &[(&str, f64)],
    modes: &[(&str, &str)],
    place: &Place,
) -> Result<Run, ProcessError> {
    run(process, feed, &numbers(knowledge(), process, given, || 0.5), modes, place)
}

fn because(error: Result<Run, ProcessError>) -> String {
    match error {
        Err(ProcessError::CannotWork { because, .. }) => because,
        other => panic!("expected a refusal, got {other:?}"),
    }
}

#[test]
fn a_colder_freezer_freezes_faster_and_finer() {
    let mut before: Option<(f64, f64)> = None;
    for cold in [-15.0, -20.0, -30.0, -40.0, -60.0] {
        let given = [("freezer_temperature", CELSIUS + cold)];
        let run = typical("freeze", &apple(), &given, &[], &Place::default()).unwrap();
        let now = (run.time.seconds(), run.streams[0].batch.ice.unwrap().crystal.metres());
        if let Some(before) = before {
            assert!(now.0 < before.0 && now.1 < before.1, "{cold}: {now:?} after {before:?}");
        }
        before = Some(now);
    }
    let nitrogen = typical("freeze", &apple(), &[], &[("medium", "nitrogen")], &Place::default());
    let nitrogen = nitrogen.unwrap();
    assert!(nitrogen.time.seconds() < before.unwrap().0 / 5.0);
    // Some 350-450 kJ/kg are taken out, a kilogram of nitrogen takes up 200 + 150 kJ.
    let mass = nitrogen.told("cryogen_mass").unwrap();
    assert!((1.0..5.0).contains(&mass), "{mass}");
}

#[test]
fn thick_pieces_take_longer_as_the_square_where_the_inside_decides() {
    let time = |process: &str, mm: f64, modes: &[(&str, &str)], more: &[(&str, f64)]| {
        let mut given = vec![("piece_thickness", mm / 1000.0), ("heat_transfer", 1e6)];
        given.extend_from_slice(more);
        typical(process, &apple(), &given, modes, &Place::default()).unwrap().time.seconds()
    };
    let hot = [("hold_temperature", CELSIUS + 60.0), ("target_core_temperature", CELSIUS + 59.0)];
    let ratio = time("hold", 40.0, &[], &hot) / time("hold", 20.0, &[], &hot);
    assert!((ratio - 4.0).abs() < 1e-3, "{ratio}");
    let cold = [("medium_temperature", CELSIUS - 30.0)];
    let ratio = time("freeze", 40.0, &[], &cold) / time("freeze", 20.0, &[], &cold);
    assert!((ratio - 4.0).abs() < 0.05, "{ratio}");
}

#[test]
fn altitude_lowers_the_temperature_of_the_same_gauge() {
    let steam = |kilopascals: f64, gauge: f64| {
        let place = Place { pressure: Pressure::from_kilopascals(kilopascals), ..Place::default() };
        let given = [("gauge_pressure", gauge), ("hold_time", 1200.0), ("air_left", 0.0)];
        let run = typical("pressure-cook", &apple(), &given, &[], &place).unwrap();
        run.told("steam_temperature").unwrap() - CELSIUS
    };
    // IAPWS-IF97, equation 31: 204.8 kPa at the sea, 188.0 kPa at 1,500 m (84.56 kPa).
    assert!((steam(101.325, 103.42e3) - 121.0).abs() < 0.1);
    assert!((steam(84.56, 103.42e3) - 118.3).abs() < 0.1);
}

#[test]
fn trapped_air_and_less_gauge_soften_less() {
    let firm = |gauge: f64, air: f64| {
        let given = [("gauge_pressure", gauge), ("hold_time", 600.0), ("air_left", air)];
        let run = typical("pressure-cook", &apple(), &given, &[], &Place::default()).unwrap();
        run.streams[0].batch.heat.firmness
    };
    assert!(firm(100e3, 0.0) < firm(60e3, 0.0) && firm(60e3, 0.0) < firm(60e3, 0.2));
}

#[test]
fn soda_browns_faster_and_is_on_the_record() {
    let given = [("gauge_pressure", 100e3), ("hold_time", 1200.0)];
    let place = Place::default();
    let plain = typical("pressure-cook", &apple(), &given, &[], &place).unwrap();
    let soda = typical("pressure-cook", &apple(), &given, &[("alkali", "soda")], &place).unwrap();
    let browned = |run: &Run| run.streams[0].batch.heat.browning.seconds();
    assert!((browned(&soda) / browned(&plain) - 6.0).abs() < 1e-6);
    assert!(soda.streams[0].batch.ph > 8.0);
}

#[test]
fn drying_is_slower_for_thick_pieces_and_in_cool_or_damp_air() {
    let time = |mm: f64, air: f64, humidity: f64| {
        let given = [
            ("piece_thickness", mm / 1000.0),
            ("air_temperature", CELSIUS + air),
            ("air_humidity", humidity),
        ];
        typical("dry", &apple(), &given, &[], &Place::default()).unwrap().time.hours()
    };
    assert!(time(6.0, 60.0, 0.1) < time(9.0, 60.0, 0.1));
    assert!(time(6.0, 60.0, 0.1) < time(6.0, 45.0, 0.1));
    assert!(time(6.0, 60.0, 0.1) < time(6.0, 60.0, 0.4));
}

#[test]
fn a_drier_end_has_less_mass_and_less_aroma() {
    let mut feed = apple();
    feed.aroma.push(Marker {
        class: NoteClass::Top,
        partition: 0.01,
        slope_kelvin: 5500.0,
        log_p: 1.5,
        left: 1.0,
    });
    let dried = |activity: f64| {
        let given = [("air_temperature", CELSIUS + 55.0), ("target_water_activity", activity)];
        let run = typical("dry", &feed, &given, &[], &Place::default()).unwrap();
        let batch = run.streams[0].batch;
        let back = batch.water_activity(Place::default().room_temperature).unwrap();
        assert!((back - activity).abs() < 0.02, "{activity}: {back}");
        (batch.mass().kilograms(), batch.aroma.left(NoteClass::Top).unwrap(), batch.volume_left)
    };
    let (moist, dry) = (dried(0.85), dried(0.55));
    assert!(dry.0 < moist.0 && dry.1 < moist.1 && dry.2 < moist.2);
}

#[test]
fn a_longer_churn_and_a_warmer_store_make_coarser_ice() {
    let place = Place::default();
    let draw = |power: f64| {
        let given = [("cooling_power", power)];
        typical("churn", &mix(), &given, &[], &place).unwrap()
    };
    let (weak, strong) = (draw(120.0), draw(1000.0));
    let crystal = |run: &Run| run.streams[0].batch.ice.unwrap().crystal.micrometres();
    assert!(crystal(&weak) > crystal(&strong));
    let stored = |cold: f64, days: f64| {
        let given = [("freezer_temperature", CELSIUS + cold), ("storage_time", days * 86_400.0)];
        crystal(&typical("store", &strong.streams[0].batch, &given, &[], &place).unwrap())
    };
    assert!(stored(-18.0, 30.0) > stored(-18.0, 3.0) && stored(-12.0, 3.0) > stored(-18.0, 3.0));
}

#[test]
fn an_insulated_box_falls_and_a_longer_hold_kills_more() {
    let place = Place::default();
    let held = |minutes: f64, medium: &'static str| {
        let given = [("hold_temperature", CELSIUS + 62.0), ("hold_time", minutes * 60.0)];
        typical("hold", &apple(), &given, &[("medium", medium)], &place).unwrap()
    };
    let killed = |run: &Run| run.streams[0].batch.heat.pasteurised.seconds();
    assert!(killed(&held(240.0, "bath")) > killed(&held(120.0, "bath")));
    assert!(killed(&held(240.0, "bath")) > killed(&held(240.0, "box")));
    let boxed = held(240.0, "box");
    assert!(boxed.told("bath_end").unwrap() < boxed.told("bath_start").unwrap() - 2.0);
}

#[test]
fn a_pasteurisation_that_is_asked_for_is_met() {
    let place = Place::default();
    let given = [
        ("hold_temperature", CELSIUS + 63.0),
        ("target_pasteurised", 120.0),
        ("temperature_swing", 0.0),
    ];
    let run = typical("hold", &apple(), &given, &[], &place).unwrap();
    let met = run.told("pasteurised_time").unwrap();
    assert!((met / 120.0 - 1.0).abs() < 0.1, "{met}");
}

#[test]
fn a_cut_of_a_named_germ_that_is_asked_for_is_met_at_the_coldest_point() {
    // Roast beef at 60 °C: 12 min for 6.5 decimal reductions of Salmonella; chicken of 12 % fat: 35 min
    // for 7 (USDA FSIS, Appendix A 1999 and poultry tables 2005).
    for (carrier, wanted, minutes) in [(Carrier::Meat, 6.5, 12.0), (Carrier::Poultry, 7.0, 35.0)] {
        let mut meat = apple();
        meat.heat.carrier = carrier;
        meat.temperature = Temperature::from_celsius(60.0);
        let given = [
            ("hold_temperature", CELSIUS + 60.0),
            ("target_reductions", wanted),
            ("temperature_swing", 0.0),
        ];
        let modes = [("germ", "salmonella")];
        let run = typical("hold", &meat, &given, &modes, &Place::default()).unwrap();
        let kills = run.streams[0].batch.heat.kills;
        assert!((kills[Germ::Salmonella] / wanted - 1.0).abs() < 0.02, "{kills:?}");
        assert!((run.time.minutes() / minutes - 1.0).abs() < 0.15, "{}", run.time.minutes());
    }
    let thick = [("hold_temperature", CELSIUS + 60.0), ("hold_time", 1800.0)];
    let mut cold = apple();
    cold.heat.carrier = Carrier::Meat;
    cold.temperature = Temperature::from_celsius(5.0);
    let cut = |millimetres: f64| {
        let given = [thick[0], thick[1], ("piece_thickness", millimetres / 1000.0)];
        let run = typical("hold", &cold, &given, &[], &Place::default()).unwrap();
        run.streams[0].batch.heat.kills[Germ::Salmonella]
    };
    assert!(cut(10.0) > cut(30.0) + 1.0, "{} against {}", cut(10.0), cut(30.0));
}

#[test]
fn refusals_say_the_number() {
    let place = Place::default();
    let cold = |celsius: f64| ("freezer_temperature", CELSIUS + celsius);
    let says = |process: &str, given: &[(&str, f64)], modes: &[(&str, &str)], words: &str| {
        let told = because(typical(process, &apple(), given, modes, &place));
        assert!(told.contains(words), "{process}: {told}");
    };
    says("freeze", &[cold(-9.0)], &[], "the cold has -9.0 °C");
    says(
        "freeze",
        &[cold(-20.0), ("target_core_temperature", CELSIUS)],
        &[],
        "not frozen at 0.0 °C",
    );
    says(
        "freeze",
        &[cold(-20.0), ("vessel_diameter", 0.2)],
        &[("form", "stirred-vessel")],
        "churned",
    );
    let fridge = [("medium_temperature", CELSIUS + 6.0)];
    says("chill", &fridge, &[("medium", "still-air")], "the cold has 6.0 °C");
    let target = [("target_core_temperature", CELSIUS - 3.0)];
    says("chill", &target, &[], "starts to freeze at -0.8 °C");
    says("store", &[cold(-18.0)], &[], "no ice");
    let high = [("gauge_pressure", 400e3), ("hold_time", 60.0)];
    says("pressure-cook", &high, &[], "400 kPa gauge");
    let dry_pot = [("gauge_pressure", 50e3), ("hold_time", 3.6e6)];
    says("pressure-cook", &dry_pot, &[], "it holds 856 g of water");
    let damp = [("air_temperature", CELSIUS + 25.0), ("air_humidity", 0.95)];
    says("dry", &damp, &[], "air of 95 % humidity");
    let scorched = [("power_per_mass", 1000.0), ("target_moisture", 0.01)];
    says("dry", &scorched, &[("medium", "microwave")], "scorches below 3 %");
    says("dry", &[("power_per_mass", 0.0)], &[("medium", "microwave")], "0 W/kg");
    let bath = [("hold_temperature", CELSIUS + 55.0), ("target_core_temperature", CELSIUS + 60.0)];
    says("hold", &bath, &[], "no warmer than 55.0 °C");
    let cool = [("hold_temperature", CELSIUS + 48.0), ("target_pasteurised", 60.0)];
    says("hold", &cool, &[], "of the 1.0 min wanted");
    let empty =
        [("hold_temperature", CELSIUS + 70.0), ("hold_time", 60.0), ("water_per_food", 0.0)];
    says("hold", &empty, &[("medium", "box")], "without hot water");
    says("churn", &[cold(-18.0), ("draw_temperature", CELSIUS)], &[], "0.0 °C lies outside");
    says("churn", &[cold(-5.0)], &[], "the wall has -5.0 °C");
    let bowl = [("cold_stored", 50e3), cold(-18.0)];
    says("churn", &bowl, &[("way", "bowl")], "holds 50 kJ");
    says("churn", &[("cooling_power", 0.0)], &[], "0 W");
    let hot = [("shelf_temperature", CELSIUS + 60.0), ("contact_transfer", 2000.0)];
    says("freeze-dry", &hot, &[], "melts the ice");
    let shelf = [("shelf_temperature", CELSIUS - 50.0)];
    says("freeze-dry", &shelf, &[], "ice sublimes only above");
}

#[test]
fn what_cannot_change_is_refused() {
    let place = Place::default();
    let mut frozen = mix();
    frozen.ice = Some(Ice { frozen: 0.5, crystal: Length::from_micrometres(30.0) });
    frozen.temperature = Temperature::from_celsius(-10.0);
    let given = [("freezer_temperature", CELSIUS - 20.0)];
    for process in ["freeze", "churn"] {
        let told = because(typical(process, &frozen, &given, &[], &place));
        assert!(told.contains("frozen already"), "{told}");
    }
    let warm = [("freezer_temperature", CELSIUS - 5.0)];
    assert!(because(typical("store", &frozen, &warm, &[], &place)).contains("melts"));
    let oil = Contents::only(Component::Fat, Mass::from_kilograms(1.0));
    let oil = Batch::raw(oil, Temperature::from_celsius(20.0));
    let air = [("air_temperature", CELSIUS + 60.0), ("shelf_temperature", CELSIUS)];
    assert!(because(typical("dry", &oil, &air, &[], &place)).contains("0.0 g of water"));
    assert!(because(typical("freeze-dry", &oil, &air, &[], &place)).contains("0.0 % of water"));
}

#[test]
fn a_warm_front_collapses() {
    let volume = |chamber: f64| {
        let given = [
            ("shelf_temperature", CELSIUS - 5.0),
            ("chamber_pressure", chamber),
            ("collapse_temperature", CELSIUS - 32.0),
        ];
        let run = typical("freeze-dry", &apple(), &given, &[], &Place::default()).unwrap();
        run.streams[0].batch.volume_left
    };
    assert!(volume(100.0) < volume(5.0));
}
