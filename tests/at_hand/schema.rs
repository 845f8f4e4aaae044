//! The schemas against every committed file, and against what the reader itself accepts.

use std::path::{Path, PathBuf};

use serde_json::{Value, json};

use super::{printed, standin};

const KINDS: [&str; 5] = ["recipe", "kitchen", "trial", "book", "knowledge"];

/// What a schema may say that does not decide whether a file is right.
const REMARKS: [&str; 6] = ["$schema", "$defs", "title", "description", "default", "format"];

fn schema(arguments: &[&str]) -> Value {
    serde_json::from_str(&printed(&[&["schema"], arguments].concat())).unwrap()
}

/// Checks a value by JSON Schema 2020-12; a keyword that this reader does not know is a fault.
fn check(value: &Value, schema: &Value, root: &Value, place: &str) -> Result<(), String> {
    if *schema == json!(true) {
        return Ok(());
    }
    let rules = schema.as_object().ok_or_else(|| format!("{place}: nothing is allowed here"))?;
    for (keyword, rule) in rules {
        let holds = match keyword.as_str() {
            remark if REMARKS.contains(&remark) => true,
            "$ref" => {
                let target = rule.as_str().unwrap().strip_prefix('#').unwrap();
                check(value, root.pointer(target).unwrap(), root, place)?;
                true
            }
            "type" => is_of_type(value, rule.as_str().unwrap()),
            "enum" => rule.as_array().unwrap().contains(value),
            "const" => rule == value,
            "minimum" => value.as_f64().is_none_or(|number| number >= rule.as_f64().unwrap()),
            "maximum" => value.as_f64().is_none_or(|number| number <= rule.as_f64().unwrap()),
            "anyOf" => passed(value, rule, root, place) > 0,
            "oneOf" => passed(value, rule, root, place) == 1,
            "required" => {
                let needed = rule.as_array().unwrap().iter();
                let has = |key: &Value| value.get(key.as_str().unwrap()).is_some();
                value.as_object().is_none() || needed.into_iter().all(has)
            }
            "items" => {
                for (index, item) in value.as_array().into_iter().flatten().enumerate() {
                    check(item, rule, root, &format!("{place}/{index}"))?;
                }
                true
            }
            "properties" | "propertyNames" | "additionalProperties" => {
                for (key, inner) in value.as_object().into_iter().flatten() {
                    let place = format!("{place}/{key}");
                    let declared = rules.get("properties").and_then(|known| known.get(key));
                    match (keyword.as_str(), declared) {
                        ("properties", Some(known)) => check(inner, known, root, &place)?,
                        ("propertyNames", _) => check(&json!(key), rule, root, &place)?,
                        ("additionalProperties", None) => check(inner, rule, root, &place)?,
                        _ => {}
                    }
                }
                true
            }
            other => panic!("{place}: the keyword `{other}` is not known here"),
        };
        if !holds {
            return Err(format!("{place}: {value} against {keyword} {rule}"));
        }
    }
    Ok(())
}

fn passed(value: &Value, options: &Value, root: &Value, place: &str) -> usize {
    let options = options.as_array().unwrap().iter();
    options.filter(|option| check(value, option, root, place).is_ok()).count()
}

fn is_of_type(value: &Value, name: &str) -> bool {
    match name {
        "string" => value.is_string(),
        "number" => value.is_number(),
        "integer" => value.is_i64() || value.is_u64(),
        "boolean" => value.is_boolean(),
        "array" => value.is_array(),
        "object" => value.is_object(),
        other => panic!("the type `{other}` is not known here"),
    }
}

/// TOML as JSON; a date becomes the text that it is written as.
fn json_of(text: &str) -> Value {
    fn convert(value: toml::Value) -> Value {
        match value {
            toml::Value::String(text) => json!(text),
            toml::Value::Integer(number) => json!(number),
            toml::Value::Float(number) => json!(number),
            toml::Value::Boolean(is) => json!(is),
            toml::Value::Datetime(moment) => json!(moment.to_string()),
            toml::Value::Array(list) => list.into_iter().map(convert).collect(),
            toml::Value::Table(table) => {
                Value::Object(table.into_iter().map(|(key, value)| (key, convert(value))).collect())
            }
        }
    }
    convert(toml::Value::Table(text.parse().unwrap()))
}

fn toml_files(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            toml_files(&path, found);
        } else if path.extension().is_some_and(|ending| ending == "toml") {
            found.push(path);
        }
    }
}

/// Every committed file with its kind, told by folder and content.
fn committed() -> Vec<(&'static str, PathBuf, Value)> {
    let mut files = Vec::new();
    for folder in ["examples", "knowledge"] {
        toml_files(&Path::new(env!("CARGO_MANIFEST_DIR")).join(folder), &mut files);
    }
    let kind = |path: &Path, value: &Value| {
        let folder = path.parent().and_then(Path::file_name).unwrap();
        match () {
            () if path.starts_with(Path::new(env!("CARGO_MANIFEST_DIR")).join("knowledge")) => {
                "knowledge"
            }
            () if path.ends_with("book.toml") => "book",
            () if folder == "trials" => "trial",
            () if value.get("step").is_some() => "recipe",
            () => "kitchen",
        }
    };
    let read = |path: PathBuf| {
        let value = json_of(&std::fs::read_to_string(&path).unwrap());
        (kind(&path, &value), path, value)
    };
    files.into_iter().map(read).collect()
}

#[test]
fn every_committed_file_follows_the_schema_of_its_kind() {
    for arguments in [&[][..], &["--names"][..]] {
        for kind in KINDS {
            let schema = schema(&[&[kind], arguments].concat());
            let mut files = 0;
            for (_, path, value) in committed().iter().filter(|(of, _, _)| *of == kind) {
                let result = check(value, &schema, &schema, "");
                assert_eq!(result, Ok(()), "{} as {kind}", path.display());
                files += 1;
            }
            assert!(files > 0, "no {kind} was checked");
        }
    }
}

#[test]
fn a_wrong_key_is_refused_wherever_it_stands() {
    for kind in KINDS {
        let schema = schema(&[kind]);
        let files = committed();
        let (_, _, value) = files.iter().find(|(of, _, _)| *of == kind).unwrap();
        let mut outside = value.clone();
        outside.as_object_mut().unwrap().insert("tilte".into(), json!("x"));
        assert!(check(&outside, &schema, &schema, "").is_err(), "{kind}");
        let inside = value.as_object().unwrap().iter().find(|(_, inner)| inner.is_array());
        let Some((key, _)) = inside else { continue };
        let mut value = value.clone();
        if let Some(Value::Object(first)) = value[key].get_mut(0) {
            first.insert("summry".into(), json!("x"));
            assert!(check(&value, &schema, &schema, "").is_err(), "{kind}: {key}");
        }
    }
}

#[test]
fn a_wrong_type_and_a_missing_key_are_refused() {
    let recipe = schema(&["recipe"]);
    let refused = |text: &str| check(&json_of(text), &recipe, &recipe, "").unwrap_err();
    assert!(refused("author = \"x\"").contains("required"));
    assert!(refused("title = \"x\"\nserves = 4").contains("string"));
    assert!(refused("title = \"x\"\nstep = 3").contains("array"));
    let trial = schema(&["trial"]);
    let wrong = json!({ "purpose": "explroe" });
    assert!(check(&wrong["purpose"], &trial["$defs"]["Purpose"], &trial, "").is_err());
}

#[test]
fn every_key_says_what_it_means() {
    for kind in KINDS {
        let schema = schema(&[kind]);
        let defined = schema["$defs"].as_object().into_iter().flatten().map(|(_, of)| of);
        for owner in defined.chain([&schema]) {
            for (key, property) in owner["properties"].as_object().into_iter().flatten() {
                let text = property["description"].as_str().unwrap_or_default();
                assert!(!text.is_empty(), "{kind}: `{key}` has no description");
            }
        }
    }
}

/// Words as the reader lists them for a wrong one: "accepted: a, b".
fn accepted(arguments: &[&str]) -> Vec<Vec<String>> {
    let text = String::from_utf8(standin(arguments).stderr).unwrap();
    let lists = text.lines().filter_map(|line| line.split_once("accepted: "));
    lists.map(|(_, list)| list.split(", ").map(str::to_owned).collect()).collect()
}

#[test]
fn the_words_of_the_schemas_are_those_of_the_reader() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("knowledge").join("wrong.toml");
    std::fs::create_dir(file.parent().unwrap()).unwrap();
    std::fs::write(&file, WRONG_WORDS).unwrap();
    let mut read = accepted(&["lint", file.to_str().unwrap()]);
    let kitchen = folder.path().join("kitchen.toml");
    std::fs::write(&kitchen, "name = \"x\"\naltitude = \"1 m\"\nmeasures = \"zzz\"\n").unwrap();
    read.extend(accepted(&["lint", kitchen.to_str().unwrap()]));
    let mut listed = Vec::new();
    for kind in ["knowledge", "kitchen"] {
        words(&schema(&[kind]), &mut listed);
    }
    for lists in [&mut read, &mut listed] {
        lists.sort();
        lists.dedup();
    }
    assert_eq!(read, listed);
}

/// Collects every list of words of a schema.
fn words(schema: &Value, found: &mut Vec<Vec<String>>) {
    match schema {
        Value::Object(map) => {
            if let Some(Value::Array(list)) = map.get("enum") {
                found.push(list.iter().map(|word| word.as_str().unwrap().to_owned()).collect());
            }
            map.values().for_each(|inner| words(inner, found));
        }
        Value::Array(list) => list.iter().for_each(|inner| words(inner, found)),
        _ => {}
    }
}

const WRONG_WORDS: &str = r#"
[[source]]
id = "a-source"
author = "A"
title = "B"
year = 2000
kind = "zzz"

[[attribute]]
id = "an-attribute"
name = "an attribute"
unit = "%"
better = "zzz"
group = "g"
notice = { ratio = { typical = 2, source = "common practice" } }

[[goal]]
id = "a-goal"
name = "a goal"
summary = "s"
attribute = "soluble-solids"
target = { typical = 60, unit = "°Brix", source = "common practice" }
reach = "zzz"

[[aroma]]
id = "an-aroma"
name = "an aroma"
cas = "1-1-1"
note = "zzz"
smell = "s"
values = {}

[[hazard]]
id = "a-hazard"
name = "a hazard"
signal = "zzz"
caution = "c"
source = "common practice"
rule = [{ verdict = "zzz", says = "s", when = [] }]

[[appliance]]
id = "an-appliance"
name = "an appliance"
summary = "s"
found = "zzz"

[[appliance]]
id = "another-appliance"
name = "another appliance"
summary = "s"
found = "home"
values = { power = { typical = 1, unit = "kW", source = "common practice", confidence = "zzz" } }
"#;

#[test]
fn names_are_offered_and_others_stay_allowed() {
    let recipe = schema(&["recipe", "--names"]);
    let technique = &recipe["$defs"]["WrittenStep"]["properties"]["technique"];
    let offered = technique["anyOf"][0]["enum"].as_array().unwrap();
    assert!(offered.contains(&json!("vacuum-concentration")));
    assert_eq!(check(&json!("rotary evaporation"), technique, &recipe, ""), Ok(()));
    let kitchen = schema(&["kitchen", "--names"]);
    let names = &kitchen["properties"]["appliances"]["propertyNames"]["anyOf"][0]["enum"];
    assert!(names.as_array().unwrap().contains(&json!("wide-pan")));
}

#[test]
fn all_schemas_go_into_a_folder() {
    let folder = tempfile::tempdir().unwrap();
    let place = folder.path().join("schemas");
    printed(&["schema", "--output", place.to_str().unwrap()]);
    for kind in KINDS {
        let path = place.join(format!("{kind}.schema.json"));
        let value: Value = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
        assert_eq!(value["$schema"], "https://json-schema.org/draft/2020-12/schema");
    }
}
