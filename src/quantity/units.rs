//! The units that people write, with their size in SI.

use super::Dimension;

/// Whose cups and spoons an unqualified household measure means.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Measures {
    /// Metric cup 250 mL, tablespoon 15 mL.
    #[default]
    Metric,
    /// US customary cup 236.588 mL, tablespoon 14.787 mL (NIST Handbook 44, appendix C).
    Us,
    /// UK imperial pint 568.261 mL, tablespoon 15 mL (Weights and Measures Act 1985, schedule 1).
    Uk,
    /// Australian cup 250 mL, tablespoon 20 mL (NSW government, Metric cup and spoon sizes).
    Australian,
}

/// A unit: the ways to write it, its dimension and its size.
///
/// `si = value * factor + offset`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// The symbol that the program itself prints.
    pub symbol: &'static str,
    /// Other spellings that it accepts.
    pub spellings: &'static [&'static str],
    /// What it measures.
    pub dimension: Dimension,
    /// Size in the SI unit.
    pub factor: f64,
    /// SI value at a reading of zero; only temperature scales have one.
    pub offset: f64,
}

const fn unit(
    symbol: &'static str,
    spellings: &'static [&'static str],
    dimension: Dimension,
    factor: f64,
) -> Unit {
    Unit { symbol, spellings, dimension, factor, offset: 0.0 }
}

const fn scale(
    symbol: &'static str,
    spellings: &'static [&'static str],
    factor: f64,
    offset: f64,
) -> Unit {
    Unit { symbol, spellings, dimension: Dimension::Temperature, factor, offset }
}

/// The US gallon \[m³\], exact: 231 cubic inches, NIST Handbook 44, appendix C.
const US_GALLON: f64 = 3.785_411_784e-3;
/// The UK gallon \[m³\], exact: Weights and Measures Act 1985, schedule 1.
const UK_GALLON: f64 = 4.546_09e-3;
/// The avoirdupois pound \[kg\], exact: international yard and pound agreement 1959.
const POUND: f64 = 0.453_592_37;
/// The international inch \[m\], exact: international yard and pound agreement 1959.
const INCH: f64 = 0.0254;
/// The metric and Australian cup [m³]: NSW government, Metric cup and spoon sizes.
const METRIC_CUP: f64 = 250e-6;
/// The millimetre of mercury \[Pa\], conventional: ISO 80000-4.
const MILLIMETRE_OF_MERCURY: f64 = 133.322;
/// The pound-force per square inch \[Pa\]: NIST SP 811, appendix B.8.
const PSI: f64 = 6894.757;
/// Standard gravity [m/s²], exact: CGPM 1901.
const STANDARD_GRAVITY: f64 = 9.806_65;
/// Kelvin at zero degrees Celsius, exact.
const CELSIUS_ZERO: f64 = 273.15;
/// Kelvin at zero degrees Fahrenheit, exact: 273.15 - 32 * 5 / 9.
const FAHRENHEIT_ZERO: f64 = CELSIUS_ZERO - 32.0 * 5.0 / 9.0;

/// Every unit whose size does not depend on the reader's nation. The SI unit of a dimension is its
/// first row.
const UNITS: &[Unit] = &[
    unit("", &["1"], Dimension::Fraction, 1.0),
    unit(
        "%",
        &[
            "percent",
            "per cent",
            "% w/w",
            "g/100 g",
            "% v/v",
            "% ABV",
            "%ABV",
            "vol %",
            "% RH",
            "% vol",
            "percent v/v",
        ],
        Dimension::Fraction,
        0.01,
    ),
    unit("°Brix", &["°Bx", "Brix", "Bx", "brix", "degBrix"], Dimension::Fraction, 0.01),
    unit("ppm", &[], Dimension::Fraction, 1e-6),
    unit("mg/kg", &[], Dimension::Fraction, 1e-6),
    unit("g/kg", &[], Dimension::Fraction, 1e-3),
    unit("kg/kg", &["g/g", "mol/mol"], Dimension::Fraction, 1.0),
    unit("kg", &["kilogram", "kilograms", "kilo", "kilos"], Dimension::Mass, 1.0),
    unit("g", &["gram", "grams", "gr", "gramme", "grammes"], Dimension::Mass, 1e-3),
    unit("mg", &["milligram", "milligrams"], Dimension::Mass, 1e-6),
    unit("lb", &["pound", "pounds", "lbs"], Dimension::Mass, POUND),
    unit("oz", &["ounce", "ounces"], Dimension::Mass, POUND / 16.0),
    unit("m³", &["m3", "cubic metre", "cubic metres"], Dimension::Volume, 1.0),
    unit("L", &["l", "litre", "litres", "liter", "liters"], Dimension::Volume, 1e-3),
    unit("mL", &["ml", "millilitre", "millilitres", "milliliter", "cc"], Dimension::Volume, 1e-6),
    unit("dL", &["dl"], Dimension::Volume, 1e-4),
    unit("cL", &["cl"], Dimension::Volume, 1e-5),
    unit("US cup", &["US cups"], Dimension::Volume, US_GALLON / 16.0),
    unit("US tbsp", &[], Dimension::Volume, US_GALLON / 256.0),
    unit("US tsp", &[], Dimension::Volume, US_GALLON / 768.0),
    unit("US fl oz", &[], Dimension::Volume, US_GALLON / 128.0),
    unit("US pint", &["US pints"], Dimension::Volume, US_GALLON / 8.0),
    unit("US quart", &["US quarts"], Dimension::Volume, US_GALLON / 4.0),
    unit("US gallon", &["US gallons"], Dimension::Volume, US_GALLON),
    unit("UK fl oz", &[], Dimension::Volume, UK_GALLON / 160.0),
    unit("UK pint", &["UK pints"], Dimension::Volume, UK_GALLON / 8.0),
    unit("UK gallon", &["UK gallons"], Dimension::Volume, UK_GALLON),
    unit("metric cup", &["metric cups"], Dimension::Volume, METRIC_CUP),
    unit("m", &["metre", "metres", "meter", "meters"], Dimension::Length, 1.0),
    unit("cm", &["centimetre", "centimetres"], Dimension::Length, 1e-2),
    unit("mm", &["millimetre", "millimetres"], Dimension::Length, 1e-3),
    unit("µm", &["um", "μm", "micron", "microns"], Dimension::Length, 1e-6),
    unit("nm", &[], Dimension::Length, 1e-9),
    unit("in", &["inch", "inches"], Dimension::Length, INCH),
    unit("ft", &["foot", "feet"], Dimension::Length, INCH * 12.0),
    unit("m²", &["m2"], Dimension::Area, 1.0),
    unit("cm²", &["cm2"], Dimension::Area, 1e-4),
    unit("s", &["sec", "secs", "second", "seconds"], Dimension::Time, 1.0),
    unit("min", &["mins", "minute", "minutes"], Dimension::Time, 60.0),
    unit("h", &["hr", "hrs", "hour", "hours"], Dimension::Time, 3600.0),
    unit("d", &["day", "days"], Dimension::Time, 86_400.0),
    scale("K", &["kelvin"], 1.0, 0.0),
    scale("°C", &["C", "degC", "deg C", "℃"], 1.0, CELSIUS_ZERO),
    scale("°F", &["F", "degF", "deg F"], 5.0 / 9.0, FAHRENHEIT_ZERO),
    unit("K", &["kelvin", "°C", "C", "degC"], Dimension::TemperatureDifference, 1.0),
    unit("°F", &["F", "degF"], Dimension::TemperatureDifference, 5.0 / 9.0),
    unit("Pa", &["pascal", "pascals"], Dimension::Pressure, 1.0),
    unit("hPa", &[], Dimension::Pressure, 100.0),
    unit("kPa", &[], Dimension::Pressure, 1e3),
    unit("MPa", &[], Dimension::Pressure, 1e6),
    unit("mbar", &[], Dimension::Pressure, 100.0),
    unit("bar", &["bars"], Dimension::Pressure, 1e5),
    unit("atm", &[], Dimension::Pressure, 101_325.0),
    unit("mmHg", &["Torr", "torr"], Dimension::Pressure, MILLIMETRE_OF_MERCURY),
    unit("psi", &[], Dimension::Pressure, PSI),
    unit("W", &["watt", "watts"], Dimension::Power, 1.0),
    unit("kW", &["kilowatt", "kilowatts"], Dimension::Power, 1e3),
    unit("J", &[], Dimension::Energy, 1.0),
    unit("kJ", &[], Dimension::Energy, 1e3),
    unit("MJ", &[], Dimension::Energy, 1e6),
    unit("kWh", &[], Dimension::Energy, 3.6e6),
    unit("J/kg", &[], Dimension::SpecificEnergy, 1.0),
    unit("kJ/kg", &[], Dimension::SpecificEnergy, 1e3),
    unit("J/(kg K)", &["J/kgK", "J/kg/K"], Dimension::SpecificHeat, 1.0),
    unit("kJ/(kg K)", &["kJ/kgK", "kJ/kg/K"], Dimension::SpecificHeat, 1e3),
    unit("W/kg", &[], Dimension::SpecificPower, 1.0),
    unit("kg/m³", &["kg/m3", "g/L", "g/l"], Dimension::Density, 1.0),
    unit("g/mL", &["g/ml", "g/cm3", "g/cm³", "kg/L", "kg/l"], Dimension::Density, 1e3),
    unit("mg/L", &["mg/l", "g/m3"], Dimension::Density, 1e-3),
    unit("Pa·s", &["Pa s", "Pas", "Pa.s"], Dimension::Viscosity, 1.0),
    unit("mPa·s", &["mPa s", "mPas", "mPa.s", "cP"], Dimension::Viscosity, 1e-3),
    unit("W/(m K)", &["W/mK", "W/m/K"], Dimension::Conductivity, 1.0),
    unit("m²/s", &["m2/s"], Dimension::Diffusivity, 1.0),
    unit("mm²/s", &["mm2/s"], Dimension::Diffusivity, 1e-6),
    unit("W/(m² K)", &["W/(m2 K)", "W/m2K", "W/m2/K"], Dimension::HeatTransfer, 1.0),
    unit("m/s", &[], Dimension::Speed, 1.0),
    unit("cm/h", &[], Dimension::Speed, 1e-2 / 3600.0),
    unit("m/s²", &["m/s2"], Dimension::Acceleration, 1.0),
    unit("g", &["× g", "x g", "gravities"], Dimension::Acceleration, STANDARD_GRAVITY),
    unit("turns/s", &["rps", "Hz", "1/s"], Dimension::RotationSpeed, 1.0),
    unit("rpm", &["turns/min", "/min"], Dimension::RotationSpeed, 1.0 / 60.0),
    unit("1/s", &["/s", "per s", "per second"], Dimension::Rate, 1.0),
    unit("1/min", &["/min", "per min"], Dimension::Rate, 1.0 / 60.0),
    unit("1/h", &["/h", "per h", "per hour", "air changes/h"], Dimension::Rate, 1.0 / 3600.0),
    unit("kg/s", &[], Dimension::MassFlow, 1.0),
    unit("g/s", &[], Dimension::MassFlow, 1e-3),
    unit("g/min", &[], Dimension::MassFlow, 1e-3 / 60.0),
    unit("kg/h", &["L/h"], Dimension::MassFlow, 1.0 / 3600.0),
    unit("kg/(m² s)", &["kg/(m2 s)", "kg/m2s"], Dimension::MassFlux, 1.0),
    unit("kg/(m² h)", &["kg/(m2 h)", "kg/m2h"], Dimension::MassFlux, 1.0 / 3600.0),
    unit("N/m", &[], Dimension::SurfaceTension, 1.0),
    unit("mN/m", &[], Dimension::SurfaceTension, 1e-3),
    unit("J/mol", &[], Dimension::MolarEnergy, 1.0),
    unit("kJ/mol", &[], Dimension::MolarEnergy, 1e3),
    unit("kg/mol", &[], Dimension::MolarMass, 1.0),
    unit("g/mol", &[], Dimension::MolarMass, 1e-3),
    unit("mol/kg", &["m"], Dimension::Molality, 1.0),
    unit("mol/(m³ Pa)", &["mol/(m3 Pa)"], Dimension::HenrySolubility, 1.0),
    unit("m/kg", &[], Dimension::CakeResistance, 1.0),
    unit("1/m", &["/m"], Dimension::MediumResistance, 1.0),
    unit("rad", &[], Dimension::Angle, 1.0),
    unit("°", &["deg", "degrees"], Dimension::Angle, std::f64::consts::PI / 180.0),
    unit("money", &["EUR", "USD", "GBP"], Dimension::Cost, 1.0),
];

/// Household measures, by nation, in the order metric, US, UK, Australian.
const HOUSEHOLD: &[(Unit, [f64; 4])] = &[
    (
        unit("cup", &["cups"], Dimension::Volume, 0.0),
        [METRIC_CUP, US_GALLON / 16.0, UK_GALLON / 16.0, METRIC_CUP],
    ),
    (
        unit("tbsp", &["tablespoon", "tablespoons"], Dimension::Volume, 0.0),
        [15e-6, US_GALLON / 256.0, 15e-6, 20e-6],
    ),
    (
        unit("tsp", &["teaspoon", "teaspoons"], Dimension::Volume, 0.0),
        [5e-6, US_GALLON / 768.0, 5e-6, 5e-6],
    ),
    (
        unit("fl oz", &["floz"], Dimension::Volume, 0.0),
        [30e-6, US_GALLON / 128.0, UK_GALLON / 160.0, 30e-6],
    ),
    (
        unit("pint", &["pints", "pt"], Dimension::Volume, 0.0),
        [UK_GALLON / 8.0, US_GALLON / 8.0, UK_GALLON / 8.0, UK_GALLON / 8.0],
    ),
    (
        unit("quart", &["quarts", "qt"], Dimension::Volume, 0.0),
        [UK_GALLON / 4.0, US_GALLON / 4.0, UK_GALLON / 4.0, UK_GALLON / 4.0],
    ),
];

impl Unit {
    /// Returns the SI value of a reading in this unit.
    pub fn to_si(&self, reading: f64) -> f64 {
        reading * self.factor + self.offset
    }

    /// Returns the reading in this unit of an SI value.
    pub fn from_si(&self, si: f64) -> f64 {
        (si - self.offset) / self.factor
    }

    fn is_written(&self, text: &str) -> bool {
        self.symbol == text || self.spellings.contains(&text)
    }
}

/// Returns the units of a dimension, the SI unit first, household measures by nation last.
pub fn units_of(dimension: Dimension, measures: Measures) -> impl Iterator<Item = Unit> {
    let fixed = UNITS.iter().filter(move |unit| unit.dimension == dimension).copied();
    let household = HOUSEHOLD
        .iter()
        .filter(move |(unit, _)| unit.dimension == dimension)
        .map(move |(unit, sizes)| Unit { factor: sizes[measures as usize], ..*unit });
    fixed.chain(household)
}

/// Finds the unit of a dimension by symbol or spelling; an exact match first, then ignoring case.
pub fn find_unit(text: &str, dimension: Dimension, measures: Measures) -> Option<Unit> {
    let text = text.trim();
    units_of(dimension, measures).find(|unit| unit.is_written(text)).or_else(|| {
        let lower = text.to_lowercase();
        units_of(dimension, measures).find(|unit| {
            unit.symbol.to_lowercase() == lower
                || unit.spellings.iter().any(|spelling| spelling.to_lowercase() == lower)
        })
    })
}
