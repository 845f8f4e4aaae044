//! Freezing curve and solubility of table salt and calcium chloride in water.
//!
//! Symbols: w mass share of anhydrous salt, t temperature [°C].

use crate::physics::solve::root;
use crate::physics::{PhysicsError, Validity};
use crate::quantity::Temperature;

/// The salts of kitchen brines.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Salt {
    /// Table salt, NaCl.
    SodiumChloride,
    /// Calcium chloride, CaCl₂, counted without its crystal water.
    CalciumChloride,
}

/// Molar mass of NaCl [kg/mol]: IUPAC atomic weights 2021.
const SODIUM_CHLORIDE_MOLAR_MASS: f64 = 0.058_443;
/// Molar mass of CaCl₂ [kg/mol]: IUPAC atomic weights 2021.
const CALCIUM_CHLORIDE_MOLAR_MASS: f64 = 0.110_98;

/// Freezing point [°C] of NaCl brine by powers of w, first to fifth: least squares through the
/// values of Melinder 2010 as given by CoolProp 8.0.0, INCOMP::MNA; largest residual 0.0004 K. Fit:
/// `tests/reference/scripts/cryogen_fit.py`.
const SODIUM_CHLORIDE_CURVE: [f64; 5] =
    [-59.524_828_56, -1.491_266_69, -611.166_017_81, 259.566_962_16, -54.934_445_58];
/// Freezing point [°C] of CaCl₂ brine, as above, INCOMP::MCA; largest residual 0.0008 K.
const CALCIUM_CHLORIDE_CURVE: [f64; 5] =
    [-48.795_597_84, 247.715_474_50, -5_478.311_695_99, 24_880.650_366_52, -44_974.960_727_72];

impl Salt {
    /// Returns the molar mass of the anhydrous salt [kg/mol].
    pub const fn molar_mass_kg_per_mol(self) -> f64 {
        match self {
            Self::SodiumChloride => SODIUM_CHLORIDE_MOLAR_MASS,
            Self::CalciumChloride => CALCIUM_CHLORIDE_MOLAR_MASS,
        }
    }

    const fn curve(self) -> &'static [f64; 5] {
        match self {
            Self::SodiumChloride => &SODIUM_CHLORIDE_CURVE,
            Self::CalciumChloride => &CALCIUM_CHLORIDE_CURVE,
        }
    }

    const fn range(self) -> Validity {
        Validity {
            law: "the freezing curve of the brine, up to its eutectic,",
            quantity: "salt share",
            low: 0.0,
            high: eutectic_share(self),
            unit: "kg/kg",
        }
    }
}

/// Returns the mass share of salt at which ice and salt freeze out together.
///
/// # Source
/// CRC Handbook of Chemistry and Physics, concentrative properties (from memory): NaCl 23.3 %;
/// CaCl₂ 30.2 % (sources give 29.6 to 32 %).
pub const fn eutectic_share(salt: Salt) -> f64 {
    match salt {
        Salt::SodiumChloride => 0.233,
        Salt::CalciumChloride => 0.302,
    }
}

/// Returns the lowest temperature at which the brine is still liquid.
///
/// # Source
/// CRC Handbook of Chemistry and Physics, concentrative properties (from memory): NaCl -21.2 °C;
/// CaCl₂ -49.8 °C (sources give -49.8 to -55 °C).
pub const fn eutectic_temperature(salt: Salt) -> Temperature {
    match salt {
        Salt::SodiumChloride => Temperature::from_celsius(-21.2),
        Salt::CalciumChloride => Temperature::from_celsius(-49.8),
    }
}

/// Returns the temperature at which ice begins to form in a brine.
///
/// `t = c1 w + c2 w² + c3 w³ + c4 w⁴ + c5 w⁵`
///
/// # Units
/// w [kg salt/kg brine], t [°C].
///
/// # Validity
/// From pure water to the eutectic. Within 0.1 K of the CRC table; the last per cent before the
/// eutectic of calcium chloride is uncertain by some kelvin.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] beyond the eutectic.
///
/// # Source
/// Å. Melinder, Properties of secondary working fluids for indirect systems, IIR, 2010, as given
/// by CoolProp 8.0.0.
pub fn freezing_point(salt: Salt, share: f64) -> Result<Temperature, PhysicsError> {
    let w = salt.range().check(share)?;
    Ok(Temperature::from_celsius(curve_at(salt, w)))
}

fn curve_at(salt: Salt, w: f64) -> f64 {
    w * salt.curve().iter().rev().fold(0.0, |sum, c| sum * w + c)
}

/// Returns the salt share of the brine that is in equilibrium with ice at a temperature.
///
/// The inverse of [`freezing_point`].
///
/// # Units
/// t [°C], w [kg/kg].
///
/// # Validity
/// From 0 °C to the freezing point of the eutectic share.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] above 0 °C or below the eutectic.
///
/// # Source
/// As [`freezing_point`].
pub fn share_at_freezing_point(salt: Salt, temperature: Temperature) -> Result<f64, PhysicsError> {
    const TOLERANCE: f64 = 1e-12;
    let coldest = curve_at(salt, eutectic_share(salt));
    let range =
        Validity { quantity: "temperature", low: coldest, high: 0.0, unit: "°C", ..salt.range() };
    let target = range.check(temperature.celsius())?.clamp(coldest, 0.0);
    let distance = |w: f64| curve_at(salt, w) - target;
    root("a brine that freezes there", 0.0, eutectic_share(salt), TOLERANCE, distance)
}

/// Solubility of NaCl [% by mass]: 26.28 at 0 °C, 26.4 at 20 °C, 28.2 at 100 °C; quadratic through
/// the three, CRC Handbook of Chemistry and Physics (from memory).
const SOLUBILITY: [f64; 3] = [0.262_8, 2.75e-5, 1.65e-6];
const SOLUBILITY_RANGE: Validity = Validity {
    law: "the solubility of sodium chloride",
    quantity: "temperature",
    low: 0.0,
    high: 100.0,
    unit: "°C",
};

/// Returns the mass share of table salt in a saturated brine.
///
/// # Units
/// Temperature [°C], share [kg/kg].
///
/// # Validity
/// 0 to 100 °C, within 0.2 percentage points.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside 0 to 100 °C.
///
/// # Source
/// CRC Handbook of Chemistry and Physics, aqueous solubility of inorganic compounds (from memory).
pub fn solubility_share(temperature: Temperature) -> Result<f64, PhysicsError> {
    let t = SOLUBILITY_RANGE.check(temperature.celsius())?;
    Ok(SOLUBILITY[0] + SOLUBILITY[1] * t + SOLUBILITY[2] * t * t)
}

/// Returns the molality of a brine from its mass share.
///
/// `m = w / ((1 - w) M)`
///
/// # Units
/// w [kg/kg], M [kg/mol], m [mol/kg water].
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for a share outside 0 to 0.99.
///
/// # Source
/// Definition.
pub fn molality(salt: Salt, share: f64) -> Result<f64, PhysicsError> {
    const SHARE: Validity =
        Validity { law: "a brine", quantity: "salt share", low: 0.0, high: 0.99, unit: "kg/kg" };
    let w = SHARE.check(share)?;
    Ok(w / ((1.0 - w) * salt.molar_mass_kg_per_mol()))
}

/// Returns the mass share of a brine from its molality.
///
/// `w = m M / (1 + m M)`
///
/// # Units
/// m [mol/kg water], M [kg/mol], w [kg/kg].
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for a molality outside 0 to 50 mol/kg.
///
/// # Source
/// Definition.
pub fn share_from_molality(salt: Salt, molality_mol_per_kg: f64) -> Result<f64, PhysicsError> {
    const MOLALITY: Validity =
        Validity { law: "a brine", quantity: "molality", low: 0.0, high: 50.0, unit: "mol/kg" };
    let mass = MOLALITY.check(molality_mol_per_kg)? * salt.molar_mass_kg_per_mol();
    Ok(mass / (1.0 + mass))
}

#[cfg(test)]
mod tests {
    use super::*;

    const SALTS: [Salt; 2] = [Salt::SodiumChloride, Salt::CalciumChloride];

    #[test]
    fn a_share_beyond_the_eutectic_is_refused() {
        assert!(freezing_point(Salt::SodiumChloride, 0.25).is_err());
        assert!(freezing_point(Salt::CalciumChloride, -0.01).is_err());
        assert!(molality(Salt::SodiumChloride, 1.0).is_err());
        assert!(share_from_molality(Salt::SodiumChloride, -1.0).is_err());
    }

    #[test]
    fn a_temperature_off_the_freezing_curve_is_refused() {
        assert!(share_at_freezing_point(SALTS[0], Temperature::from_celsius(1.0)).is_err());
        assert!(share_at_freezing_point(SALTS[0], Temperature::from_celsius(-30.0)).is_err());
        assert!(solubility_share(Temperature::from_celsius(-5.0)).is_err());
    }

    #[test]
    fn the_freezing_curve_falls_and_runs_backwards() {
        for salt in SALTS {
            let mut before = 0.1;
            for step in 1..=100 {
                let w = eutectic_share(salt) * f64::from(step) / 100.0;
                let t = freezing_point(salt, w).unwrap();
                assert!(t.celsius() < before);
                before = t.celsius();
                assert!((share_at_freezing_point(salt, t).unwrap() - w).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn share_and_molality_run_backwards() {
        let m = molality(Salt::CalciumChloride, 0.2).unwrap();
        assert!((share_from_molality(Salt::CalciumChloride, m).unwrap() - 0.2).abs() < 1e-12);
    }
}
