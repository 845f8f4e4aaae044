//! Rules beyond linking: what a linked knowledge base should still not contain.

use std::collections::BTreeMap;

use super::brand;
use super::{Entry, Kind, Knowledge, Layer, Move};
use crate::finding::{Code, Finding};

/// Returns the findings of every rule, placed in the files of one layer where the entry is found.
pub fn lint(knowledge: &Knowledge, layer: &Layer) -> Vec<Finding> {
    let mut findings = Vec::new();
    unused_sources(knowledge, layer, &mut findings);
    unserved_routes(knowledge, layer, &mut findings);
    unused_gear(knowledge, layer, &mut findings);
    duplicated_names(knowledge, layer, &mut findings);
    branded_words(knowledge, layer, &mut findings);
    unmeasured_goals(knowledge, layer, &mut findings);
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

fn branded_words(knowledge: &Knowledge, layer: &Layer, findings: &mut Vec<Finding>) {
    let mut report = |kind, id: &str, word: &str| {
        let message = format!("\"{word}\" in `{id}` looks like a brand");
        let found = place(layer, kind, id, Code::BrandName, message);
        findings.extend(
            found.map(|finding| finding.help("use a generic trade word, in small letters")),
        );
    };
    for (Entry { kind, id, name }, synonyms) in &knowledge.entries() {
        if *kind == Kind::Source {
            continue;
        }
        let mut names = std::iter::once(name).chain(synonyms);
        if let Some(word) = names.find_map(|name| brand::in_name(name)) {
            report(*kind, id, word);
        }
    }
    for (kind, id, text) in prose(knowledge) {
        if let Some(word) = brand::in_prose(text) {
            report(kind, id, word);
        }
    }
}

/// Sentences about entries, with the kind and the id of the entry.
fn prose(knowledge: &Knowledge) -> Vec<(Kind, &str, &str)> {
    let mut all: Vec<(Kind, &str, &str)> = Vec::new();
    for technique in knowledge.techniques.values() {
        let texts = [Some(&technique.summary), Some(&technique.achieves), technique.buy.as_ref()];
        let texts = texts.into_iter().flatten();
        all.extend(texts.map(|text| (Kind::Technique, technique.id.as_str(), text.as_str())));
    }
    all.extend(knowledge.routes.values().map(|e| (Kind::Route, &*e.id, &*e.summary)));
    all.extend(knowledge.appliances.values().map(|e| (Kind::Appliance, &*e.id, &*e.summary)));
    all.extend(knowledge.supplies.values().map(|e| (Kind::Supply, &*e.id, &*e.summary)));
    all.extend(knowledge.goals.values().map(|e| (Kind::Goal, &*e.id, &*e.summary)));
    all.extend(knowledge.hazards.values().map(|e| (Kind::Hazard, &*e.id, &*e.caution)));
    all
}

/// A target in another dimension than its attribute can never be compared with a result.
fn unmeasured_goals(knowledge: &Knowledge, layer: &Layer, findings: &mut Vec<Finding>) {
    for goal in knowledge.goals.values() {
        let Some(attribute) = knowledge.attributes.get(&goal.attribute) else { continue };
        let (wanted, measured) = (goal.target.dimension, attribute.unit.dimension);
        if wanted != measured {
            let message = format!(
                "the target of `{}` is a {} but `{}` is a {}",
                goal.id,
                wanted.word(),
                attribute.id,
                measured.word()
            );
            findings.extend(place(layer, Kind::Goal, &goal.id, Code::UnmeasuredGoal, message));
        }
    }
}
