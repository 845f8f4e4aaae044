//! Spinning a cloudy liquid, and letting it settle: the same law under another force.
//!
//! Answers how much clear liquid stands over the sediment after a time, and what still floats in it.
//!
//! Each particle size leaves the liquid at its own speed (Stokes with drag and crowding,
//! [`crate::physics::settling`]); what is left is integrated over the log-normal sizes. The sediment
//! holds liquid according to the force that packed it: `w(G) = w(1000 g) (G / 1000)^-n`, so the yield
//! of clear liquid is what the sediment does not hold. A network of pulp thicker than its own
//! sediment does not part at all. Fining gathers a share of the particles into flakes, which sink by
//! the same law at their own size.
//!
//! Symbols: w liquid held per dry matter [kg/kg], G force in multiples of gravity.

use super::heat::expose;
use super::part::{Parting, crowding, dry, part};
use super::{Batch, EnergyBalance, Point, ProcessError, Run, Settings, Trace};
use crate::physics::settling::batch::{Vessel, left_after};
use crate::physics::settling::{Liquid, SizeDistribution, Suspension, relative_force};
use crate::quantity::{Acceleration, Density, Length, Mass, RotationSpeed, Time};

/// The name of the process.
pub const NAME: &str = "spin";
/// The name of the process without a rotor.
pub const SETTLE: &str = "settle";
/// The force to which a food's water holding is stated \[g\].
const REFERENCE_FORCE: f64 = 1000.0;
/// Particles move freely while they fill less than this share of the liquid; a thicker pulp moves as
/// a whole and is counted at this crowding. Richardson & Zaki 1954 holds to about 0.4.
const MOST_CROWDING: f64 = 0.35;
/// Points of the drawn course.
const POINTS: u32 = 16;
/// Share of the clear liquid at which pouring off is worth the trouble. Common practice.
const WORTH_POURING: f64 = 0.02;

/// Spins the batch.
///
/// # Errors
/// [`ProcessError`] for a missing setting or a batch without suspended matter.
pub fn run(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let outer = settings.length("outer_radius")?;
    let depth = settings.length("liquid_depth")?;
    let rotation = settings.rotation("rotation")?;
    if let Some(limit) = settings.optional("rotation_limit")
        && rotation.si() > limit
    {
        let because = format!(
            "{:.0} rpm are asked of a rotor that may turn at {:.0} rpm",
            rotation.rpm(),
            RotationSpeed::from_si(limit).rpm()
        );
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    let force = relative_force(rotation, outer - depth * 0.5)?;
    let vessel = Vessel::Rotor { rotation, inner: outer - depth, outer };
    let mut run = separate(feed, settings, vessel, force)?;
    let loads = capacity_loads(feed, settings)?;
    run.time = run.time * loads + settings.time("handling_time")? * loads;
    run.attended = settings.time("handling_time")? * loads;
    run.told.push(("loads", loads));
    Ok(run.clocked())
}

/// Lets the batch stand.
///
/// # Errors
/// As [`run`].
pub fn settle(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let depth = settings.length("liquid_depth")?;
    let force = Acceleration::from_standard_gravities(1.0);
    let vessel = Vessel::Jar { depth, acceleration: force };
    let mut cold = *feed;
    cold.temperature = settings.temperature("settling_temperature")?;
    let mut run = separate(&cold, settings, vessel, force)?;
    let cooled = feed.mass() * (feed.heat_capacity()? * (cold.temperature - feed.temperature));
    run.energy = EnergyBalance { supplied: cooled, into_food: cooled, ..run.energy };
    run.attended = settings.time("handling_time")?;
    run.time += run.attended;
    Ok(run.clocked())
}

fn capacity_loads(feed: &Batch, settings: &Settings<'_>) -> Result<f64, ProcessError> {
    let capacity = settings.volume("volume")?;
    Ok((feed.volume()? / capacity).ceil().max(1.0))
}

/// The suspension as it is when the spinning begins.
fn suspension(feed: &Batch, held: f64) -> Result<Suspension, ProcessError> {
    let difference = feed.pulp.map_or(0.0, |pulp| pulp.density_difference);
    let density = feed.liquid_density(feed.temperature)?;
    Ok(Suspension {
        particle_density: density + Density::from_si(difference),
        liquid: Liquid { density, viscosity: feed.liquid_viscosity(feed.temperature)? },
        crowding: crowding(feed, held).min(MOST_CROWDING),
    })
}

fn separate(
    feed: &Batch,
    settings: &Settings<'_>,
    vessel: Vessel,
    force: Acceleration,
) -> Result<Run, ProcessError> {
    let Some(pulp) = feed.pulp.filter(|_| dry(feed) > Mass::ZERO) else {
        let because = "nothing is suspended in it".to_owned();
        return Err(ProcessError::CannotWork { process: settings.process, because });
    };
    let exponent = settings.number("packing_exponent")?;
    let force_ratio = force.standard_gravities() / REFERENCE_FORCE;
    let held = pulp.water_holding * force_ratio.powf(-exponent);
    let at_rest = pulp.water_holding * (1.0 / REFERENCE_FORCE).powf(-exponent);
    let suspension = suspension(feed, at_rest)?;
    let time = settings.time("time")?;
    let flocs = Flocs::read(settings, &pulp.sizes)?;
    let parted = |time: Time| -> Result<_, ProcessError> {
        let (share, sizes) = flocs.left(&pulp.sizes, &suspension, vessel, time)?;
        let parting = Parting { left: share, sizes, held, fat_left: 1.0 };
        Ok((part(feed, &parting, ("clear", "sediment")), share))
    };
    let (mut streams, left) = parted(time)?;
    let poured = settings.share("poured_off")?;
    let lost = streams[0].batch.part(1.0 - poured);
    streams[0].batch = streams[0].batch.part(poured);
    streams[1].batch.contents += lost.contents;
    for stream in &mut streams {
        let dissolved = feed.contents.soluble_solids();
        expose(&mut stream.batch.heat, feed.temperature, time, dissolved);
    }
    let mut run = Run::of("clear", streams[0].batch);
    let clear = streams[0].batch.mass() / feed.mass();
    if clear < WORTH_POURING {
        let because = format!(
            "its sediment holds all of the liquid at {:.0} g: the pulp is a network",
            force.standard_gravities()
        );
        return Err(ProcessError::CannotWork { process: settings.process, because });
    }
    if settings.trace {
        run.trace = Some(course(time, |t| parted(t).map(|(streams, _)| streams[0].batch))?);
    }
    run.streams = streams.to_vec();
    run.time = time;
    run.energy = EnergyBalance::default();
    run.told = vec![
        ("force", force.si()),
        ("spin_time", time.si()),
        ("left_suspended", left),
        ("clear_share", clear),
    ];
    Ok(run)
}

/// Flakes into which a fining agent gathers a share of the particles; none without one.
struct Flocs {
    share: f64,
    sizes: SizeDistribution,
}

impl Flocs {
    fn read(settings: &Settings<'_>, sizes: &SizeDistribution) -> Result<Self, ProcessError> {
        let Some(size) = settings.optional("floc_size") else {
            return Ok(Self { share: 0.0, sizes: *sizes });
        };
        let deviation = sizes.geometric_deviation();
        let sizes = SizeDistribution::new(Length::from_metres(size), deviation)?;
        Ok(Self { share: settings.share("floc_share")?, sizes })
    }

    /// Returns the share of the suspended matter that still floats after a time, and its sizes.
    fn left(
        &self,
        sizes: &SizeDistribution,
        suspension: &Suspension,
        vessel: Vessel,
        time: Time,
    ) -> Result<(f64, Option<SizeDistribution>), ProcessError> {
        let single = left_after(sizes, suspension, vessel, time)?;
        if self.share <= 0.0 {
            return Ok((single.share, single.sizes));
        }
        let gathered = left_after(&self.sizes, suspension, vessel, time)?;
        let loose = (1.0 - self.share) * single.share;
        let share = loose + self.share * gathered.share;
        let sizes = if loose > share * 0.5 { single.sizes } else { gathered.sizes };
        Ok((share, sizes))
    }
}

/// The course over time: suspended share left in the clear stream.
fn course(
    end: Time,
    clear: impl Fn(Time) -> Result<Batch, ProcessError>,
) -> Result<Trace, ProcessError> {
    let mut points = Vec::new();
    for point in 1..=POINTS {
        let time = end * (f64::from(point) / f64::from(POINTS));
        let batch = clear(time)?;
        points.push(Point {
            time,
            mass: batch.mass(),
            temperature: batch.temperature,
            measure: batch.suspended_share(),
            aroma: 1.0,
        });
    }
    Ok(Trace::of("suspended matter (share)", points))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::process::testing::{Bench, cloudy_juice};

    fn juice() -> Batch {
        cloudy_juice(20.0)
    }

    fn left(rotation: f64, minutes: f64) -> f64 {
        let bench = Bench::of(NAME)
            .with("rotation", rotation)
            .with("outer_radius", 0.15)
            .with("liquid_depth", 0.08)
            .with("volume", 1e-3)
            .with("time", minutes * 60.0);
        bench.traced().run(&juice()).unwrap().told("left_suspended").unwrap()
    }

    #[test]
    fn more_turns_and_more_time_leave_less() {
        assert!(left(60.0, 10.0) < left(20.0, 10.0));
        assert!(left(20.0, 30.0) < left(20.0, 10.0));
    }

    #[test]
    fn a_minute_of_spinning_beats_an_hour_of_standing() {
        let stand = Bench::of(SETTLE).with("liquid_depth", 0.08).with("time", 3600.0);
        let (process, _) = crate::process::model(SETTLE).unwrap();
        assert_eq!(process, SETTLE);
        let stood = stand.run(&juice()).unwrap().told("left_suspended").unwrap();
        assert!(left(60.0, 1.0) < stood, "{stood}");
    }
}
