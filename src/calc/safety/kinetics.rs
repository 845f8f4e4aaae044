//! Questions about cooking and what heat destroys.

use super::profile::{PROFILE, TEMPERATURE, TIME, given_profile, required_profile};
use crate::calc::{Answer, CalcError, Family, Given, Input, Kind, Need, Output, Question};
use crate::finding::suggestion;
use crate::physics::heat_kinetics::{
    Arrhenius, COOK_VALUE as C100, EquivalentTime, PASTEURISATION, QUALITY_LOSSES, SOFTENING,
    STERILISATION, Segment, activation_energy_from_z, quality_loss, softening,
    z_from_activation_energy,
};
use crate::quantity::{Dimension, MolarEnergy, Rate, Temperature, TemperatureDifference, Time};

/// Cook value, pasteurisation and sterilisation value.
pub(super) const COOK_VALUE: Question = Question {
    name: "cook-value",
    other_names: &["c100", "p70", "f0"],
    family: Family::SafetyAndCooking,
    summary: "How thoroughly a hold or a profile cooks, pasteurises and sterilises",
    example: "cook-value --profile \"ramp 20-100 C in 10 min, hold 100 C 60 min\"",
    inputs: &[
        TEMPERATURE,
        TIME,
        PROFILE,
        Input::with_default(
            "z-cook",
            Dimension::TemperatureDifference,
            "33 K",
            "z of the cook value",
        ),
        Input::with_default(
            "z-pasteurise",
            Dimension::TemperatureDifference,
            "7.5 K",
            "z of the pasteurisation value",
        ),
        Input::with_default(
            "z-sterilise",
            Dimension::TemperatureDifference,
            "10 K",
            "z of the sterilisation value",
        ),
        Input::optional("reference", Dimension::Temperature, "another reference, with z"),
        Input::optional("z", Dimension::TemperatureDifference, "and its z value"),
    ],
    outputs: &[
        Output { key: "cook_value_c100_s", label: "cook value C100", unit: "s" },
        Output { key: "pasteurisation_value_p70_s", label: "pasteurisation value P70", unit: "s" },
        Output { key: "sterilisation_value_f0_s", label: "sterilisation value F0", unit: "s" },
        Output {
            key: "equivalent_time_s",
            label: "equivalent time at the other reference",
            unit: "s",
        },
    ],
    answer: |given| {
        let profile = required_profile(given)?;
        let with_z =
            |basis: EquivalentTime, name| EquivalentTime { z: given.difference(name), ..basis };
        let other = given
            .optional_temperature("reference")
            .zip(given.optional_difference("z"))
            .map(|(reference, z)| EquivalentTime { reference, z }.of_profile(&profile))
            .transpose()?;
        Ok(Answer::new()
            .with("cook_value_c100_s", with_z(C100, "z-cook").of_profile(&profile)?.seconds())
            .with(
                "pasteurisation_value_p70_s",
                with_z(PASTEURISATION, "z-pasteurise").of_profile(&profile)?.seconds(),
            )
            .with(
                "sterilisation_value_f0_s",
                with_z(STERILISATION, "z-sterilise").of_profile(&profile)?.seconds(),
            )
            .with_optional("equivalent_time_s", other.map(Time::seconds))
            .remark(
                "low-acid food in closed jars: only tested canning procedures, never a computed F0",
            ))
    },
};

fn unknown(name: &'static str, word: &str, names: &[&str]) -> CalcError {
    CalcError::UnknownWord { name, word: word.to_owned(), help: suggestion(word, names) }
}

const RATE: Input =
    Input::optional("rate", Dimension::Rate, "instead: first-order rate at the reference");
const REFERENCE: Input =
    Input::optional("reference", Dimension::Temperature, "reference temperature of the rate");
const ENERGY: Input =
    Input::optional("activation-energy", Dimension::MolarEnergy, "activation energy");

const LOSS_OUTPUTS: &[Output] = &[
    Output { key: "rate_per_s", label: "first-order rate", unit: "1/s" },
    Output { key: "half_life_s", label: "time to lose half", unit: "s" },
    Output { key: "retention_fraction", label: "share left", unit: "" },
    Output { key: "loss_fraction", label: "share lost", unit: "" },
];

/// How much of a quality is left.
pub(super) const RETENTION: Question = Question {
    name: "quality-loss",
    other_names: &["nutrient-loss", "arrhenius", "colour-loss"],
    family: Family::SafetyAndCooking,
    summary: "How much of a vitamin or a colour is left after heating",
    example: "quality-loss --of berry-colour --temperature 85C --time 15min",
    inputs: &[
        Input {
            name: "of",
            kind: Kind::Text,
            need: Need::Optional,
            help: "vitamin-c, vitamin-b1, berry-colour, blackcurrant-colour, acai-colour; or give rate, \
                   reference and activation-energy",
        },
        RATE,
        REFERENCE,
        ENERGY,
        TEMPERATURE,
        TIME,
        PROFILE,
    ],
    outputs: LOSS_OUTPUTS,
    answer: |given| answer_loss(given, given.word("of")),
};

/// How much vitamin C is left.
pub(super) const VITAMIN_C: Question = Question {
    name: "vitamin-c",
    other_names: &["ascorbic-acid"],
    family: Family::SafetyAndCooking,
    summary: "How much vitamin C is left after heating",
    example: "vitamin-c --temperature 95C --time 30min",
    inputs: &[RATE, REFERENCE, ENERGY, TEMPERATURE, TIME, PROFILE],
    outputs: LOSS_OUTPUTS,
    answer: |given| answer_loss(given, if given.has("rate") { "" } else { "vitamin-c" }),
};

fn answer_loss(given: &Given, name: &str) -> Result<Answer, CalcError> {
    let (kinetics, source) = kinetics(given, name)?;
    let mut answer = Answer::new();
    if let Some(temperature) = given.optional_temperature("temperature") {
        answer = answer
            .with("rate_per_s", kinetics.rate_at(temperature)?.per_second())
            .with("half_life_s", kinetics.half_life(temperature)?.seconds());
    }
    if let Some(profile) = given_profile(given)? {
        let left = kinetics.retention(&profile)?;
        answer = answer.with("retention_fraction", left).with("loss_fraction", 1.0 - left);
    }
    if answer.values.is_empty() {
        return Err(CalcError::combination(
            "give `temperature`, with or without `time`, or a `profile`",
        ));
    }
    Ok(if source.is_empty() { answer } else { answer.remark(source) })
}

/// The record named, or the figures given, with a remark on where they come from.
fn kinetics(given: &Given, name: &str) -> Result<(Arrhenius, String), CalcError> {
    if name.is_empty() {
        let missing = || CalcError::combination("give `rate`, `reference` and `activation-energy`");
        let rate: Rate = given.optional_rate("rate").ok_or_else(missing)?;
        let reference = given.optional_temperature("reference").ok_or_else(missing)?;
        let activation_energy: MolarEnergy =
            given.optional_molar_energy("activation-energy").ok_or_else(missing)?;
        return Ok((Arrhenius { rate, reference, activation_energy }, String::new()));
    }
    let names: Vec<&str> = QUALITY_LOSSES.iter().map(|record| record.name).collect();
    let record = quality_loss(name).ok_or_else(|| unknown("of", name, &names))?;
    let (low, high) = record.measured;
    let remark = format!("{}; measured from {low} to {high} °C", record.source);
    Ok((record.kinetics, remark))
}

/// How a cooking time converts.
pub(super) const SOFTEN: Question = Question {
    name: "soften",
    other_names: &["softening"],
    family: Family::SafetyAndCooking,
    summary: "How soft a vegetable gets, and how its time changes with temperature",
    example: "soften --food carrot --temperature 95C --time 20min --other-temperature 85C",
    inputs: &[
        Input {
            name: "food",
            kind: Kind::Text,
            need: Need::Required,
            help: "beans, black-beans, white-beans, dried-peas, green-peas, carrot, broccoli, cabbage, asparagus, apricot",
        },
        Input::required("temperature", Dimension::Temperature, "temperature of the food"),
        Input::required("time", Dimension::Time, "time at it"),
        Input::with_default(
            "other-temperature",
            Dimension::Temperature,
            "100 °C",
            "temperature to compare with",
        ),
    ],
    outputs: &[
        Output {
            key: "equal_time_s",
            label: "time at the other temperature that softens as much",
            unit: "s",
        },
        Output { key: "firmness_left_fraction", label: "share of the firmness left", unit: "" },
        Output { key: "z_k", label: "z value of softening", unit: "K" },
    ],
    answer: |given| {
        let word = given.word("food");
        let names: Vec<&str> = SOFTENING.iter().map(|record| record.name).collect();
        let record = softening(word).ok_or_else(|| unknown("food", word, &names))?;
        let (temperature, time) = (given.temperature("temperature"), given.time("time"));
        let equal =
            record.basis().convert(time, temperature, given.temperature("other-temperature"))?;
        let firmness =
            record.rate_at_100.zip(record.activation_energy).map(|(rate, activation_energy)| {
                let reference = record.basis().reference;
                Arrhenius { rate, reference, activation_energy }
                    .retention(&[Segment::hold(temperature, time)])
            });
        Ok(Answer::new()
            .with("equal_time_s", equal.seconds())
            .with_optional("firmness_left_fraction", firmness.transpose()?)
            .with("z_k", record.z.kelvin())
            .remark(format!("{}; soak, salt and acid change it", record.source)))
    },
};

/// Between z and activation energy.
pub(super) const Z_AND_ENERGY: Question = Question {
    name: "z-value",
    other_names: &["activation-energy"],
    family: Family::SafetyAndCooking,
    summary: "Activation energy from a z value, and the other way round",
    example: "z-value --z 10K --reference 121.1C",
    inputs: &[
        Input::optional("z", Dimension::TemperatureDifference, "kelvin for a tenfold rate"),
        Input::optional("activation-energy", Dimension::MolarEnergy, "instead: activation energy"),
        Input::required("reference", Dimension::Temperature, "temperature at which they agree"),
    ],
    outputs: &[
        Output { key: "activation_energy_j_mol", label: "activation energy", unit: "J/mol" },
        Output { key: "z_k", label: "z value", unit: "K" },
        Output { key: "q10", label: "factor of the rate for 10 K", unit: "" },
    ],
    answer: |given| {
        let reference = given.temperature("reference");
        let (z, energy) = match (
            given.optional_difference("z"),
            given.optional_molar_energy("activation-energy"),
        ) {
            (Some(z), None) => (z, activation_energy_from_z(z, reference)?),
            (None, Some(energy)) => (z_from_activation_energy(energy, reference)?, energy),
            _ => return Err(CalcError::combination("give either `z` or `activation-energy`")),
        };
        let ten = TemperatureDifference::from_kelvin(10.0);
        Ok(Answer::new()
            .with("activation_energy_j_mol", energy.joules_per_mole())
            .with("z_k", z.kelvin())
            .with("q10", 10f64.powf(ten / z)))
    },
};

/// Activation energy of the setting of egg yolk: Vega & Mercade-Prieto, Food Biophysics 6, 2011.
const YOLK_ENERGY: MolarEnergy = MolarEnergy::from_joules_per_mole(470e3);
/// Reference of the dwell times of egg yolk \[°C\].
const YOLK_REFERENCE: Temperature = Temperature::from_celsius(63.0);
/// Dwell of the core at the reference for a spreadable yolk \[min\], low, typical, high. Estimate: only
/// the activation energy and the onset of gelling at 56 °C are published; a tester should calibrate it.
const YOLK_DWELL: [f64; 3] = [35.0, 50.0, 70.0];

/// How long a yolk takes to set.
pub(super) const EGG_YOLK: Question = Question {
    name: "egg-yolk",
    other_names: &["yolk", "egg-texture"],
    family: Family::SafetyAndCooking,
    summary: "How long an egg yolk dwells at a temperature until it is spreadable",
    example: "egg-yolk --temperature 64C",
    inputs: &[Input::required(
        "temperature",
        Dimension::Temperature,
        "temperature of the yolk, 58 °C to 70 °C",
    )],
    outputs: &[
        Output { key: "dwell_time_low_s", label: "dwell, low", unit: "s" },
        Output { key: "dwell_time_s", label: "dwell, typical", unit: "s" },
        Output { key: "dwell_time_high_s", label: "dwell, high", unit: "s" },
    ],
    answer: |given| {
        const RANGE: crate::physics::Validity = crate::physics::Validity {
            law: "setting of egg yolk",
            quantity: "temperature",
            low: 58.0,
            high: 70.0,
            unit: "°C",
        };
        let temperature = given.temperature("temperature");
        RANGE.check(temperature.celsius())?;
        let unit = Arrhenius {
            rate: Rate::from_per_second(1.0),
            reference: YOLK_REFERENCE,
            activation_energy: YOLK_ENERGY,
        };
        let faster = unit.rate_at(temperature)?.per_second();
        let [low, typical, high] =
            YOLK_DWELL.map(|minutes| Time::from_minutes(minutes / faster).seconds());
        Ok(Answer::new()
            .with("dwell_time_low_s", low)
            .with("dwell_time_s", typical)
            .with("dwell_time_high_s", high)
            .remark("the anchor of 50 min at 63 °C is an estimate; add the come-up of the egg")
            .remark(super::LOCAL_CODES))
    },
};
