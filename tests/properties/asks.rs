//! A hundred thousand asks: a finite answer or an error, never a wrong kind of number.

use std::collections::BTreeMap;
use std::panic::catch_unwind;
use std::time::{Duration, Instant};

use super::asking::Draws;
use standin::calc::{self, Answer, CalcError, Input, Kind, Need, Question};
use standin::quantity::{Dimension, Measures, parse_amount, units_of};

const ASKS: usize = 100_000;
/// A question that takes longer than this is counted by time instead of by number.
const LONGEST_OF_A_QUESTION: Duration = Duration::from_secs(8);
/// At least this many asks of every question, however slow.
const FEWEST_OF_A_QUESTION: usize = 100;

/// The inputs of the example of a question, as written there.
fn example(question: &Question) -> Vec<(String, String)> {
    let words = words(question.example);
    words[1..]
        .chunks(2)
        .map(|pair| (pair[0].trim_start_matches("--").to_owned(), pair[1].clone()))
        .collect()
}

fn words(line: &str) -> Vec<String> {
    let (mut words, mut quoted) = (vec![String::new()], false);
    for letter in line.chars() {
        match letter {
            '"' => quoted = !quoted,
            ' ' if !quoted => words.push(String::new()),
            letter => words.last_mut().unwrap().push(letter),
        }
    }
    words.into_iter().filter(|word| !word.is_empty()).collect()
}

fn si_unit(dimension: Dimension) -> &'static str {
    units_of(dimension, Measures::Metric).next().unwrap().symbol
}

/// A value anywhere within what a laboratory or a kitchen could ever meet, in SI.
fn plausible(dimension: Dimension, draws: &mut Draws) -> f64 {
    if draws.chance(0.02) {
        return *draws.pick(&[0.0, 1.0, -1.0]);
    }
    let (low, high) = match dimension {
        Dimension::Fraction if draws.chance(0.8) => return draws.share(),
        Dimension::Temperature => return draws.between(180.0, 500.0),
        Dimension::TemperatureDifference => (0.1, 9e3),
        Dimension::Fraction => (1e-4, 1e4),
        Dimension::Mass => (1e-5, 1e3),
        Dimension::Volume => (1e-7, 1e3),
        Dimension::Length => (1e-8, 1e4),
        Dimension::Area => (1e-15, 10.0),
        Dimension::Time => (0.1, 1e8),
        Dimension::Pressure => (0.1, 1e8),
        Dimension::Power => (0.1, 1e5),
        Dimension::SpecificEnergy => (1e3, 5e6),
        Dimension::SpecificHeat => (500.0, 5e3),
        Dimension::SpecificPower => (1e-2, 1e8),
        Dimension::Density => (0.1, 3e3),
        Dimension::Viscosity => (1e-6, 1e3),
        Dimension::Conductivity => (1e-2, 10.0),
        Dimension::Diffusivity => (1e-13, 1e-4),
        Dimension::HeatTransfer => (1.0, 1e5),
        Dimension::Speed => (1e-9, 100.0),
        Dimension::Acceleration => (0.1, 1e6),
        Dimension::RotationSpeed => (0.1, 2e3),
        Dimension::Rate => (1e-9, 1e8),
        Dimension::SurfaceTension => (1e-4, 0.1),
        Dimension::MolarEnergy => (1e4, 5e5),
        Dimension::MolarMass => (1e-2, 1.0),
        Dimension::HenrySolubility => (1e-8, 1e3),
        Dimension::CakeResistance => (1e7, 1e15),
        Dimension::MediumResistance => (1e5, 1e14),
        Dimension::Angle => (1e-3, 3.0),
        _ => (1e-6, 10.0),
    };
    draws.over_decades(low, high)
}

/// A value near one that a person wrote.
fn near(text: &str, dimension: Dimension, draws: &mut Draws) -> f64 {
    let written = parse_amount(text, dimension, Measures::Metric).unwrap().middle();
    match dimension {
        Dimension::Temperature => written + draws.between(-25.0, 25.0),
        _ => written * draws.over_decades(0.2, 5.0),
    }
}

fn amount(input: &Input, dimension: Dimension, shown: Option<&str>, draws: &mut Draws) -> String {
    let default = match input.need {
        Need::Default(text) => Some(text),
        Need::Required | Need::Optional => None,
    };
    let value = match shown.or(default) {
        Some(text) if draws.chance(0.7) => near(text, dimension, draws),
        _ => plausible(dimension, draws),
    };
    format!("{value} {}", si_unit(dimension))
}

/// One set of inputs: those of the example, varied, and now and then one more or one less.
fn inputs(
    question: &Question,
    shown: &[(String, String)],
    draws: &mut Draws,
) -> Vec<(&'static str, String)> {
    let like_example = draws.chance(0.7);
    let mut written = Vec::new();
    for input in question.inputs {
        let shown =
            shown.iter().find(|(name, _)| name == input.name).map(|(_, text)| text.as_str());
        let wanted = match input.need {
            Need::Required => true,
            _ if like_example => shown.is_some() != draws.chance(0.05),
            _ => draws.chance(0.5),
        };
        let text = match input.kind {
            _ if !wanted => continue,
            Kind::Amount(dimension) => amount(input, dimension, shown, draws),
            Kind::Choice(words) if draws.chance(0.5) => (*draws.pick(words)).to_owned(),
            Kind::Choice(words) => shown.unwrap_or(words[0]).to_owned(),
            Kind::Text if draws.chance(0.9) && shown.is_some() => shown.unwrap().to_owned(),
            Kind::Text => (*draws.pick(&["", "2", "no-such-thing", "hold 60 C 10 min"])).to_owned(),
        };
        written.push((input.name, text));
    }
    written
}

/// Outputs that have no number above their range of use: simple shear never breaks thick droplets.
const MAY_BE_INFINITE: [&str; 2] = ["critical_capillary_number", "capillary_max_diameter_m"];
/// Endings of quantities that are never below zero, but for the outputs in [`SIGNED`].
const NEVER_NEGATIVE: [&str; 12] = [
    "_kg",
    "_s",
    "_m",
    "_m3",
    "_pa",
    "_fraction",
    "_percent",
    "_j_kgk",
    "_kg_m3",
    "_pa_s",
    "_ratio",
    "_um",
];
/// Differences and readings that have a sign.
const SIGNED: [&str; 9] = [
    "gauge_pressure_pa",
    "altitude_m",
    "correction_percent",
    "brix_percent",
    "heat_to_vapour_percent",
    "capillary_pressure_pa",
    "capillary_rise_m",
    "evaporation_rate_kg_s",
    "heat_j",
];
/// Absolute zero.
const COLDEST_CELSIUS: f64 = -273.15;

fn fault(question: &Question, answer: &Answer) -> Option<String> {
    answer.values.iter().find_map(|(key, value)| {
        let bad = match *key {
            key if question.output(key).is_none() => true,
            key if MAY_BE_INFINITE.contains(&key) => value.is_nan(),
            _ if !value.is_finite() => true,
            key if key.ends_with("_bool") || key.ends_with("_yes_no") => {
                ![0.0, 1.0].contains(value)
            }
            key if key.ends_with("_c") => *value <= COLDEST_CELSIUS,
            key if SIGNED.contains(&key) || key.ends_with("m_s") || key.ends_with("j_kg") => false,
            key if NEVER_NEGATIVE.iter().any(|end| key.ends_with(end)) => *value < 0.0,
            _ => false,
        };
        bad.then(|| format!("{key} = {value}"))
    })
}

/// What came of the asks of one question.
#[derive(Default)]
struct Tally {
    asked: usize,
    answered: usize,
    faults: Vec<String>,
    time: Duration,
}

fn examine(question: &'static Question, asks: usize, draws: &mut Draws) -> Tally {
    let (shown, start) = (example(question), Instant::now());
    let mut tally = Tally::default();
    while tally.asked < asks {
        if start.elapsed() > LONGEST_OF_A_QUESTION && tally.asked >= FEWEST_OF_A_QUESTION {
            break;
        }
        tally.asked += 1;
        let written = inputs(question, &shown, draws);
        let pairs: Vec<(&str, &str)> = written.iter().map(|(n, t)| (*n, t.as_str())).collect();
        let described = |why: &str| format!("{} {written:?}: {why}", question.name);
        match catch_unwind(|| question.ask(&pairs)) {
            Err(_) => tally.faults.push(described("panics")),
            Ok(Ok(answer)) => {
                tally.answered += 1;
                tally.faults.extend(fault(question, &answer).map(|why| described(&why)));
            }
            Ok(Err(error)) => {
                tally.faults.extend(unclear(&error).then(|| described("NaN in the error")))
            }
        }
    }
    tally.time = start.elapsed();
    tally
}

/// An error must name a number, not the lack of one.
fn unclear(error: &CalcError) -> bool {
    error.to_string().contains("NaN")
}

#[test]
fn a_hundred_thousand_asks_give_a_finite_answer_or_an_error() {
    let questions = calc::questions();
    let mut draws = Draws(20_240_501);
    let mut left = ASKS;
    let mut faults: BTreeMap<&str, Vec<String>> = BTreeMap::new();
    let (mut asked, mut answered) = (0, 0);
    for (index, question) in questions.iter().enumerate() {
        let tally = examine(question, left / (questions.len() - index), &mut draws);
        left -= tally.asked;
        (asked, answered) = (asked + tally.asked, answered + tally.answered);
        let each = tally.time / u32::try_from(tally.asked).unwrap();
        println!(
            "{:24} {:5} asked {:5} answered {each:?}",
            question.name, tally.asked, tally.answered
        );
        if !tally.faults.is_empty() {
            faults.insert(question.name, tally.faults);
        }
        assert!(20 * tally.answered > tally.asked, "{} is hardly ever answered", question.name);
    }
    println!("asked {asked}, answered {answered}");
    let shown: Vec<String> = faults
        .iter()
        .map(|(name, list)| {
            format!(
                "{name}: {} faults, as\n  {}",
                list.len(),
                list[..list.len().min(4)].join("\n  ")
            )
        })
        .collect();
    assert!(faults.is_empty(), "{}", shown.join("\n"));
    assert!(asked >= ASKS, "only {asked} asks: some questions are slow");
}
