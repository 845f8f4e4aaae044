//! `standin panel`: panels of tasters.

use super::Outcome;
use super::context::Context;
use super::failure::Failure;
use crate::quantity::{Dimension, parse_in};
use crate::report::trial_panel::{self, Panelled};
use crate::trial::judgement::Question;
use crate::trial::panel::{Design, PanelError};

/// Plan and judge panels of tasters: triangle and paired-comparison tests
///
/// Without a count of tasters it says how many are needed; with one, what they can show; with the
/// answers too, what they showed and how it may be put in print.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct PanelArgs {
    #[command(subcommand)]
    test: Test,
}

const EXAMPLES: &str = "\
Examples:
  standin panel triangle
  standin panel triangle --tasters 30 --correct 14
  standin panel paired --tasters 44 --chose 32 --two-sided";

const TRIANGLE: &str = "\
Examples:
  standin panel triangle --alpha \"5 %\" --beta \"10 %\" --noticed-by \"30 %\"
  standin panel triangle --tasters 30 --correct 14";

const PAIRED: &str = "\
Examples:
  standin panel paired --tasters 44
  standin panel paired --tasters 44 --chose 32 --two-sided";

#[derive(Debug, clap::Subcommand)]
enum Test {
    /// Three samples, two alike: which is the odd one?
    #[command(after_help = TRIANGLE)]
    Triangle {
        /// How many tasters found the odd sample
        #[arg(long, value_name = "COUNT", requires = "tasters")]
        correct: Option<u32>,
        #[command(flatten)]
        risks: Risks,
    },
    /// Two samples, one named attribute: which has more of it?
    #[command(after_help = PAIRED)]
    Paired {
        /// How many tasters chose the sample that was expected, or either one with --two-sided
        #[arg(long, value_name = "COUNT", requires = "tasters")]
        chose: Option<u32>,
        /// Either sample may have more; decide so before the tasting
        #[arg(long)]
        two_sided: bool,
        #[command(flatten)]
        risks: Risks,
    },
}

#[derive(Debug, clap::Args)]
struct Risks {
    /// How many taste
    #[arg(long, value_name = "COUNT")]
    tasters: Option<u32>,
    /// Risk of claiming a difference that is not there
    #[arg(long, value_name = "SHARE", default_value = "5 %", value_parser = share)]
    alpha: f64,
    /// Risk of missing a difference
    #[arg(long, value_name = "SHARE", default_value = "5 %", value_parser = share)]
    beta: f64,
    /// Share of people who must notice a difference before it matters
    #[arg(long, value_name = "SHARE", default_value = "30 %", value_parser = share)]
    noticed_by: f64,
}

fn share(text: &str) -> Result<f64, String> {
    parse_in(text, Dimension::Fraction).map_err(|error| format!("{error}; {}", error.help()))
}

/// Runs the command.
pub(crate) fn run(args: &PanelArgs, context: &mut Context<'_>) -> anyhow::Result<Outcome> {
    let (design, correct, risks) = match &args.test {
        Test::Triangle { correct, risks } => (Design::Triangle, *correct, risks),
        Test::Paired { chose, two_sided: true, risks } => (Design::PairedTwoSided, *chose, risks),
        Test::Paired { chose, two_sided: false, risks } => (Design::PairedOneSided, *chose, risks),
    };
    let question =
        Question { design, alpha: risks.alpha, beta: risks.beta, share: risks.noticed_by };
    let panel = answer(question, risks.tasters, correct)
        .map_err(|error| Failure::wrong_use(error.to_string()))?;
    context.report(&trial_panel::document(&panel), &trial_panel::json(&panel))?;
    Ok(Outcome::Done)
}

fn answer(
    question: Question,
    tasters: Option<u32>,
    correct: Option<u32>,
) -> Result<Panelled, PanelError> {
    let judged = tasters.zip(correct).map(|(tasters, correct)| question.judge(tasters, correct));
    Ok(Panelled {
        needed: question.needed()?,
        reach: tasters.map(|tasters| question.reach(tasters)).transpose()?,
        judgement: judged.transpose()?,
        question,
    })
}
