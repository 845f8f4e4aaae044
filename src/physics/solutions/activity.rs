//! Water activity of a solution of sugars, acids, salt and protein.
//!
//! Symbols: x mole fraction of all dissolved molecules, y = Σ √K_i x_i, xs mole fraction of sucrose,
//! m molality of salt, t temperature \[K\].

use super::solute::Solute;
use crate::physics::brine;
use crate::physics::constants::{SUCROSE_MOLAR_MASS, WATER_MOLAR_MASS};
use crate::physics::{PhysicsError, Validity, positive};
use crate::quantity::{Mass, Temperature};

/// Coefficients a and b of the sucrose equation: Starzak & Peacock 1997.
const SUCROSE_A: f64 = -1.003_8;
/// See [`SUCROSE_A`].
const SUCROSE_B: f64 = -0.246_53;
/// Temperature of the Norrish constants \[K\].
const REFERENCE_KELVIN: f64 = 298.15;
/// Water in a kilogram of water [mol/kg].
const WATER_MOLES: f64 = 1.0 / WATER_MOLAR_MASS;

pub(super) const TEMPERATURE_RANGE: Validity = Validity {
    law: "the water activity of a solution",
    quantity: "temperature",
    low: -35.0,
    high: 150.0,
    unit: "°C",
};
const BRIX_RANGE: Validity = Validity {
    law: "the water activity of a syrup",
    quantity: "sugar share",
    low: 0.0,
    high: 0.95,
    unit: "kg/kg",
};
const SALT_RANGE: Validity = Validity {
    law: "the water activity of a solution",
    quantity: "salt in its water",
    low: 0.0,
    high: brine::MAX_MOLALITY_MOL_PER_KG,
    unit: "mol/kg",
};
/// Dissolved mass per mass of water: 95 °Brix.
const LOAD_RANGE: Validity = Validity {
    law: "the water activity of a solution",
    quantity: "dissolved mass per mass of water",
    low: 0.0,
    high: 19.0,
    unit: "kg/kg",
};

/// What is dissolved in a kilogram of water, summed so that every property costs the same however
/// many solutes there are.
///
/// A solution without [`Solute::Salt`] keeps its shape when water is taken away or added:
/// [`Solution::concentrated`] multiplies all amounts by one factor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Solution {
    /// Dissolved mass per mass of water.
    load: f64,
    /// Molecules other than salt [mol/kg].
    particles: f64,
    /// Σ √K_i n_i [mol/kg].
    weighted: f64,
    /// Sucrose [mol/kg].
    sucrose: f64,
    /// Salt [mol/kg].
    salt: f64,
}

impl Solution {
    /// Makes a solution from what is dissolved in a mass of water.
    ///
    /// # Errors
    /// [`PhysicsError::NotPositive`] without water; [`PhysicsError::OutsideValidity`] for a
    /// negative or an excessive amount of a solute.
    pub fn in_water(water: Mass, solutes: &[(Solute, Mass)]) -> Result<Self, PhysicsError> {
        let water = positive("water", water.kilograms(), "kg")?;
        let mut sum = Self { load: 0.0, particles: 0.0, weighted: 0.0, sucrose: 0.0, salt: 0.0 };
        for (solute, mass) in solutes {
            let per_water = LOAD_RANGE.check(mass.kilograms() / water)?;
            let action = solute.action();
            sum.load += per_water;
            sum.particles += per_water * action.particles;
            sum.weighted += per_water * action.weighted;
            match solute {
                Solute::Sucrose => sum.sucrose += per_water / SUCROSE_MOLAR_MASS,
                Solute::Salt => {
                    let molar_mass = brine::Salt::SodiumChloride.molar_mass_kg_per_mol();
                    sum.salt += per_water / molar_mass;
                }
                _ => {}
            }
        }
        LOAD_RANGE.check(sum.load)?;
        SALT_RANGE.check(sum.salt)?;
        Ok(sum)
    }

    /// Makes a solution from mass shares; what they leave to one is water.
    ///
    /// # Errors
    /// As [`Solution::in_water`]; shares that sum to one or more leave no water.
    pub fn from_shares(shares: &[(Solute, f64)]) -> Result<Self, PhysicsError> {
        let dissolved: f64 = shares.iter().map(|(_, share)| share).sum();
        let water = positive("water", 1.0 - dissolved, "kg/kg")?;
        let empty = Self::in_water(Mass::from_kilograms(water), &[])?;
        shares.iter().try_fold(empty, |sum, (solute, share)| {
            let one = [(*solute, Mass::from_kilograms(*share))];
            sum.joined(&Self::in_water(Mass::from_kilograms(water), &one)?)
        })
    }

    /// Makes a syrup of sucrose in water.
    ///
    /// # Errors
    /// [`PhysicsError::OutsideValidity`] for a share outside 0 to 0.95.
    pub fn syrup(brix: f64) -> Result<Self, PhysicsError> {
        let brix = BRIX_RANGE.check(brix)?;
        Self::in_water(
            Mass::from_kilograms(1.0 - brix),
            &[(Solute::Sucrose, Mass::from_kilograms(brix))],
        )
    }

    fn joined(&self, other: &Self) -> Result<Self, PhysicsError> {
        let sum = Self {
            load: self.load + other.load,
            particles: self.particles + other.particles,
            weighted: self.weighted + other.weighted,
            sucrose: self.sucrose + other.sucrose,
            salt: self.salt + other.salt,
        };
        LOAD_RANGE.check(sum.load)?;
        SALT_RANGE.check(sum.salt)?;
        Ok(sum)
    }

    /// Returns the solution after all amounts per water are multiplied by a factor: above one when
    /// water leaves as ice or steam.
    #[must_use]
    pub fn concentrated(&self, factor: f64) -> Self {
        Self {
            load: self.load * factor,
            particles: self.particles * factor,
            weighted: self.weighted * factor,
            sucrose: self.sucrose * factor,
            salt: self.salt * factor,
        }
    }

    /// Returns the dissolved mass as a share of the solution.
    pub fn dissolved_share(&self) -> f64 {
        self.load / (1.0 + self.load)
    }

    /// Returns the dissolved mass per mass of water.
    pub fn dissolved_per_water(&self) -> f64 {
        self.load
    }

    /// Returns the salt per water [mol/kg].
    pub(super) fn salt_molality_mol_per_kg(&self) -> f64 {
        self.salt
    }

    /// Returns the largest factor by which the solution can be concentrated within validity.
    pub(super) fn largest_factor(&self) -> f64 {
        let by_load = LOAD_RANGE.high / self.load.max(f64::MIN_POSITIVE);
        let by_salt = SALT_RANGE.high / self.salt.max(f64::MIN_POSITIVE);
        by_load.min(by_salt)
    }

    /// Returns the natural logarithm of the water activity at a concentration, without checks.
    pub(super) fn log_activity(&self, factor: f64, temperature: Temperature) -> f64 {
        let moles = WATER_MOLES + factor * self.particles;
        let x = factor * self.particles / moles;
        let y = factor * self.weighted / moles;
        let xs = factor * self.sucrose / moles;
        let bend = 1.0 + SUCROSE_A * xs + SUCROSE_B * xs * xs;
        let excess = -(REFERENCE_KELVIN / temperature.kelvin()) * y * y * bend;
        let salt = brine::log_water_activity(factor * self.salt, temperature);
        (-x).ln_1p() + excess + salt
    }

    /// Returns the water activity of the solution.
    ///
    /// `ln aw = ln(1 - x) - (298.15/t) y² (1 + a xs + b xs²) + ln aw_salt(m)`, the sucrose equation of
    /// Starzak and Peacock when sucrose is alone, Norrish's for other solutes, joined by summing
    /// √K x; salt multiplies in, as Ross found.
    ///
    /// # Units
    /// t \[K\], aw [-].
    ///
    /// # Validity
    /// -35 to 150 °C, to 95 °Brix. Sucrose alone: 0.003 to 60 °Brix, 0.01 to 85. Mixtures: about
    /// 0.01 above aw 0.8. Acids are taken as undissociated.
    ///
    /// # Errors
    /// [`PhysicsError::OutsideValidity`] for a temperature out of range.
    ///
    /// # Source
    /// M. Starzak & S. D. Peacock, Zuckerindustrie 122 (1997) 380, constants as restated by
    /// cultures-sucre.com; Norrish 1966; K. D. Ross, Food Technol. 29 (1975) 26.
    pub fn water_activity(&self, temperature: Temperature) -> Result<f64, PhysicsError> {
        TEMPERATURE_RANGE.check(temperature.celsius())?;
        Ok(self.log_activity(1.0, temperature).exp())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const ROOM: Temperature = Temperature::from_celsius(25.0);

    #[test]
    fn impossible_compositions_are_refused() {
        assert!(Solution::syrup(0.97).is_err());
        assert!(Solution::syrup(-0.1).is_err());
        assert!(Solution::from_shares(&[(Solute::Sucrose, 0.6), (Solute::Glucose, 0.4)]).is_err());
        assert!(Solution::from_shares(&[(Solute::Salt, 0.35)]).is_err());
        assert!(Solution::in_water(Mass::ZERO, &[]).is_err());
        let syrup = Solution::syrup(0.5).unwrap();
        assert!(syrup.water_activity(Temperature::from_celsius(-60.0)).is_err());
    }

    #[test]
    fn every_solute_lowers_the_water_activity() {
        for solute in Solute::ALL {
            let mut before = 1.0;
            for step in 1..=20 {
                let share = 0.01 * f64::from(step);
                let aw = Solution::from_shares(&[(solute, share)])
                    .unwrap()
                    .water_activity(ROOM)
                    .unwrap();
                assert!(aw < before && aw > 0.0, "{solute:?} {share}");
                before = aw;
            }
        }
    }

    #[test]
    fn a_mixture_lies_between_its_parts() {
        let of = |shares: &[(Solute, f64)]| {
            Solution::from_shares(shares).unwrap().water_activity(ROOM).unwrap()
        };
        let mixed = of(&[(Solute::Sucrose, 0.2), (Solute::Glucose, 0.2)]);
        assert!(mixed < of(&[(Solute::Sucrose, 0.4)]));
        assert!(mixed > of(&[(Solute::Glucose, 0.4)]));
    }

    #[test]
    fn concentrating_a_syrup_is_a_stronger_syrup() {
        let weak = Solution::syrup(0.2).unwrap().concentrated(6.0);
        let strong = Solution::syrup(0.6).unwrap();
        assert!((weak.dissolved_share() - strong.dissolved_share()).abs() < 1e-12);
        let difference = weak.water_activity(ROOM).unwrap() - strong.water_activity(ROOM).unwrap();
        assert!(difference.abs() < 1e-12);
    }
}
