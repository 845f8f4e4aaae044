//! What standin knows of the trade: techniques, routes, gear, foods, hazards and their sources.
//!
//! The knowledge base is TOML, compiled in and overlaid by a user's folder. It goes from files to
//! structs as written ([`written`]) to linked entries; a [`Knowledge`] is only handed out when no
//! finding is an error.

mod brand;
mod classes;
mod count;
mod entries;
mod link;
pub mod lint;
pub mod load;
mod made;
mod search;
pub mod text;
mod value;
pub mod written;

use std::collections::{BTreeMap, BTreeSet};

pub use count::Counts;
pub use entries::*;
pub use load::Layer;
pub use search::{Entry, Kind, folded};
pub use value::{Confidence, Provenance, Value};

use crate::finding::{Finding, Severity};

/// An entry of an earlier layer that a later one replaced.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Overridden {
    /// Kind and id of the entry.
    pub entry: String,
    /// The layer that replaced it.
    pub layer: String,
}

/// The linked knowledge base, each kind by id.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Knowledge {
    /// Publications.
    pub sources: BTreeMap<String, Source>,
    /// What can be measured on a batch.
    pub attributes: BTreeMap<String, Attribute>,
    /// Physical effects wanted.
    pub goals: BTreeMap<String, Goal>,
    /// Process models.
    pub processes: BTreeMap<String, ProcessEntry>,
    /// Value names declared beside the parameters of processes.
    pub quantities: BTreeMap<String, Parameter>,
    /// Aroma compounds.
    pub aromas: BTreeMap<String, AromaCompound>,
    /// Professional steps.
    pub techniques: BTreeMap<String, Technique>,
    /// Ways to reach a goal at home.
    pub routes: BTreeMap<String, Route>,
    /// Gear.
    pub appliances: BTreeMap<String, Appliance>,
    /// Consumables.
    pub supplies: BTreeMap<String, Supply>,
    /// What many foods, or many aroma compounds, have in common.
    pub classes: BTreeMap<String, Class>,
    /// Foods.
    pub foods: BTreeMap<String, Food>,
    /// What can hurt someone.
    pub hazards: BTreeMap<String, Hazard>,
    /// Entries that a later layer replaced.
    pub overridden: Vec<Overridden>,
    cited: BTreeSet<String>,
}

/// Why a knowledge base cannot be used: every finding, errors among them.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("the knowledge base has {} faults", findings.len())]
pub struct KnowledgeError {
    /// The findings in the order of the files.
    pub findings: Vec<Finding>,
}

impl Knowledge {
    /// Links layers of files, later ones over earlier ones.
    ///
    /// # Errors
    /// [`KnowledgeError`] with every finding, when one of them is an error.
    pub fn from_layers(layers: &[Layer]) -> Result<Self, KnowledgeError> {
        let (knowledge, findings) = link::link(layers);
        if findings.iter().any(|finding| finding.severity == Severity::Error) {
            return Err(KnowledgeError { findings });
        }
        Ok(knowledge)
    }

    /// Returns the knowledge base as shipped.
    ///
    /// # Errors
    /// [`KnowledgeError`] when the shipped files are at fault, which the tests rule out.
    pub fn embedded() -> Result<Self, KnowledgeError> {
        Self::from_layers(&[load::built_in()])
    }

    /// Links layers and returns every finding of linking and lint, warnings included.
    pub fn check(layers: &[Layer]) -> Vec<Finding> {
        let (knowledge, mut findings) = link::link(layers);
        if let Some(last) = layers.last() {
            findings.extend(lint::lint(&knowledge, last));
        }
        findings
    }

    /// Returns the routes that stand in for a technique, by id.
    pub fn routes_for<'a>(&'a self, technique: &'a str) -> impl Iterator<Item = &'a Route> {
        self.routes.values().filter(move |route| route.serves.iter().any(|id| id == technique))
    }

    /// Returns the appliances that go by an id or fill a role.
    pub fn appliances_serving<'a>(&'a self, role: &'a str) -> impl Iterator<Item = &'a Appliance> {
        self.appliances.values().filter(move |appliance| appliance.serves_as(role))
    }

    /// Returns the supplies that go by an id or fill a role.
    pub fn supplies_serving<'a>(&'a self, role: &'a str) -> impl Iterator<Item = &'a Supply> {
        self.supplies.values().filter(move |supply| supply.serves_as(role))
    }

    /// Returns the declared meaning and unit of a value name: a parameter or a quantity.
    pub fn parameter(&self, name: &str) -> Option<&Parameter> {
        let in_processes = self.processes.values().find_map(|process| process.parameters.get(name));
        self.quantities.get(name).or(in_processes)
    }

    /// Returns the attended time of a route beside what the models count: its own, or the usual one.
    pub fn hands_on<'a>(&'a self, route: &'a Route) -> Option<&'a Value> {
        let usual = || self.quantities.get("hands_on")?.default.as_ref();
        route.hands_on.as_ref().or_else(usual)
    }

    /// Returns whether some value or entry cites a source.
    pub fn is_cited(&self, source: &str) -> bool {
        self.cited.contains(source)
    }
}
