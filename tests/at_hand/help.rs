//! What the help texts promise.

use std::fs;
use std::path::Path;
use std::process::{Command, Output, Stdio};

use rayon::prelude::*;

use super::printed;

/// The widest line of a help text.
const WIDEST_HELP: usize = 80;
/// The heading above the examples of a help text.
const HEADING: &str = "Examples:";
/// Examples that ask on a terminal, which a test does not have.
pub const ASKING: [&str; 2] = [
    "standin kitchen new mine.toml",
    "standin trial add pear-treacle --kitchen tiny-flat --book examples/book",
];
/// Examples whose result says no, and is meant to: one recipe of the book is beyond this kitchen.
const SAYING_NO: [&str; 1] =
    ["standin check examples/book/recipes --kitchen examples/keen-cook.toml --missing"];

/// A command with its help.
struct Help {
    /// The words that lead to it.
    path: Vec<String>,
    /// Whether no command lies below.
    is_leaf: bool,
    text: String,
}

impl Help {
    fn name(&self) -> String {
        self.path.join(" ")
    }

    /// Returns the examples, each in one line.
    fn examples(&self) -> Vec<String> {
        let after = self.text.lines().skip_while(|line| *line != HEADING).skip(1);
        let block: Vec<&str> = after.take_while(|line| line.starts_with("  ")).collect();
        let joined = block.join("\n").replace(" \\\n   ", "");
        joined.lines().map(|line| line.trim_start().to_owned()).collect()
    }
}

/// Every command and every command below it, with its help.
fn helps() -> Vec<Help> {
    let mut program = standin::cli::command();
    program.build();
    let mut paths = Vec::new();
    collect(&program, &[], &mut paths);
    let with_help = |(path, is_leaf): (Vec<String>, bool)| {
        let arguments: Vec<&str> = path.iter().map(String::as_str).chain(["--help"]).collect();
        Help { text: printed(&arguments), path, is_leaf }
    };
    paths.into_par_iter().map(with_help).collect()
}

fn collect(command: &clap::Command, path: &[String], found: &mut Vec<(Vec<String>, bool)>) {
    let below: Vec<_> = command.get_subcommands().filter(|one| one.get_name() != "help").collect();
    found.push((path.to_vec(), below.is_empty()));
    for one in below {
        collect(one, &[path, &[one.get_name().to_owned()]].concat(), found);
    }
}

/// Copies a folder; links stay links.
fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap() {
        let (path, kind) = entry.map(|entry| (entry.path(), entry.file_type().unwrap())).unwrap();
        let place = to.join(path.file_name().unwrap());
        if kind.is_dir() {
            copy(&path, &place);
        } else if kind.is_symlink() {
            #[cfg(unix)]
            std::os::unix::fs::symlink(fs::read_link(&path).unwrap(), &place).unwrap();
        } else {
            fs::copy(&path, &place).unwrap();
        }
    }
}

/// Runs a line as someone types it into a shell, in a clone of their own.
#[cfg(unix)]
pub fn typed(line: &str) -> Output {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let folder = tempfile::tempdir().unwrap();
    let (clone, home) = (folder.path().join("clone"), folder.path().join("home"));
    copy(&root.join("examples"), &clone.join("examples"));
    std::os::unix::fs::symlink(root.join("knowledge"), clone.join("knowledge")).unwrap();
    for name in [".local/share/bash-completion/completions", ".zfunc"] {
        fs::create_dir_all(home.join(name)).unwrap();
    }
    let program = Path::new(env!("CARGO_BIN_EXE_standin")).parent().unwrap();
    let path = format!("{}:{}", program.display(), std::env::var("PATH").unwrap());
    let mut shell = Command::new("sh");
    shell.args(["-c", line]).current_dir(clone).env("HOME", home).env("PATH", path);
    shell.env("TERM", "dumb").stdin(Stdio::null()).output().unwrap()
}

/// Every example of every help text, once.
pub fn examples() -> Vec<String> {
    let mut lines: Vec<String> = helps().iter().flat_map(Help::examples).collect();
    lines.sort();
    lines.dedup();
    lines
}

#[test]
fn every_command_has_examples_of_itself_and_help_within_eighty_columns() {
    let helps = helps();
    assert!(helps.len() >= 100, "only {} commands", helps.len());
    let mut faults = Vec::new();
    for help in &helps {
        let name = help.name();
        let examples = help.examples();
        if examples.is_empty() {
            faults.push(format!("`{name}` has no examples"));
        }
        let start = if help.is_leaf { format!("standin {name}") } else { "standin ".to_owned() };
        let foreign = examples.iter().filter(|example| !example.starts_with(&start));
        faults.extend(foreign.map(|example| format!("`{name}` has a strange example: {example}")));
        let wide = |line: &&str| unicode_width::UnicodeWidthStr::width(*line) > WIDEST_HELP;
        faults.extend(help.text.lines().filter(wide).map(|line| format!("`{name}`: {line}")));
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
#[cfg(unix)]
fn every_example_of_every_help_text_runs_in_a_clone() {
    let lines = examples();
    assert!(lines.len() >= 100, "only {} examples", lines.len());
    let fault = |line: &String| {
        let run = typed(line);
        let said = String::from_utf8_lossy(&run.stderr);
        let expected = match line.as_str() {
            asking if ASKING.contains(&asking) && said.contains("terminal") => 2,
            saying_no if SAYING_NO.contains(&saying_no) => 1,
            _ => 0,
        };
        let code = run.status.code();
        (code != Some(expected)).then(|| format!("{line}\nended with {code:?}: {said}"))
    };
    let faults: Vec<String> = lines.par_iter().filter_map(fault).collect();
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}
