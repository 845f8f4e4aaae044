//! All routes to a technique beside the laboratory, as a document.

use super::adapt::{closed, move_item};
use super::courses::{self, Drawn, MOST_DRAWN};
use super::document::{Document, Fact, Item, Table, Text};
use super::{heat_course, shown};
use crate::advisor::{Method, StepAdvice, Verdict};
use crate::kitchen::Kitchen;
use crate::knowledge::Knowledge;
use crate::quantity::cook_mass;
use crate::recipe::Ingredient;

/// What the report needs beside the advice.
#[derive(Debug, Clone, Copy)]
pub struct Setting<'a> {
    /// The knowledge base.
    pub knowledge: &'a Knowledge,
    /// The kitchen.
    pub kitchen: &'a Kitchen,
    /// What is worked on.
    pub ingredient: &'a Ingredient,
    /// Whether the arithmetic of the ranking is wanted.
    pub why: bool,
}

/// Writes the routes.
pub fn document(advice: &StepAdvice, setting: &Setting<'_>) -> Document {
    let knowledge = setting.knowledge;
    let food = knowledge.foods.get(&setting.ingredient.food);
    let food = food.map_or(setting.ingredient.food.as_str(), |food| food.name.as_str());
    let amount = cook_mass(setting.ingredient.mass);
    let title = format!("{}: {amount} of {food}", advice.laboratory.name);
    let mut document = Document::new(title);
    document.facts([Fact::new("Kitchen", setting.kitchen.name.clone())]);
    document.table(methods(advice));
    document.table(side_by_side(advice, knowledge));
    let drawn = drawn(advice);
    let cores = heat_course::charts(&drawn, knowledge);
    let others = courses::charts(&drawn, &first_finding(advice), !cores.is_empty());
    for chart in others.into_iter().chain(cores) {
        document.chart(chart);
    }
    method(&mut document, "In the laboratory", &advice.laboratory);
    for route in &advice.routes {
        let verdict = route.score.verdict.words();
        method(&mut document, &format!("At home, {verdict}"), route);
        if let Some(reason) = advice.reasons.get(&route.id) {
            document.paragraph(format!("Comes later because it {}.", because(reason)));
        }
    }
    if setting.why {
        super::adapt::arithmetic(&mut document, advice, knowledge);
    }
    if !advice.ruled_out.is_empty() {
        document.section("Not open to this kitchen");
        document.bullets(advice.ruled_out.iter().map(|route| Item::new(closed(route))));
    }
    document
}

/// Turns a reason into a clause.
fn because(reason: &str) -> String {
    match reason.strip_prefix("as good") {
        Some(rest) => format!("is as good{rest}"),
        None => reason.to_owned(),
    }
}

fn method(document: &mut Document, place: &str, method: &Method) {
    document.section(format!("{place}: {}", method.name));
    document.paragraph(method.summary.clone());
    document.numbered(method.moves.iter().map(|one| move_item(one, &one.supplies)));
    for caution in &method.cautions {
        let mut text = Text::new().strong(format!("{}: ", caution.name));
        if let Some(computed) = &caution.computed {
            text = text.strong(format!("{computed} "));
        }
        document.paragraph(text.plain(caution.text.clone()));
    }
}

/// The methods with their verdict and time.
fn methods(advice: &StepAdvice) -> Table {
    let mut table = Table::new().words("Method").words("Verdict");
    table = table.numbers("Time").numbers("Hands-on");
    for (index, one) in all(advice).enumerate() {
        let verdict = if index == 0 { "the aim" } else { one.score.verdict.words() };
        table.push([
            format!("{} {}", label(index), one.name),
            verdict.to_owned(),
            one.simulated.time().map_or(String::new(), |time| shown::time(&time)),
            one.simulated.attended().map_or(String::new(), |time| shown::time(&time)),
        ]);
    }
    table
}

fn all(advice: &StepAdvice) -> impl Iterator<Item = &Method> {
    std::iter::once(&advice.laboratory).chain(&advice.routes)
}

/// The short sign of a method: the laboratory, then the routes by letter.
fn label(index: usize) -> String {
    const LETTERS: &[u8] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZ";
    match index.checked_sub(1).map(|route| LETTERS.get(route)) {
        None => "Lab".to_owned(),
        Some(Some(letter)) => char::from(*letter).to_string(),
        Some(None) => index.to_string(),
    }
}

/// One row an attribute, one column a method.
fn side_by_side(advice: &StepAdvice, knowledge: &Knowledge) -> Table {
    let mut table = Table::new().caption("Computed results at the median").words("What");
    for (index, _) in all(advice).enumerate() {
        table = table.numbers(label(index));
    }
    for comparison in &advice.laboratory.score.comparisons {
        let Some(attribute) = knowledge.attributes.get(&comparison.attribute) else { continue };
        let mut row = vec![format!("{}, {}", attribute.name, attribute.unit.symbol)];
        for one in all(advice) {
            let found = one.score.comparisons.iter().find(|c| c.attribute == comparison.attribute);
            row.push(found.map_or(String::new(), |found| {
                shown::number(attribute.unit.from_si(found.home.typical()))
            }));
        }
        table.push(row);
    }
    table
}

/// The laboratory and the first routes, with their signs.
fn drawn(advice: &StepAdvice) -> Vec<Drawn<'_>> {
    let methods = all(advice).enumerate().take(MOST_DRAWN);
    methods.map(|(index, one)| Drawn::new(label(index), one)).collect()
}

fn first_finding(advice: &StepAdvice) -> String {
    let left_out: Vec<String> = (MOST_DRAWN..=advice.routes.len()).map(label).collect();
    match left_out.is_empty() {
        true => fastest(advice),
        false => format!("{} Not drawn: {}.", fastest(advice), left_out.join(", ")),
    }
}

fn fastest(advice: &StepAdvice) -> String {
    let fastest = advice
        .routes
        .iter()
        .filter(|route| route.score.verdict != Verdict::No)
        .min_by(|a, b| a.score.time.total_cmp(&b.score.time));
    match fastest {
        Some(route) => format!("The fastest route that reaches the goal is {}.", route.name),
        None => "No route in this kitchen reaches the goal.".to_owned(),
    }
}
