//! Constants of nature and of convention, each with its unit and its source.

/// Molar gas constant [J/(mol K)], exact: CODATA 2018.
pub const GAS_CONSTANT: f64 = 8.314_462_618_153_24;
/// Standard gravity [m/s²], exact: CGPM 1901.
pub const STANDARD_GRAVITY: f64 = 9.806_65;
/// Standard atmosphere \[Pa\], exact: CGPM 1954.
pub const STANDARD_ATMOSPHERE: f64 = 101_325.0;
/// Molar mass of water [kg/mol]: IAPWS R6-95.
pub const WATER_MOLAR_MASS: f64 = 0.018_015_268;
/// Molar mass of ethanol [kg/mol]: IUPAC atomic weights 2021.
pub const ETHANOL_MOLAR_MASS: f64 = 0.046_068_4;
/// Molar mass of sucrose [kg/mol]: IUPAC atomic weights 2021.
pub const SUCROSE_MOLAR_MASS: f64 = 0.342_296;
/// Molar mass of dry air [kg/mol]: ISO 2533:1975.
pub const AIR_MOLAR_MASS: f64 = 0.028_964_42;
