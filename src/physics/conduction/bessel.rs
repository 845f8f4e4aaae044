//! Bessel functions of the first kind, orders 0 and 1.

/// Below this argument the power series is used, above it Hankel's asymptotic expansion; at the
/// border both are good to 1e-10.
const SERIES_BELOW: f64 = 12.0;
/// Terms of the power series: at 12 the 40th is below 1e-30.
const SERIES_TERMS: u32 = 40;
/// Terms of the asymptotic expansion, before it starts to diverge at 12.
const ASYMPTOTIC_TERMS: u32 = 20;

/// Returns J0 and J1 for an argument of zero or more, to 1e-10.
///
/// `J_n(x) = sum((-1)^k (x/2)^(2k+n) / (k! (k+n)!))`, and for large x
/// `J_n(x) = sqrt(2 / (pi x)) (P cos chi - Q sin chi)`, `chi = x - (n/2 + 1/4) pi`.
///
/// # Source
/// Abramowitz & Stegun, Handbook of Mathematical Functions, 1964, equations 9.1.10 and 9.2.5.
pub(super) fn bessel_j0_j1(x: f64) -> (f64, f64) {
    if x < SERIES_BELOW {
        (series(0.0, x), series(1.0, x))
    } else {
        (hankel(0.0, x), hankel(1.0, x))
    }
}

fn series(n: f64, x: f64) -> f64 {
    let quarter = x * x / 4.0;
    let mut term = if n > 0.0 { x / 2.0 } else { 1.0 };
    let mut sum = term;
    for k in 1..SERIES_TERMS {
        let k = f64::from(k);
        term *= -quarter / (k * (k + n));
        sum += term;
        if term.abs() < f64::EPSILON * sum.abs() {
            break;
        }
    }
    sum
}

fn hankel(n: f64, x: f64) -> f64 {
    let mu = 4.0 * n * n;
    let (mut p, mut q) = (0.0, 0.0);
    let mut term = 1.0;
    for k in 0..ASYMPTOTIC_TERMS {
        match k % 4 {
            0 => p += term,
            1 => q += term,
            2 => p -= term,
            _ => q -= term,
        }
        let odd = f64::from(2 * k + 1);
        let next = term * (mu - odd * odd) / (f64::from(k + 1) * 8.0 * x);
        if next.abs() < f64::EPSILON || next.abs() > term.abs() {
            break;
        }
        term = next;
    }
    let chi = x - (n / 2.0 + 0.25) * std::f64::consts::PI;
    (2.0 / (std::f64::consts::PI * x)).sqrt() * (p * chi.cos() - q * chi.sin())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn known_values_are_met() {
        // Abramowitz & Stegun, table 9.1.
        for (x, j0, j1) in [
            (0.0, 1.0, 0.0),
            (1.0, 0.765_197_686_6, 0.440_050_585_7),
            (5.0, -0.177_596_771_3, -0.327_579_137_6),
            (10.0, -0.245_935_764_5, 0.043_472_746_2),
            (15.0, -0.014_224_472_8, 0.205_104_038_6),
        ] {
            let (found0, found1) = bessel_j0_j1(x);
            assert!((found0 - j0).abs() < 1e-9 && (found1 - j1).abs() < 1e-9, "{x}");
        }
    }

    #[test]
    fn the_two_forms_meet_at_the_border() {
        for n in [0.0, 1.0] {
            assert!((series(n, SERIES_BELOW) - hankel(n, SERIES_BELOW)).abs() < 1e-10);
        }
    }
}
