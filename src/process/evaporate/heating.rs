//! How heat reaches the liquid and how vapour leaves it, by the kind of vessel.

use std::f64::consts::PI;

use super::NAME;
use crate::physics::atmosphere::HumidAir;
use crate::physics::evaporation::{
    HeatedPan, OpenSurface, Surroundings, VacuumEvaporator, drying_surface,
};
use crate::physics::water::{latent_heat_vaporisation, saturation_pressure};
use crate::process::{Batch, ProcessError, Settings};
use crate::quantity::{
    Area, HeatTransfer, Length, MassFlow, Power, Pressure, Temperature, TemperatureDifference,
};

/// The kinds of heating.
const HEATS: &[&str] = &["hob", "microwave", "bath", "jacket", "air"];
/// Water activities are asked at this temperature at most; the law of solutions is fitted so far.
const ACTIVITY_LIMIT: Temperature = Temperature::from_celsius(105.0);
/// A bath less than this much warmer than the boiling liquid does not heat it in a working day.
const LEAST_DRIVE: TemperatureDifference = TemperatureDifference::from_kelvin(0.5);

/// The steady state of the liquid at one strength.
#[derive(Debug, Clone, Copy)]
pub(super) struct Flow {
    /// Temperature of the liquid.
    pub temperature: Temperature,
    /// Evaporation.
    pub rate: MassFlow,
    /// Heat lost to the room while it evaporates.
    pub lost: Power,
    /// Heat that reaches the liquid while it warms up; `None` when it takes its heat from the air.
    pub warming: Option<Power>,
    /// Whether it boils, so that bubbles carry the aroma out.
    pub boiling: bool,
    /// Whether the condenser rather than the heating sets the rate.
    pub condenser_limited: bool,
}

enum Kind {
    /// A burner or a microwave under an open vessel.
    Open { power: Power, efficiency: f64, wall: HeatTransfer, hold: Option<Temperature> },
    /// A bath around an evacuated vessel with a condenser, or steam around an open kettle.
    Bath {
        pressure: Pressure,
        bath: Temperature,
        heating: f64,
        condenser: Option<(Temperature, f64)>,
    },
    /// Warm air over a tray.
    Air,
}

/// How heat reaches the liquid.
pub(super) struct Heating {
    kind: Kind,
    area: Area,
    length: Length,
    surroundings: Surroundings,
}

impl Heating {
    pub fn read(settings: &Settings<'_>) -> Result<Self, ProcessError> {
        match settings.mode("heat", HEATS)? {
            "bath" => Self::bath(settings, true),
            "jacket" => Self::bath(settings, false),
            "air" => Self::air(settings),
            _ => Self::open(settings),
        }
    }

    fn open(settings: &Settings<'_>) -> Result<Self, ProcessError> {
        let place = settings.place;
        let length = settings.length("diameter")?;
        let kind = Kind::Open {
            power: settings.power("power")?,
            efficiency: settings.share("transfer_efficiency")?,
            wall: settings.heat_transfer("wall_loss")?,
            hold: settings.optional("hold_temperature").map(Temperature::from_si),
        };
        let surroundings = Surroundings {
            air: place.room_temperature,
            relative_humidity: place.room_humidity,
            pressure: place.pressure,
            speed: settings.speed("air_speed")?,
        };
        let area = Area::from_square_metres(PI / 4.0 * length.metres() * length.metres());
        Ok(Self { kind, area, length, surroundings })
    }

    /// A bath around an evacuated vessel; or, not closed, a jacket of steam around an open kettle.
    fn bath(settings: &Settings<'_>, closed: bool) -> Result<Self, ProcessError> {
        let area = settings.area("heated_area")?;
        let pressure =
            if closed { settings.pressure("pressure")? } else { settings.place.pressure };
        let condenser = if closed { Some(condenser(settings)?) } else { None };
        let kind = Kind::Bath {
            pressure,
            bath: settings.temperature("bath_temperature")?,
            heating: settings.heat_transfer("bath_coefficient")?.si() * area.si(),
            condenser,
        };
        let place = settings.place;
        let surroundings = Surroundings {
            air: place.room_temperature,
            relative_humidity: place.room_humidity,
            pressure: place.pressure,
            speed: crate::quantity::Speed::ZERO,
        };
        let length = Length::from_metres((area.si() * 4.0 / PI).sqrt());
        Ok(Self { kind, area, length, surroundings })
    }

    /// A tray in warm air drawn from the room: its humidity ratio stays, its relative humidity falls.
    fn air(settings: &Settings<'_>) -> Result<Self, ProcessError> {
        let place = settings.place;
        let area = settings.area("tray_area")?;
        let air = settings.temperature("air_temperature")?;
        let room = HumidAir::from_relative_humidity(
            place.room_temperature,
            place.room_humidity,
            place.pressure,
        )?;
        let relative = room.vapour_pressure() / saturation_pressure(air)?;
        let surroundings = Surroundings {
            air,
            relative_humidity: relative.min(1.0),
            pressure: place.pressure,
            speed: settings.speed("air_speed")?,
        };
        let length = Length::from_metres(area.si().sqrt());
        Ok(Self { kind: Kind::Air, area, length, surroundings })
    }

    /// Returns the steady state at the strength of the batch.
    pub fn flow(&self, batch: &Batch) -> Result<Flow, ProcessError> {
        match &self.kind {
            Kind::Open { power, efficiency, wall, hold } => {
                let pan = self.pan(batch, *power, *efficiency, *wall)?;
                self.open_flow(&pan, *hold)
            }
            Kind::Bath { pressure, bath, heating, condenser } => {
                self.bath_flow(batch, *pressure, *bath, *heating, *condenser)
            }
            Kind::Air => {
                let activity = self.activity(batch, self.surroundings.air)?;
                let (temperature, flux) =
                    drying_surface(self.length, activity, &self.surroundings)?;
                let rate = flux * self.area;
                if rate <= MassFlow::ZERO {
                    return Err(no_drying(activity, &self.surroundings));
                }
                let (lost, warming) = (Power::ZERO, None);
                Ok(Flow {
                    temperature,
                    rate,
                    lost,
                    warming,
                    boiling: false,
                    condenser_limited: false,
                })
            }
        }
    }

    fn activity(&self, batch: &Batch, at: Temperature) -> Result<f64, ProcessError> {
        Ok(batch.water_activity_of_solution(at.min(ACTIVITY_LIMIT))?)
    }

    fn pan(
        &self,
        batch: &Batch,
        power: Power,
        efficiency: f64,
        wall: HeatTransfer,
    ) -> Result<HeatedPan, ProcessError> {
        let depth = batch.volume()? / self.area;
        let activity = self.activity(batch, batch.boiling_point(self.surroundings.pressure)?)?;
        Ok(HeatedPan { diameter: self.length, power, efficiency, wall, depth, activity })
    }

    fn open_flow(&self, pan: &HeatedPan, hold: Option<Temperature>) -> Result<Flow, ProcessError> {
        let heat = pan.power * pan.efficiency;
        let state = pan.steady(&self.surroundings)?;
        if let Some(hold) = hold.filter(|hold| *hold < state.temperature) {
            let surface = OpenSurface { length: self.length, activity: pan.activity };
            let (flux, convection) = surface.flux(hold, &self.surroundings)?;
            return Ok(Flow {
                temperature: hold,
                rate: flux * self.area,
                lost: pan.dry_loss(hold, self.surroundings.air, convection),
                warming: Some(heat),
                boiling: false,
                condenser_limited: false,
            });
        }
        let vapour = state.rate * latent_heat_vaporisation(state.temperature)?;
        Ok(Flow {
            temperature: state.temperature,
            rate: state.rate,
            lost: heat - vapour,
            warming: Some(heat),
            boiling: state.boiling,
            condenser_limited: false,
        })
    }

    fn bath_flow(
        &self,
        batch: &Batch,
        pressure: Pressure,
        bath: Temperature,
        heating: f64,
        condenser: Option<(Temperature, f64)>,
    ) -> Result<Flow, ProcessError> {
        let boiling = batch.boiling_point(pressure)?;
        if bath - boiling < LEAST_DRIVE {
            return Err(cold_bath(bath, boiling, pressure));
        }
        let activity = self.activity(batch, boiling)?;
        let evaporator =
            VacuumEvaporator { pressure, bath, heating_w_per_k: heating, condenser, activity };
        let state = evaporator.steady()?;
        Ok(Flow {
            temperature: state.liquid,
            rate: state.rate,
            lost: Power::ZERO,
            warming: Some(Power::from_watts(heating * (bath - state.liquid).kelvin())),
            boiling: true,
            condenser_limited: state.condenser_limited,
        })
    }

    /// Returns the area that keeps a film of product \[m²\].
    pub fn wetted_area(&self) -> f64 {
        self.area.si()
    }

    /// Returns the depth of a volume in an open vessel \[m\].
    pub fn depth(&self, volume: f64) -> Option<f64> {
        (!matches!(self.kind, Kind::Bath { .. })).then(|| volume / self.area.si())
    }
}

/// Temperature of the coolant, and heat that passes to it per kelvin [W/K].
fn condenser(settings: &Settings<'_>) -> Result<(Temperature, f64), ProcessError> {
    let area = settings.area("condenser_area")?;
    let coefficient = settings.heat_transfer("condenser_coefficient")?;
    Ok((settings.temperature("condenser_temperature")?, coefficient.si() * area.si()))
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

fn no_drying(activity: f64, air: &Surroundings) -> ProcessError {
    let because = format!(
        "a liquid of water activity {activity:.2} gives nothing off to air of {:.0} % humidity",
        100.0 * air.relative_humidity
    );
    ProcessError::CannotWork { process: NAME, because }
}
