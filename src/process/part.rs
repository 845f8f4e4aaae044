//! Parting suspended matter from a liquid, common to settling, spinning, filtering and gels.
//!
//! What a parting leaves is fixed by three numbers: how much of the suspended dry matter stays in the
//! clear stream, what sizes it has, and how much liquid the other stream holds per dry matter.

use super::{Batch, Component, Contents, ProcessError, Pulp, Settings, Stream};
use crate::physics::settling::SizeDistribution;
use crate::quantity::{Length, Mass, Pressure};

/// A cake squeezed by this pressure packs like a sediment at 1,000 g: 10 mm of particles 60 kg/m³
/// heavier than the liquid press with 60 · 9.8 · 1000 · 0.01 Pa = 6 kPa.
pub(super) const PACKING_PRESSURE: Pressure = Pressure::from_kilopascals(6.0);
/// Pieces of crushed fruit: median size and geometric standard deviation. Estimate: a crusher or a
/// coarse grater leaves pieces of 0.5-4 mm.
const CRUSHED: (Length, f64) = (Length::from_millimetres(1.5), 2.5);
/// Swollen cell walls over the juice around them [kg/m³]: dry walls of 1,500 kg/m³ swollen to
/// one twentieth; estimate.
const WALL_DENSITY_DIFFERENCE: f64 = 25.0;

/// How a parting divides a batch.
#[derive(Debug, Clone, Copy)]
pub(super) struct Parting {
    /// Share of the suspended dry matter that stays in the clear stream.
    pub left: f64,
    /// Sizes of what stays; `None` when nothing does.
    pub sizes: Option<SizeDistribution>,
    /// Liquid held per dry matter in the other stream [kg/kg].
    pub held: f64,
    /// Share of the fat that goes with the clear stream.
    pub fat_left: f64,
}

/// Divides a batch into its clear stream and the rest.
pub(super) fn part(
    feed: &Batch,
    parting: &Parting,
    names: (&'static str, &'static str),
) -> [Stream; 2] {
    let dry = feed.pulp.map_or(0.0, |pulp| pulp.dry.kilograms());
    let suspended = suspended_contents(feed, dry);
    let kept_back = suspended * (1.0 - parting.left);
    let fat_back = feed.contents[Component::Fat] * (1.0 - parting.fat_left);
    let mut liquid = feed.contents - suspended;
    liquid[Component::Fat] = 0.0;
    let liquid_mass = liquid.total().kilograms();
    let held = (parting.held * kept_back.total().kilograms()).min(liquid_mass);
    let share = if liquid_mass > 0.0 { held / liquid_mass } else { 0.0 };
    let mut rest = kept_back + liquid * share;
    rest[Component::Fat] = fat_back;
    let clear = feed.contents - rest;
    let mut clear_batch = Batch { contents: clamped(clear), ..*feed };
    clear_batch.pulp = feed.pulp.zip(parting.sizes).map(|(pulp, sizes)| Pulp {
        dry: pulp.dry * parting.left,
        sizes,
        ..pulp
    });
    let mut rest_batch = Batch { contents: feed.contents - clear_batch.contents, ..*feed };
    rest_batch.pulp = feed.pulp.map(|pulp| Pulp { dry: pulp.dry * (1.0 - parting.left), ..pulp });
    [Stream { name: names.0, batch: clear_batch }, Stream { name: names.1, batch: rest_batch }]
}

/// Returns the batch with its pulp; a food that states none has its cell walls and starch for pulp.
pub(super) fn pulp_or_tissue(feed: &Batch, settings: &Settings<'_>) -> Result<Batch, ProcessError> {
    if feed.pulp.is_some() {
        return Ok(*feed);
    }
    let insoluble = feed.contents[Component::Fibre] + feed.contents[Component::Starch];
    let (median, deviation) = CRUSHED;
    let pulp = Pulp {
        dry: Mass::from_kilograms(insoluble),
        sizes: SizeDistribution::new(median, deviation)?,
        density_difference: WALL_DENSITY_DIFFERENCE,
        water_holding: settings.number("tissue_water_holding")?,
    };
    Ok(Batch { pulp: Some(pulp), ..*feed })
}

/// Rounding may leave a component a hair below zero.
fn clamped(contents: Contents) -> Contents {
    let mut sound = contents;
    for component in Component::ALL {
        sound[component] = sound[component].max(0.0);
    }
    sound
}

/// The suspended dry matter by component: fibre first, then starch, then protein.
fn suspended_contents(feed: &Batch, dry: f64) -> Contents {
    let mut suspended = Contents::NONE;
    let mut rest = dry;
    for component in [Component::Fibre, Component::Starch, Component::Protein, Component::Other] {
        let take = rest.min(feed.contents[component]);
        suspended[component] = take;
        rest -= take;
    }
    suspended
}

/// Returns the volume share of the swollen particles, with the liquid that they hold at rest.
pub(super) fn crowding(feed: &Batch, held: f64) -> f64 {
    let dry = feed.pulp.map_or(0.0, |pulp| pulp.dry.kilograms());
    let mass = feed.mass().kilograms();
    if mass > 0.0 { (dry * (1.0 + held) / mass).min(1.0) } else { 0.0 }
}

/// Returns the mass of the suspended dry matter.
pub(super) fn dry(feed: &Batch) -> Mass {
    feed.pulp.map_or(Mass::ZERO, |pulp| pulp.dry)
}
