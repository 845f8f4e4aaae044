//! `standin check`: what can be made in a kitchen.

use std::path::PathBuf;

use rayon::prelude::*;

use super::adapt::Sampling;
use super::context::Context;
use super::wishes::Less;
use super::{Outcome, files};
use crate::advisor::Verdict;
use crate::advisor::check::{Buyer, Checked, Remedy, Study};
use crate::advisor::purchase::Shop;
use crate::advisor::survey::techniques;
use crate::recipe::Recipe;
use crate::report::check::{Checking, Row, document, json};

/// Check which recipes can be made in a kitchen, and what the others lack
///
/// Each recipe can be made as written, with a small loss, with a real loss, or not; beside it stand
/// the fewest things to get that would make more of it. Exits with 1 when a recipe cannot be made.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct CheckArgs {
    /// Recipe files, or folders of them
    #[arg(value_name = "RECIPES", required = true, num_args = 1..)]
    recipes: Vec<PathBuf>,

    /// Kitchen file
    #[arg(long, value_name = "FILE")]
    kitchen: PathBuf,

    /// Group the recipes by what to get for them
    #[arg(long)]
    missing: bool,

    #[command(flatten)]
    less: Less,

    #[command(flatten)]
    sampling: Sampling,
}

const EXAMPLES: &str = "\
Examples:
  standin check examples/pear-treacle.toml --kitchen examples/tiny-flat.toml
  standin check examples/book/recipes --kitchen examples/keen-cook.toml \\
    --missing";

/// Runs the command.
pub(crate) fn run(args: &CheckArgs, context: &mut Context<'_>) -> anyhow::Result<Outcome> {
    let knowledge = context.knowledge()?;
    let mut kitchen = files::kitchen(&args.kitchen, &knowledge, context)?;
    args.less.leave_out(&mut kitchen, &knowledge, context)?;
    let paths = files::toml_files(&args.recipes)?;
    let mut read = Vec::new();
    for path in &paths {
        read.push(files::recipe(path, &knowledge, kitchen.measures, context));
    }
    let recipes: Vec<Recipe> = read.into_iter().collect::<anyhow::Result<_>>()?;
    let shop = Shop::of(&kitchen, &techniques(&recipes), &knowledge);
    let equipped = shop.all_bought(&kitchen, &knowledge);
    let buyer =
        Buyer { kitchen: &kitchen, shop: &shop, equipped: &equipped, knowledge: &knowledge };
    let rows: Vec<Row<'_>> = recipes
        .par_iter()
        .zip(&paths)
        .map(|(recipe, path)| {
            let (checked, remedy) = one(recipe, &buyer, args.sampling);
            Row { recipe, file: path.display().to_string(), checked, remedy }
        })
        .collect();
    let checking = Checking { rows: &rows, buyer: &buyer, missing: args.missing };
    context.report(&document(&checking), &json(&checking))?;
    let can = |row: &Row<'_>| row.verdict().is_some_and(|verdict| verdict != Verdict::No);
    Ok(if rows.iter().all(can) { Outcome::Done } else { Outcome::SaysNo })
}

/// Checks one recipe; a fault of the simulation is its result.
fn one(
    recipe: &Recipe,
    buyer: &Buyer<'_>,
    sampling: Sampling,
) -> (Result<Checked, String>, Option<Remedy>) {
    let draws = sampling.draws();
    let study = Study::new(recipe, buyer.knowledge, &draws);
    match buyer.check(&study) {
        Ok(checked) => {
            // A kitchen with more gear in which the recipe cannot be simulated is no remedy.
            let remedy = buyer.remedy(&study, &checked).unwrap_or(None);
            (Ok(checked), remedy)
        }
        Err(error) => (Err(error.to_string()), None),
    }
}
