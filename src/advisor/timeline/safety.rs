//! Waits that a plan brings in, on the clock of food safety.
//!
//! The hours between 5 °C and 54.4 °C that the models count are added to those of the waits, batch by
//! batch, and put before the same rules. A wait is taken to be in the refrigerator where there is
//! one, in a layer no deeper than cooling in time allows.

use super::jobs::Piece;
use super::schedule::Placed;
use crate::advisor::{Adaptation, Advice, Bench, Facts, fires};
use crate::estimate::Estimate;
use crate::knowledge::Verdict;
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
    /// What the step makes.
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
    // Warm waiting of the food at the end of each job.
    let mut warm = vec![0.0_f64; pieces.len()];
    for (index, piece) in pieces.iter().enumerate() {
        for before in &piece.after {
            let length = placed[index].start() - placed[*before].end();
            let counted = match length > LEAST_WAIT {
                true => warm_part(length, pieces[*before].ends_at, cold, bench),
                false => 0.0,
            };
            warm[index] = warm[index].max(warm[*before] + counted);
            if length > LEAST_WAIT {
                let product = pieces[*before].product.clone();
                safety.waits.push(Wait { product, length, warm: counted });
            }
        }
    }
    for (step, adapted) in done.steps.iter().enumerate() {
        let Advice::Professional(advice) = &adapted.advice else { continue };
        let last = pieces.iter().rposition(|piece| piece.step == step);
        let (Some(best), Some(last)) = (advice.routes.first(), last) else { continue };
        let careful = |of: fn(&crate::process::Batch) -> f64| {
            let each: Vec<f64> = best.simulated.products.iter().map(of).collect();
            Estimate::of_results(&each).map_or(0.0, |range| range.quantile(CAREFUL))
        };
        let (computed, sour) = (careful(|batch| batch.heat.warm.si()), careful(|batch| batch.ph));
        let whole = computed + warm[last];
        if warm[last] > 0.0
            && let Some((says, refuses)) = set_off(whole, sour, bench)
            && set_off(computed, sour, bench).is_none_or(|(_, before)| refuses && !before)
        {
            let product = adapted.product.clone();
            let waiting = warm[last];
            safety.warnings.push(Warning { product, warm: whole, waiting, refuses, says });
        }
    }
    safety
}

/// The gravest rule of warm hours that a time and a pH set off.
fn set_off(warm: f64, ph: f64, bench: &Bench<'_>) -> Option<(String, bool)> {
    let mut facts = Facts::new();
    facts.insert("warm_hours".to_owned(), warm);
    facts.insert("food_ph".to_owned(), ph);
    let hazard = bench.knowledge.hazards.get(HAZARD)?;
    let fired = hazard.rules.iter().filter(|rule| fires(rule, &facts));
    let gravest = fired.max_by_key(|rule| rule.verdict)?;
    Some((gravest.says.clone(), gravest.verdict == Verdict::Refuse))
}

/// How much of a wait counts as warm, for food that begins it at a temperature; the room's where no
/// model tells it.
fn warm_part(wait: f64, ends_at: Option<f64>, cold: Option<Temperature>, bench: &Bench<'_>) -> f64 {
    let room = bench.kitchen.place.room_temperature;
    let start = ends_at.map_or(room, Temperature::from_kelvin);
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
