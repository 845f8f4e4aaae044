//! Running a method over all samples.

use std::collections::BTreeMap;

use super::{Plan, Sampler};
use crate::estimate::Estimate;
use crate::kitchen::Place;
use crate::knowledge::NoteClass;
use crate::process::{Batch, Contents, ProcessError, Run, Settings, Trace};
use crate::quantity::{Mass, Time};

/// What one move did, over the samples that worked.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct MoveRecord {
    /// Mass that went in \[kg\].
    pub mass_in: Vec<f64>,
    /// Mass that went on \[kg\].
    pub mass_out: Vec<f64>,
    /// Volume that went on \[m³\].
    pub volume_out: Vec<f64>,
    /// Time \[s\].
    pub time: Vec<f64>,
    /// Attended time \[s\].
    pub attended: Vec<f64>,
    /// Temperature at the end \[K\].
    pub temperature: Vec<f64>,
    /// Share of dissolved solids at the end.
    pub strength: Vec<f64>,
    /// Told numbers by name.
    pub told: BTreeMap<&'static str, Vec<f64>>,
    /// The course over time of the sample that is drawn.
    pub trace: Option<Trace>,
}

/// Samples in which a method does not work.
#[derive(Debug, Clone, PartialEq)]
pub struct Faulty {
    /// How many.
    pub count: usize,
    /// The first reason.
    pub because: ProcessError,
}

/// A method run over all samples.
#[derive(Debug, Clone, PartialEq)]
pub struct Simulated {
    /// Index of each sample that worked.
    pub samples: Vec<usize>,
    /// What went in, of the samples that worked.
    pub feeds: Vec<Batch>,
    /// What came out, of the samples that worked.
    pub products: Vec<Batch>,
    /// What each move did.
    pub moves: Vec<MoveRecord>,
    /// What left as vapour, stayed on gear, was added, or went into other streams, by sample.
    pub balance: Vec<Balance>,
    /// Samples that did not work.
    pub faulty: Option<Faulty>,
    /// Which of the samples that worked is drawn: one in the middle of the others.
    pub drawn: Option<usize>,
}

/// Where the mass of one sample went.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Balance {
    /// Left as vapour.
    pub vapour: Contents,
    /// Left on pan, cloth or blade.
    pub left_behind: Contents,
    /// Other streams: ice, sediment, cake.
    pub other: Contents,
    /// Added from supplies.
    pub added: Contents,
}

/// Runs the plans of a method, one after the other, on one feed a sample. Amounts, temperatures and
/// the course over time of each move go on record only when the whole is asked for.
pub fn simulate(
    plans: &[Plan<'_>],
    feeds: &[Batch],
    place: &Place,
    sampler: &Sampler,
    whole: bool,
) -> Simulated {
    let count = feeds.len().min(sampler.count());
    let mut done = Simulated {
        samples: Vec::with_capacity(count),
        feeds: Vec::with_capacity(count),
        products: Vec::with_capacity(count),
        moves: vec![MoveRecord::default(); plans.len()],
        balance: Vec::with_capacity(count),
        faulty: None,
        drawn: None,
    };
    let (mut values, mut runs) = (Vec::new(), Vec::with_capacity(plans.len()));
    for (sample, feed) in feeds.iter().enumerate().take(sampler.count()) {
        let method = Plans { plans, place, trace: false };
        match method.run(feed, sample, &mut values, &mut runs) {
            Ok((product, balance)) => {
                done.samples.push(sample);
                done.feeds.push(*feed);
                done.products.push(product);
                done.balance.push(balance);
                for (record, done) in done.moves.iter_mut().zip(runs.drain(..)) {
                    record.take(done, whole);
                }
            }
            Err(because) => {
                let count = done.faulty.as_ref().map_or(1, |faulty| faulty.count + 1);
                let because = done.faulty.take().map_or(because, |faulty| faulty.because);
                done.faulty = Some(Faulty { count, because });
            }
        }
    }
    if whole {
        done.draw(&Plans { plans, place, trace: true });
    }
    done
}

/// A move done on one sample.
struct Done {
    mass_in: Mass,
    run: Run,
    /// Which of its streams goes on.
    kept: usize,
}

/// The plans of a method in a place.
struct Plans<'a> {
    plans: &'a [Plan<'a>],
    place: &'a Place,
    trace: bool,
}

impl Plans<'_> {
    /// Runs the method on one sample; `runs` takes up what each move did.
    fn run(
        &self,
        feed: &Batch,
        sample: usize,
        values: &mut Vec<f64>,
        runs: &mut Vec<Done>,
    ) -> Result<(Batch, Balance), ProcessError> {
        runs.clear();
        let mut batch = *feed;
        let mut balance = Balance::default();
        for plan in self.plans {
            plan.draw(sample, values);
            let settings = Settings {
                process: plan.process,
                names: &plan.names,
                values,
                modes: &plan.modes,
                place: self.place,
                trace: self.trace,
            };
            let run = super::loads::run(plan, &batch, &settings)?;
            let keep = plan.one.keep.as_deref();
            let kept = run.streams.iter().position(|s| keep.is_none_or(|keep| s.name == keep));
            let kept = kept.ok_or_else(|| ProcessError::CannotWork {
                process: plan.process,
                because: format!("it gives no {}", keep.unwrap_or_default()),
            })?;
            let product = run.streams[kept].batch;
            let streams: Contents = run.streams.iter().map(|stream| stream.batch.contents).sum();
            balance.vapour += run.vapour;
            balance.left_behind += run.left_behind;
            balance.added += run.added;
            balance.other += streams - product.contents;
            runs.push(Done { mass_in: batch.mass(), run, kept });
            batch = product;
        }
        Ok((batch, balance))
    }
}

impl MoveRecord {
    fn take(&mut self, Done { mass_in, run, kept }: Done, whole: bool) {
        self.time.push(run.time.si());
        self.mass_in.push(mass_in.si());
        for (name, value) in &run.told {
            self.told.entry(name).or_default().push(*value);
        }
        if !whole {
            return;
        }
        let product = &run.streams[kept].batch;
        self.mass_out.push(product.mass().si());
        self.volume_out.push(product.volume().map_or(f64::NAN, |volume| volume.si()));
        self.attended.push(run.attended.si());
        self.temperature.push(product.temperature.kelvin());
        self.strength.push(product.contents.soluble_solids());
    }
}

/// What a sample has to lie in the middle of to be drawn.
const MIDDLING: [fn(&Batch) -> f64; 4] = [
    |product| product.elapsed.si(),
    |product| product.mass().si(),
    |product| product.heat.pasteurised.si(),
    |product| product.aroma.left(NoteClass::Middle).unwrap_or(1.0),
];

impl Simulated {
    /// Runs the sample in the middle once more and keeps its course.
    fn draw(&mut self, method: &Plans<'_>) {
        let Some(place) = self.middle() else { return };
        let (mut values, mut runs) = (Vec::new(), Vec::with_capacity(method.plans.len()));
        let (feed, sample) = (&self.feeds[place], self.samples[place]);
        if method.run(feed, sample, &mut values, &mut runs).is_ok() {
            for (record, done) in self.moves.iter_mut().zip(runs) {
                record.trace = done.run.trace;
            }
            self.drawn = Some(place);
        }
    }

    /// Returns the sample whose results rank nearest to the medians, the first of equals.
    fn middle(&self) -> Option<usize> {
        let mut away = vec![0; self.products.len()];
        let mut order: Vec<usize> = (0..away.len()).collect();
        for of in MIDDLING {
            let results: Vec<f64> = self.products.iter().map(of).collect();
            order.sort_unstable_by(|a, b| results[*a].total_cmp(&results[*b]));
            let mut below = 0;
            for alike in order.chunk_by(|a, b| results[*a].total_cmp(&results[*b]).is_eq()) {
                let up_to = below + alike.len();
                for place in alike {
                    away[*place] += (below + up_to).abs_diff(results.len());
                }
                below = up_to;
            }
        }
        (0..away.len()).min_by_key(|place| away[*place])
    }

    /// Returns the share of samples in which the method worked.
    pub fn working_share(&self) -> f64 {
        let faulty = self.faulty.as_ref().map_or(0, |faulty| faulty.count);
        let all = self.samples.len() + faulty;
        if all == 0 { 0.0 } else { self.samples.len() as f64 / all as f64 }
    }

    /// Returns the range of a quantity over the samples; `None` when it has no meaning in some.
    pub fn range(&self, of: impl Fn(&Batch, &Batch) -> Option<f64>) -> Option<Estimate> {
        let pairs = self.feeds.iter().zip(&self.products);
        let results: Option<Vec<f64>> = pairs.map(|(feed, product)| of(feed, product)).collect();
        Estimate::of_results(&results?)
    }

    /// Returns the range of the time from start to end.
    pub fn time(&self) -> Option<Estimate> {
        self.range(|feed, product| Some((product.elapsed - feed.elapsed).si()))
    }

    /// Returns the range of the attended time.
    pub fn attended(&self) -> Option<Estimate> {
        self.range(|feed, product| Some((product.attended - feed.attended).si()))
    }

    /// Adds attended time to every product, as the route states it.
    pub fn add_attended(&mut self, times: &[f64]) {
        for (product, sample) in self.products.iter_mut().zip(&self.samples) {
            let more = Time::from_seconds(times[*sample]);
            product.wait(more, more);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::process::Component;
    use crate::quantity::Temperature;

    #[test]
    fn the_sample_in_the_middle_is_drawn() {
        let contents = Contents::only(Component::Water, Mass::from_kilograms(1.0));
        let raw = Batch::raw(contents, Temperature::from_celsius(20.0));
        let after = |minutes| Batch { elapsed: Time::from_minutes(minutes), ..raw };
        let simulated = Simulated {
            samples: (0..5).collect(),
            feeds: vec![raw; 5],
            products: [90.0, 10.0, 40.0, 55.0, 20.0].map(after).to_vec(),
            moves: Vec::new(),
            balance: Vec::new(),
            faulty: None,
            drawn: None,
        };
        assert_eq!(simulated.middle(), Some(2));
    }
}
