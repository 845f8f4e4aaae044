//! The bench's questions about parting and shearing, asked as a user would.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first fault")]

use standin::calc::{self, Answer, CalcError, Family, Question};

/// Reads `name --input amount --input "an amount"` as a shell would.
fn inputs(example: &str) -> (String, Vec<(String, String)>) {
    let mut parts = example.split(" --");
    let name = parts.next().unwrap().trim().to_owned();
    let pair = |part: &str| {
        let (input, amount) = part.split_once(' ').unwrap();
        (input.to_owned(), amount.trim().trim_matches('"').to_owned())
    };
    (name, parts.map(pair).collect())
}

fn mechanical() -> impl Iterator<Item = &'static Question> {
    let families = [Family::Parting, Family::Shearing];
    calc::questions().into_iter().filter(move |question| families.contains(&question.family))
}

fn ask(example: &str) -> Result<Answer, CalcError> {
    let (name, given) = inputs(example);
    let given: Vec<(&str, &str)> =
        given.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    calc::find(&name).unwrap_or_else(|| panic!("no question `{name}`")).ask(&given)
}

#[test]
fn every_example_is_answered_with_declared_finite_outputs() {
    let mut asked = 0;
    for question in mechanical() {
        let answer = ask(question.example).unwrap_or_else(|e| panic!("{}: {e}", question.name));
        assert!(!answer.values.is_empty(), "{}", question.name);
        for (key, value) in &answer.values {
            assert!(question.output(key).is_some(), "{}: `{key}` is not declared", question.name);
            assert!(value.is_finite(), "{}: {key} is {value}", question.name);
        }
        asked += 1;
    }
    assert!(asked >= 30, "{asked} questions");
}

#[test]
fn names_of_questions_are_unique() {
    let mut names: Vec<&str> = mechanical()
        .flat_map(|q| std::iter::once(q.name).chain(q.other_names.iter().copied()))
        .collect();
    let all = names.len();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), all);
}

#[test]
fn improvised_and_overdriven_rotors_are_refused() {
    let refused = |example: &str| ask(example).unwrap_err().to_string();
    let message = refused("spin --speed \"2000 rpm\" --radius \"20 cm\" --rotor improvised");
    assert!(message.contains("improvised rotor is refused"), "{message}");
    let message =
        refused("spin --speed \"6000 rpm\" --radius \"10 cm\" --rated-speed \"4000 rpm\"");
    assert!(message.contains("4000 rpm that the maker states"), "{message}");
    let message = refused("spin --force \"500 g\" --radius \"10 cm\" --rotor hand-spinner");
    assert!(message.contains("hand-driven spinner"), "{message}");
    assert!(ask("spin --speed \"900 rpm\" --radius \"11 cm\" --rotor hand-spinner").is_ok());
}

#[test]
fn contradictory_inputs_are_refused_with_their_names() {
    for (example, word) in [
        ("spin --radius \"10 cm\"", "speed"),
        ("spin --radius \"10 cm\" --speed \"900 rpm\" --force \"90 g\"", "force"),
        ("sizes --median \"20 um\"", "spread"),
        ("drip --head \"10 cm\" --medium-resistance \"1e9 1/m\"", "share"),
        ("homogenise --exponent 0.6", "pressure"),
        ("emulsifier --oil \"300 mL\"", "dose"),
        ("shear --viscosity-ratio 0.1 --shear-rate \"100 1/s\"", "interfacial-tension"),
        ("grind --feed \"2 mm\"", "product"),
        ("grind-time --feed \"2 mm\" --limit \"50 um\" --time-constant \"1 min\"", "time"),
        ("equivalent-time --force \"90 g\" --time \"1 min\" --speed \"900 rpm\"", "radius"),
    ] {
        let message = ask(example).unwrap_err().to_string();
        assert!(message.contains(&format!("`{word}`")), "{example}: {message}");
    }
}

#[test]
fn thick_puree_gives_no_clear_liquid() {
    let message = ask("sediment --force \"1 g\" --feed-solids \"40 %\"").unwrap_err().to_string();
    assert!(message.contains("must be pressed"), "{message}");
}

#[test]
fn shear_alone_does_not_break_a_thick_droplet() {
    let answer = ask("shear --viscosity-ratio 5").unwrap();
    assert_eq!(answer.get("breaks_up_bool"), Some(0.0));
    assert!(answer.remarks.iter().any(|remark| remark.contains("narrow gap")));
}

#[test]
fn raw_cold_milk_creams_faster_than_its_single_globules() {
    let left = |milk: &str| {
        ask(&format!("cream --depth \"10 cm\" --time \"2 h\" --milk {milk}"))
            .unwrap()
            .get("fat_left_fraction")
            .unwrap()
    };
    assert!(left("raw-cold") < 0.6 && left("raw-warm") > 0.9);
}
