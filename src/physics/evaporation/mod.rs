//! How fast water leaves: at the boil, from an open surface, under vacuum, and in a flash.
//!
//! Skin on the surface, foam and the lid of a pot are left out. Water that a food holds back
//! enters as its water activity.
//! Symbols: q heat flow, m mass, h latent heat, j flux, t temperature, p pressure, a activity.

mod pan;
mod surface;

pub use pan::{HeatedPan, PanState, drying_surface, pan_at_rest};
pub(in crate::physics) use surface::flux_between;
pub use surface::{
    OpenSurface, Surroundings, carrier_flux, chilton_colburn_flux, heat_transfer_to_air,
    still_tank_flux,
};

use super::water;
use super::{PhysicsError, Validity, positive};
use crate::quantity::{
    Mass, MassFlow, Power, Pressure, SpecificEnergy, SpecificHeat, Temperature,
    TemperatureDifference, Time, Volume,
};

const EFFICIENCY: Validity = Validity {
    law: "heat from a burner",
    quantity: "share of the power that arrives",
    low: 0.0,
    high: 1.0,
    unit: "",
};
const ACTIVITY: Validity = Validity {
    law: "boiling of a food",
    quantity: "water activity",
    low: 0.3,
    high: 1.0,
    unit: "",
};

/// Returns the temperature at which a food of a water activity boils.
///
/// `a ps(t) = p`
///
/// # Units
/// t \[K\], p \[Pa\], a \[1\].
///
/// # Validity
/// Activity 0.3 to 1, taken as that at the boil; pressure from 611 Pa up.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside these ranges.
///
/// # Source
/// Raoult's law by definition of water activity; ps from [`water::saturation_temperature`].
pub fn boiling_temperature(pressure: Pressure, activity: f64) -> Result<Temperature, PhysicsError> {
    water::saturation_temperature(pressure / ACTIVITY.check(activity)?)
}

/// Returns how fast a rolling boil takes water off.
///
/// `m' = η q / h(t_boil)`
///
/// # Units
/// q \[W\], η \[1\], h [J/kg], m' [kg/s].
///
/// # Validity
/// Pressure from 612 Pa up; η is the share of the power that leaves as steam.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for an efficiency or pressure outside its range;
/// [`PhysicsError::NotPositive`] for a power of zero or less.
///
/// # Source
/// Energy balance; h from [`water::latent_heat_vaporisation`].
pub fn boil_off(
    power: Power,
    efficiency: f64,
    pressure: Pressure,
) -> Result<MassFlow, PhysicsError> {
    positive("power", power.si(), "W")?;
    let boiling = water::saturation_temperature(pressure)?;
    Ok(power * EFFICIENCY.check(efficiency)? / water::latent_heat_vaporisation(boiling)?)
}

/// Returns how long a mass of water takes from a temperature to the boil.
///
/// `t = m (h'(t_boil) - h'(t_0)) / (η q)`
///
/// # Units
/// m \[kg\], q \[W\], h' enthalpy of the liquid [J/kg], t \[s\].
///
/// # Validity
/// Liquid water; the pot itself is not counted.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a mass, power or efficiency of zero or less;
/// [`PhysicsError::OutsideValidity`] for an efficiency above 1 or a state outside the liquid;
/// [`PhysicsError::Impossible`] for a start above the boiling point.
///
/// # Source
/// Energy balance; enthalpies from [`water::liquid`].
pub fn time_to_boil(
    mass: Mass,
    start: Temperature,
    pressure: Pressure,
    power: Power,
    efficiency: f64,
) -> Result<Time, PhysicsError> {
    positive("mass", mass.si(), "kg")?;
    positive("power", power.si(), "W")?;
    positive("efficiency", EFFICIENCY.check(efficiency)?, "")?;
    let boiling = water::saturation_temperature(pressure)?;
    if start > boiling {
        let because = format!(
            "{:.1} °C lies above the boiling point, {:.1} °C",
            start.celsius(),
            boiling.celsius()
        );
        return Err(PhysicsError::Impossible { what: "a time to the boil", because });
    }
    let rise =
        water::liquid(boiling, pressure)?.enthalpy - water::liquid(start, pressure)?.enthalpy;
    Ok(mass * rise / (power * efficiency))
}

/// A liquid that boils under vacuum, heated by a bath or plate, with a condenser behind it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VacuumEvaporator {
    /// Pressure that the pump holds when the condenser keeps up.
    pub pressure: Pressure,
    /// Temperature of the bath.
    pub bath: Temperature,
    /// Heat that passes from bath to liquid per kelvin [W/K]: coefficient times area.
    pub heating_w_per_k: f64,
    /// Temperature of the coolant, and heat that passes to it per kelvin [W/K]; none when the
    /// pump takes all vapour.
    pub condenser: Option<(Temperature, f64)>,
    /// Water activity of the liquid.
    pub activity: f64,
}

/// What a vacuum evaporator settles at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VacuumState {
    /// Temperature of the boiling liquid.
    pub liquid: Temperature,
    /// Pressure in the flask.
    pub pressure: Pressure,
    /// Water evaporated.
    pub rate: MassFlow,
    /// Whether the condenser sets the pace.
    pub condenser_limited: bool,
}

impl VacuumEvaporator {
    /// Returns the steady temperature, pressure and rate.
    ///
    /// Bath: `q = UA_b (t_b - t_s - e)`; condenser: `q <= UA_c (t_s - t_c)`, with t_s the
    /// saturation temperature in the flask and e the boiling-point rise. When the condenser cannot
    /// take the heat at the set pressure, t_s rises until both agree.
    ///
    /// # Units
    /// UA [W/K], t \[K\], q \[W\].
    ///
    /// # Validity
    /// Pressure from 612 Pa up, where the liquid does not freeze; air already removed.
    ///
    /// # Errors
    /// [`PhysicsError::NotPositive`] for a heat-transfer product of zero or less;
    /// [`PhysicsError::Impossible`] when the bath is not warmer than the boiling liquid or the
    /// coolant not colder; [`PhysicsError::OutsideValidity`] outside the range of pressure.
    ///
    /// # Source
    /// Energy balance over two heat exchangers in series.
    pub fn steady(&self) -> Result<VacuumState, PhysicsError> {
        let heating = positive("heat transfer of the bath", self.heating_w_per_k, "W/K")?;
        let set = water::saturation_temperature(self.pressure)?;
        let rise = boiling_temperature(self.pressure, self.activity)? - set;
        let (vapour, limited) = match self.condenser {
            None => (set, false),
            Some((coolant, cooling)) => {
                let cooling = positive("heat transfer of the condenser", cooling, "W/K")?;
                let bath = (self.bath - rise).kelvin();
                let balance = (heating * bath + cooling * coolant.kelvin()) / (heating + cooling);
                (set.max(Temperature::from_kelvin(balance)), balance > set.kelvin())
            }
        };
        let excess = (self.bath - rise - vapour).kelvin();
        let coolant_works = self.condenser.is_none_or(|(coolant, _)| coolant < vapour);
        if excess <= 0.0 || !coolant_works {
            let because = format!(
                "vapour at {:.1} °C needs a warmer bath and a colder condenser than given",
                vapour.celsius()
            );
            return Err(PhysicsError::Impossible { what: "boiling under vacuum", because });
        }
        let latent = water::latent_heat_vaporisation(vapour)?;
        let pressure = if limited { water::saturation_pressure(vapour)? } else { self.pressure };
        let rate = Power::from_watts(heating * excess) / latent;
        Ok(VacuumState { liquid: vapour + rise, pressure, rate, condenser_limited: limited })
    }
}

/// Returns the share of a food that boils off when vacuum cools it from one temperature to another.
///
/// `f = 1 - exp(-c (t1 - t2) / h)`, h at the mean temperature
///
/// # Units
/// c [J/(kg K)], t \[K\], h [J/kg], f share of the whole mass \[1\].
///
/// # Validity
/// 0 °C to 130 °C, no heat from outside, water left to evaporate.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a heat capacity of zero or less;
/// [`PhysicsError::OutsideValidity`] for temperatures outside the range;
/// [`PhysicsError::Impossible`] for an end warmer than the start.
///
/// # Source
/// Energy balance `m c dt = h dm`.
pub fn flash_share(
    start: Temperature,
    end: Temperature,
    heat_capacity: SpecificHeat,
) -> Result<f64, PhysicsError> {
    const RANGE: Validity = Validity {
        law: "flash cooling",
        quantity: "temperature",
        low: 0.0,
        high: 130.0,
        unit: "°C",
    };
    positive("heat capacity", heat_capacity.si(), "J/(kg K)")?;
    RANGE.check(start.celsius())?;
    RANGE.check(end.celsius())?;
    if end > start {
        let because = "the end is warmer than the start".to_owned();
        return Err(PhysicsError::Impossible { what: "flash cooling", because });
    }
    let latent = mean_latent_heat(start, end)?;
    Ok(-(-(heat_capacity * (start - end) / latent)).exp_m1())
}

/// Returns how far a share of water boiled off cools the rest, the inverse of [`flash_share`] at
/// a latent heat taken at the start.
///
/// `t1 - t2 = -h ln(1 - f) / c`
///
/// # Units
/// As for [`flash_share`].
///
/// # Validity
/// As for [`flash_share`]; shares up to 0.15, so that the latent heat changes by less than 5 %.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for a share outside 0 to 0.15 or a temperature outside the
/// water line; [`PhysicsError::NotPositive`] for a heat capacity of zero or less.
///
/// # Source
/// As for [`flash_share`].
pub fn flash_drop(
    start: Temperature,
    share: f64,
    heat_capacity: SpecificHeat,
) -> Result<TemperatureDifference, PhysicsError> {
    const SHARE: Validity =
        Validity { law: "flash cooling", quantity: "share", low: 0.0, high: 0.15, unit: "" };
    positive("heat capacity", heat_capacity.si(), "J/(kg K)")?;
    let logarithm = -(-SHARE.check(share)?).ln_1p();
    let latent = water::latent_heat_vaporisation(start)?;
    Ok(TemperatureDifference::from_kelvin(latent.si() * logarithm / heat_capacity.si()))
}

fn mean_latent_heat(a: Temperature, b: Temperature) -> Result<SpecificEnergy, PhysicsError> {
    let middle = f64::midpoint(a.kelvin(), b.kelvin());
    water::latent_heat_vaporisation(Temperature::from_kelvin(middle))
}

/// Returns the time in which a pump empties a vessel to a pressure, before the water boils.
///
/// `t = V/S ln(p1/p2)`
///
/// # Units
/// V \[m³\], S pumping speed [m³/s], p \[Pa\].
///
/// # Validity
/// Constant pumping speed, no vapour; boiling water adds [`vapour_volume`] on top.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a speed or pressure of zero or less.
///
/// # Source
/// Gas balance of an evacuated vessel.
pub fn pump_down_time(
    vessel: Volume,
    pumping_m3_per_s: f64,
    from: Pressure,
    to: Pressure,
) -> Result<Time, PhysicsError> {
    positive("pumping speed", pumping_m3_per_s, "m³/s")?;
    positive("pressure", from.si(), "Pa")?;
    positive("pressure", to.si(), "Pa")?;
    Ok(Time::from_seconds(vessel.si() / pumping_m3_per_s * (from / to).ln().max(0.0)))
}

/// Returns the volume of vapour that a mass of water gives at the temperature at which it boils.
///
/// # Errors
/// As for [`water::saturated_vapour_density`].
pub fn vapour_volume(mass: Mass, boiling: Temperature) -> Result<Volume, PhysicsError> {
    Ok(mass / water::saturated_vapour_density(boiling)?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::constants::STANDARD_ATMOSPHERE;

    const ATMOSPHERE: Pressure = Pressure::from_pascals(STANDARD_ATMOSPHERE);

    fn celsius(value: f64) -> Temperature {
        Temperature::from_celsius(value)
    }

    fn rotary() -> VacuumEvaporator {
        VacuumEvaporator {
            pressure: Pressure::from_kilopascals(5.0),
            bath: celsius(50.0),
            heating_w_per_k: 20.0,
            condenser: None,
            activity: 1.0,
        }
    }

    #[test]
    fn boil_off_follows_power_and_refuses_nonsense() {
        let rate = |watts| boil_off(Power::from_watts(watts), 0.5, ATMOSPHERE).unwrap();
        assert!((rate(2000.0) / rate(1000.0) - 2.0).abs() < 1e-12);
        assert!(boil_off(Power::ZERO, 0.5, ATMOSPHERE).is_err());
        assert!(boil_off(Power::from_watts(1.0), 1.5, ATMOSPHERE).is_err());
        assert!(boil_off(Power::from_watts(1.0), 0.5, Pressure::from_pascals(100.0)).is_err());
    }

    #[test]
    fn a_syrup_boils_hotter() {
        let water = boiling_temperature(ATMOSPHERE, 1.0).unwrap();
        assert!(boiling_temperature(ATMOSPHERE, 0.9).unwrap() > water);
        assert!(boiling_temperature(ATMOSPHERE, 0.1).is_err());
    }

    #[test]
    fn time_to_boil_is_nothing_at_the_boil() {
        let time = |start, efficiency| {
            time_to_boil(
                Mass::from_kilograms(1.0),
                celsius(start),
                ATMOSPHERE,
                Power::from_watts(1000.0),
                efficiency,
            )
        };
        assert!(time(99.97, 0.8).unwrap() < Time::from_seconds(1.0));
        assert!(matches!(time(120.0, 0.8), Err(PhysicsError::Impossible { .. })));
        assert!(time(20.0, 0.0).is_err());
    }

    #[test]
    fn a_small_condenser_warms_the_flask() {
        let free = rotary().steady().unwrap();
        assert!(!free.condenser_limited && (free.liquid.celsius() - 32.9).abs() < 0.1);
        let small = VacuumEvaporator { condenser: Some((celsius(10.0), 10.0)), ..rotary() };
        let held = small.steady().unwrap();
        assert!(held.condenser_limited && held.liquid > free.liquid && held.rate < free.rate);
        let taken = 10.0 * (held.liquid - celsius(10.0)).kelvin();
        let given = 20.0 * (celsius(50.0) - held.liquid).kelvin();
        assert!((taken - given).abs() < 1e-9);
    }

    #[test]
    fn vacuum_refuses_a_cold_bath_and_a_warm_condenser() {
        let cold = VacuumEvaporator { bath: celsius(30.0), ..rotary() };
        assert!(matches!(cold.steady(), Err(PhysicsError::Impossible { .. })));
        let warm = VacuumEvaporator { condenser: Some((celsius(60.0), 10.0)), ..rotary() };
        assert!(warm.steady().is_err());
        assert!(VacuumEvaporator { heating_w_per_k: 0.0, ..rotary() }.steady().is_err());
        let none = VacuumEvaporator { condenser: Some((celsius(5.0), 0.0)), ..rotary() };
        assert!(none.steady().is_err());
    }

    #[test]
    fn flash_cooling_takes_a_known_share() {
        let water = SpecificHeat::from_si(4180.0);
        let share = flash_share(celsius(50.0), celsius(20.0), water).unwrap();
        assert!((0.049..0.052).contains(&share));
        let drop = flash_drop(celsius(50.0), share, water).unwrap();
        assert!((drop.kelvin() - 30.0).abs() < 1.0);
        assert!(flash_share(celsius(20.0), celsius(50.0), water).is_err());
        assert!(flash_share(celsius(150.0), celsius(50.0), water).is_err());
        assert!(flash_share(celsius(50.0), celsius(20.0), SpecificHeat::ZERO).is_err());
        assert!(flash_drop(celsius(50.0), 0.5, water).is_err());
        assert!(flash_drop(celsius(50.0), 0.1, SpecificHeat::ZERO).is_err());
    }

    #[test]
    fn pumping_down_takes_longer_for_more_vacuum() {
        let time = |to| {
            let vessel = Volume::from_litres(10.0);
            pump_down_time(vessel, 1e-3, ATMOSPHERE, Pressure::from_pascals(to))
        };
        assert!(time(1e3).unwrap() > time(1e4).unwrap() && time(0.0).is_err());
        let vapour = vapour_volume(Mass::from_grams(10.0), celsius(20.0)).unwrap();
        assert!((0.5..0.65).contains(&vapour.cubic_metres()));
    }
}
