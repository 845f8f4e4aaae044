//! Thawing time.

use crate::physics::{PhysicsError, Validity, positive};
use crate::quantity::{
    Conductivity, Density, HeatTransfer, Length, SpecificHeat, Temperature, Time,
};

const BIOT_RANGE: Validity = Validity {
    law: "thawing time by Cleland and others",
    quantity: "Biot number of the thickness",
    low: 0.6,
    high: 57.0,
    unit: "",
};
const STEFAN_RANGE: Validity = Validity {
    law: "thawing time by Cleland and others",
    quantity: "Stefan number",
    low: 0.08,
    high: 0.77,
    unit: "",
};
const PLANK_RANGE: Validity = Validity {
    law: "thawing time by Cleland and others",
    quantity: "Plank number",
    low: 0.0,
    high: 0.27,
    unit: "",
};

/// What thaws.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ThawingSolid {
    /// Thickness or diameter.
    pub thickness: Length,
    /// Directions of heat flow: 1 slab, 2 cylinder, 3 sphere.
    pub dimensions: f64,
    /// Density.
    pub density: Density,
    /// Heat that a kilogram takes up between -10 °C and 0 °C \[J/kg\].
    pub thawing_heat: crate::quantity::SpecificEnergy,
    /// Heat capacity of the thawed food.
    pub unfrozen_heat_capacity: SpecificHeat,
    /// Heat capacity of the frozen food.
    pub frozen_heat_capacity: SpecificHeat,
    /// Conductivity of the thawed food.
    pub unfrozen_conductivity: Conductivity,
    /// Heat transfer at the surface.
    pub heat_transfer: HeatTransfer,
    /// Initial freezing point.
    pub freezing_point: Temperature,
}

/// Returns the time to thaw a food until its centre reaches 0 °C.
///
/// `Fo = (P / (Bi Ste) + R / Ste) / E`, `P = 0.5 (0.7754 + 2.2828 Ste Pk)`,
/// `R = 0.125 (0.4271 + 2.1220 Ste - 1.4847 Ste²)`, with `Fo = ku t / (rho cu a²)`, `Bi = h a / ku`,
/// `Ste = cu (Ta - Tf) / H`, `Pk = cf (Tf - Ti) / H`.
///
/// # Units
/// t \[s\], a \[m\], h \[W/(m² K)\], k \[W/(m K)\], c \[J/(kg K)\], H \[J/kg\] from -10 °C to 0 °C, T \[°C\].
///
/// # Validity
/// Bi 0.6 to 57, Ste 0.08 to 0.77, Pk to 0.27; within 11 % of measurements on a food gel and minced
/// lean beef.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a size or property of zero or less; [`PhysicsError::OutsideValidity`]
/// outside the ranges.
///
/// # Source
/// Cleland, Cleland, Earle & Byrne, Prediction of thawing times for foods of simple shape, Int. J.
/// Refrigeration 9, 1986 (from memory).
pub fn thawing_time(
    solid: &ThawingSolid,
    start: Temperature,
    surroundings: Temperature,
) -> Result<Time, PhysicsError> {
    let a = positive("thickness or diameter", solid.thickness.metres(), "m")?;
    let h = positive("heat transfer at the surface", solid.heat_transfer.si(), "W/(m² K)")?;
    let k =
        positive("conductivity of the thawed food", solid.unfrozen_conductivity.si(), "W/(m K)")?;
    let heat = positive("heat of thawing", solid.thawing_heat.si(), "J/kg")?;
    let cu = positive(
        "heat capacity of the thawed food",
        solid.unfrozen_heat_capacity.si(),
        "J/(kg K)",
    )?;
    let rho = positive("density", solid.density.si(), "kg/m³")?;
    let e = positive("directions of heat flow", solid.dimensions, "")?;
    let bi = BIOT_RANGE.check(h * a / k)?;
    let ste = STEFAN_RANGE.check(cu * (surroundings - solid.freezing_point).kelvin() / heat)?;
    let frozen = solid.frozen_heat_capacity.si();
    let pk = PLANK_RANGE.check(frozen * (solid.freezing_point - start).kelvin() / heat)?;
    let p = 0.5 * (0.7754 + 2.2828 * ste * pk);
    let r = 0.125 * (0.4271 + 2.1220 * ste - 1.4847 * ste * ste);
    let fourier = (p / (bi * ste) + r / ste) / e;
    Ok(Time::from_seconds(fourier * rho * cu * a * a / k))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::SpecificEnergy;

    const MINCE: ThawingSolid = ThawingSolid {
        thickness: Length::from_millimetres(50.0),
        dimensions: 1.0,
        density: Density::from_si(1050.0),
        thawing_heat: SpecificEnergy::from_si(230e3),
        unfrozen_heat_capacity: SpecificHeat::from_si(3500.0),
        frozen_heat_capacity: SpecificHeat::from_si(2000.0),
        unfrozen_conductivity: Conductivity::from_si(0.5),
        heat_transfer: HeatTransfer::from_si(50.0),
        freezing_point: Temperature::from_celsius(-1.0),
    };

    fn time(solid: &ThawingSolid, start: f64, water: f64) -> Result<Time, PhysicsError> {
        thawing_time(solid, Temperature::from_celsius(start), Temperature::from_celsius(water))
    }

    #[test]
    fn warm_water_and_a_mild_start_thaw_sooner() {
        let base = time(&MINCE, -18.0, 10.0).unwrap();
        assert!(time(&MINCE, -18.0, 20.0).unwrap() < base);
        assert!(time(&MINCE, -10.0, 10.0).unwrap() < base);
        assert!(time(&ThawingSolid { dimensions: 3.0, ..MINCE }, -18.0, 10.0).unwrap() < base);
    }

    #[test]
    fn conditions_outside_the_experiments_are_refused() {
        assert!(time(&MINCE, -18.0, 0.0).is_err());
        assert!(time(&MINCE, -60.0, 10.0).is_err());
        assert!(
            time(&ThawingSolid { heat_transfer: HeatTransfer::from_si(1.0), ..MINCE }, -18.0, 10.0)
                .is_err()
        );
        assert!(time(&ThawingSolid { thickness: Length::ZERO, ..MINCE }, -18.0, 10.0).is_err());
    }
}
