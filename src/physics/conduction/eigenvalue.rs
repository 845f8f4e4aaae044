//! Eigenvalues of conduction with a surface resistance.

use std::f64::consts::PI;

use super::Shape;
use super::bessel::bessel_j0_j1;
use crate::physics::PhysicsError;

/// Smallest Biot number for which the series is evaluated; there is no largest, and an infinite one
/// stands for a surface that takes the temperature of its surroundings.
pub const SMALLEST_BIOT: f64 = 1e-6;

/// Below this Biot number the first eigenvalue comes from its power series, to 1e-10.
const SMALL_BIOT: f64 = 1e-3;
/// Newton's method doubles its digits; from the starting values four steps reach 1e-14.
const NEWTON_STEPS: u32 = 12;
/// Relative change at which Newton's method stops.
const NEWTON_TOLERANCE: f64 = 1e-14;
/// McMahon's expansion misses the first zeros by less than this.
const ZERO_ERROR: f64 = 1e-3;
/// First zero of J0: Abramowitz & Stegun 1964, table 9.5.
const J0_FIRST_ZERO: f64 = 2.404_825_557_695_773;

/// Returns the n-th eigenvalue, counted from one.
///
/// Slab `z tan z = bi`, cylinder `z J1(z) = bi J0(z)`, sphere `1 - z cot z = bi`.
///
/// # Units
/// z and bi are plain numbers; bi = h L / k with half thickness or radius.
///
/// # Validity
/// From [`SMALLEST_BIOT`]; `f64::INFINITY` gives the limit of a fixed surface temperature.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] below the range.
///
/// # Source
/// Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. 1959, sections 3.11, 7.7 and 9.4.
pub fn eigenvalue(shape: Shape, biot: f64, n: u32) -> Result<f64, PhysicsError> {
    checked_biot(biot)?;
    Ok(nth(shape, biot, n.max(1)))
}

/// Checks a Biot number; the infinite one passes.
pub(super) fn checked_biot(biot: f64) -> Result<f64, PhysicsError> {
    if biot >= SMALLEST_BIOT {
        return Ok(biot);
    }
    Err(PhysicsError::OutsideValidity {
        law: "conduction series",
        quantity: "Biot number",
        value: biot,
        low: SMALLEST_BIOT,
        high: f64::INFINITY,
        unit: "",
    })
}

/// The n-th eigenvalue for a Biot number that was checked.
pub(super) fn nth(shape: Shape, biot: f64, n: u32) -> f64 {
    if n == 1 && biot < SMALL_BIOT {
        return small_biot(shape, biot);
    }
    let order = f64::from(n);
    match shape {
        Shape::Slab => slab(biot, order),
        Shape::Cylinder => cylinder(biot, order),
        Shape::Sphere => sphere(biot, order),
    }
}

/// First eigenvalue for a small Biot number, by the power series of its square.
fn small_biot(shape: Shape, bi: f64) -> f64 {
    let square = match shape {
        Shape::Slab => bi * (1.0 - bi / 3.0 + 4.0 * bi * bi / 45.0),
        Shape::Cylinder => 2.0 * bi * (1.0 - bi / 4.0 + bi * bi / 24.0),
        Shape::Sphere => 3.0 * bi * (1.0 - bi / 5.0 + 3.0 * bi * bi / 175.0),
    };
    square.sqrt()
}

/// Newton's method on a function given with its slope.
fn newton(start: f64, f: impl Fn(f64) -> (f64, f64)) -> f64 {
    let mut z = start;
    for _ in 0..NEWTON_STEPS {
        let (value, slope) = f(z);
        let step = value / slope;
        z -= step;
        if step.abs() < NEWTON_TOLERANCE * z {
            break;
        }
    }
    z
}

fn slab(bi: f64, n: f64) -> f64 {
    if bi.is_infinite() {
        return (n - 0.5) * PI;
    }
    let floor = (n - 1.0) * PI;
    let half_pi_squared = PI * PI / 4.0;
    let start = if n < 2.0 {
        (bi / (1.0 + bi / half_pi_squared)).sqrt()
    } else {
        floor + (bi / floor).atan()
    };
    newton(start, |z| (z - floor - bi.atan2(z), 1.0 + bi / (z * z + bi * bi)))
}

fn sphere(bi: f64, n: f64) -> f64 {
    if bi.is_infinite() {
        return n * PI;
    }
    let m = bi - 1.0;
    let start = if n < 2.0 {
        (3.0 * bi / (1.0 + 3.0 * bi / (PI * PI))).sqrt()
    } else {
        n * PI - ((n - 0.5) * PI).atan2(m)
    };
    newton(start, |z| (z - n * PI + z.atan2(m), 1.0 + m / (z * z + m * m)))
}

/// The root lies between the zeros of J1 and of J0, where the function has one sign of slope.
fn cylinder(bi: f64, n: f64) -> f64 {
    let high = if n < 2.0 { J0_FIRST_ZERO } else { mcmahon((n - 0.25) * PI, 0.0) + ZERO_ERROR };
    if bi.is_infinite() {
        return newton(high, |z| {
            let (j0, j1) = bessel_j0_j1(z);
            (j0, -j1)
        });
    }
    let low = if n < 2.0 { 0.0 } else { mcmahon((n - 0.75) * PI, 4.0) - ZERO_ERROR };
    let start = if n < 2.0 {
        (2.0 * bi / (1.0 + 2.0 * bi / (high * high))).sqrt()
    } else {
        low + (high - low) * 2.0 / PI * (bi / low).atan()
    };
    let f = |z: f64| {
        let (j0, j1) = bessel_j0_j1(z);
        (z * j1 - bi * j0, z * j0 + bi * j1)
    };
    guarded_newton(start, low, high, f)
}

/// Newton's method that halves the bracket whenever a step would leave it.
fn guarded_newton(start: f64, mut low: f64, mut high: f64, f: impl Fn(f64) -> (f64, f64)) -> f64 {
    let mut z = start;
    for _ in 0..2 * NEWTON_STEPS {
        let (value, slope) = f(z);
        if value * slope > 0.0 {
            high = high.min(z);
        } else {
            low = low.max(z);
        }
        let mut next = z - value / slope;
        if (next - z).abs() < NEWTON_TOLERANCE * z {
            break;
        }
        if next <= low || next >= high {
            next = 0.5 * (low + high);
        }
        z = next;
    }
    z
}

/// McMahon's expansion of a large zero of J0 (mu = 0) or J1 (mu = 4): Abramowitz & Stegun 9.5.12.
fn mcmahon(beta: f64, mu: f64) -> f64 {
    let eight = 8.0 * beta;
    beta - (mu - 1.0) / eight - 4.0 * (mu - 1.0) * (7.0 * mu - 31.0) / (3.0 * eight.powi(3))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn residual(shape: Shape, bi: f64, z: f64) -> f64 {
        match shape {
            Shape::Slab => (z * z.sin() - bi * z.cos()) / (z + bi),
            Shape::Cylinder => {
                let (j0, j1) = bessel_j0_j1(z);
                (z * j1 - bi * j0) / (z + bi)
            }
            Shape::Sphere => ((1.0 - bi) * z.sin() - z * z.cos()) / (z + bi),
        }
    }

    #[test]
    fn every_eigenvalue_solves_its_equation_and_grows_with_its_order() {
        for shape in [Shape::Slab, Shape::Cylinder, Shape::Sphere] {
            for bi in [1e-6, 9e-4, 1.1e-3, 0.1, 0.5, 1.0, 1.5, 7.0, 100.0, 1e5] {
                let mut before = 0.0;
                for n in 1..=60 {
                    let z = eigenvalue(shape, bi, n).unwrap();
                    assert!(residual(shape, bi, z).abs() < 1e-9, "{shape:?} {bi} {n} {z}");
                    assert!(z > before && (n == 1 || z - before < 1.6 * PI), "{shape:?} {bi} {n}");
                    before = z;
                }
            }
        }
    }

    #[test]
    fn a_biot_number_of_zero_is_refused_and_an_infinite_one_is_the_limit() {
        assert!(eigenvalue(Shape::Slab, 0.0, 1).is_err());
        assert!(eigenvalue(Shape::Slab, f64::NAN, 1).is_err());
        let z = eigenvalue(Shape::Cylinder, f64::INFINITY, 1).unwrap();
        assert!((z - J0_FIRST_ZERO).abs() < 1e-10);
        assert!((eigenvalue(Shape::Sphere, f64::INFINITY, 2).unwrap() - 2.0 * PI).abs() < 1e-12);
    }
}
