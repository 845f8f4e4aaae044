//! Conduction step by step, for surroundings that change: a cooling box, a ramp.
//!
//! One direction of heat flow in equal layers, by Crank-Nicolson steps; the first steps after a jump
//! of the surroundings are fully implicit, which keeps them free of ripples.

use super::Shape;
use super::eigenvalue::checked_biot;
use crate::physics::{PhysicsError, positive};
use crate::quantity::{Conductivity, Diffusivity, HeatTransfer, Length, Temperature, Time};

/// Layers between the core and the surface; the error of the core is below 0.2 % of the step.
const LAYERS: usize = 30;
/// Nodes: one at the core, one at the surface.
const NODES: usize = LAYERS + 1;
/// Longest step as a Fourier number.
const LONGEST_STEP: f64 = 0.004;
/// Steps of one call at most, so that a thin piece in a long wait is followed in bounded time: by
/// then its first transient has died out, and longer steps follow the surroundings.
const MOST_STEPS: f64 = 1_000.0;
/// Fully implicit steps after a jump: Rannacher, Numerische Mathematik 43, 1984.
const IMPLICIT_STEPS: u32 = 4;
/// Share of the new time in an ordinary step: one half is second order in time.
const CRANK_NICOLSON: f64 = 0.5;

/// The size and the properties of a solid whose temperature is followed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SteppedSolid {
    /// Direction of heat flow.
    pub shape: Shape,
    /// Half thickness or radius.
    pub length: Length,
    /// Thermal diffusivity.
    pub diffusivity: Diffusivity,
    /// Thermal conductivity.
    pub conductivity: Conductivity,
    /// Heat transfer at the surface.
    pub heat_transfer: HeatTransfer,
}

/// A solid on its way: the temperatures of its layers.
#[derive(Debug, Clone)]
pub struct Layers {
    temperatures: [f64; NODES],
    volumes: [f64; NODES],
    areas: [f64; LAYERS],
    biot: f64,
    seconds_per_fourier: f64,
    steps_taken: u32,
    last_surroundings: f64,
}

impl SteppedSolid {
    /// Starts a solid at one temperature throughout.
    ///
    /// # Units
    /// L \[m\], a \[m²/s\], k \[W/(m K)\], h \[W/(m² K)\].
    ///
    /// # Validity
    /// Constant properties; nothing freezes or thaws.
    ///
    /// # Errors
    /// [`PhysicsError::NotPositive`] for a length or property of zero or less;
    /// [`PhysicsError::OutsideValidity`] for a Biot number below [`super::SMALLEST_BIOT`].
    ///
    /// # Source
    /// Crank & Nicolson, Proc. Cambridge Phil. Soc. 43, 1947.
    pub fn start(&self, temperature: Temperature) -> Result<Layers, PhysicsError> {
        let length = positive("half thickness or radius", self.length.metres(), "m")?;
        let a = positive("diffusivity", self.diffusivity.si(), "m²/s")?;
        let k = positive("conductivity", self.conductivity.si(), "W/(m K)")?;
        let h = positive("heat transfer at the surface", self.heat_transfer.si(), "W/(m² K)")?;
        let biot = checked_biot(h * length / k)?;
        let (volumes, areas) = geometry(self.shape);
        Ok(Layers {
            temperatures: [temperature.kelvin(); NODES],
            volumes,
            areas,
            biot,
            seconds_per_fourier: length * length / a,
            steps_taken: 0,
            last_surroundings: temperature.kelvin(),
        })
    }
}

/// Volumes around the nodes and areas between them, over a length and a surface of one.
fn geometry(shape: Shape) -> ([f64; NODES], [f64; LAYERS]) {
    let d = shape.dimensions();
    let width = 1.0 / f64::from(u32::try_from(LAYERS).unwrap_or(u32::MAX));
    let (mut volumes, mut areas) = ([0.0; NODES], [0.0; LAYERS]);
    let mut inner: f64 = 0.0;
    let mut middle = 0.5 * width;
    for node in 0..NODES {
        let outer = middle.min(1.0);
        volumes[node] = (outer.powf(d) - inner.powf(d)) / d;
        if node < LAYERS {
            areas[node] = outer.powf(d - 1.0) / width;
        }
        inner = outer;
        middle += width;
    }
    (volumes, areas)
}

impl Layers {
    /// Follows the solid for a time in which the surroundings change evenly from one temperature to
    /// another.
    ///
    /// # Units
    /// T \[K\], t \[s\].
    ///
    /// # Validity
    /// As [`SteppedSolid::start`]; the time is cut into steps of a Fourier number of 0.004, or into
    /// 1000 fully implicit steps when it is longer than that.
    pub fn advance(&mut self, surroundings: (Temperature, Temperature), time: Time) {
        let (from, to) = (surroundings.0.kelvin(), surroundings.1.kelvin());
        let fourier = time.seconds() / self.seconds_per_fourier;
        if fourier.is_nan() || fourier <= 0.0 {
            return;
        }
        if (from - self.last_surroundings).abs() > f64::EPSILON * from {
            self.steps_taken = 0;
        }
        let steps = (fourier / LONGEST_STEP).ceil().clamp(1.0, MOST_STEPS);
        let mut done = 0.0;
        while done < steps {
            let before = from + (to - from) * done / steps;
            done += 1.0;
            let after = from + (to - from) * done / steps;
            self.step(fourier / steps, before, after);
        }
        self.last_surroundings = to;
    }

    /// Returns the temperature of the core.
    pub fn core(&self) -> Temperature {
        Temperature::from_kelvin(self.temperatures[0])
    }

    /// Returns the temperature of the surface.
    pub fn surface(&self) -> Temperature {
        Temperature::from_kelvin(self.temperatures[LAYERS])
    }

    /// Returns the average over the volume.
    pub fn mean(&self) -> Temperature {
        let whole: f64 = self.volumes.iter().sum();
        let sum: f64 = self.volumes.iter().zip(&self.temperatures).map(|(v, t)| v * t).sum();
        Temperature::from_kelvin(sum / whole)
    }

    /// One step: a tridiagonal system, solved by Thomas's elimination.
    fn step(&mut self, fourier: f64, before: f64, after: f64) {
        let implicit = self.steps_taken < IMPLICIT_STEPS || fourier > LONGEST_STEP;
        let new = if implicit { 1.0 } else { CRANK_NICOLSON };
        let old = 1.0 - new;
        let (mut pivot, mut right) = ([0.0; NODES], [0.0; NODES]);
        let t = &self.temperatures;
        for i in 0..NODES {
            let inward = if i > 0 { self.areas[i - 1] } else { 0.0 };
            let (outward, outside, outside_new) = if i < LAYERS {
                (self.areas[i], t[i + 1], 0.0)
            } else {
                (self.biot, before, self.biot * after)
            };
            let inside = if i > 0 { t[i - 1] } else { t[i] };
            let flow = inward * (inside - t[i]) + outward * (outside - t[i]);
            let weight = self.volumes[i] / fourier;
            pivot[i] = weight + new * (inward + outward);
            right[i] = weight * t[i] + old * flow + new * outside_new;
            if i > 0 {
                let ratio = new * inward / pivot[i - 1];
                pivot[i] -= ratio * new * inward;
                right[i] += ratio * right[i - 1];
            }
        }
        self.temperatures[LAYERS] = right[LAYERS] / pivot[LAYERS];
        for i in (0..LAYERS).rev() {
            let coupled = new * self.areas[i] * self.temperatures[i + 1];
            self.temperatures[i] = (right[i] + coupled) / pivot[i];
        }
        self.steps_taken = self.steps_taken.saturating_add(1);
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Position, dimensionless_temperature};
    use super::*;

    fn solid(shape: Shape, h: f64) -> SteppedSolid {
        SteppedSolid {
            shape,
            length: Length::from_millimetres(20.0),
            diffusivity: Diffusivity::from_si(1.4e-7),
            conductivity: Conductivity::from_si(0.5),
            heat_transfer: HeatTransfer::from_si(h),
        }
    }

    #[test]
    fn constant_surroundings_give_the_exact_series() {
        let (start, bath) = (Temperature::from_celsius(5.0), Temperature::from_celsius(60.0));
        for shape in [Shape::Slab, Shape::Cylinder, Shape::Sphere] {
            for h in [10.0, 100.0, 1000.0] {
                let mut layers = solid(shape, h).start(start).unwrap();
                let time = Time::from_minutes(12.0);
                layers.advance((bath, bath), time);
                let fo = 1.4e-7 * time.seconds() / 4e-4;
                for (found, place) in [
                    (layers.core(), Position::Centre),
                    (layers.mean(), Position::Mean),
                    (layers.surface(), Position::Surface),
                ] {
                    let theta = dimensionless_temperature(shape, h * 0.04, fo, place).unwrap();
                    let share = (found - bath) / (start - bath);
                    assert!(
                        (share - theta).abs() < 2e-3,
                        "{shape:?} {h} {place:?} {share} {theta}"
                    );
                }
            }
        }
    }

    #[test]
    fn a_slow_ramp_is_followed_with_a_steady_lag() {
        // Slab in a bath rising at rate r: core lag r L²/a (1/2 + 1/Bi).
        let start = Temperature::from_celsius(20.0);
        let end = Temperature::from_celsius(80.0);
        let mut layers = solid(Shape::Slab, 50.0).start(start).unwrap();
        let time = Time::from_hours(10.0);
        layers.advance((start, end), time);
        let lag = 60.0 / time.seconds() * 4e-4 / 1.4e-7 * (0.5 + 1.0 / 2.0);
        assert!(((end - layers.core()).kelvin() - lag).abs() < 0.01 * lag);
    }

    #[test]
    fn time_that_does_not_pass_changes_nothing_and_bad_sizes_are_refused() {
        let start = Temperature::from_celsius(20.0);
        let mut layers = solid(Shape::Slab, 50.0).start(start).unwrap();
        layers.advance((start, Temperature::from_celsius(90.0)), Time::ZERO);
        assert!((layers.core() - start).kelvin().abs() < 1e-12);
        assert!(solid(Shape::Slab, 0.0).start(start).is_err());
        assert!(
            SteppedSolid { length: Length::ZERO, ..solid(Shape::Slab, 1.0) }.start(start).is_err()
        );
        assert!(solid(Shape::Slab, 1e-7).start(start).is_err());
    }
}
