//! The command line: one file per command; the only room that prints or exits.
//!
//! Results go to standard output, remarks and errors to standard error. A command is a file with an
//! `Args` struct and a `run(&args, &mut context) -> anyhow::Result<Outcome>`, named in `Command`.

use std::ffi::OsString;
use std::io::{self, IsTerminal, Write};
use std::process::ExitCode;

use clap::{CommandFactory as _, Parser, Subcommand};

mod adapt;
mod calc;
mod check;
mod completions;
pub mod context;
mod export;
pub mod failure;
mod files;
mod hazards;
mod import;
mod kitchen;
mod lint;
mod man;
mod mislaid;
mod notes;
mod output;
mod panel;
mod routes;
mod schema;
mod show;
mod stop;
mod survey;
mod timing;
mod trial;
mod wishes;

use context::{Context, Format, SharedArgs, Surroundings};
pub use failure::{Failure, FailureKind};

/// The name of the program.
const NAME: &str = env!("CARGO_PKG_NAME");
/// The widest help text, also on a wide terminal and in a pipe: common practice.
const HELP_WIDTH: usize = 80;
/// Exit code for wrong use, unreadable input, or conditions for which there is no number.
const EXIT_FAILURE: u8 = 2;

/// Turn the laboratory steps of a professional recipe into home routes
///
/// The laboratory method and each home route are run through the same process models on the same
/// food; the quality that is lost is the difference between the two.
#[derive(Debug, Parser)]
#[command(name = NAME, version, after_help = EXAMPLES, max_term_width = HELP_WIDTH)]
struct Cli {
    #[command(flatten)]
    shared: SharedArgs,
    #[command(subcommand)]
    command: Command,
}

const EXAMPLES: &str = "\
Examples:
  standin adapt examples/pear-treacle.toml --kitchen examples/tiny-flat.toml
  standin survey examples/book
  standin show rotary evaporation
  standin calc boil --pressure \"60 mbar\"

Exit codes:
  0  done
  1  a result that says no
  2  wrong use, input that cannot be read, or no answer";

/// The commands.
#[derive(Debug, Subcommand)]
enum Command {
    Adapt(adapt::AdaptArgs),
    Routes(routes::RoutesArgs),
    Check(check::CheckArgs),
    Survey(survey::SurveyArgs),
    Notes(notes::NotesArgs),
    Kitchen(kitchen::KitchenArgs),
    Show(show::ShowArgs),
    Hazards(hazards::HazardsArgs),
    Lint(lint::LintArgs),
    Trial(trial::TrialArgs),
    Panel(panel::PanelArgs),
    /// Ask the physics alone: boiling points, settling times, lethality, cooling and more
    Calc(calc::CalcArgs),
    Import(import::ImportArgs),
    Export(export::ExportArgs),
    Schema(schema::SchemaArgs),
    Completions(completions::CompletionsArgs),
    Man(man::ManArgs),
}

/// What a command that ran to its end has to say.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// It is done: exit code 0.
    Done,
    /// The result says no: exit code 1.
    SaysNo,
}

impl From<Outcome> for ExitCode {
    fn from(outcome: Outcome) -> Self {
        match outcome {
            Outcome::Done => Self::from(0),
            Outcome::SaysNo => Self::from(1),
        }
    }
}

/// Runs the program with the given arguments, the first being its own name.
pub fn run(arguments: impl IntoIterator<Item = OsString>) -> ExitCode {
    let cli = match Cli::try_parse_from(arguments) {
        Ok(cli) => cli,
        Err(error) => return show_clap_error(&calc::with_nearest(error)),
    };
    let (stdout, stderr) = (io::stdout(), io::stderr());
    let (no_colour, terminal_name) = (std::env::var_os("NO_COLOR"), std::env::var_os("TERM"));
    let around = Surroundings {
        terminal_width: terminal_width(&stdout),
        no_colour: no_colour.as_deref(),
        terminal_name: terminal_name.as_deref(),
    };
    let mut out = io::BufWriter::new(stdout.lock());
    let mut context = Context {
        format: cli.shared.format,
        style: cli.shared.text_style(around),
        out: &mut out,
        remarks: &mut stderr.lock(),
        knowledge_folder: cli.shared.knowledge,
    };
    let result = dispatch(&cli.command, &mut context);
    let result = result.and_then(|outcome| Ok(out.flush().map(|()| outcome)?));
    result.map_or_else(|error| show_failure(&error), ExitCode::from)
}

fn dispatch(command: &Command, context: &mut Context<'_>) -> anyhow::Result<Outcome> {
    if context.format == Format::Docx && !matches!(command, Command::Notes(_)) {
        return Err(Failure::docx_elsewhere().into());
    }
    match command {
        Command::Adapt(args) => adapt::run(args, context),
        Command::Routes(args) => routes::run(args, context),
        Command::Check(args) => check::run(args, context),
        Command::Survey(args) => survey::run(args, context),
        Command::Notes(args) => notes::run(args, context),
        Command::Kitchen(args) => kitchen::run(args, context),
        Command::Show(args) => show::run(args, context),
        Command::Hazards(args) => hazards::run(args, context),
        Command::Lint(args) => lint::run(args, context),
        Command::Trial(args) => trial::run(args, context),
        Command::Panel(args) => panel::run(args, context),
        Command::Calc(args) => calc::run(args, context),
        Command::Import(args) => import::run(args, context),
        Command::Export(args) => export::run(args, context),
        Command::Schema(args) => schema::run(args, context),
        Command::Completions(args) => completions::run(args, context),
        Command::Man(args) => man::run(args, context),
    }
}

/// Returns the columns of the terminal at a stream; `None` when it is not one.
#[cfg(unix)]
fn terminal_width(stream: &(impl IsTerminal + std::os::fd::AsFd)) -> Option<u16> {
    let size = || terminal_size::terminal_size_of(stream);
    stream.is_terminal().then(|| size().map_or(DEFAULT_WIDTH, |(width, _)| width.0))
}

/// Returns the columns of the terminal at a stream; `None` when it is not one.
#[cfg(windows)]
fn terminal_width(stream: &(impl IsTerminal + std::os::windows::io::AsHandle)) -> Option<u16> {
    let size = || terminal_size::terminal_size_of(stream);
    stream.is_terminal().then(|| size().map_or(DEFAULT_WIDTH, |(width, _)| width.0))
}

/// The columns of a terminal that does not say how wide it is: common practice.
const DEFAULT_WIDTH: u16 = 80;

/// The widest message of an error on a terminal: longer lines are hard to read.
const WIDEST_MESSAGE: u16 = 100;

/// Shows help, the version or a fault in the arguments, with the exit code that goes with it.
fn show_clap_error(error: &clap::Error) -> ExitCode {
    match error.print() {
        Err(fault) if fault.kind() != io::ErrorKind::BrokenPipe => ExitCode::from(EXIT_FAILURE),
        _ => ExitCode::from(u8::try_from(error.exit_code()).unwrap_or(EXIT_FAILURE)),
    }
}

/// Shows an error; a reader that has gone is none.
fn show_failure(error: &anyhow::Error) -> ExitCode {
    if failure::is_broken_pipe(error) {
        return ExitCode::SUCCESS;
    }
    if stop::is_stop(error) {
        return ExitCode::from(stop::say_so());
    }
    // Nothing is left to be done when standard error cannot be written to.
    let mut stderr = io::stderr().lock();
    let width = terminal_width(&stderr).map(|width| usize::from(width.min(WIDEST_MESSAGE)));
    let _ = failure::write_failure(error, width, &mut stderr);
    ExitCode::from(EXIT_FAILURE)
}

/// Returns the whole command line as clap knows it, for completions and manual pages.
pub fn command() -> clap::Command {
    Cli::command()
}
