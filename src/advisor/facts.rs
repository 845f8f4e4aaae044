//! Facts about a method, on which the rules of hazards are computed.

use std::collections::BTreeMap;

use super::{Plan, Simulated};
use crate::estimate::Estimate;
use crate::kitchen::Place;
use crate::knowledge::Knowledge;
use crate::physics::constants::{ETHANOL_MOLAR_MASS, GAS_CONSTANT};
use crate::process::{Batch, Carrier, Component, Germ};
use crate::quantity::Temperature;

/// Facts about a method, at the careful end of their range, in SI by name.
pub type Facts = BTreeMap<String, f64>;

/// The facts on which rules can be computed; those that moves tell are the last.
pub const FACTS: [&str; 22] = [
    "alcohol_strength",
    "alcohol_vapour_in_room",
    "botulinum_reduction",
    "carbon_dioxide_in_room",
    "e_coli_reduction_in_juice",
    "e_coli_reduction_in_meat",
    "food_ph",
    "hottest_temperature",
    "listeria_reduction",
    "oxygen_left",
    "pasteurised_time",
    "perfringens_reduction",
    "salmonella_reduction",
    "salmonella_reduction_in_egg",
    "salmonella_reduction_in_meat",
    "salmonella_reduction_in_poultry",
    "sterilised_time",
    "stored_water_activity",
    "warm_hours",
    "steam_temperature",
    "time_21_to_5",
    "time_57_to_21",
];
/// Nine samples in ten lie on the safe side of a fact where more is worse.
const CAREFUL_HIGH: f64 = 0.9;
/// Nine samples in ten lie on the safe side of a fact where less is worse.
const CAREFUL_LOW: f64 = 0.1;
/// Oxygen in fresh air, as a volume share: US Standard Atmosphere 1976.
const FRESH_OXYGEN: f64 = 0.2095;
/// Water activity of what is stored is asked at the temperature of a room.
const STORAGE: Temperature = Temperature::from_celsius(20.0);
/// What a move tells of the gas that it gives off, as volume over the volume of the room.
const GAS_PER_ROOM: &str = "gas_per_room";
/// Words of modes by which a move gives off carbon dioxide.
const CARBON_DIOXIDE_WORDS: [&str; 2] = ["dry-ice", "carbon-dioxide"];

/// Decimal reductions by name, germ, and the carrier to which a limit is tied; `None` for any food.
const KILLS: [(&str, Germ, Option<Carrier>); 9] = [
    ("salmonella_reduction", Germ::Salmonella, None),
    ("salmonella_reduction_in_egg", Germ::Salmonella, Some(Carrier::Egg)),
    ("salmonella_reduction_in_meat", Germ::Salmonella, Some(Carrier::Meat)),
    ("salmonella_reduction_in_poultry", Germ::Salmonella, Some(Carrier::Poultry)),
    ("listeria_reduction", Germ::Listeria, None),
    ("e_coli_reduction_in_juice", Germ::EscherichiaColi, Some(Carrier::Sour)),
    ("e_coli_reduction_in_meat", Germ::EscherichiaColi, Some(Carrier::Meat)),
    ("perfringens_reduction", Germ::Perfringens, None),
    ("botulinum_reduction", Germ::Botulinum, None),
];

/// Returns the facts of a method in a room.
///
/// Numbers that a move tells are facts by their own name, where the knowledge base declares it.
pub fn facts(
    simulated: &Simulated,
    plans: &[Plan<'_>],
    place: &Place,
    knowledge: &Knowledge,
) -> Facts {
    let declared = |name: &str| FACTS.contains(&name) || knowledge.quantities.contains_key(name);
    some_facts(simulated, plans, place, &declared)
}

/// Returns the facts that are asked for.
pub(super) fn some_facts(
    simulated: &Simulated,
    plans: &[Plan<'_>],
    place: &Place,
    asked: &dyn Fn(&str) -> bool,
) -> Facts {
    let mut facts = of_food(simulated, asked);
    for record in &simulated.moves {
        for (name, values) in record.told.iter().filter(|(name, _)| asked(name)) {
            if let Some(range) = Estimate::of_results(values) {
                let worst = range.quantile(CAREFUL_HIGH);
                let fact = facts.entry((*name).to_owned()).or_insert(worst);
                *fact = fact.max(worst);
            }
        }
    }
    let gas = simulated.moves.iter().filter_map(|record| record.told.get(GAS_PER_ROOM));
    let gas: f64 = gas
        .filter_map(|values| Estimate::of_results(values))
        .map(|range| range.quantile(CAREFUL_HIGH))
        .sum();
    if gas > 0.0 {
        facts.insert("oxygen_left".to_owned(), FRESH_OXYGEN * (-gas).exp());
        let words = plans.iter().flat_map(|plan| plan.modes.values());
        if words.into_iter().any(|word| CARBON_DIOXIDE_WORDS.contains(&word.as_str())) {
            facts.insert("carbon_dioxide_in_room".to_owned(), 1.0 - (-gas).exp());
        }
    }
    if asked("alcohol_vapour_in_room")
        && let Some(share) = alcohol_vapour(simulated, place)
    {
        facts.insert("alcohol_vapour_in_room".to_owned(), share);
    }
    facts
}

/// Facts about the food itself.
fn of_food(simulated: &Simulated, asked: &dyn Fn(&str) -> bool) -> Facts {
    let mut facts = Facts::new();
    let mut worst = |name: &str, end: f64, of: &dyn Fn(&Batch, &Batch) -> Option<f64>| {
        if asked(name)
            && let Some(range) = simulated.range(of)
        {
            facts.insert(name.to_owned(), range.quantile(end));
        }
    };
    worst("warm_hours", CAREFUL_HIGH, &|feed, product| {
        Some((product.heat.warm - feed.heat.warm).si())
    });
    worst("hottest_temperature", CAREFUL_LOW, &|_, product| Some(product.heat.hottest.kelvin()));
    worst("food_ph", CAREFUL_HIGH, &|_, product| Some(product.ph));
    worst("alcohol_strength", CAREFUL_HIGH, &|_, product| Some(product.alcohol_by_volume()));
    worst("pasteurised_time", CAREFUL_LOW, &|_, product| Some(product.heat.pasteurised.si()));
    worst("sterilised_time", CAREFUL_LOW, &|_, product| Some(product.heat.sterilised.si()));
    worst("stored_water_activity", CAREFUL_HIGH, &|_, product| {
        product.water_activity_of_solution(STORAGE).ok()
    });
    for (name, germ, carrier) in KILLS {
        worst(name, CAREFUL_LOW, &|_, product| {
            let counts = carrier.is_none_or(|carrier| product.heat.carrier == carrier);
            counts.then(|| product.heat.kills[germ])
        });
    }
    facts
}

/// Ethanol in the air of the room as a volume share, once the vapour is spread evenly: at most all of it
/// at once, at least the balance of release and air changes.
fn alcohol_vapour(simulated: &Simulated, place: &Place) -> Option<f64> {
    let each = simulated.balance.iter().zip(simulated.feeds.iter().zip(&simulated.products));
    let shares: Vec<f64> = each
        .map(|(balance, (feed, product))| {
            let mass = balance.vapour[Component::Ethanol];
            let kelvin = place.room_temperature.kelvin();
            let molar_volume = GAS_CONSTANT * kelvin / place.pressure.pascals();
            let volume = mass / ETHANOL_MOLAR_MASS * molar_volume;
            let at_once = volume / place.room_volume.cubic_metres();
            let hours = (product.elapsed - feed.elapsed).hours().max(f64::MIN_POSITIVE);
            let changes = place.air_changes.per_hour() * hours;
            // A steady release into a ventilated room: (1 - exp(-n t)) / (n t) of it is still there.
            let still_there = if changes > 0.0 { -(-changes).exp_m1() / changes } else { 1.0 };
            at_once * still_there
        })
        .collect();
    let worst = Estimate::of_results(&shares)?.quantile(CAREFUL_HIGH);
    (worst > 0.0).then_some(worst)
}
