//! Questions about making and keeping an emulsion.

use super::breakup::{CONTINUOUS_DENSITY, TENSION};
use super::mixer::{ROTOR_DIAMETER, SPEED};
use crate::calc::{Answer, CalcError, Family, Given, Input, Output, Question};
use crate::physics::droplets::stability::{
    EGG_YOLK_COVER, LECITHIN_COVER, MILK_PROTEIN_COVER, cream_ring_time, emulsifier_mass,
    finest_covered,
};
use crate::physics::droplets::turbulent::{
    EnergyLaw, LiquidPair, MILK_IN_VALVE, OPEN_BLADE, ROTOR_STATOR, mixer_sauter_mean,
};
use crate::physics::positive;
use crate::physics::settling::hindered_ratio;
use crate::physics::settling::{Liquid, Suspension, sediment_time, terminal_speed};
use crate::quantity::{Acceleration, Dimension};

const DISPERSED_DENSITY: Input =
    Input::with_default("dispersed-density", Dimension::Density, "920 kg/m3", "of the oil");
const DROPLET_SHARE: Input = Input::with_default(
    "droplet-share",
    Dimension::Fraction,
    "10 %",
    "volume share of the oil in the emulsion",
);

pub(super) const EMULSIFY: Question = Question {
    name: "emulsify",
    other_names: &["mixer-droplets", "rotor-stator"],
    family: Family::Shearing,
    summary: "What mean droplet does a blade or rotor-stator reach in the end",
    example: "emulsify --rotor-diameter \"25 mm\" --speed \"10000 rpm\" --interfacial-tension \"5 mN/m\" --droplet-share \"20 %\"",
    inputs: &[
        ROTOR_DIAMETER,
        SPEED,
        Input::choice("mixer", &["rotor-stator", "open-blade"], "head in a stator, or bare blade"),
        TENSION,
        CONTINUOUS_DENSITY,
        DISPERSED_DENSITY,
        Input::with_default("dispersed-viscosity", Dimension::Viscosity, "60 mPa.s", "of the oil"),
        DROPLET_SHARE,
    ],
    outputs: &[Output { key: "droplet_d32_m", label: "mean droplet in the end", unit: "m" }],
    answer: emulsify,
};

fn emulsify(given: &Given) -> Result<Answer, CalcError> {
    let open = given.word("mixer") == "open-blade";
    let liquids = LiquidPair {
        tension: given.surface_tension("interfacial-tension"),
        continuous_density: given.density("continuous-density"),
        dispersed_density: given.density("dispersed-density"),
        dispersed_viscosity: given.viscosity("dispersed-viscosity"),
    };
    let law = if open { OPEN_BLADE } else { ROTOR_STATOR };
    let (diameter, rotation) = (given.length("rotor-diameter"), given.rotation("speed"));
    let size = mixer_sauter_mean(law, &liquids, diameter, rotation, given.number("droplet-share"))?;
    let answer = Answer::new().with("droplet_d32_m", size.metres());
    Ok(if open {
        answer.remark("What long mixing of a small volume reaches; a jar or bell stays 1.5 to 6 times coarser (estimate).")
    } else {
        answer.remark("What long mixing of a small volume reaches, with emulsifier enough.")
    })
}

pub(super) const HOMOGENISE: Question = Question {
    name: "homogenise",
    other_names: &["homogenize", "valve-homogeniser"],
    family: Family::Shearing,
    summary: "How fine does a valve homogeniser make milk, or what pressure does it take",
    example: "homogenise --pressure \"20 MPa\"",
    inputs: &[
        Input::optional("pressure", Dimension::Pressure, "homogenising pressure"),
        Input::optional("size", Dimension::Length, "or the mean droplet wanted"),
        Input::optional("reference-size", Dimension::Length, "mean droplet measured once"),
        Input::optional("reference-pressure", Dimension::Pressure, "at this pressure"),
        Input::with_default("exponent", Dimension::Fraction, "0.6", "milk 0.6, others 0.6-0.8"),
    ],
    outputs: &[
        Output { key: "droplet_d32_m", label: "mean droplet", unit: "m" },
        Output { key: "pressure_pa", label: "pressure", unit: "Pa" },
    ],
    answer: homogenise,
};

fn homogenise(given: &Given) -> Result<Answer, CalcError> {
    let energy = given.optional_pressure("reference-pressure").unwrap_or(MILK_IN_VALVE.energy);
    positive("reference pressure", energy.pascals(), "Pa")?;
    let law = EnergyLaw {
        size: given.optional_length("reference-size").unwrap_or(MILK_IN_VALVE.size),
        energy,
        exponent: given.number("exponent"),
    };
    let (size, pressure) =
        match (given.optional_pressure("pressure"), given.optional_length("size")) {
            (Some(pressure), None) => (law.sauter_mean(pressure)?, pressure),
            (None, Some(size)) => (size, law.energy_for(size)?),
            _ => return Err(CalcError::combination("give either `pressure` or `size`")),
        };
    Ok(Answer::new()
        .with("droplet_d32_m", size.metres())
        .with("pressure_pa", pressure.pascals())
        .remark("No kitchen machine reaches these pressures safely; buy it homogenised."))
}

pub(super) const EMULSIFIER: Question = Question {
    name: "emulsifier",
    other_names: &["surfactant", "lecithin"],
    family: Family::Shearing,
    summary: "How much emulsifier covers the droplets, or how fine can a dose keep them",
    example: "emulsifier --oil \"300 mL\" --droplet-d32 \"2 um\" --kind lecithin",
    inputs: &[
        Input::required("oil", Dimension::Volume, "volume of the droplets"),
        Input::optional("droplet-d32", Dimension::Length, "mean droplet wanted"),
        Input::optional("dose", Dimension::Mass, "or the emulsifier at hand"),
        Input::choice("kind", &["lecithin", "milk-protein", "egg-yolk"], "kind of emulsifier"),
        Input::optional(
            "coverage-mg-per-m2",
            Dimension::Fraction,
            "coverage as a plain number of mg/m², in place of the kind's",
        ),
    ],
    outputs: &[
        Output { key: "emulsifier_mass_kg", label: "emulsifier", unit: "kg" },
        Output { key: "emulsifier_mass_low_kg", label: "with thin cover", unit: "kg" },
        Output { key: "emulsifier_mass_high_kg", label: "with thick cover", unit: "kg" },
        Output { key: "finest_d32_m", label: "finest mean droplet covered", unit: "m" },
    ],
    answer: emulsifier,
};

fn emulsifier(given: &Given) -> Result<Answer, CalcError> {
    /// Kilograms in a milligram.
    const MILLIGRAM: f64 = 1e-6;
    let kind = match given.word("kind") {
        "milk-protein" => MILK_PROTEIN_COVER,
        "egg-yolk" => EGG_YOLK_COVER,
        _ => LECITHIN_COVER,
    };
    let stated = given.optional_number("coverage-mg-per-m2").map(|cover| cover * MILLIGRAM);
    let [low, typical, high] = stated.map_or(kind, |cover| [cover; 3]);
    let oil = given.volume("oil");
    match (given.optional_length("droplet-d32"), given.optional_mass("dose")) {
        (Some(size), None) => Ok(Answer::new()
            .with("emulsifier_mass_kg", emulsifier_mass(oil, size, typical)?.kilograms())
            .with("emulsifier_mass_low_kg", emulsifier_mass(oil, size, low)?.kilograms())
            .with("emulsifier_mass_high_kg", emulsifier_mass(oil, size, high)?.kilograms())),
        (None, Some(dose)) => Ok(Answer::new()
            .with("finest_d32_m", finest_covered(oil, dose, typical)?.metres())
            .remark("The mixer may stay coarser; see `emulsify`.")),
        _ => Err(CalcError::combination("give either `droplet-d32` or `dose`")),
    }
}

pub(super) const CREAM_RING: Question = Question {
    name: "cream-ring",
    other_names: &["emulsion-stability", "emulsion-creaming"],
    family: Family::Shearing,
    summary: "How soon does an emulsion show a ring of cream",
    example: "cream-ring --droplet-diameter \"5 um\" --continuous-viscosity \"1 mPa.s\" --height \"5 cm\"",
    inputs: &[
        Input::required("droplet-diameter", Dimension::Length, "mass mean diameter d43"),
        CONTINUOUS_DENSITY,
        Input::required("continuous-viscosity", Dimension::Viscosity, "of the water phase"),
        DISPERSED_DENSITY,
        DROPLET_SHARE,
        Input::with_default("height", Dimension::Length, "50 mm", "height of the emulsion"),
        Input::with_default("ring", Dimension::Length, "2 mm", "height of a ring that is noticed"),
    ],
    outputs: &[
        Output { key: "creaming_speed_m_s", label: "rising speed in the crowd", unit: "m/s" },
        Output { key: "rise_time_s", label: "time to rise the height", unit: "s" },
        Output { key: "cream_ring_time_s", label: "time to the ring", unit: "s" },
        Output { key: "cream_ring_days", label: "days to the ring", unit: "d" },
    ],
    answer: cream_ring,
};

fn cream_ring(given: &Given) -> Result<Answer, CalcError> {
    let gravity = Acceleration::from_standard_gravities(1.0);
    let share = given.number("droplet-share");
    let liquid = Liquid {
        density: given.density("continuous-density"),
        viscosity: given.viscosity("continuous-viscosity"),
    };
    let oil = Suspension {
        particle_density: given.density("dispersed-density"),
        liquid,
        crowding: share,
    };
    let size = given.length("droplet-diameter");
    let alone = terminal_speed(size, &oil, gravity)?;
    let reynolds = alone.si().abs() * size.metres() * liquid.density.si() / liquid.viscosity.si();
    let speed = alone * hindered_ratio(share, reynolds)?;
    let ring = cream_ring_time(given.length("ring"), share, speed)?;
    let rise = sediment_time(size, &oil, gravity, given.length("height"))?;
    Ok(Answer::new()
        .with("creaming_speed_m_s", speed.si())
        .with("rise_time_s", rise.seconds())
        .with("cream_ring_time_s", ring.seconds())
        .with("cream_ring_days", ring.days())
        .remark("Droplets that neither join nor cluster, in a liquid that does not gel."))
}
