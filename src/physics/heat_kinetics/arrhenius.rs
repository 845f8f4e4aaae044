//! First-order loss by the law of Arrhenius.

use std::f64::consts::{LN_2, LN_10};

use super::Segment;
use crate::physics::constants::GAS_CONSTANT;
use crate::physics::solve::integral;
use crate::physics::{PhysicsError, Validity, positive};
use crate::quantity::{MolarEnergy, Rate, Temperature, TemperatureDifference, Time};

const TEMPERATURE_RANGE: Validity = Validity {
    law: "first-order loss by Arrhenius",
    quantity: "temperature",
    low: -40.0,
    high: 180.0,
    unit: "°C",
};
/// From slow oxidation to the unfolding of proteins, near 800 kJ/mol.
const ENERGY_RANGE: Validity = Validity {
    law: "first-order loss by Arrhenius",
    quantity: "activation energy",
    low: 0.0,
    high: 1e6,
    unit: "J/mol",
};
/// A ramp is integrated in panels of at most this many kelvin, each to 1e-12 by eight nodes.
const PANEL_KELVIN: f64 = 20.0;

/// A first-order rate with its temperature dependence.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Arrhenius {
    /// Rate at the reference temperature.
    pub rate: Rate,
    /// Reference temperature.
    pub reference: Temperature,
    /// Activation energy.
    pub activation_energy: MolarEnergy,
}

impl Arrhenius {
    /// Returns the rate at a temperature.
    ///
    /// `k = k_ref exp(-Ea / R (1 / T - 1 / T_ref))`
    ///
    /// # Units
    /// k \[1/s\], Ea \[J/mol\], R \[J/(mol K)\], T \[K\].
    ///
    /// # Validity
    /// -40 °C to 180 °C, the reference too, and 0 to 1000 kJ/mol; the record is published for a
    /// narrower range.
    ///
    /// # Errors
    /// [`PhysicsError::NotPositive`] for a rate of zero or less; [`PhysicsError::OutsideValidity`]
    /// outside the ranges.
    ///
    /// # Source
    /// Arrhenius 1889; van Boekel, Kinetic Modeling of Reactions in Foods, 2009, chapter 5.
    pub fn rate_at(&self, temperature: Temperature) -> Result<Rate, PhysicsError> {
        positive("rate at the reference temperature", self.rate.per_second(), "1/s")?;
        TEMPERATURE_RANGE.check(self.reference.celsius())?;
        TEMPERATURE_RANGE.check(temperature.celsius())?;
        ENERGY_RANGE.check(self.activation_energy.joules_per_mole())?;
        Ok(Rate::from_per_second(self.unchecked(temperature.kelvin())))
    }

    fn unchecked(&self, kelvin: f64) -> f64 {
        let difference = 1.0 / kelvin - 1.0 / self.reference.kelvin();
        let exponent = -self.activation_energy.joules_per_mole() / GAS_CONSTANT * difference;
        self.rate.per_second() * exponent.exp()
    }

    /// Returns the time in which half is lost.
    ///
    /// `t = ln 2 / k`
    ///
    /// # Units
    /// t \[s\], k \[1/s\].
    ///
    /// # Validity
    /// As [`Arrhenius::rate_at`].
    ///
    /// # Errors
    /// As [`Arrhenius::rate_at`].
    ///
    /// # Source
    /// First-order kinetics.
    pub fn half_life(&self, temperature: Temperature) -> Result<Time, PhysicsError> {
        Ok(Time::from_seconds(LN_2 / self.rate_at(temperature)?.per_second()))
    }

    /// Returns the share that is left after a profile.
    ///
    /// `share = exp(-integral of k dt)`
    ///
    /// # Units
    /// A plain share; k \[1/s\], t \[s\].
    ///
    /// # Validity
    /// As [`Arrhenius::rate_at`].
    ///
    /// # Errors
    /// As [`Arrhenius::rate_at`].
    ///
    /// # Source
    /// First-order kinetics; ramps by Gauss-Legendre quadrature.
    pub fn retention(&self, profile: &[Segment]) -> Result<f64, PhysicsError> {
        let mut exponent = 0.0;
        for segment in profile {
            let (from, to) = (segment.from, segment.to);
            let (first, _) = (self.rate_at(from)?, self.rate_at(to)?);
            let rise = (to - from).kelvin();
            let mean = if rise.abs() > 0.0 {
                let panels = (rise.abs() / PANEL_KELVIN).ceil();
                // At most 220 K, so that the number of panels fits.
                let mean = |x: f64| self.unchecked(from.kelvin() + rise * x);
                integral(0.0, 1.0, panels as u32, mean)
            } else {
                first.per_second()
            };
            exponent += mean * segment.time.seconds();
        }
        Ok((-exponent).exp())
    }
}

/// Returns the activation energy that has a z value at a temperature.
///
/// `Ea = ln(10) R T² / z`
///
/// # Units
/// Ea \[J/mol\], T and z \[K\].
///
/// # Validity
/// Near T: the two laws bend apart away from it.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a z of zero or less.
///
/// # Source
/// van Boekel, Kinetic Modeling of Reactions in Foods, 2009, chapter 5: slopes equal at T.
pub fn activation_energy_from_z(
    z: TemperatureDifference,
    at: Temperature,
) -> Result<MolarEnergy, PhysicsError> {
    let z = positive("z value", z.kelvin(), "K")?;
    Ok(MolarEnergy::from_joules_per_mole(LN_10 * GAS_CONSTANT * at.kelvin().powi(2) / z))
}

/// Returns the z value that an activation energy has at a temperature.
///
/// `z = ln(10) R T² / Ea`
///
/// # Units
/// Ea \[J/mol\], T and z \[K\].
///
/// # Validity
/// As [`activation_energy_from_z`].
///
/// # Errors
/// [`PhysicsError::NotPositive`] for an activation energy of zero or less.
///
/// # Source
/// As [`activation_energy_from_z`].
pub fn z_from_activation_energy(
    energy: MolarEnergy,
    at: Temperature,
) -> Result<TemperatureDifference, PhysicsError> {
    let energy = positive("activation energy", energy.joules_per_mole(), "J/mol")?;
    let z = LN_10 * GAS_CONSTANT * at.kelvin().powi(2) / energy;
    Ok(TemperatureDifference::from_kelvin(z))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn celsius(t: f64) -> Temperature {
        Temperature::from_celsius(t)
    }

    fn vitamin() -> Arrhenius {
        Arrhenius {
            rate: Rate::from_per_second(5e-4),
            reference: celsius(80.0),
            activation_energy: MolarEnergy::from_joules_per_mole(74e3),
        }
    }

    #[test]
    fn half_is_left_after_the_half_life_and_ramps_agree_with_many_holds() {
        let half = vitamin().half_life(celsius(70.0)).unwrap();
        let left = vitamin().retention(&[Segment::hold(celsius(70.0), half)]).unwrap();
        assert!((left - 0.5).abs() < 1e-12);
        let ramp = Segment { from: celsius(5.0), to: celsius(95.0), time: Time::from_hours(1.0) };
        let whole = vitamin().retention(&[ramp]).unwrap();
        let holds: Vec<Segment> = (0..9000)
            .map(|i| Segment::hold(celsius(5.005 + 0.01 * f64::from(i)), Time::from_seconds(0.4)))
            .collect();
        assert!((whole - vitamin().retention(&holds).unwrap()).abs() < 1e-7);
    }

    #[test]
    fn z_and_activation_energy_invert_each_other() {
        let z = TemperatureDifference::from_kelvin(7.5);
        let energy = activation_energy_from_z(z, celsius(70.0)).unwrap();
        let back = z_from_activation_energy(energy, celsius(70.0)).unwrap();
        assert!((back / z - 1.0).abs() < 1e-12);
        assert!(activation_energy_from_z(TemperatureDifference::ZERO, celsius(70.0)).is_err());
        assert!(z_from_activation_energy(MolarEnergy::ZERO, celsius(70.0)).is_err());
    }

    #[test]
    fn senseless_rates_and_temperatures_are_refused() {
        assert!(vitamin().rate_at(celsius(200.0)).is_err());
        assert!(Arrhenius { rate: Rate::ZERO, ..vitamin() }.half_life(celsius(70.0)).is_err());
        let hot = Segment::hold(celsius(200.0), Time::from_seconds(1.0));
        assert!(vitamin().retention(&[hot]).is_err());
    }
}
