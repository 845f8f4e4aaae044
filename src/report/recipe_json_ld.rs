//! An adapted recipe as schema.org/Recipe in JSON-LD.

use std::collections::BTreeSet;

use serde::Serialize;

use super::shown;
use crate::advisor::{Adaptation, AdaptedStep, Advice, Method, MoveAdvice, Verdict, allergens};
use crate::estimate::Estimate;
use crate::kitchen::Kitchen;
use crate::knowledge::Knowledge;
use crate::quantity::{Time, cook_mass, iso_duration, significant};
use crate::recipe::Recipe;

/// Digits of the number of people.
const PEOPLE_DIGITS: u32 = 3;

/// A thing of the vocabulary that has a name.
#[derive(Debug, PartialEq, Eq, Serialize)]
pub struct Named {
    #[serde(rename = "@type")]
    kind: &'static str,
    name: String,
    #[serde(rename = "requiredQuantity", skip_serializing_if = "Option::is_none")]
    required_quantity: Option<String>,
}

impl Named {
    fn new(kind: &'static str, name: &str) -> Self {
        Self { kind, name: name.to_owned(), required_quantity: None }
    }
}

/// A step.
#[derive(Debug, Serialize)]
pub struct HowToStep {
    #[serde(rename = "@type")]
    kind: &'static str,
    position: usize,
    name: String,
    text: String,
}

/// A recipe.
#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct RecipeJsonLd {
    #[serde(rename = "@context")]
    context: &'static str,
    #[serde(rename = "@type")]
    kind: &'static str,
    name: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    author: Option<Named>,
    description: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    recipe_yield: Option<String>,
    recipe_ingredient: Vec<String>,
    recipe_instructions: Vec<HowToStep>,
    #[serde(skip_serializing_if = "Option::is_none")]
    total_time: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    prep_time: Option<String>,
    tool: Vec<Named>,
    supply: Vec<Named>,
}

/// Makes the JSON-LD of an adapted recipe.
pub fn recipe(
    done: &Adaptation,
    recipe: &Recipe,
    kitchen: &Kitchen,
    knowledge: &Knowledge,
) -> RecipeJsonLd {
    let ingredients = done.ingredients.iter().zip(&recipe.ingredients);
    let needed = ingredients.filter(|(bought, _)| bought.is_needed());
    let ingredients = needed.map(|(bought, stated)| {
        let line = format!("{} {}", cook_mass(bought.bought), bought.name);
        let note = stated.note.trim();
        if note.is_empty() { line } else { format!("{line}, {note}") }
    });
    let author = Some(recipe.author.as_str()).filter(|author| !author.is_empty());
    let duration = |range: &Estimate| iso_duration(Time::from_seconds(range.typical()));
    let (tool, supply) = gear(done, (kitchen, knowledge));
    RecipeJsonLd {
        context: "https://schema.org",
        kind: "Recipe",
        name: recipe.title.clone(),
        author: author.map(|author| Named::new("Organization", author)),
        description: description(done, recipe, (kitchen, knowledge)),
        recipe_yield: yields(done, recipe),
        recipe_ingredient: ingredients.chain(ready_made(done)).collect(),
        recipe_instructions: instructions(done),
        total_time: done.time.as_ref().map(duration),
        prep_time: done.attended.as_ref().map(duration),
        tool,
        supply,
    }
}

/// What is bought ready-made, with its amount.
fn ready_made(done: &Adaptation) -> impl Iterator<Item = String> {
    super::shopping::ready_made(done).map(|(step, best)| {
        let mass = step.makes.as_ref().map(shown::mass).unwrap_or_default();
        format!("{mass} {}, for the {}", best.name, step.product).trim_start().to_owned()
    })
}

fn description(
    done: &Adaptation,
    recipe: &Recipe,
    (kitchen, knowledge): (&Kitchen, &Knowledge),
) -> String {
    let mut parts = vec![recipe.note.trim().to_owned()];
    let verdict = done.verdict.words();
    parts.push(format!("Adapted to the kitchen \"{}\": {verdict}.", kitchen.name));
    let allergens = allergens(done, knowledge);
    if !allergens.is_empty() {
        parts.push(format!("Contains {}.", allergens.into_iter().collect::<Vec<_>>().join(", ")));
    }
    parts.retain(|part| !part.is_empty());
    parts.join(" ")
}

fn yields(done: &Adaptation, recipe: &Recipe) -> Option<String> {
    let served =
        recipe.serves.map(|people| format!("{} servings", significant(people, PEOPLE_DIGITS)));
    served.or_else(|| done.makes.as_ref().map(shown::mass))
}

/// Writes a step for each move, with its cautions first.
fn instructions(done: &Adaptation) -> Vec<HowToStep> {
    let mut steps = Vec::new();
    let mut told = BTreeSet::new();
    for step in done.steps.iter().filter(|step| step.is_needed) {
        let texts = texts(step, &mut told);
        let count = texts.len();
        for (index, text) in texts.into_iter().enumerate() {
            let name = match count {
                1 => step.product.clone(),
                count => format!("{} ({} of {count})", step.product, index + 1),
            };
            steps.push(HowToStep { kind: "HowToStep", position: steps.len() + 1, name, text });
        }
    }
    steps
}

fn texts<'a>(step: &'a AdaptedStep, told: &mut BTreeSet<&'a str>) -> Vec<String> {
    let advice = match &step.advice {
        Advice::Plain(text) => return vec![text.clone()],
        Advice::Professional(advice) => advice,
    };
    let Some(best) = advice.routes.first() else {
        return vec![format!(
            "No home route is open to this kitchen for {}; leave it to a kitchen that has the \
             instrument.",
            advice.laboratory.name
        )];
    };
    let mut texts: Vec<String> = best.moves.iter().map(instruction).collect();
    let mut before = cautions(best, told);
    if best.score.verdict == Verdict::No {
        before.insert(
            0,
            format!(
                "No home route in this kitchen reaches the goal of {}; this is the closest, {}.",
                advice.laboratory.name, best.name
            ),
        );
    }
    if let Some(first) = texts.first_mut() {
        before.push(std::mem::take(first));
        *first = before.join(" ");
    }
    texts
}

fn instruction(one: &MoveAdvice) -> String {
    let until = one.until.as_deref().map(super::adapt::sentence);
    [Some(one.instruction.clone()), until].into_iter().flatten().collect::<Vec<_>>().join(" ")
}

/// Writes the cautions of a method that were not told before.
fn cautions<'a>(method: &'a Method, told: &mut BTreeSet<&'a str>) -> Vec<String> {
    let new = method.cautions.iter().filter(|caution| told.insert(caution.hazard.as_str()));
    let text = |caution: &crate::advisor::Caution| {
        let parts = [caution.computed.clone(), Some(caution.text.clone()), caution.defer.clone()];
        let said = parts.into_iter().flatten().collect::<Vec<_>>().join(" ");
        format!("{}: {}. {said}", caution.signal.to_uppercase(), caution.name)
    };
    new.map(text).collect()
}

/// Lists what the best routes are done with, and what they use up.
fn gear(
    done: &Adaptation,
    (kitchen, knowledge): (&Kitchen, &Knowledge),
) -> (Vec<Named>, Vec<Named>) {
    let named = |label: &str| {
        let owned = kitchen.appliances.iter().find(|owned| owned.label == *label);
        let known = owned.and_then(|owned| knowledge.appliances.get(&owned.id));
        known.map_or_else(|| label.replace('-', " "), |known| known.name.clone())
    };
    let (mut tools, mut supplies): (Vec<Named>, Vec<Named>) = (Vec::new(), Vec::new());
    for one in super::shopping::chosen(done).flat_map(|(_, method)| &method.moves) {
        for label in &one.appliances {
            let tool = Named::new("HowToTool", &named(label));
            if !tools.contains(&tool) {
                tools.push(tool);
            }
        }
        for (name, dose) in &one.supplies {
            let supply = Named::new("HowToSupply", name);
            let supply = Named { required_quantity: dose.clone(), ..supply };
            if dose.is_some() || !supplies.contains(&supply) {
                supplies.push(supply);
            }
        }
    }
    (tools, supplies)
}
