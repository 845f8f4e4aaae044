//! The first moments of heating, when the solid is still endless: the half-space.

use super::{Position, Shape};
use crate::physics::{PhysicsError, Validity, positive};
use crate::quantity::{Diffusivity, Length, Temperature, Time};

/// Shares of the temperature step that a depth can be asked for.
const SHARE_RANGE: Validity = Validity {
    law: "heated layer of a half-space",
    quantity: "share of the temperature step",
    low: 1e-6,
    high: 1.0 - 1e-6,
    unit: "",
};

/// Returns the complementary error function, to 1.2e-7 of its value.
///
/// `erfc(x) = t exp(-x² + polynomial(t))`, `t = 1 / (1 + x / 2)`
///
/// # Units
/// Plain numbers.
///
/// # Validity
/// Every x.
///
/// # Source
/// Press et al., Numerical Recipes in C, 2nd ed. 1992, section 6.2 (Chebyshev fit).
pub fn complementary_error_function(x: f64) -> f64 {
    if x < 0.0 { 2.0 - complementary_error_function(-x) } else { (-x * x).exp() * scaled(x) }
}

/// `exp(x²) erfc(x)` for x of zero or more; it neither over- nor underflows.
fn scaled(x: f64) -> f64 {
    const POLYNOMIAL: [f64; 10] = [
        -1.265_512_23,
        1.000_023_68,
        0.374_091_96,
        0.096_784_18,
        -0.186_288_06,
        0.278_868_07,
        -1.135_203_98,
        1.488_515_87,
        -0.822_152_23,
        0.170_872_77,
    ];
    let t = 1.0 / (1.0 + 0.5 * x);
    t * POLYNOMIAL.iter().rev().fold(0.0, |sum, c| sum * t + c).exp()
}

/// The unaccomplished share for a Fourier number so small that the solid is a half-space.
pub(super) fn short_time(shape: Shape, bi: f64, fo: f64, position: Position) -> f64 {
    if fo <= 0.0 {
        return 1.0;
    }
    let root = fo.sqrt();
    match position {
        Position::Centre => 1.0,
        Position::Surface => half_space(bi, root, 0.0),
        Position::At(place) => half_space(bi, root, 1.0 - place),
        Position::Mean => 1.0 - shape.dimensions() * taken_up(bi, root),
    }
}

/// Share of its step that a half-space took up: `2 sqrt(fo / pi) - (1 - E(x)) / bi`,
/// `x = bi sqrt(fo)`, by its power series where the difference cancels.
fn taken_up(bi: f64, root: f64) -> f64 {
    const SMALL: f64 = 0.01;
    let x = bi * root;
    let root_pi = std::f64::consts::PI.sqrt();
    if x < SMALL {
        return (x * x - 4.0 * x * x * x / (3.0 * root_pi)) / bi;
    }
    let held_back = if bi.is_infinite() { 0.0 } else { (1.0 - scaled(x)) / bi };
    2.0 * root / root_pi - held_back
}

/// Share left at a depth: `erf(y) + exp(-y²) E(y + bi sqrt(fo))`, y = depth / (2 sqrt(fo)).
fn half_space(bi: f64, root: f64, depth: f64) -> f64 {
    let y = depth / (2.0 * root);
    let lag = if bi.is_infinite() { 0.0 } else { (-y * y).exp() * scaled(y + bi * root) };
    1.0 - complementary_error_function(y) + lag
}

/// Returns the temperature at a depth under a surface that is suddenly held at a temperature.
///
/// `T = start + (surface - start) erfc(x / (2 sqrt(a t)))`
///
/// # Units
/// T \[K\], x \[m\], a \[m²/s\], t \[s\].
///
/// # Validity
/// Until the heat reaches the other side; the surface temperature is held.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a diffusivity or time of zero or less.
///
/// # Source
/// Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. 1959, section 2.4.
pub fn surface_layer_temperature(
    (start, surface): (Temperature, Temperature),
    depth: Length,
    diffusivity: Diffusivity,
    time: Time,
) -> Result<Temperature, PhysicsError> {
    let reach = reach(diffusivity, time)?;
    let share = complementary_error_function(depth.metres().max(0.0) / reach);
    Ok(start + (surface - start) * share)
}

/// Returns the depth to which a layer under a suddenly heated surface has passed a temperature.
///
/// `x = 2 sqrt(a t) erfc⁻¹((T - start) / (surface - start))`
///
/// # Units
/// x \[m\], a \[m²/s\], t \[s\], T \[K\].
///
/// # Validity
/// T between start and surface; until the heat reaches the other side.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a diffusivity or time of zero or less;
/// [`PhysicsError::OutsideValidity`] when T does not lie between the two.
///
/// # Source
/// Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. 1959, section 2.4.
pub fn surface_layer_depth(
    (start, surface): (Temperature, Temperature),
    limit: Temperature,
    diffusivity: Diffusivity,
    time: Time,
) -> Result<Length, PhysicsError> {
    /// erfc(4) is 1.5e-8, below the smallest share asked for.
    const LARGEST_ARGUMENT: f64 = 4.0;
    let reach = reach(diffusivity, time)?;
    let share = SHARE_RANGE.check((limit - start) / (surface - start))?;
    let argument = crate::physics::solve::root(
        "depth of the heated layer",
        0.0,
        LARGEST_ARGUMENT,
        1e-10,
        |x| complementary_error_function(x) - share,
    )?;
    Ok(Length::from_metres(argument * reach))
}

fn reach(diffusivity: Diffusivity, time: Time) -> Result<f64, PhysicsError> {
    let a = positive("diffusivity", diffusivity.si(), "m²/s")?;
    let t = positive("time", time.seconds(), "s")?;
    Ok(2.0 * (a * t).sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;

    const WATER_LIKE: Diffusivity = Diffusivity::from_si(1.4e-7);

    #[test]
    fn the_error_function_meets_its_table() {
        // Abramowitz & Stegun 1964, table 7.1.
        for (x, erf) in
            [(0.0, 0.0), (0.5, 0.520_499_877_8), (1.0, 0.842_700_792_9), (2.0, 0.995_322_265)]
        {
            assert!((complementary_error_function(x) - (1.0 - erf)).abs() < 2e-7);
            assert!((complementary_error_function(-x) - (1.0 + erf)).abs() < 2e-7);
        }
    }

    #[test]
    fn depth_and_temperature_invert_each_other() {
        let range = (Temperature::from_celsius(5.0), Temperature::from_celsius(100.0));
        let limit = Temperature::from_celsius(60.0);
        let minute = Time::from_minutes(1.0);
        let depth = surface_layer_depth(range, limit, WATER_LIKE, minute).unwrap();
        let back = surface_layer_temperature(range, depth, WATER_LIKE, minute).unwrap();
        assert!((back - limit).kelvin().abs() < 1e-6);
        assert!((depth.millimetres() - 2.3).abs() < 0.1, "{}", depth.millimetres());
    }

    #[test]
    fn impossible_layers_are_refused() {
        let range = (Temperature::from_celsius(5.0), Temperature::from_celsius(100.0));
        let minute = Time::from_minutes(1.0);
        let hot = Temperature::from_celsius(120.0);
        assert!(surface_layer_depth(range, hot, WATER_LIKE, minute).is_err());
        assert!(surface_layer_depth(range, hot, Diffusivity::ZERO, minute).is_err());
        assert!(surface_layer_temperature(range, Length::ZERO, WATER_LIKE, Time::ZERO).is_err());
    }
}
