//! Reading the files that the user names, with every finding shown.

use std::path::Path;

use super::context::Context;
use super::failure::{Failure, FailureKind};
use crate::finding::Finding;
use crate::kitchen::Kitchen;
use crate::knowledge::Knowledge;
use crate::quantity::Measures;
use crate::recipe::Recipe;

/// Reads a kitchen file.
///
/// # Errors
/// A [`Failure`] after the findings were written among the remarks.
pub fn kitchen(
    path: &Path,
    knowledge: &Knowledge,
    context: &mut Context<'_>,
) -> anyhow::Result<Kitchen> {
    Kitchen::load(path, knowledge).or_else(|findings| refuse(path, &findings, context))
}

/// Reads a recipe file, with cups and spoons of the kitchen's nation.
///
/// # Errors
/// A [`Failure`] after the findings were written among the remarks.
pub fn recipe(
    path: &Path,
    knowledge: &Knowledge,
    measures: Measures,
    context: &mut Context<'_>,
) -> anyhow::Result<Recipe> {
    Recipe::load(path, knowledge, measures).or_else(|findings| refuse(path, &findings, context))
}

fn refuse<T>(path: &Path, findings: &[Finding], context: &mut Context<'_>) -> anyhow::Result<T> {
    let text = std::fs::read_to_string(path).unwrap_or_default();
    let shown: Vec<String> = findings.iter().map(|finding| finding.render(&text)).collect();
    context.remark(&shown.join("\n\n"))?;
    let faults = if findings.len() == 1 { "fault" } else { "faults" };
    let message = format!("{} has {} {faults}", path.display(), findings.len());
    Err(Failure::new(FailureKind::File, message).into())
}
