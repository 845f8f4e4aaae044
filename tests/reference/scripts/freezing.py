"""Freezing and thawing times from a numerical solution, as rows for freezing.csv.

Heat conduction with an enthalpy curve, by the method of lines: 60 shells, numpy 2 and
scipy 1.17.1 `solve_ivp(method="BDF")`. Nothing of the program is used. The food follows the ice
curve of Miles 1974 with its own heat capacities and conductivities; the conductivity goes over
from unfrozen to frozen with the share of ice.

Run: python3 tests/reference/scripts/freezing.py
"""
import sys

import numpy as np
import scipy
from scipy.integrate import solve_ivp

FUSION = 333.6e3
RHO, CU, CF, KU, KF = 1050.0, 3500.0, 1900.0, 0.5, 1.5
WATER, BOUND, TF = 0.74, 0.084, -1.0

GRID = np.concatenate([np.linspace(-60, -1.05, 4000), np.linspace(-1.05, TF, 400)[1:], [60.0]])
ICE = np.where(GRID < TF, (WATER - BOUND) * (1 - TF / np.minimum(GRID, -1e-9)), 0.0)
SHARE = ICE / (WATER - BOUND)
CP = CU + (CF - CU) * SHARE
SENSIBLE = np.concatenate([[0.0], np.cumsum(0.5 * (CP[1:] + CP[:-1]) * np.diff(GRID))])
ENTHALPY = SENSIBLE - FUSION * ICE
CONDUCTIVITY = KU + (KF - KU) * SHARE


def enthalpy(t):
    return float(np.interp(t, GRID, ENTHALPY))


def time_to_centre(shape, half, h, start, medium, target, shells=60):
    d = {"slab": 1, "cylinder": 2, "sphere": 3}[shape]
    edge = np.linspace(0, half, shells + 1)
    volume = (edge[1:] ** d - edge[:-1] ** d) / d
    area = edge[1:-1] ** (d - 1)
    width = half / shells

    def temperatures(e):
        return np.interp(e, ENTHALPY, GRID)

    def slope(_, e):
        t = temperatures(e)
        k = np.interp(t, GRID, CONDUCTIVITY)
        between = 2 * k[1:] * k[:-1] / (k[1:] + k[:-1])
        flow = area * between * (t[1:] - t[:-1]) / width
        resistance = 1 / h + 0.5 * width / k[-1]
        outer = half ** (d - 1) * (medium - t[-1]) / resistance
        net = np.concatenate([flow, [outer]])
        net[1:] -= flow
        return net / (RHO * volume)

    sign = 1 if target > start else -1
    centre = lambda _, e: sign * (float(temperatures(e[0])) - target)
    centre.terminal = True
    centre.direction = 1
    e0 = np.full(shells, enthalpy(start))
    band = np.eye(shells) + np.eye(shells, k=1) + np.eye(shells, k=-1)
    out = solve_ivp(slope, (0, 3e6), e0, method="BDF", events=centre, rtol=1e-5, atol=1.0, jac_sparsity=band)
    return float(out.t_events[0][0])


def main():
    assert scipy.__version__ == "1.17.1", scipy.__version__
    latent = FUSION * (WATER - BOUND)
    common = f"density={RHO} kg/m3; freezing-point={TF} C"
    for shape, thick, h, start, medium, centre in [
        ("slab", 0.02, 150, 5, -18, -10), ("slab", 0.02, 10, 20, -20, -10), ("slab", 0.04, 50, 4, -30, -18),
        ("slab", 0.06, 25, 15, -35, -10), ("cylinder", 0.05, 30, 10, -25, -10), ("cylinder", 0.03, 200, 5, -40, -18),
        ("sphere", 0.03, 25, 15, -20, -10), ("sphere", 0.06, 150, 20, -40, -18),
    ]:
        t = time_to_centre(shape, thick / 2, h, start, medium, centre)
        given = (f"shape={shape}; thickness={thick} m; heat-transfer={h} W/m2K; conductivity-frozen={KF} W/mK; {common}; "
                 f"latent-heat={latent:.0f} J/kg; heat-capacity-unfrozen={CU} J/kgK; heat-capacity-frozen={CF} J/kgK; "
                 f"start={start} C; surroundings={medium} C; final-centre={centre} C")
        print(f"freeze-time,{given},freezing_time_s,{t:.0f},0.15,rel,library,scipy-enthalpy,"
              "\"numerical solution; 15 % is the accuracy that Pham states, with that of the averaged properties\"")
    thawing = enthalpy(0.0) - enthalpy(-10.0)
    for shape, thick, h, start, medium in [
        ("slab", 0.03, 200, -18, 10), ("slab", 0.05, 50, -18, 20), ("slab", 0.08, 30, -25, 15),
        ("cylinder", 0.05, 100, -18, 20), ("cylinder", 0.1, 50, -12, 8), ("sphere", 0.06, 200, -18, 15),
    ]:
        t = time_to_centre(shape, thick / 2, h, start, medium, -0.05)
        given = (f"shape={shape}; thickness={thick} m; heat-transfer={h} W/m2K; conductivity-thawed={KU} W/mK; {common}; "
                 f"thawing-heat={thawing:.0f} J/kg; heat-capacity-thawed={CU} J/kgK; heat-capacity-frozen={CF} J/kgK; "
                 f"start={start} C; surroundings={medium} C")
        print(f"thaw,{given},thawing_time_s,{t:.0f},0.11,rel,library,scipy-enthalpy,"
              "\"numerical solution; 11 % is the accuracy that the authors state, with that of the averaged properties\"")


if __name__ == "__main__":
    sys.exit(main())
