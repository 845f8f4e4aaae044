//! Appliances that a kitchen owns, with what it states of each.

use std::collections::{BTreeMap, BTreeSet};

use crate::finding::{Code, nearest};
use crate::knowledge::written::Text;
use crate::knowledge::{Appliance, Kind, Knowledge, Move, ValueMap};
use crate::reader::Reader;

use super::written::WrittenOwned;

/// The key that names the kind of an appliance which goes by a name of its own.
const KIND: &str = "kind";

/// An appliance that a kitchen owns.
#[derive(Debug, Clone, PartialEq)]
pub struct Owned {
    /// The name under which the kitchen lists it.
    pub label: String,
    /// Id of the appliance in the knowledge base.
    pub id: String,
    /// Roles that it fills beside its own id.
    pub fills: Vec<String>,
    /// Its capabilities: those that the kitchen states over those of the knowledge base.
    pub values: ValueMap,
    /// Words that it sets, likewise.
    pub modes: BTreeMap<String, String>,
}

impl Owned {
    /// Makes an appliance of which nothing is stated, as the laboratory's own gear.
    pub fn of(appliance: &Appliance) -> Self {
        Self {
            label: appliance.id.clone(),
            id: appliance.id.clone(),
            fills: appliance.fills.clone(),
            values: appliance.values.clone(),
            modes: appliance.modes.clone(),
        }
    }

    /// Returns whether it goes by an id or fills a role.
    pub fn serves_as(&self, role: &str) -> bool {
        self.id == role || self.fills.iter().any(|filled| filled == role)
    }

    /// Links one appliance; `None` after a finding about its kind.
    pub(super) fn link(key: &Text, stated: &WrittenOwned, reader: &mut Reader<'_>) -> Option<Self> {
        let kind = stated.iter().find(|(name, _)| name.get_ref() == KIND).map(|(_, kind)| kind);
        let id = reader.named(Kind::Appliance, kind.unwrap_or(key))?;
        let appliance = &reader.knowledge().appliances[&id];
        let mut owned = Self { label: key.get_ref().clone(), ..Self::of(appliance) };
        let allowed = capabilities(appliance, reader.knowledge());
        for (name, text) in stated.iter().filter(|(name, _)| name.get_ref() != KIND) {
            owned.state(name, text, &allowed, reader);
        }
        Some(owned)
    }

    /// Returns the full name of a value: `temperature` stands for `freezer_temperature` when no
    /// other of the appliance's own values ends so.
    fn full_name(&self, short: &str) -> String {
        let ending = format!("_{short}");
        let mut full = self.values.keys().filter(|name| name.ends_with(&ending));
        match (self.values.contains_key(short), full.next(), full.next()) {
            (false, Some(only), None) => only.clone(),
            _ => short.to_owned(),
        }
    }

    /// Takes one stated value or word.
    fn state(
        &mut self,
        name: &Text,
        text: &Text,
        allowed: &BTreeSet<&str>,
        reader: &mut Reader<'_>,
    ) {
        let key = &self.full_name(name.get_ref());
        if let Some(word) = self.modes.get_mut(key) {
            text.get_ref().clone_into(word);
            return;
        }
        let parameter = reader.knowledge().parameter(key);
        let Some(parameter) = parameter.filter(|_| allowed.contains(key.as_str())) else {
            let message = format!("`{}` has no capability `{key}`", self.id);
            let listed: Vec<&str> = allowed.iter().copied().collect();
            let help = match nearest(key, listed.iter().copied()) {
                Some(near) => format!("did you mean `{near}`? accepted: {}", listed.join(", ")),
                None if listed.is_empty() => "nothing can be stated of it: remove it".to_owned(),
                None => format!("accepted: {}", listed.join(", ")),
            };
            reader.error(Code::UnknownName, name.span(), message, help);
            return;
        };
        let what = format!("`{key}` of `{}`", self.id);
        if let Some(value) = reader.value(&what, text, parameter.dimension()) {
            self.values.insert(key.clone(), value);
        }
    }
}

/// What can be stated of an appliance: its own values, its words, and the parameters of the
/// processes in which it is used.
fn capabilities<'a>(appliance: &'a Appliance, knowledge: &'a Knowledge) -> BTreeSet<&'a str> {
    let uses = |one: &&Move| one.uses.iter().flatten().any(|role| appliance.serves_as(role));
    let techniques = knowledge.techniques.values().flat_map(|technique| &technique.moves);
    let moves = knowledge.routes.values().flat_map(|route| &route.moves).chain(techniques);
    let processes = moves.filter(uses).filter_map(|one| knowledge.processes.get(&one.process));
    let parameters = processes.flat_map(|process| process.parameters.keys());
    let own = appliance.values.keys().chain(appliance.modes.keys());
    own.chain(parameters).map(String::as_str).collect()
}
