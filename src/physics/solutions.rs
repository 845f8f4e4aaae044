//! Sugar syrups and other solutions: density, freezing, boiling, viscosity, water activity.
