//! Any text read as a kitchen gives a kitchen or findings that can be shown.

#![no_main]

use libfuzzer_sys::fuzz_target;
use standin::kitchen::Kitchen;

mod shared;

fuzz_target!(|text: &str| {
    if let Err(findings) = Kitchen::read(text, "fuzz.toml", &shared::KNOWLEDGE) {
        shared::show(&findings, text);
    }
});
