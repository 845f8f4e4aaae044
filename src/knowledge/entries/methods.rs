//! Techniques, routes and their moves.

use std::collections::BTreeMap;

use super::super::Value;
use super::ValueMap;

/// One move of a route or of the laboratory method.
#[derive(Debug, Clone, PartialEq)]
pub struct Move {
    /// The process model.
    pub process: String,
    /// Appliances: each a list of alternatives, ids or roles.
    pub uses: Vec<Vec<String>>,
    /// Supplies: each a list of alternatives with its dose.
    pub supplies: Vec<Dose>,
    /// Settings by parameter name.
    pub settings: ValueMap,
    /// Settings that are words.
    pub modes: BTreeMap<String, String>,
    /// The stream that goes on.
    pub keep: Option<String>,
    /// What the cook does.
    pub instruction: String,
    /// When to stop, by what the kitchen owns.
    pub until: Vec<Endpoint>,
}

/// A supply with its dose.
#[derive(Debug, Clone, PartialEq)]
pub struct Dose {
    /// Alternatives, ids or roles.
    pub any_of: Vec<String>,
    /// Mass of supply per mass of food.
    pub dose: Option<Value>,
    /// Whether it goes into the food.
    pub stays_in: bool,
}

/// An endpoint that a cook can check.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Endpoint {
    /// The gear that it needs: alternatives; empty for a look or a feel.
    pub needs: Vec<String>,
    /// What to look for.
    pub says: String,
}

/// A professional step.
#[derive(Debug, Clone, PartialEq)]
pub struct Technique {
    /// Id.
    pub id: String,
    /// Trade name.
    pub name: String,
    /// Other names.
    pub synonyms: Vec<String>,
    /// What it does.
    pub summary: String,
    /// What it physically achieves.
    pub achieves: String,
    /// Its goals, the most important first.
    pub goals: Vec<String>,
    /// Attributes compared, the most important first.
    pub compare: Vec<String>,
    /// A food on which it is shown.
    pub demo_food: String,
    /// Hazards of the laboratory method.
    pub hazards: Vec<String>,
    /// The laboratory method.
    pub moves: Vec<Move>,
    /// What to buy instead.
    pub buy: Option<String>,
}

/// A way to reach a goal at home.
#[derive(Debug, Clone, PartialEq)]
pub struct Route {
    /// Id.
    pub id: String,
    /// Name as printed.
    pub name: String,
    /// Other names.
    pub synonyms: Vec<String>,
    /// What it is.
    pub summary: String,
    /// Techniques that it stands in for.
    pub serves: Vec<String>,
    /// Groups or ids of foods that it suits; empty for any.
    pub foods: Vec<String>,
    /// Its moves.
    pub moves: Vec<Move>,
    /// What is lost that no model computes.
    pub loses: Vec<String>,
    /// When it fails.
    pub fails: Vec<String>,
    /// Hazards.
    pub hazards: Vec<String>,
    /// Attended time beside what the models count; `None` for the usual one.
    pub hands_on: Option<Value>,
    /// Cost beside the supplies.
    pub cost: Option<Value>,
}
