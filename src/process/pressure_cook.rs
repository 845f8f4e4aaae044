//! Cooking under pressure, above the boiling point of the place.
//!
//! Answers how hot the steam gets, how far the food is cooked and softened, and what boils off.
//!
//! The steam has the saturation temperature of the air pressure of the place plus the gauge pressure,
//! less the share of air that was not vented: at altitude the same gauge gives less. Pieces follow by
//! conduction. Mode `release`: natural, quick. Mode `alkali`: none, soda (browning grows faster).
//!
//! Symbols: x share left, k rate at 100 °C, z kelvin for a tenfold rate.
//!
//! Sources: IAPWS-IF97 by [`crate::physics::water`]; conduction by [`crate::physics::conduction`];
//! softening first order, e.g. S. H. Lee, Food Engineering Progress 21, 2017.

use super::body::Body;
use super::course::Course;
use super::heat::expose;
use super::soften::Softening;
use super::{
    Batch, Component, Contents, CorePoint, EnergyBalance, ProcessError, Run, Settings, Trace,
};
use crate::physics::evaporation::flash_share;
use crate::physics::water::{latent_heat_vaporisation, saturation_temperature};
use crate::quantity::{Energy, HeatTransfer, Mass, Pressure, Temperature, Time};

/// The name of the process.
pub const NAME: &str = "pressure-cook";
const RELEASES: &[&str] = &["natural", "quick"];
const ALKALI: &[&str] = &["none", "soda"];
/// The most gauge pressure of gear for kitchens and laboratories \[Pa\]. Common practice: bench
/// autoclaves end at 210 kPa.
const MOST_GAUGE: f64 = 250e3;
/// Heat transfer of condensing steam to wet food [W/(m² K)]. From memory: Singh & Heldman,
/// Introduction to Food Engineering, 2014: 1,000-10,000; the food's own resistance decides.
const STEAM: HeatTransfer = HeatTransfer::from_watts_per_square_metre_kelvin(2000.0);
/// Pieces into which come-up and release are cut.
const RAMP_PIECES: u32 = 6;
/// The share of its water that may leave before the pot counts as boiled dry.
const MOST_BOILED_OFF: f64 = 0.9;

/// The plan of a run.
struct Cooking {
    steam: Temperature,
    boil: Temperature,
    come_up: Time,
    hold: Time,
    release: Time,
}

/// Runs the model.
///
/// # Errors
/// [`ProcessError`] for a missing setting; [`ProcessError::CannotWork`] for a gauge pressure beyond
/// any pot, or a pot that boils dry.
pub fn run(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let plan = Cooking::read(settings)?;
    let added = Contents::only(Component::Water, feed.mass() * added_water(settings));
    let mut batch = *feed;
    batch.contents += added;
    batch.added += added.total();
    let body = Body::read(&batch, settings)?;
    let course = body.course(feed.temperature, plan.steam, STEAM)?;
    let before = batch.heat;
    let core_course = plan.record(&mut batch, &course);
    let factor = match settings.mode("alkali", ALKALI)? {
        "soda" => settings.number("alkali_browning")?.max(1.0),
        _ => 1.0,
    };
    batch.heat.browning = before.browning + (batch.heat.browning - before.browning) * factor;
    if factor > 1.0 {
        batch.ph = settings.number("alkali_ph")?;
    }
    let softening = Softening::read(settings)?;
    let cooked = Temperature::from_celsius(100.0);
    let core = plan.core_end(&course);
    let equivalent = softening.equivalent(&plan.stages(&course));
    batch.heat.firmness *= softening.kept(equivalent);
    let gelatine = Softening::of("gelatine_rate", "gelatine_z", settings)?;
    let dissolved = 1.0 - gelatine.kept(gelatine.equivalent(&plan.stages(&course)));
    let heat = plan.boil_off(&mut batch, settings)?;
    batch.temperature = plan.boil.min(plan.steam);
    let mut run = Run::of("cooked", batch);
    run.added = added;
    run.vapour = Contents::only(Component::Water, heat.gone);
    run.time = plan.come_up + plan.hold + plan.release;
    run.attended = settings.time("handling_time")?.min(run.time);
    run.energy = heat.balance;
    run.told = vec![
        ("steam_temperature", plan.steam.kelvin()),
        ("core_temperature", core.kelvin()),
        ("minutes_at_100", equivalent.seconds()),
        (
            "faster_than_boiling",
            softening.relative(plan.steam) / softening.relative(plan.boil.min(cooked)),
        ),
        ("gelatine_dissolved", dissolved),
    ];
    run.trace = settings.trace.then(|| {
        let core = core_course;
        Trace { core, ..course.trace(feed, plan.come_up + plan.hold) }
    });
    Ok(run.clocked())
}

fn added_water(settings: &Settings<'_>) -> f64 {
    settings.optional("added_water").map_or(0.0, |share| share.max(0.0))
}

/// What boiled off, and where the heat went.
struct BoiledOff {
    gone: Mass,
    balance: EnergyBalance,
}

impl Cooking {
    fn read(settings: &Settings<'_>) -> Result<Self, ProcessError> {
        let gauge = settings.pressure("gauge_pressure")?;
        if !(0.0..=MOST_GAUGE).contains(&gauge.pascals()) {
            let because = format!(
                "{:.0} kPa gauge is not a pressure of a pot; the most is {:.0} kPa",
                gauge.kilopascals(),
                MOST_GAUGE / 1e3
            );
            return Err(ProcessError::CannotWork { process: NAME, because });
        }
        let outside = settings.place.pressure;
        let steam_share = 1.0 - settings.share("air_left")?.min(0.9);
        let steam = Pressure::from_pascals((outside + gauge).pascals() * steam_share);
        let release = match settings.mode("release", RELEASES)? {
            "quick" => settings.time("quick_release_time")?,
            _ => settings.time("natural_release_time")?,
        };
        Ok(Self {
            steam: saturation_temperature(steam)?,
            boil: saturation_temperature(outside)?,
            come_up: settings.time("come_up_time")?,
            hold: settings.time("hold_time")?,
            release,
        })
    }

    /// Temperature of the core when the pressure is let off.
    ///
    /// While the pot comes up, the steam warms evenly: half of that time counts as at the full
    /// temperature.
    fn core_end(&self, course: &Course) -> Temperature {
        course.core(self.come_up * 0.5 + self.hold)
    }

    /// The stages of the core as spans of time at a temperature.
    fn stages(&self, course: &Course) -> [(Temperature, Time); 14] {
        let ramp = f64::from(RAMP_PIECES);
        let mut stages = [(course.start, Time::ZERO); 14];
        let heating = self.come_up * 0.5 + self.hold;
        let end = self.core_end(course);
        let slots = stages.iter_mut();
        for (index, slot) in slots.enumerate() {
            let index = index as f64;
            *slot = if index < 8.0 {
                (course.core(heating * ((index + 0.5) / 8.0)), heating / 8.0)
            } else {
                let share = (index - 8.0 + 0.5) / ramp;
                (end - (end - self.boil.min(end)) * share, self.release / ramp)
            };
        }
        stages
    }

    /// Puts the stages on the record; returns the core as it was put down, on the clock of the pot.
    fn record(&self, batch: &mut Batch, course: &Course) -> Vec<CorePoint> {
        let dissolved = batch.contents.soluble_solids();
        let (waiting, heating) = (self.come_up * 0.5, self.come_up * 0.5 + self.hold);
        let end = self.core_end(course);
        let mut heated = Time::ZERO;
        let mut points = vec![CorePoint::of(Time::ZERO, course.start, &batch.heat)];
        points.push(CorePoint::of(waiting, course.start, &batch.heat));
        for (temperature, time) in self.stages(course) {
            expose(&mut batch.heat, temperature, time, dissolved);
            heated += time;
            let fallen = (heated - heating) / self.release.max(Time::from_seconds(f64::EPSILON));
            let core = match fallen > 0.0 {
                true => end - (end - self.boil.min(end)) * fallen.min(1.0),
                false => course.core(heated),
            };
            points.push(CorePoint::of(waiting + heated, core, &batch.heat));
        }
        batch.heat.hottest = batch.heat.hottest.max(end);
        points
    }

    /// Water that leaves by the valve and by flashing when the pressure falls.
    fn boil_off(
        &self,
        batch: &mut Batch,
        settings: &Settings<'_>,
    ) -> Result<BoiledOff, ProcessError> {
        let capacity = batch.heat_capacity()?;
        let mass = batch.mass();
        let start = batch.temperature;
        let end = self.boil.min(self.steam);
        let flashed = if self.steam > self.boil && settings.mode("release", RELEASES)? == "quick" {
            mass * flash_share(self.steam, self.boil, capacity)?
        } else {
            Mass::ZERO
        };
        let vented =
            mass * (settings.rate("vented_per_hour")?.per_second() * self.hold.seconds()).max(0.0);
        let gone = flashed + vented;
        let water = batch.contents.mass(Component::Water);
        if gone > water * MOST_BOILED_OFF {
            let because = format!(
                "{:.0} g of steam leave, and it holds {:.0} g of water",
                gone.grams(),
                water.grams()
            );
            return Err(ProcessError::CannotWork { process: NAME, because });
        }
        batch.contents[Component::Water] -= gone.kilograms();
        let into_vapour: Energy = gone * latent_heat_vaporisation(end)?;
        let into_food = (mass - gone) * (capacity * (end - start));
        let lost = (into_food + into_vapour).max(Energy::ZERO)
            * (1.0 / settings.share("transfer_efficiency")?.max(0.01) - 1.0);
        let supplied = into_food + into_vapour + lost;
        Ok(BoiledOff { gone, balance: EnergyBalance { supplied, into_food, into_vapour, lost } })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::process::Component;
    use crate::process::testing::{Bench, food};

    fn roots() -> Batch {
        food(&[(Component::Water, 880.0), (Component::Sugars, 50.0), (Component::Fibre, 30.0)])
    }

    fn cooker(gauge: f64) -> Bench {
        Bench::of(NAME).with("gauge_pressure", gauge).with("hold_time", 600.0)
    }

    #[test]
    fn a_bar_of_gauge_boils_at_120_degrees_and_softens_faster() {
        // IAPWS-IF97: 120.4 °C at 201.3 kPa.
        let run = cooker(1e5).with("air_left", 0.0).traced().run(&roots()).unwrap();
        let celsius = Temperature::from_kelvin(run.told("steam_temperature").unwrap()).celsius();
        assert!((celsius - 120.4).abs() < 0.2, "{celsius}");
        let open = cooker(0.0).run(&roots()).unwrap();
        let firm = |run: &Run| run.streams[0].batch.heat.firmness;
        assert!(firm(&run) < firm(&open));
    }

    #[test]
    fn a_gauge_that_no_valve_holds_is_refused() {
        assert!(cooker(4e5).run(&roots()).is_err());
    }

    #[test]
    fn the_core_on_record_ends_as_the_product_does() {
        let run = cooker(1e5).traced().run(&roots()).unwrap();
        let (points, heat) = (run.trace.unwrap().core, run.streams[0].batch.heat);
        let last = points.last().unwrap();
        assert!((last.time - run.time).seconds().abs() < 1e-6);
        assert_eq!((last.pasteurised, last.kills), (heat.pasteurised, heat.kills));
        let hottest = points.iter().map(|point| point.temperature.kelvin()).fold(0.0, f64::max);
        assert!((hottest - heat.hottest.kelvin()).abs() < 1e-9);
    }
}
