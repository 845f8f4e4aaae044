//! `standin adapt` and its neighbours through the binary.

use super::standin;

const TREACLE: &str = "examples/pear-treacle.toml";
const FLAT: &str = "examples/tiny-flat.toml";

#[test]
fn the_example_is_adapted_with_route_times_yield_and_losses() {
    let run = standin(&["adapt", TREACLE, "--kitchen", FLAT]);
    assert_eq!(run.code, Some(0), "{}", run.errors);
    for part in ["At home:", "In the laboratory: vacuum concentration", "Buy", "pear juice"] {
        assert!(run.out.contains(part), "no `{part}` in {}", run.out);
    }
    for part in ["cooked flavour", "top notes kept", "flavour solids kept", "hands-on", "CAUTION"] {
        assert!(run.out.contains(part), "no `{part}` in {}", run.out);
    }
    assert!(run.out.lines().all(|line| line.chars().count() <= 80), "wider than 80 columns");
    assert!(!run.out.contains('\u{1b}'), "no colour in a pipe");
}

#[test]
fn the_same_call_gives_the_same_bytes() {
    for format in ["table", "json", "markdown", "html"] {
        let call = ["adapt", TREACLE, "--kitchen", FLAT, "--format", format];
        assert_eq!(standin(&call).out, standin(&call).out, "{format}");
    }
}

#[test]
fn json_keys_carry_their_unit() {
    let run = standin(&["adapt", TREACLE, "--kitchen", FLAT, "--format", "json"]);
    let value: serde_json::Value = serde_json::from_str(&run.out).unwrap();
    for key in ["makes_kg", "time_s", "hands_on_s"] {
        let range = &value[key];
        let number = |end: &str| range[end].as_f64().unwrap();
        assert!(number("low") <= number("typical") && number("typical") <= number("high"), "{key}");
    }
    let technique = &value["steps"][0]["technique"];
    assert_eq!(technique["id"], "vacuum-concentration");
    assert!(technique["routes"][0]["attributes_si"]["aroma-top"]["typical"].is_number());
    assert!(technique["ruled_out"].is_object());
}

#[test]
fn a_goal_out_of_reach_exits_with_one_and_says_no() {
    let run = standin(&["adapt", "examples/clear-tomato-water.toml", "--kitchen", FLAT]);
    assert_eq!(run.code, Some(1), "{}", run.errors);
    assert!(run.out.contains("No home route"), "{}", run.out);
    assert!(run.out.contains("The closest"), "{}", run.out);
}

#[test]
fn a_missing_file_and_a_wrong_key_are_reported_with_their_place() {
    let missing = standin(&["adapt", "no-such.toml", "--kitchen", FLAT]);
    assert_eq!(missing.code, Some(2));
    assert!(missing.errors.contains("no-such.toml"), "{}", missing.errors);
    let folder = std::env::temp_dir().join("standin-adapt-test");
    std::fs::create_dir_all(&folder).unwrap();
    let path = folder.join("recipe.toml");
    let text = std::fs::read_to_string(TREACLE).unwrap().replace("makes =", "mkes =");
    std::fs::write(&path, text).unwrap();
    let wrong = standin(&["adapt", path.to_str().unwrap(), "--kitchen", FLAT]);
    assert_eq!(wrong.code, Some(2));
    assert!(wrong.errors.contains("recipe.toml:4:1"), "{}", wrong.errors);
    assert!(wrong.errors.contains("did you mean `makes`?"), "{}", wrong.errors);
}

#[test]
fn an_unknown_technique_names_the_nearest() {
    let run = standin(&["routes", "vacuum", "concentraton", "--kitchen", FLAT]);
    assert_eq!(run.code, Some(2));
    assert!(run.errors.contains("vacuum concentration"), "{}", run.errors);
}

#[test]
fn routes_stand_beside_the_laboratory() {
    let call = ["routes", "rotary evaporation", "--feed", "2 kg rhubarb juice", "--to", "35 °Brix"];
    let run = standin(&[&call[..], &["--kitchen", FLAT]].concat());
    assert_eq!(run.code, Some(0), "{}", run.errors);
    // The name may wrap within its column.
    assert!(run.out.contains("\nLab vacuum"), "{}", run.out);
    assert!(run.out.contains("2 kg of rhubarb juice"), "{}", run.out);
}

#[test]
fn show_finds_by_everyday_names() {
    assert!(standin(&["show", "skillet"]).out.contains("wide pan"));
    let none = standin(&["show", "vacum concentration"]);
    assert_eq!(none.code, Some(2));
    assert!(none.errors.contains("vacuum concentration"), "{}", none.errors);
}

#[test]
fn the_shipped_files_have_no_finding() {
    let run = standin(&["lint", "knowledge", "examples"]);
    assert_eq!(run.code, Some(0), "{}", run.errors);
}

#[test]
fn wishes_choose_another_route_or_say_no() {
    let adapt = |wishes: &[&str]| {
        standin(&[&["adapt", TREACLE, "--kitchen", FLAT, "--format", "json"], wishes].concat())
    };
    let route = |wishes: &[&str]| {
        let run = adapt(wishes);
        assert_eq!(run.code, Some(0), "{wishes:?}: {}", run.errors);
        let value: serde_json::Value = serde_json::from_str(&run.out).unwrap();
        assert_eq!(value["choice"]["search"], "exact");
        value["steps"][0]["technique"]["routes"][0]["id"].as_str().unwrap().to_owned()
    };
    assert_eq!(route(&["--prefer", "time"]), "wide-pan-boil");
    assert_eq!(route(&["--within", "4 h"]), "wide-pan-boil");
    assert_eq!(route(&["--pin", "concentrate=hard boil in a wide pan"]), "wide-pan-boil");
    assert_eq!(route(&["--pin", "1=wide-pan-boil"]), "wide-pan-boil");
    assert_eq!(route(&["--without", "wide pan"]), "concentrate-ready-made");
    let late = adapt(&["--within", "5 min"]);
    assert_eq!(late.code, Some(1), "{}", late.errors);
    let value: serde_json::Value = serde_json::from_str(&late.out).unwrap();
    assert_eq!(value["fits_within"], false);
}

#[test]
fn wishes_that_cannot_be_are_explained() {
    let adapt = |wishes: &[&str]| {
        let run = standin(&[&["adapt", TREACLE, "--kitchen", FLAT], wishes].concat());
        assert_eq!(run.code, Some(2), "{wishes:?}");
        run.errors
    };
    for (wishes, says) in [
        (["--pin", "treacle=microwave-bursts"], "needs microwave oven"),
        (["--pin", "treacle=wide-pan-boyl"], "did you mean `wide-pan-boil`?"),
        (["--pin", "treacel=wide-pan-boil"], "did you mean `treacle`?"),
        (["--pin", "2=wide-pan-boil"], "plain work"),
        (["--without", "wide pen"], "did you mean `wide pan`?"),
        (["--within", "6"], "has no unit"),
    ] {
        let errors = adapt(&wishes);
        assert!(errors.contains(says), "{wishes:?}: {errors}");
    }
    let run = standin(&["adapt", TREACLE, "--kitchen", FLAT, "--without", "pressure cooker"]);
    assert!(run.errors.contains("has no pressure cooker to leave out"), "{}", run.errors);
}

#[test]
fn the_size_is_asked_for_in_three_ways() {
    let glass = "examples/two-tomato-glass.toml";
    let json = |wishes: &[&str]| {
        let call = [&["adapt", glass, "--kitchen", FLAT, "--format", "json"], wishes].concat();
        let run = standin(&call);
        let value: serde_json::Value = serde_json::from_str(&run.out).unwrap();
        value
    };
    let close = |value: &serde_json::Value, wanted: f64| {
        assert!((value.as_f64().unwrap() / wanted - 1.0).abs() < 0.01, "{value} for {wanted}");
    };
    close(&json(&["--serves", "4"])["scale"], 0.5);
    close(&json(&["--makes", "500 g"])["makes_kg"]["typical"], 0.5);
    let scarce = json(&["--have", "1.2 kg tomatoes", "--have", "1 kg salt"]);
    close(&scarce["ingredients"][0]["bought_kg"], 1.2);
    assert_eq!(scarce["scarcest"], "tomato");
    assert!(scarce["ledger"]["largest_gap_kg"].as_f64().unwrap() < 0.001);
    let kept = standin(&["adapt", glass, "--kitchen", FLAT, "--have", "1.2 kg tomatoes"]);
    assert!(kept.out.contains("the tomato decides how much can be made"), "{}", kept.out);
    for (wishes, says) in [
        (["--have", "1 kg carrots"], "the recipe takes no carrots"),
        (["--makes", "800"], "no mass or volume"),
        (["--serves", "-2"], "unexpected"),
        (["--serves", "0"], "write a number up to"),
    ] {
        let run = standin(&[&["adapt", glass, "--kitchen", FLAT][..], &wishes].concat());
        assert_eq!(run.code, Some(2), "{wishes:?}");
        assert!(run.errors.contains(says), "{wishes:?}: {}", run.errors);
    }
    let unknown = standin(&["adapt", TREACLE, "--kitchen", FLAT, "--serves", "4"]);
    assert!(unknown.errors.contains("does not say how many it serves"), "{}", unknown.errors);
}
