//! Where a law must become a simpler one.

use std::f64::consts::{FRAC_PI_2, PI};

use super::asking::{agree, ask, assert_close, by_factor, evenly, try_ask};

#[test]
fn a_syrup_without_sugar_is_water() {
    for celsius in evenly(5.0, 95.0, 18) {
        let water = |key| ask("water", &format!("temperature = {celsius} C"), key);
        let syrup = |key| ask("syrup", &format!("brix = 0; temperature = {celsius} C"), key);
        assert_close("density", syrup("density_kg_m3"), water("liquid_density_kg_m3"), 1e-3, 0.0);
        // The equation was fitted to syrups: 2 % from water when cold, 7 % near boiling.
        let (thick, thin) = (syrup("viscosity_pa_s"), water("liquid_viscosity_pa_s"));
        assert_close("viscosity", thick, thin, 0.08, 0.0);
        assert_close(
            "heat",
            syrup("specific_heat_j_kg_k"),
            water("liquid_heat_capacity_j_kgk"),
            0.01,
            0.0,
        );
        assert_close("activity", syrup("water_activity"), 1.0, 1e-12, 0.0);
    }
    for kilopascal in by_factor(2.0, 200.0, 20) {
        let given = format!("pressure = {kilopascal} kPa");
        let (plain, sweet) = (
            ask("boil", &given, "boiling_point_c"),
            ask("syrup", &format!("brix = 0; {given}"), "boiling_point_c"),
        );
        assert_close("boiling point", sweet, plain, 1e-7, 1e-6);
    }
    // The activity of ice is the ratio of two fits, which meet a few microkelvin off zero.
    assert_close("freezing", ask("syrup", "brix = 0", "freezing_point_c"), 0.0, 0.0, 1e-5);
}

#[test]
fn a_drink_without_alcohol_is_water() {
    for kilopascal in by_factor(2.1, 110.0, 20) {
        let given = format!("pressure = {kilopascal} kPa");
        let plain = ask("boil", &given, "boiling_point_c");
        let drink = ask("boil-alcohol", &format!("abv = 0; {given}"), "boiling_point_c");
        assert_close(&given, drink, plain, 0.0, 0.02);
    }
    assert_close("density", ask("strength", "abv = 0", "density_20c_kg_m3"), 998.2, 1e-4, 0.0);
    assert_close("freezing", ask("freeze-alcohol", "abv = 0", "freezing_point_c"), 0.0, 0.0, 0.01);
}

#[test]
fn pure_alcohol_boils_as_ethanol_does() {
    for celsius in evenly(20.0, 78.0, 20) {
        let given = format!("temperature = {celsius} C");
        let pure = ask("ethanol", &given, "ethanol_saturation_pressure_pa");
        let drink = ask("boil-alcohol", &format!("mole-fraction = 1; {given}"), "pressure_pa");
        assert_close(&given, drink, pure, 1e-9, 0.0);
    }
}

#[test]
fn a_brine_without_salt_is_water() {
    for salt in ["table-salt", "calcium-chloride"] {
        let given = format!("salt = {salt}; share = 0");
        assert_close(&given, ask("brine", &given, "freezing_point_c"), 0.0, 0.0, 0.01);
    }
    assert_close("boiling", ask("brine", "share = 0", "boiling_point_rise_k"), 0.0, 0.0, 1e-6);
}

#[test]
fn thin_solutions_freeze_by_their_particles() {
    // One particle per molecule, two for salt: 1.86 K for a mole of particles in a kilogram of water.
    for (solute, grams, particles) in
        [("sucrose", 342.30, 1.0), ("glucose", 180.16, 1.0), ("salt", 58.44, 2.0)]
    {
        let share = 0.001;
        let molality = 1000.0 * share / (1.0 - share) / grams;
        let drop =
            ask("mixed-solution", &format!("{solute} = {share}"), "freezing_point_depression_k");
        assert_close(solute, drop, 1.86 * particles * molality, 0.07, 0.0);
    }
}

#[test]
fn conduction_without_inner_resistance_is_one_exponential() {
    for (shape, dimensions) in [("slab", 1.0), ("cylinder", 2.0), ("sphere", 3.0)] {
        for fourier in by_factor(1.0, 3000.0, 12) {
            let biot = 1e-3;
            let given = format!("shape = {shape}; biot = {biot}; fourier = {fourier}");
            let found = ask(
                "conduction",
                &format!("{given}; position = mean"),
                "dimensionless_temperature",
            );
            assert_close(&given, found, (-dimensions * biot * fourier).exp(), 5e-3, 1e-6);
        }
    }
}

#[test]
fn conduction_with_a_perfect_surface_has_the_eigenvalues_of_the_textbook() {
    // Slab and sphere as named; cylinder: the first zero of the Bessel function J0.
    for (shape, first) in [("slab", FRAC_PI_2), ("cylinder", 2.404_825_558), ("sphere", PI)] {
        let found = ask(
            "conduction",
            &format!("shape = {shape}; biot = 1e7; fourier = 1"),
            "first_eigenvalue",
        );
        assert_close(shape, found, first, 1e-6, 0.0);
    }
}

#[test]
fn conduction_starts_at_one_and_ends_at_zero() {
    for shape in ["slab", "cylinder", "sphere"] {
        for biot in by_factor(1e-2, 1e4, 12) {
            let at = |fourier: f64| {
                let given = format!("shape = {shape}; biot = {biot}; fourier = {fourier}");
                ask("conduction", &given, "dimensionless_temperature")
            };
            assert_close("start", at(1e-4), 1.0, 1e-3, 0.0);
            assert_close("end", at(1e5), 0.0, 0.0, 1e-9);
        }
    }
}

#[test]
fn slow_and_fast_particles() {
    let water =
        "particle-density = 1050 kg/m3; liquid-density = 1000 kg/m3; liquid-viscosity = 1 mPa.s";
    for micrometre in by_factor(0.1, 20.0, 10) {
        let given = format!("{water}; particle-diameter = {micrometre} um");
        let (stokes, real) = (
            ask("particle-speed", &given, "stokes_speed_m_s"),
            ask("particle-speed", &given, "terminal_speed_m_s"),
        );
        assert_close(&given, real, stokes, 0.01, 0.0);
    }
    for reynolds in by_factor(1e-6, 1e-3, 8) {
        let drag = ask("drag", &format!("reynolds = {reynolds}"), "drag_coefficient");
        assert_close("Stokes drag", drag * reynolds, 24.0, 0.01, 0.0);
    }
    assert_close(
        "alone",
        ask("hindered", "reynolds = 0.01; crowding-share = 0", "hindered_speed_ratio"),
        1.0,
        1e-12,
        0.0,
    );
}

#[test]
fn distilling_nothing_and_everything() {
    for pressure in [2100.0, 5e3, 101_325.0] {
        let of = |share: f64, key| {
            ask(
                "distil",
                &format!("abv = 12 %; pressure = {pressure} Pa; evaporated = {share}"),
                key,
            )
        };
        assert_close("nothing", of(0.0, "pot_abv_percent"), 12.0, 1e-6, 0.0);
        assert!(of(0.99, "ethanol_recovered_fraction") > 0.9999);
    }
}

#[test]
fn distilling_keeps_the_mass_of_alcohol() {
    for kilopascal in [2.1, 10.0, 50.0, 101.325, 118.0] {
        for abv in [0.05, 0.12, 0.4] {
            for share in evenly(0.05, 0.95, 9) {
                let of = |key| {
                    ask(
                        "distil",
                        &format!("abv = {abv}; pressure = {kilopascal} kPa; evaporated = {share}"),
                        key,
                    )
                };
                let feed = ask("strength", &format!("abv = {abv}"), "mass_fraction_ethanol");
                let parts = share * of("distillate_mass_fraction_ethanol")
                    + (1.0 - share) * of("pot_mass_fraction_ethanol");
                assert_close("alcohol", parts, feed, 1e-6, 0.0);
            }
        }
    }
}

#[test]
fn an_aroma_no_more_volatile_than_water_leaves_with_it() {
    for share in evenly(0.05, 0.95, 9) {
        let left = ask(
            "aroma-left",
            &format!("relative-volatility = 1; water-evaporated = {share}"),
            "fraction_left",
        );
        assert_close("as water", left, 1.0 - share, 1e-9, 0.0);
        let kept = ask(
            "aroma-left",
            &format!("relative-volatility = 1e-9; water-evaporated = {share}"),
            "fraction_left",
        );
        assert_close("not volatile", kept, 1.0, 1e-7, 0.0);
    }
}

#[test]
fn simple_shear_never_breaks_thick_droplets() {
    for ratio in [4.09, 5.0, 30.0, 999.0] {
        let number =
            ask("shear", &format!("viscosity-ratio = {ratio}"), "critical_capillary_number");
        assert!(number.is_infinite() && number > 0.0);
        let broken = ask("shear", &format!("viscosity-ratio = {ratio}"), "breaks_up_bool");
        assert_close("breaks", broken, 0.0, 0.0, 0.0);
    }
}

#[test]
fn nothing_happens_in_no_time() {
    assert_close(
        "vitamin",
        ask("vitamin-c", "temperature = 90 C; time = 0 s", "retention_fraction"),
        1.0,
        1e-12,
        0.0,
    );
    assert_close(
        "cook value",
        ask("cook-value", "temperature = 90 C; time = 0 s", "cook_value_c100_s"),
        0.0,
        0.0,
        1e-12,
    );
    assert_close(
        "slice",
        ask("dry-page", "k = 0.05; time = 0 s", "moisture_ratio"),
        1.0,
        1e-12,
        0.0,
    );
}

#[test]
fn holding_profiles_and_holding_times_agree() {
    for celsius in [55.0, 70.0, 90.0, 121.1] {
        for key in ["cook_value_c100_s", "pasteurisation_value_p70_s", "sterilisation_value_f0_s"] {
            let hold = ask("cook-value", &format!("temperature = {celsius} C; time = 10 min"), key);
            let profile = ask("cook-value", &format!("profile = hold {celsius} C 10 min"), key);
            let parts = ask(
                "cook-value",
                &format!("profile = hold {celsius} C 4 min, hold {celsius} C 6 min"),
                key,
            );
            assert!(agree(hold, profile, 1e-12) && agree(hold, parts, 1e-12));
        }
    }
}

#[test]
fn food_of_one_component_is_that_component() {
    for celsius in [1.0, 20.0, 80.0, 149.0] {
        for (share, component) in
            [("protein", "protein"), ("fat", "fat"), ("fibre", "fibre"), ("ash", "ash")]
        {
            let mix =
                format!("water = 0; {share} = 1; carbohydrate = 0; temperature = {celsius} C");
            let pure = format!("component = {component}; temperature = {celsius} C");
            if try_ask("thermal", &mix).is_err() {
                continue;
            }
            for (of_mix, of_pure) in [
                ("density_kg_m3", "density_kg_m3"),
                ("heat_capacity_j_kgk", "heat_capacity_j_kgk"),
                ("conductivity_parallel_w_mk", "conductivity_w_mk"),
            ] {
                assert_close(
                    &mix,
                    ask("thermal", &mix, of_mix),
                    ask("food-component", &pure, of_pure),
                    1e-9,
                    0.0,
                );
            }
        }
    }
}
