//! Properties of the pure components of food.

use crate::physics::{PhysicsError, Validity};
use crate::quantity::{Conductivity, Density, SpecificHeat, Temperature};

/// Where the polynomials of the components hold.
pub const COMPONENT_RANGE: Validity = Validity {
    law: "properties of food components by Choi & Okos",
    quantity: "temperature",
    low: -40.0,
    high: 150.0,
    unit: "°C",
};

/// A component of food.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Component {
    /// Liquid water, also below its freezing point.
    Water,
    /// Ice.
    Ice,
    /// Protein.
    Protein,
    /// Fat.
    Fat,
    /// Carbohydrate.
    Carbohydrate,
    /// Fibre.
    Fibre,
    /// Ash.
    Ash,
}

/// Coefficients of `a + b t + c t²`, t in °C.
type Quadratic = [f64; 3];

impl Component {
    /// Conductivity \[W/(m K)\].
    const fn conductivity_coefficients(self) -> Quadratic {
        match self {
            Self::Water => [0.571_09, 1.7625e-3, -6.7036e-6],
            Self::Ice => [2.2196, -6.2489e-3, 1.0154e-4],
            Self::Protein => [0.178_81, 1.1958e-3, -2.7178e-6],
            Self::Fat => [0.180_71, -2.7604e-4, -1.7749e-7],
            Self::Carbohydrate => [0.201_41, 1.3874e-3, -4.3312e-6],
            Self::Fibre => [0.183_31, 1.2497e-3, -3.1683e-6],
            Self::Ash => [0.329_62, 1.4011e-3, -2.9069e-6],
        }
    }

    /// Density \[kg/m³\].
    const fn density_coefficients(self) -> Quadratic {
        match self {
            Self::Water => [997.18, 3.1439e-3, -3.7574e-3],
            Self::Ice => [916.89, -0.130_71, 0.0],
            Self::Protein => [1329.9, -0.5184, 0.0],
            Self::Fat => [925.59, -0.417_57, 0.0],
            Self::Carbohydrate => [1599.1, -0.310_46, 0.0],
            Self::Fibre => [1311.5, -0.365_89, 0.0],
            Self::Ash => [2423.8, -0.280_63, 0.0],
        }
    }

    /// Heat capacity \[J/(kg K)\]; water has one polynomial below 0 °C and one above.
    const fn heat_capacity_coefficients(self, below_zero: bool) -> Quadratic {
        match self {
            Self::Water if below_zero => [4081.7, -5.3062, 0.995_16],
            Self::Water => [4176.2, -9.0864e-2, 5.4731e-3],
            Self::Ice => [2062.3, 6.0769, 0.0],
            Self::Protein => [2008.2, 1.2089, -1.3129e-3],
            Self::Fat => [1984.2, 1.4733, -4.8008e-3],
            Self::Carbohydrate => [1548.8, 1.9625, -5.9399e-3],
            Self::Fibre => [1845.9, 1.8306, -4.6509e-3],
            Self::Ash => [1092.6, 1.8896, -3.6817e-3],
        }
    }

    /// Returns the thermal conductivity of the component.
    ///
    /// `k = a + b t + c t²`
    ///
    /// # Units
    /// t \[°C\], k \[W/(m K)\].
    ///
    /// # Validity
    /// [`COMPONENT_RANGE`].
    ///
    /// # Errors
    /// [`PhysicsError::OutsideValidity`] outside it.
    ///
    /// # Source
    /// Choi & Okos, Effects of temperature and composition on the thermal properties of foods, in:
    /// Food Engineering and Process Applications, vol. 1, 1986, as tabulated in ASHRAE Handbook of
    /// Refrigeration, Thermal properties of foods, tables 1 and 2.
    pub fn conductivity(self, temperature: Temperature) -> Result<Conductivity, PhysicsError> {
        let t = COMPONENT_RANGE.check(temperature.celsius())?;
        Ok(Conductivity::from_si(quadratic(self.conductivity_coefficients(), t)))
    }

    /// Returns the density of the component.
    ///
    /// `rho = a + b t + c t²`
    ///
    /// # Units
    /// t \[°C\], rho \[kg/m³\].
    ///
    /// # Validity
    /// [`COMPONENT_RANGE`].
    ///
    /// # Errors
    /// [`PhysicsError::OutsideValidity`] outside it.
    ///
    /// # Source
    /// As [`Component::conductivity`].
    pub fn density(self, temperature: Temperature) -> Result<Density, PhysicsError> {
        let t = COMPONENT_RANGE.check(temperature.celsius())?;
        Ok(Density::from_si(quadratic(self.density_coefficients(), t)))
    }

    /// Returns the heat capacity of the component.
    ///
    /// `c = a + b t + c t²`
    ///
    /// # Units
    /// t \[°C\], c \[J/(kg K)\].
    ///
    /// # Validity
    /// [`COMPONENT_RANGE`]; liquid water changes its polynomial at 0 °C, where it jumps by 2 %.
    ///
    /// # Errors
    /// [`PhysicsError::OutsideValidity`] outside it.
    ///
    /// # Source
    /// As [`Component::conductivity`]; water coefficients from memory of Choi & Okos 1986 (reprints
    /// of the ASHRAE table differ by 1 % in the constant).
    pub fn heat_capacity(self, temperature: Temperature) -> Result<SpecificHeat, PhysicsError> {
        let t = COMPONENT_RANGE.check(temperature.celsius())?;
        let coefficients = self.heat_capacity_coefficients(t < 0.0);
        Ok(SpecificHeat::from_si(quadratic(coefficients, t)))
    }

    /// Coefficients of the heat capacity at or below 0 °C, for integration over a frozen range.
    pub(super) const fn frozen_heat_capacity(self) -> Quadratic {
        self.heat_capacity_coefficients(true)
    }

    /// Coefficients of the heat capacity above 0 °C.
    pub(super) const fn thawed_heat_capacity(self) -> Quadratic {
        self.heat_capacity_coefficients(false)
    }
}

fn quadratic([a, b, c]: Quadratic, t: f64) -> f64 {
    a + b * t + c * t * t
}

#[cfg(test)]
mod tests {
    use super::*;

    const ALL: [Component; 7] = [
        Component::Water,
        Component::Ice,
        Component::Protein,
        Component::Fat,
        Component::Carbohydrate,
        Component::Fibre,
        Component::Ash,
    ];

    #[test]
    fn outside_the_range_every_property_is_refused() {
        let hot = Temperature::from_celsius(151.0);
        for component in ALL {
            assert!(component.conductivity(hot).is_err());
            assert!(component.density(hot).is_err());
            assert!(component.heat_capacity(hot).is_err());
        }
    }

    #[test]
    fn every_property_is_positive_over_the_range() {
        for component in ALL {
            for t in -40..=150 {
                let t = Temperature::from_celsius(f64::from(t));
                assert!(component.conductivity(t).unwrap().si() > 0.1);
                assert!(component.density(t).unwrap().si() > 800.0);
                assert!(component.heat_capacity(t).unwrap().si() > 900.0);
            }
        }
    }
}
