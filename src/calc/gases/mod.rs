//! Questions about gases and cryogens.

mod cold;
mod fizz;
mod room;

use super::Question;
use crate::physics::cryogen::Gas;

/// The questions of this file.
pub const QUESTIONS: &[Question] = &[
    cold::CRYOGEN,
    cold::NITROGEN,
    cold::DRY_ICE,
    cold::COLD_LOSS,
    room::GAS_VOLUME,
    room::ROOM_GAS,
    fizz::GAS_SOLUBILITY,
    fizz::CARBONATE,
    fizz::NITROUS,
    fizz::VACUUM_INFUSE,
];

/// The gases by name; the first is the default.
const GASES: &[&str] = &[
    "carbon-dioxide",
    "nitrogen",
    "oxygen",
    "argon",
    "nitrous-oxide",
    "carbon dioxide",
    "nitrous oxide",
    "CO2",
    "N2",
    "O2",
    "Ar",
    "N2O",
];

fn gas_named(word: &str) -> Gas {
    match word {
        "nitrogen" | "N2" => Gas::Nitrogen,
        "oxygen" | "O2" => Gas::Oxygen,
        "argon" | "Ar" => Gas::Argon,
        "nitrous-oxide" | "nitrous oxide" | "N2O" => Gas::NitrousOxide,
        _ => Gas::CarbonDioxide,
    }
}
