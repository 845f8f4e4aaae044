//! Cups and spoons of a recipe from elsewhere: whose they are, and what they hold.

use super::outside::Outside;
use crate::quantity::{Dimension, Measures, parse_amount, significant};

/// What is said when nobody told whose cups and spoons are meant.
pub(super) const ASSUMED: &str = "cups and spoons are read as those of the kitchen, metric unless it \
    says otherwise (cup 250 mL, tablespoon 15 mL); import with --measures us, uk or australian if \
    the recipe is from there";
/// Digits of a converted amount: finer than a measuring jug.
const DIGITS: u32 = 3;
/// Millilitres in a cubic metre.
const MILLILITRES: f64 = 1e6;
/// The nations whose measures are known, with their words.
const NATIONS: [(Measures, &str); 4] = [
    (Measures::Metric, "metric"),
    (Measures::Us, "US"),
    (Measures::Uk, "UK"),
    (Measures::Australian, "Australian"),
];
/// Languages, as pages state them, whose writers use the measures of one nation.
const LANGUAGES: [(&str, Measures); 3] =
    [("en-us", Measures::Us), ("en-gb", Measures::Uk), ("en-au", Measures::Australian)];

fn cubic_metres(amount: &str, measures: Measures) -> Option<(f64, f64)> {
    let read = parse_amount(amount, Dimension::Volume, measures).ok()?;
    Some((read.low, read.high))
}

/// Returns whether an amount holds more or less in one nation than in another.
pub(super) fn differs(amount: &str) -> bool {
    let read = NATIONS.map(|(measures, _)| cubic_metres(amount, measures));
    read.iter().any(|one| *one != read[0])
}

/// Writes an amount of a nation in millilitres.
pub(super) fn in_millilitres(amount: &str, measures: Measures) -> Option<String> {
    let (low, high) = cubic_metres(amount, measures)?;
    let [low, high] = [low, high].map(|volume| significant(volume * MILLILITRES, DIGITS));
    Some(if low == high { format!("{low} ml") } else { format!("{low}-{high} ml") })
}

/// Says whose cups and spoons were converted.
pub(super) fn converted(measures: Measures) -> String {
    let nation = NATIONS.iter().find(|(known, _)| *known == measures).map_or("", |(_, word)| word);
    format!("cups and spoons are read as {nation} ones, and written in millilitres")
}

/// Returns the measures of the language that a page states, where these are those of one nation.
pub(super) fn of_language(outside: &Outside) -> Option<Measures> {
    let stated = outside.others.iter().find(|(key, _)| key == "inLanguage")?;
    let language = stated.1.trim().to_lowercase().replace('_', "-");
    LANGUAGES.iter().find(|(known, _)| *known == language).map(|(_, measures)| *measures)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cups_differ_and_grams_and_litres_do_not() {
        assert!(differs("1 cup") && differs("2 tbsp"));
        assert!(!differs("100 g") && !differs("300 ml") && !differs("2 pieces"));
    }

    #[test]
    fn a_us_cup_is_written_in_millilitres() {
        // NIST Handbook 44, appendix C: 236.588 mL.
        assert_eq!(in_millilitres("1 cup", Measures::Us).as_deref(), Some("237 ml"));
        assert_eq!(in_millilitres("1-2 cups", Measures::Us).as_deref(), Some("237-473 ml"));
    }
}
