//! Freezing a mix while it is stirred: ice-cream machine, pre-frozen bowl, salt-and-ice bucket, hand.
//!
//! Answers how long it takes to the draw, how fine the ice is, and how much air it takes up.
//!
//! The mix gives its heat to a wall or to a machine of stated power; the time is the heat over the
//! power. Crystals coarsen from the first minute on with the cube root of the time in the machine.
//! Mode `way`: machine, bowl, bucket, hand, fork, nitrogen. Scraped with a fork the mix freezes at
//! rest, so that its crystals follow the speed of the front, and it takes up no air.
//!
//! Sources: [`crate::physics::food_thermal`] for the heat, [`crate::physics::freezing`] for crystals
//! at rest; the cube-root law of coarsening as in storage, Donhowe & Hartel 1996; its scale is an
//! estimate stated in the process entry.

use super::cold;
use super::heat::expose;
use super::{Batch, EnergyBalance, Ice, Point, ProcessError, Run, Settings, Trace};
use crate::knowledge::NoteClass;
use crate::physics::cryogen::{Cryogen, Gas, cooling_capacity, cryogen_needed, specific_volume};
use crate::physics::food_thermal::enthalpy_change;
use crate::physics::freezing::crystal_size_from_rate;
use crate::quantity::{Energy, Length, Speed, Temperature, Time};

/// The name of the process.
pub const NAME: &str = "churn";
const WAYS: &[&str] = &["machine", "bowl", "bucket", "hand", "fork", "nitrogen"];
/// The coldest draw: below it no domestic dasher turns the mix. Estimate.
const COLDEST_DRAW: f64 = -12.0;
/// Rates of freezing over which crystal sizes are known [m/s]: 0.05 to 100 cm/h.
const RATES: (f64, f64) = (0.05 / 360_000.0, 100.0 / 360_000.0);
/// A wall must be this much colder than the mix at the draw \[K\]. Estimate.
const LEAST_DRIVE: f64 = 1.0;
/// Points of the drawn course.
const POINTS: u32 = 16;

/// One load on its way to the draw.
struct Load {
    batch: Batch,
    freezing: Temperature,
    draw: Temperature,
    heat: Energy,
    /// Share of the heat that leaves before the first ice forms.
    above_freezing: f64,
    loads: f64,
}

/// Runs the model.
///
/// # Errors
/// [`ProcessError`] for a missing setting; [`ProcessError::CannotWork`] for a cold that cannot reach
/// the draw, a bowl that holds too little cold, or a mix that does not freeze there.
pub fn run(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let way = settings.mode("way", WAYS)?;
    let load = Load::read(feed, settings)?;
    let (above, below) = load.time(way, settings)?;
    let time = above + below;
    let mut batch = *feed;
    batch.temperature = load.draw;
    batch.ice = Some(Ice {
        frozen: cold::frozen_share(feed, load.freezing, load.draw)?,
        crystal: crystal(way, time, settings)?,
    });
    batch.air = match way {
        "fork" => feed.air,
        _ => feed.air.max(settings.number("overrun")?.max(0.0)),
    };
    let half = feed.temperature - (feed.temperature - load.freezing) * 0.5;
    let dissolved = feed.contents.soluble_solids();
    expose(&mut batch.heat, half, above, dissolved);
    expose(&mut batch.heat, load.draw, below, dissolved);
    let mut run = Run::of("churned", batch);
    run.time = time * load.loads;
    run.attended = attended(way, run.time, load.loads, settings)?;
    let heat = load.heat * load.loads;
    run.energy = EnergyBalance { supplied: heat, into_food: heat, ..EnergyBalance::default() };
    run.told = vec![
        ("loads", load.loads),
        ("draw_temperature", load.draw.kelvin()),
        ("overrun", run.streams[0].batch.air),
        ("cooling_power", load.heat.joules().abs() / time.seconds()),
    ];
    if way == "nitrogen" {
        run.told.extend(nitrogen(heat, settings)?);
    }
    run.trace = settings.trace.then(|| load.trace(time));
    Ok(run.clocked())
}

impl Load {
    fn read(feed: &Batch, settings: &Settings<'_>) -> Result<Self, ProcessError> {
        let draw = settings.temperature("draw_temperature")?;
        let freezing = cold::freezing_point(feed, settings)?;
        if draw >= freezing || draw.celsius() < COLDEST_DRAW {
            let because = format!(
                "a draw at {:.1} °C lies outside {:.1} °C (first ice) to {COLDEST_DRAW} °C (stiff)",
                draw.celsius(),
                freezing.celsius()
            );
            return Err(ProcessError::CannotWork { process: NAME, because });
        }
        if feed.ice.is_some() {
            let because = "it is frozen already".to_owned();
            return Err(ProcessError::CannotWork { process: NAME, because });
        }
        let loads = match settings.optional("volume").filter(|volume| *volume > 0.0) {
            Some(volume) => {
                let usable = volume * settings.share("fill_share")?.max(0.01);
                (feed.volume()?.cubic_metres() / usable).ceil().max(1.0)
            }
            None => 1.0,
        };
        let batch = feed.part(1.0 / loads);
        let food = batch.thermal_composition();
        let heat = batch.mass() * enthalpy_change(food, freezing, batch.temperature, draw)?;
        let cooled = batch.mass() * enthalpy_change(food, freezing, batch.temperature, freezing)?;
        let above_freezing = (cooled.joules() / heat.joules()).clamp(0.0, 1.0);
        Ok(Self { batch, freezing, draw, heat, above_freezing, loads })
    }

    /// The time until the first ice forms, and from there to the draw.
    fn time(&self, way: &str, settings: &Settings<'_>) -> Result<(Time, Time), ProcessError> {
        let heat = self.heat.joules().abs();
        if way == "bowl" {
            let stored = settings.number("cold_stored")?;
            if heat > stored {
                let because = format!(
                    "the bowl holds {:.0} kJ of cold, and {:.0} g of mix give {:.0} kJ",
                    stored / 1e3,
                    self.batch.mass().grams(),
                    heat / 1e3
                );
                return Err(ProcessError::CannotWork { process: NAME, because });
            }
        }
        let powers = match (way, settings.optional("cooling_power")) {
            ("nitrogen", _) => {
                [settings.number("nitrogen_power_per_mass")? * self.batch.mass().kilograms(); 2]
            }
            (_, Some(power)) => [power; 2],
            _ => self.through_wall(way, settings)?,
        };
        let [warm, cold] = powers;
        if warm <= 0.0 || cold <= 0.0 {
            let because = format!("{cold:.0} W take no heat from the mix");
            return Err(ProcessError::CannotWork { process: NAME, because });
        }
        let above = heat * self.above_freezing;
        Ok((Time::from_seconds(above / warm), Time::from_seconds((heat - above) / cold)))
    }

    /// Heat that the wall takes on average before the mix freezes, and while it does \[W\].
    fn through_wall(&self, way: &str, settings: &Settings<'_>) -> Result<[f64; 2], ProcessError> {
        let wall = match settings.optional("wall_temperature") {
            Some(stated) => Temperature::from_si(stated),
            None => match way {
                "bucket" => settings.temperature("brine_temperature")?,
                _ => settings.temperature("freezer_temperature")?,
            },
        };
        let drive = (self.draw - wall).kelvin();
        if drive < LEAST_DRIVE {
            let because = format!(
                "the wall has {:.1} °C, and the mix is drawn at {:.1} °C",
                wall.celsius(),
                self.draw.celsius()
            );
            return Err(ProcessError::CannotWork { process: NAME, because });
        }
        let warm = self.freezing - (self.freezing - self.batch.temperature) * 0.5;
        let cold = self.freezing - (self.freezing - self.draw) * 0.5;
        let transfer = settings.heat_transfer(match way {
            "hand" | "fork" => "freezer_wall_transfer",
            _ => "scraped_wall_transfer",
        })?;
        let area = settings.area("wall_area")?.square_metres();
        Ok([warm, cold].map(|middle| transfer.si() * area * (middle - wall).kelvin()))
    }

    fn trace(&self, time: Time) -> Trace {
        let start = self.batch.temperature;
        let point = |index: u32| {
            let share = f64::from(index) / f64::from(POINTS);
            // A third of the heat cools the mix to its freezing point.
            let temperature = if share < 1.0 / 3.0 {
                start - (start - self.freezing) * (3.0 * share)
            } else {
                self.freezing - (self.freezing - self.draw) * (1.5 * share - 0.5)
            };
            Point {
                time: time * share,
                mass: self.batch.mass(),
                temperature,
                measure: temperature.kelvin(),
                aroma: self.batch.aroma.left(NoteClass::Middle).unwrap_or(1.0),
            }
        };
        Trace::of("temperature of the mix (K)", (0..=POINTS).map(point).collect())
    }
}

/// Size of the crystals at the draw.
fn crystal(way: &str, time: Time, settings: &Settings<'_>) -> Result<Length, ProcessError> {
    if way == "fork" {
        let depth = settings.length("tray_depth")?.metres();
        let rate = (depth / time.seconds()).clamp(RATES.0, RATES.1);
        let at_rest = crystal_size_from_rate(Speed::from_metres_per_second(rate))?[1];
        return Ok(at_rest * settings.number("flake_size")?);
    }
    let first_minute = settings.length("crystal_in_first_minute")?;
    Ok(first_minute * time.minutes().max(1.0).cbrt())
}

fn attended(
    way: &str,
    time: Time,
    loads: f64,
    settings: &Settings<'_>,
) -> Result<Time, ProcessError> {
    let handling = settings.time("handling_time")? * loads;
    Ok(match way {
        "nitrogen" | "bucket" => handling + time,
        "hand" | "fork" => handling + time * settings.share("stirring_share")?,
        _ => handling,
    })
}

/// Liquid nitrogen poured into the mix, and its gas.
fn nitrogen(
    heat: Energy,
    settings: &Settings<'_>,
) -> Result<[(&'static str, f64); 3], ProcessError> {
    let place = settings.place;
    let capacity = cooling_capacity(Cryogen::Nitrogen, settings.temperature("gas_leaves_at")?)?;
    let mass = cryogen_needed(heat.abs(), capacity, settings.share("cryogen_use")?)?;
    let specific = specific_volume(Gas::Nitrogen, place.room_temperature, place.pressure)?;
    let volume = mass.kilograms() * specific;
    Ok([
        ("cryogen_mass", mass.kilograms()),
        ("gas_volume", volume),
        ("gas_per_room", volume / place.room_volume.cubic_metres()),
    ])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::process::Component;
    use crate::process::testing::{Bench, food};

    fn mix() -> Batch {
        food(&[
            (Component::Water, 620.0),
            (Component::Sugars, 200.0),
            (Component::Fat, 100.0),
            (Component::Protein, 40.0),
        ])
    }

    fn machine(power: f64) -> Bench {
        Bench::of(NAME).mode("way", "machine").with("cooling_power", power)
    }

    #[test]
    fn a_stronger_machine_is_faster_and_finer() {
        let run = |power| machine(power).traced().run(&mix()).unwrap();
        let (weak, strong) = (run(120.0), run(400.0));
        assert!(strong.time < weak.time);
        let crystal = |run: &Run| run.streams[0].batch.ice.unwrap().crystal;
        assert!(crystal(&strong) < crystal(&weak));
        assert!(strong.streams[0].batch.air > 0.0);
    }

    #[test]
    fn a_machine_without_cold_is_refused() {
        assert!(machine(0.0).run(&mix()).is_err());
    }
}
