//! Thermal properties and ice content of food from its composition.
//!
//! Answers what heat capacity, density, conductivity, enthalpy and share of ice a food has at a
//! temperature, from its mass fractions of water, protein, fat, carbohydrate, fibre and ash.
//! Air in the food (porosity) is left out. Symbols: x mass fraction, t temperature \[°C\],
//! c heat capacity, rho density, k conductivity, v volume fraction; w water, i ice, b bound water,
//! f initial freezing point.

mod component;
mod freezing_points;
mod frozen;
mod mixture;

pub use component::{COMPONENT_RANGE, Component};
pub use freezing_points::{FREEZING_POINTS, PublishedFreezingPoint, published_freezing_point};
pub use frozen::{
    BOUND_WATER_PER_PROTEIN, ENTHALPY_REFERENCE_CELSIUS, FUSION_HEAT, apparent_heat_capacity,
    enthalpy_change, freezing_point_from_molality, ice_fraction, latent_heat,
};
pub use mixture::{ConductivityModel, conductivity, density, diffusivity, heat_capacity};

use super::PhysicsError;

/// Mass fractions of one food; ice is computed, never given.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Composition {
    /// Water, frozen or not.
    pub water: f64,
    /// Protein.
    pub protein: f64,
    /// Fat.
    pub fat: f64,
    /// Digestible carbohydrate.
    pub carbohydrate: f64,
    /// Fibre.
    pub fibre: f64,
    /// Ash: salts and minerals.
    pub ash: f64,
}

/// Food tables round each share, and some leave out acids and alcohol: the sum may miss one by this.
pub const SUM_SLACK: f64 = 0.03;

impl Composition {
    /// Checks the shares: each between 0 and 1, together one within [`SUM_SLACK`].
    ///
    /// # Errors
    /// [`PhysicsError::Impossible`] otherwise.
    pub fn checked(self) -> Result<Self, PhysicsError> {
        let what = "composition of the food";
        for share in [self.water, self.protein, self.fat, self.carbohydrate, self.fibre, self.ash] {
            if !(0.0..=1.0).contains(&share) {
                let because = format!("a share of {share} does not lie between 0 and 1");
                return Err(PhysicsError::Impossible { what, because });
            }
        }
        let sum = self.water + self.solids();
        if (sum - 1.0).abs() > SUM_SLACK {
            let because = format!("the shares add up to {sum:.3} instead of 1");
            return Err(PhysicsError::Impossible { what, because });
        }
        Ok(self)
    }

    /// Returns the share of everything but water.
    pub fn solids(self) -> f64 {
        self.protein + self.fat + self.carbohydrate + self.fibre + self.ash
    }

    /// Returns the shares by component, for a share of ice taken out of the water.
    pub fn shares(self, ice: f64) -> [(Component, f64); 7] {
        [
            (Component::Water, self.water - ice),
            (Component::Ice, ice),
            (Component::Protein, self.protein),
            (Component::Fat, self.fat),
            (Component::Carbohydrate, self.carbohydrate),
            (Component::Fibre, self.fibre),
            (Component::Ash, self.ash),
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shares_that_do_not_add_up_are_refused() {
        assert!(Composition { water: 0.5, ..Composition::default() }.checked().is_err());
        assert!(Composition { water: 1.2, fat: -0.2, ..Composition::default() }.checked().is_err());
        assert!(Composition { water: 0.99, ash: 0.02, ..Composition::default() }.checked().is_ok());
    }
}
