//! Any text read as a recipe gives a recipe or findings that can be shown.

#![no_main]

use libfuzzer_sys::fuzz_target;
use standin::quantity::Measures;
use standin::recipe::Recipe;

mod shared;

fuzz_target!(|text: &str| {
    if let Err(findings) = Recipe::read(text, "fuzz.toml", &shared::KNOWLEDGE, Measures::Uk) {
        shared::show(&findings, text);
    }
});
