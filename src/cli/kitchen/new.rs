//! `standin kitchen new`: a kitchen file from a checklist or from options.

use std::io::IsTerminal as _;
use std::path::PathBuf;

use super::checklist;
use crate::cli::Outcome;
use crate::cli::context::Context;
use crate::cli::failure::Failure;
use crate::cli::files;
use crate::kitchen::Kitchen;
use crate::knowledge::{Appliance, Knowledge};
use crate::quantity::{range_text, significant};

/// Make a kitchen file from a checklist, or from options without a terminal
///
/// On a terminal it asks for what the options leave open: type a few letters to find an appliance,
/// press Enter to tick or untick it, and Enter on "done" to go on. What is usual of each appliance is written beside it as a
/// comment, to be replaced by what you measure.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct NewArgs {
    /// File to write
    #[arg(value_name = "FILE")]
    file: PathBuf,

    /// Name of the kitchen
    #[arg(long, value_name = "TEXT")]
    pub(super) name: Option<String>,

    /// Appliance, such as "wide-pan" or "induction-hob:power=2 kW"; can be repeated
    #[arg(long, value_name = "APPLIANCE")]
    pub(super) own: Vec<String>,

    /// Supply on hand; can be repeated
    #[arg(long, value_name = "SUPPLY")]
    pub(super) supply: Vec<String>,

    /// Altitude, such as "120 m"
    #[arg(long, value_name = "LENGTH")]
    pub(super) altitude: Option<String>,

    /// Usual temperature of the room, such as "21 °C"
    #[arg(long, value_name = "TEMPERATURE")]
    room_temperature: Option<String>,

    /// Volume of air in the room, such as "30 m³"
    #[arg(long, value_name = "VOLUME")]
    room_volume: Option<String>,

    /// Temperature of the cold tap water, such as "12 °C"
    #[arg(long, value_name = "TEMPERATURE")]
    tap_water: Option<String>,

    /// Whose cups and spoons: metric, us, uk or australian
    #[arg(long, value_name = "NATION")]
    pub(super) measures: Option<String>,

    /// Allergen, food or group of foods that the eaters avoid; can be repeated
    #[arg(long, value_name = "FOOD")]
    avoid: Vec<String>,

    /// Overwrite the file
    #[arg(long)]
    force: bool,
}

const EXAMPLES: &str = "\
Examples:
  standin kitchen new mine.toml
  standin kitchen new mine.toml --name Mine --altitude \"120 m\" --supply agar \\
    --own induction-hob:power=\"2 kW\" --own wide-pan";

/// An appliance that is owned, with what is stated of it.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Owning {
    /// The appliance.
    pub(super) name: String,
    /// What is stated: names and amounts.
    pub(super) stated: Vec<(String, String)>,
}

/// What the file is to say.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Draft {
    /// Keys with their text, in the order of the file.
    pub(super) facts: Vec<(&'static str, String)>,
    /// Supplies.
    pub(super) supplies: Vec<String>,
    /// What is avoided.
    pub(super) avoid: Vec<String>,
    /// Appliances.
    pub(super) owned: Vec<Owning>,
}

/// Runs the command.
pub(crate) fn run(args: &NewArgs, context: &mut Context<'_>) -> anyhow::Result<Outcome> {
    files::check_output(&args.file, args.force)?;
    let knowledge = context.knowledge()?;
    let mut draft = draft(args)?;
    if args.name.is_none() || args.own.is_empty() {
        if !(std::io::stdin().is_terminal() && std::io::stderr().is_terminal()) {
            return Err(no_terminal(args).into());
        }
        checklist::ask(args, &mut draft, &knowledge)?;
    }
    let text = text(&draft, &knowledge);
    let shown = args.file.display().to_string();
    if let Err(findings) = Kitchen::read(&text, &shown, &knowledge) {
        let all: Vec<String> = findings.iter().map(|finding| finding.render(&text)).collect();
        context.remark(&all.join("\n\n"))?;
        return Err(Failure::wrong_use("the kitchen has faults; nothing was written").into());
    }
    files::write_whole(&args.file, text.as_bytes(), args.force)?;
    context.remark(&format!("wrote {shown}"))?;
    Ok(Outcome::Done)
}

fn no_terminal(args: &NewArgs) -> Failure {
    let missing = match (args.name.is_none(), args.own.is_empty()) {
        (true, true) => "--name and --own",
        (true, false) => "--name",
        _ => "--own",
    };
    let message = format!("there is no terminal to ask on, and {missing} is not given");
    let hint = "pass --name TEXT and --own APPLIANCE for each appliance, such as \
                --own wide-pan --own \"induction-hob:power=2 kW\"";
    Failure::wrong_use(message).hint(hint)
}

fn draft(args: &NewArgs) -> anyhow::Result<Draft> {
    let facts = [
        ("name", &args.name),
        ("altitude", &args.altitude),
        ("room_temperature", &args.room_temperature),
        ("room_volume", &args.room_volume),
        ("tap_water", &args.tap_water),
        ("measures", &args.measures),
    ];
    let facts = facts.into_iter().filter_map(|(key, text)| Some((key, text.clone()?)));
    Ok(Draft {
        facts: facts.collect(),
        supplies: args.supply.clone(),
        avoid: args.avoid.clone(),
        owned: args.own.iter().map(|text| owning(text)).collect::<anyhow::Result<_>>()?,
    })
}

/// Reads "wide-pan" or "induction-hob:power=2 kW,transfer_efficiency=80 %".
fn owning(text: &str) -> anyhow::Result<Owning> {
    let Some((name, stated)) = text.split_once(':') else {
        return Ok(Owning { name: text.trim().to_owned(), stated: Vec::new() });
    };
    let one = |part: &str| match part.split_once('=') {
        Some((key, value)) => Ok((key.trim().to_owned(), unquoted(value).to_owned())),
        None => {
            let hint = "write it as \"induction-hob:power=2 kW\"";
            let message = format!("`{part}` states nothing of `{name}`");
            Err(anyhow::Error::from(Failure::wrong_use(message).hint(hint)))
        }
    };
    let stated = stated.split(',').map(one).collect::<anyhow::Result<_>>()?;
    Ok(Owning { name: name.trim().to_owned(), stated })
}

/// Takes off the quotes that a shell left on.
fn unquoted(text: &str) -> &str {
    text.trim().trim_matches('"')
}

/// Writes the file's text.
fn text(draft: &Draft, knowledge: &Knowledge) -> String {
    let mut text = String::new();
    for (key, value) in &draft.facts {
        text.push_str(&format!("{key} = {}\n", quoted(value)));
    }
    for (key, list) in [("supplies", &draft.supplies), ("avoid", &draft.avoid)] {
        if !list.is_empty() {
            let list: Vec<String> = list.iter().map(|one| quoted(one)).collect();
            text.push_str(&format!("{key} = [{}]\n", list.join(", ")));
        }
    }
    for owned in &draft.owned {
        text.push_str(&format!("\n[appliances.{}]\n", key(&owned.name)));
        for (name, value) in &owned.stated {
            text.push_str(&format!("{} = {}\n", key(name), quoted(value)));
        }
        if let Some(appliance) = knowledge.appliances.get(&owned.name) {
            text.push_str(&usual(appliance, &owned.stated, knowledge));
        }
    }
    text
}

/// Significant digits of usual values.
const DIGITS: u32 = 3;

/// What is usual of an appliance, as comments.
fn usual(appliance: &Appliance, stated: &[(String, String)], knowledge: &Knowledge) -> String {
    let mut text = String::new();
    for (name, value) in &appliance.values {
        let Some(parameter) = knowledge.parameter(name) else { continue };
        if stated.iter().any(|(key, _)| name == key || name.ends_with(&format!("_{key}"))) {
            continue;
        }
        let show = |si| significant(parameter.unit.from_si(si), DIGITS);
        let estimate = &value.estimate;
        let range = range_text(&show(estimate.low()), &show(estimate.high()));
        let amount = format!("{} {}", show(estimate.typical()), parameter.unit.symbol);
        let amount = quoted(amount.trim_end());
        text.push_str(&format!("# {name} = {amount}  # {}; usual: {range}\n", parameter.meaning));
    }
    text
}

fn quoted(text: &str) -> String {
    toml::Value::String(text.to_owned()).to_string()
}

/// A key, in quotes when it is no plain word.
fn key(word: &str) -> String {
    let plain = |c: char| c.is_ascii_alphanumeric() || c == '-' || c == '_';
    if !word.is_empty() && word.chars().all(plain) { word.to_owned() } else { quoted(word) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_appliance_is_read_with_what_is_stated_of_it() {
        let read = owning("wide-pan:diameter=\"28 cm\",volume=4 L").unwrap();
        assert_eq!(read.name, "wide-pan");
        let stated = [("diameter", "28 cm"), ("volume", "4 L")];
        assert_eq!(read.stated, stated.map(|(key, value)| (key.into(), value.into())));
        assert!(owning("wide-pan:28 cm").is_err());
    }

    #[test]
    fn a_name_with_a_space_is_quoted() {
        assert_eq!(key("my pan"), "\"my pan\"");
        assert_eq!(key("wide-pan"), "wide-pan");
    }
}
