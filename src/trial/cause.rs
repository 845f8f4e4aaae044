//! Causes of failed adaptations, by number.
//!
//! The list is common practice of recipe testing, put in our own words; a record names a cause by its
//! number, so that causes can be counted over a book.

/// The causes; the first is number 1.
pub const CAUSES: [&str; 25] = [
    "pan of another width than the recipe's",
    "altitude lowered the boiling point",
    "boiled down by the clock and not by weight",
    "carried-over heat went past the core temperature",
    "yield fell short",
    "wrong cup, spoon or ounce",
    "endpoint could be read in two ways",
    "oven or ring differs from its dial",
    "ingredient stronger, weaker or wetter than usual",
    "safety step went with the equipment",
    "vacuum flavour expected from a boil",
    "alcohol taken to be gone",
    "batch size changed heating or cooling",
    "froze too slowly, coarse ice",
    "blender too weak, too full or too warm",
    "haze left where a centrifuge would have cleared",
    "bath or box drifted from its temperature",
    "cooled too slowly after cooking",
    "acidity taken for granted, not measured",
    "no air, little acid and too long kept",
    "softened by the damp of the room",
    "gelling agent of another strength",
    "salt measured by volume",
    "a part of the recipe left out or never used",
    "waiting time not foreseen",
];

/// Returns the words for a cause by its number, from 1.
pub fn words(number: i64) -> Option<&'static str> {
    let index = usize::try_from(number).ok()?.checked_sub(1)?;
    CAUSES.get(index).copied()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_count_from_one() {
        assert_eq!(words(2), Some("altitude lowered the boiling point"));
        assert_eq!(words(25), Some("waiting time not foreseen"));
        assert!(words(0).is_none() && words(26).is_none() && words(-1).is_none());
    }
}
