//! Drying in air: what the air takes, what the heater gives, what diffusion brings.

use std::f64::consts::PI;

use super::{NAME, Pace};
use crate::physics::atmosphere::HumidAir;
use crate::physics::constants::GAS_CONSTANT;
use crate::physics::drying::{DryingSlab, volume_left};
use crate::physics::evaporation::{Surroundings, drying_surface};
use crate::physics::water::{latent_heat_vaporisation, saturation_pressure};
use crate::process::{Batch, ProcessError, Settings};
use crate::quantity::{Density, Diffusivity, Length, MassFlux, Temperature};

/// The forms of a piece.
const FORMS: &[&str] = &["slab", "cylinder", "sphere"];
const FACES: &[&str] = &["both", "one"];
/// Half thickness of a slab whose slowest decay is that of a cylinder or a sphere of radius 1: pi/2
/// over the first zero of J0, and over pi (Crank, The Mathematics of Diffusion, 1975).
const SLAB_OF_CYLINDER: f64 = std::f64::consts::FRAC_PI_2 / 2.404_825_557_7;
const SLAB_OF_SPHERE: f64 = 0.5;
/// Diffusivities are stated at this temperature \[K\].
const REFERENCE: f64 = 333.15;
/// Relative humidities for which a moisture in equilibrium is asked.
const HUMIDITIES: (f64, f64) = (0.02, 0.97);
/// Thin pieces lie on each other on a full tray, at most this many deep. Estimate: slices overlap and
/// strips heap up where a tray is filled to the eye.
const MOST_PILED: f64 = 3.0;
/// A piece ends this share of its span above equilibrium at least. Estimate: nobody waits longer.
const LEAST_RATIO: f64 = 1e-4;

/// Returns the pace of drying from one moisture on dry basis to another.
pub(super) fn pace(
    feed: &Batch,
    medium: &str,
    (before, after): (f64, f64),
    settings: &Settings<'_>,
) -> Result<Pace, ProcessError> {
    let air = surroundings(medium, settings)?;
    let dry = feed.contents.dry_matter().kilograms();
    let humidity = air.relative_humidity.clamp(HUMIDITIES.0, HUMIDITIES.1);
    let equilibrium = feed.water_at_activity(humidity, air.air)?.kilograms() / dry;
    let span = before - equilibrium;
    if after >= before {
        let still = (crate::quantity::Time::ZERO, feed.temperature);
        return Ok(Pace { wet: still, falling: still, critical: 1.0, equilibrium });
    }
    if after - equilibrium < LEAST_RATIO * span {
        let share = |x: f64| 100.0 * x / (1.0 + x);
        let because = format!(
            "air of {:.0} % humidity leaves {:.1} % of water in it, and {:.1} % are asked for",
            100.0 * humidity,
            share(equilibrium),
            share(after)
        );
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    let piece = Piece::read(feed, medium, settings)?;
    let activity = feed.water_activity(air.air)?.max(humidity);
    let (surface, flux) = drying_surface(piece.along, activity, &air)?;
    let by_air = flux.si() * settings.share("exposed_share")? * piece.surface / piece.piled;
    let limited = by_air.min(heater_flux(medium, surface, &piece, settings)?);
    let shrunk = mean_shrinkage(before, after)?;
    let slab = DryingSlab {
        half_thickness: Length::from_metres(piece.depth * shrunk),
        dry_density: Density::from_si(dry / (piece.volume * shrunk)),
        moisture: before,
        equilibrium,
        diffusivity: diffusivity(air.air, settings)?,
    };
    let drying = slab.dry_to(after, MassFlux::from_si(limited))?;
    let end = (after - equilibrium) / span;
    let critical = (drying.critical_moisture - equilibrium) / span;
    // The end is as warm as the share of the falling rate that is over.
    let over = if critical > end { 1.0 - end / critical } else { 0.0 };
    Ok(Pace {
        wet: (drying.constant_rate_time, surface),
        falling: (drying.time - drying.constant_rate_time, surface + (air.air - surface) * over),
        critical: critical.max(end),
        equilibrium,
    })
}

/// Thickness over the fresh thickness, on average while diffusion sets the pace.
///
/// The piece shrinks by the water that it loses; the geometric mean of its moisture at the start and
/// at the end stands for the way between.
fn mean_shrinkage(before: f64, after: f64) -> Result<f64, ProcessError> {
    Ok(volume_left(before, (before * after).sqrt(), 0.0)?)
}

/// A piece as the equal slab.
struct Piece {
    /// Half thickness of the slab that decays alike \[m\].
    depth: f64,
    /// Surface of the piece over that of the slab, per volume.
    surface: f64,
    /// Length along the air.
    along: Length,
    /// Volume of the feed \[m³\].
    volume: f64,
    /// Volume of the pieces per area that they cover \[m\].
    height: f64,
    /// How many pieces lie on each other.
    piled: f64,
}

impl Piece {
    fn read(feed: &Batch, medium: &str, settings: &Settings<'_>) -> Result<Self, ProcessError> {
        let thickness = settings.length("piece_thickness")?.metres();
        let form = settings.mode("form", FORMS)?;
        let is_open_below = settings.mode("faces", FACES)? == "both";
        let half = thickness / 2.0;
        let (depth, surface, filled) = match form {
            "cylinder" => (half * SLAB_OF_CYLINDER, 2.0 * SLAB_OF_CYLINDER, PI / 4.0),
            "sphere" => (half * SLAB_OF_SPHERE, 3.0 * SLAB_OF_SPHERE, 2.0 / 3.0),
            _ if is_open_below => (half, 1.0, 1.0),
            _ => (thickness, 1.0, 1.0),
        };
        let along = settings.length("piece_length")?.max(Length::from_metres(thickness));
        let volume = feed.volume()?.cubic_metres();
        let is_loose = is_open_below && matches!(medium, "air" | "oven");
        let piled = if is_loose { piled(thickness, settings)? } else { 1.0 };
        Ok(Self { depth, surface, along, volume, height: thickness * filled * piled, piled })
    }
}

/// How many pieces of a thickness lie on each other on a full tray.
fn piled(thickness: f64, settings: &Settings<'_>) -> Result<f64, ProcessError> {
    let layer = settings.length("tray_layer")?.metres();
    Ok((layer / thickness.max(f64::MIN_POSITIVE)).clamp(1.0, MOST_PILED))
}

/// The air around the pieces: drawn from the room and warmed, or as stated.
fn surroundings(medium: &str, settings: &Settings<'_>) -> Result<Surroundings, ProcessError> {
    let place = settings.place;
    let air = match medium {
        "sun" => match settings.optional("air_temperature") {
            Some(stated) => Temperature::from_si(stated),
            None => place.room_temperature + settings.difference("sun_gain")?,
        },
        "desiccant" => settings
            .optional("air_temperature")
            .map_or(place.room_temperature, Temperature::from_si),
        _ => settings.temperature("air_temperature")?,
    };
    let humidity = match (settings.optional("air_humidity"), medium) {
        (Some(stated), _) => stated.clamp(0.0, 1.0),
        (None, "desiccant") => settings.share("desiccant_humidity")?,
        (None, _) => {
            let room = HumidAir::from_relative_humidity(
                place.room_temperature,
                place.room_humidity,
                place.pressure,
            )?;
            (room.vapour_pressure() / saturation_pressure(air)?).min(1.0)
        }
    };
    Ok(Surroundings {
        air,
        relative_humidity: humidity,
        pressure: place.pressure,
        speed: settings.speed("air_speed")?,
    })
}

/// The most that a heater over full trays can evaporate, per face of the equal slab [kg/(m² s)].
fn heater_flux(
    medium: &str,
    surface: Temperature,
    piece: &Piece,
    settings: &Settings<'_>,
) -> Result<f64, ProcessError> {
    if matches!(medium, "sun" | "desiccant") {
        return Ok(f64::INFINITY);
    }
    let per_tray = match (settings.optional("power"), settings.optional("tray_area")) {
        (Some(power), Some(area)) if area > 0.0 => {
            let latent = latent_heat_vaporisation(surface)?.si();
            power / area * settings.share("transfer_efficiency")? / latent
        }
        _ => settings.number("tray_drying_rate")?,
    };
    let covered = settings.share("tray_covered")?.max(f64::MIN_POSITIVE);
    Ok(per_tray / (covered * piece.height) * piece.depth)
}

/// Diffusivity of water in the food at the temperature of the air, by Arrhenius from 60 °C.
fn diffusivity(air: Temperature, settings: &Settings<'_>) -> Result<Diffusivity, ProcessError> {
    let energy = settings.number("diffusion_activation")?;
    let exponent = -energy / GAS_CONSTANT * (1.0 / air.kelvin() - 1.0 / REFERENCE);
    Ok(settings.diffusivity("moisture_diffusivity")? * exponent.exp())
}
