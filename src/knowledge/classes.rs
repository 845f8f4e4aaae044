//! What foods and aroma compounds take over from their classes, and what is computed from a
//! composition.
//!
//! A value that holds for hundreds of foods alike, such as the size of blended flesh, is stated
//! once, by a class. What the food states itself goes first, then its classes in the order in which
//! it names them, then the composition.

use std::collections::BTreeMap;

use super::{Class, Confidence, Derived, Food, Knowledge, Provenance, Shares, Value, ValueMap};
use crate::estimate::Estimate;

/// The value that only a food with suspended particles needs.
const PULP: &str = "pulp_size";
/// The value that the composition gives where nothing states it.
const INSOLUBLE: &str = "insoluble_solids";
/// Share of the fibre that does not dissolve. Estimate: pectin, a quarter to a half of the fibre of
/// fruit, dissolves in part.
const FIBRE_LEFT: [f64; 3] = [0.5, 0.75, 1.0];
/// Share of the starch that does not dissolve. Estimate: granules stay whole, raw or swollen; a
/// tenth may leak out.
const STARCH_LEFT: [f64; 3] = [0.9, 1.0, 1.0];
/// Share of the protein that does not dissolve. Estimate: most of the protein of fruit dissolves; at
/// most a third stays with the cell walls.
const PROTEIN_LEFT: [f64; 3] = [0.0, 0.0, 1.0 / 3.0];
/// Compositions are stated to a tenth of a per cent, and so is what follows from them.
const STEPS_PER_UNIT: f64 = 1000.0;

impl Shares {
    /// Returns the share of the dry matter that does not dissolve, estimated from the composition.
    ///
    /// `(a fibre + b starch + c protein) / (1 - water - ethanol)`, with a = 0.5, 0.75, 1, b = 0.9,
    /// 1, 1 and c = 0, 0, 1/3 for the 10th, 50th and 90th percentile, to a tenth of a per cent.
    ///
    /// Returns `None` without dry matter.
    pub fn insoluble_solids(&self) -> Option<Estimate> {
        let dry = 1.0 - self.water - self.ethanol;
        if dry <= 0.0 {
            return None;
        }
        let [low, typical, high] = [0, 1, 2].map(|at| {
            let matter = FIBRE_LEFT[at] * self.fibre
                + STARCH_LEFT[at] * self.starch
                + PROTEIN_LEFT[at] * self.protein;
            (STEPS_PER_UNIT * (matter / dry).min(1.0)).round() / STEPS_PER_UNIT
        });
        Estimate::new(low, typical, high).ok()
    }
}

impl Knowledge {
    /// Gives foods and aroma compounds the values that they do not state themselves: those of their
    /// classes, of the food of which they are made, and of their composition.
    pub(super) fn complete(&mut self) {
        for aroma in self.aromas.values_mut() {
            let classes = aroma.classes.iter().filter_map(|id| self.classes.get(id));
            take_over(&mut aroma.values, &mut aroma.derived, classes);
        }
        for food in self.foods.values_mut() {
            let classes = food.classes.iter().filter_map(|id| self.classes.get(id));
            take_over(&mut food.values, &mut food.derived, classes);
        }
        self.make_foods();
        if let Some(unit) = self.quantities.get(INSOLUBLE).map(|quantity| quantity.unit) {
            for food in self.foods.values_mut() {
                add_insoluble(food, unit);
            }
        }
    }
}

/// Adds the values of classes that are not there, those of the first class first.
fn take_over<'a>(
    values: &mut ValueMap,
    derived: &mut BTreeMap<String, Derived>,
    classes: impl Iterator<Item = &'a Class>,
) {
    for class in classes {
        for (name, value) in &class.values {
            if !values.contains_key(name) {
                values.insert(name.clone(), value.clone());
                derived.insert(name.clone(), Derived::Class(class.id.clone()));
            }
        }
    }
}

/// Computes how much of the dry matter of a food with particles does not dissolve.
fn add_insoluble(food: &mut Food, unit: crate::quantity::Unit) {
    if food.values.contains_key(INSOLUBLE) || !food.values.contains_key(PULP) {
        return;
    }
    let Some(estimate) = food.shares.insoluble_solids() else { return };
    let provenance = Provenance::Estimate(
        "three quarters of the fibre and all of the starch, over the dry matter; from half of the \
         fibre and nine tenths of the starch to all of both with a third of the protein"
            .to_owned(),
    );
    let confidence = Confidence::of(&provenance);
    let dimension = unit.dimension;
    let value = Value { estimate, dimension, unit, provenance, confidence, note: None };
    food.values.insert(INSOLUBLE.to_owned(), value);
    food.derived.insert(INSOLUBLE.to_owned(), Derived::Composition);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_does_not_dissolve_follows_from_fibre_starch_and_protein() {
        let potato = Shares {
            water: 0.8,
            starch: 0.14,
            fibre: 0.02,
            protein: 0.03,
            other: 0.01,
            ..Shares::default()
        };
        let estimate = potato.insoluble_solids().unwrap();
        // (0.01 + 0.126) / 0.2, (0.015 + 0.14) / 0.2 and (0.02 + 0.14 + 0.01) / 0.2.
        for (got, expected) in
            [(estimate.low(), 0.68), (estimate.typical(), 0.775), (estimate.high(), 0.85)]
        {
            assert!((got - expected).abs() < 1e-9, "{got} instead of {expected}");
        }
    }

    const SHARED: &str = r#"
[quantity.pulp_size]
meaning = "size"
unit = "µm"
[quantity.insoluble_solids]
meaning = "what does not dissolve"
unit = "%"
[[class]]
id = "coarse"
name = "coarse"
summary = "coarse foods"
[class.values]
pulp_size = { typical = 100.0, unit = "µm", source = "common practice" }
[[food]]
id = "plain"
name = "plain"
group = "fruit"
classes = ["coarse"]
source = "invented"
composition = { water = 90.0, carbohydrate = 10.0, sugars = 8.0, fibre = 2.0 }
[[food]]
id = "fine"
name = "fine"
group = "fruit"
classes = ["coarse"]
source = "invented"
composition = { water = 90.0, carbohydrate = 10.0, sugars = 10.0 }
[food.values]
pulp_size = { typical = 5.0, unit = "µm" }
insoluble_solids = { typical = 1.0, unit = "%" }
"#;

    fn shared() -> Knowledge {
        let file = super::super::load::File { path: "shared.toml".into(), text: SHARED.into() };
        let layer = super::super::Layer { name: "test".into(), files: vec![file] };
        Knowledge::from_layers(&[layer]).unwrap()
    }

    #[test]
    fn a_food_takes_over_what_it_does_not_state() {
        let knowledge = shared();
        let plain = &knowledge.foods["plain"];
        assert!((plain.values["pulp_size"].typical() - 100e-6).abs() < 1e-12);
        assert!((plain.values["insoluble_solids"].typical() - 0.15).abs() < 1e-12);
        assert_eq!(plain.derived["pulp_size"], Derived::Class("coarse".into()));
        assert_eq!(plain.derived["insoluble_solids"], Derived::Composition);
    }

    #[test]
    fn what_a_food_states_goes_before_its_class() {
        let knowledge = shared();
        let fine = &knowledge.foods["fine"];
        assert!((fine.values["pulp_size"].typical() - 5e-6).abs() < 1e-12);
        assert!((fine.values["insoluble_solids"].typical() - 0.01).abs() < 1e-12);
        assert!(fine.derived.is_empty());
    }

    #[test]
    fn what_a_class_states_counts_once() {
        // One value of the class, two of the food that states its own; the parts that are stated.
        assert_eq!(shared().counts().values, 3 + 4 + 3);
    }

    #[test]
    fn water_has_nothing_that_could_dissolve() {
        assert_eq!(Shares { water: 1.0, ..Shares::default() }.insoluble_solids(), None);
    }
}
