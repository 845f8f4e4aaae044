use super::{standin, words};

#[test]
fn a_recipe_that_cannot_be_made_is_exit_code_one_with_what_to_get() {
    let line = "check examples/clear-tomato-water.toml --kitchen examples/tiny-flat.toml \
                --samples 100 --missing --format json";
    let run = standin(&words(line));
    let result: serde_json::Value = serde_json::from_str(&run.out).unwrap();
    let verdict = result["recipes"][0]["verdict"].as_str().unwrap();
    assert_eq!(run.code, Some(if verdict == "no" { 1 } else { 0 }), "{}", run.errors);
    assert_eq!(result["kitchen"], "Tiny flat");
}

#[test]
fn a_folder_stands_for_the_recipes_in_it_and_must_hold_some() {
    let run = standin(&words("check src --kitchen examples/tiny-flat.toml"));
    assert_eq!(run.code, Some(2));
    assert!(run.errors.contains("holds no .toml file"), "{}", run.errors);
}
