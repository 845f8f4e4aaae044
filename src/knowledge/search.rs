//! Finding entries by any name: id, trade name or everyday synonym.

use super::Knowledge;
use crate::finding::nearest;

/// The kinds of entry that a word can find.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// A professional step.
    Technique,
    /// A physical effect wanted.
    Goal,
    /// A way to reach it at home.
    Route,
    /// Gear.
    Appliance,
    /// A consumable.
    Supply,
    /// What many foods have in common.
    Class,
    /// A food.
    Food,
    /// An aroma compound.
    Aroma,
    /// What can hurt someone.
    Hazard,
    /// A publication.
    Source,
    /// What can be measured.
    Attribute,
    /// A process model.
    Process,
}

impl Kind {
    /// Returns the word for the kind.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Technique => "technique",
            Self::Goal => "goal",
            Self::Route => "route",
            Self::Appliance => "appliance",
            Self::Supply => "supply",
            Self::Class => "class",
            Self::Food => "food",
            Self::Aroma => "aroma",
            Self::Hazard => "hazard",
            Self::Source => "source",
            Self::Attribute => "attribute",
            Self::Process => "process",
        }
    }
}

/// An entry that a word found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Entry<'a> {
    /// Its kind.
    pub kind: Kind,
    /// Its id.
    pub id: &'a str,
    /// Its name as printed.
    pub name: &'a str,
}

impl Knowledge {
    /// Returns every entry with its names, the ids first.
    pub fn entries(&self) -> Vec<(Entry<'_>, Vec<&str>)> {
        let mut all = Vec::new();
        macro_rules! each {
            ($($kind:ident $map:ident;)+) => {$(
                for entry in self.$map.values() {
                    let found = Entry { kind: Kind::$kind, id: &entry.id, name: &entry.name };
                    all.push((found, entry.synonyms.iter().map(String::as_str).collect()));
                }
            )+};
        }
        each! {
            Technique techniques;
            Goal goals;
            Route routes;
            Appliance appliances;
            Supply supplies;
            Food foods;
            Aroma aromas;
            Hazard hazards;
        }
        for class in self.classes.values() {
            let (id, name) = (class.id.as_str(), class.name.as_str());
            all.push((Entry { kind: Kind::Class, id, name }, Vec::new()));
        }
        for source in self.sources.values() {
            let name = source.title.as_str();
            all.push((Entry { kind: Kind::Source, id: &source.id, name }, Vec::new()));
        }
        for attribute in self.attributes.values() {
            let (id, name) = (attribute.id.as_str(), attribute.name.as_str());
            all.push((Entry { kind: Kind::Attribute, id, name }, Vec::new()));
        }
        for process in self.processes.values() {
            let (id, name) = (process.id.as_str(), process.id.as_str());
            all.push((Entry { kind: Kind::Process, id, name }, Vec::new()));
        }
        all
    }

    /// Returns the id of the entry of a kind that is written exactly so.
    pub fn id(&self, kind: Kind, word: &str) -> Option<&str> {
        macro_rules! each {
            ($($kind:ident $map:ident;)+) => {
                match kind {
                    $(Kind::$kind => self.$map.get(word).map(|entry| entry.id.as_str()),)+
                }
            };
        }
        each! {
            Technique techniques;
            Goal goals;
            Route routes;
            Appliance appliances;
            Supply supplies;
            Class classes;
            Food foods;
            Aroma aromas;
            Hazard hazards;
            Source sources;
            Attribute attributes;
            Process processes;
        }
    }

    /// Returns the entries that go by a word exactly, ignoring case, spaces and hyphens.
    pub fn find(&self, word: &str) -> Vec<Entry<'_>> {
        let wanted = folded(word);
        let goes_by = |(entry, names): &(Entry<'_>, Vec<&str>)| {
            folded(entry.id) == wanted
                || folded(entry.name) == wanted
                || names.iter().any(|name| folded(name) == wanted)
        };
        self.entries().into_iter().filter(goes_by).map(|(entry, _)| entry).collect()
    }

    /// Returns entries whose names hold every part of a word, or are spelt nearly like it.
    pub fn near(&self, word: &str, limit: usize) -> Vec<Entry<'_>> {
        let parts: Vec<String> = word.split_whitespace().map(folded).collect();
        let mut found: Vec<(usize, Entry<'_>)> = Vec::new();
        for (entry, names) in self.entries() {
            let all = || [entry.id, entry.name].into_iter().chain(names.iter().copied());
            let holds = all().any(|name| {
                let name = folded(name);
                !parts.is_empty() && parts.iter().all(|part| name.contains(part.as_str()))
            });
            let spelt = nearest(word, all()).is_some();
            if holds || spelt {
                found.push((usize::from(!spelt), entry));
            }
        }
        found.sort();
        found.into_iter().take(limit).map(|(_, entry)| entry).collect()
    }
}

/// Returns a name without case, spaces, hyphens and apostrophes.
pub fn folded(name: &str) -> String {
    name.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase).collect()
}
