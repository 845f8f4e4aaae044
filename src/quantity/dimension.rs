//! The dimensions that a written amount can have.

/// What an amount measures. Two amounts compare only within one dimension.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[non_exhaustive]
pub enum Dimension {
    /// A plain number or a share: written bare, or with a per cent sign.
    Fraction,
    /// Mass \[kg\].
    Mass,
    /// Volume \[m³\].
    Volume,
    /// Length \[m\].
    Length,
    /// Area or permeability \[m²\].
    Area,
    /// Time \[s\].
    Time,
    /// Temperature \[K\].
    Temperature,
    /// Temperature difference \[K\].
    TemperatureDifference,
    /// Pressure \[Pa\].
    Pressure,
    /// Power \[W\].
    Power,
    /// Energy \[J\].
    Energy,
    /// Energy per mass [J/kg].
    SpecificEnergy,
    /// Heat capacity per mass [J/(kg K)].
    SpecificHeat,
    /// Power per mass [W/kg].
    SpecificPower,
    /// Density or mass concentration [kg/m³].
    Density,
    /// Dynamic viscosity [Pa·s].
    Viscosity,
    /// Thermal conductivity [W/(m K)].
    Conductivity,
    /// Diffusivity [m²/s].
    Diffusivity,
    /// Surface heat-transfer coefficient [W/(m² K)].
    HeatTransfer,
    /// Speed [m/s].
    Speed,
    /// Acceleration [m/s²].
    Acceleration,
    /// Speed of rotation [turns/s].
    RotationSpeed,
    /// Rate or shear rate [1/s].
    Rate,
    /// Mass flow [kg/s].
    MassFlow,
    /// Mass flux [kg/(m² s)].
    MassFlux,
    /// Surface tension [N/m].
    SurfaceTension,
    /// Activation energy [J/mol].
    MolarEnergy,
    /// Molar mass [kg/mol].
    MolarMass,
    /// Amount of solute per mass of solvent [mol/kg].
    Molality,
    /// Solubility by Henry's law [mol/(m³ Pa)].
    HenrySolubility,
    /// Resistance of a filter cake per mass of dry solid [m/kg].
    CakeResistance,
    /// Resistance of a filter medium [1/m].
    MediumResistance,
    /// Plane angle \[rad\].
    Angle,
    /// Money in a currency left to the reader.
    Cost,
}

impl Dimension {
    /// Every dimension, in the order of the documentation.
    pub const ALL: [Self; 34] = [
        Self::Fraction,
        Self::Mass,
        Self::Volume,
        Self::Length,
        Self::Area,
        Self::Time,
        Self::Temperature,
        Self::TemperatureDifference,
        Self::Pressure,
        Self::Power,
        Self::Energy,
        Self::SpecificEnergy,
        Self::SpecificHeat,
        Self::SpecificPower,
        Self::Density,
        Self::Viscosity,
        Self::Conductivity,
        Self::Diffusivity,
        Self::HeatTransfer,
        Self::Speed,
        Self::Acceleration,
        Self::RotationSpeed,
        Self::Rate,
        Self::MassFlow,
        Self::MassFlux,
        Self::SurfaceTension,
        Self::MolarEnergy,
        Self::MolarMass,
        Self::Molality,
        Self::HenrySolubility,
        Self::CakeResistance,
        Self::MediumResistance,
        Self::Angle,
        Self::Cost,
    ];

    /// Returns the plain word for the dimension, as used in messages.
    pub fn word(self) -> &'static str {
        match self {
            Self::Fraction => "number or share",
            Self::Mass => "mass",
            Self::Volume => "volume",
            Self::Length => "length",
            Self::Area => "area",
            Self::Time => "time",
            Self::Temperature => "temperature",
            Self::TemperatureDifference => "temperature difference",
            Self::Pressure => "pressure",
            Self::Power => "power",
            Self::Energy => "energy",
            Self::SpecificEnergy => "energy per mass",
            Self::SpecificHeat => "heat capacity",
            Self::SpecificPower => "power per mass",
            Self::Density => "density or concentration",
            Self::Viscosity => "viscosity",
            Self::Conductivity => "thermal conductivity",
            Self::Diffusivity => "diffusivity",
            Self::HeatTransfer => "heat-transfer coefficient",
            Self::Speed => "speed",
            Self::Acceleration => "acceleration",
            Self::RotationSpeed => "speed of rotation",
            Self::Rate => "rate",
            Self::MassFlow => "mass flow",
            Self::MassFlux => "mass flux",
            Self::SurfaceTension => "surface tension",
            Self::MolarEnergy => "energy per mole",
            Self::MolarMass => "molar mass",
            Self::Molality => "molality",
            Self::HenrySolubility => "Henry solubility",
            Self::CakeResistance => "cake resistance",
            Self::MediumResistance => "medium resistance",
            Self::Angle => "angle",
            Self::Cost => "cost",
        }
    }
}
