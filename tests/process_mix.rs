//! Thousands of random foods and settings through the models that part, mix, grind and gas food.
//!
//! Whatever a model is given, it either refuses or closes its mass and its energy, and gives back
//! numbers that can be.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a test stops at the first fault, and the counts are its result"
)]

use std::collections::BTreeMap;

use standin::kitchen::Place;
use standin::knowledge::{Knowledge, NoteClass};
use standin::physics::settling::SizeDistribution;
use standin::process::{
    Batch, Component, Contents, Marker, ProcessError, Pulp, Run, Settings, model,
};
use standin::quantity::{Length, Mass, Temperature};

/// Runs of each case; `STANDIN_RUNS` asks for more.
const RUNS: u32 = 1500;
/// Unused or rounded away: shares of the feed that may be missing.
const MASS_GAP: f64 = 1e-9;
const ENERGY_GAP: f64 = 1e-6;
/// Models in which one matter turns into another, so that only the whole mass closes.
const TRANSFORMING: [&str; 2] = ["enzyme", "carbonate"];

/// A small seeded generator, so that every machine sees the same foods (Steele et al. 2014, splitmix64).
struct Dice(u64);

impl Dice {
    fn share(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        f64::from(u32::try_from((z ^ (z >> 31)) >> 32).unwrap()) / f64::from(u32::MAX)
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        if low > 0.0 && high / low > 20.0 {
            low * (high / low).powf(self.share())
        } else {
            low + (high - low) * self.share()
        }
    }
}

/// A food of random make: watery, fat, alcoholic, pulpy, porous.
fn food(dice: &mut Dice) -> Batch {
    let mut contents = Contents::NONE;
    contents[Component::Water] = dice.between(0.3, 1.0);
    for (component, most) in [
        (Component::Sugars, 0.2),
        (Component::Starch, 0.08),
        (Component::Fibre, 0.06),
        (Component::Protein, 0.1),
        (Component::Fat, 0.3),
        (Component::Acid, 0.02),
        (Component::Salt, 0.03),
        (Component::Ethanol, 0.15),
        (Component::Other, 0.02),
    ] {
        // One in three leaves the component out altogether.
        contents[component] = (dice.share() - 0.33).max(0.0) * most;
    }
    let size = dice.between(0.05, 5.0);
    let mut batch = Batch::raw(contents * size, Temperature::from_celsius(dice.between(2.0, 60.0)));
    let insoluble = batch.contents[Component::Fibre] + batch.contents[Component::Starch];
    if dice.share() > 0.5 && insoluble > 0.0 {
        let median = Length::from_micrometres(dice.between(1.0, 800.0));
        batch.pulp = Some(Pulp {
            dry: Mass::from_kilograms(insoluble * dice.share()),
            sizes: SizeDistribution::new(median, dice.between(1.2, 3.0)).unwrap(),
            density_difference: dice.between(5.0, 80.0),
            water_holding: dice.between(3.0, 25.0),
        });
    }
    if dice.share() > 0.5 {
        let median = Length::from_micrometres(dice.between(0.3, 300.0));
        batch.droplets = Some(SizeDistribution::new(median, 1.7).unwrap());
    }
    batch.pores = (dice.share() - 0.5).max(0.0) * 0.5;
    batch.air = dice.share() * 0.2;
    for class in NoteClass::ALL {
        batch.aroma.push(Marker {
            class,
            partition: dice.between(1e-6, 1e-2),
            slope_kelvin: dice.between(3000.0, 7000.0),
            log_p: dice.between(-0.5, 4.0),
            left: 1.0,
        });
    }
    batch
}

/// A process in one mode with the ranges of the settings that have no default.
struct Case {
    process: &'static str,
    modes: &'static [(&'static str, &'static str)],
    set: &'static [(&'static str, f64, f64)],
    /// The share of the runs that must not be refused.
    works: f64,
}

fn runs() -> u32 {
    let asked = std::env::var("STANDIN_RUNS").ok();
    asked.and_then(|text| text.parse().ok()).unwrap_or(RUNS)
}

fn try_case(knowledge: &Knowledge, case: &Case, seed: u64) {
    let mut dice = Dice(seed);
    let (process, run) = model(case.process).unwrap();
    let entry = &knowledge.processes[process];
    let modes: BTreeMap<String, String> =
        case.modes.iter().map(|(mode, word)| ((*mode).to_owned(), (*word).to_owned())).collect();
    let place = Place::default();
    let mut worked = 0;
    for index in 0..runs() {
        let feed = food(&mut dice);
        let mut values = BTreeMap::new();
        for (name, parameter) in &entry.parameters {
            if let Some(default) = &parameter.default {
                let (low, high) = (default.estimate.low(), default.estimate.high());
                values.insert(name.clone(), dice.between(low, high));
            }
        }
        for (name, low, high) in case.set {
            assert!(entry.parameters.contains_key(*name), "{process} declares no `{name}`");
            values.insert((*name).to_owned(), dice.between(*low, *high));
        }
        let names: Vec<String> = values.keys().cloned().collect();
        let values: Vec<f64> = values.values().copied().collect();
        let (names, values, modes, place) = (&names[..], &values[..], &modes, &place);
        let trace = index % 10 == 0;
        let settings = Settings { process, names, values, modes, place, trace };
        match run(&feed, &settings) {
            Ok(run) => {
                worked += 1;
                sound(case, &feed, &run, trace);
            }
            Err(ProcessError::MissingSetting { setting, .. }) => {
                panic!("{process} {:?} misses `{setting}`", case.modes)
            }
            Err(error) => assert!(!error.to_string().contains("NaN"), "{error}"),
        }
    }
    let share = f64::from(worked) / f64::from(runs());
    println!("random runs: {process} {:?}: {} runs, {worked} gave a result", case.modes, runs());
    assert!(share >= case.works, "{process} {:?} works for {share:.2}", case.modes);
}

fn sound(case: &Case, feed: &Batch, run: &Run, trace: bool) {
    let what = format!("{} {:?} {feed:?}", case.process, case.modes);
    let scale = MASS_GAP * feed.mass().kilograms();
    let whole = (feed.mass() + run.added.total() - run.all_out().total()).kilograms();
    assert!(whole.abs() <= scale, "{whole} kg missing: {what}");
    if !TRANSFORMING.contains(&case.process) {
        let gap = (feed.contents + run.added).difference(&run.all_out());
        assert!(gap <= scale, "{gap} kg of a component missing: {what}");
    }
    assert!(run.energy.gap().abs() <= ENERGY_GAP, "{:?}: {what}", run.energy);
    for contents in [run.vapour, run.left_behind, run.added] {
        assert!(contents.is_sound(), "{contents:?}: {what}");
    }
    for stream in &run.streams {
        let batch = &stream.batch;
        assert!(batch.contents.is_sound(), "{}: {what}", stream.name);
        assert!(batch.temperature.kelvin().is_finite() && batch.temperature.kelvin() > 100.0);
        assert!(batch.gas.kilograms() >= 0.0 && batch.air >= 0.0, "{what}");
        assert!((0.0..=1.0).contains(&batch.infused), "{what}");
        assert!((0.0..1.0).contains(&batch.pores), "{what}");
        assert!((0.0..=1.0).contains(&batch.pectin), "{what}");
        for marker in batch.aroma.iter() {
            assert!((0.0..=1.0 + 1e-12).contains(&marker.left), "{marker:?}: {what}");
        }
        if let Some(pulp) = batch.pulp {
            let dry = pulp.dry.kilograms();
            assert!(dry >= -1e-12 && dry.is_finite(), "{dry} kg of pulp: {what}");
        }
        assert!(batch.elapsed.seconds() >= 0.0 && batch.elapsed >= batch.attended, "{what}");
    }
    assert!(run.time.seconds().is_finite() && run.time.seconds() >= 0.0, "{what}");
    assert!(run.attended.seconds() <= run.time.seconds() * (1.0 + 1e-12), "{what}");
    for (name, value) in &run.told {
        assert!(value.is_finite(), "{name}: {what}");
    }
    if trace {
        let points = &run.trace.as_ref().map_or(&[][..], |trace| &trace.points[..]);
        let rising = points.windows(2).all(|pair| pair[0].time <= pair[1].time);
        let finite = points.iter().all(|point| point.measure.is_finite());
        assert!(rising && finite, "{what}");
    }
}

const POT: [(&str, f64, f64); 3] =
    [("power", 600.0, 3000.0), ("transfer_efficiency", 0.4, 0.9), ("diameter", 0.14, 0.3)];

macro_rules! cases {
    ($($name:ident: $process:literal [$($mode:literal = $word:literal),*] { $($set:tt)* } $works:literal;)+) => {$(
        #[test]
        fn $name() {
            let knowledge = Knowledge::embedded().unwrap();
            let case = Case {
                process: $process,
                modes: &[$(($mode, $word)),*],
                set: &[$($set)*],
                works: $works,
            };
            try_case(&knowledge, &case, 0x5eed + stringify!($name).len() as u64);
        }
    )+};
}

cases! {
    open_pots_lose_alcohol: "dealcoholise" ["vessel" = "open"] { POT[0], POT[1], POT[2], ("time", 60.0, 1200.0) } 0.5;
    lidded_pots_lose_alcohol: "dealcoholise" ["vessel" = "lidded"] { POT[0], POT[1], POT[2], ("hold_temperature", 343.0, 365.0), ("time", 600.0, 2400.0) } 0.8;
    pots_reach_a_strength: "dealcoholise" ["vessel" = "open"] { POT[0], POT[1], POT[2], ("target_alcohol", 0.002, 0.02) } 0.6;
    vacuum_takes_alcohol: "dealcoholise" ["vessel" = "vacuum"] { ("pressure", 3e3, 2e4), ("bath_temperature", 323.0, 343.0), ("heated_area", 0.02, 0.06), ("target_alcohol", 0.002, 0.01) } 0.5;
    dishes_keep_alcohol: "dealcoholise" ["vessel" = "baked"] { ("oven_temperature", 433.0, 483.0), ("diameter", 0.15, 0.3), ("time", 600.0, 5400.0) } 0.5;
    flames_and_stirring: "dealcoholise" ["vessel" = "off-heat"] {} 1.0;
    stills_give: "distil" [] { POT[0], POT[1], ("target_collected", 0.02, 0.4) } 0.9;
    vacuum_stills_give: "distil" [] { ("pressure", 3e3, 1.2e4), ("bath_temperature", 323.0, 343.0), ("heated_area", 0.02, 0.06), ("target_collected", 0.02, 0.4) } 0.8;
    presses_give: "press" [] { ("pressure_difference", 2e3, 2e6), ("time", 60.0, 1800.0) } 0.4;
    pectinase_works: "enzyme" [] { ("enzyme_temperature", 283.0, 340.0), ("enzyme_time", 600.0, 30000.0) } 0.5;
    amylase_works: "enzyme" ["enzyme" = "amylase"] { ("enzyme_temperature", 283.0, 360.0), ("enzyme_time", 600.0, 9000.0), ("stop_temperature", 353.0, 365.0) } 0.5;
    fat_rises: "part-cold" [] { ("liquid_depth", 0.03, 0.3), ("time", 600.0, 90000.0) } 0.3;
    clusters_rise: "part-cold" ["globules" = "clusters"] { ("liquid_depth", 0.03, 0.3), ("time", 3600.0, 90000.0), ("layer_fat", 0.15, 0.3) } 0.5;
    cream_is_spun: "part-cold" ["way" = "spin"] { ("liquid_depth", 0.02, 0.05), ("outer_radius", 0.1, 0.2), ("rotation", 10.0, 100.0), ("time", 60.0, 1800.0), ("volume", 1e-4, 2e-3) } 0.3;
    mills_grind_frozen: "mill" ["cooling" = "frozen"] { ("power", 100.0, 800.0), ("limit_size", 5e-5, 5e-4), ("time_constant", 5.0, 60.0), ("time", 10.0, 120.0), ("milling_temperature", 200.0, 260.0) } 1.0;
    mills_grind: "mill" [] { ("power", 100.0, 800.0), ("limit_size", 5e-5, 5e-4), ("time_constant", 5.0, 60.0), ("target_largest_grain", 6e-4, 2e-3), ("highest_temperature", 334.0, 350.0) } 0.0;
    blenders_shear: "shear" [] { ("power", 200.0, 900.0), ("limit_size", 2e-5, 2e-4), ("time_constant", 20.0, 200.0), ("time", 20.0, 300.0), ("volume", 5e-4, 2e-3) } 0.5;
    stones_shear: "shear" [] { ("power", 100.0, 200.0), ("limit_size", 1e-5, 2e-5), ("time_constant", 3600.0, 9000.0), ("time", 3600.0, 90000.0), ("highest_temperature", 334.0, 350.0) } 0.9;
    rotors_emulsify: "emulsify" [] { ("rotor_diameter", 0.01, 0.06), ("rotation", 50.0, 350.0), ("power", 100.0, 600.0), ("time", 30.0, 600.0) } 0.4;
    valves_emulsify: "emulsify" ["device" = "valve"] { ("pressure_difference", 2e6, 5e7) } 0.4;
    whisks_emulsify: "emulsify" ["device" = "whisk"] { ("power", 5.0, 100.0), ("time", 30.0, 600.0) } 0.4;
    bubbles_leave: "degas" [] { ("pressure", 8e2, 9e4) } 0.9;
    pores_fill: "degas" ["aim" = "fill"] { ("pressure", 8e2, 8e4) } 0.3;
    pores_close: "degas" ["aim" = "compress"] { ("pressure", 8e2, 8e4), ("pulses", 1.0, 4.0) } 0.3;
    herbs_infuse: "infuse" [] { ("time", 60.0, 90000.0), ("infusion_temperature", 275.0, 370.0), ("piece_thickness", 2e-4, 1e-2) } 0.9;
    siphons_infuse: "infuse" ["way" = "pressure"] { ("time", 60.0, 900.0), ("infusion_temperature", 275.0, 300.0), ("piece_thickness", 2e-4, 1e-2), ("siphon_pressure", 3e5, 9e5) } 0.9;
    pulses_infuse: "infuse" ["way" = "vacuum"] { ("target_infused", 0.3, 0.9), ("infusion_temperature", 275.0, 300.0), ("piece_thickness", 2e-4, 3e-3), ("pressure", 2e3, 5e4), ("pulses", 1.0, 4.0) } 0.9;
    cylinders_carbonate: "carbonate" [] { ("gas_pressure", 1.2e5, 6e5) } 0.3;
    yeast_carbonates: "carbonate" ["way" = "fermentation"] { ("target_gas_dissolved", 2.0, 8.0) } 0.2;
    dry_ice_carbonates: "carbonate" ["way" = "dry-ice"] {} 0.2;
    siphons_foam: "foam" [] { ("siphon_volume", 5e-4, 1e-3) } 0.2;
    whisks_foam: "foam" ["way" = "whisk"] {} 0.5;
    smoke_lies_on: "smoke" [] { ("smoke_temperature", 288.0, 301.0), ("time", 3600.0, 90000.0), ("piece_thickness", 5e-3, 5e-2) } 0.9;
    mixtures_mix: "mix" [] { ("addition", 0.01, 3.0), ("added_sugars", 0.0, 0.4), ("added_fat", 0.0, 0.4), ("addition_temperature", 275.0, 360.0) } 1.0;
    thickeners_swell: "mix" ["way" = "hydrate"] { ("addition", 0.001, 0.05), ("added_gum", 1.0, 1.0), ("working_temperature", 280.0, 368.0), ("hydration_temperature", 280.0, 360.0), ("time", 60.0, 1200.0) } 1.0;
    membranes_part: "press-through-membrane" [] { ("pressure_difference", 2e6, 7e6), ("working_temperature", 283.0, 308.0), ("membrane_area", 0.02, 1.0), ("target_soluble_solids", 0.15, 0.3) } 0.2;
    flames_burn: "dealcoholise" ["vessel" = "flame"] {} 0.0;
    bought_products_balance: "buy" [] { ("target_soluble_solids", 0.3, 0.7), ("bought_droplet", 1e-7, 1e-5) } 0.3;
}
