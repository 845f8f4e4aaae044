//! Solubility of carbon dioxide and nitrous oxide by Henry's law.
//!
//! Symbols: t temperature \[K\], k0 solubility, p partial pressure, f fugacity, b second virial
//! coefficient, v molar volume of the dissolved gas, c concentration.

use crate::physics::constants::{GAS_CONSTANT, STANDARD_ATMOSPHERE, WATER_MOLAR_MASS};
use crate::physics::cryogen::Gas;
use crate::physics::{PhysicsError, Validity, water};
use crate::quantity::{Density, Pressure, Temperature};

/// A gas that makes drinks fizz or creams foam.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SolubleGas {
    /// Carbon dioxide.
    CarbonDioxide,
    /// Nitrous oxide.
    NitrousOxide,
}

/// Coefficients of ln k0 by 1, 100/t and ln(t/100), k0 in mol/(L atm).
///
/// R. F. Weiss, Marine Chemistry 2 (1974) 203, table 1 (from memory; 25 °C agrees with R. Sander,
/// Atmos. Chem. Phys. 15 (2015) 4399).
const CARBON_DIOXIDE: [f64; 3] = [-58.093_1, 90.506_9, 22.294_0];
/// R. F. Weiss & B. A. Price, Marine Chemistry 8 (1980) 347, table 2 (from memory, as above).
const NITROUS_OXIDE: [f64; 3] = [-62.706_2, 97.306_6, 24.140_6];
/// Second virial coefficient of carbon dioxide [cm³/mol] by powers of t: Weiss 1974, equation 6.
const CARBON_DIOXIDE_VIRIAL: [f64; 4] = [-1_636.75, 12.040_8, -0.032_795_7, 3.165_28e-5];
/// Second virial coefficient of nitrous oxide [cm³/mol]: Weiss & Price 1980, equation 4.
const NITROUS_OXIDE_VIRIAL: [f64; 4] = [-905.95, 4.168_5, -0.005_273_4, 0.0];
/// Molar volume of the dissolved gas [m³/mol]: Weiss 1974; Weiss & Price 1980 take the same.
const DISSOLVED_VOLUME: f64 = 32.3e-6;
/// Cubic metres in a cubic centimetre.
const CUBIC_CENTIMETRE: f64 = 1e-6;
/// From mol/(L atm) to mol/(m³ Pa).
const PER_LITRE_ATMOSPHERE: f64 = 1_000.0 / STANDARD_ATMOSPHERE;

const TEMPERATURE_RANGE: Validity = Validity {
    law: "the solubility of carbon dioxide and nitrous oxide",
    quantity: "temperature",
    low: -1.0,
    high: 40.0,
    unit: "°C",
};
const PRESSURE_RANGE: Validity = Validity {
    law: "the solubility of carbon dioxide and nitrous oxide",
    quantity: "partial pressure",
    low: 0.0,
    high: 2_000.0,
    unit: "kPa",
};

impl SolubleGas {
    /// Returns the gas as [`Gas`].
    pub const fn gas(self) -> Gas {
        match self {
            Self::CarbonDioxide => Gas::CarbonDioxide,
            Self::NitrousOxide => Gas::NitrousOxide,
        }
    }

    fn virial(self, t: f64) -> f64 {
        let terms = match self {
            Self::CarbonDioxide => CARBON_DIOXIDE_VIRIAL,
            Self::NitrousOxide => NITROUS_OXIDE_VIRIAL,
        };
        CUBIC_CENTIMETRE * terms.iter().rev().fold(0.0, |sum, b| sum * t + b)
    }
}

/// What a drink holds beside water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drink {
    /// Sugar per volume.
    pub sugar: Density,
    /// Alcohol by volume, as a share.
    pub alcohol: f64,
}

impl Drink {
    /// Plain water.
    pub const WATER: Self = Self { sugar: Density::ZERO, alcohol: 0.0 };

    /// Returns the solubility of carbon dioxide relative to plain water.
    ///
    /// `share = (1 - 0.01 A / 0.86) (1 - 0.00144 S)`, A in % by volume, S in g/L
    ///
    /// # Units
    /// A [share, written here in %], S [kg/m³], share [-].
    ///
    /// # Validity
    /// Wines at 20 °C: to 15 % alcohol and 200 g/L sugar. At other temperatures and for nitrous
    /// oxide it is an estimate. Spirits dissolve more gas than water does and are refused.
    ///
    /// # Errors
    /// [`PhysicsError::OutsideValidity`] beyond those limits.
    ///
    /// # Source
    /// Commission Regulation (EEC) No 2676/90, annex, overpressure in sparkling wine, formula for the
    /// carbon dioxide content (restated by a parallel-text collection).
    pub fn relative_solubility(&self) -> Result<f64, PhysicsError> {
        const ALCOHOL: Validity = Validity {
            law: "the solubility of carbon dioxide in wine",
            quantity: "alcohol by volume",
            low: 0.0,
            high: 0.15,
            unit: "",
        };
        const SUGAR: Validity = Validity {
            law: "the solubility of carbon dioxide in wine",
            quantity: "sugar",
            low: 0.0,
            high: 200.0,
            unit: "g/L",
        };
        /// Volumes of gas at 20 °C in water, and their fall per % alcohol and per g/L sugar.
        const WINE: (f64, f64, f64) = (0.86, 0.01, 0.001_44);
        const PER_CENT: f64 = 100.0;
        let alcohol = PER_CENT * ALCOHOL.check(self.alcohol)?;
        let sugar = SUGAR.check(self.sugar.kilograms_per_cubic_metre())?;
        Ok((1.0 - WINE.1 * alcohol / WINE.0) * (1.0 - WINE.2 * sugar))
    }
}

/// Returns the solubility of a gas in water at infinite dilution [mol/(m³ Pa)].
///
/// `ln k0 = a1 + a2 100/t + a3 ln(t/100)`
///
/// # Units
/// t \[K\], k0 [mol/(m³ Pa)] of fugacity.
///
/// # Validity
/// -1 to 40 °C, within 0.3 %.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside that range.
///
/// # Source
/// R. F. Weiss, Marine Chemistry 2 (1974) 203; R. F. Weiss & B. A. Price, Marine Chemistry 8 (1980)
/// 347.
pub fn henry_solubility(gas: SolubleGas, temperature: Temperature) -> Result<f64, PhysicsError> {
    TEMPERATURE_RANGE.check(temperature.celsius())?;
    Ok(solubility(gas, temperature.kelvin()))
}

fn solubility(gas: SolubleGas, t: f64) -> f64 {
    let [a1, a2, a3] = match gas {
        SolubleGas::CarbonDioxide => CARBON_DIOXIDE,
        SolubleGas::NitrousOxide => NITROUS_OXIDE,
    };
    let hundreds = t / 100.0;
    PER_LITRE_ATMOSPHERE * (a1 + a2 / hundreds + a3 * hundreds.ln()).exp()
}

/// Returns Henry's constant as fugacity per mole fraction \[Pa\].
///
/// `h = rho_w / (m_w k0)`; for carbon dioxide above 40 °C [`carbon_dioxide_volatility`].
///
/// # Units
/// t \[K\], h \[Pa\].
///
/// # Validity
/// -1 to 40 °C.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside that range.
///
/// # Source
/// As [`henry_solubility`].
pub fn henry_volatility(
    gas: SolubleGas,
    temperature: Temperature,
) -> Result<Pressure, PhysicsError> {
    let water = water::saturated_liquid_density(temperature.max(Temperature::from_celsius(0.01)))?;
    let moles = water.kilograms_per_cubic_metre() / WATER_MOLAR_MASS;
    Ok(Pressure::from_pascals(moles / henry_solubility(gas, temperature)?))
}

/// Returns Henry's constant of carbon dioxide in water as fugacity per mole fraction.
///
/// `ln(h / MPa) = -6.8346 + 1.2817e4/t - 3.7668e6/t² + 2.997e8/t³`
///
/// # Units
/// t \[K\], h \[Pa\].
///
/// # Validity
/// 0 to 160 °C.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside that range.
///
/// # Source
/// J. J. Carroll, J. D. Slupsky & A. E. Mather, J. Phys. Chem. Ref. Data 20 (1991) 1201.
pub fn carbon_dioxide_volatility(temperature: Temperature) -> Result<Pressure, PhysicsError> {
    const RANGE: Validity = Validity {
        law: "the volatility of carbon dioxide in water",
        quantity: "temperature",
        low: 0.0,
        high: 160.0,
        unit: "°C",
    };
    const MEGAPASCAL: f64 = 1e6;
    RANGE.check(temperature.celsius())?;
    let t = temperature.kelvin();
    let log = -6.834_6 + 1.281_7e4 / t - 3.766_8e6 / (t * t) + 2.997e8 / (t * t * t);
    Ok(Pressure::from_pascals(MEGAPASCAL * log.exp()))
}

/// Returns the concentration of a gas in a drink under its partial pressure.
///
/// `c = m k0 p exp((b p - v (p - p0)) / (r t)) share`
///
/// # Units
/// t \[K\], p \[Pa\], c [kg/m³] = [g/L].
///
/// # Validity
/// -1 to 40 °C, to 2 MPa; within 1 % to 1 MPa in water. For drinks see
/// [`Drink::relative_solubility`].
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside those ranges.
///
/// # Source
/// As [`henry_solubility`].
pub fn dissolved(
    gas: SolubleGas,
    temperature: Temperature,
    partial_pressure: Pressure,
    drink: Drink,
) -> Result<Density, PhysicsError> {
    TEMPERATURE_RANGE.check(temperature.celsius())?;
    PRESSURE_RANGE.check(partial_pressure.kilopascals())?;
    let share = drink.relative_solubility()?;
    let c = concentration(gas, temperature.kelvin(), partial_pressure.pascals(), share);
    Ok(Density::from_kilograms_per_cubic_metre(c))
}

/// The concentration [kg/m³] without checks, for inner loops.
pub(super) fn concentration(gas: SolubleGas, t: f64, p: f64, share: f64) -> f64 {
    let work = gas.virial(t) * p - DISSOLVED_VOLUME * (p - STANDARD_ATMOSPHERE);
    let fugacity = p * (work / (GAS_CONSTANT * t)).exp();
    gas.gas().molar_mass_kg_per_mol() * solubility(gas, t) * fugacity * share
}

#[cfg(test)]
mod tests {
    use super::*;

    const GASES: [SolubleGas; 2] = [SolubleGas::CarbonDioxide, SolubleGas::NitrousOxide];

    #[test]
    fn values_outside_are_refused() {
        let (cold, hot) = (Temperature::from_celsius(5.0), Temperature::from_celsius(60.0));
        let bar = Pressure::from_bars(1.0);
        let spirit = Drink { alcohol: 0.4, ..Drink::WATER };
        let syrup = Drink { sugar: Density::from_si(500.0), ..Drink::WATER };
        for gas in GASES {
            assert!(henry_solubility(gas, hot).is_err());
            assert!(henry_volatility(gas, hot).is_err());
            assert!(dissolved(gas, hot, bar, Drink::WATER).is_err());
            assert!(dissolved(gas, cold, Pressure::from_bars(30.0), Drink::WATER).is_err());
            assert!(dissolved(gas, cold, bar, spirit).is_err());
            assert!(dissolved(gas, cold, bar, syrup).is_err());
        }
        assert!(carbon_dioxide_volatility(Temperature::from_celsius(-5.0)).is_err());
    }

    #[test]
    fn cold_and_pressure_dissolve_more_and_sugar_less() {
        let bar = Pressure::from_bars(2.0);
        let at = |gas, t: f64, p, drink| {
            dissolved(gas, Temperature::from_celsius(t), p, drink).unwrap().si()
        };
        let wine = Drink { sugar: Density::from_si(20.0), alcohol: 0.12 };
        for gas in GASES {
            for degrees in 0..40 {
                let t = f64::from(degrees);
                assert!(at(gas, t, bar, Drink::WATER) > at(gas, t + 1.0, bar, Drink::WATER));
                assert!(at(gas, t, bar * 1.1, Drink::WATER) > at(gas, t, bar, Drink::WATER));
                assert!(at(gas, t, bar, wine) < at(gas, t, bar, Drink::WATER));
            }
        }
    }

    #[test]
    fn the_two_laws_of_carbon_dioxide_agree() {
        for degrees in [0.0, 10.0, 25.0, 40.0] {
            let t = Temperature::from_celsius(degrees);
            let one = henry_volatility(SolubleGas::CarbonDioxide, t).unwrap();
            let other = carbon_dioxide_volatility(t).unwrap();
            assert!((one / other - 1.0).abs() < 0.03, "{degrees} °C: {}", one / other);
        }
    }
}
