//! Questions about flow through beds, membranes and capillaries.

use crate::calc::{Answer, CalcError, Family, Given, Input, Output, Question};
use crate::physics::filtration::{
    Membrane, cake_resistance_of_grains, capillary_pressure, capillary_rise, darcy_flux,
    membrane_flux, permeability_kozeny_carman,
};
use crate::quantity::Dimension;

pub(super) const PRESSURE_DIFFERENCE: Input = Input::required(
    "pressure-difference",
    Dimension::Pressure,
    "over the filter: 10 cm of head 1 kPa, by hand 20-50 kPa, good vacuum 90 kPa",
);
pub(super) const VISCOSITY: Input =
    Input::required("viscosity", Dimension::Viscosity, "viscosity of the filtrate");
const POROSITY: Input =
    Input::required("porosity", Dimension::Fraction, "share of open space, 0 to 1");

/// Litres per square metre and hour in a flux of 1 m/s.
const LITRES_PER_HOUR: f64 = 1000.0 * 3600.0;

pub(super) const BED: Question = Question {
    name: "bed",
    other_names: &["darcy", "bed-flow"],
    family: Family::Parting,
    summary: "How fast does a liquid pass a bed of grounds, sand or fibre",
    example: "bed --permeability \"1e-12 m2\" --area \"100 cm2\" --pressure-difference \"1 kPa\" --viscosity \"1 mPa.s\" --bed-thickness \"1 cm\"",
    inputs: &[
        Input::required("permeability", Dimension::Area, "permeability of the bed"),
        Input::required("area", Dimension::Area, "area of the bed"),
        PRESSURE_DIFFERENCE,
        VISCOSITY,
        Input::required("bed-thickness", Dimension::Length, "thickness of the bed"),
    ],
    outputs: &[
        Output { key: "flow_m3_s", label: "volume flow", unit: "m³/s" },
        Output { key: "flux_m_s", label: "flow per area", unit: "m/s" },
    ],
    answer: bed,
};

fn bed(given: &Given) -> Result<Answer, CalcError> {
    let flux = darcy_flux(
        given.area("permeability"),
        given.pressure("pressure-difference"),
        given.viscosity("viscosity"),
        given.length("bed-thickness"),
    )?;
    let area = crate::physics::positive("area", given.area("area").square_metres(), "m²")?;
    Ok(Answer::new().with("flow_m3_s", flux.si() * area).with("flux_m_s", flux.si()))
}

pub(super) const PERMEABILITY: Question = Question {
    name: "permeability",
    other_names: &["kozeny-carman"],
    family: Family::Parting,
    summary: "How open is a bed or cake of grains",
    example: "permeability --particle-diameter \"100 um\" --porosity 0.4",
    inputs: &[
        Input::required("particle-diameter", Dimension::Length, "diameter of the grains"),
        POROSITY,
        Input::with_default("solid-density", Dimension::Density, "1500 kg/m3", "of the grains"),
    ],
    outputs: &[
        Output { key: "permeability_m2", label: "permeability", unit: "m²" },
        Output { key: "cake_resistance_m_per_kg", label: "cake resistance", unit: "m/kg" },
    ],
    answer: permeability,
};

fn permeability(given: &Given) -> Result<Answer, CalcError> {
    let (d, porosity) = (given.length("particle-diameter"), given.number("porosity"));
    let alpha = cake_resistance_of_grains(d, porosity, given.density("solid-density"))?;
    Ok(Answer::new()
        .with("permeability_m2", permeability_kozeny_carman(d, porosity)?.square_metres())
        .with("cake_resistance_m_per_kg", alpha)
        .remark("Rounded grains of one size; real beds scatter by about a factor of two."))
}

pub(super) const MEMBRANE: Question = Question {
    name: "membrane",
    other_names: &["membrane-flux", "ultrafiltration", "microfiltration"],
    family: Family::Parting,
    summary: "How much passes a clean membrane",
    example: "membrane --pore-radius \"0.1 um\" --porosity 0.5 --membrane-thickness \"100 um\" --pressure-difference \"1 bar\" --viscosity \"1 mPa.s\"",
    inputs: &[
        Input::required("pore-radius", Dimension::Length, "radius of the pores"),
        POROSITY,
        Input::required("membrane-thickness", Dimension::Length, "thickness of the membrane"),
        PRESSURE_DIFFERENCE,
        VISCOSITY,
        Input::with_default("tortuosity", Dimension::Fraction, "1", "pore length over thickness"),
        Input::with_default(
            "osmotic-pressure",
            Dimension::Pressure,
            "0 Pa",
            "that the pressure must first overcome when solutes are held back",
        ),
    ],
    outputs: &[
        Output { key: "membrane_flux_m_s", label: "flux", unit: "m/s" },
        Output { key: "membrane_flux_l_m2_h", label: "flux", unit: "L/(m² h)" },
    ],
    answer: membrane,
};

fn membrane(given: &Given) -> Result<Answer, CalcError> {
    let membrane = Membrane {
        pore_radius: given.length("pore-radius"),
        porosity: given.number("porosity"),
        thickness: given.length("membrane-thickness"),
        tortuosity: given.number("tortuosity"),
    };
    let drive = given.pressure("pressure-difference") - given.pressure("osmotic-pressure");
    let flux = membrane_flux(membrane, drive, given.viscosity("viscosity"))?.si();
    Ok(Answer::new()
        .with("membrane_flux_m_s", flux)
        .with("membrane_flux_l_m2_h", flux * LITRES_PER_HOUR)
        .remark(
            "A clean membrane and water; juice fouls it to 10-100 L/(m² h) (common practice). \
             Nothing filtered at home counts as free of germs.",
        ))
}

pub(super) const CAPILLARY: Question = Question {
    name: "capillary",
    other_names: &["jurin", "bubble-point", "capillary-rise"],
    family: Family::Parting,
    summary: "How strongly does a pore hold a liquid, and how high does it climb",
    example: "capillary --pore-radius \"5 um\" --surface-tension \"72 mN/m\"",
    inputs: &[
        Input::required("pore-radius", Dimension::Length, "radius of the pore"),
        Input::required("surface-tension", Dimension::SurfaceTension, "of the liquid"),
        Input::with_default("contact-angle", Dimension::Angle, "0 deg", "0 when it wets fully"),
        Input::with_default("liquid-density", Dimension::Density, "998 kg/m3", "of the liquid"),
    ],
    outputs: &[
        Output { key: "capillary_pressure_pa", label: "capillary pressure", unit: "Pa" },
        Output { key: "capillary_rise_m", label: "height of rise", unit: "m" },
    ],
    answer: capillary,
};

fn capillary(given: &Given) -> Result<Answer, CalcError> {
    let pressure = capillary_pressure(
        given.surface_tension("surface-tension"),
        given.number("contact-angle"),
        given.length("pore-radius"),
    )?;
    let rise = capillary_rise(pressure, given.density("liquid-density"))?;
    Ok(Answer::new()
        .with("capillary_pressure_pa", pressure.pascals())
        .with("capillary_rise_m", rise.metres()))
}
