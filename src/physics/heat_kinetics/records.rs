//! Published rates of quality loss and of softening.

use super::{Arrhenius, EquivalentTime};
use crate::quantity::{MolarEnergy, Rate, Temperature, TemperatureDifference};

/// How fast heat destroys one quality of one food.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct QualityLoss {
    /// Name in kebab case.
    pub name: &'static str,
    /// Rate, reference temperature and activation energy.
    pub kinetics: Arrhenius,
    /// Temperatures of the experiments \[°C\].
    pub measured: (f64, f64),
    /// Publication, and how far it was read.
    pub source: &'static str,
}

const fn loss(
    name: &'static str,
    (per_minute, celsius, kilojoules): (f64, f64, f64),
    measured: (f64, f64),
    source: &'static str,
) -> QualityLoss {
    let kinetics = Arrhenius {
        rate: Rate::from_per_second(per_minute / 60.0),
        reference: Temperature::from_celsius(celsius),
        activation_energy: MolarEnergy::from_joules_per_mole(kilojoules * 1e3),
    };
    QualityLoss { name, kinetics, measured, source }
}

/// Rates of loss of vitamins and colours: rate \[1/min\], reference \[°C\], activation energy \[kJ/mol\].
pub const QUALITY_LOSSES: &[QualityLoss] = &[
    loss(
        "vitamin-c",
        (0.032, 80.0, 73.9),
        (60.0, 99.0),
        "Vieira, Teixeira & Silva, J. Food Engineering 43, 2000, cupuacu nectar (from memory)",
    ),
    loss(
        "vitamin-b1",
        (std::f64::consts::LN_10 / 158.0, 121.1, 115.0),
        (110.0, 150.0),
        "Holdsworth & Simpson, Thermal Processing of Packaged Foods, thiamin, D121 158 min, \
         Ea 110-125 kJ/mol (from memory)",
    ),
    loss(
        "berry-colour",
        (2.254e-3, 80.0, 80.42),
        (50.0, 80.0),
        "rabbiteye blueberry juice, in: Oancea, Antioxidants 10, 2021, 1337, table 1",
    ),
    loss(
        "blackcurrant-colour",
        (0.0131 / 60.0, 80.0, 94.0),
        (75.0, 90.0),
        "blackcurrant extract, pH 3.07, in: Oancea, Antioxidants 10, 2021, 1337, table 1",
    ),
    loss(
        "acai-colour",
        (0.0007, 80.0, 42.8),
        (60.0, 90.0),
        "acai pulp, in: Oancea, Antioxidants 10, 2021, 1337, table 1",
    ),
];

/// Finds a record of quality loss.
///
/// # Source
/// [`QUALITY_LOSSES`].
pub fn quality_loss(name: &str) -> Option<&'static QualityLoss> {
    QUALITY_LOSSES.iter().find(|record| record.name == name)
}

/// How heat softens one food.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Softening {
    /// Name in kebab case.
    pub name: &'static str,
    /// z value, at 100 °C where it comes from an activation energy.
    pub z: TemperatureDifference,
    /// First-order rate at 100 °C, where published.
    pub rate_at_100: Option<Rate>,
    /// Activation energy, where published.
    pub activation_energy: Option<MolarEnergy>,
    /// Publication.
    pub source: &'static str,
}

/// Lee, Kinetic data for texture changes of foods during thermal processing, Food Engineering
/// Progress 21, 2017, table 1.
const LEE: &str = "Lee, Food Engineering Progress 21, 2017, table 1";
/// Quast & da Silva, J. Food Science 42, 1977, abstract: 98 °C to 127 °C.
const QUAST: &str = "Quast & da Silva, J. Food Science 42, 1977, 370 (abstract), 98-127 °C";
/// Van Loey et al., J. Food Engineering 24, 1995, abstract: 90 °C to 122 °C.
const VAN_LOEY: &str = "Van Loey et al., J. Food Engineering 24, 1995, 361 (abstract), 90-122 °C";

const fn first_order(name: &'static str, per_minute: f64, kilojoules: f64) -> Softening {
    /// ln(10) R T² at 100 °C [kJ K/mol]: T = 373.15 K.
    const SLOPE: f64 =
        std::f64::consts::LN_10 * crate::physics::constants::GAS_CONSTANT * 373.15 * 373.15 / 1e3;
    Softening {
        name,
        z: TemperatureDifference::from_kelvin(SLOPE / kilojoules),
        rate_at_100: Some(Rate::from_per_second(per_minute / 60.0)),
        activation_energy: Some(MolarEnergy::from_joules_per_mole(kilojoules * 1e3)),
        source: LEE,
    }
}

const fn by_z(name: &'static str, z: f64, source: &'static str) -> Softening {
    let z = TemperatureDifference::from_kelvin(z);
    Softening { name, z, rate_at_100: None, activation_energy: None, source }
}

/// Softening of vegetables, pulses and fruit.
pub const SOFTENING: &[Softening] = &[
    first_order("beans", 0.144, 171.5),
    first_order("broccoli", 0.217, 54.4),
    first_order("carrot", 0.126, 159.0),
    first_order("carrot-firmness", 0.049, 92.05),
    first_order("cabbage", 0.146, 71.4),
    first_order("apricot", 0.269, 146.2),
    first_order("asparagus", 0.134, 76.6),
    first_order("asparagus-tip", 0.103, 98.3),
    by_z("black-beans", 19.0, QUAST),
    by_z("brown-beans", 18.0, QUAST),
    by_z("dried-peas", 16.0, QUAST),
    by_z("white-beans", 21.3, VAN_LOEY),
    by_z("green-peas", 28.5, VAN_LOEY),
];

/// Finds a record of softening.
///
/// # Source
/// [`SOFTENING`].
pub fn softening(name: &str) -> Option<&'static Softening> {
    SOFTENING.iter().find(|record| record.name == name)
}

impl Softening {
    /// Returns the basis on which times at two temperatures compare.
    ///
    /// # Units
    /// z \[K\].
    ///
    /// # Validity
    /// About 80 °C to 130 °C.
    ///
    /// # Source
    /// [`SOFTENING`].
    pub const fn basis(&self) -> EquivalentTime {
        EquivalentTime { reference: Temperature::from_celsius(100.0), z: self.z }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn records_are_found_by_name_and_name_their_source() {
        assert!(
            QUALITY_LOSSES.iter().all(|r| quality_loss(r.name) == Some(r) && !r.source.is_empty())
        );
        assert!(SOFTENING.iter().all(|r| softening(r.name) == Some(r) && !r.source.is_empty()));
        assert!(quality_loss("magic").is_none() && softening("stone").is_none());
    }

    #[test]
    fn the_z_value_of_carrots_follows_from_their_activation_energy() {
        let carrot = softening("carrot").unwrap();
        assert!((carrot.z.kelvin() - 16.8).abs() < 0.1);
        assert!((carrot.basis().reference.celsius() - 100.0).abs() < 1e-9);
    }
}
