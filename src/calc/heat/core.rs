//! Questions about heat on its way into food.

use crate::calc::{Answer, CalcError, Family, Given, Input, Kind, Need, Output, Question};
use crate::physics::PhysicsError;
use crate::physics::conduction::{
    Exposure, Position, Shape, Solid, dimensionless_temperature, eigenvalue, surface_layer_depth,
    surface_layer_temperature,
};
use crate::quantity::{Dimension, Length};

const SHAPES: &[&str] = &["slab", "cylinder", "sphere", "finite-cylinder", "brick"];
/// Form of the piece.
pub(super) const SHAPE: Input = Input::choice("shape", SHAPES, "form of the piece");
/// Thickness or diameter.
pub(super) const THICKNESS: Input =
    Input::optional("thickness", Dimension::Length, "thickness of a slab, diameter, shortest edge");
/// Half of it.
pub(super) const HALF: Input = Input::optional(
    "half-thickness",
    Dimension::Length,
    "instead: half the thickness, or the radius",
);
/// Second edge.
pub(super) const BREADTH: Input =
    Input::optional("breadth", Dimension::Length, "second edge of a brick");
/// Third edge.
pub(super) const LENGTH: Input = Input::optional(
    "length",
    Dimension::Length,
    "third edge of a brick, length of a finite cylinder",
);
/// Thermal diffusivity.
pub(super) const DIFFUSIVITY: Input = Input::with_default(
    "diffusivity",
    Dimension::Diffusivity,
    "1.4e-7 m²/s",
    "thermal diffusivity of the food; `thermal` gives it",
);
/// Thermal conductivity.
pub(super) const CONDUCTIVITY: Input = Input::with_default(
    "conductivity",
    Dimension::Conductivity,
    "0.5 W/(m K)",
    "thermal conductivity of the food",
);
const TRANSFER: Input = Input::optional(
    "heat-transfer",
    Dimension::HeatTransfer,
    "at the surface; left out, the surface takes the surroundings' temperature at once",
);
const START: Input =
    Input::required("start", Dimension::Temperature, "temperature of the food at the start");
const SURROUNDINGS: Input = Input {
    name: "surroundings",
    kind: Kind::Amount(Dimension::Temperature),
    need: Need::Required,
    help: "temperature of the bath, oven, fridge or ice slurry",
};

/// Half the thickness, from either input.
fn half_thickness(given: &Given) -> Result<Length, CalcError> {
    match (given.optional_length("half-thickness"), given.optional_length("thickness")) {
        (Some(half), None) => Ok(half),
        (None, Some(whole)) => Ok(whole * 0.5),
        _ => Err(CalcError::combination("give either `thickness` or `half-thickness`")),
    }
}

fn edge(given: &Given, name: &'static str) -> Result<Length, CalcError> {
    let missing = || CalcError::combination(format!("this shape needs `{name}`"));
    given.optional_length(name).map(|whole| whole * 0.5).ok_or_else(missing)
}

/// The solid that shape and sizes describe.
pub(super) fn solid(given: &Given) -> Result<Solid, CalcError> {
    let half = half_thickness(given)?;
    Ok(match given.word("shape") {
        "cylinder" => Solid::Cylinder(half),
        "sphere" => Solid::Sphere(half),
        "finite-cylinder" => Solid::Can(half, edge(given, "length")?),
        "brick" => Solid::Brick(half, edge(given, "breadth")?, edge(given, "length")?),
        _ => Solid::Slab(half),
    })
}

fn exposure(given: &Given) -> Result<Exposure, CalcError> {
    Ok(Exposure {
        solid: solid(given)?,
        diffusivity: given.diffusivity("diffusivity"),
        conductivity: given.conductivity("conductivity"),
        heat_transfer: given.optional_heat_transfer("heat-transfer"),
        start: given.temperature("start"),
        surroundings: given.temperature("surroundings"),
    })
}

/// How warm a piece is after a time.
pub(super) const CORE_TEMPERATURE: Question = Question {
    name: "core-temperature",
    other_names: &["inside-temperature"],
    family: Family::HeatAndCold,
    summary: "How warm or cold the inside of a piece is after a time",
    example: "core-temperature --shape slab --thickness 30mm --start 5C --surroundings 60C --heat-transfer \"200 W/(m2 K)\" --time 45min",
    inputs: &[
        SHAPE,
        THICKNESS,
        HALF,
        BREADTH,
        LENGTH,
        DIFFUSIVITY,
        CONDUCTIVITY,
        TRANSFER,
        START,
        SURROUNDINGS,
        Input::required("time", Dimension::Time, "time in the surroundings"),
    ],
    outputs: &[
        Output { key: "core_temperature_c", label: "core", unit: "°C" },
        Output { key: "mean_temperature_c", label: "average over the volume", unit: "°C" },
        Output {
            key: "surface_temperature_c",
            label: "surface; edge or corner of a can or brick",
            unit: "°C",
        },
        Output {
            key: "change_left_fraction",
            label: "share of the change still to come at the core",
            unit: "",
        },
    ],
    answer: |given| {
        let exposure = exposure(given)?;
        let time = given.time("time");
        let at = |place| exposure.temperature(time, place);
        let core = at(Position::Centre)?;
        let range = (exposure.start - exposure.surroundings).kelvin();
        let left =
            if range.abs() > 0.0 { (core - exposure.surroundings).kelvin() / range } else { 0.0 };
        Ok(Answer::new()
            .with("core_temperature_c", core.celsius())
            .with("mean_temperature_c", at(Position::Mean)?.celsius())
            .with("surface_temperature_c", at(Position::Surface)?.celsius())
            .with("change_left_fraction", left))
    },
};

/// When a core reaches a temperature.
pub(super) const CORE_TIME: Question = Question {
    name: "core-time",
    other_names: &["time-to-core", "come-up-time"],
    family: Family::HeatAndCold,
    summary: "How long until the core of a piece is hot or cold enough",
    example: "core-time --shape slab --thickness 30mm --start 60C --surroundings 0.5C --heat-transfer \"500 W/(m2 K)\" --target 5C",
    inputs: &[
        SHAPE,
        THICKNESS,
        HALF,
        BREADTH,
        LENGTH,
        DIFFUSIVITY,
        CONDUCTIVITY,
        TRANSFER,
        START,
        SURROUNDINGS,
        Input::required("target", Dimension::Temperature, "temperature that the core must reach"),
    ],
    outputs: &[
        Output { key: "time_s", label: "time until the core is there", unit: "s" },
        Output { key: "mean_temperature_c", label: "average over the volume by then", unit: "°C" },
        Output { key: "surface_temperature_c", label: "surface by then", unit: "°C" },
    ],
    answer: |given| {
        let exposure = exposure(given)?;
        let time = exposure.time_to_core(given.temperature("target"))?;
        let at = |place| exposure.temperature(time, place);
        Ok(Answer::new()
            .with("time_s", time.seconds())
            .with("mean_temperature_c", at(Position::Mean)?.celsius())
            .with("surface_temperature_c", at(Position::Surface)?.celsius())
            .remark("nothing freezes, thaws or boils on the way; measure the core all the same"))
    },
};

const POSITIONS: &[&str] = &["centre", "surface", "mean"];

/// A plain number or "inf".
fn number(given: &Given, name: &'static str) -> Result<Option<f64>, CalcError> {
    let text = given.word(name).trim();
    match text.to_lowercase().as_str() {
        "" => Ok(None),
        "inf" | "infinite" | "infinity" | "∞" => Ok(Some(f64::INFINITY)),
        plain => plain.parse().map(Some).map_err(|_| CalcError::UnknownWord {
            name,
            word: text.to_owned(),
            help: "write a number, or `inf` for a fixed surface temperature".to_owned(),
        }),
    }
}

const fn group(name: &'static str, help: &'static str) -> Input {
    Input { name, kind: Kind::Text, need: Need::Optional, help }
}

/// The series without dimensions.
pub(super) const CONDUCTION: Question = Question {
    name: "conduction",
    other_names: &["heisler", "dimensionless-temperature"],
    family: Family::HeatAndCold,
    summary: "Share of a temperature change still to come, from Biot and Fourier number",
    example: "conduction --shape sphere --biot 2 --fourier 0.3 --position centre",
    inputs: &[
        SHAPE,
        Input {
            name: "biot",
            kind: Kind::Text,
            need: Need::Required,
            help: "h L / k with half thickness or radius, or `inf`",
        },
        Input::optional("fourier", Dimension::Fraction, "a t / L² with half thickness or radius"),
        Input::choice("position", POSITIONS, "where in the piece"),
        Input::optional(
            "place",
            Dimension::Fraction,
            "instead: distance from the centre as a share, 0 to 1",
        ),
        group("biot-2", "of the half length of a finite cylinder, or of the second edge"),
        Input::optional("fourier-2", Dimension::Fraction, "belongs to biot-2"),
        group("biot-3", "of the third edge of a brick"),
        Input::optional("fourier-3", Dimension::Fraction, "belongs to biot-3"),
    ],
    outputs: &[
        Output {
            key: "dimensionless_temperature",
            label: "share of the change still to come",
            unit: "",
        },
        Output {
            key: "first_eigenvalue",
            label: "first eigenvalue of the first direction",
            unit: "",
        },
        Output {
            key: "second_eigenvalue",
            label: "second eigenvalue of the first direction",
            unit: "",
        },
    ],
    answer: answer_conduction,
};

fn answer_conduction(given: &Given) -> Result<Answer, CalcError> {
    let missing = |what| CalcError::combination(format!("this shape needs {what}"));
    let (first, others) = match given.word("shape") {
        "cylinder" => (Shape::Cylinder, 0),
        "sphere" => (Shape::Sphere, 0),
        "finite-cylinder" => (Shape::Cylinder, 1),
        "brick" => (Shape::Slab, 2),
        _ => (Shape::Slab, 0),
    };
    let biot = number(given, "biot")?.ok_or_else(|| missing("`biot`"))?;
    let answer = Answer::new();
    let eigenvalues = |answer: Answer| -> Result<Answer, PhysicsError> {
        Ok(answer
            .with("first_eigenvalue", eigenvalue(first, biot, 1)?)
            .with("second_eigenvalue", eigenvalue(first, biot, 2)?))
    };
    let Some(fourier) = given.optional_number("fourier") else {
        return Ok(eigenvalues(answer)?);
    };
    let place = match (given.optional_number("place"), given.word("position")) {
        (Some(place), _) => Position::At(place),
        (None, "surface") => Position::Surface,
        (None, "mean") => Position::Mean,
        (None, _) => Position::Centre,
    };
    let mut theta = dimensionless_temperature(first, biot, fourier, place)?;
    for (b, f) in [("biot-2", "fourier-2"), ("biot-3", "fourier-3")].into_iter().take(others) {
        let biot = number(given, b)?.ok_or_else(|| missing("`biot-2`; a brick `biot-3` too"))?;
        let fourier = given
            .optional_number(f)
            .ok_or_else(|| missing("`fourier-2`; a brick `fourier-3` too"))?;
        theta *= dimensionless_temperature(Shape::Slab, biot, fourier, place)?;
    }
    Ok(eigenvalues(answer.with("dimensionless_temperature", theta))?)
}

/// How deep a sear reaches.
pub(super) const SEAR_DEPTH: Question = Question {
    name: "sear-depth",
    other_names: &["grey-band"],
    family: Family::HeatAndCold,
    summary: "How deep a hot surface cooks into a thick piece",
    example: "sear-depth --start 5C --surface 100C --limit 60C --time 60s",
    inputs: &[
        START,
        Input::with_default(
            "surface",
            Dimension::Temperature,
            "100 °C",
            "temperature of the surface: 100 °C while it is wet",
        ),
        Input::with_default(
            "limit",
            Dimension::Temperature,
            "60 °C",
            "temperature that counts as cooked",
        ),
        Input::required("time", Dimension::Time, "time on the heat"),
        DIFFUSIVITY,
        Input::optional("depth", Dimension::Length, "also give the temperature at this depth"),
    ],
    outputs: &[
        Output { key: "depth_m", label: "depth past the limit", unit: "m" },
        Output {
            key: "temperature_at_depth_c",
            label: "temperature at the depth asked for",
            unit: "°C",
        },
    ],
    answer: |given| {
        let range = (given.temperature("start"), given.temperature("surface"));
        let (a, time) = (given.diffusivity("diffusivity"), given.time("time"));
        let depth = surface_layer_depth(range, given.temperature("limit"), a, time)?;
        let answer = Answer::new().with("depth_m", depth.metres());
        let at = given.optional_length("depth");
        let there = at.map(|depth| surface_layer_temperature(range, depth, a, time)).transpose()?;
        Ok(answer
            .with_optional(
                "temperature_at_depth_c",
                there.map(crate::quantity::Temperature::celsius),
            )
            .remark("the surface stays near 100 °C until it has dried; then the band grows faster"))
    },
};
