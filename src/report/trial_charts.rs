//! Charts of what was learned from trials: predicted beside measured, and the spread of their ratio.

use super::{Axis, Chart, Figure, RangeGroup, RangeRow, Ranges, Spread, json as numbers};
use crate::estimate::Estimate;
use crate::knowledge::Knowledge;
use crate::quantity::{Time, significant};
use crate::trial::calibrate::{Calibration, Group, TIME};

/// Longer times are drawn in hours.
const MOST_MINUTES: Time = Time::from_hours(3.0);
/// Digits of a factor.
const FACTOR_DIGITS: u32 = 2;
/// Digits of numbers in charts.
const DIGITS: usize = 4;

/// Predicted and measured, trial by trial.
pub(super) fn side_by_side(one: &Calibration, what: &str, knowledge: &Knowledge) -> Chart {
    let each = one.observations.iter();
    let largest = each.map(|one| one.predicted.high().max(one.measured)).fold(0.0, f64::max);
    let (unit, show) = chart_unit(&one.quantity, largest, knowledge);
    let reading = |si: f64| numbers::to_digits(show(si), DIGITS);
    let rows = one.observations.iter().map(|observation| {
        let predicted = &observation.predicted;
        let range = Spread {
            low: reading(predicted.low()),
            typical: reading(predicted.typical()),
            high: reading(predicted.high()),
        };
        let mark = Some(reading(observation.measured));
        RangeRow { name: observation.trial.clone(), range, mark }
    });
    let finding = format!(
        "The predicted range held {} of {} measurements.",
        one.held,
        one.observations.len()
    );
    let figure = Figure::Ranges(Ranges {
        axis: Axis::new(what, unit),
        range_is: "predicted; eight in ten should lie within".to_owned(),
        mark_is: "measured".to_owned(),
        level: None,
        groups: vec![RangeGroup { name: String::new(), rows: rows.collect() }],
    });
    Chart::new("Predicted and measured", finding, figure)
}

/// The unit of a chart whose largest value is known, and how to turn SI into it.
fn chart_unit(
    quantity: &str,
    largest: f64,
    knowledge: &Knowledge,
) -> (String, Box<dyn Fn(f64) -> f64>) {
    if quantity == TIME && Time::from_seconds(largest) > MOST_MINUTES {
        return ("h".to_owned(), Box::new(|seconds| Time::from_seconds(seconds).hours()));
    }
    if quantity == TIME {
        return ("min".to_owned(), Box::new(|seconds| Time::from_seconds(seconds).minutes()));
    }
    match knowledge.attributes.get(quantity).map(|attribute| attribute.unit) {
        Some(unit) => (unit.symbol.to_owned(), Box::new(move |si| unit.from_si(si))),
        None => (String::new(), Box::new(|si| si)),
    }
}

/// Measured over predicted, by tester and by kitchen.
pub(super) fn spread_chart(one: &Calibration, what: &str) -> Chart {
    let row = |group: &Group| RangeRow {
        name: format!("{} ({})", group.name, trials(group.count)),
        range: spread(&group.ratio),
        mark: None,
    };
    let group = |name: &str, groups: &[Group]| RangeGroup {
        name: name.to_owned(),
        rows: groups.iter().map(row).collect(),
    };
    let groups = vec![group("by tester", &one.testers), group("by kitchen", &one.kitchens)];
    let all = one.testers.iter().map(|group| group.ratio);
    let (low, high) = all.fold((f64::INFINITY, 0.0_f64), |(low, high), ratio| {
        (low.min(ratio.low()), high.max(ratio.high()))
    });
    let finding = format!(
        "Measured over predicted {what} runs from {} to {}.",
        significant(low, FACTOR_DIGITS),
        significant(high, FACTOR_DIGITS)
    );
    let figure = Figure::Ranges(Ranges {
        axis: Axis::new("measured over predicted", ""),
        range_is: "lowest, geometric mean, highest".to_owned(),
        mark_is: String::new(),
        level: Some((1.0, "as predicted".to_owned())),
        groups,
    });
    Chart::new("Spread by tester and kitchen", finding, figure)
}

fn trials(count: usize) -> String {
    format!("{count} {}", if count == 1 { "trial" } else { "trials" })
}

/// An estimate with the digits of a chart.
pub(super) fn spread(estimate: &Estimate) -> Spread {
    let digits = |value| numbers::to_digits(value, DIGITS);
    Spread {
        low: digits(estimate.low()),
        typical: digits(estimate.typical()),
        high: digits(estimate.high()),
    }
}
