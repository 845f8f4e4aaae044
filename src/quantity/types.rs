//! The typed quantities: one newtype over `f64` per dimension, held in SI.

use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

/// The offset between the Celsius and the kelvin scale \[K\], exact, CGPM 1954.
const CELSIUS_ZERO_KELVIN: f64 = 273.15;
/// Kelvin for one Fahrenheit degree, exact by definition.
const KELVIN_PER_FAHRENHEIT: f64 = 5.0 / 9.0;
/// The Fahrenheit reading at zero degrees Celsius, exact by definition.
const FAHRENHEIT_AT_CELSIUS_ZERO: f64 = 32.0;

macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident [$si:literal] { $($from:ident $get:ident $factor:expr, $unit:literal;)+ }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
        pub struct $name(f64);

        impl $name {
            /// Zero of this quantity.
            pub const ZERO: Self = Self(0.0);

            /// Makes the quantity from its value in the SI unit.
            #[doc = concat!("The SI unit is ", $si, ".")]
            pub const fn from_si(value: f64) -> Self {
                Self(value)
            }
            /// Returns the value in the SI unit.
            #[doc = concat!("The SI unit is ", $si, ".")]
            pub const fn si(self) -> f64 {
                self.0
            }
            $(
                #[doc = concat!("Makes the quantity from a value in ", $unit, ".")]
                pub const fn $from(value: f64) -> Self {
                    Self(value * $factor)
                }
                #[doc = concat!("Returns the value in ", $unit, ".")]
                pub const fn $get(self) -> f64 {
                    self.0 / $factor
                }
            )+
            /// Returns the smaller of two values.
            pub fn min(self, other: Self) -> Self {
                Self(self.0.min(other.0))
            }
            /// Returns the larger of two values.
            pub fn max(self, other: Self) -> Self {
                Self(self.0.max(other.0))
            }
            /// Returns the value without its sign.
            pub fn abs(self) -> Self {
                Self(self.0.abs())
            }
        }
        impl Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }
        impl Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }
        impl AddAssign for $name {
            fn add_assign(&mut self, other: Self) {
                self.0 += other.0;
            }
        }
        impl SubAssign for $name {
            fn sub_assign(&mut self, other: Self) {
                self.0 -= other.0;
            }
        }
        impl Neg for $name {
            type Output = Self;
            fn neg(self) -> Self {
                Self(-self.0)
            }
        }
        impl Mul<f64> for $name {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                Self(self.0 * factor)
            }
        }
        impl Mul<$name> for f64 {
            type Output = $name;
            fn mul(self, quantity: $name) -> $name {
                $name(self * quantity.0)
            }
        }
        impl Div<f64> for $name {
            type Output = Self;
            fn div(self, divisor: f64) -> Self {
                Self(self.0 / divisor)
            }
        }
        impl Div for $name {
            type Output = f64;
            fn div(self, other: Self) -> f64 {
                self.0 / other.0
            }
        }
        impl std::iter::Sum for $name {
            fn sum<I: Iterator<Item = Self>>(values: I) -> Self {
                Self(values.map(|value| value.0).sum())
            }
        }
    };
}

quantity! { /// Mass.
    Mass ["kg"] {
        from_kilograms kilograms 1.0, "kilograms";
        from_grams grams 1e-3, "grams";
        from_milligrams milligrams 1e-6, "milligrams";
    }
}
quantity! { /// Volume.
    Volume ["m³"] {
        from_cubic_metres cubic_metres 1.0, "cubic metres";
        from_litres litres 1e-3, "litres";
        from_millilitres millilitres 1e-6, "millilitres";
    }
}
quantity! { /// Length.
    Length ["m"] {
        from_metres metres 1.0, "metres";
        from_centimetres centimetres 1e-2, "centimetres";
        from_millimetres millimetres 1e-3, "millimetres";
        from_micrometres micrometres 1e-6, "micrometres";
    }
}
quantity! { /// Area; a permeability has the same dimension.
    Area ["m²"] {
        from_square_metres square_metres 1.0, "square metres";
        from_square_centimetres square_centimetres 1e-4, "square centimetres";
    }
}
quantity! { /// A span of time.
    Time ["s"] {
        from_seconds seconds 1.0, "seconds";
        from_minutes minutes 60.0, "minutes";
        from_hours hours 3600.0, "hours";
        from_days days 86_400.0, "days";
    }
}
quantity! { /// Pressure, absolute unless the name says gauge or difference.
    Pressure ["Pa"] {
        from_pascals pascals 1.0, "pascals";
        from_kilopascals kilopascals 1e3, "kilopascals";
        from_millibars millibars 100.0, "millibars";
        from_bars bars 1e5, "bars";
    }
}
quantity! { /// Power.
    Power ["W"] {
        from_watts watts 1.0, "watts";
        from_kilowatts kilowatts 1e3, "kilowatts";
    }
}
quantity! { /// Energy.
    Energy ["J"] {
        from_joules joules 1.0, "joules";
        from_kilojoules kilojoules 1e3, "kilojoules";
    }
}
quantity! { /// Energy per mass: latent heat, enthalpy, energy density of shearing.
    SpecificEnergy ["J/kg"] {
        from_joules_per_kilogram joules_per_kilogram 1.0, "joules per kilogram";
        from_kilojoules_per_kilogram kilojoules_per_kilogram 1e3, "kilojoules per kilogram";
    }
}
quantity! { /// Heat capacity per mass.
    SpecificHeat ["J/(kg K)"] {
        from_joules_per_kilogram_kelvin joules_per_kilogram_kelvin 1.0, "joules per kilogram and kelvin";
    }
}
quantity! { /// Power dissipated per mass.
    SpecificPower ["W/kg"] {
        from_watts_per_kilogram watts_per_kilogram 1.0, "watts per kilogram";
    }
}
quantity! { /// Density; a mass concentration has the same dimension.
    Density ["kg/m³"] {
        from_kilograms_per_cubic_metre kilograms_per_cubic_metre 1.0, "kilograms per cubic metre";
    }
}
quantity! { /// Dynamic viscosity.
    Viscosity ["Pa·s"] {
        from_pascal_seconds pascal_seconds 1.0, "pascal seconds";
        from_millipascal_seconds millipascal_seconds 1e-3, "millipascal seconds";
    }
}
quantity! { /// Thermal conductivity.
    Conductivity ["W/(m K)"] {
        from_watts_per_metre_kelvin watts_per_metre_kelvin 1.0, "watts per metre and kelvin";
    }
}
quantity! { /// Diffusivity of heat or of matter.
    Diffusivity ["m²/s"] {
        from_square_metres_per_second square_metres_per_second 1.0, "square metres per second";
    }
}
quantity! { /// Surface heat-transfer coefficient.
    HeatTransfer ["W/(m² K)"] {
        from_watts_per_square_metre_kelvin watts_per_square_metre_kelvin 1.0, "watts per square metre and kelvin";
    }
}
quantity! { /// Speed.
    Speed ["m/s"] {
        from_metres_per_second metres_per_second 1.0, "metres per second";
    }
}
quantity! { /// Acceleration.
    Acceleration ["m/s²"] {
        from_metres_per_second_squared metres_per_second_squared 1.0, "metres per second squared";
        from_standard_gravities standard_gravities 9.806_65, "multiples of standard gravity (CGPM 1901)";
    }
}
quantity! { /// Speed of rotation, held in turns per second.
    RotationSpeed ["1/s"] {
        from_turns_per_second turns_per_second 1.0, "turns per second";
        from_rpm rpm 1.0 / 60.0, "turns per minute";
    }
}
quantity! { /// A rate of change or of shear.
    Rate ["1/s"] {
        from_per_second per_second 1.0, "per second";
        from_per_hour per_hour 1.0 / 3600.0, "per hour";
    }
}
quantity! { /// Mass flow.
    MassFlow ["kg/s"] {
        from_kilograms_per_second kilograms_per_second 1.0, "kilograms per second";
        from_grams_per_minute grams_per_minute 1e-3 / 60.0, "grams per minute";
        from_kilograms_per_hour kilograms_per_hour 1.0 / 3600.0, "kilograms per hour";
    }
}
quantity! { /// Mass flow through an area.
    MassFlux ["kg/(m² s)"] {
        from_kilograms_per_square_metre_second kilograms_per_square_metre_second 1.0, "kilograms per square metre and second";
    }
}
quantity! { /// Surface or interfacial tension.
    SurfaceTension ["N/m"] {
        from_newtons_per_metre newtons_per_metre 1.0, "newtons per metre";
    }
}
quantity! { /// Energy per amount of substance: an activation energy.
    MolarEnergy ["J/mol"] {
        from_joules_per_mole joules_per_mole 1.0, "joules per mole";
    }
}
quantity! { /// Mass per amount of substance.
    MolarMass ["kg/mol"] {
        from_kilograms_per_mole kilograms_per_mole 1.0, "kilograms per mole";
        from_grams_per_mole grams_per_mole 1e-3, "grams per mole";
    }
}
quantity! { /// A difference between two temperatures, never a reading on a scale.
    TemperatureDifference ["K"] {
        from_kelvin kelvin 1.0, "kelvin";
        from_fahrenheit_degrees fahrenheit_degrees KELVIN_PER_FAHRENHEIT, "Fahrenheit degrees";
    }
}

/// A temperature on the thermodynamic scale.
///
/// Two temperatures subtract to a [`TemperatureDifference`]; they do not add.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Temperature(f64);

impl Temperature {
    /// Makes a temperature from its value in the SI unit, kelvin.
    pub const fn from_si(value: f64) -> Self {
        Self(value)
    }
    /// Returns the value in the SI unit, kelvin.
    pub const fn si(self) -> f64 {
        self.0
    }
    /// Makes a temperature from kelvin.
    pub const fn from_kelvin(value: f64) -> Self {
        Self(value)
    }
    /// Returns the value in kelvin.
    pub const fn kelvin(self) -> f64 {
        self.0
    }
    /// Makes a temperature from degrees Celsius.
    pub const fn from_celsius(value: f64) -> Self {
        Self(value + CELSIUS_ZERO_KELVIN)
    }
    /// Returns the value in degrees Celsius.
    pub const fn celsius(self) -> f64 {
        self.0 - CELSIUS_ZERO_KELVIN
    }
    /// Makes a temperature from degrees Fahrenheit.
    pub const fn from_fahrenheit(value: f64) -> Self {
        Self::from_celsius((value - FAHRENHEIT_AT_CELSIUS_ZERO) * KELVIN_PER_FAHRENHEIT)
    }
    /// Returns the value in degrees Fahrenheit.
    pub const fn fahrenheit(self) -> f64 {
        self.celsius() / KELVIN_PER_FAHRENHEIT + FAHRENHEIT_AT_CELSIUS_ZERO
    }
    /// Returns the lower of two temperatures.
    pub fn min(self, other: Self) -> Self {
        Self(self.0.min(other.0))
    }
    /// Returns the higher of two temperatures.
    pub fn max(self, other: Self) -> Self {
        Self(self.0.max(other.0))
    }
}

impl Sub for Temperature {
    type Output = TemperatureDifference;
    fn sub(self, other: Self) -> TemperatureDifference {
        TemperatureDifference(self.0 - other.0)
    }
}
impl Add<TemperatureDifference> for Temperature {
    type Output = Self;
    fn add(self, difference: TemperatureDifference) -> Self {
        Self(self.0 + difference.0)
    }
}
impl Sub<TemperatureDifference> for Temperature {
    type Output = Self;
    fn sub(self, difference: TemperatureDifference) -> Self {
        Self(self.0 - difference.0)
    }
}

/// Implements `left * right = product` for quantities, in both orders, with the two quotients.
macro_rules! product {
    ($($left:ident * $right:ident = $product:ident;)+) => {$(
        impl Mul<$right> for $left {
            type Output = $product;
            fn mul(self, other: $right) -> $product {
                $product(self.0 * other.0)
            }
        }
        impl Mul<$left> for $right {
            type Output = $product;
            fn mul(self, other: $left) -> $product {
                $product(self.0 * other.0)
            }
        }
        impl Div<$right> for $product {
            type Output = $left;
            fn div(self, other: $right) -> $left {
                $left(self.0 / other.0)
            }
        }
        impl Div<$left> for $product {
            type Output = $right;
            fn div(self, other: $left) -> $right {
                $right(self.0 / other.0)
            }
        }
    )+};
}

product! {
    Power * Time = Energy;
    Mass * SpecificEnergy = Energy;
    SpecificHeat * TemperatureDifference = SpecificEnergy;
    Density * Volume = Mass;
    Area * Length = Volume;
    Speed * Time = Length;
    MassFlow * Time = Mass;
    MassFlux * Area = MassFlow;
    MassFlow * SpecificEnergy = Power;
    SpecificPower * Mass = Power;
    SpecificPower * Time = SpecificEnergy;
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fahrenheit_and_celsius_agree() {
        assert!((Temperature::from_fahrenheit(212.0).celsius() - 100.0).abs() < 1e-9);
        assert!((Temperature::from_celsius(37.0).fahrenheit() - 98.6).abs() < 1e-9);
    }

    #[test]
    fn a_difference_converts_without_the_offset() {
        let difference = Temperature::from_celsius(30.0) - Temperature::from_celsius(20.0);
        assert!((difference.fahrenheit_degrees() - 18.0).abs() < 1e-9);
    }

    #[test]
    fn power_over_time_is_energy() {
        let energy = Power::from_kilowatts(2.0) * Time::from_minutes(1.0);
        assert!((energy.kilojoules() - 120.0).abs() < 1e-9);
        assert!((energy / Power::from_watts(2000.0)).minutes() - 1.0 < 1e-12);
    }
}
