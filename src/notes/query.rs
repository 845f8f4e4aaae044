//! Queries to the author: where the tool is unsure and a person must decide.

use std::collections::BTreeSet;

use super::keeping::keeping;
use super::{Group, Material, StepNote, TaskNote};
use crate::advisor::{Method, Term};
use crate::estimate::Estimate;
use crate::knowledge::{Confidence, Knowledge, Provenance};
use crate::quantity::{Mass, Time, cook_time, range_text};
use crate::trial::written::Verdict;

/// A range whose ends lie further apart than this says little.
const WIDE: f64 = 3.0;
/// A route that fails in more of the samples than this is asked about.
const FAILS: f64 = 0.02;
/// An ingredient that makes up less of the recipe than this bears little on any number.
const MATTERS: f64 = 0.05;
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
            self.ask(
                Kind::NotReached,
                about,
                "No home route is open. Cut the step, buy it ready-made, or leave the recipe to \
                 kitchens that have the instrument?",
            );
            return;
        };
        if !group.is_reached() {
            let text = format!(
                "The goal is not reached at home; the closest, {}, is given in its place. Accept it \
                 under another name, buy it ready-made, or cut the step?",
                method.name
            );
            self.ask(Kind::NotReached, about, text);
        }
        if method.bought {
            let text = format!(
                "\"{}\" is bought ready-made; its quality is stated, not computed. Which kind should \
                 the reader look for?",
                method.name
            );
            self.ask(Kind::Stated, about, text);
        }
        self.number(about, method);
        self.stated(about, method);
        self.spread(about, method);
        for term in method.score.goals.iter().skip(1).filter(|term| !term.is_reached()) {
            self.second_goal(about, term);
        }
    }

    /// The unknown that matters most, with where its number comes from.
    fn number(&mut self, product: &str, method: &Method) {
        let Some(unknown) = &method.unknown else { return };
        let share = WHOLE * unknown.weight;
        let basis = match weak_basis(&unknown.meaning, method, self.knowledge()) {
            Some(basis) => format!(" It rests on {basis}."),
            None => String::new(),
        };
        let how = match &unknown.measure {
            Some(measure) => format!("Please measure it: {measure}."),
            None => "Please note it at the next trial.".to_owned(),
        };
        let text = format!(
            "The time hangs most on the {} (about {share:.0} % of its spread).{basis} {how}",
            unknown.meaning
        );
        self.ask(Kind::UncertainNumber, product, text);
    }

    fn stated(&mut self, product: &str, method: &Method) {
        if !method.loses.is_empty() {
            let text = format!(
                "Stated, not computed: {}. Is it so at the tasting?",
                method.loses.join("; ")
            );
            self.ask(Kind::Stated, product, text);
        }
    }

    fn spread(&mut self, product: &str, method: &Method) {
        if let Some(time) = method.simulated.time().filter(is_wide) {
            let shown = time_text(&time);
            let text = format!(
                "The time runs from {shown}: print the endpoint, and the clock only as a guide. Can \
                 a trial narrow it?"
            );
            self.ask(Kind::WideRange, product, text);
        }
        let working = method.simulated.working_share();
        if 1.0 - working > FAILS {
            let because = method.simulated.faulty.as_ref().map(|faulty| faulty.because.to_string());
            let text = format!(
                "In about {:.0} of 100 likely cases the route does not work ({}). Who should not try \
                 it?",
                WHOLE * (1.0 - working),
                because.unwrap_or_default()
            );
            self.ask(Kind::WideRange, product, text);
        }
    }

    fn second_goal(&mut self, product: &str, term: &Term) {
        let name = self.knowledge().goals.get(&term.goal).map(|goal| goal.name.clone());
        let text = format!(
            "A second goal, {}, is missed. Does the dish stand without it?",
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
                let text = format!(
                    "Its composition rests on {basis}. Please give the label's, or measure its \
                     strength."
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
        for trial in trials {
            if !trial.change.is_empty() {
                let text = format!("Trial {} asks for: \"{}\" Taken up?", trial.id, trial.change);
                self.ask(Kind::Trial, "", text);
            }
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
            self.ask(Kind::Trial, "", "No trial of this recipe is in the book. Who tests it?");
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
