//! A recipe of the open vocabulary, schema.org/Recipe, out of JSON-LD.
//!
//! The recipe may stand alone, in a list, in an `@graph` or within another thing; keys may be short,
//! prefixed or full addresses; values may be texts, lists, or things that are named elsewhere by
//! `@id`. Nothing is fetched.

use std::collections::BTreeMap;

use serde_json::{Map, Value};

use super::page::{one_line, plain};

/// How deep things may refer to one another before a reference is left alone.
const DEEPEST: usize = 8;
/// More ingredients or steps than this are no recipe.
pub(super) const MOST: usize = 500;
/// The type that is looked for.
const RECIPE: &str = "Recipe";

/// A step as found.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct OutsideStep {
    /// Its heading; empty when it has none.
    pub(super) name: String,
    /// What is to be done.
    pub(super) text: String,
    /// The section in which it stands; empty when there is none.
    pub(super) section: String,
}

/// A recipe as found, in plain words.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Outside {
    pub(super) name: String,
    pub(super) author: String,
    pub(super) description: String,
    pub(super) yields: Vec<String>,
    /// Spans of time by key, as found.
    pub(super) times: Vec<(&'static str, String)>,
    pub(super) ingredients: Vec<String>,
    pub(super) steps: Vec<OutsideStep>,
    /// Every other key with its value as text.
    pub(super) others: Vec<(String, String)>,
    /// How many recipes the file holds.
    pub(super) recipes: usize,
}

/// Keys that say nothing about the dish.
const SILENT: [&str; 4] = ["@context", "@type", "@id", "mainEntityOfPage"];
/// Keys of spans of time.
const TIMES: [&str; 4] = ["totalTime", "prepTime", "cookTime", "performTime"];

/// Finds the first recipe of a document.
pub(super) fn find(document: &Value) -> Option<Outside> {
    let mut finder = Finder::default();
    finder.walk(document);
    let recipe = *finder.recipes.first()?;
    let graph = Graph { by_id: finder.by_id };
    let mut outside = graph.recipe(recipe);
    outside.recipes = finder.recipes.len();
    Some(outside)
}

/// Walks a document for recipes, and for things that can be referred to.
#[derive(Default)]
struct Finder<'a> {
    recipes: Vec<&'a Map<String, Value>>,
    by_id: BTreeMap<&'a str, &'a Value>,
}

impl<'a> Finder<'a> {
    fn walk(&mut self, value: &'a Value) {
        match value {
            Value::Array(list) => list.iter().for_each(|one| self.walk(one)),
            Value::Object(thing) => {
                if is_recipe(thing) {
                    self.recipes.push(thing);
                }
                if let (Some(Value::String(id)), true) = (thing.get("@id"), thing.len() > 1) {
                    self.by_id.entry(id).or_insert(value);
                }
                thing.values().for_each(|one| self.walk(one));
            }
            _ => {}
        }
    }
}

fn is_recipe(thing: &Map<String, Value>) -> bool {
    let named = |value: &Value| value.as_str().is_some_and(|name| local(name) == RECIPE);
    match thing.get("@type") {
        Some(Value::Array(types)) => types.iter().any(named),
        Some(name) => named(name),
        None => false,
    }
}

/// Returns the last part of a name that may be prefixed or a full address.
fn local(name: &str) -> &str {
    name.rsplit(['/', '#', ':']).next().unwrap_or(name)
}

fn get<'a>(thing: &'a Map<String, Value>, key: &str) -> Option<&'a Value> {
    thing.get(key).or_else(|| thing.iter().find(|(name, _)| local(name) == key).map(|(_, v)| v))
}

/// The things of a document by their ids.
struct Graph<'a> {
    by_id: BTreeMap<&'a str, &'a Value>,
}

impl Graph<'_> {
    fn recipe(&self, thing: &Map<String, Value>) -> Outside {
        let mut outside = Outside::default();
        for (key, value) in thing {
            match local(key) {
                "name" => outside.name = one_line(&self.text(value, 0)),
                "author" => outside.author = one_line(&self.text(value, 0)),
                "description" => outside.description = plain(&self.text(value, 0)),
                "recipeYield" | "yield" => outside.yields.extend(self.texts(value)),
                "recipeIngredient" | "ingredients" => outside.ingredients.extend(self.texts(value)),
                "recipeInstructions" => self.steps(value, "", 0, &mut outside.steps),
                _ if SILENT.contains(&key.as_str()) => {}
                other => match TIMES.iter().find(|time| **time == other) {
                    Some(time) => outside.times.push((time, one_line(&self.text(value, 0)))),
                    None => outside.others.push((other.to_owned(), self.whole(value))),
                },
            }
        }
        outside
    }

    /// Returns a value in words: of a thing its value, text or name; of a list all of them.
    fn text(&self, value: &Value, depth: usize) -> String {
        match value {
            Value::Null => String::new(),
            Value::String(text) => text.clone(),
            Value::Bool(_) | Value::Number(_) => value.to_string(),
            Value::Array(list) if depth > DEEPEST => format!("[{} values]", list.len()),
            Value::Object(_) if depth > DEEPEST => "{…}".to_owned(),
            Value::Array(list) => {
                let texts = list.iter().map(|one| self.text(one, depth + 1));
                texts.filter(|text| !text.is_empty()).collect::<Vec<_>>().join(", ")
            }
            Value::Object(thing) => {
                if let (Some(amount), unit) = (get(thing, "value"), get(thing, "unitText")) {
                    let unit = unit.map_or(String::new(), |unit| self.text(unit, depth + 1));
                    let amount = self.text(amount, depth + 1);
                    return format!("{amount} {unit}").trim_end().to_owned();
                }
                let said = ["@value", "text", "name"].iter().find_map(|key| get(thing, key));
                let referred = || match thing.get("@id") {
                    Some(Value::String(id)) => self.by_id.get(id.as_str()).copied(),
                    _ => None,
                };
                match (said, referred()) {
                    (Some(inner), _) => self.text(inner, depth + 1),
                    // What is referred to refers no further, or things that name one another
                    // would be spelt out again and again.
                    (None, Some(inner)) if depth < DEEPEST => self.text(inner, DEEPEST),
                    _ => value.to_string(),
                }
            }
        }
    }

    /// Returns each value of a list in words, or the lines of a text.
    fn texts(&self, value: &Value) -> Vec<String> {
        let list = match value {
            Value::Array(list) => list.iter().collect(),
            one => vec![one],
        };
        let texts = list.into_iter().map(|one| plain(&self.text(one, 0)));
        texts.flat_map(|text| text.lines().map(str::to_owned).collect::<Vec<_>>()).collect()
    }

    /// Returns a value as found: words when it is a text, else JSON.
    fn whole(&self, value: &Value) -> String {
        match value {
            Value::String(text) => one_line(text),
            other => other.to_string(),
        }
    }

    /// Adds the steps of a value: a text, a list, a section, a step, or one named by its id.
    fn steps(&self, value: &Value, section: &str, depth: usize, found: &mut Vec<OutsideStep>) {
        let step = |text: &str| OutsideStep {
            text: text.to_owned(),
            section: section.to_owned(),
            ..OutsideStep::default()
        };
        match value {
            Value::Array(list) if depth <= DEEPEST && found.len() <= MOST => {
                list.iter().for_each(|one| self.steps(one, section, depth + 1, found));
            }
            Value::Object(thing) if depth <= DEEPEST && found.len() <= MOST => {
                self.thing(thing, section, depth, found);
            }
            _ if found.len() > MOST => {}
            other => found.extend(plain(&self.text(other, depth)).lines().map(step)),
        }
    }

    fn thing(
        &self,
        thing: &Map<String, Value>,
        section: &str,
        depth: usize,
        found: &mut Vec<OutsideStep>,
    ) {
        let said =
            |key| get(thing, key).map_or(String::new(), |value| one_line(&self.text(value, 0)));
        let (name, text) = (said("name"), said("text"));
        let referred = thing.get("@id").and_then(Value::as_str).and_then(|id| self.by_id.get(id));
        let inner = get(thing, "itemListElement").or_else(|| get(thing, "item"));
        match (text.is_empty(), inner, referred) {
            (true, Some(inner), _) if is_step(thing) => {
                let text = one_line(&self.text(inner, depth));
                found.push(OutsideStep { name, text, section: section.to_owned() });
            }
            (true, Some(inner), _) => {
                let section = if name.is_empty() { section } else { &name };
                self.steps(inner, section, depth + 1, found);
            }
            (true, None, Some(other)) if name.is_empty() && depth < DEEPEST - 1 => {
                self.steps(other, section, DEEPEST - 1, found);
            }
            (true, None, _) if name.is_empty() => {
                let text = Value::Object(thing.clone()).to_string();
                found.push(OutsideStep { text, section: section.to_owned(), name });
            }
            (true, None, _) => {
                let section = section.to_owned();
                found.push(OutsideStep { text: name, section, ..OutsideStep::default() });
            }
            (false, ..) => found.push(OutsideStep { name, text, section: section.to_owned() }),
        }
    }
}

/// Returns whether a thing with parts is one step rather than a section of several.
fn is_step(thing: &Map<String, Value>) -> bool {
    thing.get("@type").and_then(Value::as_str).is_some_and(|name| local(name) == "HowToStep")
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    fn found(document: &Value) -> Outside {
        find(document).unwrap()
    }

    #[test]
    fn a_thing_that_names_itself_ends() {
        let document = json!([
            { "@id": "#a", "naie": "x" },
            { "@id": "#s", "itemListElement": [{ "@id": "#s" }, { "@id": "#s" }] },
            { "@type": "Recipe", "author": { "@id": "#a" },
              "recipeInstructions": [{ "@id": "#a" }, { "@id": "#s" }] },
        ]);
        assert!(found(&document).steps.len() <= MOST + 1);
    }

    #[test]
    fn prefixed_and_full_names_are_read() {
        let document = json!({
            "@type": "https://schema.org/Recipe", "schema:name": { "@value": "Tea" },
            "http://schema.org/recipeYield": { "value": 4, "unitText": "cups" },
            "recipeInstructions": "1. Boil.\n2. Pour.", "keywords": "hot",
        });
        let outside = found(&document);
        assert_eq!(outside.name, "Tea");
        assert_eq!(outside.yields, ["4 cups"]);
        assert_eq!(outside.steps.len(), 2);
        assert_eq!(outside.others, [("keywords".to_owned(), "hot".to_owned())]);
    }

    #[test]
    fn what_is_no_recipe_is_not_found() {
        assert_eq!(find(&json!({ "@type": "Person", "name": "x" })), None);
        assert_eq!(find(&json!(3)), None);
    }
}
