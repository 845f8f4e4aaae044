//! Spans of time as ISO 8601 writes them: "PT1H30M", "P1DT2H".

use super::Time;

/// The designators of a span with their length in seconds: those before the T, then those after it.
/// Years and months have no fixed length and are refused.
const BEFORE_T: [(char, f64); 2] = [('W', 604_800.0), ('D', 86_400.0)];
const AFTER_T: [(char, f64); 3] = [('H', 3600.0), ('M', 60.0), ('S', 1.0)];

/// Writes a span to the whole minute, at least one: "PT1H30M", "P2DT5M".
pub fn iso_duration(time: Time) -> String {
    // Spans of processes lie below a year, far within the range of the integer.
    #[allow(clippy::cast_possible_truncation, reason = "a saturating cast of a rounded number")]
    let minutes = time.minutes().round().max(1.0) as i64;
    let (days, hours, minutes) = (minutes / 1440, minutes / 60 % 24, minutes % 60);
    let part = |count: i64, letter: char| match count {
        0 => String::new(),
        count => format!("{count}{letter}"),
    };
    let (day, clock) = (part(days, 'D'), part(hours, 'H') + &part(minutes, 'M'));
    if clock.is_empty() { format!("P{day}") } else { format!("P{day}T{clock}") }
}

/// Reads a span; `None` when it is none, or has years or months.
pub fn parse_iso_duration(text: &str) -> Option<Time> {
    let rest = text.trim().strip_prefix('P')?;
    let (date, clock) = match rest.split_once('T') {
        Some((date, clock)) if !clock.is_empty() => (date, clock),
        Some(_) => return None,
        None => (rest, ""),
    };
    if date.is_empty() && clock.is_empty() {
        return None;
    }
    let seconds = designated(date, &BEFORE_T)? + designated(clock, &AFTER_T)?;
    seconds.is_finite().then(|| Time::from_seconds(seconds))
}

/// Adds numbers with their designators, each at most once and in order.
fn designated(mut text: &str, designators: &[(char, f64)]) -> Option<f64> {
    let mut sum = 0.0;
    for (letter, seconds) in designators {
        let Some((number, rest)) = text.split_once(*letter) else { continue };
        let plain = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',');
        if number.is_empty() || !number.chars().all(plain) {
            return None;
        }
        sum += number.replace(',', ".").parse::<f64>().ok()? * seconds;
        text = rest;
    }
    text.is_empty().then_some(sum)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spans_are_written_to_the_minute() {
        let written = |minutes| iso_duration(Time::from_minutes(minutes));
        assert_eq!(written(90.0), "PT1H30M");
        assert_eq!(written(0.2), "PT1M");
        assert_eq!(written(2885.0), "P2DT5M");
        assert_eq!(written(1440.0), "P1D");
    }

    #[test]
    fn spans_are_read_back() {
        for (text, minutes) in
            [("PT1H30M", 90.0), ("P1DT2H", 1560.0), ("PT90S", 1.5), ("P1W", 10_080.0)]
        {
            let read = parse_iso_duration(text).unwrap();
            assert!((read.minutes() - minutes).abs() < 1e-9, "{text}: {}", read.minutes());
        }
        for wrong in ["", "P", "PT", "1H", "PT1", "P1H", "PT1M1H", "P1M", "PT-5M", "PTxM"] {
            assert_eq!(parse_iso_duration(wrong), None, "{wrong}");
        }
    }
}
