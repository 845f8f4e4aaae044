"""Prints the library rows of tests/reference/cryogen.csv.

Written with CoolProp 8.0.0: reference equations of state of nitrogen, oxygen, argon, carbon dioxide
and nitrous oxide. Run: python3 tests/reference/scripts/cryogen.py
"""

import CoolProp
from CoolProp.CoolProp import PropsSI

ATMOSPHERE = 101325.0
assert CoolProp.__version__.startswith("8.")


def row(question, given, output, value, tolerance, kind, source, call):
    print(f'{question},{given},{output},{value:.9g},{tolerance},{kind},library,{source},"{call}"')


for name in ("nitrogen", "oxygen", "argon"):
    source = f"coolprop-{name}"
    boiling = PropsSI("T", "P", ATMOSPHERE, "Q", 0, name)
    liquid = PropsSI("H", "P", ATMOSPHERE, "Q", 0, name)
    vapour = PropsSI("H", "P", ATMOSPHERE, "Q", 1, name)
    row("cryogen", f"liquid={name}", "boiling_point_c", boiling - 273.15, 0.05, "abs", source,
        "PropsSI('T', 'P', 101325, 'Q', 0)")
    for pressure in (60e3, 80e3):
        t = PropsSI("T", "P", pressure, "Q", 0, name)
        row("cryogen", f"liquid={name}; pressure={pressure / 1e3:g} kPa", "boiling_point_c",
            t - 273.15, 0.05, "abs", source, "PropsSI('T', 'P', p, 'Q', 0)")
    row("cryogen", f"liquid={name}", "latent_heat_vaporisation_j_kg", vapour - liquid, 0.002,
        "rel", source, "H(Q=1) - H(Q=0)")
    row("cryogen", f"liquid={name}", "liquid_density_kg_m3",
        PropsSI("D", "P", ATMOSPHERE, "Q", 0, name), 0.002, "rel", source,
        "PropsSI('D', 'P', 101325, 'Q', 0)")
    for celsius in (-160, -130, -100, -50, 0, 40):
        h = PropsSI("H", "T", celsius + 273.15, "P", ATMOSPHERE, name)
        given = f"liquid={name}; leaving-temperature={celsius} °C"
        row("cryogen", given, "vapour_sensible_heat_j_kg", h - vapour, 0.005, "rel", source,
            "H(T, 101325) - H(Q=1)")
        row("cryogen", given, "total_cooling_capacity_j_kg", h - liquid, 0.005, "rel", source,
            "H(T, 101325) - H(Q=0)")

NAMES = {"nitrogen": "nitrogen", "oxygen": "oxygen", "argon": "argon",
         "carbon-dioxide": "CO2", "nitrous-oxide": "N2O"}
for word, name in NAMES.items():
    for celsius, pressure in ((-20, 101325), (0, 80000), (20, 101325), (35, 500000)):
        v = 1.0 / PropsSI("D", "T", celsius + 273.15, "P", pressure, name)
        row("gas-volume", f"gas={word}; temperature={celsius} °C; pressure={pressure} Pa",
            "gas_volume_m3_kg", v, 0.003, "rel", f"coolprop-{word}", "1 / PropsSI('D', 'T', t, 'P', p)")
