"""Prints the coefficients of src/physics/cryogen and src/physics/brine that are fits.

Written with CoolProp 8.0.0 and numpy. Run: python3 tests/reference/scripts/cryogen_fit.py
"""

import numpy as np
from CoolProp.CoolProp import PropsSI

ATMOSPHERE = 101325.0


def least_squares(columns, values):
    """Coefficients that make the relative residual smallest, and the largest residual."""
    matrix = np.vstack(columns).T
    found = np.linalg.lstsq(matrix / values[:, None], np.ones_like(values), rcond=None)[0]
    return found, np.abs(matrix @ found / values - 1.0).max()


for name in ("Nitrogen", "Oxygen", "Argon"):
    boiling = PropsSI("T", "P", ATMOSPHERE, "Q", 0, name)
    vapour = PropsSI("H", "P", ATMOSPHERE, "Q", 1, name)
    t = np.linspace(boiling + (8.0 if name == "Oxygen" else 0.5), 330.0, 300)
    h = np.array([PropsSI("H", "T", x, "P", ATMOSPHERE, name) for x in t]) - vapour
    rise, ratio = t - boiling, boiling / t
    print(name, "sensible", *least_squares([rise, rise**2, 1 - ratio, 1 - ratio**3], h))
    p = np.linspace(55e3, 110e3, 30)
    inverse = np.array([1.0 / PropsSI("T", "P", x, "Q", 0, name) for x in p])
    u = np.log(p / ATMOSPHERE)
    print(name, "boiling", *least_squares([np.ones_like(u), u, u**2], inverse))

t = np.linspace(217.0, 330.0, 100)
heat = [PropsSI("C", "T", x, "P", ATMOSPHERE, "CO2") for x in t]
print("carbon dioxide gas heat", np.polyfit(t - 194.686, heat, 3)[::-1])

for name in ("Nitrogen", "Oxygen", "Argon", "CO2", "N2O"):
    t = np.linspace(220.0, 330.0, 60)
    b = [1e6 * PropsSI("Bvirial", "T", x, "P", ATMOSPHERE, name) for x in t]
    print(name, "virial", np.polyfit(300.0 / t, b, 2)[::-1])

for fluid, top in (("MNA", 0.2299), ("MCA", 0.2999)):
    w = np.linspace(0.005, top, 60)
    freezing = np.array(
        [PropsSI("T_freeze", "T", 300, "P", 1e5, f"INCOMP::{fluid}[{x:g}]") - 273.15 for x in w]
    )
    matrix = np.vstack([w**k for k in range(1, 6)]).T
    found = np.linalg.lstsq(matrix, freezing, rcond=None)[0]
    print(fluid, "freezing", found, np.abs(matrix @ found - freezing).max())
