//! Household measures beside a weight.
//!
//! A weight is what counts; cups, spoons and pieces stand beside it for those who shop and cook by
//! them. Of the measures that come within a tenth of the weight, the coarsest is printed (common
//! practice of the book trade).

use crate::knowledge::{Food, Provenance, Shares};
use crate::quantity::{Dimension, Mass, Measures, Volume, cook_volume, find_unit};
use crate::recipe::{is_poured, known_density};

/// A home measure may differ from the weight by this share.
const WITHIN: f64 = 0.1;
/// Foods that are more salt than this are weighed: a spoon of coarse crystals holds half as much as
/// one of fine ones (common practice).
const SALTY: f64 = 0.3;
/// More pieces than this nobody counts.
const MOST_PIECES: f64 = 30.0;
/// More cups than this nobody fills.
const MOST_CUPS: f64 = 8.0;
/// From so many cups on, half cups are fine enough.
const HALF_CUPS_FROM: f64 = 4.0;
/// More spoons than this nobody fills.
const MOST_SPOONS: f64 = 8.0;
/// Groups of foods that are bought by the piece.
const BY_PIECE: [&str; 3] = ["vegetable", "fruit", "egg"];

/// The rules by which home measures are rounded, for the reader.
pub const RULES: &str = "Weights count. A home measure is the coarsest one within a tenth of the \
                         weight: quarter cups up to 4, half cups up to 8, half tablespoons, quarter \
                         teaspoons, whole pieces.";

/// Returns the household measure of a mass of food; `None` when none is near enough or it should be
/// weighed.
pub fn home_measure(
    mass: Mass,
    food: &Food,
    shares: &Shares,
    measures: Measures,
) -> Option<String> {
    if shares.salt > SALTY || mass.grams() <= 0.0 {
        return None;
    }
    if BY_PIECE.contains(&food.group.as_str())
        && let Some(pieces) = pieces(mass, food)
    {
        return Some(pieces);
    }
    let volume = Volume::from_cubic_metres(mass.kilograms() / known_density(food, shares)?.si());
    if is_poured(food, shares) && (measures == Measures::Uk || cups(volume, measures) > MOST_CUPS) {
        return Some(format!("about {}", cook_volume(volume)));
    }
    let measured = spooned(volume, measures)?;
    match state(food) {
        // Nobody fills a spoon with whole nuts.
        Some(state) => measured.contains("cup").then(|| format!("about {measured}, {state}")),
        None => Some(format!("about {measured}")),
    }
}

/// Says how large the cup and the tablespoon of a nation are.
pub fn sizes(measures: Measures) -> String {
    let size = |unit: &str| {
        let unit = find_unit(unit, Dimension::Volume, measures);
        unit.map(|unit| {
            format!("{:.0} mL", Volume::from_cubic_metres(unit.to_si(1.0)).millilitres())
        })
    };
    let spoon = size("tbsp").unwrap_or_default();
    match size("cup").filter(|_| measures != Measures::Uk) {
        Some(cup) => format!("A cup is {cup}, a tablespoon {spoon}"),
        None => format!("A tablespoon is {spoon}"),
    }
}

fn pieces(mass: Mass, food: &Food) -> Option<String> {
    let each = food.values.get("piece_mass")?.typical();
    let count = (mass.kilograms() / each).round();
    let near = (count * each / mass.kilograms() - 1.0).abs() <= WITHIN;
    let word = if count > 1.0 { "pieces" } else { "piece" };
    ((1.0..=MOST_PIECES).contains(&count) && near).then(|| format!("about {count:.0} {word}"))
}

fn cups(volume: Volume, measures: Measures) -> f64 {
    count(volume, "cup", measures).unwrap_or(0.0)
}

fn count(volume: Volume, unit: &str, measures: Measures) -> Option<f64> {
    Some(find_unit(unit, Dimension::Volume, measures)?.from_si(volume.cubic_metres()))
}

/// The coarsest of cups and spoons that comes near; British kitchens have no cups.
fn spooned(volume: Volume, measures: Measures) -> Option<String> {
    let ladder: [(&str, f64, f64, f64); 4] = [
        ("cup", 0.5, HALF_CUPS_FROM, MOST_CUPS),
        ("cup", 0.25, 0.25, HALF_CUPS_FROM),
        ("tbsp", 0.5, 1.0, MOST_SPOONS),
        ("tsp", 0.25, 0.25, MOST_SPOONS),
    ];
    let has = |unit: &str| unit != "cup" || measures != Measures::Uk;
    ladder.iter().filter(|(unit, ..)| has(unit)).find_map(|(unit, step, least, most)| {
        let exact = count(volume, unit, measures)?;
        let rounded = (exact / step).round() * step;
        let near = (rounded / exact - 1.0).abs() <= WITHIN;
        let fits = rounded >= *least && rounded <= *most;
        (near && fits).then(|| amount(rounded, unit))
    })
}

/// Writes quarters as fractions: "2½ cups", "¼ tsp".
fn amount(quarters: f64, unit: &str) -> String {
    let whole = quarters.floor();
    let fraction = match ((quarters - whole) * 4.0).round() {
        part if part < 0.5 => "",
        part if part < 1.5 => "¼",
        part if part < 2.5 => "½",
        _ => "¾",
    };
    let number = if whole > 0.0 { format!("{whole:.0}{fraction}") } else { fraction.to_owned() };
    match unit {
        "cup" if quarters > 1.0 => format!("{number} cups"),
        unit => format!("{number} {unit}"),
    }
}

/// In which state a cup was weighed, as its source says after "cup": "chopped or sliced".
fn state(food: &Food) -> Option<&str> {
    let Provenance::Published { locator, .. } = &food.values.get("cup_mass")?.provenance else {
        return None;
    };
    let (_, state) = locator.split_once("cup, ")?;
    let plain = state.chars().all(|letter| letter.is_alphabetic() || letter == ' ');
    (plain && !state.is_empty()).then_some(state)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::knowledge::Knowledge;

    fn measured(food: &str, grams: f64, measures: Measures) -> Option<String> {
        let knowledge = Knowledge::embedded().unwrap();
        let food = &knowledge.foods[food];
        home_measure(Mass::from_grams(grams), food, &food.shares, measures)
    }

    #[test]
    fn pourable_food_is_measured_in_cups_and_spoons() {
        // USDA SR28 NDB 19335: one US cup of granulated sugar weighs 200 g, so 13 g are a tablespoon.
        let sugar = |grams| measured("caster-sugar", grams, Measures::Us);
        assert_eq!(sugar(300.0).as_deref(), Some("about 1½ cups"));
        assert_eq!(sugar(12.5).as_deref(), Some("about 1 tbsp"));
        assert_eq!(sugar(4.2).as_deref(), Some("about 1 tsp"));
        assert_eq!(sugar(0.2), None);
    }

    #[test]
    fn a_metric_cup_is_larger_than_an_american_one() {
        // 250 mL over 236.6 mL: 300 g of sugar are 1.42 metric cups.
        assert_eq!(
            measured("caster-sugar", 300.0, Measures::Metric).as_deref(),
            Some("about 1½ cups")
        );
        assert_eq!(measured("caster-sugar", 200.0, Measures::Us).as_deref(), Some("about 1 cup"));
        assert_eq!(
            measured("caster-sugar", 211.3, Measures::Metric).as_deref(),
            Some("about 1 cup")
        );
    }

    #[test]
    fn salt_is_weighed() {
        assert_eq!(measured("salt", 18.0, Measures::Us), None);
    }

    #[test]
    fn vegetables_are_counted() {
        // USDA SR28 NDB 11529: a medium tomato weighs 123 g.
        assert_eq!(measured("tomato", 2500.0, Measures::Us).as_deref(), Some("about 20 pieces"));
    }

    #[test]
    fn a_british_kitchen_has_no_cups() {
        let juice = measured("pear-juice", 500.0, Measures::Uk).unwrap();
        assert!(juice.ends_with("mL"), "{juice}");
        assert_eq!(measured("caster-sugar", 300.0, Measures::Uk), None);
    }
}
