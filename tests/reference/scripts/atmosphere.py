"""Prints tests/reference/atmosphere.csv. Made with CoolProp 8.0.0 and iapws 1.5.5."""

from CoolProp.HumidAirProp import HAPropsSI
from iapws.iapws97 import _TSat_P
from rows import Rows

KELVIN = 273.15
rows = Rows()

# Table of ISO 2533, geopotential altitude, as printed to six digits.
for metres, pascal in ((-1000, 113929), (0, 101325), (500, 95461.3), (1000, 89874.6), (2000, 79495.2), (3000, 70108.5), (5000, 54019.9)):
    rows.add("altitude", {"altitude": f"{metres} m"}, "atmospheric_pressure_pa", pascal, 1e-5, "rel", "official", "iso-2533", "table 5, geopotential altitude (from memory)")
    rows.add("altitude", {"pressure": f"{pascal} Pa"}, "altitude_m", metres, 0.2, "abs", "official", "iso-2533", "table 5, geopotential altitude (from memory)")
    boiling = _TSat_P(pascal * 1e-6) - KELVIN
    rows.add("altitude", {"altitude": f"{metres} m"}, "boiling_point_c", boiling, 0.001, "abs", "library", "iapws-1-5-5", "_TSat_P of the pressure of ISO 2533")
for psi, metres, celsius in ((5, 0, 108.4), (10, 0, 115.2), (15, 0, 121.0), (15, 1000, 119.1), (15, 1500, 118.3)):
    rows.add("boil", {"gauge-pressure": f"{psi} psi", "altitude": f"{metres} m"}, "boiling_point_c", celsius, 0.1, "abs", "formula", "iapws-r7-97", "equation 31 with the pressure of ISO 2533, evaluated apart")

# Saturated air at one atmosphere; the real-gas enhancement of 0.45 % is left out of the model.
for celsius, ratio in ((5, 0.005424), (20, 0.014758), (30, 0.027329)):
    rows.add("air", {"temperature": f"{celsius} °C", "relative-humidity": "100 %"}, "humidity_ratio_kg_kg", ratio, 0.006, "rel", "official", "ashrae-fundamentals", "chapter 1, table 2 (from memory)")

for celsius, humidity in ((5, 0.8), (18, 0.55), (20, 0.5), (25, 0.4), (30, 0.7), (40, 0.25), (50, 0.15), (60, 0.1), (70, 0.05), (85, 0.2)):
    given = {"temperature": f"{celsius} °C", "relative-humidity": f"{humidity}"}
    state = ("T", celsius + KELVIN, "P", 101325, "R", humidity)
    add = lambda output, value, tolerance, kind, name: rows.add("air", given, output, value, tolerance, kind, "library", "coolprop-8-0-0", f"HAPropsSI('{name}')")
    add("humidity_ratio_kg_kg", HAPropsSI("W", *state), 0.008, "rel", "W")
    add("wet_bulb_c", HAPropsSI("B", *state) - KELVIN, 0.1, "abs", "B")
    add("dew_point_c", HAPropsSI("D", *state) - KELVIN, 0.1, "abs", "D")
    add("air_density_kg_m3", (1 + HAPropsSI("W", *state)) / HAPropsSI("V", *state), 0.003, "rel", "V")
    rows.add("air", {"temperature": f"{celsius} °C", "wet-bulb": f"{HAPropsSI('B', *state) - KELVIN:.6f} °C"}, "relative_humidity_percent", 100 * humidity, 0.5, "abs", "library", "coolprop-8-0-0", "HAPropsSI('R')")
rows.print()
