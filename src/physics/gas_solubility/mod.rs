//! Carbon dioxide and nitrous oxide dissolved in water; gas in pores.
//!
//! Answers how much gas a drink holds under a pressure, what pressure a wanted fizz needs, what a
//! cartridge does in a siphon, and what vacuum does to the air in fruit.

mod carbonation;
mod henry;
mod pores;

pub use carbonation::{
    Siphon, SiphonState, gas_volumes, pressure_for_concentration, time_to_dissolve,
};
pub use henry::{
    Drink, SolubleGas, carbon_dioxide_volatility, dissolved, henry_solubility, henry_volatility,
};
pub use pores::{PoreFilling, pores_filled};
