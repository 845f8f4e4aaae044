//! Pairs of questions that undo each other, to nine digits.

use super::asking::{Draws, ask, assert_close, by_factor, evenly};

const SAME: f64 = 1e-9;
const POINTS: u32 = 60;

#[test]
fn pressure_and_boiling_point() {
    for pressure in by_factor(620.0, 2.1e7, POINTS) {
        let boiling = ask("boil", &format!("pressure = {pressure} Pa"), "boiling_point_c");
        let back = ask(
            "boiling-pressure",
            &format!("temperature = {boiling} C"),
            "saturation_pressure_pa",
        );
        assert_close("saturation pressure", back, pressure, SAME, 0.0);
    }
}

#[test]
fn altitude_and_pressure() {
    for altitude in evenly(-2000.0, 11_000.0, POINTS) {
        let pressure =
            ask("altitude", &format!("altitude = {altitude} m"), "atmospheric_pressure_pa");
        let back = ask("altitude", &format!("pressure = {pressure} Pa"), "altitude_m");
        assert_close("altitude", back, altitude, SAME, 1e-9);
    }
}

#[test]
fn ice_and_its_vapour() {
    for celsius in evenly(-140.0, 0.0, POINTS) {
        let pressure = ask("ice", &format!("temperature = {celsius} C"), "sublimation_pressure_pa");
        let back = ask(
            "ice-under-vacuum",
            &format!("pressure = {pressure} Pa"),
            "ice_equilibrium_temperature_c",
        );
        assert_close("ice temperature", back, celsius, SAME, 1e-9);
    }
}

#[test]
fn humid_air_by_each_of_its_readings() {
    for celsius in evenly(-30.0, 90.0, 20) {
        for humidity in evenly(0.05, 0.98, 10) {
            let air = format!("temperature = {celsius} C; relative-humidity = {humidity}");
            let dew = ask("air", &air, "dew_point_c");
            let by_dew = format!("temperature = {celsius} C; dew-point = {dew} C");
            let back = ask("air", &by_dew, "relative_humidity_percent") / 100.0;
            assert_close(&air, back, humidity, SAME, 0.0);
            let wet = ask("air", &air, "wet_bulb_c");
            let by_wet = format!("temperature = {celsius} C; wet-bulb = {wet} C");
            let back = ask("air", &by_wet, "relative_humidity_percent") / 100.0;
            assert_close(&air, back, humidity, SAME, 0.0);
        }
    }
}

#[test]
fn strength_by_volume_mass_moles_and_density() {
    // The density of pure ethanol gives 99.9999 %, by the rounding of the published formula.
    for abv in evenly(0.0, 0.9999, POINTS) {
        let given = format!("abv = {abv}");
        for (input, output) in
            [("mass-fraction", "mass_fraction_ethanol"), ("mole-fraction", "mole_fraction_ethanol")]
        {
            let there = ask("strength", &given, output);
            let back = ask("strength", &format!("{input} = {there}"), "abv_percent");
            assert_close(&given, back, 100.0 * abv, SAME, 1e-9);
        }
        let density = ask("strength", &given, "density_20c_kg_m3");
        let back = ask("strength", &format!("density = {density} kg/m3"), "abv_percent");
        assert_close(&given, back, 100.0 * abv, SAME, 1e-9);
    }
}

#[test]
fn strength_at_which_a_drink_boils_and_its_pressure() {
    for abv in evenly(0.01, 0.97, 20) {
        for pressure in by_factor(2100.0, 110_000.0, 10) {
            let boiling = ask(
                "boil-alcohol",
                &format!("abv = {abv}; pressure = {pressure} Pa"),
                "boiling_point_c",
            );
            let back = ask(
                "boil-alcohol",
                &format!("abv = {abv}; temperature = {boiling} C"),
                "pressure_pa",
            );
            assert_close("boiling pressure", back, pressure, SAME, 0.0);
        }
    }
}

#[test]
fn stripping_to_a_strength_and_the_pot_that_is_left() {
    for pressure in [2100.0, 5e3, 2e4, 101_325.0] {
        for share in evenly(0.02, 0.6, 12) {
            let given = format!("abv = 12 %; pressure = {pressure} Pa");
            let pot = ask("distil", &format!("{given}; evaporated = {share}"), "pot_abv_percent");
            if pot > 0.01 {
                let back = ask(
                    "dealcoholise",
                    &format!("{given}; target-abv = {pot} %"),
                    "evaporated_mass_fraction",
                );
                assert_close(&given, back, share, SAME, 0.0);
            }
        }
    }
}

#[test]
fn sugar_and_refractive_index() {
    for brix in evenly(0.0, 0.84, POINTS) {
        let index = ask("syrup", &format!("brix = {brix}"), "refractive_index_20c");
        let back = ask("refractometer", &format!("refractive-index = {index}"), "brix_percent");
        assert_close("Brix by index", back, 100.0 * brix, SAME, 1e-9);
        let density = ask("syrup", &format!("brix = {brix}"), "density_20c_kg_m3");
        let back = ask("refractometer", &format!("density = {density} kg/m3"), "brix_percent");
        assert_close("Brix by density", back, 100.0 * brix, SAME, 1e-9);
    }
}

#[test]
fn freezing_point_and_strength() {
    for brix in evenly(0.02, 0.6, POINTS) {
        let first_ice = ask("syrup", &format!("brix = {brix}"), "freezing_point_c");
        let given = format!("brix = {brix}; temperature = {first_ice} C");
        assert_close(
            &given,
            ask("freeze-syrup", &given, "brix_of_liquid_percent"),
            100.0 * brix,
            SAME,
            SAME,
        );
    }
    for salt in ["table-salt", "calcium-chloride"] {
        for share in evenly(0.005, 0.22, POINTS) {
            let given = format!("salt = {salt}; share = {share}");
            let first_ice = ask("brine", &given, "freezing_point_c");
            let back = format!("salt = {salt}; temperature = {first_ice} C");
            assert_close(&given, ask("brine-for", &back, "salt_share_fraction"), share, SAME, 0.0);
        }
    }
}

#[test]
fn boiling_point_and_strength_of_a_syrup() {
    for pressure in [3e3, 2e4, 101_325.0, 2e5] {
        for brix in evenly(0.15, 0.9, 30) {
            let given = format!("brix = {brix}; pressure = {pressure} Pa");
            let boiling = ask("syrup", &given, "boiling_point_c");
            let back =
                format!("brix = 10 %; boiling-point = {boiling} C; pressure = {pressure} Pa");
            let found = ask("boil-syrup", &back, "brix_at_boiling_point_percent");
            assert_close(&given, found, 100.0 * brix, SAME, 0.0);
        }
    }
}

#[test]
fn salt_share_and_molality() {
    for share in evenly(0.0, 0.25, POINTS) {
        let molality = ask("brine", &format!("share = {share}"), "molality_mol_kg");
        let back = ask("brine", &format!("molality = {molality} mol/kg"), "salt_share_fraction");
        assert_close("salt share", back, share, SAME, 1e-12);
    }
}

#[test]
fn turns_and_force() {
    for radius in by_factor(0.02, 0.5, 12) {
        for turns in by_factor(50.0, 30_000.0, 12) {
            let at = format!("radius = {radius} m");
            let force = ask("spin", &format!("{at}; speed = {turns} rpm"), "rcf_g");
            let back = ask("spin", &format!("{at}; force = {force} g"), "speed_rpm");
            assert_close("turns", back, turns, SAME, 0.0);
        }
    }
}

#[test]
fn drying_time_and_moisture_ratio() {
    let mut draws = Draws(11);
    for _ in 0..POINTS {
        let (k, n) = (draws.over_decades(1e-3, 0.5), draws.between(0.4, 1.8));
        let ratio = draws.between(0.01, 0.95);
        let law = format!("k = {k}; n = {n}");
        let time = ask("dry-page", &format!("{law}; moisture-ratio = {ratio}"), "time_s");
        let back = ask("dry-page", &format!("{law}; time = {time} s"), "moisture_ratio");
        assert_close(&law, back, ratio, SAME, 0.0);
        for shape in ["slab", "cylinder", "sphere"] {
            let size = if shape == "slab" { "half-thickness" } else { "radius" };
            let slice = format!("shape = {shape}; {size} = 3 mm; diffusivity = 5e-10 m2/s");
            let time = ask("dry-slab", &format!("{slice}; moisture-ratio = {ratio}"), "time_s");
            let back = ask("dry-slab", &format!("{slice}; time = {time} s"), "moisture_ratio");
            assert_close(&slice, back, ratio, SAME, 0.0);
        }
    }
}

#[test]
fn core_time_and_core_temperature() {
    let mut draws = Draws(12);
    for _ in 0..POINTS {
        let shape = *draws.pick(&["slab", "cylinder", "sphere"]);
        let (size, h) = (draws.over_decades(2.0, 300.0), draws.over_decades(5.0, 5e3));
        let target = draws.between(6.0, 59.0);
        let piece = format!(
            "shape = {shape}; thickness = {size} mm; heat-transfer = {h} W/(m2 K); start = 5 C; surroundings = 60 C"
        );
        let time = ask("core-time", &format!("{piece}; target = {target} C"), "time_s");
        let back =
            ask("core-temperature", &format!("{piece}; time = {time} s"), "core_temperature_c");
        assert_close(&piece, back, target, SAME, 1e-9);
    }
}

#[test]
fn water_content_and_water_activity() {
    for (food, celsius) in [("potato", 40.0), ("maize", 25.0)] {
        for activity in evenly(0.1, 0.8, 30) {
            let at = format!("food = {food}; temperature = {celsius} C");
            let wet = ask(
                "moisture",
                &format!("{at}; water-activity = {activity}"),
                "moisture_kg_kg_dry",
            );
            let back = ask("water-activity", &format!("{at}; moisture = {wet}"), "water_activity");
            assert_close(&at, back, activity, SAME, 0.0);
        }
    }
}

#[test]
fn z_value_and_activation_energy() {
    for z in evenly(4.0, 60.0, POINTS) {
        let energy =
            ask("z-value", &format!("z = {z} K; reference = 121.1 C"), "activation_energy_j_mol");
        let given = format!("activation-energy = {energy} J/mol; reference = 121.1 C");
        assert_close("z", ask("z-value", &given, "z_k"), z, SAME, 0.0);
    }
}

#[test]
fn filtering_time_and_volume() {
    let mut draws = Draws(13);
    for _ in 0..POINTS {
        let rig = format!(
            "area = {} cm2; pressure-difference = {} kPa; viscosity = 1 mPa.s; cake-resistance = {} m/kg; \
             solids = 10 g/L; medium-resistance = {} 1/m; compressibility = {}",
            draws.over_decades(10.0, 1e4),
            draws.over_decades(0.1, 500.0),
            draws.over_decades(1e9, 1e13),
            draws.over_decades(1e8, 1e12),
            draws.between(0.0, 1.0),
        );
        let volume = draws.over_decades(0.01, 20.0);
        let time = ask("filter", &format!("{rig}; volume = {volume} L"), "filtration_time_s");
        let back = ask("filter", &format!("{rig}; time = {time} s"), "filtrate_volume_m3");
        assert_close(&rig, back, volume / 1000.0, SAME, 0.0);
    }
}

#[test]
fn settling_cut_and_time() {
    for hours in by_factor(0.1, 240.0, 20) {
        let jar = "depth = 10 cm; particle-density = 1050 kg/m3; liquid-density = 1000 kg/m3; liquid-viscosity = 1.5 mPa.s";
        let given = format!("{jar}; particle-diameter = 10 um; time = {hours} h");
        let cut = ask("settle", &given, "all_out_size_m");
        let back = format!("{jar}; particle-diameter = {cut} m");
        let time = ask("settle", &back, "jar_settling_time_s");
        assert_close("time of the cut", time, hours * 3600.0, SAME, 0.0);
    }
}

#[test]
fn gas_pressure_and_content() {
    for gas in ["carbon-dioxide", "nitrous-oxide"] {
        for celsius in evenly(0.0, 40.0, 10) {
            for grams in evenly(1.0, 12.0, 10) {
                let at = format!("gas = {gas}; temperature = {celsius} C");
                let pressure = ask(
                    "carbonate",
                    &format!("{at}; dissolved = {grams} g/L"),
                    "partial_pressure_pa",
                );
                let back = ask(
                    "gas-solubility",
                    &format!("{at}; partial-pressure = {pressure} Pa"),
                    "dissolved_gas_kg_m3",
                );
                assert_close(&at, back, grams, SAME, 0.0);
            }
        }
    }
}

#[test]
fn grinding_size_and_energy() {
    for size in by_factor(20.0, 1500.0, 30) {
        let energy = ask("grind", &format!("feed = 2 mm; product = {size} um"), "bond_energy_j_kg");
        let back = ask("grind", &format!("feed = 2 mm; energy = {energy} J/kg"), "product_size_m");
        assert_close("product size", back, size * 1e-6, SAME, 0.0);
    }
}

#[test]
fn partition_and_solubility() {
    for partition in by_factor(1e-6, 10.0, 30) {
        let given = format!("air-water-partition = {partition}");
        let henry = ask("air-water-partition", &given, "henry_solubility_mol_m3pa");
        let back = ask(
            "air-water-partition",
            &format!("henry-solubility = {henry} mol/(m3 Pa)"),
            "air_water_partition",
        );
        assert_close(&given, back, partition, SAME, 0.0);
    }
}
