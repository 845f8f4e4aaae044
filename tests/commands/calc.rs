//! `standin calc`.

use insta::assert_snapshot;
use serde_json::Value;

use crate::{standin, words};

fn json(arguments: &[&str]) -> Value {
    let run = standin(&[arguments, &["--format", "json"]].concat());
    assert_eq!(run.code, Some(0), "{}", run.errors);
    serde_json::from_str(&run.out).unwrap()
}

fn catalogue() -> Vec<Value> {
    json(&["calc", "list"])["questions"].as_array().unwrap().clone()
}

/// Asks how much salt a brine needs, at one temperature or along a range.
fn brine(temperature: &str, further: &[&str]) -> crate::Run {
    let ask = ["calc", "brine-for", "--water", "2 kg", "--temperature", temperature];
    standin(&[&ask, further].concat())
}

/// Hides the digits, which are the business of the reference tests.
fn shape(text: &str) -> String {
    text.replace(|sign: char| sign.is_ascii_digit(), "0")
}

#[test]
fn the_example_of_every_question_has_an_answer_in_every_format() {
    for question in catalogue() {
        let example = words(question["example"].as_str().unwrap());
        for format in ["table", "json", "markdown", "html"] {
            let arguments = [&example[1..], &["--format".into(), format.into()]].concat();
            let run = standin(&arguments);
            assert_eq!(run.code, Some(0), "{arguments:?}: {}", run.errors);
            assert!(run.errors.is_empty(), "{arguments:?}: {}", run.errors);
        }
    }
}

#[test]
fn every_number_of_an_example_has_a_declared_key() {
    for question in catalogue() {
        let example = words(question["example"].as_str().unwrap());
        let example: Vec<&str> = example[1..].iter().map(String::as_str).collect();
        let answer = json(&example);
        assert_eq!(answer["question"], question["name"]);
        let keys: Vec<&Value> =
            question["outputs"].as_array().unwrap().iter().map(|output| &output["key"]).collect();
        let outputs = answer["outputs"].as_object().unwrap();
        assert!(!outputs.is_empty(), "{}", question["name"]);
        for (key, value) in outputs {
            assert!(keys.contains(&&Value::from(key.as_str())), "{}: {key}", question["name"]);
            assert!(value.is_number(), "{}: {key} is {value}", question["name"]);
        }
    }
}

#[test]
fn the_help_of_every_question_shows_inputs_results_and_example() {
    for question in catalogue() {
        let name = question["name"].as_str().unwrap();
        let help = standin(&["calc", name, "--help"]);
        assert_eq!(help.code, Some(0), "{name}: {}", help.errors);
        for input in question["inputs"].as_array().unwrap() {
            let flag = format!("--{} ", input["name"].as_str().unwrap());
            assert!(help.out.contains(&flag), "{name}: {flag}");
        }
        for output in question["outputs"].as_array().unwrap() {
            assert!(help.out.contains(output["key"].as_str().unwrap()), "{name}: {output}");
        }
        let joined = help.out.replace(" \\\n    ", " ");
        assert!(joined.contains(question["example"].as_str().unwrap()), "{name}: {joined}");
    }
}

#[test]
fn the_overview_names_every_question() {
    let help = standin(&["calc", "--help"]).out;
    for question in catalogue() {
        let name = question["name"].as_str().unwrap();
        assert!(help.contains(&format!("\n  {name} ")), "{name}");
    }
}

#[test]
fn an_answer_is_a_table_of_results() {
    assert_snapshot!(shape(&brine("-12 °C", &[]).out), @"
    How much salt keeps a brine liquid at a temperature
    ═══════════════════════════════════════════════════
    Salt:        table-salt
    Temperature: -00 °C
    Water:       0 kg

    Result                     Value
    ────────────────────────────────────
    Salt by mass of the brine  0.000
    Salt                       0.0000 kg
    ");
}

#[test]
fn yes_or_no_and_long_times_are_written_for_a_cook() {
    let ask = ["calc", "cooling-check", "--time-to-21", "100min", "--time-to-5", "5h"];
    let run = standin(&ask);
    assert_eq!(run.code, Some(0), "{}", run.errors);
    assert!(run.out.contains(" yes\n") && run.out.contains(" s (2 h)\n"), "{}", run.out);
    assert!(json(&ask)["outputs"]["fast_enough_bool"].is_number());
}

#[test]
fn a_negative_amount_may_follow_a_space_or_an_equals_sign() {
    let spaced = brine("-12 °C", &["--format", "json"]).out;
    let ask = ["calc", "brine-for", "--water=2 kg", "--temperature=-12C", "--format=json"];
    let joined = standin(&ask).out;
    assert_eq!(spaced.replace("-12 °C", "-12C"), joined);
}

#[test]
fn a_range_gives_rows_and_says_where_there_is_no_answer() {
    let run = brine("-24..-4 step 4 °C", &[]);
    assert_eq!(run.code, Some(0), "{}", run.errors);
    assert_snapshot!(shape(&run.out), @"
    How much salt keeps a brine liquid at a temperature
    ═══════════════════════════════════════════════════
    Salt:        table-salt
    Temperature: -00..-0 step 0 °C
    Water:       0 kg

    Temperature (°C)  Salt by mass of the brine  Salt (kg)
    ──────────────────────────────────────────────────────
                 −00                          –          –
                 −00                     0.0000     0.0000
                 −00                     0.0000     0.0000
                 −00                      0.000     0.0000
                  −0                      0.000     0.0000
                  −0                    0.00000     0.0000

    Note: no answer at -00 °C: the freezing curve of the brine, up to its eutectic,
          holds for temperature from −00.0000000 °C to 0 °C, got −00 °C
    ");
}

#[test]
fn a_range_in_json_keeps_the_unit_that_was_written() {
    let ask = ["calc", "brine-for", "--temperature", "-28..-4 step 12 °C"];
    let answer = json(&ask);
    assert_eq!(answer["range"]["unit"], "°C");
    let rows = answer["rows"].as_array().unwrap();
    assert_eq!(rows.len(), 3);
    assert_eq!(rows[0]["temperature"], -28.0);
    assert_eq!(rows[0]["salt_kg"], Value::Null);
    assert!(rows[1]["salt_kg"].is_number());
    assert_eq!(answer["remarks"].as_array().unwrap().len(), 1);
}

#[test]
fn a_range_without_any_answer_is_an_error() {
    let run = brine("-90..-80 °C", &[]);
    assert_eq!(run.code, Some(2));
    assert!(run.out.is_empty() && run.errors.starts_with("error["), "{}", run.errors);
}

#[test]
fn a_wrong_question_offers_the_nearest() {
    let run = standin(&["calc", "brine-fro"]);
    assert_eq!(run.code, Some(2));
    assert!(run.errors.contains("brine-for"), "{}", run.errors);
}

#[test]
fn a_word_of_a_summary_finds_its_question() {
    let run = standin(&["calc", "crystal"]);
    assert_eq!(run.code, Some(2));
    assert!(run.errors.contains("crystal-size"), "{}", run.errors);
}

#[test]
fn a_faulty_knowledge_option_does_not_stop_the_bench() {
    let run = brine("-12 °C", &["--knowledge", "nowhere"]);
    assert_eq!(run.code, Some(0), "{}", run.errors);
}

#[test]
fn an_amount_without_its_unit_is_explained() {
    let run = brine("12", &[]);
    assert_eq!(run.code, Some(2));
    assert_snapshot!(run.errors, @"
    error[wrong-use]: `temperature`: `12` has no unit
      = help: add a unit: K, °C, °F
    ");
}

#[test]
fn two_ranges_are_refused() {
    let ask = ["calc", "brine-for", "--temperature", "-12..-4 °C", "--water", "1..2 kg"];
    let run = standin(&ask);
    assert_eq!(run.code, Some(2));
    assert_snapshot!(run.errors, @"error[wrong-use]: only one input may be a range, not `temperature` and `water`");
}

#[test]
fn a_curve_is_drawn_with_its_finding_in_words() {
    let run = brine("-20..-4 °C", &["--plot", "-", "--plot-output", "salt_kg"]);
    assert_eq!(run.code, Some(0), "{}", run.errors);
    assert!(run.out.starts_with("<svg xmlns=") && run.out.ends_with("</svg>\n"));
    let after = run.out.split_once("<desc id=\"chart-text\">").unwrap().1;
    assert_snapshot!(shape(after.split_once("</desc>").unwrap().0), @"Salt falls from 0.0000 kg to 0.0000 kg as temperature goes from −00 °C to −0 °C.");
}

#[test]
fn a_curve_needs_a_range() {
    let run = brine("-12 °C", &["--plot", "-"]);
    assert_eq!(run.code, Some(2));
    assert!(run.out.is_empty() && run.errors.contains("range"), "{}", run.errors);
}

#[test]
fn a_page_is_whole_and_needs_nothing_else() {
    let page = brine("-20..-4 °C", &["--format", "html"]).out;
    assert!(page.starts_with("<!DOCTYPE html>") && page.trim_end().ends_with("</html>"));
    assert!(page.contains("role=\"img\"") && page.contains("<caption>"));
    for outside in ["src=", "<link", "@import", "url(", "<script"] {
        assert!(!page.contains(outside), "{outside}");
    }
}
