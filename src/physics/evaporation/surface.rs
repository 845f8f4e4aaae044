//! Evaporation from an open surface into air, below the boil.

use crate::physics::atmosphere::HumidAir;
use crate::physics::constants::{
    AIR_MOLAR_MASS, GAS_CONSTANT, STANDARD_ATMOSPHERE, STANDARD_GRAVITY, WATER_MOLAR_MASS,
};
use crate::physics::{PhysicsError, Validity, positive, water};
use crate::quantity::{HeatTransfer, Length, MassFlux, Pressure, Speed, Temperature};

/// Heat capacity of dry air [J/(kg K)]: 1006 to 1010 from 0 °C to 90 °C (CoolProp 8.0.0).
const AIR_HEAT_CAPACITY: f64 = 1007.0;
/// Sutherland's law for the conductivity of air: value at 273.15 K [W/(m K)] and constant \[K\]
/// (from memory: White, Viscous Fluid Flow, table 1-3).
const AIR_CONDUCTIVITY: (f64, f64) = (0.0241, 194.0);
/// Sutherland's law for the viscosity of air: value at 273.15 K [Pa s] and constant \[K\] (from
/// memory: White, Viscous Fluid Flow, table 1-2).
const AIR_VISCOSITY: (f64, f64) = (1.716e-5, 111.0);
/// Reference of Sutherland's law \[K\].
const SUTHERLAND_REFERENCE: f64 = 273.15;
/// Diffusivity of water vapour in air, `D = A T^B` at one atmosphere [m²/s] (from memory: Marrero &
/// Mason 1972, Gaseous diffusion coefficients, J. Phys. Chem. Ref. Data 1).
const VAPOUR_DIFFUSIVITY: (f64, f64) = (1.87e-10, 2.072);
/// Exponent of the Lewis number in the analogy of heat and mass transfer.
const COLBURN_EXPONENT: f64 = 2.0 / 3.0;
/// Air speed to which the formulas for tanks were measured; fans over a pan stay below it.
const SPEED: Validity = Validity {
    law: "evaporation into moving air",
    quantity: "air speed",
    low: 0.0,
    high: 20.0,
    unit: "m/s",
};

/// The air over a surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Surroundings {
    /// Temperature of the air.
    pub air: Temperature,
    /// Relative humidity as a share.
    pub relative_humidity: f64,
    /// Pressure of the air.
    pub pressure: Pressure,
    /// Speed of the air along the surface.
    pub speed: Speed,
}

impl Surroundings {
    /// Returns the partial pressure of vapour in the air.
    ///
    /// # Errors
    /// As for [`HumidAir::from_relative_humidity`].
    pub fn vapour_pressure(&self) -> Result<Pressure, PhysicsError> {
        let air =
            HumidAir::from_relative_humidity(self.air, self.relative_humidity, self.pressure)?;
        Ok(air.vapour_pressure())
    }
}

/// Returns evaporation by the formula for pools and open tanks.
///
/// `j = (pw - pa)(0.089 + 0.0782 v) / h`, pw over the surface, pa in the air
///
/// # Units
/// p \[kPa\], v [m/s], h [kJ/kg], j [kg/(m² s)]; negative when vapour condenses.
///
/// # Validity
/// Wide surfaces below the boil, air to 20 m/s. Other correlations differ by 25 % to 30 %, more
/// above 60 °C.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for a speed, temperature or humidity outside its range.
///
/// # Source
/// From memory: ASHRAE Handbook, HVAC Applications, chapter on natatoriums, after Carrier 1918.
pub fn carrier_flux(
    surface: Temperature,
    surroundings: &Surroundings,
) -> Result<MassFlux, PhysicsError> {
    let speed = SPEED.check(surroundings.speed.si())?;
    let difference = water::saturation_pressure(surface)? - surroundings.vapour_pressure()?;
    let heat = water::latent_heat_vaporisation(surface)?.kilojoules_per_kilogram();
    Ok(MassFlux::from_si(difference.kilopascals() * (0.089 + 0.0782 * speed) / heat))
}

/// Returns evaporation by the engineers' rule for open tanks.
///
/// `j = (25 + 19 v)(x_s - x)`, x humidity ratio at the surface and in the air
///
/// # Units
/// x [kg/kg dry air], v [m/s], j [kg/(m² h)].
///
/// # Validity
/// Surfaces well below the boil, air to 20 m/s; ± 50 %.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for a speed, temperature or humidity outside its range;
/// [`PhysicsError::Impossible`] at the boil.
///
/// # Source
/// From memory: engineering handbooks, evaporation from water surfaces.
pub fn still_tank_flux(
    surface: Temperature,
    surroundings: &Surroundings,
) -> Result<MassFlux, PhysicsError> {
    const SECONDS_PER_HOUR: f64 = 3600.0;
    let Surroundings { air, relative_humidity, pressure, speed } = *surroundings;
    let speed = SPEED.check(speed.si())?;
    let at_surface = HumidAir::from_relative_humidity(surface, 1.0, pressure)?.humidity_ratio();
    let in_air =
        HumidAir::from_relative_humidity(air, relative_humidity, pressure)?.humidity_ratio();
    Ok(MassFlux::from_si((25.0 + 19.0 * speed) * (at_surface - in_air) / SECONDS_PER_HOUR))
}

/// Dry air at the mean of surface and air.
struct Film {
    density: f64,
    conductivity: f64,
    viscosity: f64,
    lewis: f64,
}

impl Film {
    fn between(surface: Temperature, air: Temperature, pressure: Pressure) -> Self {
        let t = f64::midpoint(surface.kelvin(), air.kelvin());
        let sutherland = |(value, constant): (f64, f64)| {
            let share = t / SUTHERLAND_REFERENCE;
            value * share * share.sqrt() * (SUTHERLAND_REFERENCE + constant) / (t + constant)
        };
        let density = pressure.pascals() * AIR_MOLAR_MASS / (GAS_CONSTANT * t);
        let conductivity = sutherland(AIR_CONDUCTIVITY);
        let (a, b) = VAPOUR_DIFFUSIVITY;
        let diffusivity = a * t.powf(b) * STANDARD_ATMOSPHERE / pressure.pascals();
        let lewis = conductivity / (density * AIR_HEAT_CAPACITY) / diffusivity;
        Self { density, conductivity, viscosity: sutherland(AIR_VISCOSITY), lewis }
    }

    /// Mass-transfer coefficient [m/s] that goes with a heat-transfer coefficient [W/(m² K)].
    fn mass_transfer(&self, heat_transfer: f64) -> f64 {
        heat_transfer / (self.density * AIR_HEAT_CAPACITY * self.lewis.powf(COLBURN_EXPONENT))
    }
}

/// Concentration [kg/m³] of vapour at a partial pressure \[Pa\].
fn concentration(pressure: f64, temperature: Temperature) -> f64 {
    pressure * WATER_MOLAR_MASS / (GAS_CONSTANT * temperature.kelvin())
}

/// Returns evaporation from a heat-transfer coefficient by the analogy of Chilton and Colburn.
///
/// `j = h_m (c_s - c_a)`, `h_m = h / (ρ c Le^(2/3))`, c the vapour concentration `p M / (R T)`
///
/// # Units
/// h [W/(m² K)], h_m [m/s], c [kg/m³], j [kg/(m² s)]; air at the mean temperature.
///
/// # Validity
/// Small rates: the flow of the vapour itself away from the surface is left out.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a coefficient of zero or less;
/// [`PhysicsError::OutsideValidity`] for a temperature or humidity outside its range.
///
/// # Source
/// Chilton & Colburn 1934, Mass transfer (absorption) coefficients, Ind. Eng. Chem. 26.
pub fn chilton_colburn_flux(
    surface: Temperature,
    surroundings: &Surroundings,
    heat_transfer: HeatTransfer,
) -> Result<MassFlux, PhysicsError> {
    positive("heat-transfer coefficient", heat_transfer.si(), "W/(m² K)")?;
    let film = Film::between(surface, surroundings.air, surroundings.pressure);
    let at_surface = concentration(water::saturation_pressure(surface)?.pascals(), surface);
    let in_air = concentration(surroundings.vapour_pressure()?.pascals(), surroundings.air);
    Ok(MassFlux::from_si(film.mass_transfer(heat_transfer.si()) * (at_surface - in_air)))
}

/// A wet surface open to the air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OpenSurface {
    /// Length along the air stream, or the diameter of a pan.
    pub length: Length,
    /// Water activity at the surface.
    pub activity: f64,
}

impl OpenSurface {
    /// Returns the flux from the surface and the heat-transfer coefficient of the air over it.
    ///
    /// `j = h_m (a c_s - c_a)`, h_m from [`heat_transfer_to_air`] by the analogy of Chilton and
    /// Colburn, a the water activity. The vapour's own flow is left out: it speeds diffusion up but
    /// lifts the air off the surface, and heat losses of open tanks near the boil are met without.
    ///
    /// # Units
    /// c vapour concentration [kg/m³], h_m [m/s], j [kg/(m² s)].
    ///
    /// # Validity
    /// Below the boil of the surface.
    ///
    /// # Errors
    /// [`PhysicsError::Impossible`] at or above the boil; otherwise as for
    /// [`heat_transfer_to_air`].
    ///
    /// # Source
    /// As for [`chilton_colburn_flux`].
    pub fn flux(
        &self,
        surface: Temperature,
        surroundings: &Surroundings,
    ) -> Result<(MassFlux, HeatTransfer), PhysicsError> {
        let vapour = surroundings.vapour_pressure()?.pascals();
        self.flux_into(surface, surroundings, vapour)
    }

    pub(super) fn flux_into(
        &self,
        surface: Temperature,
        surroundings: &Surroundings,
        vapour: f64,
    ) -> Result<(MassFlux, HeatTransfer), PhysicsError> {
        let pressure = surroundings.pressure.pascals();
        let at_surface = self.activity * water::saturation_pressure(surface)?.pascals();
        if at_surface >= pressure {
            let because = format!("the surface boils at {:.1} °C", surface.celsius());
            return Err(PhysicsError::Impossible { what: "evaporation into air", because });
        }
        flux_between(self.length, (surface, at_surface), surroundings, vapour)
    }
}

/// Flux and heat transfer between a surface with its vapour pressure \[Pa\] and air with its own.
pub(in crate::physics) fn flux_between(
    length: Length,
    (surface, at_surface): (Temperature, f64),
    surroundings: &Surroundings,
    in_air: f64,
) -> Result<(MassFlux, HeatTransfer), PhysicsError> {
    let film = Film::between(surface, surroundings.air, surroundings.pressure);
    let heat = convection(length, (surface, at_surface), surroundings, in_air, &film)?;
    let drive = concentration(at_surface, surface) - concentration(in_air, surroundings.air);
    Ok((MassFlux::from_si(film.mass_transfer(heat) * drive), HeatTransfer::from_si(heat)))
}

/// Returns the heat-transfer coefficient of air over a wet surface, by its own lightness and by
/// the wind.
///
/// Wind: `Nu = 0.664 Re^(1/2) Pr^(1/3)`, from Re 5e5 on `(0.037 Re^(4/5) - 871) Pr^(1/3)`. Light
/// air rising: `Nu = 0.54 Ra^(1/4)` to Ra 1e7, `0.15 Ra^(1/3)` above; heavy air resting:
/// `Nu = 0.27 Ra^(1/4)`; on a length of a quarter of the diameter. Both add by their cubes.
///
/// # Units
/// Lengths \[m\], result [W/(m² K)].
///
/// # Validity
/// A level surface, Ra to 1e11; the lightness counts warmth and vapour.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a length of zero or less; [`PhysicsError::OutsideValidity`]
/// for a speed, temperature or humidity outside its range.
///
/// # Source
/// Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, eqs. 7.30, 7.38, 9.30 to 9.32
/// (from memory); Lloyd & Moran 1974, Journal of Heat Transfer 96.
pub fn heat_transfer_to_air(
    length: Length,
    surface: Temperature,
    surroundings: &Surroundings,
) -> Result<HeatTransfer, PhysicsError> {
    let at_surface = water::saturation_pressure(surface)?.pascals();
    let at_surface = at_surface.min(surroundings.pressure.pascals());
    let vapour = surroundings.vapour_pressure()?.pascals();
    let film = Film::between(surface, surroundings.air, surroundings.pressure);
    convection(length, (surface, at_surface), surroundings, vapour, &film)
        .map(HeatTransfer::from_si)
}

fn convection(
    length: Length,
    (surface, at_surface): (Temperature, f64),
    surroundings: &Surroundings,
    in_air: f64,
    film: &Film,
) -> Result<f64, PhysicsError> {
    let length = positive("length of the surface", length.si(), "m")?;
    let speed = SPEED.check(surroundings.speed.si())?;
    let prandtl = AIR_HEAT_CAPACITY * film.viscosity / film.conductivity;
    let reynolds = film.density * speed * length / film.viscosity;
    let forced = if reynolds < 5e5 {
        0.664 * reynolds.sqrt() * prandtl.cbrt()
    } else {
        (0.037 * reynolds.powf(0.8) - 871.0) * prandtl.cbrt()
    };
    let lightness = 1.0 - WATER_MOLAR_MASS / AIR_MOLAR_MASS;
    let density = |vapour: f64, temperature: Temperature| {
        (1.0 - lightness * vapour / surroundings.pressure.pascals()) / temperature.kelvin()
    };
    let (light, heavy) = (density(at_surface, surface), density(in_air, surroundings.air));
    let buoyancy = 2.0 * (heavy - light) / (heavy + light);
    let across = length / 4.0;
    let kinematic = film.viscosity / film.density;
    let rayleigh = STANDARD_GRAVITY * buoyancy.abs() * across.powi(3) * prandtl / kinematic.powi(2);
    let free = if buoyancy < 0.0 {
        0.27 * rayleigh.sqrt().sqrt()
    } else if rayleigh < 1e7 {
        0.54 * rayleigh.sqrt().sqrt()
    } else {
        0.15 * rayleigh.cbrt()
    };
    let by_wind = forced * film.conductivity / length;
    let by_lightness = free * film.conductivity / across;
    Ok((by_wind.powi(3) + by_lightness.powi(3)).cbrt())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn room(speed: f64) -> Surroundings {
        Surroundings {
            air: Temperature::from_celsius(22.0),
            relative_humidity: 0.5,
            pressure: Pressure::from_pascals(STANDARD_ATMOSPHERE),
            speed: Speed::from_metres_per_second(speed),
        }
    }

    const PAN: OpenSurface = OpenSurface { length: Length::from_centimetres(28.0), activity: 1.0 };

    #[test]
    fn warmer_water_and_faster_air_evaporate_more() {
        for formula in [carrier_flux, still_tank_flux] {
            let at = |t, v| formula(Temperature::from_celsius(t), &room(v)).unwrap();
            assert!(at(40.0, 0.5) > at(30.0, 0.5) && at(40.0, 1.0) > at(40.0, 0.5));
        }
        let mut before = MassFlux::ZERO;
        for t in [25.0, 40.0, 60.0, 80.0, 95.0, 99.5] {
            let (flux, _) = PAN.flux(Temperature::from_celsius(t), &room(0.0)).unwrap();
            assert!(flux > before && flux.si().is_finite());
            before = flux;
        }
    }

    #[test]
    fn the_open_surface_agrees_with_the_pool_formula_in_wind() {
        let warm = Temperature::from_celsius(40.0);
        let (flux, _) = PAN.flux(warm, &room(0.5)).unwrap();
        let pool = carrier_flux(warm, &room(0.5)).unwrap();
        assert!((0.6..1.7).contains(&(flux / pool)), "{}", flux / pool);
    }

    #[test]
    fn saturated_air_at_the_same_temperature_takes_nothing() {
        let humid = Surroundings { relative_humidity: 1.0, ..room(1.0) };
        let flux = PAN.flux(humid.air, &humid).unwrap().0;
        assert!(flux.si().abs() < 1e-12);
        assert!(carrier_flux(humid.air, &humid).unwrap().si().abs() < 1e-12);
    }

    #[test]
    fn the_boil_and_nonsense_are_refused() {
        let boil = Temperature::from_celsius(101.0);
        assert!(matches!(PAN.flux(boil, &room(0.0)), Err(PhysicsError::Impossible { .. })));
        let none = HeatTransfer::ZERO;
        assert!(chilton_colburn_flux(room(0.0).air, &room(0.0), none).is_err());
        assert!(carrier_flux(room(0.0).air, &room(50.0)).is_err());
        assert!(heat_transfer_to_air(Length::ZERO, boil, &room(0.0)).is_err());
    }
}
