//! Filtering: flow through beds and cakes, membranes, cloths and sieves.
//!
//! Answers how fast a liquid passes ([`darcy_flux`], [`CakeFilter`], [`membrane_flux`], [`drip`]),
//! what a medium holds back ([`strain`]) and how much liquid stays in the cake ([`liquid_in_cake`]).
//! Pores that clog from within and cross-flow are left out.
//! Symbols: V filtrate volume, A area, dP pressure difference, mu viscosity, alpha specific cake
//! resistance, c dry solids laid down per volume of filtrate, R_m medium resistance, k permeability,
//! L thickness, e porosity, r pore radius, d particle diameter, sigma surface tension.

pub mod drip;
pub mod strain;

use crate::physics::constants::STANDARD_GRAVITY;
use crate::physics::{PhysicsError, Validity, positive};
use crate::quantity::{
    Area, Density, Length, Mass, Pressure, Speed, SurfaceTension, Time, Viscosity, Volume,
};

/// Porosities of a bed.
pub const POROSITY: Validity =
    Validity { law: "the Kozeny-Carman law", quantity: "porosity", low: 0.0, high: 1.0, unit: "" };

/// Kozeny-Carman constant for beds of rounded grains (P. C. Carman, Trans. Inst. Chem. Eng. 15,
/// 1937: 5 · 36); Ergun 1952 has 150. Real beds scatter by about a factor of two.
pub const KOZENY_CARMAN: f64 = 180.0;

/// A cake filter at one pressure: the medium, the liquid and what it lays down.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CakeFilter {
    /// Filter area.
    pub area: Area,
    /// Pressure difference over cake and medium.
    pub pressure: Pressure,
    /// Viscosity of the filtrate.
    pub viscosity: Viscosity,
    /// Specific resistance of the cake [m/kg].
    pub cake_resistance_m_per_kg: f64,
    /// Dry solids laid down per volume of filtrate.
    pub solids: Density,
    /// Resistance of the medium [1/m].
    pub medium_resistance_per_m: f64,
}

impl CakeFilter {
    /// Returns the time to pass a volume of filtrate at constant pressure.
    ///
    /// `t = mu alpha c V² / (2 A² dP) + mu R_m V / (A dP)`.
    ///
    /// # Units
    /// mu [Pa·s], alpha [m/kg], c [kg/m³], V \[m³\], A \[m²\], dP \[Pa\], R_m [1/m], t \[s\].
    ///
    /// # Validity
    /// Laminar flow, an incompressible cake (else take alpha at dP, [`compressible_resistance`]), no
    /// settling on the medium.
    ///
    /// # Errors
    /// [`PhysicsError::NotPositive`] for a volume, area, pressure or viscosity of zero or less, or
    /// when cake and medium both have no resistance; [`PhysicsError::Impossible`] for a negative
    /// resistance or solids.
    ///
    /// # Source
    /// B. F. Ruth, Ind. Eng. Chem. 27:708 and 806, 1935; as in Perry's Chemical Engineers' Handbook,
    /// section 18.
    pub fn time(&self, volume: Volume) -> Result<Time, PhysicsError> {
        let (cake, medium) = self.coefficients()?;
        let v = positive("filtrate volume", volume.cubic_metres(), "m³")?;
        Ok(Time::from_seconds(cake * v * v + medium * v))
    }

    /// Returns the volume of filtrate passed after a time; inverse of [`CakeFilter::time`].
    ///
    /// `V = 2 t / (b + sqrt(b² + 4 a t))`, `t = a V² + b V`.
    ///
    /// # Units
    /// As [`CakeFilter::time`].
    ///
    /// # Validity
    /// As [`CakeFilter::time`].
    ///
    /// # Errors
    /// As [`CakeFilter::time`], and [`PhysicsError::NotPositive`] for a time of zero or less.
    ///
    /// # Source
    /// As [`CakeFilter::time`].
    pub fn volume(&self, time: Time) -> Result<Volume, PhysicsError> {
        let (a, b) = self.coefficients()?;
        let t = positive("time", time.seconds(), "s")?;
        Ok(Volume::from_cubic_metres(2.0 * t / (b + (b * b + 4.0 * a * t).sqrt())))
    }

    /// Returns the flux when a volume has passed; zero volume gives the flux of the clean medium.
    ///
    /// `J = dP / (mu (R_m + alpha c V / A))`.
    ///
    /// # Units
    /// J [m/s], the rest as [`CakeFilter::time`].
    ///
    /// # Validity
    /// As [`CakeFilter::time`].
    ///
    /// # Errors
    /// As [`CakeFilter::time`]; a clean medium without resistance gives
    /// [`PhysicsError::NotPositive`].
    ///
    /// # Source
    /// Darcy's law with resistances in series, as [`CakeFilter::time`].
    pub fn flux(&self, passed: Volume) -> Result<Speed, PhysicsError> {
        let (a, b) = self.coefficients()?;
        let area = self.area.square_metres();
        let slowness = 2.0 * a * passed.cubic_metres().max(0.0) + b;
        let slowness = positive("resistance", slowness, "s/m³")?;
        Ok(Speed::from_metres_per_second(1.0 / (slowness * area)))
    }

    /// Returns a and b of `t = a V² + b V`.
    fn coefficients(&self) -> Result<(f64, f64), PhysicsError> {
        let area = positive("filter area", self.area.square_metres(), "m²")?;
        let pressure = positive("pressure difference", self.pressure.pascals(), "Pa")?;
        let mu = positive("viscosity", self.viscosity.si(), "Pa·s")?;
        let cake = not_negative("cake resistance", self.cake_resistance_m_per_kg)?;
        let solids = not_negative("solids per filtrate", self.solids.si())?;
        let medium = not_negative("medium resistance", self.medium_resistance_per_m)?;
        positive("resistance of cake and medium", cake * solids + medium, "1/m")?;
        let a = mu * cake * solids / (2.0 * area * area * pressure);
        Ok((a, mu * medium / (area * pressure)))
    }
}

/// Returns the superficial speed through a bed by Darcy's law.
///
/// `q = k dP / (mu L)`; times the area it is the volume flow.
///
/// # Units
/// k \[m²\], dP \[Pa\], mu [Pa·s], L \[m\], q [m/s].
///
/// # Validity
/// Laminar flow (grain Reynolds number below about 1).
///
/// # Errors
/// [`PhysicsError::NotPositive`] for any input of zero or less.
///
/// # Source
/// H. Darcy, Les fontaines publiques de la ville de Dijon, 1856, appendix D.
pub fn darcy_flux(
    permeability: Area,
    pressure: Pressure,
    viscosity: Viscosity,
    thickness: Length,
) -> Result<Speed, PhysicsError> {
    let k = positive("permeability", permeability.square_metres(), "m²")?;
    let dp = positive("pressure difference", pressure.pascals(), "Pa")?;
    let mu = positive("viscosity", viscosity.si(), "Pa·s")?;
    let l = positive("bed thickness", thickness.metres(), "m")?;
    Ok(Speed::from_metres_per_second(k * dp / (mu * l)))
}

/// Returns the permeability of a bed of grains.
///
/// `k = d² e³ / (180 (1 - e)²)`.
///
/// # Units
/// d \[m\], e none, k \[m²\].
///
/// # Validity
/// [`POROSITY`], both ends excluded; rounded grains of one size, laminar flow; real beds scatter by
/// about a factor of two.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] or [`PhysicsError::NotPositive`] for a porosity outside it or a
/// diameter of zero or less.
///
/// # Source
/// P. C. Carman, Trans. Inst. Chem. Eng. 15:150, 1937; constant see [`KOZENY_CARMAN`].
pub fn permeability_kozeny_carman(diameter: Length, porosity: f64) -> Result<Area, PhysicsError> {
    let (d, e) = grain_and_porosity(diameter, porosity)?;
    Ok(Area::from_square_metres(d * d * e.powi(3) / (KOZENY_CARMAN * (1.0 - e).powi(2))))
}

/// Returns the specific resistance of a cake of grains [m/kg].
///
/// `alpha = 1 / (k rho_s (1 - e)) = 180 (1 - e) / (rho_s d² e³)`.
///
/// # Units
/// rho_s [kg/m³], d \[m\], alpha [m/kg].
///
/// # Validity
/// As [`permeability_kozeny_carman`].
///
/// # Errors
/// As [`permeability_kozeny_carman`], and [`PhysicsError::NotPositive`] for the density.
///
/// # Source
/// As [`permeability_kozeny_carman`].
pub fn cake_resistance_of_grains(
    diameter: Length,
    porosity: f64,
    solid_density: Density,
) -> Result<f64, PhysicsError> {
    let (d, e) = grain_and_porosity(diameter, porosity)?;
    let rho = positive("density of the solids", solid_density.si(), "kg/m³")?;
    Ok(KOZENY_CARMAN * (1.0 - e) / (rho * d * d * e.powi(3)))
}

/// Returns the specific resistance of a compressible cake at a pressure [m/kg].
///
/// `alpha = alpha_0 (dP / dP_0)^s`; near s = 1 more pressure filters no faster.
///
/// # Units
/// alpha [m/kg], dP \[Pa\], s none.
///
/// # Validity
/// s from 0 (rigid grains) to 1.2 (pectin-rich pulp), pressures within about a factor of ten of dP_0.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a resistance or pressure of zero or less;
/// [`PhysicsError::OutsideValidity`] for an exponent outside 0 to 1.2.
///
/// # Source
/// L. Svarovsky, Solid-Liquid Separation, 4th ed., 2000, chapter 9 (from memory).
pub fn compressible_resistance(
    reference_m_per_kg: f64,
    reference_pressure: Pressure,
    pressure: Pressure,
    compressibility: f64,
) -> Result<f64, PhysicsError> {
    const COMPRESSIBILITY: Validity = Validity {
        law: "the power law of compressible cakes",
        quantity: "compressibility",
        low: 0.0,
        high: 1.2,
        unit: "",
    };
    let s = COMPRESSIBILITY.check(compressibility)?;
    let alpha = positive("cake resistance", reference_m_per_kg, "m/kg")?;
    let from = positive("reference pressure", reference_pressure.pascals(), "Pa")?;
    let to = positive("pressure difference", pressure.pascals(), "Pa")?;
    Ok(alpha * (to / from).powf(s))
}

/// Returns the flux of a membrane with straight pores.
///
/// `J = e r² dP / (8 mu L tau)`, with the osmotic pressure difference taken off dP by the caller.
///
/// # Units
/// r \[m\], dP \[Pa\], mu [Pa·s], L \[m\], J [m/s].
///
/// # Validity
/// Clean membrane, pores well above 2 nm; porosity below 1.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for any input of zero or less; [`PhysicsError::OutsideValidity`] for
/// a porosity above 1.
///
/// # Source
/// Hagen-Poiseuille; M. Cheryan, Ultrafiltration and Microfiltration Handbook, 2nd ed., 1998,
/// chapter 4 (from memory).
pub fn membrane_flux(
    membrane: Membrane,
    pressure: Pressure,
    viscosity: Viscosity,
) -> Result<Speed, PhysicsError> {
    let r = positive("pore radius", membrane.pore_radius.metres(), "m")?;
    let e = positive("porosity", POROSITY.check(membrane.porosity)?, "")?;
    let l = positive("membrane thickness", membrane.thickness.metres(), "m")?;
    let tau = positive("tortuosity", membrane.tortuosity, "")?;
    let dp = positive("pressure difference", pressure.pascals(), "Pa")?;
    let mu = positive("viscosity", viscosity.si(), "Pa·s")?;
    Ok(Speed::from_metres_per_second(e * r * r * dp / (8.0 * mu * l * tau)))
}

/// A membrane with straight round pores.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Membrane {
    /// Radius of a pore.
    pub pore_radius: Length,
    /// Share of the area, or volume, that is pores.
    pub porosity: f64,
    /// Thickness of the layer that filters.
    pub thickness: Length,
    /// Path length over thickness; 1 for straight pores.
    pub tortuosity: f64,
}

/// Returns the pressure with which a pore draws in a wetting liquid, or air must push it out.
///
/// `p = 2 sigma cos(theta) / r`; negative for a liquid that does not wet.
///
/// # Units
/// sigma [N/m], theta \[rad\], r \[m\], p \[Pa\].
///
/// # Validity
/// Round pores.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a radius or tension of zero or less.
///
/// # Source
/// Young 1805, Laplace 1806.
pub fn capillary_pressure(
    surface_tension: SurfaceTension,
    contact_angle_rad: f64,
    pore_radius: Length,
) -> Result<Pressure, PhysicsError> {
    let sigma = positive("surface tension", surface_tension.si(), "N/m")?;
    let r = positive("pore radius", pore_radius.metres(), "m")?;
    Ok(Pressure::from_pascals(2.0 * sigma * contact_angle_rad.cos() / r))
}

/// Returns the height to which a liquid climbs against gravity, or below which a cake stays soaked.
///
/// `h = p / (rho g)`.
///
/// # Units
/// p \[Pa\], rho [kg/m³], g [m/s²], h \[m\].
///
/// # Validity
/// Radius well below the height.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a density of zero or less.
///
/// # Source
/// J. Jurin, Phil. Trans. 30, 1718.
pub fn capillary_rise(pressure: Pressure, density: Density) -> Result<Length, PhysicsError> {
    let rho = positive("liquid density", density.si(), "kg/m³")?;
    Ok(Length::from_metres(pressure.pascals() / (rho * STANDARD_GRAVITY)))
}

/// Returns the volume of liquid that stays in a cake.
///
/// `V = S e / (1 - e) m / rho_s`.
///
/// # Units
/// m \[kg\], rho_s [kg/m³], S and e none, V \[m³\].
///
/// # Validity
/// Saturation S from 0 to 1, porosity e below 1; liquid inside the particles counts as particle.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a density or porosity of zero or less;
/// [`PhysicsError::OutsideValidity`] for a porosity or saturation above 1;
/// [`PhysicsError::Impossible`] for a negative mass or saturation.
///
/// # Source
/// Volume balance.
pub fn liquid_in_cake(
    dry_solids: Mass,
    solid_density: Density,
    porosity: f64,
    saturation: f64,
) -> Result<Volume, PhysicsError> {
    const SATURATION: Validity = Validity {
        law: "the liquid held in a cake",
        quantity: "saturation",
        low: 0.0,
        high: 1.0,
        unit: "",
    };
    let m = not_negative("dry solids", dry_solids.kilograms())?;
    let rho = positive("density of the solids", solid_density.si(), "kg/m³")?;
    let e = open_porosity(porosity)?;
    let s = SATURATION.check(saturation)?;
    Ok(Volume::from_cubic_metres(s * e / (1.0 - e) * m / rho))
}

fn grain_and_porosity(diameter: Length, porosity: f64) -> Result<(f64, f64), PhysicsError> {
    Ok((positive("grain diameter", diameter.metres(), "m")?, open_porosity(porosity)?))
}

/// Passes a porosity above 0 and below 1.
fn open_porosity(porosity: f64) -> Result<f64, PhysicsError> {
    let e = positive("porosity", POROSITY.check(porosity)?, "")?;
    positive("solids share", 1.0 - e, "")?;
    Ok(e)
}

fn not_negative(quantity: &'static str, value: f64) -> Result<f64, PhysicsError> {
    if value >= 0.0 {
        Ok(value)
    } else {
        Err(PhysicsError::Impossible { what: quantity, because: format!("{value} is below zero") })
    }
}

#[cfg(test)]
mod tests;
