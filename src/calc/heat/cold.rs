//! Questions about freezing and thawing.

use crate::calc::{Answer, CalcError, Family, Given, Input, Output, Question};
use crate::physics::freezing::{
    CrystalGrowth, FreezingSolid, FrontSolid, PHAM_PUBLISHED, PlankFactors, ThawingSolid,
    crystal_size_after_storage, crystal_size_from_rate, freezing_class, freezing_rate,
    freezing_time_pham, freezing_time_plank, heat_flow_dimensions, plank_factors, thawing_time,
};
use crate::physics::{PhysicsError, Validity};
use crate::quantity::{Dimension, Length, Speed, Temperature, Time};

const SHAPES: &[&str] = &["slab", "cylinder", "sphere", "brick"];
/// Centimetres per hour for one metre per second, exact.
const CM_PER_H: f64 = 360_000.0;
/// Latent heat and heat capacities of a food of three quarters water: [`crate::physics::food_thermal`].
const LATENT: &str = "250 kJ/kg";

/// How long freezing takes.
pub(super) const FREEZE_TIME: Question = Question {
    name: "freeze-time",
    other_names: &["freezing-time"],
    family: Family::HeatAndCold,
    summary: "How long a piece takes to freeze through, and how fast the front moves",
    example: "freeze-time --shape slab --thickness 20mm --heat-transfer \"150 W/(m2 K)\" --start 5C --surroundings -18C",
    inputs: &[
        Input::choice("shape", SHAPES, "form of the piece"),
        Input::required(
            "thickness",
            Dimension::Length,
            "thickness of a slab, diameter, shortest edge",
        ),
        Input::with_default(
            "ratio-1",
            Dimension::Fraction,
            "1",
            "second edge of a brick by the shortest",
        ),
        Input::with_default(
            "ratio-2",
            Dimension::Fraction,
            "1",
            "third edge of a brick by the shortest",
        ),
        Input::required(
            "heat-transfer",
            Dimension::HeatTransfer,
            "at the surface: still air 5-10, fan 15-30, stirred brine 150-400 W/(m² K)",
        ),
        Input::with_default(
            "conductivity-frozen",
            Dimension::Conductivity,
            "1.5 W/(m K)",
            "conductivity of the frozen food",
        ),
        Input::with_default("density", Dimension::Density, "1000 kg/m³", "density"),
        Input::with_default(
            "latent-heat",
            Dimension::SpecificEnergy,
            LATENT,
            "latent heat of the food",
        ),
        Input::with_default(
            "heat-capacity-unfrozen",
            Dimension::SpecificHeat,
            "3600 J/(kg K)",
            "heat capacity before freezing",
        ),
        Input::with_default(
            "heat-capacity-frozen",
            Dimension::SpecificHeat,
            "1900 J/(kg K)",
            "heat capacity after freezing",
        ),
        Input::with_default(
            "freezing-point",
            Dimension::Temperature,
            "-1 °C",
            "initial freezing point",
        ),
        Input::optional(
            "start",
            Dimension::Temperature,
            "temperature at the start; without it only Plank's time",
        ),
        Input::required(
            "surroundings",
            Dimension::Temperature,
            "temperature of the freezer, bath or plate",
        ),
        Input::with_default(
            "final-centre",
            Dimension::Temperature,
            "-10 °C",
            "temperature of the centre at the end",
        ),
    ],
    outputs: &[
        Output { key: "freezing_time_s", label: "from start to final centre, by Pham", unit: "s" },
        Output { key: "plank_time_s", label: "latent heat alone, by Plank", unit: "s" },
        Output { key: "freezing_rate_cm_h", label: "average speed of the front", unit: "cm/h" },
        Output { key: "crystal_size_um", label: "size of ice crystals, typical", unit: "µm" },
    ],
    answer: answer_freeze,
};

/// Plank's factors and the directions of heat flow of the shape.
fn geometry(given: &Given, biot: f64) -> Result<(PlankFactors, f64), PhysicsError> {
    Ok(match given.word("shape") {
        "cylinder" => (PlankFactors::CYLINDER, 2.0),
        "sphere" => (PlankFactors::SPHERE, 3.0),
        "brick" => {
            let (b1, b2) = (given.number("ratio-1"), given.number("ratio-2"));
            (plank_factors(b1, b2)?, heat_flow_dimensions(biot, b1, b2)?)
        }
        _ => (PlankFactors::SLAB, 1.0),
    })
}

fn answer_freeze(given: &Given) -> Result<Answer, CalcError> {
    let thickness = given.length("thickness");
    let half = thickness * 0.5;
    let (h, k) = (given.heat_transfer("heat-transfer"), given.conductivity("conductivity-frozen"));
    let (factors, dimensions) = geometry(given, h.si() * half.metres() / k.si())?;
    let surroundings = given.temperature("surroundings");
    let front = FrontSolid {
        thickness,
        factors,
        density: given.density("density"),
        latent_heat: given.specific_energy("latent-heat"),
        frozen_conductivity: k,
        heat_transfer: h,
        freezing_point: given.temperature("freezing-point"),
    };
    let plank = freezing_time_plank(&front, surroundings)?;
    let solid = FreezingSolid {
        half_thickness: half,
        dimensions,
        density: front.density,
        latent_heat: front.latent_heat,
        unfrozen_heat_capacity: given.specific_heat("heat-capacity-unfrozen"),
        frozen_heat_capacity: given.specific_heat("heat-capacity-frozen"),
        frozen_conductivity: k,
        heat_transfer: h,
    };
    let centre = given.temperature("final-centre");
    let pham = given
        .optional_temperature("start")
        .map(|start| freezing_time_pham(&solid, (start, centre), surroundings))
        .transpose()?;
    let rate = freezing_rate(half, plank)?;
    let size = crystal_size_from_rate(rate).ok().map(|[_, typical, _]| typical.micrometres());
    let answer = Answer::new()
        .with_optional("freezing_time_s", pham.map(Time::seconds))
        .with("plank_time_s", plank.seconds())
        .with("freezing_rate_cm_h", rate.metres_per_second() * CM_PER_H)
        .with_optional("crystal_size_um", size)
        .remark(format!("{} freezing", freezing_class(rate).name()));
    Ok(beyond_measurements(answer, surroundings))
}

fn beyond_measurements(answer: Answer, surroundings: Temperature) -> Answer {
    if PHAM_PUBLISHED.check(surroundings.celsius()).is_ok() {
        return answer;
    }
    let Validity { low, high, .. } = PHAM_PUBLISHED;
    answer.remark(format!("measurements behind the formula lie between {low} and {high} °C"))
}

/// Plank's factors of a brick.
pub(super) const PLANK_FACTORS: Question = Question {
    name: "plank-factors",
    other_names: &["plank-brick"],
    family: Family::HeatAndCold,
    summary: "Plank's shape factors of a brick, for its freezing time",
    example: "plank-factors --ratio-1 2 --ratio-2 3",
    inputs: &[
        Input::required("ratio-1", Dimension::Fraction, "second edge by the shortest"),
        Input::required("ratio-2", Dimension::Fraction, "third edge by the shortest"),
    ],
    outputs: &[
        Output { key: "plank_p", label: "factor of the surface", unit: "" },
        Output { key: "plank_r", label: "factor of the frozen layer", unit: "" },
    ],
    answer: |given| {
        let factors = plank_factors(given.number("ratio-1"), given.number("ratio-2"))?;
        Ok(Answer::new().with("plank_p", factors.p).with("plank_r", factors.r))
    },
};

/// How long thawing takes.
pub(super) const THAW: Question = Question {
    name: "thaw",
    other_names: &["thawing-time"],
    family: Family::HeatAndCold,
    summary: "How long a frozen piece takes to thaw to its centre",
    example: "thaw --shape slab --thickness 40mm --heat-transfer \"200 W/(m2 K)\" --start -18C --surroundings 10C",
    inputs: &[
        Input::choice("shape", &["slab", "cylinder", "sphere"], "form of the piece"),
        Input::required("thickness", Dimension::Length, "thickness or diameter"),
        Input::required(
            "heat-transfer",
            Dimension::HeatTransfer,
            "at the surface: running water 200-500, still air 5-10 W/(m² K)",
        ),
        Input::with_default(
            "conductivity-thawed",
            Dimension::Conductivity,
            "0.5 W/(m K)",
            "conductivity of the thawed food",
        ),
        Input::with_default("density", Dimension::Density, "1050 kg/m³", "density"),
        Input::with_default(
            "thawing-heat",
            Dimension::SpecificEnergy,
            "230 kJ/kg",
            "heat from -10 °C to 0 °C; `heat-to-change` gives it",
        ),
        Input::with_default(
            "heat-capacity-thawed",
            Dimension::SpecificHeat,
            "3500 J/(kg K)",
            "heat capacity of the thawed food",
        ),
        Input::with_default(
            "heat-capacity-frozen",
            Dimension::SpecificHeat,
            "2000 J/(kg K)",
            "heat capacity of the frozen food",
        ),
        Input::with_default(
            "freezing-point",
            Dimension::Temperature,
            "-1 °C",
            "initial freezing point",
        ),
        Input::required("start", Dimension::Temperature, "temperature of the frozen food"),
        Input::required("surroundings", Dimension::Temperature, "temperature of the water or air"),
    ],
    outputs: &[Output { key: "thawing_time_s", label: "until the centre is at 0 °C", unit: "s" }],
    answer: |given| {
        let solid = ThawingSolid {
            thickness: given.length("thickness"),
            dimensions: match given.word("shape") {
                "cylinder" => 2.0,
                "sphere" => 3.0,
                _ => 1.0,
            },
            density: given.density("density"),
            thawing_heat: given.specific_energy("thawing-heat"),
            unfrozen_heat_capacity: given.specific_heat("heat-capacity-thawed"),
            frozen_heat_capacity: given.specific_heat("heat-capacity-frozen"),
            unfrozen_conductivity: given.conductivity("conductivity-thawed"),
            heat_transfer: given.heat_transfer("heat-transfer"),
            freezing_point: given.temperature("freezing-point"),
        };
        let water = given.temperature("surroundings");
        let time = thawing_time(&solid, given.temperature("start"), water)?;
        let answer = Answer::new().with("thawing_time_s", time.seconds());
        Ok(if water.celsius() > THAWING_WATER_LIMIT {
            answer.remark("food codes ask for running water at 21 °C or colder when thawing; follow your local code")
        } else {
            answer
        })
    },
};

/// Warmest water for thawing [°C]: US FDA Food Code 2017, 3-501.13 (70 °F).
const THAWING_WATER_LIMIT: f64 = 21.2;

/// How large ice crystals become.
pub(super) const CRYSTAL_SIZE: Question = Question {
    name: "crystal-size",
    other_names: &["ice-crystals"],
    family: Family::HeatAndCold,
    summary: "How large ice crystals become, from the freezing rate and from storage",
    example: "crystal-size --thickness 20mm --time 30min --storage -15C --storage-time \"14 d\"",
    inputs: &[
        Input::optional("rate", Dimension::Speed, "speed of the freezing front, such as 1 cm/h"),
        Input::optional("thickness", Dimension::Length, "instead: thickness or diameter"),
        Input::optional("time", Dimension::Time, "and the time it froze in"),
        Input::optional("size", Dimension::Length, "instead: size of the crystals when drawn"),
        Input::optional("storage", Dimension::Temperature, "storage temperature, -25 °C to -5 °C"),
        Input::with_default("storage-time", Dimension::Time, "1 d", "time in storage"),
    ],
    outputs: &[
        Output { key: "freezing_rate_cm_h", label: "speed of the front", unit: "cm/h" },
        Output { key: "crystal_size_low_um", label: "size of ice crystals, low", unit: "µm" },
        Output { key: "crystal_size_um", label: "size of ice crystals, typical", unit: "µm" },
        Output { key: "crystal_size_high_um", label: "size of ice crystals, high", unit: "µm" },
        Output { key: "stored_size_low_um", label: "after storage, low", unit: "µm" },
        Output { key: "stored_size_um", label: "after storage, typical", unit: "µm" },
        Output { key: "stored_size_high_um", label: "after storage, high", unit: "µm" },
    ],
    answer: answer_crystals,
};

fn answer_crystals(given: &Given) -> Result<Answer, CalcError> {
    let mut answer = Answer::new();
    let sizes: [Length; 3] = if let Some(size) = given.optional_length("size") {
        [size; 3]
    } else {
        let rate = front_speed(given)?;
        answer = answer
            .with("freezing_rate_cm_h", rate.metres_per_second() * CM_PER_H)
            .remark(format!("{} freezing", freezing_class(rate).name()));
        crystal_size_from_rate(rate)?
    };
    let keys = ["crystal_size_low_um", "crystal_size_um", "crystal_size_high_um"];
    for (key, size) in keys.into_iter().zip(sizes) {
        answer = answer.with(key, size.micrometres());
    }
    if let Some(storage) = given.optional_temperature("storage") {
        let keys = ["stored_size_low_um", "stored_size_um", "stored_size_high_um"];
        let growth = CrystalGrowth::at(storage.celsius())?;
        for ((key, size), growth) in keys.into_iter().zip(sizes).zip(growth) {
            let stored = crystal_size_after_storage(size, growth, given.time("storage-time"))?;
            answer = answer.with(key, stored.micrometres());
        }
    }
    Ok(answer.remark("estimates: the laws are published, their scale is not; 50 µm feels coarse"))
}

fn front_speed(given: &Given) -> Result<Speed, CalcError> {
    if let Some(rate) = given.optional_number("rate") {
        return Ok(Speed::from_si(rate));
    }
    match (given.optional_length("thickness"), given.optional_time("time")) {
        (Some(thickness), Some(time)) => Ok(freezing_rate(thickness * 0.5, time)?),
        _ => Err(CalcError::combination("give `rate`, or `thickness` and `time`, or `size`")),
    }
}
