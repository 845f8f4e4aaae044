use super::NAME;
use crate::physics::distillation::distil_to;
use crate::process::testing::{Bench, food};
use crate::process::{Batch, Component, ProcessError};
use crate::quantity::Pressure;

fn wine() -> Batch {
    food(&[(Component::Water, 880.0), (Component::Ethanol, 100.0), (Component::Acid, 6.0)])
}

/// Meat stock 900 mL with 150 mL of wine: about 2 % alcohol by volume.
fn stock() -> Batch {
    food(&[(Component::Water, 1010.0), (Component::Ethanol, 16.5), (Component::Protein, 20.0)])
}

fn pot() -> Bench {
    Bench::of(NAME).with("power", 1800.0).with("transfer_efficiency", 0.5).with("diameter", 0.2)
}

#[test]
fn half_an_hour_of_boiling_leaves_a_tenth_of_the_strength() {
    // P. Snitkjaer et al., Food Chemistry 237:234, 2017: from about 2 % to 0.2 % in 30 min, open.
    let run = pot().with("power", 900.0).with("time", 1800.0).run(&stock()).unwrap();
    let strength = run.told("alcohol_strength").unwrap();
    assert!((0.0001..0.004).contains(&strength), "{strength}");
}

#[test]
fn the_law_of_simple_distillation_is_met() {
    let feed = food(&[(Component::Water, 900.0), (Component::Ethanol, 100.0)]);
    let run = pot().with("target_alcohol", 0.02).run(&feed).unwrap();
    let product = run.streams[0].batch.contents;
    let share = product.share(Component::Ethanol);
    let rayleigh = distil_to(0.1, share, Pressure::from_pascals(101_325.0)).unwrap();
    let evaporated = 1.0 - product.total() / feed.mass();
    assert!((evaporated / rayleigh.evaporated - 1.0).abs() < 0.02, "{evaporated}");
}

#[test]
fn more_time_leaves_less_and_a_lid_keeps_more() {
    let at = |minutes: f64, vessel: &str| {
        let run = pot().mode("vessel", vessel).with("power", 700.0).with("time", minutes * 60.0);
        run.run(&wine()).unwrap().told("alcohol_retained").unwrap()
    };
    assert!(at(20.0, "open") < at(10.0, "open"));
    assert!(at(10.0, "lidded") > at(10.0, "open"));
}

#[test]
fn a_vacuum_takes_it_out_cooler() {
    let cold = Bench::of(NAME)
        .mode("vessel", "vacuum")
        .with("pressure", 8e3)
        .with("bath_temperature", 323.15)
        .with("heated_area", 0.04)
        .with("target_alcohol", 0.005);
    let run = cold.run(&wine()).unwrap();
    assert!(run.told("boiling_point").unwrap() < 318.15);
    assert!((run.streams[0].batch.alcohol_by_volume() / 0.005 - 1.0).abs() < 0.05);
    assert!(
        run.streams[0].batch.heat.hottest
            < wine().temperature + crate::quantity::TemperatureDifference::from_kelvin(30.0)
    );
    let refused = cold.with("bath_temperature", 300.15).run(&wine());
    assert!(matches!(refused, Err(ProcessError::CannotWork { .. })), "{refused:?}");
}

#[test]
fn a_baked_dish_keeps_much_of_it() {
    // Scalloped oysters with dry sherry, baked 25 min at 191 °C: 45 % (Augustin et al. 1992).
    let dish =
        food(&[(Component::Water, 780.0), (Component::Ethanol, 20.0), (Component::Protein, 80.0)]);
    let run = Bench::of(NAME)
        .mode("vessel", "baked")
        .with("oven_temperature", 464.15)
        .with("diameter", 0.22)
        .with("time", 1500.0)
        .run(&dish)
        .unwrap();
    let kept = run.told("alcohol_retained").unwrap();
    assert!((0.2..0.75).contains(&kept), "{kept}");
}

#[test]
fn what_cannot_be_is_refused() {
    let weak = Bench::of(NAME).mode("vessel", "flame").run(&wine());
    assert!(matches!(weak, Err(ProcessError::CannotWork { .. })), "{weak:?}");
    let spirit = food(&[(Component::Water, 60.0), (Component::Ethanol, 40.0)]);
    let mut warm = spirit;
    warm.temperature = crate::quantity::Temperature::from_celsius(45.0);
    assert!(Bench::of(NAME).mode("vessel", "flame").run(&warm).is_ok());
    let dry = pot().with("time", 4.0 * 3600.0).run(&wine());
    assert!(matches!(dry, Err(ProcessError::CannotWork { .. })), "{dry:?}");
    let candle = pot().with("power", 20.0).with("time", 600.0).run(&wine());
    assert!(matches!(candle, Err(ProcessError::CannotWork { .. })), "{candle:?}");
    let unset = Bench::of(NAME).with("time", 600.0).run(&wine());
    assert!(matches!(unset, Err(ProcessError::MissingSetting { .. })), "{unset:?}");
}

#[test]
fn the_course_is_given_when_asked_for() {
    let run = pot().with("time", 600.0).traced().run(&wine()).unwrap();
    let points = run.trace.unwrap().points;
    assert!(points.windows(2).all(|pair| pair[1].measure <= pair[0].measure));
}
