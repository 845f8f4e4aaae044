//! Drawing air out of food, and what takes its place: vacuum chamber, hand pump, syringe, bag.
//!
//! Answers how much of the bubbles is gone, how far pores fill with liquid or close, and whether the
//! food boils and cools itself meanwhile.
//!
//! Under pressure p1 air expands by p0 / p1. Bubbles of a liquid rise out and leave the share p1/p0;
//! open pores fill or close to `x = e (1 - 1/r)`, `r = p0 / max(p1, p_vapour)`
//! ([`crate::physics::gas_solubility`], after P. Fito 1994), times the share of pores that are open.
//! Below its own vapour pressure water flashes off until the food is as cold as that pressure asks:
//! `m l = m_food c (t - t_boil(p1))`.
//!
//! Symbols: e pore share, r compression ratio, p0 pressure of the room, p1 vacuum.

use super::heat::expose;
use super::{Batch, Component, Contents, EnergyBalance, Point, ProcessError, Run, Settings, Trace};
use crate::knowledge::NoteClass;
use crate::physics::gas_solubility::pores_filled;
use crate::physics::water::{latent_heat_vaporisation, saturation_temperature};
use crate::quantity::{Energy, Mass, Pressure, Temperature};

/// The name of the process.
pub const NAME: &str = "degas";
const AIMS: &[&str] = &["bubbles", "fill", "compress"];
/// The coldest that flash cooling is followed to [°C]: there water begins to freeze.
const COLDEST: f64 = 0.5;
/// Points of the drawn course.
const POINTS: u32 = 12;

/// Runs the model.
///
/// # Errors
/// [`ProcessError::CannotWork`] when the pressure is no lower than the room's, or the food has no
/// pores to fill; missing settings; laws asked outside their range.
pub fn run(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let vacuum = settings.pressure("pressure")?;
    let room = settings.place.pressure;
    if vacuum >= room {
        let because = format!(
            "it reaches {:.1} kPa, and the room has {:.1} kPa",
            vacuum.kilopascals(),
            room.kilopascals()
        );
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    let mut batch = *feed;
    let flash = Flash::of(feed, vacuum)?;
    flash.apply(&mut batch);
    let pulses = settings.number("pulses")?.round().max(1.0);
    let (filled, added) = match settings.mode("aim", AIMS)? {
        "bubbles" => {
            let rises = settings.share("bubbles_rise")?;
            let left = (1.0 - rises * (1.0 - vacuum / room)).powf(pulses);
            batch.air *= left;
            (0.0, Contents::NONE)
        }
        aim => pores(feed, &mut batch, aim, (vacuum, pulses), settings)?,
    };
    let time = settings.time("pump_time")? * pulses + settings.time("rest_time")?;
    let dissolved = batch.contents.soluble_solids();
    expose(&mut batch.heat, batch.temperature, time, dissolved);
    batch.aroma.scale((1.0 - settings.share("aroma_lost")?).powf(pulses));
    let mut run = Run::of("product", batch);
    run.added = added;
    run.vapour = flash.vapour;
    run.time = time + settings.time("handling_time")?;
    run.attended = settings.time("handling_time")? + settings.time("pump_time")? * pulses;
    run.energy = EnergyBalance {
        supplied: Energy::ZERO,
        into_food: -flash.heat,
        into_vapour: flash.heat,
        lost: Energy::ZERO,
    };
    run.told = vec![
        ("pores_filled", filled),
        ("filled_volume", feed.pores * filled),
        ("air_left", batch.air),
        ("evaporated", flash.vapour.total().kilograms()),
        ("end_temperature", batch.temperature.kelvin()),
        ("mass_gain", added.total() / feed.mass()),
    ];
    if settings.trace {
        run.trace = Some(course(feed, &batch, vacuum, settings)?);
    }
    Ok(run.clocked())
}

/// Water that flashes off, and the heat that it takes along.
struct Flash {
    vapour: Contents,
    heat: Energy,
    end: Temperature,
}

impl Flash {
    fn of(feed: &Batch, vacuum: Pressure) -> Result<Self, ProcessError> {
        let none = Self { vapour: Contents::NONE, heat: Energy::ZERO, end: feed.temperature };
        let coldest = Temperature::from_celsius(COLDEST);
        let boiling = saturation_temperature(vacuum).unwrap_or(coldest).max(coldest);
        if boiling >= feed.temperature || feed.contents[Component::Water] <= 0.0 {
            return Ok(none);
        }
        let heat = feed.mass() * (feed.heat_capacity()? * (feed.temperature - boiling));
        let latent = latent_heat_vaporisation(boiling)?;
        let water = Mass::from_kilograms(heat.joules() / latent.si());
        let available = feed.contents.mass(Component::Water) * 0.5;
        if water > available {
            return Ok(none);
        }
        Ok(Self { vapour: Contents::only(Component::Water, water), heat, end: boiling })
    }

    fn apply(&self, batch: &mut Batch) {
        batch.contents -= self.vapour;
        batch.temperature = self.end;
    }
}

/// Fills or closes the pores; returns the share of them, and what was taken up.
fn pores(
    feed: &Batch,
    batch: &mut Batch,
    aim: &str,
    (vacuum, pulses): (Pressure, f64),
    settings: &Settings<'_>,
) -> Result<(f64, Contents), ProcessError> {
    if feed.pores <= 0.0 {
        let because = "it has no pores to fill: 0 % of its volume".to_owned();
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    let densities = (feed.density()? * (1.0 - feed.pores), settings.density("bath_density")?);
    let pressures = (vacuum, settings.place.pressure);
    let full = pores_filled(feed.pores, pressures, batch.temperature, densities)?;
    let once = full.volume_share / feed.pores * settings.share("open_pores")?;
    let share = 1.0 - (1.0 - once).powf(pulses);
    let volume = feed.pores * share;
    if aim == "compress" {
        batch.pores = (feed.pores - volume) / (1.0 - volume);
        batch.volume_left *= 1.0 - volume;
        return Ok((share, Contents::NONE));
    }
    batch.pores = feed.pores - volume;
    let food = feed.volume()?.cubic_metres();
    let taken = Mass::from_kilograms(food * volume * densities.1.si());
    let sugars = settings.share("bath_sugars")?;
    let mut added = Contents::only(Component::Water, taken * (1.0 - sugars));
    added[Component::Sugars] = (taken * sugars).kilograms();
    batch.contents += added;
    batch.infused = feed.infused + (1.0 - feed.infused) * share;
    batch.added += taken;
    Ok((share, added))
}

/// The course while it pumps: the pressure falls as an exponential to the vacuum.
fn course(
    feed: &Batch,
    batch: &Batch,
    vacuum: Pressure,
    settings: &Settings<'_>,
) -> Result<Trace, ProcessError> {
    let (end, room) = (settings.time("pump_time")?, settings.place.pressure);
    let fall = (vacuum / room).ln();
    let point = |index: u32| {
        let share = f64::from(index) / f64::from(POINTS);
        Point {
            time: end * share,
            mass: feed.mass() + (batch.mass() - feed.mass()) * share,
            temperature: feed.temperature + (batch.temperature - feed.temperature) * share,
            measure: room.pascals() * (fall * share).exp(),
            aroma: batch.aroma.left(NoteClass::Middle).unwrap_or(1.0),
        }
    };
    Ok(Trace::of("pressure (Pa)", (1..=POINTS).map(point).collect()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::process::testing::{Bench, food};

    fn melon() -> Batch {
        let mut melon =
            food(&[(Component::Water, 900.0), (Component::Sugars, 80.0), (Component::Fibre, 20.0)]);
        melon.temperature = Temperature::from_celsius(5.0);
        melon.pores = 0.13;
        melon.air = 0.1;
        melon
    }

    fn told(bench: &Bench, name: &str) -> f64 {
        bench.run(&melon()).unwrap().told(name).unwrap()
    }

    #[test]
    fn a_deeper_vacuum_fills_more() {
        let fill = Bench::of(NAME).mode("aim", "fill");
        let (hand, chamber) = (fill.clone().with("pressure", 4e4), fill.with("pressure", 2e3));
        assert!(told(&chamber, "pores_filled") > told(&hand, "pores_filled"));
        assert!(told(&chamber, "mass_gain") > told(&hand, "mass_gain"));
    }

    #[test]
    fn bubbles_leave_with_the_pressure_and_with_pulses() {
        let once = Bench::of(NAME).with("pressure", 2e4);
        assert!(told(&once, "air_left") < 0.1);
        assert!(told(&once.clone().with("pulses", 3.0), "air_left") < told(&once, "air_left"));
    }

    #[test]
    fn compressing_closes_pores_without_mass() {
        let run =
            Bench::of(NAME).mode("aim", "compress").with("pressure", 2e3).run(&melon()).unwrap();
        let product = run.streams[0].batch;
        assert!(product.pores < 0.06 && product.volume_left < 0.95);
        assert!((product.mass() / melon().mass() - 1.0).abs() < 0.01);
    }

    #[test]
    fn a_warm_liquid_boils_and_cools_itself() {
        let mut warm = melon();
        warm.temperature = Temperature::from_celsius(40.0);
        let run = Bench::of(NAME).with("pressure", 2e3).run(&warm).unwrap();
        // Water boils at 17.5 °C under 2 kPa; 22.5 K × 3.8 kJ/(kg K) over 2,459 kJ/kg is 3.5 %.
        assert!((run.told("end_temperature").unwrap() - 290.6).abs() < 0.3);
        assert!((run.told("evaporated").unwrap() - 0.035).abs() < 0.004);
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let open = Bench::of(NAME).with("pressure", 101_400.0).run(&melon());
        assert!(matches!(open, Err(ProcessError::CannotWork { .. })));
        let solid = food(&[(Component::Water, 900.0), (Component::Fibre, 100.0)]);
        let solid = Bench::of(NAME).mode("aim", "fill").with("pressure", 2e3).run(&solid);
        assert!(matches!(solid, Err(ProcessError::CannotWork { .. })));
        assert!(matches!(Bench::of(NAME).run(&melon()), Err(ProcessError::MissingSetting { .. })));
    }
}
