//! Questions about liquid nitrogen, its like, and dry ice.

use super::super::{Answer, CalcError, Family, Given, Input, Output, Question};
use crate::physics::constants::STANDARD_ATMOSPHERE;
use crate::physics::cryogen::{self, Cryogen, FoodCooling, Gas};
use crate::quantity::{
    Dimension, Energy, Mass, Pressure, SpecificEnergy, Temperature, Time, Volume,
};

/// Food colder than this is not for handing over, nor for bare hands [°C]: FDA safety alert on
/// liquid nitrogen and dry ice in food, 2018, warns of injury from very cold food without a number;
/// the number is an estimate.
const TOO_COLD_TO_SERVE: f64 = -30.0;

/// What a liquefied gas holds.
pub(super) const CRYOGEN: Question = Question {
    name: "cryogen",
    other_names: &["liquefied-gas", "liquid-gas"],
    family: Family::Gases,
    summary: "How cold a liquefied gas is, and how much heat a kilogram takes up",
    example: "cryogen --liquid nitrogen --leaving-temperature \"-50 °C\"",
    inputs: &[
        Input::choice("liquid", &["nitrogen", "oxygen", "argon"], "Which liquefied gas"),
        Input::with_default(
            "leaving-temperature",
            Dimension::Temperature,
            "20 °C",
            "Temperature at which its gas leaves the food",
        ),
        Input::with_default("pressure", Dimension::Pressure, "101.325 kPa", "Air pressure"),
    ],
    outputs: &[
        Output { key: "boiling_point_c", label: "boils", unit: "°C" },
        Output { key: "latent_heat_vaporisation_j_kg", label: "heat of boiling", unit: "J/kg" },
        Output { key: "vapour_sensible_heat_j_kg", label: "heat of its cold gas", unit: "J/kg" },
        Output { key: "total_cooling_capacity_j_kg", label: "both together", unit: "J/kg" },
        Output { key: "liquid_density_kg_m3", label: "density of the liquid", unit: "kg/m³" },
        Output { key: "expansion_ratio", label: "litres of gas per litre, 20 °C", unit: "" },
    ],
    answer: cryogen_question,
};

fn liquid_named(word: &str) -> (Cryogen, Gas) {
    match word {
        "oxygen" => (Cryogen::Oxygen, Gas::Oxygen),
        "argon" => (Cryogen::Argon, Gas::Argon),
        _ => (Cryogen::Nitrogen, Gas::Nitrogen),
    }
}

fn gas_volume(gas: Gas) -> Result<f64, CalcError> {
    const ROOM: Temperature = Temperature::from_celsius(20.0);
    let pressure = Pressure::from_pascals(STANDARD_ATMOSPHERE);
    Ok(cryogen::specific_volume(gas, ROOM, pressure)?)
}

fn cryogen_question(given: &Given) -> Result<Answer, CalcError> {
    let (liquid, gas) = liquid_named(given.word("liquid"));
    let leaving = given.temperature("leaving-temperature");
    let density = cryogen::liquid_density(liquid).si();
    let answer = Answer::new()
        .with(
            "boiling_point_c",
            cryogen::boiling_point(liquid, given.pressure("pressure"))?.celsius(),
        )
        .with("latent_heat_vaporisation_j_kg", cryogen::latent_heat(liquid).si())
        .with("vapour_sensible_heat_j_kg", cryogen::vapour_sensible_heat(liquid, leaving)?.si())
        .with("total_cooling_capacity_j_kg", cryogen::cooling_capacity(liquid, leaving)?.si())
        .with("liquid_density_kg_m3", density)
        .with("expansion_ratio", density * gas_volume(gas)?);
    let remark = match liquid {
        Cryogen::Oxygen => "liquid oxygen makes fat and cloth burn like powder: never in a kitchen",
        Cryogen::Nitrogen | Cryogen::Argon => {
            "its gas displaces oxygen and cannot be smelled: see `room-gas`; a closed vessel bursts"
        }
    };
    Ok(answer.remark(remark))
}

const FOOD_INPUTS: [Input; 8] = [
    Input::with_default("food", Dimension::Mass, "1 kg", "Mass of the food"),
    Input::with_default("start", Dimension::Temperature, "20 °C", "Food at the start"),
    Input::with_default("end", Dimension::Temperature, "-18 °C", "Food at the end"),
    Input::with_default(
        "heat-capacity",
        Dimension::SpecificHeat,
        "3600 J/(kg K)",
        "Of the food above freezing",
    ),
    Input::with_default(
        "latent-heat",
        Dimension::SpecificEnergy,
        "250 kJ/kg",
        "Given off when its water freezes, per mass of food",
    ),
    Input::with_default(
        "frozen-heat-capacity",
        Dimension::SpecificHeat,
        "1900 J/(kg K)",
        "Of the food below freezing",
    ),
    Input::with_default("freezing-point", Dimension::Temperature, "-1 °C", "Where it freezes"),
    Input::with_default(
        "share-used",
        Dimension::Fraction,
        "100 %",
        "Share of the cold that reaches the food; 30 to 60 % is usual by hand",
    ),
];

fn food_heat(given: &Given) -> Result<Energy, CalcError> {
    let food = FoodCooling {
        mass: given.mass("food"),
        start: given.temperature("start"),
        end: given.temperature("end"),
        freezing_point: given.temperature("freezing-point"),
        heat_capacity: given.specific_heat("heat-capacity"),
        frozen_heat_capacity: given.specific_heat("frozen-heat-capacity"),
        latent_heat: given.specific_energy("latent-heat"),
    };
    Ok(food.heat()?)
}

fn cold_food_remark(answer: Answer, given: &Given) -> Answer {
    if given.temperature("end").celsius() < TOO_COLD_TO_SERVE {
        answer.remark("food this cold burns mouth and hands: let it warm above -20 °C to serve")
    } else {
        answer
    }
}

/// How much liquid nitrogen a food needs.
pub(super) const NITROGEN: Question = Question {
    name: "nitrogen",
    other_names: &["liquid-nitrogen", "cryogen-needed", "nitrogen-freezing"],
    family: Family::Gases,
    summary: "How much liquid nitrogen cools or freezes a food",
    example: "nitrogen --food \"1 kg\" --start \"4 °C\" --end \"-8 °C\" --latent-heat \"200 kJ/kg\"",
    inputs: &[
        FOOD_INPUTS[0],
        FOOD_INPUTS[1],
        FOOD_INPUTS[2],
        FOOD_INPUTS[3],
        FOOD_INPUTS[4],
        FOOD_INPUTS[5],
        FOOD_INPUTS[6],
        FOOD_INPUTS[7],
        Input::with_default(
            "leaving-temperature",
            Dimension::Temperature,
            "200 K",
            "Temperature at which the gas leaves",
        ),
    ],
    outputs: &[
        Output { key: "liquid_nitrogen_kg", label: "liquid nitrogen", unit: "kg" },
        Output { key: "liquid_nitrogen_l", label: "the same by volume", unit: "L" },
        Output { key: "gas_volume_m3", label: "gas set free, 20 °C", unit: "m³" },
        Output { key: "heat_removed_j", label: "heat taken out", unit: "J" },
    ],
    answer: nitrogen,
};

fn nitrogen(given: &Given) -> Result<Answer, CalcError> {
    let heat = food_heat(given)?;
    let leaving = given.temperature("leaving-temperature");
    let capacity = cryogen::cooling_capacity(Cryogen::Nitrogen, leaving)?;
    let needed = cryogen::cryogen_needed(heat, capacity, given.number("share-used"))?;
    let volume: Volume = needed / cryogen::liquid_density(Cryogen::Nitrogen);
    let answer = Answer::new()
        .with("liquid_nitrogen_kg", needed.kilograms())
        .with("liquid_nitrogen_l", volume.litres())
        .with("gas_volume_m3", needed.kilograms() * gas_volume(Gas::Nitrogen)?)
        .with("heat_removed_j", heat.joules())
        .remark("trained people with vented vessels only; check the air with `room-gas`")
        .remark("no liquid may be left when the food is served: swallowed, it tears the stomach");
    Ok(cold_food_remark(answer, given))
}

/// How cold dry ice is and how much a food needs.
pub(super) const DRY_ICE: Question = Question {
    name: "dry-ice",
    other_names: &["solid-carbon-dioxide", "carbon-dioxide-ice"],
    family: Family::Gases,
    summary: "How cold dry ice is, and how much of it cools or freezes a food",
    example: "dry-ice --food \"1 kg\" --start \"4 °C\" --end \"-8 °C\" --latent-heat \"200 kJ/kg\"",
    inputs: &[
        FOOD_INPUTS[0],
        FOOD_INPUTS[1],
        FOOD_INPUTS[2],
        FOOD_INPUTS[3],
        FOOD_INPUTS[4],
        FOOD_INPUTS[5],
        FOOD_INPUTS[6],
        FOOD_INPUTS[7],
        Input::with_default(
            "leaving-temperature",
            Dimension::Temperature,
            "-30 °C",
            "Temperature at which the gas leaves",
        ),
        Input::with_default(
            "pressure",
            Dimension::Pressure,
            "101.325 kPa",
            "Pressure of its own gas around it",
        ),
    ],
    outputs: &[
        Output { key: "sublimation_temperature_c", label: "dry ice", unit: "°C" },
        Output { key: "sublimation_heat_j_kg", label: "heat of subliming", unit: "J/kg" },
        Output { key: "total_cooling_capacity_j_kg", label: "with its cold gas", unit: "J/kg" },
        Output { key: "dry_ice_kg", label: "dry ice for the food", unit: "kg" },
        Output { key: "gas_volume_m3", label: "gas set free, 20 °C", unit: "m³" },
        Output { key: "heat_removed_j", label: "heat taken out", unit: "J" },
    ],
    answer: dry_ice,
};

fn dry_ice(given: &Given) -> Result<Answer, CalcError> {
    let heat = food_heat(given)?;
    let capacity = cryogen::dry_ice_cooling_capacity(given.temperature("leaving-temperature"))?;
    let needed = cryogen::cryogen_needed(heat, capacity, given.number("share-used"))?;
    let temperature = cryogen::sublimation_temperature(given.pressure("pressure"))?;
    let answer = Answer::new()
        .with("sublimation_temperature_c", temperature.celsius())
        .with("sublimation_heat_j_kg", cryogen::sublimation_heat().si())
        .with("total_cooling_capacity_j_kg", capacity.si())
        .with("dry_ice_kg", needed.kilograms())
        .with("gas_volume_m3", needed.kilograms() * gas_volume(Gas::CarbonDioxide)?)
        .with("heat_removed_j", heat.joules())
        .remark("never in a closed vessel: it bursts; check the air with `room-gas`; wear gloves")
        .remark("no dry ice may be left in what is eaten or drunk");
    Ok(cold_food_remark(answer, given))
}

/// How fast dry ice or liquid nitrogen goes.
pub(super) const COLD_LOSS: Question = Question {
    name: "cold-loss",
    other_names: &["cryogen-loss", "dry-ice-box", "dewar"],
    family: Family::Gases,
    summary: "How much dry ice or liquid nitrogen is left after a time",
    example: "cold-loss --of dry-ice --mass \"4.5 kg\" --time \"12 h\" --loss-per-day \"50 %\"",
    inputs: &[
        Input::choice("of", &["dry-ice", "nitrogen"], "What is kept"),
        Input::required("mass", Dimension::Mass, "Mass at the start"),
        Input::required("time", Dimension::Time, "How long it is kept"),
        Input::optional("loss-per-day", Dimension::Fraction, "Share lost in a day"),
        Input::optional("wall-area", Dimension::Area, "Instead: inner surface of the box"),
        Input::with_default("wall-thickness", Dimension::Length, "40 mm", "Of the insulation"),
        Input::with_default(
            "wall-conductivity",
            Dimension::Conductivity,
            "0.035 W/(m K)",
            "Of the insulation; foam 0.03 to 0.04",
        ),
        Input::with_default("room", Dimension::Temperature, "20 °C", "Air outside"),
    ],
    outputs: &[
        Output { key: "mass_left_kg", label: "left", unit: "kg" },
        Output { key: "mass_lost_kg", label: "gone", unit: "kg" },
        Output { key: "loss_rate_kg_day", label: "loss at the start", unit: "kg/d" },
        Output { key: "gas_volume_m3", label: "gas set free, 20 °C", unit: "m³" },
    ],
    answer: cold_loss,
};

fn cold_loss(given: &Given) -> Result<Answer, CalcError> {
    let (mass, time) = (given.mass("mass"), given.time("time"));
    let day = Time::from_days(1.0);
    let nitrogen = given.word("of") == "nitrogen";
    let gas = if nitrogen { Gas::Nitrogen } else { Gas::CarbonDioxide };
    let (left, rate) =
        match (given.optional_number("loss-per-day"), given.optional_area("wall-area")) {
            (Some(share), None) => {
                let left = cryogen::mass_after_losses(mass, (share, day), time)?;
                let rate = mass.kilograms() * -(1.0 - share).ln();
                (left, rate)
            }
            (None, Some(area)) => {
                let (inside, latent) = kept_cold(nitrogen)?;
                let flow = cryogen::loss_through_walls(
                    (area, given.length("wall-thickness")),
                    given.conductivity("wall-conductivity"),
                    (inside, given.temperature("room")),
                    latent,
                )?;
                ((mass - flow * time).max(Mass::ZERO), (flow * day).kilograms())
            }
            _ => return Err(CalcError::combination("give `loss-per-day` or `wall-area`")),
        };
    let lost = (mass - left).kilograms();
    Ok(Answer::new()
        .with("mass_left_kg", left.kilograms())
        .with("mass_lost_kg", lost)
        .with("loss_rate_kg_day", rate)
        .with("gas_volume_m3", lost * gas_volume(gas)?)
        .remark("the lid must let gas out; not in a bedroom or a closed car"))
}

fn kept_cold(nitrogen: bool) -> Result<(Temperature, SpecificEnergy), CalcError> {
    let pressure = Pressure::from_pascals(STANDARD_ATMOSPHERE);
    Ok(if nitrogen {
        let boiling = cryogen::boiling_point(Cryogen::Nitrogen, pressure)?;
        (boiling, cryogen::latent_heat(Cryogen::Nitrogen))
    } else {
        (cryogen::sublimation_temperature(pressure)?, cryogen::sublimation_heat())
    })
}
