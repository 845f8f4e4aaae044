//! The `standin` command.

fn main() {}
