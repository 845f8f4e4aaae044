//! Air with water vapour in it.
//!
//! Symbols: p pressure, t temperature, w humidity ratio (kg of vapour per kg of dry air), pw partial
//! pressure of the vapour, ps that of saturated vapour.

use super::AIR_GAS_CONSTANT;
use crate::physics::constants::{GAS_CONSTANT, WATER_MOLAR_MASS};
use crate::physics::{PhysicsError, Validity, ice, solve, water};
use crate::quantity::{Density, Pressure, SpecificEnergy, Temperature};

/// Kelvin at zero degrees Celsius, between frost and dew.
const ICE_POINT: f64 = 273.15;
/// Heat capacity of dry air [J/(kg K)]: ASHRAE Handbook Fundamentals, chapter 1 (from memory).
const AIR_HEAT_CAPACITY: f64 = 1006.0;
/// Heat capacity of water vapour [J/(kg K)]: as above.
const VAPOUR_HEAT_CAPACITY: f64 = 1860.0;
/// Heat capacity of liquid water [J/(kg K)]: as above.
const WATER_HEAT_CAPACITY: f64 = 4186.0;
/// Heat capacity of ice [J/(kg K)]: as above.
const ICE_HEAT_CAPACITY: f64 = 2100.0;
/// Heat of vaporisation at 0 °C [J/kg]: as above.
const VAPORISATION_AT_ZERO: f64 = 2.501e6;
/// Heat of sublimation at 0 °C [J/kg]: as above.
const SUBLIMATION_AT_ZERO: f64 = 2.83e6;

const AIR_TEMPERATURE: Validity = Validity {
    law: "the properties of humid air",
    quantity: "temperature",
    low: 223.15,
    high: 473.15,
    unit: "K",
};
const HUMIDITY: Validity = Validity {
    law: "the properties of humid air",
    quantity: "relative humidity",
    low: 0.0,
    high: 1.0,
    unit: "of saturation",
};

/// Humid air at one temperature and pressure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HumidAir {
    temperature: Temperature,
    pressure: Pressure,
    vapour_pressure: Pressure,
}

/// Returns the pressure of saturated vapour, over water from 0 °C up and over ice below.
fn saturated_vapour(temperature: Temperature) -> Result<f64, PhysicsError> {
    let pressure = if temperature.kelvin() < ICE_POINT {
        ice::sublimation_pressure(temperature)?
    } else {
        water::saturation_pressure(temperature)?
    };
    Ok(pressure.pascals())
}

/// Returns the humidity ratio of air in which vapour has a partial pressure.
fn ratio(vapour: f64, pressure: f64) -> f64 {
    let molar_masses = WATER_MOLAR_MASS * AIR_GAS_CONSTANT / GAS_CONSTANT;
    molar_masses * vapour / (pressure - vapour)
}

impl HumidAir {
    /// Makes air of a relative humidity.
    ///
    /// `pw = φ ps(t)`, ps over water from 0 °C up and over ice below. The enhancement of ps by the
    /// air, 0.4 % to 0.5 % at one atmosphere, is left out.
    ///
    /// # Units
    /// t \[K\], p and ps \[Pa\], φ as a share.
    ///
    /// # Validity
    /// -50 °C to 200 °C, humidity from 0 to 1, vapour pressure below the total pressure.
    ///
    /// # Errors
    /// [`PhysicsError::OutsideValidity`] outside these ranges; [`PhysicsError::Impossible`] when the
    /// vapour alone would have the total pressure.
    ///
    /// # Source
    /// Definition; ps from IAPWS R7-97(2012) and R14-08(2011).
    pub fn from_relative_humidity(
        temperature: Temperature,
        relative_humidity: f64,
        pressure: Pressure,
    ) -> Result<Self, PhysicsError> {
        AIR_TEMPERATURE.check(temperature.kelvin())?;
        let share = HUMIDITY.check(relative_humidity)?.max(0.0);
        let vapour_pressure = share * saturated_vapour(temperature)?;
        Self::from_vapour_pressure(temperature, Pressure::from_pascals(vapour_pressure), pressure)
    }

    /// Makes air of a known dew point (frost point below 0 °C).
    ///
    /// `pw = ps(dew point)`.
    ///
    /// # Units
    /// Temperatures \[K\], p \[Pa\].
    ///
    /// # Validity
    /// As [`Self::from_relative_humidity`]; the dew point at or below the temperature.
    ///
    /// # Errors
    /// [`PhysicsError::OutsideValidity`] outside these ranges; [`PhysicsError::Impossible`] for a dew
    /// point above the temperature.
    ///
    /// # Source
    /// Definition.
    pub fn from_dew_point(
        temperature: Temperature,
        dew_point: Temperature,
        pressure: Pressure,
    ) -> Result<Self, PhysicsError> {
        AIR_TEMPERATURE.check(temperature.kelvin())?;
        let vapour_pressure = saturated_vapour(dew_point)?;
        Self::from_vapour_pressure(temperature, Pressure::from_pascals(vapour_pressure), pressure)
    }

    fn from_vapour_pressure(
        temperature: Temperature,
        vapour_pressure: Pressure,
        pressure: Pressure,
    ) -> Result<Self, PhysicsError> {
        const SLACK: f64 = 1.0 + 1e-9;
        let what = "humid air";
        if vapour_pressure.pascals() > SLACK * saturated_vapour(temperature)? {
            let because = "the dew point lies above the temperature".to_owned();
            return Err(PhysicsError::Impossible { what, because });
        }
        if vapour_pressure >= pressure {
            let because = format!(
                "its vapour has {:.0} Pa, the air only {:.0} Pa",
                vapour_pressure.pascals(),
                pressure.pascals()
            );
            return Err(PhysicsError::Impossible { what, because });
        }
        Ok(Self { temperature, pressure, vapour_pressure })
    }

    /// Returns the partial pressure of the vapour.
    pub const fn vapour_pressure(&self) -> Pressure {
        self.vapour_pressure
    }

    /// Returns the vapour in the air as a share of what saturated air holds.
    ///
    /// `φ = pw / ps(t)`.
    ///
    /// # Units
    /// Pressures \[Pa\], φ as a share.
    ///
    /// # Validity
    /// Any [`HumidAir`].
    ///
    /// # Errors
    /// As [`water::saturation_pressure`]; not for air that could be made.
    ///
    /// # Source
    /// Definition.
    pub fn relative_humidity(&self) -> Result<f64, PhysicsError> {
        Ok(self.vapour_pressure.pascals() / saturated_vapour(self.temperature)?)
    }

    /// Returns the mass of vapour per mass of dry air.
    ///
    /// `w = Mw / Ma pw / (p - pw)`.
    ///
    /// # Units
    /// Pressures \[Pa\], w [kg/kg].
    ///
    /// # Validity
    /// Any [`HumidAir`], as ideal gases.
    ///
    /// # Source
    /// Ideal-gas law; molar masses from IAPWS R6-95 and ISO 2533:1975.
    pub fn humidity_ratio(&self) -> f64 {
        ratio(self.vapour_pressure.pascals(), self.pressure.pascals())
    }

    /// Returns the density of the air with its vapour.
    ///
    /// `ρ = (p - pw) / (Ra t) + pw / (Rw t)`.
    ///
    /// # Units
    /// Pressures \[Pa\], t \[K\], ρ [kg/m³].
    ///
    /// # Validity
    /// Any [`HumidAir`], as ideal gases.
    ///
    /// # Source
    /// Ideal-gas law; gas constants from ISO 2533:1975 and CODATA 2018 with IAPWS R6-95.
    pub fn density(&self) -> Density {
        let (p, pw, t) =
            (self.pressure.pascals(), self.vapour_pressure.pascals(), self.temperature.kelvin());
        let vapour = pw * WATER_MOLAR_MASS / GAS_CONSTANT;
        Density::from_kilograms_per_cubic_metre(((p - pw) / AIR_GAS_CONSTANT + vapour) / t)
    }

    /// Returns the enthalpy per mass of dry air, zero for dry air and liquid water at 0 °C.
    ///
    /// `h = 1006 t + w (2 501 000 + 1860 t)`, t in °C.
    ///
    /// # Units
    /// t [°C], w [kg/kg], h [J/kg].
    ///
    /// # Validity
    /// Any [`HumidAir`]; within 0.3 % up to 100 °C.
    ///
    /// # Source
    /// From memory: ASHRAE Handbook Fundamentals, chapter 1, equation 30.
    pub fn enthalpy(&self) -> SpecificEnergy {
        let t = self.temperature.celsius();
        let heat = AIR_HEAT_CAPACITY * t
            + self.humidity_ratio() * (VAPORISATION_AT_ZERO + VAPOUR_HEAT_CAPACITY * t);
        SpecificEnergy::from_joules_per_kilogram(heat)
    }

    /// Returns the temperature at which dew, below 0 °C frost, forms from the air.
    ///
    /// The temperature at which `ps = pw`.
    ///
    /// # Units
    /// Pressures \[Pa\], result \[K\].
    ///
    /// # Validity
    /// Vapour pressure of at least 1.1e-9 Pa.
    ///
    /// # Errors
    /// [`PhysicsError::OutsideValidity`] for air without vapour.
    ///
    /// # Source
    /// Definition; ps from IAPWS R7-97(2012) and R14-08(2011).
    pub fn dew_point(&self) -> Result<Temperature, PhysicsError> {
        let at_ice_point = saturated_vapour(Temperature::from_kelvin(ICE_POINT))?;
        if self.vapour_pressure.pascals() < at_ice_point {
            ice::equilibrium_temperature(self.vapour_pressure)
        } else {
            water::saturation_temperature(self.vapour_pressure)
        }
    }

    /// Returns the temperature that a wet surface takes in the air (thermodynamic wet bulb).
    ///
    /// The t* at which `w = ((2501 - 2.326 t*) ws* - 1.006 (t - t*)) / (2501 + 1.86 t - 4.186 t*)`;
    /// below 0 °C, with ice on the bulb,
    /// `w = ((2830 - 0.24 t*) ws* - 1.006 (t - t*)) / (2830 + 1.86 t - 2.1 t*)`.
    ///
    /// # Units
    /// t and t* [°C], w and ws* [kg/kg].
    ///
    /// # Validity
    /// Any [`HumidAir`] below the boiling point of water.
    ///
    /// # Errors
    /// [`PhysicsError::Impossible`] when no temperature between -50 °C and the air's meets it.
    ///
    /// # Source
    /// From memory: ASHRAE Handbook Fundamentals, chapter 1, equations 33 and 35.
    pub fn wet_bulb(&self) -> Result<Temperature, PhysicsError> {
        const TOLERANCE: f64 = 1e-13;
        /// The bracket stops this far below boiling, where saturated air would be all vapour \[K\].
        const BELOW_BOILING: f64 = 0.01;
        let humidity = self.humidity_ratio();
        let boiling = water::saturation_temperature(self.pressure)?.kelvin() - BELOW_BOILING;
        let high = self.temperature.kelvin().min(boiling);
        let low = AIR_TEMPERATURE.low;
        let kelvin = solve::root("wet-bulb temperature", low, high, TOLERANCE, |t| {
            self.ratio_at_wet_bulb(Temperature::from_kelvin(t)) - humidity
        })?;
        Ok(Temperature::from_kelvin(kelvin))
    }

    /// Returns the humidity ratio that air of this temperature has at a wet-bulb temperature.
    fn ratio_at_wet_bulb(&self, bulb: Temperature) -> f64 {
        let (t, b) = (self.temperature.celsius(), bulb.celsius());
        let saturated =
            saturated_vapour(bulb).map_or(f64::NAN, |ps| ratio(ps, self.pressure.pascals()));
        let gained = AIR_HEAT_CAPACITY * (t - b);
        if b < 0.0 {
            let heat = SUBLIMATION_AT_ZERO + (VAPOUR_HEAT_CAPACITY - ICE_HEAT_CAPACITY) * b;
            let carried = SUBLIMATION_AT_ZERO + VAPOUR_HEAT_CAPACITY * t - ICE_HEAT_CAPACITY * b;
            (heat * saturated - gained) / carried
        } else {
            let heat = VAPORISATION_AT_ZERO + (VAPOUR_HEAT_CAPACITY - WATER_HEAT_CAPACITY) * b;
            let carried = VAPORISATION_AT_ZERO + VAPOUR_HEAT_CAPACITY * t - WATER_HEAT_CAPACITY * b;
            (heat * saturated - gained) / carried
        }
    }

    /// Makes air of a known wet-bulb temperature.
    ///
    /// The equation of [`Self::wet_bulb`], read forwards.
    ///
    /// # Units
    /// Temperatures \[K\], p \[Pa\].
    ///
    /// # Validity
    /// As [`Self::from_relative_humidity`].
    ///
    /// # Errors
    /// [`PhysicsError::OutsideValidity`] outside these ranges; [`PhysicsError::Impossible`] for a wet
    /// bulb above the temperature or lower than dry air would cool it.
    ///
    /// # Source
    /// As [`Self::wet_bulb`].
    pub fn from_wet_bulb(
        temperature: Temperature,
        wet_bulb: Temperature,
        pressure: Pressure,
    ) -> Result<Self, PhysicsError> {
        let dry = Self::from_relative_humidity(temperature, 0.0, pressure)?;
        let humidity = dry.ratio_at_wet_bulb(wet_bulb);
        let molar = humidity * GAS_CONSTANT / (WATER_MOLAR_MASS * AIR_GAS_CONSTANT);
        if humidity.is_nan() || humidity < 0.0 {
            let because = "even dry air would not cool a wet bulb so far".to_owned();
            return Err(PhysicsError::Impossible { what: "humid air", because });
        }
        let vapour_pressure = pressure * (molar / (1.0 + molar));
        Self::from_vapour_pressure(temperature, vapour_pressure, pressure)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::constants::STANDARD_ATMOSPHERE;

    fn celsius(value: f64) -> Temperature {
        Temperature::from_celsius(value)
    }

    const SEA_LEVEL: Pressure = Pressure::from_pascals(STANDARD_ATMOSPHERE);

    #[test]
    fn the_three_ways_to_give_humidity_agree() {
        for t in [-20.0, 0.0, 5.0, 20.0, 45.0, 70.0, 95.0, 120.0] {
            for share in [0.05, 0.3, 0.6] {
                let Ok(air) = HumidAir::from_relative_humidity(celsius(t), share, SEA_LEVEL) else {
                    continue;
                };
                let dew = HumidAir::from_dew_point(celsius(t), air.dew_point().unwrap(), SEA_LEVEL);
                let wet = HumidAir::from_wet_bulb(celsius(t), air.wet_bulb().unwrap(), SEA_LEVEL);
                for other in [dew.unwrap(), wet.unwrap()] {
                    let found = other.relative_humidity().unwrap();
                    assert!((found - share).abs() < 1e-7, "{t} °C, {share}: {found}");
                }
            }
        }
    }

    #[test]
    fn dew_point_wet_bulb_and_temperature_stand_in_order() {
        for t in [-10.0, 10.0, 30.0, 60.0, 90.0] {
            for share in [0.1, 0.5, 0.9, 1.0] {
                let air = HumidAir::from_relative_humidity(celsius(t), share, SEA_LEVEL).unwrap();
                let (dew, wet) =
                    (air.dew_point().unwrap().celsius(), air.wet_bulb().unwrap().celsius());
                assert!(dew <= wet + 0.02 && wet <= t + 1e-6, "{t} °C, {share}: {dew}, {wet}");
                assert!(air.density().si() > 0.5 && air.enthalpy().si().is_finite());
            }
        }
    }

    #[test]
    fn impossible_air_is_refused() {
        let boiling = HumidAir::from_relative_humidity(celsius(110.0), 1.0, SEA_LEVEL);
        assert!(matches!(boiling, Err(PhysicsError::Impossible { .. })));
        let dew = HumidAir::from_dew_point(celsius(20.0), celsius(25.0), SEA_LEVEL);
        assert!(matches!(dew, Err(PhysicsError::Impossible { .. })));
        let wet = HumidAir::from_wet_bulb(celsius(40.0), celsius(2.0), SEA_LEVEL);
        assert!(matches!(wet, Err(PhysicsError::Impossible { .. })));
        assert!(HumidAir::from_relative_humidity(celsius(20.0), 1.2, SEA_LEVEL).is_err());
        assert!(HumidAir::from_relative_humidity(celsius(300.0), 0.1, SEA_LEVEL).is_err());
        let dry = HumidAir::from_relative_humidity(celsius(20.0), 0.0, SEA_LEVEL).unwrap();
        assert!(dry.dew_point().is_err());
    }
}
