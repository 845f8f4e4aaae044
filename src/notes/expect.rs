//! What is lost and what to expect, in the words of the knowledge base.

use super::Group;
use crate::advisor::{Comparison, Method};
use crate::estimate::Estimate;
use crate::knowledge::{Attribute, Better, Knowledge, Notice};

/// From here on a loss is told apart side by side [noticed steps].
const TOLD_APART: f64 = 1.0;
/// From here on anybody notices it [noticed steps]; estimate, as in the ranking.
const PLAIN: f64 = 3.0;
/// A result is printed to this share of the difference that a person notices.
const FINEST: f64 = 0.5;

/// What a route states when there is nothing to state.
const NEXT_TO_NOTHING: &str = "hardly anything";

/// How plain a loss is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Plainness {
    /// Told apart side by side.
    SideBySide,
    /// Noticed by anybody.
    Anybody,
}

impl Plainness {
    /// Returns how it is said of a loss.
    pub const fn words(self) -> &'static str {
        match self {
            Self::SideBySide => "told apart side by side",
            Self::Anybody => "noticed by anybody",
        }
    }
}

/// One loss that a person notices.
#[derive(Debug, Clone, Copy)]
pub struct Loss<'a> {
    /// The attribute.
    pub attribute: &'a Attribute,
    /// Laboratory and home.
    pub comparison: &'a Comparison,
    /// How plain it is.
    pub plainness: Plainness,
    /// Whether the recipe or the technique counts on it.
    pub counts: bool,
}

/// Lists the losses of a method that a person notices: those that count first, then the plainest.
pub fn losses<'a>(method: &'a Method, knowledge: &'a Knowledge) -> Vec<Loss<'a>> {
    let noticed = method.score.comparisons.iter().filter_map(|comparison| {
        let attribute = knowledge.attributes.get(&comparison.attribute)?;
        let plainness = match comparison.steps {
            steps if steps > PLAIN => Plainness::Anybody,
            steps if steps > TOLD_APART => Plainness::SideBySide,
            _ => return None,
        };
        Some(Loss { attribute, comparison, plainness, counts: comparison.counts })
    });
    let mut losses: Vec<Loss<'a>> = noticed.collect();
    losses.sort_by(|a, b| {
        let steps = b.comparison.steps.total_cmp(&a.comparison.steps);
        b.counts.cmp(&a.counts).then(steps)
    });
    losses
}

/// Lists the losses that a person notices in any kitchen of a group, each by the kitchen in which it
/// is plainest: those that count first, then the plainest.
pub fn losses_of<'a>(group: &Group<'a>, knowledge: &'a Knowledge) -> Vec<Loss<'a>> {
    let mut all: Vec<Loss<'a>> = Vec::new();
    for method in group.kitchens.iter().filter_map(|(_, advice)| advice.routes.first()) {
        for loss in losses(method, knowledge) {
            match all.iter_mut().find(|known| known.attribute.id == loss.attribute.id) {
                Some(known) if known.comparison.steps >= loss.comparison.steps => {}
                Some(known) => *known = loss,
                None => all.push(loss),
            }
        }
    }
    all.sort_by(|a, b| {
        let steps = b.comparison.steps.total_cmp(&a.comparison.steps);
        b.counts.cmp(&a.counts).then(steps)
    });
    all
}

/// Returns whether a route states that something is lost.
pub fn loses_something(method: &Method) -> bool {
    method.loses.iter().any(|lost| lost != NEXT_TO_NOTHING)
}

/// Returns the step to which results of an attribute are printed, in its unit: a power of ten no
/// finer than what a person can tell apart; `None` where ratios are noticed, not differences.
pub fn grain(attribute: &Attribute) -> Option<f64> {
    match &attribute.notice {
        Notice::Difference(value) => {
            let noticed = attribute.unit.from_si(value.typical()) - attribute.unit.from_si(0.0);
            Some(10f64.powf((FINEST * noticed).abs().log10().floor()))
        }
        // Shares of what the raw food held are told to the whole per cent.
        Notice::Ratio(_) if attribute.better == Better::More && attribute.unit.symbol == "%" => {
            Some(1.0)
        }
        Notice::Ratio(_) => None,
    }
}

/// Rounds a range in SI to the grain of its attribute.
pub fn rounded(estimate: &Estimate, attribute: &Attribute) -> Option<[f64; 3]> {
    let grain = grain(attribute)?;
    let ends = [estimate.low(), estimate.typical(), estimate.high()];
    Some(ends.map(|si| (attribute.unit.from_si(si) / grain).round() * grain + 0.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_is_printed_finer_than_it_is_noticed() {
        let knowledge = Knowledge::embedded().unwrap();
        let grain_of = |id: &str| grain(&knowledge.attributes[id]);
        // Noticed: 2 min of cooking, 10 % of colour, 2 °Brix.
        assert_eq!(grain_of("cooked-flavour"), Some(1.0));
        assert_eq!(grain_of("colour-kept"), Some(1.0));
        assert_eq!(grain_of("aroma-top"), Some(1.0));
        let little = Estimate::new(1.2, 2.3, 4.7).unwrap();
        let attribute = &knowledge.attributes["cooked-flavour"];
        assert_eq!(rounded(&little, attribute), Some([0.0, 0.0, 0.0]));
    }
}
