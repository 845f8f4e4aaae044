//! One question asked at many values of one input: "20..80 step 10 °C".

use super::{Answer, CalcError, Kind, Question};
use crate::finding::suggestion;
use crate::physics::PhysicsError;

/// Points taken when the step is left out.
const DEFAULT_POINTS: u32 = 11;
/// The most points of one range, so that a slip of the finger does not run for hours.
const MOST_POINTS: f64 = 10_001.0;
/// The upper end counts as reached within this share of a step.
const STEP_SLACK: f64 = 1e-9;
/// Significant digits of a point: hides the rounding of repeated addition.
const POINT_DIGITS: usize = 12;

/// Values of one input, in the unit that was written.
#[derive(Debug, Clone, PartialEq)]
pub struct Range {
    /// The values, rising.
    pub values: Vec<f64>,
    /// The unit as written; empty for plain numbers.
    pub unit: String,
}

impl Range {
    /// Reads a range such as `20..80 step 10 °C`, `20..80 °C` or `20 °C..80 °C`; `None` when the
    /// text is a single amount.
    ///
    /// # Errors
    /// [`CalcError::Combination`] when a number is missing, the ends are in the wrong order, the
    /// step is not above zero, or there are too many points.
    pub fn read(name: &str, text: &str) -> Result<Option<Self>, CalcError> {
        let Some((low, rest)) = text.split_once("..") else { return Ok(None) };
        let (high, step) = match rest.split_once("step") {
            Some((high, step)) => (high, Some(step)),
            None => (rest, None),
        };
        let parts = (number_and_unit(low), number_and_unit(high), step.map(number_and_unit));
        let fault = |why: &str| CalcError::combination(format!("`{name}`: `{text}` {why}"));
        let (Some(low), Some(high), None | Some(Some(_))) = parts else {
            return Err(fault("is not a range such as `20..80 step 10 °C`"));
        };
        let step = parts.2.flatten();
        let unit = one_unit([Some(low.1), Some(high.1), step.map(|step| step.1)]);
        let unit = unit.ok_or_else(|| fault("has more than one unit"))?;
        let step = step.map_or((high.0 - low.0) / f64::from(DEFAULT_POINTS - 1), |step| step.0);
        if high.0 <= low.0 {
            return Err(fault("must run upwards"));
        }
        if step <= 0.0 {
            return Err(fault("needs a step above zero"));
        }
        if (high.0 - low.0) / step > MOST_POINTS - 1.0 {
            return Err(fault(&format!("has more than {MOST_POINTS} points")));
        }
        Ok(Some(Self { values: points(low.0, high.0, step), unit: unit.to_owned() }))
    }

    /// Writes one of the values as a user would.
    pub fn written(&self, value: f64) -> String {
        match self.unit.as_str() {
            "" => value.to_string(),
            unit => format!("{value} {unit}"),
        }
    }
}

/// Returns the unit that all parts share, where a part may go without; `None` when they differ.
fn one_unit(units: [Option<&str>; 3]) -> Option<&str> {
    let mut written = units.into_iter().flatten().filter(|unit| !unit.is_empty());
    let first = written.next().unwrap_or_default();
    written.all(|unit| unit == first).then_some(first)
}

fn points(low: f64, high: f64, step: f64) -> Vec<f64> {
    let value = |count: u32| round(low + f64::from(count) * step);
    (0..).map(value).take_while(|value| *value <= high + STEP_SLACK * step).collect()
}

/// Rounds a point so that 0.1 + 0.2 reads 0.3.
fn round(value: f64) -> f64 {
    format!("{value:.*e}", POINT_DIGITS - 1).parse().unwrap_or(value)
}

/// Takes the longest number at the start of a text; the unit is what follows.
fn number_and_unit(text: &str) -> Option<(f64, &str)> {
    let text = text.trim();
    if !text.starts_with(|sign: char| sign.is_ascii_digit() || "-−+.".contains(sign)) {
        return None;
    }
    let ends = text.char_indices().map(|(at, sign)| at + sign.len_utf8()).rev();
    let read = |end: usize| {
        let number = text[..end].trim().replace(',', ".").replace('−', "-");
        let value = number.parse::<f64>().ok().filter(|value| value.is_finite())?;
        Some((value, text[end..].trim()))
    };
    ends.filter_map(read).next()
}

/// The answers along a range.
#[derive(Debug, Clone, PartialEq)]
pub struct Sweep {
    /// The input that was varied.
    pub input: &'static str,
    /// Its values.
    pub range: Range,
    /// The answer at each value, or why there is none.
    pub answers: Vec<Result<Answer, CalcError>>,
}

impl Sweep {
    /// Asks a question along the one input that is written as a range; `None` when none is.
    ///
    /// # Errors
    /// [`CalcError`] when a range is badly written, when two inputs are ranges, or when no point
    /// has an answer: then the error of the first point.
    pub fn ask(question: &Question, written: &[(&str, &str)]) -> Result<Option<Self>, CalcError> {
        let mut varied: Option<(&'static str, Range)> = None;
        for (name, text) in written {
            let input = question.inputs.iter().find(|input| input.name == *name);
            let amount = input.filter(|input| matches!(input.kind, Kind::Amount(_)));
            let Some(input) = amount else { continue };
            let Some(range) = Range::read(name, text)? else { continue };
            if let Some((first, _)) = &varied {
                let message = format!("only one input may be a range, not `{first}` and `{name}`");
                return Err(CalcError::combination(message));
            }
            varied = Some((input.name, range));
        }
        let Some((input, range)) = varied else { return Ok(None) };
        let ask = |value: &f64| {
            let text = range.written(*value);
            let swap = |(name, old)| (name, if name == input { text.as_str() } else { old });
            question.ask(&written.iter().copied().map(swap).collect::<Vec<_>>())
        };
        let answers: Vec<_> = range.values.iter().map(ask).collect();
        match answers.first() {
            Some(Err(error)) if answers.iter().all(Result::is_err) => Err(error.clone()),
            _ => Ok(Some(Self { input, range, answers })),
        }
    }

    /// Returns one output at every value; NaN where there is none.
    pub fn output(&self, key: &str) -> Vec<f64> {
        let number = |answer: &Result<Answer, _>| answer.as_ref().ok().and_then(|a| a.get(key));
        self.answers.iter().map(|answer| number(answer).unwrap_or(f64::NAN)).collect()
    }

    /// Returns the remarks of all points, each said once, and which points have no answer.
    pub fn remarks(&self) -> Vec<String> {
        let answered: Vec<&Answer> = self.answers.iter().flatten().collect();
        let mut remarks: Vec<String> = Vec::new();
        for (value, answer) in self.range.values.iter().zip(&self.answers) {
            for remark in answer.iter().flat_map(|answer| &answer.remarks) {
                let everywhere = answered.iter().all(|other| other.remarks.contains(remark));
                let text = match everywhere {
                    true => remark.clone(),
                    false => format!("at {}: {remark}", self.range.written(*value)),
                };
                if !remarks.contains(&text) {
                    remarks.push(text);
                }
            }
        }
        remarks.extend(self.refusals());
        remarks
    }

    /// Says at which points there is no answer, neighbours with the same reason together.
    fn refusals(&self) -> Vec<String> {
        let failed = |index: &usize| self.answers[*index].as_ref().err();
        let indices: Vec<usize> = (0..self.answers.len()).collect();
        let runs = indices.chunk_by(|one, next| match (failed(one), failed(next)) {
            (Some(one), Some(next)) => is_same_reason(one, next),
            _ => false,
        });
        let refusal = |run: &[usize]| {
            let (first, last) = (run.first()?, run.last()?);
            let error = failed(first)?;
            let at = |index: &usize| self.range.written(self.range.values[*index]);
            Some(match run.len() {
                1 => format!("no answer at {}: {error}", at(first)),
                _ => format!("no answer from {} to {}: {error}", at(first), at(last)),
            })
        };
        runs.filter_map(refusal).collect()
    }
}

/// Returns whether two points fail by the same law; the values in the messages may differ.
fn is_same_reason(one: &CalcError, other: &CalcError) -> bool {
    use PhysicsError::{NotPositive, OutsideValidity};
    match (one, other) {
        (CalcError::Physics(one), CalcError::Physics(other)) => match (one, other) {
            (
                OutsideValidity { law, quantity, low, .. },
                OutsideValidity {
                    law: other_law, quantity: other_quantity, low: other_low, ..
                },
            ) => law == other_law && quantity == other_quantity && low.total_cmp(other_low).is_eq(),
            (NotPositive { quantity, .. }, NotPositive { quantity: other, .. }) => {
                quantity == other
            }
            _ => one == other,
        },
        _ => one == other,
    }
}

impl Question {
    /// Finds one of the outputs by key, or says which there are.
    ///
    /// # Errors
    /// [`CalcError::UnknownWord`] when the question has no such output.
    pub fn expect_output(&self, key: &str) -> Result<&'static super::Output, CalcError> {
        let keys: Vec<&str> = self.outputs.iter().map(|output| output.key).collect();
        self.output(key).ok_or_else(|| CalcError::UnknownWord {
            name: "plot-output",
            word: key.to_owned(),
            help: suggestion(key, &keys),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn range(text: &str) -> Range {
        Range::read("x", text).unwrap().unwrap()
    }

    #[test]
    fn a_range_has_its_ends_and_its_step() {
        assert_eq!(range("20..80 step 20 °C").values, [20.0, 40.0, 60.0, 80.0]);
        assert_eq!(range("20..80 step 20 °C").unit, "°C");
        assert_eq!(range("-20..−10 step 5 °C").values, [-20.0, -15.0, -10.0]);
        assert_eq!(range("0..1 step 0.3").values, [0.0, 0.3, 0.6, 0.9]);
        assert_eq!(range("1 kPa..2 kPa step 0.5 kPa").unit, "kPa");
    }

    #[test]
    fn eleven_points_are_taken_without_a_step() {
        let found = range("0.1..0.6 %");
        assert_eq!(found.values.len(), 11);
        assert!((found.values[10] - 0.6).abs() < 1e-12);
        assert_eq!(range("1e-3..2e-3 Pa·s").values[0].to_string(), "0.001");
    }

    #[test]
    fn what_is_not_a_range_is_refused() {
        for text in ["80..20 °C", "20.. °C", "20..80 step 0 °C", "1..2 step 1e-9 g", "1 g..2 kg"]
        {
            assert!(Range::read("x", text).is_err(), "{text}");
        }
        assert_eq!(Range::read("x", "20 °C").unwrap(), None);
    }
}
