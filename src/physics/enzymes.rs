//! Enzymes that take food apart: how fast they work, and how soon heat stops them.
//!
//! Symbols: k rate of the change, c dose, E activation energy, T temperature, kd rate at which the
//! enzyme itself is lost, z temperature rise that makes that ten times faster.

use crate::physics::constants::GAS_CONSTANT;
use crate::physics::{PhysicsError, Validity, positive};
use crate::quantity::{MolarEnergy, Rate, Temperature, TemperatureDifference, Time};

/// Temperatures for which the law is used: between ice and the pasteurising of juice.
pub const WORKING_TEMPERATURE: Validity = Validity {
    law: "the work of a dissolved enzyme",
    quantity: "temperature",
    low: 0.0,
    high: 95.0,
    unit: "°C",
};

/// How an enzyme works on one food.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Enzyme {
    /// Rate at the reference dose and temperature.
    pub rate: Rate,
    /// The temperature of the rate.
    pub reference: Temperature,
    /// Activation energy of the rate.
    pub activation: MolarEnergy,
    /// Time in which half of the enzyme is lost at `lost_at`.
    pub half_life: Time,
    /// The temperature of that half-life.
    pub lost_at: Temperature,
    /// Temperature rise that shortens the half-life to a tenth.
    pub loss_z: TemperatureDifference,
}

impl Enzyme {
    /// Returns the share of what the enzyme can split that it has split after a time.
    ///
    /// `X = 1 - exp(-k c (1 - exp(-kd t)) / kd)`, `k = k_r exp(-E/R (1/T - 1/T_r))`,
    /// `kd = ln 2 / t_half 10^((T - T_d) / z)`.
    ///
    /// # Units
    /// k and kd [1/s], c as a multiple of the reference dose, t \[s\], T \[K\], E [J/mol].
    ///
    /// # Validity
    /// [`WORKING_TEMPERATURE`]; a dissolved enzyme at the pH it is sold for, first order in what it
    /// splits and in its dose, no inhibition.
    ///
    /// # Errors
    /// [`PhysicsError::OutsideValidity`] for the temperature; [`PhysicsError::NotPositive`] for a
    /// rate, half-life or z of zero or less, or a time or dose below zero.
    ///
    /// # Source
    /// First order with a decaying catalyst, as in A. Sadana, Biocatalysis, 1991 (from memory).
    pub fn converted(
        &self,
        dose: f64,
        temperature: Temperature,
        time: Time,
    ) -> Result<f64, PhysicsError> {
        WORKING_TEMPERATURE.check(temperature.celsius())?;
        let rate = positive("rate of the enzyme", self.rate.per_second(), "1/s")?;
        let half = positive("half-life of the enzyme", self.half_life.seconds(), "s")?;
        let z = positive("z of the enzyme", self.loss_z.kelvin(), "K")?;
        for (quantity, value, unit) in [("dose", dose, ""), ("time", time.seconds(), "s")] {
            if value.is_nan() || value < 0.0 {
                return Err(PhysicsError::NotPositive { quantity, value, unit });
            }
        }
        let warmth = 1.0 / temperature.kelvin() - 1.0 / self.reference.kelvin();
        let k = rate * (-self.activation.joules_per_mole() / GAS_CONSTANT * warmth).exp();
        let hotter = (temperature - self.lost_at).kelvin() / z;
        let decay = std::f64::consts::LN_2 / half * 10.0_f64.powf(hotter);
        let worked = -(-decay * time.seconds()).exp_m1() / decay;
        Ok(-(-k * dose * worked).exp_m1())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const PECTINASE: Enzyme = Enzyme {
        rate: Rate::from_per_hour(2.0),
        reference: Temperature::from_celsius(50.0),
        activation: MolarEnergy::from_joules_per_mole(40_000.0),
        half_life: Time::from_minutes(20.0),
        lost_at: Temperature::from_celsius(60.0),
        loss_z: TemperatureDifference::from_kelvin(6.0),
    };

    fn split(celsius: f64, hours: f64) -> f64 {
        let at = Temperature::from_celsius(celsius);
        PECTINASE.converted(1.0, at, Time::from_hours(hours)).unwrap()
    }

    #[test]
    fn at_its_temperature_it_works_at_first_order() {
        // Loss at 50 °C: half-life 20 min × 10^(10/6) = 15.5 h, so an hour works 0.978 h.
        assert!((split(50.0, 1.0) - (1.0 - (-2.0_f64 * 0.978).exp())).abs() < 1e-3);
    }

    #[test]
    fn warmth_helps_until_heat_kills_it() {
        assert!(split(50.0, 1.0) > split(20.0, 1.0));
        assert!(split(75.0, 1.0) < split(50.0, 1.0));
        assert!((split(80.0, 9.0) - split(80.0, 1.0)).abs() < 1e-6);
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let at = Temperature::from_celsius(40.0);
        assert!(PECTINASE.converted(1.0, Temperature::from_celsius(99.0), Time::ZERO).is_err());
        assert!(PECTINASE.converted(-1.0, at, Time::ZERO).is_err());
        assert!(PECTINASE.converted(1.0, at, Time::from_seconds(-1.0)).is_err());
        let idle = Enzyme { rate: Rate::ZERO, ..PECTINASE };
        assert!(idle.converted(1.0, at, Time::ZERO).is_err());
        let frail = Enzyme { half_life: Time::ZERO, ..PECTINASE };
        assert!(frail.converted(1.0, at, Time::ZERO).is_err());
        let odd = Enzyme { loss_z: TemperatureDifference::ZERO, ..PECTINASE };
        assert!(odd.converted(1.0, at, Time::ZERO).is_err());
    }
}
