//! Mixing something in: diluting, seasoning, blending, hydrating a thickener.
//!
//! Answers what the mixture is made of, how warm it is, and how far a thickener has swollen.
//!
//! Masses add; the temperature is that of equal enthalpy. A thickener swells at first order once the
//! liquid is warm enough for it; below that temperature only a stated share does.

use super::heat::expose;
use super::warming::heat_to;
use super::{Batch, Component, Contents, EnergyBalance, Point, ProcessError, Run, Settings, Trace};
use crate::quantity::{Energy, Mass, Temperature, Time};

/// The name of the process.
pub const NAME: &str = "mix";
const WAYS: &[&str] = &["dilute", "season", "blend", "hydrate"];
/// Points of the drawn course.
const POINTS: u32 = 12;

/// Runs the model.
///
/// # Errors
/// [`ProcessError::CannotWork`] when the shares of the addition are more than the whole of it; missing
/// settings.
pub fn run(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let way = settings.mode("way", WAYS)?;
    let added = addition(feed, settings)?;
    let mut batch = *feed;
    batch.contents += added;
    batch.added += added.total();
    let mut energy = stirred_in(feed, &mut batch, &added, settings)?;
    let mut time = settings.time("handling_time")?;
    let mut told = vec![("added_mass", added.total().kilograms())];
    let mut trace = None;
    if way == "hydrate" {
        let hydration = Hydration::read(&mut batch, settings)?;
        let heat = hydration.heat;
        energy.supplied += heat;
        energy.into_food += heat;
        let dissolved = batch.contents.soluble_solids();
        expose(&mut batch.heat, batch.temperature, hydration.time, dissolved);
        time += hydration.time;
        told.push(("hydrated_share", hydration.share(hydration.time)));
        trace = settings.trace.then(|| hydration.course(&batch));
    } else if settings.trace {
        trace = Some(Trace::of("added (share)", vec![point(&batch, time, 1.0)]));
    }
    batch.aroma.scale(1.0 - settings.share("aroma_lost")?);
    told.push(("mixture_temperature", batch.temperature.kelvin()));
    let mut run = Run::of("mixture", batch);
    run.added = added;
    run.energy = energy;
    run.told = told;
    run.trace = trace;
    run.attended = settings.time("handling_time")?;
    run.time = time;
    Ok(run.clocked())
}

/// What is mixed in, by component; what its shares leave open is water.
fn addition(feed: &Batch, settings: &Settings<'_>) -> Result<Contents, ProcessError> {
    const PARTS: [(Component, &str); 8] = [
        (Component::Sugars, "added_sugars"),
        (Component::Salt, "added_salt"),
        (Component::Acid, "added_acid"),
        (Component::Fat, "added_fat"),
        (Component::Protein, "added_protein"),
        (Component::Starch, "added_starch"),
        (Component::Fibre, "added_gum"),
        (Component::Ethanol, "added_ethanol"),
    ];
    let mass = feed.mass().kilograms() * settings.number("addition")?.max(0.0);
    let mut added = Contents::NONE;
    let mut rest = 1.0;
    for (component, name) in PARTS {
        let share = settings.optional(name).map_or(0.0, |share| share.clamp(0.0, 1.0));
        added[component] = mass * share;
        rest -= share;
    }
    if rest < -ROUNDING {
        let because =
            format!("what is mixed in adds up to {:.0} % of itself", 100.0 * (1.0 - rest));
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    added[Component::Water] = mass * rest.max(0.0);
    Ok(added)
}

/// Shares that a table rounds may pass the whole by this much.
const ROUNDING: f64 = 1e-9;

/// Sets the temperature of the mixture; what one part gives, the other takes.
fn stirred_in(
    feed: &Batch,
    batch: &mut Batch,
    added: &Contents,
    settings: &Settings<'_>,
) -> Result<EnergyBalance, ProcessError> {
    let at = settings
        .optional("addition_temperature")
        .map_or(settings.place.room_temperature, Temperature::from_si);
    let mass = added.total().kilograms();
    if mass <= 0.0 {
        return Ok(EnergyBalance::default());
    }
    let extra = Batch::raw(*added, at);
    let own = feed.mass().kilograms() * feed.heat_capacity()?.si();
    let other = mass * extra.heat_capacity()?.si();
    let kelvin = (own * feed.temperature.kelvin() + other * at.kelvin()) / (own + other);
    batch.temperature = Temperature::from_kelvin(kelvin);
    let brought = Energy::from_joules(other * (at.kelvin() - kelvin));
    let taken = Energy::from_joules(own * (kelvin - feed.temperature.kelvin()));
    Ok(EnergyBalance { supplied: brought, into_food: taken, ..EnergyBalance::default() })
}

/// How far a thickener swells.
struct Hydration {
    warm: bool,
    cold_share: f64,
    constant: Time,
    time: Time,
    heat: Energy,
}

impl Hydration {
    fn read(batch: &mut Batch, settings: &Settings<'_>) -> Result<Self, ProcessError> {
        let at = settings.temperature("working_temperature")?;
        let heat = heat_to(batch, at)?;
        batch.temperature = at;
        Ok(Self {
            warm: at >= settings.temperature("hydration_temperature")?,
            cold_share: settings.share("swells_cold")?,
            constant: settings.time("hydration_time")?,
            time: settings.time("time")?,
            heat,
        })
    }

    fn share(&self, time: Time) -> f64 {
        let most = if self.warm { 1.0 } else { self.cold_share };
        most * (1.0 - (-(time / self.constant)).exp())
    }

    fn course(&self, batch: &Batch) -> Trace {
        let at = |index: u32| {
            let time = self.time * (f64::from(index) / f64::from(POINTS));
            point(batch, time, self.share(time))
        };
        Trace::of("thickener swollen (share)", (1..=POINTS).map(at).collect())
    }
}

fn point(batch: &Batch, time: Time, measure: f64) -> Point {
    let mass: Mass = batch.mass();
    Point { time, mass, temperature: batch.temperature, measure, aroma: 1.0 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::process::testing::{Bench, food};

    fn juice() -> Batch {
        food(&[(Component::Water, 880.0), (Component::Sugars, 120.0)])
    }

    fn mix() -> Bench {
        Bench::of(NAME).with("addition", 0.1)
    }

    #[test]
    fn water_thins_and_sugar_strengthens() {
        let strength =
            |bench: Bench| bench.run(&juice()).unwrap().streams[0].batch.contents.soluble_solids();
        assert!((strength(mix()) - 0.12 / 1.1).abs() < 1e-9);
        assert!((strength(mix().with("added_sugars", 1.0)) - 0.22 / 1.1).abs() < 1e-9);
    }

    #[test]
    fn a_hot_addition_warms_it() {
        let run = mix().with("addition_temperature", 363.15).run(&juice()).unwrap();
        let at = run.told("mixture_temperature").unwrap();
        assert!((297.15..302.15).contains(&at), "{at}");
    }

    #[test]
    fn a_thickener_wants_its_temperature_and_its_time() {
        let gum = mix()
            .mode("way", "hydrate")
            .with("addition", 0.01)
            .with("added_gum", 1.0)
            .with("hydration_temperature", 358.15)
            .with("time", 600.0);
        let share = |celsius: f64, bench: &Bench| {
            let at = 273.15 + celsius;
            bench
                .clone()
                .with("working_temperature", at)
                .run(&juice())
                .unwrap()
                .told("hydrated_share")
                .unwrap()
        };
        assert!(share(90.0, &gum) > share(20.0, &gum));
        assert!(share(90.0, &gum) > share(90.0, &gum.clone().with("time", 60.0)));
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let odd = mix().with("added_sugars", 0.8).with("added_salt", 0.4).run(&juice());
        assert!(matches!(odd, Err(ProcessError::CannotWork { .. })));
        let unset = Bench::of(NAME).run(&juice());
        assert!(matches!(unset, Err(ProcessError::MissingSetting { .. })));
    }
}
