//! How much of an aroma compound leaves with the water, with air, or stays in the fat.
//!
//! Everything follows from the air-water partition coefficient of the compound at high dilution.
//! Chemical change, binding to protein or starch and crust formation are left out.
//! Symbols: k_aw concentration in air over concentration in water, hs Henry solubility, s its slope
//! d ln hs / d(1/T), alpha volatility relative to water, f share of the water evaporated,
//! phi volume share of oil, k_ow concentration in oil over concentration in water.

use super::constants::{GAS_CONSTANT, WATER_MOLAR_MASS};
use super::{PhysicsError, Validity, positive};
use crate::quantity::{
    Density, MassFlux, MolarMass, Pressure, Speed, Temperature, TemperatureDifference,
};

/// The temperature at which partition coefficients are listed [K]: Sander 2015, section 2.
pub const LISTING_TEMPERATURE: Temperature = Temperature::from_kelvin(298.15);

/// Constants are listed at 25 °C with a slope from measurements mostly between 0 and 60 °C; the
/// slope is carried to the boil and no further.
const VAN_T_HOFF: Validity = Validity {
    law: "the van 't Hoff slope of an air-water partition",
    quantity: "temperature",
    low: 0.0,
    high: 130.0,
    unit: "°C",
};
/// Above this the slope is carried beyond the measurements behind it [°C]; Sander 2015
/// warns of use far from 25 °C; 60 °C is the upper end of most of the measurements cited there.
pub const MEASURED_TO_CELSIUS: f64 = 60.0;

const SHARE: Validity =
    Validity { law: "a share", quantity: "share", low: 0.0, high: 1.0, unit: "" };

/// An alpha of this or more makes a top note: half is gone before 0.7 % of the water has left.
pub const TOP_NOTE_VOLATILITY: f64 = 100.0;
/// An alpha below this makes a base note: half is left when 13 % of the water has left.
pub const BASE_NOTE_VOLATILITY: f64 = 5.0;

/// Which end of the range of octanol-water partition coefficients the oil regression was drawn on.
const OIL_REGRESSION: Validity = Validity {
    law: "the regression of oil-water on octanol-water partition",
    quantity: "log P",
    low: -2.5,
    high: 7.0,
    unit: "",
};

/// Exponent of molar mass in the ratio of gas-film coefficients: D ~ M^-1/2 and k ~ D^0.67
/// (from memory: Schwarzenbach, Gschwend & Imboden, Environmental Organic Chemistry, chapter 20).
const GAS_FILM_MASS_EXPONENT: f64 = 0.335;

/// An air-water partition at 25 °C and how it changes with temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AirWaterPartition {
    /// Concentration in air over concentration in water at 25 °C.
    pub at_25_c: f64,
    /// d ln hs / d(1/T); positive when the compound is less soluble in warm water.
    pub slope: TemperatureDifference,
}

impl AirWaterPartition {
    /// Returns the partition coefficient at another temperature.
    ///
    /// `k_aw(T) = k_aw(T0) exp(-s (1/T - 1/T0)) T0/T`
    ///
    /// # Units
    /// T [K], s [K], k_aw [1].
    ///
    /// # Validity
    /// 0 °C to 130 °C; beyond [`MEASURED_TO_CELSIUS`] the slope is carried past most measurements.
    ///
    /// # Errors
    /// [`PhysicsError::NotPositive`] for a coefficient of zero or less;
    /// [`PhysicsError::OutsideValidity`] for a temperature outside the range.
    ///
    /// # Source
    /// Sander 2015, section 2 (temperature dependence), with `hs = 1/(k_aw R T)`.
    pub fn at(&self, temperature: Temperature) -> Result<f64, PhysicsError> {
        positive("air-water partition", self.at_25_c, "")?;
        VAN_T_HOFF.check(temperature.celsius())?;
        let (t, t0) = (temperature.kelvin(), LISTING_TEMPERATURE.kelvin());
        Ok(self.at_25_c * (-self.slope.kelvin() * (1.0 / t - 1.0 / t0)).exp() * t0 / t)
    }
}

/// Returns the air-water partition that belongs to a Henry solubility [mol/(m³ Pa)], or the
/// reverse.
///
/// `k_aw = 1 / (hs R T)`, and `hs = 1 / (k_aw R T)`: the relation is its own inverse.
///
/// # Units
/// hs [mol/(m³ Pa)], T [K], k_aw [1].
///
/// # Validity
/// High dilution, ideal gas.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a value of zero or less.
///
/// # Source
/// Sander 2015, section 2.
pub fn partition_of_henry_solubility(
    value: f64,
    temperature: Temperature,
) -> Result<f64, PhysicsError> {
    positive("Henry solubility or partition", value, "")?;
    positive("temperature", temperature.kelvin(), "K")?;
    Ok(1.0 / (value * GAS_CONSTANT * temperature.kelvin()))
}

/// Returns the volatility relative to water, mole for mole.
///
/// `alpha = (y/x) / (y_w/x_w) = k_aw R T c_w / p_w`, with `c_w = rho_w / M_w`
///
/// # Units
/// T [K], rho_w [kg/m³], p_w [Pa], alpha [1].
///
/// # Validity
/// High dilution in water; p_w is the vapour pressure of the liquid itself.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a partition, pressure or density of zero or less.
///
/// # Source
/// Definition of relative volatility with Henry's law for the compound and Raoult's for water.
pub fn relative_volatility(
    partition: f64,
    temperature: Temperature,
    vapour_pressure: Pressure,
    water_density: Density,
) -> Result<f64, PhysicsError> {
    positive("air-water partition", partition, "")?;
    positive("vapour pressure", vapour_pressure.pascals(), "Pa")?;
    positive("density", water_density.si(), "kg/m³")?;
    let water = water_density.si() / WATER_MOLAR_MASS;
    Ok(partition * GAS_CONSTANT * temperature.kelvin() * water / vapour_pressure.pascals())
}

/// Returns the share of a compound that is left when a share of the water has evaporated.
///
/// `kept = (1 - f)^alpha`
///
/// # Units
/// f [1], alpha [1].
///
/// # Validity
/// A well-mixed liquid at high dilution and constant alpha.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for a share outside 0 to 1;
/// [`PhysicsError::NotPositive`] for an alpha of zero or less.
///
/// # Source
/// Rayleigh 1902, On the distillation of binary mixtures, Philosophical Magazine 4.
pub fn kept_after_evaporation(evaporated: f64, alpha: f64) -> Result<f64, PhysicsError> {
    positive("relative volatility", alpha, "")?;
    Ok((1.0 - SHARE.check(evaporated)?).max(0.0).powf(alpha))
}

/// Returns the share of the water that may evaporate until a given share of the compound is left.
///
/// `f = 1 - kept^(1/alpha)`, the inverse of [`kept_after_evaporation`].
///
/// # Units
/// kept [1], alpha [1], f [1].
///
/// # Validity
/// As for [`kept_after_evaporation`].
///
/// # Errors
/// As for [`kept_after_evaporation`].
///
/// # Source
/// As for [`kept_after_evaporation`].
pub fn evaporated_until_kept(kept: f64, alpha: f64) -> Result<f64, PhysicsError> {
    positive("relative volatility", alpha, "")?;
    Ok(-(SHARE.check(kept)?.ln() / alpha).exp_m1())
}

/// How a compound takes part in hydrogen bonds, which decides how well oil dissolves it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HydrogenBonding {
    /// No hydrogen to give: terpene hydrocarbons, esters, aldehydes, ketones, ethers, sulfides.
    Acceptor,
    /// Gives a hydrogen: alcohols, phenols, acids.
    Donor,
}

/// Returns the partition between food oil and water from that between octanol and water.
///
/// `log k_ow(oil) = a log P + b`; donors a 1.10, b -1.31 (65 solutes, s 0.27), acceptors a 1.12,
/// b -0.32 (14 solutes, s 0.23).
///
/// # Units
/// log P [1], result [m³ water per m³ oil].
///
/// # Validity
/// log P from -2.5 to 7, liquid vegetable oils near 25 °C; solid fat dissolves about nothing.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for a log P outside the range.
///
/// # Source
/// From memory: Leo, Hansch & Elkins 1971, Partition coefficients and their uses, Chemical Reviews
/// 71, table VIII, oils A and B.
pub fn oil_water_partition(log_p: f64, bonding: HydrogenBonding) -> Result<f64, PhysicsError> {
    let log_p = OIL_REGRESSION.check(log_p)?;
    let (slope, offset) = match bonding {
        HydrogenBonding::Donor => (1.099, -1.310),
        HydrogenBonding::Acceptor => (1.119, -0.325),
    };
    Ok(10_f64.powf(slope * log_p + offset))
}

/// A liquid food as two phases: water, and oil with its partition for one compound.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OilInWater {
    /// Volume of oil per volume of water before anything evaporates.
    pub oil_per_water: f64,
    /// Concentration in oil over concentration in water.
    pub partition: f64,
}

impl OilInWater {
    /// A food without oil.
    pub const NONE: Self = Self { oil_per_water: 0.0, partition: 1.0 };

    /// Makes the food from the volume share of oil in it.
    ///
    /// # Errors
    /// [`PhysicsError::OutsideValidity`] for a share outside 0 to 0.95;
    /// [`PhysicsError::NotPositive`] for a partition of zero or less.
    pub fn new(oil_share: f64, partition: f64) -> Result<Self, PhysicsError> {
        const WATERY: Validity = Validity {
            law: "loss of aroma with the water",
            quantity: "volume share of oil",
            low: 0.0,
            high: 0.95,
            unit: "",
        };
        let oil_share = WATERY.check(oil_share)?;
        positive("oil-water partition", partition, "")?;
        Ok(Self { oil_per_water: oil_share / (1.0 - oil_share), partition })
    }

    /// Returns the factor by which oil lowers the concentration over the food.
    pub fn share_in_water(&self) -> f64 {
        1.0 / (1.0 + self.partition * self.oil_per_water)
    }

    /// Returns the share of a compound that is left when a share of the water has evaporated from
    /// a food with oil, the oil staying in equilibrium with the water.
    ///
    /// `d ln m = alpha dW / (W + k_ow V_o)`, hence `kept = ((1 - f + k) / (1 + k))^alpha` with
    /// `k = k_ow V_o / W_0`
    ///
    /// # Units
    /// f [1], k [1], alpha [1].
    ///
    /// # Validity
    /// Drops small enough to stay in equilibrium; constant alpha.
    ///
    /// # Errors
    /// As for [`kept_after_evaporation`].
    ///
    /// # Source
    /// Rayleigh 1902 with the two-phase balance of Buttery, Guadagni & Ling 1973, Flavor
    /// compounds: volatilities in vegetable oil and oil-water mixtures, J. Agric. Food Chem. 21.
    pub fn kept_after_evaporation(&self, evaporated: f64, alpha: f64) -> Result<f64, PhysicsError> {
        positive("relative volatility", alpha, "")?;
        let held = self.partition * self.oil_per_water;
        let left = 1.0 - SHARE.check(evaporated)?;
        Ok(((left + held) / (1.0 + held)).max(0.0).powf(alpha))
    }

    /// Returns the share that is left after air in equilibrium with the food has carried some away.
    ///
    /// `kept = exp(-saturation k_aw n w)`, n the volume of air per volume of water and w the share
    /// of the compound that sits in the water.
    ///
    /// # Units
    /// n [m³/m³], saturation [1].
    ///
    /// # Validity
    /// Air passes through in many small portions, each leaving with the same degree of saturation.
    ///
    /// # Errors
    /// [`PhysicsError::NotPositive`] for a partition of zero or less or a negative volume;
    /// [`PhysicsError::OutsideValidity`] for a saturation outside 0 to 1.
    ///
    /// # Source
    /// Mackay, Shiu & Sutherland 1979, Determination of air-water Henry's law constants,
    /// Environmental Science & Technology 13.
    pub fn kept_after_air(
        &self,
        partition: f64,
        air_per_water: f64,
        saturation: f64,
    ) -> Result<f64, PhysicsError> {
        positive("air-water partition", partition, "")?;
        if !(air_per_water >= 0.0) {
            let (quantity, value) = ("volume of air per volume of water", air_per_water);
            return Err(PhysicsError::NotPositive { quantity, value, unit: "" });
        }
        let volumes = air_per_water * SHARE.check(saturation)?;
        Ok((-partition * volumes * self.share_in_water()).exp())
    }

    /// Returns the share that stays in the food when it stands closed under a volume of air, or
    /// when one portion of air is beaten in.
    ///
    /// `kept = 1 / (1 + k_aw n w)`
    ///
    /// # Units
    /// n volume of air per volume of water [1].
    ///
    /// # Validity
    /// Equilibrium between food and headspace.
    ///
    /// # Errors
    /// [`PhysicsError::NotPositive`] for a partition of zero or less.
    ///
    /// # Source
    /// Mass balance over two phases.
    pub fn kept_under_headspace(
        &self,
        partition: f64,
        air_per_water: f64,
    ) -> Result<f64, PhysicsError> {
        positive("air-water partition", partition, "")?;
        Ok(1.0 / (1.0 + partition * air_per_water.max(0.0) * self.share_in_water()))
    }
}

/// Returns the volatility that a still liquid shows when the compound cannot reach the surface as
/// fast as equilibrium would take it away.
///
/// `1/alpha_shown = 1/alpha + j_w / (k_l rho_w)`: the liquid film and the evaporating water in
/// series, from `d ln m / d ln W = rho_w K / j_w`.
///
/// # Units
/// j_w evaporation flux [kg/(m² s)], k_l liquid-film coefficient [m/s], rho_w [kg/m³].
///
/// # Validity
/// A free surface below the boil, without bubbles.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for an alpha, coefficient or density of zero or less, or a
/// negative flux.
///
/// # Source
/// Two-film theory: Lewis & Whitman 1924, Principles of gas absorption, Ind. Eng. Chem. 16.
pub fn volatility_from_still_liquid(
    alpha: f64,
    evaporation: MassFlux,
    liquid_film: Speed,
    water_density: Density,
) -> Result<f64, PhysicsError> {
    positive("relative volatility", alpha, "")?;
    positive("liquid-film coefficient", liquid_film.si(), "m/s")?;
    positive("density", water_density.si(), "kg/m³")?;
    if evaporation.si() < 0.0 {
        let (quantity, unit) = ("evaporation flux", "kg/(m² s)");
        return Err(PhysicsError::NotPositive { quantity, value: evaporation.si(), unit });
    }
    Ok(1.0 / (1.0 / alpha + evaporation.si() / (liquid_film.si() * water_density.si())))
}

/// Returns the gas-film coefficient of a compound from that of water vapour over the same surface.
///
/// `k_g = k_g,w (M_w / M)^0.335`
///
/// # Units
/// k_g [m/s], M [kg/mol].
///
/// # Validity
/// Air moving over a free surface.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a coefficient or molar mass of zero or less.
///
/// # Source
/// From memory: Schwarzenbach, Gschwend & Imboden, Environmental Organic Chemistry, chapter 20.
pub fn gas_film(of_water: Speed, molar_mass: MolarMass) -> Result<Speed, PhysicsError> {
    positive("gas-film coefficient", of_water.si(), "m/s")?;
    positive("molar mass", molar_mass.si(), "kg/mol")?;
    Ok(of_water * (WATER_MOLAR_MASS / molar_mass.si()).powf(GAS_FILM_MASS_EXPONENT))
}

/// Returns the overall coefficient with which a compound leaves a free surface into clean air.
///
/// `1/K = 1/k_l + 1/(k_g k_aw)`, on the concentration in the liquid.
///
/// # Units
/// K, k_l, k_g [m/s].
///
/// # Validity
/// A free surface without bubbles, high dilution.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a coefficient or partition of zero or less.
///
/// # Source
/// Two-film theory: Liss & Slater 1974, Flux of gases across the air-sea interface, Nature 247.
pub fn overall_transfer(
    liquid_film: Speed,
    gas_film: Speed,
    partition: f64,
) -> Result<Speed, PhysicsError> {
    positive("liquid-film coefficient", liquid_film.si(), "m/s")?;
    positive("gas-film coefficient", gas_film.si(), "m/s")?;
    positive("air-water partition", partition, "")?;
    let resistance = 1.0 / liquid_film.si() + 1.0 / (gas_film.si() * partition);
    Ok(Speed::from_si(1.0 / resistance))
}

#[cfg(test)]
mod tests {
    use super::*;

    const ROOM: Temperature = LISTING_TEMPERATURE;
    const FILM: Speed = Speed::from_si(3e-5);

    fn limonene() -> AirWaterPartition {
        AirWaterPartition { at_25_c: 1.15, slope: TemperatureDifference::from_kelvin(4500.0) }
    }

    #[test]
    fn partition_rises_with_temperature_and_meets_its_listing() {
        assert!((limonene().at(ROOM).unwrap() - 1.15).abs() < 1e-12);
        let warm = limonene().at(Temperature::from_celsius(60.0)).unwrap();
        assert!(warm > 3.0);
        assert!(limonene().at(Temperature::from_celsius(180.0)).is_err());
        let none = AirWaterPartition { at_25_c: 0.0, ..limonene() };
        assert!(matches!(none.at(ROOM), Err(PhysicsError::NotPositive { .. })));
    }

    #[test]
    fn henry_and_partition_are_inverse() {
        let partition = partition_of_henry_solubility(3.5e-4, ROOM).unwrap();
        let back = partition_of_henry_solubility(partition, ROOM).unwrap();
        assert!((back / 3.5e-4 - 1.0).abs() < 1e-12);
        assert!(partition_of_henry_solubility(0.0, ROOM).is_err());
    }

    #[test]
    fn evaporation_loss_round_trips() {
        for alpha in [0.1, 1.0, 9.2, 5e4] {
            let kept = 0.3;
            let evaporated = evaporated_until_kept(kept, alpha).unwrap();
            let back = kept_after_evaporation(evaporated, alpha).unwrap();
            assert!((back - kept).abs() < 1e-9, "{alpha}");
        }
        assert!(kept_after_evaporation(1.2, 1.0).is_err());
        assert!(kept_after_evaporation(0.2, 0.0).is_err());
        assert!(evaporated_until_kept(-0.1, 1.0).is_err());
    }

    #[test]
    fn steps_multiply_to_the_whole() {
        let first = kept_after_evaporation(0.2, 3.0).unwrap();
        let second = kept_after_evaporation(0.5, 3.0).unwrap();
        let whole = kept_after_evaporation(0.6, 3.0).unwrap();
        assert!((first * second - whole).abs() < 1e-12);
    }

    #[test]
    fn oil_holds_back() {
        let k = oil_water_partition(4.57, HydrogenBonding::Acceptor).unwrap();
        let milk = OilInWater::new(0.035, k).unwrap();
        let skimmed = kept_after_evaporation(0.01, 5e4).unwrap();
        assert!(milk.kept_after_evaporation(0.01, 5e4).unwrap() > skimmed);
        let same = OilInWater::NONE.kept_after_evaporation(0.3, 2.0).unwrap();
        assert!((same - 0.49).abs() < 1e-12);
        assert!(OilInWater::new(0.99, k).is_err() && OilInWater::new(0.1, 0.0).is_err());
        assert!(milk.kept_after_evaporation(1.5, 1.0).is_err());
        assert!(oil_water_partition(12.0, HydrogenBonding::Donor).is_err());
        let donor = oil_water_partition(2.0, HydrogenBonding::Donor).unwrap();
        assert!(donor < oil_water_partition(2.0, HydrogenBonding::Acceptor).unwrap());
    }

    #[test]
    fn air_strips_more_in_portions_than_at_once() {
        let food = OilInWater::NONE;
        let through = food.kept_after_air(0.01, 200.0, 1.0).unwrap();
        let once = food.kept_under_headspace(0.01, 200.0).unwrap();
        assert!((through - (-2.0_f64).exp()).abs() < 1e-12 && once > through);
        assert!(food.kept_after_air(0.01, -1.0, 1.0).is_err());
        assert!(food.kept_after_air(0.01, 1.0, 1.5).is_err());
        assert!(food.kept_after_air(0.0, 1.0, 1.0).is_err());
        assert!(food.kept_under_headspace(0.0, 1.0).is_err());
    }

    #[test]
    fn a_still_liquid_caps_the_most_volatile() {
        let (flux, density) = (MassFlux::from_si(1e-4), Density::from_si(990.0));
        let shown = |alpha| volatility_from_still_liquid(alpha, flux, FILM, density).unwrap();
        assert!((shown(1.0) - 1.0).abs() < 0.01);
        assert!(shown(5e4) < 3e-5 * 990.0 / 1e-4);
        let still = volatility_from_still_liquid(5e4, MassFlux::ZERO, FILM, density).unwrap();
        assert!((still - 5e4).abs() < 1e-6);
        assert!(volatility_from_still_liquid(1.0, -flux, FILM, density).is_err());
        assert!(volatility_from_still_liquid(0.0, flux, FILM, density).is_err());
        assert!(volatility_from_still_liquid(1.0, flux, Speed::ZERO, density).is_err());
        assert!(volatility_from_still_liquid(1.0, flux, FILM, Density::ZERO).is_err());
    }

    #[test]
    fn films_in_series_stay_below_either() {
        let gas = gas_film(Speed::from_si(5e-3), MolarMass::from_grams_per_mole(136.0)).unwrap();
        assert!(gas < Speed::from_si(5e-3));
        assert!(overall_transfer(FILM, gas, 1.0).unwrap() < FILM);
        let slow = overall_transfer(FILM, gas, 1e-6).unwrap();
        assert!((slow.si() / (gas.si() * 1e-6) - 1.0).abs() < 1e-3);
        assert!(overall_transfer(FILM, Speed::ZERO, 1.0).is_err());
        assert!(gas_film(Speed::ZERO, MolarMass::from_grams_per_mole(1.0)).is_err());
    }

    #[test]
    fn volatility_needs_a_vapour_pressure() {
        let density = Density::from_si(997.0);
        let at = |p| relative_volatility(2.12e-4, ROOM, Pressure::from_pascals(p), density);
        assert!((at(3169.9).unwrap() - 9.19).abs() < 0.05);
        assert!(at(0.0).is_err());
        assert!(relative_volatility(0.0, ROOM, Pressure::from_si(1.0), density).is_err());
    }
}
