//! Questions about the thermal properties of food.

use crate::calc::{Answer, CalcError, Family, Given, Input, Kind, Need, Output, Question};
use crate::finding::suggestion;
use crate::physics::PhysicsError;
use crate::physics::food_thermal::{
    Component, Composition, ConductivityModel, FREEZING_POINTS, apparent_heat_capacity,
    conductivity, density, diffusivity, enthalpy_change, freezing_point_from_molality,
    heat_capacity, ice_fraction, latent_heat, published_freezing_point,
};
use crate::quantity::{Dimension, Mass, Temperature};

const WATER: Input = Input::required("water", Dimension::Fraction, "share of water, such as 85 %");
const PROTEIN: Input = Input::with_default("protein", Dimension::Fraction, "0", "share of protein");
const FAT: Input = Input::with_default("fat", Dimension::Fraction, "0", "share of fat");
const CARBOHYDRATE: Input = Input::optional(
    "carbohydrate",
    Dimension::Fraction,
    "share of carbohydrate without fibre; the rest when left out",
);
const FIBRE: Input = Input::with_default("fibre", Dimension::Fraction, "0", "share of fibre");
const ASH: Input = Input::with_default("ash", Dimension::Fraction, "0", "share of ash and salt");
const FREEZING: Input = Input::with_default(
    "freezing-point",
    Dimension::Temperature,
    "-1 °C",
    "where the food starts to freeze; `food-freezing-point` lists foods",
);

fn composition(given: &Given) -> Result<Composition, PhysicsError> {
    let share = |name| given.number(name);
    let mut food = Composition {
        water: share("water"),
        protein: share("protein"),
        fat: share("fat"),
        carbohydrate: 0.0,
        fibre: share("fibre"),
        ash: share("ash"),
    };
    let rest = (1.0 - food.water - food.solids()).max(0.0);
    food.carbohydrate = given.optional_number("carbohydrate").unwrap_or(rest);
    food.checked()
}

/// What a food holds and how it conducts, from its composition.
pub(super) const THERMAL: Question = Question {
    name: "thermal",
    other_names: &["food-properties", "mixture"],
    family: Family::HeatAndCold,
    summary: "How a food holds and conducts heat, from its composition",
    example: "thermal --water 75% --protein 20% --fat 4% --ash 1% --temperature 20C",
    inputs: &[
        WATER,
        PROTEIN,
        FAT,
        CARBOHYDRATE,
        FIBRE,
        ASH,
        Input::with_default(
            "temperature",
            Dimension::Temperature,
            "20 °C",
            "temperature of the food",
        ),
        FREEZING,
    ],
    outputs: &[
        Output {
            key: "heat_capacity_j_kgk",
            label: "heat capacity without freezing",
            unit: "J/(kg K)",
        },
        Output { key: "density_kg_m3", label: "density without pores", unit: "kg/m³" },
        Output {
            key: "conductivity_parallel_w_mk",
            label: "conductivity, parallel",
            unit: "W/(m K)",
        },
        Output { key: "conductivity_series_w_mk", label: "conductivity, series", unit: "W/(m K)" },
        Output {
            key: "conductivity_geometric_w_mk",
            label: "conductivity, geometric",
            unit: "W/(m K)",
        },
        Output {
            key: "conductivity_maxwell_eucken_w_mk",
            label: "conductivity, Maxwell-Eucken",
            unit: "W/(m K)",
        },
        Output {
            key: "conductivity_kopelman_w_mk",
            label: "conductivity, Kopelman",
            unit: "W/(m K)",
        },
        Output { key: "diffusivity_m2_s", label: "thermal diffusivity", unit: "m²/s" },
        Output { key: "ice_fraction", label: "ice in the food", unit: "kg/kg" },
        Output {
            key: "apparent_heat_capacity_j_kgk",
            label: "heat capacity with freezing",
            unit: "J/(kg K)",
        },
        Output { key: "latent_heat_j_kg", label: "latent heat of all its water", unit: "J/kg" },
        Output {
            key: "enthalpy_from_minus_40_c_j_kg",
            label: "heat held over -40 °C",
            unit: "J/kg",
        },
    ],
    answer: |given| {
        let food = composition(given)?;
        let (t, tf) = (given.temperature("temperature"), given.temperature("freezing-point"));
        let ice = ice_fraction(food, tf, t)?;
        let k = |model| conductivity(food, ice, t, model).map(crate::quantity::Conductivity::si);
        let reference =
            Temperature::from_celsius(crate::physics::food_thermal::ENTHALPY_REFERENCE_CELSIUS);
        Ok(Answer::new()
            .with("heat_capacity_j_kgk", heat_capacity(food, ice, t)?.si())
            .with("density_kg_m3", density(food, ice, t)?.si())
            .with("conductivity_parallel_w_mk", k(ConductivityModel::Parallel)?)
            .with("conductivity_series_w_mk", k(ConductivityModel::Series)?)
            .with("conductivity_geometric_w_mk", k(ConductivityModel::Geometric)?)
            .with("conductivity_maxwell_eucken_w_mk", k(ConductivityModel::MaxwellEucken)?)
            .with("conductivity_kopelman_w_mk", k(ConductivityModel::Kopelman)?)
            .with("diffusivity_m2_s", diffusivity(food, ice, t)?.si())
            .with("ice_fraction", ice)
            .with("apparent_heat_capacity_j_kgk", apparent_heat_capacity(food, tf, t)?.si())
            .with("latent_heat_j_kg", latent_heat(food.water).si())
            .with("enthalpy_from_minus_40_c_j_kg", enthalpy_change(food, tf, reference, t)?.si())
            .remark("pores and air are left out; porous food conducts less and weighs less"))
    },
};

const COMPONENTS: &[&str] = &["water", "ice", "protein", "fat", "carbohydrate", "fibre", "ash"];

fn component(word: &str) -> Component {
    match word {
        "ice" => Component::Ice,
        "protein" => Component::Protein,
        "fat" => Component::Fat,
        "carbohydrate" => Component::Carbohydrate,
        "fibre" => Component::Fibre,
        "ash" => Component::Ash,
        _ => Component::Water,
    }
}

/// Properties of one component.
pub(super) const COMPONENT: Question = Question {
    name: "food-component",
    other_names: &["component"],
    family: Family::HeatAndCold,
    summary: "How a pure component of food holds and conducts heat",
    example: "food-component --component fat --temperature 40C",
    inputs: &[
        Input::choice("component", COMPONENTS, "which component"),
        Input::required("temperature", Dimension::Temperature, "-40 °C to 150 °C"),
    ],
    outputs: &[
        Output { key: "conductivity_w_mk", label: "conductivity", unit: "W/(m K)" },
        Output { key: "density_kg_m3", label: "density", unit: "kg/m³" },
        Output { key: "heat_capacity_j_kgk", label: "heat capacity", unit: "J/(kg K)" },
    ],
    answer: |given| {
        let (part, t) = (component(given.word("component")), given.temperature("temperature"));
        Ok(Answer::new()
            .with("conductivity_w_mk", part.conductivity(t)?.si())
            .with("density_kg_m3", part.density(t)?.si())
            .with("heat_capacity_j_kgk", part.heat_capacity(t)?.si()))
    },
};

/// Where a food starts to freeze.
pub(super) const FREEZING_POINT: Question = Question {
    name: "food-freezing-point",
    other_names: &["initial-freezing-point"],
    family: Family::HeatAndCold,
    summary: "Where a food starts to freeze, by name or from what is dissolved in it",
    example: "food-freezing-point --food strawberry",
    inputs: &[
        Input { name: "food", kind: Kind::Text, need: Need::Optional, help: "name of the food" },
        Input::optional(
            "molality",
            Dimension::Molality,
            "particles dissolved per kilogram of water: sugar counts once, salt twice",
        ),
    ],
    outputs: &[Output {
        key: "initial_freezing_point_c",
        label: "initial freezing point",
        unit: "°C",
    }],
    answer: |given| {
        if let Some(molality) = given.optional_number("molality") {
            let point = freezing_point_from_molality(molality)?;
            return Ok(Answer::new().with("initial_freezing_point_c", point.celsius()));
        }
        let food = given.word("food");
        if food.is_empty() {
            return Err(CalcError::combination("give `food` or `molality`"));
        }
        let row = published_freezing_point(food).ok_or_else(|| {
            let names: Vec<&str> = FREEZING_POINTS.iter().map(|row| row.food).collect();
            let help = suggestion(food, &names);
            CalcError::UnknownWord { name: "food", word: food.to_owned(), help }
        })?;
        let answer = Answer::new().with("initial_freezing_point_c", row.temperature.celsius());
        let remark = format!("published for `{}`", row.food);
        let unread = "; from memory of the table, not checked against a copy";
        Ok(answer.remark(if row.read { remark } else { remark + unread }))
    },
};

/// How much of a food is ice.
pub(super) const FROZEN_SHARE: Question = Question {
    name: "frozen-share",
    other_names: &["ice-fraction"],
    family: Family::HeatAndCold,
    summary: "How much of a food is ice at a temperature below freezing",
    example: "frozen-share --water 75% --protein 20% --freezing-point -1.5C --temperature -18C",
    inputs: &[
        WATER,
        PROTEIN,
        FREEZING,
        Input::required("temperature", Dimension::Temperature, "temperature of the food"),
        Input::with_default("mass", Dimension::Mass, "1 kg", "mass of the food"),
    ],
    outputs: &[
        Output { key: "ice_fraction", label: "ice in the food", unit: "kg/kg" },
        Output { key: "frozen_water_fraction", label: "share of the water that is ice", unit: "" },
        Output { key: "ice_mass_kg", label: "mass of ice", unit: "kg" },
        Output { key: "unfrozen_water_mass_kg", label: "mass of liquid water", unit: "kg" },
    ],
    answer: |given| {
        let food = Composition {
            water: given.number("water"),
            protein: given.number("protein"),
            ..Composition::default()
        };
        let (t, tf) = (given.temperature("temperature"), given.temperature("freezing-point"));
        let ice = ice_fraction(food, tf, t)?;
        let mass: Mass = given.mass("mass");
        Ok(Answer::new()
            .with("ice_fraction", ice)
            .with("frozen_water_fraction", ice / food.water)
            .with("ice_mass_kg", ice * mass.kilograms())
            .with("unfrozen_water_mass_kg", (food.water - ice) * mass.kilograms()))
    },
};

/// The heat between two temperatures.
pub(super) const HEAT_TO_CHANGE: Question = Question {
    name: "heat-to-change",
    other_names: &["enthalpy", "cooling-load"],
    family: Family::HeatAndCold,
    summary: "How much heat takes a food from one temperature to another, ice included",
    example: "heat-to-change --water 75% --protein 20% --fat 5% --from 20C --to -18C --mass 2kg",
    inputs: &[
        WATER,
        PROTEIN,
        FAT,
        CARBOHYDRATE,
        FIBRE,
        ASH,
        FREEZING,
        Input::required("from", Dimension::Temperature, "temperature at the start"),
        Input::required("to", Dimension::Temperature, "temperature at the end"),
        Input::with_default("mass", Dimension::Mass, "1 kg", "mass of the food"),
    ],
    outputs: &[
        Output { key: "enthalpy_change_j_kg", label: "heat per kilogram", unit: "J/kg" },
        Output { key: "heat_j", label: "heat in all", unit: "J" },
    ],
    answer: |given| {
        let food = composition(given)?;
        let tf = given.temperature("freezing-point");
        let change = enthalpy_change(food, tf, given.temperature("from"), given.temperature("to"))?;
        Ok(Answer::new()
            .with("enthalpy_change_j_kg", change.si())
            .with("heat_j", (given.mass("mass") * change).joules()))
    },
};
