//! What to buy: which purchases open most recipes, and which set does so within a budget.
//!
//! Every recipe is run twice at typical values, in the kitchen as it is and in one that owns all
//! that is on offer. From the second come the verdicts of the routes that are closed in the first. A
//! step takes the best route that is open with what was bought. What a purchase does to routes that
//! are open already, and what a better first step does to a later one, is left out of the choice.

mod choose;
mod things;

use std::collections::BTreeSet;

pub use choose::{Choice, Cost, Dish, NOT_SOLD, Way, alone, choose};
pub use things::{MOST_THINGS, Things};

use super::check::Outlook;
use super::{Missing, Verdict, fit};
use crate::kitchen::{Kitchen, Owned};
use crate::knowledge::{Found, Kind, Knowledge, ValueMap};

/// The value under which the knowledge base states a price.
const PRICE: &str = "price";
/// Prices are added up in hundredths.
const HUNDREDTHS: f64 = 100.0;

/// A thing on offer.
#[derive(Debug, Clone, PartialEq)]
pub struct Thing {
    /// Id of the appliance or the supply.
    pub id: String,
    /// Its name.
    pub name: String,
    /// Appliance or supply.
    pub kind: Kind,
    /// What it usually costs, when the knowledge base states it.
    pub price: Option<f64>,
    /// How many roles it fills.
    roles: usize,
}

/// What the buyer is after.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wanted {
    /// As many recipes as possible that can be made at all.
    Recipes,
    /// Verdicts as good as possible, each step from one verdict to the next counting alike.
    Quality,
}

/// What limits the purchases.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Budget {
    /// So many things.
    Pieces(u32),
    /// So much money, in the money of the price list.
    Money(f64),
}

/// What a kitchen lacks and could buy.
#[derive(Debug, Clone, PartialEq)]
pub struct Shop {
    /// The things, the cheapest and plainest first.
    pub things: Vec<Thing>,
    /// Things that would be too many to choose from.
    pub left_out: usize,
}

impl Shop {
    /// Collects what the routes to some techniques need beyond a kitchen's own gear.
    pub fn of(kitchen: &Kitchen, techniques: &BTreeSet<&str>, knowledge: &Knowledge) -> Self {
        let routes = techniques.iter().flat_map(|technique| knowledge.routes_for(technique));
        let mut things: Vec<Thing> = Vec::new();
        for missing in routes.flat_map(|route| fit(route, None, kitchen, knowledge).missing) {
            things.extend(serving(&missing, knowledge));
        }
        things.sort_by(|a, b| {
            let price = |thing: &Thing| thing.price.unwrap_or(f64::INFINITY);
            let plain = a.roles.cmp(&b.roles).then_with(|| a.id.cmp(&b.id));
            price(a).total_cmp(&price(b)).then(plain).then(a.kind.cmp(&b.kind))
        });
        things.dedup_by(|a, b| a.id == b.id && a.kind == b.kind);
        let left_out = things.len().saturating_sub(MOST_THINGS);
        things.truncate(MOST_THINGS);
        Self { things, left_out }
    }

    /// Returns the kitchen with some of the things bought.
    pub fn bought(&self, kitchen: &Kitchen, things: &[usize], knowledge: &Knowledge) -> Kitchen {
        let mut kitchen = kitchen.clone();
        for thing in things.iter().filter_map(|thing| self.things.get(*thing)) {
            match knowledge.appliances.get(&thing.id).filter(|_| thing.kind == Kind::Appliance) {
                Some(appliance) => kitchen.appliances.push(Owned::of(appliance)),
                None => kitchen.supplies.push(thing.id.clone()),
            }
        }
        kitchen.supplies.sort();
        kitchen
    }

    /// Returns the kitchen with all of the things bought.
    pub fn all_bought(&self, kitchen: &Kitchen, knowledge: &Knowledge) -> Kitchen {
        let all: Vec<usize> = (0..self.things.len()).collect();
        self.bought(kitchen, &all, knowledge)
    }

    /// Returns what each thing costs under a budget, and the budget itself.
    pub fn costs(&self, budget: Budget) -> (Vec<Cost>, Cost) {
        match budget {
            Budget::Pieces(count) => (vec![1; self.things.len()], Cost::from(count)),
            Budget::Money(money) => {
                let price = |thing: &Thing| thing.price.map_or(NOT_SOLD, hundredths);
                (self.things.iter().map(price).collect(), hundredths(money))
            }
        }
    }

    /// Puts a recipe as a buyer sees it, from its outlook as the kitchen is and with all bought.
    pub fn dish(&self, now: &Outlook, equipped: &Outlook, wanted: Wanted, of: &Knowledge) -> Dish {
        let steps = now.steps.iter().zip(&equipped.steps).map(|(now, equipped)| {
            if !now.is_needed {
                return vec![Way { needs: Vec::new(), level: wanted.level(Verdict::AsWritten) }];
            }
            let open = now
                .routes
                .iter()
                .map(|route| Way { needs: Vec::new(), level: wanted.level(route.verdict) });
            let closed = now.closed.iter().filter_map(|closed| {
                let route = equipped.routes.iter().find(|route| route.route == closed.id)?;
                let needs = closed.missing.iter().map(|missing| self.needed(missing, of)).collect();
                Some(Way { needs, level: wanted.level(route.verdict) })
            });
            let closed = closed.filter(|way| !way.needs.is_empty());
            open.chain(closed).collect::<Vec<Way>>()
        });
        Dish { steps: steps.collect() }
    }

    /// The things that would do for a need.
    fn needed(&self, missing: &Missing, knowledge: &Knowledge) -> Things {
        let ids: Vec<Thing> = serving(missing, knowledge);
        let would_do = |thing: &Thing| ids.iter().any(|x| x.id == thing.id && x.kind == thing.kind);
        let each = self.things.iter().enumerate().filter(|(_, thing)| would_do(thing));
        each.map(|(number, _)| number).collect()
    }
}

impl Wanted {
    /// Returns what a verdict is worth.
    pub const fn level(self, verdict: Verdict) -> u32 {
        match (self, verdict) {
            (_, Verdict::No) => 0,
            (Self::Recipes, _) | (Self::Quality, Verdict::RealLoss) => 1,
            (Self::Quality, Verdict::SmallLoss) => 2,
            (Self::Quality, Verdict::AsWritten) => 3,
        }
    }
}

/// The things for a home that serve what is missing.
fn serving(missing: &Missing, knowledge: &Knowledge) -> Vec<Thing> {
    match missing {
        Missing::Appliance(need) => {
            let serving = need.any_of.iter().flat_map(|role| knowledge.appliances_serving(role));
            serving
                .filter(|appliance| appliance.found != Found::Laboratory)
                .map(|one| thing(&one.id, &one.name, Kind::Appliance, (&one.values, &one.fills)))
                .collect()
        }
        Missing::Supply(need) => {
            let serving = need.any_of.iter().flat_map(|role| knowledge.supplies_serving(role));
            serving
                .map(|one| thing(&one.id, &one.name, Kind::Supply, (&one.values, &one.fills)))
                .collect()
        }
        Missing::Food(_) => Vec::new(),
    }
}

fn thing(id: &str, name: &str, kind: Kind, (values, fills): (&ValueMap, &[String])) -> Thing {
    let price = values.get(PRICE).map(crate::knowledge::Value::typical);
    Thing { id: id.to_owned(), name: name.to_owned(), kind, price, roles: fills.len() }
}

/// Money in hundredths, rounded.
fn hundredths(money: f64) -> Cost {
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "rounded, not negative, and a cast of floats keeps within the range"
    )]
    let rounded = (money * HUNDREDTHS).round().max(1.0) as Cost;
    rounded
}
