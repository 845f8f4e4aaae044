"""Prints the library rows of tests/reference/brine.csv.

Written with CoolProp 8.0.0, incompressible brines MNA and MCA (Melinder 2010).
Run: python3 tests/reference/scripts/brine.py
"""

import CoolProp
from CoolProp.CoolProp import PropsSI

assert CoolProp.__version__.startswith("8.")

for salt, fluid, shares in (
    ("table-salt", "MNA", (0.01, 0.02, 0.04, 0.07, 0.1, 0.13, 0.17, 0.2, 0.22, 0.23)),
    ("calcium-chloride", "MCA", (0.02, 0.05, 0.09, 0.13, 0.17, 0.21, 0.25, 0.28, 0.295)),
):
    for share in shares:
        t = PropsSI("T_freeze", "T", 300, "P", 1e5, f"INCOMP::{fluid}[{share}]") - 273.15
        print(f"brine,salt={salt}; share={share},freezing_point_c,{t:.6f},0.02,abs,library,"
              f"coolprop-melinder-brines,INCOMP::{fluid} T_freeze")
        print(f"brine-for,salt={salt}; temperature={t:.6f} °C,salt_share_fraction,{share},0.0005,"
              f"abs,library,coolprop-melinder-brines,INCOMP::{fluid} T_freeze read backwards")
