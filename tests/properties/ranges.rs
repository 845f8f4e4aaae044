//! Outside its stated range a law gives an error, not a number.

use standin::calc::CalcError;
use standin::physics::PhysicsError;

use super::asking::try_ask;

/// A question and inputs that lie just outside what its law was published for.
const OUTSIDE: &[(&str, &str)] = &[
    ("boil", "pressure = 600 Pa"),
    ("boil", "pressure = 22.1 MPa"),
    ("boiling-pressure", "temperature = -0.1 C"),
    ("boiling-pressure", "temperature = 374 C"),
    ("altitude", "altitude = -2001 m"),
    ("altitude", "altitude = 11001 m"),
    ("altitude", "pressure = 22 kPa"),
    ("altitude", "pressure = 128 kPa"),
    ("ice", "temperature = 0.1 C"),
    ("ice-under-vacuum", "pressure = 612 Pa"),
    ("ice-under-vacuum", "pressure = 0 Pa"),
    ("air", "temperature = 20 C; relative-humidity = 101 %"),
    ("air", "temperature = 201 C; relative-humidity = 1 %"),
    ("strength", "abv = 101 %"),
    ("strength", "abv = -1 %"),
    ("strength", "mass-fraction = 1.01"),
    ("strength", "mole-fraction = -0.01"),
    ("strength", "abv = 40 %; temperature = 41 C"),
    ("strength", "density = 780 kg/m3"),
    ("boil-alcohol", "abv = 12 %; pressure = 1.9 kPa"),
    ("boil-alcohol", "abv = 12 %; pressure = 121 kPa"),
    ("azeotrope", "pressure = 121 kPa"),
    ("ethanol", "temperature = -25 C"),
    ("ethanol", "temperature = 230 C"),
    ("freeze-alcohol", "mass-fraction = 0.9"),
    ("distil", "abv = 12 %; evaporated = 100 %; pressure = 5 kPa"),
    ("distil", "mass-fraction = 0.95; evaporated = 10 %"),
    ("dealcoholise", "abv = 12 %; target-abv = 13 %; pressure = 5 kPa"),
    ("cook-off", "method = simmered; time = 10 min"),
    ("cook-off", "method = simmered; time = 3 h"),
    ("sugar-solubility", "temperature = -14 C"),
    ("sugar-solubility", "temperature = 101 C"),
    ("refractometer", "reading = 24 %; temperature = 4 C"),
    ("refractometer", "reading = 24 %; temperature = 31 C"),
    ("freeze-syrup", "temperature = -36 C"),
    ("boil-syrup", "boiling-point = 90 C"),
    ("boil-syrup", "boiling-point = 101 C; brix = 70 %"),
    ("brine-for", "temperature = -22 C"),
    ("brine-for", "temperature = 1 C"),
    ("food-component", "component = fat; temperature = -41 C"),
    ("food-component", "component = fat; temperature = 151 C"),
    ("frozen-share", "water = 75 %; freezing-point = -30 C; temperature = -40 C"),
    ("frozen-share", "water = 120 %; temperature = -20 C"),
    ("frozen-share", "water = 75 %; protein = 30 %; temperature = -20 C"),
    ("conduction", "biot = 0; fourier = 1"),
    ("conduction", "biot = 1; fourier = 1; place = 1.1"),
    ("core-time", "thickness = 30 mm; start = 5 C; surroundings = 60 C; target = 61 C"),
    ("core-time", "thickness = 30 mm; start = 5 C; surroundings = 60 C; target = 4 C"),
    (
        "freeze-time",
        "thickness = 20 mm; heat-transfer = 50 W/(m2 K); start = 5 C; surroundings = -4 C",
    ),
    (
        "freeze-time",
        "thickness = 20 mm; heat-transfer = 50 W/(m2 K); start = 5 C; surroundings = -25 C; final-centre = 5 C",
    ),
    ("plank-factors", "ratio-1 = 0.9; ratio-2 = 2"),
    ("thaw", "thickness = 40 mm; heat-transfer = 2 W/(m2 K); start = -18 C; surroundings = 10 C"),
    ("crystal-size", "rate = 0.01 cm/h"),
    ("cook-value", "temperature = 170 C; time = 1 min"),
    ("cook-value", "temperature = 90 C; time = 1 min; z-cook = 0.5 K"),
    ("vitamin-c", "temperature = 190 C; time = 1 min"),
    (
        "vitamin-c",
        "rate = 1e-4 1/s; reference = 10 K; activation-energy = 80 kJ/mol; temperature = 90 C; time = 1 min",
    ),
    ("evaporate", "water-temperature = 60 C; air-speed = 21 m/s"),
    ("flash-cool", "start-temperature = 140 C; end-temperature = 20 C"),
    ("moisture", "monolayer = 0.06; c = 12; k = 1.2; water-activity = 0.9"),
    ("moisture", "model = bet; monolayer = 0.06; c = 12; water-activity = 0.6"),
    ("glass", "substance = lactose; water-share = 60 %"),
    ("dry-page", "k = 0.05; n = 0.01; moisture-ratio = 0.1"),
    ("dry-page", "k = 0.05; moisture-ratio = 1.1"),
    ("dried-yield", "water-before = 100 %; water-after = 20 %"),
    ("freeze-dry", "thickness = 10 mm; chamber-pressure = 700 Pa; shelf-temperature = 20 C"),
    ("freezer-dry", "thickness = 5 mm; freezer-temperature = -51 C"),
    ("aroma-compound", "compound = limonene; temperature = 131 C"),
    ("aroma-left", "relative-volatility = 3; water-evaporated = 101 %"),
    ("oil-water-partition", "log-p = 7.5"),
    ("drag", "reynolds = 1.1e5"),
    ("hindered", "reynolds = 0.1; crowding-share = 61 %"),
    ("sediment", "force = 41000 g; feed-solids = 6 %"),
    ("permeability", "particle-diameter = 100 um; porosity = 1.1"),
    ("shear", "viscosity-ratio = 1e-7"),
    ("shear", "viscosity-ratio = 1001"),
    ("cryogen", "leaving-temperature = 70 K"),
    ("cryogen", "pressure = 120 kPa"),
    ("gas-volume", "temperature = 340 K"),
    ("gas-solubility", "gas = nitrous-oxide; temperature = 41 C; partial-pressure = 1 bar"),
    ("gas-solubility", "temperature = -2 C; partial-pressure = 1 bar"),
    ("vacuum-infuse", "pores = 90 %; vacuum = 5 kPa"),
];

#[test]
fn outside_its_range_a_law_refuses() {
    let mut faults = Vec::new();
    for (question, given) in OUTSIDE {
        match try_ask(question, given) {
            Ok(answer) => faults.push(format!("{question} ({given}): {:?}", answer.values)),
            Err(CalcError::Physics(PhysicsError::NoConvergence { .. })) => {
                faults.push(format!("{question} ({given}) looks for a number it cannot have"));
            }
            Err(CalcError::Physics(_) | CalcError::Combination { .. }) => {}
            Err(error) => faults.push(format!("{question} ({given}) is not understood: {error}")),
        }
    }
    assert!(faults.is_empty(), "{} answers:\n{}", faults.len(), faults.join("\n"));
}

#[test]
fn amounts_that_cannot_exist_are_refused() {
    for (question, given) in [
        ("dried-yield", "water-before = 90 %; water-after = 20 %; mass = -1 kg"),
        ("vitamin-c", "temperature = 90 C; time = -1 s"),
        ("core-temperature", "thickness = 30 mm; start = 5 C; surroundings = -300 C; time = 1 min"),
        ("laplace", "interfacial-tension = 5 mN/m; droplet-diameter = -1 um"),
        ("water", "temperature = 0 K"),
    ] {
        let error = try_ask(question, given).expect_err(given);
        assert!(
            matches!(error, CalcError::Combination { .. } | CalcError::Amount { .. }),
            "{given}: {error}"
        );
    }
}
