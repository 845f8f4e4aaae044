//! Drying limited by diffusion of water to the surface.

use std::f64::consts::PI;

use crate::physics::constants::GAS_CONSTANT;
use crate::physics::solve::root;
use crate::physics::{PhysicsError, Validity, positive};
use crate::quantity::{Diffusivity, Length, MolarEnergy, Temperature, Time};

/// Below this dimensionless time a slab or a sphere follows the law of an endless body; the two
/// agree there to better than 1e-8.
const SHORT_TIME: f64 = 0.05;
/// The same for a cylinder, whose short-time law is cut after the third term.
const SHORT_TIME_CYLINDER: f64 = 1e-3;
/// A term of the series is left out when its exponent passes this.
const NEGLIGIBLE_EXPONENT: f64 = 40.0;
/// A moisture ratio for which a time can be sought.
const RATIO: Validity = Validity {
    law: "drying by diffusion",
    quantity: "moisture ratio",
    low: 1e-6,
    high: 1.0,
    unit: "",
};

/// The piece that dries, with the surfaces from which water leaves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum DryingShape {
    /// A wide slice; half its thickness when both faces dry, the whole when one does.
    Slab {
        /// Distance from the dry face to the middle, or to the face that does not dry.
        half_thickness: Length,
    },
    /// A long stick.
    Cylinder {
        /// Radius.
        radius: Length,
    },
    /// A short stick or a thick disc that also dries through its ends.
    ShortCylinder {
        /// Radius.
        radius: Length,
        /// Half the length.
        half_length: Length,
    },
    /// A ball.
    Sphere {
        /// Radius.
        radius: Length,
    },
    /// A block that dries through all six faces.
    Brick {
        /// Half of each edge.
        half_edges: [Length; 3],
    },
}

/// Returns the mean moisture ratio of a piece after a time, its surface kept dry.
///
/// Slab `8/π² Σ exp(-(2n+1)² π² fo/4)/(2n+1)²`, sphere `6/π² Σ exp(-n² π² fo)/n²`, cylinder
/// `4 Σ exp(-β² fo)/β²` with `J0(β) = 0`; a short cylinder and a brick are products of these.
///
/// # Units
/// D [m²/s], t \[s\], `fo = D t / L²` with L half thickness or radius \[m\].
///
/// # Validity
/// Uniform moisture at first, constant D and size, no resistance in the air.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a size or diffusivity of zero or less, or a negative time.
///
/// # Source
/// Crank, The Mathematics of Diffusion, 1975, eqs. 4.18, 5.23, 6.20; short times eqs. 4.20, 5.24,
/// 6.22.
pub fn moisture_ratio_by_diffusion(
    shape: DryingShape,
    diffusivity: Diffusivity,
    time: Time,
) -> Result<f64, PhysicsError> {
    positive("diffusivity", diffusivity.si(), "m²/s")?;
    if time.si() < 0.0 {
        let (quantity, value, unit) = ("time", time.si(), "s");
        return Err(PhysicsError::NotPositive { quantity, value, unit });
    }
    let fourier = |length: Length| {
        let length = positive("thickness or radius", length.si(), "m")?;
        Ok::<f64, PhysicsError>(diffusivity.si() * time.si() / (length * length))
    };
    Ok(match shape {
        DryingShape::Slab { half_thickness } => slab(fourier(half_thickness)?),
        DryingShape::Cylinder { radius } => cylinder(fourier(radius)?),
        DryingShape::ShortCylinder { radius, half_length } => {
            cylinder(fourier(radius)?) * slab(fourier(half_length)?)
        }
        DryingShape::Sphere { radius } => sphere(fourier(radius)?),
        DryingShape::Brick { half_edges: [a, b, c] } => {
            slab(fourier(a)?) * slab(fourier(b)?) * slab(fourier(c)?)
        }
    })
}

/// Returns the time to a mean moisture ratio, the inverse of [`moisture_ratio_by_diffusion`].
///
/// # Units
/// D [m²/s], t \[s\].
///
/// # Validity
/// A ratio of 1e-6 or more; otherwise as for [`moisture_ratio_by_diffusion`].
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for a ratio outside 1e-6 to 1;
/// [`PhysicsError::NotPositive`] for a size or diffusivity of zero or less.
///
/// # Source
/// As for [`moisture_ratio_by_diffusion`].
pub fn time_to_ratio_by_diffusion(
    shape: DryingShape,
    diffusivity: Diffusivity,
    ratio: f64,
) -> Result<Time, PhysicsError> {
    /// Bracket of the dimensionless time: 1 - MR is 1e-8 at its start, MR below 1e-10 at its end.
    const LOGARITHM_OF_FOURIER: (f64, f64) = (-40.0, 2.5);
    let ratio = RATIO.check(ratio)?;
    moisture_ratio_by_diffusion(shape, diffusivity, Time::ZERO)?;
    if ratio >= 1.0 {
        return Ok(Time::ZERO);
    }
    let scale = smallest(shape).si().powi(2) / diffusivity.si();
    let at = |logarithm: f64| Time::from_seconds(scale * logarithm.exp());
    let excess = |logarithm: f64| {
        let found = moisture_ratio_by_diffusion(shape, diffusivity, at(logarithm));
        found.map_or(f64::NAN, |found| found - ratio)
    };
    let (low, high) = LOGARITHM_OF_FOURIER;
    root("drying time", low, high, 1e-12, excess).map(at)
}

fn smallest(shape: DryingShape) -> Length {
    match shape {
        DryingShape::Slab { half_thickness } => half_thickness,
        DryingShape::Cylinder { radius } | DryingShape::Sphere { radius } => radius,
        DryingShape::ShortCylinder { radius, half_length } => radius.min(half_length),
        DryingShape::Brick { half_edges: [a, b, c] } => a.min(b).min(c),
    }
}

/// Mean moisture ratio of a slab at a dimensionless time on the half thickness.
pub(super) fn slab(fo: f64) -> f64 {
    if fo < SHORT_TIME {
        return 1.0 - 2.0 * (fo / PI).sqrt();
    }
    let mut sum = 0.0;
    for odd in (0..).map(|n| f64::from(2 * n + 1)) {
        let exponent = odd * odd * PI * PI * fo / 4.0;
        sum += (-exponent).exp() / (odd * odd);
        if exponent > NEGLIGIBLE_EXPONENT {
            break;
        }
    }
    8.0 / (PI * PI) * sum
}

fn sphere(fo: f64) -> f64 {
    if fo < SHORT_TIME {
        return 1.0 - 6.0 * (fo / PI).sqrt() + 3.0 * fo;
    }
    let mut sum = 0.0;
    for n in (1..).map(f64::from) {
        let exponent = n * n * PI * PI * fo;
        sum += (-exponent).exp() / (n * n);
        if exponent > NEGLIGIBLE_EXPONENT {
            break;
        }
    }
    6.0 / (PI * PI) * sum
}

fn cylinder(fo: f64) -> f64 {
    if fo < SHORT_TIME_CYLINDER {
        return 1.0 - 4.0 * (fo / PI).sqrt() + fo + fo.powf(1.5) / (3.0 * PI.sqrt());
    }
    let mut sum = 0.0;
    for index in 1.. {
        let beta = bessel_zero(index);
        let exponent = beta * beta * fo;
        sum += (-exponent).exp() / (beta * beta);
        if exponent > NEGLIGIBLE_EXPONENT {
            break;
        }
    }
    4.0 * sum
}

/// Returns the n-th zero of the Bessel function J0.
///
/// The first five from Abramowitz & Stegun 1964, table 9.5; the rest by McMahon's expansion,
/// eq. 9.5.12, exact to 1e-9 there.
fn bessel_zero(index: i32) -> f64 {
    const FIRST: [f64; 5] =
        [2.404_825_557_7, 5.520_078_110_3, 8.653_727_912_9, 11.791_534_439_1, 14.930_917_708_5];
    let place = usize::try_from(index - 1).unwrap_or(0);
    FIRST.get(place).copied().unwrap_or_else(|| {
        let b = (f64::from(index) - 0.25) * PI;
        let e = 8.0 * b;
        b + 1.0 / e - 124.0 / (3.0 * e.powi(3)) + 120_928.0 / (15.0 * e.powi(5))
    })
}

/// An effective moisture diffusivity at one temperature and its activation energy.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MoistureDiffusivity {
    /// The food and how it was dried, in plain words.
    pub food: &'static str,
    /// Diffusivity at `reference`.
    pub value: Diffusivity,
    /// The temperature of that value.
    pub reference: Temperature,
    /// Activation energy.
    pub activation: MolarEnergy,
    /// The lowest and highest temperature of the air in the experiments [°C].
    pub range_celsius: (f64, f64),
    /// Where it was published.
    pub source: &'static str,
}

/// Published diffusivities, by food.
pub const DIFFUSIVITIES: &[MoistureDiffusivity] = &[
    MoistureDiffusivity {
        food: "mango",
        value: Diffusivity::from_square_metres_per_second(4.97e-10),
        reference: Temperature::from_celsius(60.0),
        activation: MolarEnergy::from_joules_per_mole(37_990.0),
        range_celsius: (60.0, 80.0),
        source: "Akoy 2014, Experimental characterization and modeling of thin-layer drying of \
                 mango slices, International Food Research Journal 21, abstract (3 mm slices)",
    },
    MoistureDiffusivity {
        food: "apple",
        value: Diffusivity::from_square_metres_per_second(2.27e-10),
        reference: Temperature::from_celsius(40.0),
        activation: MolarEnergy::from_joules_per_mole(33_980.0),
        range_celsius: (40.0, 60.0),
        source: "Sacilik & Elicin 2006, The thin layer drying characteristics of organic apple \
                 slices, Journal of Food Engineering 73, abstract; activation energy from its two \
                 ends, 2.27e-10 and 4.97e-10 m²/s at 40 and 60 °C",
    },
    MoistureDiffusivity {
        food: "foamed melon",
        value: Diffusivity::from_square_metres_per_second(3.3e-9),
        reference: Temperature::from_celsius(40.0),
        activation: MolarEnergy::from_joules_per_mole(32_500.0),
        range_celsius: (40.0, 70.0),
        source: "Salahi, Mohebbi & Taghizadeh 2015, Foam-mat drying of cantaloupe, Journal of Food \
                 Processing and Preservation, abstract (3 mm mats)",
    },
];

/// Finds the published diffusivity of a food.
pub fn diffusivity_of(food: &str) -> Option<&'static MoistureDiffusivity> {
    DIFFUSIVITIES.iter().find(|entry| entry.food == food)
}

/// Returns a diffusivity at another temperature.
///
/// `D = D_ref exp(-Ea/R (1/T - 1/T_ref))`
///
/// # Units
/// D [m²/s], Ea [J/mol], T \[K\].
///
/// # Validity
/// 0 °C to 150 °C; a fit holds within its own experiments.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a diffusivity of zero or less;
/// [`PhysicsError::OutsideValidity`] for a temperature outside the range.
///
/// # Source
/// Arrhenius law, as fitted in the sources of [`DIFFUSIVITIES`].
pub fn diffusivity_at(
    reference: Diffusivity,
    reference_temperature: Temperature,
    activation: MolarEnergy,
    temperature: Temperature,
) -> Result<Diffusivity, PhysicsError> {
    const RANGE: Validity = Validity {
        law: "a moisture diffusivity",
        quantity: "temperature",
        low: 0.0,
        high: 150.0,
        unit: "°C",
    };
    positive("diffusivity", reference.si(), "m²/s")?;
    RANGE.check(temperature.celsius())?;
    RANGE.check(reference_temperature.celsius())?;
    let inverse = 1.0 / temperature.kelvin() - 1.0 / reference_temperature.kelvin();
    Ok(reference * (-activation.si() / GAS_CONSTANT * inverse).exp())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn millimetres(value: f64) -> Length {
        Length::from_millimetres(value)
    }

    fn shapes() -> [DryingShape; 5] {
        let (a, b) = (millimetres(2.0), millimetres(5.0));
        [
            DryingShape::Slab { half_thickness: a },
            DryingShape::Cylinder { radius: a },
            DryingShape::ShortCylinder { radius: b, half_length: a },
            DryingShape::Sphere { radius: a },
            DryingShape::Brick { half_edges: [a, b, b] },
        ]
    }

    #[test]
    fn ratios_fall_and_round_trip() {
        let d = Diffusivity::from_si(3e-10);
        for shape in shapes() {
            let mut before = 1.0 + 1e-12;
            for hours in [0.0, 0.001, 0.01, 0.1, 0.5, 1.0, 3.0, 10.0] {
                let ratio = moisture_ratio_by_diffusion(shape, d, Time::from_hours(hours)).unwrap();
                assert!(ratio < before && ratio > 0.0, "{shape:?} {hours}");
                before = ratio;
            }
            for ratio in [0.999, 0.7, 0.3, 0.05, 1e-4] {
                let time = time_to_ratio_by_diffusion(shape, d, ratio).unwrap();
                let back = moisture_ratio_by_diffusion(shape, d, time).unwrap();
                assert!((back - ratio).abs() < 1e-9, "{shape:?} {ratio}");
            }
        }
    }

    #[test]
    fn short_and_long_time_laws_meet() {
        for (law, at, allowed) in [
            (slab as fn(f64) -> f64, SHORT_TIME, 1e-7),
            (sphere, SHORT_TIME, 1e-7),
            (cylinder, SHORT_TIME_CYLINDER, 1e-6),
        ] {
            assert!((law(at * (1.0 - 1e-9)) - law(at)).abs() < allowed);
        }
    }

    #[test]
    fn nonsense_is_refused() {
        let d = Diffusivity::from_si(3e-10);
        let slab = DryingShape::Slab { half_thickness: Length::ZERO };
        assert!(moisture_ratio_by_diffusion(slab, d, Time::from_hours(1.0)).is_err());
        let slab = DryingShape::Slab { half_thickness: millimetres(1.0) };
        assert!(moisture_ratio_by_diffusion(slab, Diffusivity::ZERO, Time::ZERO).is_err());
        assert!(moisture_ratio_by_diffusion(slab, d, Time::from_seconds(-1.0)).is_err());
        assert!(time_to_ratio_by_diffusion(slab, d, 0.0).is_err());
        let (warm, hot) = (Temperature::from_celsius(40.0), Temperature::from_celsius(200.0));
        assert!(diffusivity_at(d, warm, MolarEnergy::from_si(3e4), hot).is_err());
        assert!(diffusivity_at(Diffusivity::ZERO, warm, MolarEnergy::from_si(3e4), warm).is_err());
    }
}
