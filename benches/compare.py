"""Times general libraries on the tasks of physics.rs and conduction.rs, one call at a time.

pip install CoolProp==8.0.0 iapws==1.5.5 scipy==1.17.1
python3 benches/compare.py
"""

import time

import CoolProp
import CoolProp.CoolProp as coolprop
import numpy as np
from iapws import IAPWS97
from iapws.iapws97 import _PSat_T, _TSat_P
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq

ETHANOL, WATER = 46.0684, 18.015268
# tau = a + b/T and alpha of a recalled regression at one atmosphere; only the time matters here.
NRTL_A, NRTL_B, NRTL_ALPHA = (-0.8009, 3.4578), (246.18, -586.081), 0.3


def timed(name, call, least=0.5):
    call()
    count, spent = 0, 0.0
    start = time.perf_counter()
    while spent < least:
        call()
        count += 1
        spent = time.perf_counter() - start
    each = spent / count
    unit = (1e9, "ns") if each < 1e-6 else (1e6, "us") if each < 1e-3 else (1e3, "ms")
    print(f"{name:62s} {each * unit[0]:10.3g} {unit[1]}")


low = CoolProp.AbstractState("HEOS", "Water")
fast = CoolProp.AbstractState("IF97", "Water")


def low_level(state):
    state.update(CoolProp.PQ_INPUTS, 5000.0, 0.0)
    return state.T()


def gamma(x, t):
    t12, t21 = (a + b / t for a, b in zip(NRTL_A, NRTL_B))
    g12, g21 = np.exp(-NRTL_ALPHA * t12), np.exp(-NRTL_ALPHA * t21)
    z = 1 - x
    one = z * z * (t21 * (g21 / (x + z * g21)) ** 2 + t12 * g12 / (z + x * g12) ** 2)
    two = x * x * (t12 * (g12 / (z + x * g12)) ** 2 + t21 * g21 / (x + z * g21) ** 2)
    return np.exp(one), np.exp(two)


def partial(x, t):
    one, two = gamma(x, t)
    ethanol = coolprop.saturation_ancillary("Ethanol", "P", 1, "T", t)
    return x * one * ethanol, (1 - x) * two * 1e6 * _PSat_T(t)


def bubble(x, pressure):
    t = brentq(lambda t: sum(partial(x, t)) / pressure - 1, 274.0, 375.0, xtol=1e-9)
    ethanol, water = partial(x, t)
    return t, ethanol / (ethanol + water)


def richer(w, pressure):
    x = (w / ETHANOL) / (w / ETHANOL + (1 - w) / WATER)
    y = bubble(x, pressure)[1]
    return y * ETHANOL / (y * ETHANOL + (1 - y) * WATER)


def dealcoholise(pressure, start=0.1005, end=0.003956):
    path = lambda z: 1 / (richer(np.exp(z), pressure) / np.exp(z) - 1)
    return 1 - np.exp(quad(path, np.log(start), np.log(end), epsrel=1e-9)[0])


def distil(pressure, start=0.1005, evaporated=0.33):
    slope = lambda s, w: [richer(max(w[0], 1e-12), pressure) - w[0]]
    return solve_ivp(slope, (0, np.log(1 - evaporated)), [start], rtol=1e-9, atol=1e-12).y[0, -1]


def core_time(biot=12.5, alpha=1.4e-7, half=0.0125, start=5.0, bath=56.0, target=55.0, terms=30):
    """Time to core of a slab by the exact series: eigenvalues and time by brentq."""
    eigen = [
        brentq(lambda z: z * np.sin(z) - biot * np.cos(z), n * np.pi, n * np.pi + np.pi / 2 - 1e-12)
        for n in range(terms)
    ]
    weights = [4 * np.sin(z) / (2 * z + np.sin(2 * z)) for z in eigen]
    wanted = (target - bath) / (start - bath)
    left = lambda fo: sum(c * np.exp(-z * z * fo) for c, z in zip(weights, eigen)) - wanted
    return brentq(left, 0.05, 50.0) * half * half / alpha


def main():
    timed("boiling point of water, CoolProp PropsSI", lambda: coolprop.PropsSI("T", "P", 5000, "Q", 0, "Water"))
    timed("boiling point of water, CoolProp AbstractState", lambda: low_level(low))
    timed("boiling point of water, CoolProp AbstractState IF97", lambda: low_level(fast))
    timed("boiling point of water, iapws _TSat_P", lambda: _TSat_P(0.005))
    timed("latent heat of water, iapws", lambda: IAPWS97(T=313.15, x=1).h - IAPWS97(T=313.15, x=0).h)
    timed("liquid water, iapws", lambda: IAPWS97(T=313.15, P=0.1).rho)
    timed("wet bulb, CoolProp HAPropsSI", lambda: coolprop.HAPropsSI("B", "T", 333.15, "P", 101325, "R", 0.1))
    timed("boiling point of wine, scipy brentq over NRTL", lambda: bubble(0.04, 5000.0))
    timed("distilling a third of a wine, scipy solve_ivp", lambda: distil(5000.0))
    timed("dealcoholising a wine, scipy quad", lambda: dealcoholise(5000.0))
    timed("core time of a slab, scipy brentq over the series", core_time)


if __name__ == "__main__":
    main()
