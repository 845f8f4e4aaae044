//! Water and food in an insulated box that loses heat through its walls.

use crate::physics::{PhysicsError, positive};
use crate::quantity::{Energy, Mass, Power, SpecificHeat, Temperature, Time};

/// A box with water and food, all at one temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InsulatedBox {
    /// Mass of the water.
    pub water: Mass,
    /// Heat capacity of the water.
    pub water_heat_capacity: SpecificHeat,
    /// Mass of the food in it.
    pub food: Mass,
    /// Heat capacity of the food.
    pub food_heat_capacity: SpecificHeat,
    /// Loss through the walls for each kelvin over the room \[W/K\].
    pub loss_w_per_k: f64,
    /// Temperature of the room.
    pub room: Temperature,
}

impl InsulatedBox {
    /// Returns the temperature at which water and food meet, before anything is lost.
    ///
    /// `T = (mw cw Tw + mf cf Tf) / (mw cw + mf cf)`
    ///
    /// # Units
    /// T \[K\], m \[kg\], c \[J/(kg K)\].
    ///
    /// # Validity
    /// No freezing, no thawing; the box itself holds no heat.
    ///
    /// # Errors
    /// [`PhysicsError::NotPositive`] when nothing in the box holds heat.
    ///
    /// # Source
    /// Conservation of energy.
    pub fn mixing_temperature(
        &self,
        water: Temperature,
        food: Temperature,
    ) -> Result<Temperature, PhysicsError> {
        let capacity = self.capacity()?;
        let share = self.food.si() * self.food_heat_capacity.si() / capacity;
        Ok(water + (food - water) * share)
    }

    /// Returns the time in which the difference to the room falls to a 1/e part.
    ///
    /// `tau = m c / UA`
    ///
    /// # Units
    /// tau \[s\], m c \[J/K\], UA \[W/K\].
    ///
    /// # Validity
    /// Evenly warm contents.
    ///
    /// # Errors
    /// [`PhysicsError::NotPositive`] without contents or without loss.
    ///
    /// # Source
    /// Newton's law of cooling.
    pub fn time_constant(&self) -> Result<Time, PhysicsError> {
        let loss = positive("loss through the walls", self.loss_w_per_k, "W/K")?;
        Ok(Time::from_seconds(self.capacity()? / loss))
    }

    /// Returns the power that holds a temperature.
    ///
    /// `P = UA (T - room)`
    ///
    /// # Units
    /// P \[W\], UA \[W/K\].
    ///
    /// # Validity
    /// Any temperature; negative when the box must be cooled.
    ///
    /// # Source
    /// Newton's law of cooling.
    pub fn holding_power(&self, temperature: Temperature) -> Power {
        Power::from_watts(self.loss_w_per_k * (temperature - self.room).kelvin())
    }

    /// Returns the heat that lifts the contents by a number of kelvin.
    ///
    /// `Q = m c dT`
    ///
    /// # Units
    /// Q \[J\].
    ///
    /// # Validity
    /// No freezing, no thawing.
    ///
    /// # Errors
    /// [`PhysicsError::NotPositive`] without contents.
    ///
    /// # Source
    /// Definition of the heat capacity.
    pub fn heat_for(&self, from: Temperature, to: Temperature) -> Result<Energy, PhysicsError> {
        Ok(Energy::from_joules(self.capacity()? * (to - from).kelvin()))
    }

    fn capacity(&self) -> Result<f64, PhysicsError> {
        let water = self.water.si() * self.water_heat_capacity.si();
        let food = self.food.si() * self.food_heat_capacity.si();
        positive("heat held by the contents", water + food, "J/K")
    }
}

/// Returns the temperature of the contents after a time, with a steady heater or none.
///
/// `T = room + P/UA + (start - room - P/UA) exp(-t / tau)`
///
/// # Units
/// T \[K\], P \[W\], UA \[W/K\], t and tau \[s\].
///
/// # Validity
/// Evenly warm contents.
///
/// # Errors
/// [`PhysicsError::NotPositive`] without contents or without loss.
///
/// # Source
/// Newton's law of cooling.
pub fn box_cooling(
    contents: &InsulatedBox,
    start: Temperature,
    heater: Power,
    time: Time,
) -> Result<Temperature, PhysicsError> {
    let tau = contents.time_constant()?;
    let held = contents.room
        + crate::quantity::TemperatureDifference::from_kelvin(
            heater.watts() / contents.loss_w_per_k,
        );
    Ok(held + (start - held) * (-(time / tau)).exp())
}

#[cfg(test)]
mod tests {
    use super::*;

    const BOX: InsulatedBox = InsulatedBox {
        water: Mass::from_kilograms(25.0),
        water_heat_capacity: SpecificHeat::from_si(4186.0),
        food: Mass::ZERO,
        food_heat_capacity: SpecificHeat::ZERO,
        loss_w_per_k: 0.8,
        room: Temperature::from_celsius(20.0),
    };

    #[test]
    fn a_box_falls_towards_the_room_and_stays_with_its_holding_power() {
        let start = Temperature::from_celsius(58.0);
        let hour = Time::from_hours(1.0);
        let cold = box_cooling(&BOX, start, Power::ZERO, hour).unwrap();
        assert!(((start - cold).kelvin() - 1.04).abs() < 0.02);
        let held = box_cooling(&BOX, start, BOX.holding_power(start), hour).unwrap();
        assert!((held - start).kelvin().abs() < 1e-9);
    }

    #[test]
    fn an_empty_box_and_a_box_without_loss_are_refused() {
        let empty = InsulatedBox { water: Mass::ZERO, ..BOX };
        assert!(empty.time_constant().is_err());
        assert!(empty.mixing_temperature(BOX.room, BOX.room).is_err());
        assert!(empty.heat_for(BOX.room, BOX.room).is_err());
        assert!(InsulatedBox { loss_w_per_k: 0.0, ..BOX }.time_constant().is_err());
    }

    #[test]
    fn equal_masses_of_water_meet_halfway() {
        let half =
            InsulatedBox { food: BOX.water, food_heat_capacity: BOX.water_heat_capacity, ..BOX };
        let (hot, cold) = (Temperature::from_celsius(70.0), Temperature::from_celsius(10.0));
        let met = half.mixing_temperature(hot, cold).unwrap();
        assert!((met.celsius() - 40.0).abs() < 1e-9);
    }
}
