//! What heat does to microbes, nutrients, colour and texture over time.
//!
//! Answers how many decimal reductions, which cook value or how much of a vitamin follows from a
//! hold, a profile of ramps and holds, or a recorded history, and how times convert from one
//! temperature to another. The numbers of organisms are in [`crate::physics::pathogens`].
//! Symbols: D decimal reduction time, z kelvin for a tenfold rate, F equivalent time, k rate,
//! Ea activation energy.

mod arrhenius;
mod lethality;
mod profile;
mod records;

pub use arrhenius::{Arrhenius, activation_energy_from_z, z_from_activation_energy};
pub use lethality::{COOK_VALUE, DecimalReduction, EquivalentTime, PASTEURISATION, STERILISATION};
pub use profile::{Segment, history_segments, total_time};
pub use records::{QUALITY_LOSSES, QualityLoss, SOFTENING, Softening, quality_loss, softening};
