//! How fast the physics answers. Run with `cargo bench --bench physics`; `compare.py` beside this
//! file times general property libraries on the same tasks.

#![allow(clippy::unwrap_used, reason = "a benchmark stops at the first fault")]

use divan::{Bencher, black_box};
use standin::physics::{atmosphere, distillation, ethanol_water, ice, water};
use standin::quantity::{Length, Pressure, Temperature};

fn main() {
    divan::main();
}

/// Pressures over which an evaporator works.
const PRESSURES: [f64; 4] = [2_500.0, 5_000.0, 20_000.0, 101_325.0];

#[divan::bench(args = PRESSURES)]
fn boiling_point_of_water(bencher: Bencher, pascal: f64) {
    bencher
        .bench_local(|| water::saturation_temperature(Pressure::from_pascals(black_box(pascal))));
}

#[divan::bench]
fn vapour_pressure_of_water() -> Pressure {
    water::saturation_pressure(Temperature::from_celsius(black_box(40.0))).unwrap()
}

#[divan::bench]
fn latent_heat_of_water() -> f64 {
    water::latent_heat_vaporisation(Temperature::from_celsius(black_box(40.0))).unwrap().si()
}

#[divan::bench]
fn density_capacity_and_enthalpy_of_water() -> f64 {
    let state = (Temperature::from_celsius(black_box(40.0)), Pressure::from_bars(black_box(1.0)));
    water::liquid(state.0, state.1).unwrap().density.si()
}

#[divan::bench]
fn temperature_of_subliming_ice() -> Temperature {
    ice::equilibrium_temperature(Pressure::from_pascals(black_box(20.0))).unwrap()
}

#[divan::bench]
fn boiling_point_at_altitude() -> Temperature {
    atmosphere::boiling_point_at_altitude(Length::from_metres(black_box(1600.0))).unwrap()
}

#[divan::bench]
fn wet_bulb_of_air() -> Temperature {
    let (warm, sea_level) = (Temperature::from_celsius(60.0), Pressure::from_pascals(101_325.0));
    let air = atmosphere::HumidAir::from_relative_humidity(warm, black_box(0.1), sea_level);
    air.unwrap().wet_bulb().unwrap()
}

#[divan::bench(args = PRESSURES)]
fn boiling_point_of_wine(bencher: Bencher, pascal: f64) {
    let pressure = Pressure::from_pascals(pascal);
    bencher.bench_local(|| ethanol_water::bubble_point(black_box(0.04), pressure));
}

#[divan::bench]
fn mass_fraction_of_strength() -> f64 {
    ethanol_water::mass_fraction_of_strength(black_box(0.4)).unwrap()
}

/// Wine of 12.5 % by volume, 10 % by mass, boiled under 5 kPa until a third of it is gone.
#[divan::bench]
fn distilling_a_third_of_a_wine() -> f64 {
    let pressure = Pressure::from_kilopascals(5.0);
    distillation::distil(black_box(0.1005), 0.33, pressure).unwrap().pot
}

/// The same wine, boiled until 0.5 % by volume is left.
#[divan::bench(args = PRESSURES)]
fn dealcoholising_a_wine(bencher: Bencher, pascal: f64) {
    let pressure = Pressure::from_pascals(pascal);
    bencher.bench_local(|| distillation::distil_to(black_box(0.1005), 0.003_956, pressure));
}
