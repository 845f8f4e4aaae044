//! Signs and monotony over the whole stated range.

use super::asking::{ask, by_factor, evenly};

/// Which way an output goes as an input grows.
#[derive(Clone, Copy, PartialEq)]
enum Way {
    Up,
    Down,
}

/// How the points are spread.
#[derive(Clone, Copy, PartialEq)]
enum Spread {
    Even,
    Decades,
}
use Spread::{Decades, Even};
use Way::{Down, Up};

const PIECE: &str = "shape = sphere; thickness = 30 mm; start = 5 C; surroundings = 60 C";
const GRAIN: &str =
    "particle-density = 1050 kg/m3; liquid-density = 1000 kg/m3; liquid-viscosity = 1 mPa.s";
const JAR: &str = "particle-density = 1050 kg/m3; liquid-density = 1000 kg/m3; \
    liquid-viscosity = 1 mPa.s; particle-diameter = 10 um";
/// Points of one sweep.
const POINTS: u32 = 120;

/// One law: question, fixed inputs, what is varied over which range, output, direction.
type Trend = (
    &'static str,
    &'static str,
    (&'static str, f64, f64, &'static str, Spread),
    &'static [(&'static str, Way)],
);

fn follow(trends: &[Trend]) {
    let mut faults = Vec::new();
    for (question, fixed, (name, low, high, unit, spread), outputs) in trends {
        let points: Vec<f64> = match spread {
            Even => evenly(*low, *high, POINTS).collect(),
            Decades => by_factor(*low, *high, POINTS).collect(),
        };
        for (output, way) in *outputs {
            let at = |x: &f64| ask(question, &format!("{fixed}; {name} = {x} {unit}"), output);
            let values: Vec<f64> = points.iter().map(at).collect();
            let wrong = values.windows(2).position(|pair| match way {
                Up => pair[1] <= pair[0],
                Down => pair[1] >= pair[0],
            });
            if let Some(at) = wrong {
                let (x, a, b) = (points[at], values[at], values[at + 1]);
                faults.push(format!(
                    "{question} ({fixed}): {output} from {a} to {b} near {x} {unit}"
                ));
            }
        }
    }
    assert!(faults.is_empty(), "{} wrong ways:\n{}", faults.len(), faults.join("\n"));
}

const WATER_STEAM_AND_AIR: &[Trend] = &[
    ("boil", "", ("pressure", 612.0, 2.2e7, "Pa", Decades), &[("boiling_point_c", Up)]),
    (
        "boil",
        "",
        ("pressure", 612.0, 2.0e7, "Pa", Decades),
        &[("latent_heat_vaporisation_j_kg", Down), ("saturated_vapour_density_kg_m3", Up)],
    ),
    (
        "boiling-pressure",
        "",
        ("temperature", 273.2, 646.0, "K", Even),
        &[("saturation_pressure_pa", Up)],
    ),
    (
        "water",
        "",
        ("temperature", 278.0, 600.0, "K", Even),
        &[
            ("saturation_pressure_pa", Up),
            ("liquid_enthalpy_j_kg", Up),
            ("liquid_viscosity_pa_s", Down),
            ("surface_tension_n_m", Down),
            ("liquid_density_kg_m3", Down),
        ],
    ),
    ("water", "", ("temperature", 273.2, 276.5, "K", Even), &[("liquid_density_kg_m3", Up)]),
    (
        "altitude",
        "",
        ("altitude", -2000.0, 11_000.0, "m", Even),
        &[("atmospheric_pressure_pa", Down), ("boiling_point_c", Down)],
    ),
    (
        "ice",
        "",
        ("temperature", 190.0, 273.1, "K", Even),
        &[
            ("sublimation_pressure_pa", Up),
            ("ice_density_kg_m3", Down),
            ("ice_heat_capacity_j_kgk", Up),
        ],
    ),
    (
        "ice-under-vacuum",
        "",
        ("pressure", 1e-7, 611.0, "Pa", Decades),
        &[("ice_equilibrium_temperature_c", Up)],
    ),
    (
        "air",
        "temperature = 30 C",
        ("relative-humidity", 0.01, 1.0, "", Even),
        &[
            ("dew_point_c", Up),
            ("wet_bulb_c", Up),
            ("humidity_ratio_kg_kg", Up),
            ("air_density_kg_m3", Down),
            ("air_enthalpy_j_kg", Up),
        ],
    ),
    (
        "air",
        "relative-humidity = 50 %",
        ("temperature", -20.0, 90.0, "C", Even),
        &[("dew_point_c", Up), ("wet_bulb_c", Up), ("vapour_pressure_pa", Up)],
    ),
];

#[test]
fn water_steam_and_air() {
    follow(WATER_STEAM_AND_AIR);
}

const ALCOHOL_AND_DISTILLING: &[Trend] = &[
    (
        "strength",
        "",
        ("abv", 0.0, 1.0, "", Even),
        &[
            ("mass_fraction_ethanol", Up),
            ("density_20c_kg_m3", Down),
            ("mole_fraction_ethanol", Up),
        ],
    ),
    ("strength", "abv = 40 %", ("temperature", -20.0, 40.0, "C", Even), &[("density_kg_m3", Down)]),
    (
        "boil-alcohol",
        "abv = 12 %",
        ("pressure", 2000.0, 120_000.0, "Pa", Decades),
        &[("boiling_point_c", Up)],
    ),
    (
        "boil-alcohol",
        "pressure = 1 atm",
        ("mole-fraction", 0.0, 0.85, "", Even),
        &[("boiling_point_c", Down), ("vapour_mole_fraction", Up)],
    ),
    (
        "boil-alcohol",
        "pressure = 5 kPa",
        ("mole-fraction", 0.0, 0.85, "", Even),
        &[("boiling_point_c", Down), ("vapour_mole_fraction", Up)],
    ),
    (
        "ethanol",
        "",
        ("temperature", 255.0, 460.0, "K", Even),
        &[("ethanol_saturation_pressure_pa", Up), ("ethanol_latent_heat_vaporisation_j_kg", Down)],
    ),
    ("freeze-alcohol", "", ("mass-fraction", 0.0, 0.85, "", Even), &[("freezing_point_c", Down)]),
    ("flammable", "", ("abv", 0.06, 0.99, "", Even), &[("flash_point_c", Down)]),
    (
        "distil",
        "abv = 12 %; pressure = 5 kPa",
        ("evaporated", 0.01, 0.98, "", Even),
        &[
            ("pot_mass_fraction_ethanol", Down),
            ("distillate_mass_fraction_ethanol", Down),
            ("ethanol_recovered_fraction", Up),
        ],
    ),
    (
        "distil",
        "abv = 12 %; pressure = 1 atm",
        ("evaporated", 0.01, 0.85, "", Even),
        &[
            ("pot_mass_fraction_ethanol", Down),
            ("distillate_mass_fraction_ethanol", Down),
            ("ethanol_recovered_fraction", Up),
        ],
    ),
    (
        "cook-off",
        "method = simmered",
        ("time", 15.0, 150.0, "min", Even),
        &[("alcohol_retained_percent", Down)],
    ),
];

#[test]
fn alcohol_and_distilling() {
    follow(ALCOHOL_AND_DISTILLING);
}

const SYRUPS_BRINES_AND_BATHS: &[Trend] = &[
    (
        "syrup",
        "",
        ("brix", 0.0, 0.84, "", Even),
        &[
            ("density_20c_kg_m3", Up),
            ("refractive_index_20c", Up),
            ("boiling_point_rise_k", Up),
            ("water_activity", Down),
            ("viscosity_pa_s", Up),
            ("specific_heat_j_kg_k", Down),
        ],
    ),
    ("syrup", "", ("brix", 0.0, 0.6, "", Even), &[("freezing_point_depression_k", Up)]),
    (
        "syrup",
        "brix = 60 %",
        ("temperature", 0.0, 100.0, "C", Even),
        &[("viscosity_pa_s", Down), ("density_kg_m3", Down)],
    ),
    ("syrup", "brix = 60 %", ("pressure", 3.0, 200.0, "kPa", Decades), &[("boiling_point_c", Up)]),
    (
        "sugar-solubility",
        "",
        ("temperature", 0.0, 100.0, "C", Even),
        &[("sucrose_solubility_mass_percent", Up)],
    ),
    (
        "freeze-syrup",
        "brix = 12 %",
        ("temperature", -20.0, -1.0, "C", Even),
        &[("brix_of_liquid_percent", Down), ("ice_share_of_water_fraction", Down)],
    ),
    (
        "boil-syrup",
        "brix = 12 %",
        ("boiling-point", 100.5, 118.0, "C", Even),
        &[("brix_at_boiling_point_percent", Up), ("mass_left_kg", Down)],
    ),
    (
        "brine",
        "salt = table-salt",
        ("share", 0.0, 0.23, "", Even),
        &[("freezing_point_c", Down), ("water_activity", Down), ("boiling_point_rise_k", Up)],
    ),
    (
        "brine",
        "salt = calcium-chloride",
        ("share", 0.0, 0.30, "", Even),
        &[("freezing_point_c", Down)],
    ),
    (
        "brine-for",
        "salt = table-salt",
        ("temperature", -20.9, -0.1, "C", Even),
        &[("salt_share_fraction", Down)],
    ),
];

#[test]
fn syrups_brines_and_baths() {
    follow(SYRUPS_BRINES_AND_BATHS);
}

const HEATING_CHILLING_AND_FREEZING: &[Trend] = &[
    (
        "frozen-share",
        "water = 75 %; protein = 20 %",
        ("temperature", -40.0, -1.1, "C", Even),
        &[("ice_fraction", Down)],
    ),
    (
        "heat-to-change",
        "water = 75 %; protein = 20 %; fat = 5 %; from = -40 C",
        ("to", -39.0, 100.0, "C", Even),
        &[("enthalpy_change_j_kg", Up)],
    ),
    (
        "core-temperature",
        PIECE,
        ("time", 20.0, 3000.0, "s", Decades),
        &[("mean_temperature_c", Up), ("change_left_fraction", Down)],
    ),
    (
        "core-time",
        "shape = sphere; thickness = 30 mm; start = 60 C; surroundings = 0 C",
        ("target", 1.0, 55.0, "C", Even),
        &[("time_s", Down)],
    ),
    (
        "conduction",
        "shape = slab; biot = 2",
        ("fourier", 0.01, 20.0, "", Decades),
        &[("dimensionless_temperature", Down)],
    ),
    (
        "conduction",
        "shape = cylinder; fourier = 0.3",
        ("biot", 1e-3, 1e4, "", Decades),
        &[("dimensionless_temperature", Down), ("first_eigenvalue", Up)],
    ),
    ("sear-depth", "start = 5 C", ("time", 1.0, 600.0, "s", Decades), &[("depth_m", Up)]),
    (
        "freeze-time",
        "heat-transfer = 50 W/(m2 K); start = 5 C; surroundings = -25 C",
        ("thickness", 1.0, 300.0, "mm", Decades),
        &[("freezing_time_s", Up), ("plank_time_s", Up)],
    ),
    (
        "freeze-time",
        "thickness = 20 mm; start = 5 C; surroundings = -25 C",
        ("heat-transfer", 5.0, 2000.0, "W/(m2 K)", Decades),
        &[("freezing_time_s", Down)],
    ),
    (
        "freeze-time",
        "thickness = 20 mm; heat-transfer = 50 W/(m2 K); start = 5 C",
        ("surroundings", -80.0, -15.0, "C", Even),
        &[("freezing_time_s", Up)],
    ),
    ("crystal-size", "", ("rate", 0.06, 99.0, "cm/h", Decades), &[("crystal_size_um", Down)]),
];

#[test]
fn heating_chilling_and_freezing() {
    follow(HEATING_CHILLING_AND_FREEZING);
}

const SAFETY_COOKING_AND_LOSS: &[Trend] = &[
    (
        "lethality",
        "organism = listeria; time = 2 min",
        ("temperature", 55.0, 90.0, "C", Even),
        &[("d_value_s", Down), ("log10_reduction", Up)],
    ),
    (
        "lethality",
        "organism = listeria; temperature = 65 C",
        ("time", 1.0, 7200.0, "s", Decades),
        &[("log10_reduction", Up)],
    ),
    (
        "cook-value",
        "time = 60 min",
        ("temperature", 20.0, 140.0, "C", Even),
        &[
            ("cook_value_c100_s", Up),
            ("pasteurisation_value_p70_s", Up),
            ("sterilisation_value_f0_s", Up),
        ],
    ),
    (
        "vitamin-c",
        "time = 60 min",
        ("temperature", 20.0, 140.0, "C", Even),
        &[("retention_fraction", Down)],
    ),
    (
        "vitamin-c",
        "temperature = 90 C",
        ("time", 1.0, 1e5, "s", Decades),
        &[("retention_fraction", Down)],
    ),
    (
        "z-value",
        "reference = 121.1 C",
        ("z", 4.0, 60.0, "K", Even),
        &[("activation_energy_j_mol", Down)],
    ),
    (
        "pressure-cook",
        "",
        ("gauge", 1.0, 200.0, "kPa", Even),
        &[("steam_temperature_c", Up), ("pressure_time_s", Down)],
    ),
    (
        "pressure-cook",
        "gauge = 100 kPa",
        ("altitude", 0.0, 5000.0, "m", Even),
        &[("steam_temperature_c", Down), ("open_pot_time_s", Up)],
    ),
];

#[test]
fn safety_cooking_and_loss() {
    follow(SAFETY_COOKING_AND_LOSS);
}

const EVAPORATING_AND_DRYING: &[Trend] = &[
    ("boil-off", "", ("power", 100.0, 5000.0, "W", Even), &[("evaporation_rate_kg_s", Up)]),
    (
        "evaporate",
        "heat-transfer = 10 W/(m2 K)",
        ("water-temperature", 25.0, 95.0, "C", Even),
        &[("chilton_colburn_evaporation_kg_m2s", Up), ("open_pan_evaporation_kg_m2s", Up)],
    ),
    (
        "evaporate",
        "water-temperature = 60 C",
        ("air-speed", 0.0, 20.0, "m/s", Even),
        &[("open_pan_evaporation_kg_m2s", Up)],
    ),
    (
        "evaporate",
        "water-temperature = 60 C",
        ("relative-humidity", 0.0, 1.0, "", Even),
        &[("open_pan_evaporation_kg_m2s", Down)],
    ),
    (
        "vacuum-evaporate",
        "pressure = 5 kPa",
        ("bath-temperature", 35.0, 90.0, "C", Even),
        &[("evaporation_rate_kg_s", Up)],
    ),
    (
        "flash-cool",
        "start-temperature = 60 C",
        ("end-temperature", 1.0, 59.0, "C", Even),
        &[("evaporated_fraction", Down), ("pressure_pa", Up)],
    ),
    (
        "moisture",
        "food = maize; model = modified-henderson; temperature = 25 C",
        ("water-activity", 0.05, 0.95, "", Even),
        &[("moisture_kg_kg_dry", Up)],
    ),
    (
        "moisture",
        "monolayer = 0.06; c = 12; k = 0.9",
        ("water-activity", 0.01, 0.99, "", Even),
        &[("moisture_kg_kg_dry", Up)],
    ),
    (
        "dry-page",
        "k = 0.05; n = 0.8",
        ("time", 1.0, 600.0, "min", Decades),
        &[("moisture_ratio", Down)],
    ),
    (
        "dry-slab",
        "half-thickness = 3 mm; diffusivity = 5e-10 m2/s",
        ("time", 100.0, 1e5, "s", Decades),
        &[("moisture_ratio", Down)],
    ),
    (
        "dried-yield",
        "water-before = 90 %",
        ("water-after", 0.01, 0.85, "", Even),
        &[("fresh_to_dried_ratio", Down)],
    ),
    (
        "freeze-dry",
        "chamber-pressure = 30 Pa; shelf-temperature = 20 C",
        ("thickness", 2.0, 30.0, "mm", Decades),
        &[("primary_time_s", Up), ("last_flux_kg_m2s", Down)],
    ),
    (
        "freezer-dry",
        "thickness = 5 mm",
        ("relative-humidity", 0.0, 0.95, "", Even),
        &[("time_s", Up)],
    ),
    (
        "glass",
        "substance = lactose",
        ("water-share", 0.0, 0.45, "", Even),
        &[("glass_transition_c", Down)],
    ),
];

#[test]
fn evaporating_and_drying() {
    follow(EVAPORATING_AND_DRYING);
}

const SMELL: &[Trend] = &[
    (
        "aroma-compound",
        "compound = limonene",
        ("temperature", 0.0, 100.0, "C", Even),
        &[("air_water_partition", Up), ("henry_solubility_mol_m3pa", Down)],
    ),
    (
        "aroma-left",
        "compound = linalool",
        ("water-evaporated", 0.0, 0.95, "", Even),
        &[("fraction_left", Down)],
    ),
    (
        "aroma-left",
        "compound = linalool; water-evaporated = 30 %; log-p = 3",
        ("oil-share", 0.001, 0.9, "", Even),
        &[("fraction_left", Up)],
    ),
    (
        "aroma-in-air",
        "compound = limonene",
        ("air-volumes", 0.1, 100.0, "", Decades),
        &[("fraction_left_after_flow", Down), ("fraction_left_closed", Down)],
    ),
    (
        "aroma-still-pan",
        "compound = limonene; depth = 2 cm",
        ("time", 1.0, 1e4, "s", Decades),
        &[("fraction_left", Down)],
    ),
    ("oil-water-partition", "", ("log-p", -2.0, 6.5, "", Even), &[("oil_water_partition", Up)]),
];

#[test]
fn smell() {
    follow(SMELL);
}

const SETTLING_SPINNING_AND_FILTERING: &[Trend] = &[
    (
        "particle-speed",
        GRAIN,
        ("particle-diameter", 0.1, 5000.0, "um", Decades),
        &[("terminal_speed_m_s", Up), ("particle_reynolds", Up)],
    ),
    ("drag", "", ("reynolds", 1e-4, 2000.0, "", Decades), &[("drag_coefficient", Down)]),
    (
        "hindered",
        "reynolds = 0.01",
        ("crowding-share", 0.0, 0.6, "", Even),
        &[("hindered_speed_ratio", Down)],
    ),
    ("hindered", "", ("reynolds", 0.21, 0.99, "", Decades), &[("richardson_zaki_exponent", Down)]),
    // The published pieces do not quite meet at a Reynolds number of one.
    ("hindered", "", ("reynolds", 1.01, 499.0, "", Decades), &[("richardson_zaki_exponent", Down)]),
    ("settle", JAR, ("depth", 1.0, 100.0, "cm", Decades), &[("jar_settling_time_s", Up)]),
    ("spin", "radius = 10 cm", ("speed", 10.0, 20_000.0, "rpm", Decades), &[("rcf_g", Up)]),
    (
        "sediment",
        "feed-solids = 6 %",
        ("force", 1.0, 40_000.0, "g", Decades),
        &[("cake_solids_fraction", Up), ("clear_yield_fraction", Up)],
    ),
    (
        "filter",
        "area = 200 cm2; pressure-difference = 2 kPa; viscosity = 1 mPa.s; \
            cake-resistance = 1e11 m/kg; solids = 10 g/L; medium-resistance = 1e10 1/m",
        ("volume", 0.01, 10.0, "L", Decades),
        &[("filtration_time_s", Up), ("final_flux_m_s", Down)],
    ),
    (
        "drip",
        "head = 10 cm; medium-resistance = 1e9 1/m; cake-resistance = 1e11 m/kg; solids = 5 g/L",
        ("share", 0.05, 0.99, "", Even),
        &[("drip_time_s", Up)],
    ),
    (
        "strain",
        "median = 50 um; spread = 2.5",
        ("opening", 5.0, 500.0, "um", Decades),
        &[("passed_fraction", Up)],
    ),
    (
        "permeability",
        "porosity = 0.4",
        ("particle-diameter", 1.0, 1000.0, "um", Decades),
        &[("permeability_m2", Up)],
    ),
    (
        "capillary",
        "surface-tension = 72 mN/m",
        ("pore-radius", 0.1, 1000.0, "um", Decades),
        &[("capillary_pressure_pa", Down), ("capillary_rise_m", Down)],
    ),
];

#[test]
fn settling_spinning_and_filtering() {
    follow(SETTLING_SPINNING_AND_FILTERING);
}

const DROPLETS_AND_GRINDING: &[Trend] = &[
    (
        "droplets",
        "interfacial-tension = 5 mN/m; dispersed-viscosity = 60 mPa.s",
        ("power-per-mass", 1.0, 1e6, "W/kg", Decades),
        &[("hinze_max_diameter_m", Down), ("davies_max_diameter_m", Down)],
    ),
    (
        "eddies",
        "continuous-viscosity = 1 mPa.s",
        ("power-per-mass", 1.0, 1e6, "W/kg", Decades),
        &[("kolmogorov_length_m", Down)],
    ),
    ("shear", "", ("viscosity-ratio", 1.0, 4.0, "", Decades), &[("critical_capillary_number", Up)]),
    (
        "shear",
        "flow = plane-elongation",
        ("viscosity-ratio", 1e-6, 1e3, "", Decades),
        &[("critical_capillary_number", Down)],
    ),
    (
        "laplace",
        "interfacial-tension = 5 mN/m",
        ("droplet-diameter", 0.01, 1000.0, "um", Decades),
        &[("laplace_pressure_pa", Down)],
    ),
    ("homogenise", "", ("pressure", 2.0, 60.0, "MPa", Even), &[("droplet_d32_m", Down)]),
    (
        "grind",
        "feed = 2 mm",
        ("product", 5.0, 1500.0, "um", Decades),
        &[("bond_energy_j_kg", Down)],
    ),
    ("mouthfeel", "", ("size", 6.0, 79.0, "um", Even), &[("gritty_share_fraction", Down)]),
];

#[test]
fn droplets_and_grinding() {
    follow(DROPLETS_AND_GRINDING);
}

const GASES_AND_CRYOGENS: &[Trend] = &[
    (
        "cryogen",
        "",
        ("leaving-temperature", 80.0, 300.0, "K", Even),
        &[("total_cooling_capacity_j_kg", Up)],
    ),
    ("nitrogen", "", ("food", 0.1, 10.0, "kg", Even), &[("liquid_nitrogen_kg", Up)]),
    (
        "gas-volume",
        "gas = nitrogen",
        ("temperature", 220.0, 330.0, "K", Even),
        &[("gas_volume_m3_kg", Up)],
    ),
    (
        "gas-volume",
        "gas = carbon-dioxide",
        ("pressure", 1.0, 1500.0, "kPa", Decades),
        &[("gas_volume_m3_kg", Down)],
    ),
    (
        "room-gas",
        "room = 30 m3; gas = nitrogen",
        ("mass", 0.1, 10.0, "kg", Even),
        &[("peak_ppm", Up), ("oxygen_at_peak_percent", Down)],
    ),
    (
        "gas-solubility",
        "partial-pressure = 1 bar",
        ("temperature", 0.0, 40.0, "C", Even),
        &[("henry_solubility_mol_m3pa", Down)],
    ),
    (
        "gas-solubility",
        "gas = nitrous-oxide; partial-pressure = 1 bar",
        ("temperature", 0.0, 40.0, "C", Even),
        &[("henry_solubility_mol_m3pa", Down)],
    ),
    (
        "carbonate",
        "temperature = 5 C",
        ("dissolved", 1.0, 12.0, "g/L", Even),
        &[("gauge_pressure_pa", Up)],
    ),
    (
        "vacuum-infuse",
        "pores = 20 %",
        ("vacuum", 2.0, 100.0, "kPa", Even),
        &[("uptake_volume_fraction", Down)],
    ),
];

#[test]
fn gases_and_cryogens() {
    follow(GASES_AND_CRYOGENS);
}
