//! Questions about settling, spinning and filtering.

mod filtering;
mod pores;
mod rotor;
mod sediment;
mod settling;

use super::Question;

/// The questions of this file.
pub const QUESTIONS: &[Question] = &[
    settling::PARTICLE_SPEED,
    settling::SETTLE,
    settling::HINDERED,
    settling::DRAG,
    rotor::SPIN,
    rotor::PELLETING,
    rotor::EQUIVALENT_TIME,
    sediment::SEDIMENT,
    sediment::CREAM,
    sediment::CLARITY,
    sediment::SIZES,
    filtering::FILTER,
    filtering::DRIP,
    filtering::STRAIN,
    filtering::CAKE_LIQUID,
    pores::BED,
    pores::PERMEABILITY,
    pores::MEMBRANE,
    pores::CAPILLARY,
];
