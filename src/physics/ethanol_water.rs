//! Ethanol and water: strength, density, boiling, freezing, flammability.
