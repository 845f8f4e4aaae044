//! Questions about single droplets in turbulence and in slow flow.

use crate::calc::{Answer, CalcError, Family, Given, Input, Output, Question};
use crate::physics::droplets::laminar::{Flow, critical_capillary_number, largest_droplet};
use crate::physics::droplets::turbulent::{
    LiquidPair, largest_droplet_davies, largest_droplet_hinze,
};
use crate::physics::droplets::{kolmogorov_length, laplace_pressure};
use crate::quantity::Dimension;

const POWER_PER_MASS: Input = Input::required(
    "power-per-mass",
    Dimension::SpecificPower,
    "power that reaches the food over its mass; much higher near the blade",
);
pub(super) const TENSION: Input = Input::required(
    "interfacial-tension",
    Dimension::SurfaceTension,
    "lecithin 3-10, egg yolk 4-10, milk protein 8-15, none 20-30 mN/m",
);
pub(super) const CONTINUOUS_DENSITY: Input = Input::with_default(
    "continuous-density",
    Dimension::Density,
    "1000 kg/m3",
    "of the water phase",
);

pub(super) const DROPLETS: Question = Question {
    name: "droplets",
    other_names: &["hinze", "droplet-size"],
    family: Family::Shearing,
    summary: "What is the largest droplet that turbulence leaves whole",
    example: "droplets --power-per-mass \"1000 W/kg\" --interfacial-tension \"5 mN/m\" --dispersed-viscosity \"60 mPa.s\" --continuous-viscosity \"1 mPa.s\"",
    inputs: &[
        POWER_PER_MASS,
        TENSION,
        CONTINUOUS_DENSITY,
        Input::optional("continuous-viscosity", Dimension::Viscosity, "of the water phase"),
        Input::optional(
            "dispersed-viscosity",
            Dimension::Viscosity,
            "of the oil, 60 mPa.s at 25 °C",
        ),
    ],
    outputs: &[
        Output { key: "hinze_max_diameter_m", label: "largest thin droplet", unit: "m" },
        Output { key: "davies_max_diameter_m", label: "largest viscous droplet", unit: "m" },
        Output { key: "kolmogorov_length_m", label: "smallest eddies", unit: "m" },
    ],
    answer: droplets,
};

fn droplets(given: &Given) -> Result<Answer, CalcError> {
    let (power, density) =
        (given.specific_power("power-per-mass"), given.density("continuous-density"));
    let tension = given.surface_tension("interfacial-tension");
    let hinze = largest_droplet_hinze(tension, density, power)?;
    let viscous = |dispersed_viscosity| {
        let liquids = LiquidPair {
            tension,
            continuous_density: density,
            // Davies' law does not use the density of the droplets.
            dispersed_density: density,
            dispersed_viscosity,
        };
        largest_droplet_davies(&liquids, power)
    };
    let davies = given.optional_viscosity("dispersed-viscosity").map(viscous).transpose()?;
    let eddies = given
        .optional_viscosity("continuous-viscosity")
        .map(|viscosity| kolmogorov_length(power, density, viscosity))
        .transpose()?;
    let answer = Answer::new()
        .with("hinze_max_diameter_m", hinze.metres())
        .with_optional("davies_max_diameter_m", davies.map(|size| size.metres()))
        .with_optional("kolmogorov_length_m", eddies.map(|size| size.metres()))
        .remark("Good to about 30 %, for few droplets, long mixing and emulsifier enough.");
    Ok(match eddies {
        Some(eddies) if hinze < eddies => answer.remark(
            "The droplet is smaller than the smallest eddies: the law is extrapolated, shear \
             decides (see `shear`).",
        ),
        _ => answer,
    })
}

pub(super) const EDDIES: Question = Question {
    name: "eddies",
    other_names: &["kolmogorov", "kolmogorov-length"],
    family: Family::Shearing,
    summary: "How small are the smallest eddies",
    example: "eddies --power-per-mass \"1000 W/kg\" --continuous-viscosity \"1 mPa.s\"",
    inputs: &[
        POWER_PER_MASS,
        CONTINUOUS_DENSITY,
        Input::required("continuous-viscosity", Dimension::Viscosity, "of the liquid"),
    ],
    outputs: &[Output { key: "kolmogorov_length_m", label: "smallest eddies", unit: "m" }],
    answer: eddies,
};

fn eddies(given: &Given) -> Result<Answer, CalcError> {
    let length = kolmogorov_length(
        given.specific_power("power-per-mass"),
        given.density("continuous-density"),
        given.viscosity("continuous-viscosity"),
    )?;
    Ok(Answer::new().with("kolmogorov_length_m", length.metres()))
}

pub(super) const SHEAR: Question = Question {
    name: "shear",
    other_names: &["capillary-number", "grace", "laminar-droplets"],
    family: Family::Shearing,
    summary: "Which droplets break in slow, thick flow",
    example: "shear --viscosity-ratio 0.1 --interfacial-tension \"5 mN/m\" --continuous-viscosity \"1 Pa.s\" --shear-rate \"10000 1/s\"",
    inputs: &[
        Input::required(
            "viscosity-ratio",
            Dimension::Fraction,
            "viscosity of the droplet over that of the food around it",
        ),
        Input::choice("flow", &["simple-shear", "plane-elongation"], "how the food flows"),
        Input::optional("interfacial-tension", Dimension::SurfaceTension, "with emulsifier"),
        Input::optional("continuous-viscosity", Dimension::Viscosity, "of the food around"),
        Input::optional("shear-rate", Dimension::Rate, "shear rate, see `tip-speed`"),
    ],
    outputs: &[
        Output { key: "critical_capillary_number", label: "critical capillary number", unit: "" },
        Output { key: "breaks_up_bool", label: "droplets can break (1 yes, 0 no)", unit: "" },
        Output { key: "capillary_max_diameter_m", label: "largest whole droplet", unit: "m" },
    ],
    answer: shear,
};

fn shear(given: &Given) -> Result<Answer, CalcError> {
    let ratio = given.number("viscosity-ratio");
    let flow = match given.word("flow") {
        "plane-elongation" => Flow::PlaneElongation,
        _ => Flow::SimpleShear,
    };
    let critical = critical_capillary_number(ratio, flow)?;
    let answer = Answer::new()
        .with("critical_capillary_number", critical)
        .with("breaks_up_bool", f64::from(u8::from(critical.is_finite())));
    let answer = if critical.is_finite() {
        answer
    } else {
        answer.remark("No critical number exists (it is infinite): simple shear only spins droplets this much thicker than the food; stretch it through a narrow gap.")
    };
    let tension = given.optional_surface_tension("interfacial-tension");
    let viscosity = given.optional_viscosity("continuous-viscosity");
    match (tension, viscosity, given.optional_rate("shear-rate")) {
        (Some(tension), Some(viscosity), Some(rate)) => {
            let size = largest_droplet(tension, viscosity, rate, ratio, flow)?;
            Ok(answer.with("capillary_max_diameter_m", size.metres()))
        }
        (None, None, None) => Ok(answer),
        _ => Err(CalcError::combination(
            "a size needs `interfacial-tension`, `continuous-viscosity` and `shear-rate`",
        )),
    }
}

pub(super) const LAPLACE: Question = Question {
    name: "laplace",
    other_names: &["laplace-pressure", "droplet-pressure"],
    family: Family::Shearing,
    summary: "What pressure holds a droplet together",
    example: "laplace --interfacial-tension \"5 mN/m\" --droplet-diameter \"1 um\"",
    inputs: &[
        TENSION,
        Input::required("droplet-diameter", Dimension::Length, "diameter of the droplet"),
    ],
    outputs: &[Output { key: "laplace_pressure_pa", label: "pressure inside", unit: "Pa" }],
    answer: laplace,
};

fn laplace(given: &Given) -> Result<Answer, CalcError> {
    let (tension, size) =
        (given.surface_tension("interfacial-tension"), given.length("droplet-diameter"));
    Ok(Answer::new().with("laplace_pressure_pa", laplace_pressure(tension, size)?.pascals()))
}
