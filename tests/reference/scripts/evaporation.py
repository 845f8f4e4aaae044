"""Prints the library rows of evaporation.csv. Needs CoolProp 8.0.0, iapws 1.5.5 and scipy 1.17.1."""

import csv
import sys

import CoolProp.CoolProp as coolprop
from iapws import IAPWS97
from scipy.integrate import quad

OUT = csv.writer(sys.stdout, lineterminator="\n")
R, WATER = 8.314462618, 0.018015268


def row(question, given, output, value, tolerance, source, locator):
    OUT.writerow([question, given, output, f"{value:.9g}", tolerance, "rel", "library", source,
                  locator])


def latent(**state):
    return 1e3 * (IAPWS97(x=1, **state).h - IAPWS97(x=0, **state).h)


def boiling():
    for pressure, power, share in [
            (101325, 500, 0.5), (101325, 1500, 0.7), (101325, 2000, 0.8), (20000, 1000, 0.9),
            (84556, 1800, 0.75), (95000, 2500, 0.45), (5000, 300, 1.0), (180000, 1200, 0.6)]:
        given = f"power={power} W; efficiency={share}; pressure={pressure} Pa"
        row("boil-off", given, "evaporation_rate_kg_s", power * share / latent(P=pressure * 1e-6),
            0.001, "iapws-1-5-5", "IAPWS97(P, x) enthalpies")
    for pressure, power, share, start, mass in [
            (101325, 2000, 0.8, 20, 1), (101325, 1000, 0.7, 22, 0.5), (84556, 1500, 0.75, 10, 2),
            (101325, 3500, 0.5, 20, 10), (70000, 900, 0.6, 4, 0.25)]:
        mega = pressure * 1e-6
        rise = IAPWS97(P=mega, x=0).h - IAPWS97(P=mega, T=start + 273.15).h
        given = (f"power={power} W; efficiency={share}; pressure={pressure} Pa; "
                 f"start-temperature={start} °C; mass={mass} kg")
        row("boil-off", given, "time_to_boil_s", 1e3 * mass * rise / (power * share), 0.001,
            "iapws-1-5-5", "IAPWS97(P, T) and (P, x) enthalpies")


def chilton_colburn():
    """Film of dry air at the mean temperature; vapour as an ideal gas."""
    for surface, air, humidity, heat in [
            (20, 20, 0.5, 5), (25, 25, 0.5, 5), (25, 25, 0.5, 15), (40, 22, 0.5, 15),
            (60, 20, 0.5, 5), (80, 22, 0.4, 15), (90, 24, 0.5, 15), (50, 21, 0.6, 5),
            (30, 25, 0.4, 15), (95, 25, 0.5, 5), (10, 30, 0.2, 25)]:
        film = (surface + air) / 2 + 273.15
        density, heat_capacity, conductivity = (
            coolprop.PropsSI(name, "T", film, "P", 101325, "Air") for name in "DCL")
        lewis = conductivity / (density * heat_capacity) / (1.87e-10 * film ** 2.072)
        transfer = heat / (density * heat_capacity * lewis ** (2 / 3))
        vapour = [share * 1e6 * IAPWS97(T=t + 273.15, x=0).P * WATER / (R * (t + 273.15))
                  for share, t in ((1, surface), (humidity, air))]
        given = (f"water-temperature={surface} °C; air-temperature={air} °C; "
                 f"relative-humidity={humidity}; heat-transfer={heat} W/(m2 K)")
        row("evaporate", given, "chilton_colburn_evaporation_kg_m2s",
            transfer * (vapour[0] - vapour[1]), 0.01, "coolprop-8-0-0",
            "PropsSI of Air at the mean temperature, analogy with Le^(2/3)")


def flash():
    """Water that boils off while the rest cools: dm/m = cp dT / h, integrated."""
    for start, end in [(50, 20), (90, 30), (60, 4), (100, 60), (30, 5)]:
        share = quad(lambda t: 1e3 * IAPWS97(T=t + 273.15, x=0).cp / latent(T=t + 273.15),
                     end, start)[0]
        mean = quad(lambda t: 1e3 * IAPWS97(T=t + 273.15, x=0).cp, end, start)[0] / (start - end)
        value = 1 - 2.718281828459045 ** -share
        given = (f"start-temperature={start} °C; end-temperature={end} °C; "
                 f"heat-capacity={mean:.1f} J/(kg K)")
        row("flash-cool", given, "evaporated_fraction", value, 0.002, "iapws-1-5-5",
            "integral of cp/h along IAPWS97(T, x=0)")


def vacuum():
    for pressure, bath in [(5000, 50), (10000, 60), (2000, 40), (30000, 90)]:
        saturated = IAPWS97(P=pressure * 1e-6, x=0)
        rate = 12 * (bath + 273.15 - saturated.T) / latent(P=pressure * 1e-6)
        given = f"pressure={pressure} Pa; bath-temperature={bath} °C"
        row("vacuum-evaporate", given, "liquid_temperature_c", saturated.T - 273.15, 1e-4,
            "iapws-1-5-5", "IAPWS97(P, x=0).T")
        row("vacuum-evaporate", given, "evaporation_rate_kg_s", rate, 0.001, "iapws-1-5-5",
            "IAPWS97(P, x) enthalpies, 12 W/K")


if __name__ == "__main__":
    boiling()
    chilton_colburn()
    flash()
    vacuum()
