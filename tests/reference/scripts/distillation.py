"""Prints tests/reference/distillation.csv. Made with scipy 1.17.1, CoolProp 8.0.0, iapws 1.5.5.

Three kinds of rows. The first drop is the vapour that was measured. Whole runs follow Rayleigh's
equation over a spline through measured equilibria, so that no activity model enters. The last kind
checks the quadrature alone: the same activity model, integrated by another program.
"""

import csv
import pathlib

import CoolProp.CoolProp as coolprop
import numpy as np
from scipy.integrate import solve_ivp
from scipy.interpolate import PchipInterpolator
from scipy.optimize import brentq

from ethanol_water_fit import log_activity, water_pressure
from rows import Rows

ETHANOL, WATER = 46.0684, 18.015268
MODEL = (1.220404, -0.002022, -7.635728, -0.330237, 0.432350, 0.079050, -1.142428, 0.045538, -0.078952)
rows = Rows()
mass = lambda x: x * ETHANOL / (x * ETHANOL + (1 - x) * WATER)
mole = lambda w: (w / ETHANOL) / (w / ETHANOL + (1 - w) / WATER)

ethanol_pressure = lambda t: coolprop.saturation_ancillary("Ethanol", "P", 1, "T", t)

path = pathlib.Path(__file__).with_name("ethanol_water_vle.csv")
table = list(csv.DictReader(path.open()))


def points(source, pressure):
    chosen = [r for r in table if r["source"] == source and float(r["pressure_pa"]) == pressure]
    return [(float(r["liquid_mole_fraction"]), float(r["vapour_mole_fraction"])) for r in chosen]


for x, y in points("carey-lewis-1932", 101325.0)[1:-1]:
    slope = ETHANOL * WATER / (y * ETHANOL + (1 - y) * WATER) ** 2
    rows.add(
        "distil", {"mole-fraction": x, "evaporated": 0}, "distillate_mass_fraction_ethanol", mass(y),
        round(0.012 * slope, 4), "abs", "measured", "carey-lewis-1932", f"first drop, x = {x}",
    )


def run(vapour, start, evaporated):
    """The pot's mass fraction after a share of the mass has gone over."""
    slope = lambda s, w: [mass(vapour(mole(w[0]))) - w[0]]
    found = solve_ivp(slope, (0, np.log(1 - evaporated)), [start], rtol=1e-10, atol=1e-14)
    return found.y[0, -1]


def add(start, evaporated, pressure, pot, tolerance, basis, source, where):
    given = {"mass-fraction": start, "evaporated": evaporated, "pressure": f"{pressure:g} Pa"}
    over = (start - pot * (1 - evaporated)) / evaporated
    values = {
        "pot_mass_fraction_ethanol": (pot, tolerance),
        "distillate_mass_fraction_ethanol": (over, tolerance * (1 - evaporated) / evaporated),
        "ethanol_recovered_fraction": (over * evaporated / start, tolerance * (1 - evaporated) / start),
    }
    for output, (value, slack) in values.items():
        rows.add("distil", given, output, value, slack, "abs", basis, source, where)


# Vapours of Kirschbaum & Gerstner scatter by 0.02 by moles, 0.03 by mass; over a run of
# ln(m0/m) = s the pot is off by at most 0.03 s.
for pressure, starts in ((33330.6, (0.2, 0.4)), (98658.6, (0.1, 0.25, 0.5))):
    x, y = zip(*sorted(points("kirschbaum-1939", pressure)))
    spline = PchipInterpolator((0, *x, 1), (0, *y, 1))
    for start in starts:
        for evaporated in (0.1, 0.3):
            tolerance = round(-0.03 * np.log(1 - evaporated), 5)
            pot = run(spline, start, evaporated)
            add(start, evaporated, pressure, pot, tolerance, "measured", "kirschbaum-1939", "Rayleigh's equation over a spline of the measured points")


def model(pressure):
    def vapour(x):
        def miss(t):
            ethanol, water = log_activity(MODEL, t, x)
            return np.log((x * np.exp(ethanol) * ethanol_pressure(t) + (1 - x) * np.exp(water) * water_pressure(t)) / pressure)

        x = min(max(x, 0.0), 1.0)
        t = brentq(miss, 273.5, 380, xtol=1e-11)
        return x * np.exp(log_activity(MODEL, t, x)[0]) * ethanol_pressure(t) / pressure

    return vapour


for pressure in (2500.0, 5000.0, 20000.0, 101325.0):
    for start, evaporated in ((0.04, 0.1), (0.1, 0.3), (0.33, 0.5), (0.52, 0.7)):
        pot = run(model(pressure), start, evaporated)
        add(start, evaporated, pressure, pot, 1e-7, "library", "scipy-1-17-1", "solve_ivp of Rayleigh's equation on the same activity model")
        target = {"mass-fraction": start, "pressure": f"{pressure:g} Pa"}
        density = sum(c * pot**k for k, c in enumerate((998.20123, -192.9769495, 389.1238958, -1668.103923, 13522.15441, -88292.78388, 306287.4042, -613838.1234, 747017.2998, -547846.1354, 223446.0334, -39032.85426)))
        target["target-abv"] = f"{pot * density / 789.24:.12f}"
        rows.add("dealcoholise", target, "evaporated_mass_fraction", evaporated, 1e-6, "abs", "library", "scipy-1-17-1", "the same run, turned round")
rows.print()
