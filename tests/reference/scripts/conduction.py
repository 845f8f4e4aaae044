"""Conduction at short times, at places inside and in cans and bricks, as rows for conduction.csv.

The exact series of Carslaw & Jaeger with scipy 1.17.1: eigenvalues by `optimize.brentq`, Bessel
functions by `special.j0` and `special.j1`, 400 terms. Nothing of the program is used.

Run: python3 tests/reference/scripts/conduction.py
"""
import numpy as np
import scipy
from scipy.integrate import solve_ivp
from scipy.optimize import brentq
from scipy.special import j0, j1, jn_zeros

TERMS = 400
J0, J1 = jn_zeros(0, TERMS), np.concatenate([[0.0], jn_zeros(1, TERMS)])


def eigenvalues(shape, bi):
    n = np.arange(TERMS)
    if np.isinf(bi):
        return {"slab": (n + 0.5) * np.pi, "cylinder": J0, "sphere": (n + 1) * np.pi}[shape]
    tiny = 1e-10
    if shape == "slab":
        return np.array([brentq(lambda z: z * np.sin(z) - bi * np.cos(z), i * np.pi + tiny, (i + 0.5) * np.pi) for i in n])
    if shape == "cylinder":
        return np.array([brentq(lambda z: z * j1(z) - bi * j0(z), J1[i] + tiny, J0[i]) for i in n])
    return np.array([brentq(lambda z: z * np.cos(z) + (bi - 1) * np.sin(z), i * np.pi + 1e-6, (i + 1) * np.pi - tiny) for i in n])


CACHE = {}


def theta(shape, bi, fo, place):
    key = (shape, bi)
    if key not in CACHE:
        CACHE[key] = eigenvalues(shape, bi)
    z = CACHE[key]
    e = np.exp(-z * z * fo)
    if shape == "slab":
        c = 4 * np.sin(z) / (2 * z + np.sin(2 * z))
        f = np.sin(z) / z if place == "mean" else np.cos(z * place)
    elif shape == "cylinder":
        c = 2 * j1(z) / (z * (j0(z) ** 2 + j1(z) ** 2))
        f = 2 * j1(z) / z if place == "mean" else j0(z * place)
    else:
        c = 4 * (np.sin(z) - z * np.cos(z)) / (2 * z - np.sin(2 * z))
        f = 3 * (np.sin(z) - z * np.cos(z)) / z**3 if place == "mean" else np.sinc(z * place / np.pi)
    return float(np.sum(c * e * f))


def row(given, output, value, tolerance, kind, question="conduction", locator="400 terms"):
    print(f"{question},{given},{output},{value:.9g},{tolerance},{kind},library,scipy-series,{locator}")


def core_time(parts, start, medium, target):
    share = (target - medium) / (start - medium)

    def miss(t):
        product = 1.0
        for shape, length in parts:
            product *= theta(shape, H * length / K, A * t / length**2, 0.0)
        return product - share

    return brentq(miss, 30, 2e5, xtol=1e-6)


A, K, H = 1.4e-7, 0.5, 150.0


def ramp(shape, half, h, start, parts):
    """Core after ramps and holds of the surroundings: method of lines, 200 shells."""
    d = {"slab": 1, "cylinder": 2, "sphere": 3}[shape]
    n = 200
    edge = np.linspace(0, half, n + 1)
    volume = (edge[1:] ** d - edge[:-1] ** d) / d
    area, width = edge[1:-1] ** (d - 1), half / n
    t = np.full(n, float(start))
    band = np.eye(n) + np.eye(n, k=1) + np.eye(n, k=-1)
    for first, last, seconds in parts:

        def slope(time, t):
            outside = first + (last - first) * time / seconds
            flow = area * (t[1:] - t[:-1]) / width
            outer = half ** (d - 1) * (outside - t[-1]) / (K / h + 0.5 * width)
            net = np.concatenate([flow, [outer]])
            net[1:] -= flow
            return A * net / volume

        out = solve_ivp(slope, (0, seconds), t, method="BDF", rtol=1e-7, atol=1e-7, jac_sparsity=band)
        t = out.y[:, -1]
    return float(t[0])


def main():
    assert scipy.__version__ == "1.17.1", scipy.__version__
    for shape in ["slab", "cylinder", "sphere"]:
        for bi in [0.5, 10.0, np.inf]:
            for fo in [1e-3, 0.02]:
                for word, place in [("surface", 1.0), ("mean", "mean")]:
                    row(f"shape={shape}; biot={bi}; fourier={fo}; position={word}", "dimensionless_temperature", theta(shape, bi, fo, place), 1e-5, "abs")
        row(f"shape={shape}; biot=3; fourier=0.05; place=0.6", "dimensionless_temperature", theta(shape, 3.0, 0.05, 0.6), 1e-6, "abs")
        row(f"shape={shape}; biot=4", "second_eigenvalue", eigenvalues(shape, 4.0)[1], 1e-8, "rel", locator="brentq")
    props = f"diffusivity={A} m2/s; conductivity={K} W/mK; heat-transfer={H} W/m2K"
    for start, medium, target in [(5, 60, 55), (80, 2, 10)]:
        temps = f"start={start} C; surroundings={medium} C; target={target} C"
        t = core_time([("cylinder", 0.03), ("slab", 0.05)], start, medium, target)
        row(f"shape=finite-cylinder; thickness=60 mm; length=100 mm; {props}; {temps}", "time_s", t, 1e-6, "rel", "core-time", "product of series solved with brentq")
        t = core_time([("slab", 0.015), ("slab", 0.04), ("slab", 0.06)], start, medium, target)
        row(f"shape=brick; thickness=30 mm; breadth=80 mm; length=120 mm; {props}; {temps}", "time_s", t, 1e-6, "rel", "core-time", "product of series solved with brentq")
    for shape, h in [("slab", 200), ("cylinder", 30), ("sphere", 100)]:
        parts = [(20, 60, 3600), (60, 60, 1800), (2, 2, 1200)]
        core = ramp(shape, 0.02, h, 5, parts)
        given = f"\"shape={shape}; thickness=40 mm; start=5 C; heat-transfer={h} W/m2K; diffusivity={A} m2/s; conductivity={K} W/mK; profile=ramp 20-60 C in 3600 s, hold 60 C 1800 s, hold 2 C 1200 s\""
        row(given, "end_core_temperature_c", core, 0.1, "abs", "core-history", "method of lines with solve_ivp")


if __name__ == "__main__":
    main()
