//! An adapted recipe as a document.

use super::courses::Drawn;
use super::document::{Block, Caution as Box_, Document, Fact, Item, Signal, Table, Text};
use super::quality::quality;
use super::timeline::{self, Planned};
use super::{heat_course, shown};
use crate::advisor::{
    Adaptation, AdaptedStep, Advice, Caution, Method, Prefer, RuledOut, StepAdvice, Verdict,
};
use crate::estimate::Estimate;
use crate::kitchen::Kitchen;
use crate::knowledge::Knowledge;
use crate::quantity::{
    Acceleration, Temperature, cook_temperature, cook_time, range_text, significant,
};
use crate::recipe::Recipe;

/// What the report needs beside the adaptation.
#[derive(Debug, Clone, Copy)]
pub struct Setting<'a> {
    /// The recipe.
    pub recipe: &'a Recipe,
    /// The kitchen.
    pub kitchen: &'a Kitchen,
    /// The knowledge base.
    pub knowledge: &'a Knowledge,
    /// Whether the arithmetic of the ranking is wanted.
    pub why: bool,
    /// What the cook asks for, in words.
    pub asked: &'a [String],
    /// The plan of the work, when there is one.
    pub planned: Option<Planned<'a>>,
}

/// Writes an adapted recipe.
pub fn document(adaptation: &Adaptation, setting: &Setting<'_>) -> Document {
    let mut document = Document::new(format!(
        "{}, in the kitchen \"{}\"",
        setting.recipe.title, setting.kitchen.name
    ));
    summary(&mut document, adaptation, setting);
    super::shopping::section(&mut document, adaptation, setting);
    cautions(&mut document, adaptation);
    for (index, step) in adaptation.steps.iter().enumerate() {
        let heading = document.blocks.len();
        self::step(&mut document, index + 1, step, setting);
        let note = setting.recipe.steps.get(index).map_or("", |step| step.note.trim());
        if step.is_needed && !note.is_empty() {
            let said = Text::new().emphasis(format!("The author notes: {note}"));
            document.blocks.insert(heading + 1, Block::Paragraph(said));
        }
    }
    if setting.why {
        super::choice::section(&mut document, &adaptation.choice, setting.knowledge);
    }
    if let Some(planned) = &setting.planned {
        timeline::section(&mut document, planned);
    }
    confidence(&mut document);
    document
}

fn summary(document: &mut Document, adaptation: &Adaptation, setting: &Setting<'_>) {
    let mut facts = vec![Fact::new("At home", headline(adaptation))];
    let avoided = avoided(adaptation, setting);
    facts.extend(avoided.map(|avoided| Fact::new("Not for all", avoided)));
    if !setting.asked.is_empty() {
        facts.push(Fact::new("Asked", setting.asked.join("; ")));
    }
    facts.extend(super::shopping::size(adaptation, setting).map(|size| Fact::new("Size", size)));
    if let (Some(home), Some(laboratory)) = (&adaptation.makes, &adaptation.makes_in_laboratory) {
        let text = format!("{} (laboratory: {})", shown::mass(home), shown::mass(laboratory));
        facts.push(Fact::new("Makes", text));
    }
    if let (Some(time), Some(attended)) = (&adaptation.time, &adaptation.attended) {
        let text = format!("{}, of which hands-on {}", shown::time(time), shown::time(attended));
        facts.push(Fact::new("Time", text));
    }
    if adaptation.choice.prefer == Prefer::Cost {
        facts.push(Fact::new("Used up", super::choice::used_up(&adaptation.choice)));
    }
    facts.extend(super::choice::how(&adaptation.choice).map(|how| Fact::new("Routes", how)));
    document.facts(facts);
}

/// Says which ingredients and supplies hold what the eaters of the kitchen avoid.
fn avoided(adaptation: &Adaptation, setting: &Setting<'_>) -> Option<Text> {
    let (kitchen, knowledge) = (setting.kitchen, setting.knowledge);
    let held = crate::advisor::avoided(setting.recipe, kitchen, knowledge);
    let used = crate::advisor::avoided_supplies(adaptation, kitchen, knowledge);
    let named = used.iter().map(|(supply, word)| format!("{} ({word})", supply.name));
    let foods = (!held.is_empty()).then(|| shown::avoided(&held));
    let all: Vec<String> = foods.into_iter().chain(named).collect();
    let text = format!("this kitchen avoids what is in: {}", all.join(", "));
    (!all.is_empty()).then(|| Text::new().strong(text))
}

fn headline(adaptation: &Adaptation) -> Text {
    let reached = adaptation.verdict != Verdict::No;
    if let Some(within) = adaptation.within.filter(|within| !within.fits && reached) {
        let limit = cook_time(within.limit);
        return Text::new().strong(format!(
            "no: nothing open to this kitchen is done within {limit} nine times in ten; the \
             fastest is shown"
        ));
    }
    let text = match adaptation.verdict {
        Verdict::AsWritten => "can be made as written: nobody would notice the difference",
        Verdict::SmallLoss => "can be made, with a small loss: told apart side by side",
        Verdict::RealLoss => "can be made, with a real loss: read what changes below",
        Verdict::No => "no: one step cannot be reached in this kitchen; the closest is shown",
    };
    Text::new().strong(text)
}

fn cautions(document: &mut Document, adaptation: &Adaptation) {
    let mut told: Vec<&str> = Vec::new();
    for step in adaptation.steps.iter().filter(|step| step.is_needed) {
        let Advice::Professional(advice) = &step.advice else { continue };
        let Some(best) = advice.routes.first() else { continue };
        for caution in &best.cautions {
            if told.contains(&caution.hazard.as_str()) {
                continue;
            }
            told.push(&caution.hazard);
            document.push(Block::Caution(caution_box(caution)));
        }
    }
}

pub(super) fn caution_box(caution: &Caution) -> Box_ {
    let signal = match caution.signal.as_str() {
        "danger" => Signal::Danger,
        "warning" => Signal::Warning,
        _ => Signal::Caution,
    };
    let mut lines: Vec<Text> = Vec::new();
    if let Some(computed) = &caution.computed {
        lines.push(Text::new().strong(computed.clone()));
    }
    lines.push(caution.text.clone().into());
    if let Some(defer) = &caution.defer {
        lines.push(defer.clone().into());
    }
    Box_ { signal, hazard: caution.name.clone(), lines }
}

fn step(document: &mut Document, number: usize, step: &AdaptedStep, setting: &Setting<'_>) {
    if !step.is_needed {
        document.section(format!("{number}. {}", step.product));
        document.paragraph("Left out: a later product is bought ready-made.");
        return;
    }
    let made = step.makes.as_ref().map(|mass| format!(" ({})", shown::mass(mass)));
    let heading = format!("{number}. {}{}", step.product, made.unwrap_or_default());
    document.section(heading);
    if !step.takes.is_empty() {
        let each = step.takes.iter().map(|(name, mass)| format!("{} {name}", shown::mass(mass)));
        document.paragraph(format!("Goes in: {}.", each.collect::<Vec<String>>().join(", ")));
    }
    match &step.advice {
        Advice::Plain(text) => {
            document.paragraph(text.clone());
        }
        Advice::Professional(advice) => professional(document, advice, setting),
    }
    if let Some(wait) = &step.wait {
        let (time, appliance) = (shown::time(&wait.time), &wait.appliance);
        document.push(Block::Note(
            format!("It waits {time} for the {appliance}, which another step has in use.").into(),
        ));
    }
}

fn professional(document: &mut Document, advice: &StepAdvice, setting: &Setting<'_>) {
    let laboratory = &advice.laboratory;
    document.subsection(format!("In the laboratory: {}", laboratory.name));
    document.paragraph(laboratory.summary.clone());
    document.numbered(laboratory.moves.iter().map(|one| move_item(one, &[])));
    document.paragraph(achieved(laboratory));
    let Some((best, others)) = advice.routes.split_first() else {
        nothing_open(document, advice, setting);
        return;
    };
    if best.score.verdict == Verdict::No {
        not_reached(document, best, advice, setting);
    } else {
        document.subsection(format!("At home: {}", best.name));
    }
    document.numbered(best.moves.iter().map(|one| move_item(one, &one.supplies)));
    quality(document, best, setting.knowledge);
    for chart in heat_course::charts(&drawn(advice), setting.knowledge) {
        document.chart(chart.on_pages());
    }
    stated(document, best);
    if let Some(unknown) = &best.unknown {
        let how = unknown.measure.as_ref().map_or(String::new(), |how| format!(": {how}"));
        document.push(Block::Note(
            format!("The least certain number is the {}{how}.", unknown.meaning).into(),
        ));
    }
    if setting.why {
        arithmetic(document, advice, setting.knowledge);
    }
    if !others.is_empty() {
        document.subsection("Other routes open to this kitchen");
        document.bullets(others.iter().map(|other| runner_up(other, advice)));
    }
    ruled_out(document, advice);
}

/// The laboratory, the chosen route and the next two, with their signs.
fn drawn(advice: &StepAdvice) -> Vec<Drawn<'_>> {
    let routes = advice.routes.iter().zip(["home", "2nd", "3rd"]);
    let routes = routes.map(|(route, sign)| Drawn::new(sign, route));
    std::iter::once(Drawn::new("lab", &advice.laboratory)).chain(routes).collect()
}

/// What the instrument achieves, computed.
pub(super) fn achieved(laboratory: &Method) -> String {
    let simulated = &laboratory.simulated;
    let mut parts = Vec::new();
    if let Some(time) = simulated.time() {
        parts.push(format!("it takes {}", shown::time(&time)));
    }
    let hottest = simulated.range(|_, product| Some(product.heat.hottest.kelvin()));
    if let Some(hottest) = hottest {
        let degrees = |kelvin| cook_temperature(Temperature::from_kelvin(kelvin));
        let text = range_text(&degrees(hottest.low()), &degrees(hottest.high()));
        parts.push(format!("the food gets no warmer than {text}"));
    }
    let each = simulated.balance.iter().map(|balance| balance.vapour.total().si());
    let vapour = Estimate::of_results(&each.collect::<Vec<f64>>());
    if let Some(vapour) = vapour.filter(|vapour| vapour.typical() > LEAST_VAPOUR) {
        parts.push(format!("{} leave as vapour", shown::mass(&vapour)));
    }
    let forces = simulated.moves.iter().filter_map(|one| one.told.get("force"));
    if let Some(force) = forces.filter_map(|values| Estimate::of_results(values)).next() {
        let gravities = |si| significant(Acceleration::from_si(si).standard_gravities(), 2);
        let text = range_text(&gravities(force.low()), &gravities(force.high()));
        parts.push(format!("the force is {text} times gravity"));
    }
    format!("Computed: {}.", parts.join("; "))
}

/// Less vapour than this is not worth a word [kg].
const LEAST_VAPOUR: f64 = 0.005;

/// One move: what to do, when to stop, and the supplies that it uses up.
pub(super) fn move_item(
    one: &crate::advisor::MoveAdvice,
    supplies: &[(String, Option<String>)],
) -> Item {
    let mut item = Item::new(one.instruction.clone());
    if let Some(until) = &one.until {
        item = item.under(sentence(until));
    }
    let used: Vec<String> = supplies
        .iter()
        .filter_map(|(name, dose)| dose.as_ref().map(|dose| format!("{dose} of {name}")))
        .collect();
    if !used.is_empty() {
        item = item.under(format!("Takes {}.", used.join(", ")));
    }
    item
}

/// Makes a phrase a sentence: a capital first, a full stop last.
pub(super) fn sentence(phrase: &str) -> String {
    let mut letters = phrase.chars();
    let first: String = letters.next().map(|c| c.to_uppercase().collect()).unwrap_or_default();
    format!("{first}{}.", letters.as_str().trim_end_matches('.'))
}

fn nothing_open(document: &mut Document, advice: &StepAdvice, setting: &Setting<'_>) {
    document.subsection("At home: no");
    document.paragraph("No home route is open to this kitchen; each one lacks something.");
    buy_instead(document, advice, setting);
    ruled_out(document, advice);
}

/// The closest route with the number that shows why it does not reach the goal.
fn not_reached(document: &mut Document, best: &Method, advice: &StepAdvice, setting: &Setting<'_>) {
    document.subsection("At home: no");
    if let Some(shortfall) = shortfall(best, setting.knowledge) {
        document.paragraph(Text::new().strong(shortfall));
    }
    buy_instead(document, advice, setting);
    document.paragraph(format!("The closest route, {}:", best.name));
}

/// By how much the closest route misses the goal, in a sentence.
pub(super) fn shortfall(best: &Method, knowledge: &Knowledge) -> Option<String> {
    let term = best.score.goals.first()?;
    let attribute = knowledge.attributes.get(&term.attribute)?;
    let asked = shown::value(term.target, &attribute.unit);
    let found = shown::value(term.result, &attribute.unit);
    let bound = if term.at_least { "at least" } else { "at most" };
    Some(format!(
        "No home route in this kitchen reaches the goal ({}: {bound} {asked}). The closest, {}, \
         gives {found}.",
        attribute.name, best.name
    ))
}

fn buy_instead(document: &mut Document, advice: &StepAdvice, setting: &Setting<'_>) {
    if let Some(instead) = instead(advice, setting.knowledge) {
        document.paragraph(instead);
    }
}

/// What to buy or do where no home route reaches the goal.
pub(super) fn instead(advice: &StepAdvice, knowledge: &Knowledge) -> Option<String> {
    let buy = knowledge.techniques.get(&advice.technique)?.buy.as_ref()?;
    Some(format!("Instead: {buy}; or leave it to a kitchen that has the instrument."))
}

/// Losses and failures that no model computes.
fn stated(document: &mut Document, best: &Method) {
    if !best.loses.is_empty() {
        document.paragraph(format!("Also lost (stated, not computed): {}.", best.loses.join("; ")));
    }
    if !best.fails.is_empty() {
        document.paragraph(format!("Does not suit: {}.", best.fails.join("; ")));
    }
}

/// The ranking's arithmetic: every term of every route.
pub(super) fn arithmetic(document: &mut Document, advice: &StepAdvice, knowledge: &Knowledge) {
    let mut table = Table::new()
        .caption("How the routes were ranked: losses in steps that a person notices")
        .words("Route")
        .words("Verdict")
        .numbers("Worst loss")
        .words("Terms");
    for route in &advice.routes {
        let mut terms: Vec<String> = route
            .score
            .goals
            .iter()
            .map(|term| format!("goal {}: short by {:.1}", term.goal, term.short))
            .collect();
        let counting = route.score.comparisons.iter().filter(|c| c.counts);
        terms.extend(
            counting
                .map(|c| format!("{}: {:.1}", attribute_name(&c.attribute, knowledge), c.steps)),
        );
        table.push([
            route.name.clone(),
            route.score.verdict.words().to_owned(),
            format!("{:.1}", route.score.worst),
            terms.join("; "),
        ]);
    }
    document.table(table);
}

/// The name of an attribute as printed.
pub(super) fn attribute_name(id: &str, knowledge: &Knowledge) -> String {
    let known = knowledge.attributes.get(id);
    known.map_or_else(|| id.to_owned(), |attribute| attribute.name.clone())
}

fn runner_up(other: &Method, advice: &StepAdvice) -> Item {
    let reason = advice.reasons.get(&other.id).map_or("", String::as_str);
    let time = other.simulated.time().map_or(String::new(), |time| shown::time(&time));
    Item::new(Text::new().strong(other.name.clone()).plain(format!(" ({time}): {reason}")))
}

fn ruled_out(document: &mut Document, advice: &StepAdvice) {
    if advice.ruled_out.is_empty() {
        return;
    }
    document.subsection("Routes not open to this kitchen");
    document.bullets(advice.ruled_out.iter().map(|route| Item::new(closed(route))));
}

pub(super) fn closed(route: &RuledOut) -> Text {
    Text::new().strong(route.name.clone()).plain(format!(": {}", route.reasons()))
}

fn confidence(document: &mut Document) {
    document.section("How sure these numbers are");
    document.paragraph(
        "Every number is computed from ranges with a source or marked as common practice or \
         estimate. Nine times in ten the truth should lie above the lower end, nine times in ten \
         below the upper. Go by the endpoint, not by the clock, and write down what you found.",
    );
}
