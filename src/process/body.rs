//! A body of food that warms or cools: a piece, or a liquid in a vessel.
//!
//! Answers how fast its core and its average follow the surroundings. Conduction counts with the
//! first term of its series in every direction, which holds from 70 % of the change onwards to 1 %;
//! before that the core keeps its temperature. A stirred liquid follows as one lump.
//! Symbols: L half thickness or radius, r decay per time, C coefficient at the core, B of the mean.

use std::f64::consts::PI;

use super::course::Course;
use super::{Batch, ProcessError, Settings};
use crate::physics::conduction::{LeadingTerm, Shape};
use crate::physics::food_thermal::{ConductivityModel, conductivity};
use crate::physics::freezing::heat_flow_dimensions;
use crate::quantity::{Conductivity, Density, HeatTransfer, Length, SpecificHeat, Temperature};

/// The forms that a body can have.
const FORMS: &[&str] = &["slab", "cylinder", "sphere", "vessel", "stirred-vessel"];
/// Conductivity is asked within these temperatures [°C]; between them it changes by a tenth.
const CONDUCTIVITY_RANGE: (f64, f64) = (1.0, 95.0);
/// A ratio of edges beyond which the long edge no longer counts.
const LONG: f64 = 1e4;

/// A direction in which heat enters.
type Direction = (Shape, f64);

/// A body of food.
#[derive(Debug, Clone, Copy)]
pub(super) struct Body {
    /// The directions of heat flow with their half thickness or radius \[m\]; none in a stirred liquid.
    directions: [Option<Direction>; 2],
    /// The shortest way from core to surface.
    pub half_thickness: Length,
    /// Surface over volume [1/m].
    pub surface_per_volume: f64,
    /// Density.
    pub density: Density,
    /// Heat capacity.
    pub heat_capacity: SpecificHeat,
    /// Conductivity, raised by the convection of an unstirred liquid.
    pub conductivity: Conductivity,
}

impl Body {
    /// Reads the form from the settings and the properties from the batch.
    pub fn read(batch: &Batch, settings: &Settings<'_>) -> Result<Self, ProcessError> {
        let form = settings.mode("form", FORMS)?;
        let is_vessel = form.ends_with("vessel");
        let (directions, half, surface) =
            if is_vessel { vessel(batch, settings)? } else { piece(form, settings)? };
        let celsius = batch.temperature.celsius().clamp(CONDUCTIVITY_RANGE.0, CONDUCTIVITY_RANGE.1);
        let at_rest = conductivity(
            batch.thermal_composition(),
            0.0,
            Temperature::from_celsius(celsius),
            ConductivityModel::Parallel,
        )?;
        let mixing = if is_vessel { settings.number("self_mixing")?.max(1.0) } else { 1.0 };
        let spread = settings.number("conductivity_spread")?.max(0.1);
        Ok(Self {
            directions: if form == "stirred-vessel" { [None; 2] } else { directions },
            half_thickness: Length::from_metres(half),
            surface_per_volume: surface,
            density: batch.density()?,
            heat_capacity: batch.heat_capacity()?,
            conductivity: at_rest * (mixing * spread),
        })
    }

    /// Returns whether it is a liquid that is stirred.
    pub fn is_stirred(&self) -> bool {
        self.directions[0].is_none()
    }

    /// Returns the course in surroundings of one temperature.
    pub fn course(
        &self,
        start: Temperature,
        surroundings: Temperature,
        heat_transfer: HeatTransfer,
    ) -> Result<Course, ProcessError> {
        let heat = self.density.si() * self.heat_capacity.si();
        let (h, k) = (heat_transfer.si(), self.conductivity.si());
        if self.is_stirred() {
            let rate = h * self.surface_per_volume / heat;
            return Ok(Course { start, surroundings, rate, core: 1.0, mean: 1.0 });
        }
        let (mut rate, mut core, mut mean) = (0.0, 1.0, 1.0);
        for (shape, length) in self.directions.iter().flatten() {
            let term = LeadingTerm::of(*shape, h * length / k)?;
            rate += term.decay * k / (heat * length * length);
            core *= term.core;
            mean *= term.mean;
        }
        Ok(Course { start, surroundings, rate, core, mean })
    }

    /// Returns the equivalent directions of heat flow while a front freezes inwards.
    pub fn front_dimensions(&self, heat_transfer: HeatTransfer) -> Result<f64, ProcessError> {
        let half = self.half_thickness.metres();
        Ok(match self.directions {
            [Some((shape, _)), None] => shape.dimensions(),
            [Some((shape, across)), Some((_, along))] => {
                let biot = heat_transfer.si() * half / self.conductivity.si();
                // A round vessel counts as a brick of the same three widths.
                let third = if shape == Shape::Cylinder { across } else { LONG * half };
                let mut edges = [across, along, third];
                edges.sort_by(f64::total_cmp);
                heat_flow_dimensions(biot, edges[1] / edges[0], edges[2] / edges[0])?
            }
            _ => self.surface_per_volume * half,
        })
    }
}

/// A piece of a stated thickness, and length if it is stated.
fn piece(
    form: &'static str,
    settings: &Settings<'_>,
) -> Result<([Option<Direction>; 2], f64, f64), ProcessError> {
    let half = settings.length("piece_thickness")?.metres() / 2.0;
    if half <= 0.0 {
        let because = format!("a piece of {:.1} mm has no size", 2e3 * half);
        return Err(ProcessError::CannotWork { process: settings.process, because });
    }
    let shape = match form {
        "cylinder" => Shape::Cylinder,
        "sphere" => Shape::Sphere,
        _ => Shape::Slab,
    };
    let ends = settings.optional("piece_length").filter(|_| shape != Shape::Sphere);
    let ends = ends.map(|length| (Shape::Slab, (length / 2.0).max(half)));
    let surface = shape.dimensions() / half + ends.map_or(0.0, |(_, length)| 1.0 / length);
    Ok(([Some((shape, half)), ends], half, surface))
}

/// A liquid that fills a round vessel to the depth that its volume gives.
fn vessel(
    batch: &Batch,
    settings: &Settings<'_>,
) -> Result<([Option<Direction>; 2], f64, f64), ProcessError> {
    let vessels = settings.optional("vessels").unwrap_or(1.0).max(1.0);
    let volume = batch.volume()?.cubic_metres() / vessels;
    let radius = settings.length("vessel_diameter")?.metres() / 2.0;
    let depth = volume / (PI * radius * radius);
    if !(radius > 0.0 && depth > 0.0) {
        let because = format!("a vessel of {:.1} cm holds nothing", 200.0 * radius);
        return Err(ProcessError::CannotWork { process: settings.process, because });
    }
    let directions = [Some((Shape::Cylinder, radius)), Some((Shape::Slab, depth / 2.0))];
    let surface = 2.0 / radius + 2.0 / depth;
    Ok((directions, radius.min(depth / 2.0), surface))
}
