//! Learning from trials: against libraries, and recovery of what synthetic trials were made with.

use rand_core::{Rng, SeedableRng};
use serde::Deserialize;
use standin::estimate::Estimate;
use standin::trial::calibrate::{Corrections, Observation, TIME, YIELD, calibrate};
use standin::trial::conjugate::{KnownVariance, NormalInverseGamma};
use standin::trial::student;

use super::rows;

#[derive(Deserialize)]
struct Quantile {
    probability: f64,
    degrees: f64,
    expected: f64,
}

#[test]
fn quantiles_of_student_agree_with_a_library() {
    for row in rows::<Quantile>("student.csv") {
        let found = student::quantile(row.probability, row.degrees).unwrap();
        let off = (found / row.expected - 1.0).abs();
        assert!(off < 1e-8, "{} {}: {found}", row.probability, row.degrees);
    }
}

fn numbers(text: &str) -> Vec<f64> {
    text.split(' ').map(|word| word.parse().unwrap()).collect()
}

#[derive(Deserialize)]
struct Conjugate {
    mean: f64,
    strength: f64,
    shape: f64,
    scale: f64,
    data: String,
    posterior_mean: f64,
    next_q90: f64,
    probability_of_q90_by_quadrature: f64,
}

#[test]
fn the_update_agrees_with_quadrature_over_the_densities() {
    for row in rows::<Conjugate>("conjugate.csv") {
        let prior = NormalInverseGamma {
            mean: row.mean,
            strength: row.strength,
            shape: row.shape,
            scale: row.scale,
        };
        let next = prior.update(&numbers(&row.data)).predictive();
        assert!((next.location - row.posterior_mean).abs() < 1e-8);
        assert!((next.quantile(0.9).unwrap() - row.next_q90).abs() < 1e-8);
        assert!((row.probability_of_q90_by_quadrature - 0.9).abs() < 1e-5);
    }
}

#[derive(Deserialize)]
struct Known {
    mean: f64,
    variance: f64,
    noise: f64,
    data: String,
    posterior_mean: f64,
    posterior_variance: f64,
}

#[test]
fn the_update_with_known_variance_agrees_with_weighted_least_squares() {
    for row in rows::<Known>("known_variance.csv") {
        let prior = KnownVariance { mean: row.mean, variance: row.variance, noise: row.noise };
        let after = prior.update(&numbers(&row.data));
        assert!((after.mean - row.posterior_mean).abs() < 1e-11);
        assert!((after.variance - row.posterior_variance).abs() < 1e-13);
        let next = after.predictive_variance();
        assert!((next - row.posterior_variance - row.noise).abs() < 1e-13);
    }
}

/// Pairs of standard normal numbers from uniform ones (G. E. P. Box and M. E. Muller, A note on the
/// generation of random normal deviates, 1958).
fn normals(seed: u64, count: usize) -> Vec<f64> {
    let mut random = rand_pcg::Pcg64::seed_from_u64(seed);
    let mut uniform = || (random.next_u64() >> 11) as f64 / (1u64 << 53) as f64;
    let each = (0..count).map(|_| {
        let (radius, angle) = (1.0 - uniform(), uniform());
        (-2.0 * radius.ln()).sqrt() * (2.0 * std::f64::consts::PI * angle).cos()
    });
    each.collect()
}

fn trial(index: usize, predicted: Estimate, measured: f64) -> Observation {
    Observation {
        trial: format!("T-{index:02}"),
        tester: if index.is_multiple_of(2) { "JD" } else { "H1" }.into(),
        kitchen: if index.is_multiple_of(3) { "tiny-flat" } else { "family-kitchen" }.into(),
        route: "wide-pan-boil".into(),
        quantity: TIME.into(),
        predicted,
        measured,
    }
}

/// Trials of a route that takes `factor` times as long as predicted, with a log-normal scatter.
fn synthetic(seed: u64, count: usize, factor: f64, scatter: f64) -> Vec<Observation> {
    let predicted = Estimate::new(1800.0, 2400.0, 3200.0).unwrap();
    let each = normals(seed, count).into_iter().enumerate();
    each.map(|(i, z)| trial(i, predicted, 2400.0 * factor * (scatter * z).exp())).collect()
}

#[test]
fn a_factor_is_recovered_from_many_trials() {
    for (seed, factor, scatter) in [(1, 1.3, 0.12), (2, 0.7, 0.25), (3, 1.0, 0.05)] {
        let learned = calibrate(&synthetic(seed, 400, factor, scatter)).unwrap();
        let found = &learned[0].factor;
        // Five standard errors of the mean, plus what the prior still pulls.
        let allowed = 5.0 * scatter / 20.0 + factor.ln().abs() / 400.0;
        assert!((found.typical() / factor).ln().abs() < allowed, "{seed}: {found:?}");
        let width = (found.high() / found.low()).ln();
        let expected = 2.0 * 1.281_55 * scatter;
        assert!((width / expected - 1.0).abs() < 0.2, "{seed}: {width} for {expected}");
    }
}

#[test]
fn learned_ranges_hold_about_four_fifths_of_the_next_trials() {
    let (mut held, mut all) = (0, 0);
    for seed in 0..400 {
        let trials = synthetic(seed, 7, 1.2, 0.2);
        let (next, known) = trials.split_last().unwrap();
        let learned = calibrate(known).unwrap();
        let factor = &learned[0].factor;
        let ratio = next.ratio().unwrap();
        held += usize::from(factor.low() <= ratio && ratio <= factor.high());
        all += 1;
    }
    let share = held as f64 / f64::from(all);
    // 0.8, give or take four standard errors of 400 draws and the pull of the prior.
    assert!((0.70..0.90).contains(&share), "{share}");
}

#[test]
fn few_trials_stay_near_the_prior() {
    let predicted = Estimate::new(1800.0, 2400.0, 3200.0).unwrap();
    let none = NormalInverseGamma::from_half_width(0.5 * (3200.0f64 / 1800.0).ln()).unwrap();
    let before = none.factor().unwrap();
    assert!((before.typical() - 1.0).abs() < 1e-12);
    assert!((before.high() / before.low() - 3200.0 / 1800.0).abs() < 1e-6);
    let one = calibrate(&[trial(0, predicted, 4800.0)]).unwrap();
    // One trial counts as much as the model: half way on the logarithmic scale.
    assert!((one[0].factor.typical() - 2.0f64.sqrt()).abs() < 1e-9);
}

#[test]
fn coverage_counts_what_the_range_held() {
    let predicted = Estimate::new(1800.0, 2400.0, 3200.0).unwrap();
    let trials = [1700.0, 1800.0, 2400.0, 3300.0].map(|seconds| trial(0, predicted, seconds));
    assert_eq!(calibrate(&trials).unwrap()[0].held, 2);
}

#[test]
fn an_outlier_is_named_and_still_counts() {
    let predicted = Estimate::new(1800.0, 2400.0, 3200.0).unwrap();
    let mut trials = vec![trial(1, predicted, 2400.0), trial(2, predicted, 2400.0)];
    let without = calibrate(&trials).unwrap()[0].factor;
    trials.push(trial(3, predicted, 24_000.0));
    let learned = calibrate(&trials).unwrap();
    assert_eq!(learned[0].outliers, ["T-03"]);
    assert!(learned[0].factor.typical() > 1.5 * without.typical());
}

#[test]
fn a_measured_zero_is_an_outlier_without_a_ratio() {
    let predicted = Estimate::new(0.1, 0.2, 0.3).unwrap();
    let mut zero = trial(1, predicted, 0.0);
    zero.quantity = YIELD.into();
    let learned = calibrate(&[zero]).unwrap();
    assert_eq!(learned[0].outliers, ["T-01"]);
    assert_eq!(learned[0].counted(), 0);
    assert!(Corrections::of(&learned).is_empty());
}

#[test]
fn a_corrected_yield_stays_below_all() {
    let predicted = Estimate::new(0.8, 0.9, 0.95).unwrap();
    let mut more = trial(1, predicted, 0.99);
    more.quantity = YIELD.into();
    let corrections = Corrections::of(&calibrate(&[more.clone(), more]).unwrap());
    let known = corrections.find("wide-pan-boil", YIELD).unwrap();
    let corrected = known.correct(&predicted, YIELD);
    assert_eq!(known.trials, 2);
    assert!(corrected.high() <= 1.0 && corrected.typical() > 0.9);
}

#[test]
fn spread_is_told_by_tester_and_by_kitchen() {
    let learned = calibrate(&synthetic(5, 6, 1.0, 0.1)).unwrap();
    let names = |groups: &[standin::trial::calibrate::Group]| -> Vec<(String, usize)> {
        groups.iter().map(|group| (group.name.clone(), group.count)).collect()
    };
    assert_eq!(names(&learned[0].testers), [("H1".into(), 3), ("JD".into(), 3)]);
    let kitchens = [("family-kitchen".into(), 4), ("tiny-flat".into(), 2)];
    assert_eq!(names(&learned[0].kitchens), kitchens);
}
