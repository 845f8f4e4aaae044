//! Filtering through sieve, cloth, paper or pad, by its own weight, by hand or by suction.
//!
//! Answers how long it drips, how much stays in the cake, and what still passes.
//!
//! The medium holds back by its grade curve; the cake that forms holds back finer particles, counted
//! as a medium of a share of the opening. Time: Ruth's constant-pressure equation with a compressible
//! cake, `t = mu alpha c V² / (2 A² dP) + mu R_m V / (A dP)`, `alpha = alpha_0 (dP / 10 kPa)^s`. The
//! cake holds liquid as a sediment does under a load of `G = dP / (rho g h)`, expressed by the
//! food's own water holding and its packing exponent.
//!
//! Sources: [`crate::physics::filtration`]; B. F. Ruth, Ind. Eng. Chem. 27:806, 1935.

use super::heat::expose;
use super::part::{PACKING_PRESSURE, Parting, dry, part};
use super::{Batch, EnergyBalance, Point, ProcessError, Run, Settings, Trace};
use crate::knowledge::NoteClass;
use crate::physics::filtration::strain::{CLOTH_DEVIATION, Medium, PAPER_DEVIATION};
use crate::physics::filtration::{CakeFilter, compressible_resistance};
use crate::quantity::{Density, Mass, Pressure, Temperature, Time, Volume};

/// The name of the process.
pub const NAME: &str = "filter";
const MEDIA: &[&str] = &["cloth", "paper", "sieve"];
/// The pressure difference at which cake resistances are stated.
const REFERENCE_PRESSURE: Pressure = Pressure::from_kilopascals(10.0);
/// Share of the cake resistance that is left when all pectin is split. Estimate: enzyme-treated fruit
/// juices filter three to ten times faster.
const RESISTANCE_WITHOUT_PECTIN: f64 = 0.2;
/// Points of the drawn course.
const POINTS: u32 = 16;

/// Runs the model.
///
/// # Errors
/// [`ProcessError`] for a missing setting, and laws asked outside their range.
pub fn run(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let at = settings.optional("filter_temperature").map_or(feed.temperature, Temperature::from_si);
    let pressure = settings.pressure("pressure_difference")?;
    let parting = parting(feed, settings, pressure)?;
    let [mut clear, mut cake] = part(feed, &parting, ("filtrate", "cake"));
    let wetting = settings.mass("held_by_medium")?.min(clear.batch.mass() * 0.5);
    let wet_share =
        if clear.batch.mass() > Mass::ZERO { wetting / clear.batch.mass() } else { 0.0 };
    let left_behind = clear.batch.contents * wet_share;
    clear.batch = clear.batch.part(1.0 - wet_share);
    let flow = flow(feed, settings, &parting, pressure, at)?;
    let volume = clear.batch.volume()?;
    let time = dripping_time(&flow, volume, settings)?;
    let dissolved = feed.contents.soluble_solids();
    for stream in [&mut clear, &mut cake] {
        stream.batch.temperature = at;
        stream.batch.aroma.scale(1.0 - settings.share("aroma_lost")?);
        expose(&mut stream.batch.heat, at, time, dissolved);
    }
    let mut run = Run::of("filtrate", clear.batch);
    if settings.trace {
        run.trace = Some(course(&clear.batch, &flow, volume, settings)?);
    }
    run.streams = vec![clear, cake];
    run.left_behind = left_behind;
    run.attended = settings.time("handling_time")?;
    run.time = time + run.attended;
    let warmed = feed.mass() * (feed.heat_capacity()? * (at - feed.temperature));
    run.energy = EnergyBalance { supplied: warmed, into_food: warmed, ..EnergyBalance::default() };
    run.told = vec![
        ("left_suspended", parting.left),
        ("clear_share", run.streams[0].batch.mass() / feed.mass()),
        ("drip_time", time.si()),
    ];
    Ok(run.clocked())
}

/// What the medium and its cake hold back, and how wet the cake stays.
fn parting(
    feed: &Batch,
    settings: &Settings<'_>,
    pressure: Pressure,
) -> Result<Parting, ProcessError> {
    let Some(pulp) = feed.pulp.filter(|_| dry(feed) > Mass::ZERO) else {
        return Ok(Parting { left: 1.0, sizes: None, held: 0.0, fat_left: 1.0 });
    };
    let spread = match settings.mode("medium", MEDIA)? {
        "paper" => PAPER_DEVIATION,
        _ => CLOTH_DEVIATION,
    };
    let opening = settings.length("opening")? * settings.share("cake_refines")?;
    let passed = Medium::new(opening, spread)?.pass(&pulp.sizes);
    let load = pressure / PACKING_PRESSURE;
    let held = pulp.water_holding * load.powf(-settings.number("packing_exponent")?);
    let fat_left = settings.share("fat_passes")?;
    Ok(Parting { left: passed.share, sizes: passed.sizes, held, fat_left })
}

fn flow(
    feed: &Batch,
    settings: &Settings<'_>,
    parting: &Parting,
    pressure: Pressure,
    at: Temperature,
) -> Result<CakeFilter, ProcessError> {
    let filtrate = feed.volume()?.cubic_metres().max(1e-9);
    let laid = dry(feed).kilograms() * (1.0 - parting.left) / filtrate;
    let pectin = RESISTANCE_WITHOUT_PECTIN + (1.0 - RESISTANCE_WITHOUT_PECTIN) * feed.pectin;
    let resistance = settings.number("cake_resistance")? * pectin;
    let compressibility = settings.number("cake_compressibility")?;
    let alpha = compressible_resistance(resistance, REFERENCE_PRESSURE, pressure, compressibility)?;
    Ok(CakeFilter {
        area: settings.area("filter_area")?,
        pressure,
        viscosity: feed.liquid_viscosity(at)?,
        cake_resistance_m_per_kg: alpha,
        solids: Density::from_si(laid),
        medium_resistance_per_m: settings.number("medium_resistance")?,
    })
}

/// Dripping in fillings: the cake is thrown out when the filter is filled anew.
fn dripping_time(
    flow: &CakeFilter,
    volume: Volume,
    settings: &Settings<'_>,
) -> Result<Time, ProcessError> {
    let fillings = settings.number("fillings")?.max(1.0);
    Ok(flow.time(volume / fillings)? * fillings)
}

fn course(
    clear: &Batch,
    flow: &CakeFilter,
    volume: Volume,
    settings: &Settings<'_>,
) -> Result<Trace, ProcessError> {
    let mut points = Vec::new();
    for point in 1..=POINTS {
        let share = f64::from(point) / f64::from(POINTS);
        points.push(Point {
            time: dripping_time(flow, volume * share, settings)?,
            mass: clear.mass() * share,
            temperature: clear.temperature,
            measure: share,
            aroma: clear.aroma.left(NoteClass::Middle).unwrap_or(1.0),
        });
    }
    Ok(Trace::of("filtrate collected (share)", points))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::process::testing::{Bench, cloudy_juice};

    fn juice() -> Batch {
        cloudy_juice(60.0)
    }

    fn told(opening: f64, pressure: f64, name: &str) -> f64 {
        let bench = Bench::of(NAME)
            .with("opening", opening)
            .with("pressure_difference", pressure)
            .with("filter_area", 0.05);
        bench.traced().run(&juice()).unwrap().told(name).unwrap()
    }

    #[test]
    fn a_finer_cloth_leaves_less_afloat() {
        assert!(told(2e-5, 1e3, "left_suspended") < told(2e-4, 1e3, "left_suspended"));
    }

    #[test]
    fn suction_is_faster_but_less_than_in_proportion() {
        // A cake of fruit pulp packs under pressure: its resistance grows with P^s.
        let (drip, suck) = (told(1e-4, 1e3, "drip_time"), told(1e-4, 5e4, "drip_time"));
        assert!(suck < drip && suck > drip / 50.0, "{suck} s against {drip} s");
    }
}
