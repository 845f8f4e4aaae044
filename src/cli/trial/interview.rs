//! What is asked of a tester, one question after the other.
//!
//! Each answer is checked while it can still be corrected, and what the recipe and the knowledge base
//! know is offered to choose from.

use std::path::Path;

use super::add::{empty_step, put, text};
use super::ask::Ask;
use crate::cli::failure::Failure;
use crate::kitchen::Kitchen;
use crate::knowledge::Knowledge;
use crate::quantity::{Dimension, Measures, parse_amount};
use crate::recipe::{Recipe, Task};
use crate::trial::amend::VERDICTS;
use crate::trial::written::{Verdict, WrittenMeasuredStep, WrittenTrial};

/// What the options leave open.
#[derive(Debug, Clone, Copy)]
pub(super) struct Open {
    /// Who tested.
    pub tester: bool,
    /// What came of it.
    pub verdict: bool,
    /// What was measured.
    pub step: bool,
}

impl Open {
    fn options(self) -> Vec<&'static str> {
        let all = [("--tester", self.tester), ("--verdict", self.verdict), ("--step", self.step)];
        all.into_iter().filter_map(|(name, open)| open.then_some(name)).collect()
    }
}

/// A step that can be measured.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Measurable {
    /// What it makes.
    makes: String,
    /// The routes that it can take: id and name.
    routes: Vec<(String, String)>,
}

/// Returns the steps of a recipe; none when a file has a fault, which is for `lint` to tell.
pub(super) fn measurable(recipe: &Path, kitchen: &Path, knowledge: &Knowledge) -> Vec<Measurable> {
    let Ok(kitchen) = Kitchen::load(kitchen, knowledge) else { return Vec::new() };
    let Ok(recipe) = Recipe::load(recipe, knowledge, kitchen.measures) else { return Vec::new() };
    let routes = |technique: &String| {
        let all = knowledge.routes.values().filter(move |route| route.serves.contains(technique));
        all.map(|route| (route.id.clone(), route.name.clone())).collect()
    };
    let steps = recipe.steps.into_iter().map(|step| Measurable {
        makes: step.product,
        routes: match &step.task {
            Task::Professional(task) => routes(&task.technique),
            Task::Plain(_) => Vec::new(),
        },
    });
    steps.collect()
}

/// Asks for what the options leave open, or says which options are missing.
pub(super) fn complete(
    open: Open,
    record: &mut WrittenTrial,
    steps: &[Measurable],
    ask: Option<&mut dyn Ask>,
) -> anyhow::Result<()> {
    let missing = open.options();
    if missing.is_empty() {
        return Ok(());
    }
    let Some(ask) = ask else {
        let message = format!("missing: {}", missing.join(", "));
        let hint = "give them as options, or run it in a terminal to be asked";
        return Err(Failure::wrong_use(message).hint(hint).into());
    };
    if open.tester {
        record.tester = text(ask.line("Code of the tester", &not_empty)?);
    }
    if open.step {
        record.step = ask_steps(ask, steps)?;
    }
    if open.verdict {
        let words = VERDICTS.map(|(_, verdict)| verdict.words().to_owned());
        record.verdict = VERDICTS[ask.choice("What came of it", &words)?].1;
        let went_wrong = matches!(record.verdict, Verdict::Fail | Verdict::Discarded);
        if went_wrong && record.note.is_none() {
            record.note = Some(ask.line("What went wrong", &not_empty)?);
        }
    }
    Ok(())
}

fn not_empty(answer: &str) -> Result<(), String> {
    if answer.trim().is_empty() { Err("write something here".to_owned()) } else { Ok(()) }
}

fn anything(_: &str) -> Result<(), String> {
    Ok(())
}

/// Takes an amount, nothing, or the words for a measurement that there is not.
fn amount_or_nothing(answer: &str, dimension: Dimension) -> Result<(), String> {
    let answer = answer.trim();
    if answer.is_empty() || answer.starts_with("not ") {
        return Ok(());
    }
    let amount = parse_amount(answer, dimension, Measures::default())
        .map_err(|error| format!("{error}; {}", error.help()))?;
    if amount.low < 0.0 { Err(format!("`{answer}` is below zero")) } else { Ok(()) }
}

/// The end of the list of steps.
const NO_MORE: &str = "no more steps";
/// A way that is no route of the knowledge base.
const ANOTHER_WAY: &str = "another way";

/// Asks for one step after the other until there are no more.
fn ask_steps(ask: &mut dyn Ask, steps: &[Measurable]) -> anyhow::Result<Vec<WrittenMeasuredStep>> {
    let mut measured = Vec::new();
    loop {
        let Some(step) = ask_which(ask, steps, measured.len())? else { return Ok(measured) };
        let mut written = empty_step(&step.makes);
        if !step.routes.is_empty() {
            let mut ways: Vec<String> = step.routes.iter().map(|(_, name)| name.clone()).collect();
            ways.push(ANOTHER_WAY.to_owned());
            let chosen = ask.choice(&format!("How {} was made", step.makes), &ways)?;
            if let Some((id, _)) = step.routes.get(chosen) {
                put(&mut written, "route", id.clone());
            }
        }
        ask_measurements(ask, &mut written)?;
        measured.push(written);
    }
}

/// Asks which step comes next, by its name in the recipe.
fn ask_which(
    ask: &mut dyn Ask,
    steps: &[Measurable],
    done: usize,
) -> anyhow::Result<Option<Measurable>> {
    if steps.is_empty() {
        let makes = ask.line("What the step makes (empty to end)", &anything)?;
        let makes = makes.trim().to_owned();
        let step = Measurable { makes, routes: Vec::new() };
        return Ok((!step.makes.is_empty()).then_some(step));
    }
    let mut names: Vec<String> = steps.iter().map(|step| step.makes.clone()).collect();
    names.push(NO_MORE.to_owned());
    let question = if done == 0 { "Which step was measured" } else { "Which other step" };
    Ok(steps.get(ask.choice(question, &names)?).cloned())
}

fn ask_measurements(ask: &mut dyn Ask, step: &mut WrittenMeasuredStep) -> anyhow::Result<()> {
    const AMOUNTS: [(&str, &str, Dimension); 3] = [
        ("time", "Time from start to end, such as 46 min (empty: not measured)", Dimension::Time),
        ("mass_in", "What went in, such as 500 g (empty: not measured)", Dimension::Mass),
        ("mass_out", "What came out, such as 100 g (empty: not measured)", Dimension::Mass),
    ];
    for (key, question, dimension) in AMOUNTS {
        let answer = ask.line(question, &|answer| amount_or_nothing(answer, dimension))?;
        if !answer.trim().is_empty() {
            put(step, key, answer.trim().to_owned());
        }
    }
    let question = "What was done otherwise than written (empty: nothing)";
    let deviation = ask.line(question, &anything)?;
    if !deviation.trim().is_empty() {
        put(step, "deviation", deviation.trim().to_owned());
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::super::ask::Check;
    use super::*;

    /// Someone who answers from a list, and again where an answer is not taken.
    struct Script(Vec<&'static str>);

    impl Ask for Script {
        fn line(&mut self, _: &str, check: Check<'_>) -> anyhow::Result<String> {
            loop {
                let answer = self.0.remove(0);
                if check(answer).is_ok() {
                    return Ok(answer.to_owned());
                }
            }
        }
        fn choice(&mut self, _: &str, choices: &[String]) -> anyhow::Result<usize> {
            let wanted = self.0.remove(0);
            Ok(choices.iter().position(|choice| *choice == wanted).unwrap())
        }
        fn yes(&mut self, _: &str) -> anyhow::Result<bool> {
            Ok(true)
        }
    }

    const OPEN: Open = Open { tester: true, verdict: true, step: true };

    fn record() -> WrittenTrial {
        let text = "id = \"T-00\"\nrecipe = \"r\"\nkitchen = \"k\"\nstart = 2026-03-04\n\
                    tester = \"\"\npurpose = \"explore\"\nverdict = \"retest\"\n";
        toml::from_str(text).unwrap()
    }

    fn treacle() -> Vec<Measurable> {
        let routes = vec![("wide-pan-boil".to_owned(), "hard boil in a wide pan".to_owned())];
        vec![Measurable { makes: "treacle".to_owned(), routes }]
    }

    #[test]
    fn what_is_missing_is_asked_for_step_by_step() {
        let mut record = record();
        let answers = [
            "",
            "JD",
            "treacle",
            "hard boil in a wide pan",
            "soon",
            "46 min",
            "-5 g",
            "500 g",
            "",
            "",
            "no more steps",
            "fail",
            "",
            "x",
        ];
        let mut script = Script(answers.to_vec());
        complete(OPEN, &mut record, &treacle(), Some(&mut script)).unwrap();
        assert!(script.0.is_empty());
        assert_eq!(record.tester.get_ref(), "JD");
        assert_eq!(record.step[0].route.as_ref().unwrap().get_ref(), "wide-pan-boil");
        assert_eq!(record.step[0].time.as_ref().unwrap().get_ref(), "46 min");
        assert_eq!(record.step[0].mass_in.as_ref().unwrap().get_ref(), "500 g");
        assert!(record.step[0].mass_out.is_none());
        assert_eq!((record.verdict, record.note.as_deref()), (Verdict::Fail, Some("x")));
    }

    #[test]
    fn a_recipe_that_cannot_be_read_is_asked_about_by_word() {
        let mut record = record();
        let open = Open { tester: false, verdict: false, step: true };
        let mut script = Script(vec!["treacle", "", "", "", "stirred", ""]);
        complete(open, &mut record, &[], Some(&mut script)).unwrap();
        assert_eq!(record.step[0].makes.get_ref(), "treacle");
        assert_eq!(record.step[0].deviation.as_deref(), Some("stirred"));
    }

    #[test]
    fn without_a_terminal_the_missing_options_are_named() {
        let open = Open { tester: false, ..OPEN };
        let error = complete(open, &mut record(), &treacle(), None).unwrap_err().to_string();
        assert_eq!(error, "missing: --verdict, --step");
    }

    #[test]
    fn no_measurement_is_an_answer() {
        for answer in ["", " ", "not measured", "not applicable", "20-25 min"] {
            assert!(amount_or_nothing(answer, Dimension::Time).is_ok(), "{answer}");
        }
        for answer in ["soon", "5 g", "-5 min"] {
            assert!(amount_or_nothing(answer, Dimension::Time).is_err(), "{answer}");
        }
    }
}
