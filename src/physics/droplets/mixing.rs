//! How long a mixer takes to reach its droplet size, and how warm the food gets.

use crate::physics::{PhysicsError, Validity, positive};
use crate::quantity::{
    Length, Mass, Power, RotationSpeed, SpecificHeat, TemperatureDifference, Time, Volume,
};

/// Flow number of a small rotor, the volume it moves per turn over D³. Estimate, 0.3 to 0.7.
pub const FLOW_NUMBER: f64 = 0.5;
/// Passes after which the excess over the final size has fallen to 1/e. Estimate, 20 to 200.
pub const PASSES_TO_SETTLE: f64 = 60.0;
/// Droplets of oil that is poured in and stirred. Estimate, 0.1 mm to 1 mm.
pub const POURED_DROPLET: Length = Length::from_micrometres(300.0);

/// Shares of the drawn power that stay in the food as heat.
const HEAT_SHARE: Validity = Validity {
    law: "the heating of food by shear",
    quantity: "share of power left as heat",
    low: 0.0,
    high: 1.0,
    unit: "",
};

/// Returns how often the whole volume has passed the rotor.
///
/// `n = N_q N D³ t / V`.
///
/// # Units
/// N [1/s], D \[m\], t \[s\], V \[m³\].
///
/// # Validity
/// A rotor that keeps the whole volume moving; [`FLOW_NUMBER`] is an estimate.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a rotor, volume or time of zero or less.
///
/// # Source
/// Definition of the flow number.
pub fn passes(
    diameter: Length,
    rotation: RotationSpeed,
    time: Time,
    volume: Volume,
) -> Result<f64, PhysicsError> {
    let d = positive("rotor diameter", diameter.metres(), "m")?;
    let n = positive("rotor speed", rotation.turns_per_second(), "1/s")?;
    let t = positive("time", time.seconds(), "s")?;
    let v = positive("volume", volume.cubic_metres(), "m³")?;
    Ok(FLOW_NUMBER * n * d.powi(3) * t / v)
}

/// Returns the mean droplet after a number of passes.
///
/// `d = d_end + (d_start - d_end) exp(-n / n₀)`.
///
/// # Units
/// d \[m\], n none.
///
/// # Validity
/// n₀ is an estimate ([`PASSES_TO_SETTLE`]); calibrate with a creaming test.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a size of zero or less; [`PhysicsError::Impossible`] for passes
/// below zero.
///
/// # Source
/// Estimate: first-order approach to the size that the flow leaves whole.
pub fn size_after_passes(start: Length, end: Length, passes: f64) -> Result<Length, PhysicsError> {
    positive("droplet diameter at the start", start.metres(), "m")?;
    positive("droplet diameter in the end", end.metres(), "m")?;
    if passes >= 0.0 {
        Ok(end + (start - end) * (-passes / PASSES_TO_SETTLE).exp())
    } else {
        let because = format!("{passes} passes are below zero");
        Err(PhysicsError::Impossible { what: "droplet size", because })
    }
}

/// Returns by how much mixing warms the food.
///
/// `dT = h P t / (m c)`.
///
/// # Units
/// P \[W\], t \[s\], m \[kg\], c [J/(kg K)], dT \[K\].
///
/// # Validity
/// P as drawn under load; h, the share that stays, about 0.8 to 0.95 for minutes of mixing
/// (estimate).
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a power, time, mass or heat capacity of zero or less;
/// [`PhysicsError::OutsideValidity`] for a share outside 0 to 1.
///
/// # Source
/// Energy balance.
pub fn heating(
    power: Power,
    share: f64,
    time: Time,
    mass: Mass,
    heat_capacity: SpecificHeat,
) -> Result<TemperatureDifference, PhysicsError> {
    let p = positive("power", power.watts(), "W")?;
    let h = HEAT_SHARE.check(share)?;
    let t = positive("time", time.seconds(), "s")?;
    let m = positive("mass", mass.kilograms(), "kg")?;
    let c = positive("heat capacity", heat_capacity.si(), "J/(kg K)")?;
    Ok(TemperatureDifference::from_kelvin(h * p * t / (m * c)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn size_falls_from_start_to_end() {
        let (start, end) = (POURED_DROPLET, Length::from_micrometres(3.0));
        let at = |n| size_after_passes(start, end, n).unwrap();
        assert!(at(0.0) == start && at(50.0) < start && at(50.0) > end);
        assert!((at(5000.0) / end - 1.0).abs() < 1e-12);
        assert!(size_after_passes(start, end, -1.0).is_err());
        assert!(size_after_passes(start, Length::ZERO, 1.0).is_err());
    }

    #[test]
    fn impossible_mixers_are_refused() {
        let (d, n) = (Length::from_millimetres(25.0), RotationSpeed::from_rpm(8000.0));
        let minute = Time::from_minutes(1.0);
        assert!(passes(d, n, minute, Volume::ZERO).is_err());
        assert!(passes(d, n, Time::ZERO, Volume::from_litres(1.0)).is_err());
        let (power, mass) = (Power::from_watts(500.0), Mass::from_kilograms(1.0));
        let water = SpecificHeat::from_si(4180.0);
        assert!(heating(power, 1.2, minute, mass, water).is_err());
        assert!(heating(power, 0.9, minute, Mass::ZERO, water).is_err());
    }

    #[test]
    fn half_a_kilowatt_warms_a_kilogram_in_five_minutes() {
        let rise = heating(
            Power::from_watts(500.0),
            0.9,
            Time::from_minutes(5.0),
            Mass::from_kilograms(1.0),
            SpecificHeat::from_si(3700.0),
        );
        assert!((rise.unwrap().kelvin() - 0.9 * 500.0 * 300.0 / 3700.0).abs() < 1e-9);
    }
}
