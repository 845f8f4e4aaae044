//! Alcohol left by flaming, and by stirring into a boiling liquid off the heat: stated shares.

use super::NAME;
use crate::physics::ethanol_water::{ethanol_latent_heat, temperature_at_lower_flammable_limit};
use crate::process::{Batch, Component, Contents, EnergyBalance, ProcessError, Run, Settings};
use crate::quantity::{Energy, Mass, Temperature, Time};

const PER_CENT: f64 = 100.0;

/// Runs the model from a stated share.
pub(super) fn run(feed: &Batch, settings: &Settings<'_>, word: &str) -> Result<Run, ProcessError> {
    let (retained, time) = if word == "flame" {
        burns(feed)?;
        (settings.share("flame_retained")?, settings.time("flame_time")?)
    } else {
        (settings.share("off_heat_retained")?, Time::ZERO)
    };
    let gone = feed.contents[Component::Ethanol] * (1.0 - retained);
    let mut product = *feed;
    product.contents[Component::Ethanol] -= gone;
    let warm = Temperature::from_celsius(feed.temperature.celsius().clamp(0.0, 100.0));
    let heat = Mass::from_kilograms(gone) * ethanol_latent_heat(warm)?;
    let mut run = Run::of("product", product);
    run.vapour = Contents::only(Component::Ethanol, Mass::from_kilograms(gone));
    run.time = time;
    run.attended = time;
    run.energy = EnergyBalance {
        supplied: heat,
        into_food: Energy::ZERO,
        into_vapour: heat,
        lost: Energy::ZERO,
    };
    run.told = vec![
        ("alcohol_strength", product.alcohol_by_volume()),
        ("alcohol_retained", retained),
        ("alcohol_vapour", gone),
    ];
    Ok(run.clocked())
}

/// Refuses a liquid whose vapour does not burn at its temperature.
fn burns(feed: &Batch) -> Result<(), ProcessError> {
    let contents = &feed.contents;
    let liquid = contents[Component::Ethanol] + contents[Component::Water];
    let share = if liquid > 0.0 { contents[Component::Ethanol] / liquid } else { 0.0 };
    let weak = |at: String| ProcessError::CannotWork {
        process: NAME,
        because: format!(
            "at {:.1} % alcohol by volume it {at}",
            PER_CENT * feed.alcohol_by_volume()
        ),
    };
    let limit = temperature_at_lower_flammable_limit(share)
        .map_err(|_| weak("does not burn at any kitchen temperature".to_owned()))?;
    if feed.temperature < limit {
        let at = format!(
            "burns from {:.0} °C up, and it has {:.0} °C",
            limit.celsius(),
            feed.temperature.celsius()
        );
        return Err(weak(at));
    }
    Ok(())
}
