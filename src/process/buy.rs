//! Buying a ready-made product instead of making it: stated, not computed.
//!
//! Answers how a bought product differs from the one made fresh, by stated shares: aroma, colour,
//! cooked flavour, sizes. It is counted as made elsewhere from the same food, so that a recipe that
//! buys concentrate still balances: the water that a maker took off counts as vapour.

use super::{
    Batch, Component, Contents, EnergyBalance, Point, ProcessError, Pulp, Run, Settings, Trace,
};
use crate::knowledge::NoteClass;
use crate::physics::settling::SizeDistribution;
use crate::quantity::{Length, Mass, Temperature, Time};

/// The name of the process.
pub const NAME: &str = "buy";

/// Runs the model.
///
/// # Errors
/// [`ProcessError::CannotWork`] when the product should be weaker than the food that it stands for;
/// missing settings.
pub fn run(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let mut batch = *feed;
    let water = water_taken(feed, settings)?;
    batch.contents[Component::Water] -= water;
    for (class, name) in [
        (NoteClass::Top, "bought_top_notes"),
        (NoteClass::Middle, "bought_middle_notes"),
        (NoteClass::Base, "bought_base_notes"),
    ] {
        let share = settings.share(name)?;
        batch.aroma.iter_mut().filter(|m| m.class == class).for_each(|m| m.left *= share);
    }
    let cooked = settings.time("bought_cooked")?;
    batch.heat.cooked += cooked;
    batch.heat.colour *= settings.share("bought_colour")?;
    batch.heat.vitamin_c *= settings.share("bought_vitamin_c")?;
    if cooked > Time::ZERO {
        let hottest = settings.temperature("bought_heated_to")?;
        batch.heat.hottest = batch.heat.hottest.max(hottest);
    }
    batch.temperature = settings
        .optional("bought_temperature")
        .map_or(settings.place.room_temperature, Temperature::from_si);
    sizes(&mut batch, settings)?;
    let mut run = Run::of("product", batch);
    run.vapour = Contents::only(Component::Water, Mass::from_kilograms(water));
    run.attended = settings.time("handling_time")?;
    run.time = run.attended;
    run.energy = EnergyBalance::default();
    run.told = vec![("bought_mass", batch.mass().kilograms())];
    if settings.trace {
        let point = Point {
            time: run.time,
            mass: batch.mass(),
            temperature: batch.temperature,
            measure: 1.0,
            aroma: batch.aroma.left(NoteClass::Middle).unwrap_or(1.0),
        };
        run.trace = Some(Trace { measure: "bought (share)", points: vec![point] });
    }
    Ok(run.clocked())
}

/// The water that the product has less than the food, when it is sold concentrated.
fn water_taken(feed: &Batch, settings: &Settings<'_>) -> Result<f64, ProcessError> {
    let Some(target) = settings.optional("target_soluble_solids") else { return Ok(0.0) };
    let before = feed.contents.soluble_solids();
    if target < before * (1.0 - ROUNDING) || target >= 1.0 {
        let because = format!(
            "it should have {:.1} °Brix, and the food has {:.1} °Brix; dilute it instead",
            100.0 * target,
            100.0 * before
        );
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    let solutes = feed.contents.solutes().kilograms();
    let water = solutes / target - solutes - feed.contents[Component::Ethanol];
    Ok((feed.contents[Component::Water] - water).clamp(0.0, feed.contents[Component::Water]))
}

/// Strengths that a label rounds may lie this much below.
const ROUNDING: f64 = 1e-9;

/// Sizes as the label or the maker states them, when they are set.
fn sizes(batch: &mut Batch, settings: &Settings<'_>) -> Result<(), ProcessError> {
    let spread = settings.number("bought_spread")?.max(1.0);
    let of = |d90: f64| -> Result<SizeDistribution, ProcessError> {
        let shape = SizeDistribution::new(Length::from_si(d90), spread)?;
        Ok(shape.scaled(d90 / shape.d90().metres()))
    };
    if let Some(size) = settings.optional("bought_grain") {
        batch.grain = Some(of(size)?);
    }
    if let Some(size) = settings.optional("bought_particles") {
        let sizes = of(size)?;
        batch.pulp = batch.pulp.map(|pulp| Pulp { sizes, ..pulp });
    }
    if let Some(size) = settings.optional("bought_droplet") {
        let median = Length::from_si(size) * (0.5 * spread.ln().powi(2)).exp();
        batch.droplets = Some(SizeDistribution::new(median, spread)?);
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::process::testing::{Bench, food};

    fn juice() -> Batch {
        food(&[(Component::Water, 880.0), (Component::Sugars, 120.0)])
    }

    #[test]
    fn a_concentrate_has_less_water_and_the_same_solids() {
        let run = Bench::of(NAME).with("target_soluble_solids", 0.6).run(&juice()).unwrap();
        let product = run.streams[0].batch;
        assert!((product.contents.soluble_solids() - 0.6).abs() < 1e-9);
        assert!((product.contents[Component::Sugars] - 0.12).abs() < 1e-12);
    }

    #[test]
    fn stated_sizes_are_taken() {
        let bench = Bench::of(NAME).with("bought_grain", 2e-5).with("bought_droplet", 1e-6);
        let product = bench.run(&juice()).unwrap().streams[0].batch;
        assert!((product.grain.unwrap().d90().micrometres() - 20.0).abs() < 1e-6);
        assert!((product.droplets.unwrap().sauter_mean().micrometres() - 1.0).abs() < 1e-6);
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let weak = Bench::of(NAME).with("target_soluble_solids", 0.05).run(&juice());
        assert!(matches!(weak, Err(ProcessError::CannotWork { .. })));
        let unset = Bench::of(NAME).without("bought_colour").run(&juice());
        assert!(matches!(unset, Err(ProcessError::MissingSetting { .. })));
    }
}
