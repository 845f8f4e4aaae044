//! When the dry matter of a food is a glass, and how much water makes it sticky.

use crate::physics::{PhysicsError, Validity, positive};
use crate::quantity::Temperature;

/// Glass transition of water \[K\]: Johari, Hallbrucker & Mayer 1987, Nature 330.
pub const WATER_GLASS_TRANSITION: Temperature = Temperature::from_kelvin(138.0);

/// A dry substance with its glass transition and its Gordon-Taylor constant against water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GlassFormer {
    /// The substance, in plain words.
    pub name: &'static str,
    /// Glass transition of the dry substance (onset).
    pub dry: Temperature,
    /// Gordon-Taylor constant against water.
    pub constant: f64,
}

const fn former(name: &'static str, celsius: f64, constant: f64) -> GlassFormer {
    GlassFormer { name, dry: Temperature::from_celsius(celsius), constant }
}

/// Published glass formers. Sugars from memory: Roos 1993, Melting and glass transitions of low
/// molecular weight carbohydrates, Carbohydrate Research 238, constants by [`roos_constant`];
/// lactose constant from Roos & Karel 1991, Journal of Food Science 56; maltodextrins from memory:
/// Roos & Karel 1991, Phase transitions of mixtures of amorphous polysaccharides and sugars,
/// Biotechnology Progress 7.
pub const GLASS_FORMERS: &[GlassFormer] = &[
    former("fructose", 5.0, 3.76),
    former("glucose", 31.0, 4.52),
    former("sucrose", 62.0, 5.43),
    former("lactose", 101.0, 6.7),
    former("maltose", 87.0, 6.16),
    former("maltodextrin DE 36", 100.0, 6.0),
    former("maltodextrin DE 20", 141.0, 6.5),
    former("maltodextrin DE 10", 160.0, 7.0),
    former("maltodextrin DE 5", 188.0, 7.7),
];

/// Finds a glass former by its name.
pub fn glass_former(name: &str) -> Option<&'static GlassFormer> {
    GLASS_FORMERS.iter().find(|former| former.name == name)
}

const WATER_SHARE: Validity = Validity {
    law: "the Gordon-Taylor equation",
    quantity: "share of water",
    low: 0.0,
    high: 0.5,
    unit: "",
};

/// Returns the Gordon-Taylor constant of a sugar against water from its dry glass transition.
///
/// `k = 0.0293 Tg + 3.61`
///
/// # Units
/// Tg [°C].
///
/// # Validity
/// Sugars with a glass transition between -10 °C and 120 °C.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] outside that range.
///
/// # Source
/// From memory: Roos 1993, Carbohydrate Research 238.
pub fn roos_constant(dry: Temperature) -> Result<f64, PhysicsError> {
    const RANGE: Validity = Validity {
        law: "the Gordon-Taylor constant of sugars",
        quantity: "dry glass transition",
        low: -10.0,
        high: 120.0,
        unit: "°C",
    };
    Ok(0.0293 * RANGE.check(dry.celsius())? + 3.61)
}

/// Returns the glass transition of a mixture of dry matter and water.
///
/// `Tg = (w1 Tg1 + k w2 Tg2) / (w1 + k w2)`, 1 dry matter, 2 water
///
/// # Units
/// Tg \[K\], w mass shares \[1\].
///
/// # Validity
/// Up to half water; above that ice forms before the glass.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for a share of water outside 0 to 0.5;
/// [`PhysicsError::NotPositive`] for a constant of zero or less.
///
/// # Source
/// Gordon & Taylor 1952, Ideal copolymers and the second-order transitions of synthetic rubbers,
/// Journal of Applied Chemistry 2.
pub fn glass_transition(
    dry: Temperature,
    constant: f64,
    water: f64,
) -> Result<Temperature, PhysicsError> {
    positive("Gordon-Taylor constant", constant, "")?;
    let w = WATER_SHARE.check(water)?;
    let weight = constant * w;
    let sum = (1.0 - w) * dry.kelvin() + weight * WATER_GLASS_TRANSITION.kelvin();
    Ok(Temperature::from_kelvin(sum / (1.0 - w + weight)))
}

/// Returns the share of water at which the glass transition falls to a storage temperature: drier
/// keeps crisp and free-flowing, wetter turns sticky. The inverse of [`glass_transition`].
///
/// `x = (Tg1 - T) / (k (T - Tg2))`, `w = x / (1 + x)`
///
/// # Units
/// T \[K\], x [kg water/kg dry], w \[1\].
///
/// # Validity
/// Storage below the glass transition of the dry matter and above that of water.
///
/// # Errors
/// [`PhysicsError::Impossible`] when the dry matter itself is no glass at that temperature;
/// [`PhysicsError::OutsideValidity`] when half water would still be a glass;
/// [`PhysicsError::NotPositive`] for a constant of zero or less.
///
/// # Source
/// As for [`glass_transition`].
pub fn moisture_at_glass_transition(
    dry: Temperature,
    constant: f64,
    storage: Temperature,
) -> Result<f64, PhysicsError> {
    positive("Gordon-Taylor constant", constant, "")?;
    if storage >= dry {
        let because = format!(
            "the dry matter softens at {:.1} °C, below the {:.1} °C of the store",
            dry.celsius(),
            storage.celsius()
        );
        return Err(PhysicsError::Impossible { what: "a glass", because });
    }
    let above_water = (storage - WATER_GLASS_TRANSITION).kelvin();
    positive("temperature above the glass transition of water", above_water, "K")?;
    let x = (dry - storage).kelvin() / (constant * above_water);
    WATER_SHARE.check(x / (1.0 + x))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_two_directions_agree() {
        for former in GLASS_FORMERS {
            let store = Temperature::from_kelvin(former.dry.kelvin() - 30.0);
            let w = moisture_at_glass_transition(former.dry, former.constant, store).unwrap();
            let back = glass_transition(former.dry, former.constant, w).unwrap();
            assert!((back - store).kelvin().abs() < 1e-9, "{}", former.name);
        }
    }

    #[test]
    fn water_softens() {
        let dry = Temperature::from_celsius(62.0);
        let at = |w| glass_transition(dry, 5.4, w).unwrap().kelvin();
        assert!(at(0.0) > at(0.02) && at(0.02) > at(0.2));
        assert!(glass_transition(dry, 5.4, 0.6).is_err());
        assert!(glass_transition(dry, 0.0, 0.1).is_err());
    }

    #[test]
    fn a_store_warmer_than_the_glass_is_refused() {
        let error = moisture_at_glass_transition(
            Temperature::from_celsius(5.0),
            3.76,
            Temperature::from_celsius(20.0),
        );
        assert!(matches!(error, Err(PhysicsError::Impossible { .. })));
        let cold = Temperature::from_kelvin(120.0);
        assert!(moisture_at_glass_transition(Temperature::from_celsius(5.0), 3.76, cold).is_err());
    }

    #[test]
    fn the_sugar_constant_keeps_to_its_range() {
        assert!((roos_constant(Temperature::from_celsius(62.0)).unwrap() - 5.4266).abs() < 1e-6);
        assert!(roos_constant(Temperature::from_celsius(200.0)).is_err());
    }
}
