//! Waits that a plan brings in, on the clock of food safety.
//!
//! The hours between 5 °C and 54.4 °C that the models count are added to those of the waits, batch by
//! batch, and put before the same rules at every job that a wait comes before, plain work too. A wait
//! is taken to be in the refrigerator where there is one, in a layer no deeper than cooling in time
//! allows.

use super::jobs::Piece;
use super::schedule::Placed;
use crate::advisor::{Adaptation, Advice, Bench, Facts, fires};
use crate::estimate::Estimate;
use crate::knowledge::{Knowledge, Verdict};
use crate::physics::conduction::{Exposure, Solid, usual_transfer};
use crate::quantity::{Conductivity, Diffusivity, Length, Temperature, Time};

/// The hazard of warm hours, and the role of what keeps food cold.
const HAZARD: &str = "warm-hours";
const COLD_PLACE: &str = "cold-place";
/// Food at this temperature or colder does not count: FDA Food Code 2013, 3-501.16.
const COLD: Temperature = Temperature::from_celsius(5.0);
/// Food at this temperature or hotter does not count: the upper end of the same clock, 130 °F.
const HOT: Temperature = Temperature::from_celsius(54.4);
/// Half of a layer 5 cm deep, the deepest that the caution on slow cooling asks for.
const HALF_LAYER: Length = Length::from_metres(0.025);
/// Thermal diffusivity and conductivity of watery food, from memory: R. P. Singh and D. R. Heldman,
/// Introduction to Food Engineering, 5th edition, 2014, chapter 4: 1.2e-7 to 1.5e-7 m²/s, 0.5 to 0.6
/// W/(m K).
const DIFFUSIVITY: Diffusivity = Diffusivity::from_si(1.4e-7);
const CONDUCTIVITY: Conductivity = Conductivity::from_si(0.55);
/// The careful end of the warm hours: nine samples in ten lie below.
const CAREFUL: f64 = 0.9;
/// Waits shorter than this are none \[s\].
const LEAST_WAIT: f64 = 60.0;

/// A wait that food has between two jobs.
#[derive(Debug, Clone, PartialEq)]
pub struct Wait {
    /// What waits.
    pub product: String,
    /// How long \[s\].
    pub length: f64,
    /// How much of it counts as warm \[s\].
    pub warm: f64,
}

/// A rule that a plan's waits set off.
#[derive(Debug, Clone, PartialEq)]
pub struct Warning {
    /// What waits.
    pub product: String,
    /// Warm time with the waits \[s\].
    pub warm: f64,
    /// Of which in waits \[s\].
    pub waiting: f64,
    /// Whether the rule refuses it.
    pub refuses: bool,
    /// What the rule says.
    pub says: String,
}

/// What the waits of a plan come to.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Safety {
    /// Whether waits are taken to be in a refrigerator.
    pub cold: bool,
    /// The waits.
    pub waits: Vec<Wait>,
    /// What they set off.
    pub warnings: Vec<Warning>,
}

/// Sums the waits of a plan and asks the rules.
pub(super) fn judge(
    done: &Adaptation,
    (pieces, placed): (&[Piece], &[Placed]),
    bench: &Bench<'_>,
) -> Safety {
    let refrigerator = bench.kitchen.serving(COLD_PLACE).next();
    let cold = refrigerator.map(|owned| {
        let stated = owned.values.get("medium_temperature");
        stated.map_or(COLD, |value| Temperature::from_si(value.typical()))
    });
    let mut safety = Safety { cold: cold.is_some(), ..Safety::default() };
    let known = known(done, pieces);
    // Warm waiting of the food at the end of each job.
    let mut warm = vec![0.0_f64; pieces.len()];
    for (index, piece) in pieces.iter().enumerate() {
        for before in &piece.after {
            let length = placed[index].start() - placed[*before].end();
            if length <= LEAST_WAIT {
                warm[index] = warm[index].max(warm[*before]);
                continue;
            }
            let counted = warm_part(length, start_of(&pieces[*before], bench), cold);
            let waiting = warm[*before] + counted;
            warm[index] = warm[index].max(waiting);
            let product = pieces[*before].product.clone();
            // What no model knows yet is judged by what is made of it.
            let food = known[*before].or_else(|| computed(done, piece)).filter(|_| counted > 0.0);
            let warning = food.and_then(|food| warned(food, waiting, bench.knowledge));
            safety.warnings.extend(warning.map(|one| Warning { product: product.clone(), ..one }));
            safety.waits.push(Wait { product, length, warm: counted });
        }
    }
    safety
}

/// What the models know of the food of a job, at the careful end.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Known {
    /// Warm time without the waits \[s\].
    warm: f64,
    /// pH.
    ph: f64,
}

/// What is known of the food of each job: computed where its step is, else that of what goes in.
fn known(done: &Adaptation, pieces: &[Piece]) -> Vec<Option<Known>> {
    let mut all: Vec<Option<Known>> = Vec::with_capacity(pieces.len());
    for piece in pieces {
        let goes_in = piece.after.iter().filter_map(|before| *all.get(*before)?);
        let inherited =
            goes_in.reduce(|a, b| Known { warm: a.warm.max(b.warm), ph: a.ph.max(b.ph) });
        all.push(computed(done, piece).or(inherited));
    }
    all
}

/// What the model of the step of a job tells; `None` for plain work.
fn computed(done: &Adaptation, piece: &Piece) -> Option<Known> {
    let Advice::Professional(advice) = &done.steps.get(piece.step)?.advice else { return None };
    let products = &advice.routes.first()?.simulated.products;
    let careful = |of: fn(&crate::process::Batch) -> f64| {
        let each: Vec<f64> = products.iter().map(of).collect();
        Estimate::of_results(&each).map_or(0.0, |range| range.quantile(CAREFUL))
    };
    Some(Known { warm: careful(|batch| batch.heat.warm.si()), ph: careful(|batch| batch.ph) })
}

/// The rule that food sets off by its waits, and not without them.
fn warned(food: Known, waiting: f64, knowledge: &Knowledge) -> Option<Warning> {
    let warm = food.warm + waiting;
    let (says, refuses) = set_off(warm, food.ph, knowledge)?;
    let without = set_off(food.warm, food.ph, knowledge);
    let is_new = without.is_none_or(|(_, before)| refuses && !before);
    is_new.then(|| Warning { product: String::new(), warm, waiting, refuses, says })
}

/// The gravest rule of warm hours that a time and a pH set off.
fn set_off(warm: f64, ph: f64, knowledge: &Knowledge) -> Option<(String, bool)> {
    let mut facts = Facts::new();
    facts.insert("warm_hours".to_owned(), warm);
    facts.insert("food_ph".to_owned(), ph);
    let hazard = knowledge.hazards.get(HAZARD)?;
    let fired = hazard.rules.iter().filter(|rule| fires(rule, &facts));
    let gravest = fired.max_by_key(|rule| rule.verdict)?;
    Some((gravest.says.clone(), gravest.verdict == Verdict::Refuse))
}

/// The temperature with which the food of a job begins to wait; the room's where no model tells it.
fn start_of(piece: &Piece, bench: &Bench<'_>) -> Temperature {
    piece.ends_at.map_or(bench.kitchen.place.room_temperature, Temperature::from_kelvin)
}

/// How much of a wait counts as warm, for food that begins it at a temperature.
fn warm_part(wait: f64, start: Temperature, cold: Option<Temperature>) -> f64 {
    let Some(surroundings) = cold else { return wait };
    if start <= COLD {
        return 0.0;
    }
    let until = |target: Temperature| {
        let time = cooling(start, surroundings).and_then(|body| body.time_to_core(target).ok());
        time.map_or(f64::INFINITY, Time::seconds)
    };
    let begins = if start > HOT { until(HOT) } else { 0.0 };
    (wait.min(until(COLD)) - begins).max(0.0)
}

fn cooling(start: Temperature, surroundings: Temperature) -> Option<Exposure> {
    let [_, transfer, _] = usual_transfer("still-air")?.range;
    Some(Exposure {
        solid: Solid::Slab(HALF_LAYER),
        diffusivity: DIFFUSIVITY,
        conductivity: CONDUCTIVITY,
        heat_transfer: Some(transfer),
        start,
        surroundings,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const HOUR: f64 = 3600.0;
    const TWO: Temperature = Temperature::from_celsius(2.0);
    /// pH of a food that is not sour, and of one that is.
    const MILD: f64 = 6.0;
    const SOUR: f64 = 3.6;

    fn warm_hours(wait: f64, celsius: f64, cold: Option<Temperature>) -> f64 {
        warm_part(wait * HOUR, Temperature::from_celsius(celsius), cold) / HOUR
    }

    #[test]
    fn without_a_refrigerator_every_hour_counts() {
        assert!((warm_hours(6.0, 20.0, None) - 6.0).abs() < 1e-9);
        assert!((warm_hours(6.0, 85.0, None) - 6.0).abs() < 1e-9);
    }

    #[test]
    fn cold_food_in_a_refrigerator_does_not_count() {
        assert!(warm_hours(48.0, 4.0, Some(TWO)) < 1e-9);
        assert!(warm_hours(48.0, 5.0, Some(TWO)) < 1e-9);
    }

    /// The series of a slab 5 cm deep, cooled from both faces with 7 W/(m² K) in air of 2 °C, summed
    /// to six terms apart from this program: from 20 °C its core has 5 °C after 7.94 h; from 80 °C it
    /// has 54.4 °C after 1.92 h and 5 °C after 14.27 h.
    #[test]
    fn a_layer_counts_from_54_to_5_degrees() {
        assert!((warm_hours(24.0, 20.0, Some(TWO)) / 7.94 - 1.0).abs() < 0.01);
        assert!((warm_hours(24.0, 80.0, Some(TWO)) / (14.27 - 1.92) - 1.0).abs() < 0.01);
        assert!(warm_hours(1.5, 80.0, Some(TWO)) < 1e-9, "it is still hot");
        assert!((warm_hours(4.0, 80.0, Some(TWO)) - (4.0 - 1.92)).abs() < 0.02);
    }

    #[test]
    fn longer_waits_and_warmer_refrigerators_count_more() {
        let mut before = 0.0;
        for wait in [1.0, 2.0, 4.0, 8.0, 16.0, 32.0] {
            let counted = warm_hours(wait, 60.0, Some(TWO));
            assert!(counted >= before && counted <= wait);
            before = counted;
        }
        let four = Some(Temperature::from_celsius(4.0));
        assert!(warm_hours(24.0, 60.0, four) > warm_hours(24.0, 60.0, Some(TWO)));
    }

    #[test]
    fn two_hours_warn_and_four_refuse_unless_it_is_sour() {
        let knowledge = Knowledge::embedded().unwrap();
        let refuses = |hours: f64, ph| set_off(hours * HOUR, ph, &knowledge).map(|(_, no)| no);
        assert_eq!(refuses(1.9, MILD), None);
        assert_eq!(refuses(2.1, MILD), Some(false));
        assert_eq!(refuses(4.1, MILD), Some(true));
        assert_eq!(refuses(24.0, SOUR), None);
    }
}
