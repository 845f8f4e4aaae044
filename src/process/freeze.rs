//! Freezing: in still air, a blast, on a plate, in brine or spirit, on dry ice, in liquid nitrogen.
//!
//! Answers how long it takes, how large the ice crystals get, and how much cryogen it uses.
//!
//! The time follows Pham's equation, and beyond its range (liquid nitrogen) Plank's with the whole
//! heat in place of the latent heat. A freezer of limited power takes at least as long as the heat
//! needs. Crystals follow the speed of the front. Mode `medium`: still-air, moving-air, blast, plate,
//! brine, spirit, dry-ice, nitrogen.
//!
//! Sources: [`crate::physics::freezing`], [`crate::physics::food_thermal`],
//! [`crate::physics::cryogen`].

use super::body::Body;
use super::cold;
use super::heat::expose;
use super::{Batch, EnergyBalance, Ice, Point, ProcessError, Run, Settings, Trace};
use crate::knowledge::NoteClass;
use crate::physics::cryogen::{
    Cryogen, Gas, cooling_capacity, cryogen_needed, dry_ice_cooling_capacity, specific_volume,
};
use crate::physics::food_thermal::{
    ConductivityModel, conductivity, enthalpy_change, heat_capacity, ice_fraction, latent_heat,
};
use crate::physics::freezing::{
    FreezingSolid, FrontSolid, PlankFactors, crystal_size_from_rate, freezing_rate,
    freezing_time_pham, freezing_time_plank,
};
use crate::quantity::{Energy, HeatTransfer, Length, Mass, Speed, Temperature, Time};

/// The name of the process.
pub const NAME: &str = "freeze";
const MEDIA: &[&str] =
    &["still-air", "moving-air", "blast", "plate", "brine", "spirit", "dry-ice", "nitrogen"];
/// The core must end at least this much above the medium \[K\]. Estimate: below it takes for ever.
const LEAST_DRIVE: f64 = 0.5;
/// Coldest medium for which Pham's equation is evaluated [°C].
const PHAM_COLDEST: f64 = -80.0;
/// The coldest average that the laws of food properties cover [°C]; colder food counts as this cold.
const COLDEST: f64 = -40.0;
/// Pham's equation wants a start above the mean freezing temperature [°C]; food that is nearly at its
/// freezing point counts as this warm.
const LEAST_START: f64 = 2.0;
/// Rates of freezing over which crystal sizes are known [m/s]: 0.05 to 100 cm/h.
const RATES: (f64, f64) = (0.05 / 360_000.0, 100.0 / 360_000.0);
/// Average below the surface of a slab whose profile is a parabola, as a share of the difference.
const PARABOLA: f64 = 1.0 / 3.0;
/// Points of the drawn course.
const POINTS: u32 = 16;

/// What is frozen, in what.
struct Freezing<'a> {
    feed: &'a Batch,
    body: Body,
    surroundings: Temperature,
    transfer: HeatTransfer,
    freezing: Temperature,
    target: Temperature,
}

/// Runs the model.
///
/// # Errors
/// [`ProcessError`] for a missing setting; [`ProcessError::CannotWork`] for a medium that is too warm,
/// food without water to freeze, or a stirred liquid.
pub fn run(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let medium = settings.mode("medium", MEDIA)?;
    let one = Freezing::read(feed, medium, settings)?;
    let conductive = one.time()?;
    let mean = one.end_temperature();
    let heat = one.heat(mean)?;
    let time = match settings.optional("cooling_power").filter(|power| *power > 0.0) {
        Some(power) => conductive.max(Time::from_seconds(heat.joules().abs() / power)),
        None => conductive,
    };
    // The rate counts from the moment at which the surface starts to freeze.
    let rate = freezing_rate(one.body.half_thickness, time * (1.0 - one.cooling_share()))?;
    let mut batch = *feed;
    batch.temperature = mean;
    batch.ice = Some(Ice {
        frozen: cold::frozen_share(feed, one.freezing, mean)?,
        crystal: crystal(rate, settings)?,
    });
    one.record(&mut batch, time);
    let mut run = Run::of("frozen", batch);
    run.time = time;
    run.attended = settings.time("handling_time")?.min(time);
    run.energy = EnergyBalance { supplied: heat, into_food: heat, ..EnergyBalance::default() };
    run.told = vec![
        ("freezing_rate", rate.metres_per_second()),
        ("core_temperature", one.target.kelvin()),
        ("initial_freezing_point", one.freezing.kelvin()),
    ];
    run.told.extend(cryogen(medium, heat, settings)?.into_iter().flatten());
    run.trace = settings.trace.then(|| one.trace(time));
    Ok(run.clocked())
}

impl<'a> Freezing<'a> {
    fn read(feed: &'a Batch, medium: &str, settings: &Settings<'_>) -> Result<Self, ProcessError> {
        let surroundings = cold::medium_temperature(medium, settings)?;
        let target = settings.temperature("target_core_temperature")?;
        let freezing = cold::freezing_point(feed, settings)?;
        let because = if (target - surroundings).kelvin() < LEAST_DRIVE {
            Some(format!(
                "the cold has {:.1} °C, and the core is to reach {:.1} °C",
                surroundings.celsius(),
                target.celsius()
            ))
        } else if target >= freezing {
            Some(format!("it is not frozen at {:.1} °C", target.celsius()))
        } else {
            None
        };
        let body = Body::read(feed, settings)?;
        let because = because
            .or_else(|| body.is_stirred().then(|| "a stirred liquid is churned".to_owned()))
            .or_else(|| (feed.ice.is_some()).then(|| "it is frozen already".to_owned()));
        if let Some(because) = because {
            return Err(ProcessError::CannotWork { process: NAME, because });
        }
        let transfer = cold::heat_transfer(medium, settings)?;
        Ok(Self { feed, body, surroundings, transfer, freezing, target })
    }

    /// Time until the core has the target temperature.
    fn time(&self) -> Result<Time, ProcessError> {
        let food = self.feed.thermal_composition();
        let at = self.target.max(Temperature::from_celsius(COLDEST));
        let ice = ice_fraction(food, self.freezing, at)?;
        if ice <= 0.0 {
            let because = format!("{:.1} % of water is too little to freeze", 100.0 * food.water);
            return Err(ProcessError::CannotWork { process: NAME, because });
        }
        let frozen_conductivity = conductivity(food, ice, at, ConductivityModel::Parallel)?;
        let dimensions = self.body.front_dimensions(self.transfer)?;
        let half_thickness = self.body.half_thickness;
        let density = self.body.density;
        if self.surroundings.celsius() < PHAM_COLDEST {
            let heat = self.heat(self.target)? / self.feed.mass();
            let solid = FrontSolid {
                thickness: half_thickness * 2.0,
                factors: PlankFactors { p: 0.5 / dimensions, r: 0.125 / dimensions },
                density,
                latent_heat: -heat,
                frozen_conductivity,
                heat_transfer: self.transfer,
                freezing_point: self.freezing,
            };
            return Ok(freezing_time_plank(&solid, self.surroundings)?);
        }
        let solid = FreezingSolid {
            half_thickness,
            dimensions,
            density,
            latent_heat: latent_heat(food.water),
            unfrozen_heat_capacity: self.body.heat_capacity,
            frozen_heat_capacity: heat_capacity(food, ice, at)?,
            frozen_conductivity,
            heat_transfer: self.transfer,
        };
        let start = self.feed.temperature.max(Temperature::from_celsius(LEAST_START));
        Ok(freezing_time_pham(&solid, (start, self.target), self.surroundings)?)
    }

    /// Average temperature when the core has its target: between core and surface as in a steady
    /// profile.
    fn end_temperature(&self) -> Temperature {
        let biot =
            self.transfer.si() * self.body.half_thickness.metres() / self.body.conductivity.si();
        let surface = self.target - (self.target - self.surroundings) * (biot / (2.0 + biot));
        let mean = self.target - (self.target - surface) * PARABOLA;
        mean.max(Temperature::from_celsius(COLDEST))
    }

    /// Heat that the food takes up on its way to a temperature; negative.
    fn heat(&self, end: Temperature) -> Result<Energy, ProcessError> {
        let food = self.feed.thermal_composition();
        let end = end.max(Temperature::from_celsius(COLDEST));
        let change = enthalpy_change(food, self.freezing, self.feed.temperature, end)?;
        Ok(self.feed.mass() * change)
    }

    /// Time at the temperature of cooling, then at the freezing point and below.
    fn record(&self, batch: &mut Batch, time: Time) {
        let (start, middle) = (self.feed.temperature, self.freezing);
        let cooling = self.cooling_share();
        let dissolved = self.feed.contents.soluble_solids();
        let warm = start - (start - middle) * 0.5;
        expose(&mut batch.heat, warm, time * cooling, dissolved);
        expose(&mut batch.heat, middle, time * (1.0 - cooling), dissolved);
    }

    /// Share of the time before the freezing point, by the heat of the two parts.
    fn cooling_share(&self) -> f64 {
        let above = (self.feed.temperature - self.freezing).kelvin().max(0.0);
        let sensible = above * self.body.heat_capacity.si();
        let latent = latent_heat(self.feed.thermal_composition().water).si();
        sensible / (sensible + latent)
    }

    fn trace(&self, time: Time) -> Trace {
        let cooled = self.cooling_share();
        let point = |index: u32| {
            let share = f64::from(index) / f64::from(POINTS);
            let (from, to, part) = if share < cooled {
                (self.feed.temperature, self.freezing, share / cooled)
            } else {
                let part = (share - cooled) / (1.0 - cooled);
                (self.freezing, self.target, part * part * part)
            };
            let core = from + (to - from) * part;
            Point {
                time: time * share,
                mass: self.feed.mass(),
                temperature: core,
                measure: core.kelvin(),
                aroma: self.feed.aroma.left(NoteClass::Middle).unwrap_or(1.0),
            }
        };
        Trace::of("core temperature (K)", (0..=POINTS).map(point).collect())
    }
}

/// Size of the ice crystals at a speed of the front; beyond the range of the law, at its end.
fn crystal(rate: Speed, settings: &Settings<'_>) -> Result<Length, ProcessError> {
    let held = Speed::from_metres_per_second(rate.si().clamp(RATES.0, RATES.1));
    Ok(crystal_size_from_rate(held)?[1] * settings.number("crystal_spread")?)
}

/// Cryogen that takes up the heat, and the gas that it becomes.
fn cryogen(
    medium: &str,
    heat: Energy,
    settings: &Settings<'_>,
) -> Result<Option<[(&'static str, f64); 3]>, ProcessError> {
    let place = settings.place;
    let (gas, capacity) = match medium {
        "nitrogen" => (Gas::Nitrogen, cooling_capacity(Cryogen::Nitrogen, leaving(settings)?)?),
        "dry-ice" => (Gas::CarbonDioxide, dry_ice_cooling_capacity(leaving(settings)?)?),
        _ => return Ok(None),
    };
    let used = settings.share("cryogen_use")?;
    let mass: Mass = cryogen_needed(heat.abs(), capacity, used)?;
    let volume = mass.kilograms() * specific_volume(gas, place.room_temperature, place.pressure)?;
    Ok(Some([
        ("cryogen_mass", mass.kilograms()),
        ("gas_volume", volume),
        ("gas_per_room", volume / place.room_volume.cubic_metres()),
    ]))
}

/// Temperature at which the gas leaves the food.
fn leaving(settings: &Settings<'_>) -> Result<Temperature, ProcessError> {
    settings.temperature("gas_leaves_at")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::process::Component;
    use crate::process::testing::{Bench, food};

    fn pear() -> Batch {
        food(&[(Component::Water, 840.0), (Component::Sugars, 100.0), (Component::Fibre, 30.0)])
    }

    fn freezer(celsius: f64) -> Bench {
        Bench::of(NAME).with("medium_temperature", Temperature::from_celsius(celsius).kelvin())
    }

    #[test]
    fn colder_air_freezes_faster_and_leaves_finer_crystals() {
        let run = |celsius| freezer(celsius).traced().run(&pear()).unwrap();
        let (mild, cold) = (run(-22.0), run(-40.0));
        assert!(cold.time < mild.time);
        let crystal = |run: &Run| run.streams[0].batch.ice.unwrap().crystal;
        assert!(crystal(&cold) < crystal(&mild));
    }

    #[test]
    fn what_is_frozen_already_or_never_freezes_is_refused() {
        let mut frozen = pear();
        frozen.ice = Some(Ice { frozen: 0.5, crystal: Length::from_micrometres(40.0) });
        assert!(matches!(freezer(-20.0).run(&frozen), Err(ProcessError::CannotWork { .. })));
        assert!(matches!(freezer(-2.0).run(&pear()), Err(ProcessError::CannotWork { .. })));
    }
}
