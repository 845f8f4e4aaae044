//! Droplet sizes in turbulent flow: stirrers, rotor-stators, valves.
//!
//! All sizes are what long mixing of a small volume reaches; open blades in a large jar stay above
//! them. Symbols as in the parent module; We Weber number, Vi viscosity number.

use crate::physics::{PhysicsError, Validity, positive, solve};
use crate::quantity::{
    Density, Length, Pressure, RotationSpeed, SpecificPower, SurfaceTension, Viscosity,
};

/// Coefficient of the largest stable droplet (J. O. Hinze, AIChE J. 1:289-295, 1955).
const HINZE: f64 = 0.725;
/// The root of the viscous correction is found to this accuracy.
const GROWTH_TOLERANCE: f64 = 1e-12;

/// Volume shares of droplets for the crowding factor.
pub const DROPLET_SHARE: Validity = Validity {
    law: "the crowding factor of turbulent emulsifying",
    quantity: "volume share of droplets",
    low: 0.0,
    high: 0.6,
    unit: "",
};

/// The two liquids of an emulsion.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LiquidPair {
    /// Interfacial tension with the emulsifier at hand.
    pub tension: SurfaceTension,
    /// Density of the liquid around the droplets.
    pub continuous_density: Density,
    /// Density of the droplets.
    pub dispersed_density: Density,
    /// Viscosity of the droplets.
    pub dispersed_viscosity: Viscosity,
}

/// Returns the largest droplet that turbulence leaves whole.
///
/// `d_max = 0.725 (sigma / rho_c)^0.6 eps^-0.4`.
///
/// # Units
/// sigma [N/m], rho [kg/m³], eps [W/kg], d \[m\].
///
/// # Validity
/// Thin droplets, few of them, larger than the smallest eddies
/// ([`super::kolmogorov_length`]); itself good to about 30 %.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for any input of zero or less.
///
/// # Source
/// J. O. Hinze, AIChE J. 1:289-295, 1955.
pub fn largest_droplet_hinze(
    tension: SurfaceTension,
    continuous_density: Density,
    power: SpecificPower,
) -> Result<Length, PhysicsError> {
    let sigma = positive("interfacial tension", tension.si(), "N/m")?;
    let rho = positive("density of the liquid", continuous_density.si(), "kg/m³")?;
    let eps = positive("power per mass", power.si(), "W/kg")?;
    Ok(Length::from_metres(HINZE * (sigma / rho).powf(0.6) * eps.powf(-0.4)))
}

/// Returns the largest droplet that turbulence leaves whole when the droplets are viscous.
///
/// `d = 0.725 ((sigma + mu_d u / 4) / rho_c)^0.6 eps^-0.4` with `u = sqrt(2) (eps d)^(1/3)`.
///
/// # Units
/// As [`largest_droplet_hinze`]; mu [Pa·s], u [m/s].
///
/// # Validity
/// As [`largest_droplet_hinze`], droplets of any viscosity.
///
/// # Errors
/// As [`largest_droplet_hinze`]; [`PhysicsError::NotPositive`] for the viscosity.
///
/// # Source
/// J. T. Davies, Chem. Eng. Sci. 40:839-842, 1985 (from memory).
pub fn largest_droplet_davies(
    liquids: &LiquidPair,
    power: SpecificPower,
) -> Result<Length, PhysicsError> {
    let thin = largest_droplet_hinze(liquids.tension, liquids.continuous_density, power)?;
    let mu = positive("viscosity of the droplets", liquids.dispersed_viscosity.si(), "Pa·s")?;
    let eddy = std::f64::consts::SQRT_2 * (power.si() * thin.metres()).cbrt();
    Ok(thin * viscous_growth(mu * eddy / (4.0 * liquids.tension.si()))?)
}

/// How the mean droplet of a mixer follows from its Weber number.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MixerLaw {
    /// C in `d₃₂ / D = C We^-n`.
    pub coefficient: f64,
    /// n.
    pub exponent: f64,
    /// B, the weight of the viscosity number.
    pub viscosity_weight: f64,
}

/// A rotor in a slotted stator: C 0.040, n 0.58 (from memory: R. V. Calabrese et al., 10th European
/// Conference on Mixing, 2000); B as for open blades (estimate).
pub const ROTOR_STATOR: MixerLaw =
    MixerLaw { coefficient: 0.040, exponent: 0.58, viscosity_weight: 0.97 };

/// An open blade: C 0.053, n 0.6 (H. T. Chen & S. Middleman, AIChE J. 13:989, 1967), B 0.97
/// (C. Y. Wang & R. V. Calabrese, AIChE J. 32:667, 1986); all from memory.
pub const OPEN_BLADE: MixerLaw =
    MixerLaw { coefficient: 0.053, exponent: 0.6, viscosity_weight: 0.97 };

/// Growth of the mean droplet per volume share of droplets, from damped turbulence and from
/// droplets that meet. Published 1 to 5; 3 is their middle (from memory: reviews of Hinze's law).
pub const CROWDING_GROWTH: f64 = 3.0;

/// Returns the Sauter mean droplet that long mixing reaches.
///
/// `d₃₂/D = C We^-n (1 + B Vi (d₃₂/D)^(1/3))^0.6 (1 + 3 phi)`, `We = rho_c N² D³ / sigma`,
/// `Vi = mu_d N D / sigma (rho_c/rho_d)^(1/2)`.
///
/// # Units
/// N [1/s], D \[m\], rho [kg/m³], sigma [N/m], mu [Pa·s], d₃₂ \[m\].
///
/// # Validity
/// Turbulent flow, small volume, long mixing; phi in [`DROPLET_SHARE`]. An open blade in a
/// household jar ends 1.5 to 6 times coarser (estimate).
///
/// # Errors
/// [`PhysicsError::NotPositive`] for any input of zero or less;
/// [`PhysicsError::OutsideValidity`] for the share of droplets.
///
/// # Source
/// As [`ROTOR_STATOR`], [`OPEN_BLADE`] and [`CROWDING_GROWTH`].
pub fn mixer_sauter_mean(
    law: MixerLaw,
    liquids: &LiquidPair,
    diameter: Length,
    rotation: RotationSpeed,
    droplet_share: f64,
) -> Result<Length, PhysicsError> {
    let d = positive("rotor diameter", diameter.metres(), "m")?;
    let n = positive("rotor speed", rotation.turns_per_second(), "1/s")?;
    let sigma = positive("interfacial tension", liquids.tension.si(), "N/m")?;
    let rho = positive("density of the liquid", liquids.continuous_density.si(), "kg/m³")?;
    let rho_d = positive("density of the droplets", liquids.dispersed_density.si(), "kg/m³")?;
    let mu = positive("viscosity of the droplets", liquids.dispersed_viscosity.si(), "Pa·s")?;
    let phi = DROPLET_SHARE.check(droplet_share)?;
    let weber = rho * n * n * d.powi(3) / sigma;
    let viscosity_number = mu * n * d / sigma * (rho / rho_d).sqrt();
    let thin = law.coefficient * weber.powf(-law.exponent);
    let growth = viscous_growth(law.viscosity_weight * viscosity_number * thin.cbrt())?;
    Ok(Length::from_metres(d * thin * growth * (1.0 + CROWDING_GROWTH * phi)))
}

/// Solves `x = (1 + b x^(1/3))^0.6`, the growth of a droplet by its own viscosity.
///
/// For x of at least 1, `1 + b x^(1/3)` is at most `(1 + b) x^(1/3)`, hence `x <= (1 + b)^0.75`.
fn viscous_growth(b: f64) -> Result<f64, PhysicsError> {
    let highest = (1.0 + b).powf(0.75);
    let balance = |x: f64| x - (1.0 + b * x.cbrt()).powf(0.6);
    solve::root("viscous droplet size", 1.0, highest, GROWTH_TOLERANCE, balance)
}

/// How the mean droplet falls with the energy put into a volume, `d₃₂ = d₁ (E / E₁)^-b`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EnergyLaw {
    /// d₁, the mean droplet at the reference energy density.
    pub size: Length,
    /// E₁, the reference energy density or homogenising pressure.
    pub energy: Pressure,
    /// b.
    pub exponent: f64,
}

/// Milk in a two-stage valve: d₃₂ 0.76 µm at 5 MPa and 0.33 µm at 20 MPa (from memory: P. Walstra et
/// al., Dairy Science and Technology, 2006, after Walstra 1975), which gives b 0.6.
pub const MILK_IN_VALVE: EnergyLaw = EnergyLaw {
    size: Length::from_micrometres(0.76),
    energy: Pressure::from_kilopascals(5000.0),
    exponent: 0.6,
};

/// Oil in water by rotor-stator: 10 µm at 1 MJ/m³, b 0.4 (exponent from memory: H. Karbstein & H.
/// Schubert 1995; size is an estimate, 6 to 16 µm).
pub const OIL_IN_ROTOR_STATOR: EnergyLaw = EnergyLaw {
    size: Length::from_micrometres(10.0),
    energy: Pressure::from_kilopascals(1000.0),
    exponent: 0.4,
};

/// Energy densities, or pressures, for which the power laws are used.
pub const ENERGY_DENSITY: Validity = Validity {
    law: "the energy law of emulsifying",
    quantity: "energy density",
    low: 0.01,
    high: 1000.0,
    unit: "MJ/m³",
};

impl EnergyLaw {
    /// Returns the Sauter mean droplet at an energy density or homogenising pressure.
    ///
    /// `d₃₂ = d₁ (E / E₁)^-b`.
    ///
    /// # Units
    /// E [J/m³ = Pa], d \[m\].
    ///
    /// # Validity
    /// [`ENERGY_DENSITY`]; enough emulsifier to cover what is made.
    ///
    /// # Errors
    /// [`PhysicsError::OutsideValidity`] for an energy density outside it.
    ///
    /// # Source
    /// As the law's constants; the form d = (P₀/P)^q: J. Dairy Research, Factors affecting the fat
    /// globule sizes during the homogenization of milk and cream.
    pub fn sauter_mean(&self, energy: Pressure) -> Result<Length, PhysicsError> {
        ENERGY_DENSITY.check(energy.pascals() * 1e-6)?;
        Ok(self.size * (energy / self.energy).powf(-self.exponent))
    }

    /// Returns the energy density that makes a Sauter mean droplet; inverse of
    /// [`EnergyLaw::sauter_mean`].
    ///
    /// # Errors
    /// [`PhysicsError::NotPositive`] for a size of zero or less; [`PhysicsError::OutsideValidity`]
    /// when the energy density falls outside the law.
    pub fn energy_for(&self, size: Length) -> Result<Pressure, PhysicsError> {
        positive("droplet diameter", size.metres(), "m")?;
        let energy = self.energy * (size / self.size).powf(-1.0 / self.exponent);
        ENERGY_DENSITY.check(energy.pascals() * 1e-6)?;
        Ok(energy)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn oil(viscosity: f64) -> LiquidPair {
        LiquidPair {
            tension: SurfaceTension::from_si(5e-3),
            continuous_density: Density::from_si(1000.0),
            dispersed_density: Density::from_si(920.0),
            dispersed_viscosity: Viscosity::from_si(viscosity),
        }
    }

    #[test]
    fn viscous_droplets_are_larger_and_thin_ones_as_hinze_says() {
        let power = SpecificPower::from_si(1e3);
        let hinze = largest_droplet_hinze(oil(1.0).tension, oil(1.0).continuous_density, power);
        let thin = largest_droplet_davies(&oil(1e-9), power).unwrap();
        assert!((thin / hinze.unwrap() - 1.0).abs() < 1e-6);
        assert!(largest_droplet_davies(&oil(0.06), power).unwrap() > thin);
    }

    #[test]
    fn the_viscous_correction_meets_its_own_equation() {
        for b in [1e-6, 0.1, 1.0, 30.0, 1e4] {
            let x = viscous_growth(b).unwrap();
            assert!((x / (1.0 + b * x.cbrt()).powf(0.6) - 1.0).abs() < 1e-9);
        }
    }

    #[test]
    fn faster_larger_rotors_make_finer_droplets() {
        let size = |mm: f64, rpm: f64, phi: f64| {
            let (d, n) = (Length::from_millimetres(mm), RotationSpeed::from_rpm(rpm));
            mixer_sauter_mean(ROTOR_STATOR, &oil(0.06), d, n, phi).unwrap()
        };
        assert!(size(25.0, 20_000.0, 0.1) < size(25.0, 10_000.0, 0.1));
        assert!(size(25.0, 10_000.0, 0.3) > size(25.0, 10_000.0, 0.1));
        // Rotor-stators make means of 2 µm to 10 µm: D. J. McClements, Food Emulsions, 2015, ch. 6.
        let typical = size(25.0, 10_000.0, 0.1).micrometres();
        assert!((2.0..10.0).contains(&typical), "{typical}");
    }

    #[test]
    fn size_and_energy_are_inverses() {
        for law in [MILK_IN_VALVE, OIL_IN_ROTOR_STATOR] {
            let energy = Pressure::from_kilopascals(12_000.0);
            let back = law.energy_for(law.sauter_mean(energy).unwrap()).unwrap();
            assert!((back / energy - 1.0).abs() < 1e-9);
        }
    }

    #[test]
    fn inputs_out_of_range_are_refused() {
        let (d, n) = (Length::from_millimetres(25.0), RotationSpeed::from_rpm(10_000.0));
        assert!(mixer_sauter_mean(OPEN_BLADE, &oil(0.06), d, n, 0.8).is_err());
        assert!(mixer_sauter_mean(OPEN_BLADE, &oil(0.0), d, n, 0.1).is_err());
        assert!(mixer_sauter_mean(OPEN_BLADE, &oil(0.06), Length::ZERO, n, 0.1).is_err());
        let power = SpecificPower::from_si(1e3);
        assert!(largest_droplet_davies(&oil(0.0), power).is_err());
        assert!(largest_droplet_davies(&oil(0.06), SpecificPower::ZERO).is_err());
        assert!(MILK_IN_VALVE.sauter_mean(Pressure::ZERO).is_err());
        assert!(MILK_IN_VALVE.energy_for(Length::ZERO).is_err());
        assert!(MILK_IN_VALVE.energy_for(Length::from_micrometres(0.001)).is_err());
    }
}
