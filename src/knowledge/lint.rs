//! Rules beyond linking: what a linked knowledge base should still not contain.

use std::collections::BTreeMap;

use super::{Entry, Kind, Knowledge, Layer, Move};
use crate::finding::{Code, Finding};

/// Returns the findings of every rule, placed in the files of one layer where the entry is found.
pub fn lint(knowledge: &Knowledge, layer: &Layer) -> Vec<Finding> {
    let mut findings = Vec::new();
    unused_sources(knowledge, layer, &mut findings);
    unserved_routes(knowledge, layer, &mut findings);
    unused_gear(knowledge, layer, &mut findings);
    duplicated_names(knowledge, layer, &mut findings);
    findings
}

/// Places a finding at the `id = "…"` line of an entry, wherever the layer holds it.
fn place(layer: &Layer, kind: Kind, id: &str, code: Code, message: String) -> Option<Finding> {
    let header = format!("[[{}]]", kind.word());
    let line = format!("id = \"{id}\"");
    for file in &layer.files {
        for (position, _) in file.text.match_indices(&line) {
            let starts_line = file.text[..position].ends_with('\n');
            let section = file.text[..position].rfind("\n[[").map_or(0, |at| at + 1);
            if starts_line && file.text[section..].starts_with(&header) {
                let span = position..position + line.len();
                return Some(Finding::warning(code, &file.path, message).at(span, ""));
            }
        }
    }
    None
}

fn unused_sources(knowledge: &Knowledge, layer: &Layer, findings: &mut Vec<Finding>) {
    for id in knowledge.sources.keys().filter(|id| !knowledge.is_cited(id)) {
        let message = format!("nothing cites the source `{id}`");
        findings.extend(place(layer, Kind::Source, id, Code::UnusedSource, message));
    }
}

fn unserved_routes(knowledge: &Knowledge, layer: &Layer, findings: &mut Vec<Finding>) {
    use super::Found;
    for route in knowledge.routes.values() {
        let unserved = route.moves.iter().flat_map(|one| &one.uses).find(|any_of| {
            !any_of.iter().any(|role| {
                knowledge.appliances_serving(role).any(|a| a.found != Found::Laboratory)
            })
        });
        if let Some(any_of) = unserved {
            let wanted = any_of.join(" or ");
            let message = format!("no home appliance serves `{}` as {wanted}", route.id);
            findings.extend(place(layer, Kind::Route, &route.id, Code::UnservedRoute, message));
        }
    }
}

fn unused_gear(knowledge: &Knowledge, layer: &Layer, findings: &mut Vec<Finding>) {
    let moves: Vec<&Move> = knowledge
        .techniques
        .values()
        .flat_map(|technique| &technique.moves)
        .chain(knowledge.routes.values().flat_map(|route| &route.moves))
        .collect();
    let roles: Vec<&String> = moves
        .iter()
        .flat_map(|one| one.uses.iter().flatten().chain(one.until.iter().flat_map(|u| &u.needs)))
        .collect();
    for appliance in knowledge.appliances.values() {
        if !roles.iter().any(|role| appliance.serves_as(role)) {
            let message = format!("no route or technique uses the appliance `{}`", appliance.id);
            let found = place(layer, Kind::Appliance, &appliance.id, Code::UnusedEntry, message);
            findings.extend(found);
        }
    }
    let supplied: Vec<&String> =
        moves.iter().flat_map(|one| one.supplies.iter().flat_map(|s| &s.any_of)).collect();
    for supply in knowledge.supplies.values() {
        if !supplied.iter().any(|role| supply.serves_as(role)) {
            let message = format!("no route or technique uses the supply `{}`", supply.id);
            findings.extend(place(layer, Kind::Supply, &supply.id, Code::UnusedEntry, message));
        }
    }
}

fn duplicated_names(knowledge: &Knowledge, layer: &Layer, findings: &mut Vec<Finding>) {
    let mut seen: BTreeMap<(Kind, String), &str> = BTreeMap::new();
    for (Entry { kind, id, name }, synonyms) in &knowledge.entries() {
        if matches!(kind, Kind::Source | Kind::Attribute) {
            continue;
        }
        for word in std::iter::once(name).chain(synonyms) {
            let before = seen.insert((*kind, word.to_lowercase()), id);
            if let Some(other) = before.filter(|other| other != id) {
                let message = format!("`{id}` and `{other}` both go by \"{word}\"");
                findings.extend(place(layer, *kind, id, Code::DuplicateName, message));
            }
        }
    }
}
