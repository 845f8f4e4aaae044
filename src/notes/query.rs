//! Queries to the author: where the tool is unsure and a person must decide.

use std::collections::BTreeSet;

use super::expect::loses_something;
use super::keeping::keeping;
use super::{Group, Material, StepNote, TaskNote};
use crate::advisor::{Method, Missing, StepAdvice, Term, avoided};
use crate::estimate::Estimate;
use crate::knowledge::{Confidence, Knowledge, Provenance};
use crate::quantity::{Mass, Time, cook_time, range_text, significant};
use crate::recipe::is_poured;
use crate::trial::written::Verdict;

/// A range whose ends lie further apart than this says little.
const WIDE: f64 = 3.0;
/// A route that fails in more of the samples than this is asked about.
const FAILS: f64 = 0.02;
/// An ingredient that makes up less of the recipe than this bears little on any number.
const MATTERS: f64 = 0.05;
/// An unknown that explains less of the spread than this is not worth a question.
const HANGS: f64 = 0.2;
/// Significant digits of a goal that is missed.
const MISSED_DIGITS: u32 = 2;
/// Of a food with more fat than this a refractometer tells nothing.
const LEAN: f64 = 0.01;
/// Per cent of a whole.
const WHOLE: f64 = 100.0;

/// What a query is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    /// A step that no kitchen reaches, or some do not.
    NotReached,
    /// The number that matters most is not known well.
    UncertainNumber,
    /// A loss or a quality is stated, not computed.
    Stated,
    /// A range is wide, or the route does not always work.
    WideRange,
    /// A value of a food is not published.
    Food,
    /// Keeping needs a measurement.
    Keeping,
    /// A trial asks for a change or found something else.
    Trial,
    /// The recipe leaves something open.
    Missing,
}

/// One query.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Query {
    /// What it is about.
    pub kind: Kind,
    /// The step or the food; empty for the whole recipe.
    pub about: String,
    /// What is asked.
    pub text: String,
}

/// Collects the queries, those that decide whether the recipe can be printed first.
pub(super) fn queries(material: &Material<'_>, steps: &[StepNote<'_>]) -> Vec<Query> {
    let mut asked = Asked { material, queries: Vec::new() };
    for step in steps {
        let TaskNote::Professional(groups) = &step.task else { continue };
        for group in groups {
            asked.step(step.product, group);
        }
    }
    asked.foods();
    asked.keeping();
    asked.trials();
    asked.missing();
    let mut seen = BTreeSet::new();
    asked.queries.retain(|query| seen.insert((query.about.clone(), query.text.clone())));
    asked.queries.sort_by_key(|query| query.kind);
    asked.queries
}

struct Asked<'a> {
    material: &'a Material<'a>,
    queries: Vec<Query>,
}

impl Asked<'_> {
    fn ask(&mut self, kind: Kind, about: &str, text: impl Into<String>) {
        self.queries.push(Query { kind, about: about.to_owned(), text: text.into() });
    }

    fn knowledge(&self) -> &Knowledge {
        self.material.knowledge
    }

    /// Names the kitchens of a group when there are others.
    fn places(&self, group: &Group<'_>) -> String {
        if group.kitchens.len() == self.material.adapted.len() {
            return String::new();
        }
        let name = |(index, _): &(usize, _)| self.material.adapted[*index].kitchen.name.as_str();
        let names: Vec<&str> = group.kitchens.iter().map(name).collect();
        format!(" ({})", names.join("; "))
    }

    fn step(&mut self, product: &str, group: &Group<'_>) {
        let about = &format!("{product}{}", self.places(group));
        let Some(method) = group.method() else {
            let text = self.nothing_open(group.advice());
            self.ask(Kind::NotReached, about, text);
            return;
        };
        if !group.is_reached() {
            let missed = method.score.goals.first().and_then(|term| self.missed(term));
            let text = format!(
                "The goal is not reached at home{}; the closest, {}, is given in its place. Print it \
                 under another name, {}, or cut the step?",
                missed.map_or(String::new(), |missed| format!(" ({missed})")),
                method.name,
                self.instead(group.advice())
            );
            self.ask(Kind::NotReached, about, text);
        }
        match method.bought {
            true => {
                let text = format!(
                    "\"{}\" is bought; its quality is stated, not computed. Which kind should the \
                     reader look for, and by which words on the label?",
                    method.name
                );
                self.ask(Kind::Stated, about, text);
            }
            false => self.time(about, method),
        }
        self.stated(about, method);
        self.failing(about, method);
        for term in method.score.goals.iter().skip(1).filter(|term| !term.is_reached()) {
            self.second_goal(about, term);
        }
    }

    /// What would open a route, when nothing does.
    fn nothing_open(&self, advice: &StepAdvice) -> String {
        let one_short =
            advice.ruled_out.iter().filter_map(|route| match route.missing.as_slice() {
                [Missing::Appliance(need) | Missing::Supply(need)] => Some(need.names.as_str()),
                _ => None,
            });
        let mut gear: Vec<&str> = one_short.collect();
        gear.sort_unstable();
        gear.dedup();
        let instead = self.instead(advice);
        match gear.is_empty() {
            true => format!(
                "No home route is open, and each lacks more than one thing. Cut the step, or {instead}?"
            ),
            false => format!(
                "No home route is open; one of these would open one: {}. Ask the reader for it, \
                 {instead}, or cut the step?",
                gear.join("; ")
            ),
        }
    }

    /// What can be printed in place of a step.
    fn instead(&self, advice: &StepAdvice) -> String {
        let known = self.knowledge().techniques.get(&advice.technique);
        match known.and_then(|technique| technique.buy.as_ref()) {
            Some(buy) => format!("print what can be bought ({buy})"),
            None => "leave it to kitchens that have the instrument".to_owned(),
        }
    }

    /// A goal that is missed, with what it asks for and what is reached.
    fn missed(&self, term: &Term) -> Option<String> {
        let attribute = self.knowledge().attributes.get(&term.attribute)?;
        let unit = &attribute.unit;
        let show = |si| {
            let number = significant(unit.from_si(si), MISSED_DIGITS);
            format!("{number} {}", unit.symbol).trim_end().to_owned()
        };
        let bound = if term.at_least { "at least" } else { "at most" };
        let (asked, found) = (show(term.target), show(term.result));
        Some(format!("{}: {bound} {asked}, here {found}", attribute.name))
    }

    /// The time, when it is not known well, with the unknown that matters most to it.
    fn time(&mut self, product: &str, method: &Method) {
        let time = method.simulated.time().filter(is_wide);
        let unknown = method.unknown.as_ref().filter(|one| one.weight >= HANGS);
        let wide = time.map(|time| {
            format!(
                "The time runs from {}: print the endpoint, and the clock only as a guide.",
                time_text(&time)
            )
        });
        let number = unknown.map(|unknown| {
            let basis = match weak_basis(&unknown.meaning, method, self.knowledge()) {
                Some(basis) => format!(", which rests on {basis}"),
                None => String::new(),
            };
            let how = match &unknown.measure {
                Some(measure) => format!("Please measure it: {measure}."),
                None if unknown.meaning.starts_with("time ") => {
                    "Please say which time to print.".to_owned()
                }
                None => "Please write it down at the next trial.".to_owned(),
            };
            let share = WHOLE * unknown.weight;
            let meaning = &unknown.meaning;
            format!("About {share:.0} % of the spread in time hangs on the {meaning}{basis}. {how}")
        });
        let (kind, text) = match (wide, number) {
            (Some(wide), Some(number)) => (Kind::WideRange, format!("{wide} {number}")),
            (Some(wide), None) => {
                let note = "Please write down at the next trial when each move begins and ends.";
                (Kind::WideRange, format!("{wide} {note}"))
            }
            (None, Some(number)) => (Kind::UncertainNumber, number),
            (None, None) => return,
        };
        self.ask(kind, product, text);
    }

    fn stated(&mut self, product: &str, method: &Method) {
        if loses_something(method) {
            let text = format!(
                "Stated, not computed: {}. Please taste for it beside the professional version, and \
                 strike what is not found.",
                method.loses.join("; ")
            );
            self.ask(Kind::Stated, product, text);
        }
    }

    fn failing(&mut self, product: &str, method: &Method) {
        let working = method.simulated.working_share();
        if 1.0 - working > FAILS {
            let because = method.simulated.faulty.as_ref().map(|faulty| faulty.because.to_string());
            let text = format!(
                "In about {:.0} of 100 likely cases the route does not work ({}). Which reader \
                 should be told not to try it?",
                WHOLE * (1.0 - working),
                because.unwrap_or_default()
            );
            self.ask(Kind::WideRange, product, text);
        }
    }

    fn second_goal(&mut self, product: &str, term: &Term) {
        let name = self.knowledge().goals.get(&term.goal).map(|goal| goal.name.clone());
        let missed = self.missed(term).map_or(String::new(), |missed| format!(" ({missed})"));
        let text = format!(
            "A second goal, {}, is missed{missed}. Does the dish stand without it?",
            name.unwrap_or_else(|| term.goal.clone())
        );
        self.ask(Kind::Stated, product, text);
    }

    fn foods(&mut self) {
        let knowledge = self.material.knowledge;
        let ingredients = &self.material.recipe.ingredients;
        let whole: Mass = ingredients.iter().map(|one| one.mass).sum();
        for ingredient in ingredients.iter().filter(|one| one.mass > whole * MATTERS) {
            let Some(food) = knowledge.foods.get(&ingredient.food) else { continue };
            let basis = match &food.provenance {
                Provenance::Published { .. } | Provenance::Given => None,
                Provenance::CommonPractice => Some("common practice".to_owned()),
                Provenance::Invented => Some("an invented example".to_owned()),
                Provenance::FromMemory(text) => Some(format!("recollection ({text})")),
                Provenance::Estimate(text) => Some(format!("an estimate ({text})")),
            };
            if let Some(basis) = basis {
                let shares = &ingredient.shares;
                let is_sweet = shares.ethanol <= 0.0 && shares.fat < LEAN;
                let how = match is_poured(food, shares) && is_sweet {
                    true => "Please measure its °Brix, or send the label of the one you use.",
                    false => "Please send the label of the one you use.",
                };
                let text = format!("Its composition rests on {basis}. {how}");
                self.ask(Kind::Food, &food.name, text);
            }
        }
        self.avoided();
    }

    /// Ingredients that the eaters of a kitchen avoid.
    fn avoided(&mut self) {
        for adapted in self.material.adapted {
            let held = avoided(self.material.recipe, adapted.kitchen, self.material.knowledge);
            for (food, word) in held {
                let text = format!(
                    "The eaters of \"{}\" avoid {word}. What stands in for it there?",
                    adapted.kitchen.name
                );
                self.ask(Kind::Food, &food.name, text);
            }
        }
    }

    fn keeping(&mut self) {
        let Some(keeping) = keeping(self.material) else { return };
        if keeping.kept.iter().any(|kept| kept.kind.rests_on_water_activity()) {
            self.ask(
                Kind::Keeping,
                &keeping.product,
                "Water activity and acidity are computed, not measured. Have both measured before \
                 any shelf life is printed.",
            );
        }
    }

    fn trials(&mut self) {
        let Some(trials) = self.material.trials else { return };
        let mut changes: Vec<(&str, Vec<&str>)> = Vec::new();
        for trial in trials.iter().filter(|trial| !trial.change.is_empty()) {
            match changes.iter_mut().find(|(change, _)| *change == trial.change) {
                Some((_, ids)) => ids.push(&trial.id),
                None => changes.push((&trial.change, vec![&trial.id])),
            }
        }
        for (change, ids) in changes {
            let who = match ids.as_slice() {
                [one] => format!("Trial {one} asks"),
                several => format!("Trials {} ask", several.join(" and ")),
            };
            self.ask(Kind::Trial, "", format!("{who} for: \"{change}\" Is it taken up?"));
        }
        let failed = |verdict| matches!(verdict, Verdict::Fail | Verdict::Discarded);
        if let Some(last) = trials.iter().max_by_key(|trial| (trial.start.to_string(), &trial.id))
            && failed(last.verdict)
        {
            let text = format!(
                "The last trial, {}, ended with \"{}\". No later trial shows that the text is right.",
                last.id,
                last.verdict.words()
            );
            self.ask(Kind::Trial, "", text);
        }
        if trials.is_empty() {
            self.ask(
                Kind::Trial,
                "",
                "No trial of this recipe is in the book. Who tests it, and in which kitchen?",
            );
        }
    }

    fn missing(&mut self) {
        let recipe = self.material.recipe;
        if recipe.serves.is_none() && recipe.makes.is_none() {
            self.ask(Kind::Missing, "", "How many does it serve, or how much does it make?");
        }
        if recipe.author.is_empty() {
            self.ask(Kind::Missing, "", "Whose recipe is it?");
        }
    }
}

fn is_wide(time: &Estimate) -> bool {
    time.low() > 0.0 && time.high() / time.low() > WIDE
}

fn time_text(time: &Estimate) -> String {
    let show = |seconds| cook_time(Time::from_seconds(seconds));
    range_text(&show(time.low()), &show(time.high())).replace('–', " to ")
}

/// What the number with a meaning rests on, when it is not published: the setting of a move of the
/// route, or else the default of its process.
fn weak_basis(meaning: &str, method: &Method, knowledge: &Knowledge) -> Option<String> {
    let route = knowledge.routes.get(&method.id)?;
    let value = route.moves.iter().find_map(|one| {
        let process = knowledge.processes.get(&one.process)?;
        let named = process.parameters.iter().find(|(_, known)| known.meaning == meaning);
        let (name, parameter) = named?;
        one.settings.get(name).or(parameter.default.as_ref())
    })?;
    if value.confidence == Confidence::High {
        return None;
    }
    Some(match &value.provenance {
        Provenance::Estimate(why) => format!("an estimate ({why})"),
        Provenance::FromMemory(what) => format!("recollection ({what})"),
        other => other.word().to_owned(),
    })
}
