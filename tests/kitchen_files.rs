//! Kitchen files: what is read of them, and what is said of faulty ones.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first fault")]

mod small_knowledge;

use proptest::prelude::*;
use standin::finding::{Code, Finding};
use standin::kitchen::Kitchen;
use standin::knowledge::{Knowledge, Provenance};
use standin::quantity::Measures;

const TINY: &str = r#"name = "Tiny flat"
altitude = "15 m"
room_temperature = "21 °C"
room_humidity = "50 %"
room_volume = "30 m³"
air_changes = "0.5 /h"
tap_water = "12 °C"
measures = "us"
supplies = ["cotton-cloth", "agar agar"]
eaters = "1 adult"
avoid = ["celery", "Pear juice"]
[appliances.electric-hob]
power = "1.5 kW"
[appliances."broad pan"]
diameter = "20-24 cm"
volume = "12 cups"
[appliances.second-pan]
kind = "wide-pan"
"#;

fn read(text: &str) -> Result<Kitchen, Vec<Finding>> {
    Kitchen::read(text, "k.toml", &small_knowledge::knowledge())
}

/// Reads a kitchen that must fail, and returns code, line, column and text of each finding.
fn faults(text: &str) -> Vec<(Code, usize, usize, String)> {
    let findings = read(text).unwrap_err();
    let place = |finding: &Finding| finding.line_and_column(text).unwrap();
    findings
        .iter()
        .map(|finding| {
            let (line, column) = place(finding);
            let help = finding.help.as_deref().unwrap_or_default();
            (finding.code, line, column, format!("{}\n{help}", finding.message))
        })
        .collect()
}

/// Asserts that one fault is found in a kitchen with one more line after its name.
fn one_fault(line: &str, code: Code, column: usize, parts: &[&str]) {
    let found = faults(&format!("name = \"K\"\n{line}\n"));
    assert_eq!(found.len(), 1, "{line}: {found:#?}");
    let (found_code, found_line, found_column, text) = &found[0];
    let at_line = 1 + line.matches('\n').count() + 1;
    assert_eq!((*found_code, *found_line, *found_column), (code, at_line, column), "{text}");
    for part in parts {
        assert!(text.contains(part), "{text:?} lacks {part:?}");
    }
}

#[test]
fn a_kitchen_is_read_with_its_place_gear_and_supplies() {
    let kitchen = read(TINY).unwrap();
    assert_eq!(kitchen.name, "Tiny flat");
    assert_eq!(kitchen.measures, Measures::Us);
    // From memory: ISO 2533:1975, tables: 101.325 kPa at 0 m and 100.129 kPa at 100 m, so 101.145 kPa at 15 m.
    assert!((kitchen.place.pressure.kilopascals() - 101.145).abs() < 0.002);
    assert!((kitchen.place.room_humidity - 0.5).abs() < 1e-12);
    assert!((kitchen.place.tap_water.celsius() - 12.0).abs() < 1e-9);
    assert!(kitchen.place.assumed.is_empty());
    assert_eq!(kitchen.supplies, ["agar", "cotton-cloth", "salt"]);
    assert_eq!(kitchen.avoid, ["celery", "pear-juice"]);
}

#[test]
fn stated_values_lie_over_those_of_the_knowledge_base() {
    let kitchen = read(TINY).unwrap();
    let hob = kitchen.serving("hob").next().unwrap();
    assert_eq!(hob.id, "electric-hob");
    assert!((hob.values["power"].typical() - 1500.0).abs() < 1e-9);
    assert_eq!(hob.values["power"].provenance, Provenance::Given);
    assert_eq!(hob.values["efficiency"].provenance, Provenance::CommonPractice);
    let pans: Vec<_> = kitchen.serving("wide-pan").collect();
    let labels: Vec<&str> = pans.iter().map(|pan| pan.label.as_str()).collect();
    assert_eq!(labels, ["broad pan", "second-pan"]);
    let diameter = pans[0].values["diameter"].estimate;
    assert!((diameter.low() - 0.20).abs() < 1e-12 && (diameter.high() - 0.24).abs() < 1e-12);
    // Twelve US cups of 236.588 mL: NIST Handbook 44, appendix C.
    assert!((pans[0].values["volume"].typical() - 12.0 * 236.588_236_5e-6).abs() < 1e-9);
    assert!(!pans[1].values.contains_key("volume"));
}

#[test]
fn roles_and_supplies_are_found() {
    let (kitchen, knowledge) = (read(TINY).unwrap(), small_knowledge::knowledge());
    assert_eq!(kitchen.serving("freezer").count(), 0);
    assert!(kitchen.has_supply("cloth", &knowledge) && kitchen.has_supply("salt", &knowledge));
    assert!(!kitchen.has_supply("gelatine", &knowledge));
}

#[test]
fn wide_words_for_allergens_take_in_all_that_they_may_mean() {
    let knowledge = small_knowledge::knowledge();
    let kitchen = read("name = \"K\"\navoid = [\"Gluten\", \"nuts\", \"juice\"]\n").unwrap();
    let all = ["barley", "juice", "oats", "peanuts", "rye", "tree nuts", "wheat"];
    assert_eq!(kitchen.avoid, all);
    assert_eq!(kitchen.avoids(&knowledge.foods["pear-juice"]), Some("juice"));
    assert_eq!(kitchen.avoids(&knowledge.foods["celery"]), None);
    let kitchen = read("name = \"K\"\navoid = [\"celery\"]\n").unwrap();
    assert_eq!(kitchen.avoids(&knowledge.foods["celery"]), Some("celery"));
}

#[test]
fn a_short_name_stands_for_the_only_value_that_ends_so() {
    let text = "name = \"K\"\n[appliances.freezer]\ntemperature = \"-24 °C\"\n";
    let kitchen = read(text).unwrap();
    let freezer = kitchen.serving("freezer").next().unwrap();
    assert!((freezer.values["freezer_temperature"].typical() - 249.15).abs() < 1e-9);
}

#[test]
fn what_is_left_out_of_the_place_is_assumed_and_listed() {
    let place = read("name = \"K\"\naltitude = \"2100 m\"\n").unwrap().place;
    // From memory: ISO 2533:1975, tables: 78.514 kPa at 2100 m.
    assert!((place.pressure.kilopascals() - 78.51).abs() < 0.02);
    let all = ["room_temperature", "room_humidity", "room_volume", "air_changes", "tap_water"];
    assert_eq!(place.assumed, all);
}

#[test]
fn a_stated_pressure_gives_the_altitude() {
    let place = read("name = \"K\"\npressure = \"89.874 kPa\"\n").unwrap().place;
    // From memory: ISO 2533:1975, tables: 89.874 kPa at 1000 m.
    assert!((place.altitude.metres() - 1000.0).abs() < 1.0, "{}", place.altitude.metres());
    assert!(place.altitude.metres() > 0.0);
}

#[test]
fn faults_of_syntax_and_keys_are_placed() {
    one_fault("altitud = \"3 m\"", Code::UnknownKey, 1, &["did you mean `altitude`?"]);
    one_fault("measures = metric", Code::Syntax, 12, &[]);
    one_fault("altitude = 15", Code::Syntax, 12, &["write it in quotes"]);
    let missing = faults("altitude = \"3 m\"\n");
    assert_eq!(missing[0].0, Code::MissingKey);
    assert_eq!(faults("name = \"a\"\nname = \"b\"\n")[0].0, Code::Syntax);
}

#[test]
fn faulty_amounts_are_placed_with_what_is_accepted() {
    one_fault("altitude = \"15 L\"", Code::Amount, 12, &["`L` is not a unit of length", "m"]);
    one_fault("altitude = \"15\"", Code::Amount, 12, &["has no unit"]);
    one_fault("room_temperature = \"warm\"", Code::Amount, 20, &["no number in `warm`"]);
    one_fault("air_changes = \"2-1 /h\"", Code::Amount, 15, &["runs downwards"]);
    one_fault("tap_water = \"1e999 °C\"", Code::Amount, 13, &["finite"]);
}

#[test]
fn impossible_values_are_refused_with_their_bounds() {
    let impossible = Code::ImpossibleValue;
    one_fault("altitude = \"12000 m\"", impossible, 12, &["lies outside −450 to 9000 m"]);
    one_fault("altitude = \"-900 m\"", impossible, 12, &["−450"]);
    one_fault("pressure = \"2 bar\"", impossible, 12, &["0.3 to 1.085 bar"]);
    one_fault("room_humidity = \"120 %\"", impossible, 17, &["0 to 100 %"]);
    one_fault("room_temperature = \"-300 °C\"", impossible, 20, &["−15 to 55 °C"]);
    one_fault("room_volume = \"-3 m³\"", impossible, 15, &["1 to 100000 m³"]);
    one_fault("air_changes = \"-1 /h\"", impossible, 15, &["0 to 200 1/h"]);
    one_fault("tap_water = \"95 °C\"", impossible, 13, &["0 to 60 °C"]);
    one_fault(
        "[appliances.freezer]\ntemperature = \"-280 °C\"",
        impossible,
        15,
        &["−273.2 to 1227 °C"],
    );
    one_fault("[appliances.wide-pan]\ndiameter = \"-24 cm\"", impossible, 12, &["above 0"]);
    one_fault("[appliances.wide-pan]\ndiameter = \"0 cm\"", impossible, 12, &["above 0"]);
    one_fault("[appliances.electric-hob]\nefficiency = \"130 %\"", impossible, 14, &["100 %"]);
}

#[test]
fn altitude_and_pressure_together_are_refused() {
    let text = "altitude = \"15 m\"\npressure = \"101 kPa\"";
    one_fault(text, Code::ImpossibleValue, 12, &["both `altitude` and `pressure`"]);
}

#[test]
fn unknown_names_offer_the_nearest() {
    let unknown = Code::UnknownName;
    one_fault("[appliances.widepann]", unknown, 13, &["did you mean `wide-pan`?"]);
    one_fault("[appliances.\"stik blender\"]", unknown, 13, &["did you mean `immersion-blender`?"]);
    one_fault("[appliances.agar]", unknown, 13, &["`agar` is of the kind supply"]);
    one_fault("[appliances.xyzzy]", unknown, 13, &["standin show appliance"]);
    one_fault("supplies = [\"coton-cloth\"]", unknown, 13, &["did you mean `cotton-cloth`?"]);
    one_fault("avoid = [\"selery\"]", unknown, 10, &["did you mean `celery`?"]);
    one_fault("measures = \"imperial\"", unknown, 12, &["metric, us, uk, australian"]);
    one_fault("[appliances.big]\nkind = \"wide-pam\"", unknown, 8, &["did you mean `wide-pan`?"]);
}

#[test]
fn an_unknown_capability_names_those_of_the_appliance() {
    let unknown = Code::UnknownName;
    let parts = ["`wide-pan` has no capability `diametre`", "did you mean `diameter`?"];
    one_fault("[appliances.wide-pan]\ndiametre = \"24 cm\"", unknown, 1, &parts);
    let parts = [
        "`wide-pan` has no capability `temperature`",
        "accepted: bath_temperature, diameter, power",
    ];
    one_fault("[appliances.wide-pan]\ntemperature = \"5 °C\"", unknown, 1, &parts);
    let parts = ["nothing can be stated of it"];
    one_fault("[appliances.immersion-blender]\nnoise = \"90 %\"", unknown, 1, &parts);
}

#[test]
fn all_faults_of_a_file_are_reported_in_its_order() {
    let text = "name = \"K\"\naltitude = \"3 kg\"\nroom_humidity = \"300 %\"\n\
                supplies = [\"agarr\"]\n[appliances.ovn]\n[appliances.wide-pan]\nvolume = \"x\"\n";
    let lines: Vec<usize> = faults(text).iter().map(|fault| fault.1).collect();
    assert_eq!(lines, [2, 3, 4, 5, 7]);
}

#[test]
fn a_missing_file_is_named() {
    let path = std::path::Path::new("no/such/kitchen.toml");
    let findings = Kitchen::load(path, &small_knowledge::knowledge()).unwrap_err();
    assert_eq!(findings[0].code, Code::UnreadableFile);
    assert_eq!(findings[0].file, "no/such/kitchen.toml");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn mutated_text_never_panics(cut in 0usize..TINY.len(), len in 0usize..40, insert in ".{0,8}") {
        let start = (0..=cut).rev().find(|at| TINY.is_char_boundary(*at)).unwrap_or(0);
        let wanted = (start + len).min(TINY.len());
        let end = (wanted..=TINY.len()).find(|at| TINY.is_char_boundary(*at)).unwrap();
        let text = format!("{}{insert}{}", &TINY[..start], &TINY[end..]);
        if let Err(findings) = read(&text) {
            prop_assert!(!findings.is_empty());
            for finding in findings {
                finding.render(&text);
            }
        }
    }
}

#[test]
fn every_example_kitchen_reads_against_the_shipped_knowledge() {
    let knowledge = Knowledge::embedded().unwrap();
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/examples");
    let mut count = 0;
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            continue;
        }
        let text = std::fs::read_to_string(&path).unwrap();
        if !text.contains("[appliances.") {
            continue;
        }
        let read = Kitchen::read(&text, &path.display().to_string(), &knowledge);
        let shown = |findings: &[Finding]| {
            findings.iter().map(|finding| finding.render(&text)).collect::<Vec<_>>().join("\n")
        };
        let kitchen = read.unwrap_or_else(|findings| panic!("{}", shown(&findings)));
        assert!(kitchen.place.assumed.is_empty() && text.contains("invented"), "{path:?}");
        count += 1;
    }
    assert_eq!(count, 4);
}
