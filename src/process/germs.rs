//! Named germs of disease, and how far heat has cut their number in a batch.
//!
//! Answers decimal reductions by time and temperature at the coldest point. Which D and z count
//! depends on what carries the germs: meat protects more than broth, a sour juice less. The laws and
//! their sources are those of [`crate::physics::pathogens`]. Growth is not counted here, and cells of
//! C. perfringens are those that grow, not their spores.

use std::ops::{Index, Sub};
use std::sync::LazyLock;

use crate::physics::pathogens::organism;
use crate::quantity::{Temperature, Time};

/// A named germ.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Germ {
    /// Salmonella.
    Salmonella,
    /// Listeria monocytogenes.
    Listeria,
    /// Escherichia coli O157:H7.
    EscherichiaColi,
    /// Growing cells of Clostridium perfringens.
    Perfringens,
    /// Spores of non-proteolytic Clostridium botulinum.
    Botulinum,
}

impl Germ {
    /// Every germ, in the order of storage.
    pub const ALL: [Self; 5] = [
        Self::Salmonella,
        Self::Listeria,
        Self::EscherichiaColi,
        Self::Perfringens,
        Self::Botulinum,
    ];
    /// The words by which settings name them, in the same order.
    pub const WORDS: &'static [&'static str] =
        &["salmonella", "listeria", "e-coli", "perfringens", "botulinum"];

    /// Finds a germ by its word.
    pub fn of(word: &str) -> Option<Self> {
        let place = Self::WORDS.iter().position(|known| *known == word)?;
        Self::ALL.get(place).copied()
    }
}

/// What carries the germs, from the mildest to the one that protects them most.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum Carrier {
    /// Fruit and juice of pH 4.6 or less.
    Sour,
    /// Any other food: the figures of beef count, which lie above those of broth.
    #[default]
    Other,
    /// Egg.
    Egg,
    /// Red meat.
    Meat,
    /// Meat of birds.
    Poultry,
}

/// Groups of foods that count as sour below [`SOUR_PH`].
const FRUIT_GROUPS: [&str; 4] = ["fruit", "juice", "puree", "drink"];
/// Acid food: US FDA, 21 CFR 114.3, pH 4.6 or below.
const SOUR_PH: f64 = 4.6;

impl Carrier {
    /// Returns what carries the germs of a food, by its group and its pH.
    pub fn of(group: &str, is_poultry: bool, ph: f64) -> Self {
        match group {
            "meat" if is_poultry => Self::Poultry,
            "meat" => Self::Meat,
            "egg" => Self::Egg,
            _ if FRUIT_GROUPS.contains(&group) && ph <= SOUR_PH => Self::Sour,
            _ => Self::Other,
        }
    }

    /// The laws by germ, as named in [`crate::physics::pathogens::ORGANISMS`].
    const fn laws(self) -> [&'static str; 5] {
        let (salmonella, coli) = match self {
            Self::Sour => ("salmonella-broth", "e-coli-juice"),
            Self::Other | Self::Meat => ("salmonella-beef", "e-coli-beef"),
            Self::Egg => ("salmonella-whole-egg", "e-coli-poultry"),
            Self::Poultry => ("salmonella-poultry", "e-coli-poultry"),
        };
        [salmonella, "listeria", coli, "perfringens-beef", "botulinum-chilled"]
    }

    /// Returns the decimal reductions a second of one germ at a temperature.
    pub fn rate(self, germ: Germ, temperature: Temperature) -> f64 {
        let celsius = temperature.celsius();
        if celsius < KILLS_FROM { 0.0 } else { LAWS[self as usize][germ as usize].rate(celsius) }
    }
}

/// Kill is counted from here up [°C]: the coldest line of the published tables is 54.4 °C (USDA FSIS,
/// Appendix A, 1999), measurements begin at 52 °C.
const KILLS_FROM: f64 = 52.0;

/// D and z of one germ in one carrier.
#[derive(Debug, Clone, Copy)]
struct Law {
    /// Reference temperature [°C].
    reference: f64,
    /// Decimal reductions a second there.
    per_second: f64,
    /// Natural logarithms of the rate per kelvin below and above the reference.
    slopes: (f64, f64),
}

impl Law {
    fn rate(&self, celsius: f64) -> f64 {
        let above = celsius - self.reference;
        let slope = if above < 0.0 { self.slopes.0 } else { self.slopes.1 };
        self.per_second * (above * slope).exp()
    }
}

static LAWS: LazyLock<[[Law; 5]; 5]> = LazyLock::new(|| {
    [Carrier::Sour, Carrier::Other, Carrier::Egg, Carrier::Meat, Carrier::Poultry]
        .map(|carrier| carrier.laws().map(law))
});

fn law(name: &str) -> Law {
    let entry = organism(name).expect("the laws of a carrier are names of organisms; tested");
    let z = entry.reduction.basis.z.kelvin();
    let below = entry.z_below.map_or(z, |z| z.kelvin());
    let slope = |z: f64| std::f64::consts::LN_10 / z;
    Law {
        reference: entry.reduction.basis.reference.celsius(),
        per_second: 1.0 / entry.reduction.d_reference.seconds(),
        slopes: (slope(below), slope(z)),
    }
}

/// Decimal reductions by germ.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Kills([f64; 5]);

impl Kills {
    /// Counts a span of time at one temperature.
    pub fn expose(&mut self, carrier: Carrier, temperature: Temperature, time: Time) {
        let celsius = temperature.celsius();
        if celsius < KILLS_FROM {
            return;
        }
        for (kill, law) in self.0.iter_mut().zip(&LAWS[carrier as usize]) {
            *kill += law.rate(celsius) * time.seconds();
        }
    }

    /// Returns the lesser of two for each germ.
    #[must_use]
    pub fn least(self, other: Self) -> Self {
        let mut least = self;
        for (kill, other) in least.0.iter_mut().zip(other.0) {
            *kill = kill.min(other);
        }
        least
    }
}

impl Index<Germ> for Kills {
    type Output = f64;

    fn index(&self, germ: Germ) -> &f64 {
        &self.0[germ as usize]
    }
}

impl Sub for Kills {
    type Output = Self;

    /// What has been killed since.
    fn sub(self, before: Self) -> Self {
        let mut since = self;
        for (kill, before) in since.0.iter_mut().zip(before.0) {
            *kill = (*kill - before).max(0.0);
        }
        since
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::pathogens::hold_rule;

    const CARRIERS: [Carrier; 5] =
        [Carrier::Sour, Carrier::Other, Carrier::Egg, Carrier::Meat, Carrier::Poultry];

    #[test]
    fn every_law_of_a_carrier_is_known() {
        for (place, carrier) in CARRIERS.into_iter().enumerate() {
            assert_eq!(carrier as usize, place);
            for name in carrier.laws() {
                assert!(organism(name).is_some(), "{name}");
            }
        }
        for (word, germ) in Germ::WORDS.iter().zip(Germ::ALL) {
            assert_eq!(Germ::of(word), Some(germ));
        }
        assert!(Germ::of("yeti").is_none());
    }

    #[test]
    fn kills_agree_with_the_published_tables_within_a_quarter() {
        let tables = [
            ("beef", Carrier::Meat, Germ::Salmonella, 69.4),
            ("poultry", Carrier::Poultry, Germ::Salmonella, 71.2),
            ("any-core", Carrier::Other, Germ::Listeria, 80.0),
            ("chilled-bag", Carrier::Other, Germ::Botulinum, 100.0),
        ];
        for (name, carrier, germ, hottest) in tables {
            let rule = hold_rule(name).unwrap();
            let wanted = rule.reductions.unwrap();
            for point in rule.points.iter().filter(|p| p.temperature.celsius() <= hottest) {
                let mut kills = Kills::default();
                kills.expose(carrier, point.temperature, point.time);
                let ratio = kills[germ] / wanted;
                assert!(
                    (0.75..1.3).contains(&ratio),
                    "{name} at {:.1} °C: {:.2} of {wanted}",
                    point.temperature.celsius(),
                    kills[germ]
                );
            }
        }
    }

    #[test]
    fn below_the_tables_nothing_dies_and_the_harder_carrier_protects() {
        let hour = Time::from_hours(1.0);
        let at = |carrier, celsius| {
            let mut kills = Kills::default();
            kills.expose(carrier, Temperature::from_celsius(celsius), hour);
            kills
        };
        assert_eq!(at(Carrier::Meat, 51.9), Kills::default());
        assert!(
            at(Carrier::Poultry, 60.0)[Germ::Salmonella]
                < at(Carrier::Meat, 60.0)[Germ::Salmonella]
        );
        let (weak, strong) = (at(Carrier::Meat, 55.0), at(Carrier::Meat, 65.0));
        assert_eq!(weak.least(strong), weak);
        assert!((strong - weak)[Germ::Listeria] > 0.0);
    }

    #[test]
    fn a_food_is_judged_by_its_group() {
        assert_eq!(Carrier::of("meat", true, 6.0), Carrier::Poultry);
        assert_eq!(Carrier::of("meat", false, 6.0), Carrier::Meat);
        assert_eq!(Carrier::of("egg", false, 7.0), Carrier::Egg);
        assert_eq!(Carrier::of("juice", false, 3.6), Carrier::Sour);
        assert_eq!(Carrier::of("juice", false, 6.2), Carrier::Other);
        assert!(Carrier::Poultry > Carrier::Meat && Carrier::Egg > Carrier::Other);
    }
}
