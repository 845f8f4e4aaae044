//! Questions about what a rotor does: speed, shear, energy, time and heat.

use crate::calc::{Answer, CalcError, Family, Given, Input, Output, Question};
use crate::physics::droplets::mixing::{POURED_DROPLET, heating, passes, size_after_passes};
use crate::physics::droplets::turbulent::OIL_IN_ROTOR_STATOR;
use crate::physics::droplets::{energy_density, gap_shear, tip_speed};
use crate::quantity::Dimension;

pub(super) const ROTOR_DIAMETER: Input =
    Input::required("rotor-diameter", Dimension::Length, "diameter of the rotor or blade");
pub(super) const SPEED: Input = Input::required(
    "speed",
    Dimension::RotationSpeed,
    "speed under load in rpm; about 0.7 of the no-load speed",
);

const HAZARD: &str = "Unplug before touching the blade; let hot liquid cool below 60 °C or vent it \
                      before it is blended in a closed jar.";

pub(super) const TIP_SPEED: Question = Question {
    name: "tip-speed",
    other_names: &["gap-shear", "rotor"],
    family: Family::Shearing,
    summary: "How fast is the tip of a blade, and how hard does its gap shear",
    example: "tip-speed --speed \"10000 rpm\" --rotor-diameter \"18 mm\" --gap \"0.3 mm\"",
    inputs: &[
        SPEED,
        ROTOR_DIAMETER,
        Input::optional("gap", Dimension::Length, "gap between rotor and stator or wall"),
    ],
    outputs: &[
        Output { key: "tip_speed_m_s", label: "tip speed", unit: "m/s" },
        Output { key: "gap_shear_rate_per_s", label: "nominal shear in the gap", unit: "1/s" },
    ],
    answer: rotor_tip,
};

fn rotor_tip(given: &Given) -> Result<Answer, CalcError> {
    let tip = tip_speed(given.length("rotor-diameter"), given.rotation("speed"))?;
    let shear = given.optional_length("gap").map(|gap| gap_shear(tip, gap)).transpose()?;
    Ok(Answer::new()
        .with("tip_speed_m_s", tip.metres_per_second())
        .with_optional("gap_shear_rate_per_s", shear.map(|shear| shear.per_second())))
}

pub(super) const ENERGY_DENSITY: Question = Question {
    name: "energy-density",
    other_names: &["mixing-energy"],
    family: Family::Shearing,
    summary: "How much energy goes into a volume, and what droplets that makes",
    example: "energy-density --power \"180 W\" --time \"2 min\" --volume \"0.5 L\"",
    inputs: &[
        Input::required("power", Dimension::Power, "power that reaches the food, not the rating"),
        Input::required("time", Dimension::Time, "time of mixing"),
        Input::required("volume", Dimension::Volume, "volume of the batch"),
    ],
    outputs: &[
        Output { key: "energy_density_j_m3", label: "energy per volume", unit: "J/m³" },
        Output { key: "droplet_d32_m", label: "mean droplet that it makes", unit: "m" },
    ],
    answer: energy_per_volume,
};

fn energy_per_volume(given: &Given) -> Result<Answer, CalcError> {
    let energy = energy_density(given.power("power"), given.time("time"), given.volume("volume"))?;
    let size = OIL_IN_ROTOR_STATOR.sauter_mean(energy).ok().map(|size| size.metres());
    Ok(Answer::new()
        .with("energy_density_j_m3", energy.pascals())
        .with_optional("droplet_d32_m", size)
        .remark("The droplet is an estimate, for oil in water by a rotor-stator with emulsifier enough."))
}

pub(super) const MIX_TIME: Question = Question {
    name: "mix-time",
    other_names: &["passes", "dwell"],
    family: Family::Shearing,
    summary: "How often has the batch passed the rotor, and how fine is it by then",
    example: "mix-time --rotor-diameter \"25 mm\" --speed \"8000 rpm\" --time \"3 min\" --volume \"0.5 L\" --final-size \"3 um\"",
    inputs: &[
        ROTOR_DIAMETER,
        SPEED,
        Input::required("time", Dimension::Time, "time of mixing"),
        Input::required("volume", Dimension::Volume, "volume of the batch"),
        Input::optional("start-size", Dimension::Length, "droplet at the start; poured oil 0.3 mm"),
        Input::optional("final-size", Dimension::Length, "droplet that endless mixing would reach"),
    ],
    outputs: &[
        Output { key: "passes", label: "passes of the whole batch", unit: "" },
        Output { key: "droplet_size_m", label: "mean droplet by then", unit: "m" },
    ],
    answer: mix_time,
};

fn mix_time(given: &Given) -> Result<Answer, CalcError> {
    let (diameter, rotation) = (given.length("rotor-diameter"), given.rotation("speed"));
    let turned = passes(diameter, rotation, given.time("time"), given.volume("volume"))?;
    let start = given.optional_length("start-size").unwrap_or(POURED_DROPLET);
    let size = given
        .optional_length("final-size")
        .map(|end| size_after_passes(start, end, turned))
        .transpose()?;
    Ok(Answer::new()
        .with("passes", turned)
        .with_optional("droplet_size_m", size.map(|size| size.metres()))
        .remark("Flow number and pace are estimates; a creaming test tells the true size.")
        .remark(HAZARD))
}

pub(super) const SHEAR_HEAT: Question = Question {
    name: "shear-heat",
    other_names: &["blender-heat", "mixing-heat"],
    family: Family::Shearing,
    summary: "How much does blending warm the food",
    example: "shear-heat --power \"500 W\" --time \"5 min\" --mass \"1 kg\"",
    inputs: &[
        Input::required("power", Dimension::Power, "power drawn under load, 0.3-0.9 of the rating"),
        Input::required("time", Dimension::Time, "time of blending"),
        Input::required("mass", Dimension::Mass, "mass of the batch"),
        Input::with_default(
            "heat-capacity",
            Dimension::SpecificHeat,
            "3700 J/(kg K)",
            "of the food",
        ),
        Input::with_default(
            "heat-share",
            Dimension::Fraction,
            "0.9",
            "share of the power that stays in the food as heat",
        ),
    ],
    outputs: &[Output { key: "temperature_rise_k", label: "rise in temperature", unit: "K" }],
    answer: shear_heat,
};

fn shear_heat(given: &Given) -> Result<Answer, CalcError> {
    let rise = heating(
        given.power("power"),
        given.number("heat-share"),
        given.time("time"),
        given.mass("mass"),
        given.specific_heat("heat-capacity"),
    )?;
    Ok(Answer::new().with("temperature_rise_k", rise.kelvin()).remark(HAZARD))
}
