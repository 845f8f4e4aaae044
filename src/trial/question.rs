//! Questions about a trial: what is hard to believe is asked about, never dropped.

use super::reading::Readings;
use super::written::{Verdict, WrittenMeasuredStep, WrittenTrial};
use super::{MeasuredStep, Trial, cause};
use crate::quantity::Time;

/// A step that comes out heavier than it went in by more than this share is asked about: scales of
/// a kitchen agree within it (common practice).
const HEAVIER: f64 = 0.05;
/// A step that takes longer is asked about [days]: longer than freeze drying or a cold steep.
const LONGEST_DAYS: f64 = 14.0;
/// The ends of the nine-point scale of liking (D. R. Peryam and N. F. Girardot, Advanced taste-test
/// method, Food Engineering 24, 1952).
const LIKING: std::ops::RangeInclusive<i64> = 1..=9;
/// Why a trial that went wrong should say why.
const WHY_CAUSE: &str = "add `cause` by its number, or a `note`";

/// Asks about everything in a trial that is hard to believe.
pub(super) fn ask(written: &WrittenTrial, trial: &Trial, readings: &mut Readings<'_>) {
    ask_verdict(written, readings);
    for (step, measured) in written.step.iter().zip(&trial.steps) {
        ask_step(step, measured, readings);
    }
    for (index, step) in written.step.iter().enumerate() {
        let name = step.makes.get_ref();
        if written.step[..index].iter().any(|other| other.makes.get_ref() == name) {
            let message = format!("`{name}` is recorded twice");
            readings.question(step.makes.span(), message, "name the two differently, or join them");
        }
    }
    for (actual, linked) in written.ingredient.iter().zip(&trial.ingredients) {
        let highest = crate::reader::BRIX.high;
        if let (Some(text), Some(share)) = (&actual.brix, linked.brix.si())
            && !(0.0..=highest).contains(&share)
        {
            let message = format!("dissolved solids of {} are hard to believe", text.get_ref());
            readings.question(text.span(), message, crate::reader::BRIX.why);
        }
    }
}

fn ask_verdict(written: &WrittenTrial, readings: &mut Readings<'_>) {
    if let Some(number) = &written.cause
        && cause::words(*number.get_ref()).is_none()
    {
        let message = format!("there is no cause {}", number.get_ref());
        let help = format!("causes are numbered 1 to {}", cause::CAUSES.len());
        readings.question(number.span(), message, &help);
    }
    let went_wrong = matches!(written.verdict, Verdict::Fail | Verdict::Discarded);
    if went_wrong && written.cause.is_none() && written.note.is_none() {
        let message = format!("the verdict is \"{}\" without a cause", written.verdict.words());
        readings.question(written.id.span(), message, WHY_CAUSE);
    }
    let Some(sensory) = &written.sensory else { return };
    if sensory.tasted && written.verdict == Verdict::Discarded {
        let message = "discarded for safety, and yet tasted".to_owned();
        readings.question(written.id.span(), message, "what is discarded for safety is not tasted");
    }
    for (name, score) in &sensory.scores {
        if !LIKING.contains(score.get_ref()) {
            let message = format!("{} was scored {}", name.get_ref(), score.get_ref());
            let help = "scores run from 1, dislike extremely, to 9, like extremely";
            readings.question(score.span(), message, help);
        }
    }
}

fn ask_step(written: &WrittenMeasuredStep, step: &MeasuredStep, readings: &mut Readings<'_>) {
    let makes = &step.makes;
    if let (Some(before), Some(after), Some(text)) =
        (step.mass_in.si(), step.mass_out.si(), &written.mass_out)
        && after > before * (1.0 + HEAVIER)
    {
        let message = format!("{makes} came out heavier than it went in");
        let help = "count everything that was added into `mass_in`";
        readings.question(text.span(), message, help);
    }
    if let (Some(attended), Some(whole), Some(text)) =
        (step.hands_on.si(), step.time.si(), &written.hands_on)
        && attended > whole
    {
        let message = format!("{makes} was attended to for longer than it took");
        readings.question(text.span(), message, "`time` runs from start to end");
    }
    if let (Some(seconds), Some(text)) = (step.time.si(), &written.time) {
        if seconds > Time::from_days(LONGEST_DAYS).seconds() {
            let message = format!("{makes} took {}", text.get_ref());
            readings.question(text.span(), message, "check the unit");
        } else if seconds <= 0.0 && step.route.is_some() {
            let message = format!("{makes} took no time");
            readings.question(text.span(), message, "write \"not measured\" if nobody looked");
        }
    }
}
