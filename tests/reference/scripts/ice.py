"""Prints tests/reference/ice.csv. Made with iapws 1.5.5."""

from iapws._iapws import _Ice, _Sublimation_Pressure
from iapws import IAPWS97
from scipy.optimize import brentq
from rows import Rows

KELVIN = 273.15
VAPOUR_HEAT_CAPACITY = 1.86  # kJ/(kg K), ideal gas near -25 degC
rows = Rows()


def official(question, given, output, expected, tolerance, source, locator):
    rows.add(question, given, output, expected, tolerance, "rel", "official", source, locator)


official("ice", {"temperature": "230 K"}, "sublimation_pressure_pa", 8.94735, 1e-6, "iapws-r14-08", "table 5")
official("ice", {"temperature": "273.16 K"}, "sublimation_pressure_pa", 611.657, 1e-7, "iapws-r14-08", "triple point")
for kelvin, pascal, density, capacity in (
    (273.16, 611.657, 916.709492200, 2096.78431622),
    (273.152519, 101325, 916.721463419, 2096.71391024),
    (100, 1e8, 941.678203297, 866.333195517),
):
    given = {"temperature": f"{kelvin} K", "pressure": f"{pascal:.9g} Pa"}
    official("ice", given, "ice_density_kg_m3", density, 1e-9, "iapws-r10-06", "table 6")
    official("ice", given, "ice_heat_capacity_j_kgk", capacity, 1e-9, "iapws-r10-06", "table 6")
# The heat of fusion at 0 degC by calorimetry: 333.5 J/g with 0.2 J/g.
official("ice", {"temperature": "0 °C"}, "latent_heat_fusion_j_kg", 333500, 0.001, "osborne-1939", "from memory")


def library(question, given, output, expected, tolerance, kind, locator):
    source = "iapws-1-5-5"
    rows.add(question, given, output, expected, tolerance, kind, "library", source, locator)


for celsius in (-100, -80, -60, -50, -45, -40, -30, -25, -20, -15, -10, -5, -2, 0):
    given, kelvin = {"temperature": f"{celsius} °C"}, celsius + KELVIN
    pressure = 1e6 * _Sublimation_Pressure(kelvin)
    library("ice", given, "sublimation_pressure_pa", pressure, 1e-6, "rel", "_Sublimation_Pressure(T)")
    if celsius >= -60:
        state = _Ice(kelvin, 0.101325) if celsius < 0 else _Ice(KELVIN, 0.1)
        library("ice", given, "ice_density_kg_m3", state["rho"], 1e-6, "rel", "_Ice(T, P).rho")
        library("ice", given, "ice_heat_capacity_j_kgk", 1e3 * state["cp"], 1e-6, "rel", "_Ice(T, P).cp")
for pascal in (0.1, 1, 5, 13.3322, 20, 50, 100, 133.322, 300, 500, 600):
    kelvin = brentq(lambda t: 1e6 * _Sublimation_Pressure(t) - pascal, 150, 273.16, xtol=1e-10)
    library(
        "ice-under-vacuum", {"pressure": f"{pascal} Pa"}, "ice_equilibrium_temperature_c",
        kelvin - KELVIN, 1e-4, "abs", "_Sublimation_Pressure(T), inverted",
    )
# Heat of sublimation: enthalpy of dilute vapour less that of ice; 0.1 % for the vapour's non-ideality.
for celsius in (-50, -30, -20, -10, -1):
    kelvin = celsius + KELVIN
    vapour = IAPWS97(T=KELVIN + 0.01, x=1).h
    vapour -= VAPOUR_HEAT_CAPACITY * (KELVIN + 0.01 - kelvin)
    ice = _Ice(kelvin, 611.657e-6)["h"]
    library(
        "ice", {"temperature": f"{celsius} °C"}, "latent_heat_sublimation_j_kg", 1e3 * (vapour - ice),
        0.001, "rel", "IAPWS97(273.16 K, x=1).h at constant cp 1.86 kJ/(kg K) less _Ice(T, P).h",
    )
rows.print()
