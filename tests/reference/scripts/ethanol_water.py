"""Prints tests/reference/ethanol_water.csv. Made with CoolProp 8.0.0.

Measured equilibria come from ethanol_water_vle.csv, every second or third point, unpicked.
"""

import csv
import pathlib

import CoolProp.CoolProp as coolprop
from rows import Rows

KELVIN = 273.15
rows = Rows()

# Strength and density. The formula rows only repeat the arithmetic of the recommendation.
OIML = "oiml-r22"
for share, celsius, density, where in (
    (1, 20, 789.24, "cover, erratum"),
    (1, 40, 771.93, "table I, printed to 0.01 kg/m3 (from memory)"),
    (0, 20, 998.20, "table I"),
    (0, 10, 999.70, "table I"),
    (0, 30, 995.65, "table I"),
):
    given = {"mass-fraction": share, "temperature": f"{celsius} °C"}
    rows.add("strength", given, "density_kg_m3", density, 0.011, "abs", "official", OIML, where)
COEFFICIENTS = (
    998.20123, -192.9769495, 389.1238958, -1668.103923, 13522.15441, -88292.78388, 306287.4042,
    -613838.1234, 747017.2998, -547846.1354, 223446.0334, -39032.85426,
)
for share in (0.05, 0.1, 0.18, 0.25, 0.333, 0.4, 0.5, 0.62, 0.75, 0.9, 0.96):
    density = sum(c * share**k for k, c in enumerate(COEFFICIENTS))
    strength = share * density / 789.24
    where = "general formula at 20 degC, evaluated apart"
    given = {"mass-fraction": share}
    rows.add("strength", given, "density_20c_kg_m3", density, 1e-6, "rel", "formula", OIML, where)
    rows.add("strength", given, "abv_percent", 100 * strength, 1e-6, "rel", "formula", OIML, where)
    given = {"abv": f"{strength:.12f}"}
    rows.add("strength", given, "mass_fraction_ethanol", share, 1e-8, "abs", "formula", OIML, where)
    given = {"density": f"{density:.9f} kg/m3"}
    rows.add("strength", given, "abv_percent", 100 * strength, 1e-4, "abs", "formula", OIML, where)

# Equilibria. Tolerances: pressure 1 % and vapour 0.006 for the static method at 30 degC; 2 % and
# 6 % of the partial pressure for the headspace method at 25 degC; 0.6 K and 0.012 for the still of
# Carey & Lewis; 0.8 K and 0.02 for that of Kirschbaum & Gerstner, whose neighbouring points scatter
# by as much.
path = pathlib.Path(__file__).with_name("ethanol_water_vle.csv")
table = list(csv.DictReader(path.open()))
STEP = {"pemberton-mash-1978": 2, "yang-1979": 2, "carey-lewis-1932": 1, "kirschbaum-1939": 3}
for source, step in STEP.items():
    points = [row for row in table if row["source"] == source]
    for row in points[::step]:
        t, p = float(row["temperature_k"]), float(row["pressure_pa"])
        x, y = row["liquid_mole_fraction"], float(row["vapour_mole_fraction"])
        warm = {"mole-fraction": x, "temperature": f"{t} K"}
        pressed = {"mole-fraction": x, "pressure": f"{p} Pa"}
        add = lambda given, output, value, tolerance, kind: rows.add(
            "boil-alcohol", given, output, value, tolerance, kind, "measured", source, f"x = {x}"
        )
        if source == "pemberton-mash-1978":
            add(warm, "pressure_pa", p, 0.01, "rel")
            add(warm, "vapour_mole_fraction", y, 0.006, "abs")
        elif source == "yang-1979":
            add(warm, "pressure_pa", p, 0.02, "rel")
            add(warm, "ethanol_partial_pressure_pa", y * p, 0.06, "rel")
        elif source == "carey-lewis-1932":
            add(pressed, "boiling_point_c", t - KELVIN, 1.0 if float(x) < 0.03 else 0.6, "abs")
            add(pressed, "vapour_mole_fraction", y, 0.02 if float(x) < 0.03 else 0.012, "abs")
        else:
            add(pressed, "boiling_point_c", t - KELVIN, 0.8, "abs")
            add(pressed, "vapour_mole_fraction", y, 0.02, "abs")

one, low = {"pressure": "101325 Pa"}, {"pressure": "5 kPa"}
rows.add("azeotrope", one, "azeotrope_mole_fraction", 0.894, 0.01, "abs", "measured", "carey-lewis-1932", "azeotrope")
rows.add("azeotrope", one, "azeotrope_temperature_c", 78.15, 0.15, "abs", "measured", "carey-lewis-1932", "azeotrope")
rows.add("azeotrope", {"pressure": "100 kPa"}, "azeotrope_mole_fraction", 0.899, 0.01, "abs", "measured", "susial-2021", "abstract")
rows.add("azeotrope", {"pressure": "100 kPa"}, "azeotrope_temperature_c", 351.39 - KELVIN, 0.4, "abs", "measured", "susial-2021", "abstract")
rows.add("azeotrope", low, "azeotrope_exists_bool", 0, 0, "abs", "measured", "horsley-1973", "none below about 70 mmHg (from memory)")
rows.add("ethanol", {"temperature": "25 °C"}, "ethanol_activity_coefficient_infinite_dilution", 3.69, 0.12, "rel", "measured", "sander-2015", "Henry's constant 1.9 mol/(m3 Pa); listed values spread by 12 %")
rows.add("ethanol", {"temperature": "25 °C"}, "ethanol_latent_heat_vaporisation_j_kg", 42.32e3 / 0.0460684, 0.003, "rel", "measured", "majer-svoboda-1985", "42.32 kJ/mol (from memory)")

for celsius in (0, 10, 25, 40, 60, 78):
    t, given = celsius + KELVIN, {"temperature": f"{celsius} °C"}
    pressure = coolprop.PropsSI("P", "T", t, "Q", 0, "Ethanol")
    heat = coolprop.PropsSI("H", "T", t, "Q", 1, "Ethanol") - coolprop.PropsSI("H", "T", t, "Q", 0, "Ethanol")
    rows.add("ethanol", given, "ethanol_saturation_pressure_pa", pressure, 0.001, "rel", "library", "coolprop-8-0-0", "PropsSI('P', 'T', T, 'Q', 0, 'Ethanol')")
    rows.add("ethanol", given, "ethanol_latent_heat_vaporisation_j_kg", heat, 0.02, "rel", "library", "coolprop-8-0-0", "PropsSI('H') at Q = 1 less Q = 0; calorimetry and equation of state differ by up to 2 %")

# Freezing and fire.
for percent, celsius in ((5, -2.1), (15, -7.4), (20, -10.9), (30, -20.5), (35, -25.1), (50, -37.7)):
    rows.add("freeze-alcohol", {"mass-fraction": f"{percent} %"}, "freezing_point_c", celsius, max(0.2, 0.03 * -celsius), "abs", "measured", "crc-solutions", "ethanol (from memory); compilations differ by 3 %")
for share in (0.02, 0.1, 0.25, 0.4, 0.55, 0.6):
    freezing = coolprop.PropsSI("T_freeze", "T", 300, "P", 101325, f"INCOMP::MEA[{share}]") - KELVIN
    rows.add("freeze-alcohol", {"mass-fraction": share}, "freezing_point_c", freezing, 0.001, "abs", "library", "coolprop-8-0-0", "PropsSI('T_freeze'), INCOMP::MEA (Melinder 2010)")
for percent, celsius in ((10, -4), (30, -15), (40, -23), (60, -37), (70, -48)):
    rows.add("freeze-alcohol", {"abv": f"{percent} %"}, "freezing_point_c", celsius, 2.5, "abs", "measured", "engineering-toolbox-ethanol", "freezing points, whole degrees; within 2.2 K of Melinder")
for percent, celsius in ((5, 62), (10, 49), (20, 36), (30, 29), (40, 26), (50, 24), (60, 22), (70, 21), (80, 20), (90, 17), (96, 17)):
    rows.add("flammable", {"mass-fraction": f"{percent} %"}, "flash_point_c", celsius, 4, "abs", "measured", "engineering-toolbox-ethanol", "flash points; handbooks scatter by 4 K")

# Cooking.
for minutes, percent in ((15, 40), (60, 25), (90, 20), (150, 5)):
    rows.add("cook-off", {"time": f"{minutes} min"}, "alcohol_retained_percent", percent, 0.01, "abs", "official", "usda-retention-6", "alcohol, stirred in, baked or simmered")
rows.add("cook-off", {"method": "flamed"}, "alcohol_retained_percent", 75, 0.01, "abs", "official", "usda-retention-6", "alcohol, flamed")
rows.add("cook-off", {"method": "off-the-heat"}, "alcohol_retained_percent", 85, 0.01, "abs", "official", "usda-retention-6", "alcohol, added to boiling liquid, off the heat")
rows.add("cook-off", {"method": "simmered", "time": "150 min"}, "alcohol_retained_percent", 5, 2, "abs", "measured", "augustin-1992", "beef pot roast in red wine")
rows.add("cook-off", {"method": "baked-unstirred"}, "alcohol_retained_percent", 45, 2, "abs", "measured", "augustin-1992", "scalloped oysters with sherry, 25 min")
rows.print()
