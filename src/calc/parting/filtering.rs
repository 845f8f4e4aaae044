//! Questions about filtering through cakes, cloths and sieves.

use super::pores::{PRESSURE_DIFFERENCE, VISCOSITY};
use crate::calc::{Answer, CalcError, Family, Given, Input, Output, Question};
use crate::physics::filtration::drip::Drip;
use crate::physics::filtration::strain::{
    CLOTH_DEVIATION, Medium, PAPER_DEVIATION, WOVEN_MESH_DEVIATION,
};
use crate::physics::filtration::{CakeFilter, compressible_resistance, liquid_in_cake};
use crate::physics::settling::SizeDistribution;
use crate::quantity::{Dimension, Volume};

const CAKE_RESISTANCE: Input = Input::required(
    "cake-resistance",
    Dimension::CakeResistance,
    "resistance per dry solid: coarse pulp 1e10-1e11, fruit cloud 1e12-1e13 m/kg",
);
const SOLIDS: Input =
    Input::required("solids", Dimension::Density, "dry solids laid down per volume of filtrate");
const MEDIUM_RESISTANCE: Input =
    Input::required("medium-resistance", Dimension::MediumResistance, "resistance of the medium");

pub(super) const FILTER: Question = Question {
    name: "filter",
    other_names: &["ruth", "cake-filtration", "filtration-time"],
    family: Family::Parting,
    summary: "How long does filtering take, or how much has passed by then",
    example: "filter --area \"200 cm2\" --pressure-difference \"2 kPa\" --viscosity \"1 mPa.s\" --cake-resistance \"1e11 m/kg\" --solids \"10 g/L\" --medium-resistance \"1e10 1/m\" --volume \"1 L\"",
    inputs: &[
        Input::required("area", Dimension::Area, "filter area"),
        PRESSURE_DIFFERENCE,
        VISCOSITY,
        CAKE_RESISTANCE,
        SOLIDS,
        MEDIUM_RESISTANCE,
        Input::optional("volume", Dimension::Volume, "filtrate wanted"),
        Input::optional("time", Dimension::Time, "time given"),
        Input::with_default(
            "compressibility",
            Dimension::Fraction,
            "0",
            "0 for rigid grains, 0.5-1 for pulp: the cake resists more under pressure",
        ),
        Input::with_default(
            "reference-pressure",
            Dimension::Pressure,
            "1 kPa",
            "pressure to which the cake resistance refers, when compressible",
        ),
    ],
    outputs: &[
        Output { key: "filtration_time_s", label: "time to pass the volume", unit: "s" },
        Output { key: "filtrate_volume_m3", label: "volume passed in the time", unit: "m³" },
        Output { key: "initial_flux_m_s", label: "flux through the clean medium", unit: "m/s" },
        Output { key: "final_flux_m_s", label: "flux at the end", unit: "m/s" },
        Output { key: "cake_resistance_m_per_kg", label: "cake resistance used", unit: "m/kg" },
    ],
    answer: filter,
};

fn filter(given: &Given) -> Result<Answer, CalcError> {
    let pressure = given.pressure("pressure-difference");
    let compressibility = given.number("compressibility");
    let stated = given.number("cake-resistance");
    let alpha = if compressibility > 0.0 {
        let reference = given.pressure("reference-pressure");
        compressible_resistance(stated, reference, pressure, compressibility)?
    } else {
        stated
    };
    let filter = CakeFilter {
        area: given.area("area"),
        pressure,
        viscosity: given.viscosity("viscosity"),
        cake_resistance_m_per_kg: alpha,
        solids: given.density("solids"),
        medium_resistance_per_m: given.number("medium-resistance"),
    };
    let volume = given.optional_volume("volume");
    let by_time = given.optional_time("time").map(|time| filter.volume(time)).transpose()?;
    let end = volume.or(by_time);
    let clean = (filter.medium_resistance_per_m > 0.0).then(|| filter.flux(Volume::ZERO));
    Ok(Answer::new()
        .with_optional(
            "filtration_time_s",
            volume.map(|volume| filter.time(volume)).transpose()?.map(|time| time.seconds()),
        )
        .with_optional("filtrate_volume_m3", by_time.map(|volume| volume.cubic_metres()))
        .with_optional("initial_flux_m_s", clean.transpose()?.map(|flux| flux.si()))
        .with_optional(
            "final_flux_m_s",
            end.map(|volume| filter.flux(volume)).transpose()?.map(|flux| flux.si()),
        )
        .with("cake_resistance_m_per_kg", alpha)
        .remark("Pull a vacuum only on vessels made for it; a jar can implode."))
}

pub(super) const DRIP: Question = Question {
    name: "drip",
    other_names: &["drain", "cloth", "gravity-filter"],
    family: Family::Parting,
    summary: "How long does a funnel drip through cloth or paper by itself",
    example: "drip --head \"10 cm\" --medium-resistance \"1e9 1/m\" --cake-resistance \"1e11 m/kg\" --solids \"5 g/L\" --share \"90 %\"",
    inputs: &[
        Input::required("head", Dimension::Length, "height of liquid over the cloth at the start"),
        Input::with_default("liquid-density", Dimension::Density, "1000 kg/m3", "of the liquid"),
        Input::with_default("viscosity", Dimension::Viscosity, "1 mPa.s", "of the filtrate"),
        MEDIUM_RESISTANCE,
        Input::with_default("cake-resistance", Dimension::CakeResistance, "0 m/kg", "of the cake"),
        Input::with_default("solids", Dimension::Density, "0 kg/m3", "dry solids per filtrate"),
        Input::optional("share", Dimension::Fraction, "share of the charge to wait for, below 1"),
        Input::optional("time", Dimension::Time, "or the time given"),
    ],
    outputs: &[
        Output { key: "drip_time_s", label: "time for that share", unit: "s" },
        Output { key: "passed_fraction", label: "share dripped through in the time", unit: "" },
    ],
    answer: drip,
};

fn drip(given: &Given) -> Result<Answer, CalcError> {
    let funnel = Drip {
        head: given.length("head"),
        density: given.density("liquid-density"),
        viscosity: given.viscosity("viscosity"),
        medium_resistance_per_m: given.number("medium-resistance"),
        cake_gain_per_m2: given.number("cake-resistance") * given.number("solids"),
    };
    match (given.optional_number("share"), given.optional_time("time")) {
        (None, None) => Err(CalcError::combination("give `share` or `time`")),
        (share, time) => Ok(Answer::new()
            .with_optional(
                "drip_time_s",
                share.map(|share| funnel.time(share)).transpose()?.map(|time| time.seconds()),
            )
            .with_optional("passed_fraction", time.map(|time| funnel.share(time)).transpose()?)
            .remark("A slow drip of low-acid food belongs in the fridge.")),
    }
}

pub(super) const STRAIN: Question = Question {
    name: "strain",
    other_names: &["sieve", "mesh"],
    family: Family::Parting,
    summary: "What passes a sieve, cloth or paper",
    example: "strain --median \"50 um\" --spread 2.5 --opening \"75 um\"",
    inputs: &[
        Input::required("median", Dimension::Length, "median diameter of the particles by mass"),
        Input::with_default(
            "spread",
            Dimension::Fraction,
            "2",
            "their geometric standard deviation",
        ),
        Input::required("opening", Dimension::Length, "opening of the mesh, or rated size"),
        Input::choice("medium", &["mesh", "paper", "cloth"], "how sharply it cuts"),
        Input::with_default(
            "held-back",
            Dimension::Fraction,
            "50 %",
            "share that is held back at the rated size; laboratory papers 98 %",
        ),
    ],
    outputs: &[
        Output { key: "passed_fraction", label: "share of the particles that passes", unit: "" },
        Output { key: "held_fraction", label: "share held back", unit: "" },
        Output { key: "passed_median_m", label: "median size of what passes", unit: "m" },
        Output { key: "passed_d90_m", label: "size below which 90 % of it lies", unit: "m" },
    ],
    answer: strain,
};

fn strain(given: &Given) -> Result<Answer, CalcError> {
    let deviation = match given.word("medium") {
        "paper" => PAPER_DEVIATION,
        "cloth" => CLOTH_DEVIATION,
        _ => WOVEN_MESH_DEVIATION,
    };
    let medium = Medium::rated(given.length("opening"), given.number("held-back"), deviation)?;
    let sizes = SizeDistribution::new(given.length("median"), given.number("spread"))?;
    let passed = medium.pass(&sizes);
    Ok(Answer::new()
        .with("passed_fraction", passed.share)
        .with("held_fraction", 1.0 - passed.share)
        .with_optional("passed_median_m", passed.sizes.map(|sizes| sizes.median().metres()))
        .with_optional("passed_d90_m", passed.sizes.map(|sizes| sizes.d90().metres()))
        .remark("Before a cake forms; a cake holds back finer particles than the medium."))
}

pub(super) const CAKE_LIQUID: Question = Question {
    name: "cake-liquid",
    other_names: &["held-back", "liquid-in-cake"],
    family: Family::Parting,
    summary: "How much liquid stays in the cake",
    example: "cake-liquid --dry-solids \"50 g\" --porosity 0.7",
    inputs: &[
        Input::required("dry-solids", Dimension::Mass, "mass of the solids without liquid"),
        Input::with_default("solid-density", Dimension::Density, "1500 kg/m3", "of the solids"),
        Input::required("porosity", Dimension::Fraction, "share of the cake between the solids"),
        Input::with_default(
            "saturation",
            Dimension::Fraction,
            "1",
            "share of that space still full; 1 under gravity, less after pressing or suction",
        ),
    ],
    outputs: &[Output { key: "held_volume_m3", label: "liquid in the cake", unit: "m³" }],
    answer: cake_liquid,
};

fn cake_liquid(given: &Given) -> Result<Answer, CalcError> {
    let (solids, density) = (given.mass("dry-solids"), given.density("solid-density"));
    let held =
        liquid_in_cake(solids, density, given.number("porosity"), given.number("saturation"))?;
    Ok(Answer::new().with("held_volume_m3", held.cubic_metres()))
}
