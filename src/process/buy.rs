//! Buying a ready-made product instead of making it: stated, not computed.
//!
//! Answers how a bought product differs from the one made fresh, by stated shares: aroma, colour,
//! cooked flavour, sizes. It is counted as made elsewhere from the same food, so that a recipe that
//! buys concentrate still balances: the water and alcohol that a maker took off count as vapour, fat as left behind.

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
    let (ethanol, fat) = (ethanol_taken(&batch, settings), fat_taken(&batch, settings));
    batch.contents[Component::Ethanol] -= ethanol;
    batch.contents[Component::Fat] -= fat;
    if let Some(volume) = settings.optional("bought_volume") {
        batch.volume_left *= volume.clamp(0.0, 1.0);
    }
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
    run.vapour[Component::Ethanol] = ethanol;
    run.left_behind = Contents::only(Component::Fat, Mass::from_kilograms(fat));
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
        run.trace = Some(Trace::of("bought (share)", vec![point]));
    }
    Ok(run.clocked())
}

/// The water that the product has less than the food, when it is sold concentrated.
fn water_taken(feed: &Batch, settings: &Settings<'_>) -> Result<f64, ProcessError> {
    let water = feed.contents[Component::Water];
    if let Some(share) = settings.optional("target_moisture") {
        let dry = feed.contents.dry_matter().kilograms();
        let share = share.clamp(0.0, MOST_MOISTURE);
        return Ok((water - dry * share / (1.0 - share)).clamp(0.0, water));
    }
    let Some(target) = settings.optional("target_soluble_solids") else {
        let share = settings.optional("target_water_removed").unwrap_or(0.0);
        return Ok((share * feed.mass().kilograms()).clamp(0.0, water));
    };
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

/// Alcohol that the maker has taken out, when the label states what is left.
fn ethanol_taken(batch: &Batch, settings: &Settings<'_>) -> f64 {
    let before = batch.alcohol_by_volume();
    match settings.optional("bought_alcohol") {
        Some(left) if before > left => batch.contents[Component::Ethanol] * (1.0 - left / before),
        _ => 0.0,
    }
}

/// Fat that the maker has taken out, when the label states what is left.
fn fat_taken(batch: &Batch, settings: &Settings<'_>) -> f64 {
    let fat = batch.contents[Component::Fat];
    let rest = batch.mass().kilograms() - fat;
    match settings.optional("bought_fat") {
        Some(left) if left < 1.0 => (fat - rest * left / (1.0 - left)).max(0.0),
        _ => 0.0,
    }
}

/// A food of which more than this is water is not sold as dry.
const MOST_MOISTURE: f64 = 0.99;
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
