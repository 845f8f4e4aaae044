//! Chilling: a piece or a pot of food in ice water, air, brine or on a cold plate.
//!
//! Answers how long the core takes to a temperature, how long it stays warm, and how much ice melts.
//!
//! The surface takes heat by a transfer coefficient of the medium, the inside by conduction
//! (`super::body`); a stirred liquid cools as one lump (`mode form`). Evaporation is left out: the
//! food is covered. Mode `medium`: ice-bath, still-air, moving-air, blast, brine, plate.
//!
//! Sources: conduction by [`crate::physics::conduction`]; transfer coefficients in the process entry;
//! the two stages of cooling 57 to 21 °C and 21 to 5 °C: FDA Food Code 2022, 3-501.14.

use super::body::Body;
use super::cold;
use super::course::Course;
use super::{Batch, EnergyBalance, ProcessError, Run, Settings, Trace};
use crate::physics::ice::latent_heat_fusion;
use crate::quantity::{Energy, Temperature, Time};

/// The name of the process.
pub const NAME: &str = "chill";
const MEDIA: &[&str] = &["ice-bath", "still-air", "moving-air", "blast", "brine", "plate"];
/// A medium less than this below the target never gets the core there in practice \[K\]. Estimate.
const LEAST_DRIVE: f64 = 0.1;
/// The stages of two-stage cooling [°C]: FDA Food Code 2022, 3-501.14.
const STAGES: [f64; 3] = [57.0, 21.0, 5.0];
/// Hours that the first stage, and both of them, may take: the same.
const FIRST_STAGE_HOURS: f64 = 2.0;
const BOTH_STAGES_HOURS: f64 = 6.0;

/// Runs the model.
///
/// # Errors
/// [`ProcessError`] for a missing setting; [`ProcessError::CannotWork`] for a medium that is too warm
/// for the target, or a target at which the food freezes.
pub fn run(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let medium = settings.mode("medium", MEDIA)?;
    let surroundings = cold::medium_temperature(medium, settings)?;
    let target = settings.temperature("target_core_temperature")?;
    let freezing = cold::freezing_point(feed, settings)?;
    check(target, surroundings, freezing)?;
    let body = Body::read(feed, settings)?;
    let transfer = cold::heat_transfer(medium, settings)?;
    let course = body.course(feed.temperature, surroundings, transfer)?;
    let Some(time) = course.core_reaches(target) else {
        return Err(too_warm(surroundings, target));
    };
    let mut batch = *feed;
    let core_course = course.record(&mut batch.heat, time, feed.contents.soluble_solids());
    if cooled_as_allowed(feed, &course) {
        batch.heat.warm = feed.heat.warm;
    }
    let (core, mean) = (course.core(time), course.mean(time));
    batch.temperature = mean;
    let heat = feed.mass() * (feed.heat_capacity()? * (mean - feed.temperature));
    let mut run = Run::of("chilled", batch);
    run.time = time;
    run.attended = settings.time("handling_time")?.min(time);
    run.energy = EnergyBalance { supplied: heat, into_food: heat, ..EnergyBalance::default() };
    run.told = vec![
        ("core_temperature", core.kelvin()),
        ("surface_may_freeze", f64::from(u8::from(surroundings < freezing))),
    ];
    let stage = |index: usize| Temperature::from_celsius(STAGES[index]);
    let stages = [("time_57_to_21", 0, 1), ("time_21_to_5", 1, 2)];
    for (name, from, to) in stages {
        let time =
            course.core_takes(stage(from), stage(to)).filter(|_| feed.temperature > stage(to));
        run.told.extend(time.map(|time| (name, time.seconds())));
    }
    if medium == "ice-bath" {
        run.told.push(("ice_melted", ice_melted(heat, settings)?));
    }
    run.trace = settings.trace.then(|| Trace { core: core_course, ..course.trace(feed, time) });
    Ok(run.clocked())
}

/// Returns whether hot food passes both stages of cooling in the time that they are given; the hours
/// that it spends warm meanwhile then do not count.
fn cooled_as_allowed(feed: &Batch, course: &Course) -> bool {
    let [hot, lukewarm, cold] = STAGES.map(Temperature::from_celsius);
    let within = |from, to, hours| {
        course.core_takes(from, to).is_some_and(|time| time <= Time::from_hours(hours))
    };
    feed.temperature >= hot
        && within(hot, lukewarm, FIRST_STAGE_HOURS)
        && within(hot, cold, BOTH_STAGES_HOURS)
}

/// Ice that the heat of the food and of the room melts \[kg\].
fn ice_melted(heat: Energy, settings: &Settings<'_>) -> Result<f64, ProcessError> {
    let fusion = latent_heat_fusion(Temperature::from_celsius(0.0))?;
    let used = settings.share("ice_use")?.max(f64::MIN_POSITIVE);
    Ok(heat.joules().abs() / fusion.si() / used)
}

fn check(
    target: Temperature,
    surroundings: Temperature,
    freezing: Temperature,
) -> Result<(), ProcessError> {
    if target <= freezing {
        let because = format!(
            "it starts to freeze at {:.1} °C, and {:.1} °C are asked for",
            freezing.celsius(),
            target.celsius()
        );
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    if (target - surroundings).kelvin() < LEAST_DRIVE {
        return Err(too_warm(surroundings, target));
    }
    Ok(())
}

fn too_warm(surroundings: Temperature, target: Temperature) -> ProcessError {
    let because = format!(
        "the cold has {:.1} °C, and the core is to reach {:.1} °C",
        surroundings.celsius(),
        target.celsius()
    );
    ProcessError::CannotWork { process: NAME, because }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::process::Component;
    use crate::process::testing::{Bench, food};

    fn soup() -> Batch {
        let mut soup = food(&[(Component::Water, 930.0), (Component::Starch, 70.0)]);
        soup.temperature = Temperature::from_celsius(80.0);
        soup
    }

    fn hours(medium: &str, diameter: f64) -> f64 {
        let bench = Bench::of(NAME)
            .mode("medium", medium)
            .mode("form", "vessel")
            .with("medium_temperature", Temperature::from_celsius(2.0).kelvin())
            .with("vessel_diameter", diameter);
        bench.traced().run(&soup()).unwrap().time.hours()
    }

    #[test]
    fn ice_water_and_shallow_layers_chill_faster() {
        assert!(hours("ice-bath", 0.2) < 0.5 * hours("still-air", 0.2));
        assert!(hours("ice-bath", 0.3) < hours("ice-bath", 0.15));
    }

    #[test]
    fn a_refrigerator_warmer_than_the_target_is_refused() {
        let warm = Bench::of(NAME).mode("medium", "still-air");
        let warm = warm.with("medium_temperature", Temperature::from_celsius(9.0).kelvin());
        assert!(matches!(warm.run(&soup()), Err(ProcessError::CannotWork { .. })));
    }
}
