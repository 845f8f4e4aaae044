//! `standin calc`: ask the physics alone.

use std::path::{Path, PathBuf};

use super::context::{Context, Format};
use super::failure::Failure;
use super::{Outcome, files};
use crate::calc::{Question, Sweep, questions};
use crate::report::{calc as report, chart_svg};

mod command;
mod nearest;

pub(crate) use command::CalcArgs;
pub(crate) use nearest::with_nearest;

/// What is asked.
#[derive(Debug, Clone)]
pub(crate) enum Asked {
    /// The list of all questions.
    List,
    /// One question.
    One(Inquiry),
}

/// One question with its inputs as written.
#[derive(Debug, Clone)]
pub(crate) struct Inquiry {
    question: &'static Question,
    /// Each input, defaults included, in the order of the question.
    inputs: Vec<(&'static str, String)>,
    /// Where the curve goes; `-` is standard output.
    plot: Option<PathBuf>,
    /// Whether an existing file may be replaced by the curve.
    force: bool,
    /// Which output is drawn.
    plot_output: Option<String>,
}

/// Runs the command.
pub(crate) fn run(args: &CalcArgs, context: &mut Context<'_>) -> anyhow::Result<Outcome> {
    match &args.asked {
        Asked::List => {
            let all = questions();
            context.report(&report::catalogue_document(&all), &report::catalogue_json(&all))?;
        }
        Asked::One(inquiry) => answer(inquiry, context)?,
    }
    Ok(Outcome::Done)
}

fn answer(inquiry: &Inquiry, context: &mut Context<'_>) -> anyhow::Result<()> {
    if let Some(path) = inquiry.plot.as_deref().filter(|path| *path != Path::new("-")) {
        if !inquiry.force && !path.is_dir() && path.symlink_metadata().is_ok() {
            let failure = Failure::wrong_use(format!("{} exists already", path.display()));
            let hint = "choose another name, or add --plot-force to replace it";
            return Err(failure.hint(hint).into());
        }
        files::check_output(path, inquiry.force)?;
    }
    let question = inquiry.question;
    let written: Vec<(&str, &str)> =
        inquiry.inputs.iter().map(|(name, text)| (*name, text.as_str())).collect();
    if let Some(sweep) = Sweep::ask(question, &written).map_err(Failure::from)? {
        return answer_sweep(inquiry, &written, &sweep, context);
    }
    if inquiry.plot.is_some() || inquiry.plot_output.is_some() {
        let message = "a curve needs one input as a range";
        let hint = "write a range such as `20..80 step 10 °C`";
        return Err(Failure::wrong_use(message).hint(hint).into());
    }
    let answer = question.ask(&written).map_err(Failure::from)?;
    let document = report::answer_document(question, &written, &answer);
    context.report(&document, &report::answer_json(question, &written, &answer))
}

fn answer_sweep(
    inquiry: &Inquiry,
    written: &[(&str, &str)],
    sweep: &Sweep,
    context: &mut Context<'_>,
) -> anyhow::Result<()> {
    let question = inquiry.question;
    let output = match &inquiry.plot_output {
        Some(key) => Some(question.expect_output(key).map_err(Failure::from)?),
        None => report::outputs_of(question, sweep).first().copied(),
    };
    let chart = output.map(|output| report::sweep_chart(question, sweep, output));
    if let (Some(path), Some(chart)) = (&inquiry.plot, &chart) {
        let drawing = chart_svg::standalone(chart);
        if path == Path::new("-") {
            return Ok(context.out.write_all(drawing.as_bytes())?);
        }
        files::write_whole(path, drawing.as_bytes(), inquiry.force)?;
        context.remark(&format!("curve written to {}", path.display()))?;
    }
    let chart = chart.filter(|_| context.format == Format::Html);
    let document = report::sweep_document(question, written, sweep, chart);
    context.report(&document, &report::sweep_json(question, written, sweep))
}
