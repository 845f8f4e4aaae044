//! Numbers in running text: decimal mark, ranges, temperatures and weights.

use crate::book::style::{DecimalMark, HouseStyle, RangeStyle, TemperatureScale};

/// Degrees Fahrenheit in a degree Celsius: exact.
const FAHRENHEIT_PER_CELSIUS: f64 = 1.8;
/// Degrees Fahrenheit at zero degrees Celsius: exact.
const FAHRENHEIT_AT_ZERO: f64 = 32.0;
/// Above the boiling point \[°C\] a dial or a sugar thermometer shows five degrees at best (common
/// practice).
const COARSE_ABOVE_CELSIUS: f64 = 100.0;
/// The step of such a dial.
const COARSE_DEGREES: f64 = 5.0;
/// What joins the two ends of a range of temperatures.
const JOINS: [&str; 5] = ["–", " to ", " and ", " or ", "-"];
/// Words before a number of degrees that make it a difference.
const DIFFERENCE: [&str; 5] = ["±", "± ", "within ", " by ", "every "];

/// How a book writes numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NumberStyle {
    decimal_mark: DecimalMark,
    ranges: RangeStyle,
    temperature: TemperatureScale,
}

/// A piece of text: a number, or what stands between numbers.
#[derive(Debug, Clone, PartialEq)]
enum Piece {
    Number { value: f64, text: String },
    Other(String),
}

impl NumberStyle {
    /// Returns how a book writes numbers.
    pub const fn of(style: &HouseStyle) -> Self {
        Self {
            decimal_mark: style.decimal_mark,
            ranges: style.ranges,
            temperature: style.temperature,
        }
    }

    /// Writes a text that has decimal points and degrees of either scale.
    pub fn write(&self, text: &str) -> String {
        let scaled = self.temperatures(&pieces(text));
        let pieces = pieces(&scaled);
        let mut out = String::with_capacity(scaled.len());
        for (index, piece) in pieces.iter().enumerate() {
            match piece {
                Piece::Number { text, .. } => match self.decimal_mark {
                    DecimalMark::Point => out.push_str(text),
                    DecimalMark::Comma => out.push_str(&text.replace('.', ",")),
                },
                Piece::Other(text) if text == "–" && self.ranges == RangeStyle::To => {
                    let between = index > 0 && index + 1 < pieces.len();
                    out.push_str(if between { " to " } else { text });
                }
                Piece::Other(text) => out.push_str(text),
            }
        }
        out
    }

    /// Brings temperatures into the scale of the book.
    fn temperatures(&self, pieces: &[Piece]) -> String {
        let mut out = String::new();
        let mut at = 0;
        while at < pieces.len() {
            let (written, used) = match degrees(pieces, at) {
                Some(found) => match told_in_both(&found, pieces, at) {
                    Some(other) => (self.both(&found, &other), found.pieces + other.pieces),
                    None => (self.degrees(&found, before(pieces, at)), found.pieces),
                },
                None => (plain(&pieces[at]).to_owned(), 1),
            };
            out.push_str(&written);
            at += used;
        }
        out
    }

    fn degrees(&self, found: &Degrees<'_>, before: &str) -> String {
        let is_difference = DIFFERENCE.iter().any(|word| before.ends_with(word));
        let (own, other) = match found.scale {
            Scale::Celsius => (found.show(Scale::Celsius), Scale::Fahrenheit),
            Scale::Fahrenheit => (found.show(Scale::Fahrenheit), Scale::Celsius),
        };
        let converted = found.converted(other, is_difference);
        let (celsius, fahrenheit) = match found.scale {
            Scale::Celsius => (own, converted),
            Scale::Fahrenheit => (converted, own),
        };
        self.ordered(&celsius, &fahrenheit) + &found.rest
    }

    /// Writes what the author told in both scales; nothing is converted.
    fn both(&self, found: &Degrees<'_>, other: &Degrees<'_>) -> String {
        let shown = |degrees: &Degrees<'_>| degrees.show(degrees.scale);
        let (celsius, fahrenheit) = match found.scale {
            Scale::Celsius => (shown(found), shown(other)),
            Scale::Fahrenheit => (shown(other), shown(found)),
        };
        let rest = other.rest.strip_prefix(')').unwrap_or(&other.rest);
        self.ordered(&celsius, &fahrenheit) + rest
    }

    fn ordered(&self, celsius: &str, fahrenheit: &str) -> String {
        match self.temperature {
            TemperatureScale::Celsius => celsius.to_owned(),
            TemperatureScale::Fahrenheit => fahrenheit.to_owned(),
            TemperatureScale::CelsiusFirst => format!("{celsius} ({fahrenheit})"),
            TemperatureScale::FahrenheitFirst => format!("{fahrenheit} ({celsius})"),
        }
    }
}

/// The same temperature in the other scale, when it follows in brackets.
fn told_in_both<'a>(found: &Degrees<'_>, pieces: &'a [Piece], at: usize) -> Option<Degrees<'a>> {
    let next = at + found.pieces;
    let other = (found.rest == " (" && next < pieces.len()).then(|| degrees(pieces, next))??;
    (other.scale != found.scale && other.rest.starts_with(')')).then_some(other)
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Scale {
    Celsius,
    Fahrenheit,
}

impl Scale {
    const fn symbol(self) -> &'static str {
        match self {
            Self::Celsius => "°C",
            Self::Fahrenheit => "°F",
        }
    }
}

/// One or two temperatures in running text, or one with its range in brackets.
struct Degrees<'a> {
    /// What stands before a range in brackets.
    typical: Option<(f64, &'a str)>,
    first: (f64, &'a str),
    second: Option<(&'a str, f64, &'a str)>,
    scale: Scale,
    /// What follows the sign of the scale.
    rest: String,
    /// How many pieces it takes up.
    pieces: usize,
}

impl Degrees<'_> {
    fn show(&self, scale: Scale) -> String {
        let range = match self.second {
            Some((join, _, second)) => format!("{}{join}{second}", self.first.1),
            None => self.first.1.to_owned(),
        };
        let typical = self.typical.map(|(_, text)| text.to_owned());
        written(typical, &range, scale)
    }

    fn converted(&self, to: Scale, is_difference: bool) -> String {
        let show = |value| number(convert(value, to, is_difference));
        let first = show(self.first.0);
        let range = match self.second {
            Some((_, second, _)) if show(second) == first => first,
            // A dash before a minus sign cannot be read.
            Some(("–" | "-", second, _)) if show(second).starts_with('−') => {
                format!("{first} to {}", show(second))
            }
            Some((join, second, _)) => format!("{first}{join}{}", show(second)),
            None => first,
        };
        written(self.typical.map(|(value, _)| show(value)), &range, to)
    }
}

/// "62 °C", "61–63 °C" or "62 (61–63) °C".
fn written(typical: Option<String>, range: &str, scale: Scale) -> String {
    let symbol = scale.symbol();
    match typical {
        Some(typical) if typical == range => format!("{typical} {symbol}"),
        Some(typical) => format!("{typical} ({range}) {symbol}"),
        None => format!("{range} {symbol}"),
    }
}

/// Converts to a scale and rounds to what a thermometer of that scale shows.
fn convert(value: f64, to: Scale, is_difference: bool) -> f64 {
    let zero = if is_difference { 0.0 } else { FAHRENHEIT_AT_ZERO };
    let (converted, celsius) = match to {
        Scale::Fahrenheit => (value * FAHRENHEIT_PER_CELSIUS + zero, value),
        Scale::Celsius => {
            let celsius = (value - zero) / FAHRENHEIT_PER_CELSIUS;
            (celsius, celsius)
        }
    };
    match celsius > COARSE_ABOVE_CELSIUS && !is_difference {
        true => (converted / COARSE_DEGREES).round() * COARSE_DEGREES,
        false => converted.round(),
    }
}

/// Writes a whole number with the true minus sign.
fn number(value: f64) -> String {
    format!("{:.0}", value + 0.0).replace('-', "−")
}

/// Finds temperatures that begin at a piece.
fn degrees(pieces: &[Piece], at: usize) -> Option<Degrees<'_>> {
    let first = numeral(pieces, at)?;
    let Piece::Other(after) = pieces.get(at + 1)? else { return None };
    if after == " (" {
        let range = one_or_two(pieces, at + 2, ")")?;
        let pieces = range.pieces + 2;
        return Some(Degrees { typical: Some(first), pieces, ..range });
    }
    one_or_two(pieces, at, "")
}

/// One or two temperatures, with what stands between the last and its unit.
fn one_or_two<'a>(pieces: &'a [Piece], at: usize, close: &str) -> Option<Degrees<'a>> {
    let unit = |place: usize| {
        let Piece::Other(after) = pieces.get(place)? else { return None };
        scale_sign(after.strip_prefix(close)?)
    };
    let (typical, first) = (None, numeral(pieces, at)?);
    if let Some((scale, rest)) = unit(at + 1) {
        return Some(Degrees { typical, first, second: None, scale, rest, pieces: 2 });
    }
    let Piece::Other(between) = pieces.get(at + 1)? else { return None };
    let join = JOINS.into_iter().find(|join| between == join)?;
    let (value, text) = numeral(pieces, at + 2)?;
    let (scale, rest) = unit(at + 3)?;
    Some(Degrees { typical, first, second: Some((join, value, text)), scale, rest, pieces: 4 })
}

fn numeral(pieces: &[Piece], at: usize) -> Option<(f64, &str)> {
    match pieces.get(at)? {
        Piece::Number { value, text } => Some((*value, text)),
        Piece::Other(_) => None,
    }
}

/// Returns the scale that a text begins with, and what follows it.
fn scale_sign(text: &str) -> Option<(Scale, String)> {
    let text = text.strip_prefix([' ', '\u{a0}']).unwrap_or(text);
    [Scale::Celsius, Scale::Fahrenheit].into_iter().find_map(|scale| {
        let rest = text.strip_prefix(scale.symbol())?;
        let ends = !rest.starts_with(|sign: char| sign.is_alphanumeric() || sign == '/');
        ends.then(|| (scale, rest.to_owned()))
    })
}

fn before(pieces: &[Piece], at: usize) -> &str {
    at.checked_sub(1).map_or("", |index| plain(&pieces[index]))
}

fn plain(piece: &Piece) -> &str {
    match piece {
        Piece::Number { text, .. } | Piece::Other(text) => text,
    }
}

/// Cuts a text into numbers and what stands between them. A number follows no letter, and one with
/// two points, as of a version, is none.
fn pieces(text: &str) -> Vec<Piece> {
    let signs: Vec<char> = text.chars().collect();
    let mut pieces = Vec::new();
    let mut other = String::new();
    let mut at = 0;
    while at < signs.len() {
        let end = number_end(&signs, at);
        let follows = at.checked_sub(1).map(|index| signs[index]);
        let is_start = !follows.is_some_and(|sign| sign.is_alphanumeric() || sign == '.');
        let word: String = signs[at..end].iter().collect();
        match word.replace('−', "-").parse::<f64>() {
            Ok(value) if is_start && end > at => {
                if !other.is_empty() {
                    pieces.push(Piece::Other(std::mem::take(&mut other)));
                }
                pieces.push(Piece::Number { value, text: word });
            }
            _ if end > at => other.push_str(&word),
            _ => other.push(signs[at]),
        }
        at = end.max(at + 1);
    }
    if !other.is_empty() {
        pieces.push(Piece::Other(other));
    }
    pieces
}

/// The end of the digits that begin here, with a minus sign before and points between them.
fn number_end(signs: &[char], at: usize) -> usize {
    let digit = |index: usize| signs.get(index).is_some_and(char::is_ascii_digit);
    // A hyphen between two numbers makes a range of them; after a space it is a minus.
    let is_minus = match signs[at] {
        '−' => true,
        '-' => at.checked_sub(1).is_none_or(|before| " (".contains(signs[before])),
        _ => false,
    };
    let start = if is_minus { at + 1 } else { at };
    if !digit(start) {
        return at;
    }
    let mut end = start;
    while digit(end) || (signs.get(end) == Some(&'.') && digit(end + 1)) {
        end += 1;
    }
    end
}

/// Rounds weights in grams and kilograms to what a spring scale shows: 5 g from 20 g, 10 g from
/// 100 g, 50 g from 1 kg (common practice of books for readers without a digital scale).
pub(super) fn round_weights(text: &str) -> String {
    let mut pieces = pieces(text);
    for at in 0..pieces.len() {
        let Some(grams) = grams_per_unit(&pieces, at) else { continue };
        if let Piece::Number { value, text } = &mut pieces[at] {
            let rounded = coarse(*value * grams) / grams;
            *text = format!("{rounded:.2}").trim_end_matches('0').trim_end_matches('.').to_owned();
        }
    }
    pieces.iter().map(plain).collect()
}

/// How many grams the unit of a number has, directly or at the end of its range.
fn grams_per_unit(pieces: &[Piece], at: usize) -> Option<f64> {
    let Piece::Number { .. } = pieces[at] else { return None };
    let after = match pieces.get(at + 1)? {
        Piece::Other(join) if join == "–" => plain(pieces.get(at + 3)?),
        other => plain(other),
    };
    let unit = after.strip_prefix(' ')?;
    let ends = |rest: &str| !rest.starts_with(|sign: char| sign.is_alphanumeric() || sign == '/');
    match unit {
        _ if unit.strip_prefix("kg").is_some_and(ends) => Some(1000.0),
        _ if unit.strip_prefix('g').is_some_and(ends) => Some(1.0),
        _ => None,
    }
}

fn coarse(grams: f64) -> f64 {
    let step = match grams.abs() {
        size if size < 20.0 => return grams,
        size if size < 100.0 => 5.0,
        size if size < 1000.0 => 10.0,
        _ => 50.0,
    };
    (grams / step).round() * step
}

#[cfg(test)]
mod tests {
    use super::*;

    fn style(temperature: TemperatureScale) -> NumberStyle {
        NumberStyle { decimal_mark: DecimalMark::Point, ranges: RangeStyle::Dash, temperature }
    }

    #[test]
    fn limits_of_food_safety_come_out_as_their_authority_prints_them() {
        // FoodSafety.gov and the Food Code print 145, 160, 165, 41 and 135 °F for these.
        let fahrenheit = style(TemperatureScale::Fahrenheit);
        for (celsius, printed) in [
            ("63 °C", "145 °F"),
            ("71 °C", "160 °F"),
            ("74 °C", "165 °F"),
            ("5 °C", "41 °F"),
            ("57 °C", "135 °F"),
            ("100 °C", "212 °F"),
            ("−18 °C", "0 °F"),
        ] {
            assert_eq!(fahrenheit.write(celsius), printed);
        }
    }

    #[test]
    fn ranges_of_temperatures_are_converted_whole() {
        let fahrenheit = style(TemperatureScale::Fahrenheit);
        assert_eq!(fahrenheit.write("at 42–43 °C, then"), "at 108–109 °F, then");
        assert_eq!(fahrenheit.write("54 to 60 °C"), "129 to 140 °F");
        assert_eq!(fahrenheit.write("−18 °C to −12 °C"), "0 °F to 10 °F");
        assert_eq!(fahrenheit.write("at -25 to -30 °C"), "at −13 to −22 °F");
        assert_eq!(fahrenheit.write("40-55 °C"), "104-131 °F");
        assert_eq!(fahrenheit.write("±1 °C"), "±2 °F");
        assert_eq!(
            fahrenheit.write("10 (9–14) °C | 62 (62–63) °C"),
            "50 (48–57) °F | 144 (144–145) °F"
        );
        assert_eq!(fahrenheit.write("60 °Brix at 180 °C"), "60 °Brix at 355 °F");
    }

    #[test]
    fn both_scales_stand_side_by_side() {
        let both = style(TemperatureScale::CelsiusFirst);
        assert_eq!(both.write("below 5 °C."), "below 5 °C (41 °F).");
        assert_eq!(both.write("180 °C (350 °F)"), "180 °C (350 °F)");
        let other = style(TemperatureScale::FahrenheitFirst);
        assert_eq!(other.write("to 21 °C within"), "to 70 °F (21 °C) within");
    }

    #[test]
    fn a_book_in_celsius_turns_fahrenheit_round() {
        assert_eq!(
            style(TemperatureScale::Celsius).write("an oven at 350 °F"),
            "an oven at 175 °C"
        );
    }

    #[test]
    fn decimal_marks_and_ranges_follow_the_book() {
        let comma = NumberStyle {
            decimal_mark: DecimalMark::Comma,
            ranges: RangeStyle::To,
            temperature: TemperatureScale::Celsius,
        };
        assert_eq!(comma.write("1.28–2.03 kg, version 0.2.1"), "1,28 to 2,03 kg, version 0.2.1");
        assert_eq!(comma.write("freeze – and wait 1.5 h."), "freeze – and wait 1,5 h.");
    }

    #[test]
    fn coarse_weights_round_ranges_and_leave_rates() {
        assert_eq!(
            round_weights("1.28–2.03 kg of 445 g and 13 g"),
            "1.3–2.05 kg of 450 g and 13 g"
        );
        assert_eq!(round_weights("33 g/min, 2800 times gravity"), "33 g/min, 2800 times gravity");
    }
}
