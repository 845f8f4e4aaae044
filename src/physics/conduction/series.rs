//! The exact series for one direction of heat flow.

use super::Shape;
use super::bessel::bessel_j0_j1;
use super::eigenvalue::{checked_biot, nth};
use super::surface::short_time;
use crate::physics::{PhysicsError, Validity};

/// Relative places in the solid.
const PLACE_RANGE: Validity = Validity {
    law: "conduction series",
    quantity: "distance from the centre as a share of the half thickness or radius",
    low: 0.0,
    high: 1.0,
    unit: "",
};

/// Below this Fourier number the solution of the half-space is used: heat has entered 0.4 % of the
/// half thickness, so that curvature changes the result by less than 0.2 %.
const SHORT_FOURIER: f64 = 1e-6;
/// The series ends where its exponent reaches this: exp(-32) = 1e-14.
const LAST_EXPONENT: f64 = 32.0;

/// Where in the solid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Position {
    /// The centre: the core.
    Centre,
    /// The surface.
    Surface,
    /// The average over the volume.
    Mean,
    /// A distance from the centre as a share of the half thickness or radius, 0 to 1.
    At(f64),
}

/// Returns the share of the temperature change that is still to come, at a place in the solid.
///
/// `theta = (T - medium) / (start - medium) = sum(C exp(-z² fo) f(z r))`, with f a cosine, J0 or
/// sin(x)/x for slab, cylinder and sphere.
///
/// # Units
/// Plain numbers; bi = h L / k and fo = a t / L² with half thickness or radius.
///
/// # Validity
/// Biot 1e-6 to infinity, any Fourier number; below 1e-6 by the half-space, to 0.2 %.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for a smaller Biot number or a place outside the solid;
/// [`PhysicsError::NotPositive`] for a negative Fourier number.
///
/// # Source
/// Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. 1959, sections 3.11, 7.7 and 9.4.
pub fn dimensionless_temperature(
    shape: Shape,
    biot: f64,
    fourier: f64,
    position: Position,
) -> Result<f64, PhysicsError> {
    checked_biot(biot)?;
    let fourier_holds = fourier >= 0.0;
    if !fourier_holds {
        return Err(PhysicsError::NotPositive {
            quantity: "Fourier number",
            value: fourier,
            unit: "",
        });
    }
    if let Position::At(place) = position {
        PLACE_RANGE.check(place)?;
    }
    if fourier < SHORT_FOURIER {
        return Ok(short_time(shape, biot, fourier, position));
    }
    let mut sum = 0.0;
    let mut n = 1;
    loop {
        let term = Term::new(shape, biot, n);
        let exponent = term.square * fourier;
        sum += term.coefficient * (-exponent).exp() * term.profile(shape, position);
        if exponent > LAST_EXPONENT {
            break;
        }
        n += 1;
    }
    Ok(sum.clamp(0.0, 1.0))
}

/// The first term of the series, which alone is left soon after the start.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeadingTerm {
    /// Decay per Fourier number: the square of the first eigenvalue.
    pub decay: f64,
    /// Coefficient at the core, one or more.
    pub core: f64,
    /// Coefficient of the average over the volume, one or less.
    pub mean: f64,
}

impl LeadingTerm {
    /// Returns the first term of the series of a shape.
    ///
    /// `theta = C exp(-z² fo)`
    ///
    /// # Units
    /// Plain numbers; bi = h L / k with half thickness or radius.
    ///
    /// # Validity
    /// The core from theta = 0.7 down to better than 1 %.
    ///
    /// # Errors
    /// [`PhysicsError::OutsideValidity`] for a Biot number outside the range of the series.
    ///
    /// # Source
    /// As [`dimensionless_temperature`]; Heisler, Trans. ASME 69, 1947, for its use.
    pub fn of(shape: Shape, biot: f64) -> Result<Self, PhysicsError> {
        super::eigenvalue::checked_biot(biot)?;
        let term = Term::new(shape, biot, 1);
        let mean = term.coefficient * term.mean(shape);
        Ok(Self { decay: term.square, core: term.coefficient, mean })
    }
}

/// One term of the series: the eigenvalue, its square and its coefficient.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Term {
    z: f64,
    /// Square of the eigenvalue.
    pub(super) square: f64,
    /// Coefficient at the centre.
    pub(super) coefficient: f64,
}

impl Term {
    /// Makes the n-th term for a Biot number that was checked.
    pub(super) fn new(shape: Shape, biot: f64, n: u32) -> Self {
        let z = nth(shape, biot, n);
        let coefficient = match shape {
            Shape::Slab => 4.0 * z.sin() / (2.0 * z + (2.0 * z).sin()),
            Shape::Cylinder => {
                let (j0, j1) = bessel_j0_j1(z);
                2.0 * j1 / (z * (j0 * j0 + j1 * j1))
            }
            Shape::Sphere => 4.0 * sine_less_cosine(z) / twice_less_sine(z),
        };
        Self { z, square: z * z, coefficient }
    }

    /// The profile of the term at a place, one at the centre.
    fn profile(&self, shape: Shape, position: Position) -> f64 {
        let z = self.z;
        let place = match position {
            Position::Centre => return 1.0,
            Position::Mean => return self.mean(shape),
            Position::Surface => 1.0,
            Position::At(place) => place,
        };
        let x = z * place;
        match shape {
            Shape::Slab => x.cos(),
            Shape::Cylinder => bessel_j0_j1(x).0,
            Shape::Sphere if x > 0.0 => x.sin() / x,
            Shape::Sphere => 1.0,
        }
    }

    fn mean(&self, shape: Shape) -> f64 {
        let z = self.z;
        match shape {
            Shape::Slab => z.sin() / z,
            Shape::Cylinder => 2.0 * bessel_j0_j1(z).1 / z,
            Shape::Sphere => 3.0 * sine_less_cosine(z) / (z * z * z),
        }
    }
}

/// Below this argument the differences of the sphere are taken from their power series.
const SMALL_ARGUMENT: f64 = 0.1;

/// `sin z - z cos z` without cancellation.
fn sine_less_cosine(z: f64) -> f64 {
    if z > SMALL_ARGUMENT {
        return z.sin() - z * z.cos();
    }
    let q = z * z;
    z * q / 3.0 * (1.0 - q / 10.0 + q * q / 280.0 - q * q * q / 15_120.0)
}

/// `2 z - sin 2 z` without cancellation.
fn twice_less_sine(z: f64) -> f64 {
    if z > SMALL_ARGUMENT {
        return 2.0 * z - (2.0 * z).sin();
    }
    let q = 4.0 * z * z;
    2.0 * z * q / 6.0 * (1.0 - q / 20.0 + q * q / 840.0 - q * q * q / 60_480.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    const SHAPES: [Shape; 3] = [Shape::Slab, Shape::Cylinder, Shape::Sphere];

    fn theta(shape: Shape, bi: f64, fo: f64, position: Position) -> f64 {
        dimensionless_temperature(shape, bi, fo, position).unwrap()
    }

    #[test]
    fn a_small_biot_number_cools_as_one_lump() {
        for shape in SHAPES {
            let bi = 1e-4;
            let lumped = (-shape.dimensions() * bi * 5e3f64).exp();
            assert!((theta(shape, bi, 5e3, Position::Mean) - lumped).abs() < 1e-4);
        }
    }

    #[test]
    fn the_surface_leads_the_mean_and_the_mean_leads_the_core() {
        for shape in SHAPES {
            for bi in [0.01, 1.0, 30.0, f64::INFINITY] {
                let mut before = [2.0; 3];
                for fo in [1e-7, 1e-6, 1e-4, 1e-3, 0.01, 0.1, 0.5, 2.0] {
                    let now = [Position::Surface, Position::Mean, Position::Centre]
                        .map(|position| theta(shape, bi, fo, position));
                    assert!(
                        now[0] <= now[1] + 1e-6 && now[1] <= now[2] + 1e-6,
                        "{shape:?} {bi} {fo}"
                    );
                    assert!(
                        now.iter().zip(before).all(|(n, b)| *n <= b + 1e-6),
                        "{shape:?} {bi} {fo} {now:?} {before:?}"
                    );
                    before = now;
                }
            }
        }
    }

    #[test]
    fn the_half_space_and_the_series_meet() {
        for shape in SHAPES {
            for bi in [0.1, 1.0, 50.0, 1e4] {
                for position in [Position::Surface, Position::Mean, Position::At(0.999)] {
                    let below = theta(shape, bi, 0.999 * SHORT_FOURIER, position);
                    let above = theta(shape, bi, SHORT_FOURIER, position);
                    assert!((below - above).abs() < 2e-3, "{shape:?} {bi} {position:?}");
                }
            }
        }
    }

    #[test]
    fn bad_input_is_refused() {
        let refused =
            |bi, fo, position| dimensionless_temperature(Shape::Slab, bi, fo, position).is_err();
        assert!(refused(0.0, 1.0, Position::Centre));
        assert!(refused(1.0, -1.0, Position::Centre));
        assert!(refused(1.0, 1.0, Position::At(1.5)));
    }
}
