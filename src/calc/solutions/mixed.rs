//! The question about mixed solutions: juices, stocks, ice-cream mixes.

use super::super::{Answer, CalcError, Family, Given, Input, Output, Question};
use super::with_result;
use crate::physics::positive;
use crate::physics::solutions::{Solute, Solution};
use crate::quantity::{Dimension, Temperature};

const fn share(name: &'static str, help: &'static str) -> Input {
    Input::with_default(name, Dimension::Fraction, "0", help)
}

/// When a juice, a stock or a mix freezes and boils.
pub(super) const MIXED_SOLUTION: Question = Question {
    name: "mixed-solution",
    other_names: &["juice", "mixed-syrup", "ice-cream-mix"],
    family: Family::Solutions,
    summary: "When a juice or mix of sugars, acids, salt and milk freezes, boils and how dry it is",
    example: "mixed-solution --glucose \"3 %\" --fructose \"6 %\" --sucrose \"3 %\" --malic-acid \"0.6 %\"",
    inputs: &[
        share("sucrose", "Table sugar, share of the whole"),
        share("glucose", "Glucose or dextrose"),
        share("fructose", "Fructose"),
        share("lactose", "Milk sugar added as such"),
        share("maltose", "Malt sugar"),
        share("glycerol", "Glycerol"),
        share("sorbitol", "Sorbitol"),
        share("citric-acid", "Citric acid without crystal water"),
        share("malic-acid", "Malic acid"),
        share("tartaric-acid", "Tartaric acid"),
        share("salt", "Table salt"),
        share("milk-solids", "Milk solids without the fat"),
        share("collagen-hydrolysate", "Collagen hydrolysate, stock solids"),
        share("gelatine", "Gelatine"),
        share("insoluble", "Fat, fibre and whatever does not dissolve"),
        Input::with_default("temperature", Dimension::Temperature, "20 °C", "Its temperature"),
        Input::with_default(
            "pressure",
            Dimension::Pressure,
            "101.325 kPa",
            "Pressure under which it boils",
        ),
    ],
    outputs: &[
        Output { key: "water_activity", label: "water activity", unit: "" },
        Output { key: "freezing_point_c", label: "first ice", unit: "°C" },
        Output { key: "freezing_point_depression_k", label: "below water", unit: "K" },
        Output { key: "boiling_point_c", label: "boils", unit: "°C" },
        Output { key: "boiling_point_rise_k", label: "above water", unit: "K" },
        Output { key: "ice_share_of_water_fraction", label: "water frozen", unit: "" },
        Output { key: "dissolved_in_liquid_percent", label: "dissolved in the liquid", unit: "%" },
    ],
    answer: mixed_solution,
};

/// Input names in the order of [`Solute::ALL`].
const SOLUTES: [(&str, Solute); 14] = [
    ("sucrose", Solute::Sucrose),
    ("glucose", Solute::Glucose),
    ("fructose", Solute::Fructose),
    ("lactose", Solute::Lactose),
    ("maltose", Solute::Maltose),
    ("glycerol", Solute::Glycerol),
    ("sorbitol", Solute::Sorbitol),
    ("citric-acid", Solute::CitricAcid),
    ("malic-acid", Solute::MalicAcid),
    ("tartaric-acid", Solute::TartaricAcid),
    ("salt", Solute::Salt),
    ("milk-solids", Solute::MilkSolids),
    ("collagen-hydrolysate", Solute::HydrolysedCollagen),
    ("gelatine", Solute::Gelatine),
];

fn mixed_solution(given: &Given) -> Result<Answer, CalcError> {
    const PER_CENT: f64 = 100.0;
    let wet = positive("share besides the insoluble", 1.0 - given.number("insoluble"), "kg/kg")?;
    let shares = SOLUTES.map(|(name, solute)| (solute, given.number(name) / wet));
    let solution = Solution::from_shares(&shares)?;
    let temperature = given.temperature("temperature");
    let pressure = given.pressure("pressure");
    let freezing = solution.freezing_point().map(Temperature::celsius);
    let mut values = vec![
        ("water_activity", solution.water_activity(temperature)),
        ("freezing_point_c", freezing.clone()),
        ("freezing_point_depression_k", freezing.map(|t| -t)),
        ("boiling_point_c", solution.boiling_point(pressure).map(Temperature::celsius)),
        ("boiling_point_rise_k", solution.boiling_point_rise(pressure).map(|d| d.kelvin())),
    ];
    if temperature.celsius() < 0.0 {
        let ice = solution.ice_share(temperature);
        let left = ice
            .clone()
            .map(|ice| PER_CENT * solution.concentrated(1.0 / (1.0 - ice)).dissolved_share());
        values.push(("ice_share_of_water_fraction", ice));
        values.push(("dissolved_in_liquid_percent", left));
    }
    let answer = values
        .into_iter()
        .fold(Answer::new(), |answer, (key, result)| with_result(answer, key, result));
    Ok(answer
        .remark("mixtures are reckoned from their parts: expect 5 % of the freezing depression"))
}
