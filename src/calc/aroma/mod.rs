//! Questions about smell.

mod compound;
mod loss;

use super::{Answer, CalcError, Family, Given, Input, Kind, Need, Output, Question};
use crate::knowledge::{AromaCompound, NoteClass};
use crate::physics::aroma::{
    AirWaterPartition, HydrogenBonding, LISTING_TEMPERATURE, MEASURED_TO_CELSIUS,
    evaporated_until_kept, oil_water_partition, partition_of_henry_solubility,
};
use crate::quantity::{Dimension, Temperature, TemperatureDifference};

/// The questions of this file.
pub const QUESTIONS: &[Question] =
    &[COMPOUND, PARTITION, loss::LEFT, loss::AIR, loss::STILL_PAN, OIL_WATER];

/// Parts per million in a share.
const MILLIGRAMS_PER_KILOGRAM: f64 = 1e6;
const PER_CENT: f64 = 100.0;

const COMPOUND_NAME: Input = Input {
    name: "compound",
    kind: Kind::Text,
    need: Need::Optional,
    help: "Aroma compound by name, other name or registry number",
};
const AIR_WATER: Input = Input::optional(
    "air-water-partition",
    Dimension::Fraction,
    "Instead of the compound: concentration in air over that in water, at 25 °C",
);
const SLOPE: Input = Input::optional(
    "partition-slope",
    Dimension::TemperatureDifference,
    "How it changes with temperature, d ln Hs / d(1/T); of the compound unless given",
);
const KIND: Input = Input::choice(
    "kind",
    &["ester-aldehyde-ketone-or-terpene", "alcohol-phenol-or-acid"],
    "Kind of molecule, which decides how well oil dissolves it",
);
const LOG_P: Input = Input::optional(
    "log-p",
    Dimension::Fraction,
    "Logarithm of the partition between octanol and water; of the compound unless given",
);

const COMPOUND: Question = Question {
    name: "aroma-compound",
    other_names: &["compound", "smell", "odorant", "volatile"],
    family: Family::Aroma,
    summary: "How volatile an aroma compound is over water, and what else is known of it",
    example: "aroma-compound --compound limonene --temperature \"60 °C\"",
    inputs: &[
        Input::text("compound", "Aroma compound by name, other name or registry number"),
        Input::with_default("temperature", Dimension::Temperature, "25 °C", "Of the water"),
    ],
    outputs: &[
        Output { key: "air_water_partition", label: "air over water", unit: "" },
        Output {
            key: "henry_solubility_mol_m3pa", label: "Henry solubility", unit: "mol/(m³ Pa)"
        },
        Output { key: "henry_temperature_slope_k", label: "d ln Hs / d(1/T)", unit: "K" },
        Output { key: "relative_volatility_to_water", label: "volatility over water", unit: "" },
        Output {
            key: "water_evaporated_at_half_loss_percent",
            label: "water gone when half is lost",
            unit: "%",
        },
        Output { key: "normal_boiling_point_c", label: "boils", unit: "°C" },
        Output { key: "molar_mass_g_mol", label: "molar mass", unit: "g/mol" },
        Output { key: "log_p_octanol_water", label: "log P", unit: "" },
        Output { key: "odour_threshold_mg_kg", label: "smelled from", unit: "mg/kg" },
    ],
    answer: compound_question,
};

fn compound_question(given: &Given) -> Result<Answer, CalcError> {
    let found = compound::compound(given.word("compound"))?;
    let of = |name| compound::value(&found, name);
    let mut answer = Answer::new();
    if let Some(at_25_c) = of("air_water_partition") {
        let slope = of("partition_slope").unwrap_or(0.0);
        let law = AirWaterPartition { at_25_c, slope: TemperatureDifference::from_kelvin(slope) };
        answer = volatility_answer(answer, law, given.temperature("temperature"))?;
    } else {
        answer = answer.remark("no air-water partition of this compound was found");
    }
    let celsius = |kelvin| Temperature::from_kelvin(kelvin).celsius();
    answer = answer
        .with_optional("normal_boiling_point_c", of("boiling_point").map(celsius))
        .with_optional("molar_mass_g_mol", of("molar_mass").map(|mass| mass * 1e3))
        .with_optional("log_p_octanol_water", of("log_p"))
        .with_optional(
            "odour_threshold_mg_kg",
            of("threshold_water").map(|share| share * MILLIGRAMS_PER_KILOGRAM),
        );
    Ok(answer.remark(described(&found)))
}

fn described(found: &AromaCompound) -> String {
    let class = match found.note {
        NoteClass::Top => "top note: leaves with the first water",
        NoteClass::Middle => "middle note: leaves ahead of the water",
        NoteClass::Base => "base note: stays when water leaves",
    };
    format!("{} ({}): {}; {class}", found.name, found.cas, found.smell)
}

fn volatility_answer(
    answer: Answer,
    law: AirWaterPartition,
    temperature: Temperature,
) -> Result<Answer, CalcError> {
    let partition = law.at(temperature)?;
    let alpha = compound::volatility(partition, temperature, 1.0)?;
    let answer = answer
        .with("air_water_partition", partition)
        .with("henry_solubility_mol_m3pa", partition_of_henry_solubility(partition, temperature)?)
        .with("henry_temperature_slope_k", law.slope.kelvin())
        .with("relative_volatility_to_water", alpha)
        .with(
            "water_evaporated_at_half_loss_percent",
            PER_CENT * evaporated_until_kept(0.5, alpha)?,
        );
    Ok(extrapolated(answer, temperature))
}

/// Says when a partition is carried beyond the measurements behind it.
fn extrapolated(answer: Answer, temperature: Temperature) -> Answer {
    if temperature.celsius() > MEASURED_TO_CELSIUS {
        answer.remark(format!(
            "the partition is carried on from {MEASURED_TO_CELSIUS:.0} °C by its slope, which may \
             overstate it: about 1.6 times for ethanol at the boil"
        ))
    } else {
        answer
    }
}

const PARTITION: Question = Question {
    name: "air-water-partition",
    other_names: &["henry-solubility", "relative-volatility"],
    family: Family::Aroma,
    summary: "From a Henry solubility or a partition to the other, and to the volatility over water",
    example: "air-water-partition --henry-solubility \"0.00035 mol/(m3 Pa)\" --partition-slope \"4500 K\" --temperature \"40 °C\"",
    inputs: &[
        Input::optional("henry-solubility", Dimension::HenrySolubility, "At 25 °C"),
        AIR_WATER,
        SLOPE,
        Input::with_default("temperature", Dimension::Temperature, "25 °C", "Of the water"),
    ],
    outputs: &[
        Output { key: "air_water_partition", label: "air over water", unit: "" },
        Output {
            key: "henry_solubility_mol_m3pa", label: "Henry solubility", unit: "mol/(m³ Pa)"
        },
        Output { key: "henry_temperature_slope_k", label: "d ln Hs / d(1/T)", unit: "K" },
        Output { key: "relative_volatility_to_water", label: "volatility over water", unit: "" },
        Output {
            key: "water_evaporated_at_half_loss_percent",
            label: "water gone when half is lost",
            unit: "%",
        },
    ],
    answer: partition_question,
};

fn partition_question(given: &Given) -> Result<Answer, CalcError> {
    let solubility = given.optional_number("henry-solubility");
    let at_25_c = match (solubility, given.optional_number("air-water-partition")) {
        (Some(solubility), None) => partition_of_henry_solubility(solubility, LISTING_TEMPERATURE)?,
        (None, Some(partition)) => partition,
        _ => {
            return Err(CalcError::combination(
                "give one of `henry-solubility` and `air-water-partition`",
            ));
        }
    };
    let slope = given.optional_difference("partition-slope");
    let slope = slope.unwrap_or(TemperatureDifference::ZERO);
    let law = AirWaterPartition { at_25_c, slope };
    volatility_answer(Answer::new(), law, given.temperature("temperature"))
}

const OIL_WATER: Question = Question {
    name: "oil-water-partition",
    other_names: &["fat-partition", "log-p", "octanol-water"],
    family: Family::Aroma,
    summary: "How much better food oil dissolves an aroma compound than water does",
    example: "oil-water-partition --log-p 4.57",
    inputs: &[COMPOUND_NAME, LOG_P, KIND],
    outputs: &[
        Output { key: "oil_water_partition", label: "oil over water", unit: "" },
        Output { key: "log_p_octanol_water", label: "log P", unit: "" },
    ],
    answer: oil_water_question,
};

fn oil_water_question(given: &Given) -> Result<Answer, CalcError> {
    let listed = || -> Result<Option<f64>, CalcError> {
        if !given.has("compound") {
            return Ok(None);
        }
        Ok(compound::value(&compound::compound(given.word("compound"))?, "log_p"))
    };
    let log_p = match given.optional_number("log-p") {
        Some(log_p) => log_p,
        None => listed()?.ok_or_else(|| {
            CalcError::combination("give `log-p`, or a compound of which it is known")
        })?,
    };
    let bonding = match given.word("kind") {
        "alcohol-phenol-or-acid" => HydrogenBonding::Donor,
        _ => HydrogenBonding::Acceptor,
    };
    Ok(Answer::new()
        .with("oil_water_partition", oil_water_partition(log_p, bonding)?)
        .with("log_p_octanol_water", log_p))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::knowledge::Knowledge;
    use crate::physics::aroma::{BASE_NOTE_VOLATILITY, TOP_NOTE_VOLATILITY};

    #[test]
    fn every_note_class_follows_from_the_volatility() {
        let knowledge = Knowledge::embedded().unwrap();
        for found in knowledge.aromas.values() {
            let Some(partition) = compound::value(found, "air_water_partition") else { continue };
            let alpha = compound::volatility(partition, LISTING_TEMPERATURE, 1.0).unwrap();
            let class = if alpha >= TOP_NOTE_VOLATILITY {
                NoteClass::Top
            } else if alpha >= BASE_NOTE_VOLATILITY {
                NoteClass::Middle
            } else {
                NoteClass::Base
            };
            assert_eq!(found.note, class, "{} {alpha}", found.id);
        }
    }

    #[test]
    fn a_compound_goes_by_all_its_names() {
        for name in ["limonene", "d-Limonene", "5989-27-5", "Dimethyl sulphide"] {
            assert!(compound::compound(name).is_ok(), "{name}");
        }
        let error = compound::compound("limonen").unwrap_err().to_string();
        assert!(error.contains("limonene"), "{error}");
    }

    #[test]
    fn a_question_without_a_compound_says_what_to_give() {
        let question = crate::calc::find("aroma-left").unwrap();
        assert!(question.ask(&[("water-evaporated", "10 %")]).is_err());
        let oily = question.ask(&[
            ("relative-volatility", "100"),
            ("water-evaporated", "10 %"),
            ("oil-share", "5 %"),
        ]);
        assert!(oily.is_err());
    }
}
