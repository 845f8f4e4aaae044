//! Heating through: how warm the coldest place gets, and what that does to germs.
//!
//! Both are read from the record that the models keep while they compute the result. Nothing here is
//! a promise that food is safe.

use super::courses::{Drawn, over_time};
use super::{Axis, Chart, Figure, Series, shown};
use crate::advisor::Term;
use crate::knowledge::{Attribute, Knowledge, Provenance};
use crate::process::attribute::measure;
use crate::process::{CorePoint, Germ, HeatHistory};
use crate::quantity::{Temperature, cook_temperature, cook_time};

/// Steps whose core stays colder than this are not drawn [°C]: nothing is counted below 52 °C, where
/// the published measurements begin.
const WARM_ENOUGH: f64 = 52.0;
/// A core that moves by less than this is not drawn \[K\].
const LEAST_RISE: f64 = 5.0;
/// The core counts as hot when it lacks less than this \[K\].
const NEARLY: f64 = 0.5;
/// Curves are drawn up to so many times their target.
const DRAWN_UP_TO: f64 = 2.0;
/// A result of more than so many times its target is told as such.
const FAR_ABOVE: f64 = 50.0;
/// A sum that nobody asks for is not drawn when it passes its target in this first share of the way.
const AT_ONCE: f64 = 0.1;
/// A core as hot as this is that of a pressure vessel [°C].
const PRESSED: f64 = 105.0;
/// So many sums at most are drawn for one step.
const MOST_SUMS: usize = 2;

/// A sum of what heat does to germs.
struct Sum {
    attribute: &'static str,
    axis: (&'static str, &'static str),
    /// What has been gathered since the food came in, in the unit of the axis.
    gathered: fn(&CorePoint, &HeatHistory) -> f64,
}

const fn germ(attribute: &'static str, gathered: fn(&CorePoint, &HeatHistory) -> f64) -> Sum {
    Sum { attribute, axis: ("decimal reductions so far", ""), gathered }
}

/// Every sum; where nothing is asked for, the second is drawn under pressure, else the first.
const SUMS: [Sum; 7] = [
    Sum {
        attribute: "pasteurised",
        axis: ("minutes at 70 °C so far", ""),
        gathered: |point, before| (point.pasteurised - before.pasteurised).minutes(),
    },
    Sum {
        attribute: "sterilised",
        axis: ("minutes at 121.1 °C so far", ""),
        gathered: |point, before| (point.sterilised - before.sterilised).minutes(),
    },
    germ("salmonella-killed", |p, before| (p.kills - before.kills)[Germ::Salmonella]),
    germ("listeria-killed", |p, before| (p.kills - before.kills)[Germ::Listeria]),
    germ("e-coli-killed", |p, before| (p.kills - before.kills)[Germ::EscherichiaColi]),
    germ("perfringens-killed", |p, before| (p.kills - before.kills)[Germ::Perfringens]),
    germ("botulinum-killed", |p, before| (p.kills - before.kills)[Germ::Botulinum]),
];

/// A sum with what is asked of it.
struct Asked<'a> {
    sum: &'static Sum,
    attribute: &'a Attribute,
    /// The target in SI.
    target: f64,
    /// Where the target comes from.
    says: String,
    /// Whether the step asks for it or is compared by it.
    wanted: bool,
}

/// Draws the core of the methods of a step and what it gathers, the laboratory first; nothing where
/// no core gets warm.
pub(super) fn charts(methods: &[Drawn<'_>], knowledge: &Knowledge) -> Vec<Chart> {
    let followed: Vec<(&Drawn<'_>, Vec<(f64, CorePoint)>)> =
        methods.iter().map(|one| (one, one.core())).filter(|(_, core)| core.len() > 1).collect();
    if !followed.iter().any(|(_, core)| heats_through(core)) {
        return Vec::new();
    }
    let mut charts: Vec<Chart> = core_chart(&followed).into_iter().collect();
    let mut asked = asked(methods, knowledge);
    if asked.is_empty() {
        let pressed = followed.iter().any(|(_, core)| hottest(core) >= PRESSED);
        let usual = Asked::by_rule(SUMS[usize::from(pressed)].attribute, knowledge);
        asked.extend(usual.map(|usual| Asked { wanted: false, ..usual }));
    }
    for asked in asked.iter().take(MOST_SUMS) {
        charts.extend(sum_chart(&followed, asked));
    }
    charts
}

fn celsius(point: &CorePoint) -> f64 {
    point.temperature.celsius()
}

fn hottest(core: &[(f64, CorePoint)]) -> f64 {
    core.iter().map(|(_, point)| celsius(point)).fold(f64::MIN, f64::max)
}

fn heats_through(core: &[(f64, CorePoint)]) -> bool {
    let start = core.first().map_or(0.0, |(_, point)| celsius(point));
    hottest(core) >= WARM_ENOUGH && hottest(core) - start >= LEAST_RISE
}

fn core_chart(followed: &[(&Drawn<'_>, Vec<(f64, CorePoint)>)]) -> Option<Chart> {
    let series: Vec<Series> = followed
        .iter()
        .map(|(one, core)| one.series(core.iter().map(|(x, p)| (*x, celsius(p))).collect()))
        .collect();
    let told: Vec<String> =
        followed.iter().take(2).map(|(one, core)| core_told(one, core)).collect();
    let finding = format!(
        "At its coldest place the food comes to {}. Drawn is a middling run of each method.",
        told.join(", and to ")
    );
    let y = Axis::new("temperature of the core", "°C");
    over_time("How warm the core gets", finding, y, series)
}

/// How hot the core gets, and when.
fn core_told(one: &Drawn<'_>, core: &[(f64, CorePoint)]) -> String {
    let hottest = hottest(core);
    let reached = core.iter().find(|(_, point)| celsius(point) >= hottest - NEARLY);
    let after = reached.map_or(0.0, |(hours, _)| *hours);
    format!(
        "{} after {} ({})",
        cook_temperature(Temperature::from_celsius(hottest)),
        cook_time(crate::quantity::Time::from_hours(after)),
        one.name
    )
}

/// What is asked of the step: its own goals, else what it is compared by.
fn asked<'a>(methods: &[Drawn<'_>], knowledge: &'a Knowledge) -> Vec<Asked<'a>> {
    let Some(one) = methods.get(1).or(methods.first()) else { return Vec::new() };
    let score = &one.method.score;
    let goals = score.goals.iter().filter(|term| term.at_least);
    let mut asked: Vec<Asked<'_>> =
        goals.filter_map(|term| Asked::by_term(term, knowledge)).collect();
    if asked.is_empty() {
        let compared = score.comparisons.iter();
        asked.extend(compared.filter_map(|c| Asked::by_rule(&c.attribute, knowledge)));
    }
    asked
}

impl<'a> Asked<'a> {
    /// A goal of the step.
    fn by_term(term: &Term, knowledge: &'a Knowledge) -> Option<Self> {
        let sum = SUMS.iter().find(|sum| sum.attribute == term.attribute)?;
        let attribute = knowledge.attributes.get(&term.attribute)?;
        let mut goals = knowledge.goals.values();
        let goal = goals.find(|goal| goal.attribute == term.attribute && goal.name == term.goal);
        let says = match goal {
            Some(goal) => source(&goal.target.provenance, knowledge),
            None => "set by the recipe".to_owned(),
        };
        Some(Self { sum, attribute, target: term.target, says, wanted: true })
    }

    /// The one published target for an attribute; `None` where there are several.
    fn by_rule(attribute: &str, knowledge: &'a Knowledge) -> Option<Self> {
        let sum = SUMS.iter().find(|sum| sum.attribute == attribute)?;
        let attribute = knowledge.attributes.get(attribute)?;
        let mut goals = knowledge.goals.values().filter(|goal| goal.attribute == attribute.id);
        let goal = goals.next().filter(|_| goals.next().is_none())?;
        let says = source(&goal.target.provenance, knowledge);
        Some(Self { sum, attribute, target: goal.target.typical(), says, wanted: true })
    }

    /// What a method comes to.
    fn result(&self, one: &Drawn<'_>) -> Option<String> {
        let of = |feed: &_, product: &_| measure(&self.attribute.id, feed, product);
        let range = one.method.simulated.range(of)?;
        Some(match range.low() > FAR_ABOVE * self.target {
            true => format!("far above that ({})", one.name),
            false => format!("{} ({})", shown::range(&range, self.attribute), one.name),
        })
    }
}

/// Names the publication of a target.
fn source(provenance: &Provenance, knowledge: &Knowledge) -> String {
    match provenance {
        Provenance::Published { source, .. } => match knowledge.sources.get(source) {
            Some(known) => known.citation().trim_end_matches('.').to_owned(),
            None => source.clone(),
        },
        other => other.to_string(),
    }
}

fn sum_chart(followed: &[(&Drawn<'_>, Vec<(f64, CorePoint)>)], asked: &Asked<'_>) -> Option<Chart> {
    let sum = asked.sum;
    let series: Vec<Series> = followed
        .iter()
        .map(|(one, core)| {
            let simulated = &one.method.simulated;
            let fed = simulated.drawn.and_then(|drawn| simulated.feeds.get(drawn));
            let before =
                fed.map_or_else(|| HeatHistory::raw(core[0].1.temperature), |fed| fed.heat);
            one.series(core.iter().map(|(x, p)| (*x, (sum.gathered)(p, &before))).collect())
        })
        .collect();
    let target = asked.attribute.unit.from_si(asked.target);
    if !asked.wanted && series.iter().all(|one| passes_at_once(one, target)) {
        return None;
    }
    let words = shown::value(asked.target, &asked.attribute.unit);
    let told: Vec<String> =
        followed.iter().take(2).filter_map(|(one, _)| asked.result(one)).collect();
    let finding = format!(
        "{} {words} ({}); computed at the coldest place: {}. A computed curve is not a safety \
         check: measure the core, and heed the cautions.",
        if asked.wanted { "The target is" } else { "Not asked of this step; a usual target is" },
        asked.says,
        told.join(", ")
    );
    let title = format!("At the core: {}", asked.attribute.name);
    let y = Axis::new(sum.axis.0, sum.axis.1);
    let mut chart = over_time(&title, finding, y, series)?;
    if let Figure::Lines(lines) = &mut chart.figure {
        lines.levels = vec![(target, format!("target {words}"))];
        lines.most = Some(DRAWN_UP_TO * target);
    }
    Some(chart)
}

/// Returns whether a curve passes a value in the first part of its way.
fn passes_at_once(series: &Series, target: f64) -> bool {
    let passed = series.points.iter().find(|(_, value)| value.typical >= target);
    passed.is_some_and(|(at, _)| *at <= AT_ONCE * series.end())
}
