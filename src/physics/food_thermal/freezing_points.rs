//! Published initial freezing points of foods.

use crate::quantity::Temperature;

/// The initial freezing point of one food.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PublishedFreezingPoint {
    /// Name of the food in kebab case.
    pub food: &'static str,
    /// Initial freezing point.
    pub temperature: Temperature,
    /// Whether the value was read in a copy of the table; otherwise it is from memory of it.
    pub read: bool,
}

const READ: bool = true;
const MEMORY: bool = false;

const fn row(food: &'static str, celsius: f64, read: bool) -> PublishedFreezingPoint {
    PublishedFreezingPoint { food, temperature: Temperature::from_celsius(celsius), read }
}

/// Initial freezing points by food, in alphabetical order.
///
/// # Source
/// ASHRAE Handbook of Refrigeration 2006, chapter 9, table 3; rows marked `MEMORY` are from memory
/// of that table and not checked against a copy.
pub const FREEZING_POINTS: &[PublishedFreezingPoint] = &[
    row("apple-with-skin", -1.1, READ),
    row("apricot", -1.1, READ),
    row("artichoke", -1.2, READ),
    row("asparagus", -0.6, READ),
    row("aubergine", -0.8, READ),
    row("avocado", -0.3, MEMORY),
    row("banana", -0.8, READ),
    row("beef-carcass", -2.2, READ),
    row("beef-sirloin-lean", -1.7, READ),
    row("beetroot", -1.1, READ),
    row("blackberry", -0.8, READ),
    row("blueberry", -1.6, READ),
    row("broccoli", -0.6, READ),
    row("brussels-sprout", -0.8, READ),
    row("butternut-squash", -0.8, MEMORY),
    row("cabbage", -0.9, READ),
    row("carrot", -1.4, READ),
    row("cauliflower", -0.8, READ),
    row("celeriac", -0.9, READ),
    row("celery", -0.5, READ),
    row("cheese-cheddar", -12.9, MEMORY),
    row("cheese-cottage", -1.2, MEMORY),
    row("cheese-roquefort", -16.3, MEMORY),
    row("cheese-swiss", -10.0, MEMORY),
    row("cherry-sour", -1.7, READ),
    row("cherry-sweet", -1.8, READ),
    row("chicken", -2.8, MEMORY),
    row("cod-atlantic", -2.2, READ),
    row("collards", -0.8, READ),
    row("courgette", -0.5, MEMORY),
    row("cranberry", -0.9, READ),
    row("cucumber", -0.5, READ),
    row("cucumber-with-peel", -0.5, READ),
    row("date-cured", -15.7, MEMORY),
    row("egg-white", -0.6, MEMORY),
    row("egg-whole", -0.6, MEMORY),
    row("egg-yolk", -0.6, MEMORY),
    row("endive", -0.1, READ),
    row("fig", -2.4, MEMORY),
    row("garlic", -0.8, READ),
    row("gooseberry", -1.1, MEMORY),
    row("grape-table", -2.1, MEMORY),
    row("grapefruit", -1.1, MEMORY),
    row("green-bean", -0.7, READ),
    row("haddock", -2.2, READ),
    row("halibut", -2.2, READ),
    row("horseradish", -1.8, READ),
    row("ice-cream-vanilla", -5.6, MEMORY),
    row("jerusalem-artichoke", -2.5, READ),
    row("kale", -0.5, READ),
    row("kohlrabi", -1.0, READ),
    row("lamb", -1.9, MEMORY),
    row("leek", -0.7, READ),
    row("lemon", -1.4, MEMORY),
    row("lettuce-iceberg", -0.2, READ),
    row("lima-bean-fresh", -0.6, READ),
    row("lime", -1.6, MEMORY),
    row("lobster", -2.2, MEMORY),
    row("mackerel", -2.2, READ),
    row("mandarin", -1.1, MEMORY),
    row("mango", -0.9, MEMORY),
    row("melon-cantaloupe", -1.2, MEMORY),
    row("melon-honeydew", -0.9, MEMORY),
    row("milk-whole-cow", -0.6, MEMORY),
    row("mushroom-white", -0.9, READ),
    row("nectarine", -0.9, MEMORY),
    row("olive", -1.4, MEMORY),
    row("onion", -0.9, MEMORY),
    row("orange", -0.8, READ),
    row("papaya", -0.8, MEMORY),
    row("parsley", -1.1, MEMORY),
    row("parsnip", -0.9, MEMORY),
    row("pea-green", -0.6, READ),
    row("peach", -0.9, READ),
    row("pear", -1.6, READ),
    row("pepper-green", -0.7, MEMORY),
    row("persimmon", -2.2, MEMORY),
    row("pineapple", -1.0, MEMORY),
    row("plum", -0.8, MEMORY),
    row("pomegranate", -3.0, MEMORY),
    row("potato", -0.6, MEMORY),
    row("pumpkin", -0.8, MEMORY),
    row("quince", -2.0, MEMORY),
    row("radish", -0.7, MEMORY),
    row("raspberry", -0.6, READ),
    row("rhubarb", -0.9, MEMORY),
    row("salmon-pink", -2.2, READ),
    row("scallop", -2.2, MEMORY),
    row("shrimp", -2.2, MEMORY),
    row("spinach", -0.3, MEMORY),
    row("strawberry", -0.8, READ),
    row("swede", -1.1, MEMORY),
    row("sweet-potato", -1.3, MEMORY),
    row("sweetcorn", -0.6, READ),
    row("tomato", -0.5, MEMORY),
    row("turnip", -1.1, MEMORY),
    row("watercress", -0.3, MEMORY),
    row("watermelon", -0.4, MEMORY),
];

/// Names under which a food is found beside that of the table, both in the singular.
const OTHER_NAMES: &[(&str, &str)] = &[
    ("beet", "beetroot"),
    ("corn", "sweetcorn"),
    ("eggplant", "aubergine"),
    ("rutabaga", "swede"),
    ("snap-bean", "green-bean"),
    ("sweet-corn", "sweetcorn"),
    ("squash", "butternut-squash"),
    ("zucchini", "courgette"),
];

/// Finds the published initial freezing point of a food.
///
/// Case, blanks and a plural ending do not matter: "Green Beans" finds "green-bean", and "lettuce"
/// finds "lettuce-iceberg". `None` when the
/// table has no such food.
///
/// # Source
/// [`FREEZING_POINTS`].
pub fn published_freezing_point(food: &str) -> Option<&'static PublishedFreezingPoint> {
    let mut wanted = normal(food);
    if let Some((_, name)) = OTHER_NAMES.iter().find(|(other, _)| *other == wanted) {
        wanted = (*name).to_owned();
    }
    let exact = FREEZING_POINTS.iter().find(|row| normal(row.food) == wanted);
    exact.or_else(|| FREEZING_POINTS.iter().find(|row| shares_words(&normal(row.food), &wanted)))
}

/// Whether every word of the shorter name stands in the longer one: "lettuce" in "iceberg lettuce".
fn shares_words(one: &str, other: &str) -> bool {
    let (short, long) = if one.len() < other.len() { (one, other) } else { (other, one) };
    !short.is_empty() && short.split('-').all(|word| long.split('-').any(|w| w == word))
}

/// A name without case, blanks, hyphens and plural endings.
fn normal(food: &str) -> String {
    let lower = food.to_lowercase();
    let words = lower.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    words.map(singular).collect::<Vec<_>>().join("-")
}

fn singular(word: &str) -> &str {
    match word.strip_suffix("oes") {
        Some(stem) => &word[..stem.len() + 1],
        None => word.strip_suffix('s').filter(|stem| !stem.ends_with('s')).unwrap_or(word),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_is_in_order_and_below_zero() {
        assert!(FREEZING_POINTS.windows(2).all(|pair| pair[0].food < pair[1].food));
        assert!(FREEZING_POINTS.iter().all(|row| row.temperature.celsius() < 0.0));
    }

    #[test]
    fn a_food_is_found_in_any_spelling() {
        let found = |name| published_freezing_point(name).map(|row| row.food);
        assert_eq!(found("Carrots"), found("carrot"));
        assert!(found("carrot").is_some());
        assert_eq!(found("Brussels Sprouts"), found("brussels-sprout"));
        assert_eq!(found("lettuce"), Some("lettuce-iceberg"));
        assert_eq!(found("eggplant"), Some("aubergine"));
        assert_eq!(found("unobtainable fruit"), None);
    }
}
