//! Parting fat from a liquid: a lid of set fat on cold broth, cream that rises, cream spun off.
//!
//! Answers how much fat stays in the lean part, and how much of the fat is won.
//!
//! Fat globules rise by Stokes' law with crowding, integrated over their sizes, in a jar or under
//! the force of a rotor; the globules of cold, fresh milk join to clusters that rise far faster
//! ([`crate::physics::settling::cream`]). The layer holds the liquid that its own share of fat
//! leaves room for. What is ladled or lifted off is a share of the layer.

use super::warming::hold;
use super::{Batch, Component, EnergyBalance, Point, ProcessError, Run, Settings, Stream, Trace};
use crate::physics::settling::batch::{Left, Vessel};
use crate::physics::settling::cream::{COLD_MILK_FAT, fat_left, globule_sizes};
use crate::physics::settling::{Liquid, SizeDistribution, Suspension, relative_force};
use crate::quantity::{Acceleration, Density, Time};

/// The name of the process.
pub const NAME: &str = "part-cold";
const WAYS: &[&str] = &["still", "spin"];
const GLOBULES: &[&str] = &["single", "clusters"];
/// Fat is liquid from here up and set below [°C]: milk fat and lard melt between 20 and 40 °C.
/// Estimate: the middle of that range.
const LIQUID_FAT_FROM: f64 = 30.0;
/// Density of liquid fat [kg/m³]: 900-915 at 40-50 °C (Y. Choi & M. R. Okos, 1986).
const LIQUID_FAT: Density = Density::from_kilograms_per_cubic_metre(910.0);
/// Globules move freely while they fill less than this share; thicker is counted at it. Richardson &
/// Zaki 1954 holds to about 0.4.
const MOST_CROWDING: f64 = 0.35;
/// Points of the drawn course.
const POINTS: u32 = 12;

/// Runs the model.
///
/// # Errors
/// [`ProcessError::CannotWork`] for a batch without fat, or when practically none of it rises;
/// missing settings; laws asked outside their range.
pub fn run(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let fat = feed.contents[Component::Fat];
    if fat <= 0.0 {
        let because = "it has 0 g of fat".to_owned();
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    let at = settings.temperature("parting_temperature")?;
    let time = settings.time("time")?;
    let mut cooled = *feed;
    let energy = hold(&mut cooled, at, time)?;
    let rising = Rising::read(&cooled, settings)?;
    let left = rising.left(time)?;
    let risen = 1.0 - left.share;
    if risen < settings.share("least_risen")? {
        let because =
            format!("only {:.1} % of the fat has risen after {:.1} h", 100.0 * risen, time.hours());
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    let streams = parted(&cooled, &left, settings)?;
    finish(feed, streams, &rising, energy, settings)
}

/// The globules, the liquid and the vessel.
struct Rising {
    sizes: SizeDistribution,
    suspension: Suspension,
    vessel: Vessel,
    clusters: bool,
    force: f64,
}

impl Rising {
    fn read(batch: &Batch, settings: &Settings<'_>) -> Result<Self, ProcessError> {
        let sizes = match batch.droplets {
            Some(sizes) => sizes,
            None => globule_sizes(settings.length("droplet_median")?)?,
        };
        let at = batch.temperature;
        let particle_density =
            if at.celsius() < LIQUID_FAT_FROM { COLD_MILK_FAT } else { LIQUID_FAT };
        let liquid =
            Liquid { density: batch.liquid_density(at)?, viscosity: batch.liquid_viscosity(at)? };
        let volume = batch.mass() / batch.density()?;
        let crowding = batch.contents.mass(Component::Fat) / particle_density / volume;
        let suspension =
            Suspension { particle_density, liquid, crowding: crowding.min(MOST_CROWDING) };
        let depth = settings.length("liquid_depth")?;
        let one = Acceleration::from_standard_gravities(1.0);
        let (vessel, force) = if settings.mode("way", WAYS)? == "spin" {
            let outer = settings.length("outer_radius")?;
            let rotation = settings.rotation("rotation")?;
            let force = relative_force(rotation, outer - depth * 0.5)?;
            (Vessel::Rotor { rotation, inner: outer - depth, outer }, force.si())
        } else {
            (Vessel::Jar { depth, acceleration: one }, one.si())
        };
        let clusters = settings.mode("globules", GLOBULES)? == "clusters";
        Ok(Self { sizes, suspension, vessel, clusters, force })
    }

    fn left(&self, time: Time) -> Result<Left, ProcessError> {
        Ok(fat_left(&self.sizes, &self.suspension, self.vessel, time, self.clusters)?)
    }
}

/// Divides into the lean part and the layer that was taken off.
fn parted(
    batch: &Batch,
    left: &Left,
    settings: &Settings<'_>,
) -> Result<[Stream; 2], ProcessError> {
    let risen = batch.contents[Component::Fat] * (1.0 - left.share);
    let taken = risen * settings.share("lifted_off")?;
    let mut serum = batch.contents;
    serum[Component::Fat] = 0.0;
    let serum_mass = serum.total().kilograms();
    let richness = settings.share("layer_fat")?.max(f64::EPSILON);
    let with_it = (taken * (1.0 - richness) / richness).min(serum_mass);
    let share = if serum_mass > 0.0 { with_it / serum_mass } else { 0.0 };
    let mut layer = batch.part(share);
    layer.contents = serum * share;
    layer.contents[Component::Fat] = taken;
    let mut lean = batch.part(1.0 - share);
    lean.contents = serum * (1.0 - share);
    lean.contents[Component::Fat] = batch.contents[Component::Fat] - taken;
    lean.droplets = left.sizes.or(batch.droplets);
    Ok([Stream { name: "lean", batch: lean }, Stream { name: "fat", batch: layer }])
}

fn finish(
    feed: &Batch,
    streams: [Stream; 2],
    rising: &Rising,
    energy: EnergyBalance,
    settings: &Settings<'_>,
) -> Result<Run, ProcessError> {
    let fat = feed.contents[Component::Fat];
    let time = settings.time("time")?;
    let mut run = Run::of("lean", streams[0].batch);
    if settings.trace {
        run.trace = Some(course(&streams[0].batch, rising, time)?);
    }
    let loads = match settings.optional("volume") {
        Some(volume) => (feed.volume()?.cubic_metres() / volume).ceil().max(1.0),
        None => 1.0,
    };
    let spun = settings.mode("way", WAYS)? == "spin";
    run.attended = settings.time("handling_time")? * loads;
    run.time = if spun { time * loads } else { time } + run.attended;
    run.told = vec![
        ("fat_left", streams[0].batch.contents.share(Component::Fat)),
        ("fat_recovered", streams[1].batch.contents[Component::Fat] / fat),
        ("layer_mass", streams[1].batch.mass().kilograms()),
        ("force", rising.force),
        ("loads", loads),
    ];
    run.streams = streams.to_vec();
    run.energy = energy;
    Ok(run.clocked())
}

fn course(lean: &Batch, rising: &Rising, end: Time) -> Result<Trace, ProcessError> {
    let mut points = Vec::new();
    for point in 1..=POINTS {
        let time = end * (f64::from(point) / f64::from(POINTS));
        points.push(Point {
            time,
            mass: lean.mass(),
            temperature: lean.temperature,
            measure: rising.left(time)?.share,
            aroma: 1.0,
        });
    }
    Ok(Trace::of("fat that has not risen (share)", points))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::process::testing::{Bench, food};
    use crate::quantity::Length;

    fn milk() -> Batch {
        let mut milk = food(&[
            (Component::Water, 875.0),
            (Component::Sugars, 48.0),
            (Component::Protein, 33.0),
            (Component::Fat, 37.0),
            (Component::Other, 7.0),
        ]);
        milk.droplets = Some(globule_sizes(Length::from_micrometres(4.0)).unwrap());
        milk
    }

    fn jar() -> Bench {
        Bench::of(NAME).with("liquid_depth", 0.1).with("time", 86_400.0).with("layer_fat", 0.22)
    }

    fn left(bench: &Bench) -> f64 {
        bench.run(&milk()).unwrap().told("fat_left").unwrap()
    }

    #[test]
    fn a_day_in_a_shallow_pan_leaves_half_a_per_cent() {
        // 0.44 % after 24 h: Purdue Bulletin 116, from memory.
        let clusters = jar().mode("globules", "clusters").with("lifted_off", 1.0);
        assert!((0.002..0.009).contains(&left(&clusters)), "{}", left(&clusters));
    }

    #[test]
    fn single_globules_rise_slower_and_a_rotor_faster() {
        let single = jar().with("time", 3600.0 * 12.0).with("least_risen", 0.0);
        assert!(left(&single) > left(&single.clone().mode("globules", "clusters")));
        let spun = single
            .clone()
            .mode("way", "spin")
            .with("time", 600.0)
            .with("outer_radius", 0.12)
            .with("rotation", 50.0);
        assert!(left(&spun) < left(&single));
    }

    #[test]
    fn what_does_not_rise_is_refused() {
        let quick = jar().with("time", 60.0).run(&milk());
        assert!(matches!(quick, Err(ProcessError::CannotWork { .. })), "{quick:?}");
        let lean = food(&[(Component::Water, 1000.0)]);
        assert!(matches!(jar().run(&lean), Err(ProcessError::CannotWork { .. })));
        let unset = jar().without("parting_temperature").run(&milk());
        assert!(matches!(unset, Err(ProcessError::MissingSetting { .. })));
    }
}
