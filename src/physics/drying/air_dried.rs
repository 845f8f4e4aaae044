//! A slice in moving air: first as fast as the air takes water, then as fast as water arrives.

use std::f64::consts::PI;

use super::diffusion;
use crate::physics::{PhysicsError, positive};
use crate::quantity::{Density, Diffusivity, Length, MassFlux, Rate, Time};

/// Newton steps from the starting value of [`slab_fourier`]; the value is then exact to rounding.
const NEWTON_STEPS: u32 = 4;
/// Ratio at which the short-time and the long-time law of a slab come closest.
const MIDDLE_RATIO: f64 = 0.5;

/// A slice to be dried.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DryingSlab {
    /// Half the thickness when both faces dry, the whole when one does.
    pub half_thickness: Length,
    /// Dry matter per volume of the fresh food.
    pub dry_density: Density,
    /// Moisture at the start [kg/kg dry].
    pub moisture: f64,
    /// Moisture in equilibrium with the air [kg/kg dry].
    pub equilibrium: f64,
    /// Effective diffusivity of water in the food.
    pub diffusivity: Diffusivity,
}

/// How a slice dried.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AirDrying {
    /// Time to the moisture asked for.
    pub time: Time,
    /// Part of it in which the surface was wet.
    pub constant_rate_time: Time,
    /// Moisture at which the surface ran dry [kg/kg dry].
    pub critical_moisture: f64,
}

impl DryingSlab {
    fn checked(&self) -> Result<(), PhysicsError> {
        positive("thickness", self.half_thickness.si(), "m")?;
        positive("dry matter per volume", self.dry_density.si(), "kg/m³")?;
        positive("diffusivity", self.diffusivity.si(), "m²/s")?;
        positive("moisture above equilibrium", self.moisture - self.equilibrium, "kg/kg")?;
        Ok(())
    }

    /// Rate at which air alone would dry the slice, in units of the diffusion time.
    fn drying_number(&self, flux: MassFlux) -> f64 {
        let water = self.dry_density.si() * (self.moisture - self.equilibrium);
        flux.si() * self.half_thickness.si() / (water * self.diffusivity.si())
    }

    /// Returns the moisture ratio at which diffusion can no longer keep the surface wet.
    ///
    /// The short-time rate of a slab is `2/(π(1-MR))`, its long-time rate `π² MR/4`, both per
    /// diffusion time; the surface runs dry where the rate equals that of the air.
    fn critical_ratio(number: f64) -> f64 {
        if number > 4.0 / PI {
            1.0 - 2.0 / (PI * number)
        } else {
            (4.0 * number / (PI * PI)).min(MIDDLE_RATIO)
        }
    }

    /// Returns how long the slice takes to dry to a moisture.
    ///
    /// Down to the critical ratio `t = ρ L (x0 - x) / j`; from there the diffusion law of a slab
    /// with a dry surface, entered at that ratio.
    ///
    /// # Units
    /// j flux from the wet surface [kg/(m² s)], ρ dry matter per volume [kg/m³], L \[m\], x [kg/kg].
    ///
    /// # Validity
    /// Constant air, no crust; an effective diffusivity that was fitted on the fresh thickness.
    ///
    /// # Errors
    /// [`PhysicsError::NotPositive`] for a size, density, diffusivity or flux of zero or less, or
    /// a food that is no wetter than the air leaves it; [`PhysicsError::Impossible`] when the
    /// moisture asked for lies at or below equilibrium, or above the start.
    ///
    /// # Source
    /// Van Brakel 1980 and Mujumdar, Handbook of Industrial Drying (from memory), for the two
    /// periods; Crank 1975, eqs. 4.18 and 4.20, for the second.
    pub fn dry_to(&self, moisture: f64, wet_flux: MassFlux) -> Result<AirDrying, PhysicsError> {
        self.checked()?;
        positive("evaporation flux", wet_flux.si(), "kg/(m² s)")?;
        let ratio = (moisture - self.equilibrium) / (self.moisture - self.equilibrium);
        if !(ratio > 0.0 && ratio <= 1.0) {
            let because = format!(
                "the moisture must lie between {:.3} (equilibrium with the air) and {:.3} (start)",
                self.equilibrium, self.moisture
            );
            return Err(PhysicsError::Impossible { what: "a drying time", because });
        }
        let number = self.drying_number(wet_flux);
        let critical = Self::critical_ratio(number);
        let scale = self.half_thickness.si().powi(2) / self.diffusivity.si();
        let wet = (1.0 - ratio.max(critical)) / number;
        let falling =
            if ratio < critical { slab_fourier(ratio) - slab_fourier(critical) } else { 0.0 };
        Ok(AirDrying {
            time: Time::from_seconds(scale * (wet + falling)),
            constant_rate_time: Time::from_seconds(scale * wet),
            critical_moisture: self.equilibrium + critical * (self.moisture - self.equilibrium),
        })
    }

    /// Returns how fast the moisture falls at a moisture between start and equilibrium, for
    /// stepping through changing air.
    ///
    /// # Units
    /// [kg/(kg dry s)], as a rate.
    ///
    /// # Validity
    /// As for [`DryingSlab::dry_to`].
    ///
    /// # Errors
    /// As for [`DryingSlab::dry_to`], without the end point.
    ///
    /// # Source
    /// As for [`DryingSlab::dry_to`].
    pub fn rate_at(&self, moisture: f64, wet_flux: MassFlux) -> Result<Rate, PhysicsError> {
        self.checked()?;
        positive("evaporation flux", wet_flux.si(), "kg/(m² s)")?;
        let span = self.moisture - self.equilibrium;
        let ratio = ((moisture - self.equilibrium) / span).clamp(0.0, 1.0);
        let by_diffusion = if ratio > MIDDLE_RATIO {
            2.0 / (PI * (1.0 - ratio).max(f64::EPSILON))
        } else {
            PI * PI / 4.0 * ratio
        };
        let number = self.drying_number(wet_flux).min(by_diffusion);
        let per_second = number * self.diffusivity.si() / self.half_thickness.si().powi(2);
        Ok(Rate::from_per_second(per_second * span))
    }
}

/// Returns the dimensionless time at which a slab with a dry surface reaches a ratio.
fn slab_fourier(ratio: f64) -> f64 {
    if ratio > MIDDLE_RATIO {
        return PI * (1.0 - ratio).powi(2) / 4.0;
    }
    let mut fo = -4.0 / (PI * PI) * (PI * PI * ratio / 8.0).ln();
    for _ in 0..NEWTON_STEPS {
        let term = |odd: f64| (-odd * odd * PI * PI * fo / 4.0).exp();
        let slope = -2.0 * (term(1.0) + term(3.0) + term(5.0));
        fo -= (diffusion::slab(fo) - ratio) / slope;
    }
    fo
}

#[cfg(test)]
mod tests {
    use super::*;

    fn apple() -> DryingSlab {
        DryingSlab {
            half_thickness: Length::from_millimetres(3.0),
            dry_density: Density::from_si(120.0),
            moisture: 6.0,
            equilibrium: 0.05,
            diffusivity: Diffusivity::from_si(5e-10),
        }
    }

    const FLUX: MassFlux = MassFlux::from_si(2e-4);

    #[test]
    fn drier_takes_longer_and_time_is_continuous() {
        let mut before = Time::ZERO;
        for moisture in [6.0, 5.9, 5.0, 3.0, 2.99, 1.0, 0.3, 0.1] {
            let drying = apple().dry_to(moisture, FLUX).unwrap();
            assert!(drying.time >= before && drying.constant_rate_time <= drying.time);
            before = drying.time;
        }
        let critical = apple().dry_to(0.1, FLUX).unwrap().critical_moisture;
        let above = apple().dry_to(critical + 1e-7, FLUX).unwrap().time;
        let below = apple().dry_to(critical - 1e-7, FLUX).unwrap().time;
        assert!((below - above).abs() < Time::from_seconds(1.0));
    }

    #[test]
    fn very_fast_air_leaves_pure_diffusion() {
        let slab = apple();
        let time = slab.dry_to(0.6475, MassFlux::from_si(10.0)).unwrap().time;
        let shape = super::super::DryingShape::Slab { half_thickness: slab.half_thickness };
        let ratio = (0.6475 - 0.05) / 5.95;
        let pure = super::super::time_to_ratio_by_diffusion(shape, slab.diffusivity, ratio);
        assert!((time / pure.unwrap() - 1.0).abs() < 1e-3);
    }

    #[test]
    fn still_air_dries_at_its_own_rate() {
        let flux = MassFlux::from_si(1e-6);
        let drying = apple().dry_to(2.0, flux).unwrap();
        let alone = 120.0 * 3e-3 * 4.0 / 1e-6;
        assert!((drying.time.seconds() / alone - 1.0).abs() < 1e-9);
    }

    #[test]
    fn stepping_by_rate_gives_the_same_time() {
        let slab = apple();
        let (mut moisture, mut time, step) = (slab.moisture, 0.0, 5.0);
        while moisture > 0.3 {
            moisture -= slab.rate_at(moisture, FLUX).unwrap().si() * step;
            time += step;
        }
        let closed = slab.dry_to(0.3, FLUX).unwrap().time.seconds();
        assert!((time / closed - 1.0).abs() < 0.03, "{time} {closed}");
    }

    #[test]
    fn a_goal_below_equilibrium_is_refused() {
        assert!(matches!(apple().dry_to(0.05, FLUX), Err(PhysicsError::Impossible { .. })));
        assert!(matches!(apple().dry_to(7.0, FLUX), Err(PhysicsError::Impossible { .. })));
        assert!(apple().dry_to(1.0, MassFlux::ZERO).is_err());
        let dry = DryingSlab { moisture: 0.01, ..apple() };
        assert!(dry.rate_at(0.01, FLUX).is_err());
    }
}
