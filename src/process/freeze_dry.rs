//! Freeze drying: in a chamber under vacuum, or slowly in a freezer.
//!
//! Answers how long sublimation takes, how warm the ice gets, and whether the food keeps its volume.
//!
//! In the chamber the heat of the shelf and the vapour through the dried layer meet at an ice front
//! ([`crate::physics::sublimation`]); the last bound water is a share of the whole time. When the
//! front is warmer than the collapse temperature the structure flows and shrinks. Mode `place`:
//! chamber, freezer. Mode `heat`: shelf (through the frozen rest), radiant (through the dried layer,
//! from both faces).
//!
//! Sources: as in [`crate::physics::sublimation`]; collapse: L. N. Bellows & C. J. King 1973; volume
//! kept: M. K. Krokida and others, J. Food Eng. 35:369, 1998, in the process entry.

use super::cold;
use super::dry::aroma;
use super::heat::expose;
use super::{
    Batch, Component, Contents, EnergyBalance, Ice, Point, ProcessError, Run, Settings, Trace,
};
use crate::knowledge::NoteClass;
use crate::physics::PhysicsError;
use crate::physics::evaporation::Surroundings;
use crate::physics::food_thermal::enthalpy_change;
use crate::physics::ice::latent_heat_sublimation;
use crate::physics::sublimation::{
    FreezeDrying, FreezerSlab, HeatPath, ICE_CONDUCTIVITY, SUCROSE_CAKE,
};
use crate::quantity::{Conductivity, Density, Energy, Length, Mass, Temperature, Time};

/// The name of the process.
pub const NAME: &str = "freeze-dry";
const PLACES: &[&str] = &["chamber", "freezer"];
const HEATS: &[&str] = &["shelf", "radiant"];
/// The coldest at which food freezes for drying [°C], the end of the laws of food properties.
const COLDEST: f64 = -40.0;
/// Points of the drawn course.
const POINTS: u32 = 16;

/// What drying in either place gives.
struct Dried {
    /// Time of sublimation.
    primary: Time,
    /// Time of the last bound water.
    secondary: Time,
    /// Warmest ice.
    front: Temperature,
    /// Temperature of the dry food at the end.
    end: Temperature,
}

/// Runs the model.
///
/// # Errors
/// [`ProcessError`] for a missing setting; [`ProcessError::CannotWork`] when the ice would melt, when
/// nothing sublimes, or for food with no water to remove.
pub fn run(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let dry = feed.contents.dry_matter().kilograms();
    let water = feed.contents[Component::Water];
    let share = settings.share("target_moisture")?.min(0.99);
    let left = dry * share / (1.0 - share);
    if !(dry > 0.0 && left < water) {
        let because =
            format!("it holds {:.1} % of water", 100.0 * feed.contents.share(Component::Water));
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    let freezing = cold::freezing_point(feed, settings)?;
    let is_freezer = settings.mode("place", PLACES)? == "freezer";
    let ice = Density::from_si((water - left) / feed.volume()?.cubic_metres());
    let dried = if is_freezer { in_freezer(ice, settings)? } else { in_chamber(ice, settings)? };
    let vapour = vapour(feed, left);
    let batch = product(feed, &vapour, left, &dried, settings)?;
    let frozen_before = feed.ice.is_some();
    let freezing_time =
        if frozen_before || is_freezer { Time::ZERO } else { settings.time("freezing_time")? };
    let mut run = Run::of("dried", batch);
    let loads = loads(feed, settings)?;
    run.time = (freezing_time + dried.primary + dried.secondary) * loads;
    run.attended = settings.time("handling_time")? * loads;
    run.energy = energy(feed, &vapour, &dried, freezing)?;
    run.vapour = vapour;
    run.told = vec![
        ("loads", loads),
        ("sublimation_time", dried.primary.seconds()),
        ("secondary_time", dried.secondary.seconds()),
        ("front_temperature", dried.front.kelvin()),
        ("volume_left", run.streams[0].batch.volume_left),
    ];
    run.trace = settings.trace.then(|| trace(feed, &run.streams[0].batch, &dried, freezing_time));
    Ok(run.clocked())
}

/// Sublimation in an evacuated chamber.
fn in_chamber(ice: Density, settings: &Settings<'_>) -> Result<Dried, ProcessError> {
    let thickness = settings.length("piece_thickness")?;
    let shelf = settings.temperature("shelf_temperature")?;
    let resistance = settings.number("layer_resistance")?;
    let mut cake = SUCROSE_CAKE;
    cake.at_surface_m_per_s *= resistance;
    cake.per_depth_per_s *= resistance;
    let (path, depth) = match settings.mode("heat", HEATS)? {
        "radiant" => {
            let layer = Conductivity::from_si(settings.number("dried_conductivity")?);
            (HeatPath::ThroughDried(layer), thickness / 2.0)
        }
        _ => (HeatPath::ThroughFrozen(ICE_CONDUCTIVITY), thickness),
    };
    let drying = FreezeDrying {
        shelf,
        chamber: settings.pressure("chamber_pressure")?,
        contact: settings.heat_transfer("contact_transfer")?,
        path,
        thickness: depth,
        ice,
        cake,
    };
    let slab = drying.dry().map_err(told)?;
    let share = settings.share("secondary_share")?.min(0.9);
    let secondary = slab.primary * (share / (1.0 - share));
    Ok(Dried { primary: slab.primary, secondary, front: slab.warmest_front, end: shelf })
}

/// Sublimation in the air of a freezer.
fn in_freezer(ice: Density, settings: &Settings<'_>) -> Result<Dried, ProcessError> {
    let thickness = settings.length("piece_thickness")?;
    let air = settings.temperature("freezer_temperature")?;
    let slab = FreezerSlab {
        depth: thickness / 2.0,
        length: settings.length("piece_length")?.max(thickness),
        ice,
        dried_layer: settings.diffusivity("vapour_diffusivity")?,
    };
    let surroundings = Surroundings {
        air,
        relative_humidity: settings.share("freezer_humidity")?,
        pressure: settings.place.pressure,
        speed: settings.speed("freezer_air_speed")?,
    };
    let primary = slab.time(&surroundings).map_err(told)?;
    Ok(Dried { primary, secondary: Time::ZERO, front: air, end: air })
}

/// What cannot be is an answer, with its number; the rest is an error of the law.
fn told(error: PhysicsError) -> ProcessError {
    match error {
        PhysicsError::Impossible { because, .. } => {
            ProcessError::CannotWork { process: NAME, because }
        }
        other => other.into(),
    }
}

fn vapour(feed: &Batch, left: f64) -> Contents {
    let water = feed.contents[Component::Water];
    let mut vapour = Contents::only(Component::Water, Mass::from_kilograms(water - left));
    vapour[Component::Ethanol] = feed.contents[Component::Ethanol] * (1.0 - left / water);
    vapour
}

fn product(
    feed: &Batch,
    vapour: &Contents,
    left: f64,
    dried: &Dried,
    settings: &Settings<'_>,
) -> Result<Batch, ProcessError> {
    let mut batch = *feed;
    batch.contents -= *vapour;
    batch.contents[Component::Water] = left;
    batch.ice = None::<Ice>;
    batch.temperature = dried.end;
    batch.volume_left = feed.volume_left * volume_kept(dried.front, settings)?;
    let dissolved = feed.contents.soluble_solids();
    expose(&mut batch.heat, dried.front, dried.primary, dissolved);
    let middle = dried.front + (dried.end - dried.front) * 0.5;
    expose(&mut batch.heat, middle, dried.secondary * 0.5, dissolved);
    expose(&mut batch.heat, dried.end, dried.secondary * 0.5, dissolved);
    let water = feed.contents[Component::Water];
    // Volatility over ice is not measured; that at the melting point stands for it.
    let at = dried.front.max(Temperature::from_celsius(0.0));
    aroma::leave(&mut batch, left / water, at, settings)?;
    Ok(batch)
}

/// Volume that the food keeps, less the warmer its ice is above the collapse temperature.
fn volume_kept(front: Temperature, settings: &Settings<'_>) -> Result<f64, ProcessError> {
    let kept = settings.share("volume_kept")?;
    let collapsed = settings.share("collapsed_volume")?.min(kept);
    let collapse = match settings.optional("glass_transition") {
        Some(glass) => Temperature::from_si(glass) + settings.difference("collapse_above_glass")?,
        None => settings.temperature("collapse_temperature")?,
    };
    let span = settings.difference("collapse_span")?.kelvin().max(f64::MIN_POSITIVE);
    let over = ((front - collapse).kelvin() / span).clamp(0.0, 1.0);
    Ok(kept + (collapsed - kept) * over)
}

fn loads(feed: &Batch, settings: &Settings<'_>) -> Result<f64, ProcessError> {
    let Some(area) = settings.optional("tray_area").filter(|area| *area > 0.0) else {
        return Ok(1.0);
    };
    let thickness: Length = settings.length("piece_thickness")?;
    let covered = settings.share("tray_covered")?.max(0.01);
    let needed = feed.volume()?.cubic_metres() / (thickness.metres() * covered);
    Ok((needed / area).ceil().max(1.0))
}

/// The heat of sublimation, less the heat of fusion that freezing gave, and the warming of the rest.
fn energy(
    feed: &Batch,
    vapour: &Contents,
    dried: &Dried,
    freezing: Temperature,
) -> Result<EnergyBalance, ProcessError> {
    let cold = dried.front.max(Temperature::from_celsius(COLDEST)).min(freezing);
    let food = feed.thermal_composition();
    let from = feed.temperature.max(Temperature::from_celsius(COLDEST));
    let frozen: Energy = match feed.ice {
        Some(_) => Energy::ZERO,
        None => feed.mass() * enthalpy_change(food, freezing, from, cold)?,
    };
    let rest = feed.mass() - vapour.total();
    let warmed = rest * (feed.heat_capacity()? * (dried.end - dried.front));
    let into_vapour = vapour.total() * latent_heat_sublimation(cold)?;
    let into_food = frozen + warmed;
    Ok(EnergyBalance {
        supplied: into_food + into_vapour,
        into_food,
        into_vapour,
        lost: Energy::ZERO,
    })
}

fn trace(feed: &Batch, dried: &Batch, times: &Dried, start: Time) -> Trace {
    let whole = times.primary + times.secondary;
    let point = |index: u32| {
        let share = f64::from(index) / f64::from(POINTS);
        let time = whole * share;
        let subliming = if times.primary > Time::ZERO { time / times.primary } else { 1.0 };
        let over = subliming.min(1.0);
        // The dried layer slows sublimation down: water goes with the root of time.
        let gone = over.sqrt();
        let mass = feed.mass() - (feed.mass() - dried.mass()) * gone;
        Point {
            time: start + time,
            mass,
            temperature: if subliming < 1.0 { times.front } else { times.end },
            measure: 1.0 - feed.contents.dry_matter() / mass,
            aroma: feed.aroma.left(NoteClass::Middle).unwrap_or(1.0),
        }
    };
    Trace::of("water (share)", (0..=POINTS).map(point).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::process::testing::{Bench, food};

    fn berry() -> Batch {
        food(&[(Component::Water, 905.0), (Component::Sugars, 60.0), (Component::Fibre, 20.0)])
    }

    fn chamber() -> Bench {
        let shelf = Temperature::from_celsius(20.0);
        Bench::of(NAME).mode("heat", "radiant").with("shelf_temperature", shelf.kelvin())
    }

    fn glass(celsius: f64) -> Bench {
        chamber().with("glass_transition", Temperature::from_celsius(celsius).kelvin())
    }

    #[test]
    fn a_thicker_piece_dries_longer_and_the_vapour_is_what_is_missing() {
        let thin = chamber().with("piece_thickness", 0.008).traced().run(&berry()).unwrap();
        let thick = chamber().with("piece_thickness", 0.016).run(&berry()).unwrap();
        assert!(thick.time > thin.time);
        let water = thin.streams[0].batch.contents.share(Component::Water);
        assert!((water - 0.025).abs() < 1e-6, "{water}");
    }

    #[test]
    fn starch_keeps_its_shape_where_fruit_sugar_flows() {
        // Glass transitions of potato and of apple: -12 and -42 °C (Levine & Slade 1991).
        let kept = |bench: Bench| bench.run(&berry()).unwrap().told("volume_left").unwrap();
        assert!((kept(glass(-12.0)) - 0.9).abs() < 1e-9);
        assert!(kept(glass(-42.0)) < 0.9);
        assert!(kept(glass(-42.0).with("collapse_span", 12.0)) < kept(glass(-42.0)));
    }

    #[test]
    fn dry_food_is_refused() {
        let dry = food(&[(Component::Water, 10.0), (Component::Starch, 990.0)]);
        assert!(matches!(chamber().run(&dry), Err(ProcessError::CannotWork { .. })));
    }
}
