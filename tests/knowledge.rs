//! The knowledge base as shipped, and what the lint says of broken files.

use standin::finding::{Code, Finding};
use standin::knowledge::load::{File, built_in};
use standin::knowledge::{Knowledge, Layer};

/// Findings for one small file laid over the shipped knowledge.
fn findings_of(text: &str) -> Vec<Finding> {
    let file = File { path: "team.toml".to_owned(), text: text.to_owned() };
    let team = Layer { name: "team".to_owned(), files: vec![file] };
    Knowledge::check(&[built_in(), team])
}

fn has(findings: &[Finding], code: Code, part: &str) -> bool {
    let found = findings.iter().any(|f| f.code == code && f.message.contains(part));
    assert!(found, "no {} finding about `{part}` in {findings:#?}", code.text());
    found
}

/// Findings of the shipped knowledge, those of a code or all others.
fn shipped(of_code: Option<Code>) -> String {
    let layer = built_in();
    let findings = Knowledge::check(std::slice::from_ref(&layer));
    let text = |path: &str| layer.files.iter().find(|f| f.path == path).map_or("", |f| &f.text);
    let wanted = findings.iter().filter(|f| match of_code {
        Some(code) => f.code == code,
        None => f.code != Code::UnusedEntry,
    });
    wanted.map(|f| f.render(text(&f.file))).collect::<Vec<_>>().join("\n")
}

#[test]
fn the_shipped_knowledge_has_no_finding() {
    let shown = shipped(None);
    assert!(shown.is_empty(), "{shown}");
}

#[test]
#[ignore = "techniques and routes that use the gear are still being written"]
fn every_shipped_appliance_and_supply_is_used() {
    let shown = shipped(Some(Code::UnusedEntry));
    assert!(shown.is_empty(), "{shown}");
}

#[test]
fn a_misspelt_key_names_the_nearest() {
    let findings = findings_of("[[supply]]\nid = \"agar\"\nname = \"agar\"\nsumary = \"x\"\n");
    assert!(has(&findings, Code::UnknownKey, "sumary"));
    assert!(findings[0].help.as_deref().is_some_and(|h| h.contains("`summary`")));
}

#[test]
fn a_value_out_of_order_is_refused() {
    let findings = findings_of(
        "[[supply]]\nid = \"x-supply\"\nname = \"x\"\nsummary = \"x\"\n[supply.values]\n\
         price = { low = 3, typical = 1, high = 2, unit = \"money\", source = \"common practice\" }\n",
    );
    assert!(has(&findings, Code::EstimateOrder, "does not lie between"));
}

#[test]
fn a_value_without_a_source_is_refused() {
    let findings = findings_of(
        "[[supply]]\nid = \"x-supply\"\nname = \"x\"\nsummary = \"x\"\n[supply.values]\n\
         price = { typical = 1, unit = \"money\" }\n",
    );
    assert!(has(&findings, Code::MissingSource, "without a source"));
}

#[test]
fn a_unit_of_another_dimension_is_refused() {
    let findings = findings_of(
        "[[supply]]\nid = \"x-supply\"\nname = \"x\"\nsummary = \"x\"\n[supply.values]\n\
         price = { typical = 1, unit = \"kg\", source = \"common practice\" }\n",
    );
    assert!(has(&findings, Code::Amount, "`kg` is not a unit of cost"));
}

#[test]
fn a_dangling_id_is_refused() {
    let findings = findings_of(
        "[[goal]]\nid = \"g\"\nname = \"g\"\nsummary = \"g\"\nattribute = \"no-such-thing\"\n\
         reach = \"at least\"\ntarget = { typical = 1, unit = \"1\", source = \"common practice\" }\n",
    );
    assert!(has(&findings, Code::UnknownName, "no attribute goes by `no-such-thing`"));
}

#[test]
fn a_composition_that_does_not_close_is_refused() {
    let findings = findings_of(
        "[[food]]\nid = \"f\"\nname = \"f\"\ngroup = \"juice\"\nsource = \"common practice\"\n\
         composition = { water = 50.0, carbohydrate = 20.0 }\n",
    );
    assert!(has(&findings, Code::Composition, "adds to 70.0 g"));
}

#[test]
fn two_entries_of_one_id_are_refused() {
    let entry = "[[supply]]\nid = \"twice\"\nname = \"x\"\nsummary = \"x\"\n";
    assert!(has(&findings_of(&entry.repeat(2)), Code::DuplicateName, "twice"));
}

#[test]
fn the_shipped_foods_are_many_and_their_shares_add_to_one() {
    let knowledge = Knowledge::embedded().expect("the shipped knowledge links");
    assert!(knowledge.foods.len() >= 250, "only {} foods", knowledge.foods.len());
    for food in knowledge.foods.values() {
        let s = &food.shares;
        let macros = s.water + s.protein + s.fat + s.sugars + s.starch + s.fibre;
        let sum = macros + s.acid + s.salt + s.ethanol + s.other;
        assert!((sum - 1.0).abs() < 1e-9, "the shares of {} add to {sum}", food.id);
    }
}
