//! Where the numbers behind an adapted recipe come from.

use std::collections::{BTreeMap, BTreeSet};

use super::{Adapted, Material, professional};
use crate::advisor::{Caution, Method, StepAdvice};
use crate::knowledge::{Attribute, Knowledge, Move, Notice, Provenance, Value};

/// The sources of an adapted recipe.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Sources {
    /// Full citations of publications in alphabetical order, each with the places used.
    pub published: BTreeMap<String, BTreeSet<String>>,
    /// Publications recalled, to be checked before print.
    pub recalled: BTreeSet<String>,
    /// Estimates of our own, with their reasoning.
    pub estimates: BTreeSet<String>,
    /// How many numbers are what the trade does.
    pub common_practice: usize,
}

impl Sources {
    /// Lists the works recalled, as they are cited: without what was recalled from them, and without
    /// what names no work.
    pub fn works_recalled(&self) -> BTreeSet<String> {
        self.recalled.iter().filter_map(|text| work_of(text)).collect()
    }
}

/// Returns the work that a recollection names: all up to its year, a chapter included, or up to what
/// is recalled from it; `None` when it names none.
fn work_of(text: &str) -> Option<String> {
    /// A year has so many digits.
    const DIGITS: usize = 4;
    /// Years of print.
    const PRINTED: std::ops::Range<u16> = 1450..2100;
    let is_year = |word: &&str| {
        word.len() == DIGITS && word.parse::<u16>().is_ok_and(|year| PRINTED.contains(&year))
    };
    let mut words = text.split(|sign: char| !sign.is_ascii_alphanumeric());
    let year = words.find(is_year).and_then(|year| text.find(year));
    let from = year.map_or(0, |at| at + DIGITS);
    let cut = [": ", "; ", ");"].iter().filter_map(|end| text[from..].find(end)).min();
    let named = year.is_some() || text.starts_with(char::is_uppercase);
    named.then(|| text[..cut.map_or(text.len(), |at| from + at)].to_owned())
}

/// Collects the sources of everything that bears on the chosen methods.
pub(super) fn sources(material: &Material<'_>) -> Sources {
    let mut collected = Collected { knowledge: material.knowledge, sources: Sources::default() };
    collected.foods(material);
    for adapted in material.adapted {
        for (_, advice) in professional(adapted) {
            collected.step(advice);
            if let Some(best) = advice.routes.first() {
                collected.gear(best, adapted);
            }
        }
    }
    collected.sources
}

struct Collected<'a> {
    knowledge: &'a Knowledge,
    sources: Sources,
}

impl Collected<'_> {
    fn add(&mut self, provenance: &Provenance) {
        match provenance {
            Provenance::Published { source, locator } => {
                let known = self.knowledge.sources.get(source);
                let citation = known.map_or_else(|| source.clone(), |known| known.citation());
                let places = self.sources.published.entry(citation).or_default();
                if !locator.is_empty() {
                    places.insert(locator.clone());
                }
            }
            Provenance::FromMemory(text) => {
                self.sources.recalled.insert(text.clone());
            }
            Provenance::Estimate(text) => {
                self.sources.estimates.insert(text.clone());
            }
            Provenance::CommonPractice => self.sources.common_practice += 1,
            Provenance::Given | Provenance::Invented => {}
        }
    }

    fn values<'v>(&mut self, values: impl Iterator<Item = &'v Value>) {
        values.for_each(|value| self.add(&value.provenance));
    }

    fn foods(&mut self, material: &Material<'_>) {
        for ingredient in &material.recipe.ingredients {
            if let Some(food) = self.knowledge.foods.get(&ingredient.food) {
                self.add(&food.provenance);
                self.values(food.values.values());
            }
        }
    }

    fn step(&mut self, advice: &StepAdvice) {
        let knowledge = self.knowledge;
        if let Some(technique) = knowledge.techniques.get(&advice.technique) {
            technique.moves.iter().for_each(|one| self.one_move(one));
        }
        let Some(best) = advice.routes.first() else { return };
        if let Some(route) = knowledge.routes.get(&best.id) {
            route.moves.iter().for_each(|one| self.one_move(one));
            self.values(route.hands_on.iter());
        }
        best.cautions.iter().for_each(|caution| self.caution(caution));
        for comparison in &best.score.comparisons {
            if let Some(attribute) = knowledge.attributes.get(&comparison.attribute) {
                self.attribute(attribute);
            }
        }
    }

    fn one_move(&mut self, one: &Move) {
        self.values(one.settings.values());
        self.values(one.supplies.iter().filter_map(|supply| supply.dose.as_ref()));
        if let Some(process) = self.knowledge.processes.get(&one.process) {
            let unset =
                process.parameters.iter().filter(|(name, _)| !one.settings.contains_key(*name));
            self.values(unset.filter_map(|(_, parameter)| parameter.default.as_ref()));
        }
    }

    fn gear(&mut self, method: &Method, adapted: &Adapted<'_>) {
        for label in method.moves.iter().flat_map(|one| &one.appliances) {
            let owned = adapted.kitchen.appliances.iter().find(|owned| owned.label == *label);
            self.values(owned.into_iter().flat_map(|owned| owned.values.values()));
        }
    }

    fn caution(&mut self, caution: &Caution) {
        let Some(hazard) = self.knowledge.hazards.get(&caution.hazard) else { return };
        self.add(&hazard.provenance);
        let limits = hazard.rules.iter().flat_map(|rule| &rule.when);
        self.values(limits.flat_map(|limit| limit.above.iter().chain(&limit.below)));
    }

    fn attribute(&mut self, attribute: &Attribute) {
        match &attribute.notice {
            Notice::Difference(value) | Notice::Ratio(value) => self.add(&value.provenance),
        }
        attribute.levels.iter().for_each(|level| self.add(&level.provenance));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_recollection_is_cited_by_its_work() {
        let work = |text| work_of(text).unwrap_or_default();
        assert_eq!(
            work("A. Author et al., Journal of Examples 20:173, 1984: 40-50 °Brix; upper end"),
            "A. Author et al., Journal of Examples 20:173, 1984"
        );
        assert_eq!(
            work("B. Author, Hot and Cold: Guidelines for Kitchens, 1989"),
            "B. Author, Hot and Cold: Guidelines for Kitchens, 1989"
        );
        assert_eq!(
            work("C. Author, A Book, 2014, washing: a quarter"),
            "C. Author, A Book, 2014, washing"
        );
        assert_eq!(work("Rules on molluscs: 90 °C for 90 s"), "Rules on molluscs");
        assert_eq!(work("class range of household sealers"), "");
    }
}
