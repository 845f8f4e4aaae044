//! Questions about centrifuges.

use std::f64::consts::TAU;

use super::settling::{
    CROWDING, CUT_SIZE, GONE_SIZE, LEFT, LEFT_MEDIAN, LIQUID_DENSITY, LIQUID_VISCOSITY,
    PARTICLE_DENSITY, PARTICLE_DIAMETER, SPREAD, TIME, suspension, with_rest,
};
use crate::calc::{Answer, CalcError, Family, Given, Input, Output, Question};
use crate::physics::settling::batch::Vessel;
use crate::physics::settling::packing::{PULP_PACKING, cake_solids_share, clear_liquid_share};
use crate::physics::settling::{
    equivalent_time, k_factor, pelleting_time, relative_force, rotation_for_force,
};
use crate::quantity::{Dimension, RotationSpeed};

const ROTOR: Input = Input::choice(
    "rotor",
    &["made-centrifuge", "hand-spinner", "improvised"],
    "what spins: a centrifuge as sold, a hand-driven salad spinner, anything else",
);
const RATED_SPEED: Input = Input::optional(
    "rated-speed",
    Dimension::RotationSpeed,
    "highest speed that the maker states for this rotor and load",
);

/// Speed above which a hand-driven spinner is not believed: 950 rpm was reached with one (from
/// memory: Rice University, news release on a spinner for blood tests, 2010), rounded up.
const HAND_SPINNER_TOP: RotationSpeed = RotationSpeed::from_rpm(1500.0);

/// Refuses rotors and speeds that can burst.
fn refuse_unsafe(given: &Given, speed: RotationSpeed) -> Result<(), CalcError> {
    if given.word("rotor") == "improvised" {
        return Err(CalcError::combination(
            "an improvised rotor is refused: a drill, motor or drum that was not made as a \
             centrifuge can burst and throw its parts; let it stand, filter it, or use a \
             hand-driven salad spinner with capped plastic tubes",
        ));
    }
    if given.word("rotor") == "hand-spinner" && speed > HAND_SPINNER_TOP {
        return Err(CalcError::combination(format!(
            "a hand-driven spinner does not reach {:.0} rpm, about {:.0} rpm is its top",
            speed.rpm(),
            HAND_SPINNER_TOP.rpm()
        )));
    }
    match given.optional_rotation("rated-speed") {
        Some(rated) if speed > rated => Err(CalcError::combination(format!(
            "{:.0} rpm is above the {:.0} rpm that the maker states for this rotor",
            speed.rpm(),
            rated.rpm()
        ))),
        _ => Ok(()),
    }
}

/// Adds what everyone at a rotor must know.
fn with_cautions(answer: Answer, given: &Given) -> Answer {
    let answer = answer.remark(
        "Balance opposite tubes, use tubes rated for the force (never glass), keep the lid shut \
         until the rotor stands still, and spin nothing that gives off flammable vapour.",
    );
    if given.has("rated-speed") {
        answer
    } else {
        answer
            .remark("Stay at or below the speed that the maker states for the rotor and its load.")
    }
}

pub(super) const SPIN: Question = Question {
    name: "spin",
    other_names: &["rcf", "centrifuge", "relative-centrifugal-force"],
    family: Family::Parting,
    summary: "What force does a rotor give, or how fast must it turn for a force",
    example: "spin --speed \"4000 rpm\" --radius \"10 cm\"",
    inputs: &[
        Input::required("radius", Dimension::Length, "from the axis to the place asked about"),
        Input::optional("speed", Dimension::RotationSpeed, "speed of the rotor, in rpm"),
        Input::optional("force", Dimension::Acceleration, "force wanted, in multiples of g"),
        ROTOR,
        RATED_SPEED,
    ],
    outputs: &[
        Output { key: "rcf_g", label: "relative centrifugal force", unit: "g" },
        Output { key: "acceleration_m_s2", label: "acceleration", unit: "m/s²" },
        Output { key: "speed_rpm", label: "speed", unit: "rpm" },
        Output { key: "rim_speed_m_s", label: "speed of the tube at that radius", unit: "m/s" },
    ],
    answer: spin,
};

fn spin(given: &Given) -> Result<Answer, CalcError> {
    let radius = given.length("radius");
    let speed = match (given.optional_rotation("speed"), given.optional_acceleration("force")) {
        (Some(speed), None) => speed,
        (None, Some(force)) => rotation_for_force(force, radius)?,
        _ => return Err(CalcError::combination("give either `speed` or `force`")),
    };
    refuse_unsafe(given, speed)?;
    let force = relative_force(speed, radius)?;
    let answer = Answer::new()
        .with("rcf_g", force.standard_gravities())
        .with("acceleration_m_s2", force.si())
        .with("speed_rpm", speed.rpm())
        .with("rim_speed_m_s", TAU * speed.turns_per_second() * radius.metres());
    Ok(with_cautions(answer, given))
}

pub(super) const PELLETING: Question = Question {
    name: "pelleting",
    other_names: &["spin-out", "spin-clear", "pellet"],
    family: Family::Parting,
    summary: "How long must a rotor spin until particles reach the end of the tube",
    example: "pelleting --speed \"4000 rpm\" --inner-radius \"8 cm\" --outer-radius \"15 cm\" --particle-diameter \"1 um\" --particle-density \"1050 kg/m3\" --liquid-density \"1000 kg/m3\" --liquid-viscosity \"1 mPa.s\" --time \"10 min\" --spread 2 --feed-solids \"6 %\"",
    inputs: &[
        Input::required("speed", Dimension::RotationSpeed, "speed of the rotor, in rpm"),
        Input::required("inner-radius", Dimension::Length, "from the axis to the liquid's surface"),
        Input::required("outer-radius", Dimension::Length, "from the axis to the tube's bottom"),
        PARTICLE_DIAMETER,
        PARTICLE_DENSITY,
        LIQUID_DENSITY,
        LIQUID_VISCOSITY,
        CROWDING,
        TIME,
        SPREAD,
        Input::optional(
            "feed-solids",
            Dimension::Fraction,
            "volume share of pulp in the feed, for the yield of clear liquid",
        ),
        ROTOR,
        RATED_SPEED,
    ],
    outputs: &[
        Output { key: "pelleting_time_s", label: "time for the last particle", unit: "s" },
        Output { key: "k_factor", label: "clearing factor of the rotor", unit: "h·S" },
        Output { key: "rcf_inner_g", label: "force at the surface", unit: "g" },
        Output { key: "rcf_outer_g", label: "force at the bottom", unit: "g" },
        CUT_SIZE,
        GONE_SIZE,
        LEFT,
        LEFT_MEDIAN,
        Output { key: "cake_solids_fraction", label: "solids in the packed pulp", unit: "" },
        Output { key: "clear_yield_fraction", label: "clear liquid over feed", unit: "" },
    ],
    answer: pelleting,
};

fn pelleting(given: &Given) -> Result<Answer, CalcError> {
    let particles = suspension(given);
    let rotation = given.rotation("speed");
    refuse_unsafe(given, rotation)?;
    let (inner, outer) = (given.length("inner-radius"), given.length("outer-radius"));
    let d = given.length("particle-diameter");
    let time = pelleting_time(d, &particles, rotation, inner, outer)?;
    let at_bottom = relative_force(rotation, outer)?;
    let answer = Answer::new()
        .with("pelleting_time_s", time.seconds())
        .with("k_factor", k_factor(rotation, inner, outer)?)
        .with("rcf_inner_g", relative_force(rotation, inner)?.standard_gravities())
        .with("rcf_outer_g", at_bottom.standard_gravities());
    let mut answer =
        with_rest(answer, given, &particles, Vessel::Rotor { rotation, inner, outer })?;
    if let Some(feed) = given.optional_number("feed-solids") {
        let cake = cake_solids_share(PULP_PACKING, at_bottom)?;
        answer = answer
            .with("cake_solids_fraction", cake)
            .with("clear_yield_fraction", clear_liquid_share(feed, cake)?)
            .remark("How tightly pulp packs is an estimate from ranges of common practice.");
    }
    Ok(with_cautions(answer, given))
}

pub(super) const EQUIVALENT_TIME: Question = Question {
    name: "equivalent-time",
    other_names: &["same-dose", "g-minutes"],
    family: Family::Parting,
    summary: "How long must a jar stand to do what a spin does",
    example: "equivalent-time --force \"1000 g\" --time \"10 min\"",
    inputs: &[
        Input::required("force", Dimension::Acceleration, "force of the spin, in multiples of g"),
        Input::required("time", Dimension::Time, "how long it spins"),
        Input::optional("speed", Dimension::RotationSpeed, "speed of a rotor to use instead"),
        Input::optional("radius", Dimension::Length, "radius of that rotor"),
    ],
    outputs: &[
        Output { key: "equivalent_1g_time_s", label: "time standing in a jar", unit: "s" },
        Output { key: "rotor_time_s", label: "time in the other rotor", unit: "s" },
    ],
    answer: equal_dose,
};

fn equal_dose(given: &Given) -> Result<Answer, CalcError> {
    let (force, time) = (given.acceleration("force"), given.time("time"));
    let standing = equivalent_time(force, time)?;
    let answer = Answer::new()
        .with("equivalent_1g_time_s", standing.seconds())
        .remark("Same depth of liquid, particles large enough not to be stirred by heat alone.");
    match (given.optional_rotation("speed"), given.optional_length("radius")) {
        (Some(speed), Some(radius)) => {
            let other = relative_force(speed, radius)?.standard_gravities();
            Ok(answer.with("rotor_time_s", standing.seconds() / other))
        }
        (None, None) => Ok(answer),
        _ => Err(CalcError::combination("give both `speed` and `radius` of the other rotor")),
    }
}
