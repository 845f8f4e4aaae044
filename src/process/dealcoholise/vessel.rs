//! What the vessel does: the temperature of the liquid and how fast water and alcohol leave it.

use std::f64::consts::PI;

use super::{NAME, positive_power};
use crate::physics::aroma::{AirWaterPartition, gas_film, overall_transfer};
use crate::physics::constants::{ETHANOL_MOLAR_MASS, GAS_CONSTANT, WATER_MOLAR_MASS};
use crate::physics::ethanol_water::{bubble_point, bubble_pressure, ethanol_latent_heat};
use crate::physics::evaporation::{HeatedPan, OpenSurface, Surroundings};
use crate::physics::water::{
    latent_heat_vaporisation, saturation_pressure, saturation_temperature,
};
use crate::process::{Batch, Component, ProcessError, Settings};
use crate::quantity::{
    Area, HeatTransfer, Length, MolarMass, Power, Pressure, SpecificEnergy, Speed, Temperature,
    TemperatureDifference,
};

/// Air-water partition of ethanol at 25 °C, and its slope \[K\]: R. Sander, Atmos. Chem. Phys. 23:10901,
/// 2023, ethanol (review values).
const ETHANOL: AirWaterPartition =
    AirWaterPartition { at_25_c: 2.12e-4, slope: TemperatureDifference::from_kelvin(6300.0) };
/// Ethanol leaves through the air film more slowly than water by this factor, (18/46)^0.335: after
/// D. Mackay & P. J. Leinonen, Environ. Sci. Technol. 9:1178, 1975, as [`gas_film`].
const FILM_EXPONENT: f64 = 0.335;
/// Water activities are asked at this temperature at most; the law of solutions is fitted so far.
const ACTIVITY_LIMIT: Temperature = Temperature::from_celsius(105.0);
/// A bath less than this much warmer than the boiling liquid does not heat it in a working day.
const LEAST_DRIVE: f64 = 0.5;
/// The weakest liquid for which the equilibrium is asked, as a mole fraction; below it alpha no longer
/// changes.
const WEAKEST: f64 = 1e-6;
/// The share of the opening that is free without a lid.
const OPEN: f64 = 1.0;
/// A pot that warms up gives off next to nothing below this. Estimate: at 40 °C vapour pressures are a
/// thirteenth of those at the boil.
const GIVES_OFF_FROM: Temperature = Temperature::from_celsius(40.0);
/// A held liquid within this of its boiling point is counted as boiling \[K\].
const BOILS_WITHIN: f64 = 0.2;

/// The working state of the liquid at one strength.
#[derive(Debug, Clone, Copy)]
pub(super) struct State {
    /// Temperature of the liquid.
    pub temperature: Temperature,
    /// Water that leaves [kg/s].
    pub water_rate: f64,
    /// `d ln E / d ln W`.
    pub alpha: f64,
    /// Heat that the vessel loses.
    pub lost: Power,
    /// Heat that reaches the liquid while it warms up.
    pub warming: Power,
    /// Latent heats of water and of ethanol.
    pub latent: (SpecificEnergy, SpecificEnergy),
    /// Heat that makes vapour; `None` when the air film sets the rate.
    pub boiling: Option<Power>,
    /// Share of the vapour that a lid does not send back as drops.
    escapes: f64,
}

#[derive(Debug, Clone, Copy)]
enum Heat {
    /// A burner; with a lid that leaves this share of the opening free.
    Burner { power: Power, wall: HeatTransfer, hold: Option<Temperature>, lid: Option<f64> },
    /// A bath around an evacuated vessel.
    Bath { pressure: Pressure, bath: Temperature, conductance: f64 },
    /// An oven over a dish.
    Oven { core: Temperature, film: Speed },
}

pub(super) struct Vessel {
    heat: Heat,
    area: Area,
    diameter: Length,
    surroundings: Surroundings,
}

impl Vessel {
    pub fn read(word: &str, settings: &Settings<'_>) -> Result<Self, ProcessError> {
        let place = settings.place;
        let mut surroundings = Surroundings {
            air: place.room_temperature,
            relative_humidity: place.room_humidity,
            pressure: place.pressure,
            speed: settings.speed("air_speed")?,
        };
        let heat = match word {
            "vacuum" => Heat::Bath {
                pressure: settings.pressure("pressure")?,
                bath: settings.temperature("bath_temperature")?,
                conductance: settings.heat_transfer("bath_coefficient")?.si()
                    * settings.area("heated_area")?.si(),
            },
            "baked" => {
                let room = surroundings.vapour_pressure()?;
                surroundings.air = settings.temperature("oven_temperature")?;
                surroundings.relative_humidity =
                    (room / saturation_pressure(surroundings.air)?).min(1.0);
                Heat::Oven {
                    core: settings.temperature("dish_temperature")?,
                    film: settings.speed("dish_film")?,
                }
            }
            _ => Heat::Burner {
                power: settings.power("power")? * settings.share("transfer_efficiency")?,
                wall: settings.heat_transfer("wall_loss")?,
                hold: settings.optional("hold_temperature").map(Temperature::from_si),
                lid: if word == "lidded" { Some(settings.share("lid_gap")?) } else { None },
            },
        };
        let diameter = if word == "vacuum" {
            Length::from_metres((settings.area("heated_area")?.si() * 4.0 / PI).sqrt())
        } else {
            settings.length("diameter")?
        };
        let area = Area::from_square_metres(PI / 4.0 * diameter.metres() * diameter.metres());
        Ok(Self { heat, area, diameter, surroundings })
    }

    /// Returns the working state at the strength of the batch.
    pub fn state(&self, batch: &Batch) -> Result<State, ProcessError> {
        match self.heat {
            Heat::Burner { power, wall, hold, lid } => {
                let boiling = boiling(batch, self.surroundings.pressure)?;
                let below = hold.filter(|hold| (boiling.0 - *hold).kelvin() > BOILS_WITHIN);
                match below {
                    Some(hold) => self.held(batch, hold, lid.unwrap_or(1.0), power, wall),
                    None => self.boiled(batch, boiling, power, wall, lid.is_some()),
                }
            }
            Heat::Bath { pressure, bath, conductance } => {
                let (temperature, alpha) = boiling(batch, pressure)?;
                let drive = (bath - temperature).kelvin();
                if drive < LEAST_DRIVE {
                    return Err(cold_bath(bath, temperature, pressure));
                }
                let heat = Power::from_watts(conductance * drive);
                state(batch, temperature, alpha, heat, Power::ZERO)
            }
            Heat::Oven { core, film } => self.baked(batch, core, film),
        }
    }

    /// Moves a state to the strength that the batch has meanwhile, at the same heat.
    pub fn shifted(&self, state: State, batch: &Batch) -> Result<State, ProcessError> {
        let Some(heat) = state.boiling else { return Ok(state) };
        let pressure = match self.heat {
            Heat::Bath { pressure, .. } => pressure,
            _ => self.surroundings.pressure,
        };
        let (temperature, alpha) = boiling(batch, pressure)?;
        let alpha = rectified(alpha, state.escapes);
        let mut moved = self::state(batch, temperature, alpha, heat, state.lost)?;
        (moved.warming, moved.escapes) = (state.warming, state.escapes);
        Ok(moved)
    }

    /// Returns how a pot on a burner gives off water and alcohol while it warms up; `None` for the
    /// other vessels and for a pot so cold that nothing leaves it. One waits for the bubbles with the
    /// lid off.
    pub fn warming(&self, batch: &Batch, at: Temperature) -> Result<Option<State>, ProcessError> {
        let Heat::Burner { power, wall, .. } = self.heat else { return Ok(None) };
        if at < GIVES_OFF_FROM {
            return Ok(None);
        }
        self.held(batch, at, OPEN, power, wall).map(Some)
    }

    fn pan(
        &self,
        batch: &Batch,
        wall: HeatTransfer,
        at: Temperature,
    ) -> Result<HeatedPan, ProcessError> {
        Ok(HeatedPan {
            diameter: self.diameter,
            power: Power::ZERO,
            efficiency: 1.0,
            wall,
            depth: batch.volume()? / self.area,
            activity: batch.water_activity_of_solution(at.min(ACTIVITY_LIMIT))?,
        })
    }

    /// A boil: what the burner gives beyond the loss of the walls, and of the lid, makes vapour.
    fn boiled(
        &self,
        batch: &Batch,
        (temperature, alpha): (Temperature, f64),
        power: Power,
        wall: HeatTransfer,
        lid: bool,
    ) -> Result<State, ProcessError> {
        let pan = self.pan(batch, wall, temperature)?;
        let mut lost = pan.dry_loss(temperature, self.surroundings.air, HeatTransfer::ZERO);
        let bare = lost;
        if lid {
            // Vapour condenses on the lid as fast as the lid loses its heat to the room.
            let drive = (temperature - self.surroundings.air).kelvin();
            lost += Power::from_watts(wall.si() * self.area.si() * drive);
        }
        if power <= lost {
            let because = format!(
                "the burner gives {:.0} W and the vessel loses {:.0} W at the boil",
                power.watts(),
                lost.watts()
            );
            return Err(ProcessError::CannotWork { process: NAME, because });
        }
        let escapes = (power - lost).watts() / (power - bare).watts();
        let alpha = rectified(alpha, escapes);
        let mut found = state(batch, temperature, alpha, positive_power(power - lost), lost)?;
        (found.warming, found.escapes) = (power, escapes);
        Ok(found)
    }

    /// A liquid held below its boiling point under room air.
    fn held(
        &self,
        batch: &Batch,
        at: Temperature,
        opening: f64,
        power: Power,
        wall: HeatTransfer,
    ) -> Result<State, ProcessError> {
        let pan = self.pan(batch, wall, at)?;
        let surface = OpenSurface { length: self.diameter, activity: pan.activity };
        let (flux, convection) = surface.flux(at, &self.surroundings)?;
        let bubble = bubble_pressure(mole_fraction(batch), at)?;
        let alpha = volatility(bubble.vapour_mole_fraction, mole_fraction(batch)) * film_ratio();
        let mut held = state(batch, at, alpha, Power::ZERO, Power::ZERO)?;
        held.water_rate = flux.si().max(0.0) * self.area.si() * opening;
        held.lost = positive_power(pan.dry_loss(at, self.surroundings.air, convection));
        held.warming = power;
        held.boiling = None;
        Ok(held)
    }

    /// A dish in the oven: water leaves its surface, alcohol has to come up through the food.
    fn baked(&self, batch: &Batch, core: Temperature, film: Speed) -> Result<State, ProcessError> {
        let activity = batch.water_activity_of_solution(core.min(ACTIVITY_LIMIT))?;
        let surface = OpenSurface { length: self.diameter, activity };
        let (flux, _) = surface.flux(core, &self.surroundings)?;
        let vapour = |p: Pressure, t: Temperature| {
            p.pascals() * WATER_MOLAR_MASS / (GAS_CONSTANT * t.kelvin())
        };
        let drive = vapour(saturation_pressure(core)? * activity, core)
            - vapour(self.surroundings.vapour_pressure()?, self.surroundings.air);
        let water_film = Speed::from_metres_per_second(flux.si() / drive);
        let air_film =
            gas_film(water_film, MolarMass::from_kilograms_per_mole(ETHANOL_MOLAR_MASS))?;
        let transfer = overall_transfer(film, air_film, ETHANOL.at(core)?)?;
        let volume = batch.volume()?.cubic_metres();
        let of_ethanol = transfer.si() * self.area.si() / volume;
        let of_water = flux.si() * self.area.si() / batch.contents[Component::Water];
        let mut dish = state(batch, core, of_ethanol / of_water, Power::ZERO, Power::ZERO)?;
        dish.water_rate = flux.si() * self.area.si();
        dish.boiling = None;
        Ok(dish)
    }
}

/// Returns the volatility of what escapes when a lid sends part of the vapour back as drops.
///
/// Drops hold the less of the alcohol, in equilibrium with the vapour that they leave: Rayleigh's
/// equation for condensing, `E/E0 = f^(1/alpha)`, so that alpha becomes `alpha f^(1/alpha - 1)`. Lidded
/// pots lose alcohol the more steeply per volume boiled off: P. Snitkjaer et al. 2017.
fn rectified(alpha: f64, escapes: f64) -> f64 {
    alpha * escapes.max(LEAST_ESCAPE).powf(1.0 / alpha - 1.0)
}

/// Less vapour than this share does not leave a pot by its own: air takes over.
const LEAST_ESCAPE: f64 = 0.05;

fn film_ratio() -> f64 {
    (WATER_MOLAR_MASS / ETHANOL_MOLAR_MASS).powf(FILM_EXPONENT)
}

/// Mole fraction of ethanol in the ethanol and water of a batch.
fn mole_fraction(batch: &Batch) -> f64 {
    let ethanol = batch.contents[Component::Ethanol] / ETHANOL_MOLAR_MASS;
    let water = batch.contents[Component::Water] / WATER_MOLAR_MASS;
    if ethanol + water > 0.0 { (ethanol / (ethanol + water)).max(WEAKEST) } else { WEAKEST }
}

fn volatility(vapour: f64, liquid: f64) -> f64 {
    vapour / (1.0 - vapour) * (1.0 - liquid) / liquid
}

/// Returns the boiling point and alpha; what is dissolved raises the boiling point as it does water's.
fn boiling(batch: &Batch, pressure: Pressure) -> Result<(Temperature, f64), ProcessError> {
    let fraction = mole_fraction(batch);
    let bubble = bubble_point(fraction, pressure)?;
    let raised = batch.boiling_point(pressure)? - saturation_temperature(pressure)?;
    Ok((bubble.temperature + raised, volatility(bubble.vapour_mole_fraction, fraction)))
}

/// Makes the state of a boil from the heat that makes vapour.
fn state(
    batch: &Batch,
    temperature: Temperature,
    alpha: f64,
    heat: Power,
    lost: Power,
) -> Result<State, ProcessError> {
    let latent = (latent_heat_vaporisation(temperature)?, ethanol_latent_heat(temperature)?);
    let contents = &batch.contents;
    let water = contents[Component::Water].max(f64::MIN_POSITIVE);
    let per_water = alpha * contents[Component::Ethanol] / water;
    let water_rate = heat.watts() / (latent.0.si() + per_water * latent.1.si());
    let warming = heat + lost;
    Ok(State {
        temperature,
        water_rate,
        alpha,
        lost,
        warming,
        latent,
        boiling: Some(heat),
        escapes: 1.0,
    })
}

fn cold_bath(bath: Temperature, at: Temperature, pressure: Pressure) -> ProcessError {
    let because = format!(
        "at {:.1} kPa the liquid boils at {:.1} °C, and the bath has {:.1} °C",
        pressure.kilopascals(),
        at.celsius(),
        bath.celsius()
    );
    ProcessError::CannotWork { process: NAME, because }
}
