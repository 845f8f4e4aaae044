//! Milling a dry or frozen solid to powder: blade, burr, mortar, or under a cryogen.
//!
//! Answers how fine the powder gets, how warm, and what smell the heat drives off.
//!
//! The size below which nine tenths of the mass lie falls at first order towards the limit of the
//! machine ([`crate::physics::grinding`]). Motor work warms the food, which rests when it gets too
//! warm. A food that is too wet or too fat smears instead of breaking, unless it is frozen hard.
//! Aroma is lost at a stated share that grows with warmth by a factor for each 10 K over 20 °C.

use super::grinding::{grind, machine, sizes};
use super::heat::expose;
use super::warming::heat_to;
use super::{Batch, Component, EnergyBalance, Point, ProcessError, Run, Settings, Trace};
use crate::knowledge::NoteClass;
use crate::quantity::{Length, Temperature, Time};

/// The name of the process.
pub const NAME: &str = "mill";
const COOLINGS: &[&str] = &["none", "frozen", "cryogen"];
/// Points of the drawn course.
const POINTS: u32 = 16;
/// The temperature to which the stated loss of aroma belongs [°C].
const AROMA_REFERENCE: f64 = 20.0;
/// The loss is carried over this many kelvin to either side of the reference at most.
const AROMA_SPAN: f64 = 60.0;

/// Runs the model.
///
/// # Errors
/// [`ProcessError::CannotWork`] for a food that smears, a size finer than the machine's limit, or a
/// food already too warm; missing settings.
pub fn run(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let cooling = settings.mode("cooling", COOLINGS)?;
    if cooling == "none" {
        breaks(feed, settings)?;
    }
    let mut batch = *feed;
    let mut energy = EnergyBalance::default();
    if cooling != "none" {
        let cold = settings.temperature("milling_temperature")?;
        let heat = heat_to(&batch, cold)?;
        energy.supplied += heat;
        energy.into_food += heat;
        batch.temperature = cold;
    }
    let before = feed.grain.map_or(settings.length("feed_size")?, |grain| grain.d90());
    let ground = grind(&batch, before, settings)?;
    energy.supplied += ground.energy.supplied;
    energy.into_food += ground.energy.into_food;
    energy.lost += ground.energy.lost;
    batch.temperature = ground.temperature;
    batch.grain = Some(sizes(ground.d90, settings)?);
    let lost = aroma_lost(ground.temperature, settings)?;
    batch.aroma.scale(1.0 - lost);
    expose(&mut batch.heat, ground.temperature, ground.whole, 0.0);
    if cooling != "none" {
        let room = settings.place.room_temperature.max(batch.temperature);
        let back = heat_to(&batch, room)?;
        energy.supplied += back;
        energy.into_food += back;
        batch.temperature = room;
    }
    let finished =
        Milled { before, ground: ground.temperature, running: ground.running, whole: ground.whole };
    finish(feed, batch, energy, &finished, settings)
}

/// What the finish tells of the milling.
struct Milled {
    before: Length,
    ground: Temperature,
    running: Time,
    whole: Time,
}

fn finish(
    feed: &Batch,
    batch: Batch,
    energy: EnergyBalance,
    milled: &Milled,
    settings: &Settings<'_>,
) -> Result<Run, ProcessError> {
    let stays = settings.share("held_by_mill")?;
    let loads = match settings.optional("volume") {
        Some(volume) => {
            (feed.volume()?.cubic_metres() / (volume * settings.share("fill_share")?)).ceil()
        }
        None => 1.0,
    }
    .max(1.0);
    let mut run = Run::of("powder", batch.part(1.0 - stays));
    run.left_behind = batch.contents * stays;
    run.attended = settings.time("handling_time")? * loads + milled.whole;
    run.time = run.attended;
    run.energy = energy;
    run.told = vec![
        ("grain_size", batch.grain.map_or(f64::NAN, |grain| grain.d90().metres())),
        ("running_time", milled.running.seconds()),
        ("end_temperature", milled.ground.kelvin()),
        ("loads", loads),
    ];
    if settings.trace {
        run.trace = Some(course(&batch, milled, settings)?);
    }
    Ok(run.clocked())
}

/// Refuses a food that smears.
fn breaks(feed: &Batch, settings: &Settings<'_>) -> Result<(), ProcessError> {
    for (component, word, limit) in
        [(Component::Water, "water", "most_water"), (Component::Fat, "fat", "most_fat")]
    {
        let (share, most) = (feed.contents.share(component), settings.share(limit)?);
        if share > most {
            let because = format!(
                "{:.0} % of it is {word}: above {:.0} % it smears instead of breaking",
                100.0 * share,
                100.0 * most
            );
            return Err(ProcessError::CannotWork { process: NAME, because });
        }
    }
    Ok(())
}

fn aroma_lost(at: Temperature, settings: &Settings<'_>) -> Result<f64, ProcessError> {
    let warmer = (at.celsius() - AROMA_REFERENCE).clamp(-AROMA_SPAN, AROMA_SPAN);
    let factor = settings.number("aroma_factor_10k")?.max(1.0).powf(warmer / 10.0);
    Ok((settings.share("aroma_lost")? * factor).min(1.0))
}

fn course(batch: &Batch, milled: &Milled, settings: &Settings<'_>) -> Result<Trace, ProcessError> {
    let machine = machine(settings)?;
    let mut points = Vec::new();
    for point in 1..=POINTS {
        let time = milled.running * (f64::from(point) / f64::from(POINTS));
        points.push(Point {
            time,
            mass: batch.mass(),
            temperature: milled.ground,
            measure: machine.size_after(milled.before, time)?.metres(),
            aroma: batch.aroma.left(NoteClass::Middle).unwrap_or(1.0),
        });
    }
    Ok(Trace::of("grain size, d90 (m)", points))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::process::testing::{Bench, food};

    fn spice() -> Batch {
        food(&[
            (Component::Water, 9.0),
            (Component::Fibre, 50.0),
            (Component::Fat, 9.0),
            (Component::Other, 32.0),
        ])
    }

    fn grinder() -> Bench {
        Bench::of(NAME)
            .with("power", 150.0)
            .with("limit_size", 2e-4)
            .with("time_constant", 12.0)
            .with("feed_size", 5e-3)
            .with("time", 30.0)
    }

    fn told(bench: &Bench, name: &str) -> f64 {
        bench.run(&spice()).unwrap().told(name).unwrap()
    }

    #[test]
    fn it_gets_finer_and_warmer_with_time_and_never_passes_the_limit() {
        let longer = grinder().with("time", 90.0);
        assert!(told(&longer, "grain_size") < told(&grinder(), "grain_size"));
        assert!(told(&longer, "end_temperature") > told(&grinder(), "end_temperature"));
        assert!(told(&grinder().with("time", 600.0), "grain_size") >= 2e-4 * (1.0 - 1e-9));
    }

    #[test]
    fn a_target_sets_the_time_and_rests_keep_it_cool() {
        let wanted = grinder().with("target_largest_grain", 4e-4);
        assert!((told(&wanted, "grain_size") / 4e-4 - 1.0).abs() < 1e-6);
        let rested = wanted.clone().with("highest_temperature", 298.15);
        assert!(told(&rested, "end_temperature") <= 298.15 + 1e-6);
        let times = (rested.run(&spice()).unwrap().time, wanted.run(&spice()).unwrap().time);
        assert!(times.0 > times.1);
    }

    #[test]
    fn what_smears_is_refused_and_the_cold_allows_it() {
        let berries = food(&[(Component::Water, 85.0), (Component::Sugars, 15.0)]);
        let refused = grinder().run(&berries);
        assert!(matches!(refused, Err(ProcessError::CannotWork { .. })), "{refused:?}");
        let nuts =
            food(&[(Component::Water, 5.0), (Component::Fat, 50.0), (Component::Protein, 45.0)]);
        assert!(grinder().run(&nuts).is_err());
        let cold = grinder().mode("cooling", "cryogen").with("milling_temperature", 173.15);
        assert!(cold.run(&nuts).is_ok());
        let fine = grinder().with("target_largest_grain", 1e-4).run(&spice());
        assert!(matches!(fine, Err(ProcessError::CannotWork { .. })), "{fine:?}");
        let warm = grinder().with("highest_temperature", 290.0).run(&spice());
        assert!(matches!(warm, Err(ProcessError::CannotWork { .. })), "{warm:?}");
    }

    #[test]
    fn cold_milling_keeps_the_smell() {
        let settings = grinder().with("time", 60.0);
        let mut with_smell = spice();
        with_smell.aroma.push(crate::process::Marker {
            class: NoteClass::Middle,
            partition: 1e-3,
            slope_kelvin: 5000.0,
            log_p: 3.0,
            left: 1.0,
        });
        let kept = |bench: &Bench| {
            let product = bench.run(&with_smell).unwrap().streams[0].batch;
            product.aroma.left(NoteClass::Middle).unwrap()
        };
        let cold = settings.clone().mode("cooling", "cryogen").with("milling_temperature", 173.15);
        assert!(kept(&cold) > kept(&settings));
    }
}
