//! A kitchen as a document and as JSON: what it has, what is assumed, what it can stand in for.

use serde::Serialize;

use super::document::{Document, Fact, Item, Table};
use super::json::to_digits;
use super::shown;
use crate::advisor::fit;
use crate::kitchen::{Kitchen, Owned, Place};
use crate::knowledge::{Knowledge, Provenance, Technique};
use crate::quantity::{Temperature, significant};

/// Significant digits of values in JSON.
const JSON_DIGITS: usize = 6;
/// Significant digits of values as printed.
const DIGITS: u32 = 3;
/// Per cent in a whole.
const HUNDRED: f64 = 100.0;

/// Writes a kitchen.
pub fn document(kitchen: &Kitchen, knowledge: &Knowledge) -> Document {
    let mut document = Document::new(kitchen.name.clone());
    document.facts(place(&kitchen.place));
    people(&mut document, kitchen);
    document.section("Appliances");
    let mut table = Table::new().words("Appliance").words("Stated").words("Assumed as usual");
    for owned in &kitchen.appliances {
        let name = knowledge.appliances.get(&owned.id).map_or(&owned.id, |known| &known.name);
        let label = if owned.label == owned.id || owned.label == *name {
            name.clone()
        } else {
            format!("{} ({name})", owned.label)
        };
        table.push([label, values(owned, true, knowledge), values(owned, false, knowledge)]);
    }
    document.table(table);
    document.section("Supplies");
    document.bullets(kitchen.supplies.iter().map(|id| {
        Item::new(knowledge.supplies.get(id).map_or_else(|| id.clone(), |one| one.name.clone()))
    }));
    served(&mut document, kitchen, knowledge);
    document
}

/// The place, with a mark on what is assumed.
fn place(place: &Place) -> Vec<Fact> {
    let celsius = |temperature: Temperature| number(temperature.celsius(), "°C");
    let facts = [
        ("altitude", "Altitude", number(place.altitude.metres(), "m")),
        ("room_temperature", "Room", celsius(place.room_temperature)),
        ("room_humidity", "Humidity", number(HUNDRED * place.room_humidity, "%")),
        ("room_volume", "Air in the room", number(place.room_volume.si(), "m³")),
        ("air_changes", "Air changes", number(place.air_changes.per_hour(), "an hour")),
        ("tap_water", "Tap water", celsius(place.tap_water)),
    ];
    let marked = facts.map(|(key, name, text)| {
        let assumed = if place.assumed.contains(&key) { " (assumed)" } else { "" };
        Fact::new(name, format!("{text}{assumed}"))
    });
    marked.into_iter().collect()
}

fn number(value: f64, unit: &str) -> String {
    format!("{} {unit}", significant(value, DIGITS))
}

fn people(document: &mut Document, kitchen: &Kitchen) {
    let mut facts = Vec::new();
    if !kitchen.eaters.is_empty() {
        facts.push(Fact::new("Eaters", kitchen.eaters.clone()));
    }
    if !kitchen.avoid.is_empty() {
        facts.push(Fact::new("Avoid", kitchen.avoid.join(", ")));
    }
    if !kitchen.note.is_empty() {
        facts.push(Fact::new("Note", kitchen.note.clone()));
    }
    document.facts(facts);
}

/// The values of an appliance: those that the kitchen states, or the others.
fn values(owned: &Owned, stated: bool, knowledge: &Knowledge) -> String {
    let each = owned.values.iter().filter(|(_, v)| (v.provenance == Provenance::Given) == stated);
    let shown = each.filter_map(|(name, value)| {
        let unit = &knowledge.parameter(name)?.unit;
        Some(format!("{} {}", name.replace('_', " "), shown::value(value.typical(), unit)))
    });
    shown.collect::<Vec<String>>().join(", ")
}

/// Routes to a technique for which a kitchen owns all gear and supplies, and how many there are.
fn open_routes<'k>(
    technique: &'k Technique,
    kitchen: &Kitchen,
    knowledge: &'k Knowledge,
) -> (Vec<&'k str>, usize) {
    let routes: Vec<_> = knowledge.routes_for(&technique.id).collect();
    let open = routes.iter().filter(|r| fit(r, None, kitchen, knowledge).missing.is_empty());
    (open.map(|route| route.id.as_str()).collect(), routes.len())
}

fn served(document: &mut Document, kitchen: &Kitchen, knowledge: &Knowledge) {
    document.section("Techniques that it can stand in for");
    let mut table = Table::new().words("Technique").words("Open routes").words("Of");
    for technique in knowledge.techniques.values() {
        let (open, all) = open_routes(technique, kitchen, knowledge);
        let names = open.iter().filter_map(|id| knowledge.routes.get(*id));
        let names: Vec<&str> = names.map(|route| route.name.as_str()).collect();
        let names = if names.is_empty() { "none".to_owned() } else { names.join("; ") };
        table.push([technique.name.clone(), names, all.to_string()]);
    }
    document.table(table);
}

/// A kitchen in JSON.
#[derive(Debug, Serialize)]
pub struct KitchenJson<'a> {
    name: &'a str,
    altitude_m: f64,
    pressure_pa: f64,
    room_temperature_k: f64,
    room_humidity: f64,
    room_volume_m3: f64,
    air_changes_per_s: f64,
    tap_water_k: f64,
    assumed: &'a [&'static str],
    appliances: Vec<OwnedJson<'a>>,
    supplies: &'a [String],
    avoid: &'a [String],
    techniques: Vec<ServedJson<'a>>,
}

/// An appliance.
#[derive(Debug, Serialize)]
struct OwnedJson<'a> {
    label: &'a str,
    id: &'a str,
    stated: Vec<&'a str>,
    assumed: Vec<&'a str>,
}

/// A technique and the routes open to it.
#[derive(Debug, Serialize)]
struct ServedJson<'a> {
    technique: &'a str,
    open_routes: Vec<&'a str>,
    routes: usize,
}

/// Writes a kitchen in JSON.
pub fn json<'a>(kitchen: &'a Kitchen, knowledge: &'a Knowledge) -> KitchenJson<'a> {
    let place = &kitchen.place;
    let digits = |value| to_digits(value, JSON_DIGITS);
    KitchenJson {
        name: &kitchen.name,
        altitude_m: digits(place.altitude.metres()),
        pressure_pa: digits(place.pressure.si()),
        room_temperature_k: digits(place.room_temperature.kelvin()),
        room_humidity: digits(place.room_humidity),
        room_volume_m3: digits(place.room_volume.si()),
        air_changes_per_s: digits(place.air_changes.si()),
        tap_water_k: digits(place.tap_water.kelvin()),
        assumed: &place.assumed,
        appliances: kitchen.appliances.iter().map(owned_json).collect(),
        supplies: &kitchen.supplies,
        avoid: &kitchen.avoid,
        techniques: knowledge
            .techniques
            .values()
            .map(|technique| {
                let (open_routes, routes) = open_routes(technique, kitchen, knowledge);
                ServedJson { technique: &technique.id, open_routes, routes }
            })
            .collect(),
    }
}

fn owned_json(owned: &Owned) -> OwnedJson<'_> {
    let names = |given: bool| {
        let each = owned.values.iter();
        each.filter(|(_, value)| (value.provenance == Provenance::Given) == given)
            .map(|(name, _)| name.as_str())
            .collect()
    };
    OwnedJson { label: &owned.label, id: &owned.id, stated: names(true), assumed: names(false) }
}
