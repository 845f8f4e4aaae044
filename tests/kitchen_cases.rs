//! Published results at kitchen scale against the process models: what a model gives for the food
//! and its process defaults, sampled, beside what the publication states.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a test stops at the first fault, and the table of cases is its result"
)]

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use serde::Deserialize;
use standin::advisor::{Sampler, feeds};
use standin::estimate::Estimate;
use standin::kitchen::Place;
use standin::knowledge::{Food, Knowledge};
use standin::physics::settling::SizeDistribution;
use standin::process::attribute::measure;
use standin::process::{Batch, Component, Run, Settings, model};
use standin::quantity::{
    Amount, Dimension, Length, Mass, Measures, Pressure, Temperature, parse_amount,
};
use standin::recipe::Ingredient;

/// Samples for each case.
const SAMPLES: usize = 1000;
/// Share of the validation cases whose published value lies within the computed range.
const LEAST_INSIDE: f64 = 0.75;
/// Largest median of the errors of the computed medians.
const MOST_MEDIAN_ERROR: f64 = 0.20;
/// Share of the samples of a case that must give a result.
const LEAST_WORKING: f64 = 0.9;
/// Dry matter of the food in a publication over that of the composition table: fruit, vegetables and
/// juices of one kind differ by 5-10 % in it. Estimate, after the standard deviations of USDA SR28.
const DRY_MATTER: (f64, f64, f64) = (0.92, 1.0, 1.08);
/// Geometric standard deviation of stated droplet sizes. Estimate: as homogenised and raw milk.
const DROPLET_DEVIATION: f64 = 1.6;
/// Temperature of a food for which the source states none [°C]: out of the refrigerator or the room.
const USUAL_START: (f64, f64, f64) = (4.0, 10.0, 20.0);

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct CaseFile {
    case: Vec<Case>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    name: String,
    #[serde(rename = "use")]
    purpose: String,
    process: String,
    food: String,
    feed: String,
    feed_temperature: Option<String>,
    /// Median size of its fat droplets, over what the food states; "coarse" for unbroken fat.
    droplets: Option<String>,
    air_pressure: Option<String>,
    #[serde(default)]
    settings: BTreeMap<String, String>,
    #[serde(default)]
    modes: BTreeMap<String, String>,
    output: String,
    unit: String,
    published: Published,
    source: String,
    locator: String,
    /// Why the model can hardly miss it: it follows from what is given.
    nearly_given: Option<String>,
    /// What had to be assumed, for readers.
    #[serde(rename = "note")]
    _note: Option<String>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Published {
    low: f64,
    typical: f64,
    high: f64,
}

#[derive(Debug, Deserialize)]
struct SourceFile {
    source: Vec<Source>,
}

#[derive(Debug, Deserialize)]
struct Source {
    id: String,
    citation: String,
}

/// The dimensions that told numbers can have, tried in this order by their unit.
const TOLD: [Dimension; 14] = [
    Dimension::Temperature,
    Dimension::Time,
    Dimension::Speed,
    Dimension::Mass,
    Dimension::Volume,
    Dimension::Length,
    Dimension::Power,
    Dimension::MassFlow,
    Dimension::MassFlux,
    Dimension::Pressure,
    Dimension::Density,
    Dimension::Energy,
    Dimension::Rate,
    Dimension::Fraction,
];

fn amount(text: &str, dimension: Dimension) -> Amount {
    parse_amount(text, dimension, Measures::Us).unwrap_or_else(|error| panic!("`{text}`: {error}"))
}

fn range(text: &str, dimension: Dimension) -> Estimate {
    let amount = amount(text, dimension);
    Estimate::new(amount.low, amount.middle(), amount.high).unwrap()
}

/// Draws of the settings and of the food of one case.
struct Draws<'a> {
    case: &'a Case,
    foods: Vec<Batch>,
    sampler: Sampler,
    names: Vec<String>,
    ranges: Vec<Estimate>,
    start: Estimate,
}

impl<'a> Draws<'a> {
    fn new(case: &'a Case, knowledge: &'a Knowledge) -> Self {
        let food = knowledge
            .foods
            .get(&case.food)
            .unwrap_or_else(|| panic!("{}: no food `{}`", case.name, case.food));
        let entry = &knowledge.processes[&case.process];
        let mut ranges = BTreeMap::new();
        for (name, parameter) in &entry.parameters {
            let food_value = food.values.get(name).map(|value| value.estimate);
            let default = parameter.default.as_ref().map(|value| value.estimate);
            if let Some(range) = food_value.or(default) {
                ranges.insert(name.clone(), range);
            }
        }
        for (name, text) in &case.settings {
            let parameter = entry
                .parameters
                .get(name)
                .unwrap_or_else(|| panic!("{}: no setting `{name}`", case.name));
            ranges.insert(name.clone(), range(text, parameter.dimension()));
        }
        let start = case.feed_temperature.as_ref().map_or_else(
            || {
                let kelvin = |celsius| Temperature::from_celsius(celsius).kelvin();
                let (low, typical, high) = USUAL_START;
                Estimate::new(kelvin(low), kelvin(typical), kelvin(high)).unwrap()
            },
            |text| range(text, Dimension::Temperature),
        );
        let (names, ranges) = ranges.into_iter().unzip();
        let sampler = Sampler::new(SAMPLES, 1);
        let foods = feeds(&ingredient(case, food), knowledge, &sampler).unwrap();
        Self { case, foods, sampler, names, ranges, start }
    }

    fn feed(&self, sample: usize) -> Batch {
        let mut batch = self.foods[sample];
        let start = self.start.quantile(self.sampler.column("start")[sample]);
        batch.temperature = Temperature::from_kelvin(start);
        batch.heat.hottest = batch.temperature;
        if let Some(stated) = &self.case.droplets {
            batch.droplets = (stated != "coarse").then(|| {
                let median = amount(stated, Dimension::Length).middle();
                SizeDistribution::new(Length::from_metres(median), DROPLET_DEVIATION).unwrap()
            });
        }
        let (low, typical, high) = DRY_MATTER;
        let spread = Estimate::new(low, typical, high).unwrap();
        richer(&mut batch, spread.quantile(self.sampler.column("dry matter")[sample]));
        batch
    }

    fn run(&self, sample: usize, place: &Place) -> Result<(Batch, Run), String> {
        let values: Vec<f64> = self
            .names
            .iter()
            .zip(&self.ranges)
            .map(|(name, range)| range.quantile(self.sampler.column(name)[sample]))
            .collect();
        let (process, model) = model(&self.case.process).unwrap();
        let (names, modes) = (&self.names, &self.case.modes);
        let settings = Settings { process, names, values: &values, modes, place, trace: false };
        let feed = self.feed(sample);
        model(&feed, &settings).map(|run| (feed, run)).map_err(|error| error.to_string())
    }
}

fn ingredient(case: &Case, food: &Food) -> Ingredient {
    let mass = Mass::from_kilograms(amount(&case.feed, Dimension::Mass).middle());
    Ingredient {
        id: "feed".to_owned(),
        food: food.id.clone(),
        written: case.feed.clone(),
        bought: mass,
        trim: 0.0,
        mass,
        shares: food.shares,
        ph: None,
        temperature: None,
        keep: false,
        note: String::new(),
    }
}

/// Multiplies the dry matter of a batch by a factor; water makes up for it.
fn richer(batch: &mut Batch, factor: f64) {
    let water = batch.contents[Component::Water];
    let dry = batch.contents.dry_matter().kilograms();
    let factor = factor.min(if dry > 0.0 { 1.0 + 0.5 * water / dry } else { 1.0 });
    for component in Component::ALL {
        if !matches!(component, Component::Water | Component::Ethanol) {
            batch.contents[component] *= factor;
        }
    }
    batch.contents[Component::Water] = water - (factor - 1.0) * dry;
    if let Some(pulp) = &mut batch.pulp {
        pulp.dry = pulp.dry * factor;
    }
}

fn output(case: &Case, feed: &Batch, run: &Run) -> f64 {
    if case.output == "time" {
        return run.time.seconds();
    }
    run.told(&case.output)
        .or_else(|| measure(&case.output, feed, &run.streams[0].batch))
        .unwrap_or_else(|| panic!("{}: no output `{}`", case.name, case.output))
}

/// What one case gives in its own unit: the computed range, whether the published value lies within
/// it, and the error of the median.
struct Outcome {
    computed: Estimate,
    inside: bool,
    error: f64,
}

fn outcome(case: &Case, knowledge: &Knowledge) -> Outcome {
    let draws = Draws::new(case, knowledge);
    let pressure =
        case.air_pressure.as_ref().map(|text| amount(text, Dimension::Pressure).middle());
    let mut place = Place::default();
    if let Some(pressure) = pressure {
        place.pressure = Pressure::from_pascals(pressure);
    }
    let mut results = Vec::new();
    let mut refusals = Vec::new();
    for sample in 0..SAMPLES {
        match draws.run(sample, &place) {
            Ok((feed, run)) => results.push(output(case, &feed, &run)),
            Err(error) => refusals.push(error),
        }
    }
    let working = results.len() as f64 / SAMPLES as f64;
    assert!(working >= LEAST_WORKING, "{}: {:?}", case.name, refusals.first());
    let dimension = match knowledge.attributes.get(&case.output) {
        Some(attribute) => attribute.unit.dimension,
        None => *TOLD
            .iter()
            .find(|one| parse_amount(&format!("1 {}", case.unit), **one, Measures::Us).is_ok())
            .unwrap(),
    };
    let unit = amount(&format!("1 {}", case.unit), dimension).unit;
    let shown = |si: f64| (si - unit.offset) / unit.factor;
    let computed = Estimate::of_results(&results).unwrap().map(shown).unwrap();
    let typical = case.published.typical;
    let inside = (computed.low()..=computed.high()).contains(&typical);
    Outcome { computed, inside, error: (computed.typical() / typical - 1.0).abs() }
}

fn files() -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/kitchen_cases");
    let mut files: Vec<_> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|end| end == "toml"))
        .map(|path| {
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            (name, std::fs::read_to_string(&path).unwrap())
        })
        .collect();
    files.sort();
    files
}

fn cases() -> Vec<Case> {
    let read = |(name, text): (String, String)| {
        let file: CaseFile =
            toml::from_str(&text).unwrap_or_else(|error| panic!("{name}: {error}"));
        file.case
    };
    files().into_iter().filter(|(name, _)| name != "sources.toml").flat_map(read).collect()
}

#[test]
fn every_case_names_its_source() {
    let knowledge = Knowledge::embedded().unwrap();
    let own = files().into_iter().filter(|(name, _)| name == "sources.toml");
    let own: BTreeSet<String> = own
        .flat_map(|(_, text)| toml::from_str::<SourceFile>(&text).unwrap().source)
        .inspect(|source| assert!(source.citation.len() > 20, "{}", source.id))
        .map(|source| source.id)
        .collect();
    for case in cases() {
        let is_known = own.contains(&case.source) || knowledge.sources.contains_key(&case.source);
        assert!(is_known, "{}: no source `{}`", case.name, case.source);
        assert!(!case.locator.is_empty(), "{}: where in the source?", case.name);
        assert!(matches!(case.purpose.as_str(), "validation" | "fitting"), "{}", case.name);
        let Published { low, typical, high } = case.published;
        assert!(low <= typical && typical <= high, "{}", case.name);
    }
}

#[test]
fn the_models_agree_with_published_kitchen_results() {
    let knowledge = Knowledge::embedded().unwrap();
    let mut validation = Vec::new();
    for case in cases() {
        let found = outcome(&case, &knowledge);
        let Published { low, typical, high } = case.published;
        println!(
            "{} {:10} {}: {:.3}–{:.3}–{:.3} {}, published {low}–{typical}–{high}, error {:.0} %",
            if found.inside { "inside " } else { "outside" },
            case.purpose,
            case.name,
            found.computed.low(),
            found.computed.typical(),
            found.computed.high(),
            case.unit,
            100.0 * found.error
        );
        if case.purpose == "validation" {
            validation.push((found.inside, found.error, case.nearly_given.is_some()));
        }
    }
    let nearly_given = validation.iter().filter(|case| case.2).count();
    let all: Vec<_> = validation.iter().map(|case| (case.0, case.1)).collect();
    let open: Vec<_> =
        validation.iter().filter(|case| !case.2).map(|case| (case.0, case.1)).collect();
    agree("kitchen cases", &all);
    agree(&format!("without the {nearly_given} that are nearly given"), &open);
}

/// Prints and asserts how many published values lie inside, and how far the medians are off.
fn agree(what: &str, cases: &[(bool, f64)]) {
    let count = cases.len() as f64;
    let inside = cases.iter().filter(|case| case.0).count() as f64;
    let errors: Vec<f64> = cases.iter().map(|case| case.1).collect();
    let median = Estimate::of_results(&errors).unwrap().typical();
    println!(
        "{what}: {count} cases, {inside} inside ({:.1} %), median error {:.0} %",
        100.0 * inside / count,
        100.0 * median
    );
    assert!(inside / count >= LEAST_INSIDE, "{what}: {inside} of {count} inside");
    assert!(median <= MOST_MEDIAN_ERROR, "{what}: median error {:.0} %", 100.0 * median);
}
