//! What the supplies that a method uses up cost.
//!
//! The price of a packet over its mass, times the dose, times what goes into the move; a supply
//! without a dose costs the share of its packet that one batch uses. What an appliance costs is no
//! part of it.

use super::sample::Column;
use super::{Plan, Sampler, Simulated};
use crate::estimate::Estimate;
use crate::kitchen::Kitchen;
use crate::knowledge::{Dose, Knowledge, Supply, Value};

/// The values of a supply on which its cost rests.
const PRICE: &str = "price";
const PACK: &str = "pack";
const PACK_USES: &str = "pack_uses";

/// What the supplies of a method cost, in the money of the price list.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SupplyCost {
    /// Those whose price is known, added up; `None` when there are none.
    pub known: Option<Estimate>,
    /// Names of those whose price or packet is not known.
    pub unpriced: Vec<String>,
}

impl SupplyCost {
    /// Returns the whole cost: nothing for a method without supplies, `None` when a price is missing.
    pub fn whole(&self) -> Option<Estimate> {
        self.unpriced.is_empty().then(|| self.known.unwrap_or(Estimate::exact(0.0)))
    }
}

/// Returns what the supplies of a method cost a kitchen, over the samples that worked.
///
/// Of alternatives the first counts that the kitchen has; without a kitchen, the first that serves.
pub fn supply_cost(
    plans: &[Plan<'_>],
    simulated: &Simulated,
    kitchen: Option<&Kitchen>,
    knowledge: &Knowledge,
    sampler: &Sampler,
) -> SupplyCost {
    let mut sums = vec![0.0; simulated.samples.len()];
    let mut cost = SupplyCost::default();
    let mut priced = false;
    for (plan, record) in plans.iter().zip(&simulated.moves) {
        for dose in &plan.one.supplies {
            let bill = chosen(dose, kitchen, knowledge)
                .ok_or_else(|| dose.any_of.join(" or "))
                .and_then(|supply| Bill::of(supply, dose, sampler).ok_or(supply.name.clone()));
            match bill {
                Ok(bill) => {
                    priced = true;
                    let each = simulated.samples.iter().zip(&record.mass_in);
                    for (sum, (sample, mass)) in sums.iter_mut().zip(each) {
                        *sum += bill.at(*sample, *mass);
                    }
                }
                Err(name) => cost.unpriced.push(name),
            }
        }
    }
    cost.unpriced.sort_unstable();
    cost.unpriced.dedup();
    cost.known = if priced { Estimate::of_results(&sums) } else { None };
    cost
}

/// The supply that a kitchen takes for a dose.
fn chosen<'a>(
    dose: &'a Dose,
    kitchen: Option<&Kitchen>,
    knowledge: &'a Knowledge,
) -> Option<&'a Supply> {
    let held = |id: &str| kitchen.is_none_or(|kitchen| kitchen.supplies.iter().any(|s| s == id));
    let serving = || dose.any_of.iter().flat_map(|role| knowledge.supplies_serving(role));
    serving().find(|supply| held(&supply.id)).or_else(|| serving().next())
}

/// What one supply costs by sample.
struct Bill {
    price: Drawn,
    size: Drawn,
    /// Mass of supply per mass of food; `None` when a packet lasts for some batches.
    dose: Option<Drawn>,
}

impl Bill {
    fn of(supply: &Supply, dose: &Dose, sampler: &Sampler) -> Option<Self> {
        let drawn = |name: &str| {
            let value = supply.values.get(name)?;
            Some(Drawn::of(value, &format!("supply/{}/{name}", supply.id), sampler))
        };
        let price = drawn(PRICE)?;
        let share = dose
            .dose
            .as_ref()
            .map(|value| Drawn::of(value, &format!("supply/{}/dose", supply.id), sampler));
        match (share, drawn(PACK), drawn(PACK_USES)) {
            (Some(share), Some(size), _) => Some(Self { price, size, dose: Some(share) }),
            (_, _, Some(size)) => Some(Self { price, size, dose: None }),
            _ => None,
        }
    }

    fn at(&self, sample: usize, mass: f64) -> f64 {
        let used = self.dose.as_ref().map_or(1.0, |dose| dose.at(sample) * mass);
        self.price.at(sample) * used / self.size.at(sample)
    }
}

/// A range and its draws.
struct Drawn {
    range: Estimate,
    column: Column,
}

impl Drawn {
    fn of(value: &Value, name: &str, sampler: &Sampler) -> Self {
        Self { range: value.estimate, column: sampler.column(name) }
    }

    fn at(&self, sample: usize) -> f64 {
        self.range.quantile(self.column[sample])
    }
}
