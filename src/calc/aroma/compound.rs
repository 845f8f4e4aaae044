//! Finding an aroma compound by name, with the numbers that the laws of loss need.

use std::sync::LazyLock;

use crate::calc::{CalcError, Given};
use crate::knowledge::{AromaCompound, Knowledge};
use crate::physics::aroma::{AirWaterPartition, OilInWater, relative_volatility};
use crate::physics::{PhysicsError, water};
use crate::quantity::{Temperature, TemperatureDifference};

/// How many near names are offered for a compound that is not known.
const OFFERED: usize = 5;

/// Returns the knowledge base as shipped, read once: a curve asks many times.
fn knowledge() -> Result<&'static Knowledge, CalcError> {
    static SHIPPED: LazyLock<Result<Knowledge, String>> =
        LazyLock::new(|| Knowledge::embedded().map_err(|error| error.to_string()));
    SHIPPED.as_ref().map_err(CalcError::combination)
}

/// Finds a compound by id, name, other name or registry number.
pub(super) fn compound(word: &str) -> Result<AromaCompound, CalcError> {
    let knowledge = knowledge()?;
    let wanted = word.trim().to_lowercase();
    let plain = |text: &str| text.to_lowercase().replace(['-', ' '], "");
    let goes_by = |entry: &&AromaCompound| {
        let names = [&entry.id, &entry.name, &entry.cas].into_iter().chain(&entry.synonyms);
        names.into_iter().any(|name| plain(name) == plain(&wanted))
    };
    if let Some(found) = knowledge.aromas.values().find(goes_by) {
        return Ok(found.clone());
    }
    let near: Vec<&str> = knowledge
        .near(&wanted, OFFERED)
        .into_iter()
        .filter(|entry| knowledge.aromas.contains_key(entry.id))
        .map(|entry| entry.name)
        .collect();
    let offer =
        if near.is_empty() { String::new() } else { format!("; near: {}", near.join(", ")) };
    Err(CalcError::combination(format!("no aroma compound `{word}` is known{offer}")))
}

/// Returns one value of a compound in SI.
pub(super) fn value(compound: &AromaCompound, name: &str) -> Option<f64> {
    compound.values.get(name).map(|value| value.typical())
}

/// The partition asked about: of a named compound, or given as a number.
#[derive(Debug, Clone, Copy)]
pub(super) struct Partition {
    /// Between air and water.
    pub(super) law: AirWaterPartition,
    /// Between octanol and water, if known.
    pub(super) log_p: Option<f64>,
}

/// Reads the compound or the numbers that stand in for it.
pub(super) fn partition(given: &Given) -> Result<Option<Partition>, CalcError> {
    let slope = given.optional_difference("partition-slope");
    if let Some(at_25_c) = given.optional_number("air-water-partition") {
        let slope = slope.unwrap_or(TemperatureDifference::ZERO);
        let law = AirWaterPartition { at_25_c, slope };
        return Ok(Some(Partition { law, log_p: given.optional_number("log-p") }));
    }
    if !given.has("compound") {
        return Ok(None);
    }
    let found = compound(given.word("compound"))?;
    let Some(at_25_c) = value(&found, "air_water_partition") else {
        return Err(CalcError::combination(format!(
            "no air-water partition of {} is known; give `air-water-partition`",
            found.name
        )));
    };
    let listed = value(&found, "partition_slope").map(TemperatureDifference::from_kelvin);
    let slope = slope.or(listed).unwrap_or(TemperatureDifference::ZERO);
    let log_p = given.optional_number("log-p").or_else(|| value(&found, "log_p"));
    Ok(Some(Partition { law: AirWaterPartition { at_25_c, slope }, log_p }))
}

/// Returns the volatility relative to pure water at a temperature.
pub(super) fn volatility(
    partition: f64,
    temperature: Temperature,
    activity: f64,
) -> Result<f64, PhysicsError> {
    let vapour = water::saturation_pressure(temperature)? * activity;
    let density = water::saturated_liquid_density(temperature)?;
    relative_volatility(partition, temperature, vapour, density)
}

/// Reads how much oil is in the food and how well it dissolves the compound.
pub(super) fn oil(given: &Given, log_p: Option<f64>) -> Result<OilInWater, CalcError> {
    use crate::physics::aroma::{HydrogenBonding, oil_water_partition};
    let share = given.number("oil-share");
    if share <= 0.0 {
        return Ok(OilInWater::NONE);
    }
    let bonding = match given.word("kind") {
        "alcohol-phenol-or-acid" => HydrogenBonding::Donor,
        _ => HydrogenBonding::Acceptor,
    };
    let partition = match (given.optional_number("oil-water-partition"), log_p) {
        (Some(partition), _) => partition,
        (None, Some(log_p)) => oil_water_partition(log_p, bonding)?,
        (None, None) => {
            return Err(CalcError::combination(
                "oil in the food needs `oil-water-partition` or `log-p`",
            ));
        }
    };
    Ok(OilInWater::new(share, partition)?)
}
