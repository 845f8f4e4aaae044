//! Questions about particles that sink or rise in a standing liquid.

use crate::calc::{Answer, CalcError, Family, Given, Input, Output, Question};
use crate::physics::settling::batch::{Vessel, cut_diameter, left_after};
use crate::physics::settling::{
    Liquid, STOKES_MAX_REYNOLDS, SizeDistribution, Suspension, drag_coefficient_sphere,
    hindered_exponent, hindered_ratio, sediment_time, stokes_speed_extrapolated, terminal_speed,
};
use crate::quantity::Dimension;

pub(super) const PARTICLE_DIAMETER: Input = Input::required(
    "particle-diameter",
    Dimension::Length,
    "diameter of a particle; with a spread, the median by mass",
);
pub(super) const PARTICLE_DENSITY: Input =
    Input::required("particle-density", Dimension::Density, "density of a particle as it floats");
pub(super) const LIQUID_DENSITY: Input =
    Input::required("liquid-density", Dimension::Density, "density of the liquid");
pub(super) const LIQUID_VISCOSITY: Input =
    Input::required("liquid-viscosity", Dimension::Viscosity, "viscosity of the liquid");
pub(super) const ACCELERATION: Input = Input::with_default(
    "acceleration",
    Dimension::Acceleration,
    "1 g",
    "gravity, or the force of a rotor in multiples of g",
);
pub(super) const CROWDING: Input = Input::with_default(
    "crowding-share",
    Dimension::Fraction,
    "0",
    "share of the volume that particles take up, which slows them",
);
pub(super) const TIME: Input =
    Input::optional("time", Dimension::Time, "how long it stands or spins, for what is left then");
pub(super) const SPREAD: Input = Input::with_default(
    "spread",
    Dimension::Fraction,
    "1",
    "geometric standard deviation of the sizes; 1 for one size, pulp about 2 to 3",
);

pub(super) const CUT_SIZE: Output =
    Output { key: "cut_size_m", label: "size of which half is out", unit: "m" };
pub(super) const GONE_SIZE: Output =
    Output { key: "all_out_size_m", label: "size above which all is out", unit: "m" };
pub(super) const LEFT: Output =
    Output { key: "solids_left_fraction", label: "share of the particles left", unit: "" };
pub(super) const LEFT_MEDIAN: Output =
    Output { key: "left_median_m", label: "median size of what is left", unit: "m" };

/// Reads the particles and the liquid of a question.
pub(super) fn suspension(given: &Given) -> Suspension {
    let liquid = Liquid {
        density: given.density("liquid-density"),
        viscosity: given.viscosity("liquid-viscosity"),
    };
    let crowding = given.optional_number("crowding-share").unwrap_or(0.0);
    Suspension { particle_density: given.density("particle-density"), liquid, crowding }
}

/// Adds what is left in a vessel after the time asked for, if there is one.
pub(super) fn with_rest(
    answer: Answer,
    given: &Given,
    suspension: &Suspension,
    vessel: Vessel,
) -> Result<Answer, CalcError> {
    let Some(time) = given.optional_time("time") else { return Ok(answer) };
    let sizes = SizeDistribution::new(given.length("particle-diameter"), given.number("spread"))?;
    let cut = cut_diameter(0.5, suspension, vessel, time)?;
    let gone = cut_diameter(1.0, suspension, vessel, time)?;
    let left = left_after(&sizes, suspension, vessel, time)?;
    Ok(answer
        .with(CUT_SIZE.key, cut.metres())
        .with(GONE_SIZE.key, gone.metres())
        .with(LEFT.key, left.share)
        .with_optional(LEFT_MEDIAN.key, left.sizes.map(|sizes| sizes.median().metres())))
}

pub(super) const PARTICLE_SPEED: Question = Question {
    name: "particle-speed",
    other_names: &["stokes", "terminal-speed", "terminal-velocity"],
    family: Family::Parting,
    summary: "How fast does a particle sink or rise",
    example: "particle-speed --particle-diameter \"10 um\" --particle-density \"1050 kg/m3\" --liquid-density \"1000 kg/m3\" --liquid-viscosity \"1 mPa.s\"",
    inputs: &[
        PARTICLE_DIAMETER,
        PARTICLE_DENSITY,
        LIQUID_DENSITY,
        LIQUID_VISCOSITY,
        ACCELERATION,
        CROWDING,
    ],
    outputs: &[
        Output { key: "stokes_speed_m_s", label: "speed by Stokes' law, + sinks", unit: "m/s" },
        Output { key: "particle_reynolds", label: "Reynolds number at that speed", unit: "" },
        Output { key: "stokes_holds_bool", label: "Stokes' law holds (1 yes, 0 no)", unit: "" },
        Output { key: "terminal_speed_m_s", label: "true speed with full drag", unit: "m/s" },
        Output { key: "terminal_reynolds", label: "Reynolds number at true speed", unit: "" },
        Output { key: "hindered_speed_m_s", label: "speed in the crowd", unit: "m/s" },
    ],
    answer: particle_speed,
};

fn particle_speed(given: &Given) -> Result<Answer, CalcError> {
    let particles = suspension(given);
    let (d, a) = (given.length("particle-diameter"), given.acceleration("acceleration"));
    let stokes = stokes_speed_extrapolated(d, &particles, a)?;
    let mut answer = Answer::new()
        .with("stokes_speed_m_s", stokes.speed.metres_per_second())
        .with("particle_reynolds", stokes.reynolds)
        .with("stokes_holds_bool", f64::from(u8::from(stokes.holds)));
    match terminal_speed(d, &particles, a) {
        Ok(speed) => {
            let liquid = particles.liquid;
            let scale = liquid.density.si() * d.metres() / liquid.viscosity.si();
            let reynolds = speed.si().abs() * scale;
            answer =
                answer.with("terminal_speed_m_s", speed.si()).with("terminal_reynolds", reynolds);
            if particles.crowding > 0.0 {
                let crowded = speed * hindered_ratio(particles.crowding, reynolds)?;
                answer = answer.with("hindered_speed_m_s", crowded.si());
            }
        }
        Err(error) => answer = answer.remark(format!("No true speed: {error}.")),
    }
    if !stokes.holds {
        answer = answer.remark(format!(
            "Stokes' speed is extrapolated above Reynolds number {STOKES_MAX_REYNOLDS}; \
             use the true speed."
        ));
    }
    Ok(answer)
}

pub(super) const SETTLE: Question = Question {
    name: "settle",
    other_names: &["jar", "settling-time"],
    family: Family::Parting,
    summary: "How long must a jar stand until its particles have settled, and what is left before",
    example: "settle --depth \"10 cm\" --particle-diameter \"10 um\" --particle-density \"1050 kg/m3\" --liquid-density \"1000 kg/m3\" --liquid-viscosity \"1.5 mPa.s\" --time \"12 h\" --spread 2.5",
    inputs: &[
        Input::required("depth", Dimension::Length, "height of liquid that a particle crosses"),
        PARTICLE_DIAMETER,
        PARTICLE_DENSITY,
        LIQUID_DENSITY,
        LIQUID_VISCOSITY,
        ACCELERATION,
        CROWDING,
        TIME,
        SPREAD,
    ],
    outputs: &[
        Output { key: "jar_settling_time_s", label: "time to cross the depth", unit: "s" },
        Output { key: "stokes_settling_time_s", label: "the same by Stokes' law", unit: "s" },
        CUT_SIZE,
        GONE_SIZE,
        LEFT,
        LEFT_MEDIAN,
    ],
    answer: settle,
};

fn settle(given: &Given) -> Result<Answer, CalcError> {
    let particles = suspension(given);
    let (d, a) = (given.length("particle-diameter"), given.acceleration("acceleration"));
    let depth = given.length("depth");
    let time = sediment_time(d, &particles, a, depth)?;
    let stokes = stokes_speed_extrapolated(d, &particles, a)?;
    let answer = Answer::new()
        .with("jar_settling_time_s", time.seconds())
        .with("stokes_settling_time_s", depth.metres() / stokes.speed.si().abs())
        .remark(
            "A network does not settle: thick puree, pectin gel and starch paste stay as they are.",
        );
    with_rest(answer, given, &particles, Vessel::Jar { depth, acceleration: a })
}

pub(super) const HINDERED: Question = Question {
    name: "hindered",
    other_names: &["richardson-zaki", "crowding"],
    family: Family::Parting,
    summary: "How much do crowded particles slow each other",
    example: "hindered --reynolds 0.01 --crowding-share \"20 %\"",
    inputs: &[
        Input::required(
            "reynolds",
            Dimension::Fraction,
            "Reynolds number of one particle at its terminal speed",
        ),
        Input::with_default(
            "crowding-share",
            Dimension::Fraction,
            "0",
            "volume share of particles, phi",
        ),
    ],
    outputs: &[
        Output { key: "richardson_zaki_exponent", label: "exponent n", unit: "" },
        Output {
            key: "hindered_speed_ratio",
            label: "speed in the crowd over speed alone",
            unit: "",
        },
    ],
    answer: hindered,
};

fn hindered(given: &Given) -> Result<Answer, CalcError> {
    let (reynolds, share) = (given.number("reynolds"), given.number("crowding-share"));
    Ok(Answer::new()
        .with("richardson_zaki_exponent", hindered_exponent(reynolds)?)
        .with("hindered_speed_ratio", hindered_ratio(share, reynolds)?))
}

pub(super) const DRAG: Question = Question {
    name: "drag",
    other_names: &["drag-coefficient"],
    family: Family::Parting,
    summary: "What is the drag coefficient of a sphere",
    example: "drag --reynolds 100",
    inputs: &[Input::required("reynolds", Dimension::Fraction, "particle Reynolds number")],
    outputs: &[Output { key: "drag_coefficient", label: "drag coefficient", unit: "" }],
    answer: drag,
};

fn drag(given: &Given) -> Result<Answer, CalcError> {
    Ok(Answer::new().with("drag_coefficient", drag_coefficient_sphere(given.number("reynolds"))?))
}
