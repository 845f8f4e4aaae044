//! Food with oil in it, which holds aroma back.

use super::SHARE;
use crate::physics::{PhysicsError, Validity, positive};

/// The octanol-water partitions of the solutes behind the regression.
const OIL_REGRESSION: Validity = Validity {
    law: "the regression of oil-water on octanol-water partition",
    quantity: "log P",
    low: -2.5,
    high: 7.0,
    unit: "",
};

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
/// log P \[1\], result [m³ water per m³ oil].
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
    /// f \[1\], k \[1\], alpha \[1\].
    ///
    /// # Validity
    /// Drops small enough to stay in equilibrium; constant alpha.
    ///
    /// # Errors
    /// As for [`super::kept_after_evaporation`].
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
    /// n [m³/m³], saturation \[1\].
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
        if air_per_water.is_nan() || air_per_water < 0.0 {
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
    /// n volume of air per volume of water \[1\].
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::aroma::kept_after_evaporation;

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
}
