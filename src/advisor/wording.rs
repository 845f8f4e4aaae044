//! Instructions with the computed numbers put in.

use super::{LoadsAdvice, MoveRecord, Plan};
use crate::estimate::Estimate;
use crate::kitchen::Kitchen;
use crate::knowledge::{Dose, Endpoint};
use crate::quantity::{
    Dimension, Length, Mass, Measures, Temperature, Time, Volume, cook_mass, cook_temperature,
    cook_time, cook_volume, range_text, significant, units_of,
};

/// The unit of counts and plain shares; a share to be read as per cent is written in `%`.
const COUNT: &str = "1";
/// Layers and pieces of this thickness are told in millimetres.
const THIN: std::ops::Range<Length> = Length::from_metres(1e-3)..Length::from_metres(1e-2);
/// The place of the loads in a text.
const LOADS_PLACE: &str = "{loads}";

/// Places that stand for the amount of all loads.
const WHOLE_AMOUNTS: [&str; 2] = ["{mass_out}", "{volume_out}"];

/// Puts the computed numbers of a move into a text with places such as `{time}`.
///
/// Known places: `mass_in`, `mass_out`, `volume_out`, `time`, `strength`, `temperature`, `loads`,
/// `passes`, `dose`, and the name of any setting; `time_setting` for the setting called `time`. A
/// place that nothing fills stays as its name.
pub fn instruction(text: &str, plan: &Plan<'_>, record: &MoveRecord) -> String {
    let mut filled = String::with_capacity(text.len());
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('{') {
        filled.push_str(before);
        let Some((name, tail)) = after.split_once('}') else {
            filled.push('{');
            rest = after;
            continue;
        };
        filled.push_str(&place(name, plan, record).unwrap_or_else(|| name.replace('_', " ")));
        rest = tail;
    }
    filled.push_str(rest);
    filled
}

/// Writes what to do in a move, and in how many loads when its vessel does not take everything.
pub(super) fn whole_instruction(plan: &Plan<'_>, record: &MoveRecord) -> String {
    let text = &plan.one.instruction;
    let filled = instruction(text, plan, record);
    match LoadsAdvice::of(record) {
        Some(loads) if !text.contains(LOADS_PLACE) => {
            format!("{filled} Do it in {}.", loads.words())
        }
        _ => filled,
    }
}

fn place(name: &str, plan: &Plan<'_>, record: &MoveRecord) -> Option<String> {
    let mass = |kg| cook_mass(Mass::from_kilograms(kg));
    match name {
        "mass_in" => range(&record.mass_in, mass),
        "mass_out" => range(&record.mass_out, mass),
        "volume_out" => range(&record.volume_out, |v| cook_volume(Volume::from_cubic_metres(v))),
        "time" => range(&record.time, |s| cook_time(Time::from_seconds(s))),
        "strength" => range(&record.strength, |share| format!("{:.0} °Brix", 100.0 * share)),
        "temperature" => {
            range(&record.temperature, |k| cook_temperature(Temperature::from_kelvin(k)))
        }
        "loads" => Some(LoadsAdvice::of(record).map_or("1 load".to_owned(), |l| l.words())),
        "passes" => counted(record.told.get("passes")?, "pass", "passes"),
        "dose" => dose(plan, record),
        "time_setting" => setting("time", plan),
        other => setting(other, plan),
    }
}

fn range(values: &[f64], show: impl Fn(f64) -> String) -> Option<String> {
    let estimate = Estimate::of_results(values)?;
    Some(range_text(&show(estimate.low()), &show(estimate.high())))
}

fn counted(values: &[f64], one: &str, many: &str) -> Option<String> {
    let count = Estimate::of_results(values)?.typical().round();
    let word = if count <= 1.0 { one } else { many };
    Some(format!("{count:.0} {word}"))
}

fn dose(plan: &Plan<'_>, record: &MoveRecord) -> Option<String> {
    let share = plan.one.supplies.iter().find_map(|supply| supply.dose.as_ref())?;
    let mass = Estimate::of_results(&record.mass_in)?.typical();
    let grams = |share: f64| cook_mass(Mass::from_kilograms(share * mass));
    Some(range_text(&grams(share.estimate.low()), &grams(share.estimate.high())))
}

/// Writes the mass of a supply for a mass of food; nothing for what is not used up.
pub(super) fn dose_of(supply: &Dose, mass_in: f64) -> Option<String> {
    let share = supply.dose.as_ref()?;
    Some(cook_mass(Mass::from_kilograms(share.typical() * mass_in)))
}

/// Writes a setting with its range, rounded for a cook.
fn setting(name: &str, plan: &Plan<'_>) -> Option<String> {
    let slot = plan.setting(name)?;
    let value = &slot.value;
    let is_count = value.dimension == Dimension::Fraction
        && (value.unit.symbol == COUNT || value.unit.symbol.is_empty());
    let is_thin = value.dimension == Dimension::Length
        && (THIN.start.metres()..THIN.end.metres()).contains(&value.estimate.low());
    let show = |si: f64| match (is_count, is_thin) {
        (true, _) => significant(si, 2),
        (_, true) => format!("{} mm", significant(si * 1e3, 2)),
        _ => cook_value(si, value.dimension),
    };
    Some(range_text(&show(value.estimate.low()), &show(value.estimate.high())))
}

/// Writes a value in SI as a cook would read it off.
pub(super) fn cook_value(si: f64, dimension: Dimension) -> String {
    match dimension {
        Dimension::Mass => cook_mass(Mass::from_si(si)),
        Dimension::Volume => cook_volume(Volume::from_si(si)),
        Dimension::Time => cook_time(Time::from_si(si)),
        Dimension::Temperature => cook_temperature(Temperature::from_si(si)),
        Dimension::RotationSpeed => format!("{} rpm", significant(si * 60.0, 3)),
        Dimension::Fraction => format!("{} %", significant(100.0 * si, 2)),
        Dimension::Pressure => format!("{} kPa", significant(si / 1000.0, 2)),
        Dimension::Length if si < 1e-3 => format!("{} µm", significant(si * 1e6, 2)),
        Dimension::Length => format!("{} cm", significant(si * 100.0, 2)),
        other => {
            let unit = units_of(other, Measures::Metric).next();
            let symbol = unit.map_or("", |unit| unit.symbol);
            format!("{} {symbol}", significant(si, 2))
        }
    }
}

/// Returns the first endpoint whose gear the kitchen owns, with its numbers.
pub(super) fn endpoint(
    until: &[Endpoint],
    kitchen: Option<&Kitchen>,
    plan: &Plan<'_>,
    record: &MoveRecord,
) -> Option<String> {
    let owns = |endpoint: &&Endpoint| {
        endpoint.needs.is_empty()
            || kitchen.is_none_or(|kitchen| {
                endpoint.needs.iter().any(|role| kitchen.serving(role).next().is_some())
            })
    };
    until.iter().find(owns).map(|endpoint| {
        let says = instruction(&endpoint.says, plan, record);
        let is_amount = WHOLE_AMOUNTS.iter().any(|place| endpoint.says.contains(place));
        match LoadsAdvice::of(record).filter(|_| is_amount) {
            Some(_) => format!("{says}, all loads together"),
            None => says,
        }
    })
}
