//! Linking of methods: techniques, routes, their moves, and hazards.

use super::entries::entry_source;
use super::values::EntrySource;
use super::{Linker, plain, plain_map};
use crate::finding::{Code, Finding, suggestion};
use crate::knowledge::written::{
    Text, WrittenCondition, WrittenDose, WrittenHazard, WrittenMove, WrittenRoute, WrittenTechnique,
};
use crate::knowledge::{Condition, Dose, Endpoint, Hazard, Move, Route, Rule, Technique, Verdict};
use crate::quantity::Dimension;

impl Linker<'_> {
    pub(super) fn technique(&mut self, written: &WrittenTechnique) -> Option<Technique> {
        let entry = entry_source(written.source.as_ref(), written.locator.as_ref());
        let moves = self.moves(&written.moves, entry);
        Some(Technique {
            id: written.id.get_ref().clone(),
            name: written.name.clone(),
            synonyms: plain(&written.synonyms),
            summary: written.summary.clone(),
            achieves: written.achieves.clone(),
            goals: self.resolve_all("goal", &written.goals),
            compare: self.resolve_all("attribute", &written.compare),
            demo_food: self.resolve("food", &written.demo_food)?,
            hazards: self.resolve_all("hazard", &written.hazards),
            moves,
            buy: written.buy.clone(),
        })
    }

    pub(super) fn route(&mut self, written: &WrittenRoute) -> Option<Route> {
        let entry = entry_source(written.source.as_ref(), written.locator.as_ref());
        let (cost, hands_on) = (written.cost.as_ref(), written.hands_on.as_ref());
        Some(Route {
            id: written.id.get_ref().clone(),
            name: written.name.clone(),
            synonyms: plain(&written.synonyms),
            summary: written.summary.clone(),
            serves: self.resolve_all("technique", &written.serves),
            foods: plain(&written.foods),
            moves: self.moves(&written.moves, entry),
            loses: written.loses.clone(),
            fails: written.fails.clone(),
            hazards: self.resolve_all("hazard", &written.hazards),
            hands_on: hands_on.and_then(|time| self.value(time, Dimension::Time, entry)),
            cost: cost.and_then(|cost| self.value(cost, Dimension::Cost, entry)),
        })
    }

    fn moves(&mut self, written: &[WrittenMove], entry: EntrySource<'_>) -> Vec<Move> {
        written.iter().filter_map(|one| self.one_move(one, entry)).collect()
    }

    fn one_move(&mut self, written: &WrittenMove, entry: EntrySource<'_>) -> Option<Move> {
        let process = self.resolve("process", &written.process)?;
        Some(Move {
            process,
            uses: written.uses.iter().map(|u| self.alternatives("appliance", u)).collect(),
            supplies: written.supplies.iter().filter_map(|s| self.dose(s, entry)).collect(),
            settings: self.values(&written.settings, entry),
            modes: plain_map(&written.modes),
            keep: written.keep.as_ref().map(|keep| keep.get_ref().clone()),
            instruction: written.instruction.get_ref().clone(),
            until: written
                .until
                .iter()
                .map(|endpoint| Endpoint {
                    needs: endpoint
                        .needs
                        .as_ref()
                        .map(|needs| self.alternatives("appliance", needs))
                        .unwrap_or_default(),
                    says: endpoint.says.get_ref().clone(),
                })
                .collect(),
        })
    }

    fn dose(&mut self, written: &WrittenDose, entry: EntrySource<'_>) -> Option<Dose> {
        let any_of = self.alternatives("supply", &written.id);
        let dose = match &written.dose {
            None => None,
            Some(value) => Some(self.value(value, Dimension::Fraction, entry)?),
        };
        Some(Dose { any_of, dose, stays_in: written.stays_in })
    }

    pub(super) fn hazard(&mut self, written: &WrittenHazard) -> Option<Hazard> {
        let entry = entry_source(written.source.as_ref(), written.locator.as_ref());
        let provenance = self.provenance(entry.source, entry.locator, written.id.span())?;
        const SIGNALS: [&str; 3] = ["danger", "warning", "caution"];
        if !SIGNALS.contains(&written.signal.get_ref().as_str()) {
            self.unknown_word(&written.signal, "signal word", &SIGNALS);
        }
        let mut rules = Vec::new();
        for rule in &written.rule {
            let verdict = match rule.verdict.get_ref().as_str() {
                "warn" => Verdict::Warn,
                "refuse" => Verdict::Refuse,
                _ => {
                    self.unknown_word(&rule.verdict, "verdict", &["warn", "refuse"]);
                    continue;
                }
            };
            let when = rule.when.iter().filter_map(|c| self.condition(c, entry)).collect();
            rules.push(Rule { verdict, says: rule.says.clone(), when });
        }
        Some(Hazard {
            id: written.id.get_ref().clone(),
            name: written.name.clone(),
            synonyms: plain(&written.synonyms),
            signal: written.signal.get_ref().clone(),
            caution: written.caution.clone(),
            defer: written.defer.clone(),
            everywhere: written.everywhere,
            foods: plain(&written.foods),
            rules,
            refuses: written.refuses.clone(),
            provenance,
        })
    }

    fn condition(
        &mut self,
        written: &WrittenCondition,
        entry: EntrySource<'_>,
    ) -> Option<Condition> {
        let dimension = self.fact_dimension(&written.fact)?;
        let limit = |linker: &mut Self, value: &Option<_>| {
            value.as_ref().and_then(|value| linker.value(value, dimension, entry))
        };
        let above = limit(self, &written.above);
        let below = limit(self, &written.below);
        if above.is_none() && below.is_none() {
            self.report(
                Finding::error(
                    Code::MissingKey,
                    self.file,
                    format!("the condition on `{}` has no limit", written.fact.get_ref()),
                )
                .at(written.fact.span(), "")
                .help("give `above`, `below` or both"),
            );
            return None;
        }
        Some(Condition { fact: written.fact.get_ref().clone(), above, below })
    }

    fn fact_dimension(&mut self, fact: &Text) -> Option<Dimension> {
        if let Some(unit) = self.index.quantities.get(fact.get_ref()) {
            return Some(unit.dimension);
        }
        let known: Vec<&str> = self.index.quantities.keys().map(String::as_str).collect();
        let message = format!("no fact goes by `{}`", fact.get_ref());
        self.report(
            Finding::error(Code::UnknownName, self.file, message)
                .at(fact.span(), "")
                .help(suggestion(fact.get_ref(), &known)),
        );
        None
    }
}
