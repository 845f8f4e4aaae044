//! Evaporation of water from a liquid: open pan, microwave, vacuum vessel, warm tray.
//!
//! Answers how long it takes, how warm the food gets, and what leaves with the vapour.
//!
//! The water is taken off in `STEPS` steps of equal ratio. In each step the boiling point follows
//! the strength of the liquid, the heat that reaches it less what the vessel loses gives the rate, and
//! every aroma marker leaves by `d ln m = alpha d ln W`, slowed by the liquid film. Below the boil the
//! rate follows from mass transfer into the room air ([`crate::physics::evaporation`]).
//!
//! Sources: steady pan, bath and tray by [`crate::physics::evaporation`], boiling point and water
//! activity by [`crate::physics::solutions`], volatility by Henry's law ([`crate::physics::aroma`]).

mod heating;

use heating::{Flow, Heating};

use super::heat::expose;
use super::stripping::{self, Stripping};
use super::{Batch, Component, Contents, EnergyBalance, Point, ProcessError, Run, Settings, Trace};
use crate::knowledge::NoteClass;
use crate::physics::water::latent_heat_vaporisation;
use crate::quantity::{Energy, Mass, Temperature, Time};

/// The name of the process.
pub const NAME: &str = "evaporate";
/// Steps into which the evaporation is cut; doubling them moves no result by more than 2 %.
const STEPS: u32 = 12;
/// Progress, from the start to the end of the logarithm of the water, at which the steady state is
/// computed; between them it is interpolated. More of them move no time by more than 1 %.
const NODES: [f64; 4] = [0.0, 0.4, 0.75, 1.0];
/// Steps into which the heating-up is cut.
const WARMING_STEPS: u32 = 6;
/// The strongest liquid that is evaporated, as dissolved share; beyond lies sugar boiling.
const STRONGEST: f64 = 0.85;
/// A pan keeps at most this share of its mass as a film, however thick the film.
const MOST_FILM: f64 = 0.3;

/// Runs the model.
///
/// # Errors
/// [`ProcessError`] for a missing setting, conditions under which nothing evaporates, and laws asked
/// outside their range.
pub fn run(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let heating = Heating::read(settings)?;
    let loads = loads(feed, settings)?;
    let mut pot = Pot::new(feed.part(1.0 / loads), heating, settings)?;
    pot.warm_up()?;
    pot.evaporate(water_left(&pot.batch, settings))?;
    pot.finish(settings, loads)
}

/// Returns the mass of water at which to stop, from whichever target is set.
fn water_left(batch: &Batch, settings: &Settings<'_>) -> f64 {
    let contents = &batch.contents;
    let water = contents[Component::Water];
    let solutes = contents.solutes().kilograms();
    let floor = solutes * (1.0 - STRONGEST) / STRONGEST;
    let wanted = if let Some(share) = settings.optional("target_soluble_solids") {
        let liquid = solutes / share.clamp(1e-6, 1.0);
        liquid - solutes - contents[Component::Ethanol]
    } else if let Some(share) = settings.optional("target_water_removed") {
        let total = batch.mass().kilograms();
        water - share.clamp(0.0, 1.0) * total
    } else {
        water
    };
    wanted.clamp(floor.min(water), water)
}

/// Returns how many loads the vessel needs.
fn loads(feed: &Batch, settings: &Settings<'_>) -> Result<f64, ProcessError> {
    let Some(volume) = settings.optional("volume") else { return Ok(1.0) };
    let usable = volume * settings.share("fill_share")?;
    Ok((feed.volume()?.cubic_metres() / usable).ceil().max(1.0))
}

/// The liquid while it is worked on.
struct Pot {
    batch: Batch,
    heating: Heating,
    stripping: Stripping,
    vapour: Contents,
    time: Time,
    energy: EnergyBalance,
    trace: Option<Trace>,
    start: Option<Flow>,
}

impl Pot {
    fn new(batch: Batch, heating: Heating, settings: &Settings<'_>) -> Result<Self, ProcessError> {
        let stripping = Stripping::read(&batch, settings)?;
        let trace = settings.trace.then(|| Trace::of("dissolved solids (share)", Vec::new()));
        Ok(Self {
            batch,
            heating,
            stripping,
            vapour: Contents::NONE,
            time: Time::ZERO,
            energy: EnergyBalance::default(),
            trace,
            start: None,
        })
    }

    /// Warms the liquid to the temperature at which it evaporates.
    ///
    /// A vacuum or a draught cools it there instead, and a thin tray follows the air at once.
    fn warm_up(&mut self) -> Result<(), ProcessError> {
        self.note();
        let flow = self.heating.flow(&self.batch)?;
        self.start = Some(flow);
        let (start, target) = (self.batch.temperature, flow.temperature);
        let Some(power) = flow.warming.filter(|_| target > start) else {
            let heat = self.heat_to(target)?;
            self.energy.supplied += heat;
            self.energy.into_food += heat;
            self.batch.temperature = target;
            return Ok(());
        };
        for step in 1..=WARMING_STEPS {
            let share = f64::from(step) / f64::from(WARMING_STEPS);
            let next = start + (target - start) * share;
            let heat = self.heat_to(next)?;
            // Losses grow from nothing to those of the working temperature.
            let lost = flow.lost * (share - 0.5 / f64::from(WARMING_STEPS));
            let time = heat / (power - lost);
            self.spend(time, power * time, lost * time);
            self.energy.into_food += heat;
            let dissolved = self.batch.contents.soluble_solids();
            expose(&mut self.batch.heat, next, time, dissolved);
            self.batch.temperature = next;
        }
        Ok(())
    }

    /// Heat to bring the liquid to another temperature.
    fn heat_to(&self, to: Temperature) -> Result<Energy, ProcessError> {
        let rise = to - self.batch.temperature;
        Ok(self.batch.mass() * (self.batch.heat_capacity()? * rise))
    }

    fn spend(&mut self, time: Time, supplied: Energy, lost: Energy) {
        self.time += time;
        self.energy.supplied += supplied;
        self.energy.lost += lost;
    }

    /// Takes water off until only the given mass of it is left.
    fn evaporate(&mut self, water_left: f64) -> Result<(), ProcessError> {
        let water = self.batch.contents[Component::Water];
        if water_left >= water {
            return Ok(());
        }
        // Steps of equal ratio; when nearly all is taken off they would grow too fine to matter.
        let end = (water_left.max(water * 1e-6) / water).ln();
        let flows = self.flows(end)?;
        let ratio = (end / f64::from(STEPS)).exp();
        for step in 0..STEPS {
            let progress = (f64::from(step) + 0.5) / f64::from(STEPS);
            self.step_water(ratio, &between(&flows, progress))?;
        }
        Ok(())
    }

    /// Computes the steady state at each node of the way to `exp(end)` of the water.
    fn flows(&self, end: f64) -> Result<[Flow; NODES.len()], ProcessError> {
        let start = match self.start {
            Some(flow) => flow,
            None => self.heating.flow(&self.batch)?,
        };
        let mut flows = [start; NODES.len()];
        for (flow, progress) in flows.iter_mut().zip(NODES).skip(1) {
            let mut stronger = self.batch;
            stronger.contents[Component::Water] *= (end * progress).exp();
            stronger.temperature = start.temperature;
            *flow = self.heating.flow(&stronger)?;
        }
        Ok(flows)
    }

    /// Takes one step: the water falls to a share of itself.
    fn step_water(&mut self, ratio: f64, flow: &Flow) -> Result<(), ProcessError> {
        let before = self.batch.contents[Component::Water];
        let gone = before * (1.0 - ratio);
        let temperature = flow.temperature;
        let latent = latent_heat_vaporisation(temperature)?;
        let kept_ethanol = self.stripping.ethanol_kept(temperature, ratio)?;
        let ethanol = self.batch.contents[Component::Ethanol] * (1.0 - kept_ethanol);
        let water_heat = Mass::from_kilograms(gone) * latent;
        let vapour_heat =
            water_heat + Mass::from_kilograms(ethanol) * stripping::ETHANOL_LATENT_HEAT;
        let sensible = self.heat_to(temperature)?;
        // The heat that boils off the water also has to warm the rest and to boil off the ethanol.
        let slower = (vapour_heat + sensible) / water_heat;
        let time = Mass::from_kilograms(gone) / flow.rate * slower.max(0.0);
        let lost = flow.lost * time;
        self.spend(time, vapour_heat + sensible + lost, lost);
        self.energy.into_vapour += vapour_heat;
        self.energy.into_food += sensible;
        let boiling = flow.boiling;
        let gone_mass = Mass::from_kilograms(gone);
        let strip = stripping::Step { temperature, ratio, gone: gone_mass, time, boiling };
        self.stripping.apply(&mut self.batch, &strip)?;
        self.batch.contents[Component::Water] -= gone;
        self.batch.contents[Component::Ethanol] -= ethanol;
        self.vapour[Component::Water] += gone;
        self.vapour[Component::Ethanol] += ethanol;
        self.batch.temperature = temperature;
        let dissolved = self.batch.contents.soluble_solids();
        expose(&mut self.batch.heat, temperature, time, dissolved);
        self.note();
        Ok(())
    }

    fn note(&mut self) {
        let (batch, time) = (&self.batch, self.time);
        if let Some(trace) = &mut self.trace {
            trace.points.push(Point {
                time,
                mass: batch.mass(),
                temperature: batch.temperature,
                measure: batch.contents.soluble_solids(),
                aroma: batch.aroma.left(NoteClass::Middle).unwrap_or(1.0),
            });
        }
    }

    /// Leaves the film on the vessel and multiplies one load by their number.
    fn finish(mut self, settings: &Settings<'_>, loads: f64) -> Result<Run, ProcessError> {
        let film = settings.length("film_thickness")?.metres() * self.heating.wetted_area();
        let volume = self.batch.volume()?.cubic_metres();
        let film_share = (film / volume).clamp(0.0, MOST_FILM);
        let left_behind = self.batch.contents * (film_share * loads);
        let mut product = self.batch.part((1.0 - film_share) * loads);
        product.air = 0.0;
        let depth = self.heating.depth(volume);
        let attended = self.time * (settings.share("attended_share")? * loads);
        let vapour = self.vapour * loads;
        let mut run = Run::of("concentrate", product);
        run.left_behind = left_behind;
        run.time = self.time * loads;
        run.attended = attended;
        run.energy = self.energy * loads;
        run.told = vec![
            ("loads", loads),
            ("boiling_point", self.start.map_or(f64::NAN, |flow| flow.temperature.kelvin())),
            ("end_temperature", self.batch.temperature.kelvin()),
            ("evaporation_rate", rate(&vapour, run.time)),
            (
                "condenser_limited",
                f64::from(u8::from(self.start.is_some_and(|f| f.condenser_limited))),
            ),
        ];
        run.told.extend(depth.map(|depth| ("end_depth", depth)));
        run.vapour = vapour;
        run.trace = self.trace.take();
        Ok(run.clocked())
    }
}

/// Returns the steady state between the nodes, by straight lines.
fn between(flows: &[Flow; NODES.len()], progress: f64) -> Flow {
    let next = NODES.iter().position(|node| *node >= progress).unwrap_or(NODES.len() - 1).max(1);
    let share = (progress - NODES[next - 1]) / (NODES[next] - NODES[next - 1]);
    let (a, b) = (&flows[next - 1], &flows[next]);
    Flow {
        temperature: a.temperature + (b.temperature - a.temperature) * share,
        rate: a.rate + (b.rate - a.rate) * share,
        lost: a.lost + (b.lost - a.lost) * share,
        ..*a
    }
}

fn rate(vapour: &Contents, time: Time) -> f64 {
    if time > Time::ZERO { (vapour.total() / time).si() } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::process::testing::{Bench, food};

    fn juice() -> Batch {
        food(&[(Component::Water, 880.0), (Component::Sugars, 115.0), (Component::Acid, 5.0)])
    }

    fn pan(power: f64) -> Bench {
        Bench::of(NAME)
            .with("power", power)
            .with("transfer_efficiency", 0.6)
            .with("diameter", 0.24)
            .with("target_soluble_solids", 0.5)
    }

    #[test]
    fn a_kilowatt_that_reaches_the_pan_boils_off_less_than_its_latent_heat() {
        // 1 kW over 2,257 kJ/kg are 1.6 kg/h; side and surface lose some of it.
        let run = pan(1000.0 / 0.6).traced().run(&juice()).unwrap();
        let per_hour = run.told("evaporation_rate").unwrap() * 3600.0;
        assert!((1.0..1.6).contains(&per_hour), "{per_hour}");
        assert!((run.streams[0].batch.contents.soluble_solids() - 0.5).abs() < 1e-3);
    }

    #[test]
    fn a_burner_that_is_too_weak_to_boil_is_slower_still() {
        assert!(pan(900.0).run(&juice()).unwrap().time < pan(300.0).run(&juice()).unwrap().time);
    }
}
