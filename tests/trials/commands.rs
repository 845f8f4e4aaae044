//! The commands through the binary.

use std::path::Path;
use std::process::Command;

use super::Scratch;

struct Run {
    code: Option<i32>,
    out: String,
    errors: String,
}

fn standin(arguments: &[&str]) -> Run {
    let mut command = Command::new(env!("CARGO_BIN_EXE_standin"));
    command.args(arguments).env_remove("NO_COLOR").env("TERM", "dumb");
    let output = command.stdin(std::process::Stdio::null()).output().unwrap();
    Run {
        code: output.status.code(),
        out: String::from_utf8(output.stdout).unwrap(),
        errors: String::from_utf8(output.stderr).unwrap(),
    }
}

/// A book with a recipe and a kitchen of the examples.
fn book() -> Scratch {
    let scratch = Scratch::book();
    let examples = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let copy = |from: &str, to: &str| {
        let text = std::fs::read_to_string(examples.join(from)).unwrap();
        scratch.write(to, &text);
    };
    copy("pear-treacle.toml", "recipes/pear-treacle.toml");
    copy("tiny-flat.toml", "kitchens/tiny-flat.toml");
    scratch
}

const STEP: &str = "treacle; route=wide-pan-boil; time=28 min; mass_in=500 g; mass_out=101 g";

/// Adds a trial with more options.
fn add(folder: &str, step: &str, more: &[&str]) -> Run {
    let options = [
        "trial",
        "add",
        "pear-treacle",
        "--kitchen",
        "tiny-flat",
        "--book",
        folder,
        "--tester",
        "JD",
        "--verdict",
        "pass",
        "--start",
        "2026-03-04T10:30:00+01:00",
        "--ingredient",
        "juice=500 g",
        "--step",
        step,
    ];
    standin(&[options.as_slice(), more].concat())
}

#[test]
fn a_trial_is_added_listed_fitted_and_amended() {
    let scratch = book();
    let folder = scratch.0.to_str().unwrap();
    let added = add(folder, STEP, &["--note", "dark"]);
    assert_eq!((added.code, added.out.as_str()), (Some(0), "T-01\n"), "{}", added.errors);
    let text = std::fs::read_to_string(scratch.0.join("trials/t-01.toml")).unwrap();
    assert!(text.contains("start = 2026-03-04T10:30:00+01:00\n"), "{text}");
    assert!(text.contains("recipe_sha256 = \""), "{text}");

    let list = standin(&["trial", "list", folder]);
    assert_eq!(list.code, Some(0), "{}", list.errors);
    assert!(list.out.contains("T-01") && list.out.contains("pear-treacle"), "{}", list.out);

    let fit = standin(&["trial", "fit", folder, "--samples", "200", "--format", "json"]);
    assert_eq!(fit.code, Some(0), "{}", fit.errors);
    let json: serde_json::Value = serde_json::from_str(&fit.out).unwrap();
    assert_eq!(json["compared"], 2, "{}", fit.out);
    let quantities: Vec<&str> = json["learned"]
        .as_array()
        .unwrap()
        .iter()
        .map(|l| l["quantity"].as_str().unwrap())
        .collect();
    assert_eq!(quantities, ["product-yield", "time"]);
    assert_eq!(json["learned"][1]["measurements"][0]["measured_si"], 1680.0);

    let set = "step.treacle.time=29 min";
    let amend = |set: &str| {
        let id = ["trial", "amend", "T-01", "--book", folder, "--by", "LD", "--reason", "clock"];
        standin(&[id.as_slice(), &["--set", set]].concat())
    };
    let amended = amend(set);
    assert_eq!(amended.code, Some(0), "{}", amended.errors);
    let after = std::fs::read_to_string(scratch.0.join("trials/t-01.toml")).unwrap();
    assert!(after.starts_with(&text) && after.contains("reason = \"clock\""), "{after}");
    let refused = amend("step.treacle.time=soon");
    assert_eq!(refused.code, Some(2));
    assert!(refused.errors.contains("no number in `soon`"), "{}", refused.errors);
}

#[test]
fn every_format_of_a_fit_is_written() {
    let scratch = book();
    let folder = scratch.0.to_str().unwrap();
    assert_eq!(add(folder, STEP, &[]).code, Some(0));
    for (format, part) in [
        ("table", "Within the predicted range"),
        ("markdown", "# Predicted and measured"),
        ("html", "<svg"),
    ] {
        let fit = standin(&["trial", "fit", folder, "--samples", "100", "--format", format]);
        assert_eq!(fit.code, Some(0), "{}", fit.errors);
        assert!(fit.out.contains(part), "{format}: {}", fit.out);
    }
}

#[test]
fn a_prediction_is_corrected_by_the_trials_of_a_book() {
    let scratch = book();
    let folder = scratch.0.to_str().unwrap();
    for _ in 0..3 {
        assert_eq!(add(folder, STEP, &[]).code, Some(0));
    }
    let recipe = scratch.0.join("recipes/pear-treacle.toml");
    let kitchen = scratch.0.join("kitchens/tiny-flat.toml");
    let plain = ["adapt", recipe.to_str().unwrap(), "--kitchen", kitchen.to_str().unwrap()];
    let plain = [plain.as_slice(), &["--samples", "200"]].concat();
    let raw = standin(&plain);
    assert!(!raw.out.contains("Corrected by trials"), "{}", raw.out);
    let corrected = standin(&[plain.as_slice(), &["--with-trials", folder]].concat());
    assert_eq!(corrected.code, raw.code, "{}", corrected.errors);
    assert!(corrected.out.contains("Corrected by trials"), "{}", corrected.out);
    let json = [plain.as_slice(), &["--with-trials", folder, "--format", "json"]].concat();
    let json: serde_json::Value = serde_json::from_str(&standin(&json).out).unwrap();
    assert!(json["corrected_by_trials"].is_array() && json["recipe"] == "Pear treacle");
}

#[test]
fn doubtful_values_need_a_yes_and_are_then_kept() {
    let scratch = book();
    let folder = scratch.0.to_str().unwrap();
    let doubtful = "treacle; route=wide-pan-boil; time=46 d; mass_in=500 g; mass_out=101 g";
    let asked = add(folder, doubtful, &[]);
    assert_eq!(asked.code, Some(2), "{}", asked.errors);
    assert!(
        asked.errors.contains("took 46 d") && asked.errors.contains("--yes"),
        "{}",
        asked.errors
    );
    assert!(asked.errors.contains("far from what is predicted"), "{}", asked.errors);
    assert!(!scratch.0.join("trials").exists());
    let kept = add(folder, doubtful, &["--yes"]);
    assert_eq!(kept.code, Some(0), "{}", kept.errors);
    let text = std::fs::read_to_string(scratch.0.join("trials/t-01.toml")).unwrap();
    assert!(text.contains("time = \"46 d\""));
}

#[test]
fn wrong_use_is_explained_and_writes_nothing() {
    let scratch = book();
    let folder = scratch.0.to_str().unwrap();
    let base = ["trial", "add", "pear-treacle", "--kitchen", "tiny-flat", "--book", folder];
    let with = |more: &[&str]| standin(&[base.as_slice(), more].concat());
    let missing = with(&["--tester", "JD"]);
    assert_eq!(missing.code, Some(2));
    assert!(missing.errors.contains("missing: --verdict, --step"), "{}", missing.errors);
    for (more, part) in [
        (["--start", "yesterday"], "is not a date"),
        (["--condition", "moon=full"], "no condition `moon`"),
        (["--score", "colour=good"], "not a whole number"),
        (["--verdict", "great"], "accepted: pass"),
        (["--step", "time=4 min"], "begin with what the step makes"),
    ] {
        let run = with(&more);
        assert_eq!(run.code, Some(2), "{more:?}");
        assert!(run.errors.contains(part), "{more:?}: {}", run.errors);
    }
    for (recipe, part) in [
        ("../book", "does not lie in the recipes"),
        ("/etc/hostname", "does not lie in the recipes"),
        ("no-such", "there is no"),
    ] {
        let run = standin(&["trial", "add", recipe, "--kitchen", "tiny-flat", "--book", folder]);
        assert_eq!(run.code, Some(2), "{recipe}");
        let missing = run.errors.contains("there is no");
        assert!(run.errors.contains(part) || missing, "{recipe}: {}", run.errors);
    }
    let no_book = standin(&["trial", "list", "/no/such/book"]);
    assert_eq!(no_book.code, Some(2));
    assert!(!scratch.0.join("trials").exists());
}

#[test]
fn a_file_that_cannot_be_read_makes_the_list_say_no() {
    let scratch = book();
    let folder = scratch.0.to_str().unwrap();
    assert_eq!(add(folder, STEP, &[]).code, Some(0));
    scratch.write("trials/t-02.toml", "id = [");
    let list = standin(&["trial", "list", folder]);
    assert_eq!(list.code, Some(1));
    assert!(list.out.contains("T-01") && list.errors.contains("t-02.toml:1"), "{}", list.errors);
}

#[test]
fn the_example_book_can_be_listed_and_fitted() {
    let folder = super::example_book();
    for command in ["list", "fit"] {
        let run = standin(&["trial", command, folder.to_str().unwrap()]);
        assert_eq!(run.code, Some(0), "{}", run.errors);
        assert!(run.out.contains("Borrowed Instruments"), "{}", run.out);
    }
}

#[test]
fn a_panel_says_only_what_its_result_allows() {
    let cases: [(&[&str], &str); 5] = [
        (
            &["triangle", "--tasters", "30", "--correct", "14"],
            "this panel did not tell them apart (14 of 30, p = 0.09); the test could miss a \
             difference noticed by up to 45 %",
        ),
        (
            &["triangle", "--tasters", "30", "--correct", "15"],
            "a panel of 30 told them apart (15 of 30, p = 0.043)",
        ),
        (&["triangle", "--tasters", "30", "--correct", "11"], "triangle test for similarity"),
        (
            &["paired", "--tasters", "44", "--chose", "32", "--two-sided"],
            "a panel of 44 told them apart (32 of 44, p = 0.0037)",
        ),
        (&["triangle"], "66 tasters, difference from 29"),
    ];
    for (arguments, part) in cases {
        let wide = [&["--columns", "400", "panel"], arguments].concat();
        let run = standin(&wide);
        assert_eq!(run.code, Some(0), "{}", run.errors);
        assert!(run.out.contains(part), "{arguments:?}: {}", run.out);
        for banned in ["identical", "indistinguishable", "as good as"] {
            assert!(!run.out.contains(banned), "{banned}: {}", run.out);
        }
    }
}

#[test]
fn a_panel_that_cannot_be_is_refused() {
    for (arguments, part) in [
        (["triangle", "--tasters", "0", "--correct", "0"], "from 1 to 10000"),
        (["triangle", "--tasters", "5", "--correct", "6"], "6 right answers of 5"),
        (["triangle", "--tasters", "5", "--alpha", "90 %"], "a risk of 0.9"),
    ] {
        let run = standin(&[&["panel"], arguments.as_slice()].concat());
        assert_eq!(run.code, Some(2), "{}", run.out);
        assert!(run.errors.contains(part), "{}", run.errors);
    }
}
