//! What makes the program easy to pick up: schemas, completions, manual pages, help, exchange.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first fault")]

use std::process::{Command, Output};

mod help;
mod json_ld;
mod mutations;
mod names;
mod pages;
mod schema;
#[cfg(unix)]
mod terminal;

/// Runs the program from the root of the project with plain surroundings.
fn standin(arguments: &[&str]) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_standin"));
    command.args(arguments).current_dir(env!("CARGO_MANIFEST_DIR"));
    command.env_remove("NO_COLOR").env_remove("RUST_BACKTRACE").env("TERM", "dumb");
    command.output().unwrap()
}

/// Runs the program, which must succeed, and returns its standard output.
fn printed(arguments: &[&str]) -> String {
    let output = standin(arguments);
    let errors = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(0), "{arguments:?}: {errors}");
    String::from_utf8(output.stdout).unwrap()
}
