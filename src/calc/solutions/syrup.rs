//! Questions about sugar in water.

use super::super::{Answer, CalcError, Family, Given, Input, Output, Question};
use super::with_result;
use crate::physics::solutions::{self, Solution};
use crate::quantity::{Dimension, Temperature};

const PER_CENT: f64 = 100.0;

/// What a syrup is like.
pub(super) const SYRUP: Question = Question {
    name: "syrup",
    other_names: &["sugar-syrup", "sugar-solution", "sucrose", "brix"],
    family: Family::Solutions,
    summary: "What a sugar syrup weighs, and when it freezes, boils and runs",
    example: "syrup --brix \"65 °Brix\" --temperature \"20 °C\"",
    inputs: &[
        Input::required("brix", Dimension::Fraction, "Sugar by mass, as 0.65, 65 % or 65 °Brix"),
        Input::with_default("temperature", Dimension::Temperature, "20 °C", "Its temperature"),
        Input::with_default(
            "pressure",
            Dimension::Pressure,
            "101.325 kPa",
            "Pressure under which it boils",
        ),
    ],
    outputs: &[
        Output { key: "density_kg_m3", label: "density", unit: "kg/m³" },
        Output { key: "density_20c_kg_m3", label: "density at 20 °C", unit: "kg/m³" },
        Output { key: "sugar_concentration_kg_m3", label: "sugar per volume", unit: "g/L" },
        Output { key: "refractive_index_20c", label: "refractive index, 589 nm, 20 °C", unit: "" },
        Output { key: "freezing_point_c", label: "first ice", unit: "°C" },
        Output { key: "freezing_point_depression_k", label: "below water", unit: "K" },
        Output { key: "boiling_point_c", label: "boils", unit: "°C" },
        Output { key: "boiling_point_rise_k", label: "above water", unit: "K" },
        Output { key: "water_activity", label: "water activity", unit: "" },
        Output { key: "viscosity_pa_s", label: "viscosity", unit: "Pa·s" },
        Output { key: "specific_heat_j_kg_k", label: "heat capacity", unit: "J/(kg K)" },
    ],
    answer: syrup,
};

fn syrup(given: &Given) -> Result<Answer, CalcError> {
    const REFERENCE: Temperature = Temperature::from_celsius(20.0);
    let (brix, temperature) = (given.number("brix"), given.temperature("temperature"));
    let solution = Solution::syrup(brix)?;
    let pressure = given.pressure("pressure");
    let density = solutions::density(brix, temperature);
    let freezing = solution.freezing_point().map(Temperature::celsius);
    let values = [
        ("density_kg_m3", density.clone().map(|d| d.si())),
        ("density_20c_kg_m3", solutions::density(brix, REFERENCE).map(|d| d.si())),
        ("sugar_concentration_kg_m3", density.map(|d| brix * d.si())),
        ("refractive_index_20c", solutions::refractive_index(brix)),
        ("freezing_point_c", freezing.clone()),
        ("freezing_point_depression_k", freezing.map(|t| -t)),
        ("boiling_point_c", solution.boiling_point(pressure).map(Temperature::celsius)),
        ("boiling_point_rise_k", solution.boiling_point_rise(pressure).map(|d| d.kelvin())),
        ("water_activity", solution.water_activity(temperature)),
        ("viscosity_pa_s", solutions::viscosity(brix, temperature).map(|v| v.si())),
        ("specific_heat_j_kg_k", solutions::specific_heat(brix, temperature).map(|c| c.si())),
    ];
    let answer = values
        .into_iter()
        .fold(Answer::new(), |answer, (key, result)| with_result(answer, key, result));
    Ok(match solutions::sucrose_solubility(temperature) {
        Ok(limit) if brix > limit => answer.remark(format!(
            "supersaturated: at this temperature sugar above {:.1} °Brix may crystallise",
            PER_CENT * limit
        )),
        _ => answer,
    })
}

/// What a refractometer or a hydrometer says.
pub(super) const REFRACTOMETER: Question = Question {
    name: "refractometer",
    other_names: &["hydrometer", "brix-reading"],
    family: Family::Solutions,
    summary: "How much sugar a reading means, corrected to 20 °C",
    example: "refractometer --reading \"24 °Brix\" --temperature \"12 °C\"",
    inputs: &[
        Input::optional("reading", Dimension::Fraction, "Brix read on a refractometer"),
        Input::optional("refractive-index", Dimension::Fraction, "Index read at 20 °C"),
        Input::optional("density", Dimension::Density, "Density, by hydrometer or by weight"),
        Input::with_default(
            "temperature",
            Dimension::Temperature,
            "20 °C",
            "Temperature of the sample; leave out for a scale that compensates",
        ),
    ],
    outputs: &[
        Output { key: "brix_percent", label: "sugar by mass", unit: "%" },
        Output { key: "correction_percent", label: "added to the reading", unit: "%" },
        Output { key: "refractive_index_20c", label: "refractive index, 589 nm, 20 °C", unit: "" },
        Output { key: "density_20c_kg_m3", label: "density at 20 °C", unit: "kg/m³" },
    ],
    answer: refractometer,
};

fn refractometer(given: &Given) -> Result<Answer, CalcError> {
    const REFERENCE: Temperature = Temperature::from_celsius(20.0);
    let temperature = given.temperature("temperature");
    let reading = given.optional_number("reading");
    let index = given.optional_number("refractive-index");
    let (brix, correction) = match (reading, index, given.optional_density("density")) {
        (Some(reading), None, None) => {
            let correction = solutions::brix_temperature_correction(reading, temperature)?;
            (reading + correction, Some(PER_CENT * correction))
        }
        (None, Some(index), None) => (solutions::brix_from_refractive_index(index)?, None),
        (None, None, Some(density)) => (solutions::brix_from_density(density, temperature)?, None),
        _ => {
            return Err(CalcError::combination(
                "give one of `reading`, `refractive-index` and `density`",
            ));
        }
    };
    let answer = Answer::new()
        .with("brix_percent", PER_CENT * brix)
        .with_optional("correction_percent", correction);
    let answer =
        with_result(answer, "refractive_index_20c", solutions::refractive_index(brix.max(0.0)));
    let density = solutions::density(brix.max(0.0), REFERENCE).map(|d| d.si());
    Ok(with_result(answer, "density_20c_kg_m3", density)
        .remark("acids, salts and alcohol read as sugar; in juice 0.5 to 1 °Brix (estimate)"))
}

/// How much sugar dissolves.
pub(super) const SUGAR_SOLUBILITY: Question = Question {
    name: "sugar-solubility",
    other_names: &["saturated-syrup", "sucrose-solubility"],
    family: Family::Solutions,
    summary: "How much sugar water takes up before it crystallises",
    example: "sugar-solubility --temperature \"20 °C\"",
    inputs: &[Input::with_default(
        "temperature",
        Dimension::Temperature,
        "20 °C",
        "Temperature of the syrup",
    )],
    outputs: &[
        Output { key: "sucrose_solubility_mass_percent", label: "sugar in syrup", unit: "%" },
        Output { key: "sugar_per_water_kg_kg", label: "sugar per water", unit: "kg/kg" },
    ],
    answer: sugar_solubility,
};

fn sugar_solubility(given: &Given) -> Result<Answer, CalcError> {
    let share = solutions::sucrose_solubility(given.temperature("temperature"))?;
    Ok(Answer::new()
        .with("sucrose_solubility_mass_percent", PER_CENT * share)
        .with("sugar_per_water_kg_kg", share / (1.0 - share)))
}

/// What freezing does to a syrup.
pub(super) const FREEZE_SYRUP: Question = Question {
    name: "freeze-syrup",
    other_names: &["freeze-concentrate", "freezing-curve", "sorbet"],
    family: Family::Solutions,
    summary: "How strong the syrup left is, and how much ice, when it is frozen to a temperature",
    example: "freeze-syrup --brix \"12 °Brix\" --temperature \"-6 °C\"",
    inputs: &[
        Input::with_default("brix", Dimension::Fraction, "10 %", "Sugar before freezing"),
        Input::required("temperature", Dimension::Temperature, "Temperature reached"),
    ],
    outputs: &[
        Output { key: "brix_of_liquid_percent", label: "sugar in the liquid left", unit: "%" },
        Output { key: "ice_share_of_water_fraction", label: "water frozen", unit: "" },
        Output { key: "ice_share_of_mass_fraction", label: "ice by mass", unit: "" },
        Output { key: "freezing_point_c", label: "first ice", unit: "°C" },
    ],
    answer: freeze_syrup,
};

fn freeze_syrup(given: &Given) -> Result<Answer, CalcError> {
    /// Eutectic of sucrose and ice [°C]: -13.95, F. E. Young & F. T. Jones 1949 (from memory).
    const EUTECTIC: f64 = -13.95;
    let (brix, temperature) = (given.number("brix"), given.temperature("temperature"));
    let syrup = Solution::syrup(brix)?;
    let factor = syrup.factor_at_freezing_point(temperature)?;
    let ice = (1.0 - 1.0 / factor).max(0.0);
    let liquid = syrup.concentrated(factor.max(1.0));
    let answer = Answer::new()
        .with("brix_of_liquid_percent", PER_CENT * liquid.dissolved_share())
        .with("ice_share_of_water_fraction", ice)
        .with("ice_share_of_mass_fraction", ice * (1.0 - brix))
        .with("freezing_point_c", syrup.freezing_point()?.celsius());
    Ok(if temperature.celsius() < EUTECTIC {
        answer.remark("below -13.9 °C sugar may crystallise too; as a rule it does not in hours")
    } else {
        answer
    })
}

/// When a boiling syrup is strong enough.
pub(super) const BOIL_SYRUP: Question = Question {
    name: "boil-syrup",
    other_names: &["boil-down", "reduce-syrup", "candy"],
    family: Family::Solutions,
    summary: "How strong a syrup is when it boils at a temperature, and what it weighs then",
    example: "boil-syrup --boiling-point \"104 °C\" --brix \"12 °Brix\" --mass \"1 kg\"",
    inputs: &[
        Input::required("boiling-point", Dimension::Temperature, "Thermometer in the boiling pan"),
        Input::with_default(
            "pressure",
            Dimension::Pressure,
            "101.325 kPa",
            "Pressure above it, absolute",
        ),
        Input::with_default("brix", Dimension::Fraction, "10 %", "Sugar at the start"),
        Input::with_default("mass", Dimension::Mass, "1 kg", "Weight at the start"),
    ],
    outputs: &[
        Output { key: "brix_at_boiling_point_percent", label: "sugar by mass", unit: "%" },
        Output { key: "mass_left_kg", label: "weight then", unit: "kg" },
        Output { key: "water_boiled_off_kg", label: "water gone", unit: "kg" },
    ],
    answer: boil_syrup,
};

fn boil_syrup(given: &Given) -> Result<Answer, CalcError> {
    let (brix, mass) = (given.number("brix"), given.mass("mass").kilograms());
    let factor = Solution::syrup(brix)?
        .factor_at_boiling_point(given.temperature("boiling-point"), given.pressure("pressure"))?;
    let end = Solution::syrup(brix)?.concentrated(factor).dissolved_share();
    if factor < 1.0 {
        return Err(CalcError::combination(
            "a syrup of this `brix` boils above `boiling-point` already; nothing is left to boil off",
        ));
    }
    let left = mass * brix / end;
    let answer = Answer::new()
        .with("brix_at_boiling_point_percent", PER_CENT * end)
        .with("mass_left_kg", left)
        .with("water_boiled_off_kg", mass - left);
    Ok(answer.remark("a thermometer that is 0.5 K wrong shifts this by several °Brix below 70"))
}
