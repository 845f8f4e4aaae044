//! What grinding dry and shearing wet have in common: the machine's limit, its heat and its rests.

use super::warming::rise;
use super::{Batch, EnergyBalance, ProcessError, Settings};
use crate::physics::grinding::Grinder;
use crate::physics::settling::SizeDistribution;
use crate::quantity::{Energy, Length, Temperature, Time};

/// What a machine does to the particles in a time.
pub(super) struct Ground {
    /// Size below which nine tenths of the mass lie.
    pub d90: Length,
    /// Running time.
    pub running: Time,
    /// Time with the rests that keep the food below the highest temperature.
    pub whole: Time,
    /// Temperature at the end of the last burst.
    pub temperature: Temperature,
    /// Heat that went where.
    pub energy: EnergyBalance,
}

/// Returns the machine with its limit and time constant.
pub(super) fn machine(settings: &Settings<'_>) -> Result<Grinder, ProcessError> {
    Ok(Grinder {
        limit: settings.length("limit_size")?,
        time_constant: settings.time("time_constant")?,
    })
}

/// Runs a machine on a food whose grains are `feed` in size.
///
/// Work that becomes heat warms the food; above `highest_temperature`, when that is set, the cook
/// lets it rest until it is as cool as before.
pub(super) fn grind(
    batch: &Batch,
    feed: Length,
    settings: &Settings<'_>,
) -> Result<Ground, ProcessError> {
    let machine = machine(settings)?;
    let running = running_time(&machine, feed, settings)?;
    let d90 = machine.size_after(feed, running)?;
    let work = settings.power("power")? * running;
    let heat = work * settings.share("heat_share")?;
    let warmer = rise(batch, heat)?;
    let highest = settings.optional("highest_temperature").map(Temperature::from_si);
    let room = highest.map(|highest| highest - batch.temperature);
    let bursts = match room {
        Some(room) if room.kelvin() <= 0.0 => {
            let because = format!(
                "it already has {:.1} °C, and should stay below {:.1} °C",
                batch.temperature.celsius(),
                highest.map_or(f64::NAN, Temperature::celsius)
            );
            return Err(ProcessError::CannotWork { process: settings.process, because });
        }
        Some(room) => (warmer / room).ceil().max(1.0),
        None => 1.0,
    };
    let kept = heat / bursts;
    let temperature = batch.temperature + warmer / bursts;
    let rests = settings.time("rest_time")? * (bursts - 1.0);
    let energy = EnergyBalance {
        supplied: work,
        into_food: kept,
        into_vapour: Energy::ZERO,
        lost: work - kept,
    };
    Ok(Ground { d90, running, whole: running + rests, temperature, energy })
}

/// The time that is set, or the time to the size that is wanted.
fn running_time(
    machine: &Grinder,
    feed: Length,
    settings: &Settings<'_>,
) -> Result<Time, ProcessError> {
    let Some(target) = settings.optional("target_largest_grain").map(Length::from_si) else {
        return settings.time("time");
    };
    if target <= machine.limit && feed > machine.limit {
        let because = format!(
            "it grinds to {:.0} µm at best, and {:.0} µm are wanted",
            machine.limit.micrometres(),
            target.micrometres()
        );
        return Err(ProcessError::CannotWork { process: settings.process, because });
    }
    Ok(machine.time_to(feed, target)?)
}

/// Returns the distribution of a d90 with the spread that the machine leaves.
pub(super) fn sizes(
    d90: Length,
    settings: &Settings<'_>,
) -> Result<SizeDistribution, ProcessError> {
    let shape = SizeDistribution::new(d90, settings.number("grain_spread")?.max(1.0))?;
    Ok(shape.scaled(d90 / shape.d90()))
}
