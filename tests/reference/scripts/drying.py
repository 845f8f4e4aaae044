"""Prints the library rows of drying.csv. Needs scipy 1.17.1.

Mean moisture of bodies with a dry surface, by eigenvalues and root finding.
"""

import csv
import math
import sys

from scipy.optimize import brentq
from scipy.special import jn_zeros

OUT = csv.writer(sys.stdout, lineterminator="\n")
ZEROS = jn_zeros(0, 400)


def slab(fo):
    return 8 / math.pi ** 2 * sum(
        math.exp(-(2 * n + 1) ** 2 * math.pi ** 2 * fo / 4) / (2 * n + 1) ** 2 for n in range(400))


def cylinder(fo):
    return 4 * sum(math.exp(-b * b * fo) / (b * b) for b in ZEROS)


def sphere(fo):
    return 6 / math.pi ** 2 * sum(
        math.exp(-n * n * math.pi ** 2 * fo) / (n * n) for n in range(1, 800))


def ratio(shape, sizes, diffusivity, time):
    fourier = [diffusivity * time / size ** 2 for size in sizes]
    if shape == "short-cylinder":
        return cylinder(fourier[0]) * slab(fourier[1])
    if shape == "brick":
        return math.prod(slab(fo) for fo in fourier)
    return {"slab": slab, "cylinder": cylinder, "sphere": sphere}[shape](fourier[0])


def given(shape, sizes, diffusivity):
    named = {
        "slab": ["half-thickness={0} m"],
        "cylinder": ["radius={0} m"],
        "sphere": ["radius={0} m"],
        "short-cylinder": ["radius={0} m", "length={0} m"],
        "brick": ["half-thickness={0} m", "width={0} m", "length={0} m"],
    }[shape]
    doubled = {"length={0} m", "width={0} m"}
    parts = [text.format(f"{2 * size if text in doubled else size:g}")
             for text, size in zip(named, sizes)]
    return "; ".join([f"shape={shape}", *parts, f"diffusivity={diffusivity:g} m2/s"])


def rows():
    cases = [("slab", [1e-3]), ("slab", [4e-3]), ("cylinder", [3e-3]), ("sphere", [5e-3]),
             ("short-cylinder", [8e-3, 2e-3]), ("brick", [2e-3, 5e-3, 1e-2])]
    for number, (shape, sizes) in enumerate(cases):
        diffusivity = (1e-10, 8e-10, 3e-10)[number % 3]
        scale = min(sizes) ** 2 / diffusivity
        for wanted in (0.5, 0.1, 0.02):
            time = brentq(lambda t: ratio(shape, sizes, diffusivity, t) - wanted,
                          1e-5 * scale, 5 * scale, xtol=1e-9, rtol=1e-13)
            text = given(shape, sizes, diffusivity) + f"; moisture-ratio={wanted}"
            OUT.writerow(["dry-slab", text, "time_s", f"{time:.9g}", 1e-5, "rel", "library",
                          "scipy-1-17-1", "series with special.jn_zeros, optimize.brentq"])
        for share in (0.002, 0.02):
            time = round(share * scale, 3)
            text = given(shape, sizes, diffusivity) + f"; time={time} s"
            OUT.writerow(["dry-slab", text, "moisture_ratio",
                          f"{ratio(shape, sizes, diffusivity, time):.9g}", 1e-4, "rel", "library",
                          "scipy-1-17-1", "series with special.jn_zeros"])


if __name__ == "__main__":
    rows()
