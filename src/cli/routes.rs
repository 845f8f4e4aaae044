//! `standin routes`: all routes to a technique, beside the laboratory.

use std::path::PathBuf;

use super::adapt::Sampling;
use super::context::Context;
use super::failure::{Failure, FailureKind};
use super::wishes::Taste;
use super::{Outcome, files};
use crate::advisor::{Bench, FoodOf, Verdict, advise_by, feeds};
use crate::knowledge::{Kind, Knowledge, ValueMap};
use crate::quantity::{Mass, Measures};
use crate::recipe::{Ingredient, Professional, Recipe};
use crate::report;

/// Show every route to a technique, beside the way a laboratory does it
///
/// Prints the best first, each with its results and the reasons for its place. Exits with 1 when no
/// route in this kitchen reaches the goal.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct RoutesArgs {
    /// Technique, by id, trade name or synonym
    #[arg(value_name = "TECHNIQUE", required = true, num_args = 1..)]
    technique: Vec<String>,

    /// Kitchen file
    #[arg(long, value_name = "FILE")]
    kitchen: PathBuf,

    /// Food with its amount, such as "2 kg pear juice" [default: the technique's own]
    #[arg(long, value_name = "AMOUNT FOOD")]
    feed: Option<String>,

    /// Target, such as "35 °Brix" or "largest-particle 10 µm"; can be repeated
    #[arg(long, value_name = "TARGET")]
    to: Vec<String>,

    /// Show the arithmetic of the ranking
    #[arg(long)]
    why: bool,

    #[command(flatten)]
    taste: Taste,

    #[command(flatten)]
    sampling: Sampling,
}

const EXAMPLES: &str = "\
Examples:
  standin routes vacuum concentration --kitchen examples/keen-cook.toml
  standin routes rotary evaporation --kitchen examples/keen-cook.toml \\
    --feed \"2 kg rhubarb juice\" --to \"35 °Brix\" --format html > routes.html";

/// The amount on which a technique is shown when none is named. Common practice: one home batch.
const DEMO_AMOUNT: &str = "1 kg";

/// Runs the command.
pub(crate) fn run(args: &RoutesArgs, context: &mut Context<'_>) -> anyhow::Result<Outcome> {
    let knowledge = context.knowledge()?;
    let mut kitchen = files::kitchen(&args.kitchen, &knowledge, context)?;
    args.taste.less.leave_out(&mut kitchen, &knowledge, context)?;
    let id = technique(&args.technique.join(" "), &knowledge)?;
    let one = recipe(&id, args, &knowledge)?;
    let (ingredient, task) = (&one.0, &one.1);
    let sampler = args.sampling.sampler();
    let bench = Bench { knowledge: &knowledge, kitchen: &kitchen, sampler: &sampler };
    let no_answer = |text: String| Failure::new(FailureKind::NoAnswer, text);
    let feeds =
        feeds(ingredient, &knowledge, &sampler).map_err(|error| no_answer(error.to_string()))?;
    let none = ValueMap::new();
    let food = knowledge.foods.get(&ingredient.food);
    let of = FoodOf {
        names: food.map(|food| (food.id.as_str(), food.group.as_str())),
        values: food.map_or(&none, |food| &food.values),
        all: food.as_slice(),
    };
    let advice = advise_by(args.taste.prefer(), task, &of, (&feeds, &feeds), &bench)
        .map_err(|error| no_answer(error.to_string()))?;
    let setting = report::routes::Setting {
        knowledge: &knowledge,
        kitchen: &kitchen,
        ingredient,
        why: args.why,
    };
    let document = report::routes::document(&advice, &setting);
    context.report(&document, &report::adapt_json::technique(&advice))?;
    let reached = advice.routes.first().is_some_and(|best| best.score.verdict != Verdict::No);
    Ok(if reached { Outcome::Done } else { Outcome::SaysNo })
}

/// Finds a technique by any of its names.
fn technique(word: &str, knowledge: &Knowledge) -> anyhow::Result<String> {
    let found = knowledge.find(word);
    if let Some(entry) = found.iter().find(|entry| entry.kind == Kind::Technique) {
        return Ok(entry.id.to_owned());
    }
    let names = knowledge.techniques.values().flat_map(|technique| {
        [technique.id.as_str(), technique.name.as_str()]
            .into_iter()
            .chain(technique.synonyms.iter().map(String::as_str))
    });
    let near = crate::finding::nearest(word, names);
    let ids: Vec<&str> = knowledge.techniques.keys().map(String::as_str).collect();
    let hint = match near {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!("techniques: {}", ids.join(", ")),
    };
    Err(Failure::wrong_use(format!("no technique goes by `{word}`")).hint(hint).into())
}

/// Writes the question as a recipe of one step and reads it, so that amounts, foods and targets are
/// understood as in a recipe file.
fn recipe(
    technique: &str,
    args: &RoutesArgs,
    knowledge: &Knowledge,
) -> anyhow::Result<(Ingredient, Professional)> {
    let demo = &knowledge.techniques[technique].demo_food;
    let feed = args.feed.clone().unwrap_or_else(|| format!("{DEMO_AMOUNT} {demo}"));
    let (amount, food) = split_feed(&feed)?;
    let mut targets = String::new();
    for target in &args.to {
        let (attribute, amount) = split_target(target, knowledge);
        targets.push_str(&format!("{attribute} = {}\n", quoted(&amount)));
    }
    let text = format!(
        "title = \"routes\"\n[[ingredient]]\nid = \"feed\"\nfood = {}\namount = {}\n\
         [[step]]\ntechnique = {}\nuses = [\"feed\"]\nmakes = \"product\"\n[step.targets]\n{targets}",
        quoted(&food),
        quoted(&amount),
        quoted(technique),
    );
    let recipe = read(&text, Measures::default(), knowledge)?;
    let step = recipe.steps.into_iter().next();
    let task = step.and_then(|step| match step.task {
        crate::recipe::Task::Professional(task) => Some(task),
        crate::recipe::Task::Plain(_) => None,
    });
    match (recipe.ingredients.into_iter().next(), task) {
        (Some(ingredient), Some(task)) => Ok((ingredient, task)),
        _ => Err(Failure::wrong_use(format!("`{feed}` names no food")).into()),
    }
}

/// Writes a text as TOML does.
fn quoted(text: &str) -> String {
    toml::Value::String(text.to_owned()).to_string()
}

/// Reads a recipe made of what stands on the command line.
fn read(text: &str, measures: Measures, knowledge: &Knowledge) -> anyhow::Result<Recipe> {
    let read = Recipe::read(text, "the command line", knowledge, measures);
    Ok(read.map_err(|findings| {
        let first = findings.first();
        let message = first.map_or_else(String::new, |finding| finding.message.clone());
        let failure = Failure::wrong_use(message);
        match first.and_then(|finding| finding.help.clone()) {
            Some(help) => failure.hint(help),
            None => failure,
        }
    })?)
}

/// Reads the amount of a food, as a recipe file would, as the mass to buy.
pub(super) fn bought(
    amount: &str,
    food: &str,
    measures: Measures,
    knowledge: &Knowledge,
) -> anyhow::Result<Mass> {
    let text = format!(
        "title = \"amount\"\n[[ingredient]]\nid = \"one\"\nfood = {}\namount = {}\n\
         [[step]]\nwork = \"Weigh it.\"\nuses = [\"one\"]\n",
        quoted(food),
        quoted(amount),
    );
    let recipe = read(&text, measures, knowledge)?;
    let first = recipe.ingredients.first().map(|one| one.bought);
    first.ok_or_else(|| Failure::wrong_use(format!("`{amount}` is no amount")).into())
}

/// Splits "2 kg pear juice" into amount and food.
pub(super) fn split_feed(text: &str) -> anyhow::Result<(String, String)> {
    let words: Vec<&str> = text.split_whitespace().collect();
    if let [number, unit, food @ ..] = words.as_slice()
        && !food.is_empty()
    {
        return Ok((format!("{number} {unit}"), food.join(" ")));
    }
    let hint = "write an amount and a food, such as \"2 kg pear juice\"";
    Err(Failure::wrong_use(format!("`{text}` is no amount of a food")).hint(hint).into())
}

/// Splits "largest-particle 10 µm"; a bare strength in °Brix or % ABV names its attribute itself.
fn split_target(text: &str, knowledge: &Knowledge) -> (String, String) {
    if let Some((word, amount)) = text.split_once(' ')
        && knowledge.attributes.contains_key(word)
    {
        return (word.to_owned(), amount.to_owned());
    }
    let attribute = if text.contains("ABV") { "alcohol" } else { "soluble-solids" };
    (attribute.to_owned(), text.to_owned())
}
