//! The best set of things to buy within a budget: an exact optimum.
//!
//! Every recipe asks for a route at each step, every route for one thing of each of its needs. A set
//! of purchases is worth what the recipes gain by it. The search goes through the sets in order and
//! leaves out those that cannot beat the best one found, so that its result is that of trying all.

use super::Things;

/// What a thing costs: pieces, or hundredths of the money of the price list; whole, so that sums are
/// exact.
pub type Cost = u64;

/// The cost of a thing that cannot be had.
pub const NOT_SOLD: Cost = Cost::MAX;

/// A route to take at a step: what is still to be bought for it, and how well it does.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Way {
    /// The needs, any one thing of each; empty when the route is open already.
    pub needs: Vec<Things>,
    /// What it is worth at this step.
    pub level: u32,
}

impl Way {
    fn is_open(&self, owned: Things) -> bool {
        self.needs.iter().all(|any_of| any_of.meets(owned))
    }

    /// Returns the least that can open it: the dearest of its needs at the lowest price.
    fn least_cost(&self, owned: Things, costs: &[Cost]) -> Cost {
        let unmet = self.needs.iter().filter(|any_of| !any_of.meets(owned));
        unmet.map(|any_of| cheapest(*any_of, costs)).max().unwrap_or(0)
    }
}

/// A recipe as the buyer sees it: the ways at each of its steps.
#[derive(Debug, Clone, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Dish {
    /// The ways at each step.
    pub steps: Vec<Vec<Way>>,
}

impl Dish {
    /// Returns what the recipe is worth: as much as its worst step by the best way open there.
    pub fn level(&self, owned: Things) -> u32 {
        self.least(|way| way.is_open(owned))
    }

    /// Returns what it can come to be worth with everything on offer and what is left to spend.
    fn level_within(&self, owned: Things, offered: Things, left: Cost, costs: &[Cost]) -> u32 {
        let can = |way: &Way| way.is_open(offered) && way.least_cost(owned, costs) <= left;
        self.least(can)
    }

    fn least(&self, open: impl Fn(&Way) -> bool) -> u32 {
        let best = |ways: &Vec<Way>| ways.iter().filter(|w| open(w)).map(|w| w.level).max();
        self.steps.iter().map(|ways| best(ways).unwrap_or(0)).min().unwrap_or(0)
    }
}

/// What is chosen.
#[derive(Debug, Clone, PartialEq)]
pub struct Choice {
    /// The things, by rising number.
    pub things: Vec<usize>,
    /// What all recipes together gain.
    pub gain: u32,
    /// What the things cost together.
    pub cost: Cost,
}

/// Chooses the set that gains most within a budget; of two alike, the cheaper; then the first in order.
///
/// `costs` has a positive cost for each thing; where the budget counts pieces, each costs 1.
pub fn choose(dishes: &[Dish], costs: &[Cost], budget: Cost) -> Choice {
    let kinds = kinds(dishes);
    let offered = useful(&kinds, costs);
    let order: Vec<usize> = (0..costs.len())
        .filter(|thing| offered.has(*thing) && costs[*thing] <= budget.min(NOT_SOLD - 1))
        .collect();
    let before = kinds.iter().map(|(dish, count)| dish.level(Things::NONE) * count).sum();
    let none = Choice { things: Vec::new(), gain: 0, cost: 0 };
    let mut search = Search { kinds, costs, budget, order, before, best: none };
    search.go(0, Things::NONE, 0);
    search.best
}

/// Returns what each thing alone gains.
pub fn alone(dishes: &[Dish], count: usize) -> Vec<u32> {
    let kinds = kinds(dishes);
    let worth = |owned| kinds.iter().map(|(dish, count)| dish.level(owned) * count).sum::<u32>();
    let before = worth(Things::NONE);
    (0..count).map(|thing| worth(Things::NONE.with(thing)) - before).collect()
}

/// Counts the recipes that ask for the same.
fn kinds(dishes: &[Dish]) -> Vec<(Dish, u32)> {
    let mut counted = std::collections::BTreeMap::<&Dish, u32>::new();
    for dish in dishes {
        *counted.entry(dish).or_default() += 1;
    }
    counted.into_iter().map(|(dish, count)| (dish.clone(), count)).collect()
}

/// Leaves out what another thing replaces: one that meets at least the same needs for no more money,
/// and comes first where both do.
fn useful(kinds: &[(Dish, u32)], costs: &[Cost]) -> Things {
    let ways = kinds.iter().flat_map(|(dish, _)| dish.steps.iter().flatten());
    let mut needs: Vec<Things> = ways.flat_map(|way| way.needs.iter().copied()).collect();
    needs.sort_unstable();
    needs.dedup();
    let meets =
        |one: usize, other: usize| needs.iter().all(|any_of| !any_of.has(one) || any_of.has(other));
    let replaced = |one: usize| {
        (0..costs.len()).any(|other| {
            let dearer = costs[other] > costs[one];
            let alike = meets(other, one) && costs[other] == costs[one];
            other != one && !dearer && meets(one, other) && (!alike || other < one)
        })
    };
    let wanted = |one: usize| needs.iter().any(|any_of| any_of.has(one));
    (0..costs.len()).filter(|one| wanted(*one) && !replaced(*one)).collect()
}

struct Search<'a> {
    kinds: Vec<(Dish, u32)>,
    costs: &'a [Cost],
    budget: Cost,
    order: Vec<usize>,
    before: u32,
    best: Choice,
}

impl Search<'_> {
    /// Tries all sets that hold `owned` and otherwise only things from `next` on.
    fn go(&mut self, next: usize, owned: Things, cost: Cost) {
        let gain = self.worth(|dish| dish.level(owned)) - self.before;
        if gain > self.best.gain || (gain == self.best.gain && cost < self.best.cost) {
            let things = self.order.iter().copied().filter(|i| owned.has(*i)).collect();
            self.best = Choice { things, gain, cost };
        }
        let left = self.budget - cost;
        let affordable = self.order[next..].iter().copied().filter(|i| self.costs[*i] <= left);
        let offered = affordable.fold(owned, Things::with);
        let can = self.worth(|dish| dish.level_within(owned, offered, left, self.costs));
        let most = can - self.before;
        if most < self.best.gain || (most == self.best.gain && cost >= self.best.cost) {
            return;
        }
        for (index, thing) in self.order.clone().into_iter().enumerate().skip(next) {
            if self.costs[thing] <= left {
                self.go(index + 1, owned.with(thing), cost + self.costs[thing]);
            }
        }
    }

    fn worth(&self, level: impl Fn(&Dish) -> u32) -> u32 {
        self.kinds.iter().map(|(dish, count)| level(dish) * count).sum()
    }
}

fn cheapest(things: Things, costs: &[Cost]) -> Cost {
    let each = costs.iter().enumerate().filter(|(thing, _)| things.has(*thing));
    each.map(|(_, cost)| *cost).min().unwrap_or(NOT_SOLD)
}
