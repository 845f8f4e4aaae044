//! Ethanol alone: vapour pressure and heat of vaporisation; heat capacity of its mixtures.
//!
//! Symbols: t temperature, tr and theta reduced by the critical temperature, l heat of vaporisation.

use super::MASS_FRACTION;
use crate::physics::constants::ETHANOL_MOLAR_MASS;
use crate::physics::{PhysicsError, Validity};
use crate::quantity::{Pressure, SpecificEnergy, SpecificHeat, Temperature};

const PRESSURE_TEMPERATURE: Validity = Validity {
    law: "the vapour pressure of ethanol",
    quantity: "temperature",
    low: 250.0,
    high: 500.0,
    unit: "K",
};
const HEAT_TEMPERATURE: Validity = Validity {
    law: "the heat of vaporisation of ethanol (Majer & Svoboda 1985)",
    quantity: "temperature",
    low: 250.0,
    high: 469.0,
    unit: "K",
};
const CAPACITY_TEMPERATURE: Validity = Validity {
    law: "the heat capacity of ethanol in water",
    quantity: "temperature",
    low: 0.0,
    high: 110.0,
    unit: "°C",
};

/// Critical temperature of ethanol \[K\]: Schroeder et al., J. Phys. Chem. Ref. Data 43, 043102 (2014).
const CRITICAL_TEMPERATURE: f64 = 514.71;
/// Critical pressure of ethanol \[Pa\]: as above.
const CRITICAL_PRESSURE: f64 = 6.268e6;
/// Coefficient and exponent of each term of the vapour pressure: CoolProp 8.0.0, ancillary equation
/// `pS` of ethanol, which follows the equation of state of Schroeder et al. 2014 within 0.03 %.
const PRESSURE_TERMS: [(f64, f64); 6] = [
    (-7.689_152_382_102_059, 0.971),
    (-6.126_637_668_761_524, 2.322),
    (6.623_996_104_538_071_5, 3.072),
    (-7.827_481_023_390_803, 3.934),
    (3.138_633_214_921_817_2, 4.465),
    (-6.712_235_308_208_619, 19.972),
];

/// Returns the vapour pressure of ethanol.
///
/// `ln(p / pc) = tc / t Σ n θ^m`, θ = 1 - t / tc.
///
/// # Units
/// t \[K\], p \[Pa\].
///
/// # Validity
/// 250 K to 500 K.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside that range.
///
/// # Source
/// CoolProp 8.0.0, ancillary equation, after Schroeder et al., J. Phys. Chem. Ref. Data 43, 043102
/// (2014).
pub fn ethanol_saturation_pressure(temperature: Temperature) -> Result<Pressure, PhysicsError> {
    let reduced = PRESSURE_TEMPERATURE.check(temperature.kelvin())? / CRITICAL_TEMPERATURE;
    let logarithm = (1.0 - reduced).ln();
    let sum: f64 = PRESSURE_TERMS.iter().map(|(n, m)| n * (m * logarithm).exp()).sum();
    Ok(Pressure::from_pascals(CRITICAL_PRESSURE * (sum / reduced).exp()))
}

/// Returns the heat of vaporisation of ethanol.
///
/// `l = 50.43 kJ/mol exp(0.4475 tr) (1 - tr)^0.4989`, tr = t / 513.9 K.
///
/// # Units
/// t \[K\], l [J/kg].
///
/// # Validity
/// Measured from 298 K to 469 K. Down to 250 K it is used on, where it lies within 1 % of the
/// equation of state of Schroeder et al. 2014; between 330 K and 380 K the two differ by 1 % to 2 %.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside 250 K to 469 K.
///
/// # Source
/// Majer & Svoboda, Enthalpies of Vaporization of Organic Compounds, IUPAC 1985, as given in the NIST
/// Chemistry WebBook.
pub fn ethanol_latent_heat(temperature: Temperature) -> Result<SpecificEnergy, PhysicsError> {
    const SCALE: f64 = 50.43e3;
    const REDUCING_TEMPERATURE: f64 = 513.9;
    let reduced = HEAT_TEMPERATURE.check(temperature.kelvin())? / REDUCING_TEMPERATURE;
    let molar = SCALE * (0.4475 * reduced).exp() * (1.0 - reduced).powf(0.4989);
    Ok(SpecificEnergy::from_joules_per_kilogram(molar / ETHANOL_MOLAR_MASS))
}

/// Returns the heat capacity of liquid ethanol in water.
///
/// `cp = w (2257 + 6.37 t + 0.0288 t²) + (1 - w) 4190 J/(kg K)`, t in °C. The excess of the mixture,
/// up to 10 % near a third of ethanol by mass, is left out.
///
/// # Units
/// w as a share, t [°C], cp [J/(kg K)].
///
/// # Validity
/// 0 °C to 110 °C.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside that range or for a share outside 0 to 1.
///
/// # Source
/// Ethanol: parabola through CoolProp 8.0.0 (Schroeder et al. 2014) at 0 °C to 78 °C, within 0.3 %.
/// Water: mean of IAPWS R7-97(2012) from 0 °C to 100 °C, within 0.7 %.
pub fn heat_capacity(
    mass_fraction: f64,
    temperature: Temperature,
) -> Result<SpecificHeat, PhysicsError> {
    const WATER: f64 = 4190.0;
    let w = MASS_FRACTION.check(mass_fraction)?;
    let t = CAPACITY_TEMPERATURE.check(temperature.celsius())?;
    let ethanol = 2257.0 + 6.37 * t + 0.0288 * t * t;
    Ok(SpecificHeat::from_joules_per_kilogram_kelvin(w * ethanol + (1.0 - w) * WATER))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ethanol_boils_at_its_normal_boiling_point() {
        // 351.57 K at 101.325 kPa: Schroeder et al. 2014.
        let p = ethanol_saturation_pressure(Temperature::from_kelvin(351.57)).unwrap();
        assert!((p.pascals() / 101_325.0 - 1.0).abs() < 2e-3, "{p:?}");
    }

    #[test]
    fn pressure_rises_and_heat_falls() {
        let mut before = (0.0, f64::INFINITY);
        for step in 0..=100 {
            let t = Temperature::from_celsius(f64::from(step));
            let p = ethanol_saturation_pressure(t).unwrap().pascals();
            let heat = ethanol_latent_heat(t).unwrap().si();
            assert!(p > before.0 && heat < before.1);
            before = (p, heat);
        }
    }

    #[test]
    fn conditions_out_of_range_are_refused() {
        let cold = Temperature::from_celsius(-60.0);
        assert!(ethanol_saturation_pressure(cold).is_err());
        assert!(ethanol_latent_heat(cold).is_err());
        assert!(heat_capacity(0.5, cold).is_err());
        assert!(heat_capacity(1.5, Temperature::from_celsius(20.0)).is_err());
    }
}
