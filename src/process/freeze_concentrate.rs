//! Freeze concentration of a liquid: freeze it, let the strong part drain, leave the ice.
//!
//! Answers how strong the drained liquid gets and how much of the solids stays in the ice.
//!
//! Freezing: at the freezer's temperature the share of ice follows the freezing curve of the solution.
//! Draining a block: the drained fraction f of the mass carries the share
//! `Y(f) = (1 - exp(-k f)) / (1 - exp(-k))` of the solutes, the richest first; k grows with suction
//! or spinning. A stirred wall (`mode freezing = "stirred"`) follows `Y = (V_l/V_0)^K`.
//! The drained fraction never exceeds what is not ice at the draining temperature.
//!
//! Sources: shape of Y(f) after thaw curves of frozen coffee and juices (monomolecular fit; k by
//! common practice, and from pomegranate juice spun at 110 g: yield 0.59 at index 3.0, J. Food
//! Process Eng., 2023); partition at a front: F. G. F. Qin et al., J. Food Eng., from memory.

use super::heat::expose;
use super::{
    Batch, Component, Contents, EnergyBalance, Point, ProcessError, Pulp, Run, Settings, Stream,
    Trace,
};
use crate::knowledge::NoteClass;
use crate::physics::ice::latent_heat_fusion;
use crate::quantity::{Energy, Mass, Temperature, Time};

/// The name of the process.
pub const NAME: &str = "freeze-concentrate";
const MODES: &[&str] = &["block", "stirred"];
/// Solutes drain together with this share of the suspended matter. Estimate: a block holds most of
/// its pulp between the crystals.
const PULP_DRAINED: f64 = 0.3;
/// Another pass is worth while when it makes the liquid stronger by a twentieth. Common practice.
const WORTH_A_PASS: f64 = 1.05;
/// Points of the drawn course.
const POINTS: u32 = 20;

/// Runs the model: one pass after another until the target is met or the passes are used up.
///
/// # Errors
/// [`ProcessError::CannotWork`] when the freezer is too warm to freeze the liquid; missing settings.
pub fn run(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let passes = settings.number("passes")?.round().max(1.0);
    let mut product = *feed;
    let mut total = Run::of("concentrate", product);
    let mut ice = Contents::NONE;
    let mut pass = 0.0;
    while pass < passes && !reached(&product, settings) {
        let before = product.contents.soluble_solids();
        let one = match Pass::of(&product, settings) {
            // A drip too strong for the freezer ends the work; a feed too strong is a fault.
            Err(ProcessError::CannotWork { .. }) if pass > 0.0 => break,
            result => result?,
        };
        if pass > 0.0 && one.drained.contents.soluble_solids() < before * WORTH_A_PASS {
            break;
        }
        product = one.drained;
        ice += one.ice;
        total.left_behind += one.left_behind;
        total.time += one.time;
        total.attended += one.attended;
        total.energy = total.energy + one.energy;
        total.told = one.told;
        pass += 1.0;
    }
    total.told.push(("passes", pass));
    if settings.trace {
        total.trace = Some(course(feed, settings)?);
    }
    let mut rest = *feed;
    rest.contents = ice;
    rest.pulp = None;
    rest.temperature = product.temperature;
    total.streams =
        vec![Stream { name: "concentrate", batch: product }, Stream { name: "ice", batch: rest }];
    Ok(total.clocked())
}

fn reached(batch: &Batch, settings: &Settings<'_>) -> bool {
    let target = settings.optional("target_soluble_solids");
    target.is_some_and(|target| batch.contents.soluble_solids() >= target)
}

/// One freezing and draining.
struct Pass {
    drained: Batch,
    ice: Contents,
    left_behind: Contents,
    time: Time,
    attended: Time,
    energy: EnergyBalance,
    told: Vec<(&'static str, f64)>,
}

impl Pass {
    fn of(feed: &Batch, settings: &Settings<'_>) -> Result<Self, ProcessError> {
        let frozen = frozen_share(feed, settings)?;
        let strongest = strongest_drip(feed, frozen, settings)?;
        let fraction = drained_fraction(feed, settings, frozen)?;
        // The drip is never stronger than the liquid between the crystals, nor too thick to run.
        let before = feed.contents.soluble_solids();
        let solutes = solute_share(fraction, settings)?.min(fraction * strongest / before);
        let drained = drain(feed, fraction, solutes, settings)?;
        let cloth = settings.share("held_back")?;
        let left_behind = drained.contents * cloth;
        let mut product = drained.part(1.0 - cloth);
        let melting = settings.temperature("draining_temperature")?;
        product.temperature = melting;
        let freezing = settings.time("freezing_time")?;
        let draining = settings.time("draining_time")?;
        let dissolved = feed.contents.soluble_solids();
        expose(&mut product.heat, melting, draining, dissolved);
        let ice = feed.contents - drained.contents;
        let energy = energy(feed, &ice, frozen, melting)?;
        let told = vec![
            ("frozen_share", frozen),
            ("drained_share", fraction),
            ("solute_yield", solutes * (1.0 - cloth)),
        ];
        Ok(Self {
            drained: product,
            ice,
            left_behind,
            time: freezing + draining,
            attended: settings.time("attended_time")?,
            energy,
            told,
        })
    }
}

/// Returns the share of the water that the freezer turns to ice.
fn frozen_share(feed: &Batch, settings: &Settings<'_>) -> Result<f64, ProcessError> {
    let cold = settings.temperature("freezer_temperature")?;
    let solution = feed.solution()?;
    let freezing = solution.freezing_point()?;
    if cold >= freezing {
        let because = format!(
            "the liquid begins to freeze at {:.1} °C, and the freezer has {:.0} °C",
            freezing.celsius(),
            cold.celsius()
        );
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    let limit = Temperature::from_celsius(COLDEST_CURVE);
    Ok(solution.ice_share(cold.max(limit))?)
}

/// Returns the strength of the liquid between the crystals, or that at which it no longer runs.
fn strongest_drip(feed: &Batch, frozen: f64, settings: &Settings<'_>) -> Result<f64, ProcessError> {
    let solutes = feed.contents.solutes().kilograms();
    let liquid = feed.contents[Component::Water] * (1.0 - frozen);
    Ok((solutes / (solutes + liquid)).min(settings.share("thickest_drip")?))
}

/// The freezing curve of solutions is known down to here [°C].
const COLDEST_CURVE: f64 = -30.0;

/// Returns the mass fraction to drain: the one that meets the target, or the one that is set.
fn drained_fraction(
    feed: &Batch,
    settings: &Settings<'_>,
    frozen: f64,
) -> Result<f64, ProcessError> {
    let water = feed.contents.share(Component::Water);
    // Ice melts while the block drains; a block without ice would drain altogether.
    let most = (1.0 - water * frozen * settings.share("ice_kept")?)
        .clamp(LEAST_LIQUID, 1.0 - LEAST_LIQUID);
    let set = settings.share("drained_share")?;
    let Some(target) = settings.optional("target_soluble_solids") else { return Ok(set.min(most)) };
    let before = feed.contents.soluble_solids();
    let factor = target.min(strongest_drip(feed, frozen, settings)?) / before.max(1e-6);
    // Drain more when the target is modest, less when it is strong: Y(f)/f falls with f.
    let strength = |f: f64| solute_share(f, settings).map(|y| y / f);
    let mut fraction = set;
    for _ in 0..HALVINGS {
        if strength(fraction)? >= factor {
            break;
        }
        fraction *= DRAIN_LESS;
    }
    Ok(fraction.max(settings.share("least_drained")?).min(most))
}

/// Some of a block always drains, and some always stays. Estimate: the film on the crystals.
const LEAST_LIQUID: f64 = 0.05;
/// How often the drained fraction is reduced in search of the target strength.
const HALVINGS: u32 = 40;
/// By how much each time.
const DRAIN_LESS: f64 = 0.96;

/// Returns the share of the solutes in a drained mass fraction.
fn solute_share(fraction: f64, settings: &Settings<'_>) -> Result<f64, ProcessError> {
    Ok(match settings.mode("freezing", MODES)? {
        "stirred" => fraction.powf(settings.number("front_partition")?),
        _ => {
            let k = settings.number("drain_sharpness")?;
            (1.0 - (-k * fraction).exp()) / (1.0 - (-k).exp())
        }
    })
}

/// Splits the feed: solutes by their share, water to make up the drained mass.
fn drain(
    feed: &Batch,
    fraction: f64,
    solutes: f64,
    settings: &Settings<'_>,
) -> Result<Batch, ProcessError> {
    use Component::{Acid, Ethanol, Other, Protein, Salt, Starch, Sugars, Water};
    let mut out = feed.contents * (fraction * PULP_DRAINED);
    for component in [Sugars, Acid, Salt, Other, Ethanol] {
        out[component] = feed.contents[component] * solutes;
    }
    for component in [Protein, Starch] {
        let suspended = feed.pulp.is_some();
        let share = if suspended { fraction * PULP_DRAINED } else { solutes };
        out[component] = feed.contents[component] * share;
    }
    out[Water] = 0.0;
    let rest = out.total().kilograms();
    let wanted = feed.mass().kilograms() * fraction;
    out[Water] = (wanted - rest).clamp(0.0, feed.contents[Water]);
    let mut batch = *feed;
    batch.contents = out;
    batch.pulp = feed.pulp.map(|pulp| Pulp { dry: pulp.dry * (fraction * PULP_DRAINED), ..pulp });
    // Aroma goes with the solutes, less what the air takes.
    batch.aroma.scale(1.0 - settings.share("aroma_lost")?);
    Ok(batch)
}

/// Heat taken out to freeze, and given back to what melts and drains.
fn energy(
    feed: &Batch,
    ice: &Contents,
    frozen: f64,
    melting: Temperature,
) -> Result<EnergyBalance, ProcessError> {
    let fusion = latent_heat_fusion(Temperature::from_celsius(0.0))?;
    let warmed = feed.mass() * (feed.heat_capacity()? * (melting - feed.temperature));
    let still_ice = Mass::from_kilograms((ice[Component::Water] * frozen).max(0.0));
    let into_food = warmed - still_ice * fusion;
    Ok(EnergyBalance {
        supplied: into_food,
        into_food,
        into_vapour: Energy::ZERO,
        lost: Energy::ZERO,
    })
}

/// The course of one draining: strength of all that has drained against time.
fn course(feed: &Batch, settings: &Settings<'_>) -> Result<Trace, ProcessError> {
    let freezing = settings.time("freezing_time")?;
    let draining = settings.time("draining_time")?;
    let frozen = frozen_share(feed, settings)?;
    let last = drained_fraction(feed, settings, frozen)?;
    let mut points = Vec::new();
    for point in 1..=POINTS {
        let share = f64::from(point) / f64::from(POINTS);
        let fraction = last * share;
        let strongest = strongest_drip(feed, frozen, settings)?;
        let most = fraction * strongest / feed.contents.soluble_solids();
        let drained = drain(feed, fraction, solute_share(fraction, settings)?.min(most), settings)?;
        points.push(Point {
            time: freezing + draining * share,
            mass: drained.mass(),
            temperature: settings.temperature("draining_temperature")?,
            measure: drained.contents.soluble_solids(),
            aroma: drained.aroma.left(NoteClass::Middle).unwrap_or(1.0),
        });
    }
    Ok(Trace::of("dissolved solids (share)", points))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::process::testing::{Bench, food};

    fn juice() -> Batch {
        food(&[(Component::Water, 880.0), (Component::Sugars, 115.0), (Component::Acid, 5.0)])
    }

    fn block(passes: f64) -> Bench {
        let freezer = Temperature::from_celsius(-20.0).kelvin();
        Bench::of(NAME).with("freezer_temperature", freezer).with("passes", passes)
    }

    #[test]
    fn more_passes_give_less_and_stronger() {
        let run = |passes| block(passes).traced().run(&juice()).unwrap();
        let (one, three) = (run(1.0), run(3.0));
        let strength = |run: &Run| run.streams[0].batch.contents.soluble_solids();
        assert!(strength(&three) > strength(&one) && strength(&one) > 0.12);
        assert!(three.streams[0].batch.mass() < one.streams[0].batch.mass());
    }

    #[test]
    fn no_drip_is_stronger_than_what_still_runs() {
        let run = block(6.0).with("thickest_drip", 0.3).run(&juice()).unwrap();
        assert!(run.streams[0].batch.contents.soluble_solids() <= 0.3 + 1e-9);
    }

    #[test]
    fn a_freezer_that_does_not_freeze_it_is_refused() {
        let mild = block(1.0).with("freezer_temperature", 273.0).run(&juice());
        assert!(matches!(mild, Err(ProcessError::CannotWork { .. })));
    }
}
