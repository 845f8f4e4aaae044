//! The place in which a kitchen stands: its air, its water and its room.

use crate::finding::Code;
use crate::knowledge::written::Text;
use crate::physics::atmosphere::{altitude_of_pressure, atmospheric_pressure};
use crate::quantity::{Dimension, Length, Pressure, Rate, Temperature, Volume};
use crate::reader::{Bounds, Reader, SHARE};

use super::written::WrittenKitchen;

/// Altitudes at which people live or cook, with room to spare: the shore of the Dead Sea lies at
/// −430 m and no one lives above 5 100 m (common practice).
const ALTITUDE: Bounds = Bounds::new(
    Dimension::Length,
    -450.0,
    9000.0,
    "kitchens stand between the shore of the Dead Sea and the highest summit",
);
/// Air pressures from the summit of [`ALTITUDE`] to the highest ever seen at the ground, 108.5 kPa
/// (from memory: World Meteorological Organization, Archive of Weather and Climate Extremes).
const PRESSURE: Bounds = Bounds::new(
    Dimension::Pressure,
    30_000.0,
    108_500.0,
    "give the pressure at the place itself, not reduced to sea level",
);
/// Rooms in which someone cooks indoors.
const ROOM_TEMPERATURE: Bounds =
    Bounds::new(Dimension::Temperature, 258.15, 328.15, "a room lies between −15 °C and 55 °C");
/// Rooms from a cupboard to a hall.
const ROOM_VOLUME: Bounds =
    Bounds::new(Dimension::Volume, 1.0, 1e5, "a room holds from 1 m³ to 100 000 m³");
/// From a sealed room to a fume cupboard.
const AIR_CHANGES: Bounds = Bounds::new(
    Dimension::Rate,
    0.0,
    200.0 / 3600.0,
    "the air of a room is changed from 0 to 200 times an hour",
);
/// Liquid water from a tap.
const TAP_WATER: Bounds = Bounds::new(
    Dimension::Temperature,
    273.15,
    333.15,
    "cold tap water lies between 0 °C and 60 °C",
);

/// The air, the water and the room of a kitchen.
#[derive(Debug, Clone, PartialEq)]
pub struct Place {
    /// Air pressure.
    pub pressure: Pressure,
    /// Altitude, or that of the standard atmosphere at the pressure.
    pub altitude: Length,
    /// Usual temperature of the room.
    pub room_temperature: Temperature,
    /// Usual relative humidity of the room, 0 to 1.
    pub room_humidity: f64,
    /// Volume of air in the room.
    pub room_volume: Volume,
    /// How often the air is changed.
    pub air_changes: Rate,
    /// Temperature of the cold tap water.
    pub tap_water: Temperature,
    /// The keys that the kitchen left out and for which [`Place::default`] stands in.
    pub assumed: Vec<&'static str>,
}

impl Default for Place {
    /// Sea level and a closed room of 12 m² with 2.5 m headroom, half an air change an hour, 21 °C,
    /// 50 % humidity, tap water at 15 °C: estimates for a home in a temperate climate.
    fn default() -> Self {
        const STANDARD_ATMOSPHERE: Pressure = Pressure::from_pascals(101_325.0);
        Self {
            pressure: STANDARD_ATMOSPHERE,
            altitude: Length::ZERO,
            room_temperature: Temperature::from_celsius(21.0),
            room_humidity: 0.5,
            room_volume: Volume::from_cubic_metres(30.0),
            air_changes: Rate::from_per_hour(0.5),
            tap_water: Temperature::from_celsius(15.0),
            assumed: Vec::new(),
        }
    }
}

impl Place {
    /// Links the place of a kitchen; what is left out is assumed and listed.
    pub(super) fn link(written: &WrittenKitchen, reader: &mut Reader<'_>) -> Self {
        let mut place = Self::default();
        place.air(written, reader);
        let mut assumed = std::mem::take(&mut place.assumed);
        let mut one = |key: &'static str, text: &Option<Text>, bounds: &Bounds| {
            let Some(text) = text else {
                assumed.push(key);
                return None;
            };
            reader.within(&format!("`{key}`"), text, bounds).map(|amount| amount.middle())
        };
        if let Some(kelvin) = one("room_temperature", &written.room_temperature, &ROOM_TEMPERATURE)
        {
            place.room_temperature = Temperature::from_si(kelvin);
        }
        if let Some(share) = one("room_humidity", &written.room_humidity, &SHARE) {
            place.room_humidity = share;
        }
        if let Some(volume) = one("room_volume", &written.room_volume, &ROOM_VOLUME) {
            place.room_volume = Volume::from_si(volume);
        }
        if let Some(rate) = one("air_changes", &written.air_changes, &AIR_CHANGES) {
            place.air_changes = Rate::from_si(rate);
        }
        if let Some(kelvin) = one("tap_water", &written.tap_water, &TAP_WATER) {
            place.tap_water = Temperature::from_si(kelvin);
        }
        place.assumed = assumed;
        place
    }

    /// Links altitude or pressure, each from the other by the standard atmosphere.
    fn air(&mut self, written: &WrittenKitchen, reader: &mut Reader<'_>) {
        if let (Some(_), Some(pressure)) = (&written.altitude, &written.pressure) {
            let message = "both `altitude` and `pressure` are given".to_owned();
            let help = "keep the pressure when a barometer at the place shows it".to_owned();
            reader.error(Code::ImpossibleValue, pressure.span(), message, help);
        }
        if let Some(text) = &written.pressure {
            if let Some(amount) = reader.within("`pressure`", text, &PRESSURE) {
                self.pressure = Pressure::from_si(amount.middle());
                self.altitude = altitude_of_pressure(self.pressure).unwrap_or(self.altitude);
            }
        } else if let Some(text) = &written.altitude {
            if let Some(amount) = reader.within("`altitude`", text, &ALTITUDE) {
                self.altitude = Length::from_si(amount.middle());
                self.pressure = atmospheric_pressure(self.altitude).unwrap_or(self.pressure);
            }
        } else {
            self.assumed.push("altitude");
        }
    }
}
