//! Loads: food that does not fit a vessel at once is worked in several.
//!
//! Most models split the food by themselves; for the rest the entry of the process says whether one
//! vessel is filled again and again or several stand side by side, and the split is made here.

use super::{MoveRecord, Plan};
use crate::estimate::Estimate;
use crate::kitchen::{Kitchen, Owned};
use crate::knowledge::{Loads, Route};
use crate::process::{Batch, ProcessError, Run, Settings};
use crate::quantity::{Mass, cook_mass};

/// The name under which a number of loads is told.
const TOLD: &str = "loads";
/// Told numbers that grow with the number of loads.
const EXTENSIVE: [&str; 6] =
    ["cryogen_mass", "distillate_mass", "dry_ice", "enzyme_mass", "gas_per_room", "gel_mass"];
/// Values of appliances that do more than hold food.
const DOES_MORE: [&str; 5] =
    ["power", "rotation", "gauge_pressure", "bath_temperature", "freezer_temperature"];
/// Share to which a vessel is usually filled: common practice.
const USUAL_FILL: f64 = 0.7;
/// A vessel holds at least this much [m³]; guards the division against an empty one.
const LEAST_VESSEL: f64 = 1e-6;

/// The loads of one move.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LoadsAdvice {
    /// How many there are, at the median.
    pub count: f64,
    /// What goes into each \[kg\].
    pub each: f64,
}

impl LoadsAdvice {
    /// Reads the loads off what a move told; `None` when everything fits at once.
    pub(super) fn of(record: &MoveRecord) -> Option<Self> {
        let count = Estimate::of_results(record.told.get(TOLD)?)?.typical().round();
        let whole = Estimate::of_results(&record.mass_in)?.typical();
        (count > 1.0).then_some(Self { count, each: whole / count })
    }

    /// Returns them in words: `3 loads of about 650 g`.
    pub fn words(&self) -> String {
        let each = cook_mass(Mass::from_kilograms(self.each));
        format!("{:.0} loads of about {each}", self.count)
    }
}

/// Runs the model of a plan on a batch, in as many loads as its vessel asks for.
///
/// # Errors
/// As the model.
pub(super) fn run(
    plan: &Plan<'_>,
    batch: &Batch,
    settings: &Settings<'_>,
) -> Result<Run, ProcessError> {
    if !plan.loads.counted() {
        return (plan.model)(batch, settings);
    }
    let loads = count(batch, settings)?;
    let one = (plan.model)(&batch.part(1.0 / loads), settings)?;
    Ok(repeated(one, loads, plan.loads))
}

/// Exchanges vessels that are too small for a feed for roomier ones that serve the same need.
///
/// Only vessels that do nothing but hold food are exchanged: a blender is not a larger whisk.
pub(super) fn roomy<'a>(
    route: &Route,
    mut appliances: Vec<Vec<&'a Owned>>,
    kitchen: &'a Kitchen,
    feeds: &[Batch],
) -> Vec<Vec<&'a Owned>> {
    let whole = feeds.first().and_then(|feed| feed.volume().ok());
    let Some(whole) = whole.map(|volume| volume.cubic_metres()) else { return appliances };
    for (one, owned) in route.moves.iter().zip(&mut appliances) {
        for (any_of, chosen) in one.uses.iter().zip(owned) {
            let Some(room) = vessel(chosen) else { continue };
            if room * USUAL_FILL >= whole {
                continue;
            }
            let serving = |owned: &&Owned| any_of.iter().any(|role| owned.serves_as(role));
            let others = kitchen.appliances.iter().filter(serving);
            let roomier = others.filter_map(|owned| Some((vessel(owned)?, owned)));
            let best =
                roomier.fold((room, *chosen), |best, one| if one.0 > best.0 { one } else { best });
            *chosen = best.1;
        }
    }
    appliances
}

/// The volume of an appliance that does nothing but hold food \[m³\].
fn vessel(owned: &Owned) -> Option<f64> {
    let does_more = DOES_MORE.iter().any(|name| owned.values.contains_key(*name));
    let volume =
        owned.values.get(Loads::VESSEL).filter(|_| !does_more && owned.modes.is_empty())?;
    Some(volume.typical())
}

/// How many loads the vessels take, one vessel of each piece at a time.
fn count(batch: &Batch, settings: &Settings<'_>) -> Result<f64, ProcessError> {
    let Some(volume) = settings.optional(Loads::VESSEL) else { return Ok(1.0) };
    let pieces = settings.optional(Loads::PIECES).unwrap_or(1.0).round().max(1.0);
    let usable = volume * settings.share(Loads::FILL)? * pieces;
    let whole = batch.volume()?.cubic_metres();
    Ok((whole / usable.max(LEAST_VESSEL)).ceil().max(1.0))
}

/// Multiplies what one load gave by their number.
fn repeated(mut run: Run, loads: f64, rule: Loads) -> Run {
    let (time, attended) = (run.time, run.attended);
    let more_work = attended * (loads - 1.0);
    let more_time = match rule {
        // While one stands, the cook fills the next.
        Loads::SideBySide => more_work,
        _ => time * (loads - 1.0),
    };
    for stream in &mut run.streams {
        stream.batch = stream.batch.part(loads);
        stream.batch.wait(more_time, more_work);
    }
    run.vapour = run.vapour * loads;
    run.left_behind = run.left_behind * loads;
    run.added = run.added * loads;
    run.energy = run.energy * loads;
    run.time = time + more_time;
    run.attended = attended + more_work;
    for (_, value) in run.told.iter_mut().filter(|(name, _)| EXTENSIVE.contains(name)) {
        *value *= loads;
    }
    run.told.push((TOLD, loads));
    run
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::process::{Component, Contents, Stream};
    use crate::quantity::{Temperature, Time};

    fn one_load() -> Run {
        let contents = Contents::only(Component::Water, Mass::from_kilograms(0.5));
        let mut batch = Batch::raw(contents, Temperature::from_celsius(20.0));
        batch.wait(Time::from_minutes(30.0), Time::from_minutes(5.0));
        let mut run = Run::of("made", batch);
        run.time = Time::from_minutes(30.0);
        run.attended = Time::from_minutes(5.0);
        run.told = vec![("gel_mass", 2.0), ("clear_share", 0.8)];
        run
    }

    fn first(run: &Run) -> &Stream {
        run.stream(None).unwrap()
    }

    #[test]
    fn loads_in_turn_multiply_all_times_and_what_is_made() {
        let run = repeated(one_load(), 3.0, Loads::InTurn);
        assert!((run.time.minutes() - 90.0).abs() < 1e-9);
        assert!((run.attended.minutes() - 15.0).abs() < 1e-9);
        assert!((first(&run).batch.mass().kilograms() - 1.5).abs() < 1e-9);
        assert!((first(&run).batch.elapsed.minutes() - 90.0).abs() < 1e-9);
        assert_eq!(run.told("gel_mass"), Some(6.0));
        assert_eq!(run.told("clear_share"), Some(0.8));
        assert_eq!(run.told(TOLD), Some(3.0));
    }

    #[test]
    fn loads_side_by_side_multiply_the_work_alone() {
        let run = repeated(one_load(), 3.0, Loads::SideBySide);
        assert!((run.time.minutes() - 40.0).abs() < 1e-9);
        assert!((run.attended.minutes() - 15.0).abs() < 1e-9);
    }

    #[test]
    fn loads_are_written_with_the_mass_of_each() {
        let loads = LoadsAdvice { count: 3.0, each: 0.652 };
        assert_eq!(loads.words(), "3 loads of about 650 g");
    }
}
