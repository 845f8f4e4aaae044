//! Answers of the bench: as documents, and as JSON.

use serde_json::{Map, Value, json};

use super::chart::{Axis, Chart, Figure, Lines, Series, Spread};
use super::document::{Document, Fact, Table, Text};
use super::json::to_digits;
use crate::calc::{Answer, Family, Input, Kind, Need, Output, Question, Sweep};
use crate::quantity::{Measures, Time, cook_time, significant, units_of};

/// Significant digits of a printed answer.
const SHOWN_DIGITS: u32 = 4;

/// The ends of the keys of outputs that are 1 for yes and 0 for no.
const YES_OR_NO: [&str; 2] = ["_bool", "_yes_no"];
/// From this many seconds on, a time is also written in minutes or hours.
const LONG_SECONDS: f64 = 120.0;

/// The inputs of a question as written, defaults included.
pub type Written<'a> = [(&'a str, &'a str)];

/// Numbers from this size up are written with a power of ten.
const LARGEST_PLAIN: f64 = 1e7;
/// Numbers below this size are written with a power of ten.
const SMALLEST_PLAIN: f64 = 1e-4;

/// Writes a number; a very large or small one as `1.4e-7`, which can also be typed.
fn shown(value: f64) -> String {
    let size = value.abs();
    match value.is_finite() {
        false if value.is_nan() => "–".to_owned(),
        false => if value > 0.0 { "infinite" } else { "−infinite" }.to_owned(),
        true if size > 0.0 && !(SMALLEST_PLAIN..LARGEST_PLAIN).contains(&size) => {
            let rounded = to_digits(value, SHOWN_DIGITS as usize);
            format!("{rounded:e}")
        }
        true => significant(value, SHOWN_DIGITS),
    }
}

fn with_unit(value: f64, unit: &str) -> String {
    match unit {
        "" => shown(value),
        unit => format!("{} {unit}", shown(value)),
    }
}

fn is_yes_or_no(key: &str) -> bool {
    YES_OR_NO.iter().any(|end| key.ends_with(end))
}

/// Writes an output as a cook reads it: yes or no, and long times also in minutes or hours.
fn as_read(output: Option<&Output>, value: f64) -> String {
    let (key, unit) = output.map_or(("", ""), |output| (output.key, output.unit));
    if is_yes_or_no(key) && value.is_finite() {
        return if value > 0.0 { "yes" } else { "no" }.to_owned();
    }
    let plain = with_unit(value, unit);
    match unit {
        "s" if value.is_finite() && value >= LONG_SECONDS => {
            format!("{plain} ({})", cook_time(Time::from_seconds(value)))
        }
        _ => plain,
    }
}

/// Capitalises the first letter of a line of help.
fn capital(text: &str) -> String {
    let mut signs = text.chars();
    let first = signs.next().map(|sign| sign.to_uppercase().to_string());
    first.unwrap_or_default() + signs.as_str()
}

fn opening(question: &Question, written: &Written) -> Document {
    let mut document = Document::new(question.summary);
    document.facts(
        written.iter().map(|(name, text)| Fact::new(capital(&name.replace('-', " ")), *text)),
    );
    document
}

/// Writes one answer as a document.
pub fn answer_document(question: &Question, written: &Written, answer: &Answer) -> Document {
    let mut document = opening(question, written);
    let mut table = Table::new().words("Result").words("Value");
    for (key, value) in &answer.values {
        let output = question.output(key);
        let label = output.map_or(*key, |output| output.label);
        table.push([Text::from(capital(label)), Text::new().strong(as_read(output, *value))]);
    }
    document.table(table);
    for remark in &answer.remarks {
        document.note(remark.as_str());
    }
    document
}

/// Writes one answer as JSON.
pub fn answer_json(question: &Question, written: &Written, answer: &Answer) -> Value {
    let outputs: Map<String, Value> =
        answer.values.iter().map(|(key, value)| ((*key).to_owned(), json!(value))).collect();
    json!({
        "question": question.name,
        "inputs": inputs_json(written),
        "outputs": outputs,
        "remarks": answer.remarks,
    })
}

fn inputs_json(written: &Written) -> Map<String, Value> {
    written.iter().map(|(name, text)| ((*name).to_owned(), json!(text))).collect()
}

/// Returns the outputs that some point of a sweep has, in the order of the question.
pub fn outputs_of(question: &Question, sweep: &Sweep) -> Vec<&'static Output> {
    let given = |output: &&Output| sweep.output(output.key).iter().any(|value| value.is_finite());
    question.outputs.iter().filter(given).collect()
}

/// Writes an output in a column that has the unit in its heading.
fn cell(output: &Output, value: f64) -> String {
    match is_yes_or_no(output.key) {
        true => as_read(Some(output), value),
        false => shown(value),
    }
}

/// Writes the answers along a range as a document; a chart only where the format draws one.
pub fn sweep_document(
    question: &Question,
    written: &Written,
    sweep: &Sweep,
    chart: Option<Chart>,
) -> Document {
    let mut document = opening(question, written);
    let outputs = outputs_of(question, sweep);
    let axis = Axis::new(capital(&sweep.input.replace('-', " ")), sweep.range.unit.as_str());
    let mut table = Table::new().numbers(axis.caption());
    for output in &outputs {
        table = table.numbers(Axis::new(capital(output.label), output.unit).caption());
    }
    let columns: Vec<Vec<f64>> = outputs.iter().map(|output| sweep.output(output.key)).collect();
    for (index, value) in sweep.range.values.iter().enumerate() {
        let cells =
            outputs.iter().zip(&columns).map(|(output, column)| cell(output, column[index]));
        table.push(std::iter::once(shown(*value)).chain(cells));
    }
    if let Some(chart) = chart {
        document.chart(chart);
    }
    document.table(table);
    for remark in sweep.remarks() {
        document.note(remark);
    }
    document
}

/// Writes the answers along a range as JSON, the varied input in the unit in which it was written.
pub fn sweep_json(question: &Question, written: &Written, sweep: &Sweep) -> Value {
    let outputs = outputs_of(question, sweep);
    let rows = sweep.range.values.iter().zip(&sweep.answers).map(|(value, answer)| {
        let mut row = Map::new();
        row.insert(sweep.input.to_owned(), json!(value));
        for output in &outputs {
            let found = answer.as_ref().ok().and_then(|answer| answer.get(output.key));
            row.insert(output.key.to_owned(), json!(found));
        }
        Value::Object(row)
    });
    json!({
        "question": question.name,
        "inputs": inputs_json(written),
        "range": { "input": sweep.input, "unit": sweep.range.unit },
        "rows": rows.collect::<Vec<_>>(),
        "remarks": sweep.remarks(),
    })
}

/// Draws one output along a range.
pub fn sweep_chart(question: &Question, sweep: &Sweep, output: &Output) -> Chart {
    let values = sweep.output(output.key);
    let points = sweep.range.values.iter().zip(&values).map(|(x, y)| (*x, Spread::exact(*y)));
    let x = Axis::new(sweep.input.replace('-', " "), sweep.range.unit.as_str());
    let y = Axis::new(output.label, output.unit);
    let finding = finding(&x, &y, sweep, &values);
    let series = vec![Series::new(output.label, points.collect())];
    Chart::new(question.summary, finding, Figure::Lines(Lines { x, y, series, ..Lines::default() }))
}

/// Says in words what a curve does.
fn finding(x: &Axis, y: &Axis, sweep: &Sweep, values: &[f64]) -> String {
    let answered: Vec<(f64, f64)> = sweep
        .range
        .values
        .iter()
        .zip(values)
        .filter(|(_, value)| value.is_finite())
        .map(|(x, y)| (*x, *y))
        .collect();
    let (Some(first), Some(last)) = (answered.first(), answered.last()) else {
        return format!("{} has no value along this range.", capital(&y.label));
    };
    let steps = || answered.windows(2).map(|pair| pair[1].1 - pair[0].1);
    let span = format!(
        "as {} goes from {} to {}",
        x.label,
        with_unit(first.0, &x.unit),
        with_unit(last.0, &x.unit)
    );
    let (from, to) = (with_unit(first.1, &y.unit), with_unit(last.1, &y.unit));
    let label = capital(&y.label);
    if from == to && steps().all(|step| step.abs() <= f64::EPSILON * first.1.abs()) {
        return format!("{label} stays at {from} {span}.");
    }
    if steps().all(|step| step >= 0.0) {
        return format!("{label} rises from {from} to {to} {span}.");
    }
    if steps().all(|step| step <= 0.0) {
        return format!("{label} falls from {from} to {to} {span}.");
    }
    let low = answered.iter().map(|(_, y)| *y).fold(f64::INFINITY, f64::min);
    let high = answered.iter().map(|(_, y)| *y).fold(f64::NEG_INFINITY, f64::max);
    let (low, high) = (with_unit(low, &y.unit), with_unit(high, &y.unit));
    format!("{label} begins at {from} and ends at {to}, between {low} and {high}, {span}.")
}

/// Lists every question by family.
pub fn catalogue_document(questions: &[&Question]) -> Document {
    let mut document = Document::new("Questions for the bench");
    for family in Family::ALL {
        let mut table = Table::new().words("Question").words("Answers");
        for question in questions.iter().filter(|question| question.family == family) {
            table.push([question.name, question.summary]);
        }
        if !table.rows.is_empty() {
            document.section(family.heading()).table(table);
        }
    }
    document
}

/// Lists every question with its inputs and outputs.
pub fn catalogue_json(questions: &[&Question]) -> Value {
    let entry = |question: &&Question| {
        json!({
            "name": question.name,
            "other_names": question.other_names,
            "family": question.family.heading(),
            "summary": question.summary,
            "example": format!("standin calc {}", question.example),
            "inputs": question.inputs.iter().map(input_json).collect::<Vec<_>>(),
            "outputs": question.outputs.iter().map(output_json).collect::<Vec<_>>(),
        })
    };
    json!({ "questions": questions.iter().map(entry).collect::<Vec<_>>() })
}

fn input_json(input: &Input) -> Value {
    let (kind, dimension, accepted) = match input.kind {
        Kind::Amount(dimension) => {
            let units = units_of(dimension, Measures::default()).map(|unit| unit.symbol);
            ("amount", Some(dimension.word()), units.collect::<Vec<_>>())
        }
        Kind::Choice(words) => ("choice", None, words.to_vec()),
        Kind::Text => ("text", None, Vec::new()),
    };
    let default = match input.need {
        Need::Default(text) => Some(text),
        Need::Required | Need::Optional => None,
    };
    json!({
        "name": input.name,
        "kind": kind,
        "dimension": dimension,
        "accepted": accepted,
        "required": input.need == Need::Required,
        "default": default,
        "help": input.help,
    })
}

fn output_json(output: &Output) -> Value {
    json!({ "key": output.key, "label": output.label, "unit": output.unit })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_of_every_size_are_readable() {
        let shown: Vec<String> =
            [0.0, 19.9458, -18.0, 1.3618e-7, 2.5e8, f64::INFINITY, f64::NAN].map(shown).into();
        assert_eq!(shown, ["0", "19.95", "−18", "1.362e-7", "2.5e8", "infinite", "–"]);
    }
}
