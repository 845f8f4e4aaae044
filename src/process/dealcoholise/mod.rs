//! Taking alcohol out of a liquid or a dish: simmered open or lidded, under vacuum, baked, flamed.
//!
//! Answers how much alcohol is left after a time, or how long it takes to a strength, and how much
//! water and aroma goes with it.
//!
//! Alcohol and water leave by `d ln E = alpha d ln W`, alpha from the equilibrium of ethanol and
//! water ([`crate::physics::ethanol_water`]) at the pressure of the room or the vessel, which for
//! weak liquids is the law `c = c0 (V/V0)^beta` that P. Snitkjaer et al., Food Chemistry 237:234,
//! 2017, found whatever the pot. Heat less what the vessel loses sets the rate of the boil; below
//! it the air film does. A lid returns the vapour that its own loss of heat condenses, most of it
//! water, and lets little air in. In a baked dish the alcohol has to diffuse through the food to its surface.
//! `flame` and `off-heat` are stated, not computed: USDA Table of Nutrient Retention Factors,
//! Release 6, 2007.
//!
//! Symbols: E ethanol, W water, alpha relative volatility by mass.

mod stated;
mod vessel;

use vessel::{State, Vessel};

use super::heat::expose;
use super::stripping::{Step, Stripping};
use super::warming::heat_to;
use super::{Batch, Component, Contents, EnergyBalance, Point, ProcessError, Run, Settings, Trace};
use crate::knowledge::NoteClass;
use crate::quantity::{Mass, Power, Temperature, Time};

/// The name of the process.
pub const NAME: &str = "dealcoholise";
const VESSELS: &[&str] = &["open", "lidded", "vacuum", "baked", "flame", "off-heat"];
/// Steps into which the evaporation is cut; doubling them moves no result by more than 1 %.
const STEPS: u32 = 24;
/// The state of the vessel is computed anew after this many steps.
const REFRESH: u32 = 4;
/// Less water than this share of the feed's is not boiled off: the pot would burn dry.
const LEAST_WATER: f64 = 0.05;
/// Steps into which the warming-up is cut.
const WARMING_STEPS: u32 = 8;
/// A pot that comes to its boil warms with this share of the power at least: where the vapour took
/// more, it would not get there. Estimate.
const LEAST_WARMING: f64 = 0.5;
/// Where the vapour is nearly as weak as the liquid, the target is not reached by evaporating.
const LEAST_GAIN: f64 = 1e-3;

/// Runs the model.
///
/// # Errors
/// [`ProcessError::CannotWork`] when the vessel would run dry before the target, a bath is too cold
/// or a liquid too weak to burn; missing settings; laws asked outside their range.
pub fn run(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let word = settings.mode("vessel", VESSELS)?;
    if matches!(word, "flame" | "off-heat") {
        return stated::run(feed, settings, word);
    }
    let vessel = Vessel::read(word, settings)?;
    let mut pot = Pot {
        batch: *feed,
        stripping: Stripping::read(feed, settings)?,
        vapour: Contents::NONE,
        time: Time::ZERO,
        energy: EnergyBalance::default(),
        trace: Vec::new(),
        dry: feed.contents[Component::Water] * LEAST_WATER,
    };
    let first = vessel.state(feed)?;
    pot.warm_up(&vessel, &first)?;
    match settings.optional("target_alcohol") {
        Some(target) => pot.until(&vessel, target)?,
        None => pot.during(&vessel, settings.time("time")?)?,
    }
    pot.finish(feed, settings, &first)
}

struct Pot {
    batch: Batch,
    stripping: Stripping,
    vapour: Contents,
    time: Time,
    energy: EnergyBalance,
    trace: Vec<Point>,
    dry: f64,
}

impl Pot {
    /// Brings the liquid to its working temperature at the power that reaches it; from an open pot
    /// some alcohol leaves meanwhile.
    fn warm_up(&mut self, vessel: &Vessel, state: &State) -> Result<(), ProcessError> {
        self.note();
        let (start, target) = (self.batch.temperature, state.temperature);
        let lost = state.lost * 0.5;
        if target > start && state.warming > lost {
            for step in 1..=WARMING_STEPS {
                let share = f64::from(step) / f64::from(WARMING_STEPS);
                self.warm_to(vessel, start + (target - start) * share, state.warming - lost, lost)?;
            }
        }
        let heat = heat_to(&self.batch, target)?;
        self.energy.supplied += heat;
        self.energy.into_food += heat;
        self.batch.temperature = target;
        Ok(())
    }

    /// Warms the liquid by one step with the power that stays in it or makes vapour.
    fn warm_to(
        &mut self,
        vessel: &Vessel,
        next: Temperature,
        power: Power,
        lost: Power,
    ) -> Result<(), ProcessError> {
        let heat = heat_to(&self.batch, next)?;
        let middle = self.batch.temperature + (next - self.batch.temperature) * 0.5;
        let Some(mut state) = vessel.warming(&self.batch, middle)? else {
            let time = heat / power;
            self.time += time;
            self.energy.lost += lost * time;
            self.energy.supplied += lost * time + heat;
            self.energy.into_food += heat;
            expose(&mut self.batch.heat, middle, time, self.batch.contents.soluble_solids());
            self.batch.temperature = next;
            return Ok(());
        };
        let drawn = Power::from_watts(state.water_rate * state.latent.0.si());
        let most = power * (1.0 - LEAST_WARMING);
        if drawn > most {
            state.water_rate *= most / drawn;
        }
        let time = heat / (power - drawn.min(most));
        let water = self.batch.contents[Component::Water];
        let ratio = (-state.water_rate * time.seconds() / water).exp();
        if water * ratio < self.dry {
            return Err(runs_dry(self.time));
        }
        (state.temperature, state.lost) = (next, lost);
        self.take(&state, ratio, time)
    }

    /// Evaporates for a time.
    fn during(&mut self, vessel: &Vessel, time: Time) -> Result<(), ProcessError> {
        let step = time / f64::from(STEPS);
        let mut state = vessel.state(&self.batch)?;
        for index in 0..STEPS {
            if index > 0 && index % REFRESH == 0 {
                state = vessel.state(&self.batch)?;
            } else {
                state = vessel.shifted(state, &self.batch)?;
            }
            let water = self.batch.contents[Component::Water];
            let ratio = (-state.water_rate * step.seconds() / water).exp();
            if water * ratio < self.dry {
                return Err(runs_dry(self.time));
            }
            self.take(&state, ratio, step)?;
        }
        Ok(())
    }

    /// Evaporates until the alcohol has fallen to a share by volume.
    fn until(&mut self, vessel: &Vessel, target: f64) -> Result<(), ProcessError> {
        let strength = self.batch.alcohol_by_volume();
        let mut state = vessel.state(&self.batch)?;
        for index in 0..STEPS {
            let now = self.batch.alcohol_by_volume();
            if target <= 0.0 || now <= target {
                break;
            }
            if index > 0 {
                state = vessel.shifted(state, &self.batch)?;
            }
            if index > 0 && index % REFRESH == 0 {
                state = vessel.state(&self.batch)?;
            }
            let fall = (target / now).ln() / f64::from(STEPS - index);
            let ratio = self.water_ratio(&state, fall, strength, target)?;
            let water = self.batch.contents[Component::Water];
            let time = Time::from_seconds(-water * ratio.ln() / state.water_rate);
            if water * ratio < self.dry {
                return Err(runs_dry(self.time));
            }
            self.take(&state, ratio, time)?;
        }
        Ok(())
    }

    /// The share of water left when the mass fraction of ethanol falls by `fall` in its logarithm.
    ///
    /// `d ln w = d ln E - d ln M`, `d ln E = alpha d ln W`, `dM = dE + dW`.
    fn water_ratio(
        &self,
        state: &State,
        fall: f64,
        from: f64,
        to: f64,
    ) -> Result<f64, ProcessError> {
        let contents = &self.batch.contents;
        let (ethanol, water) =
            (contents.share(Component::Ethanol), contents.share(Component::Water));
        let gain = state.alpha * (1.0 - ethanol) - water;
        if gain < LEAST_GAIN {
            let because = format!(
                "the vapour is no stronger than the liquid, which has {:.1} % and should have {:.1} %",
                100.0 * from,
                100.0 * to
            );
            return Err(ProcessError::CannotWork { process: NAME, because });
        }
        Ok((fall / gain).exp())
    }

    /// Takes one step: the water falls to a share of itself, the alcohol to that share to alpha.
    fn take(&mut self, state: &State, ratio: f64, time: Time) -> Result<(), ProcessError> {
        let contents = &self.batch.contents;
        let water = contents[Component::Water] * (1.0 - ratio);
        let ethanol = contents[Component::Ethanol] * (1.0 - ratio.powf(state.alpha));
        let vapour_heat = Mass::from_kilograms(water) * state.latent.0
            + Mass::from_kilograms(ethanol) * state.latent.1;
        let sensible = heat_to(&self.batch, state.temperature)?;
        let lost = state.lost * time;
        self.energy.supplied += vapour_heat + sensible + lost;
        self.energy.into_vapour += vapour_heat;
        self.energy.into_food += sensible;
        self.energy.lost += lost;
        self.time += time;
        let gone = Mass::from_kilograms(water);
        let boiling = state.boiling.is_some();
        let step = Step { temperature: state.temperature, ratio, gone, time, boiling };
        self.stripping.apply(&mut self.batch, &step)?;
        for (component, mass) in [(Component::Water, water), (Component::Ethanol, ethanol)] {
            self.batch.contents[component] -= mass;
            self.vapour[component] += mass;
        }
        self.batch.temperature = state.temperature;
        let dissolved = self.batch.contents.soluble_solids();
        expose(&mut self.batch.heat, state.temperature, time, dissolved);
        self.note();
        Ok(())
    }

    fn note(&mut self) {
        self.trace.push(Point {
            time: self.time,
            mass: self.batch.mass(),
            temperature: self.batch.temperature,
            measure: self.batch.alcohol_by_volume(),
            aroma: self.batch.aroma.left(NoteClass::Middle).unwrap_or(1.0),
        });
    }

    fn finish(
        self,
        feed: &Batch,
        settings: &Settings<'_>,
        first: &State,
    ) -> Result<Run, ProcessError> {
        let before = feed.contents[Component::Ethanol];
        let left = self.batch.contents[Component::Ethanol];
        let mut run = Run::of("product", self.batch);
        run.vapour = self.vapour;
        run.time = self.time;
        run.attended = self.time * settings.share("attended_share")?;
        run.energy = self.energy;
        run.told = vec![
            ("alcohol_strength", self.batch.alcohol_by_volume()),
            ("alcohol_retained", if before > 0.0 { left / before } else { 0.0 }),
            ("alcohol_vapour", self.vapour[Component::Ethanol]),
            ("boiling_point", first.temperature.kelvin()),
            ("volatility", first.alpha),
        ];
        if settings.trace {
            run.trace = Some(Trace::of("alcohol (share by volume)", self.trace));
        }
        Ok(run.clocked())
    }
}

fn runs_dry(after: Time) -> ProcessError {
    let because = format!("the vessel runs dry after {:.0} min", after.minutes());
    ProcessError::CannotWork { process: NAME, because }
}

/// Power is only ever counted when there is some.
fn positive_power(power: Power) -> Power {
    power.max(Power::ZERO)
}

#[cfg(test)]
mod tests;
