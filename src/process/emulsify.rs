//! Making fat droplets fine: rotor-stator, valve, blender, hand blender, ultrasound, whisk.
//!
//! Answers how fine the droplets get, whether the emulsifier covers them, and how soon it creams.
//!
//! Turbulence and the tension of the interface set the size that long mixing reaches, grown by the
//! viscosity of the oil and by crowding (Hinze's law in its form for mixers,
//! [`crate::physics::droplets`]); a valve by its pressure. A whisk and an ultrasonic horn reach a
//! stated size. Droplets that the emulsifier cannot cover run together again, so the final size is
//! the larger of the two. Each passage through the rotor brings the droplets nearer to it.
//!
//! Symbols: phi volume share of droplets, d₃₂ their mean by volume over surface.

use super::heat::expose;
use super::warming::rise;
use super::{Batch, Component, EnergyBalance, Point, ProcessError, Run, Settings, Trace};
use crate::physics::PhysicsError;
use crate::physics::droplets::mixing::{POURED_DROPLET, passes, size_after_passes};
use crate::physics::droplets::stability::finest_covered;
use crate::physics::droplets::turbulent::{
    DROPLET_SHARE, LiquidPair, MILK_IN_VALVE, OPEN_BLADE, ROTOR_STATOR, mixer_sauter_mean,
};
use crate::physics::settling::SizeDistribution;
use crate::quantity::{
    Density, Energy, Length, Mass, Power, Pressure, SurfaceTension, Time, Viscosity, Volume,
};

/// The name of the process.
pub const NAME: &str = "emulsify";
const DEVICES: &[&str] =
    &["rotor-stator", "valve", "blender", "hand-blender", "ultrasound", "whisk"];
/// Density of fat and oil at serving temperature: 0.92 kg/L (Choi & Okos 1986).
const OIL_DENSITY: Density = Density::from_kilograms_per_cubic_metre(920.0);
/// Volume shares of droplets beyond which they are pressed together; counted at this in the law.
const MOST_CROWDED: f64 = 0.59;
/// Density that the stated thickness of an emulsifier layer assumes [kg/m³].
const LAYER_DENSITY: f64 = 1000.0;
/// Points of the drawn course.
const POINTS: u32 = 16;
/// Heat that makes an emulsion boil over [°C].
const HOTTEST: f64 = 98.0;

/// Runs the model.
///
/// # Errors
/// [`ProcessError::CannotWork`] without fat, with more fat than stays in droplets, or when it would
/// boil; missing settings; laws asked outside their range.
pub fn run(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let device = settings.mode("device", DEVICES)?;
    let oil = feed.contents.mass(Component::Fat) / OIL_DENSITY;
    let share = droplet_share(feed, oil, settings)?;
    let start = feed.droplets.map_or(POURED_DROPLET, |sizes| sizes.sauter_mean());
    let reachable = reachable(feed, device, share, settings)?;
    let covered = covered(feed, oil, settings)?;
    let end = reachable.max(covered);
    let approach = Approach { device, start, end, volume: feed.mass() / feed.density()? };
    let work = work(device, feed.mass(), approach.volume, settings)?;
    let size = approach.after(work.time, settings)?;
    let mut batch = *feed;
    let spread = settings.number("droplet_spread")?.max(1.0);
    let median = size * (0.5 * spread.ln().powi(2)).exp();
    batch.droplets = Some(SizeDistribution::new(median, spread)?);
    let heat = work.energy * settings.share("heat_share")?;
    batch.temperature = batch.temperature + rise(feed, heat)?;
    if batch.temperature.celsius() > HOTTEST {
        let because = format!("the work would bring it to {:.0} °C", batch.temperature.celsius());
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    batch.air = feed.air.max(settings.number("air_gain")?);
    batch.aroma.scale(1.0 - settings.share("aroma_lost")?);
    let dissolved = batch.contents.soluble_solids();
    expose(&mut batch.heat, batch.temperature, work.time, dissolved);
    let mut run = Run::of("emulsion", batch);
    run.attended = settings.time("handling_time")? + work.time;
    run.time = run.attended;
    run.energy = EnergyBalance {
        supplied: work.energy,
        into_food: heat,
        into_vapour: Energy::ZERO,
        lost: work.energy - heat,
    };
    run.told = vec![
        ("droplet_size", size.metres()),
        ("reachable_size", reachable.metres()),
        ("covered_size", covered.metres()),
        ("droplet_share", share),
        ("end_temperature", batch.temperature.kelvin()),
        ("passes", work.passes),
    ];
    run.told.extend(batch.time_to_cream().map(|time| ("time_to_cream", time.seconds())));
    if settings.trace {
        run.trace = Some(course(&batch, &approach, work.time, settings)?);
    }
    Ok(run.clocked())
}

/// Volume share of droplets, refused without fat and where the fat is the larger part by far.
fn droplet_share(feed: &Batch, oil: Volume, settings: &Settings<'_>) -> Result<f64, ProcessError> {
    let share = oil.cubic_metres() / (feed.mass() / feed.density()?).cubic_metres();
    let most = settings.share("most_fat_volume")?;
    if oil <= Volume::ZERO || share > most {
        let because = format!(
            "fat makes up {:.0} % of its volume, and droplets hold between 0 and {:.0} %",
            100.0 * share,
            100.0 * most
        );
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    Ok(share)
}

/// The mean droplet that the device reaches in the end.
fn reachable(
    feed: &Batch,
    device: &str,
    share: f64,
    settings: &Settings<'_>,
) -> Result<Length, ProcessError> {
    let law = match device {
        "valve" => return Ok(MILK_IN_VALVE.sauter_mean(settings.pressure("pressure_difference")?)?),
        "ultrasound" | "whisk" => return settings.length("limit_droplet"),
        "rotor-stator" => ROTOR_STATOR,
        _ => OPEN_BLADE,
    };
    let liquids = LiquidPair {
        tension: SurfaceTension::from_si(settings.number("interfacial_tension")?),
        continuous_density: feed.liquid_density(feed.temperature)?,
        dispersed_density: OIL_DENSITY,
        dispersed_viscosity: Viscosity::from_si(settings.number("oil_viscosity")?),
    };
    let crowded = share.min(MOST_CROWDED.min(DROPLET_SHARE.high));
    let diameter = settings.length("rotor_diameter")?;
    let size = mixer_sauter_mean(law, &liquids, diameter, settings.rotation("rotation")?, crowded)?;
    let coarser = if device == "rotor-stator" { 1.0 } else { settings.number("jar_coarsening")? };
    Ok(size * coarser)
}

/// The finest mean that the emulsifier covers; nothing holds it back when no fat is there.
fn covered(feed: &Batch, oil: Volume, settings: &Settings<'_>) -> Result<Length, ProcessError> {
    let fat = feed.contents.mass(Component::Fat);
    let protein = feed.contents.mass(Component::Protein) * settings.share("active_protein")?;
    let emulsifier = fat * settings.share("emulsifier_in_fat")? + protein;
    let layer = settings.length("emulsifier_layer")?.metres() * LAYER_DENSITY;
    finest_covered(oil, emulsifier, layer).map_err(|error| {
        if matches!(error, PhysicsError::NotPositive { .. }) {
            let because = "it holds 0 g of emulsifier: no protein, no lecithin".to_owned();
            ProcessError::CannotWork { process: NAME, because }
        } else {
            error.into()
        }
    })
}

/// Work and time.
struct Work {
    energy: Energy,
    time: Time,
    passes: f64,
}

fn work(
    device: &str,
    mass: Mass,
    volume: Volume,
    settings: &Settings<'_>,
) -> Result<Work, ProcessError> {
    if device == "valve" {
        let pressure: Pressure = settings.pressure("pressure_difference")?;
        let times = settings.number("valve_passes")?.round().max(1.0);
        let energy = Energy::from_joules(pressure.pascals() * volume.cubic_metres() * times);
        let flow = settings.number("valve_flow")?.max(f64::MIN_POSITIVE);
        let time = Time::from_seconds(mass.kilograms() * times / flow);
        return Ok(Work { energy, time, passes: times });
    }
    let time = settings.time("time")?;
    let power: Power = settings.power("power")?;
    let passes = match device {
        "ultrasound" | "whisk" => time / settings.time("time_constant")?,
        _ => passes(
            settings.length("rotor_diameter")?,
            settings.rotation("rotation")?,
            time,
            volume,
        )?,
    };
    Ok(Work { energy: power * time, time, passes })
}

/// How the droplets come to their final size.
struct Approach {
    device: &'static str,
    start: Length,
    end: Length,
    volume: Volume,
}

impl Approach {
    fn after(&self, time: Time, settings: &Settings<'_>) -> Result<Length, ProcessError> {
        let end = self.end.min(self.start);
        match self.device {
            "valve" => Ok(end),
            "ultrasound" | "whisk" => {
                let done = (-(time / settings.time("time_constant")?)).exp();
                Ok(end + (self.start - end) * done)
            }
            _ => {
                let diameter = settings.length("rotor_diameter")?;
                let done = passes(diameter, settings.rotation("rotation")?, time, self.volume)?;
                Ok(size_after_passes(self.start, end, done)?)
            }
        }
    }
}

fn course(
    batch: &Batch,
    approach: &Approach,
    end: Time,
    settings: &Settings<'_>,
) -> Result<Trace, ProcessError> {
    let mut points = Vec::new();
    for point in 1..=POINTS {
        let time = end * (f64::from(point) / f64::from(POINTS));
        points.push(Point {
            time,
            mass: batch.mass(),
            temperature: batch.temperature,
            measure: approach.after(time, settings)?.metres(),
            aroma: 1.0,
        });
    }
    Ok(Trace::of("mean droplet, d32 (m)", points))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::process::testing::{Bench, food};

    fn dressing() -> Batch {
        food(&[(Component::Water, 680.0), (Component::Fat, 280.0), (Component::Protein, 40.0)])
    }

    fn rotor() -> Bench {
        Bench::of(NAME)
            .with("rotor_diameter", 0.025)
            .with("rotation", 10_000.0 / 60.0)
            .with("power", 300.0)
            .with("time", 300.0)
    }

    fn size(bench: &Bench) -> f64 {
        bench.run(&dressing()).unwrap().told("droplet_size").unwrap()
    }

    #[test]
    fn a_rotor_stator_makes_two_to_ten_micrometres() {
        // 2-10 µm: D. J. McClements, chapter on high-shear mixers, CRC Press (abstract).
        let micrometres = 1e6 * size(&rotor());
        assert!((2.0..12.0).contains(&micrometres), "{micrometres}");
    }

    #[test]
    fn a_valve_at_20_megapascals_makes_a_third_of_a_micrometre_in_milk() {
        // 0.33 µm at 20 MPa: P. Walstra et al., Dairy Science and Technology, 2006, from memory.
        let milk =
            food(&[(Component::Water, 875.0), (Component::Fat, 37.0), (Component::Protein, 33.0)]);
        let valve = Bench::of(NAME).mode("device", "valve").with("pressure_difference", 20e6);
        let micrometres = 1e6 * valve.run(&milk).unwrap().told("droplet_size").unwrap();
        assert!((0.25..0.5).contains(&micrometres), "{micrometres}");
    }

    #[test]
    fn time_speed_and_emulsifier_make_it_finer() {
        assert!(size(&rotor().with("time", 30.0)) > size(&rotor()));
        assert!(size(&rotor().with("rotation", 80.0)) > size(&rotor()));
        assert!(size(&rotor().mode("device", "blender")) > size(&rotor()));
        let mut poor = dressing();
        poor.contents[Component::Protein] = 2e-4;
        let poorly = rotor().with("emulsifier_in_fat", 1e-4);
        assert!(poorly.run(&poor).unwrap().told("covered_size").unwrap() > size(&rotor()));
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let water = food(&[(Component::Water, 1000.0), (Component::Protein, 5.0)]);
        assert!(matches!(rotor().run(&water), Err(ProcessError::CannotWork { .. })));
        let bare = food(&[(Component::Water, 700.0), (Component::Fat, 300.0)]);
        let bare = rotor().with("emulsifier_in_fat", 0.0).run(&bare);
        assert!(matches!(bare, Err(ProcessError::CannotWork { .. })), "{bare:?}");
        let hot = rotor().with("power", 2000.0).with("time", 1200.0).run(&dressing());
        assert!(matches!(hot, Err(ProcessError::CannotWork { .. })), "{hot:?}");
        let unset = Bench::of(NAME).with("time", 60.0).run(&dressing());
        assert!(matches!(unset, Err(ProcessError::MissingSetting { .. })));
    }
}
