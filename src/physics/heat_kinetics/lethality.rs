//! Decimal reductions and equivalent times by the z value.

use std::f64::consts::LN_10;

use super::Segment;
use crate::physics::{PhysicsError, Validity, positive};
use crate::quantity::{Temperature, TemperatureDifference, Time};

/// Temperatures of the profile: colder ones add nothing, hotter ones lie beyond every z value.
const TEMPERATURE_RANGE: Validity = Validity {
    law: "equivalent time by z",
    quantity: "temperature",
    low: -40.0,
    high: 160.0,
    unit: "°C",
};
/// Every published z: spores and cells 4 to 15 K, enzymes and quality to about 60 K, shelf life more.
const Z_RANGE: Validity = Validity {
    law: "equivalent time by z",
    quantity: "z value, a temperature difference,",
    low: 1.0,
    high: 200.0,
    unit: "K",
};

/// A reference temperature with a z value: the basis of an equivalent time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EquivalentTime {
    /// Temperature at which the equivalent time is counted.
    pub reference: Temperature,
    /// Kelvin that make the rate tenfold.
    pub z: TemperatureDifference,
}

/// Cook value C100: how thoroughly food is cooked, as time at 100 °C; z 33 K: Mansfield,
/// High-temperature short-time sterilization, 1st Int. Congress Food Science and Technology, 1962.
pub const COOK_VALUE: EquivalentTime = EquivalentTime {
    reference: Temperature::from_celsius(100.0),
    z: TemperatureDifference::from_kelvin(33.0),
};
/// Pasteurisation value P70; z 7.5 K: European Chilled Food Federation, Recommendations for the
/// Production of Prepackaged Chilled Food, 2006 (from memory).
pub const PASTEURISATION: EquivalentTime = EquivalentTime {
    reference: Temperature::from_celsius(70.0),
    z: TemperatureDifference::from_kelvin(7.5),
};
/// Sterilisation value F0; z 10 K at 121.1 °C: Stumbo, Thermobacteriology in Food Processing, 2nd
/// ed. 1973.
pub const STERILISATION: EquivalentTime = EquivalentTime {
    reference: Temperature::from_celsius(121.1),
    z: TemperatureDifference::from_kelvin(10.0),
};

impl EquivalentTime {
    /// Returns the rate at a temperature, as a multiple of that at the reference.
    ///
    /// `L = 10^((T - reference) / z)`
    ///
    /// # Units
    /// T \[K\], z \[K\].
    ///
    /// # Validity
    /// -40 °C to 160 °C and z from 1 K to 200 K; z is published for a narrower range of temperature,
    /// which the caller knows.
    ///
    /// # Errors
    /// [`PhysicsError::OutsideValidity`] outside the range of temperature, for the reference too, and
    /// for another z.
    ///
    /// # Source
    /// Bigelow, The logarithmic nature of thermal death time curves, J. Infectious Diseases 29, 1921.
    pub fn relative_rate(&self, temperature: Temperature) -> Result<f64, PhysicsError> {
        let z = Z_RANGE.check(self.z.kelvin())?;
        TEMPERATURE_RANGE.check(self.reference.celsius())?;
        TEMPERATURE_RANGE.check(temperature.celsius())?;
        Ok(10f64.powf((temperature - self.reference).kelvin() / z))
    }

    /// Returns the equivalent time of a ramp or a hold.
    ///
    /// `F = t (L2 - L1) / ln(L2 / L1)`, the exact integral of the rate over a straight ramp.
    ///
    /// # Units
    /// F and t \[s\].
    ///
    /// # Validity
    /// As [`EquivalentTime::relative_rate`].
    ///
    /// # Errors
    /// As [`EquivalentTime::relative_rate`].
    ///
    /// # Source
    /// Integral of [`EquivalentTime::relative_rate`].
    pub fn of_segment(&self, segment: &Segment) -> Result<Time, PhysicsError> {
        let (first, last) = (self.relative_rate(segment.from)?, self.relative_rate(segment.to)?);
        let rise = LN_10 * (segment.to - segment.from).kelvin() / self.z.kelvin();
        // (e^x - 1) / x keeps its digits where the ramp is almost flat.
        let mean = if rise.abs() > 0.0 { first * rise.exp_m1() / rise } else { last };
        Ok(segment.time * mean)
    }

    /// Returns the equivalent time of a profile.
    ///
    /// `F = sum of the pieces`
    ///
    /// # Units
    /// F \[s\].
    ///
    /// # Validity
    /// As [`EquivalentTime::relative_rate`]; at the slowest-heating place of the food.
    ///
    /// # Errors
    /// As [`EquivalentTime::relative_rate`].
    ///
    /// # Source
    /// The general method: Bigelow et al., National Canners Association Bulletin 16-L, 1920.
    pub fn of_profile(&self, profile: &[Segment]) -> Result<Time, PhysicsError> {
        profile.iter().map(|segment| self.of_segment(segment)).sum()
    }

    /// Returns the time at another temperature that does as much as a time at a first one.
    ///
    /// `t2 = t1 10^((T1 - T2) / z)`
    ///
    /// # Units
    /// t \[s\], T and z \[K\].
    ///
    /// # Validity
    /// As [`EquivalentTime::relative_rate`].
    ///
    /// # Errors
    /// As [`EquivalentTime::relative_rate`].
    ///
    /// # Source
    /// Bigelow 1921.
    pub fn convert(
        &self,
        time: Time,
        from: Temperature,
        to: Temperature,
    ) -> Result<Time, PhysicsError> {
        Ok(time * (self.relative_rate(from)? / self.relative_rate(to)?))
    }
}

/// How fast heat kills an organism or destroys a substance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DecimalReduction {
    /// Time for a tenfold reduction at the reference temperature.
    pub d_reference: Time,
    /// Reference temperature and z value.
    pub basis: EquivalentTime,
}

impl DecimalReduction {
    /// Returns the time for a tenfold reduction at a temperature.
    ///
    /// `D = D_ref 10^((reference - T) / z)`
    ///
    /// # Units
    /// D \[s\], T and z \[K\].
    ///
    /// # Validity
    /// As [`EquivalentTime::relative_rate`].
    ///
    /// # Errors
    /// As [`EquivalentTime::relative_rate`]; [`PhysicsError::NotPositive`] for a D of zero or less.
    ///
    /// # Source
    /// Bigelow 1921.
    pub fn at(&self, temperature: Temperature) -> Result<Time, PhysicsError> {
        let d = positive("decimal reduction time", self.d_reference.seconds(), "s")?;
        Ok(Time::from_seconds(d / self.basis.relative_rate(temperature)?))
    }

    /// Returns the decimal reductions over a profile.
    ///
    /// `log10 reduction = F / D_ref`
    ///
    /// # Units
    /// A plain number; F and D \[s\].
    ///
    /// # Validity
    /// As [`DecimalReduction::at`]; first-order death, no shoulder, no tail.
    ///
    /// # Errors
    /// As [`DecimalReduction::at`].
    ///
    /// # Source
    /// Stumbo, Thermobacteriology in Food Processing, 2nd ed. 1973.
    pub fn of_profile(&self, profile: &[Segment]) -> Result<f64, PhysicsError> {
        let d = positive("decimal reduction time", self.d_reference.seconds(), "s")?;
        Ok(self.basis.of_profile(profile)?.seconds() / d)
    }

    /// Returns the time at a temperature for a number of decimal reductions.
    ///
    /// `t = n D(T)`
    ///
    /// # Units
    /// t \[s\].
    ///
    /// # Validity
    /// As [`DecimalReduction::at`].
    ///
    /// # Errors
    /// As [`DecimalReduction::at`]; [`PhysicsError::NotPositive`] for n of zero or less.
    ///
    /// # Source
    /// Stumbo 1973.
    pub fn time_for(&self, reductions: f64, at: Temperature) -> Result<Time, PhysicsError> {
        Ok(self.at(at)? * positive("decimal reductions", reductions, "")?)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::solve::integral;

    fn celsius(t: f64) -> Temperature {
        Temperature::from_celsius(t)
    }

    const LISTERIA: DecimalReduction =
        DecimalReduction { d_reference: Time::from_seconds(20.0), basis: PASTEURISATION };

    #[test]
    fn a_ramp_is_the_integral_of_its_rates() {
        for (from, to) in [(20.0, 70.0), (70.0, 20.0), (69.999_999, 70.0), (65.0, 65.0)] {
            let segment =
                Segment { from: celsius(from), to: celsius(to), time: Time::from_seconds(600.0) };
            let closed = PASTEURISATION.of_segment(&segment).unwrap().seconds();
            let steps = integral(0.0, 600.0, 60, |t| {
                PASTEURISATION.relative_rate(celsius(from + (to - from) * t / 600.0)).unwrap()
            });
            assert!((closed / steps - 1.0).abs() < 1e-9, "{from} to {to}");
        }
    }

    #[test]
    fn conversion_and_reduction_invert_themselves() {
        let time = Time::from_minutes(10.0);
        let there = COOK_VALUE.convert(time, celsius(100.0), celsius(118.0)).unwrap();
        let back = COOK_VALUE.convert(there, celsius(118.0), celsius(100.0)).unwrap();
        assert!((back / time - 1.0).abs() < 1e-12 && there < time);
        let hold = LISTERIA.time_for(6.0, celsius(65.0)).unwrap();
        let logs = LISTERIA.of_profile(&[Segment::hold(celsius(65.0), hold)]).unwrap();
        assert!((logs - 6.0).abs() < 1e-9);
    }

    #[test]
    fn senseless_values_are_refused() {
        let flat = EquivalentTime { z: TemperatureDifference::ZERO, ..COOK_VALUE };
        assert!(flat.relative_rate(celsius(90.0)).is_err());
        assert!(COOK_VALUE.relative_rate(celsius(200.0)).is_err());
        let dead = DecimalReduction { d_reference: Time::ZERO, ..LISTERIA };
        assert!(dead.at(celsius(70.0)).is_err());
        assert!(dead.of_profile(&[]).is_err());
        assert!(LISTERIA.time_for(0.0, celsius(70.0)).is_err());
    }
}
