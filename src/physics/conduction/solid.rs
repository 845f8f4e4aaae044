//! Solids of several directions, and the time until their core reaches a temperature.

use super::eigenvalue::checked_biot;
use super::series::Term;
use super::{Position, Shape, dimensionless_temperature};
use crate::physics::{PhysicsError, Validity, positive};
use crate::quantity::{Conductivity, Diffusivity, HeatTransfer, Length, Temperature, Time};

/// Shares of the temperature change between start and surroundings that a core can be asked for.
const SHARE_RANGE: Validity = Validity {
    law: "time to a core temperature",
    quantity: "share of the temperature change still to come",
    low: 1e-12,
    high: 1.0 - 1e-6,
    unit: "",
};
/// Below this Fourier number a core has kept its temperature to 3e-12: 2 erfc(1 / (2 sqrt(fo))).
const UNTOUCHED_FOURIER: f64 = 0.01;
/// Most terms of one direction kept while a time is sought; 18 are enough at the smallest Fourier
/// number.
const MOST_TERMS: usize = 24;
/// Terms are left out where their exponent exceeds this: exp(-30) = 1e-13.
const LAST_EXPONENT: f64 = 30.0;
/// Steps of the search; Newton's method needs three to five.
const MOST_STEPS: u32 = 60;
/// Relative change of the time at which the search stops.
const TIME_TOLERANCE: f64 = 1e-13;

/// The form and size of a solid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Solid {
    /// A wide slab heated from both faces, by its half thickness.
    Slab(Length),
    /// A long cylinder, by its radius.
    Cylinder(Length),
    /// A sphere, by its radius.
    Sphere(Length),
    /// A short cylinder, by its radius and half length.
    Can(Length, Length),
    /// A brick, by its three half edges.
    Brick(Length, Length, Length),
}

impl Solid {
    /// The one-directional shapes whose product it is, with their lengths; unused places are `None`.
    fn directions(self) -> [Option<(Shape, Length)>; 3] {
        match self {
            Self::Slab(half) => [Some((Shape::Slab, half)), None, None],
            Self::Cylinder(radius) => [Some((Shape::Cylinder, radius)), None, None],
            Self::Sphere(radius) => [Some((Shape::Sphere, radius)), None, None],
            Self::Can(radius, half) => {
                [Some((Shape::Cylinder, radius)), Some((Shape::Slab, half)), None]
            }
            Self::Brick(a, b, c) => [a, b, c].map(|half| Some((Shape::Slab, half))),
        }
    }
}

/// A solid of one temperature put into surroundings of another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Exposure {
    /// Form and size.
    pub solid: Solid,
    /// Thermal diffusivity of the solid.
    pub diffusivity: Diffusivity,
    /// Thermal conductivity of the solid.
    pub conductivity: Conductivity,
    /// Heat transfer at the surface; `None` when the surface takes the surroundings' temperature.
    pub heat_transfer: Option<HeatTransfer>,
    /// Temperature of the solid at the start.
    pub start: Temperature,
    /// Temperature of the surroundings.
    pub surroundings: Temperature,
}

impl Exposure {
    /// Returns the temperature of the core, of a corner or on average after a time.
    ///
    /// `theta = product of the thetas of its directions`
    ///
    /// # Units
    /// t \[s\], T \[K\].
    ///
    /// # Validity
    /// As [`dimensionless_temperature`]; constant properties; nothing freezes or thaws.
    ///
    /// # Errors
    /// [`PhysicsError::NotPositive`] for a length, diffusivity, conductivity or heat transfer of zero
    /// or less; [`PhysicsError::OutsideValidity`] outside the range of the series.
    ///
    /// # Source
    /// Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. 1959, section 1.15 (Newman 1936).
    pub fn temperature(&self, time: Time, place: Position) -> Result<Temperature, PhysicsError> {
        let mut theta = 1.0;
        for (shape, biot, rate) in self.groups()?.into_iter().flatten() {
            theta *= dimensionless_temperature(shape, biot, rate * time.seconds(), place)?;
        }
        Ok(self.surroundings + (self.start - self.surroundings) * theta)
    }

    /// Returns the time after which the core reaches a temperature.
    ///
    /// Newton's method on `ln theta(t)`, which is almost straight, from the one-term solution.
    ///
    /// # Units
    /// t \[s\], T \[K\].
    ///
    /// # Validity
    /// The target lies between start and surroundings, from a millionth of the change after the start.
    ///
    /// # Errors
    /// As [`Exposure::temperature`]; [`PhysicsError::OutsideValidity`] for a target that is not
    /// reached; [`PhysicsError::NoConvergence`] when the search does not settle.
    ///
    /// # Source
    /// As [`Exposure::temperature`].
    pub fn time_to_core(&self, target: Temperature) -> Result<Time, PhysicsError> {
        let share = (target - self.surroundings) / (self.start - self.surroundings);
        let wanted = SHARE_RANGE.check(share)?.ln();
        let mut products: [Option<Core>; 3] = [None; 3];
        for (slot, group) in products.iter_mut().zip(self.groups()?) {
            *slot = group.map(|(shape, biot, rate)| Core::new(shape, biot, rate));
        }
        let mut time = one_term_time(&products, wanted);
        let (mut low, mut high) = (0.0, f64::INFINITY);
        for _ in 0..MOST_STEPS {
            let (value, slope) = logarithm(&mut products, time);
            if value > wanted {
                low = time
            } else {
                high = time
            }
            let mut next = time - (value - wanted) / slope;
            let inside = next > low && next < high;
            if !inside {
                next = if high.is_finite() { 0.5 * (low + high) } else { 2.0 * time };
            }
            let step = (next - time).abs();
            time = next;
            if step <= TIME_TOLERANCE * time {
                return Ok(Time::from_seconds(time));
            }
        }
        let what = "time to a core temperature";
        Err(PhysicsError::NoConvergence { what, steps: MOST_STEPS, last: time })
    }

    /// Shape, Biot number and Fourier number per second of each direction.
    fn groups(&self) -> Result<Groups, PhysicsError> {
        let a = positive("diffusivity", self.diffusivity.si(), "m²/s")?;
        let k = positive("conductivity", self.conductivity.si(), "W/(m K)")?;
        let h = match self.heat_transfer {
            Some(h) => positive("heat transfer at the surface", h.si(), "W/(m² K)")?,
            None => f64::INFINITY,
        };
        let mut groups = [None; 3];
        for (group, direction) in groups.iter_mut().zip(self.solid.directions()) {
            if let Some((shape, length)) = direction {
                let l = positive("half thickness or radius", length.metres(), "m")?;
                *group = Some((shape, checked_biot(h * l / k)?, a / (l * l)));
            }
        }
        Ok(groups)
    }
}

/// Shape, Biot number and Fourier number per second of each direction.
type Groups = [Option<(Shape, f64, f64)>; 3];

/// The series of one direction at the core, its terms made when first needed.
#[derive(Debug, Clone, Copy)]
struct Core {
    shape: Shape,
    biot: f64,
    rate: f64,
    terms: [Term; MOST_TERMS],
    known: usize,
}

impl Core {
    fn new(shape: Shape, biot: f64, rate: f64) -> Self {
        let mut terms = [Term::default(); MOST_TERMS];
        terms[0] = Term::new(shape, biot, 1);
        Self { shape, biot, rate, terms, known: 1 }
    }

    /// The share still to come and its slope per second.
    fn evaluate(&mut self, time: f64) -> (f64, f64) {
        let fourier = self.rate * time;
        if fourier < UNTOUCHED_FOURIER {
            return (1.0, 0.0);
        }
        let (mut value, mut slope) = (0.0, 0.0);
        for n in 0..MOST_TERMS {
            if n >= self.known {
                let order = u32::try_from(n + 1).unwrap_or(u32::MAX);
                self.terms[n] = Term::new(self.shape, self.biot, order);
                self.known = n + 1;
            }
            let term = self.terms[n];
            let part = term.coefficient * (-term.square * fourier).exp();
            value += part;
            slope -= part * term.square * self.rate;
            if (term.square - self.terms[0].square) * fourier > LAST_EXPONENT {
                break;
            }
        }
        (value, slope)
    }
}

/// The time at which the product of the first terms has the wanted logarithm.
fn one_term_time(products: &[Option<Core>; 3], wanted: f64) -> f64 {
    let (mut coefficient, mut rate) = (0.0, 0.0);
    for core in products.iter().flatten() {
        coefficient += core.terms[0].coefficient.ln();
        rate += core.terms[0].square * core.rate;
    }
    /// A core keeps its temperature until about this Fourier number.
    const LAG: f64 = 0.03;
    let fastest = products.iter().flatten().map(|core| core.rate).fold(0.0, f64::max);
    ((coefficient - wanted) / rate).max(LAG / fastest)
}

/// Logarithm of the product and its slope; a product that rounding drove to zero or above one is
/// held just inside.
fn logarithm(products: &mut [Option<Core>; 3], time: f64) -> (f64, f64) {
    let (mut logarithm, mut slope) = (0.0, 0.0);
    for core in products.iter_mut().flatten() {
        let (value, change) = core.evaluate(time);
        let value = value.clamp(f64::MIN_POSITIVE, 1.0);
        logarithm += value.ln();
        slope += change / value;
    }
    (logarithm, slope)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn steak(solid: Solid, h: Option<f64>) -> Exposure {
        Exposure {
            solid,
            diffusivity: Diffusivity::from_si(1.4e-7),
            conductivity: Conductivity::from_si(0.5),
            heat_transfer: h.map(HeatTransfer::from_si),
            start: Temperature::from_celsius(5.0),
            surroundings: Temperature::from_celsius(60.0),
        }
    }

    fn solids() -> [Solid; 5] {
        let mm = Length::from_millimetres;
        [
            Solid::Slab(mm(15.0)),
            Solid::Cylinder(mm(30.0)),
            Solid::Sphere(mm(35.0)),
            Solid::Can(mm(40.0), mm(50.0)),
            Solid::Brick(mm(15.0), mm(40.0), mm(80.0)),
        ]
    }

    #[test]
    fn time_and_core_temperature_invert_each_other() {
        for solid in solids() {
            for h in [None, Some(5.0), Some(200.0), Some(1e4)] {
                let exposure = steak(solid, h);
                for target in [5.01, 6.0, 20.0, 55.0, 59.9] {
                    let target = Temperature::from_celsius(target);
                    let time = exposure.time_to_core(target).unwrap();
                    let back = exposure.temperature(time, Position::Centre).unwrap();
                    assert!((back - target).kelvin().abs() < 1e-7, "{solid:?} {h:?} {target:?}");
                }
            }
        }
    }

    #[test]
    fn a_core_never_passes_its_surroundings() {
        let exposure = steak(solids()[0], Some(100.0));
        assert!(exposure.time_to_core(Temperature::from_celsius(60.0)).is_err());
        assert!(exposure.time_to_core(Temperature::from_celsius(61.0)).is_err());
        assert!(exposure.time_to_core(Temperature::from_celsius(4.0)).is_err());
    }

    #[test]
    fn sizes_and_properties_must_be_positive() {
        let hour = Time::from_hours(1.0);
        let good = steak(solids()[0], Some(100.0));
        for bad in [
            Exposure { solid: Solid::Slab(Length::ZERO), ..good },
            Exposure { diffusivity: Diffusivity::ZERO, ..good },
            Exposure { conductivity: Conductivity::ZERO, ..good },
            Exposure { heat_transfer: Some(HeatTransfer::ZERO), ..good },
        ] {
            assert!(bad.temperature(hour, Position::Centre).is_err());
        }
    }
}
