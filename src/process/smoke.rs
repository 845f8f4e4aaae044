//! Cold smoking: smoke over food that must not cook.
//!
//! Answers how much smoke the food takes up, what it dries, and whether it stays cold enough.
//!
//! Uptake and drying are stated rates per surface, not computed: published smoke densities differ by
//! powers of ten. A surface of a batch follows from its volume and the thickness of its pieces.

use super::heat::expose;
use super::warming::heat_to;
use super::{Batch, Component, Contents, EnergyBalance, Point, ProcessError, Run, Settings, Trace};
use crate::knowledge::NoteClass;
use crate::physics::water::latent_heat_vaporisation;
use crate::quantity::{Mass, Time};

/// The name of the process.
pub const NAME: &str = "smoke";
/// Points of the drawn course.
const POINTS: u32 = 12;
/// Cold smoking dries at most this share of the water away. Common practice: side of fish 10-20 %.
const MOST_DRIED: f64 = 0.5;

/// Runs the model.
///
/// # Errors
/// [`ProcessError::CannotWork`] when the smoke is warmer than cold smoking allows; missing settings.
pub fn run(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let at = settings.temperature("smoke_temperature")?;
    let limit = settings.temperature("cold_limit")?;
    if at > limit {
        let because = format!(
            "the smoke has {:.0} °C, and cold smoking stays below {:.0} °C",
            at.celsius(),
            limit.celsius()
        );
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    let time = settings.time("time")?;
    let surface = surface(feed, settings)?;
    let exposure = surface * time.seconds();
    let water = feed.contents[Component::Water];
    let dried = (settings.number("drying_rate")? * exposure).min(water * MOST_DRIED);
    let uptake = settings.number("smoke_rate")? * exposure / feed.mass().kilograms();
    let mut batch = *feed;
    let sensible = heat_to(feed, at)?;
    let latent = Mass::from_kilograms(dried) * latent_heat_vaporisation(at)?;
    batch.contents[Component::Water] -= dried;
    batch.temperature = at;
    batch.infused = 1.0 - (1.0 - feed.infused) * (-uptake / settings.number("full_smoke")?).exp();
    let dissolved = batch.contents.soluble_solids();
    expose(&mut batch.heat, at, time, dissolved);
    let moist = batch.contents[Component::Water] + batch.contents[Component::Salt];
    let mut run = Run::of("smoked", batch);
    run.vapour = Contents::only(Component::Water, Mass::from_kilograms(dried));
    run.energy = EnergyBalance {
        supplied: sensible + latent,
        into_food: sensible,
        into_vapour: latent,
        ..EnergyBalance::default()
    };
    run.attended = settings.time("handling_time")?;
    run.time = time + run.attended;
    run.told = vec![
        ("smoke_uptake", uptake),
        ("weight_loss", dried / feed.mass().kilograms()),
        (
            "water_phase_salt",
            if moist > 0.0 { batch.contents[Component::Salt] / moist } else { 0.0 },
        ),
    ];
    if settings.trace {
        run.trace = Some(course(feed, &batch, time, uptake));
    }
    Ok(run.clocked())
}

/// The surface of the pieces: two faces of slabs of a thickness \[m²\].
fn surface(feed: &Batch, settings: &Settings<'_>) -> Result<f64, ProcessError> {
    let thickness = settings.length("piece_thickness")?.metres();
    Ok(2.0 * feed.volume()?.cubic_metres() / thickness.max(f64::MIN_POSITIVE))
}

fn course(feed: &Batch, batch: &Batch, end: Time, uptake: f64) -> Trace {
    let point = |index: u32| {
        let share = f64::from(index) / f64::from(POINTS);
        Point {
            time: end * share,
            mass: feed.mass() + (batch.mass() - feed.mass()) * share,
            temperature: batch.temperature,
            measure: uptake * share,
            aroma: batch.aroma.left(NoteClass::Middle).unwrap_or(1.0),
        }
    };
    Trace::of("smoke taken up (share)", (1..=POINTS).map(point).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::process::testing::{Bench, food};

    fn fish() -> Batch {
        food(&[
            (Component::Water, 660.0),
            (Component::Protein, 200.0),
            (Component::Fat, 110.0),
            (Component::Salt, 30.0),
        ])
    }

    fn smoker() -> Bench {
        Bench::of(NAME)
            .with("smoke_temperature", 297.15)
            .with("time", 8.0 * 3600.0)
            .with("piece_thickness", 0.02)
    }

    fn told(bench: &Bench, name: &str) -> f64 {
        bench.run(&fish()).unwrap().told(name).unwrap()
    }

    #[test]
    fn more_time_and_thinner_pieces_take_up_more_and_dry_more() {
        for name in ["smoke_uptake", "weight_loss"] {
            assert!(told(&smoker().with("time", 3600.0), name) < told(&smoker(), name));
            assert!(told(&smoker().with("piece_thickness", 0.04), name) < told(&smoker(), name));
        }
        assert!(told(&smoker(), "water_phase_salt") > 30.0 / 690.0);
    }

    #[test]
    fn warm_smoke_is_refused() {
        let warm = smoker().with("smoke_temperature", 323.15).run(&fish());
        assert!(matches!(warm, Err(ProcessError::CannotWork { .. })));
        let unset = Bench::of(NAME).run(&fish());
        assert!(matches!(unset, Err(ProcessError::MissingSetting { .. })));
    }
}
