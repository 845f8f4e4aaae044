//! Foam from a gas siphon or a whisk.
//!
//! Answers how much air or gas a foam takes up and how long it stands.
//!
//! In a siphon the gas dissolves by its solubility and swells at the nozzle
//! ([`crate::physics::gas_solubility::Siphon`]); a share of the bubbles stays. A whisk beats air in
//! towards a stated overrun as `1 - exp(-t/t_c)`. How long the foam stands is stated, not computed.

use super::heat::expose;
use super::{Batch, Component, EnergyBalance, Point, ProcessError, Run, Settings, Trace};
use crate::knowledge::NoteClass;
use crate::physics::aroma::{AirWaterPartition, OilInWater};
use crate::physics::cryogen::{Gas, specific_volume};
use crate::physics::gas_solubility::{Siphon, SolubleGas};
use crate::quantity::{TemperatureDifference, Time, Volume};

/// The name of the process.
pub const NAME: &str = "foam";
const WAYS: &[&str] = &["siphon", "whisk"];
/// Points of the drawn course.
const POINTS: u32 = 12;

/// Runs the model.
///
/// # Errors
/// [`ProcessError::CannotWork`] when nothing in it holds bubbles, or a siphon is overfilled; missing
/// settings; laws asked outside their range.
pub fn run(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    foams(feed, settings)?;
    let time = settings.time("time")?;
    let mut told = Vec::new();
    let overrun = if settings.mode("way", WAYS)? == "siphon" {
        siphon(feed, settings, &mut told)?
    } else {
        whisked(time, settings)?
    };
    let mut batch = *feed;
    batch.air = feed.air.max(overrun);
    batch.gas = crate::quantity::Mass::ZERO;
    fresh_air(&mut batch, overrun)?;
    let dissolved = batch.contents.soluble_solids();
    expose(&mut batch.heat, batch.temperature, time, dissolved);
    let mut run = Run::of("foam", batch);
    run.time = time + settings.time("handling_time")?;
    run.attended = run.time;
    run.energy = EnergyBalance::default();
    told.push(("overrun", batch.air));
    told.push(("half_life", settings.time("foam_half_life")?.seconds()));
    run.told = told;
    if settings.trace {
        run.trace = Some(course(&batch, time, overrun, settings)?);
    }
    Ok(run.clocked())
}

/// Refuses what has nothing to hold bubbles: protein, cold fat or gum.
fn foams(feed: &Batch, settings: &Settings<'_>) -> Result<(), ProcessError> {
    let contents = &feed.contents;
    let holds = contents.share(Component::Protein) + contents.share(Component::Fibre);
    let fat = contents.share(Component::Fat);
    let (least, cream) = (settings.share("least_foamer")?, settings.share("least_cream_fat")?);
    if holds < least && fat < cream {
        let because = format!(
            "it holds {:.2} % of protein and gum and {:.0} % of fat; bubbles need {:.2} % or {:.0} %",
            100.0 * holds,
            100.0 * fat,
            100.0 * least,
            100.0 * cream
        );
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    Ok(())
}

/// Overrun from the gas that the filling has dissolved, swollen to the pressure of the room.
fn siphon(
    feed: &Batch,
    settings: &Settings<'_>,
    told: &mut Vec<(&'static str, f64)>,
) -> Result<f64, ProcessError> {
    let volume = settings.volume("siphon_volume")?;
    let liquid = (feed.mass() / feed.density()?).cubic_metres();
    let usable = volume.cubic_metres() * settings.share("fill_share")?;
    let fillings = (liquid / usable).ceil().max(1.0);
    let filling = Volume::from_cubic_metres(liquid / fillings);
    let charge = settings.mass("cartridge_mass")? * settings.number("cartridges")?;
    let siphon = Siphon {
        volume,
        filling,
        gas: SolubleGas::NitrousOxide,
        charge,
        temperature: feed.temperature,
        relative_solubility: settings.number("gas_solubility_ratio")?,
    };
    let state = siphon.charged()?;
    let swollen = specific_volume(Gas::NitrousOxide, feed.temperature, settings.place.pressure)?;
    told.push(("siphon_pressure", state.after_shaking.pascals()));
    told.push(("cartridges", settings.number("cartridges")? * fillings));
    told.push(("loads", fillings));
    Ok(state.dissolved.si() * swollen * settings.share("gas_kept")?)
}

fn whisked(time: Time, settings: &Settings<'_>) -> Result<f64, ProcessError> {
    let done = 1.0 - (-(time / settings.time("whisking_time")?)).exp();
    Ok(settings.number("most_overrun")?.max(0.0) * done)
}

/// The aroma that goes over into the bubbles, one portion of air.
fn fresh_air(batch: &mut Batch, air: f64) -> Result<(), ProcessError> {
    let temperature = batch.temperature;
    for marker in batch.aroma.iter_mut().filter(|marker| marker.class != NoteClass::Base) {
        let law = AirWaterPartition {
            at_25_c: marker.partition,
            slope: TemperatureDifference::from_kelvin(marker.slope_kelvin),
        };
        let partition = law.at(temperature)?;
        marker.left *= OilInWater::NONE.kept_under_headspace(partition, air)?;
    }
    Ok(())
}

fn course(
    batch: &Batch,
    end: Time,
    overrun: f64,
    settings: &Settings<'_>,
) -> Result<Trace, ProcessError> {
    let whisk = settings.mode("way", WAYS)? == "whisk";
    let mut points = Vec::new();
    for point in 1..=POINTS {
        let time = end * (f64::from(point) / f64::from(POINTS));
        points.push(Point {
            time,
            mass: batch.mass(),
            temperature: batch.temperature,
            measure: if whisk { whisked(time, settings)? } else { overrun },
            aroma: batch.aroma.left(NoteClass::Middle).unwrap_or(1.0),
        });
    }
    Ok(Trace::of("overrun (air over liquid)", points))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::process::testing::{Bench, food};
    use crate::quantity::Temperature;

    fn cream() -> Batch {
        let mut cream = food(&[
            (Component::Water, 310.0),
            (Component::Fat, 160.0),
            (Component::Protein, 12.0),
            (Component::Sugars, 18.0),
        ]);
        cream.temperature = Temperature::from_celsius(5.0);
        cream
    }

    fn siphon() -> Bench {
        Bench::of(NAME).with("siphon_volume", 9e-4).with("time", 60.0)
    }

    fn overrun(bench: &Bench) -> f64 {
        bench.run(&cream()).unwrap().told("overrun").unwrap()
    }

    #[test]
    fn a_cartridge_more_or_colder_cream_swells_more() {
        assert!(overrun(&siphon().with("cartridges", 2.0)) > overrun(&siphon()));
        assert!((0.5..4.0).contains(&overrun(&siphon())), "{}", overrun(&siphon()));
    }

    #[test]
    fn whisking_comes_to_its_limit() {
        let whisk = Bench::of(NAME).mode("way", "whisk");
        let (short, long) = (whisk.clone().with("time", 60.0), whisk.with("time", 3600.0));
        assert!(overrun(&short) < overrun(&long));
    }

    #[test]
    fn what_does_not_foam_is_refused() {
        let water = food(&[(Component::Water, 500.0)]);
        assert!(matches!(siphon().run(&water), Err(ProcessError::CannotWork { .. })));
        let unset = Bench::of(NAME).with("time", 60.0).run(&cream());
        assert!(matches!(unset, Err(ProcessError::MissingSetting { .. })));
        let hot = siphon();
        let mut warm = cream();
        warm.temperature = Temperature::from_celsius(60.0);
        assert!(matches!(hot.run(&warm), Err(ProcessError::Physics(_))));
    }
}
