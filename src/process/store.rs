//! Storage of frozen food: ice crystals grow, faster when it is warmer or swings.
//!
//! Answers how coarse the ice gets. The size grows with the cube root of time; the pace rises with
//! temperature, and with the swings of a freezer that defrosts.
//!
//! Sources: [`crate::physics::freezing`] after D. P. Donhowe & R. W. Hartel, Int. Dairy J. 6:1209,
//! 1996; scale and the effect of swings are estimates stated in the process entry.

use super::cold;
use super::heat::expose;
use super::{Batch, EnergyBalance, Ice, Point, ProcessError, Run, Settings, Trace};
use crate::knowledge::NoteClass;
use crate::physics::food_thermal::enthalpy_change;
use crate::physics::freezing::{CrystalGrowth, crystal_size_after_storage};
use crate::quantity::{Length, Temperature, Time};

/// The name of the process.
pub const NAME: &str = "store";
/// Growth is known between these temperatures [°C]; colder food counts as at the cold end.
const KNOWN: (f64, f64) = (-25.0, -5.0);
/// The coldest that the laws of food properties cover [°C].
const COLDEST: f64 = -40.0;
/// The largest crystals that are told: as large as the flakes of a granita.
const LARGEST: Length = Length::from_millimetres(3.0);
/// Points of the drawn course.
const POINTS: u32 = 16;

/// Runs the model.
///
/// # Errors
/// [`ProcessError`] for a missing setting; [`ProcessError::CannotWork`] for food without ice, or a
/// place so warm that it melts.
pub fn run(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let at = cold::medium_temperature("still-air", settings)?;
    let freezing = cold::freezing_point(feed, settings)?;
    let Some(ice) = feed.ice else {
        let because = "there is no ice in it".to_owned();
        return Err(ProcessError::CannotWork { process: NAME, because });
    };
    let swing = settings.difference("temperature_swing")?.kelvin().abs();
    if at.celsius() + swing > KNOWN.1 || at >= freezing {
        let because = format!(
            "at {:.1} °C, {swing:.1} K up and down, ice melts and does not only grow; it keeps below \
             {:.1} °C",
            at.celsius(),
            KNOWN.1.min(freezing.celsius())
        );
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    let growth = growth(at, swing, settings)?;
    let time = settings.time("storage_time")?.max(Time::ZERO);
    let size = |time: Time| -> Result<Length, ProcessError> {
        Ok(crystal_size_after_storage(ice.crystal, growth, time)?.min(LARGEST.max(ice.crystal)))
    };
    let mut batch = *feed;
    let held = at.max(Temperature::from_celsius(COLDEST));
    let start = feed.temperature.max(Temperature::from_celsius(COLDEST));
    let heat = feed.mass() * enthalpy_change(feed.thermal_composition(), freezing, start, held)?;
    batch.temperature = at;
    batch.ice =
        Some(Ice { frozen: cold::frozen_share(feed, freezing, held)?, crystal: size(time)? });
    expose(&mut batch.heat, at, time, feed.contents.soluble_solids());
    let mut run = Run::of("stored", batch);
    run.time = time;
    run.energy = EnergyBalance { supplied: heat, into_food: heat, ..EnergyBalance::default() };
    run.told = vec![
        ("storage_temperature", at.kelvin()),
        ("crystal_growth", (size(time)? - ice.crystal).metres()),
    ];
    if settings.trace {
        run.trace = Some(course(feed, at, time, size)?);
    }
    Ok(run.clocked())
}

/// Growth in the first day, with the swings and the stabiliser.
fn growth(
    at: Temperature,
    swing: f64,
    settings: &Settings<'_>,
) -> Result<CrystalGrowth, ProcessError> {
    let celsius = at.celsius().clamp(KNOWN.0, KNOWN.1);
    let steady = CrystalGrowth::at(celsius)?[1];
    let swung = 1.0 + settings.number("swing_effect")? * swing;
    let slowed = settings.number("stabiliser_effect")?.max(1.0);
    let spread = settings.number("growth_spread")?;
    Ok(CrystalGrowth { in_first_day: steady.in_first_day * (spread * swung / slowed) })
}

fn course(
    feed: &Batch,
    at: Temperature,
    until: Time,
    size: impl Fn(Time) -> Result<Length, ProcessError>,
) -> Result<Trace, ProcessError> {
    let mut points = Vec::new();
    for index in 0..=POINTS {
        let time = until * (f64::from(index) / f64::from(POINTS));
        points.push(Point {
            time,
            mass: feed.mass(),
            temperature: at,
            measure: size(time)?.metres(),
            aroma: feed.aroma.left(NoteClass::Middle).unwrap_or(1.0),
        });
    }
    Ok(Trace::of("ice crystals (m)", points))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::process::testing::{Bench, food};
    use crate::process::{Component, Ice};
    use crate::quantity::{Length, Temperature};

    fn ice_cream() -> Batch {
        let mut mix = food(&[
            (Component::Water, 620.0),
            (Component::Sugars, 200.0),
            (Component::Fat, 100.0),
            (Component::Protein, 40.0),
        ]);
        mix.temperature = Temperature::from_celsius(-18.0);
        mix.ice = Some(Ice { frozen: 0.75, crystal: Length::from_micrometres(30.0) });
        mix
    }

    fn crystal(celsius: f64) -> f64 {
        let freezer = Temperature::from_celsius(celsius).kelvin();
        let run = Bench::of(NAME).with("freezer_temperature", freezer).run(&ice_cream()).unwrap();
        run.streams[0].batch.ice.unwrap().crystal.metres()
    }

    #[test]
    fn crystals_grow_and_the_faster_the_warmer() {
        assert!(crystal(-25.0) >= 30e-6);
        assert!(crystal(-12.0) > crystal(-25.0));
    }

    #[test]
    fn what_has_no_ice_is_refused() {
        let mut thawed = ice_cream();
        thawed.ice = None;
        let freezer = Temperature::from_celsius(-18.0).kelvin();
        let run = Bench::of(NAME).with("freezer_temperature", freezer).run(&thawed);
        assert!(matches!(run, Err(ProcessError::CannotWork { .. })));
    }
}
