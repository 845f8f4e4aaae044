//! A temperature over time, in straight pieces.

use crate::physics::PhysicsError;
use crate::quantity::{Temperature, Time};

/// A piece of a profile: a ramp, or a hold when both temperatures are the same.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Segment {
    /// Temperature at its start.
    pub from: Temperature,
    /// Temperature at its end.
    pub to: Temperature,
    /// How long it lasts.
    pub time: Time,
}

impl Segment {
    /// Makes a hold.
    pub const fn hold(temperature: Temperature, time: Time) -> Self {
        Self { from: temperature, to: temperature, time }
    }
}

/// Returns the whole time of a profile.
///
/// # Units
/// t \[s\].
///
/// # Validity
/// Any profile.
///
/// # Source
/// Sum.
pub fn total_time(profile: &[Segment]) -> Time {
    profile.iter().map(|segment| segment.time).sum()
}

/// Returns the pieces between the readings of a recorded history, each reading a time and a
/// temperature.
///
/// # Units
/// t \[s\], T \[K\].
///
/// # Validity
/// Straight lines between the readings.
///
/// # Errors
/// [`PhysicsError::Impossible`] when time runs backwards.
///
/// # Source
/// The general method: Bigelow et al., National Canners Association Bulletin 16-L, 1920.
pub fn history_segments(readings: &[(Time, Temperature)]) -> Result<Vec<Segment>, PhysicsError> {
    let piece = |pair: &[(Time, Temperature)]| {
        let time = pair[1].0 - pair[0].0;
        if time.seconds() < 0.0 {
            let because = format!("the reading after {} s is earlier", pair[0].0.seconds());
            return Err(PhysicsError::Impossible { what: "recorded history", because });
        }
        Ok(Segment { from: pair[0].1, to: pair[1].1, time })
    };
    readings.windows(2).map(piece).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn readings_become_pieces_and_time_must_not_run_backwards() {
        let at = |s, c| (Time::from_seconds(s), Temperature::from_celsius(c));
        let pieces = history_segments(&[at(0.0, 20.0), at(60.0, 70.0), at(180.0, 70.0)]).unwrap();
        assert_eq!(pieces.len(), 2);
        assert!((total_time(&pieces).seconds() - 180.0).abs() < 1e-12);
        assert!(history_segments(&[at(60.0, 20.0), at(0.0, 70.0)]).is_err());
        assert!(history_segments(&[]).unwrap().is_empty());
    }
}
