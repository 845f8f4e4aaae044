"""Prints the coefficients of src/physics/solutions and the Debye slope of brine that are fits.

Written with numpy. Run: python3 tests/reference/scripts/solutions_fit.py
"""

import numpy as np

# ICUMSA SPS-3 (1974), refractive index at 20 °C by °Brix, from memory.
INDEX = {
    0: 1.33299, 5: 1.34026, 10: 1.34782, 15: 1.35568, 20: 1.36384, 25: 1.37233, 30: 1.38115,
    35: 1.39032, 40: 1.39986, 50: 1.42009, 55: 1.43080, 60: 1.44193, 65: 1.45348, 70: 1.46546,
    75: 1.47787, 80: 1.49071, 85: 1.50398,
}
w = np.array(list(INDEX)) / 100.0
n = np.array(list(INDEX.values()))
found = np.polyfit(w, n, 5)
print("index", found[::-1], np.abs(np.polyval(found, w) - n).max())

# OIV-MA-AS2-02, table I: correction of the reading [°Brix] by temperature [°C], at 10, 15, ... °Brix.
TABLE = {
    5: [-.82, -.87, -.92, -.95, -.99],
    6: [-.80, -.82, -.87, -.90, -.94],
    7: [-.74, -.78, -.82, -.84, -.88],
    8: [-.69, -.73, -.76, -.79, -.82],
    9: [-.64, -.67, -.71, -.73, -.75],
    10: [-.59, -.62, -.65, -.67, -.69, -.71, -.72, -.73, -.74, -.75, -.75, -.75, -.75, -.75],
    11: [-.54, -.57, -.59, -.61, -.63, -.64, -.65, -.66, -.67, -.68, -.68, -.68, -.68, -.67],
    12: [-.49, -.51, -.53, -.55, -.56, -.57, -.58, -.59, -.60, -.60, -.61, -.61, -.60, -.60],
    13: [-.43, -.45, -.47, -.48, -.50, -.51, -.52, -.52, -.53, -.53, -.53, -.53, -.53, -.53],
    14: [-.38, -.39, -.40, -.42, -.43, -.44, -.44, -.45, -.45, -.46, -.46, -.46, -.46, -.45],
    15: [-.32, -.33, -.34, -.35, -.36, -.37, -.37, -.38, -.38, -.38, -.38, -.38, -.38, -.38],
    16: [-.26, -.27, -.28, -.28, -.29, -.30, -.30, -.30, -.31, -.31, -.31, -.31, -.31, -.30],
    17: [-.20, -.20, -.21, -.21, -.22, -.22, -.23, -.23, -.23, -.23, -.23, -.23, -.23],
}
points = [
    (t - 20.0, 0.10 + 0.05 * i, 0.01 * c) for t, row in TABLE.items() for i, c in enumerate(row)
]
d, b, c = np.array(points).T
matrix = np.vstack([d, d * b, d * b * b, d * d, d * d * b]).T
found = np.linalg.lstsq(matrix, c, rcond=None)[0]
print("correction", found, np.abs(matrix @ found - c).max())

# Debye-Hückel slope of water: N. Møller 1988, from memory.
t = np.linspace(0.0, 150.0, 31)
k = t + 273.15
slope = (
    0.336901532 - 6.3210043e-4 * k + 9.14252359 / k - 1.35143986e-2 * np.log(k)
    + 2.26089488e-3 / (k - 263.0) + 1.92118597e-6 * k * k + 45.2586464 / (680.0 - k)
)
found = np.polyfit(t, slope, 3)
print("slope", found[::-1], np.abs(np.polyval(found, t) - slope).max())
