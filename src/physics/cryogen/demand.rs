//! How much cryogen a food needs, and how much is lost on the way.
//!
//! Symbols: m mass, c heat capacity, l latent heat, t temperature, q heat, k conductivity.

use crate::physics::{PhysicsError, Validity, positive};
use crate::quantity::{
    Area, Conductivity, Energy, Length, Mass, MassFlow, Power, SpecificEnergy, SpecificHeat,
    Temperature, Time,
};

/// A food that is to be cooled or frozen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FoodCooling {
    /// Its mass.
    pub mass: Mass,
    /// Where it starts.
    pub start: Temperature,
    /// Where it ends.
    pub end: Temperature,
    /// Where its water freezes.
    pub freezing_point: Temperature,
    /// Heat capacity above freezing.
    pub heat_capacity: SpecificHeat,
    /// Heat capacity below freezing.
    pub frozen_heat_capacity: SpecificHeat,
    /// Heat given off by the water that freezes, per mass of food.
    pub latent_heat: SpecificEnergy,
}

impl FoodCooling {
    /// Returns the heat to be taken out of the food.
    ///
    /// `q = m (c (t1 - tf) + l + c_f (tf - t2))`; without freezing `q = m c (t1 - t2)`
    ///
    /// # Units
    /// m \[kg\], c [J/(kg K)], l [J/kg], t \[K\], q \[J\].
    ///
    /// # Validity
    /// All freezing is taken at one temperature; good to about 5 % with the latent heat of the
    /// water that is frozen at the end.
    ///
    /// # Errors
    /// [`PhysicsError::NotPositive`] without mass; [`PhysicsError::Impossible`] when the end is
    /// warmer than the start.
    ///
    /// # Source
    /// Energy balance.
    pub fn heat(&self) -> Result<Energy, PhysicsError> {
        positive("food", self.mass.kilograms(), "kg")?;
        if self.end > self.start {
            let because = "the end is warmer than the start".into();
            return Err(PhysicsError::Impossible { what: "cooling a food", because });
        }
        let chilled = self.heat_capacity * (self.start - self.end.max(self.freezing_point));
        let frozen = self.frozen_heat_capacity * (self.freezing_point - self.end);
        let per_mass = if self.end >= self.freezing_point {
            chilled
        } else if self.start <= self.freezing_point {
            self.frozen_heat_capacity * (self.start - self.end)
        } else {
            chilled + self.latent_heat + frozen
        };
        Ok(self.mass * per_mass)
    }
}

const EFFICIENCY: Validity = Validity {
    law: "the use of a cryogen",
    quantity: "share of its cold that reaches the food",
    low: 0.01,
    high: 1.0,
    unit: "",
};

/// Returns the mass of cryogen that takes up a heat.
///
/// `m = q / (capacity share)`
///
/// # Units
/// q \[J\], capacity [J/kg], m \[kg\].
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for a share of use outside 0.01 to 1.
///
/// # Source
/// Energy balance.
pub fn cryogen_needed(
    heat: Energy,
    capacity: SpecificEnergy,
    share_used: f64,
) -> Result<Mass, PhysicsError> {
    let share = EFFICIENCY.check(share_used)?;
    Ok(heat / capacity / share)
}

/// Returns how fast a cryogen boils or sublimes away behind insulated walls.
///
/// `flow = k area (t_room - t_inside) / (thickness l)`
///
/// # Units
/// k [W/(m K)], area \[m²\], thickness \[m\], t \[K\], l [J/kg], flow [kg/s].
///
/// # Validity
/// Flat walls, conduction only: lids, leaks and bare surface air make it 1.5 to 3 times as fast.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for walls without area or thickness.
///
/// # Source
/// Fourier's law.
pub fn loss_through_walls(
    (area, thickness): (Area, Length),
    conductivity: Conductivity,
    (inside, room): (Temperature, Temperature),
    latent_heat: SpecificEnergy,
) -> Result<MassFlow, PhysicsError> {
    let area = positive("wall area", area.square_metres(), "m²")?;
    let thickness = positive("wall thickness", thickness.metres(), "m")?;
    let difference = (room - inside).kelvin().max(0.0);
    let leak = conductivity.si() * area * difference / thickness;
    Ok(Power::from_watts(leak) / latent_heat)
}

/// Returns the mass left after a time when a share is lost in every such span of time.
///
/// `m = m0 (1 - share)^(time / span)`
///
/// # Units
/// m \[kg\], times \[s\].
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for a share outside 0 to 1; [`PhysicsError::NotPositive`] for
/// a span of zero.
///
/// # Source
/// Definition.
pub fn mass_after_losses(
    mass: Mass,
    (share, span): (f64, Time),
    time: Time,
) -> Result<Mass, PhysicsError> {
    const SHARE: Validity =
        Validity { law: "a loss", quantity: "share lost", low: 0.0, high: 0.999, unit: "" };
    let kept = 1.0 - SHARE.check(share)?;
    let span = positive("span", span.seconds(), "s")?;
    Ok(mass * kept.powf(time.seconds() / span))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn food(start: f64, end: f64) -> FoodCooling {
        FoodCooling {
            mass: Mass::from_kilograms(1.0),
            start: Temperature::from_celsius(start),
            end: Temperature::from_celsius(end),
            freezing_point: Temperature::from_celsius(-1.0),
            heat_capacity: SpecificHeat::from_joules_per_kilogram_kelvin(3600.0),
            frozen_heat_capacity: SpecificHeat::from_joules_per_kilogram_kelvin(1900.0),
            latent_heat: SpecificEnergy::from_joules_per_kilogram(250e3),
        }
    }

    #[test]
    fn heat_adds_up_over_the_stages() {
        let whole = food(20.0, -18.0).heat().unwrap().joules();
        let parts = food(20.0, 5.0).heat().unwrap() + food(5.0, -5.0).heat().unwrap();
        let rest = food(-5.0, -18.0).heat().unwrap();
        assert!((whole - (parts + rest).joules()).abs() < 1e-6);
    }

    #[test]
    fn what_cannot_be_is_refused() {
        assert!(food(-5.0, 10.0).heat().is_err());
        let mut nothing = food(20.0, 0.0);
        nothing.mass = Mass::ZERO;
        assert!(nothing.heat().is_err());
        let capacity = SpecificEnergy::from_kilojoules_per_kilogram(300.0);
        assert!(cryogen_needed(Energy::from_joules(1.0), capacity, 0.0).is_err());
        let cold = (Temperature::from_celsius(-78.0), Temperature::from_celsius(20.0));
        let foam = Conductivity::from_watts_per_metre_kelvin(0.035);
        assert!(loss_through_walls((Area::ZERO, Length::ZERO), foam, cold, capacity).is_err());
        let day = Time::from_days(1.0);
        assert!(mass_after_losses(Mass::ZERO, (1.5, day), day).is_err());
        assert!(mass_after_losses(Mass::ZERO, (0.5, Time::ZERO), day).is_err());
    }

    #[test]
    fn half_a_day_twice_is_a_day() {
        let (start, day) = (Mass::from_kilograms(4.0), Time::from_days(1.0));
        let half = mass_after_losses(start, (0.5, day), day * 0.5).unwrap();
        let twice = mass_after_losses(half, (0.5, day), day * 0.5).unwrap();
        assert!((twice.kilograms() - 2.0).abs() < 1e-12);
    }
}
