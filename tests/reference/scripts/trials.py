"""Writes the library values behind tests/trials.rs. Needs scipy 1.17.1 and statsmodels 0.15.0.

Run from the root of the repository: python3 tests/reference/scripts/trials.py tests/trials
Every row names the call that gave its value.
"""

import csv
import sys
from pathlib import Path

import numpy as np
import statsmodels.api as sm
from scipy import integrate, optimize, stats
from statsmodels.stats.proportion import proportion_confint

FOLDER = Path(sys.argv[1])


def table(name, head, rows):
    with open(FOLDER / f"{name}.csv", "w", newline="") as file:
        out = csv.writer(file, lineterminator="\n")
        out.writerow(head)
        out.writerows(rows)


def student():
    for degrees in [1, 2, 3, 4, 4.5, 6, 10, 44, 200, 2000]:
        for p in [0.001, 0.025, 0.1, 0.4, 0.75, 0.9, 0.999]:
            value = stats.t.ppf(p, degrees)
            yield [p, degrees, f"{value:.12g}", "scipy.stats.t.ppf"]


def posterior_by_quadrature(prior, data):
    """Mean of mu and 0.9 quantile of the next measurement, from the densities alone."""
    m0, k0, a0, b0 = prior
    data = np.array(data)

    # Variance on a logarithmic grid, mu in standard deviations about its conditional mean.
    logs = np.linspace(np.log(b0) - 8, np.log(b0) + 12, 801)[:, None]
    variance = np.exp(logs)
    strength = k0 + len(data)
    z = np.linspace(-9, 9, 201)[None, :]
    mu = (k0 * m0 + data.sum()) / strength + np.sqrt(variance / strength) * z
    log = stats.norm.logpdf(mu, m0, np.sqrt(variance / k0))
    log = log + stats.invgamma.logpdf(variance, a0, scale=b0)
    log = log + sum(stats.norm.logpdf(x, mu, np.sqrt(variance)) for x in data)
    density = np.exp(log) * np.sqrt(variance / strength) * variance

    def integral(values):
        inner = integrate.simpson(values * density, x=z[0], axis=1)
        return integrate.simpson(inner, x=logs[:, 0])

    total = integral(np.ones_like(density))
    mean = integral(mu * np.ones_like(density)) / total
    below = lambda x: integral(stats.norm.cdf(x, mu, np.sqrt(variance))) / total
    return mean, below


def conjugate():
    cases = [((0.0, 1.0, 2.0, 0.05), [0.1, 0.2, 0.15]),
             ((0.0, 1.0, 2.0, 0.02), [-0.3]),
             ((0.1, 3.0, 4.0, 0.3), [0.4, -0.1, 0.05, 0.6, 0.2])]
    for prior, data in cases:
        mean, below = posterior_by_quadrature(prior, data)
        # The closed-form quantile by scipy's t; the quadrature must give its probability back.
        m0, k0, a0, b0 = prior
        n, bar = len(data), np.mean(data)
        kn, an = k0 + n, a0 + n / 2
        bn = b0 + 0.5 * np.sum((np.array(data) - bar) ** 2) + k0 * n * (bar - m0) ** 2 / (2 * kn)
        scale = np.sqrt(bn * (kn + 1) / (an * kn))
        q90 = stats.t.ppf(0.9, 2 * an, loc=(k0 * m0 + n * bar) / kn, scale=scale)
        yield [*prior, " ".join(map(str, data)), f"{mean:.8g}", f"{q90:.10g}", f"{below(q90):.6g}",
               "scipy.integrate.simpson over scipy.stats.norm and invgamma; scipy.stats.t.ppf"]


def known_variance():
    for mean, variance, noise, data in [(0.0, 0.04, 0.01, [0.1, 0.2, 0.15]), (0.5, 1.0, 0.25, [-0.2])]:
        # The prior as one more measurement, weighted by its precision.
        endog = np.array(data + [mean])
        weights = np.array([1 / noise] * len(data) + [1 / variance])
        fit = sm.WLS(endog, np.ones_like(endog), weights=weights).fit(cov_type="fixed scale")
        yield [mean, variance, noise, " ".join(map(str, data)), f"{fit.params[0]:.12g}",
               f"{fit.normalized_cov_params[0, 0]:.12g}", "statsmodels WLS(params, normalized_cov_params)"]


def panels():
    for tasters, correct in [(6, 5), (12, 8), (24, 13), (30, 14), (30, 15), (48, 22), (60, 27), (100, 30),
                             (1000, 360), (5000, 1700)]:
        p = stats.binomtest(correct, tasters, 1 / 3, alternative="greater").pvalue
        # The upper end at twice the risk is the one-sided limit.
        upper = proportion_confint(correct, tasters, alpha=0.1, method="beta")[1]
        missed = max(0.0, (upper - 1 / 3) / (2 / 3))
        yield ["triangle", tasters, correct, f"{p:.12g}", f"{missed:.10g}",
               "scipy.stats.binomtest greater; statsmodels proportion_confint beta"]
    for tasters, correct in [(7, 7), (12, 9), (30, 20), (44, 32), (60, 39), (400, 215)]:
        one = stats.binomtest(correct, tasters, 0.5, alternative="greater").pvalue
        two = stats.binomtest(correct, tasters, 0.5).pvalue
        upper = proportion_confint(correct, tasters, alpha=0.1, method="beta")[1]
        yield ["paired-one-sided", tasters, correct, f"{one:.12g}", f"{max(0, 2 * upper - 1):.10g}",
               "scipy.stats.binomtest greater; statsmodels proportion_confint beta"]
        inside = lambda p: (stats.binom.cdf(correct, tasters, p)
                            - stats.binom.cdf(tasters - correct - 1, tasters, p) - 0.05)
        # When all agree, no share can be ruled out.
        limit = 1.0 if correct == tasters else optimize.brentq(inside, 0.5, 1)
        yield ["paired-two-sided", tasters, correct, f"{two:.12g}", f"{2 * limit - 1:.8g}",
               "scipy.stats.binomtest two-sided; scipy.optimize.brentq over binom.cdf"]


table("student", ["probability", "degrees", "expected", "call"], student())
table("conjugate", ["mean", "strength", "shape", "scale", "data", "posterior_mean", "next_q90",
                    "probability_of_q90_by_quadrature", "call"], conjugate())
table("known_variance", ["mean", "variance", "noise", "data", "posterior_mean", "posterior_variance",
                         "call"], known_variance())
table("panels", ["design", "tasters", "correct", "p_value", "could_miss", "call"], panels())
