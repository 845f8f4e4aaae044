//! Which unknown matters most to a method.

use super::advice::Unknown;
use super::{Bench, Plan, Simulated};
use crate::knowledge::Provenance;

/// Returns the unknown whose draws go most closely with the time of the method.
pub(super) fn unknown(
    plans: &[Plan<'_>],
    simulated: &Simulated,
    bench: &Bench<'_>,
) -> Option<Unknown> {
    let times: Vec<f64> = simulated
        .feeds
        .iter()
        .zip(&simulated.products)
        .map(|(feed, product)| (product.elapsed - feed.elapsed).si())
        .collect();
    let mut best: Option<(f64, &Plan<'_>, &str)> = None;
    for plan in plans {
        for (name, slot) in plan.names.iter().zip(&plan.slots) {
            if slot.value.estimate.is_exact() || slot.value.provenance == Provenance::Given {
                continue;
            }
            let column = bench.sampler.column(&slot.unknown);
            let draws: Vec<f64> = simulated.samples.iter().map(|s| column[*s]).collect();
            let weight = correlation(&draws, &times).powi(2);
            if best.is_none_or(|(before, ..)| weight > before) {
                best = Some((weight, plan, name));
            }
        }
    }
    let (weight, plan, name) = best.filter(|(weight, ..)| *weight >= WORTH_TELLING)?;
    // Two processes may mean different things by one name: "time" is under gas or at the whisk.
    let shared = bench.knowledge.quantities.get(name);
    let process = bench.knowledge.processes.get(plan.process);
    let parameter = shared.or_else(|| process?.parameters.get(name))?;
    Some(Unknown { meaning: parameter.meaning.clone(), weight, measure: parameter.measure.clone() })
}

/// An unknown that explains less of the spread than this is not worth a line.
const WORTH_TELLING: f64 = 0.1;

/// The correlation of two lists; zero when one does not vary.
fn correlation(a: &[f64], b: &[f64]) -> f64 {
    let count = a.len().min(b.len()) as f64;
    let mean = |list: &[f64]| list.iter().sum::<f64>() / count;
    let (ma, mb) = (mean(a), mean(b));
    let (mut ab, mut aa, mut bb) = (0.0, 0.0, 0.0);
    for (x, y) in a.iter().zip(b) {
        ab += (x - ma) * (y - mb);
        aa += (x - ma) * (x - ma);
        bb += (y - mb) * (y - mb);
    }
    if aa > 0.0 && bb > 0.0 { ab / (aa * bb).sqrt() } else { 0.0 }
}
