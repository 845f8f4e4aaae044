//! Shearing food to a smooth paste: jug blender, stone refiner, roller mill.
//!
//! Answers how fine the paste gets, how warm it gets, and how much air is beaten in.
//!
//! The grains fall at first order towards the limit of the machine ([`crate::physics::grinding`]);
//! what is coarse after a sieve of the same opening would be held back. All work that stays in the
//! food warms it; with a highest temperature set it is sheared in bursts. Air is beaten in towards a
//! stated share.

use super::grinding::{grind, machine, sizes};
use super::heat::expose;
use super::{Batch, Component, Point, ProcessError, Pulp, Run, Settings, Trace};
use crate::knowledge::NoteClass;
use crate::quantity::{Length, Temperature};

/// The name of the process.
pub const NAME: &str = "shear";
/// A paste hotter than this boils and spits [°C].
const HOTTEST: f64 = 98.0;
/// Points of the drawn course.
const POINTS: u32 = 16;

/// Runs the model.
///
/// # Errors
/// [`ProcessError::CannotWork`] for a food too dry to flow over the blades, a size finer than the
/// machine's limit, or one that would boil; missing settings.
pub fn run(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    flows(feed, settings)?;
    let before = grains(feed, settings)?;
    let ground = grind(feed, before, settings)?;
    if ground.temperature.celsius() > HOTTEST {
        let because = format!(
            "after {:.0} min it would have {:.0} °C and boil",
            ground.running.minutes(),
            ground.temperature.celsius()
        );
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    let mut batch = *feed;
    batch.temperature = ground.temperature;
    let after = sizes(ground.d90, settings)?;
    batch.grain = Some(after);
    batch.pulp =
        feed.pulp.map(|pulp| Pulp { sizes: pulp.sizes.scaled(ground.d90 / before), ..pulp });
    let beaten = 1.0 - (-(ground.running / settings.time("air_time")?)).exp();
    let most = settings.number("most_air")?.max(0.0);
    batch.air = feed.air.max(feed.air + (most - feed.air) * beaten);
    batch.aroma.scale(1.0 - settings.share("aroma_lost")?);
    let dissolved = batch.contents.soluble_solids();
    expose(&mut batch.heat, ground.temperature, ground.running, dissolved);
    let stays = settings.share("held_by_machine")?;
    let loads = loads(feed, settings)?;
    let mut run = Run::of("paste", batch.part(1.0 - stays));
    run.left_behind = batch.contents * stays;
    run.time = ground.whole + settings.time("handling_time")? * loads;
    run.attended = settings.time("handling_time")? * loads
        + ground.whole * settings.share("attended_share")?;
    run.energy = ground.energy;
    run.told = vec![
        ("grain_size", ground.d90.metres()),
        ("running_time", ground.running.seconds()),
        ("end_temperature", ground.temperature.kelvin()),
        ("air_share", batch.air),
        ("loads", loads),
    ];
    if settings.trace {
        run.trace = Some(course(&batch, before, ground.temperature, settings, ground.running)?);
    }
    Ok(run.clocked())
}

/// Refuses what stays on the wall of the jug.
fn flows(feed: &Batch, settings: &Settings<'_>) -> Result<(), ProcessError> {
    let moist = feed.contents.share(Component::Water)
        + feed.contents.share(Component::Ethanol)
        + feed.contents.share(Component::Fat);
    let least = settings.share("least_liquid")?;
    if moist < least {
        let because = format!(
            "{:.0} % of it is water and fat, and it needs {:.0} % to move over the blades",
            100.0 * moist,
            100.0 * least
        );
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    Ok(())
}

fn grains(feed: &Batch, settings: &Settings<'_>) -> Result<Length, ProcessError> {
    match feed.grain.map(|grain| grain.d90()).or_else(|| feed.largest_particle()) {
        Some(size) => Ok(size),
        None => settings.length("feed_size"),
    }
}

fn loads(feed: &Batch, settings: &Settings<'_>) -> Result<f64, ProcessError> {
    let Some(volume) = settings.optional("volume") else { return Ok(1.0) };
    let usable = volume * settings.share("fill_share")?;
    Ok((feed.volume()?.cubic_metres() / usable).ceil().max(1.0))
}

fn course(
    batch: &Batch,
    before: Length,
    at: Temperature,
    settings: &Settings<'_>,
    end: crate::quantity::Time,
) -> Result<Trace, ProcessError> {
    let machine = machine(settings)?;
    let mut points = Vec::new();
    for point in 1..=POINTS {
        let time = end * (f64::from(point) / f64::from(POINTS));
        points.push(Point {
            time,
            mass: batch.mass(),
            temperature: at,
            measure: machine.size_after(before, time)?.metres(),
            aroma: batch.aroma.left(NoteClass::Middle).unwrap_or(1.0),
        });
    }
    Ok(Trace::of("grain size, d90 (m)", points))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::process::testing::{Bench, food};

    fn nuts() -> Batch {
        food(&[
            (Component::Water, 40.0),
            (Component::Fat, 520.0),
            (Component::Protein, 210.0),
            (Component::Sugars, 60.0),
            (Component::Fibre, 120.0),
            (Component::Other, 50.0),
        ])
    }

    fn blender() -> Bench {
        Bench::of(NAME)
            .with("power", 500.0)
            .with("limit_size", 6e-5)
            .with("time_constant", 60.0)
            .with("feed_size", 4e-3)
            .with("time", 180.0)
    }

    fn told(bench: &Bench, name: &str) -> f64 {
        bench.run(&nuts()).unwrap().told(name).unwrap()
    }

    #[test]
    fn it_gets_finer_warmer_and_fuller_of_air_with_time() {
        for name in ["end_temperature", "air_share"] {
            assert!(told(&blender().with("time", 90.0), name) < told(&blender(), name));
        }
        assert!(told(&blender().with("time", 90.0), "grain_size") > told(&blender(), "grain_size"));
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let flour = food(&[(Component::Water, 12.0), (Component::Starch, 88.0)]);
        assert!(matches!(blender().run(&flour), Err(ProcessError::CannotWork { .. })));
        let fine = blender().with("target_largest_grain", 2e-5).run(&nuts());
        assert!(matches!(fine, Err(ProcessError::CannotWork { .. })));
        let hot = blender().with("time", 1800.0).run(&nuts());
        assert!(matches!(hot, Err(ProcessError::CannotWork { .. })), "{hot:?}");
        let rested = blender().with("time", 1800.0).with("highest_temperature", 318.15);
        assert!(rested.run(&nuts()).is_ok());
        let unset = Bench::of(NAME).run(&nuts());
        assert!(matches!(unset, Err(ProcessError::MissingSetting { .. })));
    }
}
