//! Asking questions with numbers put into their text.

use standin::calc::{self, Answer, CalcError, Question};

/// Asks with inputs written as `name = amount; name = amount`.
pub fn try_ask(question: &str, given: &str) -> Result<Answer, CalcError> {
    let found: &Question = calc::find(question).unwrap_or_else(|| panic!("no `{question}`"));
    let inputs: Vec<(&str, &str)> = given
        .split(';')
        .filter(|part| !part.trim().is_empty())
        .map(|part| part.split_once('=').unwrap_or_else(|| panic!("`{part}` of `{given}`")))
        .map(|(name, text)| (name.trim(), text.trim()))
        .collect();
    found.ask(&inputs)
}

/// One output of a question that must be answered.
pub fn ask(question: &str, given: &str, output: &str) -> f64 {
    let answer = try_ask(question, given).unwrap_or_else(|e| panic!("{question} ({given}): {e}"));
    answer.get(output).unwrap_or_else(|| panic!("{question} ({given}) gives no `{output}`"))
}

/// Whether two numbers agree within a share of the larger.
pub fn agree(a: f64, b: f64, share: f64) -> bool {
    (a - b).abs() <= share * a.abs().max(b.abs())
}

/// Panics unless two numbers agree within a share of the larger, or within `floor`.
pub fn assert_close(what: &str, found: f64, expected: f64, share: f64, floor: f64) {
    let close = agree(found, expected, share) || (found - expected).abs() <= floor;
    assert!(close, "{what}: {found} instead of {expected}");
}

/// Numbers from `low` to `high`, evenly spaced.
pub fn evenly(low: f64, high: f64, count: u32) -> impl Iterator<Item = f64> {
    (0..=count).map(move |i| low + (high - low) * f64::from(i) / f64::from(count))
}

/// Numbers from `low` to `high`, each the same factor above the one before.
pub fn by_factor(low: f64, high: f64, count: u32) -> impl Iterator<Item = f64> {
    evenly(low.ln(), high.ln(), count).map(f64::exp)
}

/// Repeatable draws: the splitmix64 generator of Steele, Lea & Flood 2014.
pub struct Draws(pub u64);

impl Draws {
    fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// A number from 0 up to 1.
    pub fn share(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// A number between two ends.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.share()
    }

    /// A number between two ends above zero, spread over their decades.
    pub fn over_decades(&mut self, low: f64, high: f64) -> f64 {
        self.between(low.ln(), high.ln()).exp()
    }

    /// True in this share of the draws.
    pub fn chance(&mut self, share: f64) -> bool {
        self.share() < share
    }

    /// One of a list.
    pub fn pick<'a, T>(&mut self, list: &'a [T]) -> &'a T {
        &list[(self.share() * list.len() as f64) as usize]
    }
}
