//! `standin trial add`: write a new record.

use std::collections::BTreeMap;
use std::path::PathBuf;

use clap::ValueEnum;
use toml::value::Datetime;

use super::ask::{Ask, Terminal};
use super::interview::{self, Open};
use super::{check, named, open, pair, refused};
use crate::book::Shelf;
use crate::cli::Outcome;
use crate::cli::context::Context;
use crate::cli::failure::{Failure, FailureKind};
use crate::knowledge::written::{Spanned, Text};
use crate::reader::load_text;
use crate::trial::amend::VERDICTS;
use crate::trial::written::{
    Purpose, Verdict, WrittenActual, WrittenConditions, WrittenMeasuredStep, WrittenSensory,
    WrittenTrial,
};
use crate::trial::{Store, fingerprint};

/// Record a trial
///
/// What the options leave open is asked for when a terminal is there. A value that is hard to believe
/// is asked about and then kept, never dropped.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub(super) struct AddArgs {
    /// Recipe of the book, by id or path
    #[arg(value_name = "RECIPE")]
    recipe: String,

    /// Kitchen of the book, by id or path
    #[arg(long, value_name = "KITCHEN")]
    kitchen: String,

    /// Folder of the book
    #[arg(long, value_name = "DIR", default_value = ".")]
    book: PathBuf,

    /// Code of the tester, not a name
    #[arg(long, value_name = "CODE")]
    tester: Option<String>,

    /// What came of it: pass, pass-with-note, retest, fail or discarded
    #[arg(long, value_name = "VERDICT", value_parser = verdict)]
    verdict: Option<Verdict>,

    /// When it began, such as 2026-03-04T10:30:00+01:00 [default: now]
    #[arg(long, value_name = "DATE-TIME")]
    start: Option<String>,

    /// Why: explore, repeat, cross, home or sensory
    #[arg(long, value_name = "PURPOSE", value_enum, default_value = "explore")]
    #[arg(hide_possible_values = true)]
    purpose: Why,

    /// Version of the recipe's text, as the team counts
    #[arg(long, value_name = "VERSION")]
    recipe_version: Option<String>,

    /// What went in, by id of the ingredient: "juice=500 g"
    #[arg(long, value_name = "ID=AMOUNT", value_parser = pair)]
    ingredient: Vec<(String, String)>,

    /// What a step gave: "<makes>; route=…; time=…; mass_in=…; mass_out=…; <attribute>=…"
    #[arg(long, value_name = "STEP", value_parser = step)]
    step: Vec<WrittenMeasuredStep>,

    /// The room: altitude, pressure, room_temperature, room_humidity, water_boils_at
    #[arg(long, value_name = "KEY=VALUE", value_parser = pair)]
    condition: Vec<(String, String)>,

    /// What was measured with: "scale=5 kg in steps of 1 g"
    #[arg(long, value_name = "KEY=TEXT", value_parser = pair)]
    instrument: Vec<(String, String)>,

    /// A score from 1, dislike extremely, to 9, like extremely: "colour=7"
    #[arg(long, value_name = "WHAT=SCORE", value_parser = pair)]
    score: Vec<(String, String)>,

    /// Number of the cause of what went wrong
    #[arg(long, value_name = "NUMBER")]
    cause: Option<i64>,

    /// What should be changed in the recipe
    #[arg(long, value_name = "TEXT")]
    change: Option<String>,

    /// What else is to be known
    #[arg(long, value_name = "TEXT")]
    note: Option<String>,

    /// Keep values that are hard to believe without being asked
    #[arg(long)]
    yes: bool,
}

const EXAMPLES: &str = "\
Examples:
  standin trial add pear-treacle --kitchen tiny-flat --book examples/book
  standin trial add pear-treacle --kitchen tiny-flat --book examples/book \\
    --tester JD --verdict pass --ingredient \"juice=500 g\" \\
    --step \"treacle; route=wide-pan-boil; time=20 min; mass_out=101 g\"";

/// The purposes, as options.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Why {
    /// To find out
    Explore,
    /// To repeat the frozen text
    Repeat,
    /// To repeat it in another kitchen
    Cross,
    /// To see whether a reader manages from the page
    Home,
    /// To have it tasted
    Sensory,
}

impl From<Why> for Purpose {
    fn from(why: Why) -> Self {
        match why {
            Why::Explore => Self::Explore,
            Why::Repeat => Self::Repeat,
            Why::Cross => Self::Cross,
            Why::Home => Self::Home,
            Why::Sensory => Self::Sensory,
        }
    }
}

fn verdict(word: &str) -> Result<Verdict, String> {
    let found = VERDICTS.iter().find(|(known, _)| *known == word);
    found
        .map(|(_, verdict)| *verdict)
        .ok_or_else(|| format!("accepted: {}", VERDICTS.map(|(known, _)| known).join(", ")))
}

pub(super) fn text(words: impl Into<String>) -> Text {
    Spanned::new(0..0, words.into())
}

/// Reads "treacle; route=wide-pan-boil; time=46 min".
fn step(written: &str) -> Result<WrittenMeasuredStep, String> {
    let mut parts = written.split(';').map(str::trim);
    let makes = parts.next().filter(|makes| !makes.is_empty() && !makes.contains('='));
    let makes = makes.ok_or_else(|| "begin with what the step makes".to_owned())?;
    let mut step = empty_step(makes);
    for part in parts.filter(|part| !part.is_empty()) {
        let (key, value) = pair(part)?;
        put(&mut step, &key, value);
    }
    Ok(step)
}

pub(super) fn empty_step(makes: &str) -> WrittenMeasuredStep {
    WrittenMeasuredStep {
        makes: text(makes),
        route: None,
        time: None,
        hands_on: None,
        mass_in: None,
        mass_out: None,
        endpoint: None,
        deviation: None,
        measured: BTreeMap::new(),
        reading: Vec::new(),
    }
}

pub(super) fn put(step: &mut WrittenMeasuredStep, key: &str, value: String) {
    let place = match key {
        "route" => &mut step.route,
        "time" => &mut step.time,
        "hands_on" => &mut step.hands_on,
        "mass_in" => &mut step.mass_in,
        "mass_out" => &mut step.mass_out,
        "deviation" => {
            step.deviation = Some(value);
            return;
        }
        attribute => {
            step.measured.insert(text(attribute), text(value));
            return;
        }
    };
    *place = Some(text(value));
}

/// Reads a date and time, or takes the clock's with the offset of this computer.
pub(super) fn clock(given: Option<&str>) -> anyhow::Result<Datetime> {
    let now = || jiff::ZonedDateTime::now().strftime("%Y-%m-%dT%H:%M:%S%:z").to_string();
    let written = given.map_or_else(now, str::to_owned);
    written.parse().map_err(|_| {
        let message = format!("`{written}` is not a date, or a date and time");
        Failure::wrong_use(message).hint("such as 2026-03-04T10:30:00+01:00").into()
    })
}

/// Runs the command.
pub(super) fn run(args: &AddArgs, context: &mut Context<'_>) -> anyhow::Result<Outcome> {
    let knowledge = context.knowledge()?;
    let book = open(&args.book, context)?;
    let (recipe, recipe_path) = named(&book, Shelf::Recipes, &args.recipe)?;
    let (kitchen, kitchen_path) = named(&book, Shelf::Kitchens, &args.kitchen)?;
    let mut record = record(args, recipe, kitchen)?;
    let recipe_text = load_text(&recipe_path).map_err(|fault| {
        Failure::new(FailureKind::File, format!("{}: {}", fault.file, fault.message))
    })?;
    record.recipe_sha256 = Some(text(fingerprint(&recipe_text)));
    let mut terminal = Terminal::here();
    let open = Open {
        tester: args.tester.is_none(),
        verdict: args.verdict.is_none(),
        step: args.step.is_empty(),
    };
    let measurable = interview::measurable(&recipe_path, &kitchen_path, &knowledge);
    let ask = terminal.as_mut().map(|one| one as &mut dyn Ask);
    interview::complete(open, &mut record, &measurable, ask)?;
    let files = check::Files { recipe: &recipe_path, kitchen: &kitchen_path };
    let doubtful = check::doubts(&record, &files, &knowledge, context)?;
    if doubtful && !args.yes {
        let kept = match terminal.as_mut() {
            Some(terminal) => terminal.yes("Keep these values as measured?")?,
            None => false,
        };
        if !kept {
            let failure =
                Failure::wrong_use("some values are hard to believe; nothing was written");
            return Err(failure.hint("correct them, or add --yes to keep them").into());
        }
    }
    let (id, path) = Store::new(&book).add(record).map_err(|error| refused(error, context))?;
    writeln!(context.out, "{id}")?;
    context.remark(&format!("written to {}", path.display()))?;
    Ok(Outcome::Done)
}

/// Puts the options together.
fn record(args: &AddArgs, recipe: String, kitchen: String) -> anyhow::Result<WrittenTrial> {
    let actual = |(id, amount): &(String, String)| WrittenActual {
        id: text(id),
        actual: text(amount),
        lot: None,
        instead: None,
        brix: None,
        ph: None,
    };
    Ok(WrittenTrial {
        id: text("T-00"),
        recipe: text(recipe),
        recipe_version: args.recipe_version.as_deref().map(text),
        recipe_sha256: None,
        kitchen: text(kitchen),
        start: Spanned::new(0..0, clock(args.start.as_deref())?),
        tester: text(args.tester.clone().unwrap_or_default()),
        purpose: args.purpose.into(),
        verdict: args.verdict.unwrap_or(Verdict::Retest),
        cause: args.cause.map(|number| Spanned::new(0..0, number)),
        change: args.change.clone(),
        note: args.note.clone(),
        conditions: conditions(&args.condition)?,
        instruments: args.instrument.iter().cloned().collect(),
        ingredient: args.ingredient.iter().map(actual).collect(),
        step: args.step.clone(),
        sensory: sensory(&args.score)?,
        amendment: Vec::new(),
    })
}

fn conditions(given: &[(String, String)]) -> anyhow::Result<WrittenConditions> {
    let mut conditions = WrittenConditions::default();
    for (key, value) in given {
        let place = match key.as_str() {
            "altitude" => &mut conditions.altitude,
            "pressure" => &mut conditions.pressure,
            "room_temperature" => &mut conditions.room_temperature,
            "room_humidity" => &mut conditions.room_humidity,
            "water_boils_at" => &mut conditions.water_boils_at,
            other => {
                let known = "altitude, pressure, room_temperature, room_humidity, water_boils_at";
                let failure = Failure::wrong_use(format!("there is no condition `{other}`"));
                return Err(failure.hint(format!("accepted: {known}")).into());
            }
        };
        *place = Some(text(value));
    }
    Ok(conditions)
}

fn sensory(scores: &[(String, String)]) -> anyhow::Result<Option<WrittenSensory>> {
    if scores.is_empty() {
        return Ok(None);
    }
    let mut read = BTreeMap::new();
    for (what, score) in scores {
        let number: i64 = score.parse().map_err(|_| {
            Failure::wrong_use(format!("`{score}` is not a whole number from 1 to 9"))
        })?;
        read.insert(text(what), Spanned::new(0..0, number));
    }
    Ok(Some(WrittenSensory { tasted: true, note: None, scores: read }))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_step_is_read_from_one_option() {
        let step = step("treacle; time=46 min; soluble-solids=58 °Brix;").unwrap();
        assert_eq!(step.makes.get_ref(), "treacle");
        assert_eq!(step.measured.len(), 1);
        assert!(super::step("time=46 min").is_err());
        assert!(super::step("treacle; soon").is_err());
    }
}
