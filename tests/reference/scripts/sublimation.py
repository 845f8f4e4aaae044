"""Prints the library rows of sublimation.csv. Needs iapws 1.5.5 and scipy 1.17.1.

Front of a freeze-drying slab by root finding, time by adaptive quadrature. Heat of sublimation from
Murphy & Koop, Q. J. R. Meteorol. Soc. 131 (2005) 1539, eq. 5.
"""

import csv
import math
import sys

from iapws._iapws import _Sublimation_Pressure
from scipy.integrate import quad
from scipy.optimize import brentq

OUT = csv.writer(sys.stdout, lineterminator="\n")
WATER = 0.018015268


def heat(t):
    return (46782.5 + 35.8925 * t - 0.07414 * t * t + 541.5 * math.exp(-(t / 123.75) ** 2)) / WATER


def front(depth, case):
    thickness, chamber, shelf, contact, path, r0, r1 = case
    layer = (thickness - depth) / 2.4 if path == "through-frozen" else depth / 0.035
    conductance = 1 / (1 / contact + layer)
    flux = lambda t: (1e6 * _Sublimation_Pressure(t) - chamber) / (r0 + r1 * depth)
    t = brentq(lambda t: conductance * (shelf + 273.15 - t) - heat(t) * flux(t), 190, 273.15)
    return t, flux(t)


def rows():
    for case in [(0.01, 30, 20, 20, "through-frozen", 6.72e4, 7.68e7),
                 (0.00625, 50, 50, 20, "through-dried", 6.72e4, 7.68e7),
                 (0.015, 100, 0, 15, "through-frozen", 2e4, 3e7),
                 (0.004, 10, 30, 10, "through-dried", 1e5, 2e8)]:
        thickness, chamber, shelf, contact, path, r0, r1 = case
        given = (f"thickness={thickness} m; chamber-pressure={chamber} Pa; "
                 f"shelf-temperature={shelf} °C; heat={path}; heat-transfer={contact} W/(m2 K); "
                 f"water-share=0.8; density=1000 kg/m3; cake-resistance={r0:g} m/s; "
                 f"cake-resistance-growth={r1:g} 1/s")
        time = quad(lambda depth: 800 / front(depth, case)[1], 0, thickness)[0]
        warmest = max(front(thickness * n / 200, case)[0] for n in range(201)) - 273.15
        for output, value, tolerance, kind in [
                ("primary_time_s", time, 1e-3, "rel"), ("warmest_ice_c", warmest, 0.1, "abs"),
                ("last_flux_kg_m2s", front(thickness, case)[1], 1e-3, "rel")]:
            OUT.writerow(["freeze-dry", given, output, f"{value:.8g}", tolerance, kind, "library",
                          "scipy-1-17-1", "optimize.brentq and integrate.quad on iapws ice pressure"])


if __name__ == "__main__":
    rows()
