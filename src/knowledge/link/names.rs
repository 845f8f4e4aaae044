//! The index of names that linking resolves against.

use std::collections::{BTreeMap, BTreeSet};

use crate::finding::{Code, Finding, nearest};
use crate::knowledge::written::{Text, WrittenFile};
use crate::quantity::{Dimension, Measures, Unit, find_unit};

/// Ids and roles of every kind, declared value names with their units, and cited sources.
#[derive(Default)]
pub(super) struct Index {
    ids: BTreeMap<(&'static str, String), usize>,
    roles: BTreeSet<(&'static str, String)>,
    /// Declared value names with the unit under which they were declared.
    pub quantities: BTreeMap<String, Unit>,
    /// Sources by id, with their layer.
    pub sources: BTreeMap<String, usize>,
    /// Entries that a later layer replaced, with that layer.
    pub overridden: Vec<(String, usize)>,
    /// Foods that are made of another one.
    made: BTreeSet<String>,
    /// Ids of sources that some value or entry cites.
    pub cited: BTreeSet<String>,
}

impl Index {
    /// Collects the names of all files and reports duplicates within one layer.
    pub fn of(files: &[(usize, &str, WrittenFile)], findings: &mut Vec<Finding>) -> Self {
        let mut index = Self::default();
        for (depth, path, file) in files {
            for (kind, id) in ids(file) {
                index.add(kind, id, *depth, path, findings);
            }
            index.add_roles(file);
            index.add_made(file);
            index.add_quantities(path, file, findings);
        }
        index
    }

    fn add(
        &mut self,
        kind: &'static str,
        id: &Text,
        depth: usize,
        path: &str,
        findings: &mut Vec<Finding>,
    ) {
        if kind == "source" {
            self.sources.insert(id.get_ref().clone(), depth);
        }
        match self.ids.insert((kind, id.get_ref().clone()), depth) {
            Some(before) if before == depth => findings.push(
                Finding::error(
                    Code::DuplicateName,
                    path,
                    format!("two entries of kind {kind} go by `{}`", id.get_ref()),
                )
                .at(id.span(), "second entry")
                .help("give one of them another id"),
            ),
            Some(_) => self.overridden.push((format!("{kind} {}", id.get_ref()), depth)),
            None => {}
        }
    }

    fn add_roles(&mut self, file: &WrittenFile) {
        let appliances = file.appliance.iter().flat_map(|a| &a.fills).map(|r| ("appliance", r));
        let supplies = file.supply.iter().flat_map(|s| &s.fills).map(|r| ("supply", r));
        for (kind, role) in appliances.chain(supplies) {
            self.roles.insert((kind, role.get_ref().clone()));
        }
    }

    fn add_made(&mut self, file: &WrittenFile) {
        for food in &file.food {
            let id = food.id.get_ref();
            match food.made_of {
                Some(_) => self.made.insert(id.clone()),
                None => self.made.remove(id),
            };
        }
    }

    fn add_quantities(&mut self, path: &str, file: &WrittenFile, findings: &mut Vec<Finding>) {
        let parameters = file.process.iter().flat_map(|process| &process.parameters);
        for (name, parameter) in parameters.chain(&file.quantity) {
            let written = &parameter.get_ref().unit;
            let Some(unit) = any_unit(written.get_ref()) else {
                findings.push(
                    Finding::error(
                        Code::Amount,
                        path,
                        format!("`{}` is not a unit", written.get_ref()),
                    )
                    .at(written.span(), ""),
                );
                continue;
            };
            let before = self.quantities.insert(name.get_ref().clone(), unit);
            if let Some(before) = before.filter(|before| before.dimension != unit.dimension) {
                let message = format!(
                    "`{}` is a {} here and a {} elsewhere",
                    name.get_ref(),
                    unit.dimension.word(),
                    before.dimension.word()
                );
                findings.push(
                    Finding::error(Code::DuplicateName, path, message)
                        .at(name.span(), "")
                        .help("give one of them another name"),
                );
            }
        }
    }

    /// Returns the layer that holds the current entry of an id.
    pub fn depth_of(&self, kind: &'static str, id: &str) -> Option<usize> {
        self.ids.get(&(kind, id.to_owned())).copied()
    }

    /// Returns whether an entry of a kind goes by an id.
    pub fn knows(&self, kind: &'static str, id: &str) -> bool {
        self.depth_of(kind, id).is_some()
    }

    /// Returns whether an entry of a kind fills a role.
    pub fn is_role(&self, kind: &'static str, role: &str) -> bool {
        self.roles.contains(&(kind, role.to_owned()))
    }

    /// Returns whether a food is made of another one.
    pub fn is_made(&self, food: &str) -> bool {
        self.made.contains(food)
    }

    /// Returns the nearest id or role of a kind.
    pub fn nearest(&self, kind: &'static str, word: &str) -> Option<&str> {
        let ids = self.ids.keys().filter(|(k, _)| *k == kind).map(|(_, id)| id.as_str());
        let roles = self.roles.iter().filter(|(k, _)| *k == kind).map(|(_, role)| role.as_str());
        nearest(word, ids.chain(roles))
    }

    /// Notes that a source is cited.
    pub fn cite(&mut self, source: &str) {
        self.cited.insert(source.to_owned());
    }
}

/// Every id of a file with its kind.
fn ids(file: &WrittenFile) -> Vec<(&'static str, &Text)> {
    let mut all: Vec<(&'static str, &Text)> = Vec::new();
    all.extend(file.source.iter().map(|entry| ("source", &entry.id)));
    all.extend(file.attribute.iter().map(|entry| ("attribute", &entry.id)));
    all.extend(file.goal.iter().map(|entry| ("goal", &entry.id)));
    all.extend(file.process.iter().map(|entry| ("process", &entry.id)));
    all.extend(file.aroma.iter().map(|entry| ("aroma", &entry.id)));
    all.extend(file.technique.iter().map(|entry| ("technique", &entry.id)));
    all.extend(file.route.iter().map(|entry| ("route", &entry.id)));
    all.extend(file.appliance.iter().map(|entry| ("appliance", &entry.id)));
    all.extend(file.supply.iter().map(|entry| ("supply", &entry.id)));
    all.extend(file.class.iter().map(|entry| ("class", &entry.id)));
    all.extend(file.food.iter().map(|entry| ("food", &entry.id)));
    all.extend(file.hazard.iter().map(|entry| ("hazard", &entry.id)));
    all
}

/// Finds a unit of any dimension, in the order of [`Dimension::ALL`].
///
/// Where two dimensions share a spelling, a declaration names the dimension before a colon:
/// `acceleration: g`.
pub(super) fn any_unit(text: &str) -> Option<Unit> {
    if let Some((word, unit)) = text.split_once(':') {
        let dimension = Dimension::ALL.into_iter().find(|d| d.word() == word.trim())?;
        return find_unit(unit, dimension, Measures::Metric);
    }
    Dimension::ALL
        .into_iter()
        .find_map(|d| find_unit(text, d, Measures::Metric).filter(|unit| unit.dimension == d))
}
