"""Prints tests/reference/water.csv. Made with iapws 1.5.5.

Check values of the releases are typed in; the library gives the rest. Tolerances: the uncertainty
that the release itself states for liquid water at low pressure, never more.
"""

from iapws import IAPWS97
from iapws._iapws import _Tension
from iapws.iapws97 import _PSat_T, _TSat_P
from rows import Rows

KELVIN = 273.15
rows = Rows()


def official(given, output, expected, tolerance, kind, source, locator, question="water"):
    rows.add(question, given, output, expected, tolerance, kind, "official", source, locator)


IF97 = "iapws-r7-97"
for kelvin, pressure in ((300, 3536.58941), (500, 2638897.76), (600, 12344314.6)):
    celsius = {"temperature": f"{kelvin} K"}
    if kelvin < 600:
        official(celsius, "saturation_pressure_pa", pressure, 1e-6, "rel", IF97, "table 35")
for megapascal, kelvin in ((0.1, 372.755919), (1, 453.035632), (10, 584.149488)):
    given = {"pressure": f"{megapascal} MPa"}
    official(given, "boiling_point_c", kelvin - KELVIN, 1e-5, "abs", IF97, "table 36", "boil")
for kelvin, megapascal, volume, enthalpy, capacity in (
    (300, 3, 0.100215168e-2, 115331.273, 4173.01218),
    (300, 80, 0.971180894e-3, 184142.828, 4010.08987),
    (500, 3, 0.120241800e-2, 975542.239, 4655.80682),
):
    given = {"temperature": f"{kelvin} K", "pressure": f"{megapascal} MPa"}
    official(given, "liquid_density_kg_m3", 1 / volume, 1e-7, "rel", IF97, "table 5")
    official(given, "liquid_enthalpy_j_kg", enthalpy, 1e-7, "rel", IF97, "table 5")
    official(given, "liquid_heat_capacity_j_kgk", capacity, 1e-7, "rel", IF97, "table 5")
for celsius, density, expected in (
    (25, 998, 889.735100e-6),
    (25, 1200, 1437.649467e-6),
    (100, 1000, 307.883622e-6),
    (160, 1, 14.538324e-6),
    (160, 1000, 217.685358e-6),
):
    given = {"temperature": f"{celsius} °C", "density": f"{density} kg/m3"}
    official(given, "liquid_viscosity_pa_s", expected, 1e-7, "rel", "iapws-r12-08", "table 4")
for density, expected in ((998, 0.607712868), (1200, 0.799038144)):
    given = {"temperature": "25 °C", "density": f"{density} kg/m3"}
    official(
        given, "liquid_thermal_conductivity_w_mk", expected, 1e-7, "rel", "iapws-r15-11",
        "table 4, without critical enhancement",
    )
for kelvin, vapour in ((273.16, 0.00485426), (373.1243, 0.597586)):
    given = {"temperature": f"{kelvin} K"}
    official(
        given, "saturated_vapour_density_kg_m3", vapour, 2e-6, "rel", "iapws-sr1-86", "table 1"
    )
for celsius, tension in ((0.01, 75.65), (25, 71.97), (100, 58.91)):
    given = {"temperature": f"{celsius} °C"}
    official(
        given, "surface_tension_n_m", 1e-3 * tension, 1e-5, "abs", "iapws-r1-76",
        "table 1, printed to 0.01 mN/m",
    )
# Gauge at which a canner reaches 240 degF: printed to whole psi, at the top of each band of altitude.
for metres, psi in ((610, 11), (1219, 12), (2438, 14)):
    rows.add(
        "boiling-pressure", {"temperature": "240 °F", "altitude": f"{metres} m"},
        "gauge_pressure_psi", psi, 0.6, "abs", "official", "usda-home-canning",
        "dial gauge, as given in PNW 421; whole psi, rounded up",
    )


def library(given, output, expected, tolerance, kind, locator, question="water"):
    source = "iapws-1-5-5"
    rows.add(question, given, output, expected, tolerance, kind, "library", source, locator)


for pascal in (700, 1228, 2339, 5000, 6000, 8500, 12000, 20000, 35000, 60000, 84556, 150000, 300000):
    expected = _TSat_P(pascal * 1e-6) - KELVIN
    library({"pressure": f"{pascal} Pa"}, "boiling_point_c", expected, 0.001, "abs", "_TSat_P", "boil")
for celsius in (0.01, 10, 30, 45, 60, 80, 95, 121, 150, 200, 300):
    given, kelvin = {"temperature": f"{celsius} °C"}, celsius + KELVIN
    liquid, vapour = IAPWS97(T=kelvin, x=0), IAPWS97(T=kelvin, x=1)
    library(given, "saturation_pressure_pa", 1e6 * _PSat_T(kelvin), 1e-6, "rel", "_PSat_T")
    heat = 1e3 * (vapour.h - liquid.h)
    library(given, "latent_heat_vaporisation_j_kg", heat, 0.001, "rel", "IAPWS97(T, x=1).h - IAPWS97(T, x=0).h")
    if celsius <= 150:
        library(given, "saturated_vapour_density_kg_m3", vapour.rho, 0.001, "rel", "IAPWS97(T, x=1).rho")
        library(given, "surface_tension_n_m", _Tension(kelvin), 1e-6, "rel", "_Tension(T)")
for celsius, megapascal in (
    (1, 0.101325), (20, 0.101325), (40, 0.101325), (60, 0.101325), (80, 0.101325), (99, 0.101325),
    (121, 0.3), (180, 3.0),
):
    given = {"temperature": f"{celsius} °C", "pressure": f"{megapascal} MPa"}
    state, call = IAPWS97(T=celsius + KELVIN, P=megapascal), "IAPWS97(T, P)"
    library(given, "liquid_density_kg_m3", state.rho, 1e-6, "rel", call + ".rho")
    library(given, "liquid_heat_capacity_j_kgk", 1e3 * state.cp, 1e-6, "rel", call + ".cp")
    library(given, "liquid_enthalpy_j_kg", 1e3 * state.h, 1e-5, "rel", call + ".h")
    library(given, "liquid_viscosity_pa_s", state.mu, 0.001, "rel", call + ".mu")
    library(given, "liquid_thermal_conductivity_w_mk", state.k, 0.01, "rel", call + ".k")
rows.print()
