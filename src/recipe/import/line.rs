//! An ingredient as one line of text, such as "2 large ripe pears, peeled", into its parts.

use std::collections::BTreeMap;

use crate::knowledge::{Kind, Knowledge, folded};
use crate::quantity::{Dimension, Measures, parse_amount};

/// The longest amount in words: "2 kg to 3 kg".
const LONGEST_AMOUNT: usize = 6;
/// How many near foods are offered.
const OFFERED: usize = 3;
/// Words for small numbers, as recipes write them.
const NUMBERS: [(&str, &str); 14] = [
    ("a", "1"),
    ("an", "1"),
    ("one", "1"),
    ("two", "2"),
    ("three", "3"),
    ("four", "4"),
    ("five", "5"),
    ("six", "6"),
    ("seven", "7"),
    ("eight", "8"),
    ("nine", "9"),
    ("ten", "10"),
    ("twelve", "12"),
    ("half", "1/2"),
];
/// Words that describe a food without making it another one: size, state, cut, origin.
const DESCRIBING: [&str; 38] = [
    "large",
    "small",
    "medium",
    "medium-sized",
    "big",
    "whole",
    "ripe",
    "fresh",
    "freshly",
    "organic",
    "free-range",
    "good",
    "good-quality",
    "best",
    "raw",
    "cold",
    "ice-cold",
    "warm",
    "hot",
    "chilled",
    "frozen",
    "softened",
    "melted",
    "soft",
    "chopped",
    "finely",
    "roughly",
    "coarsely",
    "thinly",
    "sliced",
    "diced",
    "grated",
    "peeled",
    "squeezed",
    "washed",
    "pitted",
    "stoned",
    "cored",
];
/// Words for a part of a food, of which nobody knows what it weighs: "2 cloves of garlic".
const PORTIONS: [&str; 22] = [
    "pinch", "pinches", "clove", "cloves", "stalk", "stalks", "stick", "sticks", "sprig", "sprigs",
    "handful", "handfuls", "slice", "slices", "knob", "bunch", "bunches", "dash", "splash",
    "drizzle", "tin", "can",
];
/// Words between an amount and its food.
const JOINING: [&str; 6] = ["of", "x", "×", "the", "a", "an"];

/// A line, taken apart.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Line {
    /// The amount as a recipe file takes it; `None` when the line has none.
    pub(super) amount: Option<String>,
    /// Id of the food; `None` when nothing goes by the words.
    pub(super) food: Option<String>,
    /// Whether the food is the usual meaning of words that may mean another.
    pub(super) is_assumed: bool,
    /// The words for the food.
    pub(super) words: String,
    /// What else the line says.
    pub(super) aside: String,
    /// Ids of foods that are spelt nearly so, when none was found.
    pub(super) near: Vec<String>,
}

/// Reads lines by the foods of a knowledge base.
pub(super) struct Lines<'a> {
    knowledge: &'a Knowledge,
    /// Ids by every name in plain letters; `None` when several foods go by it.
    foods: BTreeMap<String, Option<&'a str>>,
    /// Ids by the words that mean a food as a rule.
    aliases: BTreeMap<String, &'a str>,
}

impl<'a> Lines<'a> {
    pub(super) fn new(knowledge: &'a Knowledge) -> Self {
        let mut foods = BTreeMap::new();
        for (entry, names) in knowledge.entries() {
            if entry.kind != Kind::Food {
                continue;
            }
            for name in names.into_iter().chain([entry.id, entry.name]) {
                let known = foods.entry(folded(name)).or_insert(Some(entry.id));
                if *known != Some(entry.id) {
                    *known = None;
                }
            }
        }
        let aliases = knowledge
            .foods
            .values()
            .flat_map(|food| food.aliases.iter().map(|alias| (folded(alias), food.id.as_str())));
        Self { knowledge, foods, aliases: aliases.collect() }
    }

    /// Takes a line apart.
    pub(super) fn read(&self, line: &str) -> Line {
        let line = line.trim_start_matches(['•', '·', '*', '-', '–', ' ']);
        let (amount, rest) = amount(line);
        let (words, mut asides) = apart(rest);
        let amount = match &amount {
            // A mass in brackets says more than a volume before them.
            Some((written, true)) => match asides.iter().position(|aside| is_mass(aside)) {
                Some(at) => Some(std::mem::replace(&mut asides[at], written.clone())),
                None => Some(written.clone()),
            },
            other => other.as_ref().map(|(written, _)| written.clone()),
        };
        let (found, words, described) = match self.portion(words) {
            Some((portion, rest)) => {
                let (found, words, described) = self.food(rest);
                (found, words, format!("{portion} {described}").trim_end().to_owned())
            }
            None => self.food(words),
        };
        // What a clove or a pinch weighs is not known: the count of them is no amount.
        let is_portion = self.portion(apart(rest).0).is_some_and(|(_, rest)| !rest.is_empty());
        let counted = amount.filter(|amount| !(is_portion && amount.ends_with(" pieces")));
        if !described.is_empty() {
            asides.insert(0, described);
        }
        let (food, is_assumed) = found.map_or((None, false), |(id, assumed)| (Some(id), assumed));
        let near = if food.is_some() { Vec::new() } else { self.near(&words) };
        Line { amount: counted, food, is_assumed, words, aside: asides.join(", "), near }
    }

    /// Parts the word for a portion from the food, when that is known without it.
    fn portion<'w>(&self, words: &'w str) -> Option<(&'w str, &'w str)> {
        let is_portion = |word: &str| PORTIONS.contains(&word.to_lowercase().as_str());
        let (first, rest) = words.split_once(' ')?;
        let after = rest.strip_prefix("of ").unwrap_or(rest);
        let (last_rest, last) = words.rsplit_once(' ')?;
        let parted = match (is_portion(first), is_portion(last)) {
            (true, _) => (first, after),
            (_, true) => (last, last_rest),
            _ => return None,
        };
        (self.exactly(words).is_none() && self.food(parted.1).0.is_some()).then_some(parted)
    }

    /// Finds the food of some words; words that merely describe it are handed back apart.
    fn food(&self, words: &str) -> (Option<(String, bool)>, String, String) {
        let all: Vec<&str> = words.split_whitespace().collect();
        let describes = |word: &&str| DESCRIBING.contains(&word.to_lowercase().as_str());
        let (mut first, mut last) = (0, all.len());
        loop {
            let core = all[first..last].join(" ");
            if let Some(id) = self.exactly(&core) {
                let around: Vec<&str> = all[..first].iter().chain(&all[last..]).copied().collect();
                return (Some((id.0.to_owned(), id.1)), core, around.join(" "));
            }
            if last - first > 1 && describes(&all[first]) {
                first += 1;
            } else if last - first > 1 && describes(&all[last - 1]) {
                last -= 1;
            } else {
                return (None, all.join(" "), String::new());
            }
        }
    }

    /// Finds the one food of a name, in the singular or the plural, and says whether it is merely the
    /// usual meaning of the name.
    fn exactly(&self, name: &str) -> Option<(&'a str, bool)> {
        let name = folded(name);
        let singular = [
            name.strip_suffix("ies").map(|stem| format!("{stem}y")),
            name.strip_suffix("es").map(str::to_owned),
            name.strip_suffix('s').map(str::to_owned),
        ];
        let forms: Vec<String> = [Some(name)].into_iter().chain(singular).flatten().collect();
        let mut forms = forms.iter().filter(|form| !form.is_empty());
        forms
            .clone()
            .find_map(|form| Some((self.foods.get(form).copied()??, false)))
            .or_else(|| forms.find_map(|form| Some((self.aliases.get(form).copied()?, true))))
    }

    fn near(&self, words: &str) -> Vec<String> {
        let of = |words: &str| -> Vec<String> {
            let near = self.knowledge.near(words, usize::MAX);
            let foods = near.into_iter().filter(|entry| entry.kind == Kind::Food);
            foods.take(OFFERED).map(|entry| entry.id.to_owned()).collect()
        };
        let whole = of(words);
        if !whole.is_empty() {
            return whole;
        }
        words.split_whitespace().next_back().map(of).unwrap_or_default()
    }
}

/// Takes the amount off the start of a line, and says whether it is a volume.
fn amount(line: &str) -> (Option<(String, bool)>, &str) {
    let told = |(text, unit)| (text, unit == Some(Dimension::Volume));
    if let Some((word, rest)) = line.split_once(' ')
        && let Some((_, digit)) = NUMBERS.iter().find(|(name, _)| name.eq_ignore_ascii_case(word))
    {
        let spelt = format!("{digit} {rest}");
        let (found, left) = written_amount(&spelt);
        // "a pinch" counts nothing, but "a cup" and "two pears" do.
        let article = word.eq_ignore_ascii_case("a") || word.eq_ignore_ascii_case("an");
        let counts = found.as_ref().is_some_and(|(_, unit)| unit.is_some() || !article);
        if counts {
            return (found.map(told), &line[line.len() - left.len()..]);
        }
    }
    let (found, rest) = written_amount(line);
    (found.map(told), rest)
}

/// Takes an amount in figures off the start of a line, with its dimension; none is a count.
fn written_amount(line: &str) -> (Option<(String, Option<Dimension>)>, &str) {
    let ends: Vec<usize> = ends_of_words(line).take(LONGEST_AMOUNT).collect();
    for end in ends.iter().rev() {
        let written = line[..*end].trim_end_matches(['.', ',', ';']);
        for dimension in [Dimension::Mass, Dimension::Volume] {
            if parse_amount(written, dimension, Measures::Metric).is_ok() {
                return (Some((written.to_owned(), Some(dimension))), &line[*end..]);
            }
        }
    }
    for end in ends.iter().rev() {
        let written = &line[..*end];
        let number = parse_amount(written, Dimension::Fraction, Measures::Metric);
        let counts = number.is_ok_and(|number| number.low > 0.0 && number.unit.symbol.is_empty());
        if counts {
            return (Some((format!("{written} pieces"), None)), &line[*end..]);
        }
    }
    (None, line)
}

/// Returns where the words of a line end; a slash that joins two amounts ends one too.
fn ends_of_words(line: &str) -> impl Iterator<Item = usize> + '_ {
    let mut before = ' ';
    let mut ends = Vec::new();
    let signs: Vec<(usize, char)> = line.char_indices().collect();
    for (index, (at, sign)) in signs.iter().enumerate() {
        let digit_follows = signs.get(index + 1).is_some_and(|(_, next)| next.is_ascii_digit());
        let joins = matches!(sign, '/' | '|') && before.is_alphabetic() && digit_follows;
        if (sign.is_whitespace() && !before.is_whitespace()) || joins || *sign == '(' {
            ends.push(*at);
        }
        if ends.len() > LONGEST_AMOUNT {
            break;
        }
        before = *sign;
    }
    ends.push(line.len());
    ends.into_iter().filter(|end| *end > 0)
}

/// Parts the words for a food from what is said in brackets, after a comma, or as a second amount.
fn apart(rest: &str) -> (&str, Vec<String>) {
    let mut asides = Vec::new();
    let mut rest = rest.trim();
    loop {
        if let Some(inside) = rest.strip_prefix('(')
            && let Some((aside, after)) = inside.split_once(')')
        {
            asides.push(aside.trim().to_owned());
            rest = after.trim_start();
        } else if let Some(second) = rest.strip_prefix(['/', '|'])
            && let (Some((other, Some(_))), after) = written_amount(second.trim_start())
        {
            asides.push(other);
            rest = after.trim_start();
        } else if let Some((word, after)) = rest.split_once(' ')
            && JOINING.contains(&word.to_lowercase().as_str())
        {
            rest = after.trim_start();
        } else {
            break;
        }
    }
    let end = rest.find([',', ';', '(']).or_else(|| rest.find(" - ")).or_else(|| rest.find(" – "));
    if let Some(end) = end {
        let said = rest[end..].trim_matches([',', ';', '(', ')', '-', '–', ' ']);
        asides.push(said.to_owned());
        rest = rest[..end].trim_end();
    }
    asides.retain(|aside| !aside.is_empty());
    (rest, asides)
}

fn is_mass(text: &str) -> bool {
    parse_amount(text, Dimension::Mass, Measures::Metric).is_ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(line: &str) -> Line {
        Lines::new(&Knowledge::embedded().unwrap()).read(line)
    }

    #[test]
    fn amounts_are_taken_off_the_line() {
        let taken = |line| amount(line).0.map(|(text, _)| text);
        assert_eq!(taken("500 g pears").as_deref(), Some("500 g"));
        assert_eq!(taken("500g/1 lb 2 oz pears").as_deref(), Some("500g"));
        assert_eq!(taken("1 1/2 tbsp. sugar").as_deref(), Some("1 1/2 tbsp"));
        assert_eq!(taken("2-3 pears").as_deref(), Some("2-3 pieces"));
        assert_eq!(taken("two pears").as_deref(), Some("2 pieces"));
        assert_eq!(taken("a pinch of salt"), None);
        assert_eq!(taken("a cup of milk").as_deref(), Some("1 cup"));
        assert_eq!(taken("70% chocolate"), None);
        assert_eq!(taken("salt"), None);
        assert_eq!(taken("½ cup milk").as_deref(), Some("½ cup"));
    }

    #[test]
    fn a_line_is_taken_apart_and_nothing_is_lost() {
        let line = read("2 large ripe tomatoes (about 300 g), peeled");
        assert_eq!(line.amount.as_deref(), Some("2 pieces"));
        assert_eq!(line.food.as_deref(), Some("tomato"));
        for word in ["large", "ripe", "about 300 g", "peeled"] {
            assert!(line.aside.contains(word), "{word}: {}", line.aside);
        }
    }

    #[test]
    fn a_mass_in_brackets_counts_before_a_volume() {
        let line = read("2 cups (400 g) sugar");
        assert_eq!(line.amount.as_deref(), Some("400 g"));
        assert!(line.aside.contains("2 cups"));
    }

    #[test]
    fn a_common_word_is_taken_for_its_usual_food_and_says_so() {
        for (line, id) in [
            ("100 g sugar", "caster-sugar"),
            ("1 tbsp oil", "sunflower-oil"),
            ("2 red onions", "onion"),
            ("5 g sea salt", "salt"),
        ] {
            let read = read(line);
            assert_eq!((read.food.as_deref(), read.is_assumed), (Some(id), true), "{line}");
        }
        assert!(!read("100 g butter").is_assumed);
    }

    #[test]
    fn a_portion_is_no_amount() {
        for (line, id) in [("1 pinch of salt", "salt"), ("2 cloves garlic", "garlic")] {
            let read = read(line);
            assert_eq!((read.food.as_deref(), read.amount), (Some(id), None), "{line}");
        }
        assert_eq!(read("5 g cloves").food.as_deref(), Some("clove"));
    }

    #[test]
    fn an_unknown_food_keeps_its_words_and_offers_near_ones() {
        let line = read("100 g tomatto");
        assert_eq!((line.food, line.words.as_str()), (None, "tomatto"));
        assert!(line.near.contains(&"tomato".to_owned()), "{:?}", line.near);
        assert_eq!(read("to taste").food, None);
        assert_eq!(read("").words, "");
    }
}
