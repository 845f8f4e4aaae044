//! `standin hazards`: what can hurt someone, with limits and sources.

use serde::Serialize;

use super::Outcome;
use super::context::Context;
use crate::knowledge::{Hazard, Verdict};
use crate::report;
use crate::report::json::to_digits;

/// List every hazard with its limits and their sources
///
/// A computed limit is compared with what happens in the simulation; other hazards are shown where
/// a route, a move or a food has them.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct HazardsArgs {
    /// Only those with computed limits
    #[arg(long)]
    computed: bool,
}

const EXAMPLES: &str = "\
Examples:
  standin hazards
  standin hazards --computed --format html > hazards.html";

/// A hazard in JSON.
#[derive(Debug, Serialize)]
struct HazardJson<'a> {
    id: &'a str,
    name: &'a str,
    signal: &'a str,
    caution: &'a str,
    foods: &'a [String],
    refuses: &'a [String],
    source: String,
    rules: Vec<RuleJson<'a>>,
}

/// A computed rule in JSON: all of its limits must be passed.
#[derive(Debug, Serialize)]
struct RuleJson<'a> {
    verdict: &'static str,
    says: &'a str,
    limits: Vec<LimitJson<'a>>,
}

/// A limit in JSON.
#[derive(Debug, Serialize)]
struct LimitJson<'a> {
    fact: &'a str,
    above_si: Option<f64>,
    below_si: Option<f64>,
    source: String,
}

/// Digits of a limit in JSON.
const DIGITS: usize = 6;

/// Runs the command.
pub(crate) fn run(args: &HazardsArgs, context: &mut Context<'_>) -> anyhow::Result<Outcome> {
    let knowledge = context.knowledge()?;
    let all = knowledge.hazards.values();
    let hazards: Vec<&Hazard> =
        all.filter(|hazard| !args.computed || !hazard.rules.is_empty()).collect();
    let json: Vec<HazardJson<'_>> = hazards.iter().map(|hazard| json(hazard)).collect();
    context.report(&report::show::hazards(&hazards, &knowledge), &json)?;
    Ok(Outcome::Done)
}

fn json(hazard: &Hazard) -> HazardJson<'_> {
    let rules = hazard.rules.iter().map(|rule| RuleJson {
        verdict: match rule.verdict {
            Verdict::Warn => "warn",
            Verdict::Refuse => "refuse",
        },
        says: &rule.says,
        limits: rule
            .when
            .iter()
            .map(|condition| {
                let si = |limit: &Option<crate::knowledge::Value>| {
                    limit.as_ref().map(|limit| to_digits(limit.typical(), DIGITS))
                };
                let value = condition.above.as_ref().or(condition.below.as_ref());
                LimitJson {
                    fact: &condition.fact,
                    above_si: si(&condition.above),
                    below_si: si(&condition.below),
                    source: value.map_or_else(String::new, |limit| limit.provenance.to_string()),
                }
            })
            .collect(),
    });
    HazardJson {
        id: &hazard.id,
        name: &hazard.name,
        signal: &hazard.signal,
        caution: &hazard.caution,
        foods: &hazard.foods,
        refuses: &hazard.refuses,
        source: hazard.provenance.to_string(),
        rules: rules.collect(),
    }
}
