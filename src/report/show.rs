//! Entries of the knowledge base as documents.

use super::document::{Block, Document, Fact, Item, Table, Text};
use super::shown;
use crate::knowledge::{
    AromaCompound, Counts, Derived, Entry, Food, Kind, Knowledge, Move, Notice, Provenance, Shares,
    Value, ValueMap,
};
use crate::quantity::significant;

/// Significant digits of values as printed; the files hold more.
const DIGITS: u32 = 3;

/// Writes the counts.
pub fn counts(counts: &Counts, knowledge: &Knowledge) -> Document {
    let mut document = Document::new("What the knowledge base holds");
    let mut kinds = Table::new().words("Kind").numbers("Entries");
    for (kind, count) in [
        ("techniques", counts.techniques),
        ("goals", counts.goals),
        ("routes", counts.routes),
        ("appliances", counts.appliances),
        ("supplies", counts.supplies),
        ("foods", counts.foods),
        ("aroma compounds", counts.aromas),
        ("hazards", counts.hazards),
        ("sources cited", counts.sources),
    ] {
        kinds.push([kind.to_owned(), count.to_string()]);
    }
    document.table(kinds);
    let mut values = Table::new().words("Values").numbers("Count").numbers("Share");
    for (word, count) in [
        ("published", counts.published),
        ("common practice", counts.common_practice),
        ("from memory of a publication", counts.from_memory),
        ("estimated", counts.estimated),
        ("all", counts.values),
    ] {
        let share = 100.0 * count as f64 / (counts.values.max(1)) as f64;
        values.push([word.to_owned(), count.to_string(), format!("{share:.0} %")]);
    }
    document.table(values);
    for overridden in &knowledge.overridden {
        let text = format!("{} comes from {}.", overridden.entry, overridden.layer);
        document.push(Block::Note(text.into()));
    }
    document
}

/// Writes the entries that a word found.
pub fn entries(word: &str, found: &[Entry<'_>], knowledge: &Knowledge) -> Document {
    let title = match found {
        [one] => format!("{} ({})", one.name, one.kind.word()),
        _ => format!("{word}: {} entries", found.len()),
    };
    let mut document = Document::new(title);
    for entry in found {
        if found.len() > 1 {
            document.section(format!("{} ({})", entry.name, entry.kind.word()));
        }
        one(&mut document, entry, knowledge);
    }
    document
}

fn one(document: &mut Document, entry: &Entry<'_>, k: &Knowledge) {
    match entry.kind {
        Kind::Technique => technique(document, entry.id, k),
        Kind::Route => route(document, entry.id, k),
        Kind::Food => food(document, entry.id, k),
        Kind::Class => class(document, entry.id, k),
        Kind::Hazard => hazard(document, entry.id, k),
        Kind::Process => process(document, entry.id, k),
        Kind::Goal | Kind::Attribute | Kind::Source => measure(document, entry, k),
        Kind::Appliance | Kind::Supply | Kind::Aroma => thing(document, entry, k),
    }
}

fn technique(document: &mut Document, id: &str, k: &Knowledge) {
    let Some(technique) = k.techniques.get(id) else { return };
    document.paragraph(technique.summary.clone());
    document.paragraph(technique.achieves.clone());
    let goals = technique.goals.iter().filter_map(|goal| k.goals.get(goal));
    document.subsection("Goals");
    document.bullets(goals.map(|goal| Item::new(format!("{}: {}", goal.name, goal.summary))));
    document.subsection("In the laboratory");
    moves(document, &technique.moves);
    document.subsection("Home routes");
    let routes = k.routes_for(id);
    document.bullets(routes.map(|route| Item::new(format!("{} ({})", route.name, route.id))));
    if let Some(buy) = &technique.buy {
        document.paragraph(format!("To buy instead: {buy}."));
    }
}

fn route(document: &mut Document, id: &str, k: &Knowledge) {
    let Some(route) = k.routes.get(id) else { return };
    document.paragraph(route.summary.clone());
    let hands_on = k.hands_on(route).map(|time| shown::time(&time.estimate));
    let stands_in = Fact::new("Stands in for", route.serves.join(", "));
    document.facts([stands_in].into_iter().chain(hands_on.map(|time| Fact::new("Hands-on", time))));
    moves(document, &route.moves);
    document.paragraph(format!("Loses (stated): {}.", listed(&route.loses)));
    document.paragraph(format!("Does not suit: {}.", listed(&route.fails)));
}

fn listed(texts: &[String]) -> String {
    if texts.is_empty() { "nothing stated".to_owned() } else { texts.join("; ") }
}

fn moves(document: &mut Document, moves: &[Move]) {
    document.numbered(moves.iter().map(|one| {
        let needs: Vec<String> = one.uses.iter().map(|any_of| any_of.join(" or ")).collect();
        let text = one.instruction.replace(['{', '}'], "").replace('_', " ");
        Item::new(text).under(format!("Model: {}. Needs: {}.", one.process, listed(&needs)))
    }));
    for one in moves {
        values(document, &one.settings);
    }
}

fn food(document: &mut Document, id: &str, k: &Knowledge) {
    let Some(food) = k.foods.get(id) else { return };
    document.facts([
        Fact::new("Group", food.group.clone()),
        Fact::new("Also called", listed(&food.synonyms)),
        Fact::new("Allergens", listed(&food.allergens)),
        Fact::new("Smell carried by", listed(&food.aromas)),
        Fact::new("Composition from", source(&food.provenance, k)),
    ]);
    if let Some(origin) = &food.made_of {
        let strained = food.values.keys().any(|name| name.starts_with("kept_"));
        let less = if strained { ", less what is strained off" } else { "" };
        document.paragraph(format!("Composition: that of {origin}{less}."));
    }
    let mut table = Table::new().words("Part").numbers("g per 100 g");
    for (name, share) in parts(&food.shares) {
        table.push([name.to_owned(), significant(100.0 * share, DIGITS)]);
    }
    document.table(table);
    sourced(document, &food.values, |name, value| derived(food.derived.get(name), value));
}

/// Where a value comes from; one that the entry does not state itself says so.
fn derived(from: Option<&Derived>, value: &Value) -> String {
    match from {
        None => origin(value),
        Some(Derived::Class(class)) => format!("class {class}: {}", origin(value)),
        Some(Derived::Food(food)) => format!("as {food}: {}", origin(value)),
        Some(Derived::Composition) => format!("from the composition: {}", origin(value)),
    }
}

fn class(document: &mut Document, id: &str, k: &Knowledge) {
    let Some(class) = k.classes.get(id) else { return };
    document.paragraph(class.summary.clone());
    values(document, &class.values);
    let of_class = |food: &&Food| food.classes.iter().any(|named| named == id);
    let foods = k.foods.values().filter(of_class).map(|food| &*food.name);
    let of_class = |aroma: &&AromaCompound| aroma.classes.iter().any(|named| named == id);
    let aromas = k.aromas.values().filter(of_class).map(|aroma| &*aroma.name);
    let members: Vec<&str> = foods.chain(aromas).collect();
    document.paragraph(format!("Members: {}.", members.join(", ")));
}

fn parts(shares: &Shares) -> [(&'static str, f64); 10] {
    [
        ("water", shares.water),
        ("sugars", shares.sugars),
        ("starch", shares.starch),
        ("fibre", shares.fibre),
        ("protein", shares.protein),
        ("fat", shares.fat),
        ("acid", shares.acid),
        ("salt", shares.salt),
        ("ethanol", shares.ethanol),
        ("other", shares.other),
    ]
}

fn hazard(document: &mut Document, id: &str, k: &Knowledge) {
    let Some(hazard) = k.hazards.get(id) else { return };
    document.paragraph(hazard.caution.clone());
    if let Some(defer) = &hazard.defer {
        document.paragraph(defer.clone());
    }
    document.bullets(hazard.refuses.iter().map(|what| Item::new(format!("Refused: {what}."))));
    let mut table = Table::new().words("When").words("Limit").words("Source");
    for condition in hazard.rules.iter().flat_map(|rule| &rule.when) {
        for (word, limit) in [("above", &condition.above), ("below", &condition.below)] {
            let Some(limit) = limit else { continue };
            let when = format!("{} {word}", condition.fact.replace('_', " "));
            let limit_text = shown::value(limit.typical(), &limit.unit);
            table.push([when, limit_text, source(&limit.provenance, k)]);
        }
    }
    if !table.rows.is_empty() {
        document.table(table);
    }
    document.facts([Fact::new("Source", source(&hazard.provenance, k))]);
}

/// Writes a list of hazards, each with its limits.
pub fn hazards(hazards: &[&crate::knowledge::Hazard], knowledge: &Knowledge) -> Document {
    let mut document = Document::new("What can hurt someone");
    for one in hazards {
        document.section(format!("{}: {}", one.signal, one.name));
        hazard(&mut document, &one.id, knowledge);
    }
    document
}

fn process(document: &mut Document, id: &str, k: &Knowledge) {
    let Some(process) = k.processes.get(id) else { return };
    document.paragraph(process.summary.clone());
    let mut table = Table::new().words("Parameter").words("Meaning").numbers("Default");
    for (name, parameter) in &process.parameters {
        let default = parameter.default.as_ref().map_or("given".to_owned(), written);
        table.push([name.replace('_', " "), parameter.meaning.clone(), default]);
    }
    document.table(table);
}

fn measure(document: &mut Document, entry: &Entry<'_>, k: &Knowledge) {
    if let Some(goal) = k.goals.get(entry.id).filter(|_| entry.kind == Kind::Goal) {
        let reach = if goal.at_least { "at least" } else { "at most" };
        document.paragraph(goal.summary.clone());
        let target = format!("{} {reach} {}", goal.attribute, written(&goal.target));
        document.facts([
            Fact::new("Target", target),
            Fact::new("Source", source(&goal.target.provenance, k)),
        ]);
    }
    if let Some(attribute) = k.attributes.get(entry.id).filter(|_| entry.kind == Kind::Attribute) {
        let notice = match &attribute.notice {
            Notice::Difference(value) => format!("a difference of {}", written(value)),
            Notice::Ratio(value) => format!("a ratio of {}", written(value)),
        };
        document.facts([Fact::new("A person notices", notice)]);
        document.bullets(attribute.levels.iter().map(|level| {
            let bound = if level.up_to.is_finite() {
                format!("up to {}", shown::value(level.up_to, &attribute.unit))
            } else {
                "above".to_owned()
            };
            Item::new(format!("{bound}: {}", level.means))
        }));
    }
    if let Some(source) = k.sources.get(entry.id).filter(|_| entry.kind == Kind::Source) {
        document.paragraph(source.citation());
        if let Some(note) = &source.note {
            document.push(Block::Note(note.clone().into()));
        }
    }
}

fn thing(document: &mut Document, entry: &Entry<'_>, k: &Knowledge) {
    match entry.kind {
        Kind::Appliance => {
            let Some(appliance) = k.appliances.get(entry.id) else { return };
            document.paragraph(appliance.summary.clone());
            document.facts([Fact::new("Also called", listed(&appliance.synonyms))]);
            values(document, &appliance.values);
        }
        Kind::Supply => {
            let Some(supply) = k.supplies.get(entry.id) else { return };
            document.paragraph(supply.summary.clone());
            document.facts([
                Fact::new("Also called", listed(&supply.synonyms)),
                Fact::new("Allergens", listed(&supply.allergens)),
            ]);
            values(document, &supply.values);
        }
        _ => {
            let Some(aroma) = k.aromas.get(entry.id) else { return };
            document.facts([
                Fact::new("Smells of", aroma.smell.clone()),
                Fact::new("Class", format!("{} note", aroma.note.word())),
                Fact::new("Found in", listed(&aroma.found_in)),
            ]);
            let says = |name: &str, value: &Value| derived(aroma.derived.get(name), value);
            sourced(document, &aroma.values, says);
        }
    }
    let routes = k.routes.values().filter(|route| {
        let uses = route.moves.iter().flat_map(|one| one.uses.iter().flatten());
        let supplies = route.moves.iter().flat_map(|one| &one.supplies);
        let doses = supplies.flat_map(|dose| &dose.any_of);
        let serves = |role: &String| {
            k.appliances.get(entry.id).is_some_and(|a| a.serves_as(role))
                || k.supplies.get(entry.id).is_some_and(|s| s.serves_as(role))
        };
        uses.chain(doses).any(serves)
    });
    let names: Vec<String> = routes.map(|route| route.name.clone()).collect();
    if !names.is_empty() {
        document.paragraph(format!("Used in: {}.", names.join("; ")));
    }
}

/// A table of values with their range and source; nothing for an empty list.
fn values(document: &mut Document, values: &ValueMap) {
    sourced(document, values, |_, value| origin(value));
}

/// Where a value comes from, and how far it is to be trusted.
fn origin(value: &Value) -> String {
    format!("{} ({})", value.provenance, value.confidence.word())
}

/// A table of values, each with what is said of its origin; nothing for an empty list.
fn sourced(document: &mut Document, values: &ValueMap, says: impl Fn(&str, &Value) -> String) {
    if values.is_empty() {
        return;
    }
    let mut table =
        Table::new().words("Value").numbers("Typical (range)").words("Where it comes from");
    for (name, value) in values {
        let origin = says(name, value);
        table.push([Text::from(name.replace('_', " ")), written(value).into(), origin.into()]);
    }
    document.table(table);
}

/// A value with its range and unit.
fn written(value: &Value) -> String {
    let show = |si| significant(value.unit.from_si(si), DIGITS);
    let estimate = &value.estimate;
    let number = if estimate.is_exact() {
        show(estimate.typical())
    } else {
        format!(
            "{} ({} to {})",
            show(estimate.typical()),
            show(estimate.low()),
            show(estimate.high())
        )
    };
    format!("{number} {}", value.unit.symbol).trim_end().to_owned()
}

/// A provenance with the full citation of its source.
fn source(provenance: &Provenance, k: &Knowledge) -> String {
    match provenance {
        Provenance::Published { source, locator } => {
            let citation = k.sources.get(source).map_or(source.clone(), |s| s.citation());
            if locator.is_empty() { citation } else { format!("{citation} ({locator})") }
        }
        other => other.to_string(),
    }
}
