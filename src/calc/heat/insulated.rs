//! Questions about boxes that keep warm or cold.

use crate::calc::{Answer, CalcError, Family, Given, Input, Output, Question};
use crate::physics::conduction::{InsulatedBox, box_cooling};
use crate::quantity::{Dimension, Power, TemperatureDifference};

/// Heat capacity of water near 40 °C [J/(kg K)]: IAPWS-IF97, 40 °C and 101.325 kPa.
const WATER_HEAT_CAPACITY: &str = "4179 J/(kg K)";

/// A box that loses heat.
pub(super) const INSULATED_BOX: Question = Question {
    name: "insulated-box",
    other_names: &["cool-box", "haybox"],
    family: Family::HeatAndCold,
    summary: "How an insulated box of water and food keeps its temperature",
    example: "insulated-box --water 20kg --water-start 58C --food 2kg --food-start 5C --room 20C --loss 0.8 --time 4h",
    inputs: &[
        Input::required("water", Dimension::Mass, "mass of the water"),
        Input::required("water-start", Dimension::Temperature, "temperature of the water"),
        Input::with_default("food", Dimension::Mass, "0 kg", "mass of the food put in"),
        Input::optional(
            "food-start",
            Dimension::Temperature,
            "temperature of the food; as the water when left out",
        ),
        Input::with_default(
            "food-heat-capacity",
            Dimension::SpecificHeat,
            "3500 J/(kg K)",
            "heat capacity of the food",
        ),
        Input::with_default(
            "water-heat-capacity",
            Dimension::SpecificHeat,
            WATER_HEAT_CAPACITY,
            "heat capacity of the water",
        ),
        Input::required("room", Dimension::Temperature, "temperature of the room"),
        Input::with_default(
            "loss",
            Dimension::Fraction,
            "0.8",
            "loss through the walls in W/K: 25 L foam box 0.5 to 1.5, lidded pot 2 to 5 (estimate)",
        ),
        Input::required("time", Dimension::Time, "time that passes"),
        Input::with_default("heater", Dimension::Power, "0 W", "steady heating power"),
    ],
    outputs: &[
        Output { key: "mixed_temperature_c", label: "once water and food are even", unit: "°C" },
        Output { key: "end_temperature_c", label: "after the time", unit: "°C" },
        Output { key: "fall_k_per_h", label: "fall in the first hour without heater", unit: "K/h" },
        Output { key: "time_constant_s", label: "time to lose 63 % of the difference", unit: "s" },
        Output { key: "holding_power_w", label: "power that would hold it", unit: "W" },
    ],
    answer: answer_box,
};

fn answer_box(given: &Given) -> Result<Answer, CalcError> {
    let contents = InsulatedBox {
        water: given.mass("water"),
        water_heat_capacity: given.specific_heat("water-heat-capacity"),
        food: given.mass("food"),
        food_heat_capacity: given.specific_heat("food-heat-capacity"),
        loss_w_per_k: given.number("loss"),
        room: given.temperature("room"),
    };
    let water = given.temperature("water-start");
    let food = given.optional_temperature("food-start").unwrap_or(water);
    let mixed = contents.mixing_temperature(water, food)?;
    let end = box_cooling(&contents, mixed, given.power("heater"), given.time("time"))?;
    let hour = crate::quantity::Time::from_hours(1.0);
    let fall: TemperatureDifference = mixed - box_cooling(&contents, mixed, Power::ZERO, hour)?;
    Ok(Answer::new()
        .with("mixed_temperature_c", mixed.celsius())
        .with("end_temperature_c", end.celsius())
        .with("fall_k_per_h", fall.kelvin())
        .with("time_constant_s", contents.time_constant()?.seconds())
        .with("holding_power_w", contents.holding_power(mixed).watts())
        .remark("water and food are taken as even at once; a thick piece lags behind"))
}
