//! The clock of a plan: options that fix when it begins or ends.

use jiff::civil::{Date, DateTime, Time};

use crate::advisor::timeline::{Anchor, DAY, Timeline};

/// When to begin, or when to be ready.
#[derive(Debug, Clone, Copy, clap::Args)]
pub(crate) struct Timing {
    /// Plan the work from this time on, such as "09:00" or "2026-12-24 09:00"
    #[arg(long, value_name = "TIME", value_parser = moment, conflicts_with = "ready_at")]
    start_at: Option<Moment>,

    /// Plan the work so that it ends by this time, such as "19:30" or "2026-12-24 19:30"
    #[arg(long, value_name = "TIME", value_parser = moment)]
    ready_at: Option<Moment>,
}

/// A time of day, on a date when one is given.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Moment {
    /// The date.
    date: Option<Date>,
    /// The time of day \[s after midnight\].
    of_day: f64,
}

fn moment(text: &str) -> Result<Moment, String> {
    let of_day = |time: Time| {
        let minutes = f64::from(time.hour()) * 60.0 + f64::from(time.minute());
        minutes * 60.0 + f64::from(time.second())
    };
    let text = text.trim();
    if let Ok(both) = text.parse::<DateTime>()
        && text.contains(':')
    {
        return Ok(Moment { date: Some(both.date()), of_day: of_day(both.time()) });
    }
    let padded = if text.find(':') == Some(1) { format!("0{text}") } else { text.to_owned() };
    match padded.parse::<Time>() {
        Ok(time) if text.contains(':') => Ok(Moment { date: None, of_day: of_day(time) }),
        _ => {
            Err("write a time such as 09:00, or a date and a time such as 2026-12-24 19:30".into())
        }
    }
}

impl Timing {
    /// Returns what the plan is hung on.
    pub(crate) fn anchor(self) -> Option<Anchor> {
        let start = self.start_at.map(|moment| Anchor::StartAt(moment.of_day));
        start.or_else(|| self.ready_at.map(|moment| Anchor::ReadyAt(moment.of_day)))
    }

    /// Returns the date of the first day of a plan, when a date was given.
    pub(crate) fn first_day(self, timeline: &Timeline) -> Option<Date> {
        if let Some(start) = self.start_at {
            return start.date;
        }
        let ready = self.ready_at?.date?;
        ready.checked_sub(jiff::Span::new().days(days(timeline.wanted?))).ok()
    }
}

/// Whole days in a time.
#[allow(clippy::cast_possible_truncation, reason = "a plan of days, not of ages")]
fn days(seconds: f64) -> i64 {
    (seconds / DAY).floor() as i64
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_moment_is_a_time_with_or_without_a_date() {
        assert_eq!(moment("09:00"), Ok(Moment { date: None, of_day: 32_400.0 }));
        assert_eq!(moment("9:30"), Ok(Moment { date: None, of_day: 34_200.0 }));
        let eve = moment("2026-12-24 19:30").unwrap();
        assert_eq!((eve.date, eve.of_day), (Some(jiff::civil::date(2026, 12, 24)), 70_200.0));
        for wrong in ["", "25:00", "noon", "2026-12-24", "19", "2026-13-01 10:00"] {
            assert!(moment(wrong).is_err(), "{wrong}");
        }
    }
}
