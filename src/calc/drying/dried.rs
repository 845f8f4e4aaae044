//! Questions about drying in air: how long, and what is left.

use super::{AIR_SPEED, ALTITUDE, PER_CENT, PRESSURE, surroundings};
use crate::calc::{Answer, CalcError, Family, Given, Input, Kind, Need, Output, Question};
use crate::physics::drying::{
    DIFFUSIVITIES, DryingShape, DryingSlab, PageLaw, diffusivity_at, diffusivity_of, mass_left,
    moisture_ratio_by_diffusion, time_to_ratio_by_diffusion, volume_left,
};
use crate::physics::evaporation::drying_surface;
use crate::physics::sorption::moisture_of_share;
use crate::quantity::{Density, Diffusivity, Dimension, Length, Temperature};

const TIME: Input = Input::optional("time", Dimension::Time, "How long it dries");
const RATIO: Input = Input::optional(
    "moisture-ratio",
    Dimension::Fraction,
    "Instead of the time: water still to lose over water to lose at the start",
);
const FOOD: Input = Input {
    name: "food",
    kind: Kind::Text,
    need: Need::Optional,
    help: "A food whose diffusivity is published: mango, apple, foamed melon",
};
const DIFFUSIVITY: Input =
    Input::optional("diffusivity", Dimension::Diffusivity, "Of water in the food: 1e-11 to 1e-9");
const TIME_OUTPUT: Output = Output { key: "time_s", label: "time", unit: "s" };
const RATIO_OUTPUT: Output = Output { key: "moisture_ratio", label: "moisture ratio", unit: "" };

/// The empirical law of thin layers.
pub(super) const PAGE: Question = Question {
    name: "dry-page",
    other_names: &["page", "lewis", "newton-drying", "thin-layer"],
    family: Family::Drying,
    summary: "Drying by the fitted law of Page or Lewis: moisture after a time, or time to a moisture",
    example: "dry-page --k 0.0504 --n 0.761 --moisture-ratio 0.1",
    inputs: &[
        Input::optional("k", Dimension::Fraction, "Drying constant, per time unit to the power n"),
        Input::with_default("n", Dimension::Fraction, "1", "Exponent; 1 is the law of Lewis"),
        Input::choice("time-unit", &["min", "h", "s"], "Time unit in which k was fitted"),
        TIME,
        RATIO,
        Input::optional("first-time", Dimension::Time, "Instead of k and n: of one weighing"),
        Input::optional("first-ratio", Dimension::Fraction, "Moisture ratio then"),
        Input::optional("second-time", Dimension::Time, "Of a later weighing"),
        Input::optional("second-ratio", Dimension::Fraction, "Moisture ratio then"),
    ],
    outputs: &[
        RATIO_OUTPUT,
        TIME_OUTPUT,
        Output { key: "k_per_min_n", label: "drying constant", unit: "1/min^n" },
        Output { key: "n_exponent", label: "exponent", unit: "" },
    ],
    answer: page,
};

fn page(given: &Given) -> Result<Answer, CalcError> {
    let law = page_law(given)?;
    let time = match given.optional_number("moisture-ratio") {
        Some(ratio) => Some(law.time_to_ratio(ratio)?),
        None => None,
    };
    let ratio = given.optional_time("time").map(|time| law.moisture_ratio(time)).transpose()?;
    Ok(Answer::new()
        .with_optional("moisture_ratio", ratio)
        .with_optional("time_s", time.map(|time| time.seconds()))
        .with("k_per_min_n", law.k_per_minute)
        .with("n_exponent", law.n))
}

fn page_law(given: &Given) -> Result<PageLaw, CalcError> {
    if let Some(k) = given.optional_number("k") {
        let minutes_per_unit: f64 = match given.word("time-unit") {
            "h" => 60.0,
            "s" => 1.0 / 60.0,
            _ => 1.0,
        };
        let n = given.number("n");
        return Ok(PageLaw { k_per_minute: k / minutes_per_unit.powf(n), n });
    }
    let weighing = |time, ratio| Some((given.optional_time(time)?, given.optional_number(ratio)?));
    match (weighing("first-time", "first-ratio"), weighing("second-time", "second-ratio")) {
        (Some(first), Some(second)) => Ok(PageLaw::through(first, second)?),
        _ => Err(CalcError::combination("give `k`, or two weighings with time and ratio")),
    }
}

/// Drying by diffusion.
pub(super) const SLAB: Question = Question {
    name: "dry-slab",
    other_names: &["dry-diffusion", "fick", "fick-slab"],
    family: Family::Drying,
    summary: "How long water takes to diffuse out of a slice, stick, ball or block",
    example: "dry-slab --half-thickness \"3 mm\" --diffusivity \"5e-10 m2/s\" --moisture-ratio 0.1",
    inputs: &[
        Input::choice(
            "shape",
            &["slab", "cylinder", "short-cylinder", "sphere", "brick"],
            "Slice, long stick, short stick or disc, ball, or block",
        ),
        Input::optional("half-thickness", Dimension::Length, "Half a slice that dries both sides"),
        Input::optional("thickness", Dimension::Length, "Instead: the whole thickness"),
        Input::optional("radius", Dimension::Length, "Of a stick, disc or ball"),
        Input::optional("length", Dimension::Length, "Of a short stick or a block"),
        Input::optional("width", Dimension::Length, "Of a block"),
        DIFFUSIVITY,
        FOOD,
        Input::with_default("temperature", Dimension::Temperature, "60 °C", "For a named food"),
        TIME,
        RATIO,
    ],
    outputs: &[
        RATIO_OUTPUT,
        TIME_OUTPUT,
        Output { key: "diffusivity_m2_s", label: "diffusivity", unit: "m²/s" },
    ],
    answer: slab,
};

fn slab(given: &Given) -> Result<Answer, CalcError> {
    let shape = shape(given)?;
    let diffusivity = diffusivity(given, given.temperature("temperature"))?;
    let time = match given.optional_number("moisture-ratio") {
        Some(ratio) => Some(time_to_ratio_by_diffusion(shape, diffusivity, ratio)?),
        None => None,
    };
    let ratio = given
        .optional_time("time")
        .map(|time| moisture_ratio_by_diffusion(shape, diffusivity, time))
        .transpose()?;
    Ok(Answer::new()
        .with_optional("moisture_ratio", ratio)
        .with_optional("time_s", time.map(|time| time.seconds()))
        .with("diffusivity_m2_s", diffusivity.si()))
}

fn shape(given: &Given) -> Result<DryingShape, CalcError> {
    let half = |name: &str| given.optional_length(name).map(|length| length / 2.0);
    let needs = |name: &str| CalcError::combination(format!("this shape needs `{name}`"));
    let half_thickness = || {
        let half = given.optional_length("half-thickness").or_else(|| half("thickness"));
        half.ok_or_else(|| needs("half-thickness"))
    };
    let radius = || given.optional_length("radius").ok_or_else(|| needs("radius"));
    Ok(match given.word("shape") {
        "cylinder" => DryingShape::Cylinder { radius: radius()? },
        "short-cylinder" => DryingShape::ShortCylinder {
            radius: radius()?,
            half_length: half("length").ok_or_else(|| needs("length"))?,
        },
        "sphere" => DryingShape::Sphere { radius: radius()? },
        "brick" => DryingShape::Brick {
            half_edges: [
                half_thickness()?,
                half("width").ok_or_else(|| needs("width"))?,
                half("length").ok_or_else(|| needs("length"))?,
            ],
        },
        _ => DryingShape::Slab { half_thickness: half_thickness()? },
    })
}

/// Reads a diffusivity, or takes that of a named food at a temperature.
fn diffusivity(given: &Given, temperature: Temperature) -> Result<Diffusivity, CalcError> {
    if let Some(diffusivity) = given.optional_diffusivity("diffusivity") {
        return Ok(diffusivity);
    }
    let entry = diffusivity_of(given.word("food")).ok_or_else(|| {
        let known: Vec<&str> = DIFFUSIVITIES.iter().map(|entry| entry.food).collect();
        let known = known.join(", ");
        CalcError::combination(format!("give `diffusivity`, or one of these as `food`: {known}"))
    })?;
    Ok(diffusivity_at(entry.value, entry.reference, entry.activation, temperature)?)
}

/// A slice in warm moving air.
pub(super) const DRY: Question = Question {
    name: "dry",
    other_names: &["dehydrate", "air-dry", "drying-time"],
    family: Family::Drying,
    summary: "How long a slice takes to dry in warm air, first as the air allows, then as water seeps out",
    example: "dry --thickness \"6 mm\" --air-temperature \"60 °C\" --food apple --water-before \"85 %\" --water-after \"20 %\"",
    inputs: &[
        Input::required("thickness", Dimension::Length, "Of the slice"),
        Input::choice("faces", &["both", "one"], "Faces from which water leaves"),
        Input::required("water-before", Dimension::Fraction, "Share of water when fresh"),
        Input::required("water-after", Dimension::Fraction, "Share of water wanted"),
        Input::with_default("air-temperature", Dimension::Temperature, "60 °C", "Of the air"),
        Input::with_default("relative-humidity", Dimension::Fraction, "10 %", "Of the warm air"),
        AIR_SPEED,
        PRESSURE,
        ALTITUDE,
        Input::with_default("piece-length", Dimension::Length, "5 cm", "Along the air"),
        DIFFUSIVITY,
        FOOD,
        Input::with_default("density", Dimension::Density, "1000 kg/m3", "Of the fresh food"),
        Input::with_default(
            "equilibrium-moisture",
            Dimension::Fraction,
            "0.03",
            "At which this air would leave it, kg per kg dry (ask `moisture`)",
        ),
    ],
    outputs: &[
        TIME_OUTPUT,
        Output { key: "constant_rate_time_s", label: "with a wet surface", unit: "s" },
        Output {
            key: "critical_moisture_kg_kg_dry",
            label: "surface dries at moisture",
            unit: "kg/kg",
        },
        Output { key: "wet_surface_temperature_c", label: "wet surface at", unit: "°C" },
        Output { key: "wet_surface_flux_kg_m2s", label: "drying at first", unit: "kg/(m² s)" },
        Output { key: "moisture_ratio", label: "moisture ratio reached", unit: "" },
        Output { key: "mass_left_fraction", label: "weight left", unit: "" },
        Output { key: "volume_left_fraction", label: "volume left", unit: "" },
        Output { key: "diffusivity_m2_s", label: "diffusivity", unit: "m²/s" },
    ],
    answer: dry,
};

fn dry(given: &Given) -> Result<Answer, CalcError> {
    let air = surroundings(given)?;
    let (water_before, water_after) = (given.number("water-before"), given.number("water-after"));
    let (before, after) = (moisture_of_share(water_before)?, moisture_of_share(water_after)?);
    let (surface, flux) = drying_surface(given.length("piece-length"), 1.0, &air)?;
    let slab = DryingSlab {
        half_thickness: dried_depth(given),
        dry_density: Density::from_si(given.density("density").si() * (1.0 - water_before)),
        moisture: before,
        equilibrium: given.number("equilibrium-moisture"),
        diffusivity: diffusivity(given, air.air)?,
    };
    let dried = slab.dry_to(after, flux)?;
    Ok(Answer::new()
        .with("time_s", dried.time.seconds())
        .with("constant_rate_time_s", dried.constant_rate_time.seconds())
        .with("critical_moisture_kg_kg_dry", dried.critical_moisture)
        .with("wet_surface_temperature_c", surface.celsius())
        .with("wet_surface_flux_kg_m2s", flux.si())
        .with("moisture_ratio", (after - slab.equilibrium) / (before - slab.equilibrium))
        .with("mass_left_fraction", mass_left(water_before, water_after)?)
        .with("volume_left_fraction", volume_left(before, after, 0.0)?)
        .with("diffusivity_m2_s", slab.diffusivity.si()))
}

fn dried_depth(given: &Given) -> Length {
    let thickness = given.length("thickness");
    if given.word("faces") == "one" { thickness } else { thickness / 2.0 }
}

/// What drying leaves.
pub(super) const YIELD: Question = Question {
    name: "dried-yield",
    other_names: &["drying-yield", "drying-ratio", "shrinkage"],
    family: Family::Drying,
    summary: "How much dried food comes from fresh, and how far it shrinks",
    example: "dried-yield --water-before \"85.6 %\" --water-after \"31.8 %\"",
    inputs: &[
        Input::required("water-before", Dimension::Fraction, "Share of water when fresh"),
        Input::required("water-after", Dimension::Fraction, "Share of water when dried"),
        Input::with_default("trimmed", Dimension::Fraction, "0", "Share thrown away beforehand"),
        Input::with_default("porosity", Dimension::Fraction, "0", "Share of air in the dried food"),
        Input::optional("mass", Dimension::Mass, "Of the food as bought"),
        Input::optional("time", Dimension::Time, "Taken, for the mean rate"),
    ],
    outputs: &[
        Output { key: "fresh_to_dried_ratio", label: "bought per dried", unit: "" },
        Output { key: "mass_left_fraction", label: "weight left", unit: "" },
        Output { key: "mass_left_percent", label: "weight left", unit: "%" },
        Output { key: "volume_left_fraction", label: "volume left", unit: "" },
        Output { key: "dried_mass_kg", label: "dried food", unit: "kg" },
        Output { key: "water_removed_kg", label: "water removed", unit: "kg" },
        Output { key: "mean_drying_rate_kg_h", label: "mean drying rate", unit: "kg/h" },
    ],
    answer: dried_yield,
};

fn dried_yield(given: &Given) -> Result<Answer, CalcError> {
    let (before, after) = (given.number("water-before"), given.number("water-after"));
    let left = mass_left(before, after)?;
    let trimmed = given.number("trimmed");
    if !(0.0..1.0).contains(&trimmed) {
        return Err(CalcError::combination("`trimmed` must be a share from 0 to below 1"));
    }
    let of_bought = left * (1.0 - trimmed);
    let volume = volume_left(
        moisture_of_share(before)?,
        moisture_of_share(after)?,
        given.number("porosity"),
    )?;
    let mass = given.optional_mass("mass").map(|mass| mass.kilograms());
    let removed = mass.map(|mass| mass * (1.0 - trimmed) * (1.0 - left));
    let rate = given.optional_time("time").zip(removed).map(|(time, kg)| kg / time.hours());
    Ok(Answer::new()
        .with("fresh_to_dried_ratio", 1.0 / of_bought)
        .with("mass_left_fraction", of_bought)
        .with("mass_left_percent", PER_CENT * of_bought)
        .with("volume_left_fraction", volume)
        .with_optional("dried_mass_kg", mass.map(|mass| mass * of_bought))
        .with_optional("water_removed_kg", removed)
        .with_optional("mean_drying_rate_kg_h", rate))
}
