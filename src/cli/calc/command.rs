//! The command line of `standin calc`, built from the list of questions.

use std::fmt::Write as _;
use std::path::PathBuf;

use clap::builder::PossibleValuesParser;
use clap::error::ErrorKind;
use clap::{Arg, ArgAction, ArgMatches, Command, value_parser};

use super::{Asked, Inquiry};
use crate::calc::{Family, Input, Kind, Need, Question, find, questions};
use crate::quantity::{Dimension, Measures, units_of};
use crate::report::TextStyle;
use crate::report::table::DEFAULT_WIDTH;
use crate::report::words::{cells, hanging};

/// The subcommand that lists all questions.
const LIST: &str = "list";
const LIST_HELP: &str = "List every question; with --format json, all about it";
const LIST_EXAMPLES: &str = "\
Examples:
  standin calc list
  standin calc list --format json > questions.json";
/// How the overview of all questions ends.
const EXAMPLES: &str = "\
Examples:
  standin calc boil --pressure \"60 mbar\"
  standin calc boil --altitude \"0..4000 step 500 m\" --plot boil.svg
  standin calc core-time --help";
/// The option that draws a curve.
const PLOT: &str = "plot";
/// The option that lets a curve replace a file.
const PLOT_FORCE: &str = "plot-force";
/// The option that chooses what is drawn.
const PLOT_OUTPUT: &str = "plot-output";

/// Tells a shell that the command goes on in the next line.
const LINE_JOINT: &str = " \\";

/// Help of `standin calc`, whose questions stand under the headings of their families.
const HELP: &str =
    "{about-with-newline}\n{usage-heading} {usage}{after-help}\n\nOptions:\n{options}";

/// Arguments of `standin calc`.
#[derive(Debug, Clone)]
pub(crate) struct CalcArgs {
    pub(super) asked: Asked,
}

impl clap::Args for CalcArgs {
    fn augment_args(command: Command) -> Command {
        // Deferred, so that other commands do not pay for the questions at start.
        command.defer(with_questions)
    }

    fn augment_args_for_update(command: Command) -> Command {
        Self::augment_args(command)
    }
}

impl clap::FromArgMatches for CalcArgs {
    fn from_arg_matches(matches: &ArgMatches) -> Result<Self, clap::Error> {
        let missing = || clap::Error::raw(ErrorKind::MissingSubcommand, "no question given\n");
        let (name, matches) = matches.subcommand().ok_or_else(missing)?;
        let asked = match find(name) {
            Some(question) => Asked::One(inquiry(question, matches)),
            None => Asked::List,
        };
        Ok(Self { asked })
    }

    fn update_from_arg_matches(&mut self, matches: &ArgMatches) -> Result<(), clap::Error> {
        *self = Self::from_arg_matches(matches)?;
        Ok(())
    }
}

fn inquiry(question: &'static Question, matches: &ArgMatches) -> Inquiry {
    let text = |input: &'static Input| {
        let written = matches.get_one::<String>(input.name)?;
        Some((input.name, written.clone()))
    };
    Inquiry {
        question,
        inputs: question.inputs.iter().filter_map(text).collect(),
        plot: matches.get_one::<PathBuf>(PLOT).cloned(),
        force: matches.get_flag(PLOT_FORCE),
        plot_output: matches.get_one::<String>(PLOT_OUTPUT).cloned(),
    }
}

fn with_questions(command: Command) -> Command {
    let all = questions();
    let list = Command::new(LIST).about(LIST_HELP).after_help(LIST_EXAMPLES);
    command
        .subcommand_required(true)
        .arg_required_else_help(true)
        .subcommand_value_name("QUESTION")
        .help_template(HELP)
        .after_help(overview(&all))
        .subcommand(list)
        .subcommands(all.iter().map(|question| question_command(question, &all)))
}

/// Lists the questions under the headings of their families.
fn overview(all: &[&Question]) -> String {
    let column = all.iter().map(|question| question.name.len()).max().unwrap_or(0);
    let mut out = String::new();
    for family in Family::ALL {
        let mut members = all.iter().filter(|question| question.family == family).peekable();
        if members.peek().is_some() {
            let _ = writeln!(out, "{}:", family.heading());
            members.for_each(|question| {
                push_entry(&mut out, question.name, question.summary, column);
            });
            out.push('\n');
        }
    }
    out.push_str("Every question:\n");
    push_entry(&mut out, LIST, LIST_HELP, column);
    out.push_str(
        "\nAsk `standin calc QUESTION --help` for its inputs, results and an example.\n\n",
    );
    out + EXAMPLES
}

/// Adds one line of an overview, its text wrapped beside the name.
fn push_entry(out: &mut String, name: &str, text: &str, column: usize) {
    let mark = format!("  {name:column$}  ");
    for line in hanging(&text.into(), &mark, DEFAULT_WIDTH, &TextStyle::default()) {
        out.push_str(&line);
        out.push('\n');
    }
}

/// Returns the other names that lead to a question: a name goes to the first that has it.
fn own_aliases(question: &Question, all: &[&'static Question]) -> Vec<&'static str> {
    let is_own = |alias: &&str| {
        let first = all.iter().find(|other| other.other_names.contains(alias));
        let is_first = first.is_some_and(|first| first.name == question.name);
        is_first && all.iter().all(|other| other.name != *alias)
    };
    question.other_names.iter().copied().filter(is_own).collect()
}

fn question_command(question: &'static Question, all: &[&'static Question]) -> Command {
    let plot = Arg::new(PLOT)
        .long(PLOT)
        .value_name("FILE")
        .value_parser(value_parser!(PathBuf))
        .help_heading("Curve")
        .help("Draw a curve over a ranged input as SVG; `-` is standard output");
    let force = Arg::new(PLOT_FORCE)
        .long(PLOT_FORCE)
        .action(ArgAction::SetTrue)
        .requires(PLOT)
        .help_heading("Curve")
        .help("Let --plot replace an existing file");
    let plot_output = Arg::new(PLOT_OUTPUT)
        .long(PLOT_OUTPUT)
        .value_name("KEY")
        .help_heading("Curve")
        .help("Draw this result instead of the first");
    Command::new(question.name)
        .visible_aliases(own_aliases(question, all))
        .about(question.summary)
        .override_usage(usage(question))
        .after_help(example(question))
        .after_long_help(format!("{}\n\n{}\n\n{RANGES}", results(question), example(question)))
        .next_help_heading("Inputs")
        .args(question.inputs.iter().map(argument))
        .args([plot, plot_output, force])
}

const RANGES: &str = "\
Ranges:
  One amount may be a range, such as \"20..80 step 10 °C\" or \"20..80 °C\";
  the answer is then a table, and --plot draws it.";

/// Writes the example call, cut before its options with the mark by which a shell joins lines.
fn example(question: &Question) -> String {
    let mut out = "Examples:\n".to_owned();
    let mut line = "  standin calc".to_owned();
    let call = question.example.replace(" --", "\n--");
    for part in call.lines() {
        if cells(&line) + 1 + cells(part) > DEFAULT_WIDTH - LINE_JOINT.len() {
            out.push_str(&line);
            out.push_str(LINE_JOINT);
            out.push('\n');
            line = "   ".to_owned();
        }
        line.push(' ');
        line.push_str(part);
    }
    out + &line
}

/// Writes the line of usage, which clap does not wrap.
fn usage(question: &Question) -> String {
    const HEADING: &str = "Usage: ";
    let needed = question.inputs.iter().filter(|input| input.need == Need::Required);
    // A space within an option would let it be torn apart.
    let needed = needed.map(|input| format!("--{}\u{a0}<{}>", input.name, value_name(input)));
    let words: Vec<String> = needed.map(|option| option.replace(' ', "\u{a0}")).collect();
    let text = format!("standin calc {} [OPTIONS] {}", question.name, words.join(" "));
    let lines = hanging(&text.trim_end().into(), HEADING, DEFAULT_WIDTH, &TextStyle::default());
    lines.join("\n").trim_start_matches(HEADING).replace('\u{a0}', " ")
}

fn results(question: &Question) -> String {
    let column = question.outputs.iter().map(|output| output.key.len()).max().unwrap_or(0);
    let mut out = "Results:".to_owned();
    for output in question.outputs {
        let _ = write!(out, "\n  {:column$}  {}", output.key, output.label);
        if !output.unit.is_empty() {
            let _ = write!(out, " [{}]", output.unit);
        }
    }
    out
}

fn argument(input: &'static Input) -> Arg {
    let argument = Arg::new(input.name)
        .long(input.name)
        .help(input.help)
        .allow_hyphen_values(true)
        .required(input.need == Need::Required);
    let argument = match input.need {
        Need::Default(text) => argument.default_value(text),
        Need::Required | Need::Optional => argument,
    };
    let argument = argument.value_name(value_name(input));
    match input.kind {
        Kind::Amount(dimension) => {
            argument.long_help(format!("{}\n\n{}", input.help, units(dimension)))
        }
        Kind::Choice(words) => argument.value_parser(PossibleValuesParser::new(words)),
        Kind::Text => argument,
    }
}

/// Returns what stands for the value of an input in a help text.
fn value_name(input: &Input) -> String {
    match input.kind {
        Kind::Amount(dimension) => dimension.word().to_uppercase(),
        Kind::Choice(_) => "WORD".to_owned(),
        Kind::Text => "TEXT".to_owned(),
    }
}

/// Says in which units an amount may be written.
fn units(dimension: Dimension) -> String {
    let symbols: Vec<&str> = units_of(dimension, Measures::default())
        .map(|unit| if unit.symbol.is_empty() { "a bare number" } else { unit.symbol })
        .collect();
    format!("Units: {}", symbols.join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_question_takes_the_name_of_an_option() {
        let taken = ["format", "columns", "colour", "ascii", "linear", "knowledge", "help"];
        for question in questions() {
            for input in question.inputs {
                let name = input.name;
                let own = [PLOT, PLOT_OUTPUT, PLOT_FORCE].contains(&name) || taken.contains(&name);
                assert!(!own, "{}: input `{name}` is an option of the program", question.name);
            }
        }
    }

    #[test]
    fn no_two_questions_share_a_name() {
        let all = questions();
        let mut names: Vec<&str> =
            all.iter().flat_map(|q| q.other_names.iter().copied().chain([q.name])).collect();
        names.sort_unstable();
        let twice = names.windows(2).find(|pair| pair[0] == pair[1]);
        assert_eq!(twice, None);
        assert!(!names.contains(&LIST));
    }
}
