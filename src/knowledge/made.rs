//! Foods made of one other food: pressed juices, strained purées.
//!
//! Their composition is that of the food they are made of, less what stays in the cloth or the
//! sieve; what dissolves in their water, acid and kinds of sugar, stays the same.

use super::{Derived, Food, Knowledge, Shares};

/// Values that hold for the water of a food, and so for its juice and its purée.
const OF_THE_WATER: [&str; 2] = ["ph", "monosaccharide_share"];
/// Values that say how much of a part stays in.
const KEPT: [&str; 4] = ["kept_fibre", "kept_starch", "kept_protein", "kept_fat"];

impl Shares {
    /// Returns the shares once only a part of fibre, starch, protein and fat is left, in this order.
    pub fn straining(&self, [fibre, starch, protein, fat]: [f64; 4]) -> Self {
        let mut left = *self;
        left.fibre *= fibre;
        left.starch *= starch;
        left.protein *= protein;
        left.fat *= fat;
        let sum = left.sum();
        for part in left.parts_mut() {
            *part /= sum;
        }
        left
    }

    fn sum(&self) -> f64 {
        let mut copy = *self;
        copy.parts_mut().into_iter().map(|part| *part).sum()
    }

    fn parts_mut(&mut self) -> [&mut f64; 10] {
        [
            &mut self.water,
            &mut self.sugars,
            &mut self.starch,
            &mut self.fibre,
            &mut self.protein,
            &mut self.fat,
            &mut self.acid,
            &mut self.salt,
            &mut self.ethanol,
            &mut self.other,
        ]
    }
}

impl Knowledge {
    /// Gives every food that is made of another one its composition and what holds for its water.
    pub(super) fn make_foods(&mut self) {
        let made: Vec<(String, Food)> = self
            .foods
            .values()
            .filter_map(|food| {
                Some((food.id.clone(), self.foods.get(food.made_of.as_ref()?)?.clone()))
            })
            .collect();
        for (id, origin) in made {
            if let Some(food) = self.foods.get_mut(&id) {
                food.take_after(&origin);
            }
        }
    }
}

impl Food {
    fn take_after(&mut self, origin: &Self) {
        let kept = KEPT.map(|name| self.values.get(name).map_or(1.0, super::Value::typical));
        self.shares = origin.shares.straining(kept);
        for name in OF_THE_WATER {
            if let Some(value) = origin.values.get(name).filter(|_| !self.values.contains_key(name))
            {
                self.values.insert(name.to_owned(), value.clone());
                self.derived.insert(name.to_owned(), Derived::Food(origin.id.clone()));
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pressed_juice_holds_what_passes_the_cloth() {
        let fruit = Shares { water: 0.8, sugars: 0.1, fibre: 0.06, fat: 0.04, ..Shares::default() };
        let juice = fruit.straining([0.5, 1.0, 1.0, 0.25]);
        // 0.8, 0.1, 0.03 and 0.01 are left of 1.
        assert!((juice.water - 0.8 / 0.94).abs() < 1e-12);
        assert!((juice.fibre - 0.03 / 0.94).abs() < 1e-12);
        assert!((juice.sum() - 1.0).abs() < 1e-12);
    }
}
