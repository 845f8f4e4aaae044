//! A small knowledge base for tests of files that users write; its numbers are invented.

use standin::knowledge::load::File;
use standin::knowledge::{Knowledge, Layer};

const TEXT: &str = r#"
[quantity.ph]
meaning = "pH"
unit = "1"
[quantity.piece_mass]
meaning = "mass of one piece"
unit = "g"
[quantity.density]
meaning = "density"
unit = "kg/m³"
[quantity.freezer_temperature]
meaning = "temperature"
unit = "°C"

[[attribute]]
id = "soluble-solids"
name = "soluble solids"
unit = "°Brix"
better = "more"
group = "strength"
notice = { difference = { typical = 1, unit = "°Brix", source = "invented" } }
[[attribute]]
id = "aroma-top"
name = "top notes kept"
unit = "%"
better = "more"
group = "aroma"
notice = { difference = { typical = 10, unit = "%", source = "invented" } }
[[attribute]]
id = "time"
name = "time"
unit = "min"
better = "less"
group = "effort"
notice = { ratio = { typical = 1.2, source = "invented" } }

[[goal]]
id = "water-removed-cold"
name = "water removed cold"
summary = "Water leaves."
attribute = "soluble-solids"
target = { typical = 60, unit = "°Brix", source = "invented" }
reach = "at least"

[[process]]
id = "evaporate"
summary = "Boils water away."
loads = "in the model"
[process.parameters.diameter]
meaning = "diameter of the pan"
unit = "cm"
[process.parameters.power]
meaning = "heat put in"
unit = "W"
[process.parameters.pressure]
meaning = "pressure over the food"
unit = "mbar"
[process.parameters.bath_temperature]
meaning = "temperature of the bath"
unit = "°C"
[process.parameters.volume]
meaning = "what it holds"
unit = "L"
[quantity.efficiency]
meaning = "share of the heat that reaches the food"
unit = "%"

[[food]]
id = "pear-juice"
name = "pear juice"
synonyms = ["juice of pears"]
group = "juice"
source = "invented"
composition = { water = 87.5, carbohydrate = 12.0, sugars = 10.0, acid = 0.3, ash = 0.3, protein = 0.2 }
values = { density = { typical = 1048, unit = "kg/m³" } }
[[food]]
id = "citric-acid"
name = "citric acid"
group = "acid"
source = "invented"
composition = { carbohydrate = 100.0, acid = 100.0 }
[[food]]
id = "pear"
name = "pear"
group = "fruit"
source = "invented"
composition = { water = 84.0, carbohydrate = 15.4, sugars = 10.0, fibre = 3.0, ash = 0.3, protein = 0.3 }
values = { piece_mass = { typical = 178, unit = "g" } }
[[food]]
id = "celery"
name = "celery"
group = "vegetable"
source = "invented"
composition = { water = 95.4, carbohydrate = 3.0, ash = 0.8, protein = 0.7, fat = 0.2 }
allergens = ["celery"]

[[technique]]
id = "vacuum-concentration"
name = "vacuum concentration"
synonyms = ["rotary evaporation", "vacuum evaporation"]
summary = "Boils under low pressure."
achieves = "Removes water cold."
goals = ["water-removed-cold"]
compare = ["soluble-solids", "aroma-top"]
demo_food = "pear-juice"
[[technique.move]]
process = "evaporate"
uses = ["rotary-evaporator"]
do = "Evaporate."
settings = { pressure = { typical = 75, unit = "mbar", source = "invented" } }

[[route]]
id = "wide-pan-simmer"
name = "wide pan"
summary = "Simmers in a wide pan."
serves = ["vacuum-concentration"]
hands_on = { typical = 10, unit = "min", source = "invented" }
[[route.move]]
process = "evaporate"
uses = ["wide-pan", "hob"]
do = "Simmer for {time}."
settings = { }

[[appliance]]
id = "rotary-evaporator"
name = "rotary evaporator"
summary = "A flask that turns in a bath under vacuum."
found = "laboratory"
[[appliance]]
id = "electric-hob"
name = "electric hob"
summary = "A hob."
found = "home"
fills = ["hob"]
source = "common practice"
[appliance.values]
power = { typical = 2, unit = "kW" }
efficiency = { typical = 70, unit = "%" }
[[appliance]]
id = "wide-pan"
name = "wide pan"
synonyms = ["broad pan", "sauté pan"]
summary = "A pan."
found = "home"
source = "common practice"
values = { diameter = { typical = 26, unit = "cm" }, power = { typical = 1, unit = "kW" } }
[[appliance]]
id = "freezer"
name = "freezer"
summary = "A freezer."
found = "home"
source = "common practice"
values = { freezer_temperature = { typical = -18, unit = "°C" } }
[[appliance]]
id = "immersion-blender"
name = "immersion blender"
synonyms = ["stick blender", "hand blender"]
summary = "A blender."
found = "home"

[[supply]]
id = "cotton-cloth"
name = "cotton cloth"
summary = "A cloth."
fills = ["cloth"]
[[supply]]
id = "agar"
name = "agar"
synonyms = ["agar agar"]
summary = "A gelling agent."
[[supply]]
id = "gelatine"
name = "gelatine"
summary = "A gelling agent."
[[supply]]
id = "salt"
name = "salt"
summary = "Salt."
everyday = true
"#;

/// Links the small knowledge base.
pub fn knowledge() -> Knowledge {
    let file = File { path: "small.toml".to_owned(), text: TEXT.to_owned() };
    let layer = Layer { name: "small".to_owned(), files: vec![file] };
    Knowledge::from_layers(&[layer]).unwrap_or_else(|error| panic!("{:#?}", error.findings))
}
