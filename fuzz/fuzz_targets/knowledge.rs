//! Any text read as knowledge is linked and linted to findings that can be shown.

#![no_main]

use libfuzzer_sys::fuzz_target;
use standin::knowledge::load::File;
use standin::knowledge::{Knowledge, Layer};

mod shared;

fuzz_target!(|text: &str| {
    let file = File { path: "fuzz.toml".to_owned(), text: text.to_owned() };
    let layer = Layer { name: "fuzz".to_owned(), files: vec![file] };
    shared::show(&Knowledge::check(&[layer]), text);
});
