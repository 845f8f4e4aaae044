"""Fits the activity model of ethanol in water in src/physics/ethanol_water/equilibrium.rs.

The excess Gibbs energy is a Redlich-Kister series whose coefficients move with temperature:

    gE/(R T) = x (1 - x) sum_i k_i (2 x - 1)^i,   k_i = a_i + b_i u + c_i v
    u = t0/t - 1,   v = ln(t/t0) + t0/t - 1,   t0 = 323.15 K

Data: ethanol_water_vle.csv beside this file. 30 degC: Pemberton & Mash, J. Chem. Thermodyn. 10
(1978) 867. 25 degC: Yang et al., J. Phys. Chem. (1979), doi 10.1021/j100484a013. 250 and 740 mmHg: Kirschbaum &
Gerstner, Z. VDI Beiheft Verfahrenstechnik (1939) 10. 760 mmHg: Carey & Lewis, Ind. Eng. Chem. 24
(1932) 882, as tabulated in Perry's Chemical Engineers' Handbook (from memory), with its azeotrope.
Infinite dilution at 25 degC: 3.69, from Henry's constant 1.9 mol/(m3 Pa) of Sander, Atmos. Chem.
Phys. 15 (2015) 4399. Excess enthalpies at 25 degC, from memory: Boyne & Williamson, J. Chem. Eng.
Data 12 (1967) 318; they hold the slope with temperature.

Made with CoolProp 8.0.0 (vapour pressure of ethanol), iapws 1.5.5 (of water), scipy 1.17.1.
"""

import csv
import pathlib

import CoolProp.CoolProp as coolprop
import numpy as np
from iapws.iapws97 import _PSat_T
from scipy.optimize import least_squares

T0 = 323.15
GAS_CONSTANT = 8.314462618
TERMS = (3, 2, 2, 1, 1)
# Relative uncertainty of the pressure (for an isobar: of the boiling point, as a pressure), and
# absolute uncertainty of the vapour mole fraction.
SIGMA = {
    "pemberton-mash-1978": (0.004, 0.003),
    "yang-1979": (0.015, 0.012),
    "kirschbaum-1939": (0.015, 0.006),
    "carey-lewis-1932": (0.008, 0.003),
}
DILUTE_CAREY_LEWIS_SIGMA = 0.015  # the most dilute point, whose liquid sample is least certain
DILUTE_PEMBERTON_MASH_SIGMA = 0.01  # of the vapour fraction itself, where that is less than above
AZEOTROPE = (351.30, 0.894, 101325.0)  # Carey & Lewis 1932
AZEOTROPE_SIGMA = 0.003
INFINITE_DILUTION = (298.15, 3.69)
INFINITE_DILUTION_SIGMA = 0.12  # spread of the measured Henry's constants
EXCESS_ENTHALPY = ((0.1, -690.0), (0.2, -760.0), (0.4, -520.0), (0.6, -300.0), (0.8, -165.0))
EXCESS_ENTHALPY_SIGMA = 50.0


def ethanol_pressure(t):
    return coolprop.PropsSI("P", "T", t, "Q", 0, "Ethanol")


def water_pressure(t):
    return 1e6 * _PSat_T(t)


def series(parameters, t):
    u, v = T0 / t - 1, np.log(t / T0) + T0 / t - 1
    rows, start = [], 0
    for count in TERMS:
        rows.append(sum(p * f for p, f in zip(parameters[start : start + count], (1, u, v))))
        start += count
    return rows


def log_activity(parameters, t, x):
    d, k = 2 * x - 1, series(parameters, t)
    g = sum(c * d**i for i, c in enumerate(k))
    slope = sum(2 * i * c * d ** (i - 1) for i, c in enumerate(k) if i)
    q, dq = x * (1 - x) * g, (1 - 2 * x) * g + x * (1 - x) * slope
    return q + (1 - x) * dq, q - x * dq


def excess_enthalpy(parameters, x, t=298.15, h=0.5):
    def gibbs(t):
        ethanol, water = log_activity(parameters, t, x)
        return x * ethanol + (1 - x) * water

    return -GAS_CONSTANT * t * t * (gibbs(t + h) - gibbs(t - h)) / (2 * h)


def main():
    path = pathlib.Path(__file__).with_name("ethanol_water_vle.csv")
    rows = list(csv.DictReader(path.open()))
    number = lambda name: np.array([float(row[name]) for row in rows])
    t, p, x, y = map(
        number, ("temperature_k", "pressure_pa", "liquid_mole_fraction", "vapour_mole_fraction")
    )
    sigma_p = np.array([SIGMA[row["source"]][0] for row in rows])
    sigma_y = np.array([SIGMA[row["source"]][1] for row in rows])
    dilute = np.array([r["source"] == "carey-lewis-1932" for r in rows]) & (x < 0.03)
    sigma_y[dilute] = DILUTE_CAREY_LEWIS_SIGMA
    precise = np.array([row["source"] == "pemberton-mash-1978" for row in rows])
    sigma_y[precise] = np.minimum(sigma_y, DILUTE_PEMBERTON_MASH_SIGMA * y)[precise]
    pe, pw = np.array([ethanol_pressure(v) for v in t]), np.array([water_pressure(v) for v in t])

    def bubble(parameters):
        ethanol, water = log_activity(parameters, t, x)
        partial = x * np.exp(ethanol) * pe
        total = partial + (1 - x) * np.exp(water) * pw
        return total, partial / total

    def residuals(parameters):
        total, vapour = bubble(parameters)
        dilution, _ = log_activity(parameters, INFINITE_DILUTION[0], 1e-9)
        ta, xa, pa = AZEOTROPE
        ethanol, water = log_activity(parameters, ta, xa)
        partial = (np.exp(ethanol) * ethanol_pressure(ta), np.exp(water) * water_pressure(ta))
        return np.concatenate(
            [
                np.log(total / p) / sigma_p,
                (vapour - y) / sigma_y,
                [(dilution - np.log(INFINITE_DILUTION[1])) / INFINITE_DILUTION_SIGMA],
                [np.log(partial[0] / partial[1]) / AZEOTROPE_SIGMA],
                [np.log((xa * partial[0] + (1 - xa) * partial[1]) / pa) / AZEOTROPE_SIGMA],
                [
                    (excess_enthalpy(parameters, point) - heat) / EXCESS_ENTHALPY_SIGMA
                    for point, heat in EXCESS_ENTHALPY
                ],
            ]
        )

    fit = least_squares(
        residuals, np.full(sum(TERMS), 0.1), loss="soft_l1", x_scale="jac", max_nfev=5000
    )
    start = 0
    for order, count in enumerate(TERMS):
        print(f"k{order}", ", ".join(f"{v:.6f}" for v in fit.x[start : start + count]))
        start += count
    total, vapour = bubble(fit.x)
    for source in SIGMA:
        chosen = np.array([row["source"] == source for row in rows])
        off = np.sqrt(np.mean((total[chosen] / p[chosen] - 1) ** 2))
        off_y = np.sqrt(np.mean((vapour[chosen] - y[chosen]) ** 2))
        print(f"{source}: {chosen.sum()} points, pressure {100 * off:.2f} %, vapour {off_y:.4f}")
    print("infinite dilution 25 degC", np.exp(log_activity(fit.x, 298.15, 1e-9)[0]))


if __name__ == "__main__":
    main()
