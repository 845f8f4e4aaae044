//! What a trial should have measured: from the readings that it took, by the routes that it went.

use std::path::Path;

use standin::advisor::{Bench, Sampler};
use standin::estimate::Estimate;
use standin::kitchen::Kitchen;
use standin::quantity::Measures;
use standin::recipe::Recipe;
use standin::trial::Trial;
use standin::trial::calibrate::{TIME, YIELD};
use standin::trial::predict::compare;

use super::knowledge;

const SAMPLES: usize = 60;

fn recipe(file: &str) -> Recipe {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples").join(file);
    Recipe::load(&path, knowledge(), Measures::Metric).unwrap()
}

/// What is predicted of a quantity by a route, for a trial with these lines in it.
fn predicted(recipe: &Recipe, trial: &str, (route, quantity): (&str, &str)) -> Estimate {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/keen-cook.toml");
    let kitchen = Kitchen::load(&path, knowledge()).unwrap();
    let sampler = Sampler::new(SAMPLES, 1);
    let bench = Bench { knowledge: knowledge(), kitchen: &kitchen, sampler: &sampler };
    let text = format!(
        "id = \"T-1\"\nrecipe = \"x\"\nkitchen = \"keen-cook\"\nstart = 2026-03-04\ntester = \"JD\"\n\
         purpose = \"explore\"\nverdict = \"pass\"\n{trial}"
    );
    let read = Trial::read(&text, "t-1.toml", knowledge()).unwrap();
    let compared = compare(&read.trial, recipe, &bench).unwrap();
    let mut found = compared.observations.iter();
    let found = found.find(|one| one.route == route && one.quantity == quantity);
    found.unwrap_or_else(|| panic!("{:?}", compared.left_out)).predicted
}

#[test]
fn a_measured_strength_is_where_the_prediction_starts() {
    let treacle = recipe("pear-treacle.toml");
    let of = |brix: &str| {
        let trial = format!(
            "[[ingredient]]\nid = \"juice\"\nactual = \"500 g\"\nbrix = \"{brix}\"\n\
             [[step]]\nmakes = \"treacle\"\nroute = \"wide-pan-boil\"\nmass_in = \"500 g\"\n\
             mass_out = \"100 g\"\n"
        );
        predicted(&treacle, &trial, ("wide-pan-boil", YIELD)).typical()
    };
    // Solids are neither made nor lost: boiled to 60 °Brix, a juice leaves its strength over 60.
    for (brix, share) in [("9 °Brix", 9.0 / 60.0), ("15 °Brix", 15.0 / 60.0)] {
        let found = of(brix);
        assert!((found / share - 1.0).abs() < 0.05, "{brix}: {found}, not {share}");
    }
}

#[test]
fn a_step_is_predicted_from_what_the_routes_before_it_left() {
    let glass = recipe("two-tomato-glass.toml");
    let of = |cleared_by: &str| {
        let trial = format!(
            "[[step]]\nmakes = \"tomato water\"\nroute = \"{cleared_by}\"\ntime = \"6 h\"\n\
             [[step]]\nmakes = \"tomato syrup\"\nroute = \"wide-pan-boil\"\ntime = \"20 min\"\n"
        );
        predicted(&glass, &trial, ("wide-pan-boil", TIME)).typical()
    };
    let (dripped, with_enzyme) = (of("cloth-drip"), of("enzyme-then-paper"));
    // Enzyme gets more water out of the pulp than dripping does, and more takes longer to boil down.
    assert!(with_enzyme > 1.05 * dripped, "{dripped} s, {with_enzyme} s");
}
