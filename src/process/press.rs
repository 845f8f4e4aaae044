//! Squeezing the juice out of crushed fruit, vegetables or nuts.
//!
//! Answers how much juice runs off and how wet the pomace stays.
//!
//! Only opened cells give their juice. The cake of insoluble matter holds liquid as a sediment does
//! under load, `w(P) = w(6 kPa) (P / 6 kPa)^-n`, and comes to that state as `1 - exp(-t/t_c)`, since
//! the juice has to find its way through the cake that it leaves; t_c grows with the square of the
//! depth of the cake. The cloth lets pass what is finer
//! than its opening.
//!
//! Symbols: w liquid held per insoluble dry matter [kg/kg], P pressure on the cake, t_c time constant.

use super::part::{PACKING_PRESSURE, Parting, part, pulp_or_tissue};
use super::{Batch, EnergyBalance, Point, ProcessError, Run, Settings, Trace};
use crate::knowledge::NoteClass;
use crate::physics::filtration::strain::{CLOTH_DEVIATION, Medium};
use crate::quantity::{Length, Mass, Time};

/// The name of the process.
pub const NAME: &str = "press";
/// Points of the drawn course.
const POINTS: u32 = 16;
/// Cake to which the time constant belongs: a layer of a rack-and-cloth press. Common practice.
const REFERENCE_CAKE: Length = Length::from_millimetres(50.0);
/// Less juice than this share of the feed is not worth a press. Common practice.
const WORTH_PRESSING: f64 = 0.02;

/// Runs the model.
///
/// # Errors
/// [`ProcessError::CannotWork`] when the cake holds all of the liquid; missing settings.
pub fn run(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let feed = pulp_or_tissue(feed, settings)?;
    let time = settings.time("time")?;
    let (juice, left) = pressed(&feed, settings, time)?;
    let [mut clear, mut pomace] = part(&feed, &juice, ("juice", "pomace"));
    let share = clear.batch.mass() / feed.mass();
    if share < WORTH_PRESSING {
        let because = format!(
            "the cake holds all but {:.1} % of the liquid at {:.0} kPa",
            100.0 * share,
            settings.pressure("pressure_difference")?.kilopascals()
        );
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    let wetting =
        settings.mass("held_by_cloth")?.min(clear.batch.mass() * 0.5) / clear.batch.mass();
    let left_behind = clear.batch.contents * wetting;
    clear.batch = clear.batch.part(1.0 - wetting);
    for stream in [&mut clear, &mut pomace] {
        stream.batch.aroma.scale(1.0 - settings.share("aroma_lost")?);
    }
    let mut run = Run::of("juice", clear.batch);
    if settings.trace {
        run.trace = Some(course(&feed, settings, time)?);
    }
    let loads = match settings.optional("volume") {
        Some(volume) => (feed.volume()?.cubic_metres() / volume).ceil().max(1.0),
        None => 1.0,
    };
    run.told = vec![
        ("juice_share", run.streams[0].batch.mass() / feed.mass()),
        ("left_suspended", left),
        ("pomace_water", pomace.batch.contents.share(super::Component::Water)),
        ("loads", loads),
    ];
    run.streams = vec![clear, pomace];
    run.left_behind = left_behind;
    run.attended = settings.time("handling_time")? * loads;
    run.time = time * loads + run.attended;
    run.energy = EnergyBalance::default();
    Ok(run.clocked())
}

/// What the cake holds back after a time, and the share of the pulp that passes the cloth.
fn pressed(
    feed: &Batch,
    settings: &Settings<'_>,
    time: Time,
) -> Result<(Parting, f64), ProcessError> {
    let Some(pulp) = feed.pulp.filter(|pulp| pulp.dry > Mass::ZERO) else {
        let because = "it has no cake to press: 0 % of it is insoluble".to_owned();
        return Err(ProcessError::CannotWork { process: NAME, because });
    };
    let opening = settings.length("opening")? * settings.share("cake_refines")?;
    let passed = Medium::new(opening, CLOTH_DEVIATION)?.pass(&pulp.sizes);
    let load = settings.pressure("pressure_difference")? / PACKING_PRESSURE;
    let packed = pulp.water_holding * load.powf(-settings.number("packing_exponent")?);
    let cake = (pulp.dry * (1.0 - passed.share)).kilograms().max(f64::MIN_POSITIVE);
    let liquid = (feed.mass().kilograms() - pulp.dry.kilograms()).max(0.0);
    let all = liquid / cake;
    // Liquid is driven out of a cake over a time that grows with the square of its depth: K. Terzaghi,
    // Theoretical Soil Mechanics, 1943.
    let depth = settings.length("cake_thickness")? / REFERENCE_CAKE;
    let constant = settings.time("press_time")? * depth.max(f64::MIN_POSITIVE).powi(2);
    let done = 1.0 - (-(time / constant)).exp();
    let free = (all - packed).max(0.0) * settings.share("opened_cells")? * done;
    let fat_left = settings.share("fat_passes")?;
    let parting = Parting { left: passed.share, sizes: passed.sizes, held: all - free, fat_left };
    Ok((parting, passed.share))
}

fn course(feed: &Batch, settings: &Settings<'_>, end: Time) -> Result<Trace, ProcessError> {
    let mut points = Vec::new();
    for point in 1..=POINTS {
        let time = end * (f64::from(point) / f64::from(POINTS));
        let [juice, _] = part(feed, &pressed(feed, settings, time)?.0, ("juice", "pomace"));
        points.push(Point {
            time,
            mass: juice.batch.mass(),
            temperature: feed.temperature,
            measure: juice.batch.mass() / feed.mass(),
            aroma: juice.batch.aroma.left(NoteClass::Middle).unwrap_or(1.0),
        });
    }
    Ok(Trace::of("juice (share)", points))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::process::Component;
    use crate::process::testing::{Bench, food};

    fn apple() -> Batch {
        food(&[
            (Component::Water, 856.0),
            (Component::Sugars, 104.0),
            (Component::Fibre, 24.0),
            (Component::Acid, 8.0),
            (Component::Protein, 3.0),
        ])
    }

    fn press() -> Bench {
        Bench::of(NAME).with("pressure_difference", 1e6).with("time", 900.0)
    }

    fn juice(bench: &Bench) -> f64 {
        bench.run(&apple()).unwrap().told("juice_share").unwrap()
    }

    #[test]
    fn a_cloth_press_gives_two_thirds_to_three_quarters_of_an_apple() {
        // 65-75 %: R. P. Bates et al., FAO Agricultural Services Bulletin 146, 2001, from memory.
        let share = juice(&press());
        assert!((0.6..0.8).contains(&share), "{share}");
    }

    #[test]
    fn pressure_time_and_opened_cells_give_more() {
        assert!(juice(&press().with("pressure_difference", 3e4)) < juice(&press()));
        assert!(juice(&press().with("time", 120.0)) < juice(&press()));
        assert!(juice(&press().with("opened_cells", 0.5)) < juice(&press()));
    }

    #[test]
    fn what_gives_no_juice_is_refused() {
        let water = food(&[(Component::Water, 900.0), (Component::Sugars, 100.0)]);
        assert!(matches!(press().run(&water), Err(ProcessError::CannotWork { .. })));
        let intact = press().with("opened_cells", 0.0).run(&apple());
        assert!(matches!(intact, Err(ProcessError::CannotWork { .. })));
        let unset = Bench::of(NAME).run(&apple());
        assert!(matches!(unset, Err(ProcessError::MissingSetting { .. })));
    }
}
