//! Fizz: the pressure it needs, and what a cartridge does in a siphon.
//!
//! Symbols: c concentration [kg/m³], p partial pressure \[Pa\], m mass of gas, v volume.

use super::henry::{Drink, SolubleGas, concentration, dissolved};
use crate::physics::constants::STANDARD_ATMOSPHERE;
use crate::physics::cryogen::specific_volume;
use crate::physics::solve::root;
use crate::physics::{PhysicsError, Validity, positive};
use crate::quantity::{Density, Mass, Pressure, Rate, Temperature, Time, Volume};

/// Highest partial pressure considered \[Pa\].
const MAX_PASCALS: f64 = 2e6;
/// Pressures are found to this \[Pa\].
const TOLERANCE_PASCALS: f64 = 1e-9;

/// Returns a concentration in volumes of gas at 0 °C and 101.325 kPa per volume of drink.
///
/// `volumes = c v_gas(0 °C, 1 atm)`
///
/// # Units
/// c [kg/m³], volumes [-].
///
/// # Errors
/// None within the range of the gas law, which the standard state lies in.
///
/// # Source
/// Definition, as used in the soft-drink trade.
pub fn gas_volumes(gas: SolubleGas, concentration: Density) -> Result<f64, PhysicsError> {
    let ice_point = Temperature::from_celsius(0.0);
    let standard = Pressure::from_pascals(STANDARD_ATMOSPHERE);
    Ok(concentration.si() * specific_volume(gas.gas(), ice_point, standard)?)
}

/// Returns the partial pressure of gas that holds a concentration in a drink at rest.
///
/// The inverse of [`dissolved`].
///
/// # Units
/// c [kg/m³], t \[K\], p \[Pa\].
///
/// # Validity
/// As [`dissolved`].
///
/// # Errors
/// [`PhysicsError::NotPositive`] for no gas; [`PhysicsError::OutsideValidity`] as [`dissolved`];
/// [`PhysicsError::Impossible`] when it would take more than 2 MPa.
///
/// # Source
/// As [`dissolved`].
pub fn pressure_for_concentration(
    gas: SolubleGas,
    wanted: Density,
    temperature: Temperature,
    drink: Drink,
) -> Result<Pressure, PhysicsError> {
    let wanted = positive("gas wanted", wanted.si(), "kg/m³")?;
    dissolved(gas, temperature, Pressure::ZERO, drink)?;
    let share = drink.relative_solubility()?;
    let surplus = |p: f64| concentration(gas, temperature.kelvin(), p, share) - wanted;
    root("a pressure for that much gas", 0.0, MAX_PASCALS, TOLERANCE_PASCALS, surplus)
        .map(Pressure::from_pascals)
}

/// Returns how long a drink takes to come within reach of its final gas content.
///
/// `time = -ln(1 - share) / rate`, from `c = c_end (1 - exp(-rate time))`
///
/// # Units
/// share [-], rate [1/s], time \[s\].
///
/// # Validity
/// Constant pressure and temperature; the rate is the transfer coefficient times the surface per
/// volume: a shaken bottle 0.02 to 0.1 per second, a still one 1e-5 to 1e-4 (estimates).
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for a share outside 0 to 0.9999; [`PhysicsError::NotPositive`]
/// for a rate of zero.
///
/// # Source
/// Two-film theory of gas absorption: W. G. Whitman, Chem. Metall. Eng. 29 (1923) 146.
pub fn time_to_dissolve(share: f64, rate: Rate) -> Result<Time, PhysicsError> {
    const SHARE: Validity = Validity {
        law: "the uptake of gas",
        quantity: "share of the final content",
        low: 0.0,
        high: 0.9999,
        unit: "",
    };
    let left = 1.0 - SHARE.check(share)?;
    let rate = positive("transfer rate", rate.per_second(), "1/s")?;
    Ok(Time::from_seconds(-left.ln() / rate))
}

/// A closed siphon with a charge of gas.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Siphon {
    /// Inner volume to the brim.
    pub volume: Volume,
    /// Volume of the filling.
    pub filling: Volume,
    /// The gas.
    pub gas: SolubleGas,
    /// Mass of gas let in.
    pub charge: Mass,
    /// Temperature throughout.
    pub temperature: Temperature,
    /// Solubility in the filling over that in water: 1 in water, about 1.3 in cream.
    pub relative_solubility: f64,
}

/// What the gas in a siphon does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SiphonState {
    /// Pressure of the gas before any of it dissolves; over the air that was in it, so gauge.
    pub before_shaking: Pressure,
    /// Pressure at equilibrium, gauge.
    pub after_shaking: Pressure,
    /// Gas dissolved in the filling.
    pub dissolved: Density,
    /// Share of the gas that is dissolved.
    pub dissolved_share: f64,
}

impl Siphon {
    /// Returns the pressures and the gas dissolved.
    ///
    /// `m = (v - v_f) / v_gas(p) + v_f c(p)`; the air shut in keeps its own pressure, so that p is
    /// gauge pressure.
    ///
    /// # Units
    /// m \[kg\], v \[m³\], p \[Pa\].
    ///
    /// # Validity
    /// -1 to 40 °C, to 2 MPa; within about 5 % for watery fillings.
    ///
    /// # Errors
    /// [`PhysicsError::NotPositive`] without headspace, filling or gas;
    /// [`PhysicsError::Impossible`] when the pressure would pass 2 MPa.
    ///
    /// # Source
    /// Mass balance; solubility as [`dissolved`].
    pub fn charged(&self) -> Result<SiphonState, PhysicsError> {
        let head = (self.volume - self.filling).cubic_metres();
        let head = positive("headspace", head, "m³")?;
        let filling = positive("filling", self.filling.cubic_metres(), "m³")?;
        let charge = positive("gas", self.charge.kilograms(), "kg")?;
        let ratio = positive("relative solubility", self.relative_solubility, "")?;
        dissolved(self.gas, self.temperature, Pressure::ZERO, Drink::WATER)?;
        let held = |p: f64| self.gas_above(head, p);
        let in_liquid =
            |p: f64| filling * concentration(self.gas, self.temperature.kelvin(), p, ratio);
        let find = |what, f: &dyn Fn(f64) -> f64| {
            root(what, 1.0, MAX_PASCALS, TOLERANCE_PASCALS, |p| f(p) - charge)
        };
        let after = find("a siphon pressure", &|p| held(p) + in_liquid(p))?;
        // Before shaking the same gas may stand at a pressure beyond the range: then the ideal one.
        let before = find("a siphon pressure", &held).unwrap_or_else(|_| charge / held(1.0));
        let dissolved = in_liquid(after);
        Ok(SiphonState {
            before_shaking: Pressure::from_pascals(before),
            after_shaking: Pressure::from_pascals(after),
            dissolved: Density::from_kilograms_per_cubic_metre(dissolved / filling),
            dissolved_share: dissolved / charge,
        })
    }

    /// The gas that the headspace holds at a pressure \[kg\].
    fn gas_above(&self, head: f64, p: f64) -> f64 {
        let pressure = Pressure::from_pascals(p.max(100.0));
        specific_volume(self.gas.gas(), self.temperature, pressure)
            .map_or(f64::NAN, |v| head / v * (p / pressure.pascals()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn siphon() -> Siphon {
        Siphon {
            volume: Volume::from_litres(0.5),
            filling: Volume::from_litres(0.25),
            gas: SolubleGas::NitrousOxide,
            charge: Mass::from_grams(8.0),
            temperature: Temperature::from_celsius(5.0),
            relative_solubility: 1.0,
        }
    }

    #[test]
    fn the_pressure_for_a_concentration_runs_backwards() {
        let drink = Drink { sugar: Density::from_si(50.0), alcohol: 0.05 };
        for gas in [SolubleGas::CarbonDioxide, SolubleGas::NitrousOxide] {
            for step in 1..=20 {
                let p = Pressure::from_bars(0.5 * f64::from(step));
                let t = Temperature::from_celsius(2.0 * f64::from(step - 1));
                let c = dissolved(gas, t, p, drink).unwrap();
                let back = pressure_for_concentration(gas, c, t, drink).unwrap();
                assert!((back / p - 1.0).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn impossible_fizz_is_refused() {
        let (gas, warm) = (SolubleGas::CarbonDioxide, Temperature::from_celsius(30.0));
        let much = Density::from_si(100.0);
        assert!(pressure_for_concentration(gas, much, warm, Drink::WATER).is_err());
        assert!(pressure_for_concentration(gas, Density::ZERO, warm, Drink::WATER).is_err());
        let hot = Temperature::from_celsius(70.0);
        assert!(pressure_for_concentration(gas, much, hot, Drink::WATER).is_err());
    }

    #[test]
    fn half_the_gas_dissolves_in_a_half_life() {
        let rate = Rate::from_per_second(0.05);
        let half = time_to_dissolve(0.5, rate).unwrap().seconds();
        assert!((half - std::f64::consts::LN_2 / 0.05).abs() < 1e-9);
        assert!(time_to_dissolve(0.9, rate).unwrap().seconds() > half);
        assert!(time_to_dissolve(1.0, rate).is_err());
        assert!(time_to_dissolve(0.5, Rate::ZERO).is_err());
    }

    #[test]
    fn shaking_lowers_the_pressure_and_keeps_the_gas() {
        let state = siphon().charged().unwrap();
        assert!(state.after_shaking < state.before_shaking);
        assert!(state.dissolved_share > 0.0 && state.dissolved_share < 1.0);
        let double = Siphon { charge: Mass::from_grams(16.0), ..siphon() }.charged().unwrap();
        assert!(double.after_shaking > state.after_shaking);
    }

    #[test]
    fn a_siphon_that_cannot_be_is_refused() {
        let full = Siphon { filling: Volume::from_litres(0.5), ..siphon() };
        let empty = Siphon { filling: Volume::ZERO, ..siphon() };
        let flat = Siphon { charge: Mass::ZERO, ..siphon() };
        let burst = Siphon { charge: Mass::from_grams(200.0), ..siphon() };
        let none = Siphon { relative_solubility: 0.0, ..siphon() };
        for siphon in [full, empty, flat, burst, none] {
            assert!(siphon.charged().is_err());
        }
    }
}
