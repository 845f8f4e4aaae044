//! `standin import`: a recipe of the open vocabulary as a recipe file.

use std::path::PathBuf;

use super::Outcome;
use super::context::Context;
use super::failure::{Failure, FailureKind};
use super::mislaid::must_exist;
use super::output::OutputArgs;
use crate::quantity::Measures;
use crate::reader::load_text;
use crate::recipe::Recipe;
use crate::recipe::import::import_by;

/// Turn a schema.org recipe (JSON-LD, or a web page with some) into a recipe file
///
/// Amounts and foods are recognised, sentences stay plain work, and what names a laboratory technique
/// is remarked on. What is not understood is kept as a comment that asks for a look, so that the rest
/// can be used. Exits with 1 when the file cannot be used before something is filled in.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct ImportArgs {
    /// JSON-LD or HTML file
    #[arg(value_name = "FILE")]
    file: PathBuf,

    /// Whose cups and spoons the recipe means: metric, us, uk or australian [default: as the
    /// page's language says, or those of the kitchen]
    #[arg(long, value_name = "NATION", value_parser = nation)]
    measures: Option<Measures>,

    #[command(flatten)]
    output: OutputArgs,
}

const EXAMPLES: &str = "\
Examples:
  standin import examples/rhubarb-fool.json > rhubarb-fool.toml
  standin import examples/rhubarb-fool.json --output rhubarb-fool.toml";

fn nation(word: &str) -> Result<Measures, String> {
    match word {
        "metric" => Ok(Measures::Metric),
        "us" => Ok(Measures::Us),
        "uk" => Ok(Measures::Uk),
        "australian" => Ok(Measures::Australian),
        _ => Err("accepted: metric, us, uk, australian".to_owned()),
    }
}

/// Runs the command.
pub(crate) fn run(args: &ImportArgs, context: &mut Context<'_>) -> anyhow::Result<Outcome> {
    args.output.check()?;
    let knowledge = context.knowledge()?;
    must_exist(&args.file)?;
    let shown = args.file.display().to_string();
    let refuse = |text: &str, finding: &crate::finding::Finding, context: &mut Context<'_>| {
        context.remark(&finding.render(text))?;
        let failure = Failure::new(FailureKind::File, format!("{shown} cannot be imported"));
        Err(anyhow::Error::from(failure))
    };
    let text = match load_text(&args.file) {
        Ok(text) => text,
        Err(finding) => return refuse("", &finding, context),
    };
    let imported = match import_by(&text, &shown, &knowledge, args.measures) {
        Ok(imported) => imported,
        Err(finding) => return refuse(&text, &finding, context),
    };
    args.output.write(imported.text.as_bytes(), context)?;
    for remark in &imported.remarks {
        context.remark(&format!("review: {remark}"))?;
    }
    let name =
        args.output.output.as_ref().map_or("the recipe".to_owned(), |p| p.display().to_string());
    match Recipe::read(&imported.text, &name, &knowledge, Measures::default()) {
        Ok(_) => Ok(Outcome::Done),
        Err(findings) => {
            let all = findings.iter().map(|finding| finding.render(&imported.text));
            context.remark(&all.collect::<Vec<_>>().join("\n\n"))?;
            Ok(Outcome::SaysNo)
        }
    }
}
