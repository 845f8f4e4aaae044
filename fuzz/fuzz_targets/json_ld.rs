//! Any text imported as JSON-LD gives a well-formed recipe file, or a finding that can be shown.

#![no_main]

use libfuzzer_sys::fuzz_target;
use standin::quantity::Measures;
use standin::recipe::Recipe;
use standin::recipe::import::import;

mod shared;

fuzz_target!(|text: &str| {
    match import(text, "fuzz.json", &shared::KNOWLEDGE) {
        Ok(done) => {
            done.text.parse::<toml::Table>().expect("an import is well-formed TOML");
            if let Err(findings) =
                Recipe::read(&done.text, "fuzz.toml", &shared::KNOWLEDGE, Measures::Metric)
            {
                shared::show(&findings, &done.text);
            }
        }
        Err(finding) => shared::show(&[*finding], text),
    }
});
