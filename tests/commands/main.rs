//! The commands through the binary, a module for each.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first fault")]

use std::process::{Command, Output};

mod adapt;
mod calc;
mod check;
mod kitchen;
mod survey;

/// What a run of the program left behind.
struct Run {
    code: Option<i32>,
    out: String,
    errors: String,
}

/// Runs the program with plain surroundings.
fn standin<S: AsRef<str>>(arguments: &[S]) -> Run {
    finish(command(arguments).output().unwrap())
}

fn command<S: AsRef<str>>(arguments: &[S]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_standin"));
    command.args(arguments.iter().map(AsRef::as_ref));
    command.env_remove("NO_COLOR").env_remove("RUST_BACKTRACE").env("TERM", "dumb");
    command
}

fn finish(output: Output) -> Run {
    Run {
        code: output.status.code(),
        out: String::from_utf8(output.stdout).unwrap(),
        errors: String::from_utf8(output.stderr).unwrap(),
    }
}

/// Cuts a line as a shell does, with double quotes.
fn words(line: &str) -> Vec<String> {
    let parts = line.split('"').enumerate();
    let mut words = vec![String::new()];
    for (index, part) in parts {
        let quoted = index % 2 == 1;
        for (count, piece) in part.split(if quoted { '\0' } else { ' ' }).enumerate() {
            if count > 0 {
                words.push(String::new());
            }
            words.last_mut().unwrap().push_str(piece);
        }
    }
    words.retain(|word| !word.is_empty());
    words
}

#[test]
fn a_line_is_cut_as_a_shell_does() {
    assert_eq!(words(r#"calc a --b "1 kg" --c=2"#), ["calc", "a", "--b", "1 kg", "--c=2"]);
}

#[test]
fn the_version_and_the_help_go_to_standard_output() {
    let version = standin(&["--version"]);
    assert_eq!(version.out, format!("standin {}\n", env!("CARGO_PKG_VERSION")));
    let help = standin(&["--help"]);
    assert_eq!(help.code, Some(0));
    assert!(help.out.contains("Usage: standin") && help.errors.is_empty());
}

#[test]
fn wrong_use_is_exit_code_two() {
    let run = standin(&["clac"]);
    assert_eq!(run.code, Some(2));
    assert!(run.errors.contains("'calc'"), "{}", run.errors);
    assert_eq!(standin::<&str>(&[]).code, Some(2));
}

#[test]
#[cfg(unix)]
fn a_reader_that_leaves_early_is_no_error() {
    use std::process::Stdio;
    let mut command = command(&["calc", "list", "--format", "json"]);
    let mut child = command.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    drop(child.stdout.take());
    let run = finish(child.wait_with_output().unwrap());
    assert_eq!(run.code, Some(0), "{}", run.errors);
    assert!(run.errors.is_empty(), "{}", run.errors);
}
