//! How long conduction and kinetics take: they run inside samplings of many thousand draws.

use divan::{Bencher, black_box};
use standin::physics::conduction::{Exposure, Position, Solid};
use standin::physics::food_thermal::{Composition, enthalpy_change};
use standin::physics::heat_kinetics::{PASTEURISATION, Segment};
use standin::quantity::{Conductivity, Diffusivity, HeatTransfer, Length, Temperature, Time};

fn main() {
    divan::main();
}

const SHAPES: [&str; 5] = ["slab", "cylinder", "sphere", "can", "brick"];

fn piece(shape: &str) -> Exposure {
    let mm = Length::from_millimetres;
    Exposure {
        solid: match shape {
            "cylinder" => Solid::Cylinder(mm(30.0)),
            "sphere" => Solid::Sphere(mm(35.0)),
            "can" => Solid::Can(mm(30.0), mm(50.0)),
            "brick" => Solid::Brick(mm(15.0), mm(40.0), mm(60.0)),
            _ => Solid::Slab(mm(15.0)),
        },
        diffusivity: Diffusivity::from_si(1.4e-7),
        conductivity: Conductivity::from_si(0.5),
        heat_transfer: Some(HeatTransfer::from_si(200.0)),
        start: Temperature::from_celsius(5.0),
        surroundings: Temperature::from_celsius(60.0),
    }
}

#[divan::bench(args = SHAPES)]
fn time_to_core(bencher: Bencher, shape: &str) {
    let piece = piece(shape);
    let target = Temperature::from_celsius(55.0);
    bencher.bench(|| black_box(&piece).time_to_core(black_box(target)));
}

#[divan::bench(args = SHAPES)]
fn core_temperature(bencher: Bencher, shape: &str) {
    let piece = piece(shape);
    let time = Time::from_minutes(30.0);
    bencher.bench(|| black_box(&piece).temperature(black_box(time), Position::Centre));
}

#[divan::bench]
fn heat_to_freeze(bencher: Bencher) {
    let food =
        Composition { water: 0.75, protein: 0.2, fat: 0.04, ash: 0.01, ..Composition::default() };
    let [point, from, to] = [-1.0, 20.0, -18.0].map(Temperature::from_celsius);
    bencher.bench(|| enthalpy_change(black_box(food), point, from, black_box(to)));
}

#[divan::bench]
fn lethality_of_a_ramp(bencher: Bencher) {
    let ramp = Segment {
        from: Temperature::from_celsius(20.0),
        to: Temperature::from_celsius(70.0),
        time: Time::from_minutes(10.0),
    };
    bencher.bench(|| PASTEURISATION.of_segment(black_box(&ramp)));
}
