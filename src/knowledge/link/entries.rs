//! Linking of single entries: sources, attributes, goals, foods, gear, hazards.

use std::collections::BTreeMap;

use super::names::any_unit;
use super::values::EntrySource;
use super::{Linker, plain, plain_map};
use crate::finding::{Code, Finding};
use crate::knowledge::written::{
    Spanned, Text, WrittenAppliance, WrittenAroma, WrittenAttribute, WrittenClass,
    WrittenComposition, WrittenFood, WrittenGoal, WrittenProcess, WrittenSource, WrittenSupply,
};
use crate::knowledge::{
    Appliance, AromaCompound, Attribute, Better, Class, Food, Found, Goal, Level, Loads, NoteClass,
    Notice, ProcessEntry, Provenance, Shares, Source, Supply,
};
use crate::quantity::Dimension;

/// The kinds of publication.
const SOURCE_KINDS: [&str; 8] =
    ["article", "book", "standard", "report", "dataset", "web", "law", "library"];
/// A composition closes when its parts add to 100 g within this many grams.
const CLOSURE_GRAMS: f64 = 2.0;
/// Parts of carbohydrate may exceed the whole by rounding, in grams.
const PART_SLACK_GRAMS: f64 = 0.6;

impl Linker<'_> {
    pub(super) fn source(&mut self, written: &WrittenSource) -> Option<Source> {
        if !SOURCE_KINDS.contains(&written.kind.get_ref().as_str()) {
            self.unknown_word(&written.kind, "kind of source", &SOURCE_KINDS);
            return None;
        }
        Some(Source {
            id: written.id.get_ref().clone(),
            author: written.author.clone(),
            title: written.title.clone(),
            described: written.described,
            year: written.year,
            undated: written.undated,
            publisher: written.publisher.clone(),
            kind: written.kind.get_ref().clone(),
            note: written.note.clone(),
        })
    }

    pub(super) fn attribute(&mut self, written: &WrittenAttribute) -> Option<Attribute> {
        let Some(unit) = any_unit(written.unit.get_ref()) else {
            self.unknown_word(&written.unit, "unit", &[]);
            return None;
        };
        let better = match written.better.get_ref().as_str() {
            "more" => Better::More,
            "less" => Better::Less,
            "nearer" => Better::Nearer,
            _ => {
                self.unknown_word(&written.better, "direction", &["more", "less", "nearer"]);
                return None;
            }
        };
        let none = EntrySource::default();
        let notice = match (&written.notice.difference, &written.notice.ratio) {
            (Some(value), None) => {
                Notice::Difference(self.value(value, difference_of(unit.dimension), none)?)
            }
            (None, Some(value)) => Notice::Ratio(self.value(value, Dimension::Fraction, none)?),
            _ => {
                self.report(
                    Finding::error(
                        Code::MissingKey,
                        self.file,
                        format!("`{}` needs one noticed difference", written.id.get_ref()),
                    )
                    .at(written.id.span(), "")
                    .help("give `notice.difference` or `notice.ratio`"),
                );
                return None;
            }
        };
        let mut levels = Vec::new();
        for level in &written.level {
            let up_to = level.up_to.map_or(f64::INFINITY, |bound| unit.to_si(bound));
            let provenance = match &level.source {
                Some(source) => self.provenance(Some(source), None, source.span())?,
                None => Provenance::CommonPractice,
            };
            levels.push(Level { up_to, means: level.means.clone(), provenance });
        }
        Some(Attribute {
            id: written.id.get_ref().clone(),
            name: written.name.clone(),
            unit,
            better,
            group: written.group.clone(),
            notice,
            levels,
            measure: written.measure.clone(),
        })
    }

    pub(super) fn goal(&mut self, written: &WrittenGoal) -> Option<Goal> {
        let attribute = self.resolve("attribute", &written.attribute)?;
        let at_least = match written.reach.get_ref().as_str() {
            "at least" => true,
            "at most" => false,
            _ => {
                self.unknown_word(&written.reach, "direction", &["at least", "at most"]);
                return None;
            }
        };
        let target = written.target.get_ref();
        let Some(unit) = any_unit(&target.unit) else {
            self.unit(&target.unit, written.target.span(), Dimension::Fraction);
            return None;
        };
        let value = self.value(&written.target, unit.dimension, EntrySource::default())?;
        Some(Goal {
            id: written.id.get_ref().clone(),
            name: written.name.clone(),
            synonyms: plain(&written.synonyms),
            summary: written.summary.clone(),
            attribute,
            target: value,
            at_least,
        })
    }

    pub(super) fn process(&mut self, written: &WrittenProcess) -> Option<ProcessEntry> {
        let parameters = written
            .parameters
            .iter()
            .filter_map(|(name, parameter)| {
                Some((name.get_ref().clone(), self.parameter(name, parameter)?))
            })
            .collect();
        let known = Loads::WORDS.iter().find(|(word, _)| word == written.loads.get_ref());
        let Some((_, loads)) = known else {
            let words = Loads::WORDS.map(|(word, _)| word);
            self.unknown_word(&written.loads, "rule for loads", &words);
            return None;
        };
        Some(ProcessEntry {
            id: written.id.get_ref().clone(),
            summary: written.summary.clone(),
            loads: *loads,
            stands: written.stands,
            parameters,
            streams: written.streams.clone(),
        })
    }

    pub(super) fn aroma(&mut self, written: &WrittenAroma) -> Option<AromaCompound> {
        let class = NoteClass::ALL.into_iter().find(|c| c.word() == written.note.get_ref());
        let Some(note) = class else {
            self.unknown_word(&written.note, "note class", &["top", "middle", "base"]);
            return None;
        };
        Some(AromaCompound {
            id: written.id.get_ref().clone(),
            name: written.name.clone(),
            synonyms: plain(&written.synonyms),
            cas: written.cas.clone(),
            note,
            smell: written.smell.clone(),
            found_in: written.found_in.clone(),
            classes: self.resolve_all("class", &written.classes),
            values: self.values(&written.values, EntrySource::default()),
            derived: BTreeMap::new(),
        })
    }

    pub(super) fn appliance(&mut self, written: &WrittenAppliance) -> Option<Appliance> {
        let found = match written.found.get_ref().as_str() {
            "home" => Found::Home,
            "laboratory" => Found::Laboratory,
            "both" => Found::Both,
            _ => {
                self.unknown_word(&written.found, "place", &["home", "laboratory", "both"]);
                return None;
            }
        };
        let entry = entry_source(written.source.as_ref(), written.locator.as_ref());
        Some(Appliance {
            id: written.id.get_ref().clone(),
            name: written.name.clone(),
            synonyms: plain(&written.synonyms),
            summary: written.summary.clone(),
            found,
            fills: plain(&written.fills),
            in_hand: written.in_hand,
            values: self.values(&written.values, entry),
            modes: plain_map(&written.modes),
            hazards: self.resolve_all("hazard", &written.hazards),
        })
    }

    pub(super) fn supply(&mut self, written: &WrittenSupply) -> Option<Supply> {
        let entry = entry_source(written.source.as_ref(), written.locator.as_ref());
        Some(Supply {
            id: written.id.get_ref().clone(),
            name: written.name.clone(),
            synonyms: plain(&written.synonyms),
            summary: written.summary.clone(),
            fills: plain(&written.fills),
            everyday: written.everyday,
            values: self.values(&written.values, entry),
            allergens: written.allergens.clone(),
            hazards: self.resolve_all("hazard", &written.hazards),
        })
    }

    pub(super) fn class(&mut self, written: &WrittenClass) -> Option<Class> {
        let entry = entry_source(written.source.as_ref(), written.locator.as_ref());
        Some(Class {
            id: written.id.get_ref().clone(),
            name: written.name.clone(),
            summary: written.summary.clone(),
            values: self.values(&written.values, entry),
        })
    }

    pub(super) fn food(&mut self, written: &WrittenFood) -> Option<Food> {
        let entry = entry_source(written.source.as_ref(), written.locator.as_ref());
        let provenance = self.provenance(entry.source, entry.locator, written.id.span())?;
        let (shares, made_of) = match (&written.composition, &written.made_of) {
            (Some(composition), None) => (self.shares(&written.id, composition)?, None),
            (None, Some(origin)) => (Shares::default(), Some(self.origin(origin)?)),
            _ => {
                let message = format!("`{}` needs one composition", written.id.get_ref());
                self.report(
                    Finding::error(Code::MissingKey, self.file, message)
                        .at(written.id.span(), "")
                        .help("give `composition`, or `made_of` with the food it is made of"),
                );
                return None;
            }
        };
        Some(Food {
            id: written.id.get_ref().clone(),
            name: written.name.clone(),
            synonyms: plain(&written.synonyms),
            aliases: plain(&written.aliases),
            group: written.group.get_ref().clone(),
            classes: self.resolve_all("class", &written.classes),
            made_of,
            poultry: written.poultry,
            shares,
            provenance,
            stated: written.composition.as_ref().map_or(0, |c| stated(c.get_ref())),
            values: self.values(&written.values, entry),
            derived: BTreeMap::new(),
            aromas: self.resolve_all("aroma", &written.aromas),
            allergens: written.allergens.clone(),
        })
    }

    /// Resolves the food of which another one is made; a finding when that is made of one, too.
    fn origin(&mut self, origin: &Text) -> Option<String> {
        let id = self.resolve("food", origin)?;
        if self.index.is_made(&id) {
            let message = format!("`{id}` states no composition of its own");
            self.report(
                Finding::error(Code::Composition, self.file, message)
                    .at(origin.span(), "")
                    .help("name the food of which that one is made"),
            );
            return None;
        }
        Some(id)
    }

    /// Turns grams per 100 g into shares that add to one; a finding when they do not close.
    fn shares(&mut self, id: &Text, written: &Spanned<WrittenComposition>) -> Option<Shares> {
        let c = written.get_ref();
        let total = c.water + c.protein + c.fat + c.carbohydrate + c.ash + c.ethanol;
        let parts = c.sugars + c.starch + c.fibre + c.acid;
        let fault = if (total - 100.0).abs() > CLOSURE_GRAMS {
            Some(format!("the composition of `{}` adds to {total:.1} g per 100 g", id.get_ref()))
        } else if parts > c.carbohydrate + PART_SLACK_GRAMS {
            let name = id.get_ref();
            Some(format!("sugars, starch, fibre and acid of `{name}` exceed its carbohydrate"))
        } else if c.salt > c.ash + PART_SLACK_GRAMS {
            Some(format!("the salt of `{}` exceeds its ash", id.get_ref()))
        } else {
            None
        };
        if let Some(message) = fault {
            self.report(
                Finding::error(Code::Composition, self.file, message)
                    .at(written.span(), "")
                    .help("water, protein, fat, carbohydrate, ash and ethanol add to 98-102 g"),
            );
            return None;
        }
        let other = (c.carbohydrate - parts).max(0.0) + (c.ash - c.salt).max(0.0);
        let sum = c.water + c.protein + c.fat + parts + c.salt + c.ethanol + other;
        Some(Shares {
            water: c.water / sum,
            sugars: c.sugars / sum,
            starch: c.starch / sum,
            fibre: c.fibre / sum,
            protein: c.protein / sum,
            fat: c.fat / sum,
            acid: c.acid / sum,
            salt: c.salt / sum,
            ethanol: c.ethanol / sum,
            other: other / sum,
        })
    }
}

/// The source that an entry states for its values.
pub(super) fn entry_source<'a>(
    source: Option<&'a Text>,
    locator: Option<&'a String>,
) -> EntrySource<'a> {
    EntrySource { source, locator }
}

/// A difference between two temperatures is not a temperature.
fn difference_of(dimension: Dimension) -> Dimension {
    match dimension {
        Dimension::Temperature => Dimension::TemperatureDifference,
        other => other,
    }
}

/// How many numbers a composition states.
fn stated(c: &WrittenComposition) -> usize {
    let all = [
        c.water,
        c.protein,
        c.fat,
        c.carbohydrate,
        c.sugars,
        c.starch,
        c.fibre,
        c.acid,
        c.ash,
        c.salt,
        c.ethanol,
    ];
    all.iter().filter(|share| **share > 0.0).count()
}
