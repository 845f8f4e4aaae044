//! What the vapour carries off beside water: aroma and ethanol.

use crate::knowledge::NoteClass;
use crate::physics::aroma::{
    AirWaterPartition, HydrogenBonding, OilInWater, oil_water_partition, relative_volatility,
    volatility_from_still_liquid,
};
use crate::physics::water::saturation_pressure;
use crate::process::{Batch, Component, ProcessError, Settings};
use crate::quantity::{
    Density, Mass, MassFlux, SpecificEnergy, Speed, Temperature, TemperatureDifference, Time,
};

/// Latent heat of ethanol near 80 °C: 846 kJ/kg (CoolProp 8.0.0, PropsSI at 351 K).
pub(super) const ETHANOL_LATENT_HEAT: SpecificEnergy =
    SpecificEnergy::from_kilojoules_per_kilogram(846.0);
/// Density of the water in the liquid film, to the accuracy of a transfer coefficient.
const WATER_DENSITY: Density = Density::from_kilograms_per_cubic_metre(980.0);
/// Density of fat and oil at serving temperature: 0.92 kg/L (Choi & Okos 1986).
const OIL_DENSITY: f64 = 920.0;
/// Volatilities are computed again when the temperature has moved by this much \[K\].
const RECOMPUTE_KELVIN: f64 = 0.5;
/// Air-water partition of ethanol at 25 °C, and its slope \[K\]: R. Sander, Atmos. Chem. Phys. 23:10901,
/// 2023, ethanol (review values).
const ETHANOL: AirWaterPartition =
    AirWaterPartition { at_25_c: 2.12e-4, slope: TemperatureDifference::from_kelvin(6300.0) };

/// One step of evaporation.
pub(super) struct Step {
    pub temperature: Temperature,
    /// Water left over water before.
    pub ratio: f64,
    pub gone: Mass,
    pub time: Time,
    /// Whether bubbles stir the liquid and carry the vapour out.
    pub boiling: bool,
}

/// Volatilities of the markers, kept between steps.
pub(super) struct Stripping {
    still_film: Speed,
    boiling_film: Speed,
    area: f64,
    volatility: [f64; crate::process::MAX_MARKERS],
    oil: [f64; crate::process::MAX_MARKERS],
    at: Option<Temperature>,
}

impl Stripping {
    pub fn read(batch: &Batch, settings: &Settings<'_>) -> Result<Self, ProcessError> {
        let area = match (settings.optional("diameter"), settings.optional("tray_area")) {
            (Some(d), None) => std::f64::consts::PI / 4.0 * d * d,
            (_, Some(area)) => area,
            (None, None) => settings.area("heated_area")?.si(),
        };
        let mut oil = [0.0; crate::process::MAX_MARKERS];
        if batch.contents[Component::Fat] > 0.0 {
            for (partition, marker) in oil.iter_mut().zip(batch.aroma.iter()) {
                *partition = oil_water_partition(marker.log_p, HydrogenBonding::Acceptor)?;
            }
        }
        let still_film = settings.speed("liquid_film")?;
        let boiling_film = settings.speed("boiling_film")?;
        Ok(Self {
            still_film,
            boiling_film,
            area,
            volatility: [0.0; crate::process::MAX_MARKERS],
            oil,
            at: None,
        })
    }

    /// Takes from every marker what leaves with a step's vapour.
    pub fn apply(&mut self, batch: &mut Batch, step: &Step) -> Result<(), ProcessError> {
        self.refresh(batch, step.temperature)?;
        let flux = step.gone.kilograms() / (step.time.seconds().max(1e-9) * self.area);
        let flux = MassFlux::from_si(flux);
        let film = if step.boiling { self.boiling_film } else { self.still_film };
        let oil_per_water = oil_per_water(batch)?;
        for (index, marker) in batch.aroma.iter_mut().enumerate() {
            let held = OilInWater { oil_per_water, partition: self.oil[index].max(1.0) };
            let free = self.volatility[index] * held.share_in_water();
            let alpha = if marker.class == NoteClass::Base {
                free
            } else {
                volatility_from_still_liquid(free, flux, film, WATER_DENSITY)?
            };
            marker.left *= step.ratio.powf(alpha);
        }
        Ok(())
    }

    fn refresh(&mut self, batch: &Batch, at: Temperature) -> Result<(), ProcessError> {
        let moved = self.at.map(|before| (at - before).kelvin().abs());
        if moved.is_some_and(|moved| moved < RECOMPUTE_KELVIN) {
            return Ok(());
        }
        self.volatility = Volatilities::of(batch, at)?.0;
        self.at = Some(at);
        Ok(())
    }

    /// Returns the share of ethanol that stays while the water falls to a share of itself.
    ///
    /// Henry's law: for strengths up to a few per cent; stronger liquids belong to `dealcoholise`.
    pub fn ethanol_kept(&self, at: Temperature, ratio: f64) -> Result<f64, ProcessError> {
        let partition = ETHANOL.at(at)?;
        let alpha = relative_volatility(partition, at, saturation_pressure(at)?, WATER_DENSITY)?;
        Ok(ratio.powf(alpha))
    }
}

/// Volume of fat over volume of water.
fn oil_per_water(batch: &Batch) -> Result<f64, ProcessError> {
    let fat = batch.contents[Component::Fat] / OIL_DENSITY;
    let water = batch.contents[Component::Water] / WATER_DENSITY.si();
    Ok(if water > 0.0 { fat / water } else { 0.0 })
}

/// Relative volatilities of the markers of a batch over free, boiling water at a temperature.
pub(super) struct Volatilities(pub [f64; crate::process::MAX_MARKERS]);

impl Volatilities {
    pub fn of(batch: &Batch, at: Temperature) -> Result<Self, ProcessError> {
        let pressure = saturation_pressure(at)?;
        let mut all = [0.0; crate::process::MAX_MARKERS];
        for (volatility, marker) in all.iter_mut().zip(batch.aroma.iter()) {
            let law = AirWaterPartition {
                at_25_c: marker.partition,
                slope: TemperatureDifference::from_kelvin(marker.slope_kelvin),
            };
            *volatility = relative_volatility(law.at(at)?, at, pressure, WATER_DENSITY)?;
        }
        Ok(Self(all))
    }
}
