//! Drying a frozen food without melting it: under vacuum, and slowly in a freezer.
//!
//! The dried layer grows from one face towards the other; heat comes through the frozen rest from
//! the shelf, or through the dried layer from a warm plate or lamp. The last bound water
//! (secondary drying) is a share of the whole time.
//! Symbols: l dried depth, L thickness, p_c chamber pressure, t_i temperature of the ice front,
//! r resistance of the dried layer, j flux, h heat of sublimation, k conductivity.

use super::evaporation::{Surroundings, flux_between};
use super::solve::{integral, root};
use super::{PhysicsError, Validity, ice, positive};
use crate::physics::atmosphere::HumidAir;
use crate::physics::constants::{GAS_CONSTANT, WATER_MOLAR_MASS};
use crate::quantity::{
    Conductivity, Density, Diffusivity, HeatTransfer, Length, MassFlux, Pressure, Temperature, Time,
};

/// Melting point of pure ice under its own vapour \[K\]: IAPWS R14-08.
const TRIPLE_POINT: f64 = 273.16;
/// The front is sought from this temperature up \[K\].
const COLDEST_FRONT: f64 = 173.15;
/// Conductivity of ice at -20 °C [W/(m K)]: from memory, Slack 1980, Physical Review B 22.
pub const ICE_CONDUCTIVITY: Conductivity = Conductivity::from_watts_per_metre_kelvin(2.4);
/// Conductivity of freeze-dried food under vacuum, low, typical and high [W/(m K)]: from memory,
/// Saravacos & Maroulis, Transport Properties of Foods, 2001.
pub const DRIED_LAYER_CONDUCTIVITY: [Conductivity; 3] = [
    Conductivity::from_watts_per_metre_kelvin(0.02),
    Conductivity::from_watts_per_metre_kelvin(0.035),
    Conductivity::from_watts_per_metre_kelvin(0.06),
];
/// Resistance of a dried cake of 5 % sucrose, 1.4 cm² Torr h/g and 16 cm Torr h/g more per depth
/// (from memory: Pikal 1985, Use of laboratory data in freeze drying process design, PDA Journal
/// 39), here in m/s and 1/s.
pub const SUCROSE_CAKE: CakeResistance =
    CakeResistance { at_surface_m_per_s: 6.72e4, per_depth_per_s: 7.68e7 };
/// Share of the whole time that secondary drying takes: 40 % for a 12.5 mm slab of coffee extract
/// (a food-processing encyclopaedia restated at barnardhealth.us, Drying Time).
pub const SECONDARY_SHARE: f64 = 0.4;

const CHAMBER: Validity = Validity {
    law: "freeze drying under vacuum",
    quantity: "chamber pressure",
    low: 0.1,
    high: 600.0,
    unit: "Pa",
};
const SHELF: Validity = Validity {
    law: "freeze drying under vacuum",
    quantity: "shelf temperature",
    low: -60.0,
    high: 120.0,
    unit: "°C",
};

/// Published collapse temperatures [°C] by food and share of solids.
///
/// From memory: Bellows & King 1973, Product collapse during freeze drying of liquid foods, AIChE
/// Symposium Series 69, for the juices and coffee; Fellows, Food Processing Technology, chapter on
/// freeze drying, for the rest.
pub const COLLAPSE_TEMPERATURES: &[(&str, f64, f64)] = &[
    ("orange juice", -24.0, -24.0),
    ("grapefruit juice", -30.5, -30.5),
    ("apple juice", -41.5, -41.5),
    ("pineapple juice", -41.5, -41.5),
    ("coffee", -20.0, -20.0),
    ("tomato", -41.0, -41.0),
    ("potato", -12.0, -12.0),
    ("ice cream", -33.0, -31.0),
    ("fish", -12.0, -6.0),
    ("beef", -12.0, -12.0),
];

/// Resistance of a dried layer to vapour, growing with depth: `r = r0 + r1 l`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CakeResistance {
    /// Resistance at no depth [Pa m² s/kg = m/s].
    pub at_surface_m_per_s: f64,
    /// Growth with depth [1/s].
    pub per_depth_per_s: f64,
}

impl CakeResistance {
    /// Returns the resistance at a dried depth [m/s].
    pub fn at(&self, dried: Length) -> f64 {
        self.at_surface_m_per_s + self.per_depth_per_s * dried.metres()
    }
}

/// Where the heat of sublimation comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum HeatPath {
    /// From the shelf, through the frozen rest.
    ThroughFrozen(Conductivity),
    /// From a plate or lamp, through the dried layer.
    ThroughDried(Conductivity),
}

/// A slab in a freeze dryer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FreezeDrying {
    /// Temperature of the shelf or plate.
    pub shelf: Temperature,
    /// Pressure in the chamber.
    pub chamber: Pressure,
    /// Heat transfer between shelf and food.
    pub contact: HeatTransfer,
    /// Where the heat goes.
    pub path: HeatPath,
    /// Depth that dries.
    pub thickness: Length,
    /// Ice per volume of food.
    pub ice: Density,
    /// Resistance of the dried layer.
    pub cake: CakeResistance,
}

/// The ice front at one dried depth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Front {
    /// Temperature of the front.
    pub temperature: Temperature,
    /// Flux of vapour.
    pub flux: MassFlux,
}

/// How a slab freeze-dried.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FreezeDried {
    /// Time of sublimation.
    pub primary: Time,
    /// The warmest that the front became.
    pub warmest_front: Temperature,
    /// Flux at the first moment and at the last.
    pub flux: (MassFlux, MassFlux),
}

impl FreezeDrying {
    fn checked(&self) -> Result<(), PhysicsError> {
        CHAMBER.check(self.chamber.pascals())?;
        SHELF.check(self.shelf.celsius())?;
        positive("heat transfer from the shelf", self.contact.si(), "W/(m² K)")?;
        positive("thickness", self.thickness.si(), "m")?;
        positive("ice per volume", self.ice.si(), "kg/m³")?;
        positive("resistance of the dried layer", self.cake.at(self.thickness), "m/s")?;
        Ok(())
    }

    /// Heat that reaches the front per kelvin and area [W/(m² K)].
    fn conductance(&self, dried: Length) -> f64 {
        let layer = match self.path {
            HeatPath::ThroughFrozen(k) => (self.thickness - dried).si() / k.si(),
            HeatPath::ThroughDried(k) => dried.si() / k.si(),
        };
        1.0 / (1.0 / self.contact.si() + layer)
    }

    /// Returns temperature and flux of the front at a dried depth.
    ///
    /// `U(l) (t_s - t_i) = h (p_ice(t_i) - p_c) / r(l)`, solved for t_i; U is contact and layer in
    /// series.
    ///
    /// # Units
    /// U [W/(m² K)], h [J/kg], p \[Pa\], r [m/s], flux [kg/(m² s)].
    ///
    /// # Validity
    /// Chamber 0.1 Pa to 600 Pa, shelf -60 °C to 120 °C, quasi-steady.
    ///
    /// # Errors
    /// [`PhysicsError::OutsideValidity`] outside these ranges; [`PhysicsError::NotPositive`] for a
    /// coefficient, size or resistance of zero or less; [`PhysicsError::Impossible`] when the
    /// front would melt, or the shelf is too cold to sublime anything.
    ///
    /// # Source
    /// Pikal 1985, PDA Journal 39 (from memory); vapour pressure and heat of sublimation from
    /// [`super::ice`].
    pub fn front(&self, dried: Length) -> Result<Front, PhysicsError> {
        self.checked()?;
        let conductance = self.conductance(dried);
        let resistance = self.cake.at(dried);
        let (shelf, chamber) = (self.shelf.kelvin(), self.chamber.pascals());
        let flux = |t: Temperature| {
            Ok::<f64, PhysicsError>(
                (ice::sublimation_pressure(t)?.pascals() - chamber) / resistance,
            )
        };
        let excess = |kelvin: f64| {
            let t = Temperature::from_kelvin(kelvin);
            let taken = flux(t).and_then(|j| Ok(j * ice::latent_heat_sublimation(t)?.si()));
            taken.map_or(f64::NAN, |taken| conductance * (shelf - kelvin) - taken)
        };
        let coldest = ice::equilibrium_temperature(self.chamber)?.kelvin().max(COLDEST_FRONT);
        let what = "freeze drying";
        if shelf <= coldest {
            let because = format!(
                "at {chamber:.0} Pa ice sublimes only above {:.1} °C",
                Temperature::from_kelvin(coldest).celsius()
            );
            return Err(PhysicsError::Impossible { what, because });
        }
        let warmest = shelf.min(TRIPLE_POINT);
        if excess(warmest) > 0.0 {
            let because = "the heat melts the ice faster than vapour escapes".to_owned();
            return Err(PhysicsError::Impossible { what, because });
        }
        let temperature = Temperature::from_kelvin(root(what, coldest, warmest, 1e-7, excess)?);
        Ok(Front { temperature, flux: MassFlux::from_si(flux(temperature)?) })
    }

    /// Returns the time of sublimation and the warmest front.
    ///
    /// `t = ∫ ρ_ice / j(l) dl` over the thickness
    ///
    /// # Units
    /// ρ_ice ice per volume [kg/m³], j [kg/(m² s)], l \[m\].
    ///
    /// # Validity
    /// As for [`FreezeDrying::front`].
    ///
    /// # Errors
    /// As for [`FreezeDrying::front`].
    ///
    /// # Source
    /// As for [`FreezeDrying::front`].
    pub fn dry(&self) -> Result<FreezeDried, PhysicsError> {
        let (first, last) = (self.front(Length::ZERO)?, self.front(self.thickness)?);
        let middle = self.front(self.thickness / 2.0)?;
        let pace = |depth: f64| {
            let front = self.front(Length::from_metres(depth));
            front.map_or(f64::NAN, |front| self.ice.si() / front.flux.si())
        };
        let seconds = integral(0.0, self.thickness.si(), 1, pace);
        Ok(FreezeDried {
            primary: Time::from_seconds(positive("drying time", seconds, "s")?),
            warmest_front: first.temperature.max(middle.temperature).max(last.temperature),
            flux: (first.flux, last.flux),
        })
    }
}

/// Returns the time in which heat through the dried layer alone would free the ice of a slab.
///
/// `t = ρ_ice h L² / (2 k (t_s - t_i))`
///
/// # Units
/// ρ_ice [kg/m³], h [J/kg], L \[m\], k [W/(m K)], t \[K\].
///
/// # Validity
/// Vapour escapes freely, so that the front keeps its temperature.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a size, density or conductivity of zero or less, or a shelf
/// that is not warmer than the front; [`PhysicsError::OutsideValidity`] for a front above melting.
///
/// # Source
/// From memory: King 1970, Freeze-drying of foodstuffs, CRC Critical Reviews in Food Technology 1.
pub fn time_limited_by_heat(
    thickness: Length,
    ice_content: Density,
    dried_layer: Conductivity,
    shelf: Temperature,
    front: Temperature,
) -> Result<Time, PhysicsError> {
    let depth = positive("thickness", thickness.si(), "m")?;
    let content = positive("ice per volume", ice_content.si(), "kg/m³")?;
    let conductivity = positive("conductivity", dried_layer.si(), "W/(m K)")?;
    let excess = positive("shelf above front", (shelf - front).kelvin(), "K")?;
    let heat = ice::latent_heat_sublimation(front)?.si();
    Ok(Time::from_seconds(content * heat * depth * depth / (2.0 * conductivity * excess)))
}

/// A slab that dries in a freezer at ordinary pressure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FreezerSlab {
    /// Depth that dries: half the thickness when both faces are free.
    pub depth: Length,
    /// Length of the piece along the air.
    pub length: Length,
    /// Ice per volume of food.
    pub ice: Density,
    /// Diffusivity of vapour in the dried layer.
    pub dried_layer: Diffusivity,
}

impl FreezerSlab {
    /// Returns the flux from bare ice into the air of the freezer, and the temperature of the ice.
    ///
    /// `j = h_m (c_ice - c_air)`, the ice at the wet-bulb temperature of the air.
    ///
    /// # Units
    /// c vapour concentration [kg/m³], j [kg/(m² s)].
    ///
    /// # Validity
    /// Air from -50 °C to 0 °C.
    ///
    /// # Errors
    /// [`PhysicsError::OutsideValidity`] for air outside the range; [`PhysicsError::NotPositive`]
    /// for a length of zero or less.
    ///
    /// # Source
    /// As for [`super::evaporation::OpenSurface::flux`].
    pub fn bare_flux(
        &self,
        surroundings: &Surroundings,
    ) -> Result<(MassFlux, Temperature), PhysicsError> {
        const COLD: Validity = Validity {
            law: "sublimation in a freezer",
            quantity: "temperature",
            low: -50.0,
            high: 0.0,
            unit: "°C",
        };
        COLD.check(surroundings.air.celsius())?;
        let Surroundings { air, relative_humidity, pressure, .. } = *surroundings;
        let humid = HumidAir::from_relative_humidity(air, relative_humidity, pressure)?;
        let surface = humid.wet_bulb()?;
        let at_surface = ice::sublimation_pressure(surface)?.pascals();
        let in_air = humid.vapour_pressure().pascals();
        let (flux, _) = flux_between(self.length, (surface, at_surface), surroundings, in_air)?;
        Ok((flux, surface))
    }

    /// Returns the time in which the slab loses its ice.
    ///
    /// `t = ρ_ice (L / h_m + L² / (2 D)) / (c_ice - c_air)`: air and dried layer in series.
    ///
    /// # Units
    /// As for [`FreezerSlab::bare_flux`]; D [m²/s].
    ///
    /// # Validity
    /// As for [`FreezerSlab::bare_flux`].
    ///
    /// # Errors
    /// As for [`FreezerSlab::bare_flux`], and [`PhysicsError::Impossible`] in air that takes no
    /// vapour.
    ///
    /// # Source
    /// Shrinking-core model of a dried layer over ice.
    pub fn time(&self, surroundings: &Surroundings) -> Result<Time, PhysicsError> {
        let depth = positive("depth", self.depth.si(), "m")?;
        let content = positive("ice per volume", self.ice.si(), "kg/m³")?;
        let layer = positive("diffusivity", self.dried_layer.si(), "m²/s")?;
        let (flux, surface) = self.bare_flux(surroundings)?;
        if flux.si() <= 0.0 {
            let because = "the air of the freezer is saturated".to_owned();
            return Err(PhysicsError::Impossible { what: "drying in a freezer", because });
        }
        let concentration = |pressure: Pressure, t: Temperature| {
            pressure.pascals() * WATER_MOLAR_MASS / (GAS_CONSTANT * t.kelvin())
        };
        let drive = concentration(ice::sublimation_pressure(surface)?, surface)
            - concentration(surroundings.vapour_pressure()?, surroundings.air);
        let seconds = content * (depth / flux.si() + depth * depth / (2.0 * layer * drive));
        Ok(Time::from_seconds(seconds))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Speed;

    fn slab() -> FreezeDrying {
        FreezeDrying {
            shelf: Temperature::from_celsius(20.0),
            chamber: Pressure::from_pascals(30.0),
            contact: HeatTransfer::from_si(20.0),
            path: HeatPath::ThroughFrozen(ICE_CONDUCTIVITY),
            thickness: Length::from_millimetres(10.0),
            ice: Density::from_si(800.0),
            cake: SUCROSE_CAKE,
        }
    }

    #[test]
    fn heat_and_vapour_balance_at_the_front() {
        let drying = slab();
        let depth = Length::from_millimetres(4.0);
        let front = drying.front(depth).unwrap();
        let heat = drying.conductance(depth) * (drying.shelf - front.temperature).kelvin();
        let latent = ice::latent_heat_sublimation(front.temperature).unwrap();
        assert!((front.flux.si() * latent.si() / heat - 1.0).abs() < 1e-6);
        assert!(front.temperature.celsius() < -15.0 && front.temperature.celsius() > -45.0);
    }

    #[test]
    fn thicker_and_colder_takes_longer() {
        let time = |drying: FreezeDrying| drying.dry().unwrap().primary;
        let base = time(slab());
        assert!(time(FreezeDrying { thickness: Length::from_millimetres(15.0), ..slab() }) > base);
        assert!(time(FreezeDrying { shelf: Temperature::from_celsius(0.0), ..slab() }) > base);
        let worse = CakeResistance { per_depth_per_s: 3e8, ..SUCROSE_CAKE };
        assert!(time(FreezeDrying { cake: worse, ..slab() }) > base);
        let dried = HeatPath::ThroughDried(DRIED_LAYER_CONDUCTIVITY[1]);
        assert!(time(FreezeDrying { path: dried, ..slab() }) > base);
    }

    #[test]
    fn an_open_cake_approaches_the_limit_of_heat() {
        let open = CakeResistance { at_surface_m_per_s: 10.0, per_depth_per_s: 1.0 };
        let layer = DRIED_LAYER_CONDUCTIVITY[0];
        let drying = FreezeDrying {
            cake: open,
            contact: HeatTransfer::from_si(1e4),
            path: HeatPath::ThroughDried(layer),
            ..slab()
        };
        let front = drying.front(drying.thickness).unwrap().temperature;
        let limit =
            time_limited_by_heat(drying.thickness, drying.ice, layer, drying.shelf, front).unwrap();
        assert!((drying.dry().unwrap().primary / limit - 1.0).abs() < 0.02);
    }

    #[test]
    fn melting_and_a_cold_shelf_are_refused() {
        let hot = FreezeDrying {
            shelf: Temperature::from_celsius(80.0),
            contact: HeatTransfer::from_si(100.0),
            cake: CakeResistance { per_depth_per_s: 1e9, ..SUCROSE_CAKE },
            ..slab()
        };
        assert!(matches!(hot.dry(), Err(PhysicsError::Impossible { .. })));
        let cold = FreezeDrying { shelf: Temperature::from_celsius(-40.0), ..slab() };
        assert!(matches!(cold.dry(), Err(PhysicsError::Impossible { .. })));
        let thick_air = FreezeDrying { chamber: Pressure::from_pascals(2000.0), ..slab() };
        assert!(thick_air.dry().is_err());
        assert!(FreezeDrying { thickness: Length::ZERO, ..slab() }.dry().is_err());
        let shelf = Temperature::from_celsius(-30.0);
        let layer = DRIED_LAYER_CONDUCTIVITY[0];
        let limit = time_limited_by_heat(slab().thickness, slab().ice, layer, shelf, shelf);
        assert!(limit.is_err());
    }

    fn freezer(humidity: f64) -> Surroundings {
        Surroundings {
            air: Temperature::from_celsius(-18.0),
            relative_humidity: humidity,
            pressure: Pressure::from_pascals(101_325.0),
            speed: Speed::from_metres_per_second(0.3),
        }
    }

    #[test]
    fn a_freezer_dries_slowly_and_not_when_saturated() {
        let slice = FreezerSlab {
            depth: Length::from_millimetres(2.5),
            length: Length::from_centimetres(5.0),
            ice: Density::from_si(850.0),
            dried_layer: Diffusivity::from_si(1e-5),
        };
        let days = slice.time(&freezer(0.5)).unwrap().days();
        assert!((1.0..60.0).contains(&days), "{days}");
        assert!(slice.time(&freezer(0.8)).unwrap().days() > days);
        assert!(slice.time(&freezer(1.0)).is_err());
        let warm = Surroundings { air: Temperature::from_celsius(5.0), ..freezer(0.5) };
        assert!(slice.bare_flux(&warm).is_err());
        let none = FreezerSlab { depth: Length::ZERO, ..slice };
        assert!(none.time(&freezer(0.5)).is_err());
    }
}
