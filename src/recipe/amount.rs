//! Amounts of ingredients: mass as written, or from a volume or a count.

use crate::finding::Code;
use crate::knowledge::written::{Spanned, Text};
use crate::knowledge::{Food, Shares};
use crate::physics::food_thermal::Component;
use crate::physics::{PhysicsError, ethanol_water};
use crate::quantity::{Density, Dimension, Mass, Temperature, parse_amount};
use crate::reader::{ABOVE_ZERO, Bounds, Reader};

/// The US customary cup \[m³\], to which `cup_mass` of a food refers: NIST Handbook 44, appendix C.
const US_CUP: f64 = 236.588_236_5e-6;
/// The temperature at which volumes are measured.
const MEASURED_AT: Temperature = Temperature::from_celsius(20.0);
/// Words that may follow a count.
const PIECES: [&str; 6] = ["pieces", "piece", "pcs", "pc", "whole", ""];
/// Groups of foods that are poured, so that their density follows from their composition.
const POURED: [&str; 7] = ["juice", "drink", "dairy", "plant milk", "stock", "puree", "fat"];
/// A poured food holds at least this share of water and ethanol, or of fat; cheese does not.
const POURED_SHARE: f64 = 0.6;
/// Counts of pieces.
const COUNT: Bounds = Bounds::new(Dimension::Fraction, ABOVE_ZERO, 1e5, "a count is above zero");

/// Reads the amount of a food as a mass; `None` after a finding.
pub(super) fn mass(
    text: &Text,
    food: &Food,
    shares: &Shares,
    reader: &mut Reader<'_>,
) -> Option<Mass> {
    let written = text.get_ref();
    let reads = |dimension| parse_amount(written, dimension, reader.measures()).is_ok();
    if reads(Dimension::Mass) {
        return Some(Mass::from_si(reader.amount("`amount`", text, Dimension::Mass)?.middle()));
    }
    if reads(Dimension::Volume) {
        let volume = reader.amount("`amount`", text, Dimension::Volume)?.middle();
        return Some(Mass::from_si(volume * poured_density(text, food, shares, reader)?.si()));
    }
    if let Some(number) = count(written) {
        let number = Spanned::new(text.span(), number);
        let pieces = reader.within("`amount`", &number, &COUNT)?.middle();
        return Some(Mass::from_si(pieces * piece_mass(text, food, reader)?));
    }
    let message = format!("`{written}` is not a mass, a volume or a count");
    let help = "write \"3 kg\", \"2 cups\" or \"3 pieces\"".to_owned();
    reader.error(Code::Amount, text.span(), message, help);
    None
}

/// Returns the number of a count such as "3 pieces" as text.
fn count(written: &str) -> Option<String> {
    let number = written.trim_end_matches(|c: char| c.is_alphabetic()).trim_end();
    let word = written.get(number.len()..)?.trim().to_lowercase();
    let starts = number.starts_with(|c: char| !c.is_alphabetic());
    (PIECES.contains(&word.as_str()) && starts && !number.contains('%')).then(|| number.to_owned())
}

fn piece_mass(text: &Text, food: &Food, reader: &mut Reader<'_>) -> Option<f64> {
    let stated = food.values.get("piece_mass").map(|value| value.typical());
    if stated.is_none() {
        let message = format!("the mass of one {} is not known", food.name);
        reader.error(Code::Amount, text.span(), message, "give the mass instead".to_owned());
    }
    stated
}

/// Returns the density of a food as it is measured out: stated, by the cup, or by composition; `None`
/// when none of them is known.
pub fn known_density(food: &Food, shares: &Shares) -> Option<Density> {
    if let Some(density) = food.values.get("density") {
        return Some(Density::from_si(density.typical()));
    }
    if let Some(cup) = food.values.get("cup_mass") {
        return Some(Density::from_si(cup.typical() / US_CUP));
    }
    is_poured(food, shares).then(|| density(shares).ok()).flatten()
}

/// Returns whether a food is poured rather than cut or scooped.
pub fn is_poured(food: &Food, shares: &Shares) -> bool {
    let flows = (shares.water + shares.ethanol).max(shares.fat) >= POURED_SHARE;
    flows && POURED.contains(&food.group.as_str())
}

/// As [`known_density`], with a finding when it is not known.
fn poured_density(
    text: &Text,
    food: &Food,
    shares: &Shares,
    reader: &mut Reader<'_>,
) -> Option<Density> {
    let known = known_density(food, shares);
    if known.is_none() {
        let message = format!("how much a volume of {} weighs is not known", food.name);
        reader.error(Code::Amount, text.span(), message, "give the mass instead".to_owned());
    }
    known
}

/// Adds the volumes of the components; water and ethanol count as their mixture.
fn density(shares: &Shares) -> Result<Density, PhysicsError> {
    let carbohydrate = shares.sugars + shares.starch + shares.acid + shares.other;
    let solids = [
        (Component::Carbohydrate, carbohydrate),
        (Component::Fibre, shares.fibre),
        (Component::Protein, shares.protein),
        (Component::Fat, shares.fat),
        (Component::Ash, shares.salt),
    ];
    let mut volume = 0.0;
    for (component, share) in solids {
        volume += share / component.density(MEASURED_AT)?.si();
    }
    let liquid = shares.water + shares.ethanol;
    if liquid > 0.0 {
        volume += liquid / ethanol_water::density(shares.ethanol / liquid, MEASURED_AT)?.si();
    }
    Ok(Density::from_si(1.0 / volume))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sugar_solution_has_nearly_its_published_density() {
        // From memory: ICUMSA SPS-4: 1 046 kg/m³ at 12 % sucrose and 20 °C (1046.4).
        let shares = Shares { water: 0.88, sugars: 0.12, ..Shares::default() };
        assert!((density(&shares).unwrap().si() - 1046.4).abs() < 5.0);
    }

    #[test]
    fn counts_are_told_from_other_words() {
        assert_eq!(count("3 pieces").as_deref(), Some("3"));
        assert_eq!(count("½ piece").as_deref(), Some("½"));
        assert_eq!(count("3").as_deref(), Some("3"));
        assert_eq!(count("3 bananas"), None);
        assert_eq!(count("pieces"), None);
        assert_eq!(count("10 %"), None);
    }
}
