//! Questions about boiling, steam, ice and air pressure.

use super::{Answer, CalcError, Family, Given, Input, Output, Question};
use crate::physics::atmosphere::{
    HumidAir, altitude_of_pressure, atmospheric_pressure, boiling_point_at_altitude,
};
use crate::physics::{ice, water};
use crate::quantity::{Dimension, Measures, Pressure, find_unit};

/// The questions of this file.
pub const QUESTIONS: &[Question] = &[BOIL, BOILING_PRESSURE, WATER, ALTITUDE, ICE, ICE_VACUUM, AIR];

const fn out(key: &'static str, label: &'static str, unit: &'static str) -> Output {
    Output { key, label, unit }
}

const BOIL: Question = Question {
    name: "boil",
    other_names: &["boiling-point", "steam", "saturation-temperature"],
    family: Family::WaterAndAir,
    summary: "At what temperature does water boil under this pressure, or at this altitude",
    example: "boil --pressure \"60 mbar\"",
    inputs: &[
        Input::optional("pressure", Dimension::Pressure, "absolute pressure, as under a vacuum"),
        Input::optional(
            "altitude",
            Dimension::Length,
            "height above the sea, instead of a pressure",
        ),
        Input::optional(
            "gauge-pressure",
            Dimension::Pressure,
            "pressure above the surroundings, as on a pressure cooker",
        ),
    ],
    outputs: &[
        out("boiling_point_c", "boiling point of water", "°C"),
        out("pressure_pa", "absolute pressure", "Pa"),
        out("latent_heat_vaporisation_j_kg", "heat to boil off", "J/kg"),
        out("saturated_vapour_density_kg_m3", "density of the steam", "kg/m³"),
    ],
    answer: boil,
};

fn boil(given: &Given) -> Result<Answer, CalcError> {
    /// Gauge pressure from which trapped air matters \[Pa\]: common practice, low setting of a cooker.
    const COOKER: f64 = 20e3;
    let gauge = given.optional_pressure("gauge-pressure");
    let pressure = surroundings(given)? + gauge.unwrap_or(Pressure::ZERO);
    if pressure < TRIPLE_POINT {
        let message = "below 6.12 mbar water freezes before it boils: ask `ice-under-vacuum`";
        return Err(CalcError::combination(message));
    }
    let temperature = water::saturation_temperature(pressure)?;
    let answer = Answer::new()
        .with("boiling_point_c", temperature.celsius())
        .with("pressure_pa", pressure.pascals())
        .with("latent_heat_vaporisation_j_kg", water::latent_heat_vaporisation(temperature)?.si())
        .with("saturated_vapour_density_kg_m3", water::saturated_vapour_density(temperature)?.si());
    Ok(if gauge.is_some_and(|p| p.pascals() > COOKER) {
        answer
            .remark("air left in the cooker lowers this temperature: vent for 10 min first (USDA)")
    } else {
        answer
    })
}

/// The pressure around a pot: as given, or that of the altitude, or of sea level.
fn surroundings(given: &Given) -> Result<Pressure, CalcError> {
    match (given.optional_pressure("pressure"), given.optional_length("altitude")) {
        (Some(_), Some(_)) => {
            Err(CalcError::combination("give either `pressure` or `altitude`, not both"))
        }
        (Some(pressure), None) => Ok(pressure),
        (None, Some(altitude)) => Ok(atmospheric_pressure(altitude)?),
        (None, None) => Ok(SEA_LEVEL),
    }
}

/// Pressure at which ice, water and vapour meet: IAPWS R14-08(2011).
const TRIPLE_POINT: Pressure = Pressure::from_pascals(611.657);
/// Standard atmosphere: CGPM 1954.
const SEA_LEVEL: Pressure = Pressure::from_pascals(crate::physics::constants::STANDARD_ATMOSPHERE);

const BOILING_PRESSURE: Question = Question {
    name: "boiling-pressure",
    other_names: &["vacuum-for", "pressure-for", "gauge"],
    family: Family::WaterAndAir,
    summary: "What pressure or vacuum makes water boil at this temperature",
    example: "boiling-pressure --temperature \"40 °C\"",
    inputs: &[
        Input::required("temperature", Dimension::Temperature, "boiling point wanted"),
        Input::with_default("altitude", Dimension::Length, "0 m", "height above the sea"),
    ],
    outputs: &[
        out("saturation_pressure_pa", "absolute pressure", "Pa"),
        out("gauge_pressure_pa", "pressure above the surroundings; below zero a vacuum", "Pa"),
        out("gauge_pressure_psi", "the same on a gauge in psi", "psi"),
    ],
    answer: boiling_pressure,
};

fn boiling_pressure(given: &Given) -> Result<Answer, CalcError> {
    let pressure = water::saturation_pressure(given.temperature("temperature"))?;
    let gauge = pressure - atmospheric_pressure(given.length("altitude"))?;
    let psi = find_unit("psi", Dimension::Pressure, Measures::default());
    Ok(Answer::new()
        .with("saturation_pressure_pa", pressure.pascals())
        .with("gauge_pressure_pa", gauge.pascals())
        .with_optional("gauge_pressure_psi", psi.map(|unit| unit.from_si(gauge.pascals()))))
}

const WATER: Question = Question {
    name: "water",
    other_names: &["water-properties"],
    family: Family::WaterAndAir,
    summary: "How heavy, thick, hot and conducting is water at this temperature",
    example: "water --temperature \"60 °C\"",
    inputs: &[
        Input::required("temperature", Dimension::Temperature, "temperature of the water"),
        Input::optional(
            "pressure",
            Dimension::Pressure,
            "absolute pressure; otherwise 1 atm, or the boiling pressure where that is higher",
        ),
        Input::optional(
            "density",
            Dimension::Density,
            "density at which viscosity and conductivity are wanted, instead of a pressure",
        ),
    ],
    outputs: &[
        out("saturation_pressure_pa", "pressure of its vapour", "Pa"),
        out("latent_heat_vaporisation_j_kg", "heat to boil off", "J/kg"),
        out("saturated_vapour_density_kg_m3", "density of its saturated vapour", "kg/m³"),
        out("liquid_density_kg_m3", "density", "kg/m³"),
        out("liquid_heat_capacity_j_kgk", "heat capacity", "J/(kg K)"),
        out("liquid_enthalpy_j_kg", "heat content above the triple point", "J/kg"),
        out("liquid_viscosity_pa_s", "viscosity", "Pa·s"),
        out("liquid_thermal_conductivity_w_mk", "thermal conductivity", "W/(m K)"),
        out("surface_tension_n_m", "surface tension", "N/m"),
    ],
    answer: water_properties,
};

fn water_properties(given: &Given) -> Result<Answer, CalcError> {
    let temperature = given.temperature("temperature");
    let boiling = water::saturation_pressure(temperature)?;
    let answer = Answer::new()
        .with("saturation_pressure_pa", boiling.pascals())
        .with("latent_heat_vaporisation_j_kg", water::latent_heat_vaporisation(temperature)?.si())
        .with("saturated_vapour_density_kg_m3", water::saturated_vapour_density(temperature)?.si());
    let (answer, density) = match given.optional_density("density") {
        Some(density) => (answer, density),
        None => {
            let pressure = given.optional_pressure("pressure").unwrap_or(SEA_LEVEL.max(boiling));
            let liquid = water::liquid(temperature, pressure)?;
            let answer = answer
                .with("liquid_density_kg_m3", liquid.density.si())
                .with("liquid_heat_capacity_j_kgk", liquid.heat_capacity.si())
                .with("liquid_enthalpy_j_kg", liquid.enthalpy.si());
            (answer, liquid.density)
        }
    };
    let conductivity = water::thermal_conductivity(temperature, density)?.si();
    Ok(answer
        .with("liquid_viscosity_pa_s", water::viscosity(temperature, density)?.si())
        .with("liquid_thermal_conductivity_w_mk", conductivity)
        .with("surface_tension_n_m", water::surface_tension(temperature)?.si()))
}

const ALTITUDE: Question = Question {
    name: "altitude",
    other_names: &["atmospheric-pressure", "air-pressure"],
    family: Family::WaterAndAir,
    summary: "What is the air pressure at this altitude, or which altitude has this pressure",
    example: "altitude --altitude \"1600 m\"",
    inputs: &[
        Input::optional("altitude", Dimension::Length, "height above the sea (geopotential)"),
        Input::optional("pressure", Dimension::Pressure, "air pressure, to find its altitude"),
    ],
    outputs: &[
        out("atmospheric_pressure_pa", "air pressure of the standard atmosphere", "Pa"),
        out("altitude_m", "altitude", "m"),
        out("boiling_point_c", "boiling point of water", "°C"),
    ],
    answer: altitude,
};

fn altitude(given: &Given) -> Result<Answer, CalcError> {
    let altitude = match (given.optional_length("altitude"), given.optional_pressure("pressure")) {
        (Some(altitude), None) => altitude,
        (None, Some(pressure)) => altitude_of_pressure(pressure)?,
        _ => return Err(CalcError::combination("give one of `altitude` and `pressure`")),
    };
    Ok(Answer::new()
        .with("atmospheric_pressure_pa", atmospheric_pressure(altitude)?.pascals())
        .with("altitude_m", altitude.metres())
        .with("boiling_point_c", boiling_point_at_altitude(altitude)?.celsius())
        .remark("weather moves the pressure by up to 3 %, the boiling point by up to 1 °C"))
}

const ICE: Question = Question {
    name: "ice",
    other_names: &["ice-properties"],
    family: Family::WaterAndAir,
    summary: "What vapour pressure, heats and density has ice at this temperature",
    example: "ice --temperature \"-20 °C\"",
    inputs: &[
        Input::required("temperature", Dimension::Temperature, "temperature of the ice"),
        Input::with_default("pressure", Dimension::Pressure, "1 atm", "pressure on the ice"),
    ],
    outputs: &[
        out("sublimation_pressure_pa", "pressure of its vapour", "Pa"),
        out("latent_heat_sublimation_j_kg", "heat from ice to vapour", "J/kg"),
        out("latent_heat_fusion_j_kg", "heat from ice to water, supercooled below 0 °C", "J/kg"),
        out("ice_density_kg_m3", "density", "kg/m³"),
        out("ice_heat_capacity_j_kgk", "heat capacity", "J/(kg K)"),
    ],
    answer: ice_properties,
};

fn ice_properties(given: &Given) -> Result<Answer, CalcError> {
    let (temperature, pressure) = (given.temperature("temperature"), given.pressure("pressure"));
    Ok(Answer::new()
        .with("sublimation_pressure_pa", ice::sublimation_pressure(temperature)?.pascals())
        .with("latent_heat_sublimation_j_kg", ice::latent_heat_sublimation(temperature)?.si())
        .with_optional(
            "latent_heat_fusion_j_kg",
            ice::latent_heat_fusion(temperature).ok().map(|heat| heat.si()),
        )
        .with("ice_density_kg_m3", ice::ice_density(temperature, pressure)?.si())
        .with("ice_heat_capacity_j_kgk", ice::ice_heat_capacity(temperature, pressure)?.si()))
}

const ICE_VACUUM: Question = Question {
    name: "ice-under-vacuum",
    other_names: &["ice-temperature", "sublimation-temperature"],
    family: Family::WaterAndAir,
    summary: "How cold does ice keep itself under this vacuum, as in a freeze dryer",
    example: "ice-under-vacuum --pressure \"0.2 mbar\"",
    inputs: &[Input::required("pressure", Dimension::Pressure, "pressure of the vapour")],
    outputs: &[
        out("ice_equilibrium_temperature_c", "temperature of the ice", "°C"),
        out("latent_heat_sublimation_j_kg", "heat from ice to vapour", "J/kg"),
    ],
    answer: ice_under_vacuum,
};

fn ice_under_vacuum(given: &Given) -> Result<Answer, CalcError> {
    let temperature = ice::equilibrium_temperature(given.pressure("pressure"))?;
    Ok(Answer::new()
        .with("ice_equilibrium_temperature_c", temperature.celsius())
        .with("latent_heat_sublimation_j_kg", ice::latent_heat_sublimation(temperature)?.si()))
}

const AIR: Question = Question {
    name: "air",
    other_names: &["humid-air", "humidity", "dew-point", "wet-bulb"],
    family: Family::WaterAndAir,
    summary: "How much water does this air hold, and how cold does it keep a wet surface",
    example: "air --temperature \"60 °C\" --relative-humidity \"10 %\"",
    inputs: &[
        Input::required("temperature", Dimension::Temperature, "temperature of the air"),
        Input::optional("relative-humidity", Dimension::Fraction, "relative humidity"),
        Input::optional("dew-point", Dimension::Temperature, "dew point, instead of the humidity"),
        Input::optional("wet-bulb", Dimension::Temperature, "wet bulb, instead of the humidity"),
        Input::optional("pressure", Dimension::Pressure, "air pressure; otherwise 1 atm"),
        Input::optional("altitude", Dimension::Length, "height above the sea, for the pressure"),
    ],
    outputs: &[
        out("relative_humidity_percent", "relative humidity", "%"),
        out("humidity_ratio_kg_kg", "vapour per dry air", "kg/kg"),
        out("dew_point_c", "dew point; below 0 °C the frost point", "°C"),
        out("wet_bulb_c", "wet-bulb temperature", "°C"),
        out("vapour_pressure_pa", "pressure of the vapour", "Pa"),
        out("air_density_kg_m3", "density of the humid air", "kg/m³"),
        out("air_enthalpy_j_kg", "heat content per dry air, above 0 °C", "J/kg"),
    ],
    answer: air,
};

fn air(given: &Given) -> Result<Answer, CalcError> {
    let (temperature, pressure) = (given.temperature("temperature"), surroundings(given)?);
    let ways = (
        given.optional_number("relative-humidity"),
        given.optional_temperature("dew-point"),
        given.optional_temperature("wet-bulb"),
    );
    let air = match ways {
        (Some(share), None, None) => {
            HumidAir::from_relative_humidity(temperature, share, pressure)?
        }
        (None, Some(dew), None) => HumidAir::from_dew_point(temperature, dew, pressure)?,
        (None, None, Some(bulb)) => HumidAir::from_wet_bulb(temperature, bulb, pressure)?,
        _ => {
            let message = "give one of `relative-humidity`, `dew-point` and `wet-bulb`";
            return Err(CalcError::combination(message));
        }
    };
    Ok(Answer::new()
        .with("relative_humidity_percent", 100.0 * air.relative_humidity()?)
        .with("humidity_ratio_kg_kg", air.humidity_ratio())
        .with_optional("dew_point_c", air.dew_point().ok().map(|t| t.celsius()))
        .with("wet_bulb_c", air.wet_bulb()?.celsius())
        .with("vapour_pressure_pa", air.vapour_pressure().pascals())
        .with("air_density_kg_m3", air.density().si())
        .with("air_enthalpy_j_kg", air.enthalpy().si()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn answer(name: &str, written: &[(&str, &str)]) -> Result<Answer, CalcError> {
        QUESTIONS.iter().find(|question| question.name == name).unwrap().ask(written)
    }

    #[test]
    fn every_output_is_declared_finite_and_given_once() {
        for (name, written) in [
            ("boil", vec![("pressure", "60 mbar")]),
            ("boiling-pressure", vec![("temperature", "40 °C")]),
            ("water", vec![("temperature", "60 °C")]),
            ("altitude", vec![("altitude", "1600 m")]),
            ("ice", vec![("temperature", "-20 °C")]),
            ("ice-under-vacuum", vec![("pressure", "0.2 mbar")]),
            ("air", vec![("temperature", "20 °C"), ("relative-humidity", "50 %")]),
        ] {
            let question = QUESTIONS.iter().find(|question| question.name == name).unwrap();
            let found = question.ask(&written).unwrap();
            let given: Vec<&str> = found.values.iter().map(|(key, _)| *key).collect();
            let declared: Vec<&str> = question.outputs.iter().map(|output| output.key).collect();
            assert_eq!(given, declared, "{name}");
            assert!(found.values.iter().all(|(_, value)| value.is_finite()), "{name}");
        }
    }

    #[test]
    fn contradicting_inputs_are_refused() {
        let two = answer("boil", &[("pressure", "1 bar"), ("altitude", "100 m")]);
        assert!(matches!(two, Err(CalcError::Combination { .. })));
        assert!(matches!(answer("altitude", &[]), Err(CalcError::Combination { .. })));
        let none = answer("air", &[("temperature", "20 °C")]);
        assert!(matches!(none, Err(CalcError::Combination { .. })));
    }

    #[test]
    fn a_deep_vacuum_is_sent_to_the_ice() {
        let message = answer("boil", &[("pressure", "1 mbar")]).unwrap_err().to_string();
        assert!(message.contains("ice-under-vacuum"), "{message}");
    }
}
