//! The clock of a plan: the night, and when to begin.

/// A day \[s\].
pub const DAY: f64 = 86_400.0;
/// Quiet hours end \[s after midnight\]: 07:00, common practice.
pub const QUIET_UNTIL: f64 = 7.0 * 3600.0;
/// Quiet hours begin \[s after midnight\]: 22:00, common practice.
pub const QUIET_FROM: f64 = 22.0 * 3600.0;

/// What the cook fixes: the time of day of the first move or of the last.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Anchor {
    /// The first move begins at this time of day \[s after midnight\].
    StartAt(f64),
    /// The dish is ready at this time of day \[s after midnight\].
    ReadyAt(f64),
}

/// Returns when hands-on work of a length can begin at or after a time of day without reaching into
/// the quiet hours; both in seconds after some midnight. Work that no day can hold begins at once.
pub(super) fn awake(at: f64, length: f64) -> f64 {
    if length > QUIET_FROM - QUIET_UNTIL {
        return at;
    }
    let midnight = (at / DAY).floor() * DAY;
    let of_day = at - midnight;
    if of_day < QUIET_UNTIL {
        midnight + QUIET_UNTIL
    } else if of_day + length > QUIET_FROM {
        midnight + DAY + QUIET_UNTIL
    } else {
        at
    }
}

/// Returns how much of a stretch lies in the quiet hours \[s\]; times as in [`awake`].
pub(super) fn in_the_night(from: f64, to: f64) -> f64 {
    let (mut night, mut day) = (0.0, (from / DAY).floor());
    while day * DAY < to {
        let overlap = |low: f64, high: f64| (to.min(high) - from.max(low)).max(0.0);
        let midnight = day * DAY;
        night += overlap(midnight, midnight + QUIET_UNTIL);
        night += overlap(midnight + QUIET_FROM, midnight + DAY);
        day += 1.0;
    }
    night
}

#[cfg(test)]
mod tests {
    use super::*;

    const HOUR: f64 = 3600.0;
    const A_MOMENT: f64 = 1e-6;

    #[test]
    fn work_that_would_reach_into_the_night_waits_for_the_morning() {
        assert!((awake(9.0 * HOUR, HOUR) - (9.0 * HOUR)).abs() < A_MOMENT);
        assert!((awake(21.5 * HOUR, HOUR) - (DAY + QUIET_UNTIL)).abs() < A_MOMENT);
        assert!((awake(DAY + 2.0 * HOUR, HOUR) - (DAY + QUIET_UNTIL)).abs() < A_MOMENT);
        assert!((awake(23.0 * HOUR, 16.0 * HOUR) - (23.0 * HOUR)).abs() < A_MOMENT);
    }

    #[test]
    fn the_night_lasts_nine_hours() {
        assert!((in_the_night(12.0 * HOUR, DAY + 12.0 * HOUR) - (9.0 * HOUR)).abs() < A_MOMENT);
        assert!((in_the_night(21.0 * HOUR, 23.0 * HOUR) - (HOUR)).abs() < A_MOMENT);
        assert!((in_the_night(8.0 * HOUR, 20.0 * HOUR) - (0.0)).abs() < A_MOMENT);
    }
}
