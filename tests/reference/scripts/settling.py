"""Prints the library rows of settling.csv. Needs fluids 1.3.1 and scipy 1.17.1."""

import csv
import sys

import numpy as np
from fluids.drag import v_terminal
from scipy import integrate, stats

G = 9.80665
OUT = csv.writer(sys.stdout, lineterminator="\n")


def liquid(rho_p, rho_l, mu):
    return f"particle-density={rho_p} kg/m3; liquid-density={rho_l} kg/m3; liquid-viscosity={mu} Pa.s"


def terminal_speeds():
    # Correlations for the drag of a sphere differ from each other by about 5 %.
    cases = [(5e-5, 1050, 1000, 1e-3), (5e-5, 2650, 998, 1e-3), (1e-4, 1500, 1000, 1e-3),
             (2e-4, 1100, 1030, 5e-3), (5e-4, 1050, 1000, 1e-3), (5e-4, 2650, 998, 1e-3),
             (1e-3, 1500, 1000, 1e-3), (1e-3, 1100, 1030, 5e-3), (2e-3, 1050, 1000, 1e-3),
             (3e-3, 2650, 998, 1e-3), (5e-3, 1500, 1000, 1e-3), (1e-2, 1050, 1000, 1e-3),
             (1e-2, 1500, 1000, 1e-3), (1e-2, 1100, 1030, 5e-3)]
    for d, rho_p, rho_l, mu in cases:
        v = v_terminal(D=d, rhop=rho_p, rho=rho_l, mu=mu)
        OUT.writerow(["particle-speed", f"particle-diameter={d} m; {liquid(rho_p, rho_l, mu)}",
                      "terminal_speed_m_s", f"{v:.8g}", 0.06, "rel", "library", "fluids-v-terminal",
                      "default drag correlation; correlations differ by 5 %"])


def distributions():
    for median, sigma, limit in [(20, 2.0, 30), (5, 1.5, 4), (100, 3.0, 75), (0.4, 1.3, 1)]:
        law = stats.lognorm(s=np.log(sigma), scale=median)
        given = f"median={median} um; spread={sigma}; limit={limit} um"
        moment = [law.expect(lambda d, k=k: d**k, lb=0, ub=law.ppf(1 - 1e-13)) for k in (-1, 1)]
        for key, value in [("share_below_fraction", law.cdf(limit)),
                           ("d90_m", 1e-6 * law.ppf(0.9)), ("d10_m", 1e-6 * law.ppf(0.1)),
                           ("d32_m", 1e-6 / moment[0]), ("d43_m", 1e-6 * moment[1])]:
            OUT.writerow(["sizes", given, key, f"{value:.9g}", 1e-5, "rel", "library",
                          "scipy-lognorm", "cdf, ppf, expect"])


def left_in_rotor():
    """Trajectories by a differential equation solver, mass by quadrature over sizes."""
    for rpm, r1, r2, d50, sigma, rho_p, rho_l, mu, t in [
            (3000, 0.06, 0.12, 1e-6, 2.0, 1090, 1040, 1.5e-3, 600),
            (4000, 0.08, 0.15, 2e-6, 2.5, 1050, 1000, 1e-3, 120),
            (800, 0.05, 0.11, 4e-6, 1.6, 930, 1036, 2.9e-3, 600)]:
        omega = 2 * np.pi * rpm / 60

        def removed(d):
            rate = (rho_p - rho_l) * d**2 * omega**2 / (18 * mu)
            end = r2 if rate > 0 else r1
            # Backwards from the end: where did the last particle to arrive start?
            back = integrate.solve_ivp(lambda _, r: -rate * r, (0, t), [end], rtol=1e-10, atol=1e-14)
            return min(1.0, abs(end - back.y[0][-1]) / (r2 - r1))

        def stays(z):
            return stats.norm.pdf(z) * (1 - removed(d50 * sigma**z))

        z = np.linspace(-6, 6, 2401)
        share = integrate.trapezoid([stays(x) for x in z], z)
        given = (f"speed={rpm} rpm; inner-radius={r1} m; outer-radius={r2} m; "
                 f"particle-diameter={d50} m; {liquid(rho_p, rho_l, mu)}; time={t} s; spread={sigma}")
        OUT.writerow(["pelleting", given, "solids_left_fraction", f"{share:.6g}", 1e-3, "rel",
                      "library", "scipy-trajectories", "solve_ivp and trapezoid, step 0.005"])


def left_in_jar():
    for h, d50, sigma, rho_p, rho_l, mu, hours in [
            (0.1, 5e-6, 2.0, 1090, 1040, 1.5e-3, 5), (0.2, 20e-6, 2.5, 1050, 1000, 1.5e-3, 1),
            (0.05, 4e-6, 1.6, 935, 1036, 2.9e-3, 12)]:
        # Stokes' law suffices: removed particles are below 0.1 mm.
        gone = h / (hours * 3600) / (abs(rho_p - rho_l) * G / (18 * mu))
        density = lambda d: stats.lognorm.pdf(d, s=np.log(sigma), scale=d50)
        share, _ = integrate.quad(lambda d: density(d) * (1 - d * d / gone), 0, gone**0.5,
                                  epsabs=1e-12)
        given = (f"depth={h} m; particle-diameter={d50} m; {liquid(rho_p, rho_l, mu)}; "
                 f"time={hours} h; spread={sigma}")
        OUT.writerow(["settle", given, "solids_left_fraction", f"{share:.6g}", 1e-2, "rel",
                      "library", "scipy-jar", "quad over sizes, Stokes' law"])


terminal_speeds()
distributions()
left_in_rotor()
left_in_jar()
