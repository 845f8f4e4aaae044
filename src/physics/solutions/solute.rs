//! What foods dissolve: how many particles a kilogram makes, and how strongly they hold water.

use crate::physics::constants::SUCROSE_MOLAR_MASS;

/// A substance dissolved in the water of a food.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Solute {
    /// Table sugar.
    Sucrose,
    /// Glucose, dextrose.
    Glucose,
    /// Fructose.
    Fructose,
    /// Milk sugar.
    Lactose,
    /// Malt sugar.
    Maltose,
    /// Glycerol.
    Glycerol,
    /// Sorbitol.
    Sorbitol,
    /// Citric acid, counted without crystal water.
    CitricAcid,
    /// Malic acid.
    MalicAcid,
    /// Tartaric acid.
    TartaricAcid,
    /// Table salt.
    Salt,
    /// Milk solids without the fat: lactose, salts and protein together.
    MilkSolids,
    /// Collagen hydrolysate, cooked-down stock solids.
    HydrolysedCollagen,
    /// Gelatine.
    Gelatine,
}

/// How one kilogram of a solute acts on water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Action {
    /// Particles [mol/kg].
    pub particles: f64,
    /// Particles times the square root of their Norrish constant [mol/kg].
    pub weighted: f64,
}

/// Norrish constant of sucrose at 298.15 K, Q/(R T) with Q of the sucrose equation in `activity`.
const SUCROSE_K: f64 = 7.115_2;
/// Molar mass of hexoses [kg/mol]: IUPAC atomic weights 2021.
const HEXOSE_MOLAR_MASS: f64 = 0.180_156;
/// Molar mass of glycerol [kg/mol]: as above.
const GLYCEROL_MOLAR_MASS: f64 = 0.092_094;
/// Molar mass of sorbitol [kg/mol]: as above.
const SORBITOL_MOLAR_MASS: f64 = 0.182_172;
/// Molar mass of citric acid [kg/mol]: as above.
const CITRIC_MOLAR_MASS: f64 = 0.192_123;
/// Molar mass of malic acid [kg/mol]: as above.
const MALIC_MOLAR_MASS: f64 = 0.134_087;
/// Molar mass of tartaric acid [kg/mol]: as above.
const TARTARIC_MOLAR_MASS: f64 = 0.150_087;
/// Mean molar mass of collagen hydrolysate [kg/mol]: estimate: 2 to 6 in trade specifications.
const HYDROLYSATE_MOLAR_MASS: f64 = 3.5;
/// Mean molar mass of gelatine [kg/mol]: estimate: 20 to 200 by grade.
const GELATINE_MOLAR_MASS: f64 = 50.0;
/// Share of lactose in milk solids without fat: H. D. Goff & R. W. Hartel, Ice Cream, 2013, freezing
/// curve calculation.
const MILK_LACTOSE_SHARE: f64 = 0.545;
/// Particles of the salts of milk solids [mol/kg]: 2.37 K per unit of solids to water (Goff & Hartel,
/// as above) over the cryoscopic constant of water, 1.86 K kg/mol.
const MILK_SALT_PARTICLES: f64 = 2.37 / 1.86;

/// Norrish constants, ln form: R. S. Norrish, J. Food Technol. 1 (1966) 25; J. Chirife, C. Ferro
/// Fontán & E. A. Benmergui, J. Food Technol. 15 (1980) 59 (from memory).
mod norrish {
    pub const HEXOSE: f64 = 2.25;
    pub const LACTOSE: f64 = 10.2;
    pub const MALTOSE: f64 = 4.54;
    pub const GLYCEROL: f64 = 1.16;
    pub const SORBITOL: f64 = 1.65;
    pub const CITRIC: f64 = 6.17;
    pub const MALIC: f64 = 1.82;
    pub const TARTARIC: f64 = 4.68;
}

fn action(molar_mass: f64, k: f64) -> Action {
    Action { particles: 1.0 / molar_mass, weighted: k.sqrt() / molar_mass }
}

impl Solute {
    /// Every solute, in the order of the documentation.
    pub const ALL: [Self; 14] = [
        Self::Sucrose,
        Self::Glucose,
        Self::Fructose,
        Self::Lactose,
        Self::Maltose,
        Self::Glycerol,
        Self::Sorbitol,
        Self::CitricAcid,
        Self::MalicAcid,
        Self::TartaricAcid,
        Self::Salt,
        Self::MilkSolids,
        Self::HydrolysedCollagen,
        Self::Gelatine,
    ];

    /// Returns how a kilogram acts; salt is reckoned apart and gives nothing here.
    pub(super) fn action(self) -> Action {
        match self {
            Self::Sucrose => action(SUCROSE_MOLAR_MASS, SUCROSE_K),
            Self::Glucose | Self::Fructose => action(HEXOSE_MOLAR_MASS, norrish::HEXOSE),
            Self::Lactose => action(SUCROSE_MOLAR_MASS, norrish::LACTOSE),
            Self::Maltose => action(SUCROSE_MOLAR_MASS, norrish::MALTOSE),
            Self::Glycerol => action(GLYCEROL_MOLAR_MASS, norrish::GLYCEROL),
            Self::Sorbitol => action(SORBITOL_MOLAR_MASS, norrish::SORBITOL),
            Self::CitricAcid => action(CITRIC_MOLAR_MASS, norrish::CITRIC),
            Self::MalicAcid => action(MALIC_MOLAR_MASS, norrish::MALIC),
            Self::TartaricAcid => action(TARTARIC_MOLAR_MASS, norrish::TARTARIC),
            Self::Salt => Action { particles: 0.0, weighted: 0.0 },
            Self::MilkSolids => milk_solids(),
            Self::HydrolysedCollagen => action(HYDROLYSATE_MOLAR_MASS, 0.0),
            Self::Gelatine => action(GELATINE_MOLAR_MASS, 0.0),
        }
    }
}

fn milk_solids() -> Action {
    let lactose = action(SUCROSE_MOLAR_MASS, norrish::LACTOSE);
    Action {
        particles: MILK_LACTOSE_SHARE * lactose.particles + MILK_SALT_PARTICLES,
        weighted: MILK_LACTOSE_SHARE * lactose.weighted,
    }
}
