//! What a process gives: streams, what left, time, energy, and the course over time.

use super::{Batch, Contents, HeatHistory, Kills};
use crate::quantity::{Energy, Mass, Temperature, Time};

/// One stream of food that a process gives.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stream {
    /// Its name: clear, sediment, distillate.
    pub name: &'static str,
    /// The food in it.
    pub batch: Batch,
}

/// Where the energy went. Supplied heat is positive; heat taken out of the food counts negative.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct EnergyBalance {
    /// Taken from the burner, bath or motor, or given to the cold (negative).
    pub supplied: Energy,
    /// Warmed the food (sensible heat) or melted its ice.
    pub into_food: Energy,
    /// Left with the vapour.
    pub into_vapour: Energy,
    /// Lost to the room and the vessel.
    pub lost: Energy,
}

impl EnergyBalance {
    /// Returns the part of the supplied energy that the three uses do not explain.
    pub fn gap(&self) -> f64 {
        let used = self.into_food + self.into_vapour + self.lost;
        let scale = self.supplied.abs().max(used.abs()).joules();
        if scale > 0.0 { (self.supplied - used).joules() / scale } else { 0.0 }
    }
}

impl std::ops::Add for EnergyBalance {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self {
            supplied: self.supplied + other.supplied,
            into_food: self.into_food + other.into_food,
            into_vapour: self.into_vapour + other.into_vapour,
            lost: self.lost + other.lost,
        }
    }
}

impl std::ops::Mul<f64> for EnergyBalance {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self {
            supplied: self.supplied * factor,
            into_food: self.into_food * factor,
            into_vapour: self.into_vapour * factor,
            lost: self.lost * factor,
        }
    }
}

/// One point of the course over time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// Time since the start of the process.
    pub time: Time,
    /// Mass of the food.
    pub mass: Mass,
    /// Temperature of the food.
    pub temperature: Temperature,
    /// The quantity that the process is about, in SI: soluble solids, core, share left.
    pub measure: f64,
    /// Middle-class aroma left, as a share.
    pub aroma: f64,
}

/// What heat had done to the coldest place by a moment of the course.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CorePoint {
    /// Time since the start of the process.
    pub time: Time,
    /// Temperature of the core.
    pub temperature: Temperature,
    /// Equivalent time at 70 °C so far, that of earlier processes counted.
    pub pasteurised: Time,
    /// Equivalent time at 121.1 °C so far.
    pub sterilised: Time,
    /// Decimal reductions so far, by germ.
    pub kills: Kills,
}

impl CorePoint {
    /// Reads a point from the record of the coldest place.
    pub fn of(time: Time, temperature: Temperature, heat: &HeatHistory) -> Self {
        let HeatHistory { pasteurised, sterilised, kills, .. } = *heat;
        Self { time, temperature, pasteurised, sterilised, kills }
    }
}

/// The course of a process over time, for charts.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Trace {
    /// What `measure` is, in plain words with its unit.
    pub measure: &'static str,
    /// The points in the order of time.
    pub points: Vec<Point>,
    /// The coldest place, as the model put it on record; empty where it follows none.
    pub core: Vec<CorePoint>,
}

impl Trace {
    /// Makes a course of a process that follows no core.
    pub const fn of(measure: &'static str, points: Vec<Point>) -> Self {
        Self { measure, points, core: Vec::new() }
    }
}

/// What one run of a process gives.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// The streams, the main one first.
    pub streams: Vec<Stream>,
    /// What left as vapour.
    pub vapour: Contents,
    /// What stayed on pan, cloth or blade and is thrown away.
    pub left_behind: Contents,
    /// What was added: water, gel, salt.
    pub added: Contents,
    /// How long it took.
    pub time: Time,
    /// How long somebody had to stand by.
    pub attended: Time,
    /// Where the energy went.
    pub energy: EnergyBalance,
    /// Numbers worth telling the cook, by name, in SI: loads, boiling_point, cut_size.
    pub told: Vec<(&'static str, f64)>,
    /// The course over time, when it was asked for.
    pub trace: Option<Trace>,
}

impl Run {
    /// Makes a run with one stream in which nothing was lost or added yet.
    pub fn of(name: &'static str, batch: Batch) -> Self {
        Self {
            streams: vec![Stream { name, batch }],
            vapour: Contents::NONE,
            left_behind: Contents::NONE,
            added: Contents::NONE,
            time: Time::ZERO,
            attended: Time::ZERO,
            energy: EnergyBalance::default(),
            told: Vec::new(),
            trace: None,
        }
    }

    /// Returns a stream by name, or the main one.
    pub fn stream(&self, name: Option<&str>) -> Option<&Stream> {
        match name {
            None => self.streams.first(),
            Some(name) => self.streams.iter().find(|stream| stream.name == name),
        }
    }

    /// Returns everything that came out, whatever the way.
    pub fn all_out(&self) -> Contents {
        let streams: Contents = self.streams.iter().map(|stream| stream.batch.contents).sum();
        streams + self.vapour + self.left_behind
    }

    /// Returns a told number by name.
    pub fn told(&self, name: &str) -> Option<f64> {
        self.told.iter().find(|(known, _)| *known == name).map(|(_, value)| *value)
    }

    /// Puts the time on every stream's clock.
    #[must_use]
    pub fn clocked(mut self) -> Self {
        for stream in &mut self.streams {
            stream.batch.wait(self.time, self.attended);
        }
        self
    }
}
