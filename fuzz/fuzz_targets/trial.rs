//! Any text read as a record of a trial gives a trial or findings that can be shown.

#![no_main]

use libfuzzer_sys::fuzz_target;
use standin::trial::Trial;

mod shared;

fuzz_target!(|text: &str| {
    match Trial::read(text, "fuzz.toml", &shared::KNOWLEDGE) {
        Ok(read) => shared::show(&read.questions, text),
        Err(findings) => shared::show(&findings, text),
    }
});
