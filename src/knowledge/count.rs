//! How much the knowledge base holds, and where its numbers come from.

use std::collections::BTreeMap;

use serde::Serialize;

use super::{AromaCompound, Food, Knowledge, Move, Notice, Provenance, Value};

/// Entries by kind and values by provenance.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize)]
pub struct Counts {
    /// Professional steps.
    pub techniques: usize,
    /// Physical effects wanted.
    pub goals: usize,
    /// Home routes.
    pub routes: usize,
    /// Kinds of gear.
    pub appliances: usize,
    /// Consumables.
    pub supplies: usize,
    /// Foods.
    pub foods: usize,
    /// Aroma compounds.
    pub aromas: usize,
    /// Hazards.
    pub hazards: usize,
    /// Publications that something cites.
    pub sources: usize,
    /// Numbers with a source.
    pub values: usize,
    /// Of these, from a publication.
    pub published: usize,
    /// Of these, common practice without a source.
    pub common_practice: usize,
    /// Of these, recalled from a publication.
    pub from_memory: usize,
    /// Of these, estimated by the engineers.
    pub estimated: usize,
}

impl Knowledge {
    /// Counts entries and values.
    pub fn counts(&self) -> Counts {
        let mut counts = Counts {
            techniques: self.techniques.len(),
            goals: self.goals.len(),
            routes: self.routes.len(),
            appliances: self.appliances.len(),
            supplies: self.supplies.len(),
            foods: self.foods.len(),
            aromas: self.aromas.len(),
            hazards: self.hazards.len(),
            sources: self.sources.keys().filter(|id| self.is_cited(id)).count(),
            ..Counts::default()
        };
        for value in self.values() {
            counts.add(&value.provenance, 1);
        }
        for food in self.foods.values() {
            counts.add(&food.provenance, food.stated);
        }
        counts
    }

    /// Returns every value with a provenance, in the order of kinds and ids; what foods take over
    /// from a class counts once.
    pub fn values(&self) -> Vec<&Value> {
        let mut all: Vec<&Value> = Vec::new();
        for attribute in self.attributes.values() {
            let (Notice::Difference(value) | Notice::Ratio(value)) = &attribute.notice;
            all.push(value);
        }
        all.extend(self.goals.values().map(|goal| &goal.target));
        for process in self.processes.values() {
            all.extend(process.parameters.values().filter_map(|p| p.default.as_ref()));
        }
        all.extend(self.quantities.values().filter_map(|quantity| quantity.default.as_ref()));
        all.extend(self.aromas.values().flat_map(AromaCompound::stated_values));
        let maps: [Vec<&super::ValueMap>; 3] = [
            self.appliances.values().map(|appliance| &appliance.values).collect(),
            self.supplies.values().map(|supply| &supply.values).collect(),
            self.classes.values().map(|class| &class.values).collect(),
        ];
        all.extend(maps.into_iter().flatten().flat_map(BTreeMap::values));
        all.extend(self.foods.values().flat_map(Food::stated_values));
        let techniques = self.techniques.values().flat_map(|technique| &technique.moves);
        let routes = self.routes.values().flat_map(|route| &route.moves);
        for one in techniques.chain(routes) {
            add_move(one, &mut all);
        }
        for route in self.routes.values() {
            all.extend(&route.hands_on);
            all.extend(&route.cost);
        }
        let rules = self.hazards.values().flat_map(|hazard| &hazard.rules);
        for condition in rules.flat_map(|rule| &rule.when) {
            all.extend(&condition.above);
            all.extend(&condition.below);
        }
        all
    }
}

fn add_move<'a>(one: &'a Move, all: &mut Vec<&'a Value>) {
    all.extend(one.settings.values());
    all.extend(one.supplies.iter().filter_map(|supply| supply.dose.as_ref()));
}

impl Counts {
    fn add(&mut self, provenance: &Provenance, count: usize) {
        self.values += count;
        let kind = match provenance {
            Provenance::Published { .. } => &mut self.published,
            Provenance::CommonPractice => &mut self.common_practice,
            Provenance::FromMemory(_) => &mut self.from_memory,
            Provenance::Estimate(_) | Provenance::Given | Provenance::Invented => {
                &mut self.estimated
            }
        };
        *kind += count;
    }
}
