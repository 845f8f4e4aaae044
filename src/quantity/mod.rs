//! Amounts with units: what people write, typed SI values, and amounts as a cook would measure.
//!
//! Every public function of the floors above takes and returns these types, so that a pressure can
//! never be handed in where a temperature is due. A value is held in the SI unit of its dimension;
//! each other unit has one constructor and one accessor. This folder is the only place that knows
//! 273.15, 3600 or the size of a cup.

mod dimension;
mod duration;
mod parse;
mod show;
mod types;
mod units;

pub use dimension::Dimension;
pub use duration::{iso_duration, parse_iso_duration};
pub use parse::{Amount, AmountError, parse_amount, parse_in};
pub use show::{cook_mass, cook_temperature, cook_time, cook_volume, range_text, significant};
pub use types::*;
pub use units::{Measures, Unit, find_unit, units_of};
