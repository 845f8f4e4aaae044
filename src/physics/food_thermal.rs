//! Thermal properties and ice content of food from its composition.
