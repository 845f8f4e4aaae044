//! Linking: names to entries, units to SI, sources to publications; every fault is collected.

mod entries;
mod methods;
mod names;
mod values;

use std::collections::BTreeMap;

use rayon::prelude::*;

use super::load::{File, Layer};
use super::text::control_character;
use super::written::{Text, WrittenFile};
use super::{Knowledge, Overridden};
use crate::finding::{Code, Finding};
use names::Index;

/// Links the layers of a knowledge base, later layers over earlier ones.
///
/// Returns what could be linked and every finding; the result is fit for use when no finding is an
/// error.
pub(super) fn link(layers: &[Layer]) -> (Knowledge, Vec<Finding>) {
    let files: Vec<(usize, &File)> = layers
        .iter()
        .enumerate()
        .flat_map(|(depth, layer)| layer.files.iter().map(move |file| (depth, file)))
        .collect();
    let read: Vec<Result<WrittenFile, toml::de::Error>> =
        files.par_iter().map(|(_, file)| toml::from_str(&file.text)).collect();
    let mut findings = Vec::new();
    let mut parsed: Vec<(usize, &str, WrittenFile)> = Vec::new();
    for ((depth, file), read) in files.into_iter().zip(read) {
        match read {
            Ok(written) => {
                findings.extend(control_character(&file.text, &file.path));
                parsed.push((depth, file.path.as_str(), written));
            }
            Err(error) => findings.push(Finding::of_toml(&file.path, &error)),
        }
    }
    let mut index = Index::of(&parsed, &mut findings);
    let mut knowledge = Knowledge::default();
    let names: Vec<&str> = layers.iter().map(|layer| layer.name.as_str()).collect();
    for (depth, file, written) in &parsed {
        let mut linker = Linker { file, depth: *depth, index: &mut index, findings: &mut findings };
        linker.file(written, &mut knowledge);
    }
    knowledge.overridden = index
        .overridden
        .iter()
        .map(|(entry, depth)| Overridden { entry: entry.clone(), layer: names[*depth].to_owned() })
        .collect();
    knowledge.complete();
    knowledge.cited = std::mem::take(&mut index.cited);
    (knowledge, findings)
}

/// Links the entries of one file.
struct Linker<'a> {
    file: &'a str,
    depth: usize,
    index: &'a mut Index,
    findings: &'a mut Vec<Finding>,
}

impl Linker<'_> {
    fn report(&mut self, finding: Finding) {
        self.findings.push(finding);
    }

    /// Links every entry of a file that no later layer overrides.
    fn file(&mut self, written: &WrittenFile, knowledge: &mut Knowledge) {
        macro_rules! each {
            ($($list:ident $kind:literal $link:ident => $map:ident;)+) => {$(
                for entry in &written.$list {
                    if !self.is_current($kind, &entry.id) {
                        continue;
                    }
                    if let Some(linked) = self.$link(entry) {
                        knowledge.$map.insert(entry.id.get_ref().clone(), linked);
                    }
                }
            )+};
        }
        each! {
            source "source" source => sources;
            attribute "attribute" attribute => attributes;
            goal "goal" goal => goals;
            process "process" process => processes;
            aroma "aroma" aroma => aromas;
            technique "technique" technique => techniques;
            route "route" route => routes;
            appliance "appliance" appliance => appliances;
            supply "supply" supply => supplies;
            class "class" class => classes;
            food "food" food => foods;
            hazard "hazard" hazard => hazards;
        }
        for (name, parameter) in &written.quantity {
            if let Some(linked) = self.parameter(name, parameter) {
                knowledge.quantities.insert(name.get_ref().clone(), linked);
            }
        }
    }

    fn is_current(&self, kind: &'static str, id: &Text) -> bool {
        self.index.depth_of(kind, id.get_ref()) == Some(self.depth)
    }

    /// Resolves an id of a kind; a finding when nothing goes by it.
    fn resolve(&mut self, kind: &'static str, id: &Text) -> Option<String> {
        if self.index.knows(kind, id.get_ref()) {
            return Some(id.get_ref().clone());
        }
        let near = self.index.nearest(kind, id.get_ref());
        let help = near.map_or_else(
            || format!("add it as a [[{kind}]]"),
            |near| format!("did you mean `{near}`?"),
        );
        let message = format!("no {kind} goes by `{}`", id.get_ref());
        self.report(
            Finding::error(Code::UnknownName, self.file, message)
                .at(id.span(), "not found")
                .help(help),
        );
        None
    }

    fn resolve_all(&mut self, kind: &'static str, ids: &[Text]) -> Vec<String> {
        ids.iter().filter_map(|id| self.resolve(kind, id)).collect()
    }

    /// Resolves alternatives written with `|`; each an id of the kind or a role that one fills.
    fn alternatives(&mut self, kind: &'static str, written: &Text) -> Vec<String> {
        let words: Vec<String> =
            written.get_ref().split('|').map(|word| word.trim().to_owned()).collect();
        for word in &words {
            let known = self.index.knows(kind, word) || self.index.is_role(kind, word);
            if !known {
                self.resolve(kind, &super::written::Spanned::new(written.span(), word.clone()));
            }
        }
        words
    }
}

/// Texts without their places.
fn plain(texts: &[Text]) -> Vec<String> {
    texts.iter().map(|text| text.get_ref().clone()).collect()
}

/// Words by name without their places.
fn plain_map(texts: &BTreeMap<Text, Text>) -> BTreeMap<String, String> {
    let pair = |(name, text): (&Text, &Text)| (name.get_ref().clone(), text.get_ref().clone());
    texts.iter().map(pair).collect()
}
