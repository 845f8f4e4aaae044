//! What a recipe states of an ingredient's composition, over that of the food as listed.
//!
//! Stated parts take their stated share and all others keep their proportions. Degrees Brix are
//! read as a refractometer does: dissolved solids in the liquid, without fat, protein, starch and
//! fibre.

use crate::finding::{Code, suggestion};
use crate::knowledge::{Food, Shares};
use crate::physics::ethanol_water::mass_fraction_of_strength;
use crate::reader::{BRIX, Reader, SHARE, STRENGTH};

use super::written::WrittenIngredient;

/// The parts by name, in the order of [`parts`].
const NAMES: [&str; 10] =
    ["water", "sugars", "starch", "fibre", "protein", "fat", "acid", "salt", "ethanol", "other"];
const WATER: usize = 0;
const SUGARS: usize = 1;
const FAT: usize = 5;
const ETHANOL: usize = 8;
/// Parts that dissolve in water.
const DISSOLVED: [usize; 4] = [1, 6, 7, 9];
/// Parts that do not.
const INSOLUBLE: [usize; 4] = [2, 3, 4, 5];
/// Stated parts may exceed the whole by rounding.
const SLACK: f64 = 1e-6;

fn parts(shares: &Shares) -> [f64; 10] {
    [
        shares.water,
        shares.sugars,
        shares.starch,
        shares.fibre,
        shares.protein,
        shares.fat,
        shares.acid,
        shares.salt,
        shares.ethanol,
        shares.other,
    ]
}

fn shares(parts: [f64; 10]) -> Shares {
    let [water, sugars, starch, fibre, protein, fat, acid, salt, ethanol, other] = parts;
    Shares { water, sugars, starch, fibre, protein, fat, acid, salt, ethanol, other }
}

/// Returns the composition of an ingredient; `None` after a finding.
pub(super) fn stated(
    written: &WrittenIngredient,
    food: &Food,
    reader: &mut Reader<'_>,
) -> Option<Shares> {
    let fixed = fixed_parts(written, reader)?;
    let brix = match &written.brix {
        Some(text) => Some(reader.within("`brix`", text, &BRIX)?.middle()),
        None => None,
    };
    let mixed = fill(parts(&food.shares), &fixed).and_then(|parts| match brix {
        Some(brix) => dissolve(parts, &fixed, brix),
        None => Ok(parts),
    });
    match mixed {
        Ok(parts) => Some(shares(parts)),
        Err(message) => {
            let help = "the parts of a food add to 100 %".to_owned();
            reader.error(Code::Composition, written.id.span(), message, help);
            None
        }
    }
}

/// Returns a composition with the dissolved solids that were measured in its liquid; water makes room
/// for them. `None` when its other parts leave no room.
pub fn at_brix(composition: &Shares, brix: f64) -> Option<Shares> {
    dissolve(parts(composition), &[None; 10], brix).ok().map(shares)
}

/// Reads the parts that the recipe states; `None` after a finding.
fn fixed_parts(written: &WrittenIngredient, reader: &mut Reader<'_>) -> Option<[Option<f64>; 10]> {
    let mut fixed = [None; 10];
    let mut sound = true;
    for (name, text) in &written.composition {
        let Some(part) = NAMES.iter().position(|known| *known == name.get_ref()) else {
            let message = format!("a food has no part `{}`", name.get_ref());
            let help = suggestion(name.get_ref(), &NAMES);
            reader.error(Code::UnknownKey, name.span(), message, help);
            sound = false;
            continue;
        };
        let amount = reader.within(&format!("`{}`", name.get_ref()), text, &SHARE);
        sound &= amount.is_some();
        fixed[part] = amount.map(|amount| amount.middle());
    }
    if let Some(text) = &written.fat {
        let amount = reader.within("`fat`", text, &SHARE);
        sound &= amount.is_some();
        fixed[FAT] = amount.map(|amount| amount.middle());
    }
    if let Some(text) = &written.strength {
        let amount = reader.within("`strength`", text, &STRENGTH);
        let share = amount.and_then(|amount| mass_fraction_of_strength(amount.middle()).ok());
        sound &= share.is_some();
        fixed[ETHANOL] = share;
    }
    sound.then_some(fixed)
}

/// Puts the stated parts in place and scales the others to fill what is left.
fn fill(mut parts: [f64; 10], fixed: &[Option<f64>; 10]) -> Result<[f64; 10], String> {
    let stated: f64 = fixed.iter().flatten().sum();
    if stated > 1.0 + SLACK {
        return Err(format!("the stated parts add to {:.1} %", 100.0 * stated));
    }
    let free = |part: usize| fixed[part].is_none();
    let others: f64 = (0..parts.len()).filter(|part| free(*part)).map(|part| parts[part]).sum();
    let left = (1.0 - stated).max(0.0);
    if others <= 0.0 && left > SLACK && !free(WATER) {
        return Err(format!("the stated parts add to {:.1} % only", 100.0 * stated));
    }
    for part in 0..parts.len() {
        parts[part] = match fixed[part] {
            Some(share) => share,
            None if others > 0.0 => parts[part] * left / others,
            None if part == WATER => left,
            None => 0.0,
        };
    }
    Ok(parts)
}

/// Sets the dissolved solids of the liquid; water makes room for them.
fn dissolve(
    mut parts: [f64; 10],
    fixed: &[Option<f64>; 10],
    brix: f64,
) -> Result<[f64; 10], String> {
    if fixed[WATER].is_some() {
        return Err("`brix` and `water` are both stated".to_owned());
    }
    let liquid = 1.0 - INSOLUBLE.iter().map(|part| parts[*part]).sum::<f64>();
    let wanted = brix * liquid;
    let held: f64 = DISSOLVED.iter().filter_map(|part| fixed[*part]).sum();
    let free: Vec<usize> = DISSOLVED.into_iter().filter(|part| fixed[*part].is_none()).collect();
    let others: f64 = free.iter().map(|part| parts[*part]).sum();
    let water = liquid - wanted - parts[ETHANOL];
    if held > wanted + SLACK || water < 0.0 || (free.is_empty() && held + SLACK < wanted) {
        return Err(format!("{:.1} °Brix and the stated parts exclude each other", 100.0 * brix));
    }
    for part in free {
        parts[part] = if others > 0.0 {
            parts[part] * (wanted - held).max(0.0) / others
        } else if part == SUGARS {
            (wanted - held).max(0.0)
        } else {
            0.0
        };
    }
    parts[WATER] = water;
    Ok(parts)
}

#[cfg(test)]
mod tests {
    use super::*;

    const JUICE: Shares = Shares {
        water: 0.88,
        sugars: 0.09,
        starch: 0.0,
        fibre: 0.01,
        protein: 0.005,
        fat: 0.0,
        acid: 0.005,
        salt: 0.0,
        ethanol: 0.0,
        other: 0.01,
    };

    fn total(parts: &[f64; 10]) -> f64 {
        parts.iter().sum()
    }

    fn refractometer(parts: &[f64; 10]) -> f64 {
        let solutes: f64 = DISSOLVED.iter().map(|part| parts[*part]).sum();
        solutes / (solutes + parts[WATER] + parts[ETHANOL])
    }

    #[test]
    fn stated_brix_is_what_a_refractometer_reads() {
        for brix in [0.0, 0.05, 0.12, 0.6, 0.85] {
            let mixed = dissolve(parts(&JUICE), &[None; 10], brix).unwrap();
            assert!((refractometer(&mixed) - brix).abs() < 1e-12);
            assert!((total(&mixed) - 1.0).abs() < 1e-12);
            assert!((mixed[3] - 0.01).abs() < 1e-12);
        }
    }

    #[test]
    fn stated_parts_take_their_share_and_the_rest_keeps_its_proportions() {
        let mut fixed = [None; 10];
        fixed[FAT] = Some(0.35);
        let mixed = fill(parts(&JUICE), &fixed).unwrap();
        assert!((mixed[FAT] - 0.35).abs() < 1e-12 && (total(&mixed) - 1.0).abs() < 1e-12);
        assert!((mixed[WATER] / mixed[SUGARS] - 0.88 / 0.09).abs() < 1e-9);
    }

    #[test]
    fn parts_that_exclude_each_other_are_refused() {
        let mut fixed = [None; 10];
        fixed[SUGARS] = Some(0.4);
        let mixed = fill(parts(&JUICE), &fixed).unwrap();
        assert!(dissolve(mixed, &fixed, 0.1).is_err());
        fixed[FAT] = Some(0.7);
        assert!(fill(parts(&JUICE), &fixed).is_err());
        fixed = [None; 10];
        fixed[WATER] = Some(0.5);
        assert!(dissolve(parts(&JUICE), &fixed, 0.1).is_err());
    }

    #[test]
    fn a_measured_strength_takes_the_place_of_the_usual_one() {
        let measured = at_brix(&JUICE, 0.15).unwrap();
        assert!((refractometer(&parts(&measured)) - 0.15).abs() < 1e-12);
        assert!((total(&parts(&measured)) - 1.0).abs() < 1e-12);
        assert_eq!(at_brix(&JUICE, 1.01), None);
    }
}
