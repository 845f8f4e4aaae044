//! The `standin` command.

use std::process::ExitCode;

fn main() -> ExitCode {
    standin::cli::run(std::env::args_os())
}
