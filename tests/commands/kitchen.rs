use super::{standin, words};

#[test]
fn a_kitchen_is_written_from_options_and_shown() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("mine.toml");
    let file = file.to_str().unwrap();
    let options = "--name Mine --own \"induction-hob:power=2 kW\" --own wide-pan --supply agar \
                   --altitude \"120 m\"";
    let mut arguments = vec!["kitchen".to_owned(), "new".to_owned(), file.to_owned()];
    arguments.extend(words(options));
    let run = standin(&arguments);
    assert_eq!(run.code, Some(0), "{}", run.errors);
    let text = std::fs::read_to_string(file).unwrap();
    assert!(text.contains("[appliances.induction-hob]\npower = \"2 kW\""), "{text}");
    let shown = standin(&["kitchen", "show", file, "--format", "json"]);
    let shown: serde_json::Value = serde_json::from_str(&shown.out).unwrap();
    assert_eq!(shown["altitude_m"], 120.0);
    let again = standin(&arguments);
    assert_eq!(again.code, Some(2));
    assert!(again.errors.contains("exists already"), "{}", again.errors);
    assert_eq!(std::fs::read_to_string(file).unwrap(), text);
    arguments.push("--force".to_owned());
    assert_eq!(standin(&arguments).code, Some(0));
}

#[test]
fn without_a_terminal_the_missing_options_are_named() {
    let run = standin(&words("kitchen new never-written.toml --name Mine"));
    assert_eq!(run.code, Some(2));
    assert!(run.errors.contains("--own is not given"), "{}", run.errors);
    assert!(!std::path::Path::new("never-written.toml").exists());
}

#[test]
fn a_kitchen_with_a_fault_is_not_written() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("mine.toml");
    let run =
        standin(&["kitchen", "new", file.to_str().unwrap(), "--name", "Mine", "--own", "no-such"]);
    assert_eq!(run.code, Some(2));
    assert!(!file.exists() && run.errors.contains("no-such"), "{}", run.errors);
}
