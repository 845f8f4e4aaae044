//! Printing amounts as a cook would measure them.
//!
//! Rounding follows the conventions of the book trade (common practice): 1 g between 20 g and
//! 100 g, 5 g up to 1 kg, 10 g above; a minute up to 20 minutes, then 5, 15 and 30 minutes, whole hours from 12 h, half days from 36 h.

use super::{Mass, Temperature, Time, Volume};

/// The width of an en dash range in prose; negative numbers use "to" instead.
const RANGE_DASH: &str = "–";

/// Writes a mass rounded as a cook would weigh it.
pub fn cook_mass(mass: Mass) -> String {
    let grams = mass.grams();
    match grams.abs() {
        g if g < 2.0 => format!("{} g", trim(round_to(grams, 0.1), 1)),
        g if g < 20.0 => format!("{} g", trim(round_to(grams, 0.5), 1)),
        g if g < 100.0 => format!("{:.0} g", grams),
        g if g < 997.5 => format!("{:.0} g", round_to(grams, 5.0)),
        _ => format!("{} kg", trim(round_to(grams, 10.0) / 1000.0, 2)),
    }
}

/// Writes a volume rounded as a cook would measure it.
pub fn cook_volume(volume: Volume) -> String {
    let millilitres = volume.millilitres();
    match millilitres.abs() {
        v if v < 20.0 => format!("{} mL", trim(round_to(millilitres, 0.5), 1)),
        v if v < 100.0 => format!("{millilitres:.0} mL"),
        v if v < 997.5 => format!("{:.0} mL", round_to(millilitres, 5.0)),
        _ => format!("{} L", trim(round_to(millilitres, 10.0) / 1000.0, 2)),
    }
}

/// Writes a span of time rounded as a cook would time it.
pub fn cook_time(time: Time) -> String {
    let minutes = time.minutes();
    match minutes {
        m if m < 1.0 => format!("{:.0} s", round_to(time.seconds(), 5.0)),
        m if m < 5.0 => format!("{} min", trim(round_to(minutes, 0.5), 1)),
        m if m < 20.0 => format!("{minutes:.0} min"),
        m if m < 57.5 => format!("{:.0} min", round_to(minutes, 5.0)),
        m if m < 240.0 => hours_and_minutes(round_to(minutes, 15.0)),
        m if m < 11.75 * 60.0 => format!("{} h", trim(round_to(minutes, 30.0) / 60.0, 1)),
        m if m < 35.5 * 60.0 => format!("{:.0} h", time.hours()),
        m if m < 9.75 * 24.0 * 60.0 => format!("{} days", trim(round_to(time.days(), 0.5), 1)),
        _ => format!("{:.0} days", time.days()),
    }
}

/// Writes a temperature to the whole degree Celsius.
pub fn cook_temperature(temperature: Temperature) -> String {
    format!("{} °C", minus_sign(format!("{:.0}", temperature.celsius() + 0.0)))
}

/// Writes two ends of a range, once if they print alike, with "to" when one is negative.
pub fn range_text(low: &str, high: &str) -> String {
    if low == high {
        return low.to_owned();
    }
    let (Some((low_number, low_unit)), Some((_, high_unit))) =
        (low.split_once(' '), high.split_once(' '))
    else {
        return format!("{low}{RANGE_DASH}{high}");
    };
    let negative = low.starts_with(['-', '−']) || high.starts_with(['-', '−']);
    match (low_unit == high_unit, negative) {
        (true, false) if !low_unit.contains(char::is_numeric) => {
            format!("{low_number}{RANGE_DASH}{high}")
        }
        _ => format!("{low} to {high}"),
    }
}

/// Writes a number with the given count of significant digits, without an exponent.
pub fn significant(value: f64, digits: u32) -> String {
    if value == 0.0 || !value.is_finite() {
        return minus_sign(format!("{value}"));
    }
    // The exponent of a finite, non-zero f64 lies within ±324, so the cast is exact.
    #[allow(clippy::cast_possible_truncation, reason = "the exponent of an f64 fits an i32")]
    let exponent = value.abs().log10().floor() as i32;
    let places = i32::try_from(digits).unwrap_or(i32::MAX) - 1 - exponent;
    let scale = 10f64.powi(places);
    let rounded = (value * scale).round() / scale;
    let shown = usize::try_from(places.max(0)).unwrap_or(0);
    minus_sign(trim(rounded, shown))
}

/// Rounds to the nearest multiple of a step.
fn round_to(value: f64, step: f64) -> f64 {
    (value / step).round() * step
}

fn hours_and_minutes(minutes: f64) -> String {
    let hours = (minutes / 60.0).floor();
    match minutes - hours * 60.0 {
        rest if hours < 1.0 => format!("{rest:.0} min"),
        rest if rest < 0.5 => format!("{hours:.0} h"),
        rest => format!("{hours:.0} h {rest:.0} min"),
    }
}

/// Writes a number with at most the given decimal places, without trailing zeros.
fn trim(value: f64, places: usize) -> String {
    let text = format!("{value:.places$}");
    if !text.contains('.') {
        return text;
    }
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// Replaces a leading hyphen by the true minus sign, and "-0" by "0".
fn minus_sign(text: String) -> String {
    match text.strip_prefix('-') {
        Some(rest) if rest.chars().all(|c| matches!(c, '0' | '.')) => rest.to_owned(),
        Some(rest) => format!("−{rest}"),
        None => text,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn masses_round_as_a_cook_weighs() {
        let shown = |grams| cook_mass(Mass::from_grams(grams));
        assert_eq!(shown(1.26), "1.3 g");
        assert_eq!(shown(7.3), "7.5 g");
        assert_eq!(shown(63.4), "63 g");
        assert_eq!(shown(543.0), "545 g");
        assert_eq!(shown(998.0), "1 kg");
        assert_eq!(shown(1834.0), "1.83 kg");
    }

    #[test]
    fn times_round_as_a_cook_counts() {
        let shown = |minutes| cook_time(Time::from_minutes(minutes));
        assert_eq!(shown(0.4), "25 s");
        assert_eq!(shown(3.3), "3.5 min");
        assert_eq!(shown(42.0), "40 min");
        assert_eq!(shown(58.0), "1 h");
        assert_eq!(shown(98.0), "1 h 45 min");
        assert_eq!(shown(400.0), "6.5 h");
        assert_eq!(shown(4320.0), "3 days");
    }

    #[test]
    fn ranges_name_the_unit_once() {
        assert_eq!(range_text("25 min", "30 min"), "25–30 min");
        assert_eq!(range_text("−18 °C", "−12 °C"), "−18 °C to −12 °C");
        assert_eq!(range_text("45 min", "1 h 15 min"), "45 min to 1 h 15 min");
        assert_eq!(range_text("1 h 15 min", "1 h 30 min"), "1 h 15 min to 1 h 30 min");
        assert_eq!(range_text("5 g", "5 g"), "5 g");
    }

    #[test]
    fn significant_digits_are_kept() {
        assert_eq!(significant(1234.0, 2), "1200");
        assert_eq!(significant(0.04567, 2), "0.046");
        assert_eq!(significant(-3.16, 2), "−3.2");
        assert_eq!(significant(0.0, 2), "0");
        assert_eq!(significant(0.999, 2), "1");
    }
}
