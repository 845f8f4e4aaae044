//! Facts of the trade as check values. Each is common practice, no source.

#![allow(clippy::unwrap_used, reason = "a test stops at the first fault")]

use standin::advisor::{Bench, FoodOf, Sampler, advise, feeds};
use standin::kitchen::Kitchen;
use standin::knowledge::Knowledge;
use standin::physics::settling::relative_force;
use standin::physics::water::saturation_temperature;
use standin::quantity::{Length, Measures, Pressure, RotationSpeed};
use standin::recipe::{Recipe, Task};

fn spun(food: &str) -> (f64, f64) {
    let knowledge = Knowledge::embedded().unwrap();
    let kitchen = Kitchen::read("name = \"bare\"", "test", &knowledge).unwrap();
    let text = format!(
        "title = \"t\"\n[[ingredient]]\nid = \"feed\"\nfood = \"{food}\"\namount = \"1 kg\"\n\
         [[step]]\ntechnique = \"centrifuge-clarification\"\nuses = [\"feed\"]\nmakes = \"clear\"\n"
    );
    let recipe = Recipe::read(&text, "test", &knowledge, Measures::Metric).unwrap();
    let Task::Professional(task) = &recipe.steps[0].task else { unreachable!() };
    let sampler = Sampler::new(400, 1);
    let bench = Bench { knowledge: &knowledge, kitchen: &kitchen, sampler: &sampler };
    let batches = feeds(&recipe.ingredients[0], &knowledge, &sampler).unwrap();
    let values = &knowledge.foods[food].values;
    let of = FoodOf { names: None, values, all: &[] };
    let advice = advise(task, &of, (&batches, &batches), &bench).unwrap();
    let shares = advice.laboratory.simulated.range(|feed, made| Some(made.mass() / feed.mass()));
    let shares = shares.unwrap();
    (shares.typical(), shares.high() - shares.low())
}

#[test]
fn under_a_good_laboratory_vacuum_watery_liquids_boil_between_20_and_40_degrees() {
    // Common practice, no source. A good laboratory vacuum: 2.5 to 7 kPa.
    for kilopascals in [2.5, 4.0, 5.5, 7.0] {
        let boiling = saturation_temperature(Pressure::from_kilopascals(kilopascals)).unwrap();
        assert!((20.0..=40.0).contains(&boiling.celsius()), "{kilopascals} kPa");
    }
}

#[test]
fn a_starchy_puree_gives_35_to_40_per_cent_of_clear_juice_in_a_laboratory_centrifuge() {
    // Common practice, no source.
    let (share, spread) = spun("sweet-potato-puree");
    // The trade speaks in whole per cents.
    assert!((35.0..=40.0).contains(&(100.0 * share).round()), "{share}");
    assert!(spread > 0.05, "one fruit is not like the next");
}

#[test]
fn a_laboratory_centrifuge_of_this_kind_reaches_about_27_000_g() {
    // Common practice, no source.
    let knowledge = Knowledge::embedded().unwrap();
    let values = &knowledge.appliances["laboratory-centrifuge"].values;
    let rotation = RotationSpeed::from_si(values["rotation_limit"].typical());
    let radius = Length::from_si(values["outer_radius"].typical());
    let force = relative_force(rotation, radius).unwrap().standard_gravities();
    assert!((force / 27_000.0 - 1.0).abs() < 0.05, "{force}");
}

#[test]
fn a_laboratory_rotor_stator_reaches_about_18_000_rpm() {
    // Common practice, no source.
    let knowledge = Knowledge::embedded().unwrap();
    let rotation = knowledge.appliances["rotor-stator"].values["rotation"].estimate;
    let rpm = RotationSpeed::from_si(rotation.high()).rpm();
    assert!((rpm / 18_000.0 - 1.0).abs() < 0.15, "{rpm}");
}
