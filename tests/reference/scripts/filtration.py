"""Prints the library rows of filtration.csv. Needs scipy 1.17.1."""

import csv
import sys

import numpy as np
from scipy import integrate, stats

G = 9.80665
OUT = csv.writer(sys.stdout, lineterminator="\n")


def dripping():
    for h, rho, mu, rm, alpha, c, share in [
            (0.1, 1000, 1e-3, 1e9, 1e11, 5, 0.9), (0.2, 1050, 2e-3, 5e9, 5e11, 10, 0.8),
            (0.05, 1000, 1e-3, 2e10, 0, 0, 0.95)]:
        slope = lambda t, v: rho * G * (h - v) / (mu * (alpha * c * v + rm))
        arrived = lambda t, v: v[0] - share * h
        arrived.terminal = True
        run = integrate.solve_ivp(slope, (0, 1e9), [0.0], events=arrived, rtol=1e-10, atol=1e-14,
                                  method="LSODA")
        given = (f"head={h} m; liquid-density={rho} kg/m3; viscosity={mu} Pa.s; "
                 f"medium-resistance={rm:g} 1/m; cake-resistance={alpha:g} m/kg; "
                 f"solids={c} kg/m3; share={share}")
        OUT.writerow(["drip", given, "drip_time_s", f"{run.t_events[0][0]:.8g}", 1e-5, "rel",
                      "library", "scipy-drip", "solve_ivp, LSODA"])


def straining():
    deviations = {"mesh": 1.05, "paper": 1.6, "cloth": 2.0}
    for median, sigma, opening, medium in [(50, 2.5, 75, "mesh"), (30, 2.0, 20, "paper"),
                                           (100, 3.0, 150, "cloth")]:
        grade = lambda d: stats.norm.cdf(np.log(d / opening) / np.log(deviations[medium]))
        law = stats.lognorm(s=np.log(sigma), scale=median)
        passed, _ = integrate.quad(lambda z: stats.norm.pdf(z) * (1 - grade(median * sigma**z)),
                                   -8, 8, limit=400, points=[np.log(opening / median) / np.log(sigma)])
        given = f"median={median} um; spread={sigma}; opening={opening} um; medium={medium}"
        OUT.writerow(["strain", given, "passed_fraction", f"{passed:.8g}", 1e-6, "rel", "library",
                      "scipy-strain", "quad over sizes"])


dripping()
straining()
