//! What can be done ahead, and how the dish keeps.
//!
//! Water activity and acidity are computed, never measured, so that they shorten what is advised but
//! never lengthen it: nothing is kept at room temperature on their word.

use super::{Material, professional};
use crate::advisor::Method;
use crate::estimate::Estimate;
use crate::process::attribute::measure;

/// Below this water activity nothing grows; from memory: L. R. Beuchat, Influence of water activity on
/// growth, metabolic activities and survival of yeasts and molds, Journal of Food Protection 46, 1983.
const NOTHING_GROWS: f64 = 0.60;
/// Below this water activity moulds and yeasts grow, and the bacteria that matter do not; from
/// memory: 21 CFR 110.3 and 114.3, acidified foods.
const MOULDS_ONLY: f64 = 0.85;
/// Hazards whose limits are stricter than the usual ones, or of another food than water activity knows:
/// packs without air, fresh plants in oil, cold infusions.
const AIRLESS_PACK: &str = "botulism-pack";
const STEEPED_OIL: &str = "oil-infusion";
const COLD_INFUSION: &str = "cold-infusion";
/// A dish of which more water than this is frozen is served frozen.
const FROZEN: f64 = 0.3;

/// How a dish keeps.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Bought ready-made.
    Bought,
    /// Served frozen.
    Frozen,
    /// Dry enough to be crisp.
    Dry,
    /// A syrup or another food that binds its water.
    Bound,
    /// Moist.
    Moist,
    /// In a pack without air.
    Airless,
    /// Oil in which something fresh was steeped.
    SteepedOil,
    /// A cold infusion in water.
    ColdInfusion,
}

impl Kind {
    /// Returns how it is kept.
    pub const fn advice(self) -> &'static str {
        match self {
            Self::Bought => {
                "Keep it as its label says; once opened, closed and at 5 °C or colder, and no longer \
                 than the label gives."
            }
            Self::Frozen => {
                "Keep it at −18 °C or colder, film on its surface and closed; serve it within the \
                 week, before it coarsens, and do not freeze again what has thawed."
            }
            Self::Dry => {
                "Pack it airtight as soon as it is cool, with a drying sachet: it takes water from \
                 the air and softens. Once soft, keep it at 5 °C or colder and use it within three \
                 days."
            }
            Self::Bound => {
                "Fill it into a clean, closed jar and keep it at 5 °C or colder. Throw it away at the \
                 first mould, gas or off smell."
            }
            Self::Moist => {
                "Keep it covered at 5 °C or colder and use it within three days, or freeze it at \
                 −18 °C or colder."
            }
            Self::Airless => {
                "Keep the closed pack at 3 °C or colder and use it within three days, or freeze it \
                 at −18 °C or colder. Discard a swollen pack unopened."
            }
            Self::ColdInfusion => {
                "Keep it covered at 5 °C or colder and use it within two days, or freeze it at \
                 −18 °C or colder."
            }
            Self::SteepedOil => {
                "Keep it at 5 °C or colder and use it within four days, or freeze it at −18 °C or \
                 colder; never keep it at room temperature."
            }
        }
    }

    /// Returns whether its keeping rests on a computed water activity.
    pub const fn rests_on_water_activity(self) -> bool {
        matches!(self, Self::Dry | Self::Bound)
    }
}

/// How the dish of one kitchen keeps.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Kept {
    /// The kitchen.
    pub kitchen: usize,
    /// How it keeps.
    pub kind: Kind,
    /// Water activity, computed.
    pub water_activity: Option<Estimate>,
    /// Acidity as pH, computed.
    pub ph: Option<Estimate>,
}

/// How the dish keeps.
#[derive(Debug, Clone, PartialEq)]
pub struct Keeping {
    /// What the last professional step makes, which is what is judged.
    pub product: String,
    /// By kitchen; a kitchen without a route is left out.
    pub kept: Vec<Kept>,
}

/// Judges how the product of the last professional step keeps; `None` without such a step.
pub(super) fn keeping(material: &Material<'_>) -> Option<Keeping> {
    let first = material.adapted.first()?;
    let (step, _) = professional(first).last()?;
    let kept = material.adapted.iter().enumerate().filter_map(|(kitchen, adapted)| {
        let (_, advice) = professional(adapted).last()?;
        Some(judge(kitchen, advice.routes.first()?))
    });
    Some(Keeping { product: step.product.clone(), kept: kept.collect() })
}

fn judge(kitchen: usize, method: &Method) -> Kept {
    let result = |id: &str| method.simulated.range(|feed, product| measure(id, feed, product));
    let (water_activity, ph) = (result("water-activity"), result("acidity"));
    let frozen = result("frozen-share").is_some_and(|share| share.typical() > FROZEN);
    let highest = water_activity.as_ref().map_or(1.0, Estimate::high);
    let warned = |hazard: &str| method.cautions.iter().any(|caution| caution.hazard == hazard);
    let kind = match highest {
        _ if method.bought => Kind::Bought,
        _ if frozen => Kind::Frozen,
        _ if warned(AIRLESS_PACK) => Kind::Airless,
        _ if warned(STEEPED_OIL) => Kind::SteepedOil,
        _ if warned(COLD_INFUSION) => Kind::ColdInfusion,
        high if high <= NOTHING_GROWS => Kind::Dry,
        high if high <= MOULDS_ONLY => Kind::Bound,
        _ => Kind::Moist,
    };
    Kept { kitchen, kind, water_activity, ph }
}
