//! A cold bath of ice, table salt and water.
//!
//! Symbols: m mass, w salt share of the brine, t temperature [°C], l latent heat of ice, q heat of
//! dissolving salt, c heat capacity.

use super::freezing::{Salt, eutectic_share, eutectic_temperature, share_at_freezing_point};
use crate::physics::solve::root;
use crate::physics::{PhysicsError, positive};
use crate::quantity::{Energy, Mass, Temperature};

/// Latent heat of melting ice at 0 °C [J/kg]: IAPWS R10-06(2009).
const ICE_LATENT_HEAT: f64 = 333_430.0;
/// Fall of the latent heat per kelvin below 0 °C [J/(kg K)]: heat capacity of supercooled water
/// less that of ice, 4220 - 2100, handbook values at 0 °C.
const LATENT_HEAT_SLOPE: f64 = 2_120.0;
/// Heat capacity of ice near -5 °C [J/(kg K)]: IAPWS R10-06(2009).
const ICE_HEAT_CAPACITY: f64 = 2_060.0;
/// Heat capacity of liquid water [J/(kg K)]: IAPWS R7-97 at 10 °C.
const WATER_HEAT_CAPACITY: f64 = 4_190.0;
/// Heat capacity of dry salt [J/(kg K)]: CRC Handbook of Chemistry and Physics (from memory).
const SALT_HEAT_CAPACITY: f64 = 860.0;
/// Fall of the heat capacity of brine per unit of salt share [J/(kg K)]: 3.4 kJ/(kg K) at 20 %
/// (ASHRAE Handbook Fundamentals, secondary coolants, from memory).
const BRINE_HEAT_CAPACITY_FALL: f64 = 3_950.0;
/// Heat taken up when salt dissolves [J/kg]: 3.88 kJ/mol at infinite dilution (CRC Handbook, from
/// memory), which falls to about half at saturation; the mean is taken.
const DISSOLVING_HEAT: f64 = 50_000.0;

/// What goes into a cold bath.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bath {
    /// Ice.
    pub ice: Mass,
    /// Table salt.
    pub salt: Mass,
    /// Water.
    pub water: Mass,
    /// Temperature of the ice, at or below 0 °C.
    pub ice_temperature: Temperature,
    /// Temperature of the water and of the salt.
    pub water_temperature: Temperature,
}

/// A bath that has been stirred until it is even.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ColdBath {
    /// Its temperature.
    pub temperature: Temperature,
    /// The ice left.
    pub ice: Mass,
    /// The salt share of its brine.
    pub brine_share: f64,
    /// The salt that found no water to dissolve in.
    pub undissolved: Mass,
    water: Mass,
    salt: Mass,
}

impl Bath {
    /// Returns the bath after stirring, without heat from outside.
    ///
    /// Ice melts into the salt until the brine freezes at the temperature of the bath:
    /// `m_melted l(t) + m_s q = (m_w c_w + m_s c_s) (t_w - t) + m_i c_i (t_i - t)`, with
    /// `t = t_freezing(w)`, `w = m_salt / (m_salt + m_water + m_melted)`.
    ///
    /// # Units
    /// Masses \[kg\], temperatures [°C], heats \[J\].
    ///
    /// # Validity
    /// Heats are constant, so the melted ice is good to about 5 %, the temperature to about 0.5 K.
    /// A bath with more salt than its brine can hold rests at the eutectic.
    ///
    /// # Errors
    /// [`PhysicsError::NotPositive`] without ice or salt; [`PhysicsError::Impossible`] when all ice
    /// melts, or when the ice comes in warmer than 0 °C or colder than the eutectic.
    ///
    /// # Source
    /// Energy balance; freezing curve as [`super::freezing_point`].
    pub fn mixed(&self) -> Result<ColdBath, PhysicsError> {
        const TOLERANCE: f64 = 1e-13;
        const WARMEST_CELSIUS: f64 = -1e-6;
        positive("ice", self.ice.kilograms(), "kg")?;
        positive("salt", self.salt.kilograms(), "kg")?;
        let lowest = eutectic_temperature(Salt::SodiumChloride);
        if self.ice_temperature.celsius() > 0.0 || self.ice_temperature < lowest {
            let because = "the ice must come in between the eutectic and 0 °C".into();
            return Err(PhysicsError::Impossible { what: "an ice-salt bath", because });
        }
        if self.surplus(lowest) >= 0.0 {
            return self.at_eutectic(lowest);
        }
        let balance = |celsius: f64| self.surplus(Temperature::from_celsius(celsius));
        let t = root("a cold bath", lowest.celsius(), WARMEST_CELSIUS, TOLERANCE, balance)?;
        self.state_at(Temperature::from_celsius(t))
    }

    /// The ice that must have melted for the brine to freeze at `temperature` \[kg\].
    fn melted_at(&self, temperature: Temperature) -> f64 {
        self.salt.kilograms() * (1.0 / share_on_curve(temperature) - 1.0) - self.water.kilograms()
    }

    /// The heat that melting and dissolving at `temperature` would take up beyond what cooling the
    /// contents gives \[J\]; negative when the bath cannot get so cold.
    fn surplus(&self, temperature: Temperature) -> f64 {
        let taken = self.melted_at(temperature) * latent_heat(temperature)
            + self.salt.kilograms() * DISSOLVING_HEAT;
        taken - self.given_up(temperature)
    }

    /// The heat that the contents give up in cooling to `temperature` \[J\].
    fn given_up(&self, temperature: Temperature) -> f64 {
        let wet = self.water.kilograms() * WATER_HEAT_CAPACITY
            + self.salt.kilograms() * SALT_HEAT_CAPACITY;
        wet * (self.water_temperature - temperature).kelvin()
            + self.ice.kilograms()
                * ICE_HEAT_CAPACITY
                * (self.ice_temperature - temperature).kelvin()
    }

    /// The bath at its eutectic, where only part of the salt may dissolve.
    fn at_eutectic(&self, temperature: Temperature) -> Result<ColdBath, PhysicsError> {
        let share = eutectic_share(Salt::SodiumChloride);
        let latent = latent_heat(temperature);
        let water_per_salt = 1.0 / share - 1.0;
        let heat = self.given_up(temperature) + self.water.kilograms() * latent;
        let dissolved = heat / (water_per_salt * latent + DISSOLVING_HEAT);
        let water = water_per_salt * dissolved;
        let ice = self.ice.kilograms() + self.water.kilograms() - water;
        if ice < 0.0 {
            return Err(all_melts());
        }
        Ok(ColdBath {
            temperature,
            ice: Mass::from_kilograms(ice),
            brine_share: share,
            undissolved: self.salt - Mass::from_kilograms(dissolved),
            water: Mass::from_kilograms(water),
            salt: self.salt,
        })
    }

    fn state_at(&self, temperature: Temperature) -> Result<ColdBath, PhysicsError> {
        let melted = self.melted_at(temperature);
        let ice = self.ice.kilograms() - melted;
        if ice < 0.0 {
            return Err(all_melts());
        }
        Ok(ColdBath {
            temperature,
            ice: Mass::from_kilograms(ice),
            brine_share: share_on_curve(temperature),
            undissolved: Mass::ZERO,
            water: self.water + Mass::from_kilograms(melted),
            salt: self.salt,
        })
    }
}

impl ColdBath {
    /// Returns the heat that the bath takes up before it is warmer than a limit.
    ///
    /// `q = m_melted l + m_undissolved q_s + (m_ice c_i + m_brine c_b) (t_limit - t)`, where the ice
    /// that melts dilutes the brine to the freezing point `t_limit`, or all of it melts first.
    ///
    /// # Units
    /// Temperature [°C], heat \[J\].
    ///
    /// # Validity
    /// As [`Bath::mixed`]; an even bath, so that no warm layer forms.
    ///
    /// # Errors
    /// [`PhysicsError::Impossible`] for a limit below the temperature of the bath or above 0 °C.
    ///
    /// # Source
    /// Energy balance; freezing curve as [`super::freezing_point`].
    pub fn heat_until(&self, limit: Temperature) -> Result<Energy, PhysicsError> {
        if limit < self.temperature || limit.celsius() >= 0.0 {
            let because =
                format!("the limit must lie between {:.1} °C and 0 °C", self.temperature.celsius());
            return Err(PhysicsError::Impossible { what: "a limit for the cold bath", because });
        }
        let share = share_on_curve(limit);
        let (ice, water) = (self.ice.kilograms(), self.water.kilograms());
        let needed = self.salt.kilograms() * (1.0 / share - 1.0) - water;
        let melted = needed.clamp(0.0, ice);
        let rise = (limit - self.temperature).kelvin();
        let brine = water + self.salt.kilograms() + melted;
        let capacity = (ice - melted) * ICE_HEAT_CAPACITY
            + brine * (WATER_HEAT_CAPACITY - BRINE_HEAT_CAPACITY_FALL * share);
        let heat = melted * latent_heat(self.temperature)
            + self.undissolved.kilograms() * DISSOLVING_HEAT
            + capacity * rise;
        Ok(Energy::from_joules(heat))
    }
}

/// Latent heat of ice that melts into brine at `temperature` [J/kg].
fn latent_heat(temperature: Temperature) -> f64 {
    ICE_LATENT_HEAT + LATENT_HEAT_SLOPE * temperature.celsius()
}

/// The salt share of brine in equilibrium with ice; that of the eutectic below the curve's end.
fn share_on_curve(temperature: Temperature) -> f64 {
    share_at_freezing_point(Salt::SodiumChloride, temperature)
        .unwrap_or(eutectic_share(Salt::SodiumChloride))
}

fn all_melts() -> PhysicsError {
    let because = "all the ice melts; take more ice or colder water".into();
    PhysicsError::Impossible { what: "an ice-salt bath", because }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bath(ice: f64, salt: f64, water: f64) -> Bath {
        Bath {
            ice: Mass::from_kilograms(ice),
            salt: Mass::from_kilograms(salt),
            water: Mass::from_kilograms(water),
            ice_temperature: Temperature::from_celsius(-5.0),
            water_temperature: Temperature::from_celsius(10.0),
        }
    }

    #[test]
    fn the_classic_bath_rests_at_the_eutectic() {
        let cold = bath(1.0, 0.33, 0.0).mixed().unwrap();
        assert!((cold.temperature.celsius() + 21.2).abs() < 1e-9);
        assert!(cold.undissolved.kilograms() > 0.0);
    }

    #[test]
    fn less_salt_and_more_water_make_a_warmer_bath() {
        let strong = bath(1.0, 0.06, 0.2).mixed().unwrap();
        let weak = bath(1.0, 0.04, 0.2).mixed().unwrap();
        let wet = bath(1.0, 0.06, 0.5).mixed().unwrap();
        assert!(strong.temperature < weak.temperature);
        assert!(strong.temperature < wet.temperature);
        let salt = strong.brine_share * (strong.water + strong.salt).kilograms();
        assert!((salt - 0.06).abs() < 1e-9);
    }

    #[test]
    fn the_heat_taken_up_grows_with_the_limit() {
        let cold = bath(1.0, 0.2, 0.2).mixed().unwrap();
        let mut before = -1.0;
        for step in 1..10 {
            let limit = cold.temperature.celsius() * (1.0 - f64::from(step) / 10.0);
            let heat = cold.heat_until(Temperature::from_celsius(limit)).unwrap().joules();
            assert!(heat > before);
            before = heat;
        }
    }

    #[test]
    fn a_bath_that_cannot_be_is_refused() {
        assert!(bath(0.0, 0.1, 1.0).mixed().is_err());
        assert!(bath(1.0, 0.0, 1.0).mixed().is_err());
        assert!(bath(0.1, 0.3, 3.0).mixed().is_err());
        let mut warm = bath(1.0, 0.1, 0.0);
        warm.ice_temperature = Temperature::from_celsius(2.0);
        assert!(warm.mixed().is_err());
        let cold = bath(1.0, 0.2, 0.2).mixed().unwrap();
        assert!(cold.heat_until(Temperature::from_celsius(-40.0)).is_err());
        assert!(cold.heat_until(Temperature::from_celsius(1.0)).is_err());
    }
}
