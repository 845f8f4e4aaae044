//! Enzymes in a mash or juice: pectinase that frees the juice, amylase that thins the starch.
//!
//! Answers how far the enzyme gets in its time, and what that does to pressing and filtering.
//!
//! First order in pectin or starch, with a rate that grows with dose and warmth while heat takes the
//! enzyme itself away ([`crate::physics::enzymes`]). Split pectin dissolves; the pulp then holds
//! less liquid, in proportion, down to a stated share; cake resistance and viscosity follow
//! [`Batch::pectin`]. Split starch becomes sugars. Amylase works on cooked starch only.

use super::part::pulp_or_tissue;
use super::warming::hold;
use super::{Batch, Component, Point, ProcessError, Pulp, Run, Settings, Trace};
use crate::knowledge::NoteClass;
use crate::physics::enzymes::Enzyme;
use crate::quantity::{Mass, MolarEnergy, Temperature, Time};

/// The name of the process.
pub const NAME: &str = "enzyme";
const KINDS: &[&str] = &["pectinase", "amylase"];
/// Points of the drawn course.
const POINTS: u32 = 16;

/// Runs the model.
///
/// # Errors
/// [`ProcessError::CannotWork`] when there is nothing to split; missing settings; temperatures
/// outside the range of the law.
pub fn run(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let kind = settings.mode("enzyme", KINDS)?;
    let food = if kind == "pectinase" { pulp_or_tissue(feed, settings)? } else { *feed };
    let what = if kind == "pectinase" { Component::Fibre } else { Component::Starch };
    if food.contents[what] <= 0.0 {
        let because = format!("it has 0 g of what {kind} splits");
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    let at = settings.temperature("enzyme_temperature")?;
    let time = settings.time("enzyme_time")?;
    let enzyme = enzyme(settings)?;
    let dose = settings.number("enzyme_dose")? / settings.number("reference_dose")?;
    let share = enzyme.converted(dose, at, time)?;
    let mut product = food;
    let mut energy = hold(&mut product, at, time)?;
    split(&mut product, kind, share, settings)?;
    let mut whole = settings.time("warming_time")? + time;
    if let Some(stop) = settings.optional("stop_temperature").map(Temperature::from_si) {
        let stopping = settings.time("stop_time")?;
        energy = energy + hold(&mut product, stop, stopping)?;
        whole += stopping;
    }
    product.aroma.scale(1.0 - settings.share("aroma_lost")?);
    let mut run = Run::of("mash", product);
    run.time = whole;
    run.attended = settings.time("handling_time")?;
    run.energy = energy;
    run.told = vec![
        ("split_share", share),
        ("enzyme_mass", settings.number("enzyme_dose")? * feed.mass().kilograms()),
    ];
    if settings.trace {
        let course = |t: Time| enzyme.converted(dose, at, t);
        run.trace = Some(trace(&product, time, at, course)?);
    }
    Ok(run.clocked())
}

fn enzyme(settings: &Settings<'_>) -> Result<Enzyme, ProcessError> {
    Ok(Enzyme {
        rate: settings.rate("enzyme_rate")?,
        reference: settings.temperature("rate_temperature")?,
        activation: MolarEnergy::from_si(settings.number("activation_energy")?),
        half_life: settings.time("enzyme_half_life")?,
        lost_at: settings.temperature("half_life_temperature")?,
        loss_z: settings.difference("enzyme_z")?,
    })
}

/// Splits a share of the pectin or of the starch: it dissolves, and the pulp lets its liquid go.
fn split(
    batch: &mut Batch,
    kind: &str,
    share: f64,
    settings: &Settings<'_>,
) -> Result<(), ProcessError> {
    let (from, into, part) = if kind == "pectinase" {
        let pectin = settings.share("pectin_share")? * batch.pectin;
        (Component::Fibre, Component::Other, pectin)
    } else {
        (Component::Starch, Component::Sugars, 1.0)
    };
    let dissolved = batch.contents[from] * part * share;
    batch.contents[from] -= dissolved;
    batch.contents[into] += dissolved;
    let softer = 1.0 - settings.share("holding_drop")? * share * batch.pectin;
    let suspended = batch.contents[Component::Fibre]
        + batch.contents[Component::Starch]
        + batch.contents[Component::Protein]
        + batch.contents[Component::Other];
    batch.pulp = batch.pulp.map(|pulp| {
        let dry = (pulp.dry.kilograms() - dissolved).clamp(0.0, suspended);
        let holding = if kind == "pectinase" { softer } else { 1.0 };
        let water_holding = pulp.water_holding * holding;
        Pulp { dry: Mass::from_kilograms(dry), water_holding, ..pulp }
    });
    if kind == "pectinase" {
        batch.pectin *= 1.0 - share;
    }
    Ok(())
}

fn trace(
    product: &Batch,
    end: Time,
    at: Temperature,
    share: impl Fn(Time) -> Result<f64, crate::physics::PhysicsError>,
) -> Result<Trace, ProcessError> {
    let mut points = Vec::new();
    for point in 1..=POINTS {
        let time = end * (f64::from(point) / f64::from(POINTS));
        points.push(Point {
            time,
            mass: product.mass(),
            temperature: at,
            measure: share(time)?,
            aroma: product.aroma.left(NoteClass::Middle).unwrap_or(1.0),
        });
    }
    Ok(Trace::of("pectin or starch split (share)", points))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::process::testing::{Bench, food};

    fn mash() -> Batch {
        food(&[
            (Component::Water, 870.0),
            (Component::Sugars, 90.0),
            (Component::Fibre, 28.0),
            (Component::Starch, 12.0),
        ])
    }

    fn warm() -> Bench {
        Bench::of(NAME)
            .with("enzyme_temperature", 323.15)
            .with("enzyme_time", 3600.0)
            .with("enzyme_dose", 1e-4)
    }

    fn share(bench: &Bench) -> f64 {
        bench.run(&mash()).unwrap().told("split_share").unwrap()
    }

    #[test]
    fn one_to_two_hours_warm_at_the_usual_dose_split_most_of_it() {
        // 50-200 mg/kg, 1-2 h at 45-55 °C: FAO Agricultural Services Bulletin 146, from memory.
        assert!((0.6..0.99).contains(&share(&warm())));
    }

    #[test]
    fn dose_time_and_warmth_help_and_heat_does_not() {
        assert!(share(&warm().with("enzyme_dose", 2e-5)) < share(&warm()));
        assert!(share(&warm().with("enzyme_time", 600.0)) < share(&warm()));
        assert!(share(&warm().with("enzyme_temperature", 293.15)) < share(&warm()));
        assert!(share(&warm().with("enzyme_temperature", 348.15)) < share(&warm()));
    }

    #[test]
    fn pulp_holds_less_and_pectin_goes() {
        let run = warm().run(&mash()).unwrap();
        let product = run.streams[0].batch;
        assert!(product.pectin < 0.4);
        assert!(product.pulp.unwrap().water_holding < 12.0);
        assert!(product.heat.warm.hours() > 0.99);
        let stopped = warm().with("stop_temperature", 358.15).run(&mash()).unwrap();
        assert!(stopped.streams[0].batch.heat.pasteurised > product.heat.pasteurised);
    }

    #[test]
    fn amylase_turns_starch_to_sugar() {
        let run = warm().mode("enzyme", "amylase").run(&mash()).unwrap();
        assert!(run.streams[0].batch.contents[Component::Sugars] > 0.09);
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let water = food(&[(Component::Water, 1000.0)]);
        assert!(matches!(warm().run(&water), Err(ProcessError::CannotWork { .. })));
        assert!(warm().mode("enzyme", "rennet").run(&mash()).is_err());
        let boiling = warm().with("enzyme_temperature", 373.0).run(&mash());
        assert!(matches!(boiling, Err(ProcessError::Physics(_))));
    }
}
