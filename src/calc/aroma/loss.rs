//! Questions about aroma lost with vapour, with air and from a still surface.

use super::{AIR_WATER, COMPOUND_NAME, KIND, LOG_P, SLOPE, compound, extrapolated};
use crate::calc::{Answer, CalcError, Family, Given, Input, Output, Question};
use crate::physics::aroma::{gas_film, overall_transfer, volatility_from_still_liquid};
use crate::physics::water;
use crate::quantity::{Dimension, MassFlux, MolarMass};

const TEMPERATURE: Input =
    Input::with_default("temperature", Dimension::Temperature, "25 °C", "Of the liquid");
const OIL_SHARE: Input =
    Input::with_default("oil-share", Dimension::Fraction, "0", "Oil or fat by volume of the food");
const OIL_PARTITION: Input = Input::optional(
    "oil-water-partition",
    Dimension::Fraction,
    "Concentration in oil over that in water; from log P unless given",
);
const LIQUID_FILM: Input = Input::optional(
    "liquid-film",
    Dimension::Speed,
    "How fast the compound crosses the liquid to the surface: still 1e-5, stirred 1e-4 m/s",
);

/// What is left after water has evaporated.
pub(super) const LEFT: Question = Question {
    name: "aroma-left",
    other_names: &["aroma-kept", "rayleigh-aroma", "stripping", "fraction-left"],
    family: Family::Aroma,
    summary: "How much of an aroma is left when part of the water has evaporated",
    example: "aroma-left --compound linalool --water-evaporated \"10 %\" --temperature \"60 °C\"",
    inputs: &[
        COMPOUND_NAME,
        AIR_WATER,
        SLOPE,
        Input::optional(
            "relative-volatility",
            Dimension::Fraction,
            "Instead of the compound: volatility relative to water",
        ),
        Input::required("water-evaporated", Dimension::Fraction, "Share of the water gone"),
        TEMPERATURE,
        Input::with_default("water-activity", Dimension::Fraction, "1", "Of the liquid"),
        OIL_SHARE,
        OIL_PARTITION,
        LOG_P,
        KIND,
        Input::optional(
            "evaporation",
            Dimension::MassFlux,
            "For a still pan below the boil: water leaving per area",
        ),
        LIQUID_FILM,
    ],
    outputs: &[
        Output { key: "fraction_left", label: "left", unit: "" },
        Output { key: "fraction_lost", label: "lost", unit: "" },
        Output { key: "concentration_change_ratio", label: "stronger by", unit: "" },
        Output { key: "relative_volatility_to_water", label: "volatility over water", unit: "" },
        Output { key: "air_water_partition", label: "air over water", unit: "" },
        Output { key: "share_held_by_water_fraction", label: "in the water, not oil", unit: "" },
    ],
    answer: left,
};

fn left(given: &Given) -> Result<Answer, CalcError> {
    let temperature = given.temperature("temperature");
    let named = compound::partition(given)?;
    let (alpha, partition) = match (given.optional_number("relative-volatility"), named) {
        (Some(alpha), _) => (alpha, None),
        (None, Some(named)) => {
            let partition = named.law.at(temperature)?;
            let activity = given.number("water-activity");
            (compound::volatility(partition, temperature, activity)?, Some(partition))
        }
        (None, None) => {
            return Err(CalcError::combination(
                "give `compound`, `air-water-partition` or `relative-volatility`",
            ));
        }
    };
    let log_p = named.and_then(|named| named.log_p).or_else(|| given.optional_number("log-p"));
    let oil = compound::oil(given, log_p)?;
    let alpha = still(given, alpha)?;
    let evaporated = given.number("water-evaporated");
    let kept = oil.kept_after_evaporation(evaporated, alpha)?;
    let stronger = (evaporated < 1.0).then(|| kept / (1.0 - evaporated));
    let answer = Answer::new()
        .with("fraction_left", kept)
        .with("fraction_lost", 1.0 - kept)
        .with_optional("concentration_change_ratio", stronger)
        .with("relative_volatility_to_water", alpha)
        .with_optional("air_water_partition", partition)
        .with("share_held_by_water_fraction", oil.share_in_water());
    Ok(if partition.is_some() { extrapolated(answer, temperature) } else { answer })
}

/// Caps the volatility by the way through a still liquid, when the evaporation is given.
fn still(given: &Given, alpha: f64) -> Result<f64, CalcError> {
    let flux = given.optional_number("evaporation").map(MassFlux::from_si);
    match (flux, given.optional_speed("liquid-film")) {
        (Some(flux), Some(film)) => {
            let density = water::saturated_liquid_density(given.temperature("temperature"))?;
            Ok(volatility_from_still_liquid(alpha, flux, film, density)?)
        }
        (None, None) => Ok(alpha),
        _ => Err(CalcError::combination("a still pan needs both `evaporation` and `liquid-film`")),
    }
}

/// What is left after air has passed through or was beaten in.
pub(super) const AIR: Question = Question {
    name: "aroma-in-air",
    other_names: &["aroma-blown-off", "whipping-loss", "headspace"],
    family: Family::Aroma,
    summary: "How much of an aroma stays when air is blown through, beaten in or closed in with food",
    example: "aroma-in-air --compound \"ethyl butanoate\" --air-volumes 3",
    inputs: &[
        COMPOUND_NAME,
        AIR_WATER,
        SLOPE,
        Input::required("air-volumes", Dimension::Fraction, "Litres of air per litre of water"),
        Input::with_default(
            "saturation",
            Dimension::Fraction,
            "1",
            "How close the leaving air comes to equilibrium: fine bubbles 1, a draught 0.05",
        ),
        TEMPERATURE,
        OIL_SHARE,
        OIL_PARTITION,
        LOG_P,
        KIND,
    ],
    outputs: &[
        Output { key: "fraction_left_after_flow", label: "left, air flowing through", unit: "" },
        Output { key: "fraction_left_closed", label: "left, air shut in", unit: "" },
        Output { key: "air_water_partition", label: "air over water", unit: "" },
    ],
    answer: in_air,
};

fn in_air(given: &Given) -> Result<Answer, CalcError> {
    let temperature = given.temperature("temperature");
    let named = compound::partition(given)?
        .ok_or_else(|| CalcError::combination("give `compound` or `air-water-partition`"))?;
    let partition = named.law.at(temperature)?;
    let oil = compound::oil(given, named.log_p)?;
    let (volumes, saturation) = (given.number("air-volumes"), given.number("saturation"));
    let answer = Answer::new()
        .with("fraction_left_after_flow", oil.kept_after_air(partition, volumes, saturation)?)
        .with("fraction_left_closed", oil.kept_under_headspace(partition, volumes)?)
        .with("air_water_partition", partition);
    Ok(extrapolated(answer, temperature))
}

/// What is left in a still pan after a time.
pub(super) const STILL_PAN: Question = Question {
    name: "aroma-still-pan",
    other_names: &["aroma-standing", "two-film"],
    family: Family::Aroma,
    summary: "How much of an aroma is left when a liquid stands open, without boiling",
    example: "aroma-still-pan --compound limonene --depth \"2 cm\" --time \"30 min\"",
    inputs: &[
        COMPOUND_NAME,
        AIR_WATER,
        SLOPE,
        Input::required("depth", Dimension::Length, "Depth of the liquid"),
        Input::required("time", Dimension::Time, "How long it stands"),
        TEMPERATURE,
        Input::with_default(
            "liquid-film",
            Dimension::Speed,
            "3e-5 m/s",
            "How fast the compound crosses the liquid: still 1e-5, stirred 1e-4 m/s",
        ),
        Input::with_default(
            "gas-film",
            Dimension::Speed,
            "5e-3 m/s",
            "How fast water vapour crosses the air: still 3e-3, fan 2e-2 m/s",
        ),
        Input::with_default("molar-mass", Dimension::MolarMass, "140 g/mol", "Of the compound"),
        OIL_SHARE,
        OIL_PARTITION,
        LOG_P,
        KIND,
    ],
    outputs: &[
        Output { key: "fraction_left", label: "left", unit: "" },
        Output { key: "half_life_s", label: "half gone after", unit: "s" },
        Output { key: "overall_transfer_m_s", label: "transfer coefficient", unit: "m/s" },
        Output { key: "air_water_partition", label: "air over water", unit: "" },
    ],
    answer: still_pan,
};

fn still_pan(given: &Given) -> Result<Answer, CalcError> {
    let temperature = given.temperature("temperature");
    let named = compound::partition(given)?
        .ok_or_else(|| CalcError::combination("give `compound` or `air-water-partition`"))?;
    let partition = named.law.at(temperature)?;
    let oil = compound::oil(given, named.log_p)?;
    let mass: MolarMass = given.molar_mass("molar-mass");
    let gas = gas_film(given.speed("gas-film"), mass)?;
    let overall = overall_transfer(given.speed("liquid-film"), gas, partition)?;
    let depth = crate::physics::positive("depth", given.length("depth").si(), "m")?;
    let rate = overall.si() * oil.share_in_water() / depth;
    let answer = Answer::new()
        .with("fraction_left", (-rate * given.time("time").seconds()).exp())
        .with("half_life_s", std::f64::consts::LN_2 / rate)
        .with("overall_transfer_m_s", overall.si())
        .with("air_water_partition", partition);
    Ok(extrapolated(answer, temperature))
}
