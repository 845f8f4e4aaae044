//! Any text read as an amount of any dimension is finite and in order, or an error with words.

#![no_main]

use libfuzzer_sys::fuzz_target;
use standin::quantity::{Dimension, Measures, parse_amount, significant};

fuzz_target!(|text: &str| {
    for dimension in Dimension::ALL {
        for measures in [Measures::Metric, Measures::Us, Measures::Uk, Measures::Australian] {
            match parse_amount(text, dimension, measures) {
                Ok(amount) => {
                    assert!(amount.low.is_finite() && amount.high.is_finite());
                    assert!(amount.low <= amount.high);
                    assert!(!significant(amount.unit.from_si(amount.middle()), 3).is_empty());
                }
                Err(error) => assert!(!error.to_string().is_empty() && !error.help().is_empty()),
            }
        }
    }
});
