//! Published sorption constants by food.

use super::{GabOverTemperature, SorptionLaw};
use crate::physics::{PhysicsError, Validity};
use crate::quantity::{MolarEnergy, Temperature};

/// The published isotherm of one food.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Isotherm {
    /// The food, in plain words.
    pub food: &'static str,
    /// The law with its constants.
    pub law: SorptionLaw,
    /// The lowest temperature measured [°C].
    pub low_celsius: f64,
    /// The highest temperature measured [°C].
    pub high_celsius: f64,
    /// Where the constants were published.
    pub source: &'static str,
}

impl Isotherm {
    /// Passes a temperature at which the constants were measured.
    ///
    /// # Errors
    /// [`PhysicsError::OutsideValidity`] when it lies outside the measured range.
    pub fn check(&self, temperature: Temperature) -> Result<Temperature, PhysicsError> {
        let range = Validity {
            law: "the isotherm of this food",
            quantity: "temperature",
            low: self.low_celsius,
            high: self.high_celsius,
            unit: "°C",
        };
        range.check(temperature.celsius()).map(|_| temperature)
    }
}

/// The recalled standard behind the grain constants.
const ASAE: &str = "from memory: ASAE D245.5, Moisture relationships of plant-based agricultural \
                    products, 1995, table 1";

const fn arrhenius(factor: f64, kilojoules: f64) -> (f64, MolarEnergy) {
    (factor, MolarEnergy::from_joules_per_mole(kilojoules * 1e3))
}

const fn grain(food: &'static str, a: f64, n: f64, c: f64) -> Isotherm {
    let law = SorptionLaw::ModifiedHenderson { a, n, c };
    Isotherm { food, law, low_celsius: 5.0, high_celsius: 60.0, source: ASAE }
}

/// Published isotherms, by food.
pub const ISOTHERMS: &[Isotherm] = &[
    Isotherm {
        food: "potato",
        law: SorptionLaw::GabOverTemperature(GabOverTemperature {
            monolayer: arrhenius(0.056, 1.39),
            c: arrhenius(0.017, 20.0),
            k: arrhenius(0.94, -0.92),
        }),
        low_celsius: 30.0,
        high_celsius: 60.0,
        source: "Kiranoudis et al. 1993, Equilibrium moisture content and heat of desorption of \
                 some vegetables, Journal of Food Engineering 20, as given by Singh 1996",
    },
    Isotherm {
        food: "pasta",
        law: SorptionLaw::GabOverTemperature(GabOverTemperature {
            monolayer: arrhenius(4.40e-3, 6.84),
            c: arrhenius(2.86e-9, 60.0),
            k: arrhenius(0.1313, 4.92),
        }),
        low_celsius: 40.0,
        high_celsius: 90.0,
        source: "Waananen 1989, doctoral thesis on drying of semolina pasta",
    },
    Isotherm {
        food: "maize by Chung-Pfost",
        law: SorptionLaw::ChungPfost { a: 312.40, b: 16.958, c: 30.205 },
        low_celsius: 5.0,
        high_celsius: 60.0,
        source: ASAE,
    },
    grain("maize", 8.6541e-5, 1.8634, 49.810),
    grain("barley", 2.2919e-5, 2.0123, 195.267),
    grain("dry beans", 2.0899e-5, 1.8812, 254.230),
    grain("peanut kernel", 65.0413e-5, 1.4984, 50.561),
    grain("rough rice", 1.9187e-5, 2.4451, 51.161),
    grain("sorghum", 0.8532e-5, 2.4757, 113.725),
    grain("soybean", 30.5327e-5, 1.2164, 134.136),
    grain("durum wheat", 2.5738e-5, 2.2110, 70.318),
    grain("hard wheat", 2.3007e-5, 2.2857, 55.815),
    grain("soft wheat", 1.2299e-5, 2.5558, 64.346),
];

/// Finds the isotherm of a food by its name.
pub fn isotherm_of(food: &str) -> Option<&'static Isotherm> {
    ISOTHERMS.iter().find(|isotherm| isotherm.food == food)
}

/// A GAB monolayer of which only the range over temperature was published.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Monolayer {
    /// The food, in plain words.
    pub food: &'static str,
    /// The smallest and the largest monolayer [kg/kg dry].
    pub range: (f64, f64),
    /// The lowest and the highest temperature measured [°C].
    pub range_celsius: (f64, f64),
    /// Where it was published.
    pub source: &'static str,
}

/// Published monolayers without the other constants, by food.
pub const MONOLAYERS: &[Monolayer] = &[
    Monolayer {
        food: "banana",
        range: (0.160, 0.345),
        range_celsius: (35.0, 70.0),
        source: "Kechaou & Maalej 1999, Desorption isotherms of imported banana, Drying Technology \
                 17, abstract",
    },
    Monolayer {
        food: "dried banana",
        range: (0.0980, 0.208),
        range_celsius: (20.0, 40.0),
        source: "Falade & Awoyele 2005, Adsorption isotherms and heat of sorption of fresh and \
                 preosmosed oven-dried bananas, Journal of Food, Agriculture & Environment 3, \
                 abstract",
    },
];

/// Returns the range of the GAB monolayer of a food over the temperatures measured [kg/kg dry],
/// with its source.
pub fn monolayer_of(food: &str) -> Option<((f64, f64), &'static str)> {
    let listed = MONOLAYERS.iter().find(|entry| entry.food == food);
    listed.map(|entry| (entry.range, entry.source)).or_else(|| {
        let isotherm = isotherm_of(food)?;
        let SorptionLaw::GabOverTemperature(gab) = isotherm.law else { return None };
        let at = |celsius| gab.at(Temperature::from_celsius(celsius)).monolayer;
        let (cold, warm) = (at(isotherm.low_celsius), at(isotherm.high_celsius));
        Some(((cold.min(warm), cold.max(warm)), isotherm.source))
    })
}
