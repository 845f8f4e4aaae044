//! What a route, or a dish, uses up in the money of the price list.

use super::cost::SupplyCost;
use crate::estimate::Estimate;
use crate::knowledge::Route;

/// Money for what is used up.
#[derive(Debug, Clone, PartialEq)]
pub struct Cost {
    /// The money.
    pub money: Estimate,
    /// Supplies whose price is not known.
    pub unpriced: Vec<String>,
}

impl Default for Cost {
    fn default() -> Self {
        Self { money: Estimate::exact(0.0), unpriced: Vec::new() }
    }
}

impl Cost {
    /// Adds what a route costs beside its supplies to what they cost.
    pub(super) fn of_route(route: &Route, supplies: SupplyCost) -> Self {
        let mut cost = Self { unpriced: supplies.unpriced, ..Self::default() };
        let beside = route.cost.as_ref().map(|value| value.estimate);
        supplies.known.iter().chain(&beside).for_each(|money| cost.add(money));
        cost
    }

    /// Adds the cost of another route.
    pub fn include(&mut self, other: &Self) {
        self.add(&other.money);
        let new = other.unpriced.iter().filter(|name| !self.unpriced.contains(name));
        let new: Vec<String> = new.cloned().collect();
        self.unpriced.extend(new);
    }

    /// Ends add to ends: prices go up and down together.
    fn add(&mut self, money: &Estimate) {
        let (own, more) = (self.money, money);
        let sum = Estimate::new(
            own.low() + more.low(),
            own.typical() + more.typical(),
            own.high() + more.high(),
        );
        self.money = sum.unwrap_or(own);
    }
}
