//! What a batch is made of: masses by component.

use std::ops::{Add, AddAssign, Index, IndexMut, Mul, Sub, SubAssign};

use crate::knowledge::Shares;
use crate::quantity::Mass;

/// The components that a batch is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Component {
    /// Water, ice included.
    Water,
    /// Sugars.
    Sugars,
    /// Starch.
    Starch,
    /// Fibre: cell walls, pectin, gums.
    Fibre,
    /// Protein.
    Protein,
    /// Fat and oil.
    Fat,
    /// Organic acids.
    Acid,
    /// Salt.
    Salt,
    /// Ethanol.
    Ethanol,
    /// Other carbohydrate and minerals.
    Other,
}

impl Component {
    /// Every component, in the order of storage.
    pub const ALL: [Self; 10] = [
        Self::Water,
        Self::Sugars,
        Self::Starch,
        Self::Fibre,
        Self::Protein,
        Self::Fat,
        Self::Acid,
        Self::Salt,
        Self::Ethanol,
        Self::Other,
    ];
}

/// Masses by component \[kg\].
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Contents([f64; 10]);

impl Contents {
    /// Nothing.
    pub const NONE: Self = Self([0.0; 10]);

    /// Returns a mass of food of the given shares.
    pub fn of(mass: Mass, shares: &Shares) -> Self {
        let kg = mass.kilograms();
        Self([
            shares.water * kg,
            shares.sugars * kg,
            shares.starch * kg,
            shares.fibre * kg,
            shares.protein * kg,
            shares.fat * kg,
            shares.acid * kg,
            shares.salt * kg,
            shares.ethanol * kg,
            shares.other * kg,
        ])
    }

    /// Returns a mass of one component alone.
    pub fn only(component: Component, mass: Mass) -> Self {
        let mut contents = Self::NONE;
        contents[component] = mass.kilograms();
        contents
    }

    /// Returns the mass of all components.
    pub fn total(&self) -> Mass {
        Mass::from_kilograms(self.0.iter().sum())
    }

    /// Returns the mass of one component.
    pub fn mass(&self, component: Component) -> Mass {
        Mass::from_kilograms(self[component])
    }

    /// Returns the share of one component; zero for an empty batch.
    pub fn share(&self, component: Component) -> f64 {
        let total = self.total().kilograms();
        if total > 0.0 { self[component] / total } else { 0.0 }
    }

    /// Returns the mass of what dissolves in water: sugars, acids, salt and the rest \[kg\].
    pub fn solutes(&self) -> Mass {
        use Component::{Acid, Other, Salt, Sugars};
        Mass::from_kilograms(self[Sugars] + self[Acid] + self[Salt] + self[Other])
    }

    /// Returns the mass of everything but water and ethanol.
    pub fn dry_matter(&self) -> Mass {
        let volatile = self[Component::Water] + self[Component::Ethanol];
        Mass::from_kilograms(self.total().kilograms() - volatile)
    }

    /// Returns the share of dissolved solids in the liquid, as a refractometer reads it.
    ///
    /// Water, ethanol and solutes count; insoluble matter, protein and fat do not.
    pub fn soluble_solids(&self) -> f64 {
        let solutes = self.solutes().kilograms();
        let liquid = solutes + self[Component::Water] + self[Component::Ethanol];
        if liquid > 0.0 { solutes / liquid } else { 0.0 }
    }

    /// Returns whether no component is negative or not a number.
    pub fn is_sound(&self) -> bool {
        self.0.iter().all(|mass| mass.is_finite() && *mass >= 0.0)
    }

    /// Returns the largest absolute difference by component \[kg\].
    pub fn difference(&self, other: &Self) -> f64 {
        self.0.iter().zip(other.0).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max)
    }
}

impl Index<Component> for Contents {
    type Output = f64;
    fn index(&self, component: Component) -> &f64 {
        &self.0[component as usize]
    }
}
impl IndexMut<Component> for Contents {
    fn index_mut(&mut self, component: Component) -> &mut f64 {
        &mut self.0[component as usize]
    }
}
impl Add for Contents {
    type Output = Self;
    fn add(mut self, other: Self) -> Self {
        self += other;
        self
    }
}
impl AddAssign for Contents {
    fn add_assign(&mut self, other: Self) {
        self.0.iter_mut().zip(other.0).for_each(|(mass, more)| *mass += more);
    }
}
impl Sub for Contents {
    type Output = Self;
    fn sub(mut self, other: Self) -> Self {
        self -= other;
        self
    }
}
impl SubAssign for Contents {
    fn sub_assign(&mut self, other: Self) {
        self.0.iter_mut().zip(other.0).for_each(|(mass, less)| *mass -= less);
    }
}
impl Mul<f64> for Contents {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self(self.0.map(|mass| mass * factor))
    }
}
impl std::iter::Sum for Contents {
    fn sum<I: Iterator<Item = Self>>(parts: I) -> Self {
        parts.fold(Self::NONE, Add::add)
    }
}
