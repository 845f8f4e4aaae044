//! Properties of a food as a mixture of its components.

use super::{Component, Composition};
use crate::physics::PhysicsError;
use crate::quantity::{Conductivity, Density, Diffusivity, SpecificHeat, Temperature};

/// How heat finds its way through the components.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ConductivityModel {
    /// Layers along the flow of heat: the upper bound.
    Parallel,
    /// Layers across the flow of heat: the lower bound.
    Series,
    /// Weighted geometric mean: a random arrangement.
    Geometric,
    /// Everything but water and ice as spheres dispersed in the watery phase.
    MaxwellEucken,
    /// Everything but water and ice as an isotropic dispersion in the watery phase.
    Kopelman,
}

/// Returns the density of a food without pores.
///
/// `1 / rho = sum(x / rho_component)`
///
/// # Units
/// x \[kg/kg\], rho \[kg/m³\].
///
/// # Validity
/// [`super::COMPONENT_RANGE`]; volumes add; no air.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside the range of temperature.
///
/// # Source
/// ASHRAE Handbook of Refrigeration 2006, chapter 9, equation 6, with porosity zero.
pub fn density(food: Composition, ice: f64, t: Temperature) -> Result<Density, PhysicsError> {
    let mut volume = 0.0;
    for (component, share) in food.shares(ice) {
        volume += share / component.density(t)?.si();
    }
    Ok(Density::from_si(1.0 / volume))
}

/// Returns the heat capacity of a food, without the heat of freezing or thawing.
///
/// `c = sum(x c_component)`
///
/// # Units
/// x \[kg/kg\], c \[J/(kg K)\].
///
/// # Validity
/// [`super::COMPONENT_RANGE`].
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside it.
///
/// # Source
/// ASHRAE Handbook of Refrigeration 2006, chapter 9, equation 7.
pub fn heat_capacity(
    food: Composition,
    ice: f64,
    t: Temperature,
) -> Result<SpecificHeat, PhysicsError> {
    let mut sum = 0.0;
    for (component, share) in food.shares(ice) {
        sum += share * component.heat_capacity(t)?.si();
    }
    Ok(SpecificHeat::from_si(sum))
}

/// Returns the thermal conductivity of a food without pores.
///
/// With volume fractions `v = (x / rho_component) / sum(x / rho_component)`:
/// parallel `k = sum(v k)`; series `1 / k = sum(v / k)`; geometric `k = exp(sum(v ln k))`;
/// Maxwell-Eucken `k = kc (2 kc + kd - 2 vd (kc - kd)) / (2 kc + kd + vd (kc - kd))`;
/// Kopelman `k = kc (1 - L²) / (1 - L² (1 - L))` with `L³ = vd`, for kc above kd by an order of
/// magnitude, else `k = kc (1 - q) / (1 - q (1 - L))` with `q = L² (1 - kd / kc)`.
/// The continuous phase c is water and ice in parallel, the dispersed phase d the rest.
///
/// # Units
/// k \[W/(m K)\], v \[m³/m³\].
///
/// # Validity
/// [`super::COMPONENT_RANGE`].
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside it.
///
/// # Source
/// ASHRAE Handbook of Refrigeration 2006, chapter 9, equations 26 to 42; Eucken 1940 in the form of
/// Carson et al., Int. J. Heat Mass Transfer 48, 2005.
pub fn conductivity(
    food: Composition,
    ice: f64,
    t: Temperature,
    model: ConductivityModel,
) -> Result<Conductivity, PhysicsError> {
    let parts = volumes(food, ice, t)?;
    let sum = |f: fn(f64) -> f64| parts.iter().map(|(_, v, k)| v * f(*k)).sum::<f64>();
    let k = match model {
        ConductivityModel::Parallel => sum(|k| k),
        ConductivityModel::Series => 1.0 / sum(|k| 1.0 / k),
        ConductivityModel::Geometric => sum(f64::ln).exp(),
        ConductivityModel::MaxwellEucken => dispersed(&parts, maxwell_eucken),
        ConductivityModel::Kopelman => dispersed(&parts, kopelman),
    };
    Ok(Conductivity::from_si(k))
}

/// Returns the thermal diffusivity of a food that neither freezes nor thaws.
///
/// `a = k / (rho c)`, k by the parallel model.
///
/// # Units
/// a \[m²/s\], k \[W/(m K)\], rho \[kg/m³\], c \[J/(kg K)\].
///
/// # Validity
/// [`super::COMPONENT_RANGE`].
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside it.
///
/// # Source
/// ASHRAE Handbook of Refrigeration 2006, chapter 9, equation 44.
pub fn diffusivity(
    food: Composition,
    ice: f64,
    t: Temperature,
) -> Result<Diffusivity, PhysicsError> {
    let k = conductivity(food, ice, t, ConductivityModel::Parallel)?.si();
    let rho = density(food, ice, t)?.si();
    let c = heat_capacity(food, ice, t)?.si();
    Ok(Diffusivity::from_si(k / (rho * c)))
}

/// Component, volume fraction and conductivity of every part of the food.
type Parts = [(Component, f64, f64); 7];

fn volumes(food: Composition, ice: f64, t: Temperature) -> Result<Parts, PhysicsError> {
    let mut parts = [(Component::Water, 0.0, 1.0); 7];
    let mut total = 0.0;
    for (part, (component, share)) in parts.iter_mut().zip(food.shares(ice)) {
        let volume = share / component.density(t)?.si();
        *part = (component, volume, component.conductivity(t)?.si());
        total += volume;
    }
    for part in &mut parts {
        part.1 /= total;
    }
    Ok(parts)
}

/// Splits the food into a watery and a dispersed phase and joins them by a two-phase law.
fn dispersed(parts: &Parts, law: fn(f64, f64, f64) -> f64) -> f64 {
    let watery =
        |part: &&(Component, f64, f64)| matches!(part.0, Component::Water | Component::Ice);
    let (mut vc, mut kc, mut vd, mut kd) = (0.0, 0.0, 0.0, 0.0);
    for (_, v, k) in parts.iter().filter(watery) {
        vc += v;
        kc += v * k;
    }
    for (_, v, k) in parts.iter().filter(|part| !watery(part)) {
        vd += v;
        kd += v * k;
    }
    if vc <= 0.0 {
        return kd / vd;
    }
    if vd <= 0.0 {
        return kc / vc;
    }
    law(kc / vc, kd / vd, vd)
}

fn maxwell_eucken(kc: f64, kd: f64, vd: f64) -> f64 {
    kc * (2.0 * kc + kd - 2.0 * vd * (kc - kd)) / (2.0 * kc + kd + vd * (kc - kd))
}

/// The continuous phase conducts so much better that the dispersed one may be left out: from this
/// ratio on, "much larger" in ASHRAE Handbook of Refrigeration 2006, chapter 9.
const MUCH_LARGER: f64 = 10.0;

fn kopelman(kc: f64, kd: f64, vd: f64) -> f64 {
    let l = vd.cbrt();
    if kc >= MUCH_LARGER * kd {
        return kc * (1.0 - l * l) / (1.0 - l * l * (1.0 - l));
    }
    let q = l * l * (1.0 - kd / kc);
    kc * (1.0 - q) / (1.0 - q * (1.0 - l))
}

#[cfg(test)]
mod tests {
    use super::*;

    const MEAT: Composition = Composition {
        water: 0.74,
        protein: 0.21,
        fat: 0.04,
        carbohydrate: 0.0,
        fibre: 0.0,
        ash: 0.01,
    };

    #[test]
    fn every_mixed_model_lies_between_series_and_parallel() {
        for (t, ice) in [(20.0, 0.0), (-20.0, 0.55)] {
            let t = Temperature::from_celsius(t);
            let k = |model| conductivity(MEAT, ice, t, model).unwrap().si();
            let (low, high) = (k(ConductivityModel::Series), k(ConductivityModel::Parallel));
            for model in [
                ConductivityModel::Geometric,
                ConductivityModel::MaxwellEucken,
                ConductivityModel::Kopelman,
            ] {
                assert!(k(model) > low && k(model) < high, "{model:?} at {t:?}: {}", k(model));
            }
        }
    }

    #[test]
    fn pure_fat_has_the_properties_of_fat() {
        let fat = Composition { fat: 1.0, ..Composition::default() };
        let t = Temperature::from_celsius(40.0);
        let own = Component::Fat.conductivity(t).unwrap().si();
        let k = conductivity(fat, 0.0, t, ConductivityModel::Kopelman).unwrap().si();
        assert!((k - own).abs() < 1e-12);
        let rho = density(fat, 0.0, t).unwrap().si();
        assert!((rho - Component::Fat.density(t).unwrap().si()).abs() < 1e-9);
        assert!(heat_capacity(fat, 0.0, Temperature::from_celsius(200.0)).is_err());
        assert!(diffusivity(fat, 0.0, t).unwrap().si() > 0.0);
    }
}
