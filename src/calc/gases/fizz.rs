//! Questions about gas in drinks, siphons and pores.

use super::super::{Answer, CalcError, Family, Given, Input, Output, Question};
use crate::physics::gas_solubility::{self as fizz, Drink, Siphon, SolubleGas};
use crate::physics::water;
use crate::quantity::{Density, Dimension, Pressure, Temperature};

const SOLUBLE: &[&str] =
    &["carbon-dioxide", "nitrous-oxide", "carbon dioxide", "nitrous oxide", "CO2", "N2O"];

fn soluble(given: &Given) -> SolubleGas {
    match given.word("gas") {
        "nitrous-oxide" | "nitrous oxide" | "N2O" => SolubleGas::NitrousOxide,
        _ => SolubleGas::CarbonDioxide,
    }
}

const SUGAR: Input =
    Input::with_default("sugar", Dimension::Density, "0 g/L", "Sugar in the drink, to 200 g/L");
const ALCOHOL: Input =
    Input::with_default("alcohol", Dimension::Fraction, "0 %", "Alcohol by volume, to 15 %");

fn drink(given: &Given) -> Drink {
    Drink { sugar: given.density("sugar"), alcohol: given.number("alcohol") }
}

fn vapour_pressure(temperature: Temperature) -> Result<Pressure, CalcError> {
    Ok(water::saturation_pressure(temperature.max(Temperature::from_celsius(0.01)))?)
}

/// How much gas a drink holds.
pub(super) const GAS_SOLUBILITY: Question = Question {
    name: "gas-solubility",
    other_names: &["dissolved-gas", "henry", "co2-in-water", "n2o-in-water"],
    family: Family::Gases,
    summary: "How much carbon dioxide or nitrous oxide a drink holds under a pressure",
    example: "gas-solubility --gas carbon-dioxide --temperature \"4 °C\" --partial-pressure \"3 bar\"",
    inputs: &[
        Input::choice("gas", SOLUBLE, "Which gas"),
        Input::required("temperature", Dimension::Temperature, "Of the drink"),
        Input::optional("partial-pressure", Dimension::Pressure, "Pressure of the gas alone"),
        Input::with_default(
            "total-pressure",
            Dimension::Pressure,
            "101.325 kPa",
            "Else: of gas and water vapour together",
        ),
        SUGAR,
        ALCOHOL,
    ],
    outputs: &[
        Output { key: "henry_solubility_mol_m3pa", label: "solubility", unit: "mol/(m³ Pa)" },
        Output { key: "henry_volatility_pa", label: "Henry's constant", unit: "Pa" },
        Output { key: "dissolved_gas_kg_m3", label: "dissolved at rest", unit: "g/L" },
        Output { key: "gas_volumes", label: "volumes of gas", unit: "" },
    ],
    answer: gas_solubility,
};

fn gas_solubility(given: &Given) -> Result<Answer, CalcError> {
    let (gas, temperature) = (soluble(given), given.temperature("temperature"));
    let partial = match given.optional_pressure("partial-pressure") {
        Some(partial) => partial,
        None => given.pressure("total-pressure") - vapour_pressure(temperature)?,
    };
    let volatility = match gas {
        SolubleGas::CarbonDioxide => fizz::carbon_dioxide_volatility(temperature)?,
        SolubleGas::NitrousOxide => fizz::henry_volatility(gas, temperature)?,
    };
    let answer = Answer::new().with("henry_volatility_pa", volatility.pascals());
    let solubility = match fizz::henry_solubility(gas, temperature) {
        Ok(solubility) => solubility,
        Err(error) => return Ok(answer.remark(error.to_string())),
    };
    let dissolved = fizz::dissolved(gas, temperature, partial, drink(given))?;
    Ok(answer
        .with("henry_solubility_mol_m3pa", solubility)
        .with("dissolved_gas_kg_m3", dissolved.si())
        .with("gas_volumes", fizz::gas_volumes(gas, dissolved)?))
}

/// What pressure a wanted fizz needs.
pub(super) const CARBONATE: Question = Question {
    name: "carbonate",
    other_names: &["carbonation", "fizz", "soda"],
    family: Family::Gases,
    summary: "What pressure gives a drink the fizz wanted, and how much gas that takes",
    example: "carbonate --dissolved \"6 g/L\" --temperature \"4 °C\" --sugar \"100 g/L\"",
    inputs: &[
        Input::choice("gas", SOLUBLE, "Which gas"),
        Input::optional("dissolved", Dimension::Density, "Gas wanted in the drink"),
        Input::optional("volumes", Dimension::Fraction, "Instead: volumes of gas per drink"),
        Input::required("temperature", Dimension::Temperature, "Of the drink"),
        SUGAR,
        ALCOHOL,
        Input::with_default("pressure", Dimension::Pressure, "101.325 kPa", "Air pressure"),
        Input::with_default("drink", Dimension::Volume, "1 L", "How much drink"),
        Input::with_default(
            "transfer-rate",
            Dimension::Rate,
            "0.05 /s",
            "Shaken 0.02 to 0.1, still 0.00001 to 0.0001 (estimates)",
        ),
    ],
    outputs: &[
        Output { key: "gauge_pressure_pa", label: "gauge pressure", unit: "Pa" },
        Output { key: "partial_pressure_pa", label: "pressure of the gas", unit: "Pa" },
        Output { key: "dissolved_gas_kg_m3", label: "dissolved", unit: "g/L" },
        Output { key: "gas_volumes", label: "volumes of gas", unit: "" },
        Output { key: "gas_kg", label: "gas in the drink", unit: "kg" },
        Output { key: "time_to_90_percent_s", label: "until 90 % is in", unit: "s" },
    ],
    answer: carbonate,
};

fn carbonate(given: &Given) -> Result<Answer, CalcError> {
    /// Soda bottles of plastic are made for about this \[Pa\] gauge: common practice.
    const BOTTLE_LIMIT: f64 = 6e5;
    const ALMOST_ALL: f64 = 0.9;
    let (gas, temperature) = (soluble(given), given.temperature("temperature"));
    let one_gram_per_litre = fizz::gas_volumes(gas, Density::from_si(1.0))?;
    let wanted = match (given.optional_density("dissolved"), given.optional_number("volumes")) {
        (Some(dissolved), None) => dissolved,
        (None, Some(volumes)) => Density::from_si(volumes / one_gram_per_litre),
        _ => return Err(CalcError::combination("give `dissolved` or `volumes`")),
    };
    let partial = fizz::pressure_for_concentration(gas, wanted, temperature, drink(given))?;
    let time = fizz::time_to_dissolve(ALMOST_ALL, given.rate("transfer-rate"))?;
    let gauge = partial + vapour_pressure(temperature)? - given.pressure("pressure");
    let answer = Answer::new()
        .with("gauge_pressure_pa", gauge.pascals())
        .with("partial_pressure_pa", partial.pascals())
        .with("dissolved_gas_kg_m3", wanted.si())
        .with("gas_volumes", wanted.si() * one_gram_per_litre)
        .with("gas_kg", (wanted * given.volume("drink")).kilograms())
        .with("time_to_90_percent_s", time.seconds())
        .remark("at rest and with the air flushed out; only in vessels made for the pressure");
    Ok(if gauge.pascals() > BOTTLE_LIMIT {
        answer.remark("more than soda bottles are made for: chill the drink instead")
    } else {
        answer
    })
}

/// What a cartridge does in a siphon.
pub(super) const NITROUS: Question = Question {
    name: "nitrous",
    other_names: &["siphon", "whipping-siphon", "charger"],
    family: Family::Gases,
    summary: "What pressure a cartridge makes in a siphon, and how much of it dissolves",
    example: "nitrous --siphon \"0.5 L\" --filling \"0.25 L\" --charge \"8 g\" --temperature \"5 °C\"",
    inputs: &[
        Input::choice("gas", &["nitrous-oxide", "carbon-dioxide", "N2O", "CO2"], "Which gas"),
        Input::with_default("siphon", Dimension::Volume, "0.5 L", "Inner volume to the brim"),
        Input::required("filling", Dimension::Volume, "Volume of the filling"),
        Input::with_default("charge", Dimension::Mass, "8 g", "Gas let in, all cartridges"),
        Input::with_default("temperature", Dimension::Temperature, "5 °C", "Throughout"),
        Input::with_default(
            "relative-solubility",
            Dimension::Fraction,
            "1",
            "Against water: cream about 1.3 (estimate)",
        ),
    ],
    outputs: &[
        Output { key: "gauge_pressure_pa", label: "after shaking", unit: "Pa" },
        Output { key: "gauge_pressure_before_shaking_pa", label: "before shaking", unit: "Pa" },
        Output { key: "dissolved_gas_kg_m3", label: "dissolved", unit: "g/L" },
        Output { key: "dissolved_share_fraction", label: "share of the gas", unit: "" },
    ],
    answer: nitrous,
};

fn nitrous(given: &Given) -> Result<Answer, CalcError> {
    let siphon = Siphon {
        volume: given.volume("siphon"),
        filling: given.volume("filling"),
        gas: soluble(given),
        charge: given.mass("charge"),
        temperature: given.temperature("temperature"),
        relative_solubility: given.number("relative-solubility"),
    };
    let state = siphon.charged()?;
    Ok(Answer::new()
        .with("gauge_pressure_pa", state.after_shaking.pascals())
        .with("gauge_pressure_before_shaking_pa", state.before_shaking.pascals())
        .with("dissolved_gas_kg_m3", state.dissolved.si())
        .with("dissolved_share_fraction", state.dissolved_share)
        .remark("never over the maker's filling or number of cartridges; all-metal heads only")
        .remark("do not breathe the gas; vent it by an open window"))
}

/// What vacuum does to fruit.
pub(super) const VACUUM_INFUSE: Question = Question {
    name: "vacuum-infuse",
    other_names: &["vacuum-compress", "pores", "vacuum-impregnation"],
    family: Family::Gases,
    summary: "How much liquid fruit takes up, or how far it is pressed together, by a vacuum",
    example: "vacuum-infuse --pores \"20 %\" --vacuum \"50 mbar\" --temperature \"5 °C\"",
    inputs: &[
        Input::required("pores", Dimension::Fraction, "Air in the food by volume"),
        Input::required("vacuum", Dimension::Pressure, "Lowest pressure, absolute"),
        Input::with_default(
            "restored",
            Dimension::Pressure,
            "101.325 kPa",
            "Pressure let in afterwards, absolute",
        ),
        Input::with_default("temperature", Dimension::Temperature, "5 °C", "Of the food"),
        Input::with_default("food-density", Dimension::Density, "900 kg/m³", "With its air"),
        Input::with_default("liquid-density", Dimension::Density, "1050 kg/m³", "Of the liquid"),
        Input::with_default("food", Dimension::Mass, "1 kg", "Mass of the food"),
    ],
    outputs: &[
        Output { key: "uptake_volume_fraction", label: "volume filled or closed", unit: "" },
        Output { key: "uptake_kg", label: "liquid taken up", unit: "kg" },
        Output { key: "mass_gain_fraction", label: "gain in weight", unit: "" },
        Output { key: "infused_density_kg_m3", label: "density when filled", unit: "kg/m³" },
        Output { key: "compressed_density_kg_m3", label: "density when pressed", unit: "kg/m³" },
        Output { key: "lowest_pressure_pa", label: "pressure reached", unit: "Pa" },
    ],
    answer: vacuum_infuse,
};

fn vacuum_infuse(given: &Given) -> Result<Answer, CalcError> {
    let (vacuum, temperature) = (given.pressure("vacuum"), given.temperature("temperature"));
    let filled = fizz::pores_filled(
        given.number("pores"),
        (vacuum, given.pressure("restored")),
        temperature,
        (given.density("food-density"), given.density("liquid-density")),
    )?;
    let answer = Answer::new()
        .with("uptake_volume_fraction", filled.volume_share)
        .with("uptake_kg", filled.mass_gain_share * given.mass("food").kilograms())
        .with("mass_gain_fraction", filled.mass_gain_share)
        .with("infused_density_kg_m3", filled.infused_density.si())
        .with("compressed_density_kg_m3", filled.compressed_density.si())
        .with("lowest_pressure_pa", filled.lowest_pressure.pascals());
    let answer = if filled.lowest_pressure > vacuum {
        answer.remark("the liquid boils before that vacuum is reached: chill it")
    } else {
        answer
    };
    Ok(answer.remark("only vessels made for vacuum; the figure is the most that open pores take"))
}
