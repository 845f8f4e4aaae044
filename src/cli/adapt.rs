//! `standin adapt`: the main job.

use std::path::PathBuf;

use super::context::Context;
use super::failure::{Failure, FailureKind};
use super::timing::Timing;
use super::wishes::WishArgs;
use super::{Outcome, files};
use crate::advisor::check::Draws;
use crate::advisor::timeline::timeline;
use crate::advisor::{Bench, Sampler, adapt_to};
use crate::report;
use crate::trial::{Corrections, predict};

/// Turn a professional recipe into one for a kitchen
///
/// Simulates the laboratory's method and every home route on the same food, picks the route that
/// loses least, and carries its yield back into the shopping list. Exits with 1 when a step cannot be
/// reached in this kitchen.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct AdaptArgs {
    /// Recipe file
    #[arg(value_name = "RECIPE")]
    recipe: PathBuf,

    /// Kitchen file
    #[arg(long, value_name = "FILE")]
    kitchen: PathBuf,

    /// Show the arithmetic of the ranking
    #[arg(long)]
    why: bool,

    /// Correct times and yields by the trials of this book
    #[arg(long, value_name = "BOOK")]
    with_trials: Option<PathBuf>,

    #[command(flatten)]
    wishes: WishArgs,

    #[command(flatten)]
    timing: Timing,

    #[command(flatten)]
    sampling: Sampling,
}

/// How the ranges are sampled.
#[derive(Debug, Clone, Copy, clap::Args)]
pub(crate) struct Sampling {
    /// Samples of the unknown numbers
    #[arg(long, value_name = "COUNT", default_value_t = 1000)]
    #[arg(value_parser = clap::value_parser!(u32).range(1..=100_000))]
    samples: u32,

    /// Seed of the samples; the same seed gives the same result
    #[arg(long, value_name = "NUMBER", default_value_t = 1)]
    seed: u64,
}

impl Sampling {
    /// Makes the sampler.
    pub(crate) fn sampler(self) -> Sampler {
        Sampler::new(self.samples(), self.seed)
    }

    /// Makes samplers that draw as few samples as a verdict allows.
    pub(crate) fn draws(self) -> Draws {
        Draws::up_to(self.samples(), self.seed)
    }

    /// Returns the number of samples.
    pub(crate) fn samples(self) -> usize {
        usize::try_from(self.samples).unwrap_or(usize::MAX)
    }

    /// Returns the seed.
    pub(crate) const fn seed(self) -> u64 {
        self.seed
    }
}

const EXAMPLES: &str = "\
Examples:
  standin adapt examples/pear-treacle.toml --kitchen examples/tiny-flat.toml
  standin adapt examples/pear-treacle.toml --kitchen examples/tiny-flat.toml \\
    --ready-at 19:30 --why
  standin adapt examples/pear-treacle.toml --kitchen examples/tiny-flat.toml \\
    --prefer time --within \"6 h\" --format html > treacle.html
  standin adapt examples/pear-treacle.toml --kitchen examples/tiny-flat.toml \\
    --without \"hand blender\" --pin treacle=wide-pan-boil
  standin adapt examples/pear-treacle.toml --kitchen examples/tiny-flat.toml \\
    --have \"1.2 kg pear juice\" --with-trials examples/book";

/// An adapted recipe in JSON, with what trials changed when they were asked for.
#[derive(Debug, serde::Serialize)]
struct Adapted<'a> {
    #[serde(flatten)]
    adaptation: report::adapt_json::AdaptationJson,
    timeline: report::timeline_json::TimelineJson,
    #[serde(skip_serializing_if = "Option::is_none")]
    corrected_by_trials: Option<Vec<report::trial_fit::CorrectedJson<'a>>>,
}

/// Runs the command.
pub(crate) fn run(args: &AdaptArgs, context: &mut Context<'_>) -> anyhow::Result<Outcome> {
    let knowledge = context.knowledge()?;
    let mut kitchen = files::kitchen(&args.kitchen, &knowledge, context)?;
    args.wishes.taste.less.leave_out(&mut kitchen, &knowledge, context)?;
    let recipe = files::recipe(&args.recipe, &knowledge, kitchen.measures, context)?;
    let sampler = args.sampling.sampler();
    let bench = Bench { knowledge: &knowledge, kitchen: &kitchen, sampler: &sampler };
    let wishes = args.wishes.wishes(&recipe, &kitchen, &knowledge)?;
    let mut done = adapt_to(&recipe, &bench, &wishes)
        .map_err(|error| Failure::new(FailureKind::NoAnswer, error.to_string()))?;
    let applied = match &args.with_trials {
        Some(folder) => {
            let book = super::trial::open(folder, context)?;
            let (fitted, _) = super::trial::fit::fit(&book, &knowledge, &sampler, context)?;
            let corrections = Corrections::of(&fitted.calibrations);
            Some(predict::correct(&mut done, &corrections))
        }
        None => None,
    };
    let timeline = timeline(&done, &recipe, &bench, args.timing.anchor());
    let first_day = args.timing.first_day(&timeline);
    let planned = report::timeline::Planned { timeline: &timeline, first_day };
    let setting = report::adapt::Setting {
        recipe: &recipe,
        kitchen: &kitchen,
        knowledge: &knowledge,
        why: args.why,
        asked: &args.wishes.words(),
        planned: Some(planned),
    };
    let mut document = report::adapt::document(&done, &setting);
    if let Some(applied) = &applied {
        report::trial_fit::corrected(&mut document, applied, &knowledge);
    }
    let json = Adapted {
        adaptation: report::adapt_json::adaptation(&done, &setting),
        timeline: report::timeline_json::timeline(&planned),
        corrected_by_trials: applied.as_deref().map(report::trial_fit::corrected_json),
    };
    context.report(&document, &json)?;
    Ok(if done.says_no() { Outcome::SaysNo } else { Outcome::Done })
}
