//! Clearing a liquid in a gel: set it, freeze and thaw it or break it, and let it drip.
//!
//! Answers how much clear liquid drips from the gel and what it holds back.
//!
//! The gel gives off the share y of the liquid by syneresis (`mode way = "freeze-thaw" | "break"`);
//! the rest stays in the network with the particles. Dripping from a frozen gel is richest first, as
//! from any block of ice: the share of solutes is `(1 - exp(-k y)) / (1 - exp(-k))`. The network lets
//! pass what is finer than its pores, by a log-normal grade curve.
//!
//! Sources: J. B. Lahne & S. J. Schmidt, J. Food Sci. Educ. 9:53, 2010 (gelatine-filtered consommé);
//! yields by common practice, stated as such in the process entry.

use super::heat::expose;
use super::{
    Batch, Component, Contents, EnergyBalance, Point, ProcessError, Pulp, Run, Settings, Stream,
    Trace,
};
use crate::physics::filtration::strain::{CLOTH_DEVIATION, Medium};
use crate::quantity::{Mass, Temperature, Time};

/// The name of the process.
pub const NAME: &str = "set-and-thaw";
const WAYS: &[&str] = &["freeze-thaw", "break"];
/// Points of the drawn course.
const POINTS: u32 = 16;
/// The gelling agent swells with water from the batch; of it this share drips with the liquid.
/// Estimate: agar does not dissolve in the cold, gelatine leaves a few hundredths.
const GEL_IN_DRIP: f64 = 0.03;

/// Runs the model.
///
/// # Errors
/// [`ProcessError`] for a missing setting; [`ProcessError::CannotWork`] when the batch is too thick to
/// set clear.
pub fn run(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let most = settings.share("thickest")?;
    let suspended = feed.suspended_share();
    if suspended > most {
        let because = format!(
            "{:.1} % of it is pulp, and a gel parts clear liquid from at most {:.1} %",
            100.0 * suspended,
            100.0 * most
        );
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    let gel = feed.mass() * settings.share("gel_dose")?;
    let added = Contents::only(Component::Fibre, gel);
    let boiled = boiled_part(feed, settings)?;
    let drip = drip(&boiled, gel, settings)?;
    let time = settings.time("setting_time")? + settings.time("dripping_time")?;
    finish(feed, &boiled, drip, added, time, settings)
}

/// Heats the part of the liquid in which the gelling agent dissolves, and mixes it back.
fn boiled_part(feed: &Batch, settings: &Settings<'_>) -> Result<Batch, ProcessError> {
    let share = settings.share("heated_share")?;
    let mut hot = feed.part(share);
    let temperature = settings.temperature("dissolving_temperature")?;
    let dissolved = feed.contents.soluble_solids();
    expose(&mut hot.heat, temperature, settings.time("dissolving_time")?, dissolved);
    let mut batch = *feed;
    let blend = |raw: Time, heated: Time| raw * (1.0 - share) + heated * share;
    batch.heat.cooked = blend(feed.heat.cooked, hot.heat.cooked);
    batch.heat.browning = blend(feed.heat.browning, hot.heat.browning);
    batch.heat.colour = feed.heat.colour * (1.0 - share) + hot.heat.colour * share;
    batch.heat.vitamin_c = feed.heat.vitamin_c * (1.0 - share) + hot.heat.vitamin_c * share;
    batch.heat.hottest = feed.heat.hottest.max(temperature);
    batch.aroma.scale(1.0 - settings.share("aroma_lost")? * share);
    Ok(batch)
}

/// What drips from the gel.
fn drip(feed: &Batch, gel: Mass, settings: &Settings<'_>) -> Result<Batch, ProcessError> {
    use Component::{Acid, Ethanol, Fat, Fibre, Other, Salt, Sugars, Water};
    let y = settings.share("drip_yield")?;
    let solutes = match settings.mode("way", WAYS)? {
        "break" => y,
        _ => {
            let k = settings.number("drain_sharpness")?;
            (1.0 - (-k * y).exp()) / (1.0 - (-k).exp())
        }
    };
    let pores = Medium::new(settings.length("gel_pores")?, CLOTH_DEVIATION)?;
    let passed = feed.pulp.map(|pulp| (pulp, pores.pass(&pulp.sizes)));
    let through = passed.map_or(0.0, |(_, passed)| passed.share) * y;
    let mut out = feed.contents * through;
    for component in [Sugars, Acid, Salt, Other, Ethanol] {
        out[component] = feed.contents[component] * solutes;
    }
    out[Fat] = feed.contents[Fat] * settings.share("fat_passes")?;
    out[Fibre] += (gel * GEL_IN_DRIP).kilograms();
    out[Water] = 0.0;
    let wanted = feed.mass().kilograms() * y;
    out[Water] = (wanted - out.total().kilograms()).clamp(0.0, feed.contents[Water]);
    let mut batch = *feed;
    batch.contents = out;
    batch.pulp = passed.and_then(|(pulp, passed)| {
        passed.sizes.map(|sizes| Pulp { dry: pulp.dry * through, sizes, ..pulp })
    });
    Ok(batch)
}

fn finish(
    feed: &Batch,
    boiled: &Batch,
    mut drip: Batch,
    added: Contents,
    time: Time,
    settings: &Settings<'_>,
) -> Result<Run, ProcessError> {
    let at = settings.temperature("draining_temperature")?;
    drip.temperature = at;
    drip.added += added.total();
    expose(&mut drip.heat, at, settings.time("dripping_time")?, feed.contents.soluble_solids());
    let mut network = *boiled;
    network.contents = feed.contents + added - drip.contents;
    network.temperature = at;
    network.pulp = feed.pulp.map(|pulp| {
        let passed = drip.pulp.map_or(Mass::ZERO, |left| left.dry);
        Pulp { dry: pulp.dry - passed, ..pulp }
    });
    let yield_share = drip.mass() / feed.mass();
    let mut run = Run::of("drip", drip);
    if settings.trace {
        run.trace = Some(course(&drip, time, settings)?);
    }
    run.streams =
        vec![Stream { name: "drip", batch: drip }, Stream { name: "gel", batch: network }];
    run.added = added;
    run.time = time;
    run.attended = settings.time("attended_time")?;
    let warmed = feed.mass() * (feed.heat_capacity()? * (at - feed.temperature));
    run.energy = EnergyBalance { supplied: warmed, into_food: warmed, ..EnergyBalance::default() };
    run.told = vec![("clear_share", yield_share), ("gel_mass", added.total().si())];
    Ok(run.clocked())
}

fn course(drip: &Batch, end: Time, settings: &Settings<'_>) -> Result<Trace, ProcessError> {
    let start = settings.time("setting_time")?;
    let dripping = end - start;
    let point = |index: u32| {
        let share = f64::from(index) / f64::from(POINTS);
        Point {
            time: start + dripping * share,
            mass: drip.mass() * share,
            temperature: Temperature::from_kelvin(drip.temperature.kelvin()),
            measure: share,
            aroma: 1.0,
        }
    };
    Ok(Trace::of("liquid collected (share)", (1..=POINTS).map(point).collect()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::settling::SizeDistribution;
    use crate::process::testing::{Bench, food};
    use crate::quantity::Length;

    fn juice(pulp: f64) -> Batch {
        let mut juice = food(&[
            (Component::Water, 880.0),
            (Component::Sugars, 100.0),
            (Component::Fibre, pulp),
        ]);
        juice.pulp = Some(Pulp {
            dry: Mass::from_grams(pulp),
            sizes: SizeDistribution::new(Length::from_micrometres(30.0), 2.5).unwrap(),
            density_difference: 30.0,
            water_holding: 15.0,
        });
        juice
    }

    fn gel(way: &str) -> Bench {
        Bench::of(NAME)
            .mode("way", way)
            .with("gel_dose", 0.0025)
            .with("drip_yield", 0.7)
            .with("dissolving_temperature", Temperature::from_celsius(95.0).kelvin())
            .with("setting_time", 7200.0)
            .with("dripping_time", 36_000.0)
    }

    #[test]
    fn the_drip_is_clear_and_a_thawing_block_gives_its_sugar_first() {
        let feed = juice(5.0);
        let run = gel("freeze-thaw").traced().run(&feed).unwrap();
        let drip = run.streams[0].batch;
        assert!(drip.suspended_share() < 0.1 * feed.suspended_share());
        assert!(drip.contents.soluble_solids() > feed.contents.soluble_solids());
        let broken = gel("break").run(&feed).unwrap().streams[0].batch;
        let gap = broken.contents.soluble_solids() / feed.contents.soluble_solids() - 1.0;
        assert!(gap.abs() < 0.01, "{gap}");
    }

    #[test]
    fn a_puree_is_too_thick() {
        let puree = gel("break").run(&juice(60.0));
        assert!(matches!(puree, Err(ProcessError::CannotWork { .. })));
    }
}
