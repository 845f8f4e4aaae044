//! Emulsifying: shear, turbulence and droplet size.
//!
//! Answers how hard a mixer shears ([`tip_speed`], [`gap_shear`], [`energy_density`]), the smallest
//! droplets it can make in turbulent ([`turbulent`]) and in thick, laminar food ([`laminar`]), how
//! long that takes ([`mixing`]), how much emulsifier covers them and how soon they cream
//! ([`stability`]). Foams are left out.
//! Symbols: sigma interfacial tension, rho density and mu viscosity (c continuous, d dispersed),
//! eps power per mass, D rotor diameter, N turns per second, d droplet diameter, phi volume share of
//! droplets.

pub mod laminar;
pub mod mixing;
pub mod stability;
pub mod turbulent;

use std::f64::consts::PI;

use crate::physics::{PhysicsError, positive};
use crate::quantity::{
    Density, Length, Power, Pressure, Rate, RotationSpeed, SpecificPower, Speed, SurfaceTension,
    Time, Viscosity, Volume,
};

/// Returns the speed of the tip of a rotor or blade.
///
/// `v = pi D N`.
///
/// # Units
/// D \[m\], N [1/s], v [m/s].
///
/// # Validity
/// Exact; N under load, not the no-load speed.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a diameter or speed of zero or less.
///
/// # Source
/// Geometry.
pub fn tip_speed(diameter: Length, rotation: RotationSpeed) -> Result<Speed, PhysicsError> {
    let d = positive("rotor diameter", diameter.metres(), "m")?;
    let n = positive("rotor speed", rotation.turns_per_second(), "1/s")?;
    Ok(Speed::from_metres_per_second(PI * d * n))
}

/// Returns the nominal shear rate in the gap between a moving and a fixed wall.
///
/// `G = v / h`.
///
/// # Units
/// v [m/s], h \[m\], G [1/s].
///
/// # Validity
/// Laminar flow in a gap well below the rotor's radius; a nominal value for others.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a speed or gap of zero or less.
///
/// # Source
/// Plane Couette flow.
pub fn gap_shear(tip_speed: Speed, gap: Length) -> Result<Rate, PhysicsError> {
    let v = positive("tip speed", tip_speed.metres_per_second(), "m/s")?;
    let h = positive("gap", gap.metres(), "m")?;
    Ok(Rate::from_per_second(v / h))
}

/// Returns the energy put into a volume, as a pressure (1 J/m³ is 1 Pa).
///
/// `E_v = P t / V`; in a valve homogeniser the pressure drop is itself the energy density.
///
/// # Units
/// P \[W\], t \[s\], V \[m³\], E_v [J/m³].
///
/// # Validity
/// P is the power that reaches the food.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for any input of zero or less.
///
/// # Source
/// H. Karbstein & H. Schubert, Chem. Eng. Process. 34:205, 1995 (from memory).
pub fn energy_density(power: Power, time: Time, volume: Volume) -> Result<Pressure, PhysicsError> {
    let p = positive("power", power.watts(), "W")?;
    let t = positive("time", time.seconds(), "s")?;
    let v = positive("volume", volume.cubic_metres(), "m³")?;
    Ok(Pressure::from_pascals(p * t / v))
}

/// Returns the size of the smallest eddies.
///
/// `eta = (nu³ / eps)^(1/4)`, `nu = mu / rho`.
///
/// # Units
/// mu [Pa·s], rho [kg/m³], eps [W/kg], eta \[m\].
///
/// # Validity
/// Turbulent flow.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for any input of zero or less.
///
/// # Source
/// A. N. Kolmogorov, Dokl. Akad. Nauk SSSR 30:301, 1941.
pub fn kolmogorov_length(
    power: SpecificPower,
    density: Density,
    viscosity: Viscosity,
) -> Result<Length, PhysicsError> {
    let eps = positive("power per mass", power.si(), "W/kg")?;
    let rho = positive("liquid density", density.si(), "kg/m³")?;
    let mu = positive("liquid viscosity", viscosity.si(), "Pa·s")?;
    Ok(Length::from_metres(((mu / rho).powi(3) / eps).powf(0.25)))
}

/// Returns by how much the pressure in a droplet exceeds that around it.
///
/// `p = 4 sigma / d`.
///
/// # Units
/// sigma [N/m], d \[m\], p \[Pa\].
///
/// # Validity
/// Spherical droplets.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a tension or diameter of zero or less.
///
/// # Source
/// Young 1805, Laplace 1806.
pub fn laplace_pressure(
    tension: SurfaceTension,
    diameter: Length,
) -> Result<Pressure, PhysicsError> {
    let sigma = positive("interfacial tension", tension.si(), "N/m")?;
    let d = positive("droplet diameter", diameter.metres(), "m")?;
    Ok(Pressure::from_pascals(4.0 * sigma / d))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn zero_inputs_are_refused() {
        let rotation = RotationSpeed::from_rpm(10_000.0);
        let d = Length::from_millimetres(20.0);
        assert!(tip_speed(Length::ZERO, rotation).is_err());
        assert!(tip_speed(d, RotationSpeed::ZERO).is_err());
        assert!(gap_shear(Speed::ZERO, d).is_err());
        assert!(gap_shear(Speed::from_si(10.0), Length::ZERO).is_err());
        let (power, time) = (Power::from_watts(200.0), Time::from_minutes(2.0));
        assert!(energy_density(power, time, Volume::ZERO).is_err());
        assert!(energy_density(Power::ZERO, time, Volume::from_litres(1.0)).is_err());
        let (water, thin) = (Density::from_si(1000.0), Viscosity::from_si(1e-3));
        assert!(kolmogorov_length(SpecificPower::ZERO, water, thin).is_err());
        assert!(laplace_pressure(SurfaceTension::from_si(0.01), Length::ZERO).is_err());
        assert!(laplace_pressure(SurfaceTension::ZERO, d).is_err());
    }

    #[test]
    fn a_megapascal_is_a_megajoule_per_cubic_metre() {
        let one_litre = Volume::from_litres(1.0);
        let energy = energy_density(Power::from_watts(1000.0), Time::from_seconds(1.0), one_litre);
        assert!((energy.unwrap().kilopascals() - 1000.0).abs() < 1e-9);
    }
}
