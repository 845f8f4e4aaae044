//! All routes to a technique beside the laboratory, as a document.

use super::adapt::{closed, move_item};
use super::document::{Document, Fact, Item, Table, Text};
use super::{Axis, Chart, Figure, Lines, Series, Spread, shown};
use crate::advisor::{Method, StepAdvice, Verdict};
use crate::kitchen::Kitchen;
use crate::knowledge::Knowledge;
use crate::process::{Point, Trace};
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
    for chart in courses(advice) {
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

/// One reading of the courses of all methods.
struct Reading {
    title: &'static str,
    axis: (&'static str, &'static str),
    of: fn(&Point) -> f64,
    /// The chart is worth its place when a course moves by more than this.
    least: f64,
}

/// What is drawn of the courses: the reduction, the aroma, the warmth.
const READINGS: [Reading; 3] = [
    Reading {
        title: "How each method goes",
        axis: ("mass of the food or of what is collected", "kg"),
        of: |point| point.mass.kilograms(),
        least: 0.0,
    },
    Reading {
        title: "Aroma left on the way",
        axis: ("middle notes left", "%"),
        of: |point| 100.0 * point.aroma,
        least: 5.0,
    },
    Reading {
        title: "How warm the food is on the way",
        axis: ("temperature of the food", "°C"),
        of: |point| point.temperature.celsius(),
        least: 5.0,
    },
];

/// The course of every method, each on its own clock; none of what hardly moves.
fn courses(advice: &StepAdvice) -> Vec<Chart> {
    READINGS.iter().filter_map(|reading| drawn(advice, reading)).collect()
}

fn drawn(advice: &StepAdvice, reading: &Reading) -> Option<Chart> {
    let series: Vec<Series> = all(advice)
        .filter_map(|one| {
            let points = course(one, reading.of);
            (points.len() > 1).then(|| Series { name: one.name.clone(), points })
        })
        .collect();
    let moved = |series: &Series| {
        let values = || series.points.iter().map(|(_, spread)| spread.typical);
        values().fold(f64::MIN, f64::max) - values().fold(f64::MAX, f64::min)
    };
    if reading.least > 0.0 && !series.iter().any(|one| moved(one) > reading.least) {
        return None;
    }
    let finding = if reading.least > 0.0 { ends(&series, reading) } else { fastest(advice) };
    let x = Axis::new("time", "h");
    let y = Axis::new(reading.axis.0, reading.axis.1);
    Some(Chart::new(reading.title, finding, Figure::Lines(Lines { x, y, series })))
}

/// Says where the laboratory and the best route end.
fn ends(series: &[Series], reading: &Reading) -> String {
    let end = |one: &Series| {
        let last = one.points.last().map_or(0.0, |(_, spread)| spread.typical);
        format!("{} {} ({})", shown::number(last), reading.axis.1, one.name)
    };
    let named: Vec<String> = series.iter().take(2).map(end).collect();
    format!("At the end: {}.", named.join(", "))
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

/// The traces of a method's moves, one after the other.
fn course(method: &Method, of: fn(&Point) -> f64) -> Vec<(f64, Spread)> {
    let mut start = 0.0;
    let mut points = Vec::new();
    for one in &method.moves {
        if let Some(Trace { points: traced, .. }) = &one.trace {
            for point in traced {
                let hours = start + point.time.hours();
                points.push((hours, Spread::exact(of(point))));
            }
        }
        start += one
            .time
            .map_or(0.0, |time| crate::quantity::Time::from_seconds(time.typical()).hours());
    }
    points
}
