//! Runs a process in a test with the defaults of its entry and a few settings over them.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use super::{Batch, Component, Contents, ProcessError, Pulp, Run, Settings, model};
use crate::kitchen::Place;
use crate::knowledge::Knowledge;
use crate::physics::settling::SizeDistribution;
use crate::quantity::{Length, Mass, Temperature};

fn knowledge() -> &'static Knowledge {
    static SHIPPED: OnceLock<Knowledge> = OnceLock::new();
    SHIPPED.get_or_init(|| Knowledge::embedded().unwrap())
}

/// One run to be made.
#[derive(Clone)]
pub(super) struct Bench {
    process: &'static str,
    values: BTreeMap<String, f64>,
    modes: BTreeMap<String, String>,
    place: Place,
    trace: bool,
}

impl Bench {
    pub fn of(process: &'static str) -> Self {
        let entry = &knowledge().processes[process];
        let typical = |parameter: &crate::knowledge::Parameter| {
            parameter.default.as_ref().map(|value| value.estimate.typical())
        };
        let values = entry
            .parameters
            .iter()
            .filter_map(|(name, parameter)| Some((name.clone(), typical(parameter)?)))
            .collect();
        Self { process, values, modes: BTreeMap::new(), place: Place::default(), trace: false }
    }

    pub fn with(mut self, name: &str, si: f64) -> Self {
        assert!(
            knowledge().processes[self.process].parameters.contains_key(name),
            "`{name}` is not declared"
        );
        self.values.insert(name.to_owned(), si);
        self
    }

    pub fn without(mut self, name: &str) -> Self {
        self.values.remove(name);
        self
    }

    pub fn mode(mut self, mode: &str, word: &str) -> Self {
        self.modes.insert(mode.to_owned(), word.to_owned());
        self
    }

    pub fn traced(mut self) -> Self {
        self.trace = true;
        self
    }

    pub fn run(&self, feed: &Batch) -> Result<Run, ProcessError> {
        let (process, run) = model(self.process)?;
        let names: Vec<String> = self.values.keys().cloned().collect();
        let values: Vec<f64> = self.values.values().copied().collect();
        let Self { modes, place, trace, .. } = self;
        let settings =
            Settings { process, names: &names, values: &values, modes, place, trace: *trace };
        let run = run(feed, &settings)?;
        closes(feed, &run);
        Ok(run)
    }
}

/// Asserts that mass and energy close; in all, since enzymes and yeast turn one matter into another.
pub(super) fn closes(feed: &Batch, run: &Run) {
    let gap = (feed.mass() + run.added.total() - run.all_out().total()).kilograms();
    assert!(gap.abs() <= 1e-9 * feed.mass().kilograms(), "mass gap {gap} kg");
    assert!(run.energy.gap().abs() <= 1e-6, "energy gap {}", run.energy.gap());
    for stream in &run.streams {
        assert!(stream.batch.contents.is_sound(), "{stream:?}");
    }
}

/// Makes a batch from grams by component, at 20 °C.
pub(super) fn food(grams: &[(Component, f64)]) -> Batch {
    let mut contents = Contents::NONE;
    for (component, mass) in grams {
        contents[*component] = Mass::from_grams(*mass).kilograms();
    }
    Batch::raw(contents, Temperature::from_celsius(20.0))
}

/// A juice with suspended pulp of a size [µm], for the models that part solids from it.
pub(super) fn cloudy_juice(micrometres: f64) -> Batch {
    let mut juice =
        food(&[(Component::Water, 880.0), (Component::Sugars, 100.0), (Component::Fibre, 5.0)]);
    juice.pulp = Some(Pulp {
        dry: Mass::from_grams(5.0),
        sizes: SizeDistribution::new(Length::from_micrometres(micrometres), 2.5).unwrap(),
        density_difference: 30.0,
        water_holding: 15.0,
    });
    juice
}
