//! Ice, latent heat and enthalpy of a food below its initial freezing point.

use super::{Component, Composition, heat_capacity};
use crate::physics::constants::{GAS_CONSTANT, WATER_MOLAR_MASS};
use crate::physics::{PhysicsError, Validity, positive};
use crate::quantity::{SpecificEnergy, SpecificHeat, Temperature};

/// Water that protein binds so that it never freezes \[kg/kg\]: Pham 1987 as used with the equation
/// of Miles 1974 in ASHRAE Handbook of Refrigeration 2006, chapter 9, equation 3.
pub const BOUND_WATER_PER_PROTEIN: f64 = 0.4;
/// Heat of fusion of water at 0 °C \[J/kg\]: ASHRAE Handbook of Refrigeration 2006, chapter 9.
pub const FUSION_HEAT: f64 = 333.6e3;
/// Enthalpy of food is counted from here \[°C\]: ASHRAE Handbook of Refrigeration 2006, chapter 9.
pub const ENTHALPY_REFERENCE_CELSIUS: f64 = -40.0;
/// Melting point of pure water at one atmosphere \[K\].
const WATER_MELTING_KELVIN: f64 = 273.15;

/// Initial freezing points of foods: from brines near their eutectic to watery vegetables.
const FREEZING_POINT_RANGE: Validity = Validity {
    law: "ice fraction of a food",
    quantity: "initial freezing point",
    low: -25.0,
    high: -0.01,
    unit: "°C",
};
/// Ideal solutions: the molality at which foods still follow it within some per cent.
const SHARE_RANGE: Validity = Validity {
    law: "ice fraction of a food",
    quantity: "share of water and protein",
    low: 0.0,
    high: 1.0,
    unit: "",
};
const MOLALITY_RANGE: Validity = Validity {
    law: "ideal freezing-point depression",
    quantity: "molality of dissolved particles",
    low: 0.0,
    high: 5.0,
    unit: "mol/kg",
};

/// Returns the share of ice in the whole food.
///
/// `xi = (xw - 0.4 xp) (1 - tf / t)` below the initial freezing point tf, else zero.
///
/// # Units
/// x \[kg/kg\], t and tf \[°C\].
///
/// # Validity
/// tf from -25 °C to -0.01 °C; an ideal solution whose bound water is set by the protein.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for another tf.
///
/// # Source
/// Miles 1974 with bound water after Pham 1987: ASHRAE Handbook of Refrigeration 2006, chapter 9,
/// equations 2 and 3.
pub fn ice_fraction(
    food: Composition,
    freezing_point: Temperature,
    temperature: Temperature,
) -> Result<f64, PhysicsError> {
    let tf = FREEZING_POINT_RANGE.check(freezing_point.celsius())?;
    let (water, protein) = (SHARE_RANGE.check(food.water)?, SHARE_RANGE.check(food.protein)?);
    SHARE_RANGE.check(water + protein)?;
    let t = temperature.celsius();
    Ok(if t < tf { freezable_water(food) * (1.0 - tf / t) } else { 0.0 })
}

fn freezable_water(food: Composition) -> f64 {
    (food.water - BOUND_WATER_PER_PROTEIN * food.protein).max(0.0)
}

/// Returns the latent heat of fusion of a food as tables print it: all its water frozen.
///
/// `L = xw L0`
///
/// # Units
/// L and L0 = [`FUSION_HEAT`] \[J/kg\].
///
/// # Validity
/// Any water content.
///
/// # Source
/// ASHRAE Handbook of Refrigeration 2006, chapter 9, table 3, footnote.
pub fn latent_heat(water: f64) -> SpecificEnergy {
    SpecificEnergy::from_si(water * FUSION_HEAT)
}

/// Returns the heat capacity of a food with the heat of its freezing or thawing spread in.
///
/// `c = sum(x c_component) - L0 dxi/dt`, with `dxi/dt = (xw - 0.4 xp) tf / t²` below tf.
///
/// # Units
/// c \[J/(kg K)\], L0 \[J/kg\], t \[°C\].
///
/// # Validity
/// -40 °C to 150 °C; tf as [`ice_fraction`].
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside.
///
/// # Source
/// Form of Schwartzberg 1976, with the ice curve of Miles 1974: ASHRAE Handbook of Refrigeration
/// 2006, chapter 9.
pub fn apparent_heat_capacity(
    food: Composition,
    freezing_point: Temperature,
    temperature: Temperature,
) -> Result<SpecificHeat, PhysicsError> {
    let ice = ice_fraction(food, freezing_point, temperature)?;
    let sensible = heat_capacity(food, ice, temperature)?;
    let (tf, t) = (freezing_point.celsius(), temperature.celsius());
    if t >= tf {
        return Ok(sensible);
    }
    let slope = freezable_water(food) * tf / (t * t);
    Ok(sensible - SpecificHeat::from_si(FUSION_HEAT * slope))
}

/// Returns the heat that takes a kilogram of food from one temperature to another.
///
/// `dH = integral of c_apparent dt`, in closed form: the polynomials of the components times the
/// ice curve give powers and a logarithm of t.
///
/// # Units
/// H \[J/kg\], t \[°C\].
///
/// # Validity
/// -40 °C to 150 °C; tf as [`ice_fraction`]; negative when the food is cooled.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside.
///
/// # Source
/// Integral of [`apparent_heat_capacity`].
pub fn enthalpy_change(
    food: Composition,
    freezing_point: Temperature,
    from: Temperature,
    to: Temperature,
) -> Result<SpecificEnergy, PhysicsError> {
    let tf = FREEZING_POINT_RANGE.check(freezing_point.celsius())?;
    let start = super::COMPONENT_RANGE.check(from.celsius())?;
    let end = super::COMPONENT_RANGE.check(to.celsius())?;
    Ok(SpecificEnergy::from_si(enthalpy(food, tf, end) - enthalpy(food, tf, start)))
}

/// Enthalpy above the freezing point tf, so that it is zero there.
fn enthalpy(food: Composition, tf: f64, t: f64) -> f64 {
    if t < tf {
        return frozen_enthalpy(food, tf, t);
    }
    let zero = t.clamp(tf, 0.0);
    let mut sum = 0.0;
    for (component, share) in food.shares(0.0) {
        sum += share * span(component.frozen_heat_capacity(), tf, zero);
        if t > 0.0 {
            sum += share * span(component.thawed_heat_capacity(), 0.0, t);
        }
    }
    sum
}

/// Integral of a quadratic heat capacity.
fn span(coefficients: [f64; 3], from: f64, to: f64) -> f64 {
    primitive(coefficients, to) - primitive(coefficients, from)
}

fn primitive([a, b, c]: [f64; 3], t: f64) -> f64 {
    a * t + b * t * t / 2.0 + c * t * t * t / 3.0
}

/// Enthalpy at t below tf, counted from tf.
fn frozen_enthalpy(food: Composition, tf: f64, t: f64) -> f64 {
    let freezable = freezable_water(food);
    let mut sum = 0.0;
    for (component, share) in food.shares(0.0) {
        sum += share * span(component.frozen_heat_capacity(), tf, t);
    }
    let [wa, wb, wc] = Component::Water.frozen_heat_capacity();
    let [ia, ib, ic] = Component::Ice.frozen_heat_capacity();
    let swap = [ia - wa, ib - wb, ic - wc];
    // The swap of water for ice weighs (1 - tf / t): a second integral with one power less.
    let weighted = swap[0] * (t / tf).ln() + swap[1] * (t - tf) + swap[2] * (t * t - tf * tf) / 2.0;
    sum + freezable * (span(swap, tf, t) - tf * weighted) - FUSION_HEAT * freezable * (1.0 - tf / t)
}

/// Returns the initial freezing point of a food from the particles dissolved in its water.
///
/// `1 / Tf = 1 / T0 - (R / L) ln(aw)`, with `aw = 1 / (1 + M m)` for an ideal solution.
///
/// # Units
/// Tf and T0 = 273.15 \[K\], L \[J/mol\], m \[mol/kg\] of particles (sugar 1, salt 2 each), M \[kg/mol\].
///
/// # Validity
/// Molality to 5 mol/kg; the heat of fusion is held at its value at 0 °C.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a molality of zero or less; [`PhysicsError::OutsideValidity`]
/// above 5 mol/kg.
///
/// # Source
/// Clausius-Clapeyron with Raoult's law: Heldman, Food properties during food freezing, Food
/// Technology 36(2), 1982.
pub fn freezing_point_from_molality(molality: f64) -> Result<Temperature, PhysicsError> {
    positive("molality", molality, "mol/kg")?;
    let m = MOLALITY_RANGE.check(molality)?;
    let latent = FUSION_HEAT * WATER_MOLAR_MASS;
    let activity = 1.0 / (1.0 + WATER_MOLAR_MASS * m);
    let inverse = 1.0 / WATER_MELTING_KELVIN - GAS_CONSTANT / latent * activity.ln();
    Ok(Temperature::from_kelvin(1.0 / inverse))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::solve::integral;

    const PEAS: Composition = Composition {
        water: 0.79,
        protein: 0.05,
        fat: 0.0,
        carbohydrate: 0.1,
        fibre: 0.05,
        ash: 0.01,
    };

    fn celsius(t: f64) -> Temperature {
        Temperature::from_celsius(t)
    }

    #[test]
    fn ice_starts_at_the_freezing_point_and_grows_with_cold() {
        let tf = celsius(-0.6);
        assert!(ice_fraction(PEAS, tf, celsius(-0.5)).unwrap() <= 0.0);
        let mut before = 0.0;
        for t in 1..=40 {
            let ice = ice_fraction(PEAS, tf, celsius(-f64::from(t))).unwrap();
            assert!(ice > before && ice < PEAS.water);
            before = ice;
        }
        assert!(ice_fraction(PEAS, celsius(0.0), celsius(-5.0)).is_err());
    }

    #[test]
    fn the_enthalpy_is_the_integral_of_the_apparent_heat_capacity() {
        let tf = celsius(-0.6);
        for (low, high) in [(-40.0, -30.0), (-20.0, -2.0), (-0.6, -0.01), (0.01, 90.0)] {
            let c = |t: f64| apparent_heat_capacity(PEAS, tf, celsius(t)).unwrap().si();
            let by_steps = integral(low, high, 200, c);
            let closed = enthalpy_change(PEAS, tf, celsius(low), celsius(high)).unwrap().si();
            assert!((closed / by_steps - 1.0).abs() < 1e-6, "{low} to {high}: {closed} {by_steps}");
        }
        assert!(enthalpy_change(PEAS, tf, celsius(-41.0), celsius(0.0)).is_err());
        assert!(apparent_heat_capacity(PEAS, tf, celsius(-41.0)).is_err());
    }

    #[test]
    fn heat_added_and_taken_cancel() {
        let tf = celsius(-1.5);
        let up = enthalpy_change(PEAS, tf, celsius(-18.0), celsius(20.0)).unwrap().si();
        let down = enthalpy_change(PEAS, tf, celsius(20.0), celsius(-18.0)).unwrap().si();
        assert!((up + down).abs() < 1e-6 && up > 300e3);
        assert!((latent_heat(0.5).kilojoules_per_kilogram() - 166.8).abs() < 1e-9);
    }

    #[test]
    fn one_mole_per_kilogram_lowers_the_freezing_point_by_the_cryoscopic_constant() {
        let depression = -freezing_point_from_molality(0.01).unwrap().celsius();
        assert!((depression / 0.01 - 1.86).abs() < 0.01, "{depression}");
        assert!(freezing_point_from_molality(0.0).is_err());
        assert!(freezing_point_from_molality(6.0).is_err());
    }
}
