//! What trials change: measured over predicted, learned by route and quantity.
//!
//! A route that has been tried gets a factor: the median of what the next trial is expected to
//! measure, over what is predicted, with its own range. With few trials the factor stays near one
//! and the range near the route's own; see [`super::conjugate`] for the equations.

use std::collections::BTreeMap;

use super::conjugate::NormalInverseGamma;
use crate::estimate::Estimate;
use crate::physics::PhysicsError;

/// The quantity that is a time from start to end \[s\]; every other one is the id of an attribute.
pub const TIME: &str = "time";
/// The attribute that is the mass that comes out over the mass that goes in.
pub const YIELD: &str = "product-yield";
/// A measurement that the prior expects less than once in a thousand on its side is asked about.
const OUTLIER: f64 = 0.999;

/// One measurement beside its prediction.
#[derive(Debug, Clone, PartialEq)]
pub struct Observation {
    /// The trial.
    pub trial: String,
    /// Code of the tester.
    pub tester: String,
    /// The kitchen.
    pub kitchen: String,
    /// The route.
    pub route: String,
    /// [`TIME`] or the id of an attribute.
    pub quantity: String,
    /// What was predicted for the amounts and the kitchen of the trial, in SI.
    pub predicted: Estimate,
    /// What was measured, in SI.
    pub measured: f64,
}

impl Observation {
    /// Returns measured over predicted; `None` unless both are above zero.
    pub fn ratio(&self) -> Option<f64> {
        let predicted = self.predicted.typical();
        (predicted > 0.0 && self.measured > 0.0).then(|| self.measured / predicted)
    }

    /// Returns whether the predicted range held the measurement.
    pub fn held(&self) -> bool {
        self.predicted.low() <= self.measured && self.measured <= self.predicted.high()
    }

    /// Half the predicted range on the logarithmic scale; zero when it reaches zero.
    fn half_width(&self) -> f64 {
        let (low, high) = (self.predicted.low(), self.predicted.high());
        if low > 0.0 { 0.5 * (high / low).ln() } else { 0.0 }
    }
}

/// Ratios of one tester or one kitchen.
#[derive(Debug, Clone, PartialEq)]
pub struct Group {
    /// Who or where.
    pub name: String,
    /// How many measurements.
    pub count: usize,
    /// The least, the geometric mean and the greatest ratio.
    pub ratio: Estimate,
}

/// What was learned about one quantity of one route.
#[derive(Debug, Clone, PartialEq)]
pub struct Calibration {
    /// The route.
    pub route: String,
    /// [`TIME`] or the id of an attribute.
    pub quantity: String,
    /// Every measurement.
    pub observations: Vec<Observation>,
    /// How many lay within the predicted range.
    pub held: usize,
    /// Trials whose measurement is hard to believe; they count all the same.
    pub outliers: Vec<String>,
    /// The factor of the next trial.
    pub factor: Estimate,
    /// By tester.
    pub testers: Vec<Group>,
    /// By kitchen.
    pub kitchens: Vec<Group>,
}

impl Calibration {
    /// Returns how many measurements the factor rests on; one of zero has no ratio.
    pub fn counted(&self) -> usize {
        self.observations.iter().filter(|one| one.ratio().is_some()).count()
    }
}

/// Learns a factor for each route and quantity, in alphabetical order.
///
/// # Errors
/// [`PhysicsError`] when a distribution cannot be evaluated.
pub fn calibrate(observations: &[Observation]) -> Result<Vec<Calibration>, PhysicsError> {
    let mut groups: BTreeMap<(&str, &str), Vec<&Observation>> = BTreeMap::new();
    for one in observations {
        groups.entry((&one.route, &one.quantity)).or_default().push(one);
    }
    groups.into_values().map(|group| learn(&group)).collect()
}

fn learn(group: &[&Observation]) -> Result<Calibration, PhysicsError> {
    let half_widths: Vec<f64> = group.iter().map(|one| one.half_width()).collect();
    let mean_half_width = half_widths.iter().sum::<f64>() / half_widths.len().max(1) as f64;
    let prior = NormalInverseGamma::from_half_width(mean_half_width)?;
    let logs: Vec<f64> = group.iter().filter_map(|one| one.ratio()).map(f64::ln).collect();
    let (low, high) = {
        let expected = prior.predictive();
        (expected.quantile(1.0 - OUTLIER)?, expected.quantile(OUTLIER)?)
    };
    let strange =
        |one: &&&Observation| one.ratio().is_none_or(|ratio| !(low..=high).contains(&ratio.ln()));
    Ok(Calibration {
        route: group[0].route.clone(),
        quantity: group[0].quantity.clone(),
        observations: group.iter().map(|one| (*one).clone()).collect(),
        held: group.iter().filter(|one| one.held()).count(),
        outliers: group.iter().filter(strange).map(|one| one.trial.clone()).collect(),
        factor: prior.update(&logs).factor()?,
        testers: spread(group, |one| &one.tester),
        kitchens: spread(group, |one| &one.kitchen),
    })
}

/// Ratios by who measured or where, in alphabetical order.
fn spread(group: &[&Observation], name: fn(&Observation) -> &String) -> Vec<Group> {
    let mut by_name: BTreeMap<&str, Vec<f64>> = BTreeMap::new();
    for one in group {
        if let Some(ratio) = one.ratio() {
            by_name.entry(name(one)).or_default().push(ratio);
        }
    }
    let groups = by_name.into_iter().filter_map(|(name, ratios)| {
        let logs: f64 = ratios.iter().map(|ratio| ratio.ln()).sum();
        let low = ratios.iter().copied().fold(f64::INFINITY, f64::min);
        let high = ratios.iter().copied().fold(0.0, f64::max);
        // Rounding may carry the mean of equal ratios past them.
        let mean = (logs / ratios.len() as f64).exp().clamp(low, high);
        let ratio = Estimate::new(low, mean, high).ok()?;
        Some(Group { name: name.to_owned(), count: ratios.len(), ratio })
    });
    groups.collect()
}

/// A factor and what it rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Correction {
    /// How many measurements.
    pub trials: usize,
    /// The factor of the next trial.
    pub factor: Estimate,
}

impl Correction {
    /// Returns a prediction corrected: its median times the factor's range; a share stays below one.
    ///
    /// The range is the factor's, which holds what is left of the route's own.
    pub fn correct(&self, predicted: &Estimate, quantity: &str) -> Estimate {
        let most = if quantity == YIELD { 1.0 } else { f64::INFINITY };
        let corrected = self.factor.map(|factor| (factor * predicted.typical()).min(most));
        corrected.unwrap_or(*predicted)
    }
}

/// Factors by route and quantity.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Corrections {
    known: BTreeMap<(String, String), Correction>,
}

impl Corrections {
    /// Collects the factors of what was learned.
    pub fn of(calibrations: &[Calibration]) -> Self {
        let known = calibrations.iter().filter(|one| one.counted() > 0).map(|one| {
            let correction = Correction { trials: one.counted(), factor: one.factor };
            ((one.route.clone(), one.quantity.clone()), correction)
        });
        Self { known: known.collect() }
    }

    /// Returns the factor of a quantity of a route, if it has been tried.
    pub fn find(&self, route: &str, quantity: &str) -> Option<&Correction> {
        self.known.get(&(route.to_owned(), quantity.to_owned()))
    }

    /// Returns whether nothing has been tried.
    pub fn is_empty(&self) -> bool {
        self.known.is_empty()
    }
}
