//! Reading a temperature profile as people write it.

use crate::calc::{CalcError, Given, Input, Kind, Need};
use crate::physics::heat_kinetics::Segment;
use crate::quantity::{Dimension, Measures, Temperature, Time, parse_amount};

/// How a profile is written, for help lines.
const FORM: &str = "write parts such as `ramp 20-70 C in 600 s`, `hold 70 C 2 min`, \
                    with `;`, `,`, `>` or `then` between them";

/// The input of a profile.
pub(super) const PROFILE: Input = Input {
    name: "profile",
    kind: Kind::Text,
    need: Need::Optional,
    help: "instead of a hold: \"ramp 20-70 C in 10 min, hold 70 C 2 min, ramp 70-20 C in 15 min\"",
};
/// The temperature of a single hold.
pub(super) const TEMPERATURE: Input =
    Input::optional("temperature", Dimension::Temperature, "temperature of a steady hold");
/// The time of a single hold.
pub(super) const TIME: Input = Input::optional("time", Dimension::Time, "time of a steady hold");

/// Returns the profile that the inputs describe; `None` when they describe none.
pub(super) fn given_profile(given: &Given) -> Result<Option<Vec<Segment>>, CalcError> {
    let text = given.word("profile");
    if !text.trim().is_empty() {
        return parse(text).map(Some);
    }
    let (temperature, time) =
        (given.optional_temperature("temperature"), given.optional_time("time"));
    Ok(temperature.zip(time).map(|(temperature, time)| vec![Segment::hold(temperature, time)]))
}

/// As [`given_profile`], for a question that cannot do without.
pub(super) fn required_profile(given: &Given) -> Result<Vec<Segment>, CalcError> {
    let missing = || CalcError::combination("give `temperature` and `time`, or a `profile`");
    given_profile(given)?.ok_or_else(missing)
}

/// Reads a profile.
fn parse(text: &str) -> Result<Vec<Segment>, CalcError> {
    let even = text.replace(" then ", ";").replace([',', '>', '\n'], ";");
    let parts = even.split(';').map(str::trim).filter(|part| !part.is_empty());
    let segments: Vec<Segment> = parts
        .map(|part| read_part(part).ok_or_else(|| unreadable(part)))
        .collect::<Result<_, _>>()?;
    if segments.is_empty() { Err(unreadable(text)) } else { Ok(segments) }
}

fn unreadable(part: &str) -> CalcError {
    CalcError::UnknownWord { name: "profile", word: part.to_owned(), help: FORM.to_owned() }
}

fn read_part(part: &str) -> Option<Segment> {
    let part = part.replace(['–', '—'], "-");
    if let Some(hold) = part.strip_prefix("hold ") {
        return read_hold(hold);
    }
    let ramp = part.strip_prefix("ramp ").unwrap_or(&part);
    let (span, time) = ramp.split_once(" in ")?;
    let (from, to) = read_span(span.trim())?;
    Some(Segment { from, to, time: time_of(time)? })
}

/// "70 C 120 s", "70 °C for 2 min".
fn read_hold(text: &str) -> Option<Segment> {
    let words: Vec<&str> = text.split_whitespace().filter(|w| !["for", "at"].contains(w)).collect();
    (1..words.len()).find_map(|cut| {
        let temperature = temperature_of(&words[..cut].join(" "))?;
        Some(Segment::hold(temperature, time_of(&words[cut..].join(" "))?))
    })
}

/// "20-70 C", "-18 to 4 °C", "5 C to 60 C".
fn read_span(text: &str) -> Option<(Temperature, Temperature)> {
    let (first, second) = match text.split_once(" to ") {
        Some(pair) => pair,
        None => {
            // A hyphen at the very start is a minus sign.
            let hyphen = text.char_indices().skip(1).find(|(_, c)| *c == '-')?.0;
            (&text[..hyphen], &text[hyphen + 1..])
        }
    };
    let to = temperature_of(second)?;
    let unit = second.trim().trim_start_matches(|c: char| c.is_ascii_digit() || "+-. ".contains(c));
    let from =
        temperature_of(first).or_else(|| temperature_of(&format!("{} {unit}", first.trim())))?;
    Some((from, to))
}

fn temperature_of(text: &str) -> Option<Temperature> {
    let amount = parse_amount(text.trim(), Dimension::Temperature, Measures::default()).ok()?;
    Some(Temperature::from_si(amount.middle()))
}

fn time_of(text: &str) -> Option<Time> {
    let amount = parse_amount(text.trim(), Dimension::Time, Measures::default()).ok()?;
    Some(Time::from_si(amount.middle()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_profile_is_read_in_every_way_it_is_written() {
        let forms = [
            "ramp 20-70 C in 600 s; hold 70 C 120 s; ramp 70-20 C in 900 s",
            "ramp 20 to 70 °C in 10 min, hold 70C for 2 min, ramp 70-20 C in 15 min",
            "20-70 C in 600 s > hold 158 F 2 min > 70 C to 20 C in 15 min",
            "ramp 20–70 C in 600 s then hold 70 °C 120 s then ramp 70-20 C in 900 s",
        ];
        for form in forms {
            let profile = parse(form).unwrap();
            let rounded: Vec<[f64; 3]> = profile
                .iter()
                .map(|s| [s.from.celsius(), s.to.celsius(), s.time.seconds()].map(f64::round))
                .collect();
            assert_eq!(
                rounded,
                [[20.0, 70.0, 600.0], [70.0, 70.0, 120.0], [70.0, 20.0, 900.0]],
                "{form}"
            );
        }
    }

    #[test]
    fn frost_is_below_zero_and_nonsense_is_refused() {
        let thaw = parse("ramp -18 to 4 C in 12 h").unwrap();
        assert!((thaw[0].from.celsius() + 18.0).abs() < 1e-9);
        let deep = parse("ramp 4--18 C in 2 h").unwrap();
        assert!((deep[0].to.celsius() + 18.0).abs() < 1e-9);
        for bad in ["", "ramp 20-70 C", "hold 70 C", "hold 2 min", "soup", "ramp 20-70 C in warm"] {
            assert!(parse(bad).is_err(), "{bad}");
        }
    }
}
