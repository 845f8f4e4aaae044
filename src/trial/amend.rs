//! Corrections: appended to the record, never written over it.
//!
//! An amendment says who corrects what, when and why. It is added at the end of the file as text, so
//! that every byte before it, comments included, stays as it was. Reading applies the amendments in
//! their order.

use serde::Serialize;

use super::reading::Readings;
use super::written::{Verdict, WrittenAmendment, WrittenMeasuredStep, WrittenTrial};
use crate::finding::{Code, Finding, suggestion};
use crate::knowledge::written::{Spanned, Text};

/// The verdicts by their words in a file.
pub const VERDICTS: [(&str, Verdict); 5] = [
    ("pass", Verdict::Pass),
    ("pass-with-note", Verdict::PassWithNote),
    ("retest", Verdict::Retest),
    ("fail", Verdict::Fail),
    ("discarded", Verdict::Discarded),
];
/// What an amendment may set.
const KEYS: &str = "verdict, cause, change, note, ingredient.<id>.actual, ingredient.<id>.brix, \
                    step.<makes>.<time, hands_on, mass_in, mass_out, route, deviation or attribute>";

/// Returns the trial as its amendments leave it, and reports what they may not set.
pub(super) fn apply(written: &WrittenTrial, readings: &mut Readings<'_>) -> WrittenTrial {
    let mut amended = written.clone();
    for amendment in &written.amendment {
        for (key, value) in &amendment.set {
            if let Err(help) = set(&mut amended, key.get_ref(), value) {
                let message = format!("an amendment cannot set `{}`", key.get_ref());
                let finding = Finding::error(Code::UnknownKey, readings.file, message);
                readings.findings.push(finding.at(key.span(), "").help(help));
            }
        }
    }
    amended
}

/// Sets one value; the error is the help line.
fn set(trial: &mut WrittenTrial, key: &str, value: &Text) -> Result<(), String> {
    let text = value.get_ref();
    match key {
        "verdict" => {
            let known = VERDICTS.iter().find(|(word, _)| word == text);
            let words = VERDICTS.map(|(word, _)| word);
            trial.verdict = known.ok_or_else(|| suggestion(text, &words))?.1;
        }
        "cause" => {
            let number =
                text.parse::<i64>().map_err(|_| "write the cause as a number".to_owned())?;
            trial.cause = Some(Spanned::new(value.span(), number));
        }
        "change" => trial.change = Some(text.clone()),
        "note" => trial.note = Some(text.clone()),
        _ => return set_inside(trial, key, value),
    }
    Ok(())
}

/// Sets a value of a step or an ingredient.
fn set_inside(trial: &mut WrittenTrial, key: &str, value: &Text) -> Result<(), String> {
    let help = || format!("accepted: {KEYS}");
    let (path, field) = key.rsplit_once('.').ok_or_else(help)?;
    let (kind, name) = path.split_once('.').ok_or_else(help)?;
    match kind {
        "step" => {
            let step = trial.step.iter_mut().find(|step| step.makes.get_ref() == name);
            set_step(step.ok_or_else(|| format!("no step makes `{name}`"))?, field, value);
            Ok(())
        }
        "ingredient" => {
            let one = trial.ingredient.iter_mut().find(|one| one.id.get_ref() == name);
            let one = one.ok_or_else(|| format!("no ingredient goes by `{name}`"))?;
            match field {
                "actual" => one.actual = value.clone(),
                "brix" => one.brix = Some(value.clone()),
                _ => return Err(help()),
            }
            Ok(())
        }
        _ => Err(help()),
    }
}

fn set_step(step: &mut WrittenMeasuredStep, field: &str, value: &Text) {
    let place = match field {
        "time" => &mut step.time,
        "hands_on" => &mut step.hands_on,
        "mass_in" => &mut step.mass_in,
        "mass_out" => &mut step.mass_out,
        "route" => &mut step.route,
        "deviation" => {
            step.deviation = Some(value.get_ref().clone());
            return;
        }
        attribute => {
            let name = Spanned::new(value.span(), attribute.to_owned());
            step.measured.retain(|known, _| known.get_ref() != attribute);
            step.measured.insert(name, value.clone());
            return;
        }
    };
    *place = Some(value.clone());
}

#[derive(Serialize)]
struct OneMore<'a> {
    amendment: [&'a WrittenAmendment; 1],
}

/// Returns a trial file's text with an amendment at its end; the text before it is unchanged, its
/// line ends are those of the file.
///
/// # Errors
/// [`toml::ser::Error`] when the amendment cannot be written as TOML.
pub fn append(text: &str, amendment: &WrittenAmendment) -> Result<String, toml::ser::Error> {
    let added = toml::to_string(&OneMore { amendment: [amendment] })?;
    let mut whole = text.to_owned();
    if !whole.is_empty() && !whole.ends_with('\n') {
        whole.push('\n');
    }
    let windows = text.contains("\r\n");
    for line in std::iter::once("").chain(added.lines()) {
        whole.push_str(line);
        whole.push_str(if windows { "\r\n" } else { "\n" });
    }
    Ok(whole)
}
