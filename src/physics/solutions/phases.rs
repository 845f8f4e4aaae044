//! Freezing and boiling points of a solution, and the strength at which it freezes or boils at a
//! given temperature.
//!
//! Symbols: aw water activity, ai that of ice, f concentration factor, t temperature \[K\], p pressure,
//! h molar heat of melting, r gas constant.

use super::activity::{Solution, TEMPERATURE_RANGE};
use crate::physics::constants::{GAS_CONSTANT, WATER_MOLAR_MASS};
use crate::physics::solve::root;
use crate::physics::{PhysicsError, Validity, water};
use crate::quantity::{Pressure, Temperature, TemperatureDifference};

/// By how much ice under one atmosphere melts below the triple point \[K\]: ITS-90.
const ICE_POINT_SHIFT: f64 = 0.01;
/// Ice point under one atmosphere \[K\]: ITS-90.
const ICE_POINT_KELVIN: f64 = 273.15;
/// Molar heat of melting at the ice point [J/mol]: IAPWS R10-06(2009), 333.43 kJ/kg.
const MELTING_HEAT: f64 = 333_430.0 * WATER_MOLAR_MASS;
/// Its fall per kelvin of cooling [J/(mol K)]: heat capacities of water and ice at 0 °C.
const MELTING_HEAT_FALL: f64 = 38.0;
/// Iterations stop when a temperature \[K\] or a relative strength moves by less than this.
const SETTLED: f64 = 1e-11;
/// Steps after which an iteration counts as failed; five to ten are usual.
const MAX_STEPS: u32 = 60;

const ICE_RANGE: Validity = Validity {
    law: "freezing out of ice",
    quantity: "temperature",
    low: TEMPERATURE_RANGE.low,
    high: 0.0,
    unit: "°C",
};
const BOILING_RANGE: Validity = Validity {
    law: "boiling of a solution",
    quantity: "pressure",
    low: 1.0,
    high: 220.0,
    unit: "kPa",
};
/// To the eutectic of table salt, 23.3 %; beyond it salt freezes out too.
const SALT_RANGE: Validity = Validity {
    law: "freezing out of ice alone",
    quantity: "salt in the liquid left",
    low: 0.0,
    high: 5.2,
    unit: "mol/kg",
};
const ACTIVITY_RANGE: Validity = Validity {
    law: "concentrating a solution",
    quantity: "water activity",
    low: 0.05,
    high: 1.0,
    unit: "",
};

/// Returns the natural logarithm of [`ice_water_activity`], without checks.
fn log_ice_activity(temperature: Temperature) -> f64 {
    let t = temperature.kelvin() + ICE_POINT_SHIFT;
    let ln_t = t.ln();
    let ice = 9.550_426 - 5_723.265 / t + 3.530_68 * ln_t - 0.007_283_32 * t;
    let high = 54.842_763 - 6_763.22 / t - 4.210 * ln_t + 0.000_367 * t;
    let low = 53.878 - 1_331.22 / t - 9.445_23 * ln_t + 0.014_025 * t;
    ice - (high + (0.041_5 * (t - 218.8)).tanh() * low)
}

/// Returns the water activity of a solution that is in equilibrium with ice.
///
/// `ai = p_ice(t + 0.01 K) / p_water(t + 0.01 K)`, the shift carrying the triple point to one
/// atmosphere.
///
/// # Units
/// t \[K\], ai [-].
///
/// # Validity
/// -35 to 0 °C.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside that range.
///
/// # Source
/// D. M. Murphy & T. Koop, Q. J. R. Meteorol. Soc. 131 (2005) 1539, equations 7 and 10.
pub fn ice_water_activity(temperature: Temperature) -> Result<f64, PhysicsError> {
    ICE_RANGE.check(temperature.celsius())?;
    Ok(log_ice_activity(temperature).exp())
}

/// Returns the sugar share of a syrup that is in equilibrium with ice at a temperature: the strength
/// that freeze concentration reaches.
///
/// The inverse of [`Solution::freezing_point`] for sucrose.
///
/// # Units
/// t \[K\], share [kg/kg].
///
/// # Validity
/// As [`Solution::factor_at_freezing_point`]; from -0.001 °C downwards.
///
/// # Errors
/// As [`Solution::factor_at_freezing_point`].
///
/// # Source
/// As [`Solution::freezing_point`].
pub fn brix_at_freezing_point(temperature: Temperature) -> Result<f64, PhysicsError> {
    /// Any syrup serves to start from; this one lies amid the range.
    const START: f64 = 0.3;
    let start = Solution::syrup(START)?;
    let factor = start.factor_at_freezing_point(temperature)?;
    Ok(start.concentrated(factor).dissolved_share())
}

impl Solution {
    /// Returns the temperature at which the first ice forms.
    ///
    /// `aw(t) = ai(t)`, by Newton steps with the slope `h / (r t²)` of the ice curve.
    ///
    /// # Units
    /// t \[K\].
    ///
    /// # Validity
    /// Freezing points down to -35 °C; sucrose within 0.05 K to 40 °Brix and 5 % of the depression
    /// beyond (below about -14 °C the syrup is supersaturated). Mixtures within about 5 %.
    ///
    /// # Errors
    /// [`PhysicsError::OutsideValidity`] when it freezes below -35 °C.
    ///
    /// # Source
    /// As [`Solution::water_activity`] and [`ice_water_activity`].
    pub fn freezing_point(&self) -> Result<Temperature, PhysicsError> {
        let mut t = ICE_POINT_KELVIN;
        for _ in 0..MAX_STEPS {
            let now = Temperature::from_kelvin(t);
            let distance = self.log_activity(1.0, now) - log_ice_activity(now);
            let heat = MELTING_HEAT - MELTING_HEAT_FALL * (ICE_POINT_KELVIN - t);
            let step = distance * GAS_CONSTANT * t * t / heat;
            t += step;
            if ICE_RANGE.low + ICE_POINT_KELVIN > t {
                break;
            }
            if step.abs() < SETTLED {
                return Ok(Temperature::from_kelvin(t.min(ICE_POINT_KELVIN)));
            }
        }
        ICE_RANGE.check(t - ICE_POINT_KELVIN)?;
        Err(PhysicsError::NoConvergence { what: "a freezing point", steps: MAX_STEPS, last: t })
    }

    /// Returns the temperature at which the solution boils under a pressure.
    ///
    /// `t = t_sat(p / aw(t))`, repeated from the boiling point of water; each round shrinks the
    /// error fifty-fold.
    ///
    /// # Units
    /// p \[Pa\], t \[K\].
    ///
    /// # Validity
    /// 1 to 220 kPa, boiling points to 150 °C; sucrose to 90 °Brix within 6 % of the rise, or 10 %
    /// above 75 °Brix.
    ///
    /// # Errors
    /// [`PhysicsError::OutsideValidity`] outside those ranges.
    ///
    /// # Source
    /// As [`Solution::water_activity`]; saturation curve as [`water::saturation_temperature`].
    pub fn boiling_point(&self, pressure: Pressure) -> Result<Temperature, PhysicsError> {
        BOILING_RANGE.check(pressure.kilopascals())?;
        let mut t = water::saturation_temperature(pressure)?;
        for _ in 0..MAX_STEPS {
            TEMPERATURE_RANGE.check(t.celsius())?;
            let activity = self.log_activity(1.0, t).exp();
            let next = water::saturation_temperature(pressure / activity)?;
            let moved = (next - t).kelvin().abs();
            t = next;
            if moved < SETTLED {
                break;
            }
        }
        TEMPERATURE_RANGE.check(t.celsius())?;
        Ok(t)
    }

    /// Returns by how much the boiling point lies above that of water.
    ///
    /// `rise = t_boiling(p) - t_sat(p)`
    ///
    /// # Units
    /// p \[Pa\], rise \[K\].
    ///
    /// # Validity
    /// As [`Solution::boiling_point`].
    ///
    /// # Errors
    /// As [`Solution::boiling_point`].
    ///
    /// # Source
    /// As [`Solution::boiling_point`].
    pub fn boiling_point_rise(
        &self,
        pressure: Pressure,
    ) -> Result<TemperatureDifference, PhysicsError> {
        Ok(self.boiling_point(pressure)? - water::saturation_temperature(pressure)?)
    }

    /// Returns the factor by which the solution must be concentrated to reach a water activity.
    ///
    /// `aw(f, t) = aw`, by secant steps from the ideal answer; below one the solution is diluted.
    ///
    /// # Units
    /// aw [-], t \[K\], f [-].
    ///
    /// # Validity
    /// Water activities from 0.05, as far as the solution stays within 95 °Brix and saturated salt.
    ///
    /// # Errors
    /// [`PhysicsError::OutsideValidity`] for a water activity or temperature out of range;
    /// [`PhysicsError::Impossible`] when nothing is dissolved or no such strength is within range.
    ///
    /// # Source
    /// As [`Solution::water_activity`].
    pub fn factor_at_water_activity(
        &self,
        water_activity: f64,
        temperature: Temperature,
    ) -> Result<f64, PhysicsError> {
        TEMPERATURE_RANGE.check(temperature.celsius())?;
        self.factor_at(ACTIVITY_RANGE.check(water_activity)?.ln(), temperature)
    }

    fn factor_at(&self, log_target: f64, temperature: Temperature) -> Result<f64, PhysicsError> {
        let what = "a strength with that water activity";
        let distance = |f: f64| self.log_activity(f, temperature) - log_target;
        let largest = self.largest_factor();
        let at_one = self.log_activity(1.0, temperature);
        if at_one >= 0.0 || distance(largest.min(f64::MAX)) > 0.0 {
            let because = "the solution cannot be made that strong".into();
            return Err(PhysicsError::Impossible { what, because });
        }
        let mut f = (log_target / at_one).min(largest);
        let mut before = 0.9 * f;
        let mut distance_before = distance(before);
        for _ in 0..MAX_STEPS {
            let here = distance(f);
            let rise = here - distance_before;
            if rise.abs() < f64::MIN_POSITIVE {
                break;
            }
            let next = f - here * (f - before) / rise;
            (before, distance_before) = (f, here);
            f = next.clamp(0.0, largest);
            if (f - before).abs() <= SETTLED * f {
                return Ok(f);
            }
        }
        root(what, 0.0, largest, SETTLED, distance)
    }

    /// Returns the factor by which the liquid is concentrated when ice has frozen out of it down to
    /// a temperature: the freezing curve read backwards.
    ///
    /// `aw(f, t) = ai(t)`; of the water, `1 - 1/f` is ice.
    ///
    /// # Units
    /// t \[K\], f [-].
    ///
    /// # Validity
    /// -35 to 0 °C, at equilibrium; sugars are taken not to crystallise.
    ///
    /// # Errors
    /// [`PhysicsError::OutsideValidity`] outside -35 to 0 °C, or when the liquid left would hold more
    /// salt than its eutectic; [`PhysicsError::Impossible`] as
    /// [`Solution::factor_at_water_activity`].
    ///
    /// # Source
    /// As [`Solution::freezing_point`].
    pub fn factor_at_freezing_point(&self, temperature: Temperature) -> Result<f64, PhysicsError> {
        ICE_RANGE.check(temperature.celsius())?;
        let factor = self.factor_at(log_ice_activity(temperature), temperature)?;
        SALT_RANGE.check(factor * self.salt_molality_mol_per_kg())?;
        Ok(factor)
    }

    /// Returns the share of the water that is ice at a temperature; zero above the freezing point.
    ///
    /// `share = 1 - 1/f`
    ///
    /// # Units
    /// t \[K\], share [kg/kg].
    ///
    /// # Validity
    /// As [`Solution::factor_at_freezing_point`].
    ///
    /// # Errors
    /// As [`Solution::factor_at_freezing_point`].
    ///
    /// # Source
    /// As [`Solution::freezing_point`].
    pub fn ice_share(&self, temperature: Temperature) -> Result<f64, PhysicsError> {
        if temperature.kelvin() >= ICE_POINT_KELVIN {
            return Ok(0.0);
        }
        let factor = self.factor_at_freezing_point(temperature)?;
        Ok((1.0 - 1.0 / factor).max(0.0))
    }

    /// Returns the factor by which the solution must be concentrated to boil at a temperature.
    ///
    /// `aw(f, t) = p / p_sat(t)`
    ///
    /// # Units
    /// t \[K\], p \[Pa\], f [-].
    ///
    /// # Validity
    /// As [`Solution::boiling_point`].
    ///
    /// # Errors
    /// [`PhysicsError::Impossible`] below the boiling point of water; as
    /// [`Solution::factor_at_water_activity`] otherwise.
    ///
    /// # Source
    /// As [`Solution::boiling_point`].
    pub fn factor_at_boiling_point(
        &self,
        temperature: Temperature,
        pressure: Pressure,
    ) -> Result<f64, PhysicsError> {
        BOILING_RANGE.check(pressure.kilopascals())?;
        TEMPERATURE_RANGE.check(temperature.celsius())?;
        let activity = pressure / water::saturation_pressure(temperature)?;
        if activity > 1.0 {
            let because = "that is below the boiling point of water at this pressure".into();
            return Err(PhysicsError::Impossible { what: "a boiling point", because });
        }
        self.factor_at_water_activity(activity, temperature)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::solutions::Solute;

    const ATMOSPHERE: Pressure = Pressure::from_pascals(101_325.0);

    #[test]
    fn pure_water_freezes_and_boils_where_it_should() {
        let water = Solution::syrup(0.0).unwrap();
        assert!(water.freezing_point().unwrap().celsius().abs() < 1e-3);
        assert!(water.boiling_point_rise(ATMOSPHERE).unwrap().kelvin().abs() < 1e-9);
    }

    #[test]
    fn points_outside_the_range_are_refused() {
        assert!(brix_at_freezing_point(Temperature::from_celsius(2.0)).is_err());
        let syrup = Solution::syrup(0.6).unwrap();
        assert!(ice_water_activity(Temperature::from_celsius(1.0)).is_err());
        assert!(ice_water_activity(Temperature::from_celsius(-50.0)).is_err());
        assert!(syrup.boiling_point(Pressure::from_pascals(100.0)).is_err());
        assert!(syrup.factor_at_water_activity(0.01, Temperature::from_celsius(20.0)).is_err());
        let cool = Temperature::from_celsius(80.0);
        assert!(syrup.factor_at_boiling_point(cool, ATMOSPHERE).is_err());
        let nothing = Solution::syrup(0.0).unwrap();
        assert!(nothing.factor_at_freezing_point(Temperature::from_celsius(-5.0)).is_err());
        let brine = Solution::from_shares(&[(Solute::Salt, 0.26)]).unwrap();
        assert!(brine.factor_at_freezing_point(Temperature::from_celsius(-30.0)).is_err());
        let glycerol = Solution::from_shares(&[(Solute::Glycerol, 0.8)]).unwrap();
        assert!(glycerol.freezing_point().is_err());
    }

    #[test]
    fn the_freezing_curve_runs_backwards() {
        for percent in 1..=65 {
            let syrup = Solution::syrup(0.01 * f64::from(percent)).unwrap();
            let t = syrup.freezing_point().unwrap();
            let factor = syrup.factor_at_freezing_point(t).unwrap();
            assert!((factor - 1.0).abs() < 1e-8, "{percent} °Brix: {factor}");
            let brix = brix_at_freezing_point(t).unwrap();
            assert!((brix - 0.01 * f64::from(percent)).abs() < 1e-9);
        }
    }

    #[test]
    fn the_boiling_curve_runs_backwards() {
        for percent in [5, 30, 60, 80, 90] {
            for kilopascals in [2.0, 20.0, 101.325, 200.0] {
                let pressure = Pressure::from_kilopascals(kilopascals);
                let syrup = Solution::syrup(0.01 * f64::from(percent)).unwrap();
                let t = syrup.boiling_point(pressure).unwrap();
                let factor = syrup.factor_at_boiling_point(t, pressure).unwrap();
                assert!((factor - 1.0).abs() < 1e-8, "{percent} °Brix, {kilopascals} kPa");
            }
        }
    }

    #[test]
    fn no_property_is_lost_within_its_range() {
        for percent in 0..=90 {
            let syrup = Solution::syrup(0.01 * f64::from(percent)).unwrap();
            for degrees in -35..=150 {
                let t = Temperature::from_celsius(f64::from(degrees));
                let aw = syrup.water_activity(t).unwrap();
                assert!(aw > 0.0 && aw <= 1.0);
            }
            let mut before = 0.0;
            for kilopascals in [1.0, 2.0, 5.0, 20.0, 60.0, 101.325, 200.0] {
                let pressure = Pressure::from_kilopascals(kilopascals);
                let rise = syrup.boiling_point_rise(pressure).unwrap().kelvin();
                assert!(rise >= before, "{percent} °Brix, {kilopascals} kPa");
                before = rise;
            }
        }
    }

    #[test]
    fn colder_means_more_ice() {
        let juice = Solution::from_shares(&[
            (Solute::Glucose, 0.03),
            (Solute::Fructose, 0.04),
            (Solute::Sucrose, 0.04),
            (Solute::CitricAcid, 0.01),
        ])
        .unwrap();
        let mut before = 0.0;
        for degrees in 2..=30 {
            let share = juice.ice_share(Temperature::from_celsius(-f64::from(degrees))).unwrap();
            assert!(share > before && share < 1.0);
            before = share;
        }
        assert!(juice.ice_share(Temperature::from_celsius(5.0)).unwrap() <= 0.0);
    }
}
