//! Softening by heat: first order, with a z value.

use super::{ProcessError, Settings};
use crate::quantity::{Temperature, Time};

/// The temperature at which rates of softening are stated [°C].
const REFERENCE: f64 = 100.0;
/// Below this a food does not soften in a kitchen's time [°C]: pectin and collagen hold. Common
/// practice: vegetables stay firm below 80 °C, meat softens slowly from 55 °C.
const FROM: f64 = 55.0;

/// How fast a food gives way to heat.
#[derive(Debug, Clone, Copy)]
pub(super) struct Softening {
    /// Rate at 100 °C [1/s].
    rate: f64,
    /// Kelvin for a tenfold rate.
    z: f64,
}

impl Softening {
    /// Reads the rate of softening.
    pub fn read(settings: &Settings<'_>) -> Result<Self, ProcessError> {
        Self::of("softening_rate", "softening_z", settings)
    }

    /// Reads a rate by the names of its settings.
    pub fn of(
        rate: &'static str,
        z: &'static str,
        settings: &Settings<'_>,
    ) -> Result<Self, ProcessError> {
        let z = settings.difference(z)?.kelvin();
        Ok(Self { rate: settings.rate(rate)?.per_second().max(0.0), z: z.max(1.0) })
    }

    /// Rate at a temperature over that at 100 °C.
    pub fn relative(&self, at: Temperature) -> f64 {
        let celsius = at.celsius();
        if celsius < FROM {
            return 0.0;
        }
        ((celsius - REFERENCE) * std::f64::consts::LN_10 / self.z).exp()
    }

    /// Time at 100 °C that does as much as the stages.
    pub fn equivalent(&self, stages: &[(Temperature, Time)]) -> Time {
        stages.iter().map(|(at, time)| *time * self.relative(*at)).sum()
    }

    /// Share left after a time at 100 °C.
    pub fn kept(&self, equivalent: Time) -> f64 {
        (-self.rate * equivalent.seconds()).exp()
    }
}
