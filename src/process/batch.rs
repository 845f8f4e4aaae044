//! The food in hand: mass, composition, particles, aroma and what heat has done to it.

use std::cmp::Ordering;

use super::{Carrier, Contents, Kills};
use crate::knowledge::NoteClass;
use crate::physics::settling::SizeDistribution;
use crate::quantity::{Length, Mass, Temperature, Time};

/// The most aroma markers that a batch carries.
pub const MAX_MARKERS: usize = 8;

/// An aroma compound in the food, and how much of it is left.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Marker {
    /// How quickly it leaves.
    pub class: NoteClass,
    /// Concentration in air over concentration in water at 25 °C.
    pub partition: f64,
    /// d ln Hs / d(1/T) of its solubility \[K\].
    pub slope_kelvin: f64,
    /// Decadic logarithm of its partition between octanol and water.
    pub log_p: f64,
    /// Amount left per dissolved matter, over the same in the raw food.
    ///
    /// What goes with the dissolved matter into another stream counts as yield, not as lost aroma.
    pub left: f64,
}

/// The aroma markers of a batch; none when the food's smell is not known.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Markers {
    list: [Option<Marker>; MAX_MARKERS],
}

impl Markers {
    /// Adds a marker; one beyond [`MAX_MARKERS`] is left out.
    pub fn push(&mut self, marker: Marker) {
        if let Some(place) = self.list.iter_mut().find(|place| place.is_none()) {
            *place = Some(marker);
        }
    }

    /// Returns the markers.
    pub fn iter(&self) -> impl Iterator<Item = &Marker> {
        self.list.iter().flatten()
    }

    /// Returns the markers to change them.
    pub fn iter_mut(&mut self) -> impl Iterator<Item = &mut Marker> {
        self.list.iter_mut().flatten()
    }

    /// Returns the mean share left of one class, or `None` when the food has no marker of it.
    pub fn left(&self, class: NoteClass) -> Option<f64> {
        let (sum, count) = self
            .iter()
            .filter(|marker| marker.class == class)
            .fold((0.0, 0.0), |(sum, count), marker| (sum + marker.left, count + 1.0));
        (count > 0.0).then(|| sum / count)
    }

    /// Multiplies what is left of every marker by a share.
    pub fn scale(&mut self, share: f64) {
        self.iter_mut().for_each(|marker| marker.left *= share);
    }
}

/// What does not dissolve and is not fat: cell walls, starch granules, curd.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pulp {
    /// Its dry mass, part of starch, fibre and protein in the contents.
    pub dry: Mass,
    /// Sizes of the swollen particles, by mass.
    pub sizes: SizeDistribution,
    /// Density of the swollen particles less that of the liquid [kg/m³].
    pub density_difference: f64,
    /// Liquid held per dry matter in a sediment packed at 1,000 g [kg/kg].
    pub water_holding: f64,
}

/// What heat has done to the batch so far.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeatHistory {
    /// Cooked flavour: equivalent time at 100 °C with z = 33 K.
    pub cooked: Time,
    /// Pasteurisation: equivalent time at 70 °C with z = 7.5 K.
    pub pasteurised: Time,
    /// Sterilisation: equivalent time at 121.1 °C with z = 10 K.
    pub sterilised: Time,
    /// What carries the germs.
    pub carrier: Carrier,
    /// Decimal reductions of named germs at the coldest point.
    pub kills: Kills,
    /// Vitamin C left, as a share.
    pub vitamin_c: f64,
    /// Pigment and fresh colour left, as a share.
    pub colour: f64,
    /// Browning: equivalent time at 100 °C of the raw juice, weighted by strength.
    pub browning: Time,
    /// Firmness left, as a share.
    pub firmness: f64,
    /// Highest temperature reached.
    pub hottest: Temperature,
    /// Time between 5 °C and 54.4 °C.
    pub warm: Time,
}

impl HeatHistory {
    /// The history of raw food at a temperature.
    pub fn raw(temperature: Temperature) -> Self {
        Self {
            cooked: Time::ZERO,
            pasteurised: Time::ZERO,
            sterilised: Time::ZERO,
            carrier: Carrier::default(),
            kills: Kills::default(),
            vitamin_c: 1.0,
            colour: 1.0,
            browning: Time::ZERO,
            firmness: 1.0,
            hottest: temperature,
            warm: Time::ZERO,
        }
    }
}

impl HeatHistory {
    /// Returns the history of two batches in one pot: that of the larger, but for the germs.
    ///
    /// Germs count by the part that protects them more, such as egg in milk; where both are such a
    /// carrier, by the one less heated.
    #[must_use]
    pub fn together(major: &Self, minor: &Self) -> Self {
        let (carrier, kills) = match major.carrier.cmp(&minor.carrier) {
            Ordering::Less => (minor.carrier, minor.kills),
            Ordering::Equal if major.carrier >= Carrier::Egg => {
                (major.carrier, major.kills.least(minor.kills))
            }
            _ => (major.carrier, major.kills),
        };
        Self { carrier, kills, ..*major }
    }
}

/// Ice in the batch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ice {
    /// Share of the water that is frozen.
    pub frozen: f64,
    /// Mean crystal size.
    pub crystal: Length,
}

/// The food in hand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Batch {
    /// Masses by component.
    pub contents: Contents,
    /// Share of the sugars that is glucose and fructose.
    pub monosaccharides: f64,
    /// Temperature.
    pub temperature: Temperature,
    /// Suspended particles.
    pub pulp: Option<Pulp>,
    /// Sizes of the fat droplets, by volume.
    pub droplets: Option<SizeDistribution>,
    /// Sizes of the particles of a paste or powder, by mass.
    pub grain: Option<SizeDistribution>,
    /// Ice.
    pub ice: Option<Ice>,
    /// Volume of air or gas bubbles over volume of food.
    pub air: f64,
    /// Volume share of pores in the tissue.
    pub pores: f64,
    /// Volume over the volume as raw, for pieces that keep their shape.
    pub volume_left: f64,
    /// Dissolved carbon dioxide or nitrous oxide.
    pub gas: Mass,
    /// Pectin in the juice and the cell walls that no enzyme has split, as a share of the raw food's.
    pub pectin: f64,
    /// Flavour taken up from what it was infused with, as a share of equilibrium.
    pub infused: f64,
    /// pH.
    pub ph: f64,
    /// Aroma markers.
    pub aroma: Markers,
    /// What heat has done.
    pub heat: HeatHistory,
    /// Water and other matter added to it, for dilution.
    pub added: Mass,
    /// Time since the first move.
    pub elapsed: Time,
    /// Time in which somebody had to stand by.
    pub attended: Time,
}

/// The pH of a food that states none, near neutral. Estimate: fresh vegetables lie at 5-7.
const NEUTRAL_PH: f64 = 6.0;

impl Batch {
    /// Makes a raw batch of given contents, without particles, aroma or pores.
    pub fn raw(contents: Contents, temperature: Temperature) -> Self {
        Self {
            contents,
            monosaccharides: 0.0,
            temperature,
            pulp: None,
            droplets: None,
            grain: None,
            ice: None,
            air: 0.0,
            pores: 0.0,
            volume_left: 1.0,
            gas: Mass::ZERO,
            pectin: 1.0,
            infused: 0.0,
            ph: NEUTRAL_PH,
            aroma: Markers::default(),
            heat: HeatHistory::raw(temperature),
            added: Mass::ZERO,
            elapsed: Time::ZERO,
            attended: Time::ZERO,
        }
    }

    /// Returns the mass.
    pub fn mass(&self) -> Mass {
        self.contents.total()
    }

    /// Returns a part of the batch: the same food, less of it.
    #[must_use]
    pub fn part(&self, share: f64) -> Self {
        let pulp = self.pulp.map(|pulp| Pulp { dry: pulp.dry * share, ..pulp });
        Self {
            contents: self.contents * share,
            pulp,
            gas: self.gas * share,
            added: self.added * share,
            ..*self
        }
    }

    /// Counts time from here on as if what it was made of had taken none.
    pub fn restart_clock(&mut self, from: &Self) {
        self.elapsed -= from.elapsed;
        self.attended -= from.attended;
    }

    /// Adds time to the clock, some of it attended.
    pub fn wait(&mut self, time: Time, attended: Time) {
        self.elapsed += time;
        self.attended += attended;
    }
}
