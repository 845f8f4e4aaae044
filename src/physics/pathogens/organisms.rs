//! Heat resistance of named organisms.

use super::Checked;
use crate::physics::PhysicsError;
use crate::physics::heat_kinetics::{DecimalReduction, EquivalentTime, Segment};
use crate::quantity::{Temperature, TemperatureDifference, Time};

/// The heat resistance of one organism in one food.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Organism {
    /// Name in kebab case.
    pub name: &'static str,
    /// Organism and food, in plain words.
    pub description: &'static str,
    /// D at the reference temperature, with z at and above it.
    pub reduction: DecimalReduction,
    /// z below the reference temperature, where it differs.
    pub z_below: Option<TemperatureDifference>,
    /// Publication.
    pub source: &'static str,
    /// Whether it was read.
    pub checked: Checked,
}

const fn entry(
    (name, description): (&'static str, &'static str),
    (d_seconds, celsius, z): (f64, f64, f64),
    (source, checked): (&'static str, Checked),
) -> Organism {
    let basis = EquivalentTime {
        reference: Temperature::from_celsius(celsius),
        z: TemperatureDifference::from_kelvin(z),
    };
    let reduction = DecimalReduction { d_reference: Time::from_seconds(d_seconds), basis };
    Organism { name, description, reduction, z_below: None, source, checked }
}

/// z of the spores of non-proteolytic C. botulinum below 90 °C \[K\]: ACMSF, Report on Vacuum
/// Packaging and Associated Processes, 1992 (from memory); the FSA table of equivalent times agrees.
const BOTULINUM_Z_BELOW: f64 = 9.0;

/// z of Salmonella in chicken below 62.2 °C \[K\]: USDA FSIS poultry tables 2005, 81.4 min at 57.8 °C
/// and 16.6 min at 62.2 °C; above, 16.9 s at 71.1 °C give 5.03 K.
const POULTRY_Z_BELOW: f64 = 6.37;

/// Organisms: D \[s\] at the reference \[°C\], z \[K\].
pub const ORGANISMS: &[Organism] = &[
    entry(
        (
            "salmonella-beef",
            "Salmonella in cooked beef: 6.5 log in 112 min at 54.4 °C, tenfold per 10 °F",
        ),
        (112.0 * 60.0 / 6.5, 54.4, 50.0 / 9.0),
        ("USDA FSIS, Appendix A, Compliance guidelines for lethality, 1999", Checked::Read),
    ),
    Organism {
        z_below: Some(TemperatureDifference::from_kelvin(POULTRY_Z_BELOW)),
        ..entry(
            (
                "salmonella-poultry",
                "Salmonella in chicken of 12 % fat: 7 log in 16.6 min at 62.2 °C",
            ),
            (16.6 * 60.0 / 7.0, 62.2, 5.03),
            (
                "USDA FSIS, Time-temperature tables for cooking ready-to-eat poultry products, 2005",
                Checked::Read,
            ),
        )
    },
    entry(
        ("salmonella-broth", "Salmonella, eight serotypes, in chicken broth; meat protects more"),
        (1.30 * 60.0, 60.0, 6.5),
        (
            "Juneja et al., J. Food Science 66, 2001 (abstract); z from D at 55 and 62 °C",
            Checked::Read,
        ),
    ),
    entry(
        ("salmonella-yolk", "Salmonella in liquid egg yolk"),
        (0.69 * 60.0, 60.0, 4.7),
        (
            "Inactivation model for Salmonella in liquid egg yolk (abstract); D60 0.69 min",
            Checked::Read,
        ),
    ),
    entry(
        ("salmonella-whole-egg", "Salmonella in liquid whole egg: 5 log in 3.1 min at 60 °C"),
        (3.1 * 60.0 / 5.0, 60.0, 4.2),
        (
            "Heat resistance of Salmonella in whole liquid egg, J. Food Protection, c. 2020 (abstract)",
            Checked::Read,
        ),
    ),
    entry(
        ("listeria", "Listeria monocytogenes in chilled food: 6 log in 2 min at 70 °C"),
        (20.0, 70.0, 7.5),
        (
            "UK Food Standards Agency and ACMSF, cooking equivalents of 70 °C for 2 min, z 7.5 K",
            Checked::Read,
        ),
    ),
    entry(
        ("e-coli-beef", "E. coli O157:H7 in ground beef"),
        (0.93 * 60.0, 62.5, 6.0),
        ("Juneja, Snyder & Marmer, Int. J. Food Microbiology 35, 1997", Checked::Memory),
    ),
    entry(
        ("e-coli-poultry", "E. coli O157:H7 in chicken: D 1.63 min at 60 °C, 0.36 min at 65 °C"),
        (1.63 * 60.0, 60.0, 7.62),
        ("Juneja, Snyder & Marmer, Int. J. Food Microbiology 35, 1997", Checked::Memory),
    ),
    entry(
        ("e-coli-juice", "E. coli O157:H7 in apple juice"),
        (18.0 * 60.0, 52.0, 4.8),
        (
            "Splittstoesser, McLellan & Churey, J. Food Protection 59:226, 1996 (abstract)",
            Checked::Read,
        ),
    ),
    entry(
        ("perfringens-beef", "growing cells of C. perfringens in ground beef, not its spores"),
        (5.3 * 60.0, 60.0, 6.5),
        (
            "Juneja & Marmer, Food Microbiology 15:281, 1998 (abstract); z 6.22 to 6.77 K",
            Checked::Read,
        ),
    ),
    entry(
        ("coxiella-milk", "Coxiella burnetii in milk: the basis of milk pasteurisation"),
        (2.0, 72.0, 4.9),
        ("basis of 72 °C for 15 s; D and z after Enright et al., 1957", Checked::Memory),
    ),
    Organism {
        z_below: Some(TemperatureDifference::from_kelvin(BOTULINUM_Z_BELOW)),
        ..entry(
            (
                "botulinum-chilled",
                "spores of non-proteolytic C. botulinum: 6 log in 10 min at 90 °C",
            ),
            (100.0, 90.0, 10.0),
            (
                "ACMSF 1992 and UK FSA table of equivalent times for 10-day rule foods",
                Checked::Read,
            ),
        )
    },
    entry(
        ("botulinum-canned", "spores of proteolytic C. botulinum: tested canning procedures only"),
        (0.21 * 60.0, 121.1, 10.0),
        ("Stumbo, Thermobacteriology in Food Processing, 2nd ed. 1973", Checked::Memory),
    ),
    entry(
        ("stearothermophilus", "spores of Geobacillus stearothermophilus, a test organism"),
        (150.0, 121.1, 10.0),
        ("Stumbo, Thermobacteriology in Food Processing, 2nd ed. 1973", Checked::Memory),
    ),
    entry(
        ("bacillus-cereus", "spores of Bacillus cereus, the upper end of the usual strains"),
        (7.5 * 60.0, 100.0, 10.0),
        ("ICMSF, Microorganisms in Foods 5, 1996", Checked::Memory),
    ),
];

/// Finds an organism by name.
///
/// # Source
/// [`ORGANISMS`].
pub fn organism(name: &str) -> Option<&'static Organism> {
    ORGANISMS.iter().find(|organism| organism.name == name)
}

impl Organism {
    /// Returns D and z that hold on one side of the reference temperature.
    ///
    /// # Units
    /// D \[s\], z \[K\].
    ///
    /// # Validity
    /// As [`DecimalReduction::at`].
    ///
    /// # Source
    /// The record's own.
    pub fn reduction_at(&self, temperature: Temperature) -> DecimalReduction {
        let basis = self.reduction.basis;
        match self.z_below {
            Some(z) if temperature < basis.reference => {
                DecimalReduction { basis: EquivalentTime { z, ..basis }, ..self.reduction }
            }
            _ => self.reduction,
        }
    }

    /// Returns the decimal reductions over a profile.
    ///
    /// A ramp across the reference temperature is cut there when z differs below it.
    ///
    /// # Units
    /// A plain number.
    ///
    /// # Validity
    /// As [`DecimalReduction::of_profile`].
    ///
    /// # Errors
    /// As [`DecimalReduction::of_profile`].
    ///
    /// # Source
    /// As [`DecimalReduction::of_profile`].
    pub fn reductions(&self, profile: &[Segment]) -> Result<f64, PhysicsError> {
        let reference = self.reduction.basis.reference;
        let mut sum = 0.0;
        for segment in profile {
            let (low, high) = (segment.from.min(segment.to), segment.from.max(segment.to));
            if self.z_below.is_none() || high <= reference || low >= reference {
                sum += self.reduction_at(low).of_profile(&[*segment])?;
                continue;
            }
            let share = (reference - low) / (high - low);
            let below = Segment { from: low, to: reference, time: segment.time * share };
            let above = Segment { from: reference, to: high, time: segment.time * (1.0 - share) };
            sum += self.reduction_at(low).of_profile(&[below])?;
            sum += self.reduction.of_profile(&[above])?;
        }
        Ok(sum)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_organism_is_found_and_names_its_source() {
        for entry in ORGANISMS {
            assert_eq!(organism(entry.name), Some(entry));
            assert!(!entry.source.is_empty() && entry.reduction.d_reference.seconds() > 0.0);
        }
        assert!(organism("yeti").is_none());
    }

    #[test]
    fn a_ramp_across_the_reference_uses_both_z_values() {
        let spores = organism("botulinum-chilled").unwrap();
        let celsius = Temperature::from_celsius;
        let time = Time::from_minutes(20.0);
        let up = Segment { from: celsius(80.0), to: celsius(100.0), time };
        let whole = spores.reductions(&[up]).unwrap();
        let halves = [
            Segment { from: celsius(80.0), to: celsius(90.0), time: time * 0.5 },
            Segment { from: celsius(90.0), to: celsius(100.0), time: time * 0.5 },
        ];
        assert!((whole / spores.reductions(&halves).unwrap() - 1.0).abs() < 1e-12);
        assert!(whole < spores.reduction.of_profile(&[up]).unwrap());
        assert!(spores.reductions(&[Segment::hold(celsius(170.0), time)]).is_err());
    }
}
