//! Names that look like brands: capitalised words that are neither places, people of science nor
//! germs.
//!
//! Names and synonyms are written small, so any capitalised word in them is looked at; in sentences
//! the first word of each is passed over. Words of capitals and digits are units and abbreviations.

/// Capitalised words with a place in generic names: peoples and places, people after whom a law or
/// a method is called, germs by their Latin names.
const PROPER_NOUNS: &[&str] = &[
    "American",
    "Arrhenius",
    "Belgian",
    "Bostwick",
    "Brazil",
    "British",
    "Brix",
    "Brussels",
    "Büchner",
    "Buchner",
    "Celsius",
    "Chinese",
    "Clostridium",
    "Cornish",
    "Darcy",
    "Dutch",
    "English",
    "European",
    "Fahrenheit",
    "Florence",
    "French",
    "German",
    "Greek",
    "Henry",
    "Hungarian",
    "Indian",
    "Irish",
    "Italian",
    "Japanese",
    "Jerusalem",
    "Kelvin",
    "Korean",
    "Lebanese",
    "Listeria",
    "Maillard",
    "Maldivian",
    "Mexican",
    "Norwegian",
    "Page",
    "Pascal",
    "Persian",
    "Petri",
    "Polish",
    "Portuguese",
    "Rayleigh",
    "Russian",
    "Salmonella",
    "Savoy",
    "Scotch",
    "Scottish",
    "Seville",
    "Spanish",
    "Stokes",
    "Swedish",
    "Swiss",
    "Thai",
    "Turkish",
    "Vietnamese",
    "Worcester",
];
/// Signs that only brands carry.
const MARKS: [char; 2] = ['®', '™'];

/// Returns the first word of a name or synonym that looks like a brand.
pub(super) fn in_name(name: &str) -> Option<&str> {
    words(name).find(|word| looks_like_brand(word))
}

/// Returns the first word of a sentence or more that looks like a brand.
pub(super) fn in_prose(text: &str) -> Option<&str> {
    let mut starts_sentence = true;
    for word in text.split_whitespace() {
        let bare = word.trim_matches(|c: char| !is_part_of_word(c));
        if looks_like_brand(bare) && (!starts_sentence || bare.contains(MARKS)) {
            return Some(bare);
        }
        starts_sentence = word.ends_with(['.', '?', '!', ':']);
    }
    None
}

/// The words of a name; brackets, commas and hyphens part them.
fn words(name: &str) -> impl Iterator<Item = &str> {
    name.split(|c: char| !is_part_of_word(c)).filter(|word| !word.is_empty())
}

fn is_part_of_word(c: char) -> bool {
    c.is_alphanumeric() || MARKS.contains(&c)
}

fn looks_like_brand(word: &str) -> bool {
    if word.contains(MARKS) {
        return true;
    }
    // "S" of "S-shaped" and "CO2" are no brands, "Xy" may be one.
    let first = word.split(|c: char| !c.is_alphanumeric()).next().unwrap_or_default();
    let is_capitalised = first.chars().next().is_some_and(char::is_uppercase);
    let is_abbreviation = !first.chars().any(char::is_lowercase);
    is_capitalised && !is_abbreviation && !PROPER_NOUNS.contains(&first)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn capitalised_words_in_names_are_found_and_proper_nouns_passed() {
        assert_eq!(in_name("stick blender by Mixwell"), Some("Mixwell"));
        assert_eq!(in_name("Mixwell"), Some("Mixwell"));
        assert_eq!(in_name("Brussels sprouts"), None);
        assert_eq!(in_name("CO2 chargers"), None);
        assert_eq!(in_name("(E,Z)-2,6-nonadienal"), None);
    }

    #[test]
    fn the_first_word_of_a_sentence_is_passed_over() {
        assert_eq!(in_prose("A blade in a bell. Warm it first."), None);
        assert_eq!(in_prose("Runs like a Mixwell."), Some("Mixwell"));
        assert_eq!(in_prose("Mixwell® is best."), Some("Mixwell®"));
        assert_eq!(in_prose("An S-shaped blade; Listeria dies."), None);
    }
}
