//! Heat conduction into solids, in closed form and step by step.
//!
//! Answers how the inside of a slab, cylinder, sphere, can or brick follows its surroundings: at a
//! time, at a place, on average, and when the core reaches a temperature; and step by step when the
//! surroundings change. Freezing inside the solid is left to [`stepping`] with an enthalpy curve and
//! to [`crate::physics::freezing`]. Symbols: bi Biot number h L / k, fo Fourier number a t / L²,
//! L half thickness or radius, a diffusivity, z eigenvalue, theta unaccomplished share of the
//! temperature change.

mod bessel;
mod eigenvalue;
mod insulated;
mod series;
mod solid;
pub mod stepping;
mod surface;
mod transfer;

pub use eigenvalue::{SMALLEST_BIOT, eigenvalue};
pub use insulated::{InsulatedBox, box_cooling};
pub use series::{LeadingTerm, Position, dimensionless_temperature};
pub use solid::{Exposure, Solid};
pub use surface::{complementary_error_function, surface_layer_depth, surface_layer_temperature};
pub use transfer::{USUAL_TRANSFERS, UsualTransfer, usual_transfer};

/// A shape whose heat flows in one direction.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// A wide slab heated from both faces; its length L is half the thickness.
    Slab,
    /// A long cylinder; its length L is the radius.
    Cylinder,
    /// A sphere; its length L is the radius.
    Sphere,
}

impl Shape {
    /// Returns the number of directions in which heat enters: 1, 2 or 3.
    pub const fn dimensions(self) -> f64 {
        match self {
            Self::Slab => 1.0,
            Self::Cylinder => 2.0,
            Self::Sphere => 3.0,
        }
    }
}
