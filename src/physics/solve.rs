//! The one root finder and the one integrator of the physics floor.

use super::PhysicsError;

/// The root finder gives up after this many steps; halving alone needs about 60.
const MAX_STEPS: u32 = 200;

/// Returns the argument between `low` and `high` at which a continuous function is zero.
///
/// Brent's method: inverse quadratic interpolation guarded by halving, so that it always settles
/// once the function changes sign over the bracket.
///
/// # Errors
/// [`PhysicsError::Impossible`] when the function has the same sign at both ends, or is not a number
/// there; [`PhysicsError::NoConvergence`] after 200 steps.
///
/// # Source
/// R. P. Brent, Algorithms for Minimization without Derivatives, 1973, chapter 4.
pub fn root(
    what: &'static str,
    low: f64,
    high: f64,
    tolerance: f64,
    mut f: impl FnMut(f64) -> f64,
) -> Result<f64, PhysicsError> {
    let (mut a, mut b) = (low, high);
    let (mut fa, mut fb) = (f(a), f(b));
    if fa == 0.0 {
        return Ok(a);
    }
    let changes_sign = fa * fb <= 0.0;
    if !changes_sign {
        let because = format!("no solution between {low} and {high}");
        return Err(PhysicsError::Impossible { what, because });
    }
    let (mut c, mut fc) = (a, fa);
    let mut step = b - a;
    let mut before = step;
    for _ in 0..MAX_STEPS {
        if fb.signum() == fc.signum() {
            (c, fc) = (a, fa);
            step = b - a;
            before = step;
        }
        if fc.abs() < fb.abs() {
            (a, fa, b, fb, c, fc) = (b, fb, c, fc, b, fb);
        }
        let close = 2.0 * f64::EPSILON * b.abs() + 0.5 * tolerance;
        let half = 0.5 * (c - b);
        if half.abs() <= close || fb == 0.0 {
            return Ok(b);
        }
        (step, before) = next_step((a, fa), (b, fb), (c, fc), half, close, (step, before));
        (a, fa) = (b, fb);
        b += if step.abs() > close { step } else { close.copysign(half) };
        fb = f(b);
    }
    Err(PhysicsError::NoConvergence { what, steps: MAX_STEPS, last: b })
}

/// Chooses between interpolation and halving; returns the step and the step before it.
fn next_step(
    (a, fa): (f64, f64),
    (b, fb): (f64, f64),
    (c, fc): (f64, f64),
    half: f64,
    close: f64,
    (step, before): (f64, f64),
) -> (f64, f64) {
    if before.abs() < close || fa.abs() <= fb.abs() {
        return (half, half);
    }
    let s = fb / fa;
    let secant = (a - c).abs() <= 0.0;
    let (mut p, mut q) = if secant {
        (2.0 * half * s, 1.0 - s)
    } else {
        let (q, r) = (fa / fc, fb / fc);
        (s * (2.0 * half * q * (q - r) - (b - a) * (r - 1.0)), (q - 1.0) * (r - 1.0) * (s - 1.0))
    };
    if p > 0.0 {
        q = -q;
    }
    p = p.abs();
    if 2.0 * p < (3.0 * half * q - (close * q).abs()).min((before * q).abs()) {
        (p / q, step)
    } else {
        (half, half)
    }
}

/// Returns the integral of a smooth function from `low` to `high` by Gauss-Legendre quadrature.
///
/// The range is cut into `panels` equal panels of eight nodes each.
///
/// # Source
/// Nodes and weights: Abramowitz & Stegun, Handbook of Mathematical Functions, 1964, table 25.4.
pub fn integral(low: f64, high: f64, panels: u32, f: impl Fn(f64) -> f64) -> f64 {
    let [sum] = integrals(low, high, panels, |x| [f(x)]);
    sum
}

/// Returns the integrals of several functions that are computed together; see [`integral`].
///
/// # Source
/// As [`integral`].
pub fn integrals<const COUNT: usize>(
    low: f64,
    high: f64,
    panels: u32,
    f: impl Fn(f64) -> [f64; COUNT],
) -> [f64; COUNT] {
    const NODES: [(f64, f64); 4] = [
        (0.183_434_642_495_649_8, 0.362_683_783_378_362),
        (0.525_532_409_916_329, 0.313_706_645_877_887_3),
        (0.796_666_477_413_626_7, 0.222_381_034_453_374_5),
        (0.960_289_856_497_536_3, 0.101_228_536_290_376_3),
    ];
    let panels = panels.max(1);
    let half = 0.5 * (high - low) / f64::from(panels);
    let mut sums = [0.0; COUNT];
    for index in 0..panels {
        let middle = low + half * f64::from(2 * index + 1);
        for (x, w) in NODES {
            let (before, after) = (f(middle - half * x), f(middle + half * x));
            for (sum, (a, b)) in sums.iter_mut().zip(before.into_iter().zip(after)) {
                *sum += w * (a + b);
            }
        }
    }
    sums.map(|sum| half * sum)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn roots_of_known_functions_are_found() {
        let cosine = root("cosine", 1.0, 2.0, 1e-13, f64::cos).unwrap();
        assert!((cosine - std::f64::consts::FRAC_PI_2).abs() < 1e-12);
        let cubic = root("cubic", -2.0, 3.0, 1e-13, |x| x * x * x - 2.0).unwrap();
        assert!((cubic - 2f64.cbrt()).abs() < 1e-12);
    }

    #[test]
    fn a_bracket_without_a_sign_change_is_refused() {
        let error = root("square", -1.0, 1.0, 1e-12, |x| x * x + 1.0).unwrap_err();
        assert!(matches!(error, PhysicsError::Impossible { .. }));
        assert!(root("nothing", 0.0, 1.0, 1e-12, |_| f64::NAN).is_err());
    }

    #[test]
    fn the_integral_of_a_sine_is_exact() {
        let area = integral(0.0, std::f64::consts::PI, 2, f64::sin);
        assert!((area - 2.0).abs() < 1e-12);
    }
}
