//! Physical properties of a batch, from its composition.

use super::{Batch, Component, Markers};
use crate::physics::droplets::stability::cream_ring_time;
use crate::physics::food_thermal::{self, Composition};
use crate::physics::settling::{Liquid, Suspension, hindered_ratio, terminal_speed};
use crate::physics::solutions::{self as solutions, Solute, Solution};
use crate::physics::{PhysicsError, water};
use crate::quantity::{
    Acceleration, Density, Length, Mass, Pressure, SpecificHeat, Temperature, Time, Viscosity,
    Volume,
};

/// A ring of cream this high is seen. Common practice.
const CREAM_RING: Length = Length::from_millimetres(3.0);
/// Emulsions are judged at this temperature [°C]. Common practice.
const REFRIGERATOR: f64 = 5.0;
/// Density of oil at 5 °C [kg/m³]: 925.6 - 0.418 t (Choi & Okos 1986), rounded.
const OIL_DENSITY: f64 = 925.0;
/// Creaming is not followed beyond a year.
pub const LONGEST_CREAMING: Time = Time::from_days(365.0);

/// Density of ethanol at 20 °C [kg/m³]: OIML R 22, 1975.
const ETHANOL_DENSITY: f64 = 789.24;
/// The strongest syrup for which density and viscosity are asked, as a share.
const STRONGEST: f64 = 0.85;
/// Densities and viscosities of food liquids are asked within these temperatures [°C].
const PROPERTY_RANGE: (f64, f64) = (0.0, 80.0);
/// Share of the soluble pectin and protein in what thickens a juice: viscosity of pulp-free fruit juice
/// over that of syrup of the same strength. Estimate: 1.2-2 for fresh juices.
const JUICE_OVER_SYRUP: f64 = 1.4;

impl Batch {
    /// Returns what is dissolved in the water of the batch, ice counted as water.
    ///
    /// # Errors
    /// [`PhysicsError`] when no water is left, or more is dissolved than the law covers.
    pub fn solution(&self) -> Result<Solution, PhysicsError> {
        self.solution_in(self.contents.mass(Component::Water))
    }

    /// Returns the solution that the solutes make in another amount of water.
    ///
    /// # Errors
    /// As [`Batch::solution`].
    pub(super) fn solution_in(&self, water: Mass) -> Result<Solution, PhysicsError> {
        let c = &self.contents;
        let sugars = c[Component::Sugars];
        let hexose = sugars * self.monosaccharides * 0.5;
        let kg = Mass::from_kilograms;
        Solution::in_water(
            water,
            &[
                (Solute::Sucrose, kg(sugars * (1.0 - self.monosaccharides))),
                (Solute::Glucose, kg(hexose)),
                (Solute::Fructose, kg(hexose)),
                (Solute::MalicAcid, c.mass(Component::Acid)),
                (Solute::Salt, c.mass(Component::Salt)),
            ],
        )
    }

    /// Returns the mass shares by which thermal properties are computed.
    ///
    /// Ethanol is counted with the water, whose heat capacity is nearer to its own than that of any
    /// solid.
    pub fn thermal_composition(&self) -> Composition {
        use Component::{Acid, Ethanol, Fat, Fibre, Other, Protein, Salt, Starch, Sugars, Water};
        let share = |component| self.contents.share(component);
        Composition {
            water: share(Water) + share(Ethanol),
            protein: share(Protein),
            fat: share(Fat),
            carbohydrate: share(Sugars) + share(Starch) + share(Acid) + share(Other),
            fibre: share(Fibre),
            ash: share(Salt),
        }
    }

    /// Returns the heat capacity of the unfrozen batch.
    ///
    /// # Errors
    /// As [`food_thermal::heat_capacity`].
    pub fn heat_capacity(&self) -> Result<SpecificHeat, PhysicsError> {
        let celsius = self.temperature.celsius().clamp(0.0, 100.0);
        let at = Temperature::from_celsius(celsius);
        food_thermal::heat_capacity(self.thermal_composition(), 0.0, at)
    }

    /// Returns the density of the batch without air.
    ///
    /// # Errors
    /// As [`food_thermal::density`].
    pub fn density(&self) -> Result<Density, PhysicsError> {
        let at = Temperature::from_celsius(self.temperature.celsius().clamp(0.0, 100.0));
        let food = food_thermal::density(self.thermal_composition(), 0.0, at)?;
        let ethanol = self.contents.share(Component::Ethanol);
        let specific = (1.0 - ethanol) / food.si() + ethanol / ETHANOL_DENSITY;
        Ok(Density::from_si(1.0 / specific))
    }

    /// Returns the volume of the batch, its air included.
    ///
    /// # Errors
    /// As [`Batch::density`].
    pub fn volume(&self) -> Result<Volume, PhysicsError> {
        let solid = self.mass() / self.density()?;
        Ok(solid * ((1.0 + self.air) / (1.0 - self.pores).max(0.1)))
    }

    /// Returns the strength of the alcohol as a volume share at 20 °C.
    pub fn alcohol_by_volume(&self) -> f64 {
        let ethanol = self.contents[Component::Ethanol] / ETHANOL_DENSITY;
        match self.density() {
            Ok(density) if ethanol > 0.0 => ethanol / (self.mass() / density).cubic_metres(),
            _ => 0.0,
        }
    }

    /// Returns the temperature at which the batch boils; sugar and acid raise it.
    ///
    /// # Errors
    /// [`PhysicsError`] outside the range of the solution law.
    pub fn boiling_point(&self, pressure: Pressure) -> Result<Temperature, PhysicsError> {
        if self.contents.solutes().kilograms() <= 0.0 {
            return water::saturation_temperature(pressure);
        }
        self.solution()?.boiling_point(pressure)
    }

    /// Returns the water activity at a temperature.
    ///
    /// # Errors
    /// [`PhysicsError`] outside the range of the solution law.
    pub fn water_activity_of_solution(&self, at: Temperature) -> Result<f64, PhysicsError> {
        self.solution()?.water_activity(at)
    }

    /// Returns the viscosity of the liquid between the particles.
    ///
    /// # Errors
    /// As [`solutions::viscosity`].
    pub fn liquid_viscosity(&self, at: Temperature) -> Result<Viscosity, PhysicsError> {
        let strength = self.contents.soluble_solids().min(STRONGEST);
        let syrup = solutions::viscosity(strength, within_range(at))?;
        // Split pectin no longer thickens.
        Ok(syrup * (1.0 + (JUICE_OVER_SYRUP - 1.0) * self.pectin))
    }

    /// Returns the density of the liquid between the particles.
    ///
    /// # Errors
    /// As [`solutions::density`].
    pub fn liquid_density(&self, at: Temperature) -> Result<Density, PhysicsError> {
        solutions::density(self.contents.soluble_solids().min(STRONGEST), within_range(at))
    }

    /// Returns the size below which nine tenths of the suspended mass lies, or `None` without pulp.
    pub fn largest_particle(&self) -> Option<Length> {
        let pulp = self.pulp.filter(|pulp| pulp.dry > Mass::ZERO);
        pulp.map(|pulp| pulp.sizes.d90())
    }

    /// Returns the time until a ring of cream stands on it at the temperature of a refrigerator.
    ///
    /// Single droplets; half of the fat has to come past the ring for it to be seen. `None` without
    /// droplets; the longest time that is told is `LONGEST_CREAMING`.
    pub fn time_to_cream(&self) -> Option<Time> {
        let sizes = self.droplets.filter(|_| self.contents[Component::Fat] > 0.0)?;
        let cold = Temperature::from_celsius(REFRIGERATOR);
        let liquid = Liquid {
            density: self.liquid_density(cold).ok()?,
            viscosity: self.liquid_viscosity(cold).ok()?,
        };
        let suspension = Suspension::dilute(Density::from_si(OIL_DENSITY), liquid);
        let oil = self.contents[Component::Fat] / OIL_DENSITY;
        let share = oil / (self.mass() / self.density().ok()?).cubic_metres();
        let one = Acceleration::from_standard_gravities(1.0);
        let speed = terminal_speed(sizes.mass_mean(), &suspension, one).ok()?.abs();
        let slowed = speed * hindered_ratio(share.min(0.6), 0.0).ok()?;
        let seen = cream_ring_time(CREAM_RING, share, slowed);
        Some(seen.unwrap_or(LONGEST_CREAMING).min(LONGEST_CREAMING))
    }

    /// Returns the dry mass of suspended matter as a share of the batch.
    pub fn suspended_share(&self) -> f64 {
        let dry = self.pulp.map_or(0.0, |pulp| pulp.dry.kilograms());
        let mass = self.mass().kilograms();
        if mass > 0.0 { dry / mass } else { 0.0 }
    }
}

fn within_range(at: Temperature) -> Temperature {
    Temperature::from_celsius(at.celsius().clamp(PROPERTY_RANGE.0, PROPERTY_RANGE.1))
}

/// Mixes two batches: masses add, temperature and markers by mass, heat history by the heavier.
///
/// The temperature is that of equal heat capacities; markers are weighted by the share of mass
/// from the batch that carries them.
#[must_use]
pub fn mixed(a: &Batch, b: &Batch) -> Batch {
    let (ma, mb) = (a.mass().kilograms(), b.mass().kilograms());
    let total = ma + mb;
    if total <= 0.0 || mb <= 0.0 {
        return *a;
    }
    if ma <= 0.0 {
        return *b;
    }
    let by_mass = |x: f64, y: f64| (x * ma + y * mb) / total;
    let (major, minor) = if ma >= mb { (a, b) } else { (b, a) };
    let mut aroma = Markers::default();
    major.aroma.iter().chain(minor.aroma.iter()).for_each(|marker| aroma.push(*marker));
    let sugars = |x: &Batch| x.contents[Component::Sugars];
    let sugar_total = sugars(a) + sugars(b);
    let monosaccharides = if sugar_total > 0.0 {
        (a.monosaccharides * sugars(a) + b.monosaccharides * sugars(b)) / sugar_total
    } else {
        major.monosaccharides
    };
    let pulp = match (a.pulp, b.pulp) {
        (Some(x), Some(y)) => {
            let larger = if x.dry >= y.dry { x } else { y };
            Some(super::Pulp { dry: x.dry + y.dry, ..larger })
        }
        (x, y) => x.or(y),
    };
    Batch {
        contents: a.contents + b.contents,
        monosaccharides,
        temperature: Temperature::from_kelvin(by_mass(
            a.temperature.kelvin(),
            b.temperature.kelvin(),
        )),
        pulp,
        droplets: major.droplets.or(minor.droplets),
        grain: major.grain.or(minor.grain),
        air: by_mass(a.air, b.air),
        pores: by_mass(a.pores, b.pores),
        gas: a.gas + b.gas,
        pectin: by_mass(a.pectin, b.pectin),
        ph: by_mass(a.ph, b.ph),
        added: a.added + b.added,
        heat: super::HeatHistory::together(&major.heat, &minor.heat),
        aroma,
        elapsed: a.elapsed.max(b.elapsed),
        attended: a.attended + b.attended,
        ..*major
    }
}
