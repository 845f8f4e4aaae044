//! Drying of pieces or of a layer: oven, dehydrator, sun, desiccant box, microwave.
//!
//! Answers how long it takes to a moisture or a water activity, how much is left, how far it shrinks
//! and what it keeps of its smell.
//!
//! The surface first dries as fast as the air (or the heater) lets it, at the wet-bulb temperature;
//! once it runs dry, diffusion inside sets the pace and the piece warms towards the air. In a
//! microwave the heat comes from inside and the piece stays at the boiling point of the pressure.
//! Mode `medium`: air, oven, sun, desiccant, microwave. Mode `form`: slab, cylinder, sphere. Mode
//! `faces`: both, one.
//!
//! Symbols: x moisture on dry basis.
//!
//! Sources: [`crate::physics::drying`], [`crate::physics::evaporation`], water binding by
//! `super::binding`; shrinkage by Suzuki and others 1976.

mod air;
pub(super) mod aroma;

use super::heat::expose;
use super::{Batch, Component, Contents, EnergyBalance, Point, ProcessError, Run, Settings, Trace};
use crate::knowledge::NoteClass;
use crate::physics::drying::volume_left;
use crate::physics::water::{latent_heat_vaporisation, saturation_temperature};
use crate::quantity::{Energy, Mass, Pressure, SpecificPower, Temperature, Time};

/// The name of the process.
pub const NAME: &str = "dry";
const MEDIA: &[&str] = &["air", "oven", "sun", "desiccant", "microwave"];
/// Pieces into which the falling rate is cut for the record.
const PIECES: u32 = 8;
/// Water activity below which no food has to be kept cold or hot: FDA Food Code 2013, 1-201.10(B),
/// table B.
const NO_GROWTH: f64 = 0.88;
/// Points of the drawn course.
const POINTS: u32 = 20;
/// The driest that a microwave dries: below, it scorches. Common practice: 3 % of water.
const DRIEST_BY_MICROWAVE: f64 = 0.03;
/// Largest porosity of a dried food that the shrinkage law takes.
const MOST_PORES: f64 = 0.9;

/// How the water leaves: what the kinds of drying have in common.
#[derive(Debug, Clone, Copy)]
struct Pace {
    /// Time in which the surface is wet, and the temperature meanwhile.
    wet: (Time, Temperature),
    /// Time of the falling rate, and the temperature at its end.
    falling: (Time, Temperature),
    /// Moisture ratio at which the surface runs dry.
    critical: f64,
    /// Moisture in equilibrium with the air [kg/kg dry].
    equilibrium: f64,
}

/// Runs the model.
///
/// # Errors
/// [`ProcessError`] for a missing setting; [`ProcessError::CannotWork`] for air too damp or a food
/// without water.
pub fn run(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let medium = settings.mode("medium", MEDIA)?;
    let dry = feed.contents.dry_matter().kilograms();
    let water = feed.contents[Component::Water];
    if !(dry > 0.0 && water > 0.0) {
        let because =
            format!("{:.1} g of dry matter hold {:.1} g of water", 1e3 * dry, 1e3 * water);
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    let left = water_left(feed, settings)?.min(water);
    let x = (water / dry, left / dry);
    let pace = match medium {
        "microwave" => by_microwave(feed, x, settings)?,
        _ => air::pace(feed, medium, x, settings)?,
    };
    let mut batch = *feed;
    let ratio = left / water;
    let mut vapour = Contents::only(Component::Water, Mass::from_kilograms(water - left));
    vapour[Component::Ethanol] = feed.contents[Component::Ethanol] * (1.0 - ratio);
    batch.contents -= vapour;
    batch.contents[Component::Water] = left;
    record(&mut batch, feed, &pace, settings.place.room_temperature);
    aroma::leave(&mut batch, ratio, pace.wet.1, settings)?;
    let pores = settings.share("dried_porosity")?.min(MOST_PORES);
    // Shrinkage counts from the fresh food; one that hardly dries keeps its own pores.
    let shrunk = volume_left(x.0, x.1, 0.0)?;
    batch.volume_left = feed.volume_left * (shrunk / (1.0 - pores * (1.0 - shrunk))).min(1.0);
    batch.temperature = pace.falling.1;
    let time = pace.wet.0 + pace.falling.0;
    let mut run = Run::of("dried", batch);
    let loads = loads(feed, settings)?;
    run.time = time * loads;
    run.attended = settings.time("handling_time")? * loads;
    run.energy = energy(feed, &vapour, &pace, settings)?;
    run.vapour = vapour;
    run.told = vec![
        ("loads", loads),
        ("constant_rate_time", pace.wet.0.seconds()),
        ("surface_temperature", pace.wet.1.kelvin()),
        ("equilibrium_moisture", pace.equilibrium / (1.0 + pace.equilibrium)),
        ("mass_ratio", feed.mass() / run.streams[0].batch.mass()),
    ];
    run.trace = settings.trace.then(|| trace(feed, &run.streams[0].batch, &pace, x));
    Ok(run.clocked())
}

/// Mass of water at which to stop \[kg\].
fn water_left(feed: &Batch, settings: &Settings<'_>) -> Result<f64, ProcessError> {
    if let Some(activity) = settings.optional("target_water_activity") {
        let at = settings.place.room_temperature;
        return Ok(feed.water_at_activity(activity.clamp(0.01, 0.99), at)?.kilograms());
    }
    let share = settings.share("target_moisture")?.min(0.99);
    Ok(feed.contents.dry_matter().kilograms() * share / (1.0 - share))
}

/// The pace of a microwave: the power that reaches the water, at the boil.
fn by_microwave(
    feed: &Batch,
    (before, after): (f64, f64),
    settings: &Settings<'_>,
) -> Result<Pace, ProcessError> {
    let pressure = settings.optional("chamber_pressure").map(Pressure::from_si);
    let boil = saturation_temperature(pressure.unwrap_or(settings.place.pressure))?;
    let least = DRIEST_BY_MICROWAVE / (1.0 - DRIEST_BY_MICROWAVE);
    if after < least {
        let because = format!(
            "it scorches below {:.0} % of water, and {:.1} % are asked for",
            100.0 * DRIEST_BY_MICROWAVE,
            100.0 * after / (1.0 + after)
        );
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    let power = SpecificPower::from_si(settings.number("power_per_mass")?).si();
    let useful = power * settings.share("transfer_efficiency")? * feed.mass().kilograms();
    if useful <= 0.0 {
        let because = format!("{power:.0} W/kg bring no heat into it");
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    let dry = feed.contents.dry_matter().kilograms();
    let vapour = Mass::from_kilograms((before - after) * dry) * latent_heat_vaporisation(boil)?;
    let warming = feed.mass() * (feed.heat_capacity()? * (boil - feed.temperature));
    let seconds = (vapour + warming.max(Energy::ZERO)).joules() / useful;
    Ok(Pace {
        wet: (Time::from_seconds(seconds), boil),
        falling: (Time::ZERO, boil),
        critical: 0.0,
        equilibrium: 0.0,
    })
}

/// The mass of water over the share of the falling rate that has passed \[kg\]: an exponential from
/// the knee to what is left.
fn falling_course(feed: &Batch, batch: &Batch, pace: &Pace) -> impl Fn(f64) -> f64 + use<> {
    let dry = feed.contents.dry_matter().kilograms();
    let [before, after] = [feed, batch].map(|one| one.contents[Component::Water]);
    let bound = pace.equilibrium * dry;
    let knee = (bound + pace.critical * (before - bound)).clamp(after, before);
    let end =
        ((after - bound) / (knee - bound).max(f64::MIN_POSITIVE)).clamp(f64::MIN_POSITIVE, 1.0);
    move |share| bound + (knee - bound) * end.powf(share)
}

/// How often the trays are filled.
fn loads(feed: &Batch, settings: &Settings<'_>) -> Result<f64, ProcessError> {
    let Some(area) = settings.optional("tray_area") else { return Ok(1.0) };
    let thickness = settings.length("piece_thickness")?.metres();
    let covered = settings.share("tray_covered")?;
    let needed = feed.volume()?.cubic_metres() / (thickness * covered);
    Ok((needed / area).ceil().max(1.0))
}

/// Puts the two periods on the record; once germs no longer grow, the hours are no longer warm ones.
fn record(batch: &mut Batch, feed: &Batch, pace: &Pace, room: Temperature) {
    let germs_need = feed.water_at_activity(NO_GROWTH, room).unwrap_or(Mass::ZERO).kilograms();
    let course = falling_course(feed, batch, pace);
    let dissolved = (feed.contents.soluble_solids() + batch.contents.soluble_solids()) / 2.0;
    let (wet, cool) = pace.wet;
    let (falling, warm) = pace.falling;
    expose(&mut batch.heat, cool, wet, dissolved);
    for piece in 0..PIECES {
        let share = (f64::from(piece) + 0.5) / f64::from(PIECES);
        let at = cool + (warm - cool) * share;
        let warm_before = batch.heat.warm;
        expose(&mut batch.heat, at, falling / f64::from(PIECES), dissolved);
        if course(share) <= germs_need {
            batch.heat.warm = warm_before;
        }
    }
}

/// Heat of the vapour and of the dry rest; the exhaust takes the greater part of what is supplied.
fn energy(
    feed: &Batch,
    vapour: &Contents,
    pace: &Pace,
    settings: &Settings<'_>,
) -> Result<EnergyBalance, ProcessError> {
    let into_vapour = vapour.total() * latent_heat_vaporisation(pace.wet.1)?;
    let left = feed.mass() - vapour.total();
    let into_food = left * (feed.heat_capacity()? * (pace.falling.1 - feed.temperature));
    let used = into_vapour + into_food;
    let efficiency = settings.share("transfer_efficiency")?.max(0.01);
    let lost = used.max(Energy::ZERO) * (1.0 / efficiency - 1.0);
    Ok(EnergyBalance { supplied: used + lost, into_food, into_vapour, lost })
}

/// The course: moisture on wet basis against time, as a straight fall and an exponential.
fn trace(feed: &Batch, dried: &Batch, pace: &Pace, (before, after): (f64, f64)) -> Trace {
    let dry = feed.contents.dry_matter().kilograms();
    let span = before - pace.equilibrium;
    let knee = (pace.equilibrium + pace.critical * span).clamp(after, before);
    let (wet, falling) = (pace.wet.0, pace.falling.0);
    let aroma = |batch: &Batch| batch.aroma.left(NoteClass::Middle).unwrap_or(1.0);
    let (fresh, kept) = (aroma(feed), aroma(dried));
    let point = |index: u32| {
        let time = (wet + falling) * (f64::from(index) / f64::from(POINTS));
        let (x, temperature) = if time < wet {
            (before + (knee - before) * (time / wet), pace.wet.1)
        } else {
            let share = if falling > Time::ZERO { (time - wet) / falling } else { 1.0 };
            let (high, low) = (knee - pace.equilibrium, after - pace.equilibrium);
            let x = pace.equilibrium + high * (low / high).powf(share);
            (x, pace.wet.1 + (pace.falling.1 - pace.wet.1) * share)
        };
        let gone = if before > after { (before - x) / (before - after) } else { 1.0 };
        Point {
            time,
            mass: Mass::from_kilograms(dry * (1.0 + x)),
            temperature,
            measure: x / (1.0 + x),
            aroma: fresh + (kept - fresh) * gone,
        }
    };
    Trace::of("water (share)", (0..=POINTS).map(point).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::process::testing::{Bench, food};

    fn apple() -> Batch {
        food(&[
            (Component::Water, 856.0),
            (Component::Sugars, 104.0),
            (Component::Fibre, 24.0),
            (Component::Acid, 8.0),
        ])
    }

    fn dryer() -> Bench {
        let air = Temperature::from_celsius(60.0).kelvin();
        Bench::of(NAME).with("air_temperature", air).with("target_moisture", 0.2)
    }

    fn hours(thickness: f64) -> f64 {
        let bench = dryer().with("piece_thickness", thickness).traced();
        bench.run(&apple()).unwrap().time.hours()
    }

    #[test]
    fn rings_of_6_mm_dry_in_6_to_12_hours() {
        // So Easy to Preserve, University of Georgia, from memory.
        assert!((6.0..12.0).contains(&hours(0.006)), "{}", hours(0.006));
    }

    #[test]
    fn thin_slices_lie_on_each_other_on_a_full_tray() {
        assert!(hours(0.003) > 0.5 * hours(0.006));
        let one_deep = dryer().with("piece_thickness", 0.003).with("tray_layer", 0.001);
        assert!(one_deep.run(&apple()).unwrap().time.hours() < hours(0.003));
    }

    #[test]
    fn damp_air_and_dry_food_are_refused() {
        let damp = dryer().with("air_humidity", 0.95).run(&apple());
        assert!(matches!(damp, Err(ProcessError::CannotWork { .. })));
        let stone = food(&[(Component::Starch, 1000.0)]);
        assert!(matches!(dryer().run(&stone), Err(ProcessError::CannotWork { .. })));
    }
}
